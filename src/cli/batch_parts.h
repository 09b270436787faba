/* batch_parts.h - what the files of a run over several bridges share. */
#ifndef SS_CLI_BATCH_PARTS_H
#define SS_CLI_BATCH_PARTS_H

#include "cli/batch.h"
#include "io/kept_lines.h"
#include "report/report_overview.h"

/** What goes through all of them. While items are computed the first part stays as it is. */
typedef struct ss_batch {
    const ss_invocation *asked; /**< with the files in place of folders */
    ss_extent reach;
    const ss_batch_files *files;
    const char
        *settings; /**< whatever a row depends on beside its description, as text; NULL: nothing is kept */
    ss_kept kept;  /**< rows of earlier runs */

    ss_overview overview;
    int worst;     /**< exit status */
    int in[2];     /**< how many of them are in US and in SI units */
    int done, old; /**< bridges that have their row, and those of them whose row was kept */
    ss_progress progress;
} ss_batch;

/** What comes of one bridge. */
typedef struct ss_batch_result {
    int code;         /**< exit status that it would have by itself */
    int units;        /**< ss_unit_system, or -1: not known */
    bool old;         /**< the row was kept from an earlier run */
    const char *key;  /**< under which it is to be kept, or NULL: it is not */
    const char *row;  /**< ss_overview_row_write */
    const char *said; /**< for standard error, or NULL */
} ss_batch_result;

/** Takes one bridge through the pipe, or its row from what is kept, and appends what comes of it. On any
 * thread and in any process. Fails for lack of memory only. */
ss_status ss_batch_item(void *batch, int index, ss_text *out, ss_error *error);

/** False: no memory. Texts live in the arena. */
bool ss_batch_result_read(const char *line, ss_arena *arena, ss_batch_result *out);

/** Settings that a row depends on: version, command, options. */
void ss_batch_settings(const ss_invocation *asked, ss_text *out);

#endif
