/* case_beams.c - single beams against closed forms. */
#include <stddef.h>

#include "verification/check.h"
#include "verification/rig.h"

#define BEAM_TABLES "beam formulas, as in AISC Steel Construction Manual table 3-23 (from memory)"
#define EXACT "members are exact in theory; 1e-9 leaves room for rounding only"

/* kip and inch throughout. */
static const double E = 29000.0;
static const double I = 2100.0;

static bool simple_point(check *out) {
    *out = (check){.title = "Simple span, load at the middle and aside",
                   .source = BEAM_TABLES,
                   .inputs = "L 40 ft, E 29000 ksi, I 2100 in4, P 10 kip at 20 ft and at 13 ft",
                   .values = "PL/4 (kip-ft), PL^3/48EI (in); Pab/L (kip-ft), Pa^2b^2/3EIL (in), shear before "
                             "and after the load, "
                             "both reactions (kip)",
                   CHECK_RELATIVE(EXACT, 1e-9, 6)};
    const double L = 480.0, P = 10.0, a = 156.0, b = 324.0;
    const rig_row rows[] = {{"middle", "M middle", P * L / 4.0 / 12.0},
                            {"middle", "w middle", P * L * L * L / (48.0 * E * I)},
                            {"aside", "M aside", P * a * b / L / 12.0},
                            {"aside", "w aside", P * a * a * b * b / (3.0 * E * I * L)},
                            {"aside", "V before", P * b / L},
                            {"aside", "V after", -P * a / L},
                            {"aside", "R near", P * b / L},
                            {"aside", "R far", P * a / L}};
    return rig_check(out, "simple_span", NULL, rows, RIG_COUNT(rows));
}

static bool simple_uniform(check *out) {
    *out = (check){.title = "Simple span, uniform load",
                   .source = BEAM_TABLES,
                   .inputs = "L 40 ft, E 29000 ksi, I 2100 in4, w 0.6 kip/ft",
                   .values = "wL^2/8 (kip-ft), 5wL^4/384EI (in), shear at 13 ft, wL/2 (kip)",
                   CHECK_RELATIVE(EXACT, 1e-9, 6)};
    const double L = 480.0, w = 0.05;
    const rig_row rows[] = {{"uniform", "M middle", w * L * L / 8.0 / 12.0},
                            {"uniform", "w middle", 5.0 * w * L * L * L * L / (384.0 * E * I)},
                            {"uniform", "V after", w * (0.5 * L - 156.0)},
                            {"uniform", "R near", 0.5 * w * L}};
    return rig_check(out, "simple_span", NULL, rows, RIG_COUNT(rows));
}

static bool fixed_ends(check *out) {
    *out = (check){
        .title = "Beam with ends cast in",
        .source = BEAM_TABLES,
        .inputs = "L 40 ft, E 29000 ksi, I 2100 in4, both slopes held; P 10 kip at the middle; w 0.6 kip/ft",
        .values = "PL/8, -PL/8 (kip-ft), PL^3/192EI (in); wL^2/24, -wL^2/12 (kip-ft)",
        CHECK_RELATIVE(EXACT, 1e-9, 6)};
    const rig_setting settings[] = {{"bridge.bearings.near.rotation", "fixed"},
                                    {"bridge.bearings.far.rotation", "fixed"}};
    const double L = 480.0, P = 10.0, w = 0.05;
    const rig_row rows[] = {{"middle", "M middle", P * L / 8.0 / 12.0},
                            {"middle", "M near", -P * L / 8.0 / 12.0},
                            {"middle", "w middle", P * L * L * L / (192.0 * E * I)},
                            {"uniform", "M middle", w * L * L / 24.0 / 12.0},
                            {"uniform", "M near", -w * L * L / 12.0 / 12.0}};
    return rig_check(out, "simple_span", &(rig_options){settings, 2, 1}, rows, RIG_COUNT(rows));
}

static bool propped(check *out) {
    *out = (check){
        .title = "Propped cantilever",
        .source = BEAM_TABLES,
        .inputs = "L 40 ft, near slope held; P 10 kip at the middle; w 0.6 kip/ft",
        .values =
            "-3PL/16, 5PL/32 (kip-ft), 5P/16 at the prop (kip); -wL^2/8 (kip-ft), 3wL/8 at the prop (kip)",
        CHECK_RELATIVE(EXACT, 1e-9, 6)};
    const rig_setting settings[] = {{"bridge.bearings.near.rotation", "fixed"}};
    const double L = 40.0, P = 10.0, w = 0.6;
    const rig_row rows[] = {{"middle", "M near", -3.0 * P * L / 16.0},
                            {"middle", "M middle", 5.0 * P * L / 32.0},
                            {"middle", "R far", 5.0 * P / 16.0},
                            {"uniform", "M near", -w * L * L / 8.0},
                            {"uniform", "R far", 3.0 * w * L / 8.0}};
    return rig_check(out, "simple_span", &(rig_options){settings, 1, 1}, rows, RIG_COUNT(rows));
}

