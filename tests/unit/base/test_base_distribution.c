/* test_base_distribution.c - quantiles against printed tables and closed forms, and the Gaussian copula. */
#include "base/distribution.h"
#include "base/numeric.h"
#include "base/random.h"
#include "support/suite.h"

/* Printed values: Wichura, Applied Statistics 37 (1988), algorithm AS 241, for 0.25, 0.001 and 1e-20; the
 * others from tables of the normal distribution, from memory. */
static void test_normal_table(void) {
    static const double rows[][2] = {
        {0.25, -0.6744897501960817}, {0.001, -3.090232306167814}, {1e-20, -9.262340089798408},
        {0.90, 1.2815515655446004},  {0.95, 1.6448536269514722},  {0.975, 1.959963984540054},
        {0.99, 2.3263478740408408},  {0.995, 2.5758293035489004}, {0.999, 3.090232306167813},
        {1e-10, -6.361340902404056},
    };
    for (int i = 0; i < ENTRIES(rows); i++) {
        check_relative("quantile", ss_normal_quantile(rows[i][0]), rows[i][1], 2e-15);
    }
    CU_ASSERT_EQUAL(ss_normal_quantile(0.5), 0.0);
    CU_ASSERT(isinf(ss_normal_quantile(0.0)) && ss_normal_quantile(0.0) < 0.0);
    CU_ASSERT(isinf(ss_normal_quantile(1.0)) && ss_normal_quantile(1.0) > 0.0);
}

static void test_normal_there_and_back(void) {
    for (double p = 1e-300; p < 0.5; p *= 1.7) {
        const double x = ss_normal_quantile(p);
        /* d(ln p)/dx is about -x in the tail: a unit of the last place of x moves p by x^2 of them. */
        check_relative("share", ss_normal_share(x), p, 4e-16 * (2.0 + x * x));
        if (p > 1e-3) {
            check_near("mirror", ss_normal_quantile(1.0 - p), -x, 1e-13, 1.0);
        }
    }
}

static void test_normal_between(void) {
    /* Half a bell: the p-quantile of |z| is that of (1 + p)/2. */
    CHECK_CLOSE(ss_normal_quantile_between(0.9, 0.0, SS_INFINITY), ss_normal_quantile(0.95), 1e-14);
    CHECK_CLOSE(ss_normal_quantile_between(0.3, -SS_INFINITY, SS_INFINITY), ss_normal_quantile(0.3), 1e-15);
    /* Far out the tail falls off like exp(-a x): the median lies ln 2/a beyond a, nearly. */
    const double far = ss_normal_quantile_between(0.5, 30.0, SS_INFINITY);
    check_near("far median", far, 30.0 + log(2.0) / 30.0, 1e-4, 1.0);
    CHECK_CLOSE(ss_normal_share(-far) / ss_normal_share(-30.0), 0.5, 1e-12);
    for (int i = 0; i <= 10; i++) {
        const double x = ss_normal_quantile_between(0.1 * i, -0.4, 1.1);
        CU_ASSERT(x >= -0.4 && x <= 1.1);
        const double share =
            (ss_normal_share(x) - ss_normal_share(-0.4)) / (ss_normal_share(1.1) - ss_normal_share(-0.4));
        check_near("share between", share, 0.1 * i, 1e-14, 1.0);
    }
}

/* Mean and standard deviation by the midpoint rule over p, which the quantile's form leaves good to 1e-3. */
static void test_lognormal_moments(void) {
    double log_mean = 0.0;
    double log_sd = 0.0;
    ss_lognormal_of(36.0, 9.0, &log_mean, &log_sd);
    CHECK_CLOSE(exp(log_mean + 0.5 * log_sd * log_sd), 36.0, 1e-14);
    CHECK_CLOSE(36.0 * sqrt(expm1(log_sd * log_sd)), 9.0, 1e-14);
    double sum = 0.0;
    double squares = 0.0;
    enum { COUNT = 200000 };
    for (int i = 0; i < COUNT; i++) {
        const double x = exp(log_mean + log_sd * ss_normal_quantile((i + 0.5) / COUNT));
        sum += x;
        squares += (x - 36.0) * (x - 36.0);
    }
    CHECK_CLOSE(sum / COUNT, 36.0, 1e-5);
    CHECK_CLOSE(sqrt(squares / COUNT), 9.0, 1e-4);
}

