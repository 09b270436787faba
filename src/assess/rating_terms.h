/* rating_terms.h - all terms of a rating once its section, position and factor are known. */
#ifndef SS_ASSESS_RATING_TERMS_H
#define SS_ASSESS_RATING_TERMS_H

#include "assess/rating_search.h"

/** Dead load states that the terms are read from. */
typedef struct ss_rating_terms {
    const ss_rating_search *search;
    const ss_rating_rule *rule;
    ss_state factored[2]; /**< under the largest and the smallest dead load factors */
    ss_state dc, both;    /**< unfactored: structure alone, and with the wearing surface */
} ss_rating_terms;

ss_status ss_rating_terms_init(ss_rating_terms *terms, const ss_rating_search *search,
                               const ss_rating_rule *rule, ss_error *error);
void ss_rating_terms_destroy(ss_rating_terms *terms);

/**
 * Fills `out` for one effect, traffic and sign from its case. The state of the bridge under the rated load is
 * solved once more, by itself: SS_ERROR_CHECK when it has the effect beyond the capacity.
 */
ss_status ss_rating_terms_fill(const ss_rating_terms *terms, int rated, int traffic, bool most,
                               ss_rating *out, ss_error *error);

#endif
