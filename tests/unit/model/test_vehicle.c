/* test_vehicle.c - built-in vehicles: weights, lengths, names, and what holds for every one of them. */
#include <math.h>
#include <string.h>

#include "sillspan/vehicle.h"
#include "support/exact_units.h"
#include "support/suite.h"

#define NEAR(value, expected, unit) CU_ASSERT_DOUBLE_EQUAL((value) / (unit), expected, 1e-9)

static void test_weights_and_wheelbases(void) {
    static const struct {
        const char *name;
        ss_vehicle_class kind;
        int axles;
        double gross_kip, wheelbase_ft, most_ft;
    } row[] = {{"H15-44", SS_VEHICLE_DESIGN, 2, 30.0, 14.0, 14.0},
               {"H20-44", SS_VEHICLE_DESIGN, 2, 40.0, 14.0, 14.0},
               {"HS15-44", SS_VEHICLE_DESIGN, 3, 54.0, 28.0, 44.0},
               {"HS20-44", SS_VEHICLE_DESIGN, 3, 72.0, 28.0, 44.0},
               {"HL-93", SS_VEHICLE_DESIGN, 3, 72.0, 28.0, 44.0},
               {"Type 3", SS_VEHICLE_LEGAL, 3, 50.0, 19.0, 19.0},
               {"Type 3S2", SS_VEHICLE_LEGAL, 5, 72.0, 41.0, 41.0},
               {"Type 3-3", SS_VEHICLE_LEGAL, 6, 80.0, 54.0, 54.0},
               {"Lane-type legal", SS_VEHICLE_LEGAL, 6, 60.0, 54.0, 54.0},
               {"SU4", SS_VEHICLE_LEGAL, 4, 54.0, 18.0, 18.0},
               {"SU5", SS_VEHICLE_LEGAL, 5, 62.0, 22.0, 22.0},
               {"SU6", SS_VEHICLE_LEGAL, 6, 69.5, 26.0, 26.0},
               {"SU7", SS_VEHICLE_LEGAL, 7, 77.5, 30.0, 30.0},
               {"NRL", SS_VEHICLE_LEGAL, 8, 80.0, 30.0, 38.0},
               {"EV2", SS_VEHICLE_EMERGENCY, 2, 57.5, 15.0, 15.0},
               {"EV3", SS_VEHICLE_EMERGENCY, 3, 86.0, 19.0, 19.0},
               {"Fatigue truck", SS_VEHICLE_FATIGUE, 3, 72.0, 44.0, 44.0},
               {"School bus", SS_VEHICLE_BUS, 2, 36.2, 23.0, 23.0},
               {"Grain cart single", SS_VEHICLE_FARM, 3, 56.0, 27.0, 27.0},
               {"Grain cart tandem", SS_VEHICLE_FARM, 4, 92.0, 33.0, 33.0},
               {"Tank wagon", SS_VEHICLE_FARM, 4, 86.0, 34.0, 34.0},
               {"Combine", SS_VEHICLE_FARM, 2, 42.0, 12.0, 12.0},
               {"LM1 lane 1", SS_VEHICLE_EUROPEAN, 2, 600.0 / (KIP / 1e3), 1.2 / FOOT, 1.2 / FOOT},
               {"LM1 lane 2", SS_VEHICLE_EUROPEAN, 2, 400.0 / (KIP / 1e3), 1.2 / FOOT, 1.2 / FOOT},
               {"LM1 lane 3", SS_VEHICLE_EUROPEAN, 2, 200.0 / (KIP / 1e3), 1.2 / FOOT, 1.2 / FOOT}};
    int count = 0;
    const ss_vehicle *const vehicles = ss_vehicles(&count);
    CU_ASSERT_EQUAL_FATAL(count, (int)(sizeof row / sizeof row[0]));
    for (int i = 0; i < count; i++) {
        CU_ASSERT_STRING_EQUAL(vehicles[i].name, row[i].name);
        CU_ASSERT_EQUAL(vehicles[i].kind, row[i].kind);
        CU_ASSERT_EQUAL(vehicles[i].axle_count, row[i].axles);
        NEAR(ss_vehicle_gross(&vehicles[i]), row[i].gross_kip, KIP);
        NEAR(ss_vehicle_wheelbase(&vehicles[i]), row[i].wheelbase_ft, FOOT);
        NEAR(ss_vehicle_wheelbase_most(&vehicles[i]), row[i].most_ft, FOOT);
    }
    /* A lane-type load is posted by the whole Type 3-3 that it stands for. */
    NEAR(ss_vehicle_rated_weight(ss_vehicle_find("Lane-type legal")), 80.0, KIP);
    NEAR(ss_vehicle_rated_weight(ss_vehicle_find("SU6")), 69.5, KIP);
}

