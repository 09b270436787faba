/* write_lines.h - what the text writers share: harmless text, wrapping, padding. */
#ifndef SS_WRITE_LINES_H
#define SS_WRITE_LINES_H

#include "sillspan/report.h"
#include "sillspan/text.h"

/** Appends `text` (made harmless) wrapped at `width` columns: the first line after `first` blanks, the others
 * after `rest`. A word longer than the line stands alone on one. Ends with a newline. */
void ss_lines_wrap(ss_text *out, const char *text, int first, int rest, int width);

/** The bytes of `text` that fill at most `columns`, broken at a blank where there is one; at least one
 * character unless empty. *next is where the following line begins. */
size_t ss_lines_break(const char *text, int columns, const char **next);

/** Columns of the first `length` bytes. */
int ss_lines_width(const char *text, size_t length);

/** Appends a table for people, at most `width` columns if it can be. */
void ss_lines_table(ss_text *out, const ss_table *table, ss_unit_system units, int width);

/** Appends a drawing in characters, at most `width` columns, with a legend. */
void ss_lines_drawing(ss_text *out, const ss_drawing *drawing, int width);

/** Rows per metre at which neighbouring lines of a drawing do not fall together; 0 where none do. */
double ss_lines_separating(const ss_drawing *drawing);

/** What a stroke of a drawing stands for, as its legend says it; NULL for what explains itself. */
const char *ss_lines_stroke_name(ss_stroke_kind kind);

#endif
