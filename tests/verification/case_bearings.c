/* case_bearings.c - springs, settlement, twist and supports that only push, on single beams. */
#include <math.h>
#include <stddef.h>

#include "verification/check.h"
#include "verification/rig.h"

#define EXACT "members and springs are exact in theory; 1e-9 leaves room for rounding only"

/* kip and inch throughout. */
static const double E = 29000.0;
static const double I = 2100.0;

static bool springs(check *out) {
    *out = (check){
        .title = "Simple span on springs",
        .source = "own closed form: PL^3/48EI + P/2k; PL^3a^2b^2/3EIL^4 + (Pb/L)(b/L)/k + (Pa/L)(a/L)/k",
        .inputs = "L 40 ft, E 29000 ksi, I 2100 in4, k 10 kip/in at each end; P 10 kip at 20 ft and at 13 ft",
        .values = "deflection under the load (in)",
        CHECK_RELATIVE(EXACT, 1e-9, 6)};
    const rig_setting settings[] = {{"bridge.bearings.near.spring", "10 kip/in"},
                                    {"bridge.bearings.far.spring", "10 kip/in"}};
    const double L = 480.0, P = 10.0, k = 10.0, a = 156.0, b = 324.0;
    const rig_row rows[] = {
        {"middle", "w middle", P * L * L * L / (48.0 * E * I) + P / (2.0 * k)},
        {"aside", "w aside", P * a * a * b * b / (3.0 * E * I * L) + P * (a * a + b * b) / (L * L * k)}};
    return rig_check(out, "simple_span", &(rig_options){settings, 2, 1}, rows, RIG_COUNT(rows));
}

static bool settlement(check *out) {
    *out = (check){
        .title = "Middle support of two spans sinks",
        .source = "own closed form: 6EI d/L^3 less at the pier, half of it more at each end; M = 3EI d/L^2",
        .inputs = "spans 40 ft, E 29000 ksi, I 2100 in4, settlement d 0.37 in, no load",
        .values = "reactions at the ends and the pier (kip), moment at the pier (kip-ft)",
        CHECK_RELATIVE(EXACT, 1e-9, 6)};
    const rig_setting settings[] = {{"bridge.bearings.middle.settlement", "0.37 in"}};
    const double L = 480.0, d = 0.37, unit = 3.0 * E * I * d / (L * L * L);
    const rig_row rows[] = {{"nothing", "R near", unit},
                            {"nothing", "R middle", -2.0 * unit},
                            {"nothing", "R far", unit},
                            {"nothing", "M pier", unit * L / 12.0}};
    return rig_check(out, "two_span", &(rig_options){settings, 1, 1}, rows, RIG_COUNT(rows));
}

static bool slope_spring(check *out) {
    *out = (check){
        .title = "Ends held by rotational springs",
        .source = "own closed form: end moment -(PL/8)/(1 + 2EI/(rL)), r the rotational stiffness",
        .inputs =
            "L 40 ft, E 29000 ksi, I 2100 in4, r 350000 kip-in/rad at both ends, P 10 kip at the middle",
        .values = "moment at the end and at the middle (kip-ft)",
        CHECK_RELATIVE(EXACT, 1e-9, 6)};
    const rig_setting settings[] = {{"bridge.bearings.near.rotation", "350000 kip-in/rad"},
                                    {"bridge.bearings.far.rotation", "350000 kip-in/rad"}};
    const double L = 480.0, P = 10.0;
    const double held = P * L / 8.0 / (1.0 + 2.0 * E * I / (350000.0 * L));
    const rig_row rows[] = {{"middle", "M near", -held / 12.0},
                            {"middle", "M middle", (P * L / 4.0 - held) / 12.0}};
    return rig_check(out, "simple_span", &(rig_options){settings, 2, 1}, rows, RIG_COUNT(rows));
}

/* Twist under the load: the difference of deflection over a foot to either side of it. */
static bool twist_under_load(const rig *r, double x, double y, double *twist) {
    ss_load load = {0};
    ss_state state = {0};
    ss_error error = {SS_OK, ""};
    const ss_bridge *const bridge = &r->bridge;
    const ss_dead_factors none = {0.0, 0.0};
    bool done = false;
    ss_row row[2];
    if (ss_load_create(&r->mesh, &load, &error) == SS_OK &&
        ss_cases_add(bridge, &bridge->placed[bridge->cases[0].first_load], &load, &error) == SS_OK &&
        ss_permanent_state(&r->permanent, false, none, &load, 1.0, &state, &error) == SS_OK &&
        ss_mesh_wheel(&r->mesh, x, y - FOOT, &row[0]) == SS_OK &&
        ss_mesh_wheel(&r->mesh, x, y + FOOT, &row[1]) == SS_OK) {
        double w[2] = {0.0, 0.0};
        for (int side = 0; side < 2; side++) {
            for (int i = 0; i < row[side].count; i++) {
                w[side] += row[side].value[i] * state.u[row[side].dof[i]];
            }
        }
        *twist = (w[1] - w[0]) / (2.0 * FOOT);
        done = true;
    } else {
        rig_complain("twist", &error);
    }
    ss_state_destroy(&state);
    ss_load_destroy(&load);
    return done;
}

