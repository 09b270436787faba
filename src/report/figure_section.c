/* figure_section.c - across the bridge at midlength, to scale: plates of each line, deck or slab, curbs. */
#include <math.h>

#include "report/figure_parts.h"
#include "report/report_words.h"

/* m: a curb, a deck whose thickness is not known, and a member of unknown depth. */
#define CURB_WIDE 0.15
#define CURB_HIGH 0.2
#define DECK 0.02
#define NO_DEPTH 0.05
/* mm: room for the axis at the left, for names above the deck, and between them and it. */
#define AXIS_ROOM 14.0
#define NAMES 7.0
#define CURB_LEAST 4.0

typedef struct cut {
    ss_sketch sketch;
    double x;        /* m, where it is cut */
    ss_scale across; /* m to mm */
    ss_scale down;   /* m below the top of the steel to mm */
    double deck;     /* m, thickness that is drawn */
    double left, right, deepest;
    bool unknown; /* some line is known by its properties only */
} cut;

static ss_spot at(const cut *c, double y, double z) {
    return (ss_spot){ss_scale_at(&c->across, y), ss_scale_at(&c->down, z)};
}

static bool is_there(const cut *c, double x0, double x1) {
    return c->x >= x0 && c->x <= x1;
}

/* A joint that is cut, or has connectors somewhere; a slab over the gap shows by itself. */
static bool has_joint(const cut *c, const ss_joint *joint) {
    return joint->kind != SS_JOINT_NONE && !joint->slab &&
           (joint->connector_count > 0 || is_there(c, joint->x0, joint->x1));
}

/* Where most lines are cut, nearest to the middle: a gap in the middle should not hide a car. */
static double station(const ss_bridge *bridge) {
    const double middle = 0.5 * (bridge->x0 + bridge->x1);
    double best = middle;
    int most = -1;
    for (int i = -1; i < 2 * bridge->line_count; i++) {
        const ss_line *const line = i < 0 ? NULL : &bridge->lines[i / 2];
        const double x = line == NULL ? middle : i % 2 == 0 ? line->x0 : line->x1;
        int count = 0;
        for (int k = 0; k < bridge->line_count; k++) {
            count += x >= bridge->lines[k].x0 && x <= bridge->lines[k].x1;
        }
        if (count > most || (count == most && fabs(x - middle) < fabs(best - middle))) {
            most = count;
            best = x;
        }
    }
    return best;
}

static double slab_top(const cut *c) {
    const ss_slab *const slab = &c->sketch.bridge->slab;
    return slab->given ? slab->haunch + slab->thickness : c->deck;
}

/* What a member whose plates are not known is drawn with, to either side. */
static double half_width(double depth) {
    return 0.15 * fmax(depth, NO_DEPTH);
}

static void lay_out(cut *c) {
    const ss_bridge *const bridge = c->sketch.bridge;
    c->left = bridge->roadway_left - CURB_WIDE;
    c->right = bridge->roadway_right + CURB_WIDE;
    c->deepest = NO_DEPTH;
    if (bridge->slab.given) {
        c->left = fmin(c->left, bridge->slab.y0);
        c->right = fmax(c->right, bridge->slab.y1);
    }
    for (int i = 0; i < bridge->car_count; i++) {
        c->left = fmin(c->left, bridge->cars[i].y_left);
        c->right = fmax(c->right, bridge->cars[i].y_right);
    }
    for (int i = 0; i < bridge->line_count; i++) {
        const ss_line *const line = &bridge->lines[i];
        int number = 0;
        if (!is_there(c, line->x0, line->x1)) {
            continue;
        }
        const double depth = ss_bridge_line_piece(bridge, i, c->x, true, &number);
        c->deepest = fmax(c->deepest, depth);
        const ss_section *const section = &bridge->sections[number];
        const double half = section->plate_count == 0 ? half_width(depth) : 0.0;
        c->left = fmin(c->left, line->y - half);
        c->right = fmax(c->right, line->y + half);
        for (int k = 0; k < section->plate_count; k++) {
            c->left = fmin(c->left, line->y + section->plates[k].y0);
            c->right = fmax(c->right, line->y + section->plates[k].y1);
        }
    }
    const double thickness = bridge->deck.wheel.thickness;
    c->deck = bridge->slab.given ? 0.0 : thickness > 0.0 ? thickness : DECK;
    c->across =
        (ss_scale){c->left, c->right, SS_PAGE_MARGIN + AXIS_ROOM, SS_PAGE_WIDTH - SS_PAGE_MARGIN, false};
    /* To one scale; a narrow bridge does not fill the page from top to bottom. */
    const double most = 70.0 / (c->deepest + slab_top(c) + CURB_HIGH);
    const double wide = (c->across.to - c->across.from) / (c->right - c->left);
    const double mm = fmin(most, wide);
    c->across.to = c->across.from + mm * (c->right - c->left);
    const double top = c->sketch.down + NAMES + mm * slab_top(c) + fmax(mm * CURB_HIGH, CURB_LEAST);
    c->down = (ss_scale){0.0, c->deepest, top, top + mm * c->deepest, false};
    c->sketch.down = c->down.to;
}

