/* watch_compute.c - what the effects and loads of a watch come to on a bridge, by its factored grillage. */
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/row.h"
#include "response/envelope_tile.h"
#include "response/state.h"
#include "sillspan/memory.h"
#include "studies/watch_parts.h"

/* One bridge that a watch is computed on. */
typedef struct solving {
    const ss_watch_placed *placed;
    const ss_permanent *permanent;
    const ss_mesh *mesh;
    const int *springs; /* n: contact springs */
    ss_watch_answers *answers;
    double *u, *force, *offset; /* order, spring_count, spring_count */
    ss_error *error;
} solving;

/* ---- dead loads ------------------------------------------------------------------------------------- */

static ss_status solve_dead(solving *s, int d, ss_dead_factors factors) {
    const ss_watch_placed *const placed = s->placed;
    ss_watch_answers *const a = s->answers;
    double *const e_dead = a->e_dead + (size_t)d * (size_t)placed->watch->effect_count;
    ss_status status = SS_OK;
    ss_load load = {0};
    SS_TRY(ss_permanent_loads(s->permanent, &(ss_load_sum){true, factors, NULL, 0.0}, &load, s->offset,
                              s->error));
    SS_TRY(
        ss_grillage_respond(s->permanent->grillage, NULL, load.nodal, s->offset, s->u, s->force, s->error));
    ss_contact_reactions(s->mesh, (ss_contact_springs){a->n, s->springs, a->S}, s->force, s->offset,
                         a->r_dead + (size_t)d * (size_t)a->n);
    for (int e = 0; e < placed->watch->effect_count; e++) {
        const ss_state state = {.u = s->u, .force = s->force, .load = load};
        e_dead[e] = placed->there[e] ? ss_state_effect(s->mesh, &state, &placed->effect[e]) : SS_NAN;
    }
done:
    ss_load_destroy(&load);
    return status;
}

/* ---- live loads ------------------------------------------------------------------------------------- */

static double of_loads(const ss_watch_placed *placed, int stand, const double *field, size_t stride) {
    double sum = 0.0;
    for (int i = placed->first[stand]; i < placed->first[stand + 1]; i++) {
        sum += placed->force[i] * field[(size_t)placed->dof[i] * stride];
    }
    return sum;
}

static void find_reactions(const solving *s) {
    const size_t n = (size_t)s->answers->n;
    for (int stand = 0; stand < s->placed->watch->stand_count; stand++) {
        for (size_t k = 0; k < n; k++) {
            s->answers->r_live[(size_t)stand * n + k] =
                of_loads(s->placed, stand, s->permanent->contact_field + k, n);
        }
    }
}

/* Items of one effect, by its influence field. */
static void find_items(const solving *s, int effect, const double *field, size_t stride) {
    const ss_watch *const watch = s->placed->watch;
    for (int i = 0; i < watch->item_count; i++) {
        if (watch->items[i].effect == effect) {
            s->answers->e_live[i] =
                of_loads(s->placed, watch->items[i].stand, field, stride) + s->placed->within[i];
        }
    }
}

static void open_member(const solving *s, int effect) {
    const size_t n = (size_t)s->answers->n;
    double *const opening = s->answers->opening + (size_t)effect * n;
    ss_row row;
    ss_mesh_effect_row(s->mesh, &s->placed->effect[effect], &row);
    for (size_t k = 0; k < n; k++) {
        double sum = 0.0;
        for (int i = 0; i < row.count; i++) {
            sum += row.value[i] * s->permanent->contact_field[(size_t)row.dof[i] * n + k];
        }
        opening[k] = -sum;
    }
}

static ss_status solve_members(const solving *s) {
    const ss_watch *const watch = s->placed->watch;
    const size_t size = (size_t)s->mesh->order * SS_TILE;
    ss_status status = SS_OK;
    double *const z = ss_alloc(2 * size, sizeof *z);
    double *const work = ss_alloc(ss_grillage_work(s->permanent->grillage, NULL), sizeof *work);
    SS_TRY(z == NULL || work == NULL ? ss_no_memory(s->error) : SS_OK);
    for (int e = 0; e < watch->effect_count;) {
        ss_effect tile[SS_TILE];
        int index[SS_TILE], count = 0;
        for (; e < watch->effect_count && count < SS_TILE; e++) {
            if (s->placed->there[e] && !ss_effect_of_spring(&s->placed->effect[e])) {
                tile[count] = s->placed->effect[e];
                index[count++] = e;
            }
        }
        if (count > 0) {
            ss_envelope_fields(s->permanent, tile, count, z, z + size, work);
        }
        for (int lane = 0; lane < count; lane++) {
            find_items(s, index[lane], z + lane, SS_TILE);
            open_member(s, index[lane]);
        }
    }
done:
    ss_free(z);
    ss_free(work);
    return status;
}

