/* resolve_type_beam.c - floor beams of a car type: stations, sections across, hinges. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/numeric.h"
#include "model/resolve.h"

static int by_station(const void *a, const void *b) {
    const ss_type_beam *const p = a;
    const ss_type_beam *const q = b;
    if (p->x != q->x) {
        return p->x < q->x ? -1 : 1;
    }
    return p->node->where.line - q->node->where.line;
}

static int by_left_end(const void *a, const void *b) {
    const ss_beam_part *const p = a;
    const ss_beam_part *const q = b;
    return (p->y0 > q->y0) - (p->y0 < q->y0);
}

/* ---- parts of the width --------------------------------------------------------------------------- */

static bool read_part(ss_resolve *c, const ss_node *item, double half, ss_beam_part *part) {
    bool good = ss_resolve_due(c, item, "cars[].floor_beams[].across[].from", &part->y0);
    good = ss_resolve_due(c, item, "cars[].floor_beams[].across[].to", &part->y1) && good;
    part->section =
        ss_resolve_reference(c, item, "cars[].floor_beams[].across[].section", "sections", "section");
    if (!good || part->section < 0) {
        return false;
    }
    char a[SS_WORDS];
    char b[SS_WORDS];
    if (part->y1 <= part->y0 + SS_SAME_PLACE) {
        ss_read_complain(&c->reading, SS_FAULT, item, "to",
                         "the part would go from %s to %s; it must have a width",
                         ss_resolve_length(c, part->y0, a), ss_resolve_length(c, part->y1, b));
        return false;
    }
    if (part->y0 < -half - SS_SAME_PLACE || part->y1 > half + SS_SAME_PLACE) {
        ss_read_complain(&c->reading, SS_FAULT, item, part->y0 < -half - SS_SAME_PLACE ? "from" : "to",
                         "lies outside the car, %s to %s from its middle", ss_resolve_length(c, -half, a),
                         ss_resolve_length(c, half, b));
        return false;
    }
    return true;
}

/* Parts with another section, and the beam's own section in between. */
static bool read_parts(ss_resolve *c, const ss_node *item, double half, ss_type_beam *beam) {
    const ss_node *const list = ss_resolve_list(item, "across");
    const int given = list == NULL ? 0 : list->count;
    ss_beam_part *const part = ss_resolve_scratch(c, (size_t)given, sizeof *part);
    ss_beam_part *const all = ss_resolve_scratch(c, 2 * (size_t)given + 1, sizeof *all);
    if (part == NULL || all == NULL) {
        return false;
    }
    int count = 0;
    for (const ss_node *at = given == 0 ? NULL : list->first; at != NULL; at = at->next) {
        if (!read_part(c, at, half, &part[count])) {
            return false;
        }
        count++;
    }
    qsort(part, (size_t)count, sizeof part[0], by_left_end);
    double reached = -half;
    int made = 0;
    for (int i = 0; i < count; i++) {
        if (part[i].y0 < reached - SS_SAME_PLACE) {
            ss_read_complain(&c->reading, SS_FAULT, item, "across",
                             "two parts overlap; each place has one section");
            return false;
        }
        if (part[i].y0 > reached + SS_SAME_PLACE) {
            all[made++] = (ss_beam_part){.y0 = reached, .y1 = part[i].y0, .section = beam->section};
        }
        all[made] = part[i];
        all[made].y0 = made == 0 ? -half : all[made - 1].y1;
        reached = all[made++].y1;
    }
    if (reached < half - SS_SAME_PLACE) {
        all[made++] = (ss_beam_part){.y0 = reached, .y1 = half, .section = beam->section};
    }
    all[made - 1].y1 = half;
    beam->parts = all;
    beam->part_count = made;
    return true;
}

/* ---- hinges --------------------------------------------------------------------------------------- */

