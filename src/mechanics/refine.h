/* refine.h - the residual of a solution computed from member deformations, and the step of refinement that it
 * feeds. */
#ifndef SS_MECHANICS_REFINE_H
#define SS_MECHANICS_REFINE_H

#include "mechanics/band.h"
#include "sillspan/mesh.h"

/** A member as its deformations see it: end moments (aa, ab, bb) on the rotations against the chord, and
 * torsion. */
typedef struct ss_deformed {
    int w_a, slope_a, twist_a, w_b, slope_b, twist_b; /* degrees of freedom */
    double sign;                                      /* slope = sign * rotation */
    double length, aa, ab, bb, torsion;
} ss_deformed;

/** What the residual needs; all from the mesh and the springs as they are in the band matrix. */
typedef struct ss_refining {
    const ss_mesh *mesh;
    const ss_factor *factor;
    const double *stiffness; /* spring_count */
    const double *hold;      /* order: see hold_idle_twists */
    ss_deformed *member;     /* element_count, owned */
} ss_refining;

ss_status ss_refining_create(const ss_mesh *mesh, const ss_factor *factor, const double *stiffness,
                             const double *hold, ss_refining *out, ss_error *error);
void ss_refining_destroy(ss_refining *refining);

/** r = b - K x for `lanes` columns (1 or SS_TILE) side by side: x[dof lanes + lane]. r may be b. */
void ss_refining_residual(const ss_refining *refining, int lanes, const double *b, const double *x,
                          double *r);

/** Solves K x = b for `lanes` columns and refines once; b is spoiled. */
void ss_refining_solve(const ss_refining *refining, int lanes, double *b, double *x);

#endif
