/* lane_choice.h - the worst truck in each lane out of the best of every place across. */
#ifndef SS_RESPONSE_LANE_CHOICE_H
#define SS_RESPONSE_LANE_CHOICE_H

#include "sillspan/bridge.h"

/** What is chosen from: vehicle 0 is the crossing's own, vehicle 1 the one in its other lanes. */
typedef struct ss_lane_choice {
    const ss_bridge *bridge;
    const ss_crossing *crossing;
    bool same;          /**< both vehicles are one: only 0 is looked at */
    int slot_count[2];  /**< places across of each vehicle */
    const double *y[2]; /**< of them, ascending (m) */
    double *sum;        /**< scratch: SS_LANES_MAX x slots, the larger count */
    int *through;       /**< scratch, as large */
} ss_lane_choice;

/** One truck in each lane. */
typedef struct ss_lane_pick {
    int own;                /**< lane of the crossing's own vehicle; -1: there is no room */
    int slot[SS_LANES_MAX]; /**< of each lane, in the places of its vehicle */
    double value;           /**< sum over the lanes; -INFINITY where there is no room */
} ss_lane_pick;

/** Vehicle in a lane of a pick: 0 or 1. */
static inline int ss_lane_pick_vehicle(const ss_lane_choice *choice, const ss_lane_pick *pick, int lane) {
    return lane == pick->own || choice->same ? 0 : 1;
}

/**
 * The largest sum of `best` (of each vehicle, by slot) over one truck in each lane, as far apart and as far
 * from the curbs as the lane rule asks: exact, going through the lanes from left to right with the largest
 * sum so far over sorted places.
 */
ss_lane_pick ss_lane_choose(const ss_lane_choice *choice, const double *const best[2]);

#endif
