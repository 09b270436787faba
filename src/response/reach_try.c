/* reach_try.c - one effect with a vehicle at one place followed to its limit, and what was found kept. */
#include <string.h>

#include "base/numeric.h"
#include "response/reach_exact.h"

/* Times that a lane load is laid anew where the bearings at the limit have it adverse. */
enum { PASSES = 3 };

static void keep_lane(const ss_reach_exact_task *x, const ss_reach_try *t, const ss_lane_load *load,
                      double by) {
    const size_t n = (size_t)x->job->worker->reach->n;
    ss_reach_kept *const kept = ss_reach_kept_of(x->job, t->room->demand, x->traffic);
    kept->loaded = load != NULL;
    if (load == NULL) {
        return;
    }
    kept->lane_closed = by * load->closed;
    for (size_t k = 0; k < n; k++) kept->lane_live[k] = by * load->live[k];
    ss_reached_lane *const lane = ss_reach_lane_of(x->job, t->room->demand, x->traffic);
    lane->count = load->count;
    memcpy(lane->stretch, load->stretch, (size_t)load->count * sizeof *load->stretch);
}

/* A multiple that was followed. `load`: the lane load in the stand, `by` N/m of it, or NULL. */
static void note(ss_reach_exact_task *x, const ss_reach_try *t, const ss_reach_stand *stand, double multiple,
                 const ss_lane_load *load, double by) {
    const int q = t->room->demand, e = x->effect[t->lane];
    ss_reached *const best = ss_reach_result(x->job, q, x->traffic);
    const double factor = multiple / ss_reach_scale(x->job, q, x->traffic, e);
    /* Only near the best does it matter how far estimates are off. */
    if (multiple < SS_REACH_MOST && multiple < t->estimated && factor < SS_REACH_CLOSE * best->factor &&
        isfinite(t->estimated)) {
        /* Dead load alone may be all that a place carries: then the multiple is 0. */
        const double off = multiple == 0.0 ? SS_REACH_MARGIN_MOST : t->estimated / multiple;
        x->job->margin = ss_max(x->job->margin, ss_min(off, SS_REACH_MARGIN_MOST));
    }
    if (!ss_reach_replaces(best, factor, &stand->position, e)) {
        return;
    }
    *best = (ss_reached){.factor = factor,
                         .effect = e,
                         .dead = t->room->dead,
                         .most = t->most,
                         .truck_count = 1,
                         .position = {stand->position}};
    ss_reach_kept *const kept = ss_reach_kept_of(x->job, q, x->traffic);
    kept->closed = stand->closed[t->lane];
    memcpy(kept->live, stand->live, (size_t)x->job->worker->reach->n * sizeof *kept->live);
    keep_lane(x, t, load, by);
    ss_reach_worth(x, q);
}

ss_status ss_reach_try_stand(ss_reach_exact_task *x, const ss_reach_try *t, ss_reach_stand *stand) {
    double multiple;
    const ss_status status =
        ss_reach_multiple_at(x, t->lane, t->room->demand, t->room->dead, t->most, stand, &multiple);
    if (status == SS_OK) {
        note(x, t, stand, multiple, NULL, 0.0);
    }
    return status;
}

/* ---- with a lane load --------------------------------------------------------------------------- */

/* Where the load lies in a pattern. */
static const ss_lane_load *load_in(const ss_reach_exact_task *x, const ss_reach_try *t, int plan,
                                   int pattern) {
    ss_reach_worker *const w = x->job->worker;
    const ss_lane_tile tile = ss_reach_lane_tile(x);
    const ss_lane_load *const known = ss_lane_load_of(&w->lane, &tile, t->lane, t->most, plan, pattern, NULL);
    if (known != NULL) {
        return known;
    }
    ss_patterns_weigh(&w->patterns, pattern,
                      x->job->opening + (size_t)x->effect[t->lane] * (size_t)w->reach->n, w->weight);
    return ss_lane_load_of(&w->lane, &tile, t->lane, t->most, plan, pattern, w->weight);
}

static void meet(ss_reach_met *met, int pattern) {
    int at = met->count < SS_REACH_MET ? met->count++ : SS_REACH_MET - 1;
    for (int i = 0; i < at; i++) at = met->pattern[i] == pattern ? i : at;
    memmove(met->pattern + 1, met->pattern, (size_t)at * sizeof met->pattern[0]);
    met->pattern[0] = pattern;
}

