/* rated_results.h - a rating made by hand on a bridge of two cars: four checks and a deflection, six
 * crossings. */
#ifndef TEST_RATED_RESULTS_H
#define TEST_RATED_RESULTS_H

#include "sillspan/report.h"
#include "support/make_bridge.h"
#include "support/suite.h"

enum { RATED_CHECKS = 6, RATED_TRAFFIC = 6, RATED_MOST = 80 };

/* Crossings, in their order. */
enum { HAULER, ENGINE, ENGINE_BESIDE, HAULER_ABREAST, ENGINE_CENTRED, ENGINE_LINE };
/* Checks, in their order. */
enum { LEGAL, EMERGENCY, LFR_INVENTORY, LFR_OPERATING, ASR_OPERATING, DEFLECTION };

typedef struct rated_results {
    made_bridge made;
    ss_crossing crossings[RATED_TRAFFIC];
    ss_track tracks[3];
    ss_traffic traffic[RATED_TRAFFIC];
    ss_placements placements;
    ss_rating_item items[RATED_MOST];
    int governing[RATED_CHECKS * RATED_TRAFFIC];
    int worst[RATED_CHECKS];
    ss_ratings rated;
    ss_posting posting;
    ss_results results;
} rated_results;

/** A factor of one member under one crossing; what is not said is filled in consistently. */
typedef struct rated_input {
    int check, traffic;
    ss_effect effect;
    double capacity, dead, live;
    ss_method_factors factors;
} rated_input;

static inline ss_rating_item *rated_add(rated_results *r, const rated_input *in) {
    const ss_method_factors *f = &in->factors;
    ss_rating_item *item = &r->items[r->rated.count];
    const double rf = (in->capacity - in->dead) / (f->live * f->presence * (1.0 + f->allowance) * in->live);
    const bool deflection = in->check == DEFLECTION;
    *item = (ss_rating_item){.check = in->check,
                             .proved = (double)NAN,
                             .traffic = in->traffic,
                             .effect = in->effect,
                             .most = in->capacity > 0.0,
                             .rf = rf,
                             .rf_linear = rf,
                             .nominal = {.value = deflection ? (double)NAN : fabs(in->capacity) / 0.83,
                                         .rule = deflection ? NULL : "yield moment, by hand"},
                             .factors = *f,
                             .capacity = in->capacity,
                             .dead = in->dead,
                             .live = in->live,
                             .truck_count = r->crossings[in->traffic].lanes,
                             .position = {{.track = 0, .x = 7.31}, {.track = 1, .x = 5.87}},
                             .tons = rf * 23.7};
    int *governing = &r->governing[in->check * RATED_TRAFFIC + in->traffic];
    if (*governing < 0 || rf < r->items[*governing].rf) {
        *governing = r->rated.count;
    }
    if (r->worst[in->check] < 0 || rf < r->items[r->worst[in->check]].rf) {
        r->worst[in->check] = r->rated.count;
    }
    r->rated.count++;
    return item;
}

static const ss_method_factors rated_legal = {1.25,
                                              1.5,
                                              1.3,
                                              0.33,
                                              1.2,
                                              1.0,
                                              0.95,
                                              0.85,
                                              "legal load, 40 trucks a day",
                                              "full allowance: stringer",
                                              "one lane"};
static const ss_method_factors rated_lfr = {
    1.3, 1.3, 1.3, 0.3, 1.0, 1.0, 1.0, 1.0, "operating, A2", "impact of 6.2 m", "one or two lanes"};
static const ss_method_factors rated_sag = {
    1.0, 1.0, 1.0, 0.33, 1.0, 1.0, 1.0, 1.0, "service load", "full allowance", "one lane"};

