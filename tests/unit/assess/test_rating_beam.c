/* test_rating_beam.c - ratings of one girder on two supports against closed forms. */
#include "rated_bridge.h"

#define WEIGHT 0.6 /* kip/ft */

/* HS20-44: axle loads in kip, 14 ft apart. */
static const double hs20[3] = {8.0, 32.0, 32.0};

/* Largest moment (kip-ft) of HS20-44 at x of a simple span of L ft: an influence line of two straight parts
 * has its extreme with an axle at x. */
static double truck_moment(double L, double x) {
    double most = 0.0;
    for (int facing = -1; facing <= 1; facing += 2) {
        for (int at = 0; at < 3; at++) {
            double moment = 0.0;
            for (int i = 0; i < 3; i++) {
                const double s = x + 14.0 * (at - i) * facing;
                if (s > 0.0 && s < L) {
                    moment += hs20[i] * (s < x ? s * (L - x) : x * (L - s)) / L;
                }
            }
            most = fmax(most, moment);
        }
    }
    return most;
}

static void simple_span(rated_bridge *r, double length) {
    rated_single(r, length, WEIGHT);
    rated_bearing(r, 0, 0.0, 1.0)->contact = false;
    rated_bearing(r, 0, length, 1.0)->contact = false;
    rated_truck(r, "HS20-44");
}

/* One effect of the only line, at a station, in place of all. */
static void only(rated_bridge *r, ss_effect_kind kind, double x, bool before) {
    ss_error error = {0};
    CHECK_OK(ss_mesh_effect(&r->mesh, SS_MEMBER_LINE, 0, x * FOOT, before, kind, &r->effects[0], &error),
             &error);
    r->effect_count = 1;
}

static void mark(rated_bridge *r, double x) {
    r->bridge.probes[r->bridge.probe_count++] =
        (ss_probe){.name = "mark", .member = SS_MEMBER_LINE, .at = x * FOOT, .effect = SS_EFFECT_MOMENT};
}

/*
 * 60 ft, HS20-44: largest moment 72 / 60 (30 - 7 / 3)^2 - 112 = 806.53 kip-ft under the middle axle 7/3 ft
 * off midspan (AASHTO Standard Specifications, appendix A: 806.5), largest end shear 60.8 kip (60.8 there).
 */
static void test_simple_span_section(void) {
    rated_bridge r;
    ss_ratings result = {0};
    const double x = 30.0 - 7.0 / 3.0;
    simple_span(&r, 60.0);
    mark(&r, x);
    rated_build(&r);
    only(&r, SS_EFFECT_MOMENT, x, true);
    rated_rate(&r, &result);
    CU_ASSERT_EQUAL_FATAL(result.count, 1);
    const ss_rating_item *const one = &result.items[0];
    const double C = 0.95 * 0.90 * 36.0 * 544.0 / 12.0;
    const double D = 0.5 * WEIGHT * x * (60.0 - x);
    const double live = 1.2 * pow(30.0 - 7.0 / 3.0, 2.0) - 112.0;
    CU_ASSERT_DOUBLE_EQUAL(live, 806.53, 0.005);
    CHECK_CLOSE(one->rf, (C - 1.25 * D) / (1.30 * 1.20 * live), 1e-9);
    CHECK_CLOSE(one->rf_linear, one->rf, 1e-12);
    CHECK_CLOSE(one->capacity / KIP_FOOT, C, 1e-12);
    CHECK_CLOSE(one->dead / KIP_FOOT, 1.25 * D, 1e-9);
    CHECK_CLOSE(one->live / KIP_FOOT, live, 1e-9);
    CU_ASSERT(!one->local && one->truck_count == 1 && one->factors.presence == 1.0);
    CHECK_CLOSE(one->tons, 36.0 * one->rf, 1e-12);
    CU_ASSERT(one->most && !one->tips && !one->minimum_dead);
    CU_ASSERT_EQUAL(result.controlling, 0);
    CU_ASSERT_EQUAL(ss_ratings_governing(&result, 0, 0), 0);
    ss_ratings_destroy(&result);
    rated_destroy(&r);
}

