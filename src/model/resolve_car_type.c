/* resolve_car_type.c - car types: size, wheel-truck points, longitudinal lines with their tapers. */
#include <math.h>
#include <stdlib.h>

#include "base/numeric.h"
#include "model/resolve.h"

static int by_value(const void *a, const void *b) {
    const double p = *(const double *)a;
    const double q = *(const double *)b;
    return (p > q) - (p < q);
}

static int by_place(const void *a, const void *b) {
    const ss_type_line *const p = a;
    const ss_type_line *const q = b;
    if (p->y != q->y) {
        return p->y < q->y ? -1 : 1;
    }
    if (p->x0 != q->x0) {
        return p->x0 < q->x0 ? -1 : 1;
    }
    return p->node->where.line - q->node->where.line;
}

/* ---- depth along a line --------------------------------------------------------------------------- */

static bool depth_fits(ss_resolve *c, const ss_node *at, const char *key, const ss_type_line *line,
                       int section) {
    if (section < 0 || !c->section_sound[section]) {
        return true;
    }
    const ss_section *const s = &c->bridge->sections[section];
    if (s->shape == SS_SHAPE_GIVEN) {
        ss_read_complain(&c->reading, SS_FAULT, at, key,
                         "the section \"%s\" has given properties and one depth only; a taper needs plates",
                         s->name);
        return false;
    }
    for (int i = 0; i < line->point_count; i++) {
        ss_section_properties unused;
        if (ss_section_at(s, line->point_depth[i], 0.0, &unused, NULL) == SS_OK) {
            continue;
        }
        char depth[SS_WORDS];
        ss_read_complain(&c->reading, SS_FAULT, at, key,
                         "the plates of section \"%s\" do not fit within a depth of %s", s->name,
                         ss_resolve_quantity(c, line->point_depth[i], SS_DIM_SMALL_LENGTH, depth));
        return false;
    }
    return true;
}

bool ss_resolve_depth_fits(ss_resolve *c, const ss_node *at, const char *key, const ss_type_line *line,
                           int section) {
    return line->point_count == 0 || depth_fits(c, at, key, line, section);
}

/* The taped points of one line; false when they cannot be. */
static bool read_depths(ss_resolve *c, const ss_node *item, double length, ss_type_line *line) {
    const ss_node *const list = ss_resolve_list(item, "depth_along");
    if (list == NULL || list->count == 0) {
        return true;
    }
    double *const x = ss_resolve_scratch(c, (size_t)list->count, sizeof *x);
    double *const depth = ss_resolve_scratch(c, (size_t)list->count, sizeof *depth);
    if (x == NULL || depth == NULL) {
        return false;
    }
    int count = 0;
    bool good = true;
    for (const ss_node *point = list->first; point != NULL; point = point->next) {
        const bool read = ss_resolve_due(c, point, "cars[].lines[].depth_along[].x", &x[count]);
        if (!ss_resolve_due(c, point, "cars[].lines[].depth_along[].depth", &depth[count]) || !read) {
            return false;
        }
        char here[SS_WORDS];
        char end[SS_WORDS];
        if (x[count] > length + SS_SAME_PLACE) {
            ss_read_complain(&c->reading, SS_FAULT, point, "x", "%s lies outside the car, which is %s long",
                             ss_resolve_length(c, x[count], here), ss_resolve_length(c, length, end));
            good = false;
        } else if (count > 0 && x[count] <= x[count - 1] + SS_SAME_PLACE) {
            ss_read_complain(&c->reading, SS_FAULT, point, "x",
                             "%s does not come after %s; the points go from the near end to the far end",
                             ss_resolve_length(c, x[count], here), ss_resolve_length(c, x[count - 1], end));
            good = false;
        }
        count++;
    }
    line->point_x = x;
    line->point_depth = depth;
    line->point_count = count;
    return good;
}

/* ---- lines ---------------------------------------------------------------------------------------- */

