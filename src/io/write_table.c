/* write_table.c - tables for people: columns aligned by what is seen, numbers on their points. */
#include <math.h>
#include <string.h>

#include "io/write_bar.h"
#include "io/write_cells.h"
#include "io/write_lines.h"

#define INDENT 2
#define BETWEEN 2
/* A column of words is not squeezed below this unless the table is still too wide. */
#define NARROWEST 10
/* Nor below this when nothing else helps. */
#define LEAST 5

/* A cell as it will be seen; `point` is the columns before the decimal point. */
typedef struct shown {
    const char *text;
    int width, point;
} shown;

typedef struct seen_column {
    const ss_column *column;
    int index;         /* in the table */
    bool words;        /* aligned left, may be wrapped */
    int width;         /* of the column */
    int before, after; /* widest part before the point, and from it on */
    int decimals;      /* the same in every row, or -1 */
    bool powers;       /* has numbers like 1.3e8: aligned on their ends, not on their points */
} seen_column;

typedef struct layout {
    const ss_table *table;
    ss_unit_system units;
    seen_column *columns;
    int count;
    shown *cells; /* row_count x count */
    int bar;      /* columns of the bars; 0: none */
    double end;   /* where they end */
    ss_arena arena;
    bool failed;
} layout;

static shown show(layout *l, const ss_cell *cell, const seen_column *column) {
    shown s = {.text = ""};
    ss_text words = {0};
    ss_cells_add(&words, cell, column->column, column->decimals, l->units);
    const char *const copy =
        words.failed ? NULL : ss_arena_text(&l->arena, words.data == NULL ? "" : words.data, words.length);
    ss_text_destroy(&words);
    if (copy == NULL) {
        l->failed = true;
    } else {
        s.text = copy;
    }
    s.width = ss_text_width(s.text);
    s.point = s.width;
    if (cell->kind == SS_CELL_QUANTITY && isfinite(cell->value)) {
        const size_t digits = strspn(s.text, "-0123456789");
        s.point = (int)digits;
    }
    return s;
}

/* Longest word of a heading: a heading is broken at blanks, never within a word. */
static int longest_word(const char *title) {
    int longest = 0;
    while (*title != '\0') {
        const size_t length = strcspn(title, " ");
        const int width = ss_lines_width(title, length);
        longest = width > longest ? width : longest;
        title += length;
        title += strspn(title, " ");
    }
    return longest;
}

static void measure(layout *l, seen_column *c, int k) {
    for (int row = 0; row < l->table->row_count; row++) {
        shown *s = &l->cells[row * l->count + k];
        *s = show(l, &l->table->cells[row * l->table->column_count + c->index], c);
        c->powers = c->powers ||
                    (s->point < s->width && strchr(s->text, 'e') != NULL && strchr(s->text, ' ') == NULL);
    }
    for (int row = 0; row < l->table->row_count; row++) {
        shown *s = &l->cells[row * l->count + k];
        s->point = c->powers ? s->width : s->point;
        const int after = s->width - s->point;
        /* A word among numbers ("no limit") ends where the column ends. */
        if (ss_cells_number(s->text)) {
            c->before = s->point > c->before ? s->point : c->before;
            c->after = after > c->after ? after : c->after;
        }
        c->width = s->width > c->width ? s->width : c->width;
    }
    if (!c->words) {
        c->width = c->before + c->after > c->width ? c->before + c->after : c->width;
    }
    const int heading = longest_word(c->column->title);
    c->width = heading > c->width ? heading : c->width;
    const int unit = ss_text_width(ss_units_name(c->column->dimension, l->units));
    c->width = unit > c->width ? unit : c->width;
}

static int total_width(const layout *l) {
    int total = INDENT;
    for (int k = 0; k < l->count; k++) {
        total += l->columns[k].width + (k == 0 ? 0 : BETWEEN);
    }
    return total;
}

/* Longest word of a column, heading and cells. */
static int longest_of_column(const layout *l, int k) {
    int longest = longest_word(l->columns[k].column->title);
    for (int row = 0; row < l->table->row_count; row++) {
        const int own = longest_word(l->cells[row * l->count + k].text);
        longest = own > longest ? own : longest;
    }
    return longest;
}

/* Takes columns from the widest columns of words until the table fits or all have come down to `narrowest`,
 * or to the longest word of their heading. `whole`: no word of a cell is broken either. */
static void squeeze_to(layout *l, int width, int narrowest, bool whole) {
    for (int excess = total_width(l) - width; excess > 0; excess--) {
        int widest = -1;
        for (int k = 0; k < l->count; k++) {
            const seen_column *c = &l->columns[k];
            if (c->words && c->width > narrowest &&
                c->width > (whole ? longest_of_column(l, k) : longest_word(c->column->title)) &&
                (widest < 0 || c->width > l->columns[widest].width)) {
                widest = k;
            }
        }
        if (widest < 0) {
            return;
        }
        l->columns[widest].width--;
    }
}

