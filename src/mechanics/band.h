/* band.h - symmetric positive definite band matrices: LAPACK factor and condition, our own solve for tiles of
 * right-hand sides. */
#ifndef SS_MECHANICS_BAND_H
#define SS_MECHANICS_BAND_H

#include <stddef.h>

#include "sillspan/status.h"

/**
 * K, order n, kd sub-diagonals, LAPACK lower storage: K(i,j), j <= i <= j + kd, is ab[(i - j) + j (kd + 1)].
 */
typedef struct ss_band {
    int n, kd;
    double *ab;
} ss_band;

/** Zero matrix. */
ss_status ss_band_create(ss_band *out, int n, int kd, ss_error *error);
void ss_band_destroy(ss_band *band);

static inline size_t ss_band_at(const ss_band *band, int i, int j) {
    return i >= j ? (size_t)(i - j) + (size_t)j * ((size_t)band->kd + 1)
                  : (size_t)(j - i) + (size_t)i * ((size_t)band->kd + 1);
}

/** y = K x. */
void ss_band_multiply(const ss_band *band, const double *x, double *y);

/**
 * The Cholesky factor K = L L', kept twice: by rows for the forward and by columns for the backward sweep.
 * rows[i kd + (j - i + kd)] = L(i,j), i - kd <= j < i; columns[j kd + (i - j - 1)] = L(i,j), j < i <= j + kd;
 * inverse[i] = 1 / L(i,i).
 */
typedef struct ss_factor {
    int n, kd;
    double *rows, *columns, *inverse;
} ss_factor;

/**
 * Factors K, scaled by `scale` on both sides to a unit diagonal while that is done. *rcond (as dpbcon
 * estimates it, of the scaled matrix) is 0 and *out untouched where the matrix is not positive definite; that
 * is no error here.
 */
ss_status ss_factor_create(const ss_band *band, const double *scale, ss_factor *out, double *rcond,
                           ss_error *error);
void ss_factor_destroy(ss_factor *factor);

/** Solves for one column in place. */
void ss_factor_solve(const ss_factor *factor, double *x);

/** Solves for a tile of SS_TILE columns in place: x[i SS_TILE + lane]. */
void ss_factor_solve_tile(const ss_factor *factor, double *x);

/** y -= A x for tiles: A rows x columns, row major. */
void ss_tile_subtract(int rows, int columns, const double *a, const double *x, double *y);

/** Bytes of the widest vectors that this processor runs the two above with: 64, 32, or 0 for the baseline. */
int ss_tile_width(void);
/** The same with vectors of another width, no wider than that; the bits are the same. */
void ss_factor_solve_tile_as(const ss_factor *factor, int width, double *x);
void ss_tile_subtract_as(int rows, int columns, const double *a, const double *x, int width, double *y);

#endif
