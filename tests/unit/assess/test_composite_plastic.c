/* test_composite_plastic.c - plastic moments of steel and slab: worked numbers, strips, limits. */
#include "composite_samples.h"
#include "working_checks.h"

/* AASHTO MBE example A1, interior stringer (from memory): steel 1600 kip, a = 1600 / (0.85 x 3 x 88) = 7.13
 * in, Dt 40.97 in, Mn 2873 kip-ft. By hand with the same plates: Mp 3029.2, Mn 2872.2. */
static void test_example_a1(void) {
    ss_section s;
    sample_a1(&s);
    const ss_slab_flange slab = sample_slab(88.0, 7.25, 0.0, 9.0, 3.0);
    const ss_composite_case c = sample_composite(&s, 36.0, true, &slab);
    ss_working w = {.count = 0};
    ss_resistance out;
    CU_ASSERT_EQUAL(ss_composite_plastic(&c, &out, &w), SS_OK);
    CHECK_CLOSE(out.value / KIP_FOOT, 2873.0, 5e-4);
    CHECK_CLOSE(step_value(&w, "As Fy") / KIP, 1600.0, 1e-4);
    CHECK_CLOSE(step_value(&w, "a") / INCH, 7.13, 1e-4);
    CHECK_CLOSE(step_value(&w, "Mp") / KIP_FOOT, 3029.2, 2e-4);
    CHECK_CLOSE(step_value(&w, "Dt") / INCH, 40.97, 2e-4);
    CU_ASSERT_PTR_NOT_NULL(strstr(out.rule, "1.07 - 0.7 Dp / Dt"));
    check_steps(&w, 18);
}

/* The axis in the slab, in the flange and in the web, thick and thin slabs, with a haunch: against strips.
 * The axis's place is asserted, so that each case is met. */
static void test_strips(void) {
    static const struct {
        double width, thickness, haunch;
        double axis_from, axis_to; /* of the steel's depth; above 1: in the slab or beyond the haunch */
    } rows[] = {{90.0, 6.0, 1.5, 1.0, 2.0},
                {60.0, 5.0, 1.5, 33.0 / 33.715, 1.0},
                {30.0, 4.0, 0.0, 0.5, 32.0 / 33.715},
                {30.0, 4.0, 2.0, 0.5, 32.0 / 33.715}};
    ss_section s;
    sample_a1(&s);
    for (int i = 0; i < ENTRIES(rows); i++) {
        const ss_slab_flange slab = sample_slab(rows[i].width, rows[i].thickness, rows[i].haunch, 8.0, 4.0);
        const ss_composite_case c = sample_composite(&s, 36.0, true, &slab);
        ss_working w = {.count = 0};
        ss_resistance out;
        CU_ASSERT_EQUAL(ss_composite_plastic(&c, &out, &w), SS_OK);
        CHECK_CLOSE(step_value(&w, "Mp"), plastic_by_strips(&s, 36.0 * KSI, &slab, (double)INFINITY), 1e-9);
        const double axis = step_value(&w, "z_p") / s.depth;
        CU_ASSERT(axis > rows[i].axis_from && axis < rows[i].axis_to);
    }
}

/* Without thickness there is the bare steel: Fy Z. The slab's top is then that of the steel and the axis in
 * the middle of it, which is no section that the slab's rule is for. */
static void test_no_thickness(void) {
    ss_section s;
    sample_w21(&s);
    const ss_slab_flange slab = sample_slab(100.0, 0.0, 0.0, 8.0, 4.0);
    const ss_composite_case c = sample_composite(&s, 50.0, true, &slab);
    ss_section_properties p;
    CU_ASSERT_EQUAL(ss_section_at(&s, s.depth, 0.0, &p, NULL), SS_OK);
    ss_working w = {.count = 0};
    ss_resistance out;
    CU_ASSERT_EQUAL(ss_composite_plastic(&c, &out, &w), SS_OK);
    CHECK_CLOSE(step_value(&w, "Mp"), 50.0 * KSI * p.Z, 1e-12);
    CU_ASSERT(isnan(out.value) && strstr(out.why, "0.42 Dt") != NULL);
    CU_ASSERT_EQUAL(ss_composite_partial(&c, 1e9, &out, NULL), SS_OK);
    CHECK_CLOSE(out.value, 50.0 * KSI * p.Z, 1e-12);
}

