/* slab_casting_sag.c - how far girders sag under wet concrete, how unlike the cars do, and what fills it. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/mesh_parts.h"
#include "studies/slab_casting_parts.h"

/* Sag under the concrete of the stages up to one, at a node. */
static double wet_sag(const ss_casting *c, int last, int node) {
    double sum = 0.0;
    for (int i = 0; i <= last; i++) sum += ss_casting_wet(c, i) ? ss_casting_node_sag(c, i, node) : 0.0;
    return sum;
}

/* Sag from the first pour on, by all that comes. */
static double whole_sag(const ss_casting *c, int node) {
    bool wet = false;
    double sum = 0.0;
    for (int i = 0; i < c->permanent->stage_count; i++) {
        wet = wet || ss_casting_wet(c, i);
        sum += wet ? ss_casting_node_sag(c, i, node) : 0.0;
    }
    return sum;
}

/* ---- girders ----------------------------------------------------------------------------------------- */

static void sag_of_sets(ss_casting *c) {
    const ss_mesh *const mesh = ss_casting_mesh(c, 0);
    const int last = c->permanent->stage_count - 1;
    for (int node = 0; node < mesh->node_count; node++) {
        const int line = mesh->node_line[node];
        for (int i = 0; i < c->out->set_count; i++) {
            ss_casting_set *const set = &c->out->sets[i];
            if (strcmp(set->name, c->bridge->lines[line].set) != 0) {
                continue;
            }
            const double sag = wet_sag(c, last, node);
            set->camber = ss_max(set->camber, whole_sag(c, node));
            if (set->sag_line < 0 || sag > set->sag * (1.0 + 1e-9) + 1e-12) {
                set->sag = sag;
                set->sag_x = mesh->station[mesh->node_station[node]];
                set->sag_line = line;
            }
        }
    }
}

/* ---- unlike sag -------------------------------------------------------------------------------------- */

/* The outer line of a car that exists at a station; -1: none. */
static int outer_line(const ss_mesh *mesh, int car, int station, bool right) {
    const ss_bridge *const bridge = mesh->bridge;
    int best = -1;
    for (int i = bridge->cars[car].first_line;
         i < bridge->cars[car].first_line + bridge->cars[car].line_count; i++) {
        const double y = bridge->lines[i].y;
        if (ss_mesh_node(mesh, station, i) >= 0 &&
            (best < 0 || (right ? y > bridge->lines[best].y : y < bridge->lines[best].y))) {
            best = i;
        }
    }
    return best;
}

/* Right less left, of two lines at a station. */
static double unlike(const ss_casting *c, int stage, int station, int left, int right) {
    const ss_mesh *const mesh = ss_casting_mesh(c, 0);
    return wet_sag(c, stage, ss_mesh_node(mesh, station, right)) -
           wet_sag(c, stage, ss_mesh_node(mesh, station, left));
}

static bool larger(double found, double kept) {
    return fabs(found) > fabs(kept) * (1.0 + 1e-9) + 1e-12;
}

static void tilt_of(const ss_casting *c, int stage, int car, ss_casting_car *out) {
    const ss_mesh *const mesh = ss_casting_mesh(c, 0);
    for (int k = 0; k < mesh->station_count; k++) {
        const int left = outer_line(mesh, car, k, false), right = outer_line(mesh, car, k, true);
        if (left < 0 || left == right) {
            continue;
        }
        const double apart = c->bridge->lines[right].y - c->bridge->lines[left].y;
        const double tilt = unlike(c, stage, k, left, right) / apart;
        if (out->tilt_stage < 0 || larger(tilt, out->tilt)) {
            out->tilt = tilt;
            out->tilt_x = mesh->station[k];
            out->tilt_stage = stage;
        }
    }
}

static void step_of(const ss_casting *c, int stage, ss_casting_gap *out) {
    const ss_mesh *const mesh = ss_casting_mesh(c, 0);
    for (int k = 0; k < mesh->station_count; k++) {
        const int left = outer_line(mesh, out->left, k, true);
        const int right = outer_line(mesh, out->left + 1, k, false);
        if (left < 0 || right < 0) {
            continue;
        }
        const double step = unlike(c, stage, k, left, right);
        if (out->stage < 0 || larger(step, out->step)) {
            out->step = step;
            out->x = mesh->station[k];
            out->stage = stage;
        }
    }
}

