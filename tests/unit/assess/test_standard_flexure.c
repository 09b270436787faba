/* test_standard_flexure.c - limits of the Standard Specifications against their numbers in psi, published
 * tables and elastic theory. */
#include "assess/flexure_limits.h"
#include "base/numeric.h"
#include "support/suite.h"

/* The specifications' modulus, 29 000 000 psi, so that their numbers come out. */
#define STEEL_E (29000.0 * KSI)
#define STEEL_G (11200.0 * KSI)
#define PSI (KSI / 1000.0)

/* T. G. Hicks, Civil Engineering Formulas, table 10.3: a braced, noncompact section reaches Fy S when b' / t
 * is at most 69.6 / sqrt(Fy), ksi. Half as thick, a quarter is left. */
static void test_flange(void) {
    for (double fy = 30.0; fy < 60.0; fy += 6.0) {
        const double limit = 69.6 / sqrt(fy);
        CHECK_CLOSE(ss_standard_flange_stress(limit * 1.001, STEEL_E, fy * KSI) / KSI, fy, 0.004);
        CU_ASSERT_EQUAL(ss_standard_flange_stress(limit * 0.999, STEEL_E, fy * KSI), fy * KSI);
        CHECK_CLOSE(ss_standard_flange_stress(2.0 * limit, STEEL_E, fy * KSI) / KSI, 0.25 * fy, 0.004);
    }
    CU_ASSERT_EQUAL(ss_standard_flange_stress(0.0, STEEL_E, 36.0 * KSI), 36.0 * KSI);
}

/* 10.34.2 (from memory): b / t at most 3250 / sqrt(fb): 23.0 with fb 20 000 psi, so b' / t 11.5. */
static void test_allowable_flange(void) {
    const double ratio = 0.5 * 3250.0 / sqrt(20000.0);
    CHECK_CLOSE(ss_standard_flange_allowable(ratio, STEEL_E, 50.0 * KSI, 0.55) / PSI, 20000.0, 1e-9);
    CHECK_CLOSE(ss_standard_flange_allowable(ratio, STEEL_E, 50.0 * KSI, 0.75) / PSI, 20000.0 * 0.75 / 0.55,
                1e-9);
    CHECK_CLOSE(ss_standard_flange_allowable(8.0, STEEL_E, 36.0 * KSI, 0.55), 0.55 * 36.0 * KSI, 1e-12);
    CHECK_CLOSE(ss_standard_flange_allowable(0.0, STEEL_E, 36.0 * KSI, 0.75), 0.75 * 36.0 * KSI, 1e-12);
}

/* 10.51.5 (from memory), 36 000 psi: full to 6140 / 189.74 = 32.36; 0.592 Fy at 13 300 / 189.74 = 70.10; at b
 * / t 50 c = (13 300 - 9486.8) / 7160 = 0.53257, sin = 0.74239, 0.592 (1 + 0.687 x 0.74239) = 0.89393; at 90
 * 105.6e6 / 8100 = 13 037 psi. */
static void test_flange_between_webs(void) {
    const double fy = 36.0 * KSI;
    CU_ASSERT_EQUAL(ss_standard_box_stress(32.3, STEEL_E, fy), fy);
    CHECK_CLOSE(ss_standard_box_stress(50.0, STEEL_E, fy) / fy, 0.89393, 1e-4);
    CHECK_CLOSE(ss_standard_box_stress(70.09, STEEL_E, fy) / fy, 0.592, 1e-3);
    CHECK_CLOSE(ss_standard_box_stress(90.0, STEEL_E, fy) / PSI, 13037.0, 1e-3);
}

/* Hicks, eq. 10.34 (Standard Specifications 10.32.1): Fb = 50e6 Cb / Sxc (Iyc / L) sqrt(0.772 J / Iyc + 9.87
 * (d / L)^2), inch and pound units: 1.82 below the moment of MBE table 6B.5.2.1. */
static void test_lateral_formula(void) {
    const double Iyc = 43.7;
    const double J = 2.31;
    const double d = 24.3;
    const double L = 212.0;
    const double S = 171.3;
    const double Fb = 50.0e6 * 1.14 / S * (Iyc / L) * sqrt(0.772 * J / Iyc + 9.87 * (d / L) * (d / L));
    const ss_bracing b = {STEEL_E, STEEL_G, 36.0 * KSI, L * INCH, 1.14};
    const ss_standard_section s = {Iyc * INCH4, J * INCH4, d * INCH, S * INCH3};
    CHECK_CLOSE(ss_standard_lateral(&b, &s) / 1.82 / s.S / PSI, Fb, 1e-9);
}

