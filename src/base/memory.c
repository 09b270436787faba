/* memory.c - checked allocation, and the counter that lets a test fail the n-th one. */
#include "sillspan/memory.h"

#include <stdatomic.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>

/* The only state of the library outside its arguments; both are for tests and safe between threads. */
static atomic_long fail_after = -1;
static atomic_long live_blocks = 0;

static bool must_fail(void) {
    long left = atomic_load_explicit(&fail_after, memory_order_relaxed);
    while (left > 0) {
        if (atomic_compare_exchange_weak_explicit(&fail_after, &left, left - 1, memory_order_relaxed,
                                                  memory_order_relaxed)) {
            return false;
        }
    }
    return left == 0;
}

/* Pointer differences must stay representable, hence PTRDIFF_MAX rather than SIZE_MAX. */
static bool product_fits(size_t count, size_t size) {
    return size == 0 || count <= (size_t)PTRDIFF_MAX / size;
}

void *ss_alloc(size_t count, size_t size) {
    if (!product_fits(count, size) || must_fail()) {
        return NULL;
    }
    const bool empty = count == 0 || size == 0;
    void *block = empty ? calloc(1, 1) : calloc(count, size);
    if (block != NULL) {
        atomic_fetch_add_explicit(&live_blocks, 1, memory_order_relaxed);
    }
    return block;
}

void *ss_realloc(void *block, size_t count, size_t size) {
    if (!product_fits(count, size) || must_fail()) {
        return NULL;
    }
    const bool empty = count == 0 || size == 0;
    void *grown = realloc(block, empty ? 1 : count * size);
    if (grown != NULL && block == NULL) {
        atomic_fetch_add_explicit(&live_blocks, 1, memory_order_relaxed);
    }
    return grown;
}

void ss_free(void *block) {
    if (block == NULL) {
        return;
    }
    atomic_fetch_sub_explicit(&live_blocks, 1, memory_order_relaxed);
    free(block);
}

void ss_memory_fail_from(long n) {
    atomic_store_explicit(&fail_after, n < 0 ? -1 : n, memory_order_relaxed);
}

long ss_memory_live(void) {
    return atomic_load_explicit(&live_blocks, memory_order_relaxed);
}
