/* resolve_finding_cut.c - members that are missing, whole or over a length, and cracks that pass no bending.
 */
#include <stdlib.h>

#include "base/numeric.h"
#include "model/resolve_finding.h"
#include "model/resolve_line.h"

/* What is left of a line: at most as many stretches as findings on it and one. */
typedef struct stretches {
    ss_length_range *items;
    int count;
} stretches;

/* ---- lines ------------------------------------------------------------------------------------------ */

/* Takes x0 to x1 out. What is left of a stretch on either side stays, unless it is short. */
static void cut_stretch(stretches *s, double x0, double x1) {
    const int count = s->count;
    for (int i = 0; i < count; i++) {
        ss_length_range *const old = &s->items[i];
        const ss_length_range right = {ss_max(old->x0, x1), old->x1};
        if (x0 >= old->x1 || x1 <= old->x0) {
            continue;
        }
        old->x1 = ss_min(old->x1, x0);
        if (right.x1 - right.x0 > SS_FINDING_SHORT) {
            s->items[s->count++] = right;
        }
    }
}

static void drop_short(stretches *s) {
    int kept = 0;
    for (int i = 0; i < s->count; i++) {
        if (s->items[i].x1 - s->items[i].x0 > SS_FINDING_SHORT) {
            s->items[kept++] = s->items[i];
        }
    }
    s->count = kept;
}

static int by_place(const void *a, const void *b) {
    const ss_length_range *const p = a;
    const ss_length_range *const q = b;
    return (p->x0 > q->x0) - (p->x0 < q->x0);
}

static bool left_of_line(ss_resolve *c, int line, stretches *out) {
    const ss_line *const l = &c->bridge->lines[line];
    out->items = ss_resolve_scratch(c, (size_t)c->bridge->finding_count + 2, sizeof *out->items);
    if (out->items == NULL) {
        return false;
    }
    out->items[0] = (ss_length_range){l->x0, l->x1};
    out->count = 1;
    for (int i = 0; i < c->bridge->finding_count; i++) {
        const ss_finding_item *const item = &c->findings[i];
        if (item->sound && item->on == SS_ON_LINE && item->line == line && ss_finding_cuts(item)) {
            cut_stretch(out, item->finding->x0, item->finding->x1);
        }
    }
    drop_short(out);
    qsort(out->items, (size_t)out->count, sizeof *out->items, by_place);
    return true;
}

/* The pieces of `of` within the part's ends. */
static bool clip_pieces(ss_resolve *c, const ss_line *of, ss_line *part) {
    ss_bridge *const bridge = c->bridge;
    part->first_piece = bridge->piece_count;
    part->piece_count = 0;
    for (int i = 0; i < of->piece_count; i++) {
        const ss_line_piece old = bridge->pieces[of->first_piece + i];
        ss_line_piece piece = old;
        piece.x0 = ss_max(old.x0, part->x0);
        piece.x1 = ss_min(old.x1, part->x1);
        if (piece.x1 - piece.x0 <= SS_SAME_PLACE) {
            continue;
        }
        const double slope = (old.depth1 - old.depth0) / (old.x1 - old.x0);
        piece.depth0 = old.depth0 + slope * (piece.x0 - old.x0);
        piece.depth1 = old.depth0 + slope * (piece.x1 - old.x0);
        if (!ss_resolve_add_piece(c, part, piece)) {
            return false;
        }
    }
    return true;
}

static const char *part_name(ss_resolve *c, const char *whole, int part, int parts) {
    if (parts == 1) {
        return whole;
    }
    const char *const name = part == 0 ? ss_arena_printf(&c->bridge->arena, "%s, near part", whole)
                             : part == parts - 1
                                 ? ss_arena_printf(&c->bridge->arena, "%s, far part", whole)
                                 : ss_arena_printf(&c->bridge->arena, "%s, part %d", whole, part + 1);
    if (name == NULL) {
        c->reading.status = SS_ERROR_MEMORY;
    }
    return name;
}

/* All lines again, in their order, into `lines`. map: new number of the first part of each old line, and how
 * many parts. */
