/* case_composite.c - sections of steel and slab in bending against published examples, strips and closed
 * forms.
 */
#include <math.h>
#include <stddef.h>
#include <stdio.h>

#include "sillspan/composite_flexure.h"
#include "unit/model/section_samples.h"
#include "verification/check.h"

#define STEEL_E (29000.0 * KSI)

static ss_slab_flange slab_of(double width, double thickness, double haunch, double n, double fc) {
    return (ss_slab_flange){.width = width * INCH,
                            .thickness = thickness * INCH,
                            .haunch = haunch * INCH,
                            .n = n,
                            .fc = fc * KSI,
                            .E = STEEL_E / n};
}

static ss_composite_case sagging(const ss_section *section, double fy, const ss_slab_flange *slab) {
    return (ss_composite_case){.steel = {.section = section,
                                         .depth = section->depth,
                                         .fy = fy * KSI,
                                         .E = STEEL_E,
                                         .G = 11200.0 * KSI,
                                         .top_compressed = true,
                                         .Cb = 1.0},
                               .flange = *slab,
                               .sagging = true};
}

static bool answered(ss_status status, const ss_resistance *out) {
    if (status != SS_OK || out->why != NULL) {
        fprintf(stderr, "composite section: %s\n", out->why == NULL ? "its plates do not fit" : out->why);
        return false;
    }
    return true;
}

static double step_of(const ss_working *w, const char *symbol) {
    for (int i = 0; i < w->count && i < SS_WORKING_MOST; i++) {
        if (strcmp(w->steps[i].symbol, symbol) == 0) {
            return w->steps[i].value;
        }
    }
    return (double)NAN;
}

/* W33x130 and a cover plate under it. */
static void covered_beam(ss_section *s) {
    sample_start(s, SS_TORSION_OPEN);
    sample_plate(s, 10.5, 0.625, 0.0, 0.0);
    sample_plate(s, 11.51, 0.855, 0.0, 0.625);
    sample_plate(s, 0.58, 31.38, 0.0, 1.48);
    sample_plate(s, 11.51, 0.855, 0.0, 32.86);
    sample_end(s);
}

static bool stringer(check *out) {
    *out = (check){
        .title = "Plastic moment of a stringer with its slab",
        .source =
            "AASHTO Manual for Bridge Evaluation, example A1, interior stringer in bending (from memory)",
        .inputs =
            "W33x130 by its plates with a cover plate 10-1/2 x 5/8 in, 36 ksi; slab 88 x 7-1/4 in, 3 ksi, "
            "on the steel",
        .values =
            "steel force 1600 kip, block 7.13 in, whole depth 40.97 in, nominal moment 2873 kip-ft; each "
            "over the published value",
        .why = "printed to three or four digits",
        .tolerance = 1e-3,
        .relative = false,
        .digits = 5};
    ss_section s;
    covered_beam(&s);
    const ss_slab_flange slab = slab_of(88.0, 7.25, 0.0, 9.0, 3.0);
    const ss_composite_case c = sagging(&s, 36.0, &slab);
    ss_working w = {.count = 0};
    ss_resistance moment;
    if (!answered(ss_composite_plastic(&c, &moment, &w), &moment)) {
        return false;
    }
    check_add(out, 1.0, step_of(&w, "As Fy") / KIP / 1600.0);
    check_add(out, 1.0, step_of(&w, "a") / INCH / 7.13);
    check_add(out, 1.0, step_of(&w, "Dt") / INCH / 40.97);
    check_add(out, 1.0, moment.value / KIP_FOOT / 2873.0);
    return true;
}

static bool partial(check *out) {
    *out = (check){
        .title = "Plastic moment of a beam whose slab is tied in part",
        .source = "AISC Design Examples I.1 and AISC Steel Construction Manual, table 3-19 (from memory)",
        .inputs = "W21x50 by its plates, 50 ksi; slab 120 x 4-1/2 in, 4 ksi, 3 in above the steel; "
                  "connectors for 386 kip",
        .values = "block 0.946 in, 0.9 Mn 769 kip-ft, each over the published value",
        .why = "the tables have the fillets, plates do not: up to 1 % less",
        .tolerance = 0.01,
        .relative = false,
        .digits = 4};
    ss_section s;
    sample_i_beam(&s, 20.8, 6.53, 0.535, 0.38);
    const ss_slab_flange slab = slab_of(120.0, 4.5, 3.0, 8.0, 4.0);
    const ss_composite_case c = sagging(&s, 50.0, &slab);
    ss_working w = {.count = 0};
    ss_resistance moment;
    if (!answered(ss_composite_partial(&c, 386.0 * KIP, &moment, &w), &moment)) {
        return false;
    }
    check_add(out, 1.0, step_of(&w, "a") / INCH / 0.946);
    check_add(out, 1.0, 0.9 * moment.value / KIP_FOOT / 769.0);
    return true;
}

