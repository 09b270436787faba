/* envelope_tile.c - one tile of effects through influence fields, search and results. */
#include "response/envelope_tile.h"

#include <string.h>

#include "base/try.h"
#include "mechanics/row.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* Live effects below this share of the truck's weight are nothing: N per N and N m per N; deflections in m
 * per N. */
#define NOTHING_FORCE 1e-9
#define NOTHING_DEFLECTION 1e-18

ss_status ss_envelope_worker_create(const ss_envelope_task *task, ss_envelope_worker *out, ss_error *error) {
    const ss_grillage *g = task->permanent->grillage;
    const size_t order = (size_t)task->plans->mesh->order;
    ss_status status = SS_OK;
    ss_envelope_worker w = {.task = task};
    w.z = ss_alloc(order * SS_TILE, sizeof *w.z);
    w.second = ss_alloc(order * SS_TILE, sizeof *w.second);
    w.work = ss_alloc(ss_grillage_work(g, NULL), sizeof *w.work);
    w.opening = ss_alloc((size_t)task->model->n, sizeof *w.opening);
    w.referred = ss_alloc((size_t)task->references->count * order * SS_TILE, sizeof *w.referred);
    if (w.referred == NULL || w.z == NULL || w.second == NULL || w.work == NULL || w.opening == NULL) {
        status = ss_no_memory(error);
        goto done;
    }
    SS_TRY(ss_axle_lines_create(task->plans, &w.lines, error));
    SS_TRY(ss_contact_finder_create(task->model, task->met, &w.finder, error));
    /* The searcher keeps addresses of its neighbours, so it is made where the worker stays. */
    *out = w;
    w = (ss_envelope_worker){0};
    status = ss_searcher_create(&out->lines, &out->finder, &out->searcher, error);
    if (status != SS_OK) {
        ss_envelope_worker_destroy(out);
    }
done:
    ss_envelope_worker_destroy(&w);
    return status;
}

void ss_envelope_worker_destroy(ss_envelope_worker *worker) {
    ss_searcher_destroy(&worker->searcher);
    ss_contact_finder_destroy(&worker->finder);
    ss_axle_lines_destroy(&worker->lines);
    ss_free(worker->z);
    ss_free(worker->second);
    ss_free(worker->work);
    ss_free(worker->opening);
    ss_free(worker->referred);
    *worker = (ss_envelope_worker){0};
}

/* ---- fields ------------------------------------------------------------------------------------- */

static void solve_members(ss_envelope_worker *w, const ss_effect *effects, int count) {
    const ss_mesh *mesh = w->task->plans->mesh;
    memset(w->z, 0, (size_t)mesh->order * SS_TILE * sizeof *w->z);
    for (int lane = 0; lane < count; lane++) {
        ss_row row;
        ss_mesh_effect_row(mesh, &effects[lane], &row);
        for (int i = 0; i < row.count; i++) w->z[(size_t)row.dof[i] * SS_TILE + (size_t)lane] += row.value[i];
    }
    ss_grillage_solve(w->task->permanent->grillage, NULL, w->z, w->work);
}

/* Spring effects: the field of a settlement of the spring is the influence field of its force (Betti). */
static void solve_springs(ss_envelope_worker *w, const ss_effect *effects, int count) {
    const ss_mesh *mesh = w->task->plans->mesh;
    const ss_grillage *g = w->task->permanent->grillage;
    const size_t size = (size_t)mesh->order * SS_TILE;
    int first[SS_TILE], second[SS_TILE], lane_of[SS_TILE], seconds = 0;
    for (int lane = 0; lane < count; lane++) {
        first[lane] = effects[lane].spring;
        const int other = ss_effect_second_spring(mesh, &effects[lane]);
        if (other >= 0) {
            lane_of[seconds] = lane;
            second[seconds++] = other;
        }
    }
    memset(w->z, 0, size * sizeof *w->z);
    ss_grillage_settle(g, NULL, count, first, w->z, w->work);
    if (seconds > 0) {
        memset(w->second, 0, size * sizeof *w->second);
        ss_grillage_settle(g, NULL, seconds, second, w->second, w->work);
    }
    for (size_t dof = 0; dof < (size_t)mesh->order; dof++) {
        for (int i = 0; i < seconds; i++)
            w->z[dof * SS_TILE + (size_t)lane_of[i]] += w->second[dof * SS_TILE + (size_t)i];
    }
    for (int lane = 0; lane < count; lane++) {
        const double factor = ss_effect_spring_factor(mesh, &effects[lane]);
        for (size_t dof = 0; dof < (size_t)mesh->order; dof++) w->z[dof * SS_TILE + (size_t)lane] *= factor;
    }
}

static double nothing_of(const ss_effect *effect) {
    return effect->kind == SS_EFFECT_DEFLECTION ? NOTHING_DEFLECTION : NOTHING_FORCE;
}

