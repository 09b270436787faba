/* joint_stiffness.c - a beam over the gap as springs in its middle, or at its hinge. */
#include "model/joint_estimate.h"

#define STATICS "beam held at both lines (slope deflection)"

/* Area in shear of a rectangle over its area. */
#define RECTANGLE (5.0 / 6.0)

ss_joint_span ss_joint_span_of_plate(double thickness, double reach, double E, double G) {
    return (ss_joint_span){.EI = E * thickness * thickness * thickness / 12.0,
                           .GA = ss_joint_size(G) ? RECTANGLE * G * thickness : 0.0,
                           .reach = reach};
}

static void put_steps(const ss_joint_span *span, bool both, double bend, const ss_joint_stiffness *out,
                      ss_working *working) {
    const ss_dimension step = span->connector ? SS_DIM_SPRING : SS_DIM_SPRING_PER_LENGTH;
    const ss_dimension fold = span->connector ? SS_DIM_ROTATION_SPRING : SS_DIM_ROTATION_SPRING_PER_LENGTH;
    const bool turns = ss_joint_size(span->turn);
    ss_working_add(working, both ? "12 EI / s^3" : "3 EI / s^3", "against a step, by bending alone", bend,
                   step, STATICS);
    if (turns) {
        ss_working_add(working, "r", "holds each fixed edge against turning", span->turn, fold, STATICS);
    }
    ss_working_add(working, "k_s",
                   turns ? "against a step, with shear deformation and the turning of the edges"
                         : "against a step, with shear deformation",
                   out->shear, step, STATICS);
    ss_working_add(working, "k_f",
                   !both   ? "a hinge does not resist a fold"
                   : turns ? "against a fold, 1 / (s / EI + 2 / r)"
                           : "against a fold, EI / s",
                   out->rotation, fold, STATICS);
    if (!both) {
        ss_working_add(working, "y_h", "the hinge, where the spring acts, right of the middle of the gap",
                       out->at, SS_DIM_SMALL_LENGTH, STATICS);
    }
}

/* Why a beam held so does not resist a step; NULL when it does. */
static const char *nothing(const ss_joint_span *span) {
    if (span->left == SS_JOINT_EDGE_LOOSE || span->right == SS_JOINT_EDGE_LOOSE) {
        return "loose at an edge: no stiffness";
    }
    if (span->left == SS_JOINT_EDGE_HINGED && span->right == SS_JOINT_EDGE_HINGED) {
        return "hinged at both edges: no stiffness";
    }
    return NULL;
}

ss_joint_stiffness ss_joint_span_stiffness(const ss_joint_span *span, ss_working *working) {
    if (!ss_joint_size(span->EI) || !ss_joint_size(span->reach)) {
        return ss_joint_stiffness_none("the stiffness or the reach of what spans the gap is not known");
    }
    const char *const note = nothing(span);
    if (note != NULL) {
        ss_working_add(working, "k", note, 0.0, SS_DIM_NUMBER, STATICS);
        return (ss_joint_stiffness){.note = note};
    }
    const bool both = span->left == SS_JOINT_EDGE_FIXED && span->right == SS_JOINT_EDGE_FIXED;
    const double s = span->reach;
    const double bend = (both ? 12.0 : 3.0) * span->EI / s / s / s;
    /* What shear deformation and turning edges add to the step over what bending gives. */
    const double slide = ss_joint_size(span->GA) ? bend * s / span->GA : 0.0;
    const double turn = ss_joint_size(span->turn) ? span->EI / span->turn / s : 0.0;
    const double at = span->right == SS_JOINT_EDGE_HINGED ? 0.5 * s : -0.5 * s;
    const ss_joint_stiffness out = ss_joint_stiffness_checked((ss_joint_stiffness){
        .shear = bend / (1.0 + slide + (both ? 6.0 : 3.0) * turn),
        .rotation = both ? span->EI / s / (1.0 + 2.0 * turn) : 0.0,
        .at = both ? 0.0 : at,
    });
    if (out.why == NULL) {
        put_steps(span, both, bend, &out, working);
    }
    return out;
}
