/* brute.c - see brute.h. */
#include "unit/assess/brute.h"

#include <string.h>

#include "assess/ratings_demands.h"
#include "response/placements.h"
#include "response/state.h"
#include "sillspan/memory.h"
#include "support/suite.h"

/* ---- what does not depend on the place ---------------------------------------------------------- */

static void *room(brute *b, size_t count, size_t size) {
    void *const out = ss_arena_alloc(&b->arena, count + 1, size);
    CU_ASSERT_PTR_NOT_NULL_FATAL(out);
    return out;
}

/* Effect of displacements and spring forces; `load` may be NULL. */
static double effect_of(const brute *b, int rated, const double *u, const double *force,
                        const ss_load *load) {
    const ss_effect *const effect = &b->rated.items[rated].effect;
    if (ss_effect_of_spring(effect)) {
        const int second = ss_effect_second_spring(b->mesh, effect);
        return ss_effect_spring_factor(b->mesh, effect) *
               (force[effect->spring] + (second >= 0 ? force[second] : 0.0));
    }
    bool within = false;
    for (int i = 0; load != NULL && i < 6; i++) {
        within = within || load->clamped[6 * (size_t)effect->element + (size_t)i] != 0.0;
    }
    return within ? ss_mesh_effect_value(b->mesh, effect, u, load) : ss_row_dot(&b->row[rated], u);
}

/* Openings are settlements the other way. */
static void fill_openings(brute *b) {
    ss_error error = {0};
    double *const offset = room(b, (size_t)b->mesh->spring_count, sizeof *offset);
    for (int k = 0; k < b->n; k++) {
        memset(offset, 0, (size_t)b->mesh->spring_count * sizeof *offset);
        offset[b->springs[k]] = -1.0;
        CHECK_OK(ss_grillage_respond(b->permanent->grillage, NULL, NULL, offset, b->u, b->force, &error),
                 &error);
        for (int e = 0; e < b->rated.count; e++) {
            b->opening[(size_t)e * (size_t)b->n + (size_t)k] = effect_of(b, e, b->u, b->force, NULL);
        }
        for (int i = 0; i < b->n; i++) {
            const double S = b->S[(size_t)i * (size_t)b->n + (size_t)k];
            const double most = b->S[(size_t)i * (size_t)b->n + (size_t)i];
            CU_ASSERT_DOUBLE_EQUAL(b->force[b->springs[i]], S, 1e-6 * (fabs(S) + most + 1.0));
        }
    }
}

static void fill_dead(brute *b, int d) {
    ss_error error = {0};
    ss_load load = {0};
    ss_state state = {0};
    double *const offset = room(b, (size_t)b->mesh->spring_count, sizeof *offset);
    b->r_dead[d] = room(b, (size_t)b->n, sizeof *b->r_dead[d]);
    b->e_dead[d] = room(b, (size_t)b->rated.count, sizeof *b->e_dead[d]);
    b->e_true[d] = room(b, (size_t)b->rated.count, sizeof *b->e_true[d]);
    const ss_load_sum sum = {.dead = true, .factors = b->factors[d]};
    CHECK_OK(ss_permanent_loads(b->permanent, &sum, &load, offset, &error), &error);
    CHECK_OK(ss_grillage_respond(b->permanent->grillage, NULL, load.nodal, offset, b->u, b->force, &error),
             &error);
    ss_contact_reactions(b->mesh, (ss_contact_springs){b->n, b->springs, b->S}, b->force, offset,
                         b->r_dead[d]);
    CHECK_OK(ss_permanent_state(b->permanent, true, b->factors[d], NULL, 0.0, &state, &error), &error);
    for (int e = 0; e < b->rated.count; e++) {
        b->e_dead[d][e] = effect_of(b, e, b->u, b->force, &load);
        b->e_true[d][e] = ss_state_effect(b->mesh, &state, &b->rated.items[e].effect);
    }
    ss_state_destroy(&state);
    ss_load_destroy(&load);
}

static int dead_of(brute *b, ss_dead_factors wanted) {
    for (int d = 0; d < b->dead_count; d++) {
        if (b->factors[d].dc == wanted.dc && b->factors[d].dw == wanted.dw) {
            return d;
        }
    }
    CU_ASSERT_FATAL(b->dead_count < BRUTE_DEADS);
    b->factors[b->dead_count] = wanted;
    return b->dead_count++;
}

static void fill_checks(brute *b) {
    b->check_count = ss_checks(b->mesh->bridge, b->checks);
    for (int c = 0; c < b->check_count; c++) {
        ss_dead_factors dead[2];
        b->check_deads[c] = ss_check_dead(b->mesh->bridge, &b->checks[c], dead);
        for (int i = 0; i < b->check_deads[c]; i++) b->check_dead[c][i] = dead_of(b, dead[i]);
    }
}

