/* figure_study_compare.c - variants side by side: the factor that governs each on one axis, and the most that
 * one car carries. */
#include <math.h>

#include "report/figure_study.h"
#include "report/report_compare.h"
#include "report/report_ratings.h"
#include "report/report_words.h"

/* mm: names, the plot of factors, from there to that of shares, its width, a dot */
#define NAMES 52.0
#define FACTORS 66.0
#define ASIDE 16.0
#define SHARES 28.0
#define DOT 1.1
#define LINE 2.9

typedef struct compared {
    ss_sketch sketch;
    const ss_comparison *all;
    ss_scale factor, share;
    bool has_share;
    double *sizes; /* the factor of each variant; NaN: none */
} compared;

/* The most that one car carries of a truck; NaN: not known, or not to be set against others. */
static double share_of(const ss_comparison *all, int variant) {
    const ss_compare_value *const value =
        ss_comparison_governing(all, variant, SS_ASKED_CAR_SHARE, NULL, SS_BY_ALL);
    return value == NULL || !ss_comparison_counts(all, variant, SS_ASKED_CAR_SHARE) ? (double)NAN
                                                                                    : value->value;
}

static void scale_all(compared *c) {
    const ss_comparison *const all = c->all;
    double low = 0.0;
    double most = all->rating ? 1.0 : 0.0;
    double share = 0.0;
    for (int i = 0; i < all->variant_count; i++) {
        const double part = share_of(all, i);
        c->sizes[i] =
            all->rating && all->variants[i].outcome == SS_COMPARE_DONE ? all->variants[i].rf : (double)NAN;
        most = isfinite(c->sizes[i]) ? fmax(most, c->sizes[i]) : most;
        share = isfinite(part) ? fmax(share, part) : share;
        low = isfinite(c->sizes[i]) ? fmin(low, c->sizes[i]) : low;
    }
    most *= 1.02;
    ss_scale_round(&low, &most, 7);
    const double left = SS_PAGE_MARGIN + NAMES;
    c->has_share = share > 0.0;
    const double right = c->has_share && all->rating ? left + FACTORS : SS_PAGE_WIDTH - SS_PAGE_MARGIN - 20.0;
    c->factor = (ss_scale){low, most, left, right, false};
    low = 0.0;
    share = share > 1.0 ? 1.02 * share : fmax(share, 0.5);
    ss_scale_round(&low, &share, 4);
    c->share = (ss_scale){low, share, all->rating ? right + ASIDE : left,
                          all->rating ? right + ASIDE + SHARES : right, false};
}

/* What stands beside a dot: where the limit does not run through it. */
static void put_value(compared *c, const ss_scale *scale, double x, double y, const char *text) {
    const double width = ss_figure_text_width(text, SS_LETTERS_SMALL);
    const bool factors = scale == &c->factor;
    const double limit = factors && c->all->rating ? ss_scale_at(scale, 1.0) : -1.0;
    const double start = x + DOT + 0.9;
    const bool crossed = limit > start - 0.4 && limit < start + width + 0.4;
    const bool left = crossed && x - DOT - 0.9 - width > scale->from + 0.5;
    /* Where the dot is near the line on the other side too, the text begins behind the line. */
    const double right = crossed ? limit + 0.9 : start;
    ss_figure_text(c->sketch.figure, (ss_lettering){SS_FIGURE_LABEL, left ? -1 : 1, SS_LETTERS_SMALL, false},
                   (ss_spot){left ? x - DOT - 0.9 : right, y + 0.35 * SS_LETTERS_SMALL}, text);
}

static void put_dot(compared *c, const ss_scale *scale, double value, double y, const char *text) {
    const double x = ss_scale_at(scale, value);
    ss_figure_line(c->sketch.figure, SS_FIGURE_LEADER, (ss_spot){ss_scale_at(scale, 0.0), y},
                   (ss_spot){x, y});
    ss_figure_disc(c->sketch.figure, SS_FIGURE_DOT, (ss_spot){x, y}, DOT);
    put_value(c, scale, x, y, text);
}

static const char *mark_of(compared *c, int variant) {
    switch (ss_comparison_mark(c->sizes, c->all->variant_count, variant, true)) {
    case SS_MARK_BEST: return ", best";
    case SS_MARK_WORST: return ", worst";
    case SS_MARK_NONE: break;
    }
    return "";
}

static void put_words(compared *c, double y, const char *text) {
    const double left = c->factor.from + 1.5;
    ss_figure_text(c->sketch.figure, (ss_lettering){SS_FIGURE_LABEL, 1, SS_LETTERS_SMALL, false},
                   (ss_spot){left, y + 0.35 * SS_LETTERS_SMALL},
                   ss_study_cut(&c->sketch, text, SS_PAGE_WIDTH - SS_PAGE_MARGIN - left, SS_LETTERS_SMALL));
}

/* Shares of all variants, so that best and worst are seen among them. */
static void put_share(compared *c, int variant, double y) {
    ss_builder *const b = &c->sketch.words;
    const double share = share_of(c->all, variant);
    if (isfinite(share)) {
        put_dot(c, &c->share, share, y, ss_words_decimals(b, share, 2));
    }
}

