/* figure_study_sweep.c - rating, shares and what a joint carries along a sweep; of two values, one line for
 * each of the second. */
#include <math.h>
#include <string.h>

#include "report/figure_study_along.h"
#include "report/report_ratings.h"
#include "report/report_words.h"

/* mm: room for an upright axis, for names at the right, heights of panels, between them, a dot */
#define AXIS_ROOM 17.0
#define NAME_ROOM 36.0
#define TALL 46.0
#define LOW 32.0
#define BETWEEN 5.0
#define DOT 0.9
/* A change of the rating below this looks small. */
#define SMALL 0.1
/* A capacity beyond this many times what is carried would leave the curve flat, and is told of instead. */
#define FAR 3.0

enum { CURVES = 6 };

static const ss_figure_role roles[] = {SS_FIGURE_CURVE_1, SS_FIGURE_CURVE_2, SS_FIGURE_CURVE_3,
                                       SS_FIGURE_CURVE_4};

typedef struct curve {
    double *value; /* one for each point that is done */
    const char *name, *second;
} curve;

typedef struct swept {
    ss_sketch sketch;
    const ss_sweep *sweep;
    ss_along along;
    double left, right;     /* mm: of the panels */
    double bottom;          /* mm: of all panels */
    ss_scale y;             /* of the panel at hand */
    double limit;           /* of the panel at hand, in its units */
    const char *limit_name; /* NULL: none */
    ss_flag flags[4];
    int flag_count;
    int decimals; /* of factors: more where two would not show that they change */
} swept;

/* ---- one panel ---------------------------------------------------------------------------------------- */

/* `count` curves over one upright axis, the limit if it has a name, and the band behind. */
static void draw_panel(swept *s, const curve *curves, int count, const char *title,
                       const ss_sweep_band *band) {
    ss_sketch *const sketch = &s->sketch;
    ss_pointer labels[CURVES + 1];
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
            labels[named++] =
                (ss_pointer){.at = ss_scale_at(&s->y, curves[i].value[last]),
                             .text = ss_study_cut(sketch, curves[i].name, NAME_ROOM - 4.0, SS_LETTERS_SMALL),
                             .second = curves[i].second};
        }
    }
    if (s->limit_name != NULL) {
        const double y = ss_scale_at(&s->y, s->limit);
        ss_figure_line(sketch->figure, SS_FIGURE_LIMIT, (ss_spot){s->left, y}, (ss_spot){s->right, y});
        labels[named++] = (ss_pointer){
            .at = y, .text = ss_study_cut(sketch, s->limit_name, NAME_ROOM - 4.0, SS_LETTERS_SMALL)};
    }
    ss_study_ends(sketch, labels, named, (ss_spot){s->right, s->right + 4.0}, s->y.to, s->y.from);
}

static double *values_of(swept *s, double (*of)(const swept *s, int which, int point), int which) {
    const int count = s->along.axis->count;
    double *const values = ss_arena_alloc(&s->sketch.report.arena, (size_t)count + 1, sizeof *values);
    s->sketch.words.failed = s->sketch.words.failed || values == NULL;
    for (int i = 0; values != NULL && i < count; i++) {
        values[i] = i < s->sweep->done && s->sweep->points[i].failure == NULL ? of(s, which, i) : (double)NAN;
    }
    return values;
}

static double rating_of(const swept *s, int which, int point) {
    (void)which;
    return s->sweep->points[point].rf;
}

static double followed_of(const swept *s, int which, int point) {
    const ss_dimension dimension =
        ss_followed_dimension(&s->sketch.words, &s->sweep->trials.follow.items[which]);
    return ss_units_from_si(s->sweep->points[point].followed[which], dimension, s->sketch.report.units);
}

static void widen(double *low, double *high, const double *values, int count) {
    for (int i = 0; i < count; i++) {
        if (isfinite(values[i])) {
            *low = fmin(*low, values[i]);
            *high = fmax(*high, values[i]);
        }
    }
}

