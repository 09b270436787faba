/* reach_members.c - all members of a search for limits: bounds first, then the few effects that may govern,
 * on several threads. */
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/reach_abreast.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* Effects of each traffic and demand that the first packed tile takes. */
enum { FIRST_TAKEN = 2 };

/* Effects of each demand that trucks abreast are tried for: those that one of them would govern first. */
enum { ABREAST_TAKEN = 3 };

static bool is_abreast(const ss_reacher *reach, int traffic) {
    return reach->placements->traffic[traffic].lane_count[0] > 0;
}

/* ---- one member --------------------------------------------------------------------------------- */

typedef struct member_run {
    ss_reach_job *job;
    ss_reach_exact_task *task;
    float *least; /* demand x traffic x effect */
    double *field;
    bool *asked; /* traffic */
} member_run;

static float *least_of(const member_run *run, int demand, int traffic) {
    const size_t traffics = (size_t)run->job->worker->reach->placements->traffic_count;
    return run->least + ((size_t)demand * traffics + (size_t)traffic) * (size_t)run->job->member->count;
}

/* Least bound above `above` of a demand under a traffic among effects not done; -1: none below `below`. */
static int next_effect(const member_run *run, int demand, int traffic, double below, const int *taken,
                       int taken_count) {
    const ss_reach_job *const job = run->job;
    const float *const least = least_of(run, demand, traffic);
    int best = -1;
    for (int e = 0; e < job->member->count; e++) {
        const bool done =
            job->done[(size_t)e * (size_t)job->worker->reach->placements->traffic_count + (size_t)traffic];
        if (done || !((double)least[e] < below) || (best >= 0 && !(least[e] < least[best]))) {
            continue;
        }
        bool already = false;
        for (int i = 0; i < taken_count; i++) already = already || taken[i] == e;
        best = already ? best : e;
    }
    return best;
}

/* Fills `effect` with what may still govern; the count. */
static int choose(member_run *run, bool first, int *effect) {
    const ss_reach_job *const job = run->job;
    const int traffics = job->worker->reach->placements->traffic_count;
    int count = 0;
    for (int t = 0; t < traffics; t++) run->asked[t] = false;
    for (int rank = 0; rank < (first ? FIRST_TAKEN : SS_TILE); rank++) {
        bool any = false;
        for (int t = 0; t < traffics; t++) {
            for (int q = 0; q < job->member->demand_count && !is_abreast(job->worker->reach, t); q++) {
                const double best = ss_reach_result(job, q, t)->factor;
                /* The first tile takes the best few of each, whoever else has taken them. */
                int own[FIRST_TAKEN], own_count = 0;
                int e = -1;
                if (first) {
                    for (int k = 0; k <= rank; k++) {
                        e = next_effect(run, q, t, SS_INFINITY, own, own_count);
                        if (e < 0) {
                            break;
                        }
                        own[own_count++] = e;
                    }
                } else {
                    e = next_effect(run, q, t, best * job->margin, effect, count);
                }
                if (e < 0) {
                    continue;
                }
                run->asked[t] = true;
                bool taken = false;
                for (int i = 0; i < count; i++) taken = taken || effect[i] == e;
                if (!taken && count < SS_TILE) {
                    effect[count++] = e;
                    any = true;
                }
            }
        }
        if (!any || count == SS_TILE) {
            break;
        }
    }
    return count;
}

/* Copies the closed fields of the chosen effects into one tile. */
static void pack_field(const member_run *run, const int *effect, int count) {
    const ss_reach_job *const job = run->job;
    const size_t order = (size_t)job->worker->reach->mesh->order;
    memset(run->field, 0, order * SS_TILE * sizeof *run->field);
    for (int lane = 0; lane < count; lane++) {
        const double *const from =
            job->field + (size_t)(effect[lane] / SS_TILE) * order * SS_TILE + effect[lane] % SS_TILE;
        for (size_t dof = 0; dof < order; dof++) {
            run->field[dof * SS_TILE + (size_t)lane] = from[dof * SS_TILE];
        }
    }
}

