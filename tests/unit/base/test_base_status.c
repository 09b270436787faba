/* test_base_status.c - words for status values and the filling of errors. */
#include <string.h>

#include "sillspan/status.h"
#include "support/suite.h"

static void test_every_status_has_its_own_words(void) {
    const ss_status all[] = {
        SS_OK,          SS_ERROR_MEMORY,  SS_ERROR_DESCRIPTION, SS_ERROR_MECHANISM, SS_ERROR_TIPPING,
        SS_ERROR_CHECK, SS_ERROR_NUMERIC, SS_ERROR_FILE,        SS_ERROR_LIMIT,     SS_ERROR_INTERNAL};
    const int count = (int)(sizeof all / sizeof all[0]);
    const char *unknown = ss_status_text((ss_status)61);
    CU_ASSERT_STRING_EQUAL(unknown, "unknown status");
    for (int i = 0; i < count; i++) {
        CU_ASSERT_STRING_NOT_EQUAL(ss_status_text(all[i]), unknown);
        for (int j = 0; j < i; j++) {
            CU_ASSERT_STRING_NOT_EQUAL(ss_status_text(all[i]), ss_status_text(all[j]));
        }
    }
}

static void test_status_values_are_pinned(void) {
    CU_ASSERT_EQUAL(SS_OK, 0);
    CU_ASSERT_EQUAL(SS_ERROR_DESCRIPTION, 2);
    CU_ASSERT_EQUAL(SS_ERROR_TIPPING, 4);
    CU_ASSERT_EQUAL(SS_ERROR_LIMIT, 8);
    CU_ASSERT_EQUAL(SS_ERROR_INTERNAL, 70);
}

static void test_message_is_formatted(void) {
    ss_error error;
    const ss_status status =
        ss_error_set(&error, SS_ERROR_CHECK, "reactions sum to %d, loads to %d", 417, 423);
    CU_ASSERT_EQUAL(status, SS_ERROR_CHECK);
    CU_ASSERT_EQUAL(error.status, SS_ERROR_CHECK);
    CU_ASSERT_STRING_EQUAL(error.message, "reactions sum to 417, loads to 423");
    CU_ASSERT_EQUAL(ss_error_set(NULL, SS_ERROR_FILE, "%s", "nobody listens"), SS_ERROR_FILE);
}

static void test_message_can_be_built_around_the_old_one(void) {
    ss_error error;
    ss_error_set(&error, SS_ERROR_NUMERIC, "equation 17");
    ss_error_set(&error, SS_ERROR_MECHANISM, "car north: %s is not held", error.message);
    CU_ASSERT_STRING_EQUAL(error.message, "car north: equation 17 is not held");
}

static void test_long_message_is_cut_between_characters(void) {
    char text[600];
    memset(text, 'x', sizeof text);
    text[599] = '\0';
    /* A two-byte letter over the place of the cut: bytes 475 and 476 of 480 less "..." and the terminator. */
    text[475] = (char)0xC3;
    text[476] = (char)0xA9;
    ss_error error;
    ss_error_set(&error, SS_ERROR_FILE, "%s", text);
    CU_ASSERT_EQUAL(strlen(error.message), 478);
    CU_ASSERT_STRING_EQUAL(error.message + 475, "...");
    error.message[475] = '\0';
    CU_ASSERT_EQUAL(strspn(error.message, "x"), 475);
}

int main(void) {
    const test_case cases[] = {
        {"every status has its own words", test_every_status_has_its_own_words},
        {"status values are pinned", test_status_values_are_pinned},
        {"a message is formatted", test_message_is_formatted},
        {"a message can hold the old one", test_message_can_be_built_around_the_old_one},
        {"a long message is cut between characters", test_long_message_is_cut_between_characters},
    };
    return RUN_SUITE("base/status", cases);
}
