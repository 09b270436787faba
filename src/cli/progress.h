/* progress.h - how far a long computation is, on a terminal only. */
#ifndef SS_CLI_PROGRESS_H
#define SS_CLI_PROGRESS_H

#include <stdbool.h>

typedef struct ss_progress {
    bool shown;       /**< standard error is a terminal and nobody asked for quiet */
    const char *what; /**< "trucks" */
    int last;         /**< percent printed, or -1 */
    const char *noun; /**< "variant": before the number; NULL: none */
    int number, of;   /**< which of several; 0 of 0 for one alone */
} ss_progress;

ss_progress ss_progress_begin(bool quiet);
/** Which of several things the stages are of. */
void ss_progress_number(ss_progress *progress, int number, int of);
/** How many of several bridges are done. */
void ss_progress_bridges(ss_progress *progress, int done, int of);
void ss_progress_stage(ss_progress *progress, const char *what);
/** For the library: context is a ss_progress, done is 0 to 1. */
void ss_progress_show(void *context, double done);
/** The same with the name of the stage, which begins when it is another. */
void ss_progress_step(void *context, const char *what, double done);
/** Erases the line. */
void ss_progress_end(ss_progress *progress);

#endif
