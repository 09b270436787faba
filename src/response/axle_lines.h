/* axle_lines.h - influence lines of a rolling unit axle for a tile of effects, at every lateral position. */
#ifndef SS_RESPONSE_AXLE_LINES_H
#define SS_RESPONSE_AXLE_LINES_H

#include "response/axle_plan.h"

/** Intervals that share one bound in the search. */
enum { SS_GROUP = 4 };

/**
 * Values of SS_TILE effects under a unit axle. Within an interval of stations an effect is a cubic of s in
 * [0, 1]; at stations it may jump. Plans that have the lines of another one have only their own `beam`
 * values.
 */
typedef struct ss_axle_lines {
    const ss_axle_plans *plans;
    int group_count;
    double *cubic;      /**< plan x interval x 4 x SS_TILE: coefficients of 1, s, s^2, s^3 */
    double *beam;       /**< plan x beam station x SS_TILE: wheels on floor beams */
    double *curve;      /**< plan x interval x SS_TILE: largest |second derivative| by s */
    double *high, *low; /**< plan x group x SS_TILE: bounds over SS_GROUP intervals, on floor beams too */
    bool *jump;         /**< plan x station: some effect jumps there */
    double *line;       /**< scratch: element_count x 4 x SS_TILE */
} ss_axle_lines;

ss_status ss_axle_lines_create(const ss_axle_plans *plans, ss_axle_lines *out, ss_error *error);
void ss_axle_lines_destroy(ss_axle_lines *lines);

/** Fills all for the influence fields of `count` effects, z[0 .. reference_count) (order x SS_TILE each):
 * each plan has those of its reference. `effects` (count) adds what a load within an effect's own member
 * does, and is NULL when there is none (forces of springs). */
void ss_axle_lines_fill(ss_axle_lines *lines, const double *const *z, int reference_count,
                        const ss_effect *effects, int count);

static inline const double *ss_axle_lines_cubic(const ss_axle_lines *lines, int plan, int interval) {
    const ss_axle_plans *p = lines->plans;
    const size_t own = (size_t)p->plan[plan].lines_of;
    return lines->cubic + (own * (size_t)p->interval_count + (size_t)interval) * 4 * SS_TILE;
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
