/* test_slab_section.c - bending, shear and the cracked section of a slab against sums over slices. */
#include <string.h>

#include "sillspan/slab_strength.h"
#include "support/random.h"
#include "support/suite.h"
#include "working_checks.h"

#define ES (29000.0 * KSI)

/* 7 in of 4 ksi with #5 at 6 in in both faces, 2.8 and 5.7 in down. */
static ss_slab_section plain(void) {
    return (ss_slab_section){.thickness = 7.0 * INCH,
                             .fc = 4.0 * KSI,
                             .E = 3644.0 * KSI,
                             .fy = 60.0 * KSI,
                             .steel_E = ES,
                             .top = {0.625 * INCH, 6.0 * INCH, 2.8 * INCH},
                             .bottom = {0.625 * INCH, 6.0 * INCH, 5.7 * INCH}};
}

/* By hand: As 0.05113 in2/in, a 0.90229 in, d 5.7 in, Mn 0.05113 x 60 x (5.7 - 0.45115) = 16.103 kip-in/in.
 */
static void test_by_hand(void) {
    const ss_slab_section s = plain();
    ss_working working = {.count = 0};
    const ss_slab_moment m = ss_slab_moment_of(&s, true, &working);
    check_steps(&working, 7);
    const double As = 0.78539816339744831 * 0.625 * 0.625 / 6.0;
    const double a = As * 60.0 / (0.85 * 4.0);
    CHECK_CLOSE(m.nominal.value / KIP, As * 60.0 * (5.7 - 0.5 * a), 1e-9);
    CHECK_CLOSE(m.axis / INCH, a / 0.85, 1e-9);
    CHECK_CLOSE(m.depth / INCH, 5.7, 1e-12);
    CHECK_CLOSE(m.strain, 0.003 * (5.7 - a / 0.85) / (a / 0.85), 1e-9);
    CU_ASSERT_EQUAL(m.phi, 0.90);
    const ss_slab_moment up = ss_slab_moment_of(&s, false, NULL);
    CHECK_CLOSE(up.nominal.value / KIP, As * 60.0 * (4.2 - 0.5 * a), 1e-9);
    const double dv = fmax(5.7 - 0.5 * a, 0.9 * 5.7);
    CHECK_CLOSE(ss_slab_shear(&s, true, &working).value / (KIP / INCH), 2.0 * sqrt(4000.0) * 1e-3 * dv, 1e-9);
    CHECK_CLOSE(ss_slab_cracking_moment(&s) / KIP, 0.24 * 2.0 * 49.0 / 6.0, 1e-9);
}

/* Force and moment of the block in slices with the bars' strain, both layers or the one that pulls, on an
 * axis found by halving. */
static double by_slices(const ss_slab_section *s, bool both, double beta, double alpha) {
    enum { SLICES = 20000 };
    double low = 0.0, high = s->thickness, moment = 0.0;
    const double area[] = {both ? ss_bars_area(&s->top) : 0.0, ss_bars_area(&s->bottom)};
    const double depth[] = {s->top.depth, s->bottom.depth};
    for (int step = 0; step < 60; step++) {
        const double c = 0.5 * (low + high);
        double push = 0.0;
        moment = 0.0;
        for (int i = 0; i < SLICES; i++) {
            const double z = s->thickness * (i + 0.5) / SLICES, dz = s->thickness / SLICES;
            const double share = fmin(fmax((beta * c - (z - 0.5 * dz)) / dz, 0.0), 1.0);
            push += alpha * s->fc * dz * share;
            moment -= alpha * s->fc * dz * share * (z - 0.5 * dz * (1.0 - share));
        }
        for (int i = 0; i < 2; i++) {
            const double stress = fmin(fmax(0.003 * (depth[i] - c) / c * s->steel_E, -s->fy), s->fy);
            push -= area[i] * stress;
            moment += area[i] * stress * depth[i];
        }
        *(push > 0.0 ? &high : &low) = c;
    }
    return moment;
}

