/* composite_member.c - what a line carries together with its slab, with what the stages of the dead load have
 * left in both; and what strips of the slab carry across. */
#include "assess/composite_member.h"

#include <math.h>

#include "assess/composite_tie.h"
#include "base/numeric.h"
#include "sillspan/slab_strength.h"

/* Share of the yield stress that a composite section may reach under service load (AASHTO LRFD 6.10.4.2.2 and
 * Standard Specifications 10.57.2, from memory). */
#define SERVICE_COMPOSITE 0.95

/* ---- how strengths are used ---------------------------------------------------------------------------- */

/* What condition, system and phi leave of a bending strength by a check; they hang on the method alone. */
static double left_of(const ss_bridge *bridge, const ss_check *check) {
    const ss_crossing_facts facts = {.lanes = 1, .speed = SS_INFINITY};
    const ss_effect effect = {.kind = SS_EFFECT_MOMENT, .member = SS_MEMBER_LINE};
    const ss_resistance one = {.value = 1.0};
    for (int v = 0; v < bridge->rated_vehicle_count; v++) {
        if (ss_check_applies(bridge, check, &bridge->vehicles[v])) {
            ss_method_factors factors;
            ss_check_factors(bridge, check, &bridge->vehicles[v], &facts, &effect, &factors);
            return ss_check_capacity(bridge, check, &factors, &effect, &one);
        }
    }
    return SS_NAN;
}

void ss_strength_uses(const ss_bridge *bridge, ss_strength_use out[SS_STRENGTH_COUNT]) {
    ss_check checks[SS_CHECKS_MAX];
    const int count = ss_checks(bridge, checks);
    for (int s = 0; s < SS_STRENGTH_COUNT; s++) out[s] = (ss_strength_use){0};
    for (int i = 0; i < count; i++) {
        double share = 0.0;
        const ss_strength strength = ss_check_strength(&checks[i], &share);
        const double used = share > 0.0 && bridge->slab.given ? left_of(bridge, &checks[i]) : share;
        if (share > 0.0 && !isnan(used)) {
            ss_dead_factors dead[2];
            (void)ss_check_dead(bridge, &checks[i], dead);
            out[strength] = (ss_strength_use){share, used, dead[0]};
        }
    }
}

/* ---- lines --------------------------------------------------------------------------------------------- */

/* Whether the line goes on over a support. */
static bool is_continuous(const ss_bridge *bridge, int line) {
    double first = SS_NAN, second = SS_NAN;
    for (int i = 0; i < bridge->bearing_count; i++) {
        const double x = bridge->bearings[i].x;
        if (bridge->bearings[i].line != line || x == first || x == second) {
            continue;
        }
        if (!isnan(second)) {
            return true;
        }
        *(isnan(first) ? &first : &second) = x;
    }
    return false;
}

bool ss_composite_member_at(const ss_bridge *bridge, const ss_effect *effect, const ss_member_place *place,
                            bool sagging, ss_composite_member *out) {
    const ss_slab_stage finished = ss_slab_finished(&bridge->slab);
    ss_slab_flange flange;
    if (effect->member != SS_MEMBER_LINE ||
        !ss_slab_flange_at(bridge, effect->index, effect->at, effect->before, finished, &flange)) {
        return false;
    }
    out->given = (ss_composite_case){.steel = ss_member_flexure(bridge, effect, place, sagging),
                                     .flange = flange,
                                     .sagging = sagging,
                                     .continuous = is_continuous(bridge, effect->index),
                                     .dead = out->dead};
    return true;
}

void ss_composite_member_dead(const ss_permanent *permanent, const ss_effect *effect, ss_dead_factors factors,
                              ss_composite_member *member) {
    const ss_bridge *const bridge = ss_grillage_mesh(permanent->grillage)->bridge;
    member->given.dead_count = permanent->stage_count;
    for (int i = 0; i < permanent->stage_count; i++) {
        const ss_permanent_stage *const stage = &permanent->stages[i];
        ss_staged_moment *const moment = &member->dead[i];
        *moment = (ss_staged_moment){.name = stage->name};
        moment->moment = ss_permanent_added(permanent, i, effect) *
                         (stage->component == SS_COMPONENT_DC ? factors.dc : factors.dw);
        moment->composite = ss_slab_flange_at(bridge, effect->index, effect->at, effect->before, stage->slab,
                                              &moment->flange);
    }
}

ss_status ss_composite_member_strength(const ss_permanent *permanent, const ss_effect *effect,
                                       ss_strength strength, const ss_strength_use *use,
                                       ss_composite_member *member, ss_resistance *out, ss_working *working) {
    const ss_bridge *const bridge = ss_grillage_mesh(permanent->grillage)->bridge;
    const double more = strength == SS_STRENGTH_SERVICE ? SERVICE_COMPOSITE / use->share : 1.0;
    ss_composite_member_dead(permanent, effect, use->dead, member);
    ss_composite_tie tie;
    ss_status status = ss_composite_strength(&member->given, strength, ss_min(use->used * more, 1.0),
                                             bridge->slab.first_yield, out, working);
    if (status == SS_OK && ss_composite_tie_at(bridge, effect, &member->given, &tie)) {
        status =
            ss_composite_take_tie(&member->given, &tie, strength, bridge->slab.first_yield, out, working);
    }
    if (status == SS_OK && strength == SS_STRENGTH_SERVICE) {
        out->share = SERVICE_COMPOSITE;
    }
    return status;
}

/* ---- strips -------------------------------------------------------------------------------------------- */

ss_resistance ss_strip_resistance(const ss_bridge *bridge, const ss_effect *effect, bool sagging,
                                  ss_working *working) {
    const ss_floor_beam *const strip = &bridge->floor_beams[effect->index];
    const ss_slab_section section = ss_slab_section_of(&bridge->slab, false, bridge->steels[strip->steel].E);
    const ss_slab_moment moment = ss_slab_moment_of(&section, sagging, working);
    ss_resistance out = moment.nominal;
    out.value *= moment.phi * strip->strip;
    return out;
}
