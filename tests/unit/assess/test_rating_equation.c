/* test_rating_equation.c - the rating equation on published arithmetic, and on a beam whose end lifts, solved
 * by hand. */
#include <stdint.h>

#include "assess/rating_equation.h"
#include "support/suite.h"

/*
 * AASHTO Manual for Bridge Evaluation, example A1 (from memory, each figure recomputed): simple span of 65
 * ft, interior stringer in bending, C 2873, DC 577, live load with allowance 952.6 kip-ft.
 */
static void test_published_arithmetic(void) {
    const double C = 2873.0 * KIP_FOOT;
    const double D = 1.25 * 577.0 * KIP_FOOT;
    CU_ASSERT_DOUBLE_EQUAL(ss_rating_linear(C, D, 1.75 * 952.6 * KIP_FOOT, true), 1.29, 0.005);
    CU_ASSERT_DOUBLE_EQUAL(ss_rating_linear(C, D, 1.35 * 952.6 * KIP_FOOT, true), 1.67, 0.005);
    CU_ASSERT_DOUBLE_EQUAL(ss_rating_linear(C, D, 1.75 * 952.6 * KIP_FOOT, true), 1.2908, 0.00005);
    CU_ASSERT_DOUBLE_EQUAL(ss_rating_linear(C, D, 1.35 * 952.6 * KIP_FOOT, true), 1.6732, 0.00005);
}

/* The same example under the legal trucks Type 3, 3S2 and 3-3 (one-lane moments 660.8, 707.2, 654.5 kip-ft,
 * of which 0.626 comes to the stringer), recomputed. */
static void test_legal_arithmetic(void) {
    static const struct {
        double moment, factor, allowance, expected;
    } row[] = {{660.8, 1.65, 0.33, 2.371}, {707.2, 1.65, 0.33, 2.215}, {654.5, 1.65, 0.33, 2.393},
               {660.8, 1.30, 0.33, 3.009}, {707.2, 1.30, 0.33, 2.811}, {654.5, 1.30, 0.33, 3.037},
               {660.8, 1.30, 0.20, 3.335}, {707.2, 1.30, 0.20, 3.116}, {654.5, 1.30, 0.20, 3.367}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const double live = row[i].factor * (1.0 + row[i].allowance) * 0.626 * row[i].moment;
        CU_ASSERT_DOUBLE_EQUAL(ss_rating_linear(2873.0, 1.25 * 577.0, live, true), row[i].expected, 0.005);
    }
}

static void test_signs(void) {
    CHECK_CLOSE(ss_rating_linear(31.7, -4.3, -9.1, false), (31.7 - 4.3) / 9.1, 1e-14);
    CHECK_CLOSE(ss_rating_linear(31.7, 4.3, -9.1, false), (31.7 + 4.3) / 9.1, 1e-14);
    CU_ASSERT(isinf(ss_rating_linear(31.7, 4.3, -9.1, true)));
    CU_ASSERT(isinf(ss_rating_linear(31.7, 4.3, 0.0, true)));
    CU_ASSERT_EQUAL(ss_rating_linear(31.7, 31.8, -9.1, true), 0.0);
    CU_ASSERT_EQUAL(ss_rating_linear(31.7, -31.7, 9.1, false), 0.0);
}

/*
 * Two spans L with a force in the middle of the first; the far end may lift. All closed (influence by the
 * three-moment equation): far reaction -3/32 P, moment over the middle support -3/32 P L. Uniform dead load
 * w: far reaction 3/8 w L, moment -w L^2 / 8. Once the far end is up, it carries nothing: the moment over the
 * support is that of its own dead load, -w L^2 / 2, and stays. Opening the far end by u changes its reaction
 * by (3 EI / (2 L^3)) u, the moment by that times L.
 */
