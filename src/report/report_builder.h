/* report_builder.h - how the parts of a report are put together. */
#ifndef SS_REPORT_BUILDER_H
#define SS_REPORT_BUILDER_H

#include "sillspan/report.h"

/** What all parts write into. After a failed allocation `failed` stays set and everything below does nothing,
 * so only the end need be checked. */
typedef struct ss_builder {
    ss_report *report;
    const ss_results *results;
    const struct ss_range *ranges; /* made by ss_ranges at its first call */
    bool failed;
} ss_builder;

/** A text of the report's own, never NULL ("" after a failure). */
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
const char *
ss_build_text(ss_builder *b, const char *format, ...);

void ss_build_heading(ss_builder *b, ss_audience audience, const char *text);

#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
void ss_build_sentence(ss_builder *b, const char *format, ...);

/** Adds a sentence to a list for people; ss_build_points puts the list into the report. */
typedef struct ss_points {
    const char *items[24];
    int count;
} ss_points;
#if defined(__GNUC__)
__attribute__((format(printf, 3, 4)))
#endif
void ss_point(ss_builder *b, ss_points *points, const char *format, ...);
void ss_build_points(ss_builder *b, const ss_points *points);

/** A text that programs see under `key`. */
void ss_build_value(ss_builder *b, ss_audience audience, const char *key, const char *text);

/** A list of sentences; the array is kept, not copied. */
void ss_build_list(ss_builder *b, ss_audience audience, const char *key, const char **items, int count);

/** Lines to be filled in by hand; the array is kept, not copied. */
void ss_build_blanks(ss_builder *b, const char **items, int count);

/** `drawing` lives in the report's arena. */
/** Heading of what is for people at a screen and is not printed. */
void ss_build_screen_heading(ss_builder *b, const char *text);
void ss_build_moving(ss_builder *b, const ss_moving_sheet *sheet);
void ss_build_drawing(ss_builder *b, ss_drawing *drawing);

/** Makes a figure of the results; what keeps it from being made, other than memory, is said in its place. */
typedef ss_status ss_figure_maker(const ss_results *results, ss_unit_system units, struct ss_figure *out,
                                  ss_error *error);
void ss_build_figure(ss_builder *b, ss_figure_maker *make);

/** A table that is being filled, cell after cell, row after row. */
typedef struct ss_sheet {
    ss_builder *builder;
    ss_table *table;
    int capacity; /* rows */
    int next;     /* column of the next cell */
} ss_sheet;

/** Begins a table and puts it into the report: `head` gives key, title, note, audience, record and columns.
 */
ss_sheet ss_build_table(ss_builder *b, const ss_table *head);

/** Begins a row; cells not filled stay empty. */
void ss_sheet_row(ss_sheet *sheet);
void ss_sheet_none(ss_sheet *sheet);
/** `text` is kept, not copied; NULL is an empty cell. */
void ss_sheet_text(ss_sheet *sheet, const char *text);
/** SI value in the column's dimension. */
void ss_sheet_value(ss_sheet *sheet, double value);
/** SI value in a dimension of its own. */
void ss_sheet_quantity(ss_sheet *sheet, double value, ss_dimension dimension);
void ss_sheet_integer(ss_sheet *sheet, int value);
void ss_sheet_flag(ss_sheet *sheet, bool value);

#endif
