/* pdf_draw.c - the pages of a report's PDF drawn: what stands on them, and above it their titles and numbers.
 */
#include "io/pdf_parts.h"

#include <cairo-pdf.h>
#include <stdio.h>

typedef struct drawn {
    ss_pdf *pdf;
    ss_pages pages;
} drawn;

static const ss_pen running = {SS_FACE_SERIF_ITALIC, 8.5, SS_PDF_SOFT};

static void show(const drawn *p, cairo_t *page, ss_pen pen, ss_spot at, const char *text) {
    ss_faces_show(p->pdf->faces, page, pen.face, pen.size, pen.colour, at, text);
}

static void draw_rule(cairo_t *page, const ss_piece *piece, ss_spot at) {
    ss_cairo_colour(page, piece->pen.colour, 1.0);
    cairo_set_line_width(page, piece->pen.size);
    cairo_move_to(page, at.x, at.y);
    cairo_line_to(page, at.x + piece->to.x - piece->at.x, at.y + piece->to.y - piece->at.y);
    cairo_stroke(page);
}

static void draw_number(const drawn *p, cairo_t *page, const ss_piece *piece, ss_spot at) {
    char number[16];
    snprintf(number, sizeof number, "%d", p->pages.begins[piece->section - 1] + 1);
    at.x -= ss_pdf_width(p->pdf, piece->pen, number);
    show(p, page, piece->pen, at, number);
}

static ss_status draw_piece(const drawn *p, cairo_t *page, const ss_piece *piece, ss_spot corner,
                            ss_error *error) {
    const ss_spot at = {corner.x + piece->at.x, corner.y + piece->at.y};
    char target[32];
    ss_status status = SS_OK;
    if (piece->section > 0) {
        snprintf(target, sizeof target, "dest='s%d'", piece->section);
        cairo_tag_begin(page, CAIRO_TAG_LINK, target);
    }
    switch (piece->kind) {
    case SS_PIECE_TEXT: show(p, page, piece->pen, at, piece->text); break;
    case SS_PIECE_RULE: draw_rule(page, piece, at); break;
    case SS_PIECE_NUMBER: draw_number(p, page, piece, at); break;
    case SS_PIECE_FIGURE:
        cairo_save(page);
        cairo_translate(page, at.x, at.y);
        cairo_scale(page, piece->pen.size, piece->pen.size);
        status = ss_cairo_figure(page, p->pdf->faces, piece->figure, error);
        cairo_restore(page);
        break;
    }
    if (piece->section > 0) {
        cairo_tag_end(page, CAIRO_TAG_LINK);
    }
    return status;
}

static ss_status draw_box(const drawn *p, cairo_t *page, cairo_surface_t *surface, const ss_stand *s,
                          ss_error *error) {
    const ss_pdf *const pdf = p->pdf;
    const ss_box *const box = &pdf->boxes[s->box];
    const ss_spot corner = {pdf->left, pdf->top + s->y};
    ss_status status = SS_OK;
    char name[32];
    if (box->section > 0) {
        snprintf(name, sizeof name, "name='s%d'", box->section);
        cairo_tag_begin(page, CAIRO_TAG_DEST, name);
    }
    for (int i = 0; i < box->pieces && status == SS_OK; i++) {
        status = draw_piece(p, page, &pdf->pieces[box->piece + i], corner, error);
    }
    if (box->section > 0) {
        snprintf(name, sizeof name, "dest='s%d'", box->section);
        cairo_tag_end(page, CAIRO_TAG_DEST);
        cairo_pdf_surface_add_outline(surface, CAIRO_PDF_OUTLINE_ROOT, pdf->sections[box->section - 1], name,
                                      (cairo_pdf_outline_flags_t)0);
    }
    return status;
}

/* The title, but on the first page, which begins with it, and the number of the page. */
static void draw_running(const drawn *p, cairo_t *page, int number, const char *title) {
    const ss_pdf *const pdf = p->pdf;
    const double base = pdf->top - SS_PDF_MM(6.0);
    char words[48];
    snprintf(words, sizeof words, "page %d of %d", number + 1, p->pages.page + 1);
    if (number > 0) {
        show(p, page, running, (ss_spot){pdf->left, base}, title);
    }
    show(p, page, running, (ss_spot){pdf->left + pdf->width - ss_pdf_width(pdf, running, words), base},
         words);
}

static ss_status draw_pages(const drawn *p, ss_text *out, ss_error *error) {
    ss_pdf *const pdf = p->pdf;
    cairo_surface_t *const surface = ss_cairo_pdf(out, pdf->page_width, pdf->page_height, pdf->title);
    cairo_t *const page = cairo_create(surface);
    const char *const title = ss_pdf_cut(pdf, running, pdf->title, pdf->width - SS_PDF_MM(30.0));
    ss_status status = SS_OK;
    int next = 0;
    for (int number = 0; number <= p->pages.page && status == SS_OK; number++) {
        draw_running(p, page, number, title);
        for (; next < p->pages.count && p->pages.stands[next].page == number && status == SS_OK; next++) {
            status = draw_box(p, page, surface, &p->pages.stands[next], error);
        }
        cairo_show_page(page);
    }
    const ss_status ended = ss_cairo_end(page, surface, out, status == SS_OK ? error : NULL);
    return status == SS_OK ? ended : status;
}

ss_status ss_pdf_draw(ss_pdf *pdf, ss_text *out, ss_error *error) {
    drawn d = {.pdf = pdf};
    ss_status status = SS_ERROR_MEMORY;
    ss_pdf_break_pages(pdf, &d.pages);
    if (!pdf->failed) {
        status = draw_pages(&d, out, error);
    }
    ss_pages_destroy(&d.pages);
    return pdf->failed ? ss_error_set(error, SS_ERROR_MEMORY, "no memory for the pages of the report")
                       : status;
}
