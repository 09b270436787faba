/* report_reactions.c - what bearings carry and where they lift, what joints carry, how cars share a truck. */
#include "report/report_parts.h"

#include <math.h>

#include "report/report_words.h"

static const ss_column reaction_columns[] = {
    {"bearing", "bearing", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"car", "car", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"line", "under", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"x", "at x", SS_DIM_LENGTH, -1, SS_FOR_ALL},
    {"pushes_only", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"dead", "dead load", SS_DIM_FORCE, SS_DIGITS_OF_LARGEST(4), SS_FOR_ALL},
    {"min", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"max", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"least", "least", SS_DIM_FORCE, SS_DIGITS_OF_LARGEST(4), SS_FOR_ALL},
    {"truck_least", "truck", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"most", "most", SS_DIM_FORCE, SS_DIGITS_OF_LARGEST(4), SS_FOR_ALL},
    {"truck_most", "truck", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"remark", "", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"clear_under_dead_load", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"lifts_off", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"pulled", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    SS_POSITION_COLUMNS("at_min"),
    SS_POSITION_COLUMNS("at_max"),
};

static void put_place(ss_sheet *sheet, int effect, const ss_range *range, int most) {
    const int traffic = range->traffic[most];
    ss_part_position(
        sheet, traffic,
        traffic < 0 ? NULL
                    : &ss_range_extreme(sheet->builder->results->envelope, effect, traffic, most)->position);
}

static const char *truck_word(ss_builder *b, const ss_range *range, int most) {
    return range->traffic[most] < 0 ? NULL : ss_words_traffic(b, range->traffic[most]);
}

static void put_reaction(ss_sheet *sheet, int index, const ss_range *range, double noise) {
    ss_builder *b = sheet->builder;
    const ss_bridge *bridge = b->results->bridge;
    const ss_bearing *bearing = &bridge->bearings[b->results->envelope->effects[index].index];
    double least = range->dead + range->value[0];
    least = fabs(least) <= noise ? 0.0 : least;
    const bool clear = bearing->contact && range->dead <= noise;
    const bool lifts = bearing->contact && !clear && least <= noise;
    const bool pulled = !bearing->contact && least < -noise;
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, bearing->name);
    ss_sheet_text(sheet, bridge->cars[bearing->car].name);
    ss_sheet_text(sheet, bridge->lines[bearing->line].name);
    ss_sheet_value(sheet, bearing->x);
    ss_sheet_flag(sheet, bearing->contact);
    ss_sheet_value(sheet, range->dead);
    ss_sheet_value(sheet, range->value[0]);
    ss_sheet_value(sheet, range->value[1]);
    ss_sheet_value(sheet, least);
    ss_sheet_text(sheet, truck_word(b, range, 0));
    ss_sheet_value(sheet, range->dead + range->value[1]);
    ss_sheet_text(sheet, truck_word(b, range, 1));
    ss_sheet_text(sheet, pulled                           ? "PULLED UP"
                         : lifts                          ? "lifts off"
                         : clear && range->traffic[1] < 0 ? "never loaded"
                         : clear                          ? "idle without truck"
                                                          : NULL);
    ss_sheet_flag(sheet, clear);
    ss_sheet_flag(sheet, lifts);
    ss_sheet_flag(sheet, pulled);
    put_place(sheet, index, range, 0);
    put_place(sheet, index, range, 1);
}

static void add_reactions(ss_builder *b, const ss_range *ranges) {
    const ss_envelope *envelope = b->results->envelope;
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){.key = "reactions",
                       .title = "What the bearings carry",
                       .note =
                           b->results->rated != NULL
                               ? "Dead load alone, then dead load and one truck together: least and most. A "
                                 "bearing that "
                                 "only pushes lifts off rather than pull."
                               : ss_build_text(
                                     b,
                                     "Dead load alone, then together with what %s: least and most. A bearing "
                                     "that only pushes lifts off rather than pull.",
                                     ss_words_analysed(b)),
                       .audience = SS_FOR_ALL,
                       .column_count = SS_COLUMN_COUNT(reaction_columns),
                       .columns = reaction_columns});
    double largest = 0.0;
    for (int i = 0; i < envelope->effect_count; i++) {
        if (envelope->effects[i].kind == SS_EFFECT_REACTION) {
            largest = fmax(largest, fabs(ranges[i].dead) + fabs(ranges[i].value[1]));
        }
    }
    for (int i = 0; i < envelope->effect_count; i++) {
        const ss_effect *effect = &envelope->effects[i];
        if (effect->kind == SS_EFFECT_REACTION && ss_ranges_find(envelope, effect) == i) {
            put_reaction(&sheet, i, &ranges[i], 1e-9 * largest);
        }
    }
}

/* ---- joints -------------------------------------------------------------------------------------- */

