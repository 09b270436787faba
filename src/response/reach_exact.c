/* reach_exact.c - the search of a packed tile under one traffic: places in the order of their bounds, and in
 * each all stands and the cells between them. */
#include "response/reach_exact.h"

#include <stdlib.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/clones.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* ---- what is to be beaten ----------------------------------------------------------------------- */

static void fill_rooms(ss_reach_exact_task *x) {
    const ss_reacher *const reach = x->job->worker->reach;
    x->room_count = 0;
    for (int q = 0; q < x->job->member->demand_count; q++) {
        const ss_demand *const demand = &x->job->member->demands[q];
        for (int i = 0; i < demand->dead_count; i++) {
            const int d = demand->dead[i];
            for (int s = 0; s < reach->surveyed_count; s++) {
                ss_reach_room *const room = &x->room[x->room_count++];
                *room = (ss_reach_room){.demand = q, .dead = d, .surveyed = s};
                for (int lane = 0; lane < SS_TILE; lane++) {
                    const bool asked = lane < x->lanes && !isnan(demand->limit[x->effect[lane]]);
                    const int e = asked ? x->effect[lane] : 0;
                    const double dead = asked ? ss_reach_dead_in(x->job, d, s, e) : 0.0;
                    room->most[lane] =
                        asked ? (float)(ss_reach_target(x->job, q, d, e, true) - dead) : (float)INFINITY;
                    room->least[lane] = asked && demand->least_too
                                            ? (float)(dead - ss_reach_target(x->job, q, d, e, false))
                                            : (float)INFINITY;
                }
            }
        }
    }
}

/* What a live effect is multiplied by to be compared with a room: a hair more, so that ties are seen. */
void ss_reach_worth(ss_reach_exact_task *x, int demand) {
    const double best = ss_reach_result(x->job, demand, x->traffic)->factor;
    for (int lane = 0; lane < SS_TILE; lane++) {
        const double scale =
            lane < x->lanes ? ss_reach_scale(x->job, demand, x->traffic, x->effect[lane]) : 0.0;
        const double worth = scale > 0.0 ? best * scale * x->job->margin : 0.0;
        x->worth[demand][lane] = (float)ss_min(worth, 1e30);
    }
}

SS_CLONES
bool ss_reach_beats(const ss_reach_room *room, const float *restrict worth, const float *restrict high,
                    const float *restrict low) {
    int any = 0;
    for (int lane = 0; lane < SS_TILE; lane++) {
        any |= (high[lane] * worth[lane] >= room->most[lane]) & (worth[lane] > 0.0f);
        any |= (-low[lane] * worth[lane] >= room->least[lane]) & (worth[lane] > 0.0f);
    }
    return any != 0;
}

/* ---- places ------------------------------------------------------------------------------------- */

static float *bounds_of(const ss_reach_exact_task *x, int index) {
    return x->bounds + (size_t)index * 2 * SS_TILE;
}

SS_CLONES
static float nearness(const float *restrict bound, const float *restrict most, const float *restrict least) {
    float key = 0.0f;
    for (int lane = 0; lane < SS_TILE; lane++) {
        const float a = bound[lane] * most[lane], b = bound[SS_TILE + lane] * least[lane];
        key = a > key ? a : key;
        key = b > key ? b : key;
    }
    return key;
}

static int compare_key(const void *a, const void *b) {
    const ss_reach_bounded *const left = a;
    const ss_reach_bounded *const right = b;
    if (left->key != right->key) {
        return left->key > right->key ? -1 : 1;
    }
    return left->place - right->place;
}

/* Places whose bounds come nearest to the largest of any go first. */
static void order_places(ss_reach_exact_task *x, int first, int count) {
    const ss_reacher *const reach = x->job->worker->reach;
    float most[SS_TILE] = {0}, least[SS_TILE] = {0};
    for (int i = 0; i < count; i++) {
        float *const bound = bounds_of(x, i);
        ss_reach_bound_place(x->job->worker, &reach->place[first + i], bound, bound + SS_TILE);
        for (int lane = 0; lane < SS_TILE; lane++) {
            most[lane] = bound[lane] > most[lane] ? bound[lane] : most[lane];
            least[lane] = bound[SS_TILE + lane] < least[lane] ? bound[SS_TILE + lane] : least[lane];
        }
    }
    for (int lane = 0; lane < SS_TILE; lane++) {
        most[lane] = lane < x->lanes && most[lane] > 0.0f ? 1.0f / most[lane] : 0.0f;
        least[lane] = lane < x->lanes && least[lane] < 0.0f ? 1.0f / least[lane] : 0.0f;
    }
    for (int i = 0; i < count; i++) {
        x->order[i] = (ss_reach_bounded){.place = i, .key = nearness(bounds_of(x, i), most, least)};
    }
    qsort(x->order, (size_t)count, sizeof *x->order, compare_key);
}

