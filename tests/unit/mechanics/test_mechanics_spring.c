/* test_mechanics_spring.c - changed springs, settlements, reciprocity, and what contact needs of the
 * grillage. */
#include "samples.h"
#include "support/random.h"

static const double E = 2.05e11;
static const double G = 7.9e10;

/* A car of two girders and a car of one line, joined by springs, on contact points, pads and two-way points
 * of all kinds. */
static void mixed(sample *s) {
    sample_start(s, E, G, 1.17);
    const int girder = hand_section(&s->bridge, 2.9e-4, 3.3e-6, 5e-3, 810.0);
    const int sill = hand_section(&s->bridge, 7.7e-4, 1.9e-4, 6e-3, 1700.0);
    const int cross = hand_section(&s->bridge, 0.6e-4, 0.9e-6, 2e-3, 250.0);
    hand_car(&s->bridge, "north", 0.0, 12.9, 0.0, 2.6);
    hand_line(&s->bridge, SS_ROLE_MAIN, "left", 0.25, girder);
    hand_line(&s->bridge, SS_ROLE_MAIN, "right", 2.35, girder);
    for (int i = 0; i < 4; i++) {
        hand_beam(&s->bridge, 12.9 * i / 3.0, cross);
    }
    hand_car(&s->bridge, "south", 0.4, 12.4, 2.7, 5.3);
    hand_line(&s->bridge, SS_ROLE_MAIN, "sill", 4.0, sill);
    for (int l = 0; l < 2; l++) {
        hand_bearing(&s->bridge, l, 0.0);
        s->bridge.bearings[hand_bearing(&s->bridge, l, 12.9)].spring = 4.1e7;
        s->bridge.bearings[hand_bearing(&s->bridge, l, 6.1)].contact = true;
    }
    s->bridge.bearings[1].contact = true;
    s->bridge.bearings[hand_pad(&s->bridge, 2, 0.4, 0.55)].contact = true;
    const int pad = hand_pad(&s->bridge, 2, 12.4, 0.5);
    s->bridge.bearings[pad].spring = 2.2e8;
    s->bridge.bearings[pad].contact = true;
    s->bridge.bearings[pad].rotation = 3.7e6;
    const int middle = hand_bearing(&s->bridge, 2, 7.3);
    s->bridge.bearings[middle].spring = 5.5e5;
    const int joint = hand_joint(&s->bridge, SS_JOINT_SPRINGS, 0, 1.0, 12.0);
    s->bridge.joints[joint].shear = 8.3e6;
    s->bridge.joints[joint].rotation = 2.6e5;
}

static void some_load(analysis *a, double seed) {
    CU_ASSERT_EQUAL(ss_load_force(&a->load, 3.3 + seed, 0.8, 41000.0, NULL), SS_OK);
    CU_ASSERT_EQUAL(ss_load_force(&a->load, 7.9 - seed, 3.3 + seed, 27000.0, NULL), SS_OK);
    CU_ASSERT_EQUAL(ss_load_force(&a->load, 11.7, 4.6, 18000.0, NULL), SS_OK);
}

static double work_of(int n, const double *p, const double *u) {
    double sum = 0.0;
    for (int i = 0; i < n; i++) {
        sum += p[i] * u[i];
    }
    return sum;
}

static void analyse_some_load(analysis *a, const sample *s, double seed) {
    analysis_start(a, s);
    some_load(a, seed);
    analysis_solve(a, NULL, NULL);
}

/* Betti and Maxwell: work of one load over the displacements of another. */
static void test_reciprocity(void) {
    sample s;
    analysis a;
    analysis b;
    mixed(&s);
    analyse_some_load(&a, &s, 0.0);
    analyse_some_load(&b, &s, 0.77);
    check_relative("work", work_of(a.mesh.order, a.load.nodal, b.u), work_of(a.mesh.order, b.load.nodal, a.u),
                   1e-12);
    analysis_end(&a);
    analysis_end(&b);
}

static void test_superposition(void) {
    sample s;
    analysis a;
    analysis b;
    mixed(&s);
    analyse_some_load(&a, &s, 0.31);
    analyse_some_load(&b, &s, 0.77);
    double *u = calloc((size_t)a.mesh.order, sizeof *u);
    double *p = calloc((size_t)a.mesh.spring_count, sizeof *p);
    for (int i = 0; i < a.mesh.order; i++) {
        u[i] = a.u[i] - 2.37 * b.u[i];
    }
    for (int i = 0; i < a.mesh.spring_count; i++) {
        p[i] = a.force[i] - 2.37 * b.force[i];
    }
    ss_load_add(&a.load, -2.37, &b.load);
    analysis_solve(&a, NULL, NULL);
    for (int i = 0; i < a.mesh.order; i++) {
        check_near("displacement", a.u[i], u[i], 1e-12, 1e-2);
    }
    for (int i = 0; i < a.mesh.spring_count; i++) {
        check_near("force", a.force[i], p[i], 1e-11, 50000.0);
    }
    free(u);
    free(p);
    analysis_end(&a);
    analysis_end(&b);
}

