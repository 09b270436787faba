/* slab_concrete.c - modulus of concrete, and a wheel that punches through a slab. */
#include <math.h>

#include "assess/rule.h"
#include "sillspan/slab_strength.h"

#define KSI 6894757.2931683608
#define KIP 4448.2216152605
#define FOOT 0.3048

/* Most that counts of the shear around a wheel, and the part that its shape does not touch. */
#define PUNCH_MOST 0.126
#define PUNCH_BASE 0.063

#define SOURCE "AASHTO LRFD 5.12.8.6.3 (from memory)"

double ss_slab_E(double fc, double weight) {
    if (!ss_rule_positive(fc) || !ss_rule_positive(weight)) {
        return SS_NAN;
    }
    const double wc = weight / (KIP / (FOOT * FOOT * FOOT));
    return 33000.0 * wc * sqrt(wc) * sqrt(fc / KSI) * KSI;
}

int ss_slab_table_n(double fc) {
    static const double from[] = {6.0, 4.6, 3.6, 2.9, 2.4};
    for (int i = 0; i < 5; i++) {
        if (fc >= from[i] * KSI * (1.0 - 1e-9)) {
            return 6 + i;
        }
    }
    return 0;
}

ss_resistance ss_slab_punching(ss_wheel_patch patch, double depth, double fc, ss_working *working) {
    static const char rule[] =
        "shear around a wheel, (0.063 + 0.126/beta) sqrt(fc) bo d (AASHTO LRFD 5.12.8.6.3)";
    if (!ss_rule_positive(patch.along) || !ss_rule_positive(patch.across)) {
        return ss_rule_none(rule, "the contact area of the wheel is not known");
    }
    if (!ss_rule_positive(depth) || !ss_rule_positive(fc)) {
        return ss_rule_none(rule, "depth of the bars or strength of the concrete is not positive");
    }
    const double beta = ss_max(patch.along, patch.across) / ss_min(patch.along, patch.across);
    const double perimeter = 2.0 * (patch.along + patch.across + 2.0 * depth);
    const double stress = ss_min(PUNCH_BASE + 0.126 / beta, PUNCH_MOST) * sqrt(fc / KSI) * KSI;
    ss_working_add(working, "beta", "long side of the wheel's area over the short one", beta, SS_DIM_NUMBER,
                   NULL);
    ss_working_add(working, "d", "mean depth of the bars", depth, SS_DIM_SMALL_LENGTH, NULL);
    ss_working_add(working, "bo", "perimeter half of d outside the wheel, 2 (a + b + 2 d)", perimeter,
                   SS_DIM_SMALL_LENGTH, SOURCE);
    ss_working_add(working, "vn", "(0.063 + 0.126/beta) sqrt(fc) up to 0.126 sqrt(fc), ksi", stress,
                   SS_DIM_STRESS, SOURCE);
    const ss_resistance found = ss_rule_value(stress * perimeter * depth, rule);
    ss_working_add(working, "Vn", "vn bo d", found.value, SS_DIM_FORCE, SOURCE);
    return found;
}
