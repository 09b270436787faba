/* test_mechanics_beam.c - single lines against closed forms: spans, overhangs, springs, settlement, torsion.
 */
#include "samples.h"

/* Closed forms of this file: handbook formulas for beams; 1e-9 leaves room for rounding only. */
#define EXACT 1e-9

static const double E = 2.07e11;
static const double G = 7.96e10;
static const double I = 3.17e-4;
static const double J = 4.1e-5;

/* One line in a car 3 m wide, held on pads at a list of x. */
static void line_on_pads(sample *s, double length, double shear_area, const double *x, int count) {
    sample_start(s, E, G, 0.61);
    const int section = hand_section(&s->bridge, I, J, shear_area, 812.0);
    hand_car(&s->bridge, "north", 0.0, length, 0.0, 3.0);
    hand_line(&s->bridge, SS_ROLE_MAIN, "sill", 1.5, section);
    for (int i = 0; i < count; i++) {
        hand_pad(&s->bridge, 0, x[i], 0.4);
    }
}

static void test_simple_span(void) {
    const double L = 13.7;
    const double x = 5.23;
    const double P = 83500.0;
    sample s;
    analysis a;
    line_on_pads(&s, L, 0.0, (const double[]){0.0, L}, 2);
    hand_probe(&s.bridge, 0, x);
    analysis_start(&a, &s);
    ss_load_force(&a.load, x, 1.5, P, NULL);
    analysis_solve(&a, NULL, NULL);
    const double b = L - x;
    check_relative("moment", line_effect(&a, 0, x, true, SS_EFFECT_MOMENT), P * x * b / L, EXACT);
    check_relative("moment", line_effect(&a, 0, x, false, SS_EFFECT_MOMENT), P * x * b / L, EXACT);
    check_relative("shear before", line_effect(&a, 0, x, true, SS_EFFECT_SHEAR), P * b / L, EXACT);
    check_relative("shear after", line_effect(&a, 0, x, false, SS_EFFECT_SHEAR), -P * x / L, EXACT);
    check_relative("deflection", line_effect(&a, 0, x, true, SS_EFFECT_DEFLECTION),
                   P * x * x * b * b / (3.0 * E * I * L), EXACT);
    check_relative("left", reaction(&a, 0), P * b / L, EXACT);
    check_relative("right", reaction(&a, 1), P * x / L, EXACT);
    analysis_end(&a);
}

/* With shear deformation a mid-span load adds P L / (4 G A_s); the figures are in inches and kips, as in the
 * source of the example: own arithmetic on handbook values of a W24x76. */
static void test_shear_deformation(void) {
    sample s;
    analysis a;
    sample_start(&s, 29000.0, 11154.0, 31.0);
    const int section = hand_section(&s.bridge, 2100.0, 2.68, 10.0, 0.0);
    hand_car(&s.bridge, "north", 0.0, 240.0, -5.0, 5.0);
    hand_line(&s.bridge, SS_ROLE_MAIN, "sill", 0.0, section);
    hand_pad(&s.bridge, 0, 0.0, 4.0);
    hand_pad(&s.bridge, 0, 240.0, 4.0);
    hand_probe(&s.bridge, 0, 120.0);
    analysis_start(&a, &s);
    ss_load_force(&a.load, 120.0, 0.0, 50.0, NULL);
    analysis_solve(&a, NULL, NULL);
    check_near("total", line_effect(&a, 0, 120.0, true, SS_EFFECT_DEFLECTION), 0.263349, 5e-7, 1.0);
    check_relative("total", line_effect(&a, 0, 120.0, true, SS_EFFECT_DEFLECTION),
                   50.0 * 240.0 * 240.0 * 240.0 / (48.0 * 29000.0 * 2100.0) +
                       50.0 * 240.0 / (4.0 * 11154.0 * 10.0),
                   EXACT);
    analysis_end(&a);
}

/* A force between stations: nodal results and end forces are exact wherever it stands. */
static void test_force_between_stations(void) {
    const double L = 11.9;
    const double A_s = 4.3e-3;
    sample s;
    analysis a;
    line_on_pads(&s, L, A_s, (const double[]){0.0, L}, 2);
    hand_probe(&s.bridge, 0, 4.4);
    analysis_start(&a, &s);
    const double x = 4.4;
    const double z = 4.6173; /* within the interval after x */
    const double P = 61200.0;
    ss_load_force(&a.load, z, 1.5, P, NULL);
    analysis_solve(&a, NULL, NULL);
    const double b = L - z;
    const double w = P * b * x * (L * L - b * b - x * x) / (6.0 * L * E * I) + P * b / L * x / (G * A_s);
    check_relative("deflection", line_effect(&a, 0, x, false, SS_EFFECT_DEFLECTION), w, EXACT);
    check_relative("moment after", line_effect(&a, 0, x, false, SS_EFFECT_MOMENT), P * b / L * x, EXACT);
    check_relative("shear after", line_effect(&a, 0, x, false, SS_EFFECT_SHEAR), P * b / L, EXACT);
    analysis_end(&a);
}

