/* resolve_joint_stiffness.c - how stiff a joint is: as given, or estimated from what it is made of. */
#include <math.h>
#include <stdio.h>

#include "base/numeric.h"
#include "model/resolve_joint_detail.h"
#include "sillspan/joint_stiffness.h"

#define IN "bridge.joints[]."

/* ---- as given ------------------------------------------------------------------------------------- */

/* Keys that the kind leaves idle stay where they are, so that a kind can be tried without rewriting the
 * joint. */
static void remark_idle(ss_resolve *c, const ss_node *item, const ss_joint *joint) {
    static const char *const keys[] = {"shear", "rotation", "shear_each", "rotation_each", "scale"};
    const bool estimated = joint->estimated != SS_DETAIL_NONE;
    for (size_t i = 0; i < sizeof keys / sizeof keys[0] - (estimated ? 1 : 0); i++) {
        if (!ss_read_given(item, keys[i])) {
            continue;
        }
        if (estimated) {
            const char *const name = ss_joint_detail_name(joint->estimated);
            ss_read_complain(
                &c->reading, SS_WARNING, item, keys[i],
                "not used: a joint of the kind \"%s\" has its stiffness from the group %s; a stiffness that "
                "is given belongs to the kind \"springs\"",
                name, name);
        } else {
            ss_read_complain(
                &c->reading, SS_WARNING, item, keys[i],
                "not used: hinged and rigid joints do not give; stiffness belongs to the kind \"springs\"");
        }
    }
}

static void scale(ss_resolve *c, const ss_node *item, ss_joint *joint) {
    const double given = ss_resolve_optional(c, item, IN "scale");
    joint->scale = isnan(given) ? 1.0 : given;
    joint->shear *= joint->scale;
    joint->rotation *= joint->scale;
    if (!isfinite(joint->shear) || !isfinite(joint->rotation)) {
        ss_read_complain(&c->reading, SS_FAULT, item, "scale", "makes a stiffness that is out of range");
        c->broken = true;
    }
}

static void read_springs(ss_resolve *c, const ss_node *item, bool discrete, ss_joint *joint) {
    joint->shear = joint->rotation = 0.0;
    if (discrete) {
        ss_resolve_forbid(c, item, "shear|rotation",
                          "per length, but the joint has connectors; shear_each and rotation_each are due");
        (void)ss_resolve_need(c, item, IN "shear_each", "springs at connectors need the stiffness of each",
                              &joint->shear);
        if (ss_read_given(item, "rotation_each")) {
            (void)ss_resolve_due(c, item, IN "rotation_each", &joint->rotation);
        }
        return;
    }
    ss_resolve_forbid(
        c, item, "shear_each|rotation_each",
        "of one connector, but the joint has none; give connectors, or shear and rotation per length");
    (void)ss_resolve_need(c, item, IN "shear", "springs need a stiffness, such as \"0.3 kip/in/in\"",
                          &joint->shear);
    if (ss_read_given(item, "rotation")) {
        (void)ss_resolve_due(c, item, IN "rotation", &joint->rotation);
    }
}

void ss_resolve_joint_given(ss_resolve *c, const ss_node *item, bool discrete, ss_joint *joint) {
    joint->scale = 1.0;
    joint->shear = joint->kind == SS_JOINT_NONE ? 0.0 : (double)INFINITY;
    joint->rotation = joint->kind == SS_JOINT_RIGID ? (double)INFINITY : 0.0;
    if (joint->kind == SS_JOINT_NONE) {
        return;
    }
    if (joint->kind != SS_JOINT_SPRINGS || joint->estimated != SS_DETAIL_NONE) {
        remark_idle(c, item, joint);
        return;
    }
    read_springs(c, item, discrete, joint);
    scale(c, item, joint);
}

/* ---- estimated ------------------------------------------------------------------------------------ */

static void assume(ss_resolve *c, const ss_node *item, const ss_joint *joint, bool rotation) {
    const bool each = joint->estimated == SS_DETAIL_BOLTS;
    const ss_dimension dimension = rotation
                                       ? each ? SS_DIM_ROTATION_SPRING : SS_DIM_ROTATION_SPRING_PER_LENGTH
                                   : each ? SS_DIM_SPRING
                                          : SS_DIM_SPRING_PER_LENGTH;
    const char *const key = rotation ? each ? "rotation_each" : "rotation" : each ? "shear_each" : "shear";
    char value[SS_WORDS];
    char share[SS_WORDS];
    char why[200];
    char times[SS_WORDS + 16] = "";
    if (joint->scale != 1.0) {
        snprintf(times, sizeof times, ", times scale %s",
                 ss_text_significant(share, sizeof share, joint->scale, 6));
    }
    snprintf(why, sizeof why,
             "Estimated from parts (%s%s): welds and seats give too, real joints are softer.",
             ss_joint_detail_name(joint->estimated), times);
    (void)ss_units_format(value, sizeof value, rotation ? joint->rotation : joint->shear, dimension,
                          c->bridge->units, 4);
    ss_resolve_assume(c, item, key, value, why);
}

void ss_resolve_joint_estimate(ss_resolve *c, const ss_node *item, ss_joint *joint) {
    if (joint->estimated == SS_DETAIL_NONE || joint->detail.kind != joint->estimated) {
        return;
    }
    const char *const group = ss_joint_detail_name(joint->estimated);
    const ss_joint_stiffness found = ss_joint_estimate(&joint->detail, NULL);
    joint->shear = joint->rotation = 0.0;
    joint->scale = 1.0;
    if (found.why != NULL) {
        ss_read_complain(&c->reading, SS_FAULT, item, group, "no stiffness comes of it: %s", found.why);
        c->broken = true;
        return;
    }
    joint->shear = found.shear;
    joint->rotation = found.rotation;
    joint->y += found.at;
    if (found.note != NULL) {
        ss_read_complain(&c->reading, SS_WARNING, item, group, "the joint ties nothing against a step: %s",
                         found.note);
    }
    if (joint->estimated == SS_DETAIL_BOLTS && !(joint->detail.slip > 0.0)) {
        ss_read_complain(&c->reading, SS_WARNING, item, group,
                         "slip in the holes is not counted: until its bolts bear a joint has no stiffness; "
                         "give slip and slip_force, or try scale = 0.0");
    }
    scale(c, item, joint);
    assume(c, item, joint, false);
    assume(c, item, joint, true);
}
