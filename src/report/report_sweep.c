/* report_sweep.c - the answer of a sweep: the worst of it, where it changes, when a joint is full. */
#include <math.h>
#include <string.h>

#include "report/report_parts.h"
#include "report/report_ratings.h"
#include "report/report_sweep.h"
#include "report/report_words.h"
#include "sillspan/figure.h"

/* Less than this in a rating does not matter in the field. */
#define SMALL 0.01

static const ss_trial *point(const ss_builder *b, int i) {
    return i < 0 ? NULL : &b->results->sweep->points[i];
}

static const char *truck_of(const ss_builder *b, const ss_trial *t) {
    return t->vehicle < 0 ? "no truck" : b->results->bridge->vehicles[t->vehicle].name;
}

/* Where a point is: "with no joint", "with 0.05 kip/in per in", "with fy 30 ksi and thickness 1 in". */
static const char *where(ss_builder *b, int i) {
    const ss_sweep *const sweep = b->results->sweep;
    if (sweep->axis_count == 1) {
        return sweep->axis[0].whole ? ss_swept_value_said(b, sweep->axis[0].value[i])
                                    : ss_swept_said(b, 0, i);
    }
    return ss_build_text(b, "%s and %s", ss_swept_said(b, 0, i / sweep->axis[1].count),
                         ss_swept_said(b, 1, i % sweep->axis[1].count));
}

static bool at_an_end(const ss_sweep *sweep, int i) {
    if (sweep->axis_count == 1) {
        return i == 0 || i == sweep->count - 1;
    }
    const int row = i / sweep->axis[1].count, column = i % sweep->axis[1].count;
    return (row == 0 || row == sweep->axis[0].count - 1) &&
           (column == 0 || column == sweep->axis[1].count - 1);
}

/* ---- sentences ---------------------------------------------------------------------------------------- */

static void say_worst(ss_builder *b) {
    const ss_sweep *const sweep = b->results->sweep;
    const ss_trial *const worst = point(b, sweep->worst);
    if (worst == NULL) {
        ss_build_sentence(b, "No point of the sweep could be rated.");
    } else if (worst->vehicle < 0 || isinf(worst->rf)) {
        ss_build_sentence(b, "No truck limits the bridge anywhere along the sweep.");
    } else {
        ss_build_sentence(b, "%s rates %s at worst, with %s: %s%s.", truck_of(b, worst),
                          ss_swept_rating(b, worst->rf), where(b, sweep->worst), worst->governs,
                          worst->joint_out ? ", with the joint out" : "");
    }
}

static void say_place(ss_builder *b, ss_points *points) {
    const ss_sweep *const sweep = b->results->sweep;
    const ss_trial *const worst = point(b, sweep->worst), *const best = point(b, sweep->best),
                          *const now = point(b, sweep->described);
    if (isfinite(best->rf) && !(best->rf - worst->rf < SMALL)) {
        ss_point(b, points, "At best it is %s, with %s.", ss_swept_rating(b, best->rf),
                 where(b, sweep->best));
    }
    if (now != NULL && now->failure == NULL) {
        ss_point(b, points, "As described, with %s, it is %s.", where(b, sweep->described),
                 ss_swept_rating(b, now->rf));
    }
    if (!at_an_end(sweep, sweep->worst) && isfinite(best->rf)) {
        ss_point(b, points, "The worst lies inside the range: its ends by themselves would not show it.");
    }
}

static int rated_points(const ss_sweep *sweep) {
    int count = 0;
    for (int i = 0; i < sweep->done; i++) count += sweep->points[i].failure == NULL;
    return count;
}