static inline void rated_fill(rated_results *r) {
    const ss_effect stringer = {.kind = SS_EFFECT_MOMENT, .member = SS_MEMBER_LINE, .index = 1, .at = 6.31};
    const ss_effect sill = {.kind = SS_EFFECT_MOMENT, .member = SS_MEMBER_LINE, .index = 3, .at = 6.4};
    const ss_effect web = {
        .kind = SS_EFFECT_WEB_PLUS, .member = SS_MEMBER_LINE, .index = 3, .at = 1.7, .before = true};
    const ss_effect bearer = {.kind = SS_EFFECT_MOMENT, .member = SS_MEMBER_BEAM, .index = 1, .at = 1.39};
    const ss_effect seam = {.kind = SS_EFFECT_SHEAR, .member = SS_MEMBER_JOINT, .index = 0, .at = 6.1};
    const ss_effect sag = {.kind = SS_EFFECT_DEFLECTION, .member = SS_MEMBER_LINE, .index = 3, .at = 5.9};
    const ss_effect tip = {.kind = SS_EFFECT_DEFLECTION, .member = SS_MEMBER_LINE, .index = 3, .at = 0.0};
    /* Live effects of each crossing as multiples of those of the engine alone. */
    static const double heavy[RATED_TRAFFIC] = {0.52, 1.0, 1.31, 0.83, 0.74, 0.79};
    for (int t = 0; t < RATED_TRAFFIC; t++) {
        const double h = heavy[t];
        const bool emergency = t != HAULER && t != HAULER_ABREAST;
        const int lrfr = emergency ? EMERGENCY : LEGAL;
        rated_add(r, &(rated_input){lrfr, t, stringer, 38.2e3, 3.1e3, 36.9e3 * h, rated_legal});
        ss_rating_item *girder =
            rated_add(r, &(rated_input){lrfr, t, sill, 1113.0e3, 287.0e3, 471.0e3 * h, rated_legal});
        girder->rf_linear = 1.04 * girder->rf;
        rated_add(r, &(rated_input){lrfr, t, web, 633.0e3, 71.0e3, 193.0e3 * h, rated_legal});
        rated_add(r, &(rated_input){lrfr, t, bearer, -142.0e3, -21.0e3, -57.0e3 * h, rated_legal});
        rated_add(r, &(rated_input){lrfr, t, seam, 24.8e3, 0.0, 8.9e3 * h, rated_legal});
        rated_add(r, &(rated_input){LFR_INVENTORY, t, stringer, 44.0e3, 3.3e3, 60.1e3 * h, rated_lfr});
        rated_add(r, &(rated_input){LFR_OPERATING, t, stringer, 44.0e3, 3.3e3, 36.0e3 * h, rated_lfr});
        rated_add(r, &(rated_input){LFR_OPERATING, t, sill, 1300.0e3, 290.0e3, 470.0e3 * h, rated_lfr});
        rated_add(r, &(rated_input){ASR_OPERATING, t, stringer, 33.0e3, 2.5e3, 36.4e3 * h, rated_lfr});
        rated_add(r, &(rated_input){DEFLECTION, t, sag, 0.01075, 0.0, 0.0121 * h, rated_sag});
        rated_add(r, &(rated_input){DEFLECTION, t, tip, 0.00567, 0.0, 0.0039 * h, rated_sag});
    }
    for (int c = 0; c < RATED_CHECKS; c++) {
        const int i = ss_ratings_governing(&r->rated, c, ENGINE_BESIDE);
        if (i >= 0) {
            r->items[i].local = true;
        }
    }
}