/* Overhangs of both ends (supports inset): the car on its wheel-truck points. */
static void test_overhangs(void) {
    const double L = 20.1;
    const double o = 3.05;
    const double P = 44500.0;
    sample s;
    analysis a;
    line_on_pads(&s, L + 2.0 * o, 0.0, (const double[]){o, o + L}, 2);
    hand_probe(&s.bridge, 0, o + 0.5 * L);
    analysis_start(&a, &s);
    ss_load_force(&a.load, o + 0.5 * L, 1.5, P, NULL);
    analysis_solve(&a, NULL, NULL);
    check_relative("tip rises", line_effect(&a, 0, 0.0, false, SS_EFFECT_DEFLECTION),
                   -P * L * L * o / (16.0 * E * I), EXACT);
    analysis_end(&a);
    analysis_start(&a, &s);
    ss_load_force(&a.load, 0.0, 1.5, P, NULL);
    analysis_solve(&a, NULL, NULL);
    check_relative("near", reaction(&a, 0), P * (1.0 + o / L), EXACT);
    check_relative("far", reaction(&a, 1), -P * o / L, EXACT);
    check_relative("tip", line_effect(&a, 0, 0.0, false, SS_EFFECT_DEFLECTION),
                   P * o * o * (L + o) / (3.0 * E * I), EXACT);
    check_relative("middle rises", line_effect(&a, 0, o + 0.5 * L, true, SS_EFFECT_DEFLECTION),
                   -P * o * L * L / (16.0 * E * I), EXACT);
    check_relative("hogging", line_effect(&a, 0, o, true, SS_EFFECT_MOMENT), -P * o, EXACT);
    check_relative("shear before", line_effect(&a, 0, o, true, SS_EFFECT_SHEAR), -P, EXACT);
    check_relative("shear after", line_effect(&a, 0, o, false, SS_EFFECT_SHEAR), P * o / L, EXACT);
    analysis_end(&a);
    analysis_start(&a, &s);
    const double w = 9120.0;
    ss_load_line(&a.load, 0.0, L + 2.0 * o, 1.5, w, NULL);
    analysis_solve(&a, NULL, NULL);
    check_relative("support", line_effect(&a, 0, o, false, SS_EFFECT_MOMENT), -w * o * o / 2.0, EXACT);
    check_relative("middle", line_effect(&a, 0, o + 0.5 * L, false, SS_EFFECT_MOMENT),
                   w * L * L / 8.0 - w * o * o / 2.0, EXACT);
    analysis_end(&a);
}

/* Two equal spans, load in the middle of the first: 13/32, 11/16, -3/32; support moment -3 P L / 32; 23 P L^3
 * / (1536 E I). */
static void test_two_spans(void) {
    const double L = 9.3;
    const double P = 51700.0;
    sample s;
    analysis a;
    line_on_pads(&s, 2.0 * L, 0.0, (const double[]){0.0, L, 2.0 * L}, 3);
    hand_probe(&s.bridge, 0, 0.5 * L);
    analysis_start(&a, &s);
    ss_load_force(&a.load, 0.5 * L, 1.5, P, NULL);
    analysis_solve(&a, NULL, NULL);
    check_relative("first", reaction(&a, 0), 13.0 * P / 32.0, EXACT);
    check_relative("second", reaction(&a, 1), 11.0 * P / 16.0, EXACT);
    check_relative("third", reaction(&a, 2), -3.0 * P / 32.0, EXACT);
    check_relative("support moment", line_effect(&a, 0, L, true, SS_EFFECT_MOMENT), -3.0 * P * L / 32.0,
                   EXACT);
    check_relative("deflection", line_effect(&a, 0, 0.5 * L, true, SS_EFFECT_DEFLECTION),
                   23.0 * P * L * L * L / (1536.0 * E * I), EXACT);
    analysis_end(&a);
    /* Uniform over both: w L^2 / 8 at the middle support, end reactions 3 w L / 8. */
    analysis_start(&a, &s);
    ss_load_line_on_line(&a.load, 0, 0.0, 2.0 * L, 7340.0, NULL);
    analysis_solve(&a, NULL, NULL);
    check_relative("support moment", line_effect(&a, 0, L, false, SS_EFFECT_MOMENT), -7340.0 * L * L / 8.0,
                   EXACT);
    check_relative("end", reaction(&a, 2), 3.0 * 7340.0 * L / 8.0, EXACT);
    check_relative("middle", reaction(&a, 1), 10.0 * 7340.0 * L / 8.0, EXACT);
    analysis_end(&a);
}

