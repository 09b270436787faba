/* pdf_table.c - tables of a report's PDF: heads that are repeated, rows, records, notes. */
#include "io/pdf_grid.h"

#include <math.h>
#include <string.h>

#include "io/write_cells.h"

#define LEADING 1.28
#define PAD SS_PDF_MM(0.5)

static char *title_of(ss_pdf_grid *g, bool again) {
    char *const title = ss_pdf_plain(g->pdf, g->table->title);
    if (!again || g->pdf->failed) {
        return title;
    }
    char *const more =
        ss_arena_printf(&g->pdf->arena, "%s%sfurther columns", title, title[0] == '\0' ? "" : ", ");
    g->pdf->failed = more == NULL;
    return more == NULL ? title : more;
}

/* Lines that a title takes in its column. */
static int lines_of(const ss_pdf_grid *g, const ss_pdf_grid_column *c, ss_pen pen) {
    int lines = 0;
    for (char *at = c->title; *at != '\0'; lines++) {
        char *next = at;
        if (ss_pdf_break(g->pdf, pen, at, c->width, &next) == 0) {
            break;
        }
        at = next;
    }
    return lines;
}

static void add_head_cell(ss_pdf_grid *g, const ss_pdf_grid_column *c, ss_pen pen, double leading, int skip) {
    ss_pdf *const pdf = g->pdf;
    char *at = c->title;
    for (int line = skip; *at != '\0' && !pdf->failed; line++) {
        char *next = at;
        const size_t length = ss_pdf_break(pdf, pen, at, c->width, &next);
        if (length == 0) {
            return;
        }
        const char *const part = ss_pdf_part(pdf, at, length);
        const double x = c->words ? c->x : c->x + c->width - ss_pdf_width(pdf, pen, part);
        ss_pdf_text(pdf, pen, (ss_spot){x, (line + 0.85) * leading}, part);
        at = next;
    }
}

/* Titles stand on the units, and these on the rule. */
static void add_head(ss_pdf_grid *g, const int *which, int count) {
    ss_pdf *const pdf = g->pdf;
    const ss_pen pen = {SS_FACE_SERIF_BOLD, g->size, SS_PDF_INK};
    const ss_pen soft = {SS_FACE_SERIF_ITALIC, g->size, SS_PDF_SOFT};
    const double leading = 1.18 * g->size;
    int lines = 0;
    bool units = false;
    for (int i = 0; i < count; i++) {
        const ss_pdf_grid_column *const c = &g->columns[which[i]];
        const int own = lines_of(g, c, pen);
        lines = own > lines ? own : lines;
        units = units || c->unit[0] != '\0';
    }
    const double height = (lines + (units ? 1 : 0)) * leading + SS_PDF_MM(1.0);
    const ss_pdf_grid_column *const last = &g->columns[which[count - 1]];
    ss_pdf_box(pdf, SS_PDF_MM(1.0), height)->keep = true;
    ss_pdf_rule(pdf, SS_PDF_INK, 0.8, (ss_spot){0.0, height - 0.4},
                (ss_spot){last->x + last->width, height - 0.4});
    for (int i = 0; i < count; i++) {
        const ss_pdf_grid_column *const c = &g->columns[which[i]];
        add_head_cell(g, c, pen, leading, lines - lines_of(g, c, pen));
        const double x = c->words ? c->x : c->x + c->width - ss_pdf_width(pdf, soft, c->unit);
        ss_pdf_text(pdf, soft, (ss_spot){x, (lines + 0.85) * leading}, c->unit);
    }
}

static int add_row(ss_pdf_grid *g, const int *which, int count, int row) {
    ss_pdf *const pdf = g->pdf;
    ss_strip_cell *const cells = ss_alloc((size_t)count, sizeof *cells);
    if (cells == NULL) {
        pdf->failed = true;
        return 0;
    }
    for (int i = 0; i < count; i++) {
        const ss_pdf_grid_column *const c = &g->columns[which[i]];
        char *const shown = g->cells[row * g->count + which[i]];
        const double after = c->words ? -1.0 : ss_pdf_grid_after(pdf, shown);
        cells[i] = (ss_strip_cell){.text = shown,
                                   .x = c->x,
                                   .width = c->width,
                                   .right = !c->words,
                                   .back = after >= 0.0 ? g->size * (c->after - after) : 0.0,
                                   .pen = {SS_FACE_SERIF, g->size, SS_PDF_INK}};
    }
    const int boxes = ss_pdf_strip(pdf, cells, count, LEADING * g->size, PAD, row == 0 ? 0 : SS_PDF_RULE);
    ss_free(cells);
    return boxes;
}

/* Tables up to these shares of a page stay on one. A record is a calculation to be followed, or a list. */
#define WHOLE_ROWS (1.0 / 3.0)
#define WHOLE_RECORD 0.6

/* Short tables stay on one page; of long ones the first and the last two rows stay together. */
static void keep_rows(ss_pdf *pdf, int first, int second_row, int last_row_but_one, double share) {
    double height = 0.0;
    for (int i = first; i < pdf->box_count; i++) {
        height += pdf->boxes[i].height;
    }
    const bool whole = height <= share * pdf->height;
    for (int i = first; i < pdf->box_count - 1; i++) {
        ss_box *const box = &pdf->boxes[i];
        box->keep = box->keep || whole || i < second_row || i >= last_row_but_one;
    }
}

