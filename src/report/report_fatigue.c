/* report_fatigue.c - how long described details last: ranges, thresholds, years, and the steps of the worst.
 */
#include <math.h>

#include "report/report_ratings.h"
#include "report/report_words.h"

static const ss_column columns[] = {
    {"detail", "detail", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"where", "where", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"car", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"line", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"floor_beam", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"joint", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"x", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"y", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"face", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"note", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"category", "category", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"range", "stress range", SS_DIM_STRESS, 3, SS_FOR_ALL},
    {"largest", "with factor", SS_DIM_STRESS, 3, SS_FOR_ALL},
    {"threshold", "threshold", SS_DIM_STRESS, 3, SS_FOR_ALL},
    {"dead_stress", "", SS_DIM_STRESS, 0, SS_FOR_PROGRAMS},
    {"compressed", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"infinite", "endless", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"infinite", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"cycles_per_truck", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"total", "years in all", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"remaining", "years left", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"total", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"remaining", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"verdict", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"truck_y", "truck along", SS_DIM_LENGTH, -1, SS_FOR_PEOPLE},
    {"truck_y", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"direction", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static void put_known(ss_sheet *sheet, double value) {
    if (isnan(value)) {
        ss_sheet_none(sheet);
    } else {
        ss_sheet_value(sheet, value);
    }
}

/* Whole years, cut off. */
static const char *years(ss_builder *b, double value) {
    if (isnan(value)) {
        return "not known";
    }
    if (isinf(value)) {
        return "no end";
    }
    if (value <= 0.0) {
        return "none, used up";
    }
    return value < 1.0 ? "less than 1" : value > 999.0 ? "over 999" : ss_words_decimals(b, floor(value), 0);
}

/* What a detail's place is as an effect, for words. */
static ss_effect effect_of(const ss_probe *at) {
    return (ss_effect){
        .kind = at->effect, .member = at->member, .index = at->index, .at = at->at, .before = at->before};
}

static void put_place(ss_sheet *sheet, const ss_fatigue_spot *spot) {
    const ss_bridge *bridge = sheet->builder->results->bridge;
    const ss_effect effect = effect_of(&spot->at);
    const bool line = effect.member == SS_MEMBER_LINE;
    const bool beam = effect.member == SS_MEMBER_BEAM;
    const bool joint = effect.member == SS_MEMBER_JOINT;
    ss_sheet_text(sheet, ss_build_text(sheet->builder, "%s, %s",
                                       ss_words_member(sheet->builder, effect.member, effect.index),
                                       ss_words_place(sheet->builder, &effect)));
    ss_sheet_text(sheet, joint ? NULL : bridge->cars[ss_words_car(bridge, effect.member, effect.index)].name);
    ss_sheet_text(sheet, line ? bridge->lines[effect.index].name : NULL);
    ss_sheet_text(sheet, beam ? bridge->floor_beams[effect.index].name : NULL);
    ss_sheet_text(sheet, joint ? bridge->joints[effect.index].name : NULL);
    ss_sheet_value(sheet, ss_words_x(bridge, &effect));
    put_known(sheet, beam ? effect.at : (double)NAN);
    ss_sheet_text(sheet, joint ? NULL : spot->top ? "top" : "bottom");
    ss_sheet_text(sheet, spot->note);
}

static void put_row(ss_sheet *sheet, const ss_fatigue_result *r) {
    ss_builder *const b = sheet->builder;
    const ss_fatigue_spot *spot = &b->results->bridge->fatigue.spots[r->spot];
    const bool still = isnan(r->y);
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, spot->at.name);
    put_place(sheet, spot);
    ss_sheet_text(sheet, ss_fatigue_category_name(spot->category));
    put_known(sheet, r->detail.range);
    put_known(sheet, r->life.largest);
    ss_sheet_value(sheet, ss_fatigue_threshold(spot->category));
    put_known(sheet, spot->at.member == SS_MEMBER_JOINT ? (double)NAN : r->dead_stress);
    ss_sheet_flag(sheet, r->compressed);
    ss_sheet_text(sheet, r->life.infinite ? "yes" : "no");
    ss_sheet_flag(sheet, r->life.infinite);
    ss_sheet_value(sheet, r->detail.cycles_per_truck);
    ss_sheet_text(sheet, r->compressed ? "no tension" : years(b, r->life.total));
    ss_sheet_text(sheet, years(b, r->life.remaining));
    put_known(sheet, r->life.total);
    put_known(sheet, r->life.remaining);
    ss_sheet_text(sheet, r->life.verdict);
    put_known(sheet, r->y);
    put_known(sheet, r->y);
    ss_sheet_text(sheet, still ? NULL : r->backward ? "backward" : "forward");
}

static void say_unknown(ss_builder *b, const ss_fatigue_results *fatigue) {
    for (int i = 0; i < fatigue->count; i++) {
        const ss_fatigue_result *r = &fatigue->items[i];
        if (r->life.why != NULL) {
            ss_build_sentence(b, "%s: %s.", b->results->bridge->fatigue.spots[r->spot].at.name,
                              isnan(r->divisor) ? "the section modulus of that face is not known"
                                                : r->life.why);
        }
    }
}

/* What the field book says of them. */
static void say_notes(ss_builder *b, const ss_fatigue_results *fatigue) {
    for (int i = 0; i < fatigue->count; i++) {
        const ss_fatigue_spot *spot = &b->results->bridge->fatigue.spots[fatigue->items[i].spot];
        if (spot->note != NULL && spot->note[0] != '\0') {
            ss_build_sentence(b, "Note on %s: %s", spot->at.name, spot->note);
        }
    }
}

static void say_worst(ss_builder *b, const ss_fatigue_results *fatigue) {
    const int worst = ss_fatigue_worst(fatigue);
    ss_working working = {.count = 0};
    if (worst < 0) {
        return;
    }
    const ss_fatigue_result *r = &fatigue->items[worst];
    const ss_fatigue_spot *spot = &b->results->bridge->fatigue.spots[r->spot];
    ss_fatigue_work(b->results->bridge, r, &working);
    ss_build_sentence(b, "Worst is %s: %s.", spot->at.name, r->life.verdict);
    ss_rated_steps(b, ss_build_text(b, "%s, step by step", spot->at.name), NULL, &working);
}

static void say_cautions(ss_builder *b) {
    const ss_fatigue_settings *asked = &b->results->bridge->fatigue;
    ss_points points = {.count = 0};
    if (asked->used > 0.0) {
        ss_point(b, &points,
                 "Rail service had spent some of the life before. %s percent is what the description says; "
                 "nobody counted it.",
                 ss_words_decimals(b, 100.0 * asked->used, 0));
    } else {
        ss_point(b, &points,
                 "Rail service had spent some of the life before, and nobody counted it: here the steel "
                 "counts as new, so that the years are too many. rail_life_used says otherwise.");
    }
    ss_point(b, &points,
             "These are odds by test specimens and traffic as stated, not a prediction: look for cracks "
             "whatever the years say.");
    ss_point(b, &points,
             "A crack that is there is not covered: it is a finding, to be repaired or to be followed.");
    ss_point(
        b, &points,
        "Only the details named are looked at, for bending of their face or the shear of a joint's weld. "
        "Out-of-plane distortion, twist, and local bending under wheels crack details too.");
    ss_build_points(b, &points);
}

void ss_part_fatigue(ss_builder *b) {
    static const char *const levels[] = {"minimum", "evaluation", "mean"};
    const ss_results *results = b->results;
    const ss_fatigue_results *fatigue = results->fatigue;
    if (fatigue == NULL) {
        return;
    }
    const ss_fatigue_settings *asked = &results->bridge->fatigue;
    const char *truck = results->bridge->vehicles[asked->vehicle].name;
    ss_build_heading(b, SS_FOR_PEOPLE, "Fatigue");
    if (fatigue->failure != NULL) {
        ss_build_sentence(b, "No stress range is known: %s.", fatigue->failure);
        ss_build_value(b, SS_FOR_PROGRAMS, "fatigue_failure", fatigue->failure);
    } else {
        ss_build_sentence(b,
                          "The %s crosses alone with 15 %% dynamic allowance, %s trucks a day in a lane; the "
                          "bridge has served %s years; %s life. A range is of one passage along one line.",
                          truck, ss_words_decimals(b, asked->adtt, 0), ss_words_decimals(b, asked->years, 0),
                          levels[asked->level < SS_FATIGUE_LEVELS ? asked->level : SS_FATIGUE_MINIMUM]);
    }
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){
               .key = "fatigue",
               .title = "Fatigue of the details described",
               .note = "A detail whose range with the factor of Fatigue I stays below the threshold has no "
                       "end of life; nor has one that stays in compression.",
               .audience = SS_FOR_ALL,
               .column_count = SS_COLUMN_COUNT(columns),
               .columns = columns});
    for (int i = 0; i < fatigue->count; i++) put_row(&sheet, &fatigue->items[i]);
    if (fatigue->failure == NULL) {
        say_unknown(b, fatigue);
        say_notes(b, fatigue);
        say_worst(b, fatigue);
    }
    say_cautions(b);
}
