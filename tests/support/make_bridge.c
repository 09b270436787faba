/* make_bridge.c - see make_bridge.h. */
#include "support/make_bridge.h"

#include <string.h>

void made_start(made_bridge *m, double station_spacing) {
    memset(m, 0, sizeof *m);
    hand_start(&m->bridge, &m->room, 2.0e11, 7.7e10, station_spacing);
}

int made_vehicle(made_bridge *m, int axles, const double *axle, const double *spacing, double gauge) {
    ss_vehicle *const v = &m->bridge.vehicles[m->bridge.vehicle_count];
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
    const int sill = hand_section(b, 1.31e-3, 4.1e-4, 0.0093, 1730.0);
    const int edge = hand_section(b, 1.17e-4, 3.2e-7, 0.0037, 490.0);
    const int stringer = hand_section(b, 1.6e-5, 4.0e-8, 0.0011, 120.0);
    const int bearer = hand_section(b, 8.7e-5, 6.1e-8, 0.0028, 390.0);
    const double length = 12.2;
    static const double at[7] = {0.11, 0.47, 0.93, 1.39, 1.86, 2.28, 2.71};
    static const double beams[5] = {0.0, 2.9, 6.4, 9.1, 12.2};
    for (int car = 0; car < 2; car++) {
        const double y = car == 0 ? 0.0 : 2.93;
        hand_car(b, car == 0 ? "north" : "middle", 0.0, length, y, y + 2.82);
        for (int i = 0; i < 7; i++) {
            const bool middle = i == 3, outer = i == 0 || i == 6;
            const ss_role role = middle ? SS_ROLE_MAIN : outer ? SS_ROLE_EXTERIOR : SS_ROLE_STRINGER;
            hand_line(b, role, "line", y + at[i], middle ? sill : outer ? edge : stringer);
        }
        for (int i = 0; i < 5; i++) hand_beam(b, beams[i], bearer);
        const int first = b->cars[car].first_line;
        for (int end = 0; end < 2; end++) {
            ss_bearing *const pad = hand_contact(b, first + 3, end == 0 ? 1.7 : 10.3);
            pad->pad_width = 0.36;
            pad->spring = 4.4e8;
            pad->contact = contact;
            for (int i = 0; i < 7; i += 3) {
                ss_bearing *const shim = hand_contact(b, first + i, end == 0 ? 0.0 : length);
                shim->spring = 3.1e7;
                shim->contact = contact;
                shim->gap = contact && i == 0 ? 0.0013 : 0.0;
                shim->after = contact && i == 6;
            }
        }
    }
    ss_joint *const seam = &b->joints[hand_joint(b, SS_JOINT_SPRINGS, 0, 0.0, length)];
    seam->shear = 2.6e7;
    seam->rotation = 8.0e4;
    b->self_weight = true;
    b->cars_first = true;
    b->deck.over_joints = true;
    b->dead_loads[b->dead_load_count++] = (ss_dead_load){.name = "gravel",
                                                         .component = SS_COMPONENT_DW,
                                                         .area = true,
                                                         .w = 930.0,
                                                         .x0 = 0.0,
                                                         .x1 = length,
                                                         .y0 = 0.3,
                                                         .y1 = 5.6};
    b->dead_loads[b->dead_load_count++] = (ss_dead_load){.name = "rail",
                                                         .component = SS_COMPONENT_DC,
                                                         .w = 510.0,
                                                         .x0 = 0.0,
                                                         .x1 = length,
                                                         .y0 = 0.2,
                                                         .y1 = 0.2};
    b->roadway_left = 0.33;
    b->roadway_right = 5.52;
    b->wheel_to_curb = 0.61;
    static const double axle[3] = {53.0e3, 81.0e3, 77.0e3}, spacing[2] = {3.61, 1.37};
    made_vehicle(m, 3, axle, spacing, 1.83);
}
