/* test_coupon_strength.c - yield stress from coupons: factors against both distributions they come from. */
#include "sillspan/coupon_strength.h"

#include <string.h>

#include "support/suite.h"
#include "unit/assess/working_checks.h"

/* 5 % fractile of the normal distribution. */
#define Z95 1.6448536269514722

/* Student's t with `degrees` of freedom: probability below t, Simpson's rule over the angle atan(t/sqrt(m)),
 * in which the density is cos^(m-1). */
static double student_below(double t, int degrees) {
    enum { STEPS = 4000 };
    const double half = 1.5707963267948966;
    const double end = atan(t / sqrt(degrees));
    double parts[2] = {0.0, 0.0};
    const double tops[2] = {end, half};
    for (int p = 0; p < 2; p++) {
        const double step = (tops[p] + half) / STEPS;
        for (int i = 0; i <= STEPS; i++) {
            const double weight = i == 0 || i == STEPS ? 1.0 : i % 2 == 1 ? 4.0 : 2.0;
            parts[p] += weight * pow(fmax(cos(-half + step * i), 0.0), degrees - 1) * step / 3.0;
        }
    }
    return parts[0] / parts[1];
}

/* Factor of EN 1990 D.7.2, deviation not known: the next value is above mean - k s with 95 %. */
static double prediction_factor(int n) {
    double low = 1.0;
    double high = 10.0;
    for (int i = 0; i < 60; i++) {
        const double mid = 0.5 * (low + high);
        *(student_below(mid, n - 1) < 0.95 ? &low : &high) = mid;
    }
    return low * sqrt(1.0 + 1.0 / n);
}

/* Confidence that 95 % of the population lies above mean - k s of n tests: over the density of the sample's
 * deviation u (in that of the population, u^2 (n-1) is chi squared), that the mean is low enough. */
static double confidence(int n, double k) {
    enum { STEPS = 6000 };
    const double step = 4.0 / STEPS;
    double sum = 0.0;
    double whole = 0.0;
    for (int i = 1; i < STEPS; i++) {
        const double u = step * i;
        const double density = exp((n - 2) * log(u) - 0.5 * (n - 1) * u * u + 0.5 * (n - 1));
        /* The bound is low enough when mean - k s <= -Z95, the mean being normal with deviation 1/sqrt(n). */
        const double below = 0.5 * erfc(-sqrt(0.5 * n) * (k * u - Z95));
        sum += density * below;
        whole += density;
    }
    return sum / whole;
}

/* EN 1990 Table D.1 as printed, deviation not known (found reprinted in public code): what the independent
 * calculation gives, except that 2.00 and 1.76 are printed where it gives 2.01 and 1.77. */
static void test_prediction_is_the_printed_table(void) {
    static const struct {
        int n;
        double printed;
    } row[] = {{3, 3.37}, {4, 2.63}, {5, 2.33}, {6, 2.18}, {8, 2.00}, {10, 1.92}, {20, 1.76}, {30, 1.73}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        CU_ASSERT_DOUBLE_EQUAL(prediction_factor(row[i].n), row[i].printed,
                               row[i].n == 8 || row[i].n == 20 ? 0.0125 : 0.0055);
    }
}

/* The factor covers both, and by no more than the third decimal. */
static void test_factors(void) {
    static const int counts[] = {3, 4, 5, 6, 7, 8, 9, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100};
    for (size_t i = 0; i < sizeof counts / sizeof counts[0]; i++) {
        const double k = ss_coupon_factor(counts[i]);
        const double prediction = prediction_factor(counts[i]);
        CU_ASSERT(k >= prediction);
        CU_ASSERT(confidence(counts[i], k) >= 0.75);
        CU_ASSERT(k - 0.0015 <= prediction || confidence(counts[i], k - 0.0015) < 0.75);
    }
    /* One-sided tolerance factors for 95 % at 75 % confidence, from memory of printed tables. */
    CU_ASSERT_DOUBLE_EQUAL(ss_coupon_factor(5), 2.463, 0.0015);
    CU_ASSERT_DOUBLE_EQUAL(ss_coupon_factor(10), 2.103, 0.0015);
    CU_ASSERT_DOUBLE_EQUAL(ss_coupon_factor(30), 1.869, 0.0015);
}

/* More tests never have a larger factor; between entries the one of fewer tests; the last is 1.65. */
static void test_factor_falls(void) {
    for (int n = 4; n < 130; n++) {
        CU_ASSERT(ss_coupon_factor(n) <= ss_coupon_factor(n - 1));
    }
    CU_ASSERT_EQUAL(ss_coupon_factor(11), ss_coupon_factor(10));
    CU_ASSERT_EQUAL(ss_coupon_factor(99), ss_coupon_factor(75));
    CU_ASSERT_EQUAL(ss_coupon_factor(101), 1.65);
    CU_ASSERT(isnan(ss_coupon_factor(2)) && isnan(ss_coupon_factor(-7)));
}