/* Elastic moment of an I with equal flanges, pi / L sqrt(E Iy G J + (pi E / L)^2 Iy Cw), Cw = Iy h^2 / 4
 * (Timoshenko and Gere): the specification's rounded numbers come within 0.2 percent. */
static void test_lateral_against_theory(void) {
    const double Iyc = 41.2 * INCH4;
    const double J = 2.68 * INCH4;
    const double h = 23.2 * INCH;
    for (double feet = 6.0; feet < 70.0; feet *= 1.5) {
        const ss_bracing b = {STEEL_E, STEEL_G, 36.0 * KSI, feet * FOOT, 1.0};
        const double L = b.length;
        const double Iy = 2.0 * Iyc;
        const double exact =
            SS_PI / L *
            sqrt(b.E * Iy * b.G * J + (SS_PI * b.E / L) * (SS_PI * b.E / L) * Iy * Iy * h * h / 4.0);
        const ss_standard_section s = {Iyc, J, h, 1.0};
        CHECK_CLOSE(ss_standard_lateral(&b, &s), exact, 0.002);
    }
    const ss_bracing b = {STEEL_E, STEEL_G, 36.0 * KSI, 3.0, 1.0};
    CU_ASSERT_EQUAL(ss_standard_lateral(&b, &(ss_standard_section){0.0, J, h, 1.0}), 0.0);
}

/* 10.48.4.1 with a slender web (from memory), by hand: r 3.1 in, 36 000 psi: Lp 9500 x 3.1 / 189.74 = 155.2
 * in; Lr = sqrt(572e6 x 96 x 50 / (36 000 x 520)) = 382.9 in; half way Cb My 0.75; at 500 in My / 2 (382.9 /
 * 500)^2 = 0.2933 My. Elastic theory without J, pi^2 E Iyc d / L^2, is the same curve. */
static void test_slender_web(void) {
    const ss_standard_section s = {.Iyc = 96.0 * INCH4, .J = 0.0, .d = 50.0 * INCH, .S = 520.0 * INCH3};
    const double My = 36.0 * KSI * s.S;
    ss_bracing b = {STEEL_E, STEEL_G, 36.0 * KSI, 0.5 * (155.2 + 382.9) * INCH, 1.0};
    ss_lateral l = ss_standard_lateral_slender(&b, &s, 3.1 * INCH);
    CHECK_CLOSE(l.Lp / INCH, 155.2, 1e-3);
    CHECK_CLOSE(l.Lr / INCH, 382.9, 1e-3);
    CHECK_CLOSE(l.value / My, 0.75, 1e-3);
    b.length = 500.0 * INCH;
    l = ss_standard_lateral_slender(&b, &s, 3.1 * INCH);
    CHECK_CLOSE(l.value / My, 0.2933, 1e-3);
    CHECK_CLOSE(l.value, SS_PI * SS_PI * b.E * s.Iyc * s.d / (b.length * b.length), 0.002);
    b.length = 100.0 * INCH;
    CHECK_CLOSE(ss_standard_lateral_slender(&b, &s, 3.1 * INCH).value, My, 1e-12);
}

/* 10.48.4.1 by hand: 15 400 / sqrt(36 000) = 81.17, 12 500 / sqrt(36 000) = 65.88; a web with Dc / tw 100 and
 * Dc tw / Afc 1.2 keeps 1 - 0.0024 (100 - 81.17) = 0.9548. 10.34.3: D / tw 23 000 / sqrt(20 000) = 162.6. */
static void test_webs(void) {
    CHECK_CLOSE(ss_standard_web_limit(false, STEEL_E, 36.0 * KSI), 81.17, 1e-3);
    CHECK_CLOSE(ss_standard_web_limit(true, STEEL_E, 36.0 * KSI), 65.88, 1e-3);
    CHECK_CLOSE(ss_standard_shedding(100.0, 1.2, 81.17), 0.9548, 1e-4);
    CU_ASSERT_EQUAL(ss_standard_shedding(81.0, 1.2, 81.17), 1.0);
    CU_ASSERT_EQUAL(ss_standard_shedding(9000.0, 1.2, 81.17), 0.0);
    CHECK_CLOSE(ss_standard_web_allowable(23000.0 / sqrt(20000.0), STEEL_E) / PSI, 20000.0, 1e-9);
}

int main(void) {
    static const test_case cases[] = {
        {"flange", test_flange},
        {"allowable flange", test_allowable_flange},
        {"flange between webs", test_flange_between_webs},
        {"lateral formula", test_lateral_formula},
        {"lateral against theory", test_lateral_against_theory},
        {"slender web", test_slender_web},
        {"webs", test_webs},
    };
    return RUN_SUITE("standard flexure", cases);
}
