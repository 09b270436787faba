/* test_base_diag.c - the list of located faults: ownership, order, repeats, failures of memory. */
#include <stdbool.h>
#include <string.h>

#include "sillspan/diag.h"
#include "support/random.h"
#include "support/suite.h"

static void test_list_owns_its_text(void) {
    ss_diag_list list = {0};
    char file[] = "alder.cfg";
    char path[] = "bridge.bearings.ends.gap";
    char found[] = "7 kip";
    CU_ASSERT_EQUAL(ss_diag_add(&list, SS_FAULT, (ss_where){file, 83}, path, "%s is a force", found), SS_OK);
    CU_ASSERT_EQUAL(ss_diag_add(&list, SS_WARNING, (ss_where){NULL, 0}, NULL, "plain"), SS_OK);
    memset(file, '!', sizeof file - 1);
    memset(path, '!', sizeof path - 1);
    memset(found, '!', sizeof found - 1);
    CU_ASSERT_EQUAL_FATAL(list.count, 2);
    CU_ASSERT_STRING_EQUAL(list.items[0].where.file, "alder.cfg");
    CU_ASSERT_EQUAL(list.items[0].where.line, 83);
    CU_ASSERT_STRING_EQUAL(list.items[0].path, "bridge.bearings.ends.gap");
    CU_ASSERT_STRING_EQUAL(list.items[0].message, "7 kip is a force");
    CU_ASSERT_PTR_NULL(list.items[1].where.file);
    CU_ASSERT_STRING_EQUAL(list.items[1].path, "");
    CU_ASSERT_EQUAL(list.faults, 1);
    CU_ASSERT_EQUAL(list.warnings, 1);
    ss_diag_destroy(&list);
    CU_ASSERT_EQUAL(list.count, 0);
    ss_diag_destroy(&list);
    ss_diag_destroy(NULL);
}

static void test_sorted_by_place_and_repeats_dropped(void) {
    ss_diag_list list = {0};
    ss_diag_add(&list, SS_FAULT, (ss_where){NULL, 0}, "a", "given on the command line");
    ss_diag_add(&list, SS_FAULT, (ss_where){"cars.cfg", 9}, "a", "first");
    ss_diag_add(&list, SS_WARNING, (ss_where){"bridge.cfg", 41}, "b", "later line");
    ss_diag_add(&list, SS_FAULT, (ss_where){"cars.cfg", 9}, "a", "second");
    ss_diag_add(&list, SS_FAULT, (ss_where){"bridge.cfg", 7}, "c", "earlier line");
    ss_diag_add(&list, SS_FAULT, (ss_where){"cars.cfg", 9}, "a", "first");
    ss_diag_add(&list, SS_WARNING, (ss_where){"cars.cfg", 9}, "a", "first");
    ss_diag_add(&list, SS_WARNING, (ss_where){"bridge.cfg", 41}, "b", "later line");
    ss_diag_sort(&list);
    const char *expected[] = {"earlier line", "later line", "first",
                              "second",       "first",      "given on the command line"};
    CU_ASSERT_EQUAL_FATAL(list.count, 6);
    for (int i = 0; i < 6; i++) {
        CU_ASSERT_STRING_EQUAL(list.items[i].message, expected[i]);
    }
    CU_ASSERT_EQUAL(list.items[4].severity, SS_WARNING);
    CU_ASSERT_EQUAL(list.faults, 4);
    CU_ASSERT_EQUAL(list.warnings, 2);
    ss_diag_destroy(&list);
}

static void test_sort_is_stable_on_many(void) {
    static const char *files[] = {"a.cfg", "b.cfg", "c.cfg"};
    ss_diag_list list = {0};
    uint64_t state = 77173;
    for (int i = 0; i < 700; i++) {
        const int file = (int)(next_random(&state) % 3);
        const int line = (int)(next_random(&state) % 23);
        ss_diag_add(&list, SS_FAULT, (ss_where){files[file], line}, "k", "%05d", i);
    }
    ss_diag_sort(&list);
    CU_ASSERT_EQUAL_FATAL(list.count, 700);
    for (int i = 1; i < list.count; i++) {
        const ss_diag *a = &list.items[i - 1];
        const ss_diag *b = &list.items[i];
        const int file = strcmp(a->where.file, b->where.file);
        const bool rising =
            file < 0 ||
            (file == 0 && (a->where.line < b->where.line ||
                           (a->where.line == b->where.line && strcmp(a->message, b->message) < 0)));
        CHECK_ROW(rising, b->message);
    }
    ss_diag_destroy(&list);
}

static void test_each_failure_of_memory_is_reported(void) {
    const long before = ss_memory_live();
    bool completed = false;
    int reported = 0;
    for (long n = 0; n < 40 && !completed; n++) {
        ss_diag_list list = {0};
        ss_memory_fail_from(n);
        int added = 0;
        ss_status status = SS_OK;
        for (int i = 0; i < 150 && status == SS_OK; i++) {
            status = ss_diag_add(&list, SS_FAULT, (ss_where){"long.cfg", i}, "path", "%*d", 400, i);
            added += status == SS_OK;
        }
        ss_memory_fail_from(-1);
        CU_ASSERT_EQUAL(list.count, added);
        CU_ASSERT_EQUAL(list.faults, added);
        completed = status == SS_OK;
        if (!completed) {
            CU_ASSERT_EQUAL(status, SS_ERROR_MEMORY);
            reported++;
        }
        ss_diag_sort(&list);
        CU_ASSERT_EQUAL(list.count, added);
        ss_diag_destroy(&list);
        CU_ASSERT_EQUAL(ss_memory_live(), before);
    }
    CU_ASSERT_TRUE(completed);
    CU_ASSERT_TRUE(reported >= 8);
}

int main(void) {
    const test_case cases[] = {
        {"the list owns its text", test_list_owns_its_text},
        {"sorted by place, repeats dropped", test_sorted_by_place_and_repeats_dropped},
        {"the sort is stable on many", test_sort_is_stable_on_many},
        {"each failure of memory is reported", test_each_failure_of_memory_is_reported},
    };
    return RUN_SUITE("base/diag", cases);
}
