/* contact_finder.c - states of contact for many positions of trucks: a state met before is only tested, by
 * one small product. */
#include <string.h>

#include "base/numeric.h"
#include "response/clones.h"
#include "response/contact_model.h"
#include "response/contact_tableau.h"
#include "response/state.h"
#include "sillspan/memory.h"

enum { FLIPS_MOST = 8 };

static void free_state(ss_contact_state *state) {
    ss_free(state->open);
    ss_free(state->map);
    ss_free(state->by_column);
    ss_free(state->size);
}

/* What is derived from the map. */
static void finish_state(ss_contact_state *state, size_t n) {
    for (size_t k = 0; k < n; k++) {
        state->size[k] = 0.0;
        for (size_t j = 0; j < n; j++) {
            state->size[k] += fabs(state->map[k * n + j]);
            state->by_column[j * n + k] = state->map[k * n + j];
        }
    }
}

/* A place for one more state, with both arrays; it does not count yet. */
static ss_status add_place(ss_contact_finder *finder, ss_contact_state **out) {
    const size_t n = (size_t)finder->model->n;
    if (finder->count == finder->capacity) {
        const int capacity = 2 * finder->capacity + 16;
        ss_contact_state *const grown = ss_realloc(finder->states, (size_t)capacity, sizeof *grown);
        if (grown == NULL) {
            return SS_ERROR_MEMORY;
        }
        finder->states = grown;
        finder->capacity = capacity;
    }
    ss_contact_state made = {.open = ss_alloc(n, sizeof *made.open),
                             .map = ss_alloc(n * n, sizeof *made.map),
                             .by_column = ss_alloc(n * n, sizeof *made.by_column),
                             .size = ss_alloc(n, sizeof *made.size)};
    if (made.open == NULL || made.map == NULL || made.by_column == NULL || made.size == NULL) {
        free_state(&made);
        return SS_ERROR_MEMORY;
    }
    finder->states[finder->count] = made;
    *out = &finder->states[finder->count];
    return SS_OK;
}

static ss_status take_over(ss_contact_finder *finder, const ss_contact_finder *like) {
    const size_t n = (size_t)finder->model->n;
    for (int i = 0; i < like->count; i++) {
        ss_contact_state *place;
        const ss_status status = add_place(finder, &place);
        if (status != SS_OK) {
            return status;
        }
        memcpy(place->open, like->states[i].open, n * sizeof *place->open);
        memcpy(place->map, like->states[i].map, n * n * sizeof *place->map);
        finish_state(place, n);
        finder->count++;
    }
    finder->known = finder->count;
    return SS_OK;
}

ss_status ss_contact_finder_create(const ss_contact_model *model, const ss_contact_finder *like,
                                   ss_contact_finder *out, ss_error *error) {
    const size_t n = (size_t)model->n;
    ss_contact_finder f = {.model = model, .grows = like == NULL};
    f.r = ss_alloc(n, sizeof *f.r);
    f.margin = ss_alloc(n, sizeof *f.margin);
    f.terms = ss_alloc(n, sizeof *f.terms);
    f.u = ss_alloc(n, sizeof *f.u);
    f.found = ss_alloc(n, sizeof *f.found);
    f.work = ss_alloc(ss_contact_work(model->n), sizeof *f.work);
    f.open = ss_alloc(n, sizeof *f.open);
    f.bad = ss_alloc(n, sizeof *f.bad);
    if (f.r == NULL || f.margin == NULL || f.terms == NULL || f.u == NULL || f.found == NULL ||
        f.work == NULL || f.open == NULL || f.bad == NULL || (like != NULL && take_over(&f, like) != SS_OK)) {
        ss_contact_finder_destroy(&f);
        return ss_no_memory(error);
    }
    *out = f;
    return SS_OK;
}