static void place(swept *s, double low, double high, double height) {
    s->y = (ss_scale){low, high, s->sketch.down + height, s->sketch.down, false};
    s->sketch.down += height + BETWEEN;
    s->bottom = s->y.from;
}

/* ---- rating ------------------------------------------------------------------------------------------- */

static void add_flag(swept *s, int point, const char *what) {
    ss_builder *const b = &s->sketch.words;
    const double rf = point < 0 ? (double)NAN : s->sweep->points[point].rf;
    if (isfinite(rf)) {
        const double value = s->sweep->axis[0].value[point];
        const double x = ss_along_at(&s->along, value);
        const double y = ss_scale_at(&s->y, rf);
        const char *const where =
            s->sweep->axis[0].whole ? ss_swept_value_said(b, value) : ss_swept_said(b, 0, point);
        s->flags[s->flag_count++] =
            (ss_flag){.at = x,
                      .to = y - DOT,
                      .role = SS_FIGURE_LEADER,
                      .text = ss_build_text(b, "%s: %s", what, ss_rated_factor(b, rf, s->decimals)),
                      .second = ss_study_cut(&s->sketch, where, 44.0, SS_LETTERS_SMALL)};
        ss_figure_disc(s->sketch.figure, SS_FIGURE_DOT, (ss_spot){x, y}, DOT);
    }
}

static void draw_flags(swept *s) {
    const ss_sweep *const sweep = s->sweep;
    if (sweep->worst == sweep->described) {
        add_flag(s, sweep->worst, "worst, as described");
    } else {
        add_flag(s, sweep->worst, "worst");
        add_flag(s, sweep->described, "as described");
    }
    if (sweep->best != sweep->described && sweep->best != sweep->worst) {
        add_flag(s, sweep->best, "best");
    }
    if (sweep->joint_full > 0 && sweep->axis[0].joint && sweep->joint_full != sweep->described &&
        sweep->joint_full != sweep->worst && sweep->joint_full != sweep->best) {
        add_flag(s, sweep->joint_full, "joint full, taken out");
    }
}

/* Whether 1.0 is near enough to be on the figure: a line for it, and room. */
static bool shows_one(double low, double high) {
    const double reach = fmax(0.75 * (high - low), SMALL);
    return low - reach <= 1.0 && 1.0 <= high + reach;
}

static const char *one_words(double low) {
    return low > 1.0 ? "1.0 lies below the figure." : "1.0 lies above the figure.";
}

static void draw_rating(swept *s) {
    ss_builder *const b = &s->sketch.words;
    double low = (double)INFINITY;
    double high = -(double)INFINITY;
    const curve rating = {values_of(s, rating_of, 0), "controlling rating", NULL};
    if (rating.value == NULL) {
        return;
    }
    widen(&low, &high, rating.value, s->along.axis->count);
    if (!isfinite(low)) {
        ss_sketch_paragraph(&s->sketch, 0.0, "No point of the sweep has a rating that trucks limit.");
        return;
    }
    const bool one = shows_one(low, high);
    const double least = low;
    s->decimals = high - low < SMALL ? 3 : 2;
    if (one) {
        low = fmin(low, 1.0);
        high = fmax(high, 1.0);
    }
    ss_study_round(&low, &high, SMALL, 7);
    const double top = s->sketch.down;
    s->sketch.down = top + SS_STUDY_FLAGS;
    place(s, low, high, TALL);
    s->limit = 1.0;
    s->limit_name = one ? "1.0" : NULL;
    draw_panel(s, &rating, 1, "rating factor", &s->sweep->rating);
    s->limit_name = NULL;
    draw_flags(s);
    const double down = s->sketch.down;
    s->sketch.down = top;
    ss_study_flags(&s->sketch, s->flags, s->flag_count, SS_PAGE_MARGIN, SS_PAGE_WIDTH - SS_PAGE_MARGIN);
    s->sketch.down = down;
    if (!one) {
        ss_figure_text(s->sketch.figure, (ss_lettering){SS_FIGURE_LABEL, 1, SS_LETTERS_SMALL, false},
                       (ss_spot){s->right + 4.0, least > 1.0 ? s->y.from : s->y.to + 2.0},
                       ss_build_text(b, "%s", one_words(least)));
    }
}

