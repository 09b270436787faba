/* test_base_units_faults.c - quantities that are refused, and the words in which they are. */
#include <string.h>

#include "sillspan/units.h"
#include "support/suite.h"

typedef struct bad_row {
    const char *text;
    ss_dimension dimension;
    const char *message;
} bad_row;

#define LENGTH_DUE "; a length is due, such as 7 ft 6 in"

static const bad_row kind_rows[] = {
    {"12 kip", SS_DIM_LENGTH, "12 kip is a force" LENGTH_DUE},
    {"12 kip", SS_DIM_NUMBER, "12 kip is a force; a number is due, such as 0.85"},
    {"12 kip", SS_DIM_MOMENT_PER_LENGTH,
     "12 kip is a force; a moment per length is due, such as 3 kip-ft/ft"},
    {"3 kip-ft/ft", SS_DIM_FORCE, "3 kip-ft/ft is a moment per length; a force is due, such as 12 kip"},
    {"2 ft 3 in", SS_DIM_FORCE, "2 ft 3 in is a length; a force is due, such as 12 kip"},
    {"17 in2", SS_DIM_LENGTH, "17 in2 is an area" LENGTH_DUE},
    {"36 ksi", SS_DIM_FORCE, "36 ksi is a stress; a force is due, such as 12 kip"},
    {"35 plf", SS_DIM_STRESS, "35 plf is a force per length; a stress is due, such as 36 ksi"},
    {"120 pcf", SS_DIM_AREA_LOAD,
     "120 pcf is a force per volume; a force per area is due, such as 60 lb/ft2"},
    {"4000 kip-in/rad", SS_DIM_MOMENT,
     "4000 kip-in/rad is a rotational stiffness; a moment is due, such as 85 kip-ft"},
    {"85 kip-ft", SS_DIM_SPRING, "85 kip-ft is a moment; a spring stiffness is due, such as 200 kip/in"},
    {"2 deg", SS_DIM_NUMBER, "2 deg is an angle; a number is due, such as 0.85"},
    {"10 %", SS_DIM_LENGTH, "10 % is a number" LENGTH_DUE},
    {"7 ft, 3 kip", SS_DIM_LENGTH, "3 kip is a force" LENGTH_DUE},
    {"5 kip2", SS_DIM_LENGTH, "\"5 kip2\" is no quantity of a kind known here" LENGTH_DUE},
    {"5 in/in", SS_DIM_NUMBER,
     "\"5 in/in\" is no quantity of a kind known here; a number is due, such as 0.85"},
};

static const bad_row unit_rows[] = {
    {"26", SS_DIM_SMALL_LENGTH, "\"26\" has no unit; a length is due, such as 26 in"},
    {" 0, 7, 14 ", SS_DIM_LENGTH, "\"0, 7, 14\" has no unit; a length is due, such as 0, 7, 14 ft"},
    {"3/8", SS_DIM_SMALL_LENGTH, "\"3/8\" has no unit; a length is due, such as 3/8 in"},
    {"0 ft, 7", SS_DIM_LENGTH, "\"7\" has no unit, but a value before it has one" LENGTH_DUE},
    {"7 fot", SS_DIM_LENGTH, "\"fot\" is not a known unit; did you mean \"ft\"?"},
    {"7 FT", SS_DIM_LENGTH, "\"FT\" is not a known unit; did you mean \"ft\"?"},
    {"36 Ksi", SS_DIM_STRESS, "\"Ksi\" is not a known unit; did you mean \"ksi\"?"},
    {"12 k", SS_DIM_FORCE, "\"k\" is not a known unit; did you mean \"kip\"?"},
    {"12 #", SS_DIM_FORCE, "\"#\" is not a known unit; did you mean \"lb\"?"},
    {"12 pounds/ft", SS_DIM_LINE_LOAD, "\"pounds\" is not a known unit; did you mean \"lb\"?"},
    {"7 cubits", SS_DIM_LENGTH, "\"cubits\" is not a known unit" LENGTH_DUE},
    {"7 kip/", SS_DIM_LINE_LOAD, "\"kip/\" lacks a unit at its end"},
    {"7 kip per", SS_DIM_LINE_LOAD, "\"kip per\" lacks a unit at its end"},
    {"7 kip*4", SS_DIM_FORCE, "\"kip*\" lacks a unit at its end"},
    {"7 in^", SS_DIM_AREA, "\"in^\" has no usable power; a power is a whole number from 1 to 6"},
    {"7 in0", SS_DIM_AREA, "\"in0\" has no usable power; a power is a whole number from 1 to 6"},
    {"7 in99999999999", SS_DIM_AREA,
     "\"in99999999999\" has no usable power; a power is a whole number from 1 to 6"},
    {"1 ft/ft*ft/ft*ft/ft*ft/ft*ft/ft", SS_DIM_LENGTH, "\"ft/ft*ft/ft*ft/ft*ft/ft*\" is too long for a unit"},
};

