/* resolve_case.c - named cases of placed loads, and trucks driven along a stated line. */
#include <math.h>

#include "base/numeric.h"
#include "model/key_tree.h"
#include "model/resolve.h"

/* ---- where across --------------------------------------------------------------------------------- */

bool ss_resolve_across(ss_resolve *c, const ss_node *group, ss_across_keys keys, ss_across *out) {
    const bool y = ss_read_given(group, "y");
    const bool on = ss_read_given(group, "on");
    out->line = -1;
    if (y == on) {
        ss_read_complain(&c->reading, SS_FAULT, group, NULL, "%s; give y, or car and on",
                         y ? "both y and on are given" : "it is not said where it stands across");
        return false;
    }
    if (y) {
        ss_resolve_forbid(c, group, "car", "belongs to \"on\"; y is measured from the first car in any case");
        return ss_resolve_due(c, group, keys.y, &out->y);
    }
    if (!ss_read_given(group, "car")) {
        ss_read_complain(&c->reading, SS_FAULT, group, "car",
                         "not given; \"on\" needs the car that the line belongs to");
        return false;
    }
    out->line = ss_resolve_line_of_car(c, group, keys.on, ss_resolve_car_reference(c, group, keys.car));
    if (out->line < 0) {
        return false;
    }
    out->y = c->bridge->lines[out->line].y;
    return true;
}

/* ---- one load ------------------------------------------------------------------------------------- */

static const ss_across_keys load_keys = {"cases[].loads[].y", "cases[].loads[].car", "cases[].loads[].on"};

/* Whether a place lies on the bridge at all, x along and y across. */
static bool on_bridge(ss_resolve *c, const ss_node *item, const char *key, double value, bool along) {
    const ss_bridge *const bridge = c->bridge;
    if (!c->placed) {
        return true;
    }
    const double low = along ? bridge->x0 : 0.0;
    const double high = along ? bridge->x1 : bridge->cars[bridge->car_count - 1].y_right;
    if (value >= low - SS_SAME_PLACE && value <= high + SS_SAME_PLACE) {
        return true;
    }
    char at[SS_WORDS];
    char a[SS_WORDS];
    char b[SS_WORDS];
    ss_read_complain(&c->reading, SS_FAULT, item, key, "%s lies outside the bridge, %s to %s",
                     ss_resolve_length(c, value, at), ss_resolve_length(c, low, a),
                     ss_resolve_length(c, high, b));
    return false;
}

static bool on_line(ss_resolve *c, const ss_node *item, const char *key, double x, int line) {
    if (line < 0) {
        return on_bridge(c, item, key, x, true);
    }
    const ss_line *const l = &c->bridge->lines[line];
    if (x >= l->x0 - SS_SAME_PLACE && x <= l->x1 + SS_SAME_PLACE) {
        return true;
    }
    char at[SS_WORDS];
    char a[SS_WORDS];
    char b[SS_WORDS];
    ss_read_complain(&c->reading, SS_FAULT, item, key, "%s lies outside the line \"%s\", %s to %s",
                     ss_resolve_length(c, x, at), l->name, ss_resolve_length(c, l->x0, a),
                     ss_resolve_length(c, l->x1, b));
    return false;
}

/* The far end of a line or area load. */
static bool read_far_end(ss_resolve *c, const ss_node *item, ss_placed_load *load) {
    if (!ss_resolve_need(c, item, "cases[].loads[].x_to", "a load per length or area goes from x to x_to",
                         &load->x1)) {
        return false;
    }
    if (load->x1 > load->x0 + SS_SAME_PLACE) {
        return on_line(c, item, "x_to", load->x1, load->line);
    }
    ss_read_complain(&c->reading, SS_FAULT, item, "x_to",
                     "does not lie beyond x; the load must have a length");
    return false;
}

