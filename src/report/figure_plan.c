/* figure_plan.c - the bridge from above, to scale: cars, members, joints, bearings, curbs and findings. */
#include <math.h>
#include <string.h>

#include "report/figure_parts.h"
#include "report/report_words.h"

/* mm: a column of car names, from the labels to the bridge, room for the axis at the right, half a bearing.
 */
#define CAR_NAMES 5.0
#define TO_LABELS 9.0
#define AXIS_ROOM 14.0
#define HALF_MARK 0.8

typedef struct plan {
    ss_sketch sketch;
    ss_scale x, y;      /* m to mm */
    ss_pointer *labels; /* those of lines come first */
    int *cars;          /* of those */
    int label_count, line_labels;
} plan;

static ss_spot at(const plan *p, double x, double y) {
    return (ss_spot){ss_scale_at(&p->x, x), ss_scale_at(&p->y, y)};
}

/* What is named at the left: lines, joints and curbs. */
static void collect_labels(plan *p) {
    const ss_bridge *const bridge = p->sketch.bridge;
    ss_builder *const b = &p->sketch.words;
    const int most = bridge->line_count + bridge->joint_count + 2;
    p->labels = ss_arena_alloc(&p->sketch.report.arena, (size_t)most, sizeof *p->labels);
    p->cars = ss_arena_alloc(&p->sketch.report.arena, (size_t)bridge->line_count, sizeof *p->cars);
    if (p->labels == NULL || p->cars == NULL) {
        b->failed = true;
        return;
    }
    for (int i = 0; i < bridge->line_count; i++) {
        /* Parts of a line that has gaps are named once. */
        const ss_line *const line = &bridge->lines[i];
        if (i == 0 || line[-1].car != line->car || strcmp(line[-1].whole, line->whole) != 0) {
            p->cars[p->line_labels++] = line->car;
            p->labels[p->label_count++] = (ss_pointer){.at = line->y, .text = line->whole};
        }
    }
    for (int i = 0; i < bridge->joint_count; i++) {
        if (bridge->joints[i].kind != SS_JOINT_NONE && !bridge->joints[i].slab) {
            p->labels[p->label_count++] =
                (ss_pointer){.at = bridge->joints[i].y, .text = ss_words_member(b, SS_MEMBER_JOINT, i)};
        }
    }
    if (bridge->roadway_right > bridge->roadway_left) {
        p->labels[p->label_count++] = (ss_pointer){.at = bridge->roadway_left, .text = "curb"};
        p->labels[p->label_count++] = (ss_pointer){.at = bridge->roadway_right, .text = "curb"};
    }
}

/* Scales and where the plan lies on the page, to one scale both ways. */
static void lay_out(plan *p) {
    const ss_bridge *const bridge = p->sketch.bridge;
    double low = bridge->cars[0].y_left;
    double high = bridge->cars[0].y_right;
    double widest = 0.0;
    for (int i = 1; i < bridge->car_count; i++) {
        low = fmin(low, bridge->cars[i].y_left);
        high = fmax(high, bridge->cars[i].y_right);
    }
    for (int i = 0; i < p->label_count; i++) {
        widest = fmax(widest, ss_figure_text_width(p->labels[i].text, SS_LETTERS_SMALL));
    }
    const double from = SS_PAGE_MARGIN + CAR_NAMES + fmin(widest, 60.0) + TO_LABELS;
    const double to = SS_PAGE_WIDTH - SS_PAGE_MARGIN - AXIS_ROOM;
    const double height = (high - low) * (to - from) / (bridge->x1 - bridge->x0);
    const double more = fmax(0.0, 0.5 * (3.0 * p->label_count - height));
    const double top = p->sketch.down + (bridge->finding_count > 0 ? 9.0 : 2.0) + more;
    p->x = (ss_scale){bridge->x0, bridge->x1, from, to, false};
    p->y = (ss_scale){low, high, top, top + height, false};
    for (int i = 0; i < p->label_count; i++) {
        p->labels[i].at = ss_scale_at(&p->y, p->labels[i].at);
    }
    ss_sketch_column(&p->sketch, p->labels, p->label_count, from - TO_LABELS, from, top - more - 1.0,
                     top + height + more + 1.0);
    p->sketch.down = top + height + fmax(0.0, more - 3.0);
}

