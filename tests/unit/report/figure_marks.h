/* figure_marks.h - looks for marks and texts on a figure, and for texts on texts. */
#ifndef FIGURE_MARKS_H
#define FIGURE_MARKS_H

#include <string.h>

#include "sillspan/figure.h"
#include "sillspan/memory.h"
#include "support/suite.h"

/** The n-th mark of a role and kind; NULL: there are fewer. */
static inline const ss_mark *mark_of(const ss_figure *figure, ss_figure_role role, ss_mark_kind kind, int n) {
    for (int i = 0; i < figure->count; i++) {
        if (figure->marks[i].role == role && figure->marks[i].kind == kind && n-- == 0) {
            return &figure->marks[i];
        }
    }
    return NULL;
}

static inline int count_marks(const ss_figure *figure, ss_figure_role role, ss_mark_kind kind) {
    int count = 0;
    while (mark_of(figure, role, kind, count) != NULL) count++;
    return count;
}

/** The first text that begins with `words`; NULL: there is none. */
static inline const ss_mark *text_of(const ss_figure *figure, const char *words) {
    for (int i = 0; i < figure->count; i++) {
        if (figure->marks[i].kind == SS_MARK_TEXT &&
            strncmp(figure->marks[i].text, words, strlen(words)) == 0) {
            return &figure->marks[i];
        }
    }
    return NULL;
}

/** Left, top, right, bottom of a shape. */
typedef struct mark_box {
    double left, top, right, bottom;
} mark_box;

static inline mark_box box_of_shape(const ss_mark *mark) {
    mark_box box = {mark->points[0].x, mark->points[0].y, mark->points[0].x, mark->points[0].y};
    for (int i = 1; i < mark->count; i++) {
        box.left = mark->points[i].x < box.left ? mark->points[i].x : box.left;
        box.right = mark->points[i].x > box.right ? mark->points[i].x : box.right;
        box.top = mark->points[i].y < box.top ? mark->points[i].y : box.top;
        box.bottom = mark->points[i].y > box.bottom ? mark->points[i].y : box.bottom;
    }
    return box;
}

static inline ss_spot middle_of(const ss_mark *mark) {
    const mark_box box = box_of_shape(mark);
    return (ss_spot){0.5 * (box.left + box.right), 0.5 * (box.top + box.bottom)};
}

static inline mark_box box_of_text(const ss_mark *mark) {
    const double width = ss_figure_text_width(mark->text, mark->size);
    const double back = mark->anchor < 0 ? width : mark->anchor == 0 ? 0.5 * width : 0.0;
    const ss_spot at = mark->points[0];
    return mark->upright ? (mark_box){at.x - 0.72 * mark->size, at.y + back - width, at.x, at.y + back}
                         : (mark_box){at.x - back, at.y - 0.72 * mark->size, at.x - back + width, at.y};
}

/** No text lies on another or off the page. */
static inline void check_texts_apart(const char *name, const ss_figure *figure) {
    for (int i = 0; i < figure->count; i++) {
        if (figure->marks[i].kind != SS_MARK_TEXT) {
            continue;
        }
        const mark_box a = box_of_text(&figure->marks[i]);
        const bool inside =
            a.left >= -0.01 && a.top >= 0.0 && a.right <= figure->width + 0.01 && a.bottom <= figure->height;
        if (!inside) {
            printf("\n  %s: off the page: \"%s\"", name, figure->marks[i].text);
        }
        CU_ASSERT_TRUE(inside);
        for (int k = 0; k < i; k++) {
            if (figure->marks[k].kind != SS_MARK_TEXT) {
                continue;
            }
            const mark_box b = box_of_text(&figure->marks[k]);
            const bool apart =
                a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top;
            if (!apart) {
                printf("\n  %s: \"%s\" on \"%s\"", name, figure->marks[i].text, figure->marks[k].text);
            }
            CU_ASSERT_TRUE(apart);
        }
    }
}

typedef ss_status figure_maker(const ss_results *results, ss_unit_system units, ss_figure *out,
                               ss_error *error);

/** Makes a figure that has a title and a description. */
static inline ss_figure draw(figure_maker *make, const ss_results *results, ss_unit_system units) {
    ss_figure figure;
    ss_error error = {0};
    CHECK_OK(make(results, units, &figure, &error), &error);
    CU_ASSERT_TRUE(strlen(figure.title) > 0 && strlen(figure.text) > 0);
    return figure;
}

/** Draws it in both systems, looks for texts on texts, and lets every allocation fail in turn. */
static inline void check_figure(const char *name, figure_maker *make, const ss_results *results) {
    const long live = ss_memory_live();
    for (int k = 0; k < 2; k++) {
        ss_figure figure = draw(make, results, k == 0 ? SS_UNITS_US : SS_UNITS_SI);
        check_texts_apart(name, &figure);
        ss_figure_destroy(&figure);
    }
    ss_status status = SS_ERROR_MEMORY;
    for (int n = 0; status != SS_OK && n < 500; n++) {
        ss_figure figure;
        ss_memory_fail_from(n);
        status = make(results, SS_UNITS_US, &figure, NULL);
        ss_memory_fail_from(-1);
        CU_ASSERT_TRUE(status == SS_OK || (status == SS_ERROR_MEMORY && figure.count == 0));
        ss_figure_destroy(&figure);
        CU_ASSERT_EQUAL(ss_memory_live(), live);
    }
    CU_ASSERT_EQUAL(status, SS_OK);
}

#endif