static void check_loading(const ss_vehicle *v) {
    CU_ASSERT(v->name != NULL && v->source != NULL && v->name[0] != '\0' && v->source[0] != '\0');
    CU_ASSERT_FATAL(v->axle_count >= 1 && v->axle_count <= SS_AXLES_MAX);
    CU_ASSERT(v->gauge_m > 0.0 && v->lane_N_m >= 0.0 && v->rated_N >= 0.0);
    CU_ASSERT_EQUAL(v->dropped >> v->axle_count, 0);
    for (int a = 0; a < SS_AXLES_MAX; a++) {
        CU_ASSERT((v->axle_N[a] > 0.0) == (a < v->axle_count));
        CU_ASSERT((v->spacing_m[a] > 0.0) == (a + 1 < v->axle_count));
        CU_ASSERT(v->spacing_most_m[a] == 0.0 || v->spacing_most_m[a] > v->spacing_m[a]);
        CU_ASSERT(v->axle_gauge_m[a] <= v->gauge_m);
    }
}

/* What the engines lean on, for each vehicle and each of its other loadings. */
static void test_all_sound(void) {
    int count = 0;
    const ss_vehicle *const vehicles = ss_vehicles(&count);
    CU_ASSERT(count < 64);
    for (int i = 0; i < count; i++) {
        CU_ASSERT_EQUAL(vehicles[i].use, SS_USE_ALL);
        CU_ASSERT_PTR_EQUAL(ss_vehicle_find(vehicles[i].name), &vehicles[i]);
        CU_ASSERT(ss_vehicle_class_name(vehicles[i].kind)[0] != '\0');
        CU_ASSERT(ss_vehicle_class_key(vehicles[i].kind)[0] != '\0');
        int loadings = 0;
        for (const ss_vehicle *v = &vehicles[i]; v != NULL && loadings < 8; v = v->also, loadings++) {
            check_loading(v);
            CU_ASSERT_EQUAL(v->kind, vehicles[i].kind);
        }
        CU_ASSERT(loadings < 8);
    }
}

static void test_gauges(void) {
    const ss_vehicle *const cart = ss_vehicle_find("Grain cart tandem");
    NEAR(cart->gauge_m, 10.0, FOOT);
    NEAR(ss_vehicle_gauge(cart, 0), 5.0, FOOT);
    NEAR(ss_vehicle_gauge(cart, 1), 7.5, FOOT);
    NEAR(ss_vehicle_gauge(cart, 3), 10.0, FOOT);
    ss_vehicle tricycle = *cart;
    tricycle.axle_gauge_m[0] = -1.0;
    CU_ASSERT_EQUAL(ss_vehicle_gauge(&tricycle, 0), 0.0);
    NEAR(ss_vehicle_find("LM1 lane 2")->gauge_m, 2.0, 1.0);
    NEAR(ss_vehicle_find("SU7")->gauge_m, 6.0, FOOT);
}

static void test_names(void) {
    CU_ASSERT_PTR_EQUAL(ss_vehicle_find("hs 20 44"), ss_vehicle_find("HS20-44"));
    CU_ASSERT_PTR_EQUAL(ss_vehicle_find("HS20"), ss_vehicle_find("HS20-44"));
    CU_ASSERT_PTR_EQUAL(ss_vehicle_find("HS 20-44"), ss_vehicle_find("HS20-44"));
    CU_ASSERT_PTR_EQUAL(ss_vehicle_find("h-15"), ss_vehicle_find("H15-44"));
    CU_ASSERT_PTR_EQUAL(ss_vehicle_find("hl93"), ss_vehicle_find("HL-93"));
    CU_ASSERT_PTR_EQUAL(ss_vehicle_find("type3"), ss_vehicle_find("Type 3"));
    CU_ASSERT_PTR_EQUAL(ss_vehicle_find("Type 33"), ss_vehicle_find("Type 3-3"));
    CU_ASSERT_PTR_EQUAL(ss_vehicle_find(" ev-3 "), ss_vehicle_find("EV3"));
    CU_ASSERT_STRING_EQUAL(ss_vehicle_find("EV3")->name, "EV3");
    CU_ASSERT_PTR_NULL(ss_vehicle_find("HS2"));
    CU_ASSERT_PTR_NULL(ss_vehicle_find("HS20-4"));
    CU_ASSERT_PTR_NULL(ss_vehicle_find("EV"));
    CU_ASSERT_PTR_NULL(ss_vehicle_find("H20 lane load in bending"));
    CU_ASSERT_PTR_NULL(ss_vehicle_find(""));
    CU_ASSERT_STRING_EQUAL(ss_vehicle_nearest("HS21-44"), "HS20-44");
    CU_ASSERT_STRING_EQUAL(ss_vehicle_nearest("shool bus"), "School bus");
    CU_ASSERT_PTR_NULL(ss_vehicle_nearest("steam roller"));
}

