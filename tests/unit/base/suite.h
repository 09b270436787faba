/* suite.h - runs one table of tests as a program. */
#ifndef SS_TEST_BASE_SUITE_H
#define SS_TEST_BASE_SUITE_H

#include <CUnit/Basic.h>
#include <stdint.h>
#include <stdio.h>

typedef struct test_case {
    const char *name;
    void (*run)(void);
} test_case;

/** Runs every test, names what fails, and returns the exit status of the program. */
static inline int run_suite(const char *name, const test_case *cases, int count) {
    if (CU_initialize_registry() != CUE_SUCCESS) {
        return 2;
    }
    CU_pSuite suite = CU_add_suite(name, NULL, NULL);
    int ready = suite != NULL;
    for (int i = 0; ready && i < count; i++) {
        ready = CU_add_test(suite, cases[i].name, cases[i].run) != NULL;
    }
    if (!ready) {
        CU_cleanup_registry();
        return 2;
    }
    CU_basic_set_mode(CU_BRM_NORMAL);
    CU_basic_run_tests();
    const unsigned failures = CU_get_number_of_failures();
    CU_cleanup_registry();
    return failures == 0 ? 0 : 1;
}

#define RUN_SUITE(name, cases) run_suite(name, cases, (int)(sizeof(cases) / sizeof((cases)[0])))

/** Asserts and, on failure, says for which row of a table. */
#define CHECK_ROW(condition, row)                                                                            \
    do {                                                                                                     \
        const int held = (condition) ? 1 : 0;                                                                \
        if (!held) {                                                                                         \
            printf("\n  row: %s\n", (row));                                                                  \
        }                                                                                                    \
        CU_ASSERT_TRUE(held);                                                                                \
    } while (0)

/** Numbers that look random and are the same in each run (xorshift64*, Vigna 2016). */
static inline uint64_t next_random(uint64_t *state) {
    *state ^= *state >> 12;
    *state ^= *state << 25;
    *state ^= *state >> 27;
    return *state * UINT64_C(2685821657736338717);
}

#endif
