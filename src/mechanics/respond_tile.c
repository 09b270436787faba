/* respond_tile.c - a tile of loads with spring offsets: displacements and every spring force, refined. */
#include <math.h>
#include <string.h>

#include "mechanics/grillage_parts.h"

/* What ss_respond_tile needs besides its arguments. */
typedef struct respond_work {
    double *kept, *spoiled;              /* order x SS_TILE */
    double *d0, *q, *p, *minus, *misfit; /* count x SS_TILE */
    double *s;                           /* count x SS_TILE: offsets of the special springs */
    double *minus_s;                     /* the same, other sign */
} respond_work;

size_t ss_respond_tile_work(const ss_update *update) {
    const size_t order = (size_t)update->grillage->mesh->order;
    return (2 * order + 7 * (size_t)update->count) * SS_TILE + 1;
}

static respond_work work_of(const ss_update *u, double *work) {
    const size_t order = (size_t)u->grillage->mesh->order * SS_TILE;
    const size_t part = (size_t)u->count * SS_TILE;
    double *const small = work + 2 * order;
    return (respond_work){work,
                          work + order,
                          small,
                          small + part,
                          small + 2 * part,
                          small + 3 * part,
                          small + 4 * part,
                          small + 5 * part,
                          small + 6 * part};
}

/* out += factor * row of the spring, lane by lane, times x. */
static void scatter(const ss_row *row, double factor, const double *x, double *out) {
    for (int k = 0; k < row->count; k++) {
        double *const to = &out[(size_t)row->dof[k] * SS_TILE];
        for (int lane = 0; lane < SS_TILE; lane++) to[lane] += factor * row->value[k] * x[lane];
    }
}

static void displacement(const ss_row *row, const double *u, double *out) {
    for (int lane = 0; lane < SS_TILE; lane++) out[lane] = 0.0;
    for (int k = 0; k < row->count; k++) {
        const double *const from = &u[(size_t)row->dof[k] * SS_TILE];
        for (int lane = 0; lane < SS_TILE; lane++) out[lane] += row->value[k] * from[lane];
    }
}

/* u = K_ref^-1 of what is kept, refined as one load is. */
static void solve(const ss_grillage *g, const respond_work *w, double *u) {
    const size_t size = (size_t)g->mesh->order * SS_TILE;
    memcpy(w->spoiled, w->kept, size * sizeof *u);
    ss_refining_solve(&g->refining, SS_TILE, w->spoiled, u);
    if (!ss_grillage_refines(g)) {
        return;
    }
    ss_refining_residual(&g->refining, SS_TILE, w->kept, u, w->spoiled);
    ss_factor_solve_tile(&g->factor, w->spoiled);
    for (size_t i = 0; i < size; i++) u[i] += w->spoiled[i];
}

/* Springs that the small system does not have. `at` goes through the special ones, which ascend. */
static bool is_special(const ss_update *u, int spring, int *at) {
    if (*at < u->count && u->spring[*at] == spring) {
        (*at)++;
        return true;
    }
    return false;
}

/* Loads on K_ref: what is given, and the pull of soft springs with an offset. */
static void gather(const ss_update *u, const double *offset, double *loads) {
    const ss_mesh *mesh = u->grillage->mesh;
    int at = 0;
    for (int i = 0; i < mesh->spring_count && offset != NULL; i++) {
        if (!is_special(u, i, &at)) {
            scatter(&mesh->spring[i].row, 1.0 / u->flexibility[i], &offset[(size_t)i * SS_TILE], loads);
        }
    }
}

/* q of closed springs as their forces and flexibilities make it; misfit = d0 - d. */
static void settle_q(const ss_update *u, const respond_work *w) {
    for (size_t i = 0; i < (size_t)u->count; i++) {
        const size_t row = i * SS_TILE;
        const double f = u->flexibility[u->spring[i]], k = u->reference[i];
        const int pair = ss_update_pair(u, i);
        const double g = isinf(f) ? 0.0 : ss_update_coupling(u, i, pair);
        const double *const other = g == 0.0 ? NULL : &w->p[(size_t)pair * SS_TILE];
        for (int lane = 0; lane < SS_TILE; lane++) {
            double d = -w->q[row + (size_t)lane] / k;
            if (!isinf(f)) {
                d = f * w->p[row + (size_t)lane] + w->s[row + (size_t)lane];
                d += other != NULL ? g * other[lane] : 0.0;
                w->q[row + (size_t)lane] = w->p[row + (size_t)lane] - k * d;
            }
            w->misfit[row + (size_t)lane] = w->d0[row + (size_t)lane] - d;
        }
    }
}

/* Adds what displacements that are off by x ask for. */
static void add_correction(const ss_update *u, const respond_work *w, const double *x) {
    for (size_t i = 0; i < (size_t)u->count * SS_TILE; i++) w->minus[i] = -x[i];
    ss_tile_subtract(u->count, u->count, u->from_d0, w->minus, w->q);
    ss_tile_subtract(u->count, u->count, u->force_d0, w->minus, w->p);
}

