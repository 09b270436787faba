/* reach_prove.c - proofs that no arrangement of two trucks abreast fills a section below some multiple. */
#include "response/reach_prove.h"

#include "base/numeric.h"
#include "base/try.h"
#include "response/halves.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* Shares of the factor found that are tried until one can be proven, and work for each, in pairs of places.
 */
static const double shares[] = {0.995, 0.98, 0.95, 0.9, 0.8, 0.65};
enum { SHARES = sizeof shares / sizeof shares[0] };
#define WORK 60000000L
/* Where nothing can be proven, or only what is full below some factor is sought. */
#define WORK_ONCE 10000000L

bool ss_reach_provable(const ss_reacher *reach, int traffic) {
    const ss_traffic *const own = &reach->placements->traffic[traffic];
    if (reach->n == 0 || own->crossing < 0 || own->lane_count[0] == 0) {
        return false;
    }
    const ss_crossing *const crossing = &reach->mesh->bridge->crossings[own->crossing];
    bool loaded = false;
    for (int i = 0; i < 2; i++) {
        for (int t = own->lane_first[i]; t < own->lane_first[i] + own->lane_count[i]; t++) {
            loaded = loaded || reach->placements->trains[reach->placements->tracks[t].train].lane_N_m > 0.0;
        }
    }
    return crossing->lanes == 2 && !crossing->has_third && !loaded;
}

/* ---- one of them -------------------------------------------------------------------------------- */

/* A member of one effect and one demand, searched already. */
typedef struct alone {
    ss_reach_member member;
    ss_demand demand;
    ss_reach_job job;
    ss_reach_exact_task task;
    ss_abreast abreast;
    ss_proof proof;
    ss_arena arena;
} alone;

static ss_status make_member(alone *o, const ss_reacher *reach, const ss_reach_asked *asked) {
    const size_t traffics = (size_t)reach->placements->traffic_count,
                 result = (size_t)asked->demand * traffics + (size_t)asked->traffic;
    const ss_demand *const from = &asked->member->demands[asked->demand];
    const ss_reached *const found = &asked->member->reached[result];
    double *const scale = ss_arena_alloc(&o->arena, traffics, sizeof *scale);
    o->member = (ss_reach_member){.effects = &asked->member->effects[found->effect],
                                  .count = 1,
                                  .demands = &o->demand,
                                  .demand_count = 1};
    o->member.reached = ss_arena_alloc(&o->arena, traffics, sizeof *o->member.reached);
    o->member.tip = ss_arena_alloc(&o->arena, 2 * traffics, sizeof *o->member.tip);
    if (scale == NULL || o->member.reached == NULL || o->member.tip == NULL) {
        return SS_ERROR_MEMORY;
    }
    scale[asked->traffic] =
        from->scale[(size_t)asked->traffic * (size_t)asked->member->count + (size_t)found->effect];
    o->demand = *from;
    o->demand.limit = &from->limit[found->effect];
    o->demand.limit_least = from->limit_least == NULL ? NULL : &from->limit_least[found->effect];
    o->demand.scale = scale;
    o->demand.lane_share = NULL;
    for (size_t t = 0; t < traffics; t++) {
        o->member.reached[t] = (ss_reached){.factor = SS_INFINITY, .linear = SS_INFINITY, .effect = -1};
        o->member.tip[2 * t].multiple = o->member.tip[2 * t + 1].multiple = SS_INFINITY;
    }
    o->member.reached[asked->traffic] = *found;
    o->member.reached[asked->traffic].effect = 0;
    return SS_OK;
}

static ss_status make_task(alone *o, ss_reach_worker *worker, const ss_reach_asked *asked, ss_error *error) {
    static const int first = 0;
    const ss_reacher *const reach = worker->reach;
    const size_t traffics = (size_t)reach->placements->traffic_count, n = (size_t)reach->n;
    const ss_traffic *const traffic = &reach->placements->traffic[asked->traffic];
    const ss_crossing *const crossing = &reach->mesh->bridge->crossings[traffic->crossing];
    ss_status status = SS_OK;
    SS_TRY(ss_reach_survey(worker, &o->member, &o->job, error));
    o->job.kept = ss_arena_alloc(&o->arena, traffics, sizeof *o->job.kept);
    SS_TRY(o->job.kept == NULL ? ss_no_memory(error) : SS_OK);
    for (size_t t = 0; t < traffics; t++) {
        o->job.kept[t].live = ss_arena_alloc(&o->arena, n + 1, sizeof(double));
        o->job.kept[t].lane_live = ss_arena_alloc(&o->arena, n + 1, sizeof(double));
        SS_TRY(o->job.kept[t].live == NULL || o->job.kept[t].lane_live == NULL ? ss_no_memory(error) : SS_OK);
    }
    o->task = (ss_reach_exact_task){.job = &o->job, .effect = &first, .lanes = 1, .traffic = asked->traffic};
    o->abreast = (ss_abreast){.x = &o->task,
                              .traffic = traffic,
                              .crossing = crossing,
                              .same = crossing->vehicle == crossing->beside,
                              .all = true,
                              .error = error};
    worker->effects[0] = o->member.effects[0];
    ss_reach_begin(worker, o->job.field, ss_effect_of_spring(&worker->effects[0]) ? NULL : worker->effects,
                   1);
    o->abreast.live = ss_alloc(n + 1, sizeof *o->abreast.live);
    SS_TRY(o->abreast.live == NULL ? ss_no_memory(error) : SS_OK);
    SS_TRY(ss_abreast_collect(&o->abreast, 0));
    if (!o->abreast.same) {
        SS_TRY(ss_abreast_collect(&o->abreast, 1));
    }
    SS_TRY(ss_proof_create(&o->task, &o->abreast, &o->proof));
    double *const work = ss_arena_alloc(&o->arena, ss_halves_work(reach->n) + 1, sizeof *work);
    SS_TRY(work == NULL ? ss_no_memory(error) : SS_OK);
    o->proof.norm = ss_halves_norm(reach->n, reach->S, o->job.opening, work);
done:
    return status;
}

