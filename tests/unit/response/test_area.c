/* test_area.c - the lanes of load model 1 and its load over the whole carriageway on three cars, against
 * trying very many loads one by one. */
#include "load_model_1.h"

enum { EFFECTS = 10, TRACKS = 120, STEPS = 50, ALONG = 48, ACROSS = 60 };
#define LENGTH 12.4
#define WIDE 3.1

/* Three cars of unlike sills tied by springs; nothing about it is symmetric. */
static void three_cars(made_bridge *m, bool contact) {
    static const double at[3] = {0.22, 1.47, 2.81};
    static const double beams[5] = {0.0, 3.1, 6.2, 9.6, LENGTH};
    made_start(m, 1.6);
    ss_bridge *const b = &m->bridge;
    const int edge = hand_section(b, 2.3e-4, 6.1e-7, 0.0041, 520.0);
    const int bearer = hand_section(b, 9.2e-5, 5.0e-8, 0.0030, 400.0);
    for (int car = 0; car < 3; car++) {
        const double y = car * (WIDE + 0.09);
        const int sill = hand_section(b, 1.3e-3 + 2.0e-4 * car, 4.0e-4, 0.0095, 1700.0);
        hand_car(b, "car", 0.0, LENGTH, y, y + WIDE);
        for (int i = 0; i < 3; i++) {
            hand_line(b, i == 1 ? SS_ROLE_MAIN : SS_ROLE_EXTERIOR, "line", y + at[i], i == 1 ? sill : edge);
        }
        for (int i = 0; i < 5; i++) hand_beam(b, beams[i], bearer);
        const int first = b->cars[car].first_line;
        for (int end = 0; end < 2; end++) {
            ss_bearing *const pad = hand_contact(b, first + 1, end == 0 ? 1.5 : LENGTH - 1.8);
            pad->pad_width = 0.4;
            pad->spring = 4.0e8;
            pad->contact = contact;
            for (int i = 0; i < 3; i += 2) {
                ss_bearing *const shim = hand_contact(b, first + i, end == 0 ? 0.0 : LENGTH);
                shim->spring = 5.0e7;
                shim->contact = contact;
                shim->gap = contact && i == 0 ? 0.0008 : 0.0;
            }
        }
    }
    for (int left = 0; left < 2; left++) {
        ss_joint *const seam = &b->joints[hand_joint(b, SS_JOINT_SPRINGS, left, 0.0, LENGTH)];
        seam->shear = 1.9e7;
        seam->rotation = 6.0e4;
    }
    b->self_weight = true;
    b->deck.over_joints = true;
    b->roadway_left = 0.05;
    b->roadway_right = 9.41;
}

static void choose(const made_bridge *m, ss_effect e[EFFECTS]) {
    static const struct {
        ss_member_kind member;
        int index;
        double at;
        ss_effect_kind kind;
    } list[EFFECTS] = {
        {SS_MEMBER_LINE, 1, 6.2, SS_EFFECT_MOMENT},      {SS_MEMBER_LINE, 4, 6.2, SS_EFFECT_MOMENT},
        {SS_MEMBER_LINE, 4, 1.5, SS_EFFECT_SHEAR},       {SS_MEMBER_LINE, 0, 3.1, SS_EFFECT_MOMENT},
        {SS_MEMBER_LINE, 8, 9.6, SS_EFFECT_SHEAR},       {SS_MEMBER_LINE, 7, 6.2, SS_EFFECT_DEFLECTION},
        {SS_MEMBER_LINE, 1, 3.1, SS_EFFECT_TORSION},     {SS_MEMBER_JOINT, 0, 6.2, SS_EFFECT_SHEAR},
        {SS_MEMBER_BEARING, 0, 1.5, SS_EFFECT_REACTION}, {SS_MEMBER_BEARING, 1, 0.0, SS_EFFECT_REACTION},
    };
    for (int i = 0; i < EFFECTS; i++) {
        ss_error error;
        CHECK_OK(ss_mesh_effect(&m->mesh, list[i].member, list[i].index, list[i].at, false, list[i].kind,
                                &e[i], &error),
                 &error);
    }
}

typedef struct setting {
    made_bridge m;
    ss_crossing crossing;
    ss_envelope_options o;
    ss_effect effects[EFFECTS];
    ss_envelope e;
} setting;

static void begin(setting *s, bool contact, int lanes, ss_envelope_extent extent) {
    *s = (setting){.o = {.factors = {1.0, 1.0}, .live_factor = 1.0, .extent = extent}};
    three_cars(&s->m, contact);
    put_model(&s->m, &s->crossing, lanes);
}