/* ---- what fills it ----------------------------------------------------------------------------------- */

/*
 * Concrete between a load of 1 N/m2 that lies on the car and the level that it had: by reciprocity the work
 * of that load on the sag. Between the nodes of an element a uniform load adds q L^5 / (720 EI) + q L^3 /
 * (12 GA) to the area under its line.
 */
static double volume_of(const ss_casting *c, int stage, const ss_load *unit) {
    const ss_permanent_stage *const own = &c->permanent->stages[stage];
    const ss_load *const before = stage > 0 ? &own[-1].state.load : NULL;
    double sum = 0.0;
    for (int i = 0; i < own->mesh->order; i++) {
        sum += unit->nodal[i] * (own->state.u[i] - (stage > 0 ? own[-1].state.u[i] : 0.0));
    }
    for (int i = 0; i < own->mesh->element_count; i++) {
        const ss_element *const e = &own->mesh->element[i];
        const double q = own->state.load.uniform[i] - (before != NULL ? before->uniform[i] : 0.0);
        const double L3 = e->length * e->length * e->length;
        if (!e->across && unit->uniform[i] != 0.0) {
            sum +=
                unit->uniform[i] * q * (L3 * e->length * e->length / (720.0 * e->EI) + L3 / (12.0 * e->GA));
        }
    }
    return sum;
}

static ss_status fill_car(const ss_casting *c, int car, ss_casting_car *out) {
    const ss_slab *const slab = &c->bridge->slab;
    double left = 0.0, right = 0.0, from = 0.0, to = 0.0;
    ss_load unit = {0};
    ss_status status = SS_OK;
    if (!ss_casting_between(c->bridge, car, &from, &to)) {
        return SS_OK;
    }
    ss_casting_across(c->bridge, car, &left, &right);
    SS_TRY(ss_load_create(ss_casting_mesh(c, 0), &unit, c->error));
    SS_TRY(ss_load_area(&unit, ss_max(from, slab->x0), ss_min(to, slab->x1), left, right, 1.0, c->error));
    out->area = unit.total;
    for (int i = 0; i < c->permanent->stage_count; i++) {
        out->volume += ss_casting_wet(c, i) ? volume_of(c, i, &unit) : 0.0;
    }
done:
    ss_load_destroy(&unit);
    return status;
}

static ss_status fill(ss_casting *c) {
    ss_slab_casting *const out = c->out;
    double area = 0.0, volume = 0.0;
    for (int i = 0; i < out->car_count; i++) {
        const ss_status status = fill_car(c, i, &out->cars[i]);
        if (status != SS_OK) {
            return status;
        }
        area += out->cars[i].area;
        volume += out->cars[i].volume;
    }
    out->thicker = area > 0.0 ? volume / area : 0.0;
    out->ponded = volume * c->bridge->slab.density;
    const double share = out->wet > 0.0 ? out->ponded / out->wet : 0.0;
    out->ponded_more = share < 1.0 ? out->ponded / (1.0 - share) : SS_INFINITY;
    return SS_OK;
}

/* ---- all --------------------------------------------------------------------------------------------- */

ss_status ss_casting_sag(ss_casting *c) {
    ss_slab_casting *const out = c->out;
    const int cars = c->bridge->car_count;
    out->cars = ss_arena_alloc(c->arena, (size_t)cars + 1, sizeof *out->cars);
    out->gaps = ss_arena_alloc(c->arena, (size_t)cars + 1, sizeof *out->gaps);
    if (out->cars == NULL || out->gaps == NULL) {
        return ss_casting_no_memory(c->error);
    }
    out->car_count = cars;
    out->gap_count = cars > 0 ? cars - 1 : 0;
    for (int i = 0; i < cars; i++) out->cars[i].tilt_stage = -1;
    for (int i = 0; i < out->gap_count; i++) out->gaps[i] = (ss_casting_gap){.left = i, .stage = -1};
    sag_of_sets(c);
    for (int stage = 0; stage < c->permanent->stage_count; stage++) {
        if (!ss_casting_wet(c, stage)) {
            continue;
        }
        for (int i = 0; i < cars; i++) tilt_of(c, stage, i, &out->cars[i]);
        for (int i = 0; i < out->gap_count; i++) step_of(c, stage, &out->gaps[i]);
    }
    return fill(c);
}
