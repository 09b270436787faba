/* resolve_finding_support.c - findings about joints, bearings and the deck. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "model/resolve_finding.h"

static bool fault_left(const ss_resolve *c, int before) {
    return c->reading.diags->faults > before;
}

static const char *named(ss_resolve *c, const ss_node *node, const char *table_path) {
    const char *word = NULL;
    return ss_read_text(&c->reading, node, table_path, &word) ? word : NULL;
}

static void set_where(ss_resolve *c, ss_finding_item *item, const char *text) {
    item->finding->where = text;
    if (text == NULL) {
        c->reading.status = SS_ERROR_MEMORY;
    }
}

/* ---- joints ----------------------------------------------------------------------------------------- */

static ss_joint *find_joint(ss_resolve *c, const ss_finding_item *item) {
    ss_bridge *const b = c->bridge;
    const char *const word = named(c, item->node, "findings[].joint");
    const char **const words = ss_resolve_scratch(c, (size_t)b->joint_count, sizeof *words);
    if (word == NULL || words == NULL) {
        return NULL;
    }
    for (int i = 0; i < b->joint_count; i++) {
        words[i] = b->joints[i].name;
        if (strcmp(words[i], word) == 0) {
            return &b->joints[i];
        }
    }
    ss_resolve_unknown(c, item->node, "joint", "joint", word, words, b->joint_count);
    return NULL;
}

/* Connectors outside the stretch, behind all others. */
static bool keep_connectors(ss_resolve *c, ss_joint *joint, const ss_finding *f) {
    ss_bridge *const b = c->bridge;
    const int first = b->connector_count;
    for (int i = 0; i < joint->connector_count; i++) {
        const double x = b->connectors[joint->first_connector + i];
        if (x >= f->x0 - SS_SAME_PLACE && x <= f->x1 + SS_SAME_PLACE) {
            continue;
        }
        double *const grown = ss_resolve_grow(c, b->connectors, b->connector_count, sizeof *grown);
        if (grown == NULL) {
            return false;
        }
        b->connectors = grown;
        grown[b->connector_count++] = x;
    }
    joint->first_connector = first;
    joint->connector_count = b->connector_count - first;
    if (joint->connector_count == 0) {
        joint->kind = SS_JOINT_NONE;
    }
    return true;
}

/* The joint's loose stretches, behind all others. */
static bool loosen(ss_resolve *c, ss_joint *joint, const ss_finding *f) {
    ss_bridge *const b = c->bridge;
    const int first = b->loose_count;
    for (int i = 0; i <= joint->loose_count; i++) {
        ss_length_range *const grown = ss_resolve_grow(c, b->loose, b->loose_count, sizeof *grown);
        if (grown == NULL) {
            return false;
        }
        b->loose = grown;
        grown[b->loose_count++] =
            i < joint->loose_count ? grown[joint->first_loose + i] : (ss_length_range){f->x0, f->x1};
    }
    joint->first_loose = first;
    joint->loose_count++;
    if (f->x0 <= joint->x0 + SS_SAME_PLACE && f->x1 >= joint->x1 - SS_SAME_PLACE) {
        joint->kind = SS_JOINT_NONE;
    }
    return true;
}

static void apply_joint(ss_resolve *c, ss_finding_item *item) {
    ss_joint *const joint = find_joint(c, item);
    ss_finding *const f = item->finding;
    char from[SS_WORDS];
    char to[SS_WORDS];
    if (joint == NULL || !c->joints_sound) {
        return;
    }
    const bool discrete = joint->connector_count > 0;
    const double low = discrete ? c->bridge->connectors[joint->first_connector] : joint->x0;
    const double high =
        discrete ? c->bridge->connectors[joint->first_connector + joint->connector_count - 1] : joint->x1;
    f->x0 = low;
    f->x1 = high;
    f->y0 = f->y1 = joint->y;
    (void)ss_read_quantity(&c->reading, item->node, "findings[].from", &f->x0);
    (void)ss_read_quantity(&c->reading, item->node, "findings[].to", &f->x1);
    ss_resolve_forbid(c, item->node, "x", "a joint has from and to");
    if (!(f->x1 > f->x0 + (discrete ? -SS_SAME_PLACE : SS_FINDING_SHORT)) || f->x0 > high || f->x1 < low) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, ss_read_given(item->node, "to") ? "to" : "from",
                         "it has no length within the joint, %s to %s", ss_resolve_length(c, low, from),
                         ss_resolve_length(c, high, to));
        return;
    }
    f->x0 = ss_max(f->x0, low);
    f->x1 = ss_min(f->x1, high);
    if (joint->kind != SS_JOINT_NONE && !(discrete ? keep_connectors(c, joint, f) : loosen(c, joint, f))) {
        return;
    }
    set_where(c, item,
              ss_arena_printf(&c->bridge->arena, "joint %s, %s to %s", joint->name,
                              ss_resolve_length(c, f->x0, from), ss_resolve_length(c, f->x1, to)));
    ss_finding_says(c, item, "ties nothing there");
}

