/* report_effects.c - the extremes of every member: each section for programs, the worst of each member for
 * people. */
#include "report/report_parts.h"

#include <math.h>
#include <string.h>

#include "report/report_words.h"

static const ss_column envelope_columns[] = {
    {"car", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"line", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"floor_beam", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"slab_strip", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"x", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"y", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"side", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"effect", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"dead", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"min", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"max", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    SS_POSITION_COLUMNS("at_min"),
    SS_CONCURRENT_COLUMNS("with_min"),
    {"bearings_change_min", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    SS_POSITION_COLUMNS("at_max"),
    SS_CONCURRENT_COLUMNS("with_max"),
    {"bearings_change_max", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static void put_extreme(ss_sheet *sheet, int effect, const ss_range *range, int most) {
    const int traffic = range->traffic[most];
    if (traffic < 0) {
        ss_part_position(sheet, -1, NULL);
        ss_part_concurrent(sheet, NULL);
        ss_sheet_none(sheet);
        return;
    }
    const ss_extreme *extreme = ss_range_extreme(sheet->builder->results->envelope, effect, traffic, most);
    ss_part_position(sheet, traffic, &extreme->position);
    ss_part_concurrent(sheet, &extreme->with);
    ss_sheet_flag(sheet, extreme->lifted);
}

static void put_envelope_row(ss_sheet *sheet, int index, const ss_range *range) {
    const ss_bridge *bridge = sheet->builder->results->bridge;
    const ss_effect *effect = &sheet->builder->results->envelope->effects[index];
    const bool beam = effect->member == SS_MEMBER_BEAM;
    const ss_dimension dimension = ss_words_dimension(bridge, effect);
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, bridge->cars[ss_words_car(bridge, effect->member, effect->index)].name);
    ss_sheet_text(sheet, beam ? NULL : bridge->lines[effect->index].name);
    const bool strip = ss_words_strip(bridge, effect->member, effect->index);
    ss_sheet_text(sheet, beam && !strip ? bridge->floor_beams[effect->index].name : NULL);
    ss_sheet_text(sheet, strip ? bridge->floor_beams[effect->index].name : NULL);
    ss_sheet_value(sheet, ss_words_x(bridge, effect));
    ss_sheet_value(sheet, beam ? effect->at : bridge->lines[effect->index].y);
    ss_sheet_text(sheet, effect->before ? "before" : "after");
    ss_sheet_text(sheet, ss_words_effect_key(effect->kind));
    ss_sheet_quantity(sheet, range->dead, dimension);
    ss_sheet_quantity(sheet, range->value[0], dimension);
    ss_sheet_quantity(sheet, range->value[1], dimension);
    put_extreme(sheet, index, range, 0);
    put_extreme(sheet, index, range, 1);
}

static void add_envelopes(ss_builder *b, const ss_range *ranges) {
    const ss_envelope *envelope = b->results->envelope;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "envelopes",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .column_count = SS_COLUMN_COUNT(envelope_columns),
                                                   .columns = envelope_columns});
    for (int i = 0; i < envelope->effect_count; i++) {
        const ss_member_kind member = envelope->effects[i].member;
        if (member == SS_MEMBER_LINE || member == SS_MEMBER_BEAM) {
            put_envelope_row(&sheet, i, &ranges[i]);
        }
    }
}

/* ---- for people ---------------------------------------------------------------------------------- */

enum { PEOPLE_COLUMNS = 9 };

static const ss_column people_columns[PEOPLE_COLUMNS] = {
    {"car", "car", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"member", "member", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"live", "truck adds", SS_DIM_NUMBER, SS_DIGITS_OF_LARGEST(4), SS_FOR_PEOPLE},
    {"dead", "to dead load", SS_DIM_NUMBER, SS_DIGITS_OF_LARGEST(4), SS_FOR_PEOPLE},
    {"x", "at x", SS_DIM_LENGTH, -1, SS_FOR_PEOPLE},
    {"truck", "truck", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"direction", "going", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"front", "front axle", SS_DIM_LENGTH, -1, SS_FOR_PEOPLE},
    {"middle", "middle y", SS_DIM_LENGTH, -1, SS_FOR_PEOPLE},
};

/* Members of one set in one car, lines or floor beams, which are looked at together. */
typedef struct group {
    ss_member_kind member;
    int car;
    const char *set;
} group;

static group group_of(const ss_bridge *bridge, ss_member_kind member, int index) {
    if (member == SS_MEMBER_LINE) {
        return (group){member, bridge->lines[index].car, bridge->lines[index].set};
    }
    return (group){member, bridge->floor_beams[index].car, bridge->floor_beams[index].set};
}

static bool in_group(const ss_bridge *bridge, const group *wanted, ss_member_kind member, int index) {
    if (member != wanted->member) {
        return false;
    }
    const group own = group_of(bridge, member, index);
    return own.car == wanted->car && strcmp(own.set, wanted->set) == 0;
}

static void put_people_row(ss_sheet *sheet, int index, const ss_range *range, int most) {
    ss_builder *b = sheet->builder;
    const ss_bridge *bridge = b->results->bridge;
    const ss_effect *effect = &b->results->envelope->effects[index];
    const int traffic = range->traffic[most];
    const ss_position *position = &ss_range_extreme(b->results->envelope, index, traffic, most)->position;
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, bridge->cars[ss_words_car(bridge, effect->member, effect->index)].name);
    ss_sheet_text(sheet, effect->member == SS_MEMBER_LINE ? bridge->lines[effect->index].name
                         : ss_words_strip(bridge, effect->member, effect->index)
                             ? "concrete deck"
                             : bridge->floor_beams[effect->index].name);
    ss_sheet_value(sheet, range->value[most]);
    ss_sheet_value(sheet, range->dead);
    ss_sheet_value(sheet, ss_words_x(bridge, effect));
    ss_sheet_text(sheet, ss_words_traffic(b, traffic));
    ss_sheet_text(sheet, ss_words_direction(b, position));
    ss_sheet_value(sheet, position->x);
    ss_sheet_value(sheet, b->results->placements->tracks[position->track].y);
}

