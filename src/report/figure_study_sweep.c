/* figure_study_sweep.c - rating, shares and what a joint carries along a sweep. */
#include <math.h>
#include <string.h>

#include "report/figure_study_panel.h"
#include "report/report_ratings.h"
#include "report/report_words.h"

/* mm: room for an upright axis, height of the lower panels, a dot */
#define AXIS_ROOM 17.0
#define LOW 32.0
#define DOT 0.9
/* A capacity beyond this many times what is carried would leave the curve flat, and is told of instead. */
#define FAR 3.0

/* ---- one panel ---------------------------------------------------------------------------------------- */

static double *values_of(ss_swept *s, double (*of)(const ss_swept *s, int which, int point), int which) {
    const int count = s->along.axis->count;
    double *const values = ss_arena_alloc(&s->sketch.report.arena, (size_t)count + 1, sizeof *values);
    s->sketch.words.failed = s->sketch.words.failed || values == NULL;
    for (int i = 0; values != NULL && i < count; i++) {
        values[i] = i < s->sweep->done && s->sweep->points[i].failure == NULL ? of(s, which, i) : (double)NAN;
    }
    return values;
}

static double rating_of(const ss_swept *s, int which, int point) {
    (void)which;
    return s->sweep->points[point].rf;
}

static double followed_of(const ss_swept *s, int which, int point) {
    const ss_dimension dimension =
        ss_followed_dimension(&s->sketch.words, &s->sweep->trials.follow.items[which]);
    return ss_units_from_si(s->sweep->points[point].followed[which], dimension, s->sketch.report.units);
}

/* ---- rating ------------------------------------------------------------------------------------------- */

