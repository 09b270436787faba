/* test_mechanics_joint.c - joints between cars: rigid against one body, hinged, springs of any stiffness,
 * redundant rows. */
#include "samples.h"

static const double E = 2.03e11;
static const double G = 7.8e10;

/* Two cars of two girders each with floor beams, on point bearings under all girders; the joint is added by
 * the test. */
static void two_cars(sample *s, double shared_y) {
    sample_start(s, E, G, 1.3);
    const int girder = hand_section(&s->bridge, 3.1e-4, 2.2e-6, 4e-3, 900.0);
    const int cross = hand_section(&s->bridge, 0.7e-4, 1.1e-6, 0.0, 300.0);
    const double half = 2.6;
    static const char *const names[2] = {"north", "south"};
    for (int c = 0; c < 2; c++) {
        hand_car(&s->bridge, names[c], 0.0, 11.0, c * (half + shared_y), half + c * (half + shared_y));
        const int left =
            hand_line(&s->bridge, SS_ROLE_MAIN, "left", c * (half + shared_y) + (c == 0 ? 0.3 : 0.0), girder);
        const int right = hand_line(&s->bridge, SS_ROLE_MAIN, "right",
                                    half + c * (half + shared_y) - (c == 1 ? 0.3 : 0.0), girder);
        for (int i = 0; i < 5; i++) {
            hand_beam(&s->bridge, 11.0 * i / 4.0, cross);
        }
        for (int i = 0; i < 2; i++) {
            hand_bearing(&s->bridge, left, 11.0 * i);
            hand_bearing(&s->bridge, right, 11.0 * i);
        }
    }
}

/* Cars whose facing girders have no gap, joined rigidly at every station: as one girder of both. Exactly so
 * without torsion of the floor beams and with loads at stations and off the facing girders: between stations
 * these are then bent alike by themselves. */
static void test_rigid_is_one_body(void) {
    sample s;
    sample one;
    analysis a;
    analysis b;
    two_cars(&s, 0.0);
    s.bridge.sections[1].set_J = 0.0;
    hand_joint(&s.bridge, SS_JOINT_RIGID, 0, 0.0, 11.0);
    /* The same as one car of three lines, the middle one twice as stiff. */
    sample_start(&one, E, G, 1.3);
    const int girder = hand_section(&one.bridge, 3.1e-4, 2.2e-6, 4e-3, 900.0);
    const int twice = hand_section(&one.bridge, 6.2e-4, 4.4e-6, 8e-3, 900.0);
    const int cross = hand_section(&one.bridge, 0.7e-4, 0.0, 0.0, 300.0);
    hand_car(&one.bridge, "both", 0.0, 11.0, 0.0, 5.2);
    hand_line(&one.bridge, SS_ROLE_MAIN, "left", 0.3, girder);
    hand_line(&one.bridge, SS_ROLE_MAIN, "middle", 2.6, twice);
    hand_line(&one.bridge, SS_ROLE_MAIN, "right", 4.9, girder);
    for (int i = 0; i < 5; i++) {
        hand_beam(&one.bridge, 11.0 * i / 4.0, cross);
    }
    for (int l = 0; l < 3; l++) {
        hand_bearing(&one.bridge, l, 0.0);
        hand_bearing(&one.bridge, l, 11.0);
    }
    analysis_start(&a, &s);
    analysis_start(&b, &one);
    CU_ASSERT_EQUAL(a.mesh.station_count, b.mesh.station_count);
    ss_load_force(&a.load, a.mesh.station[5], 0.3, 61000.0, NULL);
    ss_load_force(&b.load, b.mesh.station[5], 0.3, 61000.0, NULL);
    ss_load_force(&a.load, a.mesh.station[8], 4.9, 23000.0, NULL);
    ss_load_force(&b.load, b.mesh.station[8], 4.9, 23000.0, NULL);
    analysis_solve(&a, NULL, NULL);
    analysis_solve(&b, NULL, NULL);
    static const int lines[4] = {0, 1, 1, 2};
    for (int station = 0; station < a.mesh.station_count; station++) {
        for (int l = 0; l < 4; l++) {
            const double w = a.u[3 * a.mesh.node_at[4 * station + l]];
            check_near("deflection", w, b.u[3 * b.mesh.node_at[3 * station + lines[l]]], 1e-9, 0.01);
        }
        const double rotation = a.u[3 * a.mesh.node_at[4 * station + 1] + 1];
        check_near("rotation", rotation, b.u[3 * b.mesh.node_at[3 * station + 1] + 1], 1e-9, 0.01);
    }
    const double x = a.mesh.station[4];
    check_near("moment",
               line_effect(&a, 1, x, false, SS_EFFECT_MOMENT) +
                   line_effect(&a, 2, x, false, SS_EFFECT_MOMENT),
               line_effect(&b, 1, x, false, SS_EFFECT_MOMENT), 1e-9, 1e5);
    check_relative("reaction", reaction(&a, 0), reaction(&b, 0), 1e-9);
    check_relative("reactions of the middle", reaction(&a, 1) + reaction(&a, 4), reaction(&b, 2), 1e-9);
    analysis_end(&a);
    analysis_end(&b);
}

