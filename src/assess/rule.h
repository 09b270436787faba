/* rule.h - what the strength rules share: a look at their inputs, and results that say why there is none. */
#ifndef SS_ASSESS_RULE_H
#define SS_ASSESS_RULE_H

#include <math.h>
#include <stdbool.h>
#include <stddef.h>

#include "base/numeric.h"
#include "sillspan/resistance.h"

/** Finite and more than zero: what a length, an area or a stress has to be. */
static inline bool ss_rule_positive(double x) {
    return isfinite(x) && x > 0.0;
}

/** Finite and at least zero. */
static inline bool ss_rule_not_negative(double x) {
    return isfinite(x) && x >= 0.0;
}

static inline ss_resistance ss_rule_none(const char *rule, const char *why) {
    return (ss_resistance){.value = SS_NAN, .rule = rule, .why = why};
}

/** A resistance, unless the arithmetic left the range of numbers. */
static inline ss_resistance ss_rule_value(double value, const char *rule) {
    if (!ss_rule_not_negative(value)) {
        return ss_rule_none(rule, "its figures are out of range");
    }
    return (ss_resistance){.value = value, .rule = rule};
}

#endif