/* Lines are filled as they are asked for, so that what they are filled from stays with the worker. */
static void begin_closed_lines(const member_run *run, const int *effect, int count) {
    ss_effect *const effects = run->job->worker->effects;
    for (int lane = 0; lane < count; lane++) effects[lane] = run->job->member->effects[effect[lane]];
    ss_reach_begin(run->job->worker, run->field, ss_effect_of_spring(&effects[0]) ? NULL : effects, count);
}

static void prepare_packed(member_run *run, const int *effect, int count) {
    pack_field(run, effect, count);
    for (int s = 0; s < run->job->worker->reach->surveyed_count; s++) {
        ss_reach_bounds(run->job, s, effect, count, run->field);
    }
    begin_closed_lines(run, effect, count);
    ss_lane_work_begin(&run->job->worker->lane);
    run->task->effect = effect;
    run->task->lanes = count;
}

static ss_status search_packed(member_run *run, const int *effect, int count, ss_error *error) {
    ss_reach_job *const job = run->job;
    const size_t traffics = (size_t)job->worker->reach->placements->traffic_count;
    prepare_packed(run, effect, count);
    const ss_status status = ss_reach_exact(run->task, run->asked, error);
    for (int lane = 0; lane < count; lane++) {
        for (size_t t = 0; t < traffics; t++) {
            bool *const done = &job->done[(size_t)effect[lane] * traffics + t];
            *done = *done || run->asked[t];
        }
    }
    return status;
}

/* ---- trucks abreast ----------------------------------------------------------------------------- */

/* The effects that one truck alone would govern first, of each demand; asked (demand): which of them, by
 * bits. */
static int choose_abreast(const member_run *run, int traffic, int *effect, unsigned *asked) {
    const ss_reach_job *const job = run->job;
    int count = 0;
    for (int q = 0; q < job->member->demand_count; q++) {
        int own[ABREAST_TAKEN], own_count = 0;
        asked[q] = 0;
        while (own_count < ABREAST_TAKEN) {
            const int e = next_effect(run, q, traffic, SS_INFINITY, own, own_count);
            if (e < 0) {
                break;
            }
            own[own_count++] = e;
            int lane = 0;
            while (lane < count && effect[lane] != e) lane++;
            if (lane < SS_TILE) {
                effect[lane] = e;
                count = lane == count ? count + 1 : count;
                asked[q] |= 1u << lane;
            }
        }
    }
    return count;
}

static ss_status search_abreast(member_run *run, ss_error *error) {
    const ss_reacher *const reach = run->job->worker->reach;
    ss_status status = SS_OK;
    int effect[SS_TILE] = {0};
    unsigned asked[SS_DEMANDS_MOST];
    for (int t = 0; t < reach->placements->traffic_count && status == SS_OK; t++) {
        const int count = is_abreast(reach, t) ? choose_abreast(run, t, effect, asked) : 0;
        if (count > 0) {
            prepare_packed(run, effect, count);
            run->task->traffic = t;
            status = ss_reach_abreast(run->task, asked, error);
        }
    }
    return status;
}

/* ---- one member, all of it ---------------------------------------------------------------------- */

/* The other dead load factors of the check at the stand that was found: bearings that lift sooner under a
 * smaller dead load may fill the section sooner, which the search does not see when it is far from linear. */
