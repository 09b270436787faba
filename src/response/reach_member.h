/* reach_member.h - one member of a search for limits: what all its effects need, and what a thread works
 * with. */
#ifndef SS_RESPONSE_REACH_MEMBER_H
#define SS_RESPONSE_REACH_MEMBER_H

#include "response/reach.h"
#include "response/spread.h"

/** Factors that agree within this share are one: the first in order is kept. */
#define SS_REACH_TIE 1e-9

/** Estimates by the few surveyed patterns are trusted to within this share at first, and to what they were
 * found to be off by after that: what they put farther above the best is not followed. */
#define SS_REACH_MARGIN 1.07
#define SS_REACH_MARGIN_BEAM 1.25 /* of floor beams, whose ends bearings may touch */
#define SS_REACH_CLOSE 1.05
#define SS_REACH_MARGIN_MOST 1.3

/** What one thread needs. */
typedef struct ss_reach_worker {
    const ss_reacher *reach;
    ss_patterns patterns; /**< its own: it meets others */
    ss_axle_lines lines;  /**< of a tile with all bearings closed */
    ss_bin_bounds bounds[SS_REACH_PATTERNS];
    double *referred;           /**< order x SS_TILE */
    double *weight;             /**< n x SS_TILE */
    ss_effect effects[SS_TILE]; /**< of the tile at hand */
    bool *near;                 /**< scratch: intervals */
    bool *ready;                /**< plan: its closed lines are filled */
    float *opening; /**< n x SS_TILE: effects of unit openings, of the tile whose bounds were made last */
    double *work;
    double *live, *live_cubic; /**< n; tiles x 4 x SS_TILE */
    double *growth;            /**< deads x SS_STEPS_MOST x 2 x n: openings of the stand at hand */
    double *path_work;
    double *seen;      /**< demands x 2 x n: openings of the stand at hand at the multiples found so far */
    double *opened;    /**< n: scratch */
    int *seen_pattern; /**< demands x 2: patterns of the last one */
    const ss_effect *sample; /**< an effect of the tile whose bounds were made last */
    ss_lane_work lane;
    ss_spread_work spread;
} ss_reach_worker;

/** What a vehicle does at the place found, all bearings closed. */
typedef struct ss_reach_kept {
    double closed;
    double *live; /**< n */
    bool loaded;  /**< its lane load is in both of them: */
    double lane_closed, *lane_live;
} ss_reach_kept;

/** Patterns at the last limits that were found with lane loads, the latest first. */
enum { SS_REACH_MET = 2 };
typedef struct ss_reach_met {
    int count;
    int pattern[SS_REACH_MET];
} ss_reach_met;

/** A member being searched; arrays by effect. */
typedef struct ss_reach_job {
    ss_reach_worker *worker;
    const ss_reach_member *member;
    int tile_count;
    double *field;                   /**< tile x order x SS_TILE: influence fields, all closed */
    double *opening;                 /**< effect x n */
    double *weight;                  /**< surveyed pattern x effect x n: see ss_patterns_weigh */
    double *dead_closed, *dead_true; /**< dead x effect */
    double *dead_in;     /**< dead x surveyed pattern x effect: the dead effect if the pattern were that */
    float *high, *low;   /**< effect x traffic x surveyed pattern: bounds of the live effect */
    bool *done;          /**< effect x traffic: searched exactly */
    double margin;       /**< of estimates; grows */
    ss_reach_kept *kept; /**< demand x traffic */
    ss_reach_met met[SS_REACH_DEADS];
    ss_arena arena;
} ss_reach_job;

ss_status ss_reach_worker_create(const ss_reacher *reach, ss_reach_worker *out, ss_error *error);
void ss_reach_worker_destroy(ss_reach_worker *worker);

/** Solves the fields of a member and bounds its effects under all traffic. */
ss_status ss_reach_survey(ss_reach_worker *worker, const ss_reach_member *member, ss_reach_job *out,
                          ss_error *error);

/** The influence field of a packed tile in a surveyed pattern: `out` = closed + openings (order x SS_TILE).
 */
void ss_reach_refer(const ss_reach_job *job, int surveyed, const int *effect, int count, const double *closed,
                    double *out);

/** Fills the closed lines of all axles of a track, if they are not; the tile was begun (ss_reach_begin). */
void ss_reach_ready(ss_reach_worker *worker, int track);

/** Begins a packed tile: its closed field, and effects (NULL for springs). */
void ss_reach_begin(ss_reach_worker *worker, const double *field, const ss_effect *effects, int count);

/** Fills the lines and bounds of a packed tile in a surveyed pattern from its closed field. */
void ss_reach_bounds(ss_reach_job *job, int surveyed, const int *effect, int count, const double *closed);

/** Bounds of the tile at a place (SS_TILE each), by estimate where bearings lift. */
void ss_reach_bound_place(ss_reach_worker *worker, const ss_reach_place *place, float high[SS_TILE],
                          float low[SS_TILE]);

/** Least factor that an effect can have by its bounds under a traffic for a demand. */
double ss_reach_least(const ss_reach_job *job, int demand, int traffic, int effect);

static inline const double *ss_reach_weight(const ss_reach_job *job, int surveyed, int effect) {
    const size_t at = (size_t)surveyed * (size_t)job->member->count + (size_t)effect;
    return job->weight + at * (size_t)job->worker->reach->n;
}

static inline double ss_reach_dead_in(const ss_reach_job *job, int dead, int surveyed, int effect) {
    const size_t at = ((size_t)dead * (size_t)job->worker->reach->surveyed_count + (size_t)surveyed) *
                          (size_t)job->member->count +
                      (size_t)effect;
    return job->dead_in[at];
}

static inline double ss_reach_scale(const ss_reach_job *job, int demand, int traffic, int effect) {
    return job->member->demands[demand].scale[(size_t)traffic * (size_t)job->member->count + (size_t)effect];
}

/** What lane load (N/m) counts with a plain vehicle that is a train. */
static inline double ss_reach_lane_load(const ss_reach_job *job, int demand, int traffic, int effect,
                                        const ss_vehicle *train) {
    const double *const share = job->member->demands[demand].lane_share;
    const size_t at = (size_t)traffic * (size_t)job->member->count + (size_t)effect;
    return train->lane_N_m * (train->lane_allowance || share == NULL ? 1.0 : share[at]);
}

static inline ss_reached_lane *ss_reach_lane_of(const ss_reach_job *job, int demand, int traffic) {
    return &job->member->lane[(size_t)demand * (size_t)job->worker->reach->placements->traffic_count +
                              (size_t)traffic];
}

/** Value that is the limit of an effect: of the least ones it is negative. */
static inline double ss_reach_target(const ss_reach_job *job, int demand, int dead, int effect, bool most) {
    const ss_demand *const d = &job->member->demands[demand];
    const double from =
        d->over_dead ? job->dead_true[(size_t)dead * (size_t)job->member->count + (size_t)effect] : 0.0;
    return from + (most                     ? d->limit[effect]
                   : d->limit_least != NULL ? -d->limit_least[effect]
                                            : -d->limit[effect]);
}

static inline ss_reached *ss_reach_result(const ss_reach_job *job, int demand, int traffic) {
    return &job->member->reached[(size_t)demand * (size_t)job->worker->reach->placements->traffic_count +
                                 (size_t)traffic];
}

static inline ss_reach_kept *ss_reach_kept_of(const ss_reach_job *job, int demand, int traffic) {
    return &job->kept[(size_t)demand * (size_t)job->worker->reach->placements->traffic_count +
                      (size_t)traffic];
}

#endif
