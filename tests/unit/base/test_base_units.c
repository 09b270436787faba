/* test_base_units.c - quantities that are accepted, and their display. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "sillspan/text.h"
#include "sillspan/units.h"
#include "support/suite.h"

/* A few roundings of a double. */
#define ROUNDING 1e-15

typedef struct good_row {
    const char *text;
    ss_dimension dimension;
    double value; /* SI, worked out by hand from the factors of NIST SP 811 (2008), appendix B */
} good_row;

static const good_row tape_rows[] = {
    {"5 1/2 in", SS_DIM_SMALL_LENGTH, 0.1397},
    {"5-1/2 in", SS_DIM_SMALL_LENGTH, 0.1397},
    {"3/8 in", SS_DIM_SMALL_LENGTH, 0.009525},
    {"12-7/8 in", SS_DIM_LENGTH, 0.327025},
    {"9/8 inch", SS_DIM_LENGTH, 0.028575},
    {"2 ft 3-1/2 in", SS_DIM_LENGTH, 0.6985},
    {"2 feet 3 1/2 inches", SS_DIM_LENGTH, 0.6985},
    {"2'3-1/2\"", SS_DIM_LENGTH, 0.6985},
    {"2' 3 1/2\"", SS_DIM_LENGTH, 0.6985},
    {"2'-3 1/2''", SS_DIM_LENGTH, 0.6985},
    {"2' - 3.5\"", SS_DIM_LENGTH, 0.6985},
    {"2 ft-3.5 in", SS_DIM_LENGTH, 0.6985},
    {"0 ft 3/8 in", SS_DIM_LENGTH, 0.009525},
    {"-4 ft 6 in", SS_DIM_LENGTH, -1.3716},
    {"+4 ft 6 in", SS_DIM_LENGTH, 1.3716},
    {"-5-1/2 in", SS_DIM_LENGTH, -0.1397},
    {"89 ft 4 in", SS_DIM_LENGTH, 27.2288},
    {" 7ft6in ", SS_DIM_LENGTH, 2.286},
    {"7ft 3/8\"", SS_DIM_LENGTH, 2.143125},
    {"7\tft\n6 in", SS_DIM_LENGTH, 2.286},
    {"42.5 ft", SS_DIM_LENGTH, 12.954},
    {"1 1/2 yd", SS_DIM_LENGTH, 1.3716},
    {"238.5 mm", SS_DIM_LENGTH, 0.2385},
    {"2.385e2 mm", SS_DIM_LENGTH, 0.2385},
    {"12 cm", SS_DIM_LENGTH, 0.12},
    {"16.5 m", SS_DIM_LENGTH, 16.5},
    {".5 km", SS_DIM_LENGTH, 500.0},
};