void ss_contact_finder_destroy(ss_contact_finder *finder) {
    for (int i = 0; i < finder->count; i++) free_state(&finder->states[i]);
    ss_free(finder->states);
    ss_free(finder->r);
    ss_free(finder->margin);
    ss_free(finder->terms);
    ss_free(finder->u);
    ss_free(finder->found);
    ss_free(finder->work);
    ss_free(finder->open);
    ss_free(finder->bad);
    *finder = (ss_contact_finder){0};
}

/* The map of the pattern in finder->open, out of its dictionary. False: the pattern is singular. */
static bool fill_map(ss_contact_finder *finder, double *map) {
    const ss_contact_model *m = finder->model;
    const int n = m->n;
    ss_contact_tableau tableau;
    ss_contact_tableau_set(&tableau, n, m->S, finder->r, NULL, finder->work);
    for (int i = 0; i < n; i++) tableau.open[i] = finder->open[i] ? 1.0 : 0.0;
    if (!ss_contact_tableau_restart(&tableau)) {
        return false;
    }
    for (int k = 0; k < n; k++) {
        for (int j = 0; j < n; j++) {
            const size_t at = (size_t)k * (size_t)n + (size_t)j;
            /* a basic unknown is its own closed reaction less M times those of the open bearings */
            const double own = k == j && !finder->open[k] ? 1.0 : 0.0;
            const double scaled = finder->open[j] ? -tableau.M[at] : own;
            map[at] =
                scaled * tableau.scale[j] * (finder->open[k] ? tableau.scale[k] : 1.0 / tableau.scale[k]);
        }
    }
    return true;
}

/* A new state. *state is -1 when its pattern is singular. */
static ss_status remember(ss_contact_finder *finder, int *state) {
    ss_contact_state *place;
    const ss_status status = add_place(finder, &place);
    if (status != SS_OK) {
        return status;
    }
    if (!fill_map(finder, place->map)) {
        free_state(place);
        *state = -1;
        return SS_OK;
    }
    memcpy(place->open, finder->open, (size_t)finder->model->n * sizeof *place->open);
    finish_state(place, (size_t)finder->model->n);
    *state = finder->count++;
    finder->known = finder->grows ? finder->count : finder->known;
    return SS_OK;
}

static ss_status look_up(ss_contact_finder *finder, int *state) {
    const size_t n = (size_t)finder->model->n;
    for (int i = 0; i < finder->count; i++) {
        if (memcmp(finder->states[i].open, finder->open, n * sizeof *finder->open) == 0) {
            *state = i;
            return SS_OK;
        }
    }
    return remember(finder, state);
}

/* Sums of the products of each row with r, and of their magnitudes. */
SS_CLONES
static void multiply(int n, const double *restrict by_column, const double *restrict r, double *restrict sum,
                     double *restrict terms) {
    for (int k = 0; k < n; k++) sum[k] = terms[k] = 0.0;
    for (int j = 0; j < n; j++) {
        const double by = r[j];
        const double *restrict const column = by_column + (size_t)j * (size_t)n;
        for (int k = 0; k < n; k++) {
            const double product = column[k] * by;
            sum[k] += product;
            terms[k] += fabs(product);
        }
    }
}

/* Rounding of the terms of a sum, and of each reaction as a sum over the wheels as part of the largest. More
 * would let a bearing that pulls pass as closed where reactions with all closed are thousands of times the
 * load. */
#define OF_TERMS 1e-12
#define OF_LARGEST 1e-13

/* What must not be negative in a state, and whether it is not. Rounding grows with the terms of each sum. */
static bool holds(ss_contact_finder *finder, const ss_contact_state *state) {
    const int n = finder->model->n;
    double most = 0.0;
    for (int j = 0; j < n; j++) most = ss_max(most, fabs(finder->r[j]));
    bool good = true;
    multiply(n, state->by_column, finder->r, finder->margin, finder->terms);
    for (int k = 0; k < n; k++) {
        const double rounding = OF_TERMS * finder->terms[k] + OF_LARGEST * state->size[k] * most;
        finder->bad[k] = !(finder->margin[k] >= -rounding);
        good = good && !finder->bad[k];
    }
    return good;
}