/* Dp at 0.1 Dt: both branches meet. */
static void test_branches_meet(void) {
    ss_section s;
    sample_w21(&s);
    /* a = As Fy / (0.85 fc b) = 0.1 (20.8 + 8) by the width */
    ss_section_properties p;
    CU_ASSERT_EQUAL(ss_section_at(&s, s.depth, 0.0, &p, NULL), SS_OK);
    const double width = 50.0 * p.A / INCH2 / (0.85 * 4.0 * 2.88);
    double value[2];
    for (int i = 0; i < 2; i++) {
        const ss_slab_flange slab =
            sample_slab(width * (i == 0 ? 1.0 + 1e-9 : 1.0 - 1e-9), 8.0, 0.0, 8.0, 4.0);
        const ss_composite_case c = sample_composite(&s, 50.0, true, &slab);
        value[i] = composite_plastic(&c).value;
    }
    CHECK_CLOSE(value[0], value[1], 1e-8);
}

/* Every limit that is missed is named. */
static void test_missed(void) {
    ss_section s;
    sample_a1(&s);
    const ss_slab_flange slab = sample_slab(88.0, 7.25, 0.0, 9.0, 3.0);
    ss_composite_case c = sample_composite(&s, 71.0, true, &slab);
    CU_ASSERT_PTR_NOT_NULL(strstr(composite_plastic(&c).why, "70 ksi"));
    c = sample_composite(&s, 36.0, false, &slab);
    CU_ASSERT_PTR_NOT_NULL(strstr(composite_plastic(&c).why, "hogs"));
    /* web 60 x 3/8: 160; then 40 x 0.3: 133, of which nearly 40 in are compressed under a thin slab */
    sample_uneven_i(&s, (double[]){16.0, 1.0}, (double[]){0.375, 60.0}, (double[]){12.0, 0.75});
    c = sample_composite(&s, 36.0, true, &slab);
    CU_ASSERT_PTR_NOT_NULL(strstr(composite_plastic(&c).why, "150 times"));
    sample_uneven_i(&s, (double[]){24.0, 2.0}, (double[]){0.3, 40.0}, (double[]){4.0, 0.25});
    const ss_slab_flange thin = sample_slab(20.0, 3.0, 0.0, 9.0, 3.0);
    c = sample_composite(&s, 36.0, true, &thin);
    CU_ASSERT_PTR_NOT_NULL(strstr(composite_plastic(&c).why, "2 Dcp / tw"));
    /* a Z whose axis is in the steel */
    sample_sketch(&s, &sketches[3]);
    c = sample_composite(&s, 36.0, true,
                         &(ss_slab_flange){.width = 0.1, .thickness = 0.05, .n = 8, .fc = 2e7});
    CU_ASSERT_PTR_NOT_NULL(strstr(composite_plastic(&c).why, "form"));
    c.flange.fc = (double)NAN;
    CU_ASSERT_PTR_NOT_NULL(strstr(composite_plastic(&c).why, "concrete"));
}

/* The four-plate sill of 36 ksi under a slab: As = 10 + 13.5 + 2 x 24.75 x 0.3125 = 38.97 in2, 1402.9 kip, a
 * = 1402.9 / (0.85 x 4 x 108) = 3.82 in. A section given by the same properties has the same moment. */
