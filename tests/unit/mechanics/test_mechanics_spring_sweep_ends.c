/* test_mechanics_spring_sweep_ends.c - swept springs at none and rigid: limits, redundant rows, mechanisms,
 * what is refused. */
#include "sillspan/memory.h"
#include "sweep_samples.h"

static void solve_update(const sweep_sample *w, const double *others, double swept, double *values) {
    ss_error error = {0};
    ss_update *update = NULL;
    double *const flexibility = sweep_zeros(w->a.mesh.spring_count);
    for (int i = 0; i < w->a.mesh.spring_count; i++) {
        flexibility[i] = others != NULL ? others[i] : w->a.mesh.spring[i].flexibility;
    }
    for (int j = 0; j < w->swept_count; j++) flexibility[w->swept[j]] = swept;
    CHECK_OK(ss_update_create(w->a.grillage, flexibility, &update, &error), &error);
    sweep_respond(w, w->a.grillage, update, values);
    ss_update_destroy(update);
    free(flexibility);
}

/* No joint is an update with the springs open, rigid one with no flexibility; and both are where the modes
 * go. */
static void test_limits(void) {
    static const sweep_part parts[3] = {SWEEP_SHEAR, SWEEP_FOLD, SWEEP_BOTH};
    for (int n = 0; n < 6; n++) {
        static sweep_sample w;
        sweep_cars(&w, 2 + n % 2, 1.0);
        analysis_start(&w.a, &w.s);
        sweep_loads(&w);
        sweep_readings(&w);
        sweep_choose(&w, parts[n / 2], 2);
        sweep_make(&w);
        double *const expected = sweep_zeros(w.load_count * w.reading_count);
        solve_update(&w, NULL, (double)INFINITY, expected);
        check_near("none", sweep_difference(&w, sweep_at(&w, 0.0), expected), 0.0, 1e-10, 1.0);
        solve_update(&w, NULL, 0.0, expected);
        check_near("rigid", sweep_difference(&w, sweep_at(&w, (double)INFINITY), expected), 0.0, 1e-10, 1.0);
        check_near("nearly rigid", sweep_difference(&w, sweep_at(&w, 1e18), expected), 0.0, 1e-9, 1.0);
        check_near("beyond all numbers", sweep_difference(&w, sweep_at(&w, 1e305), expected), 0.0, 1e-10,
                   1.0);
        /* Next to none: loads whose only effect comes through the joint go to zero with k. */
        solve_update(&w, NULL, (double)INFINITY, expected);
        const double *const values = sweep_at(&w, 1e-16);
        for (int i = 0; i < w.load_count * w.reading_count; i++) {
            check_near("nearly none", values[i], expected[i], 1e-9, 1e5);
        }
        free(expected);
        sweep_end(&w);
    }
}

/* Joints all along above rigid bearings of both cars: rows that follow from the bearings'. `mixed`: one car
 * twist and all, the other by a point, so that step and fold follow from each other. */
static void redundant_cars(sweep_sample *w, bool mixed) {
    memset(w, 0, sizeof *w);
    ss_bridge *b = &w->s.bridge;
    sample_start(&w->s, sweep_E, sweep_G, 1.1);
    const int girder = hand_section(b, 3.1e-4, 2.2e-5, 4e-3, 900.0);
    for (int c = 0; c < 2; c++) {
        hand_car(b, c == 0 ? "north" : "south", 0.0, 9.0, 2.7 * c, 2.5 + 2.7 * c);
        const int line = hand_line(b, SS_ROLE_MAIN, "sill", 1.25 + 2.7 * c, girder);
        for (int i = 0; i < 3; i++) {
            const bool pad = !mixed || c == 0 || i == 1;
            const int bearing = pad ? hand_pad(b, line, 4.5 * i, 0.6) : hand_bearing(b, line, 4.5 * i);
            b->bearings[bearing].contact = !mixed && i == 1;
        }
    }
    const int joint = hand_joint(b, SS_JOINT_SPRINGS, 0, 0.0, 9.0);
    b->joints[joint].shear = 3.3e6;
    b->joints[joint].rotation = 2.7e5;
}

