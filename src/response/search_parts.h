/* search_parts.h - what the steps of the search share. */
#ifndef SS_RESPONSE_SEARCH_PARTS_H
#define SS_RESPONSE_SEARCH_PARTS_H

#include "response/search.h"

/** Values of the traffic at hand at one position, noted for the lanes that reach their thresholds. */
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

/** Tries what of a block may beat what has been found; `bound` (2 x SS_TILE) becomes as close as that shows.
 */
ss_status ss_search_block(ss_searcher *searcher, const ss_roll *roll, int index, float *bound,
                          ss_error *error);

#endif
