/* section_loss.h - a section as found: plates that got thinner or came off, a box that opened. */
#ifndef SS_MODEL_SECTION_LOSS_H
#define SS_MODEL_SECTION_LOSS_H

#include "sillspan/section.h"

/** Flags the plates that a word means: a plate's name, or "webs" or "flanges" where no plate is called so.
 * Returns how many. */
int ss_section_pick(const ss_section *section, const char *word, bool picked[SS_PLATES_MAX]);

/** Thickness (m) of a plate: its smaller side. */
double ss_plate_thickness(const ss_plate *plate);

/*
 * Each of these changes a copy of a sound section in place. Overriding values of the description follow what
 * is computed from the plates in proportion. `depth` stays that of the sound section. They return
 * SS_ERROR_DESCRIPTION, the section in no sound state, when what is left is no section.
 */

/** The picked plates keep `left` times their thickness (0 to 1). Flanges lose it from their outer face, which
 * is for the worse; webs from both faces. */
ss_status ss_section_thin(ss_section *section, const bool picked[SS_PLATES_MAX], double left);

/** The picked plates carry nothing; they still weigh. */
ss_status ss_section_detach(ss_section *section, const bool picked[SS_PLATES_MAX]);

/** A closed or battened cell counts as open; an overriding J no longer holds. */
ss_status ss_section_open(ss_section *section);

#endif
