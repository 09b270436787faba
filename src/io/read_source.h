/* read_source.h - the bytes of a description with its includes put in their places, and where each line came
 * from. */
#ifndef SS_IO_READ_SOURCE_H
#define SS_IO_READ_SOURCE_H

#include <stdint.h>

#include "sillspan/diag.h"
#include "sillspan/text.h"

/** From here on lines come from `file`. */
typedef struct ss_source_span {
    int first;        /**< line of the whole, from 1 */
    int file_line;    /**< the same line in its file */
    const char *file; /**< in the arena of the names */
} ss_source_span;

typedef struct ss_source {
    ss_text text;
    ss_source_span *spans; /**< ascending */
    int span_count, span_capacity;
    uint64_t digest; /**< FNV-1a over the bytes of the files as they were read */
    int includes;
} ss_source;

/** Reads a file and its includes. File names live in `names`. SS_ERROR_DESCRIPTION when a fault was added (an
 * include that is not allowed, a NUL byte). `source` is to be destroyed in every case. */
ss_status ss_source_read(ss_source *source, const char *path, ss_arena *names, ss_diag_list *diags,
                         ss_error *error);

/** Same for bytes in memory. */
ss_status ss_source_take(ss_source *source, const char *name, const char *bytes, size_t length,
                         ss_arena *names, ss_diag_list *diags, ss_error *error);

/** File and line of a line of the whole. */
ss_where ss_source_place(const ss_source *source, int line);

void ss_source_destroy(ss_source *source);

#endif
