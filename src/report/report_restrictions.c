/* report_restrictions.c - what a truck could bring if it kept to the middle, to a line or to a creep. */
#include "report/report_ratings.h"

#include <math.h>

#include "report/report_words.h"

static const ss_column restriction_columns[] = {
    {"truck", "truck", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"how", "if it keeps", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"rf", "factor", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"free", "else", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"member", "what governs then", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"effect", "in", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"x", "at x", SS_DIM_LENGTH, -1, SS_FOR_PEOPLE},
};

/* The weakest of all crossings of a vehicle that are no alternatives, or -1. */
static int weakest_free(const ss_results *results, int method, int vehicle) {
    int weakest = -1;
    for (int t = 0; t < results->rated->traffic_count; t++) {
        if (results->placements->traffic[t].vehicle != vehicle || results->placements->traffic[t].run >= 0 ||
            ss_rated_alternative(results, t)) {
            continue;
        }
        const int i = ss_rated_weakest(results, method, t);
        if (i >= 0 &&
            (weakest < 0 || ss_rated_less(results->rated->items[i].rf, results->rated->items[weakest].rf))) {
            weakest = i;
        }
    }
    return weakest;
}

static const char *restriction_words(ss_builder *b, int traffic) {
    const ss_crossing *crossing = ss_words_crossing(b->results, traffic);
    switch (crossing == NULL ? SS_CROSSING_ALONE : crossing->kind) {
    case SS_CROSSING_CENTRED: return "to the middle of the roadway, alone";
    case SS_CROSSING_LINE:
        return ss_build_text(b, "to the signed line, its middle %s from the left edge, alone",
                             ss_words_length(b, crossing->y));
    case SS_CROSSING_BESIDE:
    case SS_CROSSING_ALONE: break;
    }
    return "off the bridge until it is alone";
}

/* A truck that passes without a restriction needs none. */
static bool is_needed(const ss_results *results, const ss_posting_row *row) {
    const int free = weakest_free(results, (int)results->posting->method, row->vehicle);
    return (row->alternative || !isnan(row->slow_rf)) && (free < 0 || results->rated->items[free].rf < 1.0);
}

/* `free`: the item that governs without the restriction, or -1. */
static void put_restriction(ss_sheet *sheet, const ss_posting_row *row, const char *how, double rf,
                            int free) {
    const ss_results *results = sheet->builder->results;
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, results->bridge->vehicles[row->vehicle].name);
    ss_sheet_text(sheet, how);
    ss_sheet_value(sheet, ss_rated_cut(rf, 2));
    if (free < 0) {
        ss_sheet_none(sheet);
    } else {
        ss_sheet_value(sheet, ss_rated_cut(results->rated->items[free].rf, 2));
    }
}

/* A crossing under a restriction, with what governs then. */
static void put_crossing(ss_sheet *sheet, const ss_posting_row *row) {
    ss_builder *b = sheet->builder;
    const ss_results *results = b->results;
    const int i = ss_rated_weakest(results, (int)results->posting->method, row->traffic);
    if (i < 0) {
        return;
    }
    const ss_rating_item *item = &results->rated->items[i];
    put_restriction(sheet, row, restriction_words(b, row->traffic), item->rf,
                    weakest_free(results, (int)results->posting->method, row->vehicle));
    ss_sheet_text(sheet, ss_words_member(b, item->effect.member, item->effect.index));
    ss_sheet_text(sheet, ss_rated_failure(item));
    ss_sheet_value(sheet, ss_words_x(results->bridge, &item->effect));
}

/* A creep changes nothing else: it is held against the same crossing at speed. */
static void put_slow(ss_sheet *sheet, const ss_posting_row *row) {
    ss_builder *b = sheet->builder;
    const int free = ss_rated_weakest(b->results, (int)b->results->posting->method, row->traffic);
    const char *speed = b->report->units == SS_UNITS_SI ? "16 km/h" : "10 mph";
    put_restriction(sheet, row,
                    ss_build_text(b, "to %s or less%s", speed, row->meeting ? ", others beside it" : ""),
                    row->slow_rf, free);
}

void ss_rated_restrictions(ss_builder *b) {
    const ss_results *results = b->results;
    const ss_posting *posting = results->posting;
    bool any = false;
    for (int i = 0; i < posting->row_count; i++) {
        any = any || is_needed(results, &posting->rows[i]);
    }
    if (!any) {
        return;
    }
    ss_build_heading(b, SS_FOR_PEOPLE, "What a restriction would bring");
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){.key = "restrictions",
                       .title = "",
                       .note =
                           "Of trucks below 1.00; \"else\" is the smallest factor of that truck without it, "
                           "at a creep that of the same crossing. "
                           "Offered, not counted: no restriction enters the answer or the sign above, and it "
                           "is worth what its keeping is worth. The factor at a creep is an estimate: the "
                           "dynamic allowance is taken off, the bearings stay as they are.",
                       .audience = SS_FOR_PEOPLE,
                       .column_count = SS_COLUMN_COUNT(restriction_columns),
                       .columns = restriction_columns});
    for (int i = 0; i < posting->row_count; i++) {
        const ss_posting_row *row = &posting->rows[i];
        if (is_needed(results, row) && row->alternative) {
            put_crossing(&sheet, row);
        } else if (is_needed(results, row)) {
            put_slow(&sheet, row);
        }
    }
}