static void fill_demands(brute *b) {
    const ss_bridge *const bridge = b->mesh->bridge;
    for (int c = 0; c < b->check_count; c++) {
        for (int t = 0; t < b->placements->traffic_count; t++) {
            const ss_traffic *const traffic = &b->placements->traffic[t];
            const ss_vehicle *const vehicle = &bridge->vehicles[traffic->vehicle];
            const ss_crossing_facts facts = ss_traffic_facts(bridge, traffic);
            const bool applies = ss_check_applies(bridge, &b->checks[c], vehicle);
            for (int e = 0; e < b->rated.count; e++) {
                brute_demand *const out = brute_demand_of(b, c, t, e);
                *out = (brute_demand){(double)NAN, (double)NAN, 1.0};
                if (applies) {
                    const ss_rated *const rated = &b->rated.items[e];
                    ss_method_factors f;
                    ss_check_factors(bridge, &b->checks[c], vehicle, &facts, &rated->effect, &f);
                    out->scale = f.live * f.presence * (1.0 + f.allowance);
                    out->limit = ss_check_capacity(bridge, &b->checks[c], &f, &rated->effect,
                                                   ss_rated_nominal(rated, &b->checks[c], true));
                    out->least = ss_check_capacity(bridge, &b->checks[c], &f, &rated->effect,
                                                   ss_rated_nominal(rated, &b->checks[c], false));
                }
            }
        }
    }
}

void brute_start(brute *b, const ss_permanent *permanent, const ss_placements *placements,
                 const ss_effect *effects, int effect_count) {
    ss_error error = {0};
    memset(b, 0, sizeof *b);
    b->permanent = permanent;
    b->placements = placements;
    b->mesh = ss_grillage_mesh(permanent->grillage);
    b->n = ss_grillage_contact(permanent->grillage, &b->springs, &b->S);
    b->notes.arena = &b->arena;
    CHECK_OK(ss_rated_list_build(permanent, effects, effect_count, true, &b->notes, &b->rated, &error),
             &error);
    const size_t count = (size_t)b->rated.count, n = (size_t)b->n;
    b->row = room(b, count, sizeof *b->row);
    for (size_t e = 0; e < count; e++) {
        if (!ss_effect_of_spring(&b->rated.items[e].effect)) {
            ss_mesh_effect_row(b->mesh, &b->rated.items[e].effect, &b->row[e]);
        }
    }
    b->u = room(b, (size_t)b->mesh->order, sizeof *b->u);
    b->force = room(b, (size_t)b->mesh->spring_count, sizeof *b->force);
    b->live = room(b, n, sizeof *b->live);
    b->closed = room(b, count, sizeof *b->closed);
    b->unseen = room(b, count, sizeof *b->unseen);
    b->opening = room(b, count * n, sizeof *b->opening);
    b->work = room(b, ss_contact_work(b->n), sizeof *b->work);
    fill_openings(b);
    fill_checks(b);
    for (int d = 0; d < b->dead_count; d++) {
        fill_dead(b, d);
        b->growth[d].opening = room(b, SS_STEPS_MOST * 2 * n, sizeof *b->growth[d].opening);
    }
    const size_t pairs = (size_t)b->check_count * (size_t)placements->traffic_count;
    b->demand = room(b, pairs * count, sizeof *b->demand);
    fill_demands(b);
    b->best = room(b, pairs * (size_t)b->rated.group_count, sizeof *b->best);
    for (size_t i = 0; i < pairs * (size_t)b->rated.group_count; i++) b->best[i] = (double)INFINITY;
    CHECK_OK(
        ss_patterns_create(b->n, b->S, b->dead_count, (const double *const *)b->r_dead, &b->patterns, &error),
        &error);
}

void brute_free(brute *b) {
    ss_patterns_destroy(&b->patterns);
    ss_arena_destroy(&b->arena);
}

/* ---- one place ---------------------------------------------------------------------------------- */

void brute_solve(brute *b, const ss_position *position) {
    ss_error error = {0};
    ss_load load = {0};
    CHECK_OK(ss_placements_load(b->mesh, b->placements, position, &load, &error), &error);
    CHECK_OK(ss_grillage_respond(b->permanent->grillage, NULL, load.nodal, NULL, b->u, b->force, &error),
             &error);
    for (int k = 0; k < b->n; k++) b->live[k] = b->force[b->springs[k]];
    for (int e = 0; e < b->rated.count; e++) {
        const ss_effect *const effect = &b->rated.items[e].effect;
        b->unseen[e] = false;
        for (int i = 0; effect->element >= 0 && effect->s != 0.0 && effect->s != 1.0 && i < 6; i++) {
            b->unseen[e] = b->unseen[e] || load.clamped[6 * (size_t)effect->element + (size_t)i] != 0.0;
        }
        b->hidden += b->unseen[e];
        b->closed[e] = effect_of(b, e, b->u, b->force, &load);
    }
    ss_load_destroy(&load);
}

