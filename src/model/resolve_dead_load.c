/* resolve_dead_load.c - dead load besides the cars' own steel: deck, surfacing, rails and other. */
#include <math.h>

#include "base/numeric.h"
#include "model/resolve.h"

static bool add_load(ss_resolve *c, ss_dead_load load) {
    ss_bridge *const bridge = c->bridge;
    ss_dead_load *const grown =
        ss_resolve_grow(c, bridge->dead_loads, bridge->dead_load_count, sizeof *grown);
    if (grown == NULL) {
        return false;
    }
    bridge->dead_loads = grown;
    grown[bridge->dead_load_count++] = load;
    return true;
}

/* What is taken off for a slab is taken off where the slab comes, and stays beyond its ends. */
bool ss_resolve_add_dead_load(ss_resolve *c, ss_dead_load load) {
    const ss_slab *const slab = &c->bridge->slab;
    if (load.when != SS_DEAD_REMOVED || !slab->given) {
        return add_load(c, load);
    }
    const double ends[4] = {load.x0, ss_clamp(slab->x0, load.x0, load.x1),
                            ss_clamp(slab->x1, load.x0, load.x1), load.x1};
    bool good = true;
    for (int i = 0; i < 3 && good; i++) {
        ss_dead_load part = load;
        part.x0 = ends[i];
        part.x1 = ends[i + 1];
        part.when = i == 1 ? SS_DEAD_REMOVED : SS_DEAD_STAYS;
        good = part.x1 <= part.x0 + SS_SAME_PLACE || add_load(c, part);
    }
    return good;
}

static double deck_width(const ss_bridge *bridge) {
    return bridge->car_count == 0 ? 0.0 : bridge->cars[bridge->car_count - 1].y_right;
}

/* Whether y lies over the cars or the gaps between them. */
static bool on_deck(ss_resolve *c, const ss_node *item, const char *key, double y) {
    const double width = deck_width(c->bridge);
    if (!c->placed || (y >= -SS_SAME_PLACE && y <= width + SS_SAME_PLACE)) {
        return true;
    }
    char at[SS_WORDS];
    char wide[SS_WORDS];
    ss_read_complain(&c->reading, SS_FAULT, item, key,
                     "y = %s lies beside the cars, which are %s wide together", ss_resolve_length(c, y, at),
                     ss_resolve_length(c, width, wide));
    return false;
}

/* ---- deck, surfacing, rails ----------------------------------------------------------------------- */

/* Over each car; over the gaps as well where the deck runs through. */
static void add_deck(ss_resolve *c) {
    const ss_bridge *const bridge = c->bridge;
    if (bridge->deck.name == NULL || !(bridge->deck.weight > 0.0)) {
        return;
    }
    for (int i = 0; i < bridge->car_count; i++) {
        const ss_car *const car = &bridge->cars[i];
        ss_dead_load load = {.name = bridge->deck.name,
                             .component = SS_COMPONENT_DC,
                             .area = true,
                             .w = bridge->deck.weight,
                             .when = c->old_deck};
        load.x0 = car->x0;
        load.x1 = car->x1;
        load.y0 = car->y_left;
        load.y1 = car->y_right;
        if (!ss_resolve_add_dead_load(c, load)) {
            return;
        }
        if (!bridge->deck.over_joints || i + 1 == bridge->car_count) {
            continue;
        }
        load.x0 = ss_max(car->x0, car[1].x0);
        load.x1 = ss_min(car->x1, car[1].x1);
        load.y0 = car->y_right;
        load.y1 = car[1].y_left;
        if (load.x1 > load.x0 && load.y1 > load.y0 && !ss_resolve_add_dead_load(c, load)) {
            return;
        }
    }
}

static void add_surfacing(ss_resolve *c) {
    const ss_node *const item = ss_node_child(c->node, "surfacing");
    if (item == NULL) {
        return;
    }
    ss_bridge *const bridge = c->bridge;
    const char *kind = "surfacing";
    double thickness = 0.0;
    double density = 0.0;
    (void)ss_read_text(&c->reading, item, "bridge.surfacing.kind", &kind);
    (void)ss_read_flag(&c->reading, item, "bridge.surfacing.measured", &bridge->rating.surfacing_measured);
    bool good = ss_resolve_due(c, item, "bridge.surfacing.thickness", &thickness);
    good = ss_resolve_due(c, item, "bridge.surfacing.density", &density) && good;
    if (!good) {
        return;
    }
    (void)ss_resolve_add_dead_load(c, (ss_dead_load){.name = ss_resolve_text(c, kind),
                                                     .component = SS_COMPONENT_DW,
                                                     .area = true,
                                                     .w = thickness * density,
                                                     .x0 = bridge->x0,
                                                     .x1 = bridge->x1,
                                                     .y0 = bridge->roadway_left,
                                                     .y1 = bridge->roadway_right,
                                                     .when = c->old_surfacing});
}