static const good_row unit_rows[] = {
    {"0.85", SS_DIM_NUMBER, 0.85},
    {"10 %", SS_DIM_NUMBER, 0.1},
    {"2.5%", SS_DIM_NUMBER, 0.025},
    {"3/8", SS_DIM_NUMBER, 0.375},
    {"17.3 in2", SS_DIM_AREA, 17.3 * 6.4516e-4},
    {"17.3 in^2", SS_DIM_AREA, 17.3 * 6.4516e-4},
    {"17.3 in\xC2\xB2", SS_DIM_AREA, 17.3 * 6.4516e-4},
    {"17.3 in in", SS_DIM_AREA, 17.3 * 6.4516e-4},
    {"48 in3", SS_DIM_SECTION_MODULUS, 48 * 1.6387064e-5},
    {"730 in4", SS_DIM_SECOND_MOMENT, 730 * 4.162314256e-7},
    {"730 in\xE2\x81\xB4", SS_DIM_SECOND_MOMENT, 730 * 4.162314256e-7},
    {"12 kip", SS_DIM_FORCE, 53378.659383126},
    {"12 kips", SS_DIM_FORCE, 53378.659383126},
    {"12000 lb", SS_DIM_FORCE, 53378.659383126},
    {"6 tons", SS_DIM_FORCE, 53378.659383126},
    {"53.378659383126 kN", SS_DIM_FORCE, 53378.659383126},
    {"12 ksi*in2", SS_DIM_FORCE, 53378.659383126},
    {"12 klf*ft", SS_DIM_FORCE, 53378.659383126},
    {"1.7 MN", SS_DIM_FORCE, 1.7e6},
    {"2400 kg", SS_DIM_FORCE, 23535.96},
    {"2.4 t", SS_DIM_FORCE, 23535.96},
    {"85 kip-ft", SS_DIM_MOMENT, 85 * 1355.8179483314004},
    {"85 ft-kip", SS_DIM_MOMENT, 85 * 1355.8179483314004},
    {"85 kip ft", SS_DIM_MOMENT, 85 * 1355.8179483314004},
    {"85 kip*ft", SS_DIM_MOMENT, 85 * 1355.8179483314004},
    {"85 kip\xC2\xB7"
     "ft",
     SS_DIM_MOMENT, 85 * 1355.8179483314004},
    {"1020 kip-in", SS_DIM_MOMENT, 85 * 1355.8179483314004},
    {"36 ksi", SS_DIM_STRESS, 36 * KSI},
    {"36 kip/in2", SS_DIM_STRESS, 36 * KSI},
    {"36 kip/in/in", SS_DIM_STRESS, 36 * KSI},
    {"36000 psi", SS_DIM_STRESS, 36 * KSI},
    {"248 N/mm2", SS_DIM_STRESS, 248e6},
    {"248 MPa", SS_DIM_STRESS, 248e6},
    {"0.248 GPa", SS_DIM_STRESS, 248e6},
    {"35 lb/ft", SS_DIM_LINE_LOAD, 35 * 14.593902937206365},
    {"35 plf", SS_DIM_LINE_LOAD, 35 * 14.593902937206365},
    {"35 lb per ft", SS_DIM_LINE_LOAD, 35 * 14.593902937206365},
    {"0.035 klf", SS_DIM_LINE_LOAD, 35 * 14.593902937206365},
    {"60 psf", SS_DIM_AREA_LOAD, 60 * 47.88025898033584},
    {"60 lb/ft2", SS_DIM_AREA_LOAD, 60 * 47.88025898033584},
    {"3.1 kPa", SS_DIM_AREA_LOAD, 3100.0},
    {"120 pcf", SS_DIM_UNIT_WEIGHT, 120 * 157.08746384624618},
    {"120 lb/ft3", SS_DIM_UNIT_WEIGHT, 120 * 157.08746384624618},
    {"120 lb/ft^3", SS_DIM_UNIT_WEIGHT, 120 * 157.08746384624618},
    {"2400 kg/m3", SS_DIM_UNIT_WEIGHT, 23535.96},
    {"200 kip/in", SS_DIM_SPRING, 200 * 175126.83524647637},
    {"41.7 kN/mm", SS_DIM_SPRING, 41.7e6},
    {"0.3 kip/in/in", SS_DIM_SPRING_PER_LENGTH, 0.3 * KSI},
    {"0.3 kip/in per in", SS_DIM_SPRING_PER_LENGTH, 0.3 * KSI},
    {"4000 kip-in/rad", SS_DIM_ROTATION_SPRING, 4000 * 112.9848290276167},
    {"4000 kip-in", SS_DIM_ROTATION_SPRING, 4000 * 112.9848290276167},
    {"173 kN m/rad", SS_DIM_ROTATION_SPRING, 173e3},
    {"3 kN m/deg", SS_DIM_ROTATION_SPRING, 171887.33853924697},
    {"50 kip-in/rad/in", SS_DIM_ROTATION_SPRING_PER_LENGTH, 50 * KIP},
    {"50 kip-in/in", SS_DIM_ROTATION_SPRING_PER_LENGTH, 50 * KIP},
    {"50 kip-ft/rad/ft", SS_DIM_ROTATION_SPRING_PER_LENGTH, 50 * KIP},
    {"3 kip-ft/ft", SS_DIM_MOMENT_PER_LENGTH, 3 * KIP},
    {"2 deg", SS_DIM_ANGLE, 0.03490658503988659},
    {"17.3 mrad", SS_DIM_ANGLE, 0.0173},
    {"0.0173 rad", SS_DIM_ANGLE, 0.0173},
    {"10 mph", SS_DIM_SPEED, 4.4704},
    {"16.2 km/h", SS_DIM_SPEED, 4.5},
    {"14.7 ft/s", SS_DIM_SPEED, 4.48056},
};

static void check_good(const good_row *row) {
    double value = SS_NAN;
    int count = 0;
    ss_error error = {.message = ""};
    const ss_status status = ss_units_parse(row->text, row->dimension, &value, 1, &count, &error);
    CHECK_ROW(status == SS_OK && count == 1 && ss_close(value, row->value, ROUNDING), row->text);
    if (status != SS_OK) {
        printf("  %s\n", error.message);
    }
}

