/* case_trucks.c - moving trucks: simple spans against published tables and rolling-load theory, a pair of
 * cars against brute force. */
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include "verification/check.h"
#include "verification/rig.h"
#include "verification/span.h"

static const rolling_train hs20 = {3, {8.0, 32.0, 32.0}, {14.0, 14.0}};
static const rolling_train h15 = {2, {6.0, 24.0}, {14.0}};
static const rolling_train type3 = {3, {16.0, 17.0, 17.0}, {15.0, 4.0}};
static const rolling_train ev2 = {2, {24.0, 33.5}, {15.0}};
static const rolling_train ev3 = {3, {24.0, 31.0, 31.0}, {15.0, 4.0}};

static bool published_moments(check *out) {
    *out = (check){.title = "HS20-44 moments on simple spans",
                   .source = "AASHTO Standard Specifications for Highway Bridges, appendix A (from memory)",
                   .inputs = "simple spans of 40, 50, 60, 70, 80, 90 and 100 ft, one lane, no impact",
                   .values = "largest moment anywhere (kip-ft)",
                   .why = "the table is printed to 0.1",
                   .tolerance = 0.1,
                   .relative = false,
                   .digits = 6};
    const double span[] = {40.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0};
    const double printed[] = {449.8, 627.9, 806.5, 985.6, 1164.9, 1344.4, 1524.0};
    for (int i = 0; i < 7; i++) {
        double moment = (double)NAN, shear = (double)NAN;
        if (!span_truck("HS20-44", &hs20, span[i], &moment, &shear)) {
            return false;
        }
        check_add(out, printed[i], moment);
    }
    return true;
}

static bool published_shears(check *out) {
    *out = (check){.title = "HS20-44 end shears on simple spans",
                   .source = "M. A. Khan, Bridge and Highway Structure Rehabilitation and Repair "
                             "(McGraw-Hill, 2010), table 4.5",
                   .inputs = "simple spans of 30, 36, 40, 45, 50, 60, 70 and 75 ft, one lane, no impact",
                   .values = "end shear (kip)",
                   .why = "the table is printed to 0.01, one entry to 0.1 (rounded)",
                   .tolerance = 6e-3,
                   .relative = false,
                   .digits = 5};
    const double span[] = {30.0, 36.0, 40.0, 45.0, 50.0, 60.0, 70.0, 75.0};
    const double printed[] = {49.6, 53.33, 55.2, 57.07, 58.56, 60.8, 62.4, 63.04};
    for (int i = 0; i < 8; i++) {
        double moment = (double)NAN, shear = (double)NAN;
        if (!span_truck("HS20-44", &hs20, span[i], &moment, &shear)) {
            return false;
        }
        check_add(out, printed[i], shear);
    }
    return true;
}

static bool proportion(check *out) {
    *out = (check){.title = "H15-44 against the H20 truck table",
                   .source = "M. A. Khan, Bridge and Highway Structure Rehabilitation and Repair "
                             "(McGraw-Hill, 2010), table 6.7, H20 truck, times "
                             "0.75 (AASHO 1941: H15 is 75 % of H20)",
                   .inputs = "simple spans of 30, 36, 40, 45, 50 and 55 ft, one lane, no impact",
                   .values = "largest moment anywhere (kip-ft)",
                   .why = "the table is printed to 0.01",
                   .tolerance = 0.01,
                   .relative = false,
                   .digits = 6};
    const double span[] = {30.0, 36.0, 40.0, 45.0, 50.0, 55.0};
    const double h20[] = {246.61, 306.18, 345.96, 395.74, 445.57, 495.43};
    for (int i = 0; i < 6; i++) {
        double moment = (double)NAN, shear = (double)NAN;
        if (!span_truck("H15-44", &h15, span[i], &moment, &shear)) {
            return false;
        }
        check_add(out, 0.75 * h20[i], moment);
    }
    return true;
}

static bool rolling(check *out, const char *truck, const rolling_train *train, const char *title) {
    *out = (check){.title = title,
                   .source = "own method: theory of rolling loads (tests/verification/rolling.c)",
                   .inputs = "simple spans of 24, 40, 56 and 70 ft, one lane, no impact",
                   .values = "largest moment anywhere (kip-ft) and end shear (kip) of each span",
                   .why = "the section of the largest moment is among those looked at, so only rounding is "
                          "left; no other section exceeds it",
                   .tolerance = 1e-9,
                   .relative = true,
                   .digits = 6};
    const double span[] = {24.0, 40.0, 56.0, 70.0};
    for (int i = 0; i < 4; i++) {
        double moment = (double)NAN, shear = (double)NAN, x = 0.0;
        if (!span_truck(truck, train, span[i], &moment, &shear)) {
            return false;
        }
        check_add(out, rolling_moment(train, span[i], &x), moment);
        check_add(out, rolling_shear(train, span[i]), shear);
    }
    return true;
}