static bool read_hinges(ss_resolve *c, const ss_node *item, const ss_car_type *type, ss_type_beam *beam) {
    const ss_node *const list = ss_resolve_list(item, "hinged_at");
    if (list == NULL) {
        return true;
    }
    bool *const picked = ss_resolve_scratch(c, (size_t)type->line_count, sizeof *picked);
    bool *const hinged = ss_resolve_scratch(c, (size_t)type->line_count, sizeof *hinged);
    int *const hinges = ss_resolve_scratch(c, (size_t)type->line_count, sizeof *hinges);
    if (picked == NULL || hinged == NULL || hinges == NULL) {
        return false;
    }
    bool good = true;
    for (const ss_node *word = list->first; word != NULL; word = word->next) {
        if (word->kind != SS_NODE_TEXT) {
            return false;
        }
        if (ss_resolve_type_lines(type, word->text, picked) == 0) {
            int count = 0;
            const char **const words = ss_resolve_type_words(c, type, &count);
            if (words == NULL) {
                return false;
            }
            ss_resolve_unknown(c, item, "hinged_at", "line of the car", word->text, words, count);
            good = false;
        }
        for (int i = 0; i < type->line_count; i++) {
            hinged[i] = hinged[i] || picked[i];
        }
    }
    for (int i = 0; i < type->line_count; i++) {
        if (hinged[i]) {
            hinges[beam->hinge_count++] = i;
        }
    }
    beam->hinges = hinges;
    return good;
}

/* ---- beams ---------------------------------------------------------------------------------------- */

static bool check_station(ss_resolve *c, const ss_node *item, const ss_car_type *type, double x) {
    char at[SS_WORDS];
    char length[SS_WORDS];
    if (x > type->length + SS_SAME_PLACE) {
        ss_read_complain(&c->reading, SS_FAULT, item, "x", "%s lies outside the car, which is %s long",
                         ss_resolve_length(c, x, at), ss_resolve_length(c, type->length, length));
        return false;
    }
    int met = 0;
    for (int i = 0; i < type->line_count; i++) {
        met += type->lines[i].x0 <= x + SS_SAME_PLACE && type->lines[i].x1 >= x - SS_SAME_PLACE;
    }
    if (met >= 2) {
        return true;
    }
    ss_read_complain(&c->reading, SS_FAULT, item, "x", "at %s there %s; a floor beam joins two or more",
                     ss_resolve_length(c, x, at), met == 1 ? "is one line" : "is no line");
    return false;
}

static bool read_beam(ss_resolve *c, const ss_node *item, ss_car_type *type) {
    double x[SS_DESCRIPTION_VALUES];
    ss_type_beam beam = {.node = item, .set = ss_resolve_text(c, ss_resolve_name(item)), .steel = -1};
    beam.section = ss_resolve_reference(c, item, "cars[].floor_beams[].section", "sections", "section");
    bool good = beam.section >= 0;
    if (ss_read_given(item, "steel")) {
        beam.steel = ss_resolve_reference(c, item, "cars[].floor_beams[].steel", "steels", "steel");
        good = beam.steel >= 0 && good;
    }
    if (isfinite(type->width)) {
        good = read_parts(c, item, 0.5 * type->width, &beam) && good;
    }
    good = read_hinges(c, item, type, &beam) && good;
    const int count =
        ss_read_quantities(&c->reading, item, "cars[].floor_beams[].x", x, SS_DESCRIPTION_VALUES);
    beam.members = count;
    for (int i = 0; i < count; i++) {
        if (type->sound) {
            good = check_station(c, item, type, x[i]) && good;
        }
        ss_type_beam *const grown = ss_resolve_grow(c, type->beams, type->beam_count, sizeof *grown);
        if (grown == NULL) {
            return false;
        }
        type->beams = grown;
        beam.x = isfinite(type->length) ? ss_min(x[i], type->length) : x[i];
        grown[type->beam_count++] = beam;
    }
    return good && count > 0;
}

void ss_resolve_type_beams(ss_resolve *c, ss_car_type *type) {
    const ss_node *const list = ss_resolve_list(type->node, "floor_beams");
    bool good = true;
    for (const ss_node *item = list == NULL ? NULL : list->first; item != NULL; item = item->next) {
        good = read_beam(c, item, type) && good;
        if (ss_resolve_out_of_memory(c)) {
            return;
        }
    }
    if (type->beam_count > 0) {
        qsort(type->beams, (size_t)type->beam_count, sizeof type->beams[0], by_station);
    }
    for (int i = 1; i < type->beam_count; i++) {
        const ss_type_beam *const a = &type->beams[i - 1];
        const ss_type_beam *const b = &type->beams[i];
        if (b->x > a->x + SS_SAME_PLACE) {
            continue;
        }
        char x[SS_WORDS];
        ss_read_complain(&c->reading, SS_FAULT, b->node, "x",
                         "two floor beams stand at %s (the other is of \"%s\"); they need one section",
                         ss_resolve_length(c, b->x, x), a->set);
        good = false;
    }
    type->sound = type->sound && good;
}
