/* envelope_loaded.c - extremes under lane loads and trucks abreast into the envelope. */
#include <math.h>
#include <stdint.h>
#include <string.h>

#include "base/try.h"
#include "response/envelope_tile.h"
#include "response/state.h"
#include "sillspan/memory.h"

ss_loaded_kept *ss_envelope_kept(const ss_envelope_worker *w, int tile, int lane, int traffic, int side) {
    const ss_loaded *const loaded = w->task->loaded;
    if (loaded->count == 0 || loaded->number[traffic] < 0) {
        return NULL;
    }
    return w->kept +
           (((size_t)tile * SS_TILE + (size_t)lane) * (size_t)loaded->count +
            (size_t)loaded->number[traffic]) *
               2 +
           (size_t)side;
}

/* The load of an extreme, in the envelope's memory. */
static ss_extreme_load *make_load(ss_envelope_worker *w, const ss_loaded_tile *tile,
                                  const ss_loaded_seek *seek, ss_envelope *out) {
    ss_extreme_load *load;
    ss_lane_stretch *stretch;
    ss_area_stretch *area;
    ss_vehicle *train = NULL;
    const bool spaced = seek->truck[0].train != NULL;
    const int areas = ss_loaded_area(&w->loaded, tile, seek);
#ifdef _OPENMP
#pragma omp critical(sillspan_envelope_loads)
#endif
    {
        load = ss_arena_alloc(&out->arena, 1, sizeof *load);
        stretch = ss_arena_alloc(&out->arena, (size_t)seek->stretch_count + 1, sizeof *stretch);
        area = ss_arena_alloc(&out->arena, (size_t)areas + 1, sizeof *area);
        train = spaced ? ss_arena_alloc(&out->arena, 1, sizeof *train) : NULL;
    }
    if (load == NULL || stretch == NULL || area == NULL || (spaced && train == NULL)) {
        return NULL;
    }
    memcpy(stretch, seek->stretch, (size_t)seek->stretch_count * sizeof *stretch);
    for (int i = 0; i < areas; i++) area[i] = w->loaded.areas.stretch[i];
    *load = (ss_extreme_load){.truck_count = seek->truck_count,
                              .stretch_count = seek->stretch_count,
                              .stretch = stretch,
                              .area_N_m2 = seek->area_N_m2,
                              .area_count = areas,
                              .area = area};
    for (int i = 0; i < seek->truck_count; i++) {
        const ss_found *const truck = &seek->truck[i];
        load->position[i] = (ss_position){
            .track = truck->track, .x = truck->x + SS_NUDGE * truck->nudge, .on_beam = truck->on_beam};
    }
    if (spaced) {
        *train = seek->spaced;
        load->position[0].train = train;
    }
    return load;
}

/* The tip that was met for the first extreme counts, whichever thread met it. */
static void note_tip(ss_envelope_worker *w, const ss_loaded_seek *seek, int traffic, size_t at,
                     ss_envelope *out) {
    if (!seek->tips) {
        return;
    }
#ifdef _OPENMP
#pragma omp critical(sillspan_envelope_loads)
#endif
    {
        size_t *const first = &w->task->tip_at[traffic];
        /* One that a truck alone brings about was noted before any other. */
        if (out->traffic_tip[traffic].track < 0 || at < *first) {
            if (out->traffic_tip[traffic].track < 0 || *first != SIZE_MAX) {
                out->traffic_tip[traffic] = seek->tip;
                *first = at;
            }
        }
    }
}

static ss_status write_extreme(ss_envelope_worker *w, const ss_loaded_tile *tile, const ss_loaded_seek *seek,
                               ss_loaded_kept *kept, size_t at, ss_envelope *out) {
    const ss_contact_model *const m = w->task->model;
    const size_t effect = at / 2 / (size_t)out->traffic_count;
    ss_extreme *const extreme = &out->extremes[at];
    double live = seek->side == 1 ? seek->value : -seek->value;
    if (seek->truck_count == 0) {
        return SS_OK;
    }
    const bool *const open = m->n > 0 && seek->state >= 0 ? w->finder.states[seek->state].open : NULL;
    ss_envelope_settle(m, &out->effects[effect], open, out->dead[effect], &live);
    if (!(fabs(live) > fabs(extreme->value))) {
        return SS_OK;
    }
    ss_extreme_load *const load = make_load(w, tile, seek, out);
    if (load == NULL) {
        return SS_ERROR_MEMORY;
    }
    extreme->value = live;
    extreme->closed = seek->closed;
    extreme->lifted = m->n > 0 && !ss_contact_is_dead_state(&w->finder, seek->state);
    extreme->load = load;
    extreme->position = load->position[0];
    kept->truck_count = seek->truck_count;
    memcpy(kept->truck, seek->truck, (size_t)seek->truck_count * sizeof *seek->truck);
    kept->truck[0].train = load->position[0].train;
    memcpy(kept->change, seek->change, (size_t)m->n * sizeof *kept->change);
    return SS_OK;
}

/* The traffic whose places of one truck alone a search begins with: its own, or of trucks abreast that of one
 * of them alone; -1: none. */
static int begins_with(const ss_placements *placements, int traffic) {
    const ss_traffic *const of = &placements->traffic[traffic];
    if (of->track_count > 0) {
        return traffic;
    }
    for (int t = 0; t < placements->traffic_count; t++) {
        if (placements->traffic[t].track_count > 0 && placements->traffic[t].vehicle == of->vehicle) {
            return t;
        }
    }
    return -1;
}

