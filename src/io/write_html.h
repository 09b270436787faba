/* write_html.h - what the writers of the HTML page share: escaped text, tables, drawings, the style. */
#ifndef SS_WRITE_HTML_H
#define SS_WRITE_HTML_H

#include "sillspan/report.h"
#include "sillspan/text.h"

/** The page that is being written. */
typedef struct ss_html {
    const ss_report *report;
    ss_text *out;
    const char *section;                     /**< heading that we are under, never NULL */
    int sections, tables, drawings, figures; /**< written so far; their ids are numbered by them */
} ss_html;

/** Appends text of anyone's as text of a page or of any other XML: control characters harmless, nothing left
 * that could end an element, an attribute or begin a character reference. */
void ss_html_text(ss_text *out, const char *text);

/** The same for a cell of a table: long words may be broken, so that a table never is wider than its page. */
void ss_html_cell(ss_text *out, const char *text);

/** Appends text of anyone's between the quotes of a string of a style sheet, as much as fits the margin of a
 * page: letters, digits and blanks as they are, all else as numbers of characters. */
void ss_html_style_text(ss_text *out, const char *text);

/** Appends the rules of the page's style. */
void ss_html_style(ss_text *out);

/** Appends a table for people with its caption, and its note below; nothing when it has no row. */
void ss_html_table(ss_html *page, const ss_table *table);

/** Appends a drawing as SVG in place, with a title, a key of its strokes and its note. */
void ss_html_drawing(ss_html *page, const ss_drawing *drawing);

/** Appends a figure as SVG in place. */
void ss_html_figure(ss_html *page, const struct ss_figure *figure);

#endif
