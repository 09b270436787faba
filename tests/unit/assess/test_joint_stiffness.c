/* test_joint_stiffness.c - springs of a joint against a small beam of many straight pieces. */
#include "sillspan/joint_stiffness.h"

#include <string.h>

#include "support/suite.h"
#include "working_checks.h"

enum { PIECES = 160, UNKNOWNS = 2 * (PIECES + 1) };

/* Solves K x = f in place, pivots in order: K is symmetric and positive definite. */
static void solve(double (*K)[UNKNOWNS], double *f) {
    for (int i = 0; i < UNKNOWNS; i++) {
        for (int r = i + 1; r < UNKNOWNS && r < i + 4; r++) {
            const double m = K[r][i] / K[i][i];
            for (int c = i; c < UNKNOWNS && c < i + 4; c++) {
                K[r][c] -= m * K[i][c];
            }
            f[r] -= m * f[i];
        }
    }
    for (int i = UNKNOWNS - 1; i >= 0; i--) {
        for (int c = i + 1; c < UNKNOWNS && c < i + 4; c++) {
            f[i] -= K[i][c] * f[c];
        }
        f[i] /= K[i][i];
    }
}

/* Deflections w and turns t of both ends of a beam given, the right turn free when `hinged`; out come shear
 * and moment in its middle. Straight pieces with shear deformation, strains at their middles: no cubic in it.
 */
static void small_beam(const ss_joint_span *span, const double *ends, bool hinged, double *shear,
                       double *moment) {
    static double K[UNKNOWNS][UNKNOWNS];
    double f[UNKNOWNS] = {0.0};
    memset(K, 0, sizeof K);
    const double h = span->reach / PIECES;
    for (int e = 0; e < PIECES; e++) {
        /* Curvature (t1 - t0)/h and slide (w1 - w0)/h - (t0 + t1)/2 in terms of w0, t0, w1, t1. */
        const double bend[] = {0.0, -1.0 / h, 0.0, 1.0 / h};
        const double slide[] = {-1.0 / h, -0.5, 1.0 / h, -0.5};
        for (int i = 0; i < 4; i++) {
            for (int j = 0; j < 4; j++) {
                K[2 * e + i][2 * e + j] +=
                    h * (span->EI * bend[i] * bend[j] + span->GA * slide[i] * slide[j]);
            }
        }
    }
    const int held[] = {0, 1, UNKNOWNS - 2, UNKNOWNS - 1};
    for (int i = 0; i < (hinged ? 3 : 4); i++) {
        const double stiff = 1e9 * K[2][2];
        K[held[i]][held[i]] += stiff;
        f[held[i]] += stiff * ends[i];
    }
    solve(K, f);
    const int mid = PIECES / 2;
    const double *const at = &f[2 * mid];
    *shear = span->GA * ((at[2] - at[0]) / h - 0.5 * (at[1] + at[3]));
    /* The moment at the node, from the pieces on both sides. */
    *moment = span->EI * (at[3] - at[-1]) / (2.0 * h);
}

static const ss_joint_span beams[] = {{.EI = 3.1e4, .GA = 8.7e6, .reach = 0.29},
                                      {.EI = 7.7e5, .GA = 2.9e6, .reach = 0.61},
                                      {.EI = 2.3e6, .GA = 4.1e7, .reach = 0.17}};

/* A step at the middle of the gap moves the right line down by it; a fold turns both cars about the middle of
 * the gap, half each, which lifts or lowers both lines alike through their arms. */
static void test_fixed(void) {
    for (int i = 0; i < ENTRIES(beams); i++) {
        const ss_joint_stiffness found = ss_joint_span_stiffness(&beams[i], NULL);
        double shear = 0.0;
        double moment = 0.0;
        const double step[] = {0.0, 0.0, 1e-3, 0.0};
        small_beam(&beams[i], step, false, &shear, &moment);
        check_relative("step", found.shear, shear / 1e-3, 2e-4);
        check_near("no moment in the middle", moment, 0.0, 1e-6, shear * beams[i].reach);
        const double fold = 2e-3;
        const double arm = 0.5 * beams[i].reach;
        const double folded[] = {0.5 * fold * arm, -0.5 * fold, 0.5 * fold * arm, 0.5 * fold};
        small_beam(&beams[i], folded, false, &shear, &moment);
        check_relative("fold", found.rotation, moment / fold, 2e-4);
        check_near("no shear of a fold", shear, 0.0, 1e-5, moment / beams[i].reach);
    }
}

