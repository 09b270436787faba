/* condense.c - reference stiffnesses, and the special springs seen through the factored band matrix. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/grillage_parts.h"
#include "mechanics/mesh_parts.h"
#include "mechanics/row.h"

/* ---- reference stiffness ------------------------------------------------------------------------ */

static double stiffest(const ss_mesh *mesh, int line) {
    double EI = 0.0;
    for (int s = 0; s + 1 < mesh->station_count; s++) {
        const int e = ss_mesh_line_element(mesh, s, line);
        if (e >= 0) {
            EI = ss_max(EI, mesh->element[e].EI);
        }
    }
    return EI;
}

static double spacing_at(const ss_mesh *mesh, int station) {
    double h = (double)INFINITY;
    if (station > 0) {
        h = mesh->station[station] - mesh->station[station - 1];
    }
    if (station + 1 < mesh->station_count) {
        h = ss_min(h, mesh->station[station + 1] - mesh->station[station]);
    }
    return h;
}

/* Flexibility of the row's own degrees of freedom while all others are held. */
static double local_flexibility(const ss_row *row, const double *diagonal) {
    double sum = 0.0;
    for (int i = 0; i < row->count; i++) {
        const double k = diagonal[row->dof[i]];
        if (k > 0.0) {
            sum += row->value[i] * row->value[i] / k;
        }
    }
    return sum;
}

/*
 * The condition of C is (k + S_max) / (k + S_min), S being what the structure without the special springs
 * resists; K_ref itself wants k neither above the members' stiffness nor far below the global one. A bearing
 * sees EI/L^3; a joint row sees from EI h/L^4 (one long wave) to EI/h^3 (neighbouring stations), of which the
 * middle in logarithms is near EI/(L h)^(3/2).
 *
 * Measured on two 18.3 m cars of seven lines, hinged, rigid and sprung, stations 0.3 and 0.6 m apart, a
 * closed and an open sill: condition of C 75 to 250, and joint and bearing forces that differ by at most
 * 6e-14 of the largest when the joint's k is multiplied by 1e-4 to 100 (2e-12 at 1e4). So the choice is not
 * delicate, and springs up to STIFF times k may as well stay in the band matrix as they are, which keeps the
 * small system small.
 */
#define STIFF 100.0

static double reference_stiffness(const ss_mesh *mesh, const ss_spring *spring, const double *diagonal) {
    const ss_bridge *b = mesh->bridge;
    const int node = spring->row.dof[0] / 3;
    const int line = mesh->node_line[node];
    const double EI = stiffest(mesh, line);
    const double L = b->lines[line].x1 - b->lines[line].x0;
    if (spring->kind == SS_SPRING_SLOPE) {
        return 10.0 * EI / L;
    }
    if (spring->owner == SS_MEMBER_BEARING) {
        return 100.0 * EI / (L * L * L);
    }
    const double h = spacing_at(mesh, mesh->node_station[node]);
    if (spring->kind == SS_SPRING_VERTICAL) {
        return EI / pow(L * h, 1.5);
    }
    const double flexibility = local_flexibility(&spring->row, diagonal);
    return flexibility > 0.0 ? h / (L * flexibility) : 1e-3 * EI / L;
}

void ss_reference_choose(const ss_mesh *mesh, const double *diagonal, double *natural, double *stiffness,
                         bool *special) {
    for (int i = 0; i < mesh->spring_count; i++) {
        const ss_spring *spring = &mesh->spring[i];
        const double k = reference_stiffness(mesh, spring, diagonal);
        natural[i] = k;
        special[i] = spring->contact || spring->pair >= 0 || spring->flexibility * k * STIFF < 1.0;
        stiffness[i] = special[i] ? k : 1.0 / spring->flexibility;
    }
}

/* ---- C and the fields --------------------------------------------------------------------------- */

static ss_status no_memory(ss_error *error) {
    return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the springs");
}

/* Storing fields pays while applying them costs less than a second pair of sweeps. */
static bool keeps_fields(const ss_grillage *g, int count) {
    return count <= 2 * g->mesh->half_bandwidth;
}

