/* pdf_drawing.c - a drawing of a report on paper: its strokes and labels as marks of a figure, with a key
 * below. */
#include "io/pdf_parts.h"

#include "io/drawing_layout.h"
#include "io/write_lines.h"

/* Heights of letters, and the key's samples, in units of the picture. */
#define LETTERS 12.0
#define SAMPLE 28.0
#define KEY_ROW 17.0

/* What strokes look like: as the marks of a figure that mean the same. */
static const ss_figure_role roles[SS_STROKE_KINDS] = {
    [SS_STROKE_EDGE] = SS_FIGURE_OUTLINE,        [SS_STROKE_GROUND] = SS_FIGURE_LEADER,
    [SS_STROKE_SLAB] = SS_FIGURE_SLAB,           [SS_STROKE_CURB] = SS_FIGURE_CURB,
    [SS_STROKE_BEAM] = SS_FIGURE_FLOOR_BEAM,     [SS_STROKE_PLATE] = SS_FIGURE_EDGE_GIRDER,
    [SS_STROKE_LINE] = SS_FIGURE_STRINGER,       [SS_STROKE_GIRDER] = SS_FIGURE_MAIN_GIRDER,
    [SS_STROKE_JOINT] = SS_FIGURE_JOINT,         [SS_STROKE_LANE] = SS_FIGURE_CURVE_3,
    [SS_STROKE_DISTANCE] = SS_FIGURE_FLOOR_BEAM, [SS_STROKE_VARIES] = SS_FIGURE_CURB,
    [SS_STROKE_AXLE] = SS_FIGURE_FLOOR_BEAM,     [SS_STROKE_LOOSE] = SS_FIGURE_CONTACT,
    [SS_STROKE_WHEEL] = SS_FIGURE_BEARING,       [SS_STROKE_BEARING] = SS_FIGURE_CONTACT,
};

typedef struct picture {
    ss_figure *figure;
    ss_layout layout;
    double unit; /* mm */
} picture;

static ss_spot spot_of(const picture *p, double x, double y) {
    return (ss_spot){x * p->unit, y * p->unit};
}

/* A slab is drawn as thick as it looks on a screen. */
static void put_stroke(const picture *p, ss_stroke_kind kind, ss_spot from, ss_spot to) {
    const double half = 4.0 * p->unit;
    const bool point = from.x == to.x && from.y == to.y;
    if (point) {
        ss_figure_disc(p->figure,
                       kind == SS_STROKE_LOOSE || kind == SS_STROKE_BEARING ? SS_FIGURE_CONTACT
                                                                            : SS_FIGURE_BEARING,
                       from, SS_LAYOUT_POINT * p->unit);
    } else if (kind == SS_STROKE_SLAB) {
        ss_figure_box(p->figure, SS_FIGURE_SLAB, (ss_spot){from.x, from.y - half},
                      (ss_spot){to.x, to.y + half});
    } else {
        ss_figure_line(p->figure, roles[kind], from, to);
    }
}

static bool put_kind(const picture *p, ss_stroke_kind kind, bool *point) {
    const ss_drawing *const d = p->layout.drawing;
    bool any = false;
    for (int i = 0; i < d->stroke_count; i++) {
        const ss_stroke *const s = &d->strokes[i];
        if (s->kind != kind) {
            continue;
        }
        put_stroke(p, kind,
                   spot_of(p, ss_layout_across(&p->layout, s->x0), ss_layout_down(&p->layout, s->y0)),
                   spot_of(p, ss_layout_across(&p->layout, s->x1), ss_layout_down(&p->layout, s->y1)));
        *point = s->x0 == s->x1 && s->y0 == s->y1;
        any = true;
    }
    return any;
}

static void put_labels(ss_pdf *pdf, const picture *p) {
    static const double shares[] = {1.0, 0.5, 0.0};
    for (int i = 0; i < p->layout.drawing->label_count; i++) {
        const ss_label *const label = &p->layout.drawing->labels[i];
        const ss_label_place *const one = &p->layout.places[i];
        const int anchor = label->anchor < 0 ? -1 : label->anchor > 0;
        ss_text words = {0};
        ss_layout_words(label->text, &words);
        pdf->failed = pdf->failed || words.failed;
        ss_figure_text(p->figure, (ss_lettering){SS_FIGURE_LABEL, anchor, LETTERS * p->unit, false},
                       spot_of(p, one->x + shares[anchor + 1] * one->length, one->y),
                       words.data == NULL ? "" : words.data);
        ss_text_destroy(&words);
    }
}

/* A sample of a kind of stroke and what it stands for; *x moves on, to a new row where there is no room. */
static void put_sample(const picture *p, ss_stroke_kind kind, bool point, double *x, double *y) {
    const char *const name = ss_lines_stroke_name(kind);
    const double size = LETTERS * p->unit;
    const double width = ss_figure_text_width(name, size) / p->unit;
    if (*x > 0.0 && *x + SAMPLE + 8.0 + width > SS_LAYOUT_WIDTH) {
        *x = 0.0;
        *y += KEY_ROW;
    }
    const double middle = *x + 0.5 * SAMPLE;
    put_stroke(p, kind, spot_of(p, point ? middle : *x + 1.0, *y),
               spot_of(p, point ? middle : *x + SAMPLE - 1.0, *y));
    ss_figure_text(p->figure, (ss_lettering){SS_FIGURE_LABEL, 1, size, false},
                   spot_of(p, *x + SAMPLE + 6.0, *y + 0.35 * LETTERS), name);
    *x += SAMPLE + 6.0 + width + 20.0;
}

static void put_all(ss_pdf *pdf, picture *p) {
    double x = 0.0;
    double y = p->layout.height + KEY_ROW;
    bool points[SS_STROKE_KINDS] = {false};
    bool used[SS_STROKE_KINDS] = {false};
    for (int k = 0; k < SS_STROKE_KINDS; k++) {
        const ss_stroke_kind kind = ss_layout_kind(k);
        used[k] = put_kind(p, kind, &points[k]) && ss_lines_stroke_name(kind) != NULL;
    }
    put_labels(pdf, p);
    bool any = false;
    for (int k = 0; k < SS_STROKE_KINDS; k++) {
        if (used[k]) {
            put_sample(p, ss_layout_kind(k), points[k], &x, &y);
            any = true;
        }
    }
    p->figure->height = (any ? y + 0.5 * KEY_ROW : p->layout.height) * p->unit;
}

void ss_pdf_drawing(ss_pdf *pdf, const ss_drawing *drawing) {
    ss_own_figure *const own = pdf->failed ? NULL : ss_arena_alloc(&pdf->arena, 1, sizeof *own);
    picture p = {.figure = NULL};
    if (own == NULL || !ss_layout_make(drawing, &p.layout)) {
        pdf->failed = true;
        return;
    }
    own->next = pdf->own;
    pdf->own = own;
    p.figure = &own->figure;
    p.figure->width = pdf->width / SS_POINTS_MM;
    p.unit = p.figure->width / SS_LAYOUT_WIDTH;
    put_all(pdf, &p);
    ss_layout_destroy(&p.layout);
    pdf->failed = pdf->failed || own->figure.failed;
    ss_pdf_caption(pdf, drawing->title);
    ss_pdf_figure(pdf, &own->figure);
    if (drawing->note != NULL) {
        ss_pdf_note(pdf, drawing->note);
    }
}
