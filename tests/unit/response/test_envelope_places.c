/* test_envelope_places.c - governing positions where members end, wheels on lines and beside floor beams: the
 * envelope checks itself against direct solutions there, and bearings that only push never pull. */
#include <string.h>

#include "sillspan/memory.h"
#include "support/make_bridge.h"
#include "support/suite.h"

static const ss_envelope_options plain = {.factors = {1.0, 1.0}, .live_factor = 1.0};

/* The envelope of some effects, or of all; SS_ERROR_CHECK where a governing position and its direct solution
 * differ. The caller destroys *out. */
static void envelope_of(made_bridge *m, const ss_effect *some, int count, ss_envelope *out) {
    ss_effect *all = NULL;
    if (some == NULL) {
        CHECK_OK(ss_envelope_effects(&m->mesh, &all, &count, &m->error), &m->error);
    }
    CHECK_OK(ss_envelope_compute(&m->permanent, &m->placements, some == NULL ? all : some, count, &plain, out,
                                 &m->error),
             &m->error);
    ss_free(all);
    CU_ASSERT(out->checked_count > 0);
}

static void expect_agreement(made_bridge *m) {
    ss_envelope e;
    CHECK_OK(made_solve(m), &m->error);
    envelope_of(m, NULL, 0, &e);
    ss_envelope_destroy(&e);
    made_free(m);
}

/* One effect by itself, so that all its extremes are solved again. */
static void expect_agreement_of(made_bridge *m, const ss_effect *wanted) {
    ss_effect effect;
    ss_envelope e;
    CHECK_OK(ss_mesh_effect(&m->mesh, wanted->member, wanted->index, wanted->at, wanted->before, wanted->kind,
                            &effect, &m->error),
             &m->error);
    envelope_of(m, &effect, 1, &e);
    CU_ASSERT(e.extremes[0].value != 0.0 || e.extremes[1].value != 0.0);
    ss_envelope_destroy(&e);
}

/* Two cars of three lines, the second `offset` farther along; a deck over the joint; contact where asked. */
static void make_offset_cars(made_bridge *m, double offset, bool along, bool contact) {
    made_start(m, 2.1);
    ss_bridge *const b = &m->bridge;
    const int sill = hand_section(b, 1.31e-3, 4.1e-4, 0.0093, 1730.0);
    const int edge = hand_section(b, 1.17e-4, 3.2e-7, 0.0037, 490.0);
    const int bearer = hand_section(b, 8.7e-5, 6.1e-8, 0.0028, 390.0);
    for (int car = 0; car < 2; car++) {
        const double x0 = offset * car, y = 2.9 * car;
        hand_car(b, car == 0 ? "north" : "south", x0, x0 + 12.2, y, y + 2.8);
        hand_line(b, SS_ROLE_EXTERIOR, "left", y + 0.1, edge);
        hand_line(b, SS_ROLE_MAIN, "sill", y + 1.4, sill);
        hand_line(b, SS_ROLE_EXTERIOR, "right", y + 2.7, edge);
        for (int k = 0; k < 4; k++) {
            static const double beams[4] = {0.0, 4.1, 8.2, 12.2};
            hand_beam(b, x0 + beams[k], bearer);
        }
        for (int end = 0; end < 2; end++) {
            ss_bearing *const pad = hand_contact(b, 3 * car + 1, x0 + (end == 0 ? 1.6 : 10.7));
            pad->pad_width = 0.33;
            pad->contact = contact;
            for (int l = 0; l < 3; l += 2) {
                ss_bearing *const shim = hand_contact(b, 3 * car + l, x0 + 12.2 * end);
                shim->spring = 3.1e7;
                shim->contact = contact;
            }
        }
    }
    hand_joint(b, SS_JOINT_HINGED, 0, offset + 0.6, 11.6);
    b->deck.along = along;
    b->deck.over_joints = true;
    b->self_weight = true;
    b->roadway_left = 0.2;
    b->roadway_right = 5.5;
    b->wheel_to_curb = 0.3;
    static const double axle[2] = {49.0e3, 76.0e3}, spacing[1] = {4.1};
    made_vehicle(m, 2, axle, spacing, 1.83);
}

/* The front axle relieves midspan while it is on the overhang beyond the pads, and no longer once it is just
 * off the car, where the bridge goes on with the other one: there the moment under the rear axle is worst. */
static void test_offset_cars(void) {
    for (int k = 0; k < 4; k++) {
        made_bridge m;
        make_offset_cars(&m, 0.3, k % 2 == 1, k / 2 == 1);
        hand_probe(&m.bridge, 1, 6.2);
        m.bridge.runs[m.bridge.run_count++] =
            (ss_run){.name = "on north", .vehicle = 0, .y = 1.4, .forward = true};
        m.bridge.vehicles[0].spacing_m[0] = 6.0;
        m.bridge.rated_vehicle_count = 0;
        CHECK_OK(made_solve(&m), &m.error);
        static const ss_effect_kind kinds[] = {SS_EFFECT_MOMENT, SS_EFFECT_SHEAR, SS_EFFECT_DEFLECTION};
        for (size_t i = 0; i < ENTRIES(kinds); i++) {
            const ss_effect wanted = {.member = SS_MEMBER_LINE, .index = 1, .at = 6.2, .kind = kinds[i]};
            expect_agreement_of(&m, &wanted);
        }
        made_free(&m);
    }
}

/* A run with a wheel on a line, but for rounding of gauge and middle: it is on the node, and the shear of the
 * bay beside it is not known to jump. */
