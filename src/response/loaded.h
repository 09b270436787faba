/* loaded.h - extremes under trucks with the uniform loads of their lanes and of the carriageway, and under
 * trucks abreast. */
#ifndef SS_RESPONSE_LOADED_H
#define SS_RESPONSE_LOADED_H

#include "response/area_load.h"
#include "response/lane_choice.h"
#include "response/search.h"
#include "response/spread.h"

/** Tracks of one vehicle of a crossing abreast, by their y. */
typedef struct ss_loaded_side {
    int first_track, track_count;
    int slot_count;
    double *y; /**< of the slots, ascending (m) */
    int *slot; /**< of each track */
} ss_loaded_side;

/** What all threads read. */
typedef struct ss_loaded {
    const ss_contact_model *model;
    const ss_placements *placements;
    int count;              /**< traffic that is searched here; 0: none, and nothing else is there */
    int *number;            /**< traffic_count: of each in order, or -1 */
    bool *searched;         /**< traffic_count: with loads of lanes or abreast, not only for distances */
    ss_contact_model still; /**< no contact springs: within a pattern nothing opens or closes */
    ss_contact_finder finder;
    ss_roll *rolls; /**< track_count: of what is searched here */
    ss_point_groups groups;
    double *reactions;    /**< see ss_lane_reactions */
    ss_loaded_side *side; /**< traffic_count x SS_ABREAST_MAX: of trucks abreast */
    int *left, *right; /**< track_count: the next one across, of the same train going the same way, or -1 */
    bool bare;         /**< no uniform loads, whatever a vehicle comes with */
    bool *varied;      /**< traffic_count: distances between axles vary in some of its trains */
    const ss_roll *others; /**< track_count: rolls of what is not searched here */
    int target_count;
    ss_arena arena;
} ss_loaded;

/** Empty when no traffic within the extent has lane loads, loadings for some effects only, trucks abreast or
 * distances between axles that vary. `rolls` (track_count): of trucks without any of the first three. */
ss_status ss_loaded_create(const ss_contact_model *model, const ss_placements *placements,
                           const ss_courses *courses, const ss_roll *rolls, ss_envelope_extent extent,
                           ss_loaded *out, ss_error *error);
void ss_loaded_destroy(ss_loaded *loaded);

/** Patterns that are tried for one extreme. */
enum { SS_LOADED_PATTERNS = 5 };

/** Values of less than this share of the largest in their tile are not followed far. */
#define SS_LOADED_SMALL 0.02

/** One extreme that is being sought; value 0: nothing found yet. */
typedef struct ss_loaded_seek {
    int lane, side;
    int pattern[SS_LOADED_PATTERNS], pattern_count; /**< states of contact that are to be searched, in turn */
    int searched;                                   /**< so many of them have been */
    double value;                                   /**< times the sign of the side */
    double closed;                                  /**< the effect with all bearings closed */
    double within;    /**< times the sign: by the lines of `state` alone, without
                         a load over the carriageway */
    int state;        /**< of contact under it; -1: not known */
    int laid;         /**< state in which its uniform loads are adverse */
    double area_N_m2; /**< over the carriageway, of the traffic */
    int truck_count;
    ss_found truck[SS_LANES_MAX];
    int which[SS_LANES_MAX];   /**< trucks abreast: which one has each lane, see ss_crossing_order */
    int in_lane[SS_LANES_MAX]; /**< lane of each truck */
    bool bent;                 /**< some load that was tried has another pattern than dead load */
    int stretch_count;
    ss_lane_stretch stretch[SS_LANES_MAX * SS_LANE_STRETCHES];
    ss_vehicle spaced; /**< the first truck, if its axles are not where its train has them */
    double *change;    /**< n: openings less those under dead load */
    bool tips;         /**< some load tried has no contact state: the first */
    ss_position tip;
} ss_loaded_seek;

/** What one thread works with. */
typedef struct ss_loaded_worker {
    const ss_loaded *loaded;
    ss_axle_lines *closed;     /**< the caller's: lines of the tile with all bearings closed */
    ss_contact_finder *finder; /**< the caller's */
    ss_axle_lines lines;       /**< in patterns of open bearings */
    ss_axle_slack slack;
    ss_searcher searcher;
    ss_search_loads loads;
    ss_lane_work sums, work; /**< in patterns; with all bearings closed */
    ss_area_work areas;
    ss_spread_work spread;
    int dead_state;
    ss_loaded_seek *seek;           /**< 2 x SS_TILE */
    double *z;                      /**< order x SS_TILE */
    double *weight;                 /**< n x SS_TILE */
    double *own_weight;             /**< n */
    double *live, *trucks, *change; /**< n: reactions with all bearings closed; openings */
    double *best[SS_ABREAST_MAX];   /**< slots */
    double *sum;                    /**< SS_LANES_MAX x slots */
    int *through;
} ss_loaded_worker;

