/* write_html_drawing.c - a drawing as SVG in the page: strokes by kind, labels as text that do not overlap.
 */
#include <string.h>

#include "io/drawing_layout.h"
#include "io/write_html.h"
#include "io/write_lines.h"

/* The class of each kind of stroke. */
static const char *const classes[SS_STROKE_KINDS] = {
    [SS_STROKE_EDGE] = "edge",       [SS_STROKE_GROUND] = "ground", [SS_STROKE_SLAB] = "slab",
    [SS_STROKE_CURB] = "curb",       [SS_STROKE_BEAM] = "beam",     [SS_STROKE_PLATE] = "plate",
    [SS_STROKE_LINE] = "line",       [SS_STROKE_GIRDER] = "girder", [SS_STROKE_JOINT] = "joint",
    [SS_STROKE_LANE] = "lane",       [SS_STROKE_DISTANCE] = "beam", [SS_STROKE_VARIES] = "curb",
    [SS_STROKE_AXLE] = "beam",       [SS_STROKE_LOOSE] = "bearing", [SS_STROKE_WHEEL] = "wheel",
    [SS_STROKE_BEARING] = "bearing",
};

typedef struct picture {
    ss_text *out;
    const ss_drawing *drawing;
    ss_layout layout;
} picture;

static void put_words(ss_text *out, const char *label) {
    ss_text seen = {0};
    ss_layout_words(label, &seen);
    ss_html_text(out, seen.data == NULL ? "" : seen.data);
    out->failed = out->failed || seen.failed;
    ss_text_destroy(&seen);
}

static void add_number(ss_text *out, const char *before, double value, const char *after) {
    char number[32];
    ss_text_printf(out, "%s%s%s", before, ss_text_decimals(number, sizeof number, value, 1), after);
}

static void put_strokes(const picture *p, int pen) {
    const ss_drawing *d = p->drawing;
    const ss_stroke_kind kind = ss_layout_kind(pen);
    bool lines = false;
    for (int i = 0; i < d->stroke_count; i++) {
        const ss_stroke *s = &d->strokes[i];
        if (s->kind != kind || (s->x0 == s->x1 && s->y0 == s->y1)) {
            continue;
        }
        if (!lines) {
            ss_text_printf(p->out, "<path class=\"s %s\" d=\"", classes[kind]);
        }
        lines = true;
        add_number(p->out, "M", ss_layout_across(&p->layout, s->x0), "");
        add_number(p->out, " ", ss_layout_down(&p->layout, s->y0), "");
        add_number(p->out, "L", ss_layout_across(&p->layout, s->x1), "");
        add_number(p->out, " ", ss_layout_down(&p->layout, s->y1), "");
    }
    ss_text_add(p->out, lines ? "\"/>\n" : "");
    for (int i = 0; i < d->stroke_count; i++) {
        const ss_stroke *s = &d->strokes[i];
        if (s->kind == kind && s->x0 == s->x1 && s->y0 == s->y1) {
            ss_text_printf(p->out, "<circle class=\"p %s\"", classes[kind]);
            add_number(p->out, " cx=\"", ss_layout_across(&p->layout, s->x0), "\"");
            add_number(p->out, " cy=\"", ss_layout_down(&p->layout, s->y0), "\"");
            add_number(p->out, " r=\"", SS_LAYOUT_POINT, "\"/>\n");
        }
    }
}

static void put_labels(const picture *p) {
    for (int i = 0; i < p->drawing->label_count; i++) {
        const ss_label *label = &p->drawing->labels[i];
        const ss_label_place *one = &p->layout.places[i];
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
    for (int pen = 0; pen < SS_STROKE_KINDS; pen++) {
        const ss_stroke_kind kind = ss_layout_kind(pen);
        bool used = false;
        bool point = false;
        for (int i = 0; i < d->stroke_count; i++) {
            const ss_stroke *s = &d->strokes[i];
            used = used || s->kind == kind;
            point = point || (s->kind == kind && s->x0 == s->x1 && s->y0 == s->y1);
        }
        const char *name = ss_lines_stroke_name(kind);
        if (!used || name == NULL) {
            continue;
        }
        ss_text_add(p->out, any ? "" : "<ul class=\"key\">\n");
        any = true;
        ss_text_add(p->out, "<li><svg viewBox=\"0 0 28 12\" aria-hidden=\"true\">");
        ss_text_printf(p->out,
                       point ? "<circle class=\"p %s\" cx=\"14\" cy=\"6\" r=\"4\"/>"
                             : "<path class=\"s %s\" d=\"M1 6L27 6\"/>",
                       classes[kind]);
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
    add_number(out, " viewBox=\"0 0 ", SS_LAYOUT_WIDTH, "");
    add_number(out, " ", p->layout.height, "\">\n");
    for (int pen = 0; pen < SS_STROKE_KINDS; pen++) {
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
    if (!ss_layout_make(drawing, &p.layout)) {
        page->out->failed = true;
        return;
    }
    put_picture(&p, ++page->drawings);
    ss_layout_destroy(&p.layout);
}
