/* test_mechanics_found.c - cracked lines by statics, and loose joints against joints that were never there.
 */
#include "samples.h"

/* Closed forms by statics; what is left is rounding. */
#define EXACT 1e-9

/* Bearings at 0, 10 and 20 m and a crack 5 m along: the left piece hangs on the right one, so that statics
 * gives everything. P at 2.5 m: P/2 comes to the crack, and the right piece carries it as an overhang of 5 m
 * on a span of 10 m. */
static void test_crack_makes_it_determinate(void) {
    const double P = 61000.0;
    sample s;
    analysis a;
    double crack = 5.0;
    sample_start(&s, 2.1e11, 8.0e10, 0.7);
    const int section = hand_section(&s.bridge, 3.1e-4, 4.0e-5, 4e-3, 0.0);
    hand_car(&s.bridge, "north", 0.0, 20.0, 0.0, 3.0);
    hand_line(&s.bridge, SS_ROLE_MAIN, "sill", 1.5, section);
    for (int i = 0; i < 3; i++) hand_pad(&s.bridge, 0, 10.0 * i, 0.4);
    s.bridge.cracks = &crack;
    s.bridge.crack_count = 1;
    s.bridge.lines[0].crack_count = 1;
    hand_probe(&s.bridge, 0, 2.5);
    analysis_start(&a, &s);
    ss_load_force(&a.load, 2.5, 1.5, P, NULL);
    analysis_solve(&a, NULL, NULL);
    check_relative("first bearing", reaction(&a, 0), 0.5 * P, EXACT);
    check_relative("second", reaction(&a, 1), 0.75 * P, EXACT);
    check_relative("third", reaction(&a, 2), -0.25 * P, EXACT);
    check_near("at the crack", line_effect(&a, 0, 5.0, true, SS_EFFECT_MOMENT), 0.0, EXACT, P);
    check_near("at the crack", line_effect(&a, 0, 5.0, false, SS_EFFECT_MOMENT), 0.0, EXACT, P);
    check_relative("shear there", line_effect(&a, 0, 5.0, false, SS_EFFECT_SHEAR), -0.5 * P, EXACT);
    check_relative("under the load", line_effect(&a, 0, 2.5, true, SS_EFFECT_MOMENT), 1.25 * P, EXACT);
    check_relative("over the middle", line_effect(&a, 0, 10.0, true, SS_EFFECT_MOMENT), -2.5 * P, EXACT);
    analysis_end(&a);
}

/* Two cracks in one span leave a mechanism: refused, not computed. */
static void test_two_cracks_are_refused(void) {
    sample s;
    ss_error error = {0};
    double cracks[2] = {3.0, 6.0};
    ss_mesh mesh;
    ss_grillage *grillage = NULL;
    sample_start(&s, 2.1e11, 8.0e10, 0.7);
    const int section = hand_section(&s.bridge, 3.1e-4, 4.0e-5, 4e-3, 0.0);
    hand_car(&s.bridge, "north", 0.0, 10.0, 0.0, 3.0);
    hand_line(&s.bridge, SS_ROLE_MAIN, "sill", 1.5, section);
    hand_pad(&s.bridge, 0, 0.0, 0.4);
    hand_pad(&s.bridge, 0, 10.0, 0.4);
    s.bridge.cracks = cracks;
    s.bridge.crack_count = s.bridge.lines[0].crack_count = 2;
    sample_mesh(&s, &mesh);
    CU_ASSERT_EQUAL(ss_grillage_create(&mesh, &grillage, &error), SS_ERROR_MECHANISM);
    CU_ASSERT(error.message[0] != '\0');
    ss_grillage_destroy(grillage);
    ss_mesh_destroy(&mesh);
}

static void two_cars(sample *s) {
    sample_start(s, 2.03e11, 7.8e10, 1.0);
    const int girder = hand_section(&s->bridge, 3.1e-4, 2.2e-6, 4e-3, 900.0);
    const int cross = hand_section(&s->bridge, 0.7e-4, 1.1e-6, 0.0, 300.0);
    for (int c = 0; c < 2; c++) {
        hand_car(&s->bridge, c == 0 ? "north" : "south", 0.0, 11.0, 2.8 * c, 2.6 + 2.8 * c);
        for (int l = 0; l < 2; l++) {
            const int line = hand_line(&s->bridge, SS_ROLE_MAIN, l == 0 ? "left" : "right",
                                       2.8 * c + 0.3 + 2.0 * l, girder);
            hand_bearing(&s->bridge, line, 0.0);
            hand_bearing(&s->bridge, line, 11.0);
        }
        for (int i = 0; i < 5; i++) hand_beam(&s->bridge, 11.0 * i / 4.0, cross);
    }
}

static void springs(ss_joint *joint) {
    joint->shear = 2.3e6;
    joint->rotation = 7.1e4;
}

