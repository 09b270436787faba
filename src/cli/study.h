/* study.h - the two commands that try values of unknowns. */
#ifndef SS_CLI_STUDY_H
#define SS_CLI_STUDY_H

#include "cli/deliver_figure.h"
#include "cli/run.h"
#include "sillspan/unknown_trials.h"

/** One study: computes into `results`; what it allocates is destroyed by `end`. */
typedef struct ss_study {
    const char *stage; /**< of the progress */
    ss_status (*compute)(ss_unknown_trials *trials, const ss_invocation *asked, ss_results *results,
                         void *own, ss_error *error);
    ss_deliver_maker *figure; /**< that --figure asks for */
    void (*end)(void *own);
    void *own;
} ss_study;

/** The two, with room for their results. */
ss_study ss_study_of_bounds(ss_bounds *own);
ss_study ss_study_of_sample(ss_sample *own);

/** What a study came to; a zeroed struct is empty. It stays where it is. */
typedef struct ss_study_run_results {
    ss_unknown_trials trials;
    ss_results results;
    bool computed;
} ss_study_run_results;

/** The study of a bridge that the pipe has read. What `made` and the study's own hold lasts until
 * ss_study_run_end. */
ss_status ss_study_run_compute(ss_pipe *pipe, const ss_invocation *asked, const ss_study *study,
                               ss_study_run_results *made, ss_error *error);
void ss_study_run_end(const ss_study *study, ss_study_run_results *made);

/** Reads, studies, reports and writes; faults and failures go to standard error. Returns the exit status. */
int ss_study_run(const ss_invocation *asked, const ss_study *study);

#endif
