/* test_slab_strip.c - wheels on a slab between its lines against beams of several spans, punching, moduli. */
#include <string.h>

#include "sillspan/slab_strength.h"
#include "support/suite.h"
#include "working_checks.h"

enum { SPANS_MOST = 5 };

/* Moments over the supports of `n` equal spans of L under a load of 1 at x, by three-moment equations. */
static void over_supports(int n, double L, double x, double *M) {
    double rhs[SPANS_MOST + 2] = {0.0}, ratio[SPANS_MOST + 2] = {0.0}, value[SPANS_MOST + 2] = {0.0};
    const int span = (int)fmin(floor(x / L), n - 1.0);
    const double a = x / L - span;
    rhs[span] = -a * (1.0 - a) * (2.0 - a) * L;
    rhs[span + 1] = -a * (1.0 - a * a) * L;
    for (int i = 1; i < n; i++) {
        const double pivot = 4.0 - ratio[i - 1];
        ratio[i] = 1.0 / pivot;
        value[i] = (rhs[i] - value[i - 1]) / pivot;
    }
    M[0] = M[n] = 0.0;
    for (int i = n - 1; i > 0; i--) {
        M[i] = value[i] - ratio[i] * M[i + 1];
    }
}

/* Moment at `at` under wheels of 1 whose areas c are in slices, from their middles. */
static double moment_under(int n, double L, double at, const double *wheels, int count, double c) {
    enum { SLICES = 60 };
    double sum = 0.0;
    const int span = (int)fmin(floor(at / L), n - 1.0);
    const double t = at / L - span;
    for (int w = 0; w < count; w++) {
        for (int k = 0; k < SLICES; k++) {
            const double x = wheels[w] + c * ((k + 0.5) / SLICES - 0.5);
            if (x <= 0.0 || x >= n * L) {
                continue;
            }
            double M[SPANS_MOST + 2];
            over_supports(n, L, x, M);
            double here = M[span] * (1.0 - t) + M[span + 1] * t;
            if (x > span * L && x < (span + 1) * L) {
                const double a = x - span * L, z = at - span * L;
                here += (z < a ? z * (L - a) : a * (L - z)) / L;
            }
            sum += here / SLICES;
        }
    }
    return sum;
}

/* No place of one wheel, or of two, on two to five spans bends more than is told, nor is that far off. */
static void test_bounds(void) {
    static const struct {
        double span, patch, next;
    } rows[] = {{0.3, 0.6, 0.0}, {0.5, 0.6, 0.0},    {0.6, 0.6, 0.0},   {0.9, 0.6, 1.22},
                {1.2, 0.6, 0.0}, {1.5, 0.508, 1.22}, {1.83, 0.6, 1.22}, {1.83, 0.6, 0.0}};
    for (int i = 0; i < ENTRIES(rows); i++) {
        const double L = rows[i].span;
        const ss_slab_span span = {
            .span = L, .wheel = 1.0, .patch = rows[i].patch, .next_wheel = rows[i].next};
        const ss_slab_demand d = ss_slab_strip_demand(&span, NULL);
        CU_ASSERT_PTR_NULL_FATAL(d.why);
        double sagging = 0.0, hogging = 0.0;
        for (int n = 2; n <= SPANS_MOST; n++) {
            for (double x = 0.0; x < 2.6 * L && x < n * L; x += 0.05 * L) {
                const double wheels[] = {x, x + rows[i].next};
                for (int count = 1; count <= (rows[i].next > 0.0 ? 2 : 1); count++) {
                    for (double at = 0.1 * L; at < 1.95 * L; at += 0.1 * L) {
                        const double m = moment_under(n, L, at, wheels, count, rows[i].patch);
                        sagging = fmax(sagging, m);
                        hogging = fmax(hogging, -m);
                    }
                }
            }
        }
        CU_ASSERT(d.sagging_live * d.sagging_strip >= sagging * (1.0 - 1e-3));
        CU_ASSERT(d.hogging_live * d.hogging_strip >= hogging * (1.0 - 1e-3));
        CU_ASSERT(d.sagging_live * d.sagging_strip <= 1.3 * sagging);
    }
}

