/* test_base_memory.c - checked allocation, arenas, and the failing of the n-th allocation. */
#include <stdint.h>
#include <string.h>
#include <threads.h>

#include "sillspan/memory.h"
#include "support/random.h"
#include "support/suite.h"

static void test_blocks_are_zeroed_and_counted(void) {
    const long before = ss_memory_live();
    int *block = ss_alloc(317, sizeof *block);
    CU_ASSERT_PTR_NOT_NULL_FATAL(block);
    int sum = 0;
    for (int i = 0; i < 317; i++) {
        sum |= block[i];
    }
    CU_ASSERT_EQUAL(sum, 0);
    void *empty = ss_alloc(0, 24);
    CU_ASSERT_PTR_NOT_NULL(empty);
    CU_ASSERT_EQUAL(ss_memory_live(), before + 2);
    ss_free(empty);
    ss_free(block);
    ss_free(NULL);
    CU_ASSERT_EQUAL(ss_memory_live(), before);
}

static void test_overflowing_products_are_refused(void) {
    const long before = ss_memory_live();
    CU_ASSERT_PTR_NULL(ss_alloc(SIZE_MAX / 4 + 2, 4));
    CU_ASSERT_PTR_NULL(ss_alloc((size_t)PTRDIFF_MAX, 2));
    int *block = ss_alloc(3, sizeof *block);
    CU_ASSERT_PTR_NOT_NULL_FATAL(block);
    block[2] = 2385;
    CU_ASSERT_PTR_NULL(ss_realloc(block, SIZE_MAX / 4 + 2, 4));
    CU_ASSERT_EQUAL(block[2], 2385);
    ss_free(block);
    ss_arena arena = {0};
    CU_ASSERT_PTR_NULL(ss_arena_alloc(&arena, SIZE_MAX / 8 + 2, 8));
    CU_ASSERT_PTR_NULL(ss_arena_alloc(&arena, (size_t)PTRDIFF_MAX, 1));
    CU_ASSERT_PTR_NULL(ss_arena_text(&arena, "", SIZE_MAX));
    ss_arena_destroy(&arena);
    CU_ASSERT_EQUAL(ss_memory_live(), before);
}

static void test_realloc_keeps_what_was_there(void) {
    const long before = ss_memory_live();
    int *block = ss_realloc(NULL, 5, sizeof *block);
    CU_ASSERT_PTR_NOT_NULL_FATAL(block);
    CU_ASSERT_EQUAL(ss_memory_live(), before + 1);
    for (int i = 0; i < 5; i++) {
        block[i] = 71 * i - 19;
    }
    block = ss_realloc(block, 5000, sizeof *block);
    CU_ASSERT_PTR_NOT_NULL_FATAL(block);
    for (int i = 0; i < 5; i++) {
        CU_ASSERT_EQUAL(block[i], 71 * i - 19);
    }
    CU_ASSERT_EQUAL(ss_memory_live(), before + 1);
    ss_free(block);
}

static void test_nth_allocation_and_all_later_ones_fail(void) {
    for (long n = 0; n < 4; n++) {
        void *blocks[6] = {NULL};
        ss_memory_fail_from(n);
        for (int i = 0; i < 6; i++) {
            blocks[i] = i % 2 == 0 ? ss_alloc(7, 3) : ss_realloc(NULL, 7, 3);
        }
        ss_memory_fail_from(-1);
        for (int i = 0; i < 6; i++) {
            CU_ASSERT_EQUAL(blocks[i] != NULL, i < n);
            ss_free(blocks[i]);
        }
    }
}

#define THREADS 4
#define TRIES 500

static int count_successes(void *argument) {
    int *successes = argument;
    for (int i = 0; i < TRIES; i++) {
        void *block = ss_alloc(1, 8);
        if (block != NULL) {
            (*successes)++;
        }
        ss_free(block);
    }
    return 0;
}

