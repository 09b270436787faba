/* bins.h - how much an axle can give at most and at least, by strips across the bridge and intervals along
 * it. */
#ifndef SS_RESPONSE_BINS_H
#define SS_RESPONSE_BINS_H

#include "response/course.h"

enum { SS_BINS_MOST = 12 };

/** Tracks by strips: each strip has the plans of the axles of its tracks, one class for each gauge. */
typedef struct ss_bins {
    int count;          /**< strips */
    int class_count;    /**< gauges */
    int *of_track;      /**< strip of each track */
    int *class_of_axle; /**< train x SS_AXLES_MAX: class of each axle's gauge */
    int *first;         /**< count x class_count + 1 */
    int *plan;          /**< plans of each strip and class */
    ss_arena arena;
} ss_bins;

ss_status ss_bins_build(const ss_axle_plans *plans, const ss_placements *placements, ss_bins *out,
                        ss_error *error);
void ss_bins_destroy(ss_bins *bins);

/** Bounds of a tile. */
typedef struct ss_bin_bounds {
    const ss_bins *bins;
    int interval_count;
    float *high, *low;           /**< strip x class x interval x SS_TILE, per newton of axle */
    float *lane_high, *lane_low; /**< strip x class x SS_TILE: all that is above and below zero, per N/m */
} ss_bin_bounds;

ss_status ss_bin_bounds_create(const ss_bins *bins, int interval_count, ss_bin_bounds *out, ss_error *error);
void ss_bin_bounds_destroy(ss_bin_bounds *bounds);

/** From the lines of a tile that was begun. `near` (interval_count): intervals whose lines are enclosed,
 * elsewhere the values at stations are taken; NULL: all are, and the bounds are strict. `points`: wheels on
 * floor beams too. */
void ss_bin_bounds_fill(ss_bin_bounds *bounds, ss_axle_lines *lines, const bool *near, bool points);

/** Fills the bounds of uniform loads, after ss_bin_bounds_fill. */
void ss_bin_bounds_lanes(ss_bin_bounds *bounds, const double *station);

/** Adds what the uniform load of a train's lane can give to bounds of a block. */
void ss_bin_bounds_lane(const ss_bin_bounds *bounds, const ss_course *course, int strip, float high[SS_TILE],
                        float low[SS_TILE]);

/** What a train can give at most and at least (SS_TILE each) anywhere in a block on tracks of a strip. */
void ss_bin_bounds_block(const ss_bin_bounds *bounds, const ss_course *course, int strip, int block,
                         float high[SS_TILE], float low[SS_TILE]);

#endif
