/* test_ratings_lane.c - ratings of loads with a uniform load in the lane: closed forms, and states solved one
 * by one where bearings lift. */
#include "rated_bridge.h"
#include "sillspan/memory.h"

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

/* Bearings that hold both ways, and a section without shear deformation. */
static void beam(rated_bridge *r, double length, double weight, const double *bearing, int count) {
    rated_single(r, length, weight);
    r->bridge.sections[0].set_shear_area = 0.0;
    for (int i = 0; i < count; i++) rated_bearing(r, 0, bearing[i], 1.0)->contact = false;
}

static const ss_rating_item *at_level(const ss_ratings *result, ss_level level) {
    for (int i = 0; i < result->count; i++) {
        if (result->checks[result->items[i].check].level == level &&
            result->checks[result->items[i].check].limit == SS_LIMIT_STRENGTH) {
            return &result->items[i];
        }
    }
    CU_FAIL_FATAL("no such level");
    return NULL;
}

/* A truck of the user's own with one axle. */
static void own_truck(rated_bridge *r, double kip, double kip_per_foot) {
    r->bridge.vehicles[r->bridge.vehicle_count++] = (ss_vehicle){.name = "one axle",
                                                                 .source = "own",
                                                                 .kind = SS_VEHICLE_USER,
                                                                 .axle_count = 1,
                                                                 .axle_N = {kip * KIP},
                                                                 .gauge_m = 6.0 * FOOT,
                                                                 .lane_N_m = kip_per_foot * KIP / FOOT};
    r->bridge.rated_vehicle_count = r->bridge.vehicle_count;
}

/*
 * 65 ft, HL-93 at midspan: 890 kip-ft of the truck with 33 %, and 338 of the lane load without, 1521.7
 * together (AASHTO Manual for Bridge Evaluation, example A1; from memory).
 */
static void test_simple_span(void) {
    static const double bearing[2] = {0.0, 65.0};
    rated_bridge r;
    ss_ratings result = {0};
    beam(&r, 65.0, 0.5, bearing, 2);
    rated_truck(&r, "HL-93");
    mark(&r, 32.5);
    rated_build(&r);
    only(&r, SS_EFFECT_MOMENT, 32.5, true);
    rated_rate(&r, &result);
    const ss_rating_item *const one = at_level(&result, SS_LEVEL_INVENTORY);
    const double D = 0.5 * 65.0 * 65.0 / 8.0, C = 0.95 * 0.90 * 36.0 * 544.0 / 12.0;
    CHECK_CLOSE(one->rf, (C - 1.25 * D) / (1.75 * 1521.7), 1e-9);
    CHECK_CLOSE(one->lane_live / KIP_FOOT, 338.0, 1e-9);
    CHECK_CLOSE(one->lane_share, 1.0 / 1.33, 1e-12);
    CHECK_CLOSE(one->live / KIP_FOOT * 1.33, 1521.7, 1e-9);
    CU_ASSERT_EQUAL_FATAL(one->lane_count, 1);
    CU_ASSERT_EQUAL(one->lane[0].truck, 0);
    CU_ASSERT_DOUBLE_EQUAL(one->lane[0].from, 0.0, 1e-9);
    CU_ASSERT_DOUBLE_EQUAL(one->lane[0].to, 65.0 * FOOT, 1e-9);
    ss_ratings_destroy(&result);
    rated_destroy(&r);
}

