/* report_posting.c - what a sign would say, the safe load of every truck, and the inventory's items. */
#include "sillspan/posting.h"

#include <math.h>
#include <string.h>

#include "report/report_ratings.h"
#include "report/report_words.h"

static const double ton_N = 8896.443230521; /* 2000 pounds-force, NIST SP 811 */
static const double tonne_N = 1000.0 * SS_GRAVITY;

static double ton_of(const ss_builder *b) {
    return b->report->units == SS_UNITS_SI ? tonne_N : ton_N;
}

/* ---- for programs -------------------------------------------------------------------------------- */

static const ss_column load_columns[] = {
    {"truck", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"crossing", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"beside", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"group", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"meeting", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"alternative", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"counts", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"rf", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"weight", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"safe", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"tandem", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"axle", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"safe_axle", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"slow_rf", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"slow", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"rating", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static void put_known(ss_sheet *sheet, double value) {
    if (isnan(value)) {
        ss_sheet_none(sheet);
    } else {
        ss_sheet_value(sheet, value);
    }
}

static void put_load(ss_sheet *sheet, const ss_posting_row *row) {
    const ss_results *results = sheet->builder->results;
    const ss_crossing *crossing = ss_words_crossing(results, row->traffic);
    const bool beside = crossing != NULL && crossing->kind == SS_CROSSING_BESIDE && crossing->beside >= 0;
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, results->bridge->vehicles[row->vehicle].name);
    ss_sheet_text(sheet, ss_words_crossing_key(results, row->traffic));
    ss_sheet_text(sheet, beside ? results->bridge->vehicles[crossing->beside].name : NULL);
    ss_sheet_text(sheet, ss_posting_group_name(row->group));
    ss_sheet_flag(sheet, row->meeting);
    ss_sheet_flag(sheet, row->alternative);
    ss_sheet_flag(sheet, row->counts);
    put_known(sheet, row->rf);
    ss_sheet_value(sheet, row->weight_N);
    put_known(sheet, row->safe_N);
    ss_sheet_flag(sheet, row->tandem);
    ss_sheet_value(sheet, row->axle_N);
    put_known(sheet, row->safe_axle_N);
    put_known(sheet, row->slow_rf);
    put_known(sheet, row->slow_N);
    if (row->item < 0) {
        ss_sheet_none(sheet);
    } else {
        ss_sheet_integer(sheet, row->item);
    }
}

static const ss_column sign_columns[] = {
    {"meeting", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"state", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"words", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"single", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"combination", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"farm", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"emergency_axle", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"emergency_tandem", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"emergency_gross", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
};

static void put_sign(ss_sheet *sheet, const ss_posting_sign *sign, bool meeting) {
    ss_sheet_row(sheet);
    ss_sheet_flag(sheet, meeting);
    ss_sheet_text(sheet, ss_posting_state_name(sign->state));
    ss_sheet_text(sheet, sign->words);
    put_known(sheet, sign->group_N[SS_POSTING_SINGLE]);
    put_known(sheet, sign->group_N[SS_POSTING_COMBINATION]);
    put_known(sheet, sign->group_N[SS_POSTING_FARM]);
    put_known(sheet, sign->axle_N);
    put_known(sheet, sign->tandem_N);
    put_known(sheet, sign->emergency_N);
}

static void add_programs(ss_builder *b) {
    const ss_posting *posting = b->results->posting;
    ss_build_value(b, SS_FOR_PROGRAMS, "posting.recommendation", posting->recommendation);
    ss_build_value(b, SS_FOR_PROGRAMS, "posting.method", ss_method_name(posting->method));
    ss_build_value(b, SS_FOR_PROGRAMS, "posting.level", ss_level_name(posting->level));
    ss_sheet signs = ss_build_table(b, &(ss_table){.key = "posting.signs",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .column_count = SS_COLUMN_COUNT(sign_columns),
                                                   .columns = sign_columns});
    put_sign(&signs, &posting->free, true);
    put_sign(&signs, &posting->one, false);
    ss_sheet loads = ss_build_table(b, &(ss_table){.key = "posting.loads",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .column_count = SS_COLUMN_COUNT(load_columns),
                                                   .columns = load_columns});
    for (int i = 0; i < posting->row_count; i++) {
        put_load(&loads, &posting->rows[i]);
    }
    ss_build_list(b, SS_FOR_PROGRAMS, "posting.reasons", posting->reasons, posting->reason_count);
}

/* ---- for people ---------------------------------------------------------------------------------- */

static const ss_column safe_columns[] = {
    {"truck", "truck", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"rf", "factor", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"weight", "weighs", SS_DIM_NUMBER, -1, SS_FOR_PEOPLE},
    {"safe", "safe load", SS_DIM_NUMBER, -1, SS_FOR_PEOPLE},
    {"axles", "heaviest", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"axle", "is", SS_DIM_NUMBER, -1, SS_FOR_PEOPLE},
    {"safe_axle", "safe", SS_DIM_NUMBER, -1, SS_FOR_PEOPLE},
    {"group", "posted as", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
};

static void put_tons(ss_sheet *sheet, double weight_N) {
    put_known(sheet, weight_N / ton_of(sheet->builder));
}

static void add_safe_loads(ss_builder *b) {
    const ss_posting *posting = b->results->posting;
    const bool si = b->report->units == SS_UNITS_SI;
    const char *brackets = "";
    for (int i = 0; i < posting->row_count; i++) {
        const ss_posting_row *row = &posting->rows[i];
        if (!row->alternative && !isnan(row->rf) && !row->counts) {
            brackets = " A truck in brackets does not enter the sign.";
        }
    }
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){
               .key = "safe_loads",
               .title = ss_build_text(b, "Safe loads by %s, %s level, in %s", ss_method_name(posting->method),
                                      ss_level_name(posting->level), si ? "tonnes" : "tons of 2000 lb"),
               .note = posting->method == SS_METHOD_LRFR
                           ? ss_build_text(b, "%s%s",
                                           "Safe load = weight / 0.7 x (factor - 0.3) below a factor "
                                           "of 1, nothing below 0.3.",
                                           brackets)
                           : ss_build_text(b, "%s%s", "Safe load = factor x weight below a factor of 1.",
                                           brackets),
               .audience = SS_FOR_PEOPLE,
               .column_count = SS_COLUMN_COUNT(safe_columns),
               .columns = safe_columns});
    for (int i = 0; i < posting->row_count; i++) {
        const ss_posting_row *row = &posting->rows[i];
        if (row->alternative || isnan(row->rf)) {
            continue;
        }
        const char *truck = ss_words_traffic(b, row->traffic);
        const bool axles = row->group == SS_POSTING_EMERGENCY;
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, row->counts ? truck : ss_build_text(b, "(%s)", truck));
        ss_sheet_value(&sheet, ss_rated_cut(row->rf, 2));
        put_tons(&sheet, row->weight_N);
        put_tons(&sheet, row->safe_N);
        ss_sheet_text(&sheet, !axles ? NULL : row->tandem ? "tandem" : "axle");
        put_tons(&sheet, axles ? row->axle_N : (double)NAN);
        put_tons(&sheet, axles ? row->safe_axle_N : (double)NAN);
        ss_sheet_text(&sheet, ss_posting_group_name(row->group));
    }
}