/* AASHO's classes of 1941: H15 is three quarters of H20, and HS15 of HS20, axles and lane loads alike. */
static void check_three_quarters(const char *light, const char *heavy) {
    const ss_vehicle *a = ss_vehicle_find(light);
    const ss_vehicle *b = ss_vehicle_find(heavy);
    int loadings = 0;
    for (; a != NULL && b != NULL; a = a->also, b = b->also, loadings++) {
        CU_ASSERT_EQUAL(a->axle_count, b->axle_count);
        CU_ASSERT_EQUAL(a->use, b->use);
        CU_ASSERT_EQUAL(a->lane_allowance, b->lane_allowance);
        CU_ASSERT_DOUBLE_EQUAL(a->lane_N_m, 0.75 * b->lane_N_m, 1e-9);
        for (int i = 0; i < a->axle_count; i++) {
            CU_ASSERT_DOUBLE_EQUAL(a->axle_N[i], 0.75 * b->axle_N[i], 1e-9);
            CU_ASSERT_EQUAL(a->spacing_m[i], b->spacing_m[i]);
            CU_ASSERT_EQUAL(a->spacing_most_m[i], b->spacing_most_m[i]);
        }
    }
    CU_ASSERT(a == NULL && b == NULL);
    CU_ASSERT_EQUAL(loadings, 4);
}

static void test_proportions(void) {
    check_three_quarters("H15-44", "H20-44");
    check_three_quarters("HS15-44", "HS20-44");
}

/*
 * The federal bridge formula, 500 (L N / (N - 1) + 12 N + 36) lb to the nearest 500 lb and at most 80000 lb
 * (23 CFR 658.17), allows each legal truck, and specialized hauling vehicles were made to weigh just that.
 */
static void test_bridge_formula(void) {
    static const struct {
        const char *name;
        bool just;
    } row[] = {{"Type 3", false}, {"Type 3S2", false}, {"Type 3-3", true}, {"SU4", true},
               {"SU5", true},     {"SU6", true},       {"SU7", true}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const ss_vehicle *const v = ss_vehicle_find(row[i].name);
        const double n = v->axle_count;
        const double length = ss_vehicle_wheelbase(v) / FOOT;
        const double pounds = length * n / (n - 1.0) + 12.0 * n + 36.0;
        const double allowed = fmin(0.5 * round(pounds), 80.0);
        const double gross = ss_vehicle_gross(v) / KIP;
        CU_ASSERT(gross <= allowed + 1e-9);
        CU_ASSERT_EQUAL(fabs(gross - allowed) < 1e-9, row[i].just);
    }
}

static void test_pairs_and_legal_lanes(void) {
    const ss_vehicle *const truck = ss_vehicle_find("HL-93");
    const ss_vehicle *const two = truck->also->also;
    CU_ASSERT_EQUAL_FATAL(two->axle_count, 6);
    CU_ASSERT_EQUAL(two->use, SS_USE_HOGGING);
    CU_ASSERT_PTR_NULL(two->also);
    for (int a = 0; a < 6; a++) {
        CU_ASSERT_DOUBLE_EQUAL(two->axle_N[a], 0.9 * truck->axle_N[a % 3], 1e-9);
    }
    CU_ASSERT_DOUBLE_EQUAL(two->lane_N_m, 0.9 * truck->lane_N_m, 1e-9);
    NEAR(two->spacing_m[2], 50.0, FOOT);
    CU_ASSERT(!truck->lane_allowance && !two->lane_allowance);
    const ss_vehicle *const legal = ss_vehicle_find("Lane-type legal");
    const ss_vehicle *const type33 = ss_vehicle_find("Type 3-3");
    CU_ASSERT_EQUAL_FATAL(legal->also->axle_count, 12);
    for (int a = 0; a < 12; a++) {
        CU_ASSERT_DOUBLE_EQUAL(legal->also->axle_N[a], 0.75 * type33->axle_N[a % 6], 1e-9);
        CU_ASSERT_EQUAL(legal->also->spacing_m[a], a == 5 ? 30.0 * FOOT : type33->spacing_m[a % 6]);
    }
    NEAR(legal->lane_N_m, 0.2, KIP / FOOT);
    NEAR(legal->also->lane_N_m, 0.2, KIP / FOOT);
    /* 9 kN/m2 on the 3 m of lane 1, 2.5 on all else (EN 1991-2, table 4.2, from memory). */
    NEAR(ss_vehicle_find("LM1 lane 1")->lane_N_m, (9.0e3 - 2.5e3) * 3.0, 1.0);
    NEAR(ss_vehicle_find("LM1 lane 3")->lane_N_m, 0.0, 1.0);
    for (const char *const *name = (const char *const[]){"LM1 lane 1", "LM1 lane 2", "LM1 lane 3", NULL};
         *name != NULL; name++) {
        NEAR(ss_vehicle_find(*name)->area_N_m2, 2.5e3, 1.0);
    }
}

int main(void) {
    static const test_case cases[] = {
        {"weights and wheelbases", test_weights_and_wheelbases},
        {"all are sound", test_all_sound},
        {"gauges", test_gauges},
        {"names", test_names},
        {"classes of 1941", test_proportions},
        {"federal bridge formula", test_bridge_formula},
        {"pairs and lane-type loads", test_pairs_and_legal_lanes},
    };
    return RUN_SUITE("vehicle", cases);
}
