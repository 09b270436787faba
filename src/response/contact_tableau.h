/* contact_tableau.h - the dictionary of a contact problem that principal pivots transform. */
#ifndef SS_RESPONSE_CONTACT_TABLEAU_H
#define SS_RESPONSE_CONTACT_TABLEAU_H

#include <stdbool.h>
#include <stddef.h>

#include "sillspan/status.h"

/**
 * The problem r = a + t b + S u (all of one size n) with r >= 0, u >= 0, r . u = 0, in scaled unknowns: r_i
 * scale_i and u_i / scale_i, so that the diagonal of S becomes 1. Of each pair one unknown is basic: r_i
 * while the bearing is closed, u_i while it is open. The dictionary says basic = a + t b + M nonbasic; M =
 * (A, B; -B', C) with A and C symmetric positive semidefinite whatever has been exchanged.
 *
 * Tolerances, all on scaled numbers:
 *   SS_CONTACT_SINGULAR: a diagonal or coupling of M below it is zero. A bearing whose own S_ii is below that
 * share of the largest is statically determinate: its row and column are taken as zeros. SS_CONTACT_NOTHING:
 * a basic unknown is negative when below minus that share of the largest right-hand side, and
 *   SS_CONTACT_ROUNDING of the two terms that it is the sum of.
 *   SS_CONTACT_LOST: what a pivot leaves of an entry is rounding, and zero, below that share of what it takes
 * off: beside springs of very unlike stiffness it would pass for what holds a bridge that tips.
 */
#define SS_CONTACT_SINGULAR 1e-10
#define SS_CONTACT_LOST 1e-9
#define SS_CONTACT_NOTHING 1e-10
#define SS_CONTACT_ROUNDING 1e-14

typedef struct ss_contact_tableau {
    int n;
    const double *S;
    double *M;       /* n x n */
    double *a, *b;   /* n: of the basic unknowns */
    double *a0, *b0; /* n: of the reactions with all closed */
    double *scale;   /* n */
    double *open;    /* n: 1 while the bearing is open, 0 while it is closed */
    double *spare;   /* n */
    double tiny_a, tiny_b;
} ss_contact_tableau;

/** Doubles of `work` that ss_contact_tableau_set needs. */
size_t ss_contact_tableau_work(int n);

/** All closed. `b` may be NULL: no parameter. */
void ss_contact_tableau_set(ss_contact_tableau *tableau, int n, const double *S, const double *a,
                            const double *b, double *work);

/** The dictionary with every bearing closed, anew. */
void ss_contact_tableau_close(ss_contact_tableau *tableau);

/** Makes the dictionary anew for the pattern in `open`, with the best diagonal pivots first. False (all
 * closed then) when the pattern is singular. */
bool ss_contact_tableau_restart(ss_contact_tableau *tableau);

/** Whether the dictionary at t is a solution just at t (`after` false) or also for slightly larger t. */
bool ss_contact_tableau_solved(const ss_contact_tableau *tableau, double t, bool after);

/**
 * Pivots to a solution at t (or just after t) by the least-index criss-cross rule, which cannot cycle for a
 * positive semidefinite S: D. den Hertog, C. Roos, T. Terlaky, "The linear complementarity problem,
 * sufficient matrices, and the criss-cross method", Linear Algebra and its Applications 187 (1993).
 * SS_ERROR_TIPPING when a row shows that there is none.
 */
ss_status ss_contact_tableau_pivot(ss_contact_tableau *tableau, double t, bool after);

#endif