/* One line's plates, their top level with the others'. */
static void draw_line(cut *c, int index) {
    const ss_bridge *const bridge = c->sketch.bridge;
    const ss_line *const line = &bridge->lines[index];
    int number = 0;
    const double depth = ss_bridge_line_piece(bridge, index, c->x, true, &number);
    const ss_section *const section = &bridge->sections[number];
    if (section->plate_count == 0 || section->shape == SS_SHAPE_GIVEN) {
        const double half = half_width(depth);
        ss_figure_box(c->sketch.figure, SS_FIGURE_UNKNOWN, at(c, line->y - half, 0.0),
                      at(c, line->y + half, fmax(depth, NO_DEPTH)));
        c->unknown = true;
        return;
    }
    const double taller = depth - section->depth;
    for (int i = 0; i < section->plate_count; i++) {
        /* A web stretches with the taper, what is above mid-depth moves with the top. */
        const ss_plate *const plate = &section->plates[i];
        const bool above = plate->z0 > 0.5 * section->depth;
        const double z0 = plate->z0 + (!plate->web && above ? taller : 0.0);
        const double z1 = plate->z1 + (plate->web || above ? taller : 0.0);
        ss_figure_box(c->sketch.figure, SS_FIGURE_STEEL, at(c, line->y + plate->y0, depth - z1),
                      at(c, line->y + plate->y1, depth - z0));
    }
}

/* Whether the deck or slab over car i runs on to the next one at the cut. */
static bool runs_on(const cut *c, int i) {
    const ss_bridge *const bridge = c->sketch.bridge;
    const bool whole =
        bridge->slab.given ? bridge->slab.joint != SS_SLAB_JOINT_OPEN : bridge->deck.over_joints;
    return whole && i + 1 < bridge->car_count && is_there(c, bridge->cars[i + 1].x0, bridge->cars[i + 1].x1);
}

/* A concrete deck over the cars, and over the gaps unless they are open; else the deck as a strip. */
static void draw_deck(cut *c) {
    const ss_bridge *const bridge = c->sketch.bridge;
    const ss_slab *const slab = &bridge->slab;
    const ss_figure_role role = slab->given ? SS_FIGURE_SLAB : SS_FIGURE_OUTLINE;
    for (int i = 0; i < bridge->car_count; i++) {
        const ss_car *const first = &bridge->cars[i];
        if (!is_there(c, first->x0, first->x1) || (slab->given && !is_there(c, slab->x0, slab->x1))) {
            continue;
        }
        while (runs_on(c, i)) {
            i++;
        }
        /* A slab may reach beyond the outermost cars. */
        const bool last = i + 1 == bridge->car_count;
        const double slab_left = first == bridge->cars ? slab->y0 : fmax(first->y_left, slab->y0);
        const double slab_right = last ? slab->y1 : fmin(bridge->cars[i].y_right, slab->y1);
        const double left = slab->given ? slab_left : first->y_left;
        const double right = slab->given ? slab_right : bridge->cars[i].y_right;
        ss_figure_box(c->sketch.figure, role, at(c, left, -slab_top(c)),
                      at(c, right, slab->given ? -slab->haunch : 0.0));
    }
}

