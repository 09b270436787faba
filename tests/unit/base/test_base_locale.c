/* test_base_locale.c - a locale with a decimal comma changes no number. */
#include <stdlib.h>
#include <string.h>

#include "sillspan/text.h"
#include "sillspan/units.h"
#include "support/comma_locale.h"
#include "support/suite.h"

static void test_numbers_are_the_same(void) {
    char text[64];
    snprintf(text, sizeof text, "%.2f", 1.5);
    CU_ASSERT_STRING_EQUAL(text, "1,50"); /* the locale is really on */
    const char *end = NULL;
    CU_ASSERT_EQUAL(ss_text_number("1234.5e-1 kip", &end), 123.45);
    CU_ASSERT_STRING_EQUAL(end, " kip");
    CU_ASSERT_EQUAL(ss_text_number("1,5", &end), 1.0);
    CU_ASSERT_STRING_EQUAL(ss_text_significant(text, sizeof text, -1234.567, 6), "-1234.57");
    CU_ASSERT_STRING_EQUAL(ss_text_significant(text, sizeof text, 1.25e-7, 6), "1.25e-7");
    CU_ASSERT_STRING_EQUAL(ss_text_decimals(text, sizeof text, -1234567.896, 2), "-1234567.90");
}

static void test_quantities_are_the_same(void) {
    double values[3];
    int count = 0;
    CU_ASSERT_EQUAL(ss_units_parse("0.75, 1.5, 13.25 m", SS_DIM_LENGTH, values, 3, &count, NULL), SS_OK);
    CU_ASSERT_EQUAL(count, 3);
    CU_ASSERT_EQUAL(values[0], 0.75);
    CU_ASSERT_EQUAL(values[2], 13.25);
    char text[64];
    CU_ASSERT_STRING_EQUAL(ss_units_format(text, sizeof text, 13.256, SS_DIM_LENGTH, SS_UNITS_SI, 4),
                           "13.26 m");
}

int main(void) {
    if (!enter_comma_locale()) {
        return 0;
    }
    const test_case cases[] = {
        {"numbers are the same", test_numbers_are_the_same},
        {"quantities are the same", test_quantities_are_the_same},
    };
    return RUN_SUITE("base/locale", cases);
}
