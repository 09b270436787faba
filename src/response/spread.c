/* spread.c - local maxima of both groups of a vehicle's axles, and the best pair of them. */
#include "response/spread.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* Stops nearer than this are one (m). */
#define SAME_STOP 1e-9

/* Both sides of a stop are one when they differ by no more, of the larger. */
#define SAME_VALUE 1e-12

/* A group that is off the bridge is this far from it (m). */
#define OFF 1e-6

ss_status ss_spread_work_create(const ss_axle_plans *plans, ss_spread_work *out, ss_error *error) {
    const size_t intervals = (size_t)plans->interval_count, stops = SS_AXLES_MAX * (intervals + 1);
    ss_spread_work w = {
        .cubic = ss_alloc(4 * SS_AXLES_MAX * intervals + 1, sizeof *w.cubic),
        .stop = ss_alloc(stops, sizeof *w.stop),
        .front = ss_alloc(4 * stops + 2, sizeof *w.front),
        .rear = ss_alloc(4 * stops + 2, sizeof *w.rear),
    };
    if (w.cubic == NULL || w.stop == NULL || w.front == NULL || w.rear == NULL) {
        ss_spread_work_destroy(&w);
        return ss_no_memory(error);
    }
    *out = w;
    return SS_OK;
}

void ss_spread_work_destroy(ss_spread_work *work) {
    ss_free(work->cubic);
    ss_free(work->stop);
    ss_free(work->front);
    ss_free(work->rear);
    *work = (ss_spread_work){0};
}

double ss_spread_behind(const ss_spread *spread, double distance) {
    double behind = distance;
    for (int a = 0; a < spread->gap; a++) behind += spread->train->spacing_m[a];
    return behind;
}

/* ---- a group ------------------------------------------------------------------------------------ */

/* Axles `first` to `end` as one: each at `offset` from the first of them. */
typedef struct group {
    const ss_axle_plans *plans;
    int count;
    double P[SS_AXLES_MAX], offset[SS_AXLES_MAX];
    const double *line[SS_AXLES_MAX]; /* interval x 4 */
    double sign;                      /* of what is sought */
} group;

static group group_of(const ss_lane_tile *tile, const ss_lane_wanted *wanted, const ss_spread *spread,
                      const ss_spread_work *work, int first, int end) {
    const ss_axle_plans *const plans = tile->lines->plans;
    group g = {.plans = plans, .count = end - first, .sign = wanted->most ? 1.0 : -1.0};
    double behind = 0.0;
    for (int a = first; a < end; a++) {
        g.P[a - first] = spread->train->axle_N[a];
        g.offset[a - first] = spread->backward ? behind : -behind;
        g.line[a - first] = work->cubic + 4 * (size_t)a * (size_t)plans->interval_count;
        behind += spread->train->spacing_m[a];
    }
    return g;
}

/* Where the group's first axle is while any of its axles is at a station, ascending. */
static int list_stops(const group *g, double *stop) {
    const ss_mesh *const mesh = g->plans->mesh;
    int count = 0;
    for (int a = 0; a < g->count; a++) {
        for (int k = 0; k < mesh->station_count; k++) stop[count++] = mesh->station[k] - g->offset[a];
    }
    ss_sort_unique(stop, &count, SAME_STOP);
    return count;
}

/* What the group does between two stops: coefficients of 1, t, t^2, t^3, t from 0 to 1. */
static void cubic_between(const group *g, double from, double to, double c[4]) {
    const double *const station = g->plans->mesh->station;
    memset(c, 0, 4 * sizeof *c);
    for (int a = 0; a < g->count; a++) {
        const ss_axle_at middle = ss_axle_locate(g->plans, 0.5 * (from + to) + g->offset[a]);
        if (middle.interval < 0 || g->line[a] == NULL) {
            continue;
        }
        const double *const line = g->line[a] + 4 * middle.interval;
        const double length = station[middle.interval + 1] - station[middle.interval];
        const double s = (from + g->offset[a] - station[middle.interval]) / length, d = (to - from) / length;
        const double P = g->sign * g->P[a];
        c[0] += P * (line[0] + s * (line[1] + s * (line[2] + s * line[3])));
        c[1] += P * d * (line[1] + s * (2.0 * line[2] + 3.0 * s * line[3]));
        c[2] += P * d * d * (line[2] + 3.0 * s * line[3]);
        c[3] += P * d * d * d * line[3];
    }
}

/* The t in (0, 1) at which a cubic is largest nearby; false: none. */
static bool top_within(const double c[4], double *t) {
    const double a = 3.0 * c[3], b = 2.0 * c[2], d = b * b - 4.0 * a * c[1];
    if (!(d > 0.0)) {
        return false;
    }
    /* The root at which the slope falls: 2 a t + b < 0. */
    const double q = -0.5 * (b + (b < 0.0 ? -sqrt(d) : sqrt(d)));
    const double root[2] = {a != 0.0 ? q / a : -1.0, q != 0.0 ? c[1] / q : -1.0};
    for (int i = 0; i < 2; i++) {
        if (root[i] > 0.0 && root[i] < 1.0 && 2.0 * a * root[i] + b < 0.0) {
            *t = root[i];
            return true;
        }
    }
    return false;
}

