/* resolve_car.c - the cars of the bridge side by side: place, direction, what differs from their type,
 * weight. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "model/resolve_line.h"

/* Stripped cars weigh 28 to 50 kip as a rule (common practice, no source); outside these bounds something was
 * probably left out. */
#define LIGHT_N (8.0 * 4448.2216152605)
#define HEAVY_N (80.0 * 4448.2216152605)

/* Rolled and taped sections stray by about this much from their true weight. */
#define ENOUGH 0.95

/* ---- what differs --------------------------------------------------------------------------------- */

static void read_change(ss_resolve *c, const ss_node *item, const ss_car_type *type,
                        ss_line_change *changes) {
    const char *const set = ss_resolve_name(item);
    ss_line_change change = {-1, -1, false};
    (void)ss_read_flag(&c->reading, item, "bridge.cars[].lines[].missing", &change.missing);
    if (ss_read_given(item, "section")) {
        change.section =
            ss_resolve_reference(c, item, "bridge.cars[].lines[].section", "sections", "section");
    }
    if (ss_read_given(item, "steel")) {
        change.steel = ss_resolve_reference(c, item, "bridge.cars[].lines[].steel", "steels", "steel");
    }
    bool known = false;
    for (int i = 0; i < type->line_count; i++) {
        if (strcmp(type->lines[i].set, set) != 0) {
            continue;
        }
        if (!known && change.section >= 0) {
            (void)ss_resolve_depth_fits(c, item, "section", &type->lines[i], change.section);
        }
        known = true;
        changes[i] = change;
    }
    if (known || set[0] == '\0') {
        return;
    }
    const char **const words = ss_resolve_scratch(c, (size_t)type->line_count, sizeof *words);
    if (words == NULL) {
        return;
    }
    int count = 0;
    for (int i = 0; i < type->line_count; i++) {
        if (type->lines[i].member == 1) {
            words[count++] = type->lines[i].set;
        }
    }
    ss_resolve_unknown(c, item, "name", "line of the car type", set, words, count);
}

static void check_girder_left(ss_resolve *c, const ss_node *item, const ss_car_type *type,
                              const ss_line_change *changes) {
    for (int i = 0; i < type->line_count; i++) {
        if (type->lines[i].role == SS_ROLE_MAIN && !changes[i].missing) {
            return;
        }
    }
    ss_read_complain(&c->reading, SS_FAULT, item, "lines",
                     "every main girder of the car is missing; one at least is due");
}

static void lay(ss_resolve *c, const ss_node *item, int car, int steel) {
    const ss_car_type *const type = &c->types[c->car_types[car]];
    ss_line_change *const changes = ss_resolve_scratch(c, (size_t)type->line_count, sizeof *changes);
    if (changes == NULL) {
        return;
    }
    for (int i = 0; i < type->line_count; i++) {
        changes[i] = (ss_line_change){-1, -1, false};
    }
    const ss_node *const list = ss_resolve_list(item, "lines");
    for (const ss_node *change = list == NULL ? NULL : list->first; change != NULL; change = change->next) {
        read_change(c, change, type, changes);
    }
    c->laid = c->laid && type->sound;
    if (!type->sound || ss_resolve_out_of_memory(c)) {
        return;
    }
    check_girder_left(c, item, type, changes);
    ss_resolve_lay_car(c, car, changes, steel);
}

/* ---- place ---------------------------------------------------------------------------------------- */

/* The left edge: that of the bridge, or the gap right of the car before. */
static double read_left_edge(ss_resolve *c, const ss_node *item, int car) {
    if (car == 0) {
        ss_resolve_forbid(c, item, "gap",
                          "the first car has no car on its left; give the gap to the next one there");
        return 0.0;
    }
    double gap = 0.0;
    c->placed = ss_resolve_need(c, item, "bridge.cars[].gap",
                                "the clear distance to the car on its left is due, such as \"4 in\"", &gap) &&
                c->placed;
    return c->bridge->cars[car - 1].y_right + gap;
}