/* A joint that is loose from 4 to 7 m is the two joints on either side. */
static void test_loose_stretch_is_two_joints(void) {
    sample s;
    sample two;
    analysis a;
    analysis b;
    ss_length_range loose = {4.0, 7.0};
    two_cars(&s);
    springs(&s.bridge.joints[hand_joint(&s.bridge, SS_JOINT_SPRINGS, 0, 1.0, 10.0)]);
    s.bridge.loose = &loose;
    s.bridge.loose_count = s.bridge.joints[0].loose_count = 1;
    two_cars(&two);
    springs(&two.bridge.joints[hand_joint(&two.bridge, SS_JOINT_SPRINGS, 0, 1.0, 4.0)]);
    springs(&two.bridge.joints[hand_joint(&two.bridge, SS_JOINT_SPRINGS, 0, 7.0, 10.0)]);
    analysis_start(&a, &s);
    analysis_start(&b, &two);
    CU_ASSERT_EQUAL_FATAL(a.mesh.order, b.mesh.order);
    ss_load_force(&a.load, 5.5, 1.1, 9.1e4, NULL);
    ss_load_force(&b.load, 5.5, 1.1, 9.1e4, NULL);
    analysis_solve(&a, NULL, NULL);
    analysis_solve(&b, NULL, NULL);
    double most = 0.0;
    for (int i = 0; i < a.mesh.order; i++) most = fmax(most, fabs(b.u[i]));
    for (int i = 0; i < a.mesh.order; i++) check_near("displacement", a.u[i], b.u[i], EXACT, most);
    analysis_end(&a);
    analysis_end(&b);
}

/* Where the depth changes, the vertical part of the flanges' force M/h dh/dx is off the web (strength of
 * materials). Simple span of 12 m, 0.4 m deep at one end and 1.0 m at the other, P at 5 m: V and M by
 * statics, on both sides of every station; a sagging moment where it gets deeper relieves the web. */
static void test_inclined_flange(void) {
    const double P = 47000.0, L = 12.0, a_load = 5.0;
    sample s;
    analysis a;
    sample_start(&s, 2.1e11, 8.0e10, 1.0);
    const int section = sample_rectangle(&s, 0.02, 1.0);
    hand_car(&s.bridge, "north", 0.0, L, 0.0, 3.0);
    hand_line(&s.bridge, SS_ROLE_MAIN, "sill", 1.5, section);
    s.bridge.pieces[0].depth0 = 0.4;
    hand_pad(&s.bridge, 0, 0.0, 0.4);
    hand_pad(&s.bridge, 0, L, 0.4);
    analysis_start(&a, &s);
    ss_load_force(&a.load, a_load, 1.5, P, NULL);
    analysis_solve(&a, NULL, NULL);
    int seen = 0;
    for (int i = 0; i < a.mesh.station_count; i++) {
        for (int before = i == 0 ? 0 : 1; before >= (i + 1 == a.mesh.station_count ? 1 : 0); before--) {
            const double x = a.mesh.station[i];
            ss_effect web;
            CU_ASSERT_EQUAL_FATAL(
                ss_mesh_effect(&a.mesh, SS_MEMBER_LINE, 0, x, before == 1, SS_EFFECT_WEB_PLUS, &web, NULL),
                SS_OK);
            CU_ASSERT_FATAL(ss_mesh_effect_taper(&a.mesh, &web));
            const bool left = x < a_load || (x == a_load && before == 1);
            const double V = left ? P * (L - a_load) / L : -P * a_load / L;
            const double M = x <= a_load ? P * (L - a_load) / L * x : P * a_load / L * (L - x);
            const double h = 0.4 + 0.05 * x;
            check_near("web", ss_mesh_effect_value(&a.mesh, &web, a.u, &a.load), V - M / h * 0.05, EXACT, P);
            seen++;
        }
    }
    CU_ASSERT(seen > 20);
    s.bridge.pieces[0].depth0 = 1.0;
    ss_effect level;
    CU_ASSERT_EQUAL(ss_mesh_effect(&a.mesh, SS_MEMBER_LINE, 0, 0.0, false, SS_EFFECT_WEB_PLUS, &level, NULL),
                    SS_OK);
    CU_ASSERT_FALSE(ss_mesh_effect_taper(&a.mesh, &level));
    CU_ASSERT_EQUAL(level.moment_shear, 0.0);
    analysis_end(&a);
}

int main(void) {
    static const test_case cases[] = {
        {"a crack makes it determinate", test_crack_makes_it_determinate},
        {"two cracks are refused", test_two_cracks_are_refused},
        {"a loose stretch is two joints", test_loose_stretch_is_two_joints},
        {"inclined flange", test_inclined_flange},
    };
    return RUN_SUITE("found", cases);
}