static void test_box_and_given(void) {
    ss_section s;
    sample_sill(&s, SS_TORSION_CLOSED);
    const ss_slab_flange slab = sample_slab(108.0, 6.0, 0.0, 8.0, 4.0);
    ss_composite_case c = sample_composite(&s, 36.0, true, &slab);
    ss_section_properties p;
    CU_ASSERT_EQUAL(ss_section_at(&s, s.depth, 0.0, &p, NULL), SS_OK);
    ss_working w = {.count = 0};
    ss_resistance out;
    CU_ASSERT_EQUAL(ss_composite_plastic(&c, &out, &w), SS_OK);
    const double force = 36.0 * (10.0 + 13.5 + 2.0 * 24.75 * 0.3125);
    const double a = force / (0.85 * 4.0 * 108.0);
    const double Mp = force * (32.0 - 0.5 * a - p.z_centroid / INCH);
    CHECK_CLOSE(step_value(&w, "a") / INCH, a, 1e-12);
    CHECK_CLOSE(out.value / (KIP * INCH), Mp * (1.07 - 0.7 * a / 32.0), 1e-12);
    ss_section given = {.name = "given", .shape = SS_SHAPE_GIVEN, .depth = s.depth};
    given.set_A = p.A;
    given.set_I = p.I;
    given.set_S_bottom = p.S_bottom;
    given.set_S_top = given.set_J = given.set_shear_area = given.set_Z = given.set_weight = (double)NAN;
    c.steel.section = &given;
    CHECK_CLOSE(composite_plastic(&c).value, out.value, 1e-12);
    c.flange.thickness = 2.0 * INCH;
    CU_ASSERT_PTR_NOT_NULL(strstr(composite_plastic(&c).why, "plates are not known"));
    given.set_S_bottom = (double)NAN;
    CU_ASSERT_PTR_NOT_NULL(strstr(composite_plastic(&c).why, "must be known"));
}

/* A tenth of the whole section gone: force and moment as with plates a tenth thinner at the same place. */
static void test_loss(void) {
    ss_section s;
    sample_w21(&s);
    const ss_slab_flange slab = sample_slab(60.0, 6.0, 0.0, 8.0, 4.0);
    const ss_composite_case c = sample_composite(&s, 50.0, true, &slab);
    s.loss = 0.1;
    const ss_composite_case weaker = sample_composite(&s, 45.0, true, &slab);
    const double thinned = composite_plastic(&c).value;
    s.loss = 0.0;
    CHECK_CLOSE(thinned, composite_plastic(&weaker).value, 1e-12);
}

/* A span that goes on over a support: 1.3 My, My without dead load Fy S_bottom of the whole section. */
static void test_continuous(void) {
    ss_section s;
    sample_a1(&s);
    const ss_slab_flange slab = sample_slab(88.0, 7.25, 0.0, 9.0, 3.0);
    ss_composite_case c = sample_composite(&s, 36.0, true, &slab);
    const ss_staged_moment dead = {.name = "steel and slab", .moment = 900.0 * KIP_FOOT};
    c.dead = &dead;
    c.dead_count = 1;
    c.continuous = true;
    ss_composite_properties whole;
    ss_section_properties p;
    CU_ASSERT_EQUAL(ss_section_at(&s, s.depth, 0.0, &p, NULL), SS_OK);
    CU_ASSERT_EQUAL(ss_composite_at(&p, &slab, false, &whole, NULL), SS_OK);
    const double My = dead.moment + (36.0 * KSI - dead.moment / p.S_bottom) * whole.S_bottom;
    const ss_resistance out = composite_plastic(&c);
    CHECK_CLOSE(out.value, 1.3 * My, 1e-12);
    CU_ASSERT_PTR_NOT_NULL(strstr(out.rule, "1.3 My"));
}

/* Standard Specifications 10.50.1.1 by hand on example A1: D' = 0.9 x 40.97 / 7.5 = 4.916, Dp / D' = 1.450;
 * My = 36 S_bottom of the whole section without dead load. */
