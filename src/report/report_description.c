/* report_description.c - cars, steels and the section properties of every member, for checking against the
 * tape. */
#include "report/report_parts.h"

#include <math.h>
#include <string.h>

#include "report/report_words.h"

static const ss_column car_columns[] = {
    {"car", "car", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"type", "kind", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"from", "from x", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"to", "to x", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"left", "left y", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"right", "right y", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"reversed", "turned", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"weight", "weight", SS_DIM_FORCE, 4, SS_FOR_ALL},
    {"weight_factor", "over bare steel", SS_DIM_NUMBER, -3, SS_FOR_ALL},
};

static void add_cars(ss_builder *b) {
    const ss_bridge *bridge = b->results->bridge;
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){
               .key = "described.cars",
               .title = "Cars",
               .note = "x is measured along the bridge from the first abutment, y from the left edge of the "
                       "first car, looking ahead.",
               .audience = SS_FOR_ALL,
               .column_count = SS_COLUMN_COUNT(car_columns),
               .columns = car_columns});
    for (int i = 0; i < bridge->car_count; i++) {
        const ss_car *car = &bridge->cars[i];
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, car->name);
        ss_sheet_text(&sheet, car->type);
        ss_sheet_value(&sheet, car->x0);
        ss_sheet_value(&sheet, car->x1);
        ss_sheet_value(&sheet, car->y_left);
        ss_sheet_value(&sheet, car->y_right);
        ss_sheet_flag(&sheet, car->reversed);
        ss_sheet_value(&sheet, car->weight);
        ss_sheet_value(&sheet, car->weight_factor);
    }
}

static const ss_column steel_columns[] = {
    {"steel", "steel", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"fy", "yield stress", SS_DIM_STRESS, 4, SS_FOR_ALL},
    {"E", "E", SS_DIM_STRESS, 5, SS_FOR_ALL},
    {"G", "G", SS_DIM_STRESS, 5, SS_FOR_ALL},
    {"density", "weighs", SS_DIM_UNIT_WEIGHT, 4, SS_FOR_ALL},
    {"basis", "known from", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

static void add_steels(ss_builder *b) {
    const ss_bridge *bridge = b->results->bridge;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "described.steels",
                                                   .title = "Steels",
                                                   .audience = SS_FOR_ALL,
                                                   .column_count = SS_COLUMN_COUNT(steel_columns),
                                                   .columns = steel_columns});
    for (int i = 0; i < bridge->steel_count; i++) {
        const ss_steel *steel = &bridge->steels[i];
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, steel->name);
        ss_sheet_value(&sheet, steel->fy);
        ss_sheet_value(&sheet, steel->E);
        ss_sheet_value(&sheet, steel->G);
        ss_sheet_value(&sheet, steel->density);
        ss_sheet_text(&sheet, steel->basis);
    }
}

static const ss_column section_columns[] = {
    {"car", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"line", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"floor_beam", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"slab_strip", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"member", "member", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"role", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"section", "section", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"x", "at x", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"y", "", SS_DIM_LENGTH, -2, SS_FOR_PROGRAMS},
    {"part", "between y", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"side", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"depth", "depth", SS_DIM_SMALL_LENGTH, 4, SS_FOR_ALL},
    {"A", "A", SS_DIM_AREA, 4, SS_FOR_ALL},
    {"I", "I", SS_DIM_SECOND_MOMENT, 4, SS_FOR_ALL},
    {"J", "J", SS_DIM_SECOND_MOMENT, 4, SS_FOR_ALL},
    {"S_top", "S top", SS_DIM_SECTION_MODULUS, 4, SS_FOR_ALL},
    {"S_bottom", "S bottom", SS_DIM_SECTION_MODULUS, 4, SS_FOR_ALL},
    {"Z", "", SS_DIM_SECTION_MODULUS, 4, SS_FOR_PROGRAMS},
    {"shear_area", "web area", SS_DIM_AREA, 4, SS_FOR_ALL},
    {"weight", "", SS_DIM_LINE_LOAD, 4, SS_FOR_PROGRAMS},
};

/* A property that is zero because it is not known stays empty. */
static void put_known(ss_sheet *sheet, double value) {
    if (value > 0.0) {
        ss_sheet_value(sheet, value);
    } else {
        ss_sheet_none(sheet);
    }
}

