/* reach.h - the smallest multiple of each vehicle at which some effect of a member reaches its limit, over
 * all places where the vehicle may be, bearings opening and closing while it grows. */
#ifndef SS_RESPONSE_REACH_H
#define SS_RESPONSE_REACH_H

#include "response/bins.h"
#include "response/contact_model.h"
#include "response/lane_load.h"
#include "response/patterns.h"

/** Dead loads that a search knows. */
enum { SS_REACH_DEADS = 8 };

/** Patterns that stand for all others where estimates will do. */
enum { SS_REACH_PATTERNS = 2 };

/** Multiples of the plain vehicle that patterns are followed to: beyond any factor of interest. */
#define SS_REACH_MOST 12.0

/** Multiples of the plain vehicle at which patterns are looked at. */
enum { SS_REACH_LEVELS = 4 };
#define SS_REACH_LEVEL_VALUES                                                                                \
    { 1.2, 2.2, 4.0, 7.0 }

/** A block of a course on a strip where a traffic's tracks go. */
typedef struct ss_reach_place {
    int course, strip, block;
    int base;            /**< surveyed pattern that is nearest to those met there */
    const float *beyond; /**< n: openings per unit multiple beyond those by that pattern, mean of samples */
    const int *local;    /**< dead_count x SS_REACH_LEVELS: pattern in the middle of the block */
} ss_reach_place;

/** The least multiple at which a vehicle, or trucks abreast, were found to tip the bridge. */
typedef struct ss_reach_tip {
    double multiple; /**< INFINITY: none */
    int truck_count;
    ss_position position[SS_LANES_MAX];
} ss_reach_tip;

/** Made once for a bridge and its traffic; read by all threads. */
typedef struct ss_reacher {
    const ss_permanent *permanent;
    const ss_placements *placements;
    const ss_mesh *mesh;
    ss_axle_plans plans;
    ss_courses courses;
    ss_bins bins;
    int n; /**< contact springs */
    const double *S;
    ss_patterns patterns;
    int dead_count;
    ss_dead_factors factors[SS_REACH_DEADS];
    ss_contact_model
        dead[SS_REACH_DEADS]; /**< dead[0] has the lines of the reactions and the forces of springs */
    int dead_pattern[SS_REACH_DEADS];
    int surveyed_count; /**< patterns that estimates are made for */
    int surveyed[SS_REACH_PATTERNS];
    int *base; /**< (course, strip, block): surveyed pattern nearest to those met there; -1: no train there */
    float *beyond;         /**< (course, strip, block) x n: see ss_reach_place */
    int *local;            /**< (course, strip, block) x dead_count x SS_REACH_LEVELS */
    size_t *base_first;    /**< course: first (strip, block) */
    ss_reach_place *place; /**< of each traffic, from place_first[traffic] to place_first[traffic + 1] */
    int *place_first;
    ss_reach_tip *tips;     /**< dead x traffic */
    double *lane_reactions; /**< see ss_lane_reactions; NULL: no train has a lane load */
} ss_reacher;

/** `factors` (dead_count): the dead loads that limits are asked under. SS_ERROR_TIPPING when one tips the
 * bridge by itself. */
ss_status ss_reach_create(const ss_permanent *permanent, const ss_placements *placements,
                          const ss_dead_factors *factors, int dead_count, ss_reacher *out, ss_error *error);
void ss_reach_destroy(ss_reacher *reach);

/** Effect of the dead load numbered `dead`, contact solved. `work`: as many as contact springs. */
double ss_reach_dead(const ss_reacher *reach, int dead, const ss_effect *effect, double *work);

/** Index of a block on a strip in `base`. */
static inline size_t ss_reach_block(const ss_reacher *reach, int course, int strip, int block) {
    return reach->base_first[course] + (size_t)strip * (size_t)reach->courses.items[course].block_count +
           (size_t)block;
}

/** Reactions (n) of a train on a track, all bearings closed. */
void ss_reach_reactions(const ss_reacher *reach, const ss_course *course, int track, const ss_axle_at *at,
                        bool left, double *live);

/** Notes where a vehicle alone tips the bridge, for the traffic that the track is of. */
void ss_reach_note_tip(ss_reacher *reach, int dead, const ss_position *position, double multiple);