/* Slopes of what is linear in k as well; `room` for a set of values. */
static void check_redundant_slopes(const sweep_sample *w, double *room) {
    const int size = w->load_count * w->reading_count;
    double *const slopes = sweep_zeros(size);
    double most[5] = {0};
    CU_ASSERT_EQUAL(ss_spring_sweep_slope(w->sweep, 0.7, slopes, w->work, NULL), SS_OK);
    memcpy(room, sweep_at(w, 0.7 * exp(1e-3)), (size_t)size * sizeof *room);
    sweep_at(w, 0.7 * exp(-1e-3));
    for (int at = 0; at < size; at++) {
        most[sweep_kind(w, at / w->load_count)] =
            fmax(most[sweep_kind(w, at / w->load_count)], fabs(room[at]));
    }
    for (int at = 0; at < size; at++) {
        check_near("slope", slopes[at], (room[at] - w->values[at]) / 2e-3, 1e-6,
                   most[sweep_kind(w, at / w->load_count)]);
    }
    CU_ASSERT_EQUAL(ss_spring_sweep_slope(w->sweep, (double)INFINITY, slopes, w->work, NULL), SS_OK);
    for (int at = 0; at < size; at++) CU_ASSERT_EQUAL(slopes[at], 0.0);
    free(slopes);
}

static void test_redundant(void) {
    for (int n = 0; n < 6; n++) {
        static const sweep_part parts[3] = {SWEEP_SHEAR, SWEEP_FOLD, SWEEP_BOTH};
        static sweep_sample w;
        redundant_cars(&w, n % 2 == 1);
        analysis_start(&w.a, &w.s);
        sweep_loads(&w);
        for (int i = 0; i < 3; i++) { /* a bearing of each car and a spring above it are moved */
            double *const offset = sweep_zeros(w.a.mesh.spring_count);
            offset[i == 2 ? w.a.mesh.spring_count - 1 : 4 * i] = 0.002;
            w.loads[w.load_count++].offset = offset;
        }
        sweep_readings(&w);
        sweep_choose(&w, parts[n / 2], 2);
        sweep_make(&w);
        const double *poles = NULL;
        CU_ASSERT_EQUAL(ss_spring_sweep_poles(w.sweep, &poles), w.swept_count);
        CU_ASSERT_TRUE(isinf(poles[w.swept_count - 1]));
        CU_ASSERT_TRUE(poles[0] > 0.0 && isfinite(poles[0]));
        double *const expected = sweep_zeros(w.load_count * w.reading_count);
        solve_update(&w, NULL, 0.0, expected);
        check_near("rigid", sweep_difference(&w, sweep_at(&w, (double)INFINITY), expected), 0.0, 1e-9, 1.0);
        /* Beyond, a spring between two rigid points under an offset has a force by itself whose rounding is
         * more than anything else that the load does. */
        for (int power = -6; power <= 2; power++) {
            const double k = pow(10.0, power);
            sweep_anew(&w, parts[n / 2], k, expected);
            check_near("anew", sweep_difference(&w, sweep_at(&w, k), expected), 0.0, 1e-9, 1.0);
        }
        check_redundant_slopes(&w, expected);
        free(expected);
        sweep_end(&w);
    }
}

/* Other springs than described: one joint rigid in shear, a bearing open, another soft. */
static void test_others(void) {
    static sweep_sample w;
    ss_error error = {0};
    sweep_cars(&w, 3, 1.0);
    analysis_start(&w.a, &w.s);
    sweep_loads(&w);
    sweep_readings(&w);
    sweep_choose(&w, SWEEP_SHEAR, 0);
    double *const others = sweep_zeros(w.a.mesh.spring_count);
    int opened = 0;
    for (int i = 0; i < w.a.mesh.spring_count; i++) {
        const ss_spring *spring = &w.a.mesh.spring[i];
        others[i] = spring->flexibility;
        if (spring->owner == SS_MEMBER_JOINT) {
            others[i] = spring->index == 1 && spring->kind == SS_SPRING_VERTICAL ? 0.0 : 3.0 * others[i];
        } else if (spring->contact && opened < 2) {
            others[i] = opened++ == 0 ? (double)INFINITY : 4e-9;
        }
    }
    CU_ASSERT_EQUAL(opened, 2);
    ss_sweep_task task = sweep_task(&w);
    task.flexibility = others;
    CHECK_OK(ss_spring_sweep_create(w.a.grillage, &task, &w.sweep, &error), &error);
    w.values = sweep_zeros(w.load_count * w.reading_count);
    w.work = sweep_zeros((int)ss_spring_sweep_work(w.sweep));
    double *const expected = sweep_zeros(w.load_count * w.reading_count);
    solve_update(&w, others, (double)INFINITY, expected);
    check_near("none", sweep_difference(&w, sweep_at(&w, 0.0), expected), 0.0, 1e-10, 1.0);
    solve_update(&w, others, 0.0, expected);
    check_near("rigid", sweep_difference(&w, sweep_at(&w, (double)INFINITY), expected), 0.0, 1e-10, 1.0);
    free(expected);
    free(others);
    sweep_end(&w);
}

