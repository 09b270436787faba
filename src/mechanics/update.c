/* update.c - changed springs, and every solve: tiles of right-hand sides, settlements, one load with its
 * spring forces. */
#include <math.h>
#include <string.h>

#include "base/try.h"
#include "mechanics/grillage_parts.h"
#include "mechanics/row.h"

ss_status ss_update_create(const ss_grillage *grillage, const double *flexibility, ss_update **out,
                           ss_error *error) {
    ss_status status = SS_OK;
    ss_update *update = ss_alloc(1, sizeof *update);
    if (update == NULL) {
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for changed springs");
    }
    for (int i = 0; i < grillage->mesh->spring_count; i++) {
        if (!(flexibility[i] >= 0.0)) {
            status = ss_error_set(error, SS_ERROR_INTERNAL, "a spring of negative flexibility");
            goto done;
        }
    }
    SS_TRY(ss_support_check(grillage->mesh, flexibility, error));
    SS_TRY(ss_condense(grillage, flexibility, update, error));
    *out = update;
    update = NULL;
done:
    ss_update_destroy(update);
    return status;
}

void ss_update_destroy(ss_update *update) {
    if (update == NULL) {
        return;
    }
    ss_condense_free(update);
    ss_free(update);
}

static const ss_update *in_use(const ss_grillage *grillage, const ss_update *update) {
    return update != NULL ? update : &grillage->base;
}

/*
 * A solution of the band matrix loses the digits of its condition: with 240 stations along a car seven are
 * left, which is too few to tell a mistake from rounding. Below this condition tiles are refined, which costs
 * a second solution; bridges of usual stations are well above it.
 */
#define RCOND_REFINE 1e-8

bool ss_grillage_refines(const ss_grillage *g) {
    return g->trust.rcond < RCOND_REFINE;
}

size_t ss_grillage_work(const ss_grillage *grillage, const ss_update *update) {
    const ss_update *u = in_use(grillage, update);
    const size_t order = (size_t)grillage->mesh->order;
    const size_t rows = 2 * (size_t)u->count + (u->fields == NULL ? order : 0) +
                        (ss_grillage_refines(grillage) ? 2 * order : 0);
    return rows * SS_TILE + 1;
}

/* The work space of a solution of a tile. */
typedef struct tile_work {
    double *d0;    /* count x SS_TILE: minus the displacements of the springs under the loads alone */
    double *q;     /* count x SS_TILE */
    double *loads; /* order x SS_TILE; only where no fields are kept */
    double *spare; /* twice that size; only where tiles are refined */
} tile_work;

static tile_work work_of(const ss_update *u, double *work) {
    const size_t part = (size_t)u->count * SS_TILE;
    const size_t size = u->fields == NULL ? (size_t)u->grillage->mesh->order * SS_TILE : 0;
    return (tile_work){work, work + part, work + 2 * part, work + 2 * part + size};
}

/* tile = K_ref^-1 tile; where digits are few refined twice, as one load is in solve_once. */
static void solve_reference(const ss_grillage *g, const tile_work *w, double *tile) {
    const size_t size = (size_t)g->mesh->order * SS_TILE;
    if (!ss_grillage_refines(g)) {
        ss_factor_solve_tile(&g->factor, tile);
        return;
    }
    double *const loads = w->spare, *const spoiled = w->spare + size;
    memcpy(loads, tile, size * sizeof *loads);
    memcpy(spoiled, tile, size * sizeof *spoiled);
    ss_refining_solve(&g->refining, SS_TILE, spoiled, tile);
    ss_refining_residual(&g->refining, SS_TILE, loads, tile, spoiled);
    ss_factor_solve_tile(&g->factor, spoiled);
    for (size_t i = 0; i < size; i++) tile[i] += spoiled[i];
}

/* loads -= B q. */
static void subtract_rows(const ss_update *u, const double *q, double *loads) {
    for (int i = 0; i < u->count; i++) {
        const ss_row *row = &u->grillage->mesh->spring[u->spring[i]].row;
        for (int k = 0; k < row->count; k++) {
            double *out = &loads[(size_t)row->dof[k] * SS_TILE];
            for (int lane = 0; lane < SS_TILE; lane++) {
                out[lane] -= row->value[k] * q[(size_t)i * SS_TILE + (size_t)lane];
            }
        }
    }
}

