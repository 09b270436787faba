/* test_joint_parts.c - stiffness of bolted connectors and of concrete beams with rods, by hand and by small
 * models that share nothing with the formulas. */
#include "sillspan/joint_stiffness.h"

#include <string.h>

#include "base/numeric.h"
#include "support/suite.h"

#define KN_PER_MM 1e6

/* ---- bolts ------------------------------------------------------------------------------------------- */

/* M16, grade 8.8, two in 10 mm of S235, 64 mm apart, with 24 mm clear: e = 2 d. */
static const ss_joint_detail bolts = {.kind = SS_DETAIL_BOLTS,
                                      .diameter = 0.016,
                                      .tensile = 800e6,
                                      .count = 2,
                                      .planes = 1,
                                      .spacing = 0.064,
                                      .arm = 0.1,
                                      .thickness = 0.010,
                                      .fu = 360e6,
                                      .clear = 0.024};

/* EN 1993-1-8 Table 6.11 (from memory), half of a row of two: 8 x 16 x 0.8 = 102.4 kN/mm in shear; k_b = 0.5
 * + 0.25 x 2 = 1, k_t = 1.5 x 10/16 = 0.9375, 12 x 0.9375 x 16 x 0.36 = 64.8 kN/mm in bearing on one part. */
static void test_one_bolt(void) {
    CHECK_CLOSE(ss_joint_bolt_stiffness(&bolts, NULL), KN_PER_MM / (1.0 / 102.4 + 2.0 / 64.8), 1e-12);
    ss_joint_detail d = bolts;
    d.planes = 2;
    CHECK_CLOSE(ss_joint_bolt_stiffness(&d, NULL), KN_PER_MM / (0.5 / 102.4 + 2.0 / 64.8), 1e-12);
    d = bolts;
    d.spacing = 0.032; /* k_b = 0.375 + 0.25 x 2 = 0.875 */
    CHECK_CLOSE(ss_joint_bolt_stiffness(&d, NULL), KN_PER_MM / (1.0 / 102.4 + 2.0 / (0.875 * 64.8)), 1e-12);
    d = bolts;
    d.clear = 1.0;
    d.spacing = 1.0;
    d.thickness = 1.0; /* both caps: 1.25 x 2.5 / 0.9375 of 64.8 */
    CHECK_CLOSE(ss_joint_bolt_stiffness(&d, NULL), KN_PER_MM / (1.0 / 102.4 + 2.0 / 216.0), 1e-12);
}

/* Secant: the slip and the give of the bolt add up at the stated force. */
static void test_slip(void) {
    const double k = ss_joint_bolt_stiffness(&bolts, NULL);
    ss_joint_detail d = bolts;
    d.slip = 0.0016;
    d.slip_force = 20e3;
    CHECK_CLOSE(20e3 / ss_joint_bolt_stiffness(&d, NULL), 0.0016 + 20e3 / k, 1e-12);
    d.slip_force = 1e12;
    CHECK_CLOSE(ss_joint_bolt_stiffness(&d, NULL), k, 1e-4);
    d.slip_force = 1.0;
    CHECK_CLOSE(ss_joint_bolt_stiffness(&d, NULL), 1.0 / 0.0016, 1e-4);
    d.slip_force = 0.0;
    CU_ASSERT(isnan(ss_joint_bolt_stiffness(&d, NULL)));
}

/* Force and moment at the middle of the gap of a rigid connector that each bolt holds by its spring, along
 * and across, with both cars moved as told: w at the middle of the gap and turns. */
