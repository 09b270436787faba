/* test_mechanics_mechanism.c - bridges that are not held, refused in words. */
#include "samples.h"

static const double E = 2.05e11;
static const double G = 7.9e10;

static ss_status attempt(const sample *s, ss_error *error) {
    ss_mesh mesh = {0};
    ss_grillage *grillage = NULL;
    ss_status status =
        ss_mesh_build(&s->bridge, (ss_mesh_options){.joints = true, .refine = 1}, &mesh, error);
    if (status == SS_OK) {
        status = ss_grillage_create(&mesh, &grillage, error);
    }
    ss_grillage_destroy(grillage);
    ss_mesh_destroy(&mesh);
    return status;
}

static void refused(const sample *s, const char *words) {
    ss_error error = {0};
    const ss_status status = attempt(s, &error);
    if (status != SS_ERROR_MECHANISM || strcmp(error.message, words) != 0) {
        printf("\n  status %d: %s", (int)status, error.message);
    }
    CU_ASSERT_EQUAL(status, SS_ERROR_MECHANISM);
    CU_ASSERT_STRING_EQUAL(error.message, words);
}

static void accepted(const sample *s) {
    ss_error error = {0};
    const ss_status status = attempt(s, &error);
    if (status != SS_OK) {
        printf("\n  refused: %s", error.message);
    }
    CU_ASSERT_EQUAL(status, SS_OK);
}

/* Cars of one line 2.4 m wide, 0.1 m apart, on points at both ends. */
static void single_lines(sample *s, int cars) {
    static const char *const names[3] = {"north", "south", "far"};
    sample_start(s, E, G, 1.7);
    const int sill = hand_section(&s->bridge, 6e-4, 1.1e-4, 5e-3, 1500.0);
    for (int c = 0; c < cars; c++) {
        hand_car(&s->bridge, names[c], 0.0, 13.0, 2.5 * c, 2.5 * c + 2.4);
        const int line = hand_line(&s->bridge, SS_ROLE_MAIN, "sill", 2.5 * c + 1.2, sill);
        hand_bearing(&s->bridge, line, 0.0);
        hand_bearing(&s->bridge, line, 13.0);
    }
}

static void test_rolls(void) {
    sample s;
    single_lines(&s, 1);
    refused(&s, "car north can roll about its bearings: they stand under one line (y = 1.20 m) and have no "
                "pad width");
    s.bridge.bearings[1].pad_width = 0.2;
    accepted(&s);
    single_lines(&s, 2);
    s.bridge.bearings[0].pad_width = 0.2;
    refused(&s, "car south can roll about its bearings: they stand under one line (y = 3.70 m) and have no "
                "pad width");
}

/* A hinge between cars on single points: the pair holds as one body, but each car rolls about its points and
 * the hinge. */
static void test_hinged_points(void) {
    sample s;
    ss_error error = {0};
    single_lines(&s, 2);
    const int joint = hand_joint(&s.bridge, SS_JOINT_HINGED, 0, 0.0, 13.0);
    CU_ASSERT_EQUAL(attempt(&s, &error), SS_ERROR_MECHANISM);
    CU_ASSERT_PTR_NOT_NULL(strstr(error.message, "is not held: it can"));
    s.bridge.joints[joint].kind = SS_JOINT_RIGID;
    accepted(&s);
    /* Three cars in a row, rigid between two of them only. */
    single_lines(&s, 3);
    hand_joint(&s.bridge, SS_JOINT_RIGID, 0, 0.0, 13.0);
    refused(
        &s,
        "car far can roll about its bearings: they stand under one line (y = 6.20 m) and have no pad width");
    hand_joint(&s.bridge, SS_JOINT_HINGED, 1, 0.0, 13.0);
    accepted(&s);
}

static void two_girders(sample *s) {
    sample_start(s, E, G, 1.9);
    const int girder = hand_section(&s->bridge, 3e-4, 1e-5, 0.0, 800.0);
    const int cross = hand_section(&s->bridge, 1e-4, 1e-6, 0.0, 300.0);
    hand_car(&s->bridge, "north", 0.0, 10.0, 0.0, 2.7);
    hand_line(&s->bridge, SS_ROLE_MAIN, "left", 0.2, girder);
    hand_line(&s->bridge, SS_ROLE_MAIN, "right", 2.5, girder);
    for (int i = 0; i < 3; i++) {
        hand_beam(&s->bridge, 5.0 * i, cross);
    }
}

static void test_support_words(void) {
    sample s;
    two_girders(&s);
    refused(&s, "car north cannot be held: no bearing carries it");
    hand_bearing(&s.bridge, 0, 5.0);
    refused(&s,
            "car north can roll and tip: its bearings stand at one point, x = 5.00 m, or hold nothing else");
    hand_bearing(&s.bridge, 1, 5.0);
    refused(&s, "car north can tip end over end: its bearings all stand at x = 5.00 m");
    hand_bearing(&s.bridge, 1, 0.0);
    accepted(&s);
    /* A slope that is held does instead of a second place. */
    s.bridge.bearing_count = 2;
    s.bridge.bearings[0].rotation = 4e6;
    accepted(&s);
    two_girders(&s);
    hand_bearing(&s.bridge, 0, 0.0);
    hand_bearing(&s.bridge, 1, 10.0);
    refused(&s, "car north can turn about the line through its bearings: they stand in one straight line");
}

