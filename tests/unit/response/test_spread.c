/* test_spread.c - trucks whose axles may come apart: the worst distance against closed forms and against
 * trying very many of them. */
#include "chosen_effects.h"

/* The rear axles of an HS20 truck stand 14 to 30 ft apart (AASHTO Standard Specifications 3.7.6, from
 * memory). */
static void put_truck(made_bridge *m) {
    static const double axle[3] = {8.0 * KIP, 32.0 * KIP, 32.0 * KIP},
                        spacing[2] = {14.0 * FOOT, 14.0 * FOOT};
    ss_vehicle *const v = &m->bridge.vehicles[made_vehicle(m, 3, axle, spacing, 1.83)];
    v->spacing_most_m[1] = 30.0 * FOOT;
}

/* ---- two spans, by hand -------------------------------------------------------------------------- */

static void spans(made_bridge *m, int count, double length) {
    made_start(m, 0.7);
    ss_bridge *const b = &m->bridge;
    hand_car(b, "beam", 0.0, count * length, -2.0, 2.0);
    hand_line(b, SS_ROLE_MAIN, "beam", 0.0, hand_section(b, 2.0e-3, 1.0e-3, 0.0, 0.0));
    for (int i = 0; i <= count; i++) hand_pad(b, 0, i * length, 1.0);
    b->roadway_left = -1.5;
    b->roadway_right = 1.5;
    b->wheel_to_curb = 0.5;
}

static ss_effect at_line(const made_bridge *m, double x, bool before, ss_effect_kind kind) {
    ss_effect e;
    ss_error error;
    CHECK_OK(ss_mesh_effect(&m->mesh, SS_MEMBER_LINE, 0, x, before, kind, &e, &error), &error);
    return e;
}

/*
 * Over the pier of two equal spans a unit load at a from the outer support gives a (L^2 - a^2) / (4 L^2)
 * (equation of three moments), most at L / sqrt 3. The rear axle stands there in one span; in the other the
 * second axle stands at u with the front axle 14 ft nearer to the support, and 32 (L^2 - 3 u^2) + 8 (L^2 - 3
 * (u - 14)^2) = 0.
 */
static void run_two_spans(double lane_kip_ft, ss_envelope_extent extent) {
    const double L = 30.0, a = L / sqrt(3.0);
    const double u =
        (48.0 * 14.0 + sqrt(pow(48.0 * 14.0, 2.0) + 480.0 * (40.0 * L * L - 24.0 * 14.0 * 14.0))) / 240.0;
    const double apart = (L - u) + (L - a);
    const double moment = 32.0 * a * (L * L - a * a) / (4.0 * L * L) +
                          32.0 * u * (L * L - u * u) / (4.0 * L * L) +
                          8.0 * (u - 14.0) * (L * L - pow(u - 14.0, 2.0)) / (4.0 * L * L);
    const double lane = extent == SS_EXTENT_AXLES ? 0.0 : lane_kip_ft * L * L / 8.0;
    made_bridge m;
    spans(&m, 2, L * FOOT);
    put_truck(&m);
    m.bridge.vehicles[0].lane_N_m = lane_kip_ft * KIP / FOOT;
    CHECK_OK(made_solve(&m), &m.error);
    const ss_effect e = at_line(&m, L * FOOT, true, SS_EFFECT_MOMENT);
    const ss_envelope_options o = {.factors = {1.0, 1.0}, .live_factor = 1.0, .extent = extent};
    ss_envelope found;
    CHECK_OK(ss_envelope_compute(&m.permanent, &m.placements, &e, 1, &o, &found, &m.error), &m.error);
    CU_ASSERT(apart > 14.0 && apart < 30.0 && fabs(apart - 22.0) > 1.0 && fabs(apart - 26.0) > 1.0);
    check_relative("over the pier", found.extremes[0].value, -(moment + lane) * KIP * FOOT,
                   lane > 0.0 ? 2e-7 : 1e-9);
    CU_ASSERT_PTR_NOT_NULL_FATAL(found.extremes[0].position.train);
    check_relative("rear axles apart", found.extremes[0].position.train->spacing_m[1], apart * FOOT, 1e-6);
    check_relative("the others stay", found.extremes[0].position.train->spacing_m[0], 14.0 * FOOT, 1e-12);
    CU_ASSERT_PTR_EQUAL(ss_position_train(&m.placements, &found.extremes[0].position),
                        found.extremes[0].position.train);
    ss_envelope_destroy(&found);
    made_free(&m);
}

