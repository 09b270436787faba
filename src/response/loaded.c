/* loaded.c - what a search with lane loads and trucks abreast needs: rolls within a pattern of bearings,
 * places across, room of a thread. */
#include "response/loaded.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/course.h"
#include "response/state.h"
#include "response/trains.h"
#include "sillspan/memory.h"

/* ---- for all threads ---------------------------------------------------------------------------- */

static bool is_loading(const ss_placements *placements, int track) {
    const ss_vehicle *const train = &placements->trains[placements->tracks[track].train];
    return train->lane_N_m > 0.0 || train->area_N_m2 > 0.0 || train->use != SS_USE_ALL;
}

/* Whether a traffic is searched here: some of its trains have a uniform load or are for some effects only, or
 * it is of trucks abreast and they are asked for. */
static bool is_loaded(const ss_placements *placements, const ss_traffic *traffic, ss_envelope_extent extent) {
    bool any = traffic->lane_count[0] > 0 && extent == SS_EXTENT_ALL;
    for (int t = traffic->first_track; t < traffic->first_track + traffic->track_count; t++) {
        any = any || is_loading(placements, t);
    }
    return any;
}

/* Effects are linear across between the kinks of the deck: fine tracks can only govern over floor beams. */
static ss_status add_roll(ss_loaded *l, const ss_courses *courses, int track, ss_error *error) {
    const ss_axle_plans *const plans = courses->plans;
    const ss_roll_task task = {plans,
                               &courses->items[courses->of_track[track]],
                               l->placements,
                               track,
                               l->placements->tracks[track].fine && !plans->mesh->bridge->deck.along,
                               &l->finder};
    if (l->rolls[track].plan != NULL) {
        return SS_OK;
    }
    const ss_status status = ss_roll_build(&task, &l->rolls[track], error);
    return status == SS_OK ? ss_roll_blocks(plans, &l->finder, &l->rolls[track], error) : status;
}

static ss_status add_side(ss_loaded *l, const ss_courses *courses, int first, int count, ss_loaded_side *side,
                          ss_error *error) {
    ss_status status = SS_OK;
    const size_t size = (size_t)count + 1;
    *side = (ss_loaded_side){.first_track = first,
                             .track_count = count,
                             .y = ss_arena_alloc(&l->arena, size, sizeof *side->y),
                             .slot = ss_arena_alloc(&l->arena, size, sizeof *side->slot)};
    SS_TRY(side->y == NULL || side->slot == NULL ? ss_no_memory(error) : SS_OK);
    for (int i = 0; i < count; i++) {
        SS_TRY(add_roll(l, courses, first + i, error));
        side->y[side->slot_count++] = l->placements->tracks[first + i].y;
    }
    ss_sort_unique(side->y, &side->slot_count, 1e-9);
    for (int i = 0; i < count; i++) {
        while (side->slot[i] + 1 < side->slot_count &&
               side->y[side->slot[i] + 1] <= l->placements->tracks[first + i].y + 1e-9) {
            side->slot[i]++;
        }
    }
done:
    return status;
}

static ss_status add_traffic(ss_loaded *l, const ss_courses *courses, int index, ss_error *error) {
    const ss_traffic *const traffic = &l->placements->traffic[index];
    ss_status status = SS_OK;
    for (int t = traffic->first_track; t < traffic->first_track + traffic->track_count; t++) {
        if (is_loading(l->placements, t)) {
            SS_TRY(add_roll(l, courses, t, error));
        }
    }
    int slots = 0;
    for (int which = 0; which < SS_ABREAST_MAX; which++) {
        ss_loaded_side *const side = &l->side[SS_ABREAST_MAX * (size_t)index + (size_t)which];
        SS_TRY(add_side(l, courses, traffic->lane_first[which], traffic->lane_count[which], side, error));
        slots += side->slot_count;
    }
    l->target_count = slots > l->target_count ? slots : l->target_count;
done:
    return status;
}

/* Neighbours across among tracks with stands: lists of each traffic are by train, direction and then y. */
static ss_status find_neighbours(ss_loaded *l, ss_error *error) {
    const size_t count = (size_t)l->placements->track_count + 1;
    l->left = ss_arena_alloc(&l->arena, count, sizeof *l->left);
    l->right = ss_arena_alloc(&l->arena, count, sizeof *l->right);
    if (l->left == NULL || l->right == NULL) {
        return ss_no_memory(error);
    }
    for (int t = 0, last = -1; t < l->placements->track_count; t++) {
        l->left[t] = l->right[t] = -1;
        if (l->rolls[t].block_count == 0) {
            continue;
        }
        const ss_track *const here = &l->placements->tracks[t], *const before =
                                                                    &l->placements
                                                                         ->tracks[last < 0 ? t : last];
        if (last >= 0 && before->train == here->train && before->backward == here->backward &&
            before->run == here->run && before->y < here->y) {
            l->left[t] = last;
            l->right[last] = t;
        }
        last = t;
    }
    return SS_OK;
}