/* Index among the contact springs, or -1. */
static int contact_index(const solving *s, int spring) {
    for (int k = 0; k < s->answers->n; k++) {
        if (s->springs[k] == spring) {
            return k;
        }
    }
    return -1;
}

/* The influence field of the reaction of a bearing that pushes is known: that of its springs. */
static void read_contact(const solving *s, int e, int first, int second, double *field) {
    const size_t n = (size_t)s->answers->n, order = (size_t)s->mesh->order;
    const double *const known = s->permanent->contact_field;
    for (size_t dof = 0; dof < order; dof++) {
        field[dof] = known[dof * n + (size_t)first] + (second >= 0 ? known[dof * n + (size_t)second] : 0.0);
    }
    for (size_t k = 0; k < n; k++) {
        s->answers->opening[(size_t)e * n + k] = s->answers->S[(size_t)first * n + k] +
                                                 (second >= 0 ? s->answers->S[(size_t)second * n + k] : 0.0);
    }
    find_items(s, e, field, 1);
}

/* The response to a settlement of a spring is the influence field of its force, and what it makes of the
 * forces of the contact springs is what their settlements make of its own. */
static ss_status settle(const solving *s, int e, int second, double *field) {
    const ss_effect *const effect = &s->placed->effect[e];
    const double factor = ss_effect_spring_factor(s->mesh, effect);
    const size_t n = (size_t)s->answers->n;
    memset(s->offset, 0, (size_t)s->mesh->spring_count * sizeof *s->offset);
    s->offset[effect->spring] = factor;
    if (second >= 0) {
        s->offset[second] = factor;
    }
    const ss_status status =
        ss_grillage_respond(s->permanent->grillage, NULL, NULL, s->offset, field, s->force, s->error);
    if (status == SS_OK) {
        for (size_t k = 0; k < n; k++) s->answers->opening[(size_t)e * n + k] = -s->force[s->springs[k]];
        find_items(s, e, field, 1);
    }
    return status;
}

/* Soft springs of joints, up to SS_TILE of them at once: their forces are those of their displacements. */
static void read_soft(const solving *s, int count, const int *effects, double *tile, double *work) {
    const size_t n = (size_t)s->answers->n;
    int springs[SS_TILE];
    for (int i = 0; i < count; i++) springs[i] = s->placed->effect[effects[i]].spring;
    if (count > 0) {
        ss_grillage_settle(s->permanent->grillage, NULL, count, springs, tile, work);
    }
    for (int i = 0; i < count; i++) {
        const ss_spring *const spring = &s->mesh->spring[springs[i]];
        const double factor = ss_effect_spring_factor(s->mesh, &s->placed->effect[effects[i]]);
        double *const opening = s->answers->opening + (size_t)effects[i] * n;
        for (size_t dof = 0; dof < (size_t)s->mesh->order; dof++) {
            tile[dof * SS_TILE + (size_t)i] *= factor;
        }
        for (size_t k = 0; k < n; k++) {
            double moved = 0.0;
            for (int j = 0; j < spring->row.count; j++) {
                moved +=
                    spring->row.value[j] * s->permanent->contact_field[(size_t)spring->row.dof[j] * n + k];
            }
            opening[k] = -factor * moved / spring->flexibility;
        }
        find_items(s, effects[i], tile + i, SS_TILE);
    }
}

