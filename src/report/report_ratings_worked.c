/* report_ratings_worked.c - the governing factor of a method line by line, as an engineer checks it by hand.
 */
#include "report/report_ratings.h"

#include <math.h>

#include "report/report_words.h"

#define WORD(key, title)                                                                                     \
    { key, title, SS_DIM_NUMBER, 0, SS_FOR_PEOPLE }
#define NUMBER(key, title)                                                                                   \
    { key, title, SS_DIM_NUMBER, 5, SS_FOR_PEOPLE }

/* Empty cells leave their line out: what a method or a member does not have. */
static const ss_column columns[] = {
    WORD("check", "Check"),
    WORD("edition", "Rules"),
    WORD("rule", "Strength by"),
    NUMBER("nominal", "Strength"),
    NUMBER("left", "times what a bent member has left of it"),
    NUMBER("phi", "times resistance factor"),
    NUMBER("condition", "Condition factor"),
    NUMBER("system", "System factor"),
    NUMBER("condition_system", "times both, not less than 0.85"),
    NUMBER("share", "times what this check allows of it"),
    NUMBER("capacity", "gives what it can carry"),
    NUMBER("dead", "Dead load, factored"),
    WORD("dead_factors", "with"),
    NUMBER("room", "leaves for live load"),
    NUMBER("live", "Live load"),
    WORD("trucks", "which is"),
    NUMBER("lane", "of it, uniform load in the lane"),
    WORD("lane_basis", "which"),
    NUMBER("live_factor", "times load factor"),
    WORD("live_basis", "which is"),
    NUMBER("presence", "times multiple presence"),
    WORD("presence_basis", "which is"),
    NUMBER("allowance", "times dynamic allowance, 1 +"),
    WORD("allowance_basis", "which is"),
    NUMBER("factored", "gives live load, factored"),
    {"rf", "Factor", SS_DIM_NUMBER, -3, SS_FOR_PEOPLE},
    {"rf_linear", "with bearings held", SS_DIM_NUMBER, -3, SS_FOR_PEOPLE},
    {"proved", "proved of all arrangements of these trucks: not below", SS_DIM_NUMBER, -3, SS_FOR_PEOPLE},
    WORD("tips", "because"),
};

/* A number that is not 1, or nothing. */
static void put_unless_one(ss_sheet *sheet, double value) {
    if (fabs(value - 1.0) > 1e-12) {
        ss_sheet_value(sheet, value);
    } else {
        ss_sheet_none(sheet);
    }
}

static void put_capacity(ss_sheet *sheet, const ss_rating_item *item, const ss_check *check,
                         ss_dimension dimension) {
    const ss_method_factors *factors = &item->factors;
    const double both = ss_rated_condition_system(item);
    const bool lrfr = check->method == SS_METHOD_LRFR && check->limit == SS_LIMIT_STRENGTH;
    ss_sheet_text(sheet, item->nominal.rule);
    ss_sheet_quantity(sheet, item->nominal.value / (1.0 - item->nominal.lost), dimension);
    put_unless_one(sheet, 1.0 - item->nominal.lost);
    if (lrfr) {
        ss_sheet_value(sheet, factors->phi);
        ss_sheet_value(sheet, factors->condition);
        ss_sheet_value(sheet, factors->system);
        ss_sheet_value(sheet, both);
        ss_sheet_none(sheet);
    } else {
        put_unless_one(sheet, factors->phi);
        ss_sheet_none(sheet);
        ss_sheet_none(sheet);
        ss_sheet_none(sheet);
        put_unless_one(sheet, both);
    }
    ss_sheet_quantity(sheet, item->capacity, dimension);
}

static void put_dead(ss_sheet *sheet, const ss_rating_item *item, ss_dimension dimension) {
    ss_builder *b = sheet->builder;
    ss_sheet_quantity(sheet, ss_rated_clean(item, item->dead), dimension);
    ss_sheet_text(sheet,
                  ss_build_text(b, "%s on structure and attachments, %s on wearing surface%s",
                                ss_words_quantity(b, item->factors.dc, SS_DIM_NUMBER, 4),
                                ss_words_quantity(b, item->factors.dw, SS_DIM_NUMBER, 4),
                                item->minimum_dead ? ": the smallest, since dead load helps here" : ""));
    ss_sheet_quantity(sheet, item->capacity - item->dead, dimension);
}

/* Which trucks, and where each of them stands. */
static const char *standing(ss_builder *b, const ss_rating_item *item) {
    const ss_results *results = b->results;
    const char *text = ss_words_traffic(b, item->traffic);
    for (int i = 0; i < item->truck_count && item->position[i].track >= 0; i++) {
        const ss_position *position = &item->position[i];
        const char *name =
            results->bridge->vehicles[results->placements->tracks[position->track].vehicle].name;
        text = ss_rated_abreast(item)
                   ? ss_build_text(b, "%s; %s %s", text, name, ss_words_position(b, position))
                   : ss_build_text(b, "%s, %s", text, ss_words_position(b, position));
    }
    return text;
}

