/* resolve_slab.c - a slab cast on the cars: its place and manner, and its parts in turn. */
#include <math.h>

#include "base/numeric.h"
#include "model/resolve_slab.h"

/* ---- place ---------------------------------------------------------------------------------------- */

static double or_else(ss_resolve *c, const ss_node *item, const char *path, double other) {
    const double given = ss_resolve_optional(c, item, path);
    return isnan(given) ? other : given;
}

static bool along(ss_resolve *c, const ss_node *item, ss_slab *slab) {
    const ss_bridge *const bridge = c->bridge;
    char a[SS_WORDS];
    char b[SS_WORDS];
    slab->x0 = or_else(c, item, "slab.from", bridge->x0);
    slab->x1 = or_else(c, item, "slab.to", bridge->x1);
    if (slab->x1 <= slab->x0 + SS_SAME_PLACE) {
        ss_read_complain(&c->reading, SS_FAULT, item, ss_read_given(item, "to") ? "to" : "from",
                         "the slab would go from %s to %s; it must have a length",
                         ss_resolve_length(c, slab->x0, a), ss_resolve_length(c, slab->x1, b));
        return false;
    }
    if (slab->x0 < bridge->x0 - SS_SAME_PLACE || slab->x1 > bridge->x1 + SS_SAME_PLACE) {
        ss_read_complain(&c->reading, SS_FAULT, item, slab->x0 < bridge->x0 - SS_SAME_PLACE ? "from" : "to",
                         "lies outside the bridge, %s to %s", ss_resolve_length(c, bridge->x0, a),
                         ss_resolve_length(c, bridge->x1, b));
        return false;
    }
    slab->x0 = ss_max(slab->x0, bridge->x0);
    slab->x1 = ss_min(slab->x1, bridge->x1);
    return true;
}

/* Wheels come to lines through the slab, so that it lies on all of them. */
static bool covers_lines(ss_resolve *c, const ss_node *item, const ss_slab *slab) {
    for (int i = 0; i < c->bridge->line_count; i++) {
        const ss_line *const line = &c->bridge->lines[i];
        const bool left = line->y < slab->y0 - SS_SAME_PLACE;
        if (!left && line->y <= slab->y1 + SS_SAME_PLACE) {
            continue;
        }
        char a[SS_WORDS];
        char b[SS_WORDS];
        ss_read_complain(
            &c->reading, SS_FAULT, item, left ? "left" : "right",
            "at %s the line \"%s\" of \"%s\", at %s, is not under the slab; it lies on all lines",
            ss_resolve_length(c, left ? slab->y0 : slab->y1, a), line->name, c->bridge->cars[line->car].name,
            ss_resolve_length(c, line->y, b));
        return false;
    }
    return true;
}

static bool across(ss_resolve *c, const ss_node *item, ss_slab *slab) {
    /* An overhang beyond these has no support worth the name. */
    const double far = 10.0 * 0.3048;
    const double likely = 3.0 * 0.3048;
    const double width = c->bridge->cars[c->bridge->car_count - 1].y_right;
    char a[SS_WORDS];
    char b[SS_WORDS];
    slab->y0 = or_else(c, item, "slab.left", 0.0);
    slab->y1 = or_else(c, item, "slab.right", width);
    if (!c->laid || !covers_lines(c, item, slab)) {
        return false;
    }
    if (slab->y1 > width + likely + SS_SAME_PLACE) {
        ss_read_complain(&c->reading, slab->y1 > width + far ? SS_FAULT : SS_WARNING, item, "right",
                         "an overhang of %s beyond the cars, which are %s wide together",
                         ss_resolve_length(c, slab->y1 - width, a), ss_resolve_length(c, width, b));
    }
    return true;
}

/* ---- manner --------------------------------------------------------------------------------------- */

static void read_joint(ss_resolve *c, const ss_node *item, ss_slab *slab) {
    const int joint = ss_read_choice(&c->reading, item, "slab.joint", NULL);
    slab->joint = joint < 0 ? SS_SLAB_JOINT_OPEN : (ss_slab_joint)joint;
    slab->joint_left = ss_resolve_optional(c, item, "slab.joint_left");
    if (joint < 0 && !ss_read_given(item, "joint") && c->bridge->car_count > 1) {
        ss_read_complain(&c->reading, SS_FAULT, item, "joint",
                         "not given; what the slab is over the gap between cars is due: whole, cracked, "
                         "hinged or open");
    }
    if (joint >= 0 && slab->joint != SS_SLAB_JOINT_CRACKED) {
        ss_resolve_forbid(c, item, "joint_left", "belongs to joint = \"cracked\"");
    }
}

