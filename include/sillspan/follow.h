/* follow.h - how much cars, lines, joints and bearings carry of each truck, followed while a bridge changes.
 */
#ifndef SILLSPAN_FOLLOW_H
#define SILLSPAN_FOLLOW_H

#include "sillspan/watch.h"

/** Live effects are of the axles of one truck, without factors, loads of lanes or other loadings under its
 * name. */
typedef enum ss_follow_kind {
    SS_FOLLOW_SHARE,  /**< of the moment of all lines at the place where a car's main girder has its largest:
                         what the lines of that car carry; 1 is all */
    SS_FOLLOW_MOMENT, /**< largest sagging moment of a line (N m) */
    SS_FOLLOW_DEFLECTION,   /**< largest of a main girder (m) */
    SS_FOLLOW_JOINT_SHEAR,  /**< largest magnitude of a joint's shear (N/m, or N of a connector) */
    SS_FOLLOW_JOINT_MOMENT, /**< likewise (N m per m, or N m) */
    SS_FOLLOW_REACTION,     /**< largest of a bearing point, dead load in it (N) */
    SS_FOLLOW_LEAST         /**< its least, dead load in it (N): 0 where it lifts */
} ss_follow_kind;

/** One result that is followed. */
typedef struct ss_followed {
    ss_follow_kind kind;
    int traffic;        /**< in the placements of the watch */
    const char *car;    /**< NULL for a joint */
    const char *member; /**< whole name of the line; name of the joint or of the bearing's set; NULL: share */
    const char *line;   /**< of a bearing: the line that it is under; else NULL */
    double at;          /**< x of a bearing (m); else NaN */
} ss_followed;

/** A stand of a truck at which a share is taken. */
typedef struct ss_follow_stand {
    int followed;
    int item_count;
    int *item;    /**< in the watch: moments of all lines there */
    bool *own;    /**< whether the line is of the followed car */
    bool *girder; /**< and a main girder */
} ss_follow_stand;

/** A zeroed struct follows nothing. */
typedef struct ss_follow {
    ss_followed *items;
    int count, capacity;
    int *item_of, *followed_of; /**< pair_count: items of the watch, and what each is followed for */
    int pair_count, pair_capacity;
    ss_follow_stand *stands;
    int stand_count, stand_capacity;
    ss_arena arena;
} ss_follow;

/**
 * Finds where each truck of `variant` (its loads made) that crosses alone has the largest effect of every
 * kind, and watches it. Added again for another variant of the same trucks, the places of both count.
 */
ss_status ss_follow_add(ss_follow *follow, ss_watch *watch, const ss_variant *variant,
                        void (*progress)(void *context, double done), void *context, ss_error *error);
void ss_follow_destroy(ss_follow *follow);

/** What is followed (count values), out of the values of the watch; NaN: the bridge has no such place. */
void ss_follow_values(const ss_follow *follow, const ss_watch_value *values, double *out);

/** Joints with connectors pass forces, others forces per length. */
ss_dimension ss_follow_dimension(ss_follow_kind kind, bool connector);

#endif
