/* joint_strength.c - a plate over the gap between two cars, welded to both. */
#include "sillspan/joint_strength.h"

#include <math.h>
#include <stddef.h>

#include "assess/joint_modes.h"

#define STATICS "statics"
#define SOURCE_PLATE "AASHTO LRFD 6.12.2.2.7 (from memory)"
#define SOURCE_STEEL "AASHTO LRFD 6.13.5.3 (from memory)"
#define SOURCE_WELD "AASHTO LRFD 6.13.3.2.4b (from memory)"

static const char *fault_of(const ss_joint_plate *plate) {
    if (!ss_rule_positive(plate->thickness) || !ss_rule_positive(plate->reach) ||
        !ss_rule_positive(plate->fy)) {
        return "the thickness, the reach or the yield stress of the joint plate is not known";
    }
    if (plate->groove) {
        return NULL;
    }
    if (!ss_rule_positive(plate->leg) || !ss_rule_positive(plate->electrode)) {
        return "the size of the joint plate's fillets or their electrode is not known";
    }
    if (plate->faces != 1 && plate->faces != 2) {
        return "the joint plate's fillets are on one face or on two";
    }
    if (!ss_rule_not_negative(plate->lap) || plate->lap > plate->reach) {
        return "the lap of the joint plate is negative, or more than its reach";
    }
    return NULL;
}

/* Whether an edge holds the plate against turning: a fillet that may not be bent about its root does not. */
static bool holds(const ss_joint_plate *plate, ss_joint_edge edge) {
    return edge == SS_JOINT_EDGE_FIXED && (plate->groove || plate->faces == 2 || plate->lap > 0.0);
}

/* Force per length on the fillet of an edge for a shear and a moment there, per length. */
static double fillet_force(const ss_joint_plate *plate, double shear, double moment) {
    if (plate->faces == 2) {
        return hypot(0.5 * shear, moment / plate->thickness);
    }
    return plate->lap > 0.0 ? shear + moment / plate->lap : shear;
}

static void limit_by_welds(const ss_joint_plate *plate, double edge_moment, ss_joint_strength *out,
                           ss_working *working) {
    if (ss_rule_positive(plate->fu)) {
        const double rupture = SS_SHEAR_OF_STEEL * plate->fu * plate->thickness;
        ss_working_add(working, "0.58 Fu t", "rupture of the plate beside the weld", rupture,
                       SS_DIM_LINE_LOAD, SOURCE_STEEL);
        ss_joint_capacity_limit(&out->shear, SS_PHI_RUPTURE, rupture, "rupture of the plate beside the weld");
    }
    if (plate->groove) {
        return;
    }
    const double fillet = ss_joint_fillet(plate->leg, plate->electrode);
    ss_working_add(working, "0.6 F_EXX w / sqrt(2)", "one fillet in shear, per length", fillet,
                   SS_DIM_LINE_LOAD, SOURCE_WELD);
    const double of_shear = fillet_force(plate, 1.0, edge_moment);
    ss_working_add(working, "r", "force of a fillet for a shear of 1, with the edge's moment", of_shear,
                   SS_DIM_NUMBER, "elastic vector");
    ss_joint_capacity_limit(&out->shear, SS_PHI_WELD, fillet / of_shear, "the fillet welds");
    if (edge_moment > 0.0) {
        ss_joint_capacity_limit(&out->moment, SS_PHI_WELD, fillet / fillet_force(plate, 0.0, 1.0),
                                "the fillet welds");
    }
}

ss_joint_strength ss_joint_plate_strength(const ss_joint_plate *plate, ss_working *working) {
    const char *const fault = fault_of(plate);
    if (fault != NULL) {
        return ss_joint_strength_none(fault);
    }
    const int held = (holds(plate, plate->left) ? 1 : 0) + (holds(plate, plate->right) ? 1 : 0);
    if (held == 0) {
        const ss_joint_capacity nothing = {.mode = "hinged at both edges: carries neither shear nor moment"};
        ss_working_add(working, "V, M", nothing.mode, 0.0, SS_DIM_LINE_LOAD, STATICS);
        return (ss_joint_strength){.shear = nothing, .moment = nothing};
    }
    const double t = plate->thickness;
    const double bending = plate->fy * t * t / (plate->plastic ? 4.0 : 6.0);
    ss_working_add(working, "Mp", plate->plastic ? "plastic moment, Fy t^2/4" : "first yield, Fy t^2/6",
                   bending, SS_DIM_MOMENT_PER_LENGTH, SOURCE_PLATE);
    ss_working_add(working, "s", "between the weld lines", plate->reach, SS_DIM_SMALL_LENGTH, NULL);
    ss_joint_strength out = {.shear = ss_joint_capacity_open(), .moment = ss_joint_capacity_open()};
    const double by_bending = (double)held * bending / plate->reach;
    ss_working_add(working, held == 2 ? "2 Mp / s" : "Mp / s", "shear when the plate's moment is reached",
                   by_bending, SS_DIM_LINE_LOAD, STATICS);
    ss_joint_capacity_limit(&out.shear, SS_PHI_YIELD, by_bending, "bending of the plate");
    const double yield = SS_SHEAR_OF_STEEL * plate->fy * t;
    ss_working_add(working, "0.58 Fy t", "shear yield of the plate", yield, SS_DIM_LINE_LOAD, SOURCE_STEEL);
    ss_joint_capacity_limit(&out.shear, SS_PHI_YIELD, yield, "shear yield of the plate");
    if (held == 2) {
        ss_joint_capacity_limit(&out.moment, SS_PHI_YIELD, bending, "bending of the plate");
    } else {
        ss_joint_capacity_limit(&out.moment, SS_PHI_YIELD, 0.0, "hinged at one edge: no moment");
    }
    /* Moment at an edge that holds, of a shear of 1 in the middle. */
    limit_by_welds(plate, plate->reach / (double)held, &out, working);
    return ss_joint_strength_checked(out);
}
