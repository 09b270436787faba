/* ratings_demands.c - what the checks ask of each group of rated effects, as few searches as will do. */
#include "assess/ratings_demands.h"

#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"

/* Factors and limits that agree within this share are the same. */
#define SAME 1e-12

/* ---- checks ------------------------------------------------------------------------------------- */

static int find_dead(ss_check_list *list, ss_dead_factors wanted) {
    int i = 0;
    while (i < list->factor_count &&
           !(list->factors[i].dc == wanted.dc && list->factors[i].dw == wanted.dw)) {
        i++;
    }
    if (i == list->factor_count) {
        if (i == SS_REACH_DEADS) {
            return -1;
        }
        list->factors[list->factor_count++] = wanted;
    }
    return i;
}

ss_status ss_check_list_build(const ss_bridge *bridge, ss_check_list *out, ss_error *error) {
    ss_check_list list = {0};
    list.count = ss_checks(bridge, list.items);
    for (int c = 0; c < list.count; c++) {
        ss_dead_factors factors[2];
        list.dead_count[c] = ss_check_dead(bridge, &list.items[c], factors);
        for (int i = 0; i < list.dead_count[c]; i++) {
            list.dead[c][i] = find_dead(&list, factors[i]);
            if (list.dead[c][i] < 0) {
                return ss_error_set(error, SS_ERROR_LIMIT, "more than %d sets of dead load factors",
                                    (int)SS_REACH_DEADS);
            }
        }
        if (list.dead_count[c] == 2 && list.dead[c][0] == list.dead[c][1]) {
            list.dead_count[c] = 1;
        }
    }
    *out = list;
    return SS_OK;
}

ss_crossing_facts ss_traffic_facts(const ss_bridge *bridge, const ss_traffic *traffic) {
    if (traffic->crossing >= 0) {
        return ss_crossing_facts_of(bridge, &bridge->crossings[traffic->crossing]);
    }
    /* A truck on a stated run, or alone where no crossings are said. */
    const ss_crossing alone = {.kind = traffic->run >= 0 ? SS_CROSSING_LINE : SS_CROSSING_ALONE,
                               .vehicle = traffic->vehicle,
                               .beside = -1,
                               .lanes = 1};
    return ss_crossing_facts_of(bridge, &alone);
}

double ss_method_scale(const ss_method_factors *factors) {
    return factors->live * factors->presence * (1.0 + factors->allowance);
}

/* ---- groups ------------------------------------------------------------------------------------- */

typedef struct builder {
    const ss_bridge *bridge;
    const ss_placements *placements;
    const ss_check_list *checks;
    ss_arena *arena;
    const int *only;    /* see ss_rated_list */
    const bool *loaded; /* traffic: some train of it has a lane load */
    bool any_loaded;
} builder;

/* What a check asks of a group. Shares are of lane loads, and 1 for traffic without. */
typedef struct asked_for {
    double *limit, *least, *scale, *share; /* effects twice; traffic x effects twice */
} asked_for;

static bool same_facts(const ss_crossing_facts *a, const ss_crossing_facts *b) {
    return a->lanes == b->lanes && a->escorted == b->escorted && a->centred == b->centred &&
           (a->speed == b->speed || (isnan(a->speed) && isnan(b->speed)));
}

/* An earlier traffic of the same kind and facts whose first effect has the same scale has the same scales all
 * along.
 */
static int like(const builder *b, int check, int traffic, double first, const double *scale, int count) {
    const ss_vehicle *const vehicles = b->bridge->vehicles;
    const ss_traffic *const own = &b->placements->traffic[traffic];
    const ss_crossing_facts facts = ss_traffic_facts(b->bridge, own);
    for (int t = 0; t < traffic; t++) {
        const ss_traffic *const other = &b->placements->traffic[t];
        const ss_crossing_facts theirs = ss_traffic_facts(b->bridge, other);
        if (vehicles[other->vehicle].kind == vehicles[own->vehicle].kind && same_facts(&facts, &theirs) &&
            ss_check_applies(b->bridge, &b->checks->items[check], &vehicles[other->vehicle]) &&
            scale[(size_t)t * (size_t)count] == first) {
            return t;
        }
    }
    return -1;
}

