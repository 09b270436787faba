/* spring_sweep_modes.c - the eigenproblem of the swept springs, and responses and loads along its modes. */
#include <cblas.h>
#include <lapacke.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#undef I

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/algebra.h"
#include "mechanics/spring_sweep_parts.h"

/* A flexibility seen by the springs below this, in R's units, is rounding (redundant rows leave 1e-16 to
 * 1e-12; honest ones are above 1e-4 over the square root of how unlike the swept stiffnesses are). */
#define NO_FLEXIBILITY 1e-10

/* As SMALL_RCOND of small.c: what the bridge resists without the springs, below which it moves. */
#define NO_RESISTANCE 1e-11

/* Part of the displacements below which what a mode that cannot move seems to do is rounding. */
#define NO_MOTION 1e-11

static ss_status no_memory(ss_error *error) {
    return ss_error_set(error, SS_ERROR_MEMORY, "no memory for a sweep of springs");
}

/* C becomes U', mode by mode; l ascends. */
static ss_status decompose(ss_sweep_parts *p, ss_error *error) {
    const size_t m = (size_t)p->task->swept_count;
    const size_t room = 1 + 6 * m + 2 * m * m, integers = 3 + 5 * m;
    double *const work = ss_alloc(room, sizeof *work);
    lapack_int *const whole = ss_alloc(integers, sizeof *whole);
    ss_status status = work == NULL || whole == NULL ? no_memory(error) : SS_OK;
    for (size_t i = 0; i < m; i++) {
        for (size_t j = 0; j < i; j++) {
            p->C[i * m + j] = p->C[j * m + i] = 0.5 * (p->C[i * m + j] + p->C[j * m + i]);
        }
    }
    lapack_int info = 0;
    if (status == SS_OK && m > 0) {
        SS_ALGEBRA(info = LAPACKE_dsyevd_work(LAPACK_COL_MAJOR, 'V', 'L', (int)m, p->C, (int)m, p->l, work,
                                              (int)room, whole, (int)integers));
    }
    if (info != 0) {
        status = ss_error_set(error, SS_ERROR_NUMERIC, "the modes of the springs cannot be found");
    }
    for (size_t j = 0; j < m && status == SS_OK; j++) {
        p->l[j] = p->l[j] < NO_FLEXIBILITY ? 0.0 : p->l[j] > 1.0 - NO_RESISTANCE ? 1.0 : p->l[j];
    }
    ss_free(work);
    ss_free(whole);
    return status;
}

/* *x (swept_count x columns) = U' *x. */
static ss_status along_modes(const ss_sweep_parts *p, int columns, double **x, ss_error *error) {
    const int m = p->task->swept_count;
    double *const made = ss_alloc((size_t)m * (size_t)columns, sizeof *made);
    if (made == NULL) {
        return no_memory(error);
    }
    if (m > 0 && columns > 0) {
        SS_ALGEBRA(cblas_dgemm(CblasRowMajor, CblasNoTrans, CblasNoTrans, m, columns, m, 1.0, p->C, m, *x,
                               columns, 0.0, made, columns));
    }
    ss_free(*x);
    *x = made;
    return SS_OK;
}

/* *e (reading_count x swept_count) = *e U. */
static ss_status readings_along_modes(ss_sweep_parts *p, ss_error *error) {
    const int m = p->task->swept_count, count = p->task->reading_count;
    double *const made = ss_alloc((size_t)m * (size_t)count, sizeof *made);
    if (made == NULL) {
        return no_memory(error);
    }
    if (m > 0 && count > 0) {
        SS_ALGEBRA(cblas_dgemm(CblasRowMajor, CblasNoTrans, CblasTrans, count, m, m, 1.0, p->e, m, p->C, m,
                               0.0, made, m));
    }
    ss_free(p->e);
    p->e = made;
    return SS_OK;
}

static ss_status make_room(const ss_sweep_parts *p, ss_spring_sweep *out, ss_error *error) {
    const size_t m = (size_t)p->task->swept_count, loads = (size_t)p->task->load_count,
                 readings = (size_t)p->task->reading_count;
    out->swept_count = p->task->swept_count;
    out->load_count = p->task->load_count;
    out->reading_count = p->task->reading_count;
    while (out->null_count < out->swept_count && p->l[out->null_count] == 0.0) out->null_count++;
    out->mode_count = out->swept_count - out->null_count;
    const size_t n = (size_t)out->null_count;
    out->l = ss_alloc(m, sizeof *out->l);
    out->pole = ss_alloc(m, sizeof *out->pole);
    out->of_swept = ss_alloc(readings, sizeof *out->of_swept);
    out->order = ss_alloc(readings, sizeof *out->order);
    out->a = ss_alloc(readings * m, sizeof *out->a);
    out->h = ss_alloc((size_t)ss_sweep_tiles(out->load_count) * m * SS_TILE, sizeof *out->h);
    out->base = ss_alloc(readings * loads, sizeof *out->base);
    out->none_base = ss_alloc(readings * loads, sizeof *out->none_base);
    out->null_a = ss_alloc(readings * n, sizeof *out->null_a);
    out->null_h = ss_alloc(n * loads, sizeof *out->null_h);
    return out->l == NULL || out->pole == NULL || out->of_swept == NULL || out->order == NULL ||
                   out->a == NULL || out->h == NULL || out->base == NULL || out->none_base == NULL ||
                   out->null_a == NULL || out->null_h == NULL
               ? no_memory(error)
               : SS_OK;
}

