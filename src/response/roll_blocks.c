/* roll_blocks.c - stretches of a roll that share one bound, and how far the openings of bearings bend within
 * each. */
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/roll_parts.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* Whether every track of the course has a block begin at this stand: an axle comes onto the bridge or leaves
 * it, where everything may jump. */
static bool at_end_of_bridge(const ss_axle_plans *plans, const ss_roll *r, int stand) {
    const ss_axle_at *const at = ss_roll_at(r, stand);
    for (int a = 0; a < r->vehicle->axle_count; a++) {
        if (at[a].station == 0 || at[a].station == plans->interval_count) {
            return true;
        }
    }
    return false;
}

/* The last stand of the block that begins at `first`: among places of the course only, so that blocks are the
 * same on all tracks. */
static int end_of_block(const ss_axle_plans *plans, const ss_roll *r, double longest, int first) {
    int last = first;
    for (int i = first + 1; i < r->stand_count; i++) {
        if (r->place[i] < 0 || r->place[i] == r->place[first]) {
            continue;
        }
        if (last > first && r->x[i] - r->x[first] > longest) {
            break;
        }
        last = i;
        if (at_end_of_bridge(plans, r, i)) {
            break;
        }
        if (i + 1 < r->stand_count && r->place[i + 1] == r->place[i]) {
            i++; /* the stand just after the same place begins the next block, if this one ends here */
        }
    }
    return last;
}

static ss_status list_blocks(const ss_axle_plans *plans, ss_roll *r, ss_error *error) {
    const ss_windows windows = ss_windows_of(plans->mesh);
    r->block = ss_alloc((size_t)r->stand_count, sizeof *r->block);
    if (r->block == NULL) {
        return ss_no_memory(error);
    }
    const bool twice = r->stand_count > 1 && r->place[1] == r->place[0];
    for (int i = twice ? 1 : 0; i + 1 < r->stand_count;) {
        const int last = end_of_block(plans, r, SS_STRETCH * windows.width, i);
        if (last == i) {
            break;
        }
        r->block[r->block_count++] = (ss_roll_block){.first = i, .last = last};
        i = last + 1 < r->stand_count && r->place[last + 1] == r->place[last] ? last + 1 : last;
    }
    return SS_OK;
}

ss_stretch ss_roll_stretch(const ss_roll *r, int first, int last, int axle) {
    const ss_axle_at *const from = ss_roll_at(r, first) + axle, *const to = ss_roll_at(r, last) + axle;
    const int end = to->station >= 0 ? to->station - 1 : to->interval;
    return (ss_stretch){from->interval, end, r->x[last] - r->x[first]};
}

static void fill_windows(const ss_windows *windows, ss_roll *r, int block) {
    const int first = r->block[block].first, last = r->block[block].last;
    const ss_axle_at *const at = ss_roll_at(r, first);
    const size_t axles = (size_t)r->vehicle->axle_count, index = (size_t)block * axles;
    for (int a = 0; a < r->vehicle->axle_count; a++) {
        const double x = ss_axle_x(r->vehicle, r->backward, r->x[first], a);
        r->window[index + (size_t)a] = at[a].interval < 0 ? -1 : ss_window_at(windows, x);
        if (at[a].interval >= 0) {
            r->stretch[index + (size_t)a] = ss_roll_stretch(r, first, last, a);
        }
    }
}

/* ---- openings ----------------------------------------------------------------------------------- */

/* How far the openings leave their chord within a cell of one state: every closed reaction is a cubic there.
 */
static void bend_in_state(const ss_contact_finder *finder, int index, const double *cubics, double *bend) {
    const size_t n = (size_t)finder->model->n;
    const ss_contact_state *const state = &finder->states[index];
    for (size_t k = 0; k < n; k++) {
        if (!state->open[k]) {
            continue;
        }
        double start = 0.0, more = 0.0;
        for (size_t j = 0; j < n; j++) {
            start += state->map[k * n + j] * cubics[4 * j + 2];
            more += state->map[k * n + j] * cubics[4 * j + 3];
        }
        const double curve = ss_max(fabs(2.0 * start), fabs(2.0 * start + 6.0 * more));
        bend[k] = ss_max(bend[k], 0.125 * curve);
    }
}

static void bend_in_cell(const ss_contact_finder *finder, const ss_roll *r, int stand, double *cubics,
                         double *bend) {
    const double length = r->x[stand + 1] - r->x[stand];
    const int here = r->state[stand], next = r->state[stand + 1];
    if (here < 0 || length <= 2.0 * SS_CHANGE_WITHIN) {
        return;
    }
    ss_roll_reaction_cubics(finder->model, r, ss_roll_at(r, stand), length, cubics);
    bend_in_state(finder, here, cubics, bend);
    if (next >= 0 && next != here) {
        bend_in_state(finder, next, cubics, bend); /* it may change right at the stand */
    }
}

