/* run.c - one run of a command: the pipe, its messages and its exit status. */
#include "cli/run.h"

#include <stdio.h>

#include "base/try.h"
#include "cli/batch.h"
#include "cli/studied.h"
#include "sillspan/memory.h"
#include "sillspan/text.h"

/* Whether what was asked for is met, and whether something was asked for that is not there. */
typedef struct answered {
    bool met, misnamed;
} answered;

int ss_exit_of(ss_status status) {
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

void ss_run_say_error(const char *file, const char *text, ss_text *out) {
    ss_text_add(out, "sillspan: ");
    if (file != NULL) {
        ss_text_add_plain(out, file);
        ss_text_add(out, ": ");
    }
    ss_text_add_plain(out, text);
    ss_text_add(out, "\n");
}

void ss_run_print_said(ss_text *said) {
    if (said->failed) {
        fputs("sillspan: no memory for a message\n", stderr);
    } else if (said->length > 0) {
        fputs(said->data, stderr);
    }
    ss_text_destroy(said);
}

void ss_run_print_error(const char *file, const char *text) {
    ss_text said = {0};
    ss_run_say_error(file, text, &said);
    ss_run_print_said(&said);
}

/* "file:line: path: message", in a form that editors jump to. */
static void say_diag(const ss_diag *diag, ss_text *out) {
    ss_text_add_plain(out, diag->where.file == NULL ? "--set" : diag->where.file);
    if (diag->where.file != NULL && diag->where.line > 0) {
        ss_text_printf(out, ":%d", diag->where.line);
    }
    ss_text_add(out, diag->severity == SS_WARNING ? ": warning: " : ": ");
    if (diag->path[0] != '\0') {
        ss_text_add_plain(out, diag->path);
        ss_text_add(out, ": ");
    }
    ss_text_add_plain(out, diag->message);
    ss_text_add(out, "\n");
}

static void say_list(ss_diag_list *diags, bool quiet, ss_text *out) {
    ss_diag_sort(diags);
    for (int i = 0; i < diags->count; i++) {
        if (diags->items[i].severity == SS_FAULT || !quiet) {
            say_diag(&diags->items[i], out);
        }
    }
}

void ss_run_print_list(ss_diag_list *diags, bool quiet) {
    ss_text said = {0};
    say_list(diags, quiet, &said);
    ss_run_print_said(&said);
}

void ss_run_say_diags(ss_pipe *pipe, const char *file, bool quiet, ss_text *out) {
    say_list(&pipe->diags, quiet, out);
    if (pipe->diags.faults > 0) {
        char line[80];
        snprintf(line, sizeof line, "%d fault%s in the description; nothing was computed", pipe->diags.faults,
                 pipe->diags.faults == 1 ? "" : "s");
        ss_run_say_error(file, line, out);
    }
}

void ss_run_print_diags(ss_pipe *pipe, bool quiet) {
    ss_text said = {0};
    ss_run_say_diags(pipe, NULL, quiet, &said);
    ss_run_print_said(&said);
}

/* A page of HTML or of paper, with figures, and without what is for programs alone. */
static bool is_page(const ss_invocation *asked) {
    return asked->format == SS_FORMAT_PAGE || asked->format == SS_FORMAT_PDF;
}

ss_results ss_run_results(const ss_pipe *pipe, const ss_invocation *asked, ss_extent reach) {
    const ss_node *const variants = pipe->base.root == NULL ? NULL : ss_description_variants(&pipe->base);
    ss_results results = {.command = asked->command->name,
                          .variants = variants == NULL ? 0 : variants->count,
                          .variant = asked->variant,
                          .bridge = &pipe->whole.bridge,
                          .mesh = &pipe->whole.mesh,
                          .grillage = pipe->whole.grillage,
                          .diags = &pipe->diags,
                          .detail = asked->detail,
                          .require = asked->require,
                          .text_only = asked->format == SS_FORMAT_TEXT || is_page(asked)};
    if (reach >= SS_RUN_ANALYSIS) {
        results.permanent = &pipe->whole.permanent;
        results.placements = &pipe->whole.placements;
        results.envelope = &pipe->envelope;
        results.along = pipe->along.effect_count > 0 ? &pipe->along : NULL;
        results.shares = &pipe->shares;
        results.cases = &pipe->cases;
    }
    if (reach >= SS_RUN_RATING) {
        results.rated = &pipe->whole.ratings;
        results.rated_along = pipe->rated_along.check_count > 0 ? &pipe->rated_along : NULL;
        results.posting = pipe->posted ? &pipe->posting : NULL;
        results.joint_out = pipe->joint_out.count > 0 ? &pipe->joint_out : NULL;
        results.reruns = pipe->reruns.count > 0 ? &pipe->reruns : NULL;
        const bool fatigue = pipe->fatigue.count > 0 || pipe->fatigue.failure != NULL;
        results.fatigue = fatigue ? &pipe->fatigue : NULL;
        results.casting = pipe->casting.permanent != NULL ? &pipe->casting : NULL;
        results.moving = pipe->moving.reading_count > 0 ? &pipe->moving : NULL;
        results.not_moving = pipe->not_moving.status != SS_OK ? pipe->not_moving.message : NULL;
        results.slab_connectors = pipe->slab_checks.arena != NULL ? &pipe->slab_connectors : NULL;
        results.slab_across = pipe->slab_checks.arena != NULL ? &pipe->slab_across : NULL;
        results.slab_checks = pipe->slab_checks.arena != NULL ? &pipe->slab_checks : NULL;
    }
    return results;
}

/* Whether --detail names a member; else says which there are. */
static bool has_member(const ss_invocation *asked, const ss_bridge *bridge) {
    const char *words[64];
    const int count = ss_report_detail_names(bridge, asked->detail, words, 64);
    if (count == 0) {
        return true;
    }
    ss_text line = {0};
    ss_text_add(&line, "no line, floor beam or joint is called \"");
    ss_text_add_plain(&line, asked->detail);
    const char *const near = ss_text_nearest(asked->detail, words, count);
    ss_text_printf(&line, near != NULL ? "\"; did you mean \"%s\"?" : "\"; one is \"%s\"",
                   near != NULL ? near : words[0]);
    ss_run_print_error(NULL, line.failed ? "no such member" : line.data);
    ss_text_destroy(&line);
    return false;
}

/* All that the command tells of, as far as `reach`. */
static ss_status compute(ss_pipe *pipe, const ss_invocation *asked, ss_extent reach, ss_error *error) {
    static const ss_effect_kind kinds[] = {SS_EFFECT_MOMENT, SS_EFFECT_SHEAR, SS_EFFECT_DEFLECTION};
    ss_status status = SS_OK;
    SS_TRY(ss_pipe_compute(pipe, reach, error));
    if (reach == SS_RUN_RATING && (!asked->brief || asked->cut != NULL)) {
        SS_TRY(ss_pipe_rerun(pipe, asked, error));
    }
    if (reach == SS_RUN_RATING) {
        SS_TRY(ss_pipe_fatigue(pipe, error));
        SS_TRY(ss_pipe_slab(pipe, error));
    }
    if (is_page(asked)) {
        SS_TRY(ss_pipe_along(pipe, asked, kinds, 3, error));
    }
    if (is_page(asked) && reach == SS_RUN_RATING) {
        SS_TRY(ss_pipe_rate_along(pipe, asked, error));
    }
    if (reach == SS_RUN_RATING && asked->format == SS_FORMAT_PAGE) {
        SS_TRY(ss_pipe_moving(pipe, error));
    }
done:
    return status;
}

/* Reports on what the pipe has read. */
static ss_status answer(ss_pipe *pipe, const ss_invocation *asked, ss_extent reach, answered *out,
                        ss_error *error) {
    ss_status status = SS_OK;
    ss_report report = {0};
    ss_studied *const studied = ss_alloc(1, sizeof *studied);
    SS_TRY(studied == NULL ? ss_error_set(error, SS_ERROR_MEMORY, "no memory for the studies") : SS_OK);
    SS_TRY(ss_studied_can(pipe, asked, error));
    SS_TRY(compute(pipe, asked, reach, error));
    SS_TRY(ss_studied_compute(studied, pipe, asked, error));
    ss_results results = ss_run_results(pipe, asked, reach);
    results.studies = studied->count > 0 ? studied->results : NULL;
    results.study_count = studied->count;
    const ss_unit_system units = asked->units_given ? asked->units : pipe->whole.bridge.units;
    out->met = ss_report_requirement_met(&results);
    SS_TRY(ss_report_build(&results, units, &report, error));
    out->misnamed = !ss_deliver_has_table(asked, &report) || !has_member(asked, &pipe->whole.bridge);
    if (!out->misnamed) {
        SS_TRY(ss_deliver(asked, &report, error));
    }
done:
    ss_report_destroy(&report);
    if (studied != NULL) {
        ss_studied_end(studied);
        ss_free(studied);
    }
    return status;
}

int ss_run_command(const ss_invocation *asked, ss_extent reach) {
    if (ss_batch_asked(asked)) {
        return ss_batch_run(asked, reach);
    }
    if (asked->resume != NULL) {
        ss_run_print_error(NULL, "--resume goes with several files, or with a folder");
        return SS_EXIT_USAGE;
    }
    ss_pipe pipe = {.progress = ss_progress_begin(asked->quiet)};
    ss_error error = {0};
    answered it = {.met = true};
    ss_status status = ss_pipe_read(&pipe, asked, reach, &error);
    ss_run_print_diags(&pipe, asked->quiet);
    if (status == SS_OK) {
        status = answer(&pipe, asked, reach, &it, &error);
    }
    if (status != SS_OK && (status != SS_ERROR_DESCRIPTION || pipe.diags.faults == 0)) {
        ss_run_print_error(NULL, error.message[0] != '\0' ? error.message : ss_status_text(status));
    }
    ss_pipe_destroy(&pipe);
    if (it.misnamed) {
        return SS_EXIT_USAGE;
    }
    return status == SS_OK && !it.met ? SS_EXIT_NOT_MET : ss_exit_of(status);
}
