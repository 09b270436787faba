/* joint_stiffness.h - how stiff the joints between cars are, estimated from their parts. */
#ifndef SILLSPAN_JOINT_STIFFNESS_H
#define SILLSPAN_JOINT_STIFFNESS_H

#include "sillspan/joint.h"
#include "sillspan/working.h"

/** What spans the gap, taken as a beam between the lines where the cars hold it. */
typedef struct ss_joint_span {
    double EI;    /**< N m2 of a connector, N m2 per m of a joint all along */
    double GA;    /**< N, or N per m; shear stiffness; 0 or NaN: no shear deformation */
    double reach; /**< m, s between the lines that hold it; the middle of the gap is midway */
    double turn;  /**< N m/rad, or per m: what holds a fixed edge against turning; 0, NaN: it does not turn */
    ss_joint_edge left, right;
    bool connector; /**< one by itself; false: a joint all along, everything per length */
} ss_joint_span;

/** Springs at the middle of the gap, or at the hinge, with rigid arms from the cars: N/m and N m per rad of a
 * connector, both per m of a joint all along. */
typedef struct ss_joint_stiffness {
    double shear;     /**< against a step */
    double rotation;  /**< against a fold; 0 with a hinge */
    double at;        /**< m right of the middle of the gap: the hinge, where only one edge has one; else 0 */
    const char *why;  /**< NULL, or why there is none (then both are NaN) */
    const char *note; /**< NULL, or why the step meets no stiffness */
} ss_joint_stiffness;

/**
 * Both edges fixed: 12 EI/s^3 / (1 + f) and EI/s, f = 12 EI/(GA s^2). One hinged: 3 EI/s^3 / (1 + f/4), and
 * no rotation; the spring then acts at the hinge, `at` half of s from the middle of the gap. Both hinged, or
 * one loose: none of either. With springs `turn` = r at the fixed edges f grows by 6 EI/(r s), f/4 by 3 EI/(r
 * s), and EI/s becomes 1/(s/EI + 2/r). These are the beam's whole slope-deflection matrix. Slip, the give of
 * welds and of what they are welded to make a real joint softer.
 */
ss_joint_stiffness ss_joint_span_stiffness(const ss_joint_span *span, ss_working *working);

/** The span of a plate of `thickness` (m), modulus E and shear modulus G (Pa), per length: EI = E t^3/12, GA
 * = 5/6 G t. G 0 or NaN: no shear deformation. Edges fixed; change them as need be. Plane strain would make
 * it 10 % stiffer; the softer value is taken. */
ss_joint_span ss_joint_span_of_plate(double thickness, double reach, double E, double G);

/**
 * Stiffness of one bolt, N/m, in shear and in bearing on both parts, in series: 8 d^2 f_ub/d_M16 a plane and
 * 12 k_b k_t d f_u each, half of what EN 1993-1-8 Table 6.11 gives a row of two (from memory), k_b = 0.5 +
 * 0.25 e/d and 0.375 + 0.25 p/d up to 1.25, k_t = 1.5 t/d_M16 up to 2.5, bolts not preloaded, e =
 * detail->clear + d/2. With `slip` and `slip_force` F the secant F/(slip + F/k). NaN when a size is not
 * known.
 */
double ss_joint_bolt_stiffness(const ss_joint_detail *detail, ss_working *working);

/** Of a rod (N/m) held by concrete over `width` (m), pushed at both faces in opposite senses and free to turn
 * there: against the step of the two faces; beam on elastic foundation (Hetenyi; Timoshenko and Friberg for
 * dowels of pavements), k_0 = 300 kip/in3, the least of the range for dowels, from memory. */
double ss_joint_dowel_stiffness(double diameter, double width);

/**
 * Stiffness of a joint by what it is made of, before any scale, as springs at the middle of the gap: per
 * length, of bolts for one connector. A plate: beam between its welds, where an edge with one fillet and no
 * lap is a hinge, as for its strength. Bolts: both groups in series, n k and k sum z^2 each, the connector
 * rigid. Planks: beam with a back span on each car. Concrete: dowels, or the whole beam; the cracked section
 * with the rods' stretch. An upper estimate: what the parts are fastened to gives too. Kind NONE has none.
 */
ss_joint_stiffness ss_joint_estimate(const ss_joint_detail *detail, ss_working *working);

/** "plate", "bolts", "concrete", "planks", as a description writes it; "" for NONE. */
const char *ss_joint_detail_name(ss_joint_detail_kind kind);

/** The kind as a description writes it: "none", "hinged", "rigid", "springs", or what it is estimated from.
 */
const char *ss_joint_kind_name(const ss_joint *joint);

#endif
