/* enumerate.c - every pattern of open and closed bearings. */
#include "verification/enumerate.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

#include "verification/dense.h"

/* Openings of the springs in `open` that bring their reactions to zero; false when the rest cannot hold the
 * bridge. */
static bool openings(int n, const double *S, const double *r0, unsigned open, double *u) {
    int index[ENUMERATE_MOST];
    double a[ENUMERATE_MOST * ENUMERATE_MOST];
    double b[ENUMERATE_MOST];
    int count = 0;
    for (int i = 0; i < n; i++) {
        u[i] = 0.0;
        if ((open >> i & 1U) != 0U) {
            index[count++] = i;
        }
    }
    for (int i = 0; i < count; i++) {
        for (int j = 0; j < count; j++) {
            a[i * count + j] = S[index[i] * n + index[j]];
        }
        b[i] = -r0[index[i]];
    }
    if (!dense_solve(count, a, b)) {
        return false;
    }
    for (int i = 0; i < count; i++) {
        u[index[i]] = b[i];
    }
    return true;
}

void enumerate_contact(int n, const double *S, const double *r0, double small_r, double small_u,
                       enumerate_result *out) {
    memset(out, 0, sizeof *out);
    for (unsigned open = 0; open < 1U << n; open++) {
        double u[ENUMERATE_MOST], r[ENUMERATE_MOST];
        if (!openings(n, S, r0, open, u)) {
            continue;
        }
        bool holds = true;
        int open_count = 0;
        for (int i = 0; i < n && holds; i++) {
            const bool is_open = (open >> i & 1U) != 0U;
            open_count += is_open ? 1 : 0;
            r[i] = 0.0;
            for (int j = 0; j < n && !is_open; j++) {
                r[i] += S[i * n + j] * u[j];
            }
            r[i] += is_open ? 0.0 : r0[i];
            holds = r[i] >= -small_r && u[i] >= -small_u;
        }
        if (!holds) {
            continue;
        }
        bool same = out->solutions > 0;
        for (int i = 0; i < n && same; i++) {
            same = fabs(r[i] - out->reaction[i]) <= 10.0 * small_r;
        }
        if (!same) {
            out->solutions++;
            out->open = open_count;
            memcpy(out->reaction, r, sizeof r[0] * (size_t)n);
        }
    }
}