static ss_status see_through(const ss_grillage *g, ss_update *u, ss_error *error) {
    const ss_mesh *mesh = g->mesh;
    const size_t order = (size_t)mesh->order;
    const size_t m = (size_t)u->count;
    double *loads = ss_alloc(order * SS_TILE, sizeof *loads);
    double *tile = ss_alloc(order * SS_TILE, sizeof *tile);
    if (loads == NULL || tile == NULL) {
        ss_free(loads);
        ss_free(tile);
        return no_memory(error);
    }
    for (int first = 0; first < u->count; first += SS_TILE) {
        const int lanes = u->count - first < SS_TILE ? u->count - first : SS_TILE;
        memset(loads, 0, order * SS_TILE * sizeof *loads);
        for (int lane = 0; lane < lanes; lane++) {
            const ss_row *row = &mesh->spring[u->spring[first + lane]].row;
            for (int i = 0; i < row->count; i++) {
                loads[(size_t)row->dof[i] * SS_TILE + (size_t)lane] += row->value[i];
            }
        }
        ss_refining_solve(&g->refining, SS_TILE, loads, tile);
        for (int i = 0; i < u->count; i++) {
            const ss_row *row = &mesh->spring[u->spring[i]].row;
            for (int lane = 0; lane < lanes; lane++) {
                double sum = 0.0;
                for (int k = 0; k < row->count; k++) {
                    sum += row->value[k] * tile[(size_t)row->dof[k] * SS_TILE + (size_t)lane];
                }
                u->C[(size_t)i * m + (size_t)(first + lane)] = sum;
            }
        }
        for (size_t dof = 0; dof < order && u->fields != NULL; dof++) {
            memcpy(&u->fields[dof * m + (size_t)first], &tile[dof * SS_TILE], (size_t)lanes * sizeof *tile);
        }
    }
    ss_free(loads);
    ss_free(tile);
    for (size_t i = 0; i < m; i++) {
        for (size_t j = 0; j < i; j++) {
            const double mean = 0.5 * (u->C[i * m + j] + u->C[j * m + i]);
            u->C[i * m + j] = mean;
            u->C[j * m + i] = mean;
        }
    }
    return SS_OK;
}

static bool changed(const ss_mesh *mesh, const double *flexibility, int i) {
    return flexibility != NULL && flexibility[i] != mesh->spring[i].flexibility;
}

static ss_status make_update(const ss_grillage *g, const double *flexibility, ss_update *u, ss_error *error) {
    const ss_mesh *mesh = g->mesh;
    u->grillage = g;
    for (int i = 0; i < mesh->spring_count; i++) {
        u->count += g->special[i] || changed(mesh, flexibility, i);
    }
    const size_t m = (size_t)u->count;
    u->spring = ss_alloc(m, sizeof *u->spring);
    u->reference = ss_alloc(m, sizeof *u->reference);
    u->flexibility = ss_alloc((size_t)mesh->spring_count, sizeof *u->flexibility);
    u->C = ss_alloc(m * m, sizeof *u->C);
    u->from_d0 = ss_alloc(m * m, sizeof *u->from_d0);
    u->from_offset = ss_alloc(m * m, sizeof *u->from_offset);
    u->force_d0 = ss_alloc(m * m, sizeof *u->force_d0);
    u->force_offset = ss_alloc(m * m, sizeof *u->force_offset);
    if (keeps_fields(g, u->count)) {
        u->fields = ss_alloc((size_t)mesh->order * m, sizeof *u->fields);
    }
    if (u->spring == NULL || u->reference == NULL || u->flexibility == NULL || u->C == NULL ||
        u->from_d0 == NULL || u->from_offset == NULL || u->force_d0 == NULL || u->force_offset == NULL ||
        (keeps_fields(g, u->count) && u->fields == NULL)) {
        return no_memory(error);
    }
    int at = 0;
    for (int i = 0; i < mesh->spring_count; i++) {
        u->flexibility[i] = flexibility != NULL ? flexibility[i] : mesh->spring[i].flexibility;
        if (!g->special[i] && !changed(mesh, flexibility, i)) {
            continue;
        }
        u->spring[at] = i;
        u->reference[at++] = g->stiffness[i];
    }
    return SS_OK;
}

/* Refuses with the words of the motion that the springs' system leaves free. */
static ss_status refuse_motion(const ss_update *u, const double *motion, ss_error *error) {
    const ss_mesh *mesh = u->grillage->mesh;
    double *field = ss_alloc((size_t)mesh->order, sizeof *field);
    if (field == NULL) {
        return no_memory(error);
    }
    for (int i = 0; i < u->count; i++) {
        ss_row_scatter(&mesh->spring[u->spring[i]].row, motion[i], field);
    }
    ss_factor_solve(&u->grillage->factor, field);
    const ss_status status = ss_trust_name_motion(mesh, field, 1, error);
    ss_free(field);
    return status;
}

ss_status ss_condense(const ss_grillage *grillage, const double *flexibility, ss_update *out,
                      ss_error *error) {
    ss_status status = SS_OK;
    ss_update u = {0};
    double *motion = NULL;
    SS_TRY(make_update(grillage, flexibility, &u, error));
    motion = ss_alloc((size_t)u.count, sizeof *motion);
    if (motion == NULL) {
        status = no_memory(error);
        goto done;
    }
    if (u.count > 0) {
        SS_TRY(see_through(grillage, &u, error));
        SS_TRY(ss_redundant_find(&u, error));
        status = ss_small_solve(&u, motion, error);
        if (status == SS_ERROR_MECHANISM) {
            status = refuse_motion(&u, motion, error);
        }
        SS_TRY(status);
    }
    *out = u;
    u = (ss_update){0};
done:
    ss_free(motion);
    ss_condense_free(&u);
    return status;
}

void ss_condense_free(ss_update *update) {
    ss_free(update->spring);
    ss_free(update->flexibility);
    ss_free(update->reference);
    ss_free(update->C);
    ss_free(update->fields);
    ss_free(update->from_d0);
    ss_free(update->from_offset);
    ss_free(update->force_d0);
    ss_free(update->force_offset);
    ss_free(update->redundant);
    *update = (ss_update){0};
}
