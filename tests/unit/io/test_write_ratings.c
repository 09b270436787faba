/* test_write_ratings.c - the report of a rating made by hand: what it says, to people and to programs. */
#include <jansson.h>

#include "csv_reader.h"
#include "rated_results.h"
#include "sillspan/memory.h"
#include "sillspan/text.h"
#include "sillspan/write.h"

static rated_results r;

/* The report as text, all blanks and line breaks in a row made one blank. The caller destroys it. */
static ss_text flowing(ss_unit_system units, int *widest) {
    ss_report report;
    ss_text text = {0};
    ss_text flat = {0};
    ss_error error = {0};
    CHECK_OK(ss_report_build(&r.results, units, &report, &error), &error);
    CHECK_OK(ss_write_text(&report, (ss_text_style){.width = 100}, &text, &error), &error);
    int width = 0;
    *widest = 0;
    for (const char *at = text.data; *at != '\0'; at++) {
        const bool blank = *at == ' ' || *at == '\n';
        width = *at == '\n' ? 0 : width + 1;
        *widest = width > *widest ? width : *widest;
        if (!blank || (flat.length > 0 && flat.data[flat.length - 1] != ' ')) {
            ss_text_add_bytes(&flat, blank ? " " : at, 1);
        }
    }
    ss_text_destroy(&text);
    ss_report_destroy(&report);
    return flat;
}

static void check_says(const ss_text *text, const char *words, bool expected) {
    CHECK_ROW((strstr(text->data, words) != NULL) == expected, words);
}

static void test_answer(void) {
    int widest = 0;
    CU_ASSERT_TRUE_FATAL(rated_start(&r));
    ss_text text = flowing(SS_UNITS_US, &widest);
    CU_ASSERT_TRUE(widest <= 100);
    /* (38.2 - 3.1) / (1.3 x 1.2 x 1.33 x 36.9 x 1.31) = 0.34997, cut off; restrictions do not govern. */
    check_says(&text,
               "fire engine beside milk hauler governs: the line of car north carries 0.34 of them, in "
               "bending at 20.7 ft (LRFR emergency, Strength I).",
               true);
    /* 3.1 / 38.2 is 8 %, 1.3 x 1.2 x 1.33 x 36.9 x 1.31 / 38.2 is 263 %. */
    check_says(&text, "of the 28.17 kip-ft that the section can carry there, dead load takes 8 %", true);
    check_says(&text, "take 263 %", true);
    check_says(
        &text,
        "moving one truck after the other until none made it worse. Another arrangement may be worse still.",
        true);
    check_says(&text,
               "milk hauler stands so: going backward, its front axle at 19.3 ft and its middle 13.5 ft",
               true);
    check_says(
        &text,
        "Too heavy, below 1.00: milk hauler (0.88); fire engine (0.45); fire engine beside milk hauler "
        "(0.34); milk hauler, 2 abreast (0.55).",
        true);
    check_says(&text,
               "LRFR 0.34 for fire engine beside milk hauler, LFR 0.51 for fire engine beside milk "
               "hauler and ASR 0.37",
               true);
    check_says(&text, "fire engine to the middle of the roadway, alone 0.61 0.34", true);
    check_says(&text, "to the signed line, its middle 7.7 ft", true);
    check_says(&text, "Braking and centrifugal forces, wind", true);
    check_says(&text, "manual's sequence", false);
    /* 28.8 / 0.7 x (0.34997 - 0.3) tons, of which the heavier axle has 149 / 256. */
    check_says(&text, "fire engine beside milk hauler 0.34 28.8 2.1 axle 16.7 1.2 emergency vehicles", true);
    check_says(&text, "Post: all trucks 8 tons; emergency vehicles: single axle 1 ton, gross 2 tons.", true);
    ss_text_destroy(&text);
    rated_end(&r);
}

static void test_worked(void) {
    int widest = 0;
    CU_ASSERT_TRUE_FATAL(rated_start(&r));
    ss_text text = flowing(SS_UNITS_SI, &widest);
    CU_ASSERT_TRUE(widest <= 100);
    check_says(&text,
               "Strength 46.024 kN m times resistance factor 1 Condition factor 0.95 System factor 0.85",
               true);
    check_says(&text, "gives what it can carry 38.2 kN m Dead load, factored 3.1 kN m", true);
    check_says(&text, "leaves for live load 35.1 kN m Live load 48.339 kN m", true);
    check_says(&text, "times multiple presence 1.2 which is one lane", true);
    check_says(&text, "gives live load, factored 100.29 kN m Factor 0.349", true);
    /* By a method without condition and system factors their lines are missing. */
    check_says(&text, "Strength 53.012 kN m times what this check allows of it 0.83 gives", true);
    /* 12.1 mm x 1.33 x 0.52 against 10.75 mm. */
    check_says(&text, "milk hauler 8.4 10.7 8.6 m / 800 1.28", true);
    ss_text_destroy(&text);
    rated_end(&r);
}

