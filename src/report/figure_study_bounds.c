/* figure_study_bounds.c - a tornado: how far each unknown by itself moves the rating, the most important on
 * top, and all of them together. */
#include <math.h>

#include "report/figure_study.h"
#include "report/report_ratings.h"
#include "report/report_unknowns.h"

/* mm: names, most that a value beside a bar may take, a bar and its row */
#define NAMES 46.0
#define VALUES 38.0
#define BAR 4.2
#define ROW 7.6
#define BREAK 0.8
/* A change of the rating below this looks small. */
#define SMALL 0.1

enum { ROWS = 14 };

typedef struct tornado {
    ss_sketch sketch;
    const ss_bounds *bounds;
    ss_scale x;
    bool shows_one;
    double lines[3]; /* mm: upright lines through all bars */
    ss_figure_role roles[3];
    int line_count;
    double top; /* mm: of the bars */
} tornado;

static double end_of(const tornado *t, ss_bounds_side side) {
    const ss_bounds_end *const end = &t->bounds->ends[side];
    return end->point == NULL ? (double)NAN : end->answers[0];
}

static int rows_of(const tornado *t) {
    const int count = t->sketch.bridge->unknowns.count;
    return count < ROWS ? count : ROWS;
}

static const char *value_words(tornado *t, int unknown, double value) {
    ss_builder *const b = &t->sketch.words;
    return ss_study_cut(&t->sketch, ss_unknown_said(b, ss_unknown_of(b, unknown), value), VALUES,
                        SS_LETTERS_SMALL);
}

static void widen(double *low, double *high, double value) {
    if (isfinite(value)) {
        *low = fmin(*low, value);
        *high = fmax(*high, value);
    }
}

/* Values at the ends of bars need room on both sides. */
static void scale_all(tornado *t) {
    const ss_bounds *const bounds = t->bounds;
    double low = (double)INFINITY;
    double high = -(double)INFINITY;
    double room[2] = {6.0, 6.0};
    for (int k = 0; k < rows_of(t); k++) {
        const ss_bounds_effect *const e = &bounds->effects[bounds->order[k]];
        widen(&low, &high, e->least);
        widen(&low, &high, e->most);
        for (int side = 0; side < 2 && e->swing > 0.0; side++) {
            const char *const words = value_words(t, bounds->order[k], side == 0 ? e->least_at : e->most_at);
            room[side] = fmax(room[side], ss_figure_text_width(words, SS_LETTERS_SMALL) + 3.0);
        }
    }
    widen(&low, &high, end_of(t, SS_BOUNDS_WORST));
    widen(&low, &high, end_of(t, SS_BOUNDS_BEST));
    widen(&low, &high, t->sketch.words.results->described);
    if (!isfinite(low)) {
        low = 0.0;
        high = 1.0;
    }
    const double reach = fmax(0.5 * (high - low), SMALL);
    t->shows_one = low - reach <= 1.0 && 1.0 <= high + reach;
    if (t->shows_one) {
        widen(&low, &high, 1.0);
    }
    ss_study_round(&low, &high, SMALL, 8);
    t->x = (ss_scale){low, high, SS_PAGE_MARGIN + NAMES + room[0], SS_PAGE_WIDTH - SS_PAGE_MARGIN - room[1],
                      false};
}

