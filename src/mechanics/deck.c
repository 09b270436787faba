/* deck.c - how a force on the deck comes to lines and floor beams: lever rule across, along, and over the gap
 * between cars. */
#include "mechanics/deck.h"

#include <math.h>

#include "base/numeric.h"
#include "mechanics/element.h"
#include "mechanics/mesh_parts.h"
#include "mechanics/row.h"

/* A place that carries: a line, or the edge of a car of one line (arm from the line to the edge). */
typedef struct place {
    int line;
    double y, arm;
} place;

/* The car under y: the gap is split in its middle, which itself goes left. */
static int owner_of(const ss_bridge *b, double y) {
    int car = 0;
    while (car + 1 < b->car_count && y > 0.5 * (b->cars[car].y_right + b->cars[car + 1].y_left)) {
        car++;
    }
    return car;
}

static int lines_in(const ss_mesh *mesh, int interval, int car) {
    const ss_car *c = &mesh->bridge->cars[car];
    int count = 0;
    for (int l = c->first_line; l < c->first_line + c->line_count; l++) {
        count += ss_mesh_line_element(mesh, interval, l) >= 0;
    }
    return count;
}

/* The outermost place of a car on one side; false where the car has no line. */
static bool outer_place(const ss_mesh *mesh, int interval, int car, bool right, place *out) {
    const ss_bridge *b = mesh->bridge;
    const ss_car *c = &b->cars[car];
    const int count = lines_in(mesh, interval, car);
    for (int k = 0; k < c->line_count; k++) {
        const int line = right ? c->first_line + c->line_count - 1 - k : c->first_line + k;
        if (ss_mesh_line_element(mesh, interval, line) < 0) {
            continue;
        }
        const double y = count == 1 ? (right ? c->y_right : c->y_left) : b->lines[line].y;
        *out = (place){line, y, y - b->lines[line].y};
        return true;
    }
    return false;
}

static int lever(const place *a, const place *c, double y, ss_carrier out[4]) {
    const double t = (y - a->y) / (c->y - a->y);
    out[0] = (ss_carrier){a->line, 1.0 - t, (1.0 - t) * a->arm};
    out[1] = (ss_carrier){c->line, t, t * c->arm};
    return 2;
}

/* Within one car: between neighbouring lines, and on from the last two. */
static int within_car(const ss_mesh *mesh, int interval, int car, double y, ss_carrier out[4]) {
    const ss_bridge *b = mesh->bridge;
    const ss_car *c = &b->cars[car];
    place pair[2] = {{0}};
    int count = 0;
    for (int l = c->first_line; l < c->first_line + c->line_count; l++) {
        if (ss_mesh_line_element(mesh, interval, l) < 0) {
            continue;
        }
        if (count >= 2 && y <= pair[1].y) {
            break;
        }
        pair[0] = pair[1];
        pair[1] = (place){l, b->lines[l].y, 0.0};
        count++;
    }
    if (count == 0) {
        return 0;
    }
    if (count == 1) {
        out[0] = (ss_carrier){pair[1].line, 1.0, y - pair[1].y};
        return 1;
    }
    return lever(&pair[0], &pair[1], y, out);
}

int ss_mesh_deck_across(const ss_mesh *mesh, int interval, double y, ss_carrier out[4]) {
    const ss_bridge *b = mesh->bridge;
    for (int car = 0; b->deck.over_joints && car + 1 < b->car_count; car++) {
        place left;
        place right;
        if (!outer_place(mesh, interval, car, true, &left) ||
            !outer_place(mesh, interval, car + 1, false, &right)) {
            continue;
        }
        if (y > left.y && y < right.y) {
            return lever(&left, &right, y, out);
        }
    }
    return within_car(mesh, interval, owner_of(b, y), y, out);
}

static void note(double *y, int *count, int capacity, double value) {
    if (*count < capacity) {
        y[(*count)++] = value;
    }
}

static int kinks(const ss_mesh *mesh, int interval, bool edges, double *y, int capacity) {
    const ss_bridge *b = mesh->bridge;
    int count = 0;
    for (int car = 0; car < b->car_count; car++) {
        const ss_car *c = &b->cars[car];
        const int lines = lines_in(mesh, interval, car);
        for (int l = c->first_line; l < c->first_line + c->line_count; l++) {
            if (ss_mesh_line_element(mesh, interval, l) >= 0) {
                note(y, &count, capacity, b->lines[l].y);
            }
        }
        if (edges || (lines == 1 && b->deck.over_joints)) {
            note(y, &count, capacity, c->y_left);
            note(y, &count, capacity, c->y_right);
        }
        if (car + 1 == b->car_count) {
            continue;
        }
        const bool next = lines_in(mesh, interval, car + 1) > 0;
        const bool bridged = b->deck.over_joints && lines > 0 && next;
        if (!bridged && (lines > 0 || next)) {
            note(y, &count, capacity, 0.5 * (c->y_right + b->cars[car + 1].y_left));
        }
    }
    ss_sort_unique(y, &count, 1e-9);
    return count;
}

