/* figure_study_along.c - the axis of what a sweep goes through, and curves over it. */
#include "report/figure_study_along.h"

#include <math.h>
#include <string.h>

/* mm: width of the level for no joint or a rigid one, from there to the axis, radius of a dot */
#define LEVEL 12.0
#define BREAK 2.0
#define DOT 0.9

/* A value as the figure has it: in its units. */
static double shown(const ss_along *along, double value) {
    const ss_builder *const b = &along->sketch->words;
    const ss_unit_system units = b->report->units;
    const double stiffness = along->axis->whole ? ss_swept_stiffness(b, value) : (double)NAN;
    if (along->words) {
        return value;
    }
    if (!isnan(stiffness)) {
        return ss_units_from_si(stiffness, ss_swept_stiffness_dimension(b), units);
    }
    return along->axis->whole ? value : ss_units_from_si(value, along->axis->unknown->dimension, units);
}

void ss_along_begin(ss_along *along, ss_sketch *sketch, int which, double left, double right) {
    const ss_sweep_axis *const axis = &sketch->words.results->sweep->axis[which];
    *along = (ss_along){.sketch = sketch,
                        .axis = axis,
                        .which = which,
                        .ends = axis->whole,
                        .words = axis->unknown->kind == SS_UNKNOWN_DISCRETE,
                        .left = left,
                        .right = right};
    ss_scale *const x = &along->scale;
    const double aside = along->ends ? LEVEL + BREAK : 0.0;
    *x = (ss_scale){(double)INFINITY, -(double)INFINITY, left + aside, right - aside, false};
    for (int i = 0; i < axis->count; i++) {
        const double value = shown(along, axis->value[i]);
        if (isfinite(value) && !(along->ends && axis->value[i] == 0.0)) {
            x->low = fmin(x->low, value);
            x->high = fmax(x->high, value);
        }
    }
    x->log = !along->words && (axis->whole || axis->unknown->log || axis->unknown->box_log) && x->low > 0.0;
    if (along->words) {
        x->low = -0.5;
        x->high = axis->count - 0.5;
    } else if (!(x->high > x->low)) {
        const double middle = isfinite(x->low) ? x->low : 1.0;
        const double half = middle == 0.0 ? 1.0 : 0.5 * fabs(middle);
        x->low = middle - half;
        x->high = middle + half;
    }
}

double ss_along_at(const ss_along *along, double value) {
    if (along->ends && value == 0.0) {
        return along->left + 0.5 * LEVEL;
    }
    return isinf(value) ? along->right - 0.5 * LEVEL : ss_scale_at(&along->scale, shown(along, value));
}

void ss_along_range(const ss_along *along, double from, double to, double *left, double *right) {
    *left = along->ends && from == 0.0 ? along->left : ss_along_at(along, from);
    *right = isinf(to) ? along->right : ss_along_at(along, to);
}

/* A level beside the axis, or one dot. */
static void put_level(const ss_along *along, ss_figure_role role, double x, double y, bool dot) {
    ss_figure *const figure = along->sketch->figure;
    if (dot) {
        /* What curves tell apart by their lines, dots do by their form. */
        const bool open = role == SS_FIGURE_CURVE_2 || role == SS_FIGURE_CURVE_4;
        const ss_figure_role form = open ? SS_FIGURE_RING : SS_FIGURE_DOT;
        if (role == SS_FIGURE_CURVE_1 || role == SS_FIGURE_CURVE_2) {
            ss_figure_disc(figure, form, (ss_spot){x, y}, DOT);
        } else {
            ss_study_diamond(figure, form, (ss_spot){x, y}, 1.3 * DOT);
        }
    } else {
        ss_figure_line(figure, role, (ss_spot){x - 0.5 * LEVEL, y}, (ss_spot){x + 0.5 * LEVEL, y});
    }
}