/* Haunches over the lines that act with a slab. */
static void draw_haunches(cut *c) {
    const ss_bridge *const bridge = c->sketch.bridge;
    const ss_slab *const slab = &bridge->slab;
    for (int i = 0; slab->given && slab->haunch > 0.0 && i < bridge->line_count; i++) {
        const ss_line *const line = &bridge->lines[i];
        const double half = 0.5 * slab->haunch_width;
        if (slab->lines != NULL && slab->lines[i].composite && half > 0.0 &&
            is_there(c, line->x0, line->x1)) {
            ss_figure_box(c->sketch.figure, SS_FIGURE_SLAB, at(c, line->y - half, -slab->haunch),
                          at(c, line->y + half, 0.0));
        }
    }
}

/* mm: how far above the deck the dimension of the roadway stands, though curbs of a wide bridge are small. */
static double dimension_up(double curb) {
    return fmax(0.5 * curb, 2.0);
}

/* Its clear width, as a dimension between the curbs. */
static void draw_roadway(cut *c) {
    const ss_bridge *const bridge = c->sketch.bridge;
    ss_figure *const figure = c->sketch.figure;
    const char *const words =
        ss_build_text(&c->sketch.words, "%s clear",
                      ss_words_length(&c->sketch.words, bridge->roadway_right - bridge->roadway_left));
    const double top = at(c, 0.0, -slab_top(c)).y;
    const double height = top - dimension_up(top - at(c, 0.0, -slab_top(c) - CURB_HIGH).y);
    const ss_spot left = {ss_scale_at(&c->across, bridge->roadway_left), height};
    const ss_spot right = {ss_scale_at(&c->across, bridge->roadway_right), height};
    const double half = 0.5 * ss_figure_text_width(words, SS_LETTERS_SMALL) + 1.0;
    const double middle = 0.5 * (left.x + right.x);
    ss_figure_line(figure, SS_FIGURE_LEADER, left, (ss_spot){middle - half, left.y});
    ss_figure_line(figure, SS_FIGURE_LEADER, (ss_spot){middle + half, left.y}, right);
    for (int i = 0; i < 2; i++) {
        const double x = i == 0 ? left.x : right.x;
        ss_figure_line(figure, SS_FIGURE_AXIS, (ss_spot){x - 0.7, left.y + 0.7},
                       (ss_spot){x + 0.7, left.y - 0.7});
    }
    ss_figure_text(figure, (ss_lettering){SS_FIGURE_LABEL, 0, SS_LETTERS_SMALL, false},
                   (ss_spot){middle, left.y + 0.35 * SS_LETTERS_SMALL}, words);
}

static void draw_top(cut *c) {
    const ss_bridge *const bridge = c->sketch.bridge;
    ss_figure *const figure = c->sketch.figure;
    const double top = -slab_top(c);
    if (bridge->roadway_right > bridge->roadway_left) {
        ss_figure_box(figure, SS_FIGURE_GROUND, at(c, bridge->roadway_left - CURB_WIDE, top - CURB_HIGH),
                      at(c, bridge->roadway_left, top));
        ss_figure_box(figure, SS_FIGURE_GROUND, at(c, bridge->roadway_right, top - CURB_HIGH),
                      at(c, bridge->roadway_right + CURB_WIDE, top));
        draw_roadway(c);
    }
    for (int i = 0; i < bridge->car_count; i++) {
        const ss_car *const car = &bridge->cars[i];
        if (is_there(c, car->x0, car->x1)) {
            const ss_spot spot = at(c, 0.5 * (car->y_left + car->y_right), top);
            ss_figure_text(
                figure, (ss_lettering){SS_FIGURE_LABEL, 0, SS_LETTERS, false},
                (ss_spot){spot.x, fmin(at(c, 0.0, top - CURB_HIGH).y, spot.y - CURB_LEAST) - 1.5},
                ss_build_text(&c->sketch.words, "car %s%s", car->name, car->reversed ? ", turned" : ""));
        }
    }
    for (int i = 0; i < bridge->joint_count; i++) {
        const ss_joint *const joint = &bridge->joints[i];
        if (has_joint(c, joint)) {
            const ss_spot spot = at(c, joint->y, 0.0);
            ss_figure_line(figure, SS_FIGURE_JOINT, (ss_spot){spot.x, spot.y - 0.5},
                           (ss_spot){spot.x, spot.y + 5.0});
        }
    }
}

