/* redundant.c - rigid springs whose displacement follows from other rigid ones: what they carry. */
#include <lapacke.h>
#include <math.h>
#include <stdbool.h>
#include <string.h>
#undef I

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/algebra.h"
#include "mechanics/grillage_parts.h"
#include "mechanics/row.h"

/*
 * A rigid joint above rigid bearings of both cars is redundant: its row is a sum of theirs, B_r = sum w_j
 * B_j, and statics and stiffness leave open what it carries. The first springs in order (bearings) carry, and
 * it takes what they leave: nothing, while they are closed. Only where they are moved against each other it
 * resists, with a flexibility f that is this part of what its own place gives. While the others are rigid its
 * displacement is the same sum of their offsets s, whatever the loads are, and its force is taken by them on
 * the spot, so that nothing else moves:
 *
 *   p_r = (w . s - s_r) / f,  p_j -= w_j p_r
 *
 * So it is kept out of the stiff systems, where it would cost as many digits as f is small, and its part is
 * added to the forces; with w_r = -1 and v = w / sqrt(f) that is -v (v . s), and v v' in S.
 */
#define REDUNDANT_PART 1e-4

/* The pivot of a redundant row is 1e-15 to 1e-12; that of the stiffest honest one seen (joint stations of
 * 1/1000 of the length) 1e-6. */
#define REDUNDANT_PIVOT 1e-9

/* What may be missing of a redundant row in the sum of the others. */
#define ROW_WITHIN 1e-9

static ss_status no_memory(ss_error *error) {
    return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the springs");
}

static size_t at(int m, int i, int j) {
    return (size_t)i * (size_t)m + (size_t)j;
}

/* Cholesky of C scaled to a unit diagonal, row by row in order, over the rigid springs: a row with no pivot
 * depends on those before it. */
static ss_status mark_redundant(const ss_update *u, bool *redundant, ss_error *error) {
    const int m = u->count;
    double *const L = ss_alloc((size_t)m * (size_t)m, sizeof *L);
    if (L == NULL) {
        return no_memory(error);
    }
    for (int i = 0; i < m; i++) {
        if (u->flexibility[u->spring[i]] != 0.0) {
            continue;
        }
        double pivot = 1.0;
        for (int j = 0; j < i; j++) {
            if (L[at(m, j, j)] == 0.0) {
                continue;
            }
            double sum = u->C[at(m, i, j)] / sqrt(u->C[at(m, i, i)] * u->C[at(m, j, j)]);
            for (int k = 0; k < j; k++) sum -= L[at(m, i, k)] * L[at(m, j, k)];
            L[at(m, i, j)] = sum / L[at(m, j, j)];
            pivot -= L[at(m, i, j)] * L[at(m, i, j)];
        }
        redundant[i] = pivot <= REDUNDANT_PIVOT;
        L[at(m, i, i)] = redundant[i] ? 0.0 : sqrt(pivot);
    }
    ss_free(L);
    return SS_OK;
}

/* ---- the sum of other rows ---------------------------------------------------------------------- */

/* Least squares over the degrees of freedom of one station. */
typedef struct sum_task {
    const ss_update *u;
    const bool *redundant;
    int station;
    int first, rows; /* degrees of freedom of the station: contiguous, since nodes go across */
    int *member;     /* special springs of the sum; size count */
    double *A, *b, *work;
    int room; /* of work */
} sum_task;

static int station_of(const ss_mesh *mesh, int spring) {
    return mesh->node_station[mesh->spring[spring].row.dof[0] / 3];
}

static void find_rows(sum_task *t) {
    const ss_mesh *mesh = t->u->grillage->mesh;
    int low = mesh->node_count, high = -1;
    for (int node = 0; node < mesh->node_count; node++) {
        if (mesh->node_station[node] == t->station) {
            low = node < low ? node : low;
            high = node;
        }
    }
    t->first = 3 * low;
    t->rows = 3 * (high - low + 1);
}

static void put_row(const sum_task *t, int spring, double factor, double *out) {
    const ss_row *row = &t->u->grillage->mesh->spring[spring].row;
    for (int k = 0; k < row->count; k++) out[row->dof[k] - t->first] += factor * row->value[k];
}

/* Weights w of the other rigid rows at the station, so that they add up to the row of special spring r.
 * False: they do not. */
