/* statistics.h - quantiles, shares and rank correlations of samples, each with what its size leaves open. */
#ifndef SS_BASE_STATISTICS_H
#define SS_BASE_STATISTICS_H

#include <stdbool.h>

#include "sillspan/status.h"

/** Sorts ascending; no value may be not-a-number. */
void ss_sort(int count, double *values);

/** The p-quantile (0 to 1) of `count` >= 1 values sorted ascending: value number 1 + (count - 1) p, in
 * between by a straight line (type 7 of Hyndman and Fan, The American Statistician 50, 1996). */
double ss_quantile(int count, const double *sorted, double p);

/**
 * Which of the sorted values (from 0) hold the p-quantile of whatever the sample was drawn from between them,
 * at least `confidence` of the time, with at most half of the rest on either side. It needs no distribution:
 * how many of independent values lie below the quantile is binomial. -1 and `count` where no value of so
 * small a sample will do.
 */
void ss_quantile_interval(int count, double p, double confidence, int *low, int *high);

/** Interval of a share of which `hits` of `count` >= 1 were seen, at `confidence` (Wilson, J. Am. Stat.
 * Assoc. 22, 1927). */
void ss_share_interval(int hits, int count, double confidence, double *low, double *high);

/** Ranks from 1, the mean rank to equals. `ranks` has size count. */
ss_status ss_ranks(int count, const double *values, double *ranks);

/** Correlation of the ranks (Spearman) of two samples, equals with their mean rank; not-a-number where all
 * values of one are equal or there are fewer than 2. */
ss_status ss_rank_correlation(int count, const double *x, const double *y, double *rho);

#endif
