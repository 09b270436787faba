/* search_block.c - values at the stands of a block of positions, and exact extremes of the cubics between
 * them.
 */
#include <string.h>

#include "base/numeric.h"
#include "response/clones.h"
#include "response/search_parts.h"
#include "response/state.h"

/* Between stands nearer than this there is nothing to find (m). */
#define NO_CELL 2e-6

/* ---- stands ------------------------------------------------------------------------------------- */

static bool jumps_at(const ss_searcher *s, const ss_roll *roll, const ss_axle_at *at) {
    for (int a = 0; a < roll->vehicle->axle_count; a++) {
        if (at[a].station >= 0 && ss_axle_lines_jump(s->lines, roll->plan[a], at[a].station)) {
            return true;
        }
    }
    return false;
}

static void note_stand(ss_searcher *s, const ss_roll *roll, int stand, int nudge,
                       const double values[SS_TILE]) {
    if (roll->valid[stand]) {
        ss_search_note(s, values,
                       &(ss_found){.x = roll->x[stand],
                                   .t = -1.0,
                                   .track = roll->track,
                                   .stand = stand,
                                   .nudge = (signed char)nudge});
    }
}

static void try_before(ss_searcher *s, const ss_roll *roll, const ss_search_at *at, double values[SS_TILE]) {
    int count = ss_roll_terms(s->lines, roll, ss_roll_at(roll, at->stand), true, s->terms);
    count += ss_search_terms(at->openings, s->opening, s->terms + count);
    s->lines->kernel->sum(s->terms, count, values);
    note_stand(s, roll, at->stand, -1, values);
}

void ss_search_stand(ss_searcher *s, const ss_roll *roll, const ss_search_at *at, double before[SS_TILE],
                     double after[SS_TILE]) {
    const signed char side = roll->side[at->stand];
    const bool two = side == 0 && !at->smooth && jumps_at(s, roll, ss_roll_at(roll, at->stand));
    if (side < 0 || two) {
        try_before(s, roll, at, before);
    }
    if (side < 0) {
        memcpy(after, before, SS_TILE * sizeof *after);
        return;
    }
    const ss_rows axles = {at->axles, s->lines->cubic}, openings = {at->openings, s->opening};
    s->lines->kernel->lists(&axles, &openings, after);
    note_stand(s, roll, at->stand, two || side > 0 ? 1 : 0, after);
    if (!two) {
        memcpy(before, after, SS_TILE * sizeof *before);
    }
}

/* ---- cells -------------------------------------------------------------------------------------- */

/* Zeros of the cubic's slope within (0, 1). */
static int turning_points(double c1, double c2, double c3, double t[2]) {
    const double a = 3.0 * c3, b = c2, d = b * b - a * c1;
    int count = 0;
    if (d < 0.0) {
        return 0;
    }
    const double q = -(b + (b < 0.0 ? -sqrt(d) : sqrt(d)));
    if (a != 0.0 && q / a > 0.0 && q / a < 1.0) {
        t[count++] = q / a;
    }
    if (q != 0.0 && c1 / q > 0.0 && c1 / q < 1.0) {
        t[count++] = c1 / q;
    }
    return count;
}

/* Coefficients of the effects over a cell, openings and all. False: no state of contact holds the truck in
 * it. */
static ss_status cell_cubic(ss_searcher *s, const ss_roll *roll, int stand, double *cubic, bool *valid) {
    ss_cell_openings openings = {.state = 0};
    const ss_status status = s->n > 0 ? ss_search_cell_openings(s, roll, stand, &openings) : SS_OK;
    *valid = status == SS_OK && openings.state >= 0;
    if (!*valid) {
        return status;
    }
    ss_roll_cubic(s->lines, roll, ss_roll_at(roll, stand), roll->x[stand + 1] - roll->x[stand], cubic);
    for (int d = 0; d < 4 && s->n > 0; d++) {
        int count = 1;
        s->terms[0] = (ss_term){1.0, cubic + d * SS_TILE};
        for (int k = 0; k < s->n; k++) {
            const double u = openings.cubic[4 * k + d];
            if (u != 0.0) {
                s->terms[count++] = (ss_term){u, s->opening + (size_t)k * SS_TILE};
            }
        }
        s->lines->kernel->sum(s->terms, count, cubic + d * SS_TILE);
    }
    return SS_OK;
}

