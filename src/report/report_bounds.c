/* report_bounds.c - the worst and the best rating that were found over a box of unknowns, and what to
 * measure. */
#include <math.h>

#include "report/report_parts.h"
#include "report/report_unknowns.h"
#include "report/report_words.h"
#include "sillspan/figure.h"

/* Unknowns that the sentence about measuring names. */
#define NAMED 3

static const ss_column summary_columns[] = {
    {"runs", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"runs_allowed", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"failed", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"stopped", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"all_corners", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"worst", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"worst_settled", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"best", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"best_settled", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"middle", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"as_described", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"failure", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"searched", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"worst_full", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"best_full", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static const ss_column place_columns[] = {
    {"name", "unknown", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"worst", "worst found with", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"worst", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"worst_end", "which is", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"best", "best found with", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"best", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"best_end", "which is", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

static const ss_column effect_columns[] = {
    {"name", "unknown", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"swing", "alone it moves the rating by", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"swing", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"least", "from", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"least", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"least_at", "with", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"least_at", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"most", "to", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"most", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"most_at", "with", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"most_at", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"at_low", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"at_high", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"one_way", "always one way", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"total", "others anywhere, on average", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"total", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static const ss_column answer_columns[] = {
    {"answer", "at these places", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"worst", "with the worst rating", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"worst", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"best", "with the best rating", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"best", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

/* ---- sentences ------------------------------------------------------------------------------------ */

static const char *said(ss_builder *b, double value) {
    return ss_answer_said(b, &b->results->answers[0], value);
}

static double found(const ss_bounds *bounds, ss_bounds_side side) {
    const ss_bounds_end *end = &bounds->ends[side];
    return end->point == NULL ? (double)NAN : end->answers[0];
}

static const char *end_words(const ss_bounds_end *end, int unknown) {
    return end->edge[unknown] < 0 ? "its low end" : end->edge[unknown] > 0 ? "its high end" : "inside";
}

static double weight(const ss_bounds_effect *e) {
    return e->total > e->swing ? e->total : e->swing;
}

/* Whether an unknown does too little to be told of. */
static bool is_small(const ss_builder *b, int unknown) {
    return weight(&b->results->bounds->effects[unknown]) < SS_UNKNOWN_SMALL;
}

/* ", with "seam" 0.001 kip/in per in, "gap" 1 in": of those that do something. */
static const char *place_words(ss_builder *b, const ss_bounds_end *end) {
    const char *text = "";
    const char *before = ", with ";
    for (int i = 0; i < b->results->bridge->unknowns.count; i++) {
        const ss_unknown *u = ss_unknown_of(b, i);
        if (!is_small(b, i)) {
            text = ss_build_text(b, "%s%s\"%s\" %s", text, before, u->name,
                                 ss_unknown_said(b, u, end->point[i]));
            before = ", ";
        }
    }
    return text;
}

static void say_verdict(ss_builder *b, ss_points *points, double worst, double best) {
    const char *title = b->results->answers[0].title;
    if (worst >= 1.0) {
        ss_point(b, points, "Nothing that was tried brings the %s below 1.", title);
    } else if (best < 1.0) {
        ss_point(b, points,
                 "Nothing that was tried brings the %s up to 1. Knowing these values better will not do it; "
                 "something else has to change.",
                 title);
    } else {
        ss_point(b, points, "Whether the %s reaches 1 hangs on what is unknown: measuring can settle it.",
                 title);
    }
}

static void say_worst(ss_builder *b, ss_points *points) {
    const ss_bounds *bounds = b->results->bounds;
    const ss_bounds_end *end = &bounds->ends[SS_BOUNDS_WORST];
    bool inside[SS_UNKNOWNS] = {false};
    int count = 0;
    ss_point(b, points, "Worst found in %d runs: %s%s. Nothing proves that there is no worse.", bounds->runs,
             said(b, end->answers[0]), place_words(b, end));
    for (int i = 0; i < b->results->bridge->unknowns.count; i++) {
        inside[i] = end->edge[i] == 0 && !is_small(b, i) && ss_unknown_of(b, i)->kind != SS_UNKNOWN_DISCRETE;
    }
    const char *names = ss_unknown_names(b, inside, &count);
    if (count > 0) {
        ss_point(b, points, "It lies inside the range of %s: the ends by themselves would not have shown it.",
                 names);
    }
    if (!end->settled && !bounds->stopped) {
        ss_point(b, points,
                 "The runs were used up before the search around it came to rest: with more than %d it may "
                 "turn out worse.",
                 bounds->most_runs);
    }
}

/* One unknown to be measured, and why. */
static const char *measure_words(ss_builder *b, int unknown) {
    const ss_bounds_effect *e = &b->results->bounds->effects[unknown];
    const char *name = ss_unknown_of(b, unknown)->name;
    if (e->swing >= SS_UNKNOWN_SMALL) {
        return ss_build_text(b, "\"%s\" (by itself %s to %s)", name, said(b, e->least), said(b, e->most));
    }
    return ss_build_text(b, "\"%s\" (with the others elsewhere it moves the rating by %s on average)", name,
                         ss_words_decimals(b, e->total, 2));
}

/* `hangs`: the answer is on either side of 1, and measuring can settle it. */
static void say_measure(ss_builder *b, ss_points *points, bool hangs) {
    const ss_bounds *bounds = b->results->bounds;
    const int unknowns = b->results->bridge->unknowns.count;
    const char *named[NAMED];
    bool small[SS_UNKNOWNS] = {false};
    int count = 0;
    for (int k = 0; k < unknowns; k++) {
        const int i = bounds->order[k];
        small[i] = is_small(b, i);
        if (!small[i] && count < NAMED) {
            named[count++] = measure_words(b, i);
        }
    }
    if (count > 0) {
        ss_point(b, points, "%s: %s%s%s%s%s.", hangs ? "Measure first" : "What moves it most", named[0],
                 count > 1 ? "; then " : "", count > 1 ? named[1] : "", count > 2 ? "; then " : "",
                 count > 2 ? named[2] : "");
    }
    const char *names = ss_unknown_names(b, small, &count);
    if (count > 0) {
        ss_point(b, points, "An estimate will do for %s: less than %s in the rating.", names,
                 ss_words_decimals(b, SS_UNKNOWN_SMALL, 2));
    }
}

static void say_turns(ss_builder *b, ss_points *points) {
    const ss_bounds *bounds = b->results->bounds;
    bool turns[SS_UNKNOWNS] = {false};
    int count = 0;
    for (int i = 0; i < b->results->bridge->unknowns.count; i++) {
        const ss_bounds_effect *e = &bounds->effects[i];
        turns[i] = !e->monotone && !isnan(e->at_low) && !isnan(e->at_high) && e->swing >= SS_UNKNOWN_SMALL &&
                   ss_unknown_of(b, i)->kind != SS_UNKNOWN_DISCRETE;
    }
    const char *names = ss_unknown_names(b, turns, &count);
    if (count > 0) {
        ss_point(b, points, "More is not always better or worse of %s: between its ends the rating turns.",
                 names);
    }
}

static void say_runs(ss_builder *b, ss_points *points) {
    const ss_bounds *bounds = b->results->bounds;
    if (bounds->stopped) {
        ss_point(b, points, "Stopped after %d of %d runs: what follows is of these alone.", bounds->runs,
                 bounds->most_runs);
    }
    if (bounds->failed > 0) {
        ss_point(b, points, "%d of %d runs have no rating and are left out; the first of them: %s.",
                 bounds->failed, bounds->runs,
                 bounds->failure == NULL ? "no reason is known" : bounds->failure);
    }
}

/* How far the runs can be trusted. */
static void say_searched(ss_builder *b, ss_points *points) {
    const double *full = b->results->full;
    if (b->results->searched == 0) {
        return;
    }
    if (isnan(full[SS_BOUNDS_WORST])) {
        ss_point(b, points, "Each run looks at the places where trucks govern in %s, searched in full.",
                 ss_words_count(b, b->results->searched, "bridge", "bridges"));
        return;
    }
    ss_point(
        b, points,
        "Each run looks at the places where trucks govern in %s, searched in full. At the end the worst was "
        "searched in full too, and rates %s%s%s.",
        ss_words_count(b, b->results->searched, "bridge", "bridges"), said(b, full[SS_BOUNDS_WORST]),
        isnan(full[SS_BOUNDS_BEST]) ? "" : ", the best ",
        isnan(full[SS_BOUNDS_BEST]) ? "" : said(b, full[SS_BOUNDS_BEST]));
}

static void say_answer(ss_builder *b) {
    const ss_bounds *bounds = b->results->bounds;
    const double worst = found(bounds, SS_BOUNDS_WORST);
    const double best = found(bounds, SS_BOUNDS_BEST);
    const int unknowns = b->results->bridge->unknowns.count;
    ss_points points = {.count = 0};
    if (isnan(worst)) {
        ss_build_sentence(b, "None of %d runs has a rating: %s.", bounds->runs,
                          bounds->failure == NULL ? "no reason is known" : bounds->failure);
        return;
    }
    ss_build_sentence(b, "With %s anywhere in what %s can be, the %s was found between %s and %s%s%s.",
                      ss_words_count(b, unknowns, "unknown", "unknowns"), unknowns == 1 ? "it" : "they",
                      b->results->answers[0].title, said(b, worst), said(b, best),
                      isnan(b->results->described) ? "" : "; as described it is ",
                      isnan(b->results->described) ? "" : said(b, b->results->described));
    say_verdict(b, &points, worst, best);
    say_worst(b, &points);
    say_measure(b, &points, worst < 1.0 && best >= 1.0);
    say_turns(b, &points);
    say_runs(b, &points);
    say_searched(b, &points);
    ss_build_points(b, &points);
}

/* ---- tables --------------------------------------------------------------------------------------- */

static void number(ss_sheet *sheet, double value) {
    if (isnan(value)) {
        ss_sheet_none(sheet);
    } else {
        ss_sheet_value(sheet, value);
    }
}

static void add_summary(ss_builder *b) {
    const ss_bounds *bounds = b->results->bounds;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "bounds",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .record = true,
                                                   .column_count = SS_COLUMN_COUNT(summary_columns),
                                                   .columns = summary_columns});
    ss_sheet_row(&sheet);
    ss_sheet_integer(&sheet, bounds->runs);
    ss_sheet_integer(&sheet, bounds->most_runs);
    ss_sheet_integer(&sheet, bounds->failed);
    ss_sheet_flag(&sheet, bounds->stopped);
    ss_sheet_flag(&sheet, bounds->all_corners);
    number(&sheet, found(bounds, SS_BOUNDS_WORST));
    ss_sheet_flag(&sheet, bounds->ends[SS_BOUNDS_WORST].settled);
    number(&sheet, found(bounds, SS_BOUNDS_BEST));
    ss_sheet_flag(&sheet, bounds->ends[SS_BOUNDS_BEST].settled);
    number(&sheet, bounds->middle);
    number(&sheet, b->results->described);
    ss_sheet_text(&sheet, bounds->failure);
    ss_sheet_integer(&sheet, b->results->searched);
    number(&sheet, b->results->searched > 0 ? b->results->full[SS_BOUNDS_WORST] : (double)NAN);
    number(&sheet, b->results->searched > 0 ? b->results->full[SS_BOUNDS_BEST] : (double)NAN);
}

static void add_places(ss_builder *b) {
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "bounds_places",
                                                   .title = "Where the worst and the best were found",
                                                   .audience = SS_FOR_ALL,
                                                   .column_count = SS_COLUMN_COUNT(place_columns),
                                                   .columns = place_columns});
    for (int i = 0; i < b->results->bridge->unknowns.count; i++) {
        const ss_unknown *u = ss_unknown_of(b, i);
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, u->name);
        for (int side = 0; side < 2; side++) {
            const ss_bounds_end *end = &b->results->bounds->ends[side];
            ss_unknown_cells(&sheet, u, end->point[i]);
            ss_sheet_text(&sheet, u->kind == SS_UNKNOWN_DISCRETE ? NULL : end_words(end, i));
        }
    }
}

static void add_answers(ss_builder *b) {
    const ss_bounds *bounds = b->results->bounds;
    if (b->results->answer_count < 2) {
        return;
    }
    ss_sheet sheet =
        ss_build_table(b, &(ss_table){.key = "bounds_answers",
                                      .title = "What else comes out there",
                                      .note = "Not the worst and the best of each, but what goes "
                                              "with the worst and the best rating.",
                                      .audience = SS_FOR_ALL,
                                      .column_count = SS_COLUMN_COUNT(answer_columns),
                                      .columns = answer_columns});
    for (int a = 1; a < b->results->answer_count; a++) {
        const ss_answer *answer = &b->results->answers[a];
        if (isnan(bounds->ends[SS_BOUNDS_WORST].answers[a]) &&
            isnan(bounds->ends[SS_BOUNDS_BEST].answers[a])) {
            continue;
        }
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, answer->title);
        ss_answer_cells(&sheet, answer, bounds->ends[SS_BOUNDS_WORST].answers[a]);
        ss_answer_cells(&sheet, answer, bounds->ends[SS_BOUNDS_BEST].answers[a]);
    }
}

static void add_effects(ss_builder *b) {
    const ss_bounds *bounds = b->results->bounds;
    ss_sheet sheet = ss_build_table(
        b,
        &(ss_table){.key = "bounds_effects",
                    .title = "What each unknown does",
                    .note = "Alone: the others in the middle of what they can be. Others anywhere: the mean "
                            "change when it alone goes from one value to another, the others at random.",
                    .audience = SS_FOR_ALL,
                    .column_count = SS_COLUMN_COUNT(effect_columns),
                    .columns = effect_columns});
    for (int k = 0; k < b->results->bridge->unknowns.count; k++) {
        const int i = bounds->order[k];
        const ss_unknown *u = ss_unknown_of(b, i);
        const ss_bounds_effect *e = &bounds->effects[i];
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, u->name);
        ss_rating_cells(&sheet, e->swing, false);
        ss_rating_cells(&sheet, e->least, true);
        ss_unknown_cells(&sheet, u, e->swing > 0.0 ? e->least_at : (double)NAN);
        ss_rating_cells(&sheet, e->most, true);
        ss_unknown_cells(&sheet, u, e->swing > 0.0 ? e->most_at : (double)NAN);
        number(&sheet, e->at_low);
        number(&sheet, e->at_high);
        ss_sheet_flag(&sheet, e->monotone);
        ss_rating_cells(&sheet, e->total, false);
    }
}

void ss_part_bounds(ss_builder *b) {
    say_answer(b);
    add_summary(b);
    if (b->results->bounds->ends[SS_BOUNDS_WORST].point == NULL) {
        return;
    }
    ss_study_figure(b, ss_figure_bounds);
    add_effects(b);
    add_places(b);
    add_answers(b);
}
