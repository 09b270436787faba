/* reader_samples.h - reads a description from words, and writes out what was said about it. */
#ifndef SS_TESTS_READER_SAMPLES_H
#define SS_TESTS_READER_SAMPLES_H

#include <string.h>

#include "sillspan/reader.h"
#include "sillspan/text.h"

/** "file:line: path: message" a line; warnings have the word before the path. */
static inline void say_all(const ss_diag_list *diags, ss_text *out) {
    for (int i = 0; i < diags->count; i++) {
        const ss_diag *item = &diags->items[i];
        ss_text_printf(out, "%s:%d: %s%s: %s\n", item->where.file == NULL ? "" : item->where.file,
                       item->where.line, item->severity == SS_WARNING ? "warning: " : "", item->path,
                       item->message);
    }
}

/** Reads `words` as creek.cfg; what was said goes to `said`. */
static inline ss_status read_words(const char *words, ss_description *out, ss_text *said) {
    ss_diag_list diags = {0};
    const ss_status status = ss_description_read_text("creek.cfg", words, strlen(words), out, &diags, NULL);
    ss_diag_sort(&diags);
    say_all(&diags, said);
    ss_diag_destroy(&diags);
    return status;
}

#endif
