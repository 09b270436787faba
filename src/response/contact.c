/* contact.c - bearings that push and cannot pull: one state of contact. */
#include "sillspan/contact.h"

#include "base/numeric.h"
#include "response/contact_tableau.h"

size_t ss_contact_work(int n) {
    return ss_contact_tableau_work(n) + (size_t)n; /* the path keeps a pattern besides */
}

/*
 * The guess need not be right: the rule may start from any pattern that is not singular. It cannot cycle but
 * by rounding, beside a load that tips, where states follow each other within a hair: then what is nothing is
 * taken a little larger.
 */
static ss_status find_state(ss_contact_tableau *tableau) {
    ss_status status = SS_OK;
    if (ss_contact_tableau_restart(tableau) && ss_contact_tableau_solved(tableau, 0.0, false)) {
        return SS_OK;
    }
    for (int pass = 0; pass < 3; pass++) {
        status = ss_contact_tableau_pivot(tableau, 0.0, false);
        if (status == SS_OK && !ss_contact_tableau_restart(tableau)) {
            status = ss_contact_tableau_pivot(tableau, 0.0, false);
        }
        if (status != SS_ERROR_NUMERIC) {
            break;
        }
        tableau->tiny_a *= 30.0;
        ss_contact_tableau_close(tableau);
    }
    return status;
}

ss_status ss_contact_solve(int n, const double *S, const double *r0, double *r, double *u, bool *open,
                           double *work) {
    ss_contact_tableau tableau;
    ss_contact_tableau_set(&tableau, n, S, r0, NULL, work);
    for (int i = 0; i < n; i++) tableau.open[i] = open[i] ? 1.0 : 0.0;
    const ss_status status = find_state(&tableau);
    if (status != SS_OK) {
        return status;
    }
    for (int i = 0; i < n; i++) {
        const double value = ss_max(tableau.a[i], 0.0);
        open[i] = tableau.open[i] > 0.5;
        r[i] = open[i] ? 0.0 : value / tableau.scale[i];
        u[i] = open[i] ? value * tableau.scale[i] : 0.0;
    }
    return SS_OK;
}