static bool sum_of_others(sum_task *t, int r, double *w) {
    const ss_update *u = t->u;
    const ss_mesh *mesh = u->grillage->mesh;
    int n = 0;
    t->station = station_of(mesh, u->spring[r]);
    find_rows(t);
    memset(t->A, 0, (size_t)t->rows * (size_t)u->count * sizeof *t->A);
    for (int i = 0; i < u->count && n < t->rows; i++) {
        if (u->flexibility[u->spring[i]] == 0.0 && !t->redundant[i] &&
            station_of(mesh, u->spring[i]) == t->station) {
            put_row(t, u->spring[i], 1.0, t->A + (size_t)n * (size_t)t->rows);
            t->member[n++] = i;
        }
    }
    memset(t->b, 0, (size_t)t->rows * sizeof *t->b);
    put_row(t, u->spring[r], 1.0, t->b);
    if (n == 0) {
        return false;
    }
    int info = 0;
    SS_ALGEBRA(info = LAPACKE_dgels_work(LAPACK_COL_MAJOR, 'N', t->rows, n, 1, t->A, t->rows, t->b, t->rows,
                                         t->work, t->room));
    if (info != 0) {
        return false;
    }
    for (int k = 0; k < n; k++) w[t->member[k]] = t->b[k];
    memset(t->b, 0, (size_t)t->rows * sizeof *t->b);
    put_row(t, u->spring[r], -1.0, t->b);
    for (int k = 0; k < n; k++) put_row(t, u->spring[t->member[k]], w[t->member[k]], t->b);
    double missing = 0.0;
    for (int k = 0; k < t->rows; k++) missing = ss_max(missing, fabs(t->b[k]));
    return missing <= ROW_WITHIN;
}

static void take_out(ss_update *u, sum_task *t) {
    const size_t m = (size_t)u->count;
    int taken = 0;
    for (int r = 0; r < u->count; r++) {
        if (!t->redundant[r]) {
            continue;
        }
        const double f = REDUNDANT_PART * u->C[at(u->count, r, r)];
        double *const v = u->redundant + (size_t)taken * m;
        if (!sum_of_others(t, r, v)) { /* not at one station: then it gives a little */
            memset(v, 0, m * sizeof *v);
            u->flexibility[u->spring[r]] = f;
            continue;
        }
        v[r] = -1.0;
        for (size_t i = 0; i < m; i++) v[i] /= sqrt(f);
        taken++;
    }
    u->redundant_count = taken;
    for (int k = 0; k < taken; k++) {
        for (int r = 0; r < u->count; r++) {
            if (t->redundant[r] && u->redundant[(size_t)k * m + (size_t)r] < 0.0) {
                u->flexibility[u->spring[r]] = (double)INFINITY;
            }
        }
    }
}

ss_status ss_redundant_find(ss_update *update, ss_error *error) {
    ss_status status = SS_OK;
    const size_t m = (size_t)update->count;
    const size_t rows = 3 * (size_t)update->grillage->mesh->bridge->line_count;
    size_t count = 0;
    bool *const redundant = ss_alloc(m, sizeof *redundant);
    sum_task t = {.u = update, .redundant = redundant, .room = (int)(64 * (rows + m))};
    if (redundant == NULL) {
        return no_memory(error);
    }
    SS_TRY(mark_redundant(update, redundant, error));
    for (size_t i = 0; i < m; i++) count += redundant[i];
    if (count == 0) {
        goto done;
    }
    update->redundant = ss_alloc(count * m, sizeof *update->redundant);
    t.member = ss_alloc(m, sizeof *t.member);
    t.A = ss_alloc(rows * m, sizeof *t.A);
    t.b = ss_alloc(rows, sizeof *t.b);
    t.work = ss_alloc((size_t)t.room, sizeof *t.work);
    if (update->redundant == NULL || t.member == NULL || t.A == NULL || t.b == NULL || t.work == NULL) {
        status = no_memory(error);
        goto done;
    }
    take_out(update, &t);
done:
    ss_free(redundant);
    ss_free(t.member);
    ss_free(t.A);
    ss_free(t.b);
    ss_free(t.work);
    return status;
}

void ss_redundant_forces(const ss_update *update, const double *offset, double *force) {
    const size_t m = (size_t)update->count;
    for (int k = 0; k < update->redundant_count && offset != NULL; k++) {
        const double *const v = update->redundant + (size_t)k * m;
        double moved = 0.0;
        for (size_t i = 0; i < m; i++) moved += v[i] * offset[update->spring[i]];
        for (size_t i = 0; i < m; i++) force[update->spring[i]] -= v[i] * moved;
    }
}
