/* search.c - all trucks over a tile of effects: values at the ends of blocks bound what lies within, and only
 * blocks that may beat what has been found are searched. */
#include "response/search.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/course.h"
#include "response/search_parts.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* Cells whose openings are kept. */
enum { KEPT = 4096 };

/* ---- making ------------------------------------------------------------------------------------- */

static bool comes_before(const ss_searcher *s, ss_visit a, ss_visit b) {
    const int plan_a = s->rolls[a.roll].plan[0], plan_b = s->rolls[b.roll].plan[0];
    return plan_a < plan_b;
}

/* Insertion is good enough for lists that are nearly in order; equals stay as they are. */
static void order_visits(ss_searcher *s) {
    for (int i = 0; i < s->placements->traffic_count; i++) {
        const ss_traffic *traffic = &s->placements->traffic[i];
        for (int t = traffic->first_track; t < traffic->first_track + traffic->track_count; t++) {
            if (s->rolls[t].block_count == 0) {
                continue;
            }
            const ss_visit visit = {i, t};
            int k = s->visit_count++;
            for (; k > 0 && comes_before(s, visit, s->visit[k - 1]); k--) s->visit[k] = s->visit[k - 1];
            s->visit[k] = visit;
        }
    }
}

ss_status ss_searcher_create(const ss_search_task *task, ss_searcher *out, ss_error *error) {
    const size_t tracks = (size_t)task->placements->track_count, n = (size_t)task->finder->model->n;
    ss_searcher s = {.lines = task->lines,
                     .slack = task->slack,
                     .finder = task->finder,
                     .placements = task->placements,
                     .rolls = task->rolls,
                     .groups = task->groups,
                     .target_count = task->target_count,
                     .loads = task->loads,
                     .only = -1,
                     .n = task->finder->model->n};
    const size_t stations = (size_t)task->lines->plans->mesh->station_count;
    size_t blocks = 0, visits = 0;
    for (int i = 0; i < task->placements->traffic_count; i++) {
        visits += (size_t)task->placements->traffic[i].track_count;
    }
    s.first_block = ss_alloc(tracks, sizeof *s.first_block);
    s.first_stand = ss_alloc(tracks, sizeof *s.first_stand);
    s.visit = ss_alloc(visits, sizeof *s.visit);
    s.opening_size = ss_alloc(n * SS_TILE, sizeof *s.opening_size);
    s.found = ss_alloc((size_t)task->target_count, sizeof *s.found);
    s.terms = ss_alloc((size_t)SS_ROLL_TERMS + 2 * n + 2 * SS_AXLES_MAX * stations, sizeof *s.terms);
    s.live = ss_alloc(n, sizeof *s.live);
    s.change = ss_alloc(5 * n, sizeof *s.change);
    s.every = ss_alloc(n, sizeof *s.every);
    s.kept = ss_alloc(KEPT * n * 4, sizeof *s.kept);
    s.kept_state = ss_alloc(KEPT, sizeof *s.kept_state);
    if (s.first_block == NULL || s.first_stand == NULL || s.visit == NULL || s.opening_size == NULL ||
        s.found == NULL || s.terms == NULL || s.live == NULL || s.change == NULL || s.every == NULL ||
        s.kept == NULL || s.kept_state == NULL) {
        ss_searcher_destroy(&s);
        return ss_no_memory(error);
    }
    for (size_t i = 0; i < tracks; i++) {
        s.first_block[i] = blocks;
        s.first_stand[i] = s.stand_total;
        blocks += (size_t)task->rolls[i].block_count;
        s.stand_total += (size_t)task->rolls[i].stand_count;
    }
    s.bound = ss_alloc(blocks * 2 * SS_TILE, sizeof *s.bound);
    s.worth = ss_alloc(blocks, sizeof *s.worth);
    s.cell = ss_alloc(s.stand_total, sizeof *s.cell);
    if (task->loads != NULL) {
        s.lane_add = ss_alloc(tracks * 2 * SS_TILE, sizeof *s.lane_add);
        s.lane_known = ss_alloc(tracks, sizeof *s.lane_known);
    }
    if (s.bound == NULL || s.worth == NULL || s.cell == NULL ||
        (task->loads != NULL && (s.lane_add == NULL || s.lane_known == NULL))) {
        ss_searcher_destroy(&s);
        return ss_no_memory(error);
    }
    for (size_t i = 0; i < s.stand_total; i++) s.cell[i] = -1;
    for (int k = 0; k < s.n; k++) s.every[k] = k;
    order_visits(&s);
    *out = s;
    return SS_OK;
}