/* One axis: where the rating changes. */
static void say_band(ss_builder *b, ss_points *points) {
    const ss_sweep_band *const band = &b->results->sweep->rating;
    if (b->results->sweep->axis_count == 2 || isnan(band->least)) {
        return;
    }
    if (rated_points(b->results->sweep) < 2) {
        return; /* one point is no range */
    }
    if (band->most - band->least < SMALL) {
        ss_point(b, points, "The controlling rating hardly hangs on it: %s to %s over %s.",
                 ss_words_decimals(b, ss_rated_cut(band->least, 3), 3),
                 ss_words_decimals(b, ss_rated_cut(band->most, 3), 3),
                 rated_points(b->results->sweep) < b->results->sweep->count ? "the points that could be rated"
                                                                            : "the whole range");
    } else if (!ss_swept_in_order(b)) {
        return;
    } else if (ss_swept_all_along(b, band)) {
        ss_point(b, points, "The controlling rating changes all along the range.");
    } else {
        ss_point(b, points,
                 "The controlling rating changes only between %s and %s; outside, it stays within 5 %% of "
                 "its whole change.",
                 ss_swept_value_said(b, band->from), ss_swept_value_said(b, band->to));
    }
}

/* How cars share the truck that the worst point is of. */
static void say_share(ss_builder *b, ss_points *points) {
    const ss_sweep *const sweep = b->results->sweep;
    const ss_follow *const follow = &sweep->trials.follow;
    const int traffic = ss_swept_traffic(b);
    int widest = -1;
    for (int i = 0; i < follow->count && sweep->axis_count == 1; i++) {
        const ss_sweep_band *const band = &sweep->results[i];
        if (follow->items[i].kind == SS_FOLLOW_SHARE && follow->items[i].traffic == traffic &&
            !isnan(band->from) &&
            (widest < 0 ||
             band->most - band->least > sweep->results[widest].most - sweep->results[widest].least)) {
            widest = i;
        }
    }
    if (widest >= 0 && sweep->results[widest].most - sweep->results[widest].least >= SMALL) {
        const ss_sweep_band *const band = &sweep->results[widest];
        const char *const truck =
            b->results->bridge->vehicles[sweep->trials.watch.placements.traffic[traffic].vehicle].name;
        const char *const changes =
            !ss_swept_in_order(b) ? ""
            : ss_swept_all_along(b, band)
                ? "; this share changes all along the range"
                : ss_build_text(b, "; this share changes only between %s and %s",
                                ss_swept_value_said(b, band->from), ss_swept_value_said(b, band->to));
        ss_point(b, points, "Car %s keeps %s to %s of %s where that loads it most%s.",
                 follow->items[widest].car, ss_words_decimals(b, band->least, 2),
                 ss_words_decimals(b, band->most, 2), truck, changes);
    }
}

/* Points at which a joint is full before the members. */
static int count_full(const ss_sweep *sweep) {
    int count = 0;
    for (int i = 0; i < sweep->done; i++) count += sweep->points[i].joint_out;
    return count;
}

static void say_full(ss_builder *b, ss_points *points) {
    const ss_sweep *const sweep = b->results->sweep;
    const int full = count_full(sweep);
    if (full == 0) {
        return;
    }
    bool onward = sweep->axis_count == 1 && sweep->axis[0].joint;
    for (int i = sweep->joint_full; i < sweep->done; i++) onward = onward && sweep->points[i].joint_out;
    if (full == sweep->done) {
        ss_point(b, points,
                 "A joint would be full before the members at every point: all these ratings are with that "
                 "joint out.");
    } else if (onward) {
        ss_point(b, points,
                 "From %s on a joint would be full before the members: there the rating is that with the "
                 "joint out.",
                 where(b, sweep->joint_full));
    } else {
        ss_point(b, points,
                 "At %d of %d points, the first with %s, a joint would be full before the members: there the "
                 "rating is that with the joint out.",
                 full, sweep->done, where(b, sweep->joint_full));
    }
}

