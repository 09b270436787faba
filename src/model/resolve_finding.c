/* resolve_finding.c - what the inspector saw: which member, where, and which keys each kind of finding takes.
 */
#include "model/resolve_finding.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/numeric.h"

#define BIT(on) (1U << SS_ON_##on)

/* In the order of the choices of findings[].seen. */
static const struct rule {
    unsigned on;
    const char *members; /* for the message */
    const char *keys;    /* values that belong to it, each between bars */
} rules[] = {
    [SS_FOUND_THINNED] = {BIT(LINE) | BIT(BEAM), "line or floor_beam", "|part|thickness_left|loss|"},
    [SS_FOUND_SECTION_LOSS] = {BIT(LINE) | BIT(BEAM), "line or floor_beam", "|loss|"},
    [SS_FOUND_PLATE_LOOSE] = {BIT(LINE) | BIT(BEAM), "line or floor_beam", "|part|"},
    [SS_FOUND_WELD_OPEN] = {BIT(LINE), "line", "|"},
    [SS_FOUND_BENT] = {BIT(LINE) | BIT(BEAM), "line or floor_beam", "|strength_left|stiffness_left|"},
    [SS_FOUND_CRACKED] = {BIT(LINE) | BIT(BEAM) | BIT(JOINT), "line, floor_beam or joint", "|consequence|"},
    [SS_FOUND_MISSING] = {BIT(LINE) | BIT(BEAM) | BIT(JOINT) | BIT(BEARING),
                          "line, floor_beam, joint or bearing", "|"},
    [SS_FOUND_LOOSE] = {BIT(JOINT), "joint", "|"},
    [SS_FOUND_GAP] = {BIT(BEARING), "bearing", "|gap|"},
    [SS_FOUND_SETTLED] = {BIT(BEARING), "bearing", "|settlement|"},
    [SS_FOUND_SOFT] = {BIT(BEARING), "bearing", "|spring|"},
    [SS_FOUND_HOLE] = {BIT(DECK), "no member, but from, to, y and y_to", "|"},
    [SS_FOUND_GRAVEL] = {BIT(DECK), "no member, but from, to, y and y_to", "|thickness|density|"},
};

void ss_finding_says(ss_resolve *c, ss_finding_item *item, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    item->finding->effect = ss_arena_vprintf(&c->bridge->arena, format, arguments);
    va_end(arguments);
    if (item->finding->effect == NULL) {
        c->reading.status = SS_ERROR_MEMORY;
    }
}

bool ss_finding_cuts(const ss_finding_item *item) {
    const bool member = item->on == SS_ON_LINE || item->on == SS_ON_BEAM;
    return member && (item->finding->kind == SS_FOUND_MISSING ||
                      (item->finding->kind == SS_FOUND_CRACKED && !item->hinge));
}

/* ---- which member ----------------------------------------------------------------------------------- */

/* A line beside a floor beam or a bearing only tells which part of it is meant. */
static bool find_member(ss_resolve *c, ss_finding_item *item, const char *seen) {
    const ss_node *const node = item->node;
    const bool line = ss_read_given(node, "line");
    const bool beam = ss_read_given(node, "floor_beam");
    const bool joint = ss_read_given(node, "joint");
    const bool bearing = ss_read_given(node, "bearing");
    const struct rule *const rule = &rules[item->finding->kind];
    if (beam + joint + bearing > 1 || (line && joint)) {
        ss_read_complain(&c->reading, SS_FAULT, node, NULL,
                         "more than one member is named; a finding is about one");
        return false;
    }
    item->on = beam      ? SS_ON_BEAM
               : joint   ? SS_ON_JOINT
               : bearing ? SS_ON_BEARING
               : line    ? SS_ON_LINE
                         : SS_ON_DECK;
    if ((rule->on >> item->on & 1U) == 0) {
        ss_read_complain(&c->reading, SS_FAULT, node, "seen", "\"%s\" needs %s", seen, rule->members);
        return false;
    }
    return true;
}

static bool find_car(ss_resolve *c, ss_finding_item *item) {
    if (item->on != SS_ON_LINE && item->on != SS_ON_BEAM) {
        return true;
    }
    if (!ss_read_given(item->node, "car")) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, "car",
                         "not given; a line or floor beam needs the car that it belongs to");
        return false;
    }
    item->car = ss_resolve_car_reference(c, item->node, "findings[].car");
    if (item->car < 0 || !c->laid) {
        return false;
    }
    if (item->on == SS_ON_BEAM) {
        item->beam = ss_resolve_beam_of_car(c, item->node, "findings[].floor_beam", item->car);
    }
    if (ss_read_given(item->node, "line")) {
        item->line = ss_resolve_line_of_car(c, item->node, "findings[].line", item->car);
    }
    return item->on == SS_ON_BEAM ? item->beam >= 0 : item->line >= 0;
}