/* Settlement of the middle of two spans by d: support moment 3 E I d / L^2. */
static void test_settlement(void) {
    const double L = 8.7;
    const double d = 0.0123;
    sample s;
    analysis a;
    line_on_pads(&s, 2.0 * L, 0.0, (const double[]){0.0, L, 2.0 * L}, 3);
    analysis_start(&a, &s);
    double *offset = calloc((size_t)a.mesh.spring_count, sizeof *offset);
    for (int i = 0; i < a.mesh.spring_count; i++) {
        offset[i] = a.mesh.spring[i].index == 1 ? d : 0.0;
    }
    analysis_solve(&a, NULL, offset);
    check_relative("moment", line_effect(&a, 0, L, true, SS_EFFECT_MOMENT), 3.0 * E * I * d / (L * L), EXACT);
    check_relative("follows", line_effect(&a, 0, L, true, SS_EFFECT_DEFLECTION), d, EXACT);
    check_relative("reaction", reaction(&a, 1), -6.0 * E * I * d / (L * L * L), EXACT);
    free(offset);
    analysis_end(&a);
}

/* Ends on springs, from far softer than the beam to far stiffer: w = P L^3 / (48 E I) + P / (2 k). */
static void test_end_springs(void) {
    const double L = 12.2;
    const double P = 44480.0;
    const double bend = P * L * L * L / (48.0 * E * I);
    for (int power = 3; power <= 15; power++) {
        for (int contact = 0; contact < 2; contact++) {
            const double k = 1.37 * pow(10.0, power);
            sample s;
            analysis a;
            line_on_pads(&s, L, 0.0, (const double[]){0.0, L}, 2);
            hand_probe(&s.bridge, 0, 0.5 * L);
            s.bridge.bearings[0].spring = s.bridge.bearings[1].spring = k;
            s.bridge.bearings[0].contact = s.bridge.bearings[1].contact = contact != 0;
            analysis_start(&a, &s);
            ss_load_force(&a.load, 0.5 * L, 1.5, P, NULL);
            analysis_solve(&a, NULL, NULL);
            check_relative("deflection", line_effect(&a, 0, 0.5 * L, true, SS_EFFECT_DEFLECTION),
                           bend + 0.5 * P / k, EXACT);
            check_relative("moment", line_effect(&a, 0, 0.5 * L, true, SS_EFFECT_MOMENT), 0.25 * P * L,
                           EXACT);
            check_relative("reaction", reaction(&a, 0), 0.5 * P, EXACT);
            analysis_end(&a);
        }
    }
}

/* Both slopes fixed: P L / 8 at ends and middle, P L^3 / (192 E I); and the springs between free and fixed.
 */
static void test_fixed_slopes(void) {
    const double L = 10.6;
    const double P = 39000.0;
    for (int power = 4; power <= 17; power++) {
        const double k = power == 17 ? (double)INFINITY : 2.3 * pow(10.0, power);
        sample s;
        analysis a;
        line_on_pads(&s, L, 0.0, (const double[]){0.0, L}, 2);
        hand_probe(&s.bridge, 0, 0.5 * L);
        s.bridge.bearings[0].rotation = s.bridge.bearings[1].rotation = k;
        analysis_start(&a, &s);
        ss_load_force(&a.load, 0.5 * L, 1.5, P, NULL);
        analysis_solve(&a, NULL, NULL);
        /* Slope of the simple span P L^2 / (16 E I); a pair of end moments m turns its ends back by m L / (2
         * E I) and the springs hold m / k. */
        const double m = P * L * L / (16.0 * E * I) / (L / (2.0 * E * I) + 1.0 / k);
        check_relative("middle", line_effect(&a, 0, 0.5 * L, true, SS_EFFECT_MOMENT), 0.25 * P * L - m,
                       EXACT);
        check_relative("end", line_effect(&a, 0, 0.0, false, SS_EFFECT_MOMENT), -m, EXACT);
        check_relative("deflection", line_effect(&a, 0, 0.5 * L, true, SS_EFFECT_DEFLECTION),
                       P * L * L * L / (48.0 * E * I) - m * L * L / (8.0 * E * I), EXACT);
        analysis_end(&a);
    }
}

/* Infinite beam on springs: the continuous foundation is met as the springs get closer (Hetenyi, Beams on
 * Elastic Foundation, 1946, from memory: w = P lambda / (2 k), M = P / (4 lambda), lambda = (k / 4 E
 * I)^(1/4)). */