/* Edge movements at the middle of the gap, from the displacements. */
static double edge(const analysis *a, const sample *s, int line, int station, double y) {
    const int node = a->mesh.node_at[station * s->bridge.line_count + line];
    return a->u[3 * node] + (y - s->bridge.lines[line].y) * a->u[3 * node + 1];
}

/* Hinged: edges go together, no fold is passed, and forces are those of a balance of each car. */
static void test_hinged(void) {
    sample s;
    analysis a;
    two_cars(&s, 0.11);
    hand_joint(&s.bridge, SS_JOINT_HINGED, 0, 0.0, 11.0);
    analysis_start(&a, &s);
    ss_load_force(&a.load, 3.9, 1.1, 52000.0, NULL);
    analysis_solve(&a, NULL, NULL);
    double joint_force = 0.0;
    for (int i = 0; i < a.mesh.spring_count; i++) {
        const ss_spring *spring = &a.mesh.spring[i];
        if (spring->owner != SS_MEMBER_JOINT) {
            continue;
        }
        CU_ASSERT_EQUAL(spring->kind, SS_SPRING_VERTICAL);
        joint_force += a.force[i];
    }
    for (int station = 0; station < a.mesh.station_count; station++) {
        check_near("edges", edge(&a, &s, 1, station, s.bridge.joints[0].y),
                   edge(&a, &s, 2, station, s.bridge.joints[0].y), 1e-11, 1e-3);
    }
    double south = 0.0;
    for (int i = 4; i < 8; i++) {
        south += reaction(&a, i);
    }
    /* All that the south car's bearings feel comes through the joint. */
    check_relative("through the joint", joint_force, south, 1e-9);
    CU_ASSERT_TRUE(joint_force > 1000.0);
    analysis_end(&a);
}

/* From next to nothing to far beyond rigid, described as springs: spring forces stay right, and the ends of
 * the range are free and hinged. */
static void test_spring_range(void) {
    sample s;
    analysis hinged;
    analysis a;
    two_cars(&s, 0.11);
    hand_joint(&s.bridge, SS_JOINT_HINGED, 0, 0.0, 11.0);
    analysis_start(&hinged, &s);
    ss_load_force(&hinged.load, 3.9, 1.1, 52000.0, NULL);
    analysis_solve(&hinged, NULL, NULL);
    s.bridge.joints[0].kind = SS_JOINT_SPRINGS;
    double before = 0.0;
    double limit = 0.0;
    for (int i = 4; i < 8; i++) {
        limit += reaction(&hinged, i);
    }
    for (int power = 0; power <= 18; power++) {
        s.bridge.joints[0].shear = 2.7 * pow(10.0, power);
        analysis_start(&a, &s);
        ss_load_force(&a.load, 3.9, 1.1, 52000.0, NULL);
        analysis_solve(&a, NULL, NULL);
        double shared = 0.0;
        double south = 0.0;
        for (int i = 0; i < a.mesh.spring_count; i++) {
            const ss_spring *spring = &a.mesh.spring[i];
            if (spring->owner == SS_MEMBER_JOINT) {
                shared += a.force[i];
            }
        }
        for (int i = 4; i < 8; i++) {
            south += reaction(&a, i);
        }
        check_near("through the joint", shared, south, 1e-9, fabs(south));
        /* Soft: in proportion to the stiffness. Stiff: what is missing from the hinge goes down as its
         * inverse. */
        if (power == 1) {
            check_relative("proportional", south, 10.0 * before, 1e-3);
        }
        if (power >= 14 && power <= 16) {
            check_relative("what is missing", south - limit, 0.1 * (before - limit), 1e-3);
        }
        before = south;
        /* What is left of the spring's give at 2.7e18 is 1e-11 of the structure's. */
        if (power == 18) {
            for (int i = 0; i < a.mesh.order; i++) {
                check_near("as hinged", a.u[i], hinged.u[i], 1e-9, 0.01);
            }
            for (int i = 0; i < a.mesh.spring_count; i++) {
                check_near("forces as hinged", a.force[i], hinged.force[i], 1e-9, 52000.0);
            }
        }
        analysis_end(&a);
    }
    analysis_end(&hinged);
}

