/* reach_abreast.c - the worst trucks in several lanes: exactly within a pattern of open bearings, and from
 * pattern to pattern. */
#include "response/reach_abreast.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* Patterns tried for one effect. */
enum { PATTERNS_MOST = 6 };

/* ---- one pattern -------------------------------------------------------------------------------- */

static double value_of(const ss_abreast_side *side, int entry, int lane, const double *weight, int n) {
    double value = side->closed[(size_t)entry * SS_TILE + (size_t)lane];
    for (int k = 0; k < n; k++) value += weight[k] * side->live[(size_t)entry * (size_t)n + (size_t)k];
    return value;
}

static const ss_lane_load *lane_on(const ss_abreast *a, int lane, bool most, int track, double *by) {
    return ss_reach_lane_on(a->x, &(ss_reach_lane_key){a->demand, lane, a->pattern, most, a->weight}, track,
                            by);
}

static void fill_values(ss_abreast *a, int which, int lane, bool most) {
    const ss_abreast_side *const side = &a->side[which];
    const ss_placements *const placements = a->x->job->worker->reach->placements;
    const int n = a->x->job->worker->reach->n;
    int track = -1;
    double of_lane = 0.0;
    bool used = true;
    for (int i = 0; i < side->count; i++) {
        if (side->entry[i].position.track != track) {
            track = side->entry[i].position.track;
            const ss_vehicle_use use = placements->trains[placements->tracks[track].train].use;
            used = (ss_lane_use(use, &a->x->job->member->effects[0]) & (most ? 2u : 1u)) != 0;
            of_lane = ss_reach_lane_value(
                a->x, &(ss_reach_lane_key){a->demand, lane, a->pattern, most, a->weight}, track);
        }
        const double value = value_of(side, i, lane, a->weight, n) + of_lane;
        side->value[i] = used ? (most ? value : -value) : -SS_INFINITY;
    }
}

void ss_abreast_take(ss_abreast *a, int lane, int demand, bool most, int pattern) {
    const ss_reach_job *const job = a->x->job;
    a->demand = demand;
    a->pattern = pattern;
    ss_patterns_weigh(&job->worker->patterns, pattern,
                      job->opening + (size_t)a->x->effect[lane] * (size_t)job->worker->reach->n, a->weight);
    fill_values(a, 0, lane, most);
    if (!a->same) {
        fill_values(a, 1, lane, most);
    }
}

/* The worst entry of each slot. */
static void fill_best(ss_abreast *a, int which) {
    const ss_abreast_side *const side = &a->side[which];
    for (int s = 0; s < side->slot_count; s++) {
        a->best[which][s] = -SS_INFINITY;
        a->best_entry[which][s] = -1;
    }
    for (int i = 0; i < side->count; i++) {
        const int slot = side->entry[i].slot;
        if (side->value[i] > a->best[which][slot]) {
            a->best[which][slot] = side->value[i];
            a->best_entry[which][slot] = i;
        }
    }
}

/* The worst trucks in the pattern at hand. */
static ss_arrangement worst_in_pattern(ss_abreast *a) {
    fill_best(a, 0);
    if (!a->same) {
        fill_best(a, 1);
    }
    const ss_lane_pick pick =
        ss_lane_choose(&a->choice, (const double *const[SS_ABREAST_MAX]){a->best[0], a->best[1]});
    ss_arrangement worst = {.own = -1, .value = pick.value};
    for (int i = 0; pick.room && i < a->crossing->lanes; i++) {
        worst.own = worst.own < 0 && pick.which[i] == 0 ? i : worst.own;
        worst.entry[i] = a->best_entry[pick.which[i]][pick.slot[i]];
    }
    return worst;
}

/* ---- from pattern to pattern -------------------------------------------------------------------- */

/* All trucks of an ss_arrangement together. */
void ss_abreast_together(ss_abreast *a, int lane, bool most, const ss_arrangement *trucks,
                         ss_reach_stand *stand) {
    const size_t n = (size_t)a->x->job->worker->reach->n;
    memset(a->live, 0, n * sizeof *a->live);
    ss_reach_stand_begin(stand, &(ss_position){.track = -1}, a->live, true);
    stand->closed[lane] = 0.0;
    for (int i = 0; i < a->crossing->lanes; i++) {
        const ss_abreast_side *const side = &a->side[i == trucks->own || a->same ? 0 : 1];
        const size_t entry = (size_t)trucks->entry[i];
        stand->closed[lane] += side->closed[entry * SS_TILE + (size_t)lane];
        for (size_t k = 0; k < n; k++) a->live[k] += side->live[entry * n + k];
        double by = 0.0;
        const ss_lane_load *const load = lane_on(a, lane, most, side->entry[entry].position.track, &by);
        if (load != NULL) {
            stand->closed[lane] += by * load->closed;
            for (size_t k = 0; k < n; k++) a->live[k] += by * load->live[k];
        }
    }
    stand->position = a->side[trucks->own == 0 || a->same ? 0 : 1].entry[trucks->entry[0]].position;
}

