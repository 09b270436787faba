/* pdf_strip.c - texts beside each other, each broken into lines within its own width: rows of tables and the
 * like.
 */
#include "io/pdf_parts.h"

#include <string.h>

/* Strips of more lines are broken between pages. */
enum { MOST_LINES = 12 };

static int count_lines(const ss_pdf *pdf, const ss_strip_cell *cell) {
    int lines = 0;
    for (char *at = cell->text; *at != '\0'; lines++) {
        char *next = at;
        if (ss_pdf_break(pdf, cell->pen, at, cell->width, &next) == 0) {
            break;
        }
        at = next;
    }
    return lines;
}

static void add_line(ss_pdf *pdf, const ss_strip_cell *cell, char **at, double base) {
    char *next = *at;
    const size_t length = ss_pdf_break(pdf, cell->pen, *at, cell->width, &next);
    if (length == 0) {
        return;
    }
    const char *const line = ss_pdf_part(pdf, *at, length);
    const double wide = cell->right ? ss_pdf_width(pdf, cell->pen, line) + cell->back : 0.0;
    ss_pdf_text(pdf, cell->pen, (ss_spot){cell->right ? cell->x + cell->width - wide : cell->x, base}, line);
    *at = next;
}

int ss_pdf_strip(ss_pdf *pdf, const ss_strip_cell *cells, int count, double leading, double pad, int rule) {
    const int first = pdf->box_count;
    char **const at = pdf->failed ? NULL : ss_alloc((size_t)count, sizeof *at);
    if (at == NULL) {
        pdf->failed = true;
        return 0;
    }
    int lines = 1;
    double size = 0.0;
    for (int k = 0; k < count; k++) {
        const int own = count_lines(pdf, &cells[k]);
        lines = own > lines ? own : lines;
        size = cells[k].pen.size > size ? cells[k].pen.size : size;
        at[k] = cells[k].text;
    }
    const bool whole = lines <= MOST_LINES;
    for (int j = 0; j < lines && !pdf->failed; j++) {
        if (j == 0 || !whole) {
            const double height = whole ? lines * leading + 2.0 * pad : leading + (j == 0 ? pad : 0.0);
            ss_pdf_box(pdf, 0.0, height)->keep = !whole && (j == 0 || j == lines - 2);
        }
        if (j == 0 && rule != 0) {
            ss_pdf_rule(pdf, rule, 0.4, (ss_spot){cells[0].x, 0.0},
                        (ss_spot){cells[count - 1].x + cells[count - 1].width, 0.0});
        }
        const double above = (j == 0 || whole ? pad : 0.0) + (whole ? j * leading : 0.0);
        for (int k = 0; k < count; k++) {
            add_line(pdf, &cells[k], &at[k], above + 0.5 * (leading - size) + 0.82 * size);
        }
    }
    ss_free(at);
    return pdf->box_count - first;
}

void ss_pdf_note(ss_pdf *pdf, const char *text) {
    const ss_setting setting = {.pen = {SS_FACE_SERIF, 8.5, SS_PDF_SOFT},
                                .leading = 11.2,
                                .above = SS_PDF_MM(1.2),
                                .width = pdf->width};
    if (pdf->box_count > 0 && text[strspn(text, " ")] != '\0') {
        pdf->boxes[pdf->box_count - 1].keep = true;
    }
    ss_pdf_paragraph(pdf, &setting, text);
}

void ss_pdf_caption(ss_pdf *pdf, const char *text) {
    const ss_setting setting = {.pen = {SS_FACE_SERIF_ITALIC, 9.8, SS_PDF_INK},
                                .leading = 13.0,
                                .above = SS_PDF_MM(4.0),
                                .width = pdf->width};
    const int first = pdf->box_count;
    ss_pdf_paragraph(pdf, &setting, text);
    for (int i = first; i < pdf->box_count; i++) {
        pdf->boxes[i].keep = true;
    }
}
