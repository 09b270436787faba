/* placements.c - the tracks that trucks are tried on: both limits of the roadway, and wherever the way of a
 * wheel to the members changes. */
#include "response/placements.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* Tracks closer than this are one (m); at a jump of the deck there is one on each side of it, half as far
 * from it. */
#define SAME_TRACK 1e-9

/* With bearings that may lift, tracks are no farther apart (m). */
#define CLOSE 0.5

typedef struct lanes {
    double *y;
    int count, capacity;
} lanes;

static ss_status lanes_add(lanes *list, double y, ss_error *error) {
    if (list->count == list->capacity) {
        const int capacity = 2 * list->capacity + 64;
        double *const grown = ss_realloc(list->y, (size_t)capacity, sizeof *grown);
        if (grown == NULL) {
            return ss_no_memory(error);
        }
        list->y = grown;
        list->capacity = capacity;
    }
    list->y[list->count++] = y;
    return SS_OK;
}

/* Whether the shares of a wheel differ on both sides of y. */
static bool deck_jumps(const ss_mesh *mesh, int interval, double y) {
    ss_carrier a[4], b[4];
    const int left = ss_mesh_deck_across(mesh, interval, y - 1e-7, a);
    const int right = ss_mesh_deck_across(mesh, interval, y + 1e-7, b);
    double change = 0.0;
    for (int i = 0; i < left; i++) {
        double other = 0.0;
        for (int j = 0; j < right; j++) other += a[i].line == b[j].line ? b[j].weight : 0.0;
        change = ss_max(change, fabs(a[i].weight - other));
    }
    return left != right || change > 1e-4;
}

enum { KINKS_MOST = 256 };

/* The y at which the way of a wheel changes, at any station. */
static ss_status collect_kinks(const ss_mesh *mesh, lanes *kinks, ss_error *error) {
    ss_status status = SS_OK;
    double *const y = ss_alloc(KINKS_MOST, sizeof *y);
    if (y == NULL) {
        return ss_no_memory(error);
    }
    for (int i = 0; i + 1 < mesh->station_count; i++) {
        const int count = ss_mesh_deck_kinks(mesh, i, y, KINKS_MOST);
        for (int k = 0; k < count; k++) {
            if (deck_jumps(mesh, i, y[k])) {
                SS_TRY(lanes_add(kinks, y[k] - SAME_TRACK, error));
                SS_TRY(lanes_add(kinks, y[k] + SAME_TRACK, error));
            } else {
                SS_TRY(lanes_add(kinks, y[k], error));
            }
        }
        ss_sort_unique(kinks->y, &kinks->count, 0.5 * SAME_TRACK);
    }
    const ss_bridge *bridge = mesh->bridge;
    for (int i = 0; i + 1 < bridge->car_count; i++) {
        SS_TRY(lanes_add(kinks, bridge->cars[i].y_right, error));
        SS_TRY(lanes_add(kinks, bridge->cars[i + 1].y_left, error));
        SS_TRY(lanes_add(kinks, 0.5 * (bridge->cars[i].y_right + bridge->cars[i + 1].y_left), error));
    }
    ss_sort_unique(kinks->y, &kinks->count, 0.5 * SAME_TRACK);
done:
    ss_free(y);
    return status;
}

/* Sections of floor beams: just beside each line, where shear jumps, quarter points of the bays, and what is
 * probed. */
static ss_status collect_sections(const ss_mesh *mesh, lanes *sections, ss_error *error) {
    ss_status status = SS_OK;
    const ss_bridge *bridge = mesh->bridge;
    const int bays = mesh->beam_first[bridge->floor_beam_count];
    for (int i = 0; i < bays; i++) {
        const ss_element *e = &mesh->element[mesh->beam_element[i]];
        const double a = bridge->lines[mesh->node_line[e->a]].y;
        const double b = bridge->lines[mesh->node_line[e->b]].y;
        for (int quarter = 1; quarter < 4; quarter++) {
            SS_TRY(lanes_add(sections, a + 0.25 * quarter * (b - a), error));
        }
        SS_TRY(lanes_add(sections, a + SS_BESIDE, error));
        SS_TRY(lanes_add(sections, b - SS_BESIDE, error));
    }
    for (int i = 0; i < bridge->probe_count; i++) {
        if (bridge->probes[i].member == SS_MEMBER_BEAM) {
            SS_TRY(lanes_add(sections, bridge->probes[i].at, error));
        }
    }
    ss_sort_unique(sections->y, &sections->count, 0.5 * SAME_TRACK);
done:
    return status;
}