static const ss_column joint_columns[] = {
    {"joint", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"left", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"right", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"x", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"effect", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"dead", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"min", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"max", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    SS_POSITION_COLUMNS("at_min"),
    SS_POSITION_COLUMNS("at_max"),
};

static void add_joint_rows(ss_builder *b, const ss_range *ranges) {
    const ss_envelope *envelope = b->results->envelope;
    const ss_bridge *bridge = b->results->bridge;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "joints",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .column_count = SS_COLUMN_COUNT(joint_columns),
                                                   .columns = joint_columns});
    for (int i = 0; i < envelope->effect_count; i++) {
        const ss_effect *effect = &envelope->effects[i];
        if (effect->member != SS_MEMBER_JOINT) {
            continue;
        }
        const ss_joint *joint = &bridge->joints[effect->index];
        const ss_dimension dimension = ss_words_dimension(bridge, effect);
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, joint->name);
        ss_sheet_text(&sheet, bridge->cars[joint->left].name);
        ss_sheet_text(&sheet, bridge->cars[joint->left + 1].name);
        ss_sheet_value(&sheet, effect->at);
        ss_sheet_text(&sheet, ss_words_effect_key(effect->kind));
        ss_sheet_quantity(&sheet, ranges[i].dead, dimension);
        ss_sheet_quantity(&sheet, ranges[i].value[0], dimension);
        ss_sheet_quantity(&sheet, ranges[i].value[1], dimension);
        put_place(&sheet, i, &ranges[i], 0);
        put_place(&sheet, i, &ranges[i], 1);
    }
}

static const ss_column joint_people_columns[] = {
    {"joint", "joint", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"effect", "in", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"live", "truck adds", SS_DIM_NUMBER, 4, SS_FOR_PEOPLE},
    {"dead", "to dead load", SS_DIM_NUMBER, 4, SS_FOR_PEOPLE},
    {"x", "at x", SS_DIM_LENGTH, -1, SS_FOR_PEOPLE},
    {"truck", "truck", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
};

/* The place on joint `joint` where an effect is largest, or -1. */
static int worst_joint(const ss_envelope *envelope, const ss_range *ranges, int joint, ss_effect_kind kind,
                       int most) {
    int worst = -1;
    for (int i = 0; i < envelope->effect_count; i++) {
        const ss_effect *effect = &envelope->effects[i];
        if (effect->member != SS_MEMBER_JOINT || effect->index != joint || effect->kind != kind ||
            ranges[i].traffic[most] < 0) {
            continue;
        }
        if (worst < 0 || fabs(ranges[i].value[most]) > fabs(ranges[worst].value[most]) * (1.0 + 1e-9)) {
            worst = i;
        }
    }
    return worst;
}

static void add_joint_people(ss_builder *b, const ss_range *ranges) {
    const ss_envelope *envelope = b->results->envelope;
    const ss_bridge *bridge = b->results->bridge;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "joints_worst",
                                                   .title = "What the joints carry",
                                                   .note = "Shear is positive where the right car hangs on "
                                                           "the left one. Per length, it is what one station "
                                                           "carries over the length it stands for: at the "
                                                           "ends of a stiff joint it peaks, the more so the "
                                                           "closer the stations are.",
                                                   .audience = SS_FOR_PEOPLE,
                                                   .column_count = SS_COLUMN_COUNT(joint_people_columns),
                                                   .columns = joint_people_columns});
    const ss_effect_kind kinds[2] = {SS_EFFECT_SHEAR, SS_EFFECT_MOMENT};
    for (int j = 0; j < bridge->joint_count; j++) {
        for (int k = 0; k < 4; k++) {
            const int most = 1 - k % 2;
            const int i = worst_joint(envelope, ranges, j, kinds[k / 2], most);
            if (i < 0) {
                continue;
            }
            const ss_effect *effect = &envelope->effects[i];
            const ss_dimension dimension = ss_words_dimension(bridge, effect);
            ss_sheet_row(&sheet);
            ss_sheet_text(&sheet, bridge->joints[j].name);
            ss_sheet_text(&sheet, ss_words_failure(effect->kind));
            ss_sheet_quantity(&sheet, ranges[i].value[most], dimension);
            ss_sheet_quantity(&sheet, ranges[i].dead, dimension);
            ss_sheet_value(&sheet, effect->at);
            ss_sheet_text(&sheet, truck_word(b, &ranges[i], most));
        }
    }
}

void ss_part_reactions(ss_builder *b) {
    const ss_range *ranges = ss_ranges(b);
    if (ranges == NULL) {
        return;
    }
    ss_build_heading(b, SS_FOR_PEOPLE, "Bearings and joints");
    add_reactions(b, ranges);
    add_joint_rows(b, ranges);
    if (b->results->envelope->traffic_count > 0) {
        add_joint_people(b, ranges);
    }
}
