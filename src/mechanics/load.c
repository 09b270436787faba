/* load.c - loads as exact equivalent nodal forces, with what acts within each member kept aside. */
#include <math.h>

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/deck.h"
#include "mechanics/element.h"
#include "mechanics/mesh_parts.h"
#include "mechanics/row.h"

ss_status ss_load_create(const ss_mesh *mesh, ss_load *out, ss_error *error) {
    ss_load load = {.mesh = mesh};
    load.nodal = ss_alloc((size_t)mesh->order, sizeof *load.nodal);
    load.clamped = ss_alloc(6 * (size_t)mesh->element_count, sizeof *load.clamped);
    load.uniform = ss_alloc((size_t)mesh->element_count, sizeof *load.uniform);
    load.locked_torque = ss_alloc((size_t)mesh->element_count, sizeof *load.locked_torque);
    if (load.nodal == NULL || load.clamped == NULL || load.uniform == NULL || load.locked_torque == NULL) {
        ss_load_destroy(&load);
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for a load");
    }
    *out = load;
    return SS_OK;
}

void ss_load_destroy(ss_load *load) {
    if (load == NULL) {
        return;
    }
    ss_free(load->nodal);
    ss_free(load->clamped);
    ss_free(load->uniform);
    ss_free(load->locked_torque);
    *load = (ss_load){0};
}

void ss_load_add(ss_load *load, double factor, const ss_load *other) {
    const ss_mesh *mesh = load->mesh;
    for (int i = 0; i < mesh->order; i++) {
        load->nodal[i] += factor * other->nodal[i];
    }
    for (int i = 0; i < 6 * mesh->element_count; i++) {
        load->clamped[i] += factor * other->clamped[i];
    }
    for (int i = 0; i < mesh->element_count; i++) {
        load->uniform[i] += factor * other->uniform[i];
        load->locked_torque[i] += factor * other->locked_torque[i];
    }
    load->total += factor * other->total;
    load->moment_x += factor * other->moment_x;
    load->moment_y += factor * other->moment_y;
    load->outside += factor * other->outside;
}

static void count_in(ss_load *load, double x, double y, double P) {
    load->total += P;
    load->moment_x += P * y;
    load->moment_y += P * x;
}

/* ---- on members --------------------------------------------------------------------------------- */

static void add_clamped(ss_load *load, int element, int i, double value) {
    load->clamped[6 * (size_t)element + (size_t)i] += value;
    load->nodal[ss_element_dof(&load->mesh->element[element], i)] += value;
}

/* Force P and torque about x at s of an element. At an end they are the node's own: no member has them
 * within. */
static void force_on_element(ss_load *load, int element, double s, double P, double torque) {
    const ss_element *e = &load->mesh->element[element];
    if (s <= 1e-12 || s >= 1.0 - 1e-12) {
        const int node = s < 0.5 ? e->a : e->b;
        load->nodal[3 * node] += P;
        load->nodal[3 * node + 1] += torque;
        return;
    }
    double c[6][4];
    ss_element_shape(e, c);
    for (int i = 0; i < 6; i++) {
        add_clamped(load, element, i, P * ss_cubic(c[i], s));
    }
    /* Within, only lines meet torques about their axis. */
    if (torque != 0.0) {
        add_clamped(load, element, 1, torque * (1.0 - s));
        add_clamped(load, element, 4, torque * s);
    }
}

/* w N/m and torque N m/m about x over s0 to s1 of an element. */
static void uniform_on_element(ss_load *load, int element, double s0, double s1, double w, double torque) {
    const ss_element *e = &load->mesh->element[element];
    const ss_element_axes axes = ss_element_axes_of(e);
    double f[6];
    ss_element_own_uniform(e, s0, s1, f);
    for (int i = 0; i < 6; i++) {
        add_clamped(load, element, axes.map[i], axes.sign[i] * w * f[i]);
    }
    if (s0 <= 1e-12 && s1 >= 1.0 - 1e-12) {
        load->uniform[element] += w;
    }
    if (torque != 0.0) {
        const double length = (s1 - s0) * e->length;
        const double middle = 0.5 * (s0 + s1);
        add_clamped(load, element, 1, torque * length * (1.0 - middle));
        add_clamped(load, element, 4, torque * length * middle);
    }
}

