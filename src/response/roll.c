/* roll.c - the positions of a truck on one track: axles at stations, on floor beams, and where bearings lift
 * or close. */
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/roll_parts.h"
#include "response/state.h"
#include "sillspan/memory.h"

ss_status ss_roll_begin(ss_roll_builder *b, int n) {
    b->live = ss_alloc((size_t)n, sizeof *b->live);
    b->mapped = ss_alloc((size_t)n, sizeof *b->mapped);
    return b->live == NULL || b->mapped == NULL ? ss_no_memory(b->error) : SS_OK;
}

static ss_status grow(ss_roll_builder *b) {
    ss_roll *const r = &b->roll;
    const size_t capacity = 2 * (size_t)r->capacity + 128, axles = (size_t)r->vehicle->axle_count,
                 n = (size_t)r->n;
    double *const x = ss_realloc(r->x, capacity, sizeof *x);
    if (x == NULL) {
        return ss_no_memory(b->error);
    }
    r->x = x;
    signed char *const side = ss_realloc(r->side, capacity, sizeof *side);
    if (side == NULL) {
        return ss_no_memory(b->error);
    }
    r->side = side;
    bool *const valid = ss_realloc(r->valid, capacity, sizeof *valid);
    if (valid == NULL) {
        return ss_no_memory(b->error);
    }
    r->valid = valid;
    ss_axle_at *const at = ss_realloc(r->at, capacity * axles, sizeof *at);
    if (at == NULL) {
        return ss_no_memory(b->error);
    }
    r->at = at;
    double *const change = ss_realloc(r->change, capacity * n, sizeof *change);
    if (change == NULL) {
        return ss_no_memory(b->error);
    }
    r->change = change;
    int *const state = ss_realloc(r->state, capacity, sizeof *state);
    if (state == NULL) {
        return ss_no_memory(b->error);
    }
    r->state = state;
    r->capacity = (int)capacity;
    return SS_OK;
}

ss_status ss_roll_contact(ss_roll_builder *b, double x, bool left, int *state, double *change, bool *valid) {
    *valid = true;
    if (b->finder == NULL) {
        return SS_OK;
    }
    ss_roll_reactions(b->finder->model, &b->roll, b->at, left, b->live);
    const ss_status status = ss_contact_find(b->finder, b->live, state, change);
    if (status == SS_ERROR_MEMORY) {
        return ss_no_memory(b->error);
    }
    if (status != SS_OK && status != SS_ERROR_TIPPING) {
        return ss_error_set(b->error, status, "the contact of the bearings under a truck was not found");
    }
    if (status != SS_OK) {
        *valid = false;
        memset(change, 0, (size_t)b->roll.n * sizeof *change);
        if (!b->roll.tips) {
            b->roll.tips = true;
            b->roll.tip_x = left ? x - SS_NUDGE : x;
        }
    } else if (!ss_contact_is_dead_state(b->finder, *state)) {
        b->roll.contact_changes = true;
    }
    return SS_OK;
}

/* Adds a stand or point at x; b->at is where its axles are. *state is the guess and then the state found. */
static ss_status add_stand(ss_roll_builder *b, double x, int side, int *state) {
    ss_roll *const r = &b->roll;
    const int index = r->stand_count + r->point_count;
    if (index == r->capacity) {
        const ss_status status = grow(b);
        if (status != SS_OK) {
            return status;
        }
    }
    r->x[index] = x;
    r->side[index] = (signed char)side;
    memcpy(r->at + (size_t)index * (size_t)r->vehicle->axle_count, b->at,
           (size_t)r->vehicle->axle_count * sizeof *b->at);
    r->stand_count++;
    const ss_status status =
        ss_roll_contact(b, x, side < 0, state, r->change + (size_t)index * (size_t)r->n, &r->valid[index]);
    r->state[index] = *state;
    return status;
}

/* Between the last stand (state `from`) and x_to (state `to`): a stand on either side of every change of
 * state. */
static ss_status add_changes(ss_roll_builder *b, int from, double x_to, int to, double *scratch) {
    ss_roll *const r = &b->roll;
    for (int pass = 0; pass < 16 && from != to && from >= 0 && to >= 0; pass++) {
        double low = r->x[r->stand_count - 1], high = x_to;
        int beyond = to;
        bool valid = true;
        while (high - low > SS_CHANGE_WITHIN) {
            const double middle = 0.5 * (low + high);
            int state = from;
            ss_roll_locate(b->plans, r, middle, false, b->at);
            const ss_status status = ss_roll_contact(b, middle, false, &state, scratch, &valid);
            if (status != SS_OK) {
                return status;
            }
            if (state == from) {
                low = middle;
            } else {
                high = middle;
                beyond = state;
            }
        }
        if (high >= x_to) {
            return SS_OK; /* the change is at the next stand itself */
        }
        int state = from;
        ss_roll_locate(b->plans, r, low, false, b->at);
        ss_status status = low > r->x[r->stand_count - 1] ? add_stand(b, low, 0, &state) : SS_OK;
        if (status == SS_OK) {
            state = beyond;
            ss_roll_locate(b->plans, r, high, false, b->at);
            status = add_stand(b, high, 0, &state);
        }
        if (status != SS_OK) {
            return status;
        }
        from = state;
    }
    return SS_OK;
}

