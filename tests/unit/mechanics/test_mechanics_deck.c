/* test_mechanics_deck.c - how forces on the deck come to lines and floor beams: resultants kept, kinks, gaps,
 * both directions of span. */
#include "samples.h"
#include "support/random.h"

/* A car of three lines (the middle one shorter), a car of one, a car of two; gaps between them. */
static void three_cars(sample *s, bool along, bool over_joints) {
    sample_start(s, 2e11, 8e10, 1.9);
    s->bridge.deck.along = along;
    s->bridge.deck.over_joints = over_joints;
    const int girder = hand_section(&s->bridge, 3e-4, 1e-5, 0.0, 800.0);
    const int cross = hand_section(&s->bridge, 1e-4, 1e-6, 0.0, 300.0);
    hand_car(&s->bridge, "north", 0.0, 10.0, 0.0, 2.7);
    hand_line(&s->bridge, SS_ROLE_MAIN, "left", 0.2, girder);
    hand_line(&s->bridge, SS_ROLE_MAIN, "middle", 1.3, girder);
    hand_line(&s->bridge, SS_ROLE_MAIN, "right", 2.5, girder);
    static const double x[4] = {0.0, 3.1, 6.4, 9.7};
    for (int i = 0; i < 4; i++) {
        hand_beam(&s->bridge, x[(i + 1) % 4], cross);
    } /* not in order */
    hand_car(&s->bridge, "centre", 0.7, 10.3, 2.9, 5.3);
    hand_line(&s->bridge, SS_ROLE_MAIN, "sill", 4.0, girder);
    hand_car(&s->bridge, "south", 0.0, 10.0, 5.6, 8.2);
    hand_line(&s->bridge, SS_ROLE_MAIN, "left", 6.0, girder);
    hand_line(&s->bridge, SS_ROLE_MAIN, "right", 7.9, girder);
    hand_beam(&s->bridge, 0.0, cross);
    hand_beam(&s->bridge, 5.2, cross);
    hand_beam(&s->bridge, 10.0, cross);
    s->bridge.lines[1].x0 = s->bridge.pieces[1].x0 = 1.5;
    s->bridge.lines[1].x1 = s->bridge.pieces[1].x1 = 8.5;
    for (int l = 0; l < 6; l++) {
        hand_pad(&s->bridge, l, s->bridge.lines[l].x0, 0.4);
        hand_pad(&s->bridge, l, s->bridge.lines[l].x1, 0.4);
    }
}

static bool covered(double x) {
    return x >= 0.7 && x <= 10.0;
}

/* A row of a unit force keeps force and both moments: its work over the three rigid motions is 1, y and x. */
static void check_row(const sample *s, const ss_mesh *mesh, const ss_row *row, double x, double y) {
    double force = 0.0;
    double about_x = 0.0;
    double about_y = 0.0;
    for (int i = 0; i < row->count; i++) {
        const int node = row->dof[i] / 3;
        const double v = row->value[i];
        switch (row->dof[i] % 3) {
        case 0:
            force += v;
            about_x += v * s->bridge.lines[mesh->node_line[node]].y;
            about_y += v * mesh->station[mesh->node_station[node]];
            break;
        case 1: about_x += v; break;
        default: about_y -= v; break;
        }
    }
    check_near("force", force, 1.0, 1e-12, 1.0);
    check_near("moment about x", about_x, y, 1e-11, 1.0);
    check_near("moment about y", about_y, x, 1e-11, 1.0);
}

static void test_resultants(void) {
    for (int kind = 0; kind < 4; kind++) {
        const bool over = (kind & 1) != 0;
        const bool along = (kind & 2) != 0;
        sample s;
        ss_mesh mesh;
        three_cars(&s, along, over);
        sample_mesh(&s, &mesh);
        for (double x = 0.7; x < 10.001; x += 0.31) {
            for (double y = -0.15; y < 8.4; y += 0.0913) {
                ss_row row;
                CU_ASSERT_EQUAL(ss_mesh_wheel(&mesh, x, y, &row), SS_OK);
                check_row(&s, &mesh, &row, x, y);
            }
        }
        ss_mesh_destroy(&mesh);
    }
}

