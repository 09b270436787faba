/* springs.c - rows of bearing points and of joints. */
#include <math.h>

#include "base/numeric.h"
#include "mechanics/mesh_parts.h"
#include "mechanics/row.h"

/* Springs are written in two passes: `items` is NULL while they are counted. */
typedef struct spring_list {
    ss_spring *items;
    int count;
} spring_list;

static double flexibility_of(double stiffness) {
    return isinf(stiffness) ? 0.0 : 1.0 / stiffness;
}

static void add(spring_list *list, const ss_spring *spring) {
    if (list->items != NULL) {
        list->items[list->count] = *spring;
    }
    list->count++;
}

/* ---- bearings ----------------------------------------------------------------------------------- */

/* Deflection of the line's node, or of the point `arm` to its right. */
static ss_row deflection_row(int node, double arm) {
    ss_row row = {0};
    ss_row_add(&row, 3 * node, 1.0);
    ss_row_add(&row, 3 * node + 1, arm);
    return row;
}

static void add_bearing_vertical(spring_list *list, const ss_bearing *bearing, ss_spring spring, int node) {
    const double flexibility = flexibility_of(bearing->spring);
    const double y = spring.y;
    if (!(bearing->pad_width > 0.0)) {
        spring.row = deflection_row(node, 0.0);
        spring.flexibility = flexibility;
        add(list, &spring);
        return;
    }
    const double half = 0.5 * bearing->pad_width;
    spring.flexibility = 4.0 * flexibility;
    spring.pair_flexibility = -2.0 * flexibility;
    spring.row = deflection_row(node, -half);
    spring.y = y - half;
    spring.pair = list->count + 1;
    add(list, &spring);
    spring.row = deflection_row(node, half);
    spring.y = y + half;
    spring.pair = list->count - 1;
    add(list, &spring);
}

static ss_status add_bearings(const ss_mesh *mesh, spring_list *list, ss_error *error) {
    const ss_bridge *b = mesh->bridge;
    for (int i = 0; i < b->bearing_count; i++) {
        const ss_bearing *bearing = &b->bearings[i];
        const int station = ss_station_nearest(mesh, bearing->x);
        const int node = ss_mesh_node(mesh, station, bearing->line);
        if (node < 0 || fabs(mesh->station[station] - bearing->x) > 2.0 * SS_STATION_TOLERANCE) {
            char words[160];
            char place[48];
            return ss_error_set(error, SS_ERROR_DESCRIPTION, "bearing %s: %s does not reach x = %s",
                                bearing->name, ss_mesh_line_words(b, bearing->line, words, sizeof words),
                                ss_mesh_x_words(b->units, bearing->x, place, sizeof place));
        }
        ss_spring spring = {.kind = SS_SPRING_VERTICAL,
                            .owner = SS_MEMBER_BEARING,
                            .index = i,
                            .x = mesh->station[station],
                            .y = b->lines[bearing->line].y,
                            .length = 1.0,
                            .contact = bearing->contact,
                            .pair = -1};
        if (bearing->spring > 0.0) {
            add_bearing_vertical(list, bearing, spring, node);
        }
        if (bearing->rotation > 0.0) {
            spring.kind = SS_SPRING_SLOPE;
            spring.contact = false;
            spring.flexibility = flexibility_of(bearing->rotation);
            ss_row_add(&spring.row, 3 * node + 2, -1.0); /* dw/dx */
            add(list, &spring);
        }
    }
    return SS_OK;
}

/* ---- joints ------------------------------------------------------------------------------------- */

/* The line of a car that faces the joint at a station: its last (from the left car) or first; -1 where the
 * car has none. */
static int facing_line(const ss_mesh *mesh, int station, int car, bool last) {
    const ss_car *c = &mesh->bridge->cars[car];
    for (int k = 0; k < c->line_count; k++) {
        const int line = last ? c->first_line + c->line_count - 1 - k : c->first_line + k;
        if (ss_mesh_node(mesh, station, line) >= 0) {
            return line;
        }
    }
    return -1;
}

typedef struct facing {
    int left, right; /* lines, or -1 */
} facing;

static facing facing_at(const ss_mesh *mesh, const ss_joint *joint, int station) {
    return (facing){facing_line(mesh, station, joint->left, true),
                    facing_line(mesh, station, joint->left + 1, false)};
}

/* What a joint's stiffness is multiplied by: 0 for slab that is still wet, less under load that stays. */
static double hardened(const ss_mesh *mesh, const ss_joint *joint, double x) {
    const ss_slab *slab = &mesh->bridge->slab;
    if (!joint->slab) {
        return 1.0;
    }
    const bool hard = ss_slab_hard_at(slab, x, false, joint->y, mesh->slab) ||
                      ss_slab_hard_at(slab, x, true, joint->y, mesh->slab);
    return !hard ? 0.0 : mesh->slab.long_term ? 1.0 / slab->long_factor : 1.0;
}