/* Axles off the ends stand on the ground: that may be meant, and is said. */
static void remark_axles_off(ss_resolve *c, const ss_node *item, const ss_placed_load *load) {
    const ss_vehicle *const truck = &c->bridge->vehicles[load->vehicle];
    double x = load->x0;
    int off = 0;
    for (int i = 0; i < truck->axle_count; i++) {
        off += x < c->bridge->x0 - SS_SAME_PLACE || x > c->bridge->x1 + SS_SAME_PLACE;
        x += i + 1 < truck->axle_count ? (load->backward ? truck->spacing_m[i] : -truck->spacing_m[i]) : 0.0;
    }
    char low[SS_WORDS];
    char high[SS_WORDS];
    if (c->placed && off > 0) {
        ss_read_complain(&c->reading, SS_WARNING, item, "x",
                         "%d of %d axles stand off the bridge, %s to %s, and load nothing", off,
                         truck->axle_count, ss_resolve_length(c, c->bridge->x0, low),
                         ss_resolve_length(c, c->bridge->x1, high));
    }
}

static bool read_truck(ss_resolve *c, const ss_node *item, ss_placed_load *load) {
    ss_across where = {0.0, -1};
    if (!ss_read_given(item, "truck")) {
        ss_read_complain(&c->reading, SS_FAULT, item, "truck",
                         "not given; the kind \"truck\" needs the name of one");
        return false;
    }
    load->vehicle = ss_resolve_truck_reference(c, item, "cases[].loads[].truck");
    (void)ss_read_flag(&c->reading, item, "cases[].loads[].backward", &load->backward);
    if (!ss_resolve_across(c, item, load_keys, &where) || load->vehicle < 0) {
        return false;
    }
    load->x1 = load->x0;
    load->y0 = load->y1 = where.y;
    remark_axles_off(c, item, load);
    return ss_resolve_truck_fits(c, item, load->vehicle, where.y);
}

static bool read_area(ss_resolve *c, const ss_node *item, ss_placed_load *load) {
    bool good = ss_resolve_need(c, item, "cases[].loads[].area", "the kind \"area\" needs a load per area",
                                &load->value);
    good = ss_resolve_need(c, item, "cases[].loads[].y", "an area goes from y to y_to", &load->y0) && good;
    good = ss_resolve_need(c, item, "cases[].loads[].y_to", "an area goes from y to y_to", &load->y1) && good;
    good = read_far_end(c, item, load) && good;
    if (!good) {
        return false;
    }
    if (load->y1 <= load->y0 + SS_SAME_PLACE) {
        ss_read_complain(&c->reading, SS_FAULT, item, "y_to",
                         "does not lie right of y; the load must have a width");
        return false;
    }
    good = on_bridge(c, item, "y", load->y0, false);
    good = on_bridge(c, item, "y_to", load->y1, false) && good;
    return on_line(c, item, "x", load->x0, -1) && good;
}

static bool read_point_or_line(ss_resolve *c, const ss_node *item, ss_placed_load *load) {
    const bool point = load->kind == SS_LOAD_POINT;
    ss_across where = {0.0, -1};
    bool good = point ? ss_resolve_need(c, item, "cases[].loads[].point", "the kind \"point\" needs a force",
                                        &load->value)
                      : ss_resolve_need(c, item, "cases[].loads[].line",
                                        "the kind \"line\" needs a load per length", &load->value);
    if (!ss_resolve_across(c, item, load_keys, &where)) {
        return false;
    }
    load->line = where.line;
    load->y0 = load->y1 = where.y;
    load->x1 = load->x0;
    if (!point) {
        good = read_far_end(c, item, load) && good;
    }
    if (where.line < 0) {
        good = on_bridge(c, item, "y", where.y, false) && good;
    }
    return on_line(c, item, "x", load->x0, load->line) && good;
}

