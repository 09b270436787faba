/* pages.c - writes the manual page or a shell's completion: sillspan_pages man|bash|zsh|fish FILE. */
#include "cli/pages.h"

#include <stdio.h>
#include <string.h>

#include "sillspan/write.h"

void ss_page_escape(ss_text *out, const char *text, const char *special) {
    for (const char *at = text; *at != '\0'; at++) {
        if (strchr(special, *at) != NULL) {
            ss_text_add(out, "\\");
        }
        ss_text_add_bytes(out, at, 1);
    }
}

bool ss_page_takes_file(const ss_option *option) {
    return option->value != NULL && strcmp(option->value, "FILE") == 0;
}

int main(int argc, char **argv) {
    static const struct {
        const char *name;
        void (*write)(ss_text *out);
    } pages[] = {{"man", ss_page_man}, {"bash", ss_page_bash}, {"zsh", ss_page_zsh}, {"fish", ss_page_fish}};
    ss_error error = {0};
    for (size_t i = 0; argc == 3 && i < sizeof pages / sizeof pages[0]; i++) {
        if (strcmp(argv[1], pages[i].name) != 0) {
            continue;
        }
        ss_text text = {0};
        pages[i].write(&text);
        ss_status status =
            text.failed ? ss_error_set(&error, SS_ERROR_MEMORY, "no memory for the page") : SS_OK;
        if (status == SS_OK) {
            status = ss_write_file(argv[2], text.data, text.length, &error);
        }
        ss_text_destroy(&text);
        if (status != SS_OK) {
            fprintf(stderr, "sillspan_pages: %s\n", error.message);
        }
        return status == SS_OK ? SS_EXIT_DONE : SS_EXIT_FILE;
    }
    fputs("usage: sillspan_pages man|bash|zsh|fish FILE\n", stderr);
    return SS_EXIT_USAGE;
}
