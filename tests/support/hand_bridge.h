/* hand_bridge.h - builds small resolved bridges by hand, one member after another, without a description. */
#ifndef TEST_HAND_BRIDGE_H
#define TEST_HAND_BRIDGE_H

#include <math.h>

#include "sillspan/bridge.h"

enum { HAND_MOST = 192 };

/** What the arrays of a bridge made by hand point to. */
typedef struct hand_room {
    ss_steel steels[4];
    ss_section sections[8];
    ss_car cars[4];
    ss_line lines[HAND_MOST];
    ss_line_piece pieces[HAND_MOST];
    ss_floor_beam beams[HAND_MOST];
    ss_beam_part parts[HAND_MOST];
    int hinges[HAND_MOST];
    ss_joint joints[4];
    double connectors[HAND_MOST];
    ss_bearing bearings[HAND_MOST];
    ss_dead_load dead[8];
    ss_vehicle vehicles[8];
    ss_run runs[4];
    ss_probe probes[HAND_MOST];
} hand_room;

/** An empty bridge of one steel; stations everywhere `spacing` apart or closer. */
static inline void hand_start(ss_bridge *b, hand_room *room, double E, double G, double spacing) {
    *room = (hand_room){.steels = {{.name = "steel", .fy = 2.5e8, .E = E, .G = G, .density = 77000.0}}};
    *b = (ss_bridge){.title = "by hand",
                     .units = SS_UNITS_SI,
                     .steels = room->steels,
                     .steel_count = 1,
                     .sections = room->sections,
                     .cars = room->cars,
                     .lines = room->lines,
                     .pieces = room->pieces,
                     .floor_beams = room->beams,
                     .parts = room->parts,
                     .hinges = room->hinges,
                     .joints = room->joints,
                     .connectors = room->connectors,
                     .bearings = room->bearings,
                     .dead_loads = room->dead,
                     .vehicles = room->vehicles,
                     .runs = room->runs,
                     .probes = room->probes,
                     .deck = {.name = "planks", .kind = "timber"},
                     .station_spacing = spacing,
                     .x0 = (double)INFINITY,
                     .x1 = -(double)INFINITY};
}

/** No property of the section is set: all are computed from its plates. */
static inline void hand_unset(ss_section *section) {
    section->set_A = section->set_I = section->set_J = section->set_shear_area = (double)NAN;
    section->set_S_top = section->set_S_bottom = section->set_Z = section->set_weight = (double)NAN;
}

/** A section of given properties (m4, m4, m2, N/m); shear_area 0: no shear deformation. */
static inline int hand_section(ss_bridge *b, double I, double J, double shear_area, double weight) {
    ss_section *const section = &b->sections[b->section_count];
    *section = (ss_section){.name = "given", .shape = SS_SHAPE_GIVEN, .depth = 0.5};
    hand_unset(section);
    section->set_A = 0.01;
    section->set_I = I;
    section->set_J = J;
    section->set_shear_area = shear_area;
    section->set_weight = weight;
    return b->section_count++;
}

static inline int hand_car(ss_bridge *b, const char *name, double x0, double x1, double y_left,
                           double y_right) {
    b->cars[b->car_count] = (ss_car){.name = name,
                                     .type = "flat",
                                     .x0 = x0,
                                     .x1 = x1,
                                     .y_left = y_left,
                                     .y_right = y_right,
                                     .wheel_truck = {(double)NAN, (double)NAN},
                                     .first_line = b->line_count,
                                     .first_beam = b->floor_beam_count,
                                     .weight_factor = 1.0};
    b->x0 = fmin(b->x0, x0);
    b->x1 = fmax(b->x1, x1);
    return b->car_count++;
}

/** A level line of the last car from its end to its end; lines come in the order of y. */
static inline int hand_line(ss_bridge *b, ss_role role, const char *name, double y, int section) {
    ss_car *const car = &b->cars[b->car_count - 1];
    const double depth = b->sections[section].depth;
    b->pieces[b->piece_count] = (ss_line_piece){car->x0, car->x1, section, depth, depth};
    b->lines[b->line_count] = (ss_line){.name = name,
                                        .set = name,
                                        .car = b->car_count - 1,
                                        .role = role,
                                        .y = y,
                                        .x0 = car->x0,
                                        .x1 = car->x1,
                                        .first_piece = b->piece_count++,
                                        .piece_count = 1};
    car->line_count++;
    return b->line_count++;
}

/** A floor beam of the last car, all across it. */
static inline int hand_beam(ss_bridge *b, double x, int section) {
    ss_car *const car = &b->cars[b->car_count - 1];
    b->parts[b->part_count] = (ss_beam_part){car->y_left, car->y_right, section};
    b->floor_beams[b->floor_beam_count] = (ss_floor_beam){.name = "bearer",
                                                          .set = "bearer",
                                                          .car = b->car_count - 1,
                                                          .x = x,
                                                          .first_part = b->part_count++,
                                                          .part_count = 1};
    car->beam_count++;
    return b->floor_beam_count++;
}

/** A rigid two-way point. */
static inline int hand_bearing(ss_bridge *b, int line, double x) {
    b->bearings[b->bearing_count] = (ss_bearing){
        .name = "support", .car = b->lines[line].car, .line = line, .x = x, .spring = (double)INFINITY};
    return b->bearing_count++;
}

/** A rigid point that may lift. */
static inline ss_bearing *hand_contact(ss_bridge *b, int line, double x) {
    ss_bearing *const bearing = &b->bearings[hand_bearing(b, line, x)];
    bearing->contact = true;
    return bearing;
}

/** A rigid two-way point that holds the twist as well, through a pad. */
static inline int hand_pad(ss_bridge *b, int line, double x, double width) {
    const int i = hand_bearing(b, line, x);
    b->bearings[i].pad_width = width;
    return i;
}

/** Between car `left` and the next; shear passes rigidly. */
static inline int hand_joint(ss_bridge *b, ss_joint_kind kind, int left, double x0, double x1) {
    b->joints[b->joint_count] = (ss_joint){.name = "seam",
                                           .kind = kind,
                                           .left = left,
                                           .y = 0.5 * (b->cars[left].y_right + b->cars[left + 1].y_left),
                                           .x0 = x0,
                                           .x1 = x1,
                                           .shear = (double)INFINITY,
                                           .rotation = kind == SS_JOINT_RIGID ? (double)INFINITY : 0.0,
                                           .shear_capacity = (double)NAN,
                                           .moment_capacity = (double)NAN};
    return b->joint_count++;
}

/** A station of a line wherever a test looks. */
static inline void hand_probe(ss_bridge *b, int line, double x) {
    b->probes[b->probe_count++] =
        (ss_probe){.name = "look", .member = SS_MEMBER_LINE, .index = line, .at = x};
}

#endif