/* With two equal cars in the same state, the joint feels nothing under a load that mirrors itself, and half
 * shares come from symmetry. */
static void test_mirror(void) {
    sample s;
    analysis a;
    two_cars(&s, 0.2);
    const int joint = hand_joint(&s.bridge, SS_JOINT_SPRINGS, 0, 0.0, 11.0);
    s.bridge.joints[joint].shear = 4.4e6;
    s.bridge.joints[joint].rotation = 3.1e5;
    const double middle = 2.6 + 0.1;
    analysis_start(&a, &s);
    ss_load_force(&a.load, 4.1, middle - 1.7, 30000.0, NULL);
    ss_load_force(&a.load, 4.1, middle + 1.7, 30000.0, NULL);
    analysis_solve(&a, NULL, NULL);
    for (int i = 0; i < a.mesh.spring_count; i++) {
        const ss_spring *spring = &a.mesh.spring[i];
        if (spring->owner == SS_MEMBER_JOINT && spring->kind == SS_SPRING_VERTICAL) {
            check_near("joint shear", a.force[i], 0.0, 1e-9, 30000.0);
        }
    }
    for (int station = 0; station < a.mesh.station_count; station++) {
        for (int l = 0; l < 2; l++) {
            const int left = a.mesh.node_at[4 * station + l];
            const int right = a.mesh.node_at[4 * station + 3 - l];
            check_near("deflection", a.u[3 * left], a.u[3 * right], 1e-11, 0.01);
            check_near("roll", a.u[3 * left + 1], -a.u[3 * right + 1], 1e-11, 0.01);
            check_near("slope", a.u[3 * left + 2], a.u[3 * right + 2], 1e-11, 0.01);
        }
    }
    analysis_end(&a);
}

/* A rigid joint above rigid pads of both cars: its rows at the ends follow from the pads'. Statics must not
 * suffer, and the pads carry what stands on them. */
static void test_redundant(void) {
    sample s;
    analysis a;
    sample_start(&s, E, G, 1.1);
    const int girder = hand_section(&s.bridge, 3.1e-4, 2.2e-5, 4e-3, 900.0);
    for (int c = 0; c < 2; c++) {
        hand_car(&s.bridge, c == 0 ? "north" : "south", 0.0, 9.0, 2.7 * c, 2.5 + 2.7 * c);
        const int line = hand_line(&s.bridge, SS_ROLE_MAIN, "sill", 1.25 + 2.7 * c, girder);
        hand_pad(&s.bridge, line, 0.0, 0.6);
        hand_pad(&s.bridge, line, 9.0, 0.6);
    }
    hand_joint(&s.bridge, SS_JOINT_RIGID, 0, 0.0, 9.0);
    analysis_start(&a, &s);
    ss_load_force(&a.load, 0.0, 1.0, 70000.0, NULL);
    analysis_solve(&a, NULL, NULL);
    check_relative("what stands on a pad", reaction(&a, 0), 70000.0, 1e-9);
    check_near("its neighbour", reaction(&a, 2), 0.0, 1e-9, 70000.0);
    analysis_end(&a);
    analysis_start(&a, &s);
    ss_load_force(&a.load, 4.2, 1.25, 70000.0, NULL);
    analysis_solve(&a, NULL, NULL);
    /* Rigid across: both sills sink and turn alike, so the moments are halves apart from the torsion that the
     * arm calls up. */
    const double x = a.mesh.station[4];
    const int node = a.mesh.node_at[2 * 4];
    const int other = a.mesh.node_at[2 * 4 + 1];
    check_near("rolls alike", a.u[3 * node + 1], a.u[3 * other + 1], 1e-10, 1e-3);
    check_near("one body", a.u[3 * other] - a.u[3 * node], 2.7 * a.u[3 * node + 1], 1e-10, 1e-3);
    CU_ASSERT_TRUE(line_effect(&a, 1, x, false, SS_EFFECT_MOMENT) > 0.0);
    analysis_end(&a);
}

