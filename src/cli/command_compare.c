/* command_compare.c - sillspan compare: variants of a bridge side by side. */
#include <math.h>
#include <stdio.h>

#include "base/try.h"
#include "cli/deliver_figure.h"
#include "cli/describe.h"
#include "cli/run.h"
#include "cli/studied.h"

static void show_stage(void *context, const char *what) {
    ss_progress_stage(context, what);
}

/* ---- one variant -------------------------------------------------------------------------------------- */

static const ss_diag *first_fault(const ss_diag_list *diags) {
    for (int i = 0; i < diags->count; i++) {
        if (diags->items[i].severity == SS_FAULT) {
            return &diags->items[i];
        }
    }
    return NULL;
}

static ss_status leave_out(ss_compare_run *c, const ss_compare_column *column, ss_status why,
                           const ss_error *error) {
    ss_text says = {0};
    const ss_diag *const fault = why == SS_ERROR_DESCRIPTION ? first_fault(&column->diags) : NULL;
    if (fault != NULL && fault->where.line > 0) {
        ss_text_printf(&says, "line %d: ", fault->where.line);
    }
    if (fault != NULL) {
        ss_text_printf(&says, "%s%s%s", fault->path, fault->path[0] == '\0' ? "" : ": ", fault->message);
    } else {
        ss_text_add(&says, error->message[0] != '\0' ? error->message : ss_status_text(why));
    }
    if (!says.failed) {
        ss_comparison_add_failed(&c->comparison, column->name, column->changes,
                                 why == SS_ERROR_DESCRIPTION ? SS_COMPARE_FAULTS : SS_COMPARE_FAILED,
                                 says.data);
        ss_text line = {0};
        ss_text_printf(&line, "variant \"%s\" is left out: %s", column->name,
                       fault != NULL ? "its description has faults" : says.data);
        ss_run_print_error(NULL, line.failed ? "no memory for a message" : line.data);
        ss_text_destroy(&line);
    }
    const bool failed = says.failed || c->comparison.failed;
    ss_text_destroy(&says);
    c->worst = ss_exit_of(why) > c->worst ? ss_exit_of(why) : c->worst;
    return failed ? SS_ERROR_MEMORY : SS_OK;
}

/* Those that say something of this bridge; others are faults of the program or of the machine. */
static bool is_about_the_bridge(ss_status status) {
    return ss_exit_of(status) == SS_EXIT_DESCRIPTION || ss_exit_of(status) == SS_EXIT_ANALYSIS;
}

static void warn(ss_compare_run *c, int index) {
    const ss_diag_list *const diags = &c->columns.items[index].diags;
    for (int i = 0; i < diags->count; i++) {
        if (diags->items[i].severity == SS_WARNING) {
            ss_comparison_warn(&c->comparison, index, &diags->items[i]);
        }
    }
}

static ss_status run_one(ss_compare_run *c, int index, ss_error *error) {
    const ss_compare_column *const column = &c->columns.items[index];
    const ss_compare_options options = {.response = !c->asked->no_response,
                                        .rating = !c->asked->no_rating,
                                        .abreast = c->asked->abreast,
                                        .stage = show_stage,
                                        .progress = ss_progress_show,
                                        .context = &c->progress};
    ss_compared own = {0};
    ss_compared *const into = c->has_first ? &own : &c->first;
    ss_diag_list again = {0}; /* all of it has been said */
    ss_error why = {0};
    ss_status status = column->status;
    warn(c, index);
    if (status == SS_OK) {
        ss_progress_number(&c->progress, index + 1, c->columns.count);
        status = ss_compare_one(&column->description, &options, into, &again, &why);
        ss_progress_end(&c->progress);
    }
    ss_diag_destroy(&again);
    if (status == SS_OK) {
        if (!c->has_first) {
            c->comparison.units = c->asked->units_given ? c->asked->units : c->first.whole.bridge.units;
        }
        ss_comparison_add(&c->comparison, column->name, column->changes, into,
                          c->has_first ? &c->first.whole.bridge : NULL);
        c->has_first = true;
        status = c->comparison.failed ? SS_ERROR_MEMORY : SS_OK;
    } else if (is_about_the_bridge(status)) {
        status = leave_out(c, column, status, &why);
    } else {
        *error = why;
    }
    ss_compared_destroy(&own);
    return status;
}