static double cubic_at(const double c[4], double t) {
    return c[0] + t * (c[1] + t * (c[2] + t * c[3]));
}

/* A stop between what the group does before it and after it. */
static void add_stop(double at, const double before[4], const double after[4], ss_spread_peak *out,
                     int *count) {
    const double left = cubic_at(before, 1.0), right = after[0];
    const bool rises = before[1] + 2.0 * before[2] + 3.0 * before[3] >= 0.0, falls = after[1] <= 0.0;
    if (fabs(left - right) <= SAME_VALUE * ss_max(fabs(left), fabs(right))) {
        if (rises && falls) {
            out[(*count)++] = (ss_spread_peak){at, 0, left};
        }
    } else if (left > right) {
        if (rises) {
            out[(*count)++] = (ss_spread_peak){at, -1, left};
        }
    } else if (falls) {
        out[(*count)++] = (ss_spread_peak){at, 1, right};
    }
}

/* Local maxima of a group all along the bridge, and just off it at both ends. */
static int find_peaks(const group *g, double *stop, ss_spread_peak *out) {
    static const double nothing[4] = {0.0, 0.0, 0.0, 0.0};
    const int stops = list_stops(g, stop);
    double before[4] = {0.0}, c[4], t;
    int count = 0;
    out[count++] = (ss_spread_peak){stop[0] - OFF, 0, 0.0};
    for (int i = 0; i + 1 < stops; i++) {
        cubic_between(g, stop[i], stop[i + 1], c);
        add_stop(stop[i], before, c, out, &count);
        if (top_within(c, &t)) {
            out[count++] = (ss_spread_peak){stop[i] + t * (stop[i + 1] - stop[i]), 0, cubic_at(c, t)};
        }
        memcpy(before, c, sizeof before);
    }
    add_stop(stop[stops - 1], before, nothing, out, &count);
    out[count++] = (ss_spread_peak){stop[stops - 1] + OFF, 0, 0.0};
    return count;
}

/* ---- pairs -------------------------------------------------------------------------------------- */

/* The lines of all axles in the pattern; axles of one plan share them. */
static void fill_lines(const ss_lane_tile *tile, const ss_lane_wanted *wanted, const ss_spread *spread,
                       ss_spread_work *work) {
    const ss_axle_plans *const plans = tile->lines->plans;
    const size_t size = 4 * (size_t)plans->interval_count;
    for (int a = 0; a < spread->train->axle_count; a++) {
        const int plan = ss_axle_plan_of(plans, spread->track, a);
        if (a > 0 && plan == ss_axle_plan_of(plans, spread->track, a - 1)) {
            memcpy(work->cubic + (size_t)a * size, work->cubic + (size_t)(a - 1) * size,
                   size * sizeof *work->cubic);
        } else {
            const ss_lane_wanted own = {wanted->lane, wanted->most, plan, wanted->weight};
            (void)ss_lane_lines(tile, &own, work->cubic + (size_t)a * size);
        }
    }
}

/* Distance of two places of the groups, both with their nudges. */
static double distance_of(const ss_spread *spread, const ss_spread_peak *front, const ss_spread_peak *rear) {
    const double apart = rear->at + SS_NUDGE * rear->nudge - front->at - SS_NUDGE * front->nudge;
    return (spread->backward ? apart : -apart) - ss_spread_behind(spread, 0.0);
}

static bool pair_best(const ss_spread *spread, const ss_spread_peak *front, int front_count,
                      const ss_spread_peak *rear, int rear_count, ss_spread_place *out) {
    double most = -SS_INFINITY;
    for (int i = 0; i < front_count; i++) {
        for (int k = 0; k < rear_count; k++) {
            const double sum = front[i].value + rear[k].value,
                         distance = distance_of(spread, &front[i], &rear[k]);
            if (sum > most && distance >= spread->least && distance <= spread->most) {
                most = sum;
                *out = (ss_spread_place){front[i].at, front[i].nudge, distance};
            }
        }
    }
    return most > -SS_INFINITY;
}

int ss_spread_propose(const ss_lane_tile *tile, const ss_lane_wanted *wanted, const ss_spread *spread,
                      ss_spread_work *work, ss_spread_place out[SS_SPREAD_PLACES]) {
    const double now = spread->train->spacing_m[spread->gap];
    const double behind = ss_spread_behind(spread, now);
    int count = 0;
    fill_lines(tile, wanted, spread, work);
    const group ahead = group_of(tile, wanted, spread, work, 0, spread->gap + 1);
    const group after = group_of(tile, wanted, spread, work, spread->gap + 1, spread->train->axle_count);
    const int fronts = find_peaks(&ahead, work->stop, work->front),
              rears = find_peaks(&after, work->stop, work->rear);
    const ss_spread_peak front = {spread->x, spread->nudge, 0.0},
                         rear = {spread->backward ? spread->x + behind : spread->x - behind, spread->nudge,
                                 0.0};
    count += pair_best(spread, work->front, fronts, work->rear, rears, &out[count]);
    count += pair_best(spread, &front, 1, work->rear, rears, &out[count]);
    count += pair_best(spread, work->front, fronts, &rear, 1, &out[count]);
    return count;
}
