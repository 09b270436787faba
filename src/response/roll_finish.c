/* roll_finish.c - refers the openings along a roll to one state of contact, and bounds them by blocks of
 * positions. */
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/roll_parts.h"
#include "response/state.h"
#include "sillspan/memory.h"

enum { CELLS_IN_BLOCK = 24 };

/* Takes off what the lines of the reference state have in them; b->live is the truck's. */
static void refer(ss_roll_builder *b, double *change) {
    ss_contact_mapped(b->finder, b->roll.reference, b->live, b->mapped);
    for (int k = 0; k < b->roll.n; k++) change[k] -= b->mapped[k];
}

static void refer_stands(ss_roll_builder *b) {
    ss_roll *const r = &b->roll;
    for (int i = 0; b->finder != NULL && i < r->stand_count + r->point_count; i++) {
        ss_roll_reactions(b->finder->model, r, r->at + (size_t)i * (size_t)r->vehicle->axle_count,
                          r->side[i] < 0, b->live);
        refer(b, r->change + (size_t)i * (size_t)r->n);
    }
}

/* How far openings leave their chord within each cell: seen in its middle, twice that for safety. */
static ss_status fill_bends(ss_roll_builder *b) {
    ss_roll *const r = &b->roll;
    const size_t n = (size_t)r->n;
    double *const middle = ss_alloc(n, sizeof *middle);
    r->bend = ss_alloc((size_t)r->stand_count * n, sizeof *r->bend);
    ss_status status = middle == NULL || r->bend == NULL ? ss_no_memory(b->error) : SS_OK;
    for (int i = 0; i + 1 < r->stand_count && n > 0 && status == SS_OK; i++) {
        int state = r->state[i];
        const double *const left = r->change + (size_t)i * n, *const right = left + n;
        bool moves = false, valid;
        for (size_t k = 0; k < n; k++) moves = moves || left[k] != 0.0 || right[k] != 0.0;
        if (!moves || !r->valid[i] || !r->valid[i + 1] || r->x[i + 1] - r->x[i] <= SS_CHANGE_WITHIN) {
            continue;
        }
        const double x = 0.5 * (r->x[i] + r->x[i + 1]);
        ss_roll_locate(b->plans, r, x, false, b->at);
        status = ss_roll_contact(b, x, false, &state, middle, &valid);
        refer(b, middle);
        for (size_t k = 0; k < n && valid; k++) {
            r->bend[(size_t)i * n + k] = 2.0 * fabs(middle[k] - 0.5 * (left[k] + right[k]));
        }
    }
    ss_free(middle);
    return status;
}

static void widen(ss_roll *r, int block, int stand) {
    const size_t n = (size_t)r->n;
    const double *const change = r->change + (size_t)stand * n;
    double *const low = r->change_low + (size_t)block * n, *const high = r->change_high + (size_t)block * n;
    for (size_t k = 0; k < n; k++) {
        low[k] = ss_min(low[k], change[k]);
        high[k] = ss_max(high[k], change[k]);
        r->moves[block] = r->moves[block] || change[k] != 0.0;
    }
}

static ss_status allocate_blocks(ss_roll_builder *b) {
    ss_roll *const r = &b->roll;
    const size_t n = (size_t)r->n;
    const int parts = r->stand_count > 0 ? r->stand_count - 2 : r->point_count - 1;
    r->block_count = parts < 0 ? 1 : parts / CELLS_IN_BLOCK + 1;
    const size_t blocks = (size_t)r->block_count;
    r->block = ss_alloc(blocks, sizeof *r->block);
    r->range = ss_alloc(blocks * (size_t)r->vehicle->axle_count, sizeof *r->range);
    r->change_low = ss_alloc(blocks * n, sizeof *r->change_low);
    r->change_high = ss_alloc(blocks * n, sizeof *r->change_high);
    r->change_bend = ss_alloc(blocks * n, sizeof *r->change_bend);
    r->moves = ss_alloc(blocks, sizeof *r->moves);
    const bool ok = r->block != NULL && r->range != NULL && r->change_low != NULL && r->change_high != NULL &&
                    r->change_bend != NULL && r->moves != NULL;
    return ok ? SS_OK : ss_no_memory(b->error);
}

