/* resolve_joint_detail.c - what a joint is made of, where its capacity or its stiffness is to come of that.
 */
#include <math.h>

#include "base/numeric.h"
#include "model/resolve_joint_detail.h"
#include "sillspan/joint_stiffness.h"

#define IN "bridge.joints[]."

static double value(ss_resolve *c, const ss_node *group, const char *table_path) {
    double out = 0.0;
    (void)ss_resolve_due(c, group, table_path, &out);
    return out;
}

static double optional(ss_resolve *c, const ss_node *group, const char *table_path) {
    const double out = ss_resolve_optional(c, group, table_path);
    return isnan(out) ? 0.0 : out;
}

static ss_joint_edge edge(ss_resolve *c, const ss_node *group, const char *table_path, ss_joint_edge first) {
    const int choice = ss_read_choice(&c->reading, group, table_path, NULL);
    c->broken = c->broken || choice < 0;
    return choice < 0 ? first : (ss_joint_edge)choice;
}

static void read_plate(ss_resolve *c, const ss_node *group, bool stiff, ss_joint_detail *d) {
    const int steel = ss_resolve_reference(c, group, IN "plate.steel", "steels", "steel");
    d->thickness = value(c, group, IN "plate.thickness");
    d->reach = value(c, group, IN "plate.reach");
    d->fy = steel < 0 ? 0.0 : c->bridge->steels[steel].fy;
    d->E = steel < 0 ? 0.0 : c->bridge->steels[steel].E;
    d->leg = value(c, group, IN "plate.weld");
    d->electrode = value(c, group, IN "plate.electrode");
    d->lap = optional(c, group, IN "plate.lap");
    d->faces = 1;
    (void)ss_read_integer(&c->reading, group, IN "plate.faces", &d->faces);
    /* Of a joint whose stiffness is given, welds that hold are no assumption of that stiffness. */
    if (stiff || ss_read_given(group, "left")) {
        d->left = edge(c, group, IN "plate.left", SS_JOINT_EDGE_FIXED);
    }
    if (stiff || ss_read_given(group, "right")) {
        d->right = edge(c, group, IN "plate.right", SS_JOINT_EDGE_FIXED);
    }
    c->broken = c->broken || steel < 0;
}

static void read_bolts(ss_resolve *c, const ss_node *group, bool stiff, ss_joint_detail *d) {
    d->diameter = value(c, group, IN "bolts.diameter");
    d->tensile = value(c, group, IN "bolts.tensile");
    d->count = d->planes = 1;
    (void)ss_read_integer(&c->reading, group, IN "bolts.count", &d->count);
    (void)ss_read_integer(&c->reading, group, IN "bolts.planes", &d->planes);
    d->spacing = value(c, group, IN "bolts.spacing");
    d->arm = value(c, group, IN "bolts.arm");
    d->thickness = value(c, group, IN "bolts.ply");
    d->fu = value(c, group, IN "bolts.ply_strength");
    d->clear = value(c, group, IN "bolts.clear");
    if (stiff) {
        d->slip = value(c, group, IN "bolts.slip");
    }
    if (stiff && d->slip > 0.0) {
        (void)ss_resolve_need(c, group, IN "bolts.slip_force",
                              "slip makes a stiffness together with the force at which it is taken",
                              &d->slip_force);
    }
}

static void read_concrete(ss_resolve *c, const ss_node *group, bool stiff, ss_joint_detail *d) {
    d->depth = value(c, group, IN "concrete.depth");
    d->fc = value(c, group, IN "concrete.fc");
    d->diameter = value(c, group, IN "concrete.rod");
    d->spacing = value(c, group, IN "concrete.rod_spacing");
    d->fy = value(c, group, IN "concrete.rod_fy");
    d->cover = optional(c, group, IN "concrete.rod_depth");
    if (d->cover > d->depth) {
        ss_read_complain(&c->reading, SS_FAULT, group, "rod_depth",
                         "the rods lie below the beam, which is less deep");
        c->broken = true;
    }
    if (!stiff) {
        return;
    }
    if (d->cover == 0.0) {
        (void)ss_resolve_need(c, group, IN "concrete.rod_depth",
                              "rods hold the beam against turning between the cars", &d->cover);
    }
    (void)ss_resolve_need(c, group, IN "concrete.rod_length", "the rods stretch between their nuts",
                          &d->grip);
    (void)ss_resolve_need(c, group, IN "concrete.width", "the concrete gives from car to car", &d->width);
    d->whole = ss_read_choice(&c->reading, group, IN "concrete.contact", NULL) == 1;
}

static void read_planks(ss_resolve *c, const ss_node *group, bool stiff, ss_joint_detail *d) {
    d->thickness = value(c, group, IN "planks.thickness");
    d->E = value(c, group, IN "planks.modulus");
    d->reach = value(c, group, IN "planks.reach");
    d->left = edge(c, group, IN "planks.left", SS_JOINT_EDGE_LOOSE);
    d->right = edge(c, group, IN "planks.right", SS_JOINT_EDGE_LOOSE);
    if (!stiff) {
        return;
    }
    d->share = value(c, group, IN "planks.share");
    const bool spiked = d->left == SS_JOINT_EDGE_FIXED || d->right == SS_JOINT_EDGE_FIXED;
    const bool loose = d->left == SS_JOINT_EDGE_LOOSE || d->right == SS_JOINT_EDGE_LOOSE;
    if (spiked && !loose) {
        (void)ss_resolve_need(c, group, IN "planks.back",
                              "spiked planks are held against turning by the next line of the car", &d->back);
    }
}

