/* report_ratings_trucks.c - factors of each crossing, a column for each check, with what governs beside them.
 */
#include "report/report_ratings.h"

#include <math.h>
#include <string.h>

#include "report/report_words.h"

static const double ton_N = 8896.443230521; /* 2000 pounds-force, NIST SP 811 */
static const double tonne_N = 1000.0 * SS_GRAVITY;

/* Columns of one table; with more checks a table for each level is easier to read. */
enum { MOST_CHECKS = 5, OTHERS = 6 };

static bool rates_something(const ss_results *results, int check) {
    for (int t = 0; t < results->rated->traffic_count; t++) {
        if (!ss_rated_alternative(results, t) && ss_ratings_governing(results->rated, check, t) >= 0) {
            return true;
        }
    }
    return false;
}

/* Levels that go into one table: both of the design load, then each by itself. */
typedef struct level_group {
    const char *name;
    ss_level first, last;
} level_group;

static const level_group groups[] = {
    {"design load", SS_LEVEL_INVENTORY, SS_LEVEL_OPERATING},
    {"legal loads", SS_LEVEL_LEGAL, SS_LEVEL_LEGAL},
    {"emergency vehicles", SS_LEVEL_EMERGENCY, SS_LEVEL_EMERGENCY},
    {"permit loads", SS_LEVEL_PERMIT, SS_LEVEL_PERMIT},
};

/* The checks of strength and service of a method; without a group of all levels. */
static int list_checks(const ss_results *results, ss_method method, const level_group *group, int *checks) {
    int count = 0;
    for (int c = 0; c < results->rated->check_count; c++) {
        const ss_check *check = &results->rated->checks[c];
        if (check->method == method && check->limit != SS_LIMIT_DEFLECTION &&
            (group == NULL || (check->level >= group->first && check->level <= group->last)) &&
            rates_something(results, c)) {
            checks[count++] = c;
        }
    }
    return count;
}

/* What governs the row: the smallest of the checks that decide, else of all. */
static int row_item(const ss_ratings *ratings, const int *checks, int count, int traffic) {
    int best = -1;
    bool decides = false;
    for (int k = 0; k < count; k++) {
        const int i = ss_ratings_governing(ratings, checks[k], traffic);
        const bool one = i >= 0 && ss_rated_decides(ratings, checks[k]);
        if (i >= 0 && (best < 0 || (one && !decides) ||
                       (one == decides && ss_rated_less(ratings->items[i].rf, ratings->items[best].rf)))) {
            best = i;
            decides = one;
        }
    }
    return best;
}

static void put_row(ss_sheet *sheet, const int *checks, int count, int traffic) {
    ss_builder *b = sheet->builder;
    const ss_results *results = b->results;
    const ss_ratings *ratings = results->rated;
    const int governing = row_item(ratings, checks, count, traffic);
    if (governing < 0) {
        return;
    }
    const ss_rating_item *item = &ratings->items[governing];
    const double unit = b->report->units == SS_UNITS_SI ? tonne_N / ton_N : 1.0;
    ss_sheet_row(sheet);
    const char *truck = ss_words_traffic(b, traffic);
    ss_sheet_text(sheet, ss_rated_counts(results, item->check, traffic)
                             ? truck
                             : ss_build_text(b, "%s (not asked for)", truck));
    for (int k = 0; k < count; k++) {
        const int i = ss_ratings_governing(ratings, checks[k], traffic);
        if (i < 0) {
            ss_sheet_none(sheet);
        } else {
            ss_sheet_value(sheet, ss_rated_cut(ratings->items[i].rf, 2));
        }
    }
    ss_sheet_value(sheet, item->tons / unit);
    if (item->tips) {
        ss_sheet_text(sheet, "the bearings");
        ss_sheet_text(sheet, "tipping");
        ss_sheet_none(sheet);
    } else {
        ss_sheet_text(sheet, ss_words_member(b, item->effect.member, item->effect.index));
        ss_sheet_text(sheet, ss_words_failure(item->effect.kind));
        ss_sheet_value(sheet, ss_words_x(results->bridge, &item->effect));
    }
}

static void add_table(ss_builder *b, const char *title, const int *checks, int count, bool levels) {
    const ss_ratings *ratings = b->results->rated;
    const bool si = b->report->units == SS_UNITS_SI;
    ss_column *columns = ss_arena_alloc(&b->report->arena, (size_t)count + OTHERS, sizeof *columns);
    if (columns == NULL) {
        b->failed = true;
        return;
    }
    int c = 0;
    columns[c++] = (ss_column){.key = "truck", .title = "truck"};
    for (int k = 0; k < count; k++) {
        const ss_check *check = &ratings->checks[checks[k]];
        columns[c++] = (ss_column){
            .key = "rf",
            .title = levels ? ss_build_text(b, "%s %s", ss_level_name(check->level), ss_limit_name(check))
                            : ss_limit_name(check),
            .digits = -2};
    }
    columns[c++] = (ss_column){.key = "carried", .title = si ? "tonnes" : "tons", .digits = -1};
    columns[c++] = (ss_column){.key = "member", .title = "what governs"};
    columns[c++] = (ss_column){.key = "effect", .title = "in"};
    columns[c++] = (ss_column){.key = "x", .title = "at x", .dimension = SS_DIM_LENGTH, .digits = -1};
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "trucks",
                                                   .title = title,
                                                   .audience = SS_FOR_PEOPLE,
                                                   .column_count = c,
                                                   .columns = columns});
    for (int t = 0; t < ratings->traffic_count; t++) {
        if (!ss_rated_alternative(b->results, t)) {
            put_row(&sheet, checks, count, t);
        }
    }
}

void ss_rated_trucks(ss_builder *b, ss_method method) {
    int checks[SS_CHECKS_MAX];
    const char *name = ss_method_name(method);
    const int all = list_checks(b->results, method, NULL, checks);
    if (all <= MOST_CHECKS) {
        add_table(b, ss_build_text(b, "Truck by truck, %s", name), checks, all, true);
    } else {
        for (size_t g = 0; g < sizeof groups / sizeof groups[0]; g++) {
            const int count = list_checks(b->results, method, &groups[g], checks);
            if (count > 0) {
                add_table(b, ss_build_text(b, "Truck by truck, %s, %s", name, groups[g].name), checks, count,
                          groups[g].first != groups[g].last);
            }
        }
    }
}
