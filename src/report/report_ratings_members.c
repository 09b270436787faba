/* report_ratings_members.c - the weakest place of each kind of member, by one method and by all of them. */
#include "report/report_ratings.h"

#include <math.h>

#include "report/report_words.h"

static const ss_column member_columns[] = {
    {"rf", "factor", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"linear", "bearings held", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"car", "car", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"member", "member", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"effect", "in", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"x", "at x", SS_DIM_LENGTH, -1, SS_FOR_PEOPLE},
    {"truck", "truck", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"check", "by", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"capacity", "can carry", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"dead", "dead load %", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"live", "truck %", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
};

static void put_car(ss_sheet *sheet, const ss_effect *effect) {
    const ss_bridge *bridge = sheet->builder->results->bridge;
    ss_sheet_text(sheet, effect->member == SS_MEMBER_JOINT
                             ? "joint"
                             : bridge->cars[ss_words_car(bridge, effect->member, effect->index)].name);
    ss_sheet_text(sheet, ss_rated_member(bridge, effect));
}

static void put_member(ss_sheet *sheet, const ss_rating_item *item) {
    ss_builder *b = sheet->builder;
    const ss_bridge *bridge = b->results->bridge;
    const ss_check *check = &b->results->rated->checks[item->check];
    ss_sheet_row(sheet);
    ss_sheet_value(sheet, ss_rated_cut(item->rf, 2));
    if (isfinite(item->rf) && fabs(item->rf_linear - item->rf) > 0.005 * item->rf) {
        ss_sheet_value(sheet, ss_rated_cut(item->rf_linear, 2));
    } else {
        ss_sheet_none(sheet);
    }
    put_car(sheet, &item->effect);
    ss_sheet_text(sheet, ss_rated_failure(item));
    ss_sheet_value(sheet, ss_words_x(bridge, &item->effect));
    ss_sheet_text(sheet, ss_words_traffic(b, item->traffic));
    ss_sheet_text(sheet, ss_build_text(b, "%s %s", ss_level_name(check->level), ss_limit_name(check)));
    /* As words, which may go on below themselves: the table is wide. */
    ss_sheet_text(sheet, ss_words_quantity(b, item->capacity, ss_words_dimension(bridge, &item->effect), 4));
    ss_rated_percent(sheet, item->dead, item->capacity);
    ss_rated_percent(sheet, ss_rated_live(item), item->capacity);
}

static void add_method(ss_builder *b, ss_method method, const int *order, int count) {
    bool twist = false;
    for (int i = 0; i < count; i++) {
        twist = twist || ss_rated_twist_note(&b->results->rated->items[order[i]]);
    }
    const char *note = ss_build_text(
        b,
        "The weakest place of each kind of member in each car, with the trucks and the check that govern it. "
        "\"Bearings held\": what the factor would read if no bearing lifted or closed, where that differs. "
        "Percent of what the place can carry, all factors in. A minus sign: bending upwards, or shear the "
        "other way.%s",
        twist ? SS_TWIST_NOTE : "");
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){.key = "members",
                       .title = ss_build_text(b, "Every member by %s, weakest first", ss_method_name(method)),
                       .note = note,
                       .audience = SS_FOR_PEOPLE,
                       .column_count = SS_COLUMN_COUNT(member_columns),
                       .columns = member_columns});
    for (int i = 0; i < count; i++) {
        put_member(&sheet, &b->results->rated->items[order[i]]);
    }
}

/* Kinds of members that a sentence names; a longer list is read in the table. */
enum { NAMED = 5 };