/* Whether distances between axles vary in some train of a traffic of single trucks. */
static bool is_varied(const ss_bridge *bridge, const ss_placements *placements, const ss_traffic *traffic) {
    double least, most;
    for (int t = traffic->first_track; t < traffic->first_track + traffic->track_count; t++) {
        const int train = placements->tracks[t].train;
        for (int gap = 0; gap + 1 < placements->trains[train].axle_count; gap++) {
            if (ss_train_range(bridge, placements, train, gap, &least, &most)) {
                return true;
            }
        }
    }
    return false;
}

/* Traffic that is searched here, and why. */
static void number_traffic(ss_loaded *l, ss_envelope_extent extent) {
    const ss_bridge *const bridge = ss_grillage_mesh(l->model->permanent->grillage)->bridge;
    for (int i = 0; i < l->placements->traffic_count; i++) {
        const ss_traffic *const traffic = &l->placements->traffic[i];
        l->searched[i] = extent != SS_EXTENT_AXLES && is_loaded(l->placements, traffic, extent);
        l->varied[i] = is_varied(bridge, l->placements, traffic);
        l->number[i] = l->searched[i] || l->varied[i] ? l->count++ : -1;
    }
}

ss_status ss_loaded_create(const ss_contact_model *model, const ss_placements *placements,
                           const ss_courses *courses, const ss_roll *rolls, ss_envelope_extent extent,
                           ss_loaded *out, ss_error *error) {
    const size_t traffic = (size_t)placements->traffic_count;
    ss_status status = SS_OK;
    ss_loaded l = {.model = model,
                   .placements = placements,
                   .others = rolls,
                   .bare = extent == SS_EXTENT_AXLES,
                   .target_count = placements->traffic_count,
                   .still = {.permanent = model->permanent, .live_factor = model->live_factor}};
    *out = (ss_loaded){0};
    l.number = ss_arena_alloc(&l.arena, traffic + 1, sizeof *l.number);
    l.side = ss_arena_alloc(&l.arena, SS_ABREAST_MAX * traffic + 1, sizeof *l.side);
    l.searched = ss_arena_alloc(&l.arena, traffic + 1, sizeof *l.searched);
    l.varied = ss_arena_alloc(&l.arena, traffic + 1, sizeof *l.varied);
    SS_TRY(l.number == NULL || l.side == NULL || l.searched == NULL || l.varied == NULL ? ss_no_memory(error)
                                                                                        : SS_OK);
    number_traffic(&l, extent);
    if (l.count == 0) {
        goto done;
    }
    l.rolls = ss_alloc((size_t)placements->track_count, sizeof *l.rolls);
    SS_TRY(l.rolls == NULL ? ss_no_memory(error) : SS_OK);
    /* The finder keeps the address of its model, so both are made where they stay. */
    *out = l;
    l = (ss_loaded){0};
    status = ss_contact_finder_create(&out->still, NULL, &out->finder, error);
    for (int i = 0; i < placements->traffic_count && status == SS_OK; i++) {
        status = out->searched[i] ? add_traffic(out, courses, i, error) : SS_OK;
    }
    if (status == SS_OK) {
        status = find_neighbours(out, error);
    }
    if (status == SS_OK) {
        status = ss_point_groups_build(courses->plans, placements, out->rolls, &out->groups, error);
    }
    if (status == SS_OK) {
        status = ss_lane_reactions(courses->plans, placements, model, &out->reactions, error);
    }
    if (status != SS_OK) {
        ss_loaded_destroy(out);
    }
done:
    ss_arena_destroy(&l.arena);
    return status;
}

void ss_loaded_destroy(ss_loaded *loaded) {
    for (int t = 0; loaded->rolls != NULL && t < loaded->placements->track_count; t++) {
        ss_roll_destroy(&loaded->rolls[t]);
    }
    ss_free(loaded->rolls);
    ss_free(loaded->reactions);
    ss_contact_finder_destroy(&loaded->finder);
    ss_point_groups_destroy(&loaded->groups);
    ss_arena_destroy(&loaded->arena);
    *loaded = (ss_loaded){0};
}

/* ---- for one thread ----------------------------------------------------------------------------- */

