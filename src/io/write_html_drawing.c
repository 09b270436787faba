/* write_html_drawing.c - a drawing as SVG in the page: strokes by kind, labels as text that do not overlap.
 */
#include <math.h>
#include <string.h>

#include "io/write_html.h"
#include "io/write_lines.h"

/* All in units of the picture, which is WIDTH of them wide. */
#define WIDTH 760.0
#define HIGHEST 460.0
#define LOWEST 70.0
#define STRETCH 1.5 /* at most this much more down than across, to part neighbouring lines */
#define LETTER 6.3  /* of a label, on the wide side */
#define ROW 14.0    /* from label to label */
#define LONGEST 44  /* characters of a label */
#define POINT 4.0   /* radius of a stroke without length */
/* How far a label may go to find room, by steps of a part of a row. */
#define STEPS 64
#define STEP (0.125 * ROW)

/* The class of each kind of stroke, in the order in which they are drawn. */
static const struct {
    ss_stroke_kind kind;
    const char *name;
} pens[] = {
    {SS_STROKE_EDGE, "edge"},       {SS_STROKE_GROUND, "ground"}, {SS_STROKE_SLAB, "slab"},
    {SS_STROKE_CURB, "curb"},       {SS_STROKE_BEAM, "beam"},     {SS_STROKE_PLATE, "plate"},
    {SS_STROKE_LINE, "line"},       {SS_STROKE_GIRDER, "girder"}, {SS_STROKE_JOINT, "joint"},
    {SS_STROKE_LANE, "lane"},       {SS_STROKE_DISTANCE, "beam"}, {SS_STROKE_VARIES, "curb"},
    {SS_STROKE_AXLE, "beam"},       {SS_STROKE_LOOSE, "bearing"}, {SS_STROKE_WHEEL, "wheel"},
    {SS_STROKE_BEARING, "bearing"},
};
enum { PENS = (int)(sizeof pens / sizeof pens[0]) };

/* Where a label stands: its left end, baseline and length. */
typedef struct place {
    double x, y, length;
} place;

typedef struct picture {
    ss_text *out;
    const ss_drawing *drawing;
    double left, sx, sy; /* room for labels; units per metre */
    double height;       /* of strokes and labels */
    place *places;       /* of each label */
} picture;

static double length_of(const ss_label *label) {
    const int width = ss_text_width(label->text);
    return LETTER * (width < LONGEST ? width : LONGEST);
}

/* A label that is too long loses its end; the tables have it whole. */
static void put_words(ss_text *out, const char *text) {
    ss_text words = {0};
    ss_text seen = {0};
    ss_text_add_plain(&words, text);
    const char *all = words.data == NULL ? "" : words.data;
    size_t kept = words.length;
    if (ss_text_width(all) > LONGEST) {
        kept = 0;
        while (ss_lines_width(all, kept + 1) < LONGEST) {
            kept++;
        }
    }
    ss_text_add_bytes(&seen, all, kept);
    ss_text_add(&seen, kept < words.length ? "\u2026" : "");
    ss_html_text(out, seen.data == NULL ? "" : seen.data);
    out->failed = out->failed || words.failed || seen.failed;
    ss_text_destroy(&words);
    ss_text_destroy(&seen);
}

static void scale(picture *p) {
    const ss_drawing *d = p->drawing;
    double right = POINT + 2.0;
    p->left = POINT + 2.0;
    for (int i = 0; i < d->label_count; i++) {
        const ss_label *label = &d->labels[i];
        if (label->anchor < 0 && label->x <= 0.0) {
            p->left = fmax(p->left, length_of(label) + 12.0);
        }
        if (label->anchor == 0 && label->x >= d->width) {
            right = fmax(right, 0.5 * length_of(label));
        }
        if (label->anchor == 0 && label->x <= 0.0) {
            p->left = fmax(p->left, 0.5 * length_of(label));
        }
    }
    p->left = fmin(p->left, 0.4 * WIDTH);
    p->sx = (WIDTH - p->left - right) / fmax(d->width, 1e-3);
    const double height = fmax(d->height, 1e-3);
    const double parting = fmin(ROW * ss_lines_separating(d), STRETCH * p->sx);
    p->sy = fmax(fmax(p->sx, parting), LOWEST / height);
    p->sy = fmin(p->sy, HIGHEST / height);
}

static double across(const picture *p, double x) {
    return p->left + x * p->sx;
}

static double down(const picture *p, double y) {
    return POINT + 2.0 + y * p->sy;
}

static bool is_free(const picture *p, int count, const place *one) {
    for (int i = 0; i < count; i++) {
        const place *other = &p->places[i];
        if (one->x < other->x + other->length + LETTER && other->x < one->x + one->length + LETTER &&
            fabs(one->y - other->y) < ROW - 0.5) {
            return false;
        }
    }
    return true;
}

/* Beside its point, or below the drawing where its point is at the bottom; where that is taken, as near as
 * there is room, which is further down for those below. */
static void find_room(const picture *p, int count, place *one, bool below) {
    const double wanted = one->y;
    for (int step = 1; step <= STEPS && !is_free(p, count, one); step++) {
        one->y = wanted + (below ? step : step % 2 != 0 ? step / 2 + 1 : -step / 2) * STEP;
    }
}

