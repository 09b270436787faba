/* test_loaded.c - extremes with lane loads and with trucks abreast against trying very many loads one by one.
 */
#include "base/numeric.h"
#include "chosen_effects.h"

/* ---- what is tried ------------------------------------------------------------------------------- */

/* Pieces that a lane is cut into, and steps of the front axle along the bridge. */
enum { PIECES = 72, STEPS = 55, TRACKS = 200 };
static const double from_x = -5.6, step_x = 0.434;

typedef struct setting {
    made_bridge m;
    ss_envelope_options o;
    ss_effect effects[EFFECTS];
    ss_envelope e;
} setting;

static void live_of(const setting *s, const ss_load *load, double values[EFFECTS]) {
    ss_state state;
    ss_error error;
    CHECK_OK(ss_permanent_state(&s->m.permanent, true, s->o.factors, load, s->o.live_factor, &state, &error),
             &error);
    for (int i = 0; i < EFFECTS; i++) {
        values[i] = (ss_state_effect(&s->m.mesh, &state, &s->effects[i]) - s->e.dead[i]) / s->o.live_factor;
    }
    ss_state_destroy(&state);
}

static void open_bridge(setting *s, bool contact, double lane_N_m, double live_factor) {
    *s = (setting){.o = {.factors = {1.0, 1.0}, .live_factor = live_factor}};
    made_two_cars(&s->m, contact, 1.9);
    s->m.bridge.vehicles[0].lane_N_m = lane_N_m;
}

static void close_bridge(setting *s) {
    ss_envelope_destroy(&s->e);
    made_free(&s->m);
}

static void envelope_of(setting *s) {
    CHECK_OK(made_solve(&s->m), &s->m.error);
    choose_effects(&s->m, s->effects);
    CHECK_OK(ss_envelope_compute(&s->m.permanent, &s->m.placements, s->effects, EFFECTS, &s->o, &s->e,
                                 &s->m.error),
             &s->m.error);
    CU_ASSERT(s->e.checked_count > 5);
    CU_ASSERT(s->e.accuracy < 1e-10);
}

static double extreme_of(const setting *s, int effect, int traffic, int side) {
    return s->e.extremes[(effect * s->e.traffic_count + traffic) * 2 + side].value;
}

/* Every load of the envelope gives what the envelope says. */
static void check_own_loads(const setting *s, int traffic) {
    for (int i = 0; i < 2 * EFFECTS; i++) {
        const ss_extreme *const x = &s->e.extremes[(i / 2 * s->e.traffic_count + traffic) * 2 + i % 2];
        ss_load load;
        ss_error error;
        double values[EFFECTS];
        if (x->value == 0.0) {
            continue;
        }
        CU_ASSERT_FATAL(x->load != NULL);
        CHECK_OK(ss_extreme_load_make(&s->m.mesh, &s->m.placements, x, &load, &error), &error);
        live_of(s, &load, values);
        check_near("by its own load", values[i / 2], x->value, 1e-7,
                   fmax(fabs(x->value), fabs(s->e.dead[i / 2])));
        ss_load_destroy(&load);
    }
}

/* ---- two-way bearings ---------------------------------------------------------------------------- */

/* Effects of one truck on every track at every step, and the sums of the adverse pieces of its lane. */
typedef struct tables {
    int count;
    int track[TRACKS];
    double truck[TRACKS][2][EFFECTS]; /* worst place along: least, most */
    double lane[TRACKS][2][EFFECTS];
} tables;

static void fill_truck_at(const setting *s, int track, double x, double out[2][EFFECTS]) {
    ss_load load;
    ss_error error;
    double values[EFFECTS];
    CHECK_OK(ss_placements_load(&s->m.mesh, &s->m.placements,
                                &(ss_position){.track = track, .x = x, .on_beam = false}, &load, &error),
             &error);
    live_of(s, &load, values);
    for (int i = 0; i < EFFECTS; i++) {
        out[0][i] = fmin(out[0][i], values[i]);
        out[1][i] = fmax(out[1][i], values[i]);
    }
    ss_load_destroy(&load);
}

