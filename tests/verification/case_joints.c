/* case_joints.c - cars joined by springs against a Fourier series, and how the difference goes with the mesh.
 */
#include <math.h>
#include <stddef.h>

#include "verification/check.h"
#include "verification/fourier.h"
#include "verification/rig.h"

enum { TERMS = 601 };

#define JOINT_SOURCE "own method: Fourier series of 301 odd terms (tests/verification/fourier.c)"
#define JOINT_INPUTS                                                                                         \
    "cars of L 648 in, width 108 in, E 29000 ksi, G 11200 ksi, I 4500 in4, ends held in twist; P at "        \
    "mid-span; "
#define JOINT_WHY                                                                                            \
    "the joint is springs at stations and twist is linear between them; with stations 3 ft apart cut into "  \
    "four "                                                                                                  \
    "the difference is below 1e-4 of the load's moment"

typedef struct joint {
    const char *text; /* of the shear stiffness; NULL: hinged */
    double shear;     /* kip/in/in */
    const char *rotation_text;
    double rotation; /* kip-in/rad per in */
} joint;

/* Shares of the moment at mid-span by the library. */
static bool library_shares(int n, const char *J, const joint *k, const char *load, int refine,
                           double *share) {
    rig_setting settings[8] = {{"sections.sill.J", J}};
    int count = 1;
    static const char *const paths[2][3] = {
        {"bridge.joints.seam 1.kind", "bridge.joints.seam 1.shear", "bridge.joints.seam 1.rotation"},
        {"bridge.joints.seam 2.kind", "bridge.joints.seam 2.shear", "bridge.joints.seam 2.rotation"}};
    for (int j = 0; j + 1 < n && k->text != NULL; j++) {
        settings[count++] = (rig_setting){paths[j][0], "springs"};
        settings[count++] = (rig_setting){paths[j][1], k->text};
        settings[count++] = (rig_setting){paths[j][2], k->rotation_text};
    }
    rig r;
    if (!rig_open(&r, n == 2 ? "spines_2" : "spines_3", &(rig_options){settings, count, refine})) {
        return false;
    }
    static const char *const two[] = {"M left", "M right"};
    static const char *const three[] = {"M left", "M middle", "M right"};
    for (int i = 0; i < n; i++) {
        share[i] = rig_probe_us(&r, load, n == 2 ? two[i] : three[i]) / (10.0 * 54.0 / 4.0);
    }
    rig_close(&r);
    return true;
}

static bool series_shares(int n, double J, const joint *k, int loaded, double *share) {
    const fourier_beams beams = {.count = n,
                                 .span = 648.0,
                                 .width = 108.0,
                                 .EI = 29000.0 * 4500.0,
                                 .GJ = 11200.0 * J,
                                 .shear = k->shear,
                                 .rotation = k->rotation};
    const fourier_load load = {loaded, 324.0, 1.0};
    if (!fourier_moments(&beams, &load, TERMS, share)) {
        return false;
    }
    for (int i = 0; i < n; i++) {
        share[i] /= 648.0 / 4.0;
    }
    return true;
}

static const joint steps[] = {{"0.01 kip/in/in", 0.01, "0 kip-in/rad/in", 0.0},
                              {"0.1 kip/in/in", 0.1, "0 kip-in/rad/in", 0.0},
                              {"1 kip/in/in", 1.0, "0 kip-in/rad/in", 0.0},
                              {"10 kip/in/in", 10.0, "0 kip-in/rad/in", 0.0},
                              {NULL, (double)INFINITY, NULL, 0.0}};

typedef struct arrangement {
    int cars;
    double J;
    const char *J_text;
    const char *load; /* case of the model */
    int loaded, other;
} arrangement;

