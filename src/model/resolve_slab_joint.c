/* resolve_slab_joint.c - the slab over the gap between two cars as a joint: stiffness and strength. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "model/resolve_slab.h"
#include "sillspan/joint_stiffness.h"

#define PSI 6894.7572931683608

/* Shear modulus of concrete, Poisson's ratio 0.2. */
#define E_OVER_G 2.4

/* ---- bars ----------------------------------------------------------------------------------------- */

/* Bars across of one face pulled, m from the pressed face. */
typedef struct face {
    double area, depth;
} face;

static void faces_of(const ss_slab *slab, face out[2]) {
    out[0] = (face){ss_bars_area(&slab->bottom_across), slab->bottom_across.depth};
    out[1] = (face){ss_bars_area(&slab->top_across), slab->thickness - slab->top_across.depth};
}

/* Second moment of the cracked slab, per length, as concrete: pressed concrete and both layers by n. */
static double cracked(const ss_slab *slab, const face *pulled, const face *other, double n) {
    const double a[2] = {n * pulled->area, n * other->area};
    const double d[2] = {pulled->depth, slab->thickness - other->depth};
    const double sum = a[0] + a[1];
    const double x = sqrt(sum * sum + 2.0 * (a[0] * d[0] + a[1] * d[1])) - sum;
    return x * x * x / 3.0 + a[0] * (d[0] - x) * (d[0] - x) + a[1] * (d[1] - x) * (d[1] - x);
}

/* Share of the whole slab's stiffness that is left when it is cracked, the less of both senses of bending. */
static double share_left(const ss_bridge *bridge) {
    const ss_slab *const slab = &bridge->slab;
    const double whole = slab->thickness * slab->thickness * slab->thickness / 12.0;
    const double n = isnan(slab->n) ? bridge->steels[bridge->lines[0].steel].E / slab->E : slab->n;
    face faces[2];
    faces_of(slab, faces);
    const double sag = faces[0].area > 0.0 ? cracked(slab, &faces[0], &faces[1], n) : 0.0;
    const double hog = faces[1].area > 0.0 ? cracked(slab, &faces[1], &faces[0], n) : 0.0;
    return ss_min(ss_min(sag, hog) / whole, 1.0);
}

/* ---- strength ------------------------------------------------------------------------------------- */

/* Nominal moment per length with the bars of one face, stress block of 0.85 f'c (Whitney). NaN: none. */
static double moment_of(const ss_slab *slab, const face *pulled) {
    const double force = pulled->area * slab->bar_fy;
    const double arm = pulled->depth - 0.5 * force / (0.85 * slab->fc);
    return force > 0.0 && arm > 0.0 ? force * arm : SS_NAN;
}

/* Of a panel. Slabs whose bending is looked at count as satisfactory in shear (AASHTO Standard Specifications
 * 3.24.4, from memory); a hinge has shear alone. Phi as in slab_strength.h. */
static void set_strength(const ss_slab *slab, double width, ss_joint *joint) {
    face faces[2];
    faces_of(slab, faces);
    const double sag = moment_of(slab, &faces[0]);
    const double hog = moment_of(slab, &faces[1]);
    joint->shear_capacity = joint->moment_capacity = SS_NAN;
    if (isnan(sag) || isnan(hog)) {
        return;
    }
    if (joint->rotation > 0.0) {
        joint->moment_capacity = 0.90 * width * ss_min(sag, hog);
    } else {
        /* ACI 318 and AASHTO Standard Specifications 8.16.6.2, from memory: 2 sqrt(f'c) in psi. */
        const double depth = ss_min(faces[0].depth, faces[1].depth);
        joint->shear_capacity = 0.90 * width * 2.0 * PSI * sqrt(slab->fc / PSI) * depth;
    }
}

/* ---- where ---------------------------------------------------------------------------------------- */

/* The outermost line of a car on one side that runs along half of the range or more; -1: none. */
static int facing(const ss_bridge *bridge, const ss_car *car, bool right, const double x[2]) {
    for (int k = 0; k < car->line_count; k++) {
        const int i = car->first_line + (right ? car->line_count - 1 - k : k);
        const ss_line *const line = &bridge->lines[i];
        if (ss_min(line->x1, x[1]) - ss_max(line->x0, x[0]) >= 0.5 * (x[1] - x[0])) {
            return i;
        }
    }
    return -1;
}

/* ---- one joint ------------------------------------------------------------------------------------ */

/* A crack in the middle, where a step brings no bending, leaves the stiffness against a step; a hinge is such
 * a crack with nothing left against a fold: two cantilevers, 3 EI / (s/2)^3 each, in a row. */