/** Returns false when the bridge cannot be solved. */
static inline bool rated_start(rated_results *r) {
    static const double engine[2] = {107.0e3, 149.0e3}, apart[1] = {4.57};
    *r = (rated_results){.tracks = {{.train = 1, .vehicle = 1, .run = -1, .y = 1.91},
                                    {.vehicle = 0, .run = -1, .y = 4.13, .backward = true},
                                    {.train = 1, .vehicle = 1, .run = -1, .y = 2.92}}};
    made_two_cars(&r->made, true, 2.0);
    r->made.bridge.title = "Mill Race by hand";
    made_vehicle(&r->made, 2, engine, apart, 1.83);
    r->made.bridge.vehicles[0].name = "milk hauler";
    r->made.bridge.vehicles[1].kind = SS_VEHICLE_EMERGENCY;
    r->made.bridge.vehicles[1].name = "fire engine";
    r->made.bridge.joints[0].shear_capacity = 24.8e3;
    if (made_solve(&r->made) != SS_OK) {
        return false;
    }
    const ss_crossing crossings[RATED_TRAFFIC] = {
        {.kind = SS_CROSSING_ALONE, .vehicle = 0, .beside = -1, .lanes = 1},
        {.kind = SS_CROSSING_ALONE, .vehicle = 1, .beside = -1, .lanes = 1},
        {.kind = SS_CROSSING_BESIDE, .vehicle = 1, .beside = 0, .lanes = 2},
        {.kind = SS_CROSSING_BESIDE, .vehicle = 0, .beside = 0, .lanes = 2},
        {.kind = SS_CROSSING_CENTRED, .vehicle = 1, .beside = -1, .lanes = 1, .alternative = true},
        {.kind = SS_CROSSING_LINE, .vehicle = 1, .beside = -1, .lanes = 1, .y = 2.35, .alternative = true},
    };
    for (int t = 0; t < RATED_TRAFFIC; t++) {
        r->crossings[t] = crossings[t];
        r->traffic[t] = (ss_traffic){
            .vehicle = crossings[t].vehicle, .run = -1, .crossing = t, .first_track = 0, .track_count = 3};
    }
    r->made.bridge.crossings = r->crossings;
    r->made.bridge.crossing_count = RATED_TRAFFIC;
    r->placements = (ss_placements){.trains = r->made.bridge.vehicles,
                                    .train_count = 2,
                                    .traffic = r->traffic,
                                    .traffic_count = RATED_TRAFFIC,
                                    .tracks = r->tracks,
                                    .track_count = 3};
    r->rated = (ss_ratings){.items = r->items,
                            .traffic_count = RATED_TRAFFIC,
                            .governing = r->governing,
                            .worst = r->worst,
                            .check_count = RATED_CHECKS,
                            .controlling = -1};
    const ss_check checks[RATED_CHECKS] = {
        {SS_METHOD_LRFR, SS_LEVEL_LEGAL, SS_LIMIT_STRENGTH, "LRFR legal, Strength I", "the manual", false},
        {SS_METHOD_LRFR, SS_LEVEL_EMERGENCY, SS_LIMIT_STRENGTH, "LRFR emergency, Strength I", "the manual",
         false},
        {SS_METHOD_LFR, SS_LEVEL_INVENTORY, SS_LIMIT_STRENGTH, "LFR inventory, first yield", "the manual, 6B",
         false},
        {SS_METHOD_LFR, SS_LEVEL_OPERATING, SS_LIMIT_STRENGTH, "LFR operating, first yield", "the manual, 6B",
         false},
        {SS_METHOD_ASR, SS_LEVEL_OPERATING, SS_LIMIT_STRENGTH, "ASR operating, allowable stress",
         "the manual, 6B", false},
        {SS_METHOD_LRFR, SS_LEVEL_LEGAL, SS_LIMIT_DEFLECTION, "live-load deflection", "a matter of comfort",
         true},
    };
    for (int c = 0; c < RATED_CHECKS; c++) {
        r->rated.checks[c] = checks[c];
        r->worst[c] = -1;
    }
    for (int i = 0; i < RATED_CHECKS * RATED_TRAFFIC; i++) {
        r->governing[i] = -1;
    }
    rated_fill(r);
    r->results = (ss_results){.command = "rate",
                              .bridge = &r->made.bridge,
                              .mesh = &r->made.mesh,
                              .grillage = r->made.grillage,
                              .permanent = &r->made.permanent,
                              .placements = &r->placements,
                              .rated = &r->rated,
                              .posting = &r->posting,
                              .require = (double)NAN};
    return ss_posting_compute(&r->made.bridge, &r->placements, &r->rated, SS_METHOD_LRFR, SS_UNITS_US,
                              &r->posting, NULL) == SS_OK;
}

static inline void rated_end(rated_results *r) {
    ss_posting_destroy(&r->posting);
    made_free(&r->made);
}

#endif
