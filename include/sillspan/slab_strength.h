/* slab_strength.h - the concrete slab itself between its lines: what a strip carries, what wheels ask of it,
 * punching, and what its bars have to keep.
 */
#ifndef SILLSPAN_SLAB_STRENGTH_H
#define SILLSPAN_SLAB_STRENGTH_H

#include <stdbool.h>

#include "sillspan/deck_strength.h"
#include "sillspan/requirement.h"
#include "sillspan/resistance.h"
#include "sillspan/slab.h"
#include "sillspan/working.h"

/** Resistance factors of reinforced concrete (AASHTO LRFD 5.5.4.2, from memory). The Standard Specifications
 * have 0.85 for shear. */
#define SS_PHI_SLAB_BENDING 0.90
#define SS_PHI_SLAB_BRITTLE 0.75
#define SS_PHI_SLAB_SHEAR 0.90

/** Modulus (Pa) of concrete of strength fc (Pa) that weighs `weight` (N/m3) without bars, 33 000 wc^1.5
 * sqrt(fc) in kip/ft3 and ksi (AASHTO LRFD 5.4.2.4 up to the 6th ed.; from memory). Reinforced concrete
 * weighs about 5 lb/ft3 more than that. NaN when a value is not positive. */
double ss_slab_E(double fc, double weight);

/** Modular ratio that tables have for fc (Pa): 10, 9, 8, 7, 6 from 2.4, 2.9, 3.6, 4.6 and 6 ksi on
 * (AASHTO Standard Specifications 10.38.1.3, from memory). 0: below the table. */
int ss_slab_table_n(double fc);

/** A metre of slab in one direction. */
typedef struct ss_slab_section {
    double thickness;   /**< m */
    double fc, E;       /**< Pa, of the concrete */
    double fy, steel_E; /**< Pa, of the bars */
    ss_bars top, bottom;
} ss_slab_section;

/** Of a slab, along or across the lines; `steel_E` of its bars. */
ss_slab_section ss_slab_section_of(const ss_slab *slab, bool along, double steel_E);

/** Strength in bending, per m of width. */
typedef struct ss_slab_moment {
    ss_resistance nominal; /**< N m per m */
    double phi;            /**< 0.90 where the bars strain by 0.005, down to 0.75 where they just yield */
    double depth;          /**< m, from the compressed face to the bars that pull */
    double axis;           /**< m, from that face to the neutral axis; NaN without bars */
    double strain;         /**< of those bars when the concrete crushes */
} ss_slab_moment;

/**
 * Rectangular stress block, 0.85 fc (less above 10 ksi) over beta1 of the neutral axis, strain 0.003 at the
 * face, bars elastic up to fy (AASHTO LRFD 5.6.2, 5.6.3; from memory). Only the layer that pulls counts: the
 * bottom when sagging, the top else. Without bars the moment is 0. NaN and why: bars outside the slab.
 */
ss_slab_moment ss_slab_moment_of(const ss_slab_section *section, bool sagging, ss_working *working);

/** Shear of a metre of slab without stirrups, 2 sqrt(fc) b dv in psi and in, dv = max(d - a/2, 0.9 d) (AASHTO
 * LRFD 5.7.3.3, 5.7.3.4.1, 5.7.2.8; from memory; its 0.72 h is left out, which lies below the bars of a thin
 * slab). N per m, no phi. */
ss_resistance ss_slab_shear(const ss_slab_section *section, bool sagging, ss_working *working);

/** Which moment a slab has to be stronger than so that it does not break when it cracks. */
typedef enum ss_slab_minimum {
    SS_SLAB_MINIMUM_GAMMA = 0, /**< 1.6 x 0.67 x 0.24 sqrt(fc) S (LRFD 5.6.3.3 since the 6th ed.) */
    SS_SLAB_MINIMUM_OLD        /**< 1.2 x 0.24 sqrt(fc) S (LRFD before 2005) */
} ss_slab_minimum;

/** Moment (N m per m) at which the plain section cracks, 0.24 sqrt(fc) S in ksi (5.4.2.6, from memory). */
double ss_slab_cracking_moment(const ss_slab_section *section);

/** A cracked section of a metre of slab, elastic. */
typedef struct ss_slab_cracked {
    double n;      /**< modular ratio, not rounded */
    double axis;   /**< m, from the compressed face */
    double I;      /**< m4 of concrete, per m */
    double share;  /**< of the whole section's b t^3/12 */
    double stress; /**< Pa a N m per m, in the bars that pull; NaN without them */
} ss_slab_cracked;

/** Both layers count, n times their area where they pull and n - 1 times where the concrete is compressed.
 * Without bars all is 0; NaN for values that are not positive or bars outside the slab. */
