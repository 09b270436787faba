/* make_bridge.c - see make_bridge.h. */
#include "support/make_bridge.h"

#include <math.h>
#include <string.h>

#include "sillspan/memory.h"

static const double none = (double)NAN;

void made_start(made_bridge *m, double station_spacing) {
    memset(m, 0, sizeof *m);
    ss_bridge *const b = &m->bridge;
    m->steel = (ss_steel){
        .name = "steel", .fy = 2.5e8, .E = 2.0e11, .G = 7.7e10, .density = 77000.0, .basis = "test"};
    b->title = "test";
    b->steels = &m->steel;
    b->steel_count = 1;
    b->sections = m->sections;
    b->cars = m->cars;
    b->lines = m->lines;
    b->pieces = m->pieces;
    b->floor_beams = m->beams;
    b->parts = m->parts;
    b->joints = m->joints;
    b->bearings = m->bearings;
    b->dead_loads = m->dead;
    b->vehicles = m->vehicles;
    b->runs = m->runs;
    b->deck = (ss_deck){.name = "planks", .kind = "timber"};
    b->station_spacing = station_spacing;
    b->x0 = (double)INFINITY;
    b->x1 = -(double)INFINITY;
}

int made_section(made_bridge *m, double I, double J, double shear_area, double weight) {
    m->sections[m->bridge.section_count] = (ss_section){.name = "given",
                                                        .shape = SS_SHAPE_GIVEN,
                                                        .depth = 0.6,
                                                        .set_A = 0.012,
                                                        .set_I = I,
                                                        .set_J = J,
                                                        .set_shear_area = shear_area,
                                                        .set_S_top = none,
                                                        .set_S_bottom = none,
                                                        .set_Z = none,
                                                        .set_weight = weight};
    return m->bridge.section_count++;
}

int made_car(made_bridge *m, double x0, double x1, double y_left, double y_right) {
    ss_bridge *const b = &m->bridge;
    static const char *const names[4] = {"north", "middle", "south", "last"};
    m->cars[b->car_count] = (ss_car){.name = names[b->car_count],
                                     .type = "flat",
                                     .x0 = x0,
                                     .x1 = x1,
                                     .y_left = y_left,
                                     .y_right = y_right,
                                     .wheel_truck = {none, none},
                                     .first_line = b->line_count,
                                     .first_beam = b->floor_beam_count,
                                     .weight_factor = 1.0};
    b->x0 = fmin(b->x0, x0);
    b->x1 = fmax(b->x1, x1);
    return b->car_count++;
}

int made_line(made_bridge *m, ss_role role, double y, double x0, double x1, int section) {
    ss_bridge *const b = &m->bridge;
    ss_car *const car = &m->cars[b->car_count - 1];
    m->pieces[b->piece_count] =
        (ss_line_piece){.x0 = x0, .x1 = x1, .section = section, .depth0 = 0.6, .depth1 = 0.6};
    m->lines[b->line_count] = (ss_line){.name = "line",
                                        .set = "line",
                                        .car = b->car_count - 1,
                                        .role = role,
                                        .y = y,
                                        .x0 = x0,
                                        .x1 = x1,
                                        .first_piece = b->piece_count++,
                                        .piece_count = 1};
    car->line_count++;
    return b->line_count++;
}

int made_beam(made_bridge *m, double x, int section) {
    ss_bridge *const b = &m->bridge;
    ss_car *const car = &m->cars[b->car_count - 1];
    m->parts[b->part_count] = (ss_beam_part){.y0 = car->y_left, .y1 = car->y_right, .section = section};
    m->beams[b->floor_beam_count] = (ss_floor_beam){.name = "beam",
                                                    .set = "beam",
                                                    .car = b->car_count - 1,
                                                    .x = x,
                                                    .first_part = b->part_count++,
                                                    .part_count = 1};
    car->beam_count++;
    return b->floor_beam_count++;
}

ss_bearing *made_bearing(made_bridge *m, int line, double x) {
    ss_bearing *const bearing = &m->bearings[m->bridge.bearing_count++];
    *bearing = (ss_bearing){.name = "seat",
                            .car = m->lines[line].car,
                            .line = line,
                            .x = x,
                            .contact = true,
                            .spring = (double)INFINITY};
    return bearing;
}

ss_joint *made_joint(made_bridge *m, ss_joint_kind kind, double shear, double rotation) {
    ss_bridge *const b = &m->bridge;
    const ss_car *const left = &m->cars[b->car_count - 2];
    const ss_car *const right = left + 1;
    ss_joint *const joint = &m->joints[b->joint_count++];
    *joint = (ss_joint){.name = "seam",
                        .kind = kind,
                        .left = b->car_count - 2,
                        .y = 0.5 * (left->y_right + right->y_left),
                        .x0 = fmax(left->x0, right->x0),
                        .x1 = fmin(left->x1, right->x1),
                        .shear = shear,
                        .rotation = rotation,
                        .shear_capacity = none};
    return joint;
}