/* Makes the table fit: narrow columns of words come last, and last of all their words are broken. */
static void squeeze(layout *l, int width) {
    squeeze_to(l, width, NARROWEST, false);
    squeeze_to(l, width, 1, true);
    squeeze_to(l, width, LEAST, false);
}

/* The number of a row that its bar is of; NaN: it has none. */
static double bar_value(const layout *l, int row) {
    for (int k = 0; k < l->table->column_count; k++) {
        const ss_cell *cell = &l->table->cells[row * l->table->column_count + k];
        if (cell->kind == SS_CELL_QUANTITY) {
            return cell->value;
        }
    }
    return (double)NAN;
}

/* Bars have the room that the table leaves, and no less than they need as long as words can give way. */
static void squeeze_with_bars(layout *l, int width) {
    double largest = 0.0;
    for (int row = 0; row < l->table->row_count; row++) {
        largest = fmax(largest, bar_value(l, row));
    }
    squeeze_to(l, width - BETWEEN - SS_BAR_FAIR, NARROWEST, true);
    squeeze(l, width - BETWEEN - SS_BAR_LEAST);
    const int room = width - BETWEEN - total_width(l);
    l->bar = room < SS_BAR_LEAST ? 0 : room < SS_BAR_MOST ? room : SS_BAR_MOST;
    l->end = ss_bar_end(largest);
}

static bool lay_out(layout *l, int width) {
    const ss_table *table = l->table;
    l->columns = ss_arena_alloc(&l->arena, (size_t)table->column_count, sizeof *l->columns);
    if (l->columns == NULL) {
        return false;
    }
    for (int i = 0; i < table->column_count; i++) {
        if (table->columns[i].audience != SS_FOR_PROGRAMS && !ss_cells_empty(table, i)) {
            l->columns[l->count++] = (seen_column){.column = &table->columns[i],
                                                   .index = i,
                                                   .words = ss_cells_words(table, i),
                                                   .decimals = ss_cells_decimals(table, i, l->units)};
        }
    }
    l->cells = ss_arena_alloc(&l->arena, (size_t)table->row_count * (size_t)l->count, sizeof *l->cells);
    if (l->cells == NULL) {
        return false;
    }
    for (int k = 0; k < l->count; k++) {
        measure(l, &l->columns[k], k);
    }
    if (table->bars) {
        squeeze_with_bars(l, width);
    } else {
        squeeze(l, width);
    }
    return !l->failed;
}

/* Drops the blanks at the end of the line and ends it. */
static void end_line(ss_text *out) {
    while (out->length > 0 && out->data[out->length - 1] == ' ') {
        out->data[--out->length] = '\0';
    }
    ss_text_add(out, "\n");
}

/* The n-th line of a heading broken at its column's width; *length is 0 past the end. */
static const char *heading_line(const char *title, int width, int n, size_t *length) {
    const char *at = title;
    *length = 0;
    for (int i = 0; i <= n; i++) {
        if (*at == '\0') {
            *length = 0;
            return at;
        }
        const char *next = at;
        *length = ss_lines_break(at, width, &next);
        if (i == n) {
            return at;
        }
        at = next;
    }
    return at;
}

static int heading_lines(const char *title, int width) {
    int lines = 0;
    size_t length = 0;
    for (heading_line(title, width, 0, &length); length > 0; heading_line(title, width, lines, &length)) {
        lines++;
    }
    return lines;
}

static void put_padded(ss_text *out, const seen_column *c, const char *text, size_t length) {
    const int blanks = c->width - ss_lines_width(text, length);
    if (!c->words) {
        ss_text_repeat(out, " ", blanks);
    }
    ss_text_add_bytes(out, text, length);
    if (c->words) {
        ss_text_repeat(out, " ", blanks);
    }
}