/* What is known of the whole stands above, with lines down to the bars. */
static void draw_flags(tornado *t) {
    ss_builder *const b = &t->sketch.words;
    const double described = b->results->described;
    const double middle = t->bounds->middle;
    ss_flag flags[3];
    int count = 0;
    if (isfinite(described)) {
        flags[count++] = (ss_flag){ss_scale_at(&t->x, described), 0.0, SS_FIGURE_AXIS, "as described",
                                   ss_rated_factor(b, described, 2)};
    }
    if (isfinite(middle) && middle >= t->x.low && middle <= t->x.high &&
        !(fabs(middle - described) < 0.005)) {
        flags[count++] = (ss_flag){ss_scale_at(&t->x, middle), 0.0, SS_FIGURE_LEADER, "all in the middle",
                                   ss_rated_factor(b, middle, 2)};
    }
    if (t->shows_one) {
        flags[count++] = (ss_flag){ss_scale_at(&t->x, 1.0), 0.0, SS_FIGURE_LIMIT, "1.0", NULL};
    }
    const double rows = t->sketch.down + SS_STUDY_FLAGS;
    for (int i = 0; i < count; i++) {
        t->lines[i] = flags[i].at;
        t->roles[i] = flags[i].role;
        flags[i].to = rows;
    }
    t->line_count = count;
    ss_study_flags(&t->sketch, flags, count, SS_PAGE_MARGIN, SS_PAGE_WIDTH - SS_PAGE_MARGIN);
}

/* Over the bars, to the axis. */
static void draw_lines(tornado *t, double bottom) {
    for (int i = 0; i < t->line_count; i++) {
        ss_figure_line(t->sketch.figure, t->roles[i], (ss_spot){t->lines[i], t->top},
                       (ss_spot){t->lines[i], bottom});
    }
}

/* Where a text beside a bar begins so that no line goes through it; `side` -1: it ends there, 1: it begins
 * there. */
static double clear_of_lines(const tornado *t, double at, double width, int side) {
    double x = at;
    for (int i = 0; i < 3 * t->line_count; i++) {
        const double line = t->lines[i % t->line_count];
        const bool crossed =
            side < 0 ? line > x - width - 0.6 && line < x + 0.6 : line > x - 0.6 && line < x + width + 0.6;
        x = crossed ? line + side * 1.0 : x;
    }
    return x;
}

/* A bar from one rating to another with what is told at its ends. */
static void draw_bar(tornado *t, ss_figure_role role, double least, double most, const char *left,
                     const char *right) {
    ss_figure *const figure = t->sketch.figure;
    const double y = t->sketch.down + 0.5 * ROW;
    const ss_lettering letters = {SS_FIGURE_LABEL, -1, SS_LETTERS_SMALL, false};
    const double from = ss_scale_at(&t->x, least);
    const double to = ss_scale_at(&t->x, most);
    const double base = y + 0.35 * SS_LETTERS_SMALL;
    ss_figure_box(figure, role, (ss_spot){from, y - 0.5 * BAR},
                  (ss_spot){fmax(to, from + 0.2), y + 0.5 * BAR});
    const double widths[] = {ss_figure_text_width(left, SS_LETTERS_SMALL),
                             ss_figure_text_width(right, SS_LETTERS_SMALL)};
    ss_figure_text(figure, letters, (ss_spot){clear_of_lines(t, from - 1.2, widths[0], -1), base}, left);
    ss_figure_text(figure, (ss_lettering){SS_FIGURE_LABEL, 1, SS_LETTERS_SMALL, false},
                   (ss_spot){clear_of_lines(t, fmax(to, from + 0.2) + 1.2, widths[1], 1), base}, right);
}

static void draw_name(tornado *t, const char *name) {
    const char *lines[SS_STUDY_LINES];
    const double width = NAMES - 3.0;
    const int count = ss_study_break(&t->sketch, name, width, SS_LETTERS, 2, lines);
    for (int i = 0; i < count; i++) {
        ss_figure_text(t->sketch.figure, (ss_lettering){SS_FIGURE_LABEL, 1, SS_LETTERS, false},
                       (ss_spot){SS_PAGE_MARGIN, t->sketch.down + 0.5 * ROW + 0.35 * SS_LETTERS +
                                                     (i - 0.5 * (count - 1)) * 2.9},
                       lines[i]);
    }
}