/* The nodal vector of a force is the wheel's row. */
static void test_force_is_row(void) {
    for (int kind = 0; kind < 4; kind++) {
        sample s;
        ss_mesh mesh;
        ss_load load;
        three_cars(&s, (kind & 2) != 0, (kind & 1) != 0);
        sample_mesh(&s, &mesh);
        uint64_t state = 41;
        for (int round = 0; round < 60; round++) {
            const double x = 5.0 + 5.5 * next_signed(&state);
            const double y = 4.1 + 4.3 * next_signed(&state);
            ss_row row;
            CU_ASSERT_EQUAL_FATAL(ss_load_create(&mesh, &load, NULL), SS_OK);
            CU_ASSERT_EQUAL(ss_load_force(&load, x, y, 730.0, NULL), SS_OK);
            CU_ASSERT_EQUAL(ss_mesh_wheel(&mesh, x, y, &row), SS_OK);
            for (int i = 0; i < row.count; i++) {
                load.nodal[row.dof[i]] -= 730.0 * row.value[i];
            }
            for (int i = 0; i < mesh.order; i++) {
                check_near("nodal", load.nodal[i], 0.0, 1e-12, 730.0);
            }
            CU_ASSERT_EQUAL(row.count == 0, load.outside == 730.0);
            CU_ASSERT_EQUAL(row.count == 0, load.total == 0.0);
            if (covered(x)) {
                CU_ASSERT_TRUE(row.count > 0);
            }
            ss_load_destroy(&load);
        }
        ss_mesh_destroy(&mesh);
    }
}

/* Shares written out for a few places. */
static void test_shares(void) {
    sample s;
    ss_mesh mesh;
    ss_carrier c[4];
    three_cars(&s, false, false);
    sample_mesh(&s, &mesh);
    int interval = 0;
    while (mesh.station[interval + 1] < 5.0) {
        interval++;
    }
    CU_ASSERT_EQUAL(ss_mesh_deck_across(&mesh, interval, 2.05, c), 2);
    CU_ASSERT_EQUAL(c[0].line, 1);
    check_relative("lever", c[0].weight, 0.45 / 1.2, 1e-12);
    check_relative("lever", c[1].weight, 0.75 / 1.2, 1e-12);
    /* Beyond the last line, and in the nearer half of the gap. */
    CU_ASSERT_EQUAL(ss_mesh_deck_across(&mesh, interval, 2.79, c), 2);
    CU_ASSERT_EQUAL(c[1].line, 2);
    check_relative("lifts", c[0].weight, -0.29 / 1.2, 1e-12);
    check_relative("presses", c[1].weight, 1.49 / 1.2, 1e-12);
    /* In the farther half: the one-line car takes it through its arm. */
    CU_ASSERT_EQUAL(ss_mesh_deck_across(&mesh, interval, 2.81, c), 1);
    CU_ASSERT_EQUAL(c[0].line, 3);
    check_relative("arm", c[0].arm, 2.81 - 4.0, 1e-12);
    /* Where the middle line does not exist its neighbours carry. */
    CU_ASSERT_EQUAL(ss_mesh_deck_across(&mesh, 0, 1.3, c), 2);
    CU_ASSERT_EQUAL(c[0].line, 0);
    CU_ASSERT_EQUAL(c[1].line, 2);
    check_relative("lever", c[1].weight, 1.1 / 2.3, 1e-12);
    /* No car there. */
    CU_ASSERT_EQUAL(mesh.station[1] <= 0.7, true);
    CU_ASSERT_EQUAL(ss_mesh_deck_across(&mesh, 0, 4.0, c), 0);
    s.bridge.deck.over_joints = true;
    /* Over the gap: from the facing line to the edge of the one-line car. */
    CU_ASSERT_EQUAL(ss_mesh_deck_across(&mesh, interval, 2.7, c), 2);
    CU_ASSERT_EQUAL(c[0].line, 2);
    CU_ASSERT_EQUAL(c[1].line, 3);
    check_relative("lever", c[1].weight, 0.5, 1e-12);
    check_relative("arm", c[1].arm, 0.5 * (2.9 - 4.0), 1e-12);
    ss_mesh_destroy(&mesh);
}

