/* reach_exact.h - the inside of the exact search of one packed tile under one traffic. */
#ifndef SS_RESPONSE_REACH_EXACT_H
#define SS_RESPONSE_REACH_EXACT_H

#include <string.h>

#include "response/reach_member.h"

enum { SS_DEMANDS_MOST = 24 };

/** How far each effect of the tile is from its limits without live load, in one pattern. */
typedef struct ss_reach_room {
    int demand, dead, surveyed;
    float most[SS_TILE], least[SS_TILE]; /**< INFINITY: no limit */
} ss_reach_room;

/** A place with the bounds of the tile in each surveyed pattern that it may have. */
typedef struct ss_reach_bounded {
    int place;
    float key; /**< how near its bounds are to the largest of all places: 1 at most */
} ss_reach_bounded;

typedef struct ss_reach_exact_task {
    ss_reach_job *job;
    const int *effect; /**< lanes */
    int lanes, traffic;
    int room_count;
    ss_reach_room *room;       /**< demand x dead x surveyed */
    ss_reach_room *local_room; /**< demand x dead: scratch */
    float worth[SS_DEMANDS_MOST]
               [SS_TILE];    /**< what live effects are multiplied by to be compared with rooms */
    float *bounds;           /**< place x 2 x SS_TILE: most, least */
    ss_reach_bounded *order; /**< places */
} ss_reach_exact_task;

/** A vehicle at one place, and what it does there with all bearings closed. */
typedef struct ss_reach_stand {
    ss_position position; /**< of the first truck, or of the only one */
    double closed[SS_TILE];
    const double *live; /**< n: reactions with all bearings closed */
    bool always;        /**< see ss_reach_stand_begin */
    bool followed[SS_REACH_DEADS];
    double seen_at[SS_DEMANDS_MOST][2];
    signed char seen[SS_DEMANDS_MOST]
                    [2]; /**< openings at the multiple found so far: 1 known, -1 not to be had */
    ss_growth growth[SS_REACH_DEADS];
} ss_reach_stand;

/** A lane of the tile that may beat what has been found. */
typedef struct ss_reach_try {
    const ss_reach_room *room;
    int lane;
    bool most;
    double estimated; /**< multiple */
    int pattern;      /**< that the estimate was made in */
} ss_reach_try;

/** Follows a lane at a stand, and keeps what is found if it is the least. */
ss_status ss_reach_try_stand(ss_reach_exact_task *x, const ss_reach_try *t, ss_reach_stand *stand);

/** The same for a truck with a lane load, which is laid where it is adverse in the pattern at the limit. */
ss_status ss_reach_try_loaded(ss_reach_exact_task *x, const ss_reach_try *t, const ss_reach_stand *truck);

/** What a lane load is laid for: an effect of the tile in a pattern, with its weights (see
 * ss_patterns_weigh). */
typedef struct ss_reach_lane_key {
    int demand, lane, pattern;
    bool most;
    const double *weight;
} ss_reach_lane_key;

/** The lane load of a track's train where it is adverse, and how much of it counts (N/m); NULL: it has none.
 */
const ss_lane_load *ss_reach_lane_on(const ss_reach_exact_task *x, const ss_reach_lane_key *key, int track,
                                     double *by);

/** What it is of the effect in the pattern; 0 where there is none. */
double ss_reach_lane_value(const ss_reach_exact_task *x, const ss_reach_lane_key *key, int track);

/** Effect of the lane load that is part of what was found for a demand, in the pattern at its factor. */
ss_status ss_reach_lane_effect(const ss_reach_exact_task *x, int demand, double *effect);

static inline ss_lane_tile ss_reach_lane_tile(const ss_reach_exact_task *x) {
    const ss_reach_worker *const w = x->job->worker;
    return (ss_lane_tile){&w->lines, w->opening, &w->reach->dead[0], w->reach->lane_reactions, x->lanes};
}

/** Searches the effects of the tile exactly under every traffic asked and lowers the member's results. The
 * worker's lines are those with all bearings closed, its bounds those of the tile. */
