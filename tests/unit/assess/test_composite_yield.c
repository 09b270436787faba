/* test_composite_yield.c - first yield of steel and slab by stages: by hand, limits, signs, and choice by
 * method. */
#include "composite_samples.h"
#include "working_checks.h"

static ss_section_properties props(const ss_section *s) {
    ss_section_properties p = {0};
    CU_ASSERT_EQUAL(ss_section_at(s, s->depth, 0.0, &p, NULL), SS_OK);
    return p;
}

static ss_composite_properties both(const ss_section *s, const ss_slab_flange *slab, bool cracked) {
    const ss_section_properties p = props(s);
    ss_composite_properties c = {0};
    CU_ASSERT_EQUAL(ss_composite_at(&p, slab, cracked, &c, NULL), SS_OK);
    return c;
}

/* A car's sill, 29 in deep: top 24 x 1/2, webs 3/8, bottom 20 x 7/8. */
static void sample_long_sill(ss_section *s) {
    sample_box_section(s, (sample_box){29.0, 24.0, 0.5, 20.0, 0.875, 13.2, 0.375}, SS_TORSION_CLOSED);
}

/* By hand, on a calculator: slab 6 x 108 in, f'c 4, n 8 and 24. A 50.22 in2 at 13.08 in, I 7116 in4. With n
 * 8: 81 in2 more at 32 in, z = (656.9 + 2592) / 131.22 = 24.76, I = 7116 + 50.22 x 11.68^2 + 81 (7.24^2 + 3)
 * = 18 454. With n 24: 27 in2, z 19.69, I 13 481. Span 66 ft, sill 0.6 and slab 0.675 kip/ft: 326.7 and 367.5
 * kip-ft; the slab's stresses the bottom by 8.1 ksi on the sill and 6.4 on n 24. Unshored, 1.25 times both:
 * 19.15 ksi, so that (36 - 19.15) x 745.3 / 12 = 1046.7 kip-ft are left: 1914.5 in all. */
static void test_hand(void) {
    ss_section s;
    sample_long_sill(&s);
    const ss_slab_flange slab = sample_slab(108.0, 6.0, 0.0, 8.0, 4.0);
    const ss_slab_flange lasting = sample_slab(108.0, 6.0, 0.0, 24.0, 4.0);
    const double sill = 0.6 * 66.0 * 66.0 / 8.0;
    const double wet = 0.675 * 66.0 * 66.0 / 8.0;
    ss_staged_moment dead[] = {{.name = "sill", .moment = 1.25 * sill * KIP_FOOT},
                               {.name = "wet slab", .moment = 1.25 * wet * KIP_FOOT}};
    ss_composite_case c = sample_composite(&s, 36.0, true, &slab);
    c.dead = dead;
    c.dead_count = 2;
    ss_working w = {.count = 0};
    ss_resistance out;
    CU_ASSERT_EQUAL(ss_composite_yield(&c, 1.0, &out, &w), SS_OK);
    CHECK_CLOSE(step_value(&w, "I") / INCH4, 18454.0, 1e-4);
    CHECK_CLOSE(step_value(&w, "z") / INCH, 24.76, 1e-4);
    CHECK_CLOSE(step_of(&w, "S_bot") / INCH3, 745.3, 2e-4);
    CHECK_CLOSE(step_of(&w, "f_bot") / KSI, -1.25 * 8.107, 1e-3);
    CHECK_CLOSE(step_value(&w, "left_bot") / KSI, 36.0 - 19.15, 1e-3);
    CHECK_CLOSE(out.value / KIP_FOOT, 1914.5, 5e-4);
    CU_ASSERT_PTR_NOT_NULL(strstr(out.rule, "bottom flange pulled"));
    check_steps(&w, 20);
    /* shored: the slab's weight on the section with n 24 */
    dead[1].composite = true;
    dead[1].flange = lasting;
    w.count = 0;
    CU_ASSERT_EQUAL(ss_composite_yield(&c, 1.0, &out, &w), SS_OK);
    CHECK_CLOSE(step_of(&w, "f_bot") / KSI, -1.25 * 6.447, 1e-3);
    CHECK_CLOSE(out.value / KIP_FOOT,
                1.25 * (sill + wet) + (36.0 - 1.25 * (sill * 12.0 / 544.0 + 6.447)) * 745.3 / 12.0, 5e-4);
    /* plastic: 1807.9 kip, a 4.92 in, Mp 2932 kip-ft, and 1.07 - 0.7 x 4.92 / 35 of it */
    CHECK_CLOSE(composite_plastic(&c).value / KIP_FOOT, 2932.0 * (1.07 - 0.7 * 4.923 / 35.0), 1e-3);
}