static void test_simple_span_governing(void) {
    rated_bridge r;
    ss_ratings result = {0};
    simple_span(&r, 60.0);
    rated_build(&r);
    rated_rate(&r, &result);
    CU_ASSERT_EQUAL_FATAL(result.count, 2);
    const double C = 0.95 * 0.90 * 36.0 * 544.0 / 12.0;
    double least = (double)INFINITY;
    for (int i = 0; i < r.mesh.station_count; i++) {
        const double x = r.mesh.station[i] / FOOT;
        const double live = truck_moment(60.0, x);
        const double left = C - 1.25 * 0.5 * WEIGHT * x * (60.0 - x);
        least = fmin(least, live > 0.0 ? left / (1.56 * live) : (double)INFINITY);
    }
    CHECK_CLOSE(result.items[0].rf, least, 1e-9);
    CU_ASSERT_EQUAL(result.items[0].effect.kind, SS_EFFECT_MOMENT);
    /* Web shear: 0.58 Fy A_w, condition without the system factor; the web's slenderness is not known, and
     * that is said. */
    const double V = 0.95 * 0.58 * 36.0 * 16.0;
    CHECK_CLOSE(result.items[1].rf, (V - 1.25 * WEIGHT * 30.0) / (1.56 * 60.8), 1e-6);
    CU_ASSERT_EQUAL_FATAL(result.note_count, 2);
    CU_ASSERT_PTR_NOT_NULL(strstr(result.notes[0], "without a check of buckling"));
    CU_ASSERT_PTR_NOT_NULL(strstr(result.notes[1], "slenderness"));
    CU_ASSERT_PTR_NOT_NULL(strstr(result.notes[1], "sill of car lone"));
    CU_ASSERT_EQUAL(result.controlling, result.items[0].rf < result.items[1].rf ? 0 : 1);
    ss_ratings_destroy(&result);
    rated_destroy(&r);
}

static void test_all_factors_one(void) {
    rated_bridge r;
    ss_ratings result = {0};
    simple_span(&r, 60.0);
    ss_rating_settings *const set = &r.bridge.rating;
    set->condition = set->system = set->live_factor = set->dc_factor = set->dw_factor = 1.0;
    set->dynamic_allowance = 0.0;
    r.bridge.self_weight = false;
    mark(&r, 23.7);
    rated_build(&r);
    only(&r, SS_EFFECT_MOMENT, 23.7, false);
    rated_rate(&r, &result);
    CHECK_CLOSE(result.items[0].rf, 36.0 * 544.0 / 12.0 / truck_moment(60.0, 23.7), 1e-9);
    CU_ASSERT_EQUAL(result.items[0].dead, 0.0);
    ss_ratings_destroy(&result);
    rated_destroy(&r);
}

/* Supports at 10 and 50 ft that hold both ways. Over the support an axle at the tip hogs: 320 kip-ft. At 15
 * ft it hogs 280 while dead load sags: its smallest factor counts. */
static void test_overhang(void) {
    rated_bridge r;
    ss_ratings result = {0};
    rated_single(&r, 60.0, 0.3);
    rated_bearing(&r, 0, 10.0, 1.0)->contact = false;
    rated_bearing(&r, 0, 50.0, 1.0)->contact = false;
    rated_truck(&r, "HS20-44");
    mark(&r, 15.0);
    rated_build(&r);
    const double C = 0.95 * 0.90 * 36.0 * 544.0 / 12.0;
    const double k = 1.30 * 1.33;
    only(&r, SS_EFFECT_MOMENT, 10.0, true);
    rated_rate(&r, &result);
    CU_ASSERT(!result.items[0].most && !result.items[0].minimum_dead);
    CHECK_CLOSE(result.items[0].rf, (C - 1.25 * 0.3 * 50.0) / (k * 320.0), 1e-9);
    CHECK_CLOSE(result.items[0].capacity / KIP_FOOT, -C, 1e-12);
    ss_ratings_destroy(&result);
    only(&r, SS_EFFECT_MOMENT, 15.0, true);
    rated_rate(&r, &result);
    CU_ASSERT(!result.items[0].most && result.items[0].minimum_dead);
    CU_ASSERT(result.items[0].factors.dc == 0.90 && result.items[0].factors.dw == 0.65);
    CHECK_CLOSE(result.items[0].rf, (C + 0.90 * 0.3 * 37.5) / (k * 280.0), 1e-9);
    ss_ratings_destroy(&result);
    rated_destroy(&r);
}

/* 12 kip/ft bend the girder beyond its capacity before any truck comes. */
static void test_dead_load_alone_is_too_much(void) {
    rated_bridge r;
    ss_ratings result = {0};
    rated_single(&r, 60.0, 12.0);
    rated_bearing(&r, 0, 0.0, 1.0)->contact = false;
    rated_bearing(&r, 0, 60.0, 1.0)->contact = false;
    rated_truck(&r, "Type 3");
    rated_build(&r);
    rated_rate(&r, &result);
    CU_ASSERT_EQUAL(result.items[0].rf, 0.0);
    CU_ASSERT_EQUAL(result.items[0].rf_linear, 0.0);
    CU_ASSERT_EQUAL(result.items[0].tons, 0.0);
    CU_ASSERT(result.items[0].dead > result.items[0].capacity);
    ss_ratings_destroy(&result);
    rated_destroy(&r);
}

