/* test_joint_estimate.c - plates and planks over the gap against the slope-deflection matrix and against a
 * plank on four supports. */
#include "sillspan/joint_stiffness.h"

#include <string.h>

#include "support/suite.h"

/* ---- the springs of a joint as forces of both lines ------------------------------------------------- */

/* Stiffness for w, theta of the left line and w, theta of the right one, s apart, deflections down and y to
 * the right: step and fold through rigid arms, as the mesh takes them. */
static void of_springs(const ss_joint_stiffness *k, double s, double out[4][4]) {
    const double step[] = {1.0, k->at + 0.5 * s, -1.0, -(k->at - 0.5 * s)};
    const double fold[] = {0.0, 1.0, 0.0, -1.0};
    for (int i = 0; i < 4; i++) {
        for (int j = 0; j < 4; j++) {
            out[i][j] = k->shear * step[i] * step[j] + k->rotation * fold[i] * fold[j];
        }
    }
}

/* Entries in proportion to a length each. */
static void compare(const char *what, double (*found)[4], double (*due)[4], double s) {
    const double size[] = {1.0, s, 1.0, s};
    for (int i = 0; i < 4; i++) {
        for (int j = 0; j < 4; j++) {
            check_near(what, found[i][j], due[i][j], 1e-12, due[0][0] * size[i] * size[j]);
        }
    }
}

/* The textbook's matrix of a prismatic beam, f = 12 EI/(GA s^2) (Przemieniecki, Theory of Matrix Structural
 * Analysis, 1968, from memory). */
static void test_both_fixed(void) {
    static const ss_joint_span spans[] = {{.EI = 3.1e4, .reach = 0.29},
                                          {.EI = 7.7e5, .GA = 2.9e6, .reach = 0.61},
                                          {.EI = 2.3e6, .GA = 4.1e7, .reach = 0.17}};
    for (int n = 0; n < ENTRIES(spans); n++) {
        const double s = spans[n].reach;
        const double f = spans[n].GA > 0.0 ? 12.0 * spans[n].EI / (spans[n].GA * s * s) : 0.0;
        const double c = spans[n].EI / (s * s * s) / (1.0 + f);
        double due[4][4] = {{12.0, 6.0 * s, -12.0, 6.0 * s},
                            {6.0 * s, (4.0 + f) * s * s, -6.0 * s, (2.0 - f) * s * s},
                            {-12.0, -6.0 * s, 12.0, -6.0 * s},
                            {6.0 * s, (2.0 - f) * s * s, -6.0 * s, (4.0 + f) * s * s}};
        for (int i = 0; i < 16; i++) {
            due[i / 4][i % 4] *= c;
        }
        double found[4][4];
        const ss_joint_stiffness k = ss_joint_span_stiffness(&spans[n], NULL);
        of_springs(&k, s, found);
        compare("both fixed", found, due, s);
    }
}

/* A hinge at the right end, 3 EI/s^3 (1, s, -1, 0), and the mirror image. */
static void test_one_hinged(void) {
    const double EI = 4.7e5;
    const double s = 0.43;
    const double c = 3.0 * EI / (s * s * s);
    double right[4][4] = {{c, c * s, -c, 0.0}, {c * s, c * s * s, -c * s, 0.0}, {-c, -c * s, c, 0.0}, {0.0}};
    double left[4][4] = {{c, 0.0, -c, c * s}, {0.0}, {-c, 0.0, c, -c * s}, {c * s, 0.0, -c * s, c * s * s}};
    double found[4][4];
    ss_joint_span span = {.EI = EI, .reach = s, .right = SS_JOINT_EDGE_HINGED};
    ss_joint_stiffness k = ss_joint_span_stiffness(&span, NULL);
    of_springs(&k, s, found);
    compare("right hinged", found, right, s);
    CU_ASSERT_EQUAL(k.at, 0.5 * s);
    span.right = SS_JOINT_EDGE_FIXED;
    span.left = SS_JOINT_EDGE_HINGED;
    k = ss_joint_span_stiffness(&span, NULL);
    of_springs(&k, s, found);
    compare("left hinged", found, left, s);
    CU_ASSERT_EQUAL(k.at, -0.5 * s);
}

/* ---- a plank on four supports ------------------------------------------------------------------------ */

enum { NODES = 4, WHOLE = 2 * NODES };

/* A plank of three spans b, s, b, on knife edges of two rigid cars: turns at all four are let free, and the
 * deflections there follow the cars'. `drop_right` leaves the last span away, so that the right car holds the
 * plank at one line. */
