/* halves.c - bounds on the sum of parts of a load whose contact was solved apart. */
#include "response/halves.h"

#include <string.h>

#include "base/numeric.h"
#include "response/contact_tableau.h"

/* What is left of c beside the range of S may be this share of its largest entry: rounding. */
#define BESIDE 1e-7

size_t ss_halves_work(int n) {
    const size_t size = (size_t)n;
    return size * size + 2 * size;
}

/* One step of elimination with row `p` of S as pivot, in both S and c. */
static void eliminate(int n, int p, double *S, double *c, const double *left) {
    const double *const row = S + (size_t)p * (size_t)n;
    for (int i = 0; i < n; i++) {
        if (left[i] == 0.0) {
            continue;
        }
        double *const other = S + (size_t)i * (size_t)n;
        const double share = other[p] / row[p];
        for (int j = 0; j < n; j++) other[j] -= share * row[j];
        c[i] -= share * c[p];
    }
}

double ss_halves_norm(int n, const double *S, const double *c, double *work) {
    const size_t size = (size_t)n;
    double *const rest = work, *const value = rest + size * size, *const left = value + size;
    double most = 0.0, largest = 0.0, norm = 0.0;
    for (size_t i = 0; i < size; i++) {
        most = ss_max(most, S[i * size + i]);
        largest = ss_max(largest, fabs(c[i]));
    }
    if (!(most > 0.0)) {
        return largest > 0.0 ? SS_INFINITY : 0.0; /* no bearing's opening costs any force */
    }
    largest = 0.0;
    for (size_t i = 0; i < size; i++) {
        const double own = S[i * size + i], scale = 1.0 / sqrt(own > SS_CONTACT_SINGULAR * most ? own : most);
        for (size_t j = 0; j < size; j++) {
            const double other = S[j * size + j];
            rest[i * size + j] =
                S[i * size + j] * scale / sqrt(other > SS_CONTACT_SINGULAR * most ? other : most);
        }
        value[i] = c[i] * scale;
        left[i] = 1.0;
        largest = ss_max(largest, fabs(value[i]));
    }
    for (int pass = 0; pass < n; pass++) {
        int p = -1;
        for (int i = 0; i < n; i++) {
            const bool more =
                p < 0 || rest[(size_t)i * size + (size_t)i] > rest[(size_t)p * size + (size_t)p];
            p = left[i] != 0.0 && more ? i : p;
        }
        const double pivot = rest[(size_t)p * size + (size_t)p];
        if (pivot <= SS_CONTACT_SINGULAR) {
            break;
        }
        norm += value[p] * value[p] / pivot;
        left[p] = 0.0;
        eliminate(n, p, rest, value, left);
    }
    for (size_t i = 0; i < size; i++) {
        if (left[i] != 0.0 && fabs(value[i]) > BESIDE * largest) {
            return SS_INFINITY;
        }
    }
    return sqrt(norm);
}

bool ss_halves_clear(const ss_halves *h) {
    const double square = h->norm * h->norm, left = h->room * h->room - square * h->gap;
    /* (t, 1 - t) in the quadratic form of the squares: its ends, and what is between them. */
    return h->room > 0.0 && h->whole > 0.0 && left > 0.0 &&
           square * h->cross < 2.0 * h->whole * (h->room + sqrt(left));
}
