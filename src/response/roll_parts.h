/* roll_parts.h - what the steps that make a roll share. */
#ifndef SS_RESPONSE_ROLL_PARTS_H
#define SS_RESPONSE_ROLL_PARTS_H

#include "response/roll.h"

/** Positions closer than this are one, and an axle within twice that of a station is at it (m). */
#define SS_SAME_PLACE 1e-10
/** A change of the contact state is found to within this (m). */
#define SS_CHANGE_WITHIN 1e-6

typedef struct ss_roll_builder {
    const ss_axle_plans *plans;
    ss_contact_finder *finder; /* NULL: no contact springs */
    ss_roll roll;
    double *live, *mapped; /* n */
    ss_axle_at at[SS_AXLES_MAX];
    ss_error *error;
} ss_roll_builder;

/** Allocates `live` and `mapped`, which the caller frees. */
ss_status ss_roll_begin(ss_roll_builder *b, int n);

/**
 * Contact at b->at; *state is the guess and then the state found. A state that does not exist is no failure
 * here: *valid is then false. With no contact springs there is nothing to do.
 */
ss_status ss_roll_contact(ss_roll_builder *b, double x, bool left, int *state, double *change, bool *valid);

/** Where one axle is. */
ss_axle_at ss_axle_locate(const ss_axle_plans *plans, double x);

#endif
