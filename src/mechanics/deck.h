/* deck.h - all shares of a force on the deck, whichever way it spans. */
#ifndef SS_MECHANICS_DECK_H
#define SS_MECHANICS_DECK_H

#include "sillspan/mesh.h"

typedef struct ss_deck_shares {
    ss_carrier carrier[4];
    int carrier_count;
    ss_beam_share beam[4];
    int beam_count;
} ss_deck_shares;

/** A wheel this near to a line is on it, where the shear of a floor beam jumps (m). */
#define SS_AT_LINE 1e-10

/** Shares of a unit force at (x, y), x within the interval; no shares where there is no car. */
void ss_deck_shares_at(const ss_mesh *mesh, int interval, double x, double y, ss_deck_shares *out);

/** The same at any x: just after it, or, exactly at a station after which nothing carries, just before it.
 * Returns the interval, or -1 where nothing carries. */
int ss_deck_shares_find(const ss_mesh *mesh, double x, double y, ss_deck_shares *out);

/** The y of every line, car edge and middle of a gap in that interval, ascending: between two of them shares
 * are linear in y, or stay in one bay. */
int ss_deck_breaks(const ss_mesh *mesh, int interval, double *y, int capacity);

#endif
