/* composite_parts.h - a steel section with its slab as the rules share it: properties, plates, plastic
 * balance.
 */
#ifndef SS_ASSESS_COMPOSITE_PARTS_H
#define SS_ASSESS_COMPOSITE_PARTS_H

#include "sillspan/composite_flexure.h"

/** A case prepared. */
typedef struct ss_composite_parts {
    const ss_composite_case *given;
    ss_section_properties steel;
    ss_section_form form;           /**< UNKNOWN without plates */
    ss_composite_properties live;   /**< with the slab under live load; cracked where it hogs */
    ss_plate plates[SS_PLATES_MAX]; /**< at this place */
    int plate_count;                /**< 0: not known */
    double share_of_plates;         /**< area of the steel over that of its plates: losses, and what the
                                       description overrides */
    double centroid;                /**< m, of the steel above its lowest fibre */
} ss_composite_parts;

/** Gathers them. *why is NULL, or a sentence why nothing can be told. */
ss_status ss_composite_gather(const ss_composite_case *given, ss_composite_parts *out, const char **why);

/** How first yield is looked for. */
typedef struct ss_staged_options {
    double share;  /**< of every limit */
    bool concrete; /**< sagging: 0.6 f'c is a limit of the slab */
    bool service;  /**< web bend-buckling counts in full, not its share (6.10.4.2.2) */
} ss_staged_options;

/** ss_composite_yield with options. */
ss_status ss_composite_staged(const ss_composite_case *given, const ss_staged_options *options,
                              ss_resistance *out, ss_working *working);

/** Plates at Fy and slab at 0.85 f'c in balance, sagging. */
typedef struct ss_composite_balance {
    double steel; /**< N, As Fy */
    double slab;  /**< N, 0.85 f'c b ts */
    double force; /**< N in the slab: the least of both and of what is tied */
    double block; /**< m of slab, from its top, that it fills */
    double axis;  /**< m above the lowest fibre: above the slab's underside or in the steel */
    double Dp;    /**< m from the slab's top to the axis */
    double Dcp;   /**< m of web above it */
    double moment;
    bool in_slab; /**< all of the steel is pulled */
} ss_composite_balance;

/** The balance with at most `tie` (N) between slab and steel. NULL, or why there is none. Adds its steps. */
const char *ss_composite_balance_of(const ss_composite_parts *parts, double tie, ss_composite_balance *out,
                                    ss_working *working);

/** Why a section with this balance does not reach it: strength of the steel, form, web deeper than `deepest`
 * (D / tw), 2 Dcp / tw above `slender`; NULL when it does. */
typedef struct ss_composite_compact {
    double deepest, slender;
    const char *deepest_means, *slender_means, *source;
    const char *deepest_missed, *slender_missed;
} ss_composite_compact;

const char *ss_composite_miss(const ss_composite_parts *parts, const ss_composite_balance *balance,
                              const ss_composite_compact *limits, ss_working *working);

#endif
