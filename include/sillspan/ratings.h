/* ratings.h - rating factors of every member, for every crossing, by every check, each with its terms. */
#ifndef SILLSPAN_RATINGS_H
#define SILLSPAN_RATINGS_H

#include "sillspan/envelope.h"
#include "sillspan/method.h"

/**
 * One factor: the smallest multiple of the vehicle at which the factored effect reaches the capacity.
 * rf = (capacity - dead) / (live_factor x presence x (1 + allowance) x live), bearings' contact solved at
 * that load.
 */
typedef struct ss_rating_item {
    int check;        /**< in ss_ratings.checks */
    int traffic;      /**< in placements->traffic */
    ss_effect effect; /**< member, place, side, kind: moment; web plus or minus count as web shear; of a joint
                         its shear; deflection */
    bool most;        /**< the largest governs; false: the least (hogging, shear of the other sign) */
    double rf;        /**< INFINITY when the crossing only relieves; 0 when dead load alone is too much */
    double rf_linear; /**< the same place and position with the bearings' state under dead load kept */
    bool local; /**< trucks abreast whose open bearings go round in a circle: found by moving one truck at a
                   time; a worse arrangement may exist, but see `proved` */
    double proved;             /**< two trucks abreast, governing under their check and crossing: for this
                                  section no       arrangement of all `arrangements` of the places tried is full, or tips
                                  the             bridge, below       this factor, bearings that lift included; NaN: that
                                  was not             looked into or             did not come       to an end */
    double arrangements;       /**< a whole number; 0 when `proved` is NaN */
    bool joint_out;            /**< of the bridge with the joint out, which is full before the members are */
    bool tips;                 /**< at rf the bridge tips before the section is full */
    bool minimum_dead;         /**< the smallest dead load factors govern */
    ss_resistance nominal;     /**< NaN for deflection */
    ss_method_factors factors; /**< dc and dw are those that govern */
    double capacity;           /**< signed like the effect; of deflection the limit */
    double dead;               /**< factored dead effect */
    double live; /**< unit vehicle with its lane load, without allowance and presence, at rf; 0 when it only
                    relieves */
    double
        lane_live; /**< of the lane's uniform load alone, in the bearings' contact at rf; 0: there is none */
    double lane_share; /**< what of it is in `live`: 1, or 1 / (1 + allowance) where the allowance is not for
                          it */
    int lane_count;
    const ss_lane_stretch *lane; /**< lane_count: where it lies, along the tracks of the trucks */
    int truck_count;             /**< trucks on the bridge: 1, or one a lane */
    ss_position
        position[SS_LANES_MAX]; /**< of each; position[0].track -1: no place has an effect of that sign */
    double tons;                /**< rf times gross weight, in US tons of force (2000 lbf) */
} ss_rating_item;

typedef struct ss_ratings {
    ss_check checks[SS_CHECKS_MAX];
    int check_count;
    ss_rating_item *items; /**< the governing section of each member, kind, traffic and check; sorted by
                              check, traffic, member, kind */
    int count;
    int traffic_count;
    int *governing; /**< check_count x traffic_count: item with the smallest rf, or -1 */
    int *worst; /**< check_count: the smallest of all traffic, or -1; deflection apart from strength by its
                   check */
    int controlling; /**< the smallest of all but deflection checks, or -1 */
    const char **notes;
    int note_count; /**< sections that could not be rated and why; vehicles that do not fit */
    ss_arena arena;
} ss_ratings;

/**
 * Rates lines and floor beams at every one of `effects` in bending, web shear and deflection, and joints that
 * have a capacity, under all traffic. Dead load counts with its largest and with its smallest factors. The
 * first multiple at which a section is full is found by following the bearings' contact as the truck grows,
 * at every position that may govern. Errors: SS_ERROR_TIPPING when factored dead load alone tips the bridge;
 * SS_ERROR_CHECK when a governing state, solved again, is beyond its capacity. `progress` may be NULL.
 */
ss_status ss_ratings_compute(const ss_permanent *permanent, const ss_placements *placements,
                             const ss_effect *effects, int effect_count,
                             void (*progress)(void *context, double done), void *context, ss_ratings *out,
                             ss_error *error);
void ss_ratings_destroy(ss_ratings *ratings);

/**
 * The same with an item for each place of a member in place of the governing one, so that factors can be
 * drawn over the length: each effect under the one of the traffic that `traffics` has for it, without
 * deflection. Nothing is proven of trucks abreast: where a proof found a worse arrangement, the factor of
 * ss_ratings_compute is the smaller one.
 */
ss_status ss_ratings_along(const ss_permanent *permanent, const ss_placements *placements,
                           const ss_effect *effects, const int *traffics, int effect_count, ss_ratings *out,
                           ss_error *error);

/** How far below the factor found a proven one may be for both to count as one. */
#define SS_RATING_PROVED_WITHIN 0.02

/** Whether a worse arrangement of trucks abreast than the one found may be: it was sought by moving one truck
 * at a time, and no proof comes near it. */
static inline bool ss_rating_may_be_worse(const ss_rating_item *item) {
    return item->local && !(item->proved >= (1.0 - SS_RATING_PROVED_WITHIN) * item->rf);
}
/** Makes `governing`, `worst` and `controlling` of the items, in the arena; checks, items and counts are
 * there. */
ss_status ss_ratings_govern(const ss_bridge *bridge, const ss_placements *placements, ss_ratings *out);

/** `worst` and `controlling` from `governing`. */
void ss_ratings_decide(const ss_bridge *bridge, const ss_placements *placements, ss_ratings *out);

/** Whether the settings leave a member out of what governs: a secondary one that is released. */
bool ss_rating_released(const ss_bridge *bridge, const ss_effect *effect);

/** The facts of a traffic's crossing; a run, or traffic of no crossing, is one truck alone. */
ss_crossing_facts ss_traffic_facts(const ss_bridge *bridge, const ss_traffic *traffic);

static inline int ss_ratings_governing(const ss_ratings *ratings, int check, int traffic) {
    return ratings->governing[(long)check * ratings->traffic_count + traffic];
}

#endif
