/* write_html_table.c - a table for people as a table of the page: units in the head, numbers on their points.
 */
#include <string.h>

#include "io/write_cells.h"
#include "io/write_html.h"

/* Tables with more columns are set smaller on paper. */
#define MANY 11
/* Tables with no more rows are kept on one page. */
#define FEW 16

/* A text that begins with a number and is no longer is a quantity, and is not broken: "26.32 kip-ft". */
#define QUANTITY 24

/* A column that people see. */
typedef struct seen {
    const ss_column *column;
    int index;
    bool words;
    int decimals; /* the same in every row, or -1 */
    int after;    /* most bytes of a plain number from the point on */
} seen;

typedef struct layout {
    ss_html *page;
    const ss_table *table;
    seen *columns;
    int count;
    ss_text shown; /* the cell at hand */
} layout;

/* Leaves in l->shown what a cell shows, never NULL. */
static const char *show(layout *l, int row, const seen *c) {
    l->shown.length = 0;
    if (l->shown.data != NULL) {
        l->shown.data[0] = '\0';
    }
    ss_cells_add(&l->shown, &l->table->cells[row * l->table->column_count + c->index], c->column, c->decimals,
                 l->page->report->units);
    l->page->out->failed = l->page->out->failed || l->shown.failed;
    return l->shown.data == NULL ? "" : l->shown.data;
}

/* Bytes from the point on of "-12.50", or -1 for what is not a plain number. */
static int after_point(const char *shown) {
    const size_t before = strspn(shown, "-0123456789");
    if (before == 0) {
        return -1;
    }
    const size_t after = shown[before] == '.' ? 1 + strspn(shown + before + 1, "0123456789") : 0;
    return shown[before + after] == '\0' ? (int)after : -1;
}

static bool lay_out(layout *l) {
    const ss_table *table = l->table;
    const ss_unit_system units = l->page->report->units;
    l->columns = ss_alloc((size_t)table->column_count, sizeof *l->columns);
    if (l->columns == NULL) {
        return false;
    }
    for (int i = 0; i < table->column_count; i++) {
        if (table->columns[i].audience == SS_FOR_PROGRAMS || ss_cells_empty(table, i)) {
            continue;
        }
        seen *c = &l->columns[l->count++];
        *c = (seen){.column = &table->columns[i],
                    .index = i,
                    .words = ss_cells_words(table, i),
                    .decimals = ss_cells_decimals(table, i, units)};
        for (int row = 0; row < table->row_count && !c->words; row++) {
            const int after = after_point(show(l, row, c));
            c->after = after > c->after ? after : c->after;
        }
    }
    return true;
}

static void put_unit(const layout *l, const ss_column *column, const char *before, const char *after) {
    const char *unit = ss_units_name(column->dimension, l->page->report->units);
    if (unit[0] != '\0') {
        ss_text_add(l->page->out, before);
        ss_html_text(l->page->out, unit);
        ss_text_add(l->page->out, after);
    }
}

static void put_head(const layout *l) {
    ss_text *out = l->page->out;
    ss_text_add(out, "<thead>\n<tr>");
    for (int k = 0; k < l->count; k++) {
        const seen *c = &l->columns[k];
        if (c->column->title[0] == '\0') {
            ss_text_add(out, "<td></td>"); /* a head without words says nothing */
            continue;
        }
        ss_text_printf(out, "<th scope=\"col\"%s>", c->words ? "" : " class=\"n\"");
        ss_html_cell(out, c->column->title);
        put_unit(l, c->column, " <span class=\"unit\">", "</span>");
        ss_text_add(out, "</th>");
    }
    ss_text_add(out, "</tr>\n</thead>\n");
}

/* A number is followed by unseen decimals, so that all points of the column stand below each other; they are
 * in the style alone, not in the text. */
static void put_cell(layout *l, int row, int k) {
    ss_text *out = l->page->out;
    const seen *c = &l->columns[k];
    const char *shown = show(l, row, c);
    const bool names = k == 0 && c->words && shown[0] != '\0';
    ss_text_add(out, names ? "<th scope=\"row\"" : "<td");
    if (!c->words) {
        const int own = after_point(shown);
        ss_text_add(out, " class=\"n\"");
        if (own >= 0 && own < c->after) {
            ss_text_printf(out, " data-pad=\"%s", own == 0 ? "." : "");
            ss_text_repeat(out, "0", own == 0 ? c->after - 1 : c->after - own);
            ss_text_add(out, "\"");
        }
    }
    if (c->words && ss_cells_number(shown) && strlen(shown) <= QUANTITY) {
        ss_text_add(out, " class=\"q\"");
    }
    ss_text_add(out, ">");
    ss_html_cell(out, shown);
    ss_text_add(out, names ? "</th>" : "</td>");
}

static void put_rows(layout *l) {
    ss_text *out = l->page->out;
    put_head(l);
    ss_text_add(out, "<tbody>\n");
    for (int row = 0; row < l->table->row_count; row++) {
        ss_text_add(out, "<tr>");
        for (int k = 0; k < l->count; k++) {
            put_cell(l, row, k);
        }
        ss_text_add(out, "</tr>\n");
    }
    ss_text_add(out, "</tbody>\n");
}

/* One row as lines of a name and a value. */
static void put_record(layout *l) {
    ss_text *out = l->page->out;
    ss_text_add(out, "<tbody>\n");
    for (int k = 0; k < l->count; k++) {
        const seen *c = &l->columns[k];
        ss_text_add(out, "<tr><th scope=\"row\">");
        ss_html_cell(out, c->column->title);
        ss_text_add(out, "</th><td>");
        ss_html_cell(out, show(l, 0, c));
        put_unit(l, c->column, " ", "");
        ss_text_add(out, "</td></tr>\n");
    }
    ss_text_add(out, "</tbody>\n");
}

static void put_table(layout *l) {
    ss_text *out = l->page->out;
    const ss_table *table = l->table;
    const int number = ++l->page->tables;
    const bool titled = table->title[0] != '\0';
    const bool few = table->row_count <= FEW || table->record;
    ss_text_printf(out, "<div class=\"sheet%s\">\n", few ? " whole" : "");
    ss_text_printf(out, "<div class=\"wide\" tabindex=\"0\" role=\"group\" aria-labelledby=\"c%d\">\n",
                   number);
    ss_text_printf(out, "<table id=\"t%d\" class=\"%s%s\" data-key=\"", number,
                   table->record ? "record" : "rows", l->count > MANY && !table->record ? " many" : "");
    ss_html_text(out, table->key);
    ss_text_printf(out, "\">\n<caption id=\"c%d\"%s>", number, titled ? "" : " class=\"unseen\"");
    ss_html_text(out, titled ? table->title : l->page->section);
    ss_text_add(out, "</caption>\n");
    if (table->record) {
        put_record(l);
    } else {
        put_rows(l);
    }
    ss_text_add(out, "</table>\n</div>\n");
    if (table->note != NULL) {
        ss_text_add(out, "<p class=\"note\">");
        ss_html_text(out, table->note);
        ss_text_add(out, "</p>\n");
    }
    ss_text_add(out, "</div>\n");
}

void ss_html_table(ss_html *page, const ss_table *table) {
    if (table->row_count == 0) {
        return;
    }
    layout l = {.page = page, .table = table};
    if (!lay_out(&l)) {
        page->out->failed = true;
    } else if (l.count > 0) {
        put_table(&l);
    }
    ss_text_destroy(&l.shown);
    ss_free(l.columns);
}
