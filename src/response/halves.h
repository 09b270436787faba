/* halves.h - how far what a load does can be from the sum of what its parts do, the bearings' contact of each
 * solved apart. */
#ifndef SS_RESPONSE_HALVES_H
#define SS_RESPONSE_HALVES_H

#include <stdbool.h>
#include <stddef.h>

/**
 * Contact is r = r0 + S u, r >= 0, u >= 0, r . u = 0; an effect is e + c . u. Openings and reactions of parts
 * that make up a load, added, satisfy all of that for the whole but r . u = 0: that product is their gap g.
 * For the openings u of the whole, (u' - u) . S (u' - u) <= g (monotonicity), so that with c in the range of
 * S the effect of the whole is within sqrt(c . S^+ c) sqrt(g) of the sum. docs/theory.md has the proof.
 */

/** sqrt(c . S^+ c), S (n x n) symmetric positive semidefinite; INFINITY when c is not in its range. `work`:
 * ss_halves_work(n) doubles. */
double ss_halves_norm(int n, const double *S, const double *c, double *work);
size_t ss_halves_work(int n);

/** Parts added, against a limit of the effect. All toward the limit. */
typedef struct ss_halves {
    double norm;  /**< see ss_halves_norm */
    double gap;   /**< of the parts of the load; 0 when it was solved as a whole */
    double cross; /**< openings of the parts times reactions under dead load, and the other way round */
    double room;  /**< limit less the sum of the parts' effects */
    double whole; /**< limit less the effect of dead load alone */
} ss_halves;

/**
 * Whether the effect is short of its limit under dead load with the live load and with every smaller multiple
 * of it, t from 0 to 1: norm sqrt(t^2 gap + t (1 - t) cross) < t room + (1 - t) whole for all of them.
 */
bool ss_halves_clear(const ss_halves *h);

#endif
