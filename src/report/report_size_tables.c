/* report_size_tables.c - everything that a search for a concrete deck tried, its targets and its frontier. */
#include <math.h>

#include "base/numeric.h"
#include "report/report_parts.h"
#include "report/report_ratings.h"
#include "report/report_size.h"
#include "report/report_words.h"

#define CUBIC_YARD 0.764554857984 /* m3 */

/* "HS20-44 by LFR, inventory level". */
static const char *target_words(ss_builder *b, int target) {
    const ss_sizing_target *const t = &b->results->size->sizing->targets[target];
    const ss_bridge *const bridge = b->results->bridge;
    const char *const truck = t->vehicle < 0 ? "every rated truck" : bridge->vehicles[t->vehicle].name;
    const char *const method =
        t->method < 0 ? "" : ss_build_text(b, " by %s", ss_method_name((ss_method)t->method));
    const char *const level =
        t->level < 0 ? "" : ss_build_text(b, ", %s level", ss_level_name((ss_level)t->level));
    return ss_build_text(b, "%s%s%s", truck, method, level);
}

static const ss_column target_columns[] = {
    {"target", "of", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"due", "least factor", SS_DIM_NUMBER, -2, SS_FOR_ALL},
};

static void add_targets(ss_builder *b) {
    const ss_sizing *const s = b->results->size->sizing;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "size_targets",
                                                   .title = "What is to be reached",
                                                   .audience = SS_FOR_ALL,
                                                   .column_count = SS_COLUMN_COUNT(target_columns),
                                                   .columns = target_columns});
    for (int i = 0; i < s->target_count; i++) {
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, target_words(b, i));
        ss_sheet_value(&sheet, s->targets[i].factor);
    }
}

static const ss_column option_columns[] = {
    {"option", "what is done", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"kind", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"thickness", "", SS_DIM_SMALL_LENGTH, 0, SS_FOR_PROGRAMS},
    {"strength", "", SS_DIM_STRESS, 0, SS_FOR_PROGRAMS},
    {"pitch", "", SS_DIM_SMALL_LENGTH, 0, SS_FOR_PROGRAMS},
    {"lines", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"shored", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"factor", "least factor", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"factor", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"margin", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"added", "adds", SS_DIM_FORCE, 3, SS_FOR_ALL},
    {"cost", "costs", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"cost", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"connectors", "connectors", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"concrete", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"verdict", "result", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"frontier", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"chosen", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"full", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"governs", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"check", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"use", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"missed", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"unknown", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"stopped_by", "what stops it, or governs", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"stopped_by", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static void put_value(ss_sheet *sheet, double value) {
    if (isnan(value)) {
        ss_sheet_none(sheet);
    } else {
        ss_sheet_value(sheet, value);
    }
}

static void put_choice(ss_sheet *sheet, const ss_size_option *o) {
    static const char *const kinds[] = {"as it is", "deck", "other"};
    const ss_sizing *const s = sheet->builder->results->size->sizing;
    ss_sheet_text(sheet, o->name);
    ss_sheet_text(sheet, kinds[o->kind]);
    put_value(sheet, o->thickness);
    put_value(sheet, o->strength);
    put_value(sheet, o->pitch);
    ss_sheet_text(sheet, o->set < 0 ? NULL : s->sets[o->set].name);
    if (o->kind == SS_SIZE_DECK) {
        ss_sheet_flag(sheet, o->shored);
    } else {
        ss_sheet_none(sheet);
    }
}

static void put_option(ss_sheet *sheet, const ss_size_option *o, bool chosen) {
    ss_builder *const b = sheet->builder;
    const bool rated = o->failure == NULL;
    const bool deck = o->kind == SS_SIZE_DECK && rated;
    const char *const stop = ss_size_stopped_by(b, o);
    ss_sheet_row(sheet);
    put_choice(sheet, o);
    put_value(sheet, rated ? ss_rated_cut(o->factor[o->target], 2) : (double)NAN);
    put_value(sheet, rated ? o->factor[o->target] : (double)NAN);
    put_value(sheet, o->margin);
    put_value(sheet, o->added);
    ss_sheet_text(sheet, !rated || isnan(o->cost) ? NULL : ss_size_money(b, o->cost));
    put_value(sheet, o->cost);
    if (deck) {
        ss_sheet_integer(sheet, o->connectors);
        /* No dimension of the units is a volume. */
        ss_sheet_value(sheet, o->concrete / (b->report->units == SS_UNITS_SI ? 1.0 : CUBIC_YARD));
    } else {
        ss_sheet_none(sheet);
        ss_sheet_none(sheet);
    }
    ss_sheet_text(sheet, ss_size_verdict(o));
    ss_sheet_flag(sheet, o->frontier);
    ss_sheet_flag(sheet, chosen);
    ss_sheet_flag(sheet, o->full);
    ss_sheet_text(sheet, o->governs);
    ss_sheet_text(sheet, o->check);
    put_value(sheet, o->use);
    ss_sheet_integer(sheet, o->missed);
    ss_sheet_integer(sheet, o->unknown);
    ss_sheet_text(sheet, stop[0] == '\0' ? o->governs : stop);
    ss_sheet_text(sheet, stop);
}

static void add_options(ss_builder *b) {
    const ss_size *const size = b->results->size;
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){
               .key = "size_options",
               .title = "Everything that was tried",
               .note = "\"Adds\" is dead load more than today, for abutments and piles. Of decks that pass, "
                       "what governs is named; of others, what stops them.",
               .audience = SS_FOR_ALL,
               .column_count = SS_COLUMN_COUNT(option_columns),
               .columns = option_columns});
    for (int i = 0; i < size->count; i++) {
        put_option(&sheet, &size->options[i], i == size->best);
    }
}

