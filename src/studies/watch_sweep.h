/* watch_sweep.h - a watch on one bridge for any stiffness of its joints, out of one factorisation. */
#ifndef SS_STUDIES_WATCH_SWEEP_H
#define SS_STUDIES_WATCH_SWEEP_H

#include "studies/watch_parts.h"

typedef struct ss_watch_sweep ss_watch_sweep; /**< read-only once made; any number of threads may ask */

/**
 * `variant`: structure and permanent load made, with the swept springs as they are at k = 1. The watch and
 * the variant outlive the sweep.
 */
ss_status ss_watch_sweep_create(const ss_watch *watch, const ss_variant *variant, int swept_count,
                                const int *swept, ss_watch_sweep **out, ss_error *error);
void ss_watch_sweep_destroy(ss_watch_sweep *sweep);

/**
 * All items (item_count values) with the swept springs k times as stiff, k from 0 to INFINITY: what
 * ss_watch_compute finds on a bridge so described, gaps and later shims set anew under its own dead load.
 * SS_ERROR_MECHANISM and SS_ERROR_TIPPING when it does not stand.
 */
ss_status ss_watch_sweep_at(const ss_watch_sweep *sweep, double k, ss_watch_value *values, ss_error *error);

#endif
