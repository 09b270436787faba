/* rating_absorb.h - what one envelope says of the smallest multiples. */
#ifndef SS_ASSESS_RATING_ABSORB_H
#define SS_ASSESS_RATING_ABSORB_H

#include "assess/rating_search.h"

/** An envelope and the request that it answers. */
typedef struct ss_rating_look {
    ss_rating_search *search;
    const ss_rating_request *request;
    const ss_envelope *envelope;
    ss_error *error;
} ss_rating_look;

/** Lowers the cases of the search: in each group of sections the most promising first, then those that could
 * come near it. */
ss_status ss_rating_absorb(const ss_rating_look *look);

#endif