/* Every spring: force p of a load is the work of the load over the field of a unit settlement; and that field
 * is what an offset alone gives. */
static void settle_agrees(analysis *a, const ss_update *update) {
    ss_error error = {0};
    const int n = a->mesh.order;
    double *tile = calloc((size_t)n * SS_TILE, sizeof *tile);
    double *work = calloc(ss_grillage_work(a->grillage, update), sizeof *work);
    double *offset = calloc((size_t)a->mesh.spring_count, sizeof *offset);
    double *u = calloc((size_t)n, sizeof *u);
    double *p = calloc((size_t)a->mesh.spring_count, sizeof *p);
    CHECK_OK(ss_grillage_respond(a->grillage, update, a->load.nodal, NULL, a->u, a->force, &error), &error);
    for (int first = 0; first < a->mesh.spring_count; first += SS_TILE) {
        int springs[SS_TILE];
        const int count = a->mesh.spring_count - first < SS_TILE ? a->mesh.spring_count - first : SS_TILE;
        for (int k = 0; k < count; k++) {
            springs[k] = first + k;
        }
        ss_grillage_settle(a->grillage, update, count, springs, tile, work);
        for (int k = 0; k < count; k++) {
            double sum = 0.0;
            for (int i = 0; i < n; i++) {
                sum += tile[(size_t)i * SS_TILE + (size_t)k] * a->load.nodal[i];
            }
            check_near("force by Betti", sum, a->force[springs[k]], 1e-9, 5000.0);
            offset[springs[k]] = 1.0;
            CHECK_OK(ss_grillage_respond(a->grillage, update, NULL, offset, u, p, &error), &error);
            offset[springs[k]] = 0.0;
            double most = 0.0;
            for (int i = 0; i < n; i++) {
                most = fmax(most, fabs(u[i]));
            }
            for (int i = 0; i < n; i++) {
                check_near("field", tile[(size_t)i * SS_TILE + (size_t)k], u[i], 1e-9, fmax(most, 1e-9));
            }
        }
    }
    free(tile);
    free(work);
    free(offset);
    free(u);
    free(p);
}

static void test_settlements(void) {
    sample s;
    analysis a;
    mixed(&s);
    analysis_start(&a, &s);
    some_load(&a, 0.2);
    settle_agrees(&a, NULL);
    analysis_end(&a);
}

/* Changed springs against the same bridge described anew. */
static void update_agrees(double shear, double rotation, double middle) {
    sample s;
    sample t;
    analysis a;
    analysis b;
    ss_update *update = NULL;
    ss_error error = {0};
    mixed(&s);
    mixed(&t);
    t.bridge.joints[0].shear = shear;
    t.bridge.joints[0].rotation = rotation;
    t.bridge.bearings[8].spring = middle;
    t.bridge.bearings[0].spring = 3.3e7; /* rigid before */
    analysis_start(&a, &s);
    analysis_start(&b, &t);
    CU_ASSERT_EQUAL_FATAL(a.mesh.spring_count, b.mesh.spring_count);
    double *flexibility = calloc((size_t)a.mesh.spring_count, sizeof *flexibility);
    for (int i = 0; i < a.mesh.spring_count; i++) {
        flexibility[i] = b.mesh.spring[i].flexibility;
    }
    CHECK_OK(ss_update_create(a.grillage, flexibility, &update, &error), &error);
    some_load(&a, 0.2);
    some_load(&b, 0.2);
    analysis_solve(&a, update, NULL);
    analysis_solve(&b, NULL, NULL);
    for (int i = 0; i < a.mesh.order; i++) {
        check_near("displacement", a.u[i], b.u[i], 1e-9, 1e-2);
    }
    for (int i = 0; i < a.mesh.spring_count; i++) {
        check_near("force", a.force[i], b.force[i], 1e-9, 50000.0);
    }
    settle_agrees(&a, update);
    free(flexibility);
    ss_update_destroy(update);
    analysis_end(&a);
    analysis_end(&b);
}

static void test_updates(void) {
    update_agrees(8.3e6, 2.6e5, 5.5e5);
    update_agrees(1.7e3, 9.0e2, 5.5e2);
    update_agrees(6.1e10, 4.4e9, 8.8e12);
    update_agrees(6.1e10, 9.0e2, 5.5e5);
}

