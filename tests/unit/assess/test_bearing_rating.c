/* test_bearing_rating.c - webs above the bearings of a bridge: factors worked by hand, the weaker side of a
 * bearing, and points that are not checked. */
#include "sillspan/bearing_rating.h"

#include "support/hand_bridge.h"
#include "support/suite.h"
#include "unit/assess/rated_settings.h"

#define SAME 1e-9

static const ss_check legal = {.method = SS_METHOD_LRFR, .level = SS_LEVEL_LEGAL};
static const ss_check older = {.method = SS_METHOD_LFR, .level = SS_LEVEL_OPERATING};
static const ss_check operating = {.method = SS_METHOD_ASR, .level = SS_LEVEL_OPERATING};
static const ss_check inventory = {.method = SS_METHOD_ASR, .level = SS_LEVEL_INVENTORY};
static const ss_crossing_facts alone = {.lanes = 1, .speed = (double)INFINITY};
static const ss_vehicle truck = {.name = "hauler", .kind = SS_VEHICLE_USER};
static const ss_bearing_load reaction = {10.0 * KIP, 40.0 * KIP};

typedef struct sample {
    ss_bridge bridge;
    hand_room room;
} sample;

/* An I of plates: 20 in deep, web 3/8 in less `thinner`, flanges 8 x 1/2 in. */
static int add_section(ss_bridge *b, double thinner) {
    ss_section *const s = &b->sections[b->section_count];
    const double half = 0.5 * (0.375 * INCH - thinner);
    *s = (ss_section){
        .name = "girder", .shape = SS_SHAPE_PLATES, .depth = 20.0 * INCH, .plate_count = 3, .E_over_G = 2.6};
    hand_unset(s);
    s->plates[0] = (ss_plate){"bottom", -4.0 * INCH, 4.0 * INCH, 0.0, 0.5 * INCH, false};
    s->plates[1] = (ss_plate){"web", -half, half, 0.5 * INCH, 19.5 * INCH, true};
    s->plates[2] = (ss_plate){"top", -4.0 * INCH, 4.0 * INCH, 19.5 * INCH, 20.0 * INCH, false};
    return b->section_count++;
}

/* A line of 40 ft, 36 ksi, on bearings of 6 in at 0.5 ft and at 20 ft. */
static void start(sample *s) {
    ss_bridge *const b = &s->bridge;
    hand_start(b, &s->room, 29000.0 * KSI, 11154.0 * KSI, FOOT);
    b->rating = rated_settings(0.85);
    b->rating.single_lane_presence = true;
    b->steels[0].fy = 36.0 * KSI;
    const int section = add_section(b, 0.0);
    hand_car(b, "north", 0.0, 40.0 * FOOT, 0.0, 8.0 * FOOT);
    const int line = hand_line(b, SS_ROLE_MAIN, "sill", 4.0 * FOOT, section);
    hand_contact(b, line, 0.5 * FOOT)->length = 6.0 * INCH;
    hand_contact(b, line, 20.0 * FOOT)->length = 6.0 * INCH;
}

static ss_bearing_rating rate(const sample *s, int bearing, const ss_check *check) {
    return ss_bearing_rating_of(&s->bridge, bearing, check, &truck, &alone, reaction);
}

/* LRFD D6.5.2, D6.5.3 (from memory), in kip and in. Near the end: (2.5 x 0.5 + 6) 36 x 0.375 = 97.875; N/d =
 * 0.3, 0.4 x 0.375^2 (1 + (4 x 0.3 - 0.2) 0.75^1.5) sqrt(29000 x 36 / 0.75) = 109.47, 0.80 of which governs.
 * Within the line: (5 x 0.5 + 6) 13.5 = 114.75 and 0.8 x 0.375^2 (1 + 0.9 x 0.75^1.5) sqrt(...) = 210.3. */
static void test_factored(void) {
    static sample s;
    start(&s);
    const double root = sqrt(29000.0 * 36.0 / 0.75), ratio = pow(0.75, 1.5), t2 = 0.375 * 0.375;
    const double end = 0.4 * t2 * (1.0 + ratio) * root;
    CU_ASSERT_DOUBLE_EQUAL(end, 109.47, 0.01);
    ss_bearing_rating r = rate(&s, 0, &legal);
    CU_ASSERT_PTR_NULL(r.why);
    CU_ASSERT_STRING_EQUAL(r.governs, "web crippling");
    CHECK_CLOSE(r.capacity, 0.95 * 0.80 * end * KIP, SAME);
    CHECK_CLOSE(r.rf, (0.95 * 0.80 * end - 1.5 * 10.0) / (1.3 * 1.2 * 1.33 * 40.0), SAME);
    r = rate(&s, 1, &legal);
    CU_ASSERT_STRING_EQUAL(r.governs, "web local yielding");
    CHECK_CLOSE(r.rf, (0.95 * 114.75 - 15.0) / (1.3 * 1.2 * 1.33 * 40.0), SAME);
    /* LFR: 1.3 on both, and 30 % for shear of the overhang (Standard Specifications 3.8.2.2, from memory). */
    CHECK_CLOSE(rate(&s, 0, &older).rf, (0.80 * end - 13.0) / (1.3 * 1.3 * 40.0), SAME);
    /* ASR: AISC 360 J10, 2.0 on crippling; 0.55/0.75 of it at inventory. */
    CHECK_CLOSE(rate(&s, 0, &operating).rf, (end / 2.0 - 10.0) / (1.3 * 40.0), SAME);
    CHECK_CLOSE(rate(&s, 0, &inventory).rf, (end / 2.0 * 0.55 / 0.75 - 10.0) / (1.3 * 40.0), SAME);
}

