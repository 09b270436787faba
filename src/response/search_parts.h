/* search_parts.h - what the steps of the search share. */
#ifndef SS_RESPONSE_SEARCH_PARTS_H
#define SS_RESPONSE_SEARCH_PARTS_H

#include "response/search.h"

/** Forgets what was found for a target; what is below nothing of a truck of this weight is not looked for. */
void ss_search_clear(ss_searcher *searcher, int target, double gross);
/** What is searched from now on counts for a target: on a track, or for bounds on all tracks between two.
 * False: the loading is for no effect of the tile that is sought. */
bool ss_search_aim(ss_searcher *searcher, int target, int track);
bool ss_search_aim_between(ss_searcher *searcher, int target, int near, int far);
/** The lines are those of another tile. */
void ss_search_forget_lanes(ss_searcher *searcher);

/** Values of the truck at hand at one position, noted for the lanes that reach their thresholds. */
void ss_search_note(ss_searcher *searcher, const double values[SS_TILE], const ss_found *position);
/** One lane: `found->value` counts to `side`. */
void ss_search_note_lane(ss_searcher *searcher, int side, int lane, const ss_found *found);

/** Terms of openings, or of how far they may leave their chord (rows: `opening` or `opening_size`); their
 * count. */
static inline int ss_search_terms(ss_sparse sparse, const double *rows, ss_term *terms) {
    for (int i = 0; i < sparse.count; i++) {
        terms[i] = (ss_term){sparse.value[i], rows + (size_t)sparse.index[i] * SS_TILE};
    }
    return sparse.count;
}

/** A stand, its axles just after it and the openings there. */
typedef struct ss_search_at {
    int stand;
    bool smooth; /**< known to have no jump */
    ss_sparse axles, openings;
} ss_search_at;

static inline ss_search_at ss_search_stand_of(const ss_roll *roll, int stand) {
    return (ss_search_at){stand, false, ss_sparse_at(&roll->axles, stand),
                          ss_sparse_at(&roll->openings, stand)};
}

/** Values just before and just after a stand, noted. */
void ss_search_stand(ss_searcher *searcher, const ss_roll *roll, const ss_search_at *at,
                     double before[SS_TILE], double after[SS_TILE]);

/** The value at a point of a roll, noted. Its lines are filled but for their cubics. */
void ss_search_point(ss_searcher *searcher, const ss_roll *roll, int index);

/** Values at the ends of all blocks of a roll, noted, and what bounds the values in them. */
void ss_search_bound(ss_searcher *searcher, const ss_roll *roll);
/** Searches the blocks that may beat what has been found. */
ss_status ss_search_blocks(ss_searcher *searcher, const ss_roll *roll, ss_error *error);

/** Tries what of a block may beat what has been found; `bound` (2 x SS_TILE) becomes as close as that shows.
 */
ss_status ss_search_block(ss_searcher *searcher, const ss_roll *roll, int index, float *bound,
                          ss_error *error);

#endif
