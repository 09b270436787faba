/* test_envelope.c - extremes of rolling trucks against published spans, and what must hold of them. */
#include <string.h>

#include "chosen_effects.h"
#include "response/contact_model.h"

static const ss_envelope_options plain = {.factors = {1.0, 1.0}, .live_factor = 1.0};

/* One line of a single-wheel truck on a simple span. */
static void make_simple_span(made_bridge *m, double length) {
    made_start(m, 0.7);
    const int section = hand_section(&m->bridge, 2e-3, 1e-4, 0.0, 0.0);
    hand_car(&m->bridge, "north", 0.0, length, -1.0, 1.0);
    const int line = hand_line(&m->bridge, SS_ROLE_MAIN, "line", 0.0, section);
    for (int i = 0; i < 2; i++) {
        ss_bearing *const b = hand_contact(&m->bridge, line, i * length);
        b->contact = false;
        b->pad_width = 0.4;
    }
    m->bridge.roadway_left = -0.5;
    m->bridge.roadway_right = 0.5;
    m->bridge.wheel_to_curb = 0.5;
    static const double axle[3] = {8.0 * KIP, 32.0 * KIP, 32.0 * KIP},
                        spacing[2] = {14.0 * FOOT, 14.0 * FOOT};
    made_vehicle(m, 3, axle, spacing, 0.0);
}

/* Largest moment at a section, and end shear. */
static double worst_moment(double length, double at, double *shear) {
    made_bridge m;
    make_simple_span(&m, length);
    m.bridge.station_spacing = 0.35;
    ss_probe probe = {
        .name = "worst", .member = SS_MEMBER_LINE, .index = 0, .at = at, .effect = SS_EFFECT_MOMENT};
    m.bridge.probes = &probe;
    m.bridge.probe_count = 1;
    CHECK_OK(made_solve(&m), &m.error);
    ss_effect effects[2];
    CU_ASSERT_EQUAL_FATAL(
        ss_mesh_effect(&m.mesh, SS_MEMBER_LINE, 0, at, false, SS_EFFECT_MOMENT, &effects[0], NULL), SS_OK);
    CU_ASSERT_EQUAL_FATAL(
        ss_mesh_effect(&m.mesh, SS_MEMBER_LINE, 0, 0.0, false, SS_EFFECT_SHEAR, &effects[1], NULL), SS_OK);
    ss_envelope e;
    CHECK_OK(ss_envelope_compute(&m.permanent, &m.placements, effects, 2, &plain, &e, &m.error), &m.error);
    const double moment = e.extremes[1].value;
    *shear = e.extremes[3].value;
    ss_envelope_destroy(&e);
    made_free(&m);
    return moment;
}

/* AASHTO Standard Specifications for Highway Bridges, appendix A (from memory), HS20-44 on one lane without
 * impact. The worst section of the moment is 28 in from midspan, where the middle axle stands. */
static void test_published_maxima(void) {
    static const struct {
        double span, moment, shear; /* ft, kip ft, kip */
    } table[] = {{40.0, 449.8, 55.2}, {60.0, 806.5, 60.8}, {70.0, 985.6, 62.4}};
    for (size_t i = 0; i < 3; i++) {
        double shear;
        const double moment =
            worst_moment(table[i].span * FOOT, (0.5 * table[i].span + 7.0 / 3.0) * FOOT, &shear);
        CU_ASSERT_DOUBLE_EQUAL(moment / KIP_FOOT, table[i].moment, 0.05001);
        CU_ASSERT_DOUBLE_EQUAL(shear / KIP, table[i].shear, 0.05001);
    }
}

/* Reactions of the contact springs (n) to a truck at a position with all of them closed, by Betti's theorem.
 */
static void closed_reactions(made_bridge *m, const ss_position *position, int n, double *r) {
    ss_load load = {0};
    CHECK_OK(ss_placements_load(&m->mesh, &m->placements, position, &load, &m->error), &m->error);
    for (int k = 0; k < n; k++) {
        r[k] = 0.0;
        for (int dof = 0; dof < m->mesh.order; dof++) {
            r[k] += load.nodal[dof] * m->permanent.contact_field[dof * n + k];
        }
    }
    ss_load_destroy(&load);
}

