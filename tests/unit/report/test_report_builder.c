/* test_report_builder.c - tables and blocks that grow, and what happens when memory ends. */
#include <stdio.h>

#include "report/report_builder.h"
#include "support/suite.h"

static const ss_column columns[] = {
    {"name", "name", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"value", "value", SS_DIM_LENGTH, 4, SS_FOR_ALL},
    {"count", "count", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};
static const ss_table head = {
    .key = "things", .title = "Things", .audience = SS_FOR_ALL, .column_count = 3, .columns = columns};

static void fill(ss_builder *b, int rows) {
    ss_sheet sheet = ss_build_table(b, &head);
    for (int i = 0; i < rows; i++) {
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, ss_build_text(b, "row %d", i));
        ss_sheet_value(&sheet, 0.37 * i);
        ss_sheet_integer(&sheet, 7 * i);
    }
}

static void test_rows_keep_their_cells(void) {
    ss_report report = {0};
    ss_builder b = {.report = &report};
    fill(&b, 53);
    CU_ASSERT_FALSE_FATAL(b.failed);
    CU_ASSERT_EQUAL_FATAL(report.count, 1);
    const ss_table *table = report.blocks[0].table;
    CU_ASSERT_EQUAL(table->row_count, 53);
    for (int i = 0; i < table->row_count; i++) {
        char name[16];
        snprintf(name, sizeof name, "row %d", i);
        CU_ASSERT_STRING_EQUAL(table->cells[3 * i].text, name);
        CU_ASSERT_DOUBLE_EQUAL(table->cells[3 * i + 1].value, 0.37 * i, 1e-12);
        CU_ASSERT_EQUAL(table->cells[3 * i + 2].value, 7.0 * i);
    }
    ss_report_destroy(&report);
    CU_ASSERT_EQUAL(ss_memory_live(), 0);
}

/* Cells that are not filled are empty; one too many is a fault of ours that must not write past the row. */
static void test_rows_too_short_and_too_long(void) {
    ss_report report = {0};
    ss_builder b = {.report = &report};
    ss_sheet sheet = ss_build_table(&b, &head);
    ss_sheet_row(&sheet);
    ss_sheet_text(&sheet, "alone");
    CU_ASSERT_EQUAL(sheet.table->cells[1].kind, SS_CELL_NONE);
    ss_sheet_flag(&sheet, true);
    ss_sheet_quantity(&sheet, 3.1, SS_DIM_FORCE);
    CU_ASSERT_FALSE(b.failed);
    ss_sheet_none(&sheet);
    CU_ASSERT_TRUE(b.failed);
    ss_report_destroy(&report);
}

static void test_blocks_in_order(void) {
    ss_report report = {0};
    ss_builder b = {.report = &report};
    ss_build_heading(&b, SS_FOR_PEOPLE, "Head");
    for (int i = 0; i < 70; i++) {
        ss_build_sentence(&b, "Sentence %d.", i);
    }
    ss_build_value(&b, SS_FOR_PROGRAMS, "key", "word");
    CU_ASSERT_FALSE_FATAL(b.failed);
    CU_ASSERT_EQUAL_FATAL(report.count, 72);
    CU_ASSERT_EQUAL(report.blocks[0].kind, SS_BLOCK_HEADING);
    CU_ASSERT_STRING_EQUAL(report.blocks[69].text, "Sentence 68.");
    CU_ASSERT_STRING_EQUAL(report.blocks[71].key, "key");
    ss_report_destroy(&report);
}

static void test_every_allocation_may_fail(void) {
    bool passed = false;
    for (long n = 0; n < 100 && !passed; n++) {
        ss_report report = {0};
        ss_builder b = {.report = &report};
        ss_memory_fail_from(n);
        ss_build_heading(&b, SS_FOR_ALL, "Head");
        fill(&b, 900);
        ss_memory_fail_from(-1);
        passed = !b.failed;
        ss_report_destroy(&report);
        CU_ASSERT_EQUAL(ss_memory_live(), 0);
    }
    CU_ASSERT_TRUE(passed);
}

int main(void) {
    static const test_case cases[] = {
        {"rows keep their cells", test_rows_keep_their_cells},
        {"rows too short and too long", test_rows_too_short_and_too_long},
        {"blocks in order", test_blocks_in_order},
        {"every allocation may fail", test_every_allocation_may_fail},
    };
    return RUN_SUITE("report builder", cases);
}