/* ---- all of them -------------------------------------------------------------------------------------- */

static void print_all(ss_compare_run *c) {
    for (int i = 0; i < c->columns.count; i++) {
        ss_run_print_list(&c->columns.items[i].diags, c->asked->quiet);
    }
}

static ss_status write_all(ss_compare_run *c, bool *misnamed, ss_error *error) {
    ss_report report = {0};
    const ss_node *const title = ss_node_child(c->base.root, "title");
    const ss_comparison_head head = {.title = title == NULL ? NULL : title->text,
                                     .digest = c->base.digest,
                                     .bridge = c->has_first ? &c->first.whole.bridge : NULL,
                                     .units = c->has_first            ? c->comparison.units
                                              : c->asked->units_given ? c->asked->units
                                                                      : SS_UNITS_US};
    ss_status status = ss_comparison_report(&c->comparison, &head, &report, error);
    if (status == SS_OK) {
        *misnamed = !ss_deliver_has_table(c->asked, &report);
        status = *misnamed ? SS_OK : ss_deliver(c->asked, &report, error);
    }
    if (status == SS_OK && !*misnamed && c->has_first) {
        const ss_results results = {.command = "compare",
                                    .bridge = head.bridge,
                                    .comparison = &c->comparison,
                                    .require = (double)NAN};
        status = ss_deliver_figure(c->asked, ss_figure_compare, &results, head.units, error);
    } else if (status == SS_OK && !*misnamed && c->asked->figure_word != NULL) {
        ss_run_print_error(NULL, "no figure is written: no variant could be computed");
    }
    ss_report_destroy(&report);
    return status;
}

void ss_compare_run_begin(ss_compare_run *c, const ss_invocation *asked) {
    c->asked = asked;
    c->comparison.response = !asked->no_response;
    c->comparison.rating = !asked->no_rating;
    c->comparison.abreast = asked->abreast;
    c->progress = ss_progress_begin(asked->quiet);
    c->progress.noun = "variant";
}

ss_status ss_compare_run_compute(ss_compare_run *c, bool silent, ss_error *error) {
    ss_status status = SS_OK;
    SS_TRY(ss_describe_read(c->asked, &c->base, &c->diags, error));
    status = ss_compare_columns_make(c->asked, &c->base, &c->diags, &c->columns, error);
    c->nothing = status == SS_ERROR_LIMIT;
    SS_TRY(status);
    if (!silent) {
        print_all(c);
    }
    for (int i = 0; i < c->columns.count; i++) {
        SS_TRY(run_one(c, i, error));
    }
done:
    return status;
}

void ss_compare_run_end(ss_compare_run *c) {
    ss_comparison_destroy(&c->comparison);
    ss_compared_destroy(&c->first);
    ss_compare_columns_destroy(&c->columns);
    ss_description_destroy(&c->base);
    ss_diag_destroy(&c->diags);
}

static int exit_of(const ss_compare_run *c, ss_status status, bool misnamed) {
    if (misnamed || c->nothing) {
        return SS_EXIT_USAGE;
    }
    return status == SS_OK ? c->worst : ss_exit_of(status);
}

int ss_command_compare(const ss_invocation *asked) {
    ss_compare_run c = {0};
    ss_error error = {0};
    bool misnamed = false;
    if (!ss_deliver_can(asked)) {
        return SS_EXIT_USAGE;
    }
    ss_compare_run_begin(&c, asked);
    ss_status status = ss_compare_run_compute(&c, false, &error);
    if (status == SS_OK) {
        status = write_all(&c, &misnamed, &error);
    }
    if (c.diags.count > 0 && c.columns.count == 0) {
        ss_run_print_list(&c.diags, asked->quiet);
    }
    if (c.diags.faults > 0) {
        char line[80];
        snprintf(line, sizeof line, "%d fault%s in the description; nothing was computed", c.diags.faults,
                 c.diags.faults == 1 ? "" : "s");
        ss_run_print_error(NULL, line);
    } else if (status != SS_OK) {
        ss_run_print_error(NULL, error.message[0] != '\0' ? error.message : ss_status_text(status));
    }
    const int code = exit_of(&c, status, misnamed);
    ss_compare_run_end(&c);
    return code;
}