void ss_searcher_destroy(ss_searcher *s) {
    ss_free(s->first_block);
    ss_free(s->first_stand);
    ss_free(s->visit);
    ss_free(s->opening_size);
    ss_free(s->found);
    ss_free(s->terms);
    ss_free(s->live);
    ss_free(s->change);
    ss_free(s->every);
    ss_free(s->kept);
    ss_free(s->kept_state);
    ss_free(s->bound);
    ss_free(s->worth);
    ss_free(s->cell);
    ss_free(s->lane_add);
    ss_free(s->lane_known);
    *s = (ss_searcher){0};
}

/* ---- openings ----------------------------------------------------------------------------------- */

/* Openings over a cell of one state: each is a sum of the closed reactions, which are cubics. */
static void fill_cubics(const ss_searcher *s, int state, const double *reactions, double *out) {
    const ss_contact_model *m = s->finder->model;
    const ss_contact_state *here = &s->finder->states[state];
    const size_t n = (size_t)s->n;
    for (size_t k = 0; k < n; k++) {
        double *const u = out + 4 * k;
        u[0] = -m->u_dead[k] / m->live_factor;
        u[1] = u[2] = u[3] = 0.0;
        for (size_t j = 0; here->open[k] && j < n; j++) {
            const double by = here->map[k * n + j];
            u[0] += by * m->r_dead[j] / m->live_factor;
            for (size_t d = 0; d < 4; d++) u[d] += by * reactions[4 * j + d];
        }
    }
}

ss_status ss_search_cell_openings(ss_searcher *s, const ss_roll *roll, int stand, ss_cell_openings *out) {
    const size_t n = (size_t)s->n, at = s->first_stand[roll->track] + (size_t)stand;
    if (s->cell[at] < 0) {
        if (s->kept_count == KEPT) {
            for (size_t i = 0; i < s->stand_total; i++) s->cell[i] = -1;
            s->kept_count = 0;
        }
        double *const kept = s->kept + (size_t)s->kept_count * n * 4;
        double *const reactions = ss_alloc(4 * n, sizeof *reactions);
        if (reactions == NULL) {
            return SS_ERROR_MEMORY;
        }
        const double length = roll->x[stand + 1] - roll->x[stand];
        int state = roll->state[stand];
        ss_roll_reaction_cubics(s->finder->model, roll, ss_roll_at(roll, stand), length, reactions);
        for (size_t j = 0; j < n; j++) {
            const double *const r = reactions + 4 * j;
            s->live[j] = r[0] + 0.5 * r[1] + 0.25 * r[2] + 0.125 * r[3];
        }
        const ss_status status = ss_contact_find(s->finder, s->live, &state, s->change);
        if (status == SS_ERROR_MEMORY) {
            ss_free(reactions);
            return status;
        }
        state = status == SS_OK ? state : -1;
        if (state >= 0) {
            fill_cubics(s, state, reactions, kept);
        }
        ss_free(reactions);
        s->kept_state[s->kept_count] = state;
        s->cell[at] = s->kept_count++;
    }
    *out = (ss_cell_openings){s->kept + (size_t)s->cell[at] * n * 4, s->kept_state[s->cell[at]]};
    return SS_OK;
}

static void set_state(const ss_searcher *s, int state, ss_search_place *out) {
    out->lifted = s->n > 0 && !ss_contact_is_dead_state(s->finder, state);
    out->state = state;
    out->open = s->n > 0 && state >= 0 ? s->finder->states[state].open : NULL;
}

ss_status ss_search_place_of(ss_searcher *s, const ss_found *found, ss_search_place *out) {
    const ss_roll *roll = &s->rolls[found->track];
    const size_t n = (size_t)s->n;
    out->lifted = false;
    out->open = NULL;
    out->state = -1;
    if (found->t < 0.0) {
        out->at = ss_roll_at(roll, found->stand);
        out->openings = ss_sparse_at(&roll->openings, found->stand);
        set_state(s, roll->state[found->stand], out);
        return SS_OK;
    }
    ss_course_locate(s->lines->plans, roll->course, found->x, false, out->own);
    out->at = out->own;
    out->openings = (ss_sparse){0};
    if (n == 0) {
        return SS_OK;
    }
    ss_cell_openings openings;
    const ss_status status = ss_search_cell_openings(s, roll, found->stand, &openings);
    if (status != SS_OK) {
        return status;
    }
    for (size_t k = 0; k < n; k++) {
        const double *const u = openings.cubic + 4 * k;
        s->change[k] = u[0] + found->t * (u[1] + found->t * (u[2] + found->t * u[3]));
    }
    out->openings = (ss_sparse){s->n, s->every, s->change};
    set_state(s, openings.state, out);
    return SS_OK;
}

