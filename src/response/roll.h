/* roll.h - all positions at which a truck on one track is tried, and what contact does there. */
#ifndef SS_RESPONSE_ROLL_H
#define SS_RESPONSE_ROLL_H

#include "response/axle_slack.h"
#include "response/contact_model.h"
#include "response/sparse_lists.h"

struct ss_course;

/** Stands that share one bound: cells between stands `first` to `last`. */
typedef struct ss_roll_block {
    int first, last;
    double longest; /**< cell in it, m */
    bool ends;      /**< it ends where an axle is at an end of the bridge */
    bool unknown;   /**< no state of contact holds the truck at some stand in it: no bound */
} ss_roll_block;

/**
 * Stands along one track, ascending in x: every x at which some axle is at a station, and where the state of
 * contact changes. In the cell between two stands every effect is one cubic. side -1, +1: only just before,
 * just after x (contact jumps there); 0: both. Points are positions with an axle on a floor beam; they come
 * after the stands.
 */
typedef struct ss_roll {
    const ss_vehicle *vehicle;
    const struct ss_course *course;
    int track;
    const int *plan; /**< of each axle */
    bool backward;
    int n; /**< contact springs */
    int stand_count, point_count, capacity;
    double *x;                /**< stand_count + point_count, like the next four */
    signed char *side;        /**< see above */
    bool *valid;              /**< some state of contact holds the truck there */
    int *place;               /**< of the course; -1 - i: the i-th of `between` */
    ss_sparse_lists openings; /**< less those under dead load, per unit truck */
    ss_sparse_lists axles;    /**< rows of axle lines (ss_axle_row_...), just after x */
    int *state;               /**< of contact, in the finder that the roll was made with; -1: none */
    ss_axle_at *between;      /**< x axle_count: where contact changes */
    int between_count, between_capacity;
    int block_count;
    ss_roll_block *block; /**< the same places on every track of a course */
    int *window;         /**< block_count x axle_count: where the axle's stretch begins; -1: off the bridge */
    ss_stretch *stretch; /**< block_count x axle_count: of axles on the bridge */
    ss_sparse_lists blocks;    /**< block_count x SS_ROLL_LISTS, so that one follows the other */
    ss_sparse_lists cell_bend; /**< blocks: and over a cell of it */
    bool tips;                 /**< at tip_x no state of contact holds it */
    double tip_x;
    bool tip_on_beam;
    bool contact_changes; /**< some stand has another state than under dead load */
} ss_roll;

/** What the bound of a block is made of: rows of axle lines and openings at its last stand, rows of slack of
 * the axles, and how far openings leave their chord. */
enum { SS_ROLL_END_AXLES, SS_ROLL_END_OPENINGS, SS_ROLL_REACH, SS_ROLL_BEND, SS_ROLL_LISTS };

static inline ss_sparse ss_roll_block_list(const ss_roll *roll, int block, int list) {
    return ss_sparse_at(&roll->blocks, SS_ROLL_LISTS * block + list);
}

/** Which positions of which track; with contact springs it is solved at each. */
typedef struct ss_roll_task {
    const ss_axle_plans *plans;
    const struct ss_course *course;
    const ss_placements *placements;
    int track;
    bool points_only; /**< no stands: others are known to be worse everywhere but over floor beams */
    ss_contact_finder *finder;
} ss_roll_task;

ss_status ss_roll_build(const ss_roll_task *task, ss_roll *out, ss_error *error);

/** Makes the blocks. */
ss_status ss_roll_blocks(const ss_axle_plans *plans, const ss_contact_finder *finder, ss_roll *roll,
                         ss_error *error);

void ss_roll_destroy(ss_roll *roll);

/** Where the axles are at a stand or point. */
const ss_axle_at *ss_roll_at(const ss_roll *roll, int index);

/** Where an axle comes to between two stands of a block, on the bridge. */
ss_stretch ss_roll_stretch(const ss_roll *roll, int first, int last, int axle);

/** How far openings at the stands in between leave the chord from one stand to another: bend (n); room: 3 n.
 */
void ss_roll_bends(const ss_roll *roll, int first, int last, double *room, double *bend);

/** What an effect or a reaction is made of at one position: terms of a sum over axles, at most
 * SS_ROLL_TERMS. Just before (`left`) or just after. */
int ss_roll_terms(ss_axle_lines *lines, const ss_roll *roll, const ss_axle_at *at, bool left, ss_term *terms);
enum { SS_ROLL_TERMS = 4 * SS_AXLES_MAX };

/** The same sum over the cell of `length` that begins at `at`, as coefficients of 1, t, t^2, t^3 with t from
 * 0 to 1 (4 x SS_TILE). `rest` terms of each, `rest_count`, are added to it. */
void ss_roll_cubic(ss_axle_lines *lines, const ss_roll *roll, const ss_axle_at *at, double length,
                   double out[4 * SS_TILE]);

/** Closed reactions (n) of the truck. */
void ss_roll_reactions(const ss_contact_model *model, const ss_roll *roll, const ss_axle_at *at, bool left,
                       double *live);

/** Closed reactions over a cell, as coefficients: n x 4. */
void ss_roll_reaction_cubics(const ss_contact_model *model, const ss_roll *roll, const ss_axle_at *at,
                             double length, double *cubics);

#endif