static bool two_spans(check *out) {
    *out = (check){.title = "Two equal spans, load on one, and uniform load",
                   .source = BEAM_TABLES,
                   .inputs = "spans 40 ft, E 29000 ksi, I 2100 in4, P 10 kip at the middle of the first; w "
                             "0.7 kip/ft over both",
                   .values = "13P/32, 11P/16, -3P/32 (kip), 13PL/64, -3PL/32 (kip-ft), 23PL^3/1536EI (in); "
                             "3wL/8, 10wL/8 (kip), "
                             "-wL^2/8 (kip-ft)",
                   CHECK_RELATIVE(EXACT, 1e-9, 6)};
    const double L = 480.0, P = 10.0, w = 0.7 / 12.0;
    const rig_row rows[] = {{"first span", "R near", 13.0 * P / 32.0},
                            {"first span", "R middle", 11.0 * P / 16.0},
                            {"first span", "R far", -3.0 * P / 32.0},
                            {"first span", "M load", 13.0 * P * L / 64.0 / 12.0},
                            {"first span", "M pier", -3.0 * P * L / 32.0 / 12.0},
                            {"first span", "w load", 23.0 * P * L * L * L / (1536.0 * E * I)},
                            {"uniform", "R near", 3.0 * w * L / 8.0},
                            {"uniform", "R middle", 10.0 * w * L / 8.0},
                            {"uniform", "M pier", -w * L * L / 8.0 / 12.0}};
    return rig_check(out, "two_span", NULL, rows, RIG_COUNT(rows));
}

static bool overhangs(check *out) {
    *out =
        (check){.title = "Car that overhangs its supports at both ends",
                .source = "own closed form (superposition of the beam formulas)",
                .inputs = "10 + 66 + 10 ft, E 29000 ksi, I 7116 in4; P 10 kip at the middle; P at the tip; w "
                          "1 kip/ft all along",
                .values = "middle: tip -PL^2a/16EI (in); tip: reactions P(1 + a/L), -Pa/L (kip), tip Pa^2(L "
                          "+ a)/3EI, middle "
                          "-PaL^2/16EI (in), moment -Pa (kip-ft); uniform: -wa^2/2, wL^2/8 - wa^2/2 (kip-ft)",
                CHECK_RELATIVE(EXACT, 1e-9, 6)};
    const double L = 792.0, a = 120.0, P = 10.0, EI = E * 7116.0;
    const rig_row rows[] = {{"middle", "w tip", -P * L * L * a / (16.0 * EI)},
                            {"tip", "R near truck", P * (1.0 + a / L)},
                            {"tip", "R far truck", -P * a / L},
                            {"tip", "w tip", P * a * a * (L + a) / (3.0 * EI)},
                            {"tip", "w middle", -P * a * L * L / (16.0 * EI)},
                            {"tip", "M truck", -P * a / 12.0},
                            {"uniform", "M truck", -50.0},
                            {"uniform", "M middle", 494.5}};
    return rig_check(out, "overhangs", NULL, rows, RIG_COUNT(rows));
}

static bool shear_deformation(check *out) {
    *out = (check){.title = "Span that deforms in shear",
                   .source = "S. P. Timoshenko, Strength of Materials, part I (from memory): PL/4GA and "
                             "wL^2/8GA beside bending",
                   .inputs = "L 20 ft, E 29000 ksi, G 11154 ksi, I 2100 in4, shear area 10 in2; P 50 kip at "
                             "the middle; w 3.7 kip/ft",
                   .values = "deflection at the middle under P (0.263349 in) and under w (in)",
                   CHECK_RELATIVE(EXACT, 1e-9, 6)};
    const double L = 240.0, P = 50.0, w = 3.7 / 12.0, GA = 11154.0 * 10.0, EI = E * I;
    const rig_row rows[] = {
        {"middle", "w middle", P * L * L * L / (48.0 * EI) + P * L / (4.0 * GA)},
        {"uniform", "w middle", 5.0 * w * L * L * L * L / (384.0 * EI) + w * L * L / (8.0 * GA)}};
    return rig_check(out, "shear_span", NULL, rows, RIG_COUNT(rows));
}

static bool shear_cantilever(check *out) {
    *out =
        (check){.title = "Cantilever that deforms in shear",
                .source = "S. P. Timoshenko, Strength of Materials, part I (from memory): PL^3/3EI + PL/GA",
                .inputs = "as above, near slope held, far bearing away, P 7 kip at the tip",
                .values = "deflection of the tip (in)",
                CHECK_RELATIVE(EXACT, 1e-9, 6)};
    const rig_setting settings[] = {{"bridge.bearings.near.rotation", "fixed"},
                                    {"bridge.bearings.far.in_use", "false"}};
    const double L = 240.0, P = 7.0;
    const rig_row rows[] = {{"tip", "w far", P * L * L * L / (3.0 * E * I) + P * L / (11154.0 * 10.0)}};
    return rig_check(out, "shear_span", &(rig_options){settings, 2, 1}, rows, RIG_COUNT(rows));
}

static const check_function checks[] = {simple_point, simple_uniform, fixed_ends,        propped,
                                        two_spans,    overhangs,      shear_deformation, shear_cantilever};

const check_chapter chapter_beams = {"Beams", checks, (int)(sizeof checks / sizeof checks[0])};