static void solve(setting *s) {
    CHECK_OK(made_solve(&s->m), &s->m.error);
    choose(&s->m, s->effects);
    CHECK_OK(ss_envelope_compute(&s->m.permanent, &s->m.placements, s->effects, EFFECTS, &s->o, &s->e,
                                 &s->m.error),
             &s->m.error);
}

static void finish(setting *s) {
    ss_envelope_destroy(&s->e);
    made_free(&s->m);
}

static void live_of(const setting *s, const ss_load *load, double values[EFFECTS]) {
    ss_state state;
    ss_error error;
    CHECK_OK(ss_permanent_state(&s->m.permanent, true, s->o.factors, load, s->o.live_factor, &state, &error),
             &error);
    for (int i = 0; i < EFFECTS; i++) {
        values[i] = ss_state_effect(&s->m.mesh, &state, &s->effects[i]) - s->e.dead[i];
    }
    ss_state_destroy(&state);
}

/* Adverse sums: least, most. */
typedef struct sums {
    double of[2][EFFECTS];
} sums;

static void add_adverse(const setting *s, const ss_load *load, sums *out) {
    double values[EFFECTS];
    live_of(s, load, values);
    for (int i = 0; i < EFFECTS; i++) {
        out->of[0][i] += fmin(0.0, values[i]);
        out->of[1][i] += fmax(0.0, values[i]);
    }
}

/* The carriageway in small cells, each on where it is adverse. */
static void fill_area(const setting *s, sums *out) {
    const double left = s->m.bridge.roadway_left, wide = s->m.bridge.roadway_right - left;
    for (int i = 0; i < ALONG; i++) {
        for (int k = 0; k < ACROSS; k++) {
            ss_load load;
            ss_error error;
            CHECK_OK(ss_load_create(&s->m.mesh, &load, &error), &error);
            CHECK_OK(ss_load_area(&load, LENGTH * i / ALONG, LENGTH * (i + 1) / ALONG,
                                  left + wide * k / ACROSS, left + wide * (k + 1) / ACROSS, AREA, &error),
                     &error);
            add_adverse(s, &load, out);
            ss_load_destroy(&load);
        }
    }
}

static void fill_lane(const setting *s, int track, sums *out) {
    for (int k = 0; k < ALONG; k++) {
        const ss_lane_stretch piece = {0, LENGTH * k / ALONG, LENGTH * (k + 1) / ALONG};
        ss_load load;
        ss_error error;
        CHECK_OK(ss_load_create(&s->m.mesh, &load, &error), &error);
        CHECK_OK(ss_placements_load_lane(&s->m.placements, track, &piece, 1.0, &load, &error), &error);
        add_adverse(s, &load, out);
        ss_load_destroy(&load);
    }
}

static void note_truck(const setting *s, int track, double x, sums *out) {
    ss_load load;
    ss_error error;
    double values[EFFECTS];
    CHECK_OK(ss_placements_load(&s->m.mesh, &s->m.placements,
                                &(ss_position){.track = track, .x = x, .on_beam = false}, &load, &error),
             &error);
    live_of(s, &load, values);
    for (int i = 0; i < EFFECTS; i++) {
        out->of[0][i] = fmin(out->of[0][i], values[i]);
        out->of[1][i] = fmax(out->of[1][i], values[i]);
    }
    ss_load_destroy(&load);
}

/* One truck of a lane with what its lane carries above the rest: even steps, and axles on both sides of every
 * station. */
static void fill_truck(const setting *s, int track, sums *out) {
    sums truck = {0}, lane = {0};
    for (int k = 0; k < STEPS; k++) note_truck(s, track, 0.28 * k, &truck);
    for (int k = 0; k < 2 * s->m.mesh.station_count; k++) {
        const double x = s->m.mesh.station[k / 2] + (k % 2 == 0 ? 0.0 : 1.2);
        note_truck(s, track, x - 2e-9, &truck);
        note_truck(s, track, x + 2e-9, &truck);
    }
    if (s->m.placements.trains[s->m.placements.tracks[track].train].lane_N_m > 0.0) {
        fill_lane(s, track, &lane);
    }
    for (int i = 0; i < 2 * EFFECTS; i++) {
        out->of[i % 2][i / 2] = truck.of[i % 2][i / 2] + lane.of[i % 2][i / 2];
    }
}

typedef struct tables {
    int count;
    double y[TRACKS];
    sums truck[TRACKS];
} tables;

static void fill_tables(const setting *s, int first, int count, tables *t) {
    t->count = 0;
    for (int track = first; track < first + count; track++) {
        if (!s->m.placements.tracks[track].fine) {
            CU_ASSERT_FATAL(t->count < TRACKS);
            t->y[t->count] = s->m.placements.tracks[track].y;
            fill_truck(s, track, &t->truck[t->count++]);
        }
    }
}