/* ---- what is followed --------------------------------------------------------------------------------- */

static const char *truck_of(const swept *s, int traffic) {
    return s->sketch.bridge->vehicles[s->sweep->trials.watch.placements.traffic[traffic].vehicle].name;
}

static void draw_shares(swept *s, int traffic) {
    ss_builder *const b = &s->sketch.words;
    const ss_follow *const follow = &s->sweep->trials.follow;
    curve curves[CURVES];
    const ss_sweep_band *widest = NULL;
    double low = 0.0;
    double high = 0.0;
    int count = 0;
    for (int i = 0; i < follow->count && count < CURVES; i++) {
        if (follow->items[i].kind != SS_FOLLOW_SHARE || follow->items[i].traffic != traffic) {
            continue;
        }
        const ss_sweep_band *const band = &s->sweep->results[i];
        curves[count] =
            (curve){values_of(s, followed_of, i), ss_build_text(b, "car %s", follow->items[i].car), NULL};
        if (curves[count].value == NULL) {
            return;
        }
        widen(&low, &high, curves[count++].value, s->along.axis->count);
        if (!isnan(band->from) &&
            (widest == NULL || band->most - band->least > widest->most - widest->least)) {
            widest = band;
        }
    }
    if (count > 1) {
        ss_scale_round(&low, &high, 5);
        place(s, low, high, LOW);
        draw_panel(s, curves, count,
                   ss_study_cut(&s->sketch, ss_build_text(b, "share of %s", truck_of(s, traffic)), LOW,
                                SS_LETTERS_SMALL),
                   widest);
    }
}

static const ss_joint *joint_called(const swept *s, const char *name) {
    const ss_bridge *const bridge = s->sketch.bridge;
    for (int i = 0; i < bridge->joint_count; i++) {
        if (strcmp(bridge->joints[i].name, name) == 0) {
            return &bridge->joints[i];
        }
    }
    return NULL;
}

/* The capacity that the description gives, in the units of the figure; NaN: it does not. */
static double capacity_of(const swept *s, int result) {
    const ss_followed *const f = &s->sweep->trials.follow.items[result];
    const ss_joint *const joint = joint_called(s, f->member);
    return joint == NULL ? (double)NAN
                         : ss_units_from_si(joint->shear_capacity, ss_followed_dimension(&s->sketch.words, f),
                                            s->sketch.report.units);
}

/* What is told of the joint's strength, at the right of its curve. */
static const char *own_factor(swept *s) {
    ss_builder *const b = &s->sketch.words;
    double least = (double)INFINITY;
    for (int i = 0; i < s->sweep->done; i++) {
        const double joint = s->sweep->points[i].failure == NULL ? s->sweep->points[i].joint : (double)NAN;
        least = joint < least ? joint : least;
    }
    return isfinite(least) ? ss_build_text(b, "own factor %s at least", ss_rated_factor(b, least, 2)) : NULL;
}

