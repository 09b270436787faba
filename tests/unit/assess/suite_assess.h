/* suite_assess.h - runs one table of tests as a program, and what the tests of this layer share. */
#ifndef SS_TEST_SUITE_ASSESS_H
#define SS_TEST_SUITE_ASSESS_H

#include <CUnit/Basic.h>
#include <math.h>

/* Pounds, inches and feet are exact: the international ones with standard gravity. */
#define INCH 0.0254
#define FOOT 0.3048
#define KIP 4448.2216152605
#define KSI (KIP / (INCH * INCH))
#define KIP_FOOT (KIP * FOOT)

typedef struct assess_case {
    const char *name;
    void (*run)(void);
} assess_case;

static inline int run_assess(const char *name, const assess_case *cases, int count) {
    if (CU_initialize_registry() != CUE_SUCCESS) {
        return 2;
    }
    CU_pSuite suite = CU_add_suite(name, NULL, NULL);
    int ready = suite != NULL;
    for (int i = 0; ready && i < count; i++) {
        ready = CU_add_test(suite, cases[i].name, cases[i].run) != NULL;
    }
    if (ready) {
        CU_basic_set_mode(CU_BRM_NORMAL);
        CU_basic_run_tests();
    }
    const unsigned failures = CU_get_number_of_failures();
    CU_cleanup_registry();
    return ready && failures == 0 ? 0 : 1;
}

#define RUN_ASSESS(name, cases) run_assess(name, cases, (int)(sizeof(cases) / sizeof((cases)[0])))

/** Equal within `relative` of the expected value. */
#define CHECK_CLOSE(actual, expected, relative)                                                              \
    CU_ASSERT_DOUBLE_EQUAL((actual), (expected), (relative)*fabs((double)(expected)))

#endif
