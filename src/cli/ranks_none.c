/* ranks_none.c - a build without MPI: one process, and a refusal to be several that all do the same. */
#include <stdlib.h>

#include "cli/ranks.h"

ss_status ss_ranks_begin(const ss_workers **workers, ss_error *error) {
    static const char *const counts[] = {"OMPI_COMM_WORLD_SIZE", "PMI_SIZE", "MPI_LOCALNRANKS"};
    *workers = NULL;
    for (size_t i = 0; i < sizeof counts / sizeof counts[0]; i++) {
        const char *const count = getenv(counts[i]);
        if (count != NULL && ss_text_number(count, NULL) > 1.0) {
            return ss_error_set(
                error, SS_ERROR_LIMIT,
                "started as one of %.20s processes, but this build cannot share work between processes "
                "(SILLSPAN_MPI)",
                count);
        }
    }
    return SS_OK;
}

void ss_ranks_end(const ss_workers *workers) {
    (void)workers;
}

int ss_ranks_size(const ss_workers *workers) {
    (void)workers;
    return 1;
}

const char *ss_ranks_library(char *buffer, size_t size) {
    if (size > 0) {
        buffer[0] = '\0';
    }
    return NULL;
}
