/* test_lanes.c - lanes by the clear roadway, and where trucks abreast may stand: worked by hand in feet. */
#include "model/lanes.h"

#include "support/suite.h"

#define FT_NEAR(value, feet) CU_ASSERT_DOUBLE_EQUAL((value) / FOOT, (feet), 1e-9)

static const ss_lane_wish by_rule = {.count = 0, .width = (double)NAN};

static void test_usual_rule(void) {
    static const struct {
        double roadway_ft;
        int count;
        bool fixed;
        double width_ft, loaded_ft;
    } row[] = {
        {8.5, 1, false, 8.5, 8.5},     {12.75, 1, false, 12.0, 10.0},   {17.0, 1, false, 12.0, 10.0},
        {17.99, 1, false, 12.0, 10.0}, {18.0, 2, true, 9.0, 9.0},       {19.5, 2, true, 9.75, 9.75},
        {20.0, 2, true, 10.0, 10.0},   {20.01, 2, false, 10.005, 10.0}, {23.5, 2, false, 11.75, 10.0},
        {24.0, 2, false, 12.0, 10.0},  {35.99, 2, false, 12.0, 10.0},   {36.0, 3, false, 12.0, 10.0},
        {47.3, 3, false, 12.0, 10.0},  {61.7, 5, false, 12.0, 10.0},    {97.0, 6, false, 12.0, 10.0},
    };
    for (int i = 0; i < ENTRIES(row); i++) {
        ss_lane_rule rule = {0};
        CU_ASSERT_TRUE(ss_lanes_usual(row[i].roadway_ft * FOOT, by_rule, &rule));
        CU_ASSERT_EQUAL(rule.count, row[i].count);
        CU_ASSERT_EQUAL(rule.fixed, row[i].fixed);
        FT_NEAR(rule.width, row[i].width_ft);
        FT_NEAR(rule.loaded_width, row[i].loaded_ft);
        FT_NEAR(rule.between_wheels, 4.0);
        CU_ASSERT_PTR_NOT_NULL(rule.basis);
    }
}

/* The limits in metres are those in feet exactly: 18 ft are 5.4864 m, 36 ft are 10.9728 m. */
static void test_usual_rule_in_metres(void) {
    ss_lane_rule rule = {0};
    (void)ss_lanes_usual(5.486, by_rule, &rule);
    CU_ASSERT_EQUAL(rule.count, 1);
    (void)ss_lanes_usual(5.4864, by_rule, &rule);
    CU_ASSERT_EQUAL(rule.count, 2);
    CU_ASSERT_TRUE(rule.fixed);
    (void)ss_lanes_usual(10.97, by_rule, &rule);
    CU_ASSERT_EQUAL(rule.count, 2);
    (void)ss_lanes_usual(10.9728, by_rule, &rule);
    CU_ASSERT_EQUAL(rule.count, 3);
}

static void test_wishes(void) {
    ss_lane_rule rule = {.count = -7};
    CU_ASSERT_TRUE(ss_lanes_usual(27.5 * FOOT, (ss_lane_wish){.count = 1, .width = (double)NAN}, &rule));
    CU_ASSERT_EQUAL(rule.count, 1);
    FT_NEAR(rule.width, 12.0);
    CU_ASSERT_TRUE(ss_lanes_usual(16.5 * FOOT, (ss_lane_wish){.count = 2, .width = (double)NAN}, &rule));
    CU_ASSERT_EQUAL(rule.count, 2);
    CU_ASSERT_TRUE(rule.fixed);
    FT_NEAR(rule.width, 8.25);
    CU_ASSERT_TRUE(ss_lanes_usual(31.0 * FOOT, (ss_lane_wish){.count = 0, .width = 10.0 * FOOT}, &rule));
    CU_ASSERT_EQUAL(rule.count, 3);
    FT_NEAR(rule.width, 10.0);
    CU_ASSERT_TRUE(ss_lanes_usual(21.5 * FOOT, (ss_lane_wish){.count = 2, .width = 10.5 * FOOT}, &rule));
    CU_ASSERT_FALSE(rule.fixed);
    FT_NEAR(rule.width, 10.5);
    /* 2 x 11 ft are wider than 21.5 ft: nothing is written */
    rule.count = -7;
    CU_ASSERT_FALSE(ss_lanes_usual(21.5 * FOOT, (ss_lane_wish){.count = 2, .width = 11.0 * FOOT}, &rule));
    CU_ASSERT_EQUAL(rule.count, -7);
}

