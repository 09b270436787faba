/* test_reader_locale.c - a locale with a decimal comma changes no number that is read. */
#include <stdio.h>

#include "sillspan/reader.h"

#include "support/comma_locale.h"
#include "support/suite.h"
#include "unit/io/reader_samples.h"

static void test_reals_are_the_same(void) {
    ss_description d;
    ss_text said = {0};
    char text[32];
    CU_ASSERT_EQUAL(
        read_words("rating = { system = 0.875; dc_factor = 12.5e-1; adtt = 99999999999; };", &d, &said),
        SS_OK);
    snprintf(text, sizeof text, "%.1f", 2.5);
    CU_ASSERT_STRING_EQUAL(text, "2,5"); /* the locale is on, and was not reset */
    const ss_node *rating = ss_node_child(d.root, "rating");
    CU_ASSERT_EQUAL(ss_node_child(rating, "system")->number, 0.875);
    CU_ASSERT_EQUAL(ss_node_child(rating, "dc_factor")->number, 1.25);
    ss_diag_list diags = {0};
    (void)ss_description_check(&d, &diags);
    say_all(&diags, &said);
    CU_ASSERT_PTR_NOT_NULL(strstr(said.data, "rating.adtt: 99999999999 is out of range"));
    ss_diag_destroy(&diags);
    ss_text_destroy(&said);
    ss_description_destroy(&d);
}

int main(void) {
    if (!enter_comma_locale()) {
        return 0;
    }
    const test_case cases[] = {{"reals", test_reals_are_the_same}};
    return RUN_SUITE("io/reader locale", cases);
}
