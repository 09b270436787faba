/* reach_stand.c - one effect with a vehicle at one place: the multiple at which it reaches its limit. */
#include <string.h>

#include "base/numeric.h"
#include "response/reach_exact.h"

/* A multiple beyond this is that of an effect that is only rounding. */
#define NOTHING 1e6

/* Bearings are followed this far beyond what has been found. */
#define BEYOND 1.4

/* Multiples below this are those of a vehicle that only just touches the bridge. */
#define AT_ONCE 1e-6

static double dot(const double *a, const double *b, int n) {
    double sum = 0.0;
    for (int i = 0; i < n; i++) sum += a[i] * b[i];
    return sum;
}

/* First multiple from `from` on at which dead + m live reaches the target from the side of `sign`. */
static double line_reaches(double dead, double live, double target, double sign, double from) {
    const double room = sign * (target - dead), toward = sign * live;
    if (from * toward >= room) {
        return from;
    }
    const double m = toward > 0.0 ? room / toward : SS_INFINITY;
    return m < NOTHING ? m : SS_INFINITY;
}

ss_status ss_reach_general(const ss_reach_exact_task *x, int e, int dead, double closed, const double *live,
                           double target, bool most, ss_reach *out) {
    const ss_reacher *const reach = x->job->worker->reach;
    const double e_dead = x->job->dead_closed[(size_t)dead * (size_t)x->job->member->count + (size_t)e];
    if (reach->n == 0) {
        const double m = line_reaches(e_dead, closed, target, most ? 1.0 : -1.0, 0.0);
        *out = (ss_reach){.factor = m, .linear = m};
        return SS_OK;
    }
    const ss_contact_path path = {.n = reach->n,
                                  .S = reach->S,
                                  .r_dead = reach->dead[dead].r_dead,
                                  .r_live = live,
                                  .opening = x->job->opening + (size_t)e * (size_t)reach->n,
                                  .e_dead = e_dead,
                                  .e_live = closed};
    return ss_contact_reach(&path, target, most, SS_INFINITY, out, x->job->worker->path_work);
}

/* Multiples that are of interest under a dead load: not far beyond what has been found. */
static double of_interest(const ss_reach_exact_task *x, int dead) {
    double most = 0.0;
    for (int q = 0; q < x->job->member->demand_count; q++) {
        const ss_demand *const demand = &x->job->member->demands[q];
        const ss_reached *const best = ss_reach_result(x->job, q, x->traffic);
        for (int i = 0; i < demand->dead_count; i++) {
            if (demand->dead[i] != dead) {
                continue;
            }
            if (best->effect < 0 || isinf(best->factor)) {
                return SS_REACH_MOST;
            }
            most = ss_max(most, BEYOND * best->factor * ss_reach_scale(x->job, q, x->traffic, best->effect));
        }
    }
    return ss_min(most, SS_REACH_MOST);
}

/* The multiple that decides about a stand: the one found so far, or as far as bearings are followed. */
static double deciding(const ss_reach_exact_task *x, int e, int demand) {
    const ss_reached *const best = ss_reach_result(x->job, demand, x->traffic);
    const double scale = ss_reach_scale(x->job, demand, x->traffic, e) * (1.0 + 2.0 * SS_REACH_TIE);
    return best->effect < 0 ? SS_REACH_MOST : ss_min(best->factor * scale, SS_REACH_MOST);
}

/* The bearings at the deciding multiple, once for all effects of a stand. False: they are not to be had. */
static bool see(ss_reach_exact_task *x, int demand, int dead, double multiple, ss_reach_stand *stand) {
    ss_reach_worker *const w = x->job->worker;
    const size_t slot = ss_reach_seen_slot(x, demand, dead), which = slot % 2;
    signed char *const seen = &stand->seen[demand][which];
    if (*seen == 0 || stand->seen_at[demand][which] != multiple) {
        /* Bearings under the most that is of interest often tip: the way there tells it sooner. */
        const ss_status status = (multiple < SS_REACH_MOST ? ss_patterns_state : ss_patterns_settle)(
            &w->patterns, dead, stand->live, multiple, &w->seen_pattern[slot],
            w->seen + slot * (size_t)w->reach->n);
        *seen = status == SS_OK ? 1 : -1;
        stand->seen_at[demand][which] = multiple;
    }
    return *seen > 0;
}

/* Whether the effect is short of its limit at the deciding multiple: then the stand does not beat what has
 * been found, and what bearings do on the way to there is not looked at. If nothing below SS_REACH_MOST has
 * been found, *multiple is where the effect would be at its limit with the bearings kept as they are there.
 */
static bool falls_short(ss_reach_exact_task *x, int lane, int demand, int dead, bool most,
                        ss_reach_stand *stand, double *multiple) {
    ss_reach_worker *const w = x->job->worker;
    const int n = w->reach->n, e = x->effect[lane];
    const double at = deciding(x, e, demand), sign = most ? 1.0 : -1.0;
    if (!see(x, demand, dead, at, stand)) {
        return false;
    }
    const size_t slot = ss_reach_seen_slot(x, demand, dead);
    const double *const own = x->job->opening + (size_t)e * (size_t)n;
    const double e_dead = x->job->dead_closed[(size_t)dead * (size_t)x->job->member->count + (size_t)e],
                 target = ss_reach_target(x->job, demand, dead, e, most),
                 value = e_dead + at * stand->closed[lane] + dot(own, w->seen + slot * (size_t)n, n);
    if (!(sign * (target - value) > 0.0)) {
        return false;
    }
    if (at == SS_REACH_MOST) {
        const ss_pattern *const pattern = &w->patterns.items[w->seen_pattern[slot]];
        double *const opening = w->opened;
        ss_pattern_openings(pattern, n, stand->live, opening);
        const double slope = stand->closed[lane] + dot(own, opening, n);
        *multiple = line_reaches(value - at * slope, slope, target, sign, at);
    }
    return true;
}

