/* share.c - how much of the live moment each line and car carries, with the truck and the load of its lane
 * where they are worst for a car's main girder. */
#include <math.h>

#include "base/try.h"
#include "response/envelope_tile.h"
#include "response/state.h"
#include "sillspan/memory.h"

void ss_share_destroy(ss_share_list *list) {
    if (list == NULL) {
        return;
    }
    ss_arena_destroy(&list->arena);
    *list = (ss_share_list){0};
}

/* The enveloped moment of a main girder of the car that is largest under the traffic; -1: none. */
static int governing(const ss_bridge *bridge, const ss_envelope *envelope, int car, int traffic) {
    int best = -1;
    double most = 0.0;
    for (int i = 0; i < envelope->effect_count; i++) {
        const ss_effect *e = &envelope->effects[i];
        if (e->member != SS_MEMBER_LINE || e->kind != SS_EFFECT_MOMENT ||
            bridge->lines[e->index].car != car || bridge->lines[e->index].role != SS_ROLE_MAIN) {
            continue;
        }
        const double value = envelope->extremes[ss_envelope_at(envelope, i, traffic, 1)].value;
        if (value > most * (1.0 + 1e-9)) {
            most = value;
            best = i;
        }
    }
    return best;
}

/* Moment of a line at x, on the side asked for or else the other one; NaN where the line is not. */
static double moment_of(const ss_mesh *mesh, const ss_state *state, const ss_effect *at, int line) {
    ss_effect effect;
    ss_error ignored;
    for (int k = 0; k < 2; k++) {
        if (ss_mesh_effect(mesh, SS_MEMBER_LINE, line, at->at, k == 0 ? at->before : !at->before,
                           SS_EFFECT_MOMENT, &effect, &ignored) == SS_OK) {
            return ss_state_effect(mesh, state, &effect);
        }
    }
    return (double)NAN;
}

static ss_status fill_share(const ss_permanent *permanent, const ss_placements *placements,
                            const ss_effect *at, const ss_extreme *extreme, ss_share *share,
                            ss_error *error) {
    const ss_mesh *mesh = ss_grillage_mesh(permanent->grillage);
    const ss_bridge *bridge = mesh->bridge;
    ss_status status = SS_OK;
    ss_load load = {0};
    ss_state state = {0};
    SS_TRY(ss_extreme_load_make(mesh, placements, extreme, &load, error));
    SS_TRY(ss_permanent_state(permanent, true, (ss_dead_factors){1.0, 1.0}, &load, 1.0, &state, error));
    for (int i = 0; i < bridge->line_count; i++) {
        share->line[i] = moment_of(mesh, &state, at, i) - moment_of(mesh, &permanent->present, at, i);
        if (!isnan(share->line[i])) {
            share->total += share->line[i];
            share->per_car[bridge->lines[i].car] += share->line[i];
        }
    }
    for (int i = 0; i < bridge->line_count; i++) share->line[i] /= share->total;
    for (int i = 0; i < bridge->car_count; i++) share->per_car[i] /= share->total;
done:
    ss_state_destroy(&state);
    ss_load_destroy(&load);
    return status;
}

ss_status ss_share_compute(const ss_permanent *permanent, const ss_placements *placements,
                           const ss_envelope *envelope, ss_share_list *out, ss_error *error) {
    const ss_bridge *bridge = ss_grillage_mesh(permanent->grillage)->bridge;
    ss_status status = SS_OK;
    ss_share_list list = {0};
    list.items = ss_arena_alloc(&list.arena, (size_t)envelope->traffic_count * (size_t)bridge->car_count,
                                sizeof *list.items);
    if (list.items == NULL) {
        status = ss_no_memory(error);
        goto done;
    }
    for (int traffic = 0; traffic < envelope->traffic_count; traffic++) {
        /* How cars share one truck is asked: trucks abreast load several by themselves. */
        for (int car = 0; placements->traffic[traffic].track_count > 0 && car < bridge->car_count; car++) {
            const int effect = governing(bridge, envelope, car, traffic);
            if (effect < 0) {
                continue;
            }
            const ss_extreme *const extreme =
                &envelope->extremes[ss_envelope_at(envelope, effect, traffic, 1)];
            ss_share *const share = &list.items[list.count];
            *share = (ss_share){.traffic = traffic,
                                .car = car,
                                .x = envelope->effects[effect].at,
                                .position = extreme->position};
            share->line = ss_arena_alloc(&list.arena, (size_t)bridge->line_count, sizeof *share->line);
            share->per_car = ss_arena_alloc(&list.arena, (size_t)bridge->car_count, sizeof *share->per_car);
            if (share->line == NULL || share->per_car == NULL) {
                status = ss_no_memory(error);
                goto done;
            }
            SS_TRY(fill_share(permanent, placements, &envelope->effects[effect], extreme, share, error));
            list.count++;
        }
    }
    *out = list;
    list = (ss_share_list){0};
done:
    ss_share_destroy(&list);
    return status;
}