static ss_status solve_springs(const solving *s) {
    const ss_watch *const watch = s->placed->watch;
    const ss_grillage *const grillage = s->permanent->grillage;
    int soft[SS_TILE], soft_count = 0;
    ss_status status = SS_OK;
    double *const field = ss_alloc((size_t)s->mesh->order * SS_TILE + 1, sizeof *field);
    double *const work = ss_alloc(ss_grillage_work(grillage, NULL), sizeof *work);
    SS_TRY(field == NULL || work == NULL ? ss_no_memory(s->error) : SS_OK);
    for (int e = 0; e < watch->effect_count; e++) {
        const ss_effect *const effect = &s->placed->effect[e];
        if (!s->placed->there[e] || !ss_effect_of_spring(effect)) {
            continue;
        }
        const int second = ss_effect_second_spring(s->mesh, effect);
        const int contact = contact_index(s, effect->spring);
        if (contact >= 0) {
            read_contact(s, e, contact, second < 0 ? -1 : contact_index(s, second), field);
        } else if (effect->member == SS_MEMBER_JOINT && ss_grillage_soft(grillage, effect->spring)) {
            soft[soft_count++] = e;
        } else {
            SS_TRY(settle(s, e, second, field));
        }
        if (soft_count == SS_TILE) {
            read_soft(s, soft_count, soft, field, work);
            soft_count = 0;
        }
    }
    read_soft(s, soft_count, soft, field, work);
done:
    ss_free(field);
    ss_free(work);
    return status;
}

/* ---- public ----------------------------------------------------------------------------------------- */

ss_status ss_watch_answers_make(const ss_watch *watch, int n, int dead_count, ss_arena *arena,
                                ss_watch_answers *out, ss_error *error) {
    const size_t effects = (size_t)watch->effect_count, deads = (size_t)dead_count;
    ss_watch_answers a = {.n = n, .dead_count = dead_count};
    a.r_dead = ss_arena_alloc(arena, deads * (size_t)n + 1, sizeof *a.r_dead);
    a.e_dead = ss_arena_alloc(arena, deads * effects + 1, sizeof *a.e_dead);
    a.opening = ss_arena_alloc(arena, effects * (size_t)n + 1, sizeof *a.opening);
    a.r_live = ss_arena_alloc(arena, (size_t)watch->stand_count * (size_t)n + 1, sizeof *a.r_live);
    a.e_live = ss_arena_alloc(arena, (size_t)watch->item_count + 1, sizeof *a.e_live);
    if (a.r_dead == NULL || a.e_dead == NULL || a.opening == NULL || a.r_live == NULL || a.e_live == NULL) {
        return ss_no_memory(error);
    }
    *out = a;
    return SS_OK;
}

static ss_status solve(solving *s, const ss_watch_checks *checks) {
    ss_status status = SS_OK;
    const size_t springs = (size_t)s->mesh->spring_count;
    s->u = ss_alloc((size_t)s->mesh->order + 1, sizeof *s->u);
    s->force = ss_alloc(springs + 1, sizeof *s->force);
    s->offset = ss_alloc(springs + 1, sizeof *s->offset);
    SS_TRY(s->u == NULL || s->force == NULL || s->offset == NULL ? ss_no_memory(s->error) : SS_OK);
    for (int d = 0; d < checks->dead_count; d++) SS_TRY(solve_dead(s, d, checks->dead[d]));
    find_reactions(s);
    SS_TRY(solve_members(s));
    SS_TRY(solve_springs(s));
done:
    ss_free(s->u);
    ss_free(s->force);
    ss_free(s->offset);
    return status;
}

ss_status ss_watch_compute(const ss_watch *watch, const ss_variant *variant, ss_watch_value *values,
                           ss_error *error) {
    ss_watch_placed placed = {0};
    ss_watch_checks checks;
    ss_watch_limits limits;
    ss_watch_answers answers;
    ss_watch_scratch scratch;
    ss_arena arena = {0};
    solving s = {.placed = &placed,
                 .permanent = &variant->permanent,
                 .mesh = &variant->mesh,
                 .answers = &answers,
                 .error = error};
    const double *S = NULL;
    const int n = ss_grillage_contact(variant->grillage, &s.springs, &S);
    ss_status status = SS_OK;
    SS_TRY(ss_watch_checks_make(watch, &variant->bridge, &checks, error));
    SS_TRY(ss_watch_place(watch, &variant->mesh, &placed, error));
    SS_TRY(ss_watch_limits_make(&placed, &variant->permanent, &checks, &arena, &limits, error));
    SS_TRY(ss_watch_answers_make(watch, n, checks.dead_count, &arena, &answers, error));
    answers.S = S;
    SS_TRY(solve(&s, &checks));
    SS_TRY(ss_watch_scratch_make(n, &arena, &scratch, error));
    status = ss_watch_evaluate(&placed, &checks, &limits, &answers, &scratch, values);
    if (status != SS_OK) {
        ss_error_set(error, status, "the bearings' contact at the watched places: %s",
                     ss_status_text(status));
    }
done:
    ss_watch_unplace(&placed);
    ss_arena_destroy(&arena);
    return status;
}