static void test_elastic_foundation(void) {
    enum { POINTS = 161 };
    const double k = 4.1e7;
    const double lambda = pow(k / (4.0 * E * I), 0.25);
    const double L = 24.0 / lambda;
    const double P = 71000.0;
    double x[POINTS];
    for (int i = 0; i < POINTS; i++) {
        x[i] = L * i / (POINTS - 1);
    }
    sample s;
    analysis a;
    sample_start(&s, E, G, 100.0);
    const int section = hand_section(&s.bridge, I, J, 0.0, 0.0);
    hand_car(&s.bridge, "north", 0.0, L, 0.0, 3.0);
    hand_line(&s.bridge, SS_ROLE_MAIN, "sill", 1.5, section);
    for (int i = 0; i < POINTS; i++) {
        s.bridge.bearings[hand_pad(&s.bridge, 0, x[i], 0.3)].spring = k * L / (POINTS - 1);
    }
    analysis_start(&a, &s);
    ss_load_force(&a.load, 0.5 * L, 1.5, P, NULL);
    analysis_solve(&a, NULL, NULL);
    /* Springs 0.4 / lambda apart are a sum instead of an integral: differences of order (0.4)^4 / 720 of a
     * smooth field, more at the kink of the shear. */
    check_relative("deflection", line_effect(&a, 0, 0.5 * L, true, SS_EFFECT_DEFLECTION),
                   P * lambda / (2.0 * k), 2e-3);
    check_relative("moment", line_effect(&a, 0, 0.5 * L, true, SS_EFFECT_MOMENT), P / (4.0 * lambda), 2e-2);
    analysis_end(&a);
}

/* A torque on a shaft held at its ends; and through the arm of a force off the line of a one-line car. */
static void test_torsion(void) {
    const double L = 14.3;
    const double x = 5.1;
    const double P = 42000.0;
    const double e = 0.83;
    sample s;
    analysis a;
    line_on_pads(&s, L, 0.0, (const double[]){0.0, L}, 2);
    hand_probe(&s.bridge, 0, 4.9);
    hand_probe(&s.bridge, 0, 5.7);
    analysis_start(&a, &s);
    ss_load_force(&a.load, x, 1.5 + e, P, NULL);
    analysis_solve(&a, NULL, NULL);
    /* dw/dy grows along x up to the load: T = G J d(rotation)/dx is positive before it. */
    check_relative("before", line_effect(&a, 0, 4.9, false, SS_EFFECT_TORSION), P * e * (L - x) / L, EXACT);
    check_relative("after", line_effect(&a, 0, 5.7, false, SS_EFFECT_TORSION), -P * e * x / L, EXACT);
    const int node = a.mesh.node_at[0];
    CU_ASSERT_EQUAL(node, 0);
    /* Pads: right spring minus left spring, times half the width, holds the torque. */
    check_relative("left pad", 0.2 * (a.force[1] - a.force[0]), P * e * (L - x) / L, EXACT);
    check_relative("right pad", 0.2 * (a.force[3] - a.force[2]), P * e * x / L, EXACT);
    analysis_end(&a);
}

/* A pad of stiffness k all over is a Winkler pad: it sinks by F / k and turns by T / (k b^2 / 12). */
static void test_winkler_pad(void) {
    const double k = 6.4e6;
    const double b = 0.37;
    const double P = 30100.0;
    const double e = 0.052;
    sample s;
    analysis a;
    line_on_pads(&s, 9.0, 0.0, (const double[]){0.0, 9.0}, 2);
    for (int i = 0; i < 2; i++) {
        s.bridge.bearings[i].spring = k;
        s.bridge.bearings[i].pad_width = b;
    }
    for (int contact = 0; contact < 2; contact++) {
        s.bridge.bearings[0].contact = s.bridge.bearings[1].contact = contact != 0;
        analysis_start(&a, &s);
        ss_load_force(&a.load, 0.0, 1.5 + e, P, NULL);
        ss_load_force(&a.load, 9.0, 1.5 + e, P, NULL);
        analysis_solve(&a, NULL, NULL);
        check_relative("sinks", a.u[0], P / k, EXACT);
        check_relative("turns", a.u[1], P * e / (k * b * b / 12.0), EXACT);
        check_relative("left spring", a.force[0], P * (0.5 - e / b), EXACT);
        check_relative("right spring", a.force[1], P * (0.5 + e / b), EXACT);
        analysis_end(&a);
    }
}

int main(void) {
    static const test_case cases[] = {
        {"simple span", test_simple_span},
        {"shear deformation", test_shear_deformation},
        {"force between stations", test_force_between_stations},
        {"overhangs", test_overhangs},
        {"two spans", test_two_spans},
        {"settlement", test_settlement},
        {"ends on springs", test_end_springs},
        {"fixed slopes", test_fixed_slopes},
        {"elastic foundation", test_elastic_foundation},
        {"torsion", test_torsion},
        {"Winkler pad", test_winkler_pad},
    };
    return RUN_SUITE("beam", cases);
}
