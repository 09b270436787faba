/* rating_rule.c - load and resistance factors of the rating methods, as data and pure functions. */
#include <math.h>

#include "base/numeric.h"
#include "sillspan/rating.h"

/* Everything here is from memory of the AASHTO Manual for Bridge Evaluation (MBE), 3rd ed. with its later
 * interims, of AASHTO LRFD table 3.4.1-2 (dead load factors), and of the FHWA memorandum on emergency
 * vehicles of 3 November 2016. */

#define DC_MOST 1.25
#define DC_LEAST 0.90
#define DW_MOST 1.50
#define DW_MEASURED 1.25
#define DW_LEAST 0.65
#define LIVE_EMERGENCY 1.30
#define ALLOWANCE_ROUGH 0.33
#define RESISTANCE_LEAST 0.85

/* A riding surface better than rough only counts on spans above 40 ft; the rounding of a difference of
 * stations does not lift one above. */
#define SPAN_LONG (40.0 * 0.3048 * (1.0 + 1e-9))

/* Trucks a day at the ends of the sloping part. */
enum { TRAFFIC_LIGHT = 1000, TRAFFIC_HEAVY = 5000 };

double ss_rating_live_factor(int adtt) {
    const double light = 1.30;
    const double heavy = 1.45;
    if (adtt < 0 || adtt >= TRAFFIC_HEAVY) {
        return heavy;
    }
    if (adtt <= TRAFFIC_LIGHT) {
        return light;
    }
    return light + (heavy - light) * (adtt - TRAFFIC_LIGHT) / (TRAFFIC_HEAVY - TRAFFIC_LIGHT);
}

double ss_rating_capacity(const ss_rating_factors *factors, double nominal) {
    return ss_max(RESISTANCE_LEAST, factors->condition * factors->system) * factors->phi * nominal;
}

static double given_or(double given, double usual) {
    return isnan(given) ? usual : given;
}

/* A factor that is set to something else than the usual one replaces the smallest one too: with all factors
 * one there is one dead load. */
static double least_of(double most, double usual, double least) {
    return most == usual ? least : most;
}

static void legal_dead(const ss_bridge *bridge, ss_dead_factors out[2]) {
    const ss_rating_settings *const settings = &bridge->rating;
    const double usual_dw = settings->surfacing_measured ? DW_MEASURED : DW_MOST;
    out[0].dc = given_or(settings->dc_factor, DC_MOST);
    out[0].dw = given_or(settings->dw_factor, usual_dw);
    out[1].dc = least_of(out[0].dc, DC_MOST, DC_LEAST);
    out[1].dw = least_of(out[0].dw, usual_dw, DW_LEAST);
}

static const char *live_basis(ss_vehicle_class kind, int adtt) {
    static const char *const text[3][4] = {
        {"legal load, at most 1000 trucks a day", "legal load, between 1000 and 5000 trucks a day",
         "legal load, 5000 trucks a day or more", "legal load, number of trucks a day unknown"},
        {"design truck rated as a legal load, at most 1000 trucks a day",
         "design truck rated as a legal load, between 1000 and 5000 trucks a day",
         "design truck rated as a legal load, 5000 trucks a day or more",
         "design truck rated as a legal load, number of trucks a day unknown"},
        {"own truck rated as a legal load, at most 1000 trucks a day",
         "own truck rated as a legal load, between 1000 and 5000 trucks a day",
         "own truck rated as a legal load, 5000 trucks a day or more",
         "own truck rated as a legal load, number of trucks a day unknown"}};
    const int row = kind == SS_VEHICLE_DESIGN ? 1 : kind == SS_VEHICLE_USER ? 2 : 0;
    if (adtt < 0) {
        return text[row][3];
    }
    return text[row][adtt <= TRAFFIC_LIGHT ? 0 : adtt < TRAFFIC_HEAVY ? 1 : 2];
}

