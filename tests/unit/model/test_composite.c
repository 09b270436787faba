/* test_composite.c - elastic sections of steel, concrete and bars: hand sums, parallel axes, limits. */
#include "section_samples.h"
#include "sillspan/composite.h"
#include "support/suite.h"

static ss_section_properties steel_of(const ss_section *s) {
    ss_section_properties p = {0};
    CU_ASSERT_EQUAL(ss_section_at(s, s->depth, 0.0, &p, NULL), SS_OK);
    return p;
}

static ss_composite_properties composite(const ss_section_properties *steel, const ss_slab_flange *flange,
                                         bool cracked) {
    ss_composite_properties c = {0};
    ss_error error = {SS_OK, ""};
    CHECK_OK(ss_composite_at(steel, flange, cracked, &c, &error), &error);
    return c;
}

static ss_slab_flange slab(double width, double thickness, double haunch, double n) {
    return (ss_slab_flange){
        .width = width * INCH, .thickness = thickness * INCH, .haunch = haunch * INCH, .n = n};
}

/* W33x130 with a cover plate 10.5 x 5/8 in, as in AASHTO MBE example A1 (from memory): A 44.86 in2 and I 8302
 * in4 of the steel, by the tables of shapes; its plates without fillets come within 1.5 percent. */
static void test_example(void) {
    ss_section s;
    sample_start(&s, SS_TORSION_OPEN);
    sample_plate(&s, 10.5, 0.625, 0.0, 0.0);
    sample_plate(&s, 11.51, 0.855, 0.0, 0.625);
    sample_plate(&s, 0.58, 31.38, 0.0, 1.48);
    sample_plate(&s, 11.51, 0.855, 0.0, 32.86);
    sample_end(&s);
    const ss_section_properties p = steel_of(&s);
    CHECK_CLOSE(p.A / INCH2, 44.86, 0.015);
    CHECK_CLOSE(p.I / INCH4, 8302.0, 0.015);
    const ss_slab_flange f = slab(88.0, 7.25, 0.0, 9.0);
    const ss_composite_properties c = composite(&p, &f, false);
    /* parallel axes, with the two parts' centroids apart by e: I = Is + Ic + As Ac / (As + Ac) e^2 */
    const double A = 88.0 * 7.25 / 9.0;
    const double e = s.depth / INCH + 3.625 - p.z_centroid / INCH;
    const double I = p.I / INCH4 + A * 7.25 * 7.25 / 12.0 + p.A / INCH2 * A / (p.A / INCH2 + A) * e * e;
    CHECK_CLOSE(c.I / INCH4, I, 1e-12);
    CHECK_CLOSE(c.A / INCH2, p.A / INCH2 + A, 1e-12);
    const double z = p.z_centroid / INCH + A / (p.A / INCH2 + A) * e;
    CHECK_CLOSE(c.z / INCH, z, 1e-12);
    CHECK_CLOSE(c.S_bottom / INCH3, I / z, 1e-12);
    CHECK_CLOSE(c.S_top / INCH3, I / fabs(s.depth / INCH - z), 1e-12);
    CHECK_CLOSE(c.S_slab / INCH3, I / (s.depth / INCH + 7.25 - z), 1e-12);
    CHECK_CLOSE(c.Q / INCH3, A * (s.depth / INCH + 3.625 - z), 1e-12);
    CHECK_CLOSE(c.depth / INCH, s.depth / INCH + 7.25, 1e-12);
    CU_ASSERT(isinf(c.S_bars));
}

/* The concrete and its bars as plates of one steel, beside the section's own sums. */
static void test_as_plates(void) {
    ss_section bare;
    ss_section whole;
    ss_section *const sections[] = {&bare, &whole};
    for (int i = 0; i < 2; i++) {
        sample_start(sections[i], SS_TORSION_OPEN);
        sample_plate(sections[i], 18.0, 0.75, 0.0, 0.0);
        sample_plate(sections[i], 0.5, 24.0, 0.0, 0.75);
        sample_plate(sections[i], 20.0, 0.5, 0.0, 24.75);
    }
    sample_plate(&whole, 96.0 / 8.0, 6.0, 0.0, 27.25);
    sample_end(&bare);
    sample_end(&whole);
    const ss_section_properties steel = steel_of(&bare);
    const ss_section_properties plates = steel_of(&whole);
    const ss_slab_flange f = slab(96.0, 6.0, 2.0, 8.0);
    const ss_composite_properties c = composite(&steel, &f, false);
    CHECK_CLOSE(c.A, plates.A, 1e-12);
    CHECK_CLOSE(c.I, plates.I, 1e-12);
    CHECK_CLOSE(c.z, plates.z_centroid, 1e-12);
    CHECK_CLOSE(c.S_bottom, plates.S_bottom, 1e-12);
    CHECK_CLOSE(c.S_slab, plates.S_top, 1e-12);
    CHECK_CLOSE(c.J, steel.J + 12.0 * 216.0 / 6.0 * INCH4, 1e-12);
}

/* A car's sill of 50.2 in2 at 13.08 in with I 7116 in4 under 108 x 6 in: by hand 18 454 in4 with n 8 and 13
 * 481 with n 24, S of the bottom 745 and 684 in3. */