/* ---- bearings --------------------------------------------------------------------------------------- */

/* What picks points of a set. */
typedef struct picked {
    const char *set, *line;
    int car;
    double x; /* NaN: any */
} picked;

static bool is_picked(const ss_bridge *b, const picked *p, const ss_bearing *bearing) {
    const ss_line *const line = &b->lines[bearing->line];
    return strcmp(bearing->name, p->set) == 0 && (p->car < 0 || bearing->car == p->car) &&
           (p->line == NULL || strcmp(p->line, line->whole) == 0 || strcmp(p->line, line->set) == 0) &&
           (isnan(p->x) || fabs(bearing->x - p->x) < 100.0 * SS_FINDING_SHORT);
}

static bool read_picked(ss_resolve *c, const ss_finding_item *item, picked *out) {
    const ss_node *const list = ss_resolve_list(c->node, "bearings");
    const int count = list == NULL ? 0 : list->count;
    const char **const words = ss_resolve_scratch(c, (size_t)count, sizeof *words);
    bool known = false;
    int i = 0;
    out->set = named(c, item->node, "findings[].bearing");
    if (out->set == NULL || words == NULL) {
        return false;
    }
    for (const ss_node *node = list == NULL ? NULL : list->first; node != NULL; node = node->next) {
        words[i] = ss_resolve_name(node);
        known = known || strcmp(words[i++], out->set) == 0;
    }
    if (!known) {
        ss_resolve_unknown(c, item->node, "bearing", "set of bearings", out->set, words, count);
        return false;
    }
    out->line = named(c, item->node, "findings[].line");
    out->car =
        ss_read_given(item->node, "car") ? ss_resolve_car_reference(c, item->node, "findings[].car") : -1;
    out->x = ss_resolve_optional(c, item->node, "findings[].x");
    ss_resolve_forbid(c, item->node, "from|to", "a bearing point has x");
    return !ss_read_given(item->node, "car") || out->car >= 0;
}

/* What replaces what is described, in the words of the finding. */
static bool read_new(ss_resolve *c, ss_finding_item *item, double *value) {
    char words[SS_WORDS];
    switch (item->finding->kind) {
    case SS_FOUND_GAP:
        if (!ss_resolve_need(c, item->node, "findings[].gap", "the daylight over the bearing is due",
                             value)) {
            return false;
        }
        ss_finding_says(c, item, "daylight of %s under the present dead load",
                        ss_resolve_quantity(c, *value, SS_DIM_SMALL_LENGTH, words));
        return true;
    case SS_FOUND_SETTLED:
        if (!ss_resolve_need(c, item->node, "findings[].settlement", "how far it has sunk is due", value)) {
            return false;
        }
        ss_finding_says(c, item, "sunk by %s besides what is described",
                        ss_resolve_quantity(c, *value, SS_DIM_SMALL_LENGTH, words));
        return true;
    case SS_FOUND_SOFT:
        if (!ss_resolve_need(c, item->node, "findings[].spring",
                             "the stiffness of one point on dirt is due; try a low and a high one", value)) {
            return false;
        }
        ss_finding_says(c, item, "a spring of %s a point",
                        ss_resolve_quantity(c, *value, SS_DIM_SPRING, words));
        return true;
    default: ss_finding_says(c, item, "carries nothing"); return true;
    }
}

static bool apply_point(ss_resolve *c, const ss_finding_item *item, double value, ss_bearing *bearing) {
    switch (item->finding->kind) {
    case SS_FOUND_GAP:
        if (!bearing->contact) {
            ss_read_complain(
                &c->reading, SS_FAULT, item->node, "gap",
                "\"%s\" holds the car both ways and has no daylight; action = \"contact\" has a gap",
                bearing->name);
            return false;
        }
        bearing->after = false;
        bearing->gap = value;
        return true;
    case SS_FOUND_SETTLED: bearing->settlement += value; return true;
    case SS_FOUND_SOFT: bearing->spring = value; return true;
    default: return true;
    }
}

