/* resolve_truck.c - the user's own trucks, and trucks by name. */
#include <math.h>
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
    return true;
}

/* As many distances as there are gaps between axles. */
static bool read_gaps(ss_resolve *c, const ss_node *item, int axles, double *spacing) {
    double value[SS_DESCRIPTION_VALUES];
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
    memcpy(spacing, value, (size_t)gaps * sizeof value[0]);
    return true;
}

/* The far ends of spacings that vary; `gaps_known`: the near ends can be compared with. */
static bool read_gaps_most(ss_resolve *c, const ss_node *item, bool gaps_known, ss_vehicle *truck) {
    static const char path[] = "trucks[].spacing_most";
    double value[SS_DESCRIPTION_VALUES];
    if (!ss_read_given(item, "spacing_most")) {
        return true;
    }
    const int count = ss_read_quantities(&c->reading, item, path, value, SS_DESCRIPTION_VALUES);
    if (count == 0 || !gaps_known) {
        return false;
    }
    const int gaps = truck->axle_count - 1;
    if (count != gaps) {
        ss_read_complain(&c->reading, SS_FAULT, item, "spacing_most",
                         "found %d distance%s; %d %s due, as many as in spacing", count,
                         count == 1 ? "" : "s", gaps, gaps == 1 ? "is" : "are");
        return false;
    }
    bool good = true;
    for (int i = 0; i < gaps; i++) {
        if (value[i] < truck->spacing_m[i] - SS_SAME_PLACE) {
            char most[SS_WORDS];
            char least[SS_WORDS];
            ss_read_complain(&c->reading, SS_FAULT, item, "spacing_most",
                             "value %d, %s, is less than that of spacing, %s", i + 1,
                             ss_resolve_length(c, value[i], most),
                             ss_resolve_length(c, truck->spacing_m[i], least));
            good = false;
        } else if (value[i] > truck->spacing_m[i] + SS_SAME_PLACE) {
            truck->spacing_most_m[i] = value[i];
        }
    }
    return good;
}

/* The widest gauge counts for the whole truck, the others for their axles. */
static void set_gauges(ss_vehicle *truck, const double *gauge) {
    truck->gauge_m = 0.0;
    for (int i = 0; i < truck->axle_count; i++) {
        truck->gauge_m = fmax(truck->gauge_m, gauge[i]);
    }
    for (int i = 0; i < truck->axle_count; i++) {
        const bool differs = truck->gauge_m - gauge[i] > SS_SAME_PLACE;
        truck->axle_gauge_m[i] = !differs ? 0.0 : gauge[i] > 0.0 ? gauge[i] : -1.0;
    }
}

static bool read_gauges(ss_resolve *c, const ss_node *item, ss_vehicle *truck) {
    double value[SS_DESCRIPTION_VALUES];
    if (!ss_read_given(item, "axle_gauges")) {
        return ss_resolve_due(c, item, "trucks[].gauge", &truck->gauge_m);
    }
    const int count =
        ss_read_quantities(&c->reading, item, "trucks[].axle_gauges", value, SS_DESCRIPTION_VALUES);
    bool good = count > 0 && truck->axle_count > 0;
    if (ss_read_given(item, "gauge")) {
        ss_read_complain(&c->reading, SS_FAULT, item, "gauge",
                         "does not go with axle_gauges; one gauge for all axles, or one for each");
        good = false;
    }
    if (count > 0 && truck->axle_count > 0 && count != truck->axle_count) {
        ss_read_complain(&c->reading, SS_FAULT, item, "axle_gauges",
                         "found %d gauge%s for %d axle%s; one for each axle is due", count,
                         count == 1 ? "" : "s", truck->axle_count, truck->axle_count == 1 ? "" : "s");
        good = false;
    }
    if (good) {
        set_gauges(truck, value);
    }
    return good;
}

static bool read_lane_load(ss_resolve *c, const ss_node *item, ss_vehicle *truck) {
    return !ss_read_given(item, "lane_load") ||
           ss_resolve_due(c, item, "trucks[].lane_load", &truck->lane_N_m);
}

static bool read_kind(ss_resolve *c, const ss_node *item, ss_vehicle *truck) {
    static const ss_vehicle_class kinds[] = {SS_VEHICLE_USER, SS_VEHICLE_LEGAL, SS_VEHICLE_PERMIT,
                                             SS_VEHICLE_FARM, SS_VEHICLE_EMERGENCY};
    const int choice = ss_read_choice(&c->reading, item, "trucks[].kind", NULL);
    if (choice < 0) {
        return false;
    }
    truck->kind = kinds[choice];
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
    /* Every part is read whatever the others say, so that all faults are told in one run. */
    const bool axles = read_axles(c, item, truck);
    const bool gaps = axles && read_gaps(c, item, truck->axle_count, truck->spacing_m);
    bool good = read_gaps_most(c, item, gaps, truck) && gaps;
    good = read_gauges(c, item, truck) && good;
    good = read_lane_load(c, item, truck) && good;
    good = read_kind(c, item, truck) && good;
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
    for (int i = 0; i < c->truck_count; i++) {
        words[i] = c->trucks[i].name;
    }
    for (int i = 0; i < built_in; i++) {
        words[c->truck_count + i] = vehicles[i].name;
    }
    const int count = c->truck_count + built_in;
    if (ss_text_nearest(name, words, count) != NULL) {
        ss_resolve_unknown(c, at, key, "truck", name, words, count);
    } else { /* too many to be listed here */
        ss_read_complain(&c->reading, SS_FAULT, at, key,
                         "no truck is called \"%s\", neither in trucks nor among those built in, which "
                         "\"sillspan vehicles\" lists",
                         name);
    }
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

bool ss_resolve_rates(ss_resolve *c, ss_vehicle_class kind) {
    for (int i = 0; i < c->bridge->rated_vehicle_count; i++) {
        if (c->bridge->vehicles[i].kind == kind) {
            return true;
        }
    }
    const ss_node *const runs = ss_resolve_list(c->root, "runs");
    for (const ss_node *run = runs == NULL ? NULL : runs->first; run != NULL; run = run->next) {
        const ss_node *const name = ss_node_child(run, "truck");
        const ss_vehicle *const truck =
            name == NULL || name->kind != SS_NODE_TEXT ? NULL : find_truck(c, name->text);
        if (truck != NULL && truck->kind == kind) {
            return true;
        }
    }
    return false;
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
