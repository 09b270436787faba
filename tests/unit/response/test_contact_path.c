/* test_contact_path.c - how an effect grows with a load while bearings lift, against beams worked by hand. */
#include <math.h>

#include "sillspan/contact.h"
#include "support/suite.h"

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
    CU_ASSERT_FATAL(ss_contact_work(1) <= sizeof work / sizeof work[0]);
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
    CU_ASSERT_EQUAL(ss_contact_reach(&path, low, true, 1e3, &reach, work), SS_OK);
    CHECK_CLOSE(reach.factor, 0.61 * lifts_at, 1e-12);
    CHECK_CLOSE(reach.linear, reach.factor, 1e-12);
    CU_ASSERT_EQUAL(reach.changes, 0);
    const double high = 0.25 * L * 2.37 * lifts_at - w * L * L / 8.0;
    CU_ASSERT_EQUAL(ss_contact_reach(&path, high, true, 1e3, &reach, work), SS_OK);
    CHECK_CLOSE(reach.factor, 2.37 * lifts_at, 1e-12);
    CHECK_CLOSE(reach.linear, (high - w * L * L / 16.0) / (13.0 / 64.0 * L), 1e-12);
    CU_ASSERT(reach.linear > reach.factor);
    CU_ASSERT_EQUAL(reach.changes, 1);
    /* Over the support the hogging moment stops growing. */
    ss_contact_path over = path;
    over.opening = &(double){opening};
    over.e_dead = -w * L * L / 8.0;
    over.e_live = -3.0 / 32.0 * L;
    CU_ASSERT_EQUAL(ss_contact_reach(&over, -0.501 * w * L * L, false, 1e3, &reach, work), SS_OK);
    CU_ASSERT(isinf(reach.factor) && !reach.tips);
    CHECK_CLOSE(reach.linear, 0.376 * w * L * L / (3.0 / 32.0 * L), 1e-12);
    CU_ASSERT_EQUAL(ss_contact_reach(&over, -0.499 * w * L * L, false, 1e3, &reach, work), SS_OK);
    CHECK_CLOSE(reach.factor, 0.374 * w * L * L / (3.0 / 32.0 * L), 1e-9);
}

/* A larger truck or a smaller capacity: never a larger factor. */
static void test_monotonic(void) {
    const double S[4] = {3.1, -1.7, -1.7, 2.4};
    const double r_dead[2] = {0.9, 1.3};
    const double r_live[2] = {-0.37, -0.61};
    const double opening[2] = {0.83, 0.29};
    double work[128];
    CU_ASSERT_FATAL(ss_contact_work(2) <= sizeof work / sizeof work[0]);
    double first = 0.0, last = (double)INFINITY;
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
        ss_reach reach, other;
        CU_ASSERT_EQUAL(ss_contact_reach(&path, 9.7, true, 1e3, &reach, work), SS_OK);
        CU_ASSERT(reach.factor < last);
        last = reach.factor;
        first = i == 0 ? reach.factor : first;
        CHECK_CLOSE(reach.factor * larger, first, 1e-12);
        CU_ASSERT_EQUAL(ss_contact_reach(&path, 9.2, true, 1e3, &other, work), SS_OK);
        CU_ASSERT(other.factor < reach.factor);
    }
}

int main(void) {
    static const test_case cases[] = {{"lifting end", test_lifting_end}, {"monotonic", test_monotonic}};
    return RUN_SUITE("contact path", cases);
}
