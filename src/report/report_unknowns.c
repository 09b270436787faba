/* report_unknowns.c - what is unknown about a bridge and what it can be, as a table and in words. */
#include "report/report_unknowns.h"

#include <math.h>

#include "report/report_parts.h"
#include "report/report_ratings.h"
#include "report/report_words.h"

/* ---- words and cells ------------------------------------------------------------------------------ */

const ss_unknown *ss_unknown_of(const ss_builder *b, int i) {
    return &b->results->bridge->unknowns.items[i];
}

const char *ss_unknown_said(ss_builder *b, const ss_unknown *unknown, double value) {
    char buffer[64];
    if (isinf(value)) {
        return "no limit";
    }
    return ss_build_text(b, "%s",
                         ss_unknown_words(unknown, value, b->report->units, 3, buffer, sizeof buffer));
}

const char *ss_answer_said(ss_builder *b, const ss_answer *answer, double value) {
    if (isnan(value)) {
        return "not known";
    }
    if (isinf(value)) {
        return value > 0.0 ? "no limit" : "no limit downwards";
    }
    return answer->dimension == SS_DIM_NUMBER ? ss_rated_factor(b, value, 2)
                                              : ss_words_quantity(b, value, answer->dimension, 3);
}

void ss_unknown_cells(ss_sheet *sheet, const ss_unknown *unknown, double value) {
    if (isnan(value)) {
        ss_sheet_none(sheet);
        ss_sheet_none(sheet);
        return;
    }
    const char *words = ss_unknown_said(sheet->builder, unknown, value);
    ss_sheet_text(sheet, words);
    if (unknown->kind == SS_UNKNOWN_DISCRETE) {
        ss_sheet_text(sheet, words);
    } else {
        ss_sheet_quantity(sheet, value, unknown->dimension);
    }
}

void ss_rating_cells(ss_sheet *sheet, double value, bool cut) {
    if (isnan(value)) {
        ss_sheet_none(sheet);
        ss_sheet_none(sheet);
        return;
    }
    ss_sheet_value(sheet, cut ? ss_rated_cut(value, 2) : value);
    ss_sheet_value(sheet, value);
}

void ss_answer_cells(ss_sheet *sheet, const ss_answer *answer, double value) {
    if (isnan(value)) {
        ss_sheet_none(sheet);
        ss_sheet_none(sheet);
        return;
    }
    ss_sheet_text(sheet, ss_answer_said(sheet->builder, answer, value));
    ss_sheet_quantity(sheet, value, answer->dimension);
}

const char *ss_unknown_names(ss_builder *b, const bool *chosen, int *count) {
    const char *names[SS_UNKNOWNS];
    *count = 0;
    for (int i = 0; i < b->results->bridge->unknowns.count; i++) {
        if (chosen[i]) {
            names[(*count)++] = ss_build_text(b, "\"%s\"", ss_unknown_of(b, i)->name);
        }
    }
    return ss_words_join(b, names, *count);
}

/* ---- the table ------------------------------------------------------------------------------------ */

static const ss_column columns[] = {
    {"name", "unknown", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"keys", "keys that it changes", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"described", "described as", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"described", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"can_be", "it can be", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"low", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"high", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"unit", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"distribution", "how likely", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

static const char *list_words(ss_builder *b, const ss_unknown *u) {
    const char *text = "";
    for (int k = 0; k < u->text_count; k++) {
        const char *percent = ss_words_decimals(b, 100.0 * u->weights[k], 0);
        text = u->stated ? ss_build_text(b, "%s%s%s (%s %%)", text, k == 0 ? "" : ", ", u->words[k], percent)
                         : ss_build_text(b, "%s%s%s", text, k == 0 ? "" : ", ", u->words[k]);
    }
    return text;
}

static const char *can_be(ss_builder *b, const ss_unknown *u) {
    if (u->kind == SS_UNKNOWN_DISCRETE) {
        return list_words(b, u);
    }
    return ss_build_text(b, "%s to %s", ss_unknown_said(b, u, u->box_low),
                         ss_unknown_said(b, u, u->box_high));
}

/* A standard deviation is a difference: it has no sign and no list of words. */
static const char *bell_words(ss_builder *b, const ss_unknown *u, const char *name) {
    const char *cut = isfinite(u->low) || isfinite(u->high) ? ", cut off" : "";
    return ss_build_text(b, "%s, mean %s, standard deviation %s%s", name, ss_unknown_said(b, u, u->mean),
                         ss_words_quantity(b, u->sd, u->dimension, 3), cut);
}

static const char *likely(ss_builder *b, const ss_unknown *u) {
    switch (u->kind) {
    case SS_UNKNOWN_NORMAL: return bell_words(b, u, "normal");
    case SS_UNKNOWN_LOGNORMAL: return bell_words(b, u, "lognormal");
    case SS_UNKNOWN_TRIANGULAR:
        return ss_build_text(b, "triangular, most likely %s", ss_unknown_said(b, u, u->mode));
    case SS_UNKNOWN_DISCRETE: return u->stated ? "as stated" : "not said";
    case SS_UNKNOWN_UNIFORM: break;
    }
    if (!u->stated) {
        return u->log ? "not said; in ratios" : "not said";
    }
    return u->log ? "uniform, in ratios" : "uniform";
}

static const char *keys_of(ss_builder *b, const ss_unknown *u) {
    return ss_words_join(b, u->paths, u->path_count);
}

void ss_part_unknowns(ss_builder *b) {
    if (b->results->bridge->unknowns.count == 0) {
        return;
    }
    ss_build_heading(b, SS_FOR_PEOPLE, "Unknowns");
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){.key = "unknowns",
                       .title = "What is unknown",
                       .note = "Of a distribution that is not cut off the middle 99 % count as "
                               "what it can be.",
                       .audience = SS_FOR_ALL,
                       .column_count = SS_COLUMN_COUNT(columns),
                       .columns = columns});
    for (int i = 0; i < b->results->bridge->unknowns.count; i++) {
        const ss_unknown *u = ss_unknown_of(b, i);
        const bool listed = u->kind == SS_UNKNOWN_DISCRETE;
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, u->name);
        ss_sheet_text(&sheet, keys_of(b, u));
        ss_unknown_cells(&sheet, u, u->described);
        ss_sheet_text(&sheet, can_be(b, u));
        if (listed) {
            ss_sheet_none(&sheet);
            ss_sheet_none(&sheet);
            ss_sheet_none(&sheet);
        } else {
            ss_sheet_quantity(&sheet, u->box_low, u->dimension);
            ss_sheet_quantity(&sheet, u->box_high, u->dimension);
            ss_sheet_text(&sheet, ss_units_name(u->dimension, b->report->units));
        }
        ss_sheet_text(&sheet, likely(b, u));
    }
}