static void draw_joint(swept *s, int traffic) {
    ss_builder *const b = &s->sketch.words;
    const ss_follow *const follow = &s->sweep->trials.follow;
    double low = 0.0;
    double high = 0.0;
    int chosen = -1;
    for (int i = 0; i < follow->count; i++) {
        const ss_followed *const f = &follow->items[i];
        if (f->kind == SS_FOLLOW_JOINT_SHEAR && f->traffic == traffic && ss_swept_has_joint(b, f->member) &&
            (chosen < 0 || s->sweep->results[i].most > s->sweep->results[chosen].most)) {
            chosen = i;
        }
    }
    if (chosen < 0) {
        return;
    }
    const curve shear = {values_of(s, followed_of, chosen),
                         ss_build_text(b, "joint %s", follow->items[chosen].member), own_factor(s)};
    if (shear.value == NULL) {
        return;
    }
    widen(&low, &high, shear.value, s->along.axis->count);
    const double capacity = capacity_of(s, chosen);
    const bool shown = capacity <= FAR * high;
    high = shown ? fmax(high, capacity) : high;
    ss_scale_round(&low, &high, 5);
    place(s, low, high, LOW);
    const char *const unit =
        ss_units_name(ss_followed_dimension(b, &follow->items[chosen]), s->sketch.report.units);
    s->limit = capacity;
    s->limit_name =
        shown ? ss_build_text(b, "can carry %s",
                              ss_words_quantity(b,
                                                joint_called(s, follow->items[chosen].member)->shear_capacity,
                                                ss_followed_dimension(b, &follow->items[chosen]), 3))
              : NULL;
    draw_panel(s, &shear, 1, ss_build_text(b, "shear, %s", unit), NULL);
    s->limit_name = NULL;
}

/* ---- words below -------------------------------------------------------------------------------------- */

static void say_band(swept *s) {
    ss_builder *const b = &s->sketch.words;
    const ss_sweep_band *const band = &s->sweep->rating;
    if (isnan(band->from) || !ss_swept_in_order(b) || ss_swept_all_along(b, band)) {
        return;
    }
    ss_sketch_paragraph(
        &s->sketch, 0.0,
        ss_build_text(b,
                      "Shaded: where the value changes. The rating changes between %s and %s; "
                      "outside, it stays within 5 %% of its whole change.",
                      ss_swept_value_said(b, band->from), ss_swept_value_said(b, band->to)));
}

static void say_followed(swept *s, int traffic) {
    ss_builder *const b = &s->sketch.words;
    const ss_follow *const follow = &s->sweep->trials.follow;
    for (int i = 0; i < follow->count; i++) {
        const ss_followed *const f = &follow->items[i];
        const bool joint =
            f->kind == SS_FOLLOW_JOINT_SHEAR && f->traffic == traffic && ss_swept_has_joint(b, f->member);
        const ss_joint *const its = joint ? joint_called(s, f->member) : NULL;
        if (its != NULL && !isnan(its->shear_capacity)) {
            ss_sketch_paragraph(
                &s->sketch, 0.0,
                ss_build_text(b, "Joint %s can carry %s, nominal%s.", its->name,
                              ss_words_quantity(b, its->shear_capacity, ss_followed_dimension(b, f), 3),
                              capacity_of(s, i) <= FAR * ss_units_from_si(s->sweep->results[i].most,
                                                                          ss_followed_dimension(b, f),
                                                                          s->sketch.report.units)
                                  ? " (red line)"
                                  : ", which lies above the figure"));
        }
    }
    if (follow->count > 0 && traffic >= 0) {
        ss_sketch_paragraph(&s->sketch, 0.0,
                            ss_build_text(b,
                                          "%s of one %s with the load of its lane, without factors, wherever "
                                          "it makes them largest.",
                                          s->sweep->axis[0].joint ? "Shares and shear are" : "Shares are",
                                          truck_of(s, traffic)));
    }
}

