/* watch_seats.h - where bearings with a gap and those placed later stand, out of the supports' stiffness. */
#ifndef SS_STUDIES_WATCH_SEATS_H
#define SS_STUDIES_WATCH_SEATS_H

#include "sillspan/permanent.h"

/** Whether a spring is of a bearing with a gap, or of one that was placed after the dead load. */
bool ss_spring_late(const ss_mesh *mesh, int spring);

/** Supports of a bridge under its unfactored dead load, all closed: contact springs first. */
typedef struct ss_seats_task {
    const ss_mesh *mesh;
    int count, contact_count;
    const int *support;     /**< count: springs */
    const bool *late;       /**< count */
    const double *S;        /**< count x count: forces of unit openings */
    const double *reaction; /**< count: forces with all closed, no seat counted */
} ss_seats_task;

/** seat (count): offsets of the supports, as in ss_permanent. SS_ERROR_TIPPING when the others do not carry
 * the dead load without the late ones; SS_ERROR_MECHANISM when they do not hold the bridge. */
ss_status ss_seats_find(const ss_seats_task *task, ss_arena *arena, double *seat, ss_error *error);

#endif