static void test_wheels_on_lines(void) {
    static const struct {
        double y;
        bool before;
    } line[] = {{0.1, false}, {2.7, true}, {1.4, true}, {1.4, false}};
    for (int k = 0; k < 4 * ENTRIES(line); k++) {
        made_bridge m;
        const double y = line[k / 4].y + 2e-16 * (k % 4 - 1);
        make_offset_cars(&m, 0.0, true, false);
        m.bridge.runs[m.bridge.run_count++] =
            (ss_run){.name = "along the line", .vehicle = 0, .y = y, .forward = true, .backward = true};
        m.bridge.vehicles[0].gauge_m = 0.0;
        m.bridge.rated_vehicle_count = 0;
        CHECK_OK(made_solve(&m), &m.error);
        const ss_effect shear = {.member = SS_MEMBER_BEAM,
                                 .index = 1,
                                 .at = line[k / 4].y,
                                 .before = line[k / 4].before,
                                 .kind = SS_EFFECT_SHEAR};
        expect_agreement_of(&m, &shear);
        made_free(&m);
    }
}

/* With one axle on a floor beam the other one is at the end of the car, where there is no floor beam: there
 * it counts as just after, off the car. */
static void test_axle_beside_floor_beams(void) {
    made_bridge m;
    make_offset_cars(&m, 2.1, false, false);
    m.bridge.vehicles[0].spacing_m[0] = 8.1;
    m.bridge.deck.over_joints = false;
    m.bridge.cars[0].beam_count = 3;
    m.bridge.floor_beams[2].x = 8.1;
    m.bridge.floor_beams[3].x = 0.0; /* the last one lies on the first */
    m.bridge.runs[m.bridge.run_count++] =
        (ss_run){.name = "within north", .vehicle = 0, .y = 1.4, .forward = true};
    m.bridge.rated_vehicle_count = 0;
    CHECK_OK(made_solve(&m), &m.error);
    static const ss_effect_kind kinds[] = {SS_EFFECT_MOMENT, SS_EFFECT_SHEAR, SS_EFFECT_DEFLECTION};
    for (size_t k = 0; k < ENTRIES(kinds); k++) {
        const ss_effect effect = {
            .member = SS_MEMBER_BEAM, .index = 1, .at = 1.4, .before = true, .kind = kinds[k]};
        expect_agreement_of(&m, &effect);
    }
    made_free(&m);
}

/* Two axles a floor beam's distance apart and deflections of noise over rigid bearings: what is nothing
 * against the largest of its kind is not asked for digits. */
static void test_noise_is_not_compared(void) {
    made_bridge m;
    made_start(&m, 0.31);
    const int spine = hand_section(&m.bridge, 1.9e-3, 3.3e-4, 0.0, 0.0);
    for (int car = 0; car < 3; car++) {
        hand_car(&m.bridge, "car", 0.0, 16.3, 2.7 * car, 2.7 * car + 2.7);
        const int line = hand_line(&m.bridge, SS_ROLE_MAIN, "spine", 2.7 * car + 1.35, spine);
        hand_pad(&m.bridge, line, 0.0, 0.31);
        hand_pad(&m.bridge, line, 16.3, 0.31);
    }
    for (int car = 0; car < 2; car++) hand_joint(&m.bridge, SS_JOINT_HINGED, car, 0.0, 16.3);
    m.bridge.roadway_right = 8.1;
    m.bridge.wheel_to_curb = 0.6;
    static const double axle[3] = {53.0e3, 81.0e3, 77.0e3}, spacing[2] = {3.61, 1.37};
    made_vehicle(&m, 3, axle, spacing, 1.83);
    expect_agreement(&m);
}

/* ---- bearings that only push -------------------------------------------------------------------- */

static void expect_pushing(const made_bridge *m, const ss_envelope *e) {
    int lifted = 0;
    for (int i = 0; i < e->effect_count; i++) {
        if (e->effects[i].kind != SS_EFFECT_REACTION) {
            continue;
        }
        CU_ASSERT(e->dead[i] >= 0.0);
        for (int t = 0; t < e->traffic_count; t++) {
            const ss_extreme *least = &e->extremes[2 * (i * e->traffic_count + t)];
            CU_ASSERT(e->dead[i] + least->value >= 0.0);
            lifted += e->dead[i] > 0.0 && e->dead[i] + least->value == 0.0;
        }
    }
    CU_ASSERT(lifted > 0);
    CU_ASSERT(m->bridge.bearing_count > 0);
}

/* Narrow pads and stiff shims: reactions are sums of parts ten thousand times as large that openings take
 * off. */
static void test_bearings_that_only_push(void) {
    made_bridge m;
    ss_envelope e;
    make_offset_cars(&m, 0.0, false, true);
    m.bridge.joints[0].kind = SS_JOINT_NONE;
    for (int i = 0; i < m.bridge.bearing_count; i++) {
        ss_bearing *const bearing = &m.bridge.bearings[i];
        bearing->pad_width *= 0.05;
        bearing->settlement = bearing->pad_width > 0.0 ? 4e-4 : 0.0;
    }
    CHECK_OK(made_solve(&m), &m.error);
    envelope_of(&m, NULL, 0, &e);
    CU_ASSERT(e.contact_matters);
    expect_pushing(&m, &e);
    ss_envelope_destroy(&e);
    made_free(&m);
}

int main(void) {
    static const test_case cases[] = {
        {"offset cars", test_offset_cars},
        {"wheels on lines", test_wheels_on_lines},
        {"an axle beside floor beams", test_axle_beside_floor_beams},
        {"noise is not compared", test_noise_is_not_compared},
        {"bearings that only push", test_bearings_that_only_push},
    };
    return RUN_SUITE("envelope places", cases);
}