/* Where the bridge carries the design load, only emergency vehicles are looked at. */
static void test_sequence(void) {
    int widest = 0;
    CU_ASSERT_TRUE_FATAL(rated_start(&r));
    r.made.bridge.rating.manual_sequence = true;
    r.made.bridge.vehicles[0].kind = SS_VEHICLE_BUS;
    ss_text text = flowing(SS_UNITS_US, &widest);
    check_says(&text, "the design load was not rated, so that every truck counts", true);
    check_says(&text, "not asked for", false);
    ss_text_destroy(&text);
    r.rated.checks[LFR_INVENTORY].method = SS_METHOD_LRFR;
    for (int i = 0; i < r.rated.count; i++) {
        r.items[i].rf = r.items[i].check == LFR_INVENTORY ? 1.417 : r.items[i].rf;
    }
    text = flowing(SS_UNITS_US, &widest);
    check_says(&text, "1.41 at inventory, not rated at operating level. That leaves out 2 crossings", true);
    check_says(&text, "milk hauler (not asked 0.88 1.41", true);
    check_says(&text, "Too heavy, below 1.00: fire engine (0.45); fire engine beside milk hauler (0.34).",
               true);
    ss_text_destroy(&text);
    /* A design load that falls short lets all of them count. */
    for (int i = 0; i < r.rated.count; i++) {
        r.items[i].rf = r.items[i].check == LFR_INVENTORY ? 0.917 : r.items[i].rf;
    }
    text = flowing(SS_UNITS_US, &widest);
    check_says(&text, "It falls short, so that all legal loads count.", true);
    check_says(&text, "Too heavy, below 1.00: milk hauler (0.88); fire engine (0.45);", true);
    ss_text_destroy(&text);
    rated_end(&r);
}

static void test_bare(void) {
    int widest = 0;
    CU_ASSERT_TRUE_FATAL(rated_start(&r));
    r.rated.count = 0;
    for (int i = 0; i < RATED_CHECKS * RATED_TRAFFIC; i++) {
        r.governing[i] = -1;
    }
    for (int c = 0; c < RATED_CHECKS; c++) {
        r.worst[c] = -1;
    }
    ss_text text = flowing(SS_UNITS_US, &widest);
    check_says(&text, "Nothing could be rated", true);
    ss_text_destroy(&text);
    rated_end(&r);
}

static void test_limits(void) {
    int widest = 0;
    CU_ASSERT_TRUE_FATAL(rated_start(&r));
    const int governing = ss_ratings_governing(&r.rated, EMERGENCY, ENGINE_BESIDE);
    r.items[governing].tips = true;
    ss_text text = flowing(SS_UNITS_US, &widest);
    check_says(&text,
               "at 0.34 of them the bridge tips off its bearings, before the line of car north is full",
               true);
    check_says(&text, "the bearings tipping", true);
    ss_text_destroy(&text);
    r.items[governing].tips = false;
    r.items[governing].rf = 0.0;
    text = flowing(SS_UNITS_US, &widest);
    check_says(&text, "cannot carry the dead load itself in bending at 20.7 ft", true);
    ss_text_destroy(&text);
    for (int i = 0; i < r.rated.count; i++) {
        r.items[i].rf = r.items[i].rf_linear = r.items[i].tons = (double)INFINITY;
        r.items[i].live = 0.0;
        r.items[i].position[0].track = -1;
    }
    text = flowing(SS_UNITS_US, &widest);
    check_says(&text, "No truck asked for brings any rated member to its capacity.", true);
    ss_text_destroy(&text);
    rated_end(&r);
}

/* Deflection, inventory level and restrictions are not required of a bridge. */
static void test_requirement(void) {
    CU_ASSERT_TRUE_FATAL(rated_start(&r));
    r.results.require = 0.30;
    CU_ASSERT_TRUE(ss_report_requirement_met(&r.results));
    r.results.require = 0.36;
    CU_ASSERT_FALSE(ss_report_requirement_met(&r.results));
    for (int i = 0; i < r.rated.count; i++) {
        const bool apart = r.items[i].check == DEFLECTION || r.items[i].check == LFR_INVENTORY ||
                           r.items[i].traffic >= ENGINE_CENTRED;
        r.items[i].rf = apart ? 0.17 : 1.21;
    }
    r.results.require = 1.21;
    CU_ASSERT_TRUE(ss_report_requirement_met(&r.results));
    r.items[0].rf = (double)NAN;
    CU_ASSERT_FALSE(ss_report_requirement_met(&r.results));
    rated_end(&r);
}

