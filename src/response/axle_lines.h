/* axle_lines.h - influence lines of a rolling unit axle for a tile of effects, at every lateral position. */
#ifndef SS_RESPONSE_AXLE_LINES_H
#define SS_RESPONSE_AXLE_LINES_H

#include "response/axle_plan.h"
#include "response/tile_kernel.h"

/**
 * Values of SS_TILE effects under a unit axle. Within an interval of stations an effect is a cubic of s in
 * [0, 1]; at stations it may jump. Plans that have the lines of another one have only their own `beam`
 * values.
 */
typedef struct ss_axle_lines {
    const ss_axle_plans *plans;
    const ss_tile_kernel *kernel;
    double *cubic; /**< plan x interval x 4 x SS_TILE: coefficients of 1, s, s^2, s^3; `beam` follows */
    double *beam;  /**< plan x beam station x SS_TILE: wheels on floor beams */
    double *curve; /**< plan x interval x SS_TILE: largest |second derivative| by s */
    bool *jump;    /**< plan x station: some effect jumps there */
    double *line;  /**< element_count x 4 x SS_TILE: a unit force along a line's element */
    bool *filled;  /**< plan x interval: cubic and curve are there */
    bool *lined;   /**< element: so is `line` */
    bool *own;     /**< element: some effect of the tile lies in it */
    const double *z;
    const ss_effect *effects;
    int count; /**< of effects with loads within their own member */
} ss_axle_lines;

ss_status ss_axle_lines_create(const ss_axle_plans *plans, ss_axle_lines *out, ss_error *error);
void ss_axle_lines_destroy(ss_axle_lines *lines);

/** Begins a tile with the influence fields z (order x SS_TILE) of its effects, which stay where they are;
 * what is asked for is filled then. `effects` (count) adds what a load within an effect's own member does,
 * and is NULL when there is none (forces of springs). */
void ss_axle_lines_begin(ss_axle_lines *lines, const double *z, const ss_effect *effects, int count);

/** Fills one interval of a plan that has lines of its own. */
void ss_axle_lines_interval(ss_axle_lines *lines, int plan, int interval);
/** Fills `beam` of a plan. */
void ss_axle_lines_points(ss_axle_lines *lines, int plan);
/** Value at the beginning of an interval, without filling it. */
void ss_axle_lines_start(ss_axle_lines *lines, int plan, int interval, double out[SS_TILE]);

/** Begins and fills all. */
void ss_axle_lines_fill(ss_axle_lines *lines, const double *z, const ss_effect *effects, int count);

/** How far a plan's values (`step`) and slopes (`kink`, per m) change at a station between two filled
 * intervals. */
void ss_axle_lines_station(const ss_axle_lines *lines, int plan, int station, double step[SS_TILE],
                           double kink[SS_TILE]);
/** Fills `jump` of a plan whose intervals are filled. */
void ss_axle_lines_jumps(ss_axle_lines *lines, int plan);

static inline const double *ss_axle_lines_cubic(const ss_axle_lines *lines, int plan, int interval) {
    const ss_axle_plans *p = lines->plans;
    const size_t own = (size_t)p->plan[plan].lines_of;
    return lines->cubic + (own * (size_t)p->interval_count + (size_t)interval) * 4 * SS_TILE;
}

/** Row of `cubic` that an interval of a plan begins at, and a beam station. */
static inline int ss_axle_row_cubic(const ss_axle_plans *plans, int plan, int interval) {
    return 4 * (plans->plan[plan].lines_of * plans->interval_count + interval);
}
static inline int ss_axle_row_beam(const ss_axle_plans *plans, int plan, int beam_station) {
    return 4 * plans->count * plans->interval_count + plan * plans->beam_station_count + beam_station;
}

/** The same, filled if it is not. */
static inline const double *ss_axle_lines_get(ss_axle_lines *lines, int plan, int interval) {
    const ss_axle_plans *p = lines->plans;
    const size_t own = (size_t)p->plan[plan].lines_of;
    if (!lines->filled[own * (size_t)p->interval_count + (size_t)interval]) {
        ss_axle_lines_interval(lines, (int)own, interval);
    }
    return ss_axle_lines_cubic(lines, plan, interval);
}

/** Fills all intervals of a plan that are not. */
static inline void ss_axle_lines_whole(ss_axle_lines *lines, int plan) {
    for (int i = 0; i < lines->plans->interval_count; i++) (void)ss_axle_lines_get(lines, plan, i);
}

static inline const double *ss_axle_lines_beam(const ss_axle_lines *lines, int plan, int beam_station) {
    return lines->beam +
           ((size_t)plan * (size_t)lines->plans->beam_station_count + (size_t)beam_station) * SS_TILE;
}

static inline const double *ss_axle_lines_curve(const ss_axle_lines *lines, int plan, int interval) {
    const ss_axle_plans *p = lines->plans;
    return lines->curve +
           ((size_t)p->plan[plan].lines_of * (size_t)p->interval_count + (size_t)interval) * SS_TILE;
}

static inline bool ss_axle_lines_jump(const ss_axle_lines *lines, int plan, int station) {
    const ss_axle_plans *p = lines->plans;
    return lines->jump[(size_t)p->plan[plan].lines_of * (size_t)p->mesh->station_count + (size_t)station];
}

#endif
