/* figure_influence.c - the influence surface of one effect as lines of equal values over the plan. */
#include <math.h>
#include <string.h>

#include "report/figure_contour.h"
#include "report/figure_parts.h"
#include "report/report_ratings.h"
#include "report/report_words.h"
#include "sillspan/influence_grid.h"

/* mm: from the labels to the bridge, room for the axis at the right, half a bearing, half of a cross. */
#define TO_LABELS 9.0
#define AXIS_ROOM 14.0
#define HALF_MARK 0.7
#define CROSS 1.8

enum { WANTED = 11 }; /* lines of equal values, about */

typedef struct surface {
    ss_sketch sketch;
    ss_effect effect;
    ss_influence_grid made;
    ss_field_grid grid; /* mm, and the values in the units of the figure */
    ss_scale x, y;
    double force;   /* N of what stands on the bridge */
    double per_one; /* from the surface's values to those of the figure */
    const char *unit;
    double step;
    int decimals;
} surface;

/* ---- what is drawn -------------------------------------------------------------------------------- */

/* Moments and shears stand for a unit of force; deflections would have too many zeros. */
static void set_units(surface *s) {
    ss_builder *const b = &s->sketch.words;
    const ss_unit_system units = s->sketch.report.units;
    const ss_dimension dimension = ss_words_dimension(s->sketch.bridge, &s->effect);
    const double many = dimension == SS_DIM_SMALL_LENGTH ? (units == SS_UNITS_SI ? 100.0 : 10.0) : 1.0;
    s->force = ss_units_to_si(many, SS_DIM_FORCE, units);
    s->per_one = ss_units_from_si(s->force, dimension, units);
    s->unit = ss_build_text(b, "%s for %s", ss_units_name(dimension, units),
                            ss_words_quantity(b, s->force, SS_DIM_FORCE, 3));
}

static void extremes(const surface *s, double *low, double *high, int at[2]) {
    const int count = s->made.nx * s->made.ny;
    *low = (double)INFINITY;
    *high = -(double)INFINITY;
    for (int i = 0; i < count; i++) {
        const double value = s->grid.value[i];
        if (value < *low) {
            *low = value;
            at[0] = i;
        }
        if (value > *high) {
            *high = value;
            at[1] = i;
        }
    }
}

/* 1, 2 or 5 times a power of ten from line to line. */
static void set_step(surface *s, double low, double high) {
    const double rough = fmax(high - low, 1e-300) / WANTED;
    const double power = pow(10.0, floor(log10(rough)));
    const double times = rough / power;
    s->step = power * (times <= 1.0 ? 1.0 : times <= 2.0 ? 2.0 : times <= 5.0 ? 5.0 : 10.0);
    s->decimals = (int)fmin(fmax(-floor(log10(s->step) + 1e-9), 0.0), 6.0);
}

/* The plan to one scale both ways, and the values in the figure's units. */
static bool lay_out(surface *s, double widest) {
    ss_influence_grid *const made = &s->made;
    const ss_bridge *const bridge = s->sketch.bridge;
    ss_arena *const arena = &s->sketch.report.arena;
    const double from = SS_PAGE_MARGIN + fmin(widest, 50.0) + TO_LABELS;
    const double to = SS_PAGE_WIDTH - SS_PAGE_MARGIN - AXIS_ROOM;
    const double high = made->y[made->ny - 1];
    const double top = s->sketch.down + 4.0;
    const double height = (high - made->y[0]) * (to - from) / (bridge->x1 - bridge->x0);
    const size_t count = (size_t)made->nx * (size_t)made->ny;
    double *const x = ss_arena_alloc(arena, (size_t)made->nx, sizeof *x);
    double *const y = ss_arena_alloc(arena, (size_t)made->ny, sizeof *y);
    double *const value = ss_arena_alloc(arena, count, sizeof *value);
    if (x == NULL || y == NULL || value == NULL) {
        return false;
    }
    s->x = (ss_scale){bridge->x0, bridge->x1, from, to, false};
    s->y = (ss_scale){made->y[0], high, top, top + height, false};
    for (int i = 0; i < made->nx; i++) x[i] = ss_scale_at(&s->x, made->x[i]);
    for (int i = 0; i < made->ny; i++) y[i] = ss_scale_at(&s->y, made->y[i]);
    for (size_t i = 0; i < count; i++) value[i] = made->value[i] * s->per_one;
    s->grid = (ss_field_grid){made->nx, made->ny, x, y, value};
    return true;
}

