/* state.c - one state of the bridge: displacements, spring forces and openings, with contact solved. */
#include "response/state.h"

#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/contact_tableau.h"
#include "sillspan/memory.h"
#include "sillspan/text.h"

void ss_state_destroy(ss_state *state) {
    if (state == NULL) {
        return;
    }
    ss_free(state->u);
    ss_free(state->force);
    ss_free(state->opening);
    ss_free(state->offset);
    ss_load_destroy(&state->load);
    *state = (ss_state){0};
}

static ss_status state_create(const ss_mesh *mesh, ss_state *state, ss_error *error) {
    const size_t springs = (size_t)mesh->spring_count;
    state->u = ss_alloc((size_t)mesh->order, sizeof *state->u);
    state->force = ss_alloc(springs, sizeof *state->force);
    state->opening = ss_alloc(springs, sizeof *state->opening);
    state->offset = ss_alloc(springs, sizeof *state->offset);
    if (state->u == NULL || state->force == NULL || state->opening == NULL || state->offset == NULL) {
        return ss_no_memory(error);
    }
    return SS_OK;
}

/* The contact problem of one state: only springs that are there. */
typedef struct contact_set {
    int n;
    int *spring;
    double *S, *r0, *r, *u, *work;
    bool *open;
} contact_set;

static void contact_set_destroy(contact_set *set) {
    ss_free(set->spring);
    ss_free(set->S);
    ss_free(set->r0);
    ss_free(set->r);
    ss_free(set->u);
    ss_free(set->work);
    ss_free(set->open);
}

static ss_status contact_set_create(const ss_state_task *task, contact_set *set, ss_error *error) {
    const int *springs;
    const double *S;
    const int all = ss_grillage_contact(task->grillage, &springs, &S);
    const size_t size = (size_t)all;
    set->spring = ss_alloc(size, sizeof *set->spring);
    set->S = ss_alloc(size * size, sizeof *set->S);
    set->r0 = ss_alloc(size, sizeof *set->r0);
    set->r = ss_alloc(size, sizeof *set->r);
    set->u = ss_alloc(size, sizeof *set->u);
    set->work = ss_alloc(ss_contact_work(all), sizeof *set->work);
    set->open = ss_alloc(size, sizeof *set->open);
    if (set->spring == NULL || set->S == NULL || set->r0 == NULL || set->r == NULL || set->u == NULL ||
        set->work == NULL || set->open == NULL) {
        return ss_no_memory(error);
    }
    for (int i = 0; i < all; i++) {
        if (task->absent == NULL || !task->absent[springs[i]]) {
            set->spring[set->n++] = springs[i];
        }
    }
    if (task->update == NULL && set->n == all) {
        memcpy(set->S, S, size * size * sizeof *S);
    }
    return SS_OK;
}

/* With springs absent S is another: its columns are the forces of unit settlements, with the opposite sign.
 */
static ss_status updated_stiffness(const ss_state_task *task, contact_set *set, double *u, double *force,
                                   ss_error *error) {
    const ss_mesh *mesh = ss_grillage_mesh(task->grillage);
    ss_status status = SS_OK;
    const size_t n = (size_t)set->n;
    double *const offset = ss_alloc((size_t)mesh->spring_count, sizeof *offset);
    if (offset == NULL) {
        return ss_no_memory(error);
    }
    for (size_t j = 0; j < n; j++) {
        offset[set->spring[j]] = 1.0;
        SS_TRY(ss_grillage_respond(task->grillage, task->update, NULL, offset, u, force, error));
        offset[set->spring[j]] = 0.0;
        for (size_t i = 0; i < n; i++) set->S[i * n + j] = -force[set->spring[i]];
    }
    for (size_t i = 0; i < n; i++) {
        for (size_t j = 0; j < i; j++) {
            set->S[i * n + j] = 0.5 * (set->S[i * n + j] + set->S[j * n + i]);
            set->S[j * n + i] = set->S[i * n + j];
        }
    }
done:
    ss_free(offset);
    return status;
}

