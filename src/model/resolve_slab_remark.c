/* resolve_slab_remark.c - what is doubtful about a slab, and what is left out of it. */
#include "base/numeric.h"
#include "model/resolve_slab.h"

/* Steel rolled before this year is often hard to weld. */
#define WELDABLE_FROM 1936

static void warn_of_steel(ss_resolve *c, const ss_node *item) {
    const ss_bridge *const bridge = c->bridge;
    const ss_node *const list = ss_resolve_list(c->root, "steels");
    for (int s = 0; list != NULL && s < bridge->steel_count; s++) {
        const ss_node *const year = ss_node_child(ss_node_item(list, s), "year_built");
        bool composite = false;
        for (int i = 0; i < bridge->line_count; i++) {
            composite = composite || (bridge->slab.lines[i].composite && bridge->lines[i].steel == s);
        }
        if (composite && year != NULL && year->kind == SS_NODE_INTEGER && year->number < WELDABLE_FROM) {
            ss_read_complain(
                &c->reading, SS_WARNING, item, "connectors",
                "the steel \"%s\" is of %d: whether anything can be welded to it is to be tested",
                bridge->steels[s].name, (int)year->number);
        }
    }
}

static void warn_of_joint(ss_resolve *c, const ss_node *item) {
    const ss_bridge *const bridge = c->bridge;
    const ss_slab *const slab = &bridge->slab;
    if (bridge->car_count < 2) {
        return;
    }
    const bool runs = slab->joint == SS_SLAB_JOINT_WHOLE || slab->joint == SS_SLAB_JOINT_CRACKED;
    if (runs && !(slab->top_across.spacing > 0.0 && slab->bottom_across.spacing > 0.0)) {
        ss_read_complain(
            &c->reading, SS_WARNING, item, "joint",
            "the slab bends over the gap both ways and has no bars across at %s; there it is not "
            "rated",
            slab->top_across.spacing > 0.0      ? "its underside"
            : slab->bottom_across.spacing > 0.0 ? "its top"
                                                : "either face");
    }
    for (int i = 0; i + 1 < bridge->car_count && slab->joint == SS_SLAB_JOINT_OPEN; i++) {
        if (bridge->roadway_left < bridge->cars[i + 1].y_left &&
            bridge->roadway_right > bridge->cars[i].y_right) {
            ss_read_complain(
                &c->reading, SS_WARNING, item, "joint",
                "the slab ends at the gap between \"%s\" and \"%s\", and wheels run over it: its "
                "edges carry them as overhangs",
                bridge->cars[i].name, bridge->cars[i + 1].name);
        }
    }
}

static void warn_of_roadway(ss_resolve *c, const ss_node *item) {
    const ss_bridge *const bridge = c->bridge;
    const bool left = bridge->roadway_left < bridge->slab.y0 - SS_SAME_PLACE;
    if (left || bridge->roadway_right > bridge->slab.y1 + SS_SAME_PLACE) {
        ss_read_complain(&c->reading, SS_WARNING, item, left ? "left" : "right",
                         "the roadway reaches beyond the slab; wheels there count as if it went on");
    }
}

/* Beyond its ends the old deck stays. */
static void warn_of_ends(ss_resolve *c, const ss_node *item) {
    const ss_bridge *const bridge = c->bridge;
    const bool near = bridge->slab.x0 > bridge->x0 + SS_SAME_PLACE;
    if (near || bridge->slab.x1 < bridge->x1 - SS_SAME_PLACE) {
        ss_read_complain(
            &c->reading, SS_WARNING, item, near ? "from" : "to",
            "the slab ends short of the bridge: what lies there today stays there, and wheels there "
            "count as on a slab that acts with no line");
    }
}

static void warn_of_lines(ss_resolve *c, const ss_node *item) {
    const ss_bridge *const bridge = c->bridge;
    for (int i = 0; i < bridge->line_count && ss_node_child(item, "connectors") != NULL; i++) {
        const ss_slab_line *const line = &bridge->slab.lines[i];
        if (line->composite || line->why == NULL || line->plate <= 0.0) {
            continue;
        }
        ss_read_complain(&c->reading, SS_WARNING, item, "connectors",
                         "the line \"%s\" of \"%s\" does not act with the slab: %s", bridge->lines[i].name,
                         bridge->cars[bridge->lines[i].car].name, line->why);
    }
}

void ss_resolve_slab_remarks(ss_resolve *c) {
    const ss_node *const item = ss_node_child(c->root, "slab");
    if (item == NULL || !c->bridge->slab.given || c->bridge->slab.lines == NULL) {
        return;
    }
    warn_of_steel(c, item);
    warn_of_joint(c, item);
    warn_of_roadway(c, item);
    warn_of_ends(c, item);
    warn_of_lines(c, item);
}

const char *ss_resolve_slab_ignored(int which) {
    static const char *const sentences[] = {
        "Shrinkage of the slab, and its temperature against that of the steel, are left out.",
        "Connectors do not give: slip between slab and steel is left out.",
        "All of the width that acts with a line is stressed alike, and nothing beyond it.",
        "Where the slab is pulled along a line it stiffens the line as where it is pressed.",
        "Steel plate that stays under the slab as formwork weighs and carries nothing.",
    };
    return which < (int)(sizeof sentences / sizeof sentences[0]) ? sentences[which] : NULL;
}