static void place(ss_resolve *c, const ss_node *item, int car) {
    ss_car *const owner = &c->bridge->cars[car];
    const int index = ss_resolve_reference(c, item, "bridge.cars[].car", "cars", "car type");
    c->car_types[car] = index;
    owner->name = ss_resolve_text(c, ss_resolve_name(item));
    owner->y_left = read_left_edge(c, item, car);
    owner->y_right = owner->y_left;
    owner->wheel_truck[0] = owner->wheel_truck[1] = (double)NAN;
    (void)ss_read_flag(&c->reading, item, "bridge.cars[].reversed", &owner->reversed);
    c->placed = ss_resolve_due(c, item, "bridge.cars[].x", &owner->x0) && c->placed;
    owner->x1 = owner->x0;
    if (index < 0 || !isfinite(c->types[index].length) || !isfinite(c->types[index].width)) {
        c->placed = c->laid = false;
        c->broken = true;
        return;
    }
    const ss_car_type *const type = &c->types[index];
    owner->type = ss_resolve_text(c, type->name);
    owner->x1 = owner->x0 + type->length;
    owner->y_right = owner->y_left + type->width;
    for (int i = 0; i < 2; i++) {
        owner->wheel_truck[i] =
            owner->reversed ? owner->x1 - type->wheel_truck[1 - i] : owner->x0 + type->wheel_truck[i];
    }
}

void ss_resolve_cars(ss_resolve *c) {
    const ss_node *const list = ss_resolve_list(c->node, "cars");
    ss_bridge *const bridge = c->bridge;
    if (list == NULL || list->count == 0 || c->types == NULL) {
        c->broken = true;
        return;
    }
    bridge->cars = ss_resolve_alloc(c, (size_t)list->count, sizeof *bridge->cars);
    c->car_nodes = ss_resolve_scratch(c, (size_t)list->count, sizeof *c->car_nodes);
    c->car_types = ss_resolve_scratch(c, (size_t)list->count, sizeof *c->car_types);
    if (bridge->cars == NULL || c->car_nodes == NULL || c->car_types == NULL) {
        return;
    }
    c->placed = c->laid = true;
    for (const ss_node *item = list->first; item != NULL; item = item->next) {
        const int car = bridge->car_count++;
        c->car_nodes[car] = item;
        place(c, item, car);
        int steel = -1;
        if (ss_read_given(item, "steel")) {
            steel = ss_resolve_reference(c, item, "bridge.cars[].steel", "steels", "steel");
            if (steel < 0) {
                c->broken = true;
            }
        }
        if (c->car_types[car] >= 0) {
            lay(c, item, car, steel);
        }
        if (ss_resolve_out_of_memory(c)) {
            return;
        }
        bridge->x0 = car == 0 ? bridge->cars[car].x0 : ss_min(bridge->x0, bridge->cars[car].x0);
        bridge->x1 = car == 0 ? bridge->cars[car].x1 : ss_max(bridge->x1, bridge->cars[car].x1);
    }
}

/* ---- weight --------------------------------------------------------------------------------------- */

/* Weight of lines and floor beams as their sections say. The area of a stretch is linear in its depth, so
 * that its two ends give it. */
static double computed_weight(const ss_bridge *bridge, const ss_car *car) {
    double weight = 0.0;
    ss_section_properties a;
    ss_section_properties b;
    for (int i = car->first_line; i < car->first_line + car->line_count; i++) {
        for (int k = 0; k < bridge->lines[i].piece_count; k++) {
            const ss_line_piece *const piece = &bridge->pieces[bridge->lines[i].first_piece + k];
            if (ss_bridge_line_section(bridge, i, piece->x0, false, &a) != SS_OK) {
                return (double)NAN;
            }
            if (ss_bridge_line_section(bridge, i, piece->x1, true, &b) != SS_OK) {
                return (double)NAN;
            }
            weight += 0.5 * (a.weight + b.weight) * (piece->x1 - piece->x0);
        }
    }
    return weight;
}