/* Takes off the tile what q does to it; spoils the loads, of which the tile is the solution. */
static void apply_q(const ss_update *u, const tile_work *w, double *tile) {
    const ss_mesh *mesh = u->grillage->mesh;
    if (u->fields != NULL) {
        ss_tile_subtract(mesh->order, u->count, u->fields, w->q, tile);
        return;
    }
    subtract_rows(u, w->q, w->loads);
    memcpy(tile, w->loads, (size_t)mesh->order * SS_TILE * sizeof *tile);
    solve_reference(u->grillage, w, tile);
}

int ss_update_pair(const ss_update *u, size_t i) {
    const int pair = u->grillage->mesh->spring[u->spring[i]].pair;
    return pair < 0 ? -1 : (int)i + pair - u->spring[i];
}

double ss_update_coupling(const ss_update *u, size_t i, int pair) {
    const double f = u->flexibility[u->spring[i]];
    const double g = pair < 0 || f == 0.0 ? 0.0 : u->flexibility[u->spring[pair]];
    return isinf(g) ? 0.0 : -0.5 * sqrt(f * g);
}

/* Minus the displacements of the special springs in a tile. */
static void minus_displacements(const ss_update *u, const double *tile, double *out) {
    for (int i = 0; i < u->count; i++) {
        const ss_row *row = &u->grillage->mesh->spring[u->spring[i]].row;
        double *d = &out[(size_t)i * SS_TILE];
        for (int lane = 0; lane < SS_TILE; lane++) {
            d[lane] = 0.0;
        }
        for (int k = 0; k < row->count; k++) {
            const double *x = &tile[(size_t)row->dof[k] * SS_TILE];
            for (int lane = 0; lane < SS_TILE; lane++) {
                d[lane] -= row->value[k] * x[lane];
            }
        }
    }
}

void ss_grillage_solve(const ss_grillage *grillage, const ss_update *update, double *tile, double *work) {
    const ss_update *u = in_use(grillage, update);
    const ss_mesh *mesh = grillage->mesh;
    const tile_work w = work_of(u, work);
    if (u->fields == NULL) {
        memcpy(w.loads, tile, (size_t)mesh->order * SS_TILE * sizeof *tile);
    }
    solve_reference(grillage, &w, tile);
    if (u->count == 0) {
        return;
    }
    minus_displacements(u, tile, w.d0);
    memset(w.q, 0, (size_t)u->count * SS_TILE * sizeof *w.q);
    ss_tile_subtract(u->count, u->count, u->from_d0, w.d0, w.q);
    apply_q(u, &w, tile);
}

static int special_index(const ss_update *u, int spring) {
    for (int i = 0; i < u->count; i++) {
        if (u->spring[i] == spring) {
            return i;
        }
    }
    return -1;
}

/* A soft spring pulled by its offset is a pair of loads on the bridge with the spring in it. */
static void settle_soft(const ss_update *u, int count, const int *springs, double *tile, double *work) {
    const ss_mesh *mesh = u->grillage->mesh;
    bool soft = false;
    for (int lane = 0; lane < count; lane++) {
        if (special_index(u, springs[lane]) >= 0) {
            continue;
        }
        const ss_row *row = &mesh->spring[springs[lane]].row;
        soft = true;
        for (int k = 0; k < row->count; k++) {
            tile[(size_t)row->dof[k] * SS_TILE + (size_t)lane] +=
                row->value[k] / u->flexibility[springs[lane]];
        }
    }
    if (soft) {
        ss_grillage_solve(u->grillage, u, tile, work);
    }
}

