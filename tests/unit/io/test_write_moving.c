/* test_write_moving.c - the part of a page on which a truck moves: its data are JSON that nothing can end,
 * and the page's policy lets its script run and no other. */
#include <jansson.h>
#include <stdlib.h>
#include <string.h>

#include "io/write_html_moving.h"
#include "sillspan/memory.h"
#include "sillspan/reader.h"
#include "sillspan/variant.h"
#include "sillspan/write.h"
#include "support/html_page.h"
#include "support/suite.h"

static const char hostile[] = "</script><!-- \xE2\x80\xA8\xE2\x80\xA9 \"\\\" & '<b>' tr\xC3\xA4ger";
/* What is left of it: line ends of other scripts are harmless signs by then, or escapes. */
static const char begins[] = "</script><!-- ";
static const char ends[] = " \"\\\" & '<b>' tr\xC3\xA4ger";

/* A small bridge, and the sheet of it. */
typedef struct moving_page {
    ss_variant variant;
    ss_moving moving;
    ss_moving_truck truck;
    const char *bearings[16];
    ss_moving_sheet sheet;
    ss_block blocks[3];
    ss_report report;
} moving_page;

static void make_page(moving_page *p) {
    ss_description d = {0};
    ss_diag_list diags = {0};
    ss_error error = {0};
    *p = (moving_page){0};
    CHECK_OK(ss_description_read(SS_SOURCE_DIR "/tests/golden/models/two-spines.cfg", &d, &diags, &error),
             &error);
    CU_ASSERT_EQUAL_FATAL(ss_bridge_resolve(&d, &p->variant.bridge, &diags), SS_OK);
    CHECK_OK(ss_variant_structure(&p->variant, &error), &error);
    CHECK_OK(ss_permanent_compute(&p->variant.bridge, p->variant.grillage, &p->variant.permanent, &error),
             &error);
    CHECK_OK(ss_moving_compute(&p->variant.permanent, SS_MOVING_BUDGET, &p->moving, &error), &error);
    CU_ASSERT_FATAL(p->variant.bridge.bearing_count <= ENTRIES(p->bearings));
    for (int i = 0; i < p->variant.bridge.bearing_count; i++) p->bearings[i] = hostile;
    p->truck = (ss_moving_truck){hostile, ss_vehicle_find("EV3"), 1.0, 3.0};
    p->sheet = (ss_moving_sheet){&p->moving, &p->variant.bridge, &p->truck, 1, p->bearings, hostile};
    p->blocks[0] = (ss_block){.kind = SS_BLOCK_HEADING, .audience = SS_FOR_PEOPLE, .text = "Title"};
    p->blocks[1] =
        (ss_block){.kind = SS_BLOCK_HEADING, .audience = SS_FOR_PEOPLE, .text = "Truck", .screen = true};
    p->blocks[2] = (ss_block){.kind = SS_BLOCK_MOVING, .audience = SS_FOR_PEOPLE, .moving = &p->sheet};
    p->report = (ss_report){.units = SS_UNITS_US, .blocks = p->blocks, .count = 3};
    ss_description_destroy(&d);
    ss_diag_destroy(&diags);
}

static void free_page(moving_page *p) {
    ss_moving_destroy(&p->moving);
    ss_variant_destroy(&p->variant);
}

static void test_base64(void) {
    /* RFC 4648, section 10. */
    static const char *const rows[][2] = {{"", ""},
                                          {"f", "Zg=="},
                                          {"fo", "Zm8="},
                                          {"foo", "Zm9v"},
                                          {"foob", "Zm9vYg=="},
                                          {"fooba", "Zm9vYmE="},
                                          {"foobar", "Zm9vYmFy"}};
    for (int i = 0; i < ENTRIES(rows); i++) {
        ss_text out = {0};
        ss_moving_base64(&out, (const unsigned char *)rows[i][0], strlen(rows[i][0]));
        CHECK_ROW(strcmp(out.data == NULL ? "" : out.data, rows[i][1]) == 0, rows[i][0]);
        ss_text_destroy(&out);
    }
}

static void check_name(json_t *value) {
    const char *const text = json_string_value(value);
    CU_ASSERT_PTR_NOT_NULL_FATAL(text);
    CU_ASSERT_EQUAL(strncmp(text, begins, strlen(begins)), 0);
    CU_ASSERT_TRUE(strlen(text) > strlen(ends) && strcmp(text + strlen(text) - strlen(ends), ends) == 0);
}