/* By ss_joint_detail_kind. */
static const struct {
    bool each; /* of one connector; else all along */
    void (*read)(ss_resolve *c, const ss_node *group, bool stiff, ss_joint_detail *d);
    const char *const stiff[3]; /* keys that only an estimate of the stiffness reads */
} makes[] = {[SS_DETAIL_PLATE] = {false, read_plate, {NULL}},
             [SS_DETAIL_BOLTS] = {true, read_bolts, {"slip", "slip_force", NULL}},
             [SS_DETAIL_BEAM] = {false, read_concrete, {"rod_length", "width", "contact"}},
             [SS_DETAIL_PLANKS] = {false, read_planks, {NULL}}};

static void remark_idle(ss_resolve *c, const ss_node *item, const ss_node *group, ss_joint_detail_kind kind) {
    const char *const name = ss_joint_detail_name(kind);
    if (kind == SS_DETAIL_PLANKS) {
        ss_read_complain(&c->reading, SS_WARNING, item, name,
                         "not used: planks give stiffness, and only to a joint of the kind \"planks\"");
    }
    for (int i = 0; i < 3 && makes[kind].stiff[i] != NULL; i++) {
        if (ss_read_given(group, makes[kind].stiff[i])) {
            ss_read_complain(&c->reading, SS_WARNING, group, makes[kind].stiff[i],
                             "not used: it tells of stiffness, which only a joint of the kind \"%s\" has "
                             "from its parts",
                             name);
        }
    }
}

/* The one group that is given; NONE when there is none, or a fault. */
static ss_joint_detail_kind which(ss_resolve *c, const ss_node *item, const ss_joint *joint) {
    ss_joint_detail_kind found = SS_DETAIL_NONE;
    int count = 0;
    for (int k = SS_DETAIL_PLATE; k <= SS_DETAIL_PLANKS; k++) {
        if (ss_read_given(item, ss_joint_detail_name((ss_joint_detail_kind)k))) {
            found = (ss_joint_detail_kind)k;
            count++;
        }
    }
    if (count > 1) {
        ss_read_complain(&c->reading, SS_FAULT, item, NULL,
                         "one of plate, bolts, concrete and planks says what the joint is made of");
        return SS_DETAIL_NONE;
    }
    if (joint->estimated != SS_DETAIL_NONE && found != joint->estimated) {
        const char *const name = ss_joint_detail_name(joint->estimated);
        ss_read_complain(&c->reading, SS_FAULT, item, "kind",
                         "found \"%s\", which takes the stiffness from the group %s, and that is not given",
                         name, name);
        return SS_DETAIL_NONE;
    }
    return found;
}

void ss_resolve_joint_detail(ss_resolve *c, const ss_node *item, bool discrete, ss_joint *joint) {
    const ss_joint_detail_kind kind = which(c, item, joint);
    const bool given = !isnan(joint->shear_capacity) || !isnan(joint->moment_capacity);
    if (kind == SS_DETAIL_NONE) {
        return;
    }
    const char *const key = ss_joint_detail_name(kind);
    const ss_node *const group = ss_node_child(item, key);
    /* A kind that is estimated needs the group for its stiffness: a capacity that is given as well stands. */
    if (given && kind != SS_DETAIL_PLANKS && joint->estimated == SS_DETAIL_NONE) {
        ss_read_complain(&c->reading, SS_FAULT, item, key,
                         "a capacity is given as well; give it, or what the joint is made of");
        return;
    }
    if (discrete != makes[kind].each) {
        ss_read_complain(&c->reading, SS_FAULT, item, key,
                         discrete ? "goes all along, but the joint has connectors; bolts are due"
                                  : "belong to connectors, and the joint has none");
        return;
    }
    const bool stiff = kind == joint->estimated;
    const int faults = c->reading.diags->faults;
    const bool broken = c->broken;
    c->broken = false;
    makes[kind].read(c, group, stiff, &joint->detail);
    const bool sound = !c->broken && c->reading.diags->faults == faults;
    c->broken = c->broken || broken;
    /* What planks are is of no use but to an estimate. */
    joint->detail.kind = !sound || (kind == SS_DETAIL_PLANKS && !stiff) ? SS_DETAIL_NONE : kind;
    if (!stiff) {
        remark_idle(c, item, group, kind);
    }
}

void ss_resolve_joint_planks(ss_resolve *c) {
    const ss_node *const list = ss_resolve_list(c->node, "joints");
    const ss_bridge *const bridge = c->bridge;
    for (int i = 0; list != NULL && i < bridge->joint_count; i++) {
        if (bridge->joints[i].estimated == SS_DETAIL_PLANKS && !bridge->deck.over_joints) {
            ss_read_complain(
                &c->reading, SS_WARNING, ss_node_item(list, i), "planks",
                "they run over the gap and tie the cars, yet wheels in the gap come to the nearer car alone: "
                "over_joints of the deck is not true");
        }
    }
}
