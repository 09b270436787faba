/* moving_parts.h - what the steps of ss_moving_compute hand on: what is read, points of the deck, fields. */
#ifndef SS_STUDIES_MOVING_PARTS_H
#define SS_STUDIES_MOVING_PARTS_H

#include "sillspan/moving.h"
#include "sillspan/spring_sweep.h"

enum { SS_MOVING_POINTS = 4 }; /**< of a cubic, in each interval of places */

/** A wheel of 1 N somewhere. */
typedef struct ss_moving_point {
    ss_row row;
    int interval; /**< of stations; -1 on floor beams */
    double s;     /**< in it */
    int carrier_count;
    ss_carrier carrier[4];
} ss_moving_point;

/** One attempt with so many sections. */
typedef struct ss_moving_job {
    const ss_permanent *permanent;
    const ss_mesh *mesh;
    ss_moving made;
    double *aside; /**< rail_count: where the rail is really looked at, beside a jump */
    /* What is read: forces of supports, then effects of members; a reading of `made` is a sum of some. */
    int raw_count;
    ss_sweep_reading *raw;
    ss_effect *effect;      /**< raw_count; element -1 of a support */
    int *part, *part_first; /**< of reading i: part[part_first[i]] to part[part_first[i + 1]] */
    /* Wheels. */
    ss_moving_point *point; /**< rail_count x (place_count - 1) x SS_MOVING_POINTS */
    int *load_of;           /**< order: load of that degree of freedom, or -1 */
    int all_loads;
    /* From the sweep. */
    int swept_count;
    int *swept;        /**< springs */
    double *raw_value; /**< raw_count x all_loads at k = 1 */
    double *raw_a;     /**< raw_count x mode_count */
    double *mode_h;    /**< mode_count x all_loads */
    ss_arena arena;
} ss_moving_job;

/** Supports, sections and readings. */
ss_status ss_moving_choose(ss_moving_job *job, int sections, ss_error *error);

/** Rails, places and the points on them. */
ss_status ss_moving_lay(ss_moving_job *job, ss_error *error);

/** Responses to all loads, at k = 1 and mode by mode. */
ss_status ss_moving_respond(ss_moving_job *job, ss_error *error);

/** Fits the fields of readings and modes. */
ss_status ss_moving_fit(ss_moving_job *job, double tolerance, ss_error *error);

#endif
