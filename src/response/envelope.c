/* envelope.c - extremes of every effect under all traffic: contact along every track first, then tiles of
 * effects. */
#include "sillspan/envelope.h"

#include <stdint.h>
#include <string.h>

#include "base/try.h"
#include "response/course.h"
#include "response/envelope_tile.h"
#include "response/state.h"
#include "sillspan/memory.h"

void ss_envelope_destroy(ss_envelope *envelope) {
    if (envelope == NULL) {
        return;
    }
    ss_free(envelope->effects);
    ss_free(envelope->dead);
    ss_free(envelope->extremes);
    ss_free(envelope->traffic_tip);
    ss_arena_destroy(&envelope->arena);
    *envelope = (ss_envelope){0};
}

static ss_status envelope_create(int contact_count, const ss_effect *effects, int count, int traffic_count,
                                 ss_envelope *e, ss_error *error) {
    const size_t size = (size_t)count;
    *e = (ss_envelope){.effect_count = count, .contact_count = contact_count, .traffic_count = traffic_count};
    e->effects = ss_alloc(size, sizeof *e->effects);
    e->dead = ss_alloc(size, sizeof *e->dead);
    e->extremes = ss_alloc(size * (size_t)traffic_count * 2, sizeof *e->extremes);
    e->traffic_tip = ss_alloc((size_t)traffic_count, sizeof *e->traffic_tip);
    for (int t = 0; e->traffic_tip != NULL && t < traffic_count; t++) e->traffic_tip[t].track = -1;
    if (e->traffic_tip == NULL || e->effects == NULL || e->dead == NULL || e->extremes == NULL) {
        return ss_no_memory(error);
    }
    memcpy(e->effects, effects, size * sizeof *effects);
    return SS_OK;
}

/* ---- tracks ------------------------------------------------------------------------------------- */

static void note_contact(const ss_roll *roll, int traffic, ss_envelope *e) {
    e->contact_matters = e->contact_matters || roll->contact_changes || roll->tips;
    if (!roll->tips) {
        return;
    }
    const ss_position here = {.track = roll->track, .x = roll->tip_x, .on_beam = roll->tip_on_beam};
    if (!e->tips) {
        e->tips = true;
        e->tip = here;
    }
    if (e->traffic_tip[traffic].track < 0) {
        e->traffic_tip[traffic] = here;
    }
}

/*
 * Through the deck effects are linear in y between its kinks, as long as no bearing lifts: fine tracks can
 * then only govern over floor beams. Where bearings do lift, tracks are close enough for what bends in
 * between (placements.c). Loadings that are only for some effects have no roll.
 */
static ss_status build_rolls(const ss_courses *courses, const ss_placements *placements,
                             ss_contact_finder *finder, ss_roll *rolls, ss_envelope *e, ss_error *error) {
    const ss_axle_plans *plans = courses->plans;
    ss_status status = SS_OK;
    for (int i = 0; i < placements->traffic_count; i++) {
        const ss_traffic *traffic = &placements->traffic[i];
        for (int t = traffic->first_track; t < traffic->first_track + traffic->track_count; t++) {
            const bool points_only = placements->tracks[t].fine && !plans->mesh->bridge->deck.along;
            const ss_course *course = &courses->items[courses->of_track[t]];
            const ss_roll_task task = {plans, course, placements, t, points_only, finder};
            if (placements->trains[placements->tracks[t].train].use != SS_USE_ALL) {
                continue;
            }
            if (rolls[t].plan == NULL) {
                SS_TRY(ss_roll_build(&task, &rolls[t], error));
                SS_TRY(ss_roll_blocks(plans, finder, &rolls[t], error));
            }
            note_contact(&rolls[t], i, e);
        }
    }
done:
    return status;
}

/* ---- tiles -------------------------------------------------------------------------------------- */

typedef struct pack_run {
    const ss_envelope_task *task;
    const ss_effect_pack *packs;
    int count, done;
    const ss_envelope_options *options;
    ss_envelope *out;
    ss_status status; /* of the first pack that failed */
    int failed;
    ss_error error;
} pack_run;

static void finish_pack(pack_run *run, int pack, ss_status status, const ss_error *error) {
    if (status != SS_OK && (run->status == SS_OK || pack < run->failed)) {
        run->status = status;
        run->failed = pack;
        run->error = *error;
    }
    run->done++;
    if (run->options->progress != NULL) {
        run->options->progress(run->options->context, (double)run->done / (double)run->count);
    }
}

/* Each pack writes its own results only, so that the number of threads does not matter to them. */
static void run_packs(pack_run *run) {
#ifdef _OPENMP
#pragma omp parallel
#endif
    {
        ss_envelope_worker worker = {0};
        ss_error error = {0};
        const ss_status made = ss_envelope_worker_create(run->task, &worker, &error);
#ifdef _OPENMP
#pragma omp for schedule(dynamic, 1)
#endif
        for (int i = 0; i < run->count; i++) {
            const ss_status status =
                made != SS_OK ? made : ss_envelope_pack(&worker, &run->packs[i], run->out, &error);
#ifdef _OPENMP
#pragma omp critical(sillspan_envelope)
#endif
            finish_pack(run, i, status, &error);
        }
        ss_envelope_worker_destroy(&worker);
    }
}

