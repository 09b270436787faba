/* rated_bridge.h - two small bridges built by hand and taken through the whole pipe up to a rating. */
#ifndef SS_TEST_RATED_BRIDGE_H
#define SS_TEST_RATED_BRIDGE_H

#include <string.h>

#include "sillspan/ratings.h"
#include "support/hand_bridge.h"
#include "support/suite.h"
#include "unit/assess/rated_settings.h"

typedef struct rated_bridge {
    ss_bridge bridge;
    hand_room room;
    /* The pipe. */
    ss_mesh mesh;
    ss_grillage *grillage;
    ss_permanent permanent;
    ss_placements placements;
    ss_effect *effects;
    int effect_count;
} rated_bridge;

static inline void rated_start(rated_bridge *r) {
    memset(r, 0, sizeof *r);
    ss_bridge *const b = &r->bridge;
    hand_start(b, &r->room, 29000.0 * KSI, 11154.0 * KSI, 4.0 * FOOT);
    b->steels[0].fy = 36.0 * KSI;
    b->steels[0].density = 490.0 * LBF / (FOOT * FOOT * FOOT);
    b->deck.over_joints = true;
    b->wheel_to_curb = 2.0 * FOOT;
    b->cars_first = true;
    b->self_weight = true;
    b->rating = rated_settings(0.90);
}

/* A section by its properties in inches; weight in kip/ft. */
static inline int rated_given(rated_bridge *r, const char *name, double I, double J, double S,
                              double shear_area, double weight) {
    const int i = hand_section(&r->bridge, I * INCH4, J * INCH4, shear_area * INCH2, weight * KIP / FOOT);
    ss_section *const section = &r->bridge.sections[i];
    section->name = name;
    section->set_S_top = section->set_S_bottom = S * INCH3;
    return i;
}

/* A closed box 26 in deep: its torsion adds to web shear. */
static inline int rated_box(rated_bridge *r) {
    ss_section *const s = &r->bridge.sections[r->bridge.section_count];
    *s = (ss_section){.name = "box",
                      .shape = SS_SHAPE_BOX,
                      .torsion = SS_TORSION_CLOSED,
                      .depth = 26.0 * INCH,
                      .plate_count = 4,
                      .E_over_G = 2.6};
    hand_unset(s);
    s->plates[0] = (ss_plate){"bottom", -9.0 * INCH, 9.0 * INCH, 0.0, 0.75 * INCH, false};
    s->plates[1] = (ss_plate){"left web", -6.75 * INCH, -6.4375 * INCH, 0.75 * INCH, 25.5 * INCH, true};
    s->plates[2] = (ss_plate){"right web", 6.4375 * INCH, 6.75 * INCH, 0.75 * INCH, 25.5 * INCH, true};
    s->plates[3] = (ss_plate){"top", -10.0 * INCH, 10.0 * INCH, 25.5 * INCH, 26.0 * INCH, false};
    return r->bridge.section_count++;
}

/* Lengths in ft from here on. */
static inline int rated_car(rated_bridge *r, const char *name, double length, double left, double right) {
    return hand_car(&r->bridge, name, 0.0, length * FOOT, left * FOOT, right * FOOT);
}

static inline int rated_line(rated_bridge *r, const char *name, ss_role role, double y, int section) {
    return hand_line(&r->bridge, role, name, y * FOOT, section);
}

static inline ss_bearing *rated_bearing(rated_bridge *r, int line, double x, double pad) {
    ss_bearing *const bearing = hand_contact(&r->bridge, line, x * FOOT);
    bearing->pad_width = pad * FOOT;
    return bearing;
}

static inline void rated_truck(rated_bridge *r, const char *name) {
    const ss_vehicle *const vehicle = ss_vehicle_find(name);
    CU_ASSERT_PTR_NOT_NULL_FATAL(vehicle);
    r->bridge.vehicles[r->bridge.vehicle_count++] = *vehicle;
    r->bridge.rated_vehicle_count = r->bridge.vehicle_count;
}

/* One car of one line of `length` ft; bearings come from the caller. Weight in kip/ft. */
static inline void rated_single(rated_bridge *r, double length, double weight) {
    rated_start(r);
    const int section = rated_given(r, "sill", 7116.0, 900.0, 544.0, 16.0, weight);
    rated_car(r, "lone", length, 0.0, 10.0);
    rated_line(r, "sill", SS_ROLE_MAIN, 5.0, section);
    r->bridge.roadway_right = 10.0 * FOOT;
}

/* Two cars of 60 ft on bearings at 7 and 53 ft, their ends on shims with daylight, a seam of some stiffness,
 * gravel and rails. */
