/* test_posting.c - signs, reasons, notes and inventory items that follow from ratings made by hand. */
#include "sillspan/memory.h"
#include "unit/assess/posted_bridge.h"

#define TON (2.0 * KIP)
#define NO_LIMIT ((double)INFINITY)
#define SAYS(list, sentence) CHECK_ROW(posted_says(posting.list##s, posting.list##_count, sentence), sentence)
#define DECISION " The decision is the owner's and the state's; this is no permit to cross."

static void check_text(const char *obtained, const char *expected) {
    CHECK_ROW(strcmp(obtained, expected) == 0, obtained);
}

/* One lane, LRFR. Type 3: 25 x 0.42 / 0.7 = 15 tons. 3S2: 36 x 0.63 / 0.7 = 32.4. EV2: axle 16.75 x 0.51 /
 * 0.7 = 12.2, gross 28.75 x 0.51 / 0.7 = 20.9. EV3: tandem 31 x 0.34 / 0.7 = 15.06, gross 43 x 0.34 / 0.7
 * = 20.9.
 */
static void start_one_lane(posted_bridge *p) {
    posted_start(p);
    const int legal = posted_check(p, SS_METHOD_LRFR, SS_LEVEL_LEGAL, SS_LIMIT_STRENGTH);
    const int service = posted_check(p, SS_METHOD_LRFR, SS_LEVEL_LEGAL, SS_LIMIT_SERVICE);
    const int emergency = posted_check(p, SS_METHOD_LRFR, SS_LEVEL_EMERGENCY, SS_LIMIT_STRENGTH);
    const int sag = posted_check(p, SS_METHOD_LRFR, SS_LEVEL_LEGAL, SS_LIMIT_DEFLECTION);
    const int type3 = posted_crossing(p, "Type 3", SS_CROSSING_ALONE);
    const int semi = posted_crossing(p, "Type 3S2", SS_CROSSING_ALONE);
    const int ev2 = posted_crossing(p, "EV2", SS_CROSSING_ALONE);
    const int ev3 = posted_crossing(p, "EV3", SS_CROSSING_ALONE);
    posted_factor(p, legal, type3, 0.84);
    posted_factor(p, legal, type3, 0.72);
    posted_factor(p, legal, semi, 0.95);
    posted_factor(p, service, type3, 0.91);
    posted_factor(p, service, semi, 0.93);
    posted_factor(p, emergency, ev2, 0.81);
    posted_factor(p, emergency, ev3, 0.64);
    posted_factor(p, sag, ev3, 0.41);
}

static void test_one_lane(void) {
    posted_bridge p;
    start_one_lane(&p);
    ss_method method = SS_METHOD_ASR;
    CU_ASSERT_TRUE(ss_posting_method(&p.ratings, &method));
    CU_ASSERT_EQUAL(method, SS_METHOD_LRFR);
    ss_posting posting = posted(&p, method, SS_UNITS_US);
    CU_ASSERT_EQUAL(posting.level, SS_LEVEL_LEGAL);
    CU_ASSERT_EQUAL_FATAL(posting.row_count, 4);
    CHECK_CLOSE(posting.rows[0].safe_N / TON, 15.0, 1e-12);
    CU_ASSERT_EQUAL(p.items[posting.rows[0].item].rf, 0.72);
    CHECK_CLOSE(posting.rows[1].safe_N / TON, 32.4, 1e-12);
    CHECK_CLOSE(posting.rows[2].safe_axle_N / TON, 16.75 * 0.51 / 0.7, 1e-12);
    CU_ASSERT_EQUAL(posting.free.state, SS_POSTING_LIMITED);
    CU_ASSERT_FALSE(posting.lanes_matter);
    CHECK_CLOSE(posting.free.group_N[SS_POSTING_SINGLE] / TON, 15.0, 1e-12);
    CHECK_CLOSE(posting.free.group_N[SS_POSTING_COMBINATION] / TON, 32.0, 1e-12);
    CU_ASSERT_EQUAL(posting.free.group_N[SS_POSTING_FARM], NO_LIMIT);
    CHECK_CLOSE(posting.free.axle_N / TON, 12.0, 1e-12);
    CHECK_CLOSE(posting.free.tandem_N / TON, 15.0, 1e-12);
    CHECK_CLOSE(posting.free.emergency_N / TON, 20.0, 1e-12);
    check_text(posting.recommendation,
               "Post: single-unit trucks 15 tons, combinations 32 tons; emergency vehicles: single axle 12 "
               "tons, tandem 15 tons, gross 20 tons." DECISION);
    SAYS(reason, "Type 3, alone: rating factor 0.72, safe load 15.0 tons of 25.0 tons.");
    SAYS(reason,
         "EV3, alone: rating factor 0.64, tandem 15.0 tons of 31.0 tons, gross 20.8 tons of 43.0 tons.");
    SAYS(note, "Deflection under EV3 passes its limit (factor 0.41): a matter of comfort, which no load is "
               "posted for.");
    ss_posting_destroy(&posting);
    ss_posting_destroy(&posting);
    ss_posting_destroy(NULL);
}

