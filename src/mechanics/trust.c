/* trust.c - what moves in a matrix that cannot be trusted: block inverse iteration, and its words. */
#include <lapacke.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#undef I

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/algebra.h"
#include "mechanics/grillage_parts.h"
#include "mechanics/mesh_parts.h"
#include "mechanics/row.h"

enum { VECTORS = 8, STEPS = 3 };

/* Added to the unit diagonal so that a singular matrix can be factored; free motions have eigenvalues of
 * 1e-17 to 1e-15, elastic ones seen 1e-11 and more. */
#define SHIFT 1e-13

ss_status ss_trust_name_motion(const ss_mesh *mesh, const double *u, int free_motions, ss_error *error) {
    /* A rotation counts by what it moves 1 m away. */
    int worst = 0;
    for (int i = 0; i < mesh->order; i++) {
        if (fabs(u[i]) > fabs(u[worst])) {
            worst = i;
        }
    }
    static const char *const how[3] = {"can sink", "can twist", "can turn in its slope"};
    char words[160];
    char place[48];
    char more[64] = "";
    const int node = worst / 3;
    if (free_motions > 1) {
        snprintf(more, sizeof more, " (%s%d free motions in all)", free_motions >= VECTORS ? "at least " : "",
                 free_motions);
    }
    return ss_error_set(
        error, SS_ERROR_MECHANISM, "%s is not held: it %s most at x = %s%s",
        ss_mesh_line_words(mesh->bridge, mesh->node_line[node], words, sizeof words), how[worst % 3],
        ss_mesh_x_words(mesh->bridge->units, mesh->station[mesh->node_station[node]], place, sizeof place),
        more);
}

static double dot(int n, const double *a, const double *b) {
    double sum = 0.0;
    for (int i = 0; i < n; i++) {
        sum += a[i] * b[i];
    }
    return sum;
}

static void orthonormalise(int n, double *x) {
    for (int pass = 0; pass < 2; pass++) {
        for (int k = 0; k < VECTORS; k++) {
            double *v = x + (size_t)k * (size_t)n;
            for (int j = 0; j < k; j++) {
                const double *w = x + (size_t)j * (size_t)n;
                const double along = dot(n, v, w);
                for (int i = 0; i < n; i++) {
                    v[i] -= along * w[i];
                }
            }
            const double norm = sqrt(dot(n, v, v));
            for (int i = 0; i < n && norm > 0.0; i++) {
                v[i] /= norm;
            }
        }
    }
}

/* A fixed sequence, so that the same bridge always gets the same words (Park and Miller's generator). */
static void start_vectors(int n, double *x) {
    long long state = 20011;
    for (size_t i = 0; i < (size_t)VECTORS * (size_t)n; i++) {
        state = state * 16807 % 2147483647;
        x[i] = (double)state / 2147483647.0 - 0.5;
    }
}

/* Ritz values of the block: *count of them are zero; the vector of the smallest is left in `lowest`. */
static ss_status ritz(const ss_band *scaled, const double *x, double *work, double *lowest, int *count,
                      ss_error *error) {
    const int n = scaled->n;
    double a[VECTORS * VECTORS];
    double values[VECTORS];
    double small_work[64];
    for (int k = 0; k < VECTORS; k++) {
        ss_band_multiply(scaled, x + (size_t)k * (size_t)n, work);
        for (int j = 0; j < VECTORS; j++) {
            a[j + VECTORS * k] = dot(n, x + (size_t)j * (size_t)n, work);
        }
    }
    int info = 0;
    SS_ALGEBRA(
        info = LAPACKE_dsyev_work(LAPACK_COL_MAJOR, 'V', 'L', VECTORS, a, VECTORS, values, small_work, 64));
    if (info != 0) {
        return ss_error_set(error, SS_ERROR_NUMERIC, "the free motions cannot be found");
    }
    *count = 0;
    for (int k = 0; k < VECTORS; k++) {
        *count += values[k] < SHIFT;
    }
    for (int i = 0; i < n; i++) {
        lowest[i] = 0.0;
        for (int k = 0; k < VECTORS; k++) {
            lowest[i] += a[k] * x[(size_t)k * (size_t)n + (size_t)i];
        }
    }
    return SS_OK;
}

ss_status ss_trust_refuse(const ss_mesh *mesh, const ss_band *band, const double *scale, ss_error *error) {
    ss_status status = SS_OK;
    const int n = band->n;
    ss_band scaled = {0};
    ss_factor factor = {0};
    double *x = ss_alloc((size_t)VECTORS * (size_t)n, sizeof *x);
    double *work = ss_alloc((size_t)n, sizeof *work);
    double *lowest = ss_alloc((size_t)n, sizeof *lowest);
    double *ones = ss_alloc((size_t)n, sizeof *ones);
    double rcond = 0.0;
    int count = 0;
    if (x == NULL || work == NULL || lowest == NULL || ones == NULL) {
        status = ss_error_set(error, SS_ERROR_MEMORY, "no memory to find what moves");
        goto done;
    }
    SS_TRY(ss_band_create(&scaled, n, band->kd, error));
    for (int j = 0; j < n; j++) {
        ones[j] = 1.0;
        const int last = j + band->kd < n - 1 ? j + band->kd : n - 1;
        for (int i = j; i <= last; i++) {
            scaled.ab[ss_band_at(band, i, j)] = band->ab[ss_band_at(band, i, j)] * scale[i] * scale[j];
        }
        scaled.ab[ss_band_at(band, j, j)] += SHIFT;
    }
    SS_TRY(ss_factor_create(&scaled, ones, &factor, &rcond, error));
    for (int j = 0; j < n; j++) {
        scaled.ab[ss_band_at(band, j, j)] -= SHIFT;
    }
    if (rcond == 0.0) {
        status =
            ss_error_set(error, SS_ERROR_MECHANISM, "the bridge is not held, and what moves cannot be told");
        goto done;
    }
    start_vectors(n, x);
    for (int step = 0; step < STEPS; step++) {
        for (int k = 0; k < VECTORS; k++) {
            ss_factor_solve(&factor, x + (size_t)k * (size_t)n);
        }
        orthonormalise(n, x);
    }
    SS_TRY(ritz(&scaled, x, work, lowest, &count, error));
    for (int i = 0; i < n; i++) {
        lowest[i] *= scale[i];
    }
    status = ss_trust_name_motion(mesh, lowest, count > 0 ? count : 1, error);
done:
    ss_free(x);
    ss_free(work);
    ss_free(lowest);
    ss_free(ones);
    ss_band_destroy(&scaled);
    ss_factor_destroy(&factor);
    return status;
}
