/* study.c - one run of a command that tries values of unknowns. */
#include "cli/study.h"

#include "base/try.h"
#include "cli/stop.h"
#include "sillspan/work.h"

/* Whether another process tells what comes of it. */
static bool is_helper(const ss_invocation *asked) {
    return asked->workers != NULL && asked->workers->rank > 0;
}

ss_status ss_study_run_compute(ss_pipe *pipe, const ss_invocation *asked, const ss_study *study,
                               ss_study_run_results *made, ss_error *error) {
    ss_status status = SS_OK;
    const ss_study_watch watch = {ss_progress_show, ss_stop_wanted, &pipe->progress};
    const ss_unknown_set *const set = &pipe->whole.bridge.unknowns;
    if (set->count == 0) {
        status = ss_error_set(error, SS_ERROR_LIMIT,
                              "nothing is unknown; name what is, in \"unknowns\" of the description or by "
                              "--unknown PATH=LOW..HIGH");
        goto done;
    }
    ss_progress_stage(&pipe->progress, "full searches");
    SS_TRY(ss_unknown_trials_begin(&pipe->description, set, &watch, &made->trials, error));
    made->results = (ss_results){.command = asked->command->name,
                                 .bridge = &pipe->whole.bridge,
                                 .answers = made->trials.evaluator.answers,
                                 .answer_count = made->trials.evaluator.answer_count,
                                 .described = made->trials.described,
                                 .diags = &pipe->diags,
                                 .require = asked->require,
                                 .text_only = asked->format == SS_FORMAT_TEXT};
    ss_progress_stage(&pipe->progress, study->stage);
    SS_TRY(study->compute(&made->trials, asked, &made->results, study->own, error));
    made->computed = true;
    made->results.searched = made->trials.searched;
done:
    ss_progress_end(&pipe->progress);
    return status;
}

void ss_study_run_end(const ss_study *study, ss_study_run_results *made) {
    if (made->computed) {
        study->end(study->own);
    }
    ss_unknown_trials_end(&made->trials);
    *made = (ss_study_run_results){0};
}

/* The study on a description that was read; its report. */
static ss_status compute(ss_pipe *pipe, const ss_invocation *asked, const ss_study *study, ss_report *report,
                         ss_error *error) {
    ss_status status = SS_OK;
    ss_study_run_results made = {0};
    const ss_unit_system units = asked->units_given ? asked->units : pipe->whole.bridge.units;
    SS_TRY(ss_study_run_compute(pipe, asked, study, &made, error));
    if (is_helper(asked)) {
        goto done;
    }
    SS_TRY(ss_report_build(&made.results, units, report, error));
    /* Its texts may point into what ends here. */
    SS_TRY(ss_deliver_has_table(asked, report) ? ss_deliver(asked, report, error)
                                               : ss_error_set(error, SS_ERROR_LIMIT, "%s", ""));
    SS_TRY(ss_deliver_figure(asked, study->figure, &made.results, units, error));
done:
    ss_study_run_end(study, &made);
    return status;
}

int ss_study_run(const ss_invocation *asked, const ss_study *study) {
    ss_pipe pipe = {.progress = ss_progress_begin(asked->quiet || is_helper(asked))};
    ss_error error = {0};
    ss_report report = {0};
    if (!ss_deliver_can(asked)) {
        return SS_EXIT_USAGE;
    }
    ss_stop_begin();
    ss_status status = ss_pipe_read(&pipe, asked, SS_RUN_RATING, &error);
    if (!is_helper(asked)) {
        ss_run_print_diags(&pipe, asked->quiet);
    }
    if (status == SS_OK) {
        status = compute(&pipe, asked, study, &report, &error);
    }
    const bool misnamed = status == SS_ERROR_LIMIT && error.message[0] == '\0';
    if (status != SS_OK && !misnamed && !is_helper(asked) &&
        (status != SS_ERROR_DESCRIPTION || pipe.diags.faults == 0)) {
        ss_run_print_error(NULL, error.message[0] != '\0' ? error.message : ss_status_text(status));
    }
    ss_report_destroy(&report);
    ss_pipe_destroy(&pipe);
    const bool interrupted = status == SS_OK && ss_stop_asked();
    ss_stop_end();
    return misnamed ? SS_EXIT_USAGE : interrupted ? SS_EXIT_INTERRUPTED : ss_exit_of(status);
}
