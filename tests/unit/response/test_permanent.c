/* test_permanent.c - stages, seats, gaps, settlements and lift-off against beams that are solved by hand. */
#include <string.h>

#include "support/make_bridge.h"
#include "support/suite.h"

static const ss_dead_factors ones = {1.0, 1.0};

/* One line of constant section from 0 to `length`; returns EI. */
static double start_beam(made_bridge *m, double length, double weight) {
    made_start(m, 0.9);
    const int section = hand_section(&m->bridge, 1.7e-3, 2.2e-4, 0.0, weight);
    hand_car(&m->bridge, "north", 0.0, length, -1.2, 1.2);
    hand_line(&m->bridge, SS_ROLE_MAIN, "line", 0.0, section);
    m->bridge.self_weight = weight > 0.0;
    m->bridge.roadway_left = -1.0;
    m->bridge.roadway_right = 1.0;
    return m->bridge.steels[0].E * 1.7e-3;
}

static ss_bearing *two_way(made_bridge *m, double x) {
    ss_bearing *const b = hand_contact(&m->bridge, 0, x);
    b->contact = false;
    b->pad_width = 0.5;
    return b;
}

static double bearing_force(const made_bridge *m, const ss_state *state, int bearing) {
    double sum = 0.0;
    for (int i = 0; i < m->mesh.spring_count; i++) {
        const ss_spring *s = &m->mesh.spring[i];
        sum += s->owner == SS_MEMBER_BEARING && s->index == bearing && s->kind == SS_SPRING_VERTICAL
                   ? state->force[i]
                   : 0.0;
    }
    return sum;
}

static double moment_at(const made_bridge *m, const ss_state *state, int line, double x) {
    ss_effect e;
    ss_error error;
    CHECK_OK(ss_mesh_effect(&m->mesh, SS_MEMBER_LINE, line, x, true, SS_EFFECT_MOMENT, &e, &error), &error);
    return ss_state_effect(&m->mesh, state, &e);
}

/* The state under one force, without dead load. */
static void under_force(made_bridge *m, double x, double P, bool dead, ss_state *state) {
    ss_load load;
    CHECK_OK(ss_load_create(&m->mesh, &load, &m->error), &m->error);
    CHECK_OK(ss_load_force_on_line(&load, 0, x, P, &m->error), &m->error);
    CHECK_OK(ss_permanent_state(&m->permanent, dead, ones, &load, 1.0, state, &m->error), &m->error);
    ss_load_destroy(&load);
}

/* A car of 86 ft on bearings at 0, 10, 76 and 86 ft with one kip at midspan. With d = 10 ft and L = 66 ft the
 * outer reactions of four two-way bearings follow from the three-moment equation: support moments M = -(3 P L
 * / 8) / (3 L + 2 d) L, reactions M / d. */
static void test_overhanging_car(void) {
    for (int contact = 0; contact < 2; contact++) {
        made_bridge m;
        start_beam(&m, 86.0 * FOOT, 0.0);
        ss_probe probe = {.name = "midspan", .member = SS_MEMBER_LINE, .index = 0, .at = 43.0 * FOOT};
        m.bridge.probes = &probe;
        m.bridge.probe_count = 1;
        for (int i = 0; i < 4; i++) {
            static const double at[4] = {0.0, 10.0, 76.0, 86.0};
            ss_bearing *const b = hand_contact(&m.bridge, 0, at[i] * FOOT);
            b->contact = contact == 1;
            b->pad_width = i == 1 || i == 2 ? 0.4 : 0.0;
        }
        CHECK_OK(made_solve(&m), &m.error);
        ss_state state;
        under_force(&m, 43.0 * FOOT, KIP, false, &state);
        const double support = -(3.0 / 8.0) * 66.0 * 66.0 / (3.0 * 66.0 + 2.0 * 10.0); /* kip ft */
        const double end = contact ? 0.0 : support / 10.0, middle = contact ? 16.5 : 16.5 + support;
        check_near("end reaction", bearing_force(&m, &state, 0) / KIP, end, 1e-9, 1.0);
        check_near("wheel truck reaction", bearing_force(&m, &state, 1) / KIP, 0.5 - end, 1e-9, 1.0);
        check_near("midspan moment", moment_at(&m, &state, 0, 43.0 * FOOT) / KIP_FOOT, middle, 1e-9, 16.5);
        CU_ASSERT_EQUAL(state.open_count, contact ? 2 : 0);
        if (!contact) {
            check_near("end reaction as calculated for the trade", bearing_force(&m, &state, 0) / KIP, -0.749,
                       5e-4, 1.0);
            check_near("moment as calculated for the trade", moment_at(&m, &state, 0, 43.0 * FOOT) / KIP_FOOT,
                       9.01, 5e-3, 1.0);
        }
        ss_state_destroy(&state);
        made_free(&m);
    }
}

