/* test_mechanics_grid.c - grid frames with published or closed-form answers. */
#include "samples.h"

/* ---- assembled by hand: members at any angle ---------------------------------------------------- */

/* Stiffness of a member from (0, 0) in direction (c, s) of its own axis, in global w, rotation about x,
 * rotation about y. The element along x is turned: a rotation vector (rx, ry) has components c rx + s ry
 * along the member and -s rx + c ry across it. */
static void turned_stiffness(double length, double angle, double EI, double GJ, double out[36]) {
    const ss_element e = {.length = length, .EI = EI, .GJ = GJ, .GA = (double)INFINITY};
    double k[36];
    double t[36] = {0};
    ss_element_stiffness(&e, k);
    for (int n = 0; n < 2; n++) {
        t[6 * (3 * n) + 3 * n] = 1.0;
        t[6 * (3 * n + 1) + 3 * n + 1] = t[6 * (3 * n + 2) + 3 * n + 2] = cos(angle);
        t[6 * (3 * n + 1) + 3 * n + 2] = sin(angle);
        t[6 * (3 * n + 2) + 3 * n + 1] = -sin(angle);
    }
    for (int i = 0; i < 6; i++) {
        for (int j = 0; j < 6; j++) {
            out[6 * i + j] = 0.0;
            for (int a = 0; a < 6; a++) {
                for (int b = 0; b < 6; b++) {
                    out[6 * i + j] += t[6 * a + i] * k[6 * a + b] * t[6 * b + j];
                }
            }
        }
    }
}

/* Gauss elimination of three equations, enough for a positive definite matrix. */
static void solve3(double k[9], double b[3]) {
    for (int p = 0; p < 3; p++) {
        for (int i = p + 1; i < 3; i++) {
            const double f = k[3 * i + p] / k[3 * p + p];
            for (int j = p; j < 3; j++) {
                k[3 * i + j] -= f * k[3 * p + j];
            }
            b[i] -= f * b[p];
        }
    }
    for (int p = 2; p >= 0; p--) {
        for (int j = p + 1; j < 3; j++) {
            b[p] -= k[3 * p + j] * b[j];
        }
        b[p] /= k[3 * p + p];
    }
}

/* Three members from one loaded node to fixed ends, one of them diagonal: P. I. Kattan, MATLAB Guide to
 * Finite Elements, Example 9.1. */
static void test_three_members(void) {
    const double EI = 210e9 * 20e-5;
    const double GJ = 84e9 * 5e-5;
    const double length[3] = {4.0, 4.0 * sqrt(2.0), 4.0};
    const double angle[3] = {acos(-1.0), 0.75 * acos(-1.0), 0.5 * acos(-1.0)};
    double member[3][36];
    double k[9] = {0};
    double u[3] = {20e3, 0.0, 0.0};
    for (int m = 0; m < 3; m++) {
        turned_stiffness(length[m], angle[m], EI, GJ, member[m]);
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                k[3 * i + j] += member[m][6 * i + j];
            }
        }
    }
    check_near("assembled w", k[0] / 1e3, 18534.0, 0.5, 1.0);
    check_near("assembled rotation", k[4] / 1e3, 58270.0, 0.5, 1.0);
    check_near("assembled coupling", fabs(k[1]) / 1e3, 21318.0, 0.5, 1.0);
    check_near("assembled cross", fabs(k[5]) / 1e3, 14478.0, 0.5, 1.0);
    solve3(k, u);
    check_near("deflection", u[0], 0.00331139, 5e-9, 1.0);
    check_near("rotation about x", fabs(u[1]), 0.00097038, 5e-9, 1.0);
    check_near("rotation about y", fabs(u[2]), 0.00097038, 5e-9, 1.0);
    static const double force[3] = {10.7937, -1.5874, 10.7937}; /* kN, up */
    for (int m = 0; m < 3; m++) {
        double end[3] = {0};
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                end[i] += member[m][6 * (i + 3) + j] * u[j];
            }
        }
        check_near("force at the far end", -end[0] / 1e3, force[m], 5e-5, 1.0);
        const double along = cos(angle[m]) * end[1] + sin(angle[m]) * end[2];
        const double across = cos(angle[m]) * end[2] - sin(angle[m]) * end[1];
        check_near("torsion", fabs(along) / 1e3, m == 1 ? 0.0 : 1.0189, 5e-5, 1.0);
        check_near("bending", fabs(across) / 1e3, m == 1 ? 5.6992 : 31.7764, 5e-5, 1.0);
    }
}

