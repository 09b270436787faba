/* run.c - one run of a command: the pipe, its messages and its exit status. */
#include "cli/run.h"

#include <stdio.h>

#include "sillspan/text.h"

static int exit_of(ss_status status) {
    switch (status) {
    case SS_OK: return SS_EXIT_DONE;
    case SS_ERROR_DESCRIPTION:
    case SS_ERROR_LIMIT: return SS_EXIT_DESCRIPTION;
    case SS_ERROR_MECHANISM:
    case SS_ERROR_TIPPING:
    case SS_ERROR_CHECK:
    case SS_ERROR_NUMERIC: return SS_EXIT_ANALYSIS;
    case SS_ERROR_FILE: return SS_EXIT_FILE;
    case SS_ERROR_MEMORY:
    case SS_ERROR_INTERNAL: break;
    }
    return SS_EXIT_INTERNAL;
}

/* "file:line: path: message", in a form that editors jump to. */
static void print_diag(const ss_diag *diag) {
    ss_text line = {0};
    ss_text_add_plain(&line, diag->where.file == NULL ? "--set" : diag->where.file);
    if (diag->where.file != NULL && diag->where.line > 0) {
        ss_text_printf(&line, ":%d", diag->where.line);
    }
    ss_text_add(&line, diag->severity == SS_WARNING ? ": warning: " : ": ");
    if (diag->path[0] != '\0') {
        ss_text_add_plain(&line, diag->path);
        ss_text_add(&line, ": ");
    }
    ss_text_add_plain(&line, diag->message);
    ss_text_add(&line, "\n");
    fputs(line.failed ? "sillspan: no memory for a message\n" : line.data, stderr);
    ss_text_destroy(&line);
}

static void print_diags(ss_pipe *pipe, bool quiet) {
    ss_diag_sort(&pipe->diags);
    for (int i = 0; i < pipe->diags.count; i++) {
        if (pipe->diags.items[i].severity == SS_FAULT || !quiet) {
            print_diag(&pipe->diags.items[i]);
        }
    }
    if (pipe->diags.faults > 0) {
        fprintf(stderr, "sillspan: %d fault%s in the description; nothing was computed\n", pipe->diags.faults,
                pipe->diags.faults == 1 ? "" : "s");
    }
}

static void print_error(const ss_error *error, ss_status status) {
    ss_text line = {0};
    ss_text_add_plain(&line, error->message[0] != '\0' ? error->message : ss_status_text(status));
    fprintf(stderr, "sillspan: %s\n", line.failed ? ss_status_text(status) : line.data);
    ss_text_destroy(&line);
}

static ss_results results_of(const ss_pipe *pipe, const ss_invocation *asked, ss_extent reach) {
    ss_results results = {.command = asked->command->name,
                          .bridge = &pipe->bridge,
                          .mesh = &pipe->mesh,
                          .grillage = pipe->grillage,
                          .diags = &pipe->diags,
                          .require = asked->require};
    if (reach >= SS_RUN_ANALYSIS) {
        results.permanent = &pipe->permanent;
        results.placements = &pipe->placements;
        results.envelope = &pipe->envelope;
        results.shares = &pipe->shares;
        results.cases = &pipe->cases;
    }
    if (reach >= SS_RUN_RATING) {
        results.ratings = &pipe->ratings;
    }
    return results;
}

int ss_run_command(const ss_invocation *asked, ss_extent reach) {
    ss_pipe pipe = {.progress = ss_progress_begin(asked->quiet)};
    ss_error error = {0};
    ss_report report = {0};
    bool met = true;
    ss_status status = ss_pipe_read(&pipe, asked, reach, &error);
    print_diags(&pipe, asked->quiet);
    if (status == SS_OK) {
        status = ss_pipe_compute(&pipe, reach, &error);
    }
    if (status == SS_OK) {
        const ss_results results = results_of(&pipe, asked, reach);
        const ss_unit_system units = asked->units_given ? asked->units : pipe.bridge.units;
        met = ss_report_requirement_met(&results);
        status = ss_report_build(&results, units, &report, &error);
    }
    if (status == SS_OK) {
        status = ss_deliver(asked, &report, &error);
    }
    if (status != SS_OK && (status != SS_ERROR_DESCRIPTION || pipe.diags.faults == 0)) {
        print_error(&error, status);
    }
    ss_report_destroy(&report);
    ss_pipe_destroy(&pipe);
    return status == SS_OK && !met ? SS_EXIT_NOT_MET : exit_of(status);
}