/* A share of a floor beam. The moment of what is beyond its end goes to the node, or into the bay; then the
 * beam's end has it, and the node has not. */
static void beam_share_force(ss_load *load, const ss_beam_share *share, double P) {
    const ss_element *e = &load->mesh->element[share->element];
    const bool at_b = share->s > 0.5;
    force_on_element(load, share->element, share->s, P * share->weight, 0.0);
    if (share->arm == 0.0) {
        return;
    }
    double f[6];
    ss_element_overhang(e, at_b, f);
    if (!(at_b ? e->hinge_b : e->hinge_a)) {
        load->nodal[3 * (at_b ? e->b : e->a) + 1] += P * share->arm;
        return;
    }
    for (int i = 0; i < 6; i++) {
        add_clamped(load, share->element, i, P * share->arm * f[i]);
    }
    load->clamped[6 * (size_t)share->element + (at_b ? 4 : 1)] -= P * share->arm;
}

static void shares_force(ss_load *load, int interval, double x, double P, const ss_deck_shares *shares) {
    const ss_mesh *mesh = load->mesh;
    for (int i = 0; i < shares->carrier_count; i++) {
        const ss_carrier *c = &shares->carrier[i];
        const int element = ss_mesh_line_element(mesh, interval, c->line);
        const double s = ss_clamp((x - mesh->station[interval]) / mesh->element[element].length, 0.0, 1.0);
        force_on_element(load, element, s, P * c->weight, P * c->arm);
    }
    for (int i = 0; i < shares->beam_count; i++) {
        beam_share_force(load, &shares->beam[i], P);
    }
}

ss_status ss_load_force(ss_load *load, double x, double y, double P, ss_error *error) {
    if (!isfinite(x) || !isfinite(y) || !isfinite(P)) {
        return ss_error_set(error, SS_ERROR_NUMERIC, "a force that is not finite");
    }
    ss_deck_shares shares;
    const int interval = ss_deck_shares_find(load->mesh, x, y, &shares);
    if (interval < 0) {
        load->outside += P;
        return SS_OK;
    }
    shares_force(load, interval, x, P, &shares);
    count_in(load, x, y, P);
    return SS_OK;
}

ss_status ss_load_force_on_line(ss_load *load, int line, double x, double P, ss_error *error) {
    if (!isfinite(x) || !isfinite(P)) {
        return ss_error_set(error, SS_ERROR_NUMERIC, "a force that is not finite");
    }
    const ss_mesh *mesh = load->mesh;
    int interval[2];
    const int count = ss_station_intervals(mesh, x, interval);
    for (int i = 0; i < count; i++) {
        const int element = ss_mesh_line_element(mesh, interval[i], line);
        if (element < 0) {
            continue;
        }
        const double s = ss_clamp((x - mesh->station[interval[i]]) / mesh->element[element].length, 0.0, 1.0);
        force_on_element(load, element, s, P, 0.0);
        count_in(load, x, mesh->bridge->lines[line].y, P);
        return SS_OK;
    }
    load->outside += P;
    return SS_OK;
}

/* ---- line and area loads ------------------------------------------------------------------------ */

/* The part of interval i within x0 to x1, as positions along it; false when there is none. */
static bool overlap(const ss_mesh *mesh, int i, double x0, double x1, double s[2]) {
    const double a = mesh->station[i];
    const double length = mesh->station[i + 1] - a;
    s[0] = ss_clamp((x0 - a) / length, 0.0, 1.0);
    s[1] = ss_clamp((x1 - a) / length, 0.0, 1.0);
    /* What is left beside a merged station is below the tolerance of stations. */
    return (s[1] - s[0]) * length > 1e-9;
}

/* A strip from y0 to y1 (equal: a line) within one interval, between two breaks; `w` is N/m along x of the
 * whole strip. */
