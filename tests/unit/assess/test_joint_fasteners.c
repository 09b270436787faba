/* test_joint_fasteners.c - welds and bolts of connectors against AISC's published examples, Blodgett's line
 * properties and an independent sum over points. */
#include <string.h>

#include "sillspan/joint_strength.h"
#include "support/suite.h"
#include "working_checks.h"

/* Two upright lines d high, b apart. */
static const ss_weld_line pair[] = {{0.0, 0.0, 0.0, 0.2}, {0.1, 0.0, 0.1, 0.2}};

/* A closed rectangle b = 0.18 by d = 0.31, away from the origin. */
static const ss_weld_line box[] = {
    {1.0, 2.0, 1.18, 2.0}, {1.18, 2.0, 1.18, 2.31}, {1.18, 2.31, 1.0, 2.31}, {1.0, 2.31, 1.0, 2.0}};

static ss_weld_group group(const ss_weld_line *lines, int count) {
    return (ss_weld_group){
        .lines = lines, .count = count, .leg = 0.1875 * INCH, .electrode = 70.0 * KSI, .arm = 0.0};
}

/* AISC, Companion to the Manual, Design Examples V16.0, J.1: a 3/16 in fillet of E70 has 5.57 kip/in. */
static void test_one_line(void) {
    static const ss_weld_line line[] = {{0.0, 0.0, 0.0, 27.0 * INCH}};
    ss_weld_group g = group(line, 1);
    ss_working working = {0};
    const ss_joint_strength found = ss_weld_group_strength(&g, &working);
    CU_ASSERT_DOUBLE_EQUAL(found.shear.nominal / (27.0 * KIP), 5.57, 0.005);
    CHECK_CLOSE(found.shear.factored, 0.80 * found.shear.nominal, 1e-12);
    CU_ASSERT_STRING_EQUAL(found.shear.mode, "the fillet welds");
    check_steps(&working, 3);
    /* At an arm e a single line has sqrt(1 + (6 e/d)^2) times the force: section modulus d^2/6. */
    g.arm = 5.0 * INCH;
    CHECK_CLOSE(ss_weld_group_strength(&g, NULL).shear.nominal * hypot(1.0, 30.0 / 27.0), found.shear.nominal,
                1e-12);
    /* Thin parts rupture first: 0.58 x 58 ksi x 1/16 in, below 5.57 kip/in. */
    g.arm = 0.0;
    g.base = 0.0625 * INCH;
    g.base_fu = 58.0 * KSI;
    const ss_joint_strength thin = ss_weld_group_strength(&g, NULL);
    CHECK_CLOSE(thin.shear.nominal, 0.58 * 58.0 * 0.0625 * 27.0 * KIP, 1e-12);
    CU_ASSERT_STRING_EQUAL(thin.shear.mode, "rupture of the part beside the weld");
}

/* A worked weld group found on the web (elastic vector method): two lines of 200 mm, 100 mm apart, 50 kN at
 * 150 mm: J = 2.333e6 mm3, 430.06 N/mm at the corner. */
static void test_published_group(void) {
    ss_weld_group g = group(pair, 2);
    check_relative("force", ss_weld_group_force(&g, 50e3, 50e3 * 0.150), 430.06e3, 2e-5);
    check_relative("direct", ss_weld_group_force(&g, 50e3, 0.0), 125e3, 1e-12);
}

/* Lines as such (O. W. Blodgett, Design of Welded Structures, from memory): rectangle J = (b + d)^3/6 and S =
 * b d
 * + d^2/3; two uprights J = d (3 b^2 + d^2)/6 and S = d^2/3. */
static void test_blodgett(void) {
    const double b = 0.18;
    const double d = 0.31;
    ss_weld_group g = group(box, 4);
    check_relative("rectangle turned", ss_weld_group_force(&g, 0.0, 1.0),
                   0.5 * hypot(b, d) / ((b + d) * (b + d) * (b + d) / 6.0), 1e-12);
    g.on_side = true;
    check_relative("rectangle bent", ss_weld_group_force(&g, 0.0, 1.0), 1.0 / (b * d + d * d / 3.0), 1e-12);
    g = group(pair, 2);
    check_relative("pair turned", ss_weld_group_force(&g, 0.0, 1.0),
                   0.5 * hypot(0.1, 0.2) / (0.2 * (3.0 * 0.01 + 0.04) / 6.0), 1e-12);
    g.on_side = true;
    check_relative("pair bent", ss_weld_group_force(&g, 0.0, 1.0), 3.0 / 0.04, 1e-12);
    check_relative("pair bent and sheared", ss_weld_group_force(&g, 7.0, 3.0), hypot(7.0 / 0.4, 9.0 / 0.04),
                   1e-12);
}

/* A crooked group in many short pieces, summed as points: centroid, polar sum, and the worst of them under
 * both signs of the moment. */
