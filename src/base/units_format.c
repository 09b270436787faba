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

const char *ss_units_format(char *buffer, size_t size, double value, ss_dimension dimension,
                            ss_unit_system system, int significant) {
    const char *unit = ss_units_name(dimension, system);
    ss_text_significant(buffer, size, ss_units_from_si(value, dimension, system), significant);
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
