/* resolve_truck.c - the user's own trucks, and trucks by name. */
#include <string.h>

#include "model/key_tree.h"
#include "model/resolve.h"

/* ---- the user's own ------------------------------------------------------------------------------- */

static bool read_axles(ss_resolve *c, const ss_node *item, ss_vehicle *truck) {
    double value[SS_DESCRIPTION_VALUES];
    const int axles = ss_read_quantities(&c->reading, item, "trucks[].axles", value, SS_DESCRIPTION_VALUES);
    if (axles > SS_AXLES_MAX) {
        ss_read_complain(&c->reading, SS_FAULT, item, "axles", "found %d axles; at most %d are allowed",
                         axles, (int)SS_AXLES_MAX);
        return false;
    }
    if (axles == 0) {
        return false;
    }
    memcpy(truck->axle_N, value, (size_t)axles * sizeof value[0]);
    truck->axle_count = axles;
    int gaps = 0;
    if (ss_read_given(item, "spacing")) {
        gaps = ss_read_quantities(&c->reading, item, "trucks[].spacing", value, SS_DESCRIPTION_VALUES);
        if (gaps == 0) {
            return false;
        }
    }
    if (gaps != axles - 1) {
        ss_read_complain(&c->reading, SS_FAULT, item, "spacing",
                         "found %d distance%s for %d axle%s; %d %s due, one fewer than axles", gaps,
                         gaps == 1 ? "" : "s", axles, axles == 1 ? "" : "s", axles - 1,
                         axles == 2 ? "is" : "are");
        return false;
    }
    memcpy(truck->spacing_m, value, (size_t)gaps * sizeof value[0]);
    return true;
}

static void resolve_truck(ss_resolve *c, const ss_node *item, ss_vehicle *truck) {
    const char *const name = ss_resolve_name(item);
    truck->name = ss_resolve_text(c, name);
    truck->source = "described by the user";
    truck->kind = SS_VEHICLE_USER;
    const ss_vehicle *const same = ss_vehicle_find(name);
    if (same != NULL) {
        ss_read_complain(&c->reading, SS_FAULT, item, "name",
                         "\"%s\" is the built-in truck %s; a truck of one's own needs another name", name,
                         same->name);
    }
    bool good = read_axles(c, item, truck);
    good = ss_resolve_due(c, item, "trucks[].gauge", &truck->gauge_m) && good;
    if (!good) {
        c->broken = true;
    }
}

void ss_resolve_user_trucks(ss_resolve *c) {
    const ss_node *const list = ss_resolve_list(c->root, "trucks");
    if (list == NULL) {
        return;
    }
    c->trucks = ss_resolve_scratch(c, (size_t)list->count, sizeof *c->trucks);
    if (c->trucks == NULL) {
        return;
    }
    for (const ss_node *item = list->first; item != NULL; item = item->next) {
        resolve_truck(c, item, &c->trucks[c->truck_count++]);
        if (ss_resolve_out_of_memory(c)) {
            return;
        }
    }
}

/* ---- by name -------------------------------------------------------------------------------------- */

static const ss_vehicle *find_truck(const ss_resolve *c, const char *name) {
    for (int i = 0; i < c->truck_count; i++) {
        if (strcmp(c->trucks[i].name, name) == 0) {
            return &c->trucks[i];
        }
    }
    return ss_vehicle_find(name);
}

static void unknown_truck(ss_resolve *c, const ss_node *at, const char *key, const char *name) {
    int built_in = 0;
    const ss_vehicle *const vehicles = ss_vehicles(&built_in);
    const char **const words =
        ss_resolve_scratch(c, (size_t)built_in + (size_t)c->truck_count, sizeof *words);
    if (words == NULL) {
        return;
    }
    for (int i = 0; i < built_in; i++) {
        words[i] = vehicles[i].name;
    }
    for (int i = 0; i < c->truck_count; i++) {
        words[built_in + i] = c->trucks[i].name;
    }
    ss_resolve_unknown(c, at, key, "truck", name, words, built_in + c->truck_count);
}

int ss_resolve_truck_named(ss_resolve *c, const ss_node *at, const char *key, const char *name) {
    ss_bridge *const bridge = c->bridge;
    const ss_vehicle *const truck = find_truck(c, name);
    if (truck == NULL) {
        unknown_truck(c, at, key, name);
        return -1;
    }
    for (int i = 0; i < bridge->vehicle_count; i++) {
        if (strcmp(bridge->vehicles[i].name, truck->name) == 0) {
            return i;
        }
    }
    ss_vehicle *const grown = ss_resolve_grow(c, bridge->vehicles, bridge->vehicle_count, sizeof *grown);
    if (grown == NULL) {
        return -1;
    }
    bridge->vehicles = grown;
    grown[bridge->vehicle_count] = *truck;
    return bridge->vehicle_count++;
}

int ss_resolve_truck_reference(ss_resolve *c, const ss_node *group, const char *table_path) {
    const char *name = NULL;
    if (!ss_read_text(&c->reading, group, table_path, &name)) {
        return -1;
    }
    return ss_resolve_truck_named(c, group, ss_key_leaf(table_path), name);
}

bool ss_resolve_truck_fits(ss_resolve *c, const ss_node *group, int vehicle, double y) {
    const ss_bridge *const bridge = c->bridge;
    if (!c->placed || vehicle < 0) {
        return true;
    }
    const double half = 0.5 * bridge->vehicles[vehicle].gauge_m;
    const double width = bridge->cars[bridge->car_count - 1].y_right;
    if (y - half >= -SS_SAME_PLACE && y + half <= width + SS_SAME_PLACE) {
        return true;
    }
    char left[SS_WORDS];
    char right[SS_WORDS];
    char wide[SS_WORDS];
    ss_read_complain(
        &c->reading, SS_FAULT, group, ss_read_given(group, "on") ? "on" : "y",
        "the wheels at y = %s and %s would not both stand on the cars, which are %s wide together",
        ss_resolve_length(c, y - half, left), ss_resolve_length(c, y + half, right),
        ss_resolve_length(c, width, wide));
    return false;
}
