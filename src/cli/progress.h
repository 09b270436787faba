/* progress.h - how far a long computation is, on a terminal only. */
#ifndef SS_CLI_PROGRESS_H
#define SS_CLI_PROGRESS_H

#include <stdbool.h>

typedef struct ss_progress {
    bool shown;       /**< standard error is a terminal and nobody asked for quiet */
    const char *what; /**< "trucks" */
    int last;         /**< percent printed, or -1 */
} ss_progress;

ss_progress ss_progress_begin(bool quiet);
void ss_progress_stage(ss_progress *progress, const char *what);
/** For the library: context is a ss_progress, done is 0 to 1. */
void ss_progress_show(void *context, double done);
/** Erases the line. */
void ss_progress_end(ss_progress *progress);

#endif
