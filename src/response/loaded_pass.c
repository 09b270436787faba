/* loaded_pass.c - one pass over all places of a traffic in patterns of open bearings, in which effects add up
 * over trucks and lane loads. */
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/loaded.h"
#include "response/search_parts.h"
#include "response/state.h"

/* Values that differ by less than this share are equal. */
#define TIE 1e-9

/* Lines of the columns' effects in their patterns. */
static void begin_lines(ss_loaded_worker *w, const ss_loaded_tile *tile, const ss_loaded_columns *columns,
                        ss_effect effects[SS_TILE]) {
    const ss_loaded *const l = w->loaded;
    const size_t n = (size_t)l->model->n, order = (size_t)w->lines.plans->mesh->order;
    memset(w->weight, 0, n * SS_TILE * sizeof *w->weight);
    for (int c = 0; c < columns->count; c++) {
        const int lane = columns->lane[c];
        effects[c] = tile->effects[lane];
        w->searcher.tiny[c] = tile->tiny[lane];
        for (size_t dof = 0; dof < order; dof++) {
            w->z[dof * SS_TILE + (size_t)c] = tile->z[dof * SS_TILE + (size_t)lane];
        }
        ss_loaded_weigh(w, tile, lane, columns->state[c], w->weight + c, SS_TILE);
    }
    for (size_t dof = 0; dof < order; dof++) {
        for (int c = columns->count; c < SS_TILE; c++) w->z[dof * SS_TILE + (size_t)c] = 0.0;
    }
    if (n > 0) {
        ss_contact_model_refer(w->weight, l->model->permanent->contact_field, n, order, w->z);
    }
    ss_axle_lines_begin(&w->lines, w->z, tile->springs ? NULL : effects, columns->count);
    ss_lane_work_begin(&w->sums);
    w->searcher.lanes = w->loads.tile.lanes = columns->count;
    w->loads.effects = effects;
}

/* ---- one truck ---------------------------------------------------------------------------------- */

/* What has to be beaten: by seeks that are not for a column, all. */
static void fill_floor(const ss_loaded_worker *w, const ss_loaded_columns *columns, bool beat,
                       double floor[2 * SS_TILE]) {
    for (int i = 0; i < 2 * SS_TILE; i++) floor[i] = SS_INFINITY;
    for (int i = 0; i < 2 * SS_TILE; i++) {
        const ss_loaded_seek *const seek = &w->seek[i];
        if (columns->column[i] >= 0) {
            const bool known = beat && seek->value > 0.0 && seek->state == columns->state[columns->column[i]];
            floor[seek->side * SS_TILE + columns->column[i]] = known ? seek->within * (1.0 - TIE) : 0.0;
        }
    }
}

static ss_status pass_single(ss_loaded_worker *w, const ss_loaded_tile *tile, int traffic,
                             const ss_loaded_columns *columns, ss_error *error) {
    double floor[2 * SS_TILE];
    ss_status status = SS_OK;
    fill_floor(w, columns, true, floor);
    w->searcher.floor = floor;
    w->searcher.only = traffic;
    SS_TRY(ss_search(&w->searcher, error));
    for (int i = 0; i < 2 * SS_TILE; i++) {
        ss_loaded_seek *const seek = &w->seek[i];
        const int column = columns->column[i];
        if (column < 0) {
            continue;
        }
        const ss_found *const found = &w->searcher.found[traffic].best[column][seek->side];
        if (found->track >= 0) {
            SS_TRY(ss_loaded_try(w, tile, seek, found, 1, columns->state[column], error));
        }
    }
done:
    return status;
}

/* ---- trucks abreast ----------------------------------------------------------------------------- */

static ss_status search_track(ss_loaded_worker *w, int target, int track, ss_error *error) {
    ss_searcher *const s = &w->searcher;
    const ss_roll *const roll = &w->loaded->rolls[track];
    ss_status status = SS_OK;
    if (!ss_search_aim(s, target, track)) {
        return SS_OK;
    }
    for (int a = 0; a < roll->vehicle->axle_count; a++) {
        const int plan = roll->plan[a];
        if (!w->slack.done[plan]) {
            ss_axle_lines_points(&w->lines, plan);
            SS_TRY(ss_axle_slack_plan(&w->slack, &w->lines, plan));
        }
    }
    ss_search_bound(s, roll);
    SS_TRY(ss_search_blocks(s, roll, error));
    for (int i = roll->stand_count; i < roll->stand_count + roll->point_count; i++) {
        ss_search_point(s, roll, i);
    }
done:
    return status;
}