/* The lane loads of what was found. Beyond the room for stretches they count, and are not listed. */
static void keep_lanes(const ss_abreast *a, int lane, const ss_reached *best, ss_reach_kept *kept) {
    const size_t n = (size_t)a->x->job->worker->reach->n;
    kept->loaded = false;
    kept->lane_closed = 0.0;
    memset(kept->lane_live, 0, n * sizeof *kept->lane_live);
    for (int i = 0; i < best->truck_count; i++) {
        double by = 0.0;
        const ss_lane_load *const load = lane_on(a, lane, best->most, best->position[i].track, &by);
        if (load == NULL) {
            continue;
        }
        ss_reached_lane *const out = ss_reach_lane_of(a->x->job, a->demand, a->x->traffic);
        out->count = kept->loaded ? out->count : 0;
        kept->loaded = true;
        kept->lane_closed += by * load->closed;
        for (size_t k = 0; k < n; k++) kept->lane_live[k] += by * load->live[k];
        for (int s = 0; s < load->count && out->count < SS_LANE_STRETCHES; s++) {
            out->stretch[out->count] = load->stretch[s];
            out->stretch[out->count++].truck = i;
        }
    }
}

static void positions_of(const ss_abreast *a, const ss_arrangement *trucks, ss_position *position) {
    for (int i = 0; i < a->crossing->lanes; i++) {
        const ss_abreast_side *const side = &a->side[i == trucks->own || a->same ? 0 : 1];
        position[i] = side->entry[trucks->entry[i]].position;
    }
}

void ss_abreast_note_tipped(const ss_abreast *a, int demand, int dead, const ss_arrangement *trucks,
                            const ss_reach_stand *stand) {
    ss_position position[SS_LANES_MAX];
    positions_of(a, trucks, position);
    ss_reach_note_tipped(a->x, demand, dead, stand, position, a->crossing->lanes);
}

void ss_abreast_keep(ss_abreast *a, int lane, int demand, int dead, bool most, const ss_arrangement *trucks,
                     const ss_reach_stand *stand, double factor) {
    ss_reach_job *const job = a->x->job;
    ss_reached *const best = ss_reach_result(job, demand, a->x->traffic);
    if (!ss_reach_replaces(best, factor, &stand->position, a->x->effect[lane])) {
        return;
    }
    *best = (ss_reached){.factor = factor,
                         .effect = a->x->effect[lane],
                         .dead = dead,
                         .most = most,
                         .truck_count = a->crossing->lanes};
    positions_of(a, trucks, best->position);
    ss_reach_kept *const kept = ss_reach_kept_of(job, demand, a->x->traffic);
    kept->closed = stand->closed[lane];
    memcpy(kept->live, stand->live, (size_t)job->worker->reach->n * sizeof *kept->live);
    keep_lanes(a, lane, best, kept);
}

/* One effect and sign, for one demand under one dead load. */
typedef struct sought {
    int lane, demand, dead;
    bool most;
} sought;

/* The worst trucks of one pattern, followed. */
typedef struct tried {
    ss_arrangement trucks; /* own -1: there is no room */
    double multiple;
    int pattern, next; /* that they are the worst of; at their limit */
} tried;

static ss_status try_pattern(ss_abreast *a, const sought *of, int pattern, tried *out) {
    ss_reach_job *const job = a->x->job;
    const ss_reacher *const reach = job->worker->reach;
    const int e = a->x->effect[of->lane];
    ss_abreast_take(a, of->lane, of->demand, of->most, pattern);
    *out = (tried){worst_in_pattern(a), SS_INFINITY, pattern, pattern};
    if (out->trucks.own < 0) {
        return SS_OK;
    }
    ss_reach_stand stand;
    ss_abreast_together(a, of->lane, of->most, &out->trucks, &stand);
    const ss_status status =
        ss_reach_multiple_at(a->x, of->lane, of->demand, of->dead, of->most, &stand, &out->multiple);
    if (status != SS_OK) {
        return status;
    }
    ss_abreast_note_tipped(a, of->demand, of->dead, &out->trucks, &stand);
    ss_abreast_keep(a, of->lane, of->demand, of->dead, of->most, &out->trucks, &stand,
                    out->multiple / ss_reach_scale(job, of->demand, a->x->traffic, e));
    if (reach->n > 0 && isfinite(out->multiple)) {
        const int next = ss_growth_pattern(&stand.growth[of->dead], out->multiple);
        out->next = next < 0 ? pattern : next;
    }
    return SS_OK;
}

