/* placements_load.c - a truck at one position as a load on the bridge. */
#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/deck.h"
#include "mechanics/element.h"
#include "mechanics/row.h"
#include "response/placements.h"

bool ss_wheel_on_beam(const ss_mesh *mesh, int station, double y, int *element, double *s) {
    const ss_bridge *bridge = mesh->bridge;
    for (int beam = 0; beam < bridge->floor_beam_count; beam++) {
        if (mesh->beam_station[beam] != station || bridge->floor_beams[beam].strip > 0.0) {
            continue;
        }
        for (int i = mesh->beam_first[beam]; i < mesh->beam_first[beam + 1]; i++) {
            const ss_element *e = &mesh->element[mesh->beam_element[i]];
            const double a = bridge->lines[mesh->node_line[e->a]].y;
            const double b = bridge->lines[mesh->node_line[e->b]].y;
            if (y >= a - SS_AT_LINE && y <= b + SS_AT_LINE) {
                *element = mesh->beam_element[i];
                *s = y <= a + SS_AT_LINE ? 0.0 : y >= b - SS_AT_LINE ? 1.0 : (y - a) / (b - a);
                return true;
            }
        }
    }
    return false;
}

/* Force P at s of a floor beam's bay. */
static void load_beam(ss_load *load, int element, double s, double x, double y, double P) {
    const ss_element *e = &load->mesh->element[element];
    if (s <= 1e-12 || s >= 1.0 - 1e-12) {
        load->nodal[3 * (s < 0.5 ? e->a : e->b)] += P;
    } else {
        double c[6][4];
        ss_element_shape(e, c);
        for (int i = 0; i < 6; i++) {
            const double value = P * ss_cubic(c[i], s);
            load->nodal[ss_element_dof(e, i)] += value;
            load->clamped[6 * (size_t)element + (size_t)i] += value;
        }
    }
    load->total += P;
    load->moment_x += P * y;
    load->moment_y += P * x;
}

/* An axle that is to be loaded. */
typedef struct axle {
    double x, P; /* P: of each wheel */
    int wheels;
    double wheel[2];
} axle;

/* The first station at which a floor beam is under some wheel of the axle, or -1. */
static int beam_station_under(const ss_mesh *mesh, const axle *a) {
    for (int i = 0; i < mesh->station_count; i++) {
        for (int w = 0; w < a->wheels && fabs(mesh->station[i] - a->x) <= SS_ON_BEAM; w++) {
            int element;
            double s;
            if (ss_wheel_on_beam(mesh, i, a->wheel[w], &element, &s)) {
                return i;
            }
        }
    }
    return -1;
}

/* Where a wheel comes down: on the bay of a floor beam, or through the deck at x. */
typedef struct wheel_place {
    int element; /* -1: through the deck */
    double s, x, y, P;
} wheel_place;

/* Of an axle in a position that is on_beam, with floor beams under it at `station` (-1: none). One over floor
 * beams is exactly at their station, and a wheel of it beside them is on the deck just after, or where there
 * is none just before; any other axle is just after its place. */
static wheel_place place_on_beam(const ss_mesh *mesh, const axle *a, int station, double y) {
    wheel_place place = {.element = -1, .x = a->x + SS_NUDGE, .y = y, .P = a->P};
    ss_deck_shares shares;
    if (station < 0) {
        return place;
    }
    place.x = mesh->station[station];
    if (!ss_wheel_on_beam(mesh, station, y, &place.element, &place.s)) {
        place.element = -1;
        place.x = mesh->station[station] + SS_NUDGE;
        if (ss_deck_shares_find(mesh, place.x, y, &shares) < 0) {
            place.x = mesh->station[station] - SS_NUDGE;
        }
    }
    return place;
}

enum { WHEELS_MOST = 2 * SS_AXLES_MAX };

static int place_wheels(const ss_mesh *mesh, const ss_placements *placements, const ss_position *position,
                        wheel_place out[WHEELS_MOST]) {
    const ss_track *const track = &placements->tracks[position->track];
    const ss_vehicle *const v = ss_position_train(placements, position);
    int count = 0;
    for (int i = 0; i < v->axle_count; i++) {
        axle a = {.x = ss_axle_x(v, track->backward, position->x, i)};
        a.wheels = ss_axle_wheels(ss_vehicle_gauge(v, i), track->y, a.wheel);
        a.P = v->axle_N[i] / a.wheels;
        const int station = position->on_beam ? beam_station_under(mesh, &a) : -1;
        for (int w = 0; w < a.wheels; w++) {
            out[count++] = position->on_beam
                               ? place_on_beam(mesh, &a, station, a.wheel[w])
                               : (wheel_place){.element = -1, .x = a.x, .y = a.wheel[w], .P = a.P};
        }
    }
    return count;
}