static ss_figure_role role_of(const ss_line *line) {
    return line->role == SS_ROLE_MAIN       ? SS_FIGURE_MAIN_GIRDER
           : line->role == SS_ROLE_EXTERIOR ? SS_FIGURE_EDGE_GIRDER
                                            : SS_FIGURE_STRINGER;
}

static void draw_cars(plan *p) {
    const ss_bridge *const bridge = p->sketch.bridge;
    ss_figure *const figure = p->sketch.figure;
    for (int i = 0; i < bridge->car_count; i++) {
        const ss_car *const car = &bridge->cars[i];
        ss_figure_box(figure, SS_FIGURE_OUTLINE, at(p, car->x0, car->y_left), at(p, car->x1, car->y_right));
    }
}

/* The cars' names beside those of their lines. */
static void name_cars(plan *p) {
    const ss_bridge *const bridge = p->sketch.bridge;
    const int count = bridge->car_count;
    double *const place = ss_arena_alloc(&p->sketch.report.arena, 2 * (size_t)count, sizeof *place);
    const char **const names = ss_arena_alloc(&p->sketch.report.arena, (size_t)count, sizeof *names);
    double all = 0.0;
    double middle = 0.0;
    if (place == NULL || names == NULL) {
        p->sketch.words.failed = true;
        return;
    }
    for (int i = 0; i < count; i++) {
        const ss_car *const car = &bridge->cars[i];
        int lines = 0;
        for (int k = 0; k < p->line_labels; k++) {
            place[i] += p->cars[k] == i ? p->labels[k].placed : 0.0;
            lines += p->cars[k] == i;
        }
        names[i] = ss_build_text(&p->sketch.words, "car %s%s", car->name, car->reversed ? ", turned" : "");
        place[i] = lines > 0 ? place[i] / lines : ss_scale_at(&p->y, 0.5 * (car->y_left + car->y_right));
        place[count + i] = ss_figure_text_width(names[i], SS_LETTERS) + 2.0;
        all += place[count + i];
        middle += place[i] / count;
    }
    const double half = fmax(0.5 * all, 0.5 * (p->y.to - p->y.from));
    if (!ss_figure_spread(place, place + count, count, middle - half, middle + half)) {
        p->sketch.words.failed = true;
        return;
    }
    for (int i = 0; i < count; i++) {
        ss_figure_text(p->sketch.figure, (ss_lettering){SS_FIGURE_LABEL, 0, SS_LETTERS, true},
                       (ss_spot){SS_PAGE_MARGIN + 0.75 * SS_LETTERS, place[i]}, names[i]);
    }
}

static void draw_members(plan *p) {
    const ss_bridge *const bridge = p->sketch.bridge;
    ss_figure *const figure = p->sketch.figure;
    for (int i = 0; i < bridge->floor_beam_count; i++) {
        const ss_floor_beam *const beam = &bridge->floor_beams[i];
        const ss_car *const car = &bridge->cars[beam->car];
        double low = car->y_right;
        double high = car->y_left;
        for (int k = 0; k < car->line_count; k++) {
            const ss_line *const line = &bridge->lines[car->first_line + k];
            if (beam->x >= line->x0 && beam->x <= line->x1) {
                low = fmin(low, line->y);
                high = fmax(high, line->y);
            }
        }
        if (beam->strip == 0.0 && low <= high) {
            ss_figure_line(figure, SS_FIGURE_FLOOR_BEAM, at(p, beam->x, low), at(p, beam->x, high));
        }
    }
    for (int i = 0; i < bridge->line_count; i++) {
        const ss_line *const line = &bridge->lines[i];
        ss_figure_line(figure, role_of(line), at(p, line->x0, line->y), at(p, line->x1, line->y));
    }
}

