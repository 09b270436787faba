/* test_sample.c - draws, their quantiles and correlations on functions whose distribution is known. */
#include "base/distribution.h"
#include "box_samples.h"
#include "sillspan/memory.h"
#include "sillspan/sample.h"

static ss_sample run(box *b, probe *p, const ss_sample_options *asked) {
    ss_sample out;
    ss_error error = {0};
    p->set = &b->set;
    const ss_evaluator evaluator = probe_evaluator(p);
    ss_sample_options options = *asked;
    options.watch = (ss_study_watch){.progress = probe_progress, .stop = probe_stop, .context = p};
    CHECK_OK(ss_sample_compute(&b->set, &evaluator, &options, &out, &error), &error);
    return out;
}

/* The sum of two uniform variables: triangular between 0 and 2. */
static double sum(int count, const double *x) {
    (void)count;
    return x[0] + x[1];
}

static void test_sum(void) {
    box b;
    probe p = {.f = sum};
    box_make(&b, 3);
    ss_sample out = run(&b, &p, &(ss_sample_options){.draws = 4000, .seed = 5, .limit = 0.5});
    CU_ASSERT(out.done == 4000 && out.answered == 4000 && !out.stopped && p.runs == 4000 && p.last == 1.0);
    int held = 0;
    for (int k = 0; k < SS_SAMPLE_QUANTILES; k++) {
        const ss_sample_quantile *const q = &out.answers[0].quantiles[k];
        const double exact = ss_triangular_quantile(q->share, 0.0, 1.0, 2.0);
        check_near("quantile", q->value, exact, 0.03, 1.0);
        CU_ASSERT(q->low < q->value && q->value < q->high);
        held += q->low <= exact && exact <= q->high;
    }
    CU_ASSERT(held >= 4);
    /* P(sum < 1/2) = 1/8. */
    CU_ASSERT(out.below_low < 0.125 && 0.125 < out.below_high);
    check_near("share", (double)out.below / out.answered, 0.125, 0.01, 1.0);
    /* Spearman of x + y with x, both uniform: 7/10 (by integration of P(X' < X, S'' < S)); the third has
     * none. */
    check_near("rho a", out.answers[0].correlation[0], 0.7, 0.03, 1.0);
    check_near("rho b", out.answers[0].correlation[1], 0.7, 0.03, 1.0);
    check_near("rho c", out.answers[0].correlation[2], 0.0, 0.06, 1.0);
    CU_ASSERT_EQUAL(out.order[2], 2);
    /* The other answer is ten times the first unknown. */
    CHECK_CLOSE(out.answers[1].correlation[0], 1.0, 1e-14);
    check_near("median", out.answers[1].quantiles[2].value, 5.0, 2e-3, 1.0);
    ss_sample_destroy(&out);
}

static void test_same_seed_same_bytes(void) {
    box b;
    probe p = {.f = sum};
    box_make(&b, 2);
    const ss_sample_options options = {.draws = 100, .seed = 8, .limit = SS_NAN};
    ss_sample one = run(&b, &p, &options);
    p.last = 0.0;
    ss_sample two = run(&b, &p, &options);
    p.last = 0.0;
    ss_sample other = run(&b, &p, &(ss_sample_options){.draws = 100, .seed = 9, .limit = SS_NAN});
    const size_t size = 200 * sizeof(double);
    CU_ASSERT_EQUAL(memcmp(one.points, two.points, size), 0);
    CU_ASSERT_EQUAL(memcmp(one.values, two.values, size), 0);
    CU_ASSERT_NOT_EQUAL(memcmp(one.points, other.points, size), 0);
    CU_ASSERT_EQUAL(one.limit, 1.0);
    ss_sample_destroy(&one);
    ss_sample_destroy(&two);
    ss_sample_destroy(&other);
}

static double partly(int count, const double *x) {
    return x[0] > 0.75 ? SS_NAN : sum(count, x);
}

static void test_failures(void) {
    box b;
    probe p = {.f = partly};
    box_make(&b, 2);
    ss_sample out = run(&b, &p, &(ss_sample_options){.draws = 400, .seed = 1, .limit = SS_NAN});
    /* A Latin hypercube: three quarters to the draw. */
    CU_ASSERT_EQUAL(out.answered, 300);
    CU_ASSERT_EQUAL_FATAL(out.reason_count, 1);
    CU_ASSERT_EQUAL(out.reasons[0].count, 100);
    CU_ASSERT_STRING_EQUAL(out.reasons[0].text, "the bridge is free to move");
    CU_ASSERT(out.answers[0].most < 1.75);
    ss_sample_destroy(&out);
}

