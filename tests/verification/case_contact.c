/* case_contact.c - bearings that lift on a pair of cars: against all contact states, and against a new
 * solution with the open ones away. */
#include <math.h>
#include <stddef.h>
#include <string.h>

#include "sillspan/memory.h"
#include "verification/check.h"
#include "verification/enumerate.h"
#include "verification/rig.h"

static const char *const names[] = {"dead", "middle", "heavy", "end"};

#define PAIR_INPUTS                                                                                          \
    "two unlike 50 ft cars joined by springs, sills on pads at the wheel-truck points, edges of the ends "   \
    "on springs with a "                                                                                     \
    "gap (models/verification/pair.cfg): 16 contact springs; "

/* The state of a case: all its loads on the dead load. */
static ss_status case_state(const rig *r, const char *name, ss_state *out, ss_error *error) {
    const ss_bridge *const bridge = &r->bridge;
    const ss_dead_factors present = {1.0, 1.0};
    ss_load load = {0};
    ss_status status = ss_load_create(&r->mesh, &load, error);
    for (int i = 0; i < bridge->case_count && status == SS_OK; i++) {
        const ss_case *const c = &bridge->cases[i];
        for (int j = 0; j < c->load_count && strcmp(c->name, name) == 0 && status == SS_OK; j++) {
            status = ss_cases_add(bridge, &bridge->placed[c->first_load + j], &load, error);
        }
    }
    if (status == SS_OK) {
        status = ss_permanent_state(&r->permanent, true, present, &load, 1.0, out, error);
    }
    ss_load_destroy(&load);
    return status;
}

/* Enumerates the contact states under the loads of `state` and adds how they compare with it. */
static ss_status compare(const rig *r, const ss_state *state, check *out, ss_error *error) {
    const int *springs = NULL;
    const double *S = NULL;
    const int n = ss_grillage_contact(r->grillage, &springs, &S);
    if (n > ENUMERATE_MOST) {
        return ss_error_set(error, SS_ERROR_LIMIT, "%d contact springs are too many to enumerate", n);
    }
    double *const u = ss_alloc((size_t)r->mesh.order, sizeof *u);
    double *const force = ss_alloc((size_t)r->mesh.spring_count, sizeof *force);
    ss_status status = u == NULL || force == NULL ? SS_ERROR_MEMORY : SS_OK;
    if (status == SS_OK) {
        status = ss_grillage_respond(r->grillage, NULL, state->load.nodal, state->offset, u, force, error);
    }
    if (status == SS_OK) {
        double r0[ENUMERATE_MOST];
        double largest = 0.0;
        for (int i = 0; i < n; i++) {
            r0[i] = force[springs[i]];
            largest = fmax(largest, fabs(r0[i]));
        }
        enumerate_result all;
        enumerate_contact(n, S, r0, 1e-8 * largest, 1e-10, &all);
        double worst = 0.0, most[2] = {0.0, 0.0};
        for (int i = 0; i < n; i++) {
            worst = fmax(worst, fabs(all.reaction[i] - state->force[springs[i]]) / KIP);
            most[0] = fmax(most[0], all.reaction[i] / KIP);
            most[1] = fmax(most[1], state->force[springs[i]] / KIP);
        }
        check_add(out, 1.0, all.solutions);
        check_add(out, all.open, state->open_count);
        check_add(out, most[0], most[1]);
        check_add(out, 0.0, worst);
    }
    ss_free(u);
    ss_free(force);
    return status;
}

static bool enumerate_pair(check *out, const rig_options *options) {
    rig r;
    if (!rig_open(&r, "pair", options)) {
        return false;
    }
    ss_error error = {SS_OK, ""};
    ss_status status = SS_OK;
    for (int i = 0; i < 4 && status == SS_OK; i++) {
        ss_state state = {0};
        status = case_state(&r, names[i], &state, &error);
        if (status == SS_OK) {
            status = compare(&r, &state, out, &error);
        }
        ss_state_destroy(&state);
    }
    if (status != SS_OK) {
        rig_complain("pair", &error);
    }
    rig_close(&r);
    return status == SS_OK;
}

#define ENUMERATE_SOURCE                                                                                     \
    "own method: all 65536 patterns of open springs solved by elimination (tests/verification/enumerate.c)"
#define ENUMERATE_LOADS                                                                                      \
    "dead load alone; EV3 backward on the west car; EV3 and 61.3 kip on the east car; HS20-44 on the west"
