/* watch_parts.h - a watch on one bridge: where its effects and loads are there, and what they come to. */
#ifndef SS_STUDIES_WATCH_PARTS_H
#define SS_STUDIES_WATCH_PARTS_H

#include "assess/ratings_demands.h"
#include "sillspan/watch.h"

/** What the bridge that was added first asks, with all names and arrays in the memory of the watch. */
typedef struct ss_watch_asked {
    ss_vehicle *vehicles;
    int vehicle_count, rated_count;
    ss_crossing *crossings;
    int crossing_count;
    ss_run *runs;
    int run_count;
    ss_lane_rule lanes;
    double roadway_left, roadway_right, wheel_to_curb;
} ss_watch_asked;

/** Whether two trains load the same: axles, wheels, lane load. */
bool ss_watch_same_truck(const ss_vehicle *a, const ss_vehicle *b);

/** The first variant that is added tells what traffic there is; SS_ERROR_LIMIT when this one has another. */
ss_status ss_watch_meet(ss_watch *watch, const ss_variant *variant, ss_error *error);

/** SS_ERROR_LIMIT when a bridge has other trucks or roadways, or other checks; nothing watched yet is SS_OK.
 */
ss_status ss_watch_same_asked(const ss_watch *watch, const ss_bridge *bridge, ss_error *error);
ss_status ss_watch_same_checks(const ss_watch *watch, const ss_check *checks, int count, ss_error *error);

/** Effects and loads of a watch on one mesh. Arrays are in the arena. */
typedef struct ss_watch_placed {
    const ss_watch *watch;
    const ss_mesh *mesh;
    ss_effect *effect; /**< effect_count */
    bool *there;       /**< effect_count: the bridge has such a place */
    int *first;        /**< stand_count + 1: of the loads below */
    int *dof;
    double *force;  /**< nodal load of a unit multiple (N, N m) */
    double *within; /**< item_count: part of the live effect from loads within its own element */
    ss_arena arena;
} ss_watch_placed;

/** False: the bridge has no such place. */
bool ss_watch_locate(const ss_mesh *mesh, const ss_watched_effect *named, ss_effect *out);

ss_status ss_watch_place(const ss_watch *watch, const ss_mesh *mesh, ss_watch_placed *out, ss_error *error);
void ss_watch_unplace(ss_watch_placed *placed);

/** What effects and loads come to with all bearings closed, in one state of the joints. n contact springs.
 * Arrays belong to who made it. */
typedef struct ss_watch_answers {
    int n;
    const double *S; /**< n x n, see ss_grillage_contact */
    int dead_count;
    double *r_dead;  /**< dead_count x n */
    double *e_dead;  /**< dead_count x effect_count */
    double *opening; /**< effect_count x n: effect of a unit opening of each spring */
    double *r_live;  /**< stand_count x n */
    double *e_live;  /**< item_count */
} ss_watch_answers;

/** Room for all of it but S; NULL where there is no memory. */
ss_status ss_watch_answers_make(const ss_watch *watch, int n, int dead_count, ss_arena *arena,
                                ss_watch_answers *out, ss_error *error);

/** The checks of a bridge, the dead loads that they ask for, and the unfactored one at the end. */
typedef struct ss_watch_checks {
    ss_check_list list;
    int dead_count; /**< list.factor_count + 1 */
    ss_dead_factors dead[SS_REACH_DEADS + 1];
} ss_watch_checks;

/** SS_ERROR_LIMIT when there are other trucks or checks than those watched. */
ss_status ss_watch_checks_make(const ss_watch *watch, const ss_bridge *bridge, ss_watch_checks *out,
                               ss_error *error);

/** What the sections of rated items may reach: independent of stiffness. */
typedef struct ss_watch_limits {
    double *target;             /**< item_count: factored capacity, signed like the effect; NaN: not rated */
    double *scale;              /**< item_count: unit trucks in the factored ones */
    ss_method_factors *factors; /**< item_count */
} ss_watch_limits;

/** In the arena. */
ss_status ss_watch_limits_make(const ss_watch_placed *placed, const ss_permanent *permanent,
                               const ss_watch_checks *checks, ss_arena *arena, ss_watch_limits *out,
                               ss_error *error);

/** What solving contact works with. */
typedef struct ss_watch_scratch {
    double *work;
    bool *open;
} ss_watch_scratch;

ss_status ss_watch_scratch_make(int n, ss_arena *arena, ss_watch_scratch *out, ss_error *error);

/** Values of all items out of the answers. SS_ERROR_TIPPING when the unfactored dead load tips the bridge. */
ss_status ss_watch_evaluate(const ss_watch_placed *placed, const ss_watch_checks *checks,
                            const ss_watch_limits *limits, const ss_watch_answers *answers,
                            const ss_watch_scratch *scratch, ss_watch_value *values);

#endif