static double nothing(int count, const double *x) {
    (void)count;
    (void)x;
    return SS_NAN;
}

static void test_no_answer(void) {
    box b;
    probe p = {.f = nothing};
    box_make(&b, 2);
    ss_sample out = run(&b, &p, &(ss_sample_options){.draws = 10, .limit = SS_NAN});
    CU_ASSERT(out.answered == 0 && isnan(out.answers[0].least) && isnan(out.answers[0].quantiles[0].value));
    CU_ASSERT(isnan(out.below_low) && isnan(out.answers[0].correlation[1]) && out.below == 0);
    ss_sample_destroy(&out);
}

static void test_stop(void) {
    box b;
    probe p = {.f = sum, .stop_after = 3};
    box_make(&b, 2);
    ss_sample out = run(&b, &p, &(ss_sample_options){.draws = 1000, .seed = 4, .limit = SS_NAN});
    CU_ASSERT(out.stopped && out.done == 96 && out.answered == 96 && out.draws == 1000);
    check_near("median", out.answers[0].quantiles[2].value, 1.0, 0.25, 1.0);
    ss_sample_destroy(&out);
    /* Before the first batch. */
    p = (probe){.f = sum, .stop_after = 1, .calls = 1};
    out = run(&b, &p, &(ss_sample_options){.draws = 1000, .seed = 4, .limit = SS_NAN});
    CU_ASSERT(out.stopped && out.done == 0 && isnan(out.answers[0].least));
    ss_sample_destroy(&out);
}

/* So few draws bound no far quantile. */
static void test_open_intervals(void) {
    box b;
    probe p = {.f = sum};
    box_make(&b, 2);
    ss_sample out = run(&b, &p, &(ss_sample_options){.draws = 20, .seed = 4, .limit = SS_NAN});
    CU_ASSERT(isinf(out.answers[0].quantiles[0].low) && isfinite(out.answers[0].quantiles[0].high));
    CU_ASSERT(isfinite(out.answers[0].quantiles[2].low) && isfinite(out.answers[0].quantiles[2].high));
    CU_ASSERT(isinf(out.answers[0].quantiles[4].high));
    ss_sample_destroy(&out);
}

static void test_refused(void) {
    box b;
    probe p = {.f = sum};
    ss_sample out;
    ss_error error = {0};
    box_make(&b, 2);
    const ss_evaluator evaluator = probe_evaluator(&p);
    ss_sample_options options = {.draws = SS_SAMPLE_MOST + 1, .limit = SS_NAN};
    CU_ASSERT_EQUAL(ss_sample_compute(&b.set, &evaluator, &options, &out, &error), SS_ERROR_LIMIT);
    CU_ASSERT_STRING_EQUAL(error.message, "100001 draws are more than the 100000 that are allowed");
    b.set.count = 0;
    options.draws = 10;
    CU_ASSERT_EQUAL(ss_sample_compute(&b.set, &evaluator, &options, &out, &error), SS_ERROR_LIMIT);
}

static void test_no_memory(void) {
    box b;
    box_make(&b, 3);
    probe p = {.f = partly, .set = &b.set};
    const ss_evaluator evaluator = probe_evaluator(&p);
    const ss_sample_options options = {.draws = 50, .limit = SS_NAN};
    const long live = ss_memory_live();
    long n = 0;
    for (; n < 100; n++) {
        ss_sample out;
        ss_memory_fail_from(n);
        const ss_status status = ss_sample_compute(&b.set, &evaluator, &options, &out, NULL);
        ss_memory_fail_from(-1);
        if (status == SS_OK) {
            ss_sample_destroy(&out);
            break;
        }
        CU_ASSERT_EQUAL(status, SS_ERROR_MEMORY);
        CU_ASSERT_EQUAL(ss_memory_live(), live);
    }
    CU_ASSERT(n > 3 && n < 100);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

int main(void) {
    static const test_case cases[] = {
        {"a sum", test_sum},         {"same seed, same bytes", test_same_seed_same_bytes},
        {"failures", test_failures}, {"no answer", test_no_answer},
        {"stop", test_stop},         {"open intervals", test_open_intervals},
        {"refused", test_refused},   {"no memory", test_no_memory},
    };
    return RUN_SUITE("sample", cases);
}