static void test_hinged(void) {
    for (int i = 0; i < ENTRIES(beams); i++) {
        ss_joint_span span = beams[i];
        span.right = SS_JOINT_EDGE_HINGED;
        const ss_joint_stiffness found = ss_joint_span_stiffness(&span, NULL);
        double shear = 0.0;
        double moment = 0.0;
        const double step[] = {0.0, 0.0, 1e-3, 0.0};
        small_beam(&span, step, true, &shear, &moment);
        check_relative("step", found.shear, shear / 1e-3, 2e-4);
        CU_ASSERT_EQUAL(found.rotation, 0.0);
        span.left = SS_JOINT_EDGE_HINGED;
        span.right = SS_JOINT_EDGE_FIXED;
        CU_ASSERT_EQUAL(ss_joint_span_stiffness(&span, NULL).shear, found.shear);
        span.right = SS_JOINT_EDGE_HINGED;
        const ss_joint_stiffness nothing = ss_joint_span_stiffness(&span, NULL);
        CU_ASSERT(nothing.shear == 0.0 && nothing.rotation == 0.0 && nothing.why == NULL);
    }
}

/* 3/8 in steel plate over 6 in, by hand: I = 0.0043945 in3, 12 x 29000 x I / 216 = 7.080 kip/in per in; over
 * 18 in a 27th of it. Common estimate of such joints, about 7 and 0.26. */
static void test_plate(void) {
    const double unit = KIP / INCH2;
    ss_joint_span span = ss_joint_span_of_plate(0.375 * INCH, 6.0 * INCH, 29000.0 * KSI, 0.0);
    ss_working working = {0};
    const ss_joint_stiffness found = ss_joint_span_stiffness(&span, &working);
    CU_ASSERT_DOUBLE_EQUAL(found.shear / unit, 7.080, 0.0005);
    CHECK_CLOSE(found.rotation, 29000.0 * 0.375 * 0.375 * 0.375 / 72.0 * KIP, 1e-12);
    check_steps(&working, 3);
    span.reach *= 3.0;
    CHECK_CLOSE(ss_joint_span_stiffness(&span, NULL).shear, found.shear / 27.0, 1e-12);
    span = ss_joint_span_of_plate(0.375 * INCH, 6.0 * INCH, 29000.0 * KSI, 11154.0 * KSI);
    const double softer = ss_joint_span_stiffness(&span, NULL).shear;
    CU_ASSERT(softer < found.shear && softer > 0.98 * found.shear);
}

/* Shear deformation takes over in a stout beam: GA/s is the limit. */
static void test_stout(void) {
    ss_joint_span span = {.EI = 1e12, .GA = 4.4e6, .reach = 0.3};
    CHECK_CLOSE(ss_joint_span_stiffness(&span, NULL).shear, 4.4e6 / 0.3, 1e-6);
    span.connector = true;
    ss_working working = {0};
    (void)ss_joint_span_stiffness(&span, &working);
    CU_ASSERT_EQUAL(working.steps[1].dimension, SS_DIM_SPRING);
}

static void test_what_cannot_be_told(void) {
    static const double odd[] = {0.0, -1.0, (double)NAN, (double)INFINITY};
    for (size_t i = 0; i < sizeof odd / sizeof odd[0]; i++) {
        ss_joint_span rows[] = {{.EI = odd[i], .reach = 0.2}, {.EI = 1e5, .reach = odd[i]}};
        for (int j = 0; j < 2; j++) {
            const ss_joint_stiffness found = ss_joint_span_stiffness(&rows[j], NULL);
            CU_ASSERT(isnan(found.shear) && isnan(found.rotation) && found.why != NULL);
        }
        const ss_joint_span plate = ss_joint_span_of_plate(odd[i], 0.2, 2e11, 8e10);
        CU_ASSERT_PTR_NOT_NULL(ss_joint_span_stiffness(&plate, NULL).why);
    }
    static const double tiny[] = {1e-300, 1e-120, 5e-324};
    for (size_t i = 0; i < sizeof tiny / sizeof tiny[0]; i++) {
        const ss_joint_span rows[] = {{.EI = 1e300, .reach = tiny[i]},
                                      {.EI = tiny[i], .GA = tiny[i], .reach = 1e200}};
        CU_ASSERT(isnan(ss_joint_span_stiffness(&rows[0], NULL).shear));
        CU_ASSERT(ss_joint_span_stiffness(&rows[1], NULL).shear >= 0.0);
    }
}

int main(void) {
    static const test_case cases[] = {{"fixed", test_fixed},
                                      {"hinged", test_hinged},
                                      {"plate", test_plate},
                                      {"stout", test_stout},
                                      {"what cannot be told", test_what_cannot_be_told}};
    return RUN_SUITE("joint stiffness", cases);
}
