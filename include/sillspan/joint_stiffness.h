/* joint_stiffness.h - how stiff the joints between cars are, estimated from their parts. */
#ifndef SILLSPAN_JOINT_STIFFNESS_H
#define SILLSPAN_JOINT_STIFFNESS_H

#include "sillspan/joint_strength.h"
#include "sillspan/working.h"

/** What spans the gap, taken as a beam between the lines where the cars hold it. */
typedef struct ss_joint_span {
    double EI;    /**< N m2 of a connector, N m2 per m of a joint all along */
    double GA;    /**< N, or N per m; shear stiffness; 0 or NaN: no shear deformation */
    double reach; /**< m, s between the lines that hold it; the middle of the gap is midway */
    ss_joint_edge left, right;
    bool connector; /**< one by itself; false: a joint all along, everything per length */
} ss_joint_span;

/** Springs at the middle of the gap, with rigid arms from the cars: N/m and N m per rad of a connector, both
 * per m of a joint all along. */
typedef struct ss_joint_stiffness {
    double shear;    /**< against a step */
    double rotation; /**< against a fold; 0 with a hinge */
    const char *why; /**< NULL, or why there is none (then both are NaN) */
} ss_joint_stiffness;

/**
 * Both edges fixed: 12 EI/s^3 / (1 + f) and EI/s, f = 12 EI/(GA s^2). One hinged: 3 EI/s^3 / (1 + f/4), and
 * no rotation; the hinge then sits at that edge, half of s from where the spring is. Both hinged: none of
 * either. Slip, the give of welds and of what they are welded to make a real joint softer.
 */
ss_joint_stiffness ss_joint_span_stiffness(const ss_joint_span *span, ss_working *working);

/** The span of a plate of `thickness` (m), modulus E and shear modulus G (Pa), per length: EI = E t^3/12, GA
 * = 5/6 G t. G 0 or NaN: no shear deformation. Edges fixed; change them as need be. */
ss_joint_span ss_joint_span_of_plate(double thickness, double reach, double E, double G);

#endif