static bool apart(double a, double b) {
    return fabs(a - b) >= 3.0 - 1e-9;
}

/* The worst of three trucks in any order, or of fewer. */
static double worst_of(const tables t[3], int effect, int side) {
    const double sign = side == 1 ? 1.0 : -1.0;
    double worst = 0.0;
    for (int a = 0; a < t[0].count; a++) {
        const double one = fmax(0.0, sign * t[0].truck[a].of[side][effect]);
        for (int b = 0; b < t[1].count; b++) {
            if (!apart(t[0].y[a], t[1].y[b])) {
                continue;
            }
            const double two = one + fmax(0.0, sign * t[1].truck[b].of[side][effect]);
            for (int c = 0; c < t[2].count; c++) {
                if (apart(t[0].y[a], t[2].y[c]) && apart(t[1].y[b], t[2].y[c])) {
                    worst = fmax(worst, two + fmax(0.0, sign * t[2].truck[c].of[side][effect]));
                }
            }
        }
    }
    return worst;
}

/*
 * With two-way bearings effects add up: the worst of all places of three trucks, of the pieces of the lane
 * and of the cells of the carriageway. What is found may be more than what was tried by what steps and cells
 * are coarse, and by what strips that are adverse in part give too much.
 */
static void test_three_lanes_two_way(void) {
    static tables t[3];
    setting s;
    sums area = {0};
    begin(&s, false, 3, SS_EXTENT_ALL);
    CU_ASSERT_EQUAL(s.m.bridge.notional_lanes.count, 3);
    solve(&s);
    const ss_traffic *const traffic = &s.m.placements.traffic[0];
    for (int i = 0; i < 3; i++) fill_tables(&s, traffic->lane_first[i], traffic->lane_count[i], &t[i]);
    fill_area(&s, &area);
    for (int i = 0; i < EFFECTS; i++) {
        const double scale = fmax(fabs(s.e.extremes[2 * i].value), fabs(s.e.extremes[2 * i + 1].value));
        for (int side = 0; side < 2; side++) {
            const double tried = worst_of(t, i, side) + fabs(area.of[side][i]);
            const double found = fabs(s.e.extremes[2 * i + side].value);
            CU_ASSERT(found >= tried - 1e-7 * scale);
            check_near("three lanes", tried, found, 0.015, scale);
        }
    }
    finish(&s);
}

static void test_lane_1_two_way(void) {
    static tables t;
    setting s;
    sums area = {0};
    begin(&s, false, 1, SS_EXTENT_ONE_TRUCK);
    solve(&s);
    fill_tables(&s, 0, s.m.placements.track_count, &t);
    fill_area(&s, &area);
    for (int i = 0; i < 2 * EFFECTS; i++) {
        const double found = fabs(s.e.extremes[i].value);
        const double scale =
            fmax(fabs(s.e.extremes[i / 2 * 2].value), fabs(s.e.extremes[i / 2 * 2 + 1].value));
        double truck = 0.0;
        for (int k = 0; k < t.count; k++) truck = fmax(truck, fabs(t.truck[k].of[i % 2][i / 2]));
        const double tried = truck + fabs(area.of[i % 2][i / 2]);
        CU_ASSERT(found >= tried - 1e-7 * scale);
        check_near("lane 1", tried, found, 0.015, scale);
    }
    finish(&s);
}

/* A deck that spans along brings loads to floor beams: where all of the carriageway is adverse, and where
 * only cells are. Tandems of next to nothing leave the load over the carriageway. */
static void test_deck_along(void) {
    setting s;
    sums area = {0};
    begin(&s, false, 1, SS_EXTENT_ONE_TRUCK);
    s.m.bridge.deck.along = true;
    s.m.bridge.vehicles[0].axle_N[0] = s.m.bridge.vehicles[0].axle_N[1] = 1e-3;
    s.m.bridge.vehicles[0].lane_N_m = 0.0;
    solve(&s);
    fill_area(&s, &area);
    for (int i = 0; i < 2 * EFFECTS; i++) {
        const double found = fabs(s.e.extremes[i].value), tried = fabs(area.of[i % 2][i / 2]);
        const double scale =
            fmax(fabs(s.e.extremes[i / 2 * 2].value), fabs(s.e.extremes[i / 2 * 2 + 1].value));
        CU_ASSERT(found >= tried - 2e-3 * scale);
        check_near("deck along", tried, found, 0.03, scale);
    }
    ss_load load;
    double values[EFFECTS];
    CHECK_OK(ss_load_create(&s.m.mesh, &load, &s.m.error), &s.m.error);
    CHECK_OK(
        ss_load_area(&load, 0.0, LENGTH, s.m.bridge.roadway_left, s.m.bridge.roadway_right, AREA, &s.m.error),
        &s.m.error);
    live_of(&s, &load, values);
    for (int i = 0; i < EFFECTS; i++) {
        const double both = s.e.extremes[2 * i].value + s.e.extremes[2 * i + 1].value;
        const double scale = fmax(fabs(s.e.extremes[2 * i].value), fabs(s.e.extremes[2 * i + 1].value));
        check_near("least and most together are all of it", both, values[i], 3e-3, scale);
    }
    ss_load_destroy(&load);
    finish(&s);
}

