/* web_shear.h - shear resistance of webs with transverse stiffeners, and the shear that inclined flanges
 * carry. Webs without stiffeners are in resistance.h. */
#ifndef SILLSPAN_WEB_SHEAR_H
#define SILLSPAN_WEB_SHEAR_H

#include "sillspan/resistance.h"
#include "sillspan/working.h"

/** The panel of a web between two transverse stiffeners. */
typedef struct ss_web_panel {
    double spacing; /**< m, d0 between the stiffeners; 0 or NaN: none */
    bool interior;  /**< a panel on both sides of it anchors a tension field; false: end panel */
    double flange_compression, flange_tension; /**< m2, whole area of each flange; 0 or NaN: not known */
} ss_web_panel;

/**
 * Nominal shear resistance of all webs together (AASHTO LRFD 6.10.9, from memory), fy and E in Pa. `panel`
 * NULL or without a spacing: C Vp with k = 5, the same as ss_resistance_web_shear. Stiffened: k = 5 + 5 /
 * (d0/D)^2 when d0 is at most 3 D in an interior panel and 1.5 D in an end panel, else the panel counts as
 * unstiffened. An end panel has C Vp. An interior one adds the tension field, in full where 2 D t <= 2.5
 * (Afc + Aft) and reduced where it is more or the flanges are not known. D is web_clear, t web_thin; areas
 * are those of all webs against whole flanges. The stiffeners themselves are taken as sufficient (6.10.11.1).
 * Steps go to `working`, which may be NULL. NaN and why: no web area, stresses that are not positive.
 */
ss_resistance ss_web_shear_panel(const ss_section_properties *section, double fy, double E,
                                 const ss_web_panel *panel, ss_working *working);

/**
 * Share of a resistance with tension field that is left under a moment `moment` over the bending resistance
 * (AASHTO Standard Specifications 10.48.8.2, from memory; load factor rating): 1 up to 0.75, then 2.2 - 1.6
 * moment, 0.6 at 1. NaN beyond 1 and below 0. LRFD has no such rule.
 */
double ss_web_shear_with_moment(double moment);

/**
 * Shear (N) that flanges carry where the depth changes along the member: M/h dh/dx. M in N m, sagging
 * positive; `depth` h in m between the flanges' centroids; `slope` dh/dx, positive where the member gets
 * deeper towards larger x; the result is positive as shear is, dM/dx. The web carries the shear less this.
 * Which of the flanges is inclined makes no difference. NaN when the depth is not positive.
 */
double ss_web_shear_of_flanges(double moment, double depth, double slope);

/** Shear (N) for which a web is to be rated: `shear` less what inclined flanges carry, but only where that is
 * more in magnitude; relief by the flanges is not counted. NaN when `of_flanges` is. */
double ss_web_shear_tapered(double shear, double of_flanges);

#endif
