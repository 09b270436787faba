/* band.c - storage, factor and condition of the band matrix, and the choice of kernel. */
#include "mechanics/band.h"

#include <cblas.h>
#include <lapacke.h>
#include <math.h>
#include <stdbool.h>
#include <string.h>
#undef I

#include "base/try.h"
#include "mechanics/algebra.h"
#include "mechanics/band_kernel.h"
#include "sillspan/grillage.h"
#include "sillspan/memory.h"

static ss_status no_memory(ss_error *error) {
    ss_error_set(error, SS_ERROR_MEMORY, "no memory for the stiffness matrix");
    return SS_ERROR_MEMORY;
}

ss_status ss_band_create(ss_band *out, int n, int kd, ss_error *error) {
    ss_band band = {.n = n, .kd = kd};
    band.ab = ss_alloc((size_t)n * ((size_t)kd + 1), sizeof *band.ab);
    if (band.ab == NULL) {
        return no_memory(error);
    }
    *out = band;
    return SS_OK;
}

void ss_band_destroy(ss_band *band) {
    if (band == NULL) {
        return;
    }
    ss_free(band->ab);
    *band = (ss_band){0};
}

void ss_band_multiply(const ss_band *band, const double *x, double *y) {
    const int n = band->n;
    for (int i = 0; i < n; i++) {
        y[i] = 0.0;
    }
    for (int j = 0; j < n; j++) {
        const double *column = &band->ab[ss_band_at(band, j, j)];
        const int last = j + band->kd < n - 1 ? j + band->kd : n - 1;
        y[j] += column[0] * x[j];
        for (int i = j + 1; i <= last; i++) {
            y[i] += column[i - j] * x[j];
            y[j] += column[i - j] * x[i];
        }
    }
}

/* ---- factor ------------------------------------------------------------------------------------- */

static void scale_matrix(ss_band *band, const double *scale) {
    for (int j = 0; j < band->n; j++) {
        const int last = j + band->kd < band->n - 1 ? j + band->kd : band->n - 1;
        for (int i = j; i <= last; i++) {
            band->ab[ss_band_at(band, i, j)] *= scale[i] * scale[j];
        }
    }
}

/* K = D^-1 (L L') D^-1 with the scaled factor L, so D^-1 L is the factor of K itself. */
static void unpack(const ss_band *l, const double *scale, ss_factor *f) {
    const size_t kd = (size_t)f->kd;
    for (int j = 0; j < f->n; j++) {
        f->inverse[j] = scale[j] / l->ab[ss_band_at(l, j, j)];
        const int last = j + f->kd < f->n - 1 ? j + f->kd : f->n - 1;
        for (int i = j + 1; i <= last; i++) {
            const double value = l->ab[ss_band_at(l, i, j)] / scale[i];
            f->columns[(size_t)j * kd + (size_t)(i - j - 1)] = value;
            f->rows[(size_t)i * kd + (size_t)(j - i + f->kd)] = value;
        }
    }
}

/* The 1-norm; LAPACKE has no dlansb. `sums` has size n. */
static double largest_column_sum(const ss_band *band, double *sums) {
    double most = 0.0;
    for (int j = 0; j < band->n; j++) {
        sums[j] = 0.0;
    }
    for (int j = 0; j < band->n; j++) {
        const int last = j + band->kd < band->n - 1 ? j + band->kd : band->n - 1;
        for (int i = j; i <= last; i++) {
            const double size = fabs(band->ab[ss_band_at(band, i, j)]);
            sums[j] += size;
            if (i > j) {
                sums[i] += size;
            }
        }
    }
    for (int j = 0; j < band->n; j++) {
        if (!(sums[j] <= most)) {
            most = sums[j];
        }
    }
    return most;
}

/* x = (L L')^-1 x. */
static void solve_band(const ss_band *l, double *x) {
    const int kd = l->kd;
    for (int j = 0; j < l->n; j++) {
        const double *const column = &l->ab[(size_t)j * ((size_t)kd + 1)];
        const int below = j + kd < l->n ? kd : l->n - 1 - j;
        x[j] /= column[0];
        for (int i = 1; i <= below; i++) x[j + i] -= column[i] * x[j];
    }
    for (int j = l->n - 1; j >= 0; j--) {
        const double *const column = &l->ab[(size_t)j * ((size_t)kd + 1)];
        const int below = j + kd < l->n ? kd : l->n - 1 - j;
        double sum = x[j];
        for (int i = 1; i <= below; i++) sum -= column[i] * x[j + i];
        x[j] = sum / column[0];
    }
}

/*
 * What dpbcon does, with plain solutions: its own guard every step against overflow and take most of the time
 * of a factorisation. Of a matrix that is next to singular they are large, and no more; should they overflow
 * all the same, the condition is 0. Symmetric, so that both kinds of product that the estimator asks for are
 * one.
 */
static double reciprocal_condition(const ss_band *l, double norm, double *work, int *integers) {
    double *const v = work, *const x = work + l->n;
    double estimate = 0.0;
    lapack_int kase = 0, save[3] = {0};
    do {
        SS_ALGEBRA((void)LAPACKE_dlacn2_work(l->n, v, x, integers, &estimate, &kase, save));
        if (kase != 0) {
            solve_band(l, x);
        }
    } while (kase != 0);
    return isfinite(estimate) && estimate > 0.0 && norm > 0.0 ? 1.0 / estimate / norm : 0.0;
}

