/* resistance.h - what a section can carry, each rule a pure function. */
#ifndef SILLSPAN_RESISTANCE_H
#define SILLSPAN_RESISTANCE_H

#include "sillspan/section.h"

/** A nominal resistance and where it comes from. The texts are constants. */
typedef struct ss_resistance {
    double value;     /**< N m or N; NaN when it cannot be told (then why says so) */
    const char *rule; /**< "yield moment, Fy S_bottom (AASHTO LRFD 6.10.8.1: flange stress at most Fy)" */
    const char *why;  /**< NULL, or why there is none: "its web area is not known" */
    double share; /**< of it that service checks may use, where it is another than of bare steel; else 0 */
    double lost;  /**< share of what the rule gives that a bent member has lost: already off `value` */
} ss_resistance;

/** First yield of the extreme fibre: fy (Pa) times the smaller elastic section modulus of both faces. Both
 * must be known. Lateral and local buckling are not in it. */
ss_resistance ss_resistance_yield_moment(const ss_section_properties *section, double fy);

/** Rule of a web whose slenderness is not known (section given by its properties): buckling could not be
 * looked at. */
#define SS_RESISTANCE_SHEAR_UNCHECKED                                                                        \
    "web shear yield, 0.58 Fy A_w; buckling not checked, the web's slenderness is not known"

/**
 * Unstiffened web in shear, C 0.58 fy A_w with C for web slenderness (AASHTO LRFD 6.10.9.2, k = 5; from
 * memory). E in Pa. A_w is the area of all webs, the slenderness that of the thinnest one: web_clear /
 * web_thin. Without a slenderness C is 1 and the rule is SS_RESISTANCE_SHEAR_UNCHECKED.
 */
ss_resistance ss_resistance_web_shear(const ss_section_properties *section, double fy, double E);

/** C of the above for clear depth over thickness, shear-buckling coefficient k. */
double ss_resistance_shear_ratio(double slenderness, double E, double k, double fy);

#endif
