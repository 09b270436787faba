/* lane_choice.h - the worst truck in each lane out of the best of every place across. */
#ifndef SS_RESPONSE_LANE_CHOICE_H
#define SS_RESPONSE_LANE_CHOICE_H

#include "sillspan/bridge.h"

/** What is chosen from: truck 0 is the crossing's own, the others are those of its other lanes. */
typedef struct ss_lane_choice {
    const ss_bridge *bridge;
    const ss_crossing *crossing;
    int slot_count[SS_ABREAST_MAX];  /**< places across of each truck */
    const double *y[SS_ABREAST_MAX]; /**< of them, ascending (m) */
    double *sum;                     /**< scratch: SS_LANES_MAX x slots, the largest count */
    int *through;                    /**< scratch, as large */
} ss_lane_choice;

/** One truck in each lane. */
typedef struct ss_lane_pick {
    bool room;               /**< false: there is none for them */
    int which[SS_LANES_MAX]; /**< truck in each lane */
    int slot[SS_LANES_MAX];  /**< and its place */
    double value;            /**< sum over the lanes; -INFINITY where there is no room */
} ss_lane_pick;

/**
 * The largest sum of `best` (of each truck, by slot) over one truck in each lane, in any order of the lanes,
 * as far apart and as far from the curbs as the lane rule asks: exact, going through the lanes from left to
 * right with the largest sum so far over sorted places.
 */
ss_lane_pick ss_lane_choose(const ss_lane_choice *choice, const double *const best[SS_ABREAST_MAX]);

#endif
