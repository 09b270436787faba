/* test_area_hand.c - load model 1 on one wide beam, by hand. */
#include "load_model_1.h"

/* A single line in the middle of a car takes all load, with its torque; its ends are held against twist. The
 * roadway goes from `left` to `right` of the line. */
#define SPAN 14.0
static void one_beam(made_bridge *m, double left, double right) {
    made_start(m, 0.5);
    ss_bridge *const b = &m->bridge;
    hand_car(b, "wide", 0.0, SPAN, left - 0.5, right + 0.5);
    hand_line(b, SS_ROLE_MAIN, "beam", 0.0, hand_section(b, 8.0e-3, 3.0e-3, 0.0, 0.0));
    hand_pad(b, 0, 0.0, 1.0);
    hand_pad(b, 0, SPAN, 1.0);
    b->roadway_left = left;
    b->roadway_right = right;
}

static double extreme(const made_bridge *m, const ss_effect *effect, int side, ss_envelope_extent extent,
                      int *trucks) {
    const ss_envelope_options o = {.factors = {1.0, 1.0}, .live_factor = 1.0, .extent = extent};
    ss_envelope e;
    ss_error error;
    CHECK_OK(ss_envelope_compute(&m->permanent, &m->placements, effect, 1, &o, &e, &error), &error);
    const ss_extreme *const found = &e.extremes[side];
    const double value = found->value;
    CU_ASSERT(e.checked_count > 0);
    if (trucks != NULL) {
        *trucks = found->load == NULL ? 0 : found->load->truck_count;
    }
    ss_envelope_destroy(&e);
    return value;
}

static ss_effect of_beam(const made_bridge *m, double at, ss_effect_kind kind) {
    ss_effect e;
    ss_error error;
    CHECK_OK(ss_mesh_effect(&m->mesh, SS_MEMBER_LINE, 0, at, false, kind, &e, &error), &error);
    return e;
}

/*
 * Ten metres of carriageway: three notional lanes and a metre left over. At mid-span every tandem of two
 * axles Q counts 2 Q L/4 - Q 1.2/2 with an axle there; uniform loads w L^2/8.
 */
static void test_bending_by_hand(void) {
    const double tandems = 2.0 * 600e3 * SPAN / 4.0 - 600e3 * 1.2 / 2.0;
    const double alone = 2.0 * 300e3 * SPAN / 4.0 - 300e3 * 1.2 / 2.0;
    const double uniform = (LANE_1 + AREA * 10.0) * SPAN * SPAN / 8.0;
    made_bridge m;
    ss_crossing crossing;
    int trucks;
    one_beam(&m, -5.0, 5.0);
    put_model(&m, &crossing, 3);
    CU_ASSERT_EQUAL(m.bridge.notional_lanes.count, 3);
    CHECK_OK(made_solve(&m), &m.error);
    ss_effect e = of_beam(&m, 0.5 * SPAN, SS_EFFECT_MOMENT);
    check_relative("three lanes", extreme(&m, &e, 1, SS_EXTENT_ALL, &trucks), tandems + uniform, 1e-9);
    CU_ASSERT_EQUAL(trucks, 3);
    made_free(&m);
    one_beam(&m, -5.0, 5.0);
    put_model(&m, &crossing, 1);
    CHECK_OK(made_solve(&m), &m.error);
    e = of_beam(&m, 0.5 * SPAN, SS_EFFECT_MOMENT);
    check_relative("lane 1", extreme(&m, &e, 1, SS_EXTENT_ONE_TRUCK, NULL), alone + uniform, 1e-9);
    check_relative("axles", extreme(&m, &e, 1, SS_EXTENT_AXLES, NULL), alone, 1e-9);
    made_free(&m);
}

/*
 * Torsion just within the near end: of torque t at x it takes t (1 - x/L), one side of the carriageway adds
 * and the other takes away. Lane 1 goes to the curb, with its middle 1.5 m from it, lane 2 beside it 3 m on;
 * the third would relieve and is off the bridge. Of 2.5 kN/m2 on the half width h the torque is 2.5 h^2/2 per
 * metre.
 */
static void test_twist_by_hand(void) {
    const double axles = 1.0 + (1.0 - 1.2 / SPAN);
    made_bridge m;
    ss_crossing crossing;
    int trucks;
    one_beam(&m, -5.0, 5.0);
    put_model(&m, &crossing, 3);
    CHECK_OK(made_solve(&m), &m.error);
    ss_effect e = of_beam(&m, 0.0, SS_EFFECT_TORSION);
    const double torque =
        axles * (300e3 * 3.5 + 200e3 * 0.5) + (LANE_1 * 3.5 + AREA * 25.0 / 2.0) * SPAN / 2.0;
    check_near("to one side", fabs(extreme(&m, &e, 0, SS_EXTENT_ALL, &trucks)), torque, 1e-8, torque);
    CU_ASSERT_EQUAL(trucks, 2);
    check_near("to the other", fabs(extreme(&m, &e, 1, SS_EXTENT_ALL, &trucks)), torque, 1e-8, torque);
    CU_ASSERT_EQUAL(trucks, 2);
    made_free(&m);
}

/*
 * The line stands 1.4 m from one curb: the middle of a tandem, 1.5 m from it, is always on the far side. The
 * other way there is only the load over the carriageway, with the truck off the bridge.
 */
static void test_area_alone_by_hand(void) {
    made_bridge m;
    ss_crossing crossing;
    one_beam(&m, -1.4, 3.9);
    put_model(&m, &crossing, 1);
    CHECK_OK(made_solve(&m), &m.error);
    const ss_effect e = of_beam(&m, 0.0, SS_EFFECT_TORSION);
    const double near_side = AREA * 1.4 * 1.4 / 2.0 * SPAN / 2.0;
    const double far_side =
        (2.0 - 1.2 / SPAN) * 300e3 * 2.4 + (LANE_1 * 2.4 + AREA * 3.9 * 3.9 / 2.0) * SPAN / 2.0;
    const double least = extreme(&m, &e, 0, SS_EXTENT_ALL, NULL),
                 most = extreme(&m, &e, 1, SS_EXTENT_ALL, NULL);
    check_near("small", fmin(fabs(least), fabs(most)), near_side, 1e-8, near_side);
    check_near("large", fmax(fabs(least), fabs(most)), far_side, 1e-8, far_side);
    made_free(&m);
}

int main(void) {
    static const test_case cases[] = {
        {"bending", test_bending_by_hand},
        {"twist", test_twist_by_hand},
        {"the area alone", test_area_alone_by_hand},
    };
    return RUN_SUITE("area by hand", cases);
}
