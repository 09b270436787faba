/* numeric.h - small numerics that several layers need. */
#ifndef SS_BASE_NUMERIC_H
#define SS_BASE_NUMERIC_H

#include <math.h>
#include <stdbool.h>

#define SS_PI 3.14159265358979323846

/* The macros of math.h are floats, which clang reports wherever they become doubles. */
#define SS_INFINITY ((double)INFINITY)
#define SS_NAN ((double)NAN)

/** Most points that ss_gauss_points knows. */
#define SS_GAUSS_MOST 8

/**
 * Gauss-Legendre points on [0,1], ascending, and their weights, which sum to 1: exact for polynomials of
 * degree 2 count - 1. `count` is 1 to SS_GAUSS_MOST; `points` and `weights` have size count.
 */
void ss_gauss_points(int count, double *points, double *weights);

/** Sorts `x` (size *count, finite values) ascending and drops each value within `tolerance` of the one kept
 * before it. */
void ss_sort_unique(double *x, int *count, double tolerance);

static inline double ss_max(double a, double b) {
    return a > b ? a : b;
}

static inline double ss_min(double a, double b) {
    return a < b ? a : b;
}

static inline double ss_clamp(double x, double low, double high) {
    return ss_max(low, ss_min(x, high));
}

/** Whether a and b differ by at most `relative` of the larger magnitude; two zeros are close, not-a-number
 * never is. */
static inline bool ss_close(double a, double b, double relative) {
    return a == b || fabs(a - b) <= relative * ss_max(fabs(a), fabs(b));
}

#endif
