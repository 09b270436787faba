/* work.c - a job on the threads of this process. */
#include "sillspan/work.h"

#ifdef _OPENMP
#include <omp.h>
#endif

#include "base/work_order.h"

/* Item after item until there is none. */
static void work_on(ss_work_order *order) {
    const ss_work *const work = order->work;
    for (;;) {
        int index = -1;
#ifdef _OPENMP
#pragma omp critical(sillspan_work)
#endif
        index = ss_work_order_next(order);
        if (index < 0) {
            return;
        }
        ss_text result = {0};
        ss_error cause = {0};
        const ss_status status = work->item(work->context, index, &result, &cause);
#ifdef _OPENMP
#pragma omp critical(sillspan_work)
#endif
        ss_work_order_put(order, index, status, &result, &cause);
    }
}

/* Threads that take items: with few of them one, so that each item has all threads for what it does inside.
 */
static int threads_for(int count) {
#ifdef _OPENMP
    const int threads = omp_in_parallel() ? 1 : omp_get_max_threads();
    if (2 * count <= threads) {
        return 1;
    }
    return count < threads ? count : threads;
#else
    (void)count;
    return 1;
#endif
}

ss_status ss_work_run(const ss_workers *workers, const ss_work *work, ss_error *error) {
    if (workers != NULL) {
        return workers->run(workers, work, error);
    }
    ss_work_order order;
    const ss_status status = ss_work_order_begin(&order, work, error);
    if (status != SS_OK) {
        return status;
    }
    const int threads = threads_for(work->count);
    if (threads == 1) {
        work_on(&order);
    } else {
#ifdef _OPENMP
#pragma omp parallel num_threads(threads)
#endif
        work_on(&order);
    }
    return ss_work_order_end(&order, error);
}
