/* weld_group.c - connectors by their fillet welds: the elastic vector method. */
#include <math.h>
#include <stddef.h>

#include "assess/joint_modes.h"

#define SOURCE_WELD "AASHTO LRFD 6.13.3.2.4b (from memory)"
#define SOURCE_STEEL "AASHTO LRFD 6.13.5.3 (from memory)"

/* A group as lines of unit throat. */
typedef struct line_sums {
    double length, u, z; /* total, centroid */
    double I_u, I_z;     /* of length about the centroid: sums of (u - uc)^2 and (z - zc)^2 */
} line_sums;

static double length_of(const ss_weld_line *line) {
    return hypot(line->u1 - line->u0, line->z1 - line->z0);
}

/* Integral of the square of a coordinate over a line on which it runs from a to b. */
static double square_over(double length, double a, double b) {
    return length * (a * a + a * b + b * b) / 3.0;
}

static line_sums sums_of(const ss_weld_group *group) {
    line_sums sums = {0};
    for (int i = 0; i < group->count; i++) {
        const ss_weld_line *const line = &group->lines[i];
        const double length = length_of(line);
        sums.length += length;
        sums.u += length * 0.5 * (line->u0 + line->u1);
        sums.z += length * 0.5 * (line->z0 + line->z1);
    }
    if (!ss_rule_positive(sums.length)) {
        return sums;
    }
    sums.u /= sums.length;
    sums.z /= sums.length;
    for (int i = 0; i < group->count; i++) {
        const ss_weld_line *const line = &group->lines[i];
        const double length = length_of(line);
        sums.I_u += square_over(length, line->u0 - sums.u, line->u1 - sums.u);
        sums.I_z += square_over(length, line->z0 - sums.z, line->z1 - sums.z);
    }
    return sums;
}

/* Force per length at one end of a line, which is where it is largest. */
static double force_at(const ss_weld_group *group, const line_sums *sums, double u, double z, double shear,
                       double moment) {
    const double direct = shear / sums->length;
    if (group->on_side) {
        return moment == 0.0 ? fabs(direct) : hypot(direct, moment * (z - sums->z) / sums->I_z);
    }
    if (moment == 0.0) {
        return fabs(direct);
    }
    const double turn = moment / (sums->I_u + sums->I_z);
    return ss_max(hypot(turn * (z - sums->z), direct + turn * (u - sums->u)),
                  hypot(turn * (z - sums->z), direct - turn * (u - sums->u)));
}

double ss_weld_group_force(const ss_weld_group *group, double shear, double moment) {
    if (group->lines == NULL || group->count < 1) {
        return SS_NAN;
    }
    const line_sums sums = sums_of(group);
    const double held = group->on_side ? sums.I_z : sums.I_u + sums.I_z;
    if (!ss_rule_positive(sums.length) || (moment != 0.0 && !ss_rule_positive(held))) {
        return SS_NAN;
    }
    double largest = 0.0;
    for (int i = 0; i < group->count; i++) {
        const ss_weld_line *const line = &group->lines[i];
        largest = ss_max(largest, force_at(group, &sums, line->u0, line->z0, shear, moment));
        largest = ss_max(largest, force_at(group, &sums, line->u1, line->z1, shear, moment));
    }
    return isfinite(largest) ? largest : SS_NAN;
}

static const char *fault_of(const ss_weld_group *group) {
    if (group->lines == NULL || group->count < 1) {
        return "the connector has no welds";
    }
    if (!ss_rule_positive(group->leg) || !ss_rule_positive(group->electrode)) {
        return "the size of the connector's fillets or their electrode is not known";
    }
    if (!ss_rule_not_negative(group->arm)) {
        return "the arm of the connector is not known";
    }
    if (!ss_rule_positive(sums_of(group).length)) {
        return "the connector's welds have no length";
    }
    return NULL;
}

static ss_joint_capacity capacity_of(const ss_weld_group *group, double force, const char *no_hold,
                                     ss_working *working) {
    ss_joint_capacity out = ss_joint_capacity_open();
    if (!ss_rule_positive(force)) {
        ss_joint_capacity_limit(&out, SS_PHI_WELD, 0.0, no_hold);
        return out;
    }
    const double fillet = ss_joint_fillet(group->leg, group->electrode);
    ss_joint_capacity_limit(&out, SS_PHI_WELD, fillet / force, "the fillet welds");
    if (ss_rule_positive(group->base) && ss_rule_positive(group->base_fu)) {
        const double rupture = SS_SHEAR_OF_STEEL * group->base_fu * group->base;
        ss_working_add(working, "0.58 Fu t", "rupture of the part beside the weld, per length", rupture,
                       SS_DIM_LINE_LOAD, SOURCE_STEEL);
        ss_joint_capacity_limit(&out, SS_PHI_RUPTURE, rupture / force, "rupture of the part beside the weld");
    }
    return out;
}

ss_joint_strength ss_weld_group_strength(const ss_weld_group *group, ss_working *working) {
    const char *const fault = fault_of(group);
    if (fault != NULL) {
        return ss_joint_strength_none(fault);
    }
    ss_working_add(working, "0.6 F_EXX w / sqrt(2)", "one fillet in shear, per length",
                   ss_joint_fillet(group->leg, group->electrode), SS_DIM_LINE_LOAD, SOURCE_WELD);
    const double of_shear = ss_weld_group_force(group, 1.0, group->arm);
    const double of_moment = ss_weld_group_force(group, 0.0, 1.0);
    ss_working_add(working, "r_V", "1/m: largest force per length for a shear of 1 at its arm", of_shear,
                   SS_DIM_NUMBER, "elastic vector");
    ss_working_add(working, "r_M", "1/m2: largest force per length for a moment of 1", of_moment,
                   SS_DIM_NUMBER, "elastic vector");
    static const char no_hold[] = "the welds hold no moment";
    return ss_joint_strength_checked(
        (ss_joint_strength){.shear = capacity_of(group, of_shear, no_hold, working),
                            .moment = capacity_of(group, of_moment, no_hold, NULL)});
}
