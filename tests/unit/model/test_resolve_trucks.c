/* test_resolve_trucks.c - trucks of the user's own: ranges of spacing, gauges of axles, kinds, lane loads,
 * and the words for what is wrong with them. */
#include "resolve_rows.h"

#define NEAR(value, expected, unit) CU_ASSERT_DOUBLE_EQUAL((value) / (unit), expected, 1e-9)

/* The sample's truck with more said about it; the caller destroys the bridge. */
static ss_bridge with_truck(const char *to) {
    ss_bridge bridge = {0};
    ss_diag_list diags = {0};
    char *const text = sample_changed("gauge = \"6.5 ft\"", to);
    CU_ASSERT_EQUAL_FATAL(sample_resolve(text, &bridge, &diags), SS_OK);
    CU_ASSERT_STRING_EQUAL_FATAL(bridge.vehicles[0].name, "milk hauler");
    ss_diag_destroy(&diags);
    free(text);
    return bridge;
}

static void test_plain(void) {
    ss_bridge b = with_truck("gauge = \"6.5 ft\"");
    const ss_vehicle *const v = &b.vehicles[0];
    CU_ASSERT_EQUAL(v->kind, SS_VEHICLE_USER);
    CU_ASSERT_EQUAL(v->lane_N_m, 0.0);
    CU_ASSERT(v->spacing_most_m[0] == 0.0 && v->spacing_most_m[1] == 0.0);
    for (int a = 0; a < 3; a++) {
        NEAR(ss_vehicle_gauge(v, a), 6.5, FOOT);
    }
    ss_bridge_destroy(&b);
}

static void test_everything(void) {
    ss_bridge b = with_truck("axle_gauges = \"0, 7.25, 6.5 ft\"; spacing_most = \"14 ft, 9 ft 3 in\"; kind = "
                             "\"permit\"; lane_load = \"0.37 kip/ft\"");
    const ss_vehicle *const v = &b.vehicles[0];
    CU_ASSERT_EQUAL(v->kind, SS_VEHICLE_PERMIT);
    NEAR(v->lane_N_m, 0.37, KIP / FOOT);
    CU_ASSERT_FALSE(v->lane_allowance);
    CU_ASSERT_EQUAL(v->spacing_most_m[0], 0.0); /* the same as the least: it does not vary */
    NEAR(v->spacing_most_m[1], 9.25, FOOT);
    NEAR(ss_vehicle_wheelbase(v), 18.5, FOOT);
    NEAR(ss_vehicle_wheelbase_most(v), 23.25, FOOT);
    NEAR(v->gauge_m, 7.25, FOOT); /* the widest, which needs the room */
    CU_ASSERT_EQUAL(ss_vehicle_gauge(v, 0), 0.0);
    NEAR(ss_vehicle_gauge(v, 1), 7.25, FOOT);
    NEAR(ss_vehicle_gauge(v, 2), 6.5, FOOT);
    ss_bridge_destroy(&b);
}

static void test_single_wheels(void) {
    ss_bridge b = with_truck("axle_gauges = \"0, 0, 0 ft\"");
    for (int a = 0; a < 3; a++) {
        CU_ASSERT_EQUAL(ss_vehicle_gauge(&b.vehicles[0], a), 0.0);
    }
    ss_bridge_destroy(&b);
}

static void test_kinds(void) {
    static const struct {
        const char *word;
        ss_vehicle_class kind;
    } row[] = {{"kind = \"own\"", SS_VEHICLE_USER},
               {"kind = \"legal\"", SS_VEHICLE_LEGAL},
               {"kind = \"permit\"", SS_VEHICLE_PERMIT},
               {"kind = \"farm\"", SS_VEHICLE_FARM},
               {"kind = \"emergency\"", SS_VEHICLE_EMERGENCY}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        ss_bridge b = with_truck(row[i].word);
        CU_ASSERT_EQUAL(b.vehicles[0].kind, row[i].kind);
        ss_bridge_destroy(&b);
    }
}

static const fault_row rows[] = {
    {"gauge = \"6.5 ft\"", "spacing_most = \"20 ft\"",
     "62: trucks.milk hauler.spacing_most: found 1 distance; 2 are due, as many as in spacing"},
    {"gauge = \"6.5 ft\"", "spacing_most = \"13.5, 4 ft\"",
     "62: trucks.milk hauler.spacing_most: value 1, 13.5 ft, is less than that of spacing, 14 ft\n"
     "62: trucks.milk hauler.spacing_most: value 2, 4 ft, is less than that of spacing, 4.5 ft"},
    {"gauge = \"6.5 ft\"", "axle_gauges = \"6, 7 ft\"",
     "62: trucks.milk hauler.axle_gauges: found 2 gauges for 3 axles; one for each axle is due"},
    {"gauge = \"6.5 ft\"", "gauge = \"6.5 ft\"; axle_gauges = \"6, 7, 7 ft\"",
     "62: trucks.milk hauler.gauge: does not go with axle_gauges; one gauge for all axles, or one for each"},
    {"gauge = \"6.5 ft\"", "kind = \"permits\"",
     "62: trucks.milk hauler.kind: found \"permits\"; one of \"own\", \"legal\", \"permit\", \"farm\", "
     "\"emergency\" is due; did you mean \"permit\"?"},
    {"gauge = \"6.5 ft\"", "lane_load = \"0.64 kip\"",
     "62: trucks.milk hauler.lane_load: 0.64 kip is a force; a force per length is due, such as 35 lb/ft"},
    {"gauge = \"6.5 ft\"", "spacing_max = \"20, 5 ft\"",
     "62: trucks.milk hauler.spacing_max: unknown key; did you mean spacing_most?"},
    {"spacing = \"14, 4.5 ft\"; gauge = \"6.5 ft\"",
     "spacing = \"14 ft\"; spacing_most = \"20, 5 ft\"; axle_gauges = \"6 ft\"; gauge = \"6 ft\"",
     "62: trucks.milk hauler.spacing: found 1 distance for 3 axles; 2 are due, one fewer than axles\n"
     "62: trucks.milk hauler.gauge: does not go with axle_gauges; one gauge for all axles, or one for each\n"
     "62: trucks.milk hauler.axle_gauges: found 1 gauge for 3 axles; one for each axle is due"},
};

static void test_faults(void) {
    check_rows(rows, (int)(sizeof rows / sizeof rows[0]), SS_FAULT);
}

int main(void) {
    static const test_case cases[] = {{"plain", test_plain},
                                      {"everything", test_everything},
                                      {"single wheels", test_single_wheels},
                                      {"kinds", test_kinds},
                                      {"faults", test_faults}};
    return RUN_SUITE("resolve trucks", cases);
}
