/* rated_bridge.h - two small bridges built by hand and taken through the whole pipe up to a rating. */
#ifndef SS_TEST_RATED_BRIDGE_H
#define SS_TEST_RATED_BRIDGE_H

#include <stdio.h>
#include <string.h>

#include "sillspan/rating.h"
#include "suite_assess.h"

#define INCH2 (INCH * INCH)
#define INCH3 (INCH * INCH * INCH)
#define INCH4 (INCH * INCH * INCH * INCH)

enum { RATED_MOST = 48 };

typedef struct rated_bridge {
    ss_bridge bridge;
    ss_steel steel;
    ss_section sections[4];
    ss_car cars[2];
    ss_line lines[RATED_MOST];
    ss_line_piece pieces[RATED_MOST];
    ss_floor_beam beams[RATED_MOST];
    ss_beam_part parts[RATED_MOST];
    ss_joint joints[1];
    ss_bearing bearings[RATED_MOST];
    ss_dead_load dead[4];
    ss_vehicle vehicles[4];
    ss_probe probes[4];
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
    b->steels = &r->steel;
    b->steel_count = 1;
    b->sections = r->sections;
    b->cars = r->cars;
    b->lines = r->lines;
    b->pieces = r->pieces;
    b->floor_beams = r->beams;
    b->parts = r->parts;
    b->joints = r->joints;
    b->bearings = r->bearings;
    b->dead_loads = r->dead;
    b->vehicles = r->vehicles;
    b->probes = r->probes;
    b->deck = (ss_deck){.name = "planks", .kind = "timber", .over_joints = true};
    b->wheel_to_curb = 2.0 * FOOT;
    b->cars_first = true;
    b->self_weight = true;
    b->station_spacing = 4.0 * FOOT;
    b->rating = (ss_rating_settings){.condition = 0.95,
                                     .system = 0.90,
                                     .adtt = 20,
                                     .approach_allowance = 0.20,
                                     .dynamic_allowance = (double)NAN,
                                     .live_factor = (double)NAN,
                                     .dw_factor = (double)NAN,
                                     .dc_factor = 1.25,
                                     .phi_flexure = 1.0,
                                     .phi_shear = 1.0};
    r->steel = (ss_steel){.name = "car steel",
                          .fy = 36.0 * KSI,
                          .E = 29000.0 * KSI,
                          .G = 11154.0 * KSI,
                          .density = 490.0 * 0.001 * KIP / (FOOT * FOOT * FOOT)};
}

/* A section by its properties in inches; weight in kip/ft. */
static inline int rated_given(rated_bridge *r, const char *name, double I, double J, double S,
                              double shear_area, double weight) {
    r->sections[r->bridge.section_count] = (ss_section){.name = name,
                                                        .shape = SS_SHAPE_GIVEN,
                                                        .depth = (double)NAN,
                                                        .set_A = 20.0 * INCH2,
                                                        .set_I = I * INCH4,
                                                        .set_J = J * INCH4,
                                                        .set_shear_area = shear_area * INCH2,
                                                        .set_S_top = S * INCH3,
                                                        .set_S_bottom = S * INCH3,
                                                        .set_Z = (double)NAN,
                                                        .set_weight = weight * KIP / FOOT};
    return r->bridge.section_count++;
}

/* A closed box 26 in deep: its torsion adds to web shear. */
static inline int rated_box(rated_bridge *r) {
    ss_section *const s = &r->sections[r->bridge.section_count];
    *s = (ss_section){.name = "box",
                      .shape = SS_SHAPE_BOX,
                      .torsion = SS_TORSION_CLOSED,
                      .depth = 26.0 * INCH,
                      .plate_count = 4,
                      .E_over_G = 2.6};
    s->set_A = s->set_I = s->set_J = s->set_shear_area = (double)NAN;
    s->set_S_top = s->set_S_bottom = s->set_Z = s->set_weight = (double)NAN;
    s->plates[0] = (ss_plate){"bottom", -9.0 * INCH, 9.0 * INCH, 0.0, 0.75 * INCH, false};
    s->plates[1] = (ss_plate){"left web", -6.75 * INCH, -6.4375 * INCH, 0.75 * INCH, 25.5 * INCH, true};
    s->plates[2] = (ss_plate){"right web", 6.4375 * INCH, 6.75 * INCH, 0.75 * INCH, 25.5 * INCH, true};
    s->plates[3] = (ss_plate){"top", -10.0 * INCH, 10.0 * INCH, 25.5 * INCH, 26.0 * INCH, false};
    return r->bridge.section_count++;
}

