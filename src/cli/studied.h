/* studied.h - runs of the studies' commands in steps, so that `report` can have them too. */
#ifndef SS_CLI_STUDIED_H
#define SS_CLI_STUDIED_H

#include "cli/compare_columns.h"
#include "cli/run.h"
#include "cli/study.h"
#include "report/report_compare.h"
#include "sillspan/compare.h"
#include "sillspan/sweep.h"

/** One sweep of a bridge that `pipe` has read. */
typedef struct ss_sweep_run {
    const ss_invocation *asked;
    ss_pipe *pipe;         /**< the bridge as it is */
    ss_description varied; /**< the same with what is swept as its only unknowns */
    ss_bridge bridge;      /**< of that */
    ss_sweep sweep;
    bool whole;
} ss_sweep_run;

/** What is swept, from the options; faults go to the pipe. */
ss_status ss_sweep_run_vary(ss_sweep_run *s, ss_error *error);
ss_status ss_sweep_run_compute(ss_sweep_run *s, ss_error *error);
void ss_sweep_run_end(ss_sweep_run *s);

/** One comparison of the variants of a description. */
typedef struct ss_compare_run {
    const ss_invocation *asked;
    ss_description base;
    ss_diag_list diags; /**< of the text itself */
    ss_compare_columns columns;
    ss_comparison comparison;
    ss_compared first; /**< the first that was computed: the others are compared with it */
    bool has_first;
    bool nothing; /**< there is nothing to compare */
    ss_progress progress;
    int worst; /**< exit status of any variant */
} ss_compare_run;

/** `c` is zeroed. */
void ss_compare_run_begin(ss_compare_run *c, const ss_invocation *asked);
/** Reads and computes every variant; unless `silent` what is said of their descriptions is printed. */
ss_status ss_compare_run_compute(ss_compare_run *c, bool silent, ss_error *error);
void ss_compare_run_end(ss_compare_run *c);

/** Reads the bridge with its slab, whether or not the description has it in use. */
ss_status ss_size_run_read(ss_pipe *pipe, const ss_invocation *asked, ss_error *error);

/** The studies of a report; a zeroed struct has none. It stays where it is. */
typedef struct ss_studied {
    ss_invocation asked[5]; /**< of each, as its own command would be asked */
    ss_results results[5];
    int count;
    ss_sweep_run sweep;
    ss_study_run_results unknowns[2]; /**< bounds, sample */
    ss_bounds bounds;
    ss_sample sample;
    ss_compare_run compare;
    ss_pipe sized;
    ss_size size;
} ss_studied;

/** Whether the description that the pipe has read has all that the studies asked for need. SS_ERROR_LIMIT: it
 * does not; the error says what is missing. */
ss_status ss_studied_can(const ss_pipe *pipe, const ss_invocation *asked, ss_error *error);
/** Computes them. */
ss_status ss_studied_compute(ss_studied *s, ss_pipe *pipe, const ss_invocation *asked, ss_error *error);
void ss_studied_end(ss_studied *s);

#endif
