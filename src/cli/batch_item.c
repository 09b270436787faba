/* batch_item.c - one bridge of several: through the pipe by itself, to one row. */
#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/fields.h"
#include "cli/batch_parts.h"
#include "sillspan/memory.h"
#include "sillspan/version.h"

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
    const ss_node *root = pipe->description.root != NULL ? pipe->description.root : pipe->base.root;
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

/* ---- results as text ---------------------------------------------------------------------------- */

static void write_result(const ss_batch_result *result, ss_text *out) {
    ss_fields_add_integer(out, result->code);
    ss_fields_add_integer(out, result->units);
    ss_fields_add_integer(out, result->old ? 1 : 0);
    ss_fields_add(out, result->key);
    ss_fields_add(out, result->row);
    ss_fields_add(out, result->said);
}

bool ss_batch_result_read(const char *line, ss_arena *arena, ss_batch_result *out) {
    ss_fields fields = {.at = line, .arena = arena};
    out->code = (int)ss_fields_integer(&fields, 0, 255);
    out->units = (int)ss_fields_integer(&fields, -1, 1);
    out->old = ss_fields_integer(&fields, 0, 1) == 1;
    out->key = ss_fields_text(&fields);
    out->row = ss_fields_text(&fields);
    out->said = ss_fields_text(&fields);
    return ss_fields_end(&fields) && out->row != NULL;
}

/* ---- rows of earlier runs ----------------------------------------------------------------------- */

void ss_batch_settings(const ss_invocation *asked, ss_text *out) {
    ss_fields_add(out, SS_VERSION);
    ss_fields_add(out, asked->command->name);
    ss_fields_add_number(out, asked->require);
    ss_fields_add(out, asked->abreast ? "abreast" : NULL);
    ss_fields_add(out, asked->variant);
    for (int i = 0; i < asked->set_count; i++) ss_fields_add(out, asked->sets[i]);
}

static void key_of(const ss_batch *all, const ss_pipe *pipe, const char *file, ss_text *out) {
    char digest[24];
    snprintf(digest, sizeof digest, "%016" PRIx64, pipe->description.digest);
    ss_fields_add(out, file);
    ss_fields_add(out, digest);
    ss_fields_add(out, all->settings);
}

/* Whether a row is kept under the key that can be taken over; what of it counts goes to *code. */
static bool is_kept(const ss_batch *all, const char *key, const char *file, ss_text *row, int *code) {
    ss_arena arena = {0};
    ss_overview_row kept;
    const char *const line = ss_kept_find(&all->kept, key);
    const bool good = line != NULL && ss_overview_row_read(line, &arena, &kept) &&
                      strcmp(kept.file, file) == 0 &&
                      (kept.outcome == SS_OUTCOME_DONE || kept.outcome == SS_OUTCOME_NOT_MET);
    if (good) {
        ss_text_add(row, line);
        *code = kept.outcome == SS_OUTCOME_DONE ? SS_EXIT_DONE : SS_EXIT_NOT_MET;
    }
    ss_arena_destroy(&arena);
    return good;
}

/* ---- one bridge --------------------------------------------------------------------------------- */

static void write_row(const ss_overview_entry *entry, ss_text *out) {
    ss_overview one = {0};
    ss_overview_add(&one, entry);
    if (one.failed) {
        out->failed = true;
    } else {
        ss_overview_row_write(&one.rows[0], out);
    }
    ss_overview_destroy(&one);
}

typedef struct one_run {
    const ss_batch *all;
    ss_invocation asked; /* of this bridge alone */
    ss_pipe pipe;
    ss_text row, key, said;
    ss_batch_result result;
} one_run;

/* From the description that is read to the row. */
static void finish(one_run *run, ss_status status, const ss_error *error) {
    const char *const file = run->asked.file;
    ss_arena words = {0};
    const ss_results results = ss_run_results(&run->pipe, &run->asked, run->all->reach);
    const bool done = status == SS_OK;
    const int code = done && !ss_report_requirement_met(&results) ? SS_EXIT_NOT_MET : ss_exit_of(status);
    const char *says = done ? NULL : first_fault(&run->pipe, &words);
    if (!done && says == NULL) {
        says = without_name(error->message[0] != '\0' ? error->message : ss_status_text(status), file);
        ss_run_say_error(file, says, &run->said);
    }
    write_row(&(ss_overview_entry){.file = file,
                                   .title = title_of(&run->pipe),
                                   .outcome = outcome_of(code),
                                   .says = says,
                                   .faults = run->pipe.diags.faults,
                                   .warnings = run->pipe.diags.warnings,
                                   .results = done ? &results : NULL},
              &run->row);
    run->result.code = code;
    if (!done) {
        ss_text_destroy(&run->key); /* it will be told of anew */
    }
    ss_arena_destroy(&words);
}

static void compute(one_run *run) {
    const ss_batch *const all = run->all;
    ss_error error = {0};
    run->pipe.progress = ss_progress_begin(true);
    ss_status status = ss_pipe_read(&run->pipe, &run->asked, all->reach, &error);
    ss_run_say_diags(&run->pipe, run->asked.file, run->asked.quiet, &run->said);
    if (status == SS_OK) {
        run->result.units = (int)run->pipe.whole.bridge.units;
    }
    if (status == SS_OK && all->settings != NULL) {
        key_of(all, &run->pipe, run->asked.file, &run->key);
        if (!run->key.failed && is_kept(all, run->key.data, run->asked.file, &run->row, &run->result.code)) {
            run->result.old = true;
            return;
        }
    }
    if (status == SS_OK) {
        status = ss_pipe_compute(&run->pipe, all->reach, &error);
    }
    finish(run, status, &error);
}

ss_status ss_batch_item(void *batch, int index, ss_text *out, ss_error *error) {
    const ss_batch *const all = batch;
    const char *const why = all->files->why[index];
    one_run run = {.all = all, .asked = *all->asked, .result = {.units = -1}};
    run.asked.file = all->files->paths[index];
    if (why != NULL) {
        ss_run_say_error(run.asked.file, why, &run.said);
        write_row(&(ss_overview_entry){.file = run.asked.file, .outcome = SS_OUTCOME_FILE, .says = why},
                  &run.row);
        run.result.code = SS_EXIT_FILE;
    } else {
        compute(&run);
    }
    run.result.row = run.row.data;
    run.result.key = run.result.old ? NULL : run.key.data;
    run.result.said = run.said.data;
    const bool failed = run.row.failed || run.key.failed || run.said.failed || run.row.data == NULL;
    if (!failed) {
        write_result(&run.result, out);
    }
    ss_text_destroy(&run.row);
    ss_text_destroy(&run.key);
    ss_text_destroy(&run.said);
    ss_pipe_destroy(&run.pipe);
    return failed ? ss_error_set(error, SS_ERROR_MEMORY, "no memory for the row of %.300s",
                                 all->files->paths[index])
                  : SS_OK;
}