/* Two equal members to fixed ends: same book, Problem 9.1 (its data; the answer is this project's own). By
 * statics each end takes half the load, and the moment about the axis through both ends is P times the arm.
 */
static void test_two_members(void) {
    const double EI = 210e9 * 20e-5;
    const double GJ = 84e9 * 5e-5;
    double k[9] = {0};
    double u[3] = {10e3, 0.0, 0.0};
    for (int m = 0; m < 2; m++) {
        double member[36];
        turned_stiffness(5.0, atan2(m == 0 ? 3.0 : -3.0, -4.0), EI, GJ, member);
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                k[3 * i + j] += member[6 * i + j];
            }
        }
    }
    solve3(k, u);
    check_near("deflection", u[0], 0.0047622, 5e-8, 1.0);
    check_near("rotation about x", u[1], 0.0, 1e-15, 1.0);
    check_near("rotation about y", fabs(u[2]), 0.0017611, 5e-8, 1.0);
}

/* ---- through the mesh --------------------------------------------------------------------------- */

/* Two members of 3 m at right angles, far ends fixed, loaded at the corner: D. L. Logan, A First Course in
 * the Finite Element Method (data from memory). The second member is a floor beam; the line at its far end is
 * a stub that a fixed bearing holds. */
static void test_right_angle(void) {
    sample s;
    analysis a;
    sample_start(&s, 210e9, 84e9, 10.0);
    const int section = hand_section(&s.bridge, 16.6e-5, 4.6e-5, 0.0, 0.0);
    hand_car(&s.bridge, "corner", 0.0, 3.5, -0.5, 3.5);
    const int line = hand_line(&s.bridge, SS_ROLE_MAIN, "member", 0.0, section);
    const int stub = hand_line(&s.bridge, SS_ROLE_MAIN, "stub", 3.0, section);
    s.bridge.lines[line].x1 = 3.0;
    s.bridge.lines[stub].x0 = 3.0;
    s.bridge.pieces[0].x1 = 3.0;
    s.bridge.pieces[1].x0 = 3.0;
    hand_beam(&s.bridge, 3.0, section);
    s.bridge.bearings[hand_pad(&s.bridge, line, 0.0, 0.3)].rotation = (double)INFINITY;
    s.bridge.bearings[hand_pad(&s.bridge, stub, 3.0, 0.3)].rotation = (double)INFINITY;
    analysis_start(&a, &s);
    ss_load_force_on_line(&a.load, line, 3.0, 22e3, NULL);
    analysis_solve(&a, NULL, NULL);
    check_near("deflection", 1e3 * line_effect(&a, line, 3.0, true, SS_EFFECT_DEFLECTION), 2.6274, 5e-5, 1.0);
    const int corner = a.mesh.element[a.mesh.line_element[line]].b;
    check_near("rotation about x", 1e3 * fabs(a.u[3 * corner + 1]), 1.2783, 5e-5, 1.0);
    check_near("rotation about y", 1e3 * fabs(a.u[3 * corner + 2]), 1.2783, 5e-5, 1.0);
    check_relative("reaction", reaction(&a, 0), 11e3, 1e-10);
    check_relative("reaction", reaction(&a, 1), 11e3, 1e-10);
    check_near("torsion", 1e-3 * fabs(line_effect(&a, line, 0.0, false, SS_EFFECT_TORSION)), 1.646, 5e-4,
               1.0);
    check_near("bending at the end", 1e-3 * line_effect(&a, line, 0.0, false, SS_EFFECT_MOMENT), -31.354,
               5e-4, 1.0);
    check_near("bending at the corner", 1e-3 * line_effect(&a, line, 3.0, true, SS_EFFECT_MOMENT), 1.646,
               5e-4, 1.0);
    check_near("floor beam at the corner",
               1e-3 * effect_at(&a, SS_MEMBER_BEAM, 0, 0.0, false, SS_EFFECT_MOMENT), 1.646, 5e-4, 1.0);
    check_near("floor beam at its end", 1e-3 * effect_at(&a, SS_MEMBER_BEAM, 0, 3.0, true, SS_EFFECT_MOMENT),
               -31.354, 5e-4, 1.0);
    check_near("floor beam torsion",
               1e-3 * fabs(effect_at(&a, SS_MEMBER_BEAM, 0, 1.7, true, SS_EFFECT_TORSION)), 1.646, 5e-4, 1.0);
    check_relative("floor beam shear", effect_at(&a, SS_MEMBER_BEAM, 0, 1.1, true, SS_EFFECT_SHEAR), -11e3,
                   1e-10);
    analysis_end(&a);
}

