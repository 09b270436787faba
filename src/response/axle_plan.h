/* axle_plan.h - how an axle of unit load at one lateral position comes to the members, all along the bridge.
 */
#ifndef SS_RESPONSE_AXLE_PLAN_H
#define SS_RESPONSE_AXLE_PLAN_H

#include "response/placements.h"

/** Part of a unit axle on one element, while the axle is within one interval of stations: weight and torque
 * vary linearly along it. */
typedef struct ss_axle_share {
    int element;
    bool across;             /**< a floor beam's bay (deck that spans along) */
    double at;               /**< across: where on the bay */
    double weight0, weight1; /**< at both ends of the interval */
    double arm0,
        arm1; /**< torque about x (m): along the line, or on the end node of the bay that is nearer */
} ss_axle_share;

/** Part of a unit axle that stands over a floor beam. */
typedef struct ss_axle_point {
    int element;
    bool across;
    double at; /**< position along the element */
    double weight, arm;
} ss_axle_point;

/** One lateral position. Arrays are in the arena of the list. */
typedef struct ss_axle_plan {
    double y, gauge;
    int lines_of; /**< plan whose influence lines hold here too (itself, or one within a hair) */
    bool fine;    /**< only fine tracks run here */
    int *first;   /**< interval_count + 1 */
    ss_axle_share *share;
    int *point_first; /**< beam_station_count + 1 */
    ss_axle_point *point;
    bool *on_beam; /**< beam_station_count: some wheel stands on a beam there */
} ss_axle_plan;

typedef struct ss_axle_plans {
    const ss_mesh *mesh;
    int interval_count;
    int count;
    ss_axle_plan *plan;
    int *of_axle; /**< track_count x SS_AXLES_MAX: see ss_axle_plan_of */
    int *of_area; /**< of each line of placements->area_lines: one wheel there */
    int beam_station_count;
    int *beam_station; /**< stations with floor beams, ascending; none when the deck spans along */
    double *shape;     /**< element_count x 6 x 4: ss_element_shape */
    ss_arena arena;
} ss_axle_plans;

/** Where an axle is: just after x, or, where it is exactly at a station, just before it in the interval to
 * the left. */
typedef struct ss_axle_at {
    int interval; /**< just after x; -1: off the bridge */
    int station;  /**< at which it is, or -1 */
    int beam;     /**< in beam_station: it is over floor beams there, or -1 */
    double s;     /**< in `interval` */
} ss_axle_at;

ss_status ss_axle_plans_build(const ss_mesh *mesh, const ss_placements *placements, ss_axle_plans *out,
                              ss_error *error);
void ss_axle_plans_destroy(ss_axle_plans *plans);

/** Where one axle is along the bridge; `beam` is -1. */
ss_axle_at ss_axle_locate(const ss_axle_plans *plans, double x);

/** Plan of one axle of a track's train: axles of another gauge have another one. */
static inline int ss_axle_plan_of(const ss_axle_plans *plans, int track, int axle) {
    return plans->of_axle[(size_t)track * SS_AXLES_MAX + (size_t)axle];
}

#endif
