/* test_compare_columns.c - the variants that `compare` is asked for: which, under what names, with what said
 * of them.
 */
#include <math.h>
#include <stdint.h>
#include <string.h>

#include "cli/compare_columns.h"
#include "sillspan/memory.h"
#include "sillspan/reader.h"
#include "support/suite.h"

static ss_description whole, base;
static ss_diag_list said;

/* The golden model, whose first variant changes nothing; without its variants on request. */
static void start(bool variants) {
    ss_error error = {0};
    base = (ss_description){0};
    said = (ss_diag_list){0};
    const ss_status status =
        ss_description_read(SS_SOURCE_DIR "/tests/golden/models/variants.cfg", &whole, &said, &error);
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
    CU_ASSERT_EQUAL_FATAL(ss_description_check(&whole, &said), SS_OK);
    CU_ASSERT_EQUAL_FATAL(ss_description_copy(&whole, variants ? NULL : "variants", &base), SS_OK);
}

static void stop(void) {
    ss_description_destroy(&base);
    ss_description_destroy(&whole); /* places in the copy point into it */
    ss_diag_destroy(&said);
}

/* What is made of some --with. */
static ss_status make(const char *const *withs, int count, ss_compare_columns *out, ss_error *error) {
    const ss_invocation asked = {
        .withs = (const char **)(uintptr_t)withs, .with_count = count, .require = (double)NAN};
    return ss_compare_columns_make(&asked, &base, &said, out, error);
}

static void test_those_of_the_file(void) {
    static const char *const names[] = {"as found", "no joint",    "welded",       "third row",
                                        "one seat", "off the end", "seats inwards"};
    ss_compare_columns columns;
    start(true);
    CU_ASSERT_EQUAL_FATAL(make(NULL, 0, &columns, NULL), SS_OK);
    CU_ASSERT_EQUAL_FATAL(columns.count, ENTRIES(names));
    for (int i = 0; i < columns.count; i++) {
        const ss_compare_column *const one = &columns.items[i];
        const bool faulty = strcmp(names[i], "off the end") == 0;
        CU_ASSERT_STRING_EQUAL(one->name, names[i]);
        CU_ASSERT_EQUAL(one->status, faulty ? SS_ERROR_DESCRIPTION : SS_OK);
        CU_ASSERT_EQUAL(one->diags.faults, faulty ? 1 : 0);
        CU_ASSERT_EQUAL(one->changes == NULL, i == 0);
    }
    CU_ASSERT_STRING_EQUAL(columns.items[1].changes, "bridge.joints.hinge.in_use = false");
    CU_ASSERT_STRING_EQUAL(columns.items[6].changes, "bridge.bearings.seats.x = \"1.5, 20 ft\"");
    CU_ASSERT_STRING_EQUAL(columns.items[5].diags.items[0].path,
                           "variants.off the end.bridge.joints.hinge.to");
    ss_compare_columns_destroy(&columns);
    stop();
}

static void test_those_of_the_command_line(void) {
    static const char *const withs[] = {
        " poor : rating.condition=poor ;bridge.joints.hinge.kind = rigid; ",
        "same:", "bad: rating.conditon=poor; bridge.joints.hinge.to=50 ft; what",
        "late: bridge.joints.hinge.to=50 ft"};
    ss_compare_columns columns;
    start(false);
    CU_ASSERT_EQUAL_FATAL(make(withs, 4, &columns, NULL), SS_OK);
    CU_ASSERT_EQUAL_FATAL(columns.count, 5);
    CU_ASSERT_STRING_EQUAL(columns.items[0].name, "as described");
    CU_ASSERT_STRING_EQUAL(columns.items[1].name, "poor");
    const ss_node *const root = columns.items[1].description.root;
    CU_ASSERT_PTR_NOT_NULL_FATAL(root);
    CU_ASSERT_STRING_EQUAL(ss_node_child(ss_node_child(root, "rating"), "condition")->text, "poor");
    const ss_node *const joints = ss_node_child(ss_node_child(root, "bridge"), "joints");
    CU_ASSERT_STRING_EQUAL(ss_node_child(ss_node_named(joints, "hinge"), "kind")->text, "rigid");
    CU_ASSERT_EQUAL(columns.items[2].status, SS_OK);
    CU_ASSERT_EQUAL(columns.items[3].status, SS_ERROR_DESCRIPTION);
    CU_ASSERT_EQUAL(columns.items[3].diags.faults, 2);
    CU_ASSERT_STRING_EQUAL(columns.items[3].diags.items[0].where.file, "--with");
    CU_ASSERT_STRING_EQUAL(columns.items[3].diags.items[0].message,
                           "in variant \"bad\": \"conditon\": unknown key; did you mean condition?");
    CU_ASSERT_EQUAL(columns.items[4].status, SS_ERROR_DESCRIPTION);
    ss_compare_columns_destroy(&columns);
    stop();
}

static void test_nothing_and_names_given_twice(void) {
    static const char *const twice[] = {"a: rating.adtt=3", "a: rating.adtt=4"};
    static const char *const same[] = {"welded: rating.adtt=3"};
    ss_compare_columns columns;
    ss_error error = {0};
    start(false);
    CU_ASSERT_EQUAL(make(NULL, 0, &columns, &error), SS_ERROR_LIMIT);
    CU_ASSERT_STRING_EQUAL(error.message,
                           "nothing to compare: the description has no variants, and --with gives none");
    ss_compare_columns_destroy(&columns);
    CU_ASSERT_EQUAL(make(twice, 2, &columns, &error), SS_ERROR_LIMIT);
    CU_ASSERT_STRING_EQUAL(error.message, "two variants are called \"a\"");
    ss_compare_columns_destroy(&columns);
    stop();
    start(true);
    CU_ASSERT_EQUAL(make(same, 1, &columns, &error), SS_ERROR_LIMIT);
    ss_compare_columns_destroy(&columns);
    stop();
}

static void test_each_allocation_fails(void) {
    static const char *const withs[] = {"poor: rating.condition=poor", "bad: rating.conditon=poor"};
    start(true);
    const long live = ss_memory_live();
    ss_status status = SS_ERROR_MEMORY;
    long n = 0;
    for (; status == SS_ERROR_MEMORY && n < 20000; n++) {
        ss_compare_columns columns;
        ss_memory_fail_from(n);
        status = make(withs, 2, &columns, NULL);
        ss_memory_fail_from(-1);
        ss_compare_columns_destroy(&columns);
        if (ss_memory_live() != live) {
            CU_FAIL("something was left behind");
            break;
        }
    }
    CU_ASSERT_EQUAL(status, SS_OK);
    CU_ASSERT_TRUE(n > 100 && n < 20000);
    stop();
}

int main(void) {
    static const test_case cases[] = {
        {"those of the file", test_those_of_the_file},
        {"those of the command line", test_those_of_the_command_line},
        {"nothing, and names given twice", test_nothing_and_names_given_twice},
        {"each allocation fails", test_each_allocation_fails},
    };
    return RUN_SUITE("cli/compare columns", cases);
}