/* A beam of 480 in crossed at its middle by one of 360 in, both simple, no torsion: the load splits as 48 E I
 * / L^3. Inches and kips; own closed form. */
static void test_crossing_beams(void) {
    sample s;
    analysis a;
    sample_start(&s, 29000.0, 11154.0, 1000.0);
    const int section = hand_section(&s.bridge, 1000.0, 0.0, 0.0, 0.0);
    const int cross = hand_section(&s.bridge, 500.0, 0.0, 0.0, 0.0);
    hand_car(&s.bridge, "cross", 0.0, 480.0, -190.0, 190.0);
    /* The ends of the crossing beam stand on stubs, whose bending and torsion nothing calls up. */
    const int left = hand_line(&s.bridge, SS_ROLE_MAIN, "left", -180.0, section);
    const int middle = hand_line(&s.bridge, SS_ROLE_MAIN, "middle", 0.0, section);
    const int right = hand_line(&s.bridge, SS_ROLE_MAIN, "right", 180.0, section);
    for (int i = 0; i < 3; i += 2) {
        s.bridge.lines[i].x0 = s.bridge.pieces[i].x0 = 240.0;
        s.bridge.lines[i].x1 = s.bridge.pieces[i].x1 = 300.0;
    }
    hand_beam(&s.bridge, 240.0, cross);
    hand_bearing(&s.bridge, left, 240.0);
    hand_bearing(&s.bridge, left, 300.0);
    hand_bearing(&s.bridge, middle, 0.0);
    hand_bearing(&s.bridge, middle, 480.0);
    hand_bearing(&s.bridge, right, 240.0);
    hand_bearing(&s.bridge, right, 300.0);
    analysis_start(&a, &s);
    ss_load_force_on_line(&a.load, middle, 240.0, 10.0, NULL);
    analysis_solve(&a, NULL, NULL);
    const double k1 = 48.0 * 29000.0 * 1000.0 / pow(480.0, 3);
    const double k2 = 48.0 * 29000.0 * 500.0 / pow(360.0, 3);
    check_near("deflection", line_effect(&a, middle, 240.0, true, SS_EFFECT_DEFLECTION), 0.363577, 5e-7, 1.0);
    check_relative("deflection", line_effect(&a, middle, 240.0, true, SS_EFFECT_DEFLECTION), 10.0 / (k1 + k2),
                   1e-9);
    check_relative("end of the long beam", reaction(&a, 2), 5.0 * k1 / (k1 + k2), 1e-9);
    check_relative("end of the cross beam", reaction(&a, 0) + reaction(&a, 1), 5.0 * k2 / (k1 + k2), 1e-9);
    check_relative("moment of the cross beam", effect_at(&a, SS_MEMBER_BEAM, 0, 0.0, true, SS_EFFECT_MOMENT),
                   5.0 * k2 / (k1 + k2) * 180.0, 1e-9);
    analysis_end(&a);
}

/* Three girders and three cross beams; figures in inches and kips, from this project's own independent
 * solver, which meets the first example of this file. */
typedef struct grid_row {
    double J, J_cross;
    int loaded;
    double w[3], reaction[3], moment[3];
} grid_row;

static const grid_row grid_rows[] = {
    {0, 0, 0, {0.33702, 0.12044, -0.06022}, {4.0983, 1.8034, -0.9017}, {1038.79, 322.42, -161.21}},
    {0, 0, 1, {0.12044, 0.15637, 0.12044}, {1.8034, 1.3932, 1.8034}, {322.42, 555.17, 322.42}},
    {50, 50, 0, {0.32851, 0.12062, -0.05189}, {4.0029, 1.7970, -0.7999}, {1015.93, 323.37, -139.30}},
    {50, 50, 1, {0.12062, 0.15600, 0.12062}, {1.7970, 1.4061, 1.7970}, {323.37, 553.26, 323.37}},
    {500, 50, 0, {0.28580, 0.12170, -0.01026}, {3.3609, 1.7919, -0.1529}, {901.02, 329.40, -30.42}},
    {500, 50, 1, {0.12170, 0.15384, 0.12170}, {1.7919, 1.4162, 1.7919}, {329.40, 541.20, 329.40}},
};

