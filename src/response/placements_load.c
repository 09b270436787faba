/* placements_load.c - a truck at one position as a load on the bridge. */
#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/element.h"
#include "mechanics/row.h"
#include "response/placements.h"

/* A wheel this near to a line is on the node, where it jumps from the shear of one bay to that of the next
 * (m). */
#define AT_LINE 1e-10

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
            if (y >= a - AT_LINE && y <= b + AT_LINE) {
                *element = mesh->beam_element[i];
                *s = y <= a + AT_LINE ? 0.0 : y >= b - AT_LINE ? 1.0 : (y - a) / (b - a);
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

static int station_under(const ss_mesh *mesh, double x) {
    for (int i = 0; i < mesh->station_count; i++) {
        if (fabs(mesh->station[i] - x) <= SS_ON_BEAM) {
            return i;
        }
    }
    return -1;
}

/* A wheel in a position that is on_beam. Where lines begin or end, the deck just after the station carries
 * it, if there is one. */
static ss_status load_wheel(ss_load *load, double x, double y, double P, ss_error *error) {
    const ss_mesh *mesh = load->mesh;
    const int station = station_under(mesh, x);
    int element;
    double s;
    if (station >= 0 && ss_wheel_on_beam(mesh, station, y, &element, &s)) {
        load_beam(load, element, s, mesh->station[station], y, P);
        return SS_OK;
    }
    ss_row row;
    const ss_status status = ss_mesh_wheel(mesh, x + SS_NUDGE, y, &row);
    if (status != SS_OK) {
        return status;
    }
    return ss_load_force(load, row.count > 0 ? x + SS_NUDGE : x - SS_NUDGE, y, P, error);
}

ss_status ss_placements_load(const ss_mesh *mesh, const ss_placements *placements,
                             const ss_position *position, ss_load *out, ss_error *error) {
    const ss_track *track = &placements->tracks[position->track];
    const ss_vehicle *v = &placements->trains[track->train];
    ss_load load = {0};
    ss_status status = ss_load_create(mesh, &load, error);
    if (status != SS_OK) {
        return status;
    }
    double wheel[2];
    const int wheels = ss_axle_wheels(v->gauge_m, track->y, wheel);
    for (int a = 0; a < v->axle_count; a++) {
        const double x = ss_axle_x(v, track->backward, position->x, a);
        for (int w = 0; w < wheels; w++) {
            const double P = v->axle_N[a] / wheels;
            if (position->on_beam) {
                SS_TRY(load_wheel(&load, x, wheel[w], P, error));
            } else {
                SS_TRY(ss_load_force(&load, x, wheel[w], P, error));
            }
        }
    }
    *out = load;
    load = (ss_load){0};
done:
    ss_load_destroy(&load);
    return status;
}
