/* kept_lines.h - results that outlive the run: a file that grows by one line a result, each with its digest.
 */
#ifndef SS_IO_KEPT_LINES_H
#define SS_IO_KEPT_LINES_H

#include <stdbool.h>

#include "sillspan/memory.h"
#include "sillspan/status.h"

typedef struct ss_kept_line {
    const char *key, *value;
    int line; /**< in the file */
} ss_kept_line;

/** The file's first line is a title, each other one a digest, a key and a value. */
typedef struct ss_kept {
    ss_kept_line *lines; /**< count, by key and then by line */
    int count, capacity;
    int file; /**< descriptor, or -1: nothing can be added */
    const char *path;
    ss_arena arena;
} ss_kept;

/** How a file is opened. */
typedef struct ss_kept_asks {
    const char *path;  /**< must outlive the ss_kept */
    const char *title; /**< first line of files of this kind, without its end */
    bool adding; /**< makes the file where there is none, and locks it; false: only looks, and none is no
                    error */
} ss_kept_asks;

/**
 * Reads what is kept. A last line without its end, as a run that was killed leaves it, does not count; when
 * lines are to be added it is taken off. SS_ERROR_FILE: the file cannot be opened, has another title or a
 * damaged line, or another run adds to it; nothing in it is changed then.
 */
ss_status ss_kept_open(const ss_kept_asks *asks, ss_kept *out, ss_error *error);

/** The value last kept under the key when the file was opened, or NULL. */
const char *ss_kept_find(const ss_kept *kept, const char *key);

/** Appends one line, whole. One call at a time. */
ss_status ss_kept_add(ss_kept *kept, const char *key, const char *value, ss_error *error);

/** Lets the file go; a zeroed struct with file -1 is fine. */
void ss_kept_close(ss_kept *kept);

#endif