static bool place_is_worth_it(const ss_reach_exact_task *x, int first, int index) {
    const int base = x->job->worker->reach->place[first + index].base;
    const float *const bound = bounds_of(x, index);
    for (int i = 0; i < x->room_count; i++) {
        const ss_reach_room *const room = &x->room[i];
        if (room->surveyed == base && ss_reach_beats(room, x->worth[room->demand], bound, bound + SS_TILE)) {
            return true;
        }
    }
    return false;
}

/* ---- memory --------------------------------------------------------------------------------------- */

/* What patterns met on the way may take of memory: bytes, about what a processor's cache holds. */
#define PATTERN_BYTES ((size_t)16 << 20)

ss_status ss_reach_tidy(ss_reach_exact_task *x) {
    ss_reach_worker *const w = x->job->worker;
    const size_t n = (size_t)w->reach->n, each = (n * n + n) * sizeof(double);
    const int first = w->reach->patterns.count;
    ss_status status = SS_OK;
    if ((size_t)(w->patterns.count - first) * each < PATTERN_BYTES) {
        return SS_OK;
    }
    /* Those met at limits are found again under other numbers. */
    bool *const open = ss_alloc(SS_REACH_DEADS * SS_REACH_MET * n + 1, sizeof *open);
    if (open == NULL) {
        return SS_ERROR_MEMORY;
    }
    for (int d = 0; d < w->reach->dead_count; d++) {
        for (int i = 0; i < x->job->met[d].count; i++) {
            memcpy(open + (size_t)(d * SS_REACH_MET + i) * n,
                   w->patterns.items[x->job->met[d].pattern[i]].open, n * sizeof *open);
        }
    }
    ss_patterns_forget(&w->patterns, first);
    for (int d = 0; d < w->reach->dead_count; d++) {
        for (int i = 0; i < x->job->met[d].count && status == SS_OK; i++) {
            status = ss_patterns_find(&w->patterns, open + (size_t)(d * SS_REACH_MET + i) * n,
                                      &x->job->met[d].pattern[i]);
        }
    }
    memset(w->seen_pattern, 0, (size_t)SS_DEMANDS_MOST * 2 * sizeof *w->seen_pattern);
    ss_lane_work_begin(&w->lane);
    ss_free(open);
    return status;
}

/* ---- the tile ----------------------------------------------------------------------------------- */

ss_status ss_reach_exact(ss_reach_exact_task *x, const bool *traffic_asked, ss_error *error) {
    const ss_reacher *const reach = x->job->worker->reach;
    ss_status status = SS_OK;
    fill_rooms(x);
    for (int t = 0; t < reach->placements->traffic_count; t++) {
        if (!traffic_asked[t]) {
            continue;
        }
        x->traffic = t;
        for (int q = 0; q < x->job->member->demand_count; q++) ss_reach_worth(x, q);
        const int first = reach->place_first[t], count = reach->place_first[t + 1] - first;

        order_places(x, first, count);
        for (double margin = 0.0; x->job->margin > margin * 1.01;) {
            margin = x->job->margin;
            for (int i = 0; i < count; i++) {
                if (place_is_worth_it(x, first, x->order[i].place)) {
                    SS_TRY(ss_reach_visit(x, &reach->place[first + x->order[i].place]));
                }
            }
            for (int q = 0; q < x->job->member->demand_count; q++) ss_reach_worth(x, q);
        }
        for (int q = 0; q < x->job->member->demand_count; q++) {
            SS_TRY(ss_reach_spread(x, q));
            SS_TRY(ss_reach_move(x, q));
        }
    }
done:
    return status == SS_OK
               ? SS_OK
               : ss_error_set(error, status, "the contact of the bearings under a truck was not found");
}
