/* case_vehicles.c - the built-in legal trucks on simple spans, and a truck whose axles differ in gauge. */
#include <math.h>
#include <stddef.h>

#include "verification/check.h"
#include "verification/span.h"

/* The trucks as the Manual for Bridge Evaluation has them (from memory), apart from the library's table. */
typedef struct named_train {
    const char *name;
    rolling_train train;
} named_train;

static const named_train legal[] = {
    {"Type 3S2", {5, {10.0, 15.5, 15.5, 15.5, 15.5}, {11.0, 4.0, 22.0, 4.0}}},
    {"Type 3-3", {6, {12.0, 12.0, 12.0, 16.0, 14.0, 14.0}, {15.0, 4.0, 15.0, 16.0, 4.0}}},
    {"SU4", {4, {12.0, 8.0, 17.0, 17.0}, {10.0, 4.0, 4.0}}},
    {"SU5", {5, {12.0, 8.0, 8.0, 17.0, 17.0}, {10.0, 4.0, 4.0, 4.0}}},
    {"SU6", {6, {11.5, 8.0, 8.0, 17.0, 17.0, 8.0}, {10.0, 4.0, 4.0, 4.0, 4.0}}},
    {"SU7", {7, {11.5, 8.0, 8.0, 17.0, 17.0, 8.0, 8.0}, {10.0, 4.0, 4.0, 4.0, 4.0, 4.0}}},
    {"NRL", {8, {6.0, 8.0, 8.0, 17.0, 17.0, 8.0, 8.0, 8.0}, {6.0, 4.0, 4.0, 4.0, 4.0, 4.0, 4.0}}},
};
enum { LEGAL = (int)(sizeof legal / sizeof legal[0]) };

static const rolling_train type3 = {3, {16.0, 17.0, 17.0}, {15.0, 4.0}};
static const rolling_train h20 = {2, {8.0, 32.0}, {14.0}};

static bool legal_span(check *out, double span) {
    for (int i = 0; i < LEGAL; i++) {
        double moment = (double)NAN, shear = (double)NAN, x = 0.0;
        if (!span_truck(legal[i].name, &legal[i].train, span, &moment, &shear)) {
            return false;
        }
        check_add(out, rolling_moment(&legal[i].train, span, &x), moment);
        check_add(out, rolling_shear(&legal[i].train, span), shear);
    }
    return true;
}

#define LEGAL_SOURCE "own method: theory of rolling loads (tests/verification/rolling.c)"
#define LEGAL_VALUES                                                                                         \
    "largest moment anywhere (kip-ft) and end shear (kip) of Type 3S2, Type 3-3, SU4, SU5, SU6, SU7 and NRL"
#define LEGAL_WHY                                                                                            \
    "the section of the largest moment is among those looked at, so only rounding is left; a first axle "    \
    "of the NRL farther ahead does less on one span"

static bool legal_short(check *out) {
    *out = (check){.title = "Legal trucks on a span of 31 ft",
                   .source = LEGAL_SOURCE,
                   .inputs = "simple span, one lane, no impact",
                   .values = LEGAL_VALUES,
                   CHECK_RELATIVE(LEGAL_WHY, 1e-9, 6)};
    return legal_span(out, 31.0);
}

static bool legal_long(check *out) {
    *out = (check){.title = "Legal trucks on a span of 66 ft",
                   .source = LEGAL_SOURCE,
                   .inputs = "simple span, one lane, no impact",
                   .values = LEGAL_VALUES,
                   CHECK_RELATIVE(LEGAL_WHY, 1e-9, 6)};
    return legal_span(out, 66.0);
}

static bool printed_h20(check *out) {
    *out = (check){.title = "H20-44 moments on simple spans",
                   .source = "M. A. Khan, Bridge and Highway Structure Rehabilitation and Repair "
                             "(McGraw-Hill, 2010), table 6.7, H20 truck",
                   .inputs = "simple spans of 30, 32, 36, 40, 45, 50 and 55 ft, one lane, no impact",
                   .values = "largest moment anywhere (kip-ft)",
                   CHECK_ABSOLUTE("the table is printed to 0.01", 0.01, 6)};
    static const double row[][2] = {{30.0, 246.61}, {32.0, 266.45}, {36.0, 306.18}, {40.0, 345.96},
                                    {45.0, 395.74}, {50.0, 445.57}, {55.0, 495.43}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        double moment = (double)NAN, shear = (double)NAN;
        if (!span_truck("H20-44", &h20, row[i][0], &moment, &shear)) {
            return false;
        }
        check_add(out, row[i][1], moment);
    }
    return true;
}

static bool printed_legal(check *out) {
    *out =
        (check){.title = "Type 3, 3S2 and 3-3 between 60 and 70 ft",
                .source = "AASHTO Manual for Bridge Evaluation, example A1, 65 ft, whose moments are means "
                          "of a table's values for 60 and 70 ft (from memory)",
                .inputs = "simple spans of 60 and 70 ft, one lane, no impact",
                .values = "mean of the largest moments on both spans (kip-ft), Type 3, 3S2, 3-3",
                CHECK_ABSOLUTE("means of values printed to 0.1", 0.15, 5)};
    static const double printed[] = {660.7, 707.2, 654.5};
    const named_train trucks[] = {{"Type 3", type3}, legal[0], legal[1]};
    for (int i = 0; i < 3; i++) {
        double sum = 0.0;
        for (int k = 0; k < 2; k++) {
            double moment = (double)NAN, shear = (double)NAN;
            if (!span_truck(trucks[i].name, &trucks[i].train, 60.0 + 10.0 * k, &moment, &shear)) {
                return false;
            }
            sum += moment;
        }
        check_add(out, printed[i], 0.5 * sum);
    }
    return true;
}