static bool read_load(ss_resolve *c, const ss_node *item, ss_placed_load *load) {
    static const char *const foreign[] = {"line|area|truck|x_to|y_to|backward",
                                          "point|area|truck|y_to|backward",
                                          "point|line|truck|car|on|backward", "point|line|area|x_to|y_to"};
    static const char *const why[] = {
        "does not belong to the kind \"point\"; a point load has point, x, and y or car and on",
        "does not belong to the kind \"line\"; a line load has line, x, x_to, and y or car and on",
        "does not belong to the kind \"area\"; an area load has area, x, x_to, y and y_to",
        "does not belong to the kind \"truck\"; a parked truck has truck, x, backward, and y or car and on"};
    const int kind = ss_read_choice(&c->reading, item, "cases[].loads[].kind", NULL);
    load->line = load->vehicle = -1;
    if (!ss_resolve_due(c, item, "cases[].loads[].x", &load->x0) || kind < 0) {
        c->broken = true;
        return false;
    }
    load->kind = (ss_load_kind)kind;
    ss_resolve_forbid(c, item, foreign[kind], why[kind]);
    switch (load->kind) {
    case SS_LOAD_TRUCK: return read_truck(c, item, load);
    case SS_LOAD_AREA: return read_area(c, item, load);
    default: return read_point_or_line(c, item, load);
    }
}

/* ---- cases and runs ------------------------------------------------------------------------------- */

static void resolve_case(ss_resolve *c, const ss_node *item, ss_case *out) {
    ss_bridge *const bridge = c->bridge;
    out->name = ss_resolve_text(c, ss_resolve_name(item));
    out->first_load = bridge->placed_count;
    if (!ss_read_flag(&c->reading, item, "cases[].dead", &out->dead)) {
        c->broken = true;
    }
    const ss_node *const list = ss_resolve_list(item, "loads");
    if (list == NULL) {
        c->broken = true;
    }
    for (const ss_node *load = list == NULL ? NULL : list->first; load != NULL; load = load->next) {
        ss_placed_load placed = {.kind = SS_LOAD_POINT};
        if (!read_load(c, load, &placed)) {
            continue;
        }
        ss_placed_load *const grown = ss_resolve_grow(c, bridge->placed, bridge->placed_count, sizeof *grown);
        if (grown == NULL) {
            return;
        }
        bridge->placed = grown;
        grown[bridge->placed_count++] = placed;
        out->load_count++;
    }
}

void ss_resolve_cases(ss_resolve *c) {
    const ss_node *const list = ss_resolve_list(c->root, "cases");
    ss_bridge *const bridge = c->bridge;
    if (list == NULL) {
        return;
    }
    bridge->cases = ss_resolve_alloc(c, (size_t)list->count, sizeof *bridge->cases);
    if (bridge->cases == NULL) {
        return;
    }
    for (const ss_node *item = list->first; item != NULL; item = item->next) {
        resolve_case(c, item, &bridge->cases[bridge->case_count++]);
        if (ss_resolve_out_of_memory(c)) {
            return;
        }
    }
}

void ss_resolve_runs(ss_resolve *c) {
    static const ss_across_keys keys = {"runs[].y", "runs[].car", "runs[].on"};
    const ss_node *const list = ss_resolve_list(c->root, "runs");
    ss_bridge *const bridge = c->bridge;
    if (list == NULL) {
        return;
    }
    bridge->runs = ss_resolve_alloc(c, (size_t)list->count, sizeof *bridge->runs);
    if (bridge->runs == NULL) {
        return;
    }
    for (const ss_node *item = list->first; item != NULL && !ss_resolve_out_of_memory(c); item = item->next) {
        ss_run *const run = &bridge->runs[bridge->run_count++];
        ss_across where = {0.0, -1};
        run->name = ss_resolve_text(c, ss_resolve_name(item));
        run->vehicle = ss_resolve_truck_reference(c, item, "runs[].truck");
        const int direction = ss_read_choice(&c->reading, item, "runs[].direction", NULL);
        run->forward = direction != 2;
        run->backward = direction != 1;
        const bool good = ss_resolve_across(c, item, keys, &where);
        run->y = where.y;
        if (run->vehicle < 0 || !good) {
            c->broken = true;
            continue;
        }
        (void)ss_resolve_truck_fits(c, item, run->vehicle, run->y);
    }
}