/* Even steps, and every axle just before and just after every station, where effects jump. */
static void fill_truck(const setting *s, int track, double out[2][EFFECTS]) {
    const ss_track *const t = &s->m.placements.tracks[track];
    const ss_vehicle *const v = &s->m.placements.trains[t->train];
    for (int k = 0; k < STEPS; k++) fill_truck_at(s, track, from_x + k * step_x, out);
    for (int k = 0; k < s->m.mesh.station_count; k++) {
        double behind = 0.0;
        for (int a = 0; a < v->axle_count; a++) {
            const double x = s->m.mesh.station[k] + (t->backward ? -behind : behind);
            fill_truck_at(s, track, x - 2e-9, out);
            fill_truck_at(s, track, x + 2e-9, out);
            behind += v->spacing_m[a];
        }
    }
}

static void fill_lane(const setting *s, int track, double out[2][EFFECTS]) {
    const double length = s->m.bridge.x1 - s->m.bridge.x0;
    for (int k = 0; k < PIECES; k++) {
        ss_load load;
        ss_error error;
        double values[EFFECTS];
        const ss_lane_stretch piece = {0, length * k / PIECES, length * (k + 1) / PIECES};
        CHECK_OK(ss_load_create(&s->m.mesh, &load, &error), &error);
        CHECK_OK(ss_placements_load_lane(&s->m.placements, track, &piece, 1.0, &load, &error), &error);
        live_of(s, &load, values);
        for (int i = 0; i < EFFECTS; i++) {
            out[0][i] += fmin(0.0, values[i]);
            out[1][i] += fmax(0.0, values[i]);
        }
        ss_load_destroy(&load);
    }
}

static void fill_tables(const setting *s, int first, int count, bool lanes, tables *t) {
    for (int track = first; track < first + count; track++) {
        if (s->m.placements.tracks[track].fine || t->count == TRACKS) {
            continue;
        }
        fill_truck(s, track, t->truck[t->count]);
        if (lanes) {
            fill_lane(s, track, t->lane[t->count]);
        }
        t->track[t->count++] = track;
    }
}

static void check_between(double tried, double found, int side, double scale) {
    const double sign = side == 1 ? 1.0 : -1.0;
    CU_ASSERT(sign * (found - tried) >= -1e-7 * scale);
    check_near("the worst that was tried", tried, found, 0.015, scale);
}

static double scale_of(const setting *s, int effect, int traffic) {
    return fmax(fabs(extreme_of(s, effect, traffic, 0)), fabs(extreme_of(s, effect, traffic, 1)));
}

/* Floor beams are left out: wheels right on them are not tried here. */
static bool is_tried(const setting *s, int effect) {
    return s->effects[effect].member != SS_MEMBER_BEAM;
}

static void test_lane_two_way(void) {
    static tables t;
    setting s;
    t = (tables){0};
    open_bridge(&s, false, 9.3e3, 1.0);
    envelope_of(&s);
    fill_tables(&s, 0, s.m.placements.track_count, true, &t);
    CU_ASSERT(t.count > 10);
    for (int i = 0; i < 2 * EFFECTS; i++) {
        double worst = 0.0;
        for (int k = 0; k < t.count; k++) {
            const double sum = t.truck[k][i % 2][i / 2] + t.lane[k][i % 2][i / 2];
            worst = i % 2 == 1 ? fmax(worst, sum) : fmin(worst, sum);
        }
        if (is_tried(&s, i / 2)) {
            check_between(worst, extreme_of(&s, i / 2, 0, i % 2), i % 2, scale_of(&s, i / 2, 0));
        }
    }
    check_own_loads(&s, 0);
    close_bridge(&s);
}

