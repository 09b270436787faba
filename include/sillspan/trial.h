/* trial.h - many variants of one bridge, each rated and followed at the places where trucks govern. */
#ifndef SILLSPAN_TRIAL_H
#define SILLSPAN_TRIAL_H

#include <stdint.h>

#include "sillspan/follow.h"
#include "sillspan/posting.h"
#include "sillspan/work.h"

/** Changes a description, its own to change, into variant `index`. Faults go to `diags`. Called by several
 * threads at once. */
typedef ss_status (*ss_trial_change)(void *context, int index, ss_description *description,
                                     ss_diag_list *diags);

/** What one variant came to. Texts and arrays are in the arena of whoever receives it. */
typedef struct ss_trial {
    const char *failure; /**< NULL, or why there is no result: all below is then NaN or empty */
    double rf;           /**< controlling factor; INFINITY: all trucks only relieve */
    int vehicle;         /**< in the bridge: whose it is; -1 with a failure */
    const char *governs; /**< "stringer 2 of car north, bending"; "" with a failure */
    bool joint_out;      /**< rf is that with a joint out, which would be full first */
    bool full;           /**< found by a search of all places, not at the watched ones alone */
    uint64_t without;    /**< joints that the bridge was rated without besides, bit j for joint j; 0: none */
    double *truck;       /**< rated_vehicle_count: smallest factor of each truck that decides about it; NaN:
                            not rated */
    double joint; /**< smallest factor of the joints that have a capacity; INFINITY: none is loaded; NaN:
                     none has one */
    ss_posting_state posting;
    double sign[SS_POSTING_GROUPS]; /**< limit of each group (N), INFINITY: none; 0: closed */
    double emergency;               /**< limit of the gross weight of emergency vehicles (N) */
    double *followed;               /**< see ss_follow_values; of an anchor as many as were followed then */
    const char *seen;               /**< what `inspect` kept of it; NULL: nothing */
    size_t seen_length;
} ss_trial;

typedef struct ss_trial_options {
    bool follow; /**< live effects are followed too */
    bool full;   /**< every variant is searched in full: what varies are the trucks, or where they go */
    const ss_workers *workers; /**< NULL: the threads of this process */
    void (*progress)(void *context, const char *what, double done);
    bool (*stop)(void *context); /**< asked now and then; true ends a run with what is finished */
    /** Looks at a variant once it is rated, joints that are out included, and appends what it wants to keep:
     * bytes that mean the same in every process. Called by several threads at once; NULL: nothing is kept. */
    ss_status (*inspect)(void *context, const ss_variant *variant, ss_text *out, ss_error *error);
    void *context;
} ss_trial_options;

enum { SS_TRIAL_JOINTS_OUT = 16 };

/** A bridge whose variants are tried. Read `follow` and `watch` only. */
typedef struct ss_trials {
    const ss_description *base;
    ss_trial_options options;
    ss_watch watch;
    ss_follow follow;
    int truck_count; /**< rated vehicles of the bridge */
    int anchor_count;
    uint64_t joints_out[SS_TRIAL_JOINTS_OUT]; /**< sets of joints that would be full first, bit j for joint j:
                                                 the bridge without them was searched */
    int joints_out_count;
} ss_trials;

/** Nothing is rated yet; `base`, checked, outlives it. */
void ss_trials_begin(const ss_description *base, const ss_trial_options *options, ss_trials *out);
void ss_trials_end(ss_trials *trials);

/**
 * Rates one variant with the full search of all places, and watches the places where trucks govern there. A
 * study needs one at least; more of them, at the ends of what varies, make the others surer. `change` NULL:
 * the description as it is. What is wrong with the variant itself is in out->failure; errors: no memory.
 */
ss_status ss_trials_anchor(ss_trials *trials, ss_trial_change change, void *context, int index,
                           ss_arena *arena, ss_trial *out, ss_error *error);

/**
 * Rates variants 0 to count - 1 at the watched places, shared by the workers. Each takes some hundredths of a
 * second, unless it has other trucks, another roadway or other checks than the anchors: then it is searched
 * in full. *done (may be NULL): how many of them, the first ones, there are results for: all unless stopped.
 */
ss_status ss_trials_run(ss_trials *trials, ss_trial_change change, void *context, int count, ss_arena *arena,
                        ss_trial *out, int *done, ss_error *error);

#endif
