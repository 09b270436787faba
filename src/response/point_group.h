/* point_group.h - positions on floor beams of tracks that lie side by side, with what bounds them together.
 */
#ifndef SS_RESPONSE_POINT_GROUP_H
#define SS_RESPONSE_POINT_GROUP_H

#include "response/roll.h"

/** A point of a roll. */
typedef struct ss_group_point {
    int roll, index;
} ss_group_point;

/**
 * Points within one block of two rolls beside each other, of the tracks between them. Through the lines an
 * effect is linear across from one to the other, so that a point differs from what lies between their blocks
 * by the way of the wheels on the beams, and by the openings.
 */
typedef struct ss_point_group {
    int traffic;
    int roll[2], block; /**< rolls with stands */
    bool unknown;       /**< there is no bound */
    int point_first, point_end;
} ss_point_group;

typedef struct ss_point_groups {
    int count, point_count, n;
    ss_point_group *items;
    ss_group_point *point;
    ss_sparse_lists bend;  /**< groups: how far openings differ from those in between */
    ss_sparse_lists wheel; /**< groups: rows of slack of axles on beams (ss_axle_slack.beam) */
    ss_strips strips;
    int capacity, point_capacity;
} ss_point_groups;

/** Of all rolls of `placements`, one for each track, with their blocks made. */
ss_status ss_point_groups_build(const ss_axle_plans *plans, const ss_placements *placements,
                                const ss_roll *rolls, ss_point_groups *out, ss_error *error);
void ss_point_groups_destroy(ss_point_groups *groups);

#endif
