/* coupon_strength.h - characteristic yield stress of a steel from tests of coupons. */
#ifndef SILLSPAN_COUPON_STRENGTH_H
#define SILLSPAN_COUPON_STRENGTH_H

#include "sillspan/working.h"

/** What tests say of a steel. Stresses in Pa. */
typedef struct ss_coupon_strength {
    double value;     /**< characteristic yield stress, mean - factor * deviation; NaN: see why */
    double mean;      /**< of the tests; NaN when there are none */
    double deviation; /**< standard deviation of the sample, over n - 1; NaN below two tests */
    double factor;    /**< k(n); NaN below three tests */
    double lowest;    /**< smallest test; NaN when there are none. Of one or two tests it is all that can be
                         told, and no lower bound of the steel */
    double manual;    /**< mean - 1.65 deviation, as the AASHTO Manual for Bridge Evaluation has it (6A.6.2.1,
                         from memory), whatever the number of tests; NaN below two tests */
    const char *rule; /**< how `value` came about */
    const char *why;  /**< NULL, or why there is no value */
} ss_coupon_strength;

/**
 * Factor k of n tests for the stress that 95 % of the steel exceeds, deviation not known beforehand: the
 * larger of that of EN 1990 Table D.1 (3.37, 2.63, 2.33 ... for 3, 4, 5 ... tests; it is t sqrt(1 + 1/n)) and
 * of the one-sided tolerance limit with 75 % confidence (3.15, 2.68, 2.46 ...; ISO 16269-6). From 3 to 100
 * tests tabulated, between entries that of fewer tests; beyond 100 1.65, as the Manual for Bridge Evaluation
 * has it. NaN below 3.
 */
double ss_coupon_factor(int count);

/** Characteristic yield stress of tests[count] (Pa), one steel. No value: fewer than three tests, a test that
 * is not positive, a scatter that leaves nothing. `working` may be NULL. */
ss_coupon_strength ss_coupon_yield(const double *tests, int count, ss_working *working);

#endif
