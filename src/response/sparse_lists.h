/* sparse_lists.h - lists of the numbers in rows of mostly zeros, one list after the other. */
#ifndef SS_RESPONSE_SPARSE_LISTS_H
#define SS_RESPONSE_SPARSE_LISTS_H

#include "sillspan/status.h"

/** A zeroed struct has no lists. */
typedef struct ss_sparse_lists {
    int count, capacity; /**< lists */
    int size, size_capacity;
    int *end; /**< of each list, in the next two */
    int *index;
    double *value;
} ss_sparse_lists;

typedef struct ss_sparse {
    int count;
    const int *index;
    const double *value;
} ss_sparse;

/** Adds a list as it is. SS_ERROR_MEMORY only. */
ss_status ss_sparse_append(ss_sparse_lists *lists, const int *index, const double *value, int count);
/** Adds what is not zero of `dense` (n) as one more list. SS_ERROR_MEMORY only. */
ss_status ss_sparse_add(ss_sparse_lists *lists, const double *dense, int n);
void ss_sparse_destroy(ss_sparse_lists *lists);

static inline ss_sparse ss_sparse_at(const ss_sparse_lists *lists, int list) {
    const int first = list > 0 ? lists->end[list - 1] : 0;
    return (ss_sparse){lists->end[list] - first, lists->index + first, lists->value + first};
}

/** dense (n) = the list. */
void ss_sparse_expand(ss_sparse sparse, double *dense, int n);

#endif
