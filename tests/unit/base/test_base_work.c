/* test_base_work.c - jobs: every item once, results in order, early ends, failures. */
#include <string.h>
#ifdef _OPENMP
#include <omp.h>
#endif

#include "sillspan/memory.h"
#include "sillspan/work.h"
#include "support/suite.h"

enum { ITEMS = 200 };

typedef struct job {
    int computed[ITEMS]; /* times; each item has its own */
    int arrived, taken;
    bool in_order, sound;
    int stop_after; /* arrivals; -1: never */
    int fails;      /* an item, or -1 */
    int also_fails;
    int refuses; /* an item whose result is not taken, or -1 */
} job;

static job new_job(void) {
    return (job){
        .in_order = true, .sound = true, .stop_after = -1, .fails = -1, .also_fails = -1, .refuses = -1};
}

/* Sums whose length varies, so that items finish out of order. */
static double sum_of(int index) {
    double sum = 0.0;
    for (int i = 0; i < 1 + (index * 7919) % 20000; i++) sum += 1.0 / (1.0 + i);
    return sum;
}

static ss_status item(void *context, int index, ss_text *out, ss_error *error) {
    job *const j = context;
    const double sum = sum_of(index);
    j->computed[index]++;
    if (index == j->fails || index == j->also_fails) {
        return ss_error_set(error, SS_ERROR_NUMERIC, "item %d", index);
    }
    ss_text_add_bytes(out, (const char *)&index, sizeof index);
    ss_text_add_bytes(out, (const char *)&sum, sizeof sum);
    return SS_OK;
}

static ss_status arrived(void *context, int index, const ss_text *result, ss_error *error) {
    job *const j = context;
    (void)index;
    (void)error;
    j->arrived++;
    j->sound = j->sound && result->length == sizeof(int) + sizeof(double);
    return SS_OK;
}

static ss_status taken(void *context, int index, const ss_text *result, ss_error *error) {
    job *const j = context;
    int said = -1;
    const double due = sum_of(index);
    if (index == j->refuses) {
        return ss_error_set(error, SS_ERROR_FILE, "no room for %d", index);
    }
    memcpy(&said, result->data, sizeof said);
    j->in_order = j->in_order && index == j->taken && said == index;
    j->sound = j->sound && memcmp(result->data + sizeof said, &due, sizeof due) == 0;
    j->taken++;
    return SS_OK;
}

static bool stop(void *context) {
    const job *const j = context;
    return j->stop_after >= 0 && j->arrived >= j->stop_after;
}

static ss_status run(job *j, int count, int threads, ss_error *error) {
    const ss_work work = {count, item, arrived, taken, stop, j};
#ifdef _OPENMP
    omp_set_num_threads(threads);
#else
    (void)threads;
#endif
    return ss_work_run(NULL, &work, error);
}

static void test_all(void) {
    const long before = ss_memory_live();
    for (int threads = 1; threads <= 4; threads++) {
        for (int count = 0; count <= ITEMS; count += count < 9 ? 1 : 191) {
            job j = new_job();
            ss_error error = {0};
            CU_ASSERT_EQUAL(run(&j, count, threads, &error), SS_OK);
            CU_ASSERT_EQUAL(j.taken, count);
            CU_ASSERT_EQUAL(j.arrived, count);
            CU_ASSERT_TRUE(j.in_order && j.sound);
            for (int i = 0; i < ITEMS; i++) CU_ASSERT_EQUAL(j.computed[i], i < count);
        }
    }
    CU_ASSERT_EQUAL(ss_memory_live(), before);
}

/* What was begun is finished and taken: the first items. */
static void test_stop(void) {
    for (int threads = 1; threads <= 4; threads += 3) {
        job j = new_job();
        ss_error error = {0};
        j.stop_after = 50;
        CU_ASSERT_EQUAL(run(&j, ITEMS, threads, &error), SS_OK);
        CU_ASSERT_TRUE(j.taken >= 50 && j.taken < 50 + threads);
        CU_ASSERT_TRUE(j.in_order && j.sound);
        for (int i = 0; i < ITEMS; i++) CU_ASSERT_EQUAL(j.computed[i], i < j.taken);
    }
}

/* The first of those that fail is told of, whichever is met first; those before it are taken. */
static void test_failures(void) {
    for (int threads = 1; threads <= 4; threads++) {
        job j = new_job();
        ss_error error = {0};
        j.fails = 60;
        j.also_fails = 61;
        CU_ASSERT_EQUAL(run(&j, ITEMS, threads, &error), SS_ERROR_NUMERIC);
        CU_ASSERT_STRING_EQUAL(error.message, "item 60");
        CU_ASSERT_EQUAL(j.taken, 60);
        CU_ASSERT_EQUAL(j.computed[ITEMS - 1], 0);
        j = new_job();
        j.refuses = 10;
        CU_ASSERT_EQUAL(run(&j, ITEMS, threads, &error), SS_ERROR_FILE);
        CU_ASSERT_STRING_EQUAL(error.message, "no room for 10");
        CU_ASSERT_EQUAL(j.taken, 10);
    }
}

static ss_status inner(void *context, int index, ss_text *out, ss_error *error) {
    job j = new_job();
    const ss_work work = {9 + index, item, arrived, taken, NULL, &j};
    (void)context;
    const ss_status status = ss_work_run(NULL, &work, error);
    ss_text_printf(out, "%d %d;", j.taken, j.in_order && j.sound ? 1 : 0);
    return status;
}

static ss_status join(void *context, int index, const ss_text *result, ss_error *error) {
    (void)index;
    (void)error;
    ss_text_add_bytes(context, result->data, result->length);
    return SS_OK;
}

static void test_nested(void) {
    ss_text all = {0};
    ss_error error = {0};
    const ss_work work = {6, inner, NULL, join, NULL, &all};
    CU_ASSERT_EQUAL(ss_work_run(NULL, &work, &error), SS_OK);
    CU_ASSERT_STRING_EQUAL(all.data, "9 1;10 1;11 1;12 1;13 1;14 1;");
    ss_text_destroy(&all);
}

/* Whichever allocation fails: SS_ERROR_MEMORY, nothing left behind, no result out of order. */
static void test_no_memory(void) {
    for (long n = 0;; n++) {
        job j = new_job();
        ss_error error = {0};
        const long before = ss_memory_live();
        ss_memory_fail_from(n);
        const ss_status status = run(&j, 12, 2, &error);
        ss_memory_fail_from(-1);
        CU_ASSERT_EQUAL(ss_memory_live(), before);
        CU_ASSERT_TRUE(j.in_order && j.sound);
        if (status == SS_OK) {
            CU_ASSERT_TRUE(n >= 14);
            break;
        }
        CU_ASSERT_EQUAL(status, SS_ERROR_MEMORY);
    }
}

int main(void) {
    static const test_case cases[] = {{"all", test_all},
                                      {"stop", test_stop},
                                      {"failures", test_failures},
                                      {"nested", test_nested},
                                      {"no memory", test_no_memory}};
    return RUN_SUITE("work", cases);
}
