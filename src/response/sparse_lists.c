/* sparse_lists.c - appending to and reading lists of what is not zero. */
#include "response/sparse_lists.h"

#include <stddef.h>

#include "sillspan/memory.h"

static ss_status reserve(ss_sparse_lists *lists, int more) {
    if (lists->count == lists->capacity) {
        const int capacity = 2 * lists->capacity + 32;
        int *const end = ss_realloc(lists->end, (size_t)capacity, sizeof *end);
        if (end == NULL) {
            return SS_ERROR_MEMORY;
        }
        lists->end = end;
        lists->capacity = capacity;
    }
    if (lists->size + more > lists->size_capacity) {
        const int capacity = 2 * lists->size_capacity + more + 128;
        int *const index = ss_realloc(lists->index, (size_t)capacity, sizeof *index);
        lists->index = index != NULL ? index : lists->index;
        double *const value = ss_realloc(lists->value, (size_t)capacity, sizeof *value);
        lists->value = value != NULL ? value : lists->value;
        if (index == NULL || value == NULL) {
            return SS_ERROR_MEMORY;
        }
        lists->size_capacity = capacity;
    }
    return SS_OK;
}

ss_status ss_sparse_append(ss_sparse_lists *lists, const int *index, const double *value, int count) {
    const ss_status status = reserve(lists, count);
    if (status != SS_OK) {
        return status;
    }
    for (int i = 0; i < count; i++) {
        lists->index[lists->size] = index[i];
        lists->value[lists->size++] = value[i];
    }
    lists->end[lists->count++] = lists->size;
    return SS_OK;
}

ss_status ss_sparse_add(ss_sparse_lists *lists, const double *dense, int n) {
    const ss_status status = reserve(lists, n);
    if (status != SS_OK) {
        return status;
    }
    for (int k = 0; k < n; k++) {
        if (dense[k] != 0.0) {
            lists->index[lists->size] = k;
            lists->value[lists->size++] = dense[k];
        }
    }
    lists->end[lists->count++] = lists->size;
    return SS_OK;
}

void ss_sparse_destroy(ss_sparse_lists *lists) {
    ss_free(lists->end);
    ss_free(lists->index);
    ss_free(lists->value);
    *lists = (ss_sparse_lists){0};
}

void ss_sparse_expand(ss_sparse sparse, double *dense, int n) {
    for (int k = 0; k < n; k++) dense[k] = 0.0;
    for (int i = 0; i < sparse.count; i++) dense[sparse.index[i]] = sparse.value[i];
}
