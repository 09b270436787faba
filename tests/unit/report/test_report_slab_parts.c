/* test_report_slab_parts.c - what a report says of connectors and of the slab across: rows, words, and checks
 * that are missed. */
#include <string.h>

#include "report/report_parts.h"
#include "unit/studies/slab_samples.h"

typedef struct reported {
    slab_bridge b;
    ss_arena arena;
    ss_slab_checks checks;
    ss_slab_connectors connectors;
    ss_slab_across across;
    ss_results results;
    ss_report report;
} reported;

#define STUDS(more)                                                                                          \
    "connectors = { diameter = \"3/4 in\"; height = \"4 in\"; per_row = 2; across = \"4 in\"; " more " };"

static void make(const char *text, reported *r) {
    ss_error error = {0};
    *r = (reported){0};
    slab_start(text, &r->b);
    const ss_permanent *const permanent = &r->b.variant.permanent;
    r->checks.arena = &r->arena;
    check_ok("across", ss_slab_across_compute(permanent, NULL, &r->arena, &r->checks, &r->across, &error),
             &error);
    check_ok("connectors",
             ss_slab_connectors_compute(permanent, &r->arena, &r->checks, &r->connectors, &error), &error);
    r->results = (ss_results){.command = "rate",
                              .bridge = &r->b.variant.bridge,
                              .slab_connectors = &r->connectors,
                              .slab_across = &r->across,
                              .slab_checks = &r->checks};
    ss_builder b = {.report = &r->report, .results = &r->results};
    ss_part_slab_across(&b);
    ss_part_slab_connectors(&b);
    ss_part_slab_checks(&b);
    CU_ASSERT(!b.failed);
}

static void unmake(reported *r) {
    ss_report_destroy(&r->report);
    ss_arena_destroy(&r->arena);
    slab_finish(&r->b);
}

static const ss_table *table_of(const ss_report *report, const char *key, ss_audience audience) {
    for (int i = 0; i < report->count; i++) {
        const ss_block *const block = &report->blocks[i];
        if (block->kind == SS_BLOCK_TABLE && strcmp(block->table->key, key) == 0 &&
            block->table->audience == audience) {
            return block->table;
        }
    }
    return NULL;
}

static const ss_cell *cell(const ss_table *table, int row, const char *column) {
    for (int k = 0; k < table->column_count; k++) {
        if (strcmp(table->columns[k].key, column) == 0) {
            return &table->cells[row * table->column_count + k];
        }
    }
    return NULL;
}

static bool says(const ss_report *report, const char *words) {
    for (int i = 0; i < report->count; i++) {
        const ss_block *const block = &report->blocks[i];
        if (block->kind == SS_BLOCK_SENTENCE && strstr(block->text, words) != NULL) {
            return true;
        }
    }
    return false;
}

/* A segment each side of midspan, alike for people and programs; every check is a row. */
static void test_rows(void) {
    const long live = ss_memory_live();
    reported r;
    make(SLAB_LINE("60", "0, 60", "", "", STUDS("")), &r);
    const ss_table *const people = table_of(&r.report, "slab_connectors", SS_FOR_PEOPLE);
    const ss_table *const programs = table_of(&r.report, "slab_connectors", SS_FOR_PROGRAMS);
    const ss_table *const record = table_of(&r.report, "slab_connector_design", SS_FOR_PROGRAMS);
    const ss_table *const checks = table_of(&r.report, "slab_checks", SS_FOR_PROGRAMS);
    CU_ASSERT_PTR_NOT_NULL_FATAL(people);
    CU_ASSERT_PTR_NOT_NULL_FATAL(programs);
    CU_ASSERT_PTR_NOT_NULL_FATAL(record);
    CU_ASSERT_PTR_NOT_NULL_FATAL(checks);
    CU_ASSERT_EQUAL(people->row_count, 2);
    CU_ASSERT_EQUAL(programs->row_count, 2);
    CU_ASSERT_EQUAL(checks->row_count, r.checks.count);
    CU_ASSERT_STRING_EQUAL(cell(programs, 0, "from_is")->text, "no moment");
    CU_ASSERT_STRING_EQUAL(cell(programs, 0, "to_is")->text, "largest sagging moment");
    CHECK_CLOSE(cell(programs, 1, "force")->value, 1440.0 * KIP, 1e-9);
    CHECK_CLOSE(cell(record, 0, "count")->value, r.connectors.total, 0.0);
    CU_ASSERT_EQUAL(cell(programs, 0, "would_fit")->kind,
                    r.connectors.lines[0].runs[0].fits ? SS_CELL_NONE : SS_CELL_TEXT);
    CU_ASSERT(says(&r.report, "2 side by side in a row"));
    unmake(&r);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

/* Too few connectors: the ratings lean on what they do not give; with partial action it says whose rule it
 * is. */
static void test_words(void) {
    reported full, partial;
    make(SLAB_LINE("60", "0, 60", "", "", STUDS("pitch = \"24 in\";")), &full);
    make(SLAB_LINE("60", "0, 60", "", "", STUDS("pitch = \"24 in\"; partial = true;")), &partial);
    CU_ASSERT(says(&full.report, "The ratings take full composite action"));
    CU_ASSERT(says(&full.report, "tie only 0.46 of the force"));
    CU_ASSERT(!says(&full.report, "I3.2d"));
    CU_ASSERT(!says(&partial.report, "The ratings take full composite action"));
    CU_ASSERT(says(&partial.report, "AISC 360 I3.2d (from memory), a source for steel buildings"));
    const ss_table *const missed = table_of(&full.report, "slab_checks", SS_FOR_PEOPLE);
    CU_ASSERT_PTR_NOT_NULL_FATAL(missed);
    bool strength = false;
    for (int i = 0; i < full.report.count; i++) {
        const ss_block *const block = &full.report.blocks[i];
        for (int k = 0; block->kind == SS_BLOCK_TABLE && strcmp(block->table->key, "slab_checks") == 0 &&
                        block->table->audience == SS_FOR_PEOPLE && k < block->table->row_count;
             k++) {
            const char *const name = cell(block->table, k, "name")->text;
            strength = strength || strcmp(name, "connectors in the segment, for strength") == 0;
        }
    }
    CU_ASSERT(strength);
    unmake(&full);
    unmake(&partial);
}

/* Nothing acts with the slab, and without a slab nothing is said. */
static void test_nothing(void) {
    reported r;
    make(SLAB_LINE("60", "0, 60", "", "", ""), &r);
    CU_ASSERT(says(&r.report, "No line acts with the slab"));
    CU_ASSERT_PTR_NULL(table_of(&r.report, "slab_connectors", SS_FOR_PROGRAMS));
    unmake(&r);
    ss_report report = {0};
    const ss_results none = {.command = "rate"};
    ss_builder b = {.report = &report, .results = &none};
    ss_points points = {.count = 0};
    ss_part_slab_across(&b);
    ss_part_slab_connectors(&b);
    ss_part_slab_checks(&b);
    ss_slab_point(&b, &points);
    CU_ASSERT_EQUAL(report.count, 0);
    CU_ASSERT_EQUAL(points.count, 0);
    ss_report_destroy(&report);
}

int main(void) {
    static const test_case cases[] = {
        {"rows", test_rows},
        {"words", test_words},
        {"nothing", test_nothing},
    };
    return RUN_SUITE("report of a slab's parts", cases);
}
