/* bearing_rating.h - webs above the bearings of a bridge against yielding and crippling: rating factors by
 * the checks of the methods, beside those of the members. */
#ifndef SILLSPAN_BEARING_RATING_H
#define SILLSPAN_BEARING_RATING_H

#include "sillspan/bearing_web.h"
#include "sillspan/method.h"

/** What the webs of the line carry above a bearing point. The weaker of the sections on both sides, with what
 * findings took of them; every web as thin as the thinnest, the flange below as described (no fillet). NaN
 * with *why (a constant) when it is not checked: no length given, bearing stiffeners, plates not known. */
ss_bearing_web_strength ss_bearing_seat_strength(const ss_bridge *bridge, int bearing, const char **why);

/** Reactions of a bearing point (N, positive up; of a pad both its springs): unfactored dead load, and the
 * largest that one vehicle adds, without allowance and presence. */
typedef struct ss_bearing_load {
    double dead, live;
} ss_bearing_load;

/** One factor of one bearing point. */
typedef struct ss_bearing_rating {
    double rf; /**< (capacity - dead_factor x dead) / factored live; 0: dead load alone is too much; INFINITY:
                  the vehicle adds nothing; NaN: see why */
    const char *why;     /**< NULL, or why there is none */
    const char *governs; /**< "web local yielding", "web crippling" */
    double capacity;     /**< N, that may be reached by the check */
    double dead_factor;  /**< the larger of both, on all dead load; dead load that pulls up counts as none */
    double live_factor, presence, allowance;
} ss_bearing_rating;

/**
 * By a strength check: LRFR the factored resistance times the factor of condition; LFR the same resistance
 * factors, which its own specifications do not have, against its loads; ASR the allowable values of AISC 360
 * at operating, 0.55/0.75 of them at inventory (own rule). The allowance is that of shear in the line there,
 * the larger of both sides.
 */
ss_bearing_rating ss_bearing_rating_of(const ss_bridge *bridge, int bearing, const ss_check *check,
                                       const ss_vehicle *vehicle, const ss_crossing_facts *crossing,
                                       ss_bearing_load load);

#endif
