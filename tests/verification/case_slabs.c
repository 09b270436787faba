/* case_slabs.c - beams hinged side by side against the tables of the articulated plate. */
#include <math.h>
#include <stddef.h>
#include <stdio.h>

#include "verification/check.h"
#include "verification/dense.h"
#include "verification/rig.h"

enum { SLABS_MOST = 9, PIECES = 480 };

/*
 * Shares of n hinged beams by one harmonic: unknown joint forces g, beam shares w_j = d_j - g_j + g_j-1,
 * twist in proportion to g_j + g_j-1, and at each joint w_j - c (g_j + g_j-1) = w_j+1 + c (g_j + g_j+1), c =
 * (pi^2/4)(EI/GJ)(b/L)^2.
 */
static bool harmonic_shares(int n, int loaded, double c, double *share) {
    double a[SLABS_MOST * SLABS_MOST] = {0.0};
    double g[SLABS_MOST] = {0.0};
    const int joints = n - 1;
    for (int j = 0; j < joints; j++) {
        a[j * joints + j] = 2.0 + 2.0 * c;
        if (j > 0) {
            a[j * joints + j - 1] = -1.0 + c;
        }
        if (j + 1 < joints) {
            a[j * joints + j + 1] = -1.0 + c;
        }
        g[j] = (loaded == j ? 1.0 : 0.0) - (loaded == j + 1 ? 1.0 : 0.0);
    }
    if (!dense_solve(joints, a, g)) {
        return false;
    }
    for (int i = 0; i < n; i++) {
        share[i] = (i == loaded ? 1.0 : 0.0) - (i < joints ? g[i] : 0.0) + (i > 0 ? g[i - 1] : 0.0);
    }
    return true;
}

/* Deflections at mid-span of all beams over their sum, under a load p sin(pi x / L) on one: short uniform
 * pieces, each with the mean of the sine over it. */
static bool sine_shares(const rig *r, int loaded, double *share) {
    const ss_bridge *const bridge = &r->bridge;
    const double L = bridge->x1 - bridge->x0, pi = 3.14159265358979323846;
    const ss_dead_factors none = {0.0, 0.0};
    ss_error error = {SS_OK, ""};
    ss_load load = {0};
    ss_state state = {0};
    ss_status status = ss_load_create(&r->mesh, &load, &error);
    for (int i = 0; i < PIECES && status == SS_OK; i++) {
        const double x0 = L * i / PIECES, x1 = L * (i + 1) / PIECES;
        const double mean = 1000.0 * L / pi * (cos(pi * x0 / L) - cos(pi * x1 / L)) / (x1 - x0);
        status = ss_load_line_on_line(&load, loaded, x0, x1, mean, &error);
    }
    if (status == SS_OK) {
        status = ss_permanent_state(&r->permanent, false, none, &load, 1.0, &state, &error);
    }
    double sum = 0.0;
    for (int i = 0; i < bridge->line_count && status == SS_OK; i++) {
        ss_effect effect;
        status = ss_mesh_effect(&r->mesh, SS_MEMBER_LINE, i, 0.5 * L, false, SS_EFFECT_DEFLECTION, &effect,
                                &error);
        if (status == SS_OK) {
            share[i] = ss_state_effect(&r->mesh, &state, &effect);
            sum += share[i];
        }
    }
    for (int i = 0; i < bridge->line_count && status == SS_OK; i++) {
        share[i] /= sum;
    }
    if (status != SS_OK) {
        rig_complain("sine load", &error);
    }
    ss_state_destroy(&state);
    ss_load_destroy(&load);
    return status == SS_OK;
}