static const ss_column frontier_columns[] = {
    {"option", "what is done", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"factor", "least factor", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"factor", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"added", "adds", SS_DIM_FORCE, 3, SS_FOR_ALL},
    {"cost", "costs", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"cost", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"verdict", "result", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

static bool goes_before(const ss_size_option *a, const ss_size_option *b) {
    /* With and without props a deck weighs the same but for rounding. */
    return ss_close(a->added, b->added, 1e-9) ? a->margin < b->margin : a->added < b->added;
}

int ss_size_next_of_frontier(const ss_size *size, int last) {
    const ss_size_option *const all = size->options;
    int next = -1;
    for (int i = 0; i < size->count; i++) {
        const bool after =
            last < 0 || goes_before(&all[last], &all[i]) || (!goes_before(&all[i], &all[last]) && i > last);
        if (all[i].frontier && after && (next < 0 || goes_before(&all[i], &all[next]))) {
            next = i;
        }
    }
    return next;
}

static void add_frontier(ss_builder *b) {
    const ss_size *const size = b->results->size;
    ss_sheet sheet = ss_build_table(
        b,
        &(ss_table){
            .key = "size_frontier",
            .title = "The frontier: more rating costs more weight or money",
            .note = "All that keep their checks and that no other beats in factor, weight and cost at once.",
            .audience = SS_FOR_ALL,
            .column_count = SS_COLUMN_COUNT(frontier_columns),
            .columns = frontier_columns});
    for (int i = ss_size_next_of_frontier(size, -1); i >= 0; i = ss_size_next_of_frontier(size, i)) {
        const ss_size_option *const o = &size->options[i];
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, o->name);
        ss_sheet_value(&sheet, ss_rated_cut(o->factor[o->target], 2));
        ss_sheet_value(&sheet, o->factor[o->target]);
        ss_sheet_value(&sheet, o->added);
        ss_sheet_text(&sheet, isnan(o->cost) ? NULL : ss_size_money(b, o->cost));
        put_value(&sheet, o->cost);
        ss_sheet_text(&sheet, ss_size_verdict(o));
    }
}

void ss_size_tables(ss_builder *b) {
    add_targets(b);
    add_frontier(b);
    add_options(b);
}
