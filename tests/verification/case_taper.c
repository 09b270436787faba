/* case_taper.c - a tapered box sill against integration along it. */
#include <math.h>
#include <stddef.h>

#include "verification/check.h"
#include "verification/rig.h"

/* kip and inch throughout. */
static const double E = 29000.0;
static const double G = 11154.0;

typedef struct stiffness {
    double EI, GA;
} stiffness;

static double depth_at(double x) {
    const double station[] = {0.0, 108.0, 228.0, 492.0, 612.0, 720.0};
    const double depth[] = {13.0, 13.0, 26.0, 26.0, 13.0, 13.0};
    for (int i = 0; i < 5; i++) {
        if (x <= station[i + 1]) {
            return depth[i] + (depth[i + 1] - depth[i]) * (x - station[i]) / (station[i + 1] - station[i]);
        }
    }
    return depth[5];
}

/* Box of a top plate 20 x 1/2, a bottom plate 18 x 3/4 and two webs of 5/16 in between them. */
static stiffness stiffness_at(double x) {
    const double d = depth_at(x), web = d - 1.25;
    const double area[3] = {10.0, 13.5, 2.0 * 0.3125 * web};
    const double middle[3] = {d - 0.25, 0.375, 0.75 + 0.5 * web};
    const double own[3] = {20.0 * 0.125 / 12.0, 18.0 * 0.421875 / 12.0,
                           2.0 * 0.3125 * web * web * web / 12.0};
    double A = 0.0, first = 0.0, second = 0.0;
    for (int i = 0; i < 3; i++) {
        A += area[i];
        first += area[i] * middle[i];
        second += own[i] + area[i] * middle[i] * middle[i];
    }
    return (stiffness){E * (second - first * first / A), G * area[2]};
}

/* Moment and shear of a force P at `a`: on a simple span of 720 in, or on a cantilever held at the near end.
 */
typedef struct system {
    bool cantilever;
} system;

static double moment(system s, double P, double a, double x) {
    if (s.cantilever) {
        return x < a ? -P * (a - x) : 0.0;
    }
    const double L = 720.0;
    return x < a ? P * (L - a) / L * x : P * a / L * (L - x);
}

static double shear(system s, double P, double a, double x) {
    if (s.cantilever) {
        return x < a ? P : 0.0;
    }
    return x < a ? P * (720.0 - a) / 720.0 : -P * a / 720.0;
}

/* Unit-load theorem: integral of M m / EI + V v / GA by Simpson's rule between the places where anything has
 * a kink. */
static double deflection(system s, double P, double a, double at) {
    const double kinks[] = {0.0, 108.0, 228.0, 264.0, 360.0, 492.0, 612.0, 720.0};
    const int parts = 2000;
    double total = 0.0;
    for (int k = 0; k < 7; k++) {
        const double h = (kinks[k + 1] - kinks[k]) / parts;
        for (int i = 0; i <= parts; i++) {
            /* just inside the part, so that a jump of the shear counts on its own side */
            const double x = kinks[k] + h * fmin(fmax(i, 1e-9), parts - 1e-9);
            const stiffness c = stiffness_at(x);
            const double f = moment(s, P, a, x) * moment(s, 1.0, at, x) / c.EI +
                             shear(s, P, a, x) * shear(s, 1.0, at, x) / c.GA;
            total += f * h / 3.0 * (i == 0 || i == parts ? 1.0 : i % 2 == 1 ? 4.0 : 2.0);
        }
    }
    return total;
}

#define TAPER_WHY                                                                                            \
    "the library steps the taper into prismatic pieces; with stations 3 in apart in the taper and cut into " \
    "four, what is left of that stepping is below 1e-5"

static bool tapered_span(check *out) {
    *out = (check){.title = "Tapered box sill on a simple span",
                   .source =
                       "own method: unit-load theorem, Simpson's rule, section properties written out again",
                   .inputs = "60 ft, depth 13 in at 0 and 9 ft, 26 in at 19 and 41 ft, 13 in at 51 and 60 "
                             "ft; top 20 x 1/2, bottom 18 x 3/4, "
                             "webs 5/16 in; P 10 kip at 22 ft; shear deformation included",
                   .values = "deflection at the load and at mid-span (in)",
                   CHECK_RELATIVE(TAPER_WHY, 1e-5, 6)};
    rig r;
    const rig_setting settings[] = {{"analysis.station_spacing", "6 in"}};
    if (!rig_open(&r, "taper", &(rig_options){settings, 1, 4})) {
        return false;
    }
    const system span = {false};
    check_add(out, deflection(span, 10.0, 264.0, 264.0), rig_probe_us(&r, "aside", "w load"));
    check_add(out, deflection(span, 10.0, 264.0, 360.0), rig_probe_us(&r, "aside", "w middle"));
    rig_close(&r);
    return true;
}

static bool tapered_cantilever(check *out) {
    *out = (check){.title = "The same sill as a cantilever",
                   .source = "own method: unit-load theorem, Simpson's rule",
                   .inputs = "near end held in slope, far bearing away, P 1.3 kip at the tip",
                   .values = "deflection of the tip (in)",
                   CHECK_RELATIVE(TAPER_WHY, 1e-5, 6)};
    const rig_setting settings[] = {{"bridge.bearings.near.rotation", "fixed"},
                                    {"bridge.bearings.far.in_use", "false"},
                                    {"analysis.station_spacing", "6 in"}};
    rig r;
    if (!rig_open(&r, "taper", &(rig_options){settings, 3, 4})) {
        return false;
    }
    const system cantilever = {true};
    check_add(out, deflection(cantilever, 1.3, 720.0, 720.0), rig_probe_us(&r, "tip", "w tip"));
    rig_close(&r);
    return true;
}

static bool taper_order(check *out) {
    *out = (check){
        .title = "Stepping of a taper converges",
        .source = "own method: error against the integral above with every interval cut into 1, 2 and 4",
        .inputs = "the simple span above, stations 5 ft apart (2-1/2 ft in the taper)",
        .values = "observed order between 1 and 2, and between 2 and 4",
        .why =
            "prismatic pieces give order 2; the next term of the error shifts it a little at this coarseness",
        .tolerance = 0.1,
        .relative = false,
        .digits = 3};
    const rig_setting settings[] = {{"analysis.station_spacing", "5 ft"}};
    const double exact = deflection((system){false}, 10.0, 264.0, 264.0);
    double error[3];
    for (int i = 0; i < 3; i++) {
        rig r;
        if (!rig_open(&r, "taper", &(rig_options){settings, 1, 1 << i})) {
            return false;
        }
        error[i] = fabs(rig_probe_us(&r, "aside", "w load") - exact);
        rig_close(&r);
    }
    check_add(out, 2.0, log2(error[0] / error[1]));
    check_add(out, 2.0, log2(error[1] / error[2]));
    return true;
}

static const check_function checks[] = {tapered_span, tapered_cantilever, taper_order};

const check_chapter chapter_taper = {"Tapered sill", checks, (int)(sizeof checks / sizeof checks[0])};
