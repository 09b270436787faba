/* resolve_bearing.c - bearing sets spread into points: one line at one station each. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "model/resolve.h"

/* In the order of the choices of bridge.bearings[].at. */
enum place { AT_WHEEL_TRUCKS, AT_ENDS, AT_NEAR_END, AT_FAR_END, AT_NEAR_WHEEL_TRUCK, AT_FAR_WHEEL_TRUCK };

/** One set while it is spread. */
typedef struct bearing_set {
    const ss_node *item;
    ss_bearing common; /**< what all its points share */
    bool in_use;
    bool *cars; /**< one flag a car of the bridge */
    int at;     /**< a named place, or -1 */
    double x[SS_DESCRIPTION_VALUES];
    int x_count;
} bearing_set;

/* ---- what all points of a set share --------------------------------------------------------------- */

static void read_gap(ss_resolve *c, const ss_node *item, ss_bearing *bearing) {
    (void)ss_resolve_due(c, item, "bridge.bearings[].gap", &bearing->gap);
    if (!(bearing->gap > 0.0)) {
        return;
    }
    if (!bearing->contact) {
        ss_read_complain(
            &c->reading, SS_FAULT, item, "gap",
            "a two-way bearing holds the car and has no daylight; action = \"contact\" has a gap");
    } else if (bearing->after) {
        ss_read_complain(&c->reading, SS_FAULT, item, "gap",
                         "a bearing placed after the dead load touches; leave out the gap or \"placed\"");
    }
}

static void read_common(ss_resolve *c, bearing_set *set) {
    const ss_node *const item = set->item;
    ss_bearing *const b = &set->common;
    double value = 0.0;
    b->name = ss_resolve_text(c, ss_resolve_name(item));
    b->contact = ss_read_choice(&c->reading, item, "bridge.bearings[].action", NULL) != 1;
    b->after = ss_read_choice(&c->reading, item, "bridge.bearings[].placed", NULL) == 1;
    read_gap(c, item, b);
    (void)ss_resolve_due(c, item, "bridge.bearings[].settlement", &b->settlement);
    (void)ss_resolve_due(c, item, "bridge.bearings[].pad_width", &b->pad_width);
    b->spring = ss_read_choice(&c->reading, item, "bridge.bearings[].spring", &value) == -1
                    ? value
                    : (double)INFINITY;
    const int rotation = ss_read_choice(&c->reading, item, "bridge.bearings[].rotation", &value);
    b->rotation = rotation == -1 ? value : rotation == 1 ? (double)INFINITY : 0.0;
    if (ss_read_given(item, "length")) {
        (void)ss_resolve_due(c, item, "bridge.bearings[].length", &b->length);
    }
    if (ss_read_given(item, "stiffened")) {
        (void)ss_read_flag(&c->reading, item, "bridge.bearings[].stiffened", &b->stiffened);
    }
    set->in_use = true;
    (void)ss_read_flag(&c->reading, item, "bridge.bearings[].in_use", &set->in_use);
}

/* ---- where ---------------------------------------------------------------------------------------- */

static bool read_cars(ss_resolve *c, bearing_set *set) {
    const ss_bridge *const bridge = c->bridge;
    set->cars = ss_resolve_scratch(c, (size_t)bridge->car_count, sizeof *set->cars);
    const char **const words = ss_resolve_scratch(c, (size_t)bridge->car_count, sizeof *words);
    if (set->cars == NULL || words == NULL) {
        return false;
    }
    for (int i = 0; i < bridge->car_count; i++) {
        words[i] = bridge->cars[i].name;
        set->cars[i] = !ss_read_given(set->item, "cars");
    }
    bool good = true;
    const ss_node *const list = ss_resolve_list(set->item, "cars");
    for (const ss_node *word = list == NULL ? NULL : list->first; word != NULL; word = word->next) {
        if (word->kind != SS_NODE_TEXT) {
            return false;
        }
        int car = 0;
        while (car < bridge->car_count && strcmp(words[car], word->text) != 0) {
            car++;
        }
        if (car < bridge->car_count) {
            set->cars[car] = true;
            continue;
        }
        ss_resolve_unknown(c, set->item, "cars", "car of the bridge", word->text, words, bridge->car_count);
        good = false;
    }
    return good;
}

