/* area_load.h - a uniform load over the whole carriageway, wherever it is adverse to an effect. */
#ifndef SS_RESPONSE_AREA_LOAD_H
#define SS_RESPONSE_AREA_LOAD_H

#include "response/lane_load.h"

/**
 * It stands on lines along the bridge (placements->area_lines) and lies on each of them wherever the
 * influence line there has the sign that is asked for, in one pattern of open bearings. It does not depend on
 * where trucks are. Through a deck that spans across it is exact where whole strips are adverse, and more
 * than the adverse part of a strip where not: the influence surface is linear across between two lines, and
 * of a linear function the mean of both ends' adverse parts is not less than the adverse part's mean.
 */
typedef struct ss_area_load {
    int key[3];    /**< what it was found for: effect of the tile (-1: nothing), most, pattern */
    double closed; /**< effect of 1 N/m2 with all bearings closed */
    double *live;  /**< n: reactions to 1 N/m2 with all bearings closed */
} ss_area_load;

/** What one thread works with; empty where there are no such lines. */
typedef struct ss_area_work {
    ss_area_load *load;       /**< some, by their keys */
    double *live;             /**< of them */
    ss_lane_load line;        /**< scratch: of one line */
    double *cubic;            /**< scratch: interval x 4 */
    ss_area_stretch *stretch; /**< see ss_area_stretches */
} ss_area_work;

ss_status ss_area_work_create(int n, int interval_count, int line_count, ss_area_work *out, ss_error *error);
void ss_area_work_destroy(ss_area_work *work);
/** Forgets all: another tile. */
void ss_area_work_begin(ss_area_work *work);

/** Lines of a tile, which are filled as far as they are needed. `lines` and `tile.lines` are the same. */
typedef struct ss_area_tile {
    const ss_placements *placements;
    ss_axle_lines *lines;
    ss_lane_tile tile;
} ss_area_tile;

/** An effect of the tile, its side, and a pattern by its number and weights (n). */
typedef struct ss_area_wanted {
    int lane;
    bool most;
    int pattern;
    const double *weight;
} ss_area_wanted;

/** The load for one effect, remembered. */
const ss_area_load *ss_area_load_of(ss_area_work *work, const ss_area_tile *tile,
                                    const ss_area_wanted *wanted);

/** Where it lies, into work->stretch; their number. */
int ss_area_stretches(ss_area_work *work, const ss_area_tile *tile, const ss_area_wanted *wanted);

/** What 1 N/m2 over stretches is of a lane of the tile that the lines are of. */
double ss_area_value_of(ss_axle_lines *lines, const ss_placements *placements, int lane,
                        const ss_area_stretch *stretch, int count);

#endif
