/* watch_rate.c - factors and live effects at watched places, contact solved. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "sillspan/memory.h"
#include "studies/watch_parts.h"

/* Multiples of the plain trucks that are followed. */
#define MULTIPLE_MOST 1e4

/* ---- checks and limits ------------------------------------------------------------------------------ */

ss_status ss_watch_checks_make(const ss_watch *watch, const ss_bridge *bridge, ss_watch_checks *out,
                               ss_error *error) {
    ss_status status = ss_watch_same_asked(watch, bridge, error);
    status = status == SS_OK ? ss_check_list_build(bridge, &out->list, error) : status;
    status = status == SS_OK ? ss_watch_same_checks(watch, out->list.items, out->list.count, error) : status;
    if (status != SS_OK) {
        return status;
    }
    for (int d = 0; d < out->list.factor_count; d++) out->dead[d] = out->list.factors[d];
    out->dead_count = out->list.factor_count + 1;
    out->dead[out->dead_count - 1] = (ss_dead_factors){1.0, 1.0};
    return SS_OK;
}

/* The rated one of each effect, by its number; -1: it has no limit. */
static ss_status rate_effects(const ss_watch_placed *placed, const ss_permanent *permanent, ss_arena *arena,
                              ss_rated_list *rated, int *rated_of, ss_error *error) {
    const int count = placed->watch->effect_count;
    ss_rating_notes notes = {.arena = arena};
    ss_effect *const there = ss_arena_alloc(arena, (size_t)count + 1, sizeof *there);
    int *const number = ss_arena_alloc(arena, (size_t)count + 1, sizeof *number);
    int found = 0;
    if (there == NULL || number == NULL) {
        return ss_no_memory(error);
    }
    for (int e = 0; e < count; e++) {
        rated_of[e] = -1;
        if (placed->there[e]) {
            number[found] = e;
            there[found++] = placed->effect[e];
        }
    }
    const ss_status status = ss_rated_list_build(permanent, there, found, false, &notes, rated, error);
    for (int i = 0; status == SS_OK && i < rated->count; i++) {
        rated_of[number[rated->items[i].order]] = i;
    }
    return status;
}

ss_status ss_watch_limits_make(const ss_watch_placed *placed, const ss_permanent *permanent,
                               const ss_watch_checks *checks, ss_arena *arena, ss_watch_limits *out,
                               ss_error *error) {
    const ss_watch *const watch = placed->watch;
    const ss_bridge *const bridge = placed->mesh->bridge;
    const size_t items = (size_t)watch->item_count + 1;
    ss_rated_list rated;
    int *const rated_of = ss_arena_alloc(arena, (size_t)watch->effect_count + 1, sizeof *rated_of);
    ss_watch_limits l = {.target = ss_arena_alloc(arena, items, sizeof *l.target),
                         .scale = ss_arena_alloc(arena, items, sizeof *l.scale),
                         .factors = ss_arena_alloc(arena, items, sizeof *l.factors)};
    ss_status status = rated_of == NULL || l.target == NULL || l.scale == NULL || l.factors == NULL
                           ? ss_no_memory(error)
                           : SS_OK;
    SS_TRY(status);
    SS_TRY(rate_effects(placed, permanent, arena, &rated, rated_of, error));
    for (int i = 0; i < watch->item_count; i++) {
        const ss_watched_item *const item = &watch->items[i];
        l.target[i] = SS_NAN;
        if (item->check == SS_WATCH_LIVE || rated_of[item->effect] < 0) {
            continue;
        }
        const ss_check *const check = &checks->list.items[item->check];
        const ss_traffic *const traffic = &watch->placements.traffic[watch->stands[item->stand].traffic];
        const ss_vehicle *const vehicle = &bridge->vehicles[traffic->vehicle];
        const ss_crossing_facts facts = ss_traffic_facts(bridge, traffic);
        const ss_rated *const r = &rated.items[rated_of[item->effect]];
        if (!ss_check_applies(bridge, check, vehicle)) {
            continue;
        }
        ss_check_factors(bridge, check, vehicle, &facts, &r->effect, &l.factors[i]);
        const double capacity = ss_check_capacity(bridge, check, &l.factors[i], &r->effect,
                                                  ss_rated_nominal(r, check, item->most));
        l.target[i] = item->most ? capacity : -capacity;
        l.scale[i] = ss_method_scale(&l.factors[i]);
    }
    *out = l;
done:
    return status;
}

static double dot(const double *a, const double *b, int n) {
    double sum = 0.0;
    for (int i = 0; i < n; i++) sum += a[i] * b[i];
    return sum;
}

/* ---- values ----------------------------------------------------------------------------------------- */

ss_status ss_watch_scratch_make(int n, ss_arena *arena, ss_watch_scratch *out, ss_error *error) {
    out->work = ss_arena_alloc(arena, ss_contact_work(n) + 4 * (size_t)n + 1, sizeof *out->work);
    out->open = ss_arena_alloc(arena, (size_t)n + 1, sizeof *out->open);
    return out->work == NULL || out->open == NULL ? ss_no_memory(error) : SS_OK;
}

