/* resolve_joint.c - joints between neighbouring cars: which pair, where, how strong. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/numeric.h"
#include "model/key_tree.h"
#include "model/resolve_joint_detail.h"

static int by_value(const void *a, const void *b) {
    const double p = *(const double *)a;
    const double q = *(const double *)b;
    return (p > q) - (p < q);
}

/* ---- the pair ------------------------------------------------------------------------------------- */

static bool read_pair(ss_resolve *c, const ss_node *item, ss_joint *joint) {
    const ss_node *const list = ss_resolve_list(item, "between");
    if (list == NULL) {
        return false;
    }
    if (list->count != 2) {
        ss_read_complain(&c->reading, SS_FAULT, item, "between", "found %d car%s; a joint is between two",
                         list->count, list->count == 1 ? "" : "s");
        return false;
    }
    if (list->first->kind != SS_NODE_TEXT || list->last->kind != SS_NODE_TEXT) {
        return false;
    }
    const int a = ss_resolve_car_named(c, item, "between", list->first->text);
    const int b = ss_resolve_car_named(c, item, "between", list->last->text);
    if (a < 0 || b < 0) {
        return false;
    }
    if (abs(a - b) != 1) {
        ss_read_complain(&c->reading, SS_FAULT, item, "between",
                         "\"%s\" and \"%s\" do not lie beside each other; a joint ties neighbours",
                         list->first->text, list->last->text);
        return false;
    }
    joint->left = a < b ? a : b;
    joint->y = 0.5 * (c->bridge->cars[joint->left].y_right + c->bridge->cars[joint->left + 1].y_left);
    return true;
}

/* ---- where ---------------------------------------------------------------------------------------- */

/* Where both cars lie beside each other. */
static bool common_length(ss_resolve *c, const ss_node *item, const ss_joint *joint, double range[2]) {
    const ss_car *const a = &c->bridge->cars[joint->left];
    const ss_car *const b = a + 1;
    range[0] = ss_max(a->x0, b->x0);
    range[1] = ss_min(a->x1, b->x1);
    if (c->car_types[joint->left] < 0 || c->car_types[joint->left + 1] < 0 || a->x1 <= a->x0 ||
        b->x1 <= b->x0) {
        return false;
    }
    if (range[1] > range[0] + SS_SAME_PLACE) {
        return true;
    }
    ss_read_complain(&c->reading, SS_FAULT, item, "between",
                     "\"%s\" and \"%s\" have no length in common along the bridge", a->name, b->name);
    return false;
}

static bool within(ss_resolve *c, const ss_node *item, const char *key, double x, const double range[2]) {
    if (x >= range[0] - SS_SAME_PLACE && x <= range[1] + SS_SAME_PLACE) {
        return true;
    }
    char at[SS_WORDS];
    char from[SS_WORDS];
    char to[SS_WORDS];
    ss_read_complain(&c->reading, SS_FAULT, item, key,
                     "%s lies outside what the two cars have in common, %s to %s",
                     ss_resolve_length(c, x, at), ss_resolve_length(c, range[0], from),
                     ss_resolve_length(c, range[1], to));
    return false;
}

static bool read_range(ss_resolve *c, const ss_node *item, const double common[2], ss_joint *joint) {
    joint->x0 = common[0];
    joint->x1 = common[1];
    bool good = true;
    if (ss_read_given(item, "from")) {
        good = ss_resolve_due(c, item, "bridge.joints[].from", &joint->x0) &&
               within(c, item, "from", joint->x0, common);
    }
    if (ss_read_given(item, "to")) {
        good = ss_resolve_due(c, item, "bridge.joints[].to", &joint->x1) &&
               within(c, item, "to", joint->x1, common) && good;
    }
    if (!good) {
        return false;
    }
    joint->x0 = ss_clamp(joint->x0, common[0], common[1]);
    joint->x1 = ss_clamp(joint->x1, common[0], common[1]);
    if (joint->x1 > joint->x0 + SS_SAME_PLACE) {
        return true;
    }
    char from[SS_WORDS];
    char to[SS_WORDS];
    ss_read_complain(&c->reading, SS_FAULT, item, "to",
                     "the joint would go from %s to %s; it must have a length",
                     ss_resolve_length(c, joint->x0, from), ss_resolve_length(c, joint->x1, to));
    return false;
}

static bool read_connectors(ss_resolve *c, const ss_node *item, const double common[2], ss_joint *joint) {
    double x[SS_DESCRIPTION_VALUES];
    ss_bridge *const bridge = c->bridge;
    const int count =
        ss_read_quantities(&c->reading, item, "bridge.joints[].connectors", x, SS_DESCRIPTION_VALUES);
    bool good = count > 0;
    qsort(x, (size_t)count, sizeof x[0], by_value);
    joint->first_connector = bridge->connector_count;
    for (int i = 0; i < count; i++) {
        good = within(c, item, "connectors", x[i], common) && good;
        if (i > 0 && x[i] <= x[i - 1] + SS_SAME_PLACE) {
            char at[SS_WORDS];
            ss_read_complain(&c->reading, SS_FAULT, item, "connectors",
                             "two connectors stand at %s; give one with the stiffness of both",
                             ss_resolve_length(c, x[i], at));
            good = false;
        }
        double *const grown = ss_resolve_grow(c, bridge->connectors, bridge->connector_count, sizeof *grown);
        if (grown == NULL) {
            return false;
        }
        bridge->connectors = grown;
        grown[bridge->connector_count++] = ss_clamp(x[i], common[0], common[1]);
        joint->connector_count++;
    }
    return good;
}

