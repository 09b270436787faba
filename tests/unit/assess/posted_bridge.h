/* posted_bridge.h - finished ratings made by hand: vehicles, how they cross, and a factor for each check. */
#ifndef SS_TEST_POSTED_BRIDGE_H
#define SS_TEST_POSTED_BRIDGE_H

#include <string.h>

#include "sillspan/posting.h"
#include "support/suite.h"

enum { POSTED_MOST = 24 };

typedef struct posted_bridge {
    ss_bridge bridge;
    ss_placements placements;
    ss_ratings ratings;
    ss_vehicle vehicles[POSTED_MOST];
    ss_crossing crossings[POSTED_MOST];
    ss_traffic traffic[POSTED_MOST];
    ss_rating_item items[SS_CHECKS_MAX * POSTED_MOST];
    int governing[SS_CHECKS_MAX * POSTED_MOST];
    int worst[SS_CHECKS_MAX];
} posted_bridge;

static inline void posted_start(posted_bridge *p) {
    memset(p, 0, sizeof *p);
    p->bridge.vehicles = p->vehicles;
    p->bridge.crossings = p->crossings;
    p->bridge.rating.dynamic_allowance = (double)NAN;
    p->bridge.rating.live_factor = (double)NAN;
    p->bridge.rating.dc_factor = p->bridge.rating.dw_factor = (double)NAN;
    p->bridge.rating.phi_flexure = p->bridge.rating.phi_shear = (double)NAN;
    p->bridge.rating.condition = p->bridge.rating.system = 1.0;
    p->bridge.rating.approach_allowance = 0.33;
    p->bridge.rating.single_lane_presence = true;
    p->placements.traffic = p->traffic;
    p->ratings.items = p->items;
    p->ratings.governing = p->governing;
    p->ratings.worst = p->worst;
    p->ratings.controlling = -1;
}

static inline int posted_check(posted_bridge *p, ss_method method, ss_level level, ss_limit limit) {
    p->ratings.checks[p->ratings.check_count] = (ss_check){.method = method, .level = level, .limit = limit};
    p->worst[p->ratings.check_count] = -1;
    return p->ratings.check_count++;
}

static inline int posted_vehicle(posted_bridge *p, const char *name) {
    for (int i = 0; i < p->bridge.vehicle_count; i++) {
        if (strcmp(p->vehicles[i].name, name) == 0) {
            return i;
        }
    }
    const ss_vehicle *const known = ss_vehicle_find(name);
    CU_ASSERT_PTR_NOT_NULL_FATAL(known);
    p->vehicles[p->bridge.vehicle_count] = *known;
    p->bridge.rated_vehicle_count++;
    return p->bridge.vehicle_count++;
}

/** A vehicle and a crossing; returns its traffic. */
static inline int posted_crossing(posted_bridge *p, const char *name, ss_crossing_kind kind) {
    const int vehicle = posted_vehicle(p, name);
    const bool beside = kind == SS_CROSSING_BESIDE;
    const int c = p->bridge.crossing_count++;
    p->crossings[c] = (ss_crossing){.kind = kind,
                                    .vehicle = vehicle,
                                    .beside = beside ? vehicle : -1,
                                    .lanes = beside ? 2 : 1,
                                    .alternative = kind == SS_CROSSING_CENTRED || kind == SS_CROSSING_LINE};
    const int t = p->placements.traffic_count++;
    p->traffic[t] = (ss_traffic){.vehicle = vehicle, .run = -1, .crossing = c, .track_count = 1};
    p->ratings.traffic_count = t + 1;
    return t;
}

/** A factor of a joint's shear; every check and vehicle must be there before the first. */
static inline ss_rating_item *posted_factor(posted_bridge *p, int check, int traffic, double rf) {
    if (p->ratings.count == 0) {
        for (int i = 0; i < p->ratings.check_count * p->ratings.traffic_count; i++) p->governing[i] = -1;
    }
    const int i = p->ratings.count++;
    ss_rating_item *const item = &p->items[i];
    *item = (ss_rating_item){
        .check = check, .traffic = traffic, .rf = rf, .proved = (double)NAN, .factors = {.allowance = 0.33}};
    item->effect.member = SS_MEMBER_JOINT;
    item->effect.kind = SS_EFFECT_SHEAR;
    int *const governing = &p->governing[check * p->ratings.traffic_count + traffic];
    *governing = *governing < 0 || rf < p->items[*governing].rf ? i : *governing;
    int *const worst = &p->worst[check];
    *worst = *worst < 0 || rf < p->items[*worst].rf ? i : *worst;
    return item;
}

static inline ss_posting posted(const posted_bridge *p, ss_method method, ss_unit_system units) {
    ss_posting posting = {0};
    ss_error error = {SS_OK, ""};
    CHECK_OK(ss_posting_compute(&p->bridge, &p->placements, &p->ratings, method, units, &posting, &error),
             &error);
    return posting;
}

/** Whether one of the sentences is this one. */
static inline bool posted_says(const char *const *lines, int count, const char *sentence) {
    for (int i = 0; i < count; i++) {
        if (strcmp(lines[i], sentence) == 0) {
            return true;
        }
    }
    return false;
}

/** The value of an inventory item; NULL when it has none, "?" when the item is not there. */
static inline const char *posted_record(const ss_posting *posting, const char *system, const char *item) {
    for (int i = 0; i < posting->record_count; i++) {
        const ss_record_item *const record = &posting->records[i];
        if (strcmp(record->system, system) == 0 && strcmp(record->item, item) == 0) {
            return record->value;
        }
    }
    return "?";
}

#endif