static ss_status polish(ss_searcher *s, const ss_roll *roll, int stand, const float *bound, ss_error *error) {
    const double *const threshold = s->want;
    const double length = roll->x[stand + 1] - roll->x[stand];
    double c[4 * SS_TILE];
    bool valid;
    if (cell_cubic(s, roll, stand, c, &valid) != SS_OK) {
        return ss_no_memory(error);
    }
    for (int lane = 0; valid && lane < s->lanes; lane++) {
        if ((double)bound[lane] < threshold[lane] &&
            (double)bound[SS_TILE + lane] < threshold[SS_TILE + lane]) {
            continue;
        }
        const double c0 = c[lane], c1 = c[SS_TILE + lane], c2 = c[2 * SS_TILE + lane],
                     c3 = c[3 * SS_TILE + lane];
        double t[2];
        const int count = turning_points(c1, c2, c3, t);
        for (int i = 0; i < count; i++) {
            const double value = c0 + t[i] * (c1 + t[i] * (c2 + t[i] * c3));
            ss_found found = {
                .x = roll->x[stand] + t[i] * length, .t = t[i], .track = roll->track, .stand = stand};
            for (int side = 0; side < 2; side++) {
                found.value = side == 1 ? value : -value;
                if (found.value >= threshold[side * SS_TILE + lane]) {
                    ss_search_note_lane(s, side, lane, &found);
                }
            }
        }
    }
    return SS_OK;
}

/* ---- blocks ------------------------------------------------------------------------------------- */

/* How far the effects may leave their chord within any cell of a block. */
static void cell_slack(ss_searcher *s, const ss_roll *roll, int block, double slack[SS_TILE]) {
    const double share = roll->block[block].longest / s->slack->windows.width;
    const ss_sparse reach = ss_roll_block_list(roll, block, SS_ROLL_REACH);
    int count = ss_search_terms(ss_sparse_at(&roll->cell_bend, block), s->opening_size, s->terms);
    for (int i = 0; i < reach.count; i++) {
        s->terms[count++] =
            (ss_term){share * share * reach.value[i], s->slack->row + (size_t)reach.index[i] * SS_TILE};
    }
    s->lines->kernel->sum(s->terms, count, slack);
}

static void raise_bound(float *most, const float *bound) {
    for (int i = 0; i < 2 * SS_TILE; i++) most[i] = bound[i] > most[i] ? bound[i] : most[i];
}

ss_status ss_search_block(ss_searcher *s, const ss_roll *roll, int index, float *bound, ss_error *error) {
    const ss_roll_block *block = &roll->block[index];
    double before[SS_TILE], after[SS_TILE], start[SS_TILE], slack[SS_TILE];
    float within[2 * SS_TILE];
    ss_search_at at = ss_search_stand_of(roll, block->first);
    cell_slack(s, roll, index, slack);
    ss_search_stand(s, roll, &at, before, after);
    for (int i = 0; i < 2 * SS_TILE; i++) bound[i] = -(float)INFINITY;
    for (int i = block->first; i < block->last; i++) {
        memcpy(start, after, sizeof start);
        at = ss_search_stand_of(roll, i + 1);
        ss_search_stand(s, roll, &at, before, after);
        if (!roll->valid[i] || !roll->valid[i + 1] || roll->x[i + 1] - roll->x[i] <= NO_CELL) {
            continue;
        }
        const bool worth = s->lines->kernel->bound(start, before, slack, s->want, within) != 0;
        raise_bound(bound, within);
        const ss_status status = worth ? polish(s, roll, i, within, error) : SS_OK;
        if (status != SS_OK) {
            return status;
        }
    }
    return SS_OK;
}
