/* bounds_parts.h - what the parts of the search over a box share. */
#ifndef SS_STUDIES_BOUNDS_PARTS_H
#define SS_STUDIES_BOUNDS_PARTS_H

#include "sillspan/bounds.h"
#include "studies/study_runs.h"

typedef struct ss_boxed {
    ss_runs *runs;
    ss_bounds *out;
    ss_error *error;
} ss_boxed;

/** Lines through the middle, with what each unknown does alone. */
ss_status ss_bounds_lines(ss_boxed *b);
/** Corners, and the places where all lines are worst and best. */
ss_status ss_bounds_corners(ss_boxed *b);
/** Stars spread over the box, with the total effects. */
ss_status ss_bounds_fill(ss_boxed *b);
/** Pattern searches around the worst and the best with the runs that are left. */
ss_status ss_bounds_refine(ss_boxed *b);

/** Whether the unknown has values one by one. */
static inline bool ss_bounds_listed(const ss_unknown *unknown) {
    return unknown->kind == SS_UNKNOWN_DISCRETE;
}

#endif
