/* reach_prove_pairs.c - all arrangements of two trucks abreast: bounded by their halves, else solved, else
 * followed. */
#include "base/numeric.h"
#include "base/try.h"
#include "response/clones.h"
#include "response/halves.h"
#include "response/reach_prove.h"

/* Work in pairs that are compared: contact of one solved; one followed from no live load on. */
enum { SOLVED = 25, FOLLOWED = 400 };

/* Of effects that the gap does not bound, arrangements are looked into whose halves leave no more than this
 * share of what dead load leaves. */
#define LIKELY 0.25

/* Places this near are as far apart as they have to be (m). */
#define HAIR 1e-9

/* The places of a truck on the left and of one on the right, being put together. */
typedef struct pairing {
    ss_proof *p;
    ss_proof_side *left, *right;
    const ss_abreast_side *left_from, *right_from;
    int own; /* lane of the crossing's own truck */
    double apart, low[SS_LANES_MAX], high[SS_LANES_MAX];
} pairing;

SS_CLONES
static double gap_of(const double *restrict a, const double *restrict b, int n) {
    double sum = 0.0;
    for (int k = 0; k < n; k++) sum += a[k] * b[n + k] + a[n + k] * b[k];
    return sum;
}

/* ---- one arrangement ---------------------------------------------------------------------------- */

static ss_status follow(const pairing *of, int i, int j) {
    ss_proof *const p = of->p;
    const ss_arrangement trucks = {.own = of->own, .entry = {of->left->entry[i], of->right->entry[j]}};
    const bool most = p->sign > 0.0;
    ss_reach_stand stand;
    double multiple;
    p->work -= FOLLOWED;
    ss_abreast_together(p->a, 0, most, &trucks, &stand);
    const ss_status status = ss_reach_multiple_at(p->x, 0, 0, p->dead, most, &stand, &multiple);
    if (status != SS_OK) {
        p->stuck = true;
        return status == SS_ERROR_MEMORY ? status : SS_OK;
    }
    ss_abreast_note_tipped(p->a, 0, p->dead, &trucks, &stand);
    ss_abreast_keep(p->a, 0, 0, p->dead, most, &trucks, &stand,
                    multiple / ss_reach_scale(p->x->job, 0, p->x->traffic, 0));
    return SS_OK;
}

/* The contact of the whole, which clears most of those that the halves do not. */
static ss_status solve(const pairing *of, int i, int j) {
    ss_proof *const p = of->p;
    ss_reach_worker *const w = p->x->job->worker;
    const int n = w->reach->n;
    const size_t size = (size_t)n, left = (size_t)of->left->entry[i], right = (size_t)of->right->entry[j];
    const double *const a = of->left_from->live + left * size, *const b = of->right_from->live + right * size;
    p->work -= SOLVED;
    for (size_t k = 0; k < size; k++) p->live[k] = a[k] + b[k];
    const ss_status status =
        ss_patterns_state(&w->patterns, p->dead, p->live, p->multiple, &of->right->hint[j], p->opening);
    if (status == SS_ERROR_MEMORY) {
        return status;
    }
    if (status != SS_OK) {
        return follow(of, i, j);
    }
    const double closed = of->left_from->closed[left * SS_TILE] + of->right_from->closed[right * SS_TILE];
    double *const reaction = p->own;
    ss_patterns_reactions(&w->patterns, of->right->hint[j], reaction);
    ss_halves h = {.norm = p->norm, .whole = p->whole};
    double value = p->x->job->dead_closed[p->dead] + p->multiple * closed;
    for (int k = 0; k < n; k++) {
        value += p->x->job->opening[k] * p->opening[k];
        h.cross += p->opening[k] * p->dead_part[n + k] + reaction[k] * p->dead_part[k];
    }
    h.room = p->limit - p->sign * value;
    const bool clear = isinf(p->norm) ? h.room > 0.0 : ss_halves_clear(&h);
    return clear ? SS_OK : follow(of, i, j);
}

/* ---- all of them -------------------------------------------------------------------------------- */

static bool within(const pairing *of, int lane, double y) {
    return y >= of->low[lane] - HAIR && y <= of->high[lane] + HAIR;
}

/* What a place on the left must leave of the limit for all on the right to be clear with it: by the largest
 * gap and cross that there may be. */
static double room_enough(const pairing *of, int i) {
    const ss_proof *const p = of->p;
    if (isinf(p->norm)) {
        return LIKELY * p->whole;
    }
    if (isinf(of->left->value[i])) {
        return SS_INFINITY;
    }
    const int n = p->x->job->worker->reach->n;
    const double gap = gap_of(of->left->part + (size_t)i * 2 * (size_t)n, of->right->most, n),
                 cross = of->left->cross[i] + of->right->cross_most;
    return ss_max(p->norm * sqrt(gap), p->norm * p->norm * cross / (2.0 * p->whole)) * (1.0 + 1e-9);
}

/* Forgets patterns when they are too many; their numbers are not to be held on to then. */
static ss_status keep_memory(const pairing *of) {
    const ss_reach_worker *const w = of->p->x->job->worker;
    const int before = w->patterns.count, pattern = w->reach->dead_pattern[of->p->dead];
    const ss_status status = ss_reach_tidy(of->p->x);
    for (int j = 0; w->patterns.count < before && j < of->right->count; j++) of->right->hint[j] = pattern;
    return status;
}