static void say_joint(ss_builder *b, ss_points *points) {
    const ss_sweep *const sweep = b->results->sweep;
    say_full(b, points);
    if (sweep->axis[0].joint && sweep->axis_count == 1) {
        ss_point(b, points,
                 "The joint is taken to be alike all along and to stay whole; what slips, cracks or gives in "
                 "places only is not in this curve.");
    }
}

/* A joint that its parts were given of is estimated where the curve can be entered. */
static void say_estimate(ss_builder *b, ss_points *points) {
    const ss_bridge *const bridge = b->results->bridge;
    for (int i = 0; i < bridge->joint_count && b->results->sweep->axis[0].joint; i++) {
        const ss_joint *const joint = &bridge->joints[i];
        if (joint->kind == SS_JOINT_SPRINGS && joint->estimated != SS_DETAIL_NONE &&
            ss_swept_has_joint(b, joint->name)) {
            ss_point(b, points,
                     "From its parts joint %s, as described, is estimated at %s; welds, bolts and what they "
                     "sit on give too, so "
                     "that a real one is softer.",
                     joint->name,
                     ss_words_quantity(b, joint->shear,
                                       joint->connector_count > 0 ? SS_DIM_SPRING : SS_DIM_SPRING_PER_LENGTH,
                                       2));
        }
    }
}

static void say_failures(ss_builder *b, ss_points *points) {
    const ss_sweep *const sweep = b->results->sweep;
    int failed = 0, first = -1;
    for (int i = 0; i < sweep->done; i++) {
        failed += sweep->points[i].failure != NULL;
        first = sweep->points[i].failure != NULL && first < 0 ? i : first;
    }
    if (failed > 0) {
        ss_point(b, points, "%d of %d points have no rating; the first, with %s: %s.", failed, sweep->done,
                 where(b, first), sweep->points[first].failure);
    }
    if (sweep->done < sweep->count) {
        ss_point(b, points, "The sweep was stopped after %d of %d points: this is what it had.", sweep->done,
                 sweep->count);
    }
}

static void say_sure(ss_builder *b) {
    const ss_sweep *const sweep = b->results->sweep;
    ss_points points = {.count = 0};
    ss_study_heading(b, "Sweep", "How sure");
    if (sweep->trials.options.full || sweep->check_count >= sweep->done) {
        ss_point(b, &points, "All %d points were searched in full, every place of every truck.", sweep->done);
    } else {
        ss_point(b, &points,
                 "%d of %d points were searched in full, every place of every truck. All others are rated at "
                 "the places where trucks were found to govern there: exact for those, and a place that "
                 "governs nowhere else is not seen.",
                 sweep->check_count, sweep->count);
    }
    for (int i = 0; i < sweep->check_count && sweep->worst >= 0 && !sweep->trials.options.full; i++) {
        const ss_sweep_check *const check = &sweep->checks[i];
        if (check->point == sweep->worst && isfinite(check->searched)) {
            ss_point(b, &points,
                     "The worst point was searched in full too: %s there, %s at the places watched; the "
                     "smaller counts.",
                     ss_words_decimals(b, check->searched, 4),
                     ss_words_decimals(b, sweep->points[sweep->worst].rf, 4));
        }
    }
    if (sweep->closed) {
        ss_point(b, &points,
                 "All points come out of one factorisation; gaps, bearings placed later and the bearings' "
                 "contact are solved anew at each.");
    }
    ss_build_points(b, &points);
}

void ss_part_sweep(ss_builder *b) {
    ss_points points = {.count = 0};
    ss_study_heading(b, "Sweep", "The answer");
    say_worst(b);
    if (b->results->sweep->worst >= 0) {
        say_place(b, &points);
        say_band(b, &points);
        say_share(b, &points);
        say_joint(b, &points);
        say_estimate(b, &points);
    }
    say_failures(b, &points);
    ss_build_points(b, &points);
    ss_study_figure(b, ss_figure_sweep);
    ss_part_sweep_tables(b);
    say_sure(b);
    ss_part_sweep_programs(b);
}
