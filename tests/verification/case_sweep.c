/* case_sweep.c - a joint's stiffness swept from none to rigid on one grillage, against closed form and
 * series.
 */
#include <math.h>
#include <stddef.h>
#include <stdlib.h>

#include "sillspan/spring_sweep.h"
#include "verification/check.h"
#include "verification/fourier.h"
#include "verification/rig.h"

enum { TERMS = 601, STEPS = 6, MOST_SPRINGS = 256 };

/* kip/in/in; the last is hinged. */
static const double steps[STEPS] = {0.0, 0.01, 0.1, 1.0, 10.0, (double)INFINITY};

#define SWEEP_INPUTS                                                                                         \
    "cars of L 648 in, width 108 in, E 29000 ksi, G 11200 ksi, I 4500 in4, J 300 in4, ends held in twist; "  \
    "described hinged, one grillage for all k; "
#define SWEEP_VALUES                                                                                         \
    "share of the moment at mid-span of the unloaded car for k 0, 0.01, 0.1, 1, 10 kip/in/in and hinged"
#define SWEEP_WHY                                                                                            \
    "the joint is springs at stations and twist is linear between them; with stations 3 ft apart cut into "  \
    "four the difference is below 1e-4 of the load's moment"

/* Moment at mid-span of a car's line. */
static bool read_moment(const rig *r, int line, ss_sweep_reading *out, ss_error *error) {
    ss_effect effect;
    if (ss_mesh_effect(&r->mesh, SS_MEMBER_LINE, line, 27.0 * FOOT, false, SS_EFFECT_MOMENT, &effect,
                       error) != SS_OK) {
        return false;
    }
    out->spring = -1;
    ss_mesh_effect_row(&r->mesh, &effect, &out->row);
    return true;
}

/* Shares of the unloaded car at each step, for nodal forces on the first. */
static bool sweep(const rig *r, const double *nodal, double share[STEPS]) {
    int swept[MOST_SPRINGS], count = 0;
    double stiffness[MOST_SPRINGS], values[2];
    ss_error error = {SS_OK, ""};
    ss_spring_sweep *s = NULL;
    ss_sweep_reading readings[2] = {0};
    const ss_sweep_load load = {nodal, NULL};
    for (int i = 0; i < r->mesh.spring_count && count < MOST_SPRINGS; i++) {
        if (r->mesh.spring[i].owner == SS_MEMBER_JOINT) {
            swept[count] = i;
            stiffness[count++] = KIP / INCH / INCH * r->mesh.spring[i].length;
        }
    }
    const ss_sweep_task task = {.swept_count = count,
                                .swept = swept,
                                .stiffness = stiffness,
                                .load_count = 1,
                                .loads = &load,
                                .reading_count = 2,
                                .readings = readings};
    bool good = read_moment(r, 0, &readings[0], &error) && read_moment(r, 1, &readings[1], &error) &&
                ss_spring_sweep_create(r->grillage, &task, &s, &error) == SS_OK;
    double *const work = good ? calloc(ss_spring_sweep_work(s), sizeof *work) : NULL;
    good = good && work != NULL;
    for (int i = 0; i < STEPS && good; i++) {
        good = ss_spring_sweep_at(s, steps[i], values, work, &error) == SS_OK;
        share[i] = values[1] / (values[0] + values[1]);
    }
    if (!good) {
        rig_complain("sweep", &error);
    }
    free(work);
    ss_spring_sweep_destroy(s);
    return good;
}

/* Forces at the stations of the first line: of a sine, or one at mid-span. */
static bool swept_shares(bool sine, double share[STEPS]) {
    rig r;
    if (!rig_open(&r, "spines_2", &(rig_options){.refine = 4})) {
        return false;
    }
    const double L = 54.0 * FOOT;
    double *const nodal = calloc((size_t)r.mesh.order, sizeof *nodal);
    for (int i = 0; i < r.mesh.station_count && nodal != NULL; i++) {
        const double x = r.mesh.station[i], pi = 3.14159265358979323846;
        const int node = r.mesh.node_at[i * r.bridge.line_count];
        nodal[3 * node] = sine ? 1000.0 * sin(pi * x / L) : fabs(x - 0.5 * L) < 1e-6 ? 10.0 * KIP : 0.0;
    }
    const bool good = nodal != NULL && sweep(&r, nodal, share);
    free(nodal);
    rig_close(&r);
    return good;
}

static bool one_harmonic(check *out) {
    *out =
        (check){.title = "A joint swept: two cars under a sine load",
                .source = "elementary beam theory, own closed form: K/(1 + 2K(1 + h^2A/C)), K = k L^4/(pi^4 "
                          "EI), A = EI(pi/L)^4, C = GJ(pi/L)^2, h half a width",
                .inputs = SWEEP_INPUTS "q sin(pi x/L) on one car",
                .values = SWEEP_VALUES,
                CHECK_ABSOLUTE(SWEEP_WHY, 1e-4, 4)};
    const double pi = 3.14159265358979323846, L = 648.0, h = 54.0, EI = 29000.0 * 4500.0,
                 GJ = 11200.0 * 300.0;
    const double A = EI * pow(pi / L, 4.0), C = GJ * pow(pi / L, 2.0);
    double share[STEPS];
    if (!swept_shares(true, share)) {
        return false;
    }
    for (int i = 0; i < STEPS; i++) {
        const double K = steps[i] * pow(L, 4.0) / (pow(pi, 4.0) * EI);
        check_add(out, isinf(K) ? 0.5 / (1.0 + h * h * A / C) : K / (1.0 + 2.0 * K * (1.0 + h * h * A / C)),
                  share[i]);
    }
    return true;
}

static bool all_harmonics(check *out) {
    *out = (check){.title = "A joint swept: two cars under a force at mid-span",
                   .source = "own method: Fourier series of 301 odd terms (tests/verification/fourier.c)",
                   .inputs = SWEEP_INPUTS "P at mid-span of one car",
                   .values = SWEEP_VALUES,
                   CHECK_ABSOLUTE(SWEEP_WHY, 1e-4, 4)};
    double share[STEPS], moments[2];
    if (!swept_shares(false, share)) {
        return false;
    }
    for (int i = 0; i < STEPS; i++) {
        const fourier_beams beams = {.count = 2,
                                     .span = 648.0,
                                     .width = 108.0,
                                     .EI = 29000.0 * 4500.0,
                                     .GJ = 11200.0 * 300.0,
                                     .shear = steps[i],
                                     .rotation = 0.0};
        if (!fourier_moments(&beams, &(fourier_load){0, 324.0, 1.0}, TERMS, moments)) {
            return false;
        }
        check_add(out, moments[1] / (648.0 / 4.0), share[i]);
    }
    return true;
}

static const check_function checks[] = {one_harmonic, all_harmonics};

const check_chapter chapter_sweep = {"A joint's stiffness swept", checks,
                                     (int)(sizeof checks / sizeof checks[0])};