/* Two of them abreast on a line that carries all: twice as much. */
static void test_abreast(void) {
    static ss_crossing beside[1] = {{.kind = SS_CROSSING_BESIDE, .lanes = 2}};
    rated_bridge r;
    ss_ratings result = {0};
    rated_start(&r);
    const int section = rated_given(&r, "sill", 7116.0, 900.0, 544.0, 0.0, 0.5);
    rated_car(&r, "wide", 65.0, 0.0, 24.0);
    rated_line(&r, "sill", SS_ROLE_MAIN, 12.0, section);
    r.bridge.roadway_right = 24.0 * FOOT;
    rated_bearing(&r, 0, 0.0, 3.0)->contact = false;
    rated_bearing(&r, 0, 65.0, 3.0)->contact = false;
    rated_truck(&r, "HL-93");
    r.bridge.lanes = (ss_lane_rule){.count = 2,
                                    .width = 12.0 * FOOT,
                                    .between_wheels = 4.0 * FOOT,
                                    .loaded_width = 10.0 * FOOT,
                                    .wheel_to_curb = 2.0 * FOOT};
    r.bridge.crossings = beside;
    r.bridge.crossing_count = 1;
    mark(&r, 32.5);
    rated_build(&r);
    only(&r, SS_EFFECT_MOMENT, 32.5, true);
    rated_rate(&r, &result);
    const ss_rating_item *const one = at_level(&result, SS_LEVEL_INVENTORY);
    const double D = 0.5 * 65.0 * 65.0 / 8.0, C = 0.95 * 0.90 * 36.0 * 544.0 / 12.0;
    CU_ASSERT_EQUAL_FATAL(one->truck_count, 2);
    CHECK_CLOSE(one->rf, (C - 1.25 * D) / (1.75 * 2.0 * 1521.7), 1e-9);
    CHECK_CLOSE(one->lane_live / KIP_FOOT, 2.0 * 338.0, 1e-9);
    CU_ASSERT_EQUAL_FATAL(one->lane_count, 2);
    CU_ASSERT(one->lane[0].truck == 0 && one->lane[1].truck == 1);
    ss_ratings_destroy(&result);
    rated_destroy(&r);
}

/* 160 ft: the HS20 lane load, 0.64 kip/ft with 18 kip in bending and 26 kip in shear (AASHTO Standard
 * Specifications, 3.7), is worse than the truck's 2600 kip-ft and 67.8 kip; the allowance is on all of it. */
static void test_old_lane_load(void) {
    static const double bearing[2] = {0.0, 160.0};
    rated_bridge r;
    ss_ratings result = {0};
    beam(&r, 160.0, 0.2, bearing, 2);
    r.bridge.sections[0].set_shear_area = 16.0 * INCH2;
    rated_truck(&r, "HS20-44");
    mark(&r, 80.0);
    rated_build(&r);
    only(&r, SS_EFFECT_MOMENT, 80.0, true);
    rated_rate(&r, &result);
    CHECK_CLOSE(result.items[0].live / KIP_FOOT, 0.64 * 160.0 * 160.0 / 8.0 + 18.0 * 160.0 / 4.0, 1e-9);
    CHECK_CLOSE(result.items[0].lane_live / KIP_FOOT, 0.64 * 160.0 * 160.0 / 8.0, 1e-9);
    CU_ASSERT_EQUAL(result.items[0].lane_share, 1.0);
    ss_ratings_destroy(&result);
    only(&r, SS_EFFECT_WEB_PLUS, 0.0, false);
    rated_rate(&r, &result);
    CHECK_CLOSE(result.items[0].live / KIP, 0.64 * 80.0 + 26.0, 1e-6);
    ss_ratings_destroy(&result);
    rated_destroy(&r);
}

/* Where the lane load lies. */
static void check_lies(const ss_rating_item *one, double from, double to) {
    CU_ASSERT_EQUAL_FATAL(one->lane_count, 1);
    CU_ASSERT_DOUBLE_EQUAL(one->lane[0].from, from * FOOT, 1e-6);
    CU_ASSERT_DOUBLE_EQUAL(one->lane[0].to, to * FOOT, 1e-6);
}

/* Two spans of 90 ft: over the middle the load of both spans hogs by w L^2 / 8 and an axle by P L / (6 sqrt
 * 3); at 0.4 L only the load of the own span sags, 0.095 w L^2, and an axle there 0.2064 P L. */
static void test_two_spans(void) {
    static const double bearing[3] = {0.0, 90.0, 180.0};
    const double L = 90.0, w = 0.53, P = 21.7, axle = P * L / (6.0 * sqrt(3.0));
    rated_bridge r;
    ss_ratings result = {0};
    beam(&r, 180.0, 0.2, bearing, 3);
    own_truck(&r, P, w);
    mark(&r, 36.0);
    rated_build(&r);
    const double share = 1.0 / 1.20;
    only(&r, SS_EFFECT_MOMENT, 90.0, true);
    rated_rate(&r, &result);
    CU_ASSERT(!result.items[0].most);
    CHECK_CLOSE(result.items[0].lane_share, share, 1e-12);
    CHECK_CLOSE(-result.items[0].live / KIP_FOOT, share * w * L * L / 8.0 + axle, 1e-6);
    check_lies(&result.items[0], 0.0, 180.0);
    ss_ratings_destroy(&result);
    only(&r, SS_EFFECT_MOMENT, 36.0, true);
    rated_rate(&r, &result);
    CU_ASSERT(result.items[0].most);
    CHECK_CLOSE(result.items[0].live / KIP_FOOT, share * 0.095 * w * L * L + 0.2064 * P * L, 1e-9);
    CHECK_CLOSE(result.items[0].lane_live / KIP_FOOT, 0.095 * w * L * L, 1e-9);
    check_lies(&result.items[0], 0.0, 90.0);
    ss_ratings_destroy(&result);
    rated_destroy(&r);
}

