/* reach_abreast_places.c - where each truck of a crossing abreast may stand: strips and blocks whose bounds
 * let it matter. */
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/reach_abreast.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* Places of a strip whose bounds are below this share of the strip's largest do not bear the worst truck
 * there. */
#define PLACE_WORTH 0.5f

static ss_status add_entry(ss_abreast *a, ss_abreast_side *side, const ss_position *position,
                           const double closed[SS_TILE]) {
    const size_t n = (size_t)a->x->job->worker->reach->n;
    if (side->count == side->capacity) {
        const size_t capacity = 2 * (size_t)side->capacity + 512;
        ss_abreast_entry *const entry = ss_realloc(side->entry, capacity, sizeof *entry);
        side->entry = entry == NULL ? side->entry : entry;
        double *const values = ss_realloc(side->closed, capacity * SS_TILE, sizeof *values);
        side->closed = values == NULL ? side->closed : values;
        double *const live = ss_realloc(side->live, capacity * n + 1, sizeof *live);
        side->live = live == NULL ? side->live : live;
        if (entry == NULL || values == NULL || live == NULL) {
            return ss_no_memory(a->error);
        }
        side->capacity = (int)capacity;
    }
    const size_t at = (size_t)side->count;
    side->entry[at] = (ss_abreast_entry){*position, 0};
    for (size_t lane = 0; lane < SS_TILE; lane++) side->closed[at * SS_TILE + lane] = closed[lane];
    for (size_t k = 0; k < n; k++) side->live[at * n + k] = a->x->job->worker->live[k];
    side->count++;
    return SS_OK;
}

static ss_status add_stand(ss_abreast *a, ss_abreast_side *side, int track, const ss_axle_at *at,
                           double front, bool on_beam, bool left) {
    ss_reach_worker *const w = a->x->job->worker;
    const ss_course *const course = &w->reach->courses.items[w->reach->courses.of_track[track]];
    const ss_position position = {.track = track, .x = front, .on_beam = on_beam};
    double closed[SS_TILE];
    ss_course_sum(&w->lines, course, track, at, left, closed);
    ss_reach_reactions(w->reach, course, track, at, left, w->live);
    return add_entry(a, side, &position, closed);
}

static ss_status add_block(ss_abreast *a, ss_abreast_side *side, int track, int block) {
    ss_reach_worker *const w = a->x->job->worker;
    const ss_course *const course = &w->reach->courses.items[w->reach->courses.of_track[track]];
    const ss_course_block *const b = &course->block[block];
    const size_t axles = (size_t)course->vehicle->axle_count;
    ss_status status = SS_OK;
    for (int i = b->first; i <= b->last; i++) {
        if (a->all && block > 0 && i == b->first && course->block[block - 1].last == i) {
            continue; /* the block before it has that */
        }
        const ss_axle_at *const at = course->at + (size_t)i * axles;
        const bool jumps = ss_course_jumps(&w->lines, course, track, at);
        SS_TRY(add_stand(a, side, track, at, course->x[i] - (jumps ? SS_NUDGE : 0.0), false, true));
        if (jumps) {
            SS_TRY(add_stand(a, side, track, at, course->x[i] + SS_NUDGE, false, false));
        }
    }
    for (int i = b->point_first; i < b->point_end; i++) {
        const int index = course->stand_count + i;
        const ss_axle_at *const at = course->at + (size_t)index * axles;
        if (ss_course_on_beam(&w->reach->plans, course, track, at)) {
            SS_TRY(add_stand(a, side, track, at, course->x[index], true, false));
        }
    }
done:
    return status;
}

/* Whether a place may bear the worst truck of its strip for some effect of the tile. */
static void mark_worth(ss_abreast *a, int course, int strip, bool *worth) {
    ss_reach_worker *const w = a->x->job->worker;
    const ss_reacher *const reach = w->reach;
    const int blocks = reach->courses.items[course].block_count, t = a->x->traffic;
    float most[SS_TILE] = {0}, least[SS_TILE] = {0}, high[SS_TILE], low[SS_TILE];
    for (int b = 0; b < blocks; b++) worth[b] = a->all;
    for (int pass = 0; pass < 2 && !a->all; pass++) {
        for (int p = reach->place_first[t]; p < reach->place_first[t + 1]; p++) {
            const ss_reach_place *const place = &reach->place[p];
            if (place->course != course || place->strip != strip) {
                continue;
            }
            ss_reach_bound_place(w, place, high, low);
            for (int lane = 0; lane < a->x->lanes; lane++) {
                if (pass == 0) {
                    most[lane] = high[lane] > most[lane] ? high[lane] : most[lane];
                    least[lane] = low[lane] < least[lane] ? low[lane] : least[lane];
                } else if ((most[lane] > 0.0f && high[lane] >= PLACE_WORTH * most[lane]) ||
                           (least[lane] < 0.0f && low[lane] <= PLACE_WORTH * least[lane])) {
                    worth[place->block] = true;
                }
            }
        }
    }
}

ss_status ss_abreast_collect(ss_abreast *a, int which) {
    const ss_reacher *const reach = a->x->job->worker->reach;
    ss_abreast_side *const side = &a->side[which];
    const int first = a->traffic->lane_first[which], last = first + a->traffic->lane_count[which];
    int course = -1, strip = -1, blocks = 0;
    bool *worth = NULL;
    ss_status status = SS_OK;
    for (int c = 0; c < reach->courses.count; c++) {
        blocks = reach->courses.items[c].block_count > blocks ? reach->courses.items[c].block_count : blocks;
    }
    worth = ss_alloc((size_t)blocks + 1, sizeof *worth);
    side->y = ss_alloc((size_t)(last - first) + 1, sizeof *side->y);
    SS_TRY(worth == NULL || side->y == NULL ? ss_no_memory(a->error) : SS_OK);
    for (int t = first; t < last; t++) {
        if (reach->courses.of_track[t] != course || reach->bins.of_track[t] != strip) {
            course = reach->courses.of_track[t];
            strip = reach->bins.of_track[t];
            mark_worth(a, course, strip, worth);
        }
        ss_reach_ready(a->x->job->worker, t);
        for (int b = 0; b < reach->courses.items[course].block_count; b++) {
            if (worth[b]) {
                SS_TRY(add_block(a, side, t, b));
            }
        }
        side->y[side->slot_count++] = reach->placements->tracks[t].y;
    }
    ss_sort_unique(side->y, &side->slot_count, 1e-9);
    for (int i = 0; i < side->count; i++) {
        const double y = reach->placements->tracks[side->entry[i].position.track].y;
        int low = 0, high = side->slot_count;
        while (high - low > 1) {
            const int middle = (low + high) / 2;
            low = side->y[middle] <= y + 1e-9 ? middle : low;
            high = side->y[middle] <= y + 1e-9 ? high : middle;
        }
        side->entry[i].slot = low;
    }
done:
    ss_free(worth);
    return status;
}