/* EV2 at 0.44: gross 28.75 x 0.2 = 5.75 tons, axle 16.75 x 0.2 = 3.35. EV3 at 0.45: tandem 31 x 0.2143
 * = 6.64, which is more than may be driven there at all. */
static void test_axles_within_gross(void) {
    posted_bridge p;
    posted_start(&p);
    const int check = posted_check(&p, SS_METHOD_LRFR, SS_LEVEL_EMERGENCY, SS_LIMIT_STRENGTH);
    const int ev2 = posted_crossing(&p, "EV2", SS_CROSSING_ALONE);
    const int ev3 = posted_crossing(&p, "EV3", SS_CROSSING_ALONE);
    posted_factor(&p, check, ev2, 0.44);
    posted_factor(&p, check, ev3, 0.45);
    ss_posting posting = posted(&p, SS_METHOD_LRFR, SS_UNITS_US);
    CHECK_CLOSE(posting.free.axle_N / TON, 3.0, 1e-12);
    CHECK_CLOSE(posting.free.tandem_N / TON, 5.0, 1e-12);
    CHECK_CLOSE(posting.free.emergency_N / TON, 5.0, 1e-12);
    ss_posting_destroy(&posting);
    posting = posted(&p, SS_METHOD_LRFR, SS_UNITS_SI);
    CHECK_CLOSE(posting.free.tandem_N, posting.free.emergency_N, 1e-12);
    ss_posting_destroy(&posting);
}

/* 1 / 1.33 of the live load at 10 mph: 0.72 x 1.33 = 0.9576, 25 x 0.6576 / 0.7 = 23.49 tons. The item with
 * 0.84 comes to 1.1172. Emergency vehicles are not held to a creep. */
static void test_slow_crossing(void) {
    posted_bridge p;
    start_one_lane(&p);
    ss_posting posting = posted(&p, SS_METHOD_LRFR, SS_UNITS_US);
    CHECK_CLOSE(posting.rows[0].slow_rf, 0.9576, 1e-12);
    CHECK_CLOSE(posting.rows[0].slow_N / TON, 25.0 * 0.6576 / 0.7, 1e-12);
    CU_ASSERT(isnan(posting.rows[2].slow_rf) && isnan(posting.rows[3].slow_rf));
    SAYS(reason, "A restriction, not part of the sign: Type 3, alone, at 10 mph or less: rating factor about "
                 "0.95, safe load 23.4 tons of 25.0 tons; an estimate that scales the dynamic allowance "
                 "alone.");
    ss_posting_destroy(&posting);
    p.bridge.rating.dynamic_allowance = 0.33; /* given: a sign changes nothing */
    posting = posted(&p, SS_METHOD_LRFR, SS_UNITS_US);
    CU_ASSERT(isnan(posting.rows[0].slow_rf));
    ss_posting_destroy(&posting);
}