static void test_json(void) {
    ss_report report;
    ss_text out = {0};
    CU_ASSERT_TRUE_FATAL(rated_start(&r));
    CU_ASSERT_EQUAL_FATAL(ss_report_build(&r.results, SS_UNITS_SI, &report, NULL), SS_OK);
    CU_ASSERT_EQUAL_FATAL(ss_write_json(&report, &out, NULL), SS_OK);
    json_t *root = json_loads(out.data, JSON_REJECT_DUPLICATES, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(root);
    const json_t *ratings = json_object_get(root, "ratings");
    CU_ASSERT_EQUAL((int)json_array_size(ratings), r.rated.count);
    const json_t *controlling = json_object_get(root, "controlling");
    CHECK_CLOSE(json_number_value(json_object_get(controlling, "rf")),
                35.1 / (1.3 * 1.2 * 1.33 * 36.9 * 1.31), 1e-9);
    CU_ASSERT_STRING_EQUAL(json_string_value(json_object_get(controlling, "crossing")), "beside");
    CU_ASSERT_STRING_EQUAL(json_string_value(json_object_get(controlling, "beside")), "milk hauler");
    CU_ASSERT_TRUE(json_is_true(json_object_get(controlling, "local")));
    /* One row for each check and crossing, and the row of `ratings` that it is. */
    const json_t *governing = json_object_get(root, "governing");
    CU_ASSERT_EQUAL(json_array_size(governing), 6 + 3 * 6 + 6);
    for (size_t i = 0; i < json_array_size(governing); i++) {
        const json_t *row = json_array_get(governing, i);
        const json_t *rating =
            json_array_get(ratings, (size_t)json_integer_value(json_object_get(row, "rating")));
        CU_ASSERT_EQUAL(json_number_value(json_object_get(row, "rf")),
                        json_number_value(json_object_get(rating, "rf")));
        CU_ASSERT_STRING_EQUAL(json_string_value(json_object_get(row, "check")),
                               json_string_value(json_object_get(rating, "check")));
    }
    /* Two trucks for each of the eleven factors of both crossings with trucks abreast. */
    CU_ASSERT_EQUAL(json_array_size(json_object_get(root, "abreast")), 2 * 2 * 11);
    json_decref(root);
    ss_text_destroy(&out);
    ss_report_destroy(&report);
    rated_end(&r);
}

/* Leaving out what is for programs alone changes nothing that people see. */
static void test_text_only(void) {
    int widest = 0;
    CU_ASSERT_TRUE_FATAL(rated_start(&r));
    ss_text whole = flowing(SS_UNITS_US, &widest);
    r.results.text_only = true;
    ss_text short_one = flowing(SS_UNITS_US, &widest);
    CU_ASSERT_STRING_EQUAL(short_one.data, whole.data);
    ss_report report;
    const char *names[64];
    CU_ASSERT_EQUAL_FATAL(ss_report_build(&r.results, SS_UNITS_US, &report, NULL), SS_OK);
    const int count = ss_write_csv_tables(&report, names, 64);
    for (int i = 0; i < count && i < 64; i++) {
        CHECK_ROW(strcmp(names[i], "ratings") != 0 && strcmp(names[i], "governing") != 0, names[i]);
    }
    ss_report_destroy(&report);
    ss_text_destroy(&whole);
    ss_text_destroy(&short_one);
    rated_end(&r);
}

static void test_csv(void) {
    ss_report report;
    ss_text out = {0};
    CU_ASSERT_TRUE_FATAL(rated_start(&r));
    CU_ASSERT_EQUAL_FATAL(ss_report_build(&r.results, SS_UNITS_SI, &report, NULL), SS_OK);
    CU_ASSERT_EQUAL_FATAL(ss_write_csv(&report, "ratings", &out, NULL), SS_OK);
    csv_file file;
    csv_open(&file, out.data);
    CU_ASSERT_PTR_NULL(file.fault);
    CU_ASSERT_EQUAL(file.records, r.rated.count + 1);
    for (int i = 0; i < csv_width(&file, 0); i++) {
        if (strcmp(csv_field(&file, 0, i), "terms.capacity") == 0) {
            CU_ASSERT_STRING_EQUAL(csv_field(&file, 1, i), "38.2");
            CU_ASSERT_STRING_EQUAL(csv_field(&file, 1, i + 1), "kN m");
            CU_ASSERT_STRING_EQUAL(csv_field(&file, 0, i + 1), "terms.capacity_unit");
        }
    }
    csv_close(&file);
    ss_text_destroy(&out);
    ss_report_destroy(&report);
    rated_end(&r);
}

static void test_every_allocation_may_fail(void) {
    CU_ASSERT_TRUE_FATAL(rated_start(&r));
    const long before = ss_memory_live();
    bool passed = false;
    for (long n = 0; n < 3000 && !passed; n++) {
        ss_report report;
        ss_error error = {0};
        ss_memory_fail_from(n);
        const ss_status status = ss_report_build(&r.results, SS_UNITS_US, &report, &error);
        ss_memory_fail_from(-1);
        CU_ASSERT_TRUE(status == SS_OK || status == SS_ERROR_MEMORY);
        passed = status == SS_OK;
        ss_report_destroy(&report);
        CU_ASSERT_EQUAL(ss_memory_live(), before);
    }
    CU_ASSERT_TRUE(passed);
    rated_end(&r);
}

int main(void) {
    static const test_case cases[] = {
        {"the answer", test_answer},
        {"worked by hand", test_worked},
        {"the manual's sequence", test_sequence},
        {"nothing rated", test_bare},
        {"tipping, too much dead load, no limit", test_limits},
        {"requirement", test_requirement},
        {"JSON", test_json},
        {"CSV", test_csv},
        {"for people alone", test_text_only},
        {"every allocation may fail", test_every_allocation_may_fail},
    };
    return RUN_SUITE("report of ratings", cases);
}
