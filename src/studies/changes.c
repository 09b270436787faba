/* changes.c - a description changed by findings of the program's own. */
#include "studies/changes.h"

#include <string.h>

#include "sillspan/text.h"

/* What a rating does not need, and what may be about a member that goes missing. */
#define SKIPPED "probes|cases|fatigue|sizing|variants"

ss_status ss_change_copy(const ss_description *from, ss_description *out) {
    return ss_description_copy(from, SKIPPED, out);
}

ss_status ss_change_put_aside(ss_description *d, const char *finding) {
    ss_diag_list diags = {0};
    ss_text path = {0};
    ss_text_printf(&path, "findings.%s.in_use", finding);
    const ss_status status =
        path.failed ? SS_ERROR_MEMORY : ss_description_set(d, path.data, "false", &diags);
    ss_text_destroy(&path);
    ss_diag_destroy(&diags);
    return status;
}

static bool put_text(ss_description *d, ss_node *group, const char *key, const char *text) {
    ss_node *const node = ss_node_add(d, group, SS_NODE_TEXT, key, group->where);
    if (node == NULL) {
        return false;
    }
    node->text = ss_arena_text(&d->arena, text, strlen(text));
    return node->text != NULL;
}

static bool put_length(ss_description *d, ss_node *group, const char *key, double metres) {
    char number[40];
    ss_text text = {0};
    ss_text_printf(&text, "%s m", ss_text_significant(number, sizeof number, metres, 15));
    const bool good = !text.failed && put_text(d, group, key, text.data);
    ss_text_destroy(&text);
    return good;
}

/* One more finding; NULL without memory. */
static ss_node *add_finding(ss_description *d, const char *name, const char *seen) {
    ss_node *list = (ss_node *)ss_node_child(d->root, "findings");
    if (list == NULL) {
        list = ss_node_add(d, d->root, SS_NODE_LIST, "findings", d->root->where);
    }
    ss_node *const item = list == NULL ? NULL : ss_node_add(d, list, SS_NODE_GROUP, NULL, list->where);
    if (item == NULL || !put_text(d, item, "name", name) || !put_text(d, item, "seen", seen)) {
        return NULL;
    }
    return item;
}

/* What is there of a line, or of the part of it. */
bool ss_change_take_line(ss_description *d, const ss_bridge *bridge, int line) {
    const ss_line *const l = &bridge->lines[line];
    ss_node *const item = add_finding(d, "taken away", "missing");
    return item != NULL && put_text(d, item, "car", bridge->cars[l->car].name) &&
           put_text(d, item, "line", l->whole) &&
           (!l->cut || (put_length(d, item, "from", l->x0) && put_length(d, item, "to", l->x1)));
}

bool ss_change_take_beam(ss_description *d, const ss_bridge *bridge, int beam) {
    const ss_floor_beam *const b = &bridge->floor_beams[beam];
    ss_node *const item = add_finding(d, "taken away", "missing");
    return item != NULL && put_text(d, item, "car", bridge->cars[b->car].name) &&
           put_text(d, item, "floor_beam", b->name);
}

/* Sets a path that is there, to a word that is right. */
static bool set_path(ss_description *d, const char *path, const char *value) {
    ss_diag_list diags = {0};
    const ss_status status = ss_description_set(d, path, value, &diags);
    ss_diag_destroy(&diags);
    return status == SS_OK;
}

bool ss_change_take_joint(ss_description *d, const ss_bridge *bridge, int joint) {
    if (bridge->joints[joint].slab) {
        /* Bars that yield leave a hinge. */
        return set_path(d, "slab.joint", bridge->slab.joint == SS_SLAB_JOINT_HINGED ? "open" : "hinged");
    }
    ss_node *const item = add_finding(d, "joint out", "missing");
    return item != NULL && put_text(d, item, "joint", bridge->joints[joint].name);
}

/* What is seated on the outermost line of a car goes with it: joints there. */
bool ss_change_take_seats(ss_description *d, const ss_bridge *bridge, int line) {
    const ss_line *const l = &bridge->lines[line];
    const ss_car *const car = &bridge->cars[l->car];
    const double left = bridge->lines[car->first_line].y;
    const double right = bridge->lines[car->first_line + car->line_count - 1].y;
    for (int i = 0; i < bridge->joint_count; i++) {
        const ss_joint *const joint = &bridge->joints[i];
        const bool seated =
            (joint->left == l->car && l->y == right) || (joint->left + 1 == l->car && l->y == left);
        if (seated && joint->kind != SS_JOINT_NONE && !ss_change_take_joint(d, bridge, i)) {
            return false;
        }
    }
    return true;
}

bool ss_change_cut_line(ss_description *d, const ss_bridge *bridge, int line, double x0, double x1) {
    const ss_line *const l = &bridge->lines[line];
    ss_node *const item = add_finding(d, "cut through", "missing");
    return item != NULL && put_text(d, item, "car", bridge->cars[l->car].name) &&
           put_text(d, item, "line", l->whole) && put_length(d, item, "from", x0) &&
           put_length(d, item, "to", x1);
}

const char *ss_change_member_name(ss_arena *arena, const ss_bridge *bridge, ss_member_kind member,
                                  int index) {
    switch (member) {
    case SS_MEMBER_LINE:
        return ss_arena_printf(arena, "%s of car %s", bridge->lines[index].name,
                               bridge->cars[bridge->lines[index].car].name);
    case SS_MEMBER_BEAM:
        if (bridge->floor_beams[index].strip > 0.0) {
            return ss_arena_printf(arena, "concrete deck of car %s",
                                   bridge->cars[bridge->floor_beams[index].car].name);
        }
        return ss_arena_printf(arena, "%s of car %s", bridge->floor_beams[index].name,
                               bridge->cars[bridge->floor_beams[index].car].name);
    default:
        if (bridge->joints[index].slab) {
            return "slab over the gap";
        }
        return ss_arena_printf(arena, "joint %s", bridge->joints[index].name);
    }
}