/* A prop under the middle with a gap g: without dead load it carries (PL^3/48EI - g) 48EI/L^3 once that is
 * positive. */
static void test_gap_closes(void) {
    const double L = 13.7, g = 0.0031;
    made_bridge m;
    const double EI = start_beam(&m, L, 0.0);
    two_way(&m, 0.0);
    two_way(&m, L);
    hand_contact(&m.bridge, 0, L / 2.0)->gap = g;
    CHECK_OK(made_solve(&m), &m.error);
    const double stiffness = 48.0 * EI / (L * L * L);
    static const double loads[2] = {1.31e4, 7.9e4};
    for (int i = 0; i < 2; i++) {
        ss_state state;
        under_force(&m, L / 2.0, loads[i], false, &state);
        const double expected = fmax(0.0, loads[i] - g * stiffness);
        check_near("prop", bearing_force(&m, &state, 2), expected, 1e-9, loads[i]);
        CU_ASSERT_EQUAL(state.open_count, expected > 0.0 ? 0 : 1);
        ss_state_destroy(&state);
    }
    made_free(&m);
}

/* The gap is what is left under the present dead load, so factored dead load closes it: 5wL^4/384EI grows by
 * a quarter, and the gap does not. */
static void test_gap_under_dead_load(void) {
    const double L = 15.3, w = 4100.0;
    made_bridge m;
    const double EI = start_beam(&m, L, w);
    const double sag = 5.0 * w * pow(L, 4.0) / (384.0 * EI), gap = 0.1 * sag;
    two_way(&m, 0.0);
    two_way(&m, L);
    hand_contact(&m.bridge, 0, L / 2.0)->gap = gap;
    CHECK_OK(made_solve(&m), &m.error);
    check_near("present", bearing_force(&m, &m.permanent.present, 2), 0.0, 1e-9, w * L);
    CU_ASSERT_EQUAL(m.permanent.present.open_count, 1);
    check_near("present moment", moment_at(&m, &m.permanent.present, 0, L / 2.0), w * L * L / 8.0, 1e-9,
               w * L * L / 8.0);
    ss_state state;
    CHECK_OK(
        ss_permanent_state(&m.permanent, true, (ss_dead_factors){1.25, 1.5}, NULL, 0.0, &state, &m.error),
        &m.error);
    const double expected = (0.25 * sag - gap) * 48.0 * EI / (L * L * L);
    check_near("factored", bearing_force(&m, &state, 2), expected, 1e-8, w * L);
    ss_state_destroy(&state);
    made_free(&m);
}

/* A bearing placed later touches and carries nothing of the present load, whatever it weighs. */
static void test_later_bearing(void) {
    const double L = 14.2, w = 3300.0;
    made_bridge m;
    const double EI = start_beam(&m, L, w);
    two_way(&m, 0.0);
    two_way(&m, L);
    hand_contact(&m.bridge, 0, L / 2.0)->after = true;
    CHECK_OK(made_solve(&m), &m.error);
    check_near("present", bearing_force(&m, &m.permanent.present, 2), 0.0, 1e-9, w * L);
    CU_ASSERT_EQUAL(m.permanent.present.open_count, 0);
    ss_state state;
    under_force(&m, L / 2.0, 2.7e4, true, &state);
    check_near("under load", bearing_force(&m, &state, 2), 2.7e4, 1e-9, 2.7e4);
    check_near("moment", moment_at(&m, &state, 0, L / 2.0), w * L * L / 8.0, 1e-9, w * L * L / 8.0);
    ss_state_destroy(&state);
    made_free(&m);
    (void)EI;
}