static bool rolling_type3(check *out) {
    return rolling(out, "Type 3", &type3, "Type 3 on simple spans");
}
static bool rolling_ev2(check *out) {
    return rolling(out, "EV2", &ev2, "EV2 on simple spans");
}
static bool rolling_ev3(check *out) {
    return rolling(out, "EV3", &ev3, "EV3 on simple spans");
}
static bool rolling_hs20(check *out) {
    return rolling(out, "HS20-44", &hs20, "HS20-44 on simple spans, exactly");
}

static bool closed_hs20(check *out) {
    *out = (check){.title = "HS20-44, closed form",
                   .source = "own closed form: 18L - 280 + 392/L for all axles on the span, 16(L - 7)^2/L "
                             "for two, 72 - 672/L in shear (ft, kip)",
                   .inputs = "simple spans of 30, 60 and 66 ft",
                   .values = "largest moment (kip-ft) and end shear (kip) of each span",
                   .why = "exact",
                   .tolerance = 1e-9,
                   .relative = true,
                   .digits = 6};
    const double span[] = {30.0, 60.0, 66.0};
    for (int i = 0; i < 3; i++) {
        const double L = span[i];
        double moment = (double)NAN, shear = (double)NAN;
        if (!span_truck("HS20-44", &hs20, L, &moment, &shear)) {
            return false;
        }
        check_add(out, L < 33.8 ? 16.0 * (L - 7.0) * (L - 7.0) / L : 18.0 * L - 280.0 + 392.0 / L, moment);
        check_add(out, 72.0 - 672.0 / L, shear);
    }
    return true;
}

/* ---- a pair of cars with contact ------------------------------------------------------------------ */

enum { PAIR_EFFECTS = 6 };

/* Effects of different kinds on the pair: moments, an edge's moment, joint shear, end reactions. */
static ss_status pair_effects(const ss_mesh *mesh, ss_effect *effects, ss_error *error) {
    const ss_bridge *const bridge = mesh->bridge;
    const double middle = 25.0 * FOOT;
    ss_status status = SS_OK;
    const int lines[] = {rig_line(bridge, "west", "sill"), rig_line(bridge, "east", "sill"),
                         rig_line(bridge, "west", "right edge")};
    for (int i = 0; i < 3 && status == SS_OK; i++) {
        status = ss_mesh_effect(mesh, SS_MEMBER_LINE, lines[i], middle, true, SS_EFFECT_MOMENT, &effects[i],
                                error);
    }
    if (status == SS_OK) {
        status = ss_mesh_effect(mesh, SS_MEMBER_LINE, lines[0], 5.5 * FOOT, true, SS_EFFECT_MOMENT,
                                &effects[3], error);
    }
    if (status == SS_OK) {
        status = ss_mesh_effect(mesh, SS_MEMBER_JOINT, 0, middle, true, SS_EFFECT_SHEAR, &effects[4], error);
    }
    if (status == SS_OK) {
        status =
            ss_mesh_effect(mesh, SS_MEMBER_BEARING, 0, 0.0, true, SS_EFFECT_REACTION, &effects[5], error);
    }
    return status;
}

/* What brute force keeps: the effects, their dead values, and the least and largest live value of each so
 * far. */
typedef struct trial {
    const rig *r;
    const ss_placements *placements;
    const ss_effect *effects;
    double dead[PAIR_EFFECTS];
    double extreme[2 * PAIR_EFFECTS];
} trial;

/* One position: the state with the truck on, less the dead state. */
static ss_status try_position(trial *t, const ss_position *at, ss_error *error) {
    const ss_mesh *const mesh = &t->r->mesh;
    const ss_dead_factors present = {1.0, 1.0};
    ss_load load = {0};
    ss_state state = {0};
    ss_status status = ss_placements_load(mesh, t->placements, at, &load, error);
    if (status == SS_OK) {
        status = ss_permanent_state(&t->r->permanent, true, present, &load, 1.0, &state, error);
    }
    for (int i = 0; i < PAIR_EFFECTS && status == SS_OK; i++) {
        const double live = ss_state_effect(mesh, &state, &t->effects[i]) - t->dead[i];
        t->extreme[2 * i] = fmin(t->extreme[2 * i], live);
        t->extreme[2 * i + 1] = fmax(t->extreme[2 * i + 1], live);
    }
    ss_state_destroy(&state);
    ss_load_destroy(&load);
    return status;
}

/* Positions with some axle just over a floor beam, its wheels on the beam itself instead of on the lines. */
static ss_status try_on_beams(trial *t, int track, ss_error *error) {
    const ss_bridge *const bridge = &t->r->bridge;
    const ss_track *const along = &t->placements->tracks[track];
    const ss_vehicle *const vehicle = &bridge->vehicles[along->vehicle];
    ss_status status = SS_OK;
    for (int beam = 0; beam < bridge->floor_beam_count; beam++) {
        double behind = 0.0;
        for (int axle = 0; axle < vehicle->axle_count && status == SS_OK; axle++) {
            const double x = bridge->floor_beams[beam].x + (along->backward ? -behind : behind);
            const ss_position at = {.track = track, .x = x, .on_beam = true};
            status = try_position(t, &at, error);
            behind += vehicle->spacing_m[axle];
        }
    }
    return status;
}