static void test_data(void) {
    moving_page p;
    json_error_t fault;
    make_page(&p);
    ss_text out = {0};
    ss_moving_data(&out, &p.sheet, SS_UNITS_US);
    CU_ASSERT_FALSE_FATAL(out.failed);
    CU_ASSERT_PTR_NULL(strpbrk(out.data, "<>&"));
    CU_ASSERT_PTR_NULL(strstr(out.data, "\xE2\x80\xA8"));
    json_t *const data = json_loads(out.data, JSON_REJECT_DUPLICATES, &fault);
    CHECK_ROW(data != NULL, fault.text);
    CU_ASSERT_FATAL(data != NULL);
    check_name(json_object_get(json_array_get(json_object_get(data, "trucks"), 0), "name"));
    check_name(json_object_get(
        json_array_get(json_object_get(json_object_get(data, "bridge"), "bearings"), 0), "name"));
    check_name(json_object_get(data, "still"));
    /* 1 kip-ft in N m. */
    json_t *const moment = json_object_get(json_object_get(data, "units"), "moment");
    CU_ASSERT_STRING_EQUAL(json_string_value(json_object_get(moment, "name")), "kip-ft");
    CU_ASSERT_DOUBLE_EQUAL(json_real_value(json_object_get(moment, "si")), 1355.8179483314, 1e-8);
    CU_ASSERT_EQUAL(json_array_size(json_object_get(data, "reading")), (size_t)p.moving.reading_count);
    const size_t bytes = p.moving.byte_count;
    CU_ASSERT_EQUAL(json_string_length(json_object_get(data, "curves")), (bytes + 2) / 3 * 4);
    json_decref(data);
    ss_text_destroy(&out);
    free_page(&p);
}

static void test_page(void) {
    static html_page page;
    moving_page p;
    ss_error error = {0};
    ss_text out = {0};
    make_page(&p);
    CHECK_OK(ss_write_html(&p.report, &out, &error), &error);
    html_walk(&page, out.data);
    CHECK_ROW(page.fault[0] == '\0', page.fault);
    CU_ASSERT_EQUAL(page.scripts, 2);
    CU_ASSERT_PTR_NOT_NULL(strstr(out.data, "<div id=\"moving\" hidden=\"hidden\"></div>"));
    CU_ASSERT_PTR_NOT_NULL(strstr(out.data, "<section id=\"s1\" class=\"screen\""));
    CU_ASSERT_PTR_NOT_NULL(strstr(out.data, "@media print { .screen { display: none; } }"));
    CU_ASSERT_PTR_NULL(strstr(out.data, "src="));
    const char *const policy =
        strstr(out.data, "default-src 'none'; style-src 'unsafe-inline'; script-src 'sha256-");
    CU_ASSERT_PTR_NOT_NULL_FATAL(policy);
    /* 32 bytes are 44 digits. */
    CU_ASSERT_EQUAL(strcspn(strstr(policy, "sha256-") + 7, "'"), 44);
    /* A report without that part has no script. */
    ss_text_destroy(&out);
    p.report.count = 2;
    CHECK_OK(ss_write_html(&p.report, &out, &error), &error);
    CU_ASSERT_PTR_NULL(strstr(out.data, "<script"));
    ss_text_destroy(&out);
    free_page(&p);
}

static void test_no_memory(void) {
    moving_page p;
    ss_error error = {0};
    ss_status status = SS_ERROR_MEMORY;
    long n = 0;
    make_page(&p);
    const long live = ss_memory_live();
    for (; n < 5000 && status == SS_ERROR_MEMORY; n++) {
        ss_text out = {0};
        ss_memory_fail_from(n);
        status = ss_write_html(&p.report, &out, &error);
        ss_memory_fail_from(-1);
        ss_text_destroy(&out);
        CU_ASSERT_EQUAL(ss_memory_live(), live);
    }
    CHECK_OK(status, &error);
    CU_ASSERT_TRUE(n > 5);
    free_page(&p);
}

int main(void) {
    static const test_case cases[] = {
        {"base 64", test_base64}, {"data", test_data}, {"page", test_page}, {"no memory", test_no_memory}};
    return RUN_SUITE("write_moving", cases);
}