/* ---- axles of unlike gauge ------------------------------------------------------------------------ */

enum { TRIO = 3 };
#define TRIO_SPAN 32.0

/* The part of a force at y (from the middle beam, ft) that a beam takes from a deck of simple spans. */
static double lever(int beam, double y) {
    return fmax(0.0, 1.0 - fabs(y - 5.0 * (beam - 1)) / 5.0);
}

/* What each axle of models/verification/gauges.cfg brings to a beam, kip. */
static void tricycle_on(int beam, double *axle) {
    static const double load[] = {3.7, 13.1, 21.4};
    static const double gauge[] = {0.0, 5.2, 8.4};
    for (int a = 0; a < 3; a++) {
        axle[a] = 0.5 * load[a] * (lever(beam, 0.6 - 0.5 * gauge[a]) + lever(beam, 0.6 + 0.5 * gauge[a]));
    }
}

static bool gauges_parked(check *out) {
    *out = (check){.title = "A parked truck whose axles differ in gauge",
                   .source = "statics: levers across, simple spans along",
                   .inputs =
                       "three beams of 32 ft at 5 ft with a deck from one to the next; axles of 3.7, 13.1, "
                       "21.4 kip, gauges 0 (one wheel), 5.2, 8.4 ft, 0.6 ft right of the middle beam",
                   .values = "moments at 14 ft (kip-ft), then near reactions (kip), left, middle, right",
                   CHECK_RELATIVE("exact; room for rounding only", 1e-9, 6)};
    static const double at[] = {27.0, 18.5, 7.5};
    rig_row rows[2 * TRIO] = {{"parked", "M left", 0.0},   {"parked", "M middle", 0.0},
                              {"parked", "M right", 0.0},  {"parked", "R left", 0.0},
                              {"parked", "R middle", 0.0}, {"parked", "R right", 0.0}};
    for (int beam = 0; beam < TRIO; beam++) {
        double axle[3];
        tricycle_on(beam, axle);
        for (int a = 0; a < 3; a++) {
            const double near = fmin(at[a], 14.0), far = TRIO_SPAN - fmax(at[a], 14.0);
            rows[beam].expected += axle[a] * near * far / TRIO_SPAN;
            rows[TRIO + beam].expected += axle[a] * (TRIO_SPAN - at[a]) / TRIO_SPAN;
        }
    }
    return rig_check(out, "gauges", NULL, rows, RIG_COUNT(rows));
}

static ss_status gauge_moments(const rig *r, double *moment, ss_error *error) {
    ss_placements placements = {0};
    ss_envelope envelope = {0};
    ss_effect effects[TRIO];
    const ss_envelope_options options = {.factors = {1.0, 1.0}, .live_factor = 1.0};
    static const char *const beams[] = {"left", "middle", "right"};
    ss_status status = ss_placements_build(&r->mesh, &placements, error);
    for (int i = 0; i < TRIO && status == SS_OK; i++) {
        status = ss_mesh_effect(&r->mesh, SS_MEMBER_LINE, rig_line(&r->bridge, "span", beams[i]), 14.0 * FOOT,
                                false, SS_EFFECT_MOMENT, &effects[i], error);
    }
    if (status == SS_OK) {
        status = ss_envelope_compute(&r->permanent, &placements, effects, TRIO, &options, &envelope, error);
    }
    for (int i = 0; i < TRIO && status == SS_OK; i++) {
        const int run = span_run(&placements);
        moment[i] = envelope.extremes[(i * envelope.traffic_count + run) * 2 + 1].value / (KIP * FOOT);
    }
    ss_envelope_destroy(&envelope);
    ss_placements_destroy(&placements);
    return status;
}

static bool gauges_rolling(check *out) {
    *out = (check){
        .title = "The same truck along the bridge, both ways",
        .source = LEGAL_SOURCE ", each axle's part of a beam by levers",
        .inputs = "as before",
        .values = "largest moment at 14 ft of the left, middle and right beam (kip-ft)",
        CHECK_RELATIVE("the largest moment at a section has some axle on it, and each is tried; room for "
                       "rounding only",
                       1e-9, 5)};
    double moment[TRIO] = {0.0};
    ss_error error = {SS_OK, ""};
    rig r;
    if (!rig_open(&r, "gauges", NULL)) {
        return false;
    }
    const bool done = gauge_moments(&r, moment, &error) == SS_OK;
    if (!done) {
        rig_complain("gauges", &error);
    }
    rig_close(&r);
    for (int beam = 0; beam < TRIO && done; beam++) {
        rolling_train train = {3, {0.0}, {8.5, 11.0}};
        tricycle_on(beam, train.axle);
        double most = 0.0;
        for (int facing = 0; facing < 2; facing++) {
            const double x = facing == 0 ? 14.0 : TRIO_SPAN - 14.0;
            double front = x;
            for (int a = 0; a < 3; a++) {
                most = fmax(most, rolling_moment_at(&train, TRIO_SPAN, x, front));
                front += train.spacing[a];
            }
        }
        check_add(out, most, moment[beam]);
    }
    return done;
}

static const check_function checks[] = {printed_h20, printed_legal, legal_short,
                                        legal_long,  gauges_parked, gauges_rolling};

const check_chapter chapter_vehicles = {"Vehicles", checks, (int)(sizeof checks / sizeof checks[0])};