/* Stages: those on the short-term section do not matter at all, the order of the others neither. */
static void test_stages(void) {
    ss_section s;
    sample_a1(&s);
    const ss_slab_flange slab = sample_slab(88.0, 7.25, 1.0, 9.0, 3.0);
    const ss_slab_flange lasting = sample_slab(88.0, 7.25, 1.0, 27.0, 3.0);
    ss_composite_case c = sample_composite(&s, 36.0, true, &slab);
    const double plain = composite_yield(&c, 1.0).value;
    const ss_composite_properties p = both(&s, &slab, false);
    CHECK_CLOSE(plain, 36.0 * KSI * fmin(p.S_bottom, p.S_top), 1e-12);
    const ss_staged_moment one = {.name = "a", .moment = 2e5, .composite = true, .flange = slab};
    c.dead = &one;
    c.dead_count = 1;
    CHECK_CLOSE(composite_yield(&c, 1.0).value, plain, 1e-12);
    const ss_staged_moment a = {.name = "a", .moment = 4e5};
    const ss_staged_moment b = {.name = "b", .moment = 2e5, .composite = true, .flange = lasting};
    const ss_staged_moment orders[2][3] = {{a, b, one}, {one, b, a}};
    double value[2];
    for (int i = 0; i < 2; i++) {
        c.dead = orders[i];
        c.dead_count = 3;
        value[i] = composite_yield(&c, 0.95).value;
    }
    CHECK_CLOSE(value[0], value[1], 1e-14);
    /* by the sum of stresses, bottom fibre */
    const double stress =
        4e5 / props(&s).S_bottom + 2e5 / both(&s, &lasting, false).S_bottom + 2e5 / p.S_bottom;
    CHECK_CLOSE(0.95 * value[0], 8e5 + (0.95 * 36.0 * KSI - stress) * p.S_bottom, 1e-12);
    CU_ASSERT(value[0] < plain);
}

/* A slab without thickness, or of hardly any stiffness, leaves the bare steel. */
static void test_bare(void) {
    ss_section s;
    sample_w21(&s);
    ss_slab_flange slab = sample_slab(100.0, 0.0, 2.0, 8.0, 4.0);
    ss_composite_case c = sample_composite(&s, 50.0, true, &slab);
    const double bare = resist(0, &c.steel).value;
    CHECK_CLOSE(composite_yield(&c, 1.0).value, bare, 1e-12);
    c.flange = sample_slab(100.0, 7.0, 2.0, 1e15, 4.0);
    CHECK_CLOSE(composite_yield(&c, 1.0).value, bare, 1e-9);
    c.flange.n = 1e3;
    CU_ASSERT(composite_yield(&c, 1.0).value > bare);
}

