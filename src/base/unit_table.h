/* unit_table.h - the units that can be written, and the dimensions with their display units. */
#ifndef SS_BASE_UNIT_TABLE_H
#define SS_BASE_UNIT_TABLE_H

#include <stdbool.h>
#include <stddef.h>

#include "sillspan/units.h"

/** Powers of force, length, angle and time, and the SI value of one such unit. */
typedef struct ss_unit {
    int force;
    int length;
    int angle;
    bool per_length; /**< a length was written above and below and cancels ("kip-ft/ft") */
    double factor;   /**< SI units in one */
    int time;
} ss_unit;

typedef struct ss_dimension_row {
    const char *name;    /**< "length" */
    const char *example; /**< "7 ft 6 in" */
    int force;
    int length;
    int angle;
    bool per_length;      /**< a force by its powers, but understood per unit of length */
    const char *shown[2]; /**< display unit, by ss_unit_system; ss_units_parse reads it too */
    double factor[2];     /**< SI value of one display unit */
    int time;
} ss_dimension_row;

/** The row of a dimension; that of SS_DIM_NUMBER for a value out of range. */
const ss_dimension_row *ss_unit_dimension(ss_dimension dimension);

/** Finds a unit by its exact name (case counts: mN is not MN); false when there is none. */
bool ss_unit_find(const char *name, size_t length, ss_unit *unit);

/** The known name nearest to an unknown one, or NULL. */
const char *ss_unit_nearest(const char *name);

/** Whether a quantity in `unit` can stand where `dimension` is due. */
bool ss_unit_fits(const ss_unit *unit, ss_dimension dimension);

/** What a quantity in `unit` is, in words ("force"), or NULL when it has no name here. */
const char *ss_unit_kind(const ss_unit *unit);

#endif