static void test_tape_lengths(void) {
    for (size_t i = 0; i < sizeof tape_rows / sizeof tape_rows[0]; i++) {
        check_good(&tape_rows[i]);
    }
}

static void test_units(void) {
    for (size_t i = 0; i < sizeof unit_rows / sizeof unit_rows[0]; i++) {
        check_good(&unit_rows[i]);
    }
}

/* The exact figures of NIST SP 811 (2008), appendix B.8, to the last bit. */
static void test_exact_factors(void) {
    CU_ASSERT_EQUAL(ss_units_to_si(1.0, SS_DIM_SMALL_LENGTH, SS_UNITS_US), INCH);
    CU_ASSERT_EQUAL(ss_units_to_si(1.0, SS_DIM_LENGTH, SS_UNITS_US), FOOT);
    CU_ASSERT_EQUAL(ss_units_to_si(1.0, SS_DIM_FORCE, SS_UNITS_US), KIP);
    double value = 0.0;
    int count = 0;
    CU_ASSERT_EQUAL(ss_units_parse("1 lbf", SS_DIM_FORCE, &value, 1, &count, NULL), SS_OK);
    CU_ASSERT_EQUAL(value, LBF);
    /* The pound is 0.45359237 kg, so its weight under standard gravity must be the pound-force. */
    CU_ASSERT_EQUAL(ss_units_parse("0.45359237 kg", SS_DIM_FORCE, &value, 1, &count, NULL), SS_OK);
    CU_ASSERT_TRUE(ss_close(value, LBF, ROUNDING));
}

static void test_lists(void) {
    static const struct {
        const char *text;
        ss_dimension dimension;
        int count;
        double values[4];
    } rows[] = {
        {"0, 7, 14 ft", SS_DIM_LENGTH, 3, {0.0, 2.1336, 4.2672}},
        {"0 ft, 7 ft", SS_DIM_LENGTH, 2, {0.0, 2.1336}},
        {"0 ft, 7, 14 ft", SS_DIM_LENGTH, 3, {0.0, 2.1336, 4.2672}},
        {"6 in, 2 ft 3 in, 1 m", SS_DIM_LENGTH, 3, {0.1524, 0.6858, 1.0}},
        {"-3, -1.5,1.5 , 3 ft", SS_DIM_LENGTH, 4, {-0.9144, -0.4572, 0.4572, 0.9144}},
        {"3/8, 5-1/2, 7 1/4 in", SS_DIM_SMALL_LENGTH, 3, {0.009525, 0.1397, 0.18415}},
        {"11, 17, 17 kip", SS_DIM_FORCE, 3, {48930.4377678655, 75619.7674594285, 75619.7674594285}},
        {"0.65, 1.3", SS_DIM_NUMBER, 2, {0.65, 1.3}},
        {"5, 12.5 %", SS_DIM_NUMBER, 2, {0.05, 0.125}},
        {"1000, 2000 lb/ft", SS_DIM_LINE_LOAD, 2, {14593.902937206365, 29187.80587441273}},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double values[5] = {0};
        values[4] = -77.0;
        int count = 0;
        CHECK_ROW(ss_units_parse(rows[i].text, rows[i].dimension, values, 4, &count, NULL) == SS_OK,
                  rows[i].text);
        CHECK_ROW(count == rows[i].count, rows[i].text);
        for (int j = 0; j < count; j++) {
            CHECK_ROW(ss_close(values[j], rows[i].values[j], ROUNDING), rows[i].text);
        }
        CU_ASSERT_EQUAL(values[4], -77.0);
    }
}

static void test_no_negative_zero(void) {
    double values[2] = {-1.0, -1.0};
    int count = 0;
    CU_ASSERT_EQUAL(ss_units_parse("-0, -0.0 ft", SS_DIM_LENGTH, values, 2, &count, NULL), SS_OK);
    CU_ASSERT_EQUAL(values[0], 0.0);
    CU_ASSERT_FALSE(signbit(values[0]));
    CU_ASSERT_FALSE(signbit(values[1]));
}

/* What is shown can be typed in again, in either system. */
static void test_shown_quantities_can_be_read(void) {
    for (int d = 0; d < SS_DIM_COUNT; d++) {
        for (int s = 0; s < 2; s++) {
            const ss_dimension dimension = (ss_dimension)d;
            const ss_unit_system system = (ss_unit_system)s;
            const double shown = -417.2385;
            const double value = ss_units_to_si(shown, dimension, system);
            char text[80];
            ss_units_format(text, sizeof text, value, dimension, system, 17);
            double back = SS_NAN;
            int count = 0;
            ss_error error = {.message = ""};
            const ss_status status = ss_units_parse(text, dimension, &back, 1, &count, &error);
            CHECK_ROW(status == SS_OK && ss_close(back, value, ROUNDING), text);
            if (status != SS_OK) {
                printf("  %s\n", error.message);
            }
            CHECK_ROW(ss_close(ss_units_from_si(value, dimension, system), shown, ROUNDING), text);
        }
    }
}