/* Hogging without bars: the bare steel with its bottom compressed, whatever its form and length. */
static void test_hogging_without_bars(void) {
    const ss_slab_flange slab = sample_slab(100.0, 7.0, 1.0, 8.0, 4.0);
    for (int i = 0; i < ENTRIES(sketches); i++) {
        for (int feet = 0; feet <= 60; feet += 20) {
            ss_section s;
            sample_sketch(&s, &sketches[i]);
            ss_composite_case c = sample_composite(&s, 36.0, false, &slab);
            c.steel = bend(&s, 36.0, false, feet);
            c.steel.upright = true;
            const ss_resistance found = composite_yield(&c, 1.0);
            const ss_resistance bare = resist(0, &c.steel);
            CHECK_ROW(isnan(found.value) == isnan(bare.value), sketches[i].name);
            if (!isnan(bare.value)) {
                CHECK_ROW(fabs(found.value - bare.value) <= 1e-12 * bare.value, sketches[i].name);
            }
        }
    }
}

/* Hogging with bars, by hand. W21x50 by plates: A 14.485, I 717.5 + 243.2 = 960.7 about 10.4 in; 4 in2 of
 * bars 2 in below the top of an 8 in slab without haunch, at 26.8 in: z = (150.6 + 107.2) / 18.485 = 13.949,
 * I = 960.7 + 14.485 x 3.549^2 + 4 x 12.851^2 = 1803.7; bottom 129.3, top 263.3, bars 140.35 in3. Bars of 40
 * ksi govern, of 60 the bottom flange. */
static void test_hogging_with_bars(void) {
    ss_section s;
    sample_w21(&s);
    ss_slab_flange slab = sample_slab(100.0, 8.0, 0.0, 8.0, 4.0);
    slab.top = 4.0 * INCH2;
    slab.top_depth = 2.0 * INCH;
    slab.bar_fy = 40.0 * KSI;
    ss_composite_case c = sample_composite(&s, 50.0, false, &slab);
    ss_resistance found = composite_yield(&c, 1.0);
    CHECK_CLOSE(found.value / (KIP * INCH), 40.0 * 140.35, 2e-4);
    CU_ASSERT_PTR_NOT_NULL(strstr(found.rule, "bars"));
    c.flange.bar_fy = 60.0 * KSI;
    found = composite_yield(&c, 1.0);
    CHECK_CLOSE(found.value / (KIP * INCH), 50.0 * 129.3, 3e-4);
    CU_ASSERT_PTR_NOT_NULL(strstr(found.rule, "bottom flange"));
    /* sideways: the same stress as of the bare beam, at another modulus */
    c.steel.unbraced = 20.0 * FOOT;
    const double Fnc = resist(0, &(ss_flexure_case){.section = &s,
                                                    .depth = s.depth,
                                                    .fy = c.steel.fy,
                                                    .E = STEEL_E,
                                                    .G = STEEL_G,
                                                    .unbraced = 20.0 * FOOT})
                           .value /
                       props(&s).S_bottom;
    CHECK_CLOSE(composite_yield(&c, 1.0).value, Fnc * both(&s, &slab, true).S_bottom, 1e-12);
    /* allowable stress: bars to 24 and 36 ksi of 60, steel to 27.5 and 37.5 of 50 */
    ss_resistance asr;
    c.steel.unbraced = 0.0;
    CU_ASSERT_EQUAL(ss_composite_strength(&c, SS_STRENGTH_ASR_INVENTORY, 0.55, false, &asr, NULL), SS_OK);
    CHECK_CLOSE(0.55 * asr.value / (KIP * INCH), 24.0 * 140.35, 2e-4);
    CU_ASSERT_EQUAL(ss_composite_strength(&c, SS_STRENGTH_ASR_OPERATING, 0.75, false, &asr, NULL), SS_OK);
    CHECK_CLOSE(0.75 * asr.value / (KIP * INCH), 0.75 * 50.0 * 129.3, 3e-4);
    c.flange.bar_fy = 0.0;
    CU_ASSERT_PTR_NOT_NULL(strstr(composite_yield(&c, 1.0).why, "bars"));
}

/* With bars a deeper part of the web is compressed, and sheds more: the stress is below that of the bare
 * girder. In service the web's buckling stress is not to be exceeded at all. */
