/* pdf_grid.c - how wide the columns of a table are: as wide as they like, then set smaller and wrapped, then
 * with words broken, and at last some of them at a time. */
#include "io/pdf_grid.h"

#include <math.h>
#include <string.h>

#include "io/write_cells.h"

/* Sizes of letters, and the smallest, for tables that nothing else helps. */
static const double sizes[] = {8.8, 8.2, 7.6, 7.0};
#define SMALLEST 6.5
/* Column of words are not made narrower than this for the sake of larger letters; in letters of size 1. */
#define COMFORT 9.0
/* A long word may be broken into pieces as wide as this. */
#define PIECE 7.0
/* A text that begins with a number and is no longer is a quantity, and is not broken: "26.32 kip-ft". */
#define QUANTITY 24

static const ss_pen unit_pen = {SS_FACE_SERIF, 1.0, SS_PDF_INK};
static const ss_pen title_pen = {SS_FACE_SERIF_BOLD, 1.0, SS_PDF_INK};

double ss_pdf_grid_after(const ss_pdf *pdf, const char *shown) {
    const size_t before = strspn(shown, "-0123456789");
    if (before == 0) {
        return -1.0;
    }
    const size_t after = shown[before] == '.' ? 1 + strspn(shown + before + 1, "0123456789") : 0;
    return shown[before + after] != '\0' ? -1.0 : ss_pdf_width(pdf, unit_pen, shown + before);
}

static double longest_word(ss_pdf *pdf, ss_pen pen, const char *text) {
    double longest = 0.0;
    for (const char *at = text; *at != '\0';) {
        const size_t blanks = strspn(at, " ");
        const size_t length = strcspn(at + blanks, " ");
        longest = fmax(longest, ss_pdf_width(pdf, pen, ss_pdf_part(pdf, at + blanks, length)));
        at += blanks + length;
    }
    return longest;
}

static void widen(ss_pdf_grid_column *c, double natural, double whole, double least, double broken) {
    c->whole = fmax(c->whole, whole);
    c->natural = fmax(c->natural, natural);
    c->least = fmax(c->least, least);
    c->broken = fmax(c->broken, broken);
}

static void measure_title(ss_pdf *pdf, ss_pdf_grid_column *c, ss_pen pen, const char *text) {
    const double least = longest_word(pdf, pen, text);
    widen(c, ss_pdf_width(pdf, pen, text), least, least, fmin(least, PIECE));
}

static void measure_cell(ss_pdf *pdf, ss_pdf_grid_column *c, const char *shown) {
    const double after = c->words ? -1.0 : ss_pdf_grid_after(pdf, shown);
    const double width = ss_pdf_width(pdf, unit_pen, shown) + (after >= 0.0 ? c->after - after : 0.0);
    if (ss_cells_number(shown) && strlen(shown) <= QUANTITY) {
        widen(c, width, width, width, width);
    } else {
        const double least = longest_word(pdf, unit_pen, shown);
        widen(c, width, width, least, fmin(least, PIECE));
    }
}

static void measure_column(ss_pdf_grid *g, int k) {
    ss_pdf *const pdf = g->pdf;
    ss_pdf_grid_column *const c = &g->columns[k];
    for (int row = 0; row < g->table->row_count && !c->words; row++) {
        c->after = fmax(c->after, ss_pdf_grid_after(pdf, g->cells[row * g->count + k]));
    }
    measure_title(pdf, c, title_pen, c->title);
    measure_title(pdf, c, unit_pen, c->unit);
    for (int row = 0; row < g->table->row_count && !pdf->failed; row++) {
        measure_cell(pdf, c, g->cells[row * g->count + k]);
    }
}

static bool read_columns(ss_pdf_grid *g) {
    ss_pdf *const pdf = g->pdf;
    const ss_table *const table = g->table;
    g->columns = ss_arena_alloc(&pdf->arena, (size_t)table->column_count, sizeof *g->columns);
    for (int i = 0; g->columns != NULL && i < table->column_count; i++) {
        if (table->columns[i].audience != SS_FOR_PROGRAMS && !ss_cells_empty(table, i)) {
            const ss_column *const column = &table->columns[i];
            g->columns[g->count++] = (ss_pdf_grid_column){
                .column = column,
                .index = i,
                .title = ss_pdf_plain(pdf, column->title),
                .unit = ss_pdf_plain(pdf, ss_units_name(column->dimension, pdf->report->units)),
                .words = ss_cells_words(table, i)};
        }
    }
    return g->columns != NULL;
}

