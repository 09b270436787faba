/* joint_estimate.h - what the estimates of a joint's stiffness share. */
#ifndef SS_MODEL_JOINT_ESTIMATE_H
#define SS_MODEL_JOINT_ESTIMATE_H

#include <math.h>

#include "base/numeric.h"
#include "sillspan/joint_stiffness.h"

#define SS_JOINT_OUT_OF_RANGE "the figures of the joint are out of range"

static inline bool ss_joint_size(double x) {
    return isfinite(x) && x > 0.0;
}

static inline ss_joint_stiffness ss_joint_stiffness_none(const char *why) {
    return (ss_joint_stiffness){.shear = SS_NAN, .rotation = SS_NAN, .why = why};
}

/** The springs, unless the arithmetic left the range of numbers. */
static inline ss_joint_stiffness ss_joint_stiffness_checked(ss_joint_stiffness found) {
    const bool good =
        isfinite(found.shear) && found.shear >= 0.0 && isfinite(found.rotation) && found.rotation >= 0.0;
    return good ? found : ss_joint_stiffness_none(SS_JOINT_OUT_OF_RANGE);
}

ss_joint_stiffness ss_joint_of_bolts(const ss_joint_detail *d, ss_working *working);
ss_joint_stiffness ss_joint_of_concrete(const ss_joint_detail *d, ss_working *working);

#endif