/* 15 tons of 2000 lb are 13.608 t; 32.4 are 29.39; EV: 12.2 are 11.07, 15.06 are 13.66, 20.886 are 18.95. */
static void test_metric(void) {
    posted_bridge p;
    start_one_lane(&p);
    ss_posting posting = posted(&p, SS_METHOD_LRFR, SS_UNITS_SI);
    check_text(posting.free.words,
               "single-unit trucks 13.5 t, combinations 29.0 t; emergency vehicles: single "
               "axle 11.0 t, tandem 13.5 t, gross 18.5 t");
    ss_posting_destroy(&posting);
}

/* Meeting trucks: 25 x 0.51 / 0.7 = 18.2 tons; alone no limit. No combination was rated. */
static void test_two_lanes(void) {
    posted_bridge p;
    posted_start(&p);
    const int legal = posted_check(&p, SS_METHOD_LRFR, SS_LEVEL_LEGAL, SS_LIMIT_STRENGTH);
    const int alone = posted_crossing(&p, "Type 3", SS_CROSSING_ALONE);
    const int meeting = posted_crossing(&p, "Type 3", SS_CROSSING_BESIDE);
    const int middle = posted_crossing(&p, "Type 3", SS_CROSSING_CENTRED);
    posted_factor(&p, legal, alone, 1.12);
    posted_factor(&p, legal, meeting, 0.81);
    posted_factor(&p, legal, middle, 0.4); /* no part of the sign, whatever it is */
    ss_posting posting = posted(&p, SS_METHOD_LRFR, SS_UNITS_US);
    CU_ASSERT_TRUE(posting.lanes_matter);
    CU_ASSERT_EQUAL(posting.free.state, SS_POSTING_LIMITED);
    CU_ASSERT_EQUAL(posting.one.state, SS_POSTING_OPEN);
    check_text(
        posting.recommendation,
        "Post: all trucks 18 tons. That is for trucks that meet on the bridge. If it is narrowed to one "
        "lane, so that one truck crosses at a time: no load limit follows." DECISION);
    SAYS(reason, "Type 3, in each of 2 lanes: rating factor 0.81, safe load 18.2 tons of 25.0 tons.");
    SAYS(reason,
         "A restriction, not part of the sign: Type 3, along the middle of the roadway: rating factor "
         "0.40, safe load 3.5 tons of 25.0 tons.");
    SAYS(note, "No combination was rated; the limit of single-unit trucks is taken for all, because of the "
               "same weight the shorter truck is the worse one.");
    CU_ASSERT_FALSE(posting.rows[2].counts);
    ss_posting_destroy(&posting);
}

/* Beside others: 25 x 0.05 / 0.7 = 1.8 tons, below 3; alone 25 x 0.2 / 0.7 = 7.1. */
static void test_closing(void) {
    posted_bridge p;
    posted_start(&p);
    const int legal = posted_check(&p, SS_METHOD_LRFR, SS_LEVEL_LEGAL, SS_LIMIT_STRENGTH);
    const int alone = posted_crossing(&p, "Type 3", SS_CROSSING_ALONE);
    const int meeting = posted_crossing(&p, "Type 3", SS_CROSSING_BESIDE);
    posted_factor(&p, legal, alone, 0.5);
    ss_rating_item *const item = posted_factor(&p, legal, meeting, 0.35);
    item->local = item->tips = true;
    ss_posting posting = posted(&p, SS_METHOD_LRFR, SS_UNITS_US);
    CU_ASSERT_EQUAL(posting.free.state, SS_POSTING_CLOSED);
    CU_ASSERT_EQUAL(posting.one.state, SS_POSTING_LIMITED);
    check_text(posting.recommendation,
               "Close the bridge: a legal truck could not cross with 3 tons. That is for trucks that meet on "
               "the bridge. If it is narrowed to one lane, so that one truck crosses at a time: all trucks 7 "
               "tons." DECISION);
    SAYS(note, "Type 3, in each of 2 lanes: the places of the trucks were found by moving one after the "
               "other; another arrangement may be worse, and the safe load lower.");
    SAYS(note, "Type 3, in each of 2 lanes: the bridge would tip before a member is full.");
    check_text(posted_record(&posting, "NBI", "41"), "K; P only while trucks cannot meet");
    check_text(posted_record(&posting, "NBI", "70"), "0");
    ss_posting_destroy(&posting);
    /* exactly 3 tons: 0.3 + 3 x 0.7 / 25 = 0.384 */
    item->rf = 0.384;
    posting = posted(&p, SS_METHOD_LRFR, SS_UNITS_US);
    CU_ASSERT_EQUAL(posting.free.state, SS_POSTING_LIMITED);
    check_text(posting.free.words, "all trucks 3 tons");
    ss_posting_destroy(&posting);
    item->rf = 0.29; /* a legal truck that may not cross at all */
    posting = posted(&p, SS_METHOD_LRFR, SS_UNITS_US);
    CU_ASSERT_EQUAL(posting.free.state, SS_POSTING_CLOSED);
    ss_posting_destroy(&posting);
}

