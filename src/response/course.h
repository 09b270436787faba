/* course.h - where a train's axles come to as it goes along: the same on every track that it takes. */
#ifndef SS_RESPONSE_COURSE_H
#define SS_RESPONSE_COURSE_H

#include "response/axle_lines.h"
#include "response/roll.h"

/** Stands that share one bound: cells between stands first to last, and points. */
typedef struct ss_course_block {
    int first, last;            /**< stands */
    int point_first, point_end; /**< points */
} ss_course_block;

/** Intervals that one axle comes to within a block; none when last < first. */
typedef struct ss_course_range {
    int first, last;
    bool outside; /**< and off the bridge */
} ss_course_range;

/**
 * Stands, ascending in x: every x of the front axle at which some axle is at a station; in the cell between
 * two of them an effect of the members is one cubic while no bearing opens or closes. Points, after the
 * stands: an axle is over a floor beam and stands on it.
 */
typedef struct ss_course {
    const ss_vehicle *vehicle;
    int train;
    bool backward;
    int stand_count, point_count;
    double *x;      /**< stand_count + point_count */
    ss_axle_at *at; /**< x axle_count; of points `beam` is set where the axle is at a floor beam's station */
    int block_count;
    ss_course_block *block;
    ss_course_range *range; /**< block_count x axle_count */
} ss_course;

typedef struct ss_courses {
    const ss_axle_plans *plans;
    int count;
    ss_course *items;
    int *of_track; /**< course of each track */
    ss_arena arena;
} ss_courses;

ss_status ss_courses_build(const ss_axle_plans *plans, const ss_placements *placements, ss_courses *out,
                           ss_error *error);
void ss_courses_destroy(ss_courses *courses);

/** Where the axles are with the front axle at x (axle_count). */
void ss_course_locate(const ss_axle_plans *plans, const ss_course *course, double x, bool on_beam,
                      ss_axle_at *at);

/** Whether some axle of a track stands on a floor beam at a point. */
bool ss_course_on_beam(const ss_axle_plans *plans, const ss_course *course, int track, const ss_axle_at *at);

/** Sum over the axles of a tile's lines on a track: just before (`left`) or just after. */
void ss_course_sum(const ss_axle_lines *lines, const ss_course *course, int track, const ss_axle_at *at,
                   bool left, double out[SS_TILE]);

/** The same over the cell of `length` that begins at `at`: coefficients of 1, t, t^2, t^3 with t from 0
 * to 1. */
void ss_course_cubic(const ss_axle_lines *lines, const ss_course *course, int track, const ss_axle_at *at,
                     double length, double out[4 * SS_TILE]);

/** How far the sum may leave its chord within that cell (SS_TILE), by the curvature of the lines. */
void ss_course_slack(const ss_axle_lines *lines, const ss_course *course, int track, const ss_axle_at *at,
                     double length, float out[SS_TILE]);

/** Whether some effect of the tile jumps at a stand. */
bool ss_course_jumps(const ss_axle_lines *lines, const ss_course *course, int track, const ss_axle_at *at);

#endif
