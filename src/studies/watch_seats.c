/* watch_seats.c - where bearings with a gap and those placed later stand: as far as the bridge comes down to
 * them under its dead load while they are not there. */
#include "studies/watch_seats.h"

#include <math.h>
#include <string.h>

#include "response/state.h"
#include "sillspan/memory.h"

bool ss_spring_late(const ss_mesh *mesh, int spring) {
    const ss_spring *const s = &mesh->spring[spring];
    if (s->owner != SS_MEMBER_BEARING) {
        return false;
    }
    const ss_bearing *const bearing = &mesh->bridge->bearings[s->index];
    return bearing->after || bearing->gap > 0.0;
}

/* ---- a small symmetric positive definite system ----------------------------------------------------- */

/* L L' = A in place, in units in which the diagonal is 1; false: it is not positive definite. */
static bool factor(size_t n, double *A, double *unit) {
    for (size_t i = 0; i < n; i++) {
        if (!(A[i * n + i] > 0.0)) {
            return false;
        }
        unit[i] = 1.0 / sqrt(A[i * n + i]);
    }
    for (size_t i = 0; i < n; i++) {
        for (size_t j = 0; j < n; j++) A[i * n + j] *= unit[i] * unit[j];
    }
    for (size_t j = 0; j < n; j++) {
        double pivot = A[j * n + j];
        for (size_t k = 0; k < j; k++) pivot -= A[j * n + k] * A[j * n + k];
        if (!(pivot > 1e-13)) {
            return false;
        }
        A[j * n + j] = sqrt(pivot);
        for (size_t i = j + 1; i < n; i++) {
            double sum = A[i * n + j];
            for (size_t k = 0; k < j; k++) sum -= A[i * n + k] * A[j * n + k];
            A[i * n + j] = sum / A[j * n + j];
        }
    }
    return true;
}

static void solve(size_t n, const double *L, const double *unit, double *x) {
    for (size_t i = 0; i < n; i++) {
        x[i] *= unit[i];
        for (size_t k = 0; k < i; k++) x[i] -= L[i * n + k] * x[k];
        x[i] /= L[i * n + i];
    }
    for (size_t i = n; i-- > 0;) {
        for (size_t k = i + 1; k < n; k++) x[i] -= L[k * n + i] * x[k];
        x[i] /= L[i * n + i];
    }
    for (size_t i = 0; i < n; i++) x[i] *= unit[i];
}

/* ---- seats ------------------------------------------------------------------------------------------ */

/* Late supports, opened until they carry nothing, and early ones of contact, which may lift then. */
typedef struct parts {
    int late_count, early_count;
    int *late, *early;
    double *L, *unit; /* factor of the stiffness among late ones */
    double *across;   /* early x late: that stiffness solved for the coupling */
    double *u_late;   /* openings */
    double *S, *r0, *r, *u;
    bool *open;
    double *work;
} parts;

static bool make_parts(const ss_seats_task *task, ss_arena *arena, parts *p) {
    const size_t n = (size_t)task->count + 1;
    *p = (parts){.late = ss_arena_alloc(arena, n, sizeof *p->late),
                 .early = ss_arena_alloc(arena, n, sizeof *p->early),
                 .L = ss_arena_alloc(arena, n * n, sizeof *p->L),
                 .unit = ss_arena_alloc(arena, n, sizeof *p->unit),
                 .across = ss_arena_alloc(arena, n * n, sizeof *p->across),
                 .u_late = ss_arena_alloc(arena, n, sizeof *p->u_late),
                 .S = ss_arena_alloc(arena, n * n, sizeof *p->S),
                 .r0 = ss_arena_alloc(arena, n, sizeof *p->r0),
                 .r = ss_arena_alloc(arena, n, sizeof *p->r),
                 .u = ss_arena_alloc(arena, n, sizeof *p->u),
                 .open = ss_arena_alloc(arena, n, sizeof *p->open),
                 .work = ss_arena_alloc(arena, ss_contact_work(task->count) + 1, sizeof *p->work)};
    if (p->late == NULL || p->early == NULL || p->L == NULL || p->unit == NULL || p->across == NULL ||
        p->u_late == NULL || p->S == NULL || p->r0 == NULL || p->r == NULL || p->u == NULL ||
        p->open == NULL || p->work == NULL) {
        return false;
    }
    for (int i = 0; i < task->count; i++) {
        if (task->late[i]) {
            p->late[p->late_count++] = i;
        } else if (i < task->contact_count) {
            p->early[p->early_count++] = i;
        }
    }
    return true;
}

