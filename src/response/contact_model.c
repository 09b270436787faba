/* contact_model.c - the contact springs of a bridge under one dead load: their fields, and what openings do
 * to effects. */
#include "response/contact_model.h"

#include <string.h>

#include "base/try.h"
#include "response/clones.h"
#include "response/state.h"
#include "sillspan/memory.h"

static ss_status allocate(const ss_mesh *mesh, ss_contact_model *m, ss_error *error) {
    const size_t n = (size_t)m->n, springs = (size_t)mesh->spring_count, order = (size_t)mesh->order;
    m->u_closed = ss_alloc(order, sizeof *m->u_closed);
    m->force_closed = ss_alloc(springs, sizeof *m->force_closed);
    m->r_dead = ss_alloc(n, sizeof *m->r_dead);
    m->u_dead = ss_alloc(n, sizeof *m->u_dead);
    m->open_dead = ss_alloc(n, sizeof *m->open_dead);
    const bool ok = m->u_closed != NULL && m->force_closed != NULL && m->r_dead != NULL &&
                    m->u_dead != NULL && m->open_dead != NULL;
    return ok ? SS_OK : ss_no_memory(error);
}

static ss_status solve_dead(ss_contact_model *m, const ss_envelope_options *options, ss_error *error) {
    const ss_permanent *p = m->permanent;
    const ss_mesh *mesh = ss_grillage_mesh(p->grillage);
    ss_status status = SS_OK;
    ss_state state = {0};
    double *const offset = ss_alloc((size_t)mesh->spring_count, sizeof *offset);
    if (offset == NULL) {
        return ss_no_memory(error);
    }
    SS_TRY(ss_permanent_loads(p, &(ss_load_sum){true, options->factors, NULL, 0.0}, &m->load, offset, error));
    SS_TRY(
        ss_grillage_respond(p->grillage, NULL, m->load.nodal, offset, m->u_closed, m->force_closed, error));
    SS_TRY(ss_permanent_state(p, true, options->factors, NULL, 0.0, &state, error));
    ss_contact_reactions(mesh, (ss_contact_springs){m->n, m->springs, m->S}, m->force_closed, offset,
                         m->r_dead);
    for (int i = 0; i < m->n; i++) {
        m->u_dead[i] = state.opening[m->springs[i]];
        m->open_dead[i] = m->u_dead[i] > 0.0;
    }
done:
    ss_state_destroy(&state);
    ss_free(offset);
    return status;
}

static ss_status solve_forces(ss_contact_model *m, ss_error *error) {
    const ss_mesh *mesh = ss_grillage_mesh(m->permanent->grillage);
    const size_t springs = (size_t)mesh->spring_count;
    ss_status status = SS_OK;
    double *const offset = ss_alloc(springs, sizeof *offset);
    double *const u = ss_alloc((size_t)mesh->order, sizeof *u);
    m->force = ss_alloc((size_t)m->n * springs, sizeof *m->force);
    if (offset == NULL || u == NULL || m->force == NULL) {
        status = ss_no_memory(error);
        goto done;
    }
    for (int i = 0; i < m->n; i++) {
        offset[m->springs[i]] = 1.0;
        SS_TRY(ss_grillage_respond(m->permanent->grillage, NULL, NULL, offset, u,
                                   m->force + (size_t)i * springs, error));
        offset[m->springs[i]] = 0.0;
    }
done:
    ss_free(offset);
    ss_free(u);
    return status;
}

ss_status ss_contact_model_create(const ss_permanent *permanent, const ss_envelope_options *options,
                                  bool forces, ss_contact_model *out, ss_error *error) {
    ss_status status = SS_OK;
    ss_contact_model m = {.permanent = permanent, .live_factor = options->live_factor};
    m.n = ss_grillage_contact(permanent->grillage, &m.springs, &m.S);
    SS_TRY(allocate(ss_grillage_mesh(permanent->grillage), &m, error));
    SS_TRY(solve_dead(&m, options, error));
    if (forces) {
        SS_TRY(solve_forces(&m, error));
    }
    *out = m;
    m = (ss_contact_model){0};
done:
    ss_contact_model_destroy(&m);
    return status;
}