static void place_labels(picture *p) {
    const ss_drawing *d = p->drawing;
    p->height = down(p, d->height) + POINT + 2.0;
    for (int i = 0; i < d->label_count; i++) {
        const ss_label *label = &d->labels[i];
        const double length = length_of(label);
        const double x = across(p, label->x);
        const bool below = label->anchor == 0 && label->y >= d->height - 1e-9;
        place one = {.length = length, .y = down(p, label->y) + (below ? POINT + ROW : 0.3 * ROW)};
        one.x = label->anchor < 0 ? x - length - 8.0 : label->anchor > 0 ? x + 8.0 : x - 0.5 * length;
        one.x = fmax(0.0, fmin(one.x, WIDTH - length));
        find_room(p, i, &one, below);
        p->places[i] = one;
        p->height = fmax(p->height, one.y + 0.4 * ROW);
    }
}

static void add_number(ss_text *out, const char *before, double value, const char *after) {
    char number[32];
    ss_text_printf(out, "%s%s%s", before, ss_text_decimals(number, sizeof number, value, 1), after);
}

static void put_strokes(const picture *p, int pen) {
    const ss_drawing *d = p->drawing;
    bool lines = false;
    for (int i = 0; i < d->stroke_count; i++) {
        const ss_stroke *s = &d->strokes[i];
        if (s->kind != pens[pen].kind || (s->x0 == s->x1 && s->y0 == s->y1)) {
            continue;
        }
        if (!lines) {
            ss_text_printf(p->out, "<path class=\"s %s\" d=\"", pens[pen].name);
        }
        lines = true;
        add_number(p->out, "M", across(p, s->x0), "");
        add_number(p->out, " ", down(p, s->y0), "");
        add_number(p->out, "L", across(p, s->x1), "");
        add_number(p->out, " ", down(p, s->y1), "");
    }
    ss_text_add(p->out, lines ? "\"/>\n" : "");
    for (int i = 0; i < d->stroke_count; i++) {
        const ss_stroke *s = &d->strokes[i];
        if (s->kind == pens[pen].kind && s->x0 == s->x1 && s->y0 == s->y1) {
            ss_text_printf(p->out, "<circle class=\"p %s\"", pens[pen].name);
            add_number(p->out, " cx=\"", across(p, s->x0), "\"");
            add_number(p->out, " cy=\"", down(p, s->y0), "\"");
            add_number(p->out, " r=\"", POINT, "\"/>\n");
        }
    }
}

static void put_labels(const picture *p) {
    for (int i = 0; i < p->drawing->label_count; i++) {
        const ss_label *label = &p->drawing->labels[i];
        const place *one = &p->places[i];
        const char *anchor = label->anchor < 0 ? "end" : label->anchor > 0 ? "start" : "middle";
        const double share = label->anchor < 0 ? 1.0 : label->anchor > 0 ? 0.0 : 0.5;
        add_number(p->out, "<text x=\"", one->x + share * one->length, "\"");
        add_number(p->out, " y=\"", one->y, "\"");
        ss_text_printf(p->out, " text-anchor=\"%s\">", anchor);
        put_words(p->out, label->text);
        ss_text_add(p->out, "</text>\n");
    }
}

/* What each kind of stroke stands for, beside a sample of it. */
static void put_key(const picture *p) {
    const ss_drawing *d = p->drawing;
    bool any = false;
    for (int pen = 0; pen < PENS; pen++) {
        bool used = false;
        bool point = false;
        for (int i = 0; i < d->stroke_count; i++) {
            const ss_stroke *s = &d->strokes[i];
            used = used || s->kind == pens[pen].kind;
            point = point || (s->kind == pens[pen].kind && s->x0 == s->x1 && s->y0 == s->y1);
        }
        const char *name = ss_lines_stroke_name(pens[pen].kind);
        if (!used || name == NULL) {
            continue;
        }
        ss_text_add(p->out, any ? "" : "<ul class=\"key\">\n");
        any = true;
        ss_text_add(p->out, "<li><svg viewBox=\"0 0 28 12\" aria-hidden=\"true\">");
        ss_text_printf(p->out,
                       point ? "<circle class=\"p %s\" cx=\"14\" cy=\"6\" r=\"4\"/>"
                             : "<path class=\"s %s\" d=\"M1 6L27 6\"/>",
                       pens[pen].name);
        ss_text_printf(p->out, "</svg>%s</li>\n", name);
    }
    ss_text_add(p->out, any ? "</ul>\n" : "");
}

static void put_picture(const picture *p, int number) {
    ss_text *out = p->out;
    const ss_drawing *d = p->drawing;
    ss_text_printf(out, "<figure id=\"d%d\" class=\"whole\">\n<figcaption id=\"k%d\">", number, number);
    ss_html_text(out, d->title);
    ss_text_printf(out,
                   "</figcaption>\n<div class=\"wide\" tabindex=\"0\" role=\"group\" "
                   "aria-labelledby=\"k%d\">\n<svg class=\"drawing\" role=\"img\" aria-labelledby=\"k%d\"",
                   number, number);
    add_number(out, " viewBox=\"0 0 ", WIDTH, "");
    add_number(out, " ", p->height, "\">\n");
    for (int pen = 0; pen < PENS; pen++) {
        put_strokes(p, pen);
    }
    put_labels(p);
    ss_text_add(out, "</svg>\n</div>\n");
    put_key(p);
    if (d->note != NULL) {
        ss_text_add(out, "<p class=\"note\">");
        ss_html_text(out, d->note);
        ss_text_add(out, "</p>\n");
    }
    ss_text_add(out, "</figure>\n");
}

void ss_html_drawing(ss_html *page, const ss_drawing *drawing) {
    picture p = {.out = page->out, .drawing = drawing};
    p.places = ss_alloc((size_t)drawing->label_count + 1, sizeof *p.places);
    if (p.places == NULL) {
        page->out->failed = true;
        return;
    }
    scale(&p);
    place_labels(&p);
    put_picture(&p, ++page->drawings);
    ss_free(p.places);
}
