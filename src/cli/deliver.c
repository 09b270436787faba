/* deliver.c - the report to standard output or to a file. */
#define _XOPEN_SOURCE 700
#define _DEFAULT_SOURCE

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cli/run.h"
#include "sillspan/libraries.h"
#include "sillspan/text.h"
#include "sillspan/write.h"

/* Lines longer than this are hard to read, however wide the terminal. */
#define WIDEST 100

static ss_text_style style_of(const ss_invocation *asked) {
    ss_text_style style = {.width = WIDEST, .bold = false};
    /* What starts several processes may put a terminal of its own between; it passes on what comes. */
    if (asked->output != NULL || asked->workers != NULL || isatty(STDOUT_FILENO) != 1) {
        return style;
    }
    struct winsize window;
    if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &window) == 0 && window.ws_col > 0 && window.ws_col < WIDEST) {
        style.width = window.ws_col;
    }
    const char *no_color = getenv("NO_COLOR");
    const char *terminal = getenv("TERM");
    style.bold =
        (no_color == NULL || no_color[0] == '\0') && (terminal == NULL || strcmp(terminal, "dumb") != 0);
    return style;
}

static ss_status to_standard_output(const ss_text *text, ss_error *error) {
    errno = 0;
    const size_t written = fwrite(text->data, 1, text->length, stdout);
    if (written != text->length || fflush(stdout) != 0 || ferror(stdout)) {
        return ss_error_set(error, SS_ERROR_FILE, "cannot write the results: %s",
                            errno == 0 ? "standard output failed" : strerror(errno));
    }
    return SS_OK;
}

ss_status ss_deliver_to(const ss_invocation *asked, const char *path, const ss_text *text, ss_error *error) {
    struct stat input;
    struct stat output;
    const bool exists = stat(path, &output) == 0;
    for (int i = 0; exists && i < asked->file_count; i++) {
        if (stat(asked->files[i], &input) == 0 && input.st_dev == output.st_dev &&
            input.st_ino == output.st_ino) {
            return ss_error_set(error, SS_ERROR_FILE, "cannot write %.300s: it is the description itself",
                                path);
        }
    }
    return ss_write_file(path, text->data, text->length, error);
}

bool ss_deliver_has_table(const ss_invocation *asked, const ss_report *report) {
    enum { MOST = 64 };
    const char *names[MOST];
    if (asked->table == NULL) {
        return true;
    }
    const int there = ss_write_csv_tables(report, names, MOST);
    const int count = there < MOST ? there : MOST;
    for (int i = 0; i < count; i++) {
        if (strcmp(names[i], asked->table) == 0) {
            return true;
        }
    }
    ss_text line = {0};
    ss_text_add(&line, "no table of this report is called \"");
    ss_text_add_plain(&line, asked->table);
    ss_text_add(&line, "\"; there are ");
    for (int i = 0; i < count; i++) {
        ss_text_printf(&line, "%s%s", i == 0 ? "" : i == count - 1 ? " and " : ", ", names[i]);
    }
    fprintf(stderr, "sillspan: %s\n", line.failed ? "no memory for a message" : line.data);
    ss_text_destroy(&line);
    return false;
}

static ss_paper_size paper_of(const ss_invocation *asked) {
    return asked->letter_paper ? SS_PAPER_LETTER : SS_PAPER_A4;
}

bool ss_deliver_can(const ss_invocation *asked) {
    char drawing[64];
    const ss_format figure = asked->figure_format;
    const bool beside = figure == SS_FORMAT_PDF || figure == SS_FORMAT_PNG;
    if (!beside && asked->format != SS_FORMAT_PDF && asked->format != SS_FORMAT_PNG) {
        return true;
    }
    if (ss_libraries_drawing(drawing, sizeof drawing) == NULL) {
        ss_run_print_error(NULL, "PDF and PNG are not in this build (SILLSPAN_CAIRO)");
        return false;
    }
    if (!beside && asked->output == NULL && isatty(STDOUT_FILENO) == 1) {
        ss_run_print_error(NULL, asked->format == SS_FORMAT_PDF
                                     ? "a PDF is nothing for a terminal: name a file with --output"
                                     : "a PNG is nothing for a terminal: name a file with --output");
        return false;
    }
    return true;
}

ss_status ss_deliver_text(const ss_invocation *asked, const ss_text *text, ss_error *error) {
    return asked->output == NULL ? to_standard_output(text, error)
                                 : ss_deliver_to(asked, asked->output, text, error);
}

ss_status ss_deliver(const ss_invocation *asked, const ss_report *report, ss_error *error) {
    ss_text text = {0};
    ss_status status = SS_OK;
    switch (asked->format) {
    case SS_FORMAT_TEXT: status = ss_write_text(report, style_of(asked), &text, error); break;
    case SS_FORMAT_JSON: status = ss_write_json(report, &text, error); break;
    case SS_FORMAT_PAGE: status = ss_write_html(report, &text, error); break;
    case SS_FORMAT_PDF: status = ss_write_pdf(report, paper_of(asked), &text, error); break;
    case SS_FORMAT_SVG:
    case SS_FORMAT_PNG: break; /* of a figure alone */
    case SS_FORMAT_CSV: status = ss_write_csv(report, asked->table, &text, error); break;
    }
    if (status == SS_OK) {
        status = ss_deliver_text(asked, &text, error);
    }
    ss_text_destroy(&text);
    return status;
}
