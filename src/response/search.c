/* search.c - branch and bound over the positions of one truck, exact in x. */
#include "response/search.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/clones.h"
#include "response/search_cell.h"
#include "response/state.h"
#include "sillspan/memory.h"

ss_status ss_searcher_create(const ss_axle_lines *lines, ss_contact_finder *finder, ss_searcher *out,
                             ss_error *error) {
    const size_t n = (size_t)finder->model->n;
    ss_searcher s = {.lines = lines, .finder = finder, .n = finder->model->n};
    s.opening = ss_alloc(n * SS_TILE, sizeof *s.opening);
    s.live = ss_alloc(n, sizeof *s.live);
    s.change = ss_alloc(n, sizeof *s.change);
    s.cubic = ss_alloc((size_t)finder->model->tile_count * 4 * SS_TILE, sizeof *s.cubic);
    if (s.opening == NULL || s.live == NULL || s.change == NULL || s.cubic == NULL) {
        ss_searcher_destroy(&s);
        return ss_no_memory(error);
    }
    *out = s;
    return SS_OK;
}

void ss_searcher_destroy(ss_searcher *searcher) {
    ss_free(searcher->opening);
    ss_free(searcher->bound);
    ss_free(searcher->visited);
    ss_free(searcher->live);
    ss_free(searcher->change);
    ss_free(searcher->cubic);
    *searcher = (ss_searcher){0};
}

/* ---- bounds ------------------------------------------------------------------------------------- */

/* What one axle can give at most and at least anywhere in its range. */
SS_CLONES
static void add_range(const ss_axle_lines *lines, int plan, const ss_axle_range *range, double P,
                      double *restrict high, double *restrict low) {
    double most[SS_TILE], least[SS_TILE];
    if (range->last < range->first) {
        return;
    }
    const double start = range->outside ? 0.0 : (double)INFINITY;
    for (int lane = 0; lane < SS_TILE; lane++) {
        most[lane] = -start;
        least[lane] = start;
    }
    for (int g = range->first; g <= range->last; g++) {
        const size_t at = ((size_t)plan * (size_t)lines->group_count + (size_t)g) * SS_TILE;
        const double *restrict const group_high = lines->high + at;
        const double *restrict const group_low = lines->low + at;
        for (int lane = 0; lane < SS_TILE; lane++) {
            most[lane] = group_high[lane] > most[lane] ? group_high[lane] : most[lane];
            least[lane] = group_low[lane] < least[lane] ? group_low[lane] : least[lane];
        }
    }
    for (int lane = 0; lane < SS_TILE; lane++) {
        high[lane] += P * most[lane];
        low[lane] += P * least[lane];
    }
}

SS_CLONES
static void add_openings_bound(const ss_searcher *s, const ss_roll *roll, int block, double *restrict high,
                               double *restrict low) {
    const size_t n = (size_t)s->n;
    for (size_t k = 0; k < n; k++) {
        const double c0 = roll->change_low[(size_t)block * n + k],
                     c1 = roll->change_high[(size_t)block * n + k];
        const double bend = roll->change_bend[(size_t)block * n + k];
        const double *restrict const opening = s->opening + k * SS_TILE;
        for (int lane = 0; lane < SS_TILE; lane++) {
            const double a = opening[lane] * c0, b = opening[lane] * c1, slack = fabs(opening[lane]) * bend;
            high[lane] += (a > b ? a : b) + slack;
            low[lane] += (a < b ? a : b) - slack;
        }
    }
}

/* bound[0]: minus the least, bound[1]: the most that any lane can be within a block. */
static void bound_block(const ss_searcher *s, const ss_roll *roll, int block, double *bound) {
    double high[SS_TILE] = {0}, low[SS_TILE] = {0};
    const int axles = roll->vehicle->axle_count;
    for (int a = 0; a < axles; a++) {
        add_range(s->lines, roll->plan, &roll->range[(size_t)block * (size_t)axles + (size_t)a],
                  roll->vehicle->axle_N[a], high, low);
    }
    if (s->n > 0 && roll->moves[block]) {
        add_openings_bound(s, roll, block, high, low);
    }
    for (int lane = 0; lane < SS_TILE; lane++) {
        bound[lane] = -low[lane];
        bound[SS_TILE + lane] = high[lane];
    }
}

/* ---- order -------------------------------------------------------------------------------------- */

typedef struct block_place {
    int roll, block;
} block_place;

static bool worth_it(const ss_searcher *s, const double *bound) {
    for (int side = 0; side < 2; side++) {
        for (int lane = 0; lane < s->lanes; lane++) {
            if (bound[side * SS_TILE + lane] >= s->threshold[side][lane]) {
                return true;
            }
        }
    }
    return false;
}

static ss_status reserve(ss_searcher *s, size_t blocks, ss_error *error) {
    if (blocks <= s->block_capacity) {
        return SS_OK;
    }
    double *const bound = ss_realloc(s->bound, blocks * 2 * SS_TILE, sizeof *bound);
    if (bound == NULL) {
        return ss_no_memory(error);
    }
    s->bound = bound;
    unsigned char *const visited = ss_realloc(s->visited, blocks, sizeof *visited);
    if (visited == NULL) {
        return ss_no_memory(error);
    }
    s->visited = visited;
    s->block_capacity = blocks;
    return SS_OK;
}

