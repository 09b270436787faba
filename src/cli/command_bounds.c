/* command_bounds.c - sillspan bounds: the worst and the best rating over what the unknowns can be. */
#include "cli/study.h"

static ss_status compute(ss_unknown_trials *trials, const ss_invocation *asked, ss_results *results,
                         void *own, ss_error *error) {
    ss_bounds *const bounds = own;
    results->bounds = bounds;
    return ss_unknown_trials_bounds(trials, asked->runs, bounds, results->full, error);
}

static void end(void *own) {
    ss_bounds_destroy(own);
}

ss_study ss_study_of_bounds(ss_bounds *own) {
    return (ss_study){"runs", compute, ss_figure_bounds, end, own};
}

int ss_command_bounds(const ss_invocation *asked) {
    ss_bounds bounds = {0};
    const ss_study study = ss_study_of_bounds(&bounds);
    return ss_study_run(asked, &study);
}
