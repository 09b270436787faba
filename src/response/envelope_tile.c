/* envelope_tile.c - a pack of effects through influence fields, search and results. */
#include "response/envelope_tile.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/course.h"
#include "response/state.h"
#include "sillspan/memory.h"

ss_status ss_envelope_worker_create(const ss_envelope_task *task, ss_envelope_worker *out, ss_error *error) {
    const size_t size = (size_t)task->plans->mesh->order * SS_TILE, tiles = (size_t)task->tiles_most;
    const size_t n = (size_t)task->model->n;
    ss_status status = SS_OK;
    ss_envelope_worker w = {.task = task};
    w.z = ss_alloc(tiles * size, sizeof *w.z);
    w.second = ss_alloc(size, sizeof *w.second);
    w.work = ss_alloc(ss_grillage_work(task->permanent->grillage, NULL), sizeof *w.work);
    w.opening = ss_alloc(tiles * n * SS_TILE, sizeof *w.opening);
    w.change = ss_alloc(n, sizeof *w.change);
    w.found = ss_alloc(tiles * SS_TILE * (size_t)task->placements->traffic_count * 2, sizeof *w.found);
    const size_t kept = tiles * SS_TILE * (size_t)task->loaded->count * 2;
    w.kept = ss_alloc(kept, sizeof *w.kept);
    w.kept_change = ss_alloc(kept * n, sizeof *w.kept_change);
    if (w.z == NULL || w.second == NULL || w.work == NULL || w.opening == NULL || w.change == NULL ||
        w.found == NULL || w.kept == NULL || w.kept_change == NULL) {
        status = ss_no_memory(error);
        goto done;
    }
    for (size_t i = 0; i < kept; i++) w.kept[i].change = w.kept_change + i * n;
    SS_TRY(ss_axle_lines_create(task->plans, &w.lines, error));
    SS_TRY(ss_axle_slack_create(task->plans, &task->groups->strips, &w.slack, error));
    SS_TRY(ss_contact_finder_create(task->model, task->met, &w.finder, error));
    /* The searcher keeps addresses of its neighbours, so it is made where the worker stays. */
    *out = w;
    w = (ss_envelope_worker){0};
    const ss_search_task search = {&out->lines,
                                   &out->slack,
                                   &out->finder,
                                   task->placements,
                                   task->rolls,
                                   task->groups,
                                   task->placements->traffic_count,
                                   NULL};
    status = ss_searcher_create(&search, &out->searcher, error);
    if (status == SS_OK) {
        status = ss_loaded_worker_create(task->loaded, &out->lines, &out->finder, &out->loaded, error);
    }
    if (status != SS_OK) {
        ss_envelope_worker_destroy(out);
    }
done:
    ss_envelope_worker_destroy(&w);
    return status;
}

void ss_envelope_worker_destroy(ss_envelope_worker *worker) {
    ss_loaded_worker_destroy(&worker->loaded);
    ss_searcher_destroy(&worker->searcher);
    ss_contact_finder_destroy(&worker->finder);
    ss_axle_slack_destroy(&worker->slack);
    ss_axle_lines_destroy(&worker->lines);
    ss_free(worker->z);
    ss_free(worker->second);
    ss_free(worker->work);
    ss_free(worker->opening);
    ss_free(worker->change);
    ss_free(worker->found);
    ss_free(worker->kept);
    ss_free(worker->kept_change);
    *worker = (ss_envelope_worker){0};
}

/* ---- one tile ----------------------------------------------------------------------------------- */

static double nothing_of(const ss_effect *effect) {
    return effect->kind == SS_EFFECT_DEFLECTION ? SS_NOTHING_DEFLECTION : SS_NOTHING_FORCE;
}

/* Whether contact spring i of the mesh is open; one that can pull never is. */
static bool is_open(const ss_contact_model *m, const bool *open, int spring) {
    for (int k = 0; k < m->n; k++) {
        if (m->springs[k] == spring) {
            return open[k];
        }
    }
    return false;
}

/*
 * A reaction as the state of contact has it. It is a sum of large parts that openings take off again, so that
 * their rounding may be left: of an open bearing it is nothing exactly, and a closed one that only pushes has
 * none below that, or its state would not hold.
 */
static double reaction_of(const ss_contact_model *m, const ss_effect *effect, const bool *open, double sum) {
    const ss_mesh *mesh = ss_grillage_mesh(m->permanent->grillage);
    if (effect->kind != SS_EFFECT_REACTION || open == NULL || !mesh->spring[effect->spring].contact) {
        return sum;
    }
    const int second = ss_effect_second_spring(mesh, effect);
    const bool lifted = is_open(m, open, effect->spring) && (second < 0 || is_open(m, open, second));
    return lifted || sum < 0.0 ? 0.0 : sum;
}

