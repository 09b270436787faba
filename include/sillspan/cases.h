/* cases.h - the bridge under each case of placed loads: what the probes read and what the bearings carry. */
#ifndef SILLSPAN_CASES_H
#define SILLSPAN_CASES_H

#include "sillspan/permanent.h"

/** One case, solved with contact on all of its load. */
typedef struct ss_case_result {
    int index;          /**< in bridge->cases */
    double *probe;      /**< probe_count: SI value of each probe */
    double *reaction;   /**< bearing_count: N, positive up */
    bool *open;         /**< bearing_count: the bearing has lifted off */
    double load;        /**< N, downward sum of the placed loads */
    double outside;     /**< N of placed load that found no car under it */
    double equilibrium; /**< error, see ss_grillage_equilibrium */
} ss_case_result;

typedef struct ss_case_list {
    ss_case_result *items; /**< one for each case of the bridge, in its order */
    int count;
    ss_arena arena;
} ss_case_list;

/**
 * Solves every case of the permanent state's bridge, unfactored; the dead load is on where the case says so.
 * SS_ERROR_TIPPING and the like name the case in words. On failure *out is empty.
 */
ss_status ss_cases_compute(const ss_permanent *permanent, ss_case_list *out, ss_error *error);
void ss_cases_destroy(ss_case_list *list);

/** Adds one placed load of the bridge to `load`. */
ss_status ss_cases_add(const ss_bridge *bridge, const ss_placed_load *placed, ss_load *load, ss_error *error);

#endif
