/* write.h - reports as text and JSON, and files that are written whole or not at all. */
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
 * Writes a file whole or not at all: a new file in the same directory, flushed to the disk, then renamed. An
 * existing file keeps its permissions, and its content on failure; a symbolic link is followed; a device or
 * pipe is written directly. SS_ERROR_FILE names the file and the reason, and nothing is left behind.
 */
ss_status ss_write_file(const char *path, const char *data, size_t length, ss_error *error);

#endif
