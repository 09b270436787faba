/* element.c - the prismatic Timoshenko member with St Venant torsion and end hinges; pure functions of small
 * arrays. */
#include "mechanics/element.h"

#include <math.h>
#include <string.h>

#include "base/numeric.h"

/*
 * Own coordinates and signs are in element.h. With L, EI, GA and phi = 12 EI / (GA L^2), bending stiffness is
 * (Przemieniecki, Theory of Matrix Structural Analysis, 1968, section 5.6; from memory)
 *
 *                      | 12     6L          -12    6L         |
 *   EI/((1+phi) L^3)   | 6L     (4+phi)L^2  -6L    (2-phi)L^2 |
 *                      | -12    -6L          12    -6L        |
 *                      | 6L     (2-phi)L^2  -6L    (4+phi)L^2 |
 *
 * A released end moment is condensed: K' = K - k_c k_c' / k_cc, and the same for the load shape, so that both
 * stay exact.
 */

static double shear_ratio(const ss_element *e) {
    return isinf(e->GA) ? 0.0 : 12.0 * e->EI / (e->GA * e->length * e->length);
}

ss_element_axes ss_element_axes_of(const ss_element *element) {
    /* dw/dx is minus the rotation about y; dw/dy is the rotation about x (docs/conventions.md). */
    static const ss_element_axes along = {{0, 2, 1, 3, 5, 4}, {1.0, -1.0, 1.0, 1.0, -1.0, 1.0}};
    static const ss_element_axes across = {{0, 1, 2, 3, 4, 5}, {1.0, 1.0, 1.0, 1.0, 1.0, 1.0}};
    return element->across ? across : along;
}

/* Bending coordinates w_a, slope_a, w_b, slope_b within the own coordinates. */
static const int bending[4] = {0, 1, 3, 4};

static void bending_unreleased(const ss_element *e, double k[4][4], double c[4][4]) {
    const double L = e->length;
    const double phi = shear_ratio(e);
    const double a = 1.0 / (1.0 + phi);
    const double f = e->EI * a / (L * L * L);
    const double stiffness[4][4] = {
        {12.0 * f, 6.0 * L * f, -12.0 * f, 6.0 * L * f},
        {6.0 * L * f, (4.0 + phi) * L * L * f, -6.0 * L * f, (2.0 - phi) * L * L * f},
        {-12.0 * f, -6.0 * L * f, 12.0 * f, -6.0 * L * f},
        {6.0 * L * f, (2.0 - phi) * L * L * f, -6.0 * L * f, (4.0 + phi) * L * L * f}};
    const double shape[4][4] = {{1.0, -phi * a, -3.0 * a, 2.0 * a},
                                {0.0, L * (1.0 + 0.5 * phi) * a, -L * (2.0 + 0.5 * phi) * a, L * a},
                                {0.0, phi * a, 3.0 * a, -2.0 * a},
                                {0.0, -0.5 * phi * L * a, L * (0.5 * phi - 1.0) * a, L * a}};
    memcpy(k, stiffness, sizeof stiffness);
    memcpy(c, shape, sizeof shape);
}

static void release(double k[4][4], double c[4][4], int r) {
    double column[4];
    for (int i = 0; i < 4; i++) {
        column[i] = k[i][r] / k[r][r];
    }
    for (int i = 0; i < 4; i++) {
        if (i == r) {
            continue;
        }
        for (int j = 0; j < 4; j++) {
            k[i][j] = j == r ? 0.0 : k[i][j] - column[i] * k[r][j];
        }
        for (int j = 0; j < 4; j++) {
            c[i][j] -= column[i] * c[r][j];
        }
    }
    for (int j = 0; j < 4; j++) {
        k[r][j] = 0.0;
        c[r][j] = 0.0;
    }
}

static void bending_released(const ss_element *e, double k[4][4], double c[4][4]) {
    bending_unreleased(e, k, c);
    if (e->hinge_a && e->hinge_b) {
        /* A bar between two hinges only hands forces to its ends; said exactly, so that no rounding is left
         * as stiffness. */
        static const double lever[4][4] = {{1.0, -1.0, 0.0, 0.0}, {0.0}, {0.0, 1.0, 0.0, 0.0}, {0.0}};
        memset(k, 0, 16 * sizeof(double));
        memcpy(c, lever, sizeof lever);
        return;
    }
    if (e->hinge_a) {
        release(k, c, 1);
    }
    if (e->hinge_b) {
        release(k, c, 3);
    }
}

