/* reach_abreast.h - trucks in several lanes at once. */
#ifndef SS_RESPONSE_REACH_ABREAST_H
#define SS_RESPONSE_REACH_ABREAST_H

#include "response/lane_choice.h"
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
    double *value;  /**< count: of the effect being searched in the pattern at hand, lane load included, times
                       its sign; -INFINITY: not used for it */
    int slot_count;
    double *y; /**< slots, ascending */
} ss_abreast_side;

/** A search of one packed tile under one traffic. */
typedef struct ss_abreast {
    ss_reach_exact_task *x;
    const ss_traffic *traffic;
    const ss_crossing *crossing;
    ss_abreast_side side[2];
    bool same;             /* both vehicles are one */
    bool all;              /* every place is taken, whatever its bounds */
    double *live, *weight; /* n */
    /* by slot: of one side, the best entry and its effect */
    double *best[2];
    int *best_entry[2];
    ss_lane_choice choice;
    int demand, pattern; /* that trucks are being chosen for; `weight` is of that pattern */
    ss_error *error;
} ss_abreast;

/** Trucks of one arrangement. */
typedef struct ss_arrangement {
    int own;
    int entry[SS_LANES_MAX];
    double value; /* sum of live effects times sign, in the pattern at hand */
} ss_arrangement;

/** All places of one side's trucks that may matter, or all of them. */
ss_status ss_abreast_collect(ss_abreast *a, int which);

/** Frees what belongs to it. */
void ss_abreast_destroy(ss_abreast *a);

/** The stand of all trucks together. */
void ss_abreast_together(ss_abreast *a, int lane, bool most, const ss_arrangement *trucks,
                         ss_reach_stand *stand);

/** Takes a pattern: its weights, where lane loads lie, and values of all entries. */
void ss_abreast_take(ss_abreast *a, int lane, int demand, bool most, int pattern);

/** Notes that the arrangement tips the bridge, if that was seen. */
void ss_abreast_note_tipped(const ss_abreast *a, int demand, int dead, const ss_arrangement *trucks,
                            const ss_reach_stand *stand);

/** Lowers the result of a demand if the arrangement's factor is less. */
void ss_abreast_keep(ss_abreast *a, int lane, int demand, int dead, bool most, const ss_arrangement *trucks,
                     const ss_reach_stand *stand, double factor);

/**
 * Moves one truck after the other to wherever it lowers the multiple, until none does: for arrangements whose
 * patterns go round in a circle. *multiple is that of `trucks`, lowered. Places where a truck would do much
 * less in the pattern at hand are left out.
 */
ss_status ss_abreast_turns(ss_abreast *a, int lane, int demand, int dead, bool most, ss_arrangement *trucks,
                           double *multiple);

/**
 * Searches effects of the packed tile under a traffic of trucks abreast and lowers its results. In one
 * pattern of open bearings effects add up over the trucks: the worst trucks of a pattern are found exactly by
 * going through the lanes from left to right. The pattern that they bring about is taken next, until it
 * stays; if it goes round in a circle, trucks are moved one after the other from the worst that was met, and
 * the result is marked `local`. The worker's lines are those with all bearings closed, its bounds those of
 * the tile. asked (demand): lanes of the tile that are searched for it, by bits.
 */
ss_status ss_reach_abreast(ss_reach_exact_task *x, const unsigned *asked, ss_error *error);

#endif