/* Within one car: girders joined by floor beams that pass no bending at one or both. Their twist is then
 * idle, which is no reason to refuse; a girder on one point that only the floor beams' torsion keeps up is.
 */
static void test_inner_mechanism(void) {
    sample s;
    analysis a;
    two_girders(&s);
    hand_bearing(&s.bridge, 0, 0.0);
    hand_bearing(&s.bridge, 0, 10.0);
    hand_bearing(&s.bridge, 1, 0.0);
    accepted(&s);
    s.bridge.hinges[0] = 1;
    s.bridge.hinges[1] = 0;
    for (int count = 1; count <= 2; count++) {
        s.bridge.hinge_count = count;
        for (int i = 0; i < 3; i++) {
            s.bridge.floor_beams[i].hinge_count = count;
        }
        analysis_start(&a, &s);
        ss_load_force(&a.load, 3.3, 1.1, 20000.0, NULL);
        analysis_solve(&a, NULL, NULL); /* in balance: the idle twists are held in vain */
        analysis_end(&a);
    }
    s.bridge.sections[1].set_J = 0.0;
    refused(&s, "line right of car north is not held: it can sink most at x = 10.00 m");
    /* Nothing under the right girder at all: as one body the car is held by the left one. */
    s.bridge.bearings[0].pad_width = 0.3;
    s.bridge.bearing_count = 2;
    ss_error error = {0};
    CU_ASSERT_EQUAL(attempt(&s, &error), SS_ERROR_MECHANISM);
    CU_ASSERT_PTR_NOT_NULL(
        strstr(error.message, "line right of car north is not held: it can sink most at x ="));
    CU_ASSERT_PTR_NOT_NULL(strstr(error.message, "(2 free motions in all)"));
}

/* No torsional stiffness: pinned where nothing turns it, refused where the car would fall over. */
static void test_no_torsion(void) {
    sample s;
    two_girders(&s);
    s.bridge.sections[0].set_J = 0.0;
    for (int l = 0; l < 2; l++) {
        hand_bearing(&s.bridge, l, 0.0);
        hand_bearing(&s.bridge, l, 10.0);
    }
    accepted(&s);
    single_lines(&s, 1);
    s.bridge.bearings[0].pad_width = 0.3;
    s.bridge.sections[0].set_J = 0.0;
    refused(&s, "line sill of car north has no torsional stiffness, and nothing else holds its twist");
}

/* Springs opened by an update: as a rigid body, and only the small system sees it. */
static void test_opened(void) {
    sample s;
    analysis a;
    ss_update *update = NULL;
    ss_error error = {0};
    double flexibility[64];
    single_lines(&s, 2);
    s.bridge.bearings[1].pad_width = 0.3;
    hand_joint(&s.bridge, SS_JOINT_RIGID, 0, 0.0, 13.0);
    analysis_start(&a, &s);
    CU_ASSERT_FATAL(a.mesh.spring_count <= 64);
    for (int i = 0; i < a.mesh.spring_count; i++) {
        const ss_spring *spring = &a.mesh.spring[i];
        flexibility[i] = spring->owner == SS_MEMBER_JOINT && spring->kind == SS_SPRING_FOLD
                             ? (double)INFINITY
                             : spring->flexibility;
    }
    /* Now hinged, the north car is held by its pad and the south one by its points and the hinge. */
    CU_ASSERT_EQUAL(ss_update_create(a.grillage, flexibility, &update, &error), SS_OK);
    ss_update_destroy(update);
    update = NULL;
    for (int i = 0; i < a.mesh.spring_count; i++) {
        const ss_spring *spring = &a.mesh.spring[i];
        if (spring->owner == SS_MEMBER_BEARING && spring->index == 1) {
            flexibility[i] = (double)INFINITY;
        }
    }
    /* Without its pad the north car has one point and the hinge; as one body the cars stand on three points.
     */
    CU_ASSERT_EQUAL(ss_update_create(a.grillage, flexibility, &update, &error), SS_ERROR_MECHANISM);
    CU_ASSERT_PTR_NOT_NULL(strstr(error.message, "is not held: it can"));
    CU_ASSERT_PTR_NULL(update);
    for (int i = 0; i < a.mesh.spring_count; i++) {
        const ss_spring *spring = &a.mesh.spring[i];
        flexibility[i] = spring->owner == SS_MEMBER_JOINT ? (double)INFINITY : spring->flexibility;
    }
    CU_ASSERT_EQUAL(ss_update_create(a.grillage, flexibility, &update, &error), SS_ERROR_MECHANISM);
    CU_ASSERT_STRING_EQUAL(error.message, "car south can roll about its bearings: they stand under one line "
                                          "(y = 3.70 m) and have no pad width");
    flexibility[0] = -1.0;
    CU_ASSERT_EQUAL(ss_update_create(a.grillage, flexibility, &update, &error), SS_ERROR_INTERNAL);
    analysis_end(&a);
    CU_ASSERT_EQUAL(ss_memory_live(), 0);
}

int main(void) {
    static const test_case cases[] = {
        {"rolls", test_rolls},
        {"hinged points", test_hinged_points},
        {"support words", test_support_words},
        {"inner mechanism", test_inner_mechanism},
        {"no torsion", test_no_torsion},
        {"opened", test_opened},
    };
    return RUN_SUITE("mechanism", cases);
}
