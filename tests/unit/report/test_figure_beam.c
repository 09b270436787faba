/* test_figure_beam.c - influence surface and rating along a single beam, against closed forms. */
#include "sillspan/influence_grid.h"
#include "unit/report/figure_made.h"
#include "unit/studies/compare_samples.h"

/* 86 ft of 0.5 kip/ft on two-way bearings at 10 and 76 ft; the axle is heavier than EV3, which comes with
 * every rating. */
#define P (112.4 * KIP)
static const char beam[] =
    ONE_BEAM "bridge = { cars = ( { name = \"only\"; car = \"long\"; } );\n"
             "  bearings = ( { name = \"trucks\"; at = \"wheel trucks\"; under = [ \"spine\" ]; pad_width = "
             "\"60 in\"; action = \"two-way\"; } );\n"
             "  roadway = { from = \"1 ft\"; to = \"8 ft\"; }; };\n"
             "rating = { trucks = [ \"axle\" ]; condition = \"good\"; system = 1.0; };\n";

static void start_beam(made *m) {
    ss_error error = {0};
    ss_diag_list diags = {0};
    ss_description d = compare_read(beam);
    *m = (made){.posting = {.units = SS_UNITS_US}};
    CHECK_OK(ss_description_set(&d, "trucks.axle.axles", "112.4 kip", &diags), &error);
    CHECK_OK(ss_bridge_resolve(&d, &m->whole.bridge, &diags), &error);
    ss_description_destroy(&d);
    ss_diag_destroy(&diags);
    start(m);
}

/* The effect of the only line at the station that is nearest. */
static ss_effect effect_at(const made *m, double x, bool before, ss_effect_kind kind) {
    ss_effect effect;
    ss_error error = {0};
    double best = 0.0;
    for (int i = 0; i < m->whole.mesh.station_count; i++) {
        const double station = m->whole.mesh.station[i];
        best = fabs(station - x) < fabs(best - x) ? station : best;
    }
    CHECK_OK(ss_mesh_effect(&m->whole.mesh, SS_MEMBER_LINE, 0, best, before, kind, &effect, &error), &error);
    return effect;
}

/* Moment at a of a span L under a unit force at z: z (L - a) / L up to a, a (L - z) / L from there, and
 * beyond the bearings the same straight lines. */
static void test_influence_of_a_beam(void) {
    made m;
    start_beam(&m);
    const double from = 10.0 * FOOT;
    const double span = 66.0 * FOOT;
    ss_influence_grid surface;
    ss_error error = {0};
    const ss_effect moment = effect_at(&m, 43.0 * FOOT, false, SS_EFFECT_MOMENT);
    const double a = moment.at - from;
    CHECK_OK(ss_influence_grid_compute(&m.whole.permanent, &moment, &surface, &error), &error);
    CU_ASSERT_EQUAL(surface.open_count, 0);
    for (int i = 0; i < surface.nx; i++) {
        const double z = surface.x[i] - from;
        const double expected = z <= a ? z * (span - a) / span : a * (span - z) / span;
        for (int j = 0; j < surface.ny; j++) {
            CU_ASSERT_DOUBLE_EQUAL(surface.value[i * surface.ny + j], expected, 1e-9 * span);
        }
    }
    ss_influence_grid_destroy(&surface);
    /* Shear jumps from -z/L to 1 - z/L where the force passes, whichever side is asked for. */
    for (int side = 0; side < 2; side++) {
        const ss_effect shear = effect_at(&m, 43.0 * FOOT, side == 1, SS_EFFECT_SHEAR);
        CHECK_OK(ss_influence_grid_compute(&m.whole.permanent, &shear, &surface, &error), &error);
        int there = 0;
        for (int i = 0; i < surface.nx; i++) {
            const bool beyond =
                surface.x[i] > shear.at + 1e-9 || (fabs(surface.x[i] - shear.at) < 1e-9 && there++ == 1);
            const double z = surface.x[i] - from;
            CU_ASSERT_DOUBLE_EQUAL(surface.value[i * surface.ny], beyond ? 1.0 - z / span : -z / span, 1e-9);
        }
        CU_ASSERT_EQUAL(there, 2);
        ss_influence_grid_destroy(&surface);
    }
    stop(&m);
}

