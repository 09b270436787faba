/* test_description_reading.c - values with defaults, the assumptions that are noted, and complaints. */
#include "support/suite.h"
#include "unit/model/description_samples.h"

typedef struct bench {
    ss_description d;
    ss_diag_list diags;
    ss_assumption_list assumptions;
    ss_reading r;
    ss_node *bearing;
} bench;

static void begin(bench *b) {
    *b = (bench){0};
    CU_ASSERT_EQUAL_FATAL(ss_description_init(&b->d), SS_OK);
    ss_node *bridge = put(&b->d, b->d.root, SS_NODE_GROUP, "bridge", 3);
    b->bearing = put(&b->d, put(&b->d, bridge, SS_NODE_LIST, "bearings", 4), SS_NODE_GROUP, NULL, 5);
    put_text(&b->d, b->bearing, "name", "ends", 5);
    b->r = (ss_reading){.description = &b->d, .diags = &b->diags, .assumptions = &b->assumptions};
}

static void end(bench *b) {
    CU_ASSERT_EQUAL(b->r.status, SS_OK);
    ss_diag_destroy(&b->diags);
    ss_assumption_destroy(&b->assumptions);
    ss_assumption_destroy(&b->assumptions);
    ss_description_destroy(&b->d);
}

static bool assumed(const bench *b, const char *path, const char *value) {
    for (int i = 0; i < b->assumptions.count; i++) {
        const ss_assumption *item = &b->assumptions.items[i];
        if (strcmp(item->path, path) == 0 && strcmp(item->value, value) == 0) {
            return item->why[0] != '\0';
        }
    }
    return false;
}

static void test_written_values(void) {
    bench b;
    begin(&b);
    put_text(&b.d, b.bearing, "gap", "3/8 in", 6);
    put_text(&b.d, b.bearing, "x", "0, 17.25, 53 ft", 7);
    put_text(&b.d, b.bearing, "spring", "215 kip/in", 8);
    put_text(&b.d, b.bearing, "action", "two-way", 9);
    put(&b.d, b.bearing, SS_NODE_FLAG, "in_use", 10);
    ss_node *rating = put(&b.d, b.d.root, SS_NODE_GROUP, "rating", 11);
    put_number(&b.d, rating, "adtt", 37.0, 11)->kind = SS_NODE_INTEGER;
    put_text(&b.d, rating, "condition", "poor", 12);
    double number = 0.0;
    double x[3] = {0.0};
    int whole = 0;
    bool flag = true;
    const char *text = NULL;
    CU_ASSERT_TRUE(ss_read_quantity(&b.r, b.bearing, "bridge.bearings[].gap", &number));
    CU_ASSERT_DOUBLE_EQUAL(number, 0.009525, 1e-15);
    CU_ASSERT_EQUAL(ss_read_quantities(&b.r, b.bearing, "bridge.bearings[].x", x, 3), 3);
    CU_ASSERT_DOUBLE_EQUAL(x[1], 5.2578, 1e-12);
    CU_ASSERT_EQUAL(ss_read_quantities(&b.r, b.bearing, "bridge.bearings[].x", x, 2), 0);
    CU_ASSERT_EQUAL(ss_read_choice(&b.r, b.bearing, "bridge.bearings[].spring", &number), -1);
    CU_ASSERT_DOUBLE_EQUAL(number, 215.0 * KIP / INCH, 1e-3);
    CU_ASSERT_EQUAL(ss_read_choice(&b.r, b.bearing, "bridge.bearings[].action", NULL), 1);
    CU_ASSERT_TRUE(ss_read_flag(&b.r, b.bearing, "bridge.bearings[].in_use", &flag));
    CU_ASSERT_FALSE(flag);
    CU_ASSERT_TRUE(ss_read_integer(&b.r, rating, "rating.adtt", &whole));
    CU_ASSERT_EQUAL(whole, 37);
    CU_ASSERT_EQUAL(ss_read_choice(&b.r, rating, "rating.condition", &number), 2);
    CU_ASSERT_TRUE(ss_read_text(&b.r, b.bearing, "bridge.bearings[].name", &text));
    CU_ASSERT_STRING_EQUAL(text, "ends");
    CU_ASSERT_TRUE(ss_read_given(b.bearing, "gap"));
    CU_ASSERT_FALSE(ss_read_given(b.bearing, "settlement"));
    CU_ASSERT_FALSE(ss_read_given(NULL, "gap"));
    CU_ASSERT_EQUAL(b.assumptions.count, 0);
    end(&b);
}

