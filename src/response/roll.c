/* roll.c - the positions of a truck on one track: axles at stations, on floor beams, and where bearings lift
 * or close. */
#include "response/roll.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/mesh_parts.h"
#include "response/roll_parts.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* ---- storage ------------------------------------------------------------------------------------ */

static ss_status begin(ss_roll_builder *b) {
    ss_roll *const r = &b->roll;
    const size_t n = (size_t)r->n;
    b->live = ss_alloc(n, sizeof *b->live);
    b->change = ss_alloc(n, sizeof *b->change);
    b->cubics = ss_alloc(4 * n, sizeof *b->cubics);
    return b->live == NULL || b->change == NULL || b->cubics == NULL ? ss_no_memory(b->error) : SS_OK;
}

static ss_status grow(ss_roll_builder *b) {
    ss_roll *const r = &b->roll;
    const int places = r->course->stand_count + r->course->point_count;
    const size_t capacity = r->capacity == 0 ? (size_t)places + 32 : 2 * (size_t)r->capacity;
    double *const x = ss_realloc(r->x, capacity, sizeof *x);
    r->x = x != NULL ? x : r->x;
    signed char *const side = ss_realloc(r->side, capacity, sizeof *side);
    r->side = side != NULL ? side : r->side;
    bool *const valid = ss_realloc(r->valid, capacity, sizeof *valid);
    r->valid = valid != NULL ? valid : r->valid;
    int *const place = ss_realloc(r->place, capacity, sizeof *place);
    r->place = place != NULL ? place : r->place;
    int *const state = ss_realloc(r->state, capacity, sizeof *state);
    r->state = state != NULL ? state : r->state;
    if (x == NULL || side == NULL || valid == NULL || place == NULL || state == NULL) {
        return ss_no_memory(b->error);
    }
    r->capacity = (int)capacity;
    return SS_OK;
}

static ss_status add_between(ss_roll_builder *b, const ss_axle_at *at) {
    ss_roll *const r = &b->roll;
    const size_t axles = (size_t)r->vehicle->axle_count;
    if (r->between_count == r->between_capacity) {
        const int capacity = 2 * r->between_capacity + 16;
        ss_axle_at *const grown = ss_realloc(r->between, (size_t)capacity * axles, sizeof *grown);
        if (grown == NULL) {
            return ss_no_memory(b->error);
        }
        r->between = grown;
        r->between_capacity = capacity;
    }
    memcpy(r->between + (size_t)r->between_count++ * axles, at, axles * sizeof *at);
    return SS_OK;
}

ss_status ss_roll_add(ss_roll_builder *b, const ss_roll_stand *stand) {
    ss_roll *const r = &b->roll;
    const int index = r->stand_count + r->point_count;
    ss_status status = index == r->capacity ? grow(b) : SS_OK;
    if (status == SS_OK && stand->place < 0) {
        status = add_between(b, stand->at);
    }
    if (status != SS_OK) {
        return status;
    }
    r->x[index] = stand->x;
    r->side[index] = (signed char)stand->side;
    r->valid[index] = stand->valid;
    r->state[index] = stand->state;
    r->place[index] = stand->place < 0 ? -r->between_count : stand->place;
    r->stand_count++;
    return ss_sparse_add(&r->openings, stand->change, r->n) == SS_OK ? SS_OK : ss_no_memory(b->error);
}

const ss_axle_at *ss_roll_at(const ss_roll *roll, int index) {
    const size_t axles = (size_t)roll->vehicle->axle_count;
    const int place = roll->place[index];
    return place >= 0 ? roll->course->at + (size_t)place * axles
                      : roll->between + (size_t)(-1 - place) * axles;
}

/* ---- contact ------------------------------------------------------------------------------------ */

ss_status ss_roll_contact(ss_roll_builder *b, double x, const ss_axle_at *at, bool left, int *state,
                          bool *valid) {
    *valid = true;
    if (b->finder == NULL) {
        return SS_OK;
    }
    ss_roll_reactions(b->finder->model, &b->roll, at, left, b->live);
    const ss_status status = ss_contact_find(b->finder, b->live, state, b->change);
    if (status == SS_ERROR_MEMORY) {
        return ss_no_memory(b->error);
    }
    if (status != SS_OK && status != SS_ERROR_TIPPING) {
        char place[48];
        return ss_error_set(
            b->error, status,
            "under truck %s with its front axle at x = %s it was not found which bearings lift and which "
            "stay closed: some of them, or the joints on them, are too stiff against the cars",
            b->roll.vehicle->name, ss_mesh_x_words(b->plans->mesh->bridge->units, x, place, sizeof place));
    }
    if (status != SS_OK) {
        *valid = false;
        memset(b->change, 0, (size_t)b->roll.n * sizeof *b->change);
        if (!b->roll.tips) {
            b->roll.tips = true;
            b->roll.tip_x = left ? x - SS_NUDGE : x;
        }
    } else if (!ss_contact_is_dead_state(b->finder, *state)) {
        b->roll.contact_changes = true;
    }
    return SS_OK;
}

