/* test_bounds.c - the search over a box on functions whose worst and best are known. */
#include "box_samples.h"
#include "sillspan/bounds.h"
#include "sillspan/memory.h"

static ss_bounds run(box *b, probe *p, int runs) {
    ss_bounds out;
    ss_error error = {0};
    p->set = &b->set;
    const ss_evaluator evaluator = probe_evaluator(p);
    const ss_bounds_options options = {
        .runs = runs, .watch = {.progress = probe_progress, .stop = probe_stop, .context = p}};
    CHECK_OK(ss_bounds_compute(&b->set, &evaluator, &options, &out, &error), &error);
    CU_ASSERT_EQUAL(out.runs, p->runs);
    CU_ASSERT(out.runs <= out.most_runs);
    CU_ASSERT_EQUAL(out.lines + out.corners + out.fill + out.refined, out.runs);
    CU_ASSERT(p->largest <= 32);
    return out;
}

/* ---- corners -------------------------------------------------------------------------------------- */

static double slope(int count, const double *x) {
    static const double slopes[] = {0.3, -1.0, 0.02};
    double sum = 1.7;
    for (int j = 0; j < count; j++) {
        sum += slopes[j] * x[j];
    }
    return sum;
}

static void test_monotone(void) {
    box b;
    probe p = {.f = slope};
    box_make(&b, 3);
    ss_bounds out = run(&b, &p, 0);
    static const signed char worst[] = {-1, 1, -1};
    static const int order[] = {1, 0, 2};
    static const double slopes[] = {0.3, 1.0, 0.02};
    CU_ASSERT_EQUAL(out.ends[SS_BOUNDS_WORST].answers[0], 0.7);
    CHECK_CLOSE(out.ends[SS_BOUNDS_BEST].answers[0], 2.02, 1e-14);
    CU_ASSERT_EQUAL(out.ends[SS_BOUNDS_WORST].answers[1], 0.0);
    CU_ASSERT_EQUAL(out.ends[SS_BOUNDS_BEST].answers[1], 10.0);
    CU_ASSERT(out.all_corners && out.failed == 0 && out.failure == NULL && !out.stopped);
    CU_ASSERT_EQUAL(out.most_runs, SS_BOUNDS_RUNS);
    CHECK_CLOSE(out.middle, 1.7 + 0.15 - 0.5 + 0.01, 1e-14);
    for (int j = 0; j < 3; j++) {
        const ss_bounds_effect *const e = &out.effects[j];
        CU_ASSERT_EQUAL(out.ends[SS_BOUNDS_WORST].edge[j], worst[j]);
        CU_ASSERT_EQUAL(out.ends[SS_BOUNDS_BEST].edge[j], -worst[j]);
        CU_ASSERT_EQUAL(out.order[j], order[j]);
        CU_ASSERT_TRUE(e->monotone);
        check_near("swing", e->swing, slopes[j], 1e-14, 1.0);
        CU_ASSERT_EQUAL(e->least_at, worst[j] < 0 ? 0.0 : 1.0);
        CU_ASSERT_EQUAL(e->at_low, worst[j] < 0 ? e->least : e->most);
        /* The mean distance of two places in [0,1] is 1/3; a Latin hypercube comes close with 15 stars. */
        check_near("total", e->total, slopes[j] / 3.0, 0.1 * slopes[j], 1.0);
    }
    CU_ASSERT(out.ends[0].settled && out.ends[1].settled && !out.ends[0].inside && !out.ends[1].inside);
    ss_bounds_destroy(&out);
}

/* Low only where all of a, not b, c ... are at their ends together: no line shows it. */
static double hidden_corner(int count, const double *x) {
    double product = 1.0;
    for (int j = 0; j < count; j++) {
        product *= j % 2 == 0 ? x[j] : 1.0 - x[j];
    }
    return 1.2 - 0.6 * product;
}

static void test_hidden_corner(void) {
    for (int count = 1; count <= 6; count++) {
        box b;
        probe p = {.f = hidden_corner};
        box_make(&b, count);
        ss_bounds out = run(&b, &p, 0);
        CHECK_CLOSE(out.ends[SS_BOUNDS_WORST].answers[0], 0.6, 1e-12);
        CHECK_CLOSE(out.ends[SS_BOUNDS_BEST].answers[0], 1.2, 1e-12);
        CU_ASSERT_TRUE(out.all_corners);
        ss_bounds_destroy(&out);
    }
}