#define ENUMERATE_VALUES                                                                                     \
    "for each load: states that satisfy all conditions, open springs, largest reaction (kip), largest "      \
    "difference of any reaction (kip)"
#define ENUMERATE_WHY "both solve the same linear systems in another order; 1e-6 kip leaves room for rounding"

static bool enumeration(check *out) {
    *out = (check){.title = "Contact state against all contact states",
                   .source = ENUMERATE_SOURCE,
                   .inputs = PAIR_INPUTS ENUMERATE_LOADS,
                   .values = ENUMERATE_VALUES,
                   CHECK_ABSOLUTE(ENUMERATE_WHY, 1e-6, 6)};
    return enumerate_pair(out, NULL);
}

static bool enumeration_sunk(check *out) {
    *out = (check){.title = "The same after the wheel-truck supports sank",
                   .source = ENUMERATE_SOURCE,
                   .inputs = PAIR_INPUTS "no gap, wheel-truck supports 1/2 in lower; " ENUMERATE_LOADS,
                   .values = ENUMERATE_VALUES,
                   CHECK_ABSOLUTE(ENUMERATE_WHY, 1e-6, 6)};
    const rig_setting settings[] = {{"bridge.bearings.ends.gap", "0 in"},
                                    {"bridge.bearings.trucks.settlement", "1/2 in"}};
    return enumerate_pair(out, &(rig_options){settings, 2, 1});
}

/* The forces of the springs when those that are open in `state` are taken away and the rest is solved anew.
 */
static ss_status without_open(const rig *r, const ss_state *state, double *worst, double *least,
                              ss_error *error) {
    const int count = r->mesh.spring_count;
    double *const flexibility = ss_alloc((size_t)count, sizeof *flexibility);
    double *const u = ss_alloc((size_t)r->mesh.order, sizeof *u);
    double *const force = ss_alloc((size_t)count, sizeof *force);
    ss_update *update = NULL;
    ss_status status = flexibility == NULL || u == NULL || force == NULL ? SS_ERROR_MEMORY : SS_OK;
    for (int i = 0; i < count && status == SS_OK; i++) {
        const ss_spring *const s = &r->mesh.spring[i];
        flexibility[i] = s->contact && state->opening[i] > 0.0 ? (double)INFINITY : s->flexibility;
    }
    if (status == SS_OK) {
        status = ss_update_create(r->grillage, flexibility, &update, error);
    }
    if (status == SS_OK) {
        status = ss_grillage_respond(r->grillage, update, state->load.nodal, state->offset, u, force, error);
    }
    for (int i = 0; i < count && status == SS_OK; i++) {
        *worst = fmax(*worst, fabs(force[i] - state->force[i]) / KIP);
        if (r->mesh.spring[i].contact) {
            *least = fmin(*least, force[i] / KIP);
        }
    }
    ss_update_destroy(update);
    ss_free(flexibility);
    ss_free(u);
    ss_free(force);
    return status;
}

static bool taken_away(check *out) {
    *out = (check){
        .title = "Contact state against a bridge without the open bearings",
        .source = "own method: open springs given infinite flexibility, everything else solved anew, two-way",
        .inputs = PAIR_INPUTS "the same four loads",
        .values = "for each load: largest difference of any spring force, most negative bearing force (kip)",
        .why = "the two differ by rounding only",
        .tolerance = 1e-6,
        .relative = false,
        .digits = 3};
    rig r;
    if (!rig_open(&r, "pair", NULL)) {
        return false;
    }
    ss_error error = {SS_OK, ""};
    ss_status status = SS_OK;
    for (int i = 0; i < 4 && status == SS_OK; i++) {
        ss_state state = {0};
        double worst = 0.0, least = 0.0;
        status = case_state(&r, names[i], &state, &error);
        if (status == SS_OK) {
            status = without_open(&r, &state, &worst, &least, &error);
        }
        if (status == SS_OK) {
            check_add(out, 0.0, worst);
            check_add(out, 0.0, least);
        }
        ss_state_destroy(&state);
    }
    if (status != SS_OK) {
        rig_complain("pair", &error);
    }
    rig_close(&r);
    return status == SS_OK;
}

static const check_function checks[] = {enumeration, enumeration_sunk, taken_away};

const check_chapter chapter_contact = {"Bearings that lift", checks, (int)(sizeof checks / sizeof checks[0])};