/* The block with the largest bound of each lane and sign comes first: its values let most of the others be
 * passed over. */
static ss_status visit_promising(ss_searcher *s, const ss_roll *rolls, int roll_count, ss_error *error) {
    ss_status status = SS_OK;
    for (int k = 0; k < 2 * SS_TILE && status == SS_OK; k++) {
        if (k % SS_TILE >= s->lanes) {
            continue;
        }
        size_t at = 0, best_at = 0;
        block_place best = {-1, -1};
        for (int i = 0; i < roll_count; i++) {
            for (int j = 0; j < rolls[i].block_count; j++, at++) {
                if (best.roll < 0 ||
                    s->bound[at * 2 * SS_TILE + (size_t)k] > s->bound[best_at * 2 * SS_TILE + (size_t)k]) {
                    best = (block_place){i, j};
                    best_at = at;
                }
            }
        }
        if (best.roll >= 0 && !s->visited[best_at] && s->bound[best_at * 2 * SS_TILE + (size_t)k] > 0.0) {
            s->visited[best_at] = 1;
            status = ss_search_block(s, &rolls[best.roll], best.block, error);
        }
    }
    return status;
}

static void begin_traffic(ss_searcher *s, const ss_vehicle *vehicle, ss_found_set *out) {
    const double gross = ss_vehicle_gross(vehicle);
    memset(out, 0, sizeof *out);
    for (int lane = 0; lane < SS_TILE; lane++) {
        s->threshold[0][lane] = s->threshold[1][lane] =
            lane < s->lanes ? s->tiny[lane] * gross : (double)INFINITY;
        for (int k = 0; k < 2 * SS_CANDIDATES; k++)
            out->best[lane][k / SS_CANDIDATES][k % SS_CANDIDATES].track = -1;
    }
    s->found = out;
}

ss_status ss_search(ss_searcher *s, const ss_roll *rolls, int roll_count, ss_found_set *out,
                    ss_error *error) {
    ss_status status = SS_OK;
    size_t blocks = 0, at = 0;
    memset(out, 0, sizeof *out);
    if (roll_count == 0) {
        return SS_OK;
    }
    begin_traffic(s, rolls[0].vehicle, out);
    for (int i = 0; i < roll_count; i++) blocks += (size_t)rolls[i].block_count;
    SS_TRY(reserve(s, blocks, error));
    memset(s->visited, 0, blocks);
    for (int i = 0; i < roll_count; i++) {
        for (int j = 0; j < rolls[i].block_count; j++)
            bound_block(s, &rolls[i], j, s->bound + at++ * 2 * SS_TILE);
    }
    SS_TRY(visit_promising(s, rolls, roll_count, error));
    at = 0;
    for (int i = 0; i < roll_count; i++) {
        for (int j = 0; j < rolls[i].block_count; j++, at++) {
            if (!s->visited[at] && worth_it(s, s->bound + at * 2 * SS_TILE)) {
                SS_TRY(ss_search_block(s, &rolls[i], j, error));
            }
        }
    }
done:
    s->found = NULL;
    return status;
}

/* Of the last stand (or point) at or before x: a good guess. */
static int nearest_state(const ss_roll *roll, double x, bool on_beam) {
    int low = on_beam ? roll->stand_count : 0;
    int high = on_beam ? roll->stand_count + roll->point_count : roll->stand_count;
    if (high <= low) {
        return -1;
    }
    while (high - low > 1) {
        const int middle = (low + high) / 2;
        if (roll->x[middle] <= x) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return roll->state[low];
}

ss_status ss_search_value(ss_searcher *s, const ss_roll *roll, const ss_found *position,
                          ss_search_values *out, ss_error *error) {
    double *const closed = out->closed, *const total = out->total;
    ss_axle_at at[SS_AXLES_MAX];
    const bool left = position->nudge < 0;
    ss_roll_locate(s->lines->plans, roll, position->x, position->on_beam, at);
    ss_roll_sum(s->lines, roll, at, left, closed);
    memcpy(total, closed, SS_TILE * sizeof *total);
    out->lifted = false;
    if (s->n == 0) {
        return SS_OK;
    }
    int state = nearest_state(roll, position->x, position->on_beam);
    ss_roll_reactions(s->finder->model, roll, at, left, s->live);
    const ss_status status = ss_contact_find(s->finder, s->live, &state, s->change);
    if (status != SS_OK) {
        return ss_error_set(error, status == SS_ERROR_MEMORY ? status : SS_ERROR_CHECK,
                            "the contact state of a governing position was lost");
    }
    ss_search_add_openings(s, s->change, total);
    /* The lines have the openings of the reference state in them. */
    ss_contact_mapped(s->finder, roll->reference, s->live, s->change);
    for (int k = 0; k < s->n; k++) s->change[k] = -s->change[k];
    ss_search_add_openings(s, s->change, total);
    ss_search_add_openings(s, s->change, closed);
    out->lifted = !ss_contact_is_dead_state(s->finder, state);
    return SS_OK;
}
