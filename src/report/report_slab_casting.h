/* report_slab_casting.h - the parts of a report on casting a slab, and what they share. */
#ifndef SS_REPORT_SLAB_CASTING_H
#define SS_REPORT_SLAB_CASTING_H

#include "report/report_parts.h"

/** A part of what may be reached, in words, rounded up to hundredths: 1.00 is reached and 1.01 is not less.
 * "beyond all" where nothing may be. */
const char *ss_casting_share(ss_builder *b, double demand, double capacity);

/** Name of a stage. */
const char *ss_casting_stage(const ss_slab_casting *casting, int stage);

/** A value, or nothing where it is not known. */
void ss_casting_put(ss_sheet *sheet, double value);

/** Whether the plate that stays as formwork is too weak or sags too far. */
bool ss_casting_form_bad(const ss_casting_form *form);

/** What the stages leave in the girders. */
void ss_casting_say_stages(ss_builder *b, const ss_slab_casting *casting);
/** Lines, floor beams and formwork under wet concrete. */
void ss_casting_say_members(ss_builder *b, const ss_slab_casting *casting);
/** Before and after, and what is taken off and put on. */
void ss_casting_say_bearings(ss_builder *b, const ss_slab_casting *casting);
/** Sag, unlike cars, and what a level surface adds. */
void ss_casting_say_sag(ss_builder *b, const ss_slab_casting *casting);

#endif