/* A stretch of a joint, less what ties nothing. */
static void draw_seam(plan *p, const ss_joint *joint) {
    const ss_bridge *const bridge = p->sketch.bridge;
    double x = joint->x0;
    while (x < joint->x1) {
        double end = joint->x1;
        double next = joint->x1;
        for (int i = 0; i < joint->loose_count; i++) {
            const ss_length_range *const loose = &bridge->loose[joint->first_loose + i];
            if (loose->x1 > x && loose->x0 < end) {
                end = fmax(loose->x0, x);
                next = loose->x1;
            }
        }
        if (end > x) {
            ss_figure_line(p->sketch.figure, SS_FIGURE_JOINT, at(p, x, joint->y), at(p, end, joint->y));
        }
        x = fmax(next, end);
    }
}

static void draw_joints(plan *p) {
    const ss_bridge *const bridge = p->sketch.bridge;
    for (int i = 0; i < bridge->joint_count; i++) {
        const ss_joint *const joint = &bridge->joints[i];
        if (joint->kind == SS_JOINT_NONE || joint->slab) {
            continue;
        }
        if (joint->connector_count == 0) {
            draw_seam(p, joint);
        }
        for (int k = 0; k < joint->connector_count; k++) {
            const ss_spot middle = at(p, bridge->connectors[joint->first_connector + k], joint->y);
            ss_figure_line(p->sketch.figure, SS_FIGURE_EDGE_GIRDER, (ss_spot){middle.x, middle.y - 1.0},
                           (ss_spot){middle.x, middle.y + 1.0});
        }
    }
    for (int i = 0; i < 2 && bridge->roadway_right > bridge->roadway_left; i++) {
        const double y = i == 0 ? bridge->roadway_left : bridge->roadway_right;
        ss_figure_line(p->sketch.figure, SS_FIGURE_CURB, at(p, bridge->x0, y), at(p, bridge->x1, y));
    }
}

static void draw_bearings(plan *p) {
    const ss_bridge *const bridge = p->sketch.bridge;
    for (int i = 0; i < bridge->bearing_count; i++) {
        const ss_bearing *const bearing = &bridge->bearings[i];
        const ss_spot middle = at(p, bearing->x, bridge->lines[bearing->line].y);
        const double mm = (p->x.to - p->x.from) / (p->x.high - p->x.low);
        const double half = fmax(HALF_MARK, 0.5 * bearing->pad_width * mm);
        ss_figure_box(p->sketch.figure, bearing->contact ? SS_FIGURE_CONTACT : SS_FIGURE_BEARING,
                      (ss_spot){middle.x - HALF_MARK, middle.y - half},
                      (ss_spot){middle.x + HALF_MARK, middle.y + half});
    }
}

/* Whether a finding is somewhere within its stretch rather than all along it: on the deck, or on several
 * bearing points. */
static bool is_somewhere(const ss_bridge *bridge, const ss_finding *f) {
    bool joint = false;
    for (int i = 0; i < bridge->joint_count; i++) {
        joint = joint || (f->y0 == f->y1 && bridge->joints[i].y == f->y0);
    }
    return f->member == NULL && !joint && (f->x1 > f->x0 || f->y1 > f->y0);
}

/* What was seen: a hatched stretch of a member, an outline on the deck, with its number above the plan. */
static void draw_findings(plan *p) {
    const ss_bridge *const bridge = p->sketch.bridge;
    ss_figure *const figure = p->sketch.figure;
    const int count = bridge->finding_count;
    double *const place = ss_arena_alloc(&p->sketch.report.arena, 2 * (size_t)count, sizeof *place);
    for (int i = 0; place != NULL && i < count; i++) {
        const ss_finding *const f = &bridge->findings[i];
        place[i] = ss_scale_at(&p->x, 0.5 * (f->x0 + f->x1));
        place[count + i] = 5.0;
    }
    const double row = p->y.from - 6.0;
    if (place == NULL || !ss_figure_spread(place, place + count, count, p->x.from, p->x.to)) {
        p->sketch.words.failed = true;
        return;
    }
    for (int i = 0; i < count; i++) {
        const ss_finding *const f = &bridge->findings[i];
        const ss_spot low = at(p, f->x0, f->y0);
        const ss_spot high = at(p, f->x1, f->y1);
        const double beside = f->x1 > f->x0 && f->y1 > f->y0 ? 0.0 : 0.9;
        const ss_spot from = {fmin(low.x, 0.5 * (low.x + high.x) - 0.9), low.y - beside};
        const ss_spot to = {fmax(high.x, 0.5 * (low.x + high.x) + 0.9), high.y + beside};
        if (is_somewhere(bridge, f)) {
            const ss_spot around[] = {from, {to.x, from.y}, to, {from.x, to.y}, from};
            ss_figure_path(figure, SS_FIGURE_FINDING, around, 5);
        } else {
            ss_figure_box(figure, SS_FIGURE_FINDING, from, to);
        }
        const ss_spot lead[] = {
            {place[i], row}, {place[i], p->y.from - 2.5}, {0.5 * (low.x + high.x), from.y}};
        ss_figure_path(figure, SS_FIGURE_FINDING_LEADER, lead, 3);
    }
    for (int i = 0; i < count; i++) {
        ss_sketch_number(&p->sketch, (ss_spot){place[i], row}, i + 1);
    }
}