/* A truck of one's own that may not cross is named, and closes nothing. */
static void test_banned_vehicles(void) {
    posted_bridge p;
    posted_start(&p);
    const int legal = posted_check(&p, SS_METHOD_LRFR, SS_LEVEL_LEGAL, SS_LIMIT_STRENGTH);
    const int emergency = posted_check(&p, SS_METHOD_LRFR, SS_LEVEL_EMERGENCY, SS_LIMIT_STRENGTH);
    const int type3 = posted_crossing(&p, "Type 3", SS_CROSSING_ALONE);
    const int own = posted_crossing(&p, "School bus", SS_CROSSING_ALONE);
    const int farm = posted_crossing(&p, "Combine", SS_CROSSING_ALONE);
    const int ev3 = posted_crossing(&p, "EV3", SS_CROSSING_ALONE);
    p.vehicles[1].name = "milk hauler";
    p.vehicles[1].kind = SS_VEHICLE_USER;
    posted_factor(&p, legal, type3, 1.02);
    posted_factor(&p, legal, own, 0.24);
    posted_factor(&p, legal, farm, 0.65); /* 21 tons x 0.35 / 0.7 = 10.5 */
    posted_factor(&p, emergency, ev3, 0.27);
    ss_posting posting = posted(&p, SS_METHOD_LRFR, SS_UNITS_US);
    check_text(posting.free.words, "farm vehicles 10 tons, milk hauler not allowed; emergency vehicles not "
                                   "allowed");
    SAYS(reason, "milk hauler, alone: rating factor 0.24, below 0.3, it may not cross.");
    CU_ASSERT_EQUAL(posting.free.emergency_N, 0.0);
    ss_posting_destroy(&posting);
}

