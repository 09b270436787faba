/* write.h - reports as text, JSON and CSV, and files that are written whole or not at all. */
#ifndef SILLSPAN_WRITE_H
#define SILLSPAN_WRITE_H

#include "sillspan/report.h"
#include "sillspan/text.h"

/** How text is set. */
typedef struct ss_text_style {
    int width; /**< columns, at least 40 */
    bool bold; /**< headings in bold by escape sequences: for a terminal only */
} ss_text_style;

/** Appends the report for people: sentences wrapped, tables aligned, drawings in characters. Control
 * characters of a description are made harmless. */
ss_status ss_write_text(const ss_report *report, ss_text_style style, ss_text *out, ss_error *error);

/** Appends the report for programs as one JSON object and a newline: docs/json.md. */
ss_status ss_write_json(const ss_report *report, ss_text *out, ss_error *error);

/**
 * Appends the report for programs as CSV (docs/csv.md): RFC 4180 with a line feed after each record, UTF-8.
 * All tables make one rectangular stream whose records begin with the table's name and the row; with `table`
 * that table alone, without those two fields. SS_ERROR_LIMIT: the report has no such table.
 */
ss_status ss_write_csv(const ss_report *report, const char *table, ss_text *out, ss_error *error);

/** The names of those tables, in order; at most `most` are written. Returns how many there are. */
int ss_write_csv_tables(const ss_report *report, const char **names, int most);

/**
 * Writes a file whole or not at all: a new file in the same directory, flushed to the disk, then renamed. An
 * existing file keeps its permissions, and its content on failure; a symbolic link is followed; a device or
 * pipe is written directly. SS_ERROR_FILE names the file and the reason, and nothing is left behind.
 */
ss_status ss_write_file(const char *path, const char *data, size_t length, ss_error *error);

#endif