/* EN 1991-2, table 4.1: w < 5.4 m, 5.4 m <= w < 6 m, 6 m <= w. */
static void test_notional_lanes(void) {
    static const struct {
        double w;
        int count;
        bool fixed;
        double width;
    } row[] = {{2.7, 1, false, 2.7},  {3.6, 1, false, 3.0}, {5.399, 1, false, 3.0},
               {5.4, 2, true, 2.7},   {5.8, 2, true, 2.9},  {6.0, 2, false, 3.0},
               {8.99, 2, false, 3.0}, {9.0, 3, false, 3.0}, {13.7, 4, false, 3.0}};
    for (int i = 0; i < ENTRIES(row); i++) {
        ss_lane_rule rule = {0};
        ss_lanes_notional(row[i].w, &rule);
        CU_ASSERT_EQUAL(rule.count, row[i].count);
        CU_ASSERT_EQUAL(rule.fixed, row[i].fixed);
        CU_ASSERT_DOUBLE_EQUAL(rule.width, row[i].width, 1e-12);
        CU_ASSERT_DOUBLE_EQUAL(rule.loaded_width, row[i].width, 1e-12);
        CU_ASSERT_DOUBLE_EQUAL(rule.between_wheels, 1.0, 1e-12);
        CU_ASSERT_DOUBLE_EQUAL(rule.wheel_to_curb, 0.5, 1e-12);
    }
}

/* A roadway that starts 1.25 ft from the first car's edge, and its lanes by the rule. */
static ss_bridge roadway(double width_ft) {
    ss_bridge bridge = {
        .roadway_left = 1.25 * FOOT, .roadway_right = (1.25 + width_ft) * FOOT, .wheel_to_curb = 2.0 * FOOT};
    CU_ASSERT_TRUE_FATAL(ss_lanes_usual(width_ft * FOOT, by_rule, &bridge.lanes));
    ss_lanes_notional(width_ft * FOOT, &bridge.notional_lanes);
    return bridge;
}

static void test_one_truck(void) {
    ss_bridge bridge = roadway(17.0);
    const double six = 6.0 * FOOT;
    double low = 0.0, high = 0.0;
    CU_ASSERT_TRUE(ss_lane_ranges(&bridge, 1, &six, &low, &high));
    FT_NEAR(low, 1.25 + 5.0);
    FT_NEAR(high, 1.25 + 12.0);
    /* 9 ft hold a gauge of 6 ft only in the middle, 5.5 ft do not at all */
    bridge.roadway_right = bridge.roadway_left + 9.0 * FOOT;
    CU_ASSERT_TRUE(ss_lane_ranges(&bridge, 1, &six, &low, &high));
    FT_NEAR(low, 1.25 + 4.5);
    FT_NEAR(high, 1.25 + 4.5);
    bridge.roadway_right = bridge.roadway_left + 5.5 * FOOT;
    low = -3.0;
    CU_ASSERT_FALSE(ss_lane_ranges(&bridge, 1, &six, &low, &high));
    CU_ASSERT_EQUAL(low, -3.0);
}

/* 19.5 ft: lanes of 9.75 ft, which 2 + 6 + 2 ft do not go into: in their middles, 4.875 and 14.625 ft from
 * the curb. A gauge of 5.25 ft has half a foot to spare. */
static void test_fixed_lanes(void) {
    const ss_bridge bridge = roadway(19.5);
    const double gauge[2] = {6.0 * FOOT, 5.25 * FOOT};
    double low[2], high[2];
    CU_ASSERT_TRUE(ss_lane_ranges(&bridge, 2, gauge, low, high));
    FT_NEAR(low[0], 1.25 + 4.875);
    FT_NEAR(high[0], 1.25 + 4.875);
    FT_NEAR(low[1], 1.25 + 9.75 + 2.0 + 2.625);
    FT_NEAR(high[1], 1.25 + 19.5 - 2.0 - 2.625);
    const double wide[2] = {6.0 * FOOT, 9.8 * FOOT};
    CU_ASSERT_FALSE(ss_lane_ranges(&bridge, 2, wide, low, high));
}

/* At 20 ft both rules agree: 2 + 6 + 2 | 2 + 6 + 2. */
static void test_rules_meet_at_20_feet(void) {
    const double gauge[2] = {6.0 * FOOT, 6.0 * FOOT};
    for (int over = 0; over <= 1; over++) {
        ss_bridge bridge = roadway(20.0);
        bridge.lanes.fixed = over == 0;
        double low[2], high[2];
        CU_ASSERT_TRUE(ss_lane_ranges(&bridge, 2, gauge, low, high));
        FT_NEAR(low[0], 1.25 + 5.0);
        FT_NEAR(high[0], 1.25 + 5.0);
        FT_NEAR(low[1], 1.25 + 15.0);
        FT_NEAR(high[1], 1.25 + 15.0);
    }
}

/* 26.5 ft, gauges 6 and 7.5 ft: from the left 2 + 3 = 5 and 5 + 3 + 4 + 3.75 = 15.75 ft; from the right
 * 26.5 - 2 - 3.75 = 20.75 and 20.75 - 3.75 - 4 - 3 = 10 ft. */