/* The extremes again from their closed parts, unit openings and the complementarity problem. */
static void test_parts_agree(void) {
    made_bridge m;
    made_two_cars(&m, true, 1.7);
    CHECK_OK(made_solve(&m), &m.error);
    ss_effect effects[EFFECTS];
    choose_effects(&m, effects);
    const ss_envelope_options o = {.factors = {1.25, 1.5}, .live_factor = 1.4};
    ss_envelope e;
    CHECK_OK(ss_envelope_compute(&m.permanent, &m.placements, effects, EFFECTS, &o, &e, &m.error), &m.error);
    ss_axle_plans plans;
    CHECK_OK(ss_axle_plans_build(&m.mesh, &m.placements, &plans, &m.error), &m.error);
    ss_contact_model model;
    CHECK_OK(ss_contact_model_create(&m.permanent, &o, true, &model, &m.error), &m.error);
    CHECK_OK(ss_contact_model_lines(&model, &plans, &m.error), &m.error);
    const int n = model.n;
    CU_ASSERT_EQUAL_FATAL(n, e.contact_count);
    double live[64], r0[64], r[64], u[64], unit[64];
    bool open[64] = {false};
    double *const work = ss_alloc(ss_contact_work(n), sizeof *work);
    int lifted = 0;
    for (int i = 0; i < EFFECTS; i++) {
        ss_contact_model_opening(&model, &effects[i], unit);
        for (int side = 0; side < 2; side++) {
            const ss_extreme *x = &e.extremes[2 * i + side];
            if (x->value == 0.0) {
                continue;
            }
            closed_reactions(&m, &x->position, n, live);
            for (int k = 0; k < n; k++) r0[k] = model.r_dead[k] + o.live_factor * live[k];
            CU_ASSERT_EQUAL(ss_contact_solve(n, model.S, r0, r, u, open, work), SS_OK);
            double total = ss_contact_model_dead(&model, &effects[i]) + o.live_factor * x->closed;
            for (int k = 0; k < n; k++) total += unit[k] * u[k];
            check_near("total", total, e.dead[i] + o.live_factor * x->value, 1e-8,
                       fmax(fabs(total), fabs(e.dead[i])));
            lifted += x->lifted;
        }
    }
    CU_ASSERT(lifted > 4);
    ss_free(work);
    ss_contact_model_destroy(&model);
    ss_axle_plans_destroy(&plans);
    ss_envelope_destroy(&e);
    made_free(&m);
}

/* ---- properties --------------------------------------------------------------------------------- */

static ss_envelope whole_envelope(made_bridge *m, const ss_envelope_options *o) {
    ss_envelope e;
    ss_effect *effects;
    int count;
    CHECK_OK(made_solve(m), &m->error);
    CHECK_OK(ss_envelope_effects(&m->mesh, &effects, &count, &m->error), &m->error);
    CHECK_OK(ss_envelope_compute(&m->permanent, &m->placements, effects, count, o, &e, &m->error), &m->error);
    ss_free(effects);
    return e;
}

/* The same truck with every axle heavier never gives less of anything, also where bearings lift: its dead
 * load is the same, and the openings grow with it. */
static void test_second_truck_is_proportional(void) {
    made_bridge m;
    made_two_cars(&m, false, 2.4);
    static const double axle[3] = {2.5 * 53.0e3, 2.5 * 81.0e3, 2.5 * 77.0e3}, spacing[2] = {3.61, 1.37};
    made_vehicle(&m, 3, axle, spacing, 1.83);
    ss_envelope e = whole_envelope(&m, &plain);
    CU_ASSERT_EQUAL_FATAL(e.traffic_count, 2);
    int wrong = 0;
    for (int i = 0; i < e.effect_count; i++) {
        for (int side = 0; side < 2; side++) {
            const ss_extreme *a = &e.extremes[4 * i + side], *b = &e.extremes[4 * i + 2 + side];
            wrong += fabs(b->value - 2.5 * a->value) >
                     1e-8 * fabs(b->value) + 2e-3 * (e.effects[i].kind != SS_EFFECT_DEFLECTION);
        }
    }
    CU_ASSERT_EQUAL(wrong, 0);
    ss_envelope_destroy(&e);
    made_free(&m);
}