static ss_status factor_with_work(ss_band *l, double *work, int *integers, double *rcond, ss_error *error) {
    const lapack_int n = l->n;
    const lapack_int kd = l->kd;
    const double norm = largest_column_sum(l, work);
    /* Its own threads make band work slower and change the last digits; ours run elsewhere. */
    SS_ALGEBRA(openblas_set_num_threads(1));
    lapack_int info = 0;
    SS_ALGEBRA(info = LAPACKE_dpbtrf_work(LAPACK_COL_MAJOR, 'L', n, kd, l->ab, kd + 1));
    if (info < 0 || !isfinite(norm)) {
        return ss_error_set(error, SS_ERROR_NUMERIC, "the stiffness matrix is not finite");
    }
    if (info > 0) { /* not positive definite: *rcond stays 0 */
        return SS_OK;
    }
    *rcond = reciprocal_condition(l, norm, work, integers);
    return SS_OK;
}

ss_status ss_factor_create(const ss_band *band, const double *scale, ss_factor *out, double *rcond,
                           ss_error *error) {
    ss_status status = SS_OK;
    ss_band scaled = {0};
    const size_t n = (size_t)band->n;
    const size_t kd = (size_t)band->kd;
    ss_factor factor = {.n = band->n, .kd = band->kd};
    double *work = ss_alloc(3 * n, sizeof *work);
    int *integers = ss_alloc(n, sizeof *integers);
    factor.rows = ss_alloc(n * kd, sizeof *factor.rows);
    factor.columns = ss_alloc(n * kd, sizeof *factor.columns);
    factor.inverse = ss_alloc(n, sizeof *factor.inverse);
    *rcond = 0.0;
    if (work == NULL || integers == NULL || factor.rows == NULL || factor.columns == NULL ||
        factor.inverse == NULL) {
        status = no_memory(error);
        goto done;
    }
    SS_TRY(ss_band_create(&scaled, band->n, band->kd, error));
    memcpy(scaled.ab, band->ab, n * (kd + 1) * sizeof *scaled.ab);
    scale_matrix(&scaled, scale);
    SS_TRY(factor_with_work(&scaled, work, integers, rcond, error));
    if (*rcond > 0.0) {
        unpack(&scaled, scale, &factor);
        *out = factor;
        factor = (ss_factor){0};
    }
done:
    ss_free(work);
    ss_free(integers);
    ss_band_destroy(&scaled);
    ss_factor_destroy(&factor);
    return status;
}

void ss_factor_destroy(ss_factor *factor) {
    if (factor == NULL) {
        return;
    }
    ss_free(factor->rows);
    ss_free(factor->columns);
    ss_free(factor->inverse);
    *factor = (ss_factor){0};
}

/* ---- solve -------------------------------------------------------------------------------------- */

/* By columns, so that nothing waits for a long sum; each number sees the same operations in the same order as
 * in the tile kernels. */
void ss_factor_solve(const ss_factor *f, double *x) {
    const size_t kd = (size_t)f->kd;
    for (int j = 0; j < f->n; j++) {
        const int high = j + f->kd < f->n - 1 ? j + f->kd : f->n - 1;
        const double *const l = &f->columns[(size_t)j * kd];
        const double value = x[j] * f->inverse[j];
        double *const below = x + j + 1;
        x[j] = value;
        for (int i = 0; i < high - j; i++) {
            below[i] -= l[i] * value;
        }
    }
    for (int i = f->n - 1; i >= 0; i--) {
        const int low = i - f->kd > 0 ? i - f->kd : 0;
        const double *const l = &f->rows[(size_t)i * kd + (size_t)(low - i + f->kd)];
        const double value = x[i] * f->inverse[i];
        double *const above = x + low;
        x[i] = value;
        for (int j = 0; j < i - low; j++) {
            above[j] -= l[j] * value;
        }
    }
}

/* The first row of a tile that is not all zero: the forward sweep starts there. */
static int first_row(int n, const double *x) {
    for (int i = 0; i < n; i++) {
        for (int lane = 0; lane < SS_TILE; lane++) {
            if (x[(size_t)i * SS_TILE + (size_t)lane] != 0.0) {
                return i;
            }
        }
    }
    return n;
}

int ss_tile_width(void) {
#ifdef SS_KERNEL_WIDE
    if (__builtin_cpu_supports("avx512f")) {
        return 64;
    }
    return __builtin_cpu_supports("avx2") ? 32 : 0;
#else
    return 0;
#endif
}

void ss_factor_solve_tile_as(const ss_factor *f, int width, double *x) {
    const int first = first_row(f->n, x);
    switch (width) {
#ifdef SS_KERNEL_WIDE
    case 64: ss_band_kernel_solve_avx512(f, first, x); break;
    case 32: ss_band_kernel_solve_avx2(f, first, x); break;
#endif
    default: ss_band_kernel_solve_baseline(f, first, x); break;
    }
}

void ss_factor_solve_tile(const ss_factor *f, double *x) {
    ss_factor_solve_tile_as(f, ss_tile_width(), x);
}

void ss_tile_subtract_as(int rows, int columns, const double *a, const double *x, int width, double *y) {
    switch (width) {
#ifdef SS_KERNEL_WIDE
    case 64: ss_band_kernel_subtract_avx512(rows, columns, a, x, y); break;
    case 32: ss_band_kernel_subtract_avx2(rows, columns, a, x, y); break;
#endif
    default: ss_band_kernel_subtract_baseline(rows, columns, a, x, y); break;
    }
}

void ss_tile_subtract(int rows, int columns, const double *a, const double *x, double *y) {
    ss_tile_subtract_as(rows, columns, a, x, ss_tile_width(), y);
}
