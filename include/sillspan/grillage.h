/* grillage.h - the factored stiffness, its springs condensed, solutions, and how far they can be trusted. */
#ifndef SILLSPAN_GRILLAGE_H
#define SILLSPAN_GRILLAGE_H

#include "sillspan/mesh.h"

/** Right-hand sides are solved in tiles: x[dof * SS_TILE + lane]. */
enum { SS_TILE = 32 };

typedef struct ss_grillage ss_grillage; /**< read-only once made; any number of threads may solve */
typedef struct ss_update ss_update;     /**< changed springs on a grillage */

typedef struct ss_trust {
    double rcond;     /**< reciprocal condition number of the matrix scaled to a unit diagonal (dpbcon) */
    int free_motions; /**< 0 in a grillage that was made; a refusal says how many block inverse iteration
                         found */
    bool doubtful;    /**< rcond below 1e-12 */
} ss_trust;

/**
 * Factors the bridge with every spring closed. Soft springs go into the band matrix as they are; rigid, very
 * stiff and contact springs go in with a moderate reference stiffness and are set right by a small dense
 * system, so that no digits are lost (theory, "Springs"). SS_ERROR_MECHANISM names what moves: the car and
 * its line, and how ("car south can roll: ... no bearing holds its twist"). Sets OpenBLAS to one thread for
 * the whole process, so that results do not depend on its threads.
 */
ss_status ss_grillage_create(const ss_mesh *mesh, ss_grillage **out, ss_error *error);
void ss_grillage_destroy(ss_grillage *grillage);

const ss_mesh *ss_grillage_mesh(const ss_grillage *grillage);
const ss_trust *ss_grillage_trust(const ss_grillage *grillage);

/**
 * Springs with another flexibility than described: `flexibility` has spring_count entries, INFINITY is open.
 * SS_ERROR_MECHANISM when what is left moves. Everywhere below `update` NULL means the grillage as described,
 * all contact springs closed.
 */
ss_status ss_update_create(const ss_grillage *grillage, const double *flexibility, ss_update **out,
                           ss_error *error);
void ss_update_destroy(ss_update *update);

/** Solves K x = b in place for a tile of SS_TILE columns (order x SS_TILE). No allocation; thread-safe.
 * `work`: ss_grillage_work doubles. */
void ss_grillage_solve(const ss_grillage *grillage, const ss_update *update, double *tile, double *work);
size_t ss_grillage_work(const ss_grillage *grillage, const ss_update *update);

/** Fields (m, rad) of unit offsets (settlements) of up to SS_TILE springs, as a tile. By Betti's theorem
 * field j is also the influence field of spring force p_j: p_j under a load P is field_j . P. Open springs
 * give zero. Lanes from `count` on are zero. */
void ss_grillage_settle(const ss_grillage *grillage, const ss_update *update, int count, const int *springs,
                        double *tile, double *work);

/** The same of up to SS_TILE contact springs, all closed, with the digits of ss_grillage_respond: the state
 * of contact hangs on small sums of large reactions. */
ss_status ss_grillage_settle_refined(const ss_grillage *grillage, int count, const int *springs, double *tile,
                                     ss_error *error);

/** Whether a spring's force may be had from its displacement: it is neither rigid nor so stiff that digits
 * would be lost. */
bool ss_grillage_soft(const ss_grillage *grillage, int spring);

/**
 * One load with spring offsets (NULL: none): displacements u (order) and every spring force p (spring_count;
 * positive pushes the bridge up, or the left edge). `nodal` may be NULL (offsets alone).
 */
ss_status ss_grillage_respond(const ss_grillage *grillage, const ss_update *update, const double *nodal,
                              const double *offset, double *u, double *force, ss_error *error);

/** The contact springs: their indices, and S (count x count, symmetric, row major): S[i][j] is the change of
 * p_i when spring j is opened by a unit distance and all others stay closed; positive semidefinite. */
int ss_grillage_contact(const ss_grillage *grillage, const int **springs, const double **S);

/** |sum of forces - sum of loads| and both moment sums, over the larger of load or force sums: the
 * equilibrium error of a solution. */
double ss_grillage_equilibrium(const ss_grillage *grillage, const ss_load *load, const double *force);

#endif