static ss_status search_all(ss_envelope_task *task, const ss_envelope_options *options, ss_envelope *e,
                            ss_error *error) {
    ss_effect_pack *const packs = ss_alloc(ss_effect_packs_most(e->effect_count), sizeof *packs);
    if (packs == NULL) {
        return ss_no_memory(error);
    }
    pack_run run = {.task = task, .packs = packs, .options = options, .out = e};
    run.count = ss_effect_packs_make(e->effects, e->effect_count, packs);
    for (int i = 0; i < run.count; i++) {
        task->tiles_most = packs[i].tile_count > task->tiles_most ? packs[i].tile_count : task->tiles_most;
    }
    if (run.count > 0) {
        run_packs(&run);
    }
    ss_free(packs);
    for (size_t i = 0; i < (size_t)e->effect_count * (size_t)e->traffic_count * 2; i++) {
        e->contact_matters = e->contact_matters || (e->extremes[i].load != NULL && e->extremes[i].lifted);
    }
    return run.status == SS_OK ? SS_OK : ss_error_set(error, run.status, "%s", run.error.message);
}

/* Tips that were only met under lane loads and trucks abreast: of the first traffic. */
static void note_tips(ss_envelope *e, const size_t *tip_at) {
    for (int t = 0; t < e->traffic_count; t++) {
        if (tip_at[t] == SIZE_MAX) {
            continue;
        }
        e->contact_matters = true;
        if (!e->tips) {
            e->tips = true;
            e->tip = e->traffic_tip[t];
        }
    }
}

/* ---- public ------------------------------------------------------------------------------------- */

ss_status ss_envelope_compute(const ss_permanent *permanent, const ss_placements *placements,
                              const ss_effect *effects, int count, const ss_envelope_options *options,
                              ss_envelope *out, ss_error *error) {
    const ss_mesh *mesh = ss_grillage_mesh(permanent->grillage);
    ss_status status = SS_OK;
    ss_contact_model model = {0};
    ss_axle_plans plans = {0};
    ss_contact_finder finder = {0};
    ss_courses courses = {0};
    ss_point_groups groups = {0};
    ss_loaded loaded = {0};
    size_t *tip_at = NULL;
    ss_envelope e = {0};
    ss_roll *rolls = NULL;
    bool springs = false;
    for (int i = 0; i < count; i++) springs = springs || ss_effect_of_spring(&effects[i]);
    SS_TRY(ss_contact_model_create(permanent, options, springs, &model, error));
    SS_TRY(ss_axle_plans_build(mesh, placements, &plans, error));
    SS_TRY(ss_courses_build(&plans, placements, &courses, error));
    SS_TRY(ss_contact_model_lines(&model, &plans, error));
    SS_TRY(envelope_create(model.n, effects, count, placements->traffic_count, &e, error));
    e.extent = options->extent;
    rolls = ss_alloc((size_t)placements->track_count, sizeof *rolls);
    tip_at = ss_alloc((size_t)placements->traffic_count, sizeof *tip_at);
    if (rolls == NULL || tip_at == NULL) {
        status = ss_no_memory(error);
        goto done;
    }
    SS_TRY(ss_contact_finder_create(&model, NULL, &finder, error));
    SS_TRY(build_rolls(&courses, placements, &finder, rolls, &e, error));
    SS_TRY(ss_point_groups_build(&plans, placements, rolls, &groups, error));
    SS_TRY(ss_loaded_create(&model, placements, &courses, rolls, options->extent, &loaded, error));
    for (int i = 0; i < placements->traffic_count; i++) tip_at[i] = SIZE_MAX;
    ss_envelope_task task = {.permanent = permanent,
                             .placements = placements,
                             .plans = &plans,
                             .model = &model,
                             .rolls = rolls,
                             .groups = &groups,
                             .met = &finder,
                             .loaded = &loaded,
                             .tip_at = tip_at};
    SS_TRY(search_all(&task, options, &e, error));
    note_tips(&e, tip_at);
    SS_TRY(ss_envelope_check(&model, placements, options, &e, error));
    *out = e;
    e = (ss_envelope){0};
done:
    for (int t = 0; rolls != NULL && t < placements->track_count; t++) ss_roll_destroy(&rolls[t]);
    ss_free(rolls);
    ss_free(tip_at);
    ss_loaded_destroy(&loaded);
    ss_contact_finder_destroy(&finder);
    ss_point_groups_destroy(&groups);
    ss_courses_destroy(&courses);
    ss_envelope_destroy(&e);
    ss_axle_plans_destroy(&plans);
    ss_contact_model_destroy(&model);
    return status;
}
