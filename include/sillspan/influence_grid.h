/* influence_grid.h - the influence surface of one effect on a grid over the whole plan, for lines of equal
 * values.
 */
#ifndef SILLSPAN_INFLUENCE_GRID_H
#define SILLSPAN_INFLUENCE_GRID_H

#include "sillspan/permanent.h"

/** Values over x and y. Where the surface jumps a place is there twice, with the value from either side. */
typedef struct ss_influence_grid {
    ss_effect effect;
    int nx, ny;
    double *x, *y; /**< ascending, m */
    double *value; /**< [i * ny + j] of (x[i], y[j]): effect of 1 N downward through the deck there; NaN:
                      there is no car */
    bool *open;    /**< spring_count of the mesh: contact springs that dead load leaves open */
    int open_count;
    ss_arena arena;
} ss_influence_grid;

/**
 * The exact surface at the stations of the mesh and at the kinks of the deck across, with bearings open or
 * closed as the present dead load leaves them: a small force changes none of that. Between stations it is
 * smooth. SS_ERROR_DESCRIPTION: the effect is not one of a member that is there. SS_ERROR_MECHANISM: without
 * the bearings that are open something moves freely.
 */
ss_status ss_influence_grid_compute(const ss_permanent *permanent, const ss_effect *effect,
                                    ss_influence_grid *out, ss_error *error);
void ss_influence_grid_destroy(ss_influence_grid *grid);

#endif
