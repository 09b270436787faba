/* search_cell.c - values of a block of positions, exact extremes of the cubics between them, and the list of
 * the worst. */
#include "response/search_cell.h"

#include <string.h>

#include "base/numeric.h"
#include "response/clones.h"
#include "response/state.h"

/* Values that differ by less than this share are equal: the first in order wins. */
#define TIE 1e-9
/* Positions of one truck on one track nearer than this count as one candidate (m). */
#define DISTINCT 2.0
/* Candidates are complete down to this share of the worst. */
#define NEAR 0.97

enum { STANDS_MOST = 32 };

/* Lanes whose sums stay in registers while the openings are added. */
enum { AT_ONCE = 16 };

SS_CLONES
void ss_search_add_openings(const ss_searcher *s, const double *change, double values[SS_TILE]) {
    for (int first = 0; first < SS_TILE; first += AT_ONCE) {
        double sum[AT_ONCE];
        memcpy(sum, values + first, sizeof sum);
        for (int k = 0; k < s->n; k++) {
            const double *restrict const opening = s->opening + (size_t)k * SS_TILE + first;
            const double by = change[k];
            for (int lane = 0; by != 0.0 && lane < AT_ONCE; lane++) sum[lane] += by * opening[lane];
        }
        memcpy(values + first, sum, sizeof sum);
    }
}

/* ---- the list of the worst ---------------------------------------------------------------------- */

static bool earlier(const ss_found *a, const ss_found *b) {
    if (a->track != b->track) {
        return a->track < b->track;
    }
    if (a->on_beam != b->on_beam) {
        return b->on_beam;
    }
    return a->x < b->x;
}

static bool worse(const ss_found *a, const ss_found *b) {
    if (b->track < 0) {
        return true;
    }
    const double tie = TIE * fabs(b->value);
    return a->value > b->value + tie || (a->value >= b->value - tie && earlier(a, b));
}

/* Puts `found` into the list unless a worse one stands at about the same place. */
static void note(ss_searcher *s, int side, int lane, const ss_found *found) {
    ss_found *const list = s->found->best[lane][side];
    int slot = SS_CANDIDATES - 1;
    for (int i = 0; i < SS_CANDIDATES; i++) {
        if (list[i].track == found->track && fabs(list[i].x - found->x) < DISTINCT) {
            slot = i;
            break;
        }
    }
    if (!worse(found, &list[slot])) {
        return;
    }
    while (slot > 0 && worse(found, &list[slot - 1])) {
        list[slot] = list[slot - 1];
        slot--;
    }
    list[slot] = *found;
    /* With contact other positions may govern at another load: those that come near the worst are wanted too.
     */
    double least = list[0].value * (s->keep_candidates ? NEAR : 1.0);
    if (s->keep_candidates && list[SS_CANDIDATES - 1].track >= 0) {
        least = ss_max(least, list[SS_CANDIDATES - 1].value);
    }
    s->threshold[side][lane] = ss_max(s->threshold[side][lane], least * (1.0 - TIE));
}

SS_CLONES
static void note_hits(ss_searcher *s, const double values[SS_TILE], const ss_found *position) {
    int any = 0;
    for (int lane = 0; lane < SS_TILE; lane++) {
        any |= values[lane] >= s->threshold[1][lane];
        any |= -values[lane] >= s->threshold[0][lane];
    }
    for (int lane = 0; any && lane < s->lanes; lane++) {
        ss_found found = *position;
        if (values[lane] >= s->threshold[1][lane]) {
            found.value = values[lane];
            note(s, 1, lane, &found);
        }
        if (-values[lane] >= s->threshold[0][lane]) {
            found.value = -values[lane];
            note(s, 0, lane, &found);
        }
    }
}

/* ---- cells -------------------------------------------------------------------------------------- */

SS_CLONES
static void add_opening_cubic(const ss_searcher *s, int k, const double u[4], double *restrict cubic) {
    const double *restrict const opening = s->opening + (size_t)k * SS_TILE;
    for (int d = 0; d < 4; d++) {
        if (u[d] == 0.0) {
            continue;
        }
        for (int lane = 0; lane < SS_TILE; lane++) cubic[d * SS_TILE + lane] += u[d] * opening[lane];
    }
}

