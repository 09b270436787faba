/* batch.c - several bridges in one run: each goes through the pipe by itself and leaves one row. */
#define _POSIX_C_SOURCE 200809L

#include "cli/batch.h"

#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "cli/batch_parts.h"
#include "cli/stop.h"
#include "sillspan/work.h"

/* First line of a file of --resume. */
static const char kept_title[] = "sillspan finished rows, form 1; --resume adds to it and takes from it";

bool ss_batch_asked(const ss_invocation *asked) {
    struct stat about;
    return asked->file_count > 1 || (stat(asked->file, &about) == 0 && S_ISDIR(about.st_mode));
}

/* ---- results as they come ----------------------------------------------------------------------- */

/* A run of hours is not given up for a file that cannot grow any more; the exit status tells of it. */
static void keep(ss_batch *all, const ss_batch_result *result) {
    ss_error error = {0};
    if (result->key == NULL || all->kept.file < 0 ||
        ss_kept_add(&all->kept, result->key, result->row, &error) == SS_OK) {
        return;
    }
    ss_progress_end(&all->progress);
    ss_run_print_error(NULL, error.message);
    ss_kept_close(&all->kept);
    all->worst = SS_EXIT_FILE > all->worst ? SS_EXIT_FILE : all->worst;
}

static ss_status arrived(void *context, int index, const ss_text *line, ss_error *error) {
    ss_batch *const all = context;
    ss_arena arena = {0};
    ss_batch_result result = {0};
    (void)index;
    const bool good = ss_batch_result_read(line->data, &arena, &result);
    if (good) {
        keep(all, &result);
        ss_progress_bridges(&all->progress, ++all->done, all->files->count);
    }
    ss_arena_destroy(&arena);
    return good ? SS_OK : ss_error_set(error, SS_ERROR_MEMORY, "no memory for a row");
}

static ss_status taken(void *context, int index, const ss_text *line, ss_error *error) {
    ss_batch *const all = context;
    ss_arena arena = {0};
    ss_batch_result result = {0};
    if (!ss_batch_result_read(line->data, &arena, &result)) {
        ss_arena_destroy(&arena);
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for a row");
    }
    if (result.said != NULL) {
        ss_progress_end(&all->progress);
        fputs(result.said, stderr);
    }
    ss_overview_add_line(&all->overview, result.row);
    all->worst = result.code > all->worst ? result.code : all->worst;
    all->old += result.old;
    if (result.units >= 0) {
        all->in[result.units]++;
    }
    const char *const file = all->overview.failed ? NULL : all->overview.rows[all->overview.count - 1].file;
    const bool other = file != NULL && strcmp(file, all->files->paths[index]) != 0;
    ss_arena_destroy(&arena);
    if (other) {
        return ss_error_set(error, SS_ERROR_FILE,
                            "a process took %.200s for %.200s: the folders changed meanwhile", file,
                            all->files->paths[index]);
    }
    return file == NULL ? ss_error_set(error, SS_ERROR_MEMORY, "no memory for the rows") : SS_OK;
}

static bool stop(void *context) {
    (void)context;
    return ss_stop_asked();
}

/* ---- the table ---------------------------------------------------------------------------------- */

/* As asked for; else as all descriptions say, and US units where they differ. */
static ss_unit_system units_of(const ss_batch *all) {
    if (all->asked->units_given) {
        return all->asked->units;
    }
    return all->in[SS_UNITS_SI] > 0 && all->in[SS_UNITS_US] == 0 ? SS_UNITS_SI : SS_UNITS_US;
}

static int write_overview(const ss_batch *all) {
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

/* Rows of those that were not begun, so that nobody takes the table for the whole. */
static void add_missing(ss_batch *all) {
    for (int i = all->overview.count; i < all->files->count && !all->overview.failed; i++) {
        ss_overview_add(&all->overview,
                        &(ss_overview_entry){.file = all->files->paths[i],
                                             .outcome = SS_OUTCOME_NOT_RUN,
                                             .says = "the run was interrupted before its turn"});
        all->worst = SS_EXIT_INTERRUPTED;
    }
}

static void tell_of_resuming(const ss_batch *all) {
    ss_text said = {0};
    if (all->asked->resume == NULL || all->asked->quiet) {
        return;
    }
    ss_text_printf(&said, "sillspan: %d of %d taken from ", all->old, all->files->count);
    ss_text_add_plain(&said, all->asked->resume);
    ss_text_add(&said, "\n");
    ss_run_print_said(&said);
}

/* ---- the run ------------------------------------------------------------------------------------ */

static bool same_file(const char *a, const char *b) {
    struct stat left;
    struct stat right;
    return strcmp(a, b) == 0 || (stat(a, &left) == 0 && stat(b, &right) == 0 && left.st_dev == right.st_dev &&
                                 left.st_ino == right.st_ino);
}

static int open_kept(ss_batch *all, ss_text *settings) {
    const char *const path = all->asked->resume;
    const bool first = all->asked->workers == NULL || all->asked->workers->rank == 0;
    ss_error error = {0};
    if (path == NULL) {
        return SS_EXIT_DONE;
    }
    if (all->asked->output != NULL && same_file(all->asked->output, path)) {
        ss_run_print_error(NULL, "--resume and --output name the same file");
        return SS_EXIT_USAGE;
    }
    ss_batch_settings(all->asked, settings);
    const ss_kept_asks asks = {.path = path, .title = kept_title, .adding = first};
    const ss_status status = settings->failed
                                 ? ss_error_set(&error, SS_ERROR_MEMORY, "no memory for the settings")
                                 : ss_kept_open(&asks, &all->kept, &error);
    if (status != SS_OK) {
        ss_run_print_error(NULL, error.message);
    }
    all->settings = settings->data;
    return ss_exit_of(status);
}

static int run_all(ss_batch *all) {
    ss_error error = {0};
    const ss_workers *const workers = all->asked->workers;
    const ss_work work = {.count = all->files->count,
                          .item = ss_batch_item,
                          .arrived = arrived,
                          .taken = taken,
                          .stop = stop,
                          .context = all};
    all->progress = ss_progress_begin(all->asked->quiet);
    ss_progress_bridges(&all->progress, 0, all->files->count);
    ss_stop_begin();
    const ss_status status = ss_work_run(workers, &work, &error);
    ss_stop_end();
    ss_progress_end(&all->progress);
    if (workers != NULL && workers->rank > 0) {
        return SS_EXIT_DONE;
    }
    if (status != SS_OK) {
        ss_run_print_error(NULL, error.message);
        return ss_exit_of(status);
    }
    tell_of_resuming(all);
    add_missing(all);
    const int written = write_overview(all);
    return written > all->worst ? written : all->worst;
}

int ss_batch_run(const ss_invocation *asked, ss_extent reach) {
    ss_batch_files files = {.count = 0};
    ss_text settings = {0};
    if (ss_batch_expand(asked->files, asked->file_count, &files) != SS_OK) {
        ss_run_print_error(NULL, ss_status_text(SS_ERROR_MEMORY));
        return SS_EXIT_INTERNAL;
    }
    ss_invocation expanded = *asked;
    expanded.files = files.paths;
    expanded.file_count = files.count;
    ss_batch all = {.asked = &expanded, .reach = reach, .files = &files, .kept = {.file = -1}};
    int code = open_kept(&all, &settings);
    if (code == SS_EXIT_DONE) {
        code = run_all(&all);
    }
    ss_kept_close(&all.kept);
    ss_overview_destroy(&all.overview);
    ss_batch_files_destroy(&files);
    ss_text_destroy(&settings);
    return code;
}
