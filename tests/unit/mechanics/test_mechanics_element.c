/* test_mechanics_element.c - the member against closed forms and against itself cut in two. */
#include "samples.h"

#include "mechanics/element.h"

static ss_element some_element(bool across, double GA, bool hinge_a, bool hinge_b) {
    return (ss_element){.a = 0,
                        .b = 1,
                        .across = across,
                        .length = 2.37,
                        .EI = 6.1e7,
                        .GJ = 4.3e6,
                        .GA = GA,
                        .hinge_a = hinge_a,
                        .hinge_b = hinge_b};
}

/* Eight variants: along or across, with and without shear deformation, hinged or not. */
static ss_element variant(int i) {
    return some_element((i & 1) != 0, (i & 2) != 0 ? 7.7e7 : (double)INFINITY, (i & 4) != 0, (i & 8) != 0);
}
enum { VARIANTS = 16 };

static double largest(const double *k, int n) {
    double most = 0.0;
    for (int i = 0; i < n; i++) {
        most = fmax(most, fabs(k[i]));
    }
    return most;
}

/* Entries of the two-dimensional case, for which every textbook has them: 12, 6, 4 and 2 times E I over
 * powers of L, with the signs of the axes. */
static void test_textbook_entries(void) {
    double k[36];
    ss_element e = some_element(false, (double)INFINITY, false, false);
    const double L = e.length;
    ss_element_stiffness(&e, k);
    check_relative("w w", k[0], 12.0 * e.EI / (L * L * L), 1e-14);
    check_relative("w rotation about y", k[2], -6.0 * e.EI / (L * L), 1e-14);
    check_relative("rotation", k[6 * 2 + 2], 4.0 * e.EI / L, 1e-14);
    check_relative("far rotation", k[6 * 2 + 5], 2.0 * e.EI / L, 1e-14);
    check_relative("torsion", k[6 * 1 + 1], e.GJ / L, 1e-14);
    check_relative("far torsion", k[6 * 1 + 4], -e.GJ / L, 1e-14);
    e.across = true;
    ss_element_stiffness(&e, k);
    check_relative("w rotation about x", k[1], 6.0 * e.EI / (L * L), 1e-14);
    check_relative("torsion across", k[6 * 2 + 2], e.GJ / L, 1e-14);
    e.hinge_b = true;
    ss_element_stiffness(&e, k);
    check_relative("propped", k[6 * 1 + 1], 3.0 * e.EI / L, 1e-14);
    CU_ASSERT_EQUAL(k[6 * 4 + 4], 0.0);
}

/* Symmetric; no force from a rigid motion (a hinged end may turn freely besides). */
static void test_rigid_motions(void) {
    for (int v = 0; v < VARIANTS; v++) {
        const ss_element e = variant(v);
        double k[36];
        ss_element_stiffness(&e, k);
        const double most = largest(k, 36);
        const double along = e.across ? 0.0 : e.length;
        const double beside = e.across ? e.length : 0.0;
        const double motion[3][6] = {{1, 0, 0, 1, 0, 0}, {0, 1, 0, beside, 1, 0}, {0, 0, 1, -along, 0, 1}};
        for (int i = 0; i < 6; i++) {
            for (int j = 0; j < 6; j++) {
                check_near("symmetric", k[6 * i + j], k[6 * j + i], 1e-15, most);
            }
            for (int m = 0; m < 3; m++) {
                double f = 0.0;
                for (int j = 0; j < 6; j++) {
                    f += k[6 * i + j] * motion[m][j];
                }
                check_near("rigid motion", f, 0.0, 1e-14, most);
            }
        }
    }
}

/* Gauss elimination of n equations with one right-hand side, no pivoting (positive definite). */
static void eliminate(int n, double *k, double *b) {
    for (int p = 0; p < n; p++) {
        for (int i = p + 1; i < n; i++) {
            const double f = k[n * i + p] / k[n * p + p];
            for (int j = p; j < n; j++) {
                k[n * i + j] -= f * k[n * p + j];
            }
            b[i] -= f * b[p];
        }
    }
    for (int p = n - 1; p >= 0; p--) {
        for (int j = p + 1; j < n; j++) {
            b[p] -= k[n * p + j] * b[j];
        }
        b[p] /= k[n * p + p];
    }
}

/* The member cut at s in two: condensing the inner node must give the member's stiffness and, for a unit
 * force there, its load shape. */