/* Where the places of one of the trucks begin among the targets. */
static int first_of(const ss_loaded_side *sides, int which) {
    int first = 0;
    for (int i = 0; i < which; i++) first += sides[i].slot_count;
    return first;
}

/* The best truck of every place across. */
static ss_status search_slots(ss_loaded_worker *w, const ss_loaded_columns *columns,
                              const ss_loaded_side *sides, ss_error *error) {
    double floor[2 * SS_TILE];
    ss_status status = SS_OK;
    fill_floor(w, columns, false, floor);
    w->searcher.floor = floor;
    ss_axle_slack_begin(&w->slack);
    ss_search_forget_lanes(&w->searcher);
    for (int which = 0; which < SS_ABREAST_MAX; which++) {
        const int first = first_of(sides, which);
        for (int s = 0; s < sides[which].slot_count; s++) {
            const int track = sides[which].first_track;
            const ss_placements *const placements = w->loaded->placements;
            ss_search_clear(&w->searcher, first + s,
                            ss_vehicle_gross(&placements->trains[placements->tracks[track].train]));
        }
        for (int i = 0; i < sides[which].track_count; i++) {
            SS_TRY(search_track(w, first + sides[which].slot[i], sides[which].first_track + i, error));
        }
    }
done:
    return status;
}

/* Trucks of a choice, from left to right, and the lanes that they are in. */
typedef struct chosen {
    int count; /* those that give nothing are off the bridge */
    ss_found truck[SS_LANES_MAX];
    int in_lane[SS_LANES_MAX];
    int which[SS_LANES_MAX]; /* of each lane */
} chosen;

/* The trucks of one seek by its pattern. */
static void choose(ss_loaded_worker *w, const ss_crossing *crossing, const ss_loaded_side *sides, int column,
                   int side, chosen *out) {
    const ss_found_set *const found = w->searcher.found;
    ss_lane_choice choice = {
        .bridge = w->lines.plans->mesh->bridge, .crossing = crossing, .sum = w->sum, .through = w->through};
    for (int which = 0; which < SS_ABREAST_MAX; which++) {
        const int first = first_of(sides, which);
        choice.slot_count[which] = sides[which].slot_count;
        choice.y[which] = sides[which].y;
        for (int s = 0; s < sides[which].slot_count; s++) {
            const ss_found *const best = &found[first + s].best[column][side];
            w->best[which][s] = best->track >= 0 ? best->value : 0.0;
        }
    }
    const ss_lane_pick pick =
        ss_lane_choose(&choice, (const double *const[SS_ABREAST_MAX]){w->best[0], w->best[1], w->best[2]});
    *out = (chosen){.count = 0};
    for (int i = 0; pick.room && i < crossing->lanes; i++) {
        const int first = first_of(sides, pick.which[i]);
        const ss_found *const best = &found[first + pick.slot[i]].best[column][side];
        out->which[i] = pick.which[i];
        if (best->track >= 0) {
            out->in_lane[out->count] = i;
            out->truck[out->count++] = *best;
        }
    }
}

static ss_status pass_abreast(ss_loaded_worker *w, const ss_loaded_tile *tile, int traffic,
                              const ss_loaded_columns *columns, ss_error *error) {
    const ss_loaded_side *const sides = &w->loaded->side[SS_ABREAST_MAX * (size_t)traffic];
    const ss_crossing *const crossing =
        &w->lines.plans->mesh->bridge->crossings[w->loaded->placements->traffic[traffic].crossing];
    ss_status status = SS_OK;
    SS_TRY(search_slots(w, columns, sides, error));
    for (int i = 0; i < 2 * SS_TILE; i++) {
        ss_loaded_seek *const seek = &w->seek[i];
        const int column = columns->column[i];
        chosen here = {.count = 0};
        if (column >= 0) {
            choose(w, crossing, sides, column, seek->side, &here);
        }
        const double before = seek->value;
        if (here.count > 0) {
            SS_TRY(ss_loaded_try(w, tile, seek, here.truck, here.count, columns->state[column], error));
        }
        if (seek->value > before) {
            memcpy(seek->in_lane, here.in_lane, sizeof here.in_lane);
            memcpy(seek->which, here.which, sizeof here.which);
        }
    }
done:
    return status;
}

ss_status ss_loaded_pass(ss_loaded_worker *w, const ss_loaded_tile *tile, int traffic,
                         const ss_loaded_columns *columns, ss_error *error) {
    ss_effect effects[SS_TILE] = {{0}};
    begin_lines(w, tile, columns, effects);
    return w->loaded->placements->traffic[traffic].track_count > 0
               ? pass_single(w, tile, traffic, columns, error)
               : pass_abreast(w, tile, traffic, columns, error);
}
