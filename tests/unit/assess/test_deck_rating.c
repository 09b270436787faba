/* test_deck_rating.c - the deck of a bridge under the wheels of trucks: spans picked by eye, and factors
 * worked by hand from statics and the rules named beside them. */
#include "sillspan/deck_rating.h"

#include <string.h>

#include "support/hand_bridge.h"
#include "support/suite.h"
#include "unit/assess/rated_settings.h"

#define PSI (LBF / INCH2)
#define PSF (LBF / (FOOT * FOOT))
#define SAME 1e-9

static const ss_check legal = {.method = SS_METHOD_LRFR, .level = SS_LEVEL_LEGAL};
static const ss_check older = {.method = SS_METHOD_LFR, .level = SS_LEVEL_OPERATING};
static const ss_check stress = {.method = SS_METHOD_ASR, .level = SS_LEVEL_INVENTORY};
static const ss_crossing_facts alone = {.lanes = 1, .speed = (double)INFINITY};

typedef struct sample {
    ss_bridge bridge;
    hand_room room;
} sample;

/* One car of 8 ft: lines at 1, 3, 5 and 7 ft, floor beams at 0, 4, 11 and 20 ft, curbs at its edges; 15 psf
 * of deck and 40 psf of gravel. Planks of 3-1/2 x 11-1/4 in, 1200 and 170 psi. */
static void start(sample *s) {
    static const double y[4] = {1.0, 3.0, 5.0, 7.0}, x[4] = {0.0, 4.0, 11.0, 20.0};
    ss_bridge *const b = &s->bridge;
    hand_start(b, &s->room, 29000.0 * KSI, 11154.0 * KSI, FOOT);
    b->rating = rated_settings(1.0);
    b->rating.single_lane_presence = true;
    b->steels[0].fy = 36.0 * KSI;
    const int section = hand_section(b, 1e-4, 1e-6, 0.0, 100.0);
    hand_car(b, "north", 0.0, 20.0 * FOOT, 0.0, 8.0 * FOOT);
    for (int i = 0; i < 4; i++) hand_line(b, SS_ROLE_STRINGER, "stringer", y[i] * FOOT, section);
    for (int i = 0; i < 4; i++) hand_beam(b, x[i] * FOOT, section);
    b->roadway_right = 8.0 * FOOT;
    b->wheel_to_curb = 2.0 * FOOT;
    b->lanes.between_wheels = 4.0 * FOOT;
    b->deck.weight = 15.0 * PSF;
    b->dead_loads[b->dead_load_count++] = (ss_dead_load){
        .name = b->deck.name, .area = true, .w = 15.0 * PSF, .y1 = 8.0 * FOOT, .x1 = 20.0 * FOOT};
    b->dead_loads[b->dead_load_count++] = (ss_dead_load){.name = "gravel",
                                                         .component = SS_COMPONENT_DW,
                                                         .area = true,
                                                         .w = 40.0 * PSF,
                                                         .y1 = 8.0 * FOOT,
                                                         .x1 = 20.0 * FOOT};
    b->deck.wheel = (ss_deck_wheel){.given = true,
                                    .thickness = 3.5 * INCH,
                                    .plank_width = 11.25 * INCH,
                                    .bending_stress = 1200.0 * PSI,
                                    .shear_stress = 170.0 * PSI,
                                    .load_duration = 1.0,
                                    .wet_bending = 1.0,
                                    .wet_shear = 1.0,
                                    .steel = -1};
}

/* Axles of 12, 32 and 32 kip, 14 and 4 ft apart, gauge 6 ft. */
static ss_vehicle truck(void) {
    return (ss_vehicle){.name = "hauler",
                        .kind = SS_VEHICLE_USER,
                        .axle_count = 3,
                        .axle_N = {12.0 * KIP, 32.0 * KIP, 32.0 * KIP},
                        .spacing_m = {14.0 * FOOT, 4.0 * FOOT},
                        .gauge_m = 6.0 * FOOT};
}

static ss_deck_rating rate(const sample *s, const ss_check *check, const ss_vehicle *vehicle) {
    const ss_deck_layout layout = ss_deck_layout_of(&s->bridge);
    return ss_deck_rating_of(&s->bridge, &layout, check, vehicle, &alone);
}

/* ---- layout ------------------------------------------------------------------------------------- */