static void rigid_connector(const ss_joint_detail *d, double k, const double cars[4], double *force,
                            double *moment) {
    /* Unknown: w and turn of the connector at the middle; equations of equilibrium. */
    double a[2][2] = {{0.0}};
    double f[2] = {0.0};
    for (int side = 0; side < 2; side++) {
        const double y = side == 0 ? -d->arm : d->arm;
        for (int i = 0; i < d->count; i++) {
            const double z = (i - 0.5 * (d->count - 1)) * d->spacing;
            a[0][0] += k;
            a[0][1] += k * y;
            a[1][0] += k * y;
            a[1][1] += k * (y * y + z * z);
            f[0] += k * (cars[2 * side] + y * cars[2 * side + 1]);
            f[1] += k * (y * cars[2 * side] + (y * y + z * z) * cars[2 * side + 1]);
        }
    }
    const double det = a[0][0] * a[1][1] - a[0][1] * a[1][0];
    const double w = (f[0] * a[1][1] - f[1] * a[0][1]) / det;
    const double turn = (f[1] * a[0][0] - f[0] * a[1][0]) / det;
    *force = *moment = 0.0;
    for (int i = 0; i < d->count; i++) {
        const double z = (i - 0.5 * (d->count - 1)) * d->spacing;
        const double down = cars[0] - w + -d->arm * (cars[1] - turn);
        *force += k * down;
        *moment += k * (-d->arm * down + z * z * (cars[1] - turn));
    }
}

static void test_groups_one_by_one(void) {
    for (int count = 2; count <= 6; count++) {
        ss_joint_detail d = bolts;
        d.count = count;
        const double k = ss_joint_bolt_stiffness(&d, NULL);
        const ss_joint_stiffness found = ss_joint_estimate(&d, NULL);
        double force;
        double moment;
        const double step[] = {0.5e-3, 0.0, -0.5e-3, 0.0};
        rigid_connector(&d, k, step, &force, &moment);
        CHECK_CLOSE(found.shear, force / 1e-3, 1e-12);
        check_near("no moment of a step", moment, 0.0, 1e-12, force * d.arm);
        const double fold[] = {0.0, 0.5e-3, 0.0, -0.5e-3};
        rigid_connector(&d, k, fold, &force, &moment);
        CHECK_CLOSE(found.rotation, moment / 1e-3, 1e-12);
        check_near("no force of a fold", force, 0.0, 1e-12, moment / d.arm);
    }
}

static void test_bolts_at_the_limits(void) {
    ss_joint_detail d = bolts;
    d.count = 1;
    ss_joint_stiffness k = ss_joint_estimate(&d, NULL);
    CU_ASSERT(k.shear == 0.0 && k.rotation == 0.0 && k.note != NULL && k.why == NULL);
    d.arm = 0.0;
    k = ss_joint_estimate(&d, NULL);
    CHECK_CLOSE(k.shear, 0.5 * ss_joint_bolt_stiffness(&d, NULL), 1e-12);
    CU_ASSERT(k.note == NULL);
    static const double odd[] = {0.0, -1.0, (double)NAN, (double)INFINITY, 1e-300, 1e300};
    for (int i = 0; i < ENTRIES(odd); i++) {
        for (int which = 0; which < 6; which++) {
            d = bolts;
            double *const values[] = {&d.diameter, &d.tensile, &d.thickness, &d.fu, &d.clear, &d.spacing};
            *values[which] = odd[i];
            k = ss_joint_estimate(&d, NULL);
            CU_ASSERT(k.why != NULL ? isnan(k.shear) && isnan(k.rotation)
                                    : isfinite(k.shear) && k.shear >= 0.0 && isfinite(k.rotation));
            CU_ASSERT(i > 3 || k.why != NULL);
        }
    }
}

/* ---- concrete ---------------------------------------------------------------------------------------- */

/* 4 x 12 in of 4 ksi concrete, 1 in rods every 24 in, 8 in below its top, 18 in between nuts. */
static const ss_joint_detail beam = {.kind = SS_DETAIL_BEAM,
                                     .depth = 12.0 * INCH,
                                     .fc = 4.0 * KSI,
                                     .diameter = 1.0 * INCH,
                                     .spacing = 24.0 * INCH,
                                     .fy = 36.0 * KSI,
                                     .cover = 8.0 * INCH,
                                     .width = 4.0 * INCH,
                                     .grip = 18.0 * INCH};

