/* figure_study_map.c - the rating over two values of a sweep: one line for each of the second. */
#include <math.h>

#include "report/figure_study_panel.h"

/* The row of the first axis that point `i` of the second is at. */
static double map_of(const ss_swept *s, int column, int row) {
    const int i = row * s->sweep->axis[1].count + column;
    return i < s->sweep->done && s->sweep->points[i].failure == NULL ? s->sweep->points[i].rf : (double)NAN;
}

void ss_panel_map(ss_swept *s) {
    ss_builder *const b = &s->sketch.words;
    const ss_sweep *const sweep = s->sweep;
    ss_panel_curve curves[SS_PANEL_CURVES];
    double low = (double)INFINITY;
    double high = -(double)INFINITY;
    const int across = sweep->axis[1].count;
    const int count = across < SS_PANEL_CURVES ? across : SS_PANEL_CURVES;
    const int rows = sweep->axis[0].count;
    ss_sketch_heading(&s->sketch, "Rating over two values that are varied");
    ss_along_begin(&s->along, &s->sketch, 0, s->left, s->right);
    for (int k = 0; k < count; k++) {
        const int column = count > 1 ? (int)((long)k * (across - 1) / (count - 1)) : 0;
        double *const values = ss_arena_alloc(&s->sketch.report.arena, (size_t)rows + 1, sizeof *values);
        if (values == NULL) {
            b->failed = true;
            return;
        }
        for (int r = 0; r < rows; r++) values[r] = map_of(s, column, r);
        ss_panel_widen(&low, &high, values, rows);
        curves[k] = (ss_panel_curve){values, ss_swept_said(b, 1, column), NULL};
    }
    if (!isfinite(low)) {
        ss_sketch_paragraph(&s->sketch, 0.0, "No point of the sweep has a rating that trucks limit.");
        return;
    }
    const bool one = ss_panel_near_one(low, high);
    const double least = low;
    low = one ? fmin(low, 1.0) : low;
    high = one ? fmax(high, 1.0) : high;
    ss_study_round(&low, &high, SS_PANEL_SMALL, 7);
    s->sketch.down += 4.0;
    ss_figure_text(
        s->sketch.figure, (ss_lettering){SS_FIGURE_LABEL, -1, SS_LETTERS_SMALL, false},
        (ss_spot){SS_PAGE_WIDTH - SS_PAGE_MARGIN, s->sketch.down - 1.5},
        ss_study_cut(&s->sketch, ss_build_text(b, "with %s", ss_swept_what(b, 1)), 160.0, SS_LETTERS_SMALL));
    ss_panel_place(s, low, high, 1.6 * SS_PANEL_TALL);
    s->limit = 1.0;
    s->limit_name = one ? "1.0" : NULL;
    ss_panel_draw(s, curves, count, "rating factor", NULL);
    ss_along_axis(&s->along, s->bottom + 1.5);
    ss_sketch_paragraph(&s->sketch, 0.0,
                        ss_build_text(b, "One line for each value of %s%s.%s%s", ss_swept_what(b, 1),
                                      count < across ? ss_build_text(b, ", %d of %d", count, across) : "",
                                      one ? "" : " ", one ? "" : ss_panel_one_words(least)));
}