static void of_plank(double EI, double b, double s, bool drop_right, double out[4][4]) {
    double K[WHOLE][WHOLE] = {{0.0}};
    const double spans[] = {b, s, b};
    for (int e = 0; e < (drop_right ? 2 : 3); e++) {
        const double L = spans[e];
        const double k[4][4] = {{12.0, 6.0 * L, -12.0, 6.0 * L},
                                {6.0 * L, 4.0 * L * L, -6.0 * L, 2.0 * L * L},
                                {-12.0, -6.0 * L, 12.0, -6.0 * L},
                                {6.0 * L, 2.0 * L * L, -6.0 * L, 4.0 * L * L}};
        for (int i = 0; i < 4; i++) {
            for (int j = 0; j < 4; j++) {
                K[2 * e + i][2 * e + j] += EI / (L * L * L) * k[i][j];
            }
        }
    }
    /* Free turns out, one by one. */
    for (int t = 1; t < WHOLE; t += 2) {
        for (int i = 0; i < WHOLE && K[t][t] > 0.0; i++) {
            const double m = i == t ? 0.0 : K[i][t] / K[t][t];
            for (int j = 0; j < WHOLE; j++) {
                K[i][j] -= m * K[t][j];
            }
        }
    }
    /* Deflections of the supports by the cars' w and theta at their edges. */
    const double follow[NODES][4] = {
        {1.0, -b, 0.0, 0.0}, {1.0, 0.0, 0.0, 0.0}, {0.0, 0.0, 1.0, 0.0}, {0.0, 0.0, 1.0, b}};
    memset(out, 0, 16 * sizeof(double));
    for (int p = 0; p < NODES; p++) {
        for (int q = 0; q < NODES; q++) {
            for (int i = 0; i < 16; i++) {
                out[i / 4][i % 4] += follow[p][i / 4] * K[2 * p][2 * q] * follow[q][i % 4];
            }
        }
    }
}

static const ss_joint_detail planks = {.kind = SS_DETAIL_PLANKS,
                                       .thickness = 3.5 * INCH,
                                       .E = 1400.0 * KSI,
                                       .reach = 16.0 * INCH,
                                       .back = 20.0 * INCH,
                                       .share = 1.0};

static void test_plank_on_four_supports(void) {
    static const double backs[] = {20.0 * INCH, 7.0 * INCH, 61.0 * INCH};
    const double EI = planks.E * planks.thickness * planks.thickness * planks.thickness / 12.0;
    for (int n = 0; n < ENTRIES(backs); n++) {
        ss_joint_detail d = planks;
        double found[4][4];
        double due[4][4];
        d.back = backs[n];
        ss_joint_stiffness k = ss_joint_estimate(&d, NULL);
        of_springs(&k, d.reach, found);
        of_plank(EI, d.back, d.reach, false, due);
        compare("spiked at both", found, due, d.reach);
        d.right = SS_JOINT_EDGE_HINGED;
        k = ss_joint_estimate(&d, NULL);
        of_springs(&k, d.reach, found);
        of_plank(EI, d.back, d.reach, true, due);
        compare("spiked at the left", found, due, d.reach);
    }
}

/* By hand: EI = 1400 x 3.5^3 / 12 = 5002.08 kip-in2/in; 12 EI / 16^3 = 14.6545, over 1 + 2 x 20/16 = 3.5 is
 * 4.1870 kip/in per in; EI / (16 + 40/3) = 170.526 kip-in per in. */
static void test_planks_by_hand(void) {
    ss_joint_detail d = planks;
    ss_joint_stiffness k = ss_joint_estimate(&d, NULL);
    CHECK_CLOSE(k.shear, 12.0 * 1400.0 * 42.875 / 12.0 / 4096.0 / 3.5 * KIP / INCH2, 1e-12);
    CU_ASSERT_DOUBLE_EQUAL(k.rotation / KIP, 170.526, 0.0005);
    d.share = 0.3;
    CHECK_CLOSE(ss_joint_estimate(&d, NULL).shear, 0.3 * k.shear, 1e-12);
    CHECK_CLOSE(ss_joint_estimate(&d, NULL).rotation, 0.3 * k.rotation, 1e-12);
    static const ss_joint_edge nothing[][2] = {{SS_JOINT_EDGE_LOOSE, SS_JOINT_EDGE_FIXED},
                                               {SS_JOINT_EDGE_FIXED, SS_JOINT_EDGE_LOOSE},
                                               {SS_JOINT_EDGE_HINGED, SS_JOINT_EDGE_LOOSE},
                                               {SS_JOINT_EDGE_HINGED, SS_JOINT_EDGE_HINGED}};
    for (int i = 0; i < ENTRIES(nothing); i++) {
        d.left = nothing[i][0];
        d.right = nothing[i][1];
        k = ss_joint_estimate(&d, NULL);
        CU_ASSERT(k.shear == 0.0 && k.rotation == 0.0 && k.at == 0.0);
        CU_ASSERT(k.note != NULL && k.why == NULL);
    }
}