/* ---- bearings that lift -------------------------------------------------------------------------- */

static double next_random(unsigned *seed) {
    *seed = *seed * 1664525U + 1013904223U;
    return (double)(*seed >> 8) / 16777216.0;
}

/* Every load of the envelope gives what the envelope says, and none near it gives more than a little. */
static void try_near(const setting *s, int at, int tries, unsigned *seed, sums *worst) {
    static ss_area_stretch area[64 * SS_LANE_STRETCHES];
    const ss_extreme *const x = &s->e.extremes[at];
    for (int k = 0; k <= tries; k++) {
        ss_extreme_load all = *x->load;
        ss_extreme one = *x;
        ss_load load;
        ss_error error;
        double values[EFFECTS];
        CU_ASSERT_FATAL(all.area_count <= ENTRIES(area));
        for (int i = 0; i < all.area_count; i++) area[i] = all.area[i];
        all.area = area;
        one.load = &all;
        for (int i = 0; k > 0 && i <= k % 3; i++) {
            if (next_random(seed) < 0.5) {
                all.position[(int)(all.truck_count * next_random(seed))].x += 1.5 * (next_random(seed) - 0.5);
            } else if (all.area_count > 0) {
                ss_area_stretch *const piece = &area[(int)(all.area_count * next_random(seed))];
                double *const end = next_random(seed) < 0.5 ? &piece->from : &piece->to;
                *end = ss_clamp(*end + 3.0 * (next_random(seed) - 0.5), 0.0, LENGTH);
                piece->to = fmax(piece->to, piece->from);
            }
        }
        one.position = all.position[0];
        CHECK_OK(ss_extreme_load_make(&s->m.mesh, &s->m.placements, &one, &load, &error), &error);
        live_of(s, &load, values);
        if (k == 0) {
            check_near("by its own load", values[at / 2], x->value, 1e-7,
                       fmax(fabs(x->value), fabs(s->e.dead[at / 2])));
        }
        for (int i = 0; i < EFFECTS; i++) {
            worst->of[0][i] = fmin(worst->of[0][i], values[i]);
            worst->of[1][i] = fmax(worst->of[1][i], values[i]);
        }
        ss_load_destroy(&load);
    }
}

static void run_contact(int lanes, ss_envelope_extent extent, double share) {
    setting s;
    sums worst = {0};
    unsigned seed = 20250311U;
    begin(&s, true, lanes, extent);
    solve(&s);
    int loaded = 0;
    CU_ASSERT(s.e.contact_matters);
    for (int i = 0; i < 2 * EFFECTS; i++) {
        if (s.e.extremes[i].load != NULL) { /* NULL: uniform loads relieve wherever they are adverse */
            loaded++;
            try_near(&s, i, 120, &seed, &worst);
        }
    }
    CU_ASSERT(loaded >= 2 * EFFECTS - 3);
    for (int i = 0; i < 2 * EFFECTS; i++) {
        const double scale =
            fmax(fabs(s.e.extremes[i / 2 * 2].value), fabs(s.e.extremes[i / 2 * 2 + 1].value));
        CU_ASSERT(fabs(worst.of[i % 2][i / 2]) <= fabs(s.e.extremes[i].value) + share * scale);
    }
    finish(&s);
}

static void test_lane_1_contact(void) {
    run_contact(1, SS_EXTENT_ONE_TRUCK, 0.002);
}

static void test_three_lanes_contact(void) {
    run_contact(3, SS_EXTENT_ALL, 0.02);
}

int main(void) {
    static const test_case cases[] = {
        {"three lanes, two-way", test_three_lanes_two_way},
        {"lane 1, two-way", test_lane_1_two_way},
        {"deck along", test_deck_along},
        {"lane 1 with contact", test_lane_1_contact},
        {"three lanes with contact", test_three_lanes_contact},
    };
    return RUN_SUITE("area", cases);
}