/* ---- where ------------------------------------------------------------------------------------------ */

static bool read_stretch(ss_resolve *c, ss_finding_item *item, double low, double high) {
    ss_finding *const f = item->finding;
    char a[SS_WORDS];
    char b[SS_WORDS];
    f->x0 = low;
    f->x1 = high;
    item->ranged = ss_read_given(item->node, "from") || ss_read_given(item->node, "to");
    (void)ss_read_quantity(&c->reading, item->node, "findings[].from", &f->x0);
    (void)ss_read_quantity(&c->reading, item->node, "findings[].to", &f->x1);
    if (f->x0 < low - SS_SAME_PLACE || f->x1 > high + SS_SAME_PLACE) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, f->x0 < low - SS_SAME_PLACE ? "from" : "to",
                         "it lies outside the member, %s to %s", ss_resolve_length(c, low, a),
                         ss_resolve_length(c, high, b));
        return false;
    }
    if (f->x1 - f->x0 < SS_FINDING_SHORT) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, ss_read_given(item->node, "to") ? "to" : "from",
                         "it would go from %s to %s; it must have a length", ss_resolve_length(c, f->x0, a),
                         ss_resolve_length(c, f->x1, b));
        return false;
    }
    return true;
}

/* Where a line passes no bending: within it. */
static bool read_place(ss_resolve *c, ss_finding_item *item, const ss_line *line) {
    char a[SS_WORDS];
    char b[SS_WORDS];
    if (!ss_resolve_need(c, item->node, "findings[].x", "a hinge needs its station", &item->finding->x0)) {
        return false;
    }
    item->finding->x1 = item->finding->x0;
    if (item->finding->x0 > line->x0 + SS_FINDING_SHORT && item->finding->x0 < line->x1 - SS_FINDING_SHORT) {
        return true;
    }
    ss_read_complain(&c->reading, SS_FAULT, item->node, "x", "a hinge lies within the line, %s to %s",
                     ss_resolve_length(c, line->x0, a), ss_resolve_length(c, line->x1, b));
    return false;
}

static bool read_consequence(ss_resolve *c, ss_finding_item *item) {
    if (item->finding->kind != SS_FOUND_CRACKED || item->on == SS_ON_JOINT) {
        return true;
    }
    if (!ss_read_given(item->node, "consequence")) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, "consequence",
                         "not given; what the crack comes to is due: \"hinge\" or \"member out\"");
        return false;
    }
    item->hinge = ss_read_choice(&c->reading, item->node, "findings[].consequence", NULL) == 0;
    if (item->hinge && item->on == SS_ON_BEAM && item->line < 0) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, "line",
                         "not given; a floor beam needs the line at which its end passes no bending");
        return false;
    }
    return true;
}

/* Between the outermost lines of a car that exist at x. */
static void reach_across(const ss_bridge *b, int car, double x, ss_finding *f) {
    f->y0 = b->cars[car].y_right;
    f->y1 = b->cars[car].y_left;
    for (int i = 0; i < b->cars[car].line_count; i++) {
        const ss_line *const line = &b->lines[b->cars[car].first_line + i];
        if (x >= line->x0 - SS_SAME_PLACE && x <= line->x1 + SS_SAME_PLACE) {
            f->y0 = ss_min(f->y0, line->y);
            f->y1 = ss_max(f->y1, line->y);
        }
    }
}

static bool find_place(ss_resolve *c, ss_finding_item *item) {
    const ss_bridge *const b = c->bridge;
    ss_finding *const f = item->finding;
    switch (item->on) {
    case SS_ON_LINE:
        f->y0 = f->y1 = b->lines[item->line].y;
        if (item->hinge) {
            ss_resolve_forbid(c, item->node, "from|to", "a hinge has one place, x");
            return read_place(c, item, &b->lines[item->line]);
        }
        ss_resolve_forbid(c, item->node, "x", "a stretch has from and to");
        return read_stretch(c, item, b->lines[item->line].x0, b->lines[item->line].x1);
    case SS_ON_BEAM:
        ss_resolve_forbid(c, item->node, "from|to|x", "a floor beam counts with its whole width");
        f->x0 = f->x1 = b->floor_beams[item->beam].x;
        reach_across(b, item->car, f->x0, f);
        return true;
    case SS_ON_DECK: return read_stretch(c, item, b->x0, b->x1);
    case SS_ON_JOINT:
    case SS_ON_BEARING: return true; /* once they are resolved */
    }
    return true;
}

