/* test_torsion.c - torsion constants against handbook series, Bredt and limits of the batten model. */
#include <math.h>

#include "sillspan/section.h"
#include "support/suite.h"

/* Coefficients of J = beta a b^3 as printed in Timoshenko and Goodier, Theory of Elasticity, art. 109 (four
 * digits; from memory). */
static void test_rectangle_matches_handbook(void) {
    static const struct {
        double ratio, beta;
    } row[] = {{1.0, 0.1406}, {1.2, 0.1661}, {1.5, 0.1958}, {2.0, 0.2287}, {2.5, 0.2494},
               {3.0, 0.2633}, {4.0, 0.2808}, {5.0, 0.2913}, {10.0, 0.3123}};
    const double b = 0.0317;
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const double beta = ss_torsion_rectangle(row[i].ratio * b, b) / (row[i].ratio * b * b * b * b);
        CU_ASSERT_DOUBLE_EQUAL(beta, row[i].beta, 0.00006);
    }
}

/* The series summed term by term, without the closed sum that the library uses. */
static void test_rectangle_matches_plain_series(void) {
    const double a = 0.0763;
    const double b = 0.0421;
    const double pi = acos(-1.0);
    double sum = 0.0;
    for (int n = 20001; n >= 1; n -= 2) {
        sum += tanh(n * pi * a / (2.0 * b)) / pow(n, 5.0);
    }
    const double expected = a * pow(b, 3.0) / 3.0 * (1.0 - 192.0 / pow(pi, 5.0) * b / a * sum);
    CU_ASSERT_DOUBLE_EQUAL(ss_torsion_rectangle(a, b) / expected, 1.0, 1e-14);
}

static void test_rectangle_ignores_order_and_tends_to_thin_strip(void) {
    CU_ASSERT_EQUAL(ss_torsion_rectangle(0.0831, 0.0124), ss_torsion_rectangle(0.0124, 0.0831));
    const double t = 0.00317;
    const double b = 1500.0 * t;
    CU_ASSERT_DOUBLE_EQUAL(ss_torsion_rectangle(b, t) / (b * t * t * t / 3.0), 1.0 - 0.630249 / 1500.0, 1e-8);
    CU_ASSERT_EQUAL(ss_torsion_rectangle(0.5, 0.0), 0.0);
}

/* 4 A^2 / sum(s/t): 24 x 36 in between middle lines, 0.5 in flanges, 0.375 in webs give 10368 in4. */
static void test_closed_cell(void) {
    const double sum = 2.0 * 24.0 / 0.5 + 2.0 * 36.0 / 0.375;
    CU_ASSERT_DOUBLE_EQUAL(ss_torsion_closed(24.0 * 36.0, sum), 10368.0, 1e-9);
}

static void test_batten_matches_beam_deflection(void) {
    /* A unit force on one batten, bending and shear deflection written out with E and G. */
    const double E = 200.3e9;
    const double G = 77.1e9;
    const double w = 0.153;
    const double t = 0.0097;
    const double reach = 0.341;
    const double spacing = 0.623;
    const double bending = pow(reach, 3.0) / (12.0 * E * t * pow(w, 3.0) / 12.0);
    const double shear = 1.2 * reach / (G * w * t);
    const double plate = reach / (G * (bending + shear) * spacing);
    CU_ASSERT_DOUBLE_EQUAL(ss_torsion_batten_thickness(w, t, spacing, reach, E / G) / plate, 1.0, 1e-14);
}

static void test_batten_stays_below_its_own_plate(void) {
    const double t = 0.0127;
    double before = (double)INFINITY;
    for (int i = 1; i <= 40; i++) {
        const double now = ss_torsion_batten_thickness(0.211, t, 0.211, 0.011 * i, 2.6);
        CU_ASSERT(now < before && now > 0.0 && now < t / 1.2);
        before = now;
    }
    CU_ASSERT_DOUBLE_EQUAL(ss_torsion_batten_thickness(0.211, t, 0.211, 1e-6, 2.6), t / 1.2, 1e-12);
}

int main(void) {
    static const test_case cases[] = {
        {"rectangle matches handbook", test_rectangle_matches_handbook},
        {"rectangle matches plain series", test_rectangle_matches_plain_series},
        {"rectangle ignores order and tends to thin strip",
         test_rectangle_ignores_order_and_tends_to_thin_strip},
        {"closed cell", test_closed_cell},
        {"batten matches beam deflection", test_batten_matches_beam_deflection},
        {"batten stays below its own plate", test_batten_stays_below_its_own_plate},
    };
    return RUN_SUITE("torsion", cases);
}
