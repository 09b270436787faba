/* deck_rating.h - the deck between its supports under the wheels of a truck: rating factors by the checks of
 * the methods, beside those of the members. */
#ifndef SILLSPAN_DECK_RATING_H
#define SILLSPAN_DECK_RATING_H

#include "sillspan/method.h"

/** Where wheels stand on the deck between its supports, and what lies on it. */
typedef struct ss_deck_layout {
    double span;  /**< m, largest distance between neighbouring supports with a wheel between them; NaN: see
                     why */
    int from, to; /**< lines, or floor beams where the deck spans along, at its ends; -1 */
    double overhang; /**< m, farthest that a wheel's middle can stand beyond the last support: not checked */
    double dc, dw;   /**< N/m2, all area loads of the roadway as if they lay on one place */
    const char *why; /**< NULL, or why the deck is not checked */
} ss_deck_layout;

/**
 * The widest span of the chosen deck. Across: between neighbouring lines of a car at any station, and over
 * the gap to the next car where the deck runs over joints; the middle of a wheel must have room between both,
 * by the curbs and the distance to them. Along: between neighbouring floor beams of cars under the roadway.
 */
ss_deck_layout ss_deck_layout_of(const ss_bridge *bridge);

/** One truck's factor. */
typedef struct ss_deck_rating {
    double rf; /**< (capacity - dead) / (factored wheel); 0: dead load alone is too much; NaN: see why */
    const char *why;             /**< NULL, or why there is none */
    const char *governs;         /**< "bending of the planks" ... */
    double wheel;                /**< N, that governs: half its axle, or all of an axle of one wheel */
    double strip;                /**< m of deck that carry it */
    bool allowable;              /**< by allowable values and unfactored loads; else by nominal strength */
    double capacity, dead, live; /**< N m, or N in shear and of a grating's wheel: what may be reached, by
                                    dead load, and by the wheel with all its factors */
    bool bending;                /**< these are moments */
    double dc, dw;               /**< dead load factors */
    double resistance; /**< share of the nominal strength that counts: condition of LRFR, working stress of
                          ASR; 1 */
    double live_factor, presence, allowance;
    const char *live_basis, *presence_basis, *allowance_basis;
} ss_deck_rating;

/**
 * The smallest factor over the wheels of a vehicle, each with the next wheel of its axle or axle group on the
 * same span (trucks abreast too where `crossing` has several lanes). Contact area 10 x 20 in, not spread by
 * surfacing. Steel plate: first yield and shear yield against factored loads, of LRFR times the factor of
 * condition, of ASR by its working stresses; allowance as of a short member. Timber and grating: values that
 * are given as allowable, against loads without factors, presence by the Standard Specifications; timber has
 * half of LRFR's allowance (LRFD 3.6.2.3) and no impact by the older methods (Standard Specifications
 * 3.8.1), both from memory; an allowance that the settings give counts in full. Only strength checks are
 * asked for.
 */
ss_deck_rating ss_deck_rating_of(const ss_bridge *bridge, const ss_deck_layout *layout, const ss_check *check,
                                 const ss_vehicle *vehicle, const ss_crossing_facts *crossing);

#endif
