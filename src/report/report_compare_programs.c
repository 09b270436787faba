/* report_compare_programs.c - the numbers of all variants for programs: a row for each. */
#include "report/report_compare.h"

#include <math.h>
#include <string.h>

#include "report/report_parts.h"

typedef struct program_table {
    ss_compare_question question;
    const char *key, *value;
    ss_dimension dimension;
} program_table;

static const program_table program_tables[] = {
    {SS_ASKED_MOMENT, "moments", "moment", SS_DIM_MOMENT},
    {SS_ASKED_TOTAL, "total_moments", "moment", SS_DIM_MOMENT},
    {SS_ASKED_DEFLECTION, "deflections", "deflection", SS_DIM_SMALL_LENGTH},
    {SS_ASKED_RISE, "rises", "rise", SS_DIM_SMALL_LENGTH},
    {SS_ASKED_CAR_SHARE, "car_shares", "share", SS_DIM_NUMBER},
    {SS_ASKED_LINE_SHARE, "line_shares", "share", SS_DIM_NUMBER},
    {SS_ASKED_FACTOR, "factors", "rf", SS_DIM_NUMBER},
};

/* The value of the base that is of the same thing, NULL where the two cannot be set against each other;
 * sharing has its worst truck in each variant. */
static const ss_compare_value *of_base(const ss_comparison *all, const ss_compare_value *one) {
    const int base = ss_comparison_base(all);
    const bool shares = one->question == SS_ASKED_CAR_SHARE || one->question == SS_ASKED_LINE_SHARE;
    if (!ss_comparison_counts(all, one->variant, one->question) ||
        !ss_comparison_counts(all, base, one->question)) {
        return NULL;
    }
    for (int i = 0; i < all->value_count; i++) {
        const ss_compare_value *const other = &all->values[i];
        if (other->variant == base && other->question == one->question &&
            ss_comparison_alike(other, one, SS_BY_GIRDER) &&
            (shares || ss_comparison_alike(other, one, SS_BY_TRUCK))) {
            return other;
        }
    }
    return NULL;
}

static void put_known(ss_sheet *sheet, double value) {
    if (isnan(value)) {
        ss_sheet_none(sheet);
    } else {
        ss_sheet_value(sheet, value);
    }
}

static void add_programs(ss_builder *b, const ss_comparison *all, const program_table *t) {
    const ss_column all_columns[] = {
        {.key = "variant", .title = ""},
        {.key = "car", .title = ""},
        {.key = "line", .title = ""},
        {.key = "truck", .title = ""},
        {.key = "x", .title = "", .dimension = SS_DIM_LENGTH},
        {.key = t->value, .title = "", .dimension = t->dimension},
        {.key = "change", .title = ""},
        {.key = "check", .title = ""},
        {.key = "member", .title = ""},
        {.key = "effect", .title = ""},
    };
    ss_column *const columns =
        ss_arena_alloc(&b->report->arena, SS_COLUMN_COUNT(all_columns), sizeof *columns);
    if (columns == NULL) {
        b->failed = true;
        return;
    }
    memcpy(columns, all_columns, sizeof all_columns);
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = t->key,
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .column_count = SS_COLUMN_COUNT(all_columns),
                                                   .columns = columns});
    for (int i = 0; i < all->value_count; i++) {
        const ss_compare_value *const one = &all->values[i];
        if (one->question != t->question) {
            continue;
        }
        const ss_compare_value *const base = of_base(all, one);
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, all->variants[one->variant].name);
        ss_sheet_text(&sheet, one->car);
        ss_sheet_text(&sheet, one->line);
        ss_sheet_text(&sheet, one->truck);
        put_known(&sheet, one->x);
        ss_sheet_value(&sheet, one->value);
        put_known(&sheet, base == NULL ? (double)NAN : ss_comparison_change(one->value, base->value));
        ss_sheet_text(&sheet, one->check);
        ss_sheet_text(&sheet, one->member);
        ss_sheet_text(&sheet, one->effect);
    }
}

void ss_comparison_programs(ss_builder *b, const ss_comparison *all) {
    for (size_t i = 0; i < sizeof program_tables / sizeof program_tables[0]; i++) {
        const bool factor = program_tables[i].question == SS_ASKED_FACTOR;
        if (factor ? all->rating : all->response) {
            add_programs(b, all, &program_tables[i]);
        }
    }
}