static void test_hogging_web(void) {
    ss_section s;
    sample_uneven_i(&s, (double[]){18.0, 1.375}, (double[]){0.5, 69.0}, (double[]){16.0, 1.0});
    ss_slab_flange slab = sample_slab(100.0, 8.0, 0.0, 8.0, 4.0);
    slab.top = 10.0 * INCH2;
    slab.top_depth = 2.0 * INCH;
    ss_composite_case c = sample_composite(&s, 50.0, false, &slab);
    const ss_composite_properties p = both(&s, &slab, true);
    ss_working w = {.count = 0};
    ss_resistance out;
    CU_ASSERT_EQUAL(ss_composite_strength(&c, SS_STRENGTH_SERVICE, 0.95, false, &out, &w), SS_OK);
    const double Dc = p.z / INCH - 1.375;
    const double Fcrw = 8.1 * 29000.0 * (0.5 / Dc) * (0.5 / Dc);
    CHECK_CLOSE(step_value(&w, "Dc") / INCH, Dc, 1e-12);
    CHECK_CLOSE(0.95 * out.value, Fcrw * KSI * p.S_bottom, 1e-9);
    w.count = 0;
    CU_ASSERT_EQUAL(ss_composite_yield(&c, 1.0, &out, &w), SS_OK);
    const double awc = 2.0 * Dc * 0.5 / (18.0 * 1.375);
    const double limit = fmax(4.6, fmin(5.7, 3.1 + 5.0 / awc)) * sqrt(29000.0 / 50.0);
    const double Rb = fmin(1.0, 1.0 - awc / (1200.0 + 300.0 * awc) * (2.0 * Dc / 0.5 - limit));
    CHECK_CLOSE(step_value(&w, "Fnc"), Rb * 50.0 * KSI, 1e-9);
    CU_ASSERT(Rb < 1.0);
}

/* Dead moments of the other sign leave more; where they alone are too much the value is below their sum, and
 * a number. */
static void test_signs(void) {
    ss_section s;
    sample_w21(&s);
    const ss_slab_flange slab = sample_slab(40.0, 5.0, 0.0, 8.0, 4.0);
    const ss_composite_properties p = both(&s, &slab, false);
    const ss_section_properties steel = props(&s);
    ss_staged_moment dead = {.name = "hogging", .moment = -1e5};
    ss_composite_case c = sample_composite(&s, 50.0, true, &slab);
    c.dead = &dead;
    c.dead_count = 1;
    CHECK_CLOSE(composite_yield(&c, 1.0).value, -1e5 + (50.0 * KSI + 1e5 / steel.S_bottom) * p.S_bottom,
                1e-12);
    dead.moment = 1.2 * 50.0 * KSI * steel.S_bottom;
    const double over = composite_yield(&c, 1.0).value;
    CU_ASSERT(over < dead.moment);
    /* hogging: the same moments count the other way */
    c.sagging = false;
    dead.moment = 1e5;
    CHECK_CLOSE(composite_yield(&c, 1.0).value, -1e5 + 1e5 + 50.0 * KSI * steel.S_bottom, 1e-12);
    dead.moment = -1e5;
    CHECK_CLOSE(composite_yield(&c, 1.0).value, 50.0 * KSI * steel.S_bottom, 1e-12);
    dead.moment = -2e6;
    CU_ASSERT(composite_yield(&c, 1.0).value < 2e6);
}

/* A slab so stiff that its axis lies above the steel: the wet stage presses the steel's top, the live load
 * pulls it. The top then has what it had, and Fy. */