static void fill_traffic(const builder *b, int check, const ss_rated *rated, int count, int traffic,
                         const asked_for *asked) {
    const ss_check *const c = &b->checks->items[check];
    const ss_traffic *const own = &b->placements->traffic[traffic];
    const ss_vehicle *const vehicle = &b->bridge->vehicles[own->vehicle];
    const ss_crossing_facts facts = ss_traffic_facts(b->bridge, own);
    double *const out = asked->scale + (size_t)traffic * (size_t)count;
    double *const share = asked->share + (size_t)traffic * (size_t)count;
    for (int e = 0; e < count; e++) {
        ss_method_factors factors;
        ss_check_factors(b->bridge, c, vehicle, &facts, &rated[e].effect, &factors);
        out[e] = ss_method_scale(&factors);
        share[e] = b->loaded[traffic] ? 1.0 / (1.0 + factors.allowance) : 1.0;
        if (e == 0) {
            const int same = like(b, check, traffic, out[0], asked->scale, count);
            if (same >= 0 && b->loaded[same] == b->loaded[traffic]) {
                memcpy(out, asked->scale + (size_t)same * (size_t)count, (size_t)count * sizeof *out);
                memcpy(share, asked->share + (size_t)same * (size_t)count, (size_t)count * sizeof *share);
                return;
            }
        }
        asked->limit[e] =
            ss_check_capacity(b->bridge, c, &factors, &rated[e].effect, ss_rated_nominal(&rated[e], c, true));
        asked->least[e] = ss_check_capacity(b->bridge, c, &factors, &rated[e].effect,
                                            ss_rated_nominal(&rated[e], c, false));
    }
}

/* Limits and scales of one check for a group. False: it asks nothing of it. */
static bool fill_check(const builder *b, int check, const ss_rated *rated, int count,
                       const asked_for *asked) {
    bool any = false;
    for (int e = 0; e < count; e++) asked->limit[e] = asked->least[e] = SS_NAN;
    memset(asked->scale, 0, (size_t)b->placements->traffic_count * (size_t)count * sizeof *asked->scale);
    for (int t = 0; t < b->placements->traffic_count; t++) {
        const ss_vehicle *const vehicle = &b->bridge->vehicles[b->placements->traffic[t].vehicle];
        if ((b->only == NULL || b->only[rated[0].order] == t) &&
            ss_check_applies(b->bridge, &b->checks->items[check], vehicle)) {
            fill_traffic(b, check, rated, count, t, asked);
        }
    }
    for (int e = 0; e < count; e++) {
        any = any || !isnan(asked->limit[e]);
        for (int t = 0; isnan(asked->limit[e]) && t < b->placements->traffic_count; t++) {
            asked->scale[(size_t)t * (size_t)count + (size_t)e] = 0.0;
        }
    }
    return any;
}

static bool same_limits(const double *a, const double *b, int count) {
    for (int e = 0; e < count; e++) {
        if (!(isnan(a[e]) && isnan(b[e])) && !ss_close(a[e], b[e], SAME)) {
            return false;
        }
    }
    return true;
}

/* Scales of a traffic as a multiple of those of a demand: NaN when they are none. */
static double ratio_of(const double *scale, const double *theirs, int count) {
    double ratio = SS_NAN;
    for (int e = 0; e < count; e++) {
        if ((scale[e] > 0.0) != (theirs[e] > 0.0)) {
            return SS_NAN;
        }
        if (scale[e] > 0.0) {
            const double here = theirs[e] / scale[e];
            if (!isnan(ratio) && !ss_close(here, ratio, SAME)) {
                return SS_NAN;
            }
            ratio = here;
        }
    }
    return ratio;
}

