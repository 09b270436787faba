/* area_load.c - where a load over the carriageway is adverse to an effect, and what it does there. */
#include "response/area_load.h"

#include <string.h>

#include "base/try.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* Loads that are remembered: both sides of a tile's effects in a few patterns. */
enum { LOADS = 256 };

ss_status ss_area_work_create(int n, int interval_count, int line_count, ss_area_work *out, ss_error *error) {
    const size_t size = (size_t)n;
    *out = (ss_area_work){0};
    if (line_count == 0) {
        return SS_OK;
    }
    ss_area_work w = {
        .load = ss_alloc(LOADS, sizeof *w.load),
        .live = ss_alloc(LOADS * size + 1, sizeof *w.live),
        .line = {.live = ss_alloc(size + 1, sizeof *w.line.live)},
        .cubic = ss_alloc(4 * (size_t)interval_count + 1, sizeof *w.cubic),
        .stretch = ss_alloc((size_t)line_count * SS_LANE_STRETCHES, sizeof *w.stretch),
    };
    if (w.load == NULL || w.live == NULL || w.line.live == NULL || w.cubic == NULL || w.stretch == NULL) {
        ss_area_work_destroy(&w);
        return ss_no_memory(error);
    }
    for (size_t i = 0; i < LOADS; i++) w.load[i].live = w.live + i * size;
    *out = w;
    return SS_OK;
}

void ss_area_work_destroy(ss_area_work *work) {
    ss_free(work->load);
    ss_free(work->live);
    ss_free(work->line.live);
    ss_free(work->cubic);
    ss_free(work->stretch);
    *work = (ss_area_work){0};
}

void ss_area_work_begin(ss_area_work *work) {
    for (int i = 0; work->load != NULL && i < LOADS; i++) work->load[i].key[0] = -1;
}

/* The load on one line, into the scratch; it is 1 N/m. */
static const ss_lane_load *load_on(ss_area_work *work, const ss_area_tile *tile, const ss_area_wanted *wanted,
                                   int line) {
    const ss_axle_plans *const plans = tile->lines->plans;
    const int plan = plans->plan[plans->of_area[line]].lines_of;
    ss_axle_lines_whole(tile->lines, plan);
    ss_lane_load_find(&tile->tile, &(ss_lane_wanted){wanted->lane, wanted->most, plan, wanted->weight},
                      work->cubic, &work->line);
    return &work->line;
}

const ss_area_load *ss_area_load_of(ss_area_work *work, const ss_area_tile *tile,
                                    const ss_area_wanted *wanted) {
    const size_t n = (size_t)tile->tile.contact->n;
    const int key[3] = {wanted->lane, wanted->most ? 1 : 0, wanted->pattern};
    const unsigned hash = ((unsigned)key[2] * 2U + (unsigned)key[1]) * SS_TILE + (unsigned)key[0];
    ss_area_load *const load = &work->load[hash % (unsigned)LOADS];
    if (memcmp(load->key, key, sizeof key) == 0) {
        return load;
    }
    memcpy(load->key, key, sizeof key);
    load->closed = 0.0;
    memset(load->live, 0, n * sizeof *load->live);
    for (int i = 0; i < tile->placements->area_line_count; i++) {
        const double width = tile->placements->area_lines[i].width;
        const ss_lane_load *const line = load_on(work, tile, wanted, i);
        load->closed += width * line->closed;
        for (size_t k = 0; k < n; k++) load->live[k] += width * line->live[k];
    }
    return load;
}

int ss_area_stretches(ss_area_work *work, const ss_area_tile *tile, const ss_area_wanted *wanted) {
    int count = 0;
    for (int i = 0; i < tile->placements->area_line_count; i++) {
        const ss_lane_load *const line = load_on(work, tile, wanted, i);
        for (int s = 0; s < line->count; s++) {
            work->stretch[count++] = (ss_area_stretch){i, line->stretch[s].from, line->stretch[s].to};
        }
    }
    return count;
}

double ss_area_value_of(ss_axle_lines *lines, const ss_placements *placements, int lane,
                        const ss_area_stretch *stretch, int count) {
    double sum = 0.0;
    for (int i = 0; i < count; i++) {
        sum += placements->area_lines[stretch[i].line].width *
               ss_lane_value_of(lines, lane, lines->plans->of_area[stretch[i].line],
                                &(ss_lane_stretch){.from = stretch[i].from, .to = stretch[i].to});
    }
    return sum;
}
