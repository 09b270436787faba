/* test_posting_rules.c - safe loads, rounding, kinds of trucks, axles and codes, worked by hand. */
#include "sillspan/posting.h"

#include <string.h>

#include "support/suite.h"

#define TON (2.0 * KIP)
#define TONNE 9806.65

/* W / 0.7 (RF - 0.3): 25 tons at 0.72 give 25 x 0.42 / 0.7 = 15; 36 at 0.93 give 36 x 0.63 / 0.7 = 32.4;
 * 40 at 0.3 none. RF W otherwise: 25 x 0.72 = 18. */
static void test_safe_loads(void) {
    static const struct {
        ss_method method;
        double rf, tons, safe;
    } row[] = {{SS_METHOD_LRFR, 0.72, 25.0, 15.0}, {SS_METHOD_LRFR, 0.93, 36.0, 32.4},
               {SS_METHOD_LRFR, 0.3, 40.0, 0.0},   {SS_METHOD_LRFR, 0.2999, 40.0, 0.0},
               {SS_METHOD_LRFR, 0.0, 40.0, 0.0},   {SS_METHOD_LRFR, 0.37, 38.75, 3.875},
               {SS_METHOD_LFR, 0.72, 25.0, 18.0},  {SS_METHOD_ASR, 0.2375, 36.0, 8.55},
               {SS_METHOD_LFR, -0.1, 36.0, 0.0}};
    for (int i = 0; i < ENTRIES(row); i++) {
        const double safe = ss_posting_load(row[i].method, row[i].rf, row[i].tons * TON);
        CU_ASSERT_DOUBLE_EQUAL(safe / TON, row[i].safe, 1e-12 * row[i].tons);
    }
    for (int method = SS_METHOD_LRFR; method <= SS_METHOD_ASR; method++) {
        CU_ASSERT_EQUAL(ss_posting_load((ss_method)method, 1.0, 7.3), (double)INFINITY);
        CU_ASSERT_EQUAL(ss_posting_load((ss_method)method, (double)INFINITY, 7.3), (double)INFINITY);
        CU_ASSERT(isnan(ss_posting_load((ss_method)method, (double)NAN, 7.3)));
    }
}

static void test_rounding(void) {
    CU_ASSERT_DOUBLE_EQUAL(ss_posting_round(14.99 * TON, SS_UNITS_US) / TON, 14.0, 1e-12);
    CU_ASSERT_DOUBLE_EQUAL(ss_posting_round(25.0 * TON / 0.7 * (0.72 - 0.3), SS_UNITS_US) / TON, 15.0, 1e-12);
    CU_ASSERT_DOUBLE_EQUAL(ss_posting_round(0.97 * TON, SS_UNITS_US), 0.0, 0.0);
    CU_ASSERT_DOUBLE_EQUAL(ss_posting_round(13.608 * TONNE, SS_UNITS_SI) / TONNE, 13.5, 1e-12);
    CU_ASSERT_DOUBLE_EQUAL(ss_posting_round(13.49 * TONNE, SS_UNITS_SI) / TONNE, 13.0, 1e-12);
    CU_ASSERT_EQUAL(ss_posting_round((double)INFINITY, SS_UNITS_US), (double)INFINITY);
}

static void test_groups(void) {
    static const struct {
        const char *name;
        ss_posting_group group;
    } row[] = {{"H15-44", SS_POSTING_SINGLE},        {"HS20-44", SS_POSTING_COMBINATION},
               {"Type 3", SS_POSTING_SINGLE},        {"Type 3S2", SS_POSTING_COMBINATION},
               {"Type 3-3", SS_POSTING_COMBINATION}, {"Lane-type legal", SS_POSTING_COMBINATION},
               {"SU4", SS_POSTING_SINGLE},           {"SU7", SS_POSTING_SINGLE},
               {"NRL", SS_POSTING_SINGLE},           {"School bus", SS_POSTING_SINGLE},
               {"EV2", SS_POSTING_EMERGENCY},        {"EV3", SS_POSTING_EMERGENCY},
               {"Tank wagon", SS_POSTING_FARM},      {"Fatigue truck", SS_POSTING_NONE},
               {"LM1 lane 1", SS_POSTING_NONE}};
    for (int i = 0; i < ENTRIES(row); i++) {
        const ss_vehicle *const vehicle = ss_vehicle_find(row[i].name);
        CU_ASSERT_PTR_NOT_NULL_FATAL(vehicle);
        CHECK_ROW(ss_posting_group_of(vehicle) == row[i].group, row[i].name);
    }
    const ss_vehicle hauler = {.kind = SS_VEHICLE_USER,
                               .axle_count = 4,
                               .axle_N = {1.0, 2.0, 2.0, 3.0},
                               .spacing_m = {14.0 * FOOT, 8.0 * FOOT, 8.1 * FOOT}};
    CU_ASSERT_EQUAL(ss_posting_group_of(&hauler), SS_POSTING_COMBINATION);
    const ss_vehicle permit = {.kind = SS_VEHICLE_PERMIT, .axle_count = 2, .axle_N = {1.0, 2.0}};
    CU_ASSERT_EQUAL(ss_posting_group_of(&permit), SS_POSTING_NONE);
}