/* ---- tracks ------------------------------------------------------------------------------------- */

typedef struct builder {
    const ss_mesh *mesh;
    lanes kinks, sections;
    ss_placements made;
    int track_capacity, train_capacity;
    int *train_vehicle; /* of each train */
    ss_error *error;
} builder;

/* The train of a vehicle as it is. */
static ss_status train_of(builder *b, int vehicle, int *train) {
    for (int i = 0; i < b->made.train_count; i++) {
        if (b->train_vehicle[i] == vehicle) {
            *train = i;
            return SS_OK;
        }
    }
    if (b->made.train_count == b->train_capacity) {
        const int capacity = 2 * b->train_capacity + 16;
        ss_vehicle *const grown = ss_realloc(b->made.trains, (size_t)capacity, sizeof *grown);
        if (grown == NULL) {
            return ss_no_memory(b->error);
        }
        b->made.trains = grown;
        int *const owner = ss_realloc(b->train_vehicle, (size_t)capacity, sizeof *owner);
        if (owner == NULL) {
            return ss_no_memory(b->error);
        }
        b->train_vehicle = owner;
        b->train_capacity = capacity;
    }
    b->made.trains[b->made.train_count] = b->mesh->bridge->vehicles[vehicle];
    b->train_vehicle[b->made.train_count] = vehicle;
    *train = b->made.train_count++;
    return SS_OK;
}

static ss_status add_track(builder *b, ss_track track) {
    if (b->made.track_count == b->track_capacity) {
        const int capacity = 2 * b->track_capacity + 64;
        ss_track *const grown = ss_realloc(b->made.tracks, (size_t)capacity, sizeof *grown);
        if (grown == NULL) {
            return ss_no_memory(b->error);
        }
        b->made.tracks = grown;
        b->track_capacity = capacity;
    }
    b->made.tracks[b->made.track_count++] = track;
    return SS_OK;
}

/* Axles and spacings read the same from the rear. */
static bool symmetric(const ss_vehicle *v) {
    for (int i = 0; i < v->axle_count; i++) {
        if (!ss_close(v->axle_N[i], v->axle_N[v->axle_count - 1 - i], 1e-12)) {
            return false;
        }
    }
    for (int i = 0; i + 1 < v->axle_count; i++) {
        if (!ss_close(v->spacing_m[i], v->spacing_m[v->axle_count - 2 - i], 1e-12)) {
            return false;
        }
    }
    return true;
}

static bool lanes_have(const lanes *list, double y) {
    for (int k = 0; k < list->count; k++) {
        if (fabs(list->y[k] - y) < 0.25 * SAME_TRACK) {
            return true;
        }
    }
    return false;
}

static ss_status add_candidates(const lanes *places, double gauge, double low, double high, lanes *middles,
                                ss_error *error) {
    ss_status status = SS_OK;
    for (int k = 0; k < places->count; k++) {
        for (int side = -1; side <= 1; side += 2) {
            const double y = places->y[k] + 0.5 * gauge * side;
            if (y > low + SAME_TRACK && y < high - SAME_TRACK) {
                SS_TRY(lanes_add(middles, y, error));
            }
        }
    }
done:
    return status;
}

/* Bearings that lift make effects bend between the kinks of the deck, so that tracks may not be far apart. */
static ss_status fill_gaps(const builder *b, lanes *middles) {
    ss_status status = SS_OK;
    bool contact = false;
    for (int i = 0; i < b->mesh->spring_count; i++) contact = contact || b->mesh->spring[i].contact;
    const int count = middles->count;
    for (int i = 0; contact && i + 1 < count; i++) {
        const double from = middles->y[i], gap = middles->y[i + 1] - from;
        const int parts = (int)ceil(gap / CLOSE);
        for (int k = 1; k < parts; k++) SS_TRY(lanes_add(middles, from + gap * k / parts, b->error));
    }
    ss_sort_unique(middles->y, &middles->count, 0.5 * SAME_TRACK);
done:
    return status;
}

