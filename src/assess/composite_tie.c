/* composite_tie.c - strength of a section whose connectors tie only part of the slab's force. */
#include "assess/composite_tie.h"

#include <math.h>

#include "assess/composite_parts.h"
#include "assess/rule.h"
#include "sillspan/connector.h"

/* Where the largest sagging moment is, over the stretch. */
#define IN_SPAN 0.5
#define IN_CONTINUOUS 0.4

/* Places closer than this are one (m). */
#define SAME 1e-3

#define WHOLE_ROW 1e-9

#define RULE_YIELD                                                                                           \
    "first yield with a slab tied in part, section moduli between steel and composite (commentary to AISC "  \
    "360 I3.2, for steel buildings)"

typedef struct stretch {
    double x0, x1;
    bool goes_on; /* over a bearing at one of its ends */
} stretch;

static stretch stretch_at(const ss_bridge *bridge, const ss_effect *effect) {
    const ss_line *const line = &bridge->lines[effect->index];
    const double first = ss_max(line->x0, bridge->slab.x0);
    const double last = ss_min(line->x1, bridge->slab.x1);
    stretch s = {.x0 = first, .x1 = last};
    for (int i = 0; i < bridge->bearing_count; i++) {
        const double x = bridge->bearings[i].x;
        if (bridge->bearings[i].line != effect->index) {
            continue;
        }
        const bool behind = effect->before ? x < effect->at - SAME : x <= effect->at + SAME;
        if (behind) {
            s.x0 = ss_max(s.x0, x);
        } else {
            s.x1 = ss_min(s.x1, x);
        }
    }
    s.goes_on = s.x0 > first + SAME || s.x1 < last - SAME;
    return s;
}

bool ss_composite_tie_at(const ss_bridge *bridge, const ss_effect *effect, const ss_composite_case *given,
                         ss_composite_tie *out) {
    const ss_connectors *const c = ss_slab_connectors_on(&bridge->slab, effect->index);
    ss_section_properties steel;
    if (!c->partial || !(c->pitch > 0.0) || !given->sagging ||
        ss_section_at(given->steel.section, given->steel.depth, 0.0, &steel, NULL) != SS_OK) {
        return false;
    }
    const stretch s = stretch_at(bridge, effect);
    const double half = (s.goes_on ? IN_CONTINUOUS : IN_SPAN) * (s.x1 - s.x0);
    const double rows = ss_max(floor(half / c->pitch * (1.0 + WHOLE_ROW)), 0.0);
    const ss_resistance one =
        ss_connector_strength(c, bridge->slab.fc, bridge->slab.E, SS_CONNECTOR_LRFD, NULL);
    const ss_connector_section section = {.width = given->flange.width,
                                          .thickness = given->flange.thickness,
                                          .fc = given->flange.fc,
                                          .steel = steel.A * given->steel.fy};
    out->tied = one.why == NULL ? SS_PHI_CONNECTOR * one.value * rows * c->per_row : 0.0;
    out->whole = ss_connector_force(&section, false, SS_CONNECTOR_HOGGING_SLAB, NULL);
    return !(out->tied >= out->whole);
}

static ss_status between(const ss_composite_case *given, double ratio, ss_resistance *out,
                         ss_working *working) {
    ss_section_properties steel;
    const ss_status status = ss_section_at(given->steel.section, given->steel.depth, 0.0, &steel, NULL);
    if (status != SS_OK || isnan(out->value)) {
        return status;
    }
    const ss_resistance bare = ss_resistance_yield_moment(&steel, given->steel.fy);
    if (bare.why != NULL || !(out->value > bare.value)) {
        return SS_OK;
    }
    const double value = bare.value + sqrt(ss_clamp(ratio, 0.0, 1.0)) * (out->value - bare.value);
    ss_working_add(working, "My, steel", "first yield of the bare steel", bare.value, SS_DIM_MOMENT, NULL);
    ss_working_add(working, "Mn", "My, steel + sqrt(ratio) (Mn with full action - My, steel)", value,
                   SS_DIM_MOMENT, "commentary to AISC 360 I3.2 (building steel, not AASHTO; from memory)");
    *out = ss_rule_value(value, RULE_YIELD);
    return SS_OK;
}

ss_status ss_composite_take_tie(const ss_composite_case *given, const ss_composite_tie *tie,
                                ss_strength strength, bool first_yield, ss_resistance *out,
                                ss_working *working) {
    const double ratio = tie->whole > 0.0 ? tie->tied / tie->whole : 0.0;
    const bool plastic = (strength == SS_STRENGTH_LRFD || strength == SS_STRENGTH_LFR) && !first_yield;
    ss_resistance partial = {.value = SS_NAN};
    ss_working_add(working, "sum Qn", "what connectors tie, phi Qn each", tie->tied, SS_DIM_FORCE,
                   "AASHTO LRFD 6.10.10.4 (from memory)");
    ss_working_add(working, "P", "full composite action", tie->whole, SS_DIM_FORCE, NULL);
    if (plastic) {
        const ss_status status = ss_composite_partial(given, tie->tied, &partial, working);
        if (status != SS_OK) {
            return status;
        }
    }
    if (isnan(partial.value)) {
        return between(given, ratio, out, working);
    }
    if (!(out->value <= partial.value)) {
        *out = partial;
    }
    return SS_OK;
}
