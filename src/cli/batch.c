/* batch.c - several bridges in one run: each goes through the pipe by itself and leaves one row. */
#define _POSIX_C_SOURCE 200809L

#include "cli/batch.h"

#include <string.h>
#include <sys/stat.h>

#include "report/report_overview.h"

/* What goes through all of them. */
typedef struct batch {
    const ss_invocation *asked; /* with the files in place of folders */
    ss_extent reach;
    ss_overview overview;
    int worst; /* exit status */
    int in[2]; /* how many of them are in US and in SI units */
} batch;

bool ss_batch_asked(const ss_invocation *asked) {
    struct stat about;
    return asked->file_count > 1 || (stat(asked->file, &about) == 0 && S_ISDIR(about.st_mode));
}

static ss_outcome outcome_of(int code) {
    switch (code) {
    case SS_EXIT_DONE: return SS_OUTCOME_DONE;
    case SS_EXIT_NOT_MET: return SS_OUTCOME_NOT_MET;
    case SS_EXIT_DESCRIPTION: return SS_OUTCOME_FAULTS;
    case SS_EXIT_ANALYSIS: return SS_OUTCOME_FAILED;
    case SS_EXIT_FILE: return SS_OUTCOME_FILE;
    default: return SS_OUTCOME_INTERNAL;
    }
}

static const char *title_of(const ss_pipe *pipe) {
    const ss_node *root = pipe->description.root;
    const ss_node *title = root == NULL ? NULL : ss_node_child(root, "title");
    return title != NULL && title->kind == SS_NODE_TEXT ? title->text : NULL;
}

/* "line 12: cars.flat.length: ...": the first fault, without the file that the row names already. */
static const char *first_fault(const ss_pipe *pipe, ss_arena *arena) {
    const ss_diag *fault = NULL;
    for (int i = 0; i < pipe->diags.count && fault == NULL; i++) {
        fault = pipe->diags.items[i].severity == SS_FAULT ? &pipe->diags.items[i] : NULL;
    }
    if (fault == NULL) {
        return NULL;
    }
    const char *colon = fault->path[0] == '\0' ? "" : ": ";
    return fault->where.line > 0 ? ss_arena_printf(arena, "line %d: %s%s%s", fault->where.line, fault->path,
                                                   colon, fault->message)
                                 : ss_arena_printf(arena, "%s%s%s", fault->path, colon, fault->message);
}

/* Messages about files begin with their names, which the row has already. */
static const char *without_name(const char *message, const char *file) {
    const size_t length = strlen(file);
    return strncmp(message, file, length) == 0 && strncmp(message + length, ": ", 2) == 0
               ? message + length + 2
               : message;
}

static void finish(batch *all, const ss_overview_entry *entry, int code) {
    ss_overview_add(&all->overview, entry);
    all->worst = code > all->worst ? code : all->worst;
}

static void run_one(batch *all, int index) {
    ss_invocation one = *all->asked;
    one.file = all->asked->files[index];
    ss_arena words = {0};
    ss_error error = {0};
    ss_pipe pipe = {.progress = ss_progress_begin(one.quiet)};
    ss_progress_number(&pipe.progress, index + 1, all->asked->file_count);
    ss_status status = ss_pipe_read(&pipe, &one, all->reach, &error);
    ss_run_print_diags(&pipe, one.file, one.quiet);
    if (status == SS_OK) {
        all->in[pipe.whole.bridge.units]++;
        status = ss_pipe_compute(&pipe, all->reach, &error);
    }
    const ss_results results = ss_run_results(&pipe, &one, all->reach);
    const bool done = status == SS_OK;
    const int code = done && !ss_report_requirement_met(&results) ? SS_EXIT_NOT_MET : ss_exit_of(status);
    const char *says = done ? NULL : first_fault(&pipe, &words);
    if (!done && says == NULL) {
        says = without_name(error.message[0] != '\0' ? error.message : ss_status_text(status), one.file);
        ss_run_print_error(one.file, says);
    }
    finish(all,
           &(ss_overview_entry){.file = one.file,
                                .title = title_of(&pipe),
                                .outcome = outcome_of(code),
                                .says = says,
                                .faults = pipe.diags.faults,
                                .warnings = pipe.diags.warnings,
                                .results = done ? &results : NULL},
           code);
    ss_arena_destroy(&words);
    ss_pipe_destroy(&pipe);
}

/* As asked for; else as all descriptions say, and US units where they differ. */
static ss_unit_system units_of(const batch *all) {
    if (all->asked->units_given) {
        return all->asked->units;
    }
    return all->in[SS_UNITS_SI] > 0 && all->in[SS_UNITS_US] == 0 ? SS_UNITS_SI : SS_UNITS_US;
}

static int write_overview(const batch *all) {
    ss_report report = {0};
    ss_error error = {0};
    const ss_overview_head head = {
        .command = all->asked->command->name, .units = units_of(all), .require = all->asked->require};
    ss_status status = ss_overview_report(&all->overview, &head, &report, &error);
    int code = ss_exit_of(status);
    if (status == SS_OK && !ss_deliver_has_table(all->asked, &report)) {
        code = SS_EXIT_USAGE;
    } else if (status == SS_OK) {
        status = ss_deliver(all->asked, &report, &error);
        code = ss_exit_of(status);
    }
    if (status != SS_OK) {
        ss_run_print_error(NULL, error.message[0] != '\0' ? error.message : ss_status_text(status));
    }
    ss_report_destroy(&report);
    return code;
}

int ss_batch_run(const ss_invocation *asked, ss_extent reach) {
    ss_batch_files files = {.count = 0};
    if (ss_batch_expand(asked->files, asked->file_count, &files) != SS_OK) {
        ss_run_print_error(NULL, ss_status_text(SS_ERROR_MEMORY));
        return SS_EXIT_INTERNAL;
    }
    ss_invocation expanded = *asked;
    expanded.files = files.paths;
    expanded.file_count = files.count;
    batch all = {.asked = &expanded, .reach = reach};
    for (int i = 0; i < files.count; i++) {
        if (files.why[i] != NULL) {
            ss_run_print_error(files.paths[i], files.why[i]);
            finish(&all,
                   &(ss_overview_entry){
                       .file = files.paths[i], .outcome = SS_OUTCOME_FILE, .says = files.why[i]},
                   SS_EXIT_FILE);
        } else {
            run_one(&all, i);
        }
    }
    const int written = write_overview(&all);
    ss_overview_destroy(&all.overview);
    ss_batch_files_destroy(&files);
    return written > all.worst ? written : all.worst;
}
