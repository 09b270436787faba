/* test_resistance.c - first yield and web shear against figures worked out from the specification, and what
 * cannot be told. */
#include <string.h>

#include "sillspan/resistance.h"
#include "support/suite.h"

#define STEEL_E (29000.0 * KSI)

/* A web of one plate: its shear area and slenderness. */
static ss_section_properties web(double depth_in, double thickness_in) {
    return (ss_section_properties){.shear_area = depth_in * thickness_in * INCH * INCH,
                                   .web_clear = depth_in * INCH,
                                   .web_thin = thickness_in * INCH};
}

/* AASHTO LRFD 6.10.9.2 (from memory), unstiffened, figures recomputed by hand: Fy (ksi), web (in), 0.58 Fy
 * A_w, C and their product (kip). */
static void test_web_shear_figures(void) {
    static const struct {
        double fy, depth, thickness, plastic, ratio, nominal;
    } row[] = {{36.0, 36.0, 0.3125, 234.9, 0.4765, 111.93},
               {50.0, 36.0, 0.25, 261.0, 0.2196, 57.31},
               {50.0, 48.0, 0.3125, 435.0, 0.1930, 83.95}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const ss_section_properties section = web(row[i].depth, row[i].thickness);
        const double ratio =
            ss_resistance_shear_ratio(row[i].depth / row[i].thickness, STEEL_E, 5.0, row[i].fy * KSI);
        const ss_resistance found = ss_resistance_web_shear(&section, row[i].fy * KSI, STEEL_E);
        CU_ASSERT_DOUBLE_EQUAL(ratio, row[i].ratio, 0.00005);
        CU_ASSERT_DOUBLE_EQUAL(found.value / KIP, row[i].nominal, 0.005);
        CU_ASSERT_DOUBLE_EQUAL(found.value / ratio / KIP, row[i].plastic, 0.005);
        CU_ASSERT_PTR_NULL(found.why);
    }
}

/* With stiffeners 72 in apart k is 7.222: the last published ratio, C 0.4014. */
static void test_stiffened_ratio(void) {
    const double k = 5.0 + 5.0 / (1.5 * 1.5);
    CU_ASSERT_DOUBLE_EQUAL(k, 7.222, 0.0005);
    CU_ASSERT_DOUBLE_EQUAL(ss_resistance_shear_ratio(128.0, STEEL_E, k, 50.0 * KSI), 0.4014, 0.00005);
}

/* The three branches meet: within the figure's own rounding at 1.40 (1.12 / 1.40 is 0.8, 1.57 / 1.96 is
 * 0.801), exactly at 1.12. */
static void test_ratio_branches(void) {
    const double fy = 37.3 * KSI;
    const double root = sqrt(STEEL_E * 5.0 / fy);
    CU_ASSERT_EQUAL(ss_resistance_shear_ratio(1.1199 * root, STEEL_E, 5.0, fy), 1.0);
    CHECK_CLOSE(ss_resistance_shear_ratio(1.12 * root * (1.0 + 1e-12), STEEL_E, 5.0, fy), 1.0, 1e-11);
    CHECK_CLOSE(ss_resistance_shear_ratio(1.27 * root, STEEL_E, 5.0, fy), 1.12 / 1.27, 1e-12);
    CHECK_CLOSE(ss_resistance_shear_ratio(1.40 * root * (1.0 - 1e-12), STEEL_E, 5.0, fy), 0.8, 1e-11);
    CHECK_CLOSE(ss_resistance_shear_ratio(2.13 * root, STEEL_E, 5.0, fy), 1.57 / (2.13 * 2.13), 1e-12);
}

/* Twice the webs carry twice the shear at the same slenderness; a thinner second web governs the slenderness
 * of both. */
static void test_box_webs(void) {
    ss_section_properties box = web(24.75, 0.3125);
    box.shear_area = 2.0 * 26.0 * 0.3125 * INCH * INCH;
    const double C = ss_resistance_shear_ratio(24.75 / 0.3125, STEEL_E, 5.0, 36.0 * KSI);
    CHECK_CLOSE(ss_resistance_web_shear(&box, 36.0 * KSI, STEEL_E).value, C * 0.58 * 36.0 * 16.25 * KIP,
                1e-12);
    box.web_thin = 0.25 * INCH;
    const double thinner = ss_resistance_shear_ratio(99.0, STEEL_E, 5.0, 36.0 * KSI);
    CU_ASSERT(thinner < C);
    CHECK_CLOSE(ss_resistance_web_shear(&box, 36.0 * KSI, STEEL_E).value, thinner * 0.58 * 36.0 * 16.25 * KIP,
                1e-12);
}

static void test_unknown_slenderness_is_said(void) {
    const ss_section_properties given = {.shear_area = 7.31 * INCH * INCH};
    const ss_resistance found = ss_resistance_web_shear(&given, 33.0 * KSI, STEEL_E);
    CHECK_CLOSE(found.value, 0.58 * 33.0 * 7.31 * KIP, 1e-12);
    CU_ASSERT_STRING_EQUAL(found.rule, SS_RESISTANCE_SHEAR_UNCHECKED);
    CU_ASSERT_PTR_NULL(found.why);
}

static void test_yield_moment_takes_the_smaller_face(void) {
    ss_section_properties section = {.S_top = 411.7 * INCH * INCH * INCH,
                                     .S_bottom = 544.2 * INCH * INCH * INCH};
    ss_resistance found = ss_resistance_yield_moment(&section, 36.0 * KSI);
    CHECK_CLOSE(found.value, 36.0 * 411.7 * KIP * INCH, 1e-12);
    CU_ASSERT_PTR_NOT_NULL(strstr(found.rule, "S_top"));
    section.S_top = 617.9 * INCH * INCH * INCH;
    found = ss_resistance_yield_moment(&section, 36.0 * KSI);
    CHECK_CLOSE(found.value, 36.0 * 544.2 * KIP * INCH, 1e-12);
    CU_ASSERT_PTR_NOT_NULL(strstr(found.rule, "S_bottom"));
}

static void test_what_cannot_be_told(void) {
    const ss_section_properties one_face = {.S_top = 0.0, .S_bottom = 0.0091};
    const ss_section_properties none = {.A = 0.013};
    CU_ASSERT(isnan(ss_resistance_yield_moment(&one_face, 2.5e8).value));
    CU_ASSERT_PTR_NOT_NULL(ss_resistance_yield_moment(&one_face, 2.5e8).why);
    CU_ASSERT(isnan(ss_resistance_yield_moment(&none, 2.5e8).value));
    CU_ASSERT(isnan(ss_resistance_web_shear(&none, 2.5e8, STEEL_E).value));
    CU_ASSERT_PTR_NOT_NULL(ss_resistance_web_shear(&none, 2.5e8, STEEL_E).why);
}

int main(void) {
    static const test_case cases[] = {{"web shear figures", test_web_shear_figures},
                                      {"stiffened ratio", test_stiffened_ratio},
                                      {"branches of the ratio", test_ratio_branches},
                                      {"webs of a box", test_box_webs},
                                      {"unknown slenderness", test_unknown_slenderness_is_said},
                                      {"yield moment", test_yield_moment_takes_the_smaller_face},
                                      {"what cannot be told", test_what_cannot_be_told}};
    return RUN_SUITE("resistance", cases);
}
