/* small.c - the dense systems of the special springs, closed and open, and the noise of S. */
#include <lapacke.h>
#include <math.h>
#include <stdbool.h>
#include <string.h>
#undef I

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/algebra.h"
#include "mechanics/grillage_parts.h"

/* Reciprocal condition of the small system below which what is left moves. Of 2400 random openings of
 * bearings of two cars the mechanisms reached at most 6e-15 and the sound ones at least 6e-8;
 * tests/unit/mechanics/test_mechanics_trust.c repeats some of them. */
#define SMALL_RCOND 1e-11

/* Part of the reference stiffness below which S is noise of statically determinate bearings (which leaves
 * 1e-15 to 1e-12). */
#define NOISE_OF_S 1e-9

static ss_status no_memory(ss_error *error) {
    return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the springs");
}

static bool open(const ss_update *u, int i) {
    return isinf(u->flexibility[u->spring[i]]);
}

/* The special index of the other spring of a pad if both are closed, or -1. Pads are always special, side by
 * side. */
static int closed_pair(const ss_update *u, int i) {
    const int pair = u->grillage->mesh->spring[u->spring[i]].pair;
    if (pair < 0 || open(u, i)) {
        return -1;
    }
    const int j = i + (pair - u->spring[i]);
    return open(u, j) ? -1 : j;
}

/* F in units of the reference springs. */
static double scaled_flexibility(const ss_update *u, int i, int j) {
    const double fi = u->flexibility[u->spring[i]];
    const double fj = u->flexibility[u->spring[j]];
    const double unit = sqrt(u->reference[i] * u->reference[j]);
    return i == j ? fi * unit : -0.5 * sqrt(fi * fj) * unit;
}

static size_t at(int m, int i, int j) {
    return (size_t)i * (size_t)m + (size_t)j;
}

typedef struct small_system {
    int m;
    double *C;      /* scaled, row major (symmetric) */
    double *M;      /* (D + C N) diag(column), column major; then its factor */
    double *column; /* scales of x */
    int *pivots;
    double *work;
    int *integers;
} small_system;

static void free_system(small_system *s) {
    ss_free(s->C);
    ss_free(s->M);
    ss_free(s->column);
    ss_free(s->pivots);
    ss_free(s->work);
    ss_free(s->integers);
}

static ss_status make_system(const ss_update *u, small_system *s, ss_error *error) {
    const size_t m = (size_t)u->count;
    s->m = u->count;
    s->C = ss_alloc(m * m, sizeof *s->C);
    s->M = ss_alloc(m * m, sizeof *s->M);
    s->column = ss_alloc(m, sizeof *s->column);
    s->pivots = ss_alloc(m, sizeof *s->pivots);
    s->work = ss_alloc(4 * m, sizeof *s->work);
    s->integers = ss_alloc(m, sizeof *s->integers);
    if (s->C == NULL || s->M == NULL || s->column == NULL || s->pivots == NULL || s->work == NULL ||
        s->integers == NULL) {
        return no_memory(error);
    }
    for (int i = 0; i < s->m; i++) {
        for (int j = 0; j < s->m; j++) {
            s->C[at(s->m, i, j)] = u->C[at(s->m, i, j)] * sqrt(u->reference[i] * u->reference[j]);
        }
    }
    return SS_OK;
}

/* M column by column: closed F + C (e - F), open e - C. The column is divided by 1 + F, which may be anything
 * from 0 to very soft. */
static void fill_matrix(const ss_update *u, small_system *s) {
    const int m = s->m;
    for (int j = 0; j < m; j++) {
        double *M = &s->M[at(m, j, 0)];
        const double *Cj = &s->C[at(m, j, 0)];
        if (open(u, j)) {
            s->column[j] = 1.0;
            for (int i = 0; i < m; i++) {
                M[i] = (i == j ? 1.0 : 0.0) - Cj[i];
            }
            continue;
        }
        const int pair = closed_pair(u, j);
        const double f = scaled_flexibility(u, j, j);
        const double g = pair < 0 ? 0.0 : scaled_flexibility(u, pair, j);
        const double c = 1.0 / (1.0 + f);
        s->column[j] = c;
        for (int i = 0; i < m; i++) {
            double value = Cj[i] * (1.0 - f);
            if (i == j) {
                value += f;
            }
            if (pair >= 0) {
                value -= s->C[at(m, pair, i)] * g;
            }
            if (i == pair) {
                value += g;
            }
            M[i] = value * c;
        }
    }
}

/* The direction that the singular matrix M leaves free, by inverse iteration on its factor; as q = N x, in
 * real units. */
static void free_direction(const ss_update *u, const small_system *s, double *motion) {
    const int m = s->m;
    for (int i = 0; i < m; i++) {
        motion[i] = 1.0 + 0.3 * (i % 7);
        if (s->M[at(m, i, i)] == 0.0) {
            s->M[at(m, i, i)] = 1e-300;
        }
    }
    for (int step = 0; step < 3; step++) {
        SS_ALGEBRA(LAPACKE_dgetrs_work(LAPACK_COL_MAJOR, 'N', m, 1, s->M, m, s->pivots, motion, m));
        double most = 0.0;
        for (int i = 0; i < m; i++) {
            most = ss_max(most, fabs(motion[i]));
        }
        for (int i = 0; i < m; i++) {
            motion[i] /= most;
        }
    }
    for (int i = 0; i < m; i++) {
        const double f = open(u, i) ? 2.0 : scaled_flexibility(u, i, i);
        motion[i] *= (1.0 - f) * s->column[i] * sqrt(u->reference[i]);
    }
}

