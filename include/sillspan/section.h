/* section.h - cross-sections from plates or from given properties, at any depth of a taper. */
#ifndef SILLSPAN_SECTION_H
#define SILLSPAN_SECTION_H

#include <stdbool.h>

#include "sillspan/status.h"

typedef enum ss_shape { SS_SHAPE_BOX, SS_SHAPE_CHANNEL, SS_SHAPE_PLATES, SS_SHAPE_GIVEN } ss_shape;
typedef enum ss_torsion { SS_TORSION_OPEN, SS_TORSION_CLOSED, SS_TORSION_BATTENED } ss_torsion;

/** A rectangle; y across, z up from the lowest fibre, at the section's own depth. */
typedef struct ss_plate {
    const char *name;
    double y0, y1, z0, z1; /**< m, y0 < y1, z0 < z1 */
    bool web; /**< crosses mid-depth, and is at least as high as wide if any such plate is: stretches with a
                 taper, carries vertical shear */
} ss_plate;

enum { SS_PLATES_MAX = 24 };

/** Properties at one depth. Every field can be overridden in ss_section; SI units. */
typedef struct ss_section_properties {
    double depth;      /**< m; 0 when unknown (given properties without a depth) */
    double A;          /**< m2 */
    double I;          /**< m4, vertical bending */
    double J;          /**< m4, St Venant */
    double shear_area; /**< m2, sum of webs (full depth of web plates); 0: no shear deformation and no web
                          capacity */
    double S_top, S_bottom, Z; /**< m3; 0 when unknown */
    double z_centroid;         /**< m above the lowest fibre */
    double weight;             /**< N/m, from the density given */
    double web_clear;          /**< m, clear depth of the webs; 0 when unknown */
    double web_thin;           /**< m, thinnest web; 0 when unknown */
    /** 1/m: the largest web shear stress of torque T equals that of a vertical shear of torsion_shear * |T|
     * on shear_area. Closed cell: shear_area / (2 A_cell t_web); open: shear_area t_web / J. 0 when unknown.
     */
    double torsion_shear;
    double strength_loss; /**< share of every resistance that is gone, as of a bent member: 0 for sound steel;
                             not in the properties above */
} ss_section_properties;

/** A section as described. Overrides are NaN where not given; they hold at the described depth, and along a
 * taper follow the computed value in proportion. `cell_area` and `cell_sum` are the closed or battened cell
 * at the described depth, for the record. */
typedef struct ss_section {
    const char *name;
    ss_shape shape;
    ss_torsion torsion;
    double depth; /**< m, as described; 0 when unknown (given properties) */
    ss_plate plates[SS_PLATES_MAX];
    int plate_count;
    double cell_area, cell_sum; /**< closed cell at the described depth: see ss_section_at */
    double batten_width, batten_thickness, batten_spacing; /**< m; used when battened */
    bool batten_top;
    double E_over_G; /**< for the batten estimate */
    double set_A, set_I, set_J, set_shear_area, set_S_top, set_S_bottom, set_Z, set_weight;
    /* What is left of it as found; all 0 for a sound section. `depth` and the depth of a taper stay those of
     * the sound section. */
    double depth_lost; /**< m: of the overall depth, by plates that got thinner at the top or the bottom */
    double loose_area; /**< m2: of plates that hang on and carry nothing; they weigh */
    double loss;       /**< share of the whole section that is gone */
    double stiffness_loss; /**< share of bending and torsional stiffness that is gone besides */
    double strength_loss;  /**< see ss_section_properties */
} ss_section;

/**
 * Properties at overall depth `depth` (m). Plates that cross mid-depth stretch, plates above it move with the
 * top. `density` in N/m3 is for the weight. A given section has one depth only: `depth` is ignored there, a
 * taper is refused by ss_bridge_resolve. SS_ERROR_DESCRIPTION with a sentence when the flanges do not fit
 * within the depth.
 */
ss_status ss_section_at(const ss_section *section, double depth, double density, ss_section_properties *out,
                        ss_error *error);

/** Bredt's constant of a closed thin-walled cell, 4 A^2 / sum(s/t): `area` m2 within the middle lines, `sum`
 * of length over thickness. */
double ss_torsion_closed(double area, double sum);

/** Torsion constant of a rectangle `long_side` x `short_side`, series solution (Timoshenko and Goodier,
 * Theory of Elasticity, art. 109). */
double ss_torsion_rectangle(double long_side, double short_side);

/** Thickness of a continuous plate as stiff in shear as battens of `width` (along), `thickness`, `spacing`
 * over clear distance `reach`; `E_over_G`. */
double ss_torsion_batten_thickness(double width, double thickness, double spacing, double reach,
                                   double E_over_G);

#endif
