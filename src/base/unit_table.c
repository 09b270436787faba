/* unit_table.c - the units that can be written, and the dimensions with their display units. */
#include "base/unit_table.h"

#include <string.h>

#include "base/numeric.h"
#include "sillspan/text.h"

/* Exact: NIST Special Publication 811 (2008), appendix B.8 (inch, foot, mile, pound-force). The kip is 1000
 * lbf. */
#define INCH 0.0254
#define FOOT 0.3048
#define YARD 0.9144
#define MILE 1609.344
#define HOUR 3600.0
#define POUND 4.4482216152605
#define KIP 4448.2216152605
#define PERCENT 0.01
#define DEGREE (SS_PI / 180.0)

typedef struct unit_entry {
    const char *name;
    ss_unit unit;
} unit_entry;

#define FORCE_UNIT(symbol, value)                                                                            \
    {                                                                                                        \
        symbol, {                                                                                            \
            1, 0, 0, false, value, 0                                                                         \
        }                                                                                                    \
    }
#define LENGTH_UNIT(symbol, value)                                                                           \
    {                                                                                                        \
        symbol, {                                                                                            \
            0, 1, 0, false, value, 0                                                                         \
        }                                                                                                    \
    }
#define ANGLE_UNIT(symbol, value)                                                                            \
    {                                                                                                        \
        symbol, {                                                                                            \
            0, 0, 1, false, value, 0                                                                         \
        }                                                                                                    \
    }
#define SPEED_UNIT(symbol, value)                                                                            \
    {                                                                                                        \
        symbol, {                                                                                            \
            0, 1, 0, false, value, -1                                                                        \
        }                                                                                                    \
    }
#define TIME_UNIT(symbol, value)                                                                             \
    {                                                                                                        \
        symbol, {                                                                                            \
            0, 0, 0, false, value, 1                                                                         \
        }                                                                                                    \
    }
#define DENSE_UNIT(symbol, power, value)                                                                     \
    {                                                                                                        \
        symbol, {                                                                                            \
            1, power, 0, false, value, 0                                                                     \
        }                                                                                                    \
    }

/* A mass stands for its weight under standard gravity, since only weights are asked for. */
static const unit_entry units[] = {
    LENGTH_UNIT("in", INCH),
    LENGTH_UNIT("inch", INCH),
    LENGTH_UNIT("inches", INCH),
    LENGTH_UNIT("\"", INCH),
    LENGTH_UNIT("''", INCH),
    LENGTH_UNIT("ft", FOOT),
    LENGTH_UNIT("foot", FOOT),
    LENGTH_UNIT("feet", FOOT),
    LENGTH_UNIT("'", FOOT),
    LENGTH_UNIT("yd", YARD),
    LENGTH_UNIT("mm", 1e-3),
    LENGTH_UNIT("cm", 1e-2),
    LENGTH_UNIT("m", 1.0),
    LENGTH_UNIT("km", 1e3),
    FORCE_UNIT("lb", POUND),
    FORCE_UNIT("lbs", POUND),
    FORCE_UNIT("lbf", POUND),
    FORCE_UNIT("kip", KIP),
    FORCE_UNIT("kips", KIP),
    FORCE_UNIT("ton", 2.0 * KIP),
    FORCE_UNIT("tons", 2.0 * KIP),
    FORCE_UNIT("N", 1.0),
    FORCE_UNIT("kN", 1e3),
    FORCE_UNIT("MN", 1e6),
    FORCE_UNIT("kg", SS_GRAVITY),
    FORCE_UNIT("t", 1e3 * SS_GRAVITY),
    FORCE_UNIT("tonne", 1e3 * SS_GRAVITY),
    FORCE_UNIT("tonnes", 1e3 * SS_GRAVITY),
    DENSE_UNIT("psi", -2, POUND / (INCH * INCH)),
    DENSE_UNIT("ksi", -2, KIP / (INCH * INCH)),
    DENSE_UNIT("psf", -2, POUND / (FOOT * FOOT)),
    DENSE_UNIT("ksf", -2, KIP / (FOOT * FOOT)),
    DENSE_UNIT("pcf", -3, POUND / (FOOT * FOOT * FOOT)),
    DENSE_UNIT("plf", -1, POUND / FOOT),
    DENSE_UNIT("klf", -1, KIP / FOOT),
    DENSE_UNIT("Pa", -2, 1.0),
    DENSE_UNIT("kPa", -2, 1e3),
    DENSE_UNIT("MPa", -2, 1e6),
    DENSE_UNIT("GPa", -2, 1e9),
    ANGLE_UNIT("rad", 1.0),
    ANGLE_UNIT("mrad", 1e-3),
    ANGLE_UNIT("deg", DEGREE),
    SPEED_UNIT("mph", MILE / HOUR),
    TIME_UNIT("h", HOUR),
    TIME_UNIT("s", 1.0),
    {"%", {0, 0, 0, false, PERCENT, 0}},
};