static void test_axis_in_slab(void) {
    ss_section s;
    sample_i_beam(&s, 10.0, 4.0, 0.4, 0.25);
    const ss_slab_flange slab = sample_slab(200.0, 12.0, 0.0, 6.0, 6.0);
    const ss_composite_properties p = both(&s, &slab, false);
    CU_ASSERT(p.z > s.depth);
    const ss_section_properties steel = props(&s);
    /* hogging beforehand nearly to yield: the top has 1 percent left, the bottom 1.99 Fy */
    const ss_staged_moment dead = {.name = "jacked", .moment = -0.99 * 36.0 * KSI * steel.S_bottom};
    ss_composite_case c = sample_composite(&s, 36.0, true, &slab);
    c.dead = &dead;
    c.dead_count = 1;
    const double top = -dead.moment / steel.S_top;      /* pulled already */
    const double bottom = dead.moment / steel.S_bottom; /* pressed */
    const double by_top = (36.0 * KSI - top) / ((p.z - s.depth) / p.I);
    const double by_bottom = (36.0 * KSI - bottom) / (p.z / p.I);
    CU_ASSERT(by_top < by_bottom);
    CHECK_CLOSE(composite_yield(&c, 1.0).value, dead.moment + by_top, 1e-9);
    CU_ASSERT_PTR_NOT_NULL(strstr(composite_yield(&c, 1.0).rule, "axis being above it"));
}

/* LRFD strength without a plastic moment: the slab at 0.6 f'c is a limit, and of service it is none. */
static void test_concrete(void) {
    ss_section s;
    sample_uneven_i(&s, (double[]){18.0, 1.375}, (double[]){0.375, 60.0}, (double[]){16.0, 1.0});
    const ss_slab_flange slab = sample_slab(30.0, 6.0, 0.0, 8.0, 1.5);
    const ss_slab_flange lasting = sample_slab(30.0, 6.0, 0.0, 24.0, 1.5);
    const ss_staged_moment dead = {.name = "rail", .moment = 2e5, .composite = true, .flange = lasting};
    ss_composite_case c = sample_composite(&s, 50.0, true, &slab);
    c.dead = &dead;
    c.dead_count = 1;
    const ss_composite_properties p = both(&s, &slab, false);
    ss_resistance out;
    ss_working w = {.count = 0};
    CU_ASSERT_EQUAL(ss_composite_strength(&c, SS_STRENGTH_LRFD, 1.0, false, &out, &w), SS_OK);
    /* all on the short-term section, so that the stage does not matter */
    CHECK_CLOSE(out.value, 0.6 * 1.5 * KSI * 8.0 * p.S_slab, 1e-12);
    CU_ASSERT_PTR_NOT_NULL(strstr(out.rule, "0.6 f'c"));
    bool told = false;
    for (int i = 0; i < w.count; i++) {
        told = told || (strcmp(w.steps[i].symbol, "no Mp") == 0 && strstr(w.steps[i].meaning, "150") != NULL);
    }
    CU_ASSERT(told);
    const double web = 8.1 * 29000.0 * pow(0.375 / 60.0, 2.0);
    CU_ASSERT_EQUAL(ss_composite_strength(&c, SS_STRENGTH_SERVICE, 0.95, false, &out, NULL), SS_OK);
    CU_ASSERT(out.value > 0.6 * 1.5 * KSI * 8.0 * p.S_slab);
    CU_ASSERT(web < 50.0);
}