/* An effect in each step of growth, as lines in the multiple. */
typedef struct lines {
    int count;
    double at0[SS_STEPS_MOST], slope[SS_STEPS_MOST];
} lines;

/* Steps that begin beyond `within` are left out. */
static void fill_lines(const brute *b, int rated, int dead, double within, lines *out) {
    const ss_growth *const growth = &b->growth[dead];
    const size_t n = (size_t)b->n;
    const double *const opening = b->opening + (size_t)rated * n;
    out->count = 0;
    while (out->count < growth->count && growth->from[out->count] <= within) {
        const int s = out->count++;
        const bool *const open = b->patterns.items[growth->pattern[s]].open;
        const double *const a = growth->opening + (size_t)s * 2 * n;
        out->at0[s] = b->e_dead[dead][rated];
        out->slope[s] = b->closed[rated];
        for (size_t k = 0; k < n; k++) {
            if (open[k]) {
                out->at0[s] += opening[k] * a[k];
                out->slope[s] += opening[k] * a[n + k];
            }
        }
    }
}

static double first_multiple(const ss_growth *growth, const lines *of, double sign, double target) {
    for (int s = 0; s < of->count; s++) {
        const double from = growth->from[s], to = s + 1 < growth->count ? growth->from[s + 1] : growth->end;
        const double slope = sign * of->slope[s], left = sign * (target - of->at0[s]) - from * slope;
        if (left <= 0.0) {
            return from;
        }
        if (left <= slope * (to - from)) {
            return from + left / slope;
        }
    }
    return (double)INFINITY;
}

static void lower(double *best, double factor) {
    *best = factor < *best ? factor : *best;
}

static double general_multiple(const brute *b, int rated, int dead, double target, bool most) {
    const ss_contact_path path = {.n = b->n,
                                  .S = b->S,
                                  .r_dead = b->r_dead[dead],
                                  .r_live = b->live,
                                  .opening = b->opening + (size_t)rated * (size_t)b->n,
                                  .e_dead = b->e_dead[dead][rated],
                                  .e_live = b->closed[rated]};
    ss_reach reach;
    CU_ASSERT_EQUAL_FATAL(ss_contact_reach(&path, target, most, BRUTE_MOST, &reach, b->work), SS_OK);
    return reach.tips ? (double)INFINITY : reach.factor;
}

/* What one check makes of a section, in lines or, where rounding hides them, by the general way. */
static void try_check(brute *b, int check, int traffic, int e, int dead, const lines *of) {
    const brute_demand *const demand = brute_demand_of(b, check, traffic, e);
    const bool over = b->checks[check].over_dead;
    double *const best = brute_best(b, check, traffic, b->rated.items[e].group);
    const double from = over ? b->e_true[dead][e] : 0.0;
    for (int most = over ? 1 : 0; most < 2; most++) {
        const double target = from + (most == 1 ? demand->limit : -demand->least);
        const double multiple = of == NULL
                                    ? general_multiple(b, e, dead, target, most == 1)
                                    : first_multiple(&b->growth[dead], of, most == 1 ? 1.0 : -1.0, target);
        if (multiple < BRUTE_MOST) {
            lower(best, multiple / demand->scale);
        }
    }
    if (of != NULL && b->growth[dead].tips && !over) {
        lower(best, b->growth[dead].end / demand->scale);
    }
}

static void try_section(brute *b, int traffic, int e, int dead) {
    int check[SS_CHECKS_MAX], count = 0;
    double within = 0.0;
    for (int c = 0; c < b->check_count; c++) {
        const brute_demand *const demand = brute_demand_of(b, c, traffic, e);
        for (int i = 0; i < b->check_deads[c] && !isnan(demand->limit); i++) {
            if (b->check_dead[c][i] == dead) {
                check[count++] = c;
                within = fmax(within, *brute_best(b, c, traffic, b->rated.items[e].group) * demand->scale);
            }
        }
    }
    lines of;
    const bool clear = b->growth[dead].clear;
    if (clear && count > 0) {
        fill_lines(b, e, dead, within, &of);
    }
    for (int i = 0; i < count; i++) try_check(b, check[i], traffic, e, dead, clear ? &of : NULL);
}