/* What the lane's uniform load is of the live load, and where it lies. */
static void put_lane(ss_sheet *sheet, const ss_rating_item *item, ss_dimension dimension) {
    ss_builder *b = sheet->builder;
    if (item->lane_count == 0) {
        ss_sheet_none(sheet);
        ss_sheet_text(sheet, NULL);
        return;
    }
    const char *text = "lies";
    for (int i = 0; i < item->lane_count; i++) {
        text = ss_build_text(b, "%s%s from %s to %s", text, i > 0 ? "," : "",
                             ss_words_quantity(b, item->lane[i].from, SS_DIM_LENGTH, 4),
                             ss_words_quantity(b, item->lane[i].to, SS_DIM_LENGTH, 4));
    }
    if (item->lane_share < 1.0) {
        text = ss_build_text(b, "%s; in full %s, here over 1 + dynamic allowance, which is not for it", text,
                             ss_words_quantity(b, ss_rated_clean(item, item->lane_live), dimension, 4));
    }
    ss_sheet_quantity(sheet, ss_rated_clean(item, item->lane_live * item->lane_share), dimension);
    ss_sheet_text(sheet, text);
}

static void put_live(ss_sheet *sheet, const ss_rating_item *item, ss_dimension dimension) {
    const ss_method_factors *factors = &item->factors;
    ss_sheet_quantity(sheet, ss_rated_clean(item, item->live), dimension);
    ss_sheet_text(sheet, standing(sheet->builder, item));
    put_lane(sheet, item, dimension);
    ss_sheet_value(sheet, factors->live);
    ss_sheet_text(sheet, factors->live_basis);
    ss_sheet_value(sheet, factors->presence);
    ss_sheet_text(sheet, factors->presence_basis);
    ss_sheet_value(sheet, factors->allowance);
    ss_sheet_text(sheet, factors->allowance_basis);
    ss_sheet_quantity(sheet, ss_rated_clean(item, ss_rated_live(item)), dimension);
}

static void put_factor(ss_sheet *sheet, const ss_rating_item *item) {
    ss_sheet_value(sheet, ss_rated_cut(item->rf, 3));
    if (isfinite(item->rf) && fabs(item->rf_linear - item->rf) > 0.0005 * item->rf) {
        ss_sheet_value(sheet, ss_rated_cut(item->rf_linear, 3));
    } else {
        ss_sheet_none(sheet);
    }
    if (isnan(item->proved)) {
        ss_sheet_none(sheet);
    } else {
        ss_sheet_value(sheet, ss_rated_cut(item->proved, 3));
    }
    ss_sheet_text(sheet, item->tips ? "at that multiple the bridge tips before the section is full" : NULL);
}

void ss_rated_work_out(ss_builder *b, const ss_rating_item *item) {
    const ss_results *results = b->results;
    const ss_check *check = &results->rated->checks[item->check];
    const ss_dimension dimension = ss_words_dimension(results->bridge, &item->effect);
    const char *note =
        ss_build_text(b,
                      "Factor = what is left for live load / live load, factored. Where bearings lift on the "
                      "way, dead load and live load are those at the load at which the section is full.%s",
                      ss_rated_twist_note(item) ? SS_TWIST_NOTE : "");
    if (item->effect.moment_shear != 0.0) {
        note = ss_build_text(b,
                             "%s The depth changes here: the web carries besides what the inclined flange "
                             "brings it.",
                             note);
    }
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){.key = "worked",
                       .title = ss_build_text(b, "%s: %s, %s %s, %s", ss_method_name(check->method),
                                              ss_words_member(b, item->effect.member, item->effect.index),
                                              ss_words_failure(item->effect.kind),
                                              ss_words_place(b, &item->effect),
                                              ss_words_traffic(b, item->traffic)),
                       .note = note,
                       .audience = SS_FOR_PEOPLE,
                       .record = true,
                       .column_count = SS_COLUMN_COUNT(columns),
                       .columns = columns});
    ss_sheet_row(&sheet);
    ss_sheet_text(&sheet, check->name);
    ss_sheet_text(&sheet, check->edition);
    put_capacity(&sheet, item, check, dimension);
    put_dead(&sheet, item, dimension);
    put_live(&sheet, item, dimension);
    put_factor(&sheet, item);
    ss_rated_tyres(b, item);
    ss_rated_strength(b, item);
}

void ss_rated_worked(ss_builder *b, ss_method method) {
    const int weakest = ss_rated_weakest(b->results, (int)method, -1);
    if (weakest >= 0) {
        ss_rated_work_out(b, &b->results->rated->items[weakest]);
    }
}