#define UNIT_COUNT ((int)(sizeof units / sizeof units[0]))

/* What people write that is too short, or too far from the right word, to be guessed by its letters. */
static const char *const habits[][2] = {
    {"k", "kip"},    {"K", "kip"},   {"#", "lb"},     {"pound", "lb"},    {"pounds", "lb"},
    {"kgf", "kg"},   {"lbm", "lb"},  {"yard", "yd"},  {"yards", "yd"},    {"meter", "m"},
    {"meters", "m"}, {"metre", "m"}, {"metres", "m"}, {"degrees", "deg"}, {"degree", "deg"},
};

/* In the order in which an unexpected quantity is named: a moment before a rotational stiffness, and so on.
 */
static const ss_dimension_row dimensions[SS_DIM_COUNT] = {
    [SS_DIM_NUMBER] = {"number", "0.85", 0, 0, 0, false, {"", ""}, {1.0, 1.0}, 0},
    [SS_DIM_LENGTH] = {"length", "7 ft 6 in", 0, 1, 0, false, {"ft", "m"}, {FOOT, 1.0}, 0},
    [SS_DIM_SMALL_LENGTH] = {"length", "5-1/2 in", 0, 1, 0, false, {"in", "mm"}, {INCH, 1e-3}, 0},
    [SS_DIM_AREA] = {"area", "12.5 in2", 0, 2, 0, false, {"in2", "mm2"}, {INCH * INCH, 1e-6}, 0},
    [SS_DIM_SECTION_MODULUS] =
        {"section modulus", "48 in3", 0, 3, 0, false, {"in3", "mm3"}, {INCH * INCH * INCH, 1e-9}, 0},
    [SS_DIM_SECOND_MOMENT] = {"second moment of area",
                              "730 in4",
                              0,
                              4,
                              0,
                              false,
                              {"in4", "mm4"},
                              {INCH * INCH * INCH * INCH, 1e-12},
                              0},
    [SS_DIM_FORCE] = {"force", "12 kip", 1, 0, 0, false, {"kip", "kN"}, {KIP, 1e3}, 0},
    [SS_DIM_MOMENT] = {"moment", "85 kip-ft", 1, 1, 0, false, {"kip-ft", "kN m"}, {KIP * FOOT, 1e3}, 0},
    [SS_DIM_STRESS] = {"stress", "36 ksi", 1, -2, 0, false, {"ksi", "MPa"}, {KIP / (INCH * INCH), 1e6}, 0},
    [SS_DIM_LINE_LOAD] =
        {"force per length", "35 lb/ft", 1, -1, 0, false, {"kip/ft", "kN/m"}, {KIP / FOOT, 1e3}, 0},
    [SS_DIM_AREA_LOAD] = {"force per area",
                          "60 lb/ft2",
                          1,
                          -2,
                          0,
                          false,
                          {"lb/ft2", "kN/m2"},
                          {POUND / (FOOT * FOOT), 1e3},
                          0},
    [SS_DIM_UNIT_WEIGHT] = {"force per volume",
                            "120 lb/ft3",
                            1,
                            -3,
                            0,
                            false,
                            {"lb/ft3", "kN/m3"},
                            {POUND / (FOOT * FOOT * FOOT), 1e3},
                            0},
    [SS_DIM_SPRING] =
        {"spring stiffness", "200 kip/in", 1, -1, 0, false, {"kip/in", "kN/m"}, {KIP / INCH, 1e3}, 0},
    [SS_DIM_ROTATION_SPRING] = {"rotational stiffness",
                                "4000 kip-in/rad",
                                1,
                                1,
                                -1,
                                false,
                                {"kip-in/rad", "kN m/rad"},
                                {KIP * INCH, 1e3},
                                0},
    [SS_DIM_SPRING_PER_LENGTH] = {"spring stiffness per length",
                                  "0.3 kip/in/in",
                                  1,
                                  -2,
                                  0,
                                  false,
                                  {"kip/in per in", "kN/m per m"},
                                  {KIP / (INCH * INCH), 1e3},
                                  0},
    [SS_DIM_ROTATION_SPRING_PER_LENGTH] = {"rotational stiffness per length",
                                           "50 kip-in/rad/in",
                                           1,
                                           0,
                                           -1,
                                           true,
                                           {"kip-in/rad per in", "kN m/rad per m"},
                                           {KIP, 1e3},
                                           0},
    [SS_DIM_MOMENT_PER_LENGTH] =
        {"moment per length", "3 kip-ft/ft", 1, 0, 0, true, {"kip-ft per ft", "kN m per m"}, {KIP, 1e3}, 0},
    [SS_DIM_ANGLE] = {"angle", "2 deg", 0, 0, 1, false, {"deg", "deg"}, {DEGREE, DEGREE}, 0},
    [SS_DIM_SPEED] = {"speed", "10 mph", 0, 1, 0, false, {"mph", "km/h"}, {MILE / HOUR, 1e3 / HOUR}, -1},
};