/** Looks for vehicles that tip the bridge at its edges, and moves those found, and those known before, to
 * where they do so first. */
ss_status ss_reach_refine_tips(ss_reacher *reach, ss_error *error);

/** Drives every train along a few tracks: fills `surveyed`, `base`, `beyond`, `local` and `tips`. */
ss_status ss_reach_sample(ss_reacher *reach, ss_error *error);

/** What is asked of a member: limits of its effects under up to two dead loads. */
typedef struct ss_demand {
    int dead_count;
    int dead[2];
    bool over_dead;            /**< limits are for what is added to the dead effect */
    bool least_too;            /**< false: only the largest values have a limit */
    const double *limit;       /**< of the largest value of each effect, positive; NaN: none */
    const double *limit_least; /**< of the least values, NaN where `limit` is; NULL: as `limit` */
    const double *scale;       /**< traffic x effects: unit vehicles in one factored vehicle; 0: not asked */
    const double *lane_share;  /**< traffic x effects: what of a lane load counts with the vehicle, where the
                                  allowance in `scale` is not for it; NULL: all of it */
} ss_demand;

/** The first to reach its limit. */
typedef struct ss_reached {
    double factor; /**< multiple of the factored vehicle; INFINITY: none does */
    double linear; /**< the same place with the bearings' pattern under dead load kept */
    double proved; /**< trucks abreast: no arrangement of the places reaches the limit below that; 0: that was
                      not looked into, or did not come to an end */
    double arrangements; /**< their number, when `proved` is not 0 */
    bool local;          /**< trucks abreast: found by moving one at a time */
    double live;         /**< live effect of the plain vehicle there with all bearings closed */
    int effect;          /**< in the member's; -1: no position has an effect of that sign */
    int dead;            /**< of the reach */
    bool most;
    int truck_count;
    ss_position position[SS_LANES_MAX];
} ss_reached;

/** Lane loads of what was found. */
typedef struct ss_reached_lane {
    double effect; /**< of all of them as they count with the plain vehicle, in the bearings' pattern at the
                      factor */
    int count;
    ss_lane_stretch stretch[SS_LANE_STRETCHES];
} ss_reached_lane;

/** A member: effects of one kind, all of springs or none. */
typedef struct ss_reach_member {
    const ss_effect *effects;
    int count;
    const ss_demand *demands;
    int demand_count;
    ss_reached *reached;   /**< demand_count x traffic_count: results */
    ss_reached_lane *lane; /**< of each of them; NULL when no train has a lane load */
    ss_arena *trains;  /**< of vehicles whose axles are not where their trains have them; NULL: distances that
                          vary are left at their steps */
    ss_reach_tip *tip; /**< two of each of them, for its dead loads: of vehicles with a lane load and of
                          trucks abreast, as far as they were followed; `tips` of the reach has those of a
                          vehicle alone */
} ss_reach_member;

/** A result of trucks abreast of a member that has been searched. */
typedef struct ss_reach_asked {
    const ss_reach_member *member;
    int demand, traffic;
    double below; /**< factor below which arrangements are of interest, if they are full there; 0: the factor
                     found, and how far below it none is full */
} ss_reach_asked;

/** Whether ss_reach_prove can do something about a traffic: two trucks abreast without lane loads on bearings
 * that may lift. */
bool ss_reach_provable(const ss_reacher *reach, int traffic);

/**
 * Goes through all arrangements of the places of two trucks abreast, for the effect that was found to reach
 * its limit first, and fills `proved`; with `below`, only if one is full there. An arrangement that is worse
 * than the one found takes its place. See docs/theory.md. Results that tip, or have a factor of 0 or
 * INFINITY, are left as they are. On several threads; the same bytes for any number of them.
 */
ss_status ss_reach_prove(const ss_reacher *reach, const ss_reach_asked *asked, int count, ss_error *error);

/** Searches members, on several threads; the same bytes for any number of them. */
ss_status ss_reach_members(const ss_reacher *reach, ss_reach_member *members, int count,
                           void (*progress)(void *context, double done), void *context, ss_error *error);

#endif