/* Sum of all spring forces: what their rounding is relative to. */
static double force_scale(const ss_mesh *mesh, const double *force) {
    double sum = 0.0;
    for (int i = 0; i < mesh->spring_count; i++) sum += fabs(force[i]);
    return sum;
}

void ss_contact_reactions(const ss_mesh *mesh, ss_contact_springs contact, const double *force,
                          const double *offset, double *r) {
    const double scale = force_scale(mesh, force);
    for (int i = 0; i < contact.n; i++) {
        const double terms =
            scale + fabs(contact.S[(size_t)i * (size_t)contact.n + (size_t)i] * offset[contact.springs[i]]);
        r[i] =
            fabs(force[contact.springs[i]]) <= SS_CONTACT_NOTHING * terms ? 0.0 : force[contact.springs[i]];
    }
}

/* The bearing that would have to pull most, if all stayed closed. */
static ss_status refuse_tipping(const ss_state_task *task, const contact_set *set, ss_error *error) {
    const ss_mesh *mesh = ss_grillage_mesh(task->grillage);
    const ss_bridge *bridge = mesh->bridge;
    int worst = 0;
    for (int i = 1; i < set->n; i++) worst = set->r0[i] < set->r0[worst] ? i : worst;
    const ss_bearing *bearing = &bridge->bearings[mesh->spring[set->spring[worst]].index];
    return ss_error_set(error, SS_ERROR_TIPPING,
                        "%s the load tips the bridge off its bearings: whichever of them lift, another one "
                        "would have to pull; most of "
                        "all bearing \"%s\" under line \"%s\" of car \"%s\"",
                        task->when, bearing->name, bridge->lines[bearing->line].name,
                        bridge->cars[bearing->car].name);
}

static ss_status solve_contact(const ss_state_task *task, contact_set *set, ss_state *state,
                               ss_error *error) {
    ss_contact_reactions(ss_grillage_mesh(task->grillage), (ss_contact_springs){set->n, set->spring, set->S},
                         state->force, state->offset, set->r0);
    const ss_status status = ss_contact_solve(set->n, set->S, set->r0, set->r, set->u, set->open, set->work);
    if (status == SS_ERROR_TIPPING) {
        return refuse_tipping(task, set, error);
    }
    if (status != SS_OK) {
        return ss_error_set(
            error, status,
            "%s it was not found which bearings lift and which stay closed: some of them, or the "
            "joints on them, are too stiff against the cars",
            task->when);
    }
    for (int i = 0; i < set->n; i++) {
        state->open_count += set->open[i];
        state->opening[set->spring[i]] = set->u[i];
    }
    return SS_OK;
}

/*
 * What is left in an open bearing is rounding of the terms of its reaction, and so is what is below nothing
 * in a closed one. More than may be missing from equilibrium is a mistake.
 */
static ss_status push_only(const ss_state_task *task, const contact_set *set, ss_state *state,
                           ss_error *error) {
    const double scale = force_scale(ss_grillage_mesh(task->grillage), state->force);
    const size_t n = (size_t)set->n;
    for (size_t i = 0; i < n; i++) {
        double *const force = &state->force[set->spring[i]];
        double terms = scale + fabs(set->r0[i]) + fabs(set->S[i * n + i] * state->offset[set->spring[i]]);
        for (size_t j = 0; j < n; j++) terms += fabs(set->S[i * n + j] * set->u[j]);
        if ((set->open[i] ? -fabs(*force) : *force) < -SS_EQUILIBRIUM_MOST * terms) {
            return ss_error_set(error, SS_ERROR_CHECK,
                                "%s a bearing that only pushes is left with a force that it cannot have",
                                task->when);
        }
        *force = set->open[i] ? 0.0 : ss_max(*force, 0.0);
    }
    return SS_OK;
}