static bool lay_again(ss_resolve *c, ss_line *lines, int *first, int *parts) {
    ss_bridge *const bridge = c->bridge;
    int count = 0;
    for (int i = 0; i < bridge->line_count; i++) {
        stretches left;
        if (!left_of_line(c, i, &left)) {
            return false;
        }
        first[i] = count;
        parts[i] = left.count;
        for (int k = 0; k < left.count; k++) {
            ss_line *const line = &lines[count++];
            *line = bridge->lines[i];
            line->x0 = left.items[k].x0;
            line->x1 = left.items[k].x1;
            line->name = part_name(c, line->whole, k, left.count);
            line->cut = line->x0 > bridge->lines[i].x0 || line->x1 < bridge->lines[i].x1;
            if (line->name == NULL || (line->cut && !clip_pieces(c, &bridge->lines[i], line))) {
                return false;
            }
        }
    }
    return true;
}

/* The part of an old line at x, or -1. */
static int part_at(const ss_line *lines, int first, int parts, double x) {
    for (int k = first; k < first + parts; k++) {
        if (x >= lines[k].x0 - SS_SAME_PLACE && x <= lines[k].x1 + SS_SAME_PLACE) {
            return k;
        }
    }
    return -1;
}

static void renumber_cars(ss_bridge *bridge, const int *first, const int *parts) {
    for (int i = 0; i < bridge->car_count; i++) {
        ss_car *const car = &bridge->cars[i];
        int count = 0;
        for (int k = car->first_line; k < car->first_line + car->line_count; k++) count += parts[k];
        car->first_line = car->line_count > 0 ? first[car->first_line] : car->first_line;
        car->line_count = count;
    }
}

static void renumber_hinges(ss_bridge *bridge, const ss_line *lines, const int *first, const int *parts) {
    for (int i = 0; i < bridge->floor_beam_count; i++) {
        ss_floor_beam *const beam = &bridge->floor_beams[i];
        int kept = 0;
        for (int k = 0; k < beam->hinge_count; k++) {
            const int old = bridge->hinges[beam->first_hinge + k];
            const int line = part_at(lines, first[old], parts[old], beam->x);
            if (line >= 0) {
                bridge->hinges[beam->first_hinge + kept++] = line;
            }
        }
        beam->hinge_count = kept;
    }
}

static bool cut_lines(ss_resolve *c) {
    ss_bridge *const bridge = c->bridge;
    const size_t old = (size_t)bridge->line_count;
    int *const first = ss_resolve_scratch(c, old, sizeof *first);
    int *const parts = ss_resolve_scratch(c, old, sizeof *parts);
    ss_line *const lines = ss_resolve_alloc(c, old + (size_t)bridge->finding_count + 1, sizeof *lines);
    if (first == NULL || parts == NULL || lines == NULL || !lay_again(c, lines, first, parts)) {
        return false;
    }
    renumber_cars(bridge, first, parts);
    renumber_hinges(bridge, lines, first, parts);
    for (int i = 0; i < bridge->finding_count; i++) {
        ss_finding_item *const item = &c->findings[i];
        if (item->line >= 0) {
            item->line = part_at(lines, first[item->line], parts[item->line], item->finding->x0);
        }
    }
    int count = 0;
    for (size_t i = 0; i < old; i++) count += parts[i];
    bridge->lines = lines;
    bridge->line_count = count;
    return true;
}

static void check_girders(ss_resolve *c) {
    const ss_bridge *const bridge = c->bridge;
    for (int i = 0; i < bridge->car_count; i++) {
        const ss_car *const car = &bridge->cars[i];
        int girders = 0;
        for (int k = 0; k < car->line_count; k++) {
            girders += bridge->lines[car->first_line + k].role == SS_ROLE_MAIN;
        }
        if (girders == 0) {
            ss_read_complain(&c->reading, SS_FAULT, ss_resolve_list(c->root, "findings"), NULL,
                             "nothing is left of any main girder of car \"%s\"", car->name);
        }
    }
}

/* ---- floor beams ------------------------------------------------------------------------------------ */

static bool beam_cut(const ss_resolve *c, int beam) {
    for (int i = 0; i < c->bridge->finding_count; i++) {
        const ss_finding_item *const item = &c->findings[i];
        if (item->sound && item->on == SS_ON_BEAM && item->beam == beam && ss_finding_cuts(item)) {
            return true;
        }
    }
    return false;
}

/* Lines that a floor beam meets. */
static int lines_met(const ss_bridge *bridge, const ss_floor_beam *beam) {
    const ss_car *const car = &bridge->cars[beam->car];
    int met = 0;
    for (int k = 0; k < car->line_count; k++) {
        const ss_line *const line = &bridge->lines[car->first_line + k];
        met += line->x0 <= beam->x + SS_SAME_PLACE && line->x1 >= beam->x - SS_SAME_PLACE;
    }
    return met;
}

