/* progress.h - how far a long computation is, on a terminal only. */
#ifndef SS_CLI_PROGRESS_H
#define SS_CLI_PROGRESS_H

#include <stdbool.h>

typedef struct ss_progress {
    bool shown;       /**< standard error is a terminal and nobody asked for quiet */
    const char *what; /**< "trucks" */
    int last;         /**< percent printed, or -1 */
    int number, of;   /**< which of several bridges; 0 of 0 for one alone */
} ss_progress;

ss_progress ss_progress_begin(bool quiet);
/** From now on the line also says which of several bridges it is about. */
void ss_progress_number(ss_progress *progress, int number, int of);
void ss_progress_stage(ss_progress *progress, const char *what);
/** For the library: context is a ss_progress, done is 0 to 1. */
void ss_progress_show(void *context, double done);
/** Erases the line. */
void ss_progress_end(ss_progress *progress);

#endif