static ss_status find_factor(const ss_watched_item *item, const ss_watch_checks *checks,
                             const ss_watch_answers *a, const ss_contact_path *live, double target,
                             double *work, size_t effects, ss_watch_value *out) {
    const int dead_count = checks->list.dead_count[item->check];
    for (int i = 0; i < dead_count; i++) {
        const int d = checks->list.dead[item->check][i];
        ss_contact_path path = *live;
        ss_reach reach;
        path.r_dead = a->r_dead + (size_t)d * (size_t)a->n;
        path.e_dead = a->e_dead[(size_t)d * effects + (size_t)item->effect];
        const ss_status status = ss_contact_reach(&path, target, item->most, MULTIPLE_MOST, &reach, work);
        if (status == SS_ERROR_NUMERIC) {
            out->value = SS_NAN;
            return SS_OK;
        }
        if (status != SS_OK) {
            return status;
        }
        if (reach.factor < out->value) {
            out->value = reach.factor;
            out->tips = reach.tips;
        }
    }
    return SS_OK;
}

/* Openings u under the unfactored dead load and, with `live`, the trucks once. */
static ss_status open_at(const ss_watch_answers *a, const double *live, const ss_watch_scratch *scratch,
                         double *u) {
    const size_t n = (size_t)a->n;
    const double *const r_dead = a->r_dead + (size_t)(a->dead_count - 1) * n;
    double *const r0 = scratch->work, *const r = r0 + n, *const rest = r + n;
    memset(scratch->open, 0, n * sizeof *scratch->open);
    for (size_t k = 0; k < n; k++) r0[k] = r_dead[k] + (live != NULL ? live[k] : 0.0);
    return ss_contact_solve(a->n, a->S, r0, r, u, scratch->open, rest);
}

/* Openings under the unfactored dead load, and with the trucks of one stand, which items of it share. */
typedef struct opened {
    double *dead, *u; /* n */
    int stand;        /* that u is of; -1: none */
    bool holds;       /* there is such a state of contact */
} opened;

static ss_status open_stand(const ss_watch_answers *a, int stand, const ss_watch_scratch *scratch,
                            opened *o) {
    if (o->stand == stand) {
        return SS_OK;
    }
    const ss_status status = open_at(a, a->r_live + (size_t)stand * (size_t)a->n, scratch, o->u);
    o->stand = stand;
    o->holds = status == SS_OK;
    return status == SS_ERROR_TIPPING || status == SS_ERROR_NUMERIC ? SS_OK : status;
}

/* What the trucks of an item add to its effect. */
static ss_status find_live(const ss_watched_item *item, const ss_watch_answers *a, double e_live,
                           size_t effects, const ss_watch_scratch *scratch, opened *o, ss_watch_value *out) {
    const double *const opening = a->opening + (size_t)item->effect * (size_t)a->n;
    const double at_dead = dot(opening, o->dead, a->n);
    const ss_status status = open_stand(a, item->stand, scratch, o);
    out->dead = a->e_dead[(size_t)(a->dead_count - 1) * effects + (size_t)item->effect] + at_dead;
    out->value = o->holds ? e_live + dot(opening, o->u, a->n) - at_dead : SS_NAN;
    return status;
}

ss_status ss_watch_evaluate(const ss_watch_placed *placed, const ss_watch_checks *checks,
                            const ss_watch_limits *limits, const ss_watch_answers *a,
                            const ss_watch_scratch *scratch, ss_watch_value *values) {
    const ss_watch *const watch = placed->watch;
    const size_t n = (size_t)a->n, effects = (size_t)watch->effect_count;
    double *const rest = scratch->work + ss_contact_work(a->n) + 2 * n;
    opened o = {.dead = rest, .u = rest + n, .stand = -1};
    ss_status status = open_at(a, NULL, scratch, o.dead);
    for (int i = 0; i < watch->item_count && status == SS_OK; i++) {
        const ss_watched_item *const item = &watch->items[i];
        values[i] = (ss_watch_value){.value = SS_NAN, .dead = SS_NAN};
        if (!placed->there[item->effect]) {
            continue;
        }
        if (item->check == SS_WATCH_LIVE) {
            status = find_live(item, a, a->e_live[i], effects, scratch, &o, &values[i]);
        } else if (!isnan(limits->target[i])) {
            const ss_contact_path path = {.n = a->n,
                                          .S = a->S,
                                          .r_live = a->r_live + (size_t)item->stand * n,
                                          .opening = a->opening + (size_t)item->effect * n,
                                          .e_live = a->e_live[i]};
            values[i].value = SS_INFINITY;
            status =
                find_factor(item, checks, a, &path, limits->target[i], scratch->work, effects, &values[i]);
            values[i].value /= limits->scale[i];
        }
    }
    return status;
}
