/* watch_traffic.c - whose ratings a watch holds: the trucks, where they may be, and the checks. */
#include <string.h>

#include "base/try.h"
#include "response/state.h"
#include "sillspan/memory.h"
#include "studies/watch_parts.h"

/* ---- trucks ----------------------------------------------------------------------------------------- */

static bool same_numbers(const double a[SS_AXLES_MAX], const double b[SS_AXLES_MAX]) {
    for (int i = 0; i < SS_AXLES_MAX; i++) {
        if (a[i] != b[i]) {
            return false;
        }
    }
    return true;
}

bool ss_watch_same_truck(const ss_vehicle *a, const ss_vehicle *b) {
    return a == b || (a->axle_count == b->axle_count && same_numbers(a->axle_N, b->axle_N) &&
                      same_numbers(a->spacing_m, b->spacing_m) && a->gauge_m == b->gauge_m &&
                      same_numbers(a->axle_gauge_m, b->axle_gauge_m) && a->lane_N_m == b->lane_N_m &&
                      a->lane_allowance == b->lane_allowance);
}

/* With what it is tried as, and what factors depend on. */
static bool same_vehicle(const ss_vehicle *a, const ss_vehicle *b) {
    for (; a != NULL && b != NULL; a = a->also, b = b->also) {
        if (!ss_watch_same_truck(a, b) || !same_numbers(a->spacing_most_m, b->spacing_most_m) ||
            a->dropped != b->dropped || a->kind != b->kind || a->use != b->use) {
            return false;
        }
    }
    return a == NULL && b == NULL;
}

static bool same_trains(const ss_placements *a, const ss_placements *b) {
    if (a->traffic_count != b->traffic_count || a->train_count != b->train_count) {
        return false;
    }
    for (int i = 0; i < a->train_count; i++) {
        if (!ss_watch_same_truck(&a->trains[i], &b->trains[i])) {
            return false;
        }
    }
    for (int i = 0; i < a->traffic_count; i++) {
        const ss_traffic *const p = &a->traffic[i];
        const ss_traffic *const q = &b->traffic[i];
        if (p->vehicle != q->vehicle || p->run != q->run || p->crossing != q->crossing) {
            return false;
        }
    }
    return true;
}

/* ---- where they may be ------------------------------------------------------------------------------ */

static bool same_lanes(const ss_lane_rule *a, const ss_lane_rule *b) {
    return a->count == b->count && a->fixed == b->fixed && a->width == b->width &&
           a->between_wheels == b->between_wheels && a->loaded_width == b->loaded_width &&
           a->wheel_to_curb == b->wheel_to_curb;
}

static bool same_crossing(const ss_crossing *a, const ss_crossing *b) {
    return a->kind == b->kind && a->vehicle == b->vehicle && a->lanes == b->lanes &&
           a->alternative == b->alternative && (a->kind != SS_CROSSING_LINE || a->y == b->y) &&
           (a->kind != SS_CROSSING_BESIDE || (a->beside == b->beside && a->has_third == b->has_third &&
                                              (!a->has_third || a->third == b->third)));
}

static bool same_run(const ss_run *a, const ss_run *b) {
    return a->vehicle == b->vehicle && a->y == b->y && a->forward == b->forward && a->backward == b->backward;
}

/* A vehicle that neither crosses nor runs is of placed loads: nothing is asked of it here. */
static bool is_asked(const ss_watch_asked *a, int vehicle) {
    bool asked = vehicle < a->rated_count;
    for (int i = 0; i < a->crossing_count; i++) {
        const ss_crossing *const c = &a->crossings[i];
        asked =
            asked || c->vehicle == vehicle || c->beside == vehicle || (c->has_third && c->third == vehicle);
    }
    for (int i = 0; i < a->run_count; i++) asked = asked || a->runs[i].vehicle == vehicle;
    return asked;
}

static bool same_asked(const ss_watch_asked *a, const ss_bridge *b) {
    bool same = a->rated_count == b->rated_vehicle_count && a->crossing_count == b->crossing_count &&
                a->run_count == b->run_count && a->roadway_left == b->roadway_left &&
                a->roadway_right == b->roadway_right && a->wheel_to_curb == b->wheel_to_curb &&
                same_lanes(&a->lanes, &b->lanes);
    for (int i = 0; same && i < a->crossing_count; i++) {
        same = same_crossing(&a->crossings[i], &b->crossings[i]);
    }
    for (int i = 0; same && i < a->run_count; i++) same = same_run(&a->runs[i], &b->runs[i]);
    for (int i = 0; same && i < a->vehicle_count; i++) {
        same = !is_asked(a, i) || (i < b->vehicle_count && same_vehicle(&a->vehicles[i], &b->vehicles[i]));
    }
    return same;
}

/* ---- kept by the watch itself: bridges come and go -------------------------------------------------- */

static bool keep_name(ss_arena *arena, ss_vehicle *vehicle) {
    vehicle->source = vehicle->remark = "";
    vehicle->name = ss_arena_text(arena, vehicle->name, strlen(vehicle->name));
    return vehicle->name != NULL;
}

