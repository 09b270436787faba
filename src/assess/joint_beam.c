/* joint_beam.c - a concrete beam between two cars: shear friction and the moment of its rods. */
#include <math.h>
#include <stddef.h>

#include "assess/joint_modes.h"

#define KSI 6894757.2931683608

#define SOURCE_FRICTION "AASHTO LRFD 5.7.4 (from memory)"
#define SOURCE_BENDING "AASHTO LRFD 5.6.2, 5.6.3 (from memory)"

/* Most yield stress that counts for shear friction, and least rods for cohesion (LRFD 5.7.4.2). */
#define RODS_FY_MOST (60.0 * KSI)
#define RODS_LEAST (0.05 * KSI)

/* Neutral axis over depth of the rods up to which they yield well before the concrete crushes. */
#define YIELDS_FIRST 0.375

/* Cohesion (ksi), friction, and caps: share of fc, and ksi (LRFD 5.7.4.4). */
static const struct {
    double cohesion, friction, of_fc, most;
} interfaces[] = {[SS_INTERFACE_STEEL] = {0.025, 0.7, 0.2, 0.8},
                  [SS_INTERFACE_SMOOTH] = {0.075, 0.6, 0.2, 0.8},
                  [SS_INTERFACE_ROUGH] = {0.24, 1.0, 0.25, 1.5},
                  [SS_INTERFACE_WHOLE] = {0.40, 1.4, 0.25, 1.5}};

static const char *fault_of(const ss_joint_beam *beam) {
    if ((int)beam->interface < 0 || (int)beam->interface > (int)SS_INTERFACE_WHOLE) {
        return "what the joint beam's concrete meets is not known";
    }
    if (!ss_rule_positive(beam->depth) || !ss_rule_positive(beam->fc)) {
        return "the depth or the strength of the joint beam is not known";
    }
    if (!ss_rule_not_negative(beam->rods) || (beam->rods > 0.0 && !ss_rule_positive(beam->rods_fy))) {
        return "the rods of the joint beam or their yield stress are not known";
    }
    if (beam->clamp < 0.0 || isinf(beam->clamp)) {
        return "the joint is pulled apart: shear friction does not hold";
    }
    if (ss_rule_positive(beam->rods_depth) && beam->rods_depth >= beam->depth) {
        return "the rods lie outside the joint beam";
    }
    return NULL;
}

static ss_joint_capacity shear_of(const ss_joint_beam *beam, ss_working *working) {
    const double rods_fy = beam->rods > 0.0 ? ss_min(beam->rods_fy, RODS_FY_MOST) : 0.0;
    const double clamp = ss_rule_positive(beam->clamp) ? beam->clamp : 0.0;
    const bool enough = beam->rods * rods_fy >= RODS_LEAST * beam->depth;
    const double cohesion =
        beam->cohesion && enough ? interfaces[beam->interface].cohesion * KSI * beam->depth : 0.0;
    const double friction = interfaces[beam->interface].friction * (beam->rods * rods_fy + clamp);
    ss_working_add(working, "c A",
                   beam->cohesion && !enough ? "cohesion: none, the rods are too few"
                                             : "cohesion, per length",
                   cohesion, SS_DIM_LINE_LOAD, SOURCE_FRICTION);
    ss_working_add(working, "mu (A_v fy + P)", "friction, per length", friction, SS_DIM_LINE_LOAD,
                   SOURCE_FRICTION);
    ss_joint_capacity out = ss_joint_capacity_open();
    ss_joint_capacity_limit(&out, SS_PHI_CONCRETE, cohesion + friction, "shear friction");
    const double crush = interfaces[beam->interface].of_fc * beam->fc * beam->depth;
    const double most = interfaces[beam->interface].most * KSI * beam->depth;
    ss_working_add(working, "K1 fc A, K2 A", "most that counts, per length", ss_min(crush, most),
                   SS_DIM_LINE_LOAD, SOURCE_FRICTION);
    ss_joint_capacity_limit(&out, SS_PHI_CONCRETE, ss_min(crush, most), "the cap on shear friction");
    return out;
}

/* Depth of the stress block over that of the neutral axis (LRFD 5.6.2.2). */
static double block_of(double fc) {
    return ss_clamp(0.85 - 0.05 * (fc / KSI - 4.0), 0.65, 0.85);
}

static ss_joint_capacity moment_of(const ss_joint_beam *beam, ss_working *working) {
    ss_joint_capacity out = ss_joint_capacity_open();
    if (!ss_rule_positive(beam->rods_depth) || beam->rods == 0.0) {
        ss_joint_capacity_limit(&out, SS_PHI_CONCRETE, 0.0,
                                "no rods, or their depth is not known: no moment");
        return out;
    }
    const double d = beam->rods_depth;
    const double most = 0.85 * beam->fc * block_of(beam->fc) * YIELDS_FIRST * d;
    const double force = ss_min(beam->rods * beam->rods_fy, most);
    const double block = force / (0.85 * beam->fc);
    ss_working_add(working, "T", "force of the rods, no more than yields well before the concrete crushes",
                   force, SS_DIM_LINE_LOAD, SOURCE_BENDING);
    ss_working_add(working, "a", "depth of the stress block, T / (0.85 fc)", block, SS_DIM_SMALL_LENGTH,
                   SOURCE_BENDING);
    const double nominal = force * (d - 0.5 * block);
    ss_working_add(working, "Mn", "T (d - a/2), per length", nominal, SS_DIM_MOMENT_PER_LENGTH,
                   SOURCE_BENDING);
    ss_joint_capacity_limit(&out, SS_PHI_CONCRETE, nominal,
                            force < most ? "yield of the rods" : "crushing of the concrete beside the rods");
    return out;
}

ss_joint_strength ss_joint_beam_strength(const ss_joint_beam *beam, ss_working *working) {
    const char *const fault = fault_of(beam);
    if (fault != NULL) {
        return ss_joint_strength_none(fault);
    }
    return ss_joint_strength_checked(
        (ss_joint_strength){.shear = shear_of(beam, working), .moment = moment_of(beam, working)});
}
