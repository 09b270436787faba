/* test_report_slab_described.c - a concrete deck in tables, against sections worked by hand. */
#include <math.h>
#include <string.h>

#include "report/report_parts.h"
#include "report/report_words.h"
#include "sillspan/memory.h"
#include "support/suite.h"
#include "unit/studies/compare_samples.h"

/* 6 in on a beam of 50 in2 and 9000 in4, whose axis lies 15 in above its bottom; no bars. */
static const char text[] =
    ONE_BEAM "bridge = { cars = ( { name = \"only\"; car = \"long\"; } );\n"
             "  bearings = ( { name = \"trucks\"; at = \"wheel trucks\"; under = [ \"spine\" ]; pad_width = "
             "\"60 in\"; action = \"two-way\"; } );\n"
             "  roadway = { from = \"1 ft\"; to = \"8 ft\"; }; };\n"
             "slab = { thickness = \"6 in\"; concrete = { strength = \"4 ksi\"; n = 8; };\n"
             "  connectors = { diameter = \"3/4 in\"; height = \"4 in\"; };\n"
             "  pours = ( { name = \"near\"; to = \"30 ft\"; }, { name = \"far\"; from = \"30 ft\"; } ); };\n"
             "rating = { trucks = [ \"axle\" ]; condition = \"good\"; system = 1.0; };\n";

typedef struct told {
    ss_description description;
    ss_compared compared;
    ss_results results;
    ss_report report;
    ss_builder builder;
} told;

static void start(told *t) {
    const ss_compare_options nothing = {.response = false};
    *t = (told){.description = compare_read(text)};
    CU_ASSERT_EQUAL_FATAL(compare_variant(&t->description, NULL, &nothing, &t->compared), SS_OK);
    t->results.bridge = &t->compared.whole.bridge;
    t->results.mesh = &t->compared.whole.mesh;
    t->builder = (ss_builder){.report = &t->report, .results = &t->results};
    ss_part_slab(&t->builder);
    CU_ASSERT_FALSE_FATAL(t->builder.failed);
}

static void stop(told *t) {
    ss_report_destroy(&t->report);
    ss_compared_destroy(&t->compared);
    ss_description_destroy(&t->description);
}

static const ss_table *table_of(const told *t, const char *key) {
    for (int i = 0; i < t->report.count; i++) {
        const ss_block *const block = &t->report.blocks[i];
        if (block->table != NULL && strcmp(block->table->key, key) == 0 && block->audience != SS_FOR_PEOPLE) {
            return block->table;
        }
    }
    CU_FAIL_FATAL("there is no such table");
    return NULL;
}

static const ss_cell *cell(const ss_table *table, int row, const char *key) {
    for (int i = 0; i < table->column_count && row < table->row_count; i++) {
        if (strcmp(table->columns[i].key, key) == 0) {
            return &table->cells[row * table->column_count + i];
        }
    }
    CU_FAIL_FATAL("there is no such cell");
    return NULL;
}

/* One row of the sections, in inches: 108 x 6 in at 33 in, 1/n of it. */
static void check_section(const ss_table *table, int row, double n) {
    const double slab = n > 0.0 ? 108.0 * 6.0 / n : 0.0;
    const double A = 50.0 + slab;
    const double z = (50.0 * 15.0 + slab * 33.0) / A;
    const double I = 9000.0 + slab * 36.0 / 12.0 + 50.0 * slab / A * 18.0 * 18.0;
    const double inch3 = INCH * INCH * INCH;
    CHECK_CLOSE(cell(table, row, "A")->value, A * INCH * INCH, 1e-9);
    CHECK_CLOSE(cell(table, row, "I")->value, I * inch3 * INCH, 1e-9);
    CHECK_CLOSE(cell(table, row, "z")->value, z * INCH, 1e-9);
    CHECK_CLOSE(cell(table, row, "S_bottom")->value, I / z * inch3, 1e-9);
    CHECK_CLOSE(cell(table, row, "S_top")->value, I / (30.0 - z) * inch3, 1e-9);
    if (n > 0.0) {
        CHECK_CLOSE(cell(table, row, "n")->value, n, 1e-12);
        CHECK_CLOSE(cell(table, row, "S_slab")->value, I / (36.0 - z) * inch3, 1e-9);
    } else {
        CU_ASSERT_EQUAL(cell(table, row, "S_slab")->kind, SS_CELL_NONE);
        CU_ASSERT_EQUAL(cell(table, row, "S_bars")->kind, SS_CELL_NONE);
    }
}

static void test_sections(void) {
    static const char *const stages[] = {"steel", "long_term", "short_term", "cracked"};
    static const double n[] = {0.0, 24.0, 8.0, 0.0};
    told t;
    start(&t);
    const ss_table *const table = table_of(&t, "described.slab_sections");
    CU_ASSERT_EQUAL_FATAL(table->row_count, 4);
    for (int i = 0; i < 4; i++) {
        CU_ASSERT_STRING_EQUAL(cell(table, i, "stage")->text, stages[i]);
        check_section(table, i, n[i]);
        CHECK_CLOSE(cell(table, i, "x")->value, 43.0 * FOOT, 1e-12);
    }
    stop(&t);
}

/* 75 lb/ft2 on 9 ft, 30 and 56 ft long. */
static void test_pours(void) {
    told t;
    start(&t);
    const ss_table *const table = table_of(&t, "described.slab_pours");
    CU_ASSERT_EQUAL_FATAL(table->row_count, 2);
    CHECK_CLOSE(cell(table, 0, "slab")->value, 0.075 * 9.0 * 30.0 * KIP, 1e-9);
    CHECK_CLOSE(cell(table, 1, "slab")->value, 0.075 * 9.0 * 56.0 * KIP, 1e-9);
    CU_ASSERT_EQUAL(cell(table, 0, "haunches")->value, 0.0);
    CU_ASSERT_STRING_EQUAL(cell(table, 1, "pour")->text, "far");
    const ss_table *const lines = table_of(&t, "described.slab_lines");
    CU_ASSERT_EQUAL(cell(lines, 0, "composite")->value, 1.0);
    CHECK_CLOSE(cell(lines, 0, "width")->value, 9.0 * FOOT, 1e-12);
    CU_ASSERT_EQUAL(table_of(&t, "described.slab_bars")->row_count, 0);
    stop(&t);
}

/* What is not there is not told of; and memory may end anywhere. */
static void test_none_and_memory(void) {
    told t;
    start(&t);
    const ss_slab kept = t.compared.whole.bridge.slab;
    ss_report_destroy(&t.report);
    t.compared.whole.bridge.slab.given = false;
    ss_part_slab(&t.builder);
    CU_ASSERT_EQUAL(t.report.count, 0);
    t.compared.whole.bridge.slab = kept;
    const long before = ss_memory_live();
    int failures = 0;
    bool failed = true;
    for (long n = 0; failed && n < 1000; n++) {
        t.builder = (ss_builder){.report = &t.report, .results = &t.results};
        ss_memory_fail_from(n);
        ss_part_slab(&t.builder);
        ss_memory_fail_from(-1);
        failed = t.builder.failed;
        failures += failed;
        ss_report_destroy(&t.report);
        CU_ASSERT_EQUAL_FATAL(ss_memory_live(), before);
    }
    CU_ASSERT_FALSE(failed);
    CU_ASSERT(failures > 0);
    stop(&t);
}

int main(void) {
    static const test_case cases[] = {
        {"sections", test_sections}, {"pours", test_pours}, {"none, and no memory", test_none_and_memory}};
    return RUN_SUITE("report_slab_described", cases);
}