static void test_heaviest_axles(void) {
    bool tandem = true;
    CU_ASSERT_DOUBLE_EQUAL(ss_posting_axle(ss_vehicle_find("EV2"), &tandem) / KIP, 33.5, 1e-9);
    CU_ASSERT_FALSE(tandem);
    CU_ASSERT_DOUBLE_EQUAL(ss_posting_axle(ss_vehicle_find("EV3"), &tandem) / KIP, 62.0, 1e-9);
    CU_ASSERT_TRUE(tandem);
    /* 3 axles close together: the heavier pair */
    const ss_vehicle tridem = {
        .axle_count = 4, .axle_N = {9.5, 4.1, 7.3, 5.2}, .spacing_m = {12.0 * FOOT, 4.5 * FOOT, 4.5 * FOOT}};
    CU_ASSERT_DOUBLE_EQUAL(ss_posting_axle(&tridem, &tandem), 12.5, 1e-12);
    CU_ASSERT_TRUE(tandem);
}

/* Percent below the legal load: 0.1 to 9.9, 10 to 19.9 ... above 39.9. */
static void test_codes(void) {
    static const struct {
        double rf;
        int code;
    } row[] = {{1.37, 5}, {1.0, 5}, {0.999, 4}, {0.901, 4}, {0.9, 3}, {0.801, 3},           {0.8, 2},
               {0.72, 2}, {0.7, 1}, {0.61, 1},  {0.6, 0},   {0.0, 0}, {(double)INFINITY, 5}};
    for (int i = 0; i < ENTRIES(row); i++) CU_ASSERT_EQUAL(ss_posting_code(row[i].rf), row[i].code);
}

static void test_names_and_limits_of_rating(void) {
    CU_ASSERT_STRING_EQUAL(ss_posting_group_name(SS_POSTING_SINGLE), "single-unit trucks");
    CU_ASSERT_STRING_EQUAL(ss_posting_group_name(SS_POSTING_EMERGENCY), "emergency vehicles");
    CU_ASSERT_STRING_EQUAL(ss_posting_group_name(SS_POSTING_NONE), "not posted for");
    CU_ASSERT_STRING_EQUAL(ss_posting_state_name(SS_POSTING_LIMITED), "limited");
    int count = 0;
    const char *const *const checked = ss_not_rated(true, &count);
    CU_ASSERT_PTR_NOT_NULL(strstr(checked[4], "fastening and overhangs"));
    const char *const *const items = ss_not_rated(false, &count);
    CU_ASSERT_PTR_NOT_NULL(strstr(items[4], "The deck itself"));
    const char *const due[] = {"abutments", "foundations", "Scour", "Railing", "Braking and centrifugal"};
    for (int k = 0; k < ENTRIES(due); k++) {
        bool said = false;
        for (int i = 0; i < count; i++) said = said || strstr(items[i], due[k]) != NULL;
        CHECK_ROW(said, due[k]);
    }
}

int main(void) {
    static const test_case cases[] = {
        {"safe loads", test_safe_loads}, {"rounding", test_rounding},
        {"groups", test_groups},         {"heaviest axles", test_heaviest_axles},
        {"codes", test_codes},           {"names, and what is not rated", test_names_and_limits_of_rating},
    };
    return RUN_SUITE("posting rules", cases);
}