/* Coefficients of sum over j of map_kj times the closed reactions of the truck. */
static void add_mapped(const ss_searcher *s, const ss_contact_state *state, int k, double factor,
                       double u[4]) {
    const double *const row = state->map + (size_t)k * (size_t)s->n;
    for (int j = 0; state->open[k] && j < s->n; j++) {
        const double *const c = s->cubic + (size_t)(j / SS_TILE) * 4 * SS_TILE + j % SS_TILE;
        for (int d = 0; d < 4; d++) u[d] += factor * row[j] * c[d * SS_TILE];
    }
}

/* The cell has another state of contact than the reference: openings less those that the lines have in them
 * already, as cubics. */
static ss_status add_other_state(ss_searcher *s, const ss_roll *roll, int stand, double length, double *cubic,
                                 bool *valid) {
    const ss_axle_at *at = roll->at + (size_t)stand * (size_t)roll->vehicle->axle_count;
    const ss_contact_model *m = s->finder->model;
    const int n = s->n;
    int state = roll->state[stand];
    for (int tile = 0; tile < m->tile_count; tile++) {
        double *const c = s->cubic + (size_t)tile * 4 * SS_TILE;
        ss_roll_cubic(&m->lines[tile], roll, at, length, c);
        for (int lane = 0; lane < SS_TILE && tile * SS_TILE + lane < n; lane++) {
            s->live[tile * SS_TILE + lane] = c[lane] + 0.5 * c[SS_TILE + lane] +
                                             0.25 * c[2 * SS_TILE + lane] + 0.125 * c[3 * SS_TILE + lane];
        }
    }
    const ss_status status = ss_contact_find(s->finder, s->live, &state, s->change);
    *valid = status == SS_OK && state >= 0;
    if (!*valid) {
        return status == SS_ERROR_MEMORY ? status : SS_OK;
    }
    const ss_contact_state *here = &s->finder->states[state];
    for (int k = 0; k < n; k++) {
        double u[4] = {-m->u_dead[k] / m->live_factor, 0.0, 0.0, 0.0};
        for (int j = 0; here->open[k] && j < n; j++)
            u[0] += here->map[(size_t)k * (size_t)n + (size_t)j] * m->r_dead[j] / m->live_factor;
        add_mapped(s, here, k, 1.0, u);
        if (roll->reference >= 0) {
            add_mapped(s, &s->finder->states[roll->reference], k, -1.0, u);
        }
        add_opening_cubic(s, k, u, cubic);
    }
    return SS_OK;
}

/* Openings within a cell. In the reference state they leave the lines by what does not depend on the
 * position. */
static ss_status add_opening_cubics(ss_searcher *s, const ss_roll *roll, int stand, double length,
                                    double *cubic, bool *valid) {
    *valid = true;
    if (roll->reference < 0 || roll->state[stand] != roll->reference ||
        roll->state[stand + 1] != roll->reference) {
        return add_other_state(s, roll, stand, length, cubic, valid);
    }
    for (int k = 0; k < s->n; k++) {
        const double u[4] = {roll->change[(size_t)stand * (size_t)s->n + (size_t)k], 0.0, 0.0, 0.0};
        add_opening_cubic(s, k, u, cubic);
    }
    return SS_OK;
}

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

