/* method_parts.h - what the parts of the rating methods share: the row of a check, kinds of vehicles, and the
 * pieces of a line between its bearings. */
#ifndef SS_ASSESS_METHOD_PARTS_H
#define SS_ASSESS_METHOD_PARTS_H

#include "sillspan/method.h"

/** Where the live load factor of a check comes from. */
typedef enum ss_live_source {
    SS_LIVE_FIXED,  /**< the row's own */
    SS_LIVE_LEGAL,  /**< by truck traffic */
    SS_LIVE_PERMIT, /**< by the kind of permit, truck traffic and weight */
    SS_LIVE_SET     /**< the row's own, unless the settings give one */
} ss_live_source;

/** How the dynamic effect of a check is found. */
typedef enum ss_dynamic_source {
    SS_DYNAMIC_DESIGN,  /**< 33 % everywhere */
    SS_DYNAMIC_SURFACE, /**< by member, span and riding surface */
    SS_DYNAMIC_IMPACT   /**< by loaded length */
} ss_dynamic_source;

/** A check and its figures. */
typedef struct ss_check_row {
    ss_check check; /**< without its edition */
    const char *limit_name;
    ss_live_source live_source;
    double live; /**< live load factor */
    const char *live_basis;
    ss_dynamic_source dynamic;
    double dead; /**< factor of all dead load; NaN: by component and with smallest values (LRFR strength) */
    double bending; /**< share of the yield moment that bending may reach; NaN: bending is not looked at */
    double shear;   /**< the same of web shear (0.58 Fy at yield) */
    double joint;   /**< the same of a joint's stated capacity */
} ss_check_row;

/** The row of a check; NULL for one that is none of the known ones. */
const ss_check_row *ss_check_row_of(const ss_check *check);

/** HL-93 in any of its loadings. */
bool ss_vehicle_is_design_load(const ss_vehicle *vehicle);
/** SU4 to SU7 and the notional rating load. */
bool ss_vehicle_is_specialised(const ss_vehicle *vehicle);

/** Live load factor and its basis, into out. */
void ss_method_live(const ss_bridge *bridge, const ss_check_row *row, const ss_vehicle *vehicle,
                    const ss_crossing_facts *crossing, ss_method_factors *out);

/** Live load factor of LRFR permit loads; *basis says of what. */
double ss_method_permit_factor(const ss_bridge *bridge, const ss_vehicle *vehicle, bool escorted,
                               const char **basis);

/** Allowance or impact and its basis, into out. */
void ss_method_dynamic(const ss_bridge *bridge, const ss_check_row *row, const ss_vehicle *vehicle,
                       const ss_crossing_facts *crossing, const ss_effect *effect, ss_method_factors *out);

/** The part of a line around a place, from one support to the next or to its end. */
typedef struct ss_stretch {
    double x0, x1;
    bool free0, free1; /**< that end is the line's end, not a support */
} ss_stretch;

/** Between the bearings of the line's car; with `touching` only those without a gap. False: there are none.
 */
bool ss_stretch_of(const ss_bridge *bridge, int line, double x, bool before, bool touching, ss_stretch *out);

#endif
