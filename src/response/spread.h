/* spread.h - the worst distance between two groups of axles, and where both stand, within one pattern of
 * bearings. */
#ifndef SS_RESPONSE_SPREAD_H
#define SS_RESPONSE_SPREAD_H

#include "response/lane_load.h"

/** A vehicle whose axles up to `gap` and those behind it come apart. */
typedef struct ss_spread {
    const ss_vehicle *train; /**< as it stands */
    int track;
    bool backward;
    double x;           /**< front axle, m */
    signed char nudge;  /**< just before or just after it */
    int gap;            /**< behind this axle */
    double least, most; /**< distance there may be, m */
} ss_spread;

/** A place of the front axle with a distance. */
typedef struct ss_spread_place {
    double x;
    signed char nudge; /**< just before (-1) or just after (1) a jump at x */
    double distance;
} ss_spread_place;

/** Most places that are proposed for one gap: both groups moved, the rear one, the front one. */
enum { SS_SPREAD_PLACES = 3 };

/** Where a group of axles has a local maximum. */
typedef struct ss_spread_peak {
    double at; /**< first axle of the group, m */
    signed char nudge;
    double value;
} ss_spread_peak;

/** Scratch of one thread. */
typedef struct ss_spread_work {
    double *cubic;                /**< axle x interval x 4 */
    double *stop;                 /**< axle x stations */
    ss_spread_peak *front, *rear; /**< room for all */
} ss_spread_work;

ss_status ss_spread_work_create(const ss_axle_plans *plans, ss_spread_work *out, ss_error *error);
void ss_spread_work_destroy(ss_spread_work *work);

/**
 * Places at which an effect may be worse than where the vehicle stands; their number. In a pattern the effect
 * is the sum of what both groups do, each by its own place: where neither distance at the end of the range
 * governs, each group is at a local maximum of its own. These lie where a cubic turns or where an axle of the
 * group is at a station. The pair of them with the largest sum whose distance is in the range is exact for
 * the pattern and the track; with it go the best place of either group while the other stays. `wanted->plan`
 * is not looked at; the closed lines of the track's plans are filled.
 */
int ss_spread_propose(const ss_lane_tile *tile, const ss_lane_wanted *wanted, const ss_spread *spread,
                      ss_spread_work *work, ss_spread_place out[SS_SPREAD_PLACES]);

/** Distance from the front axle to the one behind the gap, at a distance there. */
double ss_spread_behind(const ss_spread *spread, double distance);

#endif
