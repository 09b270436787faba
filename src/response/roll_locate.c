/* roll_locate.c - where the axles of a truck are, and what they add up to there. */
#include <string.h>

#include "response/clones.h"
#include "response/roll_parts.h"

ss_axle_at ss_axle_locate(const ss_axle_plans *plans, double x) {
    const ss_mesh *mesh = plans->mesh;
    const double *const station = mesh->station;
    ss_axle_at at = {.interval = -1, .station = -1, .beam = -1};
    int low = -1, high = mesh->station_count; /* station[low] <= x + tolerance < station[high] */
    while (high - low > 1) {
        const int middle = (low + high) / 2;
        if (station[middle] <= x + 2.0 * SS_SAME_PLACE) {
            low = middle;
        } else {
            high = middle;
        }
    }
    if (low < 0) {
        return at;
    }
    const bool here = fabs(station[low] - x) <= 2.0 * SS_SAME_PLACE;
    at.station = here ? low : -1;
    if (low < plans->interval_count) {
        at.interval = low;
        at.s = here ? 0.0 : (x - station[low]) / (station[low + 1] - station[low]);
    }
    return at;
}

static int beam_under(const ss_axle_plans *plans, int plan, double x) {
    for (int k = 0; k < plans->beam_station_count; k++) {
        if (fabs(plans->mesh->station[plans->beam_station[k]] - x) <= SS_ON_BEAM &&
            plans->plan[plan].on_beam[k]) {
            return k;
        }
    }
    return -1;
}

void ss_roll_locate(const ss_axle_plans *plans, const ss_roll *roll, double x, bool on_beam, ss_axle_at *at) {
    for (int a = 0; a < roll->vehicle->axle_count; a++) {
        const double axle_x = ss_axle_x(roll->vehicle, roll->backward, x, a);
        at[a] = ss_axle_locate(plans, axle_x);
        at[a].beam = on_beam ? beam_under(plans, roll->plan, axle_x) : -1;
    }
}

SS_CLONES
void ss_roll_sum(const ss_axle_lines *lines, const ss_roll *roll, const ss_axle_at *at, bool left,
                 double out[SS_TILE]) {
    memset(out, 0, SS_TILE * sizeof *out);
    for (int a = 0; a < roll->vehicle->axle_count; a++) {
        const double P = roll->vehicle->axle_N[a];
        if (at[a].beam >= 0) {
            const double *const beam = ss_axle_lines_beam(lines, roll->plan, at[a].beam);
            for (int lane = 0; lane < SS_TILE; lane++) out[lane] += P * beam[lane];
            continue;
        }
        const bool back = left && at[a].station >= 0;
        const int interval = back ? at[a].station - 1 : at[a].interval;
        const double s = back ? 1.0 : at[a].s;
        if (interval < 0) {
            continue;
        }
        const double *restrict const c = ss_axle_lines_cubic(lines, roll->plan, interval);
        if (s == 0.0) {
            for (int lane = 0; lane < SS_TILE; lane++) out[lane] += P * c[lane];
            continue;
        }
        const double P1 = P * s, P2 = P1 * s, P3 = P2 * s;
        for (int lane = 0; lane < SS_TILE; lane++) {
            out[lane] += P * c[lane] + P1 * c[SS_TILE + lane] + P2 * c[2 * SS_TILE + lane] +
                         P3 * c[3 * SS_TILE + lane];
        }
    }
}

SS_CLONES
void ss_roll_cubic(const ss_axle_lines *lines, const ss_roll *roll, const ss_axle_at *at, double length,
                   double out[4 * SS_TILE]) {
    const double *const station = lines->plans->mesh->station;
    memset(out, 0, 4 * SS_TILE * sizeof *out);
    for (int a = 0; a < roll->vehicle->axle_count; a++) {
        if (at[a].interval < 0) {
            continue;
        }
        const double P = roll->vehicle->axle_N[a], s = at[a].s;
        const double d = length / (station[at[a].interval + 1] - station[at[a].interval]);
        const double *restrict const c = ss_axle_lines_cubic(lines, roll->plan, at[a].interval);
        for (int lane = 0; lane < SS_TILE; lane++) {
            const double c0 = c[lane], c1 = c[SS_TILE + lane], c2 = c[2 * SS_TILE + lane],
                         c3 = c[3 * SS_TILE + lane];
            out[lane] += P * (c0 + s * (c1 + s * (c2 + s * c3)));
            out[SS_TILE + lane] += P * d * (c1 + s * (2.0 * c2 + 3.0 * s * c3));
            out[2 * SS_TILE + lane] += P * d * d * (c2 + 3.0 * s * c3);
            out[3 * SS_TILE + lane] += P * d * d * d * c3;
        }
    }
}

void ss_roll_reactions(const ss_contact_model *model, const ss_roll *roll, const ss_axle_at *at, bool left,
                       double *live) {
    double sum[SS_TILE];
    for (int tile = 0; tile < model->tile_count; tile++) {
        ss_roll_sum(&model->lines[tile], roll, at, left, sum);
        const int first = tile * SS_TILE;
        const int count = model->n - first < SS_TILE ? model->n - first : SS_TILE;
        memcpy(live + first, sum, (size_t)count * sizeof *live);
    }
}
