/* resolve_line.c - lines, tapers and floor beams of one car, from the type's axes into the bridge's. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "model/resolve_line.h"

/* From the axes of the car type to those of the bridge. */
typedef struct placing {
    const ss_car_type *type;
    ss_car *car;
    double middle; /* y of the car's middle */
} placing;

static double along(const placing *p, double x) {
    return p->car->reversed ? p->car->x1 - x : p->car->x0 + x;
}

static double across(const placing *p, double y) {
    return p->car->reversed ? p->middle - y : p->middle + y;
}

/* ---- pieces --------------------------------------------------------------------------------------- */

/* Depth at x: straight between the taped points, level beyond. */
static double depth_at(const ss_type_line *line, double x) {
    if (x <= line->point_x[0]) {
        return line->point_depth[0];
    }
    for (int i = 1; i < line->point_count; i++) {
        const double a = line->point_x[i - 1];
        const double b = line->point_x[i];
        if (x > b) {
            continue;
        }
        return line->point_depth[i - 1] +
               (x - a) / (b - a) * (line->point_depth[i] - line->point_depth[i - 1]);
    }
    return line->point_depth[line->point_count - 1];
}

bool ss_resolve_add_piece(ss_resolve *c, ss_line *line, ss_line_piece piece) {
    ss_bridge *const bridge = c->bridge;
    ss_line_piece *const grown = ss_resolve_grow(c, bridge->pieces, bridge->piece_count, sizeof *grown);
    if (grown == NULL) {
        return false;
    }
    bridge->pieces = grown;
    grown[bridge->piece_count++] = piece;
    line->piece_count++;
    return true;
}

/* Stretches between taped points, in the type's axes, from the near end. */
static bool add_pieces(ss_resolve *c, const ss_type_line *from, ss_line *line, int section) {
    line->first_piece = c->bridge->piece_count;
    if (from->point_count == 0) {
        const ss_section *const s = &c->bridge->sections[section];
        const double depth = s->depth > 0.0 ? s->depth : 0.0;
        return ss_resolve_add_piece(c, line, (ss_line_piece){from->x0, from->x1, section, depth, depth});
    }
    double x = from->x0;
    for (int i = 0; i < from->point_count; i++) {
        const double next = from->point_x[i];
        if (next <= x + SS_SAME_PLACE || next >= from->x1 - SS_SAME_PLACE) {
            continue;
        }
        if (!ss_resolve_add_piece(
                c, line, (ss_line_piece){x, next, section, depth_at(from, x), depth_at(from, next)})) {
            return false;
        }
        x = next;
    }
    return ss_resolve_add_piece(
        c, line, (ss_line_piece){x, from->x1, section, depth_at(from, x), depth_at(from, from->x1)});
}

/* Into the bridge's axes; a reversed car has its pieces in the other order, each turned round. */
static void place_pieces(ss_bridge *bridge, const placing *p, const ss_line *line) {
    ss_line_piece *const pieces = &bridge->pieces[line->first_piece];
    for (int i = 0; i < line->piece_count && p->car->reversed; i++) {
        const ss_line_piece old = pieces[i];
        pieces[i] = (ss_line_piece){old.x1, old.x0, old.section, old.depth1, old.depth0};
    }
    for (int i = 0; p->car->reversed && 2 * i + 1 < line->piece_count; i++) {
        const ss_line_piece old = pieces[i];
        pieces[i] = pieces[line->piece_count - 1 - i];
        pieces[line->piece_count - 1 - i] = old;
    }
    for (int i = 0; i < line->piece_count; i++) {
        pieces[i].x0 = along(p, pieces[i].x0);
        pieces[i].x1 = along(p, pieces[i].x1);
    }
}

/* ---- lines ---------------------------------------------------------------------------------------- */

static int first_steel(int own, int car, int type) {
    return own >= 0 ? own : car >= 0 ? car : type;
}

static bool lay_line(ss_resolve *c, const placing *p, int index, const ss_line_change *change, int steel) {
    ss_bridge *const bridge = c->bridge;
    const ss_type_line *const from = &p->type->lines[index];
    ss_line *const grown = ss_resolve_grow(c, bridge->lines, bridge->line_count, sizeof *grown);
    if (grown == NULL) {
        return false;
    }
    bridge->lines = grown;
    int member = 1;
    for (int i = p->car->first_line; i < bridge->line_count; i++) {
        member += strcmp(grown[i].set, from->set) == 0;
    }
    const double a = along(p, from->x0);
    const double b = along(p, from->x1);
    ss_line *const line = &grown[bridge->line_count];
    *line = (ss_line){
        .name = ss_resolve_numbered(c, from->set, member, from->members),
        .set = from->set,
        .car = (int)(p->car - bridge->cars),
        .role = from->role,
        .y = across(p, from->y),
        .x0 = ss_min(a, b),
        .x1 = ss_max(a, b),
        .unbraced = from->unbraced,
        .Cb = isnan(from->Cb) ? 1.0 : from->Cb,
        .stiffeners = isnan(from->stiffeners) ? 0.0 : from->stiffeners,
        .steel = first_steel(change->steel >= 0 ? change->steel : from->steel, steel, p->type->steel)};
    if (line->name == NULL) {
        return false;
    }
    line->whole = line->name;
    if (!add_pieces(c, from, line, change->section >= 0 ? change->section : from->section)) {
        return false;
    }
    place_pieces(bridge, p, line);
    bridge->line_count++;
    p->car->line_count++;
    return true;
}

