/* references.c - the commonest states of contact, and influence fields with their openings in them. */
#include "response/references.h"

#include <string.h>

#include "response/clones.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* How much a stand counts: those with more of the truck on the bridge matter more. */
static double weight_of(const ss_roll *roll, int stand) {
    int on = 0;
    for (int a = 0; a < roll->vehicle->axle_count; a++) {
        on += roll->at[(size_t)stand * (size_t)roll->vehicle->axle_count + (size_t)a].interval >= 0;
    }
    return (double)(on * on);
}

static void choose_commonest(const double *weight, int states, ss_references *out) {
    out->count = 0;
    while (out->count < SS_REFERENCES_MOST) {
        int best = -1;
        for (int i = 0; i < states; i++) {
            bool taken = false;
            for (int k = 0; k < out->count; k++) taken = taken || out->state[k] == i;
            if (!taken && weight[i] > 0.0 && (best < 0 || weight[i] > weight[best])) {
                best = i;
            }
        }
        if (best < 0) {
            break;
        }
        out->state[out->count++] = best;
    }
    if (out->count == 0) {
        out->state[out->count++] = -1;
    }
}

ss_status ss_references_choose(ss_axle_plans *plans, const ss_contact_finder *finder, const ss_roll *rolls,
                               int roll_count, ss_references *out, ss_error *error) {
    const size_t states = (size_t)finder->count, count = (size_t)plans->count;
    double *const by_plan = ss_alloc(count * states, sizeof *by_plan);
    double *const whole = ss_alloc(states, sizeof *whole);
    if (by_plan == NULL || whole == NULL) {
        ss_free(by_plan);
        ss_free(whole);
        return ss_no_memory(error);
    }
    for (int i = 0; i < roll_count; i++) {
        const size_t plan = (size_t)plans->plan[rolls[i].plan].lines_of;
        for (int k = 0; k < rolls[i].stand_count + rolls[i].point_count; k++) {
            if (rolls[i].state[k] >= 0) {
                by_plan[plan * states + (size_t)rolls[i].state[k]] += weight_of(&rolls[i], k);
                whole[rolls[i].state[k]] += weight_of(&rolls[i], k);
            }
        }
    }
    choose_commonest(whole, finder->count, out);
    for (size_t p = 0; p < count; p++) {
        int best = 0;
        for (int k = 1; k < out->count; k++) {
            const double *const weight = by_plan + (size_t)plans->plan[p].lines_of * states;
            best = weight[out->state[k]] > weight[out->state[best]] ? k : best;
        }
        plans->plan[p].reference = best;
    }
    ss_free(by_plan);
    ss_free(whole);
    return SS_OK;
}

SS_CLONES
void ss_reference_field(const ss_contact_finder *finder, int state, const double *opening, const double *z,
                        double *out) {
    const ss_contact_model *m = finder->model;
    const size_t order = (size_t)ss_grillage_mesh(m->permanent->grillage)->order, n = (size_t)m->n;
    memcpy(out, z, order * SS_TILE * sizeof *out);
    if (state < 0) {
        return;
    }
    const ss_contact_state *const s = &finder->states[state];
    for (size_t j = 0; j < n; j++) {
        double share[SS_TILE] = {0};
        bool any = false;
        for (size_t k = 0; k < n; k++) {
            const double map = s->open[k] ? s->map[k * n + j] : 0.0;
            any = any || map != 0.0;
            for (size_t lane = 0; map != 0.0 && lane < SS_TILE; lane++)
                share[lane] += map * opening[k * SS_TILE + lane];
        }
        if (!any) {
            continue;
        }
        const double *const field = m->influence + (j / SS_TILE) * order * SS_TILE + j % SS_TILE;
        for (size_t dof = 0; dof < order; dof++) {
            const double at = field[dof * SS_TILE];
            double *restrict const row = out + dof * SS_TILE;
            for (int lane = 0; lane < SS_TILE; lane++) row[lane] += at * share[lane];
        }
    }
}
