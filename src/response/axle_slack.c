/* axle_slack.c - bounds on curvature, kinks and jumps of axle lines, by windows along the bridge. */
#include "response/axle_slack.h"

#include <string.h>

#include "base/numeric.h"
#include "response/clones.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* Windows along the bridge: fewer are cheaper to bound, more leave less to search. */
enum { WINDOWS = 20 };

/* A place this near to the beginning of a window counts to the one before (m). */
#define NEAR 1e-6

/* A change of a line at a station that is no more than this share of its largest value is none. */
#define NO_STEP 1e-9

ss_windows ss_windows_of(const ss_mesh *mesh) {
    const double begin = mesh->station[0], end = mesh->station[mesh->station_count - 1];
    double width = (end - begin) / WINDOWS;
    for (int i = 1; i < mesh->station_count; i++) {
        width = ss_max(width, (mesh->station[i] - mesh->station[i - 1]) / (0.99 * SS_STRETCH));
    }
    return (ss_windows){begin, width, (int)ceil((end - begin) / width) + 1};
}

int ss_window_at(const ss_windows *windows, double x) {
    const double at = (x - NEAR - windows->begin) / windows->width;
    return at <= 0.0 ? 0 : at >= windows->count - 1 ? windows->count - 1 : (int)at;
}

ss_status ss_axle_slack_create(const ss_axle_plans *plans, const ss_strips *strips, ss_axle_slack *out,
                               ss_error *error) {
    ss_axle_slack slack = {.windows = ss_windows_of(plans->mesh), .strips = strips, .plans = plans};
    const size_t windows = (size_t)slack.windows.count, count = (size_t)plans->count;
    slack.row = ss_alloc(count * windows * SS_TILE, sizeof *slack.row);
    slack.beam = ss_alloc(count * (size_t)plans->beam_station_count * SS_TILE, sizeof *slack.beam);
    slack.curve = ss_alloc((windows + 1) * SS_TILE, sizeof *slack.curve);
    slack.step_of = ss_alloc(count * (size_t)plans->mesh->station_count, sizeof *slack.step_of);
    slack.done = ss_alloc(count, sizeof *slack.done);
    slack.stepped = ss_alloc(count, sizeof *slack.stepped);
    if (slack.done == NULL || slack.stepped == NULL || slack.row == NULL || slack.beam == NULL ||
        slack.curve == NULL || slack.step_of == NULL) {
        ss_axle_slack_destroy(&slack);
        return ss_no_memory(error);
    }
    *out = slack;
    return SS_OK;
}

void ss_axle_slack_destroy(ss_axle_slack *slack) {
    ss_free(slack->row);
    ss_free(slack->done);
    ss_free(slack->stepped);
    ss_free(slack->beam);
    ss_free(slack->curve);
    ss_free(slack->step_of);
    ss_free(slack->step);
    *slack = (ss_axle_slack){0};
}

/* ---- along the bridge --------------------------------------------------------------------------- */

SS_CLONES
static void raise_to(double *restrict most, double factor, const double *restrict row) {
    for (int lane = 0; lane < SS_TILE; lane++) {
        const double value = factor * row[lane];
        most[lane] = value > most[lane] ? value : most[lane];
    }
}

/* Over a stretch of length w a function leaves its chord by no more than w^2/8 of its curvature. */
SS_CLONES
static void join_windows(const double *restrict curve, double by, double *restrict row) {
    for (int lane = 0; lane < SS_TILE; lane++) {
        const double a = curve[lane], b = curve[SS_TILE + lane];
        row[lane] = by * (a > b ? a : b);
    }
}

SS_CLONES
static int exceeds(const double *restrict step, const double *restrict kink, const double *restrict scale,
                   double length) {
    int any = 0;
    for (int lane = 0; lane < SS_TILE; lane++)
        any |= step[lane] + length * kink[lane] > NO_STEP * scale[lane];
    return any;
}

SS_CLONES
static void widen_scale(const double *restrict c, double *restrict scale) {
    for (int lane = 0; lane < SS_TILE; lane++) {
        const double size = fabs(c[lane]);
        scale[lane] = size > scale[lane] ? size : scale[lane];
    }
}

void ss_axle_slack_begin(ss_axle_slack *slack) {
    memset(slack->done, 0, (size_t)slack->plans->count * sizeof *slack->done);
    slack->step_count = 0;
}

static ss_status keep_step(ss_axle_slack *slack, const double *step, const double *kink, int *index) {
    if (slack->step_count == slack->step_capacity) {
        const int capacity = 2 * slack->step_capacity + 64;
        double *const grown = ss_realloc(slack->step, (size_t)capacity * 2 * SS_TILE, sizeof *grown);
        if (grown == NULL) {
            return SS_ERROR_MEMORY;
        }
        slack->step = grown;
        slack->step_capacity = capacity;
    }
    double *const to = slack->step + (size_t)slack->step_count * 2 * SS_TILE;
    memcpy(to, step, SS_TILE * sizeof *to);
    memcpy(to + SS_TILE, kink, SS_TILE * sizeof *to);
    *index = slack->step_count++;
    return SS_OK;
}

