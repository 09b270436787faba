/* test_reader_broken.c - each description in tests/broken is answered with exactly the expected words. */
#define _POSIX_C_SOURCE 200809L

#include <stdlib.h>
#include <unistd.h>

#include "sillspan/reader.h"

#include "support/suite.h"
#include "unit/io/reader_samples.h"

static const char *const names[] = {
    "01-misspelt-keys",     "02-wrong-dimensions",
    "03-beyond-limits",     "04-missing-keys",
    "05-wrong-kinds",       "06-names",
    "07-numbers",           "08-quotes-and-commas",
    "09-brace-not-closed",  "10-includes",
    "11-text-not-closed",   "12-comma-too-many",
    "13-too-many-includes", "14-beyond-any-bridge",
    "15-own-trucks",        "16-rating-words",
    "17-deck-and-bearings", "18-joint-parts",
    "18-variants",          "19-slab",
};

static void load(const char *path, ss_text *out) {
    FILE *file = fopen(path, "rb");
    CU_ASSERT_PTR_NOT_NULL_FATAL(file);
    char block[4096];
    size_t got = 0;
    while ((got = fread(block, 1, sizeof block, file)) > 0) {
        ss_text_add_bytes(out, block, got);
    }
    fclose(file);
}

static void answer(const char *path, ss_text *out) {
    ss_description d;
    ss_diag_list diags = {0};
    ss_status status = ss_description_read(path, &d, &diags, NULL);
    CU_ASSERT_TRUE(status == SS_OK || status == SS_ERROR_DESCRIPTION);
    if (d.root != NULL) {
        status = ss_description_check(&d, &diags);
    }
    CU_ASSERT_EQUAL(status, SS_ERROR_DESCRIPTION);
    ss_diag_sort(&diags);
    say_all(&diags, out);
    ss_diag_destroy(&diags);
    ss_description_destroy(&d);
}

/* With SILLSPAN_WRITE_EXPECTED set the files are written anew, to be read over before they are kept. */
static void test_answers(void) {
    CU_ASSERT_EQUAL_FATAL(chdir(SS_SOURCE_DIR), 0);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        char path[128];
        ss_text said = {0};
        ss_text expected = {0};
        snprintf(path, sizeof path, "tests/broken/%s.cfg", names[i]);
        answer(path, &said);
        snprintf(path, sizeof path, "tests/broken/%s.expected", names[i]);
        if (getenv("SILLSPAN_WRITE_EXPECTED") != NULL) {
            FILE *file = fopen(path, "wb");
            CU_ASSERT_PTR_NOT_NULL_FATAL(file);
            fwrite(said.data, 1, said.length, file);
            fclose(file);
        }
        load(path, &expected);
        CHECK_ROW(said.data != NULL && expected.data != NULL && strcmp(said.data, expected.data) == 0,
                  said.data);
        ss_text_destroy(&said);
        ss_text_destroy(&expected);
    }
}

static void test_demo_is_sound(void) {
    ss_description d;
    ss_diag_list diags = {0};
    CU_ASSERT_EQUAL_FATAL(ss_description_read("models/bridges/alder-branch.cfg", &d, &diags, NULL), SS_OK);
    CU_ASSERT_EQUAL(ss_description_check(&d, &diags), SS_OK);
    CU_ASSERT_EQUAL(diags.count, 0);
    ss_diag_destroy(&diags);
    ss_description_destroy(&d);
}

static void test_places_in_includes(void) {
    ss_description d;
    ss_diag_list diags = {0};
    CU_ASSERT_EQUAL_FATAL(ss_description_read("tests/broken/parts/whole.cfg", &d, &diags, NULL), SS_OK);
    CU_ASSERT_EQUAL(ss_description_check(&d, &diags), SS_OK);
    const ss_node *steels = ss_node_child(d.root, "steels");
    const ss_node *units = ss_node_child(d.root, "units");
    const ss_node *bridge = ss_node_child(d.root, "bridge");
    CU_ASSERT_STRING_EQUAL(steels->where.file, "tests/broken/parts/steels.cfg");
    CU_ASSERT_EQUAL(steels->where.line, 2);
    CU_ASSERT_STRING_EQUAL(units->where.file, "tests/broken/parts/whole.cfg");
    CU_ASSERT_EQUAL(units->where.line, 6);
    CU_ASSERT_STRING_EQUAL(bridge->where.file, "tests/broken/parts/bridge.cfg");
    CU_ASSERT_EQUAL(ss_node_child(bridge, "joints")->where.line, 3);
    CU_ASSERT_EQUAL(ss_node_child(d.root, "notes")->where.line, 8);
    ss_diag_destroy(&diags);
    ss_description_destroy(&d);
}

/* Reading and checking `path` while the n-th allocation fails, for every n. */
static void exhaust(const char *path, ss_status last) {
    ss_status status = SS_ERROR_MEMORY;
    long n = 0;
    for (; n < 20000 && status == SS_ERROR_MEMORY; n++) {
        ss_description d;
        ss_diag_list diags = {0};
        ss_memory_fail_from(n);
        status = ss_description_read(path, &d, &diags, NULL);
        if (status != SS_ERROR_MEMORY && d.root != NULL) {
            status = ss_description_check(&d, &diags);
        }
        ss_memory_fail_from(-1);
        ss_diag_destroy(&diags);
        ss_description_destroy(&d);
        CU_ASSERT_EQUAL(ss_memory_live(), 0);
    }
    CU_ASSERT_EQUAL(status, last);
    CU_ASSERT_TRUE(n > 10);
}

static void test_memory_may_fail_anywhere(void) {
    exhaust("tests/broken/parts/whole.cfg", SS_OK);
    exhaust("tests/broken/06-names.cfg", SS_ERROR_DESCRIPTION);
    exhaust("tests/broken/08-quotes-and-commas.cfg", SS_ERROR_DESCRIPTION);
    exhaust("tests/broken/09-brace-not-closed.cfg", SS_ERROR_DESCRIPTION);
    exhaust("tests/broken/10-includes.cfg", SS_ERROR_DESCRIPTION);
    exhaust("tests/broken/12-comma-too-many.cfg", SS_ERROR_DESCRIPTION);
}

int main(void) {
    const test_case cases[] = {
        {"answers", test_answers},
        {"demo", test_demo_is_sound},
        {"places in includes", test_places_in_includes},
        {"memory", test_memory_may_fail_anywhere},
    };
    return RUN_SUITE("io/reader broken", cases);
}
