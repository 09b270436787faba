/* case_connectors.c - studs and channels, and the properties of a sill under its slab, against values worked
 * by hand to the digits that a designer would write down.
 */
#include <stdio.h>

#include "sillspan/composite_flexure.h"
#include "sillspan/connector.h"
#include "unit/model/section_samples.h"
#include "verification/check.h"

#define CONCRETE_E (3644.0 * KSI)

static ss_connectors stud(double diameter, double tensile) {
    return (ss_connectors){.kind = SS_CONNECTOR_STUDS,
                           .diameter = diameter * INCH,
                           .height = 4.0 * INCH,
                           .tensile = tensile * KSI,
                           .per_row = 1};
}

static bool known(const ss_resistance *out) {
    if (out->why != NULL) {
        fprintf(stderr, "connector: %s\n", out->why);
        return false;
    }
    return true;
}

static bool strength(check *out) {
    *out =
        (check){.title = "Strength of a stud",
                .source = "AASHTO LRFD 6.10.10.4.3 (clause from memory), worked by hand",
                .inputs = "studs of 3/4 and 7/8 in in concrete of 4 ksi, Ec 3644 ksi; Fu 60 ksi, and 70 ksi "
                          "so that the concrete limits",
                .values = "nominal strength (kip): 3/4 in, 7/8 in by the stud; both by the concrete",
                CHECK_ABSOLUTE("worked to two decimals", 0.006, 5)};
    static const double worked[] = {26.51, 36.08, 26.67, 36.30};
    for (int i = 0; i < 4; i++) {
        const ss_connectors c = stud(i % 2 == 0 ? 0.75 : 0.875, i < 2 ? 60.0 : 70.0);
        const ss_resistance each = ss_connector_strength(&c, 4.0 * KSI, CONCRETE_E, SS_CONNECTOR_LRFD, NULL);
        if (!known(&each)) {
            return false;
        }
        check_add(out, worked[i], each.value / KIP);
    }
    return true;
}

static bool fatigue(check *out) {
    *out =
        (check){.title = "Fatigue of a stud",
                .source = "AASHTO LRFD 6.10.10.2 (clause from memory), worked by hand",
                .inputs = "a stud of 3/4 in, 4 in high; for ever, 2 and 1 million cycles",
                .values = "range of shear (kip): 5.5 d^2, and (34.5 - 4.28 log N) d^2 twice; before 2009 for "
                          "ever half of the first",
                CHECK_ABSOLUTE("worked to three decimals", 0.0006, 5)};
    const ss_connectors c = stud(0.75, 60.0);
    static const double cycles[] = {HUGE_VAL, 2e6, 1e6, HUGE_VAL};
    static const double worked[] = {3.094, 4.237, 4.961, 1.547};
    for (int i = 0; i < 4; i++) {
        const ss_resistance each =
            ss_connector_fatigue(&c, cycles[i], i < 3 ? SS_CONNECTOR_LRFD : SS_CONNECTOR_LRFD_BEFORE, NULL);
        if (!known(&each)) {
            return false;
        }
        check_add(out, worked[i], each.value / KIP);
    }
    return true;
}

/* The sill of the next check, whose steel the studs have to tie. */
static bool number(check *out) {
    *out = (check){.title = "Studs that tie a sill to its slab",
                   .source = "AASHTO LRFD 6.10.10.4 (clause from memory), worked by hand",
                   .inputs =
                       "box of 24 x 1/2 above, two webs of 3/8, 20 x 7/8 in below, 29 in deep, 36 ksi; slab "
                       "108 x 6 in of 4 ksi, Ec 3644 ksi; studs of 3/4 in, one a row",
                   .values = "force 1807 kip and phi Qn 22.5 kip, each over the value worked; studs from the "
                             "support to midspan",
                   CHECK_ABSOLUTE("worked to four and three digits, and a whole number", 0.002, 5)};
    const double area = 24.0 * 0.5 + 20.0 * 0.875 + 2.0 * 27.625 * 0.375;
    const ss_connector_section section = {
        .width = 108.0 * INCH, .thickness = 6.0 * INCH, .fc = 4.0 * KSI, .steel = 36.0 * area * KIP};
    const ss_connectors c = stud(0.75, 60.0);
    const ss_resistance each = ss_connector_strength(&c, 4.0 * KSI, CONCRETE_E, SS_CONNECTOR_LRFD, NULL);
    if (!known(&each)) {
        return false;
    }
    const double force = ss_connector_force(&section, false, SS_CONNECTOR_HOGGING_SLAB, NULL);
    const double one = SS_PHI_CONNECTOR * each.value;
    check_add(out, 1.0, force / KIP / 1807.0);
    check_add(out, 1.0, one / KIP / 22.5);
    check_add(out, 81.0, ss_connector_count(force, one, 1));
    return true;
}