/* ---- bounds ------------------------------------------------------------------------------------- */

static float *bound_of(const ss_searcher *s, const ss_roll *roll, int block) {
    return s->bound + (s->first_block[roll->track] + (size_t)block) * 2 * SS_TILE;
}

/* Steps are few: only effects on the tile's own members have them. */
static bool has_steps(const ss_searcher *s, const ss_roll *roll) {
    bool any = false;
    for (int a = 0; a < roll->vehicle->axle_count; a++) any = any || s->slack->stepped[roll->plan[a]];
    return any;
}

static void add_steps(ss_searcher *s, const ss_roll *roll, int index, double slack[SS_TILE]) {
    const size_t axles = (size_t)roll->vehicle->axle_count, at = (size_t)index * axles;
    int count = 1;
    for (size_t a = 0; a < axles; a++) {
        if (s->slack->stepped[roll->plan[a]] && roll->window[at + a] >= 0) {
            count = ss_axle_slack_steps(s->slack, roll->plan[a], &roll->stretch[at + a],
                                        roll->vehicle->axle_N[a], s->terms, count);
        }
    }
    if (count > 1) {
        s->terms[0] = (ss_term){1.0, slack};
        s->lines->kernel->sum(s->terms, count, slack);
    }
}

static void bound_block(ss_searcher *s, const ss_roll *roll, int index, bool steps, const double *start,
                        const double *end) {
    const ss_rows bend = {ss_roll_block_list(roll, index, SS_ROLL_BEND), s->opening_size};
    const ss_rows reach = {ss_roll_block_list(roll, index, SS_ROLL_REACH), s->slack->row};
    double slack[SS_TILE];
    s->lines->kernel->lists(&bend, &reach, slack);
    if (steps) {
        add_steps(s, roll, index, slack);
    }
    s->worth[s->first_block[roll->track] + (size_t)index] =
        s->lines->kernel->bound(start, end, slack, s->want, bound_of(s, roll, index)) != 0;
}

/* Values at the ends of all blocks. Without steps nothing jumps but at the ends of the bridge. */
void ss_search_bound(ss_searcher *s, const ss_roll *roll) {
    const bool steps = has_steps(s, roll);
    double before[SS_TILE], after[SS_TILE], start[SS_TILE];
    for (int i = 0; i < roll->block_count; i++) {
        const ss_roll_block *block = &roll->block[i];
        if (i == 0 || block->first != roll->block[i - 1].last) {
            const ss_search_at first = ss_search_stand_of(roll, block->first);
            ss_search_stand(s, roll, &first, before, after);
        }
        const ss_search_at last = {block->last, !steps && !block->ends,
                                   ss_roll_block_list(roll, i, SS_ROLL_END_AXLES),
                                   ss_roll_block_list(roll, i, SS_ROLL_END_OPENINGS)};
        memcpy(start, after, sizeof start);
        ss_search_stand(s, roll, &last, before, after);
        bound_block(s, roll, i, steps, start, before);
    }
}

/* ---- the search --------------------------------------------------------------------------------- */

static bool worth_it(const ss_searcher *s, const float *bound, const double *threshold) {
    static const double nothing[SS_TILE];
    return s->lines->kernel->joint(bound, bound, nothing, threshold) != 0;
}

ss_status ss_search_blocks(ss_searcher *s, const ss_roll *roll, ss_error *error) {
    const bool *const worth = s->worth + s->first_block[roll->track];
    ss_status status = SS_OK;
    for (int i = 0; i < roll->block_count && status == SS_OK; i++) {
        float *const bound = bound_of(s, roll, i);
        if (roll->block[i].unknown || (worth[i] && worth_it(s, bound, s->want))) {
            status = ss_search_block(s, roll, i, bound, error);
        }
    }
    return status;
}

static bool group_is_worth_it(ss_searcher *s, int index) {
    const ss_point_group *group = &s->groups->items[index];
    if (group->unknown) {
        return true;
    }
    const ss_roll *near = &s->rolls[group->roll[0]], *far = &s->rolls[group->roll[1]];
    if (near->block[group->block].unknown || far->block[group->block].unknown) {
        return true;
    }
    const ss_rows bend = {ss_sparse_at(&s->groups->bend, index), s->opening_size};
    const ss_rows wheel = {ss_sparse_at(&s->groups->wheel, index), s->slack->beam};
    double slack[SS_TILE];
    s->lines->kernel->lists(&bend, &wheel, slack);
    return s->lines->kernel->joint(bound_of(s, near, group->block), bound_of(s, far, group->block), slack,
                                   s->want) != 0;
}

