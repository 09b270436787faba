/* suite_response.h - running one CUnit suite, and checks that print what they found. */
#ifndef TEST_SUITE_RESPONSE_H
#define TEST_SUITE_RESPONSE_H

#include <CUnit/Basic.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>

#include "sillspan/status.h"

typedef struct response_case {
    const char *name;
    void (*run)(void);
} response_case;

static inline int run_response_suite(const char *name, const response_case *cases, size_t count) {
    if (CU_initialize_registry() != CUE_SUCCESS) {
        return 2;
    }
    CU_pSuite suite = CU_add_suite(name, NULL, NULL);
    for (size_t i = 0; suite != NULL && i < count; i++) {
        if (CU_add_test(suite, cases[i].name, cases[i].run) == NULL) {
            suite = NULL;
        }
    }
    if (suite != NULL) {
        CU_basic_set_mode(CU_BRM_VERBOSE);
        CU_basic_run_tests();
    }
    const bool good = suite != NULL && CU_get_number_of_failures() == 0;
    CU_cleanup_registry();
    return good ? 0 : 1;
}

/** |obtained - expected| <= tolerance |scale|. */
static inline void expect_near(const char *what, double obtained, double expected, double tolerance,
                               double scale) {
    const bool good = fabs(obtained - expected) <= tolerance * fabs(scale);
    if (!good) {
        printf("\n    %s: %.15g, expected %.15g", what, obtained, expected);
    }
    CU_ASSERT_TRUE(good);
}

static inline void expect_ok(ss_status status, const ss_error *error) {
    if (status != SS_OK) {
        printf("\n    %s", error->message);
    }
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
}

#endif
