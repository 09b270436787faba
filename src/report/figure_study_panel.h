/* figure_study_panel.h - panels of a sweep's figure, one above the other over one axis. */
#ifndef SS_REPORT_FIGURE_STUDY_PANEL_H
#define SS_REPORT_FIGURE_STUDY_PANEL_H

#include "report/figure_study_along.h"

/** mm: room for names at the right of panels, height of the main one. */
#define SS_PANEL_NAMES 36.0
#define SS_PANEL_TALL 46.0
/** A change of the rating below this looks small. */
#define SS_PANEL_SMALL 0.1

enum { SS_PANEL_CURVES = 6, SS_PANEL_FLAGS = 4 };

/** Results along the first axis, NaN where there is none; its name at the right end, NULL: none. */
typedef struct ss_panel_curve {
    double *value;
    const char *name, *second;
} ss_panel_curve;

/** The figure of a sweep that is being drawn. */
typedef struct ss_swept {
    ss_sketch sketch;
    const ss_sweep *sweep;
    ss_along along;
    double left, right;     /**< mm: of the panels */
    double bottom;          /**< mm: of all panels */
    ss_scale y;             /**< of the panel at hand */
    double limit;           /**< of the panel at hand, in its units */
    const char *limit_name; /**< NULL: none */
    int joint;              /**< followed shear that has a panel; -1: none */
    ss_flag flags[SS_PANEL_FLAGS];
    int flag_count;
    int decimals; /**< of factors: more where two would not show that they change */
} ss_swept;

/** Widens a range to hold all finite values. */
void ss_panel_widen(double *low, double *high, const double *values, int count);

/** Whether 1.0 is near enough to a range of ratings to be on the figure; else on which side it lies. */
bool ss_panel_near_one(double low, double high);
const char *ss_panel_one_words(double low);

/** Puts the next panel below the last. */
void ss_panel_place(ss_swept *s, double low, double high, double height);

/** Draws `count` curves over one upright axis, the limit if it has a name, and the band (or NULL) behind. */
void ss_panel_draw(ss_swept *s, const ss_panel_curve *curves, int count, const char *title,
                   const ss_sweep_band *band);

/** The whole figure of a sweep of two values. */
void ss_panel_map(ss_swept *s);

#endif
