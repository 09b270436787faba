/* write.h - reports as text, HTML, PDF, JSON and CSV, figures as SVG, PDF and PNG, grids as VTK,
 * and files that are written whole or not at all.
 */
#ifndef SILLSPAN_WRITE_H
#define SILLSPAN_WRITE_H

#include "sillspan/figure.h"
#include "sillspan/grid.h"
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

/**
 * Appends the report for people as one HTML page that needs nothing else: no network, no script, its style
 * and drawings inside. The first heading is the title; the contents stand after the first section, which
 * should be the answer. Sections, tables and drawings have the ids s1, t1, d1 and on. No text of a
 * description becomes anything but text. Rules for paper are for A4 and Letter.
 */
ss_status ss_write_html(const ss_report *report, ss_text *out, ss_error *error);

/** Paper that a page is set for. */
typedef enum ss_paper_size { SS_PAPER_A4, SS_PAPER_LETTER } ss_paper_size;

/**
 * Appends the report for people as PDF, in the serif letters that fontconfig finds: the first heading is the
 * title, the contents with page numbers stand after the first section. Nothing runs off the paper: tables
 * that are too wide are set smaller, then wrapped, then split by columns; short ones stay on one page, longer
 * ones repeat their heads. The same report and letters give the same bytes. SS_ERROR_LIMIT: a build without
 * PDF.
 */
ss_status ss_write_pdf(const ss_report *report, ss_paper_size paper, ss_text *out, ss_error *error);

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
 * Appends a figure as SVG 1.1: one element whose lengths are millimetres, with its own style, so that it may
 * stand in a file of its own or within a page. Texts stay texts; whatever they hold is escaped. figure->key
 * begins its identifiers and must be a plain word.
 */
ss_status ss_write_svg(const ss_figure *figure, ss_text *out, ss_error *error);

/**
 * Appends a figure as PDF: one page as large as the figure, lines as lines and texts as texts, in the sans
 * letters that fontconfig finds; where those are wider than the figure made room for, they are set narrower.
 * The same figure and letters give the same bytes. SS_ERROR_LIMIT: too large, or a build without PDF
 * (ss_libraries_drawing).
 */
ss_status ss_write_figure_pdf(const ss_figure *figure, ss_text *out, ss_error *error);

/** Appends it as PNG of so many dots per inch, on white; its bytes hold zeros. Else as ss_write_figure_pdf.
 */
ss_status ss_write_figure_png(const ss_figure *figure, int dots, ss_text *out, ss_error *error);

/**
 * Appends a grid as an unstructured grid of VTK XML (docs/export.md): lengths of points and values in
 * `units`, which the names of arrays say; numbers as base64 with the least byte first, texts as codes of
 * bytes.
 */
ss_status ss_write_vtu(const ss_grid *grid, ss_unit_system units, ss_text *out, ss_error *error);

/**
 * Writes a file whole or not at all: a new file in the same directory, flushed to the disk, then renamed. An
 * existing file keeps its permissions, and its content on failure; a symbolic link is followed; a device or
 * pipe is written directly. SS_ERROR_FILE names the file and the reason, and nothing is left behind.
 */
ss_status ss_write_file(const char *path, const char *data, size_t length, ss_error *error);

#endif
