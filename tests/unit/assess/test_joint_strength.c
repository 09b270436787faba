/* test_joint_strength.c - plates over the gap and concrete joint beams: figures by hand, limits and order. */
#include "sillspan/joint_strength.h"

#include <string.h>

#include "support/suite.h"
#include "working_checks.h"

#define KIP_PER_INCH (KIP / INCH)

/* 3/8 in of 36 ksi steel over 6 in between groove welds. */
static ss_joint_plate grooved(void) {
    return (ss_joint_plate){
        .thickness = 0.375 * INCH, .reach = 6.0 * INCH, .fy = 36.0 * KSI, .plastic = true, .groove = true};
}

/* The same with E70 fillets. */
static ss_joint_plate filleted(double leg_in, int faces, double lap_in) {
    ss_joint_plate plate = grooved();
    plate.groove = false;
    plate.leg = leg_in * INCH;
    plate.electrode = 70.0 * KSI;
    plate.faces = faces;
    plate.lap = lap_in * INCH;
    return plate;
}

/* By hand: Mp = 36 x 0.375^2 / 4 = 1.265625 kip-in/in, 2 Mp / 6 = 0.421875 kip/in; two thirds at first yield.
 */
static void test_plate_bending(void) {
    ss_joint_plate plate = grooved();
    ss_working working = {0};
    ss_joint_strength found = ss_joint_plate_strength(&plate, &working);
    CHECK_CLOSE(found.shear.nominal, 0.421875 * KIP_PER_INCH, 1e-12);
    CHECK_CLOSE(found.shear.factored, 0.421875 * KIP_PER_INCH, 1e-12);
    CHECK_CLOSE(found.moment.factored, 1.265625 * KIP, 1e-12);
    CU_ASSERT_STRING_EQUAL(found.shear.mode, "bending of the plate");
    CU_ASSERT_STRING_EQUAL(found.moment.mode, "bending of the plate");
    check_steps(&working, 4);
    plate.plastic = false;
    found = ss_joint_plate_strength(&plate, NULL);
    CHECK_CLOSE(found.shear.factored, 0.28125 * KIP_PER_INCH, 1e-12);
    /* A hinge at one edge halves the shear and leaves no moment; two leave nothing. */
    plate.right = SS_JOINT_EDGE_HINGED;
    found = ss_joint_plate_strength(&plate, NULL);
    CHECK_CLOSE(found.shear.factored, 0.140625 * KIP_PER_INCH, 1e-12);
    CU_ASSERT_EQUAL(found.moment.factored, 0.0);
    plate.left = SS_JOINT_EDGE_HINGED;
    found = ss_joint_plate_strength(&plate, NULL);
    CU_ASSERT(found.shear.factored == 0.0 && found.moment.factored == 0.0);
    CU_ASSERT_PTR_NOT_NULL(strstr(found.shear.mode, "hinged at both"));
    CU_ASSERT_PTR_NULL(found.why);
}

/* A plate so short that it yields in shear: 2 Mp/s passes 0.58 fy t at s = t/1.16. */
static void test_plate_shear(void) {
    ss_joint_plate plate = grooved();
    const double yield = 0.58 * 36.0 * 0.375 * KIP_PER_INCH;
    plate.reach = plate.thickness / 1.16 * (1.0 + 1e-9);
    ss_joint_strength found = ss_joint_plate_strength(&plate, NULL);
    CHECK_CLOSE(found.shear.factored, yield, 1e-8);
    CU_ASSERT_STRING_EQUAL(found.shear.mode, "bending of the plate");
    plate.reach *= 0.5;
    found = ss_joint_plate_strength(&plate, NULL);
    CHECK_CLOSE(found.shear.factored, yield, 1e-12);
    CU_ASSERT_STRING_EQUAL(found.shear.mode, "shear yield of the plate");
    plate.fu = 40.0 * KSI;
    found = ss_joint_plate_strength(&plate, NULL);
    CHECK_CLOSE(found.shear.factored, 0.80 * 0.58 * 40.0 * 0.375 * KIP_PER_INCH, 1e-12);
    CU_ASSERT_STRING_EQUAL(found.shear.mode, "rupture of the plate beside the weld");
}