static void test_cut_in_two(void) {
    static const double cuts[] = {0.013, 0.31, 0.5, 0.877};
    for (int v = 0; v < VARIANTS; v++) {
        for (int c = 0; c < ENTRIES(cuts); c++) {
            const double s = cuts[c];
            const ss_element e = variant(v);
            ss_element left = e;
            ss_element right = e;
            left.length *= s;
            right.length *= 1.0 - s;
            left.hinge_b = right.hinge_a = false;
            double kl[36];
            double kr[36];
            double k[36];
            double shape[6][4];
            ss_element_stiffness(&left, kl);
            ss_element_stiffness(&right, kr);
            ss_element_stiffness(&e, k);
            ss_element_shape(&e, shape);
            for (int i = 0; i < 6; i++) {
                /* Column i of the condensed matrix: a unit movement of the ends with the inner node free. */
                double inner[9];
                double u[3];
                for (int a = 0; a < 3; a++) {
                    for (int b = 0; b < 3; b++) {
                        inner[3 * a + b] = kl[6 * (a + 3) + b + 3] + kr[6 * a + b];
                    }
                    u[a] = i < 3 ? -kl[6 * (a + 3) + i] : -kr[6 * a + i];
                }
                eliminate(3, inner, u);
                for (int j = 0; j < 6; j++) {
                    double f = 0.0;
                    if (j < 3) {
                        f = i < 3 ? kl[6 * j + i] : 0.0;
                        for (int a = 0; a < 3; a++) {
                            f += kl[6 * j + a + 3] * u[a];
                        }
                    } else {
                        f = i < 3 ? 0.0 : kr[6 * j + i];
                        for (int a = 0; a < 3; a++) {
                            f += kr[6 * j + a] * u[a];
                        }
                    }
                    check_near("condensed", f, k[6 * j + i], 1e-9, largest(k, 36));
                }
                /* By Betti the end force under a unit force at the cut is the deflection of the cut under the
                 * unit movement. */
                check_near("shape", ss_cubic(shape[i], s), u[0], 1e-11, 1.0);
            }
        }
    }
}

/* Uniform load: the integral of the shape, and w L / 2, w L^2 / 12 where there are no hinges. */
static void test_uniform(void) {
    for (int v = 0; v < VARIANTS; v++) {
        const ss_element e = variant(v);
        double f[6];
        double c[6][4];
        ss_element_uniform(&e, f);
        ss_element_shape(&e, c);
        for (int i = 0; i < 6; i++) {
            check_near("integral", f[i], e.length * (c[i][0] + c[i][1] / 2.0 + c[i][2] / 3.0 + c[i][3] / 4.0),
                       1e-14, e.length * e.length);
        }
        check_relative("sum", f[0] + f[3], e.length, 1e-13);
        if (e.hinge_a || e.hinge_b) {
            continue;
        }
        check_relative("half", f[0], 0.5 * e.length, 1e-13);
        check_relative("end moment", f[e.across ? 1 : 2],
                       (e.across ? 1.0 : -1.0) * e.length * e.length / 12.0, 1e-13);
    }
    const ss_element propped = some_element(true, (double)INFINITY, false, true);
    double f[6];
    ss_element_uniform(&propped, f);
    check_relative("propped end moment", f[1], propped.length * propped.length / 8.0, 1e-13);
    check_relative("propped far force", f[3], 3.0 * propped.length / 8.0, 1e-13);
}

/* Fixed beam under a force: P L^3 / 192 in the middle, a^3 b^3 / 3 L^3 at the force; with one hinge, the
 * propped cantilever's 7 P L^3 / 768. */
static void test_clamped_deflection(void) {
    const ss_element fixed = some_element(false, (double)INFINITY, false, false);
    const double L = fixed.length;
    double c[6][4];
    ss_element_own_shape(&fixed, c);
    const double s = 0.37;
    const double b = 1.0 - s;
    check_relative("fixed",
                   ss_element_clamped_deflection(&fixed, s, -ss_cubic(c[1], s), ss_cubic(c[0], s), s, 0.0),
                   L * L * L * s * s * s * b * b * b / (3.0 * fixed.EI), 1e-12);
    const ss_element propped = some_element(false, (double)INFINITY, true, false);
    ss_element_own_shape(&propped, c);
    check_relative(
        "propped",
        ss_element_clamped_deflection(&propped, 0.5, -ss_cubic(c[1], 0.5), ss_cubic(c[0], 0.5), 0.5, 0.0),
        7.0 * L * L * L / (768.0 * propped.EI), 1e-12);
    const ss_element deep = some_element(false, 7.7e7, false, false);
    double f[6];
    ss_element_own_uniform(&deep, 0.0, 1.0, f);
    check_relative("uniform with shear", ss_element_clamped_deflection(&deep, 0.5, -f[1], f[0], -1.0, 1.0),
                   L * L * L * L / (384.0 * deep.EI) + L * L / (8.0 * deep.GA), 1e-12);
}

int main(void) {
    static const test_case cases[] = {
        {"textbook entries", test_textbook_entries},
        {"rigid motions", test_rigid_motions},
        {"cut in two", test_cut_in_two},
        {"uniform load", test_uniform},
        {"clamped deflection", test_clamped_deflection},
    };
    return RUN_SUITE("element", cases);
}