void ss_grillage_settle(const ss_grillage *grillage, const ss_update *update, int count, const int *springs,
                        double *tile, double *work) {
    const ss_update *u = in_use(grillage, update);
    const size_t size = (size_t)grillage->mesh->order * SS_TILE, m = (size_t)u->count;
    const tile_work w = work_of(u, work);
    memset(tile, 0, size * sizeof *tile);
    settle_soft(u, count, springs, tile, work);
    if (u->count == 0) {
        return;
    }
    memset(w.q, 0, m * SS_TILE * sizeof *w.q);
    for (int lane = 0; lane < count; lane++) {
        const int j = special_index(u, springs[lane]);
        for (size_t i = 0; i < m && j >= 0; i++) {
            w.q[i * SS_TILE + (size_t)lane] = u->from_offset[i * m + (size_t)j];
        }
    }
    if (u->fields != NULL) {
        apply_q(u, &w, tile);
        return;
    }
    /* Lanes of soft springs have q = 0 here: solve the others and add. */
    memset(w.loads, 0, size * sizeof *w.loads);
    subtract_rows(u, w.q, w.loads);
    solve_reference(grillage, &w, w.loads);
    for (size_t i = 0; i < size; i++) {
        tile[i] += w.loads[i];
    }
}

/* ---- one load ----------------------------------------------------------------------------------- */

/* Loads on K_ref: what is given, and the pull of soft springs with an offset. */
static void gather_loads(const ss_update *u, const double *nodal, const double *offset,
                         const bool *is_special, double *out) {
    const ss_mesh *mesh = u->grillage->mesh;
    for (int i = 0; i < mesh->order; i++) {
        out[i] = nodal != NULL ? nodal[i] : 0.0;
    }
    for (int i = 0; i < mesh->spring_count && offset != NULL; i++) {
        if (!is_special[i] && offset[i] != 0.0) {
            ss_row_scatter(&mesh->spring[i].row, offset[i] / u->flexibility[i], out);
        }
    }
}

/* d of a closed spring from the forces: F p + s. */
static double closed_displacement(const ss_update *u, size_t i, const double *force, double s) {
    const int pair = ss_update_pair(u, i);
    const double g = ss_update_coupling(u, i, pair);
    const double d = u->flexibility[u->spring[i]] * force[u->spring[i]] + s;
    return g == 0.0 ? d : d + g * force[u->spring[pair]];
}

/* Adds what the misfit of the springs' displacements asks for: misfit = d0 - d - C q, of which the first
 * values are d0 and what offsets add. */
static void add_correction(const ss_update *u, const double *misfit, double *q, double *force) {
    const size_t m = (size_t)u->count;
    for (size_t i = 0; i < m; i++) {
        for (size_t j = 0; j < m; j++) {
            q[i] += u->from_d0[i * m + j] * misfit[j];
            force[u->spring[i]] += u->force_d0[i * m + j] * misfit[j];
        }
    }
}

/* q of closed springs as their forces and flexibilities make it; misfit = d0 - d. */
static void settle_q(const ss_update *u, const double *d0, const double *offset, double *q,
                     const double *force, double *misfit) {
    for (size_t i = 0; i < (size_t)u->count; i++) {
        const double s = offset != NULL ? offset[u->spring[i]] : 0.0;
        const bool open = isinf(u->flexibility[u->spring[i]]);
        const double d = open ? -q[i] / u->reference[i] : closed_displacement(u, i, force, s);
        if (!open) {
            q[i] = force[u->spring[i]] - u->reference[i] * d;
        }
        misfit[i] = d0[i] - d;
    }
}

/*
 * q and the forces of the special springs, from d0 and offsets; `misfit` is scratch. The misfit is then
 * formed from C, which is exact to rounding, and put right once: with redundant springs the products above
 * are large and cancel, and would leave 1e-10 of the load out of balance.
 */