static void test_spans_across(void) {
    static sample s;
    start(&s);
    ss_deck_layout layout = ss_deck_layout_of(&s.bridge);
    CU_ASSERT_PTR_NULL(layout.why);
    CHECK_CLOSE(layout.span, 2.0 * FOOT, SAME);
    CU_ASSERT_EQUAL(layout.overhang, 0.0);
    CHECK_CLOSE(layout.dc, 15.0 * PSF, SAME);
    CHECK_CLOSE(layout.dw, 40.0 * PSF, SAME);
    /* A line that stops half-way leaves 4 ft beside it. */
    s.room.lines[2].x1 = 9.0 * FOOT;
    layout = ss_deck_layout_of(&s.bridge);
    CHECK_CLOSE(layout.span, 4.0 * FOOT, SAME);
    CU_ASSERT_EQUAL(layout.from, 1);
    CU_ASSERT_EQUAL(layout.to, 3);
    /* Wheels kept to the left of 3 ft do not come there, and those on the edge stand beyond line 0. */
    s.bridge.roadway_right = 5.0 * FOOT;
    s.bridge.wheel_to_curb = 0.5 * FOOT;
    s.bridge.roadway_right = 3.5 * FOOT;
    layout = ss_deck_layout_of(&s.bridge);
    CHECK_CLOSE(layout.span, 2.0 * FOOT, SAME);
    CHECK_CLOSE(layout.overhang, 0.5 * FOOT, SAME);
    s.bridge.wheel_to_curb = 2.0 * FOOT;
    CU_ASSERT_STRING_EQUAL(ss_deck_layout_of(&s.bridge).why, "the roadway has no room for a wheel");
    s.bridge.deck.wheel.given = false;
    CU_ASSERT_STRING_EQUAL(ss_deck_layout_of(&s.bridge).why,
                           "nothing is given of what it can carry between its supports");
}

/* A second car 1 ft beside the first, its first line 2 ft from its edge: 4 ft over the joint, but only where
 * the deck runs over it. */
static void test_spans_over_joints(void) {
    static sample s;
    start(&s);
    hand_car(&s.bridge, "south", 5.0 * FOOT, 20.0 * FOOT, 9.0 * FOOT, 17.0 * FOOT);
    hand_line(&s.bridge, SS_ROLE_MAIN, "sill", 11.0 * FOOT, 0);
    hand_line(&s.bridge, SS_ROLE_MAIN, "sill 2", 13.0 * FOOT, 0);
    s.bridge.roadway_right = 17.0 * FOOT;
    CHECK_CLOSE(ss_deck_layout_of(&s.bridge).span, 2.0 * FOOT, SAME);
    CHECK_CLOSE(ss_deck_layout_of(&s.bridge).overhang, 2.0 * FOOT, SAME);
    s.bridge.deck.over_joints = true;
    const ss_deck_layout layout = ss_deck_layout_of(&s.bridge);
    CHECK_CLOSE(layout.span, 4.0 * FOOT, SAME);
    CU_ASSERT_EQUAL(layout.from, 3);
    CU_ASSERT_EQUAL(layout.to, 4);
}

static void test_spans_along(void) {
    static sample s;
    start(&s);
    s.bridge.deck.along = true;
    const ss_deck_layout layout = ss_deck_layout_of(&s.bridge);
    CHECK_CLOSE(layout.span, 9.0 * FOOT, SAME);
    CU_ASSERT_EQUAL(layout.from, 2);
    CU_ASSERT_EQUAL(layout.to, 3);
    s.bridge.cars[0].beam_count = 1;
    CU_ASSERT_STRING_EQUAL(ss_deck_layout_of(&s.bridge).why,
                           "a car under the roadway has fewer than two floor beams");
}

/* ---- factors ------------------------------------------------------------------------------------ */

/* By statics and NDS 3.3, 3.4 (from memory): span 24 in, a wheel of 16 kip on 20 in. M/P = 24/4 - 20/8 = 3.5
 * in, V/P = 1 - (3.5 + 10)/24 = 0.4375. 1200 x 11.25 x 3.5^2 / 6 = 27562.5 lb-in; 55 psf on 11.25 in
 * take 25.78 lb-ft. Bending leaves 7786.6 lb, shear (170 x 11.25 x 3.5 / 1.5 - 36.5) / 0.4375 = 10116.5 lb.
 * LRFR with half of 33 % (LRFD 3.6.2.3), LFR without impact (Standard Specifications 3.8.1), both from
 * memory. */
