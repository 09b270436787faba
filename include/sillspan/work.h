/* work.h - items that do not depend on each other, shared by threads and, where there are several, by
 * processes. */
#ifndef SILLSPAN_WORK_H
#define SILLSPAN_WORK_H

#include <stdbool.h>

#include "sillspan/text.h"

/**
 * One job: `count` items that each make some bytes. An item may depend on nothing but its index and what
 * stays as it is while the job runs, so that the same job gives the same results in the same order whoever
 * does it. Items are begun in the order of their indices; those that were begun are always finished, so that
 * what is finished when a job ends early are its first items.
 *
 * Where the program runs as several processes each of them makes the same job and calls ss_work_run: items
 * are computed in any of them, and `arrived`, `taken` and `stop` are called in the first alone. Those three
 * may not begin a job.
 */
typedef struct ss_work {
    int count;
    /** Computes item `index` and appends its result to `out`, which is empty. Several are called at once. A
     * failure ends the job; what may fail for one item without harm to the others belongs into its result. */
    ss_status (*item)(void *context, int index, ss_text *out, ss_error *error);
    /** The result of an item as soon as it is there, in whatever order; one call at a time, on any thread.
     * NULL: nobody waits for it. A failure ends the job. */
    ss_status (*arrived)(void *context, int index, const ss_text *result, ss_error *error);
    /** The same in the order of the items. */
    ss_status (*taken)(void *context, int index, const ss_text *result, ss_error *error);
    /** Asked before an item is begun: whether the job is to end with those that are. NULL: it never is. One
     * call at a time, on any thread. */
    bool (*stop)(void *context);
    void *context;
} ss_work;

/** Who shares the items of a job. `run` is called by ss_work_run alone. */
typedef struct ss_workers {
    int rank; /**< of this process; results come together in 0 */
    ss_status (*run)(const struct ss_workers *workers, const ss_work *work, ss_error *error);
    void *own;
} ss_workers;

/**
 * Runs the job. `workers` NULL: the threads of this process (OpenMP; several items at once where there are
 * more than half as many as threads, else one after the other, each with all threads inside). An item that
 * begins a job of its own runs that on its own thread. Results that wait for their turn are kept.
 *
 * SS_OK: every item that was begun was taken, and that is all of them unless `stop` said otherwise. Else what
 * failed: of several items the first, after all before it were taken. In a process other than the first SS_OK
 * says only that the job has ended, and SS_ERROR_INTERNAL that the first process has given up: both leave
 * nothing to do but to return.
 */
ss_status ss_work_run(const ss_workers *workers, const ss_work *work, ss_error *error);

#endif