/* "main girder of car north, 24 ft to 29 ft" */
static void say_where(ss_resolve *c, ss_finding_item *item) {
    const ss_bridge *const b = c->bridge;
    ss_finding *const f = item->finding;
    f->car = item->car;
    f->member = item->on == SS_ON_BEAM   ? b->floor_beams[item->beam].name
                : item->on == SS_ON_LINE ? b->lines[item->line].whole
                                         : NULL;
    char from[SS_WORDS];
    char to[SS_WORDS];
    (void)ss_resolve_length(c, f->x0, from);
    (void)ss_resolve_length(c, f->x1, to);
    const char *text = NULL;
    if (item->on == SS_ON_BEAM) {
        text = ss_arena_printf(&c->bridge->arena, "%s of car %s, at %s", b->floor_beams[item->beam].name,
                               b->cars[item->car].name, from);
    } else if (item->on == SS_ON_LINE && item->hinge) {
        text = ss_arena_printf(&c->bridge->arena, "%s of car %s, at %s", b->lines[item->line].name,
                               b->cars[item->car].name, from);
    } else if (item->on == SS_ON_LINE) {
        text = ss_arena_printf(&c->bridge->arena, "%s of car %s, %s to %s", b->lines[item->line].name,
                               b->cars[item->car].name, from, to);
    } else {
        text = ss_arena_printf(&c->bridge->arena, "deck, %s to %s", from, to);
    }
    if (text == NULL) {
        c->reading.status = SS_ERROR_MEMORY;
    }
    f->where = text;
}

/* ---- all of them ------------------------------------------------------------------------------------ */

static void forbid_values(ss_resolve *c, const ss_finding_item *item, const char *seen) {
    static const char *const keys[] = {"part",           "thickness_left", "loss",   "strength_left",
                                       "stiffness_left", "consequence",    "gap",    "settlement",
                                       "spring",         "thickness",      "density"};
    const struct rule *const rule = &rules[item->finding->kind];
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        char key[40];
        snprintf(key, sizeof key, "|%s|", keys[i]);
        if (ss_read_given(item->node, keys[i]) && strstr(rule->keys, key) == NULL) {
            ss_read_complain(&c->reading, SS_FAULT, item->node, keys[i], "does not belong to seen = \"%s\"",
                             seen);
        }
    }
    if (item->on != SS_ON_DECK) {
        ss_resolve_forbid(c, item->node, "y|y_to", "belongs to a hole or to gravel");
    }
}

static void read_item(ss_resolve *c, ss_finding_item *item) {
    ss_finding *const f = item->finding;
    f->name = ss_resolve_text(c, ss_resolve_name(item->node));
    if (ss_read_text(&c->reading, item->node, "findings[].note", &f->note)) {
        f->note = ss_resolve_text(c, f->note);
    }
    item->line = item->beam = item->car = -1;
    const int kind = ss_read_choice(&c->reading, item->node, "findings[].seen", NULL);
    if (kind < 0) {
        c->broken = true;
        return;
    }
    f->kind = (ss_finding_kind)kind;
    f->effect = f->where = "";
    const char *const seen = ss_node_child(item->node, "seen")->text;
    if (!find_member(c, item, seen)) {
        return;
    }
    forbid_values(c, item, seen);
    item->sound = find_car(c, item) && read_consequence(c, item) && find_place(c, item);
    if (item->sound && item->on != SS_ON_JOINT && item->on != SS_ON_BEARING) {
        say_where(c, item);
    }
}

/* Those that no one has put aside. */
static int in_use(ss_resolve *c, const ss_node *list, ss_finding_item *items) {
    int count = 0;
    for (const ss_node *node = list->first; node != NULL; node = node->next) {
        bool use = true;
        /* The default needs no telling. */
        if (ss_read_given(node, "in_use")) {
            (void)ss_read_flag(&c->reading, node, "findings[].in_use", &use);
        }
        if (use) {
            items[count++].node = node;
        }
    }
    return count;
}

void ss_resolve_findings(ss_resolve *c) {
    ss_bridge *const bridge = c->bridge;
    const ss_node *const list = ss_resolve_list(c->root, "findings");
    if (list == NULL) {
        return;
    }
    c->findings = ss_resolve_scratch(c, (size_t)list->count, sizeof *c->findings);
    bridge->findings = ss_resolve_alloc(c, (size_t)list->count, sizeof *bridge->findings);
    if (c->findings == NULL || bridge->findings == NULL) {
        return;
    }
    bridge->finding_count = in_use(c, list, c->findings);
    for (int i = 0; i < bridge->finding_count && !ss_resolve_out_of_memory(c); i++) {
        c->findings[i].finding = &bridge->findings[i];
        read_item(c, &c->findings[i]);
    }
    for (int i = 0; i < bridge->finding_count && !ss_resolve_out_of_memory(c); i++) {
        ss_finding_item *const item = &c->findings[i];
        const bool member = item->on == SS_ON_LINE || item->on == SS_ON_BEAM;
        if (item->sound && member && !item->hinge && !ss_finding_cuts(item)) {
            ss_finding_change_sections(c, item);
        }
    }
    if (!ss_resolve_out_of_memory(c) && c->laid) {
        ss_finding_cut_members(c);
    }
}
