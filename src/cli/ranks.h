/* ranks.h - whether the program was started as several processes that share their work. */
#ifndef SS_CLI_RANKS_H
#define SS_CLI_RANKS_H

#include "sillspan/work.h"

/**
 * To be called once, before anything is printed: process 0 alone prints and writes. *workers is NULL where
 * the program was not started as several processes. SS_ERROR_LIMIT: it was, and this build knows nothing of
 * that.
 */
ss_status ss_ranks_begin(const ss_workers **workers, ss_error *error);

/** Waits until all are here, and frees. Processes that still wait for work get none. NULL: nothing. */
void ss_ranks_end(const ss_workers *workers);

/** How many processes there are. */
int ss_ranks_size(const ss_workers *workers);

/** "Open MPI v4.1.4" or the like, for `--version`; NULL: built without. */
const char *ss_ranks_library(char *buffer, size_t size);

#endif