static double row_height(compared *c, int variant) {
    const char *lines[SS_STUDY_LINES];
    const int count = ss_study_break(&c->sketch, c->all->variants[variant].name, NAMES - 3.0, SS_LETTERS,
                                     SS_STUDY_LINES, lines);
    return fmax(6.2, LINE * count + 1.6);
}

static void draw_row(compared *c, int variant) {
    ss_builder *const b = &c->sketch.words;
    const ss_compare_variant *const v = &c->all->variants[variant];
    const double height = row_height(c, variant);
    const double y = c->sketch.down + 0.5 * height;
    ss_study_name(&c->sketch, v->name, SS_PAGE_MARGIN + NAMES - 2.0, NAMES - 3.0, y);
    c->sketch.down += height;
    if (v->outcome != SS_COMPARE_DONE) {
        put_words(c, y, ss_build_text(b, "no result: %s", v->says == NULL ? "" : v->says));
        return;
    }
    if (c->all->rating && isfinite(c->sizes[variant])) {
        put_dot(c, &c->factor, c->sizes[variant], y,
                ss_build_text(b, "%s%s", ss_rated_factor(b, c->sizes[variant], 2), mark_of(c, variant)));
    } else if (c->all->rating) {
        put_words(c, y, isinf(c->sizes[variant]) ? "no truck limits it" : "no rating");
    }
    if (c->has_share) {
        put_share(c, variant, y);
    }
}

/* Behind the rows, whose grid they are. */
static void draw_axes(compared *c, double at) {
    ss_figure *const figure = c->sketch.figure;
    const double top = c->sketch.down;
    const ss_axis factors = {
        .scale = c->factor, .at = at, .grid_to = top, .most = 7, .title = "controlling rating factor"};
    const ss_axis shares = {
        .scale = c->share, .at = at, .grid_to = top, .most = 4, .title = "most that one car carries"};
    if (c->all->rating) {
        ss_figure_axis(figure, &factors);
        const double x = ss_scale_at(&c->factor, 1.0);
        ss_figure_line(figure, SS_FIGURE_LIMIT, (ss_spot){x, at}, (ss_spot){x, top - 1.0});
    }
    if (c->has_share) {
        ss_figure_axis(figure, &shares);
    }
}

static void say(compared *c) {
    ss_builder *const b = &c->sketch.words;
    const int base = ss_comparison_base(c->all);
    for (int i = 0; i < c->all->variant_count && c->all->rating; i++) {
        const ss_compare_variant *const v = &c->all->variants[i];
        const ss_compare_mark mark = ss_comparison_mark(c->sizes, c->all->variant_count, i, true);
        if (mark != SS_MARK_NONE && v->member != NULL && v->truck != NULL) {
            ss_sketch_paragraph(&c->sketch, 0.0,
                                ss_build_text(b, "%s: %s under %s.",
                                              ss_build_text(b, "%s, \"%s\"",
                                                            mark == SS_MARK_BEST ? "Best" : "Worst", v->name),
                                              v->member, v->truck));
        }
    }
    if (c->has_share) {
        bool tips = false;
        for (int i = 0; i < c->all->variant_count; i++) tips = tips || c->all->variants[i].tips;
        ss_sketch_paragraph(
            &c->sketch, 0.0,
            ss_build_text(b,
                          "The right plot: the part of a truck's bending that one car carries "
                          "where it carries most; 1 is all of it.%s",
                          tips ? " A variant that a truck tips has none." : ""));
    }
    if (base >= 0 && c->all->rating) {
        ss_sketch_paragraph(&c->sketch, 0.0,
                            "Red line: 1.0. A factor of 1.00 or more is no permit to cross.");
    }
}

ss_status ss_figure_compare(const ss_results *results, ss_unit_system units, ss_figure *out,
                            ss_error *error) {
    compared c = {.all = results->comparison};
    ss_sketch_begin(&c.sketch, results, units, out, "compare");
    ss_sketch_heading(&c.sketch, "Variants of the bridge side by side");
    c.sizes = ss_arena_alloc(&c.sketch.report.arena, (size_t)c.all->variant_count + 1, sizeof *c.sizes);
    if (c.sizes == NULL) {
        c.sketch.words.failed = true;
        return ss_sketch_end(&c.sketch, error);
    }
    scale_all(&c);
    c.sketch.down += 1.0;
    double at = c.sketch.down + 1.0;
    for (int i = 0; i < c.all->variant_count; i++) {
        at += row_height(&c, i);
    }
    draw_axes(&c, at);
    for (int i = 0; i < c.all->variant_count; i++) {
        draw_row(&c, i);
    }
    c.sketch.down = at + 3.4 * SS_LETTERS;
    say(&c);
    out->text =
        ss_figure_keep(out, "The controlling rating factor of each variant, and the most that one car "
                            "carries of a truck.");
    return ss_sketch_end(&c.sketch, error);
}
