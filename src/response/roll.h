/* roll.h - all positions at which a truck on one track is tried, and what contact does there. */
#ifndef SS_RESPONSE_ROLL_H
#define SS_RESPONSE_ROLL_H

#include "response/contact_model.h"

/** Where an axle is: just after x, or, where it is exactly at a station, just before it in the interval to
 * the left. */
typedef struct ss_axle_at {
    int interval; /**< just after x; -1: off the bridge */
    int station;  /**< at which it is, or -1 */
    int beam;     /**< in beam_station: it stands over floor beams there, or -1 (points only) */
    double s;     /**< in `interval` */
} ss_axle_at;

/** Stands that share one bound: cells between stands first to last (last < first: none), and points. */
typedef struct ss_roll_block {
    int first, last;
    int point_first, point_end;
} ss_roll_block;

/** Where one axle comes to within a block: groups of intervals (axle_lines.h), none when last < first. */
typedef struct ss_axle_range {
    int first, last;
    bool outside; /**< and off the bridge */
} ss_axle_range;

/**
 * Stands along one track, ascending in x: every x at which some axle is at a station, and where the state of
 * contact changes. In the cell between two stands every effect is one cubic. side -1, +1: only just before,
 * just after x (contact jumps there); 0: both. Points are positions with an axle over a floor beam; they come
 * after the stands.
 */
typedef struct ss_roll {
    const ss_vehicle *vehicle;
    int track, plan;
    bool backward;
    int n; /**< contact springs */
    int stand_count, point_count, capacity;
    double *x; /**< stand_count + point_count, like the next five */
    signed char *side;
    bool *valid;    /**< some state of contact holds the truck there */
    ss_axle_at *at; /**< x axle_count */
    double *change; /**< x n: openings less those under dead load, per unit truck; once finished also less
                       those that the truck causes by itself in the reference state */
    int reference;  /**< state, -1: all closed */
    int *state;     /**< of contact, in the finder that the roll was made with; -1: none */
    double
        *bend; /**< stand_count x n: how far openings may leave the chord within the cell that begins there */
    int block_count;
    ss_roll_block *block;
    ss_axle_range *range;                           /**< block_count x axle_count */
    double *change_low, *change_high, *change_bend; /**< block_count x n: over the block */
    bool *moves; /**< block_count: some opening in it differs from that under dead load */
    bool tips;   /**< at tip_x no state of contact holds it */
    double tip_x;
    bool tip_on_beam;
    bool contact_changes; /**< some stand has another state than under dead load */
} ss_roll;

/** Which positions of which track; with contact springs it is solved at each. */
typedef struct ss_roll_task {
    const ss_axle_plans *plans;
    const ss_placements *placements;
    int track;
    bool points_only; /**< no stands: others are known to be worse everywhere but over floor beams */
    ss_contact_finder *finder;
} ss_roll_task;

ss_status ss_roll_build(const ss_roll_task *task, ss_roll *out, ss_error *error);

/** Refers the openings to a state of the finder, and makes the blocks. */
ss_status ss_roll_finish(const ss_axle_plans *plans, ss_contact_finder *finder, int reference, ss_roll *roll,
                         ss_error *error);

void ss_roll_destroy(ss_roll *roll);

/** Where the axles are with the front axle at x (axle_count). With on_beam, axles over floor beams stand on
 * them. */
void ss_roll_locate(const ss_axle_plans *plans, const ss_roll *roll, double x, bool on_beam, ss_axle_at *at);

/** Sum over the axles for a tile: just before (`left`) or just after. */
void ss_roll_sum(const ss_axle_lines *lines, const ss_roll *roll, const ss_axle_at *at, bool left,
                 double out[SS_TILE]);

/** The same sum over the cell of `length` that begins at `at`, as coefficients of 1, t, t^2, t^3 with t from
 * 0 to 1 (4 x SS_TILE). */
void ss_roll_cubic(const ss_axle_lines *lines, const ss_roll *roll, const ss_axle_at *at, double length,
                   double out[4 * SS_TILE]);

/** Closed reactions (n) of the truck. */
void ss_roll_reactions(const ss_contact_model *model, const ss_roll *roll, const ss_axle_at *at, bool left,
                       double *live);

#endif