/* A car that stands loose on 10 and 50 ft. Trucks tip it at 0.9 dead load, each at its own multiple m: an
 * axle of 32 kip at the tip at 32 x 10 m = 0.9 x 0.2 x 60 x 20, two of 31 kip with the third still off the
 * bridge at 31 x (10 + 6) m. */
static void test_tipping_rates(void) {
    rated_bridge r;
    ss_ratings result = {0};
    rated_single(&r, 60.0, 0.2);
    rated_bearing(&r, 0, 10.0, 1.0);
    rated_bearing(&r, 0, 50.0, 1.0);
    rated_truck(&r, "HS20-44");
    rated_truck(&r, "EV3");
    rated_build(&r);
    rated_rate(&r, &result);
    CU_ASSERT_EQUAL_FATAL(result.count, 4);
    for (int i = 0; i < 4; i++) {
        const double multiple = result.items[i].traffic == 0 ? 0.675 : 216.0 / 496.0;
        CU_ASSERT(result.items[i].tips && result.items[i].minimum_dead);
        CHECK_CLOSE(result.items[i].rf, multiple / (1.30 * 1.33), 1e-6);
    }
    ss_ratings_destroy(&result);
    rated_destroy(&r);
}

static void test_what_is_not_rated_is_said(void) {
    rated_bridge r;
    ss_ratings result = {0};
    simple_span(&r, 60.0);
    r.bridge.sections[0].set_S_top = (double)NAN;
    r.bridge.sections[0].set_shear_area = (double)NAN;
    rated_build(&r);
    rated_rate(&r, &result);
    CU_ASSERT_EQUAL(result.count, 0);
    CU_ASSERT_EQUAL(result.controlling, -1);
    CU_ASSERT_EQUAL(ss_ratings_governing(&result, 0, 0), -1);
    CU_ASSERT_EQUAL_FATAL(result.note_count, 2);
    CU_ASSERT_STRING_EQUAL(
        result.notes[0],
        "section sill is not rated in bending: its elastic section moduli are not known (sill of car lone)");
    CU_ASSERT_STRING_EQUAL(
        result.notes[1],
        "section sill is not rated in web shear: its web area is not known (sill of car lone)");
    ss_ratings_destroy(&result);
    rated_destroy(&r);
    simple_span(&r, 60.0);
    r.bridge.roadway_right = 5.0 * FOOT;
    rated_build(&r);
    rated_rate(&r, &result);
    CU_ASSERT_EQUAL(result.count, 0);
    CU_ASSERT_EQUAL(result.traffic_count, 1);
    CU_ASSERT_STRING_EQUAL(result.notes[result.note_count - 1],
                           "HS20-44 is not rated: the roadway has no room for it");
    ss_ratings_destroy(&result);
    rated_destroy(&r);
}

static void test_refused_without_condition_or_system(void) {
    rated_bridge r;
    ss_ratings result = {0};
    ss_error error = {0};
    simple_span(&r, 60.0);
    rated_build(&r);
    r.bridge.rating.system = (double)NAN;
    CU_ASSERT_EQUAL(ss_ratings_compute(&r.permanent, &r.placements, r.effects, r.effect_count, NULL, NULL,
                                       &result, &error),
                    SS_ERROR_DESCRIPTION);
    CU_ASSERT_PTR_NOT_NULL(strstr(error.message, "rating.system"));
    CU_ASSERT_PTR_NULL(result.items);
    r.bridge.rating.condition = (double)NAN;
    CU_ASSERT_EQUAL(
        ss_ratings_compute(&r.permanent, &r.placements, r.effects, r.effect_count, NULL, NULL, &result, NULL),
        SS_ERROR_DESCRIPTION);
    rated_destroy(&r);
}

int main(void) {
    static const test_case cases[] = {{"simple span, one section", test_simple_span_section},
                                      {"simple span, governing", test_simple_span_governing},
                                      {"all factors one", test_all_factors_one},
                                      {"overhang", test_overhang},
                                      {"dead load alone", test_dead_load_alone_is_too_much},
                                      {"tipping", test_tipping_rates},
                                      {"what is not rated", test_what_is_not_rated_is_said},
                                      {"refused", test_refused_without_condition_or_system}};
    return RUN_SUITE("rating of a beam", cases);
}