int ss_mesh_deck_kinks(const ss_mesh *mesh, int interval, double *y, int capacity) {
    return kinks(mesh, interval, mesh->bridge->deck.along, y, capacity);
}

int ss_deck_breaks(const ss_mesh *mesh, int interval, double *y, int capacity) {
    return kinks(mesh, interval, true, y, capacity);
}

/* ---- along -------------------------------------------------------------------------------------- */

/* Where a floor beam is: the station that its own place may have been merged with. */
static double beam_x(const ss_mesh *mesh, int beam) {
    return mesh->station[mesh->beam_station[beam]];
}

/* The two floor beams of a car between which x lies, or the two nearest; false when it has fewer than two
 * that join lines. */
static bool beams_beside(const ss_mesh *mesh, int car, double x, int pair[2]) {
    const ss_car *c = &mesh->bridge->cars[car];
    int below[2] = {-1, -1}; /* nearest first */
    int above[2] = {-1, -1};
    for (int i = c->first_beam; i < c->first_beam + c->beam_count; i++) {
        if (mesh->beam_first[i + 1] == mesh->beam_first[i]) {
            continue;
        }
        const double at = beam_x(mesh, i);
        int *side = at <= x ? below : above;
        const double away = fabs(at - x);
        if (side[0] < 0 || away < fabs(beam_x(mesh, side[0]) - x)) {
            side[1] = side[0];
            side[0] = i;
        } else if (side[1] < 0 || away < fabs(beam_x(mesh, side[1]) - x)) {
            side[1] = i;
        }
    }
    pair[0] = below[0] >= 0 ? below[0] : above[1];
    pair[1] = above[0] >= 0 ? above[0] : below[1];
    return pair[0] >= 0 && pair[1] >= 0 && mesh->beam_station[pair[0]] != mesh->beam_station[pair[1]];
}

static ss_beam_share share_on_beam(const ss_mesh *mesh, int beam, double y, double weight) {
    const ss_bridge *b = mesh->bridge;
    const int first = mesh->beam_first[beam];
    const int last = mesh->beam_first[beam + 1] - 1;
    ss_beam_share share = {.beam = beam, .weight = weight};
    for (int i = first; i <= last; i++) {
        const ss_element *e = &mesh->element[mesh->beam_element[i]];
        const double y0 = b->lines[mesh->node_line[e->a]].y;
        const double y1 = b->lines[mesh->node_line[e->b]].y;
        if (y > y1 + SS_AT_LINE && i < last) {
            continue;
        }
        share.element = mesh->beam_element[i];
        if (y <= y0 + SS_AT_LINE) {
            share.s = 0.0;
            share.arm = weight * ss_min(y - y0, 0.0);
        } else if (y >= y1 - SS_AT_LINE) {
            share.s = 1.0;
            share.arm = weight * ss_max(y - y1, 0.0);
        } else {
            share.s = (y - y0) / (y1 - y0);
        }
        break;
    }
    return share;
}

/* A force on the deck: its place and size. */
typedef struct deck_force {
    double x, y, weight;
} deck_force;

static void load_car_along(const ss_mesh *mesh, int interval, int car, deck_force force,
                           ss_deck_shares *out) {
    int pair[2];
    if (lines_in(mesh, interval, car) == 0) {
        return;
    }
    if (!beams_beside(mesh, car, force.x, pair)) {
        const int count = within_car(mesh, interval, car, force.y, &out->carrier[out->carrier_count]);
        for (int i = out->carrier_count; i < out->carrier_count + count; i++) {
            out->carrier[i].weight *= force.weight;
            out->carrier[i].arm *= force.weight;
        }
        out->carrier_count += count;
        return;
    }
    const double x0 = beam_x(mesh, pair[0]);
    const double t = (force.x - x0) / (beam_x(mesh, pair[1]) - x0);
    if (t != 1.0) {
        out->beam[out->beam_count++] = share_on_beam(mesh, pair[0], force.y, force.weight * (1.0 - t));
    }
    if (t != 0.0) {
        out->beam[out->beam_count++] = share_on_beam(mesh, pair[1], force.y, force.weight * t);
    }
}