static void test_sill(void) {
    ss_section s;
    sample_box_section(&s, (sample_box){29.0, 24.0, 0.5, 20.0, 0.875, 13.2, 0.375}, SS_TORSION_CLOSED);
    const ss_section_properties p = steel_of(&s);
    const double I[] = {18454.0, 13481.0};
    const double S[] = {745.3, 684.6};
    for (int i = 0; i < 2; i++) {
        const ss_slab_flange f = slab(108.0, 6.0, 0.0, i == 0 ? 8.0 : 24.0);
        const ss_composite_properties c = composite(&p, &f, false);
        CHECK_CLOSE(c.I / INCH4, I[i], 1e-4);
        CHECK_CLOSE(c.S_bottom / INCH3, S[i], 5e-4);
    }
}

/* Cracked: 4 in2 of bars at 26.8 in and 3 at 23.8 in over 14.4854 in2 at 10.4 in; sums by hand. */
static void test_cracked(void) {
    ss_section s;
    sample_i_beam(&s, 20.8, 6.53, 0.535, 0.38);
    const ss_section_properties p = steel_of(&s);
    ss_slab_flange f = slab(96.0, 8.0, 0.0, 8.0);
    const ss_composite_properties none = composite(&p, &f, true);
    CHECK_CLOSE(none.I, p.I, 1e-12);
    CHECK_CLOSE(none.S_bottom, p.S_bottom, 1e-12);
    CHECK_CLOSE(none.J, p.J, 1e-12);
    CU_ASSERT(isinf(none.S_bars) && isinf(none.S_slab));
    f.top = 4.0 * INCH2;
    f.top_depth = 2.0 * INCH;
    f.bottom = 3.0 * INCH2;
    f.bottom_depth = 5.0 * INCH;
    const ss_composite_properties c = composite(&p, &f, true);
    const double A = p.A / INCH2;
    const double z = (A * 10.4 + 4.0 * 26.8 + 3.0 * 23.8) / (A + 7.0);
    const double I = p.I / INCH4 + A * (z - 10.4) * (z - 10.4) + 4.0 * (26.8 - z) * (26.8 - z) +
                     3.0 * (23.8 - z) * (23.8 - z);
    CHECK_CLOSE(c.z / INCH, z, 1e-12);
    CHECK_CLOSE(c.I / INCH4, I, 1e-12);
    CHECK_CLOSE(c.S_bars / INCH3, I / (26.8 - z), 1e-12);
    CHECK_CLOSE(c.Q / INCH3, 4.0 * (26.8 - z) + 3.0 * (23.8 - z), 1e-12);
}

/* Without thickness, or with a modular ratio beyond all bounds, it is the steel; a stiffer concrete is
 * stiffer. */
static void test_limits(void) {
    ss_section s;
    sample_i_beam(&s, 20.8, 6.53, 0.535, 0.38);
    const ss_section_properties p = steel_of(&s);
    const ss_slab_flange thin = slab(96.0, 0.0, 1.0, 8.0);
    CHECK_CLOSE(composite(&p, &thin, false).I, p.I, 1e-15);
    const ss_slab_flange soft = slab(96.0, 8.0, 1.0, 1e15);
    CHECK_CLOSE(composite(&p, &soft, false).I, p.I, 1e-12);
    double before = p.I;
    for (double n = 1000.0; n > 1.0; n *= 0.5) {
        const ss_slab_flange f = slab(96.0, 8.0, 1.0, n);
        const double I = composite(&p, &f, false).I;
        CU_ASSERT(I > before);
        before = I;
    }
}

/* Where the centroid comes from, and what is asked for. */
static void test_given(void) {
    ss_section s;
    sample_i_beam(&s, 20.8, 6.53, 0.535, 0.38);
    const ss_section_properties p = steel_of(&s);
    const ss_slab_flange f = slab(96.0, 8.0, 1.0, 8.0);
    const double I = composite(&p, &f, false).I;
    ss_section_properties given = {.A = p.A, .I = p.I, .depth = p.depth, .S_bottom = p.S_bottom};
    CHECK_CLOSE(composite(&given, &f, false).I, I, 1e-12);
    given.S_bottom = 0.0;
    given.S_top = p.S_top;
    CHECK_CLOSE(composite(&given, &f, false).I, I, 1e-12);
    given.S_top = 0.0;
    ss_composite_properties c = {.A = 7.0};
    ss_error error = {SS_OK, ""};
    CU_ASSERT_EQUAL(ss_composite_at(&given, &f, false, &c, &error), SS_ERROR_DESCRIPTION);
    CU_ASSERT(error.message[0] != '\0' && c.A == 7.0);
    given = p;
    given.A = 0.0;
    CU_ASSERT_EQUAL(ss_composite_at(&given, &f, false, &c, NULL), SS_ERROR_DESCRIPTION);
}

int main(void) {
    static const test_case cases[] = {{"stringer with a cover plate", test_example},
                                      {"slab as a plate", test_as_plates},
                                      {"car's sill", test_sill},
                                      {"cracked", test_cracked},
                                      {"limits", test_limits},
                                      {"given properties", test_given}};
    return RUN_SUITE("composite", cases);
}