static void draw_unknown(tornado *t, int unknown) {
    const ss_bounds_effect *const e = &t->bounds->effects[unknown];
    draw_name(t, ss_unknown_of(&t->sketch.words, unknown)->name);
    if (isfinite(e->least) && isfinite(e->most) && e->swing > 0.0) {
        draw_bar(t, SS_FIGURE_BAR, e->least, e->most, value_words(t, unknown, e->least_at),
                 value_words(t, unknown, e->most_at));
    } else {
        ss_figure_text(t->sketch.figure, (ss_lettering){SS_FIGURE_LABEL, 1, SS_LETTERS_SMALL, false},
                       (ss_spot){t->x.from, t->sketch.down + 0.5 * ROW + 0.35 * SS_LETTERS_SMALL},
                       isfinite(e->least) ? "does nothing by itself" : "not known");
    }
    t->sketch.down += ROW;
}

static void draw_all(tornado *t) {
    ss_builder *const b = &t->sketch.words;
    const double worst = end_of(t, SS_BOUNDS_WORST);
    const double best = end_of(t, SS_BOUNDS_BEST);
    const ss_answer *const answer = &b->results->answers[0];
    if (isfinite(worst) && isfinite(best)) {
        ss_figure_line(t->sketch.figure, SS_FIGURE_GRID, (ss_spot){SS_PAGE_MARGIN, t->sketch.down + 0.4},
                       (ss_spot){SS_PAGE_WIDTH - SS_PAGE_MARGIN, t->sketch.down + 0.4});
        t->sketch.down += BREAK;
        draw_name(t, "all together, worst and best found");
        draw_bar(t, SS_FIGURE_RING, worst, best, ss_answer_said(b, answer, worst),
                 ss_answer_said(b, answer, best));
        t->sketch.down += ROW;
    }
}

static void say(tornado *t) {
    ss_builder *const b = &t->sketch.words;
    const int left = t->sketch.bridge->unknowns.count - rows_of(t);
    ss_sketch_paragraph(
        &t->sketch, 0.0,
        ss_build_text(b,
                      "Filled: one unknown by itself, the others in the middle of what they can "
                      "be; its values at both ends. Open: all of them anywhere, worst and best "
                      "found in %d runs. Nothing proves that there is no worse.%s",
                      t->bounds->runs, t->shows_one ? "" : " 1.0 lies outside the figure."));
    if (left > 0) {
        ss_sketch_paragraph(&t->sketch, 0.0,
                            ss_build_text(b, "%d more that move it less are not drawn.", left));
    }
}

ss_status ss_figure_bounds(const ss_results *results, ss_unit_system units, ss_figure *out, ss_error *error) {
    tornado t = {.bounds = results->bounds};
    ss_sketch_begin(&t.sketch, results, units, out, "bounds");
    ss_sketch_heading(&t.sketch, "What each unknown does to the rating");
    scale_all(&t);
    const bool both = isfinite(end_of(&t, SS_BOUNDS_WORST)) && isfinite(end_of(&t, SS_BOUNDS_BEST));
    const double bottom =
        t.sketch.down + SS_STUDY_FLAGS + ROW * (rows_of(&t) + (both ? 1 : 0)) + (both ? BREAK : 0.0) + 0.5;
    draw_flags(&t);
    t.top = t.sketch.down;
    for (int k = 0; k < rows_of(&t); k++) {
        draw_unknown(&t, t.bounds->order[k]);
    }
    draw_all(&t);
    draw_lines(&t, bottom);
    const ss_axis axis = {
        .scale = t.x, .at = bottom, .grid_to = bottom, .most = 8, .title = "controlling rating factor"};
    ss_figure_axis(t.sketch.figure, &axis);
    t.sketch.down = bottom + 3.4 * SS_LETTERS;
    say(&t);
    out->text = ss_figure_keep(
        out,
        "A bar for each unknown, from the least to the largest rating that it gives by itself, and one for "
        "all together.");
    return ss_sketch_end(&t.sketch, error);
}
