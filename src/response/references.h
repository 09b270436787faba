/* references.h - states of contact that influence lines are made for, so that most positions need no openings
 * besides. */
#ifndef SS_RESPONSE_REFERENCES_H
#define SS_RESPONSE_REFERENCES_H

#include "response/roll.h"

enum { SS_REFERENCES_MOST = 6 };

/**
 * Contact makes effects piecewise linear. An influence line can have the openings of one state in it;
 * positions in that state then differ from the line by a constant only, and bounds over many positions are
 * close. Each plan refers to the state that is commonest on it among the few chosen.
 */
typedef struct ss_references {
    int count;
    int state[SS_REFERENCES_MOST]; /**< of the finder; -1: all closed */
} ss_references;

/** Chooses from what the rolls have met, and sets `reference` of every plan. */
ss_status ss_references_choose(ss_axle_plans *plans, const ss_contact_finder *finder, const ss_roll *rolls,
                               int roll_count, ss_references *out, ss_error *error);

/** out = z with the openings of a state in it: `opening` (n x SS_TILE) is the tile's effect of unit openings.
 */
void ss_reference_field(const ss_contact_finder *finder, int state, const double *opening, const double *z,
                        double *out);

#endif