static void add_flag(ss_swept *s, int point, const char *what) {
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

static void draw_flags(ss_swept *s) {
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

static void draw_rating(ss_swept *s) {
    ss_builder *const b = &s->sketch.words;
    double low = (double)INFINITY;
    double high = -(double)INFINITY;
    const ss_panel_curve rating = {values_of(s, rating_of, 0), "controlling rating", NULL};
    if (rating.value == NULL) {
        return;
    }
    ss_panel_widen(&low, &high, rating.value, s->along.axis->count);
    if (!isfinite(low)) {
        ss_sketch_paragraph(&s->sketch, 0.0, "No point of the sweep has a rating that trucks limit.");
        s->sketch.down += 4.0;
        return;
    }
    const bool one = ss_panel_near_one(low, high);
    const double least = low;
    s->decimals = high - low < SS_PANEL_SMALL ? 3 : 2;
    if (one) {
        low = fmin(low, 1.0);
        high = fmax(high, 1.0);
    }
    ss_study_round(&low, &high, SS_PANEL_SMALL, 7);
    const double top = s->sketch.down;
    s->sketch.down = top + SS_STUDY_FLAGS;
    ss_panel_place(s, low, high, SS_PANEL_TALL);
    s->limit = 1.0;
    s->limit_name = one ? "1.0" : NULL;
    ss_panel_draw(s, &rating, 1, "rating factor", &s->sweep->rating);
    s->limit_name = NULL;
    draw_flags(s);
    const double down = s->sketch.down;
    s->sketch.down = top;
    ss_study_flags(&s->sketch, s->flags, s->flag_count, SS_PAGE_MARGIN, SS_PAGE_WIDTH - SS_PAGE_MARGIN);
    s->sketch.down = down;
    if (!one) {
        ss_figure_text(s->sketch.figure, (ss_lettering){SS_FIGURE_LABEL, 1, SS_LETTERS_SMALL, false},
                       (ss_spot){s->right + 4.0, least > 1.0 ? s->y.from : s->y.to + 2.0},
                       ss_build_text(b, "%s", ss_panel_one_words(least)));
    }
}

/* ---- what is followed --------------------------------------------------------------------------------- */

static const char *truck_of(const ss_swept *s, int traffic) {
    return s->sketch.bridge->vehicles[s->sweep->trials.watch.placements.traffic[traffic].vehicle].name;
}

static void draw_shares(ss_swept *s, int traffic) {
    ss_builder *const b = &s->sketch.words;
    const ss_follow *const follow = &s->sweep->trials.follow;
    ss_panel_curve curves[SS_PANEL_CURVES];
    const ss_sweep_band *widest = NULL;
    double low = 0.0;
    double high = 0.0;
    int count = 0;
    for (int i = 0; i < follow->count && count < SS_PANEL_CURVES; i++) {
        if (follow->items[i].kind != SS_FOLLOW_SHARE || follow->items[i].traffic != traffic) {
            continue;
        }
        const ss_sweep_band *const band = &s->sweep->results[i];
        curves[count] = (ss_panel_curve){values_of(s, followed_of, i),
                                         ss_build_text(b, "car %s", follow->items[i].car), NULL};
        if (curves[count].value == NULL) {
            return;
        }
        ss_panel_widen(&low, &high, curves[count++].value, s->along.axis->count);
        if (!isnan(band->from) &&
            (widest == NULL || band->most - band->least > widest->most - widest->least)) {
            widest = band;
        }
    }
    if (count > 1) {
        ss_scale_round(&low, &high, 5);
        ss_panel_place(s, low, high, LOW);
        ss_panel_draw(s, curves, count,
                      ss_study_cut(&s->sketch, ss_build_text(b, "share of %s", truck_of(s, traffic)), LOW,
                                   SS_LETTERS_SMALL),
                      widest);
    }
}

static const ss_joint *joint_called(const ss_swept *s, const char *name) {
    const ss_bridge *const bridge = s->sketch.bridge;
    for (int i = 0; i < bridge->joint_count; i++) {
        if (strcmp(bridge->joints[i].name, name) == 0) {
            return &bridge->joints[i];
        }
    }
    return NULL;
}

/* The capacity that the description gives, in the units of the figure; NaN: it does not. */
static double capacity_of(const ss_swept *s, int result) {
    const ss_followed *const f = &s->sweep->trials.follow.items[result];
    const ss_joint *const joint = joint_called(s, f->member);
    return joint == NULL ? (double)NAN
                         : ss_units_from_si(joint->shear_capacity, ss_followed_dimension(&s->sketch.words, f),
                                            s->sketch.report.units);
}

/* What is told of the joint's strength, at the right of its curve. */
static const char *own_factor(ss_swept *s) {
    ss_builder *const b = &s->sketch.words;
    double least = (double)INFINITY;
    for (int i = 0; i < s->sweep->done; i++) {
        const double joint = s->sweep->points[i].failure == NULL ? s->sweep->points[i].joint : (double)NAN;
        least = joint < least ? joint : least;
    }
    return isfinite(least) ? ss_build_text(b, "own factor down to %s", ss_rated_factor(b, least, 2)) : NULL;
}

static void draw_joint(ss_swept *s, int traffic) {
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
    s->joint = chosen;
    if (chosen < 0) {
        return;
    }
    const ss_panel_curve shear = {values_of(s, followed_of, chosen),
                                  ss_build_text(b, "joint %s", follow->items[chosen].member), own_factor(s)};
    if (shear.value == NULL) {
        return;
    }
    ss_panel_widen(&low, &high, shear.value, s->along.axis->count);
    const double capacity = capacity_of(s, chosen);
    const bool shown = capacity <= FAR * high;
    high = shown ? fmax(high, capacity) : high;
    ss_scale_round(&low, &high, 5);
    ss_panel_place(s, low, high, LOW);
    const char *const unit =
        ss_units_name(ss_followed_dimension(b, &follow->items[chosen]), s->sketch.report.units);
    s->limit = capacity;
    s->limit_name =
        shown ? ss_build_text(b, "can carry %s",
                              ss_words_quantity(b,
                                                joint_called(s, follow->items[chosen].member)->shear_capacity,
                                                ss_followed_dimension(b, &follow->items[chosen]), 3))
              : NULL;
    ss_panel_draw(s, &shear, 1, ss_build_text(b, "shear, %s", unit), NULL);
    s->limit_name = NULL;
}

/* ---- words below -------------------------------------------------------------------------------------- */

static void say_band(ss_swept *s) {
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

/* Of the joint that is drawn: what it can carry, and whether there are others. */
static void say_joint(ss_swept *s, int traffic) {
    ss_builder *const b = &s->sketch.words;
    const ss_follow *const follow = &s->sweep->trials.follow;
    const ss_followed *const f = &follow->items[s->joint];
    const ss_joint *const joint = joint_called(s, f->member);
    const double capacity = capacity_of(s, s->joint);
    const ss_dimension dimension = ss_followed_dimension(b, f);
    const double most = ss_units_from_si(s->sweep->results[s->joint].most, dimension, s->sketch.report.units);
    int others = -1;
    for (int i = 0; i < follow->count; i++) {
        others += follow->items[i].kind == SS_FOLLOW_JOINT_SHEAR && follow->items[i].traffic == traffic &&
                  ss_swept_has_joint(b, follow->items[i].member);
    }
    if (others > 0) {
        ss_sketch_paragraph(&s->sketch, 0.0,
                            "Of the joints that are swept, the one with the largest shear is drawn.");
    }
    if (!isnan(capacity)) {
        ss_sketch_paragraph(
            &s->sketch, 0.0,
            ss_build_text(b, "Joint %s can carry %s, nominal%s.", joint->name,
                          ss_words_quantity(b, joint->shear_capacity, dimension, 3),
                          capacity <= FAR * most ? " (red line)" : ", which lies above the figure"));
    } else if (own_factor(s) == NULL) {
        ss_sketch_paragraph(
            &s->sketch, 0.0,
            ss_build_text(b, "What joint %s can carry is not known from the description.", f->member));
    }
}

static void say_followed(ss_swept *s, int traffic) {
    ss_builder *const b = &s->sketch.words;
    const ss_follow *const follow = &s->sweep->trials.follow;
    if (s->joint >= 0) {
        say_joint(s, traffic);
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

static void draw_one_axis(ss_swept *s) {
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

ss_status ss_figure_sweep(const ss_results *results, ss_unit_system units, ss_figure *out, ss_error *error) {
    ss_swept s = {.sweep = results->sweep, .joint = -1};
    ss_sketch_begin(&s.sketch, results, units, out, "sweep");
    s.left = SS_PAGE_MARGIN + AXIS_ROOM;
    s.right = SS_PAGE_WIDTH - SS_PAGE_MARGIN - SS_PANEL_NAMES;
    if (results->sweep->axis_count == 2) {
        ss_panel_map(&s);
    } else {
        draw_one_axis(&s);
    }
    out->text = ss_figure_keep(
        out, ss_build_text(&s.sketch.words, "The rating factor along the sweep of %s%s%s.",
                           ss_swept_what(&s.sketch.words, 0), results->sweep->axis_count == 2 ? " and " : "",
                           results->sweep->axis_count == 2 ? ss_swept_what(&s.sketch.words, 1) : ""));
    return ss_sketch_end(&s.sketch, error);
}
