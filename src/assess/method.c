/* method.c - factors of a check for one vehicle, crossing and effect: dead load, resistance, multiple
 * presence. */
#include "sillspan/method.h"

#include <math.h>

#include "assess/method_parts.h"
#include "base/numeric.h"

/* Dead load factors of LRFR strength checks: AASHTO LRFD table 3.4.1-2 and MBE table 6A.4.2.2-1 (from
 * memory).
 */
#define DC_MOST 1.25
#define DC_LEAST 0.90
#define DW_MOST 1.50
#define DW_MEASURED 1.25
#define DW_LEAST 0.65

static double given_or(double given, double usual) {
    return isnan(given) ? usual : given;
}

/* A factor that is set to something else than the usual one replaces the smallest one too: with all factors
 * one there is one dead load. */
static double least_of(double most, double usual, double least) {
    return most == usual ? least : most;
}

int ss_check_dead(const ss_bridge *bridge, const ss_check *check, ss_dead_factors out[2]) {
    const ss_rating_settings *const settings = &bridge->rating;
    const ss_check_row *const row = ss_check_row_of(check);
    if (row == NULL || !isnan(row->dead)) {
        out[0].dc = out[0].dw = row == NULL ? 1.0 : row->dead;
        return 1;
    }
    const double usual_dw = settings->surfacing_measured ? DW_MEASURED : DW_MOST;
    out[0].dc = given_or(settings->dc_factor, DC_MOST);
    out[0].dw = given_or(settings->dw_factor, usual_dw);
    out[1].dc = least_of(out[0].dc, DC_MOST, DC_LEAST);
    out[1].dw = least_of(out[0].dw, usual_dw, DW_LEAST);
    return out[1].dc == out[0].dc && out[1].dw == out[0].dw ? 1 : 2;
}

/* MBE 6A.4.2 (from memory): LRFR strength alone has factors of resistance, condition and system; that of the
 * system is 1 in shear. A joint's capacity is a factored one. */
static void set_resistance(const ss_bridge *bridge, const ss_check *check, const ss_effect *effect,
                           ss_method_factors *out) {
    const ss_rating_settings *const settings = &bridge->rating;
    out->phi = out->condition = out->system = 1.0;
    if (check->method != SS_METHOD_LRFR || check->limit != SS_LIMIT_STRENGTH ||
        effect->member == SS_MEMBER_JOINT) {
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

double ss_method_presence(ss_method method, int lanes) {
    static const double refined[] = {1.20, 1.00, 0.85, 0.65};
    static const double older[] = {1.00, 1.00, 0.90, 0.75};
    const int column = lanes < 1 ? 0 : lanes > 4 ? 3 : lanes - 1;
    return method == SS_METHOD_LRFR ? refined[column] : older[column];
}

/* The factors of special permits are meant for one lane with the 1.20 divided out (note at MBE table
 * 6A.4.5.4.2a-1, from memory); those of annual permits for two lanes, so that one keeps the 1.20. */
static void set_presence(const ss_bridge *bridge, const ss_check *check, const ss_crossing_facts *crossing,
                         ss_method_factors *out) {
    static const char *const refined[] = {"one lane loaded", "two lanes loaded", "three lanes loaded",
                                          "four lanes or more loaded"};
    const int lanes = crossing->lanes < 1 ? 1 : crossing->lanes;
    const bool special =
        check->level == SS_LEVEL_PERMIT && (crossing->escorted || bridge->rating.permits != SS_PERMIT_ANNUAL);
    out->presence = ss_method_presence(check->method, lanes);
    out->presence_basis = refined[lanes > 4 ? 3 : lanes - 1];
    if (check->method == SS_METHOD_LRFR && lanes == 1 && (special || crossing->escorted)) {
        out->presence = 1.0;
        out->presence_basis = "one lane, special permit: without 1.20";
    } else if (check->method == SS_METHOD_LRFR && lanes == 1 && !bridge->rating.single_lane_presence) {
        out->presence = 1.0;
        out->presence_basis = "one lane, known truck: without 1.20, as set";
    }
}

void ss_check_factors(const ss_bridge *bridge, const ss_check *check, const ss_vehicle *vehicle,
                      const ss_crossing_facts *crossing, const ss_effect *effect, ss_method_factors *out) {
    ss_dead_factors dead[2];
    const ss_check_row *const row = ss_check_row_of(check);
    (void)ss_check_dead(bridge, check, dead);
    *out = (ss_method_factors){.dc = dead[0].dc, .dw = dead[0].dw, .live = 1.0, .presence = 1.0};
    set_resistance(bridge, check, effect, out);
    set_presence(bridge, check, crossing, out);
    if (row != NULL) {
        ss_method_live(bridge, row, vehicle, crossing, out);
        ss_method_dynamic(bridge, row, vehicle, crossing, effect, out);
    }
}

ss_crossing_facts ss_crossing_facts_of(const ss_bridge *bridge, const ss_crossing *crossing) {
    const ss_rating_settings *const settings = &bridge->rating;
    const bool permit = bridge->vehicles[crossing->vehicle].kind == SS_VEHICLE_PERMIT;
    return (ss_crossing_facts){
        .lanes = crossing->kind == SS_CROSSING_BESIDE ? crossing->lanes : 1,
        .escorted = permit && settings->permits_escorted && crossing->kind != SS_CROSSING_BESIDE,
        .centred = crossing->kind == SS_CROSSING_CENTRED || crossing->kind == SS_CROSSING_LINE,
        .speed = settings->speed > 0.0 ? settings->speed : SS_INFINITY};
}
