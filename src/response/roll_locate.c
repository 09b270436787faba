/* roll_locate.c - where the axles of a truck are, and what they add up to there. */
#include <string.h>

#include "response/roll_parts.h"

/* An axle within this of a station is at it (m). */
#define AT_STATION 2e-10

ss_axle_at ss_axle_locate(const ss_axle_plans *plans, double x) {
    const ss_mesh *mesh = plans->mesh;
    const double *const station = mesh->station;
    ss_axle_at at = {.interval = -1, .station = -1, .beam = -1};
    int low = -1, high = mesh->station_count; /* station[low] <= x + tolerance < station[high] */
    while (high - low > 1) {
        const int middle = (low + high) / 2;
        if (station[middle] <= x + AT_STATION) {
            low = middle;
        } else {
            high = middle;
        }
    }
    if (low < 0) {
        return at;
    }
    const bool here = fabs(station[low] - x) <= AT_STATION;
    at.station = here ? low : -1;
    if (low < plans->interval_count) {
        at.interval = low;
        at.s = here ? 0.0 : (x - station[low]) / (station[low + 1] - station[low]);
    }
    return at;
}

int ss_roll_terms(ss_axle_lines *lines, const ss_roll *roll, const ss_axle_at *at, bool left,
                  ss_term *terms) {
    int count = 0;
    for (int a = 0; a < roll->vehicle->axle_count; a++) {
        const double P = roll->vehicle->axle_N[a];
        const int plan = roll->plan[a];
        if (at[a].beam >= 0 && lines->plans->plan[plan].on_beam[at[a].beam]) {
            terms[count++] = (ss_term){P, ss_axle_lines_beam(lines, plan, at[a].beam)};
            continue;
        }
        const bool back = left && at[a].station >= 0;
        const int interval = back ? at[a].station - 1 : at[a].interval;
        const double s = back ? 1.0 : at[a].s;
        if (interval < 0) {
            continue;
        }
        const double *const c = ss_axle_lines_get(lines, plan, interval);
        double by = P;
        terms[count++] = (ss_term){by, c};
        for (int j = 1; j < 4 && s != 0.0; j++) terms[count++] = (ss_term){by *= s, c + j * SS_TILE};
    }
    return count;
}

void ss_roll_cubic(ss_axle_lines *lines, const ss_roll *roll, const ss_axle_at *at, double length,
                   double out[4 * SS_TILE]) {
    const double *const station = lines->plans->mesh->station;
    ss_term terms[4][SS_ROLL_TERMS];
    int count[4] = {0};
    for (int a = 0; a < roll->vehicle->axle_count; a++) {
        if (at[a].interval < 0) {
            continue;
        }
        const double P = roll->vehicle->axle_N[a], s = at[a].s;
        const double d = length / (station[at[a].interval + 1] - station[at[a].interval]);
        const double *const c = ss_axle_lines_get(lines, roll->plan[a], at[a].interval);
        const double by[4][4] = {{P, P * s, P * s * s, P * s * s * s},
                                 {0.0, P * d, P * d * 2.0 * s, P * d * 3.0 * s * s},
                                 {0.0, 0.0, P * d * d, P * d * d * 3.0 * s},
                                 {0.0, 0.0, 0.0, P * d * d * d}};
        for (int i = 0; i < 4; i++) {
            for (int j = i; j < 4; j++) {
                if (by[i][j] != 0.0) {
                    terms[i][count[i]++] = (ss_term){by[i][j], c + j * SS_TILE};
                }
            }
        }
    }
    for (int i = 0; i < 4; i++) lines->kernel->sum(terms[i], count[i], out + i * SS_TILE);
}

void ss_roll_reactions(const ss_contact_model *model, const ss_roll *roll, const ss_axle_at *at, bool left,
                       double *live) {
    double sum[SS_TILE];
    for (int tile = 0; tile < model->tile_count; tile++) {
        ss_term terms[SS_ROLL_TERMS];
        ss_axle_lines *const lines = &model->lines[tile];
        lines->kernel->sum(terms, ss_roll_terms(lines, roll, at, left, terms), sum);
        const int first = tile * SS_TILE;
        const int count = model->n - first < SS_TILE ? model->n - first : SS_TILE;
        memcpy(live + first, sum, (size_t)count * sizeof *live);
    }
}

void ss_roll_reaction_cubics(const ss_contact_model *model, const ss_roll *roll, const ss_axle_at *at,
                             double length, double *cubics) {
    double c[4 * SS_TILE];
    for (int tile = 0; tile < model->tile_count; tile++) {
        ss_roll_cubic(&model->lines[tile], roll, at, length, c);
        for (int lane = 0; lane < SS_TILE && tile * SS_TILE + lane < model->n; lane++) {
            for (int j = 0; j < 4; j++)
                cubics[4 * (size_t)(tile * SS_TILE + lane) + (size_t)j] = c[j * SS_TILE + lane];
        }
    }
}