/* The torsion constant that makes c what is wanted: b 48 in, L 480 in, I 3000 in4, E/G 2.5. */
static bool slabs(int n, double c, int loaded, double *share) {
    const double pi = 3.14159265358979323846;
    char J[40];
    snprintf(J, sizeof J, "%.12f in4", pi * pi / 4.0 * 2.5 * 3000.0 * 0.01 / c);
    const rig_setting settings[] = {{"sections.slab.J", J}};
    rig r;
    if (!rig_open(&r, n == 3 ? "slabs_3" : "slabs_9", &(rig_options){settings, 1, 1})) {
        return false;
    }
    const bool done = sine_shares(&r, loaded, share);
    rig_close(&r);
    return done;
}

#define SLAB_SOURCE                                                                                          \
    "influence tables of hinged slabs in Chinese bridge-engineering textbooks (from memory; solved again, "  \
    "identical)"
#define SLAB_WHY                                                                                             \
    "the tables are one-term sine theory, so the load here is a sine too (480 uniform pieces); they are "    \
    "printed to 0.001, half of which "                                                                       \
    "is allowed, and 1e-4 for the hinge as springs at stations"

static bool table(check *out, int n, double c, int loaded, const double *printed) {
    double share[SLABS_MOST];
    if (!slabs(n, c, loaded, share)) {
        return false;
    }
    for (int i = 0; i < n; i++) {
        check_add(out, printed[i], 1000.0 * share[i]);
    }
    return true;
}

static bool three_table(check *out) {
    *out = (check){.title = "Three hinged slabs",
                   .source = SLAB_SOURCE,
                   .inputs = "gamma 0.01, then 0.02; slab 1 loaded",
                   .values = "shares of the slabs, thousandths",
                   CHECK_ABSOLUTE(SLAB_WHY, 0.6, 4)};
    const double a[] = {348.0, 332.0, 319.0}, b[] = {363.0, 331.0, 306.0};
    return table(out, 3, 0.01, 0, a) && table(out, 3, 0.02, 0, b);
}

static bool nine_table_low(check *out) {
    *out = (check){.title = "Nine hinged slabs, gamma 0.02",
                   .source = SLAB_SOURCE,
                   .inputs = "gamma 0.02; slab 1 loaded",
                   .values = "shares of the slabs, thousandths",
                   CHECK_ABSOLUTE(SLAB_WHY, 0.6, 4)};
    const double a[] = {236.0, 194.0, 147.0, 113.0, 88.0, 70.0, 57.0, 49.0, 46.0};
    return table(out, 9, 0.02, 0, a);
}

static bool nine_table_high(check *out) {
    *out = (check){.title = "Nine hinged slabs, gamma 0.04",
                   .source = SLAB_SOURCE,
                   .inputs = "gamma 0.04; slab 1 loaded",
                   .values = "shares of the slabs, thousandths",
                   CHECK_ABSOLUTE(SLAB_WHY, 0.6, 4)};
    const double a[] = {306.0, 232.0, 155.0, 104.0, 70.0, 48.0, 35.0, 26.0, 23.0};
    return table(out, 9, 0.04, 0, a);
}

static bool nine_exact(check *out) {
    *out = (check){
        .title = "Nine hinged slabs, middle loaded, more digits",
        .source = "own method: the joint equations of one harmonic, solved by elimination",
        .inputs = "gamma 0.04; slab 5 loaded",
        .values = "shares of the slabs, thousandths",
        .why =
            "what the sine in 480 pieces and the hinge as springs at stations leave, at stations 1 ft apart",
        .tolerance = 0.05,
        .relative = false,
        .digits = 6};
    double expected[SLABS_MOST], share[SLABS_MOST];
    if (!harmonic_shares(9, 4, 0.04, expected) || !slabs(9, 0.04, 4, share)) {
        return false;
    }
    for (int i = 0; i < 9; i++) {
        check_add(out, 1000.0 * expected[i], 1000.0 * share[i]);
    }
    return true;
}

static const check_function checks[] = {three_table, nine_table_low, nine_table_high, nine_exact};

const check_chapter chapter_slabs = {"Beams hinged side by side", checks,
                                     (int)(sizeof checks / sizeof checks[0])};
