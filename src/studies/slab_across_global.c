/* slab_across_global.c - what the slab carries across between lines that sink unequally. No wheel stands on
 * its strips, so that it adds to what wheels do between lines. */
#include <math.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/passage.h"
#include "response/state.h"
#include "sillspan/memory.h"
#include "studies/slab_across_parts.h"

static void take(ss_slab_across *all, double moment) {
    for (int side = 0; side < 2; side++) {
        const double value = ss_max(side == 1 ? moment : -moment, 0.0);
        all->global[side] = isnan(all->global[side]) ? value : ss_max(all->global[side], value);
    }
}

/* ---- what governs in a rating ------------------------------------------------------------------------- */

/* Slab that a strip or a tie over the gap stands for (m); 0: it is none. */
static double width_of(const ss_bridge *bridge, const ss_effect *effect) {
    if (effect->kind != SS_EFFECT_MOMENT) {
        return 0.0;
    }
    if (effect->member == SS_MEMBER_BEAM) {
        return bridge->floor_beams[effect->index].strip;
    }
    return effect->member == SS_MEMBER_JOINT && bridge->joints[effect->index].slab
               ? ss_slab_panel_width(&bridge->slab)
               : 0.0;
}

static void take_ratings(const ss_bridge *bridge, const ss_ratings *ratings, ss_slab_across *all) {
    for (int i = 0; ratings != NULL && i < ratings->count; i++) {
        const ss_rating_item *const item = &ratings->items[i];
        const double width = width_of(bridge, &item->effect);
        if (!(width > 0.0) || ratings->checks[item->check].limit != SS_LIMIT_STRENGTH) {
            continue;
        }
        const double live =
            item->live * item->factors.live * item->factors.presence * (1.0 + item->factors.allowance);
        take(all, (item->dead + live) / width);
    }
}

/* ---- strips under one truck --------------------------------------------------------------------------- */

typedef struct strips {
    const ss_permanent *permanent;
    const ss_mesh *mesh;
    const ss_bridge *bridge;
    ss_effect *effects; /* moments of strips at every line that they meet, on both sides */
    double *dead;       /* of each, unfactored */
    ss_passage *passages;
    int count;
    ss_error *error;
} strips;

static bool meets(const ss_line *line, double x) {
    const double same = 1e-6;
    return line->x0 <= x + same && line->x1 >= x - same;
}

static ss_status add_strip(strips *s, int beam) {
    const ss_floor_beam *const strip = &s->bridge->floor_beams[beam];
    const ss_car *const car = &s->bridge->cars[strip->car];
    int first = -1, last = -1;
    ss_status status = SS_OK;
    for (int i = car->first_line; i < car->first_line + car->line_count; i++) {
        if (meets(&s->bridge->lines[i], strip->x)) {
            first = first < 0 ? i : first;
            last = i;
        }
    }
    for (int i = first; first >= 0 && i <= last; i++) {
        for (int before = 0; before < 2 && meets(&s->bridge->lines[i], strip->x); before++) {
            if (i == (before == 1 ? first : last)) {
                continue;
            }
            ss_effect *const effect = &s->effects[s->count];
            SS_TRY(ss_mesh_effect(s->mesh, SS_MEMBER_BEAM, beam, s->bridge->lines[i].y, before == 1,
                                  SS_EFFECT_MOMENT, effect, s->error));
            s->dead[s->count++] = ss_state_effect(s->mesh, &s->permanent->present, effect);
        }
    }
done:
    return status;
}

static ss_status find_strips(strips *s) {
    size_t most = 1;
    ss_status status = SS_OK;
    for (int i = 0; i < s->bridge->floor_beam_count; i++) {
        most += 2 * (size_t)s->bridge->cars[s->bridge->floor_beams[i].car].line_count;
    }
    s->effects = ss_alloc(most, sizeof *s->effects);
    s->dead = ss_alloc(most, sizeof *s->dead);
    s->passages = ss_alloc(most, sizeof *s->passages);
    SS_TRY(s->effects == NULL || s->dead == NULL || s->passages == NULL ? ss_no_memory(s->error) : SS_OK);
    for (int i = 0; i < s->bridge->floor_beam_count; i++) {
        if (s->bridge->floor_beams[i].strip > 0.0) {
            SS_TRY(add_strip(s, i));
        }
    }
done:
    return status;
}

/* The most that a check of strength multiplies the truck by; 0: none looks at it. */
static double live_factor(const ss_bridge *bridge, int vehicle, const ss_effect *effect,
                          ss_dead_factors dead[2]) {
    const ss_crossing_facts facts = {.lanes = 1, .speed = SS_INFINITY};
    ss_check checks[SS_CHECKS_MAX];
    const int count = ss_checks(bridge, checks);
    double most = 0.0;
    for (int i = 0; i < count; i++) {
        ss_method_factors factors;
        if (checks[i].limit != SS_LIMIT_STRENGTH ||
            !ss_check_applies(bridge, &checks[i], &bridge->vehicles[vehicle])) {
            continue;
        }
        ss_check_factors(bridge, &checks[i], &bridge->vehicles[vehicle], &facts, effect, &factors);
        const double here = factors.live * factors.presence * (1.0 + factors.allowance);
        if (here > most) {
            most = here;
            if (ss_check_dead(bridge, &checks[i], dead) < 2) {
                dead[1] = dead[0];
            }
        }
    }
    return most;
}

static ss_status take_vehicle(strips *s, int vehicle, ss_slab_across *all) {
    ss_dead_factors dead[2] = {{1.0, 1.0}, {1.0, 1.0}};
    int lines = 0;
    ss_status status = SS_OK;
    const double live = live_factor(s->bridge, vehicle, &s->effects[0], dead);
    if (!(live > 0.0)) {
        return SS_OK;
    }
    SS_TRY(ss_passages_compute(s->permanent, &s->bridge->vehicles[vehicle], s->effects, s->count, s->passages,
                               &lines, s->error));
    for (int i = 0; i < s->count && lines > 0; i++) {
        const double width = s->bridge->floor_beams[s->effects[i].index].strip;
        const double extremes[2] = {s->passages[i].least, s->passages[i].most};
        for (int k = 0; k < 2; k++) {
            /* Dead load that pulls the same way counts with its larger factor. */
            const bool adds = s->dead[i] * extremes[k] >= 0.0;
            take(all, (s->dead[i] * dead[adds ? 0 : 1].dc + live * extremes[k]) / width);
        }
    }
done:
    return status;
}

ss_status ss_slab_across_global(const ss_permanent *permanent, const ss_ratings *ratings, ss_slab_across *all,
                                ss_error *error) {
    strips s = {.permanent = permanent, .mesh = ss_grillage_mesh(permanent->grillage), .error = error};
    ss_status status = SS_OK;
    s.bridge = s.mesh->bridge;
    all->global[0] = all->global[1] = SS_NAN;
    take_ratings(s.bridge, ratings, all);
    SS_TRY(find_strips(&s));
    for (int v = 0; v < s.bridge->rated_vehicle_count && s.count > 0; v++) {
        SS_TRY(take_vehicle(&s, v, all));
    }
done:
    ss_free(s.effects);
    ss_free(s.dead);
    ss_free(s.passages);
    return status;
}