static void shares_along(const ss_mesh *mesh, int interval, double x, double y, ss_deck_shares *out) {
    const ss_bridge *b = mesh->bridge;
    for (int car = 0; b->deck.over_joints && car + 1 < b->car_count; car++) {
        const double y0 = b->cars[car].y_right;
        const double y1 = b->cars[car + 1].y_left;
        if (!(y > y0 && y < y1) || lines_in(mesh, interval, car) == 0 ||
            lines_in(mesh, interval, car + 1) == 0) {
            continue;
        }
        const double t = (y - y0) / (y1 - y0);
        load_car_along(mesh, interval, car, (deck_force){x, y0, 1.0 - t}, out);
        load_car_along(mesh, interval, car + 1, (deck_force){x, y1, t}, out);
        return;
    }
    load_car_along(mesh, interval, owner_of(b, y), (deck_force){x, y, 1.0}, out);
}

void ss_deck_shares_at(const ss_mesh *mesh, int interval, double x, double y, ss_deck_shares *out) {
    out->beam_count = 0;
    out->carrier_count = 0;
    if (mesh->bridge->deck.along) {
        shares_along(mesh, interval, x, y, out);
    } else {
        out->carrier_count = ss_mesh_deck_across(mesh, interval, y, out->carrier);
    }
}

/* Shares at x; where x is a station at which all lines of the interval to its right end, those of the
 * interval to its left. Returns the interval or -1. */
static int shares_at(const ss_mesh *mesh, double x, double y, bool along, ss_deck_shares *out) {
    int interval[2];
    const int count = ss_station_intervals(mesh, x, interval);
    out->beam_count = 0;
    out->carrier_count = 0;
    for (int i = 0; i < count; i++) {
        if (along) {
            shares_along(mesh, interval[i], x, y, out);
        } else {
            ss_deck_shares_at(mesh, interval[i], x, y, out);
        }
        if (out->beam_count + out->carrier_count > 0) {
            return interval[i];
        }
    }
    return -1;
}

int ss_deck_shares_find(const ss_mesh *mesh, double x, double y, ss_deck_shares *out) {
    return shares_at(mesh, x, y, mesh->bridge->deck.along, out);
}

int ss_mesh_deck_along(const ss_mesh *mesh, double x, double y, ss_beam_share out[4]) {
    ss_deck_shares shares;
    shares_at(mesh, x, y, true, &shares);
    for (int i = 0; i < shares.beam_count; i++) {
        out[i] = shares.beam[i];
    }
    return shares.beam_count;
}

/* ---- rows --------------------------------------------------------------------------------------- */

static void add_shape(const ss_element *e, double s, double weight, ss_row *row) {
    double c[6][4];
    ss_element_shape(e, c);
    for (int i = 0; i < 6; i++) {
        const double value = weight * ss_cubic(c[i], s);
        if (value != 0.0) {
            ss_row_add(row, ss_element_dof(e, i), value);
        }
    }
}

ss_status ss_mesh_wheel(const ss_mesh *mesh, double x, double y, ss_row *row) {
    ss_row made = {0};
    ss_deck_shares shares;
    const int interval = ss_deck_shares_find(mesh, x, y, &shares);
    for (int i = 0; i < shares.carrier_count && interval >= 0; i++) {
        const ss_carrier *c = &shares.carrier[i];
        const ss_element *e = &mesh->element[ss_mesh_line_element(mesh, interval, c->line)];
        const double s = ss_clamp((x - mesh->station[interval]) / e->length, 0.0, 1.0);
        add_shape(e, s, c->weight, &made);
        if (c->arm != 0.0) {
            ss_row_add(&made, 3 * e->a + 1, c->arm * (1.0 - s));
            ss_row_add(&made, 3 * e->b + 1, c->arm * s);
        }
    }
    for (int i = 0; i < shares.beam_count && interval >= 0; i++) {
        const ss_beam_share *share = &shares.beam[i];
        const ss_element *e = &mesh->element[share->element];
        add_shape(e, share->s, share->weight, &made);
        double moment[6];
        ss_element_overhang(e, share->s > 0.5, moment);
        for (int k = 0; k < 6 && share->arm != 0.0; k++) {
            ss_row_add(&made, ss_element_dof(e, k), share->arm * moment[k]);
        }
    }
    *row = made;
    return SS_OK;
}
