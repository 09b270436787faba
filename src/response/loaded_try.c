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

void ss_loaded_locate(const ss_loaded *loaded, const ss_axle_plans *plans, const ss_found *truck,
                      ss_axle_at *at) {
    ss_course course = *ss_loaded_roll(loaded, truck->track)->course;
    course.vehicle = truck->train != NULL ? truck->train : course.vehicle;
    ss_course_locate(plans, &course, truck->x, truck->on_beam, at);
}

int ss_loaded_terms(const ss_loaded *loaded, ss_axle_lines *lines, const ss_found *truck, ss_term *terms) {
    const ss_roll *const roll = ss_loaded_roll(loaded, truck->track);
    ss_axle_at at[SS_AXLES_MAX];
    ss_loaded_locate(loaded, lines->plans, truck, at);
    for (int a = 0; truck->on_beam && a < roll->vehicle->axle_count; a++) {
        ss_axle_lines_points(lines, roll->plan[a]);
    }
    return ss_roll_terms(lines, roll, at, is_left(truck), terms);
}

/* Whether reactions jump where the truck stands, so that both sides of the place have to be looked at. */
static bool reactions_jump(const ss_loaded_worker *w, const ss_found *truck) {
    const ss_contact_model *const m = w->loaded->model;
    const ss_roll *const roll = ss_loaded_roll(w->loaded, truck->track);
    ss_axle_at at[SS_AXLES_MAX];
    ss_loaded_locate(w->loaded, w->lines.plans, truck, at);
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
        const ss_roll *const roll = ss_loaded_roll(w->loaded, trucks[i].track);
        ss_axle_at at[SS_AXLES_MAX];
        ss_term terms[SS_ROLL_TERMS];
        const int term_count = ss_loaded_terms(w->loaded, w->closed, &trucks[i], terms);
        for (int k = 0; k < term_count; k++) closed += terms[k].weight * terms[k].row[lane];
        ss_loaded_locate(w->loaded, w->lines.plans, &trucks[i], at);
        ss_roll_reactions(m, roll, at, is_left(&trucks[i]), w->live);
        for (int k = 0; k < m->n; k++) w->trucks[k] += w->live[k];
    }
    return closed;
}

static ss_area_tile area_tile_of(ss_loaded_worker *w, const ss_loaded_tile *tile) {
    const ss_loaded *const l = w->loaded;
    return (ss_area_tile){l->placements, w->closed, {w->closed, NULL, l->model, l->reactions, tile->count}};
}

int ss_loaded_area(ss_loaded_worker *w, const ss_loaded_tile *tile, const ss_loaded_seek *seek) {
    const ss_area_tile lines = area_tile_of(w, tile);
    if (!(seek->area_N_m2 > 0.0)) {
        return 0;
    }
    ss_loaded_weigh(w, tile, seek->lane, seek->laid, w->own_weight, 1);
    return ss_area_stretches(&w->areas, &lines,
                             &(ss_area_wanted){seek->lane, seek->side == 1, seek->laid, w->own_weight});
}

/* The load over the carriageway where it is adverse in a state, of 1 N/m2; NULL: none. w->own_weight is of
 * that state. */
static const ss_area_load *area_in(ss_loaded_worker *w, const ss_loaded_tile *tile,
                                   const ss_loaded_seek *seek, int state) {
    const ss_area_tile lines = area_tile_of(w, tile);
    return seek->area_N_m2 > 0.0
               ? ss_area_load_of(&w->areas, &lines,
                                 &(ss_area_wanted){seek->lane, seek->side == 1, state, w->own_weight})
               : NULL;
}

/* The loads of the trucks' lanes where they are adverse in a state, and w->own_weight is of it: the effect
 * with all bearings closed, their reactions added to w->live; stretches into the list. */
