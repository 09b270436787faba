/* axle_slack.h - how far lines of a rolling axle leave their chords: what makes bounds over many positions
 * out of few values. */
#ifndef SS_RESPONSE_AXLE_SLACK_H
#define SS_RESPONSE_AXLE_SLACK_H

#include "response/axle_lines.h"

/** Stretches of equal length along the bridge. */
typedef struct ss_windows {
    double begin, width;
    int count;
} ss_windows;

/** No interval of stations is longer than a window. */
ss_windows ss_windows_of(const ss_mesh *mesh);

/** The window that x lies in; -1 before and after the bridge. A stretch from x that is shorter than
 * SS_STRETCH of a window lies in it and the next one. */
int ss_window_at(const ss_windows *windows, double x);
#define SS_STRETCH 0.999

/** Plans near which other plans lie: each strip has a plan with whose lines theirs agree up to the way across
 * the floor beams. */
typedef struct ss_strips {
    int count; /**< of plans: a strip may be empty */
    int *first, *plan;
    ss_arena arena;
} ss_strips;

/** Where an axle comes to along a block or a part of it: intervals `first` to `last`. */
typedef struct ss_stretch {
    int first, last;
    double length;
} ss_stretch;

/** For one tile of lines. */
typedef struct ss_axle_slack {
    ss_windows windows;
    const ss_strips *strips;
    const ss_axle_plans *plans;
    double *row;   /**< plan x window x SS_TILE: farthest that a stretch as long as a window, which begins in
                      it, may  leave its chord, per newton of axle, but for steps */
    double *beam;  /**< strip x beam station x SS_TILE: most that a wheel on a floor beam differs from one
                      through the lines */
    bool *stepped; /**< plan: it has steps */
    bool *done;    /**< plan: row and step_of are filled */
    int *step_of;  /**< plan x station: in `step`, or -1: values and slopes go on there */
    double *step;  /**< step_count x 2 x SS_TILE: how far the value jumps, and the slope */
    int step_count, step_capacity;
    double *curve; /**< scratch: (windows + 1) x SS_TILE */
} ss_axle_slack;

ss_status ss_axle_slack_create(const ss_axle_plans *plans, const ss_strips *strips, ss_axle_slack *out,
                               ss_error *error);
void ss_axle_slack_destroy(ss_axle_slack *slack);

/** Begins a tile. */
void ss_axle_slack_begin(ss_axle_slack *slack);
/** Fills the intervals, jumps and rows of a plan. */
ss_status ss_axle_slack_plan(ss_axle_slack *slack, ss_axle_lines *lines, int plan);
/** Fills `beam` of all plans in strips, and of the strips. */
void ss_axle_slack_strips(ss_axle_slack *slack, ss_axle_lines *lines);

/** Terms of all steps of a plan between two stations, them left out, for a stretch of length `length`; the
 * new count. At most two for each station. */
int ss_axle_slack_steps(const ss_axle_slack *slack, int plan, const ss_stretch *stretch, double P,
                        ss_term *terms, int count);

static inline const double *ss_axle_slack_row(const ss_axle_slack *slack, int plan, int window) {
    return slack->row + ((size_t)plan * (size_t)slack->windows.count + (size_t)window) * SS_TILE;
}

static inline const double *ss_axle_slack_beam(const ss_axle_slack *slack, int strip, int beam_station) {
    return slack->beam +
           ((size_t)strip * (size_t)slack->plans->beam_station_count + (size_t)beam_station) * SS_TILE;
}

#endif
