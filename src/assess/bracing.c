/* bracing.c - what holds the compressed flange of a member sideways. */
#include "assess/bracing.h"

#include <math.h>

#include "base/numeric.h"

/* A floor beam of less than this part of a line's depth does not hold its bottom flange (common practice, no
 * source). */
#define DEEP_ENOUGH 0.5

/* Places nearer than this are one (m). */
#define NEAR 1e-6

/* The gap around a place, closed in from both sides. */
typedef struct gap {
    double at, low, high;
    bool before;
} gap;

static gap open_gap(double at, bool before, double low, double high) {
    return (gap){.at = at, .low = low, .high = high, .before = before};
}

static void hold(gap *g, double x) {
    if (x < g->at - NEAR || (x <= g->at + NEAR && !g->before)) {
        g->low = ss_max(g->low, x);
    } else {
        g->high = ss_min(g->high, x);
    }
}

/* ---- lines ------------------------------------------------------------------------------------------ */

static double line_depth(const ss_bridge *bridge, int line, double x) {
    ss_section_properties p;
    return ss_bridge_line_section(bridge, line, x, false, &p) == SS_OK ? p.depth : 0.0;
}

static double beam_depth(const ss_bridge *bridge, int beam, double y) {
    ss_section_properties p;
    return ss_bridge_beam_section(bridge, beam, y, false, &p) == SS_OK ? p.depth : 0.0;
}

static ss_bracing_stretch line_bracing(const ss_bridge *bridge, const ss_effect *effect, bool top) {
    const ss_line *const line = &bridge->lines[effect->index];
    const ss_car *const car = &bridge->cars[line->car];
    const double Cb = ss_max(line->Cb, 1.0);
    if (!isnan(line->unbraced)) {
        return (ss_bracing_stretch){line->unbraced, Cb, "as given"};
    }
    if (top && bridge->deck.holds_lines && !bridge->deck.along) {
        return (ss_bracing_stretch){0.0, Cb, "the deck, all along"};
    }
    gap g = open_gap(effect->at, effect->before, line->x0, line->x1);
    for (int i = 0; i < bridge->bearing_count; i++) {
        if (bridge->bearings[i].line == effect->index) {
            hold(&g, bridge->bearings[i].x);
        }
    }
    for (int k = car->first_beam; k < car->first_beam + car->beam_count; k++) {
        const double x = bridge->floor_beams[k].x;
        if (bridge->floor_beams[k].strip > 0.0) {
            continue; /* a slab braces all along or not at all */
        }
        const bool holds = top || beam_depth(bridge, k, line->y) >=
                                      DEEP_ENOUGH * line_depth(bridge, effect->index, x) - NEAR;
        if (holds && x >= line->x0 - NEAR && x <= line->x1 + NEAR) {
            hold(&g, x);
        }
    }
    return (ss_bracing_stretch){ss_max(g.high - g.low, 0.0), Cb,
                                top ? "floor beams and bearings" : "bearings and deep floor beams"};
}

/* ---- floor beams ------------------------------------------------------------------------------------ */

static ss_bracing_stretch beam_bracing(const ss_bridge *bridge, const ss_effect *effect, bool top) {
    const ss_floor_beam *const beam = &bridge->floor_beams[effect->index];
    const ss_car *const car = &bridge->cars[beam->car];
    gap g = open_gap(effect->at, effect->before, car->y_left, car->y_right);
    for (int k = car->first_line; k < car->first_line + car->line_count; k++) {
        const ss_line *const line = &bridge->lines[k];
        const bool there = line->x0 <= beam->x + NEAR && line->x1 >= beam->x - NEAR;
        if (there && (top || line->role != SS_ROLE_STRINGER)) {
            hold(&g, line->y);
        }
    }
    return (ss_bracing_stretch){ss_max(g.high - g.low, 0.0), 1.0, top ? "lines across it" : "girders"};
}

ss_bracing_stretch ss_bracing_at(const ss_bridge *bridge, const ss_effect *effect, bool top) {
    return effect->member == SS_MEMBER_LINE ? line_bracing(bridge, effect, top)
                                            : beam_bracing(bridge, effect, top);
}
