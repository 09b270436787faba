/* figure_study_panel.c - panels of a sweep's figure: curves over one axis, with their band and limit. */
#include "report/figure_study_panel.h"

#include <math.h>

/* mm, from panel to panel */
#define BETWEEN 5.0

static const ss_figure_role roles[] = {SS_FIGURE_CURVE_1, SS_FIGURE_CURVE_2, SS_FIGURE_CURVE_3,
                                       SS_FIGURE_CURVE_4};

void ss_panel_widen(double *low, double *high, const double *values, int count) {
    for (int i = 0; i < count; i++) {
        if (isfinite(values[i])) {
            *low = fmin(*low, values[i]);
            *high = fmax(*high, values[i]);
        }
    }
}

bool ss_panel_near_one(double low, double high) {
    const double reach = fmax(0.75 * (high - low), SS_PANEL_SMALL);
    return low - reach <= 1.0 && 1.0 <= high + reach;
}

const char *ss_panel_one_words(double low) {
    return low > 1.0 ? "1.0 lies below the figure." : "1.0 lies above the figure.";
}

void ss_panel_place(ss_swept *s, double low, double high, double height) {
    s->y = (ss_scale){low, high, s->sketch.down + height, s->sketch.down, false};
    s->sketch.down += height + BETWEEN;
    s->bottom = s->y.from;
}

void ss_panel_draw(ss_swept *s, const ss_panel_curve *curves, int count, const char *title,
                   const ss_sweep_band *band) {
    ss_sketch *const sketch = &s->sketch;
    ss_pointer labels[SS_PANEL_CURVES + 1];
    double left = s->left;
    double right = s->right;
    int named = 0;
    const bool banded = band != NULL && !isnan(band->from) && ss_swept_in_order(&sketch->words) &&
                        !ss_swept_all_along(&sketch->words, band);
    if (banded) {
        ss_along_range(&s->along, band->from, band->to, &left, &right);
        ss_figure_box(sketch->figure, SS_FIGURE_BAND, (ss_spot){left, s->y.to}, (ss_spot){right, s->y.from});
    }
    const ss_axis axis = {.scale = s->y,
                          .upright = true,
                          .at = s->left,
                          .grid_to = s->right,
                          .most = s->y.from - s->y.to > 40.0 ? 7 : 5,
                          .title = title};
    ss_figure_axis(sketch->figure, &axis);
    for (int i = 0; i < count; i++) {
        const int last =
            ss_along_curve(&s->along, &s->y, roles[i % 4], curves[i].value, s->along.axis->count);
        if (last >= 0 && curves[i].name != NULL) {
            labels[named++] = (ss_pointer){
                .at = ss_scale_at(&s->y, curves[i].value[last]),
                .text = ss_study_cut(sketch, curves[i].name, SS_PANEL_NAMES - 4.0, SS_LETTERS_SMALL),
                .second = curves[i].second};
        }
    }
    if (s->limit_name != NULL) {
        const double y = ss_scale_at(&s->y, s->limit);
        ss_figure_line(sketch->figure, SS_FIGURE_LIMIT, (ss_spot){s->left, y}, (ss_spot){s->right, y});
        labels[named++] = (ss_pointer){
            .at = y, .text = ss_study_cut(sketch, s->limit_name, SS_PANEL_NAMES - 4.0, SS_LETTERS_SMALL)};
    }
    ss_study_ends(sketch, labels, named, (ss_spot){s->right, s->right + 4.0}, s->y.to, s->y.from);
}
