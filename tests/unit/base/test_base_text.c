/* test_base_text.c - growing text, harmless text, and the nearest word. */
#include <string.h>

#include "sillspan/memory.h"
#include "sillspan/text.h"
#include "support/random.h"
#include "support/suite.h"

static void test_text_grows(void) {
    ss_text text = {0};
    ss_text_add(&text, "");
    CU_ASSERT_STRING_EQUAL(text.data, "");
    ss_text_add(&text, "sill ");
    ss_text_add_bytes(&text, "girder", 4);
    ss_text_printf(&text, " %d/%s", 417, "x");
    ss_text_repeat(&text, "=-", 3);
    ss_text_repeat(&text, "never", 0);
    ss_text_repeat(&text, "never", -4);
    CU_ASSERT_STRING_EQUAL(text.data, "sill gird 417/x=-=-=-");
    CU_ASSERT_EQUAL(text.length, 21);
    ss_text_printf(&text, "%*d", 5000, 9);
    CU_ASSERT_EQUAL(text.length, 5021);
    CU_ASSERT_EQUAL(text.data[5020], '9');
    CU_ASSERT_EQUAL(text.data[5021], '\0');
    CU_ASSERT_FALSE(text.failed);
    ss_text_destroy(&text);
    ss_text_destroy(&text);
    ss_text_destroy(NULL);
}

static void test_failure_stays_and_keeps_what_was_there(void) {
    const long before = ss_memory_live();
    for (long n = 0; n < 3; n++) {
        ss_text text = {0};
        ss_memory_fail_from(n);
        ss_text_add(&text, "twelve bytes");
        ss_text_repeat(&text, "0123456789", 9);
        ss_text_printf(&text, "%*d", 900, 1);
        ss_memory_fail_from(-1);
        ss_text_add_plain(&text, "more");
        CU_ASSERT_TRUE(text.failed);
        if (n > 0) {
            CU_ASSERT_EQUAL(strncmp(text.data, "twelve bytes", 12), 0);
            CU_ASSERT_EQUAL(strlen(text.data), text.length);
        } else {
            CU_ASSERT_PTR_NULL(text.data);
        }
        ss_text_destroy(&text);
        CU_ASSERT_EQUAL(ss_memory_live(), before);
    }
}

static void test_plain_text_cannot_steer_a_terminal(void) {
    static const char *const rows[][2] = {
        {"Alder Branch", "Alder Branch"},
        {"M\xC3\xBChle \xE6\xA9\x8B \xF0\x9F\x8C\x89", "M\xC3\xBChle \xE6\xA9\x8B \xF0\x9F\x8C\x89"},
        {"a\tb\nc\rd", "a b c d"},
        {"\x1B[31mred\x07\x7F", "?[31mred??"},
        {"\xC2\x9B"
         "31m",
         "?31m"}, /* the one-character form of ESC [ */
        {"abc\xE2\x80\xAE"
         "cba\xE2\x81\xA6",
         "abc?cba?"},                                      /* right-to-left override, isolate */
        {"x\xE2\x80\xA8y\xEF\xBB\xBFz", "x?y?z"},          /* line separator, byte order mark */
        {"\x80 \xC3 \xC0\xAF \xED\xA0\x80", "? ? ?? ???"}, /* stray, cut short, overlong, surrogate */
        {"\xF4\x90\x80\x80\xF8", "?????"},                 /* beyond the last character; no lead byte */
        {"\xE2\x82", "??"},                                /* ends inside a character */
        {"", ""},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        ss_text text = {0};
        ss_text_add(&text, "");
        ss_text_add_plain(&text, rows[i][0]);
        CHECK_ROW(strcmp(text.data, rows[i][1]) == 0, rows[i][1]);
        ss_text_destroy(&text);
    }
}

static void test_plain_text_of_any_bytes_is_plain_again(void) {
    uint64_t state = 918273;
    for (int i = 0; i < 3000; i++) {
        char bytes[24] = {0};
        for (int j = 0; j < 23; j++) {
            bytes[j] = (char)(unsigned char)(next_random(&state) >> 56);
        }
        ss_text once = {0};
        ss_text twice = {0};
        ss_text_add(&once, "");
        ss_text_add(&twice, "");
        ss_text_add_plain(&once, bytes);
        ss_text_add_plain(&twice, once.data);
        CU_ASSERT_STRING_EQUAL(once.data, twice.data);
        ss_text_destroy(&once);
        ss_text_destroy(&twice);
    }
}

static void test_width_counts_characters(void) {
    CU_ASSERT_EQUAL(ss_text_width(""), 0);
    CU_ASSERT_EQUAL(ss_text_width("sill 26"), 7);
    CU_ASSERT_EQUAL(ss_text_width("kN\xC2\xB7m\xC2\xB2"), 5);
}

static void test_nearest_word(void) {
    static const char *const words[] = {"bearings", "bearing", "surfacing", "roadway",
                                        "rails",    "deck",    "kip",       "m"};
    static const char *const rows[][2] = {
        {"bearinsg", "bearings"}, /* a swap is one edit; "bearing" is one too, and later */
        {"bearingz", "bearings"},
        {"BEARING", "bearing"},
        {"surfcing", "surfacing"},
        {"raodwya", "roadway"},
        {"rial", NULL},
        {"railz", "rails"},
        {"dekc", "deck"},
        {"dcke", NULL},
        {"kp", "kip"},
        {"mm", NULL},
        {"abutment", NULL},
        {"", NULL},
        {"urfacingxyz", NULL},
        {"srfacinxg", "surfacing"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *nearest = ss_text_nearest(rows[i][0], words, 8);
        const char *expected = rows[i][1];
        const int same =
            nearest == expected || (nearest != NULL && expected != NULL && strcmp(nearest, expected) == 0);
        CHECK_ROW(same, rows[i][0]);
    }
    CU_ASSERT_PTR_NULL(ss_text_nearest("deck", words, 0));
    static const char *const equals[] = {"post", "curb", "curl", "cure"};
    CU_ASSERT_STRING_EQUAL(ss_text_nearest("curs", equals, 4), "curb");
    char longest[300];
    memset(longest, 'b', sizeof longest - 1);
    longest[299] = '\0';
    const char *long_words[] = {longest, "deck"};
    CU_ASSERT_PTR_NULL(ss_text_nearest(longest, long_words, 2));
    CU_ASSERT_STRING_EQUAL(ss_text_nearest("decl", long_words, 2), "deck");
}

static void test_same_letters(void) {
    CU_ASSERT_TRUE(ss_text_same("HL-93", "hl-93"));
    CU_ASSERT_FALSE(ss_text_same("HL-93", "HL-9"));
    CU_ASSERT_FALSE(ss_text_same("", "x"));
    CU_ASSERT_TRUE(ss_text_same("", ""));
    CU_ASSERT_FALSE(ss_text_same("[", "{"));
}

int main(void) {
    const test_case cases[] = {
        {"text grows", test_text_grows},
        {"a failure stays and keeps what was there", test_failure_stays_and_keeps_what_was_there},
        {"plain text cannot steer a terminal", test_plain_text_cannot_steer_a_terminal},
        {"plain text of any bytes is plain again", test_plain_text_of_any_bytes_is_plain_again},
        {"width counts characters", test_width_counts_characters},
        {"nearest word", test_nearest_word},
        {"same letters", test_same_letters},
    };
    return RUN_SUITE("base/text", cases);
}
