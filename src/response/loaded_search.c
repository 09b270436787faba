/* loaded_search.c - extremes under lane loads and trucks abreast: from one pattern of open bearings to the
 * next that its worst load brings about. */

#include <string.h>

#include "base/try.h"

#include "response/loaded.h"

/* A pass costs the same for one effect as for a whole tile: less than this share of one is left as it is. */
#define FEW 0.1

void ss_loaded_begin(ss_loaded_worker *w) {
    if (w->loaded->count > 0) {
        ss_lane_work_begin(&w->work);
    }
}

double ss_loaded_most(const ss_loaded_worker *w) {
    double most = 0.0;
    for (int i = 0; i < 2 * SS_TILE; i++) most = w->seek[i].value > most ? w->seek[i].value : most;
    return most;
}

static void begin_seeks(ss_loaded_worker *w) {
    for (int i = 0; i < 2 * SS_TILE; i++) {
        double *const change = w->seek[i].change;
        w->seek[i] = (ss_loaded_seek){.lane = i / 2, .side = i % 2, .state = -1, .change = change};
    }
}

void ss_loaded_ask(ss_loaded_seek *seek, int state) {
    bool known = seek->pattern_count == SS_LOADED_PATTERNS;
    for (int i = 0; i < seek->pattern_count; i++) known = known || seek->pattern[i] == state;
    if (!known) {
        seek->pattern[seek->pattern_count++] = state;
    }
}

/* A place where one truck alone is worst, in the pattern that it brings about with its lane load. Trucks
 * abreast only take the pattern from it. No pattern is known before to be the right one: that of dead load is
 * searched besides. */
static ss_status begin_at(ss_loaded_worker *w, const ss_loaded_tile *tile, const ss_loaded_start *start,
                          ss_error *error) {
    for (int i = 0; i < 2 * tile->count; i++) {
        const ss_status status =
            start[i].truck.track < 0
                ? SS_OK
                : ss_loaded_try(w, tile, &w->seek[i], &start[i].truck, 1, start[i].state, error);
        if (status != SS_OK) {
            return status;
        }
        if (w->seek[i].pattern_count == 0) {
            ss_loaded_ask(&w->seek[i], start[i].state);
        }
        ss_loaded_ask(&w->seek[i], w->dead_state);
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

ss_status ss_loaded_search(ss_loaded_worker *w, const ss_loaded_tile *tile, int traffic,
                           const ss_loaded_start *start, ss_error *error) {
    ss_loaded_columns columns;
    ss_status status = SS_OK;
    begin_seeks(w);
    SS_TRY(begin_at(w, tile, start, error));
    for (gather(w, &columns); (double)columns.count > (all_begun(w) ? FEW * tile->count : 0.0);
         gather(w, &columns)) {
        SS_TRY(ss_loaded_pass(w, tile, traffic, &columns, error));
        for (int i = 0; i < 2 * SS_TILE; i++) w->seek[i].searched += columns.column[i] >= 0;
        drop_small(w);
    }
    if (w->loaded->model->n > 0 && w->loaded->placements->traffic[traffic].track_count == 0) {
        SS_TRY(ss_loaded_move(w, tile, traffic, error));
    }
done:
    return status;
}