/* Many unknowns: a fraction of the corners, and the corner that all lines point to. */
static double many(int count, const double *x) {
    double sum = 2.0;
    for (int j = 0; j < count; j++) {
        sum += (j % 3 == 0 ? -0.1 : 0.05) * x[j] * (1.0 + 0.2 * x[(j + 1) % count]);
    }
    return sum;
}

static void test_many(void) {
    box b;
    probe p = {.f = many};
    box_make(&b, 12);
    ss_bounds out = run(&b, &p, 0);
    double least = 9.0;
    double most = -9.0;
    for (unsigned c = 0; c < 1U << 12; c++) {
        double x[12];
        for (int j = 0; j < 12; j++) {
            x[j] = (double)(c >> j & 1U);
        }
        least = ss_min(least, many(12, x));
        most = ss_max(most, many(12, x));
    }
    CU_ASSERT_FALSE(out.all_corners);
    CU_ASSERT(out.corners <= 34 && out.fill > 0);
    check_near("worst", out.ends[SS_BOUNDS_WORST].answers[0], least, 0.02, 1.0);
    check_near("best", out.ends[SS_BOUNDS_BEST].answers[0], most, 0.02, 1.0);
    ss_bounds_destroy(&out);
    /* With more runs both are found. */
    p = (probe){.f = many};
    out = run(&b, &p, 1000);
    CHECK_CLOSE(out.ends[SS_BOUNDS_WORST].answers[0], least, 1e-12);
    CHECK_CLOSE(out.ends[SS_BOUNDS_BEST].answers[0], most, 1e-12);
    ss_bounds_destroy(&out);
}

/* ---- inside --------------------------------------------------------------------------------------- */

/* Worst at (0.31, 0.64), best in the corner farthest from it. */
static double bowl(int count, const double *x) {
    (void)count;
    return 0.8 + pow(x[0] - 0.31, 2.0) + 2.0 * pow(x[1] - 0.64, 2.0);
}

static void test_interior(void) {
    box b;
    probe p = {.f = bowl};
    box_make(&b, 2);
    ss_bounds out = run(&b, &p, 0);
    const ss_bounds_end *const worst = &out.ends[SS_BOUNDS_WORST];
    CU_ASSERT(worst->inside && worst->settled && worst->edge[0] == 0 && worst->edge[1] == 0);
    /* The last step is 1/64: a place is found within half of it. */
    check_near("a", worst->point[0], 0.31, 1.0 / 128.0, 1.0);
    check_near("b", worst->point[1], 0.64, 1.0 / 128.0, 1.0);
    CHECK_CLOSE(out.ends[SS_BOUNDS_BEST].answers[0], 0.8 + 0.69 * 0.69 + 2.0 * 0.64 * 0.64, 1e-14);
    CU_ASSERT_FALSE(out.effects[0].monotone);
    CU_ASSERT_FALSE(out.effects[1].monotone);
    ss_bounds_destroy(&out);
}

/* A gap that closes: flat, then a steep valley whose floor is a kink. */
static double kink(int count, const double *x) {
    (void)count;
    return 1.0 - 0.4 * ss_max(0.0, 1.0 - 8.0 * fabs(x[0] - 0.43)) + 0.1 * x[1];
}

static void test_kink(void) {
    box b;
    probe p = {.f = kink};
    box_make(&b, 2);
    ss_bounds out = run(&b, &p, 0);
    const ss_bounds_end *const worst = &out.ends[SS_BOUNDS_WORST];
    check_near("a", worst->point[0], 0.43, 1.0 / 128.0, 1.0);
    CU_ASSERT_EQUAL(worst->point[1], 0.0);
    CU_ASSERT(worst->inside && worst->edge[0] == 0 && worst->edge[1] == -1);
    CU_ASSERT(worst->answers[0] < 0.6 + 0.4 * 8.0 / 128.0);
    CHECK_CLOSE(out.ends[SS_BOUNDS_BEST].answers[0], 1.1, 1e-14);
    ss_bounds_destroy(&out);
}