static double worst_of_points(const ss_weld_line *lines, int count, double shear, double moment) {
    enum { PIECES = 2000 };
    double length = 0.0;
    double centre[2] = {0.0, 0.0};
    double polar = 0.0;
    double worst = 0.0;
    for (int pass = 0; pass < 3; pass++) {
        for (int i = 0; i < count; i++) {
            const ss_weld_line *const w = &lines[i];
            const double piece = hypot(w->u1 - w->u0, w->z1 - w->z0) / PIECES;
            for (int k = 0; k < PIECES; k++) {
                const double s = (k + 0.5) / PIECES;
                const double u = w->u0 + s * (w->u1 - w->u0);
                const double z = w->z0 + s * (w->z1 - w->z0);
                if (pass == 0) {
                    length += piece;
                    centre[0] += piece * u;
                    centre[1] += piece * z;
                } else if (pass == 1) {
                    polar += piece * (pow(u - centre[0] / length, 2) + pow(z - centre[1] / length, 2));
                } else {
                    for (int sign = -1; sign <= 1; sign += 2) {
                        const double turn = sign * moment / polar;
                        worst = fmax(worst, hypot(turn * (z - centre[1] / length),
                                                  shear / length + turn * (u - centre[0] / length)));
                    }
                }
            }
        }
    }
    return worst;
}

/* One way round and turned about: the moment that adds to the shear is found in both. */
static void test_points(void) {
    ss_weld_line crooked[] = {{0.02, 0.01, 0.05, 0.29}, {0.05, 0.29, 0.21, 0.33}, {0.3, 0.1, 0.3, 0.2}};
    const ss_weld_group g = group(crooked, ENTRIES(crooked));
    const double worst = worst_of_points(crooked, ENTRIES(crooked), 11e3, 2.9e3);
    check_relative("force", ss_weld_group_force(&g, 11e3, 2.9e3), worst, 2e-3);
    CU_ASSERT(ss_weld_group_force(&g, 11e3, 2.9e3) >= worst);
    for (int i = 0; i < ENTRIES(crooked); i++) {
        crooked[i].u0 = -crooked[i].u0;
        crooked[i].u1 = -crooked[i].u1;
    }
    check_relative("mirrored", worst_of_points(crooked, ENTRIES(crooked), 11e3, 2.9e3), worst, 1e-12);
    check_relative("force, mirrored", ss_weld_group_force(&g, 11e3, 2.9e3), worst, 2e-3);
}

static ss_joint_bolt bolt(double diameter_in, double ply_in, double clear_in) {
    return (ss_joint_bolt){.diameter = diameter_in * INCH,
                           .tensile = 120.0 * KSI,
                           .threads_in_plane = true,
                           .planes = 1,
                           .ply = ply_in * INCH,
                           .ply_fu = 65.0 * KSI,
                           .clear = clear_in * INCH};
}

/* AISC, Companion to the Manual, Design Examples V16.0, II.B-1, 7/8 in bolts of 120 ksi with threads in the
 * plane: shear 24.3 kip available, 24.3/0.75 nominal; on 3/4 in plate 102 kip in bearing, 121 and 60.3 kip at
 * clear distances of 2.06 and 1.03 in; on 0.570 in 77.8, 91.6 and 45.8 kip. AASHTO's bearing is the smaller.
 */
static void test_published_bolts(void) {
    static const struct {
        double ply, clear, nominal;
    } row[] = {{0.75, 3.0, 102.0},
               {0.75, 2.0625, 102.0},
               {0.75, 1.03125, 60.3},
               {0.570, 2.0625, 77.8},
               {0.570, 1.03125, 45.8}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        ss_joint_bolt b = bolt(0.875, row[i].ply, row[i].clear);
        CU_ASSERT_DOUBLE_EQUAL(ss_joint_bolt_resistance(&b, NULL).value / KIP, 24.3 / 0.75, 0.1);
        b.tensile = 1200.0 * KSI;
        const ss_resistance bearing = ss_joint_bolt_resistance(&b, NULL);
        CU_ASSERT_DOUBLE_EQUAL(bearing.value / KIP, row[i].nominal, 0.5);
        CU_ASSERT_PTR_NOT_NULL(strstr(bearing.rule, "6.13.2.9"));
    }
    /* Four 3/4 in bolts have 71.6 kip available (II.A-12A). */
    ss_joint_bolt small = bolt(0.75, 1.0, 3.0);
    ss_working working = {0};
    CU_ASSERT_DOUBLE_EQUAL(4.0 * 0.75 * ss_joint_bolt_resistance(&small, &working).value / KIP, 71.6, 0.1);
    check_steps(&working, 3);
    const double single = ss_joint_bolt_resistance(&small, NULL).value;
    small.planes = 2;
    CHECK_CLOSE(ss_joint_bolt_resistance(&small, NULL).value, 2.0 * single, 1e-12);
    small.threads_in_plane = false;
    CHECK_CLOSE(ss_joint_bolt_resistance(&small, NULL).value, 2.0 * single * 0.56 / 0.45, 1e-12);
}

