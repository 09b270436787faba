/* report_drawing.c - the plan and the cross-section as strokes and labels. */
#include "report/report_parts.h"

#include <math.h>
#include <string.h>

#include "report/report_words.h"

#define PLAN_NOTE "The first abutment is at the left; across the page is not to the scale of along it."
/* Room above the deck of a cross-section for the curbs, m. */
#define ABOVE 0.25

/* A drawing that is being filled; arrays in the report's arena, of fixed capacity. */
typedef struct canvas {
    ss_builder *builder;
    ss_drawing *drawing;
    int strokes, labels; /* capacities */
} canvas;

static canvas begin(ss_builder *b, const char *key, const char *title, int strokes, int labels) {
    canvas c = {.builder = b, .strokes = strokes, .labels = labels};
    ss_arena *arena = &b->report->arena;
    c.drawing = ss_arena_alloc(arena, 1, sizeof *c.drawing);
    if (c.drawing != NULL) {
        c.drawing->key = key;
        c.drawing->title = title;
        c.drawing->strokes = ss_arena_alloc(arena, (size_t)strokes, sizeof *c.drawing->strokes);
        c.drawing->labels = ss_arena_alloc(arena, (size_t)labels, sizeof *c.drawing->labels);
    }
    if (c.drawing == NULL || c.drawing->strokes == NULL || c.drawing->labels == NULL) {
        b->failed = true;
        c.drawing = NULL;
    }
    return c;
}

static void stroke(canvas *c, ss_stroke_kind kind, double x0, double y0, double x1, double y1) {
    if (c->drawing != NULL && c->drawing->stroke_count < c->strokes) {
        c->drawing->strokes[c->drawing->stroke_count++] = (ss_stroke){kind, x0, y0, x1, y1};
    }
}

static void label(canvas *c, double x, double y, int anchor, const char *text) {
    if (c->drawing != NULL && c->drawing->label_count < c->labels) {
        c->drawing->labels[c->drawing->label_count++] = (ss_label){x, y, text, anchor};
    }
}

static double left_edge(const ss_bridge *bridge) {
    double y = bridge->cars[0].y_left;
    for (int i = 1; i < bridge->car_count; i++) {
        y = fmin(y, bridge->cars[i].y_left);
    }
    return y;
}

static double right_edge(const ss_bridge *bridge) {
    double y = bridge->cars[0].y_right;
    for (int i = 1; i < bridge->car_count; i++) {
        y = fmax(y, bridge->cars[i].y_right);
    }
    return y;
}

static void rectangle(canvas *c, ss_stroke_kind kind, double x0, double y0, double x1, double y1) {
    stroke(c, kind, x0, y0, x1, y0);
    stroke(c, kind, x0, y1, x1, y1);
    stroke(c, kind, x0, y0, x0, y1);
    stroke(c, kind, x1, y0, x1, y1);
}

/* Joint springs stand at the middle of the gap. */
static void draw_joint(canvas *c, const ss_bridge *bridge, const ss_joint *joint, double x0, double y0) {
    if (joint->kind == SS_JOINT_NONE) {
        return;
    }
    if (joint->connector_count == 0) {
        stroke(c, SS_STROKE_JOINT, joint->x0 - x0, joint->y - y0, joint->x1 - x0, joint->y - y0);
        return;
    }
    for (int i = 0; i < joint->connector_count; i++) {
        const double x = bridge->connectors[joint->first_connector + i] - x0;
        stroke(c, SS_STROKE_JOINT, x, joint->y - y0, x, joint->y - y0);
    }
}

static void draw_stations(canvas *c, const ss_bridge *bridge, double height) {
    double last = -(double)INFINITY;
    /* The x of bearings are what one tapes first; they are marked below the plan. */
    for (;;) {
        double next = (double)INFINITY;
        for (int i = 0; i < bridge->bearing_count; i++) {
            if (bridge->bearings[i].x > last + 1e-6) {
                next = fmin(next, bridge->bearings[i].x);
            }
        }
        if (isinf(next)) {
            return;
        }
        label(c, next - bridge->x0, height, 0, ss_words_length(c->builder, next));
        last = next;
    }
}

/* Parts of one line have one label, that of the whole. */
static bool named_before(const ss_bridge *bridge, int line) {
    const ss_line *const own = &bridge->lines[line];
    for (int i = 0; i < line && own->whole != NULL; i++) {
        const ss_line *const other = &bridge->lines[i];
        if (other->car == own->car && other->whole != NULL && strcmp(other->whole, own->whole) == 0) {
            return true;
        }
    }
    return false;
}