/* Force (kip) and moment (kip-in, about the lowest fibre, compression above positive) of the slab and of thin
 * strips of the steel when everything below `axis` (in) is pulled at yield; tension is positive. */
static double strips(const ss_section *s, double fy, const double slab[4], double axis, double *moment) {
    enum { STRIPS = 1000 };
    const double top = s->depth / INCH + slab[2] + slab[1];
    const double pressed = fmin(fmax(top - axis, 0.0), slab[1]);
    double sum = -0.85 * slab[3] * slab[0] * pressed;
    *moment = -sum * (top - 0.5 * pressed);
    for (int i = 0; i < s->plate_count; i++) {
        const double width = (s->plates[i].y1 - s->plates[i].y0) / INCH;
        const double low = s->plates[i].z0 / INCH;
        const double dz = (s->plates[i].z1 - s->plates[i].z0) / INCH / STRIPS;
        for (int k = 0; k < STRIPS; k++) {
            const double z = low + dz * k;
            const double cut = fmin(fmax(axis, z), z + dz);
            sum += fy * width * ((cut - z) - (z + dz - cut));
            *moment += 0.5 * fy * width * ((z + dz) * (z + dz) - 2.0 * cut * cut + z * z);
        }
    }
    return sum;
}

static bool axes(check *out) {
    *out =
        (check){.title = "Plastic moment with the axis in slab, flange and web",
                .source = "own method: bisection for the axis, sums over 1000 strips of each plate",
                .inputs = "the beam with its cover plate, 36 ksi; slabs of 4 ksi, 90 x 6 in and 60 x 5 in on "
                          "haunches of 1-1/2 in, 30 x 4 in",
                .values = "Mp (kip-ft)",
                CHECK_RELATIVE("both exact but for rounding", 1e-9, 8)};
    static const double slabs[][4] = {{90.0, 6.0, 1.5, 4.0}, {60.0, 5.0, 1.5, 4.0}, {30.0, 4.0, 0.0, 4.0}};
    ss_section s;
    covered_beam(&s);
    for (int i = 0; i < 3; i++) {
        const ss_slab_flange slab = slab_of(slabs[i][0], slabs[i][1], slabs[i][2], 8.0, slabs[i][3]);
        const ss_composite_case c = sagging(&s, 36.0, &slab);
        ss_working w = {.count = 0};
        ss_resistance moment;
        if (!answered(ss_composite_partial(&c, HUGE_VAL, &moment, &w), &moment)) {
            return false;
        }
        double low = 0.0;
        double high = s.depth / INCH + 8.0;
        double expected = 0.0;
        for (int pass = 0; pass < 80; pass++) {
            const double axis = 0.5 * (low + high);
            if (strips(&s, 36.0, slabs[i], axis, &expected) > 0.0) {
                high = axis;
            } else {
                low = axis;
            }
        }
        check_add(out, expected / 12.0, moment.value / KIP_FOOT);
    }
    return true;
}

/* Second moment of area (in4) and modulus of the bottom (in3) by the parallel-axis theorem. */
static double bottom_modulus(double A, double z, double I, double slab_area, double arm, double thickness) {
    const double e = arm - z;
    const double axis = z + slab_area / (A + slab_area) * e;
    return (I + slab_area * thickness * thickness / 12.0 + A * slab_area / (A + slab_area) * e * e) / axis;
}