/* Where the line starts and stops, and its taper. */
static bool read_along(ss_resolve *c, const ss_node *item, double length, ss_type_line *line) {
    line->x0 = 0.0;
    line->x1 = length;
    bool good = !ss_read_given(item, "from") || ss_resolve_due(c, item, "cars[].lines[].from", &line->x0);
    good = (!ss_read_given(item, "to") || ss_resolve_due(c, item, "cars[].lines[].to", &line->x1)) && good;
    if (!good) {
        return false;
    }
    char a[SS_WORDS];
    char b[SS_WORDS];
    if (line->x1 > length + SS_SAME_PLACE) {
        ss_read_complain(&c->reading, SS_FAULT, item, "to", "%s lies outside the car, which is %s long",
                         ss_resolve_length(c, line->x1, a), ss_resolve_length(c, length, b));
        return false;
    }
    if (line->x1 <= line->x0 + SS_SAME_PLACE) {
        ss_read_complain(&c->reading, SS_FAULT, item, "from",
                         "the line would go from %s to %s; it must have a length",
                         ss_resolve_length(c, line->x0, a), ss_resolve_length(c, line->x1, b));
        return false;
    }
    line->x1 = ss_min(line->x1, length);
    if (!read_depths(c, item, length, line)) {
        return false;
    }
    return ss_resolve_depth_fits(c, item, "depth_along", line, line->section);
}

/* One line or a set of equal lines. */
static bool read_line(ss_resolve *c, const ss_node *item, ss_car_type *type) {
    double y[SS_DESCRIPTION_VALUES];
    ss_type_line line = {.node = item, .set = ss_resolve_text(c, ss_resolve_name(item)), .steel = -1};
    const int role = ss_read_choice(&c->reading, item, "cars[].lines[].role", NULL);
    line.role = role < 0 ? SS_ROLE_STRINGER : (ss_role)role;
    line.section = ss_resolve_reference(c, item, "cars[].lines[].section", "sections", "section");
    if (ss_read_given(item, "steel")) {
        line.steel = ss_resolve_reference(c, item, "cars[].lines[].steel", "steels", "steel");
        if (line.steel < 0) {
            c->broken = true;
        }
    }
    line.unbraced = ss_resolve_optional(c, item, "cars[].lines[].unbraced");
    line.Cb = ss_resolve_optional(c, item, "cars[].lines[].Cb");
    line.stiffeners = ss_resolve_optional(c, item, "cars[].lines[].stiffeners");
    bool good = role >= 0 && line.section >= 0;
    if (isfinite(type->length)) {
        good = read_along(c, item, type->length, &line) && good;
    }
    const int count = ss_read_quantities(&c->reading, item, "cars[].lines[].y", y, SS_DESCRIPTION_VALUES);
    qsort(y, (size_t)count, sizeof y[0], by_value);
    for (int i = 0; i < count; i++) {
        if (isfinite(type->width) && fabs(y[i]) > 0.5 * type->width + SS_SAME_PLACE) {
            char at[SS_WORDS];
            char width[SS_WORDS];
            ss_read_complain(&c->reading, SS_FAULT, item, "y",
                             "%s lies outside the car, which is %s wide: half of it to each side",
                             ss_resolve_length(c, y[i], at), ss_resolve_length(c, type->width, width));
            good = false;
        }
        ss_type_line *const grown = ss_resolve_grow(c, type->lines, type->line_count, sizeof *grown);
        if (grown == NULL) {
            return false;
        }
        type->lines = grown;
        line.y = y[i];
        line.member = i + 1;
        line.members = count;
        grown[type->line_count++] = line;
    }
    return good && count > 0;
}

/* Two members cannot lie in one place. */
static bool check_places(ss_resolve *c, const ss_car_type *type) {
    bool good = true;
    for (int i = 0; i < type->line_count; i++) {
        for (int j = i + 1; j < type->line_count && type->lines[j].y <= type->lines[i].y + SS_SAME_PLACE;
             j++) {
            const ss_type_line *const a = &type->lines[i];
            const ss_type_line *const b = &type->lines[j];
            if (ss_min(a->x1, b->x1) <= ss_max(a->x0, b->x0) + SS_SAME_PLACE) {
                continue;
            }
            char y[SS_WORDS];
            ss_read_complain(&c->reading, SS_FAULT, b->node, "y",
                             "lies on the line \"%s\" at y = %s; two lines there need one section", a->set,
                             ss_resolve_length(c, b->y, y));
            good = false;
        }
    }
    return good;
}

