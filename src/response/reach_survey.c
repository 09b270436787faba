/* reach_survey.c - influence fields of a member's effects, and bounds of what traffic can do to each. */
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/row.h"
#include "response/clones.h"
#include "response/reach_exact.h"
#include "response/state.h"
#include "sillspan/memory.h"

ss_status ss_reach_worker_create(const ss_reacher *reach, ss_reach_worker *out, ss_error *error) {
    ss_status status = SS_OK;
    ss_reach_worker w = {.reach = reach};
    const size_t order = (size_t)reach->mesh->order, n = (size_t)reach->n + 1;
    w.referred = ss_alloc(order * SS_TILE, sizeof *w.referred);
    w.near = ss_alloc((size_t)reach->plans.interval_count + 1, sizeof *w.near);
    w.ready = ss_alloc((size_t)reach->plans.count + 1, sizeof *w.ready);
    w.weight = ss_alloc(n * SS_TILE, sizeof *w.weight);
    w.opening = ss_alloc(n * SS_TILE, sizeof *w.opening);
    w.work = ss_alloc(ss_grillage_work(reach->permanent->grillage, NULL), sizeof *w.work);
    w.live = ss_alloc(n, sizeof *w.live);
    w.live_cubic = ss_alloc(((size_t)reach->dead[0].tile_count + 1) * 4 * SS_TILE, sizeof *w.live_cubic);
    w.seen = ss_alloc((size_t)SS_DEMANDS_MOST * 2 * n, sizeof *w.seen);
    w.seen_pattern = ss_alloc((size_t)SS_DEMANDS_MOST * 2, sizeof *w.seen_pattern);
    w.growth = ss_alloc((size_t)reach->dead_count * SS_STEPS_MOST * 2 * n, sizeof *w.growth);
    w.opened = ss_alloc(n, sizeof *w.opened);
    w.path_work = ss_alloc(ss_contact_work(reach->n) + 1, sizeof *w.path_work);
    SS_TRY(w.referred == NULL || w.weight == NULL || w.near == NULL || w.ready == NULL || w.opening == NULL ||
                   w.work == NULL || w.live == NULL || w.live_cubic == NULL || w.path_work == NULL ||
                   w.growth == NULL || w.opened == NULL || w.seen == NULL || w.seen_pattern == NULL
               ? ss_no_memory(error)
               : SS_OK);
    SS_TRY(ss_patterns_copy(&reach->patterns, &w.patterns, error));
    SS_TRY(ss_axle_lines_create(&reach->plans, &w.lines, error));
    SS_TRY(ss_spread_work_create(&reach->plans, &w.spread, error));
    if (reach->lane_reactions != NULL) {
        SS_TRY(ss_lane_work_create(reach->n, reach->plans.interval_count, &w.lane, error));
    }
    for (int i = 0; i < reach->surveyed_count; i++) {
        SS_TRY(ss_bin_bounds_create(&reach->bins, reach->plans.interval_count, &w.bounds[i], error));
    }
    *out = w;
    w = (ss_reach_worker){0};
done:
    ss_reach_worker_destroy(&w);
    return status;
}

void ss_reach_worker_destroy(ss_reach_worker *worker) {
    ss_patterns_destroy(&worker->patterns);
    ss_axle_lines_destroy(&worker->lines);
    ss_lane_work_destroy(&worker->lane);
    ss_spread_work_destroy(&worker->spread);
    for (int i = 0; i < SS_REACH_PATTERNS; i++) ss_bin_bounds_destroy(&worker->bounds[i]);
    ss_free(worker->referred);
    ss_free(worker->weight);
    ss_free(worker->near);
    ss_free(worker->ready);
    ss_free(worker->opening);
    ss_free(worker->work);
    ss_free(worker->live);
    ss_free(worker->live_cubic);
    ss_free(worker->path_work);
    ss_free(worker->growth);
    ss_free(worker->seen);
    ss_free(worker->seen_pattern);
    ss_free(worker->opened);
    *worker = (ss_reach_worker){0};
}

/* ---- fields ------------------------------------------------------------------------------------- */

static void solve_members(const ss_reacher *reach, const ss_effect *effects, int count, double *z,
                          double *work) {
    memset(z, 0, (size_t)reach->mesh->order * SS_TILE * sizeof *z);
    for (int lane = 0; lane < count; lane++) {
        ss_row row;
        ss_mesh_effect_row(reach->mesh, &effects[lane], &row);
        for (int i = 0; i < row.count; i++) z[(size_t)row.dof[i] * SS_TILE + (size_t)lane] += row.value[i];
    }
    ss_grillage_solve(reach->permanent->grillage, NULL, z, work);
}

/* The field of a settlement of a spring is the influence field of its force (Betti); joints have one spring
 * an effect. */