static void test_planks_by_hand(void) {
    static sample s;
    start(&s);
    const ss_vehicle vehicle = truck();
    const double moment = 27562.5 - 12.0 * 55.0 * (11.25 / 12.0) * 2.0 * 2.0 / 8.0;
    ss_deck_rating r = rate(&s, &legal, &vehicle);
    CU_ASSERT_TRUE(r.allowable && r.bending);
    CU_ASSERT_STRING_EQUAL(r.governs, "bending of the planks");
    CHECK_CLOSE(r.wheel, 16.0 * KIP, SAME);
    CHECK_CLOSE(r.capacity, 27562.5 * LBF * INCH, SAME);
    CHECK_CLOSE(r.rf, moment / 3.5 / (16000.0 * 1.165), SAME);
    CHECK_CLOSE(rate(&s, &older, &vehicle).rf, moment / 3.5 / 16000.0, SAME);
    s.bridge.deck.wheel.shear_stress = 100.0 * PSI;
    r = rate(&s, &older, &vehicle);
    CU_ASSERT_STRING_EQUAL(r.governs, "horizontal shear of the planks");
    const double dead = 55.0 * (11.25 / 12.0) * (1.0 - 3.5 / 12.0);
    CHECK_CLOSE(r.rf, (100.0 * 11.25 * 3.5 / 1.5 - dead) / 0.4375 / 16000.0, SAME);
    /* What the settings give counts in full. */
    s.bridge.rating.dynamic_allowance = 0.2;
    CHECK_CLOSE(rate(&s, &older, &vehicle).allowance, 0.2, SAME);
}

/* Plate of 3/8 in, 36 ksi, on the same span: strip 10 + 12 + 6 - (0.2 + 0.15 x 20/24) 10 = 24.75 in, first
 * yield 36 x 24.75 x 0.375^2 / 6 kip-in. LRFR: condition 0.95, 1.25 and 1.50 on dead load, 1.30 x 1.20 x 1.33
 * on the wheel (MBE tables 6A.4.2.2-1 and 6A.4.4.2.3a-1, LRFD 3.6.1.1.2 and 3.6.2.1, from memory). ASR at
 * inventory: 0.55 Fy and 30 % (MBE 6B.5.2, Standard Specifications 3.8.2.1, from memory). */
static void test_plate_by_hand(void) {
    static sample s;
    start(&s);
    s.bridge.deck.made_of = SS_DECK_STEEL_PLATE;
    s.bridge.deck.wheel = (ss_deck_wheel){.given = true, .thickness = 0.375 * INCH, .steel = 0};
    const ss_vehicle vehicle = truck();
    const double yield = 36000.0 * 24.75 * 0.375 * 0.375 / 6.0;
    const double area = 24.75 / 12.0 * 12.0 * 2.0 * 2.0 / 8.0; /* lb-in a psf */
    const ss_deck_rating r = rate(&s, &legal, &vehicle);
    CU_ASSERT_FALSE(r.allowable);
    CU_ASSERT_STRING_EQUAL(r.governs, "bending of the deck plate");
    CHECK_CLOSE(r.strip, 24.75 * INCH, SAME);
    CHECK_CLOSE(r.rf, (0.95 * yield - area * (1.25 * 15.0 + 1.5 * 40.0)) / 3.5 / (16000.0 * 1.3 * 1.2 * 1.33),
                SAME);
    CHECK_CLOSE(rate(&s, &stress, &vehicle).rf, (0.55 * yield - area * 55.0) / 3.5 / (16000.0 * 1.3), SAME);
    /* A strip is no wider than to the next axle, 4 ft away. */
    s.bridge.deck.wheel.spread = 60.0 * INCH;
    CHECK_CLOSE(rate(&s, &legal, &vehicle).strip, 48.0 * INCH, SAME);
}

static void test_grating_by_hand(void) {
    static sample s;
    start(&s);
    s.bridge.deck.made_of = SS_DECK_GRATING;
    s.bridge.deck.wheel = (ss_deck_wheel){.given = true, .steel = -1, .wheel_capacity = 18.0 * KIP};
    const ss_vehicle vehicle = truck();
    ss_deck_rating r = rate(&s, &legal, &vehicle);
    CU_ASSERT_STRING_EQUAL(r.governs, "the wheel allowed on the grating");
    CHECK_CLOSE(r.rf, 18.0 / 16.0 / 1.33, SAME);
    /* 3 kip-ft a foot on the wheel's 10 in: 30 kip-in over 3.5 in, less 55 psf on 10 in. */
    s.bridge.deck.wheel.moment_capacity = 3.0 * KIP;
    r = rate(&s, &legal, &vehicle);
    CU_ASSERT_STRING_EQUAL(r.governs, "bending of the grating");
    CHECK_CLOSE(r.rf, (30.0 - 0.055 * 10.0 / 12.0 * 0.5 * 12.0) / 3.5 / 16.0 / 1.33, SAME);
}