/* In its own scale: the valley lies a quarter up a range of four powers of ten. */
static double ratios(int count, const double *x) {
    (void)count;
    return 1.0 + fabs(log10(x[0]) + 1.0);
}

static void test_log_scale(void) {
    box b;
    probe p = {.f = ratios};
    box_make(&b, 1);
    b.items[0].low = b.items[0].box_low = 1e-2;
    b.items[0].high = b.items[0].box_high = 1e2;
    b.items[0].log = b.items[0].box_log = true;
    ss_bounds out = run(&b, &p, 0);
    check_near("valley", log10(out.ends[SS_BOUNDS_WORST].point[0]), -1.0, 4.0 / 128.0, 1.0);
    CU_ASSERT_EQUAL(out.ends[SS_BOUNDS_BEST].point[0], 1e2);
    CU_ASSERT_EQUAL(out.ends[SS_BOUNDS_BEST].answers[0], 4.0);
    ss_bounds_destroy(&out);
}

/* ---- values one by one ---------------------------------------------------------------------------- */

/* The word that is worst depends on the number beside it. */
static double words(int count, const double *x) {
    static const double by_word[] = {1.0, 0.9, 1.3, 0.95, 1.1};
    (void)count;
    return by_word[(int)x[0]] - (x[0] == 3.0 ? 0.3 * x[1] : 0.0);
}

static void test_words(void) {
    static const char *names[] = {"p", "q", "r", "s", "t"};
    double weights[] = {0.2, 0.2, 0.2, 0.2, 0.2};
    box b;
    probe p = {.f = words};
    box_make(&b, 2);
    box_list(&b, 0, names, weights, 5);
    ss_bounds out = run(&b, &p, 0);
    CU_ASSERT_EQUAL(out.ends[SS_BOUNDS_WORST].point[0], 3.0);
    CU_ASSERT_EQUAL(out.ends[SS_BOUNDS_WORST].point[1], 1.0);
    CHECK_CLOSE(out.ends[SS_BOUNDS_WORST].answers[0], 0.65, 1e-14);
    CU_ASSERT_EQUAL(out.ends[SS_BOUNDS_BEST].point[0], 2.0);
    CU_ASSERT_EQUAL(out.ends[SS_BOUNDS_WORST].edge[0], 0);
    CU_ASSERT_FALSE(out.ends[SS_BOUNDS_WORST].inside);
    CU_ASSERT_EQUAL(out.effects[0].most_at, 2.0);
    CHECK_CLOSE(out.effects[0].swing, 1.3 - 0.8, 1e-14);
    ss_bounds_destroy(&out);
    /* Few values and nothing else: there is no more to ask than there are values. */
    p = (probe){.f = words};
    box_make(&b, 2);
    box_list(&b, 0, names, weights, 5);
    box_list(&b, 1, names, weights, 2);
    out = run(&b, &p, 0);
    CU_ASSERT_EQUAL(out.runs, 10);
    ss_bounds_destroy(&out);
}

/* ---- failures, few runs, a stop ------------------------------------------------------------------- */

static double partly(int count, const double *x) {
    return x[0] > 0.8 ? SS_NAN : slope(count, x);
}

static void test_failures(void) {
    box b;
    probe p = {.f = partly};
    box_make(&b, 2);
    ss_bounds out = run(&b, &p, 0);
    CU_ASSERT(out.failed > 0 && out.failed < out.runs);
    CU_ASSERT_STRING_EQUAL(out.failure, "the bridge is free to move");
    CU_ASSERT(out.failed_point[0] > 0.8);
    CU_ASSERT_FALSE(out.effects[0].monotone);
    CU_ASSERT(isnan(out.effects[0].at_high));
    check_near("best", out.ends[SS_BOUNDS_BEST].answers[0], 1.7 + 0.3 * 0.8, 0.3 / 64.0, 1.0);
    ss_bounds_destroy(&out);
}

static double nothing(int count, const double *x) {
    (void)count;
    (void)x;
    return SS_NAN;
}

