/* method.c - the checks of the rating methods with their figures, and which of them a bridge and a vehicle
 * are put to. */
#include "sillspan/method.h"

#include <math.h>
#include <string.h>

#include "assess/method_parts.h"
#include "base/numeric.h"

#define NONE SS_NAN

#define MBE_2018 "AASHTO Manual for Bridge Evaluation, 3rd ed. 2018"
#define MBE_2011 "AASHTO Manual for Bridge Evaluation, 2nd ed. 2011"
#define PART_6B MBE_2018 ", part 6B, and AASHTO Standard Specifications for Highway Bridges, 17th ed. 2002"

/* Share of the yield stress that a non-composite section may reach under service load: AASHTO LRFD 6.10.4.2.2
 * and Standard Specifications 10.57.1 (from memory); 0.95 would be for composite ones. */
#define SERVICE 0.80

/* Working stresses of steel over its yield stress, MBE tables 6B.5.2.1-1 and -2 (from memory). Shear is asked
 * for as a share of the resistance 0.58 Fy A_w. */
#define BENDING_INVENTORY 0.55
#define BENDING_OPERATING 0.75
#define SHEAR_INVENTORY (0.33 / 0.58)
#define SHEAR_OPERATING (0.45 / 0.58)

#define CHECK(of, at, looks, words)                                                                          \
    { .method = SS_METHOD_##of, .level = SS_LEVEL_##at, .limit = SS_LIMIT_##looks, .name = (words) }

/* In the order of printing. Sources, all from memory: LRFR design, legal and permit factors MBE table
 * 6A.4.2.2-1; emergency vehicles the FHWA memorandum of 3 November 2016, which gives 1.30 for all traffic
 * (factors of later editions by traffic were not at hand); Service II of emergency vehicles as of legal
 * loads. LFR: MBE 6B.4.3, A1 = 1.3, A2 = 2.17 and 1.3; overload Standard Specifications 10.57, 5/3 and 1. */
static const ss_check_row rows[] = {
    {CHECK(LRFR, INVENTORY, STRENGTH, "LRFR design inventory, Strength I"), "Strength I", SS_LIVE_FIXED, 1.75,
     "design load, inventory", SS_DYNAMIC_DESIGN, NONE, 1.0, 1.0, 1.0},
    {CHECK(LRFR, INVENTORY, SERVICE, "LRFR design inventory, Service II"), "Service II", SS_LIVE_FIXED, 1.30,
     "design load, inventory, Service II", SS_DYNAMIC_DESIGN, 1.0, SERVICE, NONE, NONE},
    {CHECK(LRFR, OPERATING, STRENGTH, "LRFR design operating, Strength I"), "Strength I", SS_LIVE_FIXED, 1.35,
     "design load, operating", SS_DYNAMIC_DESIGN, NONE, 1.0, 1.0, 1.0},
    {CHECK(LRFR, OPERATING, SERVICE, "LRFR design operating, Service II"), "Service II", SS_LIVE_FIXED, 1.00,
     "design load, operating, Service II", SS_DYNAMIC_DESIGN, 1.0, SERVICE, NONE, NONE},
    {CHECK(LRFR, LEGAL, STRENGTH, "LRFR legal, Strength I"), "Strength I", SS_LIVE_LEGAL, NONE, NULL,
     SS_DYNAMIC_SURFACE, NONE, 1.0, 1.0, 1.0},
    {CHECK(LRFR, LEGAL, SERVICE, "LRFR legal, Service II"), "Service II", SS_LIVE_FIXED, 1.30,
     "legal load, Service II", SS_DYNAMIC_SURFACE, 1.0, SERVICE, NONE, NONE},
    {CHECK(LRFR, EMERGENCY, STRENGTH, "LRFR emergency, Strength I"), "Strength I", SS_LIVE_SET, 1.30,
     "emergency vehicle (FHWA memorandum of 3 November 2016)", SS_DYNAMIC_SURFACE, NONE, 1.0, 1.0, 1.0},
    {CHECK(LRFR, EMERGENCY, SERVICE, "LRFR emergency, Service II"), "Service II", SS_LIVE_FIXED, 1.30,
     "emergency vehicle, Service II, as a legal load", SS_DYNAMIC_SURFACE, 1.0, SERVICE, NONE, NONE},
    {CHECK(LRFR, PERMIT, STRENGTH, "LRFR permit, Strength II"), "Strength II", SS_LIVE_PERMIT, NONE, NULL,
     SS_DYNAMIC_SURFACE, NONE, 1.0, 1.0, 1.0},
    {CHECK(LRFR, PERMIT, SERVICE, "LRFR permit, Service II"), "Service II", SS_LIVE_FIXED, 1.00,
     "permit load, Service II", SS_DYNAMIC_SURFACE, 1.0, SERVICE, NONE, NONE},
    {CHECK(LFR, INVENTORY, STRENGTH, "LFR inventory, first yield"), "first yield", SS_LIVE_FIXED, 2.17,
     "inventory, A2", SS_DYNAMIC_IMPACT, 1.3, 1.0, 1.0, 1.0},
    {CHECK(LFR, INVENTORY, SERVICE, "LFR inventory, overload"), "overload", SS_LIVE_FIXED, 5.0 / 3.0,
     "inventory, overload", SS_DYNAMIC_IMPACT, 1.0, SERVICE, NONE, NONE},
    {CHECK(LFR, OPERATING, STRENGTH, "LFR operating, first yield"), "first yield", SS_LIVE_FIXED, 1.30,
     "operating, A2", SS_DYNAMIC_IMPACT, 1.3, 1.0, 1.0, 1.0},
    {CHECK(LFR, OPERATING, SERVICE, "LFR operating, overload"), "overload", SS_LIVE_FIXED, 1.00,
     "operating, overload", SS_DYNAMIC_IMPACT, 1.0, SERVICE, NONE, NONE},
    {CHECK(ASR, INVENTORY, STRENGTH, "ASR inventory, allowable stress"), "allowable stress", SS_LIVE_FIXED,
     1.00, "allowable stress", SS_DYNAMIC_IMPACT, 1.0, BENDING_INVENTORY, SHEAR_INVENTORY, NONE},
    {CHECK(ASR, OPERATING, STRENGTH, "ASR operating, allowable stress"), "allowable stress", SS_LIVE_FIXED,
     1.00, "allowable stress", SS_DYNAMIC_IMPACT, 1.0, BENDING_OPERATING, SHEAR_OPERATING, NONE},
    {{.method = SS_METHOD_LRFR,
      .level = SS_LEVEL_LEGAL,
      .limit = SS_LIMIT_DEFLECTION,
      .name = "live-load deflection",
      .over_dead = true},
     "deflection",
     SS_LIVE_FIXED,
     1.00,
     "service load",
     SS_DYNAMIC_DESIGN,
     1.0,
     NONE,
     NONE,
     NONE},
};

enum { ROW_COUNT = sizeof rows / sizeof rows[0] };

_Static_assert((int)ROW_COUNT <= (int)SS_CHECKS_MAX, "room for all checks");

const ss_check_row *ss_check_row_of(const ss_check *check) {
    for (int i = 0; i < ROW_COUNT; i++) {
        const ss_check *const known = &rows[i].check;
        if (known->method == check->method && known->level == check->level && known->limit == check->limit) {
            return &rows[i];
        }
    }
    return NULL;
}

/* ---- words ------------------------------------------------------------------------------------------ */

const char *ss_method_name(ss_method method) {
    static const char *const names[] = {"LRFR", "LFR", "ASR"};
    return names[method];
}

const char *ss_level_name(ss_level level) {
    static const char *const names[] = {"inventory", "operating", "legal", "emergency", "permit"};
    return names[level];
}

const char *ss_limit_name(const ss_check *check) {
    const ss_check_row *const row = ss_check_row_of(check);
    return row != NULL ? row->limit_name : "";
}

static const char *edition_of(const ss_check *check, ss_edition edition) {
    const bool later = edition == SS_EDITION_MBE_2018;
    if (check->limit == SS_LIMIT_DEFLECTION) {
        return "AASHTO LRFD 2.5.2.6.2 (from memory); a limit of comfort, not of strength";
    }
    if (check->method == SS_METHOD_LFR) {
        return PART_6B " (from memory)";
    }
    if (check->method == SS_METHOD_ASR) {
        return PART_6B " (from memory); in current federal practice for posting only";
    }
    if (check->level == SS_LEVEL_EMERGENCY) {
        return later ? MBE_2018 ", with the FHWA memorandum of 3 November 2016 (from memory)"
                     : MBE_2011 ", with the FHWA memorandum of 3 November 2016 (from memory)";
    }
    return later ? MBE_2018 " (from memory)" : MBE_2011 " (from memory)";
}

/* ---- vehicles --------------------------------------------------------------------------------------- */

bool ss_vehicle_is_design_load(const ss_vehicle *vehicle) {
    static const char name[] = "HL-93";
    return vehicle->kind == SS_VEHICLE_DESIGN && vehicle->name != NULL &&
           strncmp(vehicle->name, name, sizeof name - 1) == 0;
}

bool ss_vehicle_is_specialised(const ss_vehicle *vehicle) {
    static const char *const names[] = {"SU4", "SU5", "SU6", "SU7", "NRL"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        if (vehicle->kind == SS_VEHICLE_LEGAL && vehicle->name != NULL &&
            strcmp(vehicle->name, names[i]) == 0) {
            return true;
        }
    }
    return false;
}

static bool applies_lrfr(const ss_check *check, const ss_vehicle *vehicle) {
    switch (check->level) {
    case SS_LEVEL_INVENTORY:
    case SS_LEVEL_OPERATING: return ss_vehicle_is_design_load(vehicle);
    case SS_LEVEL_EMERGENCY: return vehicle->kind == SS_VEHICLE_EMERGENCY;
    case SS_LEVEL_PERMIT: return vehicle->kind == SS_VEHICLE_PERMIT;
    case SS_LEVEL_LEGAL: break;
    }
    switch (vehicle->kind) {
    case SS_VEHICLE_DESIGN: return !ss_vehicle_is_design_load(vehicle);
    case SS_VEHICLE_LEGAL:
    case SS_VEHICLE_USER:
    case SS_VEHICLE_BUS:
    case SS_VEHICLE_FARM: return true;
    default: return false;
    }
}

bool ss_check_applies(const ss_bridge *bridge, const ss_check *check, const ss_vehicle *vehicle) {
    (void)bridge;
    if (vehicle->kind == SS_VEHICLE_FATIGUE || vehicle->kind == SS_VEHICLE_EUROPEAN) {
        return false;
    }
    if (check->limit == SS_LIMIT_DEFLECTION) {
        return vehicle->kind != SS_VEHICLE_PERMIT;
    }
    if (check->method == SS_METHOD_LRFR) {
        return applies_lrfr(check, vehicle);
    }
    /* The design load of LRFR has no place in the older methods; what crosses under rules of its own is rated
     * at operating only (MBE 6B.8 for permits; FHWA's answers of 2018 for emergency vehicles; from memory).
     */
    if (vehicle->kind == SS_VEHICLE_EMERGENCY || vehicle->kind == SS_VEHICLE_PERMIT) {
        return check->level == SS_LEVEL_OPERATING;
    }
    return !ss_vehicle_is_design_load(vehicle);
}

/* ---- which checks ----------------------------------------------------------------------------------- */

bool ss_method_asked(const ss_bridge *bridge, ss_method method) {
    const unsigned methods = bridge->rating.methods;
    return methods == 0 ? method == SS_METHOD_LRFR : (methods >> method & 1U) != 0;
}

static bool is_asked(const ss_bridge *bridge, const ss_check *check) {
    const ss_rating_settings *const settings = &bridge->rating;
    if (check->limit == SS_LIMIT_DEFLECTION) {
        return settings->deflection_limit > 0.0;
    }
    return ss_method_asked(bridge, check->method) &&
           (check->limit != SS_LIMIT_SERVICE || settings->service) &&
           (settings->levels == 0 || (settings->levels >> check->level & 1U) != 0);
}

static bool is_needed(const ss_bridge *bridge, const ss_check *check) {
    for (int i = 0; i < bridge->rated_vehicle_count; i++) {
        if (ss_check_applies(bridge, check, &bridge->vehicles[i])) {
            return true;
        }
    }
    for (int i = 0; i < bridge->run_count; i++) {
        if (ss_check_applies(bridge, check, &bridge->vehicles[bridge->runs[i].vehicle])) {
            return true;
        }
    }
    return false;
}

int ss_checks(const ss_bridge *bridge, ss_check out[SS_CHECKS_MAX]) {
    int count = 0;
    for (int i = 0; i < ROW_COUNT; i++) {
        if (is_asked(bridge, &rows[i].check) && is_needed(bridge, &rows[i].check)) {
            out[count] = rows[i].check;
            out[count].edition = edition_of(&rows[i].check, bridge->rating.edition);
            count++;
        }
    }
    return count;
}

bool ss_sequence_counts(const ss_bridge *bridge, const ss_check *check, const ss_vehicle *vehicle,
                        double inventory, double operating) {
    const bool legal = check->method == SS_METHOD_LRFR && check->level == SS_LEVEL_LEGAL &&
                       check->limit != SS_LIMIT_DEFLECTION;
    /* A legal load that the user describes may be heavier than the design load allows for. */
    const bool within = vehicle->kind == SS_VEHICLE_DESIGN || vehicle->kind == SS_VEHICLE_BUS ||
                        (vehicle->kind == SS_VEHICLE_LEGAL && ss_vehicle_find(vehicle->name) != NULL);
    if (!bridge->rating.manual_sequence || !legal || !within) {
        return true;
    }
    const bool routine = vehicle->kind != SS_VEHICLE_DESIGN && !ss_vehicle_is_specialised(vehicle);
    return !(inventory >= 1.0) && !(routine && operating >= 1.0);
}
