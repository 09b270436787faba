/* loaded_try.c - trucks at their places with the loads of their lanes: contact solved, lane loads laid anew
 * where the bearings that are then open have them adverse. */
#include <string.h>

#include "base/numeric.h"
#include "response/course.h"
#include "response/loaded.h"
#include "response/state.h"

/* Times that lane loads are laid. */
enum { PASSES = 4 };

/* Values that differ by less than this share are equal. */
#define TIE 1e-9

/* Another pattern is searched only after one that gave more by this share. */
#define GAIN 1e-3

void ss_loaded_weigh(const ss_loaded_worker *w, const ss_loaded_tile *tile, int lane, int state,
                     double *weight, int stride) {
    const size_t n = (size_t)w->loaded->model->n;
    for (size_t j = 0; j < n; j++) weight[j * (size_t)stride] = 0.0;
    for (size_t k = 0; state >= 0 && k < n; k++) {
        const double by = tile->opening[k * SS_TILE + (size_t)lane];
        for (size_t j = 0; w->finder->states[state].open[k] && j < n; j++) {
            weight[j * (size_t)stride] += by * w->finder->states[state].map[k * n + j];
        }
    }
}

/* Beside a jump of some effect the position says on which side it is; elsewhere just before. */
static bool is_left(const ss_found *truck) {
    return truck->nudge < 0 || (truck->nudge == 0 && !truck->on_beam);
}

static const ss_roll *roll_of(const ss_loaded *loaded, int track) {
    return &loaded->rolls[track];
}

int ss_loaded_terms(const ss_loaded *loaded, ss_axle_lines *lines, const ss_found *truck, ss_term *terms) {
    const ss_roll *const roll = roll_of(loaded, truck->track);
    ss_axle_at at[SS_AXLES_MAX];
    ss_course_locate(lines->plans, roll->course, truck->x, truck->on_beam, at);
    for (int a = 0; truck->on_beam && a < roll->vehicle->axle_count; a++) {
        ss_axle_lines_points(lines, roll->plan[a]);
    }
    return ss_roll_terms(lines, roll, at, is_left(truck), terms);
}

/* Whether reactions jump where the truck stands, so that both sides of the place have to be looked at. */
static bool reactions_jump(const ss_loaded_worker *w, const ss_found *truck) {
    const ss_contact_model *const m = w->loaded->model;
    const ss_roll *const roll = roll_of(w->loaded, truck->track);
    ss_axle_at at[SS_AXLES_MAX];
    ss_course_locate(w->lines.plans, roll->course, truck->x, truck->on_beam, at);
    for (int a = 0; a < roll->vehicle->axle_count; a++) {
        for (int i = 0; i < m->tile_count && at[a].station >= 0; i++) {
            if (ss_axle_lines_jump(&m->lines[i], roll->plan[a], at[a].station)) {
                return true;
            }
        }
    }
    return false;
}

/* The trucks by themselves: the effect, and reactions into w->trucks, all bearings closed. */
static double add_trucks(ss_loaded_worker *w, int lane, const ss_found *trucks, int count) {
    const ss_contact_model *const m = w->loaded->model;
    double closed = 0.0;
    memset(w->trucks, 0, (size_t)m->n * sizeof *w->trucks);
    for (int i = 0; i < count; i++) {
        const ss_roll *const roll = roll_of(w->loaded, trucks[i].track);
        ss_axle_at at[SS_AXLES_MAX];
        ss_term terms[SS_ROLL_TERMS];
        const int term_count = ss_loaded_terms(w->loaded, w->closed, &trucks[i], terms);
        for (int k = 0; k < term_count; k++) closed += terms[k].weight * terms[k].row[lane];
        ss_course_locate(w->lines.plans, roll->course, trucks[i].x, trucks[i].on_beam, at);
        ss_roll_reactions(m, roll, at, is_left(&trucks[i]), w->live);
        for (int k = 0; k < m->n; k++) w->trucks[k] += w->live[k];
    }
    return closed;
}

/* The loads of the trucks' lanes where they are adverse in a state: the effect with all bearings closed,
 * their reactions added to w->live; stretches into the list. */
static double add_lanes(ss_loaded_worker *w, const ss_loaded_tile *tile, const ss_loaded_seek *seek,
                        const ss_found *trucks, int count, int state, ss_lane_stretch *stretch,
                        int *stretch_count) {
    const ss_loaded *const l = w->loaded;
    const ss_lane_tile lines = {w->closed, NULL, l->model, l->reactions, tile->count};
    double closed = 0.0;
    *stretch_count = 0;
    ss_loaded_weigh(w, tile, seek->lane, state, w->own_weight, 1);
    for (int i = 0; i < count; i++) {
        const ss_vehicle *const train = &l->placements->trains[l->placements->tracks[trucks[i].track].train];
        if (!(train->lane_N_m > 0.0)) {
            continue;
        }
        const int plan = ss_axle_plan_of(w->lines.plans, trucks[i].track, ss_widest_axle(train));
        ss_axle_lines_whole(w->closed, plan);
        const ss_lane_load *const load =
            ss_lane_load_of(&w->work, &lines, seek->lane, seek->side == 1, plan, state, w->own_weight);
        closed += train->lane_N_m * load->closed;
        for (int k = 0; k < l->model->n; k++) w->live[k] += train->lane_N_m * load->live[k];
        for (int s = 0; s < load->count; s++) {
            stretch[*stretch_count] = load->stretch[s];
            stretch[(*stretch_count)++].truck = i;
        }
    }
    return closed;
}