/* Every `step` m along each track of one traffic, and every position on floor beams. */
static ss_status brute_force(trial *t, const ss_traffic *traffic, double step, ss_error *error) {
    const ss_bridge *const bridge = &t->r->bridge;
    const double reach = ss_vehicle_wheelbase(&bridge->vehicles[traffic->vehicle]);
    const int places = (int)((bridge->x1 + 2.0 * reach) / step) + 1;
    ss_status status = SS_OK;
    for (int i = 0; i < PAIR_EFFECTS; i++) {
        t->dead[i] = ss_state_effect(&t->r->mesh, &t->r->permanent.present, &t->effects[i]);
        t->extreme[2 * i] = t->extreme[2 * i + 1] = 0.0;
    }
    for (int k = 0; k < traffic->track_count && status == SS_OK; k++) {
        const int track = traffic->first_track + k;
        for (int i = 0; i < places && status == SS_OK; i++) {
            const ss_position at = {.track = track, .x = i * step - reach, .on_beam = false};
            status = try_position(t, &at, error);
        }
        if (status == SS_OK) {
            status = try_on_beams(t, track, error);
        }
    }
    return status;
}

static ss_status pair_extremes(const rig *r, double step, check *out, ss_error *error) {
    static const double unit[PAIR_EFFECTS] = {KIP * FOOT, KIP * FOOT, KIP * FOOT,
                                              KIP * FOOT, KIP / FOOT, KIP};
    ss_placements placements = {0};
    ss_envelope envelope = {0};
    ss_effect effects[PAIR_EFFECTS];
    trial tried = {.r = r, .placements = &placements, .effects = effects};
    const ss_envelope_options options = {.factors = {1.0, 1.0}, .live_factor = 1.0};
    ss_status status = ss_placements_build(&r->mesh, &placements, error);
    if (status == SS_OK) {
        status = pair_effects(&r->mesh, effects, error);
    }
    if (status == SS_OK) {
        status = ss_envelope_compute(&r->permanent, &placements, effects, PAIR_EFFECTS, &options, &envelope,
                                     error);
    }
    const int t = status == SS_OK ? span_run(&placements) : 0;
    if (status == SS_OK) {
        status = brute_force(&tried, &placements.traffic[t], step, error);
    }
    double missed = 0.0;
    for (int i = 0; i < PAIR_EFFECTS && status == SS_OK; i++) {
        for (int most = 0; most < 2; most++) {
            const double found =
                envelope.extremes[(i * envelope.traffic_count + t) * 2 + most].value / unit[i];
            const double value = tried.extreme[2 * i + most] / unit[i];
            check_add(out, value, found);
            missed = fmax(missed, most == 1 ? value - found : found - value);
        }
    }
    if (status == SS_OK) {
        check_add(out, 0.0, fmax(missed, 0.0) * 1e3);
    }
    ss_envelope_destroy(&envelope);
    ss_placements_destroy(&placements);
    return status;
}

static bool pair_brute(check *out) {
    *out = (check){.title = "Truck along a pair of cars with bearings that lift, by brute force",
                   .source = "own method: the state of the bridge solved anew, with contact, at every 0.05 "
                             "ft of the way, in both directions",
                   .inputs = "models/verification/pair.cfg, Type 3 along the west sill",
                   .values = "least and largest live effect: moment of west sill, east sill, west right edge "
                             "at mid-span and of the west sill at "
                             "the wheel truck (kip-ft), joint shear at mid-span (kip/ft), last end reaction "
                             "(kip); how much brute force "
                             "exceeds the envelope anywhere (thousandths)",
                   .why = "between the places tried the effect can rise by what a truck moves in 0.025 ft; "
                          "the envelope may never be short of "
                          "brute force, hence the last value",
                   .tolerance = 0.02,
                   .relative = false,
                   .digits = 5};
    rig r;
    if (!rig_open(&r, "pair", NULL)) {
        return false;
    }
    ss_error error = {SS_OK, ""};
    const bool done = pair_extremes(&r, 0.05 * FOOT, out, &error) == SS_OK;
    if (!done) {
        rig_complain("pair", &error);
    }
    rig_close(&r);
    return done;
}

static const check_function checks[] = {published_moments, published_shears, proportion,
                                        closed_hs20,       rolling_hs20,     rolling_type3,
                                        rolling_ev2,       rolling_ev3,      pair_brute};

const check_chapter chapter_trucks = {"Moving trucks", checks, (int)(sizeof checks / sizeof checks[0])};
