/* influence.h - the influence surface of one effect: what a unit force does there, wherever it stands on the
 * deck. */
#ifndef SILLSPAN_INFLUENCE_H
#define SILLSPAN_INFLUENCE_H

#include "sillspan/permanent.h"

/** One corner of the surface. */
typedef struct ss_influence_point {
    double x, y;  /**< m, where the force stands */
    double value; /**< effect of a downward force of 1 N: m for a moment, m/N for a deflection, 1 for a shear
                     or a reaction */
} ss_influence_point;

/** Four-cornered cells over the deck: before left, after left, after right, before right. Cells beside each
 * other share corners, but where the surface jumps. */
typedef struct ss_influence {
    ss_effect effect;
    int open; /**< springs of bearings that carry nothing under the dead load, and are not there */
    int point_count, cell_count;
    ss_influence_point *points;
    int (*cells)[4];
    ss_arena arena;
} ss_influence;

/**
 * By Betti's theorem from one solution, with those bearings that carry the unfactored dead load today: the
 * others are open, and none opens or closes under the force. Cells reach from station to station, and from
 * one line or car edge to the next; a bay of floor beams that carry the deck is cut into four. Corners are
 * taken a billionth of a cell within it, so that both sides of a jump are there. Wheels that stand on a floor
 * beam of a deck that spans across come to the lines, as everywhere but in a search for the worst.
 * SS_ERROR_DESCRIPTION: the effect is not one of a line, floor beam, joint or bearing that is there.
 */
ss_status ss_influence_compute(const ss_permanent *permanent, const ss_effect *effect, ss_influence *out,
                               ss_error *error);
void ss_influence_destroy(ss_influence *influence);

#endif
