/* spring_sweep.h - responses as functions of one factor on the stiffness of chosen springs, from none to
 * rigid. */
#ifndef SILLSPAN_SPRING_SWEEP_H
#define SILLSPAN_SPRING_SWEEP_H

#include "sillspan/grillage.h"

/**
 * Spring j of those swept has the stiffness k stiffness[j], k from 0 (the spring is not there) to INFINITY
 * (rigid). Every response is then
 *
 *   value(k) = base + sum over modes j of a_j b_j / (1 - l_j + l_j k/k_ref),   0 <= l_j <= 1,
 *
 * and the force of a swept spring such a sum times k: one factored band matrix and one eigenproblem of the
 * size of the swept springs serve all k (theory, "A joint's stiffness swept").
 */
typedef struct ss_spring_sweep ss_spring_sweep; /**< read-only once made; any number of threads may ask */

/** One load: nodal forces and offsets of springs, of swept ones too (what a joint has locked in; a settlement
 * of a bearing is +, its opening by u metres -u). */
typedef struct ss_sweep_load {
    const double *nodal;  /**< order (N, N m), or NULL */
    const double *offset; /**< spring_count (m, rad), or NULL */
} ss_sweep_load;

/** One response: the force of a spring (N, N m; open springs give 0), or row . u. Of a member effect that is
 * the part that depends on k; what a load within the member adds (ss_mesh_effect_local) is the caller's. */
typedef struct ss_sweep_reading {
    int spring; /**< index in the mesh, or -1: `row` counts */
    ss_row row;
} ss_sweep_reading;

typedef struct ss_sweep_task {
    int swept_count;
    const int *swept;          /**< springs of the mesh, neither contact springs nor pads, each once */
    const double *stiffness;   /**< swept_count: at k = 1, > 0 and finite (N/m, N m/rad) */
    const double *flexibility; /**< spring_count: of the springs that are not swept, 0 rigid to INFINITY open;
                                  NULL: as described, contact springs closed. Swept ones are not looked at */
    int load_count;
    const ss_sweep_load *loads;
    int reading_count;
    const ss_sweep_reading *readings;
} ss_sweep_task;

/**
 * Everything of the task is copied, and the grillage need not outlive the sweep. Joints that are to be swept
 * need springs in the mesh: describe them with any stiffness that is not zero, rigid too. SS_ERROR_MECHANISM
 * when the bridge moves though the swept springs are there.
 */
ss_status ss_spring_sweep_create(const ss_grillage *grillage, const ss_sweep_task *task,
                                 ss_spring_sweep **out, ss_error *error);
void ss_spring_sweep_destroy(ss_spring_sweep *sweep);

/**
 * values[reading * load_count + load] at k in [0, INFINITY]. No allocation; thread-safe. `work`:
 * ss_spring_sweep_work doubles. Forces of swept springs do not come from differences of displacements and
 * keep their digits for every k; all agree with an analysis of its own to 1e-9 of the largest of their kind,
 * unless fold and step are swept together and are described more unlike than by 1e4. k = 0 is refused with
 * SS_ERROR_MECHANISM, and what moves, where the bridge needs the swept springs; a k that is negative or not a
 * number with SS_ERROR_INTERNAL. At INFINITY a spring whose displacement follows from rigid bearings carries
 * what it does in an ss_update with flexibility 0.
 */
ss_status ss_spring_sweep_at(const ss_spring_sweep *sweep, double k, double *values, double *work,
                             ss_error *error);
size_t ss_spring_sweep_work(const ss_spring_sweep *sweep);

/** d values / d log k (natural logarithm), for finite k > 0, as above; 0 at both ends. */
ss_status ss_spring_sweep_slope(const ss_spring_sweep *sweep, double k, double *slopes, double *work,
                                ss_error *error);

/** The k at which each mode is half way between no spring and rigid, ascending; INFINITY for what cannot move
 * even without the springs, 0 for what only they hold. Returns their count, that of the swept springs. A
 * factor of 100 beyond the first and the last no mode has more than a hundredth of its way to go. */
int ss_spring_sweep_poles(const ss_spring_sweep *sweep, const double **poles);

/**
 * From how many values of k on a sweep takes less time than factoring anew for each, estimated from the sizes
 * alone: 2 to 5 for bridges of two or three cars (measured: benchmarks/README.md). INT_MAX: never.
 */
int ss_spring_sweep_pays_from(const ss_grillage *grillage, const ss_sweep_task *task);

/**
 * Takes rounding noise out of an S that was formed from responses (count x count, row major, of contact
 * springs `springs`; N/m): symmetric and positive semidefinite afterwards, as ss_contact_solve needs it.
 */
ss_status ss_spring_sweep_clean(const ss_grillage *grillage, int count, const int *springs, double *S,
                                ss_error *error);

#endif