static void draw_axes(cut *c) {
    ss_sketch *const s = &c->sketch;
    const ss_bridge *const bridge = s->bridge;
    const int most = bridge->line_count + bridge->joint_count;
    ss_pointer *const labels = ss_arena_alloc(&s->report.arena, (size_t)most, sizeof *labels);
    int count = 0;
    s->words.failed = s->words.failed || labels == NULL;
    for (int i = 0; labels != NULL && i < bridge->line_count; i++) {
        const ss_line *const line = &bridge->lines[i];
        if (is_there(c, line->x0, line->x1)) {
            labels[count++] = (ss_pointer){.at = ss_scale_at(&c->across, line->y), .text = line->whole};
        }
    }
    for (int i = 0; labels != NULL && i < bridge->joint_count; i++) {
        if (has_joint(c, &bridge->joints[i])) {
            labels[count++] = (ss_pointer){.at = ss_scale_at(&c->across, bridge->joints[i].y),
                                           .text = ss_words_member(&s->words, SS_MEMBER_JOINT, i)};
        }
    }
    const ss_unit_system units = s->report.units;
    const double tall = c->down.to - c->down.from;
    const ss_axis depth = {
        .scale = {0.0, ss_units_from_si(c->deepest, SS_DIM_SMALL_LENGTH, units), c->down.from, c->down.to,
                  false},
        .upright = true,
        .at = c->across.from - 2.0,
        .grid_to = c->across.from - 2.0,
        .most = tall > 25.0  ? 7
                : tall > 8.0 ? 4
                             : 2,
        .title = ss_build_text(&s->words, "depth, %s", ss_units_name(SS_DIM_SMALL_LENGTH, units))};
    ss_figure_axis(s->figure, &depth);
    const double down = count == 0 ? c->down.to
                                   : ss_sketch_row(s, labels, count, c->down.to + 1.0, c->across.from - 3.0,
                                                   SS_PAGE_WIDTH - SS_PAGE_MARGIN);
    const ss_axis across = {
        .scale = {ss_sketch_units(s, c->left), ss_sketch_units(s, c->right), c->across.from, c->across.to,
                  false},
        .at = down + 1.0,
        .grid_to = down + 1.0,
        .most = 12,
        .title = ss_build_text(&s->words, "y across the bridge, %s", ss_units_name(SS_DIM_LENGTH, units))};
    ss_figure_axis(s->figure, &across);
    s->down = down + 1.0 + 4.0 * SS_LETTERS;
}

ss_status ss_figure_section(const ss_results *results, ss_unit_system units, ss_figure *out,
                            ss_error *error) {
    const ss_bridge *const bridge = results->bridge;
    cut c = {.x = station(bridge)};
    ss_sketch_begin(&c.sketch, results, units, out, "section");
    ss_builder *const words = &c.sketch.words;
    const char *const where = ss_words_length(words, c.x);
    ss_sketch_heading(&c.sketch, ss_build_text(words, "Cross-section at %s, looking ahead", where));
    lay_out(&c);
    draw_deck(&c);
    draw_haunches(&c);
    int lines = 0;
    for (int i = 0; i < bridge->line_count; i++) {
        if (is_there(&c, bridge->lines[i].x0, bridge->lines[i].x1)) {
            draw_line(&c, i);
            lines++;
        }
    }
    draw_top(&c);
    draw_axes(&c);
    ss_sketch_paragraph(
        &c.sketch, 0.0,
        ss_build_text(words,
                      "To one scale. The tops of all members are drawn level, and the curbs by "
                      "their faces: a description does not say how they lie.%s",
                      c.unknown ? " Dashed members are known by their properties only." : ""));
    out->text = ss_figure_keep(
        out, ss_build_text(words,
                           "Plates of %s that are cut at %s, seen in the direction of travel from the first "
                           "abutment.",
                           ss_words_count(words, lines, "line", "lines"), where));
    return ss_sketch_end(&c.sketch, error);
}