/* A bridge that is its own mirror image in x has mirrored extremes, moments the same and shears with the
 * other sign. */
static void test_mirror(void) {
    made_bridge m;
    made_start(&m, 1.1);
    const int section = hand_section(&m.bridge, 1.1e-3, 2.0e-4, 0.008, 1500.0);
    const double L = 17.6;
    hand_car(&m.bridge, "north", 0.0, L, -1.3, 1.3);
    const int line = hand_line(&m.bridge, SS_ROLE_MAIN, "line", 0.0, section);
    static const double at[4] = {0.0, 3.1, 14.5, 17.6};
    for (int i = 0; i < 4; i++) {
        ss_bearing *const b = hand_contact(&m.bridge, line, at[i]);
        b->pad_width = i == 1 || i == 2 ? 0.5 : 0.0;
        b->gap = i == 0 || i == 3 ? 0.002 : 0.0;
    }
    m.bridge.self_weight = true;
    m.bridge.roadway_left = -1.2;
    m.bridge.roadway_right = 1.2;
    m.bridge.wheel_to_curb = 0.2;
    static const double axle[3] = {35.0e3, 142.0e3, 139.0e3}, spacing[2] = {4.27, 4.6};
    made_vehicle(&m, 3, axle, spacing, 1.83);
    ss_envelope e = whole_envelope(&m, &plain);
    CU_ASSERT(e.contact_matters);
    int pairs = 0;
    for (int i = 0; i < e.effect_count; i++) {
        for (int j = 0; j < e.effect_count; j++) {
            const ss_effect *a = &e.effects[i], *b = &e.effects[j];
            if (a->member != SS_MEMBER_LINE || b->member != SS_MEMBER_LINE || a->kind != b->kind ||
                (a->kind == SS_EFFECT_SHEAR && a->before == b->before) || fabs(a->at + b->at - L) > 1e-9) {
                continue;
            }
            const bool turns = a->kind == SS_EFFECT_SHEAR;
            if (a->kind == SS_EFFECT_MOMENT || turns || a->kind == SS_EFFECT_DEFLECTION) {
                for (int side = 0; side < 2; side++) {
                    const double one = e.extremes[2 * i + side].value;
                    const double other =
                        turns ? -e.extremes[2 * j + 1 - side].value : e.extremes[2 * j + side].value;
                    check_near(ss_effect_name(a->kind), one, other, 1e-7,
                               fmax(fabs(one), a->kind == SS_EFFECT_DEFLECTION ? 1e-9 : 1.0));
                }
                pairs++;
            }
        }
    }
    CU_ASSERT(pairs > 20);
    ss_envelope_destroy(&e);
    made_free(&m);
}

/* A light car on two bearings with an overhang: the truck tips it, and where is told. */
static void test_tips(void) {
    made_bridge m;
    made_start(&m, 1.3);
    const int section = hand_section(&m.bridge, 1.1e-3, 2.0e-4, 0.0, 900.0);
    hand_car(&m.bridge, "north", 0.0, 13.0, -1.3, 1.3);
    const int line = hand_line(&m.bridge, SS_ROLE_MAIN, "line", 0.0, section);
    hand_contact(&m.bridge, line, 0.0)->pad_width = 0.5;
    hand_contact(&m.bridge, line, 9.0)->pad_width = 0.5;
    m.bridge.self_weight = true;
    m.bridge.roadway_left = -1.2;
    m.bridge.roadway_right = 1.2;
    static const double axle[2] = {61.0e3, 90.0e3}, spacing[1] = {2.9};
    made_vehicle(&m, 2, axle, spacing, 0.0);
    ss_envelope e = whole_envelope(&m, &plain);
    CU_ASSERT(e.tips && e.contact_matters);
    ss_load load;
    ss_state state;
    CHECK_OK(ss_placements_load(&m.mesh, &m.placements, &e.tip, &load, &m.error), &m.error);
    CU_ASSERT_EQUAL(ss_permanent_state(&m.permanent, true, plain.factors, &load, 1.0, &state, &m.error),
                    SS_ERROR_TIPPING);
    ss_load_destroy(&load);
    ss_envelope_destroy(&e);
    made_free(&m);
}

