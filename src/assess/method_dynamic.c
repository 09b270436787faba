/* method_dynamic.c - the dynamic allowance of LRFR by member, span and speed, and the impact of LFR and ASR
 * by each member's own loaded length. */
#include <math.h>
#include <stddef.h>

#include "assess/method_parts.h"
#include "base/numeric.h"

#define FOOT 0.3048

/* Design load and rough surface: AASHTO LRFD 3.6.2.1 and MBE 6A.4.4.3 (from memory). */
#define ALLOWANCE_FULL 0.33

/* A riding surface better than rough only counts on spans above 40 ft; the rounding of a difference of
 * stations does not lift one above. */
#define SPAN_LONG (40.0 * FOOT * (1.0 + 1e-9))

/* 10 miles an hour: permit loads that creep have no allowance (MBE 6A.4.5.5, from memory). No value is known
 * for speeds in between. */
#define SPEED_CREEP (0.44704 * 10.0 * (1.0 + 1e-9))

/* Places closer than this are one station of the grillage. */
#define SAME_STATION 1e-3

/* ---- spans ------------------------------------------------------------------------------------------ */

/* Takes a support at `at` as an end of the reach of `x`. */
static void take_support(ss_stretch *reach, double at, double x, bool before) {
    const bool behind = before ? at < x - SAME_STATION : at <= x + SAME_STATION;
    if (behind) {
        reach->x0 = ss_max(reach->x0, at);
    } else {
        reach->x1 = ss_min(reach->x1, at);
    }
}

/* Ends without a support are the line's own; false: there is no support at all. */
static bool close_reach(ss_stretch *reach, const ss_line *line) {
    reach->free0 = isinf(reach->x0);
    reach->free1 = isinf(reach->x1);
    if (reach->free0 && reach->free1) {
        return false;
    }
    if (reach->free0) {
        reach->x0 = ss_min(line->x0, reach->x1);
    }
    if (reach->free1) {
        reach->x1 = ss_max(line->x1, reach->x0);
    }
    return true;
}

bool ss_stretch_of(const ss_bridge *bridge, int line, double x, bool before, bool touching, ss_stretch *out) {
    const ss_line *const of = &bridge->lines[line];
    *out = (ss_stretch){.x0 = -SS_INFINITY, .x1 = SS_INFINITY};
    for (int i = 0; i < bridge->bearing_count; i++) {
        const ss_bearing *const bearing = &bridge->bearings[i];
        if (bearing->car == of->car && !(touching && bearing->gap > 0.0)) {
            take_support(out, bearing->x, x, before);
        }
    }
    return close_reach(out, of);
}

double ss_member_span(const ss_bridge *bridge, int line, double x, bool before, bool *overhang) {
    ss_stretch reach;
    const bool found = ss_stretch_of(bridge, line, x, before, false, &reach);
    if (overhang != NULL) {
        *overhang = found && (reach.free0 || reach.free1);
    }
    return found ? reach.x1 - reach.x0 : SS_NAN;
}

/* Between the floor beams of the car on either side of the place. */
static bool between_beams(const ss_bridge *bridge, const ss_effect *effect, ss_stretch *out) {
    const ss_line *const line = &bridge->lines[effect->index];
    const ss_car *const car = &bridge->cars[line->car];
    *out = (ss_stretch){.x0 = -SS_INFINITY, .x1 = SS_INFINITY};
    for (int i = 0; i < car->beam_count; i++) {
        const ss_floor_beam *const beam = &bridge->floor_beams[car->first_beam + i];
        if (!(beam->strip > 0.0)) {
            take_support(out, beam->x, effect->at, effect->before);
        }
    }
    return close_reach(out, line);
}

/* From the first to the last of its car's lines. */
static double beam_span(const ss_bridge *bridge, int beam) {
    const ss_floor_beam *const of = &bridge->floor_beams[beam];
    const ss_car *const car = &bridge->cars[of->car];
    double least = SS_INFINITY;
    double most = -SS_INFINITY;
    for (int i = 0; i < car->line_count; i++) {
        const ss_line *const line = &bridge->lines[car->first_line + i];
        if (line->x0 <= of->x + SAME_STATION && line->x1 >= of->x - SAME_STATION) {
            least = ss_min(least, line->y);
            most = ss_max(most, line->y);
        }
    }
    return most >= least ? most - least : SS_NAN;
}

/* ---- impact ----------------------------------------------------------------------------------------- */

double ss_method_impact(double length) {
    const double most = 0.30;
    return length >= 0.0 ? ss_min(most, 50.0 / (length / FOOT + 125.0)) : most;
}

/* Standard Specifications 3.8.2.2 (from memory): the loaded length is the span for bending, from the section
 * to the far support for shear, and from the section to the tip for bending of an overhang; shear of an
 * overhang has 30 %. */
