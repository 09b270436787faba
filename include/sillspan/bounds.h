/* bounds.h - the worst and the best answer over a box of unknowns, and which of them matter. */
#ifndef SILLSPAN_BOUNDS_H
#define SILLSPAN_BOUNDS_H

#include "sillspan/evaluator.h"

/** Runs when not asked otherwise. */
#define SS_BOUNDS_RUNS 200

typedef struct ss_bounds_options {
    int runs; /**< most points that are answered; 0: SS_BOUNDS_RUNS. At least 1 + 2 for each unknown */
    ss_study_watch watch;
} ss_bounds_options;

/** What one unknown by itself does to the first answer: along its line through the middle of the box, and
 * over the whole box. NaN where it is not known. */
typedef struct ss_bounds_effect {
    double at_low, at_high;   /**< answers at the ends of the line */
    double least, most;       /**< least and largest answer anywhere on it */
    double least_at, most_at; /**< values of the unknown there (SI, or index) */
    double swing;             /**< most - least; 0 where no two points of the line have an answer */
    bool monotone;            /**< the answers along the line never turn back */
    double
        total; /**< mean change of the answer when it alone changes from one place in the box to another, the
                  others anywhere: the radial form of elementary effects (Morris, Technometrics 33, 1991) */
} ss_bounds_effect;

typedef enum ss_bounds_side { SS_BOUNDS_WORST, SS_BOUNDS_BEST } ss_bounds_side;

/** The least (worst) or the largest (best) first answer that was found. */
typedef struct ss_bounds_end {
    const double *point;   /**< one value for each unknown; NULL: no point has an answer */
    const double *answers; /**< answer_count */
    signed char *edge; /**< for each unknown -1 at its low end, 1 at its high end, 0 inside; 0 for values one
                          by one */
    bool inside;       /**< some unknown that has a range is inside it */
    bool settled;      /**< the search around it ended by itself, not for want of runs */
} ss_bounds_end;

typedef struct ss_bounds {
    int runs, most_runs;               /**< answered, and allowed */
    int lines, corners, fill, refined; /**< how many of the runs each part of the search had */
    bool all_corners;
    bool stopped;               /**< by options->watch.stop */
    int failed;                 /**< runs without an answer */
    const char *failure;        /**< why the first of them has none, or NULL */
    const double *failed_point; /**< that point, or NULL */
    double middle;              /**< answer at the middle of the box */
    ss_bounds_end ends[2];      /**< by ss_bounds_side */
    ss_bounds_effect *effects;  /**< one for each unknown */
    int *order;                 /**< unknowns by swing or total effect, whichever is larger, largest first */
    ss_arena arena;
} ss_bounds;

/**
 * Looks for the least and the largest first answer over the box of the unknowns, inside too, since contact
 * and the change from one member to another that governs leave kinks: lines through the middle, all corners
 * while they are few (else a two-level fraction of them with its mirror image), stars spread evenly over the
 * box, then a pattern search with shrinking steps around the few worst and best, in each unknown's own scale.
 * Nothing says that what is found is the worst there is. It uses no derivatives, and no chance: the same
 * question has the same answer. SS_ERROR_LIMIT: no unknowns, or too few runs for them.
 */
ss_status ss_bounds_compute(const ss_unknown_set *unknowns, const ss_evaluator *evaluator,
                            const ss_bounds_options *options, ss_bounds *out, ss_error *error);
void ss_bounds_destroy(ss_bounds *bounds);

#endif