/* A grillage whose joint is described rigid, or next to nothing, serves as well. */
static void test_any_description(void) {
    static sweep_sample w;
    double *middle = NULL;
    for (int n = 0; n < 3; n++) {
        sweep_cars(&w, 2, 1.0);
        const double shear = w.s.bridge.joints[0].shear;
        w.s.bridge.joints[0].shear = n == 0 ? shear : n == 1 ? (double)INFINITY : 1e-7 * shear;
        analysis_start(&w.a, &w.s);
        sweep_loads(&w);
        sweep_readings(&w);
        w.s.bridge.joints[0].shear = shear;
        sweep_choose(&w, SWEEP_SHEAR, 0);
        sweep_make(&w);
        if (n == 0) {
            middle = sweep_zeros(w.load_count * w.reading_count);
            memcpy(middle, sweep_at(&w, 0.37), sizeof *middle * (size_t)(w.load_count * w.reading_count));
        } else {
            check_near("same", sweep_difference(&w, sweep_at(&w, 0.37), middle), 0.0, 1e-9, 1.0);
        }
        sweep_end(&w);
    }
    free(middle);
}

/* ---- mechanisms --------------------------------------------------------------------------------- */

/* Cars of a single line on points, which hold no twist but where the pad is. */
static void rolling_cars(sweep_sample *w, bool pad) {
    memset(w, 0, sizeof *w);
    ss_bridge *b = &w->s.bridge;
    sample_start(&w->s, sweep_E, sweep_G, 1.3);
    const int girder = hand_section(b, 3e-4, 1e-5, 0.0, 800.0);
    for (int c = 0; c < 2; c++) {
        hand_car(b, c == 0 ? "north" : "south", 0.0, 13.0, 2.5 * c, 2.4 + 2.5 * c);
        const int line = hand_line(b, SS_ROLE_MAIN, "sill", 1.2 + 2.5 * c, girder);
        hand_bearing(b, line, 0.0);
        hand_bearing(b, line, 13.0);
    }
    b->bearings[1].pad_width = pad ? 0.3 : 0.0;
    const int joint = hand_joint(b, SS_JOINT_SPRINGS, 0, 0.0, 13.0);
    b->joints[joint].shear = 5e6;
    b->joints[joint].rotation = 4e5;
}

static void check_refused(sweep_sample *w, const char *words, bool whole) {
    ss_error error = {0}, elsewhere = {0};
    ss_update *update = NULL;
    double *const flexibility = sweep_zeros(w->a.mesh.spring_count);
    CU_ASSERT_EQUAL(ss_spring_sweep_at(w->sweep, 0.0, w->values, w->work, &error), SS_ERROR_MECHANISM);
    for (int i = 0; i < w->a.mesh.spring_count; i++) flexibility[i] = w->a.mesh.spring[i].flexibility;
    for (int j = 0; j < w->swept_count; j++) flexibility[w->swept[j]] = (double)INFINITY;
    CU_ASSERT_EQUAL(ss_update_create(w->a.grillage, flexibility, &update, &elsewhere), SS_ERROR_MECHANISM);
    CU_ASSERT_PTR_NOT_NULL(strstr(error.message, words));
    CU_ASSERT_PTR_NOT_NULL(strstr(elsewhere.message, words));
    CU_ASSERT_TRUE(!whole || strcmp(error.message, elsewhere.message) == 0);
    free(flexibility);
}

/* What only the joint holds: refused at 0 with the words that are used elsewhere, right just above. */
static void test_mechanism(void) {
    for (int n = 0; n < 2; n++) {
        static sweep_sample w;
        const sweep_part part = n == 0 ? SWEEP_BOTH : SWEEP_FOLD;
        rolling_cars(&w, n == 0);
        analysis_start(&w.a, &w.s);
        sweep_loads(&w);
        sweep_readings(&w);
        sweep_choose(&w, part, 0);
        sweep_make(&w);
        check_refused(&w, n == 0 ? "car south can roll about its bearings" : "is not held: it can", n == 0);
        const double *poles = NULL;
        ss_spring_sweep_poles(w.sweep, &poles);
        CU_ASSERT_EQUAL(poles[0], 0.0);
        double *const expected = sweep_zeros(w.load_count * w.reading_count);
        for (int power = -5; power <= 4; power++) {
            const double k = 2.3 * pow(10.0, power);
            sweep_anew(&w, part, k, expected);
            check_near("above", sweep_difference(&w, sweep_at(&w, k), expected), 0.0, 1e-9, 1.0);
        }
        free(expected);
        sweep_end(&w);
    }
}

