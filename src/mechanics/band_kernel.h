/* band_kernel.h - the loops over tiles of 32 right-hand sides, compiled once for each instruction set with
 * the same bits. */
#ifndef SS_MECHANICS_BAND_KERNEL_H
#define SS_MECHANICS_BAND_KERNEL_H

#include "mechanics/band.h"

/** Forward and backward sweep on a tile. Rows of x before `first` are zero. */
void ss_band_kernel_solve_baseline(const ss_factor *factor, int first, double *x);
/** y -= A x. */
void ss_band_kernel_subtract_baseline(int rows, int columns, const double *a, const double *x, double *y);

#ifdef SS_KERNEL_WIDE
void ss_band_kernel_solve_avx2(const ss_factor *factor, int first, double *x);
void ss_band_kernel_subtract_avx2(int rows, int columns, const double *a, const double *x, double *y);
void ss_band_kernel_solve_avx512(const ss_factor *factor, int first, double *x);
void ss_band_kernel_subtract_avx512(int rows, int columns, const double *a, const double *x, double *y);
#endif

#endif