static void test_no_answer(void) {
    box b;
    probe p = {.f = nothing};
    box_make(&b, 3);
    ss_bounds out = run(&b, &p, 0);
    CU_ASSERT(out.ends[0].point == NULL && out.ends[1].point == NULL && out.failed == out.runs);
    CU_ASSERT_EQUAL(out.effects[0].swing, 0.0);
    CU_ASSERT(isnan(out.effects[0].total) && isnan(out.middle));
    ss_bounds_destroy(&out);
}

static double unlimited(int count, const double *x) {
    return x[0] > 0.9 ? SS_INFINITY : slope(count, x);
}

static void test_unlimited(void) {
    box b;
    probe p = {.f = unlimited};
    box_make(&b, 2);
    ss_bounds out = run(&b, &p, 0);
    CU_ASSERT(isinf(out.ends[SS_BOUNDS_BEST].answers[0]) && isinf(out.effects[0].swing));
    CHECK_CLOSE(out.ends[SS_BOUNDS_WORST].answers[0], 0.7, 1e-14);
    CU_ASSERT_EQUAL(out.order[0], 0);
    ss_bounds_destroy(&out);
}

static void test_few_runs(void) {
    box b;
    box_make(&b, 5);
    probe p = {.f = hidden_corner, .set = &b.set};
    for (int runs = 11; runs < 60; runs += 7) {
        p = (probe){.f = hidden_corner};
        ss_bounds out = run(&b, &p, runs);
        CU_ASSERT_EQUAL(out.most_runs, runs);
        CU_ASSERT(out.runs >= runs - 6);
        ss_bounds_destroy(&out);
    }
    ss_bounds unused;
    ss_error error = {0};
    const ss_evaluator evaluator = probe_evaluator(&p);
    ss_bounds_options options = {.runs = 10};
    CU_ASSERT_EQUAL(ss_bounds_compute(&b.set, &evaluator, &options, &unused, &error), SS_ERROR_LIMIT);
    CU_ASSERT_STRING_EQUAL(error.message, "10 runs are too few for 5 unknowns; 11 at least are due");
    b.set.count = 0;
    CU_ASSERT_EQUAL(ss_bounds_compute(&b.set, &evaluator, &options, &unused, &error), SS_ERROR_LIMIT);
}

static void test_stop(void) {
    box b;
    box_make(&b, 3);
    probe p = {.f = slope, .stop_after = 2};
    ss_bounds out = run(&b, &p, 0);
    CU_ASSERT_TRUE(out.stopped);
    CU_ASSERT_EQUAL(p.calls, 2);
    CU_ASSERT_PTR_NOT_NULL(out.ends[SS_BOUNDS_WORST].point);
    CU_ASSERT_FALSE(out.ends[SS_BOUNDS_WORST].settled);
    ss_bounds_destroy(&out);
}

static void test_no_memory(void) {
    box b;
    box_make(&b, 3);
    probe p = {.f = partly, .set = &b.set};
    const ss_evaluator evaluator = probe_evaluator(&p);
    const ss_bounds_options options = {0};
    const long live = ss_memory_live();
    long n = 0;
    for (; n < 100; n++) {
        ss_bounds out;
        ss_memory_fail_from(n);
        const ss_status status = ss_bounds_compute(&b.set, &evaluator, &options, &out, NULL);
        ss_memory_fail_from(-1);
        if (status == SS_OK) {
            ss_bounds_destroy(&out);
            break;
        }
        CU_ASSERT_EQUAL(status, SS_ERROR_MEMORY);
        CU_ASSERT_EQUAL(ss_memory_live(), live);
    }
    CU_ASSERT(n > 0 && n < 100);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

int main(void) {
    static const test_case cases[] = {
        {"monotone", test_monotone},   {"hidden corner", test_hidden_corner},
        {"many unknowns", test_many},  {"interior", test_interior},
        {"kink", test_kink},           {"log scale", test_log_scale},
        {"words", test_words},         {"failures", test_failures},
        {"no answer", test_no_answer}, {"unlimited", test_unlimited},
        {"few runs", test_few_runs},   {"stop", test_stop},
        {"no memory", test_no_memory},
    };
    return RUN_SUITE("bounds", cases);
}
