/* watch.c - what a watch holds: effects by their names, stands of trucks, and the pairs of them that count.
 */
#include "sillspan/watch.h"

#include <math.h>
#include <string.h>

#include "base/try.h"
#include "response/state.h"
#include "sillspan/memory.h"
#include "studies/growing.h"
#include "studies/names.h"
#include "studies/watch_parts.h"

#define ROOM(watch, what) SS_GROW((watch)->what##s, (watch)->what##_count, (watch)->what##_capacity)

/* ---- effects ---------------------------------------------------------------------------------------- */

/* With the names of the bridge. */
static ss_watched_effect name_effect(const ss_bridge *bridge, const ss_effect *effect) {
    ss_watched_effect named = {.member = effect->member,
                               .kind = effect->kind,
                               .before = effect->before,
                               .tapered = effect->moment_shear != 0.0,
                               .name = "",
                               .at = effect->at};
    const ss_line *line = NULL;
    switch (effect->member) {
    case SS_MEMBER_LINE:
        line = &bridge->lines[effect->index];
        named.car = bridge->cars[line->car].name;
        named.name = line->whole;
        break;
    case SS_MEMBER_BEAM:
        named.car = bridge->cars[bridge->floor_beams[effect->index].car].name;
        named.name = bridge->floor_beams[effect->index].name;
        break;
    case SS_MEMBER_JOINT: named.name = bridge->joints[effect->index].name; break;
    case SS_MEMBER_BEARING:
        line = &bridge->lines[bridge->bearings[effect->index].line];
        named.car = bridge->cars[line->car].name;
        named.line = line->whole;
        named.name = bridge->bearings[effect->index].name;
        break;
    }
    return named;
}

static bool same_effect(const ss_watched_effect *a, const ss_watched_effect *b) {
    return a->member == b->member && a->kind == b->kind && a->before == b->before &&
           a->tapered == b->tapered && a->at == b->at && ss_same_name(a->car, b->car) &&
           ss_same_name(a->name, b->name) && ss_same_name(a->line, b->line);
}

static ss_status add_effect(ss_watch *watch, const ss_bridge *bridge, const ss_effect *effect, int *out) {
    ss_watched_effect named = name_effect(bridge, effect);
    for (*out = 0; *out < watch->effect_count; (*out)++) {
        if (same_effect(&watch->effects[*out], &named)) {
            return SS_OK;
        }
    }
    if (!ROOM(watch, effect) || !ss_keep_name(&watch->arena, &named.car) ||
        !ss_keep_name(&watch->arena, &named.name) || !ss_keep_name(&watch->arena, &named.line)) {
        return SS_ERROR_MEMORY;
    }
    watch->effects[watch->effect_count++] = named;
    return SS_OK;
}

/* ---- stands ----------------------------------------------------------------------------------------- */

static bool same_trucks(const ss_watch *watch, const ss_watched_stand *a, const ss_watched_stand *b) {
    if (a->traffic != b->traffic || a->truck_count != b->truck_count) {
        return false;
    }
    for (int i = 0; i < a->truck_count; i++) {
        const ss_position *const p = &a->position[i];
        const ss_position *const q = &b->position[i];
        const bool alike = p->track == q->track && p->x == q->x && p->on_beam == q->on_beam;
        if (!alike || !ss_watch_same_truck(ss_position_train(&watch->placements, p),
                                           ss_position_train(&watch->placements, q))) {
            return false;
        }
    }
    return true;
}

static bool same_lanes(const ss_watched_stand *a, const ss_watched_stand *b) {
    if (a->lane_count != b->lane_count || (a->lane_count > 0 && a->lane_share != b->lane_share)) {
        return false;
    }
    for (int i = 0; i < a->lane_count; i++) {
        if (a->lane[i].truck != b->lane[i].truck || a->lane[i].from != b->lane[i].from ||
            a->lane[i].to != b->lane[i].to) {
            return false;
        }
    }
    return true;
}

/* The number of a track like it in the placements of the watch. */
static ss_status add_track(ss_watch *watch, const ss_track *track, int *out) {
    ss_placements *const own = &watch->placements;
    for (*out = 0; *out < own->track_count; (*out)++) {
        const ss_track *const t = &own->tracks[*out];
        if (t->train == track->train && t->backward == track->backward && t->y == track->y &&
            t->run == track->run) {
            return SS_OK;
        }
    }
    ss_track *const grown = ss_realloc(own->tracks, (size_t)own->track_count + 1, sizeof *grown);
    if (grown == NULL) {
        return SS_ERROR_MEMORY;
    }
    own->tracks = grown;
    grown[own->track_count++] = *track;
    return SS_OK;
}

/* Into the tracks and the memory of the watch. */
static ss_status adopt(ss_watch *watch, const ss_placements *from, ss_position *position) {
    const ss_status status = add_track(watch, &from->tracks[position->track], &position->track);
    if (status == SS_OK && position->train != NULL) {
        ss_vehicle *const train = ss_arena_alloc(&watch->arena, 1, sizeof *train);
        if (train == NULL) {
            return SS_ERROR_MEMORY;
        }
        *train = *position->train;
        train->also = NULL;
        position->train = train;
    }
    return status;
}