/* The same with a load for hogging alone: it is not tried for sagging. */
static void test_use(void) {
    static const double bearing[3] = {0.0, 90.0, 180.0};
    rated_bridge r;
    ss_ratings result = {0};
    beam(&r, 180.0, 0.2, bearing, 3);
    own_truck(&r, 21.7, 0.53);
    r.bridge.vehicles[0].use = SS_USE_HOGGING;
    mark(&r, 36.0);
    rated_build(&r);
    only(&r, SS_EFFECT_MOMENT, 36.0, true);
    rated_rate(&r, &result);
    /* The other span alone: a fortieth of w L^2, and 0.4 of the axle's moment over the middle. */
    CU_ASSERT(!result.items[0].most);
    CHECK_CLOSE(-result.items[0].live / KIP_FOOT,
                0.53 * 8100.0 / 40.0 / 1.20 + 0.4 * 21.7 * 90.0 / (6.0 * sqrt(3.0)), 1e-6);
    check_lies(&result.items[0], 90.0, 180.0);
    ss_ratings_destroy(&result);
    rated_destroy(&r);
}

/* ---- bearings that lift ------------------------------------------------------------------------- */

/* Effect of dead load and a multiple of the truck with `share` of its lane load over stretches. */
static double effect_with(const rated_bridge *r, const ss_rating_item *one, const ss_position *position,
                          const ss_lane_stretch *stretch, int count, double multiple) {
    ss_error error = {0};
    ss_load load = {0};
    ss_state state = {0};
    double value = (double)NAN;
    CHECK_OK(ss_placements_load(&r->mesh, &r->placements, position, &load, &error), &error);
    for (int i = 0; i < count; i++) {
        CHECK_OK(ss_placements_load_lane(&r->placements, position->track, &stretch[i], one->lane_share, &load,
                                         &error),
                 &error);
    }
    const ss_dead_factors dead = {one->factors.dc, one->factors.dw};
    const ss_status status = ss_permanent_state(&r->permanent, true, dead, &load, multiple, &state, &error);
    if (status != SS_ERROR_TIPPING) {
        check_ok("state", status, &error);
        value = ss_state_effect(&r->mesh, &state, &one->effect);
    }
    ss_state_destroy(&state);
    ss_load_destroy(&load);
    return value;
}

/* A car of 86 ft on four loose bearings: load between the inner two lifts the ends. */
static void loose_car(rated_bridge *r) {
    rated_single(r, 86.0, 0.6);
    rated_bearing(r, 0, 0.0, 3.0);
    rated_bearing(r, 0, 25.0, 3.0);
    rated_bearing(r, 0, 61.0, 3.0);
    rated_bearing(r, 0, 86.0, 3.0);
    r->bridge.sections[0].set_S_top = r->bridge.sections[0].set_S_bottom = 230.0 * INCH3;
    own_truck(r, 32.0, 0.64);
}

