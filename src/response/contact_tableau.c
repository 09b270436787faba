/* contact_tableau.c - principal pivots on a contact problem, with a rule that cannot cycle. */
#include "response/contact_tableau.h"

#include <math.h>
#include <string.h>

#include "base/numeric.h"

size_t ss_contact_tableau_work(int n) {
    const size_t size = (size_t)n;
    return size * size + 7 * size;
}

/* Largest magnitude in x. */
static double largest(int n, const double *x) {
    double most = 0.0;
    for (int i = 0; i < n; i++) most = ss_max(most, fabs(x[i]));
    return most;
}

static bool determinate(const ss_contact_tableau *tableau, int i, double most) {
    return tableau->S[(size_t)i * (size_t)tableau->n + (size_t)i] <= SS_CONTACT_SINGULAR * most;
}

void ss_contact_tableau_close(ss_contact_tableau *tableau) {
    const int n = tableau->n;
    const size_t size = (size_t)n;
    double most = 0.0;
    for (int i = 0; i < n; i++) most = ss_max(most, tableau->S[(size_t)i * size + (size_t)i]);
    for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
            const bool zero = determinate(tableau, i, most) || determinate(tableau, j, most);
            const size_t at = (size_t)i * size + (size_t)j;
            tableau->M[at] = zero ? 0.0 : tableau->S[at] * tableau->scale[i] * tableau->scale[j];
        }
    }
    memcpy(tableau->a, tableau->a0, size * sizeof *tableau->a);
    memcpy(tableau->b, tableau->b0, size * sizeof *tableau->b);
    memset(tableau->open, 0, size * sizeof *tableau->open);
}

void ss_contact_tableau_set(ss_contact_tableau *tableau, int n, const double *S, const double *a,
                            const double *b, double *work) {
    const size_t size = (size_t)n;
    *tableau = (ss_contact_tableau){.n = n, .S = S, .M = work};
    double *vectors[7];
    for (size_t i = 0; i < 7; i++) vectors[i] = work + size * size + i * size;
    tableau->a = vectors[0];
    tableau->b = vectors[1];
    tableau->a0 = vectors[2];
    tableau->b0 = vectors[3];
    tableau->scale = vectors[4];
    tableau->open = vectors[5];
    tableau->spare = vectors[6];
    double most = 0.0;
    for (int i = 0; i < n; i++) most = ss_max(most, S[(size_t)i * size + (size_t)i]);
    for (int i = 0; i < n; i++) {
        const double diagonal = determinate(tableau, i, most) ? most : S[(size_t)i * size + (size_t)i];
        tableau->scale[i] = diagonal > 0.0 ? 1.0 / sqrt(diagonal) : 1.0;
        tableau->a0[i] = a[i] * tableau->scale[i];
        tableau->b0[i] = b == NULL ? 0.0 : b[i] * tableau->scale[i];
    }
    tableau->tiny_a = SS_CONTACT_NOTHING * largest(n, tableau->a0);
    tableau->tiny_b = SS_CONTACT_NOTHING * largest(n, tableau->b0);
    ss_contact_tableau_close(tableau);
}

/*
 * Exchanges the basic unknown of row `row` with the nonbasic one of column `column`:
 *   x = q + m y + (rest)  becomes  y = -q / m + x / m - (rest) / m, and every other row has that put in.
 */
static void exchange(ss_contact_tableau *tableau, int row, int column) {
    const int n = tableau->n;
    double *restrict const pivot_row = tableau->M + (size_t)row * (size_t)n;
    const double m = pivot_row[column];
    for (int i = 0; i < n; i++) {
        if (i == row) {
            continue;
        }
        double *restrict const other = tableau->M + (size_t)i * (size_t)n;
        const double share = other[column] / m;
        if (share == 0.0) {
            continue;
        }
        for (int j = 0; j < n; j++) {
            const double taken = share * pivot_row[j], left = other[j] - taken;
            other[j] = fabs(left) <= SS_CONTACT_LOST * fabs(taken) ? 0.0 : left;
        }
        other[column] = share;
        tableau->a[i] -= share * tableau->a[row];
        tableau->b[i] -= share * tableau->b[row];
    }
    for (int j = 0; j < n; j++) pivot_row[j] = j == column ? 1.0 / m : -pivot_row[j] / m;
    tableau->a[row] = -tableau->a[row] / m;
    tableau->b[row] = -tableau->b[row] / m;
}

static void swap_doubles(double *a, double *b) {
    const double kept = *a;
    *a = *b;
    *b = kept;
}

/* Whether the pairs k and l can change places: neither of the two exchanges across has a pivot that is only
 * rounding. */
