/* resolve_joint_detail.c - what a joint is made of, where its capacity is to come of that. */
#include <math.h>

#include "base/numeric.h"
#include "model/resolve_joint_detail.h"

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

static void read_plate(ss_resolve *c, const ss_node *group, ss_joint_detail *d) {
    const int steel = ss_resolve_reference(c, group, IN "plate.steel", "steels", "steel");
    d->kind = SS_DETAIL_PLATE;
    d->thickness = value(c, group, IN "plate.thickness");
    d->reach = value(c, group, IN "plate.reach");
    d->fy = steel < 0 ? 0.0 : c->bridge->steels[steel].fy;
    d->leg = value(c, group, IN "plate.weld");
    d->electrode = value(c, group, IN "plate.electrode");
    d->lap = optional(c, group, IN "plate.lap");
    d->faces = 1;
    (void)ss_read_integer(&c->reading, group, IN "plate.faces", &d->faces);
}

static void read_bolts(ss_resolve *c, const ss_node *group, ss_joint_detail *d) {
    d->kind = SS_DETAIL_BOLTS;
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
}

static void read_concrete(ss_resolve *c, const ss_node *group, ss_joint_detail *d) {
    d->kind = SS_DETAIL_BEAM;
    d->depth = value(c, group, IN "concrete.depth");
    d->fc = value(c, group, IN "concrete.fc");
    d->diameter = value(c, group, IN "concrete.rod");
    d->spacing = value(c, group, IN "concrete.rod_spacing");
    d->fy = value(c, group, IN "concrete.rod_fy");
    d->cover = optional(c, group, IN "concrete.rod_depth");
    if (d->cover > d->depth) {
        ss_read_complain(&c->reading, SS_FAULT, group, "rod_depth",
                         "the rods lie below the beam, which is less deep");
    }
}

void ss_resolve_joint_detail(ss_resolve *c, const ss_node *item, bool discrete, ss_joint *joint) {
    const ss_node *const plate = ss_node_child(item, "plate");
    const ss_node *const bolts = ss_node_child(item, "bolts");
    const ss_node *const concrete = ss_node_child(item, "concrete");
    const bool given = !isnan(joint->shear_capacity) || !isnan(joint->moment_capacity);
    if ((plate != NULL) + (bolts != NULL) + (concrete != NULL) > 1) {
        ss_read_complain(&c->reading, SS_FAULT, item, NULL,
                         "one of plate, bolts and concrete says what the joint is made of");
        return;
    }
    if (plate == NULL && bolts == NULL && concrete == NULL) {
        return;
    }
    const char *const key = plate != NULL ? "plate" : bolts != NULL ? "bolts" : "concrete";
    if (given) {
        ss_read_complain(&c->reading, SS_FAULT, item, key,
                         "a capacity is given as well; give it, or what the joint is made of");
    } else if (discrete != (bolts != NULL)) {
        ss_read_complain(&c->reading, SS_FAULT, item, key,
                         discrete ? "goes all along, but the joint has connectors; bolts are due"
                                  : "belong to connectors, and the joint has none");
    } else if (plate != NULL) {
        read_plate(c, plate, &joint->detail);
    } else if (bolts != NULL) {
        read_bolts(c, bolts, &joint->detail);
    } else {
        read_concrete(c, concrete, &joint->detail);
    }
}