/* Opened springs against a bridge described without them. */
static void test_opening(void) {
    sample s;
    sample t;
    analysis a;
    analysis b;
    ss_update *update = NULL;
    ss_error error = {0};
    mixed(&s);
    mixed(&t);
    t.bridge.bearings[2].spring = 0.0; /* left girder at 6.1 */
    t.bridge.bearings[8].spring = 0.0; /* sill at 7.3 */
    t.bridge.bearings[8].rotation = 0.0;
    analysis_start(&a, &s);
    analysis_start(&b, &t);
    double *flexibility = calloc((size_t)a.mesh.spring_count, sizeof *flexibility);
    for (int i = 0; i < a.mesh.spring_count; i++) {
        const ss_spring *spring = &a.mesh.spring[i];
        const bool open = spring->owner == SS_MEMBER_BEARING && (spring->index == 2 || spring->index == 8);
        flexibility[i] = open ? (double)INFINITY : spring->flexibility;
    }
    CHECK_OK(ss_update_create(a.grillage, flexibility, &update, &error), &error);
    some_load(&a, 0.2);
    some_load(&b, 0.2);
    analysis_solve(&a, update, NULL);
    analysis_solve(&b, NULL, NULL);
    for (int i = 0; i < a.mesh.order; i++) {
        check_near("displacement", a.u[i], b.u[i], 1e-9, 1e-2);
    }
    int other = 0;
    for (int i = 0; i < a.mesh.spring_count; i++) {
        if (isinf(flexibility[i])) {
            CU_ASSERT_EQUAL(a.force[i], 0.0);
            continue;
        }
        check_near("force", a.force[i], b.force[other++], 1e-9, 50000.0);
    }
    CU_ASSERT_EQUAL(other, b.mesh.spring_count);
    settle_agrees(&a, update);
    free(flexibility);
    ss_update_destroy(update);
    analysis_end(&a);
    analysis_end(&b);
}

/* A tile of loads against one at a time, closed and changed. */
static void test_tiles(void) {
    sample s;
    analysis a;
    ss_error error = {0};
    mixed(&s);
    analysis_start(&a, &s);
    for (int round = 0; round < 2; round++) {
        ss_update *update = NULL;
        double *flexibility = calloc((size_t)a.mesh.spring_count, sizeof *flexibility);
        for (int i = 0; i < a.mesh.spring_count; i++) {
            flexibility[i] = i == 2 ? (double)INFINITY : 1.7 * a.mesh.spring[i].flexibility;
        }
        if (round == 1) {
            CHECK_OK(ss_update_create(a.grillage, flexibility, &update, &error), &error);
        }
        double *tile = calloc((size_t)a.mesh.order * SS_TILE, sizeof *tile);
        double *work = calloc(ss_grillage_work(a.grillage, update), sizeof *work);
        ss_row rows[SS_TILE];
        for (int lane = 0; lane < SS_TILE; lane++) {
            CU_ASSERT_EQUAL(ss_mesh_wheel(&a.mesh, 0.5 + 0.37 * lane, 0.1 + 0.16 * lane, &rows[lane]), SS_OK);
            for (int k = 0; k < rows[lane].count; k++) {
                tile[(size_t)rows[lane].dof[k] * SS_TILE + (size_t)lane] = 1000.0 * rows[lane].value[k];
            }
        }
        ss_grillage_solve(a.grillage, update, tile, work);
        for (int lane = 0; lane < SS_TILE; lane++) {
            memset(a.load.nodal, 0, (size_t)a.mesh.order * sizeof *a.load.nodal);
            for (int k = 0; k < rows[lane].count; k++) {
                a.load.nodal[rows[lane].dof[k]] = 1000.0 * rows[lane].value[k];
            }
            CHECK_OK(ss_grillage_respond(a.grillage, update, a.load.nodal, NULL, a.u, a.force, &error),
                     &error);
            for (int i = 0; i < a.mesh.order; i++) {
                check_near("tile", tile[(size_t)i * SS_TILE + (size_t)lane], a.u[i], 1e-10, 1e-3);
            }
        }
        free(tile);
        free(work);
        free(flexibility);
        ss_update_destroy(update);
    }
    analysis_end(&a);
}

/* S[i][j] is the change of force i when spring j is pulled open by a unit; symmetric and positive
 * semidefinite. */
