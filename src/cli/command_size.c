/* command_size.c - sillspan size: the concrete deck that lets a bridge reach its targets. */
#include "base/try.h"
#include "cli/deliver_figure.h"
#include "cli/describe.h"
#include "cli/run.h"
#include "cli/stop.h"
#include "cli/studied.h"

ss_status ss_size_run_read(ss_pipe *pipe, const ss_invocation *asked, ss_error *error) {
    ss_status status = SS_OK;
    SS_TRY(ss_describe_read(asked, &pipe->base, &pipe->diags, error));
    SS_TRY(ss_description_copy(&pipe->base, NULL, &pipe->description));
    if (ss_node_child(pipe->description.root, "slab") != NULL) {
        SS_TRY(ss_description_set(&pipe->description, "slab.in_use", "true", &pipe->diags));
    }
    SS_TRY(ss_bridge_resolve(&pipe->description, &pipe->whole.bridge, &pipe->diags));
    status = ss_pipe_check_rating(&pipe->description, &pipe->whole.bridge, &pipe->diags);
done:
    return status;
}

static ss_status deliver(const ss_invocation *asked, const ss_pipe *pipe, const ss_size *size, bool *misnamed,
                         ss_error *error) {
    ss_report report = {0};
    const ss_results results = {.command = asked->command->name,
                                .bridge = &pipe->whole.bridge,
                                .size = size,
                                .diags = &pipe->diags,
                                .require = asked->require,
                                .text_only = asked->format == SS_FORMAT_TEXT};
    const ss_unit_system units = asked->units_given ? asked->units : pipe->whole.bridge.units;
    ss_status status = ss_report_build(&results, units, &report, error);
    if (status == SS_OK) {
        *misnamed = !ss_deliver_has_table(asked, &report);
        status = *misnamed ? SS_OK : ss_deliver(asked, &report, error);
    }
    if (status == SS_OK && !*misnamed) {
        status = ss_deliver_figure(asked, ss_figure_size, &results, units, error);
    }
    ss_report_destroy(&report);
    return status;
}

int ss_command_size(const ss_invocation *asked) {
    ss_pipe pipe = {.progress = ss_progress_begin(asked->quiet)};
    const ss_size_watch watch = {
        .progress = ss_progress_step, .stop = ss_stop_wanted, .context = &pipe.progress};
    ss_error error = {0};
    ss_size size = {0};
    bool misnamed = false;
    if (!ss_deliver_can(asked)) {
        return SS_EXIT_USAGE;
    }
    ss_stop_begin();
    ss_status status = ss_size_run_read(&pipe, asked, &error);
    ss_run_print_diags(&pipe, asked->quiet);
    if (status == SS_OK) {
        status = ss_size_compute(&pipe.description, &pipe.whole.bridge, &watch, &size, &error);
        ss_progress_end(&pipe.progress);
    }
    if (status == SS_OK) {
        status = deliver(asked, &pipe, &size, &misnamed, &error);
    }
    if (status != SS_OK && (status != SS_ERROR_DESCRIPTION || pipe.diags.faults == 0)) {
        ss_run_print_error(NULL, error.message[0] != '\0' ? error.message : ss_status_text(status));
    }
    ss_size_destroy(&size);
    ss_pipe_destroy(&pipe);
    const bool interrupted = status == SS_OK && ss_stop_asked();
    ss_stop_end();
    return misnamed ? SS_EXIT_USAGE : interrupted ? SS_EXIT_INTERRUPTED : ss_exit_of(status);
}