/* The shares of the loaded car and of another over the whole range of joint stiffness. */
static bool range(check *out, const arrangement *a) {
    for (int i = 0; i < 5; i++) {
        double expected[3];
        double obtained[3];
        if (!series_shares(a->cars, a->J, &steps[i], a->loaded, expected) ||
            !library_shares(a->cars, a->J_text, &steps[i], a->load, 4, obtained)) {
            return false;
        }
        check_add(out, expected[a->loaded], obtained[a->loaded]);
        check_add(out, expected[a->other], obtained[a->other]);
    }
    return true;
}

#define RANGE_VALUES "share of the loaded car and of the other for k 0.01, 0.1, 1, 10 kip/in/in and hinged"

static bool two_open(check *out) {
    *out = (check){.title = "Two cars weak in torsion",
                   .source = JOINT_SOURCE,
                   .inputs = JOINT_INPUTS "J 300 in4, one car loaded",
                   .values = RANGE_VALUES,
                   CHECK_ABSOLUTE(JOINT_WHY, 1e-4, 4)};
    return range(out, &(arrangement){2, 300.0, "300 in4", "left", 0, 1});
}

static bool two_closed(check *out) {
    *out = (check){.title = "Two cars stiff in torsion",
                   .source = JOINT_SOURCE,
                   .inputs = JOINT_INPUTS "J 1500 in4, one car loaded",
                   .values = RANGE_VALUES,
                   CHECK_ABSOLUTE(JOINT_WHY, 1e-4, 4)};
    return range(out, &(arrangement){2, 1500.0, "1500 in4", "left", 0, 1});
}

static bool three_open(check *out) {
    *out = (check){
        .title = "Three cars weak in torsion, middle loaded",
        .source = JOINT_SOURCE,
        .inputs = JOINT_INPUTS "J 300 in4",
        .values = "share of the middle car and of each outer one for k 0.01, 0.1, 1, 10 kip/in/in and hinged",
        CHECK_ABSOLUTE(JOINT_WHY, 1e-4, 4)};
    return range(out, &(arrangement){3, 300.0, "300 in4", "middle", 1, 0});
}

static bool three_closed(check *out) {
    *out = (check){
        .title = "Three cars stiff in torsion, edge loaded",
        .source = JOINT_SOURCE,
        .inputs = JOINT_INPUTS "J 1500 in4",
        .values = "share of the loaded car and of the far one, for k 0.01, 0.1, 1, 10 kip/in/in and hinged",
        CHECK_ABSOLUTE(JOINT_WHY, 1e-4, 4)};
    return range(out, &(arrangement){3, 1500.0, "1500 in4", "left", 0, 2});
}

static bool closed_form(check *out) {
    *out = (check){.title = "Two and three cars by one harmonic's formula",
                   .source = "own closed form: unloaded share per harmonic 1/(2 + A/k + 2h^2A/C), or 1/(3 + "
                             "A/k + h^2A/C) of each outer of three; "
                             "A = EI(m pi/L)^4, C = GJ(m pi/L)^2, h half a width",
                   .inputs = JOINT_INPUTS "J 300 in4, k 0.1 kip/in/in",
                   .values = "share of the unloaded car of two, of an outer car of three",
                   CHECK_ABSOLUTE(JOINT_WHY, 1e-4, 4)};
    const double pi = 3.14159265358979323846, L = 648.0, h = 54.0, k = 0.1;
    double two = 0.0, three = 0.0;
    for (int m = 1; m <= TERMS; m += 2) {
        const double alpha = m * pi / L;
        const double A = 29000.0 * 4500.0 * pow(alpha, 4.0), C = 11200.0 * 300.0 * alpha * alpha;
        /* share of the load's moment PL/4 that this harmonic has: (2P/L)/alpha^2 over it */
        const double part = 8.0 / (L * L * alpha * alpha);
        two += part / (2.0 + A / k + 2.0 * h * h * A / C);
        three += part / (3.0 + A / k + h * h * A / C);
    }
    double share[3];
    if (!library_shares(2, "300 in4", &steps[1], "left", 4, share)) {
        return false;
    }
    check_add(out, two, share[1]);
    if (!library_shares(3, "300 in4", &steps[1], "middle", 4, share)) {
        return false;
    }
    check_add(out, three, share[0]);
    return true;
}

