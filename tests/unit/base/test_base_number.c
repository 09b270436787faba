/* test_base_number.c - reading and writing decimal numbers. */
#include <float.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/numeric.h"
#include "sillspan/text.h"
#include "support/random.h"
#include "support/suite.h"

static void test_reads_what_a_number_is(void) {
    static const struct {
        const char *text;
        double value;
        int length;
    } rows[] = {
        {"12", 12.0, 2},
        {"-0.5", -0.5, 4},
        {".5", 0.5, 2},
        {"1e-3", 1e-3, 4},
        {"+7.25E+2kip", 725.0, 8},
        {"5.", 5.0, 2},
        {"2.385e", 2.385, 5},
        {"2.385e+", 2.385, 5},
        {"3-1/2", 3.0, 1},
        {"1,5", 1.0, 1},
        {"1.2.3", 1.2, 3},
        {"0x10", 0.0, 1},
        {"00012.5000", 12.5, 10},
        {"0.000e99999", 0.0, 11},
        {"1e99999999999999999999999999", SS_INFINITY, 28},
        {"-1e400", -SS_INFINITY, 6},
        {"1e-99999999999999999999999999", 0.0, 29},
        {"inf", 0.0, 0},
        {"nan", 0.0, 0},
        {"infinity", 0.0, 0},
        {"-", 0.0, 0},
        {".", 0.0, 0},
        {"-.e5", 0.0, 0},
        {"e5", 0.0, 0},
        {" 5", 0.0, 0},
        {"", 0.0, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *end = NULL;
        const double value = ss_text_number(rows[i].text, &end);
        CHECK_ROW(value == rows[i].value, rows[i].text);
        CHECK_ROW(end == rows[i].text + rows[i].length, rows[i].text);
        CHECK_ROW(ss_text_number(rows[i].text, NULL) == rows[i].value, rows[i].text);
    }
    CU_ASSERT_TRUE(signbit(ss_text_number("-0", NULL)));
}

/* Cases on and beside the middle between two doubles; IEEE 754: to nearest, ties to even. */
static void test_reading_is_correctly_rounded(void) {
    CU_ASSERT_EQUAL(ss_text_number("9007199254740993", NULL), 9007199254740992.0);
    CU_ASSERT_EQUAL(ss_text_number("9007199254740995", NULL), 9007199254740996.0);
    CU_ASSERT_EQUAL(ss_text_number("2.4703282292062327e-324", NULL), 0.0);
    CU_ASSERT_EQUAL(ss_text_number("2.4703282292062328e-324", NULL), 0x1p-1074);
    CU_ASSERT_EQUAL(ss_text_number("1.7976931348623158e308", NULL), 0x1.fffffffffffffp1023);
    CU_ASSERT_EQUAL(ss_text_number("1.7976931348623159e308", NULL), SS_INFINITY);
    /* A digit far behind the middle still lifts the result. */
    char text[2100] = "9007199254740993.";
    memset(text + 17, '0', 2000);
    text[2017] = '\0';
    CU_ASSERT_EQUAL(ss_text_number(text, NULL), 9007199254740992.0);
    text[2016] = '1';
    CU_ASSERT_EQUAL(ss_text_number(text, NULL), 9007199254740994.0);
    /* Thousands of digits before the point, taken back by the exponent. */
    memset(text, '7', 2000);
    memcpy(text + 2000, "e-2000", 7);
    CU_ASSERT_EQUAL(ss_text_number(text, NULL), 0.77777777777777777778);
    memset(text, '0', 2000);
    memcpy(text, "0.", 2);
    memcpy(text + 2000, "2385e2002", 10);
    CU_ASSERT_EQUAL(ss_text_number(text, NULL), 2385.0);
}

#if LDBL_MANT_DIG >= 64 && LDBL_MIN_EXP < -1100
/* The middle between two doubles with the most digits there can be, 767: it ties upward, to the even one. */
static void test_longest_tie(void) {
    char text[1200];
    snprintf(text, sizeof text, "%.1080Lf", ldexpl(0x1p54L - 1.0L, -1075));
    CU_ASSERT_EQUAL(ss_text_number(text, NULL), 0x1p-1021);
    char *last = text + strlen(text) - 1;
    while (*last == '0') {
        last--;
    }
    (*last)--;
    CU_ASSERT_EQUAL(ss_text_number(text, NULL), 0x1.fffffffffffffp-1022);
}
#endif

static void test_random_doubles_come_back(void) {
    uint64_t state = 4711;
    int tried = 0;
    for (int i = 0; i < 20000; i++) {
        const uint64_t bits = next_random(&state);
        double value = 0.0;
        memcpy(&value, &bits, sizeof value);
        if (!isfinite(value)) {
            continue;
        }
        char text[64];
        /* The C locale holds here, so the C library is an independent reader and writer. */
        snprintf(text, sizeof text, "%.17g", value);
        const char *end = NULL;
        const double back = ss_text_number(text, &end);
        CHECK_ROW(back == value && *end == '\0', text);
        snprintf(text, sizeof text, "%.11e", value);
        CHECK_ROW(ss_text_number(text, NULL) == strtod(text, NULL), text);
        ss_text_significant(text, sizeof text, value, 17);
        CHECK_ROW(ss_text_number(text, NULL) == value, text);
        tried++;
    }
    CU_ASSERT_TRUE(tried > 19000);
}

static void test_significant_digits(void) {
    static const struct {
        double value;
        int digits;
        const char *text;
    } rows[] = {
        {0.0, 4, "0"},
        {-0.0, 4, "0"},
        {36.0, 3, "36"},
        {123456.0, 3, "123000"},
        {2.3850, 17, "2.3849999999999998"},
        {2.385, 3, "2.38"},
        {2.3851, 3, "2.39"},
        {-0.00123456, 3, "-0.00123"},
        {0.0001, 3, "0.0001"},
        {0.000099, 3, "9.9e-5"},
        {9999999.0, 7, "9999999"},
        {9999999.6, 7, "1e7"},
        {1.25e7, 5, "1.25e7"},
        {29000000.0, 4, "2.9e7"},
        {0.99996, 4, "1"},
        {99.96, 3, "100"},
        {0.1, 17, "0.10000000000000001"},
        {5.0, 0, "5"},
        {-1e-310, 2, "-1e-310"},
        {1.7976931348623157e308, 17, "1.7976931348623157e308"},
        {SS_INFINITY, 3, "infinite"},
        {-SS_INFINITY, 3, "-infinite"},
        {SS_NAN, 3, "not a number"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char text[64];
        const char *result = ss_text_significant(text, sizeof text, rows[i].value, rows[i].digits);
        CU_ASSERT_PTR_EQUAL(result, text);
        CHECK_ROW(strcmp(text, rows[i].text) == 0, rows[i].text);
    }
}

static void test_decimals(void) {
    static const struct {
        double value;
        int decimals;
        const char *text;
    } rows[] = {
        {0.0, 2, "0.00"},
        {-0.004, 2, "0.00"},
        {-0.006, 2, "-0.01"},
        {417.0, 0, "417"},
        {1.5, -3, "2"},
        {2.5, 0, "2"}, /* exactly half way: to even */
        {1234567.891, 2, "1234567.89"},
        {-12.3456, 3, "-12.346"},
        {SS_INFINITY, 1, "infinite"},
        {SS_NAN, 1, "not a number"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char text[64];
        ss_text_decimals(text, sizeof text, rows[i].value, rows[i].decimals);
        CHECK_ROW(strcmp(text, rows[i].text) == 0, rows[i].text);
    }
    char large[512];
    ss_text_decimals(large, sizeof large, -1.7976931348623157e308, 30);
    CU_ASSERT_EQUAL(strlen(large), 1 + 309 + 1 + 30);
    CU_ASSERT_EQUAL(ss_text_number(large, NULL), -1.7976931348623157e308);
}

static void test_part_of_a_number_is_never_shown(void) {
    char text[6];
    CU_ASSERT_STRING_EQUAL(ss_text_decimals(text, sizeof text, 12345.6, 1), "#####");
    CU_ASSERT_STRING_EQUAL(ss_text_significant(text, sizeof text, 123.456, 6), "#####");
    CU_ASSERT_STRING_EQUAL(ss_text_significant(text, sizeof text, 123.4, 4), "123.4");
    CU_ASSERT_STRING_EQUAL(ss_text_significant(text, 1, 123.4, 4), "");
    text[0] = 'q';
    CU_ASSERT_PTR_EQUAL(ss_text_significant(text, 0, 123.4, 4), text);
    CU_ASSERT_EQUAL(text[0], 'q');
}

int main(void) {
    const test_case cases[] = {
        {"reads what a number is", test_reads_what_a_number_is},
        {"reading is correctly rounded", test_reading_is_correctly_rounded},
#if LDBL_MANT_DIG >= 64 && LDBL_MIN_EXP < -1100
        {"longest tie", test_longest_tie},
#endif
        {"random doubles come back", test_random_doubles_come_back},
        {"significant digits", test_significant_digits},
        {"decimals", test_decimals},
        {"part of a number is never shown", test_part_of_a_number_is_never_shown},
    };
    return RUN_SUITE("base/number", cases);
}
