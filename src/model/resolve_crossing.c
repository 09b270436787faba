/* resolve_crossing.c - the lanes of the roadway, and how each rated truck crosses: alone, beside others, or
 * restricted. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "model/lanes.h"
#include "model/resolve.h"

enum { KINDS = SS_CROSSING_LINE + 1 };

/* ---- lanes ------------------------------------------------------------------------------------------ */

static bool rates(const ss_bridge *bridge, ss_vehicle_class kind) {
    for (int i = 0; i < bridge->rated_vehicle_count; i++) {
        if (bridge->vehicles[i].kind == kind) {
            return true;
        }
    }
    return false;
}

/* The rule's words with the width that they are about. */
static const char *basis_words(ss_resolve *c, double roadway, const char *why) {
    char width[SS_WORDS];
    const char *const words = ss_arena_printf(&c->bridge->arena, "clear roadway of %s: %s",
                                              ss_resolve_length(c, roadway, width), why);
    if (words == NULL) {
        c->reading.status = SS_ERROR_MEMORY;
    }
    return words;
}

static void note_lanes(ss_resolve *c, const ss_node *item, const ss_lane_rule *rule, const char *by) {
    const char count[2] = {(char)('0' + rule->count), '\0'};
    const char *const why = ss_arena_printf(&c->bridge->arena, "%s the %s.", by, rule->basis);
    if (why == NULL) {
        c->reading.status = SS_ERROR_MEMORY;
    } else {
        ss_resolve_assume(c, item, "lanes", count, why);
    }
}

static bool resolve_lanes(ss_resolve *c, const ss_node *item) {
    ss_bridge *const bridge = c->bridge;
    const double roadway = bridge->roadway_right - bridge->roadway_left;
    ss_lane_wish wish = {.width = ss_resolve_optional(c, item, "bridge.roadway.lane_width")};
    (void)ss_read_integer(&c->reading, item, "bridge.roadway.lanes", &wish.count);
    if (!(roadway > 0.0)) {
        return false; /* its absence or fault is told with the curbs */
    }
    if (!ss_lanes_usual(roadway, wish, &bridge->lanes)) {
        char width[SS_WORDS];
        char clear[SS_WORDS];
        ss_read_complain(&c->reading, SS_FAULT, item, "lanes",
                         "%d lanes of %s do not go between the curbs, which are %s apart", wish.count,
                         ss_resolve_length(c, wish.width, width), ss_resolve_length(c, roadway, clear));
        return false;
    }
    ss_lanes_notional(roadway, &bridge->notional_lanes);
    bridge->lanes.wheel_to_curb = bridge->wheel_to_curb;
    if (ss_read_given(item, "wheel_to_curb")) {
        bridge->notional_lanes.wheel_to_curb = bridge->wheel_to_curb;
    }
    if (bridge->lanes.count > 1 || ss_read_given(item, "between_wheels")) {
        (void)ss_read_quantity(&c->reading, item, "bridge.roadway.between_wheels",
                               &bridge->lanes.between_wheels);
    }
    bridge->lanes.basis = basis_words(c, roadway, bridge->lanes.basis);
    bridge->notional_lanes.basis = basis_words(c, roadway, bridge->notional_lanes.basis);
    if (!ss_resolve_out_of_memory(c) && !ss_read_given(item, "lanes")) {
        note_lanes(c, item, &bridge->lanes, "By");
    }
    if (!ss_resolve_out_of_memory(c) && rates(bridge, SS_VEHICLE_EUROPEAN)) {
        note_lanes(c, item, &bridge->notional_lanes, "For European load models, by");
    }
    return !ss_resolve_out_of_memory(c);
}

/* ---- which crossings -------------------------------------------------------------------------------- */

/* What is asked for. */
typedef struct wanted {
    bool kind[KINDS];
    bool listed;   /* in the description, not by default */
    double line_y; /* NaN: none */
    int ordinary;  /* the truck beside an emergency vehicle, -1: not needed or not known */
} wanted;

static void read_kinds(ss_resolve *c, const ss_node *rating, wanted *w) {
    static const char *const names[KINDS] = {"alone", "beside", "centred", "signed line"};
    const ss_node *const list = ss_resolve_list(rating, "crossings");
    w->listed = list != NULL && list->count > 0;
    if (!w->listed) {
        w->kind[SS_CROSSING_ALONE] = w->kind[SS_CROSSING_BESIDE] = true;
        return;
    }
    for (const ss_node *word = list->first; word != NULL; word = word->next) {
        int found = -1;
        for (int i = 0; i < KINDS && word->kind == SS_NODE_TEXT; i++) {
            found = strcmp(names[i], word->text) == 0 ? i : found;
        }
        if (found >= 0) {
            w->kind[found] = true;
        } else if (word->kind == SS_NODE_TEXT) {
            ss_resolve_unknown(c, rating, "crossings", "crossing", word->text, names, KINDS);
        }
    }
}