static void add_rows(ss_pdf_grid *g, const int *which, int count) {
    ss_pdf *const pdf = g->pdf;
    const int rows = g->table->row_count;
    add_head(g, which, count);
    const int head = pdf->box_count - 1;
    int second = head + 1;
    int last_but_one = head + 1;
    for (int row = 0; row < rows && !pdf->failed; row++) {
        second = row == 1 ? pdf->box_count : second;
        last_but_one = row == rows - 2 ? pdf->box_count : last_but_one;
        add_row(g, which, count, row);
    }
    if (pdf->failed) {
        return;
    }
    const double high = pdf->boxes[head].height;
    for (int i = head + 1; i < pdf->box_count; i++) {
        pdf->boxes[i].head = head;
        pdf->boxes[i].heads = high < pdf->height / 3.0 ? 1 : 0;
    }
    keep_rows(pdf, head + 1, second, last_but_one, WHOLE_ROWS);
    const ss_box *const last = &pdf->boxes[pdf->box_count - 1];
    const ss_pdf_grid_column *const end = &g->columns[which[count - 1]];
    ss_pdf_rule(pdf, SS_PDF_INK, 0.5, (ss_spot){0.0, last->height},
                (ss_spot){end->x + end->width, last->height});
}

static void add_caption(ss_pdf_grid *g, bool again) {
    char *const title = title_of(g, again);
    if (title[0] != '\0') {
        ss_pdf_caption(g->pdf, title);
    } else {
        ss_pdf_box(g->pdf, SS_PDF_MM(2.0), 0.1)->keep = true;
    }
}

/* As many columns at a time as there is room for, the first with each of them. */
static void add_parts(ss_pdf_grid *g) {
    ss_pdf *const pdf = g->pdf;
    int *const which = ss_arena_alloc(&pdf->arena, (size_t)g->count, sizeof *which);
    if (which == NULL) {
        pdf->failed = true;
        return;
    }
    for (int from = 1; from < g->count && !pdf->failed;) {
        int count = 1;
        double width = g->size * g->columns[0].broken;
        which[0] = 0;
        for (; from < g->count; from++) {
            const double more = g->size * g->columns[from].broken + g->gap;
            if (count > 1 && width + more > pdf->width) {
                break;
            }
            which[count++] = from;
            width += more;
        }
        ss_pdf_grid_place(g, which, count);
        add_caption(g, which[1] > 1);
        add_rows(g, which, count);
    }
}

static void add_whole(ss_pdf_grid *g) {
    int *const which = ss_arena_alloc(&g->pdf->arena, (size_t)g->count, sizeof *which);
    if (which == NULL) {
        g->pdf->failed = true;
        return;
    }
    for (int k = 0; k < g->count; k++) {
        which[k] = k;
    }
    add_caption(g, false);
    add_rows(g, which, g->count);
}

/* One row as lines of a name and a value. */
static void add_record(ss_pdf_grid *g) {
    ss_pdf *const pdf = g->pdf;
    const bool summary = strcmp(g->table->key, "summary") == 0;
    const double size = summary ? 10.5 : 9.0;
    const ss_pen names = {summary ? SS_FACE_SERIF_ITALIC : SS_FACE_SERIF, size,
                          summary ? SS_PDF_INK : SS_PDF_SOFT};
    double wide = SS_PDF_MM(28.0);
    for (int k = 0; k < g->count; k++) {
        wide = fmax(wide, ss_pdf_width(pdf, names, g->columns[k].title));
    }
    wide = fmin(wide, SS_PDF_MM(66.0));
    const double x = wide + SS_PDF_MM(4.0);
    add_caption(g, false);
    const int first = pdf->box_count;
    for (int k = 0; k < g->count && !pdf->failed; k++) {
        const ss_pdf_grid_column *const c = &g->columns[k];
        char *const value =
            c->unit[0] == '\0' ? g->cells[k] : ss_arena_printf(&pdf->arena, "%s %s", g->cells[k], c->unit);
        pdf->failed = value == NULL;
        if (value != NULL) {
            const ss_strip_cell cells[] = {
                {.text = c->title, .width = wide, .pen = names},
                {.text = value, .x = x, .width = pdf->width - x, .pen = {SS_FACE_SERIF, size, SS_PDF_INK}}};
            ss_pdf_strip(pdf, cells, 2, (summary ? 1.35 : LEADING) * size, summary ? SS_PDF_MM(0.9) : PAD,
                         k == 0 && summary ? SS_PDF_INK : SS_PDF_RULE);
        }
    }
    if (!pdf->failed) {
        keep_rows(pdf, first, first + 1, pdf->box_count - 2, WHOLE_RECORD);
        const double end = pdf->boxes[pdf->box_count - 1].height;
        ss_pdf_rule(pdf, summary ? SS_PDF_INK : SS_PDF_RULE, 0.5, (ss_spot){0.0, end},
                    (ss_spot){pdf->width, end});
    }
}

void ss_pdf_table(ss_pdf *pdf, const ss_table *table) {
    ss_pdf_grid grid = {.pdf = pdf, .table = table};
    if (table->row_count == 0 || !ss_pdf_grid_measure(&grid)) {
        return;
    }
    ss_pdf_grid_fit(&grid);
    if (pdf->failed) {
        return;
    }
    if (table->record) {
        add_record(&grid);
    } else if (grid.split && grid.count > 1) {
        add_parts(&grid);
    } else {
        if (grid.split) {
            ss_pdf_grid_place(&grid, &(int){0}, 1);
        }
        add_whole(&grid);
    }
    if (table->note != NULL && !pdf->failed) {
        ss_pdf_note(pdf, table->note);
    }
}