static const bad_row number_rows[] = {
    {"", SS_DIM_LENGTH, "an empty text" LENGTH_DUE},
    {" \t ", SS_DIM_ANGLE, "an empty text; an angle is due, such as 2 deg"},
    {"abc", SS_DIM_LENGTH, "\"abc\" does not begin with a number" LENGTH_DUE},
    {"ft 7", SS_DIM_LENGTH, "\"ft 7\" does not begin with a number" LENGTH_DUE},
    {"- 4 ft", SS_DIM_LENGTH, "\"- 4 ft\" does not begin with a number" LENGTH_DUE},
    {"--4 ft", SS_DIM_LENGTH, "\"--4 ft\" does not begin with a number" LENGTH_DUE},
    {"inf ft", SS_DIM_LENGTH, "\"inf ft\" does not begin with a number" LENGTH_DUE},
    {"nan", SS_DIM_NUMBER, "\"nan\" does not begin with a number; a number is due, such as 0.85"},
    {"0x1p4 ft", SS_DIM_LENGTH, "\"x\" is not a known unit" LENGTH_DUE},
    {"1e400 ft", SS_DIM_LENGTH, "\"1e400 ft\" is too large" LENGTH_DUE},
    {"1e308, 1 km", SS_DIM_LENGTH, "\"1e308\" is too large" LENGTH_DUE},
    {"3/0 in", SS_DIM_LENGTH, "\"3/0\" divides by zero" LENGTH_DUE},
    {"5 3/00 in", SS_DIM_LENGTH, "\"5 3/00\" divides by zero" LENGTH_DUE},
    {"5 9/8 in", SS_DIM_LENGTH, "\"5 9/8\" has a fraction of one or more behind a whole number" LENGTH_DUE},
    {"5 8/8 in", SS_DIM_LENGTH, "\"5 8/8\" has a fraction of one or more behind a whole number" LENGTH_DUE},
    {"1/2.5 in", SS_DIM_LENGTH, "\"1/2.5\" is no fraction of whole numbers" LENGTH_DUE},
    {"1.5/2 in", SS_DIM_LENGTH, "\"1.5/2\" is no fraction of whole numbers" LENGTH_DUE},
    {"5.5 1/2 in", SS_DIM_LENGTH, "\"1/2 in\" is not understood after \"5.5\"" LENGTH_DUE},
    {"5 1 in", SS_DIM_LENGTH, "\"1 in\" is not understood after \"5\"" LENGTH_DUE},
    {"7 ft @", SS_DIM_LENGTH, "\"@\" is not understood after \"7 ft\"" LENGTH_DUE},
    {"7 ft; 8 ft", SS_DIM_LENGTH, "\"; 8 ft\" is not understood after \"7 ft\"" LENGTH_DUE},
    {"2 m 350 mm", SS_DIM_LENGTH, "\"350 mm\" is not understood after \"2 m\"" LENGTH_DUE},
};

static const bad_row tape_rows[] = {
    {"4 ft 14 in", SS_DIM_LENGTH, "\"4 ft 14 in\" has 12 inches or more after its feet" LENGTH_DUE},
    {"4 ft 12 in", SS_DIM_LENGTH, "\"4 ft 12 in\" has 12 inches or more after its feet" LENGTH_DUE},
    {"2.5 ft 3 in", SS_DIM_LENGTH, "\"2.5 ft 3 in\" has inches after feet that are not whole" LENGTH_DUE},
    {"1/2 ft 3 in", SS_DIM_LENGTH, "\"1/2 ft 3 in\" has inches after feet that are not whole" LENGTH_DUE},
    {"2 ft 3", SS_DIM_LENGTH, "\"3\" follows feet but is not in inches" LENGTH_DUE},
    {"2 ft 3 mm", SS_DIM_LENGTH, "\"3 mm\" follows feet but is not in inches" LENGTH_DUE},
    {"2 ft 3 ft", SS_DIM_LENGTH, "\"3 ft\" follows feet but is not in inches" LENGTH_DUE},
    {"2 ft -3 in", SS_DIM_LENGTH, "\"-3 in\" is not understood after \"2 ft\"" LENGTH_DUE},
    {"2 ft 3 in 4 in", SS_DIM_LENGTH, "\"4 in\" is not understood after \"2 ft 3 in\"" LENGTH_DUE},
};

