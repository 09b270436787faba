/* joint_estimate.c - the stiffness of a joint by what it is made of: plates and planks, and which is which.
 */
#include "model/joint_estimate.h"

/* Shear modulus over modulus of steel, Poisson's ratio 0.3. */
#define STEEL_G (1.0 / 2.6)

static const char *const names[] = {[SS_DETAIL_NONE] = "",
                                    [SS_DETAIL_PLATE] = "plate",
                                    [SS_DETAIL_BOLTS] = "bolts",
                                    [SS_DETAIL_BEAM] = "concrete",
                                    [SS_DETAIL_PLANKS] = "planks"};

const char *ss_joint_detail_name(ss_joint_detail_kind kind) {
    return names[kind];
}

const char *ss_joint_kind_name(const ss_joint *joint) {
    switch (joint->kind) {
    case SS_JOINT_NONE: return "none";
    case SS_JOINT_HINGED: return "hinged";
    case SS_JOINT_RIGID: return "rigid";
    case SS_JOINT_SPRINGS: break;
    }
    return joint->estimated == SS_DETAIL_NONE ? "springs" : ss_joint_detail_name(joint->estimated);
}

/* A fillet that may not be bent about its root does not hold an edge against turning: the same as for its
 * strength. */
static ss_joint_edge welded_edge(const ss_joint_detail *d, ss_joint_edge edge) {
    return edge == SS_JOINT_EDGE_FIXED && d->faces != 2 && !(d->lap > 0.0) ? SS_JOINT_EDGE_HINGED : edge;
}

static ss_joint_stiffness of_plate(const ss_joint_detail *d, ss_working *working) {
    ss_joint_span span = ss_joint_span_of_plate(d->thickness, d->reach, d->E, STEEL_G * d->E);
    span.left = welded_edge(d, d->left);
    span.right = welded_edge(d, d->right);
    ss_working_add(working, "t", "thickness of the plate", d->thickness, SS_DIM_SMALL_LENGTH, NULL);
    ss_working_add(working, "s", "between the lines of weld, alike on both sides of the middle of the gap",
                   d->reach, SS_DIM_SMALL_LENGTH, NULL);
    ss_working_add(working, "E", "E t^3 / 12 per length; 1 / (1 - 0.3^2), 10 % more, is not counted", d->E,
                   SS_DIM_STRESS, NULL);
    if (span.left != d->left || span.right != d->right) {
        ss_working_add(working, "edges", "a fillet on one face, without a lap, counts as a hinge", SS_NAN,
                       SS_DIM_NUMBER, NULL);
    }
    ss_joint_stiffness out = ss_joint_span_stiffness(&span, working);
    if (out.note != NULL && (d->left == SS_JOINT_EDGE_FIXED || d->right == SS_JOINT_EDGE_FIXED)) {
        out.note = "hinged at both edges, where a fillet on one face without a lap counts as a hinge: no "
                   "stiffness";
    }
    return out;
}

static ss_joint_stiffness of_planks(const ss_joint_detail *d, ss_working *working) {
    ss_joint_span span = ss_joint_span_of_plate(d->thickness, d->reach, d->share * d->E, 0.0);
    span.left = d->left;
    span.right = d->right;
    ss_working_add(working, "t", "thickness of the planks", d->thickness, SS_DIM_SMALL_LENGTH, NULL);
    ss_working_add(working, "s", "from where one car holds them to where the other does", d->reach,
                   SS_DIM_SMALL_LENGTH, NULL);
    ss_working_add(working, "E", "of the wood along the grain", d->E, SS_DIM_STRESS, NULL);
    ss_working_add(working, "c", "share of the length that counts, E t^3 / 12 times this per length",
                   d->share, SS_DIM_NUMBER, NULL);
    if (ss_joint_size(d->back)) {
        span.turn = 3.0 * span.EI / d->back;
        ss_working_add(working, "b", "on to the next line that holds them; r = 3 EI / b", d->back,
                       SS_DIM_SMALL_LENGTH, NULL);
    }
    return ss_joint_span_stiffness(&span, working);
}

ss_joint_stiffness ss_joint_estimate(const ss_joint_detail *detail, ss_working *working) {
    switch (detail->kind) {
    case SS_DETAIL_PLATE: return of_plate(detail, working);
    case SS_DETAIL_BOLTS: return ss_joint_of_bolts(detail, working);
    case SS_DETAIL_BEAM: return ss_joint_of_concrete(detail, working);
    case SS_DETAIL_PLANKS: return of_planks(detail, working);
    case SS_DETAIL_NONE: break;
    }
    return ss_joint_stiffness_none("nothing is said of what the joint is made of");
}