/* Fillets, by hand. A leg of 1/8 in has 0.6 x 70 x 0.125 x 0.70711 = 3.7123 kip/in. On both faces: force
 * sqrt( 0.25 + (3/0.375)^2) = 8.01561 for a shear of 1, 0.46313 kip/in, times 0.80. On one face, lapped 4 in
 * over 10: 1 + 5/4 = 2.25. */
static void test_plate_fillets(void) {
    ss_joint_plate plate = filleted(0.125, 2, 0.0);
    ss_joint_strength found = ss_joint_plate_strength(&plate, NULL);
    CU_ASSERT_STRING_EQUAL(found.shear.mode, "the fillet welds");
    CU_ASSERT_DOUBLE_EQUAL(found.shear.nominal / KIP_PER_INCH, 0.46313, 0.00001);
    CHECK_CLOSE(found.shear.factored, 0.80 * found.shear.nominal, 1e-12);
    CHECK_CLOSE(found.moment.nominal, 3.71231 * 0.375 * KIP, 1e-5);
    plate = filleted(0.25, 2, 0.0);
    CU_ASSERT_STRING_EQUAL(ss_joint_plate_strength(&plate, NULL).shear.mode, "bending of the plate");
    plate = filleted(0.03, 1, 4.0);
    plate.reach = 10.0 * INCH;
    found = ss_joint_plate_strength(&plate, NULL);
    CHECK_CLOSE(found.shear.factored, fmin(2.0 * 1.265625 / 10.0, 0.8 * 3.71231 * 0.24 / 2.25) * KIP_PER_INCH,
                1e-5);
    CHECK_CLOSE(found.moment.factored, fmin(1.265625, 0.8 * 3.71231 * 0.24 * 4.0) * KIP, 1e-5);
    /* A single fillet of a plate that butts may not be bent about its root: hinges. */
    plate = filleted(0.25, 1, 0.0);
    CU_ASSERT_EQUAL(ss_joint_plate_strength(&plate, NULL).shear.factored, 0.0);
}

/* At the capacity the edges' moments are borne: V s / 2 <= Mp, and more steel or a shorter reach never
 * carries less. */
static void test_plate_order(void) {
    double last = 0.0;
    for (double t = 0.1; t < 1.5; t += 0.04) {
        ss_joint_plate plate = filleted(0.3125, 2, 0.0);
        plate.thickness = t * INCH;
        plate.fu = 58.0 * KSI;
        const ss_joint_strength found = ss_joint_plate_strength(&plate, NULL);
        CU_ASSERT(found.shear.factored >= last && found.shear.factored > 0.0);
        CU_ASSERT(found.shear.factored * plate.reach / 2.0 <=
                  0.25 * plate.fy * plate.thickness * plate.thickness * (1.0 + 1e-12));
        last = found.shear.factored;
    }
    last = (double)INFINITY;
    for (double s = 0.2; s < 40.0; s *= 1.1) {
        ss_joint_plate plate = filleted(0.3125, 2, 0.0);
        plate.reach = s * INCH;
        const double found = ss_joint_plate_strength(&plate, NULL).shear.factored;
        CU_ASSERT(found <= last);
        last = found;
    }
}

/* 12 in of 4 ksi concrete between steel sills, 1 in rods of 50 ksi every 24 in; by hand: A fy = 0.0327249 x
 * 50 = 1.636246 kip/in; friction 0.7 of it 1.145372, cohesion 0.025 x 12 = 0.3; a = 0.481249 in, 6 in to the
 * rods: 9.42376 kip-in/in. Factors of LRFD 5.7.4.4 from memory. */