/* One that joins fewer than two lines carries nothing and goes as well. */
static void cut_beams(ss_resolve *c) {
    ss_bridge *const bridge = c->bridge;
    int kept = 0;
    for (int i = 0; i < bridge->car_count; i++) {
        ss_car *const car = &bridge->cars[i];
        const int first = car->first_beam, count = car->beam_count;
        car->first_beam = kept;
        car->beam_count = 0;
        for (int k = first; k < first + count; k++) {
            const bool cut = beam_cut(c, k);
            const bool idle = !cut && lines_met(bridge, &bridge->floor_beams[k]) < 2;
            if (idle) {
                ss_read_complain(&c->reading, SS_WARNING, ss_resolve_list(c->root, "findings"), NULL,
                                 "without the missing lines the floor beam \"%s\" of car \"%s\" joins fewer "
                                 "than two; it counts as missing",
                                 bridge->floor_beams[k].name, car->name);
            }
            if (!cut && !idle) {
                bridge->floor_beams[kept++] = bridge->floor_beams[k];
                car->beam_count++;
            }
        }
    }
    bridge->floor_beam_count = kept;
}

/* ---- cracks ----------------------------------------------------------------------------------------- */

static bool hinge_beam(ss_resolve *c, ss_floor_beam *beam, int line) {
    ss_bridge *const bridge = c->bridge;
    const int first = bridge->hinge_count;
    for (int k = 0; k <= beam->hinge_count; k++) {
        int *const grown = ss_resolve_grow(c, bridge->hinges, bridge->hinge_count, sizeof *grown);
        if (grown == NULL) {
            return false;
        }
        bridge->hinges = grown;
        grown[bridge->hinge_count++] = k < beam->hinge_count ? grown[beam->first_hinge + k] : line;
    }
    beam->first_hinge = first;
    beam->hinge_count++;
    return true;
}

/* Cracks of a line are neighbours in the list: those of one line after the other. */
static bool crack_lines(ss_resolve *c) {
    ss_bridge *const bridge = c->bridge;
    bridge->cracks = ss_resolve_alloc(c, (size_t)bridge->finding_count + 1, sizeof *bridge->cracks);
    if (bridge->cracks == NULL) {
        return false;
    }
    for (int l = 0; l < bridge->line_count; l++) {
        bridge->lines[l].first_crack = bridge->crack_count;
        for (int i = 0; i < bridge->finding_count; i++) {
            const ss_finding_item *const item = &c->findings[i];
            if (item->sound && item->hinge && item->on == SS_ON_LINE && item->line == l) {
                bridge->cracks[bridge->crack_count++] = item->finding->x0;
                bridge->lines[l].crack_count++;
            }
        }
    }
    return true;
}

static void say(ss_resolve *c, ss_finding_item *item) {
    if (item->hinge && item->on == SS_ON_LINE) {
        ss_finding_says(c, item,
                        item->line < 0 ? "the line is missing there" : "no bending passes; shear does");
    } else if (item->hinge) {
        ss_finding_says(c, item, "its end at %s passes no bending",
                        item->line < 0 ? "a missing line" : c->bridge->lines[item->line].name);
    } else if (ss_finding_cuts(item)) {
        ss_finding_says(c, item, "carries nothing and weighs nothing there");
    }
}

void ss_finding_cut_members(ss_resolve *c) {
    ss_bridge *const bridge = c->bridge;
    bool cuts = false;
    for (int i = 0; i < bridge->finding_count; i++) {
        const ss_finding_item *const item = &c->findings[i];
        cuts = cuts || (item->sound && ss_finding_cuts(item));
    }
    /* Hinges of floor beams first: they know their beam by its number. */
    if (cuts && !cut_lines(c)) {
        return;
    }
    for (int i = 0; i < bridge->finding_count; i++) {
        const ss_finding_item *const item = &c->findings[i];
        if (item->sound && item->hinge && item->on == SS_ON_BEAM && item->line >= 0 &&
            !hinge_beam(c, &bridge->floor_beams[item->beam], item->line)) {
            return;
        }
    }
    if (cuts) {
        cut_beams(c);
        check_girders(c);
    }
    if (!crack_lines(c)) {
        return;
    }
    for (int i = 0; i < bridge->finding_count; i++) {
        if (c->findings[i].sound) {
            say(c, &c->findings[i]);
        }
    }
}
