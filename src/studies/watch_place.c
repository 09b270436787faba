/* watch_place.c - the effects and the loads of a watch on one mesh. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/mesh_parts.h"
#include "response/placements.h"
#include "response/state.h"
#include "sillspan/memory.h"
#include "studies/watch_parts.h"

/* ---- effects ---------------------------------------------------------------------------------------- */

static bool is_line(const ss_bridge *bridge, int line, const char *car, const char *whole) {
    const ss_line *const l = &bridge->lines[line];
    return strcmp(bridge->cars[l->car].name, car) == 0 && strcmp(l->whole, whole) == 0;
}

/* The station nearest to the place at which a part of the line has an element on the right side. */
static bool find_on_line(const ss_mesh *mesh, const ss_watched_effect *named, int *line, double *at) {
    double best = SS_INFINITY;
    for (int i = 0; i < mesh->bridge->line_count; i++) {
        if (!is_line(mesh->bridge, i, named->car, named->name)) {
            continue;
        }
        for (int k = 0; k < mesh->station_count; k++) {
            const int interval = named->before ? k - 1 : k;
            const double away = fabs(mesh->station[k] - named->at);
            if (away < best && interval >= 0 && interval + 1 < mesh->station_count &&
                ss_mesh_line_element(mesh, interval, i) >= 0) {
                best = away;
                *line = i;
                *at = mesh->station[k];
            }
        }
    }
    return isfinite(best);
}

static int find_beam(const ss_bridge *bridge, const ss_watched_effect *named) {
    for (int i = 0; i < bridge->floor_beam_count; i++) {
        const ss_floor_beam *const beam = &bridge->floor_beams[i];
        if (strcmp(bridge->cars[beam->car].name, named->car) == 0 && strcmp(beam->name, named->name) == 0) {
            return i;
        }
    }
    return -1;
}

static int find_joint(const ss_bridge *bridge, const ss_watched_effect *named) {
    for (int i = 0; i < bridge->joint_count; i++) {
        if (strcmp(bridge->joints[i].name, named->name) == 0) {
            return i;
        }
    }
    return -1;
}

static int find_bearing(const ss_bridge *bridge, const ss_watched_effect *named) {
    int best = -1;
    for (int i = 0; i < bridge->bearing_count; i++) {
        const ss_bearing *const b = &bridge->bearings[i];
        if (strcmp(b->name, named->name) == 0 && is_line(bridge, b->line, named->car, named->line) &&
            (best < 0 || fabs(b->x - named->at) < fabs(bridge->bearings[best].x - named->at))) {
            best = i;
        }
    }
    return best;
}

bool ss_watch_locate(const ss_mesh *mesh, const ss_watched_effect *named, ss_effect *out) {
    int index = -1;
    double at = named->at;
    switch (named->member) {
    case SS_MEMBER_LINE: index = find_on_line(mesh, named, &index, &at) ? index : -1; break;
    case SS_MEMBER_BEAM: index = find_beam(mesh->bridge, named); break;
    case SS_MEMBER_JOINT: index = find_joint(mesh->bridge, named); break;
    case SS_MEMBER_BEARING: index = find_bearing(mesh->bridge, named); break;
    }
    if (index < 0 ||
        ss_mesh_effect(mesh, named->member, index, at, named->before, named->kind, out, NULL) != SS_OK) {
        return false;
    }
    if (named->tapered) {
        (void)ss_mesh_effect_taper(mesh, out); /* where the depth is level now, flanges carry nothing of it */
    }
    return true;
}

/* ---- loads ------------------------------------------------------------------------------------------ */

static ss_status load_stand(const ss_watch_placed *placed, const ss_watched_stand *stand, ss_load *out,
                            ss_error *error) {
    const ss_placements *const placements = &placed->watch->placements;
    ss_load load = {0}, other = {0};
    ss_status status = SS_OK;
    SS_TRY(ss_placements_load(placed->mesh, placements, &stand->position[0], &load, error));
    for (int i = 1; i < stand->truck_count; i++) {
        SS_TRY(ss_placements_load(placed->mesh, placements, &stand->position[i], &other, error));
        ss_load_add(&load, 1.0, &other);
        ss_load_destroy(&other);
    }
    for (int i = 0; i < stand->lane_count; i++) {
        const int track = stand->position[stand->lane[i].truck].track;
        const bool whole = placements->trains[placements->tracks[track].train].lane_allowance;
        SS_TRY(ss_placements_load_lane(placements, track, &stand->lane[i], whole ? 1.0 : stand->lane_share,
                                       &load, error));
    }
    *out = load;
    load = (ss_load){0};
done:
    ss_load_destroy(&other);
    ss_load_destroy(&load);
    return status;
}

