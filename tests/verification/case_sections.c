/* case_sections.c - section properties and torsion constants against published tables. */
#include <math.h>
#include <stddef.h>

#include "verification/check.h"
#include "verification/rig.h"

static bool properties(const char *line, ss_section_properties *out) {
    rig r;
    if (!rig_open(&r, "rolled_sections", NULL)) {
        return false;
    }
    const int index = rig_line(&r.bridge, "rack", line);
    const bool done = index >= 0 && ss_bridge_line_section(&r.bridge, index, 3.0, false, out) == SS_OK;
    rig_close(&r);
    return done;
}

static double inches(double value, int power) {
    return value / pow(INCH, power);
}

static bool wide_flange(check *out) {
    *out = (check){.title = "W24x76 from its plates",
                   .source = "AISC Steel Construction Manual, table 1-1 (from memory)",
                   .inputs = "two flanges 8.99 x 0.680 in, web 22.54 x 0.440 in",
                   .values = "A 22.4 in2, I 2100 in4, S 176 in3, Z 200 in3, each over the table's value",
                   .why = "the table has the fillets, plates do not: up to 2 % less",
                   .tolerance = 0.02,
                   .relative = false,
                   .digits = 4};
    ss_section_properties p;
    if (!properties("W24x76", &p)) {
        return false;
    }
    check_add(out, 1.0, inches(p.A, 2) / 22.4);
    check_add(out, 1.0, inches(p.I, 4) / 2100.0);
    check_add(out, 1.0, inches(p.S_bottom, 3) / 176.0);
    check_add(out, 1.0, inches(p.Z, 3) / 200.0);
    return true;
}

static bool channel(check *out) {
    *out = (check){.title = "C15x33.9 from its dimensions",
                   .source = "AISC Steel Construction Manual, table 1-5 (from memory)",
                   .inputs = "depth 15 in, flanges 3.40 x 0.650 in (mean), web 0.400 in",
                   .values = "A 10.0 in2, I 315 in4, S 42.0 in3, Z 50.8 in3, each over the table's value",
                   .why = "sloping flanges and fillets are left out: 2 %",
                   .tolerance = 0.02,
                   .relative = false,
                   .digits = 4};
    ss_section_properties p;
    if (!properties("C15x33", &p)) {
        return false;
    }
    check_add(out, 1.0, inches(p.A, 2) / 10.0);
    check_add(out, 1.0, inches(p.I, 4) / 315.0);
    check_add(out, 1.0, inches(p.S_bottom, 3) / 42.0);
    check_add(out, 1.0, inches(p.Z, 3) / 50.8);
    return true;
}

static bool open_torsion(check *out) {
    *out = (check){.title = "Torsion constants of rolled shapes from plates",
                   .source = "AISC Steel Construction Manual, tables 1-1 and 1-5 (from memory)",
                   .inputs = "the two shapes above",
                   .values = "J of W24x76 over 2.68 in4, of C15x33.9 over 1.01 in4",
                   .why = "every piece of metal counts once and fillets not at all, which the published "
                          "constants have: they are "
                          "up to 15 % larger, on the safe side here",
                   .tolerance = 0.15,
                   .relative = false,
                   .digits = 3};
    ss_section_properties w, c;
    if (!properties("W24x76", &w) || !properties("C15x33", &c)) {
        return false;
    }
    check_add(out, 1.0, inches(w.J, 4) / 2.68);
    check_add(out, 1.0, inches(c.J, 4) / 1.01);
    return true;
}

static bool cell(check *out) {
    *out = (check){
        .title = "Closed cell, and the same cell slit open",
        .source =
            "R. Bredt's formula J = 4A^2/sum(s/t), as in any text on strength of materials; sum of b t^3/3",
        .inputs = "24 x 36 in between wall middle lines, flanges 1/2 in, webs 3/8 in",
        .values = "J closed 10368 in4, J open 3.266 in4, each over the reference",
        .why = "1e-9 for the closed cell; open plates are counted between their real ends here, by middle "
               "lines in the reference, so "
               "1 % covers both",
        .tolerance = 0.01,
        .relative = false,
        .digits = 5};
    ss_section_properties closed, open;
    if (!properties("cell", &closed) || !properties("slit cell", &open)) {
        return false;
    }
    check_add(out, 1.0, inches(closed.J, 4) / 10368.0);
    check_add(out, 1.0, inches(open.J, 4) / 3.266);
    return true;
}

static bool bredt(check *out) {
    *out = (check){.title = "Closed cell, exactly",
                   .source = "R. Bredt's formula J = 4A^2/sum(s/t)",
                   .inputs = "24 x 36 in between wall middle lines, flanges 1/2 in, webs 3/8 in",
                   .values = "J (in4): 4 x 864^2/(2 x 24/0.5 + 2 x 36/0.375)",
                   .why = "one formula, rounding only",
                   .tolerance = 1e-9,
                   .relative = true,
                   .digits = 6};
    ss_section_properties p;
    if (!properties("cell", &p)) {
        return false;
    }
    check_add(out, 10368.0, inches(p.J, 4));
    return true;
}

static bool rectangles(check *out) {
    *out = (check){
        .title = "Torsion constants of rectangles",
        .source =
            "S. Timoshenko and J. N. Goodier, Theory of Elasticity, art. 109, table of k1 (from memory)",
        .inputs = "a/b 1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 10",
        .values = "J/(a b^3): 0.1406, 0.166, 0.1958, 0.229, 0.249, 0.263, 0.281, 0.291, 0.312; then a bar 4 "
                  "x 2 in of the model",
        .why = "the table is printed to three or four digits",
        .tolerance = 6e-4,
        .relative = false,
        .digits = 4};
    const double ratio[] = {1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 10.0};
    const double printed[] = {0.1406, 0.166, 0.1958, 0.229, 0.249, 0.263, 0.281, 0.291, 0.312};
    for (int i = 0; i < 9; i++) {
        const double b = 0.0371;
        check_add(out, printed[i], ss_torsion_rectangle(ratio[i] * b, b) / (ratio[i] * b * b * b * b));
    }
    ss_section_properties bar;
    if (!properties("bar", &bar)) {
        return false;
    }
    check_add(out, 0.229, inches(bar.J, 4) / (4.0 * 8.0));
    return true;
}

static const check_function checks[] = {wide_flange, channel, open_torsion, cell, bredt, rectangles};

const check_chapter chapter_sections = {"Sections", checks, (int)(sizeof checks / sizeof checks[0])};
