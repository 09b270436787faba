/* search_aim.c - what a search counts for: the target, and with lane loads what a track's lane gives to it.
 */
#include <string.h>

#include "base/numeric.h"
#include "response/search_parts.h"

void ss_search_clear(ss_searcher *s, int target, double gross) {
    ss_found_set *const found = &s->found[target];
    memset(found, 0, sizeof *found);
    for (int lane = 0; lane < SS_TILE; lane++) {
        for (int side = 0; side < 2; side++) {
            const int at = side * SS_TILE + lane;
            const double nothing = lane < s->lanes ? s->tiny[lane] * gross : SS_INFINITY;
            found->threshold[at] = s->floor != NULL ? ss_max(nothing, s->floor[at]) : nothing;
            found->best[lane][side].track = -1;
        }
    }
}

void ss_search_forget_lanes(ss_searcher *s) {
    for (int t = 0; s->loads != NULL && t < s->placements->track_count; t++) s->lane_known[t] = false;
}

static void fill_add(ss_searcher *s, int track, double add[2 * SS_TILE]) {
    const ss_search_loads *const loads = s->loads;
    const ss_vehicle *const train = &s->placements->trains[s->placements->tracks[track].train];
    const ss_lane_sums *sums = NULL;
    if (train->lane_N_m > 0.0) {
        static const ss_pattern none;
        const int plan = ss_axle_plan_of(s->lines->plans, track, ss_widest_axle(train));
        ss_axle_lines_whole(s->lines, plan);
        sums = ss_lane_sums_of(loads->work, &loads->tile, plan, 0, &none);
    }
    for (int lane = 0; lane < SS_TILE; lane++) {
        const unsigned use = lane < s->lanes ? ss_lane_use(train->use, &loads->effects[lane]) : 0;
        const double least = sums != NULL ? -train->lane_N_m * (double)sums->least[lane] : 0.0;
        const double most = sums != NULL ? train->lane_N_m * (double)sums->most[lane] : 0.0;
        add[lane] = (use & 1U) != 0 ? least : -SS_INFINITY;
        add[SS_TILE + lane] = (use & 2U) != 0 ? most : -SS_INFINITY;
    }
}

/* What the lane of a track gives to both sides of each effect; -INFINITY where the loading is not for it. */
static const double *add_of(ss_searcher *s, int track) {
    double *const add = s->lane_add + (size_t)track * 2 * SS_TILE;
    if (!s->lane_known[track]) {
        s->lane_known[track] = true;
        fill_add(s, track, add);
    }
    return add;
}

static bool want_with_lane(ss_searcher *s) {
    const double *const threshold = s->found[s->target].threshold;
    double least = SS_INFINITY;
    for (int i = 0; i < 2 * SS_TILE; i++) {
        s->own[i] = threshold[i] - s->add[i];
        least = s->own[i] < least ? s->own[i] : least;
    }
    s->want = s->own;
    return least < SS_INFINITY;
}

/* Whether a loading that is only for some effects is for none that is sought. */
static bool is_idle(const ss_searcher *s, int target, int track) {
    const ss_vehicle_use use = s->placements->trains[s->placements->tracks[track].train].use;
    const double *const threshold = s->found[target].threshold;
    for (int lane = 0; use != SS_USE_ALL && lane < s->lanes; lane++) {
        const unsigned sides = ss_lane_use(use, &s->loads->effects[lane]);
        if (((sides & 1U) != 0 && threshold[lane] < SS_INFINITY) ||
            ((sides & 2U) != 0 && threshold[SS_TILE + lane] < SS_INFINITY)) {
            return false;
        }
    }
    return use != SS_USE_ALL;
}

bool ss_search_aim(ss_searcher *s, int target, int track) {
    s->target = target;
    s->want = s->found[target].threshold;
    if (s->loads == NULL) {
        return true;
    }
    if (is_idle(s, target, track)) {
        return false;
    }
    memcpy(s->add, add_of(s, track), sizeof s->add);
    return want_with_lane(s);
}

/* What a lane gives is convex between the kinks of the deck: no track between gives more than the larger. */
bool ss_search_aim_between(ss_searcher *s, int target, int near, int far) {
    if (!ss_search_aim(s, target, near)) {
        return false;
    }
    if (s->loads != NULL && far != near) {
        const double *const other = add_of(s, far);
        for (int i = 0; i < 2 * SS_TILE; i++) s->add[i] = ss_max(s->add[i], other[i]);
        return want_with_lane(s);
    }
    return true;
}
