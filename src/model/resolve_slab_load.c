/* resolve_slab_load.c - what a slab weighs, pour by pour; barriers and wearing surface; and that wheels run
 * on it. */
#include <math.h>

#include "base/numeric.h"
#include "model/resolve_slab.h"

static const char *load_name(ss_resolve *c, const char *what, int pour) {
    const ss_slab *const slab = &c->bridge->slab;
    if (slab->pour_count == 1) {
        return what;
    }
    const char *const name = ss_arena_printf(&c->bridge->arena, "%s, %s", what, slab->pours[pour].name);
    if (name == NULL) {
        c->reading.status = SS_ERROR_MEMORY;
    }
    return name;
}

/* ---- concrete ------------------------------------------------------------------------------------- */

/* What a pour puts on the part of the width between y0 and y1, where something carries it from x0 to x1. */
static bool add_area(ss_resolve *c, int pour, const double x[2], const double y[2]) {
    const ss_slab *const slab = &c->bridge->slab;
    const ss_pour *const p = &slab->pours[pour];
    const ss_dead_load load = {.name = load_name(c, "slab concrete", pour),
                               .component = SS_COMPONENT_DC,
                               .area = true,
                               .w = slab->thickness * slab->density,
                               .x0 = ss_max(p->x0, x[0]),
                               .x1 = ss_min(p->x1, x[1]),
                               .y0 = ss_max(p->y0, y[0]),
                               .y1 = ss_min(p->y1, y[1]),
                               .when = SS_DEAD_WET,
                               .pour = pour};
    if (!(load.x1 > load.x0 + SS_SAME_PLACE) || !(load.y1 > load.y0 + SS_SAME_PLACE) || !(load.w > 0.0)) {
        return true;
    }
    return load.name != NULL && ss_resolve_add_dead_load(c, load);
}

/* Over the cars, with what hangs over beside the outer ones, and over the gaps. */
static bool add_concrete(ss_resolve *c, int pour) {
    const ss_bridge *const bridge = c->bridge;
    const ss_slab *const slab = &bridge->slab;
    for (int i = 0; i < bridge->car_count; i++) {
        const ss_car *const car = &bridge->cars[i];
        const bool last = i + 1 == bridge->car_count;
        const double y[2] = {i == 0 ? slab->y0 : car->y_left, last ? slab->y1 : car->y_right};
        if (!add_area(c, pour, (double[2]){car->x0, car->x1}, y)) {
            return false;
        }
        if (last || slab->joint == SS_SLAB_JOINT_OPEN) {
            continue;
        }
        const double x[2] = {ss_max(car->x0, car[1].x0), ss_min(car->x1, car[1].x1)};
        if (!add_area(c, pour, x, (double[2]){car->y_right, car[1].y_left})) {
            return false;
        }
    }
    return true;
}

/* ---- haunches ------------------------------------------------------------------------------------- */

/* Width of the steel's top, the least along the line; NaN: not known. */
static double top_width(const ss_bridge *bridge, int index) {
    const ss_line *const line = &bridge->lines[index];
    double least = SS_INFINITY;
    for (int k = 0; k < line->piece_count; k++) {
        const ss_line_piece *const piece = &bridge->pieces[line->first_piece + k];
        ss_section_form form;
        if (ss_section_form_at(&bridge->sections[piece->section], piece->depth0, &form, NULL) != SS_OK ||
            form.top.plates == 0) {
            return SS_NAN;
        }
        least = ss_min(least, ss_resolve_slab_top(&form));
    }
    return least;
}

static bool add_haunch(ss_resolve *c, const ss_node *item, int pour, int index) {
    ss_slab *const slab = &c->bridge->slab;
    const ss_line *const line = &c->bridge->lines[index];
    const ss_pour *const p = &slab->pours[pour];
    const bool given = ss_read_given(item, "haunch_width");
    const double width = given ? slab->haunch_width : top_width(c->bridge, index);
    if (isnan(width)) {
        ss_read_complain(&c->reading, SS_FAULT, item, "haunch_width",
                         "not given; of the line \"%s\" of \"%s\" the width on top is not known", line->name,
                         c->bridge->cars[line->car].name);
        return false;
    }
    if (!given) {
        slab->haunch_width = isnan(slab->haunch_width) ? width : ss_max(slab->haunch_width, width);
    }
    const ss_dead_load load = {.name = load_name(c, "haunches", pour),
                               .component = SS_COMPONENT_DC,
                               .w = slab->haunch * width * slab->density,
                               .x0 = ss_max(p->x0, line->x0),
                               .x1 = ss_min(p->x1, line->x1),
                               .y0 = line->y,
                               .y1 = line->y,
                               .when = SS_DEAD_WET,
                               .pour = pour};
    if (!(load.x1 > load.x0 + SS_SAME_PLACE)) {
        return true;
    }
    return load.name != NULL && ss_resolve_add_dead_load(c, load);
}