static bool keep_vehicle(ss_arena *arena, const ss_vehicle *from, ss_vehicle *out) {
    *out = *from;
    if (!keep_name(arena, out)) {
        return false;
    }
    if (from->also != NULL) {
        ss_vehicle *const also = ss_arena_alloc(arena, 1, sizeof *also);
        out->also = also;
        return also != NULL && keep_vehicle(arena, from->also, also);
    }
    return true;
}

static ss_status keep_asked(ss_watch *watch, const ss_bridge *from) {
    ss_arena *const arena = &watch->arena;
    const size_t vehicles = (size_t)from->vehicle_count, crossings = (size_t)from->crossing_count,
                 runs = (size_t)from->run_count;
    ss_watch_asked *const a = ss_arena_alloc(arena, 1, sizeof *a);
    if (a == NULL) {
        return SS_ERROR_MEMORY;
    }
    *a = (ss_watch_asked){.vehicles = ss_arena_alloc(arena, vehicles + 1, sizeof *a->vehicles),
                          .vehicle_count = from->vehicle_count,
                          .rated_count = from->rated_vehicle_count,
                          .crossings = ss_arena_alloc(arena, crossings + 1, sizeof *a->crossings),
                          .crossing_count = from->crossing_count,
                          .runs = ss_arena_alloc(arena, runs + 1, sizeof *a->runs),
                          .run_count = from->run_count,
                          .lanes = from->lanes,
                          .roadway_left = from->roadway_left,
                          .roadway_right = from->roadway_right,
                          .wheel_to_curb = from->wheel_to_curb};
    if (a->vehicles == NULL || a->crossings == NULL || a->runs == NULL) {
        return SS_ERROR_MEMORY;
    }
    for (size_t i = 0; i < vehicles; i++) {
        if (!keep_vehicle(arena, &from->vehicles[i], &a->vehicles[i])) {
            return SS_ERROR_MEMORY;
        }
    }
    for (size_t i = 0; i < crossings; i++) a->crossings[i] = from->crossings[i];
    for (size_t i = 0; i < runs; i++) {
        a->runs[i] = from->runs[i];
        a->runs[i].name = "";
    }
    watch->asked = a;
    return SS_OK;
}

static ss_status keep_trains(ss_watch *watch, const ss_placements *from) {
    ss_placements *const own = &watch->placements;
    own->trains = ss_alloc((size_t)from->train_count + 1, sizeof *own->trains);
    own->traffic = ss_alloc((size_t)from->traffic_count + 1, sizeof *own->traffic);
    if (own->trains == NULL || own->traffic == NULL) {
        return SS_ERROR_MEMORY;
    }
    for (int i = 0; i < from->train_count; i++) {
        ss_vehicle train = from->trains[i];
        train.also = NULL;
        if (!keep_name(&watch->arena, &train)) {
            return SS_ERROR_MEMORY;
        }
        own->trains[own->train_count++] = train;
    }
    if (from->traffic_count > 0) {
        memcpy(own->traffic, from->traffic, (size_t)from->traffic_count * sizeof *own->traffic);
    }
    own->traffic_count = from->traffic_count;
    return SS_OK;
}

/* ---- for the watch ---------------------------------------------------------------------------------- */

ss_status ss_watch_same_asked(const ss_watch *watch, const ss_bridge *bridge, ss_error *error) {
    if (watch->asked != NULL && !same_asked(watch->asked, bridge)) {
        return ss_error_set(error, SS_ERROR_LIMIT,
                            "the trucks, or where they may be, are others than those watched so far");
    }
    return SS_OK;
}

ss_status ss_watch_same_checks(const ss_watch *watch, const ss_check *checks, int count, ss_error *error) {
    bool same = watch->check_count == 0 || watch->check_count == count;
    for (int i = 0; same && i < watch->check_count; i++) {
        const ss_check *const own = &watch->checks[i];
        same = own->method == checks[i].method && own->level == checks[i].level &&
               own->limit == checks[i].limit && own->over_dead == checks[i].over_dead;
    }
    return same ? SS_OK
                : ss_error_set(error, SS_ERROR_LIMIT, "the checks are others than those watched so far");
}

ss_status ss_watch_meet(ss_watch *watch, const ss_variant *variant, ss_error *error) {
    ss_status status = SS_OK;
    if (watch->asked == NULL) {
        SS_TRY(keep_trains(watch, &variant->placements));
        SS_TRY(keep_asked(watch, &variant->bridge));
    }
    SS_TRY(ss_watch_same_asked(watch, &variant->bridge, error));
    SS_TRY(same_trains(&watch->placements, &variant->placements)
               ? SS_OK
               : ss_error_set(error, SS_ERROR_LIMIT, "the trucks are others than those watched so far"));
done:
    return status == SS_ERROR_MEMORY ? ss_no_memory(error) : status;
}