enum { PIECES = 400, UNKNOWNS = 2 * (PIECES + 1) };

/* Deflection of an end of a rod in concrete, pushed by 1 up at one end and down at the other: straight beam
 * elements, the bed as springs at their ends (inches and kips). */
static double small_rod(double diameter, double width) {
    static double K[UNKNOWNS][UNKNOWNS];
    double f[UNKNOWNS] = {0.0};
    memset(K, 0, sizeof K);
    const double L = width / PIECES;
    const double EI = 29000.0 * SS_PI * diameter * diameter * diameter * diameter / 64.0;
    const double k[4][4] = {{12.0, 6.0 * L, -12.0, 6.0 * L},
                            {6.0 * L, 4.0 * L * L, -6.0 * L, 2.0 * L * L},
                            {-12.0, -6.0 * L, 12.0, -6.0 * L},
                            {6.0 * L, 2.0 * L * L, -6.0 * L, 4.0 * L * L}};
    for (int e = 0; e < PIECES; e++) {
        for (int i = 0; i < 16; i++) {
            K[2 * e + i / 4][2 * e + i % 4] += EI / (L * L * L) * k[i / 4][i % 4];
        }
        K[2 * e][2 * e] += 0.5 * 300.0 * diameter * L;
        K[2 * e + 2][2 * e + 2] += 0.5 * 300.0 * diameter * L;
    }
    f[0] = 1.0;
    f[UNKNOWNS - 2] = -1.0;
    for (int i = 0; i < UNKNOWNS; i++) {
        for (int r = i + 1; r < UNKNOWNS && r < i + 4; r++) {
            const double m = K[r][i] / K[i][i];
            for (int c = i; c < UNKNOWNS && c < i + 4; c++) {
                K[r][c] -= m * K[i][c];
            }
            f[r] -= m * f[i];
        }
    }
    for (int i = UNKNOWNS - 1; i >= 0; i--) {
        for (int c = i + 1; c < UNKNOWNS && c < i + 4; c++) {
            f[i] -= K[i][c] * f[c];
        }
        f[i] /= K[i][i];
    }
    return f[0];
}

static void test_dowels(void) {
    static const double widths[] = {3.0, 6.0, 11.0};
    for (int i = 0; i < ENTRIES(widths); i++) {
        check_relative("dowel", ss_joint_dowel_stiffness(INCH, widths[i] * INCH),
                       0.5 / small_rod(1.0, widths[i]) * KIP / INCH, 1e-4);
    }
    /* Friberg's deflection at the face of a joint without width, P / (2 beta^3 EI), on both sides. */
    const double EI = 29000.0 * SS_PI / 64.0;
    const double beta = sqrt(sqrt(300.0 / (4.0 * EI)));
    CHECK_CLOSE(ss_joint_dowel_stiffness(INCH, 1e3 * INCH), beta * beta * beta * EI * KIP / INCH, 1e-12);
    /* A short rod turns as a whole on its bed: 12 P / (k w) between its ends. */
    CHECK_CLOSE(ss_joint_dowel_stiffness(INCH, 1e-4 * INCH), 300.0 * 1e-4 / 12.0 * KIP / INCH, 1e-9);
    CHECK_CLOSE(ss_joint_dowel_stiffness(INCH, 0.0041 * INCH), 300.0 * 0.0041 / 12.0 * KIP / INCH, 1e-9);
}

/* Neutral axis by halving: what rods pull is what concrete presses, for a fold of 1. */
static double fold_by_halving(double d, double rods, double Ec, double width, double grip) {
    double low = 0.0;
    double high = d;
    for (int i = 0; i < 200; i++) {
        const double x = 0.5 * (low + high);
        const double pull = 29000.0 * rods * (d - x) / grip;
        const double press = 0.5 * Ec * x / width * x;
        *(press < pull ? &low : &high) = x;
    }
    return 29000.0 * rods * (d - low) / grip * (d - low / 3.0);
}