/* Lengths in ft from here on. */
static inline int rated_car(rated_bridge *r, const char *name, double length, double left, double right) {
    ss_bridge *const b = &r->bridge;
    r->cars[b->car_count] = (ss_car){.name = name,
                                     .type = "flat",
                                     .x1 = length * FOOT,
                                     .y_left = left * FOOT,
                                     .y_right = right * FOOT,
                                     .wheel_truck = {(double)NAN, (double)NAN},
                                     .first_line = b->line_count,
                                     .first_beam = b->floor_beam_count,
                                     .weight_factor = 1.0};
    b->x1 = length * FOOT;
    return b->car_count++;
}

static inline int rated_line(rated_bridge *r, const char *name, ss_role role, double y, int section) {
    ss_bridge *const b = &r->bridge;
    const int car = b->car_count - 1;
    const double depth = r->sections[section].shape == SS_SHAPE_GIVEN ? 0.0 : r->sections[section].depth;
    r->pieces[b->piece_count] = (ss_line_piece){0.0, r->cars[car].x1, section, depth, depth};
    r->lines[b->line_count] = (ss_line){.name = name,
                                        .set = name,
                                        .car = car,
                                        .role = role,
                                        .y = y * FOOT,
                                        .x1 = r->cars[car].x1,
                                        .first_piece = b->piece_count++,
                                        .piece_count = 1};
    r->cars[car].line_count++;
    return b->line_count++;
}

static inline void rated_beam(rated_bridge *r, double x, int section) {
    ss_bridge *const b = &r->bridge;
    const int car = b->car_count - 1;
    r->parts[b->part_count] = (ss_beam_part){r->cars[car].y_left, r->cars[car].y_right, section};
    r->beams[b->floor_beam_count++] = (ss_floor_beam){.name = "bearer",
                                                      .set = "bearers",
                                                      .car = car,
                                                      .x = x * FOOT,
                                                      .first_part = b->part_count++,
                                                      .part_count = 1};
    r->cars[car].beam_count++;
}

static inline ss_bearing *rated_bearing(rated_bridge *r, int line, double x, double pad) {
    ss_bearing *const bearing = &r->bearings[r->bridge.bearing_count++];
    *bearing = (ss_bearing){.name = "bearing",
                            .car = r->lines[line].car,
                            .line = line,
                            .x = x * FOOT,
                            .contact = true,
                            .spring = (double)INFINITY,
                            .pad_width = pad * FOOT};
    return bearing;
}