static ss_joint_beam concrete(void) {
    return (ss_joint_beam){.interface = SS_INTERFACE_STEEL,
                           .depth = 12.0 * INCH,
                           .fc = 4.0 * KSI,
                           .rods = 0.7853981634 / 24.0 * INCH,
                           .rods_fy = 50.0 * KSI,
                           .rods_depth = 6.0 * INCH};
}

static void test_concrete(void) {
    ss_joint_beam beam = concrete();
    ss_working working = {0};
    ss_joint_strength found = ss_joint_beam_strength(&beam, &working);
    CU_ASSERT_DOUBLE_EQUAL(found.shear.nominal / KIP_PER_INCH, 1.145372, 1e-5);
    CHECK_CLOSE(found.shear.factored, 0.9 * found.shear.nominal, 1e-12);
    CU_ASSERT_STRING_EQUAL(found.shear.mode, "shear friction");
    CU_ASSERT_DOUBLE_EQUAL(found.moment.nominal / KIP, 9.42376, 1e-4);
    CU_ASSERT_STRING_EQUAL(found.moment.mode, "yield of the rods");
    check_steps(&working, 6);
    beam.cohesion = true;
    found = ss_joint_beam_strength(&beam, NULL);
    CU_ASSERT_DOUBLE_EQUAL(found.shear.nominal / KIP_PER_INCH, 1.445372, 1e-5);
    beam.clamp = 2.0 * KIP_PER_INCH;
    CU_ASSERT_DOUBLE_EQUAL(ss_joint_beam_strength(&beam, NULL).shear.nominal / KIP_PER_INCH, 2.845372, 1e-5);
    /* Rods beyond 60 ksi count as 60. */
    beam = concrete();
    beam.rods_fy = 60.0 * KSI;
    const double at_most = ss_joint_beam_strength(&beam, NULL).shear.nominal;
    beam.rods_fy = 100.0 * KSI;
    CU_ASSERT_EQUAL(ss_joint_beam_strength(&beam, NULL).shear.nominal, at_most);
    /* Too few rods, below 0.05 ksi of the area: no cohesion. */
    beam.cohesion = true;
    beam.rods = 0.0099 * INCH;
    beam.rods_fy = 60.0 * KSI;
    CHECK_CLOSE(ss_joint_beam_strength(&beam, NULL).shear.nominal, 0.7 * 0.594 * KIP_PER_INCH, 1e-9);
}

/* The caps, K1 fc A and K2 A: 0.2 x 3 x 12 = 7.2 below 0.8 x 12 = 9.6, and above at 5 ksi. */
static void test_concrete_caps(void) {
    ss_joint_beam beam = concrete();
    beam.rods *= 40.0;
    beam.fc = 3.0 * KSI;
    ss_joint_strength found = ss_joint_beam_strength(&beam, NULL);
    CHECK_CLOSE(found.shear.nominal, 7.2 * KIP_PER_INCH, 1e-12);
    CU_ASSERT_STRING_EQUAL(found.shear.mode, "the cap on shear friction");
    beam.fc = 5.0 * KSI;
    found = ss_joint_beam_strength(&beam, NULL);
    CHECK_CLOSE(found.shear.nominal, 9.6 * KIP_PER_INCH, 1e-12);
    beam.interface = SS_INTERFACE_ROUGH;
    CHECK_CLOSE(ss_joint_beam_strength(&beam, NULL).shear.nominal, 15.0 * KIP_PER_INCH, 1e-12);
    /* So many rods that the concrete would crush first: a = 0.80 x 0.375 x 6 at 5 ksi. */
    const double block = 0.80 * 0.375 * 6.0;
    CU_ASSERT_PTR_NOT_NULL(strstr(found.moment.mode, "crushing"));
    CHECK_CLOSE(found.moment.nominal, 0.85 * 5.0 * block * (6.0 - 0.5 * block) * KIP, 1e-12);
}