/* Along, over 7 ft: two wheels of a tandem 4 ft apart, (7 - 2)^2 / 14 ft, are more than one on 10 in. Trucks
 * abreast stand 4 ft apart, which halves no plank. */
static void test_tandem_along(void) {
    static sample s;
    start(&s);
    s.room.beams[3].x = 11.5 * FOOT;
    s.bridge.deck.along = true;
    const ss_vehicle vehicle = truck();
    const double strip = 11.25 / 12.0, plank = 27562.5 / 12.0; /* ft, lb-ft */
    const ss_deck_rating r = rate(&s, &older, &vehicle);
    CHECK_CLOSE(r.rf, (plank - 55.0 * strip * 49.0 / 8.0) / (25.0 / 14.0) / 16000.0, SAME);
    /* Three wheels or more on a span are refused. */
    s.room.beams[3].x = 20.0 * FOOT;
    const ss_deck_rating wide = rate(&s, &older, &vehicle);
    CU_ASSERT_TRUE(isnan(wide.rf));
    CU_ASSERT_STRING_EQUAL(wide.why, "more than two wheels can stand on one span of the deck");
}

/* A wheel of its own carries the whole axle; the lane loading of a vehicle has no wheels; the other loading
 * that is for all effects has. */
static void test_wheels_of_a_vehicle(void) {
    static sample s;
    start(&s);
    ss_vehicle vehicle = truck();
    const double both = rate(&s, &older, &vehicle).rf;
    vehicle.axle_gauge_m[0] = -1.0;
    CHECK_CLOSE(rate(&s, &older, &vehicle).wheel, 16.0 * KIP, SAME);
    vehicle.axle_N[0] = 24.0 * KIP;
    CHECK_CLOSE(rate(&s, &older, &vehicle).rf, both * 16.0 / 24.0, SAME);
    vehicle = truck();
    ss_vehicle lane = {.axle_count = 1, .axle_N = {64.0 * KIP}, .gauge_m = 6.0 * FOOT, .use = SS_USE_BENDING};
    vehicle.also = &lane;
    CHECK_CLOSE(rate(&s, &older, &vehicle).rf, both, SAME);
    lane.use = SS_USE_ALL;
    CHECK_CLOSE(rate(&s, &older, &vehicle).rf, both / 2.0, SAME);
    vehicle.axle_count = 0;
    vehicle.also = NULL;
    CU_ASSERT_STRING_EQUAL(rate(&s, &older, &vehicle).why, "the vehicle has no axle");
}

/* Thicker is better, heavier is worse, and dead load alone can be too much. */
static void test_monotone(void) {
    static sample s;
    start(&s);
    ss_vehicle vehicle = truck();
    double before = 0.0;
    for (int i = 1; i <= 12; i++) {
        s.bridge.deck.wheel.thickness = 0.5 * i * INCH;
        const double rf = rate(&s, &legal, &vehicle).rf;
        CU_ASSERT_TRUE(rf > before);
        before = rf;
    }
    for (int i = 0; i < 6; i++) {
        vehicle.axle_N[1] *= 1.3;
        const double rf = rate(&s, &legal, &vehicle).rf;
        CU_ASSERT_TRUE(rf < before);
        before = rf;
    }
    s.bridge.deck.weight = 1e6;
    CU_ASSERT_EQUAL(rate(&s, &legal, &vehicle).rf, 0.0);
    s.bridge.deck.wheel.thickness = 0.0;
    CU_ASSERT_TRUE(isnan(rate(&s, &legal, &vehicle).rf));
    CU_ASSERT_PTR_NOT_NULL(rate(&s, &legal, &vehicle).why);
}

int main(void) {
    static const test_case cases[] = {
        {"spans across", test_spans_across},     {"over joints", test_spans_over_joints},
        {"spans along", test_spans_along},       {"planks by hand", test_planks_by_hand},
        {"a plate by hand", test_plate_by_hand}, {"a grating by hand", test_grating_by_hand},
        {"a tandem along", test_tandem_along},   {"wheels of a vehicle", test_wheels_of_a_vehicle},
        {"thickness and wheel", test_monotone},
    };
    return RUN_SUITE("deck rating", cases);
}