/* Lines of equal values are straight across, heavy where the bearings are, dashed beyond them. */
static void test_influence_drawn(void) {
    made m;
    start_beam(&m);
    ss_figure figure;
    ss_error error = {0};
    m.effect = effect_at(&m, 43.0 * FOOT, false, SS_EFFECT_MOMENT);
    m.results.influence = &m.effect;
    CHECK_OK(ss_figure_influence(&m.results, SS_UNITS_US, &figure, &error), &error);
    double low = 0.0;
    double mm = 0.0;
    for (int i = 0; i < figure.count; i++) {
        const ss_mark *const mark = &figure.marks[i];
        if (mark->role == SS_FIGURE_OUTLINE && mark->kind == SS_MARK_POLYGON) {
            low = mark->points[0].x;
            mm = (mark->points[2].x - low) / 86.0;
        }
    }
    int zeros = 0;
    for (int i = 0; i < figure.count; i++) {
        const ss_mark *const mark = &figure.marks[i];
        for (int k = 0; k < mark->count && mark->kind == SS_MARK_LINE; k++) {
            const double x = (mark->points[k].x - low) / mm;
            if (mark->role == SS_FIGURE_CONTOUR_ZERO) {
                CU_ASSERT_TRUE(fabs(x - 10.0) < 1e-6 || fabs(x - 76.0) < 1e-6);
                zeros++;
            } else if (mark->role == SS_FIGURE_CONTOUR_BELOW) {
                CU_ASSERT_TRUE(x < 10.0 || x > 76.0);
            } else if (mark->role == SS_FIGURE_CONTOUR) {
                CU_ASSERT_TRUE(x > 10.0 && x < 76.0);
            }
        }
    }
    CU_ASSERT_TRUE(zeros >= 4);
    CU_ASSERT_TRUE(marks_of(&figure, SS_FIGURE_CONTOUR, SS_MARK_LINE) > 0);
    CU_ASSERT_TRUE(marks_of(&figure, SS_FIGURE_CONTOUR_BELOW, SS_MARK_LINE) > 0);
    CU_ASSERT_EQUAL(marks_of(&figure, SS_FIGURE_PLACE, SS_MARK_LINE), 2);
    check_no_overlap("influence of one beam", &figure);
    ss_figure_destroy(&figure);
    stop(&m);
}

static void rate_beam(made *m, int *traffics) {
    ss_error error = {0};
    ss_variant *const w = &m->whole;
    CHECK_OK(ss_ratings_compute(&w->permanent, &w->placements, w->effects, w->effect_count, NULL, NULL,
                                &m->rated, &error),
             &error);
    const int governs = m->rated.items[m->rated.controlling].traffic;
    for (int i = 0; i < w->effect_count; i++) {
        traffics[i] = governs;
    }
    CHECK_OK(ss_ratings_along(&w->permanent, &w->placements, w->effects, traffics, w->effect_count, &m->along,
                              &error),
             &error);
}

/* Under one axle the live moment at a is P a (L - a) / L between the bearings, and the least factor of all
 * places is the one that a rating tells. */
static void test_rating_of_a_beam(void) {
    made m;
    start_beam(&m);
    int *const traffics = ss_alloc((size_t)m.whole.effect_count, sizeof *traffics);
    double least = (double)INFINITY;
    int places = 0;
    const double span = 66.0 * FOOT;
    rate_beam(&m, traffics);
    const ss_rating_item *const governs = &m.rated.items[m.rated.controlling];
    for (int i = 0; i < m.along.count; i++) {
        const ss_rating_item *const item = &m.along.items[i];
        CU_ASSERT_EQUAL(item->traffic, governs->traffic);
        if (item->check != governs->check) {
            continue;
        }
        least = fmin(least, item->rf);
        const double a = item->effect.at - 10.0 * FOOT;
        /* Near the bearings an axle on the overhang may be worse. */
        if (item->effect.kind == SS_EFFECT_MOMENT && item->most && a > 0.0 && a < span) {
            CHECK_CLOSE(item->live, P * a * (span - a) / span, 1e-6);
            CHECK_CLOSE(item->rf * item->live * item->factors.live * item->factors.presence *
                            (1.0 + item->factors.allowance),
                        item->capacity - item->dead, 1e-6);
            places++;
        }
    }
    CU_ASSERT_TRUE(places > 20);
    CHECK_CLOSE(least, governs->rf, 1e-9);
    ss_free(traffics);
    stop(&m);
}

/* On the log scale between 1 and 10 the heavy line's lowest point is as far up as its factor says. */
static void test_rating_drawn(void) {
    made m;
    start_beam(&m);
    int *const traffics = ss_alloc((size_t)m.whole.effect_count, sizeof *traffics);
    ss_figure figure;
    ss_error error = {0};
    rate_beam(&m, traffics);
    CHECK_OK(ss_figure_rating(&m.results, SS_UNITS_US, &figure, &error), &error);
    double one = (double)NAN;
    double top = (double)INFINITY;
    double lowest = 0.0;
    for (int i = 0; i < figure.count; i++) {
        const ss_mark *const mark = &figure.marks[i];
        one = mark->role == SS_FIGURE_LIMIT_HEAVY ? mark->points[0].y : one;
        for (int k = 0; k < mark->count && mark->role == SS_FIGURE_CURVE_1; k++) {
            lowest = fmax(lowest, mark->points[k].y);
            top = fmin(top, mark->points[k].y);
        }
    }
    double bending = (double)INFINITY;
    for (int i = 0; i < m.along.count; i++) {
        const ss_rating_item *const item = &m.along.items[i];
        bending = item->effect.kind == SS_EFFECT_MOMENT ? fmin(bending, item->rf) : bending;
    }
    /* The curve leaves the panel at 10. */
    CHECK_CLOSE((one - lowest) / (one - top), log10(bending), 1e-9);
    check_no_overlap("rating of one beam", &figure);
    ss_figure_destroy(&figure);
    ss_free(traffics);
    stop(&m);
}

static const test_case cases[] = {
    {"the influence surface of a beam is its influence line", test_influence_of_a_beam},
    {"its zero is drawn at the bearings", test_influence_drawn},
    {"factors place by place of a beam", test_rating_of_a_beam},
    {"a factor is drawn where the scale has it", test_rating_drawn},
};

int main(void) {
    return RUN_SUITE("figures of a beam", cases);
}