static void put_properties(ss_sheet *sheet, const ss_section_properties *section) {
    put_known(sheet, section->depth);
    ss_sheet_value(sheet, section->A);
    ss_sheet_value(sheet, section->I);
    ss_sheet_value(sheet, section->J);
    put_known(sheet, section->S_top);
    put_known(sheet, section->S_bottom);
    put_known(sheet, section->Z);
    put_known(sheet, section->shear_area);
    ss_sheet_value(sheet, section->weight);
}

static const char *role_key(ss_role role) {
    switch (role) {
    case SS_ROLE_MAIN: return "main";
    case SS_ROLE_EXTERIOR: return "exterior";
    case SS_ROLE_STRINGER: return "stringer";
    }
    return "";
}

static void put_line_row(ss_sheet *sheet, int index, const char *member, int piece, bool before) {
    const ss_bridge *bridge = sheet->builder->results->bridge;
    const ss_line *line = &bridge->lines[index];
    const ss_line_piece *one = &bridge->pieces[line->first_piece + piece];
    const double x = before ? one->x1 : one->x0;
    ss_section_properties properties;
    if (ss_bridge_line_section(bridge, index, x, before, &properties) != SS_OK) {
        return;
    }
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, bridge->cars[line->car].name);
    ss_sheet_text(sheet, line->name);
    ss_sheet_none(sheet);
    ss_sheet_none(sheet);
    ss_sheet_text(sheet, member);
    ss_sheet_text(sheet, role_key(line->role));
    ss_sheet_text(sheet, bridge->sections[one->section].name);
    ss_sheet_value(sheet, x);
    ss_sheet_value(sheet, line->y);
    ss_sheet_none(sheet);
    ss_sheet_text(sheet, before ? "before" : "after");
    put_properties(sheet, &properties);
}

/* The ends of each piece; where a piece begins as the one before it ended, once. A level line has one row. */
static void put_line(ss_sheet *sheet, int index, const char *member) {
    const ss_bridge *bridge = sheet->builder->results->bridge;
    const ss_line *line = &bridge->lines[index];
    const ss_line_piece *last = NULL;
    for (int i = 0; i < line->piece_count; i++) {
        const ss_line_piece *piece = &bridge->pieces[line->first_piece + i];
        if (last == NULL || last->section != piece->section || fabs(last->depth1 - piece->depth0) > 1e-9) {
            put_line_row(sheet, index, member, i, false);
        }
        if (line->piece_count > 1 || fabs(piece->depth1 - piece->depth0) > 1e-9) {
            put_line_row(sheet, index, member, i, true);
        }
        last = piece;
    }
}

static const char *part_words(ss_builder *b, const ss_beam_part *part) {
    return ss_build_text(b, "%s to %s", ss_words_length(b, part->y0), ss_words_length(b, part->y1));
}

static void put_beam(ss_sheet *sheet, int index, const char *member) {
    const ss_bridge *bridge = sheet->builder->results->bridge;
    const ss_floor_beam *beam = &bridge->floor_beams[index];
    for (int i = 0; i < beam->part_count; i++) {
        const ss_beam_part *part = &bridge->parts[beam->first_part + i];
        ss_section_properties properties;
        if (ss_bridge_beam_section(bridge, index, part->y0, false, &properties) != SS_OK) {
            continue;
        }
        ss_sheet_row(sheet);
        ss_sheet_text(sheet, bridge->cars[beam->car].name);
        ss_sheet_none(sheet);
        ss_sheet_text(sheet, beam->strip > 0.0 ? NULL : beam->name);
        ss_sheet_text(sheet, beam->strip > 0.0 ? beam->name : NULL);
        ss_sheet_text(sheet, member);
        ss_sheet_text(sheet, beam->strip > 0.0 ? "slab strip" : "floor beam");
        ss_sheet_text(sheet, bridge->sections[part->section].name);
        if (member != NULL) {
            ss_sheet_none(sheet);
        } else {
            ss_sheet_value(sheet, beam->x);
        }
        ss_sheet_value(sheet, part->y0);
        ss_sheet_text(sheet, beam->part_count > 1 ? part_words(sheet->builder, part) : NULL);
        ss_sheet_text(sheet, "after");
        put_properties(sheet, &properties);
    }
}

