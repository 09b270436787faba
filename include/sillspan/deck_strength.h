/* deck_strength.h - the deck between its supports under a wheel: steel plate, timber planks, grating. */
#ifndef SILLSPAN_DECK_STRENGTH_H
#define SILLSPAN_DECK_STRENGTH_H

#include <stdbool.h>

#include "sillspan/working.h"

/** The area on which a wheel presses. */
typedef struct ss_wheel_patch {
    double along;  /**< m, in the direction of traffic */
    double across; /**< m, the width of the tyres */
} ss_wheel_patch;

typedef enum ss_patch_rule {
    SS_PATCH_LRFD = 0, /**< AASHTO LRFD 3.6.1.2.5: 10 x 20 in, one or two tyres, whatever the load */
    SS_PATCH_STANDARD, /**< AASHTO Standard Specifications 3.30: 0.01 in2 a pound, 2.5 times as wide as long
                        */
    SS_PATCH_LM1,      /**< EN 1991-2 4.3.2: 0.40 m square, before spreading */
    SS_PATCH_LM2       /**< EN 1991-2 4.3.3: 0.35 m x 0.60 m */
} ss_patch_rule;

/** Contact area of a wheel (all rules from memory). `wheel` in N matters to SS_PATCH_STANDARD alone. Sizes
 * are NaN when that wheel is not positive, or the rule is none of these. */
ss_wheel_patch ss_wheel_patch_of(ss_patch_rule rule, double wheel);

/** The area at depth `depth` (m) below the contact: larger by `depth` on every side, 45 degrees. For layers
 * of which a rule says so, and not for loose ones. NaN when the depth is negative. */
ss_wheel_patch ss_wheel_patch_spread(ss_wheel_patch patch, double depth);

/** A piece of deck between two supports, and the wheel on it. */
typedef struct ss_deck_span {
    double span;       /**< m, between the middles of its supports */
    bool continuous;   /**< runs over three supports or more: 0.8 of the simple span's moment */
    double patch_span; /**< m, size of the wheel's area in the direction of the span */
    double patch_side; /**< m, its size at right angles to that */
    double next_wheel; /**< m, to the next wheel of the same load that can stand on the same span, 4 ft of
                          trucks abreast or of a tandem; 0 or NaN: none can. Spans of more than twice this are
                          refused */
} ss_deck_span;

/** What one wheel of 1 N does. */
typedef struct ss_deck_demand {
    double moment;   /**< N m a N, the largest moment in the span */
    double shear;    /**< N a N, at the critical section */
    const char *why; /**< NULL, or why there is none (then both are NaN) */
} ss_deck_demand;

/**
 * Largest moment of a wheel in the middle of a simple span L, L/4 - c/8 (L^2/(8c) where its area c is
 * longer); with a second wheel at a no less than (L - a/2)^2 / (2L), both as points. Continuous: 0.8 of the
 * first (AASHTO Standard Specifications 3.24.3.1, from memory), but no less than equal spans have by statics:
 * 0.205 L
 * - c/8, and with a second wheel 0.212 L - c/8, 0.825 of (L - a/2)^2 / (2L), and 0.207 L over a support when
 * they can stand on both sides of it. Shear with the near edge of the area `shear_from` (m) from the middle
 * of the support: 0 for steel, the thickness for timber (NDS 3.4.3: load nearer than that goes straight into
 * the support), of a continuous deck 0.1035 a wheel more for the moment over the support.
 */
ss_deck_demand ss_deck_demand_of(const ss_deck_span *span, double shear_from);

/** What a deck can carry, beside what one wheel of 1 N does to the same strip. */
typedef struct ss_deck_check {
    double strip;           /**< m, width of deck that carries one wheel */
    double moment_demand;   /**< N m a N of wheel, on that strip */
    double moment_capacity; /**< N m; NaN: not asked of this deck */
    double shear_demand;    /**< N a N of wheel */
    double shear_capacity;  /**< N; NaN: not asked of this deck */
    double wheel;           /**< N, the wheel that fills it when nothing else is on it; NaN: see why */
    const char *governs;    /**< "bending of the plate" ... */
    const char *why;        /**< NULL, or why there is no figure */
} ss_deck_check;

/** Wheel (N) that still fits when other loads take `moment` (N m) and `shear` (N) of the strip: the smaller
 * of capacity less those over demand. Negative when they alone are too much; NaN when the check is. Factors
 * of loads and impact are the caller's: a rating factor is this over the factored wheel. */
double ss_deck_wheel_left(const ss_deck_check *check, double moment, double shear);

typedef struct ss_deck_plate {
    double thickness; /**< m */
    double fy;        /**< Pa */
    bool plastic;     /**< moment Fy t^2/4 in place of first yield, Fy t^2/6 */
    double strip;     /**< m, width that carries a wheel; 0 or NaN: ss_deck_plate_strip */
} ss_deck_plate;

/**
 * Width (m) of a steel plate that carries a wheel away from free edges, for a span L and a wheel's area u
 * along the span (at most L is counted) and v across: v + max(0, 0.5 L + 0.3 u - (0.2 + 0.15 u/L) v). Own
 * rule, a lower bound of what thin plate theory gives for a plate on two parallel supports, Poisson's ratio
 * 0.3; a test compares it with the series, for areas of at least L/20 square. NaN for sizes that are not
 * positive.
 */
double ss_deck_plate_strip(const ss_deck_span *span);

/** Nominal strength of a steel deck plate: bending of the strip, and shear 0.58 Fy t over the wheel's own
 * side at the support. Membrane action is left out. */
ss_deck_check ss_deck_plate_check(const ss_deck_span *span, const ss_deck_plate *plate, ss_working *working);

typedef struct ss_deck_planks {
    double width, thickness; /**< m, dressed size of one plank, laid flat */
    double spread;           /**< m, width of deck that carries a wheel; 0 or NaN: one plank carries all of it
                                (AASHTO Standard Specifications 3.25.1, plank floor; from memory) */
    double Fb, Fv; /**< Pa, tabulated or otherwise stated stresses in bending and along the grain in shear */
    double load_duration;          /**< on both; 1 where not asked for */
    double wet_bending, wet_shear; /**< wet-use factors; 1 where dry */
    double other_bending;          /**< size, flat use and all others on Fb together; 1 */
} ss_deck_planks;

/** Planks in bending and in horizontal shear (NDS 3.3, 3.4), by the stresses and factors as they are given:
 * allowable stresses give allowable wheels. */
ss_deck_check ss_deck_planks_check(const ss_deck_span *span, const ss_deck_planks *planks,
                                   ss_working *working);

typedef struct ss_deck_grating {
    double moment; /**< N m per m of width, as stated by the maker; 0 or NaN: not stated */
    double strip;  /**< m, width that carries a wheel; 0 or NaN: patch_side */
    double wheel;  /**< N, wheel allowed on this span as stated; 0 or NaN: not stated */
} ss_deck_grating;

/** Grating by what is stated of it; the smaller where both are. */
ss_deck_check ss_deck_grating_check(const ss_deck_span *span, const ss_deck_grating *grating,
                                    ss_working *working);

#endif