static bool properties(const ss_section *s, ss_slab_flange flange, double n, ss_composite_properties *out) {
    ss_section_properties steel;
    ss_error error = {0};
    flange.n = n;
    if (ss_section_at(s, s->depth, 0.0, &steel, &error) != SS_OK ||
        ss_composite_at(&steel, &flange, false, out, &error) != SS_OK) {
        fprintf(stderr, "composite section: %s\n", error.message);
        return false;
    }
    return true;
}

static ss_composite_case sagging(const ss_section *s, ss_slab_flange flange) {
    return (ss_composite_case){.steel = {.section = s,
                                         .depth = s->depth,
                                         .fy = 36.0 * KSI,
                                         .E = 29000.0 * KSI,
                                         .G = 11200.0 * KSI,
                                         .top_compressed = true,
                                         .Cb = 1.0},
                               .flange = flange,
                               .sagging = true};
}

static bool sill(check *out) {
    *out = (check){
        .title = "A sill under its slab",
        .source = "own hand calculation, parallel axes and a stress block",
        .inputs = "box of 24 x 1/2 above, two webs of 3/8, 20 x 7/8 in below, 29 in deep, 36 ksi; slab "
                  "108 x 6 in of 4 ksi, n 8 and 24",
        .values = "I 18454 and 13481 in4, S of the bottom 745 and 684 in3, plastic moment of the whole "
                  "section 2930 kip-ft, stress of the bottom by 367.54 kip-ft of wet slab on the bare "
                  "sill 8.11 ksi, shored and on n 24 6.44 ksi; each over the value worked",
        .why = "worked to three to five digits",
        .tolerance = 1e-3,
        .relative = false,
        .digits = 5};
    const double wet = 367.5375 * 12.0 * KIP * INCH;
    ss_section s;
    sample_box_section(&s, (sample_box){29.0, 24.0, 0.5, 20.0, 0.875, 13.2, 0.375}, SS_TORSION_CLOSED);
    const ss_slab_flange flange = {
        .width = 108.0 * INCH, .thickness = 6.0 * INCH, .n = 8.0, .fc = 4.0 * KSI, .E = CONCRETE_E};
    const ss_composite_case c = sagging(&s, flange);
    ss_composite_properties brief;
    ss_composite_properties lasting;
    ss_section_properties bare;
    ss_resistance moment;
    if (!properties(&s, flange, 8.0, &brief) || !properties(&s, flange, 24.0, &lasting) ||
        ss_section_at(&s, s.depth, 0.0, &bare, NULL) != SS_OK ||
        ss_composite_partial(&c, HUGE_VAL, &moment, NULL) != SS_OK || !known(&moment)) {
        return false;
    }
    const double inch3 = INCH * INCH * INCH;
    check_add(out, 1.0, brief.I / (inch3 * INCH) / 18454.0);
    check_add(out, 1.0, lasting.I / (inch3 * INCH) / 13481.0);
    check_add(out, 1.0, brief.S_bottom / inch3 / 745.0);
    check_add(out, 1.0, lasting.S_bottom / inch3 / 684.0);
    check_add(out, 1.0, moment.value / (12.0 * KIP * INCH) / 2930.0);
    check_add(out, 1.0, wet / bare.S_bottom / KSI / 8.11);
    check_add(out, 1.0, wet / lasting.S_bottom / KSI / 6.44);
    return true;
}

static const check_function checks[] = {strength, fatigue, number, sill};

const check_chapter chapter_connectors = {"A slab and what ties it", checks,
                                          (int)(sizeof checks / sizeof checks[0])};