/* Two equal spans; the middle bearing settles by d: its reaction falls by 48EI d / L^3 and the moment there
 * rises by 12EI d / L^2 (L both spans). */
static void test_settlement(void) {
    const double L = 16.4, w = 5200.0, d = 0.0042;
    made_bridge m;
    const double EI = start_beam(&m, L, w);
    two_way(&m, 0.0);
    two_way(&m, L);
    two_way(&m, L / 2.0)->settlement = d;
    CHECK_OK(made_solve(&m), &m.error);
    const double reaction = 0.625 * w * L - 48.0 * EI * d / (L * L * L);
    const double moment = -w * L * L / 32.0 + 12.0 * EI * d / (L * L);
    check_near("reaction", bearing_force(&m, &m.permanent.present, 2), reaction, 1e-8, w * L);
    check_near("moment", moment_at(&m, &m.permanent.present, 0, L / 2.0), moment, 1e-8, w * L * L / 8.0);
    made_free(&m);
}

/* Two cars of unlike stiffness side by side, each a line on pads. */
static void make_pair(made_bridge *m, bool cars_first) {
    const double L = 12.8;
    made_start(m, 0.8);
    static const double I[2] = {0.9e-3, 2.3e-3};
    for (int car = 0; car < 2; car++) {
        const int section = hand_section(&m->bridge, I[car], 3.1e-4, 0.0, 2900.0);
        hand_car(&m->bridge, car == 0 ? "north" : "south", 0.0, L, 2.6 * car, 2.6 * car + 2.5);
        const int line = hand_line(&m->bridge, SS_ROLE_MAIN, "line", 2.6 * car + 1.25, section);
        for (int end = 0; end < 2; end++) {
            ss_bearing *const b = hand_contact(&m->bridge, line, end * L);
            b->pad_width = 0.6;
            b->contact = false;
        }
    }
    hand_joint(&m->bridge, SS_JOINT_HINGED, 0, 0.0, L);
    m->bridge.self_weight = true;
    m->bridge.cars_first = cars_first;
    m->bridge.roadway_left = 0.3;
    m->bridge.roadway_right = 4.8;
}

static double largest_joint_force(const made_bridge *m, const ss_state *state) {
    double most = 0.0;
    for (int i = 0; i < m->mesh.spring_count; i++) {
        most = m->mesh.spring[i].owner == SS_MEMBER_JOINT ? fmax(most, fabs(state->force[i])) : most;
    }
    return most;
}

/* Joined after each car hangs in its own shape, the joint carries nothing of the cars' weight, factored or
 * not; joined before, it does. */
static void test_joint_locks_in(void) {
    const double L = 12.8, whole = 2900.0 * L;
    for (int first = 0; first < 2; first++) {
        made_bridge m;
        make_pair(&m, first == 1);
        CHECK_OK(made_solve(&m), &m.error);
        ss_state factored;
        CHECK_OK(ss_permanent_state(&m.permanent, true, (ss_dead_factors){1.25, 1.5}, NULL, 0.0, &factored,
                                    &m.error),
                 &m.error);
        if (first) {
            check_near("locked", largest_joint_force(&m, &m.permanent.present), 0.0, 1e-8, whole);
            check_near("locked, factored", largest_joint_force(&m, &factored), 0.0, 1e-8, whole);
            check_near("moment", moment_at(&m, &m.permanent.present, 0, L / 2.0), whole * L / 8.0, 1e-8,
                       whole * L / 8.0);
            check_near("alone", moment_at(&m, &m.permanent.cars_alone, 1, L / 2.0), whole * L / 8.0, 1e-8,
                       whole * L / 8.0);
        } else {
            CU_ASSERT(largest_joint_force(&m, &m.permanent.present) > 1e-3 * whole);
            CU_ASSERT_PTR_NULL(m.permanent.cars_alone.u);
        }
        ss_state_destroy(&factored);
        made_free(&m);
    }
}

