/* fatigue.h - stress ranges of described details under single passages of the fatigue truck, and their lives.
 */
#ifndef SILLSPAN_FATIGUE_H
#define SILLSPAN_FATIGUE_H

#include "sillspan/description.h"
#include "sillspan/fatigue_life.h"
#include "sillspan/variant.h"

/** Dynamic allowance of the fatigue truck, AASHTO LRFD Table 3.6.2.1-1 (from memory). */
#define SS_FATIGUE_ALLOWANCE 0.15

/** What a detail goes through. Live values are of the passage that governs, with the allowance and without a
 * load factor; stresses are positive in tension, of a weld positive as its joint's shear. */
typedef struct ss_fatigue_result {
    int spot;           /**< in bridge->fatigue.spots */
    double divisor;     /**< what an effect is divided by to give a stress: m3 of the face (NaN: not known), m
                           of a continuous weld's throat, m2 of a connector's */
    double dead;        /**< effect of the dead load: N m; N/m or N of a joint */
    double live[2];     /**< least (never above 0) and most (never below 0) live effect of that passage */
    double x[2];        /**< front axle at these, m; NaN where 0 */
    double y;           /**< middle of the truck, m; NaN: no passage stresses it */
    bool backward;      /**< faces the first abutment */
    double dead_stress; /**< Pa */
    double tension;     /**< Pa, largest live tension of all passages, never below 0 */
    ss_fatigue_member member;
    double length;   /**< m, span or spacing by which cycles are counted; NaN: not known */
    bool compressed; /**< the dead load's compression exceeds the factored live tension: not checked */
    ss_fatigue_detail detail;
    ss_fatigue_life life;
} ss_fatigue_result;

typedef struct ss_fatigue_results {
    ss_fatigue_result *items; /**< as bridge->fatigue.spots */
    int count;
    int passages;        /**< lines and directions that were tried */
    const char *failure; /**< why no range is known, or NULL; then there are no items */
    ss_arena arena;
} ss_fatigue_results;

/** What the cycles of one truck are counted by (LRFD Table 6.6.1.2.5-2): kind of member, and its span or
 * spacing in *length (m, NaN: not known). Spans lie between bearings of the car, those of a stringer between
 * floor beams; an interior support reaches a tenth of the span. Joints count as floor beams a short way
 * apart: the book has no row for them. */
ss_fatigue_member ss_fatigue_member_of(const ss_bridge *bridge, const ss_fatigue_spot *spot, double *length);

/**
 * Range of each detail of `bridge`, which `description` gives: the fatigue truck with 15 % allowance rolls
 * along each line of its middle at which an extreme can arise, in each direction, on top of the unfactored
 * dead load, with contact solved at every position. The range is the largest difference of effects within
 * one such passage, before and after which the live effect is 0. No details: an empty result.
 */
ss_status ss_fatigue_compute(const ss_description *description, const ss_bridge *bridge,
                             ss_fatigue_results *out, ss_error *error);
void ss_fatigue_destroy(ss_fatigue_results *results);

/** The item that ends first, the most stressed of its threshold among those that never do; -1: none. */
int ss_fatigue_worst(const ss_fatigue_results *results);

/** The steps from effects to years. */
void ss_fatigue_work(const ss_bridge *bridge, const ss_fatigue_result *result, ss_working *working);

#endif