/* 16 kip on 4 ft: statics of each kind. */
static void test_kinds(void) {
    const double L = 4.0 * FOOT, P = 16.0 * KIP, w = 4788.0;
    ss_slab_span s = {.kind = SS_SLAB_SPAN_SIMPLE, .span = L, .wheel = P, .patch = 20.0 * INCH, .dead = w};
    ss_working working = {.count = 0};
    ss_slab_demand d = ss_slab_strip_demand(&s, &working);
    check_steps(&working, 6);
    CHECK_CLOSE(d.sagging_strip / INCH, 26.0 + 6.6 * 4.0, 1e-12);
    CHECK_CLOSE(d.sagging_live, P * (L / 4.0 - 20.0 * INCH / 8.0) / d.sagging_strip, 1e-12);
    CHECK_CLOSE(d.shear_live, P * (1.0 - 10.0 / 48.0) / d.sagging_strip, 1e-12);
    CHECK_CLOSE(d.sagging_dead, w * L * L / 8.0, 1e-12);
    CU_ASSERT(d.hogging_live == 0.0 && d.hogging_dead == 0.0);
    s.kind = SS_SLAB_SPAN_CONTINUOUS;
    d = ss_slab_strip_demand(&s, NULL);
    CHECK_CLOSE(d.hogging_strip / INCH, 60.0, 1e-12);
    CHECK_CLOSE(d.sagging_live * d.sagging_strip, 0.8 * P * (L / 4.0 - 20.0 * INCH / 8.0), 1e-12);
    CHECK_CLOSE(d.sagging_live * d.sagging_strip, d.hogging_live * d.hogging_strip, 1e-12);
    s.next_wheel = L;
    d = ss_slab_strip_demand(&s, NULL);
    CHECK_CLOSE(d.hogging_live * d.hogging_strip, 0.207 * P * L, 1e-12);
    s.next_wheel = 0.0;
    d = ss_slab_strip_demand(&s, NULL);
    CHECK_CLOSE(d.hogging_dead, w * L * L / 8.0, 1e-12);
    s.kind = SS_SLAB_SPAN_HINGED;
    d = ss_slab_strip_demand(&s, NULL);
    CHECK_CLOSE(d.hogging_strip / INCH, 45.0 + 20.0, 1e-12);
    CHECK_CLOSE(d.hogging_live, 0.25 * P * L / d.hogging_strip, 1e-12);
    CHECK_CLOSE(d.hogging_dead, w * L * L / 8.0, 1e-12);
    CU_ASSERT_EQUAL(d.sagging_live, 0.0);
    s.kind = SS_SLAB_SPAN_OVERHANG;
    s.reach = 2.0 * FOOT;
    d = ss_slab_strip_demand(&s, NULL);
    CHECK_CLOSE(d.hogging_live, P * 2.0 * FOOT / d.hogging_strip, 1e-12);
    CHECK_CLOSE(d.hogging_dead, 0.5 * w * L * L, 1e-12);
    CHECK_CLOSE(d.shear_live, P / d.hogging_strip, 1e-12);
    /* Half of the wheel is over the line, then all of it beyond: no step where its near edge passes. */
    s.reach = 0.0;
    d = ss_slab_strip_demand(&s, NULL);
    CHECK_CLOSE(d.hogging_live * d.hogging_strip, 0.5 * P * 5.0 * INCH, 1e-12);
    s.reach = -10.0 * INCH;
    CU_ASSERT_EQUAL(ss_slab_strip_demand(&s, NULL).hogging_live, 0.0);
    s.reach = 10.0 * INCH;
    d = ss_slab_strip_demand(&s, NULL);
    CHECK_CLOSE(d.hogging_live * d.hogging_strip, P * 10.0 * INCH, 1e-12);
    s.reach = 9.9999999999 * INCH;
    CHECK_CLOSE(ss_slab_strip_demand(&s, NULL).hogging_live, d.hogging_live, 1e-9);
    /* The next axle stands closer than the strip is wide. */
    s.axle_spacing = 40.0 * INCH;
    CHECK_CLOSE(ss_slab_strip_demand(&s, NULL).hogging_strip / INCH, 40.0, 1e-12);
}

/* By its own equation the hinge is worst: a wheel on one cantilever, the other pulled down by R = P a^2 (3 h
 * - a) / (4 h^3). */
static void test_hinge_is_worst(void) {
    const double h = 0.6;
    for (double a = 0.0; a < h; a += 0.01) {
        const double R = a * a * (3.0 * h - a) / (4.0 * h * h * h);
        CU_ASSERT(a - R * h < 0.5 * h && R * h < 0.5 * h);
    }
}

