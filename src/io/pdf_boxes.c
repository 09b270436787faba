/* pdf_boxes.c - the list of boxes that a report's PDF is made of, and what is drawn in them. */
#include "io/pdf_parts.h"

#include <math.h>
#include <string.h>

enum { FIRST_CAPACITY = 256 };

/* The array with room for one more, or NULL after a failure; then the old one stays. */
static void *grown(ss_pdf *pdf, void *array, int count, int *capacity, size_t size) {
    if (pdf->failed) {
        return NULL;
    }
    if (count < *capacity) {
        return array;
    }
    const int more = *capacity == 0 ? FIRST_CAPACITY : 2 * *capacity;
    void *const larger = ss_realloc(array, (size_t)more, size);
    pdf->failed = larger == NULL;
    *capacity = larger == NULL ? *capacity : more;
    return larger;
}

ss_box *ss_pdf_box(ss_pdf *pdf, double above, double height) {
    ss_box *const boxes = grown(pdf, pdf->boxes, pdf->box_count, &pdf->box_capacity, sizeof *pdf->boxes);
    if (boxes == NULL) {
        return &pdf->spare;
    }
    pdf->boxes = boxes;
    ss_box *const box = &boxes[pdf->box_count++];
    *box = (ss_box){.above = above, .height = height, .piece = pdf->piece_count};
    return box;
}

static void add(ss_pdf *pdf, ss_piece piece) {
    ss_piece *const pieces =
        grown(pdf, pdf->pieces, pdf->piece_count, &pdf->piece_capacity, sizeof *pdf->pieces);
    if (pieces != NULL) {
        pdf->pieces = pieces;
        pieces[pdf->piece_count++] = piece;
        pdf->boxes[pdf->box_count - 1].pieces++;
    }
}

void ss_pdf_text(ss_pdf *pdf, ss_pen pen, ss_spot at, const char *plain) {
    ss_pdf_link(pdf, pen, at, plain, 0);
}

void ss_pdf_link(ss_pdf *pdf, ss_pen pen, ss_spot at, const char *plain, int section) {
    if (plain[0] != '\0') {
        add(pdf, (ss_piece){.kind = SS_PIECE_TEXT, .pen = pen, .at = at, .text = plain, .section = section});
    }
}

void ss_pdf_number(ss_pdf *pdf, ss_pen pen, ss_spot at, int section) {
    add(pdf, (ss_piece){.kind = SS_PIECE_NUMBER, .pen = pen, .at = at, .section = section});
}

void ss_pdf_rule(ss_pdf *pdf, int colour, double thick, ss_spot from, ss_spot to) {
    add(pdf,
        (ss_piece){.kind = SS_PIECE_RULE, .pen = {.size = thick, .colour = colour}, .at = from, .to = to});
}

/* Where there is something on a figure, mm: its own margins are left out. */
static void find_marks(const ss_figure *figure, ss_spot *from, ss_spot *to) {
    *from = (ss_spot){figure->width, figure->height};
    *to = (ss_spot){0.0, 0.0};
    for (int i = 0; i < figure->count; i++) {
        const ss_mark *const mark = &figure->marks[i];
        const bool text = mark->kind == SS_MARK_TEXT;
        /* Letters reach around their point; as wide as they are, they stand within the figure. */
        const double around = text ? mark->size : 0.0;
        const double wide = text && !mark->upright ? ss_figure_text_width(mark->text, mark->size) : 0.0;
        const double left = mark->anchor < 0 ? wide : mark->anchor == 0 ? 0.5 * wide : 0.0;
        for (int k = 0; k < mark->count; k++) {
            const ss_spot at = mark->points[k];
            from->x = fmin(from->x, text && !mark->upright ? at.x - left : at.x - around);
            from->y = fmin(from->y, at.y - around);
            to->x = fmax(to->x, text && !mark->upright ? at.x + wide - left : at.x + around);
            to->y = fmax(to->y, at.y + around);
        }
    }
    *from = (ss_spot){fmax(from->x, 0.0), fmax(from->y, 0.0)};
    *to = (ss_spot){fmin(to->x, figure->width), fmin(to->y, figure->height)};
}

/* Figures are made for a page that is about as wide as this one: they may grow a little, to the margins. */
#define GROWTH 1.05

void ss_pdf_figure(ss_pdf *pdf, const ss_figure *figure) {
    ss_spot from;
    ss_spot to;
    find_marks(figure, &from, &to);
    if (figure->count == 0) {
        return;
    }
    /* A line alone has no height. */
    const double width = fmax(to.x - from.x, 1.0);
    const double height = fmax(to.y - from.y, 1.0);
    const double scale = fmin(GROWTH * SS_POINTS_MM, fmin(pdf->width / width, (pdf->height - 1.0) / height));
    ss_pdf_box(pdf, SS_PDF_MM(5.0), scale * height);
    add(pdf, (ss_piece){.kind = SS_PIECE_FIGURE,
                        .pen = {.size = scale},
                        .at = {-scale * from.x, -scale * from.y},
                        .figure = figure});
}

char *ss_pdf_part(ss_pdf *pdf, const char *plain, size_t length) {
    char *const copy = pdf->failed ? NULL : ss_arena_text(&pdf->arena, plain, length);
    pdf->failed = copy == NULL;
    return copy == NULL ? pdf->blank : copy;
}

/* Whether what begins here, after a number and a blank, is its unit. */
static bool is_unit(const char *text) {
    static const char *const units[] = {"%", "ft", "in", "kip", "ksi", "lb",
                                        "m", "mm", "kN", "MPa", "t",   "tons"};
    const size_t length = strcspn(text, " ,;:.()/-");
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        if (strlen(units[i]) == length && strncmp(units[i], text, length) == 0) {
            return true;
        }
    }
    return false;
}

/* A number and its unit are not parted: the blank between them becomes one at which no line is broken. */
static void add_held(ss_text *out, const char *plain) {
    for (const char *at = plain; *at != '\0'; at++) {
        const bool held = *at == ' ' && at > plain && at[-1] >= '0' && at[-1] <= '9' && is_unit(at + 1);
        ss_text_add_bytes(out, held ? "\u00a0" : at, held ? strlen("\u00a0") : 1);
    }
}

char *ss_pdf_plain(ss_pdf *pdf, const char *text) {
    ss_text plain = {0};
    ss_text held = {0};
    ss_text_add_plain(&plain, text);
    add_held(&held, plain.data == NULL ? "" : plain.data);
    pdf->failed = pdf->failed || plain.failed || held.failed;
    char *const kept = ss_pdf_part(pdf, held.data == NULL ? "" : held.data, held.length);
    ss_text_destroy(&plain);
    ss_text_destroy(&held);
    return kept;
}

double ss_pdf_width(const ss_pdf *pdf, ss_pen pen, const char *plain) {
    return ss_faces_width(pdf->faces, pen.face, pen.size, plain);
}