static void test_two_spans(void) {
    run_two_spans(0.0, SS_EXTENT_ALL);
}

/* With a lane load, w L^2/8 on both spans. */
static void test_two_spans_lane(void) {
    run_two_spans(0.64, SS_EXTENT_ALL);
    run_two_spans(0.64, SS_EXTENT_AXLES); /* the lane load is left out, distances are not */
}

/* ---- by trying ----------------------------------------------------------------------------------- */

enum { ALONG = 150, APART = 40 };

typedef struct worst {
    double value[2];
    double at_step[2]; /* of distances that are steps */
} worst;

static double value_of(const made_bridge *m, const ss_envelope *e, int effect, const ss_position *p) {
    ss_load load;
    ss_state state;
    ss_error error;
    CHECK_OK(ss_placements_load(&m->mesh, &m->placements, p, &load, &error), &error);
    CHECK_OK(ss_permanent_state(&m->permanent, true, (ss_dead_factors){1.0, 1.0}, &load, 1.0, &state, &error),
             &error);
    const double value = ss_state_effect(&m->mesh, &state, &e->effects[effect]) - e->dead[effect];
    ss_state_destroy(&state);
    ss_load_destroy(&load);
    return value;
}

/* Every distance at every place of the tracks `from`, `from` + `every`, ... of the vehicle's first train. */
static void try_all(const made_bridge *m, const ss_envelope *e, int every, worst *out) {
    const ss_vehicle *const v = &m->bridge.vehicles[m->bridge.vehicle_count - 1];
    const double length = m->bridge.x1 - m->bridge.x0;
    for (int i = 0; i < e->effect_count; i++) out[i] = (worst){{0.0, 0.0}, {0.0, 0.0}};
    for (int t = 0; t < m->placements.track_count; t += every) {
        const ss_track *const track = &m->placements.tracks[t];
        ss_vehicle train = *v;
        if (track->train != 0 || track->fine) {
            continue;
        }
        for (int k = 0; k <= APART; k++) {
            train.spacing_m[1] = v->spacing_m[1] + (v->spacing_most_m[1] - v->spacing_m[1]) * k / APART;
            const double whole = train.spacing_m[0] + train.spacing_m[1];
            for (int j = 0; j <= ALONG; j++) {
                const double x =
                    m->bridge.x0 - (track->backward ? whole : 0.0) + (length + whole) * j / ALONG;
                const ss_position p = {.track = t, .x = x, .train = &train};
                ss_load load;
                ss_state state;
                ss_error error;
                CHECK_OK(ss_placements_load(&m->mesh, &m->placements, &p, &load, &error), &error);
                CHECK_OK(ss_permanent_state(&m->permanent, true, (ss_dead_factors){1.0, 1.0}, &load, 1.0,
                                            &state, &error),
                         &error);
                for (int i = 0; i < e->effect_count; i++) {
                    const double value = ss_state_effect(&m->mesh, &state, &e->effects[i]) - e->dead[i];
                    out[i].value[0] = fmin(out[i].value[0], value);
                    out[i].value[1] = fmax(out[i].value[1], value);
                }
                ss_state_destroy(&state);
                ss_load_destroy(&load);
            }
        }
    }
}

