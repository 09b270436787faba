/* section_form_parts.h - plates of a section sorted into webs and flanges, for section_form. */
#ifndef SS_MODEL_SECTION_FORM_PARTS_H
#define SS_MODEL_SECTION_FORM_PARTS_H

#include "sillspan/section_form.h"

/** Plates closer than this, in m, are connected. Drawn ones are closer; where one of them got thinner, its
 * loss opens between them, and this is more than most plates can lose. */
#define SS_FORM_TOUCH 0.010

/** A flange reaches out beside a web when it does so by more than this, in m. */
#define SS_FORM_REACH 0.002

/** What a plate is. A leg is upright and stands on a flange. */
typedef enum ss_form_part {
    SS_PART_LOOSE,
    SS_PART_WEB,
    SS_PART_BOTTOM,
    SS_PART_BOTTOM_LEG,
    SS_PART_TOP,
    SS_PART_TOP_LEG
} ss_form_part;

/** One web, or several plates that touch. */
typedef struct ss_form_line {
    double y0, y1;
} ss_form_line;

/** Plates at the depth asked for. `low` and `high` are the inner faces of the flanges, or the extreme fibres
 * where there is none. */
typedef struct ss_form_layout {
    ss_plate plates[SS_PLATES_MAX];
    ss_form_part part[SS_PLATES_MAX];
    int count;
    ss_form_line lines[SS_PLATES_MAX]; /**< by y, apart */
    int line_count;
    double bottom, low, high, top;
} ss_form_layout;

/** Sorts plates that are already at their depth. */
void ss_form_sort(ss_form_layout *layout);

/** Outermost edges of the flange at one end; false when there is none. */
bool ss_form_flange_edges(const ss_form_layout *layout, bool top, double *left, double *right);

/** Everything of a flange but Dc, Dcp and rt. `allowance` (m) is added to outer free widths for their
 * slenderness. */
void ss_form_flange_measure(const ss_form_layout *layout, bool top, double allowance, ss_form_flange *out);

/** rt of a flange that is measured and has its Dc. */
double ss_form_flange_radius(const ss_form_layout *layout, bool top, double web_total,
                             const ss_form_flange *flange);

#endif