static bool is_asked(const double *scale, int count) {
    for (int e = 0; e < count; e++) {
        if (scale[e] > 0.0) {
            return true;
        }
    }
    return false;
}

static bool same_shares(const double *a, const double *b, int count) {
    if (a == NULL || b == NULL) {
        return a == b;
    }
    for (int e = 0; e < count; e++) {
        if (!ss_close(a[e], b[e], SAME)) {
            return false;
        }
    }
    return true;
}

/* Whether a check can follow a demand: the same limits under the same dead loads, scales alike or of other
 * traffic, and lane loads that count alike.
 */
static bool follows(const builder *b, int check, const ss_demand *demand, const asked_for *asked, int count) {
    if (demand->dead_count != b->checks->dead_count[check] ||
        memcmp(demand->dead, b->checks->dead[check], (size_t)demand->dead_count * sizeof demand->dead[0]) !=
            0 ||
        demand->over_dead != b->checks->items[check].over_dead ||
        !same_limits(demand->limit, asked->limit, count) ||
        !same_limits(demand->limit_least, asked->least, count)) {
        return false;
    }
    for (int t = 0; t < b->placements->traffic_count; t++) {
        const size_t row = (size_t)t * (size_t)count;
        const double *const ours = asked->scale + row;
        const double *const theirs = demand->scale + row;
        if (is_asked(ours, count) && is_asked(theirs, count) &&
            (isnan(ratio_of(ours, theirs, count)) ||
             (b->loaded[t] && !same_shares(asked->share + row, demand->lane_share + row, count)))) {
            return false;
        }
    }
    return true;
}

/* Puts a check into a demand of the member, a new one in `room` if none will do. */
static void place_check(const builder *b, int check, const asked_for *asked, int count, ss_demand *demands,
                        asked_for *rooms, ss_rated_member *out) {
    int d = 0;
    while (d < out->member.demand_count && !follows(b, check, &demands[d], asked, count)) d++;
    const size_t size = (size_t)b->placements->traffic_count * (size_t)count;
    if (d == out->member.demand_count) {
        memcpy(rooms[d].limit, asked->limit, (size_t)count * sizeof *asked->limit);
        memcpy(rooms[d].least, asked->least, (size_t)count * sizeof *asked->least);
        memset(rooms[d].scale, 0, size * sizeof *asked->scale);
        demands[d] = (ss_demand){.dead_count = b->checks->dead_count[check],
                                 .dead = {b->checks->dead[check][0], b->checks->dead[check][1]},
                                 .over_dead = b->checks->items[check].over_dead,
                                 .least_too = !b->checks->items[check].over_dead,
                                 .limit = rooms[d].limit,
                                 .limit_least = rooms[d].least,
                                 .scale = rooms[d].scale,
                                 .lane_share = b->any_loaded ? rooms[d].share : NULL};
        out->member.demand_count++;
    }
    for (int t = 0; t < b->placements->traffic_count; t++) {
        const size_t row = (size_t)t * (size_t)count;
        const double *const ours = asked->scale + row;
        double *const theirs = rooms[d].scale + row;
        const int at = check * b->placements->traffic_count + t;
        if (!is_asked(ours, count)) {
            continue;
        }
        if (!is_asked(theirs, count)) {
            memcpy(theirs, ours, (size_t)count * sizeof *ours);
            memcpy(rooms[d].share + row, asked->share + row, (size_t)count * sizeof *ours);
        }
        out->demand[at] = d;
        out->ratio[at] = ratio_of(ours, theirs, count);
    }
}

static bool make_room(ss_arena *arena, size_t effects, size_t pairs, asked_for *out) {
    *out = (asked_for){.limit = ss_arena_alloc(arena, effects + 1, sizeof *out->limit),
                       .least = ss_arena_alloc(arena, effects + 1, sizeof *out->least),
                       .scale = ss_arena_alloc(arena, pairs + 1, sizeof *out->scale),
                       .share = ss_arena_alloc(arena, pairs + 1, sizeof *out->share)};
    return out->limit != NULL && out->least != NULL && out->scale != NULL && out->share != NULL;
}

