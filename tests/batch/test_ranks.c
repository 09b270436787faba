/* test_ranks.c - a job shared by processes: started by mpiexec as 1, 2 or 3 of them, of which the first one
 * judges. */
#define _POSIX_C_SOURCE 200809L

#include <string.h>
#include <time.h>

#include "cli/ranks.h"
#include "sillspan/memory.h"
#include "support/suite.h"

enum { ITEMS = 60 };

/* What is in every process; the suite runs in the first one. */
static const ss_workers *workers;

typedef struct job {
    int arrived, taken;
    int others; /* items of processes beside the first */
    bool sound;
    int stop_after, fails;
} job;

typedef struct item_result {
    int index, rank;
    double sum;
} item_result;

static double sum_of(int index) {
    double sum = 0.0;
    for (int i = 1; i <= 1 + (index * 7919) % 1000; i++) sum += 1.0 / i;
    return sum;
}

/* Takes some milliseconds, so that each process has its share, and makes results of many lengths. */
static ss_status item(void *context, int index, ss_text *out, ss_error *error) {
    const job *const j = context;
    const item_result result = {index, workers == NULL ? 0 : workers->rank, sum_of(index)};
    nanosleep(&(struct timespec){.tv_nsec = 1000000L * (1 + index % 5)}, NULL);
    if (index == j->fails || index == j->fails + 3) {
        return ss_error_set(error, SS_ERROR_CHECK, "item %d", index);
    }
    ss_text_add_bytes(out, (const char *)&result, sizeof result);
    ss_text_repeat(out, "x", index * index * 40); /* up to 140 kB: more than goes without being waited for */
    return SS_OK;
}

static ss_status arrived(void *context, int index, const ss_text *result, ss_error *error) {
    job *const j = context;
    (void)index;
    (void)result;
    (void)error;
    j->arrived++;
    return SS_OK;
}

static ss_status taken(void *context, int index, const ss_text *result, ss_error *error) {
    job *const j = context;
    item_result got;
    (void)error;
    memcpy(&got, result->data, sizeof got);
    const double due = sum_of(index);
    j->sound = j->sound && index == j->taken && got.index == index &&
               memcmp(&got.sum, &due, sizeof due) == 0 &&
               result->length == sizeof got + (size_t)(index * index) * 40;
    j->others += got.rank > 0;
    j->taken++;
    return SS_OK;
}

static bool stop(void *context) {
    const job *const j = context;
    return j->stop_after > 0 && j->arrived >= j->stop_after;
}

static ss_status run(job *j, int count, ss_error *error) {
    const ss_work work = {count, item, arrived, taken, stop, j};
    return ss_work_run(workers, &work, error);
}

static int size_of_all(void) {
    return workers == NULL ? 1 : ss_ranks_size(workers);
}

/* ---- each scenario is run in every process, in this order --------------------------------------- */

static job plain(int stop_after, int fails) {
    return (job){.sound = true, .stop_after = stop_after, .fails = fails};
}

static void test_all(void) {
    for (int count = 0; count <= ITEMS; count += count == 0 ? 1 : 59) {
        job j = plain(0, -9);
        ss_error error = {0};
        CU_ASSERT_EQUAL(run(&j, count, &error), SS_OK);
        CU_ASSERT_EQUAL(j.taken, count);
        CU_ASSERT_EQUAL(j.arrived, count);
        CU_ASSERT_TRUE(j.sound);
        CU_ASSERT_TRUE(count < ITEMS || size_of_all() == 1 || j.others > 0);
    }
}

static void test_stop(void) {
    job j = plain(20, -9);
    ss_error error = {0};
    CU_ASSERT_EQUAL(run(&j, ITEMS, &error), SS_OK);
    CU_ASSERT_TRUE(j.taken >= 20 && j.taken < ITEMS);
    CU_ASSERT_EQUAL(j.taken, j.arrived);
    CU_ASSERT_TRUE(j.sound);
}

static void test_failure(void) {
    job j = plain(0, 30);
    ss_error error = {0};
    CU_ASSERT_EQUAL(run(&j, ITEMS, &error), SS_ERROR_CHECK);
    CU_ASSERT_STRING_EQUAL(error.message, "item 30");
    CU_ASSERT_EQUAL(j.taken, 30);
    CU_ASSERT_TRUE(j.sound);
}

/* Processes that do not see the same items are told of. */
static void test_other_count(void) {
    job j = plain(0, -9);
    ss_error error = {0};
    const ss_status status = run(&j, workers == NULL || workers->rank == 0 ? ITEMS : ITEMS - 1, &error);
    CU_ASSERT_EQUAL(status, size_of_all() == 1 ? SS_OK : SS_ERROR_FILE);
    CU_ASSERT_TRUE(size_of_all() == 1 ||
                   strstr(error.message, "finds 59 items where process 0 finds 60") != NULL);
}

static void run_beside(void) {
    ss_error error = {0};
    job j = plain(0, -9);
    run(&j, 0, &error);
    run(&j, 1, &error);
    run(&j, ITEMS, &error);
    run(&j, ITEMS, &error);
    j.fails = 30;
    run(&j, ITEMS, &error);
    j.fails = -9;
    run(&j, ITEMS - 1, &error);
    /* The first process begins no further job: nobody waits for ever. One of the others does not begin it
     * either. */
    if (workers->rank == 1 && run(&j, ITEMS, &error) != SS_ERROR_INTERNAL) {
        fprintf(stderr, "process %d: a job that nobody began has ended\n", workers->rank);
    }
}

int main(void) {
    static const test_case cases[] = {
        {"all", test_all}, {"stop", test_stop}, {"failure", test_failure}, {"other count", test_other_count}};
    ss_error error = {0};
    int failed = 0;
    if (ss_ranks_begin(&workers, &error) != SS_OK) {
        fprintf(stderr, "%s\n", error.message);
        return 2;
    }
    if (workers == NULL) {
        fprintf(stderr, "not started as one of several processes\n");
        return 2;
    }
    if (workers->rank > 0) {
        run_beside();
    } else {
        failed = RUN_SUITE("jobs shared by processes", cases);
    }
    ss_ranks_end(workers);
    if (ss_memory_live() != 0) {
        fprintf(stderr, "memory is left\n");
        failed = 1;
    }
    return failed;
}
