/* suite_report.h - runs one table of tests as a program. */
#ifndef SS_TEST_SUITE_REPORT_H
#define SS_TEST_SUITE_REPORT_H

#include <CUnit/Basic.h>

typedef struct report_case {
    const char *name;
    void (*run)(void);
} report_case;

static inline int run_report(const char *name, const report_case *cases, int count) {
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

#define RUN_REPORT(name, cases) run_report(name, cases, (int)(sizeof(cases) / sizeof((cases)[0])))

#endif