/* The section where the worst of the group is, or -1. */
static int worst_of_group(ss_builder *b, const group *wanted, ss_effect_kind kind, int most) {
    const ss_envelope *envelope = b->results->envelope;
    const ss_range *ranges = ss_ranges(b);
    int worst = -1;
    for (int i = 0; ranges != NULL && i < envelope->effect_count; i++) {
        const ss_effect *effect = &envelope->effects[i];
        if (effect->kind != kind || ranges[i].traffic[most] < 0 ||
            !in_group(b->results->bridge, wanted, effect->member, effect->index)) {
            continue;
        }
        if (worst < 0 || fabs(ranges[i].value[most]) > fabs(ranges[worst].value[most]) * (1.0 + 1e-9)) {
            worst = i;
        }
    }
    return worst;
}

/* A table in the making: first the largest that a truck adds is sought, by which all are rounded; then the
 * rows are put, but for those that would read zero. */
typedef struct people {
    ss_sheet *sheet; /* NULL while seeking */
    ss_effect_kind kind;
    ss_dimension dimension;
    double largest; /* size, in the unit it is printed in */
} people;

static bool reads_zero(double value, double largest) {
    return fabs(value) < 0.5 * pow(10.0, floor(log10(fmax(largest, 1e-300))) - 3.0);
}

static void take_row(ss_builder *b, people *p, int index, int most) {
    const ss_range *range = &ss_ranges(b)[index];
    const double live = ss_units_from_si(range->value[most], p->dimension, b->report->units);
    if (p->sheet == NULL) {
        p->largest = fmax(p->largest, fabs(live));
    } else if (!reads_zero(live, p->largest)) {
        put_people_row(p->sheet, index, range, most);
    }
}

/* The rows of the group that this member is the first of. */
static void put_group(ss_builder *b, people *p, ss_member_kind member, int index) {
    const group wanted = group_of(b->results->bridge, member, index);
    for (int i = 0; i < index; i++) {
        if (in_group(b->results->bridge, &wanted, member, i)) {
            return;
        }
    }
    for (int most = 1; most >= 0; most--) {
        const int worst = worst_of_group(b, &wanted, p->kind, most);
        if (worst >= 0) {
            take_row(b, p, worst, most);
        }
    }
}

static void put_groups(ss_builder *b, people *p) {
    const ss_bridge *bridge = b->results->bridge;
    for (int i = 0; i < bridge->line_count; i++) {
        put_group(b, p, SS_MEMBER_LINE, i);
    }
    for (int i = 0; i < bridge->floor_beam_count; i++) {
        put_group(b, p, SS_MEMBER_BEAM, i);
    }
}

static void add_people(ss_builder *b, const char *title, const char *note, ss_effect_kind kind) {
    ss_column *columns = ss_arena_alloc(&b->report->arena, PEOPLE_COLUMNS, sizeof *columns);
    if (columns == NULL) {
        b->failed = true;
        return;
    }
    memcpy(columns, people_columns, sizeof people_columns);
    columns[2].dimension = kind == SS_EFFECT_DEFLECTION                            ? SS_DIM_SMALL_LENGTH
                           : kind == SS_EFFECT_MOMENT || kind == SS_EFFECT_TORSION ? SS_DIM_MOMENT
                                                                                   : SS_DIM_FORCE;
    columns[3].dimension = columns[2].dimension;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "people",
                                                   .title = title,
                                                   .note = note,
                                                   .audience = SS_FOR_PEOPLE,
                                                   .column_count = PEOPLE_COLUMNS,
                                                   .columns = columns});
    people p = {.kind = kind, .dimension = columns[2].dimension};
    put_groups(b, &p);
    p.sheet = &sheet;
    put_groups(b, &p);
}

void ss_part_effects(ss_builder *b) {
    const ss_range *ranges = ss_ranges(b);
    if (ranges == NULL) {
        return;
    }
    add_envelopes(b, ranges);
    ss_part_extreme_loads(b);
    if (b->results->rated != NULL || b->results->envelope->traffic_count == 0) {
        return;
    }
    ss_build_heading(b, SS_FOR_PEOPLE, "Where each member feels a truck most");
    ss_build_sentence(
        b,
        "No dynamic allowance: the most and the least that %s, and the dead load there.%s Of stringers or "
        "floor "
        "beams of one set in a car the worst is named. Every section is in the JSON output.",
        ss_words_analysed(b),
        ss_words_several(b->results) ? " Of trucks abreast the place of the leftmost stands here." : "");
    add_people(b, "Bending", "Positive sags, negative bends upwards.", SS_EFFECT_MOMENT);
    add_people(b, "Shear", NULL, SS_EFFECT_SHEAR);
    add_people(b, "Twisting", NULL, SS_EFFECT_TORSION);
    add_people(b, "Deflection", "Positive is down.", SS_EFFECT_DEFLECTION);
}