static bool read_stations(ss_resolve *c, bearing_set *set) {
    const ss_node *const item = set->item;
    const bool at = ss_read_given(item, "at");
    const bool x = ss_read_given(item, "x");
    set->at = -1;
    if (at == x) {
        ss_read_complain(&c->reading, SS_FAULT, item, NULL,
                         "%s; give a named place in \"at\", or stations in \"x\"",
                         at ? "both at and x are given" : "it is not said where the bearings stand");
        return false;
    }
    if (at) {
        set->at = ss_read_choice(&c->reading, item, "bridge.bearings[].at", NULL);
        return set->at >= 0;
    }
    set->x_count =
        ss_read_quantities(&c->reading, item, "bridge.bearings[].x", set->x, SS_DESCRIPTION_VALUES);
    return set->x_count > 0;
}

/* Stations of the set in one car; 0 with a fault when the car has no such place. */
static int stations_in(ss_resolve *c, const bearing_set *set, const ss_car *car, double *x) {
    char at[SS_WORDS];
    char from[SS_WORDS];
    char to[SS_WORDS];
    const bool trucks =
        set->at == AT_WHEEL_TRUCKS || set->at == AT_NEAR_WHEEL_TRUCK || set->at == AT_FAR_WHEEL_TRUCK;
    if (trucks && isnan(car->wheel_truck[0])) {
        ss_read_complain(
            &c->reading, SS_FAULT, set->item, "at",
            "the car \"%s\" has no wheel-truck points; give wheel_trucks to its type \"%s\", or x here",
            car->name, car->type);
        return 0;
    }
    switch (set->at) {
    case AT_WHEEL_TRUCKS:
        x[0] = car->wheel_truck[0];
        x[1] = car->wheel_truck[1];
        return 2;
    case AT_ENDS:
        x[0] = car->x0;
        x[1] = car->x1;
        return 2;
    case AT_NEAR_END: x[0] = car->x0; return 1;
    case AT_FAR_END: x[0] = car->x1; return 1;
    case AT_NEAR_WHEEL_TRUCK: x[0] = car->wheel_truck[0]; return 1;
    case AT_FAR_WHEEL_TRUCK: x[0] = car->wheel_truck[1]; return 1;
    default: break;
    }
    for (int i = 0; i < set->x_count; i++) {
        x[i] = set->x[i];
        if (x[i] >= car->x0 - SS_SAME_PLACE && x[i] <= car->x1 + SS_SAME_PLACE) {
            x[i] = ss_clamp(x[i], car->x0, car->x1);
            continue;
        }
        ss_read_complain(&c->reading, SS_FAULT, set->item, "x", "x = %s lies outside car \"%s\", %s to %s",
                         ss_resolve_length(c, x[i], at), car->name, ss_resolve_length(c, car->x0, from),
                         ss_resolve_length(c, car->x1, to));
        return 0;
    }
    return set->x_count;
}

/* ---- points --------------------------------------------------------------------------------------- */

static bool add_point(ss_resolve *c, const bearing_set *set, int line, double x) {
    ss_bridge *const bridge = c->bridge;
    const ss_line *const l = &bridge->lines[line];
    char at[SS_WORDS];
    char from[SS_WORDS];
    char to[SS_WORDS];
    if (x < l->x0 - SS_SAME_PLACE || x > l->x1 + SS_SAME_PLACE) {
        if (l->cut) { /* another part of the line may, or it is missing there */
            return true;
        }
        ss_read_complain(&c->reading, SS_FAULT, set->item, "under",
                         "the line \"%s\" of car \"%s\" does not reach x = %s; it goes from %s to %s",
                         l->name, bridge->cars[l->car].name, ss_resolve_length(c, x, at),
                         ss_resolve_length(c, l->x0, from), ss_resolve_length(c, l->x1, to));
        return true;
    }
    if (!set->in_use) {
        return true;
    }
    for (int i = 0; i < bridge->bearing_count; i++) {
        const ss_bearing *const other = &bridge->bearings[i];
        if (other->line != line || fabs(other->x - x) > SS_SAME_PLACE) {
            continue;
        }
        ss_read_complain(&c->reading, SS_FAULT, set->item, NULL,
                         "the line \"%s\" of car \"%s\" rests on \"%s\" at x = %s already; one bearing is "
                         "allowed at each place",
                         l->name, bridge->cars[l->car].name, other->name, ss_resolve_length(c, x, at));
        return true;
    }
    ss_bearing *const grown = ss_resolve_grow(c, bridge->bearings, bridge->bearing_count, sizeof *grown);
    if (grown == NULL) {
        return false;
    }
    bridge->bearings = grown;
    ss_bearing *const bearing = &grown[bridge->bearing_count++];
    *bearing = set->common;
    bearing->car = l->car;
    bearing->line = line;
    bearing->x = x;
    return true;
}

