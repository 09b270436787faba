/* posting_rules.c - the rules of posting for one vehicle: its safe load, its kind, its heaviest axle. */
#include <math.h>

#include "base/numeric.h"
#include "sillspan/posting.h"

#define TON (2000.0 * 4.4482216152605)
#define HALF_TONNE (500.0 * SS_GRAVITY)

/* Federal weight limits count axles up to 8 ft apart as one tandem (from memory). */
#define TANDEM (8.0 * 0.3048 + 1e-6)

double ss_posting_load(ss_method method, double rf, double weight_N) {
    if (isnan(rf)) {
        return SS_NAN;
    }
    if (rf >= 1.0) {
        return SS_INFINITY;
    }
    if (method != SS_METHOD_LRFR) {
        return ss_max(0.0, rf) * weight_N;
    }
    return rf < 0.3 ? 0.0 : weight_N / 0.7 * (rf - 0.3);
}

double ss_posting_round(double weight_N, ss_unit_system units) {
    const double step = units == SS_UNITS_SI ? HALF_TONNE : TON;
    /* A load that is whole but for rounding stays. */
    return isfinite(weight_N) ? floor(weight_N / step + 1e-9) * step : weight_N;
}

/* Groups of axles with gaps above 8 ft between. */
static int axle_groups(const ss_vehicle *vehicle) {
    int groups = vehicle->axle_count > 0 ? 1 : 0;
    for (int i = 0; i + 1 < vehicle->axle_count; i++) {
        groups += vehicle->spacing_m[i] > TANDEM;
    }
    return groups;
}

ss_posting_group ss_posting_group_of(const ss_vehicle *vehicle) {
    switch (vehicle->kind) {
    case SS_VEHICLE_EMERGENCY: return SS_POSTING_EMERGENCY;
    case SS_VEHICLE_FARM: return SS_POSTING_FARM;
    case SS_VEHICLE_PERMIT:
    case SS_VEHICLE_FATIGUE:
    case SS_VEHICLE_EUROPEAN: return SS_POSTING_NONE;
    case SS_VEHICLE_DESIGN:
    case SS_VEHICLE_LEGAL:
    case SS_VEHICLE_USER:
    case SS_VEHICLE_BUS: break;
    }
    return axle_groups(vehicle) >= 3 ? SS_POSTING_COMBINATION : SS_POSTING_SINGLE;
}

double ss_posting_axle(const ss_vehicle *vehicle, bool *tandem) {
    double single = 0.0;
    double pair = 0.0;
    for (int i = 0; i < vehicle->axle_count; i++) {
        const bool before = i > 0 && vehicle->spacing_m[i - 1] <= TANDEM;
        const bool after = i + 1 < vehicle->axle_count && vehicle->spacing_m[i] <= TANDEM;
        if (after) {
            pair = ss_max(pair, vehicle->axle_N[i] + vehicle->axle_N[i + 1]);
        }
        if (!before && !after) {
            single = ss_max(single, vehicle->axle_N[i]);
        }
    }
    *tandem = pair > single;
    return ss_max(single, pair);
}

int ss_posting_code(double rf) {
    const double below = 100.0 * (1.0 - rf) + 1e-9; /* percent below the legal load */
    return rf >= 1.0 ? 5 : below < 10.0 ? 4 : below < 20.0 ? 3 : below < 30.0 ? 2 : below < 40.0 ? 1 : 0;
}

/* ---- words ------------------------------------------------------------------------------------------ */

const char *ss_posting_group_name(ss_posting_group group) {
    switch (group) {
    case SS_POSTING_SINGLE: return "single-unit trucks";
    case SS_POSTING_COMBINATION: return "combinations";
    case SS_POSTING_FARM: return "farm vehicles";
    case SS_POSTING_EMERGENCY: return "emergency vehicles";
    case SS_POSTING_NONE: break;
    }
    return "not posted for";
}

const char *ss_posting_state_name(ss_posting_state state) {
    static const char *const names[] = {"unknown", "open", "limited", "closed"};
    return names[state];
}

/* All of it, with a sentence about the deck. */
#define NOT_RATED(deck)                                                                                      \
    {                                                                                                        \
        "Caps, abutments, piers and foundations: their condition and strength are not looked at.",           \
            "Scour and undermining.", "Railing, curbs and approach guardrail.",                              \
            "Braking and centrifugal forces, wind, earthquake, ice and drifting debris.", deck,              \
            "Welds, rivets and bolts, but for joints between cars whose capacity or make is given.",         \
            "Bearings, blocks and pads in bearing or crushing; webs above bearings without a given length.", \
            "Fracture, fatigue of what is not named as a detail, and cracks that inspection has missed.",    \
            "Buckling of plates under bending, shear and twist together."                                    \
    }

const char *const *ss_not_rated(bool deck_checked, int *count) {
    static const char *const without[] = NOT_RATED("The deck itself under a wheel, and its fastening.");
    static const char *const with[] =
        NOT_RATED("The deck's fastening and overhangs; a wheel between its supports is looked at apart.");
    *count = (int)(sizeof without / sizeof without[0]);
    return deck_checked ? with : without;
}