static bool same_pieces(const ss_bridge *bridge, const ss_line *a, const ss_line *b) {
    if (a->piece_count != b->piece_count || a->steel != b->steel) {
        return false;
    }
    for (int i = 0; i < a->piece_count; i++) {
        const ss_line_piece *p = &bridge->pieces[a->first_piece + i];
        const ss_line_piece *q = &bridge->pieces[b->first_piece + i];
        if (p->section != q->section || fabs(p->depth0 - q->depth0) > 1e-9 ||
            fabs(p->depth1 - q->depth1) > 1e-9 || fabs(p->x0 - q->x0) > 1e-9 || fabs(p->x1 - q->x1) > 1e-9) {
            return false;
        }
    }
    return true;
}

static bool same_parts(const ss_bridge *bridge, const ss_floor_beam *a, const ss_floor_beam *b) {
    if (a->part_count != b->part_count || a->steel != b->steel) {
        return false;
    }
    for (int i = 0; i < a->part_count; i++) {
        if (bridge->parts[a->first_part + i].section != bridge->parts[b->first_part + i].section) {
            return false;
        }
    }
    return true;
}

static bool alike_lines(const ss_bridge *bridge, int a, int b) {
    const ss_line *p = &bridge->lines[a];
    const ss_line *q = &bridge->lines[b];
    return strcmp(p->set, q->set) == 0 && same_pieces(bridge, p, q);
}

static bool alike_beams(const ss_bridge *bridge, int a, int b) {
    const ss_floor_beam *p = &bridge->floor_beams[a];
    const ss_floor_beam *q = &bridge->floor_beams[b];
    return strcmp(p->set, q->set) == 0 && same_parts(bridge, p, q);
}

/* How many of `count` members are alike with that of `index`: same set and properties, in this car or
 * another. 0 when one before it is, which speaks for them all. */
static int count_alike(const ss_bridge *bridge, int index, int count,
                       bool (*alike)(const ss_bridge *bridge, int a, int b)) {
    for (int i = 0; i < index; i++) {
        if (alike(bridge, i, index)) {
            return 0;
        }
    }
    int found = 1;
    for (int i = index + 1; i < count; i++) {
        found += alike(bridge, index, i);
    }
    return found;
}

static const char *name_alike(ss_builder *b, const char *set, int alike) {
    return ss_build_text(b, alike == 1 ? "%s" : "%s (%d)", set, alike);
}

/* People see each kind of member once; programs see every member. */
static void add_sections(ss_builder *b, bool people) {
    const ss_bridge *bridge = b->results->bridge;
    ss_sheet sheet = ss_build_table(
        b,
        &(ss_table){
            .key = "described.sections",
            .title = "Section properties",
            .note = "Members that are alike are listed once, with how many there are, and with x and y of "
                    "the first of them. A for area, I for bending, J for twisting, S for the outer fibres; "
                    "between two stations the depth runs straight.",
            .audience = people ? SS_FOR_PEOPLE : SS_FOR_PROGRAMS,
            .column_count = SS_COLUMN_COUNT(section_columns),
            .columns = section_columns});
    for (int i = 0; i < bridge->line_count; i++) {
        const int alike = people ? count_alike(bridge, i, bridge->line_count, alike_lines) : 1;
        if (alike > 0) {
            put_line(&sheet, i, people ? name_alike(b, bridge->lines[i].set, alike) : NULL);
        }
    }
    for (int i = 0; i < bridge->floor_beam_count; i++) {
        const int alike = people ? count_alike(bridge, i, bridge->floor_beam_count, alike_beams) : 1;
        /* What a strip is of is told with the concrete deck. */
        if (alike > 0 && !(people && bridge->floor_beams[i].strip > 0.0)) {
            put_beam(&sheet, i, people ? name_alike(b, bridge->floor_beams[i].set, alike) : NULL);
        }
    }
}

void ss_part_description(ss_builder *b) {
    add_cars(b);
    add_steels(b);
    add_sections(b, true);
    add_sections(b, false);
}