/* out (row major) = rows N' or P' of the unknowns, solved with M' from the right: row i of N M^-1. */
static ss_status right_divide(const small_system *s, double *out, ss_error *error) {
    /* Row major rows are the columns of the transposed system M' y = row'. */
    int info = 0;
    SS_ALGEBRA(info =
                   LAPACKE_dgetrs_work(LAPACK_COL_MAJOR, 'T', s->m, s->m, s->M, s->m, s->pivots, out, s->m));
    if (info != 0) {
        return ss_error_set(error, SS_ERROR_NUMERIC, "the springs' system cannot be solved");
    }
    return SS_OK;
}

/* Fills the four matrices, scaled, from the factor of M. */
static ss_status fill_results(ss_update *u, const small_system *s, ss_error *error) {
    ss_status status = SS_OK;
    const int m = s->m;
    for (int i = 0; i < m; i++) {
        const int pair = closed_pair(u, i);
        const double f = open(u, i) ? 2.0 : scaled_flexibility(u, i, i); /* open: N = -1 */
        u->from_d0[at(m, i, i)] = (1.0 - f) * s->column[i];
        if (pair >= 0) {
            u->from_d0[at(m, i, pair)] = -scaled_flexibility(u, i, pair) * s->column[pair];
        }
        u->force_d0[at(m, i, i)] = open(u, i) ? 0.0 : s->column[i];
    }
    SS_TRY(right_divide(s, u->from_d0, error));
    SS_TRY(right_divide(s, u->force_d0, error));
    /* force_offset = force_d0 (I - C), from_offset = -from_d0 (I - C) - I, in closed columns only. */
    for (int i = 0; i < m; i++) {
        double *fo = &u->force_offset[at(m, i, 0)];
        double *qo = &u->from_offset[at(m, i, 0)];
        for (int j = 0; j < m; j++) {
            fo[j] = u->force_d0[at(m, i, j)];
            qo[j] = -u->from_d0[at(m, i, j)] - (i == j ? 1.0 : 0.0);
        }
        for (int k = 0; k < m; k++) {
            const double p = u->force_d0[at(m, i, k)];
            const double q = u->from_d0[at(m, i, k)];
            const double *Ck = &s->C[at(m, k, 0)];
            for (int j = 0; j < m; j++) {
                fo[j] -= p * Ck[j];
                qo[j] += q * Ck[j];
            }
        }
    }
    for (int i = 0; i < m; i++) {
        for (int j = 0; j < m; j++) {
            const double unit = sqrt(u->reference[i] * u->reference[j]);
            u->from_d0[at(m, i, j)] *= unit;
            u->force_d0[at(m, i, j)] *= unit;
            u->from_offset[at(m, i, j)] *= open(u, j) ? 0.0 : unit;
            u->force_offset[at(m, i, j)] *= open(u, j) ? 0.0 : unit;
        }
    }
done:
    return status;
}

ss_status ss_small_solve(ss_update *update, double *motion, ss_error *error) {
    ss_status status = SS_OK;
    small_system s = {0};
    const int m = update->count;
    double rcond = 0.0;
    SS_TRY(make_system(update, &s, error));
    fill_matrix(update, &s);
    double norm = 0.0;
    int info = 0;
    SS_ALGEBRA(norm = LAPACKE_dlange_work(LAPACK_COL_MAJOR, '1', m, m, s.M, m, s.work));
    SS_ALGEBRA(info = LAPACKE_dgetrf_work(LAPACK_COL_MAJOR, m, m, s.M, m, s.pivots));
    if (info < 0 || !isfinite(norm)) {
        status = ss_error_set(error, SS_ERROR_NUMERIC, "the springs' system is not finite");
        goto done;
    }
    if (info == 0) {
        SS_ALGEBRA(LAPACKE_dgecon_work(LAPACK_COL_MAJOR, '1', m, s.M, m, norm, &rcond, s.work, s.integers));
    }
    if (rcond < SMALL_RCOND) {
        if (motion != NULL) {
            free_direction(update, &s, motion);
        }
        status = ss_error_set(error, SS_ERROR_MECHANISM,
                              "the springs that are left closed do not hold the bridge");
        goto done;
    }
    SS_TRY(fill_results(update, &s, error));
done:
    free_system(&s);
    return status;
}

/* ---- noise -------------------------------------------------------------------------------------- */

ss_status ss_small_clean(int m, double *S, ss_error *error) {
    ss_status status = SS_OK;
    const size_t n = (size_t)m;
    double *values = ss_alloc(n, sizeof *values);
    double *vectors = ss_alloc(n * n, sizeof *vectors);
    double *work = ss_alloc(3 * n + 1, sizeof *work);
    if (values == NULL || vectors == NULL || work == NULL) {
        status = no_memory(error);
        goto done;
    }
    for (int i = 0; i < m; i++) {
        for (int j = 0; j < m; j++) {
            vectors[at(m, j, i)] = 0.5 * (S[at(m, i, j)] + S[at(m, j, i)]);
        }
    }
    int info = 0;
    if (m > 0) {
        SS_ALGEBRA(
            info = LAPACKE_dsyev_work(LAPACK_COL_MAJOR, 'V', 'L', m, vectors, m, values, work, 3 * m + 1));
    }
    if (info != 0) {
        status =
            ss_error_set(error, SS_ERROR_NUMERIC, "the stiffness seen by the bearings cannot be decomposed");
        goto done;
    }
    memset(S, 0, n * n * sizeof *S);
    for (int k = 0; k < m; k++) {
        if (values[k] < NOISE_OF_S) {
            continue;
        }
        const double *v = &vectors[at(m, k, 0)];
        for (int i = 0; i < m; i++) {
            for (int j = 0; j < m; j++) {
                S[at(m, i, j)] += values[k] * v[i] * v[j];
            }
        }
    }
done:
    ss_free(values);
    ss_free(vectors);
    ss_free(work);
    return status;
}