static double add_lanes(ss_loaded_worker *w, const ss_loaded_tile *tile, const ss_loaded_seek *seek,
                        const ss_found *trucks, int count, int state, ss_lane_stretch *stretch,
                        int *stretch_count) {
    const ss_loaded *const l = w->loaded;
    const ss_lane_tile lines = {w->closed, NULL, l->model, l->reactions, tile->count};
    double closed = 0.0;
    *stretch_count = 0;
    for (int i = 0; i < count; i++) {
        const ss_vehicle *const train = &l->placements->trains[l->placements->tracks[trucks[i].track].train];
        if (l->bare || !(train->lane_N_m > 0.0)) {
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

/* A load that was tried. */
typedef struct tried {
    const ss_found *trucks;
    int count;
    double value, closed;     /* value: times the sign */
    int laid, found;          /* state that its uniform loads are laid for, and that under it */
    const ss_area_load *area; /* or NULL */
    int stretch_count;
    ss_lane_stretch stretch[SS_LANES_MAX * SS_LANE_STRETCHES];
} tried;

/* w->live and w->change are of it. */
static void keep(ss_loaded_worker *w, const ss_loaded_tile *tile, ss_loaded_seek *seek, const tried *t) {
    const size_t n = (size_t)w->loaded->model->n;
    const double q = seek->area_N_m2;
    seek->value = t->value;
    seek->closed = t->closed;
    seek->state = t->found;
    seek->laid = t->laid;
    seek->truck_count = t->count;
    memcpy(seek->truck, t->trucks, (size_t)t->count * sizeof *t->trucks);
    if (seek->truck[0].train != NULL) {
        seek->spaced = *seek->truck[0].train;
        seek->truck[0].train = &seek->spaced;
    }
    memcpy(seek->change, w->change, n * sizeof *w->change);
    ss_loaded_weigh(w, tile, seek->lane, t->found, w->own_weight, 1);
    seek->within = t->closed - (t->area != NULL ? q * t->area->closed : 0.0);
    for (size_t k = 0; k < n; k++) {
        seek->within += w->own_weight[k] * (w->live[k] - (t->area != NULL ? q * t->area->live[k] : 0.0));
    }
    seek->within *= seek->side == 1 ? 1.0 : -1.0;
    seek->stretch_count = t->stretch_count;
    memcpy(seek->stretch, t->stretch, (size_t)t->stretch_count * sizeof *t->stretch);
}

static void note_tip(ss_loaded_seek *seek, const ss_found *truck) {
    if (!seek->tips && truck->train == NULL) {
        seek->tips = true;
        seek->tip = (ss_position){
            .track = truck->track, .x = truck->x + SS_NUDGE * truck->nudge, .on_beam = truck->on_beam};
    }
}

/* Uniform loads laid as they are adverse in a state beside what the trucks do: reactions into w->live. */
static void lay(ss_loaded_worker *w, const ss_loaded_tile *tile, const ss_loaded_seek *seek, double of_trucks,
                tried *t) {
    const size_t n = (size_t)w->loaded->model->n;
    memcpy(w->live, w->trucks, n * sizeof *w->live);
    ss_loaded_weigh(w, tile, seek->lane, t->laid, w->own_weight, 1);
    t->closed = of_trucks;
    t->closed += add_lanes(w, tile, seek, t->trucks, t->count, t->laid, t->stretch, &t->stretch_count);
    t->area = area_in(w, tile, seek, t->laid);
    if (t->area != NULL) {
        t->closed += seek->area_N_m2 * t->area->closed;
        for (size_t k = 0; k < n; k++) w->live[k] += seek->area_N_m2 * t->area->live[k];
    }
}

static ss_status refuse(ss_status status, ss_error *error) {
    return status == SS_ERROR_MEMORY
               ? ss_no_memory(error)
               : ss_error_set(error, status,
                              "under lane loads or trucks abreast it was not found which bearings lift "
                              "and which stay closed: some of them, or the joints on them, are too "
                              "stiff against the cars");
}

static ss_status try_nudged(ss_loaded_worker *w, const ss_loaded_tile *tile, ss_loaded_seek *seek,
                            const ss_found *trucks, int count, int state, int *last, ss_error *error) {
    const size_t n = (size_t)w->loaded->model->n;
    const double of_trucks = add_trucks(w, seek->lane, trucks, count);
    tried t = {.trucks = trucks, .count = count, .laid = state};
    for (int pass = 0; pass < PASSES; pass++) {
        lay(w, tile, seek, of_trucks, &t);
        t.value = t.closed;
        t.found = t.laid;
        const ss_status status = n > 0 ? ss_contact_find(w->finder, w->live, &t.found, w->change) : SS_OK;
        if (status == SS_ERROR_TIPPING) {
            note_tip(seek, &trucks[0]);
            return SS_OK;
        }
        if (status != SS_OK) {
            return refuse(status, error);
        }
        for (size_t k = 0; k < n; k++) {
            t.value += tile->opening[k * SS_TILE + (size_t)seek->lane] * w->change[k];
        }
        t.value *= seek->side == 1 ? 1.0 : -1.0;
        if (t.value > seek->value * (1.0 + TIE)) {
            keep(w, tile, seek, &t);
        }
        *last = t.found;
        seek->bent = seek->bent || (n > 0 && t.found != w->dead_state);
        if (t.found == t.laid || (t.stretch_count == 0 && t.area == NULL)) {
            break;
        }
        t.laid = t.found;
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