/* A second vehicle, and the first beside it in a roadway of two lanes. */
static void put_abreast(setting *s, double lane_N_m) {
    static const double axle[2] = {94.0e3, 66.0e3}, spacing[1] = {2.9};
    ss_bridge *const b = &s->m.bridge;
    const int other = made_vehicle(&s->m, 2, axle, spacing, 1.62);
    static ss_crossing crossings[2];
    b->vehicles[other].lane_N_m = lane_N_m;
    b->wheel_to_curb = 0.21;
    b->lanes = (ss_lane_rule){.count = 2, .width = 2.6, .between_wheels = 0.63, .wheel_to_curb = 0.21};
    crossings[0] = (ss_crossing){.kind = SS_CROSSING_BESIDE, .vehicle = 0, .beside = other, .lanes = 2};
    crossings[1] = (ss_crossing){.kind = SS_CROSSING_ALONE, .vehicle = 0, .beside = -1, .lanes = 1};
    b->crossings = crossings;
    b->crossing_count = 2;
}

static double apart_of(const setting *s, int a, int b) {
    return 0.5 * (s->m.bridge.vehicles[a].gauge_m + s->m.bridge.vehicles[b].gauge_m) +
           s->m.bridge.lanes.between_wheels;
}

static void run_abreast_two_way(double lane_N_m) {
    static tables t[2];
    setting s;
    t[0] = t[1] = (tables){0};
    open_bridge(&s, false, 0.0, 1.0);
    put_abreast(&s, lane_N_m);
    envelope_of(&s);
    const ss_traffic *const traffic = &s.m.placements.traffic[0];
    for (int which = 0; which < 2; which++) {
        fill_tables(&s, traffic->lane_first[which], traffic->lane_count[which], lane_N_m > 0.0, &t[which]);
    }
    const double apart = apart_of(&s, 0, 1);
    for (int i = 0; i < 2 * EFFECTS; i++) {
        double worst = 0.0;
        for (int a = 0; a < t[0].count; a++) {
            for (int b = 0; b < t[1].count; b++) {
                const double ya = s.m.placements.tracks[t[0].track[a]].y,
                             yb = s.m.placements.tracks[t[1].track[b]].y;
                const double sum = t[0].truck[a][i % 2][i / 2] + t[0].lane[a][i % 2][i / 2] +
                                   t[1].truck[b][i % 2][i / 2] + t[1].lane[b][i % 2][i / 2];
                if (fabs(ya - yb) >= apart - 1e-9) {
                    worst = i % 2 == 1 ? fmax(worst, sum) : fmin(worst, sum);
                }
            }
        }
        if (is_tried(&s, i / 2)) {
            check_between(worst, extreme_of(&s, i / 2, 0, i % 2), i % 2, scale_of(&s, i / 2, 0));
        }
    }
    check_own_loads(&s, 0);
    close_bridge(&s);
}

static void test_abreast_two_way(void) {
    run_abreast_two_way(0.0);
}

static void test_abreast_lane_two_way(void) {
    run_abreast_two_way(6.1e3);
}

/* ---- bearings that lift -------------------------------------------------------------------------- */

/* Numbers between 0 and 1 from a seed. */
static double next_random(unsigned *seed) {
    *seed = *seed * 1664525U + 1013904223U;
    return (double)(*seed >> 8) / 16777216.0;
}

/* A load to try: trucks and one stretch of lane under each, or two. */
typedef struct attempt {
    int truck_count;
    ss_position position[2];
    int stretch_count;
    ss_lane_stretch stretch[2 * SS_LANE_STRETCHES];
} attempt;

static void try_attempt(const setting *s, const attempt *a, double worst[2][EFFECTS]) {
    const ss_extreme_load load = {.truck_count = a->truck_count,
                                  .position = {a->position[0], a->position[1]},
                                  .stretch_count = a->stretch_count,
                                  .stretch = a->stretch};
    const ss_extreme extreme = {.position = a->position[0], .load = &load};
    ss_load sum;
    ss_error error;
    double values[EFFECTS];
    CHECK_OK(ss_extreme_load_make(&s->m.mesh, &s->m.placements, &extreme, &sum, &error), &error);
    live_of(s, &sum, values);
    for (int i = 0; i < EFFECTS; i++) {
        worst[0][i] = fmin(worst[0][i], values[i]);
        worst[1][i] = fmax(worst[1][i], values[i]);
    }
    ss_load_destroy(&sum);
}