void brute_try(brute *b, int traffic, const ss_position *position) {
    brute_solve(b, position);
    b->places++;
    for (int d = 0; d < b->dead_count; d++) {
        const ss_status status = ss_patterns_follow(&b->patterns, d, b->live, 0, BRUTE_MOST, &b->growth[d]);
        CU_ASSERT_EQUAL_FATAL(status, SS_OK);
        for (int e = 0; e < b->rated.count; e++) {
            if (!b->unseen[e]) {
                try_section(b, traffic, e, d);
            }
        }
    }
}

/* ---- all places --------------------------------------------------------------------------------- */

/* Whether an axle is at a floor beam's station, not just near one. */
static bool at_beam(const brute *b, const ss_track *track, const ss_vehicle *train, double x) {
    for (int a = 0; a < train->axle_count; a++) {
        for (int i = 0; i < b->mesh->bridge->floor_beam_count; i++) {
            const double at = b->mesh->station[b->mesh->beam_station[i]];
            if (fabs(ss_axle_x(train, track->backward, x, a) - at) < 1e-9) {
                return true;
            }
        }
    }
    return false;
}

static void sweep_track(brute *b, int traffic, int track, const brute_grid *grid) {
    const ss_track *const own = &b->placements->tracks[track];
    const ss_vehicle *const train = &b->placements->trains[own->train];
    double *const x = ss_alloc((size_t)(b->mesh->station_count * train->axle_count) + 1, sizeof *x);
    CU_ASSERT_PTR_NOT_NULL_FATAL(x);
    int count = 0;
    for (int a = 0; a < train->axle_count; a++) {
        for (int k = 0; k < b->mesh->station_count; k++) {
            x[count++] = b->mesh->station[k] - ss_axle_x(train, own->backward, 0.0, a);
        }
    }
    for (int i = 1; i < count; i++) {
        const double kept = x[i];
        int k = i;
        for (; k > 0 && x[k - 1] > kept; k--) x[k] = x[k - 1];
        x[k] = kept;
    }
    for (int i = 0; i < count; i++) {
        if (i > 0 && x[i] - x[i - 1] < 1e-9) {
            continue;
        }
        for (int side = -1; side <= 1; side += 2) {
            brute_try(b, traffic,
                      &(ss_position){.track = track, .x = x[i] + side * grid->beside, .on_beam = false});
        }
        if (at_beam(b, own, train, x[i])) {
            brute_try(b, traffic, &(ss_position){.track = track, .x = x[i], .on_beam = true});
        }
        for (int k = 1; i + 1 < count && k <= grid->cells; k++) {
            const double at = x[i] + (x[i + 1] - x[i]) * k / (grid->cells + 1);
            brute_try(b, traffic, &(ss_position){.track = track, .x = at, .on_beam = false});
        }
    }
    ss_free(x);
}

void brute_sweep(brute *b, const brute_grid *grid) {
    for (int t = 0; t < b->placements->traffic_count; t++) {
        const ss_traffic *const traffic = &b->placements->traffic[t];
        for (int k = 0; k < traffic->track_count; k++) {
            if (k % grid->every == 0 || k + 1 == traffic->track_count) {
                sweep_track(b, t, traffic->first_track + k, grid);
            }
        }
    }
}

/* ---- one section -------------------------------------------------------------------------------- */

static double factor_here(brute *b, int check, int traffic, int rated) {
    const brute_demand *const demand = brute_demand_of(b, check, traffic, rated);
    double best = (double)INFINITY;
    for (int i = 0; i < b->check_deads[check]; i++) {
        const int dead = b->check_dead[check][i];
        const bool over = b->checks[check].over_dead;
        const double from = over ? b->e_true[dead][rated] : 0.0;
        for (int most = over ? 1 : 0; most < 2; most++) {
            const double target = from + (most == 1 ? demand->limit : -demand->least);
            lower(&best, general_multiple(b, rated, dead, target, most == 1));
        }
    }
    return best / demand->scale;
}

double brute_factor(brute *b, int check, int traffic, int rated, const ss_position *position) {
    double best = (double)INFINITY;
    for (int side = -1; side <= 1; side++) {
        ss_position there = *position;
        there.x += side * SS_NUDGE;
        brute_solve(b, &there);
        if (b->unseen[rated]) {
            return (double)NAN;
        }
        lower(&best, factor_here(b, check, traffic, rated));
    }
    return best;
}

int brute_find(const brute *b, const ss_effect *effect) {
    for (int e = 0; e < b->rated.count; e++) {
        const ss_effect *const own = &b->rated.items[e].effect;
        if (own->kind == effect->kind && own->member == effect->member && own->index == effect->index &&
            own->at == effect->at && own->before == effect->before) {
            return e;
        }
    }
    CU_FAIL_FATAL("a rating of an effect that was not asked for");
    return -1;
}
