/* sweep.h - one value of a description, or two, gone through from end to end, each point rated and followed.
 */
#ifndef SILLSPAN_SWEEP_H
#define SILLSPAN_SWEEP_H

#include "sillspan/trial.h"

/** What is gone through. */
typedef struct ss_sweep_axis {
    const ss_unknown *unknown;
    bool joint; /**< every path is a stiffness of a joint, or a joint's scale */
    bool whole; /**< from no joint to a rigid one: the first value is 0, the last INFINITY */
    int count;
    double *value; /**< SI, or index of a text; ascending unless they are texts */
    double
        described; /**< what the description has of it, as `value`; NaN: nothing, or not all paths the same */
} ss_sweep_axis;

typedef struct ss_sweep_plan {
    const ss_description *base;
    const ss_bridge *bridge; /**< the base resolved */
    int axis_count;          /**< 1 or 2 */
    const ss_unknown *unknown[2];
    int points[2]; /**< of a range; 0: a fitting number */
    bool whole;    /**< one axis, a joint's scale: from none to rigid, its range found by itself */
    ss_trial_options options;
} ss_sweep_plan;

/** A point that was searched in full, and its controlling factor there; NaN: it has none. */
typedef struct ss_sweep_check {
    int point;
    double searched;
    bool off; /**< the places watched before did not give it */
} ss_sweep_check;

/** Most points that are searched in full: the ends and the middle, of two axes nine, and what those miss. */
enum { SS_SWEEP_CHECKS = 24 };

/** Where a result leaves the value that it has at either end by 5 % of all that it changes by. */
typedef struct ss_sweep_band {
    double least, most; /**< of the result along the sweep; NaN: it has none */
    double from, to;    /**< values of the axis; NaN: it never changes */
} ss_sweep_band;

typedef struct ss_sweep {
    int axis_count;
    ss_sweep_axis axis[2];
    int count;              /**< points: the second axis goes fastest */
    int done;               /**< the first ones, which have results: all unless it was stopped */
    ss_trial *points;       /**< count */
    ss_trials trials;       /**< what is followed, and where trucks are */
    bool closed;            /**< out of one factorisation, not by an analysis each */
    int worst, best;        /**< points of the smallest and the largest factor; -1: none has one */
    int described;          /**< the point that is the description as it is; -1: none */
    ss_sweep_band rating;   /**< of the controlling factor, along the first axis; one axis only */
    ss_sweep_band *results; /**< of each that is followed */
    int joint_full;         /**< first point at which a joint would be full before the members; -1: none */
    ss_sweep_check checks[SS_SWEEP_CHECKS]; /**< each point once */
    int check_count;
    ss_arena arena;
} ss_sweep;

/**
 * Searches the ends and the middle in full and rates every point at the places found there. Then it searches
 * the worst, the described and the best point, the last one before a joint is full, points in the middle of
 * those that were searched while these lie far apart, and points at which other joints are full; wherever a
 * search finds something else than the watched places gave, its places are watched too and all is rated
 * again. Sweeps of joints come out of one
 * factorisation where that takes less time than an analysis of each point. Errors: no memory,
 * SS_ERROR_LIMIT for more than 100,000 points, and whatever leaves no point with a result.
 */
ss_status ss_sweep_compute(const ss_sweep_plan *plan, ss_sweep *out, ss_error *error);
void ss_sweep_destroy(ss_sweep *sweep);

/** Value i of an axis for people: "0.3 kip/in per in", "none", "rigid", "closed". Returns buffer, or a word.
 */
const char *ss_sweep_value_words(const ss_sweep_axis *axis, int i, ss_unit_system units, char *buffer,
                                 size_t size);

#endif
