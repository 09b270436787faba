/* permanent_parts.h - the dead load of a bridge without a slab, or of one before its slab. */
#ifndef SS_RESPONSE_PERMANENT_PARTS_H
#define SS_RESPONSE_PERMANENT_PARTS_H

#include "sillspan/permanent.h"

/** Which dead loads count: bit 1 << ss_dead_when. */
enum {
    SS_DEAD_TODAY = 1 << SS_DEAD_STAYS | 1 << SS_DEAD_REMOVED,
    SS_DEAD_IN_THE_END = 1 << SS_DEAD_STAYS | 1 << SS_DEAD_WET | 1 << SS_DEAD_LATER
};

/** Adds the dead loads of a component that `which` and `pours` (of wet ones, bit by bit) name. */
ss_status ss_permanent_dead_loads(ss_load *load, const ss_bridge *bridge, ss_component component, int which,
                                  uint32_t pours, ss_error *error);

/** Loads, locks, seats and the state of today, all stiffness and joints as the grillage has them; without
 * contact fields. */
ss_status ss_permanent_today(const ss_bridge *bridge, const ss_grillage *grillage, ss_permanent *out,
                             ss_error *error);

/** Stages of a bridge with a slab into `p`, whose loads and arrays are made: stages, today, seat, lock,
 * locked. */
ss_status ss_stages_compute(const ss_bridge *bridge, ss_permanent *p, ss_error *error);
void ss_stages_destroy(ss_permanent *p);

#endif