static bool contact_jumps(const ss_roll_builder *b) {
    if (b->finder == NULL) {
        return false;
    }
    const ss_contact_model *m = b->finder->model;
    for (int a = 0; a < b->roll.vehicle->axle_count; a++) {
        for (int tile = 0; tile < m->tile_count && b->at[a].station >= 0; tile++) {
            if (ss_axle_lines_jump(&m->lines[tile], b->roll.plan, b->at[a].station)) {
                return true;
            }
        }
    }
    return false;
}

/* Every x of the front axle at which some axle is at a station (or at a floor beam). */
static double *list_places(const ss_roll_builder *b, const int *stations, int station_count, int *count) {
    const ss_vehicle *v = b->roll.vehicle;
    double *const x = ss_alloc((size_t)station_count * (size_t)v->axle_count, sizeof *x);
    *count = 0;
    for (int a = 0; x != NULL && a < v->axle_count; a++) {
        const double offset = ss_axle_x(v, b->roll.backward, 0.0, a);
        for (int k = 0; k < station_count; k++) {
            x[(*count)++] = b->plans->mesh->station[stations == NULL ? k : stations[k]] - offset;
        }
    }
    if (x != NULL) {
        ss_sort_unique(x, count, SS_SAME_PLACE);
    }
    return x;
}

static ss_status add_stands(ss_roll_builder *b) {
    ss_status status = SS_OK;
    ss_roll *const r = &b->roll;
    int count, state = -1;
    double *const scratch = ss_alloc((size_t)r->n, sizeof *scratch);
    double *const x = list_places(b, NULL, b->plans->mesh->station_count, &count);
    if (x == NULL || scratch == NULL) {
        status = ss_no_memory(b->error);
        goto done;
    }
    for (int i = 0; i < count; i++) {
        ss_roll_locate(b->plans, r, x[i], false, b->at);
        const bool jumps = contact_jumps(b);
        if (i > 0 && b->finder != NULL) {
            /* The state just before this place, to see whether it changes on the way here. */
            int next = state;
            bool valid;
            SS_TRY(ss_roll_contact(b, x[i], true, &next, scratch, &valid));
            SS_TRY(add_changes(b, state, x[i], next, scratch));
            state = next;
            ss_roll_locate(b->plans, r, x[i], false, b->at);
        }
        if (jumps) {
            SS_TRY(add_stand(b, x[i], -1, &state));
            SS_TRY(add_stand(b, x[i], 1, &state));
        } else {
            SS_TRY(add_stand(b, x[i], 0, &state));
        }
    }
done:
    ss_free(scratch);
    ss_free(x);
    return status;
}

static ss_status add_points(ss_roll_builder *b) {
    ss_status status = SS_OK;
    ss_roll *const r = &b->roll;
    int count, state = -1;
    double *const x = list_places(b, b->plans->beam_station, b->plans->beam_station_count, &count);
    if (x == NULL) {
        return ss_no_memory(b->error);
    }
    const int stands = r->stand_count;
    for (int i = 0; i < count; i++) {
        ss_roll_locate(b->plans, r, x[i], true, b->at);
        bool any = false;
        for (int a = 0; a < r->vehicle->axle_count; a++) any = any || b->at[a].beam >= 0;
        if (any) {
            const bool tipped = r->tips;
            SS_TRY(add_stand(b, x[i], 0, &state));
            r->tip_on_beam = r->tip_on_beam || (!tipped && r->tips);
        }
    }
    r->point_count = r->stand_count - stands;
    r->stand_count = stands;
done:
    ss_free(x);
    return status;
}

/* ---- public ------------------------------------------------------------------------------------- */

void ss_roll_destroy(ss_roll *roll) {
    ss_free(roll->x);
    ss_free(roll->side);
    ss_free(roll->valid);
    ss_free(roll->at);
    ss_free(roll->change);
    ss_free(roll->state);
    ss_free(roll->bend);
    ss_free(roll->block);
    ss_free(roll->range);
    ss_free(roll->change_low);
    ss_free(roll->change_high);
    ss_free(roll->change_bend);
    ss_free(roll->moves);
    *roll = (ss_roll){0};
}

ss_status ss_roll_build(const ss_roll_task *task, ss_roll *out, ss_error *error) {
    const ss_track *t = &task->placements->tracks[task->track];
    const ss_axle_plans *plans = task->plans;
    ss_status status = SS_OK;
    ss_roll_builder b = {
        .plans = plans, .finder = task->finder->model->n > 0 ? task->finder : NULL, .error = error};
    b.roll = (ss_roll){.vehicle = &task->placements->trains[t->train],
                       .track = task->track,
                       .plan = plans->of_track[task->track],
                       .backward = t->backward,
                       .n = task->finder->model->n};
    SS_TRY(ss_roll_begin(&b, b.roll.n));
    SS_TRY(grow(&b));
    if (!task->points_only) {
        SS_TRY(add_stands(&b));
    }
    SS_TRY(add_points(&b));
    *out = b.roll;
    b.roll = (ss_roll){0};
done:
    ss_roll_destroy(&b.roll);
    ss_free(b.live);
    ss_free(b.mapped);
    return status;
}
