/* section_plates.h - geometry of a set of rectangles: sums, plastic modulus, webs, closed cell. */
#ifndef SS_MODEL_SECTION_PLATES_H
#define SS_MODEL_SECTION_PLATES_H

#include "sillspan/section.h"

/** Rectangles that overlap by less than this, in m, only touch: well below a tape's reading, well above
 * rounding. */
#define SS_PLATE_TOUCH 1e-6

/** The wall of a closed cell, on middle lines; thicknesses of 0 are sides without a continuous plate. */
typedef struct ss_cell {
    double width, height; /**< m, between middle lines */
    double clear;         /**< m, between the inner faces of the webs */
    double top, bottom;   /**< m, thickness of all plates that span that side */
    double left, right;   /**< m, webs */
} ss_cell;

/** Fills A, I, z_centroid, depth, S_top, S_bottom, Z, shear_area, web_clear, web_thin; the rest is left
 * alone. */
void ss_plates_sums(const ss_plate *plates, int count, ss_section_properties *out);

/** Height in m above the lowest fibre of the plastic neutral axis of one steel, which halves `area` (m2, that
 * of all plates). Where a gap between plates would do as well, its lower end. */
double ss_plates_plastic_axis(const ss_plate *plates, int count, double area);

/** Marks the webs: plates that cross mid-depth and are at least as high as wide; where there are none, all
 * that cross it. */
void ss_plates_mark_webs(ss_plate *plates, int count);

/** Plates at another overall depth: webs stretch, plates above mid-depth move with the top. False when they
 * then do not fit. */
bool ss_plates_stretch(const ss_plate *plates, int count, double depth, ss_plate *out);

/** Indices of two plates that overlap, if any. */
bool ss_plates_overlap(const ss_plate *plates, int count, int *first, int *second);

/** Whether plate `index` touches no other plate, within `reach` m. */
bool ss_plates_stands_alone(const ss_plate *plates, int count, int index, double reach);

/** The cell between exactly two webs. False when there are not two, or no plate at all spans between them. A
 * side without such a plate has thickness 0, and its middle line is at the webs' ends. */
bool ss_plates_cell(const ss_plate *plates, int count, ss_cell *out);

/** Area within the middle lines and sum of length over thickness of a closed or battened section with these
 * plates; false: no cell. */
bool ss_section_cell(const ss_section *section, const ss_plate *plates, double *area, double *sum);

/** Sum of b t^3 / 3 over the plates; the series where a plate stands alone or is stubby. */
double ss_plates_open_torsion(const ss_plate *plates, int count);

#endif
