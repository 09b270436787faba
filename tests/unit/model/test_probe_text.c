/* test_probe_text.c - a probe from a command line: its keys as an item of the list, and what is no probe. */
#include <string.h>

#include "sillspan/description.h"
#include "sillspan/memory.h"
#include "sillspan/probe.h"
#include "support/suite.h"

static ss_description empty(void) {
    ss_description d = {0};
    CU_ASSERT_EQUAL_FATAL(ss_description_init(&d), SS_OK);
    return d;
}

static const char *text_of(const ss_node *group, const char *key) {
    const ss_node *const node = ss_node_child(group, key);
    return node == NULL || node->kind != SS_NODE_TEXT ? "" : node->text;
}

/* White space and a semicolon at the end do not count; values may hold commas and blanks. */
static void test_keys(void) {
    ss_description d = empty();
    ss_diag_list diags = {0};
    CU_ASSERT_EQUAL(
        ss_probe_add(&d, "one", "car=north;line = main girder ; x=27 ft 3 in;effect=moment;", &diags), SS_OK);
    CU_ASSERT_EQUAL(ss_probe_add(&d, "other", "joint=seam; x=30 ft", &diags), SS_OK);
    const ss_node *const list = ss_node_child(d.root, "probes");
    CU_ASSERT_PTR_NOT_NULL_FATAL(list);
    CU_ASSERT_EQUAL(list->count, 2);
    const ss_node *const one = ss_node_named(list, "one");
    CU_ASSERT_PTR_NOT_NULL_FATAL(one);
    CU_ASSERT_EQUAL(one->count, 5);
    CU_ASSERT_STRING_EQUAL(text_of(one, "car"), "north");
    CU_ASSERT_STRING_EQUAL(text_of(one, "line"), "main girder");
    CU_ASSERT_STRING_EQUAL(text_of(one, "x"), "27 ft 3 in");
    CU_ASSERT_STRING_EQUAL(text_of(one, "effect"), "moment");
    CU_ASSERT_EQUAL(diags.count, 0);
    ss_diag_destroy(&diags);
    ss_description_destroy(&d);
}

static void test_faults(void) {
    static const struct {
        const char *text, *message;
    } wrong[] = {
        {"main girder", "semicolons between are due"},
        {"car=north; main girder", "semicolons between are due"},
        {"car=", "missing beside ="},
        {"=north", "missing beside ="},
        {"car=north; name=mine", "needs no name"},
    };
    for (int i = 0; i < ENTRIES(wrong); i++) {
        ss_description d = empty();
        ss_diag_list diags = {0};
        CU_ASSERT_EQUAL(ss_probe_add(&d, "one", wrong[i].text, &diags), SS_ERROR_DESCRIPTION);
        CU_ASSERT_EQUAL_FATAL(diags.faults, 1);
        CHECK_ROW(strstr(diags.items[0].message, wrong[i].message) != NULL, wrong[i].text);
        CHECK_ROW(strcmp(diags.items[0].path, wrong[i].text) == 0, wrong[i].text);
        ss_diag_destroy(&diags);
        ss_description_destroy(&d);
    }
}

static void test_no_list(void) {
    ss_description d = empty();
    ss_diag_list diags = {0};
    CU_ASSERT_PTR_NOT_NULL_FATAL(
        ss_node_add(&d, d.root, SS_NODE_GROUP, "probes", (ss_where){"bridge.cfg", 3}));
    CU_ASSERT_EQUAL(ss_probe_add(&d, "one", "car=north", &diags), SS_ERROR_DESCRIPTION);
    CU_ASSERT_EQUAL_FATAL(diags.faults, 1);
    CU_ASSERT_PTR_NOT_NULL(strstr(diags.items[0].message, "is no list"));
    ss_diag_destroy(&diags);
    ss_description_destroy(&d);
}

static void test_memory(void) {
    ss_status status = SS_ERROR_MEMORY;
    long n = 0;
    for (; status == SS_ERROR_MEMORY && n < 100; n++) {
        ss_description d = empty();
        ss_diag_list diags = {0};
        ss_memory_fail_from(n);
        status = ss_probe_add(&d, "one", "car=north; line=main girder; x=30 ft; effect=moment", &diags);
        ss_memory_fail_from(-1);
        CU_ASSERT_EQUAL(diags.count, 0);
        ss_diag_destroy(&diags);
        ss_description_destroy(&d);
        CU_ASSERT_EQUAL(ss_memory_live(), 0);
    }
    CU_ASSERT_EQUAL(status, SS_OK);
}

static const test_case cases[] = {
    {"keys with semicolons between", test_keys},
    {"what is no probe", test_faults},
    {"probes that are no list", test_no_list},
    {"no memory", test_memory},
};

int main(void) {
    return RUN_SUITE("probe_text", cases);
}
