/* test_mechanics_mesh.c - stations, nodes, members and their numbering. */
#include "samples.h"

static void level_car(sample *s, double spacing) {
    sample_start(s, 2e11, 8e10, spacing);
    const int girder = hand_section(&s->bridge, 3e-4, 1e-5, 0.0, 800.0);
    const int cross = hand_section(&s->bridge, 1e-4, 1e-6, 0.0, 300.0);
    hand_car(&s->bridge, "north", 0.0, 10.0, 0.0, 2.7);
    hand_line(&s->bridge, SS_ROLE_MAIN, "left", 0.2, girder);
    hand_line(&s->bridge, SS_ROLE_MAIN, "right", 2.5, girder);
    hand_beam(&s->bridge, 0.0, cross);
    hand_beam(&s->bridge, 4.0, cross);
    hand_beam(&s->bridge, 10.0, cross);
    for (int l = 0; l < 2; l++) {
        hand_bearing(&s->bridge, l, 0.0);
        hand_bearing(&s->bridge, l, 10.0);
    }
}

static void test_stations(void) {
    sample s;
    ss_mesh mesh;
    level_car(&s, 1.5);
    hand_probe(&s.bridge, 0, 7.3);
    hand_probe(&s.bridge, 0, 4.0004); /* the floor beam's place is kept */
    hand_probe(&s.bridge, 0, 55.0);   /* outside */
    sample_mesh(&s, &mesh);
    /* 0 .. 4 in 3, 4 .. 7.3 in 3, 7.3 .. 10 in 2 */
    CU_ASSERT_EQUAL_FATAL(mesh.station_count, 9);
    static const double x[9] = {0.0, 4.0 / 3, 8.0 / 3, 4.0, 5.1, 6.2, 7.3, 8.65, 10.0};
    static const bool marked[9] = {true, false, false, true, false, false, true, false, true};
    for (int i = 0; i < 9; i++) {
        check_near("station", mesh.station[i], x[i], 1e-12, 1.0);
        CU_ASSERT_EQUAL(mesh.marked[i], marked[i]);
    }
    CU_ASSERT_EQUAL(mesh.merged_count, 1);
    CU_ASSERT_EQUAL(mesh.beam_station[1], 3);
    CU_ASSERT_EQUAL(mesh.node_count, 18);
    CU_ASSERT_EQUAL(mesh.order, 54);
    CU_ASSERT_EQUAL(mesh.half_bandwidth, 3 * 2 + 2);
    CU_ASSERT_EQUAL(mesh.element_count, 2 * 8 + 3);
    for (int i = 0; i < mesh.node_count; i++) {
        CU_ASSERT_EQUAL(mesh.node_at[2 * mesh.node_station[i] + mesh.node_line[i]], i);
        CU_ASSERT_EQUAL(i, 2 * mesh.node_station[i] + mesh.node_line[i]);
    }
    for (int interval = 0; interval < 8; interval++) {
        for (int l = 0; l < 2; l++) {
            const ss_element *e = &mesh.element[mesh.line_element[2 * interval + l]];
            CU_ASSERT_EQUAL(e->member, l);
            CU_ASSERT_FALSE(e->across);
            CU_ASSERT_EQUAL(e->a, 2 * interval + l);
            CU_ASSERT_EQUAL(e->b, 2 * interval + 2 + l);
            check_near("length", e->length, x[interval + 1] - x[interval], 1e-12, 1.0);
            check_relative("EI", e->EI, 2e11 * 3e-4, 1e-14);
            check_relative("GJ", e->GJ, 8e10 * 1e-5, 1e-14);
            CU_ASSERT_TRUE(isinf(e->GA));
        }
    }
    ss_mesh_destroy(&mesh);
    CU_ASSERT_EQUAL_FATAL(
        ss_mesh_build(&s.bridge, (ss_mesh_options){.joints = true, .refine = 3}, &mesh, NULL), SS_OK);
    CU_ASSERT_EQUAL(mesh.station_count, 25);
    ss_mesh_destroy(&mesh);
    ss_mesh_destroy(&mesh);
}