/** Where the worker stays: it keeps addresses of its parts. */
ss_status ss_loaded_worker_create(const ss_loaded *loaded, ss_axle_lines *closed, ss_contact_finder *finder,
                                  ss_loaded_worker *out, ss_error *error);
void ss_loaded_worker_destroy(ss_loaded_worker *worker);

/** A tile of effects, whose closed lines have begun. */
typedef struct ss_loaded_tile {
    const ss_effect *effects;
    int count;
    bool springs;
    const double *z;       /**< order x SS_TILE */
    const double *opening; /**< n x SS_TILE */
    const double *tiny;    /**< see ss_searcher */
} ss_loaded_tile;

/** Forgets what was remembered of another tile. */
void ss_loaded_begin(ss_loaded_worker *worker);

/** What a seek begins with: a state of contact, and a truck unless its track is -1. */
typedef struct ss_loaded_start {
    ss_found truck;
    int state;
} ss_loaded_start;

/** Searches one traffic: worker->seek[2 lane + side], from as many starts. */
ss_status ss_loaded_search(ss_loaded_worker *worker, const ss_loaded_tile *tile, int traffic,
                           const ss_loaded_start *start, ss_error *error);

/** Moves the axles of the worst trucks of all seeks apart or together, where their distance may vary, with
 * contact solved, as far as that is for the worse. */
ss_status ss_loaded_spread(ss_loaded_worker *worker, const ss_loaded_tile *tile, ss_error *error);

/** Only that, from as many starts as there are seeks: trucks that were found without loads of their lanes. */
ss_status ss_loaded_spread_from(ss_loaded_worker *worker, const ss_loaded_tile *tile, int traffic,
                                const ss_loaded_start *start, ss_error *error);

/** Where the axles of a truck are. */
void ss_loaded_locate(const ss_loaded *loaded, const ss_axle_plans *plans, const ss_found *truck,
                      ss_axle_at *at);

/** The axles of a truck. */
static inline const ss_vehicle *ss_loaded_train(const ss_loaded *loaded, const ss_found *truck) {
    const ss_placements *const placements = loaded->placements;
    return truck->train != NULL ? truck->train : &placements->trains[placements->tracks[truck->track].train];
}

/** Its roll; a loading that is searched here has one here. */
static inline const ss_roll *ss_loaded_roll(const ss_loaded *loaded, int track) {
    return loaded->rolls[track].plan != NULL ? &loaded->rolls[track] : &loaded->others[track];
}

/** Forgets what was found. */
void ss_loaded_begin_seeks(ss_loaded_worker *worker, int traffic);

/** What one pass searches: an effect of the tile in a state of contact for each column, and what is worst
 * there is tried. */
typedef struct ss_loaded_columns {
    int count;
    int lane[SS_TILE], state[SS_TILE];
    int column[2 * SS_TILE]; /**< of each seek; -1: it is not searched */
} ss_loaded_columns;
ss_status ss_loaded_pass(ss_loaded_worker *worker, const ss_loaded_tile *tile, int traffic,
                         const ss_loaded_columns *columns, ss_error *error);

/** Tries trucks with contact solved, their lane loads laid as they are adverse in `state` and then in the
 * states that come of it, and keeps the worst. The last state is to be searched next, if it has not been and
 * what was tried gave more than was known. */
ss_status ss_loaded_try(ss_loaded_worker *worker, const ss_loaded_tile *tile, ss_loaded_seek *seek,
                        const ss_found *trucks, int count, int state, ss_error *error);

/** Largest value of all seeks. */
double ss_loaded_most(const ss_loaded_worker *worker);

/** A state is to be searched too, if it is not yet and there is room. */
void ss_loaded_ask(ss_loaded_seek *seek, int state);

/** Moves the worst loads of all seeks on with contact solved, as far as that is for the worse. */
ss_status ss_loaded_move(ss_loaded_worker *worker, const ss_loaded_tile *tile, int traffic, ss_error *error);

/** Effect of unit reactions with all bearings closed in a state (n, `stride` apart). */
void ss_loaded_weigh(const ss_loaded_worker *worker, const ss_loaded_tile *tile, int lane, int state,
                     double *weight, int stride);

/** Where the load over the carriageway of a seek lies: see ss_area_stretches. */
int ss_loaded_area(ss_loaded_worker *worker, const ss_loaded_tile *tile, const ss_loaded_seek *seek);

/** Values of the effects at a truck's place: terms by the lines of a tile. */
int ss_loaded_terms(const ss_loaded *loaded, ss_axle_lines *lines, const ss_found *truck, ss_term *terms);

#endif
