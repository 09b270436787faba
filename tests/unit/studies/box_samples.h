/* box_samples.h - unknowns over plain boxes and functions of them that stand in for a rating. */
#ifndef BOX_SAMPLES_H
#define BOX_SAMPLES_H

#include <string.h>

#include "base/numeric.h"
#include "sillspan/evaluator.h"
#include "support/suite.h"

enum { BOX_MOST = 12 };

typedef struct box {
    ss_unknown items[BOX_MOST];
    ss_unknown_set set;
} box;

/** `count` unknowns from 0 to 1. */
static inline void box_make(box *b, int count) {
    static const char *const names[BOX_MOST] = {"a", "b", "c", "d", "e", "f", "g", "h", "i", "j", "k", "l"};
    memset(b, 0, sizeof *b);
    for (int j = 0; j < count; j++) {
        b->items[j] = (ss_unknown){
            .name = names[j], .kind = SS_UNKNOWN_UNIFORM, .high = 1.0, .box_high = 1.0, .described = SS_NAN};
    }
    b->set = (ss_unknown_set){.items = b->items, .count = count};
}

/** Makes one of them a list of the words. */
static inline void box_list(box *b, int j, const char **words, double *weights, int count) {
    b->items[j].kind = SS_UNKNOWN_DISCRETE;
    b->items[j].texts = b->items[j].words = words;
    b->items[j].weights = weights;
    b->items[j].text_count = count;
    b->items[j].high = b->items[j].box_high = count - 1.0;
}

/** A function of one point, and what is counted of it. */
typedef struct probe {
    const ss_unknown_set *set;
    double (*f)(int count, const double *x);
    int runs, largest, calls;
    int stop_after; /**< calls after which stop() says so; 0: never */
    double last;    /**< of the progress */
} probe;

static inline ss_status probe_evaluate(void *context, int count, const double *points, double *values,
                                       ss_error *error) {
    probe *const p = context;
    (void)error;
    for (int i = 0; i < count; i++) {
        values[2 * i] = p->f(p->set->count, points + (size_t)i * (size_t)p->set->count);
        values[2 * i + 1] = 10.0 * points[(size_t)i * (size_t)p->set->count];
    }
    p->runs += count;
    p->largest = count > p->largest ? count : p->largest;
    p->calls++;
    return SS_OK;
}

static inline const char *probe_failure(void *context, int i) {
    (void)context;
    (void)i;
    return "the bridge is free to move";
}

static inline bool probe_stop(void *context) {
    const probe *const p = context;
    return p->stop_after > 0 && p->calls >= p->stop_after;
}

static inline void probe_progress(void *context, double done) {
    probe *const p = context;
    CU_ASSERT(done > p->last && done <= 1.0);
    p->last = done;
}

static inline ss_evaluator probe_evaluator(probe *p) {
    static const ss_answer answers[] = {{"rf", "controlling rating", SS_DIM_NUMBER},
                                        {"limit", "limit", SS_DIM_FORCE}};
    return (ss_evaluator){answers, 2, probe_evaluate, probe_failure, p};
}

#endif