/* Shares add up to one, lines to their cars, and the loaded car carries most. */
static void test_shares(void) {
    made_bridge m;
    made_two_cars(&m, true, 2.4);
    ss_envelope e = whole_envelope(&m, &plain);
    ss_share_list list;
    CHECK_OK(ss_share_compute(&m.permanent, &m.placements, &e, &list, &m.error), &m.error);
    CU_ASSERT_EQUAL_FATAL(list.count, 2);
    for (int i = 0; i < list.count; i++) {
        const ss_share *s = &list.items[i];
        double lines = 0.0;
        for (int k = 0; k < m.bridge.line_count; k++) lines += s->line[k];
        check_near("lines", lines, 1.0, 1e-9, 1.0);
        check_near("cars", s->per_car[0] + s->per_car[1], 1.0, 1e-9, 1.0);
        CU_ASSERT(s->per_car[s->car] > 0.5 && s->total > 0.0);
    }
    ss_share_destroy(&list);
    ss_envelope_destroy(&e);
    made_free(&m);
}

/* The same bytes whatever the order of the tiles; and effects asked for alone are those of the whole list. */
static void test_alone_as_in_company(void) {
    made_bridge m;
    made_two_cars(&m, true, 2.4);
    ss_envelope e = whole_envelope(&m, &plain), alone;
    for (int i = 5; i < e.effect_count; i += 97) {
        CHECK_OK(ss_envelope_compute(&m.permanent, &m.placements, &e.effects[i], 1, &plain, &alone, &m.error),
                 &m.error);
        for (int side = 0; side < 2; side++) {
            const double a = alone.extremes[side].value, b = e.extremes[2 * i + side].value;
            check_near("value", a, b, 1e-9, b);
        }
        ss_envelope_destroy(&alone);
    }
    ss_envelope_destroy(&e);
    made_free(&m);
}

/* ---- placements --------------------------------------------------------------------------------- */

static int tracks_for(double left, double right, double curb, double *y) {
    made_bridge m;
    made_two_cars(&m, true, 4.0);
    m.bridge.roadway_left = left;
    m.bridge.roadway_right = right;
    m.bridge.wheel_to_curb = curb;
    CHECK_OK(made_solve(&m), &m.error);
    const int count = m.placements.track_count;
    *y = count > 0 ? m.placements.tracks[0].y : 0.0;
    made_free(&m);
    return count;
}

static void test_room(void) {
    double y;
    CU_ASSERT_EQUAL(tracks_for(1.0, 2.7, 0.61, &y), 0);
    CU_ASSERT_EQUAL(tracks_for(1.0, 3.2, 0.61, &y), 2); /* both directions, in the middle */
    CU_ASSERT_DOUBLE_EQUAL(y, 2.1, 1e-12);
    CU_ASSERT(tracks_for(0.33, 5.52, 0.61, &y) > 20);
    CU_ASSERT_DOUBLE_EQUAL(y, 0.33 + 0.61 + 0.915, 1e-12);
}

static void test_memory(void) {
    made_bridge m;
    made_two_cars(&m, true, 4.0);
    m.bridge.roadway_right = 3.0;
    CHECK_OK(made_solve(&m), &m.error);
    ss_effect effects[EFFECTS];
    choose_effects(&m, effects);
    const long live = ss_memory_live();
    int failures = 0;
    for (long n = 0;; n += 1 + n / 5) {
        ss_envelope e = {0};
        ss_memory_fail_from(n);
        const ss_status status =
            ss_envelope_compute(&m.permanent, &m.placements, effects, EFFECTS, &plain, &e, &m.error);
        ss_memory_fail_from(-1);
        if (status == SS_OK) {
            ss_envelope_destroy(&e);
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
        {"published maxima", test_published_maxima},
        {"parts agree", test_parts_agree},
        {"proportional truck", test_second_truck_is_proportional},
        {"mirror", test_mirror},
        {"tips", test_tips},
        {"shares", test_shares},
        {"alone as in company", test_alone_as_in_company},
        {"room", test_room},
        {"memory", test_memory},
    };
    return RUN_SUITE("envelope", cases);
}