static void test_contact_matrix(void) {
    sample s;
    analysis a;
    ss_error error = {0};
    const int *springs;
    const double *S;
    mixed(&s);
    analysis_start(&a, &s);
    const int m = ss_grillage_contact(a.grillage, &springs, &S);
    CU_ASSERT_EQUAL_FATAL(m, 7);
    double *offset = calloc((size_t)a.mesh.spring_count, sizeof *offset);
    double most = 0.0;
    for (int i = 0; i < m * m; i++) {
        most = fmax(most, fabs(S[i]));
    }
    for (int j = 0; j < m; j++) {
        CU_ASSERT_TRUE(a.mesh.spring[springs[j]].contact);
        offset[springs[j]] = -1.0; /* opened: the bridge is a unit above it */
        CHECK_OK(ss_grillage_respond(a.grillage, NULL, NULL, offset, a.u, a.force, &error), &error);
        offset[springs[j]] = 0.0;
        for (int i = 0; i < m; i++) {
            check_near("S", S[i * m + j], a.force[springs[i]], 1e-9, most);
            check_near("symmetric", S[i * m + j], S[j * m + i], 1e-14, most);
        }
    }
    uint64_t state = 77;
    for (int round = 0; round < 200; round++) {
        double x[16];
        double sum = 0.0;
        for (int i = 0; i < m; i++) {
            x[i] = next_signed(&state);
        }
        for (int i = 0; i < m; i++) {
            for (int j = 0; j < m; j++) {
                sum += x[i] * S[i * m + j] * x[j];
            }
        }
        CU_ASSERT_TRUE(sum >= -1e-14 * most);
    }
    free(offset);
    analysis_end(&a);
}

/* Opening a contact by what brings its force to zero is the same as a spring described open (forces elsewhere
 * agree). */
static void test_contact_matrix_opens(void) {
    sample s;
    analysis a;
    ss_update *update = NULL;
    ss_error error = {0};
    const int *springs;
    const double *S;
    mixed(&s);
    analysis_start(&a, &s);
    some_load(&a, 0.5);
    analysis_solve(&a, NULL, NULL);
    const int m = ss_grillage_contact(a.grillage, &springs, &S);
    double *flexibility = calloc((size_t)a.mesh.spring_count, sizeof *flexibility);
    double *r = calloc((size_t)m, sizeof *r);
    const int open = 1;
    const double gap = -a.force[springs[open]] / S[open * m + open];
    for (int i = 0; i < m; i++) {
        r[i] = a.force[springs[i]] + S[i * m + open] * gap;
    }
    for (int i = 0; i < a.mesh.spring_count; i++) {
        flexibility[i] = i == springs[open] ? (double)INFINITY : a.mesh.spring[i].flexibility;
    }
    CHECK_OK(ss_update_create(a.grillage, flexibility, &update, &error), &error);
    analysis_solve(&a, update, NULL);
    for (int i = 0; i < m; i++) {
        check_near("force", a.force[springs[i]], r[i], 1e-9, 50000.0);
    }
    const ss_row *row = &a.mesh.spring[springs[open]].row;
    double d = 0.0;
    for (int k = 0; k < row->count; k++) {
        d += row->value[k] * a.u[row->dof[k]];
    }
    check_near("gap", -d, gap, 1e-9, gap);
    free(flexibility);
    free(r);
    ss_update_destroy(update);
    analysis_end(&a);
}

/* Statically determinate: nothing resists a settlement, and rounding must not look as if something did. */
static void test_determinate(void) {
    sample s;
    analysis a;
    const int *springs;
    const double *S;
    sample_start(&s, E, G, 0.35);
    const int sill = hand_section(&s.bridge, 7.7e-4, 1.9e-4, 6e-3, 1700.0);
    hand_car(&s.bridge, "south", 0.0, 17.7, 2.7, 5.3);
    hand_line(&s.bridge, SS_ROLE_MAIN, "sill", 4.0, sill);
    s.bridge.bearings[hand_pad(&s.bridge, 0, 1.9, 0.55)].contact = true;
    s.bridge.bearings[hand_bearing(&s.bridge, 0, 14.9)].contact = true;
    analysis_start(&a, &s);
    const int m = ss_grillage_contact(a.grillage, &springs, &S);
    CU_ASSERT_EQUAL_FATAL(m, 3);
    for (int i = 0; i < m * m; i++) {
        CU_ASSERT_EQUAL(S[i], 0.0);
    }
    analysis_end(&a);
}

int main(void) {
    static const test_case cases[] = {
        {"reciprocity", test_reciprocity},
        {"superposition", test_superposition},
        {"settlements", test_settlements},
        {"changed springs", test_updates},
        {"opened springs", test_opening},
        {"tiles", test_tiles},
        {"contact matrix", test_contact_matrix},
        {"contact matrix opens", test_contact_matrix_opens},
        {"statically determinate", test_determinate},
    };
    return RUN_SUITE("spring", cases);
}