/* Floor beams reach from the first to the last line of their car that is there. */
static void draw_beams(canvas *c, const ss_bridge *bridge, double x0, double y0) {
    for (int i = 0; i < bridge->floor_beam_count; i++) {
        const ss_floor_beam *beam = &bridge->floor_beams[i];
        if (beam->strip > 0.0) {
            continue;
        }
        const ss_car *car = &bridge->cars[beam->car];
        double low = car->y_right;
        double high = car->y_left;
        for (int k = 0; k < car->line_count; k++) {
            const ss_line *line = &bridge->lines[car->first_line + k];
            if (beam->x >= line->x0 && beam->x <= line->x1) {
                low = fmin(low, line->y);
                high = fmax(high, line->y);
            }
        }
        stroke(c, SS_STROKE_BEAM, beam->x - x0, low - y0, beam->x - x0, high - y0);
    }
}

/* Lines with their names at the left. */
static void draw_lines(canvas *c, const ss_bridge *bridge, double x0, double y0) {
    for (int i = 0; i < bridge->line_count; i++) {
        const ss_line *line = &bridge->lines[i];
        stroke(c, line->role == SS_ROLE_MAIN ? SS_STROKE_GIRDER : SS_STROKE_LINE, line->x0 - x0, line->y - y0,
               line->x1 - x0, line->y - y0);
        if (named_before(bridge, i)) {
            continue;
        }
        const char *const name = line->whole == NULL ? line->name : line->whole;
        label(c, 0.0, line->y - y0, -1,
              bridge->car_count == 1
                  ? name
                  : ss_build_text(c->builder, "%s, %s", bridge->cars[line->car].name, name));
    }
}

void ss_part_plan(ss_builder *b, const char *title, const char *note, const ss_plan_mark *marks, int count) {
    const ss_bridge *bridge = b->results->bridge;
    const double x0 = bridge->x0;
    const double y0 = left_edge(bridge);
    const int strokes = 4 * bridge->car_count + bridge->line_count + bridge->floor_beam_count +
                        bridge->joint_count + bridge->connector_count + bridge->bearing_count + 2;
    canvas c = begin(b, "plan", title, strokes,
                     bridge->line_count + bridge->bearing_count + bridge->car_count + 2 + count);
    if (c.drawing == NULL) {
        return;
    }
    c.drawing->width = bridge->x1 - x0;
    c.drawing->height = right_edge(bridge) - y0;
    c.drawing->note = note;
    for (int i = 0; i < bridge->car_count; i++) {
        const ss_car *car = &bridge->cars[i];
        rectangle(&c, SS_STROKE_EDGE, car->x0 - x0, car->y_left - y0, car->x1 - x0, car->y_right - y0);
    }
    draw_beams(&c, bridge, x0, y0);
    draw_lines(&c, bridge, x0, y0);
    for (int i = 0; i < bridge->joint_count; i++) {
        draw_joint(&c, bridge, &bridge->joints[i], x0, y0);
    }
    for (int i = 0; i < 2; i++) {
        const double y = (i == 0 ? bridge->roadway_left : bridge->roadway_right) - y0;
        if (y >= 0.0 && y <= c.drawing->height) {
            stroke(&c, SS_STROKE_CURB, 0.0, y, c.drawing->width, y);
        }
    }
    for (int i = 0; i < bridge->bearing_count; i++) {
        const double x = bridge->bearings[i].x - x0;
        const double y = bridge->lines[bridge->bearings[i].line].y - y0;
        stroke(&c, SS_STROKE_BEARING, x, y, x, y);
    }
    for (int i = 0; i < count; i++) {
        label(&c, marks[i].x - x0, marks[i].y - y0, 1, marks[i].text);
    }
    draw_stations(&c, bridge, c.drawing->height);
    ss_build_drawing(b, c.drawing);
}

/* The piece of a line at x, the one before it where two meet. */
static const ss_line_piece *piece_at(const ss_bridge *bridge, const ss_line *line, double x) {
    for (int i = 0; i < line->piece_count; i++) {
        const ss_line_piece *piece = &bridge->pieces[line->first_piece + i];
        if (x <= piece->x1) {
            return piece;
        }
    }
    return &bridge->pieces[line->first_piece + line->piece_count - 1];
}