static bool stages(check *out) {
    *out = (check){
        .title = "First yield of a sill under a slab, unshored and shored",
        .source = "own closed form: parallel axes, and stresses added stage by stage",
        .inputs =
            "box of 24 x 1/2 above, two webs of 3/8, 20 x 7/8 in below, 29 in deep, 36 ksi; slab 108 x 6 in, "
            "n 8 and 24; factored moments 408.375 kip-ft of the sill and 459.421875 of the slab",
        .values =
            "unshored, the slab's weight on the bare sill: total moment at first yield (kip-ft), stress "
            "of the bottom by that weight without its factor 1.25 (ksi); shored, on n 24: the same",
        CHECK_RELATIVE("closed forms, rounding only", 1e-9, 8)};
    const double Ap[] = {12.0, 17.5, 2.0 * 27.625 * 0.375};
    const double zp[] = {28.75, 0.4375, 0.875 + 0.5 * 27.625};
    const double Ip[] = {12.0 * 0.25 / 12.0, 17.5 * 0.875 * 0.875 / 12.0, Ap[2] * 27.625 * 27.625 / 12.0};
    const double A = Ap[0] + Ap[1] + Ap[2];
    const double z = (Ap[0] * zp[0] + Ap[1] * zp[1] + Ap[2] * zp[2]) / A;
    double I = 0.0;
    for (int i = 0; i < 3; i++) {
        I += Ip[i] + Ap[i] * (zp[i] - z) * (zp[i] - z);
    }
    const double bare = I / z;
    const double brief = bottom_modulus(A, z, I, 81.0, 32.0, 6.0);
    const double lasting = bottom_modulus(A, z, I, 27.0, 32.0, 6.0);
    const double sill = 408.375;
    const double wet = 459.421875;
    ss_section s;
    sample_box_section(&s, (sample_box){29.0, 24.0, 0.5, 20.0, 0.875, 13.2, 0.375}, SS_TORSION_CLOSED);
    const ss_slab_flange slab = slab_of(108.0, 6.0, 0.0, 8.0, 4.0);
    ss_staged_moment dead[] = {
        {.name = "sill", .moment = sill * KIP_FOOT},
        {.name = "slab", .moment = wet * KIP_FOOT, .flange = slab_of(108.0, 6.0, 0.0, 24.0, 4.0)}};
    ss_composite_case c = sagging(&s, 36.0, &slab);
    c.dead = dead;
    c.dead_count = 2;
    double stress[2] = {0.0, 0.0};
    for (int shored = 0; shored < 2; shored++) {
        dead[1].composite = shored == 1;
        const double by_slab = 12.0 * wet / (shored == 1 ? lasting : bare);
        const double left = 36.0 - 12.0 * sill / bare - by_slab;
        ss_working w = {.count = 0};
        ss_resistance moment;
        if (!answered(ss_composite_yield(&c, 1.0, &moment, &w), &moment)) {
            return false;
        }
        check_add(out, sill + wet + left * brief / 12.0, moment.value / KIP_FOOT);
        stress[shored] = by_slab;
        const double found = 36.0 - 12.0 * sill / bare - step_of(&w, "left_bot") / KSI;
        check_add(out, stress[shored] / 1.25, found / 1.25);
    }
    return true;
}

static bool hogging(check *out) {
    *out = (check){.title = "Hogging over a bearing with bars in the slab",
                   .source = "own closed form: steel and bars as one cracked section",
                   .inputs =
                       "W21x50 by its plates, 50 ksi, held sideways; 4 in2 of bars 26.8 in above its lowest "
                       "fibre, of 40 and of 60 ksi",
                   .values = "moment at first yield (kip-ft): of the bars, of the bottom flange",
                   CHECK_RELATIVE("closed forms, rounding only", 1e-9, 8)};
    const double A = 2.0 * 6.53 * 0.535 + 19.73 * 0.38;
    const double I =
        6.53 * (20.8 * 20.8 * 20.8 - 19.73 * 19.73 * 19.73) / 12.0 + 0.38 * 19.73 * 19.73 * 19.73 / 12.0;
    const double z = (A * 10.4 + 4.0 * 26.8) / (A + 4.0);
    const double cracked = I + A * (z - 10.4) * (z - 10.4) + 4.0 * (26.8 - z) * (26.8 - z);
    ss_section s;
    sample_i_beam(&s, 20.8, 6.53, 0.535, 0.38);
    ss_slab_flange slab = slab_of(100.0, 8.0, 0.0, 8.0, 4.0);
    slab.top = 4.0 * INCH2;
    slab.top_depth = 2.0 * INCH;
    ss_composite_case c = sagging(&s, 50.0, &slab);
    c.sagging = false;
    const double expected[] = {40.0 * cracked / (26.8 - z), 50.0 * cracked / z};
    for (int i = 0; i < 2; i++) {
        c.flange.bar_fy = (i == 0 ? 40.0 : 60.0) * KSI;
        ss_resistance moment;
        if (!answered(ss_composite_yield(&c, 1.0, &moment, NULL), &moment)) {
            return false;
        }
        check_add(out, expected[i] / 12.0, moment.value / KIP_FOOT);
    }
    return true;
}

static const check_function checks[] = {stringer, partial, axes, stages, hogging};

const check_chapter chapter_composite = {"Steel with a slab", checks,
                                         (int)(sizeof checks / sizeof checks[0])};
