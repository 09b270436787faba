/* joint_modes.h - the ways in which a joint can fail, and the one that governs. */
#ifndef SS_ASSESS_JOINT_MODES_H
#define SS_ASSESS_JOINT_MODES_H

#include "assess/rule.h"
#include "sillspan/joint_strength.h"

/* Resistance factors of AASHTO LRFD 6.5.4.2 and 5.5.4.2, from memory. */
#define SS_PHI_YIELD 1.00
#define SS_PHI_RUPTURE 0.80
#define SS_PHI_WELD 0.80
#define SS_PHI_BOLT 0.80
#define SS_PHI_CONCRETE 0.90

/* Shear over tension, 1 / sqrt(3) as the specification rounds it, and weld metal in shear (LRFD 6.13.3.2.4b).
 */
#define SS_SHEAR_OF_STEEL 0.58
#define SS_SHEAR_OF_WELD 0.60

#define SS_JOINT_NOTHING "nothing: not known"

/** No capacity yet: anything governs it. */
static inline ss_joint_capacity ss_joint_capacity_open(void) {
    return (ss_joint_capacity){.factored = SS_INFINITY, .nominal = SS_INFINITY, .mode = SS_JOINT_NOTHING};
}

/** Lets a mode govern when it is less than what governs so far; what is not a number stays so. */
static inline void ss_joint_capacity_limit(ss_joint_capacity *capacity, double phi, double nominal,
                                           const char *mode) {
    if (!isnan(capacity->factored) && !(phi * nominal >= capacity->factored)) {
        *capacity = (ss_joint_capacity){.factored = phi * nominal, .nominal = nominal, .mode = mode};
    }
}

static inline ss_joint_strength ss_joint_strength_none(const char *why) {
    const ss_joint_capacity none = {.factored = SS_NAN, .nominal = SS_NAN, .mode = SS_JOINT_NOTHING};
    return (ss_joint_strength){.shear = none, .moment = none, .why = why};
}

/** The strength, unless the arithmetic left the range of numbers. */
static inline ss_joint_strength ss_joint_strength_checked(ss_joint_strength strength) {
    if (!ss_rule_not_negative(strength.shear.nominal) || !ss_rule_not_negative(strength.moment.nominal)) {
        return ss_joint_strength_none("the figures of the joint are out of range");
    }
    return strength;
}

/** Nominal force per length of a fillet of `leg`: throat leg / sqrt(2) in shear. */
static inline double ss_joint_fillet(double leg, double electrode) {
    return SS_SHEAR_OF_WELD * electrode * leg * 0.70710678118654752;
}

#endif