static void solve_springs(const ss_reacher *reach, const ss_effect *effects, int count, double *z,
                          double *work) {
    int spring[SS_TILE];
    memset(z, 0, (size_t)reach->mesh->order * SS_TILE * sizeof *z);
    for (int lane = 0; lane < count; lane++) spring[lane] = effects[lane].spring;
    ss_grillage_settle(reach->permanent->grillage, NULL, count, spring, z, work);
    for (int lane = 0; lane < count; lane++) {
        const double factor = ss_effect_spring_factor(reach->mesh, &effects[lane]);
        for (size_t dof = 0; dof < (size_t)reach->mesh->order; dof++) {
            z[dof * SS_TILE + (size_t)lane] *= factor;
        }
    }
}

void ss_reach_refer(const ss_reach_job *job, int surveyed, const int *effect, int count, const double *closed,
                    double *out) {
    const ss_reacher *const reach = job->worker->reach;
    const size_t n = (size_t)reach->n, order = (size_t)reach->mesh->order;
    double *const weight = job->worker->weight;
    memcpy(out, closed, order * SS_TILE * sizeof *out);
    memset(weight, 0, n * SS_TILE * sizeof *weight);
    for (int lane = 0; lane < count; lane++) {
        const double *const own = ss_reach_weight(job, surveyed, effect[lane]);
        for (size_t j = 0; j < n; j++) weight[j * SS_TILE + (size_t)lane] = own[j];
    }
    ss_contact_model_refer(weight, reach->permanent->contact_field, n, order, out);
}

/* ---- dead load and openings --------------------------------------------------------------------- */

static ss_status allocate(ss_reach_job *job, ss_error *error) {
    const ss_reacher *const reach = job->worker->reach;
    const size_t count = (size_t)job->member->count, n = (size_t)reach->n,
                 traffic = (size_t)reach->placements->traffic_count, dead = (size_t)reach->dead_count,
                 patterns = (size_t)reach->surveyed_count;
    job->tile_count = (job->member->count + SS_TILE - 1) / SS_TILE;
    job->field = ss_arena_alloc(&job->arena, (size_t)job->tile_count * (size_t)reach->mesh->order * SS_TILE,
                                sizeof *job->field);
    job->opening = ss_arena_alloc(&job->arena, count * n + 1, sizeof *job->opening);
    job->weight = ss_arena_alloc(&job->arena, patterns * count * n + 1, sizeof *job->weight);
    job->dead_closed = ss_arena_alloc(&job->arena, dead * count, sizeof *job->dead_closed);
    job->dead_true = ss_arena_alloc(&job->arena, dead * count, sizeof *job->dead_true);
    job->dead_in = ss_arena_alloc(&job->arena, dead * patterns * count, sizeof *job->dead_in);
    job->high = ss_arena_alloc(&job->arena, count * traffic * patterns + 1, sizeof *job->high);
    job->low = ss_arena_alloc(&job->arena, count * traffic * patterns + 1, sizeof *job->low);
    job->done = ss_arena_alloc(&job->arena, count * traffic + 1, sizeof *job->done);
    const bool made = job->field != NULL && job->opening != NULL && job->weight != NULL &&
                      job->dead_closed != NULL && job->dead_true != NULL && job->dead_in != NULL &&
                      job->high != NULL && job->low != NULL && job->done != NULL;
    return made ? SS_OK : ss_no_memory(error);
}

static void fill_dead(ss_reach_job *job) {
    const ss_reacher *const reach = job->worker->reach;
    const size_t count = (size_t)job->member->count, n = (size_t)reach->n;
    for (size_t e = 0; e < count; e++) {
        const ss_effect *const effect = &job->member->effects[e];
        double *const opening = job->opening + e * n;
        ss_contact_model_opening(&reach->dead[0], effect, opening);
        for (int i = 0; i < reach->surveyed_count; i++) {
            ss_patterns_weigh(&job->worker->patterns, reach->surveyed[i], opening,
                              job->weight + ((size_t)i * count + e) * n);
        }
        for (int d = 0; d < reach->dead_count; d++) {
            const ss_contact_model *const dead = &reach->dead[d];
            const size_t at = (size_t)d * count + e;
            job->dead_closed[at] = ss_contact_model_dead(dead, effect);
            job->dead_true[at] = job->dead_closed[at];
            for (size_t k = 0; k < n; k++) job->dead_true[at] += opening[k] * dead->u_dead[k];
            for (int i = 0; i < reach->surveyed_count; i++) {
                const double *const weight = ss_reach_weight(job, i, (int)e);
                double sum = job->dead_closed[at];
                for (size_t k = 0; k < n; k++) sum += weight[k] * dead->r_dead[k];
                job->dead_in[((size_t)d * (size_t)reach->surveyed_count + (size_t)i) * count + e] = sum;
            }
        }
    }
}

