/* report_rating.c - rating factors with all their terms: every one for programs, the weakest of each member
 * for people. */
#include "report/report_parts.h"

#include <math.h>
#include <string.h>

#include "report/report_words.h"

static const ss_column rating_columns[] = {
    {"car", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"line", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"floor_beam", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"joint", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"x", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"y", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"side", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"effect", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"sign", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"method", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"level", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"edition", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"truck", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"run", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"rf", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"rf_linear", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"tons", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"tips", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.nominal", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.rule", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.phi", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.condition", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.system", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.condition_system", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.capacity", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.dead_dc", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.dead_dw", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.dc_factor", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.dw_factor", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.minimum_dead", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.dead", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.live", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.live_factor", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.live_basis", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.allowance", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.allowance_basis", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    SS_POSITION_COLUMNS("at"),
    SS_CONCURRENT_COLUMNS("with"),
};

static const char *effect_key(const ss_effect *effect) {
    if (effect->member == SS_MEMBER_JOINT) {
        return effect->kind == SS_EFFECT_MOMENT ? "joint_moment" : "joint_shear";
    }
    return effect->kind == SS_EFFECT_MOMENT ? "moment" : "web_shear";
}

/* Beside the capacity, less than this is rounding. */
static double without_noise(const ss_rating *rating, double value) {
    return fabs(value) <= 1e-9 * fabs(rating->capacity) ? 0.0 : value;
}

/* Condition times system factor as it counts: there is a least value for both together. */
static double condition_system(const ss_rating *rating) {
    return fabs(rating->capacity) / (rating->factors.phi * rating->nominal.value);
}

static void put_terms(ss_sheet *sheet, const ss_rating *rating, ss_dimension dimension) {
    const ss_rating_factors *factors = &rating->factors;
    ss_sheet_quantity(sheet, rating->nominal.value, dimension);
    ss_sheet_text(sheet, rating->nominal.rule);
    ss_sheet_value(sheet, factors->phi);
    ss_sheet_value(sheet, factors->condition);
    ss_sheet_value(sheet, factors->system);
    ss_sheet_value(sheet, condition_system(rating));
    ss_sheet_quantity(sheet, rating->capacity, dimension);
    ss_sheet_quantity(sheet, without_noise(rating, rating->dead_dc), dimension);
    ss_sheet_quantity(sheet, without_noise(rating, rating->dead_dw), dimension);
    ss_sheet_value(sheet, factors->dc);
    ss_sheet_value(sheet, factors->dw);
    ss_sheet_flag(sheet, rating->minimum_dead);
    ss_sheet_quantity(sheet, without_noise(rating, rating->dead), dimension);
    ss_sheet_quantity(sheet, without_noise(rating, rating->live), dimension);
    ss_sheet_value(sheet, factors->live);
    ss_sheet_text(sheet, factors->live_basis);
    ss_sheet_value(sheet, factors->allowance);
    ss_sheet_text(sheet, factors->allowance_basis);
}

static void put_rating(ss_sheet *sheet, const ss_rating *rating) {
    const ss_results *results = sheet->builder->results;
    const ss_bridge *bridge = results->bridge;
    const ss_effect *effect = &rating->effect;
    const ss_traffic *traffic = &results->placements->traffic[rating->traffic];
    const bool line = effect->member == SS_MEMBER_LINE;
    const bool beam = effect->member == SS_MEMBER_BEAM;
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, bridge->cars[ss_words_car(bridge, effect->member, effect->index)].name);
    ss_sheet_text(sheet, line ? bridge->lines[effect->index].name : NULL);
    ss_sheet_text(sheet, beam ? bridge->floor_beams[effect->index].name : NULL);
    ss_sheet_text(sheet, line || beam ? NULL : bridge->joints[effect->index].name);
    ss_sheet_value(sheet, ss_words_x(bridge, effect));
    ss_sheet_value(sheet, beam   ? effect->at
                          : line ? bridge->lines[effect->index].y
                                 : bridge->joints[effect->index].y);
    ss_sheet_text(sheet, effect->before ? "before" : "after");
    ss_sheet_text(sheet, effect_key(effect));
    ss_sheet_text(sheet, rating->most ? "most" : "least");
    ss_sheet_text(sheet, rating->rule->method);
    ss_sheet_text(sheet, rating->rule->level);
    ss_sheet_text(sheet, rating->rule->edition);
    ss_sheet_text(sheet, bridge->vehicles[traffic->vehicle].name);
    ss_sheet_text(sheet, traffic->run < 0 ? NULL : bridge->runs[traffic->run].name);
    ss_sheet_value(sheet, rating->rf);
    ss_sheet_value(sheet, rating->rf_linear);
    ss_sheet_value(sheet, rating->tons);
    ss_sheet_flag(sheet, rating->tips);
    put_terms(sheet, rating, ss_words_dimension(bridge, effect));
    const bool placed = isfinite(rating->rf);
    ss_part_position(sheet, placed ? rating->traffic : -1, placed ? &rating->position : NULL);
    ss_part_concurrent(sheet, placed ? &rating->with : NULL);
}

