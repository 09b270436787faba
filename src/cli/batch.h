/* batch.h - several bridges in one run. */
#ifndef SS_CLI_BATCH_H
#define SS_CLI_BATCH_H

#include "cli/run.h"

/** Whether the command line asks for more than one bridge: several files, or a folder. */
bool ss_batch_asked(const ss_invocation *asked);

/** Runs them, several at once, past bad ones, and writes one table. Returns the exit status: the highest that
 * any of them would have by itself, or SS_EXIT_INTERRUPTED. */
int ss_batch_run(const ss_invocation *asked, ss_extent reach);

/** The files that are meant, folders replaced by what they hold. */
typedef struct ss_batch_files {
    const char **paths;
    const char **why; /**< NULL, or why a folder gives no file */
    int count, capacity;
    ss_arena arena;
} ss_batch_files;

/** A folder stands for the regular files in it whose names end in .cfg and do not begin with a dot, in the
 * order of their bytes; folders inside it are not entered. Only fails for lack of memory. */
ss_status ss_batch_expand(const char *const *words, int count, ss_batch_files *out);
void ss_batch_files_destroy(ss_batch_files *files);

#endif