static void small_response(const ss_update *u, const double *d0, const double *offset, double *q,
                           double *force, double *misfit) {
    const size_t m = (size_t)u->count;
    for (size_t i = 0; i < m; i++) {
        q[i] = 0.0;
        force[u->spring[i]] = 0.0;
        for (size_t j = 0; j < m && offset != NULL; j++) {
            q[i] += u->from_offset[i * m + j] * offset[u->spring[j]];
            force[u->spring[i]] -= u->force_offset[i * m + j] * offset[u->spring[j]];
        }
    }
    add_correction(u, d0, q, force);
    settle_q(u, d0, offset, q, force, misfit);
    for (size_t i = 0; i < m; i++) {
        for (size_t j = 0; j < m; j++) {
            misfit[i] -= u->C[i * m + j] * q[j];
        }
    }
    add_correction(u, misfit, q, force);
    settle_q(u, d0, offset, q, force, misfit);
}

static ss_status check_finite(int n, const double *x, ss_error *error) {
    for (int i = 0; i < n; i++) {
        if (!isfinite(x[i])) {
            return ss_error_set(error, SS_ERROR_CHECK, "a displacement is not finite");
        }
    }
    return SS_OK;
}

/* x = K_ref^-1 b, refined, and once more where digits are few: effects of short members are differences of
 * displacements, and as loads they are large and cancel. `spoiled` is scratch. */
static void solve_once(const ss_grillage *g, const double *b, double *spoiled, double *x) {
    memcpy(spoiled, b, (size_t)g->mesh->order * sizeof *spoiled);
    ss_refining_solve(&g->refining, 1, spoiled, x);
    if (!ss_grillage_refines(g)) {
        return;
    }
    ss_refining_residual(&g->refining, 1, b, x, spoiled);
    ss_factor_solve(&g->factor, spoiled);
    for (int i = 0; i < g->mesh->order; i++) x[i] += spoiled[i];
}

bool ss_grillage_soft(const ss_grillage *grillage, int spring) {
    return !grillage->special[spring];
}

ss_status ss_grillage_respond(const ss_grillage *grillage, const ss_update *update, const double *nodal,
                              const double *offset, double *u, double *force, ss_error *error) {
    ss_status status = SS_OK;
    const ss_update *up = in_use(grillage, update);
    const ss_mesh *mesh = grillage->mesh;
    const size_t m = (size_t)up->count;
    double *loads = ss_alloc((size_t)mesh->order, sizeof *loads);
    double *spoiled = ss_alloc((size_t)mesh->order, sizeof *spoiled);
    double *x = ss_alloc((size_t)mesh->order, sizeof *x);
    double *d0 = ss_alloc(3 * m, sizeof *d0);
    double *made = ss_alloc((size_t)mesh->spring_count, sizeof *made);
    bool *is_special = ss_alloc((size_t)mesh->spring_count, sizeof *is_special);
    if (loads == NULL || spoiled == NULL || x == NULL || d0 == NULL || made == NULL || is_special == NULL) {
        status = ss_error_set(error, SS_ERROR_MEMORY, "no memory for a response");
        goto done;
    }
    for (int i = 0; i < up->count; i++) {
        is_special[up->spring[i]] = true;
    }
    gather_loads(up, nodal, offset, is_special, loads);
    solve_once(grillage, loads, spoiled, x);
    for (int i = 0; i < up->count; i++) {
        d0[i] = ss_row_dot(&mesh->spring[up->spring[i]].row, x);
    }
    small_response(up, d0, offset, d0 + m, made, d0 + 2 * m);
    for (int i = 0; i < up->count; i++) {
        ss_row_scatter(&mesh->spring[up->spring[i]].row, -d0[m + (size_t)i], loads);
    }
    solve_once(grillage, loads, spoiled, x);
    SS_TRY(check_finite(mesh->order, x, error));
    for (int i = 0; i < mesh->spring_count; i++) {
        if (is_special[i]) {
            continue;
        }
        made[i] =
            (ss_row_dot(&mesh->spring[i].row, x) - (offset != NULL ? offset[i] : 0.0)) / up->flexibility[i];
    }
    ss_redundant_forces(up, offset, made);
    memcpy(u, x, (size_t)mesh->order * sizeof *u);
    memcpy(force, made, (size_t)mesh->spring_count * sizeof *force);
done:
    ss_free(loads);
    ss_free(spoiled);
    ss_free(x);
    ss_free(d0);
    ss_free(made);
    ss_free(is_special);
    return status;
}
