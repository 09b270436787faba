/* roll_parts.h - what the steps that make a roll share. */
#ifndef SS_RESPONSE_ROLL_PARTS_H
#define SS_RESPONSE_ROLL_PARTS_H

#include "response/course.h"
#include "response/roll.h"

/** A change of the contact state is found to within this (m). */
#define SS_CHANGE_WITHIN 1e-6

typedef struct ss_roll_builder {
    const ss_axle_plans *plans;
    ss_contact_finder *finder; /* NULL: no contact springs */
    ss_roll roll;
    double *live, *change, *cubics; /* n, n, 4 n */
    ss_error *error;
} ss_roll_builder;

/** Adds a stand or point; `at` is where its axles are, `place` of the course or -1 for one in between. */
typedef struct ss_roll_stand {
    double x;
    int side, place, state;
    bool valid;
    const ss_axle_at *at;
    const double *change;
} ss_roll_stand;

ss_status ss_roll_add(ss_roll_builder *b, const ss_roll_stand *stand);

/**
 * Contact with the axles at `at`, into b->change; *state is the guess and then the state found. A state that
 * does not exist is no failure here: *valid is then false. With no contact springs there is nothing to do.
 */
ss_status ss_roll_contact(ss_roll_builder *b, double x, const ss_axle_at *at, bool left, int *state,
                          bool *valid);

/** Between the last stand (state `from`) and x_to (state `to`): a stand on either side of every change of
 * state. */
ss_status ss_roll_changes(ss_roll_builder *b, int from, double x_to, int to);

#endif