/* Lines of tracks without stands are filled only where they are needed. */
static void fill_rows(ss_axle_lines *lines, ss_sparse axles) {
    const int intervals = lines->plans->interval_count;
    for (int i = 0; i < axles.count; i++) {
        const int interval = axles.index[i] / 4;
        if (axles.index[i] % 4 == 0 && interval < lines->plans->count * intervals &&
            !lines->filled[interval]) {
            ss_axle_lines_interval(lines, interval / intervals, interval % intervals);
        }
    }
}

void ss_search_point(ss_searcher *s, const ss_roll *roll, int index) {
    double values[SS_TILE];
    if (!roll->valid[index]) {
        return;
    }
    const ss_rows axles = {ss_sparse_at(&roll->axles, index), s->lines->cubic};
    const ss_rows openings = {ss_sparse_at(&roll->openings, index), s->opening};
    fill_rows(s->lines, axles.list);
    s->lines->kernel->lists(&axles, &openings, values);
    ss_search_note(
        s, values,
        &(ss_found){.x = roll->x[index], .t = -1.0, .track = roll->track, .stand = index, .on_beam = true});
}

static void search_group(ss_searcher *s, const ss_point_group *group) {
    int track = -1;
    for (int i = group->point_first; i < group->point_end; i++) {
        const ss_group_point *point = &s->groups->point[i];
        const ss_roll *roll = &s->rolls[point->roll];
        if (s->loads != NULL && roll->track != track) {
            track = roll->track;
            (void)ss_search_aim(s, group->traffic, track);
        }
        ss_search_point(s, roll, point->index);
    }
}

static void begin_traffic(ss_searcher *s, int index) {
    const ss_traffic *traffic = &s->placements->traffic[index];
    const double gross =
        traffic->track_count > 0
            ? ss_vehicle_gross(&s->placements->trains[s->placements->tracks[traffic->first_track].train])
            : 0.0;
    ss_search_clear(s, index, gross);
}

static bool is_left_out(const ss_searcher *s, int traffic) {
    return s->only >= 0 && s->only != traffic;
}

/* All rolls with stands, and the lines of their plans. */
static ss_status bound_all(ss_searcher *s) {
    ss_status status = SS_OK;
    for (int i = 0; i < s->visit_count; i++) {
        const ss_roll *roll = &s->rolls[s->visit[i].roll];
        if (is_left_out(s, s->visit[i].traffic) || !ss_search_aim(s, s->visit[i].traffic, roll->track)) {
            continue;
        }
        for (int a = 0; a < roll->vehicle->axle_count; a++) {
            if (!s->slack->done[roll->plan[a]]) {
                SS_TRY(ss_axle_slack_plan(s->slack, s->lines, roll->plan[a]));
            }
        }
        ss_search_bound(s, roll);
    }
done:
    return status;
}

ss_status ss_search(ss_searcher *s, ss_error *error) {
    ss_status status = SS_OK;
    for (size_t i = 0; i < (size_t)s->n * SS_TILE; i++) s->opening_size[i] = fabs(s->opening[i]);
    for (int i = 0; i < s->placements->traffic_count; i++) begin_traffic(s, i);
    ss_search_forget_lanes(s);
    ss_axle_slack_begin(s->slack);
    ss_axle_slack_strips(s->slack, s->lines);
    SS_TRY(bound_all(s));
    for (int i = 0; i < s->visit_count; i++) {
        if (!is_left_out(s, s->visit[i].traffic) && ss_search_aim(s, s->visit[i].traffic, s->visit[i].roll)) {
            SS_TRY(ss_search_blocks(s, &s->rolls[s->visit[i].roll], error));
        }
    }
    for (int i = 0; i < s->groups->count; i++) {
        const ss_point_group *const group = &s->groups->items[i];
        if (!is_left_out(s, group->traffic) &&
            ss_search_aim_between(s, group->traffic, group->roll[0], group->roll[1]) &&
            group_is_worth_it(s, i)) {
            search_group(s, group);
        }
    }
done:
    return status == SS_ERROR_MEMORY ? ss_no_memory(error) : status;
}
