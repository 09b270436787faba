/* growing.h - arrays that grow as items are added. */
#ifndef SS_STUDIES_GROWING_H
#define SS_STUDIES_GROWING_H

#include <stdbool.h>
#include <stddef.h>

#include "sillspan/memory.h"

/* Room for one more item of an array; false without memory, and nothing has changed. */
static inline bool ss_grow(void **items, int count, int *capacity, size_t size) {
    if (count < *capacity) {
        return true;
    }
    const int more = 2 * count + 64;
    void *const grown = ss_realloc(*items, (size_t)more, size);
    if (grown == NULL) {
        return false;
    }
    *items = grown;
    *capacity = more;
    return true;
}

#define SS_GROW(items, count, capacity) ss_grow((void **)&(items), (count), &(capacity), sizeof *(items))

#endif