/* What dead load and openings do to each effect, into the envelope and the searcher. */
static void fill_openings(ss_envelope_worker *w, const ss_effect_tile *tile, const ss_effect *effects,
                          ss_envelope *out) {
    const ss_contact_model *m = w->task->model;
    const size_t n = (size_t)m->n;
    memset(w->searcher.opening, 0, n * SS_TILE * sizeof *w->searcher.opening);
    for (int lane = 0; lane < tile->count; lane++) {
        const size_t e = (size_t)tile->index[lane];
        double *const opening = out->opening + e * n;
        ss_contact_model_opening(m, &effects[lane], opening);
        out->dead_closed[e] = ss_contact_model_dead(m, &effects[lane]);
        out->dead[e] = out->dead_closed[e];
        for (size_t k = 0; k < n; k++) {
            w->searcher.opening[k * SS_TILE + (size_t)lane] = opening[k];
            out->dead[e] += opening[k] * m->u_dead[k];
        }
        w->searcher.tiny[lane] = nothing_of(&effects[lane]);
    }
}

/* The influence lines of each plan have the openings of its reference state in them. */
static void fill_lines(ss_envelope_worker *w, const ss_effect_tile *tile, const ss_effect *effects) {
    const ss_references *r = w->task->references;
    const size_t size = (size_t)w->task->plans->mesh->order * SS_TILE;
    const double *fields[SS_REFERENCES_MOST];
    for (int i = 0; i < r->count; i++) {
        double *const field = w->referred + (size_t)i * size;
        ss_reference_field(&w->finder, r->state[i], w->searcher.opening, w->z, field);
        fields[i] = field;
    }
    ss_axle_lines_fill(&w->lines, fields, r->count, tile->springs ? NULL : effects, tile->count);
}

/* ---- results ------------------------------------------------------------------------------------ */

static ss_position position_of(const ss_found *found) {
    return (ss_position){found->track, found->x + SS_NUDGE * found->nudge, found->on_beam};
}

static bool same_section(const ss_effect *a, const ss_effect *b) {
    return a->member == b->member && a->index == b->index && a->at == b->at && a->before == b->before;
}

static ss_concurrent concurrent_of(const ss_effect *effects, int count, int lane, const double *total) {
    const double none = (double)NAN;
    ss_concurrent with = {none, none, none, none};
    for (int i = 0; i < count; i++) {
        if (!same_section(&effects[i], &effects[lane])) {
            continue;
        }
        switch (effects[i].kind) {
        case SS_EFFECT_MOMENT: with.moment = total[i]; break;
        case SS_EFFECT_SHEAR: with.shear = total[i]; break;
        case SS_EFFECT_TORSION: with.torsion = total[i]; break;
        case SS_EFFECT_DEFLECTION: with.deflection = total[i]; break;
        case SS_EFFECT_REACTION:
        case SS_EFFECT_WEB_PLUS:
        case SS_EFFECT_WEB_MINUS: break;
        }
    }
    return with;
}

/* One result of a tile. */
typedef struct extreme_place {
    const ss_effect_tile *tile;
    const ss_effect *effects;
    int lane, traffic, side;
} extreme_place;

static ss_status write_extreme(ss_envelope_worker *w, const extreme_place *place, ss_envelope *out,
                               ss_error *error) {
    const ss_effect_tile *tile = place->tile;
    const int lane = place->lane, side = place->side;
    const size_t at = ss_envelope_at(out, tile->index[lane], place->traffic, side);
    ss_search_values values;
    const double none = (double)NAN;
    ss_extreme *const extreme = &out->extremes[at];
    *extreme = (ss_extreme){.position = {.track = -1}, .with = {none, none, none, none}};
    for (int k = 0; k < SS_CANDIDATES; k++) {
        const ss_found *found = &w->found.best[lane][side][k];
        out->candidates[at * SS_CANDIDATES + (size_t)k] = position_of(found);
        if (found->track < 0 || found->value == 0.0) {
            out->candidates[at * SS_CANDIDATES + (size_t)k].track = -1;
            continue;
        }
        const ss_status status =
            ss_search_value(&w->searcher, &w->task->rolls[found->track], found, &values, error);
        if (status != SS_OK) {
            return status;
        }
        out->candidate_closed[at * SS_CANDIDATES + (size_t)k] = values.closed[lane];
        if (k == 0) {
            *extreme = (ss_extreme){.value = values.total[lane],
                                    .position = position_of(found),
                                    .closed = values.closed[lane],
                                    .lifted = values.lifted,
                                    .with = concurrent_of(place->effects, tile->count, lane, values.total)};
        }
    }
    return SS_OK;
}

ss_status ss_envelope_tile(ss_envelope_worker *w, const ss_effect_tile *tile, ss_envelope *out,
                           ss_error *error) {
    const ss_placements *placements = w->task->placements;
    ss_status status = SS_OK;
    ss_effect effects[SS_TILE];
    for (int lane = 0; lane < tile->count; lane++) effects[lane] = out->effects[tile->index[lane]];
    if (tile->springs) {
        solve_springs(w, effects, tile->count);
    } else {
        solve_members(w, effects, tile->count);
    }
    w->searcher.lanes = tile->count;
    w->searcher.keep_candidates = w->task->contact_changes;
    fill_openings(w, tile, effects, out);
    fill_lines(w, tile, effects);
    for (int t = 0; t < placements->traffic_count; t++) {
        const ss_traffic *traffic = &placements->traffic[t];
        SS_TRY(ss_search(&w->searcher, w->task->rolls + traffic->first_track, traffic->track_count, &w->found,
                         error));
        for (int lane = 0; lane < tile->count; lane++) {
            for (int side = 0; side < 2; side++) {
                SS_TRY(write_extreme(w, &(extreme_place){tile, effects, lane, t, side}, out, error));
            }
        }
    }
done:
    return status;
}