static void put_head(ss_text *out, const layout *l) {
    int lines = 0;
    bool units = false;
    for (int k = 0; k < l->count; k++) {
        const int own = heading_lines(l->columns[k].column->title, l->columns[k].width);
        lines = own > lines ? own : lines;
        units = units || ss_units_name(l->columns[k].column->dimension, l->units)[0] != '\0';
    }
    for (int line = 0; line < lines; line++) {
        ss_text_repeat(out, " ", INDENT);
        for (int k = 0; k < l->count; k++) {
            const seen_column *c = &l->columns[k];
            /* Headings stand on the rule below them. */
            const int skip = lines - heading_lines(c->column->title, c->width);
            size_t length = 0;
            const char *text =
                line < skip ? "" : heading_line(c->column->title, c->width, line - skip, &length);
            ss_text_repeat(out, " ", k == 0 ? 0 : BETWEEN);
            put_padded(out, c, text, length);
        }
        if (l->bar > 0 && line == lines - 1) {
            ss_text_repeat(out, " ", BETWEEN);
            ss_bar_scale(out, l->end, l->bar);
        }
        end_line(out);
    }
    for (int pass = units ? 0 : 1; pass < 2; pass++) {
        ss_text_repeat(out, " ", INDENT);
        for (int k = 0; k < l->count; k++) {
            const seen_column *c = &l->columns[k];
            const char *unit = ss_units_name(c->column->dimension, l->units);
            ss_text_repeat(out, " ", k == 0 ? 0 : BETWEEN);
            if (pass == 0) {
                put_padded(out, c, unit, strlen(unit));
            } else {
                ss_text_repeat(out, "-", c->width);
            }
        }
        if (l->bar > 0 && pass == 1) {
            ss_text_repeat(out, " ", BETWEEN);
            ss_text_repeat(out, "-", l->bar);
        }
        end_line(out);
    }
}

static void put_row(ss_text *out, const layout *l, int row) {
    /* Cells of words that are too wide go on below themselves. */
    const char *rest[64] = {NULL};
    bool more = true;
    for (int line = 0; more; line++) {
        more = false;
        ss_text_repeat(out, " ", INDENT);
        for (int k = 0; k < l->count; k++) {
            const seen_column *c = &l->columns[k];
            const shown *s = &l->cells[row * l->count + k];
            ss_text_repeat(out, " ", k == 0 ? 0 : BETWEEN);
            if (c->words && k < 64) {
                const char *at = line == 0 ? s->text : rest[k];
                const size_t length = ss_lines_break(at, c->width, &rest[k]);
                put_padded(out, c, at, length);
                more = more || *rest[k] != '\0';
            } else if (line > 0) {
                ss_text_repeat(out, " ", c->width);
            } else {
                const int after = ss_cells_number(s->text) ? c->after - (s->width - s->point) : 0;
                ss_text_repeat(out, " ", c->width - s->width - after);
                ss_text_add_bytes(out, s->text, strlen(s->text));
                ss_text_repeat(out, " ", after);
            }
        }
        if (l->bar > 0 && line == 0) {
            ss_text_repeat(out, " ", BETWEEN);
            ss_bar_add(out, bar_value(l, row), l->end, l->bar);
        }
        end_line(out);
    }
}

/* One row as "title: value" lines. */
static void put_record(ss_text *out, const layout *l, int width) {
    int longest = 0;
    for (int k = 0; k < l->count; k++) {
        const int own = ss_text_width(l->columns[k].column->title);
        longest = own > longest ? own : longest;
    }
    for (int k = 0; k < l->count; k++) {
        const ss_column *column = l->columns[k].column;
        const char *unit = ss_units_name(column->dimension, l->units);
        ss_text line = {0};
        ss_text_repeat(out, " ", INDENT);
        ss_text_add(out, column->title);
        ss_text_repeat(out, " ", longest - ss_text_width(column->title) + BETWEEN);
        ss_text_add(&line, l->cells[k].text);
        if (unit[0] != '\0') {
            ss_text_printf(&line, " %s", unit);
        }
        const size_t before = out->length;
        const int indent = INDENT + longest + BETWEEN;
        ss_lines_wrap(out, line.data == NULL ? "" : line.data, indent, indent, width);
        /* The first line's indent is already there. */
        if (!out->failed && out->length - before > (size_t)indent) {
            memmove(out->data + before, out->data + before + indent,
                    out->length - before - (size_t)indent + 1);
            out->length -= (size_t)indent;
        }
        out->failed = out->failed || line.failed;
        ss_text_destroy(&line);
    }
}

void ss_lines_table(ss_text *out, const ss_table *table, ss_unit_system units, int width) {
    if (table->row_count == 0) {
        return;
    }
    layout l = {.table = table, .units = units};
    if (!lay_out(&l, width)) {
        out->failed = true;
    } else if (l.count > 0) {
        if (table->title[0] != '\0') {
            ss_lines_wrap(out, table->title, 0, 0, width);
            ss_text_add(out, "\n");
        }
        if (table->record) {
            put_record(out, &l, width);
        } else {
            put_head(out, &l);
            for (int row = 0; row < table->row_count; row++) {
                put_row(out, &l, row);
            }
        }
        if (table->note != NULL) {
            ss_text_add(out, "\n");
            ss_lines_wrap(out, table->note, INDENT, INDENT, width);
        }
        ss_text_add(out, "\n");
    }
    ss_arena_destroy(&l.arena);
}
