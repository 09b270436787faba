/* dense.h - a small dense solver for the independent methods; shares nothing with the library's own. */
#ifndef VERIFICATION_DENSE_H
#define VERIFICATION_DENSE_H

#include <stdbool.h>

/** Solves A x = b by elimination with row pivoting; A (n x n, row major) and b (n) are overwritten, b becomes
 * x. False when a pivot vanishes against the largest entry of A. */
bool dense_solve(int n, double *a, double *b);

#endif