/* Nothing that is tried is worse, and steps alone would not have been enough for some effect. */
static void compare(const made_bridge *m, const ss_envelope *e, int every, double share, int least_between) {
    static worst tried[16];
    int between = 0;
    CU_ASSERT_FATAL(e->effect_count <= ENTRIES(tried));
    try_all(m, e, every, tried);
    for (int i = 0; i < 2 * e->effect_count; i++) {
        const ss_extreme *const x = &e->extremes[i];
        const double scale = fmax(fabs(e->extremes[i / 2 * 2].value), fabs(e->extremes[i / 2 * 2 + 1].value));
        if (scale == 0.0) {
            continue; /* the moment at the end of a beam */
        }
        const double beyond = fabs(tried[i / 2].value[i % 2]) - fabs(x->value);
        if (beyond > share * scale) {
            printf("\n  effect %d side %d: tried %g, found %g", i / 2, i % 2, tried[i / 2].value[i % 2],
                   x->value);
        }
        CU_ASSERT(beyond <= share * scale);
        if (x->position.train != NULL) {
            between++;
            check_near("by its own axles", value_of(m, e, i / 2, &x->position), x->value, 1e-7,
                       fmax(fabs(x->value), fabs(e->dead[i / 2])));
            CU_ASSERT(x->position.train->spacing_m[1] >= 14.0 * FOOT &&
                      x->position.train->spacing_m[1] <= 30.0 * FOOT);
        }
    }
    CU_ASSERT(between >= least_between);
}

static void run_spans(int count, double length, int least_between) {
    made_bridge m;
    ss_envelope e;
    ss_effect effects[6];
    const ss_envelope_options o = {.factors = {1.0, 1.0}, .live_factor = 1.0};
    spans(&m, count, length);
    put_truck(&m);
    for (int i = 3; i < 10; i++) hand_probe(&m.bridge, 0, 0.1 * i * length);
    CHECK_OK(made_solve(&m), &m.error);
    effects[0] = at_line(&m, 0.5 * length, false, SS_EFFECT_MOMENT);
    effects[1] = at_line(&m, 0.3 * length, true, SS_EFFECT_SHEAR);
    effects[2] = at_line(&m, length, true, SS_EFFECT_MOMENT);
    effects[3] = at_line(&m, length, true, SS_EFFECT_SHEAR);
    effects[4] = at_line(&m, 0.4 * length, false, SS_EFFECT_DEFLECTION);
    CHECK_OK(
        ss_mesh_effect(&m.mesh, SS_MEMBER_BEARING, 0, 0.0, false, SS_EFFECT_REACTION, &effects[5], &m.error),
        &m.error);
    CHECK_OK(ss_envelope_compute(&m.permanent, &m.placements, effects, 6, &o, &e, &m.error), &m.error);
    compare(&m, &e, 1000000, 1e-9, least_between);
    ss_envelope_destroy(&e);
    made_free(&m);
}

static void test_one_span_tried(void) {
    run_spans(1, 13.0, 0);
}

static void test_two_spans_tried(void) {
    run_spans(2, 9.5, 1);
}

static void test_three_spans_tried(void) {
    run_spans(3, 7.1, 2);
}

/* Two cars with a joint, and bearings that lift: every kind of effect. */
static void run_cars(bool contact, double share, int least_between) {
    made_bridge m;
    ss_envelope e;
    ss_effect effects[EFFECTS];
    const ss_envelope_options o = {.factors = {1.0, 1.0}, .live_factor = 1.0};
    made_two_cars(&m, contact, 1.9);
    m.bridge.vehicle_count = m.bridge.rated_vehicle_count = 0;
    put_truck(&m);
    m.bridge.vehicles[0].spacing_m[0] = 3.1;
    CHECK_OK(made_solve(&m), &m.error);
    choose_effects(&m, effects);
    CHECK_OK(ss_envelope_compute(&m.permanent, &m.placements, effects, EFFECTS, &o, &e, &m.error), &m.error);
    compare(&m, &e, 5, share, least_between);
    ss_envelope_destroy(&e);
    made_free(&m);
}

static void test_cars_two_way(void) {
    run_cars(false, 1e-9, 3);
}

static void test_cars_contact(void) {
    run_cars(true, 0.003, 3);
}

int main(void) {
    static const test_case cases[] = {
        {"two spans by hand", test_two_spans},
        {"two spans with a lane load by hand", test_two_spans_lane},
        {"one span, tried", test_one_span_tried},
        {"two spans, tried", test_two_spans_tried},
        {"three spans, tried", test_three_spans_tried},
        {"two cars, two-way", test_cars_two_way},
        {"two cars with contact", test_cars_contact},
    };
    return RUN_SUITE("spread", cases);
}