static ss_status polish(ss_searcher *s, const ss_roll *roll, int stand, const double *bound,
                        ss_error *error) {
    const ss_axle_at *at = roll->at + (size_t)stand * (size_t)roll->vehicle->axle_count;
    const double length = roll->x[stand + 1] - roll->x[stand];
    double c[4 * SS_TILE];
    ss_roll_cubic(s->lines, roll, at, length, c);
    if (s->n > 0) {
        bool valid;
        if (add_opening_cubics(s, roll, stand, length, c, &valid) != SS_OK) {
            return ss_no_memory(error);
        }
        if (!valid) {
            return SS_OK;
        }
    }
    for (int lane = 0; lane < s->lanes; lane++) {
        if (bound[lane] < s->threshold[0][lane] && bound[SS_TILE + lane] < s->threshold[1][lane]) {
            continue;
        }
        const double c0 = c[lane], c1 = c[SS_TILE + lane], c2 = c[2 * SS_TILE + lane],
                     c3 = c[3 * SS_TILE + lane];
        double t[2];
        const int count = turning_points(c1, c2, c3, t);
        for (int i = 0; i < count; i++) {
            const double value = c0 + t[i] * (c1 + t[i] * (c2 + t[i] * c3));
            ss_found found = {.x = roll->x[stand] + t[i] * length, .track = roll->track};
            for (int side = 0; side < 2; side++) {
                found.value = side == 1 ? value : -value;
                if (found.value >= s->threshold[side][lane]) {
                    note(s, side, lane, &found);
                }
            }
        }
    }
    return SS_OK;
}

SS_CLONES
static bool reaches(const ss_searcher *s, const double *restrict start, const double *restrict end,
                    const double *restrict slack, double *restrict bound) {
    int worth = 0;
    for (int lane = 0; lane < SS_TILE; lane++) {
        const double high = start[lane] > end[lane] ? start[lane] : end[lane];
        const double low = start[lane] < end[lane] ? start[lane] : end[lane];
        bound[lane] = slack[lane] - low;
        bound[SS_TILE + lane] = slack[lane] + high;
        worth |= bound[lane] >= s->threshold[0][lane];
        worth |= bound[SS_TILE + lane] >= s->threshold[1][lane];
    }
    return worth != 0;
}

/* How far any cell of the block may go beyond its ends, at most. */
SS_CLONES
static void block_slack(const ss_searcher *s, const ss_roll *roll, int index, double *restrict slack) {
    const ss_roll_block *block = &roll->block[index];
    const int axles = roll->vehicle->axle_count;
    double most[SS_TILE];
    memset(slack, 0, SS_TILE * sizeof *slack);
    for (int a = 0; a < axles; a++) {
        int previous = -1;
        memset(most, 0, sizeof most);
        for (int i = block->first; i < block->last; i++) {
            const int interval = roll->at[(size_t)i * (size_t)axles + (size_t)a].interval;
            if (interval < 0 || interval == previous) {
                continue;
            }
            previous = interval;
            const double *restrict const curve = ss_axle_lines_curve(s->lines, roll->plan, interval);
            for (int lane = 0; lane < SS_TILE; lane++)
                most[lane] = curve[lane] > most[lane] ? curve[lane] : most[lane];
        }
        const double by = 0.125 * roll->vehicle->axle_N[a];
        for (int lane = 0; lane < SS_TILE; lane++) slack[lane] += by * most[lane];
    }
    for (int k = 0; k < s->n; k++) {
        const double by = roll->change_bend[(size_t)index * (size_t)s->n + (size_t)k];
        const double *restrict const opening = s->opening + (size_t)k * SS_TILE;
        for (int lane = 0; by != 0.0 && lane < SS_TILE; lane++) slack[lane] += by * fabs(opening[lane]);
    }
}

/* bound: minus the least and the most within a cell, from its end values and curvatures. True when some lane
 * may beat what has been found. */
SS_CLONES
static bool cell_is_worth_it(const ss_searcher *s, const ss_roll *roll, int stand,
                             const double *restrict start, const double *restrict end,
                             double *restrict bound) {
    const ss_axle_at *at = roll->at + (size_t)stand * (size_t)roll->vehicle->axle_count;
    const double *const station = s->lines->plans->mesh->station;
    const double length = roll->x[stand + 1] - roll->x[stand];
    double slack[SS_TILE] = {0};
    for (int a = 0; a < roll->vehicle->axle_count; a++) {
        if (at[a].interval < 0) {
            continue;
        }
        const double d = length / (station[at[a].interval + 1] - station[at[a].interval]);
        const double by = 0.125 * d * d * roll->vehicle->axle_N[a];
        const double *restrict const curve = ss_axle_lines_curve(s->lines, roll->plan, at[a].interval);
        for (int lane = 0; lane < SS_TILE; lane++) slack[lane] += by * curve[lane];
    }
    for (int k = 0; k < s->n; k++) {
        const double by = roll->bend[(size_t)stand * (size_t)s->n + (size_t)k];
        const double *restrict const opening = s->opening + (size_t)k * SS_TILE;
        for (int lane = 0; by != 0.0 && lane < SS_TILE; lane++) slack[lane] += by * fabs(opening[lane]);
    }
    return reaches(s, start, end, slack, bound);
}

