/* drawing_layout.c - where strokes and labels of a drawing stand: one scale across, another down, and labels
 * that do not overlap. */
#include "io/drawing_layout.h"

#include <math.h>

#include "io/write_lines.h"

/* All in units of the picture. */
#define HIGHEST 460.0
#define LOWEST 70.0
#define STRETCH 1.5 /* at most this much more down than across, to part neighbouring lines */
#define LETTER 6.3  /* of a label, on the wide side */
#define ROW 14.0    /* from label to label */
#define LONGEST 44  /* characters of a label */
/* How far a label may go to find room, by steps of a part of a row. */
#define STEPS 64
#define STEP (0.125 * ROW)

static const ss_stroke_kind order[] = {
    SS_STROKE_EDGE,  SS_STROKE_GROUND, SS_STROKE_SLAB,     SS_STROKE_CURB,
    SS_STROKE_BEAM,  SS_STROKE_PLATE,  SS_STROKE_LINE,     SS_STROKE_GIRDER,
    SS_STROKE_JOINT, SS_STROKE_LANE,   SS_STROKE_DISTANCE, SS_STROKE_VARIES,
    SS_STROKE_AXLE,  SS_STROKE_LOOSE,  SS_STROKE_WHEEL,    SS_STROKE_BEARING,
};
_Static_assert(sizeof order / sizeof order[0] == SS_STROKE_KINDS, "every kind of stroke is drawn");

ss_stroke_kind ss_layout_kind(int k) {
    return order[k];
}

static double length_of(const ss_label *label) {
    const int width = ss_text_width(label->text);
    return LETTER * (width < LONGEST ? width : LONGEST);
}

void ss_layout_words(const char *label, ss_text *out) {
    ss_text words = {0};
    ss_text_add_plain(&words, label);
    const char *all = words.data == NULL ? "" : words.data;
    size_t kept = words.length;
    if (ss_text_width(all) > LONGEST) {
        kept = 0;
        while (ss_lines_width(all, kept + 1) < LONGEST) {
            kept++;
        }
    }
    ss_text_add_bytes(out, all, kept);
    ss_text_add(out, kept < words.length ? "\u2026" : "");
    out->failed = out->failed || words.failed;
    ss_text_destroy(&words);
}

static void scale(ss_layout *p) {
    const ss_drawing *d = p->drawing;
    double right = SS_LAYOUT_POINT + 2.0;
    p->left = SS_LAYOUT_POINT + 2.0;
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
    p->left = fmin(p->left, 0.4 * SS_LAYOUT_WIDTH);
    p->sx = (SS_LAYOUT_WIDTH - p->left - right) / fmax(d->width, 1e-3);
    const double height = fmax(d->height, 1e-3);
    const double parting = fmin(ROW * ss_lines_separating(d), STRETCH * p->sx);
    p->sy = fmax(fmax(p->sx, parting), LOWEST / height);
    p->sy = fmin(p->sy, HIGHEST / height);
}

double ss_layout_across(const ss_layout *p, double x) {
    return p->left + x * p->sx;
}

double ss_layout_down(const ss_layout *p, double y) {
    return SS_LAYOUT_POINT + 2.0 + y * p->sy;
}

static bool is_free(const ss_layout *p, int count, const ss_label_place *one) {
    for (int i = 0; i < count; i++) {
        const ss_label_place *other = &p->places[i];
        if (one->x < other->x + other->length + LETTER && other->x < one->x + one->length + LETTER &&
            fabs(one->y - other->y) < ROW - 0.5) {
            return false;
        }
    }
    return true;
}

/* Beside its point, or below the drawing where its point is at the bottom; where that is taken, as near as
 * there is room, which is further down for those below. */
static void find_room(const ss_layout *p, int count, ss_label_place *one, bool below) {
    const double wanted = one->y;
    for (int step = 1; step <= STEPS && !is_free(p, count, one); step++) {
        one->y = wanted + (below ? step : step % 2 != 0 ? step / 2 + 1 : -step / 2) * STEP;
    }
}

static void place_labels(ss_layout *p) {
    const ss_drawing *d = p->drawing;
    p->height = ss_layout_down(p, d->height) + SS_LAYOUT_POINT + 2.0;
    for (int i = 0; i < d->label_count; i++) {
        const ss_label *label = &d->labels[i];
        const double length = length_of(label);
        const double x = ss_layout_across(p, label->x);
        const bool below = label->anchor == 0 && label->y >= d->height - 1e-9;
        ss_label_place one = {.length = length,
                              .y = ss_layout_down(p, label->y) + (below ? SS_LAYOUT_POINT + ROW : 0.3 * ROW)};
        one.x = label->anchor < 0 ? x - length - 8.0 : label->anchor > 0 ? x + 8.0 : x - 0.5 * length;
        one.x = fmax(0.0, fmin(one.x, SS_LAYOUT_WIDTH - length));
        find_room(p, i, &one, below);
        p->places[i] = one;
        p->height = fmax(p->height, one.y + 0.4 * ROW);
    }
}

bool ss_layout_make(const ss_drawing *drawing, ss_layout *out) {
    *out = (ss_layout){.drawing = drawing};
    out->places = ss_alloc((size_t)drawing->label_count + 1, sizeof *out->places);
    if (out->places == NULL) {
        return false;
    }
    scale(out);
    place_labels(out);
    return true;
}

void ss_layout_destroy(ss_layout *layout) {
    ss_free(layout->places);
    *layout = (ss_layout){.places = NULL};
}
