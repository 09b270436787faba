/* report_sample.c - ratings of random draws of the unknowns: how they spread, and what they go with. */
#include <math.h>

#include "report/report_parts.h"
#include "report/report_unknowns.h"
#include "report/report_words.h"
#include "sillspan/figure.h"

/* A smaller correlation is not told apart from chance in a few hundred draws. */
#define FAINT 0.1

/* Unknowns that the sentence about measuring names. */
#define NAMED 3

/* Places of the quantiles in SS_SAMPLE_SHARES. */
enum { FIVE, QUARTER, MIDDLE, THREE_QUARTERS, NINETY_FIVE };

static const ss_column summary_columns[] = {
    {"draws", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"done", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"answered", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"stopped", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"seed", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"limit", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"below", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"share_below", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"share_low", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"share_high", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"confidence", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"as_described", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"searched", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"least", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"least_full", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static const ss_column quantile_columns[] = {
    {"answer", "answer", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"share", "share of draws at or below", SS_DIM_NUMBER, -2, SS_FOR_ALL},
    {"value", "value", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"value", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"low", "at least", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"low", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"high", "at most", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"high", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static const ss_column correlation_columns[] = {
    {"name", "unknown", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"answer", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"rho", "rank correlation", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"rho", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static const ss_column reason_columns[] = {
    {"reason", "not rated, because", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"count", "draws", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

/* ---- sentences ------------------------------------------------------------------------------------ */

static const char *said(ss_builder *b, double value) {
    return ss_answer_said(b, &b->results->answers[0], value);
}

static const char *percent(ss_builder *b, double share) {
    return ss_build_text(b, "%s %%",
                         ss_words_decimals(b, 100.0 * share, share > 0.0 && share < 0.02 ? 1 : 0));
}

static void say_spread(ss_builder *b, const ss_sample *sample) {
    const ss_sample_quantile *q = sample->answers[0].quantiles;
    ss_build_sentence(
        b,
        "Of %d draws of %s %d could be rated. The %s in the middle of them is %s; half of them lie between "
        "%s and "
        "%s, nine in ten between %s and %s%s%s.",
        sample->done, ss_words_count(b, b->results->bridge->unknowns.count, "unknown", "unknowns"),
        sample->answered, b->results->answers[0].title, said(b, q[MIDDLE].value), said(b, q[QUARTER].value),
        said(b, q[THREE_QUARTERS].value), said(b, q[FIVE].value), said(b, q[NINETY_FIVE].value),
        isnan(b->results->described) ? "" : "; as described it is ",
        isnan(b->results->described) ? "" : said(b, b->results->described));
}

static void say_below(ss_builder *b, ss_points *points, const ss_sample *sample) {
    ss_point(b, points,
             "%s of those that could be rated lie below %s (%s to %s, 19 times in 20). That share is not a "
             "failure probability: the factors of the rating already hold margin, and the draws know only "
             "what is listed as unknown.",
             percent(b, (double)sample->below / sample->answered), ss_words_decimals(b, sample->limit, 2),
             percent(b, sample->below_low), percent(b, sample->below_high));
}

static const char *measure_words(ss_builder *b, int unknown, double rho) {
    const ss_unknown *u = ss_unknown_of(b, unknown);
    const char *number = ss_words_decimals(b, rho, 2);
    if (u->kind == SS_UNKNOWN_DISCRETE) {
        return ss_build_text(b, "\"%s\" (rank correlation %s, its values in the order listed)", u->name,
                             number);
    }
    return ss_build_text(b, "\"%s\" (the rating %s as it rises, rank correlation %s)", u->name,
                         rho > 0.0 ? "rises" : "falls", number);
}

static void say_measure(ss_builder *b, ss_points *points, const ss_sample *sample) {
    const double *rho = sample->answers[0].correlation;
    const char *named[NAMED];
    bool faint[SS_UNKNOWNS] = {false};
    int count = 0;
    for (int k = 0; k < b->results->bridge->unknowns.count; k++) {
        const int i = sample->order[k];
        faint[i] = !(fabs(rho[i]) >= FAINT);
        if (!faint[i] && count < NAMED) {
            named[count++] = measure_words(b, i, rho[i]);
        }
    }
    if (count > 0) {
        ss_point(b, points, "Measure first: %s%s%s%s%s.", named[0], count > 1 ? "; then " : "",
                 count > 1 ? named[1] : "", count > 2 ? "; then " : "", count > 2 ? named[2] : "");
    }
    const char *names = ss_unknown_names(b, faint, &count);
    if (count > 0) {
        ss_point(b, points, "The rating does not go up or down with %s in a way that these draws show.",
                 names);
    }
}

static void say_assumed(ss_builder *b, ss_points *points) {
    const ss_unknown_set *set = &b->results->bridge->unknowns;
    bool assumed[SS_UNKNOWNS] = {false};
    int count = 0;
    for (int i = 0; i < set->count; i++) {
        assumed[i] = !set->items[i].stated;
    }
    const char *names = ss_unknown_names(b, assumed, &count);
    if (count > 0) {
        ss_point(b, points,
                 "Assumed: %s %s no distribution and %s drawn evenly from what %s can be. The shares hang on "
                 "that.",
                 names, count == 1 ? "has" : "have", count == 1 ? "is" : "are", count == 1 ? "it" : "they");
    }
    ss_point(b, points, "%s",
             set->lower == NULL
                 ? "Assumed: the unknowns have nothing to do with each other (correlations can be described)."
                 : "Correlations are those of normal scores, as described; all others are taken as 0. An "
                   "unknown can borrow "
                   "its rank correlation from one that it goes with.");
}

static void say_runs(ss_builder *b, ss_points *points, const ss_sample *sample) {
    if (sample->stopped) {
        ss_point(b, points, "Stopped after %d of %d draws: this is of these alone.", sample->done,
                 sample->draws);
    }
    if (sample->answered < sample->done) {
        ss_point(b, points, "%s could not be rated and are in no share; why is in the table below.",
                 ss_words_count(b, sample->done - sample->answered, "draw", "draws"));
    }
}

/* How far the draws can be trusted. */
static void say_searched(ss_builder *b, ss_points *points, const ss_sample *sample) {
    if (b->results->searched == 0) {
        return;
    }
    const char *bridges = ss_words_count(b, b->results->searched, "bridge", "bridges");
    if (isnan(b->results->full[0])) {
        ss_point(b, points, "Each draw is rated at the places where trucks govern in %s, searched in full.",
                 bridges);
        return;
    }
    ss_point(
        b, points,
        "Each draw is rated at the places where trucks govern in %s, searched in full. The least of them, "
        "%s, was searched in full at the end and rates %s.",
        bridges, said(b, sample->answers[0].least), said(b, b->results->full[0]));
}

static void say_answer(ss_builder *b) {
    const ss_sample *sample = b->results->sample;
    ss_points points = {.count = 0};
    if (sample->answered == 0) {
        ss_build_sentence(b, "None of %d draws could be rated%s%s.", sample->done,
                          sample->reason_count > 0 ? ": " : "",
                          sample->reason_count > 0 ? sample->reasons[0].text : "");
        return;
    }
    say_spread(b, sample);
    say_below(b, &points, sample);
    say_measure(b, &points, sample);
    say_runs(b, &points, sample);
    say_searched(b, &points, sample);
    say_assumed(b, &points);
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
    const ss_sample *sample = b->results->sample;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "sample",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .record = true,
                                                   .column_count = SS_COLUMN_COUNT(summary_columns),
                                                   .columns = summary_columns});
    ss_sheet_row(&sheet);
    ss_sheet_integer(&sheet, sample->draws);
    ss_sheet_integer(&sheet, sample->done);
    ss_sheet_integer(&sheet, sample->answered);
    ss_sheet_flag(&sheet, sample->stopped);
    ss_sheet_value(&sheet, (double)sample->seed);
    ss_sheet_value(&sheet, sample->limit);
    ss_sheet_integer(&sheet, sample->below);
    number(&sheet, sample->answered > 0 ? (double)sample->below / sample->answered : (double)NAN);
    number(&sheet, sample->below_low);
    number(&sheet, sample->below_high);
    ss_sheet_value(&sheet, SS_SAMPLE_CONFIDENCE);
    number(&sheet, b->results->described);
    ss_sheet_integer(&sheet, b->results->searched);
    number(&sheet, sample->answers[0].least);
    number(&sheet, b->results->searched > 0 ? b->results->full[0] : (double)NAN);
}

static void add_quantiles(ss_builder *b) {
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){.key = "sample_quantiles",
                       .title = "How the answers spread",
                       .note =
                           "At least and at most: where the true value lies 19 times in 20, whatever the "
                           "distribution, if the draws were independent; spread evenly as they are, they are "
                           "mostly surer.",
                       .audience = SS_FOR_ALL,
                       .column_count = SS_COLUMN_COUNT(quantile_columns),
                       .columns = quantile_columns});
    for (int a = 0; a < b->results->answer_count; a++) {
        const ss_answer *answer = &b->results->answers[a];
        if (isnan(b->results->sample->answers[a].least)) {
            continue; /* no draw has it */
        }
        for (int k = 0; k < SS_SAMPLE_QUANTILES; k++) {
            const ss_sample_quantile *q = &b->results->sample->answers[a].quantiles[k];
            if (isinf(b->results->sample->answers[a].least) && k != MIDDLE) {
                continue; /* no limit in any draw: once is enough */
            }
            ss_sheet_row(&sheet);
            ss_sheet_text(&sheet, answer->title);
            ss_sheet_value(&sheet, q->share);
            ss_answer_cells(&sheet, answer, q->value);
            ss_answer_cells(&sheet, answer, q->low);
            ss_answer_cells(&sheet, answer, q->high);
        }
    }
}

static void add_correlation(ss_builder *b, ss_audience audience, int answer) {
    const ss_sample *sample = b->results->sample;
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){.key = "sample_correlations",
                       .title = "What the rating goes with",
                       .note =
                           "1: it rises whenever the unknown does; -1: it falls; 0: neither. What turns back "
                           "within its range can matter and show little here; bounds tells.",
                       .audience = audience,
                       .column_count = SS_COLUMN_COUNT(correlation_columns),
                       .columns = correlation_columns});
    const bool people = audience == SS_FOR_PEOPLE;
    for (int a = people ? answer : 0; a < (people ? answer + 1 : b->results->answer_count); a++) {
        for (int k = 0; k < b->results->bridge->unknowns.count; k++) {
            const int i = sample->order[k];
            ss_sheet_row(&sheet);
            ss_sheet_text(&sheet, ss_unknown_of(b, i)->name);
            ss_sheet_text(&sheet, b->results->answers[a].key);
            number(&sheet, sample->answers[a].correlation[i]);
            number(&sheet, sample->answers[a].correlation[i]);
        }
    }
}

static void add_reasons(ss_builder *b) {
    const ss_sample *sample = b->results->sample;
    if (sample->reason_count == 0) {
        return;
    }
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "sample_failures",
                                                   .title = "Draws that could not be rated",
                                                   .audience = SS_FOR_ALL,
                                                   .column_count = SS_COLUMN_COUNT(reason_columns),
                                                   .columns = reason_columns});
    for (int i = 0; i < sample->reason_count; i++) {
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, sample->reasons[i].text);
        ss_sheet_integer(&sheet, sample->reasons[i].count);
    }
}

