/* test_cases.c - placed loads: none is lost at the ends of cars. */
#include "sillspan/cases.h"
#include "support/exact_units.h"
#include "support/make_bridge.h"
#include "support/suite.h"

/* One car of 60 ft on a wide pad at each end, and a truck parked with its front axle at x, facing either way.
 */
static double carried_kip(double x, bool backward) {
    made_bridge m;
    made_start(&m, 1.7);
    const int section = hand_section(&m.bridge, 2.3e-3, 9.1e-4, 0.0, 0.0);
    hand_car(&m.bridge, "car", 0.0, 60.0 * FOOT, 0.0, 9.0 * FOOT);
    const int line = hand_line(&m.bridge, SS_ROLE_MAIN, "sill", 4.5 * FOOT, section);
    hand_pad(&m.bridge, line, 0.0, 1.1);
    hand_pad(&m.bridge, line, 60.0 * FOOT, 1.1);
    const double axle[3] = {24.0 * KIP, 31.0 * KIP, 31.0 * KIP};
    const double spacing[3] = {15.0 * FOOT, 4.0 * FOOT, 0.0};
    ss_placed_load placed = {.kind = SS_LOAD_TRUCK,
                             .vehicle = made_vehicle(&m, 3, axle, spacing, 6.0 * FOOT),
                             .backward = backward,
                             .x0 = x,
                             .y0 = 4.4 * FOOT,
                             .line = -1};
    ss_case only = {.name = "parked", .load_count = 1};
    m.bridge.placed = &placed;
    m.bridge.placed_count = 1;
    m.bridge.cases = &only;
    m.bridge.case_count = 1;
    ss_case_list cases = {0};
    CHECK_OK(made_solve(&m), &m.error);
    CHECK_OK(ss_cases_compute(&m.permanent, &cases, &m.error), &m.error);
    const double carried = (cases.items[0].reaction[0] + cases.items[0].reaction[1]) / KIP;
    ss_cases_destroy(&cases);
    made_free(&m);
    return carried;
}

/* 19 ft less 15 ft less 4 ft is a little less than nothing in metres; that axle still stands on the bridge.
 */
static void test_axle_at_the_very_end(void) {
    CHECK_CLOSE(carried_kip(19.0 * FOOT, false), 86.0, 1e-9);
    CHECK_CLOSE(carried_kip(19.0 * FOOT - 15.0 * FOOT - 4.0 * FOOT + 41.0 * FOOT, true), 86.0, 1e-9);
    CHECK_CLOSE(carried_kip(60.0 * FOOT, false), 86.0, 1e-9);
}

static void test_axle_on_the_ground(void) {
    CHECK_CLOSE(carried_kip(18.0 * FOOT, false), 55.0, 1e-9);
    CHECK_CLOSE(carried_kip(42.0 * FOOT, true), 55.0, 1e-9);
    CHECK_CLOSE(carried_kip(60.5 * FOOT, false), 62.0, 1e-9);
}

/* A load just past the end of a car, and before the next one's, is at the station that they share. */
static void test_load_at_a_merged_station(void) {
    made_bridge m;
    made_start(&m, 1.7);
    const int section = hand_section(&m.bridge, 2.3e-3, 9.1e-4, 0.0, 0.0);
    for (int car = 0; car < 2; car++) {
        const double x1 = 12.2 + 6e-4 * car;
        hand_car(&m.bridge, car == 0 ? "north" : "south", 0.0, x1, 2.8 * car, 2.8 * car + 2.7);
        const int line = hand_line(&m.bridge, SS_ROLE_MAIN, "sill", 2.8 * car + 1.3, section);
        hand_pad(&m.bridge, line, 0.0, 1.1);
        hand_pad(&m.bridge, line, x1, 1.1);
    }
    ss_placed_load placed[2] = {{.kind = SS_LOAD_POINT, .value = 3.7e4, .x0 = 12.2003, .y0 = 1.1, .line = -1},
                                {.kind = SS_LOAD_POINT, .value = 1.9e4, .x0 = 12.2003, .y0 = 1.3, .line = 0}};
    ss_case only = {.name = "at the end", .load_count = 2};
    m.bridge.placed = placed;
    m.bridge.placed_count = 2;
    m.bridge.cases = &only;
    m.bridge.case_count = 1;
    ss_case_list cases = {0};
    CHECK_OK(made_solve(&m), &m.error);
    CU_ASSERT_EQUAL(m.mesh.merged_count, 2);
    CHECK_OK(ss_cases_compute(&m.permanent, &cases, &m.error), &m.error);
    CHECK_CLOSE(cases.items[0].reaction[1], 5.6e4, 1e-12);
    CHECK_CLOSE(cases.items[0].load, 5.6e4, 1e-15);
    CU_ASSERT_EQUAL(cases.items[0].outside, 0.0);
    CU_ASSERT(cases.items[0].equilibrium < 1e-12);
    ss_cases_destroy(&cases);
    made_free(&m);
}

int main(void) {
    static const test_case cases[] = {
        {"a load at a merged station is on the car", test_load_at_a_merged_station},
        {"an axle at the very end stands on the bridge", test_axle_at_the_very_end},
        {"an axle beyond the end stands on the ground", test_axle_on_the_ground},
    };
    return RUN_SUITE("cases", cases);
}