/* Kinds of members whose factor is below 1, in one sentence. */
static void say_short(ss_builder *b, ss_points *points, ss_method method, const int *order, int count) {
    const ss_rating_item *items = b->results->rated->items;
    const char *list = "";
    int below = 0;
    for (; below < count && items[order[below]].rf < 1.0; below++) {
        if (below >= NAMED) {
            continue;
        }
        const ss_effect *effect = &items[order[below]].effect;
        list = ss_build_text(b, "%s%s%s in %s (%s)", list, below == 0 ? "" : "; ",
                             ss_words_member(b, effect->member, effect->index),
                             ss_words_failure(effect->kind), ss_rated_factor(b, items[order[below]].rf, 2));
    }
    if (below == 0) {
        ss_point(b, points, "By %s no member is below 1.00.", ss_method_name(method));
    } else {
        const char *more =
            below > NAMED ? ss_build_text(b, "; and %d more (table below)", below - NAMED) : "";
        ss_point(b, points, "By %s %s below 1.00: %s%s.", ss_method_name(method),
                 ss_words_count(b, below, "kind of member is", "kinds of members are"), list, more);
    }
}

/* The weakest of a group by the deciding checks of a method, or -1. */
static int weakest_like(const ss_results *results, ss_method method, const ss_effect *effect) {
    const ss_ratings *ratings = results->rated;
    int weakest = -1;
    for (int i = 0; i < ratings->count; i++) {
        const ss_rating_item *item = &ratings->items[i];
        if (ratings->checks[item->check].method == method &&
            ss_rated_same_group(results->bridge, &item->effect, effect) &&
            (weakest < 0 || ss_rated_less(item->rf, ratings->items[weakest].rf)) &&
            ss_rated_governs(results, item->check, item->traffic)) {
            weakest = i;
        }
    }
    return weakest;
}

static void add_comparison(ss_builder *b, const ss_method *methods, int method_count, const int *order,
                           int count) {
    enum { FIRST = 3 };
    const ss_rating_item *items = b->results->rated->items;
    ss_column *columns = ss_arena_alloc(&b->report->arena, FIRST + 3, sizeof *columns);
    if (columns == NULL) {
        b->failed = true;
        return;
    }
    columns[0] = (ss_column){.key = "car", .title = "car"};
    columns[1] = (ss_column){.key = "member", .title = "member"};
    columns[2] = (ss_column){.key = "effect", .title = "in"};
    for (int m = 0; m < method_count; m++) {
        columns[FIRST + m] = (ss_column){.key = "rf", .title = ss_method_name(methods[m]), .digits = -2};
    }
    ss_sheet sheet =
        ss_build_table(b, &(ss_table){.key = "members_methods",
                                      .title = "The same members by each method",
                                      .note = "The smallest factor of all trucks, inventory level left out.",
                                      .audience = SS_FOR_PEOPLE,
                                      .column_count = FIRST + method_count,
                                      .columns = columns});
    for (int i = 0; i < count; i++) {
        const ss_effect *effect = &items[order[i]].effect;
        ss_sheet_row(&sheet);
        put_car(&sheet, effect);
        ss_sheet_text(&sheet, ss_words_failure(effect->kind));
        for (int m = 0; m < method_count; m++) {
            const int weakest = weakest_like(b->results, methods[m], effect);
            if (weakest < 0) {
                ss_sheet_none(&sheet);
            } else {
                ss_sheet_value(&sheet, ss_rated_cut(items[weakest].rf, 2));
            }
        }
    }
}

void ss_rated_members(ss_builder *b) {
    const ss_ratings *ratings = b->results->rated;
    ss_method methods[3];
    const int method_count = ss_rated_methods(ratings, methods);
    int *order = ss_arena_alloc(&b->report->arena, 2 * (size_t)ratings->count, sizeof *order);
    if (order == NULL) {
        b->failed = true;
        return;
    }
    ss_points points = {.count = 0};
    for (int m = 0; m < method_count; m++) {
        const int count = ss_rated_rank(b->results, (int)methods[m], order);
        say_short(b, &points, methods[m], order, count);
    }
    ss_build_points(b, &points);
    const int count = ss_rated_rank(b->results, (int)methods[0], order);
    add_method(b, methods[0], order, count);
    if (method_count > 1) {
        add_comparison(b, methods, method_count, order, count);
    }
}