static ss_status try_other_dead(ss_reach_exact_task *x, int q, int t, ss_error *error) {
    ss_reach_job *const job = x->job;
    const ss_demand *const demand = &job->member->demands[q];
    ss_reached *const best = ss_reach_result(job, q, t);
    const ss_reach_kept *const kept = ss_reach_kept_of(job, q, t);
    const double scale = ss_reach_scale(job, q, t, best->effect);
    x->traffic = t;
    for (int i = 0; i < demand->dead_count; i++) {
        const int dead = demand->dead[i];
        ss_reach found;
        if (dead == best->dead) {
            continue;
        }
        const ss_status status =
            ss_reach_general(x, best->effect, dead, kept->closed, kept->live,
                             ss_reach_target(job, q, dead, best->effect, best->most), best->most, &found);
        if (status == SS_ERROR_NUMERIC) {
            continue; /* rounding hides the bearings' way; what was found stands */
        }
        if (status != SS_OK) {
            return ss_error_set(error, status, "the bearings' contact under another dead load");
        }
        if (found.tips) {
            ss_reach_note_tips(x, q, dead, found.factor, best->position, best->truck_count);
        } else if (found.factor / scale < best->factor) {
            best->factor = found.factor / scale;
            best->dead = dead;
        }
    }
    return SS_OK;
}

ss_status ss_reach_confirm(ss_reach_exact_task *x, ss_error *error) {
    ss_reach_job *const job = x->job;
    const ss_reacher *const reach = job->worker->reach;
    ss_status status = SS_OK;
    for (int q = 0; q < job->member->demand_count; q++) {
        for (int t = 0; t < reach->placements->traffic_count; t++) {
            ss_reached *const best = ss_reach_result(job, q, t);
            best->linear = best->factor;
            if (best->effect < 0) {
                continue;
            }
            const ss_reach_kept *const kept = ss_reach_kept_of(job, q, t);
            ss_reach found;
            const double target = ss_reach_target(job, q, best->dead, best->effect, best->most),
                         scale = ss_reach_scale(job, q, t, best->effect);
            status = ss_reach_general(x, best->effect, best->dead, kept->closed, kept->live, target,
                                      best->most, &found);
            const bool known = best->factor * scale < SS_REACH_MOST;
            if (status != SS_OK ||
                (known && (found.tips || !ss_close(found.factor / scale, best->factor, 1e-6)))) {
                return ss_error_set(
                    error, SS_ERROR_CHECK,
                    "the multiple of a truck that fills a section came out differently when it was "
                    "followed again");
            }
            best->factor = found.factor / scale;
            SS_TRY(try_other_dead(x, q, t, error));
            best->linear = ss_reach_linear(x, best, kept,
                                           ss_reach_target(job, q, best->dead, best->effect, best->most)) /
                           scale;
            best->live = kept->closed;
            if (kept->loaded) {
                x->traffic = t;
                SS_TRY(ss_reach_lane_effect(x, q, &ss_reach_lane_of(job, q, t)->effect));
            }
        }
    }
done:
    return status;
}

static ss_status allocate(member_run *run, ss_error *error) {
    ss_reach_job *const job = run->job;
    const ss_reacher *const reach = job->worker->reach;
    const size_t traffics = (size_t)reach->placements->traffic_count, n = (size_t)reach->n,
                 demands = (size_t)job->member->demand_count, patterns = (size_t)reach->surveyed_count;
    ss_reach_exact_task *const x = run->task;
    int places = 1;
    for (size_t t = 0; t < traffics; t++) {
        const int count = reach->place_first[t + 1] - reach->place_first[t];
        places = count > places ? count : places;
    }
    *x = (ss_reach_exact_task){.job = job};
    x->room = ss_arena_alloc(&job->arena, demands * 2 * patterns + 1, sizeof *x->room);
    x->bounds = ss_arena_alloc(&job->arena, (size_t)places * 2 * SS_TILE, sizeof *x->bounds);
    x->local_room = ss_arena_alloc(&job->arena, demands * 2 + 1, sizeof *x->local_room);
    x->order = ss_arena_alloc(&job->arena, (size_t)places, sizeof *x->order);
    job->kept = ss_arena_alloc(&job->arena, demands * traffics + 1, sizeof *job->kept);
    double *const live = ss_arena_alloc(&job->arena, 2 * demands * traffics * n + 1, sizeof *live);
    run->least =
        ss_arena_alloc(&job->arena, demands * traffics * (size_t)job->member->count + 1, sizeof *run->least);
    run->field = ss_arena_alloc(&job->arena, (size_t)reach->mesh->order * SS_TILE, sizeof *run->field);
    run->asked = ss_arena_alloc(&job->arena, traffics + 1, sizeof *run->asked);
    if (x->room == NULL || x->bounds == NULL || x->order == NULL || x->local_room == NULL ||
        job->kept == NULL || live == NULL || run->least == NULL || run->field == NULL || run->asked == NULL) {
        return ss_no_memory(error);
    }
    for (size_t i = 0; i < demands * traffics; i++) {
        job->kept[i].live = live + 2 * i * n;
        job->kept[i].lane_live = live + (2 * i + 1) * n;
    }
    return SS_OK;
}

