/* posting_parts.h - what the parts of a posting share: the posting in the making and its sentences. */
#ifndef SS_ASSESS_POSTING_PARTS_H
#define SS_ASSESS_POSTING_PARTS_H

#include "sillspan/posting.h"
#include "sillspan/text.h"

enum { SS_POSTING_WORDS = 48 };

typedef struct ss_posting_builder {
    const ss_bridge *bridge;
    const ss_placements *placements;
    const ss_ratings *ratings;
    ss_posting made;
    bool failed; /**< no memory: everything below does nothing */
} ss_posting_builder;

/** Whether a check counts for the posting of that vehicle. */
bool ss_posting_counts(const ss_posting_builder *b, const ss_check *check, const ss_vehicle *vehicle);

/** Smallest factor of the vehicle of that name over all its crossings that are no alternatives, by a method
 * and level, deflection apart; NaN: not rated. */
double ss_posting_smallest(const ss_posting_builder *b, const char *name, ss_method method, ss_level level);

/** A text in the posting's arena; "" after a failure. */
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
const char *
ss_posting_text(ss_posting_builder *b, const char *format, ...);

/** The same, added to the reasons or the notes. */
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
void ss_posting_reason(ss_posting_builder *b, const char *format, ...);
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
void ss_posting_note(ss_posting_builder *b, const char *format, ...);

/** "15 tons", "13.5 t", with so many decimals. */
const char *ss_posting_weight(double weight_N, ss_unit_system units, int decimals,
                              char buffer[SS_POSTING_WORDS]);

/** Whether a row goes into the sign for one truck at a time, or into that for trucks that may meet. */
bool ss_posting_in_sign(const ss_posting_builder *b, const ss_posting_row *row, bool one);

/** Both signs' limits. */
void ss_posting_set_signs(ss_posting_builder *b);

/** Words of both signs, the recommendation, reasons and notes. */
void ss_posting_say(ss_posting_builder *b);

/** Items of the inventories. */
void ss_posting_record(ss_posting_builder *b);

#endif