static void add_rails(ss_resolve *c) {
    const ss_node *const item = ss_node_child(c->node, "rails");
    if (item == NULL) {
        return;
    }
    double weight = 0.0;
    double y[SS_DESCRIPTION_VALUES];
    const bool good = ss_resolve_due(c, item, "bridge.rails.weight", &weight);
    const int count = ss_read_quantities(&c->reading, item, "bridge.rails.y", y, SS_DESCRIPTION_VALUES);
    if (count == 0) {
        c->broken = true;
    }
    for (int i = 0; i < count && good; i++) {
        if (!on_deck(c, item, "y", y[i])) {
            continue;
        }
        const ss_dead_load load = {.name = "rails",
                                   .component = SS_COMPONENT_DC,
                                   .w = weight,
                                   .x0 = c->bridge->x0,
                                   .x1 = c->bridge->x1,
                                   .y0 = y[i],
                                   .y1 = y[i],
                                   .when = c->old_rails};
        if (!ss_resolve_add_dead_load(c, load)) {
            return;
        }
    }
}

/* ---- other ---------------------------------------------------------------------------------------- */

static bool read_stretch(ss_resolve *c, const ss_node *item, ss_dead_load *load) {
    load->x0 = c->bridge->x0;
    load->x1 = c->bridge->x1;
    bool good =
        !ss_read_given(item, "from") || ss_resolve_due(c, item, "bridge.dead_loads[].from", &load->x0);
    good =
        (!ss_read_given(item, "to") || ss_resolve_due(c, item, "bridge.dead_loads[].to", &load->x1)) && good;
    if (!good || !c->placed) {
        return false;
    }
    char a[SS_WORDS];
    char b[SS_WORDS];
    if (load->x1 <= load->x0 + SS_SAME_PLACE) {
        ss_read_complain(&c->reading, SS_FAULT, item, ss_read_given(item, "to") ? "to" : "from",
                         "the load would go from %s to %s; it must have a length",
                         ss_resolve_length(c, load->x0, a), ss_resolve_length(c, load->x1, b));
        return false;
    }
    if (load->x1 <= c->bridge->x0 || load->x0 >= c->bridge->x1) {
        ss_read_complain(&c->reading, SS_FAULT, item, "from", "the load lies outside the bridge, %s to %s",
                         ss_resolve_length(c, c->bridge->x0, a), ss_resolve_length(c, c->bridge->x1, b));
        return false;
    }
    load->x0 = ss_max(load->x0, c->bridge->x0);
    load->x1 = ss_min(load->x1, c->bridge->x1);
    return true;
}

static bool read_other(ss_resolve *c, const ss_node *item, ss_dead_load *load) {
    const bool line = ss_read_given(item, "line");
    load->area = ss_read_given(item, "area");
    if (line == load->area) {
        ss_read_complain(&c->reading, SS_FAULT, item, NULL,
                         "%s; a weight per length in \"line\" or per area in \"area\" is due",
                         line ? "both line and area are given" : "no weight is given");
        return false;
    }
    bool good = ss_resolve_due(c, item, load->area ? "bridge.dead_loads[].area" : "bridge.dead_loads[].line",
                               &load->w);
    good = ss_resolve_due(c, item, "bridge.dead_loads[].y", &load->y0) && good;
    load->y1 = load->y0;
    if (load->area) {
        good =
            ss_resolve_need(c, item, "bridge.dead_loads[].y_to", "an area needs its right edge", &load->y1) &&
            good;
    } else {
        ss_resolve_forbid(c, item, "y_to", "a load along a line has one y; y_to belongs to an area");
    }
    if (!good) {
        return false;
    }
    if (load->area && load->y1 <= load->y0 + SS_SAME_PLACE) {
        ss_read_complain(&c->reading, SS_FAULT, item, "y_to", "not right of y; an area goes from y to y_to");
        return false;
    }
    good = on_deck(c, item, "y", load->y0);
    if (load->area) {
        good = on_deck(c, item, "y_to", load->y1) && good;
    }
    return read_stretch(c, item, load) && good;
}

static void add_others(ss_resolve *c) {
    const ss_node *const list = ss_resolve_list(c->node, "dead_loads");
    for (const ss_node *item = list == NULL ? NULL : list->first; item != NULL; item = item->next) {
        ss_dead_load load = {.name = ss_resolve_text(c, ss_resolve_name(item))};
        const int component = ss_read_choice(&c->reading, item, "bridge.dead_loads[].component", NULL);
        load.component = component == 1 ? SS_COMPONENT_DW : SS_COMPONENT_DC;
        if (read_other(c, item, &load) && !ss_resolve_add_dead_load(c, load)) {
            return;
        }
        if (ss_resolve_out_of_memory(c)) {
            return;
        }
    }
}

void ss_resolve_dead_loads(ss_resolve *c) {
    add_deck(c);
    add_surfacing(c);
    add_rails(c);
    if (!ss_resolve_out_of_memory(c)) {
        add_others(c);
    }
}