static ss_status pair_left(const pairing *of, int i) {
    ss_proof *const p = of->p;
    const int n = p->x->job->worker->reach->n;
    const double *const own = of->left->part + (size_t)i * 2 * (size_t)n;
    const double enough = room_enough(of, i);
    ss_status status = keep_memory(of);
    for (int j = 0; status == SS_OK && j < of->right->count && p->work > 0; j++) {
        ss_halves h = {.norm = p->norm, .whole = p->whole};
        h.room = p->limit - of->left->value[i] - of->right->value[j];
        if (h.room > enough) {
            break;
        }
        if (!within(of, 1, of->right->y[j]) || of->left->y[i] > of->right->y[j] - of->apart + HAIR) {
            continue;
        }
        p->work--;
        if (isfinite(h.room) && isfinite(p->norm)) {
            h.gap = gap_of(own, of->right->part + (size_t)j * 2 * (size_t)n, n);
            h.cross = of->left->cross[i] + of->right->cross[j];
            if (ss_halves_clear(&h)) {
                continue;
            }
        }
        if (isfinite(h.room) || isfinite(p->norm)) {
            status = solve(of, i, j);
        }
    }
    return status;
}

/* Trucks in the order `which` from the left. False: there is no room for them. */
static bool take_order(ss_proof *p, const int *which, pairing *out) {
    const ss_abreast *const a = p->a;
    const ss_bridge *const bridge = p->x->job->worker->reach->mesh->bridge;
    const ss_lane_rule *const rule = ss_lane_rule_of(bridge, a->crossing->vehicle);
    const int first = a->same ? 0 : which[0], second = a->same ? 0 : which[1];
    const double gauge[2] = {bridge->vehicles[ss_crossing_truck(a->crossing, first)].gauge_m,
                             bridge->vehicles[ss_crossing_truck(a->crossing, second)].gauge_m};
    *out = (pairing){.p = p,
                     .left = &p->side[first],
                     .right = &p->side[second],
                     .left_from = &a->side[first],
                     .right_from = &a->side[second],
                     .own = first == 0 ? 0 : 1,
                     .apart = rule->fixed ? 0.0 : 0.5 * (gauge[0] + gauge[1]) + rule->between_wheels};
    return ss_crossing_ranges(bridge, a->crossing, gauge, out->low, out->high);
}

static ss_status pair_order(ss_proof *p, const int *which) {
    pairing of;
    ss_status status = SS_OK;
    if (!take_order(p, which, &of)) {
        return SS_OK;
    }
    for (int i = 0; i < of.left->count && p->work > 0; i++) {
        if (within(&of, 0, of.left->y[i])) {
            SS_TRY(pair_left(&of, i));
        }
    }
done:
    return status;
}

/* Openings and reactions under the dead load at hand, and what it leaves of the limit. */
static void take_dead(ss_proof *p, int dead, bool most) {
    const ss_reach_job *const job = p->x->job;
    const ss_reacher *const reach = job->worker->reach;
    const ss_contact_model *const model = &reach->dead[dead];
    const size_t n = (size_t)reach->n;
    p->dead = dead;
    p->sign = most ? 1.0 : -1.0;
    p->limit = p->sign * ss_reach_target(job, 0, dead, 0, most);
    p->whole = p->limit - p->sign * job->dead_true[dead];
    for (size_t i = 0; i < n; i++) {
        double r = model->r_dead[i];
        for (size_t k = 0; k < n; k++) r += reach->S[i * n + k] * model->u_dead[k];
        p->dead_part[i] = model->u_dead[i];
        p->dead_part[n + i] = model->open_dead[i] ? 0.0 : ss_max(r, 0.0);
    }
}

static ss_status go_through(ss_proof *p, int dead, bool most) {
    const ss_abreast *const a = p->a;
    ss_status status = SS_OK;
    int which[SS_LANES_MAX];
    SS_TRY(ss_reach_tidy(p->x));
    take_dead(p, dead, most);
    if (!(p->whole > 0.0)) {
        p->stuck = true;
        return SS_OK;
    }
    SS_TRY(ss_proof_fill(p, 0));
    if (!a->same) {
        SS_TRY(ss_proof_fill(p, 1));
    }
    for (int number = 0; ss_crossing_order(a->crossing, number, which) && p->work > 0; number++) {
        SS_TRY(pair_order(p, which));
    }
done:
    return status;
}

ss_status ss_proof_pass(ss_proof *p, bool *done) {
    const ss_demand *const demand = &p->x->job->member->demands[0];
    ss_status status = SS_OK;
    p->stuck = false;
    for (int i = 0; i < demand->dead_count; i++) {
        for (int most = demand->least_too ? 0 : 1; most < 2 && p->work > 0 && !p->stuck; most++) {
            SS_TRY(go_through(p, demand->dead[i], most == 1));
        }
    }
    *done = !p->stuck && p->work > 0;
done:
    return status;
}

/* Places of a side at each of its places across. */
static void count_up(const ss_abreast_side *side, double *count) {
    for (int s = 0; s < side->slot_count; s++) count[s] = 0.0;
    for (int i = 0; i < side->count; i++) count[side->entry[i].slot] += 1.0;
}

double ss_proof_arrangements(ss_proof *p) {
    int which[SS_LANES_MAX];
    double sum = 0.0;
    for (int number = 0; ss_crossing_order(p->a->crossing, number, which); number++) {
        pairing of;
        if (!take_order(p, which, &of)) {
            continue;
        }
        const ss_abreast_side *const left = of.left_from, *const right = of.right_from;
        double *const here = p->value, *const there = here + left->slot_count;
        count_up(left, here);
        count_up(right, there);
        for (int i = 0; i < left->slot_count; i++) {
            for (int j = 0; within(&of, 0, left->y[i]) && j < right->slot_count; j++) {
                const bool fits = within(&of, 1, right->y[j]) && left->y[i] <= right->y[j] - of.apart + HAIR;
                sum += fits ? here[i] * there[j] : 0.0;
            }
        }
    }
    return sum;
}