int made_vehicle(made_bridge *m, int axles, const double *axle, const double *spacing, double gauge) {
    ss_vehicle *const v = &m->vehicles[m->bridge.vehicle_count];
    *v = (ss_vehicle){
        .name = "truck", .source = "test", .kind = SS_VEHICLE_USER, .axle_count = axles, .gauge_m = gauge};
    memcpy(v->axle_N, axle, (size_t)axles * sizeof *axle);
    if (axles > 1) {
        memcpy(v->spacing_m, spacing, (size_t)(axles - 1) * sizeof *spacing);
    }
    m->bridge.rated_vehicle_count = m->bridge.vehicle_count + 1;
    return m->bridge.vehicle_count++;
}

ss_status made_solve(made_bridge *m) {
    ss_status status =
        ss_mesh_build(&m->bridge, (ss_mesh_options){.joints = true, .refine = 1}, &m->mesh, &m->error);
    if (status == SS_OK) {
        status = ss_grillage_create(&m->mesh, &m->grillage, &m->error);
    }
    if (status == SS_OK) {
        status = ss_permanent_compute(&m->bridge, m->grillage, &m->permanent, &m->error);
    }
    if (status == SS_OK) {
        status = ss_placements_build(&m->mesh, &m->placements, &m->error);
    }
    return status;
}

void made_free(made_bridge *m) {
    ss_placements_destroy(&m->placements);
    ss_permanent_destroy(&m->permanent);
    ss_grillage_destroy(m->grillage);
    ss_mesh_destroy(&m->mesh);
    memset(m, 0, sizeof *m);
}

void made_two_cars(made_bridge *m, bool contact, double station_spacing) {
    made_start(m, station_spacing);
    ss_bridge *const b = &m->bridge;
    const int sill = made_section(m, 1.31e-3, 4.1e-4, 0.0093, 1730.0);
    const int edge = made_section(m, 1.17e-4, 3.2e-7, 0.0037, 490.0);
    const int stringer = made_section(m, 1.6e-5, 4.0e-8, 0.0011, 120.0);
    const int bearer = made_section(m, 8.7e-5, 6.1e-8, 0.0028, 390.0);
    static const double at[7] = {0.11, 0.47, 0.93, 1.39, 1.86, 2.28, 2.71};
    static const double beams[5] = {0.0, 2.9, 6.4, 9.1, 12.2};
    for (int car = 0; car < 2; car++) {
        const double y = car == 0 ? 0.0 : 2.93, x = 0.0;
        made_car(m, x, 12.2, y, y + 2.82);
        for (int i = 0; i < 7; i++) {
            const int section = i == 3 ? sill : i == 0 || i == 6 ? edge : stringer;
            made_line(m,
                      i == 3             ? SS_ROLE_MAIN
                      : i == 0 || i == 6 ? SS_ROLE_EXTERIOR
                                         : SS_ROLE_STRINGER,
                      y + at[i], x, 12.2, section);
        }
        for (int i = 0; i < 5; i++) made_beam(m, beams[i], bearer);
        const int first = m->cars[car].first_line;
        for (int end = 0; end < 2; end++) {
            ss_bearing *const pad = made_bearing(m, first + 3, end == 0 ? 1.7 : 10.3);
            pad->pad_width = 0.36;
            pad->spring = 4.4e8;
            pad->contact = contact;
            for (int i = 0; i < 7; i += 3) {
                ss_bearing *const shim = made_bearing(m, first + i, end == 0 ? 0.0 : 12.2);
                shim->spring = 3.1e7;
                shim->contact = contact;
                shim->gap = contact && i == 0 ? 0.0013 : 0.0;
                shim->after = contact && i == 6;
            }
        }
    }
    made_joint(m, SS_JOINT_SPRINGS, 2.6e7, 8.0e4);
    b->self_weight = true;
    b->cars_first = true;
    b->deck.over_joints = true;
    m->dead[b->dead_load_count++] = (ss_dead_load){.name = "gravel",
                                                   .component = SS_COMPONENT_DW,
                                                   .area = true,
                                                   .w = 930.0,
                                                   .x0 = 0.0,
                                                   .x1 = 12.2,
                                                   .y0 = 0.3,
                                                   .y1 = 5.6};
    m->dead[b->dead_load_count++] = (ss_dead_load){.name = "rail",
                                                   .component = SS_COMPONENT_DC,
                                                   .w = 510.0,
                                                   .x0 = 0.0,
                                                   .x1 = 12.2,
                                                   .y0 = 0.2,
                                                   .y1 = 0.2};
    b->roadway_left = 0.33;
    b->roadway_right = 5.52;
    b->wheel_to_curb = 0.61;
    static const double axle[3] = {53.0e3, 81.0e3, 77.0e3}, spacing[2] = {3.61, 1.37};
    made_vehicle(m, 3, axle, spacing, 1.83);
}