static void read_line(ss_resolve *c, const ss_node *rating, wanted *w) {
    w->line_y = (double)NAN;
    if (w->kind[SS_CROSSING_LINE]) {
        (void)ss_resolve_need(c, rating, "rating.signed_line", "the crossing \"signed line\" needs its place",
                              &w->line_y);
    } else if (ss_read_given(rating, "signed_line")) {
        ss_read_complain(&c->reading, SS_WARNING, rating, "signed_line",
                         "not used; \"signed line\" is not among the crossings");
    }
}

static int find_rated(const ss_bridge *bridge, const char *name) {
    for (int i = 0; i < bridge->rated_vehicle_count; i++) {
        if (strcmp(bridge->vehicles[i].name, name) == 0) {
            return i;
        }
    }
    return -1;
}

/* The load of a lane of load model 1, from 0; -1: it is not asked for. */
enum { MODEL_LANES = 3 };
static int model_lane(const ss_bridge *bridge, int lane) {
    static const char *const names[MODEL_LANES] = {"LM1 lane 1", "LM1 lane 2", "LM1 lane 3"};
    return find_rated(bridge, names[lane]);
}

/* Notional lanes with a tandem each: as many loads of lanes as are asked for, without a gap, and have room.
 */
static int model_lanes(const ss_bridge *bridge) {
    int count = 0;
    while (count < MODEL_LANES && count < bridge->notional_lanes.count && model_lane(bridge, count) >= 0) {
        count++;
    }
    return count;
}

/* The vehicle in the other lanes; -1: none may be there. */
static int companion(const ss_bridge *bridge, const wanted *w, int vehicle) {
    switch (bridge->vehicles[vehicle].kind) {
    case SS_VEHICLE_EMERGENCY: return w->ordinary;
    case SS_VEHICLE_FATIGUE: return -1;
    case SS_VEHICLE_EUROPEAN:
        return vehicle == model_lane(bridge, 0) && model_lanes(bridge) > 1 ? model_lane(bridge, 1) : -1;
    case SS_VEHICLE_PERMIT: return bridge->rating.permits_escorted ? -1 : vehicle;
    default: return vehicle;
    }
}

/* Lanes that trucks may take at once. */
static int lanes_for(const ss_bridge *bridge, const wanted *w, int vehicle) {
    if (!w->kind[SS_CROSSING_BESIDE] || companion(bridge, w, vehicle) < 0) {
        return 1;
    }
    return bridge->vehicles[vehicle].kind == SS_VEHICLE_EUROPEAN ? model_lanes(bridge)
                                                                 : ss_lane_rule_of(bridge, vehicle)->count;
}

/* The load of a notional lane that comes beside that of the first. */
static bool comes_beside_first(const ss_bridge *bridge, const wanted *w, int vehicle) {
    for (int lane = 1; w->kind[SS_CROSSING_BESIDE] && lane < model_lanes(bridge); lane++) {
        if (vehicle == model_lane(bridge, lane)) {
            return true;
        }
    }
    return false;
}

static void read_permits(ss_resolve *c, const ss_node *rating) {
    bool *const escorted = &c->bridge->rating.permits_escorted;
    if (ss_resolve_rates(c, SS_VEHICLE_PERMIT)) {
        (void)ss_read_flag(&c->reading, rating, "rating.permits_escorted", escorted);
    } else if (ss_read_given(rating, "permits_escorted")) {
        ss_read_complain(&c->reading, SS_WARNING, rating, "permits_escorted",
                         "not used; no permit vehicle is rated");
    }
}

static void read_ordinary(ss_resolve *c, const ss_node *rating, wanted *w) {
    const ss_bridge *const bridge = c->bridge;
    w->ordinary = -1;
    if (!w->kind[SS_CROSSING_BESIDE] || !rates(bridge, SS_VEHICLE_EMERGENCY) || bridge->lanes.count < 2) {
        if (ss_read_given(rating, "beside")) {
            ss_read_complain(&c->reading, SS_WARNING, rating, "beside",
                             "not used; no emergency vehicle crosses beside another truck");
        }
        return;
    }
    w->ordinary = ss_resolve_truck_reference(c, rating, "rating.beside");
    if (w->ordinary >= 0 && (bridge->vehicles[w->ordinary].kind == SS_VEHICLE_EUROPEAN ||
                             bridge->vehicles[w->ordinary].kind == SS_VEHICLE_FATIGUE)) {
        ss_read_complain(&c->reading, SS_FAULT, rating, "beside",
                         "%s is no ordinary truck; a legal load such as Type 3 is due",
                         bridge->vehicles[w->ordinary].name);
    }
}

static void add(ss_resolve *c, ss_crossing crossing) {
    ss_bridge *const bridge = c->bridge;
    ss_crossing *const grown = ss_resolve_grow(c, bridge->crossings, bridge->crossing_count, sizeof *grown);
    if (grown != NULL) {
        bridge->crossings = grown;
        grown[bridge->crossing_count++] = crossing;
    }
}

