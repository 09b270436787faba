/* working.h - the steps of a calculation, so that it can be followed by hand. */
#ifndef SILLSPAN_WORKING_H
#define SILLSPAN_WORKING_H

#include "sillspan/units.h"

/** One step. Texts are constants, or live as long as the bridge. */
typedef struct ss_working_step {
    const char *symbol;  /**< as the standard writes it: "Lp" */
    const char *meaning; /**< "longest unbraced length for full strength, rt sqrt(E / Fy)" */
    double value;        /**< SI; NaN: words alone */
    ss_dimension dimension;
    const char *source; /**< "AASHTO LRFD 6.10.8.2.3 (from memory)"; NULL: geometry or given */
} ss_working_step;

enum { SS_WORKING_MOST = 128 };

/** Steps in the order in which one would write them down; beyond SS_WORKING_MOST they are counted and not
 * kept. */
typedef struct ss_working {
    ss_working_step steps[SS_WORKING_MOST];
    int count; /**< may be larger than SS_WORKING_MOST */
} ss_working;

/** Adds a step; nothing when `working` is NULL: rules are called with NULL where only their result matters.
 */
static inline void ss_working_add(ss_working *working, const char *symbol, const char *meaning, double value,
                                  ss_dimension dimension, const char *source) {
    if (working == NULL) {
        return;
    }
    if (working->count < SS_WORKING_MOST) {
        working->steps[working->count] = (ss_working_step){symbol, meaning, value, dimension, source};
    }
    working->count++;
}

#endif