/* A truck that roams: its middle anywhere between both limits. */
static ss_status add_roaming(builder *b, int vehicle, int crossing) {
    const ss_bridge *bridge = b->mesh->bridge;
    const ss_vehicle *v = &bridge->vehicles[vehicle];
    ss_traffic *const traffic = &b->made.traffic[b->made.traffic_count++];
    *traffic =
        (ss_traffic){.vehicle = vehicle, .run = -1, .crossing = crossing, .first_track = b->made.track_count};
    if (bridge->roadway_right - bridge->roadway_left < v->gauge_m) {
        return SS_OK;
    }
    ss_status status = SS_OK;
    int train = -1;
    lanes middles = {0}, kinks = {0};
    double low = bridge->roadway_left + bridge->wheel_to_curb + 0.5 * v->gauge_m;
    double high = bridge->roadway_right - bridge->wheel_to_curb - 0.5 * v->gauge_m;
    if (low > high) { /* no room for the distance to the curb: in the middle of the roadway */
        low = high = 0.5 * (bridge->roadway_left + bridge->roadway_right);
    }
    SS_TRY(train_of(b, vehicle, &train));
    SS_TRY(lanes_add(&middles, low, b->error));
    SS_TRY(lanes_add(&middles, high, b->error));
    SS_TRY(add_candidates(&b->kinks, v->gauge_m, low, high, &middles, b->error));
    ss_sort_unique(middles.y, &middles.count, 0.5 * SAME_TRACK);
    SS_TRY(fill_gaps(b, &middles));
    for (int i = 0; i < middles.count; i++) SS_TRY(lanes_add(&kinks, middles.y[i], b->error));
    SS_TRY(add_candidates(&b->sections, v->gauge_m, low, high, &middles, b->error));
    ss_sort_unique(middles.y, &middles.count, 0.5 * SAME_TRACK);
    for (int backward = 0; backward <= !symmetric(v); backward++) {
        for (int i = 0; i < middles.count; i++) {
            const double y = middles.y[i];
            SS_TRY(add_track(b, (ss_track){train, vehicle, -1, backward == 1, y, !lanes_have(&kinks, y)}));
        }
    }
    traffic->track_count = b->made.track_count - traffic->first_track;
done:
    ss_free(middles.y);
    ss_free(kinks.y);
    return status;
}

static ss_status add_run(builder *b, int run) {
    const ss_run *r = &b->mesh->bridge->runs[run];
    const bool both = r->forward && r->backward && symmetric(&b->mesh->bridge->vehicles[r->vehicle]);
    ss_traffic *const traffic = &b->made.traffic[b->made.traffic_count++];
    *traffic =
        (ss_traffic){.vehicle = r->vehicle, .run = run, .crossing = -1, .first_track = b->made.track_count};
    ss_status status = SS_OK;
    int train = -1;
    SS_TRY(train_of(b, r->vehicle, &train));
    if (r->forward) {
        SS_TRY(add_track(b, (ss_track){train, r->vehicle, run, false, r->y, false}));
    }
    if (r->backward && !both) {
        SS_TRY(add_track(b, (ss_track){train, r->vehicle, run, true, r->y, false}));
    }
    traffic->track_count = b->made.track_count - traffic->first_track;
done:
    return status;
}

void ss_placements_destroy(ss_placements *placements) {
    if (placements == NULL) {
        return;
    }
    ss_free(placements->trains);
    ss_free(placements->traffic);
    ss_free(placements->tracks);
    *placements = (ss_placements){0};
}

ss_status ss_placements_build(const ss_mesh *mesh, ss_placements *out, ss_error *error) {
    const ss_bridge *bridge = mesh->bridge;
    ss_status status = SS_OK;
    builder b = {.mesh = mesh, .error = error};
    b.made.traffic =
        ss_alloc((size_t)(bridge->crossing_count + bridge->rated_vehicle_count) + (size_t)bridge->run_count,
                 sizeof *b.made.traffic);
    if (b.made.traffic == NULL) {
        status = ss_no_memory(error);
        goto done;
    }
    SS_TRY(collect_kinks(mesh, &b.kinks, error));
    SS_TRY(collect_sections(mesh, &b.sections, error));
    for (int i = 0; i < bridge->crossing_count; i++) {
        SS_TRY(add_roaming(&b, bridge->crossings[i].vehicle, i));
    }
    for (int i = 0; bridge->crossing_count == 0 && i < bridge->rated_vehicle_count; i++) {
        SS_TRY(add_roaming(&b, i, -1)); /* no crossings said: each alone */
    }
    for (int i = 0; i < bridge->run_count; i++) SS_TRY(add_run(&b, i));
    *out = b.made;
    b.made = (ss_placements){0};
done:
    ss_placements_destroy(&b.made);
    ss_free(b.train_vehicle);
    ss_free(b.kinks.y);
    ss_free(b.sections.y);
    return status;
}