static bool folding(check *out) {
    *out = (check){.title = "Three cars, joint that resists folding",
                   .source = JOINT_SOURCE,
                   .inputs = JOINT_INPUTS
                   "J 300 in4, middle loaded, shear 10 kip/in/in, rotation 100 and 1000 kip-in/rad per in",
                   .values = "share of the middle and of an outer car at each",
                   CHECK_ABSOLUTE(JOINT_WHY, 1e-4, 4)};
    const joint folds[] = {{"10 kip/in/in", 10.0, "100 kip-in/rad/in", 100.0},
                           {"10 kip/in/in", 10.0, "1000 kip-in/rad/in", 1000.0}};
    for (int i = 0; i < 2; i++) {
        double expected[3], obtained[3];
        if (!series_shares(3, 300.0, &folds[i], 1, expected) ||
            !library_shares(3, "300 in4", &folds[i], "middle", 4, obtained)) {
            return false;
        }
        check_add(out, expected[1], obtained[1]);
        check_add(out, expected[0], obtained[0]);
    }
    return true;
}

static bool folding_of_two(check *out) {
    *out = (check){.title = "Two equal cars: resistance to folding changes nothing",
                   .source = "own closed form: both cars turn alike, so the joint does not fold",
                   .inputs = JOINT_INPUTS
                   "J 300 in4, one loaded, shear 0.1 kip/in/in, rotation 1, 100 and 10000 kip-in/rad per in",
                   .values = "share of the loaded car less the one with a free joint, in millionths",
                   .why = "nothing but rounding separates them: 1e-3 millionths",
                   .tolerance = 1e-3,
                   .relative = false,
                   .digits = 2};
    const char *const rotation[] = {"1 kip-in/rad/in", "100 kip-in/rad/in", "10000 kip-in/rad/in"};
    double free_share[2], share[2];
    if (!library_shares(2, "300 in4", &steps[1], "left", 1, free_share)) {
        return false;
    }
    for (int i = 0; i < 3; i++) {
        const joint k = {"0.1 kip/in/in", 0.1, rotation[i], 0.0};
        if (!library_shares(2, "300 in4", &k, "left", 1, share)) {
            return false;
        }
        check_add(out, 0.0, 1e6 * (share[0] - free_share[0]));
    }
    return true;
}

static bool order(check *out) {
    *out = (check){
        .title = "Joined cars: order of convergence",
        .source = "own method: error against the Fourier series with every interval cut into 1, 2 and 4",
        .inputs = JOINT_INPUTS "J 300 in4, two cars, k 1 kip/in/in, stations 3 ft apart",
        .values = "observed order of the unloaded car's share between 1 and 2, and between 2 and 4",
        .why = "springs at stations and twist that is linear between them give order 2; a tenth is allowed "
               "for the next term of "
               "the error",
        .tolerance = 0.1,
        .relative = false,
        .digits = 3};
    double exact[2], share[2], error[3];
    if (!series_shares(2, 300.0, &steps[2], 0, exact)) {
        return false;
    }
    for (int i = 0; i < 3; i++) {
        if (!library_shares(2, "300 in4", &steps[2], "left", 1 << i, share)) {
            return false;
        }
        error[i] = fabs(share[1] - exact[1]);
    }
    check_add(out, 2.0, log2(error[0] / error[1]));
    check_add(out, 2.0, log2(error[1] / error[2]));
    return true;
}

static const check_function checks[] = {two_open,    two_closed, three_open,     three_closed,
                                        closed_form, folding,    folding_of_two, order};

const check_chapter chapter_joints = {"Cars joined side by side", checks,
                                      (int)(sizeof checks / sizeof checks[0])};
