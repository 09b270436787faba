/* ratings_proof.h - trucks abreast that govern, looked into once more. */
#ifndef SS_ASSESS_RATINGS_PROOF_H
#define SS_ASSESS_RATINGS_PROOF_H

#include "assess/ratings_demands.h"

/**
 * For every check and crossing whose governing item (ratings->governing) has two trucks abreast: goes through
 * all arrangements of their places for its section (ss_reach_prove), and leaves what comes out with the
 * members' results, from which items are to be filled anew. `next`: the same for the items that come next
 * after them, deflection apart, to find what is full below the one that governs. group: index in `members` of
 * each item.
 */
ss_status ss_ratings_prove(const ss_reacher *reach, const ss_rated_member *members, const int *group,
                           const ss_ratings *ratings, bool next, ss_arena *arena, ss_error *error);

#endif