/* Whether the wheels of a truck along the signed line stand between the curbs; else a fault. */
static bool line_fits(ss_resolve *c, const ss_node *rating, double y, int vehicle) {
    const ss_bridge *const bridge = c->bridge;
    const double half = 0.5 * bridge->vehicles[vehicle].gauge_m;
    if (isnan(y)) {
        return false;
    }
    if (y - half >= bridge->roadway_left - SS_SAME_PLACE &&
        y + half <= bridge->roadway_right + SS_SAME_PLACE) {
        return true;
    }
    char left[SS_WORDS];
    char right[SS_WORDS];
    char from[SS_WORDS];
    char to[SS_WORDS];
    ss_read_complain(&c->reading, SS_FAULT, rating, "signed_line",
                     "the wheels of %s at y = %s and %s would not both stand on the roadway, %s to %s",
                     bridge->vehicles[vehicle].name, ss_resolve_length(c, y - half, left),
                     ss_resolve_length(c, y + half, right), ss_resolve_length(c, bridge->roadway_left, from),
                     ss_resolve_length(c, bridge->roadway_right, to));
    return false;
}

static void add_crossings(ss_resolve *c, const ss_node *rating, const wanted *w, int vehicle) {
    const ss_bridge *const bridge = c->bridge;
    const int before = bridge->crossing_count;
    const int lanes = lanes_for(bridge, w, vehicle);
    const bool european = bridge->vehicles[vehicle].kind == SS_VEHICLE_EUROPEAN;
    const ss_crossing alone = {.kind = SS_CROSSING_ALONE, .vehicle = vehicle, .beside = -1, .lanes = 1};
    if (comes_beside_first(bridge, w, vehicle)) {
        return;
    }
    if (w->kind[SS_CROSSING_ALONE]) {
        add(c, alone);
    }
    ss_crossing crossing = alone;
    crossing.kind = SS_CROSSING_BESIDE;
    crossing.beside = companion(bridge, w, vehicle);
    crossing.has_third = european && lanes == MODEL_LANES;
    crossing.third = crossing.has_third ? model_lane(bridge, 2) : -1;
    /* A load model is the load of all its lanes; what relieves is left out of it. */
    for (crossing.lanes = european ? (int)ss_max(2.0, lanes) : 2; crossing.lanes <= lanes; crossing.lanes++) {
        add(c, crossing);
    }
    crossing = alone;
    crossing.kind = SS_CROSSING_CENTRED;
    crossing.alternative = w->kind[SS_CROSSING_ALONE] || w->kind[SS_CROSSING_BESIDE];
    if (w->kind[SS_CROSSING_CENTRED] && !european) {
        add(c, crossing);
    }
    if (w->kind[SS_CROSSING_LINE] && !european && line_fits(c, rating, w->line_y, vehicle)) {
        crossing.kind = SS_CROSSING_LINE;
        crossing.y = w->line_y;
        add(c, crossing);
    }
    if (bridge->crossing_count == before) { /* none of those chosen is meant for it */
        add(c, alone);
    }
}

/* Says what is tried when nobody chose, or why what was chosen comes to nothing. */
static void judge(ss_resolve *c, const ss_node *rating, const wanted *w) {
    const ss_bridge *const bridge = c->bridge;
    const bool beside_only = w->kind[SS_CROSSING_BESIDE] && !w->kind[SS_CROSSING_ALONE] &&
                             !w->kind[SS_CROSSING_CENTRED] && !w->kind[SS_CROSSING_LINE];
    if (!w->listed && bridge->lanes.count > 1) {
        const char *const why = "Each truck alone, and with others in two lanes and more.";
        if (rating != NULL) {
            ss_resolve_assume(c, rating, "crossings", "alone, beside", why);
        } else {
            c->reading.status =
                ss_assumption_add(c->reading.assumptions, "rating.crossings", "alone, beside", why);
        }
    } else if (w->listed && w->kind[SS_CROSSING_BESIDE] && bridge->lanes.count < 2) {
        ss_read_complain(&c->reading, beside_only ? SS_FAULT : SS_WARNING, rating, "crossings",
                         "\"beside\" needs two lanes; there is one (%s)", bridge->lanes.basis);
    }
}

void ss_resolve_crossings(ss_resolve *c) {
    const ss_node *const rating = ss_node_child(c->root, "rating");
    wanted w = {.ordinary = -1};
    const bool lanes = resolve_lanes(c, ss_node_child(c->node, "roadway"));
    if (ss_resolve_out_of_memory(c)) {
        return;
    }
    read_kinds(c, rating, &w);
    read_line(c, rating, &w);
    if (!lanes || ss_resolve_out_of_memory(c)) {
        return;
    }
    judge(c, rating, &w);
    read_permits(c, rating);
    read_ordinary(c, rating, &w);
    for (int i = 0; i < c->bridge->rated_vehicle_count && !ss_resolve_out_of_memory(c); i++) {
        add_crossings(c, rating, &w, i);
    }
}
