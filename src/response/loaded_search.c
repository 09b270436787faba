/* loaded_search.c - extremes under lane loads and trucks abreast: from one pattern of open bearings to the
 * next that its worst load brings about. */

#include <string.h>

#include "base/try.h"

#include "response/loaded.h"
#include "response/state.h"

/* A pass costs the same for one effect as for a whole tile: less than this share of one is left as it is. */
#define FEW 0.1

void ss_loaded_begin(ss_loaded_worker *w) {
    if (w->loaded->count > 0) {
        ss_lane_work_begin(&w->work);
        ss_area_work_begin(&w->areas);
    }
}

double ss_loaded_most(const ss_loaded_worker *w) {
    double most = 0.0;
    for (int i = 0; i < 2 * SS_TILE; i++) most = w->seek[i].value > most ? w->seek[i].value : most;
    return most;
}

void ss_loaded_begin_seeks(ss_loaded_worker *w, int traffic) {
    const int vehicle = w->loaded->placements->traffic[traffic].vehicle;
    const double area = w->loaded->bare ? 0.0 : w->lines.plans->mesh->bridge->vehicles[vehicle].area_N_m2;
    for (int i = 0; i < 2 * SS_TILE; i++) {
        double *const change = w->seek[i].change;
        w->seek[i] =
            (ss_loaded_seek){.lane = i / 2, .side = i % 2, .state = -1, .area_N_m2 = area, .change = change};
    }
}

void ss_loaded_ask(ss_loaded_seek *seek, int state) {
    bool known = seek->pattern_count == SS_LOADED_PATTERNS;
    for (int i = 0; i < seek->pattern_count; i++) known = known || seek->pattern[i] == state;
    if (!known) {
        seek->pattern[seek->pattern_count++] = state;
    }
}

/* The pattern that is searched though nothing led to it: that of dead load. For the reaction of a bearing
 * which that leaves open it is the one in which it presses: while a bearing is open its reaction is nothing
 * wherever the trucks are, and shows no way to those that close it. */
static ss_status unasked(ss_loaded_worker *w, const ss_effect *effect, int *state, ss_error *error) {
    int pressed = -1;
    if (w->loaded->model->n > 0 && effect->kind == SS_EFFECT_REACTION &&
        ss_contact_pressed(w->finder, effect->spring, ss_effect_second_spring(w->lines.plans->mesh, effect),
                           &pressed) != SS_OK) {
        return ss_no_memory(error);
    }
    *state = pressed < 0 ? w->dead_state : pressed;
    return SS_OK;
}

/* A place where one truck alone is worst, in the pattern that it brings about with its lane load. Trucks
 * abreast only take the pattern from it. No pattern is known before to be the right one: another is searched
 * besides. */
static ss_status begin_at(ss_loaded_worker *w, const ss_loaded_tile *tile, const ss_loaded_start *start,
                          ss_error *error) {
    for (int i = 0; i < 2 * tile->count; i++) {
        ss_status status = start[i].truck.track < 0 ? SS_OK
                                                    : ss_loaded_try(w, tile, &w->seek[i], &start[i].truck, 1,
                                                                    start[i].state, error);
        int besides = w->dead_state;
        if (status == SS_OK) {
            status = unasked(w, &tile->effects[i / 2], &besides, error);
        }
        if (status != SS_OK) {
            return status;
        }
        if (w->seek[i].pattern_count == 0) {
            ss_loaded_ask(&w->seek[i], start[i].state == w->dead_state ? besides : start[i].state);
        }
        ss_loaded_ask(&w->seek[i], besides);
    }
    return SS_OK;
}

/* Columns for seeks that have something to be searched: one for each effect in a pattern, for both of its
 * sides. */
static void gather(const ss_loaded_worker *w, ss_loaded_columns *out) {
    out->count = 0;
    for (int i = 0; i < 2 * SS_TILE; i++) {
        const ss_loaded_seek *const seek = &w->seek[i];
        out->column[i] = -1;
        if (seek->searched == seek->pattern_count) {
            continue;
        }
        const int state = seek->pattern[seek->searched];
        int c = 0;
        while (c < out->count && (out->lane[c] != seek->lane || out->state[c] != state)) c++;
        if (c == SS_TILE) {
            continue;
        }
        if (c == out->count) {
            out->lane[c] = seek->lane;
            out->state[out->count++] = state;
        }
        out->column[i] = c;
    }
}

/* What is small beside the largest of its tile is searched in its first pattern only. */
static void drop_small(ss_loaded_worker *w) {
    const double least = SS_LOADED_SMALL * ss_loaded_most(w);
    for (int i = 0; i < 2 * SS_TILE; i++) {
        ss_loaded_seek *const seek = &w->seek[i];
        if (seek->searched > 0 && seek->value < least) {
            seek->searched = seek->pattern_count;
        }
    }
}

/* Whether every seek was searched once. */
static bool all_begun(const ss_loaded_worker *w) {
    bool all = true;
    for (int i = 0; i < 2 * SS_TILE; i++)
        all = all && (w->seek[i].pattern_count == 0 || w->seek[i].searched > 0);
    return all;
}

/* A load over the carriageway where trucks relieve everywhere: the first of them is there by name, just off
 * the bridge. */
static ss_status try_area_alone(ss_loaded_worker *w, const ss_loaded_tile *tile, int traffic,
                                ss_error *error) {
    const ss_placements *const placements = w->loaded->placements;
    const ss_traffic *const of = &placements->traffic[traffic];
    const ss_bridge *const bridge = w->lines.plans->mesh->bridge;
    const int track = of->track_count > 0 ? of->first_track : of->lane_first[0];
    const double x = placements->tracks[track].backward ? bridge->x1 + 1.0 : bridge->x0 - 1.0;
    const ss_found away = {.x = x, .t = 0.0, .track = track};
    ss_status status = SS_OK;
    for (int i = 0; i < 2 * tile->count && status == SS_OK; i++) {
        if (w->seek[i].area_N_m2 > 0.0 && w->seek[i].truck_count == 0) {
            status = ss_loaded_try(w, tile, &w->seek[i], &away, 1, w->dead_state, error);
        }
    }
    return status;
}

ss_status ss_loaded_search(ss_loaded_worker *w, const ss_loaded_tile *tile, int traffic,
                           const ss_loaded_start *start, ss_error *error) {
    ss_loaded_columns columns;
    ss_status status = SS_OK;
    ss_loaded_begin_seeks(w, traffic);
    SS_TRY(begin_at(w, tile, start, error));
    for (gather(w, &columns); (double)columns.count > (all_begun(w) ? FEW * tile->count : 0.0);
         gather(w, &columns)) {
        SS_TRY(ss_loaded_pass(w, tile, traffic, &columns, error));
        for (int i = 0; i < 2 * SS_TILE; i++) w->seek[i].searched += columns.column[i] >= 0;
        drop_small(w);
    }
    SS_TRY(try_area_alone(w, tile, traffic, error));
    const bool abreast = w->loaded->placements->traffic[traffic].track_count == 0;
    if (w->loaded->model->n > 0 && (abreast || w->seek[0].area_N_m2 > 0.0)) {
        SS_TRY(ss_loaded_move(w, tile, traffic, error));
    }
    if (w->loaded->varied[traffic]) {
        SS_TRY(ss_loaded_spread(w, tile, error));
    }
done:
    return status;
}
