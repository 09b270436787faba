/* test_report_size.c - what is printed of a search for a deck: the order of the frontier, and what was not
 * tried. */
#include <math.h>
#include <string.h>

#include "report/report_parts.h"
#include "report/report_ratings.h"
#include "sillspan/memory.h"
#include "support/suite.h"

static ss_size_option option(const char *name, ss_size_kind kind, double factor, double added, double cost) {
    return (ss_size_option){.kind = kind,
                            .name = name,
                            .thickness = kind == SS_SIZE_DECK ? 0.2 : (double)NAN,
                            .strength = (double)NAN,
                            .pitch = (double)NAN,
                            .set = -1,
                            .other = -1,
                            .tried = true,
                            .factor = {factor},
                            .margin = factor,
                            .governs = "sill",
                            .check = "",
                            .added = added,
                            .cost = cost,
                            .frontier = true};
}

typedef struct told {
    ss_bridge bridge;
    ss_sizing sizing;
    ss_size size;
    ss_results results;
    ss_report report;
    ss_builder builder;
} told;

static void tell(told *t, ss_size_option *options, int count, int best) {
    memset(t, 0, sizeof *t);
    t->sizing.targets[0] = (ss_sizing_target){1.0, -1, -1, -1};
    t->sizing.target_count = 1;
    t->size = (ss_size){.sizing = &t->sizing,
                        .options = options,
                        .count = count,
                        .by_cost = true,
                        .best = best,
                        .nearest = best};
    for (int i = 0; i < count; i++) t->size.stopped = t->size.stopped || !options[i].tried;
    t->results = (ss_results){.bridge = &t->bridge, .size = &t->size};
    t->builder = (ss_builder){.report = &t->report, .results = &t->results};
    ss_part_size(&t->builder);
    CU_ASSERT_FALSE_FATAL(t->builder.failed);
}

static const char *text_at(const told *t, const char *key, int row, const char *column) {
    for (int i = 0; i < t->report.count; i++) {
        const ss_table *const table = t->report.blocks[i].table;
        for (int c = 0; table != NULL && strcmp(table->key, key) == 0 && c < table->column_count; c++) {
            if (strcmp(table->columns[c].key, column) == 0 && row < table->row_count) {
                return table->cells[row * table->column_count + c].text;
            }
        }
    }
    return "";
}

/* Whether a sentence or a point has the words. */
static bool says(const told *t, const char *words) {
    bool found = false;
    for (int i = 0; i < t->report.count; i++) {
        const ss_block *const block = &t->report.blocks[i];
        found = found || (block->text != NULL && strstr(block->text, words) != NULL);
        for (int k = 0; k < block->item_count; k++) {
            found = found || strstr(block->items[k], words) != NULL;
        }
    }
    return found;
}

/* Of one weight, going down the table factors grow; those that are alike keep their order, and none is lost.
 */
static void test_frontier(void) {
    ss_size_option options[] = {option("as it is", SS_SIZE_AS_IT_IS, 0.5, 0.0, 0.0),
                                option("heavy", SS_SIZE_DECK, 1.2, 1e5 - 1e-7, 9.0),
                                option("light", SS_SIZE_DECK, 1.1, 1e5, 8.0),
                                option("strong", SS_SIZE_OTHER, 0.7, 0.0, 5.0),
                                option("weak", SS_SIZE_OTHER, 0.6, 0.0, 3.0),
                                option("twin", SS_SIZE_OTHER, 0.6, 0.0, 3.0)};
    static const char *const due[] = {"as it is", "weak", "twin", "strong", "light", "heavy"};
    told t;
    tell(&t, options, 6, 2);
    for (int i = 0; i < 6; i++)
        CHECK_ROW(strcmp(text_at(&t, "size_frontier", i, "option"), due[i]) == 0, due[i]);
    CU_ASSERT_STRING_EQUAL(text_at(&t, "size_frontier", 6, "option"), "");
    ss_report_destroy(&t.report);
}

static void test_interrupted(void) {
    ss_size_option options[] = {
        option("as it is", SS_SIZE_AS_IT_IS, 0.5, 0.0, 0.0), option("7 in", SS_SIZE_DECK, 1.2, 1e5, 9.0),
        option("7 in, on props", SS_SIZE_DECK, (double)NAN, (double)NAN, (double)NAN)};
    options[2].shored = true;
    options[2].tried = options[2].frontier = false;
    options[2].failure = "interrupted before it was tried";
    options[1].passes = true;
    told t;
    tell(&t, options, 3, 1);
    CU_ASSERT_STRING_EQUAL(text_at(&t, "size_options", 2, "verdict"), "not tried");
    CU_ASSERT(says(&t, "The search was interrupted"));
    CU_ASSERT(says(&t, "the chosen deck not yet"));
    CU_ASSERT_FALSE(says(&t, "on props"));
    CU_ASSERT_FALSE(says(&t, "(null)"));
    ss_report_destroy(&t.report);
    options[0] = options[2];
    tell(&t, options, 1, -1);
    CU_ASSERT_FALSE(says(&t, "As it is, the bridge has"));
    CU_ASSERT(says(&t, "No deck was tried."));
    ss_report_destroy(&t.report);
}

static void test_none_rated(void) {
    ss_size_option options[] = {option("as it is", SS_SIZE_AS_IT_IS, 0.5, 0.0, 0.0),
                                option("2 in", SS_SIZE_DECK, (double)NAN, (double)NAN, (double)NAN)};
    options[1].frontier = false;
    options[1].failure = "covers and bars take 5 in";
    told t;
    tell(&t, options, 2, -1);
    CU_ASSERT(says(&t, "No deck that was tried could be rated. The first, 2 in: covers and bars take 5 in."));
    ss_report_destroy(&t.report);
}

/* What can carry nothing has no share of it, and no warning of the machine. */
static void test_nothing_carried(void) {
    ss_rating_item item = {.capacity = 0.0};
    item.factors.phi = 0.9;
    item.factors.condition = 0.85;
    item.factors.system = 0.85;
    CHECK_CLOSE(ss_rated_condition_system(&item), 0.85, 1e-12);
    item.factors.condition = item.factors.system = 1.0;
    CHECK_CLOSE(ss_rated_condition_system(&item), 1.0, 1e-12);
}

int main(void) {
    static const test_case cases[] = {
        {"frontier", test_frontier},
        {"interrupted", test_interrupted},
        {"none rated", test_none_rated},
        {"nothing carried", test_nothing_carried},
    };
    return RUN_SUITE("report_size", cases);
}