ss_slab_cracked ss_slab_cracked_of(const ss_slab_section *section, bool sagging);

/** Shear (N) of the slab around a wheel, (0.063 + 0.126/beta) sqrt(fc) bo d <= 0.126 sqrt(fc) bo d in ksi and
 * in, bo half of `depth` d (m, mean of the two lower layers) outside the wheel's area, beta its long side
 * over its short one (AASHTO LRFD 5.12.8.6.3, from memory). No phi, no share of bars, away from edges. */
ss_resistance ss_slab_punching(ss_wheel_patch patch, double depth, double fc, ss_working *working);

/* ---- what wheels and weight ask -------------------------------------------------------------------- */

/** Widths (m) of slab that carry an axle's wheel: 26 in + 6.6 S and 48 in + 3.0 S with the span S in ft, and
 * of an overhang 45 in + 10 X with X ft from the support to the load (AASHTO LRFD Table 4.6.2.1.3-1, from
 * memory). Lengths in m. */
double ss_slab_strip_sagging(double span);
double ss_slab_strip_hogging(double span);
double ss_slab_strip_overhang(double reach);

typedef enum ss_slab_span_kind {
    SS_SLAB_SPAN_CONTINUOUS = 0, /**< runs over several lines */
    SS_SLAB_SPAN_SIMPLE,         /**< two lines alone */
    SS_SLAB_SPAN_HINGED,         /**< over a gap, a hinge in its middle: two cantilevers that share shear */
    SS_SLAB_SPAN_OVERHANG        /**< beyond the outer line, or over a gap that is open */
} ss_slab_span_kind;

typedef struct ss_slab_span {
    ss_slab_span_kind kind;
    double span;         /**< m, between lines; of an overhang from the line to the slab's edge */
    double reach;        /**< m, overhang: from the line to the middle of the wheel nearest to the edge;
                            negative: within the line */
    double wheel;        /**< N */
    double patch;        /**< m, size of its area along the span, 20 in and the slab's thickness at most (LRFD
                            4.6.2.1.6) */
    double next_wheel;   /**< m, to the next wheel beside it, 4 ft of trucks abreast; 0 or NaN: none. Spans of
                            more than twice this are refused */
    double axle_spacing; /**< m, to the next axle: no strip is wider; 0 or NaN: alone */
    double dead;         /**< N/m2 */
} ss_slab_span;

/** Per m of width, without load factors, dynamic allowance and multiple presence; none is negative. */
typedef struct ss_slab_demand {
    double sagging_live, hogging_live; /**< N m per m */
    double shear_live;                 /**< N per m */
    double sagging_dead, hogging_dead, shear_dead;
    double sagging_strip, hogging_strip; /**< m */
    const char *why;                     /**< NULL, or why there is none (then all are NaN) */
} ss_slab_demand;

/**
 * One wheel P and, where there is one, the next at a, on strips of LRFD 4.6.2.1.3. Span L, wheel's area c:
 * simple and continuous as ss_deck_demand_of, bounds for equal spans (simple: L/4 - c/8, no hogging; sagging
 * without the two wheels beside one line; hogging no less than a wheel over the middle line of two spans
 * gives, c/32 (2 - c/(2 L))^2); hinged P L/4 over both lines, from the wheel on the hinge, on the strip of an
 * overhang of L/2;
 * overhang P times the arm of what of its area is beyond the line. Shear is the reaction over the narrower
 * strip. Weight w: simple w L^2/8 and w L/2; continuous w L^2/10 sagging, w L^2/8 hogging, 5/8 w L;
 * cantilevers w L^2/2 and w L of their length.
 */
ss_slab_demand ss_slab_strip_demand(const ss_slab_span *span, ss_working *working);

/* ---- what its bars have to keep ---------------------------------------------------------------------- */

/** What is looked at. NaN: not known, and what needs it is left out with words. */
typedef struct ss_slab_checked {
    ss_slab_section across, along;
    double span;                               /**< m, between lines */
    double factored_sagging, factored_hogging; /**< N m per m, for 1.33 Mu */
    double service_sagging, service_hogging;   /**< N m per m, for the width of cracks */
    ss_slab_minimum minimum;
    double exposure; /**< gamma_e: 1.00, or 0.75 where cracks matter more */
} ss_slab_checked;

/** Adds to *out: thickness (LRFD 9.7.1.1), strength at cracking (5.6.3.3), ductility, distribution steel
 * (9.7.3.2, main bars across the traffic), shrinkage and temperature (5.10.6), distances of bars (5.10.3,
 * 5.10.6), cover (5.10.1), width of cracks (5.6.7). From memory. */
void ss_slab_details(const ss_slab_checked *checked, ss_requirements *out);

#endif
