/* joint_stiffness.c - how stiff the joints between cars are, from what spans the gap. */
#include "sillspan/joint_stiffness.h"

#include <math.h>
#include <stddef.h>

#include "assess/rule.h"

#define STATICS "beam held at both lines (slope deflection)"

/* Area in shear of a rectangle over its area. */
#define RECTANGLE (5.0 / 6.0)

static ss_joint_stiffness none(const char *why) {
    return (ss_joint_stiffness){.shear = SS_NAN, .rotation = SS_NAN, .why = why};
}

ss_joint_span ss_joint_span_of_plate(double thickness, double reach, double E, double G) {
    return (ss_joint_span){.EI = E * thickness * thickness * thickness / 12.0,
                           .GA = ss_rule_positive(G) ? RECTANGLE * G * thickness : 0.0,
                           .reach = reach};
}

ss_joint_stiffness ss_joint_span_stiffness(const ss_joint_span *span, ss_working *working) {
    if (!ss_rule_positive(span->EI) || !ss_rule_positive(span->reach)) {
        return none("the stiffness or the reach of what spans the gap is not known");
    }
    const int held =
        (span->left == SS_JOINT_EDGE_FIXED ? 1 : 0) + (span->right == SS_JOINT_EDGE_FIXED ? 1 : 0);
    if (held == 0) {
        ss_working_add(working, "k", "hinged at both edges: no stiffness", 0.0, SS_DIM_NUMBER, STATICS);
        return (ss_joint_stiffness){0};
    }
    const double s = span->reach;
    const double bend = (held == 2 ? 12.0 : 3.0) * span->EI / s / s / s;
    /* What shear deformation adds to the step over what bending gives. */
    const double slide = ss_rule_positive(span->GA) ? bend * s / span->GA : 0.0;
    const ss_joint_stiffness out = {.shear = bend / (1.0 + slide),
                                    .rotation = held == 2 ? span->EI / s : 0.0};
    if (!ss_rule_not_negative(out.shear) || !isfinite(out.rotation)) {
        return none("the figures of the joint are out of range");
    }
    const ss_dimension step = span->connector ? SS_DIM_SPRING : SS_DIM_SPRING_PER_LENGTH;
    const ss_dimension fold = span->connector ? SS_DIM_ROTATION_SPRING : SS_DIM_ROTATION_SPRING_PER_LENGTH;
    ss_working_add(working, held == 2 ? "12 EI / s^3" : "3 EI / s^3", "against a step, by bending alone",
                   bend, step, STATICS);
    ss_working_add(working, "k_s", "against a step, with shear deformation", out.shear, step, STATICS);
    ss_working_add(working, "k_f", held == 2 ? "against a fold, EI / s" : "a hinge does not resist a fold",
                   out.rotation, fold, STATICS);
    return out;
}