/* Along the bearings' way from none of the vehicle on. False: it is not clear that far. */
static bool reaches_on_way(const ss_reach_exact_task *x, int lane, int demand, int dead, bool most,
                           const ss_reach_stand *stand, double *multiple) {
    const ss_growth *const growth = &stand->growth[dead];
    const int n = x->job->worker->reach->n, e = x->effect[lane];
    const double e_dead = x->job->dead_closed[(size_t)dead * (size_t)x->job->member->count + (size_t)e],
                 target = ss_reach_target(x->job, demand, dead, e, most);
    const double *const own = x->job->opening + (size_t)e * (size_t)n;
    for (int i = 0; i < growth->count; i++) {
        const double *const opening = growth->opening + (size_t)i * 2 * (size_t)n;
        const double m =
            line_reaches(e_dead + dot(own, opening, n), stand->closed[lane] + dot(own, opening + n, n),
                         target, most ? 1.0 : -1.0, growth->from[i]);
        const bool last = i + 1 == growth->count;
        if (m <= (last ? growth->end : growth->from[i + 1]) ||
            (last && growth->clear && !growth->tips && growth->end == SS_REACH_MOST)) {
            *multiple = m;
            return true;
        }
    }
    return growth->clear;
}

ss_status ss_reach_multiple_at(ss_reach_exact_task *x, int lane, int demand, int dead, bool most,
                               ss_reach_stand *stand, double *multiple) {
    ss_reach_worker *const w = x->job->worker;
    ss_growth *const growth = &stand->growth[dead];
    *multiple = SS_INFINITY;
    if (w->reach->n > 0 && !stand->always && !stand->followed[dead] &&
        falls_short(x, lane, demand, dead, most, stand, multiple)) {
        return SS_OK;
    }
    if (!stand->followed[dead]) {
        growth->opening = w->growth + (size_t)dead * SS_STEPS_MOST * 2 * (size_t)w->reach->n;
        const ss_status status = ss_patterns_follow(
            &w->patterns, dead, stand->live, w->reach->dead_pattern[dead], of_interest(x, dead), growth);
        if (status != SS_OK && status != SS_ERROR_TIPPING) {
            return status;
        }
        stand->followed[dead] = true;
    }
    if (reaches_on_way(x, lane, demand, dead, most, stand, multiple)) {
        return SS_OK;
    }
    ss_reach found;
    const ss_status status =
        ss_reach_general(x, x->effect[lane], dead, stand->closed[lane], stand->live,
                         ss_reach_target(x->job, demand, dead, x->effect[lane], most), most, &found);
    if (status == SS_OK && !found.tips) {
        *multiple = found.factor;
    }
    return status;
}

double ss_reach_linear(const ss_reach_exact_task *x, const ss_reached *found, const ss_reach_kept *kept,
                       double target) {
    ss_reach_worker *const w = x->job->worker;
    const ss_reacher *const reach = w->reach;
    const size_t n = (size_t)reach->n;
    const double dead =
        x->job->dead_closed[(size_t)found->dead * (size_t)x->job->member->count + (size_t)found->effect];
    const double *const own = x->job->opening + (size_t)found->effect * n;
    ss_growth growth = {.opening = w->growth};
    double at0 = dead, slope = kept->closed;
    if (ss_patterns_follow(&w->patterns, found->dead, kept->live, reach->dead_pattern[found->dead],
                           SS_REACH_MOST, &growth) != SS_OK ||
        growth.count == 0) {
        return SS_NAN;
    }
    int first = 0;
    while (first + 1 < growth.count && growth.from[first + 1] < AT_ONCE) first++;
    if (n > 0) {
        const double *const opening = growth.opening + (size_t)first * 2 * n;
        at0 += dot(own, opening, reach->n);
        slope += dot(own, opening + n, reach->n);
    }
    return line_reaches(at0, slope, target, found->most ? 1.0 : -1.0, 0.0);
}

static bool earlier(const ss_position *a, const ss_position *b) {
    if (a->track != b->track) {
        return a->track < b->track;
    }
    if (a->on_beam != b->on_beam) {
        return b->on_beam;
    }
    return a->x < b->x - 1e-12;
}

bool ss_reach_replaces(const ss_reached *best, double factor, const ss_position *position, int effect) {
    if (isinf(factor)) {
        return false;
    }
    if (best->effect < 0 || isinf(best->factor) || factor < best->factor * (1.0 - SS_REACH_TIE)) {
        return true;
    }
    if (factor > best->factor * (1.0 + SS_REACH_TIE)) {
        return false;
    }
    return earlier(position, &best->position[0]) ||
           (!earlier(&best->position[0], position) && effect < best->effect);
}