static void test_shifting_lanes(void) {
    const ss_bridge bridge = roadway(26.5);
    const double gauge[2] = {6.0 * FOOT, 7.5 * FOOT};
    double low[2], high[2];
    CU_ASSERT_TRUE(ss_lane_ranges(&bridge, 2, gauge, low, high));
    FT_NEAR(low[0], 1.25 + 5.0);
    FT_NEAR(high[0], 1.25 + 10.0);
    FT_NEAR(low[1], 1.25 + 15.75);
    FT_NEAR(high[1], 1.25 + 20.75);
}

/* Three abreast need 2 + 6 + 4 + 6 + 4 + 6 + 2 = 30 ft; on 37.4 ft each has 7.4 ft to move. */
static void test_three_abreast(void) {
    ss_bridge bridge = roadway(37.4);
    const double gauge[3] = {6.0 * FOOT, 6.0 * FOOT, 6.0 * FOOT};
    double low[3] = {0}, high[3] = {0};
    CU_ASSERT_EQUAL(bridge.lanes.count, 3);
    CU_ASSERT_TRUE(ss_lane_ranges(&bridge, 3, gauge, low, high));
    for (int i = 0; i < 3; i++) {
        FT_NEAR(low[i], 1.25 + 5.0 + 10.0 * i);
        FT_NEAR(high[i] - low[i], 7.4);
    }
    bridge.roadway_right = bridge.roadway_left + 29.9 * FOOT;
    CU_ASSERT_FALSE(ss_lane_ranges(&bridge, 3, gauge, low, high));
    CU_ASSERT_FALSE(ss_lane_ranges(&bridge, 0, gauge, low, high));
    CU_ASSERT_FALSE(ss_lane_ranges(&bridge, SS_LANES_MAX + 1, gauge, low, high));
}

/* Two European lanes on 22 ft = 6.7056 m: wheels half a metre from the curb, lanes 3 m apart. */
static void test_ranges_of_a_crossing(void) {
    ss_bridge bridge = roadway(22.0);
    ss_vehicle vehicles[2] = {{.name = "LM1 lane 1", .kind = SS_VEHICLE_EUROPEAN, .gauge_m = 2.0},
                              {.name = "Type 3", .kind = SS_VEHICLE_LEGAL, .gauge_m = 6.0 * FOOT}};
    bridge.vehicles = vehicles;
    const double left = bridge.roadway_left, right = bridge.roadway_right;
    const double gauge[2] = {2.0, 2.0};
    double low[2], high[2];
    ss_crossing crossing = {.kind = SS_CROSSING_BESIDE, .vehicle = 0, .beside = 0, .lanes = 2};
    CU_ASSERT_PTR_EQUAL(ss_lane_rule_of(&bridge, 0), &bridge.notional_lanes);
    CU_ASSERT_PTR_EQUAL(ss_lane_rule_of(&bridge, 1), &bridge.lanes);
    CU_ASSERT_TRUE(ss_crossing_ranges(&bridge, &crossing, gauge, low, high));
    CU_ASSERT_DOUBLE_EQUAL(low[0], left + 1.5, 1e-12);
    CU_ASSERT_DOUBLE_EQUAL(low[1], left + 4.5, 1e-12);
    CU_ASSERT_DOUBLE_EQUAL(high[0], right - 4.5, 1e-12);
    CU_ASSERT_DOUBLE_EQUAL(high[1], right - 1.5, 1e-12);
    crossing = (ss_crossing){.kind = SS_CROSSING_ALONE, .vehicle = 1, .beside = -1, .lanes = 1};
    CU_ASSERT_TRUE(ss_crossing_ranges(&bridge, &crossing, &vehicles[1].gauge_m, low, high));
    FT_NEAR(low[0], 1.25 + 5.0);
    FT_NEAR(high[0], 1.25 + 17.0);
}

static void test_names(void) {
    CU_ASSERT_STRING_EQUAL(ss_crossing_name(SS_CROSSING_ALONE), "alone");
    CU_ASSERT_STRING_EQUAL(ss_crossing_name(SS_CROSSING_BESIDE), "beside");
    CU_ASSERT_STRING_EQUAL(ss_crossing_name(SS_CROSSING_CENTRED), "centred");
    CU_ASSERT_STRING_EQUAL(ss_crossing_name(SS_CROSSING_LINE), "signed line");
}

int main(void) {
    static const test_case cases[] = {
        {"usual rule", test_usual_rule},
        {"usual rule in metres", test_usual_rule_in_metres},
        {"wishes", test_wishes},
        {"notional lanes", test_notional_lanes},
        {"one truck", test_one_truck},
        {"fixed lanes", test_fixed_lanes},
        {"both rules at 20 ft", test_rules_meet_at_20_feet},
        {"shifting lanes", test_shifting_lanes},
        {"three abreast", test_three_abreast},
        {"ranges of a crossing", test_ranges_of_a_crossing},
        {"names", test_names},
    };
    return RUN_SUITE("lanes", cases);
}
