/* wheel_patch.c - the area on which a wheel presses, and how it grows with depth. */
#include <math.h>

#include "assess/rule.h"
#include "sillspan/deck_strength.h"

#define INCH 0.0254
#define POUND 4.4482216152605

/* AASHTO Standard Specifications 3.30: square inches a pound, and width over length. */
#define AREA_PER_POUND 0.01
#define WIDE 2.5

ss_wheel_patch ss_wheel_patch_of(ss_patch_rule rule, double wheel) {
    switch (rule) {
    case SS_PATCH_LRFD: return (ss_wheel_patch){.along = 10.0 * INCH, .across = 20.0 * INCH};
    case SS_PATCH_LM1: return (ss_wheel_patch){.along = 0.40, .across = 0.40};
    case SS_PATCH_LM2: return (ss_wheel_patch){.along = 0.35, .across = 0.60};
    case SS_PATCH_STANDARD:
        if (ss_rule_positive(wheel)) {
            const double along = sqrt(AREA_PER_POUND * (wheel / POUND) / WIDE) * INCH;
            return (ss_wheel_patch){.along = along, .across = WIDE * along};
        }
        break;
    default: break;
    }
    return (ss_wheel_patch){.along = SS_NAN, .across = SS_NAN};
}

ss_wheel_patch ss_wheel_patch_spread(ss_wheel_patch patch, double depth) {
    if (!ss_rule_not_negative(depth)) {
        return (ss_wheel_patch){.along = SS_NAN, .across = SS_NAN};
    }
    return (ss_wheel_patch){.along = patch.along + 2.0 * depth, .across = patch.across + 2.0 * depth};
}
