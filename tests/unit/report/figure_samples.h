/* figure_samples.h - the example bridges for tests of figures, what is on a figure, and whether its texts are
 * apart. */
#ifndef SS_TEST_FIGURE_SAMPLES_H
#define SS_TEST_FIGURE_SAMPLES_H

#include <math.h>
#include <string.h>

#include "sillspan/figure.h"
#include "sillspan/reader.h"
#include "support/suite.h"

#define BRIDGES SS_SOURCE_DIR "/models/bridges/"

static const struct {
    const char *file;
    const char *set, *to; /* a value that is changed, or NULL */
} bridges[] = {{"alder-branch", NULL, NULL},
               {"cold-creek", NULL, NULL},
               {"larch-ford", NULL, NULL},
               {"thistle-run", NULL, NULL},
               {"mallow-brook", "slab.in_use", "true"},
               {"quern-brook", NULL, NULL}};

static inline ss_bridge read_bridge(int which) {
    char path[512];
    ss_description d = {0};
    ss_diag_list diags = {0};
    ss_error error = {0};
    ss_bridge bridge;
    snprintf(path, sizeof path, BRIDGES "%s.cfg", bridges[which].file);
    CHECK_OK(ss_description_read(path, &d, &diags, &error), &error);
    if (bridges[which].set != NULL) {
        CHECK_OK(ss_description_set(&d, bridges[which].set, bridges[which].to, &diags), &error);
    }
    CHECK_OK(ss_description_check(&d, &diags), &error);
    CHECK_OK(ss_bridge_resolve(&d, &bridge, &diags), &error);
    ss_description_destroy(&d);
    ss_diag_destroy(&diags);
    return bridge;
}

static inline int texts_like(const ss_figure *figure, const char *text) {
    int count = 0;
    for (int i = 0; i < figure->count; i++) {
        count += figure->marks[i].kind == SS_MARK_TEXT && strcmp(figure->marks[i].text, text) == 0;
    }
    return count;
}

static inline int marks_of(const ss_figure *figure, ss_figure_role role, ss_mark_kind kind) {
    int count = 0;
    for (int i = 0; i < figure->count; i++) {
        count += figure->marks[i].role == role && figure->marks[i].kind == kind;
    }
    return count;
}

/* The page's corner points of a text: left, top, right, bottom. */
static inline void box_of(const ss_mark *mark, double box[4]) {
    const double width = ss_figure_text_width(mark->text, mark->size);
    const double back = mark->anchor < 0 ? width : mark->anchor == 0 ? 0.5 * width : 0.0;
    const ss_spot at = mark->points[0];
    if (mark->upright) {
        box[0] = at.x - 0.72 * mark->size;
        box[1] = at.y + back - width;
        box[2] = at.x;
        box[3] = at.y + back;
    } else {
        box[0] = at.x - back;
        box[1] = at.y - 0.72 * mark->size;
        box[2] = at.x - back + width;
        box[3] = at.y;
    }
}

static inline void check_no_overlap(const char *name, const ss_figure *figure) {
    for (int i = 0; i < figure->count; i++) {
        double a[4];
        if (figure->marks[i].kind != SS_MARK_TEXT) {
            continue;
        }
        box_of(&figure->marks[i], a);
        const bool inside =
            a[0] >= -0.01 && a[1] >= 0.0 && a[2] <= figure->width + 0.01 && a[3] <= figure->height;
        CHECK_ROW(inside, figure->marks[i].text);
        for (int k = 0; k < i; k++) {
            double b[4];
            if (figure->marks[k].kind != SS_MARK_TEXT) {
                continue;
            }
            box_of(&figure->marks[k], b);
            const bool apart = a[2] <= b[0] || b[2] <= a[0] || a[3] <= b[1] || b[3] <= a[1];
            if (!apart) {
                printf("\n  %s: \"%s\" on \"%s\"", name, figure->marks[i].text, figure->marks[k].text);
            }
            CU_ASSERT_TRUE(apart);
        }
    }
}

#endif