/* RF x W: 25 x 0.72 = 18 tons; EV2: axle 16.75 x 0.81 = 13.57, gross 28.75 x 0.81 = 23.29. */
static void test_load_factor_method(void) {
    posted_bridge p;
    posted_start(&p);
    const int inventory = posted_check(&p, SS_METHOD_LFR, SS_LEVEL_INVENTORY, SS_LIMIT_STRENGTH);
    const int operating = posted_check(&p, SS_METHOD_LFR, SS_LEVEL_OPERATING, SS_LIMIT_STRENGTH);
    const int hs20 = posted_crossing(&p, "HS20-44", SS_CROSSING_ALONE);
    const int type3 = posted_crossing(&p, "Type 3", SS_CROSSING_ALONE);
    const int ev2 = posted_crossing(&p, "EV2", SS_CROSSING_ALONE);
    posted_factor(&p, inventory, hs20, 0.518);
    posted_factor(&p, operating, hs20, 0.865);
    posted_factor(&p, inventory, type3, 0.43);
    posted_factor(&p, operating, type3, 0.72);
    posted_factor(&p, operating, ev2, 0.81);
    ss_posting posting = posted(&p, SS_METHOD_LFR, SS_UNITS_US);
    CU_ASSERT_EQUAL(posting.level, SS_LEVEL_OPERATING);
    /* HS20 stands for the combinations, of which none was rated: 36 x 0.865 = 31.14 */
    check_text(posting.free.words, "single-unit trucks 18 tons, combinations 31 tons; emergency vehicles: "
                                   "single axle 13 tons, gross 23 tons");
    SAYS(note, "No legal load among combinations was rated; the design truck HS20-44 stands for them.");
    SAYS(note, "The operating level is the most that may be posted; an owner may choose less, down to "
               "inventory.");
    check_text(posted_record(&posting, "NBI", "63"), "6 (load factor, rating factor of MS18, which is HS20)");
    check_text(posted_record(&posting, "NBI", "64"), "0.86");
    check_text(posted_record(&posting, "NBI", "66"), "0.51");
    check_text(posted_record(&posting, "NBI", "70"), "2");
    check_text(posted_record(&posting, "NBI", "41"), "P once the signs stand, B until then");
    CU_ASSERT_PTR_NULL(posted_record(&posting, "NBI", "31"));
    check_text(posted_record(&posting, "SNBI", "B.LR.04"), "LFR");
    check_text(posted_record(&posting, "SNBI", "B.LR.05"), "0.51");
    check_text(posted_record(&posting, "SNBI", "B.LR.06"), "0.86");
    check_text(posted_record(&posting, "SNBI", "B.LR.07"), "0.72");
    CU_ASSERT_PTR_NULL(posted_record(&posting, "SNBI", "B.LR.08"));
    check_text(posted_record(&posting, "SNBI", "B.EP.01"), "Type 3");
    check_text(posted_record(&posting, "SNBI", "B.EP.02"), "0.72");
    check_text(posted_record(&posting, "SNBI", "B.EP.04"), "18 tons");
    ss_posting_destroy(&posting);
}

/* Allowable stress at inventory alone: 25 x 0.43 = 10.75. */
static void test_inventory_alone(void) {
    posted_bridge p;
    posted_start(&p);
    const int inventory = posted_check(&p, SS_METHOD_ASR, SS_LEVEL_INVENTORY, SS_LIMIT_STRENGTH);
    posted_factor(&p, inventory, posted_crossing(&p, "Type 3", SS_CROSSING_ALONE), 0.43);
    ss_posting posting = posted(&p, SS_METHOD_ASR, SS_UNITS_US);
    CU_ASSERT_EQUAL(posting.level, SS_LEVEL_INVENTORY);
    check_text(posting.free.words, "all trucks 10 tons");
    SAYS(note, "Only the inventory level was rated; a posting by it is lower than need be.");
    SAYS(note, "In current federal practice allowable stress serves for posting only.");
    ss_posting_destroy(&posting);
}

/* Legal loads stand aside for design trucks of their own group alone. */
static void test_design_trucks(void) {
    posted_bridge p;
    posted_start(&p);
    const int legal = posted_check(&p, SS_METHOD_LRFR, SS_LEVEL_LEGAL, SS_LIMIT_STRENGTH);
    const int h15 = posted_crossing(&p, "H15-44", SS_CROSSING_ALONE);
    const int type3 = posted_crossing(&p, "Type 3", SS_CROSSING_ALONE);
    posted_factor(&p, legal, h15, 0.31);
    posted_factor(&p, legal, type3, 1.04);
    ss_posting posting = posted(&p, SS_METHOD_LRFR, SS_UNITS_US);
    CU_ASSERT_EQUAL(posting.free.state, SS_POSTING_OPEN);
    CU_ASSERT_FALSE(posting.rows[0].counts);
    check_text(posting.recommendation, "No load limit follows from these ratings." DECISION);
    check_text(posted_record(&posting, "NBI", "41"), "A");
    check_text(posted_record(&posting, "NBI", "70"), "5");
    ss_posting_destroy(&posting);
}

/* A limit for emergency vehicles alone; one for combinations of which no single unit was rated; and a rating
 * along the middle that is no alternative: 36 x 0.5 / 0.7 = 25.7. */