/* Solves again with the openings found. */
static ss_status respond_open(const ss_state_task *task, const contact_set *set, ss_state *state,
                              const ss_load *load, ss_error *error) {
    const int springs = ss_grillage_mesh(task->grillage)->spring_count;
    double *const lowered = ss_alloc((size_t)springs, sizeof *lowered);
    if (lowered == NULL) {
        return ss_no_memory(error);
    }
    for (int i = 0; i < springs; i++) lowered[i] = state->offset[i] - state->opening[i];
    const ss_status status = ss_grillage_respond(task->grillage, task->update, load->nodal, lowered, state->u,
                                                 state->force, error);
    ss_free(lowered);
    return status == SS_OK ? push_only(task, set, state, error) : status;
}

ss_status ss_state_solve(const ss_state_task *task, ss_load *load, ss_state *out, ss_error *error) {
    const ss_mesh *mesh = ss_grillage_mesh(task->grillage);
    ss_status status = SS_OK;
    ss_state state = {0};
    contact_set set = {0};
    SS_TRY(state_create(mesh, &state, error));
    SS_TRY(contact_set_create(task, &set, error));
    memcpy(state.offset, task->offset, (size_t)mesh->spring_count * sizeof *state.offset);
    SS_TRY(ss_grillage_respond(task->grillage, task->update, load->nodal, state.offset, state.u, state.force,
                               error));
    /* Where there is no load the forces are rounding of those that offsets cause with all closed. */
    const double closed = force_scale(mesh, state.force);
    if (set.n > 0) {
        if (task->update != NULL || task->absent != NULL) {
            /* state.u and the force array serve as scratch here, so the reactions are set aside first */
            for (int i = 0; i < set.n; i++) set.r[i] = state.force[set.spring[i]];
            SS_TRY(updated_stiffness(task, &set, state.u, state.force, error));
            for (int i = 0; i < set.n; i++) state.force[set.spring[i]] = set.r[i];
        }
        SS_TRY(solve_contact(task, &set, &state, error));
        SS_TRY(respond_open(task, &set, &state, load, error));
    }
    const double scale = ss_max(fabs(load->total), force_scale(mesh, state.force));
    state.equilibrium = ss_grillage_equilibrium(task->grillage, load, state.force);
    if (closed > scale) {
        state.equilibrium *= scale / closed;
    }
    if (!(state.equilibrium <= SS_EQUILIBRIUM_MOST)) {
        char share[32];
        status = ss_error_set(error, SS_ERROR_CHECK,
                              "%s the forces of the supports and the loads are out of balance by %s of them",
                              task->when, ss_text_significant(share, sizeof share, state.equilibrium, 2));
        goto done;
    }
    state.load = *load;
    *load = (ss_load){0};
    *out = state;
    state = (ss_state){0};
done:
    contact_set_destroy(&set);
    ss_state_destroy(&state);
    return status;
}

int ss_effect_second_spring(const ss_mesh *mesh, const ss_effect *effect) {
    return effect->member == SS_MEMBER_BEARING && effect->kind == SS_EFFECT_REACTION
               ? mesh->spring[effect->spring].pair
               : -1;
}

double ss_effect_spring_factor(const ss_mesh *mesh, const ss_effect *effect) {
    if (effect->member == SS_MEMBER_BEARING) {
        return 1.0;
    }
    /* A positive force pushes the left edge up: the left car then hangs on the right one, which is negative
     * shear. */
    const double per_length = 1.0 / mesh->spring[effect->spring].length;
    return effect->kind == SS_EFFECT_SHEAR ? -per_length : per_length;
}

double ss_state_effect(const ss_mesh *mesh, const ss_state *state, const ss_effect *effect) {
    if (!ss_effect_of_spring(effect)) {
        return ss_mesh_effect_value(mesh, effect, state->u, &state->load);
    }
    const int second = ss_effect_second_spring(mesh, effect);
    const double force = state->force[effect->spring] + (second >= 0 ? state->force[second] : 0.0);
    return ss_effect_spring_factor(mesh, effect) * force;
}
