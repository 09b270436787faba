/* units.h - dimensions, quantities as a tape or a scale reads them, US and SI display units. */
#ifndef SILLSPAN_UNITS_H
#define SILLSPAN_UNITS_H

#include <stddef.h>

#include "sillspan/status.h"

/** Dimensions that a quantity can have; the SI unit of each is in the comment. */
typedef enum ss_dimension {
    SS_DIM_NUMBER = 0,                 /**< 1 */
    SS_DIM_LENGTH,                     /**< m      (ft for lengths along, see ss_units_format) */
    SS_DIM_SMALL_LENGTH,               /**< m      same dimension, shown in inches or millimetres */
    SS_DIM_AREA,                       /**< m2 */
    SS_DIM_SECTION_MODULUS,            /**< m3 */
    SS_DIM_SECOND_MOMENT,              /**< m4 */
    SS_DIM_FORCE,                      /**< N */
    SS_DIM_MOMENT,                     /**< N m */
    SS_DIM_STRESS,                     /**< Pa */
    SS_DIM_LINE_LOAD,                  /**< N/m */
    SS_DIM_AREA_LOAD,                  /**< N/m2 */
    SS_DIM_UNIT_WEIGHT,                /**< N/m3 */
    SS_DIM_SPRING,                     /**< N/m */
    SS_DIM_ROTATION_SPRING,            /**< N m/rad */
    SS_DIM_SPRING_PER_LENGTH,          /**< N/m per m */
    SS_DIM_ROTATION_SPRING_PER_LENGTH, /**< N m/rad per m */
    SS_DIM_MOMENT_PER_LENGTH,          /**< N m per m */
    SS_DIM_ANGLE,                      /**< rad */
    SS_DIM_SPEED,                      /**< m/s */
    SS_DIM_COUNT
} ss_dimension;

typedef enum ss_unit_system { SS_UNITS_US = 0, SS_UNITS_SI = 1 } ss_unit_system;

/** Standard gravity, m/s2 (BIPM, The International System of Units, 9th ed.). A mass given where a weight is
 * due
 *  ("2400 kg/m3") weighs this much. */
#define SS_GRAVITY 9.80665

/**
 * Reads one quantity or a comma list with one unit: "36 ksi", "2 ft 3-1/2 in", "5 1/2 in", "0, 7, 14 ft", "-4
 * ft 6 in", "0.3 kip/in/in", "120 lb/ft3", "120 lb/ft^3", "2'3-1/2\"". Mixed feet and inches are allowed for
 * lengths only, and a leading sign goes over the whole. `values` receives at most `capacity` SI values,
 * *count how many there are. On failure the error says what was found and what is allowed in words ("12 kip
 * is a force; a length is due, such as 7 ft 6 in"), and nothing is written. Non-finite values, overflow,
 * missing units and more than `capacity` values are failures.
 */
ss_status ss_units_parse(const char *text, ss_dimension dimension, double *values, int capacity, int *count,
                         ss_error *error);

/** "length", "force per length" ... for messages. */
const char *ss_units_dimension_name(ss_dimension dimension);

/** "7 ft 6 in", "36 ksi" ...: how one is written, for messages. */
const char *ss_units_example(ss_dimension dimension);

/** The display unit, "ft", "kip-ft", "kN m", "kip/in per in" ...; "" for a number. */
const char *ss_units_name(ss_dimension dimension, ss_unit_system system);

/** An SI value in the display unit. */
double ss_units_from_si(double value, ss_dimension dimension, ss_unit_system system);

/** The SI value of one display unit. */
double ss_units_to_si(double value, ss_dimension dimension, ss_unit_system system);

/** Number and unit with `significant` digits: "36 ksi". Returns buffer. */
const char *ss_units_format(char *buffer, size_t size, double value, ss_dimension dimension,
                            ss_unit_system system, int significant);

/** An SI value as a text of 17 digits with its SI unit, from which ss_units_parse gives exactly `value` back
 * (finite; a bare number for SS_DIM_NUMBER). 48 bytes hold any. Returns buffer. */
const char *ss_units_exact(char *buffer, size_t size, double value, ss_dimension dimension);

#endif