/* Whether the word of `under` means the line. */
static bool names_line(const ss_line *line, const char *word) {
    return strcmp(word, line->name) == 0 || strcmp(word, line->set) == 0;
}

static bool spread_in_car(ss_resolve *c, const bearing_set *set, const ss_node *under, int index) {
    const ss_car *const car = &c->bridge->cars[index];
    double x[SS_DESCRIPTION_VALUES];
    bool any = false;
    for (int i = 0; i < car->line_count; i++) {
        for (const ss_node *word = under->first; word != NULL; word = word->next) {
            any = any || (word->kind == SS_NODE_TEXT &&
                          names_line(&c->bridge->lines[car->first_line + i], word->text));
        }
    }
    const int count = any ? stations_in(c, set, car, x) : 0;
    for (int k = 0; k < count; k++) {
        for (int i = 0; i < car->line_count; i++) {
            const ss_line *const line = &c->bridge->lines[car->first_line + i];
            bool named = false;
            for (const ss_node *word = under->first; word != NULL; word = word->next) {
                named = named || (word->kind == SS_NODE_TEXT && names_line(line, word->text));
            }
            if (named && !add_point(c, set, car->first_line + i, x[k])) {
                return false;
            }
        }
    }
    return true;
}

/* Every word must name a line in one of the set's cars; a line that is missing there still is a name. */
static void check_words(ss_resolve *c, const bearing_set *set, const ss_node *under) {
    for (const ss_node *word = under->first; word != NULL; word = word->next) {
        const ss_car_type *example = NULL;
        bool known = word->kind != SS_NODE_TEXT;
        for (int i = 0; i < c->bridge->car_count && !known; i++) {
            const ss_car_type *const type = c->car_types[i] < 0 ? NULL : &c->types[c->car_types[i]];
            if (!set->cars[i]) {
                continue;
            }
            if (type == NULL || type->line_count == 0) {
                known = true;
                break;
            }
            bool *const picked = ss_resolve_scratch(c, (size_t)type->line_count, sizeof *picked);
            if (picked == NULL) {
                return;
            }
            known = ss_resolve_type_lines(type, word->text, picked) > 0;
            if (example == NULL) {
                example = type;
            }
        }
        if (known || example == NULL) {
            continue;
        }
        int count = 0;
        const char **const words = ss_resolve_type_words(c, example, &count);
        if (words == NULL) {
            return;
        }
        ss_resolve_unknown(c, set->item, "under", "line of these cars", word->text, words, count);
    }
}

static void resolve_set(ss_resolve *c, const ss_node *item) {
    bearing_set set = {.item = item};
    read_common(c, &set);
    const bool cars = read_cars(c, &set);
    const bool stations = read_stations(c, &set);
    const ss_node *const under = ss_resolve_list(item, "under");
    if (under != NULL && cars) {
        check_words(c, &set, under);
    }
    if (!cars || !stations || under == NULL) {
        c->broken = true;
        return;
    }
    for (int i = 0; i < c->bridge->car_count; i++) {
        if (set.cars[i] && !spread_in_car(c, &set, under, i)) {
            return;
        }
    }
}

void ss_resolve_bearings(ss_resolve *c) {
    const ss_node *const list = ss_resolve_list(c->node, "bearings");
    if (list == NULL) {
        c->broken = true;
        return;
    }
    for (const ss_node *item = list->first; item != NULL; item = item->next) {
        resolve_set(c, item);
        if (ss_resolve_out_of_memory(c)) {
            return;
        }
    }
}