/* ---- bounds ------------------------------------------------------------------------------------- */

/* What openings beyond those by the base add. */
SS_CLONES
static void add_beyond(const float *restrict opening, const float *restrict beyond, int n,
                       float *restrict high, float *restrict low) {
    for (int k = 0; k < n; k++) {
        const float by = beyond[k];
        const float *const own = opening + k * SS_TILE;
        for (int lane = 0; by != 0.0f && lane < SS_TILE; lane++) {
            high[lane] += by * own[lane];
            low[lane] += by * own[lane];
        }
    }
}

void ss_reach_bound_place(ss_reach_worker *w, const ss_reach_place *place, float high[SS_TILE],
                          float low[SS_TILE]) {
    ss_bin_bounds_block(&w->bounds[place->base], &w->reach->courses.items[place->course], place->strip,
                        place->block, high, low);
    add_beyond(w->opening, place->beyond, w->reach->n, high, low);
    const ss_vehicle *const train = w->reach->courses.items[place->course].vehicle;
    if (train->lane_N_m > 0.0) {
        ss_bin_bounds_lane(&w->bounds[place->base], &w->reach->courses.items[place->course], place->strip,
                           high, low);
    }
    const unsigned use = ss_lane_use(train->use, w->sample);
    if ((use & 2u) == 0) {
        memset(high, 0, SS_TILE * sizeof *high);
    }
    if ((use & 1u) == 0) {
        memset(low, 0, SS_TILE * sizeof *low);
    }
}

/* Bounds of one tile under a traffic, in each surveyed pattern. */
static void bound_traffic(ss_reach_job *job, int tile, int lanes, int traffic) {
    const ss_reacher *const reach = job->worker->reach;
    const size_t patterns = (size_t)reach->surveyed_count,
                 traffics = (size_t)reach->placements->traffic_count;
    float most[SS_REACH_PATTERNS][SS_TILE] = {0}, least[SS_REACH_PATTERNS][SS_TILE] = {0};
    float high[SS_TILE], low[SS_TILE];
    for (int p = reach->place_first[traffic]; p < reach->place_first[traffic + 1]; p++) {
        const ss_reach_place *const place = &reach->place[p];
        ss_reach_bound_place(job->worker, place, high, low);
        for (int lane = 0; lane < SS_TILE; lane++) {
            float *const m = &most[place->base][lane], *const l = &least[place->base][lane];
            *m = high[lane] > *m ? high[lane] : *m;
            *l = low[lane] < *l ? low[lane] : *l;
        }
    }
    for (int lane = 0; lane < lanes; lane++) {
        const size_t effect = (size_t)tile * SS_TILE + (size_t)lane;
        for (size_t i = 0; i < patterns; i++) {
            const size_t at = (effect * traffics + (size_t)traffic) * patterns + i;
            job->high[at] = most[i][lane];
            job->low[at] = least[i][lane];
        }
    }
}

static void bound_tile(ss_reach_job *job, int tile, const double *field) {
    ss_reach_worker *const w = job->worker;
    const ss_reacher *const reach = w->reach;
    const int first = tile * SS_TILE,
              lanes = job->member->count - first < SS_TILE ? job->member->count - first : SS_TILE;
    int effect[SS_TILE] = {0};
    for (int lane = 0; lane < lanes; lane++) effect[lane] = first + lane;
    for (int i = 0; i < reach->surveyed_count; i++) ss_reach_bounds(job, i, effect, lanes, field);
    for (int t = 0; t < reach->placements->traffic_count; t++) bound_traffic(job, tile, lanes, t);
}

/* Intervals next to the section of some effect: lines jump and bend there. */
static void mark_near(const ss_reacher *reach, const ss_effect *effects, int count, bool *near) {
    const ss_mesh *const mesh = reach->mesh;
    memset(near, 0, (size_t)reach->plans.interval_count * sizeof *near);
    for (int i = 0; i < count; i++) {
        const double x = effects[i].member == SS_MEMBER_BEAM ? mesh->bridge->floor_beams[effects[i].index].x
                                                             : effects[i].at;
        for (int k = 0; k < reach->plans.interval_count; k++) {
            near[k] = near[k] || (mesh->station[k] <= x + 1e-6 && mesh->station[k + 1] >= x - 1e-6);
        }
    }
}

