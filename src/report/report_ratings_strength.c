/* report_ratings_strength.c - the strength behind a factor, step by step, and the plastic basis beside it. */
#include <math.h>

#include "assess/bracing.h"
#include "assess/joint_capacity.h"
#include "assess/member_strength.h"
#include "report/report_ratings.h"
#include "report/report_words.h"

static const ss_column columns[] = {
    {"symbol", "", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"meaning", "what", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"value", "value", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"source", "from", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
};

void ss_rated_steps(ss_builder *b, const char *title, const char *note, const ss_working *working) {
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "strength_steps",
                                                   .title = title,
                                                   .note = note,
                                                   .audience = SS_FOR_PEOPLE,
                                                   .column_count = SS_COLUMN_COUNT(columns),
                                                   .columns = columns});
    for (int i = 0; i < working->count && i < SS_WORKING_MOST; i++) {
        const ss_working_step *step = &working->steps[i];
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, step->symbol);
        ss_sheet_text(&sheet, step->meaning);
        ss_sheet_text(&sheet,
                      isnan(step->value) ? NULL : ss_words_quantity(b, step->value, step->dimension, 5));
        ss_sheet_text(&sheet, step->source == NULL ? "given, or geometry" : step->source);
    }
}

/* The plastic basis: what the factor would be with it, or why not. */
static void say_plastic(ss_builder *b, const ss_rating_item *item, const ss_flexure_case *given) {
    ss_resistance plastic = {.value = (double)NAN};
    ss_working working = {.count = 0};
    if (ss_flexure_plastic(given, &plastic, &working) != SS_OK) {
        return;
    }
    if (isnan(plastic.value)) {
        ss_build_sentence(b, "Plastic basis: the section does not qualify: %s.",
                          plastic.why == NULL ? "nothing is known of its plates" : plastic.why);
        return;
    }
    const double left = plastic.value * (1.0 - item->nominal.lost);
    const double share = fabs(item->capacity) / item->nominal.value;
    const double dead = item->most ? item->dead : -item->dead;
    const double live = fabs(ss_rated_live(item));
    ss_build_sentence(
        b,
        "Plastic basis, for comparison: %s (%s). With all else as above the factor would be %s; "
        "the rating stays on the yield basis.",
        ss_words_quantity(b, left, SS_DIM_MOMENT, 4), plastic.rule,
        live > 0.0 ? ss_rated_factor(b, fmax((share * left - dead) / live, 0.0), 2) : "no limit");
    ss_rated_steps(b, "The plastic basis, step by step", NULL, &working);
}

/* A joint whose capacity comes of what it is made of. */
static void put_joint(ss_builder *b, const ss_joint *joint) {
    ss_resistance shear;
    ss_resistance moment;
    ss_working working = {.count = 0};
    ss_joint_capacity_of(joint, &shear, &moment, &working);
    if (working.count > 0) {
        ss_rated_steps(b, "Its strength, step by step", NULL, &working);
    }
}

void ss_rated_strength(ss_builder *b, const ss_rating_item *item) {
    const ss_bridge *bridge = b->results->bridge;
    const ss_check *check = &b->results->rated->checks[item->check];
    const bool member = item->effect.member == SS_MEMBER_LINE || item->effect.member == SS_MEMBER_BEAM;
    ss_member_place place;
    ss_resistance again;
    ss_working working = {.count = 0};
    double share = 0.0;
    if (item->effect.member == SS_MEMBER_JOINT) {
        put_joint(b, &bridge->joints[item->effect.index]);
    }
    if (member && ss_rated_composite(b, item)) {
        return;
    }
    if (!member || item->effect.kind != SS_EFFECT_MOMENT ||
        ss_member_place_at(bridge, &item->effect, &place) != SS_OK) {
        return;
    }
    const ss_flexure_case given = ss_member_flexure(bridge, &item->effect, &place, item->most);
    const ss_bracing_stretch held = ss_bracing_at(bridge, &item->effect, item->most);
    const ss_strength strength = ss_check_strength(check, &share);
    if (ss_member_strength(&given, strength, share, &again, &working) != SS_OK) {
        return;
    }
    ss_rated_steps(b, "Its strength, step by step",
                   ss_build_text(b, "The compressed flange is held sideways by %s.", held.held), &working);
    if (check->limit == SS_LIMIT_STRENGTH && check->method == SS_METHOD_LRFR) {
        say_plastic(b, item, &given);
    }
}