static ss_status find_dead_state(ss_loaded_worker *w, ss_error *error) {
    const size_t n = (size_t)w->loaded->model->n;
    w->dead_state = -1;
    if (n == 0) {
        return SS_OK;
    }
    memset(w->live, 0, n * sizeof *w->live);
    return ss_contact_find(w->finder, w->live, &w->dead_state, w->change) == SS_ERROR_MEMORY
               ? ss_no_memory(error)
               : SS_OK;
}

static ss_status allocate(ss_loaded_worker *w, ss_error *error) {
    const size_t n = (size_t)w->loaded->model->n + 1, targets = (size_t)w->loaded->target_count + 1;
    const ss_axle_plans *const plans = w->closed->plans;
    w->seek = ss_alloc((size_t)2 * SS_TILE, sizeof *w->seek);
    w->z = ss_alloc((size_t)plans->mesh->order * SS_TILE, sizeof *w->z);
    w->weight = ss_alloc(n * SS_TILE, sizeof *w->weight);
    w->own_weight = ss_alloc(n, sizeof *w->own_weight);
    w->live = ss_alloc(n, sizeof *w->live);
    w->trucks = ss_alloc(n, sizeof *w->trucks);
    w->change = ss_alloc(n, sizeof *w->change);
    w->sum = ss_alloc(SS_LANES_MAX * targets, sizeof *w->sum);
    w->through = ss_alloc(SS_LANES_MAX * targets, sizeof *w->through);
    bool made = w->seek != NULL && w->z != NULL && w->weight != NULL && w->own_weight != NULL &&
                w->live != NULL && w->trucks != NULL && w->change != NULL && w->sum != NULL &&
                w->through != NULL;
    for (int i = 0; i < SS_ABREAST_MAX; i++) {
        w->best[i] = ss_alloc(targets, sizeof *w->best[i]);
        made = made && w->best[i] != NULL;
    }
    for (int i = 0; made && i < 2 * SS_TILE; i++) {
        w->seek[i].change = ss_alloc(n, sizeof *w->seek[i].change);
        made = w->seek[i].change != NULL;
    }
    return made ? SS_OK : ss_no_memory(error);
}

ss_status ss_loaded_worker_create(const ss_loaded *loaded, ss_axle_lines *closed, ss_contact_finder *finder,
                                  ss_loaded_worker *out, ss_error *error) {
    const ss_axle_plans *const plans = closed->plans;
    ss_status status = SS_OK;
    *out = (ss_loaded_worker){.loaded = loaded, .closed = closed, .finder = finder};
    if (loaded->count == 0) {
        return SS_OK;
    }
    SS_TRY(allocate(out, error));
    SS_TRY(find_dead_state(out, error));
    SS_TRY(ss_axle_lines_create(plans, &out->lines, error));
    SS_TRY(ss_axle_slack_create(plans, &loaded->groups.strips, &out->slack, error));
    SS_TRY(ss_lane_work_create(0, plans->interval_count, &out->sums, error));
    SS_TRY(ss_lane_work_create(loaded->model->n, plans->interval_count, &out->work, error));
    SS_TRY(ss_spread_work_create(plans, &out->spread, error));
    SS_TRY(ss_area_work_create(loaded->model->n, plans->interval_count, loaded->placements->area_line_count,
                               &out->areas, error));
    out->loads = (ss_search_loads){
        .work = &out->sums,
        .tile = {.lines = &out->lines, .contact = &loaded->still, .reactions = loaded->reactions}};
    const ss_search_task search = {&out->lines,          &out->slack,   (ss_contact_finder *)&loaded->finder,
                                   loaded->placements,   loaded->rolls, &loaded->groups,
                                   loaded->target_count, &out->loads};
    SS_TRY(ss_searcher_create(&search, &out->searcher, error));
done:
    if (status != SS_OK) {
        ss_loaded_worker_destroy(out);
    }
    return status;
}

void ss_loaded_worker_destroy(ss_loaded_worker *w) {
    for (int i = 0; w->seek != NULL && i < 2 * SS_TILE; i++) ss_free(w->seek[i].change);
    ss_free(w->seek);
    ss_free(w->z);
    ss_free(w->weight);
    ss_free(w->own_weight);
    ss_free(w->live);
    ss_free(w->trucks);
    ss_free(w->change);
    for (int i = 0; i < SS_ABREAST_MAX; i++) ss_free(w->best[i]);
    ss_free(w->sum);
    ss_free(w->through);
    ss_searcher_destroy(&w->searcher);
    ss_lane_work_destroy(&w->sums);
    ss_lane_work_destroy(&w->work);
    ss_area_work_destroy(&w->areas);
    ss_spread_work_destroy(&w->spread);
    ss_axle_slack_destroy(&w->slack);
    ss_axle_lines_destroy(&w->lines);
    *w = (ss_loaded_worker){0};
}