static void test_parts_of_a_sign(void) {
    posted_bridge p;
    posted_start(&p);
    const int legal = posted_check(&p, SS_METHOD_LRFR, SS_LEVEL_LEGAL, SS_LIMIT_STRENGTH);
    const int emergency = posted_check(&p, SS_METHOD_LRFR, SS_LEVEL_EMERGENCY, SS_LIMIT_STRENGTH);
    const int semi = posted_crossing(&p, "Type 3S2", SS_CROSSING_CENTRED);
    const int ev3 = posted_crossing(&p, "EV3", SS_CROSSING_ALONE);
    p.crossings[0].alternative = false;
    ss_rating_item *const item = posted_factor(&p, legal, semi, 1.3);
    posted_factor(&p, emergency, ev3, 0.9); /* 31 x 0.6 / 0.7 = 26.57, 43 x 0.6 / 0.7 = 36.86 */
    ss_posting posting = posted(&p, SS_METHOD_LRFR, SS_UNITS_US);
    check_text(posting.free.words, "emergency vehicles: tandem 26 tons, gross 36 tons");
    SAYS(note,
         "Type 3S2 was rated along the middle of the roadway only: the sign holds while trucks are kept "
         "there.");
    SAYS(note, "No single-unit truck was rated: nothing is known of a limit for them.");
    check_text(posted_record(&posting, "NBI", "70"), "5");
    ss_posting_destroy(&posting);
    item->rf = 0.8;
    posting = posted(&p, SS_METHOD_LRFR, SS_UNITS_US);
    check_text(posting.free.words, "combinations 25 tons (single-unit trucks were not rated); emergency "
                                   "vehicles: tandem 26 tons, gross 36 tons");
    ss_posting_destroy(&posting);
}

/* An emergency vehicle with an ordinary truck beside it: its axle limit follows from the worse crossing.
 * 16.75 x 0.45 / 0.7 = 10.77, 28.75 x 0.45 / 0.7 = 18.48; alone 16.75 x 0.65 / 0.7 = 15.55, 26.70. */
static void test_mixed_pairs(void) {
    posted_bridge p;
    posted_start(&p);
    const int legal = posted_check(&p, SS_METHOD_LRFR, SS_LEVEL_LEGAL, SS_LIMIT_STRENGTH);
    const int emergency = posted_check(&p, SS_METHOD_LRFR, SS_LEVEL_EMERGENCY, SS_LIMIT_STRENGTH);
    const int type3 = posted_crossing(&p, "Type 3", SS_CROSSING_ALONE);
    const int alone = posted_crossing(&p, "EV2", SS_CROSSING_ALONE);
    const int pair = posted_crossing(&p, "EV2", SS_CROSSING_BESIDE);
    p.crossings[2].beside = 0;
    posted_factor(&p, legal, type3, 1.01);
    posted_factor(&p, emergency, alone, 0.95);
    posted_factor(&p, emergency, pair, 0.75);
    ss_posting posting = posted(&p, SS_METHOD_LRFR, SS_UNITS_US);
    check_text(posting.free.words, "emergency vehicles: single axle 10 tons, gross 18 tons");
    check_text(posting.one.words, "emergency vehicles: single axle 15 tons, gross 26 tons");
    SAYS(reason,
         "EV2, with Type 3 in the other lane: rating factor 0.75, single axle 10.7 tons of 16.8 tons, "
         "gross 18.4 tons of 28.8 tons.");
    ss_posting_destroy(&posting);
}

