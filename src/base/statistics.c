/* statistics.c - quantiles, shares and rank correlations of samples. */
#include "base/statistics.h"

#include <stdlib.h>

#include "base/distribution.h"
#include "base/numeric.h"
#include "base/try.h"
#include "sillspan/memory.h"

/* ---- quantiles ------------------------------------------------------------------------------------ */

static int compare(const void *a, const void *b) {
    const double x = *(const double *)a;
    const double y = *(const double *)b;
    return (x > y) - (x < y);
}

void ss_sort(int count, double *values) {
    qsort(values, (size_t)count, sizeof *values, compare);
}

double ss_quantile(int count, const double *sorted, double p) {
    const double place = (count - 1) * ss_clamp(p, 0.0, 1.0);
    const int below = (int)floor(place);
    if (below >= count - 1) {
        return sorted[count - 1];
    }
    const double share = place - below;
    /* An infinite neighbour without a share must not spoil the sum. */
    return share == 0.0 ? sorted[below] : (1.0 - share) * sorted[below] + share * sorted[below + 1];
}

/*
 * How many chances of a binomial variable, from the least number of hits on, sum to no more than `share`. The
 * chance of k hits is followed in its logarithm, from (1 - p)^n on by C(n, k+1)/C(n, k) = (n - k)/(k + 1).
 */
static int hits_within(int n, double p, double share) {
    const double odds = log(p) - log1p(-p);
    double chance = n * log1p(-p);
    double sum = 0.0;
    for (int k = 0; k <= n; k++) {
        sum += exp(chance);
        if (sum > share) {
            return k;
        }
        chance += log((double)(n - k)) - log(k + 1.0) + odds;
    }
    return n + 1;
}

void ss_quantile_interval(int count, double p, double confidence, int *low, int *high) {
    const double outside = 0.5 * (1.0 - confidence);
    *low = -1;
    *high = count;
    if (!(p > 0.0 && p < 1.0)) {
        return;
    }
    /* The value number k (from 0) lies above the quantile when at most k lie below it; the upper end is the
     * same seen from above. */
    *low = hits_within(count, p, outside) - 1;
    *high = count - hits_within(count, 1.0 - p, outside);
}

void ss_share_interval(int hits, int count, double confidence, double *low, double *high) {
    const double n = count;
    const double share = hits / n;
    const double z = ss_normal_quantile(0.5 + 0.5 * confidence);
    const double middle = (share + 0.5 * z * z / n) / (1.0 + z * z / n);
    const double half = z / (1.0 + z * z / n) * sqrt(share * (1.0 - share) / n + 0.25 * z * z / (n * n));
    *low = hits == 0 ? 0.0 : ss_max(0.0, middle - half);
    *high = hits == count ? 1.0 : ss_min(1.0, middle + half);
}

/* ---- ranks ---------------------------------------------------------------------------------------- */

typedef struct ranked {
    double value;
    int index;
} ranked;

static int compare_ranked(const void *a, const void *b) {
    const ranked *const x = a;
    const ranked *const y = b;
    if (x->value != y->value) {
        return x->value > y->value ? 1 : -1;
    }
    return (x->index > y->index) - (x->index < y->index);
}

ss_status ss_ranks(int count, const double *values, double *ranks) {
    ranked *const order = ss_alloc((size_t)count, sizeof *order);
    if (order == NULL) {
        return SS_ERROR_MEMORY;
    }
    for (int i = 0; i < count; i++) {
        order[i] = (ranked){values[i], i};
    }
    qsort(order, (size_t)count, sizeof *order, compare_ranked);
    for (int i = 0; i < count;) {
        int end = i + 1;
        while (end < count && order[end].value == order[i].value) {
            end++;
        }
        for (int k = i; k < end; k++) {
            ranks[order[k].index] = 0.5 * (i + 1 + end);
        }
        i = end;
    }
    ss_free(order);
    return SS_OK;
}

/* Correlation of two lists of ranks, both of which have the mean (count + 1)/2. */
static double correlate(int count, const double *x, const double *y) {
    const double mean = 0.5 * (count + 1.0);
    double xx = 0.0;
    double yy = 0.0;
    double xy = 0.0;
    for (int i = 0; i < count; i++) {
        xx += (x[i] - mean) * (x[i] - mean);
        yy += (y[i] - mean) * (y[i] - mean);
        xy += (x[i] - mean) * (y[i] - mean);
    }
    return xx > 0.0 && yy > 0.0 ? ss_clamp(xy / sqrt(xx * yy), -1.0, 1.0) : SS_NAN;
}

ss_status ss_rank_correlation(int count, const double *x, const double *y, double *rho) {
    ss_status status = SS_OK;
    double *const ranks = ss_alloc(2 * (size_t)count, sizeof *ranks);
    if (ranks == NULL) {
        status = SS_ERROR_MEMORY;
        goto done;
    }
    SS_TRY(ss_ranks(count, x, ranks));
    SS_TRY(ss_ranks(count, y, ranks + count));
    *rho = correlate(count, ranks, ranks + count);
done:
    ss_free(ranks);
    return status;
}