ss_status ss_reach_exact(ss_reach_exact_task *x, const bool *traffic_asked, ss_error *error);

/** What live effects are multiplied by to be compared with rooms, after what has been found for a demand. */
void ss_reach_worth(ss_reach_exact_task *x, int demand);

/** Whether some lane may beat what has been found. */
bool ss_reach_beats(const ss_reach_room *room, const float *restrict worth, const float *restrict high,
                    const float *restrict low);

/** Forgets patterns that the worker has met when they are too many; no number of one is to be held on to,
 * other than those of the reach. */
ss_status ss_reach_tidy(ss_reach_exact_task *x);

/** Tries all stands, cells and points of a place. */
ss_status ss_reach_visit(ss_reach_exact_task *x, const ss_reach_place *place);

/** What was found for a demand, while it is moved. */
typedef struct ss_reach_moved {
    ss_reach_exact_task *x;
    int demand, lane, dead, track;
    bool most;
    ss_course course;  /**< of the track, with the axles that stand there */
    ss_vehicle spaced; /**< they, when `own`; else those of the track's train */
    bool own;
} ss_reach_moved;

/** False: nothing was found that can be moved. */
bool ss_reach_moved_begin(ss_reach_exact_task *x, int demand, ss_reach_moved *out);

/** The factor with the front axle at x, which takes the place of what was found if it is less. */
ss_status ss_reach_factor_at(ss_reach_moved *m, double x, bool on_beam, double *factor);

/** Moves axles of what was found for a demand apart or together, where their distance may vary, to where its
 * factor is least. */
ss_status ss_reach_spread(ss_reach_exact_task *x, int demand);

/** Bearings that open or close bend effects within cells: moves what was found for a demand along its track
 * to where its factor is least. */
ss_status ss_reach_move(ss_reach_exact_task *x, int demand);

/** By the general way, for one effect of the member. */
ss_status ss_reach_general(const ss_reach_exact_task *x, int e, int dead, double closed, const double *live,
                           double target, bool most, ss_reach *out);

/** Follows all factors found once more in the general way, and fills in what else is told of them. */
ss_status ss_reach_confirm(ss_reach_exact_task *x, ss_error *error);

/** Multiple at which what was found would be at its limit if the bearings kept the pattern in which the
 * vehicle finds them: those that only touch under dead load open or close at once. */
double ss_reach_linear(const ss_reach_exact_task *x, const ss_reached *found, const ss_reach_kept *kept,
                       double target);

/** A stand about which nothing is known yet. `always`: its multiple is wanted even if it does not beat what
 * has been found. What growths hold is not set. */
static inline void ss_reach_stand_begin(ss_reach_stand *stand, const ss_position *position,
                                        const double *live, bool always) {
    stand->position = *position;
    stand->live = live;
    stand->always = always;
    memset(stand->followed, 0, sizeof stand->followed);
    memset(stand->seen, 0, sizeof stand->seen);
}

/** First multiple of the plain vehicle at which a lane's effect reaches its limit; INFINITY: none. */
ss_status ss_reach_multiple_at(ss_reach_exact_task *x, int lane, int demand, int dead, bool most,
                               ss_reach_stand *stand, double *multiple);

/** Index in the worker's `seen` and `seen_pattern` of a demand under one of its dead loads. */
static inline size_t ss_reach_seen_slot(const ss_reach_exact_task *x, int demand, int dead) {
    return 2 * (size_t)demand + (x->job->member->demands[demand].dead[0] == dead ? 0 : 1);
}

/** Notes that what stands there tips the bridge, if that was seen on the way to its limit. `position`: of
 * each of `count` trucks. */
void ss_reach_note_tipped(const ss_reach_exact_task *x, int demand, int dead, const ss_reach_stand *stand,
                          const ss_position *position, int count);

/** The same where the multiple is known. */
void ss_reach_note_tips(const ss_reach_exact_task *x, int demand, int dead, double multiple,
                        const ss_position *position, int count);

/** Whether a factor found at a position takes the place of what has been found. */
bool ss_reach_replaces(const ss_reached *best, double factor, const ss_position *position, int effect);

#endif