static void test_triangular(void) {
    const double low = 3.0;
    const double mode = 4.0;
    const double high = 7.0;
    CU_ASSERT_EQUAL(ss_triangular_quantile(0.0, low, mode, high), low);
    CHECK_CLOSE(ss_triangular_quantile(0.25, low, mode, high), mode, 1e-15);
    CU_ASSERT_EQUAL(ss_triangular_quantile(1.0, low, mode, high), high);
    for (double p = 0.01; p < 1.0; p += 0.07) {
        const double x = ss_triangular_quantile(p, low, mode, high);
        const double share = x < mode ? (x - low) * (x - low) / ((high - low) * (mode - low))
                                      : 1.0 - (high - x) * (high - x) / ((high - low) * (high - mode));
        CHECK_CLOSE(share, p, 1e-13);
    }
    /* The mode at an end. */
    CHECK_CLOSE(ss_triangular_quantile(0.19, 0.0, 0.0, 1.0), 0.1, 1e-14);
    CHECK_CLOSE(ss_triangular_quantile(0.36, 0.0, 1.0, 1.0), 0.6, 1e-14);
}

static void test_discrete(void) {
    static const double weights[] = {1.0, 0.0, 2.0, 1.0, 0.0};
    CU_ASSERT_EQUAL(ss_discrete_quantile(0.1, 5, weights), 0);
    CU_ASSERT_EQUAL(ss_discrete_quantile(0.25, 5, weights), 2);
    CU_ASSERT_EQUAL(ss_discrete_quantile(0.74, 5, weights), 2);
    CU_ASSERT_EQUAL(ss_discrete_quantile(0.76, 5, weights), 3);
    CU_ASSERT_EQUAL(ss_discrete_quantile(1.0, 5, weights), 3);
}

static void test_cholesky(void) {
    /* L L^T by hand: L = [2; 6 1; -8 5 3]. */
    double a[] = {4.0, 99.0, 99.0, 12.0, 37.0, 99.0, -16.0, -43.0, 98.0};
    static const double expected[] = {2.0, 0.0, 0.0, 6.0, 1.0, 0.0, -8.0, 5.0, 3.0};
    CU_ASSERT_TRUE_FATAL(ss_cholesky(3, a, NULL));
    for (int i = 0; i < 9; i++) {
        CU_ASSERT_EQUAL(a[i], expected[i]);
    }
    double impossible[] = {1.0, 0.0, 0.0, 0.9, 1.0, 0.0, 0.9, -0.9, 1.0};
    int at = -1;
    CU_ASSERT_FALSE(ss_cholesky(3, impossible, &at));
    CU_ASSERT_EQUAL(at, 2);
    double same[] = {1.0, 0.0, 1.0, 1.0};
    CU_ASSERT_FALSE(ss_cholesky(2, same, &at));
}

/* Kendall's tau of a Gaussian copula is (2/pi) asin(rho), Spearman's (6/pi) asin(rho/2) (Kruskal, 1958); the
 * margins stay uniform. */
static void test_copula(void) {
    enum { COUNT = 20000 };
    const double rho = -0.7;
    double lower[] = {1.0, 0.0, rho, 1.0};
    CU_ASSERT_TRUE_FATAL(ss_cholesky(2, lower, NULL));
    double xy = 0.0;
    double mean = 0.0;
    double square = 0.0;
    for (int i = 0; i < COUNT; i++) {
        double p[2];
        double work[2];
        ss_draw(9, COUNT, 2, i, p);
        const double first = p[0];
        ss_copula(2, lower, p, work);
        CU_ASSERT_EQUAL(p[0], first);
        CU_ASSERT_FATAL(p[1] > 0.0 && p[1] < 1.0);
        xy += (p[0] - 0.5) * (p[1] - 0.5);
        mean += p[1];
        square += (p[1] - 0.5) * (p[1] - 0.5);
    }
    check_near("spearman", 12.0 * xy / COUNT, 6.0 / SS_PI * asin(rho / 2.0), 0.02, 1.0);
    check_near("mean", mean / COUNT, 0.5, 0.005, 1.0);
    check_near("variance", square / COUNT, 1.0 / 12.0, 0.002, 1.0);
}

int main(void) {
    static const test_case cases[] = {
        {"normal quantiles of tables", test_normal_table},
        {"normal there and back", test_normal_there_and_back},
        {"normal between", test_normal_between},
        {"lognormal moments", test_lognormal_moments},
        {"triangular", test_triangular},
        {"discrete", test_discrete},
        {"cholesky", test_cholesky},
        {"copula", test_copula},
    };
    return RUN_SUITE("base/distribution", cases);
}
