/* case_lanes.c - uniform lane loads with trucks, laid where they are adverse. */
#include <math.h>

#include "verification/span.h"

enum { EFFECTS_MOST = 6 };

/* An effect of the only line, or of a bearing, and the side of its extreme. */
typedef struct asked {
    ss_member_kind member;
    int index;
    double x_ft;
    bool before, most;
    ss_effect_kind kind;
    double unit, expected;
} asked;

static ss_status extremes(const rig *r, const asked *list, int count, double *value, ss_error *error) {
    ss_placements placements = {0};
    ss_envelope envelope = {0};
    ss_effect effects[EFFECTS_MOST];
    const ss_envelope_options options = {.factors = {1.0, 1.0}, .live_factor = 1.0};
    ss_status status = ss_placements_build(&r->mesh, &placements, error);
    for (int i = 0; i < count && status == SS_OK; i++) {
        status = ss_mesh_effect(&r->mesh, list[i].member, list[i].index, list[i].x_ft * FOOT, list[i].before,
                                list[i].kind, &effects[i], error);
    }
    if (status == SS_OK) {
        status = ss_envelope_compute(&r->permanent, &placements, effects, count, &options, &envelope, error);
    }
    for (int i = 0; i < count && status == SS_OK; i++) {
        const int at = (i * envelope.traffic_count + span_run(&placements)) * 2 + (list[i].most ? 1 : 0);
        value[i] = envelope.extremes[at].value / list[i].unit;
    }
    ss_envelope_destroy(&envelope);
    ss_placements_destroy(&placements);
    return status;
}

static bool compare(check *out, const char *model, const rig_options *options, const asked *list, int count) {
    double value[EFFECTS_MOST];
    ss_error error = {SS_OK, ""};
    rig r;
    if (!rig_open(&r, model, options)) {
        return false;
    }
    const bool done = extremes(&r, list, count, value, &error) == SS_OK;
    if (!done) {
        rig_complain(model, &error);
    }
    for (int i = 0; i < count && done; i++) check_add(out, list[i].expected, value[i]);
    rig_close(&r);
    return done;
}

static bool hl93_span(check *out) {
    *out = (check){.title = "HL-93 on a simple span of 65 ft, without dynamic allowance",
                   .source =
                       "statics: the HS20 truck with its second axle at mid-span, or its rear axle over the "
                       "support, and the whole span under 0.64 kip/ft; with 1.33 on the truck the moment is "
                       "the 1521.7 kip-ft of example A1 of the AASHTO Manual for Bridge Evaluation (from "
                       "memory)",
                   .inputs = "models/verification/truck_span.cfg of 65 ft, HL-93 along its line",
                   .values = "largest moment at mid-span (kip-ft), largest shear at the near end (kip)",
                   CHECK_RELATIVE("exact; adverse lengths are found by sums in single precision", 2e-7, 6)};
    const double L = 65.0, w = 0.64;
    const double moment = 32.0 * L / 4.0 + (32.0 + 8.0) * (0.5 * L - 14.0) / 2.0 + w * L * L / 8.0;
    const double shear = 32.0 + 32.0 * (L - 14.0) / L + 8.0 * (L - 28.0) / L + w * L / 2.0;
    const asked list[] = {{SS_MEMBER_LINE, 0, 0.5 * L, false, true, SS_EFFECT_MOMENT, KIP * FOOT, moment},
                          {SS_MEMBER_LINE, 0, 0.0, false, true, SS_EFFECT_SHEAR, KIP, shear}};
    const rig_setting settings[] = {
        {"cars.beam.length", "65 ft"}, {"runs.run.truck", "HL-93"}, {"probes.M most.x", "32.5 ft"}};
    return compare(out, "truck_span", &(rig_options){settings, 3, 1}, list, 2);
}

static bool two_spans_lane(check *out) {
    *out = (check){
        .title = "One axle with a lane load on two equal spans",
        .source = "own closed form, by the equation of three moments: over the pier an axle at a of a "
                  "span gives P a (L^2 - a^2) / (4 L^2), most at L / sqrt 3, and a loaded span w L^2 / 16",
        .inputs = "two spans of 40 ft, 20 kip with 0.64 kip/ft",
        .values = "least moment over the pier and most at 20 ft (kip-ft), most reaction of the middle and "
                  "least of the near bearing (kip)",
        CHECK_RELATIVE("exact; adverse lengths are found by sums in single precision", 2e-7, 6)};
    const double L = 40.0, w = 0.64, P = 20.0, worst = 1.0 / (6.0 * sqrt(3.0));
    const asked list[] = {
        {SS_MEMBER_LINE, 0, L, true, false, SS_EFFECT_MOMENT, KIP * FOOT, -P * L * worst - w * L * L / 8.0},
        {SS_MEMBER_LINE, 0, 0.5 * L, false, true, SS_EFFECT_MOMENT, KIP * FOOT,
         P * L * 13.0 / 64.0 + w * L * L * 3.0 / 32.0},
        {SS_MEMBER_BEARING, 2, L, false, true, SS_EFFECT_REACTION, KIP, P + 1.25 * w * L},
        {SS_MEMBER_BEARING, 0, 0.0, false, false, SS_EFFECT_REACTION, KIP, -P * worst - w * L / 16.0}};
    return compare(out, "two_span_lane", NULL, list, 4);
}

static const check_function checks[] = {hl93_span, two_spans_lane};

const check_chapter chapter_lanes = {"Lane loads", checks, (int)(sizeof checks / sizeof checks[0])};
