/* test_vehicle.c - built-in vehicles: weights, lengths, names. */
#include "sillspan/vehicle.h"
#include "support/suite.h"

static void test_weights_and_wheelbases(void) {
    static const struct {
        const char *name;
        int axles;
        double gross_kip, wheelbase_ft;
    } row[] = {{"H15-44", 2, 30.0, 14.0},
               {"HS20-44", 3, 72.0, 28.0},
               {"Type 3", 3, 50.0, 19.0},
               {"EV2", 2, 57.5, 15.0},
               {"EV3", 3, 86.0, 19.0}};
    int count = 0;
    const ss_vehicle *const vehicles = ss_vehicles(&count);
    CU_ASSERT_EQUAL_FATAL(count, 5);
    for (int i = 0; i < count; i++) {
        CU_ASSERT_STRING_EQUAL(vehicles[i].name, row[i].name);
        CU_ASSERT_EQUAL(vehicles[i].axle_count, row[i].axles);
        CU_ASSERT_DOUBLE_EQUAL(ss_vehicle_gross(&vehicles[i]) / KIP, row[i].gross_kip, 1e-9);
        CU_ASSERT_DOUBLE_EQUAL(ss_vehicle_wheelbase(&vehicles[i]) / FOOT, row[i].wheelbase_ft, 1e-9);
        CU_ASSERT_DOUBLE_EQUAL(vehicles[i].gauge_m / FOOT, 6.0, 1e-12);
        CU_ASSERT_EQUAL(vehicles[i].spacing_m[vehicles[i].axle_count - 1], 0.0);
        CU_ASSERT_PTR_NOT_NULL(vehicles[i].source);
    }
    CU_ASSERT_STRING_EQUAL(
        ss_vehicle_find("HS20-44")->remark,
        "the truck only, not the lane load; rear spacing held at 14 ft, the range up to 30 ft is not tried");
}

static void test_names(void) {
    CU_ASSERT_PTR_EQUAL(ss_vehicle_find("hs 20 44"), ss_vehicle_find("HS20-44"));
    CU_ASSERT_PTR_EQUAL(ss_vehicle_find("HS20"), ss_vehicle_find("HS20-44"));
    CU_ASSERT_PTR_EQUAL(ss_vehicle_find("h-15"), ss_vehicle_find("H15-44"));
    CU_ASSERT_PTR_EQUAL(ss_vehicle_find("type3"), ss_vehicle_find("Type 3"));
    CU_ASSERT_PTR_EQUAL(ss_vehicle_find(" ev-3 "), ss_vehicle_find("EV3"));
    CU_ASSERT_STRING_EQUAL(ss_vehicle_find("EV3")->name, "EV3");
    CU_ASSERT_PTR_NULL(ss_vehicle_find("HS2"));
    CU_ASSERT_PTR_NULL(ss_vehicle_find("HS20-4"));
    CU_ASSERT_PTR_NULL(ss_vehicle_find("EV"));
    CU_ASSERT_PTR_NULL(ss_vehicle_find("Type 3-3"));
    CU_ASSERT_PTR_NULL(ss_vehicle_find(""));
}

int main(void) {
    static const test_case cases[] = {
        {"weights and wheelbases", test_weights_and_wheelbases},
        {"names", test_names},
    };
    return RUN_SUITE("vehicle", cases);
}
