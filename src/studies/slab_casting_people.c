/* slab_casting_people.c - people and gear on the cars while a slab is cast, part by part. */
#include "studies/slab_casting_people.h"

#include <math.h>

#include "base/numeric.h"
#include "base/try.h"
#include "model/resolve_slab.h"
#include "sillspan/memory.h"

enum { CUTS_MOST = 64 };

void ss_casting_across(const ss_bridge *bridge, int car, double *left, double *right) {
    *left = ss_resolve_slab_bound(bridge, car, false);
    *right = ss_resolve_slab_bound(bridge, car, true);
}

bool ss_casting_between(const ss_bridge *bridge, int car, double *from, double *to) {
    *from = SS_INFINITY;
    *to = -SS_INFINITY;
    for (int i = 0; i < bridge->bearing_count; i++) {
        if (bridge->bearings[i].car == car) {
            *from = ss_min(*from, bridge->bearings[i].x);
            *to = ss_max(*to, bridge->bearings[i].x);
        }
    }
    return *from < *to;
}

/* Ends of the slab on a car and the bearings between, ascending: what is between two of them is loaded as
 * one. Props count. */
static int cuts_of(const ss_bridge *bridge, int car, double cuts[CUTS_MOST]) {
    const double x0 = ss_max(bridge->slab.x0, bridge->cars[car].x0);
    const double x1 = ss_min(bridge->slab.x1, bridge->cars[car].x1);
    int count = 2;
    if (!(x1 > x0)) {
        return 0;
    }
    cuts[0] = x0;
    cuts[1] = x1;
    for (int i = 0; i < bridge->bearing_count && count < CUTS_MOST; i++) {
        const ss_bearing *const b = &bridge->bearings[i];
        if (b->car == car && b->x > x0 && b->x < x1) {
            cuts[count++] = b->x;
        }
    }
    ss_sort_unique(cuts, &count, 1e-3);
    return count;
}

/* Bearings that are open in the stage are left out; NULL where none is, or where the rest would move. */
static ss_status leave_out_open(const ss_permanent_stage *stage, const ss_grillage *grillage, ss_update **out,
                                ss_error *error) {
    const ss_mesh *const mesh = stage->mesh;
    double *const flexibility = ss_alloc((size_t)mesh->spring_count, sizeof *flexibility);
    ss_error inner = {0};
    int open = 0;
    *out = NULL;
    if (flexibility == NULL) {
        return ss_casting_no_memory(error);
    }
    for (int i = 0; i < mesh->spring_count; i++) {
        const bool off = mesh->spring[i].contact && stage->state.opening[i] > 0.0;
        flexibility[i] = off ? SS_INFINITY : mesh->spring[i].flexibility;
        open += off ? 1 : 0;
    }
    const ss_status status = open > 0 ? ss_update_create(grillage, flexibility, out, &inner) : SS_OK;
    ss_free(flexibility);
    return status == SS_ERROR_MEMORY ? ss_casting_no_memory(error) : SS_OK;
}

static ss_status add_part(const ss_casting *c, const ss_grillage *grillage, const ss_update *update,
                          const double x[2], const double y[2], ss_casting_people *out) {
    const ss_mesh *const mesh = out->mesh;
    ss_status status = SS_OK;
    double *force = NULL;
    if (out->count == out->capacity) {
        const int capacity = 2 * out->capacity + 16;
        ss_casting_people_part *const grown = ss_realloc(out->parts, (size_t)capacity, sizeof *grown);
        SS_TRY(grown == NULL ? ss_casting_no_memory(c->error) : SS_OK);
        out->parts = grown;
        out->capacity = capacity;
    }
    ss_casting_people_part *const part = &out->parts[out->count];
    *part = (ss_casting_people_part){.u = ss_alloc((size_t)mesh->order, sizeof *part->u)};
    out->count++;
    force = ss_alloc((size_t)mesh->spring_count, sizeof *force);
    SS_TRY(part->u == NULL || force == NULL ? ss_casting_no_memory(c->error) : SS_OK);
    SS_TRY(ss_load_create(mesh, &part->load, c->error));
    SS_TRY(ss_load_area(&part->load, x[0], x[1], y[0], y[1], c->bridge->slab.construction, c->error));
    SS_TRY(ss_grillage_respond(grillage, update, part->load.nodal, NULL, part->u, force, c->error));
done:
    ss_free(force);
    return status;
}

ss_status ss_casting_people_make(const ss_casting *c, int stage, ss_casting_people *out) {
    const ss_permanent_stage *const own = &c->permanent->stages[stage];
    ss_casting_people made = {.mesh = own->mesh};
    ss_grillage *grillage = NULL;
    ss_update *update = NULL;
    ss_status status = SS_OK;
    const int cars = c->bridge->slab.construction > 0.0 ? c->bridge->car_count : 0;
    if (cars > 0) {
        SS_TRY(ss_grillage_create(own->mesh, &grillage, c->error));
        SS_TRY(leave_out_open(own, grillage, &update, c->error));
    }
    for (int car = 0; car < cars; car++) {
        double cuts[CUTS_MOST];
        double left = 0.0, right = 0.0;
        const int count = cuts_of(own->mesh->bridge, car, cuts);
        ss_casting_across(c->bridge, car, &left, &right);
        const double y[3] = {left, 0.5 * (c->bridge->cars[car].y_left + c->bridge->cars[car].y_right), right};
        for (int k = 0; k + 1 < count; k++) {
            for (int side = 0; side < 2; side++) {
                SS_TRY(add_part(c, grillage, update, &cuts[k], &y[side], &made));
            }
        }
    }
    *out = made;
    made = (ss_casting_people){0};
done:
    ss_casting_people_destroy(&made);
    ss_update_destroy(update);
    ss_grillage_destroy(grillage);
    return status;
}

void ss_casting_people_destroy(ss_casting_people *people) {
    for (int i = 0; i < people->count; i++) {
        ss_load_destroy(&people->parts[i].load);
        ss_free(people->parts[i].u);
    }
    ss_free(people->parts);
    *people = (ss_casting_people){0};
}

void ss_casting_people_effect(const ss_casting_people *people, const ss_effect *effect, double out[2]) {
    out[0] = out[1] = 0.0;
    for (int i = 0; i < people->count; i++) {
        const ss_casting_people_part *const part = &people->parts[i];
        const double value = ss_mesh_effect_value(people->mesh, effect, part->u, &part->load);
        out[value > 0.0 ? 1 : 0] += value;
    }
}