void ss_roll_bends(const ss_roll *r, int first, int last, double *room, double *bend) {
    const size_t n = (size_t)r->n;
    double *const start = room, *const end = room + n, *const here = room + 2 * n;
    const double x0 = r->x[first], length = r->x[last] - x0;
    ss_sparse_expand(ss_sparse_at(&r->openings, first), start, r->n);
    ss_sparse_expand(ss_sparse_at(&r->openings, last), end, r->n);
    for (size_t k = 0; k < n; k++) bend[k] = 0.0;
    for (int i = first + 1; i < last; i++) {
        const double t = (r->x[i] - x0) / length;
        ss_sparse_expand(ss_sparse_at(&r->openings, i), here, r->n);
        for (size_t k = 0; k < n; k++) {
            bend[k] = ss_max(bend[k], fabs(here[k] - (1.0 - t) * start[k] - t * end[k]));
        }
    }
}

/* room: 9 n. */
static ss_status bend_in_block(const ss_contact_finder *finder, ss_roll *r, int index, double *room) {
    const size_t n = (size_t)r->n;
    ss_roll_block *const block = &r->block[index];
    double *const bend = room, *const cell = room + n, *const rest = room + 2 * n;
    for (size_t k = 0; k < n; k++) cell[k] = 0.0;
    for (int i = block->first; i <= block->last; i++) {
        block->unknown = block->unknown || !r->valid[i] || (n > 0 && r->state[i] < 0);
        if (i < block->last) {
            block->longest = ss_max(block->longest, r->x[i + 1] - r->x[i]);
            bend_in_cell(finder, r, i, rest, cell);
        }
    }
    ss_roll_bends(r, block->first, block->last, rest, bend);
    for (size_t k = 0; k < n; k++) bend[k] += cell[k];
    const ss_status status = ss_sparse_add(&r->blocks, bend, r->n);
    return status == SS_OK ? ss_sparse_add(&r->cell_bend, cell, r->n) : status;
}

/* ---- rows --------------------------------------------------------------------------------------- */

/* What ss_roll_terms has, as numbers of rows. */
static ss_status add_axles(const ss_axle_plans *plans, ss_roll *r, int stand) {
    const ss_axle_at *const at = ss_roll_at(r, stand);
    int rows[SS_ROLL_TERMS], count = 0;
    double by[SS_ROLL_TERMS];
    for (int a = 0; a < r->vehicle->axle_count; a++) {
        const int plan = r->plan[a];
        by[count] = r->vehicle->axle_N[a];
        if (at[a].beam >= 0 && plans->plan[plan].on_beam[at[a].beam]) {
            rows[count++] = ss_axle_row_beam(plans, plan, at[a].beam);
        } else if (at[a].interval >= 0) {
            rows[count++] = ss_axle_row_cubic(plans, plan, at[a].interval);
            for (int j = 1; j < 4 && at[a].s != 0.0; j++, count++) {
                rows[count] = rows[count - 1] + 1;
                by[count] = by[count - 1] * at[a].s;
            }
        }
    }
    return ss_sparse_append(&r->axles, rows, by, count);
}

static ss_status add_ends(ss_roll *r, int index) {
    const ss_sparse openings = ss_sparse_at(&r->openings, r->block[index].last);
    const ss_sparse axles = ss_sparse_at(&r->axles, r->block[index].last);
    const ss_status status = ss_sparse_append(&r->blocks, axles.index, axles.value, axles.count);
    return status == SS_OK ? ss_sparse_append(&r->blocks, openings.index, openings.value, openings.count)
                           : status;
}

static ss_status add_reach(const ss_windows *windows, ss_roll *r, int index) {
    const size_t axles = (size_t)r->vehicle->axle_count;
    int rows[SS_AXLES_MAX], count = 0;
    double by[SS_AXLES_MAX];
    for (size_t a = 0; a < axles; a++) {
        const int window = r->window[(size_t)index * axles + a];
        if (window >= 0) {
            by[count] = r->vehicle->axle_N[a];
            rows[count++] = r->plan[a] * windows->count + window;
        }
    }
    return ss_sparse_append(&r->blocks, rows, by, count);
}

ss_status ss_roll_blocks(const ss_axle_plans *plans, const ss_contact_finder *finder, ss_roll *roll,
                         ss_error *error) {
    const ss_windows windows = ss_windows_of(plans->mesh);
    ss_status status = SS_OK;
    double *const room = ss_alloc(9 * (size_t)roll->n, sizeof *room);
    SS_TRY(room == NULL ? SS_ERROR_MEMORY : list_blocks(plans, roll, error));
    const size_t places = (size_t)roll->block_count * (size_t)roll->vehicle->axle_count;
    roll->window = ss_alloc(places, sizeof *roll->window);
    roll->stretch = ss_alloc(places, sizeof *roll->stretch);
    SS_TRY(roll->window == NULL || roll->stretch == NULL ? SS_ERROR_MEMORY : SS_OK);
    for (int i = 0; i < roll->stand_count + roll->point_count; i++) SS_TRY(add_axles(plans, roll, i));
    for (int i = 0; i < roll->block_count; i++) {
        fill_windows(&windows, roll, i);
        roll->block[i].ends = at_end_of_bridge(plans, roll, roll->block[i].last);
        SS_TRY(add_ends(roll, i));
        SS_TRY(add_reach(&windows, roll, i));
        SS_TRY(bend_in_block(finder, roll, i, room));
    }
done:
    ss_free(room);
    return status == SS_ERROR_MEMORY ? ss_no_memory(error) : status;
}