/* The part of an effect from what acts within its element, wheels between its ends too. `still`: order, 0. */
static double part_within(const ss_watch_placed *placed, const ss_watched_stand *stand,
                          const ss_effect *effect, const ss_load *load, const double *still) {
    if (ss_effect_of_spring(effect)) {
        return 0.0;
    }
    double value = ss_mesh_effect_value(placed->mesh, effect, still, load);
    if (effect->member == SS_MEMBER_BEAM) {
        ss_bay_force bays[SS_BAY_FORCES_MOST];
        for (int i = 0; i < stand->truck_count; i++) {
            const int count =
                ss_placements_bays(placed->mesh, &placed->watch->placements, &stand->position[i], bays);
            value += ss_bay_forces_passed(placed->mesh, effect, bays, count);
        }
    }
    return value;
}

/* Nodal forces that are not zero, behind those of earlier stands. */
static ss_status keep_forces(ss_watch_placed *placed, int stand, const ss_load *load, int *capacity) {
    int at = placed->first[stand];
    for (int i = 0; i < placed->mesh->order; i++) {
        if (load->nodal[i] == 0.0) {
            continue;
        }
        if (at == *capacity) {
            const size_t more = 2 * (size_t)*capacity + 4096;
            int *const dof = ss_realloc(placed->dof, more, sizeof *dof);
            placed->dof = dof != NULL ? dof : placed->dof;
            double *const force = ss_realloc(placed->force, more, sizeof *force);
            placed->force = force != NULL ? force : placed->force;
            if (dof == NULL || force == NULL) {
                return SS_ERROR_MEMORY;
            }
            *capacity = (int)more;
        }
        placed->dof[at] = i;
        placed->force[at++] = load->nodal[i];
    }
    placed->first[stand + 1] = at;
    return SS_OK;
}

static ss_status place_loads(ss_watch_placed *placed, ss_error *error) {
    const ss_watch *const watch = placed->watch;
    ss_status status = SS_OK;
    ss_load load = {0};
    int capacity = 0;
    double *const still = ss_alloc((size_t)placed->mesh->order, sizeof *still);
    if (still == NULL) {
        return ss_no_memory(error);
    }
    for (int s = 0; s < watch->stand_count; s++) {
        SS_TRY(load_stand(placed, &watch->stands[s], &load, error));
        SS_TRY(keep_forces(placed, s, &load, &capacity) == SS_OK ? SS_OK : ss_no_memory(error));
        for (int i = 0; i < watch->item_count; i++) {
            const ss_watched_item *const item = &watch->items[i];
            if (item->stand == s && placed->there[item->effect]) {
                placed->within[i] =
                    part_within(placed, &watch->stands[s], &placed->effect[item->effect], &load, still);
            }
        }
        ss_load_destroy(&load);
    }
done:
    ss_load_destroy(&load);
    ss_free(still);
    return status;
}

/* ---- public ----------------------------------------------------------------------------------------- */

void ss_watch_unplace(ss_watch_placed *placed) {
    ss_free(placed->dof);
    ss_free(placed->force);
    ss_arena_destroy(&placed->arena);
    *placed = (ss_watch_placed){0};
}

ss_status ss_watch_place(const ss_watch *watch, const ss_mesh *mesh, ss_watch_placed *out, ss_error *error) {
    ss_watch_placed p = {.watch = watch, .mesh = mesh};
    ss_status status = SS_OK;
    p.effect = ss_arena_alloc(&p.arena, (size_t)watch->effect_count + 1, sizeof *p.effect);
    p.there = ss_arena_alloc(&p.arena, (size_t)watch->effect_count + 1, sizeof *p.there);
    p.first = ss_arena_alloc(&p.arena, (size_t)watch->stand_count + 1, sizeof *p.first);
    p.within = ss_arena_alloc(&p.arena, (size_t)watch->item_count + 1, sizeof *p.within);
    SS_TRY(p.effect == NULL || p.there == NULL || p.first == NULL || p.within == NULL ? ss_no_memory(error)
                                                                                      : SS_OK);
    for (int i = 0; i < watch->effect_count; i++) {
        p.there[i] = ss_watch_locate(mesh, &watch->effects[i], &p.effect[i]);
    }
    SS_TRY(place_loads(&p, error));
    *out = p;
    p = (ss_watch_placed){0};
done:
    ss_watch_unplace(&p);
    return status;
}