static void add_programs(ss_builder *b) {
    const ss_rating_result *ratings = b->results->ratings;
    ss_table head = {.key = "ratings",
                     .title = "",
                     .audience = SS_FOR_PROGRAMS,
                     .column_count = SS_COLUMN_COUNT(rating_columns),
                     .columns = rating_columns};
    ss_sheet all = ss_build_table(b, &head);
    for (int i = 0; i < ratings->count; i++) {
        put_rating(&all, &ratings->items[i]);
    }
    head.key = "controlling";
    head.record = true;
    ss_sheet one = ss_build_table(b, &head);
    if (ratings->controlling >= 0) {
        put_rating(&one, &ratings->items[ratings->controlling]);
    }
}

/* ---- for people ---------------------------------------------------------------------------------- */

static const ss_column worked_columns[] = {
    {"rule", "Strength by", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"nominal", "Strength", SS_DIM_NUMBER, 5, SS_FOR_PEOPLE},
    {"phi", "times resistance factor", SS_DIM_NUMBER, 4, SS_FOR_PEOPLE},
    {"condition", "Condition factor", SS_DIM_NUMBER, 4, SS_FOR_PEOPLE},
    {"system", "System factor", SS_DIM_NUMBER, 4, SS_FOR_PEOPLE},
    {"condition_system", "times both, not less than 0.85", SS_DIM_NUMBER, 4, SS_FOR_PEOPLE},
    {"capacity", "gives what it can carry", SS_DIM_NUMBER, 5, SS_FOR_PEOPLE},
    {"dead_dc", "Dead load DC", SS_DIM_NUMBER, 5, SS_FOR_PEOPLE},
    {"dc_factor", "times", SS_DIM_NUMBER, 4, SS_FOR_PEOPLE},
    {"dead_dw", "Dead load DW", SS_DIM_NUMBER, 5, SS_FOR_PEOPLE},
    {"dw_factor", "times", SS_DIM_NUMBER, 4, SS_FOR_PEOPLE},
    {"dead", "gives dead load, factored", SS_DIM_NUMBER, 5, SS_FOR_PEOPLE},
    {"live", "One truck", SS_DIM_NUMBER, 5, SS_FOR_PEOPLE},
    {"live_factor", "times load factor", SS_DIM_NUMBER, 4, SS_FOR_PEOPLE},
    {"live_basis", "which is", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"allowance", "times dynamic allowance, 1 +", SS_DIM_NUMBER, 4, SS_FOR_PEOPLE},
    {"allowance_basis", "which is", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"rf", "Factor", SS_DIM_NUMBER, -3, SS_FOR_PEOPLE},
    {"method", "Under", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
};

static void add_worked(ss_builder *b) {
    const ss_rating_result *ratings = b->results->ratings;
    const ss_rating *rating = &ratings->items[ratings->controlling];
    const ss_rating_factors *factors = &rating->factors;
    const ss_dimension dimension = ss_words_dimension(b->results->bridge, &rating->effect);
    ss_sheet sheet = ss_build_table(
        b,
        &(ss_table){
            .key = "worked",
            .title = ss_build_text(b, "The controlling factor, worked: %s, %s %s, %s",
                                   ss_words_member(b, rating->effect.member, rating->effect.index),
                                   ss_words_failure(rating->effect.kind), ss_words_place(b, &rating->effect),
                                   ss_words_traffic(b, rating->traffic)),
            .note =
                "Factor = (what it can carry - dead load) / (truck x load factor x (1 + allowance)). Where "
                "bearings lift on the way, both are followed to the load at which the section is full, so "
                "the quotient of the lines above can differ a little.",
            .audience = SS_FOR_PEOPLE,
            .record = true,
            .column_count = SS_COLUMN_COUNT(worked_columns),
            .columns = worked_columns});
    ss_sheet_row(&sheet);
    ss_sheet_text(&sheet, rating->nominal.rule);
    ss_sheet_quantity(&sheet, rating->nominal.value, dimension);
    ss_sheet_value(&sheet, factors->phi);
    ss_sheet_value(&sheet, factors->condition);
    ss_sheet_value(&sheet, factors->system);
    ss_sheet_value(&sheet, condition_system(rating));
    ss_sheet_quantity(&sheet, rating->capacity, dimension);
    ss_sheet_quantity(&sheet, without_noise(rating, rating->dead_dc), dimension);
    ss_sheet_value(&sheet, factors->dc);
    ss_sheet_quantity(&sheet, without_noise(rating, rating->dead_dw), dimension);
    ss_sheet_value(&sheet, factors->dw);
    ss_sheet_quantity(&sheet, without_noise(rating, rating->dead), dimension);
    ss_sheet_quantity(&sheet, rating->live, dimension);
    ss_sheet_value(&sheet, factors->live);
    ss_sheet_text(&sheet, factors->live_basis);
    ss_sheet_value(&sheet, factors->allowance);
    ss_sheet_text(&sheet, factors->allowance_basis);
    ss_sheet_value(&sheet, rating->rf);
    ss_sheet_text(&sheet, ss_build_text(b, "%s, %s: %s", rating->rule->method, rating->rule->level,
                                        rating->rule->edition));
}

static const ss_column member_columns[] = {
    {"rf", "factor", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"linear", "bearings held", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"car", "car", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"member", "member", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"effect", "in", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"x", "at x", SS_DIM_LENGTH, -1, SS_FOR_PEOPLE},
    {"truck", "truck", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"capacity", "can carry", SS_DIM_NUMBER, 4, SS_FOR_PEOPLE},
    {"dead", "dead load %", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"live", "truck %", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
};

/* Factors of one set in one car and one effect are looked at together, over all trucks. */
static bool same_group(const ss_bridge *bridge, const ss_effect *a, const ss_effect *b) {
    if (a->member != b->member || (a->kind == SS_EFFECT_MOMENT) != (b->kind == SS_EFFECT_MOMENT)) {
        return false;
    }
    switch (a->member) {
    case SS_MEMBER_LINE:
        return bridge->lines[a->index].car == bridge->lines[b->index].car &&
               strcmp(bridge->lines[a->index].set, bridge->lines[b->index].set) == 0;
    case SS_MEMBER_BEAM:
        return bridge->floor_beams[a->index].car == bridge->floor_beams[b->index].car &&
               strcmp(bridge->floor_beams[a->index].set, bridge->floor_beams[b->index].set) == 0;
    case SS_MEMBER_JOINT:
    case SS_MEMBER_BEARING: break;
    }
    return a->index == b->index;
}

/* Whether a factor is less by more than rounding: what ties keeps the order of the result on every machine.
 */
static bool is_less(double a, double b) {
    return a < b && (isinf(b) || b - a > 1e-9 * b);
}

/* Moves the last of `count` indices to its place: weakest first. */
static void settle_last(const ss_rating *items, int *order, int count) {
    const int last = order[count - 1];
    int place = count - 1;
    for (; place > 0 && is_less(items[last].rf, items[order[place - 1]].rf); place--) {
        order[place] = order[place - 1];
    }
    order[place] = last;
}

/* The weakest of each group, weakest first. `order` has room for two indices a rating. Returns the count. */
static int rank_groups(const ss_results *results, int *order) {
    const ss_rating *items = results->ratings->items;
    int *weakest = order + results->ratings->count;
    int count = 0;
    for (int i = 0; i < results->ratings->count; i++) {
        int k = 0;
        while (k < count && !same_group(results->bridge, &items[weakest[k]].effect, &items[i].effect)) {
            k++;
        }
        if (k == count) {
            weakest[count++] = i;
        } else if (is_less(items[i].rf, items[weakest[k]].rf)) {
            weakest[k] = i;
        }
    }
    for (int k = 0; k < count; k++) {
        order[k] = weakest[k];
        settle_last(items, order, k + 1);
    }
    return count;
}

/* A part of the capacity in whole percent; what is beyond telling stays empty. */
static void put_percent(ss_sheet *sheet, double part, double capacity) {
    const double percent = 100.0 * part / capacity;
    if (fabs(percent) < 1e6) {
        ss_sheet_integer(sheet, (int)lround(percent));
    } else {
        ss_sheet_none(sheet);
    }
}

static void put_member(ss_sheet *sheet, const ss_rating *rating) {
    ss_builder *b = sheet->builder;
    const ss_bridge *bridge = b->results->bridge;
    const ss_effect *effect = &rating->effect;
    const ss_dimension dimension = ss_words_dimension(bridge, effect);
    const char *name = effect->member == SS_MEMBER_LINE   ? bridge->lines[effect->index].name
                       : effect->member == SS_MEMBER_BEAM ? bridge->floor_beams[effect->index].name
                                                          : bridge->joints[effect->index].name;
    ss_sheet_row(sheet);
    ss_sheet_value(sheet, rating->rf);
    if (isfinite(rating->rf) && fabs(rating->rf_linear - rating->rf) > 0.005 * rating->rf) {
        ss_sheet_value(sheet, rating->rf_linear);
    } else {
        ss_sheet_none(sheet);
    }
    ss_sheet_text(sheet, effect->member == SS_MEMBER_JOINT
                             ? "joint"
                             : bridge->cars[ss_words_car(bridge, effect->member, effect->index)].name);
    ss_sheet_text(sheet, name);
    ss_sheet_text(sheet, rating->tips ? "tipping" : ss_words_failure(effect->kind));
    ss_sheet_value(sheet, ss_words_x(bridge, effect));
    ss_sheet_text(sheet, ss_words_traffic(b, rating->traffic));
    ss_sheet_quantity(sheet, rating->capacity, dimension);
    put_percent(sheet, rating->dead, rating->capacity);
    put_percent(sheet, rating->factors.live * (1.0 + rating->factors.allowance) * rating->live,
                rating->capacity);
}

static void add_members(ss_builder *b) {
    const ss_rating_result *ratings = b->results->ratings;
    int *order = ss_arena_alloc(&b->report->arena, 2 * (size_t)ratings->count, sizeof *order);
    if (order == NULL) {
        b->failed = true;
        return;
    }
    ss_sheet sheet =
        ss_build_table(b, &(ss_table){.key = "members",
                                      .title = "Every member, weakest first",
                                      .note = "The weakest place of each kind of member in each car, with "
                                              "the truck that governs it. \"Bearings "
                                              "held\": what the factor would read if no bearing lifted or "
                                              "closed, where that differs. Percent of "
                                              "what the place can carry, load factors and dynamic allowance "
                                              "in. A minus sign: bending upwards, or "
                                              "shear the other way.",
                                      .audience = SS_FOR_PEOPLE,
                                      .column_count = SS_COLUMN_COUNT(member_columns),
                                      .columns = member_columns});
    const int count = rank_groups(b->results, order);
    for (int i = 0; i < count; i++) {
        put_member(&sheet, &ratings->items[order[i]]);
    }
}

void ss_part_rating(ss_builder *b) {
    ss_build_heading(b, SS_FOR_PEOPLE, "Member by member");
    if (b->results->ratings->controlling >= 0) {
        add_members(b);
        add_worked(b);
    }
    add_programs(b);
}