static void test_failure_counter_is_exact_between_threads(void) {
    const long before = ss_memory_live();
    thrd_t threads[THREADS];
    int successes[THREADS] = {0};
    ss_memory_fail_from(937);
    for (int i = 0; i < THREADS; i++) {
        CU_ASSERT_EQUAL_FATAL(thrd_create(&threads[i], count_successes, &successes[i]), thrd_success);
    }
    int sum = 0;
    for (int i = 0; i < THREADS; i++) {
        thrd_join(threads[i], NULL);
        sum += successes[i];
    }
    ss_memory_fail_from(-1);
    CU_ASSERT_EQUAL(sum, 937);
    CU_ASSERT_EQUAL(ss_memory_live(), before);
}

static void test_arena_pieces_are_apart_aligned_and_zeroed(void) {
    const long before = ss_memory_live();
    ss_arena arena = {0};
    unsigned char *pieces[400];
    size_t sizes[400];
    uint64_t state = 20817;
    for (int i = 0; i < 400; i++) {
        /* One in sixteen is larger than an ordinary block. */
        const size_t most = i % 16 == 7 ? 40000 : 300;
        sizes[i] = (size_t)(next_random(&state) % most);
        pieces[i] = ss_arena_alloc(&arena, sizes[i], 1);
        CU_ASSERT_PTR_NOT_NULL_FATAL(pieces[i]);
        CU_ASSERT_EQUAL((uintptr_t)pieces[i] % _Alignof(max_align_t), 0);
        size_t used = 0;
        for (size_t j = 0; j < sizes[i]; j++) {
            used += pieces[i][j];
        }
        CU_ASSERT_EQUAL(used, 0);
        memset(pieces[i], i % 251 + 1, sizes[i]);
    }
    for (int i = 0; i < 400; i++) {
        size_t wrong = 0;
        for (size_t j = 0; j < sizes[i]; j++) {
            wrong += pieces[i][j] != i % 251 + 1;
        }
        CU_ASSERT_EQUAL(wrong, 0);
    }
    ss_arena_destroy(&arena);
    ss_arena_destroy(&arena);
    CU_ASSERT_EQUAL(ss_memory_live(), before);
}

static void test_arena_texts(void) {
    ss_arena arena = {0};
    const char *part = ss_arena_text(&arena, "Sorrel County", 6);
    const char *none = ss_arena_text(&arena, NULL, 0);
    const char *made = ss_arena_printf(&arena, "%s[%d].%s", "bridge.cars", 37, "gap");
    CU_ASSERT_STRING_EQUAL(part, "Sorrel");
    CU_ASSERT_STRING_EQUAL(none, "");
    CU_ASSERT_STRING_EQUAL(made, "bridge.cars[37].gap");
    ss_arena_destroy(&arena);
}

static void test_arena_survives_each_failure(void) {
    const long before = ss_memory_live();
    int failures = 0;
    for (long n = 0; n < 8; n++) {
        ss_arena arena = {0};
        ss_memory_fail_from(n);
        const char *kept = ss_arena_text(&arena, "kept", 4);
        void *large = ss_arena_alloc(&arena, 50000, 1);
        void *block = ss_arena_alloc(&arena, 16000, 1);
        const char *made = ss_arena_printf(&arena, "%*d", 3000, 7);
        ss_memory_fail_from(-1);
        failures += (kept == NULL) + (large == NULL) + (block == NULL) + (made == NULL);
        if (kept != NULL) {
            CU_ASSERT_STRING_EQUAL(kept, "kept");
        }
        if (n == 0) {
            CU_ASSERT_PTR_NULL(kept);
        }
        ss_arena_destroy(&arena);
        CU_ASSERT_EQUAL(ss_memory_live(), before);
    }
    CU_ASSERT_TRUE(failures > 4);
}

int main(void) {
    const test_case cases[] = {
        {"blocks are zeroed and counted", test_blocks_are_zeroed_and_counted},
        {"overflowing products are refused", test_overflowing_products_are_refused},
        {"realloc keeps what was there", test_realloc_keeps_what_was_there},
        {"the n-th allocation and all later ones fail", test_nth_allocation_and_all_later_ones_fail},
        {"the failure counter is exact between threads", test_failure_counter_is_exact_between_threads},
        {"arena pieces are apart, aligned and zeroed", test_arena_pieces_are_apart_aligned_and_zeroed},
        {"arena texts", test_arena_texts},
        {"an arena survives each failure", test_arena_survives_each_failure},
    };
    return RUN_SUITE("base/memory", cases);
}