/* More rods never carry less, across the limit of crushing as well. */
static void test_concrete_order(void) {
    double last_shear = 0.0;
    double last_moment = 0.0;
    for (double factor = 0.01; factor < 100.0; factor *= 1.2) {
        ss_joint_beam beam = concrete();
        beam.cohesion = true;
        beam.rods *= factor;
        const ss_joint_strength found = ss_joint_beam_strength(&beam, NULL);
        CU_ASSERT(found.shear.factored >= last_shear && found.moment.factored >= last_moment);
        last_shear = found.shear.factored;
        last_moment = found.moment.factored;
    }
}

static void check_none(ss_joint_strength found) {
    CU_ASSERT(isnan(found.shear.factored) && isnan(found.moment.factored) && isnan(found.shear.nominal));
    CU_ASSERT_PTR_NOT_NULL(found.why);
}

static void test_what_cannot_be_told(void) {
    static const double odd[] = {0.0, -1.0, (double)NAN, (double)INFINITY};
    for (size_t i = 0; i < sizeof odd / sizeof odd[0]; i++) {
        ss_joint_plate plates[] = {grooved(), grooved(), grooved(), filleted(0.2, 2, 0.0),
                                   filleted(0.2, 2, 0.0)};
        plates[0].thickness = plates[1].reach = plates[2].fy = plates[3].leg = plates[4].electrode = odd[i];
        for (int j = 0; j < ENTRIES(plates); j++) {
            check_none(ss_joint_plate_strength(&plates[j], NULL));
        }
        ss_joint_beam beams[] = {concrete(), concrete(), concrete()};
        beams[0].depth = beams[1].fc = beams[2].rods_fy = odd[i];
        for (int j = 0; j < ENTRIES(beams); j++) {
            check_none(ss_joint_beam_strength(&beams[j], NULL));
        }
    }
    ss_joint_plate plate = filleted(0.2, 3, 0.0);
    check_none(ss_joint_plate_strength(&plate, NULL));
    plate = filleted(0.2, 1, 7.0);
    check_none(ss_joint_plate_strength(&plate, NULL));
    plate = grooved();
    plate.thickness = plate.fy = 1e250;
    check_none(ss_joint_plate_strength(&plate, NULL));
    static const double extremes[] = {5e-324, 1e-200, 1e200};
    for (size_t i = 0; i < sizeof extremes / sizeof extremes[0]; i++) {
        for (size_t j = 0; j < sizeof extremes / sizeof extremes[0]; j++) {
            plate = filleted(0.2, 2, 0.0);
            plate.thickness = extremes[i];
            plate.reach = extremes[j];
            const ss_joint_strength found = ss_joint_plate_strength(&plate, NULL);
            CU_ASSERT(found.why != NULL ? isnan(found.shear.factored) : found.shear.factored >= 0.0);
        }
    }
    ss_joint_beam beam = concrete();
    beam.clamp = -1.0;
    check_none(ss_joint_beam_strength(&beam, NULL));
    beam = concrete();
    beam.rods_depth = beam.depth;
    check_none(ss_joint_beam_strength(&beam, NULL));
    beam = concrete();
    beam.interface = (ss_joint_interface)9;
    check_none(ss_joint_beam_strength(&beam, NULL));
    /* No rods and no clamp: nothing holds, which is a strength of zero. */
    beam = concrete();
    beam.rods = 0.0;
    CU_ASSERT_EQUAL(ss_joint_beam_strength(&beam, NULL).shear.factored, 0.0);
    CU_ASSERT_EQUAL(ss_joint_beam_strength(&beam, NULL).moment.factored, 0.0);
}

int main(void) {
    static const test_case cases[] = {{"plate bending", test_plate_bending},
                                      {"plate shear", test_plate_shear},
                                      {"plate fillets", test_plate_fillets},
                                      {"plate order", test_plate_order},
                                      {"concrete", test_concrete},
                                      {"concrete caps", test_concrete_caps},
                                      {"concrete order", test_concrete_order},
                                      {"what cannot be told", test_what_cannot_be_told}};
    return RUN_SUITE("joint strength", cases);
}