typedef struct strip {
    int interval;
    double s0, s1;
    double y0, y1;
    double w;
} strip;

/* Force P spread evenly over y0 to y1 of a floor beam's bay. */
static void spread_on_beam(ss_load *load, const ss_beam_share *share, double y0, double y1, double P) {
    const ss_mesh *mesh = load->mesh;
    const ss_element *e = &mesh->element[share->element];
    const double a = mesh->bridge->lines[mesh->node_line[e->a]].y;
    const double s0 = (y0 - a) / e->length;
    const double s1 = (y1 - a) / e->length;
    if (share->arm != 0.0 || s0 < -1e-9 || s1 > 1.0 + 1e-9) {
        beam_share_force(load, share, P); /* beyond the outer lines: the resultant */
        return;
    }
    uniform_on_element(load, share->element, ss_clamp(s0, 0.0, 1.0), ss_clamp(s1, 0.0, 1.0),
                       P * share->weight / (y1 - y0), 0.0);
}

static void load_strip(ss_load *load, const strip *p) {
    const ss_mesh *mesh = load->mesh;
    const double a = mesh->station[p->interval];
    const double length = mesh->station[p->interval + 1] - a;
    const double x = a + 0.5 * (p->s0 + p->s1) * length;
    const double y = 0.5 * (p->y0 + p->y1);
    const double P = p->w * (p->s1 - p->s0) * length;
    ss_deck_shares shares;
    /* Shares are linear in x and y within the strip, so those of its middle are the mean. */
    ss_deck_shares_at(mesh, p->interval, x, y, &shares);
    if (shares.carrier_count + shares.beam_count == 0) {
        load->outside += P;
        return;
    }
    for (int i = 0; i < shares.carrier_count; i++) {
        const ss_carrier *c = &shares.carrier[i];
        uniform_on_element(load, ss_mesh_line_element(mesh, p->interval, c->line), p->s0, p->s1,
                           p->w * c->weight, p->w * c->arm);
    }
    for (int i = 0; i < shares.beam_count; i++) {
        const ss_beam_share *b = &shares.beam[i];
        if (p->y1 > p->y0) {
            spread_on_beam(load, b, p->y0, p->y1, P);
        } else {
            beam_share_force(load, b, P);
        }
    }
    count_in(load, x, y, P);
}

ss_status ss_load_line(ss_load *load, double x0, double x1, double y, double w, ss_error *error) {
    if (!isfinite(x0) || !isfinite(x1) || !isfinite(y) || !isfinite(w)) {
        return ss_error_set(error, SS_ERROR_NUMERIC, "a line load that is not finite");
    }
    const ss_mesh *mesh = load->mesh;
    for (int i = 0; i + 1 < mesh->station_count; i++) {
        double s[2];
        if (!overlap(mesh, i, x0, x1, s)) {
            continue;
        }
        load_strip(load, &(strip){i, s[0], s[1], y, y, w});
    }
    return SS_OK;
}

ss_status ss_load_line_on_line(ss_load *load, int line, double x0, double x1, double w, ss_error *error) {
    if (!isfinite(x0) || !isfinite(x1) || !isfinite(w)) {
        return ss_error_set(error, SS_ERROR_NUMERIC, "a line load that is not finite");
    }
    const ss_mesh *mesh = load->mesh;
    for (int i = 0; i + 1 < mesh->station_count; i++) {
        double s[2];
        if (!overlap(mesh, i, x0, x1, s)) {
            continue;
        }
        const int element = ss_mesh_line_element(mesh, i, line);
        const double length = mesh->station[i + 1] - mesh->station[i];
        const double P = w * (s[1] - s[0]) * length;
        if (element < 0) {
            load->outside += P;
            continue;
        }
        uniform_on_element(load, element, s[0], s[1], w, 0.0);
        count_in(load, mesh->station[i] + 0.5 * (s[0] + s[1]) * length, mesh->bridge->lines[line].y, P);
    }
    return SS_OK;
}