static double entry(const ss_seats_task *task, int i, int j) {
    return task->S[(size_t)i * (size_t)task->count + (size_t)j];
}

/* Takes the late ones out: u_late = - S_LL^-1 (r_L + S_LE u_E). */
static ss_status take_out(const ss_seats_task *task, parts *p, ss_error *error) {
    const size_t late = (size_t)p->late_count;
    for (size_t i = 0; i < late; i++) {
        for (size_t j = 0; j < late; j++) p->L[i * late + j] = entry(task, p->late[i], p->late[j]);
        p->u_late[i] = -task->reaction[p->late[i]];
    }
    if (!factor(late, p->L, p->unit)) {
        return ss_error_set(error, SS_ERROR_MECHANISM,
                            "without the bearings that have a gap or were placed later the bridge is free "
                            "to move under its dead load");
    }
    solve(late, p->L, p->unit, p->u_late);
    for (int e = 0; e < p->early_count; e++) {
        double *const across = p->across + (size_t)e * late;
        for (size_t i = 0; i < late; i++) across[i] = entry(task, p->late[i], p->early[e]);
        solve(late, p->L, p->unit, across);
    }
    return SS_OK;
}

/* Contact of the early ones by themselves. */
static ss_status lift(const ss_seats_task *task, parts *p, ss_error *error) {
    const int n = p->early_count;
    const size_t late = (size_t)p->late_count;
    double scale = 0.0;
    for (int i = 0; i < task->count; i++) scale += fabs(task->reaction[i]);
    for (int i = 0; i < n; i++) {
        p->r0[i] = task->reaction[p->early[i]];
        for (size_t k = 0; k < late; k++) p->r0[i] += entry(task, p->early[i], p->late[k]) * p->u_late[k];
        p->r0[i] = fabs(p->r0[i]) <= 1e-10 * scale ? 0.0 : p->r0[i];
        for (int j = 0; j < n; j++) {
            double sum = entry(task, p->early[i], p->early[j]);
            for (size_t k = 0; k < late; k++) {
                sum -= entry(task, p->early[i], p->late[k]) * p->across[(size_t)j * late + k];
            }
            p->S[i * n + j] = sum;
        }
    }
    const ss_status status = ss_contact_solve(n, p->S, p->r0, p->r, p->u, p->open, p->work);
    if (status != SS_OK) {
        return ss_error_set(error, status,
                            "under the present dead load, without the bearings that have a gap or were "
                            "placed later, the bridge does not stay on its bearings");
    }
    return SS_OK;
}

ss_status ss_seats_find(const ss_seats_task *task, ss_arena *arena, double *seat, ss_error *error) {
    parts p;
    ss_status status = SS_OK;
    if (!make_parts(task, arena, &p)) {
        return ss_no_memory(error);
    }
    if (p.late_count > 0) {
        status = take_out(task, &p, error);
        status = status == SS_OK ? lift(task, &p, error) : status;
    }
    if (status != SS_OK) {
        return status;
    }
    for (int k = 0; k < p.late_count; k++) {
        double opening = p.u_late[k];
        for (int e = 0; e < p.early_count; e++) {
            opening -= p.across[(size_t)e * (size_t)p.late_count + (size_t)k] * p.u[e];
        }
        seat[p.late[k]] = -opening;
    }
    for (int i = 0; i < task->count; i++) {
        const ss_spring *const spring = &task->mesh->spring[task->support[i]];
        if (spring->owner == SS_MEMBER_BEARING && spring->kind == SS_SPRING_VERTICAL) {
            const ss_bearing *const bearing = &task->mesh->bridge->bearings[spring->index];
            seat[i] += bearing->settlement + bearing->gap;
        }
    }
    return SS_OK;
}