static void set_impact(const ss_bridge *bridge, const ss_effect *effect, ss_method_factors *out) {
    ss_stretch reach = {0};
    out->allowance = ss_method_impact(SS_NAN);
    if (effect->member == SS_MEMBER_BEAM) {
        out->allowance = ss_method_impact(beam_span(bridge, effect->index));
        out->allowance_basis = "impact by the floor beam's length across";
        return;
    }
    if (effect->member != SS_MEMBER_LINE) {
        out->allowance_basis = "full impact: joint";
        return;
    }
    const bool stringer = bridge->lines[effect->index].role == SS_ROLE_STRINGER;
    const bool in_bay = stringer && between_beams(bridge, effect, &reach);
    if (!in_bay && !ss_stretch_of(bridge, effect->index, effect->at, effect->before, false, &reach)) {
        out->allowance_basis = "full impact: no span to go by";
        return;
    }
    const bool overhang = reach.free0 || reach.free1;
    if (effect->kind == SS_EFFECT_MOMENT) {
        const double to_tip = reach.free0 ? effect->at - reach.x0 : reach.x1 - effect->at;
        out->allowance = ss_method_impact(overhang ? ss_max(0.0, to_tip) : reach.x1 - reach.x0);
        out->allowance_basis = overhang ? "impact by the length from the section to the tip"
                               : in_bay ? "impact by the span between floor beams"
                                        : "impact by the span between bearings";
    } else if (overhang) {
        out->allowance_basis = "full impact: shear of an overhang";
    } else {
        out->allowance = ss_method_impact(ss_max(effect->at - reach.x0, reach.x1 - effect->at));
        out->allowance_basis = "impact by the length from the section to the far support";
    }
}

/* ---- allowance -------------------------------------------------------------------------------------- */

/* MBE 6A.4.4.3 and table C6A.4.4.3-1 (from memory): what a smoother surface takes off is for longitudinal
 * members on spans above 40 ft. */
static void set_by_surface(const ss_bridge *bridge, const ss_effect *effect, ss_method_factors *out) {
    out->allowance = ALLOWANCE_FULL;
    if (effect->member != SS_MEMBER_LINE) {
        out->allowance_basis = "full allowance: floor beam or joint";
        return;
    }
    if (bridge->lines[effect->index].role == SS_ROLE_STRINGER) {
        out->allowance_basis = "full allowance: stringer";
        return;
    }
    const double surface = bridge->rating.approach_allowance;
    if (isnan(surface) || surface >= ALLOWANCE_FULL) {
        out->allowance_basis = "full allowance: rough surface";
        return;
    }
    bool overhang = false;
    const double span = ss_member_span(bridge, effect->index, effect->at, effect->before, &overhang);
    if (overhang || !(span > SPAN_LONG)) {
        out->allowance_basis =
            overhang ? "full allowance: overhang" : "full allowance: span of 40 ft or less";
        return;
    }
    out->allowance = surface;
    out->allowance_basis =
        surface > 0.10 ? "span above 40 ft, surface with minor bumps" : "span above 40 ft, smooth surface";
}

/* Emergency vehicles are not counted on to creep, and design loads stand for traffic in general. */
static bool creeps(const ss_check_row *row, const ss_vehicle *vehicle, const ss_crossing_facts *crossing) {
    return row->dynamic != SS_DYNAMIC_DESIGN && vehicle->kind != SS_VEHICLE_EMERGENCY &&
           crossing->speed <= SPEED_CREEP;
}

void ss_method_dynamic(const ss_bridge *bridge, const ss_check_row *row, const ss_vehicle *vehicle,
                       const ss_crossing_facts *crossing, const ss_effect *effect, ss_method_factors *out) {
    if (!isnan(bridge->rating.dynamic_allowance)) {
        out->allowance = bridge->rating.dynamic_allowance;
        out->allowance_basis = "dynamic allowance given";
    } else if (creeps(row, vehicle, crossing)) {
        out->allowance = 0.0;
        out->allowance_basis = vehicle->kind == SS_VEHICLE_PERMIT
                                   ? "none: permit load at 10 mph or less"
                                   : "none: held to 10 mph or less (common practice, no source)";
    } else if (row->dynamic == SS_DYNAMIC_IMPACT) {
        set_impact(bridge, effect, out);
    } else if (row->dynamic == SS_DYNAMIC_SURFACE) {
        set_by_surface(bridge, effect, out);
    } else {
        out->allowance = ALLOWANCE_FULL;
        out->allowance_basis = row->check.limit == SS_LIMIT_DEFLECTION ? "full allowance: deflection"
                                                                       : "full allowance: design load";
    }
}