/* Placed loads, dead loads and the wheels of parked trucks are stations. */
static void test_load_stations(void) {
    sample s;
    ss_mesh mesh;
    ss_vehicle truck = {.name = "milk",
                        .axle_count = 3,
                        .axle_N = {4e4, 7e4, 7e4},
                        .spacing_m = {3.31, 1.29, 0.0},
                        .gauge_m = 1.8};
    ss_placed_load placed[4] = {
        {.kind = SS_LOAD_TRUCK, .vehicle = 0, .x0 = 6.07, .y0 = 1.0, .line = -1},
        {.kind = SS_LOAD_TRUCK, .vehicle = 0, .backward = true, .x0 = 6.21, .y0 = 1.0, .line = -1},
        {.kind = SS_LOAD_POINT, .value = 1e3, .x0 = 2.22, .y0 = 1.0, .line = 0},
        {.kind = SS_LOAD_AREA, .value = 1e3, .x0 = 0.52, .x1 = 9.13, .y0 = 0.3, .y1 = 1.0, .line = -1},
    };
    ss_dead_load rail = {.name = "rail", .w = 300.0, .x0 = 1.07, .x1 = 8.91, .y0 = 0.4, .y1 = 0.4};
    level_car(&s, 50.0);
    s.bridge.vehicles = &truck;
    s.bridge.vehicle_count = 1;
    s.bridge.placed = placed;
    s.bridge.placed_count = 4;
    s.bridge.dead_loads = &rail;
    s.bridge.dead_load_count = 1;
    sample_mesh(&s, &mesh);
    static const double x[] = {0.0, 0.52, 1.07, 1.47, 2.22, 2.76, 4.0, 6.07, 6.21, 8.91, 9.13, 9.52, 10.0};
    CU_ASSERT_EQUAL_FATAL(mesh.station_count, ENTRIES(x));
    for (int i = 0; i < ENTRIES(x); i++) {
        check_near("station", mesh.station[i], x[i], 1e-12, 1.0);
        CU_ASSERT_TRUE(mesh.marked[i]);
    }
    ss_mesh_destroy(&mesh);
}

/* Lines that do not reach everywhere: numbers skip them, floor beams take what exists. */
static void test_short_lines(void) {
    sample s;
    ss_mesh mesh;
    level_car(&s, 2.0);
    s.bridge.lines[1].x0 = s.bridge.pieces[1].x0 = 4.0;
    CU_ASSERT_EQUAL_FATAL(
        ss_mesh_build(&s.bridge, (ss_mesh_options){.joints = true, .refine = 1}, &mesh, NULL),
        SS_ERROR_DESCRIPTION);
    s.bridge.bearings[2].x = 4.0;
    sample_mesh(&s, &mesh);
    CU_ASSERT_EQUAL(mesh.node_count, 6 + 4);
    CU_ASSERT_EQUAL(mesh.node_at[1], -1);
    CU_ASSERT_EQUAL(mesh.node_at[2 * 2 + 1], 3);
    CU_ASSERT_EQUAL(mesh.beam_first[1], 0); /* one line there: no bay */
    CU_ASSERT_EQUAL(mesh.beam_first[2], 1);
    CU_ASSERT_EQUAL(mesh.beam_first[3], 2);
    ss_mesh_destroy(&mesh);
}

/* Properties of a floor beam that changes within a bay: harmonic mean by length. */
static void test_beam_parts(void) {
    sample s;
    ss_mesh mesh;
    level_car(&s, 2.0);
    const int thin = hand_section(&s.bridge, 0.25e-4, 0.4e-6, 2e-3, 100.0);
    s.bridge.parts[3] = (ss_beam_part){0.0, 1.1, thin};
    s.bridge.parts[4] = (ss_beam_part){1.1, 2.7, 1};
    s.bridge.floor_beams[1].first_part = 3;
    s.bridge.floor_beams[1].part_count = 2;
    s.bridge.part_count = 5;
    s.bridge.hinges[0] = 1;
    s.bridge.floor_beams[1].hinge_count = 1;
    sample_mesh(&s, &mesh);
    const ss_element *e = &mesh.element[mesh.beam_element[1]];
    check_relative("length", e->length, 2.3, 1e-14);
    check_relative("EI", e->EI, 2e11 * 2.3 / (0.9 / 0.25e-4 + 1.4 / 1e-4), 1e-12);
    check_relative("GJ", e->GJ, 8e10 * 2.3 / (0.9 / 0.4e-6 + 1.4 / 1e-6), 1e-12);
    check_relative("GA", e->GA, 8e10 * 2.3 / (0.9 / 2e-3), 1e-12); /* the other part does not shear */
    CU_ASSERT_FALSE(e->hinge_a);
    CU_ASSERT_TRUE(e->hinge_b);
    CU_ASSERT_TRUE(e->across);
    ss_mesh_destroy(&mesh);
}