static bool contact_jumps(const ss_roll_builder *b, const ss_axle_at *at) {
    if (b->finder == NULL) {
        return false;
    }
    const ss_contact_model *m = b->finder->model;
    for (int a = 0; a < b->roll.vehicle->axle_count; a++) {
        for (int tile = 0; tile < m->tile_count && at[a].station >= 0; tile++) {
            if (ss_axle_lines_jump(&m->lines[tile], b->roll.plan[a], at[a].station)) {
                return true;
            }
        }
    }
    return false;
}

/* ---- stands and points -------------------------------------------------------------------------- */

static ss_status add_stands(ss_roll_builder *b) {
    ss_status status = SS_OK;
    const ss_course *course = b->roll.course;
    int state = -1;
    for (int i = 0; i < course->stand_count; i++) {
        const ss_axle_at *const at = course->at + (size_t)i * (size_t)b->roll.vehicle->axle_count;
        const bool jumps = contact_jumps(b, at);
        ss_roll_stand stand = {.x = course->x[i], .place = i, .side = jumps ? -1 : 0, .at = at};
        int next = state;
        if (i > 0 && b->finder != NULL) {
            /* The state just before this place, to see whether it changes on the way here. */
            SS_TRY(ss_roll_contact(b, stand.x, at, jumps, &next, &stand.valid));
            if (state != next && state >= 0 && next >= 0) {
                SS_TRY(ss_roll_changes(b, state, stand.x, next));
                SS_TRY(ss_roll_contact(b, stand.x, at, jumps, &next, &stand.valid));
            }
        } else {
            SS_TRY(ss_roll_contact(b, stand.x, at, jumps, &next, &stand.valid));
        }
        state = stand.state = next;
        stand.change = b->change;
        SS_TRY(ss_roll_add(b, &stand));
        if (jumps) {
            SS_TRY(ss_roll_contact(b, stand.x, at, false, &state, &stand.valid));
            stand.side = 1;
            stand.state = state;
            SS_TRY(ss_roll_add(b, &stand));
        }
    }
done:
    return status;
}

static ss_status add_points(ss_roll_builder *b) {
    ss_status status = SS_OK;
    ss_roll *const r = &b->roll;
    const ss_course *course = r->course;
    const int stands = r->stand_count;
    int state = -1;
    for (int i = course->stand_count; i < course->stand_count + course->point_count; i++) {
        const ss_axle_at *const at = course->at + (size_t)i * (size_t)r->vehicle->axle_count;
        if (!ss_course_on_beam(b->plans, course, r->track, at)) {
            continue;
        }
        const bool tipped = r->tips;
        ss_roll_stand stand = {.x = course->x[i], .place = i, .at = at};
        SS_TRY(ss_roll_contact(b, stand.x, at, false, &state, &stand.valid));
        stand.state = state;
        stand.change = b->change;
        SS_TRY(ss_roll_add(b, &stand));
        r->tip_on_beam = r->tip_on_beam || (!tipped && r->tips);
    }
    r->point_count = r->stand_count - stands;
    r->stand_count = stands;
done:
    return status;
}

/* ---- public ------------------------------------------------------------------------------------- */

void ss_roll_destroy(ss_roll *roll) {
    ss_free(roll->x);
    ss_free(roll->side);
    ss_free(roll->valid);
    ss_free(roll->place);
    ss_sparse_destroy(&roll->openings);
    ss_sparse_destroy(&roll->axles);
    ss_free(roll->state);
    ss_free(roll->between);
    ss_free(roll->block);
    ss_free(roll->window);
    ss_free(roll->stretch);
    ss_sparse_destroy(&roll->blocks);
    ss_sparse_destroy(&roll->cell_bend);
    *roll = (ss_roll){0};
}

ss_status ss_roll_build(const ss_roll_task *task, ss_roll *out, ss_error *error) {
    const ss_track *t = &task->placements->tracks[task->track];
    const ss_axle_plans *plans = task->plans;
    ss_status status = SS_OK;
    ss_roll_builder b = {
        .plans = plans, .finder = task->finder->model->n > 0 ? task->finder : NULL, .error = error};
    b.roll = (ss_roll){.vehicle = &task->placements->trains[t->train],
                       .course = task->course,
                       .track = task->track,
                       .plan = plans->of_axle + (size_t)task->track * SS_AXLES_MAX,
                       .backward = t->backward,
                       .n = task->finder->model->n};
    SS_TRY(begin(&b));
    if (!task->points_only) {
        SS_TRY(add_stands(&b));
    }
    SS_TRY(add_points(&b));
    *out = b.roll;
    b.roll = (ss_roll){0};
done:
    ss_roll_destroy(&b.roll);
    ss_free(b.live);
    ss_free(b.change);
    ss_free(b.cubics);
    return status;
}