static double beams_weight(const ss_bridge *bridge, const ss_car *car) {
    double weight = 0.0;
    for (int i = car->first_beam; i < car->first_beam + car->beam_count; i++) {
        const ss_floor_beam *const beam = &bridge->floor_beams[i];
        double left = (double)INFINITY;
        double right = -(double)INFINITY;
        for (int k = car->first_line; k < car->first_line + car->line_count; k++) {
            const ss_line *const line = &bridge->lines[k];
            if (line->x0 > beam->x + SS_SAME_PLACE || line->x1 < beam->x - SS_SAME_PLACE) {
                continue;
            }
            left = ss_min(left, line->y);
            right = ss_max(right, line->y);
        }
        for (int k = 0; k < beam->part_count; k++) {
            const ss_beam_part *const part = &bridge->parts[beam->first_part + k];
            const double width = ss_min(part->y1, right) - ss_max(part->y0, left);
            ss_section_properties p;
            if (width <= 0.0) {
                continue;
            }
            if (ss_bridge_beam_section(bridge, i, part->y0, false, &p) != SS_OK) {
                return (double)NAN;
            }
            weight += p.weight * width;
        }
    }
    return weight;
}

static void weigh(ss_resolve *c, int index) {
    ss_car *const car = &c->bridge->cars[index];
    const ss_node *const item = c->car_nodes[index];
    const ss_car_type *const type = &c->types[c->car_types[index]];
    const double computed = computed_weight(c->bridge, car) + beams_weight(c->bridge, car);
    const double own = ss_resolve_optional(c, item, "bridge.cars[].weight");
    const double known = isnan(own) ? type->weight : own;
    if (!isnan(known) && !(computed > 0.0)) {
        ss_read_complain(&c->reading, SS_FAULT, isnan(own) ? type->node : item, "weight",
                         "the lines and floor beams weigh nothing, so that it cannot be spread as they are; "
                         "give areas or weights of sections");
        return;
    }
    char weight[SS_WORDS];
    char light[SS_WORDS];
    char heavy[SS_WORDS];
    if (known < ENOUGH * computed) {
        ss_read_complain(&c->reading, SS_WARNING, isnan(own) ? type->node : item, "weight",
                         "%s is less than the lines and floor beams of \"%s\" come to, %s",
                         ss_units_format(weight, sizeof weight, known, SS_DIM_FORCE, c->bridge->units, 3),
                         car->name,
                         ss_units_format(light, sizeof light, computed, SS_DIM_FORCE, c->bridge->units, 3));
    }
    double detail = 0.0;
    if (isnan(known)) {
        (void)ss_resolve_due(c, type->node, "cars[].detail_weight", &detail);
    }
    car->weight_factor = isnan(known) ? 1.0 + detail : known / computed;
    car->weight = car->weight_factor * computed;
    if (!isnan(known) || !c->bridge->self_weight || (car->weight >= LIGHT_N && car->weight <= HEAVY_N)) {
        return;
    }
    ss_read_complain(&c->reading, SS_WARNING, item, NULL,
                     "the car comes to %s, which is unlikely; usual are %s to %s",
                     ss_units_format(weight, sizeof weight, car->weight, SS_DIM_FORCE, c->bridge->units, 3),
                     ss_units_format(light, sizeof light, LIGHT_N, SS_DIM_FORCE, c->bridge->units, 3),
                     ss_units_format(heavy, sizeof heavy, HEAVY_N, SS_DIM_FORCE, c->bridge->units, 3));
}

void ss_resolve_car_weights(ss_resolve *c) {
    for (int i = 0; i < c->bridge->car_count && !ss_resolve_out_of_memory(c); i++) {
        weigh(c, i);
    }
}