/* q and the forces of the special springs from d0 and offsets, with the misfit put right once: see
 * small_response of update.c. */
static void small_response(const ss_update *u, const double *offset, const respond_work *w) {
    const size_t size = (size_t)u->count * SS_TILE;
    memset(w->q, 0, size * sizeof *w->q);
    memset(w->p, 0, size * sizeof *w->p);
    memset(w->s, 0, size * sizeof *w->s);
    for (size_t i = 0; i < (size_t)u->count && offset != NULL; i++) {
        memcpy(&w->s[i * SS_TILE], &offset[(size_t)u->spring[i] * SS_TILE], SS_TILE * sizeof *w->s);
    }
    if (offset != NULL) {
        for (size_t i = 0; i < size; i++) w->minus_s[i] = -w->s[i];
        ss_tile_subtract(u->count, u->count, u->from_offset, w->minus_s, w->q);
        ss_tile_subtract(u->count, u->count, u->force_offset, w->s, w->p);
    }
    add_correction(u, w, w->d0);
    settle_q(u, w);
    ss_tile_subtract(u->count, u->count, u->C, w->q, w->misfit);
    add_correction(u, w, w->misfit);
    settle_q(u, w);
}

/* What redundant springs do under offsets, in all forces. */
static void add_redundant(const ss_update *u, const double *offset, double *force) {
    const size_t m = (size_t)u->count;
    for (int k = 0; k < u->redundant_count && offset != NULL; k++) {
        const double *const v = u->redundant + (size_t)k * m;
        double moved[SS_TILE] = {0.0};
        for (size_t i = 0; i < m; i++) {
            const double *const s = &offset[(size_t)u->spring[i] * SS_TILE];
            for (int lane = 0; lane < SS_TILE; lane++) moved[lane] += v[i] * s[lane];
        }
        for (size_t i = 0; i < m; i++) {
            double *const f = &force[(size_t)u->spring[i] * SS_TILE];
            for (int lane = 0; lane < SS_TILE; lane++) f[lane] -= v[i] * moved[lane];
        }
    }
}

void ss_respond_tile(const ss_update *update, const double *offset, double *loads, double *u, double *force,
                     double *work) {
    const ss_mesh *mesh = update->grillage->mesh;
    const respond_work w = work_of(update, work);
    gather(update, offset, loads);
    memcpy(w.kept, loads, (size_t)mesh->order * SS_TILE * sizeof *loads);
    solve(update->grillage, &w, u);
    if (update->count > 0) {
        for (int i = 0; i < update->count; i++) {
            displacement(&mesh->spring[update->spring[i]].row, u, &w.d0[(size_t)i * SS_TILE]);
        }
        small_response(update, offset, &w);
        for (int i = 0; i < update->count; i++) {
            scatter(&mesh->spring[update->spring[i]].row, -1.0, &w.q[(size_t)i * SS_TILE], w.kept);
        }
        solve(update->grillage, &w, u);
    }
    int at = 0;
    for (int i = 0; i < mesh->spring_count; i++) {
        double *const f = &force[(size_t)i * SS_TILE];
        if (is_special(update, i, &at)) {
            memcpy(f, &w.p[(size_t)(at - 1) * SS_TILE], SS_TILE * sizeof *f);
            continue;
        }
        displacement(&mesh->spring[i].row, u, f);
        for (int lane = 0; lane < SS_TILE; lane++) {
            f[lane] -= offset != NULL ? offset[(size_t)i * SS_TILE + (size_t)lane] : 0.0;
            f[lane] /= update->flexibility[i];
        }
    }
    add_redundant(update, offset, force);
}

ss_status ss_grillage_settle_refined(const ss_grillage *grillage, int count, const int *springs, double *tile,
                                     ss_error *error) {
    const ss_update *const u = &grillage->base;
    const size_t size = (size_t)grillage->mesh->order * SS_TILE;
    const size_t springs_size = (size_t)grillage->mesh->spring_count * SS_TILE;
    double *const room = ss_alloc(size + 2 * springs_size + ss_respond_tile_work(u), sizeof *room);
    if (room == NULL) {
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for settlements");
    }
    double *const offset = room + size;
    for (int lane = 0; lane < count; lane++) offset[(size_t)springs[lane] * SS_TILE + (size_t)lane] = 1.0;
    ss_respond_tile(u, offset, room, tile, offset + springs_size, offset + 2 * springs_size);
    ss_free(room);
    for (size_t i = 0; i < size; i++) {
        if (!isfinite(tile[i])) {
            return ss_error_set(error, SS_ERROR_CHECK, "a displacement is not finite");
        }
    }
    return SS_OK;
}