void ss_reach_bounds(ss_reach_job *job, int surveyed, const int *effect, int count, const double *closed) {
    ss_reach_worker *const w = job->worker;
    const double *field = closed;
    const size_t n = (size_t)w->reach->n;
    memset(w->opening, 0, n * SS_TILE * sizeof *w->opening);
    for (int lane = 0; lane < count; lane++) {
        const double *const own = job->opening + (size_t)effect[lane] * n;
        for (size_t k = 0; k < n; k++) w->opening[k * SS_TILE + (size_t)lane] = (float)own[k];
    }
    if (w->reach->surveyed[surveyed] != 0) {
        ss_reach_refer(job, surveyed, effect, count, closed, w->referred);
        field = w->referred;
    }
    ss_effect effects[SS_TILE] = {0};
    for (int lane = 0; lane < count; lane++) effects[lane] = job->member->effects[effect[lane]];
    ss_axle_lines_begin(&w->lines, field, ss_effect_of_spring(&effects[0]) ? NULL : effects, count);
    const bool strict = n == 0;
    mark_near(w->reach, effects, count, w->near);
    ss_bin_bounds_fill(&w->bounds[surveyed], &w->lines, strict ? NULL : w->near,
                       strict || effects[0].member == SS_MEMBER_BEAM);
    if (w->reach->lane_reactions != NULL) {
        ss_bin_bounds_lanes(&w->bounds[surveyed], w->reach->mesh->station);
    }
    w->sample = &job->member->effects[effect[0]];
}

void ss_reach_begin(ss_reach_worker *worker, const double *field, const ss_effect *effects, int count) {
    ss_axle_lines_begin(&worker->lines, field, effects, count);
    memset(worker->ready, 0, (size_t)worker->reach->plans.count * sizeof *worker->ready);
}

static void make_ready(ss_reach_worker *worker, int plan) {
    const ss_axle_plans *const plans = &worker->reach->plans;
    if (worker->ready[plan]) {
        return;
    }
    worker->ready[plan] = true;
    ss_axle_lines_points(&worker->lines, plan);
    if (plans->plan[plan].lines_of != plan) {
        make_ready(worker, plans->plan[plan].lines_of);
        return;
    }
    for (int k = 0; k < plans->interval_count; k++) (void)ss_axle_lines_get(&worker->lines, plan, k);
    ss_axle_lines_jumps(&worker->lines, plan);
}

void ss_reach_ready(ss_reach_worker *worker, int track) {
    const ss_placements *const placements = worker->reach->placements;
    const int axles = placements->trains[placements->tracks[track].train].axle_count;
    for (int a = 0; a < axles; a++) make_ready(worker, ss_axle_plan_of(&worker->reach->plans, track, a));
}

ss_status ss_reach_survey(ss_reach_worker *worker, const ss_reach_member *member, ss_reach_job *out,
                          ss_error *error) {
    const ss_reacher *const reach = worker->reach;
    ss_reach_job job = {.worker = worker,
                        .member = member,
                        .margin = reach->n == 0                                 ? 1.0 + 2e-6
                                  : member->effects[0].member == SS_MEMBER_BEAM ? SS_REACH_MARGIN_BEAM
                                                                                : SS_REACH_MARGIN};
    const ss_status status = allocate(&job, error);
    if (status != SS_OK) {
        ss_arena_destroy(&job.arena);
        return status;
    }
    fill_dead(&job);
    for (int tile = 0; tile < job.tile_count; tile++) {
        const ss_effect *const effects = member->effects + tile * SS_TILE;
        const int left = member->count - tile * SS_TILE, count = left < SS_TILE ? left : SS_TILE;
        double *const field = job.field + (size_t)tile * (size_t)reach->mesh->order * SS_TILE;
        if (ss_effect_of_spring(&effects[0])) {
            solve_springs(reach, effects, count, field, worker->work);
        } else {
            solve_members(reach, effects, count, field, worker->work);
        }
        bound_tile(&job, tile, field);
    }
    *out = job;
    return SS_OK;
}

double ss_reach_least(const ss_reach_job *job, int demand, int traffic, int effect) {
    const ss_reacher *const reach = job->worker->reach;
    const ss_demand *const asked = &job->member->demands[demand];
    const double scale = ss_reach_scale(job, demand, traffic, effect);
    double least = SS_INFINITY;
    for (int i = 0; i < asked->dead_count && scale > 0.0 && !isnan(asked->limit[effect]); i++) {
        for (int s = 0; s < reach->surveyed_count; s++) {
            const size_t at = ((size_t)effect * (size_t)reach->placements->traffic_count + (size_t)traffic) *
                                  (size_t)reach->surveyed_count +
                              (size_t)s;
            const double dead = ss_reach_dead_in(job, asked->dead[i], s, effect);
            for (int most = !asked->least_too; most < 2; most++) {
                const double left = ss_reach_target(job, demand, asked->dead[i], effect, most == 1) - dead;
                const double live = most == 1 ? (double)job->high[at] : (double)job->low[at];
                /* Both are towards the limit when they have its sign. */
                const double toward = most == 1 ? live : -live, room = most == 1 ? left : -left;
                if (toward > 0.0) {
                    least = ss_min(least, ss_max(room, 0.0) / toward / scale);
                }
            }
        }
    }
    return least;
}
