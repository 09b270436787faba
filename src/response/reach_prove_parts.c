/* reach_prove_parts.c - every place of a truck with half the dead load, its contact solved. */
#include <stdlib.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/reach_prove.h"
#include "sillspan/memory.h"

/* ---- memory ------------------------------------------------------------------------------------- */

static void free_side(ss_proof_side *side) {
    ss_free(side->entry);
    ss_free(side->value);
    ss_free(side->cross);
    ss_free(side->part);
    ss_free(side->y);
    ss_free(side->hint);
    ss_free(side->most);
}

void ss_proof_destroy(ss_proof *proof) {
    for (int i = 0; i < 2; i++) free_side(&proof->side[i]);
    ss_free(proof->dead_part);
    ss_free(proof->own);
    ss_free(proof->live);
    ss_free(proof->opening);
    ss_free(proof->value);
}

ss_status ss_proof_create(ss_reach_exact_task *x, ss_abreast *a, ss_proof *out) {
    const size_t n = (size_t)x->job->worker->reach->n + 1;
    size_t most = 1;
    const size_t slots = 2 * ((size_t)a->side[0].slot_count + (size_t)a->side[1].slot_count) + 1;
    bool made = true;
    ss_proof p = {.x = x, .a = a};
    for (int i = 0; i < (a->same ? 1 : 2); i++) {
        ss_proof_side *const side = &p.side[i];
        const size_t count = (size_t)a->side[i].count + 1;
        side->entry = ss_alloc(count, sizeof *side->entry);
        side->value = ss_alloc(count, sizeof *side->value);
        side->cross = ss_alloc(count, sizeof *side->cross);
        side->part = ss_alloc(count * 2 * n, sizeof *side->part);
        side->y = ss_alloc(count, sizeof *side->y);
        side->hint = ss_alloc(count, sizeof *side->hint);
        side->most = ss_alloc(2 * n, sizeof *side->most);
        made = made && side->entry != NULL && side->value != NULL && side->cross != NULL &&
               side->part != NULL && side->y != NULL && side->hint != NULL && side->most != NULL;
        most = count > most ? count : most;
    }
    p.dead_part = ss_alloc(2 * n, sizeof *p.dead_part);
    p.own = ss_alloc(2 * n * most, sizeof *p.own);
    p.live = ss_alloc(n, sizeof *p.live);
    p.opening = ss_alloc(n, sizeof *p.opening);
    p.value = ss_alloc(slots, sizeof *p.value);
    made = made && p.dead_part != NULL && p.own != NULL && p.live != NULL && p.opening != NULL &&
           p.value != NULL;
    if (!made) {
        ss_proof_destroy(&p);
        return SS_ERROR_MEMORY;
    }
    *out = p;
    return SS_OK;
}

/* ---- parts -------------------------------------------------------------------------------------- */

static double dot(const double *a, const double *b, int n) {
    double sum = 0.0;
    for (int i = 0; i < n; i++) sum += a[i] * b[i];
    return sum;
}

/* Half the dead load with the truck at `entry`: half of what dead load and twice the truck do. *value is
 * INFINITY when that tips. */
static ss_status solve_part(ss_proof *p, const ss_abreast_side *from, int entry, int *pattern, double *part,
                            double *value) {
    ss_reach_worker *const w = p->x->job->worker;
    const int n = w->reach->n;
    const size_t at = (size_t)entry;
    const ss_status status = ss_patterns_state(&w->patterns, p->dead, from->live + at * (size_t)n,
                                               2.0 * p->multiple, pattern, part);
    *value = SS_INFINITY;
    if (status != SS_OK) {
        return status == SS_ERROR_MEMORY ? status : SS_OK;
    }
    ss_patterns_reactions(&w->patterns, *pattern, part + n);
    for (int k = 0; k < 2 * n; k++) part[k] *= 0.5;
    *value = p->sign * (0.5 * p->x->job->dead_closed[p->dead] + p->multiple * from->closed[at * SS_TILE] +
                        dot(p->x->job->opening, part, n));
    return SS_OK;
}

typedef struct ranked {
    double value;
    int entry;
} ranked;

static int compare(const void *a, const void *b) {
    const ranked *const left = a;
    const ranked *const right = b;
    if (left->value != right->value) {
        return left->value > right->value ? -1 : 1;
    }
    return left->entry - right->entry;
}

static bool is_used(const ss_proof *p, const ss_position *position) {
    const ss_reach_job *const job = p->x->job;
    const ss_placements *const placements = job->worker->reach->placements;
    const ss_vehicle_use use = placements->trains[placements->tracks[position->track].train].use;
    return (ss_lane_use(use, &job->member->effects[0]) & (p->sign > 0.0 ? 2u : 1u)) != 0;
}

ss_status ss_proof_fill(ss_proof *p, int which) {
    ss_reach_worker *const w = p->x->job->worker;
    const int n = w->reach->n, dead_pattern = w->reach->dead_pattern[p->dead];
    const size_t size = 2 * (size_t)n;
    const ss_abreast_side *const from = &p->a->side[which];
    ss_proof_side *const side = &p->side[which];
    ss_status status = SS_OK;
    ranked *const order = ss_alloc((size_t)from->count + 1, sizeof *order);
    int pattern = dead_pattern;
    SS_TRY(order == NULL ? SS_ERROR_MEMORY : SS_OK);
    side->count = 0;
    for (int i = 0; i < from->count; i++) {
        if (is_used(p, &from->entry[i].position)) {
            ranked *const next = &order[side->count++];
            next->entry = i;
            SS_TRY(solve_part(p, from, i, &pattern, p->own + (size_t)i * size, &next->value));
        }
    }
    qsort(order, (size_t)side->count, sizeof *order, compare);
    memset(side->most, 0, size * sizeof *side->most);
    side->cross_most = 0.0;
    for (int i = 0; i < side->count; i++) {
        double *const part = side->part + (size_t)i * size;
        side->entry[i] = order[i].entry;
        side->value[i] = order[i].value;
        side->y[i] = from->y[from->entry[order[i].entry].slot];
        side->hint[i] = dead_pattern;
        if (isinf(order[i].value)) {
            continue;
        }
        memcpy(part, p->own + (size_t)order[i].entry * size, size * sizeof *part);
        side->cross[i] = dot(part, p->dead_part + n, n) + dot(part + n, p->dead_part, n);
        side->cross_most = ss_max(side->cross_most, side->cross[i]);
        for (size_t k = 0; k < size; k++) side->most[k] = ss_max(side->most[k], part[k]);
    }
done:
    ss_free(order);
    return status;
}
