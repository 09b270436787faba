/* figure_study_along.h - the values of a sweep along a figure: an axis, with "none" and "rigid" at its ends
 * where a joint goes from one to the other. */
#ifndef SS_REPORT_FIGURE_STUDY_ALONG_H
#define SS_REPORT_FIGURE_STUDY_ALONG_H

#include "report/figure_study.h"
#include "report/report_sweep.h"

typedef struct ss_along {
    ss_sketch *sketch;
    const ss_sweep_axis *axis;
    int which;      /**< of the sweep's axes */
    ss_scale scale; /**< values of the figure to mm; of words their number */
    bool ends;      /**< the first value is no joint, the last a rigid one: levels beside the axis */
    bool words;     /**< values without an order */
    double left, right;
} ss_along;

/** An axis that takes all from `left` to `right` (mm). */
void ss_along_begin(ss_along *along, ss_sketch *sketch, int which, double left, double right);

/** Where a value stands, mm. */
double ss_along_at(const ss_along *along, double value);

/** The range from one value to another as mm: no joint and a rigid one are the outer ends. */
void ss_along_range(const ss_along *along, double from, double to, double *left, double *right);

/** Draws `count` results at the axis's first values over `y`; NaN and infinite ones are gaps. Values of words
 * are dots. Returns the last that is drawn, or -1. */
int ss_along_curve(const ss_along *along, const ss_scale *y, ss_figure_role role, const double *values,
                   int count);

/** Draws the axis below `at`, with its title, and moves `down`. */
void ss_along_axis(const ss_along *along, double at);

#endif