/* Along: floor beams at any order in the list; beyond the first one the lever goes on. */
static void test_beam_shares(void) {
    sample s;
    ss_mesh mesh;
    ss_beam_share b[4];
    three_cars(&s, true, false);
    sample_mesh(&s, &mesh);
    CU_ASSERT_EQUAL(ss_mesh_deck_along(&mesh, 4.0, 2.05, b), 2);
    check_near("between", s.bridge.floor_beams[b[0].beam].x, 3.1, 1e-12, 1.0);
    check_relative("lever", b[0].weight, 2.4 / 3.3, 1e-12);
    check_relative("lever", b[1].weight, 0.9 / 3.3, 1e-12);
    check_relative("along the bay", b[0].s, 0.75 / 1.2, 1e-12);
    CU_ASSERT_EQUAL(b[0].arm, 0.0);
    CU_ASSERT_EQUAL(ss_mesh_deck_along(&mesh, 9.9, -0.1, b), 2);
    double sum = 0.0;
    double x = 0.0;
    double y = 0.0;
    for (int i = 0; i < 2; i++) {
        sum += b[i].weight;
        x += b[i].weight * s.bridge.floor_beams[b[i].beam].x;
        y += b[i].weight * 0.2 + b[i].arm;
        CU_ASSERT_EQUAL(b[i].s, 0.0);
    }
    check_near("sum", sum, 1.0, 1e-12, 1.0);
    check_near("x", x, 9.9, 1e-12, 1.0);
    check_near("y", y, -0.1, 1e-12, 1.0);
    /* The one-line car has no floor beams: it is loaded across. */
    CU_ASSERT_EQUAL(ss_mesh_deck_along(&mesh, 4.0, 4.4, b), 0);
    ss_mesh_destroy(&mesh);
}

/* Between kinks the shares are straight; at each listed jump they jump. */
static void test_kinks(void) {
    for (int over = 0; over < 2; over++) {
        sample s;
        ss_mesh mesh;
        three_cars(&s, false, over != 0);
        sample_mesh(&s, &mesh);
        for (int interval = 0; interval + 1 < mesh.station_count; interval++) {
            double y[40];
            const int count = ss_mesh_deck_kinks(&mesh, interval, y, 40);
            CU_ASSERT_TRUE(count >= 3); /* past the end of its neighbours the middle car has its line and two
                                           ends of what is its own */
            for (int k = 0; k + 1 < count; k++) {
                CU_ASSERT_TRUE(y[k + 1] > y[k]);
                double w[3][6] = {{0}};
                for (int i = 0; i < 3; i++) {
                    ss_carrier c[4];
                    const int n =
                        ss_mesh_deck_across(&mesh, interval, y[k] + (y[k + 1] - y[k]) * (0.25 + 0.25 * i), c);
                    for (int j = 0; j < n; j++) {
                        w[i][c[j].line] += c[j].weight + 0.37 * c[j].arm;
                    }
                }
                for (int l = 0; l < 6; l++) {
                    check_near("straight", w[1][l], 0.5 * (w[0][l] + w[2][l]), 1e-12, 1.0);
                }
            }
        }
        ss_mesh_destroy(&mesh);
    }
}

int main(void) {
    static const test_case cases[] = {
        {"resultants", test_resultants}, {"a force is its row", test_force_is_row},
        {"shares across", test_shares},  {"shares along", test_beam_shares},
        {"kinks", test_kinks},
    };
    return RUN_SUITE("deck", cases);
}
