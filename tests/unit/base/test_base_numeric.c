/* test_base_numeric.c - Gauss points, sorting, closeness. */
#include <math.h>

#include "base/numeric.h"
#include "support/suite.h"

static void test_gauss_is_exact_to_its_degree_and_no_further(void) {
    for (int count = 1; count <= SS_GAUSS_MOST; count++) {
        double x[SS_GAUSS_MOST];
        double w[SS_GAUSS_MOST];
        ss_gauss_points(count, x, w);
        for (int degree = 0; degree <= 2 * count; degree++) {
            double sum = 0.0;
            for (int i = 0; i < count; i++) {
                sum += w[i] * pow(x[i], degree);
            }
            const double error = fabs(sum - 1.0 / (degree + 1));
            if (degree < 2 * count) {
                CU_ASSERT_TRUE(error < 4e-16);
            } else {
                /* What the rule misses of x^(2n) on [0,1]: (n!)^4 / ((2n+1) ((2n)!)^2), Davis and Rabinowitz,
                 * 1984. */
                const double n = count;
                const double missed =
                    exp(4.0 * lgamma(n + 1.0) - 2.0 * lgamma(2.0 * n + 1.0)) / (2.0 * n + 1.0);
                CU_ASSERT_TRUE(fabs(error - missed) < 4e-16);
            }
        }
    }
}

static void test_gauss_points_rise_and_mirror(void) {
    for (int count = 1; count <= SS_GAUSS_MOST; count++) {
        double x[SS_GAUSS_MOST];
        double w[SS_GAUSS_MOST];
        ss_gauss_points(count, x, w);
        for (int i = 0; i < count; i++) {
            CU_ASSERT_TRUE(x[i] > (i == 0 ? 0.0 : x[i - 1]) && x[i] < 1.0);
            CU_ASSERT_TRUE(fabs(x[i] + x[count - 1 - i] - 1.0) < 2e-16);
            CU_ASSERT_EQUAL(w[i], w[count - 1 - i]);
        }
    }
}

static void test_sort_drops_neighbours(void) {
    double x[] = {7.31, 0.0, 53.02, 7.31 + 0.9e-6, -4.5, 7.31 + 1.7e-6, 53.02, 60.0};
    int count = 8;
    ss_sort_unique(x, &count, 1e-6);
    CU_ASSERT_EQUAL_FATAL(count, 6);
    /* The third of the row at 7.31 is within 1e-6 of the one dropped, not of the one kept. */
    const double expected[] = {-4.5, 0.0, 7.31, 7.31 + 1.7e-6, 53.02, 60.0};
    for (int i = 0; i < 6; i++) {
        CU_ASSERT_EQUAL(x[i], expected[i]);
    }
    count = 0;
    ss_sort_unique(x, &count, 1e-6);
    CU_ASSERT_EQUAL(count, 0);
}

static void test_close(void) {
    CU_ASSERT_TRUE(ss_close(2385.0, 2385.002, 1e-6));
    CU_ASSERT_FALSE(ss_close(2385.0, 2385.003, 1e-6));
    CU_ASSERT_FALSE(ss_close(-1.7, 1.7, 1e-3));
    CU_ASSERT_TRUE(ss_close(0.0, -0.0, 0.0));
    CU_ASSERT_FALSE(ss_close(0.0, 1e-300, 1e-6));
    CU_ASSERT_FALSE(ss_close(SS_NAN, SS_NAN, 1.0));
    CU_ASSERT_EQUAL(ss_clamp(7.3, -2.1, 5.9), 5.9);
    CU_ASSERT_EQUAL(ss_clamp(-7.3, -2.1, 5.9), -2.1);
    CU_ASSERT_EQUAL(ss_clamp(1.3, -2.1, 5.9), 1.3);
}

int main(void) {
    const test_case cases[] = {
        {"Gauss is exact to its degree and no further", test_gauss_is_exact_to_its_degree_and_no_further},
        {"Gauss points rise and mirror", test_gauss_points_rise_and_mirror},
        {"sorting drops neighbours", test_sort_drops_neighbours},
        {"close", test_close},
    };
    return RUN_SUITE("base/numeric", cases);
}
