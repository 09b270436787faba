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
        if (mesh->beam_station[beam] != station) {
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

/* An axle in a position that is on_beam. One over floor beams is exactly at their station, and a wheel of it
 * beside them is on the deck just after, or where there is none just before; any other axle is just after its
 * place. */
static ss_status load_on_beam(ss_load *load, const axle *a, ss_error *error) {
    ss_status status = SS_OK;
    const ss_mesh *mesh = load->mesh;
    const int station = beam_station_under(mesh, a);
    for (int w = 0; w < a->wheels; w++) {
        int element;
        double s;
        if (station < 0) {
            SS_TRY(ss_load_force(load, a->x + SS_NUDGE, a->wheel[w], a->P, error));
        } else if (ss_wheel_on_beam(mesh, station, a->wheel[w], &element, &s)) {
            load_beam(load, element, s, mesh->station[station], a->wheel[w], a->P);
        } else {
            ss_deck_shares shares;
            const double after = mesh->station[station] + SS_NUDGE;
            const bool on_deck = ss_deck_shares_find(mesh, after, a->wheel[w], &shares) >= 0;
            SS_TRY(ss_load_force(load, on_deck ? after : mesh->station[station] - SS_NUDGE, a->wheel[w], a->P,
                                 error));
        }
    }
done:
    return status;
}

ss_status ss_placements_load(const ss_mesh *mesh, const ss_placements *placements,
                             const ss_position *position, ss_load *out, ss_error *error) {
    const ss_track *track = &placements->tracks[position->track];
    const ss_vehicle *v = ss_position_train(placements, position);
    ss_load load = {0};
    ss_status status = ss_load_create(mesh, &load, error);
    if (status != SS_OK) {
        return status;
    }
    for (int i = 0; i < v->axle_count; i++) {
        axle a = {.x = ss_axle_x(v, track->backward, position->x, i)};
        a.wheels = ss_axle_wheels(ss_vehicle_gauge(v, i), track->y, a.wheel);
        a.P = v->axle_N[i] / a.wheels;
        if (position->on_beam) {
            SS_TRY(load_on_beam(&load, &a, error));
            continue;
        }
        for (int w = 0; w < a.wheels; w++) SS_TRY(ss_load_force(&load, a.x, a.wheel[w], a.P, error));
    }
    *out = load;
    load = (ss_load){0};
done:
    ss_load_destroy(&load);
    return status;
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