void ss_envelope_settle(const ss_contact_model *m, const ss_effect *effect, const bool *open, double dead,
                        double *live) {
    const double sum = dead + m->live_factor * *live;
    const double settled = reaction_of(m, effect, open, sum);
    if (settled != sum) {
        *live = 0.0 - dead / m->live_factor;
    }
}

/* What dead load and openings do to each effect, into the envelope and for the search. */
static void fill_openings(ss_envelope_worker *w, const ss_effect_tile *tile, double *by_lane,
                          ss_envelope *out) {
    const ss_contact_model *m = w->task->model;
    const size_t n = (size_t)m->n;
    memset(by_lane, 0, n * SS_TILE * sizeof *by_lane);
    for (int lane = 0; lane < tile->count; lane++) {
        const size_t e = (size_t)tile->index[lane];
        ss_contact_model_opening(m, &out->effects[e], w->change);
        out->dead[e] = ss_contact_model_dead(m, &out->effects[e]);
        for (size_t k = 0; k < n; k++) {
            by_lane[k * SS_TILE + (size_t)lane] = w->change[k];
            out->dead[e] += w->change[k] * m->u_dead[k];
        }
        out->dead[e] = reaction_of(m, &out->effects[e], m->open_dead, out->dead[e]);
        w->searcher.tiny[lane] = nothing_of(&out->effects[e]);
    }
}

static void effects_of(const ss_effect_tile *tile, const ss_envelope *e, ss_effect effects[SS_TILE]) {
    for (int lane = 0; lane < tile->count; lane++) effects[lane] = e->effects[tile->index[lane]];
}

static ss_position position_of(const ss_found *found) {
    return (ss_position){
        .track = found->track, .x = found->x + SS_NUDGE * found->nudge, .on_beam = found->on_beam};
}

/* The effect with all bearings closed at a found position: less what the openings give (`opening`: n x
 * SS_TILE). */
static double closed_value(const double *opening, int lane, const ss_search_place *place, double total) {
    double closed = total;
    for (int i = 0; i < place->openings.count; i++) {
        closed -= opening[place->openings.index[i] * SS_TILE + lane] * place->openings.value[i];
    }
    return closed;
}

static ss_status write_extreme(ss_envelope_worker *w, const ss_found *found, int lane, size_t at,
                               ss_envelope *out) {
    const size_t effect = at / 2 / (size_t)out->traffic_count;
    ss_extreme *const extreme = &out->extremes[at];
    ss_search_place place;
    *extreme = (ss_extreme){.position = {.track = -1}, .with = {SS_NAN, SS_NAN, SS_NAN, SS_NAN}};
    if (found->track < 0 || found->value == 0.0) {
        return SS_OK;
    }
    const ss_status status = ss_search_place_of(&w->searcher, found, &place);
    if (status != SS_OK) {
        return status;
    }
    double total = at % 2 == 1 ? found->value : -found->value;
    const double closed = closed_value(w->searcher.opening, lane, &place, total);
    ss_envelope_settle(w->task->model, &out->effects[effect], place.open, out->dead[effect], &total);
    if (total != 0.0) {
        extreme->value = total;
        extreme->position = position_of(found);
        extreme->closed = closed;
        extreme->lifted = place.lifted;
    }
    return SS_OK;
}

/* The worst position of each lane, as it was found. */
static ss_found *found_of(const ss_envelope_worker *w, int tile, int lane, int traffic, int side) {
    const size_t traffics = (size_t)w->task->placements->traffic_count;
    return w->found + (((size_t)tile * SS_TILE + (size_t)lane) * traffics + (size_t)traffic) * 2 +
           (size_t)side;
}

static ss_status search_tile(ss_envelope_worker *w, const ss_effect_pack *pack, int index, ss_envelope *out,
                             ss_error *error) {
    const ss_effect_tile *tile = &pack->tile[index];
    const size_t n = (size_t)w->task->model->n;
    double *const z = w->z + (size_t)index * (size_t)w->task->plans->mesh->order * SS_TILE;
    double *const opening = w->opening + (size_t)index * n * SS_TILE;
    ss_status status = SS_OK;
    ss_effect *const effects = w->effects; /* what accompanies them is read off the lines later */
    effects_of(tile, out, effects);
    ss_envelope_fields(w->task->permanent, effects, tile->count, z, w->second, w->work);
    fill_openings(w, tile, opening, out);
    w->searcher.lanes = tile->count;
    w->searcher.opening = opening;
    ss_axle_lines_begin(&w->lines, z, pack->springs ? NULL : effects, tile->count);
    SS_TRY(ss_search(&w->searcher, error));
    for (int lane = 0; lane < tile->count; lane++) {
        for (int k = 0; k < 2 * w->task->placements->traffic_count; k++) {
            const int traffic = k / 2, side = k % 2;
            const ss_found *const best = &w->searcher.found[traffic].best[lane][side];
            const size_t at = ss_envelope_at(out, tile->index[lane], traffic, side);
            *found_of(w, index, lane, traffic, side) = *best;
            if (write_extreme(w, best, lane, at, out) != SS_OK) {
                status = ss_no_memory(error);
                goto done;
            }
        }
    }
    SS_TRY(ss_envelope_loaded(
        w, index, tile, &(ss_loaded_tile){effects, tile->count, pack->springs, z, opening, w->searcher.tiny},
        out, error));
done:
    return status;
}