/* The choice by method. */
static void test_choice(void) {
    ss_section s;
    sample_a1(&s);
    const ss_slab_flange slab = sample_slab(88.0, 7.25, 0.0, 9.0, 4.0);
    const ss_staged_moment dead = {.name = "slab", .moment = 4e5};
    ss_composite_case c = sample_composite(&s, 36.0, true, &slab);
    c.dead = &dead;
    c.dead_count = 1;
    ss_resistance out;
    ss_resistance lfr;
    CU_ASSERT_EQUAL(ss_composite_strength(&c, SS_STRENGTH_LRFD, 1.0, false, &out, NULL), SS_OK);
    CHECK_CLOSE(out.value, composite_plastic(&c).value, 1e-15);
    CU_ASSERT_EQUAL(ss_composite_strength(&c, SS_STRENGTH_LFR, 1.0, false, &out, NULL), SS_OK);
    CU_ASSERT_EQUAL(ss_composite_plastic_lfr(&c, &lfr, NULL), SS_OK);
    CHECK_CLOSE(out.value, lfr.value, 1e-15);
    CU_ASSERT_EQUAL(ss_composite_strength(&c, SS_STRENGTH_LFR, 1.0, true, &out, NULL), SS_OK);
    CHECK_CLOSE(out.value, composite_yield(&c, 1.0).value, 1e-15);
    const double shares[] = {0.95, 0.55, 0.75};
    const ss_strength elastic[] = {SS_STRENGTH_SERVICE, SS_STRENGTH_ASR_INVENTORY, SS_STRENGTH_ASR_OPERATING};
    for (int i = 0; i < 3; i++) {
        CU_ASSERT_EQUAL(ss_composite_strength(&c, elastic[i], shares[i], false, &out, NULL), SS_OK);
        CHECK_CLOSE(out.value, composite_yield(&c, shares[i]).value, 1e-15);
    }
}

/* What is not known is said; a section given by its properties has first yield, and says what is not looked
 * at. */
static void test_unknown(void) {
    ss_section s;
    sample_w21(&s);
    const ss_slab_flange slab = sample_slab(60.0, 6.0, 1.0, 8.0, 4.0);
    ss_composite_case c = sample_composite(&s, 50.0, true, &slab);
    const double plates = composite_yield(&c, 1.0).value;
    CU_ASSERT_PTR_NOT_NULL(strstr(composite_yield(&c, 0.0).why, "share"));
    const ss_staged_moment dead = {.name = "?", .moment = (double)NAN};
    c.dead = &dead;
    c.dead_count = 1;
    CU_ASSERT_PTR_NOT_NULL(strstr(composite_yield(&c, 1.0).why, "dead load"));
    c.dead_count = 0;
    c.steel.fy = (double)NAN;
    CU_ASSERT_PTR_NOT_NULL(strstr(composite_yield(&c, 1.0).why, "yield stress"));
    c.steel.fy = 50.0 * KSI;
    c.flange.n = 0.0;
    CU_ASSERT_PTR_NOT_NULL(strstr(composite_yield(&c, 1.0).why, "slab"));
    c.flange.n = 8.0;
    c.steel.depth = 0.5 * INCH;
    ss_resistance out = {.value = 7.0, .rule = NULL, .why = NULL};
    CU_ASSERT_EQUAL(ss_composite_yield(&c, 1.0, &out, NULL), SS_ERROR_DESCRIPTION);
    CU_ASSERT_EQUAL(out.value, 7.0);
    const ss_section_properties p = props(&s);
    ss_section given = {.name = "given", .shape = SS_SHAPE_GIVEN, .depth = s.depth};
    given.set_A = p.A;
    given.set_I = p.I;
    given.set_S_bottom = p.S_bottom;
    given.set_S_top = given.set_J = given.set_shear_area = given.set_Z = given.set_weight = (double)NAN;
    c.steel.section = &given;
    c.steel.depth = s.depth;
    out = composite_yield(&c, 1.0);
    CHECK_CLOSE(out.value, plates, 1e-12);
    CU_ASSERT_STRING_EQUAL(out.rule, SS_COMPOSITE_UNCHECKED);
}

int main(void) {
    static const test_case cases[] = {{"by hand", test_hand},
                                      {"stages", test_stages},
                                      {"bare steel", test_bare},
                                      {"hogging without bars", test_hogging_without_bars},
                                      {"hogging with bars", test_hogging_with_bars},
                                      {"hogging, web", test_hogging_web},
                                      {"signs", test_signs},
                                      {"axis in the slab", test_axis_in_slab},
                                      {"concrete", test_concrete},
                                      {"choice by method", test_choice},
                                      {"unknown", test_unknown}};
    return RUN_SUITE("composite yield", cases);
}