/* A load beyond the last bearing tips a car that has no weight; with enough weight it does not. */
static void test_tipping(void) {
    for (int heavy = 0; heavy < 2; heavy++) {
        made_bridge m;
        start_beam(&m, 11.0, 3000.0);
        hand_contact(&m.bridge, 0, 0.0)->pad_width = 0.5;
        hand_contact(&m.bridge, 0, 8.0)->pad_width = 0.5;
        CHECK_OK(made_solve(&m), &m.error);
        ss_load load;
        ss_state state = {0};
        ss_error error = {0};
        CHECK_OK(ss_load_create(&m.mesh, &load, &m.error), &m.error);
        CHECK_OK(ss_load_force_on_line(&load, 0, 11.0, 2.2e4, &m.error), &m.error);
        const ss_status status =
            ss_permanent_state(&m.permanent, heavy == 1, ones, &load, 1.0, &state, &error);
        if (heavy) {
            /* 33 kN at 5.5 m against 22 kN at 11 m about the bearing at 8 m */
            CU_ASSERT_EQUAL(status, SS_OK);
            check_near("far bearing", bearing_force(&m, &state, 0), (3.3e4 * 2.5 - 2.2e4 * 3.0) / 8.0, 1e-8,
                       3.3e4);
        } else {
            CU_ASSERT_EQUAL(status, SS_ERROR_TIPPING);
            CU_ASSERT_PTR_NOT_NULL(strstr(error.message, "car \"north\""));
            CU_ASSERT_PTR_NOT_NULL(strstr(error.message, "tips"));
        }
        ss_state_destroy(&state);
        ss_load_destroy(&load);
        made_free(&m);
    }
}

/* Bearings placed later cannot be all there is. */
static void test_only_later_bearings(void) {
    made_bridge m;
    start_beam(&m, 9.0, 2000.0);
    two_way(&m, 0.0)->after = true;
    two_way(&m, 9.0)->after = true;
    CU_ASSERT_EQUAL(made_solve(&m), SS_ERROR_MECHANISM);
    CU_ASSERT_PTR_NOT_NULL(
        strstr(m.error.message, "without the bearings that have a gap or were placed later"));
    made_free(&m);
}

/* Every allocation of the permanent state may fail; nothing is left behind. */
static void test_memory(void) {
    made_bridge m;
    made_two_cars(&m, true, 2.5);
    CHECK_OK(made_solve(&m), &m.error);
    ss_permanent_destroy(&m.permanent);
    const long live = ss_memory_live();
    int failures = 0;
    for (long n = 0;; n += 1 + n / 7) {
        ss_permanent p = {0};
        ss_memory_fail_from(n);
        const ss_status status = ss_permanent_compute(&m.bridge, m.grillage, &p, &m.error);
        ss_memory_fail_from(-1);
        if (status == SS_OK) {
            ss_permanent_destroy(&p);
            break;
        }
        failures++;
        CU_ASSERT_EQUAL(status, SS_ERROR_MEMORY);
        CU_ASSERT_EQUAL(ss_memory_live(), live);
    }
    CU_ASSERT(failures > 10);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
    made_free(&m);
}

int main(void) {
    static const test_case cases[] = {
        {"overhanging car", test_overhanging_car},
        {"gap closes", test_gap_closes},
        {"gap under dead load", test_gap_under_dead_load},
        {"later bearing", test_later_bearing},
        {"settlement", test_settlement},
        {"joint locks in", test_joint_locks_in},
        {"tipping", test_tipping},
        {"only later bearings", test_only_later_bearings},
        {"memory", test_memory},
    };
    return RUN_SUITE("permanent", cases);
}