static void test_refusals(void) {
    static sweep_sample w;
    ss_error error = {0};
    ss_spring_sweep *none = NULL;
    sweep_cars(&w, 2, 1.0);
    analysis_start(&w.a, &w.s);
    sweep_loads(&w);
    sweep_readings(&w);
    sweep_choose(&w, SWEEP_BOTH, 0);
    sweep_make(&w);
    CU_ASSERT_EQUAL(ss_spring_sweep_at(w.sweep, -1.0, w.values, w.work, &error), SS_ERROR_INTERNAL);
    CU_ASSERT_EQUAL(ss_spring_sweep_at(w.sweep, (double)NAN, w.values, w.work, &error), SS_ERROR_INTERNAL);
    CU_ASSERT_EQUAL(ss_spring_sweep_slope(w.sweep, -1.0, w.values, w.work, &error), SS_ERROR_INTERNAL);
    ss_sweep_task task = sweep_task(&w);
    const int first = w.swept[0];
    const double stiffness = w.stiffness[0];
    const int bad[4] = {0, w.swept[1], -1, w.a.mesh.spring_count};
    CU_ASSERT_TRUE(w.a.mesh.spring[0].contact);
    for (int n = 0; n < 4; n++) {
        w.swept[0] = bad[n];
        CU_ASSERT_EQUAL(ss_spring_sweep_create(w.a.grillage, &task, &none, &error), SS_ERROR_INTERNAL);
    }
    w.swept[0] = first;
    const double worse[4] = {0.0, -2.0, (double)INFINITY, (double)NAN};
    for (int n = 0; n < 4; n++) {
        w.stiffness[0] = worse[n];
        CU_ASSERT_EQUAL(ss_spring_sweep_create(w.a.grillage, &task, &none, &error), SS_ERROR_INTERNAL);
    }
    w.stiffness[0] = stiffness;
    double *const others = sweep_zeros(w.a.mesh.spring_count);
    for (int i = 0; i < w.a.mesh.spring_count; i++) others[i] = (double)INFINITY;
    task.flexibility = others;
    CU_ASSERT_EQUAL(ss_spring_sweep_create(w.a.grillage, &task, &none, &error), SS_ERROR_MECHANISM);
    CU_ASSERT_PTR_NOT_NULL(strstr(error.message, "no bearing carries them"));
    others[0] = -1.0;
    CU_ASSERT_EQUAL(ss_spring_sweep_create(w.a.grillage, &task, &none, &error), SS_ERROR_INTERNAL);
    CU_ASSERT_PTR_NULL(none);
    free(others);
    sweep_end(&w);
}

/* Nothing swept: the same at every k. */
static void test_nothing_swept(void) {
    static sweep_sample w;
    sweep_cars(&w, 2, 1.0);
    analysis_start(&w.a, &w.s);
    sweep_loads(&w);
    sweep_readings(&w);
    sweep_make(&w);
    double *const expected = sweep_zeros(w.load_count * w.reading_count);
    sweep_respond(&w, w.a.grillage, NULL, expected);
    static const double at[3] = {0.0, 1.0, (double)INFINITY};
    for (int n = 0; n < 3; n++) {
        check_near("as described", sweep_difference(&w, sweep_at(&w, at[n]), expected), 0.0, 1e-10, 1.0);
    }
    free(expected);
    sweep_end(&w);
}

/* Each allocation fails in turn; with redundant rows, so that both ends are made. */
static void test_memory(void) {
    static sweep_sample w;
    redundant_cars(&w, false);
    analysis_start(&w.a, &w.s);
    sweep_loads(&w);
    sweep_readings(&w);
    sweep_choose(&w, SWEEP_SHEAR, 0);
    const ss_sweep_task task = sweep_task(&w);
    const long live = ss_memory_live();
    bool done = false;
    long n = 0;
    for (; !done && n < 1000; n++) {
        ss_spring_sweep *sweep = NULL;
        ss_memory_fail_from(n);
        const ss_status status = ss_spring_sweep_create(w.a.grillage, &task, &sweep, NULL);
        ss_memory_fail_from(-1);
        done = status == SS_OK;
        CU_ASSERT_TRUE(done || status == SS_ERROR_MEMORY);
        ss_spring_sweep_destroy(sweep);
        CU_ASSERT_EQUAL(ss_memory_live(), live);
    }
    CU_ASSERT_TRUE(done && n > 20);
    sweep_end(&w);
}

static const test_case cases[] = {
    {"limits", test_limits},
    {"redundant rows", test_redundant},
    {"other springs changed", test_others},
    {"any description", test_any_description},
    {"mechanisms", test_mechanism},
    {"refusals", test_refusals},
    {"nothing swept", test_nothing_swept},
    {"memory", test_memory},
};

int main(void) {
    return RUN_SUITE("spring sweep, ends", cases);
}