/* What stays of the bridge as it is today. */
static void read_old(ss_resolve *c, const ss_node *item) {
    const ss_deck *const deck = &c->bridge->deck;
    if (ss_read_given(item, "old_deck")) {
        const bool off = ss_read_choice(&c->reading, item, "slab.old_deck", NULL) == 1;
        c->old_deck = off ? SS_DEAD_REMOVED : SS_DEAD_STAYS;
    } else if (deck->name != NULL) {
        const bool plate = deck->made_of == SS_DECK_STEEL_PLATE;
        c->old_deck = plate ? SS_DEAD_STAYS : SS_DEAD_REMOVED;
        ss_resolve_assume(c, item, "old_deck", plate ? "stays" : "removed",
                          plate ? "A steel plate stays as lost formwork; it weighs and carries nothing."
                                : "The slab lies on the cars' steel.");
    }
    if (ss_node_child(c->node, "surfacing") != NULL || c->bridge->finding_count > 0) {
        const bool off = ss_read_choice(&c->reading, item, "slab.old_surfacing", NULL) == 1;
        c->old_surfacing = off ? SS_DEAD_REMOVED : SS_DEAD_STAYS;
    }
    if (ss_node_child(c->node, "rails") != NULL) {
        const bool off = ss_read_choice(&c->reading, item, "slab.old_rails", NULL) == 1;
        c->old_rails = off ? SS_DEAD_REMOVED : SS_DEAD_STAYS;
    }
    if (ss_resolve_list(c->node, "dead_loads") != NULL) {
        ss_resolve_assume(c, c->node, "dead_loads", "stay",
                          "Other dead load is there before the slab is cast, and stays.");
    }
}

static void read_manner(ss_resolve *c, const ss_node *item, ss_slab *slab) {
    (void)ss_resolve_due(c, item, "slab.haunch", &slab->haunch);
    slab->haunch_width = ss_resolve_optional(c, item, "slab.haunch_width");
    read_joint(c, item, slab);
    slab->joints_hold_wet = ss_read_choice(&c->reading, item, "slab.cars_joints_while_wet", NULL) != 1;
    slab->first_yield = ss_read_choice(&c->reading, item, "slab.strength", NULL) == 1;
    (void)ss_resolve_due(c, item, "slab.construction_load", &slab->construction);
    (void)ss_resolve_due(c, item, "slab.strip_spacing", &slab->strip_spacing);
    read_old(c, item);
}

/* ---- all ------------------------------------------------------------------------------------------ */

void ss_resolve_slab(ss_resolve *c) {
    const ss_node *const item = ss_node_child(c->root, "slab");
    if (item == NULL || item->kind != SS_NODE_GROUP) {
        return;
    }
    ss_slab *const slab = &c->bridge->slab;
    (void)ss_resolve_due(c, item, "slab.thickness", &slab->thickness);
    read_manner(c, item, slab);
    ss_resolve_slab_concrete(c, item);
    ss_resolve_slab_bars(c, item);
    ss_resolve_slab_connectors(c, item);
    if (ss_resolve_out_of_memory(c) || !c->placed || c->bridge->car_count == 0 ||
        c->bridge->line_count == 0) {
        return;
    }
    const bool placed = along(c, item, slab);
    if (!across(c, item, slab) || !placed) {
        return;
    }
    slab->given = true;
    ss_resolve_slab_pours(c, item);
    ss_resolve_slab_shores(c, item);
    ss_resolve_slab_lines(c, item);
    if (c->bearings_sound && !ss_resolve_out_of_memory(c)) {
        ss_resolve_slab_widths(c, item);
    }
    if (!c->broken && c->reading.diags->faults == 0 && !ss_resolve_out_of_memory(c)) {
        ss_resolve_slab_joints(c, item);
        ss_resolve_slab_strips(c);
    }
}