static ss_spot at(const surface *s, double x, double y) {
    return (ss_spot){ss_scale_at(&s->x, x), ss_scale_at(&s->y, y)};
}

/* Lines that carry along are named at the left. */
static int collect_labels(surface *s, ss_pointer **out, double *widest) {
    const ss_bridge *const bridge = s->sketch.bridge;
    int count = 0;
    ss_pointer *const made =
        ss_arena_alloc(&s->sketch.report.arena, (size_t)bridge->line_count, sizeof *made);
    s->sketch.words.failed = s->sketch.words.failed || made == NULL;
    for (int i = 0; made != NULL && i < bridge->line_count; i++) {
        const ss_line *const line = &bridge->lines[i];
        const bool again = i > 0 && line[-1].car == line->car && strcmp(line[-1].whole, line->whole) == 0;
        if (line->role != SS_ROLE_STRINGER && !again) {
            made[count] = (ss_pointer){
                .at = line->y,
                .text = ss_build_text(&s->sketch.words, "%s, %s", bridge->cars[line->car].name, line->whole)};
            *widest = fmax(*widest, ss_figure_text_width(made[count].text, SS_LETTERS_SMALL));
            count++;
        }
    }
    *out = made;
    return count;
}

static void draw_ground(surface *s) {
    const ss_bridge *const bridge = s->sketch.bridge;
    ss_figure *const figure = s->sketch.figure;
    for (int i = 0; i < bridge->line_count; i++) {
        const ss_line *const line = &bridge->lines[i];
        ss_figure_line(figure, line->role == SS_ROLE_STRINGER ? SS_FIGURE_GRID : SS_FIGURE_LEADER,
                       at(s, line->x0, line->y), at(s, line->x1, line->y));
    }
    for (int i = 0; i < bridge->car_count; i++) {
        const ss_car *const car = &bridge->cars[i];
        ss_figure_box(figure, SS_FIGURE_OUTLINE, at(s, car->x0, car->y_left), at(s, car->x1, car->y_right));
    }
    if (bridge->roadway_right > bridge->roadway_left) {
        for (int i = 0; i < 2; i++) {
            const double y = i == 0 ? bridge->roadway_left : bridge->roadway_right;
            ss_figure_line(figure, SS_FIGURE_CURB, at(s, bridge->x0, y), at(s, bridge->x1, y));
        }
    }
}

/* ---- around it ------------------------------------------------------------------------------------ */

/* Whether dead load leaves a bearing open. */
static bool is_open(const surface *s, int bearing) {
    const ss_mesh *const mesh = s->sketch.words.results->mesh;
    for (int i = 0; i < mesh->spring_count; i++) {
        if (mesh->spring[i].owner == SS_MEMBER_BEARING && mesh->spring[i].index == bearing &&
            s->made.open[i]) {
            return true;
        }
    }
    return false;
}

static ss_spot place_of(const surface *s) {
    const ss_bridge *const bridge = s->sketch.bridge;
    const ss_effect *const e = &s->effect;
    const double x = e->member == SS_MEMBER_JOINT ? e->at : ss_words_x(bridge, e);
    const double y = e->member == SS_MEMBER_LINE    ? bridge->lines[e->index].y
                     : e->member == SS_MEMBER_BEAM  ? e->at
                     : e->member == SS_MEMBER_JOINT ? bridge->joints[e->index].y
                                                    : bridge->lines[bridge->bearings[e->index].line].y;
    return at(s, x, y);
}

/* Marks on the plan: bearings, and the place that it is of. */
static ss_spot *marks_of(surface *s) {
    const ss_bridge *const bridge = s->sketch.bridge;
    ss_spot *const spots =
        ss_arena_alloc(&s->sketch.report.arena, (size_t)bridge->bearing_count + 1, sizeof *spots);
    for (int i = 0; spots != NULL && i < bridge->bearing_count; i++) {
        spots[i] = at(s, bridge->bearings[i].x, bridge->lines[bridge->bearings[i].line].y);
    }
    if (spots != NULL) {
        spots[bridge->bearing_count] = place_of(s);
    }
    return spots;
}