static bool shaft(check *out) {
    *out = (check){
        .title = "Shaft held at both ends, torque aside of the middle",
        .source = "own closed form: torques Tb/L and -Ta/L, twist Tab/GJL",
        .inputs = "L 40 ft, G 11154 ksi, J 317 in4, P 10 kip at 18 ft and 3 ft beside the line: T 30 kip-ft",
        .values = "torsion before and after the load (kip-ft), twist under it (mrad)",
        CHECK_RELATIVE(EXACT, 1e-9, 6)};
    rig r;
    double twist = (double)NAN;
    if (!rig_open(&r, "shaft", NULL)) {
        return false;
    }
    const bool done = twist_under_load(&r, 18.0 * FOOT, 4.5 * FOOT, &twist);
    const double L = 480.0, a = 216.0, b = 264.0, T = 360.0;
    check_add(out, T * b / L / 12.0, rig_probe_us(&r, "eccentric", "T before"));
    check_add(out, -T * a / L / 12.0, rig_probe_us(&r, "eccentric", "T after"));
    check_add(out, 1000.0 * T * a * b / (11154.0 * 317.0 * L), 1000.0 * twist);
    rig_close(&r);
    return done;
}

static bool four_two_way(check *out) {
    *out =
        (check){.title = "Car on four supports that also hold down",
                .source = "own closed form: three-moment equations 218 M = -1633.5 P over the inner supports",
                .inputs = "10 + 66 + 10 ft, I 7116 in4, P 1 kip at the middle, bearings two-way",
                .values = "end and inner reaction (kip), moment at the middle (kip-ft)",
                CHECK_RELATIVE(EXACT, 1e-9, 4)};
    const rig_setting settings[] = {{"bridge.bearings.trucks.action", "two-way"},
                                    {"bridge.bearings.ends.action", "two-way"}};
    const double inner = -1633.5 / 218.0;
    const rig_row rows[] = {{"middle", "R end", inner / 10.0},
                            {"middle", "R truck", 0.5 - inner / 10.0},
                            {"middle", "M middle", 16.5 + inner}};
    return rig_check(out, "four_supports", &(rig_options){settings, 2, 1}, rows, RIG_COUNT(rows));
}

static bool four_contact(check *out) {
    *out = (check){
        .title = "The same car on bearings that only push",
        .source = "own closed form: with the ends lifted it is a simple span of 66 ft, PL/4, PL^3/48EI, ends "
                  "rise PL^2a/16EI",
        .inputs = "10 + 66 + 10 ft, E 29000 ksi, I 7116 in4, P 1 kip at the middle, bearings in contact only",
        .values = "end and inner reaction (kip), moment (kip-ft) and deflection (in) at the middle, "
                  "deflection of the end (in)",
        CHECK_RELATIVE(EXACT, 1e-9, 4)};
    const double L = 792.0, a = 120.0, EI = E * 7116.0;
    const rig_row rows[] = {{"middle", "R end", 0.0},
                            {"middle", "R truck", 0.5},
                            {"middle", "M middle", 16.5},
                            {"middle", "w middle", L * L * L / (48.0 * EI)},
                            {"middle", "w end", -L * L * a / (16.0 * EI)}};
    return rig_check(out, "four_supports", NULL, rows, RIG_COUNT(rows));
}

static bool four_loaded(check *out) {
    *out = (check){.title = "Half a truck and the car's weight on bearings that only push",
                   .source = "own closed form: statics, both ends lifted",
                   .inputs =
                       "10 + 66 + 10 ft, w 0.6 kip/ft over 86 ft, axle loads 4, 16, 16 kip at 29, 43, 57 ft",
                   .values = "both end reactions, first inner reaction (kip), moment at the middle (kip-ft)",
                   CHECK_RELATIVE(EXACT, 1e-9, 6)};
    const double near = 0.3 * 86.0 + (4.0 * 47.0 + 16.0 * 33.0 + 16.0 * 19.0) / 66.0;
    const rig_row rows[] = {
        {"truck and weight", "R end", 0.0},
        {"truck and weight", "R far end", 0.0},
        {"truck and weight", "R truck", near},
        {"truck and weight", "M middle", near * 33.0 - 4.0 * 14.0 - 0.6 * 43.0 * 43.0 / 2.0}};
    return rig_check(out, "four_supports", NULL, rows, RIG_COUNT(rows));
}

static const check_function checks[] = {springs,      settlement,   slope_spring, shaft,
                                        four_two_way, four_contact, four_loaded};

const check_chapter chapter_bearings = {"Bearings and twist", checks,
                                        (int)(sizeof checks / sizeof checks[0])};