/* Common bolts of 60 ksi (A307): 0.45 of it wherever the threads are, phi 0.75 (LRFD 6.5.4.2, from memory).
 * Where bearing is little more than shear the lower factor still lets shear govern. */
static void test_common_bolts(void) {
    static const ss_bolt_place one[] = {{0.0, 0.0}};
    ss_bolt_group g = {.places = one, .count = 1, .bolt = bolt(0.75, 1.0, 3.0)};
    g.bolt.tensile = 60.0 * KSI;
    g.bolt.threads_in_plane = false;
    const double shear = 0.45 * 60.0 * 0.25 * 3.14159265358979323846 * 0.5625 * KIP;
    CHECK_CLOSE(ss_bolt_group_strength(&g, NULL).shear.factored, 0.75 * shear, 1e-12);
    CHECK_CLOSE(ss_joint_bolt_resistance(&g.bolt, NULL).value, shear, 1e-12);
    /* Bearing 0.97 of shear: 0.80 x 0.97 is more than 0.75. */
    g.bolt.ply = 0.97 * shear / (2.4 * 0.75 * INCH * 65.0 * KSI);
    CHECK_CLOSE(ss_joint_bolt_resistance(&g.bolt, NULL).value, 0.97 * shear, 1e-12);
    CHECK_CLOSE(ss_bolt_group_strength(&g, NULL).shear.factored, 0.75 * shear, 1e-12);
    g.bolt.ply *= 0.93 / 0.97;
    CHECK_CLOSE(ss_bolt_group_strength(&g, NULL).shear.factored, 0.80 * 0.93 * shear, 1e-12);
}

/* Bearing grows with the clear distance up to 2 d, where both expressions are 2.4 d t Fu. */
static void test_bearing_limit(void) {
    ss_joint_bolt b = bolt(0.75, 0.25, 1.5);
    b.tensile = 9000.0 * KSI;
    const double most = ss_joint_bolt_resistance(&b, NULL).value;
    CHECK_CLOSE(most, 2.4 * 0.75 * 0.25 * 65.0 * KIP, 1e-12);
    double last = 0.0;
    for (double clear = 0.1; clear < 3.0; clear += 0.1) {
        b.clear = clear * INCH;
        const double found = ss_joint_bolt_resistance(&b, NULL).value;
        CU_ASSERT(found >= last && found <= most * (1.0 + 1e-12));
        CHECK_CLOSE(found, fmin(clear / 1.5, 1.0) * most, 1e-9);
        last = found;
    }
}

/* Two bolts 3 in apart, upright, 4 in from the middle of the gap: a shear of 1 gives each 1/2 down and 4/3
 * sideways. Four at the corners of 3 x 3 in: polar sum 18, hypot(1/4 + 4 x 1.5/18, 4 x 1.5/18). */
static void test_bolt_groups(void) {
    static const ss_bolt_place two[] = {{0.0, 1.0 * INCH}, {0.0, 4.0 * INCH}};
    static const ss_bolt_place four[] = {
        {0.0, 0.0}, {3.0 * INCH, 0.0}, {0.0, 3.0 * INCH}, {3.0 * INCH, 3.0 * INCH}};
    ss_bolt_group g = {.places = two, .count = 2, .bolt = bolt(0.75, 0.375, 1.5), .arm = 4.0 * INCH};
    const double one = ss_joint_bolt_resistance(&g.bolt, NULL).value;
    ss_working working = {0};
    ss_joint_strength found = ss_bolt_group_strength(&g, &working);
    CHECK_CLOSE(found.shear.nominal, one / hypot(0.5, 4.0 / 3.0), 1e-12);
    CHECK_CLOSE(found.shear.factored, 0.80 * found.shear.nominal, 1e-12);
    CHECK_CLOSE(found.moment.nominal, one * 3.0 * INCH, 1e-12);
    CU_ASSERT_PTR_NOT_NULL(strstr(found.shear.mode, "6.13.2.7"));
    check_steps(&working, 5);
    g.places = four;
    g.count = 4;
    found = ss_bolt_group_strength(&g, NULL);
    CHECK_CLOSE(found.shear.nominal, one / hypot(0.25 + 6.0 / 18.0, 6.0 / 18.0), 1e-12);
    /* One bolt has shear without an arm, and neither with one nor a moment. */
    g.count = 1;
    found = ss_bolt_group_strength(&g, NULL);
    CU_ASSERT(found.shear.factored == 0.0 && found.moment.factored == 0.0);
    CU_ASSERT_STRING_EQUAL(found.shear.mode, "one bolt holds no moment");
    g.arm = 0.0;
    CHECK_CLOSE(ss_bolt_group_strength(&g, NULL).shear.nominal, one, 1e-12);
}