static void test_lifting_end(void) {
    const double L = 7.3;
    const double w = 2.9;
    const double EI = 4100.0;
    const double S = 1.5 * EI / (L * L * L);
    const double r_dead = 0.375 * w * L;
    const double r_live = -3.0 / 32.0;
    const double opening = S * L;
    double work[64];
    CU_ASSERT(ss_contact_work(1) <= sizeof work / sizeof work[0]);
    /* Moment under the force: all closed 13/64 P L, of dead load w L^2 / 16; with the end up P L / 4 and, the
     * middle support moment being -w L^2 / 2, -w L^2 / 8. */
    const ss_contact_path path = {.n = 1,
                                  .S = &S,
                                  .r_dead = &r_dead,
                                  .r_live = &r_live,
                                  .opening = &(double){0.5 * opening},
                                  .e_dead = w * L * L / 16.0,
                                  .e_live = 13.0 / 64.0 * L};
    const double lifts_at = r_dead / -r_live;
    ss_reach reach;
    /* Below the lift the linear equation holds; beyond it the effect grows as P L / 4. */
    const double low = w * L * L / 16.0 + 13.0 / 64.0 * L * 0.61 * lifts_at;
    CU_ASSERT_EQUAL(ss_rating_follow(&path, 1.7, low, true, &reach, work), SS_OK);
    CHECK_CLOSE(reach.factor, 0.61 * lifts_at / 1.7, 1e-12);
    CHECK_CLOSE(reach.linear, reach.factor, 1e-12);
    const double high = 0.25 * L * 2.37 * lifts_at - w * L * L / 8.0;
    CU_ASSERT_EQUAL(ss_rating_follow(&path, 1.7, high, true, &reach, work), SS_OK);
    CHECK_CLOSE(reach.factor, 2.37 * lifts_at / 1.7, 1e-12);
    CHECK_CLOSE(reach.linear, (high - w * L * L / 16.0) / (13.0 / 64.0 * L) / 1.7, 1e-12);
    CU_ASSERT(reach.linear > reach.factor);
    /* Over the support the hogging moment stops growing. */
    ss_contact_path over = path;
    over.opening = &(double){opening};
    over.e_dead = -w * L * L / 8.0;
    over.e_live = -3.0 / 32.0 * L;
    CU_ASSERT_EQUAL(ss_rating_follow(&over, 1.7, 0.501 * w * L * L, false, &reach, work), SS_OK);
    CU_ASSERT(isinf(reach.factor));
    CHECK_CLOSE(reach.linear, 0.376 * w * L * L / (3.0 / 32.0 * L) / 1.7, 1e-12);
    CU_ASSERT_EQUAL(ss_rating_follow(&over, 1.7, 0.499 * w * L * L, false, &reach, work), SS_OK);
    CHECK_CLOSE(reach.factor, 0.374 * w * L * L / (3.0 / 32.0 * L) / 1.7, 1e-9);
}

/* A larger truck, a larger multiplier, a smaller capacity: never a larger factor. */
static void test_monotonic(void) {
    const double S[4] = {3.1, -1.7, -1.7, 2.4};
    const double r_dead[2] = {0.9, 1.3};
    const double r_live[2] = {-0.37, -0.61};
    const double opening[2] = {0.83, 0.29};
    double work[128];
    CU_ASSERT(ss_contact_work(2) <= sizeof work / sizeof work[0]);
    double last = (double)INFINITY;
    for (int i = 0; i < 20; i++) {
        const double larger = 1.0 + 0.13 * i;
        const double live[2] = {r_live[0] * larger, r_live[1] * larger};
        const ss_contact_path path = {.n = 2,
                                      .S = S,
                                      .r_dead = r_dead,
                                      .r_live = live,
                                      .opening = opening,
                                      .e_dead = 0.7,
                                      .e_live = 1.9 * larger};
        ss_reach reach;
        CU_ASSERT_EQUAL(ss_rating_follow(&path, 1.3 * 1.33, 9.7, true, &reach, work), SS_OK);
        CU_ASSERT(reach.factor < last);
        last = reach.factor;
        ss_reach other;
        CU_ASSERT_EQUAL(ss_rating_follow(&path, 1.45 * 1.33, 9.7, true, &other, work), SS_OK);
        CHECK_CLOSE(other.factor, reach.factor * 1.30 / 1.45, 1e-12);
        CU_ASSERT_EQUAL(ss_rating_follow(&path, 1.3 * 1.33, 9.2, true, &other, work), SS_OK);
        CU_ASSERT(other.factor < reach.factor);
    }
}

int main(void) {
    static const test_case cases[] = {{"published arithmetic", test_published_arithmetic},
                                      {"legal arithmetic", test_legal_arithmetic},
                                      {"signs", test_signs},
                                      {"lifting end", test_lifting_end},
                                      {"monotonic", test_monotonic}};
    return RUN_SUITE("rating equation", cases);
}
