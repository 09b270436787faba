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
                   .why = EXACT,
                   .tolerance = 1e-9,
                   .relative = true,
                   .digits = 6};
    rig r;
    if (!rig_open(&r, "simple_span", NULL)) {
        return false;
    }
    const double L = 480.0, P = 10.0, a = 156.0, b = 324.0;
    check_add(out, P * L / 4.0 / 12.0, rig_probe_us(&r, "middle", "M middle"));
    check_add(out, P * L * L * L / (48.0 * E * I), rig_probe_us(&r, "middle", "w middle"));
    check_add(out, P * a * b / L / 12.0, rig_probe_us(&r, "aside", "M aside"));
    check_add(out, P * a * a * b * b / (3.0 * E * I * L), rig_probe_us(&r, "aside", "w aside"));
    check_add(out, P * b / L, rig_probe_us(&r, "aside", "V before"));
    check_add(out, -P * a / L, rig_probe_us(&r, "aside", "V after"));
    check_add(out, P * b / L, rig_probe_us(&r, "aside", "R near"));
    check_add(out, P * a / L, rig_probe_us(&r, "aside", "R far"));
    rig_close(&r);
    return true;
}

static bool simple_uniform(check *out) {
    *out = (check){.title = "Simple span, uniform load",
                   .source = BEAM_TABLES,
                   .inputs = "L 40 ft, E 29000 ksi, I 2100 in4, w 0.6 kip/ft",
                   .values = "wL^2/8 (kip-ft), 5wL^4/384EI (in), shear at 13 ft, wL/2 (kip)",
                   .why = EXACT,
                   .tolerance = 1e-9,
                   .relative = true,
                   .digits = 6};
    rig r;
    if (!rig_open(&r, "simple_span", NULL)) {
        return false;
    }
    const double L = 480.0, w = 0.05;
    check_add(out, w * L * L / 8.0 / 12.0, rig_probe_us(&r, "uniform", "M middle"));
    check_add(out, 5.0 * w * L * L * L * L / (384.0 * E * I), rig_probe_us(&r, "uniform", "w middle"));
    check_add(out, w * (0.5 * L - 156.0), rig_probe_us(&r, "uniform", "V after"));
    check_add(out, 0.5 * w * L, rig_probe_us(&r, "uniform", "R near"));
    rig_close(&r);
    return true;
}

static bool fixed_ends(check *out) {
    *out = (check){
        .title = "Beam with ends cast in",
        .source = BEAM_TABLES,
        .inputs = "L 40 ft, E 29000 ksi, I 2100 in4, both slopes held; P 10 kip at the middle; w 0.6 kip/ft",
        .values = "PL/8, -PL/8 (kip-ft), PL^3/192EI (in); wL^2/24, -wL^2/12 (kip-ft)",
        .why = EXACT,
        .tolerance = 1e-9,
        .relative = true,
        .digits = 6};
    const rig_setting settings[] = {{"bridge.bearings.near.rotation", "fixed"},
                                    {"bridge.bearings.far.rotation", "fixed"}};
    rig r;
    if (!rig_open(&r, "simple_span", &(rig_options){settings, 2, 1})) {
        return false;
    }
    const double L = 480.0, P = 10.0, w = 0.05;
    check_add(out, P * L / 8.0 / 12.0, rig_probe_us(&r, "middle", "M middle"));
    check_add(out, -P * L / 8.0 / 12.0, rig_probe_us(&r, "middle", "M near"));
    check_add(out, P * L * L * L / (192.0 * E * I), rig_probe_us(&r, "middle", "w middle"));
    check_add(out, w * L * L / 24.0 / 12.0, rig_probe_us(&r, "uniform", "M middle"));
    check_add(out, -w * L * L / 12.0 / 12.0, rig_probe_us(&r, "uniform", "M near"));
    rig_close(&r);
    return true;
}

static bool propped(check *out) {
    *out = (check){
        .title = "Propped cantilever",
        .source = BEAM_TABLES,
        .inputs = "L 40 ft, near slope held; P 10 kip at the middle; w 0.6 kip/ft",
        .values =
            "-3PL/16, 5PL/32 (kip-ft), 5P/16 at the prop (kip); -wL^2/8 (kip-ft), 3wL/8 at the prop (kip)",
        .why = EXACT,
        .tolerance = 1e-9,
        .relative = true,
        .digits = 6};
    const rig_setting settings[] = {{"bridge.bearings.near.rotation", "fixed"}};
    rig r;
    if (!rig_open(&r, "simple_span", &(rig_options){settings, 1, 1})) {
        return false;
    }
    const double L = 40.0, P = 10.0, w = 0.6;
    check_add(out, -3.0 * P * L / 16.0, rig_probe_us(&r, "middle", "M near"));
    check_add(out, 5.0 * P * L / 32.0, rig_probe_us(&r, "middle", "M middle"));
    check_add(out, 5.0 * P / 16.0, rig_probe_us(&r, "middle", "R far"));
    check_add(out, -w * L * L / 8.0, rig_probe_us(&r, "uniform", "M near"));
    check_add(out, 3.0 * w * L / 8.0, rig_probe_us(&r, "uniform", "R far"));
    rig_close(&r);
    return true;
}

