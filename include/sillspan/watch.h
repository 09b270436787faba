/* watch.h - the places where trucks govern, kept in view while a bridge changes a little: a change is rated
 * anew at those places only. */
#ifndef SILLSPAN_WATCH_H
#define SILLSPAN_WATCH_H

#include "sillspan/variant.h"

/** A place of a member or a support, by names: indices change with the bridge. */
typedef struct ss_watched_effect {
    ss_member_kind member;
    ss_effect_kind kind;
    bool before;
    bool tapered;     /**< web effects: with what inclined flanges carry */
    const char *car;  /**< NULL for a joint */
    const char *name; /**< of a line its whole name, of a bearing that of its set */
    const char *line; /**< of a bearing; else NULL */
    double at;        /**< x (m), or y on a floor beam */
} ss_watched_effect;

/** Trucks somewhere on the bridge, with the loads of their lanes. */
typedef struct ss_watched_stand {
    int traffic; /**< in the placements of the watch */
    int truck_count;
    ss_position position[SS_LANES_MAX]; /**< tracks are those of the placements of the watch */
    int lane_count;
    const ss_lane_stretch *lane;
    double lane_share; /**< what of the lane loads counts with the trucks */
} ss_watched_stand;

enum { SS_WATCH_LIVE = -1 };

/** An effect under a stand: a rating by a check, or the live effect itself. */
typedef struct ss_watched_item {
    int stand, effect;
    int check; /**< in the checks of the bridge; SS_WATCH_LIVE: what the trucks add, without factors */
    bool most; /**< the largest is asked for; false: the least */
} ss_watched_item;

/** A zeroed struct watches nothing. */
typedef struct ss_watch {
    ss_placements placements;           /**< traffic, trains and tracks of the stands */
    const struct ss_watch_asked *asked; /**< trucks and where they may be, of the first variant; NULL: none */
    ss_check checks[SS_CHECKS_MAX];
    int check_count;
    ss_watched_effect *effects;
    int effect_count, effect_capacity;
    ss_watched_stand *stands;
    int stand_count, stand_capacity;
    ss_watched_item *items;
    int item_count, item_capacity;
    ss_arena arena; /**< of names, vehicles and stretches */
} ss_watch;

/** How near to the smallest factor of its truck and check a member has to be to be watched. */
#define SS_WATCH_WITHIN 1.6

/**
 * Adds what a full rating found: of every truck and check, deflection apart, the members whose factor is
 * within `within` of the smallest, and all joints, with the places of section and trucks. SS_ERROR_LIMIT when
 * trucks, roadway or checks are others than those of ratings added before.
 */
ss_status ss_watch_add(ss_watch *watch, const ss_variant *rated, double within, ss_error *error);

/** Adds a live effect under an extreme of an envelope of the same traffic. `item` (may be NULL): its number.
 */
ss_status ss_watch_add_live(ss_watch *watch, const ss_variant *variant, const ss_effect *effect, bool most,
                            int traffic, const ss_extreme *extreme, int *item, ss_error *error);
void ss_watch_destroy(ss_watch *watch);

/** What an item came to. */
typedef struct ss_watch_value {
    double value; /**< factor (INFINITY: the trucks only relieve), or live effect; NaN: the bridge has no such
                     place any more, or no contact state holds */
    double dead;  /**< of a live effect: that of the unfactored dead load, contact solved */
    bool tips;    /**< factor: there the bridge tips */
} ss_watch_value;

/**
 * Every item (item_count values) on a variant whose structure and permanent load are made. Exact for each
 * place: the bearings' contact is solved; a place that is not watched may be worse. SS_ERROR_LIMIT as above.
 */
ss_status ss_watch_compute(const ss_watch *watch, const ss_variant *variant, ss_watch_value *values,
                           ss_error *error);

/** The ratings among the values as ratings of the variant, with what governs, and positions on the tracks of
 * the watch; no notes, and of the terms of a factor only those that it is found by. */
ss_status ss_watch_ratings(const ss_watch *watch, const ss_variant *variant, const ss_watch_value *values,
                           ss_ratings *out, ss_error *error);

#endif