static void add_joint_pair(const ss_mesh *mesh, spring_list *list, int index, int station, double length) {
    const ss_bridge *b = mesh->bridge;
    const ss_joint *joint = &b->joints[index];
    const facing f = facing_at(mesh, joint, station);
    const double factor = hardened(mesh, joint, mesh->station[station]);
    if (f.left < 0 || f.right < 0 || !(length > 0.0) || factor == 0.0) {
        return;
    }
    const int left = ss_mesh_node(mesh, station, f.left);
    const int right = ss_mesh_node(mesh, station, f.right);
    const double rigid = (double)INFINITY;
    const double shear = joint->kind == SS_JOINT_SPRINGS ? factor * joint->shear : rigid;
    const double rotation = joint->kind == SS_JOINT_SPRINGS ? factor * joint->rotation
                            : joint->kind == SS_JOINT_RIGID ? rigid
                                                            : 0.0;
    ss_spring spring = {.kind = SS_SPRING_VERTICAL,
                        .owner = SS_MEMBER_JOINT,
                        .index = index,
                        .x = mesh->station[station],
                        .y = joint->y,
                        .length = length,
                        .pair = -1};
    if (shear > 0.0) {
        ss_row_add(&spring.row, 3 * left, 1.0);
        ss_row_add(&spring.row, 3 * left + 1, joint->y - b->lines[f.left].y);
        ss_row_add(&spring.row, 3 * right, -1.0);
        ss_row_add(&spring.row, 3 * right + 1, -(joint->y - b->lines[f.right].y));
        spring.flexibility = flexibility_of(shear * length);
        add(list, &spring);
    }
    if (rotation > 0.0) {
        spring.kind = SS_SPRING_FOLD;
        spring.row = (ss_row){0};
        ss_row_add(&spring.row, 3 * left + 1, 1.0);
        ss_row_add(&spring.row, 3 * right + 1, -1.0);
        spring.flexibility = flexibility_of(rotation * length);
        add(list, &spring);
    }
}

static bool loose_between(const ss_mesh *mesh, const ss_joint *joint, int station) {
    const double x = 0.5 * (mesh->station[station] + mesh->station[station + 1]);
    for (int i = 0; i < joint->loose_count; i++) {
        const ss_length_range *range = &mesh->bridge->loose[joint->first_loose + i];
        if (x > range->x0 && x < range->x1) {
            return true;
        }
    }
    return false;
}

/* Length of joint that a station stands for (trapezoid rule): half of each neighbouring interval within the
 * joint in which both cars have a line and nothing is loose. */
static double tributary(const ss_mesh *mesh, const ss_joint *joint, int first, int last, int station) {
    double length = 0.0;
    for (int s = station - 1; s <= station; s++) {
        if (s < first || s + 1 > last || loose_between(mesh, joint, s)) {
            continue;
        }
        const facing a = facing_at(mesh, joint, s);
        const facing c = facing_at(mesh, joint, s + 1);
        if (a.left >= 0 && a.right >= 0 && c.left >= 0 && c.right >= 0) {
            length += 0.5 * (mesh->station[s + 1] - mesh->station[s]);
        }
    }
    return length;
}

static void add_joints(const ss_mesh *mesh, bool loose, spring_list *list) {
    const ss_bridge *b = mesh->bridge;
    for (int i = 0; i < b->joint_count; i++) {
        const ss_joint *joint = &b->joints[i];
        if (joint->kind == SS_JOINT_NONE || (loose && !joint->slab)) {
            continue;
        }
        for (int k = 0; k < joint->connector_count; k++) {
            add_joint_pair(mesh, list, i, ss_station_nearest(mesh, b->connectors[joint->first_connector + k]),
                           1.0);
        }
        if (joint->connector_count > 0) {
            continue;
        }
        const int first = ss_station_nearest(mesh, joint->x0);
        const int last = ss_station_nearest(mesh, joint->x1);
        for (int s = first; s <= last; s++) {
            add_joint_pair(mesh, list, i, s, tributary(mesh, joint, first, last, s));
        }
    }
}

ss_status ss_springs_build(ss_mesh *mesh, const ss_mesh_options *options, ss_error *error) {
    spring_list list = {0};
    for (int pass = 0; pass < 2; pass++) {
        list.count = 0;
        const ss_status status = add_bearings(mesh, &list, error);
        if (status != SS_OK) {
            return status;
        }
        if (options->joints) {
            add_joints(mesh, options->loose, &list);
        }
        if (pass > 0) {
            break;
        }
        list.items = ss_arena_alloc(&mesh->arena, (size_t)list.count, sizeof *list.items);
        if (list.items == NULL) {
            return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the springs");
        }
    }
    mesh->spring = list.items;
    mesh->spring_count = list.count;
    return SS_OK;
}