static void fill_ranges(ss_roll_builder *b, int index) {
    ss_roll *const r = &b->roll;
    const ss_roll_block *block = &r->block[index];
    const ss_mesh *mesh = b->plans->mesh;
    const double begin = mesh->station[0], end = mesh->station[mesh->station_count - 1];
    double low = (double)INFINITY, high = -(double)INFINITY;
    if (block->last >= block->first) {
        low = r->x[block->first];
        high = r->x[block->last];
    }
    if (block->point_end > block->point_first) {
        low = ss_min(low, r->x[r->stand_count + block->point_first]);
        high = ss_max(high, r->x[r->stand_count + block->point_end - 1]);
    }
    for (int a = 0; a < r->vehicle->axle_count; a++) {
        const double x0 = ss_axle_x(r->vehicle, r->backward, low, a) - SS_ON_BEAM;
        const double x1 = ss_axle_x(r->vehicle, r->backward, high, a) + SS_ON_BEAM;
        ss_axle_range *const range = &r->range[(size_t)index * (size_t)r->vehicle->axle_count + (size_t)a];
        *range = (ss_axle_range){.first = 0, .last = -1, .outside = x0 < begin || x1 > end};
        if (x1 >= begin && x0 <= end && low <= high) {
            const ss_axle_at first = ss_axle_locate(b->plans, ss_max(x0, begin)),
                             last = ss_axle_locate(b->plans, ss_min(x1, end));
            range->first = (first.interval < 0 ? b->plans->interval_count - 1 : first.interval) / SS_GROUP;
            range->last = (last.interval < 0 ? b->plans->interval_count - 1 : last.interval) / SS_GROUP;
        }
    }
}

static ss_status fill_blocks(ss_roll_builder *b) {
    ss_roll *const r = &b->roll;
    const size_t n = (size_t)r->n;
    const ss_status status = allocate_blocks(b);
    int point = 0;
    for (int i = 0; i < r->block_count && status == SS_OK; i++) {
        ss_roll_block *const block = &r->block[i];
        const bool end = i + 1 == r->block_count;
        block->first = i * CELLS_IN_BLOCK;
        block->last = block->first + CELLS_IN_BLOCK < r->stand_count - 1 ? block->first + CELLS_IN_BLOCK
                                                                         : r->stand_count - 1;
        block->point_first = point;
        if (r->stand_count == 0) {
            point = end ? r->point_count : point + CELLS_IN_BLOCK;
        }
        while (point < r->point_count &&
               (end || (r->stand_count > 0 && r->x[r->stand_count + point] <= r->x[block->last])))
            point++;
        block->point_end = point;
        for (int k = block->first; k <= block->last; k++) {
            widen(r, i, k);
            for (size_t j = 0; j < n && k < block->last; j++) {
                double *const bend = &r->change_bend[(size_t)i * n + j];
                *bend = ss_max(*bend, r->bend[(size_t)k * n + j]);
            }
        }
        for (int k = block->point_first; k < block->point_end; k++) widen(r, i, r->stand_count + k);
        fill_ranges(b, i);
    }
    return status;
}

ss_status ss_roll_finish(const ss_axle_plans *plans, ss_contact_finder *finder, int reference, ss_roll *roll,
                         ss_error *error) {
    ss_status status = SS_OK;
    ss_roll_builder b = {
        .plans = plans, .finder = finder->model->n > 0 ? finder : NULL, .roll = *roll, .error = error};
    b.roll.reference = reference;
    SS_TRY(ss_roll_begin(&b, b.roll.n));
    refer_stands(&b);
    SS_TRY(fill_bends(&b));
    SS_TRY(fill_blocks(&b));
done:
    *roll = b.roll;
    ss_free(b.live);
    ss_free(b.mapped);
    return status;
}