static void test_lifting(void) {
    static const ss_lane_stretch span[3] = {
        {0, 0.0, 25.0 * FOOT}, {0, 25.0 * FOOT, 61.0 * FOOT}, {0, 61.0 * FOOT, 86.0 * FOOT}};
    rated_bridge r;
    ss_ratings result = {0};
    int finite = 0;
    loose_car(&r);
    rated_build(&r);
    rated_rate(&r, &result);
    for (int i = 0; i < result.count; i++) {
        const ss_rating_item *const one = &result.items[i];
        if (!isfinite(one->rf) || one->rf == 0.0 || one->tips) {
            continue;
        }
        const double multiple = one->rf * rated_multiplier(one);
        const double effect = effect_with(&r, one, &one->position[0], one->lane, one->lane_count, multiple);
        CU_ASSERT_DOUBLE_EQUAL(effect, one->capacity, 1e-8 * (fabs(one->capacity) + fabs(one->dead)));
        CU_ASSERT(one->lane_count > 0 && one->lane_live * (one->most ? 1.0 : -1.0) > 0.0);
        finite++;
    }
    CU_ASSERT(finite > 0);
    /* No place of the truck with the load on any of the spans is worse. */
    const ss_rating_item *const one = rated_governing(&result, 0);
    const double multiple = one->rf * rated_multiplier(one);
    double nearest = 0.0;
    CU_ASSERT(one->rf_linear > 1.1 * one->rf);
    for (int track = 0; track < r.placements.traffic[0].track_count; track++) {
        for (double x = 20.0; x < 66.0; x += 1.0) {
            for (int mask = 0; mask < 8; mask++) {
                ss_lane_stretch loaded[3];
                int count = 0;
                for (int k = 0; k < 3; k++) {
                    if ((mask >> k & 1) != 0) {
                        loaded[count++] = span[k];
                    }
                }
                const ss_position position = {
                    .track = r.placements.traffic[0].first_track + track, .x = x * FOOT, .on_beam = false};
                const double effect = effect_with(&r, one, &position, loaded, count, multiple);
                nearest = fmax(nearest, effect / one->capacity);
            }
        }
    }
    CU_ASSERT(nearest <= 1.0 + 1e-6);
    CU_ASSERT(nearest > 0.9);
    ss_ratings_destroy(&result);
    rated_destroy(&r);
}

/* A car loose on 10 and 50 of 60 ft: an axle P at the tip and w over the overhang tip it at the multiple m
 * with (10 P + 50 w) m = 0.9 x 0.2 x 60 x 20. */
static void test_tipping(void) {
    rated_bridge r;
    ss_ratings result = {0};
    rated_single(&r, 60.0, 0.2);
    rated_bearing(&r, 0, 10.0, 1.0);
    rated_bearing(&r, 0, 50.0, 1.0);
    own_truck(&r, 30.0, 1.3);
    mark(&r, 10.0);
    rated_build(&r);
    only(&r, SS_EFFECT_MOMENT, 10.0, true);
    rated_rate(&r, &result);
    const ss_rating_item *const one = &result.items[0];
    CU_ASSERT(one->tips);
    CHECK_CLOSE(one->rf * rated_multiplier(one),
                0.9 * 0.2 * 60.0 * 20.0 / (300.0 + 65.0 / (1.0 + one->factors.allowance)), 1e-6);
    ss_ratings_destroy(&result);
    rated_destroy(&r);
}

static void test_memory(void) {
    rated_bridge r;
    loose_car(&r);
    mark(&r, 43.0);
    rated_build(&r);
    only(&r, SS_EFFECT_MOMENT, 43.0, true);
    const long before = ss_memory_live();
    ss_status status = SS_ERROR_MEMORY;
    for (long n = 0, step = 1; status != SS_OK && n < 200000; n += step) {
        ss_ratings result = {0};
        ss_error error = {0};
        ss_memory_fail_from(n);
        status = ss_ratings_compute(&r.permanent, &r.placements, r.effects, r.effect_count, NULL, NULL,
                                    &result, &error);
        ss_memory_fail_from(-1);
        if (status != SS_OK) {
            CU_ASSERT_EQUAL(status, SS_ERROR_MEMORY);
            CU_ASSERT(error.message[0] != '\0');
        }
        ss_ratings_destroy(&result);
        CU_ASSERT_EQUAL(ss_memory_live(), before);
        step = n < 60 ? 1 : 1 + n / 20;
    }
    CU_ASSERT_EQUAL(status, SS_OK);
    rated_destroy(&r);
}

int main(void) {
    static const test_case cases[] = {{"simple span", test_simple_span},
                                      {"old lane load", test_old_lane_load},
                                      {"abreast", test_abreast},
                                      {"two spans", test_two_spans},
                                      {"use", test_use},
                                      {"lifting", test_lifting},
                                      {"tipping", test_tipping},
                                      {"memory", test_memory}};
    return RUN_SUITE("ratings with lane loads", cases);
}
