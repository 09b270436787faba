/* bearing_rating.c - webs above bearings: the section there, what it carries, and factors by the check. */
#include "sillspan/bearing_rating.h"

#include <math.h>
#include <stddef.h>

#include "assess/member_strength.h"
#include "assess/rule.h"
#include "sillspan/section_form.h"

/* Least factor of condition, as of members (MBE 6A.4.2.1, from memory). */
#define CONDITION_LEAST 0.85

/* Working stress at inventory over that at operating (MBE 6B.5.2, from memory). */
#define INVENTORY_SHARE (0.55 / 0.75)

/* Stations closer than this are one. */
#define SAME 1e-6

static ss_bearing_web_strength unknown(void) {
    return (ss_bearing_web_strength){.yielding = ss_rule_none("", NULL),
                                     .crippling = ss_rule_none("", NULL),
                                     .factored = SS_NAN,
                                     .governs = "nothing: not known",
                                     .allowable = SS_NAN,
                                     .allowable_governs = "nothing: not known"};
}

/* Why the webs of that form cannot be looked at, or NULL. */
static const char *fault_of(const ss_section_form *form) {
    switch (form->form) {
    case SS_FORM_UNKNOWN: return "the section is given by its properties: its webs are not known";
    case SS_FORM_RECTANGLE:
    case SS_FORM_OTHER: return "the plates of the section make no web on a flange";
    default: break;
    }
    if (form->webs < 1 || form->bottom.plates < 1) {
        return "the section has no flange below, or no web";
    }
    return NULL;
}

/* The webs on one side of the bearing. */
static ss_bearing_web_strength side_strength(const ss_bridge *bridge, int bearing, bool before,
                                             const char **why) {
    const ss_bearing *const at = &bridge->bearings[bearing];
    const ss_line *const line = &bridge->lines[at->line];
    const ss_effect effect = {.kind = SS_EFFECT_WEB_PLUS,
                              .member = SS_MEMBER_LINE,
                              .index = at->line,
                              .at = at->x,
                              .before = before};
    ss_member_place place;
    ss_section_form form;
    if (ss_member_place_at(bridge, &effect, &place) != SS_OK ||
        ss_section_form_at(place.section, place.depth, &form, NULL) != SS_OK) {
        *why = "the section there is not known";
        return unknown();
    }
    *why = fault_of(&form);
    if (*why != NULL) {
        return unknown();
    }
    const ss_bearing_web web = {.web_thickness = form.web_thin,
                                .webs = form.webs,
                                .flange_thickness = form.bottom.thickness,
                                .depth = form.depth,
                                .length = at->length,
                                .end_distance = ss_max(0.0, ss_min(at->x - line->x0, line->x1 - at->x)),
                                .fy = place.steel->fy,
                                .E = place.steel->E};
    const ss_bearing_web_strength found = ss_bearing_web_resistance(&web, NULL);
    *why = found.yielding.why != NULL ? found.yielding.why : found.crippling.why;
    return found;
}

static bool has_side(const ss_bridge *bridge, int bearing, bool before) {
    const ss_bearing *const at = &bridge->bearings[bearing];
    const ss_line *const line = &bridge->lines[at->line];
    return before ? at->x > line->x0 + SAME : at->x < line->x1 - SAME;
}

ss_bearing_web_strength ss_bearing_seat_strength(const ss_bridge *bridge, int bearing, const char **why) {
    const ss_bearing *const at = &bridge->bearings[bearing];
    ss_bearing_web_strength by_factors = unknown(), by_stress = unknown();
    if (at->stiffened) {
        *why = "the webs have bearing stiffeners";
        return by_factors;
    }
    if (!(at->length > 0.0)) {
        *why = "no length given";
        return by_factors;
    }
    *why = "the line has no length there";
    for (int side = 0; side < 2; side++) {
        if (!has_side(bridge, bearing, side == 0)) {
            continue;
        }
        const ss_bearing_web_strength one = side_strength(bridge, bearing, side == 0, why);
        if (*why != NULL) {
            return unknown();
        }
        by_factors = by_factors.factored <= one.factored ? by_factors : one;
        by_stress = by_stress.allowable <= one.allowable ? by_stress : one;
    }
    by_factors.allowable = by_stress.allowable;
    by_factors.allowable_governs = by_stress.allowable_governs;
    return by_factors;
}

/* Factors of shear in the line at the bearing, the larger allowance of both sides. */
static ss_method_factors factors_at(const ss_bridge *bridge, int bearing, const ss_check *check,
                                    const ss_vehicle *vehicle, const ss_crossing_facts *crossing) {
    const ss_bearing *const at = &bridge->bearings[bearing];
    ss_method_factors out = {0};
    bool any = false;
    for (int side = 0; side < 2; side++) {
        const ss_effect effect = {.kind = SS_EFFECT_WEB_PLUS,
                                  .member = SS_MEMBER_LINE,
                                  .index = at->line,
                                  .at = at->x,
                                  .before = side == 0};
        ss_method_factors one;
        if (!has_side(bridge, bearing, side == 0)) {
            continue;
        }
        ss_check_factors(bridge, check, vehicle, crossing, &effect, &one);
        if (!any || one.allowance > out.allowance) {
            out = one;
        }
        any = true;
    }
    return out;
}

ss_bearing_rating ss_bearing_rating_of(const ss_bridge *bridge, int bearing, const ss_check *check,
                                       const ss_vehicle *vehicle, const ss_crossing_facts *crossing,
                                       ss_bearing_load load) {
    ss_bearing_rating out = {.rf = SS_NAN};
    const ss_bearing_web_strength strength = ss_bearing_seat_strength(bridge, bearing, &out.why);
    if (out.why != NULL) {
        return out;
    }
    if (vehicle->lane_N_m > 0.0) {
        out.why = "its lane load is not among these reactions";
        return out;
    }
    const ss_method_factors factors = factors_at(bridge, bearing, check, vehicle, crossing);
    const bool stress = check->method == SS_METHOD_ASR;
    out.governs = stress ? strength.allowable_governs : strength.governs;
    out.capacity = stress ? strength.allowable : strength.factored;
    if (check->method == SS_METHOD_LRFR) {
        out.capacity *= ss_max(CONDITION_LEAST, factors.condition);
    } else if (stress && check->level == SS_LEVEL_INVENTORY) {
        out.capacity *= INVENTORY_SHARE;
    }
    out.dead_factor = ss_max(factors.dc, factors.dw);
    out.live_factor = factors.live;
    out.presence = factors.presence;
    out.allowance = factors.allowance;
    const double scale = factors.live * factors.presence * (1.0 + factors.allowance);
    const double left = ss_max(0.0, out.capacity - out.dead_factor * ss_max(load.dead, 0.0));
    if (isnan(left) || isnan(load.dead) || isnan(load.live) || !ss_rule_positive(scale)) {
        out.why = "the reactions or their factors are not known";
        return out;
    }
    out.rf = load.live > 0.0 ? left / (scale * load.live) : left > 0.0 ? SS_INFINITY : 0.0;
    return out;
}
