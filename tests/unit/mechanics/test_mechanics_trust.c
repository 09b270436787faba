/* test_mechanics_trust.c - random supports: mechanisms are told from sound bridges, alike by description and
 * by update; accuracy for any stiffness. */
#include "samples.h"
#include "support/random.h"

static const double E = 2.02e11;
static const double G = 7.7e10;

/* Two cars of a sill and two girders, rows of bearings under all lines; a third of the points are rigid. */
static void two_cars(sample *s, double J, bool hinged) {
    sample_start(s, E, G, 1.1);
    const int sill = hand_section(&s->bridge, 1.9e-3, J, 0.011, 1900.0);
    const int edge = hand_section(&s->bridge, 1.3e-4, 4e-7, 3.8e-3, 490.0);
    const int cross = hand_section(&s->bridge, 9e-5, 3e-7, 2.7e-3, 400.0);
    for (int c = 0; c < 2; c++) {
        const double y = 2.95 * c;
        hand_car(&s->bridge, c == 0 ? "north" : "south", 0.0, 15.4, y, y + 2.84);
        const int left = hand_line(&s->bridge, SS_ROLE_MAIN, "left", y + 0.05, edge);
        const int middle = hand_line(&s->bridge, SS_ROLE_MAIN, "sill", y + 1.42, sill);
        const int right = hand_line(&s->bridge, SS_ROLE_MAIN, "right", y + 2.79, edge);
        for (int i = 0; i < 6; i++) {
            hand_beam(&s->bridge, 15.4 * i / 5.0, cross);
        }
        for (int i = 0; i < 2; i++) {
            hand_pad(&s->bridge, middle, i == 0 ? 2.1 : 13.3, 0.35);
            const int outer[3] = {left, middle, right};
            for (int l = 0; l < 3; l++) {
                hand_bearing(&s->bridge, outer[l], 15.4 * i);
            }
        }
    }
    for (int i = 0; i < s->bridge.bearing_count; i++) {
        s->bridge.bearings[i].contact = true;
        s->bridge.bearings[i].spring = i % 3 == 0 ? (double)INFINITY : 3.5e7;
    }
    if (hinged) {
        hand_joint(&s->bridge, SS_JOINT_HINGED, 0, 0.6, 14.8);
    }
}

static ss_status described(sample *s, const bool *open, double *rcond) {
    ss_mesh mesh = {0};
    ss_grillage *grillage = NULL;
    double kept[HAND_MOST];
    for (int i = 0; i < s->bridge.bearing_count; i++) {
        kept[i] = s->bridge.bearings[i].spring;
        if (open[i]) {
            s->bridge.bearings[i].spring = 0.0;
        }
    }
    ss_status status = ss_mesh_build(&s->bridge, (ss_mesh_options){.joints = true, .refine = 1}, &mesh, NULL);
    if (status == SS_OK) {
        status = ss_grillage_create(&mesh, &grillage, NULL);
    }
    if (status == SS_OK) {
        *rcond = fmin(*rcond, ss_grillage_trust(grillage)->rcond);
    }
    ss_grillage_destroy(grillage);
    ss_mesh_destroy(&mesh);
    for (int i = 0; i < s->bridge.bearing_count; i++) {
        s->bridge.bearings[i].spring = kept[i];
    }
    return status;
}

/* The description goes by the rank of the supports and the band matrix, the update by rank and the small
 * system: they must agree. */
static void test_random_openings(void) {
    uint64_t state = 5;
    int held = 0;
    int moving = 0;
    int well = 0;
    double rcond = 1.0;
    for (int model = 0; model < 4; model++) {
        sample s;
        analysis a;
        two_cars(&s, model % 2 == 0 ? 1.5e-6 : 9e-4, model >= 2);
        analysis_start(&a, &s);
        double *flexibility = calloc((size_t)a.mesh.spring_count, sizeof *flexibility);
        for (int round = 0; round < 120; round++) {
            bool open[HAND_MOST];
            ss_update *update = NULL;
            ss_error error = {0};
            const double most = 0.5 + 0.45 * next_signed(&state);
            for (int i = 0; i < s.bridge.bearing_count; i++) {
                open[i] = 0.5 * (next_signed(&state) + 1.0) < most;
            }
            for (int i = 0; i < a.mesh.spring_count; i++) {
                const ss_spring *spring = &a.mesh.spring[i];
                const bool gone = spring->owner == SS_MEMBER_BEARING && open[spring->index];
                flexibility[i] = gone ? (double)INFINITY : spring->flexibility;
            }
            const ss_status truth = described(&s, open, &rcond);
            const ss_status found = ss_update_create(a.grillage, flexibility, &update, &error);
            CU_ASSERT_EQUAL(truth, found);
            CU_ASSERT_TRUE(truth == SS_OK || truth == SS_ERROR_MECHANISM);
            held += truth == SS_OK;
            moving += truth != SS_OK;
            if (found == SS_OK) {
                memset(a.load.nodal, 0, (size_t)a.mesh.order * sizeof *a.load.nodal);
                a.load.total = a.load.moment_x = a.load.moment_y = 0.0;
                CU_ASSERT_EQUAL(ss_load_force(&a.load, 6.6, 1.9, 5e4, NULL), SS_OK);
                CHECK_OK(ss_grillage_respond(a.grillage, update, a.load.nodal, NULL, a.u, a.force, &error),
                         &error);
                /* Some of these are held by next to nothing: displacements 1e5 times those of the closed
                 * bridge, with their rounding. */
                const double off = ss_grillage_equilibrium(a.grillage, &a.load, a.force);
                check_near("equilibrium", off, 0.0, 1e-11, 1.0);
                well += off < 1e-14;
            }
            ss_update_destroy(update);
        }
        free(flexibility);
        analysis_end(&a);
    }
    CU_ASSERT_TRUE(held > 100 && moving > 100);
    CU_ASSERT_TRUE(well > 9 * held / 10);
    CU_ASSERT_TRUE(rcond > 1e-12);
}

/* Springs from 1 to 1e18 N/m at every other bearing: the solution stays in balance, and changes smoothly into
 * that of rigid ones. */
static void test_any_stiffness(void) {
    sample s;
    analysis a;
    analysis rigid;
    two_cars(&s, 9e-4, true);
    for (int i = 0; i < s.bridge.bearing_count; i++) {
        s.bridge.bearings[i].spring = (double)INFINITY;
    }
    analysis_start(&rigid, &s);
    ss_load_force(&rigid.load, 6.6, 1.9, 5e4, NULL);
    analysis_solve(&rigid, NULL, NULL);
    for (int power = 0; power <= 18; power += 2) {
        for (int i = 0; i < s.bridge.bearing_count; i += 2) {
            s.bridge.bearings[i].spring = 3.1 * pow(10.0, power);
        }
        analysis_start(&a, &s);
        ss_load_force(&a.load, 6.6, 1.9, 5e4, NULL);
        analysis_solve(&a, NULL, NULL); /* checks equilibrium to 1e-12 */
        CU_ASSERT_FALSE(ss_grillage_trust(a.grillage)->doubtful);
        if (power == 18) {
            for (int i = 0; i < a.mesh.spring_count; i++) {
                check_near("as rigid", a.force[i], rigid.force[i], 1e-9, 5e4);
            }
        }
        analysis_end(&a);
    }
    analysis_end(&rigid);
}

int main(void) {
    static const test_case cases[] = {{"random openings", test_random_openings},
                                      {"any stiffness", test_any_stiffness}};
    return RUN_SUITE("trust", cases);
}
