/* reach_abreast.c - the worst trucks in several lanes: exactly within a pattern of open bearings, and from
 * pattern to pattern. */
#include "response/reach_abreast.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* Places of a strip whose bounds are below this share of the strip's largest do not bear the worst truck
 * there. */
#define PLACE_WORTH 0.5f

/* Patterns tried for one effect. */
enum { PATTERNS_MOST = 6 };

/* Multiples that agree within this share are one. */
#define MEETS 1e-6

typedef struct abreast {
    ss_reach_exact_task *x;
    const ss_traffic *traffic;
    const ss_crossing *crossing;
    ss_abreast_side side[2];
    bool same;             /* both vehicles are one */
    double *live, *weight; /* n */
    /* by slot: of one side, the best entry and its effect; of one lane, the best sum up to it */
    double *best[2];
    int *best_entry[2];
    double *sum;  /* lanes x slots */
    int *through; /* lanes x slots: slot in the lane before */
    size_t slots;
    ss_error *error;
} abreast;

/* ---- places ------------------------------------------------------------------------------------- */

static ss_status add_entry(abreast *a, ss_abreast_side *side, const ss_position *position,
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

static ss_status add_stand(abreast *a, ss_abreast_side *side, int track, const ss_axle_at *at, double front,
                           bool on_beam, bool left) {
    ss_reach_worker *const w = a->x->job->worker;
    const ss_course *const course = &w->reach->courses.items[w->reach->courses.of_track[track]];
    const ss_position position = {track, front, on_beam};
    double closed[SS_TILE];
    ss_course_sum(&w->lines, course, track, at, left, closed);
    ss_reach_reactions(w->reach, course, track, at, left, w->live);
    return add_entry(a, side, &position, closed);
}

static ss_status add_block(abreast *a, ss_abreast_side *side, int track, int block) {
    ss_reach_worker *const w = a->x->job->worker;
    const ss_course *const course = &w->reach->courses.items[w->reach->courses.of_track[track]];
    const ss_course_block *const b = &course->block[block];
    const size_t axles = (size_t)course->vehicle->axle_count;
    ss_status status = SS_OK;
    for (int i = b->first; i <= b->last; i++) {
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
static void mark_worth(abreast *a, int course, int strip, bool *worth) {
    ss_reach_worker *const w = a->x->job->worker;
    const ss_reacher *const reach = w->reach;
    const int blocks = reach->courses.items[course].block_count, t = a->x->traffic;
    float most[SS_TILE] = {0}, least[SS_TILE] = {0}, high[SS_TILE], low[SS_TILE];
    for (int b = 0; b < blocks; b++) worth[b] = false;
    for (int pass = 0; pass < 2; pass++) {
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

static ss_status collect_side(abreast *a, int which) {
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

/* ---- one pattern -------------------------------------------------------------------------------- */

static double value_of(const ss_abreast_side *side, int entry, int lane, const double *weight, int n) {
    double value = side->closed[(size_t)entry * SS_TILE + (size_t)lane];
    for (int k = 0; k < n; k++) value += weight[k] * side->live[(size_t)entry * (size_t)n + (size_t)k];
    return value;
}

/* The worst entry of each slot: value times sign. */
static void fill_best(abreast *a, int which, int lane, double sign) {
    const ss_abreast_side *const side = &a->side[which];
    const int n = a->x->job->worker->reach->n;
    for (int s = 0; s < side->slot_count; s++) {
        a->best[which][s] = -SS_INFINITY;
        a->best_entry[which][s] = -1;
    }
    for (int i = 0; i < side->count; i++) {
        const double value = sign * value_of(side, i, lane, a->weight, n);
        const int slot = side->entry[i].slot;
        if (value > a->best[which][slot]) {
            a->best[which][slot] = value;
            a->best_entry[which][slot] = i;
        }
    }
}

/* The worst trucks with the crossing's own vehicle in lane `own`; entries of each lane in `entry`. -INFINITY:
 * there is no room. */
static double through_lanes(abreast *a, int own, int *entry) {
    const ss_bridge *const bridge = a->x->job->worker->reach->mesh->bridge;
    const ss_lane_rule *const rule = ss_lane_rule_of(bridge, a->crossing->vehicle);
    const int lanes = a->crossing->lanes;
    double gauge[SS_LANES_MAX], low[SS_LANES_MAX], high[SS_LANES_MAX];
    int which[SS_LANES_MAX];
    for (int i = 0; i < lanes; i++) {
        which[i] = i == own || a->same ? 0 : 1;
        gauge[i] = bridge->vehicles[which[i] == 0 ? a->crossing->vehicle : a->crossing->beside].gauge_m;
    }
    if (!ss_crossing_ranges(bridge, a->crossing, gauge, low, high)) {
        return -SS_INFINITY;
    }
    for (int i = 0; i < lanes; i++) {
        const ss_abreast_side *const side = &a->side[which[i]];
        const ss_abreast_side *const before = i > 0 ? &a->side[which[i - 1]] : NULL;
        const double apart =
            i == 0 || rule->fixed ? 0.0 : 0.5 * (gauge[i - 1] + gauge[i]) + rule->between_wheels;
        double most = -SS_INFINITY;
        int most_slot = -1, next = 0;
        for (int s = 0; s < side->slot_count; s++) {
            double *const sum = &a->sum[(size_t)i * a->slots + (size_t)s];
            for (;
                 before != NULL && next < before->slot_count && before->y[next] <= side->y[s] - apart + 1e-9;
                 next++) {
                const double there = a->sum[(size_t)(i - 1) * a->slots + (size_t)next];
                if (there > most) {
                    most = there;
                    most_slot = next;
                }
            }
            const bool within = side->y[s] >= low[i] - 1e-9 && side->y[s] <= high[i] + 1e-9;
            *sum = within ? a->best[which[i]][s] + (i > 0 ? most : 0.0) : -SS_INFINITY;
            a->through[(size_t)i * a->slots + (size_t)s] = most_slot;
        }
    }
    const ss_abreast_side *const last = &a->side[which[lanes - 1]];
    int slot = -1;
    double best = -SS_INFINITY;
    for (int s = 0; s < last->slot_count; s++) {
        const double sum = a->sum[(size_t)(lanes - 1) * a->slots + (size_t)s];
        if (sum > best) {
            best = sum;
            slot = s;
        }
    }
    for (int i = lanes - 1; slot >= 0 && i >= 0; i--) {
        entry[i] = a->best_entry[which[i]][slot];
        slot = a->through[(size_t)i * a->slots + (size_t)slot];
    }
    return best;
}

/* Trucks of one arrangement. */
typedef struct arrangement {
    int own;
    int entry[SS_LANES_MAX];
    double value; /* sum of live effects times sign, in the pattern at hand */
} arrangement;

static arrangement worst_in_pattern(abreast *a, int lane, double sign) {
    arrangement best = {.own = -1, .value = -SS_INFINITY};
    fill_best(a, 0, lane, sign);
    if (!a->same) {
        fill_best(a, 1, lane, sign);
    }
    for (int own = 0; own < (a->same ? 1 : a->crossing->lanes); own++) {
        arrangement here = {.own = own};
        here.value = through_lanes(a, own, here.entry);
        if (here.value > best.value) {
            best = here;
        }
    }
    return best;
}

/* ---- from pattern to pattern -------------------------------------------------------------------- */

/* All trucks of an arrangement together. */
static void put_together(abreast *a, int lane, const arrangement *trucks, ss_reach_stand *stand) {
    const size_t n = (size_t)a->x->job->worker->reach->n;
    memset(a->live, 0, n * sizeof *a->live);
    ss_reach_stand_begin(stand, &(ss_position){.track = -1}, a->live, true);
    stand->closed[lane] = 0.0;
    for (int i = 0; i < a->crossing->lanes; i++) {
        const ss_abreast_side *const side = &a->side[i == trucks->own || a->same ? 0 : 1];
        const size_t entry = (size_t)trucks->entry[i];
        stand->closed[lane] += side->closed[entry * SS_TILE + (size_t)lane];
        for (size_t k = 0; k < n; k++) a->live[k] += side->live[entry * n + k];
    }
    stand->position = a->side[trucks->own == 0 || a->same ? 0 : 1].entry[trucks->entry[0]].position;
}

static void keep(abreast *a, int lane, int demand, int dead, bool most, const arrangement *trucks,
                 const ss_reach_stand *stand, double factor) {
    ss_reach_job *const job = a->x->job;
    ss_reached *const best = ss_reach_result(job, demand, a->x->traffic);
    if (!ss_reach_replaces(best, factor, &stand->position, a->x->effect[lane])) {
        return;
    }
    const double bound = best->bound;
    *best = (ss_reached){.factor = factor,
                         .bound = bound,
                         .effect = a->x->effect[lane],
                         .dead = dead,
                         .most = most,
                         .truck_count = a->crossing->lanes};
    for (int i = 0; i < a->crossing->lanes; i++) {
        const ss_abreast_side *const side = &a->side[i == trucks->own || a->same ? 0 : 1];
        best->position[i] = side->entry[trucks->entry[i]].position;
    }
    ss_reach_kept *const kept = ss_reach_kept_of(job, demand, a->x->traffic);
    kept->closed = stand->closed[lane];
    memcpy(kept->live, stand->live, (size_t)job->worker->reach->n * sizeof *kept->live);
}

static int pattern_at(const ss_growth *growth, double multiple) {
    int i = growth->count - 1;
    while (i > 0 && growth->from[i] > multiple) i--;
    return i < 0 ? 0 : growth->pattern[i];
}

/* One effect and sign for one demand under one dead load. */
static ss_status search_sign(abreast *a, int lane, int demand, int dead, bool most) {
    ss_reach_job *const job = a->x->job;
    ss_reach_worker *const w = job->worker;
    const ss_reacher *const reach = w->reach;
    const int e = a->x->effect[lane];
    const double sign = most ? 1.0 : -1.0, target = ss_reach_target(job, demand, dead, e, most),
                 scale = ss_reach_scale(job, demand, a->x->traffic, e);
    const double *const opening = job->opening + (size_t)e * (size_t)reach->n;
    int pattern = reach->dead_pattern[dead], met[PATTERNS_MOST], met_count = 0;
    double least_bound = SS_INFINITY, least_found = SS_INFINITY;
    bool settled = false;
    while (met_count < PATTERNS_MOST && !settled) {
        met[met_count++] = pattern;
        ss_patterns_weigh(&w->patterns, pattern, opening, a->weight);
        const arrangement trucks = worst_in_pattern(a, lane, sign);
        if (trucks.own < 0) {
            return SS_OK;
        }
        double in_pattern = job->dead_closed[(size_t)dead * (size_t)job->member->count + (size_t)e];
        for (int k = 0; k < reach->n; k++) in_pattern += a->weight[k] * reach->dead[dead].r_dead[k];
        const double room = sign * (target - in_pattern);
        const double bound = trucks.value > 0.0 ? ss_max(room, 0.0) / trucks.value : SS_INFINITY;
        ss_reach_stand stand;
        put_together(a, lane, &trucks, &stand);
        double multiple;
        const ss_status status = ss_reach_multiple_at(a->x, lane, demand, dead, most, &stand, &multiple);
        if (status != SS_OK) {
            return status;
        }
        keep(a, lane, demand, dead, most, &trucks, &stand, multiple / scale);
        least_found = ss_min(least_found, multiple);
        const double at = isfinite(multiple) ? multiple : ss_min(bound, SS_REACH_MOST);
        const int next = reach->n == 0 ? 0 : pattern_at(&stand.growth[dead], at);
        /* The pattern is the one that its own worst trucks bring about: effects are true there. */
        settled = next == pattern || ss_close(bound, multiple, MEETS);
        if (settled) {
            least_bound = least_found;
            break;
        }
        least_bound = ss_min(least_bound, bound);
        for (int i = 0; i < met_count; i++) settled = settled || met[i] == next;
        if (settled) {
            break; /* it goes round: bracketed */
        }
        pattern = next;
    }
    ss_reached *const best = ss_reach_result(job, demand, a->x->traffic);
    best->bound = ss_min(best->bound, ss_min(least_bound, least_found) / scale);
    return SS_OK;
}

static ss_status search_all(abreast *a) {
    const ss_reach_member *const member = a->x->job->member;
    ss_status status = SS_OK;
    for (int q = 0; q < member->demand_count; q++) {
        const ss_demand *const demand = &member->demands[q];
        for (int lane = 0; lane < a->x->lanes; lane++) {
            const int e = a->x->effect[lane];
            if (isnan(demand->limit[e]) || !(ss_reach_scale(a->x->job, q, a->x->traffic, e) > 0.0)) {
                continue;
            }
            for (int i = 0; i < demand->dead_count; i++) {
                for (int most = !demand->least_too; most < 2; most++) {
                    SS_TRY(search_sign(a, lane, q, demand->dead[i], most == 1));
                }
            }
        }
    }
done:
    return status;
}

/* ---- public ------------------------------------------------------------------------------------- */

static void destroy(abreast *a) {
    for (int i = 0; i < 2; i++) {
        ss_free(a->side[i].entry);
        ss_free(a->side[i].closed);
        ss_free(a->side[i].live);
        ss_free(a->side[i].y);
        ss_free(a->best[i]);
        ss_free(a->best_entry[i]);
    }
    ss_free(a->live);
    ss_free(a->weight);
    ss_free(a->sum);
    ss_free(a->through);
}

ss_status ss_reach_abreast(ss_reach_exact_task *x, ss_error *error) {
    const ss_reacher *const reach = x->job->worker->reach;
    const ss_traffic *const traffic = &reach->placements->traffic[x->traffic];
    const ss_crossing *const crossing = &reach->mesh->bridge->crossings[traffic->crossing];
    const size_t n = (size_t)reach->n + 1;
    abreast a = {.x = x,
                 .traffic = traffic,
                 .crossing = crossing,
                 .same = crossing->vehicle == crossing->beside,
                 .error = error};
    ss_status status = SS_OK;
    SS_TRY(collect_side(&a, 0));
    if (!a.same) {
        SS_TRY(collect_side(&a, 1));
    }
    a.slots =
        (size_t)(a.side[0].slot_count > a.side[1].slot_count ? a.side[0].slot_count : a.side[1].slot_count) +
        1;
    a.live = ss_alloc(n, sizeof *a.live);
    a.weight = ss_alloc(n, sizeof *a.weight);
    a.sum = ss_alloc(SS_LANES_MAX * a.slots, sizeof *a.sum);
    a.through = ss_alloc(SS_LANES_MAX * a.slots, sizeof *a.through);
    for (int i = 0; i < 2; i++) {
        a.best[i] = ss_alloc(a.slots, sizeof *a.best[i]);
        a.best_entry[i] = ss_alloc(a.slots, sizeof *a.best_entry[i]);
    }
    SS_TRY(a.live == NULL || a.weight == NULL || a.sum == NULL || a.through == NULL || a.best[0] == NULL ||
                   a.best[1] == NULL || a.best_entry[0] == NULL || a.best_entry[1] == NULL
               ? ss_no_memory(error)
               : SS_OK);
    status = search_all(&a);
    if (status != SS_OK) {
        ss_error_set(error, status, "the contact of the bearings under trucks abreast was not found");
    }
done:
    destroy(&a);
    return status;
}
