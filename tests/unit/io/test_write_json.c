/* test_write_json.c - JSON that is well formed, nested by dotted keys, and never holds what is no number. */
#include <jansson.h>

#include "written_report.h"

static json_t *written(const ss_report *report) {
    ss_text out = {0};
    ss_error error = {0};
    CU_ASSERT_EQUAL_FATAL(ss_write_json(report, &out, &error), SS_OK);
    json_error_t fault;
    json_t *root = json_loads(out.data, JSON_REJECT_DUPLICATES, &fault);
    CU_ASSERT_PTR_NOT_NULL_FATAL(root);
    ss_text_destroy(&out);
    return root;
}

static void test_values(void) {
    static written_report w;
    make_written(&w);
    json_t *root = written(&w.report);
    CU_ASSERT_STRING_EQUAL(json_string_value(json_object_get(root, "title")), "Alder \"Branch\"\n");
    const json_t *rows = json_object_get(root, "rows");
    CU_ASSERT_EQUAL_FATAL(json_array_size(rows), 2);
    const json_t *first = json_array_get(rows, 0);
    CU_ASSERT_STRING_EQUAL(json_string_value(json_object_get(first, "member")), "sill");
    const json_t *at = json_object_get(first, "at");
    CU_ASSERT_DOUBLE_EQUAL(json_real_value(json_object_get(at, "x")), 10.0, 1e-9);
    CU_ASSERT_DOUBLE_EQUAL(json_real_value(json_object_get(json_object_get(at, "deep"), "moment")), 12.75,
                           1e-8);
    CU_ASSERT_EQUAL(json_integer_value(json_object_get(first, "count")), 12);
    /* Columns for people are left out, and so are empty cells. */
    CU_ASSERT_PTR_NULL(json_object_get(first, "own"));
    CU_ASSERT_PTR_NULL(json_object_get(json_array_get(rows, 1), "count"));
    CU_ASSERT_EQUAL(json_array_size(json_object_get(root, "ignored")), 2);
    json_decref(root);
}

static void test_not_finite(void) {
    static written_report w;
    make_written(&w);
    w.cells[3].value = (double)NAN;
    json_t *root = written(&w.report);
    const json_t *rows = json_object_get(root, "rows");
    const json_t *first = json_array_get(rows, 0);
    const json_t *second = json_array_get(rows, 1);
    CU_ASSERT_TRUE(json_is_null(json_object_get(first, "rf")));
    CU_ASSERT_STRING_EQUAL(json_string_value(json_object_get(first, "rf_word")), "not known");
    CU_ASSERT_TRUE(json_is_null(json_object_get(second, "rf")));
    CU_ASSERT_STRING_EQUAL(json_string_value(json_object_get(second, "rf_word")), "no limit");
    json_decref(root);
}

/* Ten significant digits: what lies beyond differs between machines. */
static void test_digits(void) {
    static written_report w;
    make_written(&w);
    w.cells[3].value = 1.0 / 7.0;
    ss_text out = {0};
    CU_ASSERT_EQUAL(ss_write_json(&w.report, &out, NULL), SS_OK);
    CU_ASSERT_PTR_NOT_NULL(strstr(out.data, "\"rf\": 0.1428571429,"));
    CU_ASSERT_EQUAL(out.data[out.length - 1], '\n');
    ss_text_destroy(&out);
}

static void test_malformed_text(void) {
    static written_report w;
    make_written(&w);
    w.cells[0].text = "half \xC3";
    json_t *root = written(&w.report);
    const json_t *first = json_array_get(json_object_get(root, "rows"), 0);
    CU_ASSERT_STRING_EQUAL(json_string_value(json_object_get(first, "member")), "half ?");
    json_decref(root);
}

static void test_records(void) {
    static written_report w;
    make_written(&w);
    w.table.record = true;
    json_t *root = written(&w.report);
    CU_ASSERT_STRING_EQUAL(json_string_value(json_object_get(json_object_get(root, "rows"), "member")),
                           "sill");
    json_decref(root);
    w.table.row_count = 0;
    root = written(&w.report);
    CU_ASSERT_TRUE(json_is_null(json_object_get(root, "rows")));
    json_decref(root);
    w.table.record = false;
    root = written(&w.report);
    CU_ASSERT_EQUAL(json_array_size(json_object_get(root, "rows")), 0);
    CU_ASSERT_TRUE(json_is_array(json_object_get(root, "rows")));
    json_decref(root);
}

static void test_every_allocation_may_fail(void) {
    check_every_allocation(ss_write_json, 100);
}

int main(void) {
    static const test_case cases[] = {
        {"values", test_values},   {"not finite", test_not_finite},
        {"digits", test_digits},   {"malformed text", test_malformed_text},
        {"records", test_records}, {"every allocation may fail", test_every_allocation_may_fail},
    };
    return RUN_SUITE("JSON writer", cases);
}
