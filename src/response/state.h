/* state.h - solving one state of the bridge: a load with spring offsets, some springs absent, contact on the
 * rest. */
#ifndef SS_RESPONSE_STATE_H
#define SS_RESPONSE_STATE_H

#include "sillspan/permanent.h"

/** What a state is solved from. */
typedef struct ss_state_task {
    const ss_grillage *grillage;
    const ss_update *update; /**< with the absent springs open, or NULL */
    const bool *absent;      /**< spring_count, or NULL: none */
    const double *offset;    /**< spring_count */
    const char *when;        /**< "while the cars stand alone", for messages */
} ss_state_task;

/**
 * Solves for `load`, which moves into `out` on success. SS_ERROR_TIPPING names the bearing that would have to
 * pull most; SS_ERROR_CHECK when forces and loads are out of balance by more than SS_EQUILIBRIUM_MOST.
 */
ss_status ss_state_solve(const ss_state_task *task, ss_load *load, ss_state *out, ss_error *error);

#define SS_EQUILIBRIUM_MOST 1e-8

/** Contact springs and their S (n x n). */
typedef struct ss_contact_springs {
    int n;
    const int *springs;
    const double *S;
} ss_contact_springs;

/**
 * Reactions of contact springs with all closed, out of all spring forces: those that are only rounding of the
 * forces and offsets that they are the sum of count as zero, so that a bearing that just touches is closed.
 */
void ss_contact_reactions(const ss_mesh *mesh, ss_contact_springs contact, const double *force,
                          const double *offset, double *r);

/** Factored dead load (or none) plus factor times `extra` (may be NULL). */
typedef struct ss_load_sum {
    bool dead;
    ss_dead_factors factors;
    const ss_load *extra;
    double factor;
} ss_load_sum;

/** Loads and spring offsets of a sum. `load` is made; `offset` has spring_count. */
ss_status ss_permanent_loads(const ss_permanent *permanent, const ss_load_sum *sum, ss_load *load,
                             double *offset, ss_error *error);

/** Fills `error` for a failed allocation. */
static inline ss_status ss_no_memory(ss_error *error) {
    ss_error_set(error, SS_ERROR_MEMORY, "out of memory");
    return SS_ERROR_MEMORY;
}

/** What a spring effect is of spring forces: factor times the force of `effect->spring`, and of its pair in a
 * bearing. */
double ss_effect_spring_factor(const ss_mesh *mesh, const ss_effect *effect);
static inline bool ss_effect_of_spring(const ss_effect *effect) {
    return effect->member == SS_MEMBER_JOINT || effect->member == SS_MEMBER_BEARING;
}
/** The other spring that counts to the effect, or -1. */
int ss_effect_second_spring(const ss_mesh *mesh, const ss_effect *effect);

#endif