static const bad_row list_rows[] = {
    {"0, 7 ft, 3 in", SS_DIM_LENGTH,
     "\"0, 7 ft, 3 in\" leaves open which unit goes with which value; give each its own" LENGTH_DUE},
    {"0, 7 in, 3 ft", SS_DIM_LENGTH,
     "\"0, 7 in, 3 ft\" leaves open which unit goes with which value; give each its own" LENGTH_DUE},
    {"5, 2 ft 6 in", SS_DIM_LENGTH,
     "\"5, 2 ft 6 in\" leaves open which unit goes with which value; give each its own" LENGTH_DUE},
    {"1, , 2 ft", SS_DIM_LENGTH, "\"1, , 2 ft\" lacks a value beside a comma" LENGTH_DUE},
    {"1, 2 ft,", SS_DIM_LENGTH, "\"1, 2 ft,\" lacks a value beside a comma" LENGTH_DUE},
    {", 2 ft", SS_DIM_LENGTH, "\", 2 ft\" lacks a value beside a comma" LENGTH_DUE},
    {"1,200 lb", SS_DIM_FORCE,
     "\"1,200\" can be read as one number or as two; a comma parts values and has a space behind it, and the "
     "decimal "
     "point is '.'"},
    {"1, 2, 3, 4, 5 ft", SS_DIM_LENGTH, "\"1, 2, 3, 4, 5 ft\" holds 5 values; at most 4 can stand here"},
    {"10 %, 0.2", SS_DIM_NUMBER,
     "\"0.2\" has no unit, but a value before it has one; a number is due, such as 0.85"},
};

static void check_bad(const bad_row *row) {
    double values[4] = {-71.0, -72.0, -73.0, -74.0};
    int count = -7;
    ss_error error = {.message = ""};
    CHECK_ROW(ss_units_parse(row->text, row->dimension, values, 4, &count, &error) == SS_ERROR_DESCRIPTION,
              row->text);
    CHECK_ROW(error.status == SS_ERROR_DESCRIPTION, row->text);
    CHECK_ROW(strcmp(error.message, row->message) == 0, row->text);
    if (strcmp(error.message, row->message) != 0) {
        printf("  got:  %s\n  due:  %s\n", error.message, row->message);
    }
    CHECK_ROW(count == -7 && values[0] == -71.0 && values[1] == -72.0 && values[2] == -73.0 &&
                  values[3] == -74.0,
              row->text);
    /* The status does not hang on anyone listening. */
    CHECK_ROW(ss_units_parse(row->text, row->dimension, values, 4, &count, NULL) == SS_ERROR_DESCRIPTION,
              row->text);
}

#define CHECK_TABLE(rows)                                                                                    \
    for (size_t i = 0; i < sizeof(rows) / sizeof((rows)[0]); i++) {                                          \
        check_bad(&(rows)[i]);                                                                               \
    }

static void test_wrong_kinds(void) {
    CHECK_TABLE(kind_rows)
}

static void test_units(void) {
    CHECK_TABLE(unit_rows)
}

static void test_numbers(void) {
    CHECK_TABLE(number_rows)
}

static void test_tape_lengths(void) {
    CHECK_TABLE(tape_rows)
}

static void test_lists(void) {
    CHECK_TABLE(list_rows)
}

static void test_long_text_is_clipped(void) {
    char text[400];
    memset(text, 'q', sizeof text - 1);
    text[399] = '\0';
    ss_error error = {.message = ""};
    double value = 0.0;
    int count = 0;
    CU_ASSERT_EQUAL(ss_units_parse(text, SS_DIM_LENGTH, &value, 1, &count, &error), SS_ERROR_DESCRIPTION);
    CU_ASSERT_PTR_NOT_NULL(strstr(error.message, "qqq...\" does not begin with a number" LENGTH_DUE));
    CU_ASSERT_TRUE(strlen(error.message) < 150);
}

int main(void) {
    const test_case cases[] = {
        {"wrong kinds", test_wrong_kinds},
        {"units", test_units},
        {"numbers", test_numbers},
        {"tape lengths", test_tape_lengths},
        {"lists", test_lists},
        {"long text is clipped", test_long_text_is_clipped},
    };
    return RUN_SUITE("base/units faults", cases);
}
