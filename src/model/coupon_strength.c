/* coupon_strength.c - characteristic yield stress of a steel from tests of coupons. */
#include "sillspan/coupon_strength.h"

#include <math.h>
#include <stddef.h>

#include "base/numeric.h"

static bool is_positive(double x) {
    return isfinite(x) && x > 0.0;
}

/* Factor for many tests, 5 % of a normal distribution as the Manual for Bridge Evaluation rounds it. */
#define MANY 1.65

/* Fewest tests that tell of a scatter, by either of the two sources. */
enum { FEWEST = 3, TABLED_MOST = 100 };

/* Tests and factor, rounded up in the third decimal: of 3 tests t sqrt(1 + 1/n) of EN 1990 Table D.1 is the
 * larger, from 4 the tolerance factor for 95 % at 75 % confidence. A test works both out anew. */
static const struct {
    int tests;
    double factor;
} factors[] = {{3, 3.372},  {4, 2.681},  {5, 2.464},  {6, 2.336},  {7, 2.251},  {8, 2.189},
               {9, 2.142},  {10, 2.104}, {12, 2.048}, {15, 1.991}, {20, 1.932}, {25, 1.895},
               {30, 1.869}, {40, 1.834}, {50, 1.811}, {75, 1.778}, {100, 1.758}};

double ss_coupon_factor(int count) {
    if (count < FEWEST) {
        return SS_NAN;
    }
    if (count > TABLED_MOST) {
        return MANY;
    }
    size_t at = 0;
    while (at + 1 < sizeof factors / sizeof factors[0] && factors[at + 1].tests <= count) {
        at++;
    }
    return factors[at].factor;
}

static ss_coupon_strength none(const char *why) {
    return (ss_coupon_strength){.value = SS_NAN,
                                .mean = SS_NAN,
                                .deviation = SS_NAN,
                                .factor = SS_NAN,
                                .lowest = SS_NAN,
                                .manual = SS_NAN,
                                .rule = "characteristic yield stress of coupons",
                                .why = why};
}

/* Mean, deviation and lowest; false when a test cannot be one. */
static bool summarize(const double *tests, int count, ss_coupon_strength *out) {
    double mean = 0.0;
    double lowest = SS_INFINITY;
    for (int i = 0; i < count; i++) {
        if (!is_positive(tests[i])) {
            return false;
        }
        mean += (tests[i] - mean) / (i + 1);
        lowest = ss_min(lowest, tests[i]);
    }
    double squares = 0.0;
    for (int i = 0; i < count; i++) {
        squares += (tests[i] - mean) * (tests[i] - mean);
    }
    out->mean = mean;
    out->lowest = lowest;
    if (count > 1) {
        out->deviation = sqrt(squares / (count - 1));
        out->manual = mean - MANY * out->deviation;
    }
    return isfinite(mean) && isfinite(squares);
}

ss_coupon_strength ss_coupon_yield(const double *tests, int count, ss_working *working) {
    if (tests == NULL || count < 1) {
        return none("there are no tests of coupons");
    }
    ss_coupon_strength out = none(NULL);
    if (!summarize(tests, count, &out)) {
        return none("a coupon's yield stress is not a positive number, or out of range");
    }
    ss_working_add(working, "mean", "of the coupons", out.mean, SS_DIM_STRESS, NULL);
    if (count < FEWEST) {
        out.why = count == 1 ? "one coupon tells nothing of the scatter: at least three are needed"
                             : "two coupons tell too little of the scatter: at least three are needed";
        ss_working_add(working, "lowest", "of fewer than three coupons: no lower bound of the steel",
                       out.lowest, SS_DIM_STRESS, NULL);
        return out;
    }
    ss_working_add(working, "s", "standard deviation of the sample", out.deviation, SS_DIM_STRESS, NULL);
    out.factor = ss_coupon_factor(count);
    const bool many = count > TABLED_MOST;
    ss_working_add(working, "k", "factor for the number of coupons", out.factor, SS_DIM_NUMBER,
                   many ? "AASHTO MBE 6A.6.2.1 (from memory)" : "EN 1990 Table D.1; ISO 16269-6");
    out.rule = many ? "mean less 1.65 deviations of more than 100 coupons (AASHTO MBE 6A.6.2.1)"
                    : "mean less k deviations, k for few coupons (EN 1990 D.7; 95 % at 75 % confidence)";
    const double value = out.mean - out.factor * out.deviation;
    ss_working_add(working, "Fy", "mean - k s", value, SS_DIM_STRESS, NULL);
    if (!is_positive(value)) {
        out.why = "the coupons scatter so much that no characteristic value is left";
        return out;
    }
    out.value = value;
    return out;
}
