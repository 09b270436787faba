/* rating_reactions.h - reactions of one truck at the positions that were asked for, kept so that none is
 * solved twice. */
#ifndef SS_ASSESS_RATING_REACTIONS_H
#define SS_ASSESS_RATING_REACTIONS_H

#include "sillspan/envelope.h"

typedef struct ss_rating_reactions {
    const ss_permanent *permanent;
    const ss_placements *placements;
    int n;            /**< contact springs */
    int count, slots; /**< slots is a power of two, or 0 */
    ss_position *key; /**< slots; track -1: empty */
    double *r;        /**< slots x n */
} ss_rating_reactions;

/** A struct with the first three fields set and the rest zero is empty. `*r` (n) is valid until the next
 * call. */
ss_status ss_rating_reactions_get(ss_rating_reactions *reactions, const ss_position *position,
                                  const double **r, ss_error *error);
void ss_rating_reactions_destroy(ss_rating_reactions *reactions);

#endif
