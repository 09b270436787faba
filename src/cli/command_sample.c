/* command_sample.c - sillspan sample: ratings of random draws of the unknowns. */
#include "cli/ranks.h"
#include "cli/study.h"

static ss_status compute(ss_unknown_trials *trials, const ss_invocation *asked, ss_results *results,
                         void *own, ss_error *error) {
    ss_sample *const sample = own;
    results->sample = sample;
    if (asked->workers != NULL) {
        ss_unknown_trials_share(trials, asked->workers, ss_ranks_size(asked->workers));
    }
    return ss_unknown_trials_sample(trials, asked->draws, (uint64_t)asked->seed, sample, &results->full[0],
                                    error);
}

static void end(void *own) {
    ss_sample_destroy(own);
}

ss_study ss_study_of_sample(ss_sample *own) {
    return (ss_study){"draws", compute, ss_figure_sample, end, own};
}

int ss_command_sample(const ss_invocation *asked) {
    ss_sample sample = {0};
    const ss_study study = ss_study_of_sample(&sample);
    return ss_study_run(asked, &study);
}
