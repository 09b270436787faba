/* deck_layout.c - the widest span of the deck that a wheel can stand on, and the dead load on it. */
#include <math.h>
#include <stddef.h>

#include "base/numeric.h"
#include "sillspan/deck_rating.h"

/* Places closer than this are one. */
#define SAME 1e-6

/* Where the middles of wheels can be across. */
typedef struct wheel_range {
    double from, to;
} wheel_range;

static bool stands_between(const wheel_range *range, double y0, double y1) {
    return range->from < y1 - SAME && range->to > y0 + SAME;
}

static bool exists_at(const ss_line *line, double x) {
    return line->x0 <= x + SAME && line->x1 > x + SAME;
}

/* The nearest line that exists just after x on one side of `line`, in its car or, where the deck runs over
 * the gap, in the next one; -1: none. */
static int neighbour(const ss_bridge *bridge, int line, double x, bool right) {
    const ss_line *const own = &bridge->lines[line];
    const double sign = right ? 1.0 : -1.0;
    int best = -1;
    const int reach = bridge->deck.over_joints ? 1 : 0;
    for (int step = 0; step <= reach && best < 0; step++) {
        const int c = own->car + (right ? step : -step);
        if (c < 0 || c >= bridge->car_count) {
            break;
        }
        const ss_car *const car = &bridge->cars[c];
        for (int i = car->first_line; i < car->first_line + car->line_count; i++) {
            const ss_line *const other = &bridge->lines[i];
            const double away = sign * (other->y - own->y);
            if (away > SAME && exists_at(other, x) &&
                (best < 0 || away < sign * (bridge->lines[best].y - own->y))) {
                best = i;
            }
        }
    }
    return best;
}

/* How far a wheel's middle can go beyond a line that has no neighbour on that side, up to the car's edge. */
static double beyond(const ss_bridge *bridge, const wheel_range *range, int line, bool right) {
    const ss_line *const own = &bridge->lines[line];
    const ss_car *const car = &bridge->cars[own->car];
    return right ? ss_min(car->y_right, range->to) - own->y : own->y - ss_max(car->y_left, range->from);
}

/* A line with its neighbours just after x. */
static void look_across(const ss_bridge *bridge, const wheel_range *range, int line, double x,
                        ss_deck_layout *out) {
    if (!exists_at(&bridge->lines[line], x)) {
        return;
    }
    const int right = neighbour(bridge, line, x, true);
    if (right < 0) {
        out->overhang = ss_max(out->overhang, beyond(bridge, range, line, true));
    } else {
        const double y0 = bridge->lines[line].y, y1 = bridge->lines[right].y;
        if (stands_between(range, y0, y1) && !(y1 - y0 <= out->span + SAME)) {
            out->span = y1 - y0;
            out->from = line;
            out->to = right;
        }
    }
    if (neighbour(bridge, line, x, false) < 0) {
        out->overhang = ss_max(out->overhang, beyond(bridge, range, line, false));
    }
}

/* What lies beside a line changes only where a line of its car or of the next ones begins or ends. */
static void find_across(const ss_bridge *bridge, const wheel_range *range, ss_deck_layout *out) {
    for (int line = 0; line < bridge->line_count; line++) {
        const int own = bridge->lines[line].car;
        for (int c = own > 0 ? own - 1 : 0; c <= own + 1 && c < bridge->car_count; c++) {
            const ss_car *const car = &bridge->cars[c];
            double first = SS_NAN, last = SS_NAN; /* most lines begin and end together */
            for (int i = car->first_line; i < car->first_line + car->line_count; i++) {
                const ss_line *const other = &bridge->lines[i];
                if (other->x0 != first) {
                    look_across(bridge, range, line, other->x0, out);
                }
                if (other->x1 != last) {
                    look_across(bridge, range, line, other->x1, out);
                }
                first = other->x0;
                last = other->x1;
            }
        }
    }
    if (isnan(out->span)) {
        out->why = "no wheel can stand between two lines";
    }
}

/* The next floor beam of a car beyond one of them, -1: none. */
static int next_beam(const ss_bridge *bridge, const ss_car *car, int beam) {
    int best = -1;
    for (int i = car->first_beam; i < car->first_beam + car->beam_count; i++) {
        const double away = bridge->floor_beams[i].x - bridge->floor_beams[beam].x;
        if (!(bridge->floor_beams[i].strip > 0.0) && away > SAME &&
            (best < 0 || bridge->floor_beams[i].x < bridge->floor_beams[best].x)) {
            best = i;
        }
    }
    return best;
}

static void find_along(const ss_bridge *bridge, const wheel_range *range, ss_deck_layout *out) {
    for (int c = 0; c < bridge->car_count; c++) {
        const ss_car *const car = &bridge->cars[c];
        if (!stands_between(range, car->y_left, car->y_right)) {
            continue;
        }
        double first = SS_INFINITY, last = -SS_INFINITY;
        for (int i = car->first_beam; i < car->first_beam + car->beam_count; i++) {
            const double x = bridge->floor_beams[i].x;
            if (bridge->floor_beams[i].strip > 0.0) {
                continue;
            }
            const int next = next_beam(bridge, car, i);
            first = ss_min(first, x);
            last = ss_max(last, x);
            if (next >= 0 && !(bridge->floor_beams[next].x - x <= out->span + SAME)) {
                out->span = bridge->floor_beams[next].x - x;
                out->from = i;
                out->to = next;
            }
        }
        if (!(last > first + SAME)) {
            out->why = "a car under the roadway has fewer than two floor beams";
            return;
        }
        out->overhang = ss_max(out->overhang, ss_max(first - car->x0, car->x1 - last));
    }
    if (isnan(out->span)) {
        out->why = "no wheel can stand between two floor beams";
    }
}

/* The deck itself, and all that lies on the roadway somewhere; what would relieve is left out. Loads along a
 * line, as of curbs, stand at the edge. */
static void add_dead(const ss_bridge *bridge, ss_deck_layout *out) {
    out->dc = bridge->deck.weight;
    for (int i = 0; i < bridge->dead_load_count; i++) {
        const ss_dead_load *const load = &bridge->dead_loads[i];
        const bool deck = load->name == bridge->deck.name;
        if (deck || !load->area || !(load->w > 0.0) || load->y1 <= bridge->roadway_left + SAME ||
            load->y0 >= bridge->roadway_right - SAME) {
            continue;
        }
        *(load->component == SS_COMPONENT_DW ? &out->dw : &out->dc) += load->w;
    }
}

ss_deck_layout ss_deck_layout_of(const ss_bridge *bridge) {
    ss_deck_layout out = {.span = SS_NAN, .from = -1, .to = -1};
    const wheel_range range = {bridge->roadway_left + bridge->wheel_to_curb,
                               bridge->roadway_right - bridge->wheel_to_curb};
    if (bridge->deck.name == NULL) {
        out.why = "no deck is described";
    } else if (!bridge->deck.wheel.given) {
        out.why = "nothing is given of what it can carry between its supports";
    } else if (!(range.to >= range.from - SAME)) {
        out.why = "the roadway has no room for a wheel";
    } else if (bridge->deck.along) {
        find_along(bridge, &range, &out);
    } else {
        find_across(bridge, &range, &out);
    }
    add_dead(bridge, &out);
    if (out.why != NULL) {
        out.span = SS_NAN;
        out.from = out.to = -1;
    }
    return out;
}
