/* command_new.c - sillspan new: a commented description to begin with. */
#define _POSIX_C_SOURCE 200809L

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/try.h"
#include "cli/run.h"
#include "cli/starter.h"
#include "sillspan/reader.h"
#include "sillspan/write.h"

static void complain(const char *text) {
    ss_text line = {0};
    ss_text_add_plain(&line, text);
    fprintf(stderr, "sillspan: %s\n", line.data == NULL ? "no memory for a message" : line.data);
    ss_text_destroy(&line);
}

/* ---- a person at a terminal ------------------------------------------------------------------------- */

static bool read_line(void *context, char *line, size_t size) {
    FILE *file = context;
    if (fgets(line, (int)size, file) == NULL) {
        return false;
    }
    const size_t length = strcspn(line, "\n");
    if (line[length] == '\0') {
        for (int letter = getc(file); letter != EOF && letter != '\n'; letter = getc(file)) {
        }
    }
    line[length] = '\0';
    return true;
}

static void say(void *context, const char *text) {
    (void)context;
    fputs(text, stderr);
    fflush(stderr);
}

/* ---- the file --------------------------------------------------------------------------------------- */

/* Reads the text back and builds the bridge, as `check` would: what is written is never refused. */
static ss_status prove(const ss_invocation *asked, const ss_text *text, ss_error *error) {
    ss_pipe pipe = {.progress = ss_progress_begin(true)};
    ss_status status = SS_OK;
    SS_TRY(ss_description_read_text(asked->file, text->data, text->length, &pipe.description, &pipe.diags,
                                    error));
    SS_TRY(ss_description_check(&pipe.description, &pipe.diags));
    SS_TRY(ss_bridge_resolve(&pipe.description, &pipe.whole.bridge, &pipe.diags));
    SS_TRY(ss_pipe_compute(&pipe, SS_RUN_GRILLAGE, error));
done:
    if (status == SS_ERROR_DESCRIPTION && pipe.diags.faults > 0) {
        ss_diag_sort(&pipe.diags);
        const ss_diag *first = &pipe.diags.items[0];
        for (int i = 1; i < pipe.diags.count && first->severity != SS_FAULT; i++) {
            first = &pipe.diags.items[i];
        }
        ss_error_set(error, status, "these answers make no bridge; nothing was written: %.120s: %.250s",
                     first->path, first->message);
    }
    ss_pipe_destroy(&pipe);
    return status;
}

/* An own empty file under that name, so that nobody's is replaced; ss_write_file then takes its place. */
static ss_status claim(const char *path, ss_error *error) {
    const int file = open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (file < 0 && errno == EEXIST) {
        return ss_error_set(error, SS_ERROR_FILE, "%.300s exists and is kept; --force replaces it", path);
    }
    if (file < 0 || close(file) != 0) {
        return ss_error_set(error, SS_ERROR_FILE, "cannot write %.300s: %s", path, strerror(errno));
    }
    return SS_OK;
}

static ss_status write_out(const ss_invocation *asked, const ss_text *text, ss_error *error) {
    ss_status status = asked->force ? SS_OK : claim(asked->file, error);
    if (status == SS_OK) {
        status = ss_write_file(asked->file, text->data, text->length, error);
        if (status != SS_OK && !asked->force) {
            unlink(asked->file);
        }
    }
    return status;
}

/* Told early too, so that nobody answers a dozen questions in vain. */
static ss_status refuse_existing(const ss_invocation *asked, ss_error *error) {
    struct stat old;
    if (!asked->force && lstat(asked->file, &old) == 0) {
        return ss_error_set(error, SS_ERROR_FILE, "%.300s exists and is kept; --force replaces it",
                            asked->file);
    }
    return SS_OK;
}

static void tell(const ss_invocation *asked, const ss_starter *starter) {
    ss_text line = {0};
    int count = 0;
    for (int i = 0; i < SS_ASK_COUNT; i++) {
        if (i != SS_ASK_UNITS && starter->assumed[i]) {
            ss_text_printf(&line, "%s%s \"%s\"", count++ == 0 ? "assumed: " : ", ", ss_questions()[i].option,
                           starter->text[i]);
        }
    }
    ss_text_printf(&line, "%splates, beams, bearings' lines and deck; each is marked ASSUMED in ",
                   count == 0 ? "assumed: " : ", ");
    ss_text_add(&line, asked->file);
    complain(line.failed ? "written" : line.data);
    const bool condition = starter->known[SS_ASK_CONDITION];
    const bool system = starter->known[SS_ASK_SYSTEM];
    if (!condition || !system) {
        char words[160];
        snprintf(words, sizeof words,
                 "left open: %s%s%s, which a rating needs and only the engineer can give",
                 condition ? "" : "rating.condition", condition || system ? "" : " and ",
                 system ? "" : "rating.system");
        complain(words);
    }
    ss_text_destroy(&line);
}

int ss_command_new(const ss_invocation *asked) {
    ss_starter starter = {.value = {0.0}};
    const ss_asker asker = {.read_line = read_line, .say = say, .context = stdin};
    const bool person = isatty(STDIN_FILENO) == 1 && isatty(STDERR_FILENO) == 1;
    const char *given[SS_ASK_COUNT] = {NULL};
    char why[400];
    ss_error error = {0};
    ss_text text = {0};
    for (int i = 0; i < SS_ASK_COUNT; i++) {
        given[i] = asked->answers[i];
    }
    if (asked->units_given) {
        given[SS_ASK_UNITS] = asked->units == SS_UNITS_SI ? "si" : "us";
    }
    ss_status status = refuse_existing(asked, &error);
    if (status == SS_OK && !ss_starter_fill(&starter, given, person ? &asker : NULL, why, sizeof why)) {
        complain(why);
        return feof(stdin) != 0 ? SS_EXIT_FILE : SS_EXIT_USAGE;
    }
    if (status == SS_OK) {
        ss_starter_write(&starter, &text);
        status = text.failed ? ss_error_set(&error, SS_ERROR_MEMORY, "no memory for the description") : SS_OK;
    }
    if (status == SS_OK) {
        status = prove(asked, &text, &error);
    }
    if (status == SS_OK) {
        status = write_out(asked, &text, &error);
    }
    if (status != SS_OK) {
        complain(error.message[0] != '\0' ? error.message : ss_status_text(status));
    } else if (!asked->quiet) {
        tell(asked, &starter);
    }
    ss_text_destroy(&text);
    return ss_exit_of(status);
}
