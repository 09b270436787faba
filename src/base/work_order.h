/* work_order.h - which item of a job is next, and results put back into their order. */
#ifndef SS_BASE_WORK_ORDER_H
#define SS_BASE_WORK_ORDER_H

#include "sillspan/work.h"

/** Of the process in which results come together. Nothing here locks: whoever shares it among threads lets
 * one of them in at a time. */
typedef struct ss_work_order {
    const ss_work *work;
    ss_text *results; /* count: those that wait for their turn */
    bool *there;      /* count */
    int begun, taken; /* items so far */
    bool stopped;     /* no further item is begun */
    ss_status status; /* of what failed */
    int failed;       /* the first item that failed, or count */
    ss_error error;
} ss_work_order;

ss_status ss_work_order_begin(ss_work_order *order, const ss_work *work, ss_error *error);

/** The next item, or -1: there is none, something has failed, or the job is to stop; then for good. */
int ss_work_order_next(ss_work_order *order);

/** An item is finished: its status and result, whose memory is taken over. */
void ss_work_order_put(ss_work_order *order, int index, ss_status status, ss_text *result,
                       const ss_error *cause);

/** Something else than an item has failed: the job ends. */
void ss_work_order_fail(ss_work_order *order, ss_status status, const char *message);

/** Frees what is left. Returns what the job returns. */
ss_status ss_work_order_end(ss_work_order *order, ss_error *error);

#endif