static void test_standard(void) {
    ss_section s;
    sample_a1(&s);
    const ss_slab_flange slab = sample_slab(88.0, 7.25, 0.0, 9.0, 3.0);
    ss_composite_case c = sample_composite(&s, 36.0, true, &slab);
    ss_working w = {.count = 0};
    ss_resistance out;
    CU_ASSERT_EQUAL(ss_composite_plastic_lfr(&c, &out, &w), SS_OK);
    const double Mp = step_value(&w, "Mp");
    const double My = composite_yield(&c, 1.0).value;
    const double ratio = 1600.0 / (0.85 * 3.0 * 88.0) / (0.9 * 40.965 / 7.5);
    CHECK_CLOSE(step_value(&w, "Dp/D'"), ratio, 1e-4);
    CHECK_CLOSE(out.value, (5.0 * Mp - 0.85 * My) / 4.0 + (0.85 * My - Mp) / 4.0 * ratio, 1e-4);
    c.flange.width *= 2.0; /* half of it: within D' */
    CHECK_CLOSE(step_value(&w, "2Dcp/tw,max"), 19230.0 / sqrt(36000.0), 1e-9);
    w.count = 0;
    CU_ASSERT_EQUAL(ss_composite_plastic_lfr(&c, &out, &w), SS_OK);
    CHECK_CLOSE(out.value, step_value(&w, "Mp"), 1e-15);
    c.continuous = true;
    CU_ASSERT_EQUAL(ss_composite_plastic_lfr(&c, &out, NULL), SS_OK);
    CU_ASSERT(isnan(out.value) && strstr(out.why, "support") != NULL);
}

/* Partial action. W21x50, Fy 50, slab 120 in effective 4.5 in deep on 3 in of ribs, f'c 4, 386 kip tied: AISC
 * Design Examples I.1 has a 0.946 in and 0.9 Mn 769 kip-ft from the manual's tables (from memory; plates
 * without fillets come within 1 percent). Strips agree exactly; nothing tied is the bare beam; all tied the
 * full one. */
static void test_partial(void) {
    ss_section s;
    sample_w21(&s);
    const ss_slab_flange slab = sample_slab(120.0, 4.5, 3.0, 8.0, 4.0);
    const ss_composite_case c = sample_composite(&s, 50.0, true, &slab);
    ss_section_properties p;
    CU_ASSERT_EQUAL(ss_section_at(&s, s.depth, 0.0, &p, NULL), SS_OK);
    ss_working w = {.count = 0};
    ss_resistance out;
    CU_ASSERT_EQUAL(ss_composite_partial(&c, 386.0 * KIP, &out, &w), SS_OK);
    CHECK_CLOSE(step_value(&w, "a") / INCH, 0.946, 1e-3);
    CHECK_CLOSE(0.9 * out.value / KIP_FOOT, 769.0, 0.01);
    CHECK_CLOSE(out.value, plastic_by_strips(&s, 50.0 * KSI, &slab, 386.0 * KIP), 1e-9);
    check_steps(&w, 10);
    CU_ASSERT_EQUAL(ss_composite_partial(&c, 0.0, &out, NULL), SS_OK);
    CHECK_CLOSE(out.value, 50.0 * KSI * p.Z, 1e-12);
    CU_ASSERT_EQUAL(ss_composite_partial(&c, 1e9, &out, &w), SS_OK);
    const ss_resistance full = composite_plastic(&c);
    CU_ASSERT(full.value <= out.value);
    CHECK_CLOSE(out.value, plastic_by_strips(&s, 50.0 * KSI, &slab, (double)INFINITY), 1e-9);
    CU_ASSERT_EQUAL(ss_composite_partial(&c, -1.0, &out, NULL), SS_OK);
    CU_ASSERT(isnan(out.value));
    CHECK_CLOSE(ss_composite_partial_I(1000.0, 3000.0, 0.25), 2000.0, 1e-15);
    CHECK_CLOSE(ss_composite_partial_I(1000.0, 3000.0, 2.0), 3000.0, 1e-15);
}

int main(void) {
    static const test_case cases[] = {{"example A1", test_example_a1},
                                      {"strips", test_strips},
                                      {"no thickness", test_no_thickness},
                                      {"branches meet", test_branches_meet},
                                      {"missed limits", test_missed},
                                      {"box, and given properties", test_box_and_given},
                                      {"loss of the whole section", test_loss},
                                      {"continuous span", test_continuous},
                                      {"Standard Specifications", test_standard},
                                      {"partial action", test_partial}};
    return RUN_SUITE("composite plastic", cases);
}
