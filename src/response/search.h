/* search.h - the worst positions of every truck for a tile of effects: bounds by blocks of positions, then
 * values, then cubics. */
#ifndef SS_RESPONSE_SEARCH_H
#define SS_RESPONSE_SEARCH_H

#include "response/lane_load.h"
#include "response/point_group.h"

/** A position and what an effect is there. */
typedef struct ss_found {
    double value; /**< times the sign that is sought: positive; 0: none */
    double x;
    double t;  /**< in the cell that begins at `stand`; negative: at the stand or point itself */
    int track; /**< -1: none */
    int stand;
    signed char nudge; /**< just before (-1) or just after (1) a jump at x */
    bool on_beam;
    const ss_vehicle *train; /**< see ss_position */
} ss_found;

/** The worst of one truck for each lane: [lane][0 least, 1 most]. */
typedef struct ss_found_set {
    ss_found best[SS_TILE][2];
    double threshold[2 * SS_TILE]; /**< what is to be reached */
} ss_found_set;

/** Openings over a cell of a roll, as cubics. */
typedef struct ss_cell_openings {
    const double *cubic; /**< n x 4: less those under dead load, per unit truck */
    int state;           /**< of contact; -1: none holds the truck there */
} ss_cell_openings;

/** Uniform loads of lanes, and loadings that are only for some effects: only without contact springs, in the
 * pattern of bearings that the lines are of. */
typedef struct ss_search_loads {
    const ss_effect *effects; /**< of the tile */
    ss_lane_work *work;       /**< begun with the tile */
    ss_lane_tile tile;
} ss_search_loads;

/** A roll of some traffic. */
typedef struct ss_visit {
    int traffic, roll;
} ss_visit;

/** What one thread needs to search. */
typedef struct ss_searcher {
    ss_axle_lines *lines;
    ss_axle_slack *slack;
    ss_contact_finder *finder;
    const ss_placements *placements;
    const ss_roll *rolls; /**< one for each track */
    const ss_point_groups *groups;
    int n;
    int lanes;             /**< effects in the tile */
    const double *opening; /**< n x SS_TILE: effect of unit openings, the caller's */
    double *opening_size;  /**< n x SS_TILE: its magnitude */
    double tiny[SS_TILE];  /**< per newton of truck: what is less is nothing */
    ss_found_set *found;   /**< target_count: the results, of each traffic unless the caller aims otherwise */
    int target_count;
    const ss_search_loads *loads; /**< what a track's lane gives counts to its values; NULL: trucks alone */
    const double *floor;          /**< 2 x SS_TILE: what values must reach besides, or NULL */
    int only;                     /**< traffic that is searched; -1: all */
    float *bound;                 /**< scratch: block x 2 x SS_TILE */
    bool *worth;                  /**< scratch: block: it was worth searching when it was bounded */
    size_t *first_block;          /**< of each roll, in `bound` */
    size_t *first_stand;          /**< of each roll, in `cell` */
    ss_visit *visit;              /**< rolls of all traffic by plan, so that its lines are at hand */
    int visit_count;
    int target;                                /**< in `found`, of what is being searched */
    const double *want;                        /**< what values of the truck alone must reach for it */
    double add[2 * SS_TILE], own[2 * SS_TILE]; /**< what its lane gives to either side; `want` with it */
    double *lane_add; /**< with loads: track x 2 x SS_TILE: `add` of each, where `lane_known` */
    bool *lane_known;
    ss_term *terms;        /**< scratch */
    double *live, *change; /**< scratch: n, 5 n */
    int *every;            /**< n: 0, 1, 2, ... */
    /* Openings of cells, kept from tile to tile. */
    int *cell;       /**< of each stand: in `kept`, or -1 */
    double *kept;    /**< KEPT x n x 4 */
    int *kept_state; /**< KEPT */
    int kept_count;
    size_t stand_total;
} ss_searcher;

/** What is searched: all outlives the searcher. */
typedef struct ss_search_task {
    ss_axle_lines *lines;
    ss_axle_slack *slack;
    ss_contact_finder *finder;
    const ss_placements *placements;
    const ss_roll *rolls;
    const ss_point_groups *groups;
    int target_count;             /**< as many as there is traffic at least */
    const ss_search_loads *loads; /**< see ss_searcher */
} ss_search_task;

ss_status ss_searcher_create(const ss_search_task *task, ss_searcher *out, ss_error *error);
void ss_searcher_destroy(ss_searcher *searcher);

/** Searches for the tile that `lines` have begun with; `lanes`, `opening` and `tiny` are filled. */
ss_status ss_search(ss_searcher *searcher, ss_error *error);

/** Openings over the cell that begins at a stand. They stay until the next call. */
ss_status ss_search_cell_openings(ss_searcher *searcher, const ss_roll *roll, int stand,
                                  ss_cell_openings *out);

/** Where a found position is. */
typedef struct ss_search_place {
    const ss_axle_at *at;
    ss_sparse openings; /**< there */
    bool lifted;        /**< the state differs from that under dead load */
    const bool *open;   /**< n: the contact springs that are open; NULL: not known */
    int state;          /**< of contact; -1: not known */
    ss_axle_at own[SS_AXLES_MAX];
} ss_search_place;

/** What `out` points to stays until the next call. */
ss_status ss_search_place_of(ss_searcher *searcher, const ss_found *found, ss_search_place *out);

#endif