/* Bearings that carry as small boxes, those that are open crossed out; and the place of the effect. */
static void draw_points(surface *s) {
    const ss_bridge *const bridge = s->sketch.bridge;
    ss_figure *const figure = s->sketch.figure;
    for (int i = 0; i < bridge->bearing_count; i++) {
        const ss_bearing *const bearing = &bridge->bearings[i];
        const ss_spot p = at(s, bearing->x, bridge->lines[bearing->line].y);
        if (is_open(s, i)) {
            ss_figure_line(figure, SS_FIGURE_AXIS, (ss_spot){p.x - HALF_MARK, p.y - HALF_MARK},
                           (ss_spot){p.x + HALF_MARK, p.y + HALF_MARK});
            ss_figure_line(figure, SS_FIGURE_AXIS, (ss_spot){p.x - HALF_MARK, p.y + HALF_MARK},
                           (ss_spot){p.x + HALF_MARK, p.y - HALF_MARK});
        } else {
            ss_figure_box(figure, bearing->contact ? SS_FIGURE_CONTACT : SS_FIGURE_BEARING,
                          (ss_spot){p.x - HALF_MARK, p.y - HALF_MARK},
                          (ss_spot){p.x + HALF_MARK, p.y + HALF_MARK});
        }
    }
    const ss_spot middle = place_of(s);
    ss_figure_line(figure, SS_FIGURE_PLACE, (ss_spot){middle.x - CROSS, middle.y},
                   (ss_spot){middle.x + CROSS, middle.y});
    ss_figure_line(figure, SS_FIGURE_PLACE, (ss_spot){middle.x, middle.y - CROSS},
                   (ss_spot){middle.x, middle.y + CROSS});
}

static void draw_axes(surface *s) {
    ss_sketch *const sketch = &s->sketch;
    const ss_axis across = {
        .scale = {ss_sketch_units(sketch, s->y.low), ss_sketch_units(sketch, s->y.high), s->y.from, s->y.to,
                  false},
        .upright = true,
        .far_side = true,
        .at = s->x.to + 2.5,
        .grid_to = s->x.to + 2.5,
        .most = 6,
        .title = ss_build_text(&sketch->words, "y, %s", ss_units_name(SS_DIM_LENGTH, sketch->report.units))};
    ss_figure_axis(sketch->figure, &across);
    ss_sketch_axis_along(sketch, fmax(s->y.to + 2.0, sketch->down), s->x.from, s->x.to);
}

static const char *name_of(surface *s) {
    ss_builder *const b = &s->sketch.words;
    const ss_effect *const e = &s->effect;
    const char *const place = ss_words_place(b, e);
    const char *const what = e->kind == SS_EFFECT_DEFLECTION ? "deflection"
                             : e->kind == SS_EFFECT_REACTION ? "reaction"
                             : e->kind == SS_EFFECT_TORSION  ? "torsion"
                                                             : ss_words_failure(e->kind);
    return ss_build_text(b, "%s of %s%s%s", what, ss_words_the_member(b, e->member, e->index),
                         place[0] == '\0' ? "" : " ", place);
}

static void say(surface *s, double low, double high, const int where[2]) {
    ss_builder *const b = &s->sketch.words;
    const ss_bridge *const bridge = s->sketch.bridge;
    int open = 0;
    const char *which = "";
    for (int i = 0; i < bridge->bearing_count; i++) {
        if (is_open(s, i)) {
            open++;
            which = ss_build_text(b, "%s%s%s", which, which[0] == '\0' ? "" : "; ",
                                  ss_words_member(b, SS_MEMBER_BEARING, i));
        }
    }
    const char *const most = ss_words_decimals(b, high, s->decimals + 1);
    const char *const least = ss_words_decimals(b, low, s->decimals + 1);
    ss_sketch_paragraph(
        &s->sketch, 0.0,
        ss_build_text(
            b,
            "Lines of equal %s, in %s that stands there: solid above zero, heavy at zero, dashed below. "
            "Most %s at x %s, y %s; least %s at x %s, y %s. The red cross is the place that it is of.",
            name_of(s), s->unit, most, ss_words_length(b, s->made.x[where[1] / s->made.ny]),
            ss_words_length(b, s->made.y[where[1] % s->made.ny]), least,
            ss_words_length(b, s->made.x[where[0] / s->made.ny]),
            ss_words_length(b, s->made.y[where[0] % s->made.ny])));
    if (open == 0) {
        ss_sketch_paragraph(&s->sketch, 0.0,
                            "All bearings carry under dead load and count as closed. A truck that lifts one, "
                            "or several at once, changes the surface.");
    } else {
        ss_sketch_paragraph(
            &s->sketch, 0.0,
            ss_build_text(
                b,
                "With the bearings as dead load leaves them: open, and crossed out, %s. A truck that "
                "closes or lifts a bearing changes the surface.",
                which));
    }
}