static void draw_below(plan *p) {
    ss_sketch *const s = &p->sketch;
    const ss_bridge *const bridge = s->bridge;
    ss_pointer *labels = NULL;
    const int count = ss_sketch_stations(s, &p->x, &labels);
    const double right = SS_PAGE_WIDTH - SS_PAGE_MARGIN;
    const ss_axis across = {
        .scale = {ss_sketch_units(s, p->y.low), ss_sketch_units(s, p->y.high), p->y.from, p->y.to, false},
        .upright = true,
        .far_side = true,
        .at = p->x.to + 2.5,
        .grid_to = p->x.to + 2.5,
        .most = 6,
        .title = ss_build_text(&s->words, "y, %s", ss_units_name(SS_DIM_LENGTH, s->report.units))};
    ss_figure_axis(s->figure, &across);
    double down = p->y.to;
    if (count > 0) {
        down = ss_sketch_row(s, labels, count, down + 0.5, p->x.from, right);
    }
    ss_sketch_axis_along(s, fmax(down + 1.0, s->down), p->x.from, p->x.to);
    bool push = false;
    bool both = false;
    for (int i = 0; i < bridge->bearing_count; i++) {
        push = push || bridge->bearings[i].contact;
        both = both || !bridge->bearings[i].contact;
    }
    ss_sketch_paragraph(
        s, 0.0,
        ss_build_text(&s->words,
                      "To one scale along and across. Main girders are heavy lines, edge girders "
                      "medium, stringers thin.%s%s",
                      push ? " Open bearings push and cannot pull." : "",
                      both ? " Filled bearings act both ways." : ""));
    s->down += 1.0;
}

ss_status ss_figure_plan(const ss_results *results, ss_unit_system units, ss_figure *out, ss_error *error) {
    plan p = {.label_count = 0};
    const ss_bridge *const bridge = results->bridge;
    ss_sketch_begin(&p.sketch, results, units, out, "plan");
    ss_sketch_heading(&p.sketch, "Plan, from above");
    collect_labels(&p);
    if (!p.sketch.words.failed) {
        lay_out(&p);
        draw_cars(&p);
        name_cars(&p);
        draw_members(&p);
        draw_joints(&p);
        draw_bearings(&p);
        draw_findings(&p);
        draw_below(&p);
        ss_sketch_findings(&p.sketch, NULL);
    }
    out->text = ss_figure_keep(
        out,
        ss_build_text(
            &p.sketch.words, "%s side by side from above, the first abutment at the left: %s, %s, %s, %s.",
            ss_words_count(&p.sketch.words, bridge->car_count, "car", "cars"),
            ss_words_count(&p.sketch.words, bridge->line_count, "line", "lines"),
            ss_words_count(&p.sketch.words, bridge->joint_count, "joint", "joints"),
            ss_words_count(&p.sketch.words, bridge->bearing_count, "bearing point", "bearing points"),
            ss_words_count(&p.sketch.words, bridge->finding_count, "finding", "findings")));
    return ss_sketch_end(&p.sketch, error);
}
