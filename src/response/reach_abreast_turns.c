/* reach_abreast_turns.c - trucks abreast moved one at a time to wherever that lowers the multiple. */
#include <string.h>

#include "base/numeric.h"
#include "response/reach_abreast.h"

/* Rounds over all trucks at most. */
enum { ROUNDS_MOST = 4 };

/* What all trucks must do in the pattern at hand with one of them moved, of what they did before. */
#define ENOUGH 0.8

/* Middles of the trucks of an arrangement, and their gauges. */
static void middles_of(const ss_abreast *a, const ss_arrangement *trucks, double *y, double *gauge) {
    const ss_bridge *const bridge = a->x->job->worker->reach->mesh->bridge;
    for (int i = 0; i < a->crossing->lanes; i++) {
        const bool own = i == trucks->own || a->same;
        const ss_abreast_side *const side = &a->side[own ? 0 : 1];
        y[i] = side->y[side->entry[trucks->entry[i]].slot];
        gauge[i] = bridge->vehicles[own ? a->crossing->vehicle : a->crossing->beside].gauge_m;
    }
}

/* Where the middle of the truck in a lane may be while the others stay. */
static bool room_of(const ss_abreast *a, const ss_arrangement *trucks, int lane, double *from, double *to) {
    const ss_bridge *const bridge = a->x->job->worker->reach->mesh->bridge;
    const ss_lane_rule *const rule = ss_lane_rule_of(bridge, a->crossing->vehicle);
    double y[SS_LANES_MAX], gauge[SS_LANES_MAX], low[SS_LANES_MAX], high[SS_LANES_MAX];
    middles_of(a, trucks, y, gauge);
    if (!ss_crossing_ranges(bridge, a->crossing, gauge, low, high)) {
        return false;
    }
    *from = low[lane] - 1e-9;
    *to = high[lane] + 1e-9;
    if (!rule->fixed && lane > 0) {
        *from =
            ss_max(*from, y[lane - 1] + 0.5 * (gauge[lane - 1] + gauge[lane]) + rule->between_wheels - 1e-9);
    }
    if (!rule->fixed && lane + 1 < a->crossing->lanes) {
        *to = ss_min(*to, y[lane + 1] - 0.5 * (gauge[lane + 1] + gauge[lane]) - rule->between_wheels + 1e-9);
    }
    return true;
}

/* What all trucks do in the pattern at hand. */
static double sum_of(const ss_abreast *a, const ss_arrangement *trucks) {
    double sum = 0.0;
    for (int i = 0; i < a->crossing->lanes; i++) {
        sum += a->side[i == trucks->own || a->same ? 0 : 1].value[trucks->entry[i]];
    }
    return sum;
}

ss_status ss_abreast_turns(ss_abreast *a, int lane, int demand, int dead, bool most, ss_arrangement *trucks,
                           double *multiple) {
    ss_reach_job *const job = a->x->job;
    const double scale = ss_reach_scale(job, demand, a->x->traffic, a->x->effect[lane]);
    bool lowered = true;
    for (int round = 0; round < ROUNDS_MOST && lowered; round++) {
        lowered = false;
        for (int i = 0; i < a->crossing->lanes; i++) {
            const ss_abreast_side *const side = &a->side[i == trucks->own || a->same ? 0 : 1];
            const double own = side->value[trucks->entry[i]], all = sum_of(a, trucks),
                         least = own - (1.0 - ENOUGH) * ss_max(all, 0.0);
            double from, to;
            if (!room_of(a, trucks, i, &from, &to)) {
                continue;
            }
            for (int k = 0; k < side->count; k++) {
                const double y = side->y[side->entry[k].slot];
                if (y < from || y > to || k == trucks->entry[i] || side->value[k] < least) {
                    continue;
                }
                ss_arrangement other = *trucks;
                ss_reach_stand stand;
                double found;
                other.entry[i] = k;
                ss_abreast_together(a, lane, most, &other, &stand);
                stand.always = false; /* only what beats the best so far is of interest */
                const ss_status status = ss_reach_multiple_at(a->x, lane, demand, dead, most, &stand, &found);
                if (status != SS_OK) {
                    return status;
                }
                ss_abreast_note_tipped(a, demand, dead, &other, &stand);
                if (found < *multiple * (1.0 - SS_REACH_TIE)) {
                    *multiple = found;
                    *trucks = other;
                    lowered = true;
                    ss_abreast_keep(a, lane, demand, dead, most, &other, &stand, found / scale);
                }
            }
        }
    }
    return SS_OK;
}
