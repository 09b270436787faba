/* written_report.h - a small report made by hand. */
#ifndef SS_TEST_WRITTEN_REPORT_H
#define SS_TEST_WRITTEN_REPORT_H

#include <math.h>
#include <string.h>

#include "sillspan/memory.h"
#include "sillspan/write.h"
#include "support/suite.h"

/* A table of two rows and a value, a list and a drawing. */
typedef struct written_report {
    ss_column columns[6];
    ss_cell cells[12];
    ss_table table;
    const char *items[2];
    ss_stroke strokes[3];
    ss_label labels[2];
    ss_drawing drawing;
    ss_block blocks[6];
    ss_report report;
} written_report;

static inline void make_written(written_report *w) {
    *w = (written_report){.columns = {{"member", "member", SS_DIM_NUMBER, 0, SS_FOR_ALL},
                                      {"at.x", "at x", SS_DIM_LENGTH, -2, SS_FOR_ALL},
                                      {"at.deep.moment", "", SS_DIM_MOMENT, 4, SS_FOR_PROGRAMS},
                                      {"rf", "factor", SS_DIM_NUMBER, 3, SS_FOR_ALL},
                                      {"count", "how many", SS_DIM_NUMBER, 0, SS_FOR_ALL},
                                      {"own", "own unit", SS_DIM_NUMBER, 4, SS_FOR_PEOPLE}},
                          .cells = {{SS_CELL_TEXT, "sill", 0.0, SS_DIM_NUMBER},
                                    {SS_CELL_QUANTITY, NULL, 10.0 * FOOT, SS_DIM_NUMBER},
                                    {SS_CELL_QUANTITY, NULL, 12.75 * KIP_FOOT, SS_DIM_NUMBER},
                                    {SS_CELL_QUANTITY, NULL, 0.8675309, SS_DIM_NUMBER},
                                    {SS_CELL_INTEGER, NULL, 12.0, SS_DIM_NUMBER},
                                    {SS_CELL_QUANTITY, NULL, 3.7 * KIP, SS_DIM_FORCE},
                                    {SS_CELL_TEXT, "tr\xC3\xA4ger\x1B[31m", 0.0, SS_DIM_NUMBER},
                                    {SS_CELL_QUANTITY, NULL, 123.456 * FOOT, SS_DIM_NUMBER},
                                    {SS_CELL_NONE, NULL, 0.0, SS_DIM_NUMBER},
                                    {SS_CELL_QUANTITY, NULL, (double)INFINITY, SS_DIM_NUMBER},
                                    {SS_CELL_NONE, NULL, 0.0, SS_DIM_NUMBER},
                                    {SS_CELL_NONE, NULL, 0.0, SS_DIM_NUMBER}},
                          .items = {"one \"quoted\"", "two"},
                          .strokes = {{SS_STROKE_GIRDER, 0.0, 1.0, 10.0, 1.0},
                                      {SS_STROKE_BEAM, 5.0, 0.0, 5.0, 2.0},
                                      {SS_STROKE_BEARING, 0.0, 1.0, 0.0, 1.0}},
                          .labels = {{0.0, 1.0, "sill", -1}, {10.0, 2.0, "33 ft", 0}}};
    w->table = (ss_table){.key = "rows",
                          .title = "Rows",
                          .note = "A note.",
                          .column_count = 6,
                          .row_count = 2,
                          .columns = w->columns,
                          .cells = w->cells};
    w->drawing = (ss_drawing){.key = "plan",
                              .title = "Plan",
                              .width = 10.0,
                              .height = 2.0,
                              .strokes = w->strokes,
                              .stroke_count = 3,
                              .labels = w->labels,
                              .label_count = 2};
    w->blocks[0] = (ss_block){.kind = SS_BLOCK_HEADING, .audience = SS_FOR_PEOPLE, .text = "Title"};
    w->blocks[1] = (ss_block){.kind = SS_BLOCK_SENTENCE,
                              .audience = SS_FOR_PEOPLE,
                              .text = "The sill governs, and this sentence is long enough to be broken."};
    w->blocks[2] = (ss_block){
        .kind = SS_BLOCK_VALUE, .audience = SS_FOR_PROGRAMS, .key = "title", .text = "Alder \"Branch\"\n"};
    w->blocks[3] = (ss_block){.kind = SS_BLOCK_TABLE, .key = "rows", .table = &w->table};
    w->blocks[4] = (ss_block){.kind = SS_BLOCK_LIST, .key = "ignored", .items = w->items, .item_count = 2};
    w->blocks[5] = (ss_block){.kind = SS_BLOCK_DRAWING, .audience = SS_FOR_PEOPLE, .drawing = &w->drawing};
    w->report = (ss_report){.units = SS_UNITS_US, .blocks = w->blocks, .count = 6, .capacity = 6};
}

/** Fails the n-th allocation of the writing for every n, and sees that nothing is left behind. */
static inline void check_every_allocation(ss_status (*write)(const ss_report *, ss_text *, ss_error *),
                                          long most) {
    static written_report w;
    make_written(&w);
    bool passed = false;
    for (long n = 0; n < most && !passed; n++) {
        ss_text out = {0};
        ss_error error = {0};
        ss_memory_fail_from(n);
        const ss_status status = write(&w.report, &out, &error);
        ss_memory_fail_from(-1);
        CU_ASSERT_TRUE(status == SS_OK || status == SS_ERROR_MEMORY);
        passed = status == SS_OK;
        ss_text_destroy(&out);
        CU_ASSERT_EQUAL(ss_memory_live(), 0);
    }
    CU_ASSERT_TRUE(passed);
}

#endif