static bool read_lines(ss_resolve *c, ss_car_type *type) {
    const ss_node *const list = ss_resolve_list(type->node, "lines");
    if (list == NULL) {
        c->broken = true;
        return false;
    }
    bool good = true;
    bool roles = true;
    for (const ss_node *item = list->first; item != NULL; item = item->next) {
        good = read_line(c, item, type) && good;
        roles = roles && ss_read_given(item, "role");
        if (ss_resolve_out_of_memory(c)) {
            return false;
        }
    }
    if (type->line_count == 0) {
        return false;
    }
    qsort(type->lines, (size_t)type->line_count, sizeof type->lines[0], by_place);
    bool carried = false;
    for (int i = 0; i < type->line_count; i++) {
        carried = carried || type->lines[i].role == SS_ROLE_MAIN;
    }
    if (!carried && roles) {
        ss_read_complain(&c->reading, SS_FAULT, type->node, "lines",
                         "no line has the role \"main girder\"; one at least is due in each car");
        good = false;
    }
    return check_places(c, type) && good;
}

/* ---- the type ------------------------------------------------------------------------------------- */

static bool read_wheel_trucks(ss_resolve *c, ss_car_type *type) {
    type->wheel_truck[0] = type->wheel_truck[1] = (double)NAN;
    if (!ss_read_given(type->node, "wheel_trucks")) {
        return true;
    }
    double x[SS_DESCRIPTION_VALUES];
    const int count =
        ss_read_quantities(&c->reading, type->node, "cars[].wheel_trucks", x, SS_DESCRIPTION_VALUES);
    if (count == 0) {
        return false;
    }
    char a[SS_WORDS];
    char b[SS_WORDS];
    if (count != 2 || x[1] <= x[0] + SS_SAME_PLACE) {
        ss_read_complain(&c->reading, SS_FAULT, type->node, "wheel_trucks",
                         "found %s; two are due, the near one first",
                         count == 1   ? "one point"
                         : count == 2 ? "the far point first or both in one place"
                                      : "more than two points");
        return false;
    }
    if (isfinite(type->length) && x[1] > type->length + SS_SAME_PLACE) {
        ss_read_complain(&c->reading, SS_FAULT, type->node, "wheel_trucks",
                         "%s lies outside the car, which is %s long", ss_resolve_length(c, x[1], a),
                         ss_resolve_length(c, type->length, b));
        return false;
    }
    type->wheel_truck[0] = x[0];
    type->wheel_truck[1] = x[1];
    return true;
}

static void resolve_type(ss_resolve *c, const ss_node *item, ss_car_type *type) {
    type->node = item;
    type->name = ss_resolve_text(c, ss_resolve_name(item));
    type->length = type->width = (double)NAN;
    type->sound = ss_resolve_due(c, item, "cars[].length", &type->length);
    type->sound = ss_resolve_due(c, item, "cars[].width", &type->width) && type->sound;
    type->steel = ss_resolve_reference(c, item, "cars[].steel", "steels", "steel");
    type->sound = type->steel >= 0 && type->sound;
    type->weight = ss_resolve_optional(c, item, "cars[].weight");
    if (!isnan(type->weight) && ss_read_given(item, "detail_weight")) {
        ss_read_complain(&c->reading, SS_FAULT, item, "detail_weight",
                         "weight is given as well; the known weight has the details in it");
    }
    type->sound = read_wheel_trucks(c, type) && type->sound;
    type->sound = read_lines(c, type) && type->sound;
    if (!ss_resolve_out_of_memory(c)) {
        ss_resolve_type_beams(c, type);
    }
    if (!type->sound) {
        c->broken = true;
    }
}

void ss_resolve_car_types(ss_resolve *c) {
    const ss_node *const list = ss_resolve_list(c->root, "cars");
    if (list == NULL) {
        c->broken = true;
        return;
    }
    c->types = ss_resolve_scratch(c, (size_t)list->count, sizeof *c->types);
    if (c->types == NULL) {
        return;
    }
    for (const ss_node *item = list->first; item != NULL; item = item->next) {
        resolve_type(c, item, &c->types[c->type_count++]);
        if (ss_resolve_out_of_memory(c)) {
            return;
        }
    }
}
