/* bearing_web.h - what a web carries above a bearing: yielding and crippling without stiffeners, bearing
 * stiffeners as a column. */
#ifndef SILLSPAN_BEARING_WEB_H
#define SILLSPAN_BEARING_WEB_H

#include "sillspan/resistance.h"
#include "sillspan/working.h"

/** Webs above one bearing, without bearing stiffeners. */
typedef struct ss_bearing_web {
    double web_thickness;    /**< m, of one web */
    int webs;                /**< webs that share the reaction alike, 1 to 100 */
    double flange_thickness; /**< m, of the flange that bears */
    double fillet_reach; /**< m, k: from the outer face of that flange to the toe of the web's fillet; 0 or
                            NaN: the flange's thickness, the least that it can be */
    double depth;        /**< m, whole depth of the section */
    double length;       /**< m, N: length of bearing along the member; 0 for a knife edge */
    double end_distance; /**< m, from the reaction to the nearer end of the member */
    double fy, E;        /**< Pa, of the web */
} ss_bearing_web;

/** What webs carry, all of them together. */
typedef struct ss_bearing_web_strength {
    ss_resistance yielding;        /**< N, nominal */
    ss_resistance crippling;       /**< N, nominal */
    double factored;               /**< N, smaller of 1.00 yielding and 0.80 crippling (LRFD 6.5.4.2) */
    const char *governs;           /**< which of the two, in words */
    double allowable;              /**< N, smaller of yielding / 1.5 and crippling / 2.0 (AISC 360 J10) */
    const char *allowable_governs; /**< which of the two, in words */
} ss_bearing_web_strength;

/**
 * Web local yielding (AASHTO LRFD D6.5.2; AISC 360 J10.2): (5k + N) fy t, and (2.5k + N) fy t where the
 * reaction is no farther than the depth from the member's end. Web crippling (D6.5.3; J10.3): 0.8 t^2 (1 + 3
 * N/d (t/tf)^1.5) sqrt(E fy tf/t), near the end (closer than d/2) 0.4 in place of 0.8, and there 4 N/d - 0.2
 * in place of 3 N/d when N/d > 0.2. From memory, except where AISC's published examples were at hand (tests).
 * Both are NaN with why when a figure is not usable. `working` may be NULL.
 */
ss_bearing_web_strength ss_bearing_web_resistance(const ss_bearing_web *web, ss_working *working);

/** Bearing stiffeners on one web: plates in pairs, one on either side, fitted to the flange that bears. */
typedef struct ss_bearing_stiffener {
    int pairs;            /**< pairs of plates along the member, 1 to 100 */
    double width;         /**< m, that one plate stands out from the web */
    double thickness;     /**< m, of one plate */
    double clip;          /**< m, cut from the plate's width for the weld of the flange; 0: none */
    double web_thickness; /**< m */
    double web_height;    /**< m, D between the flanges */
    double web_strip; /**< m, length of web between the outer pairs and on both sides of them that acts with
                         the plates; beyond the plates at most 9 t on either side is counted; 0: none
                         (bolted or riveted plates) */
    double pair_spacing; /**< m, between the outer pairs; 0 with one pair */
    double fy, E;        /**< Pa, the lower fy of plates and web */
} ss_bearing_stiffener;

/** What bearing stiffeners carry. */
typedef struct ss_bearing_stiffener_strength {
    ss_resistance bearing; /**< N, nominal: 1.4 fy on the fitted area (LRFD 6.10.11.2.3) */
    ss_resistance column;  /**< N, nominal: as a column of effective length 0.75 D (LRFD 6.10.11.2.4) */
    double factored;       /**< N, smaller of 1.00 bearing and 0.95 column (LRFD 6.5.4.2) */
    const char *governs;   /**< which of the two, in words */
} ss_bearing_stiffener_strength;

/** Both resistances, AASHTO LRFD 6.10.11.2 from memory. NaN and why: a figure that is not usable, or a plate
 * wider than 0.48 t sqrt(E/fy), which would buckle by itself. */
ss_bearing_stiffener_strength ss_bearing_stiffener_resistance(const ss_bearing_stiffener *stiffener,
                                                              ss_working *working);

#endif