void ss_contact_model_destroy(ss_contact_model *model) {
    for (int i = 0; i < model->tile_count; i++) ss_axle_lines_destroy(&model->lines[i]);
    ss_free(model->lines);
    ss_free(model->influence);
    ss_load_destroy(&model->load);
    ss_free(model->u_closed);
    ss_free(model->force_closed);
    ss_free(model->r_dead);
    ss_free(model->u_dead);
    ss_free(model->open_dead);
    ss_free(model->force);
    *model = (ss_contact_model){0};
}

ss_status ss_contact_model_lines(ss_contact_model *model, const ss_axle_plans *plans, ss_error *error) {
    const size_t order = (size_t)plans->mesh->order, n = (size_t)model->n;
    const int tiles = (model->n + SS_TILE - 1) / SS_TILE;
    model->lines = ss_alloc((size_t)tiles, sizeof *model->lines);
    model->influence = ss_alloc((size_t)tiles * order * SS_TILE, sizeof *model->influence);
    if (model->lines == NULL || model->influence == NULL) {
        return ss_no_memory(error);
    }
    for (int i = 0; i < tiles; i++) {
        const int first = i * SS_TILE, count = model->n - first < SS_TILE ? model->n - first : SS_TILE;
        double *const z = model->influence + (size_t)i * order * SS_TILE;
        for (size_t dof = 0; dof < order; dof++) {
            memcpy(z + dof * SS_TILE, model->permanent->contact_field + dof * n + (size_t)first,
                   (size_t)count * sizeof *z);
        }
        const ss_status status = ss_axle_lines_create(plans, &model->lines[i], error);
        if (status != SS_OK) {
            return status;
        }
        model->tile_count = i + 1;
        ss_axle_lines_fill(&model->lines[i], z, NULL, count);
    }
    return SS_OK;
}

SS_CLONES
void ss_contact_model_refer(const double *restrict weight, const double *restrict field, size_t n,
                            size_t order, double *restrict out) {
    for (size_t dof = 0; dof < order; dof++) {
        double sum[SS_TILE];
        memcpy(sum, out + dof * SS_TILE, sizeof sum);
        for (size_t j = 0; j < n; j++) {
            const double by = field[dof * n + j];
            for (size_t lane = 0; lane < SS_TILE; lane++) sum[lane] += by * weight[j * SS_TILE + lane];
        }
        memcpy(out + dof * SS_TILE, sum, sizeof sum);
    }
}

void ss_contact_model_opening(const ss_contact_model *model, const ss_effect *effect, double *opening) {
    const ss_mesh *mesh = ss_grillage_mesh(model->permanent->grillage);
    if (!ss_effect_of_spring(effect)) {
        const size_t order = (size_t)mesh->order;
        ss_row row;
        ss_mesh_effect_row(mesh, effect, &row);
        for (size_t i = 0; i < (size_t)model->n; i++) {
            const double *const field = model->influence + i / SS_TILE * order * SS_TILE + i % SS_TILE;
            double sum = 0.0;
            for (int k = 0; k < row.count; k++) sum += row.value[k] * field[(size_t)row.dof[k] * SS_TILE];
            opening[i] = -sum;
        }
        return;
    }
    const double factor = ss_effect_spring_factor(mesh, effect);
    const int second = ss_effect_second_spring(mesh, effect);
    for (int i = 0; i < model->n; i++) {
        const double *const force = model->force + (size_t)i * (size_t)mesh->spring_count;
        opening[i] = -factor * (force[effect->spring] + (second >= 0 ? force[second] : 0.0));
    }
}

double ss_contact_model_dead(const ss_contact_model *model, const ss_effect *effect) {
    const ss_mesh *mesh = ss_grillage_mesh(model->permanent->grillage);
    if (!ss_effect_of_spring(effect)) {
        return ss_mesh_effect_value(mesh, effect, model->u_closed, &model->load);
    }
    const int second = ss_effect_second_spring(mesh, effect);
    return ss_effect_spring_factor(mesh, effect) *
           (model->force_closed[effect->spring] + (second >= 0 ? model->force_closed[second] : 0.0));
}