/* The thinner web beside a bearing counts, on whichever side it is; the factor falls as the web does. */
static void test_weaker_side(void) {
    static sample s;
    start(&s);
    const double whole = rate(&s, 1, &legal).capacity;
    const int thin = add_section(&s.bridge, 0.125 * INCH);
    ss_line_piece *const pieces = s.room.pieces;
    pieces[1] = pieces[0];
    pieces[0].x1 = pieces[1].x0 = 20.0 * FOOT;
    s.room.lines[0].piece_count = 2;
    s.bridge.piece_count = 2;
    for (int side = 0; side < 2; side++) {
        pieces[side].section = thin;
        pieces[1 - side].section = 0;
        const double yielding = (5.0 * 0.5 + 6.0) * 36.0 * 0.25;
        const double crippling = 0.8 * 0.0625 * (1.0 + 0.9 * pow(0.5, 1.5)) * sqrt(29000.0 * 36.0 / 0.5);
        CHECK_CLOSE(rate(&s, 1, &legal).capacity, 0.95 * fmin(yielding, 0.8 * crippling) * KIP, SAME);
        CU_ASSERT_TRUE(rate(&s, 1, &legal).capacity < whole);
    }
    pieces[0].section = pieces[1].section = 0;
    double before = whole;
    for (int i = 1; i <= 5; i++) {
        s.room.sections[0].plates[1].y1 -= 0.05 * INCH;
        const double now = rate(&s, 1, &legal).capacity;
        CU_ASSERT_TRUE(now < before);
        before = now;
    }
}

static void test_reactions(void) {
    static sample s;
    start(&s);
    const ss_bearing_load nothing = {5.0 * KIP, 0.0}, heavy = {500.0 * KIP, 1.0 * KIP};
    const ss_bearing_load pulled = {-30.0 * KIP, 40.0 * KIP}, weightless = {0.0, 40.0 * KIP};
    const ss_bearing_load unknown = {(double)NAN, 40.0 * KIP};
    CU_ASSERT_TRUE(isinf(ss_bearing_rating_of(&s.bridge, 0, &legal, &truck, &alone, nothing).rf));
    CU_ASSERT_EQUAL(ss_bearing_rating_of(&s.bridge, 0, &legal, &truck, &alone, heavy).rf, 0.0);
    /* What pulls up relieves nothing. */
    CHECK_CLOSE(ss_bearing_rating_of(&s.bridge, 0, &legal, &truck, &alone, pulled).rf,
                ss_bearing_rating_of(&s.bridge, 0, &legal, &truck, &alone, weightless).rf, SAME);
    CU_ASSERT_PTR_NOT_NULL(ss_bearing_rating_of(&s.bridge, 0, &legal, &truck, &alone, unknown).why);
    ss_vehicle lane = truck;
    lane.lane_N_m = 9340.0;
    const ss_bearing_rating r = ss_bearing_rating_of(&s.bridge, 0, &legal, &lane, &alone, reaction);
    CU_ASSERT_TRUE(isnan(r.rf));
    CU_ASSERT_STRING_EQUAL(r.why, "its lane load is not among these reactions");
}

static const char *reason(const sample *s) {
    const char *why = NULL;
    const ss_bearing_web_strength found = ss_bearing_seat_strength(&s->bridge, 0, &why);
    CU_ASSERT_TRUE(isnan(found.factored) && isnan(found.allowable));
    return why == NULL ? "" : why;
}

static void test_not_checked(void) {
    static sample s;
    start(&s);
    s.room.bearings[0].stiffened = true;
    CU_ASSERT_STRING_EQUAL(reason(&s), "the webs have bearing stiffeners");
    s.room.bearings[0].stiffened = false;
    s.room.bearings[0].length = 0.0;
    CU_ASSERT_STRING_EQUAL(reason(&s), "no length given");
    s.room.bearings[0].length = 6.0 * INCH;
    s.room.pieces[0].section = hand_section(&s.bridge, 1e-4, 1e-6, 0.01, 100.0);
    CU_ASSERT_STRING_EQUAL(reason(&s), "the section is given by its properties: its webs are not known");
    s.room.pieces[0].section = 0;
    s.room.sections[0].plate_count = 1;
    CU_ASSERT_STRING_EQUAL(reason(&s), "the plates of the section make no web on a flange");
}

int main(void) {
    static const test_case cases[] = {
        {"factors by hand", test_factored},
        {"the weaker side", test_weaker_side},
        {"reactions", test_reactions},
        {"not checked", test_not_checked},
    };
    return RUN_SUITE("bearing rating", cases);
}
