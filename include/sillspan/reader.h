/* reader.h - descriptions read from files. */
#ifndef SILLSPAN_READER_H
#define SILLSPAN_READER_H

#include "sillspan/description.h"

/** Bounds of what is read; beyond them reading stops with a fault or SS_ERROR_LIMIT. */
#define SS_READ_BYTES (4 * 1024 * 1024) /**< most bytes, includes too */
#define SS_READ_INCLUDE_DEPTH 8         /**< files that include one another */
#define SS_READ_INCLUDES 64             /**< files included in all */
#define SS_READ_NESTING 32              /**< groups and lists inside one another */
#define SS_READ_GROUP_KEYS 200          /**< keys in one group */
#define SS_READ_VALUES 200000           /**< values in all */

/**
 * Reads the description at `path` and what it includes. Every node carries the file (as given, an include as
 * the path that leads to it) and the line. Only the form is looked at here: whether keys and values mean
 * anything is for ss_description_check, which may be given the tree even after faults of form, so that all
 * faults come out of one run.
 *
 * SS_OK: `out` has the tree and no fault was added. SS_ERROR_DESCRIPTION: faults were added; `out->root` is
 * NULL when reading had to stop (the last fault says so), else the tree without the faulty parts.
 * SS_ERROR_FILE (cannot be read), SS_ERROR_LIMIT (too large), SS_ERROR_MEMORY: `error` says more. In every
 * case `out` may be given to ss_description_destroy.
 *
 * The file is in the notation of libconfig with three restrictions (a text ends on its own line; texts that
 * follow each other are not joined; includes name a regular file beside or below the including one, alone on
 * their line) and no effect of the locale.
 */
ss_status ss_description_read(const char *path, ss_description *out, ss_diag_list *diags, ss_error *error);

/** Same for `length` bytes in memory, called `name` in messages. Nothing can be included. */
ss_status ss_description_read_text(const char *name, const char *text, size_t length, ss_description *out,
                                   ss_diag_list *diags, ss_error *error);

#endif