/* A longer arm never carries more. */
static void test_arms(void) {
    static const ss_bolt_place three[] = {{0.0, 0.0}, {0.0, 0.09}, {0.07, 0.21}};
    double last[2] = {(double)INFINITY, (double)INFINITY};
    for (double arm = 0.0; arm < 1.0; arm += 0.03) {
        ss_bolt_group bolts = {.places = three, .count = 3, .bolt = bolt(0.75, 0.375, 1.5), .arm = arm};
        ss_weld_group welds = group(box, 3);
        welds.arm = arm;
        const double found[] = {ss_bolt_group_strength(&bolts, NULL).shear.factored,
                                ss_weld_group_strength(&welds, NULL).shear.factored};
        for (int i = 0; i < 2; i++) {
            CU_ASSERT(found[i] > 0.0 && found[i] <= last[i]);
            last[i] = found[i];
        }
    }
}

static void test_what_cannot_be_told(void) {
    static const double odd[] = {0.0, -1.0, (double)NAN, (double)INFINITY};
    static const ss_bolt_place two[] = {{0.0, 0.0}, {0.0, 0.1}};
    for (size_t i = 0; i < sizeof odd / sizeof odd[0]; i++) {
        ss_weld_group welds[] = {group(pair, 2), group(pair, 2)};
        welds[0].leg = welds[1].electrode = odd[i];
        for (int j = 0; j < ENTRIES(welds); j++) {
            CU_ASSERT(isnan(ss_weld_group_strength(&welds[j], NULL).shear.factored));
        }
        ss_joint_bolt bolts[] = {bolt(0.75, 0.3, 1.0), bolt(0.75, 0.3, 1.0), bolt(0.75, 0.3, 1.0),
                                 bolt(0.75, 0.3, 1.0), bolt(0.75, 0.3, 1.0)};
        bolts[0].diameter = bolts[1].tensile = bolts[2].ply = bolts[3].ply_fu = bolts[4].clear = odd[i];
        for (int j = 0; j < ENTRIES(bolts); j++) {
            CU_ASSERT(isnan(ss_joint_bolt_resistance(&bolts[j], NULL).value));
            const ss_bolt_group g = {.places = two, .count = 2, .bolt = bolts[j]};
            CU_ASSERT_PTR_NOT_NULL(ss_bolt_group_strength(&g, NULL).why);
        }
    }
    static const ss_weld_line nothing[] = {{0.3, 0.2, 0.3, 0.2}};
    static const ss_weld_line level[] = {{0.0, 0.2, 0.3, 0.2}};
    static const ss_weld_line wild[] = {{-1e300, -1e300, 1e300, 1e300}, {0.0, 0.0, (double)NAN, 1.0}};
    ss_weld_group g = group(nothing, 1);
    CU_ASSERT_PTR_NOT_NULL(strstr(ss_weld_group_strength(&g, NULL).why, "no length"));
    CU_ASSERT(isnan(ss_weld_group_force(&g, 1.0, 0.0)));
    g = group(wild, 2);
    CU_ASSERT_PTR_NOT_NULL(ss_weld_group_strength(&g, NULL).why);
    g = group(NULL, 2);
    CU_ASSERT_PTR_NOT_NULL(ss_weld_group_strength(&g, NULL).why);
    g = group(pair, 2);
    g.arm = -0.1;
    CU_ASSERT_PTR_NOT_NULL(ss_weld_group_strength(&g, NULL).why);
    /* A level line on the side of a car cannot be bent away from it. */
    g = group(level, 1);
    g.on_side = true;
    CU_ASSERT_EQUAL(ss_weld_group_strength(&g, NULL).moment.factored, 0.0);
    CU_ASSERT(ss_weld_group_strength(&g, NULL).shear.factored > 0.0);
    const ss_bolt_group none = {.places = NULL, .count = 3, .bolt = bolt(0.75, 0.3, 1.0)};
    CU_ASSERT_PTR_NOT_NULL(ss_bolt_group_strength(&none, NULL).why);
    CU_ASSERT(isnan(ss_bolt_group_force(&none, 1.0, 0.0)));
}

int main(void) {
    static const test_case cases[] = {{"one line", test_one_line},
                                      {"published group", test_published_group},
                                      {"Blodgett", test_blodgett},
                                      {"points", test_points},
                                      {"published bolts", test_published_bolts},
                                      {"common bolts", test_common_bolts},
                                      {"bearing limit", test_bearing_limit},
                                      {"bolt groups", test_bolt_groups},
                                      {"arms", test_arms},
                                      {"what cannot be told", test_what_cannot_be_told}};
    return RUN_SUITE("joint fasteners", cases);
}