static void test_by_slices(void) {
    ss_slab_section s = plain();
    check_relative("few bars", ss_slab_moment_of(&s, true, NULL).nominal.value,
                   by_slices(&s, false, 0.85, 0.85), 1e-6);
    /* The upper layer, which is left out, pulls a little here. */
    const double one = ss_slab_moment_of(&s, true, NULL).nominal.value;
    const double both = by_slices(&s, true, 0.85, 0.85);
    CU_ASSERT(one < both && both < 1.25 * one);
    /* So many bars that they do not yield. */
    s.bottom = (ss_bars){1.27 * INCH, 3.0 * INCH, 5.2 * INCH};
    const ss_slab_moment m = ss_slab_moment_of(&s, true, NULL);
    CU_ASSERT(m.strain < s.fy / ES && m.phi == 0.75);
    CU_ASSERT(strstr(m.nominal.rule, "crushed") != NULL);
    check_relative("many bars", m.nominal.value, by_slices(&s, false, 0.85, 0.85), 1e-6);
    /* Strong concrete: beta1 0.65 and alpha1 0.81 at 12 ksi. */
    s.fc = 12.0 * KSI;
    check_relative("12 ksi", ss_slab_moment_of(&s, true, NULL).nominal.value,
                   by_slices(&s, false, 0.65, 0.81), 1e-6);
}

/* The moment and the axis go through the balance of bars and concrete without a step; phi lies between. */
static void test_balance(void) {
    ss_slab_section s = plain();
    s.bottom = (ss_bars){0.2 * INCH, 4.0 * INCH, s.bottom.depth};
    double last = ss_slab_moment_of(&s, true, NULL).nominal.value, axis = 0.0, phi = 0.9;
    for (double d = 0.202; d < 1.6; d += 0.002) {
        s.bottom.diameter = d * INCH;
        const ss_slab_moment m = ss_slab_moment_of(&s, true, NULL);
        CU_ASSERT(m.nominal.value > last && m.nominal.value < last + 0.6 * KIP);
        CU_ASSERT(m.axis > axis && m.axis < s.bottom.depth);
        CU_ASSERT(m.phi <= phi && m.phi >= 0.75 && phi - m.phi < 0.01);
        last = m.nominal.value;
        axis = m.axis;
        phi = m.phi;
    }
    CU_ASSERT_EQUAL(phi, 0.75);
}

/* Same bars as far from either face: the same both ways. Thicker and stronger carries more. */
static void test_symmetry_and_growth(void) {
    ss_slab_section s = plain();
    s.top.depth = 1.3 * INCH;
    const ss_slab_moment down = ss_slab_moment_of(&s, true, NULL), up = ss_slab_moment_of(&s, false, NULL);
    CHECK_CLOSE(down.nominal.value, up.nominal.value, 1e-12);
    const ss_slab_cracked a = ss_slab_cracked_of(&s, true), b = ss_slab_cracked_of(&s, false);
    CHECK_CLOSE(a.I, b.I, 1e-12);
    CHECK_CLOSE(a.stress, b.stress, 1e-12);
    double moment = 0.0, shear = 0.0, I = 0.0;
    for (double t = 5.0; t <= 10.0; t += 0.5) {
        s = plain();
        s.thickness = t * INCH;
        s.bottom.depth = (t - 1.3) * INCH;
        const double m = ss_slab_moment_of(&s, true, NULL).nominal.value;
        const double v = ss_slab_shear(&s, true, NULL).value;
        const double i = ss_slab_cracked_of(&s, true).I;
        CU_ASSERT(m > moment && v > shear && i > I);
        moment = m;
        shear = v;
        I = i;
    }
    moment = 0.0;
    for (double fc = 2.5; fc < 9.0; fc += 0.5) {
        s.fc = fc * KSI;
        const double m = ss_slab_moment_of(&s, true, NULL).nominal.value;
        CU_ASSERT(m > moment);
        moment = m;
    }
}

static double between(uint64_t *random, double low, double high) {
    return low + 0.5 * (1.0 + next_signed(random)) * (high - low);
}

