/* test_joint_capacity.c - a joint's capacity as given, or by what it is made of. */
#include "assess/joint_capacity.h"
#include "support/suite.h"

static ss_joint joint(ss_joint_detail detail, int connectors) {
    return (ss_joint){.kind = SS_JOINT_SPRINGS,
                      .shear_capacity = (double)NAN,
                      .moment_capacity = (double)NAN,
                      .connector_count = connectors,
                      .detail = detail};
}

static const ss_joint_detail plate = {.kind = SS_DETAIL_PLATE,
                                      .thickness = 0.375 * INCH,
                                      .reach = 6.0 * INCH,
                                      .fy = 36.0 * KSI,
                                      .leg = 0.75 * INCH,
                                      .electrode = 70.0 * KSI,
                                      .faces = 2};

static void test_given_capacities_stand(void) {
    ss_joint j = joint((ss_joint_detail){.kind = SS_DETAIL_NONE}, 0);
    ss_resistance shear;
    ss_resistance moment;
    j.shear_capacity = 17.3e3;
    ss_joint_capacity_of(&j, &shear, &moment, NULL);
    CU_ASSERT_EQUAL(shear.value, 17.3e3);
    CU_ASSERT(isnan(moment.value));
}

/* By hand: first yield of a 3/8 in plate, M = 36 (0.375)^2 / 6 = 0.84375 kip-in/in at both weld lines 6 in
 * apart: shear 2 M / 6 = 0.28125 kip/in. In between it bends to the same moment. */
static void test_plate_by_hand(void) {
    const ss_joint j = joint(plate, 0);
    ss_resistance shear;
    ss_resistance moment;
    ss_working working = {.count = 0};
    ss_joint_capacity_of(&j, &shear, &moment, &working);
    CHECK_CLOSE(shear.value, 0.28125 * KIP / INCH, 1e-9);
    CHECK_CLOSE(moment.value, 0.84375 * KIP, 1e-9);
    CU_ASSERT(working.count > 0);
}

/* One fillet and no lap is a hinge: nothing to rate by, and that is no capacity of zero. A joint that does
 * not give has no force per length. */
static void test_nothing_to_rate_by(void) {
    ss_joint_detail hinge = plate;
    ss_resistance shear;
    ss_resistance moment;
    hinge.faces = 1;
    ss_joint j = joint(hinge, 0);
    ss_joint_capacity_of(&j, &shear, &moment, NULL);
    CU_ASSERT(isnan(shear.value));
    j = joint(plate, 0);
    j.kind = SS_JOINT_HINGED;
    ss_joint_capacity_of(&j, &shear, &moment, NULL);
    CU_ASSERT(isnan(shear.value));
}

/* Bolts right at the middle of the gap share the shear alike: twice as many carry twice. */
static void test_bolts_in_proportion(void) {
    ss_joint_detail bolts = {.kind = SS_DETAIL_BOLTS,
                             .diameter = 0.75 * INCH,
                             .tensile = 120.0 * KSI,
                             .count = 2,
                             .planes = 1,
                             .spacing = 3.0 * INCH,
                             .thickness = 0.5 * INCH,
                             .fu = 58.0 * KSI,
                             .clear = 1.0 * INCH};
    ss_resistance two;
    ss_resistance four;
    ss_resistance moment;
    ss_joint j = joint(bolts, 5);
    ss_joint_capacity_of(&j, &two, &moment, NULL);
    bolts.count = 4;
    j = joint(bolts, 5);
    ss_joint_capacity_of(&j, &four, &moment, NULL);
    CHECK_CLOSE(four.value, 2.0 * two.value, 1e-9);
    /* 0.80 x 0.45 A_b F_ub of two bolts (AASHTO LRFD 6.13.2.7, 8th ed., from memory). */
    CHECK_CLOSE(two.value, 2.0 * 0.80 * 0.45 * 0.44178646691106466 * 120.0 * KIP, 1e-9);
}

/* Shear friction of rods alone, mu 0.7 on clean steel, 0.90 (AASHTO LRFD 5.7.4, from memory): 1 in rods of 36
 * ksi every 24 in. */
static void test_concrete_by_hand(void) {
    const ss_joint_detail beam = {.kind = SS_DETAIL_BEAM,
                                  .depth = 20.0 * INCH,
                                  .fc = 4.0 * KSI,
                                  .diameter = 1.0 * INCH,
                                  .spacing = 24.0 * INCH,
                                  .fy = 36.0 * KSI};
    const ss_joint j = joint(beam, 0);
    ss_resistance shear;
    ss_resistance moment;
    ss_joint_capacity_of(&j, &shear, &moment, NULL);
    CHECK_CLOSE(shear.value, 0.90 * 0.7 * 0.78539816339744831 / 24.0 * 36.0 * KIP / INCH, 1e-9);
    CU_ASSERT(isnan(moment.value));
}

/* Of an estimated joint a capacity may be stated beside its parts, and stands; planks have none; an edge that
 * is said to hinge halves the plate's shear and leaves no moment. */
static void test_of_estimated_joints(void) {
    ss_resistance shear;
    ss_resistance moment;
    ss_joint j = joint(plate, 0);
    j.estimated = SS_DETAIL_PLATE;
    j.shear_capacity = 17.3e3;
    ss_joint_capacity_of(&j, &shear, &moment, NULL);
    CU_ASSERT_EQUAL(shear.value, 17.3e3);
    CU_ASSERT(isnan(moment.value));
    j.shear_capacity = (double)NAN;
    j.detail.left = SS_JOINT_EDGE_HINGED;
    ss_joint_capacity_of(&j, &shear, &moment, NULL);
    CHECK_CLOSE(shear.value, 0.140625 * KIP / INCH, 1e-9);
    CU_ASSERT(isnan(moment.value));
    j = joint((ss_joint_detail){.kind = SS_DETAIL_PLANKS, .thickness = 0.1}, 0);
    ss_joint_capacity_of(&j, &shear, &moment, NULL);
    CU_ASSERT(isnan(shear.value) && isnan(moment.value));
}

int main(void) {
    static const test_case cases[] = {
        {"given capacities stand", test_given_capacities_stand},
        {"plate by hand", test_plate_by_hand},
        {"nothing to rate by", test_nothing_to_rate_by},
        {"bolts in proportion", test_bolts_in_proportion},
        {"concrete by hand", test_concrete_by_hand},
        {"of estimated joints", test_of_estimated_joints},
    };
    return RUN_SUITE("joint capacity", cases);
}