static void apply_bearing(ss_resolve *c, ss_finding_item *item) {
    ss_bridge *const b = c->bridge;
    picked p;
    double value = 0.0;
    int kept = 0, met = 0;
    const int faults = c->reading.diags->faults;
    if (!read_picked(c, item, &p) || !read_new(c, item, &value) || !c->bearings_sound ||
        fault_left(c, faults)) {
        return;
    }
    for (int i = 0; i < b->bearing_count; i++) {
        const bool one = is_picked(b, &p, &b->bearings[i]);
        if (one && met++ == 0) {
            item->finding->x0 = item->finding->x1 = b->bearings[i].x;
            item->finding->y0 = item->finding->y1 = b->lines[b->bearings[i].line].y;
        }
        if (one && !apply_point(c, item, value, &b->bearings[i])) {
            return;
        }
        if (one) {
            item->finding->x1 = ss_max(item->finding->x1, b->bearings[i].x);
            item->finding->x0 = ss_min(item->finding->x0, b->bearings[i].x);
            item->finding->y1 = ss_max(item->finding->y1, b->lines[b->bearings[i].line].y);
            item->finding->y0 = ss_min(item->finding->y0, b->lines[b->bearings[i].line].y);
        }
        if (!one || item->finding->kind != SS_FOUND_MISSING) {
            b->bearings[kept++] = b->bearings[i];
        }
    }
    b->bearing_count = kept;
    if (met == 0) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, "bearing",
                         "no point of \"%s\" is where car, line and x say", p.set);
        return;
    }
    char at[SS_WORDS];
    set_where(c, item,
              met == 1 ? ss_arena_printf(&b->arena, "bearing %s, one point at %s", p.set,
                                         ss_resolve_length(c, item->finding->x0, at))
                       : ss_arena_printf(&b->arena, "bearing %s, %d points", p.set, met));
}

void ss_resolve_support_findings(ss_resolve *c) {
    for (int i = 0; c->findings != NULL && i < c->bridge->finding_count; i++) {
        ss_finding_item *const item = &c->findings[i];
        if (item->sound && item->on == SS_ON_JOINT) {
            apply_joint(c, item);
        } else if (item->sound && item->on == SS_ON_BEARING) {
            apply_bearing(c, item);
        }
        if (ss_resolve_out_of_memory(c)) {
            return;
        }
    }
}

/* ---- deck ------------------------------------------------------------------------------------------- */

static bool read_width(ss_resolve *c, const ss_finding_item *item, double *y0, double *y1) {
    const ss_bridge *const b = c->bridge;
    const double width = b->cars[b->car_count - 1].y_right;
    *y0 = b->roadway_left;
    *y1 = b->roadway_right;
    (void)ss_read_quantity(&c->reading, item->node, "findings[].y", y0);
    (void)ss_read_quantity(&c->reading, item->node, "findings[].y_to", y1);
    if (*y1 - *y0 >= SS_FINDING_SHORT && *y0 >= -SS_SAME_PLACE && *y1 <= width + SS_SAME_PLACE) {
        return true;
    }
    char a[SS_WORDS];
    char e[SS_WORDS];
    char wide[SS_WORDS];
    ss_read_complain(&c->reading, SS_FAULT, item->node, ss_read_given(item->node, "y_to") ? "y_to" : "y",
                     "%s to %s is no width on the cars, which are %s wide together",
                     ss_resolve_length(c, *y0, a), ss_resolve_length(c, *y1, e),
                     ss_resolve_length(c, width, wide));
    return false;
}

static void apply_gravel(ss_resolve *c, ss_finding_item *item, double y0, double y1) {
    double thickness = 0.0;
    double density = 0.0;
    char words[SS_WORDS];
    if (!ss_resolve_need(c, item->node, "findings[].thickness", "the thickness of the extra gravel is due",
                         &thickness) ||
        !ss_read_quantity(&c->reading, item->node, "findings[].density", &density)) {
        return;
    }
    ss_finding_says(c, item, "%s more, as wearing surface",
                    ss_resolve_quantity(c, thickness * density, SS_DIM_AREA_LOAD, words));
    (void)ss_resolve_add_dead_load(c, (ss_dead_load){.name = item->finding->name,
                                                     .component = SS_COMPONENT_DW,
                                                     .area = true,
                                                     .w = thickness * density,
                                                     .x0 = item->finding->x0,
                                                     .x1 = item->finding->x1,
                                                     .y0 = y0,
                                                     .y1 = y1,
                                                     .when = c->old_surfacing});
}

void ss_resolve_deck_findings(ss_resolve *c) {
    for (int i = 0; c->findings != NULL && i < c->bridge->finding_count; i++) {
        ss_finding_item *const item = &c->findings[i];
        double y0 = 0.0;
        double y1 = 0.0;
        if (!item->sound || item->on != SS_ON_DECK || !c->placed || c->bridge->car_count == 0 ||
            !read_width(c, item, &y0, &y1)) {
            continue;
        }
        item->finding->y0 = y0;
        item->finding->y1 = y1;
        if (item->finding->kind == SS_FOUND_GRAVEL) {
            apply_gravel(c, item, y0, y1);
        } else if (c->bridge->slab.given) {
            ss_finding_says(c, item, "the slab goes over it; until then the deck weighs as described");
        } else {
            ss_finding_says(c, item,
                            "wheels are tried there all the same, carried by the members on either side; "
                            "the deck weighs as described");
        }
    }
}