/* ---- how strong ------------------------------------------------------------------------------------ */

/* One of the keys, per length or of a connector; NaN when not given. */
static double capacity(ss_resolve *c, const ss_node *item, bool discrete, const char *const paths[2]) {
    char why[160];
    const char *const right = paths[discrete ? 1 : 0];
    snprintf(why, sizeof why, "%s; %s is due",
             discrete ? "per length, but the joint has connectors"
                      : "of one connector, but the joint has none",
             ss_key_leaf(right));
    ss_resolve_forbid(c, item, ss_key_leaf(paths[discrete ? 0 : 1]), why);
    return ss_resolve_optional(c, item, right);
}

static void read_capacity(ss_resolve *c, const ss_node *item, bool discrete, ss_joint *joint) {
    static const char *const shear[2] = {"bridge.joints[].shear_capacity",
                                         "bridge.joints[].shear_capacity_each"};
    static const char *const moment[2] = {"bridge.joints[].moment_capacity",
                                          "bridge.joints[].moment_capacity_each"};
    joint->shear_capacity = capacity(c, item, discrete, shear);
    joint->moment_capacity = capacity(c, item, discrete, moment);
    /* Where nothing gives, force gathers at the ends of the joint, and its share per length depends on the
     * stations only. */
    const bool gives = joint->kind == SS_JOINT_NONE || joint->kind == SS_JOINT_SPRINGS;
    const bool given = !isnan(joint->shear_capacity) || !isnan(joint->moment_capacity);
    if (!discrete && !gives && given) {
        ss_read_complain(&c->reading, SS_WARNING, item,
                         isnan(joint->shear_capacity) ? "moment_capacity" : "shear_capacity",
                         "not rated: a joint that does not give has no force per length at its ends; give "
                         "connectors, or springs");
        joint->shear_capacity = joint->moment_capacity = SS_NAN;
    }
}

/* Two ties in the same place hide each other's force. */
static void check_overlap(ss_resolve *c, const ss_node *item, const ss_joint *joint) {
    for (const ss_joint *other = c->bridge->joints; other != joint; other++) {
        const bool both = other->left == joint->left && other->kind != SS_JOINT_NONE &&
                          joint->kind != SS_JOINT_NONE && other->connector_count == 0 &&
                          joint->connector_count == 0;
        if (!both || ss_min(other->x1, joint->x1) <= ss_max(other->x0, joint->x0) + SS_SAME_PLACE) {
            continue;
        }
        char from[SS_WORDS];
        char to[SS_WORDS];
        ss_read_complain(&c->reading, SS_FAULT, item, NULL,
                         "overlaps the joint \"%s\" from %s to %s; each place has one joint", other->name,
                         ss_resolve_length(c, ss_max(other->x0, joint->x0), from),
                         ss_resolve_length(c, ss_min(other->x1, joint->x1), to));
        return;
    }
}

static void resolve_joint(ss_resolve *c, const ss_node *item, ss_joint *joint) {
    joint->name = ss_resolve_text(c, ss_resolve_name(item));
    const int kind = ss_read_choice(&c->reading, item, "bridge.joints[].kind", NULL);
    const bool discrete = ss_read_given(item, "connectors");
    if (kind < 0) {
        c->broken = true;
    }
    /* Kinds beyond springs are springs with an estimate. */
    const bool estimated = kind > SS_JOINT_SPRINGS;
    joint->kind = kind < 0 ? SS_JOINT_NONE : estimated ? SS_JOINT_SPRINGS : (ss_joint_kind)kind;
    joint->estimated = estimated ? (ss_joint_detail_kind)(kind - (int)SS_JOINT_SPRINGS) : SS_DETAIL_NONE;
    joint->shear_capacity = joint->moment_capacity = SS_NAN;
    ss_resolve_joint_given(c, item, discrete, joint);
    if (joint->kind != SS_JOINT_NONE) {
        read_capacity(c, item, discrete, joint);
        ss_resolve_joint_detail(c, item, discrete, joint);
    }
    double common[2] = {0.0, 0.0};
    if (!read_pair(c, item, joint) || !common_length(c, item, joint, common)) {
        c->broken = true;
        return;
    }
    bool good = false;
    if (discrete) {
        ss_resolve_forbid(
            c, item, "from|to",
            "the joint has connectors and acts only there; from and to belong to a continuous joint");
        good = read_connectors(c, item, common, joint);
    } else {
        good = read_range(c, item, common, joint);
    }
    if (!good) {
        c->broken = true;
        return;
    }
    ss_resolve_joint_estimate(c, item, joint);
    check_overlap(c, item, joint);
}

void ss_resolve_joints(ss_resolve *c) {
    const ss_node *const list = ss_resolve_list(c->node, "joints");
    if (list == NULL) {
        return;
    }
    ss_bridge *const bridge = c->bridge;
    bridge->joints = ss_resolve_alloc(c, (size_t)list->count, sizeof *bridge->joints);
    if (bridge->joints == NULL) {
        return;
    }
    for (const ss_node *item = list->first; item != NULL; item = item->next) {
        resolve_joint(c, item, &bridge->joints[bridge->joint_count++]);
        if (ss_resolve_out_of_memory(c)) {
            return;
        }
    }
}