/* At the ends of the bridge every block of positions begins or ends: what jumps there is no step. */
static ss_status fill_steps(ss_axle_slack *slack, const ss_axle_lines *lines, int plan) {
    const ss_axle_plans *plans = lines->plans;
    int *const step_of = slack->step_of + (size_t)plan * (size_t)plans->mesh->station_count;
    double step[SS_TILE], kink[SS_TILE], scale[SS_TILE] = {0};
    slack->stepped[plan] = false;
    for (int i = 0; i < plans->interval_count; i++) widen_scale(ss_axle_lines_cubic(lines, plan, i), scale);
    for (int k = 0; k <= plans->interval_count; k++) {
        ss_status status = SS_OK;
        step_of[k] = -1;
        if (k > 0 && k < plans->interval_count) {
            ss_axle_lines_station(lines, plan, k, step, kink);
            if (exceeds(step, kink, scale, slack->windows.width)) {
                status = keep_step(slack, step, kink, &step_of[k]);
                slack->stepped[plan] = true;
            }
        }
        if (status != SS_OK) {
            return status;
        }
    }
    return SS_OK;
}

ss_status ss_axle_slack_plan(ss_axle_slack *slack, ss_axle_lines *lines, int plan) {
    const ss_axle_plans *plans = lines->plans;
    const double *const x = plans->mesh->station;
    const ss_windows *w = &slack->windows;
    memset(slack->curve, 0, ((size_t)w->count + 1) * SS_TILE * sizeof *slack->curve);
    for (int i = 0; i < plans->interval_count; i++) {
        const double length = x[i + 1] - x[i];
        ss_axle_lines_get(lines, plan, i);
        for (int k = ss_window_at(w, x[i]); k <= ss_window_at(w, x[i + 1] + 2.0 * NEAR); k++) {
            raise_to(slack->curve + (size_t)k * SS_TILE, 1.0 / (length * length),
                     ss_axle_lines_curve(lines, plan, i));
        }
    }
    for (size_t k = 0; k < (size_t)w->count; k++) {
        join_windows(slack->curve + k * SS_TILE, 0.125 * w->width * w->width,
                     slack->row + ((size_t)plan * (size_t)w->count + k) * SS_TILE);
    }
    if (plans->plan[plan].lines_of == plan) {
        ss_axle_lines_jumps(lines, plan);
    }
    slack->done[plan] = true;
    return fill_steps(slack, lines, plan);
}

int ss_axle_slack_steps(const ss_axle_slack *slack, int plan, const ss_stretch *stretch, double P,
                        ss_term *terms, int count) {
    const int *const step_of = slack->step_of + (size_t)plan * (size_t)slack->plans->mesh->station_count;
    for (int k = stretch->first + 1; k <= stretch->last; k++) {
        if (step_of[k] >= 0) {
            const double *const step = slack->step + (size_t)step_of[k] * 2 * SS_TILE;
            terms[count++] = (ss_term){P, step};
            terms[count++] = (ss_term){0.25 * P * stretch->length, step + SS_TILE};
        }
    }
    return count;
}

/* ---- on floor beams ----------------------------------------------------------------------------- */

SS_CLONES
static void raise_difference(double *restrict most, const double *restrict a, const double *restrict b) {
    for (int lane = 0; lane < SS_TILE; lane++) {
        const double value = fabs(a[lane] - b[lane]);
        most[lane] = value > most[lane] ? value : most[lane];
    }
}

/* At the ends of the bridge the axle may count as off it in what this is compared with. */
static void add_plan(const ss_axle_slack *slack, ss_axle_lines *lines, int plan, int k, double *most) {
    static const double nothing[SS_TILE];
    const int station = slack->plans->beam_station[k], last = slack->plans->interval_count;
    const double *const beam = ss_axle_lines_beam(lines, plan, k);
    double value[SS_TILE];
    if (station == 0 || station == last) {
        raise_difference(most, beam, nothing);
    }
    if (station < last) {
        const int own = slack->plans->plan[plan].lines_of;
        ss_axle_lines_start(lines, own, station, value);
        raise_difference(most, beam, value);
    }
}

void ss_axle_slack_strips(ss_axle_slack *slack, ss_axle_lines *lines) {
    const ss_strips *strips = slack->strips;
    const size_t stations = (size_t)slack->plans->beam_station_count;
    for (int p = 0; p < strips->count; p++) ss_axle_lines_points(lines, p);
    memset(slack->beam, 0, (size_t)strips->count * stations * SS_TILE * sizeof *slack->beam);
    for (int s = 0; s < strips->count; s++) {
        for (int i = strips->first[s]; i < strips->first[s + 1]; i++) {
            const ss_axle_plan *plan = &slack->plans->plan[strips->plan[i]];
            for (size_t k = 0; k < stations; k++) {
                if (plan->on_beam[k]) {
                    add_plan(slack, lines, strips->plan[i], (int)k,
                             slack->beam + ((size_t)s * stations + k) * SS_TILE);
                }
            }
        }
    }
}