/* Every draw with its answers, for programs; columns have the names of answers and unknowns. */
static void add_draws(ss_builder *b) {
    const ss_sample *sample = b->results->sample;
    const int unknowns = b->results->bridge->unknowns.count;
    const int answers = b->results->answer_count;
    const int count = 1 + answers + unknowns;
    ss_column *columns = ss_arena_alloc(&b->report->arena, (size_t)count, sizeof *columns);
    if (columns == NULL) {
        b->failed = true;
        return;
    }
    columns[0] = (ss_column){.key = "draw", .title = ""};
    for (int a = 0; a < answers; a++) {
        columns[1 + a] = (ss_column){
            .key = b->results->answers[a].key, .title = "", .dimension = b->results->answers[a].dimension};
    }
    for (int i = 0; i < unknowns; i++) {
        const ss_unknown *u = ss_unknown_of(b, i);
        const bool listed = u->kind == SS_UNKNOWN_DISCRETE;
        columns[1 + answers + i] = (ss_column){.key = ss_build_text(b, "at.%s", u->name),
                                               .title = "",
                                               .dimension = listed ? SS_DIM_NUMBER : u->dimension};
    }
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "sample_draws",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .column_count = count,
                                                   .columns = columns});
    for (int k = 0; k < sample->done; k++) {
        ss_sheet_row(&sheet);
        ss_sheet_integer(&sheet, k + 1);
        for (int a = 0; a < answers; a++) {
            number(&sheet, sample->values[(size_t)k * (size_t)answers + (size_t)a]);
        }
        for (int i = 0; i < unknowns; i++) {
            const ss_unknown *u = ss_unknown_of(b, i);
            const double value = sample->points[(size_t)k * (size_t)unknowns + (size_t)i];
            if (u->kind == SS_UNKNOWN_DISCRETE) {
                ss_sheet_text(&sheet, u->words[(int)value]);
            } else {
                ss_sheet_value(&sheet, value);
            }
        }
    }
}

void ss_part_sample(ss_builder *b) {
    say_answer(b);
    add_summary(b);
    if (b->results->sample->answered > 0) {
        ss_study_figure(b, ss_figure_sample);
        add_quantiles(b);
        add_correlation(b, SS_FOR_PEOPLE, 0);
        add_correlation(b, SS_FOR_PROGRAMS, 0);
    }
    add_reasons(b);
    add_draws(b);
}