static bool can_exchange_pairs(const ss_contact_tableau *tableau, int k, int l) {
    const size_t n = (size_t)tableau->n, row_k = (size_t)k * n, row_l = (size_t)l * n;
    const double first = tableau->M[row_k + (size_t)l];
    if (!(first > SS_CONTACT_SINGULAR)) {
        return false;
    }
    const double taken = tableau->M[row_l + (size_t)l] / first * tableau->M[row_k + (size_t)k];
    const double second = fabs(tableau->M[row_l + (size_t)k] - taken);
    return second > ss_max(SS_CONTACT_SINGULAR, SS_CONTACT_LOST * fabs(taken));
}

/* Both unknowns of the pairs k and l change places: two exchanges across, then each row goes back to its own
 * pair. */
static void exchange_pairs(ss_contact_tableau *tableau, int k, int l) {
    const size_t n = (size_t)tableau->n;
    exchange(tableau, k, l);
    exchange(tableau, l, k);
    for (size_t j = 0; j < n; j++) {
        swap_doubles(&tableau->M[(size_t)k * n + j], &tableau->M[(size_t)l * n + j]);
    }
    swap_doubles(&tableau->a[k], &tableau->a[l]);
    swap_doubles(&tableau->b[k], &tableau->b[l]);
    for (size_t i = 0; i < n; i++)
        swap_doubles(&tableau->M[i * n + (size_t)k], &tableau->M[i * n + (size_t)l]);
    tableau->open[k] = 1.0 - tableau->open[k];
    tableau->open[l] = 1.0 - tableau->open[l];
}

bool ss_contact_tableau_restart(ss_contact_tableau *tableau) {
    const int n = tableau->n;
    memcpy(tableau->spare, tableau->open, (size_t)n * sizeof *tableau->spare);
    ss_contact_tableau_close(tableau);
    for (;;) {
        int best = -1;
        double most = 0.0;
        for (int i = 0; i < n; i++) {
            const double diagonal = tableau->M[(size_t)i * (size_t)n + (size_t)i];
            if (tableau->spare[i] != tableau->open[i] && (best < 0 || diagonal > most)) {
                best = i;
                most = diagonal;
            }
        }
        if (best < 0) {
            return true;
        }
        if (most <= SS_CONTACT_SINGULAR) {
            ss_contact_tableau_close(tableau);
            return false;
        }
        exchange(tableau, best, best);
        tableau->open[best] = 1.0;
    }
}

/* Near a singular pattern both terms of the sum are large, and what is left of them is rounding. */
static bool negative(const ss_contact_tableau *tableau, int i, double t, bool after) {
    const double value = tableau->a[i] + t * tableau->b[i];
    const double rounding = SS_CONTACT_ROUNDING * (fabs(tableau->a[i]) + t * fabs(tableau->b[i]));
    const double tiny = ss_max(rounding, ss_max(tableau->tiny_a, t * tableau->tiny_b));
    if (value < -tiny) {
        return true;
    }
    return after && value <= tiny && tableau->b[i] < -tableau->tiny_b;
}

bool ss_contact_tableau_solved(const ss_contact_tableau *tableau, double t, bool after) {
    for (int i = 0; i < tableau->n; i++) {
        if (negative(tableau, i, t, after)) {
            return false;
        }
    }
    return true;
}

/* Row k is negative: the pivot that the criss-cross rule asks for. False when nothing can lift it. With a
 * zero diagonal the couplings to bearings in the same state are zero too, and what is left of them is
 * rounding. */
static bool lift(ss_contact_tableau *tableau, int k) {
    const int n = tableau->n;
    const double *const row = tableau->M + (size_t)k * (size_t)n;
    if (row[k] > SS_CONTACT_SINGULAR) {
        exchange(tableau, k, k);
        tableau->open[k] = 1.0 - tableau->open[k];
        return true;
    }
    for (int j = 0; j < n; j++) {
        if (tableau->open[j] != tableau->open[k] && can_exchange_pairs(tableau, k, j)) {
            exchange_pairs(tableau, k, j);
            return true;
        }
    }
    return false;
}

ss_status ss_contact_tableau_pivot(ss_contact_tableau *tableau, double t, bool after) {
    const int n = tableau->n;
    const int most = 1000 + 200 * n;
    for (int pass = 0; pass < most; pass++) {
        int k = 0;
        while (k < n && !negative(tableau, k, t, after)) k++;
        if (k == n) {
            return SS_OK;
        }
        if (!lift(tableau, k)) {
            return SS_ERROR_TIPPING;
        }
    }
    return SS_ERROR_NUMERIC;
}