ss_status ss_placements_load(const ss_mesh *mesh, const ss_placements *placements,
                             const ss_position *position, ss_load *out, ss_error *error) {
    wheel_place wheel[WHEELS_MOST];
    ss_load load = {0};
    ss_status status = ss_load_create(mesh, &load, error);
    if (status != SS_OK) {
        return status;
    }
    const int count = place_wheels(mesh, placements, position, wheel);
    for (int i = 0; i < count; i++) {
        if (wheel[i].element >= 0) {
            load_beam(&load, wheel[i].element, wheel[i].s, wheel[i].x, wheel[i].y, wheel[i].P);
        } else {
            SS_TRY(ss_load_force(&load, wheel[i].x, wheel[i].y, wheel[i].P, error));
        }
    }
    *out = load;
    load = (ss_load){0};
done:
    ss_load_destroy(&load);
    return status;
}

int ss_placements_bays(const ss_mesh *mesh, const ss_placements *placements, const ss_position *position,
                       ss_bay_force out[SS_BAY_FORCES_MOST]) {
    wheel_place wheel[WHEELS_MOST];
    int made = 0;
    const int count = place_wheels(mesh, placements, position, wheel);
    for (int i = 0; i < count; i++) {
        ss_deck_shares shares = {0};
        if (wheel[i].element >= 0) {
            out[made++] = (ss_bay_force){wheel[i].element, wheel[i].s, wheel[i].P};
        } else if (ss_deck_shares_find(mesh, wheel[i].x, wheel[i].y, &shares) >= 0) {
            for (int k = 0; k < shares.beam_count; k++) {
                const ss_beam_share *const share = &shares.beam[k];
                out[made++] = (ss_bay_force){share->element, share->s, wheel[i].P * share->weight};
            }
        }
    }
    return made;
}

double ss_bay_forces_passed(const ss_mesh *mesh, const ss_effect *effect, const ss_bay_force *forces,
                            int count) {
    const bool shear = effect->kind == SS_EFFECT_SHEAR || effect->kind == SS_EFFECT_WEB_PLUS ||
                       effect->kind == SS_EFFECT_WEB_MINUS;
    double value = 0.0;
    for (int i = 0; i < count; i++) {
        const ss_bay_force *const f = &forces[i];
        const bool within = f->s > 1e-12 && f->s < 1.0 - 1e-12; /* at an end it is the node's */
        const bool passed = f->s < effect->s || (f->s == effect->s && !effect->before);
        if (f->element == effect->element && within && passed && effect->s < 1.0) {
            const double arm = (effect->s - f->s) * mesh->element[f->element].length;
            value -= effect->kind == SS_EFFECT_MOMENT ? f->P * arm : shear ? f->P : 0.0;
        }
    }
    return value;
}

ss_status ss_placements_load_lane(const ss_placements *placements, int track, const ss_lane_stretch *stretch,
                                  double share, ss_load *load, ss_error *error) {
    const ss_track *const on = &placements->tracks[track];
    const ss_vehicle *const train = &placements->trains[on->train];
    double wheel[2];
    const int lines = ss_axle_wheels(ss_vehicle_gauge(train, ss_widest_axle(train)), on->y, wheel);
    ss_status status = SS_OK;
    for (int i = 0; i < lines && status == SS_OK; i++) {
        status =
            ss_load_line(load, stretch->from, stretch->to, wheel[i], share * train->lane_N_m / lines, error);
    }
    return status;
}

/* Of the load over the carriageway what lies on one of its lines. */
static ss_status add_area(const ss_placements *placements, double area_N_m2, const ss_area_stretch *stretch,
                          ss_load *load, ss_error *error) {
    const ss_area_line *const line = &placements->area_lines[stretch->line];
    return ss_load_line(load, stretch->from, stretch->to, line->y, area_N_m2 * line->width, error);
}

ss_status ss_extreme_load_make(const ss_mesh *mesh, const ss_placements *placements,
                               const ss_extreme *extreme, ss_load *out, ss_error *error) {
    const ss_extreme_load *const all = extreme->load;
    ss_load load = {0}, truck = {0};
    ss_status status = ss_placements_load(mesh, placements, &extreme->position, &load, error);
    for (int i = 1; all != NULL && i < all->truck_count && status == SS_OK; i++) {
        SS_TRY(ss_placements_load(mesh, placements, &all->position[i], &truck, error));
        ss_load_add(&load, 1.0, &truck);
        ss_load_destroy(&truck);
    }
    for (int i = 0; all != NULL && i < all->stretch_count && status == SS_OK; i++) {
        status = ss_placements_load_lane(placements, all->position[all->stretch[i].truck].track,
                                         &all->stretch[i], 1.0, &load, error);
    }
    for (int i = 0; all != NULL && i < all->area_count && status == SS_OK; i++) {
        status = add_area(placements, all->area_N_m2, &all->area[i], &load, error);
    }
    if (status == SS_OK) {
        *out = load;
        load = (ss_load){0};
    }
done:
    ss_load_destroy(&truck);
    ss_load_destroy(&load);
    return status;
}
