/* search.h - the worst positions of one truck for a tile of effects: bounds by blocks of positions, then
 * values, then cubics. */
#ifndef SS_RESPONSE_SEARCH_H
#define SS_RESPONSE_SEARCH_H

#include "response/roll.h"

/** A position and what an effect is there. */
typedef struct ss_found {
    double value; /**< times the sign that is sought: positive; 0: none */
    double x;
    int track;
    signed char nudge; /**< just before (-1) or just after (1) a jump at x */
    bool on_beam;
} ss_found;

/** The worst of one truck for each lane: [lane][0 least, 1 most], worst first. */
typedef struct ss_found_set {
    ss_found best[SS_TILE][2][SS_CANDIDATES];
} ss_found_set;

/** What one thread needs to search. */
typedef struct ss_searcher {
    const ss_axle_lines *lines;
    ss_contact_finder *finder;
    int n;
    int lanes;              /**< effects in the tile */
    double *opening;        /**< n x SS_TILE: effect of unit openings */
    double tiny[SS_TILE];   /**< per newton of truck: what is less is nothing */
    bool keep_candidates;   /**< all SS_CANDIDATES are to be right, not just the first */
    double *bound;          /**< scratch: blocks x 2 x SS_TILE */
    unsigned char *visited; /**< scratch: blocks */
    size_t block_capacity;
    double *live, *change, *cubic; /**< scratch: n, n, 4 x SS_TILE tiles of contact springs */
    double threshold[2][SS_TILE];
    ss_found_set *found;
} ss_searcher;

ss_status ss_searcher_create(const ss_axle_lines *lines, ss_contact_finder *finder, ss_searcher *out,
                             ss_error *error);
void ss_searcher_destroy(ss_searcher *searcher);

/** Searches the rolls of one traffic. */
ss_status ss_search(ss_searcher *searcher, const ss_roll *rolls, int roll_count, ss_found_set *out,
                    ss_error *error);

/** All lanes at one position. */
typedef struct ss_search_values {
    double closed[SS_TILE]; /**< with all bearings closed */
    double total[SS_TILE];  /**< with contact */
    bool lifted;            /**< the state is not that under dead load */
} ss_search_values;

ss_status ss_search_value(ss_searcher *searcher, const ss_roll *roll, const ss_found *position,
                          ss_search_values *out, ss_error *error);

#endif