static void test_girder_grid(void) {
    for (int r = 0; r < ENTRIES(grid_rows); r++) {
        const grid_row *row = &grid_rows[r];
        sample s;
        analysis a;
        sample_start(&s, 29000.0, 11154.0, 60.0);
        const int girder = hand_section(&s.bridge, 2000.0, row->J, 0.0, 0.0);
        const int cross = hand_section(&s.bridge, 500.0, row->J_cross, 0.0, 0.0);
        hand_car(&s.bridge, "deck", 0.0, 480.0, -100.0, 100.0);
        for (int i = 0; i < 3; i++) {
            hand_line(&s.bridge, SS_ROLE_MAIN, "girder", 96.0 * (i - 1), girder);
        }
        for (int i = 1; i < 4; i++) {
            hand_beam(&s.bridge, 120.0 * i, cross);
        }
        for (int i = 0; i < 3; i++) {
            hand_pad(&s.bridge, i, 0.0, row->J > 0.0 ? 10.0 : 0.0);
            hand_pad(&s.bridge, i, 480.0, row->J > 0.0 ? 10.0 : 0.0);
        }
        analysis_start(&a, &s);
        ss_load_force_on_line(&a.load, row->loaded, 240.0, 10.0, NULL);
        analysis_solve(&a, NULL, NULL);
        for (int i = 0; i < 3; i++) {
            check_near("deflection", line_effect(&a, i, 240.0, true, SS_EFFECT_DEFLECTION), row->w[i], 6e-6,
                       1.0);
            check_near("reaction", reaction(&a, 2 * i), row->reaction[i], 6e-5, 1.0);
            check_near("moment", line_effect(&a, i, 240.0, true, SS_EFFECT_MOMENT), row->moment[i], 6e-3,
                       1.0);
        }
        analysis_end(&a);
    }
}

/* One cross beam at midspan, z = (L / 2a)^3 I_cross / I: shares (5z+4)/(6z+4), 2z/(6z+4), -z/(6z+4)
 * (Leonhardt and Andrae, 1950; derived anew). */
static void test_one_cross_beam(void) {
    static const double z_values[] = {1.0, 3.90625, 10.0, 5000.0};
    for (int i = 0; i < ENTRIES(z_values); i++) {
        const double z = z_values[i];
        sample s;
        analysis a;
        sample_start(&s, 2.1e11, 8e10, 100.0);
        const double L = 12.0;
        const double spacing = 2.3;
        const int girder = hand_section(&s.bridge, 4e-4, 0.0, 0.0, 0.0);
        const int cross = hand_section(&s.bridge, 4e-4 * z * pow(2.0 * spacing / L, 3), 0.0, 0.0, 0.0);
        hand_car(&s.bridge, "deck", 0.0, L, -3.0, 3.0);
        for (int l = 0; l < 3; l++) {
            hand_line(&s.bridge, SS_ROLE_MAIN, "girder", spacing * (l - 1), girder);
        }
        hand_beam(&s.bridge, 0.5 * L, cross);
        for (int l = 0; l < 3; l++) {
            hand_bearing(&s.bridge, l, 0.0);
            hand_bearing(&s.bridge, l, L);
        }
        analysis_start(&a, &s);
        ss_load_force(&a.load, 0.5 * L, -spacing, 2000.0, NULL);
        analysis_solve(&a, NULL, NULL);
        check_near("loaded", reaction(&a, 0) / 1e3, (5.0 * z + 4.0) / (6.0 * z + 4.0), 1e-9, 1.0);
        check_near("middle", reaction(&a, 2) / 1e3, 2.0 * z / (6.0 * z + 4.0), 1e-9, 1.0);
        check_near("far", reaction(&a, 4) / 1e3, -z / (6.0 * z + 4.0), 1e-9, 1.0);
        analysis_end(&a);
    }
}

int main(void) {
    static const test_case cases[] = {
        {"three members, one skew", test_three_members},
        {"two members, both skew", test_two_members},
        {"right angle", test_right_angle},
        {"crossing beams", test_crossing_beams},
        {"three girders", test_girder_grid},
        {"one cross beam", test_one_cross_beam},
    };
    return RUN_SUITE("grid", cases);
}
