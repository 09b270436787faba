/* cases.c - the bridge under each case of placed loads. */
#include "sillspan/cases.h"

#include <math.h>

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/mesh_parts.h"
#include "response/placements.h"

/* A parked truck: its front axle at x0, the others behind it. An axle off the ends stands on the ground. */
static ss_status add_truck(const ss_bridge *bridge, const ss_placed_load *placed, ss_load *load,
                           ss_error *error) {
    ss_status status = SS_OK;
    const ss_vehicle *vehicle = &bridge->vehicles[placed->vehicle];
    for (int axle = 0; axle < vehicle->axle_count; axle++) {
        const double axle_N = vehicle->axle_N[axle];
        const double there = ss_axle_x(vehicle, placed->backward, placed->x0, axle);
        const double x = ss_station_of_load(load->mesh, there);
        if (placed->line >= 0) {
            const ss_line *line = &bridge->lines[placed->line];
            if (x >= line->x0 - SS_STATION_TOLERANCE && x <= line->x1 + SS_STATION_TOLERANCE) {
                SS_TRY(ss_load_force_on_line(load, placed->line, x, axle_N, error));
            }
        } else if (x >= bridge->x0 && x <= bridge->x1) {
            const double half = 0.5 * ss_vehicle_gauge(vehicle, axle);
            SS_TRY(ss_load_force(load, x, placed->y0 - half, 0.5 * axle_N, error));
            SS_TRY(ss_load_force(load, x, placed->y0 + half, 0.5 * axle_N, error));
        }
    }
done:
    return status;
}

/* At the station that its place was merged with: a hair beyond the end of a car it would be off. */
static ss_status add_point(const ss_placed_load *placed, ss_load *load, ss_error *error) {
    const double x = ss_station_of_load(load->mesh, placed->x0);
    return placed->line >= 0 ? ss_load_force_on_line(load, placed->line, x, placed->value, error)
                             : ss_load_force(load, x, placed->y0, placed->value, error);
}

ss_status ss_cases_add(const ss_bridge *bridge, const ss_placed_load *placed, ss_load *load,
                       ss_error *error) {
    switch (placed->kind) {
    case SS_LOAD_POINT: return add_point(placed, load, error);
    case SS_LOAD_LINE:
        return placed->line >= 0
                   ? ss_load_line_on_line(load, placed->line, placed->x0, placed->x1, placed->value, error)
                   : ss_load_line(load, placed->x0, placed->x1, placed->y0, placed->value, error);
    case SS_LOAD_AREA:
        return ss_load_area(load, placed->x0, placed->x1, placed->y0, placed->y1, placed->value, error);
    case SS_LOAD_TRUCK: return add_truck(bridge, placed, load, error);
    }
    return ss_error_set(error, SS_ERROR_INTERNAL, "a placed load of unknown kind %d", (int)placed->kind);
}

/* The reactions and the bearings that have lifted, from the springs that each bearing owns. */
static void read_bearings(const ss_mesh *mesh, const ss_state *state, ss_case_result *out) {
    const int count = mesh->bridge->bearing_count;
    for (int i = 0; i < count; i++) {
        out->open[i] = mesh->bridge->bearings[i].contact;
    }
    for (int i = 0; i < mesh->spring_count; i++) {
        const ss_spring *spring = &mesh->spring[i];
        if (spring->owner != SS_MEMBER_BEARING || spring->kind != SS_SPRING_VERTICAL) {
            continue;
        }
        out->reaction[spring->index] += state->force[i];
        /* A pad is off only when both of its edges are. */
        if (!(state->opening[i] > 0.0)) {
            out->open[spring->index] = false;
        }
    }
}

static ss_status solve_case(const ss_permanent *permanent, int index, ss_arena *arena, ss_case_result *out,
                            ss_error *error) {
    ss_status status = SS_OK;
    const ss_mesh *mesh = ss_grillage_mesh(permanent->grillage);
    const ss_bridge *bridge = mesh->bridge;
    const ss_case *one = &bridge->cases[index];
    ss_load load = {0};
    ss_state state = {0};
    SS_TRY(ss_load_create(mesh, &load, error));
    for (int i = 0; i < one->load_count; i++) {
        SS_TRY(ss_cases_add(bridge, &bridge->placed[one->first_load + i], &load, error));
    }
    const ss_dead_factors unfactored = {1.0, 1.0};
    SS_TRY(ss_permanent_state(permanent, one->dead, unfactored, &load, 1.0, &state, error));

    out->index = index;
    out->load = load.total;
    out->outside = load.outside;
    out->equilibrium = state.equilibrium;
    out->probe = ss_arena_alloc(arena, (size_t)bridge->probe_count, sizeof *out->probe);
    out->reaction = ss_arena_alloc(arena, (size_t)bridge->bearing_count, sizeof *out->reaction);
    out->open = ss_arena_alloc(arena, (size_t)bridge->bearing_count, sizeof *out->open);
    if (out->probe == NULL || out->reaction == NULL || out->open == NULL) {
        status = ss_error_set(error, SS_ERROR_MEMORY, "no memory for the results of the cases");
        goto done;
    }
    read_bearings(mesh, &state, out);
    for (int i = 0; i < bridge->probe_count; i++) {
        const ss_probe *probe = &bridge->probes[i];
        ss_effect effect;
        SS_TRY(ss_mesh_effect(mesh, probe->member, probe->index, probe->at, probe->before, probe->effect,
                              &effect, error));
        out->probe[i] = ss_state_effect(mesh, &state, &effect);
    }
done:
    ss_state_destroy(&state);
    ss_load_destroy(&load);
    return status;
}

ss_status ss_cases_compute(const ss_permanent *permanent, ss_case_list *out, ss_error *error) {
    ss_status status = SS_OK;
    const ss_bridge *bridge = ss_grillage_mesh(permanent->grillage)->bridge;
    ss_case_list list = {0};
    list.items = ss_arena_alloc(&list.arena, (size_t)bridge->case_count, sizeof *list.items);
    if (list.items == NULL) {
        status = ss_error_set(error, SS_ERROR_MEMORY, "no memory for the results of the cases");
        goto done;
    }
    for (int i = 0; i < bridge->case_count; i++) {
        ss_error cause = {0};
        status = solve_case(permanent, i, &list.arena, &list.items[i], &cause);
        if (status != SS_OK) {
            ss_error_set(error, status, "case %.80s: %.380s", bridge->cases[i].name, cause.message);
            goto done;
        }
        list.count++;
    }
    *out = list;
    list = (ss_case_list){0};
done:
    ss_cases_destroy(&list);
    return status;
}

void ss_cases_destroy(ss_case_list *list) {
    if (list == NULL) {
        return;
    }
    ss_arena_destroy(&list->arena);
    *list = (ss_case_list){0};
}