static void test_examples_can_be_read(void) {
    for (int d = 0; d < SS_DIM_COUNT; d++) {
        const char *example = ss_units_example((ss_dimension)d);
        double value = SS_NAN;
        int count = 0;
        CHECK_ROW(ss_units_parse(example, (ss_dimension)d, &value, 1, &count, NULL) == SS_OK, example);
        CHECK_ROW(value > 0.0, example);
        CU_ASSERT_TRUE(strlen(ss_units_dimension_name((ss_dimension)d)) > 0);
    }
}

static void test_format(void) {
    static const struct {
        double value;
        ss_dimension dimension;
        ss_unit_system system;
        const char *text;
    } rows[] = {
        {248211262.554061, SS_DIM_STRESS, SS_UNITS_US, "36 ksi"},
        {248211262.554061, SS_DIM_STRESS, SS_UNITS_SI, "248.2 MPa"},
        {-1.3716, SS_DIM_LENGTH, SS_UNITS_US, "-4.5 ft"},
        {0.009525, SS_DIM_SMALL_LENGTH, SS_UNITS_US, "0.375 in"},
        {0.009525, SS_DIM_SMALL_LENGTH, SS_UNITS_SI, "9.525 mm"},
        {0.85, SS_DIM_NUMBER, SS_UNITS_US, "0.85"},
        {115244.525608169, SS_DIM_MOMENT, SS_UNITS_US, "85 kip-ft"},
        {115244.525608169, SS_DIM_MOMENT, SS_UNITS_SI, "115.2 kN m"},
        {2068427.1879505082, SS_DIM_SPRING_PER_LENGTH, SS_UNITS_US, "0.3 kip/in per in"},
        {0.03490658503988659, SS_DIM_ANGLE, SS_UNITS_SI, "2 deg"},
        {4.4704, SS_DIM_SPEED, SS_UNITS_US, "10 mph"},
        {4.4704, SS_DIM_SPEED, SS_UNITS_SI, "16.09 km/h"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char text[64];
        ss_units_format(text, sizeof text, rows[i].value, rows[i].dimension, rows[i].system, 4);
        CHECK_ROW(strcmp(text, rows[i].text) == 0, rows[i].text);
    }
    char small[7];
    CU_ASSERT_STRING_EQUAL(
        ss_units_format(small, sizeof small, 248211262.554061, SS_DIM_STRESS, SS_UNITS_US, 4), "36 ksi");
    CU_ASSERT_STRING_EQUAL(ss_units_format(small, 6, 248211262.554061, SS_DIM_STRESS, SS_UNITS_US, 4),
                           "#####");
}

/* Every double comes back as it was, in every dimension. */
static void test_exact_there_and_back(void) {
    static const double seeds[] = {0.1,    1.0 / 3.0, 248211.68, 6.8947572931683609e6,
                                   7.3e-9, 2.1e11,    5e-324,    1e300};
    for (int d = 0; d < SS_DIM_COUNT; d++) {
        for (int i = 0; i < ENTRIES(seeds); i++) {
            for (int sign = -1; sign <= 1; sign += 2) {
                double value = sign * seeds[i];
                for (int step = 0; step < 20; step++, value *= 0.9987654321) {
                    char text[48];
                    double back = 0.0;
                    int count = 0;
                    ss_error error = {0};
                    ss_units_exact(text, sizeof text, value, (ss_dimension)d);
                    CHECK_OK(ss_units_parse(text, (ss_dimension)d, &back, 1, &count, &error), &error);
                    CHECK_ROW(back == value, text);
                }
            }
        }
    }
}

int main(void) {
    const test_case cases[] = {
        {"tape lengths", test_tape_lengths},
        {"units", test_units},
        {"exact factors", test_exact_factors},
        {"lists", test_lists},
        {"no negative zero", test_no_negative_zero},
        {"shown quantities can be read", test_shown_quantities_can_be_read},
        {"examples can be read", test_examples_can_be_read},
        {"format", test_format},
        {"exact texts come back", test_exact_there_and_back},
    };
    return RUN_SUITE("base/units", cases);
}