static void keep(ss_loaded_worker *w, const ss_loaded_tile *tile, ss_loaded_seek *seek,
                 const ss_found *trucks, int count, double value, double closed, int state) {
    const size_t n = (size_t)w->loaded->model->n;
    seek->value = value;
    seek->closed = closed;
    seek->state = state;
    seek->truck_count = count;
    memcpy(seek->truck, trucks, (size_t)count * sizeof *trucks);
    memcpy(seek->change, w->change, n * sizeof *w->change);
    ss_loaded_weigh(w, tile, seek->lane, state, w->own_weight, 1);
    seek->within = closed;
    for (size_t k = 0; k < n; k++) seek->within += w->own_weight[k] * w->live[k];
    seek->within *= seek->side == 1 ? 1.0 : -1.0;
}

static void note_tip(ss_loaded_seek *seek, const ss_found *truck) {
    if (!seek->tips) {
        seek->tips = true;
        seek->tip = (ss_position){truck->track, truck->x + SS_NUDGE * truck->nudge, truck->on_beam};
    }
}

static ss_status try_nudged(ss_loaded_worker *w, const ss_loaded_tile *tile, ss_loaded_seek *seek,
                            const ss_found *trucks, int count, int state, int *last, ss_error *error) {
    const size_t n = (size_t)w->loaded->model->n;
    const double of_trucks = add_trucks(w, seek->lane, trucks, count);
    for (int pass = 0; pass < PASSES; pass++) {
        ss_lane_stretch stretch[SS_LANES_MAX * SS_LANE_STRETCHES];
        int stretch_count;
        memcpy(w->live, w->trucks, n * sizeof *w->live);
        const double closed =
            of_trucks + add_lanes(w, tile, seek, trucks, count, state, stretch, &stretch_count);
        double value = closed;
        int found = state;
        const ss_status status = n > 0 ? ss_contact_find(w->finder, w->live, &found, w->change) : SS_OK;
        if (status == SS_ERROR_TIPPING) {
            note_tip(seek, &trucks[0]);
            return SS_OK;
        }
        if (status != SS_OK) {
            return status == SS_ERROR_MEMORY
                       ? ss_no_memory(error)
                       : ss_error_set(
                             error, status,
                             "under lane loads or trucks abreast it was not found which bearings lift "
                             "and which stay closed: some of them, or the joints on them, are too "
                             "stiff against the cars");
        }
        for (size_t k = 0; k < n; k++)
            value += tile->opening[k * SS_TILE + (size_t)seek->lane] * w->change[k];
        value *= seek->side == 1 ? 1.0 : -1.0;
        if (value > seek->value * (1.0 + TIE)) {
            keep(w, tile, seek, trucks, count, value, closed, found);
            seek->stretch_count = stretch_count;
            memcpy(seek->stretch, stretch, (size_t)stretch_count * sizeof *stretch);
        }
        *last = found;
        seek->bent = seek->bent || (n > 0 && found != w->dead_state);
        if (found == state || stretch_count == 0) {
            break;
        }
        state = found;
    }
    return SS_OK;
}

ss_status ss_loaded_try(ss_loaded_worker *w, const ss_loaded_tile *tile, ss_loaded_seek *seek,
                        const ss_found *trucks, int count, int state, ss_error *error) {
    ss_found nudged[SS_LANES_MAX] = {{0}};
    bool jump = false;
    const double before = seek->value;
    int last = state;
    for (int i = 0; i < count; i++) {
        nudged[i] = trucks[i];
        if (w->loaded->model->n > 0 && trucks[i].nudge == 0 && trucks[i].t < 0.0 && !trucks[i].on_beam &&
            reactions_jump(w, &trucks[i])) {
            nudged[i].nudge = 1;
            jump = true;
        }
    }
    ss_status status = try_nudged(w, tile, seek, nudged, count, state, &last, error);
    for (int i = 0; jump && i < count; i++)
        nudged[i].nudge = nudged[i].nudge != trucks[i].nudge ? -1 : nudged[i].nudge;
    if (jump && status == SS_OK) {
        status = try_nudged(w, tile, seek, nudged, count, state, &last, error);
    }
    if (status == SS_OK && (seek->searched == 0 || seek->value > before * (1.0 + GAIN))) {
        ss_loaded_ask(seek, last);
    }
    return status;
}