static char *read_cell(ss_pdf_grid *g, int row, const ss_pdf_grid_column *c, int decimals) {
    ss_text shown = {0};
    ss_cells_add(&shown, &g->table->cells[row * g->table->column_count + c->index], c->column, decimals,
                 g->pdf->report->units);
    g->pdf->failed = g->pdf->failed || shown.failed;
    char *const kept = ss_pdf_plain(g->pdf, shown.data == NULL ? "" : shown.data);
    ss_text_destroy(&shown);
    return kept;
}

bool ss_pdf_grid_measure(ss_pdf_grid *g) {
    ss_pdf *const pdf = g->pdf;
    if (pdf->failed || !read_columns(g)) {
        pdf->failed = true;
        return false;
    }
    g->cells = ss_arena_alloc(&pdf->arena, (size_t)g->table->row_count * (size_t)g->count, sizeof *g->cells);
    pdf->failed = pdf->failed || g->cells == NULL;
    for (int k = 0; k < g->count && !pdf->failed; k++) {
        const int decimals = ss_cells_decimals(g->table, g->columns[k].index, pdf->report->units);
        for (int row = 0; row < g->table->row_count; row++) {
            g->cells[row * g->count + k] = read_cell(g, row, &g->columns[k], decimals);
        }
        measure_column(g, k);
    }
    return !pdf->failed && g->count > 0;
}

/* How narrow a column may become. */
typedef enum pressure { CELLS_WHOLE, COMFORTABLE, WORDS_WHOLE, WORDS_BROKEN } pressure;

static double narrowest(const ss_pdf_grid_column *c, pressure press) {
    switch (press) {
    case CELLS_WHOLE: return c->whole;
    case COMFORTABLE: return fmin(c->whole, fmax(c->least, c->words ? COMFORT : 0.0));
    case WORDS_WHOLE: return c->least;
    case WORDS_BROKEN: break;
    }
    return c->broken;
}

/* Titles get what cells leave. */
static double most(const ss_pdf_grid_column *c, pressure press) {
    return press == CELLS_WHOLE ? c->natural : c->whole;
}

/* Gives some columns their widths, between the narrowest and the most that they make use of. False: there is
 * no room. */
static bool give_widths(ss_pdf_grid *g, const int *which, int count, pressure press) {
    double least = 0.0;
    double natural = 0.0;
    for (int i = 0; i < count; i++) {
        least += narrowest(&g->columns[which[i]], press);
        natural += most(&g->columns[which[i]], press);
    }
    const double room = (g->pdf->width - g->gap * (count - 1)) / g->size;
    if (least > room) {
        return false;
    }
    const double share = natural <= room ? 1.0 : (room - least) / fmax(natural - least, 1e-9);
    double x = 0.0;
    for (int i = 0; i < count; i++) {
        ss_pdf_grid_column *const c = &g->columns[which[i]];
        const double low = narrowest(c, press);
        c->width = g->size * (low + share * (most(c, press) - low));
        c->x = x;
        x += c->width + g->gap;
    }
    return true;
}

static void set_size(ss_pdf_grid *g, double size) {
    g->size = size;
    g->gap = size > 8.0 ? SS_PDF_MM(3.0) : SS_PDF_MM(2.1);
}

void ss_pdf_grid_fit(ss_pdf_grid *g) {
    int *const all = ss_arena_alloc(&g->pdf->arena, (size_t)g->count, sizeof *all);
    if (all == NULL) {
        g->pdf->failed = true;
        return;
    }
    for (int k = 0; k < g->count; k++) {
        all[k] = k;
    }
    /* Somewhat smaller letters rather than broken cells. */
    for (int i = 0; i < 2; i++) {
        set_size(g, sizes[i]);
        if (give_widths(g, all, g->count, CELLS_WHOLE)) {
            return;
        }
    }
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        set_size(g, sizes[i]);
        if (give_widths(g, all, g->count, COMFORTABLE)) {
            return;
        }
    }
    if (!give_widths(g, all, g->count, WORDS_WHOLE)) {
        set_size(g, SMALLEST);
        g->split = !give_widths(g, all, g->count, WORDS_BROKEN);
    }
}

void ss_pdf_grid_place(ss_pdf_grid *g, const int *which, int count) {
    if (!give_widths(g, which, count, WORDS_WHOLE) && !give_widths(g, which, count, WORDS_BROKEN)) {
        /* Two columns that together are wider than the page: half of it for each, and their words are broken.
         */
        for (int i = 0; i < count; i++) {
            ss_pdf_grid_column *const c = &g->columns[which[i]];
            c->width = (g->pdf->width - g->gap * (count - 1)) / count;
            c->x = i * (c->width + g->gap);
        }
    }
}
