/* pdf_pages.c - boxes broken into pages: what belongs together stays together, and heads are repeated. */
#include "io/pdf_parts.h"

/* Sums of heights differ by rounding. */
#define SLACK 0.01

static void stand_at(ss_pdf *pdf, ss_pages *p, int box) {
    const ss_box *const b = &pdf->boxes[box];
    if (p->count == p->capacity) {
        const int more = p->capacity == 0 ? pdf->box_count + 64 : 2 * p->capacity;
        ss_stand *const larger = ss_realloc(p->stands, (size_t)more, sizeof *larger);
        if (larger == NULL) {
            pdf->failed = true;
            return;
        }
        p->stands = larger;
        p->capacity = more;
    }
    p->y += p->empty ? 0.0 : b->above;
    p->stands[p->count++] = (ss_stand){box, p->page, p->y};
    p->y += b->height;
    p->empty = false;
    if (b->section > 0) {
        p->begins[b->section - 1] = p->page;
    }
}

static double height_of_heads(const ss_pdf *pdf, const ss_box *box) {
    double height = 0.0;
    for (int i = 0; i < box->heads; i++) {
        height += pdf->boxes[box->head + i].height;
    }
    return height;
}

/* How high what must stand together with a box is, from there on. */
static double together(const ss_pdf *pdf, int box) {
    double height = pdf->boxes[box].height;
    for (int i = box; pdf->boxes[i].keep && i + 1 < pdf->box_count; i++) {
        height += pdf->boxes[i + 1].above + pdf->boxes[i + 1].height;
    }
    return height;
}

static void begin_page(ss_pdf *pdf, ss_pages *p, const ss_box *box) {
    p->page++;
    p->y = 0.0;
    p->empty = true;
    for (int i = 0; i < box->heads; i++) {
        stand_at(pdf, p, box->head + i);
    }
}

void ss_pdf_break_pages(ss_pdf *pdf, ss_pages *p) {
    *p = (ss_pages){.empty = true};
    p->begins = pdf->failed ? NULL : ss_alloc((size_t)pdf->section_count + 1, sizeof *p->begins);
    pdf->failed = p->begins == NULL;
    for (int i = 0; i < pdf->box_count && !pdf->failed; i++) {
        const ss_box *const box = &pdf->boxes[i];
        const double below = p->y + (p->empty ? 0.0 : box->above);
        const double whole = together(pdf, i);
        /* What is too high for any page is broken where one of its boxes ends. */
        const bool ever = whole + height_of_heads(pdf, box) <= pdf->height;
        if (!p->empty && below + (ever ? whole : box->height) > pdf->height + SLACK) {
            begin_page(pdf, p, box);
        }
        stand_at(pdf, p, i);
    }
}

void ss_pages_destroy(ss_pages *p) {
    ss_free(p->stands);
    ss_free(p->begins);
    *p = (ss_pages){.stands = NULL};
}