bool ss_contact_holds(ss_contact_finder *finder, int state, const double *live, double *margin) {
    const ss_contact_model *m = finder->model;
    for (int i = 0; i < m->n; i++) finder->r[i] = m->r_dead[i] + m->live_factor * live[i];
    const bool good = holds(finder, &finder->states[state]);
    memcpy(margin, finder->margin, (size_t)m->n * sizeof *margin);
    return good;
}

/*
 * Flips what is negative in the state tried last, as long as that is one of the states that all finders know:
 * most positions come to their state so, by a few products. False when it leads nowhere; *state is then where
 * it stopped.
 */
static bool flip(ss_contact_finder *finder, int *state) {
    const int n = finder->model->n;
    for (int pass = 0; pass < FLIPS_MOST; pass++) {
        int next = -1;
        for (int k = 0; k < n; k++) finder->open[k] = finder->states[*state].open[k] != finder->bad[k];
        for (int i = 0; i < finder->known && next < 0; i++) {
            next =
                memcmp(finder->states[i].open, finder->open, (size_t)n * sizeof *finder->open) == 0 ? i : -1;
        }
        if (next < 0) {
            return false;
        }
        *state = next;
        if (holds(finder, &finder->states[next])) {
            return true;
        }
    }
    return false;
}

ss_status ss_contact_find(ss_contact_finder *finder, const double *live, int *state, double *change) {
    const ss_contact_model *m = finder->model;
    const int n = m->n;
    for (int i = 0; i < n; i++) finder->r[i] = m->r_dead[i] + m->live_factor * live[i];
    if (*state < 0 || (!holds(finder, &finder->states[*state]) && !flip(finder, state))) {
        const bool *const guess = *state >= 0 ? finder->states[*state].open : m->open_dead;
        memcpy(finder->open, guess, (size_t)n * sizeof *finder->open);
        ss_status status =
            ss_contact_solve(n, m->S, finder->r, finder->found, finder->u, finder->open, finder->work);
        if (status == SS_OK) {
            status = look_up(finder, state);
        }
        if (status != SS_OK) {
            *state = -1;
            return status;
        }
        if (*state >= 0) {
            holds(finder, &finder->states[*state]);
        }
    }
    if (*state >= 0) { /* by the map even where the state is new, so that the digits do not depend on what was
                          met before */
        const bool *const open = finder->states[*state].open;
        for (int i = 0; i < n; i++) finder->u[i] = open[i] ? ss_max(finder->margin[i], 0.0) : 0.0;
    }
    for (int i = 0; i < n; i++) change[i] = (finder->u[i] - m->u_dead[i]) / m->live_factor;
    return SS_OK;
}

void ss_contact_mapped(const ss_contact_finder *finder, int state, const double *live, double *opening) {
    const size_t n = (size_t)finder->model->n;
    for (size_t k = 0; k < n; k++) {
        opening[k] = 0.0;
        for (size_t j = 0; state >= 0 && finder->states[state].open[k] && j < n; j++) {
            opening[k] += finder->states[state].map[k * n + j] * live[j];
        }
    }
}

bool ss_contact_is_dead_state(const ss_contact_finder *finder, int state) {
    const size_t n = (size_t)finder->model->n;
    return state >= 0 && memcmp(finder->states[state].open, finder->model->open_dead, n * sizeof(bool)) == 0;
}

ss_status ss_contact_pressed(ss_contact_finder *finder, int first, int second, int *state) {
    const ss_contact_model *const m = finder->model;
    bool lifted = false;
    *state = -1;
    for (int k = 0; k < m->n; k++) {
        const bool asked = m->springs[k] == first || m->springs[k] == second;
        finder->open[k] = m->open_dead[k] && !asked;
        finder->r[k] = m->r_dead[k];
        lifted = lifted || (m->open_dead[k] && asked);
    }
    return lifted ? look_up(finder, state) : SS_OK;
}
