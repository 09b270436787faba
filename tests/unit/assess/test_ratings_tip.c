/* test_ratings_tip.c - trucks that tip the bridge before a section is full, against the balance of moments.
 */
#include "rated_bridge.h"

/* Type 3 of the AASHTO Manual for Bridge Evaluation: 16, 17, 17 kip at 0, 15 and 19 ft. */
static const double axle[3] = {16.0, 17.0, 17.0}, behind[3] = {0.0, 15.0, 19.0};

/* Largest moment (kip ft) about a bearing of the axles on an overhang of that length, one of them at its end
 * and those before it off the bridge: the two rear ones as the truck leaves. */
static double tipping_moment(double overhang) {
    double most = 0.0;
    for (int end = 0; end < 3; end++) {
        double leaving = 0.0, backing = 0.0;
        for (int i = 0; i < 3; i++) {
            const double within = behind[i] - behind[end];
            leaving += within >= 0.0 ? axle[i] * (overhang - within) : 0.0;
            backing += within <= 0.0 ? axle[i] * (overhang + within) : 0.0;
        }
        most = fmax(most, fmax(leaving, backing));
    }
    CHECK_CLOSE(most, 17.0 * overhang + 17.0 * (overhang - 4.0), 1e-15);
    return most;
}

/* A car of one line that is far too strong to govern, loose on 15 and 45 of 60 ft, 0.6 kip/ft. */
static void loose_car(rated_bridge *r, double left, double width) {
    rated_start(r);
    const int section = rated_given(r, "sill", 7116e2, 900e2, 544e2, 16e2, 0.6);
    rated_car(r, "lone", 60.0, left, left + width);
    rated_line(r, "sill", SS_ROLE_MAIN, left + width / 2.0, section);
    rated_bearing(r, 0, 15.0, width);
    rated_bearing(r, 0, 45.0, width);
    r->bridge.roadway_right = (left + width) * FOOT;
    rated_truck(r, "Type 3");
}

static void check_tips(const ss_rating_item *item, double trucks) {
    CU_ASSERT(item->tips);
    CU_ASSERT_EQUAL(item->truck_count, (int)trucks);
    CHECK_CLOSE(item->rf * rated_multiplier(item),
                item->factors.dc * 0.6 * 60.0 * 15.0 / (trucks * tipping_moment(15.0)), 1e-8);
}

static void test_one_truck(void) {
    rated_bridge r;
    ss_ratings result = {0};
    loose_car(&r, 0.0, 10.0);
    rated_build(&r);
    rated_rate(&r, &result);
    check_tips(rated_governing(&result, 0), 1.0);
    ss_ratings_destroy(&result);
    rated_destroy(&r);
}

/* Two of them that back out side by side tip it at half of that; the car is wide enough, and its bearings
 * too, that it does not roll. */
static void test_two_abreast(void) {
    rated_bridge r;
    ss_ratings result = {0};
    ss_crossing crossings[2] = {{.kind = SS_CROSSING_ALONE, .vehicle = 0, .beside = -1, .lanes = 1},
                                {.kind = SS_CROSSING_BESIDE, .vehicle = 0, .beside = 0, .lanes = 2}};
    loose_car(&r, 0.0, 24.0);
    r.bridge.crossings = crossings;
    r.bridge.crossing_count = 2;
    rated_build(&r);
    rated_rate(&r, &result);
    check_tips(rated_governing(&result, 1), 2.0);
    ss_ratings_destroy(&result);
    rated_destroy(&r);
}

int main(void) {
    static const test_case cases[] = {{"one truck", test_one_truck}, {"two abreast", test_two_abreast}};
    return RUN_SUITE("ratings: tipping", cases);
}
