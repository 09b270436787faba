/* suite.h - runs one table of tests as a program, and checks that say what they found. */
#ifndef TEST_SUITE_H
#define TEST_SUITE_H

#include <CUnit/Basic.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>

#include "sillspan/status.h"
#include "support/exact_units.h"

#define ENTRIES(table) ((int)(sizeof(table) / sizeof((table)[0])))

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
    bool ready = suite != NULL && count > 0;
    for (int i = 0; ready && i < count; i++) {
        ready = CU_add_test(suite, cases[i].name, cases[i].run) != NULL;
    }
    if (ready) {
        CU_basic_set_mode(CU_BRM_NORMAL);
        CU_basic_run_tests();
        ready = CU_get_number_of_tests_run() == (unsigned)count;
    }
    const unsigned failures = CU_get_number_of_failures();
    CU_cleanup_registry();
    if (!ready) {
        return 2;
    }
    return failures == 0 ? 0 : 1;
}

#define RUN_SUITE(name, cases) run_suite(name, cases, ENTRIES(cases))

/** Asserts and, on failure, says for which row of a table. */
#define CHECK_ROW(condition, row)                                                                            \
    do {                                                                                                     \
        const int held = (condition) ? 1 : 0;                                                                \
        if (!held) {                                                                                         \
            printf("\n  row: %s\n", (row));                                                                  \
        }                                                                                                    \
        CU_ASSERT_TRUE(held);                                                                                \
    } while (0)

/** Asserts |obtained - expected| <= tolerance * |scale| and prints both on failure. */
static inline void check_near(const char *what, double obtained, double expected, double tolerance,
                              double scale) {
    const bool good = fabs(obtained - expected) <= tolerance * fabs(scale);
    if (!good) {
        printf("\n  %s: %.17g, expected %.17g (error %.2e of the scale)", what, obtained, expected,
               fabs(obtained - expected) / fabs(scale));
    }
    CU_ASSERT_TRUE(good);
}

/** Asserts that two numbers are equal within `tolerance` of the expected one. */
static inline void check_relative(const char *what, double obtained, double expected, double tolerance) {
    check_near(what, obtained, expected, tolerance, expected);
}

/** The same, named by the expression that was obtained. */
#define CHECK_CLOSE(obtained, expected, tolerance) check_relative(#obtained, obtained, expected, tolerance)

static inline void check_ok(const char *what, ss_status status, const ss_error *error) {
    if (status != SS_OK) {
        printf("\n  %s: %s", what, error->message);
    }
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
}

/** Asserts that a call went well; on failure prints the call and its message, and ends the test. */
#define CHECK_OK(call, error) check_ok(#call, call, error)

#endif