/* Stresses in proportion to the distance from the axis: no force, and their moment over the curvature. */
static void test_cracked(void) {
    uint64_t random = 11;
    for (int trial = 0; trial < 200; trial++) {
        ss_slab_section s = plain();
        s.top.spacing = between(&random, 3.0, 18.0) * INCH;
        s.bottom.spacing = between(&random, 3.0, 18.0) * INCH;
        s.top.depth = between(&random, 0.5, 3.4) * INCH;
        s.bottom.depth = between(&random, 3.6, 6.4) * INCH;
        const bool sagging = trial % 2 == 0;
        const ss_slab_cracked found = ss_slab_cracked_of(&s, sagging);
        const double c = found.axis, n = ES / s.E;
        const double at[] = {sagging ? s.top.depth : s.thickness - s.top.depth,
                             sagging ? s.bottom.depth : s.thickness - s.bottom.depth};
        const double area[] = {ss_bars_area(&s.top), ss_bars_area(&s.bottom)};
        double force = 0.5 * c * c, moment = c * c * c / 3.0;
        for (int i = 0; i < 2; i++) {
            /* Bars in compressed concrete take the place of it. */
            const double counted = area[i] * n - (at[i] < c ? area[i] : 0.0);
            force += counted * (c - at[i]);
            moment += counted * (c - at[i]) * (c - at[i]);
        }
        check_near("force", force, 0.0, 1e-12, c * c);
        CHECK_CLOSE(found.I, moment, 1e-12);
        CHECK_CLOSE(found.share, moment / (s.thickness * s.thickness * s.thickness / 12.0), 1e-12);
        const int pulls = sagging ? 1 : 0;
        CHECK_CLOSE(found.stress, n * (at[pulls] - c) / moment, 1e-9);
        CU_ASSERT(found.share > 0.0 && found.share < 0.6);
    }
    /* One layer in closed form: k = sqrt(2 rho n + (rho n)^2) - rho n. */
    ss_slab_section s = plain();
    s.top.spacing = 0.0;
    const double rn = ss_bars_area(&s.bottom) / s.bottom.depth * ES / s.E;
    CHECK_CLOSE(ss_slab_cracked_of(&s, true).axis, (sqrt(2.0 * rn + rn * rn) - rn) * s.bottom.depth, 1e-12);
}

static void test_without_bars(void) {
    ss_slab_section s = plain();
    s.bottom.spacing = 0.0;
    const ss_slab_moment m = ss_slab_moment_of(&s, true, NULL);
    CU_ASSERT(m.nominal.value == 0.0 && m.nominal.why == NULL && isnan(m.axis));
    CU_ASSERT(ss_slab_moment_of(&s, false, NULL).nominal.value > 0.0);
    CU_ASSERT(ss_slab_shear(&s, true, NULL).why != NULL);
    CU_ASSERT(isnan(ss_slab_cracked_of(&s, true).stress));
    s.top.spacing = 0.0;
    const ss_slab_cracked none = ss_slab_cracked_of(&s, true);
    CU_ASSERT(none.I == 0.0 && none.share == 0.0);
    s = plain();
    s.bottom.depth = 7.1 * INCH;
    CU_ASSERT(ss_slab_moment_of(&s, true, NULL).nominal.why != NULL);
    CU_ASSERT(ss_slab_shear(&s, true, NULL).why != NULL);
    CU_ASSERT(isnan(ss_slab_cracked_of(&s, true).I));
    s = plain();
    s.fc = (double)NAN;
    CU_ASSERT(ss_slab_moment_of(&s, true, NULL).nominal.why != NULL);
    CU_ASSERT(isnan(ss_slab_cracking_moment(&s)));
}

static void test_of_a_slab(void) {
    const ss_slab slab = {.thickness = 0.18,
                          .fc = 28e6,
                          .E = 25e9,
                          .bar_fy = 420e6,
                          .top_across = {.depth = 0.01},
                          .bottom_across = {.depth = 0.02},
                          .top_along = {.depth = 0.03},
                          .bottom_along = {.depth = 0.04}};
    const ss_slab_section along = ss_slab_section_of(&slab, true, 200e9);
    const ss_slab_section across = ss_slab_section_of(&slab, false, 200e9);
    CU_ASSERT(along.top.depth == 0.03 && along.bottom.depth == 0.04);
    CU_ASSERT(across.top.depth == 0.01 && across.bottom.depth == 0.02);
    CU_ASSERT(across.fy == 420e6 && across.steel_E == 200e9 && across.thickness == 0.18 && across.E == 25e9);
}

int main(void) {
    static const test_case cases[] = {
        {"by hand", test_by_hand},
        {"sums over slices", test_by_slices},
        {"through the balance", test_balance},
        {"symmetry and growth", test_symmetry_and_growth},
        {"cracked", test_cracked},
        {"without bars", test_without_bars},
        {"section of a slab", test_of_a_slab},
    };
    return RUN_SUITE("slab section", cases);
}
