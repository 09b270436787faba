/* lane_load.h - the uniform load of a truck's lane, over the stretches where it is adverse to an effect. */
#ifndef SS_RESPONSE_LANE_LOAD_H
#define SS_RESPONSE_LANE_LOAD_H

#include "response/bins.h"
#include "response/contact_model.h"
#include "response/patterns.h"

/**
 * The load stands on two lines, under the wheels of the train's widest axle, and lies wherever the influence
 * line of the effect under them has the sign that is asked for, in one pattern of open bearings. It does not
 * depend on where the truck is along the track.
 */
typedef struct ss_lane_load {
    int key[4];    /**< what it was found for: effect of the tile, most, plan, pattern; [2] -1: nothing */
    double closed; /**< effect of 1 N/m with all bearings closed */
    double *live;  /**< n: reactions to 1 N/m with all bearings closed */
    int count;
    ss_lane_stretch stretch[SS_LANE_STRETCHES]; /**< ascending; the smallest of more than this are left out */
} ss_lane_load;

/** Sums of the adverse parts of influence lines: estimates of the largest and least effect of 1 N/m. */
typedef struct ss_lane_sums {
    int plan, pattern;
    float most[SS_TILE], least[SS_TILE];
} ss_lane_sums;

enum { SS_LANE_SLOTS = 512, SS_LANE_LOADS = 1024 };

/** What one thread works with; empty when no train has a lane load. */
typedef struct ss_lane_work {
    ss_lane_sums *sums; /**< SS_LANE_SLOTS, by plan and pattern */
    ss_lane_load *load; /**< SS_LANE_LOADS, by their keys */
    double *live;       /**< SS_LANE_LOADS x n: of the loads */
    double *both;       /**< n: truck and lane load */
    double *open;       /**< n: scratch */
    double *cubic;      /**< interval x 4: scratch */
} ss_lane_work;

/** Reactions to 1 N/m over one interval with all bearings closed: plan x interval x n, in memory that the
 * caller frees; `contact` has the lines of the reactions. NULL in `out` when no train has a lane load. */
ss_status ss_lane_reactions(const ss_axle_plans *plans, const ss_placements *placements,
                            const ss_contact_model *contact, double **out, ss_error *error);

ss_status ss_lane_work_create(int n, int interval_count, ss_lane_work *out, ss_error *error);
void ss_lane_work_destroy(ss_lane_work *work);
/** Forgets all: another tile. */
void ss_lane_work_begin(ss_lane_work *work);

/** Lines of a packed tile and what its effects are of reactions. */
typedef struct ss_lane_tile {
    const ss_axle_lines *lines; /**< all bearings closed */
    const float *opening;       /**< n x SS_TILE: effects of unit openings */
    const ss_contact_model *contact;
    const double *reactions; /**< see ss_lane_reactions */
    int lanes;
} ss_lane_tile;

/** Estimates in a pattern, exact where no bearing is open; they stay until another plan and pattern take
 * their place. */
const ss_lane_sums *ss_lane_sums_of(ss_lane_work *work, const ss_lane_tile *tile, int plan, int number,
                                    const ss_pattern *pattern);

/** The load itself for one effect, remembered. `weight` (n): see ss_patterns_weigh, of pattern `number`;
 * NULL: only if it is remembered. */
const ss_lane_load *ss_lane_load_of(ss_lane_work *work, const ss_lane_tile *tile, int lane, bool most,
                                    int plan, int number, const double *weight);

/** What a load is sought for: an effect of the tile, the largest or the least, under the wheels of a plan, in
 * a pattern by its weights. */
typedef struct ss_lane_wanted {
    int lane;
    bool most;
    int plan;
    const double *weight; /**< n: see ss_patterns_weigh */
} ss_lane_wanted;

/** Influence line of an effect under the wheels of a plan in a pattern: coefficients of 1, s, s^2, s^3 in
 * every interval (x 4). Returns the largest magnitude that encloses it. */
double ss_lane_lines(const ss_lane_tile *tile, const ss_lane_wanted *wanted, double *cubic);

/** The same without memory: all of `out` but its key. `out->live` has room for n; cubic: interval x 4,
 * scratch. */
void ss_lane_load_find(const ss_lane_tile *tile, const ss_lane_wanted *wanted, double *cubic,
                       ss_lane_load *out);

/** What 1 N/m over a stretch is of a lane of the tile that the lines are of, under the wheels of a plan. */
double ss_lane_value_of(ss_axle_lines *lines, int lane, int plan, const ss_lane_stretch *stretch);

/** Whether some train of a traffic has a lane load. */
bool ss_lane_loaded(const ss_placements *placements, const ss_traffic *traffic);

/** Effects that a loading is for: bit 0 the least ones, bit 1 the largest. */
unsigned ss_lane_use(ss_vehicle_use use, const ss_effect *effect);

#endif
