/* written_report.h - a small report made by hand, and the running of one table of tests. */
#ifndef SS_TEST_WRITTEN_REPORT_H
#define SS_TEST_WRITTEN_REPORT_H

#include <CUnit/Basic.h>
#include <math.h>
#include <string.h>

#include "sillspan/write.h"

typedef struct write_case {
    const char *name;
    void (*run)(void);
} write_case;

static inline int run_write(const char *name, const write_case *cases, int count) {
    if (CU_initialize_registry() != CUE_SUCCESS) {
        return 2;
    }
    CU_pSuite suite = CU_add_suite(name, NULL, NULL);
    int ready = suite != NULL;
    for (int i = 0; ready && i < count; i++) {
        ready = CU_add_test(suite, cases[i].name, cases[i].run) != NULL;
    }
    if (ready) {
        CU_basic_set_mode(CU_BRM_NORMAL);
        CU_basic_run_tests();
    }
    const unsigned failures = CU_get_number_of_failures();
    CU_cleanup_registry();
    return ready && failures == 0 ? 0 : 1;
}

#define RUN_WRITE(name, cases) run_write(name, cases, (int)(sizeof(cases) / sizeof((cases)[0])))

/* A table of two rows and a value, a list and a drawing. Lengths are metres: 3.048 m is 10 ft. */
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
                                    {SS_CELL_QUANTITY, NULL, 3.048, SS_DIM_NUMBER},
                                    {SS_CELL_QUANTITY, NULL, 4448.2216152605 * 0.3048 * 12.75, SS_DIM_NUMBER},
                                    {SS_CELL_QUANTITY, NULL, 0.8675309, SS_DIM_NUMBER},
                                    {SS_CELL_INTEGER, NULL, 12.0, SS_DIM_NUMBER},
                                    {SS_CELL_QUANTITY, NULL, 4448.2216152605 * 3.7, SS_DIM_FORCE},
                                    {SS_CELL_TEXT, "tr\xC3\xA4ger\x1B[31m", 0.0, SS_DIM_NUMBER},
                                    {SS_CELL_QUANTITY, NULL, 0.3048 * 123.456, SS_DIM_NUMBER},
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

#endif