/* ---- concurrent effects ------------------------------------------------------------------------- */

static double *concurrent_of(ss_concurrent *with, ss_effect_kind kind) {
    switch (kind) {
    case SS_EFFECT_MOMENT: return &with->moment;
    case SS_EFFECT_SHEAR: return &with->shear;
    case SS_EFFECT_TORSION: return &with->torsion;
    case SS_EFFECT_DEFLECTION: return &with->deflection;
    case SS_EFFECT_REACTION:
    case SS_EFFECT_WEB_PLUS:
    case SS_EFFECT_WEB_MINUS: break;
    }
    return NULL;
}

/*
 * Value of one lane of the tile that the lines are of. Where the effect that governs goes on as an axle
 * passes a place, another may jump there: it is taken just before.
 */
static double lane_value(ss_envelope_worker *w, const double *opening, int lane, const ss_found *found,
                         const ss_search_place *place) {
    ss_term terms[SS_ROLL_TERMS];
    const ss_roll *roll = &w->task->rolls[found->track];
    const bool left = found->nudge < 0 || (found->nudge == 0 && !found->on_beam);
    const int count = ss_roll_terms(&w->lines, roll, place->at, left, terms);
    double sum = 0.0;
    for (int i = 0; i < count; i++) sum += terms[i].weight * terms[i].row[lane];
    for (int i = 0; i < place->openings.count; i++) {
        sum += place->openings.value[i] * opening[place->openings.index[i] * SS_TILE + lane];
    }
    return sum;
}

/* What the effects of tile `other`, whose lines are there, are at the extremes of `tile`. */
static ss_status accompany(ss_envelope_worker *w, const ss_effect_pack *pack, int index, int other,
                           ss_envelope *out) {
    const ss_effect_tile *tile = &pack->tile[index], *beside = &pack->tile[other];
    const double *const opening = w->opening + (size_t)other * (size_t)w->task->model->n * SS_TILE;
    for (int lane = 0; lane < tile->count; lane++) {
        for (int k = 0; k < beside->count; k++) {
            const ss_effect_kind kind = out->effects[beside->index[k]].kind;
            if (beside->section[k] != tile->section[lane] ||
                concurrent_of(&(ss_concurrent){0}, kind) == NULL) {
                continue;
            }
            for (int i = 0; i < 2 * out->traffic_count; i++) {
                const ss_found *const found = found_of(w, index, lane, i / 2, i % 2);
                ss_search_place place;
                ss_extreme *const extreme =
                    &out->extremes[ss_envelope_at(out, tile->index[lane], i / 2, i % 2)];
                if (extreme->value == 0.0) {
                    continue;
                }
                if (extreme->load != NULL) {
                    *concurrent_of(&extreme->with, kind) = ss_envelope_loaded_value(
                        w, ss_envelope_kept(w, index, lane, i / 2, i % 2), extreme->load, opening, k);
                    continue;
                }
                const ss_status status = ss_search_place_of(&w->searcher, found, &place);
                if (status != SS_OK) {
                    return status;
                }
                *concurrent_of(&extreme->with, kind) = lane_value(w, opening, k, found, &place);
            }
        }
    }
    return SS_OK;
}

ss_status ss_envelope_pack(ss_envelope_worker *w, const ss_effect_pack *pack, ss_envelope *out,
                           ss_error *error) {
    const size_t size = (size_t)w->task->plans->mesh->order * SS_TILE;
    ss_status status = SS_OK;
    for (int i = 0; i < pack->tile_count; i++) {
        SS_TRY(search_tile(w, pack, i, out, error));
        for (int k = 0; k <= i; k++) SS_TRY(accompany(w, pack, k, i, out));
    }
    for (int i = 0; i + 1 < pack->tile_count; i++) {
        effects_of(&pack->tile[i], out, w->effects);
        ss_axle_lines_begin(&w->lines, w->z + (size_t)i * size, pack->springs ? NULL : w->effects,
                            pack->tile[i].count);
        for (int p = 0; p < w->task->plans->count; p++) ss_axle_lines_points(&w->lines, p);
        for (int k = i + 1; k < pack->tile_count; k++) SS_TRY(accompany(w, pack, k, i, out));
    }
done:
    return status == SS_ERROR_MEMORY ? ss_no_memory(error) : status;
}
