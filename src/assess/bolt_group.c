/* bolt_group.c - connectors by their bolts: shear, bearing, and the elastic vector method. */
#include <math.h>
#include <stddef.h>

#include "assess/joint_modes.h"

#define SHEAR "shear of the bolts (AASHTO LRFD 6.13.2.7)"
#define BEARING "bearing of the bolts on the parts (AASHTO LRFD 6.13.2.9)"
#define SOURCE_SHEAR "AASHTO LRFD 6.13.2.7 (from memory)"
#define SOURCE_BEARING "AASHTO LRFD 6.13.2.9, AISC 360 J3"

/* Shear strength of a bolt over its tensile strength and area, since the 8th edition. */
#define THREADS_OUT 0.56
#define THREADS_IN 0.45

/* Bolts weaker than this are common ones (A307): threads are taken to be in the plane, and phi is lower. */
#define HIGH_STRENGTH (100.0 * 6894757.2931683608)
#define PHI_COMMON 0.75

/* Both nominal resistances of one bolt, or why there are none. */
typedef struct bolt_modes {
    double shear, bearing, phi_shear;
    const char *rule, *why;
} bolt_modes;

static bolt_modes no_modes(const char *rule, const char *why) {
    return (bolt_modes){.shear = SS_NAN, .bearing = SS_NAN, .rule = rule, .why = why};
}

static bolt_modes modes_of(const ss_joint_bolt *bolt, ss_working *working) {
    if (!ss_rule_positive(bolt->diameter) || !ss_rule_positive(bolt->tensile)) {
        return no_modes(SHEAR, "the diameter or the strength of the bolts is not known");
    }
    if (bolt->planes != 1 && bolt->planes != 2) {
        return no_modes(SHEAR, "the bolts have one shear plane or two");
    }
    if (!ss_rule_positive(bolt->ply) || !ss_rule_positive(bolt->ply_fu) || !ss_rule_positive(bolt->clear)) {
        return no_modes(BEARING, "what the bolts bear on, or the clear distance beyond, is not known");
    }
    const double d = bolt->diameter;
    const bool common = bolt->tensile < HIGH_STRENGTH;
    const bool inside = bolt->threads_in_plane || common;
    const double area = SS_PI * d * d / 4.0;
    const bolt_modes modes = {.shear = (inside ? THREADS_IN : THREADS_OUT) * area * bolt->tensile *
                                       (double)bolt->planes,
                              .bearing = ss_min(1.2 * bolt->clear, 2.4 * d) * bolt->ply * bolt->ply_fu,
                              .phi_shear = common ? PHI_COMMON : SS_PHI_BOLT};
    ss_working_add(working, "A_b", "area of the bolt's shank", area, SS_DIM_AREA, NULL);
    ss_working_add(working, "R_n, shear",
                   inside ? "0.45 A_b F_ub a plane, threads in it" : "0.56 A_b F_ub a plane, threads outside",
                   modes.shear, SS_DIM_FORCE, SOURCE_SHEAR);
    ss_working_add(working, "R_n, bearing", "1.2 L_c t F_u, at most 2.4 d t F_u", modes.bearing, SS_DIM_FORCE,
                   SOURCE_BEARING);
    return modes;
}

ss_resistance ss_joint_bolt_resistance(const ss_joint_bolt *bolt, ss_working *working) {
    const bolt_modes modes = modes_of(bolt, working);
    if (modes.why != NULL) {
        return ss_rule_none(modes.rule, modes.why);
    }
    return modes.shear <= modes.bearing ? ss_rule_value(modes.shear, SHEAR)
                                        : ss_rule_value(modes.bearing, BEARING);
}

double ss_bolt_group_force(const ss_bolt_group *group, double shear, double moment) {
    if (group->places == NULL || group->count < 1) {
        return SS_NAN;
    }
    double u = 0.0;
    double z = 0.0;
    for (int i = 0; i < group->count; i++) {
        u += group->places[i].u / group->count;
        z += group->places[i].z / group->count;
    }
    double polar = 0.0;
    for (int i = 0; i < group->count; i++) {
        const double du = group->places[i].u - u;
        const double dz = group->places[i].z - z;
        polar += du * du + dz * dz;
    }
    if (moment != 0.0 && !ss_rule_positive(polar)) {
        return SS_NAN;
    }
    const double direct = shear / group->count;
    const double turn = moment == 0.0 ? 0.0 : moment / polar;
    double largest = 0.0;
    for (int i = 0; i < group->count; i++) {
        const double across = turn * (group->places[i].u - u);
        const double level = turn * (group->places[i].z - z);
        largest = ss_max(largest, ss_max(hypot(level, direct + across), hypot(level, direct - across)));
    }
    return isfinite(largest) ? largest : SS_NAN;
}

/* Until the worst bolt, with `force` of 1, is full. */
static ss_joint_capacity capacity_of(const bolt_modes *bolt, double force) {
    ss_joint_capacity out = ss_joint_capacity_open();
    if (!ss_rule_positive(force)) {
        ss_joint_capacity_limit(&out, SS_PHI_BOLT, 0.0, "one bolt holds no moment");
        return out;
    }
    ss_joint_capacity_limit(&out, bolt->phi_shear, bolt->shear / force, SHEAR);
    ss_joint_capacity_limit(&out, SS_PHI_BOLT, bolt->bearing / force, BEARING);
    return out;
}

ss_joint_strength ss_bolt_group_strength(const ss_bolt_group *group, ss_working *working) {
    if (group->places == NULL || group->count < 1) {
        return ss_joint_strength_none("the connector has no bolts");
    }
    if (!ss_rule_not_negative(group->arm)) {
        return ss_joint_strength_none("the arm of the connector is not known");
    }
    const bolt_modes bolt = modes_of(&group->bolt, working);
    if (bolt.why != NULL) {
        return ss_joint_strength_none(bolt.why);
    }
    const double of_shear = ss_bolt_group_force(group, 1.0, group->arm);
    const double of_moment = ss_bolt_group_force(group, 0.0, 1.0);
    ss_working_add(working, "r_V", "force of the worst bolt for a shear of 1 at its arm", of_shear,
                   SS_DIM_NUMBER, "elastic vector");
    ss_working_add(working, "r_M", "1/m: force of the worst bolt for a moment of 1", of_moment, SS_DIM_NUMBER,
                   "elastic vector");
    return ss_joint_strength_checked(
        (ss_joint_strength){.shear = capacity_of(&bolt, of_shear), .moment = capacity_of(&bolt, of_moment)});
}
