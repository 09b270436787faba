/* case_rating.c - rating arithmetic and resistances against worked numbers. */
#include <math.h>
#include <stddef.h>

#include "sillspan/ratings.h"
#include "verification/check.h"
#include "verification/rig.h"

/* Rating factor in bending of the first rated truck of the example bridge. */
static bool example_factor(const char *live_factor, double *rf) {
    const rig_setting settings[] = {{"rating.live_factor", live_factor}};
    rig r;
    if (!rig_open(&r, "stringer_example", &(rig_options){settings, 1, 1})) {
        return false;
    }
    ss_error error = {SS_OK, ""};
    ss_placements placements = {0};
    ss_effect *effects = NULL;
    ss_ratings result = {0};
    int count = 0;
    ss_status status = ss_placements_build(&r.mesh, &placements, &error);
    if (status == SS_OK) {
        status = ss_envelope_effects(&r.mesh, &effects, &count, &error);
    }
    if (status == SS_OK) {
        status = ss_ratings_compute(&r.permanent, &placements, effects, count, NULL, NULL, &result, &error);
    }
    *rf = (double)NAN;
    for (int i = 0; i < result.count && status == SS_OK; i++) {
        const ss_rating_item *const rating = &result.items[i];
        if (rating->effect.kind == SS_EFFECT_MOMENT && placements.traffic[rating->traffic].vehicle == 0 &&
            placements.traffic[rating->traffic].run < 0) {
            *rf = rating->rf;
        }
    }
    if (status != SS_OK) {
        rig_complain("stringer_example", &error);
    }
    ss_ratings_destroy(&result);
    ss_free(effects);
    ss_placements_destroy(&placements);
    rig_close(&r);
    return status == SS_OK;
}

static bool example(check *out) {
    *out = (check){
        .title = "Rating equation on the numbers of a published example",
        .source =
            "AASHTO Manual for Bridge Evaluation, example A1, interior stringer in bending (from memory)",
        .inputs = "resistance 2873 kip-ft, dead load 577 kip-ft, live load with impact 953 kip-ft as one "
                  "axle on 65 ft; load factors "
                  "1.25 and 1.75, then 1.35",
        .values = "rating factor, inventory 1.29 and operating 1.67",
        .why = "printed to two decimals",
        .tolerance = 5e-3,
        .relative = false,
        .digits = 4};
    double inventory = (double)NAN, operating = (double)NAN;
    if (!example_factor("1.75", &inventory) || !example_factor("1.35", &operating)) {
        return false;
    }
    check_add(out, 1.29, inventory);
    check_add(out, 1.67, operating);
    return true;
}

static bool live_factors(check *out) {
    *out = (check){
        .title = "Live load factors of legal loads",
        .source = "AASHTO Manual for Bridge Evaluation, table 6A.4.4.2.3a-1, later editions (from memory)",
        .inputs = "trucks a day: unknown, 5000, 3000, 1000, 20",
        .values = "factor",
        .why = "linear interpolation, rounding only",
        .tolerance = 1e-12,
        .relative = false,
        .digits = 4};
    const int adtt[] = {-1, 5000, 3000, 1000, 20};
    const double expected[] = {1.45, 1.45, 1.375, 1.30, 1.30};
    for (int i = 0; i < 5; i++) {
        check_add(out, expected[i], ss_method_legal_factor(SS_EDITION_MBE_2018, false, adtt[i]));
    }
    return true;
}

static bool web_shear(check *out) {
    *out =
        (check){.title = "Unstiffened webs in shear",
                .source = "AASHTO LRFD Bridge Design Specifications 6.10.9.2 (from memory), worked by hand",
                .inputs = "E 29000 ksi; webs 36 x 5/16 in of 36 ksi, 36 x 1/4 in and 48 x 5/16 in of 50 ksi",
                .values = "resistance (kip)",
                .why = "the reference has two decimals",
                .tolerance = 6e-3,
                .relative = false,
                .digits = 5};
    const double depth[] = {36.0, 36.0, 48.0}, thickness[] = {0.3125, 0.25, 0.3125},
                 fy[] = {36.0, 50.0, 50.0};
    const double expected[] = {111.93, 57.31, 83.95};
    for (int i = 0; i < 3; i++) {
        const ss_section_properties p = {.shear_area = depth[i] * thickness[i] * INCH * INCH,
                                         .web_clear = depth[i] * INCH,
                                         .web_thin = thickness[i] * INCH};
        check_add(out, expected[i], ss_resistance_web_shear(&p, fy[i] * KSI, 29000.0 * KSI).value / KIP);
    }
    return true;
}

static const check_function checks[] = {example, live_factors, web_shear};

const check_chapter chapter_rating = {"Rating", checks, (int)(sizeof checks / sizeof checks[0])};
