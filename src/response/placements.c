/* placements.c - the tracks that trucks are tried on: both limits of the roadway, and wherever the way of a
 * wheel to the members changes. */
#include "response/placements.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "response/trains.h"
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
        if (bridge->floor_beams[e->member].strip > 0.0) {
            continue;
        }
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
    bool contact; /* some bearing may lift */
    ss_placements made;
    ss_train_list trains;
    int track_capacity;
    ss_error *error;
} builder;

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
        const int k = v->axle_count - 1 - i;
        if (!ss_close(v->axle_N[i], v->axle_N[k], 1e-12) ||
            !ss_close(ss_vehicle_gauge(v, i), ss_vehicle_gauge(v, k), 1e-12)) {
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

/* Middles of a train one of whose wheels, or its own middle with `shift`, is at one of the places. */
static ss_status add_candidates(const lanes *places, const ss_vehicle *train, double shift, double low,
                                double high, lanes *middles, ss_error *error) {
    ss_status status = SS_OK;
    double last = -1.0;
    for (int a = 0; a < train->axle_count; a++) {
        const double gauge = ss_vehicle_gauge(train, a);
        if (gauge == last) {
            continue;
        }
        last = gauge;
        for (int k = 0; k < places->count; k++) {
            for (int side = -1; side <= 1; side += 2) {
                const double y = places->y[k] + 0.5 * gauge * side + shift;
                if (y > low + SAME_TRACK && y < high - SAME_TRACK) {
                    SS_TRY(lanes_add(middles, y, error));
                }
            }
        }
    }
done:
    return status;
}

/* Bearings that lift make effects bend between the kinks of the deck, so that tracks may not be far apart. */
static ss_status fill_gaps(const builder *b, lanes *middles) {
    ss_status status = SS_OK;
    const int count = middles->count;
    for (int i = 0; b->contact && i + 1 < count; i++) {
        const double from = middles->y[i], gap = middles->y[i + 1] - from;
        const int parts = (int)ceil(gap / CLOSE);
        for (int k = 1; k < parts; k++) SS_TRY(lanes_add(middles, from + gap * k / parts, b->error));
    }
    ss_sort_unique(middles->y, &middles->count, 0.5 * SAME_TRACK);
done:
    return status;
}

/* Where one train may be. */
typedef struct train_room {
    int train, vehicle, run;
    double low, high;
    double shift; /* trucks abreast: middles this far from one another count too, up to `shifts` times */
    int shifts;
    bool plain; /* only trains with spacings at their least and all axles */
    bool forward, backward;
} train_room;

/* Tracks of a train from low to high: at both limits and wherever the way of its wheels changes. */
static ss_status add_tracks(builder *b, const train_room *room) {
    ss_status status = SS_OK;
    const ss_vehicle *const train = &b->trains.items[room->train];
    lanes middles = {0}, kinks = {0};
    SS_TRY(lanes_add(&middles, room->low, b->error));
    SS_TRY(lanes_add(&middles, room->high, b->error));
    for (int k = -room->shifts; k <= room->shifts; k++) {
        SS_TRY(add_candidates(&b->kinks, train, k * room->shift, room->low, room->high, &middles, b->error));
        for (int end = 0; end < 2 && k != 0; end++) {
            const double y = (end == 0 ? room->low : room->high) + k * room->shift;
            if (y > room->low && y < room->high) {
                SS_TRY(lanes_add(&middles, y, b->error));
            }
        }
    }
    ss_sort_unique(middles.y, &middles.count, 0.5 * SAME_TRACK);
    SS_TRY(fill_gaps(b, &middles));
    for (int i = 0; i < middles.count; i++) SS_TRY(lanes_add(&kinks, middles.y[i], b->error));
    if (!room->plain) {
        SS_TRY(add_candidates(&b->sections, train, 0.0, room->low, room->high, &middles, b->error));
    }
    ss_sort_unique(middles.y, &middles.count, 0.5 * SAME_TRACK);
    const bool both = room->forward && room->backward && symmetric(train);
    for (int backward = !room->forward; backward <= (room->backward && !both); backward++) {
        for (int i = 0; i < middles.count; i++) {
            const double y = middles.y[i];
            SS_TRY(add_track(b, (ss_track){room->train, room->vehicle, room->run, backward == 1, y,
                                           !lanes_have(&kinks, y)}));
        }
    }
done:
    ss_free(middles.y);
    ss_free(kinks.y);
    return status;
}

/* Tracks of all trains of a vehicle. */
static ss_status add_vehicle(builder *b, train_room room) {
    ss_status status = SS_OK;
    SS_TRY(ss_trains_of(&b->trains, b->mesh->bridge, room.vehicle, b->error));
    for (room.train = b->trains.first[room.vehicle]; room.train < b->trains.last[room.vehicle];
         room.train++) {
        if (!room.plain || b->trains.plain[room.train]) {
            SS_TRY(add_tracks(b, &room));
        }
    }
done:
    return status;
}

/* ---- traffic ------------------------------------------------------------------------------------ */

static ss_traffic *next_traffic(builder *b, int vehicle, int run, int crossing) {
    ss_traffic *const traffic = &b->made.traffic[b->made.traffic_count++];
    *traffic = (ss_traffic){
        .vehicle = vehicle, .run = run, .crossing = crossing, .first_track = b->made.track_count};
    return traffic;
}

/* Where the middle of one truck of a crossing abreast may be, whichever lane it is in. False: they have no
 * room. */
static bool range_of_truck(const ss_bridge *bridge, const ss_crossing *crossing, int truck, double *low,
                           double *high) {
    int which[SS_LANES_MAX];
    *low = SS_INFINITY;
    *high = -SS_INFINITY;
    for (int number = 0; ss_crossing_order(crossing, number, which); number++) {
        double gauge[SS_LANES_MAX], from[SS_LANES_MAX], to[SS_LANES_MAX];
        for (int i = 0; i < crossing->lanes; i++) {
            gauge[i] = bridge->vehicles[ss_crossing_truck(crossing, which[i])].gauge_m;
        }
        if (!ss_crossing_ranges(bridge, crossing, gauge, from, to)) {
            return false;
        }
        for (int i = 0; i < crossing->lanes; i++) {
            if (which[i] == truck) {
                *low = ss_min(*low, from[i]);
                *high = ss_max(*high, to[i]);
            }
        }
    }
    return true;
}

/* Trucks abreast: tracks of the vehicle and of those beside it, each all over the lanes. Without contact
 * they are at every place that can govern, three different trucks as far as their gauges are alike; with it
 * tracks are close anyway. */
static ss_status add_abreast(builder *b, int index, ss_traffic *traffic) {
    const ss_bridge *bridge = b->mesh->bridge;
    const ss_crossing *crossing = &bridge->crossings[index];
    const ss_lane_rule *rule = ss_lane_rule_of(bridge, crossing->vehicle);
    const int different = ss_crossing_truck_count(crossing);
    const int trucks = different > 2 ? different : 2; /* two that are alike have tracks each */
    const double shift = 0.5 * (bridge->vehicles[crossing->vehicle].gauge_m +
                                bridge->vehicles[ss_crossing_truck(crossing, different > 1)].gauge_m) +
                         rule->between_wheels;
    ss_status status = SS_OK;
    for (int truck = 0; truck < trucks; truck++) {
        double low, high;
        const int of = truck < different ? truck : 0;
        if (!range_of_truck(bridge, crossing, of, &low, &high)) {
            return SS_OK;
        }
        traffic->lane_first[truck] = b->made.track_count;
        SS_TRY(add_vehicle(b, (train_room){.vehicle = ss_crossing_truck(crossing, of),
                                           .run = -1,
                                           .low = low,
                                           .high = high,
                                           .shift = shift,
                                           .shifts = rule->fixed || b->contact ? 0 : crossing->lanes - 1,
                                           .plain = true,
                                           .forward = true,
                                           .backward = true}));
        traffic->lane_count[truck] = b->made.track_count - traffic->lane_first[truck];
    }
done:
    return status;
}

static ss_status add_crossing(builder *b, int index) {
    const ss_bridge *bridge = b->mesh->bridge;
    const ss_crossing *crossing = &bridge->crossings[index];
    ss_traffic *const traffic = next_traffic(b, crossing->vehicle, -1, index);
    if (crossing->kind == SS_CROSSING_BESIDE) {
        return add_abreast(b, index, traffic);
    }
    const double gauge = bridge->vehicles[crossing->vehicle].gauge_m;
    double low, high;
    if (!ss_crossing_ranges(bridge, crossing, &gauge, &low, &high)) {
        return SS_OK;
    }
    if (crossing->kind == SS_CROSSING_CENTRED) {
        low = high = 0.5 * (bridge->roadway_left + bridge->roadway_right);
    } else if (crossing->kind == SS_CROSSING_LINE) {
        low = high = crossing->y;
    }
    const ss_status status = add_vehicle(b, (train_room){.vehicle = crossing->vehicle,
                                                         .run = -1,
                                                         .low = low,
                                                         .high = high,
                                                         .forward = true,
                                                         .backward = true});
    traffic->track_count = b->made.track_count - traffic->first_track;
    return status;
}

/* A truck that roams: its middle anywhere between both limits. */
static ss_status add_roaming(builder *b, int vehicle) {
    const ss_bridge *bridge = b->mesh->bridge;
    const double gauge = bridge->vehicles[vehicle].gauge_m;
    ss_traffic *const traffic = next_traffic(b, vehicle, -1, -1);
    double low = bridge->roadway_left + bridge->wheel_to_curb + 0.5 * gauge;
    double high = bridge->roadway_right - bridge->wheel_to_curb - 0.5 * gauge;
    if (bridge->roadway_right - bridge->roadway_left < gauge) {
        return SS_OK;
    }
    if (low > high) { /* no room for the distance to the curb: in the middle of the roadway */
        low = high = 0.5 * (bridge->roadway_left + bridge->roadway_right);
    }
    const ss_status status = add_vehicle(
        b, (train_room){
               .vehicle = vehicle, .run = -1, .low = low, .high = high, .forward = true, .backward = true});
    traffic->track_count = b->made.track_count - traffic->first_track;
    return status;
}

static ss_status add_run(builder *b, int run) {
    const ss_run *r = &b->mesh->bridge->runs[run];
    ss_traffic *const traffic = next_traffic(b, r->vehicle, run, -1);
    const ss_status status = add_vehicle(b, (train_room){.vehicle = r->vehicle,
                                                         .run = run,
                                                         .low = r->y,
                                                         .high = r->y,
                                                         .forward = r->forward,
                                                         .backward = r->backward});
    traffic->track_count = b->made.track_count - traffic->first_track;
    return status;
}

static ss_status add_area_lines(builder *b) {
    ss_status status = SS_OK;
    lanes breaks = {0};
    for (int i = 0; i < b->kinks.count; i++) SS_TRY(lanes_add(&breaks, b->kinks.y[i], b->error));
    for (int i = 0; b->mesh->bridge->deck.along && i < b->sections.count; i++) {
        SS_TRY(lanes_add(&breaks, b->sections.y[i], b->error));
    }
    ss_sort_unique(breaks.y, &breaks.count, 0.0);
    SS_TRY(ss_area_lines_build(b->mesh, breaks.y, breaks.count, &b->made, b->error));
done:
    ss_free(breaks.y);
    return status;
}

void ss_placements_destroy(ss_placements *placements) {
    if (placements == NULL) {
        return;
    }
    ss_free(placements->trains);
    ss_free(placements->origins);
    ss_free(placements->traffic);
    ss_free(placements->tracks);
    ss_free(placements->area_lines);
    *placements = (ss_placements){0};
}

ss_status ss_placements_build(const ss_mesh *mesh, ss_placements *out, ss_error *error) {
    const ss_bridge *bridge = mesh->bridge;
    ss_status status = SS_OK;
    builder b = {.mesh = mesh, .error = error};
    for (int i = 0; i < mesh->spring_count; i++) b.contact = b.contact || mesh->spring[i].contact;
    b.made.traffic = ss_alloc((size_t)(bridge->crossing_count + bridge->rated_vehicle_count) +
                                  (size_t)bridge->run_count + 1,
                              sizeof *b.made.traffic);
    SS_TRY(b.made.traffic == NULL ? ss_no_memory(error) : SS_OK);
    SS_TRY(ss_trains_create(bridge, &b.trains, error));
    SS_TRY(collect_kinks(mesh, &b.kinks, error));
    SS_TRY(collect_sections(mesh, &b.sections, error));
    for (int i = 0; i < bridge->crossing_count; i++) SS_TRY(add_crossing(&b, i));
    for (int i = 0; bridge->crossing_count == 0 && i < bridge->rated_vehicle_count; i++) {
        SS_TRY(add_roaming(&b, i)); /* no crossings said: each alone */
    }
    for (int i = 0; i < bridge->run_count; i++) SS_TRY(add_run(&b, i));
    SS_TRY(add_area_lines(&b));
    b.made.trains = b.trains.items;
    b.made.train_count = b.trains.count;
    b.made.origins = b.trains.origins;
    b.trains.items = NULL;
    b.trains.origins = NULL;
    *out = b.made;
    b.made = (ss_placements){0};
done:
    ss_trains_destroy(&b.trains);
    ss_placements_destroy(&b.made);
    ss_free(b.kinks.y);
    ss_free(b.sections.y);
    return status;
}