static const ss_column record_columns[] = {
    {"system", "system", SS_DIM_NUMBER, 0, SS_FOR_ALL}, {"item", "item", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"title", "title", SS_DIM_NUMBER, 0, SS_FOR_ALL},   {"value", "value", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"basis", "from", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

static void add_records(ss_builder *b) {
    const ss_posting *posting = b->results->posting;
    ss_sheet sheet = ss_build_table(
        b,
        &(ss_table){.key = "records",
                    .title = "",
                    .note = "Where no value stands, a rating does not give it: the owner's records have it.",
                    .audience = SS_FOR_ALL,
                    .column_count = SS_COLUMN_COUNT(record_columns),
                    .columns = record_columns});
    for (int i = 0; i < posting->record_count; i++) {
        const ss_record_item *item = &posting->records[i];
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, item->system);
        ss_sheet_text(&sheet, item->item);
        ss_sheet_text(&sheet, item->title);
        ss_sheet_text(&sheet, item->value);
        ss_sheet_text(&sheet, item->basis);
    }
}

void ss_part_posting(ss_builder *b) {
    const ss_posting *posting = b->results->posting;
    if (posting == NULL) {
        return;
    }
    ss_build_heading(b, SS_FOR_PEOPLE, "Posting");
    ss_build_sentence(b, "%s", posting->recommendation);
    add_safe_loads(b);
    ss_build_list(b, SS_FOR_ALL, "posting.notes", posting->notes, posting->note_count);
    add_programs(b);
    ss_rated_restrictions(b);
}

void ss_part_inventory(ss_builder *b) {
    if (b->results->posting != NULL) {
        ss_build_heading(b, SS_FOR_PEOPLE, "For the inventory of bridges");
        add_records(b);
    }
}