/* What was full below what is proven was followed, and the least of it kept. */
static void take_proof(alone *o, int traffic) {
    ss_reached *const best = &o->member.reached[traffic];
    const double scale = o->demand.scale[traffic];
    double least = ss_min(o->proof.multiple, best->factor * scale);
    for (int i = 0; i < o->demand.dead_count && !o->demand.over_dead; i++) {
        least = ss_min(least, o->member.tip[2 * traffic + i].multiple);
    }
    best->proved = least / scale;
    best->arrangements = ss_proof_arrangements(&o->proof);
}

static ss_status search_bracket(alone *o, int traffic, double below) {
    ss_reached *const best = &o->member.reached[traffic];
    const bool bounded = isfinite(o->proof.norm), once = !bounded || below > 0.0;
    const double scale = o->demand.scale[traffic], found = best->factor * scale;
    bool done = false;
    for (int i = 0; i < (once ? 1 : SHARES) && !done; i++) {
        o->proof.multiple = below > 0.0 ? below * scale : ss_min(shares[i] * found, best->factor * scale);
        o->proof.work = once ? WORK_ONCE : WORK;
        const ss_status status = ss_proof_pass(&o->proof, &done);
        if (status != SS_OK) {
            return status;
        }
    }
    const bool lowered = best->factor * scale < found;
    best->local = best->local || (!done && lowered);
    if (done && bounded && (below == 0.0 || lowered)) {
        take_proof(o, traffic);
    }
    return SS_OK;
}

/* A worse arrangement takes the place of what was found. */
static void hand_back(const alone *o, const ss_reach_asked *asked, int traffics) {
    const size_t result = (size_t)asked->demand * (size_t)traffics + (size_t)asked->traffic;
    ss_reached *const out = &asked->member->reached[result];
    const int effect = out->effect;
    *out = o->member.reached[asked->traffic];
    out->effect = effect;
    for (int i = 0; i < 2; i++) {
        const ss_reach_tip *const tip = &o->member.tip[2 * asked->traffic + i];
        if (tip->multiple < asked->member->tip[2 * result + (size_t)i].multiple) {
            asked->member->tip[2 * result + (size_t)i] = *tip;
        }
    }
}

static ss_status prove_one(ss_reach_worker *worker, const ss_reach_asked *asked, ss_error *error) {
    const int traffics = worker->reach->placements->traffic_count;
    ss_status status = SS_OK;
    alone o = {.arena = {0}};
    SS_TRY(make_member(&o, worker->reach, asked));
    const double before = o.member.reached[asked->traffic].factor;
    SS_TRY(make_task(&o, worker, asked, error));
    SS_TRY(search_bracket(&o, asked->traffic, asked->below));
    ss_reached *const found = &o.member.reached[asked->traffic];
    if (found->factor < before) {
        SS_TRY(ss_reach_confirm(&o.task, error));
    }
    found->proved = ss_min(found->proved, found->factor);
    hand_back(&o, asked, traffics);
done:
    ss_proof_destroy(&o.proof);
    ss_abreast_destroy(&o.abreast);
    ss_arena_destroy(&o.job.arena);
    ss_arena_destroy(&o.arena);
    return status;
}

/* ---- all of them -------------------------------------------------------------------------------- */

static bool is_worth_it(const ss_reacher *reach, const ss_reach_asked *asked) {
    const ss_reached *const found =
        &asked->member->reached[asked->demand * reach->placements->traffic_count + asked->traffic];
    return found->effect >= 0 && found->factor > 0.0 && isfinite(found->factor) && found->proved == 0.0;
}

ss_status ss_reach_prove(const ss_reacher *reach, const ss_reach_asked *asked, int count, ss_error *error) {
    ss_status status = SS_OK;
    ss_error first = {0};
    int failed = count;
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
            ss_status own = made;
            if (own == SS_OK && is_worth_it(reach, &asked[i])) {
                own = prove_one(&worker, &asked[i], &cause);
            }
#ifdef _OPENMP
#pragma omp critical(sillspan_reach)
#endif
            if (own != SS_OK && i < failed) {
                failed = i;
                status = own;
                first = cause;
            }
        }
        ss_reach_worker_destroy(&worker);
    }
    const char *const message = first.message[0] == '\0' ? ss_status_text(status) : first.message;
    return status == SS_OK ? SS_OK : ss_error_set(error, status, "%s", message);
}