ss_status ss_load_area(ss_load *load, double x0, double x1, double y0, double y1, double q, ss_error *error) {
    if (!isfinite(x0) || !isfinite(x1) || !isfinite(y0) || !isfinite(y1) || !isfinite(q)) {
        return ss_error_set(error, SS_ERROR_NUMERIC, "an area load that is not finite");
    }
    const ss_mesh *mesh = load->mesh;
    const int most = mesh->bridge->line_count + 3 * mesh->bridge->car_count;
    double *breaks = ss_alloc((size_t)most, sizeof *breaks);
    if (breaks == NULL) {
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for an area load");
    }
    for (int i = 0; i + 1 < mesh->station_count; i++) {
        double s[2];
        if (!overlap(mesh, i, x0, x1, s)) {
            continue;
        }
        const int count = ss_deck_breaks(mesh, i, breaks, most);
        double low = y0;
        for (int k = 0; k <= count && low < y1; k++) {
            const double high = k < count ? ss_clamp(breaks[k], low, y1) : y1;
            if (high > low) {
                load_strip(load, &(strip){i, s[0], s[1], low, high, q * (high - low)});
            }
            low = high;
        }
    }
    ss_free(breaks);
    return SS_OK;
}

/* ---- self weight -------------------------------------------------------------------------------- */

enum { WEIGHT_POINTS = 4 };

/* Mean weight of a line between two stations: exact for depths that vary linearly. */
static ss_status line_weight(const ss_bridge *b, int line, double x0, double x1, double *out) {
    double points[WEIGHT_POINTS];
    double weights[WEIGHT_POINTS];
    ss_gauss_points(WEIGHT_POINTS, points, weights);
    double sum = 0.0;
    for (int i = 0; i < WEIGHT_POINTS; i++) {
        ss_section_properties p;
        const ss_status status = ss_bridge_line_section(b, line, x0 + points[i] * (x1 - x0), false, &p);
        if (status != SS_OK) {
            return status;
        }
        sum += weights[i] * p.weight;
    }
    *out = sum;
    return SS_OK;
}

static ss_status beam_weight(const ss_bridge *b, int beam, double y0, double y1, double *out) {
    const ss_floor_beam *f = &b->floor_beams[beam];
    double sum = 0.0;
    for (int k = 0; k < f->part_count; k++) {
        const ss_beam_part *part = &b->parts[f->first_part + k];
        const double low = k == 0 ? y0 : ss_max(y0, part->y0);
        const double high = k == f->part_count - 1 ? y1 : ss_min(y1, part->y1);
        if (!(high > low)) {
            continue;
        }
        ss_section_properties p;
        const ss_status status =
            ss_bridge_beam_section(b, beam, ss_clamp(0.5 * (low + high), part->y0, part->y1), false, &p);
        if (status != SS_OK) {
            return status;
        }
        sum += p.weight * (high - low);
    }
    *out = sum / (y1 - y0);
    return SS_OK;
}

ss_status ss_load_self_weight(ss_load *load, ss_error *error) {
    ss_status status = SS_OK;
    const ss_mesh *mesh = load->mesh;
    const ss_bridge *b = mesh->bridge;
    for (int i = 0; i < mesh->element_count; i++) {
        const ss_element *e = &mesh->element[i];
        const int left = mesh->node_line[e->a];
        const double x0 = mesh->station[mesh->node_station[e->a]];
        const double x1 = mesh->station[mesh->node_station[e->b]];
        const double y0 = b->lines[left].y;
        const double y1 = b->lines[mesh->node_line[e->b]].y;
        double w = 0.0;
        if (e->across) {
            SS_TRY(beam_weight(b, e->member, y0, y1, &w));
        } else {
            SS_TRY(line_weight(b, e->member, x0, x1, &w));
        }
        w *= b->cars[b->lines[left].car].weight_factor;
        uniform_on_element(load, i, 0.0, 1.0, w, 0.0);
        count_in(load, 0.5 * (x0 + x1), 0.5 * (y0 + y1), w * e->length);
    }
    return SS_OK;
done:
    return ss_error_set(error, status, "the weight of a member cannot be found");
}