/* Five coupons, ksi: 38.1, 36.4, 40.2, 37.7, 39.1; by hand mean 38.3, deviation sqrt(8.26/4) = 1.4370,
 * k 2.464: 34.759; mean - 1.65 s is 35.929. */
static void test_worked(void) {
    const double tests[] = {38.1 * KSI, 36.4 * KSI, 40.2 * KSI, 37.7 * KSI, 39.1 * KSI};
    ss_working working = {0};
    const ss_coupon_strength found = ss_coupon_yield(tests, 5, &working);
    CHECK_CLOSE(found.mean, 38.3 * KSI, 1e-12);
    CU_ASSERT_DOUBLE_EQUAL(found.deviation / KSI, 1.4370, 0.00005);
    CU_ASSERT_DOUBLE_EQUAL(found.value / KSI, 34.759, 0.0006);
    CU_ASSERT_DOUBLE_EQUAL(found.manual / KSI, 35.929, 0.0006);
    CHECK_CLOSE(found.lowest, 36.4 * KSI, 1e-12);
    CU_ASSERT_PTR_NULL(found.why);
    check_steps(&working, 4);
    CU_ASSERT_EQUAL(step_value(&working, "Fy"), found.value);
}

/* Tests that are all alike leave their own value; a constant added to all moves it by that. */
static void test_shift(void) {
    double tests[] = {2.41e8, 2.41e8, 2.41e8, 2.41e8};
    CHECK_CLOSE(ss_coupon_yield(tests, 4, NULL).value, 2.41e8, 1e-14);
    tests[1] += 2.0e7;
    tests[3] -= 0.7e7;
    const double before = ss_coupon_yield(tests, 4, NULL).value;
    for (int i = 0; i < 4; i++) {
        tests[i] += 3.3e7;
    }
    CHECK_CLOSE(ss_coupon_yield(tests, 4, NULL).value, before + 3.3e7, 1e-12);
}

/* One or two tests: no value, the lowest and why. */
static void test_too_few(void) {
    const double tests[] = {2.61e8, 2.44e8};
    ss_working working = {0};
    ss_coupon_strength found = ss_coupon_yield(tests, 1, &working);
    CU_ASSERT(isnan(found.value) && isnan(found.deviation) && isnan(found.manual));
    CU_ASSERT_EQUAL(found.lowest, 2.61e8);
    CU_ASSERT_PTR_NOT_NULL(strstr(found.why, "three"));
    check_steps(&working, 2);
    found = ss_coupon_yield(tests, 2, NULL);
    CU_ASSERT(isnan(found.value));
    CU_ASSERT_EQUAL(found.lowest, 2.44e8);
    CHECK_CLOSE(found.manual, 2.525e8 - 1.65 * 1.7e7 / sqrt(2.0), 1e-12);
    CU_ASSERT_PTR_NOT_NULL(found.why);
}

static void test_what_cannot_be_told(void) {
    static const double odd[] = {0.0, -2.0e8, (double)NAN, (double)INFINITY};
    for (size_t i = 0; i < sizeof odd / sizeof odd[0]; i++) {
        const double tests[] = {2.4e8, 2.5e8, odd[i], 2.45e8};
        CU_ASSERT(isnan(ss_coupon_yield(tests, 4, NULL).value));
        CU_ASSERT_PTR_NOT_NULL(ss_coupon_yield(tests, 4, NULL).why);
    }
    const double wild[] = {1.0e8, 6.0e8, 2.0e8};
    CU_ASSERT_PTR_NOT_NULL(strstr(ss_coupon_yield(wild, 3, NULL).why, "scatter"));
    const double huge[] = {1e308, 1e300, 1e290};
    CU_ASSERT(isnan(ss_coupon_yield(huge, 3, NULL).value));
    CU_ASSERT(isnan(ss_coupon_yield(NULL, 3, NULL).value));
    CU_ASSERT(isnan(ss_coupon_yield(wild, 0, NULL).value));
}

int main(void) {
    static const test_case cases[] = {{"prediction factors", test_prediction_is_the_printed_table},
                                      {"factors", test_factors},
                                      {"factor falls", test_factor_falls},
                                      {"worked", test_worked},
                                      {"shift", test_shift},
                                      {"too few", test_too_few},
                                      {"what cannot be told", test_what_cannot_be_told}};
    return RUN_SUITE("coupon strength", cases);
}