/* A line on the border of two pours gets its haunch with the first. */
static bool add_haunches(ss_resolve *c, const ss_node *item, int pour) {
    const ss_slab *const slab = &c->bridge->slab;
    const ss_pour *const p = &slab->pours[pour];
    for (int i = 0; slab->haunch > 0.0 && i < c->bridge->line_count; i++) {
        const double y = c->bridge->lines[i].y;
        const bool mine =
            y >= p->y0 - SS_SAME_PLACE && (y < p->y1 - SS_SAME_PLACE || p->y1 >= slab->y1 - SS_SAME_PLACE);
        if (slab->lines[i].composite && mine && !add_haunch(c, item, pour, i)) {
            return false;
        }
    }
    return true;
}

/* ---- later ---------------------------------------------------------------------------------------- */

static void add_barriers(ss_resolve *c, const ss_node *item) {
    const ss_slab *const slab = &c->bridge->slab;
    const ss_node *const group = ss_node_child(item, "barriers");
    double y[SS_DESCRIPTION_VALUES];
    double weight = 0.0;
    if (group == NULL) {
        return;
    }
    const bool good = ss_resolve_due(c, group, "slab.barriers.weight", &weight);
    const int count = ss_read_quantities(&c->reading, group, "slab.barriers.y", y, SS_DESCRIPTION_VALUES);
    c->broken = c->broken || count == 0;
    for (int i = 0; good && i < count; i++) {
        char at[SS_WORDS];
        char from[SS_WORDS];
        char to[SS_WORDS];
        if (y[i] < slab->y0 - SS_SAME_PLACE || y[i] > slab->y1 + SS_SAME_PLACE) {
            ss_read_complain(&c->reading, SS_FAULT, group, "y", "y = %s lies beside the slab, %s to %s",
                             ss_resolve_length(c, y[i], at), ss_resolve_length(c, slab->y0, from),
                             ss_resolve_length(c, slab->y1, to));
            continue;
        }
        (void)ss_resolve_add_dead_load(c, (ss_dead_load){.name = "barriers",
                                                         .component = SS_COMPONENT_DC,
                                                         .w = weight,
                                                         .x0 = slab->x0,
                                                         .x1 = slab->x1,
                                                         .y0 = y[i],
                                                         .y1 = y[i],
                                                         .when = SS_DEAD_LATER});
    }
}

static void add_wearing(ss_resolve *c, const ss_node *item) {
    const ss_slab *const slab = &c->bridge->slab;
    const ss_node *const group = ss_node_child(item, "wearing");
    double thickness = 0.0;
    double density = 0.0;
    if (group == NULL) {
        return;
    }
    const bool good = ss_resolve_due(c, group, "slab.wearing.thickness", &thickness);
    if (!ss_resolve_due(c, group, "slab.wearing.density", &density) || !good) {
        return;
    }
    (void)ss_resolve_add_dead_load(c, (ss_dead_load){.name = "wearing surface",
                                                     .component = SS_COMPONENT_DW,
                                                     .area = true,
                                                     .w = thickness * density,
                                                     .x0 = slab->x0,
                                                     .x1 = slab->x1,
                                                     .y0 = ss_max(slab->y0, c->bridge->roadway_left),
                                                     .y1 = ss_min(slab->y1, c->bridge->roadway_right),
                                                     .when = SS_DEAD_LATER});
}

/* ---- all ------------------------------------------------------------------------------------------ */

void ss_resolve_slab_loads(ss_resolve *c) {
    ss_bridge *const bridge = c->bridge;
    const ss_node *const item = ss_node_child(c->root, "slab");
    if (item == NULL || !bridge->slab.given || bridge->slab.lines == NULL) {
        return;
    }
    for (int i = 0; i < bridge->slab.pour_count; i++) {
        if (!add_concrete(c, i) || !add_haunches(c, item, i)) {
            return;
        }
    }
    add_barriers(c, item);
    add_wearing(c, item);
    const ss_deck *const old = &bridge->deck;
    if (old->name != NULL && old->made_of == SS_DECK_STEEL_PLATE && c->old_deck == SS_DEAD_STAYS) {
        bridge->slab.form = (ss_slab_form){.name = old->name,
                                           .thickness = old->wheel.thickness,
                                           .steel = old->wheel.steel,
                                           .weight = old->weight,
                                           .along = old->along};
    }
    bridge->deck = (ss_deck){.name = "slab",
                             .kind = "concrete",
                             .holds_lines = bridge->slab.thickness > 0.0,
                             .over_joints = bridge->slab.joint != SS_SLAB_JOINT_OPEN,
                             .made_of = SS_DECK_CONCRETE,
                             .wheel = {.steel = -1}};
}