/* From pattern to pattern, until the worst trucks of one bring about that very one. */
static ss_status search_sign(ss_abreast *a, const sought *of) {
    int pattern = a->x->job->worker->reach->dead_pattern[of->dead], met[PATTERNS_MOST], count = 0;
    tried best = {.trucks = {.own = -1}, .multiple = SS_INFINITY};
    bool round = false;
    const ss_status tidy = ss_reach_tidy(a->x);
    if (tidy != SS_OK) {
        return tidy;
    }
    while (!round && count < PATTERNS_MOST) {
        tried here;
        met[count++] = pattern;
        const ss_status status = try_pattern(a, of, pattern, &here);
        if (status != SS_OK || here.trucks.own < 0) {
            return status;
        }
        if (here.multiple < best.multiple || best.trucks.own < 0) {
            best = here;
        }
        if (here.next == pattern) {
            return SS_OK;
        }
        for (int i = 0; i < count; i++) round = round || met[i] == here.next;
        pattern = here.next;
    }
    ss_abreast_take(a, of->lane, of->demand, of->most, best.pattern);
    const ss_status status =
        ss_abreast_turns(a, of->lane, of->demand, of->dead, of->most, &best.trucks, &best.multiple);
    ss_reached *const result = ss_reach_result(a->x->job, of->demand, a->x->traffic);
    result->local = result->local || (result->effect == a->x->effect[of->lane] && result->dead == of->dead &&
                                      result->most == of->most);
    return status;
}

static ss_status search_all(ss_abreast *a, const unsigned *asked) {
    const ss_reach_member *const member = a->x->job->member;
    ss_status status = SS_OK;
    for (int q = 0; q < member->demand_count; q++) {
        const ss_demand *const demand = &member->demands[q];
        for (int lane = 0; lane < a->x->lanes; lane++) {
            const int e = a->x->effect[lane];
            if ((asked[q] >> lane & 1u) == 0 || isnan(demand->limit[e]) ||
                !(ss_reach_scale(a->x->job, q, a->x->traffic, e) > 0.0)) {
                continue;
            }
            for (int i = 0; i < demand->dead_count; i++) {
                for (int most = !demand->least_too; most < 2; most++) {
                    SS_TRY(search_sign(a, &(sought){lane, q, demand->dead[i], most == 1}));
                }
            }
        }
    }
done:
    return status;
}

/* ---- public ------------------------------------------------------------------------------------- */

void ss_abreast_destroy(ss_abreast *a) {
    for (int i = 0; i < 2; i++) {
        ss_free(a->side[i].entry);
        ss_free(a->side[i].closed);
        ss_free(a->side[i].live);
        ss_free(a->side[i].value);
        ss_free(a->side[i].y);
        ss_free(a->best[i]);
        ss_free(a->best_entry[i]);
    }
    ss_free(a->live);
    ss_free(a->weight);
    ss_free(a->choice.sum);
    ss_free(a->choice.through);
}

ss_status ss_reach_abreast(ss_reach_exact_task *x, const unsigned *asked, ss_error *error) {
    const ss_reacher *const reach = x->job->worker->reach;
    const ss_traffic *const traffic = &reach->placements->traffic[x->traffic];
    const ss_crossing *const crossing = &reach->mesh->bridge->crossings[traffic->crossing];
    const size_t n = (size_t)reach->n + 1;
    ss_abreast a = {.x = x,
                    .traffic = traffic,
                    .crossing = crossing,
                    .same = crossing->vehicle == crossing->beside,
                    .error = error};
    ss_status status = SS_OK;
    if (crossing->has_third) {
        return SS_OK; /* the lanes of a load model, which is not rated */
    }
    SS_TRY(ss_abreast_collect(&a, 0));
    if (!a.same) {
        SS_TRY(ss_abreast_collect(&a, 1));
    }
    a.choice = (ss_lane_choice){.bridge = reach->mesh->bridge,
                                .crossing = crossing,
                                .slot_count = {a.side[0].slot_count, a.side[1].slot_count},
                                .y = {a.side[0].y, a.side[1].y}};
    const size_t slots =
        (size_t)(a.side[0].slot_count > a.side[1].slot_count ? a.side[0].slot_count : a.side[1].slot_count) +
        1;
    for (int i = 0; i < 2; i++) a.side[i].value = ss_alloc((size_t)a.side[i].count + 1, sizeof(double));
    a.live = ss_alloc(n, sizeof *a.live);
    a.weight = ss_alloc(n, sizeof *a.weight);
    a.choice.sum = ss_alloc(SS_LANES_MAX * slots, sizeof *a.choice.sum);
    a.choice.through = ss_alloc(SS_LANES_MAX * slots, sizeof *a.choice.through);
    for (int i = 0; i < 2; i++) {
        a.best[i] = ss_alloc(slots, sizeof *a.best[i]);
        a.best_entry[i] = ss_alloc(slots, sizeof *a.best_entry[i]);
    }
    SS_TRY(a.live == NULL || a.weight == NULL || a.choice.sum == NULL || a.choice.through == NULL ||
                   a.best[0] == NULL || a.best[1] == NULL || a.best_entry[0] == NULL ||
                   a.best_entry[1] == NULL || a.side[0].value == NULL || a.side[1].value == NULL
               ? ss_no_memory(error)
               : SS_OK);
    status = search_all(&a, asked);
    if (status != SS_OK) {
        ss_error_set(error, status, "the contact of the bearings under trucks abreast was not found");
    }
done:
    ss_abreast_destroy(&a);
    return status;
}
