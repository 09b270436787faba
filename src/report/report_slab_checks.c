/* report_slab_checks.c - the checks of a concrete deck: those of one part that are missed or could not be
 * looked at, and all of them for programs. */
#include <math.h>

#include "report/report_parts.h"
#include "report/report_words.h"

/* Rows for people beyond which the rest is counted. */
enum { ROWS_MOST = 24 };

static const ss_column columns[] = {
    {"part", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"where", "where", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"name", "what", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"found", "is", SS_DIM_NUMBER, 3, SS_FOR_ALL},
    {"limit", "due", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"allowed", "", SS_DIM_NUMBER, 3, SS_FOR_ALL},
    {"unit", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"use", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"missed", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"source", "by", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"not_checked", "not looked at, because", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

static void put_row(ss_sheet *sheet, const ss_slab_check *check) {
    const ss_requirement *const r = &check->requirement;
    const double use = ss_slab_check_use(check);
    const bool known = r->why == NULL && !isnan(use);
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, ss_slab_part_name(check->part));
    ss_sheet_text(sheet, check->where);
    ss_sheet_text(sheet, r->name);
    if (known) {
        ss_sheet_quantity(sheet, r->found, r->dimension);
        ss_sheet_text(sheet, r->least ? "at least" : "at most");
        ss_sheet_quantity(sheet, r->allowed, r->dimension);
        ss_sheet_text(sheet, ss_units_name(r->dimension, sheet->builder->report->units));
        ss_sheet_value(sheet, use);
        ss_sheet_flag(sheet, ss_requirement_missed(r));
    } else {
        for (int i = 0; i < 6; i++) ss_sheet_none(sheet);
    }
    ss_sheet_text(sheet, r->source);
    ss_sheet_text(sheet, known ? NULL : r->why != NULL ? r->why : "a size that it needs is not known");
}

static ss_sheet new_table(ss_builder *b, ss_audience audience, const char *title) {
    return ss_build_table(b, &(ss_table){.key = "slab_checks",
                                         .title = title,
                                         .audience = audience,
                                         .column_count = SS_COLUMN_COUNT(columns),
                                         .columns = columns});
}

/* Missed, or not looked at. */
static bool open_point(const ss_slab_check *check) {
    return ss_requirement_missed(&check->requirement) || isnan(ss_slab_check_use(check));
}

void ss_slab_missed(ss_builder *b, ss_slab_part part) {
    const ss_slab_checks *const all = b->results->slab_checks;
    int count = 0;
    int looked = 0;
    for (int i = 0; all != NULL && i < all->count; i++) {
        const bool own = all->items[i].part == part;
        looked += own ? 1 : 0;
        count += own && open_point(&all->items[i]) ? 1 : 0;
    }
    if (looked == 0) {
        return;
    }
    const ss_slab_check *const worst = ss_slab_checks_worst(all, part);
    if (count == 0) {
        ss_build_sentence(b, "%s kept, the nearest to its limit is %s (%s).",
                          ss_words_count(b, looked, "requirement is", "requirements are all"),
                          worst->requirement.name, worst->where);
        return;
    }
    ss_sheet sheet = new_table(b, SS_FOR_PEOPLE, "Missed, or not looked at");
    int put = 0;
    for (int i = 0; i < all->count && put < ROWS_MOST; i++) {
        if (all->items[i].part == part && open_point(&all->items[i])) {
            put_row(&sheet, &all->items[i]);
            put++;
        }
    }
    if (count > put) {
        ss_build_sentence(b, "So are %d more.", count - put);
    }
    ss_build_sentence(b, "Of %s %d are kept.", ss_words_count(b, looked, "requirement", "requirements"),
                      looked - count);
}

void ss_slab_point(ss_builder *b, ss_points *points) {
    const ss_slab_checks *const all = b->results->slab_checks;
    const int missed = all == NULL ? 0 : ss_slab_checks_missed(all);
    if (missed == 0) {
        return;
    }
    const ss_slab_check *const worst = ss_slab_checks_worst(all, SS_SLAB_PART_COUNT);
    ss_point(b, points,
             "The concrete deck misses %d of %s, by most %s (%s). The factors take it and what ties it to "
             "the cars "
             "as sound.",
             missed, ss_words_count(b, all->count, "requirement", "requirements"), worst->requirement.name,
             worst->where);
}

void ss_part_slab_checks(ss_builder *b) {
    const ss_slab_checks *const all = b->results->slab_checks;
    if (all == NULL || all->count == 0) {
        return;
    }
    ss_sheet sheet = new_table(b, SS_FOR_PROGRAMS, "");
    for (int i = 0; i < all->count; i++) put_row(&sheet, &all->items[i]);
}