/* ---- blocks ------------------------------------------------------------------------------------- */

static bool jumps_at(const ss_searcher *s, const ss_roll *roll, const ss_axle_at *at) {
    for (int a = 0; a < roll->vehicle->axle_count; a++) {
        if (at[a].station >= 0 && ss_axle_lines_jump(s->lines, roll->plan, at[a].station)) {
            return true;
        }
    }
    return false;
}

/* Values just before and just after a stand. */
static void try_stand(ss_searcher *s, const ss_roll *roll, int stand, double before[SS_TILE],
                      double after[SS_TILE]) {
    const ss_axle_at *at = roll->at + (size_t)stand * (size_t)roll->vehicle->axle_count;
    const double *const change = roll->change + (size_t)stand * (size_t)s->n;
    const signed char side = roll->side[stand];
    const bool two = side == 0 && jumps_at(s, roll, at);
    ss_found position = {.x = roll->x[stand], .track = roll->track};
    if (side < 0 || two) {
        ss_roll_sum(s->lines, roll, at, true, before);
        ss_search_add_openings(s, change, before);
        position.nudge = -1;
        if (roll->valid[stand]) {
            note_hits(s, before, &position);
        }
    }
    if (side < 0) {
        memcpy(after, before, SS_TILE * sizeof *after);
        return;
    }
    ss_roll_sum(s->lines, roll, at, false, after);
    ss_search_add_openings(s, change, after);
    position.nudge = two || side > 0 ? 1 : 0;
    if (roll->valid[stand]) {
        note_hits(s, after, &position);
    }
    if (!two) {
        memcpy(before, after, SS_TILE * sizeof *before);
    }
}

static void try_point(ss_searcher *s, const ss_roll *roll, int point) {
    const int index = roll->stand_count + point;
    double values[SS_TILE];
    if (!roll->valid[index]) {
        return;
    }
    ss_roll_sum(s->lines, roll, roll->at + (size_t)index * (size_t)roll->vehicle->axle_count, false, values);
    ss_search_add_openings(s, roll->change + (size_t)index * (size_t)s->n, values);
    note_hits(s, values, &(ss_found){.x = roll->x[index], .track = roll->track, .on_beam = true});
}

ss_status ss_search_block(ss_searcher *s, const ss_roll *roll, int index, ss_error *error) {
    const ss_roll_block *block = &roll->block[index];
    double before[STANDS_MOST][SS_TILE], after[STANDS_MOST][SS_TILE], bound[2 * SS_TILE], slack[SS_TILE];
    block_slack(s, roll, index, slack);
    for (int i = block->first; i <= block->last; i++) {
        try_stand(s, roll, i, before[i - block->first], after[i - block->first]);
    }
    for (int i = block->first; i < block->last; i++) {
        const int k = i - block->first;
        if (!roll->valid[i] || !roll->valid[i + 1] || roll->x[i + 1] - roll->x[i] <= 2e-6) {
            continue;
        }
        if (reaches(s, after[k], before[k + 1], slack, bound) &&
            cell_is_worth_it(s, roll, i, after[k], before[k + 1], bound)) {
            const ss_status status = polish(s, roll, i, bound, error);
            if (status != SS_OK) {
                return status;
            }
        }
    }
    for (int i = block->point_first; i < block->point_end; i++) try_point(s, roll, i);
    return SS_OK;
}