static void test_fold_of_concrete(void) {
    const double Ec = 57.0 * sqrt(4000.0);
    const double rods = 0.25 * SS_PI / 24.0;
    const double opens_below = fold_by_halving(8.0, rods, Ec, 4.0, 18.0);
    const double opens_above = fold_by_halving(4.0, rods, Ec, 4.0, 18.0);
    CU_ASSERT(opens_above < opens_below);
    CHECK_CLOSE(ss_joint_estimate(&beam, NULL).rotation, opens_above * KIP, 1e-9);
    ss_joint_detail d = beam;
    d.cover = 4.0 * INCH;
    CHECK_CLOSE(ss_joint_estimate(&d, NULL).rotation, opens_above * KIP, 1e-9);
    /* Concrete that does not shorten: A E d^2 / L at rods in the middle. */
    d.cover = 6.0 * INCH;
    d.width = 1e-9 * INCH;
    CHECK_CLOSE(ss_joint_estimate(&d, NULL).rotation, 29000.0 * rods * 36.0 / 18.0 * KIP, 1e-4);
}

static void test_step_of_concrete(void) {
    ss_joint_detail d = beam;
    const ss_joint_stiffness k = ss_joint_estimate(&d, NULL);
    const double dowels = ss_joint_dowel_stiffness(INCH, 4.0 * INCH) / (24.0 * INCH);
    CHECK_CLOSE(1.0 / k.shear, 1.0 / dowels + 16.0 * INCH2 / (4.0 * k.rotation), 1e-12);
    /* Whole: I = 12^3/12 = 144 in3, f = 2.4 x 6/5 x (12/4)^2 = 25.92. */
    d.whole = true;
    const double Ec = 57.0 * sqrt(4000.0);
    const ss_joint_stiffness whole = ss_joint_estimate(&d, NULL);
    CHECK_CLOSE(whole.shear, 12.0 * Ec * 144.0 / 64.0 / 26.92 * KIP / INCH2, 1e-12);
    CU_ASSERT_EQUAL(whole.rotation, k.rotation);
    d = beam;
    d.cover = d.depth;
    const ss_joint_stiffness none = ss_joint_estimate(&d, NULL);
    CU_ASSERT(none.shear == 0.0 && none.rotation == 0.0 && none.note != NULL && none.why == NULL);
}

static void test_concrete_that_cannot_be_told(void) {
    static const double odd[] = {0.0, -1.0, (double)NAN, (double)INFINITY, 1e-300, 1e300};
    for (int i = 0; i < ENTRIES(odd); i++) {
        for (int which = 0; which < 7; which++) {
            ss_joint_detail d = beam;
            double *const values[] = {&d.depth, &d.fc, &d.diameter, &d.spacing, &d.cover, &d.width, &d.grip};
            *values[which] = odd[i];
            const ss_joint_stiffness k = ss_joint_estimate(&d, NULL);
            CU_ASSERT(k.why != NULL ? isnan(k.shear) && isnan(k.rotation)
                                    : isfinite(k.shear) && k.shear >= 0.0 && isfinite(k.rotation));
            CU_ASSERT(i > 3 || k.why != NULL);
        }
    }
}

int main(void) {
    static const test_case cases[] = {{"one bolt", test_one_bolt},
                                      {"slip", test_slip},
                                      {"groups, one by one", test_groups_one_by_one},
                                      {"bolts at the limits", test_bolts_at_the_limits},
                                      {"dowels", test_dowels},
                                      {"fold of concrete", test_fold_of_concrete},
                                      {"step of concrete", test_step_of_concrete},
                                      {"concrete that cannot be told", test_concrete_that_cannot_be_told}};
    return RUN_SUITE("joint parts", cases);
}
