/* units_format.c - SI values in the units that people read. */
#include "sillspan/units.h"

#include <string.h>

#include "base/unit_table.h"
#include "sillspan/text.h"

static int column(ss_unit_system system) {
    return system == SS_UNITS_SI ? 1 : 0;
}

const char *ss_units_dimension_name(ss_dimension dimension) {
    return ss_unit_dimension(dimension)->name;
}

const char *ss_units_example(ss_dimension dimension) {
    return ss_unit_dimension(dimension)->example;
}

const char *ss_units_name(ss_dimension dimension, ss_unit_system system) {
    return ss_unit_dimension(dimension)->shown[column(system)];
}

double ss_units_from_si(double value, ss_dimension dimension, ss_unit_system system) {
    return value / ss_unit_dimension(dimension)->factor[column(system)];
}

double ss_units_to_si(double value, ss_dimension dimension, ss_unit_system system) {
    return value * ss_unit_dimension(dimension)->factor[column(system)];
}

/* Puts the unit behind the number in the buffer. */
static const char *add_unit(char *buffer, size_t size, const char *unit) {
    if (size == 0 || unit[0] == '\0') {
        return buffer;
    }
    const size_t length = strlen(buffer);
    const size_t more = strlen(unit);
    /* A number without its unit is as wrong as part of a number. */
    if (length + 1 + more >= size) {
        memset(buffer, '#', size - 1);
        buffer[size - 1] = '\0';
        return buffer;
    }
    buffer[length] = ' ';
    memcpy(buffer + length + 1, unit, more + 1);
    return buffer;
}

const char *ss_units_format(char *buffer, size_t size, double value, ss_dimension dimension,
                            ss_unit_system system, int significant) {
    ss_text_significant(buffer, size, ss_units_from_si(value, dimension, system), significant);
    return add_unit(buffer, size, ss_units_name(dimension, system));
}

/* Names that ss_units_parse multiplies by exactly 1. */
static const char *const si_names[SS_DIM_COUNT] = {
    [SS_DIM_NUMBER] = "",
    [SS_DIM_LENGTH] = "m",
    [SS_DIM_SMALL_LENGTH] = "m",
    [SS_DIM_AREA] = "m2",
    [SS_DIM_SECTION_MODULUS] = "m3",
    [SS_DIM_SECOND_MOMENT] = "m4",
    [SS_DIM_FORCE] = "N",
    [SS_DIM_MOMENT] = "N m",
    [SS_DIM_STRESS] = "Pa",
    [SS_DIM_LINE_LOAD] = "N/m",
    [SS_DIM_AREA_LOAD] = "N/m2",
    [SS_DIM_UNIT_WEIGHT] = "N/m3",
    [SS_DIM_SPRING] = "N/m",
    [SS_DIM_ROTATION_SPRING] = "N m/rad",
    [SS_DIM_SPRING_PER_LENGTH] = "N/m per m",
    [SS_DIM_ROTATION_SPRING_PER_LENGTH] = "N m/rad per m",
    [SS_DIM_MOMENT_PER_LENGTH] = "N m per m",
    [SS_DIM_ANGLE] = "rad",
    [SS_DIM_SPEED] = "m/s",
};

const char *ss_units_exact(char *buffer, size_t size, double value, ss_dimension dimension) {
    const int index = (int)dimension;
    const char *const unit = si_names[index > 0 && index < SS_DIM_COUNT ? index : 0];
    /* 17 digits tell every double from its neighbours. */
    ss_text_significant(buffer, size, value, 17);
    return add_unit(buffer, size, unit);
}