static bool two_spans(check *out) {
    *out = (check){.title = "Two equal spans, load on one, and uniform load",
                   .source = BEAM_TABLES,
                   .inputs = "spans 40 ft, E 29000 ksi, I 2100 in4, P 10 kip at the middle of the first; w "
                             "0.7 kip/ft over both",
                   .values = "13P/32, 11P/16, -3P/32 (kip), 13PL/64, -3PL/32 (kip-ft), 23PL^3/1536EI (in); "
                             "3wL/8, 10wL/8 (kip), "
                             "-wL^2/8 (kip-ft)",
                   .why = EXACT,
                   .tolerance = 1e-9,
                   .relative = true,
                   .digits = 6};
    rig r;
    if (!rig_open(&r, "two_span", NULL)) {
        return false;
    }
    const double L = 480.0, P = 10.0, w = 0.7 / 12.0;
    check_add(out, 13.0 * P / 32.0, rig_probe_us(&r, "first span", "R near"));
    check_add(out, 11.0 * P / 16.0, rig_probe_us(&r, "first span", "R middle"));
    check_add(out, -3.0 * P / 32.0, rig_probe_us(&r, "first span", "R far"));
    check_add(out, 13.0 * P * L / 64.0 / 12.0, rig_probe_us(&r, "first span", "M load"));
    check_add(out, -3.0 * P * L / 32.0 / 12.0, rig_probe_us(&r, "first span", "M pier"));
    check_add(out, 23.0 * P * L * L * L / (1536.0 * E * I), rig_probe_us(&r, "first span", "w load"));
    check_add(out, 3.0 * w * L / 8.0, rig_probe_us(&r, "uniform", "R near"));
    check_add(out, 10.0 * w * L / 8.0, rig_probe_us(&r, "uniform", "R middle"));
    check_add(out, -w * L * L / 8.0 / 12.0, rig_probe_us(&r, "uniform", "M pier"));
    rig_close(&r);
    return true;
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
                .why = EXACT,
                .tolerance = 1e-9,
                .relative = true,
                .digits = 6};
    rig r;
    if (!rig_open(&r, "overhangs", NULL)) {
        return false;
    }
    const double L = 792.0, a = 120.0, P = 10.0, EI = E * 7116.0;
    check_add(out, -P * L * L * a / (16.0 * EI), rig_probe_us(&r, "middle", "w tip"));
    check_add(out, P * (1.0 + a / L), rig_probe_us(&r, "tip", "R near truck"));
    check_add(out, -P * a / L, rig_probe_us(&r, "tip", "R far truck"));
    check_add(out, P * a * a * (L + a) / (3.0 * EI), rig_probe_us(&r, "tip", "w tip"));
    check_add(out, -P * a * L * L / (16.0 * EI), rig_probe_us(&r, "tip", "w middle"));
    check_add(out, -P * a / 12.0, rig_probe_us(&r, "tip", "M truck"));
    check_add(out, -50.0, rig_probe_us(&r, "uniform", "M truck"));
    check_add(out, 494.5, rig_probe_us(&r, "uniform", "M middle"));
    rig_close(&r);
    return true;
}

static bool shear_deformation(check *out) {
    *out = (check){.title = "Span that deforms in shear",
                   .source = "S. P. Timoshenko, Strength of Materials, part I (from memory): PL/4GA and "
                             "wL^2/8GA beside bending",
                   .inputs = "L 20 ft, E 29000 ksi, G 11154 ksi, I 2100 in4, shear area 10 in2; P 50 kip at "
                             "the middle; w 3.7 kip/ft",
                   .values = "deflection at the middle under P (0.263349 in) and under w (in)",
                   .why = EXACT,
                   .tolerance = 1e-9,
                   .relative = true,
                   .digits = 6};
    rig r;
    if (!rig_open(&r, "shear_span", NULL)) {
        return false;
    }
    const double L = 240.0, P = 50.0, w = 3.7 / 12.0, GA = 11154.0 * 10.0, EI = E * I;
    check_add(out, P * L * L * L / (48.0 * EI) + P * L / (4.0 * GA), rig_probe_us(&r, "middle", "w middle"));
    check_add(out, 5.0 * w * L * L * L * L / (384.0 * EI) + w * L * L / (8.0 * GA),
              rig_probe_us(&r, "uniform", "w middle"));
    rig_close(&r);
    return true;
}

static bool shear_cantilever(check *out) {
    *out =
        (check){.title = "Cantilever that deforms in shear",
                .source = "S. P. Timoshenko, Strength of Materials, part I (from memory): PL^3/3EI + PL/GA",
                .inputs = "as above, near slope held, far bearing away, P 7 kip at the tip",
                .values = "deflection of the tip (in)",
                .why = EXACT,
                .tolerance = 1e-9,
                .relative = true,
                .digits = 6};
    const rig_setting settings[] = {{"bridge.bearings.near.rotation", "fixed"},
                                    {"bridge.bearings.far.in_use", "false"}};
    rig r;
    if (!rig_open(&r, "shear_span", &(rig_options){settings, 2, 1})) {
        return false;
    }
    const double L = 240.0, P = 7.0;
    check_add(out, P * L * L * L / (3.0 * E * I) + P * L / (11154.0 * 10.0),
              rig_probe_us(&r, "tip", "w far"));
    rig_close(&r);
    return true;
}

static const check_function checks[] = {simple_point, simple_uniform, fixed_ends,        propped,
                                        two_spans,    overhangs,      shear_deformation, shear_cantilever};

const check_chapter chapter_beams = {"Beams", checks, (int)(sizeof checks / sizeof checks[0])};