/* With the manual's sequence a design load that passes at inventory frees legal loads that were not rated. */
static void test_manual_sequence(void) {
    posted_bridge p;
    posted_start(&p);
    const int design = posted_check(&p, SS_METHOD_LRFR, SS_LEVEL_INVENTORY, SS_LIMIT_STRENGTH);
    (void)posted_check(&p, SS_METHOD_LRFR, SS_LEVEL_LEGAL, SS_LIMIT_STRENGTH);
    const int hl93 = posted_crossing(&p, "HL-93", SS_CROSSING_ALONE);
    (void)posted_crossing(&p, "Type 3", SS_CROSSING_ALONE);
    posted_factor(&p, design, hl93, 1.07);
    ss_posting posting = posted(&p, SS_METHOD_LRFR, SS_UNITS_US);
    CU_ASSERT_EQUAL_FATAL(posting.row_count, 1);
    CU_ASSERT_EQUAL(posting.free.state, SS_POSTING_UNKNOWN);
    SAYS(note, "Type 3, alone, was not rated and is not in the sign.");
    check_text(posting.recommendation,
               "No posting follows: no truck was rated that a sign could stand for." DECISION);
    CU_ASSERT_PTR_NULL(posted_record(&posting, "NBI", "63")); /* operating was not asked */
    check_text(posted_record(&posting, "NBI", "65"), "8 (LRFR, rating factor of HL-93)");
    check_text(posted_record(&posting, "NBI", "66"), "1.07");
    ss_posting_destroy(&posting);
    p.bridge.rating.manual_sequence = true;
    posting = posted(&p, SS_METHOD_LRFR, SS_UNITS_US);
    CU_ASSERT_EQUAL(posting.free.state, SS_POSTING_OPEN);
    ss_posting_destroy(&posting);
}

static void test_nothing_rated(void) {
    posted_bridge p;
    posted_start(&p);
    ss_method method = SS_METHOD_ASR;
    CU_ASSERT_FALSE(ss_posting_method(&p.ratings, &method));
    (void)posted_check(&p, SS_METHOD_LRFR, SS_LEVEL_LEGAL, SS_LIMIT_DEFLECTION);
    CU_ASSERT_FALSE(ss_posting_method(&p.ratings, &method));
    (void)posted_check(&p, SS_METHOD_LFR, SS_LEVEL_OPERATING, SS_LIMIT_STRENGTH);
    CU_ASSERT_TRUE(ss_posting_method(&p.ratings, &method));
    CU_ASSERT_EQUAL(method, SS_METHOD_LFR);
    ss_posting posting = posted(&p, SS_METHOD_LFR, SS_UNITS_US);
    CU_ASSERT_EQUAL(posting.free.state, SS_POSTING_UNKNOWN);
    CU_ASSERT_EQUAL(posting.row_count, 0);
    CU_ASSERT_PTR_NULL(posted_record(&posting, "NBI", "41"));
    ss_posting_destroy(&posting);
}

static void test_each_allocation_fails(void) {
    posted_bridge p;
    start_one_lane(&p);
    const long live = ss_memory_live();
    long n = 0;
    for (; n < 5000; n++) {
        ss_posting posting = {.row_count = -7};
        ss_error error = {SS_OK, ""};
        ss_memory_fail_from(n);
        const ss_status status = ss_posting_compute(&p.bridge, &p.placements, &p.ratings, SS_METHOD_LRFR,
                                                    SS_UNITS_US, &posting, &error);
        ss_memory_fail_from(-1);
        if (status == SS_OK) {
            ss_posting_destroy(&posting);
            break;
        }
        CU_ASSERT_EQUAL(status, SS_ERROR_MEMORY);
        CU_ASSERT_EQUAL(error.status, SS_ERROR_MEMORY);
        CU_ASSERT_EQUAL(posting.row_count, -7);
        if (ss_memory_live() != live) {
            CU_FAIL("something was left behind");
            break;
        }
    }
    CU_ASSERT(n > 3 && n < 5000);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

int main(void) {
    static const test_case cases[] = {
        {"one lane", test_one_lane},
        {"axles within gross", test_axles_within_gross},
        {"slow crossing", test_slow_crossing},
        {"metric", test_metric},
        {"two lanes", test_two_lanes},
        {"closing", test_closing},
        {"banned vehicles", test_banned_vehicles},
        {"load factor method", test_load_factor_method},
        {"inventory alone", test_inventory_alone},
        {"design trucks", test_design_trucks},
        {"parts of a sign", test_parts_of_a_sign},
        {"mixed pairs", test_mixed_pairs},
        {"manual sequence", test_manual_sequence},
        {"nothing rated", test_nothing_rated},
        {"each allocation fails", test_each_allocation_fails},
    };
    return RUN_SUITE("posting", cases);
}
