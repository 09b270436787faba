/* test_verification.c - runs every outside check; with `--write FILE` makes the page of them, with `--compare
 * FILE` compares it. */
#include <CUnit/Basic.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "sillspan/write.h"
#include "verification/document.h"

static const check_chapter *const chapters[] = {
    &chapter_beams,     &chapter_bearings,   &chapter_taper,    &chapter_sections,
    &chapter_grids,     &chapter_slabs,      &chapter_joints,   &chapter_contact,
    &chapter_trucks,    &chapter_vehicles,   &chapter_lanes,    &chapter_rating,
    &chapter_composite, &chapter_connectors, &chapter_symmetry, &chapter_sweep};

enum { CHAPTERS = sizeof chapters / sizeof chapters[0] };

static void complain(const check *c) {
    fprintf(stderr, "%s\n", c->title == NULL ? "?" : c->title);
    for (int i = 0; i < c->count; i++) {
        fprintf(stderr, "  expected %.12g, obtained %.12g, allowed difference %.3g\n", c->expected[i],
                c->obtained[i], check_allowed(c, i));
    }
}

/* Runs all checks into `page`; returns how many failed. */
static int run_all(ss_text *page, int *total) {
    int failed = 0;
    *total = 0;
    document_begin(page);
    for (int i = 0; i < CHAPTERS; i++) {
        document_chapter(page, chapters[i]->title);
        for (int j = 0; j < chapters[i]->count; j++) {
            check c = {0};
            const bool ran = chapters[i]->checks[j](&c);
            (*total)++;
            if (!ran || !check_passes(&c)) {
                complain(&c);
                failed++;
            }
            document_check(page, &c, *total);
        }
    }
    return failed;
}

/* Whether the file holds exactly `page`; tells the first line that differs. */
static bool same_as_file(const char *path, const char *page) {
    FILE *const file = fopen(path, "rb");
    if (file == NULL) {
        fprintf(stderr, "%s cannot be read\n", path);
        return false;
    }
    char line[4096];
    const char *rest = page;
    bool same = true;
    while (same && fgets(line, sizeof line, file) != NULL) {
        const size_t length = strlen(line);
        same = strncmp(rest, line, length) == 0;
        if (!same) {
            fprintf(stderr, "%s has:\n%snow it is:\n%.*s\n", path, line, (int)strcspn(rest, "\n"), rest);
        }
        rest += same ? length : 0;
    }
    fclose(file);
    if (same && *rest != '\0') {
        fprintf(stderr, "%s lacks what follows:\n%.*s\n", path, (int)strcspn(rest, "\n"), rest);
        same = false;
    }
    if (!same) {
        fprintf(stderr, "the target verification-docs writes the page anew\n");
    }
    return same;
}

/* CUnit tests take no arguments, so the page goes from the first to the second this way. */
static ss_text the_page;

/* A check that cannot fail would prove nothing. */
static void test_a_wrong_value_fails(void) {
    check c = {.title = "wrong", .tolerance = 1e-3, .relative = true};
    CU_ASSERT_FALSE(check_passes(&c));
    check_add(&c, 2.385, 2.386);
    CU_ASSERT_TRUE(check_passes(&c));
    check_add(&c, 0.0471, 0.0472);
    CU_ASSERT_FALSE(check_passes(&c));
    check missing = {.title = "not a number", .tolerance = 1e3};
    check_add(&missing, 2.385, (double)NAN);
    CU_ASSERT_FALSE(check_passes(&missing));
}

static void test_every_check_agrees(void) {
    int total = 0;
    CU_ASSERT_EQUAL(run_all(&the_page, &total), 0);
    CU_ASSERT_TRUE(total >= 60);
}

static void test_the_page_is_up_to_date(void) {
    CU_ASSERT_FALSE_FATAL(the_page.failed);
    CU_ASSERT_TRUE(same_as_file(SS_SOURCE_DIR "/docs/verification.md", the_page.data));
}

static int run_tests(void) {
    if (CU_initialize_registry() != CUE_SUCCESS) {
        return 70;
    }
    CU_pSuite suite = CU_add_suite("outside checks", NULL, NULL);
    if (suite == NULL || CU_ADD_TEST(suite, test_a_wrong_value_fails) == NULL ||
        CU_ADD_TEST(suite, test_every_check_agrees) == NULL ||
        CU_ADD_TEST(suite, test_the_page_is_up_to_date) == NULL) {
        CU_cleanup_registry();
        return 70;
    }
    CU_basic_set_mode(CU_BRM_VERBOSE);
    CU_basic_run_tests();
    const bool failed = CU_get_number_of_failures() > 0;
    CU_cleanup_registry();
    return failed ? 1 : 0;
}

static int write_page(const char *path) {
    int total = 0;
    ss_error error = {SS_OK, ""};
    const int failed = run_all(&the_page, &total);
    if (the_page.failed) {
        fprintf(stderr, "out of memory\n");
        return 1;
    }
    if (ss_write_file(path, the_page.data, the_page.length, &error) != SS_OK) {
        fprintf(stderr, "%s\n", error.message);
        return 1;
    }
    return failed > 0 ? 1 : 0;
}

int main(int argc, char **argv) {
    int result = 2;
    if (argc == 1) {
        result = run_tests();
    } else if (argc == 3 && strcmp(argv[1], "--write") == 0) {
        result = write_page(argv[2]);
    } else {
        fprintf(stderr, "usage: test_verification [--write FILE]\n");
    }
    ss_text_destroy(&the_page);
    return result;
}
