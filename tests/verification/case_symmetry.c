/* case_symmetry.c - what must not matter: left and right, near and far, units, and which of two points is
 * loaded. */
#include <math.h>
#include <stddef.h>

#include "sillspan/ratings.h"
#include "verification/check.h"
#include "verification/rig.h"

static const char *const loads[] = {"dead", "middle", "heavy", "end"};

#define RIG_INPUTS "the unlike pair of cars of models/verification/pair.cfg, four loads with contact; "
#define ROUNDING "nothing but rounding separates them"

static bool mirrored(check *out, const rig_setting *settings, int count, bool swap) {
    rig here, there;
    if (!rig_open(&here, "pair", NULL)) {
        return false;
    }
    if (!rig_open(&there, "pair", &(rig_options){settings, count, 1})) {
        rig_close(&here);
        return false;
    }
    for (int i = 0; i < 4; i++) {
        check_add(out, rig_probe_us(&here, loads[i], "M west"),
                  rig_probe_us(&there, loads[i], swap ? "M east" : "M west"));
        check_add(out, rig_probe_us(&here, loads[i], "M east"),
                  rig_probe_us(&there, loads[i], swap ? "M west" : "M east"));
    }
    rig_close(&here);
    rig_close(&there);
    return true;
}

static bool left_right(check *out) {
    *out = (check){.title = "Left and right exchanged",
                   .source = "own: symmetry",
                   .inputs = RIG_INPUTS "cars change places, every y is taken from the other edge",
                   .values = "moment at mid-span of the west and east sill for each load (kip-ft)",
                   CHECK_RELATIVE(ROUNDING, 1e-8, 6)};
    const rig_setting settings[] = {
        {"bridge.cars.west.car", "low car"},  {"bridge.cars.east.car", "deep car"},
        {"bridge.roadway.from", "16 in"},     {"bridge.roadway.to", "214 in"},
        {"bridge.rails.y", "10, 220 in"},     {"cases.dead.loads.1.car", "east"},
        {"cases.middle.loads.1.y", "160 in"}, {"cases.heavy.loads.1.y", "76 in"},
        {"cases.heavy.loads.2.y", "94 in"},   {"cases.end.loads.1.y", "148 in"}};
    return mirrored(out, settings, (int)(sizeof settings / sizeof settings[0]), true);
}

static bool near_far(check *out) {
    *out = (check){.title = "Near and far exchanged",
                   .source = "own: symmetry",
                   .inputs = RIG_INPUTS
                   "every load from the other end, trucks facing the other way, cars turned end for end",
                   .values = "moment at mid-span of the west and east sill for each load (kip-ft)",
                   CHECK_RELATIVE(ROUNDING, 1e-8, 6)};
    const rig_setting settings[] = {
        {"bridge.cars.west.reversed", "true"}, {"bridge.cars.east.reversed", "true"},
        {"cases.middle.loads.1.x", "14 ft"},   {"cases.middle.loads.1.backward", "false"},
        {"cases.heavy.loads.1.x", "16 ft"},    {"cases.heavy.loads.1.backward", "true"},
        {"cases.heavy.loads.2.x", "24 ft"},    {"cases.end.loads.1.x", "21 ft"},
        {"cases.end.loads.1.backward", "true"}};
    return mirrored(out, settings, (int)(sizeof settings / sizeof settings[0]), false);
}

static bool rate(const rig *r, ss_ratings *out) {
    ss_error error = {SS_OK, ""};
    ss_placements placements = {0};
    ss_effect *effects = NULL;
    int count = 0;
    ss_status status = ss_placements_build(&r->mesh, &placements, &error);
    if (status == SS_OK) {
        status = ss_envelope_effects(&r->mesh, &effects, &count, &error);
    }
    /* Every fifth section is enough here, and saves time. */
    int kept = 0;
    for (int i = 0; i < count && status == SS_OK; i += 5) {
        effects[kept++] = effects[i];
    }
    if (status == SS_OK) {
        status = ss_ratings_compute(&r->permanent, &placements, effects, kept, NULL, NULL, out, &error);
    }
    if (status != SS_OK) {
        rig_complain("rating", &error);
    }
    ss_free(effects);
    ss_placements_destroy(&placements);
    return status == SS_OK;
}

static bool units(check *out) {
    *out = (check){.title = "Feet and metres",
                   .source = "own: the same bridge written in both systems",
                   .inputs = "models/verification/pair.cfg and pair_metric.cfg, converted exactly; every "
                             "fifth effect is rated",
                   .values = "moments at mid-span under the dead load and under EV3 (kip-ft); controlling "
                             "rating factor; number of ratings; "
                             "largest difference of any rating factor",
                   .why = ROUNDING " of the converted values",
                   .tolerance = 1e-7,
                   .relative = false,
                   .digits = 6};
    rig us, si;
    if (!rig_open(&us, "pair", NULL)) {
        return false;
    }
    if (!rig_open(&si, "pair_metric", NULL)) {
        rig_close(&us);
        return false;
    }
    for (int i = 0; i < 2; i++) {
        check_add(out, rig_probe_us(&us, loads[i], "M west"), rig_probe_us(&si, loads[i], "M west"));
    }
    ss_ratings a = {0}, b = {0};
    const bool done = rate(&us, &a) && rate(&si, &b);
    if (done && a.controlling >= 0 && b.controlling >= 0) {
        check_add(out, a.items[a.controlling].rf, b.items[b.controlling].rf);
        check_add(out, a.count, b.count);
        double worst = 0.0;
        for (int i = 0; i < a.count && i < b.count; i++) {
            if (isfinite(a.items[i].rf) || isfinite(b.items[i].rf)) {
                worst = fmax(worst, fabs(a.items[i].rf - b.items[i].rf));
            }
        }
        check_add(out, 0.0, worst);
    }
    ss_ratings_destroy(&a);
    ss_ratings_destroy(&b);
    rig_close(&us);
    rig_close(&si);
    return done;
}

static bool reciprocal(check *out) {
    *out = (check){.title = "Deflections are reciprocal",
                   .source = "J. C. Maxwell's theorem",
                   .inputs = "three girders with cross-beams; three cars joined by springs; P on one, "
                             "deflection of the other, and the reverse",
                   .values = "deflection at mid-span (in) of both pairs",
                   CHECK_RELATIVE(ROUNDING, 1e-10, 6)};
    rig r;
    if (!rig_open(&r, "three_girders", NULL)) {
        return false;
    }
    check_add(out, rig_probe_us(&r, "edge", "w middle"), rig_probe_us(&r, "middle", "w left"));
    rig_close(&r);
    if (!rig_open(&r, "spines_3", NULL)) {
        return false;
    }
    check_add(out, rig_probe_us(&r, "left", "w middle"), rig_probe_us(&r, "middle", "w left"));
    rig_close(&r);
    return true;
}

static const check_function checks[] = {left_right, near_far, units, reciprocal};

const check_chapter chapter_symmetry = {"What must not matter", checks,
                                        (int)(sizeof checks / sizeof checks[0])};