/* Which of the swept springs the reading is the force of, or -1. */
static int swept_of(const ss_sweep_parts *p, int reading) {
    const int spring = p->task->readings[reading].spring;
    return spring < 0 ? -1 : p->swept_at[spring];
}

static void fill_readings(const ss_sweep_parts *p, ss_spring_sweep *out) {
    const size_t m = (size_t)out->swept_count, n = (size_t)out->null_count, rest = m - n;
    int at[2] = {0, 0};
    for (int i = 0; i < out->reading_count; i++) out->other_count += swept_of(p, i) < 0;
    at[1] = out->other_count;
    for (int i = 0; i < out->reading_count; i++) {
        const int own = swept_of(p, i);
        const size_t row = (size_t)at[own >= 0]++;
        out->of_swept[i] = own >= 0;
        out->order[row] = i;
        for (size_t j = 0; j < m; j++) {
            const double root = sqrt(p->l[j]);
            const double part = own >= 0 ? p->root[own] * p->C[j * m + (size_t)own] : p->e[(size_t)i * m + j];
            if (j < n) {
                out->null_a[(size_t)i * n + j] = own >= 0 ? part : -part;
            } else {
                out->a[row * rest + j - n] = own >= 0 ? part * root : part / root;
            }
        }
    }
}

static void fill_loads(const ss_sweep_parts *p, ss_spring_sweep *out) {
    const size_t loads = (size_t)out->load_count, n = (size_t)out->null_count;
    const size_t rest = (size_t)out->mode_count;
    for (size_t l = 0; l < loads; l++) {
        double size = 0.0;
        for (size_t j = 0; j < n + rest; j++) {
            size += fabs(p->d[j * loads + l]) + fabs(p->s[j * loads + l]);
        }
        for (size_t j = 0; j < n; j++) {
            const double moved = p->d[j * loads + l] - p->s[j * loads + l];
            const bool may = p->task->loads[l].offset != NULL && fabs(moved) > NO_MOTION * size;
            out->null_h[j * loads + l] = may ? moved : 0.0;
        }
        double *const h = out->h + l / SS_TILE * rest * SS_TILE + l % SS_TILE;
        for (size_t j = 0; j < rest; j++) {
            const double share = out->l[j], d = p->d[(j + n) * loads + l], s = p->s[(j + n) * loads + l];
            h[j * SS_TILE] = (d - (1.0 - share) * s) / sqrt(share);
        }
    }
}

/* Both ends. Forces of swept springs have none. */
static void fill_base(const ss_sweep_parts *p, ss_spring_sweep *out) {
    const size_t m = (size_t)out->swept_count, loads = (size_t)out->load_count;
    for (size_t i = 0; i < (size_t)out->reading_count; i++) {
        if (out->of_swept[i]) {
            continue;
        }
        double *const base = &out->base[i * loads], *const none = &out->none_base[i * loads];
        memcpy(base, &p->v[i * loads], loads * sizeof *base);
        memcpy(none, base, loads * sizeof *none);
        for (size_t j = 0; j < m; j++) {
            const double e = p->e[i * m + j], share = p->l[j];
            const double *const d = &p->d[j * loads], *const s = &p->s[j * loads];
            for (size_t l = 0; l < loads; l++) {
                const double stiff = share > 0.0 ? -e * (d[l] - s[l]) / share : e * d[l];
                base[l] += stiff;
                none[l] += share < 1.0 ? e * d[l] / (1.0 - share) : stiff;
            }
        }
    }
}

static int ascending(const void *a, const void *b) {
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

ss_status ss_sweep_modes(ss_sweep_parts *parts, ss_spring_sweep *out, ss_error *error) {
    ss_status status = SS_OK;
    const size_t m = (size_t)parts->task->swept_count;
    SS_TRY(decompose(parts, error));
    SS_TRY(along_modes(parts, parts->task->load_count, &parts->d, error));
    SS_TRY(along_modes(parts, parts->task->load_count, &parts->s, error));
    SS_TRY(readings_along_modes(parts, error));
    SS_TRY(make_room(parts, out, error));
    for (size_t j = 0; j < m; j++) {
        const double l = parts->l[j];
        out->pole[j] = l > 0.0 ? out->k_ref * ((1.0 - l) / l) : SS_INFINITY;
    }
    qsort(out->pole, m, sizeof *out->pole, ascending);
    memcpy(out->l, parts->l + out->null_count, (size_t)out->mode_count * sizeof *out->l);
    fill_readings(parts, out);
    fill_loads(parts, out);
    fill_base(parts, out);
done:
    return status;
}
