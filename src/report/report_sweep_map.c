/* report_sweep_map.c - the controlling factor over two values, for people. */
#include <math.h>

#include "report/report_parts.h"
#include "report/report_ratings.h"
#include "report/report_sweep.h"

enum { ROWS = 24, MAP_COLUMNS = 9 };

void ss_part_sweep_map(ss_builder *b) {
    const ss_sweep *const sweep = b->results->sweep;
    const int across = sweep->axis[1].count, shown_columns = across < MAP_COLUMNS ? across : MAP_COLUMNS;
    ss_column *const columns = ss_arena_alloc(&b->report->arena, MAP_COLUMNS + 1, sizeof *columns);
    int which[MAP_COLUMNS];
    if (columns == NULL) {
        b->failed = true;
        return;
    }
    columns[0] = (ss_column){"", ss_swept_what(b, 0), SS_DIM_NUMBER, 0, SS_FOR_PEOPLE};
    for (int k = 0; k < shown_columns; k++) {
        which[k] = shown_columns > 1 ? (int)((long)k * (across - 1) / (shown_columns - 1)) : 0;
        columns[k + 1] = (ss_column){"", ss_swept_said(b, 1, which[k]), SS_DIM_NUMBER, -2, SS_FOR_PEOPLE};
    }
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){.key = "sweep_map",
                       .title = ss_build_text(b, "Controlling factor; across: %s", ss_swept_what(b, 1)),
                       .note = "Every point is in the CSV and JSON output.",
                       .audience = SS_FOR_PEOPLE,
                       .column_count = shown_columns + 1,
                       .columns = columns});
    const int rows = sweep->axis[0].count, shown_rows = rows < ROWS ? rows : ROWS;
    for (int k = 0; k < shown_rows; k++) {
        const int r = shown_rows > 1 ? (int)((long)k * (rows - 1) / (shown_rows - 1)) : 0;
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, ss_swept_said(b, 0, r));
        for (int c = 0; c < shown_columns; c++) {
            const int i = r * across + which[c];
            const double rf = i < sweep->done ? sweep->points[i].rf : (double)NAN;
            if (isnan(rf)) {
                ss_sheet_none(&sheet);
            } else {
                ss_sheet_value(&sheet, ss_rated_cut(rf, 2));
            }
        }
    }
}