void ss_element_own_stiffness(const ss_element *element, double k[36]) {
    double b[4][4];
    double c[4][4];
    bending_released(element, b, c);
    for (int i = 0; i < 36; i++) {
        k[i] = 0.0;
    }
    for (int i = 0; i < 4; i++) {
        for (int j = 0; j < 4; j++) {
            k[6 * bending[i] + bending[j]] = b[i][j];
        }
    }
    const double t = element->GJ / element->length;
    k[6 * 2 + 2] = t;
    k[6 * 2 + 5] = -t;
    k[6 * 5 + 2] = -t;
    k[6 * 5 + 5] = t;
}

void ss_element_own_shape(const ss_element *element, double c[6][4]) {
    double b[4][4];
    double shape[4][4];
    bending_released(element, b, shape);
    for (int i = 0; i < 6; i++) {
        for (int j = 0; j < 4; j++) {
            c[i][j] = 0.0;
        }
    }
    for (int i = 0; i < 4; i++) {
        memcpy(c[bending[i]], shape[i], sizeof shape[i]);
    }
}

void ss_element_own_uniform(const ss_element *element, double s0, double s1, double f[6]) {
    double c[6][4];
    ss_element_own_shape(element, c);
    for (int i = 0; i < 6; i++) {
        double sum = 0.0;
        double p0 = 1.0;
        double p1 = 1.0;
        for (int j = 0; j < 4; j++) {
            p0 *= s0;
            p1 *= s1;
            sum += c[i][j] * (p1 - p0) / (j + 1);
        }
        f[i] = sum * element->length;
    }
}

void ss_element_stiffness(const ss_element *element, double k[36]) {
    double own[36];
    const ss_element_axes axes = ss_element_axes_of(element);
    ss_element_own_stiffness(element, own);
    for (int i = 0; i < 6; i++) {
        for (int j = 0; j < 6; j++) {
            k[6 * axes.map[i] + axes.map[j]] = axes.sign[i] * axes.sign[j] * own[6 * i + j];
        }
    }
}

void ss_element_shape(const ss_element *element, double c[6][4]) {
    double own[6][4];
    const ss_element_axes axes = ss_element_axes_of(element);
    ss_element_own_shape(element, own);
    for (int i = 0; i < 6; i++) {
        for (int j = 0; j < 4; j++) {
            c[axes.map[i]][j] = axes.sign[i] * own[i][j];
        }
    }
}

void ss_element_uniform(const ss_element *element, double f[6]) {
    double own[6];
    const ss_element_axes axes = ss_element_axes_of(element);
    ss_element_own_uniform(element, 0.0, 1.0, own);
    for (int i = 0; i < 6; i++) {
        f[axes.map[i]] = axes.sign[i] * own[i];
    }
}

void ss_element_overhang(const ss_element *element, bool at_b, double f[6]) {
    const bool hinged = at_b ? element->hinge_b : element->hinge_a;
    const bool far_hinged = at_b ? element->hinge_a : element->hinge_b;
    for (int i = 0; i < 6; i++) {
        f[i] = 0.0;
    }
    if (!hinged) {
        f[at_b ? 4 : 1] = 1.0;
        return;
    }
    /* Betti: the turn of the beam's end within the hinge when an end of it is moved. It is that of the chord
     * less `carried` times what the far end turns against the chord. */
    const double phi = shear_ratio(element);
    const double carried = far_hinged ? 0.0 : (2.0 - phi) / (4.0 + phi);
    f[0] = -(1.0 + carried) / element->length;
    f[3] = (1.0 + carried) / element->length;
    f[at_b ? 1 : 4] = -carried;
}

/* Deflection at x from a with no slope at a: slope' = -M/EI, w' = slope + V/GA. */
static double from_left_end(const ss_element *e, double x, double M_a, double V_a, double force_at,
                            double q) {
    const double shear = isinf(e->GA) ? 0.0 : 1.0 / e->GA;
    const double past = force_at < 0.0 ? 0.0 : ss_max(0.0, x - force_at * e->length);
    const double bend =
        M_a * x * x / 2.0 + V_a * x * x * x / 6.0 - past * past * past / 6.0 - q * x * x * x * x / 24.0;
    return -bend / e->EI + (V_a * x - past - q * x * x / 2.0) * shear;
}

double ss_element_clamped_deflection(const ss_element *element, double s, double M_a, double V_a,
                                     double force_at, double q) {
    /* The slope at a follows from w = 0 at b; it is zero by itself where a is not hinged. */
    const double end = from_left_end(element, element->length, M_a, V_a, force_at, q);
    return from_left_end(element, s * element->length, M_a, V_a, force_at, q) - s * end;
}
