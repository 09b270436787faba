/* report_compare_ratings.c - the ratings of all variants: what governs, posting, what could not be rated. */
#include "report/report_compare.h"

#include <math.h>

#include "report/report_parts.h"
#include "report/report_ratings.h"
#include "report/report_words.h"

static const double ton_N = 8896.443230521; /* 2000 pounds-force, NIST SP 811 */
static const double tonne_N = 1000.0 * SS_GRAVITY;

static const ss_column governing_columns[] = {
    {"variant", "variant", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"rf", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"rf_cut", "factor", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"change", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"percent", "%", SS_DIM_NUMBER, -1, SS_FOR_PEOPLE},
    {"mark", "", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"tons", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"carried", "tons", SS_DIM_NUMBER, -1, SS_FOR_PEOPLE},
    {"truck", "truck", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"member", "what governs", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"effect", "in", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"x", "at x", SS_DIM_LENGTH, -1, SS_FOR_ALL},
    {"check", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"joints_out", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};
enum { CARRIED = 7 };

static void put_known(ss_sheet *sheet, double value) {
    if (isnan(value)) {
        ss_sheet_none(sheet);
    } else {
        ss_sheet_value(sheet, value);
    }
}

static void put_governing(ss_sheet *sheet, const ss_comparison *all, int i, const double *sizes) {
    const bool si = sheet->builder->report->units == SS_UNITS_SI;
    const int base = ss_comparison_base(all);
    const ss_compare_variant *const v = &all->variants[i];
    const double change = i == base ? (double)NAN : ss_comparison_change(v->rf, all->variants[base].rf);
    const ss_compare_mark mark = ss_comparison_mark(sizes, all->variant_count, i, true);
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, v->name);
    ss_sheet_value(sheet, v->rf);
    ss_sheet_value(sheet, ss_rated_cut(v->rf, 2));
    put_known(sheet, change);
    put_known(sheet, fabs(100.0 * change) < 0.05 ? 0.0 : 100.0 * change);
    ss_sheet_text(sheet, mark == SS_MARK_BEST ? "best" : mark == SS_MARK_WORST ? "worst" : NULL);
    ss_sheet_value(sheet, v->tons);
    ss_sheet_value(sheet, v->tons * (si ? ton_N / tonne_N : 1.0));
    ss_sheet_text(sheet, v->truck);
    ss_sheet_text(sheet, v->member);
    ss_sheet_text(sheet, v->effect);
    put_known(sheet, v->x);
    ss_sheet_text(sheet, v->check);
    ss_sheet_text(sheet, v->joints_out);
}

static void add_governing(ss_builder *b, const ss_comparison *all) {
    ss_column *const columns =
        ss_arena_alloc(&b->report->arena, SS_COLUMN_COUNT(governing_columns), sizeof *columns);
    double *const sizes = ss_arena_alloc(&b->report->arena, (size_t)all->variant_count + 1, sizeof *sizes);
    if (columns == NULL || sizes == NULL) {
        b->failed = true;
        return;
    }
    for (int i = 0; i < SS_COLUMN_COUNT(governing_columns); i++) columns[i] = governing_columns[i];
    columns[CARRIED].title = b->report->units == SS_UNITS_SI ? "tonnes" : "tons";
    for (int i = 0; i < all->variant_count; i++) sizes[i] = all->variants[i].rf;
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){.key = "governing",
                       .title = "What governs",
                       .note = "The smallest factor of all trucks asked for, and what it multiplies. "
                               "1.00 or more is no permit to cross.",
                       .audience = SS_FOR_ALL,
                       .column_count = SS_COLUMN_COUNT(governing_columns),
                       .columns = columns});
    for (int i = 0; i < all->variant_count; i++) {
        if (!isnan(all->variants[i].rf)) {
            put_governing(&sheet, all, i, sizes);
        }
    }
}

static const ss_column posting_columns[] = {
    {"variant", "variant", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"state", "posting", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"sign", "the sign", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"sign_alone", "one truck at a time", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

static void add_postings(ss_builder *b, const ss_comparison *all) {
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){
               .key = "postings",
               .title = "Posting",
               .note = "What would follow from these ratings; the decision is the owner's and the state's.",
               .audience = SS_FOR_ALL,
               .column_count = SS_COLUMN_COUNT(posting_columns),
               .columns = posting_columns});
    for (int i = 0; i < all->variant_count; i++) {
        const ss_compare_variant *const v = &all->variants[i];
        if (v->posting != NULL) {
            ss_sheet_row(&sheet);
            ss_sheet_text(&sheet, v->name);
            ss_sheet_text(&sheet, v->posting);
            ss_sheet_text(&sheet, v->sign);
            ss_sheet_text(&sheet, v->sign_alone);
        }
    }
}

static void add_notes(ss_builder *b, const ss_comparison *all) {
    const char **items = ss_arena_alloc(&b->report->arena, (size_t)all->note_count + 1, sizeof *items);
    if (items == NULL) {
        b->failed = true;
        return;
    }
    for (int i = 0; i < all->note_count; i++) {
        items[i] =
            ss_build_text(b, "\"%s\": %s", all->variants[all->notes[i].variant].name, all->notes[i].text);
    }
    if (all->note_count > 0) {
        ss_study_heading(b, "Comparison", "Notes on the ratings");
        ss_build_sentence(b, "What is said of \"%s\" holds for the others too, as far as they have the same.",
                          all->variants[ss_comparison_base(all)].name);
    }
    ss_build_list(b, SS_FOR_ALL, "notes", items, all->note_count);
}

void ss_comparison_ratings(ss_builder *b, const ss_comparison *all) {
    ss_study_heading(b, "Comparison", "Ratings");
    add_governing(b, all);
    for (int i = 0; i < all->variant_count; i++) {
        if (all->variants[i].joints_out != NULL) {
            ss_build_sentence(
                b, "\"%s\": for some truck a joint is full before the members are (%s); %s.",
                all->variants[i].name, all->variants[i].joints_out,
                all->variants[i].joints_fail
                    ? "without it the bridge could not be rated, so that the joint's own factor governs there"
                    : "its factor there is that of the bridge with the joint out");
        }
    }
    ss_comparison_factors(b, all);
    add_postings(b, all);
    add_notes(b, all);
}
