/* unknown_trials.h - the bridge of a description as an evaluator of its unknowns, and the studies with it. */
#ifndef SILLSPAN_UNKNOWN_TRIALS_H
#define SILLSPAN_UNKNOWN_TRIALS_H

#include "sillspan/bounds.h"
#include "sillspan/sample.h"
#include "sillspan/trial.h"

/** Answers of each point: the controlling rating, the limit of a sign for each group of vehicles (tons of
 * 2000 lb), and that of emergency vehicles. */
enum { SS_UNKNOWN_ANSWERS = 2 + SS_POSTING_GROUPS };

/** A study may be off from a full search by this share of it; beyond, the places that the full search found
 * are watched too, and the study begins again, once. */
#define SS_UNKNOWN_OFF 0.005

/** Stays where it is: the evaluator points into it. */
typedef struct ss_unknown_trials {
    const ss_unknown_set *set;
    ss_trials trials;
    ss_study_watch watch;
    ss_evaluator evaluator;
    const double *points; /**< of the call at hand */
    ss_trial *answers;    /**< of the last call */
    ss_arena arena;       /**< likewise */
    int batch;            /**< of samples: points of a call; 0: a fitting number */
    int searched;         /**< bridges that were searched in full */
    double described;     /**< controlling rating as described */
} ss_unknown_trials;

/**
 * Searches the bridge in full as described, and with all unknowns at their low and at their high ends (those
 * of them that stand). `description`, checked, and `set` outlive it. SS_ERROR_CHECK: the bridge as described
 * has no rating; the error says why.
 */
ss_status ss_unknown_trials_begin(const ss_description *description, const ss_unknown_set *set,
                                  const ss_study_watch *watch, ss_unknown_trials *out, ss_error *error);
void ss_unknown_trials_end(ss_unknown_trials *trials);

/** ss_bounds_compute, and the worst and the best searched in full: full[] has their ratings by
 * ss_bounds_side, NaN where there is none or the study was stopped. */
ss_status ss_unknown_trials_bounds(ss_unknown_trials *trials, int runs, ss_bounds *out, double full[2],
                                   ss_error *error);

/**
 * Shares the draws of a sample with other processes: each of them makes the same trials and calls
 * ss_unknown_trials_sample; in all but the first that returns without a sample once the draws are done.
 * `processes`: how many there are.
 */
void ss_unknown_trials_share(ss_unknown_trials *trials, const ss_workers *workers, int processes);

/** ss_sample_compute, and the draw with the least rating searched in full. */
ss_status ss_unknown_trials_sample(ss_unknown_trials *trials, int draws, uint64_t seed, ss_sample *out,
                                   double *full, ss_error *error);

#endif