static ss_status search_member(ss_reach_worker *worker, const ss_reach_member *member, ss_error *error) {
    const ss_reacher *const reach = worker->reach;
    ss_reach_job job = {0};
    ss_reach_exact_task task = {0};
    member_run run = {.job = &job, .task = &task};
    ss_status status = SS_OK;
    const int results = member->demand_count * reach->placements->traffic_count;
    for (int i = 0; i < results; i++) {
        member->reached[i] = (ss_reached){.factor = SS_INFINITY, .linear = SS_INFINITY, .effect = -1};
    }
    for (int i = 0; member->lane != NULL && i < results; i++) {
        member->lane[i] = (ss_reached_lane){0};
    }
    for (int i = 0; i < 2 * results; i++) member->tip[i] = (ss_reach_tip){.multiple = SS_INFINITY};
    if (member->count == 0 || member->demand_count == 0) {
        return SS_OK;
    }
    SS_TRY(ss_reach_survey(worker, member, &job, error));
    SS_TRY(allocate(&run, error));
    for (int q = 0; q < member->demand_count; q++) {
        for (int t = 0; t < reach->placements->traffic_count; t++) {
            float *const least = least_of(&run, q, t);
            for (int e = 0; e < member->count; e++) least[e] = (float)ss_reach_least(&job, q, t, e);
        }
    }
    int effect[SS_TILE] = {0};
    for (bool first = true;; first = false) {
        const int count = choose(&run, first, effect);
        if (count == 0) {
            break;
        }
        SS_TRY(search_packed(&run, effect, count, error));
    }
    SS_TRY(search_abreast(&run, error));
    SS_TRY(ss_reach_confirm(&task, error));
done:
    ss_arena_destroy(&job.arena);
    return status;
}

/* ---- all of them -------------------------------------------------------------------------------- */

typedef struct all_run {
    int count, done, failed;
    ss_status status; /* of the first member that failed */
    ss_error error;
    void (*progress)(void *context, double done);
    void *context;
} all_run;

static void finish(all_run *all, int member, ss_status status, const ss_error *error) {
    if (status != SS_OK && (all->status == SS_OK || member < all->failed)) {
        all->status = status;
        all->failed = member;
        all->error = *error;
    }
    all->done++;
    if (all->progress != NULL) {
        all->progress(all->context, (double)all->done / (double)all->count);
    }
}

ss_status ss_reach_members(const ss_reacher *reach, ss_reach_member *members, int count,
                           void (*progress)(void *context, double done), void *context, ss_error *error) {
    all_run all = {.count = count, .progress = progress, .context = context};
#ifdef _OPENMP
#pragma omp parallel
#endif
    {
        ss_reach_worker worker = {0};
        ss_error cause = {0};
        const ss_status made = ss_reach_worker_create(reach, &worker, &cause);
#ifdef _OPENMP
#pragma omp for schedule(dynamic, 1)
#endif
        for (int i = 0; i < count; i++) {
            const ss_status status = made != SS_OK ? made : search_member(&worker, &members[i], &cause);
#ifdef _OPENMP
#pragma omp critical(sillspan_reach)
#endif
            finish(&all, i, status, &cause);
        }
        ss_reach_worker_destroy(&worker);
    }
    return all.status == SS_OK ? SS_OK : ss_error_set(error, all.status, "%s", all.error.message);
}
