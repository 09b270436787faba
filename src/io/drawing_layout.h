/* drawing_layout.h - where strokes and labels of a drawing stand, the same on a page of HTML and on paper. */
#ifndef SS_DRAWING_LAYOUT_H
#define SS_DRAWING_LAYOUT_H

#include "sillspan/report.h"
#include "sillspan/text.h"

/** All in units of the picture, which is so many wide. */
#define SS_LAYOUT_WIDTH 760.0
#define SS_LAYOUT_POINT 4.0 /**< radius of a stroke without length */

/** Where a label stands: its left end, baseline and length. */
typedef struct ss_label_place {
    double x, y, length;
} ss_label_place;

typedef struct ss_layout {
    const ss_drawing *drawing;
    double left, sx, sy;    /**< room for labels; units per metre */
    double height;          /**< of strokes and labels */
    ss_label_place *places; /**< of each label */
} ss_layout;

/** Labels make room for each other. False: no memory. */
bool ss_layout_make(const ss_drawing *drawing, ss_layout *out);
void ss_layout_destroy(ss_layout *layout);

double ss_layout_across(const ss_layout *p, double x);
double ss_layout_down(const ss_layout *p, double y);

/** Appends what there is room for of a label, made harmless; the tables have it whole. */
void ss_layout_words(const char *label, ss_text *out);

/** Kinds of stroke in the order in which they are drawn; SS_STROKE_KINDS of them. */
enum { SS_STROKE_KINDS = 16 };
ss_stroke_kind ss_layout_kind(int k);

#endif