/* One line's plates, tops flush with the deck, or a stick of its depth. Returns the depth. */
static double draw_section(canvas *c, const ss_bridge *bridge, const ss_line *line, double x, double y0) {
    const ss_line_piece *piece = piece_at(bridge, line, x);
    const ss_section *section = &bridge->sections[piece->section];
    const double s = (x - piece->x0) / (piece->x1 - piece->x0);
    const double depth = piece->depth0 + s * (piece->depth1 - piece->depth0);
    const double y = line->y - y0;
    if (section->plate_count == 0 || section->shape == SS_SHAPE_GIVEN) {
        stroke(c, SS_STROKE_PLATE, y, ABOVE, y, ABOVE + fmax(depth, 0.05));
        return depth;
    }
    const double taller = depth - section->depth;
    for (int i = 0; i < section->plate_count; i++) {
        const ss_plate *plate = &section->plates[i];
        /* A web stretches with the taper, what is above mid-depth moves with the top. */
        const double z0 = plate->z0 + (!plate->web && plate->z0 > 0.5 * section->depth ? taller : 0.0);
        const double z1 = plate->z1 + (plate->web || plate->z0 > 0.5 * section->depth ? taller : 0.0);
        const double down0 = ABOVE + depth - z1;
        const double down1 = ABOVE + depth - z0;
        if (plate->y1 - plate->y0 >= z1 - z0) {
            const double z = 0.5 * (down0 + down1);
            stroke(c, SS_STROKE_PLATE, y + plate->y0, z, y + plate->y1, z);
        } else {
            const double middle = y + 0.5 * (plate->y0 + plate->y1);
            stroke(c, SS_STROKE_PLATE, middle, down0, middle, down1);
        }
    }
    return depth;
}

/* A concrete deck at x, at half its height; open gaps stay open. */
static void draw_slab(canvas *c, const ss_bridge *bridge, double x, double y0) {
    const ss_slab *slab = &bridge->slab;
    const double down = ABOVE - slab->haunch - 0.5 * slab->thickness;
    if (!slab->given || x < slab->x0 || x > slab->x1) {
        return;
    }
    for (int i = 0; i < bridge->car_count; i++) {
        const ss_car *car = &bridge->cars[i];
        const bool on = slab->joint != SS_SLAB_JOINT_OPEN && i + 1 < bridge->car_count;
        const double left = fmax(i == 0 ? slab->y0 : car->y_left, y0) - y0;
        const double right = on ? car[1].y_left : i + 1 < bridge->car_count ? car->y_right : slab->y1;
        if (x >= car->x0 && x <= car->x1) {
            stroke(c, SS_STROKE_SLAB, left, fmax(down, 0.0), fmin(right - y0, c->drawing->width),
                   fmax(down, 0.0));
        }
    }
}

static void draw_cross_section(ss_builder *b) {
    const ss_bridge *bridge = b->results->bridge;
    const double x = 0.5 * (bridge->x0 + bridge->x1);
    const double y0 = left_edge(bridge);
    const int strokes = bridge->line_count * SS_PLATES_MAX + 2 * bridge->car_count + bridge->joint_count + 2;
    canvas c = begin(b, "cross_section",
                     ss_build_text(b, "Cross-section at %s, looking ahead", ss_words_length(b, x)), strokes,
                     2 * bridge->line_count + bridge->car_count);
    if (c.drawing == NULL) {
        return;
    }
    c.drawing->width = right_edge(bridge) - y0;
    double depth = 0.1;
    for (int i = 0; i < bridge->car_count; i++) {
        const ss_car *car = &bridge->cars[i];
        if (x >= car->x0 && x <= car->x1) {
            stroke(&c, SS_STROKE_GROUND, car->y_left - y0, ABOVE, car->y_right - y0, ABOVE);
        }
    }
    draw_slab(&c, bridge, x, y0);
    for (int i = 0; i < bridge->line_count; i++) {
        const ss_line *line = &bridge->lines[i];
        if (x >= line->x0 && x <= line->x1) {
            depth = fmax(depth, draw_section(&c, bridge, line, x, y0));
        }
    }
    for (int i = 0; i < bridge->joint_count; i++) {
        const ss_joint *joint = &bridge->joints[i];
        if (joint->kind != SS_JOINT_NONE) {
            stroke(&c, SS_STROKE_JOINT, joint->y - y0, ABOVE, joint->y - y0, ABOVE);
        }
    }
    for (int i = 0; i < 2; i++) {
        const double y = (i == 0 ? bridge->roadway_left : bridge->roadway_right) - y0;
        if (y >= 0.0 && y <= c.drawing->width) {
            stroke(&c, SS_STROKE_CURB, y, 0.0, y, ABOVE);
        }
    }
    c.drawing->height = ABOVE + depth;
    for (int i = 0; i < bridge->car_count; i++) {
        const ss_car *car = &bridge->cars[i];
        label(&c, 0.5 * (car->y_left + car->y_right) - y0, ABOVE + depth, 0,
              ss_build_text(b, "car %s", car->name));
    }
    ss_build_drawing(b, c.drawing);
}

void ss_part_drawings(ss_builder *b) {
    ss_build_heading(b, SS_FOR_PEOPLE, "What the description says");
    ss_part_plan(b, "Plan, from above", PLAN_NOTE, NULL, 0);
    draw_cross_section(b);
}