static void draw_one_axis(swept *s) {
    const int traffic = ss_swept_traffic(&s->sketch.words);
    ss_sketch_heading(&s->sketch, s->sweep->axis[0].joint ? "Rating and sharing against the joint's stiffness"
                                                          : "Rating along what is varied");
    ss_along_begin(&s->along, &s->sketch, 0, s->left, s->right);
    draw_rating(s);
    if (traffic >= 0) {
        draw_shares(s, traffic);
    }
    if (traffic >= 0 && s->sweep->axis[0].joint) {
        draw_joint(s, traffic);
    }
    if (s->bottom > 0.0) {
        ss_along_axis(&s->along, s->bottom + 1.5);
    }
    if (s->sweep->worst >= 0 && s->sweep->points[s->sweep->worst].vehicle >= 0) {
        const ss_trial *const worst = &s->sweep->points[s->sweep->worst];
        ss_sketch_paragraph(&s->sketch, 0.0,
                            ss_build_text(&s->sketch.words, "At the worst %s governs: %s.",
                                          s->sketch.bridge->vehicles[worst->vehicle].name, worst->governs));
    }
    say_band(s);
    say_followed(s, traffic);
}

/* ---- two values --------------------------------------------------------------------------------------- */

/* The row of the first axis that point `i` of the second is at. */
static double map_of(const swept *s, int column, int row) {
    const int i = row * s->sweep->axis[1].count + column;
    return i < s->sweep->done && s->sweep->points[i].failure == NULL ? s->sweep->points[i].rf : (double)NAN;
}

static void draw_map(swept *s) {
    ss_builder *const b = &s->sketch.words;
    const ss_sweep *const sweep = s->sweep;
    curve curves[CURVES];
    double low = (double)INFINITY;
    double high = -(double)INFINITY;
    const int across = sweep->axis[1].count;
    const int count = across < CURVES ? across : CURVES;
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
        widen(&low, &high, values, rows);
        curves[k] = (curve){values, ss_swept_said(b, 1, column), NULL};
    }
    if (!isfinite(low)) {
        ss_sketch_paragraph(&s->sketch, 0.0, "No point of the sweep has a rating that trucks limit.");
        return;
    }
    const bool one = shows_one(low, high);
    const double least = low;
    low = one ? fmin(low, 1.0) : low;
    high = one ? fmax(high, 1.0) : high;
    ss_study_round(&low, &high, SMALL, 7);
    s->sketch.down += 4.0;
    ss_figure_text(s->sketch.figure, (ss_lettering){SS_FIGURE_LABEL, -1, SS_LETTERS_SMALL, false},
                   (ss_spot){SS_PAGE_WIDTH - SS_PAGE_MARGIN, s->sketch.down - 1.5},
                   ss_build_text(b, "with %s", ss_swept_what(b, 1)));
    place(s, low, high, 1.6 * TALL);
    s->limit = 1.0;
    s->limit_name = one ? "1.0" : NULL;
    draw_panel(s, curves, count, "rating factor", NULL);
    ss_along_axis(&s->along, s->bottom + 1.5);
    ss_sketch_paragraph(&s->sketch, 0.0,
                        ss_build_text(b, "One line for each value of %s%s.%s%s", ss_swept_what(b, 1),
                                      count < across ? ss_build_text(b, ", %d of %d", count, across) : "",
                                      one ? "" : " ", one ? "" : one_words(least)));
}

ss_status ss_figure_sweep(const ss_results *results, ss_unit_system units, ss_figure *out, ss_error *error) {
    swept s = {.sweep = results->sweep};
    ss_sketch_begin(&s.sketch, results, units, out, "sweep");
    s.left = SS_PAGE_MARGIN + AXIS_ROOM;
    s.right = SS_PAGE_WIDTH - SS_PAGE_MARGIN - NAME_ROOM;
    if (results->sweep->axis_count == 2) {
        draw_map(&s);
    } else {
        draw_one_axis(&s);
    }
    out->text = ss_figure_keep(
        out, ss_build_text(&s.sketch.words, "The rating factor along the sweep of %s%s%s.",
                           ss_swept_what(&s.sketch.words, 0), results->sweep->axis_count == 2 ? " and " : "",
                           results->sweep->axis_count == 2 ? ss_swept_what(&s.sketch.words, 1) : ""));
    return ss_sketch_end(&s.sketch, error);
}