/* Moves one thing of a load a little, or far. False: that is no load that may be. */
static bool vary(const setting *s, const ss_traffic *traffic, attempt *a, unsigned *seed) {
    const double reach = next_random(seed) < 0.5 ? 0.4 : 6.0;
    const int what = (int)(3.0 * next_random(seed));
    const int truck = (int)(a->truck_count * next_random(seed));
    ss_position *const p = &a->position[truck];
    if (what == 0) {
        p->x += reach * (next_random(seed) - 0.5);
    } else if (what == 1) {
        const int move = (int)(9.0 * next_random(seed)) - 4;
        const ss_track *const old = &s->m.placements.tracks[p->track];
        const int next = p->track + move;
        if (next < 0 || next >= s->m.placements.track_count ||
            s->m.placements.tracks[next].train != old->train) {
            return false;
        }
        p->track = next;
    } else if (a->stretch_count > 0) {
        const int which = (int)(a->stretch_count * next_random(seed));
        ss_lane_stretch *const l = &a->stretch[which];
        double *const end = next_random(seed) < 0.5 ? &l->from : &l->to;
        *end = ss_clamp(*end + reach * (next_random(seed) - 0.5), s->m.bridge.x0, s->m.bridge.x1);
        const bool after = which > 0 && l[-1].truck == l->truck,
                   before = which + 1 < a->stretch_count && l[1].truck == l->truck;
        if (l->from >= l->to || (after && l[-1].to > l->from) || (before && l[1].from < l->to)) {
            return false;
        }
    }
    if (a->truck_count == 2) {
        const ss_track *const one = &s->m.placements.tracks[a->position[0].track],
                              *const two = &s->m.placements.tracks[a->position[1].track];
        return fabs(one->y - two->y) >= apart_of(s, one->vehicle, two->vehicle) - 1e-9;
    }
    return traffic->track_count > 0;
}

/* From every load of the envelope by chance: nothing that is tried may be worse by more than `share` of the
 * larger of both extremes. */
static void check_by_chance(const setting *s, int traffic, int tries, double share) {
    double worst[2][EFFECTS] = {{0}};
    unsigned seed = 20240607U;
    for (int i = 0; i < 2 * EFFECTS; i++) {
        const ss_extreme *const x = &s->e.extremes[(i / 2 * s->e.traffic_count + traffic) * 2 + i % 2];
        for (int k = 0; x->load != NULL && x->load->truck_count > 0 && k < tries; k++) {
            attempt a = {.truck_count = x->load->truck_count,
                         .position = {x->load->position[0], x->load->position[1]},
                         .stretch_count = x->load->stretch_count};
            bool may = true;
            for (int j = 0; j < x->load->stretch_count; j++) a.stretch[j] = x->load->stretch[j];
            for (int j = 0; j <= k % 3; j++)
                may = vary(s, &s->m.placements.traffic[traffic], &a, &seed) && may;
            if (may) {
                try_attempt(s, &a, worst);
            }
        }
    }
    for (int i = 0; i < 2 * EFFECTS; i++) {
        const double found = extreme_of(s, i / 2, traffic, i % 2), tried = worst[i % 2][i / 2];
        CU_ASSERT(fabs(tried) <= fabs(found) + share * scale_of(s, i / 2, traffic));
    }
}

static void test_lane_contact(void) {
    setting s;
    open_bridge(&s, true, 9.3e3, 1.0);
    envelope_of(&s);
    CU_ASSERT(s.e.contact_matters);
    check_own_loads(&s, 0);
    check_by_chance(&s, 0, 200, 0.002);
    close_bridge(&s);
}

static void test_abreast_contact(void) {
    setting s;
    open_bridge(&s, true, 0.0, 1.0);
    put_abreast(&s, 6.1e3);
    envelope_of(&s);
    check_own_loads(&s, 0);
    check_by_chance(&s, 0, 200, 0.02);
    close_bridge(&s);
}

int main(void) {
    static const test_case cases[] = {
        {"lane load, two-way", test_lane_two_way},
        {"abreast, two-way", test_abreast_two_way},
        {"abreast with a lane load, two-way", test_abreast_lane_two_way},
        {"lane load with contact", test_lane_contact},
        {"abreast with contact", test_abreast_contact},
    };
    return RUN_SUITE("loaded", cases);
}