/* ---- plates ------------------------------------------------------------------------------------------ */

static const ss_joint_detail plate = {
    .kind = SS_DETAIL_PLATE, .thickness = 0.375 * INCH, .reach = 6.0 * INCH, .E = 29000.0 * KSI, .faces = 2};

/* I = 0.375^3 / 12 = 0.0043945 in3: 12 x 29000 I / 216 = 7.080 kip/in per in, less by shear deformation of f
 * = 2.6 x 6/5 x (0.375 / 6)^2; 29000 I / 6 = 21.240 kip-in per in. One hinge: a quarter, f a quarter. */
static void test_plate_by_hand(void) {
    const double I = 0.375 * 0.375 * 0.375 / 12.0;
    const double f = 2.6 * 1.2 / 256.0;
    ss_joint_stiffness k = ss_joint_estimate(&plate, NULL);
    CHECK_CLOSE(k.shear, 12.0 * 29000.0 * I / 216.0 / (1.0 + f) * KIP / INCH2, 1e-12);
    CHECK_CLOSE(k.rotation, 29000.0 * I / 6.0 * KIP, 1e-12);
    CU_ASSERT_DOUBLE_EQUAL(k.rotation / KIP, 21.240, 0.0005);
    ss_joint_detail d = plate;
    d.left = SS_JOINT_EDGE_HINGED;
    k = ss_joint_estimate(&d, NULL);
    CHECK_CLOSE(k.shear, 3.0 * 29000.0 * I / 216.0 / (1.0 + 0.25 * f) * KIP / INCH2, 1e-12);
    CU_ASSERT_EQUAL(k.rotation, 0.0);
    CHECK_CLOSE(k.at, -3.0 * INCH, 1e-12);
}

/* A fillet on one face holds no edge unless the plate bears on a lap: as for its strength. */
static void test_fillet_on_one_face(void) {
    ss_joint_detail d = plate;
    d.faces = 1;
    const ss_joint_stiffness none = ss_joint_estimate(&d, NULL);
    CU_ASSERT(none.shear == 0.0 && none.rotation == 0.0 && none.why == NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(none.note);
    CU_ASSERT_PTR_NOT_NULL(strstr(none.note, "fillet"));
    d.lap = 1.0 * INCH;
    CU_ASSERT_EQUAL(ss_joint_estimate(&d, NULL).shear, ss_joint_estimate(&plate, NULL).shear);
}

/* Over its reach alone: 1/s^3 and 1/s, but for shear deformation. */
static void test_of_one_measured_value(void) {
    ss_joint_detail d = plate;
    const ss_joint_stiffness near = ss_joint_estimate(&d, NULL);
    d.reach *= 3.0;
    const ss_joint_stiffness far = ss_joint_estimate(&d, NULL);
    const double f = 2.6 * 1.2 / 256.0;
    CHECK_CLOSE(near.shear / far.shear, 27.0 * (1.0 + f / 9.0) / (1.0 + f), 1e-12);
    CHECK_CLOSE(near.rotation / far.rotation, 3.0, 1e-12);
}

static void test_what_cannot_be_told(void) {
    static const double odd[] = {0.0, -1.0, (double)NAN, (double)INFINITY, 1e300, 1e-300};
    for (int i = 0; i < ENTRIES(odd); i++) {
        for (int which = 0; which < 6; which++) {
            ss_joint_detail d = which < 3 ? plate : planks;
            double *const values[] = {&d.thickness, &d.reach, &d.E};
            *values[which % 3] = odd[i];
            const ss_joint_stiffness k = ss_joint_estimate(&d, NULL);
            CU_ASSERT(k.why != NULL ? isnan(k.shear) && isnan(k.rotation)
                                    : isfinite(k.shear) && k.shear >= 0.0 && isfinite(k.rotation));
            CU_ASSERT(i > 3 || k.why != NULL);
        }
    }
    const ss_joint_detail none = {.kind = SS_DETAIL_NONE};
    CU_ASSERT_PTR_NOT_NULL(ss_joint_estimate(&none, NULL).why);
}

int main(void) {
    static const test_case cases[] = {{"both fixed", test_both_fixed},
                                      {"one hinged", test_one_hinged},
                                      {"plank on four supports", test_plank_on_four_supports},
                                      {"planks by hand", test_planks_by_hand},
                                      {"plate by hand", test_plate_by_hand},
                                      {"fillet on one face", test_fillet_on_one_face},
                                      {"of one measured value", test_of_one_measured_value},
                                      {"what cannot be told", test_what_cannot_be_told}};
    return RUN_SUITE("joint estimate", cases);
}
