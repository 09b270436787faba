/* reach_abreast.h - trucks in several lanes at once. */
#ifndef SS_RESPONSE_REACH_ABREAST_H
#define SS_RESPONSE_REACH_ABREAST_H

#include "response/reach_exact.h"

/** One place of one truck of a crossing abreast. */
typedef struct ss_abreast_entry {
    ss_position position;
    int slot; /**< its y among the distinct ones of its vehicle */
} ss_abreast_entry;

/** A vehicle of the crossing: all places that may matter, by their y. */
typedef struct ss_abreast_side {
    int count, capacity;
    ss_abreast_entry *entry;
    double *closed; /**< count x SS_TILE: live effects of the tile with all bearings closed */
    double *live;   /**< count x n: reactions with all bearings closed */
    int slot_count;
    double *y; /**< slots, ascending */
} ss_abreast_side;

/**
 * Searches effects of the packed tile under a traffic of trucks abreast and lowers its results. In one
 * pattern of open bearings effects add up over the trucks: the worst trucks of a pattern are found exactly by
 * going through the lanes from left to right. The pattern that they bring about is taken next, until it
 * stays; if it does not, the result is bracketed by the least multiple of all patterns met and that of a
 * placement followed exactly. The worker's lines are those with all bearings closed, its bounds those of the
 * tile.
 */
ss_status ss_reach_abreast(ss_reach_exact_task *x, ss_error *error);

#endif
