/* distribution.c - quantiles of distributions and the Gaussian copula. */
#include "base/distribution.h"

#include <stddef.h>

#include "base/numeric.h"

#define SQRT_HALF 0.70710678118654752440
#define SQRT_TWO_PI 2.50662827463100050242

/* Below this share of the diagonal a pivot of a correlation matrix is rounding. */
#define PIVOT 1e-12

/* Least distance of a probability from 0 and 1. */
#define EDGE 0x1p-53

double ss_normal_share(double x) {
    return 0.5 * erfc(-x * SQRT_HALF);
}

/*
 * x with Q(x) = 0.5 erfc(x/sqrt 2) = q for 0 < q <= 1/2. It begins with a rational approximation good to
 * 4.5e-4 (Abramowitz and Stegun, 26.2.23) and goes on by Halley's steps, each of which cubes the error: two
 * would do.
 */
static double upper_quantile(double q) {
    if (q == 0.5) {
        return 0.0;
    }
    const double t = sqrt(-2.0 * log(q));
    double x = t - (2.515517 + t * (0.802853 + t * 0.010328)) /
                       (1.0 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
    for (int step = 0; step < 3; step++) {
        const double density = exp(-0.5 * x * x) / SQRT_TWO_PI;
        const double newton = (0.5 * erfc(x * SQRT_HALF) - q) / density;
        x += newton / (1.0 - 0.5 * x * newton);
    }
    return x;
}

double ss_normal_quantile(double p) {
    if (!(p > 0.0)) {
        return -SS_INFINITY;
    }
    if (!(p < 1.0)) {
        return SS_INFINITY;
    }
    /* 1 - p is exact where p is at least a half. */
    return p <= 0.5 ? -upper_quantile(p) : upper_quantile(1.0 - p);
}

double ss_normal_quantile_between(double p, double low, double high) {
    /* In the upper tail shares are all near 1; its mirror image keeps their digits. */
    if (low > 0.0) {
        return -ss_normal_quantile_between(1.0 - p, -high, -low);
    }
    const double below = ss_normal_share(low);
    const double share = ss_normal_share(high) - below;
    return ss_clamp(ss_normal_quantile(below + p * share), low, high);
}

void ss_lognormal_of(double mean, double sd, double *log_mean, double *log_sd) {
    const double variance = log1p((sd / mean) * (sd / mean));
    *log_sd = sqrt(variance);
    *log_mean = log(mean) - 0.5 * variance;
}

double ss_triangular_quantile(double p, double low, double mode, double high) {
    const double rising = (mode - low) / (high - low);
    if (p < rising) {
        return low + sqrt(p * (high - low) * (mode - low));
    }
    return high - sqrt((1.0 - p) * (high - low) * (high - mode));
}

int ss_discrete_quantile(double p, int count, const double *weights) {
    double total = 0.0;
    for (int i = 0; i < count; i++) {
        total += weights[i];
    }
    double below = 0.0;
    int last = 0;
    for (int i = 0; i < count; i++) {
        below += weights[i];
        last = weights[i] > 0.0 ? i : last;
        if (p * total < below) {
            return i;
        }
    }
    return last;
}

bool ss_cholesky(int count, double *a, int *at) {
    const int n = count;
    for (int j = 0; j < n; j++) {
        const double diagonal = a[j * n + j];
        double pivot = diagonal;
        for (int k = 0; k < j; k++) {
            pivot -= a[j * n + k] * a[j * n + k];
        }
        if (!(pivot > PIVOT * diagonal)) {
            if (at != NULL) {
                *at = j;
            }
            return false;
        }
        a[j * n + j] = sqrt(pivot);
        for (int i = j + 1; i < n; i++) {
            double sum = a[i * n + j];
            for (int k = 0; k < j; k++) {
                sum -= a[i * n + k] * a[j * n + k];
            }
            a[i * n + j] = sum / a[j * n + j];
            a[j * n + i] = 0.0;
        }
    }
    return true;
}

void ss_copula(int count, const double *lower, double *p, double *work) {
    for (int i = 0; i < count; i++) {
        work[i] = ss_normal_quantile(p[i]);
    }
    for (int i = 0; i < count; i++) {
        const double *const row = lower + i * count;
        double score = 0.0;
        bool alone = row[i] == 1.0;
        for (int k = 0; k <= i; k++) {
            score += row[k] * work[k];
            alone = alone && (k == i || row[k] == 0.0);
        }
        /* What depends on nothing before it keeps every digit. */
        if (!alone) {
            p[i] = ss_clamp(ss_normal_share(score), EDGE, 1.0 - EDGE);
        }
    }
}
