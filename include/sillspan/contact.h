/* contact.h - bearings that push and cannot pull, as a linear complementarity problem. */
#ifndef SILLSPAN_CONTACT_H
#define SILLSPAN_CONTACT_H

#include <stdbool.h>

#include "sillspan/status.h"

/**
 * r = r0 + S u, r >= 0, u >= 0, r.u = 0, with S (n x n, row major, symmetric positive semidefinite; N/m), r0
 * (n; N): reactions with all bearings closed. u are openings (m), r reactions (N). The pattern in `open` (n;
 * may hold a guess) is tried first; then pivoting. `work`: ss_contact_work(n) doubles. SS_ERROR_TIPPING when
 * no contact state exists: the load tips the bridge off its bearings. Outputs r, u, open are written on
 * success only.
 */
ss_status ss_contact_solve(int n, const double *S, const double *r0, double *r, double *u, bool *open,
                           double *work);
size_t ss_contact_work(int n);

/** How an effect grows with a multiple of the load, bearings lifting or closing on the way. */
typedef struct ss_reach {
    double factor; /**< smallest multiple >= 0 at which the effect reaches the target; INFINITY: never */
    double linear; /**< the same if the bearings kept the state that they have at multiple 0 */
    bool tips;     /**< before that, at `factor`, no contact state holds the load */
    int changes;   /**< contact changes on the way */
} ss_reach;

/** A path: reactions r_dead + m r_live with all bearings closed, the effect e_dead + m e_live + opening . u.
 * Arrays of n. */
typedef struct ss_contact_path {
    int n;
    const double *S, *r_dead, *r_live, *opening;
    double e_dead, e_live;
} ss_contact_path;

/**
 * Follows the solution u(m) of the complementarity problem, piecewise linear in m, by pivoting, and finds the
 * smallest m in [0, most] at which the effect reaches `target`, from below for target_above, else from above.
 * If the effect is already beyond the target at m = 0, factor is 0.
 */
ss_status ss_contact_reach(const ss_contact_path *path, double target, bool target_above, double most,
                           ss_reach *out, double *work);

#endif