const ss_dimension_row *ss_unit_dimension(ss_dimension dimension) {
    const int index = (int)dimension;
    return &dimensions[index > 0 && index < SS_DIM_COUNT ? index : 0];
}

bool ss_unit_find(const char *name, size_t length, ss_unit *unit) {
    for (int i = 0; i < UNIT_COUNT; i++) {
        if (strlen(units[i].name) == length && memcmp(units[i].name, name, length) == 0) {
            *unit = units[i].unit;
            return true;
        }
    }
    return false;
}

const char *ss_unit_nearest(const char *name) {
    for (size_t i = 0; i < sizeof habits / sizeof habits[0]; i++) {
        if (strcmp(habits[i][0], name) == 0) {
            return habits[i][1];
        }
    }
    const char *names[UNIT_COUNT];
    for (int i = 0; i < UNIT_COUNT; i++) {
        names[i] = units[i].name;
    }
    return ss_text_nearest(name, names, UNIT_COUNT);
}

bool ss_unit_fits(const ss_unit *unit, ss_dimension dimension) {
    const ss_dimension_row *row = ss_unit_dimension(dimension);
    if (unit->force != row->force || unit->length != row->length || unit->time != row->time) {
        return false;
    }
    /* The one unit that a number takes is the percent; "in/in" is none. */
    if (row->force == 0 && row->length == 0 && row->angle == 0 && unit->angle == 0) {
        return !unit->per_length && unit->factor == PERCENT;
    }
    /* "12 kip" is no moment per length although its powers would do, and "3 kip-ft/ft" is no force. */
    if (row->length == 0 && row->force != 0 && unit->per_length != row->per_length) {
        return false;
    }
    /* A rotational stiffness may be written without its radian. */
    return unit->angle == row->angle || (row->angle < 0 && unit->angle == 0);
}

const char *ss_unit_kind(const ss_unit *unit) {
    for (int i = 0; i < SS_DIM_COUNT; i++) {
        if (dimensions[i].angle == unit->angle && ss_unit_fits(unit, (ss_dimension)i)) {
            return dimensions[i].name;
        }
    }
    return NULL;
}