static ss_status draw(surface *s, ss_error *error) {
    ss_pointer *labels = NULL;
    double widest = 0.0;
    double low = 0.0;
    double high = 0.0;
    int where[2] = {0, 0};
    const ss_status status =
        ss_influence_grid_compute(s->sketch.words.results->permanent, &s->effect, &s->made, error);
    if (status != SS_OK) {
        return status;
    }
    const char *const name = name_of(s);
    const int count = collect_labels(s, &labels, &widest);
    set_units(s);
    ss_sketch_paragraph(&s->sketch, 0.0, ss_build_text(&s->sketch.words, "%s, %s", name, s->unit));
    if (s->sketch.words.failed || !lay_out(s, widest)) {
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the figure");
    }
    extremes(s, &low, &high, where);
    set_step(s, fmin(low, 0.0), fmax(high, 0.0));
    const ss_spot *const marks = marks_of(s);
    if (marks == NULL) {
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the figure");
    }
    draw_ground(s);
    ss_contours_draw(&s->sketch, &(ss_contour_plan){.grid = s->grid,
                                                    .box = {s->x.from, s->y.from, s->x.to, s->y.to},
                                                    .low = fmin(low, 0.0),
                                                    .high = fmax(high, 0.0),
                                                    .step = s->step,
                                                    .decimals = s->decimals,
                                                    .avoid = marks,
                                                    .avoid_count = s->sketch.bridge->bearing_count + 1});
    draw_points(s);
    for (int i = 0; i < count; i++) {
        labels[i].at = ss_scale_at(&s->y, labels[i].at);
    }
    const double more = fmax(0.0, 0.5 * (3.0 * count - (s->y.to - s->y.from)));
    ss_sketch_column(&s->sketch, labels, count, s->x.from - TO_LABELS, s->x.from, s->y.from - fmin(more, 2.0),
                     s->y.to + more);
    s->sketch.down = s->y.to + fmax(0.0, more - 3.0);
    draw_axes(s);
    say(s, low, high, where);
    return SS_OK;
}

/* What was asked for, else what governs the rating. False: there is nothing. */
static bool pick(surface *s) {
    const ss_results *const results = s->sketch.words.results;
    if (results->influence != NULL) {
        s->effect = *results->influence;
        return true;
    }
    const int item = results->rated == NULL ? -1 : ss_rated_controlling(results);
    if (item >= 0) {
        s->effect = results->rated->items[item].effect;
    }
    return item >= 0;
}

ss_status ss_figure_influence(const ss_results *results, ss_unit_system units, ss_figure *out,
                              ss_error *error) {
    surface s = {.decimals = 0};
    ss_status status = SS_OK;
    ss_sketch_begin(&s.sketch, results, units, out, "influence");
    ss_sketch_heading(&s.sketch, "Influence surface");
    if (pick(&s)) {
        status = draw(&s, error);
        out->text = ss_figure_keep(out, status != SS_OK
                                            ? ""
                                            : ss_build_text(&s.sketch.words,
                                                            "Where on the deck a load causes how much %s.",
                                                            name_of(&s)));
    } else {
        ss_sketch_paragraph(&s.sketch, 0.0, "Nothing was rated, and no effect was asked for.");
        out->text = ss_figure_keep(out, "No influence surface.");
    }
    ss_influence_grid_destroy(&s.made);
    if (status != SS_OK) {
        s.sketch.words.failed = true;
        (void)ss_sketch_end(&s.sketch, NULL);
        return status;
    }
    return ss_sketch_end(&s.sketch, error);
}