static void set_stiffness(const ss_bridge *bridge, double reach, double width, ss_joint *joint) {
    const ss_slab *const slab = &bridge->slab;
    const ss_joint_span span = ss_joint_span_of_plate(slab->thickness, reach, slab->E, slab->E / E_OVER_G);
    const ss_joint_stiffness whole = ss_joint_span_stiffness(&span, NULL);
    const double left = slab->joint == SS_SLAB_JOINT_WHOLE    ? 1.0
                        : slab->joint == SS_SLAB_JOINT_HINGED ? 0.0
                        : isnan(slab->joint_left)             ? share_left(bridge)
                                                              : slab->joint_left;
    joint->shear = width * whole.shear;
    joint->rotation = left * width * whole.rotation;
}

static void assume(ss_resolve *c, const ss_node *item, const ss_joint *joint) {
    char shear[SS_WORDS];
    char fold[SS_WORDS];
    const ss_unit_system units = c->bridge->units;
    const char *const value = ss_arena_printf(
        &c->bridge->arena, "%s, %s",
        ss_units_format(shear, sizeof shear, joint->shear, SS_DIM_SPRING, units, 4),
        ss_units_format(fold, sizeof fold, joint->rotation, SS_DIM_ROTATION_SPRING, units, 4));
    if (value == NULL) {
        c->reading.status = SS_ERROR_MEMORY;
        return;
    }
    ss_resolve_assume(
        c, item, "joint", value,
        "Stiffness of each panel of the slab over the gap against a step and a fold, as a plate "
        "between the facing lines.");
}

static const char *name_of(ss_resolve *c, int left) {
    const ss_bridge *const bridge = c->bridge;
    if (bridge->car_count == 2) {
        return "slab";
    }
    const char *const name = ss_arena_printf(&c->bridge->arena, "slab, %s-%s", bridge->cars[left].name,
                                             bridge->cars[left + 1].name);
    if (name == NULL) {
        c->reading.status = SS_ERROR_MEMORY;
    }
    return name;
}

/* One tie in the middle of each panel that lies over both cars. */
static bool add_ties(ss_resolve *c, const double x[2], ss_joint *joint) {
    ss_bridge *const bridge = c->bridge;
    joint->first_connector = bridge->connector_count;
    for (int i = 0; i < ss_slab_panels(&bridge->slab); i++) {
        const double at = ss_resolve_slab_panel(bridge, i);
        if (at < x[0] || at > x[1]) {
            continue;
        }
        double *const grown = ss_resolve_grow(c, bridge->connectors, bridge->connector_count, sizeof *grown);
        if (grown == NULL) {
            return false;
        }
        bridge->connectors = grown;
        grown[bridge->connector_count++] = at;
        joint->connector_count++;
    }
    return joint->connector_count > 0;
}

/* False: the slab does not lie over both cars side by side. */
static bool make_joint(ss_resolve *c, const ss_node *item, int left, ss_joint *out) {
    const ss_bridge *const bridge = c->bridge;
    const ss_slab *const slab = &bridge->slab;
    const ss_car *const a = &bridge->cars[left];
    const ss_car *const b = a + 1;
    const double x[2] = {ss_max(slab->x0, ss_max(a->x0, b->x0)), ss_min(slab->x1, ss_min(a->x1, b->x1))};
    if (!(x[1] > x[0] + SS_SAME_PLACE)) {
        return false;
    }
    const int p = facing(bridge, a, true, x);
    const int q = facing(bridge, b, false, x);
    if (p < 0 || q < 0) {
        return false;
    }
    const double y0 = bridge->lines[p].y;
    const double y1 = bridge->lines[q].y;
    if (!(y1 > y0 + SS_SAME_PLACE)) {
        return false;
    }
    *out = (ss_joint){.name = name_of(c, left),
                      .kind = SS_JOINT_SPRINGS,
                      .scale = 1.0,
                      .left = left,
                      .y = 0.5 * (y0 + y1),
                      .x0 = x[0],
                      .x1 = x[1],
                      .slab = true};
    const double width = ss_slab_panel_width(slab);
    set_stiffness(bridge, y1 - y0, width, out);
    set_strength(slab, width, out);
    assume(c, item, out);
    return add_ties(c, x, out);
}

void ss_resolve_slab_joints(ss_resolve *c, const ss_node *item) {
    ss_bridge *const bridge = c->bridge;
    const ss_slab *const slab = &bridge->slab;
    if (slab->joint == SS_SLAB_JOINT_OPEN || bridge->car_count < 2 || !(slab->thickness > 0.0)) {
        return;
    }
    ss_joint *const all =
        ss_resolve_alloc(c, (size_t)bridge->joint_count + (size_t)bridge->car_count, sizeof *all);
    if (all == NULL) {
        return;
    }
    int count = bridge->joint_count;
    if (count > 0) {
        memcpy(all, bridge->joints, (size_t)count * sizeof *all);
    }
    for (int i = 0; i + 1 < bridge->car_count; i++) {
        count += make_joint(c, item, i, &all[count]);
    }
    bridge->joints = all;
    bridge->joint_count = count;
}