static inline void rated_truck(rated_bridge *r, const char *name) {
    const ss_vehicle *const vehicle = ss_vehicle_find(name);
    CU_ASSERT_PTR_NOT_NULL_FATAL(vehicle);
    r->vehicles[r->bridge.vehicle_count++] = *vehicle;
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
        for (int i = 0; i < 7; i++) rated_beam(r, beams[i], bearer);
        for (int end = 0; end < 2; end++) {
            rated_bearing(r, first + 1, end == 0 ? 7.0 : 53.0, 14.0 / 12.0);
            for (int i = 0; i < 3; i++) {
                ss_bearing *const shim = rated_bearing(r, first + i, end == 0 ? 0.0 : 60.0, 0.0);
                shim->gap = 0.25 * INCH;
                shim->spring = 200.0 * KIP / INCH;
            }
        }
    }
    r->joints[r->bridge.joint_count++] = (ss_joint){.name = "seam",
                                                    .kind = SS_JOINT_SPRINGS,
                                                    .y = (9.0 + 1.0 / 6.0) * FOOT,
                                                    .x0 = 2.0 * FOOT,
                                                    .x1 = 58.0 * FOOT,
                                                    .shear = 0.08 * KIP / INCH2,
                                                    .shear_capacity = 0.15 * KIP / INCH};
    const double psf = 0.001 * KIP / (FOOT * FOOT);
    r->dead[0] =
        (ss_dead_load){"planks", SS_COMPONENT_DC, true, 14.6 * psf, 0.0, 60.0 * FOOT, 0.0, 18.0 * FOOT};
    r->dead[1] = (ss_dead_load){"gravel", SS_COMPONENT_DW, true,       30.0 * psf,
                                0.0,      60.0 * FOOT,     1.0 * FOOT, 17.0 * FOOT};
    r->dead[2] = (ss_dead_load){"rail", SS_COMPONENT_DC, false,      35.0 * psf * FOOT,
                                0.0,    60.0 * FOOT,     0.5 * FOOT, 0.5 * FOOT};
    r->bridge.dead_load_count = 3;
    r->bridge.roadway_left = 1.0 * FOOT;
    r->bridge.roadway_right = 17.0 * FOOT;
    rated_truck(r, "HS20-44");
    rated_truck(r, "EV3");
}

static inline void rated_ok(const char *what, ss_status status, const ss_error *error) {
    if (status != SS_OK) {
        printf("\n  %s: %s", what, error->message);
    }
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
}

/* Everything up to the effects. */
static inline void rated_build(rated_bridge *r) {
    ss_error error = {0};
    rated_ok("mesh",
             ss_mesh_build(&r->bridge, (ss_mesh_options){.joints = true, .refine = 1}, &r->mesh, &error),
             &error);
    rated_ok("grillage", ss_grillage_create(&r->mesh, &r->grillage, &error), &error);
    rated_ok("permanent", ss_permanent_compute(&r->bridge, r->grillage, &r->permanent, &error), &error);
    rated_ok("placements", ss_placements_build(&r->mesh, &r->placements, &error), &error);
    rated_ok("effects", ss_envelope_effects(&r->mesh, &r->effects, &r->effect_count, &error), &error);
}

static inline void rated_destroy(rated_bridge *r) {
    ss_free(r->effects);
    ss_placements_destroy(&r->placements);
    ss_permanent_destroy(&r->permanent);
    ss_grillage_destroy(r->grillage);
    ss_mesh_destroy(&r->mesh);
}

static inline void rated_rate(const rated_bridge *r, ss_rating_result *out) {
    ss_error error = {0};
    rated_ok("rating",
             ss_rating_compute(&r->permanent, &r->placements, r->effects, r->effect_count, NULL, NULL, out,
                               &error),
             &error);
}

/* Effect of the whole load, by itself: dead load of the rating's factors plus `multiple` plain trucks at a
 * position. NaN when that tips the bridge. */
static inline double rated_effect(const rated_bridge *r, const ss_rating *rating, const ss_position *position,
                                  double multiple, const ss_effect *effect) {
    ss_error error = {0};
    ss_load load = {0};
    ss_state state = {0};
    rated_ok("load", ss_placements_load(&r->mesh, &r->placements, position, &load, &error), &error);
    const ss_dead_factors dead = {rating->factors.dc, rating->factors.dw};
    const ss_status status = ss_permanent_state(&r->permanent, true, dead, &load, multiple, &state, &error);
    double value = (double)NAN;
    if (status != SS_ERROR_TIPPING) {
        rated_ok("state", status, &error);
        value = ss_state_effect(&r->mesh, &state, effect);
    }
    ss_state_destroy(&state);
    ss_load_destroy(&load);
    return value;
}

static inline double rated_multiplier(const ss_rating *rating) {
    return rating->factors.live * (1.0 + rating->factors.allowance);
}

#endif