static inline void rated_pair(rated_bridge *r) {
    static const double beams[7] = {0.0, 7.0, 15.0, 30.0, 45.0, 53.0, 60.0};
    rated_start(r);
    const int box = rated_box(r);
    const int edge = rated_given(r, "edge", 315.0, 2.7, 42.0, 6.0, 0.034);
    const int bearer = rated_given(r, "bearer", 220.0, 1.1, 36.0, 4.5, 0.035);
    for (int c = 0; c < 2; c++) {
        const double left = c * (9.0 + 1.0 / 3.0);
        rated_car(r, c == 0 ? "north" : "south", 60.0, left, left + 9.0);
        const int first = rated_line(r, "left edge", SS_ROLE_EXTERIOR, left + 0.4, edge);
        rated_line(r, "sill", SS_ROLE_MAIN, left + 4.5, box);
        rated_line(r, "right edge", SS_ROLE_EXTERIOR, left + 8.6, edge);
        for (int i = 0; i < 7; i++) hand_beam(&r->bridge, beams[i] * FOOT, bearer);
        for (int end = 0; end < 2; end++) {
            rated_bearing(r, first + 1, end == 0 ? 7.0 : 53.0, 14.0 / 12.0);
            for (int i = 0; i < 3; i++) {
                ss_bearing *const shim = rated_bearing(r, first + i, end == 0 ? 0.0 : 60.0, 0.0);
                shim->gap = 0.25 * INCH;
                shim->spring = 200.0 * KIP / INCH;
            }
        }
    }
    const int seam = hand_joint(&r->bridge, SS_JOINT_SPRINGS, 0, 2.0 * FOOT, 58.0 * FOOT);
    r->bridge.joints[seam].shear = 0.08 * KIP / INCH2;
    r->bridge.joints[seam].shear_capacity = 0.15 * KIP / INCH;
    const double psf = LBF / (FOOT * FOOT);
    r->bridge.dead_loads[0] = (ss_dead_load){
        "planks", SS_COMPONENT_DC, true, 14.6 * psf, 0.0, 60.0 * FOOT, 0.0, 18.0 * FOOT, SS_DEAD_STAYS, 0};
    r->bridge.dead_loads[1] = (ss_dead_load){"gravel",    SS_COMPONENT_DW, true,        30.0 * psf,    0.0,
                                             60.0 * FOOT, 1.0 * FOOT,      17.0 * FOOT, SS_DEAD_STAYS, 0};
    r->bridge.dead_loads[2] = (ss_dead_load){"rail",      SS_COMPONENT_DC, false,      35.0 * psf * FOOT, 0.0,
                                             60.0 * FOOT, 0.5 * FOOT,      0.5 * FOOT, SS_DEAD_STAYS,     0};
    r->bridge.dead_load_count = 3;
    r->bridge.roadway_left = 1.0 * FOOT;
    r->bridge.roadway_right = 17.0 * FOOT;
    rated_truck(r, "HS20-44");
    rated_truck(r, "EV3");
}

/* Everything up to the effects. */
static inline void rated_build(rated_bridge *r) {
    ss_error error = {0};
    CHECK_OK(ss_mesh_build(&r->bridge, (ss_mesh_options){.joints = true, .refine = 1}, &r->mesh, &error),
             &error);
    CHECK_OK(ss_grillage_create(&r->mesh, &r->grillage, &error), &error);
    CHECK_OK(ss_permanent_compute(&r->bridge, r->grillage, &r->permanent, &error), &error);
    CHECK_OK(ss_placements_build(&r->mesh, &r->placements, &error), &error);
    CHECK_OK(ss_envelope_effects(&r->mesh, &r->effects, &r->effect_count, &error), &error);
}

static inline void rated_destroy(rated_bridge *r) {
    ss_free(r->effects);
    ss_placements_destroy(&r->placements);
    ss_permanent_destroy(&r->permanent);
    ss_grillage_destroy(r->grillage);
    ss_mesh_destroy(&r->mesh);
}

static inline void rated_rate(const rated_bridge *r, ss_ratings *out) {
    ss_error error = {0};
    CHECK_OK(ss_ratings_compute(&r->permanent, &r->placements, r->effects, r->effect_count, NULL, NULL, out,
                                &error),
             &error);
}

/* Effect of the whole load, by itself: dead load of the rating's factors plus `multiple` plain trucks at a
 * position. NaN when that tips the bridge. */
static inline double rated_effect(const rated_bridge *r, const ss_rating_item *item,
                                  const ss_position *position, double multiple, const ss_effect *effect) {
    ss_error error = {0};
    ss_load load = {0};
    ss_state state = {0};
    CHECK_OK(ss_placements_load(&r->mesh, &r->placements, position, &load, &error), &error);
    const ss_dead_factors dead = {item->factors.dc, item->factors.dw};
    const ss_status status = ss_permanent_state(&r->permanent, true, dead, &load, multiple, &state, &error);
    double value = (double)NAN;
    if (status != SS_ERROR_TIPPING) {
        check_ok("state", status, &error);
        value = ss_state_effect(&r->mesh, &state, effect);
    }
    ss_state_destroy(&state);
    ss_load_destroy(&load);
    return value;
}

/* Plain trucks in a factored one. */
static inline double rated_multiplier(const ss_rating_item *item) {
    return item->factors.live * item->factors.presence * (1.0 + item->factors.allowance);
}

/* The item with the smallest factor of a traffic, by whichever check. */
static inline const ss_rating_item *rated_governing(const ss_ratings *result, int traffic) {
    const ss_rating_item *best = NULL;
    for (int check = 0; check < result->check_count; check++) {
        const int item = ss_ratings_governing(result, check, traffic);
        if (item >= 0 && (best == NULL || result->items[item].rf < best->rf)) {
            best = &result->items[item];
        }
    }
    CU_ASSERT_PTR_NOT_NULL_FATAL(best);
    return best;
}

#endif
