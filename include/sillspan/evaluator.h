/* evaluator.h - whatever turns values of unknowns into answers, as the studies of unknowns see it. */
#ifndef SILLSPAN_EVALUATOR_H
#define SILLSPAN_EVALUATOR_H

#include "sillspan/unknown.h"

/** One of the answers that every point has. */
typedef struct ss_answer {
    const char *key;   /**< for programs: "rf" */
    const char *title; /**< for people: "controlling rating" */
    ss_dimension dimension;
} ss_answer;

/** Its functions are called by one thread; what they do inside is theirs. */
typedef struct ss_evaluator {
    const ss_answer *answers; /**< the first is the one that is bounded, sampled and ranked by */
    int answer_count;         /**< 1 at least */
    /**
     * Answers `count` points (count x unknowns, SI values or indices) into `values` (count x answer_count,
     * SI; NaN in the first where a point has no answer, INFINITY where nothing limits it). The same point
     * always has the same answer, whatever is asked with it. A failure of one point is none of the call.
     */
    ss_status (*evaluate)(void *context, int count, const double *points, double *values, ss_error *error);
    /** Why point i of the last call has no answer; NULL, or may return NULL. The text need not last. */
    const char *(*failure)(void *context, int i);
    void *context;
} ss_evaluator;

/** How a study is watched; all may be NULL. */
typedef struct ss_study_watch {
    void (*progress)(void *context, double done); /**< 0 to 1 */
    bool (*stop)(void *context); /**< asked between batches; true ends the study with what is finished */
    void *context;
} ss_study_watch;

#endif
