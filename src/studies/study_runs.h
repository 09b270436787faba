/* study_runs.h - the points that a search over a box of unknowns has asked for, each of them once. */
#ifndef SS_STUDIES_STUDY_RUNS_H
#define SS_STUDIES_STUDY_RUNS_H

#include "sillspan/evaluator.h"

typedef struct ss_runs {
    const ss_unknown_set *set;
    const ss_evaluator *evaluator;
    const ss_study_watch *watch;
    int most;       /* runs allowed */
    int count;      /* answered */
    int pending;    /* added since, behind them */
    bool stopped;   /* nothing is answered any more */
    double *places; /* most x set->count, 0 to 1 in each unknown's box */
    double *points; /* most x set->count, SI or index */
    double *values; /* most x answer_count */
    int failed, first_failed;
    const char *failure; /* of the first one, in the arena, or NULL */
    ss_arena *arena;
} ss_runs;

/** Room for `most` runs in the arena; set, evaluator, watch and arena are filled in before. */
ss_status ss_runs_init(ss_runs *runs, int most);

/** The run at `places` (0 to 1 each): one that is there, or one that is added and waits; -1 when no more are
 * allowed. */
int ss_runs_add(ss_runs *runs, const double *places);

/** Answers what waits, in batches; a stop drops the rest. */
ss_status ss_runs_answer(ss_runs *runs, ss_error *error);

/** The first answer of a run; NaN for -1, for a dropped one, and where there is none. */
double ss_runs_value(const ss_runs *runs, int run);

#endif