int ss_along_curve(const ss_along *along, const ss_scale *y, ss_figure_role role, const double *values,
                   int count) {
    const ss_sweep_axis *const axis = along->axis;
    ss_spot *const points = ss_arena_alloc(&along->sketch->report.arena, (size_t)count + 1, sizeof *points);
    int run = 0;
    int last = -1;
    if (points == NULL) {
        along->sketch->words.failed = true;
        return -1;
    }
    for (int i = 0; i <= count; i++) {
        const bool known = i < count && isfinite(values[i]);
        const bool aside = known && along->ends && (axis->value[i] == 0.0 || isinf(axis->value[i]));
        if (run > 0 && (!known || aside || along->words)) {
            if (run == 1) {
                put_level(along, role, points[0].x, points[0].y, true);
            } else {
                ss_figure_path(along->sketch->figure, role, points, run);
            }
            run = 0;
        }
        if (known) {
            points[run] = (ss_spot){ss_along_at(along, axis->value[i]), ss_scale_at(y, values[i])};
            last = i;
        }
        if (aside) {
            put_level(along, role, points[run].x, points[run].y, false);
        } else if (known) {
            run++;
        }
    }
    return last;
}

static const char *title_of(const ss_along *along) {
    ss_builder *const b = &along->sketch->words;
    const ss_unit_system units = b->report->units;
    const ss_unknown *const unknown = along->axis->unknown;
    const char *const said = ss_swept_what(b, along->which);
    const char *const what = along->ends && strncmp(said, "the ", 4) == 0 ? said + 4 : said;
    if (along->ends && isnan(ss_swept_stiffness(b, 1.0))) {
        return ss_build_text(b, "%s, times what is described", what);
    }
    const ss_dimension dimension = along->ends ? ss_swept_stiffness_dimension(b) : unknown->dimension;
    return along->words || dimension == SS_DIM_NUMBER
               ? what
               : ss_build_text(b, "%s, %s", what, ss_units_name(dimension, units));
}

/* Words in place of numbers. */
static void put_words(const ss_along *along, double at) {
    ss_sketch *const sketch = along->sketch;
    ss_pointer *const labels =
        ss_arena_alloc(&sketch->report.arena, (size_t)along->axis->count, sizeof *labels);
    if (labels == NULL) {
        sketch->words.failed = true;
        return;
    }
    for (int i = 0; i < along->axis->count; i++) {
        labels[i] = (ss_pointer){.at = ss_along_at(along, along->axis->value[i]),
                                 .text = ss_study_cut(sketch, ss_swept_said(&sketch->words, along->which, i),
                                                      60.0, SS_LETTERS_SMALL)};
    }
    ss_figure_line(sketch->figure, SS_FIGURE_AXIS, (ss_spot){along->left, at}, (ss_spot){along->right, at});
    sketch->down =
        ss_sketch_row(sketch, labels, along->axis->count, at, SS_PAGE_MARGIN, SS_PAGE_WIDTH - SS_PAGE_MARGIN);
    ss_figure_text(sketch->figure, (ss_lettering){SS_FIGURE_LABEL, 0, SS_LETTERS_SMALL, false},
                   (ss_spot){0.5 * (along->left + along->right), sketch->down + 2.4}, title_of(along));
    sketch->down += 4.0;
}

void ss_along_axis(const ss_along *along, double at) {
    ss_sketch *const sketch = along->sketch;
    const ss_lettering letters = {SS_FIGURE_LABEL, 0, SS_LETTERS_SMALL, false};
    const ss_axis axis = {
        .scale = along->scale, .at = at, .grid_to = at, .most = 9, .title = title_of(along)};
    if (along->words) {
        put_words(along, at);
        return;
    }
    ss_figure_axis(sketch->figure, &axis);
    for (int side = 0; side < 2 && along->ends; side++) {
        const double x = side == 0 ? along->left : along->right - LEVEL;
        ss_figure_line(sketch->figure, SS_FIGURE_AXIS, (ss_spot){x, at}, (ss_spot){x + LEVEL, at});
        ss_figure_text(sketch->figure, letters,
                       (ss_spot){x + 0.5 * LEVEL, at + 1.9 + 0.75 * SS_LETTERS_SMALL},
                       side == 0 ? "none" : "rigid");
    }
    sketch->down = at + 3.4 * SS_LETTERS;
}
