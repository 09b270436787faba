/* test_base_statistics.c - quantiles, intervals and rank correlations against published examples. */
#include "base/numeric.h"
#include "base/statistics.h"
#include "sillspan/memory.h"
#include "support/suite.h"

static void test_quantiles(void) {
    double x[] = {7.0, 1.0, 10.0, 3.0, 2.0, 5.0, 4.0, 8.0, 6.0, 9.0};
    ss_sort(10, x);
    /* By the definition: number 1 + 9 p of 1, 2 ... 10. */
    for (int i = 0; i <= 20; i++) {
        CHECK_CLOSE(ss_quantile(10, x, 0.05 * i), 1.0 + 9.0 * 0.05 * i, 1e-14);
    }
    CU_ASSERT_EQUAL(ss_quantile(1, x, 0.3), 1.0);
    const double open[] = {1.0, 2.0, SS_INFINITY};
    CU_ASSERT_EQUAL(ss_quantile(3, open, 0.5), 2.0);
}

/* Tables of confidence limits of the median by order statistics: of 10 values the 2nd and the 9th at 95 %
 * (97.85 % in truth), of 20 the 6th and the 15th, of 6 the least and the largest, of 5 none; from memory. */
static void test_quantile_intervals(void) {
    static const int rows[][3] = {{10, 2, 9}, {20, 6, 15}, {6, 1, 6}, {5, 0, 6}};
    int low = 0;
    int high = 0;
    for (int i = 0; i < ENTRIES(rows); i++) {
        ss_quantile_interval(rows[i][0], 0.5, 0.95, &low, &high);
        CU_ASSERT_EQUAL(low + 1, rows[i][1]);
        CU_ASSERT_EQUAL(high + 1, rows[i][2]);
    }
    /* Wilks: 59 values must be drawn before the least of them lies below the 5 % quantile 95 % of the time;
     * two-sided at 90 % that is the same tail. */
    ss_quantile_interval(59, 0.05, 0.90, &low, &high);
    CU_ASSERT_EQUAL(low, 0);
    ss_quantile_interval(58, 0.05, 0.90, &low, &high);
    CU_ASSERT_EQUAL(low, -1);
    /* A large sample: n p -+ 1.96 sqrt(n p (1 - p)), within one. */
    ss_quantile_interval(100000, 0.05, 0.95, &low, &high);
    check_near("low", low, 5000.0 - 135.1, 1.5, 1.0);
    check_near("high", high, 5000.0 + 135.1, 1.5, 1.0);
}

/* Newcombe, Statistics in Medicine 17 (1998), table I, method 3; from memory. */
static void test_share_intervals(void) {
    static const struct {
        int hits, count;
        double low, high;
    } rows[] = {
        {81, 263, 0.2553, 0.3662}, {15, 148, 0.0624, 0.1605}, {0, 20, 0.0, 0.1611}, {1, 29, 0.0061, 0.1718}};
    for (int i = 0; i < ENTRIES(rows); i++) {
        double low = -1.0;
        double high = -1.0;
        ss_share_interval(rows[i].hits, rows[i].count, 0.95, &low, &high);
        check_near("low", low, rows[i].low, 5.1e-5, 1.0);
        check_near("high", high, rows[i].high, 5.1e-5, 1.0);
        /* The other share has the mirrored interval. */
        double other_low = 0.0;
        double other_high = 0.0;
        ss_share_interval(rows[i].count - rows[i].hits, rows[i].count, 0.95, &other_low, &other_high);
        check_near("mirror", other_low, 1.0 - high, 1e-14, 1.0);
        check_near("mirror", other_high, 1.0 - low, 1e-14, 1.0);
    }
}

static void test_rank_correlation(void) {
    /* Ten pupils' marks without ties: the squares of the rank differences sum to 54, rho = 1 - 6 54/990. */
    static const double english[] = {56, 75, 45, 71, 62, 64, 58, 80, 76, 61};
    static const double maths[] = {66, 70, 40, 60, 65, 56, 59, 77, 67, 63};
    /* With a tie: the example of the scipy.stats.spearmanr reference, 0.82078268166812329. */
    static const double x[] = {1, 2, 3, 4, 5};
    static const double y[] = {5, 6, 7, 8, 7};
    /* By hand: ranks 1, 2.5, 2.5, 4 against 1, 2, 3, 4 give 4.5/sqrt(4.5 5). */
    static const double pair[] = {3.1, 7.7, 7.7, 9.2};
    static const double rising[] = {-2.0, -1.0, 0.0, 40.0};
    static const double flat[] = {2.0, 2.0, 2.0, 2.0};
    double rho = 0.0;
    CU_ASSERT_EQUAL_FATAL(ss_rank_correlation(10, english, maths, &rho), SS_OK);
    CHECK_CLOSE(rho, 1.0 - 6.0 * 54.0 / 990.0, 1e-14);
    CU_ASSERT_EQUAL_FATAL(ss_rank_correlation(5, x, y, &rho), SS_OK);
    CHECK_CLOSE(rho, 0.82078268166812329, 1e-14);
    CU_ASSERT_EQUAL_FATAL(ss_rank_correlation(4, pair, rising, &rho), SS_OK);
    CHECK_CLOSE(rho, 4.5 / sqrt(4.5 * 5.0), 1e-14);
    CU_ASSERT_EQUAL_FATAL(ss_rank_correlation(4, flat, rising, &rho), SS_OK);
    CU_ASSERT(isnan(rho));
    CU_ASSERT_EQUAL_FATAL(ss_rank_correlation(1, x, y, &rho), SS_OK);
    CU_ASSERT(isnan(rho));
}

static void test_no_memory(void) {
    static const double x[] = {1, 2, 3};
    double rho = 0.0;
    for (long n = 0; n < 3; n++) {
        const long live = ss_memory_live();
        ss_memory_fail_from(n);
        const ss_status status = ss_rank_correlation(3, x, x, &rho);
        ss_memory_fail_from(-1);
        CU_ASSERT_EQUAL(status, SS_ERROR_MEMORY);
        CU_ASSERT_EQUAL(ss_memory_live(), live);
    }
}

int main(void) {
    static const test_case cases[] = {
        {"quantiles", test_quantiles},
        {"intervals of quantiles", test_quantile_intervals},
        {"intervals of shares", test_share_intervals},
        {"rank correlation", test_rank_correlation},
        {"no memory", test_no_memory},
    };
    return RUN_SUITE("base/statistics", cases);
}
