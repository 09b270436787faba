/* study.h - the two commands that try values of unknowns. */
#ifndef SS_CLI_STUDY_H
#define SS_CLI_STUDY_H

#include "cli/run.h"
#include "sillspan/unknown_trials.h"

/** One study: computes into `results`; what it allocates is destroyed by `end`. */
typedef struct ss_study {
    const char *stage; /**< of the progress */
    ss_status (*compute)(ss_unknown_trials *trials, const ss_invocation *asked, ss_results *results,
                         void *own, ss_error *error);
    void (*end)(void *own);
    void *own;
} ss_study;

/** Reads, studies, reports and writes; faults and failures go to standard error. Returns the exit status. */
int ss_study_run(const ss_invocation *asked, const ss_study *study);

#endif