static void test_defaults_are_used_and_noted_once(void) {
    bench b;
    begin(&b);
    double number = 7.5;
    bool flag = false;
    for (int i = 0; i < 2; i++) {
        CU_ASSERT_TRUE(ss_read_quantity(&b.r, b.bearing, "bridge.bearings[].gap", &number));
        CU_ASSERT_EQUAL(number, 0.0);
        CU_ASSERT_EQUAL(ss_read_choice(&b.r, b.bearing, "bridge.bearings[].spring", &number), 0);
        CU_ASSERT_TRUE(ss_read_flag(&b.r, b.bearing, "bridge.bearings[].in_use", &flag));
        CU_ASSERT_TRUE(flag);
        CU_ASSERT_TRUE(ss_read_quantity(&b.r, NULL, "rating.dc_factor", &number));
        CU_ASSERT_EQUAL(number, 1.25);
        CU_ASSERT_TRUE(ss_read_quantity(&b.r, NULL, "analysis.station_spacing", &number));
        CU_ASSERT_DOUBLE_EQUAL(number, FOOT, 1e-15);
    }
    CU_ASSERT_EQUAL(b.assumptions.count, 5);
    CU_ASSERT_TRUE(assumed(&b, "bridge.bearings.ends.gap", "0 in"));
    CU_ASSERT_TRUE(assumed(&b, "bridge.bearings.ends.spring", "rigid"));
    CU_ASSERT_TRUE(assumed(&b, "bridge.bearings.ends.in_use", "true"));
    CU_ASSERT_TRUE(assumed(&b, "rating.dc_factor", "1.25"));
    CU_ASSERT_TRUE(assumed(&b, "analysis.station_spacing", "1 ft"));
    end(&b);
}

static void test_absent_and_faulty_values_write_nothing(void) {
    bench b;
    begin(&b);
    put_text(&b.d, b.bearing, "gap", "-3/8 in", 6);
    put_text(&b.d, b.bearing, "settlement", "2 kip", 7);
    put_number(&b.d, b.bearing, "action", 3.0, 8);
    double number = 7.5;
    int whole = 11;
    CU_ASSERT_FALSE(ss_read_quantity(&b.r, b.bearing, "bridge.bearings[].gap", &number));
    CU_ASSERT_FALSE(ss_read_quantity(&b.r, b.bearing, "bridge.bearings[].settlement", &number));
    CU_ASSERT_EQUAL(ss_read_choice(&b.r, b.bearing, "bridge.bearings[].action", &number), -2);
    CU_ASSERT_EQUAL(ss_read_choice(&b.r, b.bearing, "bridge.bearings[].at", &number), -2);
    CU_ASSERT_EQUAL(ss_read_quantities(&b.r, b.bearing, "bridge.bearings[].x", &number, 1), 0);
    CU_ASSERT_FALSE(ss_read_integer(&b.r, NULL, "rating.adtt", &whole));
    CU_ASSERT_EQUAL(number, 7.5);
    CU_ASSERT_EQUAL(whole, 11);
    CU_ASSERT_EQUAL(b.assumptions.count, 0);
    CU_ASSERT_EQUAL(b.diags.count, 0);
    end(&b);
}

static void test_unknown_row_is_our_own_fault(void) {
    bench b;
    begin(&b);
    double number = 7.5;
    CU_ASSERT_FALSE(ss_read_quantity(&b.r, b.bearing, "bridge.bearings[].gapp", &number));
    CU_ASSERT_EQUAL(b.r.status, SS_ERROR_INTERNAL);
    b.r.status = SS_OK;
    end(&b);
}

static void test_complaints_have_places(void) {
    bench b;
    begin(&b);
    put_text(&b.d, b.bearing, "gap", "3/8 in", 6);
    ss_read_complain(&b.r, SS_FAULT, b.bearing, "gap", "%d is odd", 3);
    ss_read_complain(&b.r, SS_WARNING, b.bearing, "x", "not given");
    ss_read_complain(&b.r, SS_FAULT, b.bearing, NULL, "lies outside");
    CU_ASSERT_TRUE(was_said(&b.diags, SS_FAULT, 6, "bridge.bearings.ends.gap: 3 is odd"));
    CU_ASSERT_TRUE(was_said(&b.diags, SS_WARNING, 5, "bridge.bearings.ends.x: not given"));
    CU_ASSERT_TRUE(was_said(&b.diags, SS_FAULT, 5, "bridge.bearings.ends: lies outside"));
    CU_ASSERT_STRING_EQUAL(ss_read_path(&b.r, b.bearing), "bridge.bearings.ends");
    CU_ASSERT_STRING_EQUAL(ss_read_path(&b.r, b.d.root), "");
    end(&b);
}

static void test_memory_may_fail_anywhere(void) {
    ss_status status = SS_ERROR_MEMORY;
    for (long n = 0; n < 100 && status == SS_ERROR_MEMORY; n++) {
        bench b;
        begin(&b);
        double number = 0.0;
        ss_memory_fail_from(n);
        (void)ss_read_quantity(&b.r, b.bearing, "bridge.bearings[].gap", &number);
        (void)ss_read_quantity(&b.r, b.bearing, "bridge.bearings[].pad_width", &number);
        ss_read_complain(&b.r, SS_FAULT, b.bearing, "gap", "is odd");
        if (b.r.status == SS_OK) {
            (void)ss_read_path(&b.r, b.bearing);
        }
        ss_memory_fail_from(-1);
        status = b.r.status;
        b.r.status = SS_OK;
        end(&b);
    }
    CU_ASSERT_EQUAL(status, SS_OK);
    CU_ASSERT_EQUAL(ss_memory_live(), 0);
}

int main(void) {
    const test_case cases[] = {
        {"written", test_written_values},
        {"defaults", test_defaults_are_used_and_noted_once},
        {"absent and faulty", test_absent_and_faulty_values_write_nothing},
        {"unknown row", test_unknown_row_is_our_own_fault},
        {"complaints", test_complaints_have_places},
        {"memory", test_memory_may_fail_anywhere},
    };
    return RUN_SUITE("model/description reading", cases);
}
