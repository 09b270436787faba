/* composite.h - a steel section and the concrete that acts with it, as one elastic section of steel. */
#ifndef SILLSPAN_COMPOSITE_H
#define SILLSPAN_COMPOSITE_H

#include "sillspan/section.h"
#include "sillspan/slab.h"

/** Transformed to steel: concrete counts 1/n of its area, bars all of theirs. Heights from the lowest fibre
 * of the steel. A modulus is that of a stress in steel: stress in the concrete is M / (n S_slab). */
typedef struct ss_composite_properties {
    double A, I;            /**< m2, m4 */
    double z;               /**< m, elastic neutral axis */
    double J;               /**< m4: steel, and b t^3 / 6 of the slab by the ratio of shear moduli, which
                               counts as n */
    double S_bottom, S_top; /**< m3, of the steel's faces; S_top INFINITY where the axis lies at it */
    double S_slab;          /**< m3, of the slab's top; INFINITY when cracked */
    double S_bars;          /**< m3, of the bars farther from the axis; INFINITY without bars */
    double Q;               /**< m3, first moment of slab and bars about the axis */
    double depth;           /**< m, to the top of the slab */
} ss_composite_properties;

/**
 * `cracked`: the concrete counts nothing, its bars do. Area, second moment and centroid of the steel must be
 * known; a section given by properties has its centroid by I / S_bottom, or depth less I / S_top.
 * SS_ERROR_DESCRIPTION otherwise, with a sentence.
 */
ss_status ss_composite_at(const ss_section_properties *steel, const ss_slab_flange *flange, bool cracked,
                          ss_composite_properties *out, ss_error *error);

#endif