static void set_live(const ss_rating_settings *settings, const ss_vehicle *vehicle, ss_rating_factors *out) {
    if (!isnan(settings->live_factor)) {
        out->live = settings->live_factor;
        out->live_basis = "live load factor given";
    } else if (vehicle->kind == SS_VEHICLE_EMERGENCY) {
        out->live = LIVE_EMERGENCY;
        out->live_basis = "emergency vehicle (FHWA memorandum of 3 November 2016)";
    } else {
        out->live = ss_rating_live_factor(settings->adtt);
        out->live_basis = live_basis(vehicle->kind, settings->adtt);
    }
}

/* Largest distance between neighbouring bearing stations of a car; 0 with fewer than two. */
static double longest_span(const ss_bridge *bridge, int car) {
    double longest = 0.0;
    for (int i = 0; i < bridge->bearing_count; i++) {
        if (bridge->bearings[i].car != car) {
            continue;
        }
        const double x = bridge->bearings[i].x;
        double next = (double)INFINITY;
        for (int j = 0; j < bridge->bearing_count; j++) {
            if (bridge->bearings[j].car == car && bridge->bearings[j].x > x) {
                next = ss_min(next, bridge->bearings[j].x);
            }
        }
        if (isfinite(next)) {
            longest = ss_max(longest, next - x);
        }
    }
    return longest;
}

static void set_allowance(const ss_bridge *bridge, const ss_effect *effect, ss_rating_factors *out) {
    const ss_rating_settings *const settings = &bridge->rating;
    out->allowance = ALLOWANCE_ROUGH;
    if (!isnan(settings->dynamic_allowance)) {
        out->allowance = settings->dynamic_allowance;
        out->allowance_basis = "dynamic allowance given";
        return;
    }
    if (effect->member != SS_MEMBER_LINE) {
        out->allowance_basis = "full allowance: floor beam or joint";
        return;
    }
    const ss_line *const line = &bridge->lines[effect->index];
    if (line->role == SS_ROLE_STRINGER) {
        out->allowance_basis = "full allowance: stringer";
        return;
    }
    if (!(longest_span(bridge, line->car) > SPAN_LONG)) {
        out->allowance_basis = "full allowance: span of 40 ft or less";
        return;
    }
    const double surface = given_or(settings->approach_allowance, ALLOWANCE_ROUGH);
    out->allowance = surface;
    out->allowance_basis = surface >= ALLOWANCE_ROUGH ? "full allowance: rough surface"
                           : surface > 0.10           ? "span above 40 ft, surface with minor bumps"
                                                      : "span above 40 ft, smooth surface";
}

/* MBE 6A.4.2.4: the system factor of shear is 1. A joint's capacity is a factored one. */
static void set_resistance(const ss_rating_settings *settings, const ss_effect *effect,
                           ss_rating_factors *out) {
    out->phi = 1.0;
    out->condition = 1.0;
    out->system = 1.0;
    if (effect->member == SS_MEMBER_JOINT) {
        return;
    }
    out->condition = settings->condition;
    if (effect->kind == SS_EFFECT_MOMENT) {
        out->phi = given_or(settings->phi_flexure, 1.0);
        out->system = settings->system;
    } else {
        out->phi = given_or(settings->phi_shear, 1.0);
    }
}

static void legal_factors(const ss_bridge *bridge, const ss_vehicle *vehicle, const ss_effect *effect,
                          ss_rating_factors *out) {
    ss_dead_factors dead[2];
    legal_dead(bridge, dead);
    *out = (ss_rating_factors){.dc = dead[0].dc, .dw = dead[0].dw};
    set_live(&bridge->rating, vehicle, out);
    set_allowance(bridge, effect, out);
    set_resistance(&bridge->rating, effect, out);
}

static const ss_rating_rule rules[] = {{"LRFR", "legal",
                                        "AASHTO Manual for Bridge Evaluation, 3rd ed. 2018 (from memory)",
                                        legal_dead, legal_factors}};

const ss_rating_rule *ss_rating_rules(int *count) {
    *count = (int)(sizeof rules / sizeof rules[0]);
    return rules;
}