/* ---- floor beams ---------------------------------------------------------------------------------- */

static bool lay_parts(ss_resolve *c, const placing *p, const ss_type_beam *from, ss_floor_beam *beam) {
    ss_bridge *const bridge = c->bridge;
    beam->first_part = bridge->part_count;
    beam->part_count = from->part_count;
    for (int i = 0; i < from->part_count; i++) {
        const ss_beam_part *const part = &from->parts[p->car->reversed ? from->part_count - 1 - i : i];
        ss_beam_part *const grown = ss_resolve_grow(c, bridge->parts, bridge->part_count, sizeof *grown);
        if (grown == NULL) {
            return false;
        }
        bridge->parts = grown;
        const double a = across(p, part->y0);
        const double b = across(p, part->y1);
        grown[bridge->part_count++] = (ss_beam_part){ss_min(a, b), ss_max(a, b), part->section};
    }
    return true;
}

static bool lay_hinges(ss_resolve *c, const ss_type_beam *from, const int *line_of, ss_floor_beam *beam) {
    ss_bridge *const bridge = c->bridge;
    beam->first_hinge = bridge->hinge_count;
    for (int i = 0; i < from->hinge_count; i++) {
        const int line = line_of[from->hinges[i]];
        if (line < 0) {
            continue;
        }
        const ss_line *const l = &bridge->lines[line];
        if (l->x0 > beam->x + SS_SAME_PLACE || l->x1 < beam->x - SS_SAME_PLACE) {
            continue;
        }
        int *const grown = ss_resolve_grow(c, bridge->hinges, bridge->hinge_count, sizeof *grown);
        if (grown == NULL) {
            return false;
        }
        bridge->hinges = grown;
        grown[bridge->hinge_count++] = line;
        beam->hinge_count++;
    }
    return true;
}

/* A line that is missing may leave a beam with nothing to join. */
static void check_support(ss_resolve *c, const placing *p, const ss_floor_beam *beam) {
    int met = 0;
    for (int i = 0; i < p->car->line_count; i++) {
        const ss_line *const line = &c->bridge->lines[p->car->first_line + i];
        met += line->x0 <= beam->x + SS_SAME_PLACE && line->x1 >= beam->x - SS_SAME_PLACE;
    }
    if (met >= 2) {
        return;
    }
    ss_read_complain(&c->reading, SS_FAULT, c->car_nodes[p->car - c->bridge->cars], "lines",
                     "without the missing lines the floor beam \"%s\" joins fewer than two", beam->name);
}

static bool lay_beam(ss_resolve *c, const placing *p, const ss_type_beam *from, const int *line_of,
                     int steel) {
    ss_bridge *const bridge = c->bridge;
    ss_floor_beam *const grown =
        ss_resolve_grow(c, bridge->floor_beams, bridge->floor_beam_count, sizeof *grown);
    if (grown == NULL) {
        return false;
    }
    bridge->floor_beams = grown;
    int member = 1;
    for (int i = p->car->first_beam; i < bridge->floor_beam_count; i++) {
        member += strcmp(grown[i].set, from->set) == 0;
    }
    ss_floor_beam *const beam = &grown[bridge->floor_beam_count];
    *beam = (ss_floor_beam){.name = ss_resolve_numbered(c, from->set, member, from->members),
                            .set = from->set,
                            .car = (int)(p->car - bridge->cars),
                            .x = along(p, from->x),
                            .steel = first_steel(from->steel, steel, p->type->steel)};
    if (beam->name == NULL || !lay_parts(c, p, from, beam) || !lay_hinges(c, from, line_of, beam)) {
        return false;
    }
    bridge->floor_beam_count++;
    p->car->beam_count++;
    check_support(c, p, beam);
    return true;
}

void ss_resolve_lay_car(ss_resolve *c, int car, const ss_line_change *changes, int steel) {
    ss_bridge *const bridge = c->bridge;
    const ss_car_type *const type = &c->types[c->car_types[car]];
    ss_car *const owner = &bridge->cars[car];
    const placing p = {.type = type, .car = owner, .middle = 0.5 * (owner->y_left + owner->y_right)};
    int *const line_of = ss_resolve_scratch(c, (size_t)type->line_count, sizeof *line_of);
    if (line_of == NULL) {
        return;
    }
    owner->first_line = bridge->line_count;
    owner->first_beam = bridge->floor_beam_count;
    for (int k = 0; k < type->line_count; k++) {
        /* The type's order, by y and then x, turns round with the car. */
        const int i = owner->reversed ? type->line_count - 1 - k : k;
        line_of[i] = changes[i].missing ? -1 : bridge->line_count;
        if (!changes[i].missing && !lay_line(c, &p, i, &changes[i], steel)) {
            return;
        }
    }
    for (int k = 0; k < type->beam_count; k++) {
        const int i = owner->reversed ? type->beam_count - 1 - k : k;
        if (!lay_beam(c, &p, &type->beams[i], line_of, steel)) {
            return;
        }
    }
}
