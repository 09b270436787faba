/* figure_contour.h - lines of equal values over a grid. */
#ifndef SS_REPORT_FIGURE_CONTOUR_H
#define SS_REPORT_FIGURE_CONTOUR_H

#include "report/figure_parts.h"

/** Values over nx times ny places; NaN: there is none. */
typedef struct ss_field_grid {
    int nx, ny;
    const double *x, *y; /**< mm on the page, ascending */
    const double *value; /**< [i * ny + j] of (x[i], y[j]) */
} ss_field_grid;

/** One line of a level; a closed one ends where it begins. */
typedef struct ss_contour {
    double level;
    int count;
    const ss_spot *points;
} ss_contour;

/** The lines of a level, in the arena, longest chains possible; what is at the level counts as below it.
 * False: no memory. */
bool ss_contours(const ss_field_grid *grid, double level, ss_arena *arena, ss_contour **out, int *count);

/** What is drawn of a grid: lines at the multiples of `step` from low to high, with their values inside the
 * box (left, top, right, bottom in mm) where no other line runs. */
typedef struct ss_contour_plan {
    ss_field_grid grid;
    double box[4];
    double low, high, step;
    int decimals;
    const ss_spot *avoid; /**< marks that no value may stand on */
    int avoid_count;
} ss_contour_plan;

void ss_contours_draw(ss_sketch *sketch, const ss_contour_plan *plan);

#endif