static ss_status build_member(const builder *b, const ss_rated_list *rated, int group, ss_rated_member *out) {
    const int first = rated->group_first[group], count = rated->group_first[group + 1] - first;
    const int traffics = b->placements->traffic_count, checks = b->checks->count;
    const size_t pairs = (size_t)checks * (size_t)traffics + 1, scales = (size_t)traffics * (size_t)count;
    ss_status status = SS_OK;
    asked_for rooms[SS_CHECKS_MAX + 1];
    ss_arena scratch = {0};
    asked_for asked;
    ss_effect *const effects = ss_arena_alloc(b->arena, (size_t)count, sizeof *effects);
    ss_demand *const demands = ss_arena_alloc(b->arena, (size_t)checks + 1, sizeof *demands);
    *out = (ss_rated_member){.first_rated = first};
    out->demand = ss_arena_alloc(b->arena, pairs, sizeof *out->demand);
    out->ratio = ss_arena_alloc(b->arena, pairs, sizeof *out->ratio);
    SS_TRY(effects == NULL || demands == NULL || out->demand == NULL || out->ratio == NULL ||
                   !make_room(&scratch, (size_t)count, scales, &asked)
               ? SS_ERROR_MEMORY
               : SS_OK);
    for (int e = 0; e < count; e++) effects[e] = rated->items[first + e].effect;
    for (size_t i = 0; i + 1 < pairs; i++) out->demand[i] = -1;
    out->member = (ss_reach_member){.effects = effects, .count = count, .demands = demands};
    for (int c = 0; c < checks; c++) {
        if (fill_check(b, c, &rated->items[first], count, &asked)) {
            const int next = out->member.demand_count;
            SS_TRY(make_room(b->arena, (size_t)count, scales, &rooms[next]) ? SS_OK : SS_ERROR_MEMORY);
            place_check(b, c, &asked, count, demands, rooms, out);
        }
    }
    const size_t results = (size_t)(out->member.demand_count * traffics) + 1;
    out->member.reached = ss_arena_alloc(b->arena, results, sizeof *out->member.reached);
    out->member.lane = b->any_loaded ? ss_arena_alloc(b->arena, results, sizeof *out->member.lane) : NULL;
    out->member.trains = b->arena;
    out->member.tip = ss_arena_alloc(b->arena, 2 * results, sizeof *out->member.tip);
    SS_TRY(out->member.reached == NULL || out->member.tip == NULL ||
                   (b->any_loaded && out->member.lane == NULL)
               ? SS_ERROR_MEMORY
               : SS_OK);
done:
    ss_arena_destroy(&scratch);
    return status;
}

ss_status ss_rated_members_build(const ss_permanent *permanent, const ss_placements *placements,
                                 const ss_rated_list *rated, const ss_check_list *checks, ss_arena *arena,
                                 ss_rated_member **out, ss_error *error) {
    ss_rated_member *const members = ss_arena_alloc(arena, (size_t)rated->group_count + 1, sizeof *members);
    bool *const loaded = ss_arena_alloc(arena, (size_t)placements->traffic_count + 1, sizeof *loaded);
    ss_status status = members == NULL || loaded == NULL ? SS_ERROR_MEMORY : SS_OK;
    builder b = {
        ss_grillage_mesh(permanent->grillage)->bridge, placements, checks, arena, rated->only, loaded, false};
    for (int t = 0; t < placements->traffic_count && status == SS_OK; t++) {
        loaded[t] = ss_lane_loaded(placements, &placements->traffic[t]);
        b.any_loaded = b.any_loaded || loaded[t];
    }
    for (int g = 0; g < rated->group_count && status == SS_OK; g++) {
        status = build_member(&b, rated, g, &members[g]);
    }
    if (status != SS_OK) {
        return ss_error_set(error, status, "the checks of the members: %s", ss_status_text(status));
    }
    *out = members;
    return SS_OK;
}