/* Connectors: one vertical and one fold spring each, at their stations only. */
static void test_connectors(void) {
    sample s;
    analysis a;
    two_cars(&s, 0.11);
    const int joint = hand_joint(&s.bridge, SS_JOINT_SPRINGS, 0, 0.0, 11.0);
    static const double at[3] = {2.37, 5.5, 8.63};
    memcpy(s.bridge.connectors, at, sizeof at);
    s.bridge.connector_count = s.bridge.joints[joint].connector_count = 3;
    s.bridge.joints[joint].shear = 5.2e7;
    s.bridge.joints[joint].rotation = 1.9e6;
    analysis_start(&a, &s);
    ss_load_force(&a.load, 5.5, 1.0, 40000.0, NULL);
    analysis_solve(&a, NULL, NULL);
    int found = 0;
    for (int i = 0; i < a.mesh.spring_count; i++) {
        const ss_spring *spring = &a.mesh.spring[i];
        if (spring->owner != SS_MEMBER_JOINT) {
            continue;
        }
        check_near("place", spring->x, at[found / 2], 1e-12, 1.0);
        CU_ASSERT_EQUAL(spring->length, 1.0);
        CU_ASSERT_EQUAL(spring->kind, found % 2 == 0 ? SS_SPRING_VERTICAL : SS_SPRING_FOLD);
        const int station = (int)(a.mesh.node_station[spring->row.dof[0] / 3]);
        const double d = found % 2 == 0 ? edge(&a, &s, 1, station, s.bridge.joints[0].y) -
                                              edge(&a, &s, 2, station, s.bridge.joints[0].y)
                                        : a.u[3 * a.mesh.node_at[4 * station + 1] + 1] -
                                              a.u[3 * a.mesh.node_at[4 * station + 2] + 1];
        check_relative("force", a.force[i], d * (found % 2 == 0 ? 5.2e7 : 1.9e6), 1e-9);
        found++;
    }
    CU_ASSERT_EQUAL(found, 6);
    analysis_end(&a);
}

/* Tributary lengths add up to the joint, and a missing line leaves its stations out. */
static void test_lengths(void) {
    sample s;
    ss_mesh mesh;
    two_cars(&s, 0.11);
    hand_joint(&s.bridge, SS_JOINT_RIGID, 0, 1.7, 9.9);
    sample_mesh(&s, &mesh);
    double sum[3] = {0};
    for (int i = 0; i < mesh.spring_count; i++) {
        if (mesh.spring[i].owner == SS_MEMBER_JOINT) {
            sum[mesh.spring[i].kind] += mesh.spring[i].length;
        }
    }
    check_relative("vertical", sum[SS_SPRING_VERTICAL], 8.2, 1e-12);
    check_relative("fold", sum[SS_SPRING_FOLD], 8.2, 1e-12);
    ss_mesh_destroy(&mesh);
    CU_ASSERT_EQUAL_FATAL(
        ss_mesh_build(&s.bridge, (ss_mesh_options){.joints = false, .refine = 1}, &mesh, NULL), SS_OK);
    CU_ASSERT_EQUAL(mesh.spring_count, 8);
    ss_mesh_destroy(&mesh);
    for (int l = 2; l < 4; l++) {
        s.bridge.lines[l].x0 = s.bridge.pieces[l].x0 = 2.9;
        s.bridge.bearings[l == 2 ? 4 : 5].x = 2.9;
    }
    s.bridge.cars[1].x0 = 2.9;
    s.bridge.bearings[4].line = 2;
    s.bridge.bearings[5].line = 3;
    s.bridge.floor_beams[5].x = 2.9;
    s.bridge.floor_beams[6].x = 4.0;
    ss_error error = {0};
    CHECK_OK(ss_mesh_build(&s.bridge, (ss_mesh_options){.joints = true, .refine = 1}, &mesh, &error), &error);
    sum[SS_SPRING_VERTICAL] = 0.0;
    for (int i = 0; i < mesh.spring_count; i++) {
        if (mesh.spring[i].owner == SS_MEMBER_JOINT) {
            sum[mesh.spring[i].kind] += mesh.spring[i].length;
        }
    }
    check_relative("beside the shorter car", sum[SS_SPRING_VERTICAL], 7.0, 1e-12);
    ss_mesh_destroy(&mesh);
}

int main(void) {
    static const test_case cases[] = {
        {"rigid is one body", test_rigid_is_one_body},
        {"hinged", test_hinged},
        {"spring range", test_spring_range},
        {"mirror", test_mirror},
        {"redundant rows", test_redundant},
        {"connectors", test_connectors},
        {"lengths", test_lengths},
    };
    return RUN_SUITE("joint", cases);
}
