/* distribution.h - values of a distribution at a given probability, and correlated normal scores. */
#ifndef SS_BASE_DISTRIBUTION_H
#define SS_BASE_DISTRIBUTION_H

#include <stdbool.h>

/** Probability of a standard normal variable to be at most x. */
double ss_normal_share(double x);

/** The standard normal quantile at 0 < p < 1, to some units of the last place; infinite at 0 and 1. */
double ss_normal_quantile(double p);

/** Quantile at 0 < p < 1 of a standard normal variable held between low < high (either may be infinite). */
double ss_normal_quantile_between(double p, double low, double high);

/** A lognormal variable by the mean and the standard deviation (> 0) of itself, not of its logarithm:
 * *log_mean and *log_sd are those of the logarithm. log_sd^2 = ln(1 + (sd/mean)^2), log_mean = ln mean -
 * log_sd^2/2. */
void ss_lognormal_of(double mean, double sd, double *log_mean, double *log_sd);

/** Quantile of a triangular variable, low <= mode <= high, low < high. */
double ss_triangular_quantile(double p, double low, double mode, double high);

/** Index that p falls to when `count` things have the weights (>= 0, sum > 0) in turn. */
int ss_discrete_quantile(double p, int count, const double *weights);

/** Factors a (row-major, count x count, only the lower half is read) into L L^T, L in the lower half, the
 * upper half zero. False, and a spoilt, when it is not positive definite: the pivot of row *at (may be NULL)
 * is below 1e-12 of its diagonal. */
bool ss_cholesky(int count, double *a, int *at);

/** Turns independent probabilities (0 < p < 1, size count) into those of normal scores whose correlation has
 * the factor `lower` of ss_cholesky: p = F(L F^-1(p)), a Gaussian copula. `work` has size count. */
void ss_copula(int count, const double *lower, double *p, double *work);

#endif
