/* test_base_fields.c - fields of a line: what is written is read, and nothing else is taken for it. */
#include <string.h>

#include "base/fields.h"
#include "base/numeric.h"
#include "support/random.h"
#include "support/suite.h"

static void test_texts(void) {
    static const char *const texts[] = {"plain", "",   NULL,    "a\tb",     "line\nline\r", "\\",   "\\0",
                                        "\\e",   "\t", "end\\", "\303\251", "none",         " two "};
    ss_text line = {0};
    ss_arena arena = {0};
    for (int i = 0; i < ENTRIES(texts); i++) ss_fields_add(&line, texts[i]);
    CU_ASSERT_PTR_NULL(strpbrk(line.data, "\n\r"));
    ss_fields fields = {.at = line.data, .arena = &arena};
    for (int i = 0; i < ENTRIES(texts); i++) {
        const char *const text = ss_fields_text(&fields);
        CHECK_ROW((text == NULL) == (texts[i] == NULL), texts[i] == NULL ? "NULL" : texts[i]);
        CHECK_ROW(text == NULL || strcmp(text, texts[i]) == 0, text);
    }
    CU_ASSERT_TRUE(ss_fields_end(&fields));
    CU_ASSERT_PTR_NULL(ss_fields_text(&fields));
    CU_ASSERT_FALSE(ss_fields_end(&fields));
    ss_text_destroy(&line);
    ss_arena_destroy(&arena);
}

/* Every bit comes back, of numbers of all sizes. */
static void test_numbers(void) {
    double values[600] = {0.0,    -0.0,       SS_INFINITY, -SS_INFINITY, 1.0 / 3.0, 1e300 * 1e8,
                          5e-324, 1e-4 / 3.0, 9999999.5,   123456789.0,  0.1 + 0.2, 1.7976931348623157e308};
    ss_text line = {0};
    ss_arena arena = {0};
    uint64_t state = 11;
    for (int i = 12; i < ENTRIES(values); i++) {
        do {
            const uint64_t bits = next_random(&state);
            memcpy(&values[i], &bits, sizeof values[i]);
        } while (!isfinite(values[i]));
    }
    for (int i = 0; i < ENTRIES(values); i++) ss_fields_add_number(&line, values[i]);
    ss_fields_add_number(&line, SS_NAN);
    ss_fields_add_integer(&line, -7);
    ss_fields fields = {.at = line.data, .arena = &arena};
    for (int i = 0; i < ENTRIES(values); i++) {
        const double value = ss_fields_number(&fields);
        const double due = values[i] == 0.0 ? 0.0 : values[i]; /* the sign of zero is nobody's result */
        CU_ASSERT_EQUAL(memcmp(&value, &due, sizeof due), 0);
    }
    CU_ASSERT_TRUE(isnan(ss_fields_number(&fields)));
    CU_ASSERT_FALSE(fields.wrong);
    CU_ASSERT_EQUAL(ss_fields_integer(&fields, -7, 7), -7);
    CU_ASSERT_TRUE(ss_fields_end(&fields));
    ss_text_destroy(&line);
    ss_arena_destroy(&arena);
}

static void test_wrong(void) {
    static const char *const lines[] = {"", "\\", "\\x", "a\\", "1.5x", "2.5", "8", "-1", "\\0", "none"};
    ss_arena arena = {0};
    for (int i = 0; i < ENTRIES(lines); i++) {
        ss_fields fields = {.at = lines[i], .arena = &arena};
        CHECK_ROW(ss_fields_integer(&fields, 0, 7) == 0 && fields.wrong, lines[i]);
    }
    ss_fields number = {.at = "1.5 m", .arena = &arena};
    ss_fields_number(&number);
    CU_ASSERT_TRUE(number.wrong);
    ss_arena_destroy(&arena);
}

int main(void) {
    static const test_case cases[] = {
        {"texts", test_texts}, {"numbers", test_numbers}, {"wrong", test_wrong}};
    return RUN_SUITE("fields", cases);
}