/* `stand` with the tracks of `from`. */
static ss_status add_stand(ss_watch *watch, const ss_placements *from, ss_watched_stand stand, int *out) {
    for (int i = 0; i < stand.truck_count; i++) {
        const ss_status status = adopt(watch, from, &stand.position[i]);
        if (status != SS_OK) {
            return status;
        }
    }
    for (*out = 0; *out < watch->stand_count; (*out)++) {
        if (same_trucks(watch, &watch->stands[*out], &stand) && same_lanes(&watch->stands[*out], &stand)) {
            return SS_OK;
        }
    }
    ss_lane_stretch *const lane = ss_arena_alloc(&watch->arena, (size_t)stand.lane_count + 1, sizeof *lane);
    if (lane == NULL || !ROOM(watch, stand)) {
        return SS_ERROR_MEMORY;
    }
    if (stand.lane_count > 0) {
        memcpy(lane, stand.lane, (size_t)stand.lane_count * sizeof *lane);
    }
    stand.lane = lane;
    watch->stands[watch->stand_count++] = stand;
    return SS_OK;
}

static ss_status add_item(ss_watch *watch, ss_watched_item item, int *out) {
    for (int i = 0; i < watch->item_count; i++) {
        const ss_watched_item *const own = &watch->items[i];
        if (own->stand == item.stand && own->effect == item.effect && own->check == item.check &&
            own->most == item.most) {
            *out = i;
            return SS_OK;
        }
    }
    if (!ROOM(watch, item)) {
        return SS_ERROR_MEMORY;
    }
    *out = watch->item_count;
    watch->items[watch->item_count++] = item;
    return SS_OK;
}

/* ---- public ----------------------------------------------------------------------------------------- */

static ss_status watch_rating(ss_watch *watch, const ss_variant *rated, const ss_rating_item *item) {
    ss_watched_item made = {.check = item->check, .most = item->most};
    int number = 0;
    ss_watched_stand stand = {.traffic = item->traffic,
                              .truck_count = item->truck_count,
                              .lane_count = item->lane_count,
                              .lane = item->lane,
                              .lane_share = item->lane_share};
    memcpy(stand.position, item->position, sizeof stand.position);
    ss_status status = add_effect(watch, &rated->bridge, &item->effect, &made.effect);
    if (status == SS_OK) {
        status = add_stand(watch, &rated->placements, stand, &made.stand);
    }
    return status == SS_OK ? add_item(watch, made, &number) : status;
}

ss_status ss_watch_add(ss_watch *watch, const ss_variant *rated, double within, ss_error *error) {
    const ss_ratings *const r = &rated->ratings;
    ss_status status = ss_watch_meet(watch, rated, error);
    if (status == SS_OK && watch->check_count == 0) {
        watch->check_count = r->check_count;
        memcpy(watch->checks, r->checks, sizeof watch->checks);
    }
    status = status == SS_OK ? ss_watch_same_checks(watch, r->checks, r->check_count, error) : status;
    if (status != SS_OK) {
        return status;
    }
    for (int i = 0; i < r->count; i++) {
        const ss_rating_item *const item = &r->items[i];
        const int governing = ss_ratings_governing(r, item->check, item->traffic);
        const bool near = governing >= 0 && (item->rf <= within * r->items[governing].rf ||
                                             item->effect.member == SS_MEMBER_JOINT);
        if (near && item->position[0].track >= 0 && !item->joint_out &&
            r->checks[item->check].limit != SS_LIMIT_DEFLECTION &&
            watch_rating(watch, rated, item) != SS_OK) {
            return ss_no_memory(error);
        }
    }
    return SS_OK;
}

ss_status ss_watch_add_live(ss_watch *watch, const ss_variant *variant, const ss_effect *effect, bool most,
                            int traffic, const ss_extreme *extreme, int *item, ss_error *error) {
    ss_watched_item made = {.check = SS_WATCH_LIVE, .most = most};
    int number = 0;
    const ss_extreme_load *const load = extreme->load;
    ss_watched_stand stand = {.traffic = traffic, .truck_count = 1, .lane_share = 1.0};
    stand.position[0] = extreme->position;
    if (load != NULL) {
        stand.truck_count = load->truck_count;
        memcpy(stand.position, load->position, sizeof stand.position);
        stand.lane_count = load->stretch_count;
        stand.lane = load->stretch;
    }
    ss_status status = ss_watch_meet(watch, variant, error);
    if (status != SS_OK) {
        return status;
    }
    status = add_effect(watch, &variant->bridge, effect, &made.effect);
    if (status == SS_OK) {
        status = add_stand(watch, &variant->placements, stand, &made.stand);
    }
    if (status == SS_OK) {
        status = add_item(watch, made, item != NULL ? item : &number);
    }
    return status == SS_OK ? SS_OK : ss_no_memory(error);
}

void ss_watch_destroy(ss_watch *watch) {
    ss_placements_destroy(&watch->placements);
    ss_free(watch->effects);
    ss_free(watch->stands);
    ss_free(watch->items);
    ss_arena_destroy(&watch->arena);
    *watch = (ss_watch){0};
}
