/* work_order.c - which item of a job is next, and results put back into their order. */
#include "base/work_order.h"

#include "sillspan/memory.h"

ss_status ss_work_order_begin(ss_work_order *order, const ss_work *work, ss_error *error) {
    const size_t count = work->count > 0 ? (size_t)work->count : 0;
    *order = (ss_work_order){.work = work, .failed = work->count};
    order->results = ss_alloc(count, sizeof *order->results);
    order->there = ss_alloc(count, sizeof *order->there);
    if (order->results == NULL || order->there == NULL) {
        ss_free(order->results);
        ss_free(order->there);
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the results");
    }
    return SS_OK;
}

int ss_work_order_next(ss_work_order *order) {
    const ss_work *const work = order->work;
    if (order->stopped || order->begun >= work->count) {
        return -1;
    }
    order->stopped = work->stop != NULL && work->stop(work->context);
    return order->stopped ? -1 : order->begun++;
}

void ss_work_order_fail(ss_work_order *order, ss_status status, const char *message) {
    order->stopped = true;
    if (order->status == SS_OK) {
        order->status = status;
        ss_error_set(&order->error, status, "%s", message);
    }
}

/* Gives on what has its turn. Where an item failed, those before it still come to theirs. */
static void take(ss_work_order *order) {
    const ss_work *const work = order->work;
    while (order->taken < order->failed && order->there[order->taken]) {
        const int index = order->taken++;
        ss_error error = {0};
        const ss_status status =
            work->taken == NULL ? SS_OK : work->taken(work->context, index, &order->results[index], &error);
        ss_text_destroy(&order->results[index]);
        if (status != SS_OK) {
            ss_work_order_fail(order, status, error.message);
            order->failed = order->taken;
        }
    }
}

void ss_work_order_put(ss_work_order *order, int index, ss_status status, ss_text *result,
                       const ss_error *cause) {
    const ss_work *const work = order->work;
    ss_error error = {0};
    if (status == SS_OK && result->failed) {
        status = ss_error_set(&error, SS_ERROR_MEMORY, "no memory for the results");
        cause = &error;
    }
    if (status == SS_OK && work->arrived != NULL) {
        status = work->arrived(work->context, index, result, &error);
        cause = &error;
    }
    if (status != SS_OK) {
        ss_text_destroy(result);
        if (index < order->failed) {
            order->failed = index;
            order->status = SS_OK;
            ss_work_order_fail(order, status, cause->message);
        }
        return;
    }
    order->results[index] = *result;
    order->there[index] = true;
    *result = (ss_text){0};
    take(order);
}

ss_status ss_work_order_end(ss_work_order *order, ss_error *error) {
    const ss_status status =
        order->status == SS_OK ? SS_OK : ss_error_set(error, order->status, "%s", order->error.message);
    for (int i = 0; i < order->work->count; i++) ss_text_destroy(&order->results[i]);
    ss_free(order->results);
    ss_free(order->there);
    *order = (ss_work_order){0};
    return status;
}
