/* element.h - one prismatic member in its own axes: stiffness, load shape, end forces, deflection between its
 * ends. */
#ifndef SS_MECHANICS_ELEMENT_H
#define SS_MECHANICS_ELEMENT_H

#include "sillspan/mesh.h"

/**
 * Own coordinates, in this order: w_a, slope_a, twist_a, w_b, slope_b, twist_b; slope is dw/ds towards b (of
 * the cross-section, not of the axis, where there is shear deformation). Own coordinate i is sign[i] times
 * global degree of freedom map[i] (0 to 5, of nodes a then b).
 */
typedef struct ss_element_axes {
    int map[6];
    double sign[6];
} ss_element_axes;

ss_element_axes ss_element_axes_of(const ss_element *element);

/** Stiffness in own coordinates, row major. */
void ss_element_own_stiffness(const ss_element *element, double k[36]);

/** Load shape in own coordinates: see ss_element_shape. */
void ss_element_own_shape(const ss_element *element, double c[6][4]);

/** Equivalent nodal forces, own coordinates, of 1 N/m between s0 and s1. */
void ss_element_own_uniform(const ss_element *element, double s0, double s1, double f[6]);

/**
 * A unit moment about x on one end of a floor beam's bay, from what hangs out beyond it: equivalent nodal
 * forces in global degrees of freedom. A hinge is between the beam and the line, and the overhang is part of
 * the beam: its moment then bends the bay and comes to both lines as a lever does, and none of it twists the
 * line.
 */
void ss_element_overhang(const ss_element *element, bool at_b, double f[6]);

/**
 * Deflection at s of the member whose ends neither sink nor (unless hinged) turn, with end moment M_a and
 * shear V_a at a, under a unit force at `force_at` (negative: none) and q N/m all over it.
 */
double ss_element_clamped_deflection(const ss_element *element, double s, double M_a, double V_a,
                                     double force_at, double q);

/** Value at s of the polynomial c0 + c1 s + c2 s^2 + c3 s^3. */
static inline double ss_cubic(const double c[4], double s) {
    return c[0] + s * (c[1] + s * (c[2] + s * c[3]));
}

#endif
