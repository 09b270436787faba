/* rating_equation.h - the rating equation for one effect and one position of one truck. */
#ifndef SS_ASSESS_RATING_EQUATION_H
#define SS_ASSESS_RATING_EQUATION_H

#include "sillspan/rating.h"

/** Which way an effect is full: +capacity for the largest, -capacity for the least. */
static inline double ss_rating_target(double capacity, bool most) {
    return most ? capacity : -capacity;
}

/** What is left of the capacity under `dead`; 0 or less: none. */
static inline double ss_rating_headroom(double capacity, double dead, bool most) {
    return most ? capacity - dead : capacity + dead;
}

/** Multiple of `live` (factored, with allowance) that fills the capacity on top of `dead`, all effects
 * linear: (C - D) / L. 0 when dead load alone is too much, INFINITY when the live effect does not grow
 * towards that side. */
double ss_rating_linear(double capacity, double dead, double live, bool most);

/** The same with bearings that lift and close on the way; `path` is for one truck without factors,
 * `multiplier` is its live factor with allowance. Factors in `out` are multiples of the factored truck.
 * `work`: ss_contact_work(path->n). */
ss_status ss_rating_follow(const ss_contact_path *path, double multiplier, double capacity, bool most,
                           ss_reach *out, double *work);

#endif