static void test_refusals(void) {
    const ss_slab_span good = {.span = 1.2, .wheel = 7e4, .patch = 0.5};
    CU_ASSERT_PTR_NULL(ss_slab_strip_demand(&good, NULL).why);
    ss_slab_span s = good;
    s.span = 0.0;
    CU_ASSERT(ss_slab_strip_demand(&s, NULL).why != NULL);
    s = good;
    s.patch = (double)NAN;
    CU_ASSERT(isnan(ss_slab_strip_demand(&s, NULL).sagging_live));
    s = good;
    s.dead = -1.0;
    CU_ASSERT(ss_slab_strip_demand(&s, NULL).why != NULL);
    s = good;
    s.next_wheel = 0.5;
    CU_ASSERT(ss_slab_strip_demand(&s, NULL).why != NULL);
    s = good;
    s.kind = SS_SLAB_SPAN_OVERHANG;
    s.reach = 1.3;
    CU_ASSERT(ss_slab_strip_demand(&s, NULL).why != NULL);
    s.kind = (ss_slab_span_kind)9;
    CU_ASSERT(ss_slab_strip_demand(&s, NULL).why != NULL);
    CU_ASSERT(isnan(ss_slab_strip_sagging(0.0)) && isnan(ss_slab_strip_hogging((double)NAN)) &&
              isnan(ss_slab_strip_overhang(-1.0)));
}

/* A 10 x 20 in wheel, d 5 in, 4 ksi: 0.126 x 2 ksi x 80 in x 5 in is 100.8 kip. */
static void test_punching(void) {
    ss_working working = {.count = 0};
    const ss_wheel_patch wheel = ss_wheel_patch_of(SS_PATCH_LRFD, 0.0);
    const double V = ss_slab_punching(wheel, 5.0 * INCH, 4.0 * KSI, &working).value;
    check_steps(&working, 5);
    CHECK_CLOSE(V / KIP, 100.8, 1e-12);
    /* A square is held by the cap; a long strip tends to half of it. */
    const ss_wheel_patch square = {15.0 * INCH, 15.0 * INCH};
    CHECK_CLOSE(ss_slab_punching(square, 5.0 * INCH, 4.0 * KSI, NULL).value, V, 1e-12);
    const ss_wheel_patch strip = {29.999 * INCH, 0.001 * INCH};
    check_relative("strip", ss_slab_punching(strip, 5.0 * INCH, 4.0 * KSI, NULL).value, 0.5 * V, 1e-3);
    CHECK_CLOSE(ss_slab_punching(wheel, 5.0 * INCH, 16.0 * KSI, NULL).value, 2.0 * V, 1e-12);
    double last = 0.0;
    for (double d = 3.0; d < 9.0; d += 0.5) {
        const double now = ss_slab_punching(wheel, d * INCH, 4.0 * KSI, NULL).value;
        CU_ASSERT(now > last);
        last = now;
    }
    CU_ASSERT(ss_slab_punching(wheel, 0.0, 4.0 * KSI, NULL).why != NULL);
    CU_ASSERT(ss_slab_punching((ss_wheel_patch){0.0, 1.0}, 0.1, 4.0 * KSI, NULL).why != NULL);
}

static void test_modulus(void) {
    const double weight = 0.145 * KIP / (FOOT * FOOT * FOOT);
    CHECK_CLOSE(ss_slab_E(4.0 * KSI, weight) / KSI, 33000.0 * pow(0.145, 1.5) * 2.0, 1e-12);
    CU_ASSERT(isnan(ss_slab_E(0.0, weight)) && isnan(ss_slab_E(1e7, 0.0)));
    static const struct {
        double fc;
        int n;
    } rows[] = {{2.3, 0}, {2.4, 10}, {2.8, 10}, {3.0, 9}, {3.5, 9}, {4.0, 8}, {5.0, 7}, {6.0, 6}, {9.0, 6}};
    for (int i = 0; i < ENTRIES(rows); i++) {
        CU_ASSERT_EQUAL(ss_slab_table_n(rows[i].fc * KSI), rows[i].n);
    }
    CU_ASSERT_EQUAL(ss_slab_table_n((double)NAN), 0);
}

int main(void) {
    static const test_case cases[] = {
        {"beams of several spans", test_bounds},
        {"kinds of span", test_kinds},
        {"the hinge is worst", test_hinge_is_worst},
        {"refusals", test_refusals},
        {"punching", test_punching},
        {"modulus", test_modulus},
    };
    return RUN_SUITE("slab strip", cases);
}
