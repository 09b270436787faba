/* rating_notes.h - remarks on sections that cannot be rated, or not fully, one for each section and reason.
 */
#ifndef SS_ASSESS_RATING_NOTES_H
#define SS_ASSESS_RATING_NOTES_H

#include "sillspan/envelope.h"
#include "sillspan/resistance.h"

typedef struct ss_rating_note {
    int section;         /**< in bridge->sections, or -1 */
    const char *what;    /**< constant: the remark, which also tells remarks apart */
    const char *members; /**< the first few, in words */
    int member_count;
    ss_member_kind last_member; /**< the one added last, so that none is counted twice */
    int last_index;
} ss_rating_note;

/** A zeroed struct is an empty list. `arena` owns everything. */
typedef struct ss_rating_notes {
    ss_arena *arena;
    ss_rating_note *items;
    int count, capacity;
} ss_rating_notes;

/** Notes `what` of the section at an effect of a line or floor beam. */
ss_status ss_rating_notes_section(ss_rating_notes *notes, const ss_bridge *bridge, const ss_effect *effect,
                                  const char *what);

/** The remarks as sentences. */
ss_status ss_rating_notes_text(const ss_rating_notes *notes, const ss_bridge *bridge, const char ***out,
                               int *count);

#endif