ss_status ss_reach_try_loaded(ss_reach_exact_task *x, const ss_reach_try *t, const ss_reach_stand *truck) {
    ss_reach_worker *const w = x->job->worker;
    const ss_reacher *const reach = w->reach;
    const int q = t->room->demand, d = t->room->dead, e = x->effect[t->lane];
    const ss_vehicle *const train =
        &reach->placements->trains[reach->placements->tracks[truck->position.track].train];
    const int plan = ss_axle_plan_of(&reach->plans, truck->position.track, ss_widest_axle(train));
    const double by = ss_reach_lane_load(x->job, q, x->traffic, e, train),
                 scale = ss_reach_scale(x->job, q, x->traffic, e);
    int pattern = t->pattern;
    for (int pass = 0; pass < PASSES; pass++) {
        const ss_lane_load *const load = load_in(x, t, plan, pattern);
        ss_reach_stand stand;
        ss_reach_stand_begin(&stand, &truck->position, w->lane.both, false);
        double multiple;
        stand.closed[t->lane] = truck->closed[t->lane] + by * load->closed;
        for (int k = 0; k < reach->n; k++) w->lane.both[k] = truck->live[k] + by * load->live[k];
        const ss_status status = ss_reach_multiple_at(x, t->lane, q, d, t->most, &stand, &multiple);
        if (status != SS_OK) {
            return status;
        }
        int next = pattern;
        note(x, t, &stand, multiple, load, by);
        const double best = ss_reach_result(x->job, q, x->traffic)->factor * scale;
        if (stand.followed[d]) {
            ss_reach_note_tipped(x, q, d, &stand, &stand.position, 1);
            next = ss_growth_pattern(&stand.growth[d], multiple);
            if (next >= 0 && multiple <= best) {
                meet(&x->job->met[d], next);
            }
        } else if (reach->n > 0 && best < SS_REACH_MOST) {
            next = w->seen_pattern[ss_reach_seen_slot(x, q, d)];
        }
        if (next < 0 || next == pattern) {
            break;
        }
        pattern = next;
    }
    return SS_OK;
}

ss_status ss_reach_lane_effect(const ss_reach_exact_task *x, int demand, double *effect) {
    ss_reach_worker *const w = x->job->worker;
    const int n = w->reach->n;
    const ss_reached *const best = ss_reach_result(x->job, demand, x->traffic);
    const ss_reach_kept *const kept = ss_reach_kept_of(x->job, demand, x->traffic);
    const double scale = ss_reach_scale(x->job, demand, x->traffic, best->effect);
    ss_growth growth = {.opening = NULL};
    *effect = kept->lane_closed;
    const ss_status status = ss_patterns_follow(&w->patterns, best->dead, kept->live,
                                                w->reach->dead_pattern[best->dead], SS_REACH_MOST, &growth);
    const int pattern = status == SS_OK ? ss_growth_pattern(&growth, best->factor * scale) : -1;
    if (pattern >= 0) {
        ss_patterns_weigh(&w->patterns, pattern, x->job->opening + (size_t)best->effect * (size_t)n,
                          w->weight);
        for (int k = 0; k < n; k++) *effect += w->weight[k] * kept->lane_live[k];
    }
    return status;
}

const ss_lane_load *ss_reach_lane_on(const ss_reach_exact_task *x, const ss_reach_lane_key *key, int track,
                                     double *by) {
    ss_reach_worker *const w = x->job->worker;
    const ss_placements *const placements = w->reach->placements;
    const ss_vehicle *const train = &placements->trains[placements->tracks[track].train];
    const ss_lane_tile tile = ss_reach_lane_tile(x);
    if (!(train->lane_N_m > 0.0)) {
        return NULL;
    }
    *by = ss_reach_lane_load(x->job, key->demand, x->traffic, x->effect[key->lane], train);
    return ss_lane_load_of(&w->lane, &tile, key->lane, key->most,
                           ss_axle_plan_of(&w->reach->plans, track, ss_widest_axle(train)), key->pattern,
                           key->weight);
}

double ss_reach_lane_value(const ss_reach_exact_task *x, const ss_reach_lane_key *key, int track) {
    double by = 0.0;
    const ss_lane_load *const load = ss_reach_lane_on(x, key, track, &by);
    if (load == NULL) {
        return 0.0;
    }
    double value = load->closed;
    for (int k = 0; k < x->job->worker->reach->n; k++) value += key->weight[k] * load->live[k];
    return by * value;
}