/* `plain`: of trucks that are not searched with loads of their lanes; else of those that are, and patterns of
 * all. */
static ss_status find_starts(ss_envelope_worker *w, int traffic, int count, bool plain,
                             ss_loaded_start *start) {
    const ss_placements *const placements = w->task->placements;
    const int from = begins_with(placements, traffic);
    for (int i = 0; i < 2 * SS_TILE; i++) {
        start[i] = (ss_loaded_start){.truck = {.track = -1}, .state = w->loaded.dead_state};
        const ss_found *const found = from < 0 ? NULL : &w->searcher.found[from].best[i / 2][i % 2];
        ss_search_place place;
        if (i >= 2 * count || found == NULL || found->track < 0) {
            continue;
        }
        if (ss_search_place_of(&w->searcher, found, &place) != SS_OK) {
            return SS_ERROR_MEMORY;
        }
        start[i].state = place.state;
        if (from == traffic && (w->task->loaded->rolls[found->track].plan != NULL) != plain) {
            start[i].truck = *found;
        }
    }
    return SS_OK;
}

/* What was found into the extremes that are less. */
static ss_status write_all(ss_envelope_worker *w, int index, const ss_effect_tile *tile,
                           const ss_loaded_tile *loaded, int traffic, ss_envelope *out) {
    ss_status status = SS_OK;
    for (int i = 0; i < 2 * tile->count && status == SS_OK; i++) {
        const size_t at = ss_envelope_at(out, tile->index[i / 2], traffic, i % 2);
        note_tip(w, &w->loaded.seek[i], traffic, at, out);
        status = write_extreme(w, loaded, &w->loaded.seek[i],
                               ss_envelope_kept(w, index, i / 2, traffic, i % 2), at, out);
    }
    return status;
}

/* Trucks whose lanes carry nothing were found in the search before this one; where distances between their
 * axles vary, the worst of them go on from there. */
static ss_status spread_plain(ss_envelope_worker *w, int index, const ss_effect_tile *tile,
                              const ss_loaded_tile *loaded, int traffic, ss_envelope *out, ss_error *error) {
    ss_loaded_start start[2 * SS_TILE];
    ss_status status = SS_OK;
    SS_TRY(find_starts(w, traffic, tile->count, true, start));
    SS_TRY(ss_loaded_spread_from(&w->loaded, loaded, traffic, start, error));
    for (int i = 0; i < 2 * tile->count; i++) {
        if (w->loaded.seek[i].truck[0].train == NULL) {
            w->loaded.seek[i].truck_count = 0; /* it stayed what it was */
        }
    }
    SS_TRY(write_all(w, index, tile, loaded, traffic, out));
done:
    return status;
}

static ss_status search_traffic(ss_envelope_worker *w, int index, const ss_effect_tile *tile,
                                const ss_loaded_tile *loaded, int traffic, ss_envelope *out,
                                ss_error *error) {
    ss_loaded_start start[2 * SS_TILE];
    ss_status status = SS_OK;
    for (int i = 0; i < 2 * tile->count; i++) {
        ss_envelope_kept(w, index, i / 2, traffic, i % 2)->truck_count = 0;
    }
    if (w->task->loaded->searched[traffic]) {
        SS_TRY(find_starts(w, traffic, tile->count, false, start));
        SS_TRY(ss_loaded_search(&w->loaded, loaded, traffic, start, error));
        SS_TRY(write_all(w, index, tile, loaded, traffic, out));
    }
    if (w->task->loaded->varied[traffic]) {
        SS_TRY(spread_plain(w, index, tile, loaded, traffic, out, error));
    }
done:
    return status;
}

ss_status ss_envelope_loaded(ss_envelope_worker *w, int index, const ss_effect_tile *tile,
                             const ss_loaded_tile *loaded, ss_envelope *out, ss_error *error) {
    ss_status status = SS_OK;
    ss_loaded_begin(&w->loaded);
    for (int t = 0; w->task->loaded->count > 0 && t < w->task->placements->traffic_count; t++) {
        if (w->task->loaded->number[t] >= 0) {
            SS_TRY(search_traffic(w, index, tile, loaded, t, out, error));
        }
    }
done:
    return status == SS_ERROR_MEMORY ? ss_no_memory(error) : status;
}

double ss_envelope_loaded_value(ss_envelope_worker *w, const ss_loaded_kept *kept,
                                const ss_extreme_load *load, const double *opening, int lane) {
    const ss_placements *const placements = w->task->placements;
    double sum = 0.0;
    for (int i = 0; i < kept->truck_count; i++) {
        ss_term terms[SS_ROLL_TERMS];
        const int count = ss_loaded_terms(w->task->loaded, &w->lines, &kept->truck[i], terms);
        for (int k = 0; k < count; k++) sum += terms[k].weight * terms[k].row[lane];
    }
    for (int i = 0; i < load->stretch_count; i++) {
        const int track = load->position[load->stretch[i].truck].track;
        const ss_vehicle *const train = &placements->trains[placements->tracks[track].train];
        const int plan = ss_axle_plan_of(w->lines.plans, track, ss_widest_axle(train));
        sum += train->lane_N_m * ss_lane_value_of(&w->lines, lane, plan, &load->stretch[i]);
    }
    sum += load->area_N_m2 * ss_area_value_of(&w->lines, placements, lane, load->area, load->area_count);
    for (int k = 0; k < w->task->model->n; k++)
        sum += kept->change[k] * opening[(size_t)k * SS_TILE + (size_t)lane];
    return sum;
}