static void test_refusals(void) {
    sample s;
    ss_mesh mesh = {0};
    ss_error error = {0};
    const ss_mesh_options options = {.joints = true, .refine = 1};
    level_car(&s, 1e-6);
    CU_ASSERT_EQUAL(ss_mesh_build(&s.bridge, options, &mesh, &error), SS_ERROR_LIMIT);
    level_car(&s, 1.0);
    s.bridge.sections[0].set_I = 0.0;
    CU_ASSERT_EQUAL(ss_mesh_build(&s.bridge, options, &mesh, &error), SS_ERROR_DESCRIPTION);
    CU_ASSERT_STRING_EQUAL(error.message,
                           "line left of car north has no usable bending stiffness at x = 0.50 m");
    level_car(&s, 1.0);
    s.bridge.sections[1].set_I = (double)NAN;
    CU_ASSERT_EQUAL(ss_mesh_build(&s.bridge, options, &mesh, &error), SS_ERROR_DESCRIPTION);
    CU_ASSERT_STRING_EQUAL(
        error.message, "floor beam bearer of car north has no usable bending stiffness over its whole width");
    level_car(&s, 1.0);
    for (int l = 0; l < 2; l++) {
        s.bridge.lines[l].x0 = s.bridge.pieces[l].x0 = 1.0;
        s.bridge.bearings[2 * l].x = 1.0;
    }
    CU_ASSERT_EQUAL(ss_mesh_build(&s.bridge, options, &mesh, &error), SS_ERROR_DESCRIPTION);
    CU_ASSERT_STRING_EQUAL(error.message, "floor beam bearer of car north at x = 0.00 m meets no line");
    level_car(&s, 1.0);
    s.bridge.lines[1].x1 = s.bridge.pieces[1].x1 = 8.0;
    CU_ASSERT_EQUAL(ss_mesh_build(&s.bridge, options, &mesh, &error), SS_ERROR_DESCRIPTION);
    CU_ASSERT_STRING_EQUAL(error.message,
                           "bearing support: line right of car north does not reach x = 10.00 m");
    CU_ASSERT_PTR_NULL(mesh.station); /* outputs only on success */
    CU_ASSERT_EQUAL(ss_memory_live(), 0);
}

/* The n-th allocation fails, for every n: the failure is told, and nothing is left behind. */
static void test_allocation_failures(void) {
    sample s;
    level_car(&s, 2.0);
    s.bridge.bearings[0].contact = true;
    s.bridge.bearings[1].pad_width = 0.3;
    long n = 0;
    bool done = false;
    for (; !done && n < 1000; n++) {
        ss_mesh mesh = {0};
        ss_grillage *grillage = NULL;
        ss_update *update = NULL;
        ss_load load = {0};
        double flexibility[16];
        double u[128];
        double force[16];
        ss_memory_fail_from(n);
        ss_status status =
            ss_mesh_build(&s.bridge, (ss_mesh_options){.joints = true, .refine = 1}, &mesh, NULL);
        if (status == SS_OK) {
            status = ss_grillage_create(&mesh, &grillage, NULL);
        }
        if (status == SS_OK) {
            status = ss_load_create(&mesh, &load, NULL);
        }
        if (status == SS_OK) {
            for (int i = 0; i < mesh.spring_count; i++) {
                flexibility[i] = 1e-8 + mesh.spring[i].flexibility;
            }
            CU_ASSERT_FATAL(mesh.order <= 128 && mesh.spring_count <= 16);
            status = ss_update_create(grillage, flexibility, &update, NULL);
        }
        if (status == SS_OK) {
            status = ss_load_force(&load, 3.3, 1.0, 1000.0, NULL);
        }
        if (status == SS_OK) {
            status = ss_grillage_respond(grillage, update, load.nodal, NULL, u, force, NULL);
        }
        ss_memory_fail_from(-1);
        done = status == SS_OK;
        if (!done) {
            CU_ASSERT_EQUAL(status, SS_ERROR_MEMORY);
        }
        ss_update_destroy(update);
        ss_load_destroy(&load);
        ss_grillage_destroy(grillage);
        ss_mesh_destroy(&mesh);
        CU_ASSERT_EQUAL(ss_memory_live(), 0);
    }
    CU_ASSERT_TRUE(done);
    CU_ASSERT_TRUE(n > 40);
}

int main(void) {
    static const test_case cases[] = {
        {"stations", test_stations},       {"stations of loads", test_load_stations},
        {"short lines", test_short_lines}, {"floor beam parts", test_beam_parts},
        {"refusals", test_refusals},       {"allocation failures", test_allocation_failures},
    };
    return RUN_SUITE("mesh", cases);
}
