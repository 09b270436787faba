/* figure_rating.c - the least rating factor along the girders of each car, in bending and in web shear. */
#include <math.h>
#include <string.h>

#include "report/figure_parts.h"
#include "report/report_ratings.h"
#include "report/report_words.h"

/* mm: room for the axis at the left and for labels at the right, height of one car's panel, from panel to
 * panel, what is told above it, a dot. */
#define AXIS_ROOM 15.0
#define LABEL_ROOM 43.0
#define PANEL 44.0
#define BETWEEN 5.0
#define HEAD 10.0
#define DOT 0.9
#define PITCH 3.0
/* mm from another curve that are enough for a label to point to one. */
#define FREE 3.0
/* Factors above that are of no interest, and not drawn. */
#define HIGH 10.0

/* Girders' curves of a car. */
enum { MAIN_BENDING, MAIN_SHEAR, EDGE_BENDING, EDGE_SHEAR, CURVES };
enum { MARKS = 2 }; /* the stringer and the floor beam that rate least */

static const struct {
    ss_figure_role role;
    const char *word;
} looks[CURVES] = {[MAIN_BENDING] = {SS_FIGURE_CURVE_1, "bending"},
                   [MAIN_SHEAR] = {SS_FIGURE_CURVE_2, "shear"},
                   [EDGE_BENDING] = {SS_FIGURE_CURVE_4, "edge girders, bending"},
                   [EDGE_SHEAR] = {SS_FIGURE_CURVE_3, "edge girders, shear"}};

/* The least factor at one x. */
typedef struct place {
    double x, rf;
    int traffic;
    bool tips; /* the bridge, before the section is full */
} place;

typedef struct curve {
    place *places; /* along the bridge */
    int count, least;
} curve;

typedef struct rating {
    ss_sketch sketch;
    const ss_ratings *along;
    ss_method method;
    ss_scale x, y; /* m, and factors on a log scale, to mm */
    curve *curves; /* CURVES of each car */
    int *marks;    /* MARKS of each car: items of the rating; -1: none */
} rating;

static const ss_results *results_of(const rating *r) {
    return r->sketch.words.results;
}

/* Whether an item says if a truck may cross, by the method that comes first. */
static bool counts(const rating *r, const ss_rating_item *item) {
    return results_of(r)->rated->checks[item->check].method == r->method &&
           ss_rated_governs(results_of(r), item->check, item->traffic);
}

/* The curve that a factor belongs to; -1: none. */
static int curve_of(const rating *r, const ss_effect *effect) {
    if (effect->member != SS_MEMBER_LINE) {
        return -1;
    }
    const ss_line *const line = &r->sketch.bridge->lines[effect->index];
    const bool bending = effect->kind == SS_EFFECT_MOMENT;
    switch (line->role) {
    case SS_ROLE_MAIN: return CURVES * line->car + (bending ? MAIN_BENDING : MAIN_SHEAR);
    case SS_ROLE_EXTERIOR: return CURVES * line->car + (bending ? EDGE_BENDING : EDGE_SHEAR);
    case SS_ROLE_STRINGER: break;
    }
    return -1;
}

static void take(curve *to, double x, const ss_rating_item *item) {
    int k = to->count;
    while (k > 0 && to->places[k - 1].x > x - 1e-9) {
        k--;
    }
    if (k == to->count || to->places[k].x > x + 1e-9) {
        memmove(&to->places[k + 1], &to->places[k], (size_t)(to->count - k) * sizeof *to->places);
        to->places[k] = (place){x, item->rf, item->traffic, item->tips};
        to->count++;
    } else if (ss_rated_less(item->rf, to->places[k].rf)) {
        to->places[k] = (place){to->places[k].x, item->rf, item->traffic, item->tips};
    }
}

/* Factors over the length; what the rating itself has found at a place is the surer one. */
static bool collect(rating *r) {
    const ss_bridge *const bridge = r->sketch.bridge;
    ss_arena *const arena = &r->sketch.report.arena;
    const int count = CURVES * bridge->car_count;
    const ss_ratings *const lists[] = {r->along, results_of(r)->rated};
    r->curves = ss_arena_alloc(arena, (size_t)count, sizeof *r->curves);
    for (int i = 0; r->curves != NULL && i < count; i++) {
        r->curves[i].places =
            ss_arena_alloc(arena, (size_t)results_of(r)->mesh->station_count + 1, sizeof(place));
        if (r->curves[i].places == NULL) {
            return false;
        }
    }
    for (int k = 0; r->curves != NULL && k < 2; k++) {
        for (int i = 0; i < lists[k]->count; i++) {
            const ss_rating_item *const item = &lists[k]->items[i];
            const int which = curve_of(r, &item->effect);
            if (which >= 0 && counts(r, item)) {
                take(&r->curves[which], item->effect.at, item);
            }
        }
    }
    for (int i = 0; r->curves != NULL && i < count; i++) {
        curve *const one = &r->curves[i];
        for (int k = 0; k < one->count; k++) {
            one->least = ss_rated_less(one->places[k].rf, one->places[one->least].rf) ? k : one->least;
        }
    }
    return r->curves != NULL;
}

/* In bending or in shear, in its car. */
static bool collect_marks(rating *r) {
    const ss_bridge *const bridge = r->sketch.bridge;
    const ss_ratings *const rated = results_of(r)->rated;
    const size_t count = MARKS * (size_t)bridge->car_count;
    r->marks = ss_arena_alloc(&r->sketch.report.arena, count, sizeof *r->marks);
    if (r->marks == NULL) {
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        r->marks[i] = -1;
    }
    for (int i = 0; i < rated->count; i++) {
        const ss_rating_item *const item = &rated->items[i];
        const ss_effect *const e = &item->effect;
        const bool stringer = e->member == SS_MEMBER_LINE && bridge->lines[e->index].role == SS_ROLE_STRINGER;
        const bool beam = e->member == SS_MEMBER_BEAM && !ss_words_strip(bridge, e->member, e->index);
        if ((!stringer && !beam) || !counts(r, item)) {
            continue;
        }
        int *const best = &r->marks[MARKS * ss_words_car(bridge, e->member, e->index) + beam];
        if (*best < 0 || ss_rated_less(item->rf, rated->items[*best].rf)) {
            *best = i;
        }
    }
    return true;
}

static void set_scales(rating *r) {
    static const double lows[] = {0.5, 0.2, 0.1, 0.05};
    const ss_bridge *const bridge = r->sketch.bridge;
    double least = 1.0;
    for (int i = 0; i < CURVES * bridge->car_count; i++) {
        const curve *const one = &r->curves[i];
        least = one->count == 0 ? least : fmin(least, one->places[one->least].rf);
    }
    for (int i = 0; i < MARKS * bridge->car_count; i++) {
        least = r->marks[i] < 0 ? least : fmin(least, results_of(r)->rated->items[r->marks[i]].rf);
    }
    int k = 0;
    while (k < 3 && lows[k] > 0.95 * least) {
        k++;
    }
    r->y = (ss_scale){lows[k], HIGH, 0.0, 0.0, true};
    r->x = (ss_scale){bridge->x0, bridge->x1, SS_PAGE_MARGIN + AXIS_ROOM,
                      SS_PAGE_WIDTH - SS_PAGE_MARGIN - LABEL_ROOM, false};
}

static double drawn(const rating *r, double rf) {
    return ss_scale_at(&r->y, fmin(fmax(rf, r->y.low), r->y.high));
}

/* Where a curve leaves what is drawn, between a place below the top and one above. */
static ss_spot leave(const rating *r, const place *in, const place *out) {
    const double low = log(fmax(in->rf, r->y.low));
    const double part = (log(HIGH) - low) / (log(fmin(out->rf, 1e3 * HIGH)) - low);
    return (ss_spot){ss_scale_at(&r->x, in->x + part * (out->x - in->x)), r->y.to};
}

/* A curve in pieces below the top of the panel. The last spot of all goes to *end. False: it is all above. */
static bool draw_curve(rating *r, const curve *one, ss_figure_role role, ss_spot *end) {
    ss_spot *const spots = ss_arena_alloc(&r->sketch.report.arena, 2 * (size_t)one->count + 2, sizeof *spots);
    int count = 0;
    bool any = false;
    if (spots == NULL) {
        r->sketch.words.failed = true;
        return false;
    }
    for (int k = 0; k <= one->count; k++) {
        const place *const here = &one->places[k];
        const bool in = k < one->count && here->rf < HIGH;
        if (in) {
            if (count == 0 && k > 0) {
                spots[count++] = leave(r, here, here - 1);
            }
            spots[count++] = (ss_spot){ss_scale_at(&r->x, here->x), drawn(r, here->rf)};
        } else if (count > 0) {
            if (k < one->count) {
                spots[count++] = leave(r, here - 1, here);
            }
            if (count > 1) {
                ss_figure_path(r->sketch.figure, role, spots, count);
            }
            *end = spots[count - 1];
            any = true;
            count = 0;
        }
    }
    return any;
}

/* The factor of a curve at an x, at the nearest place; NaN: it has none. */
static double factor_at(const curve *one, double x) {
    double rf = (double)NAN;
    double least = (double)INFINITY;
    for (int k = 0; k < one->count; k++) {
        if (fabs(one->places[k].x - x) < least) {
            least = fabs(one->places[k].x - x);
            rf = one->places[k].rf;
        }
    }
    return rf;
}

/* Where a label points to a curve: rather at the right, and where no other curve of the car is near. */
static ss_spot point_at(const rating *r, int car, int which, ss_spot end) {
    const curve *const one = &r->curves[CURVES * car + which];
    ss_spot best = end;
    double most = -(double)INFINITY;
    for (int k = 0; k < one->count; k++) {
        const ss_spot spot = {ss_scale_at(&r->x, one->places[k].x), drawn(r, one->places[k].rf)};
        double away = FREE;
        for (int other = 0; other < CURVES; other++) {
            const double rf = factor_at(&r->curves[CURVES * car + other], one->places[k].x);
            away = other == which || isnan(rf) ? away : fmin(away, fabs(drawn(r, rf) - spot.y));
        }
        const double worth = away - FREE / 50.0 * (r->x.to - spot.x);
        if (one->places[k].rf < HIGH && worth > most + 1e-9) {
            most = worth;
            best = spot;
        }
    }
    return best;
}

/* A label at the right of the panel, with what it points to. */
typedef struct tag {
    ss_spot to;
    const char *text;
} tag;

/* The first text that has room. */
static const char *fitting(const char *text, const char *shorter) {
    return ss_figure_text_width(text, SS_LETTERS_SMALL) <= LABEL_ROOM - 6.0 ? text : shorter;
}

static void put_tags(rating *r, const tag *tags, int count) {
    ss_figure *const figure = r->sketch.figure;
    double at[CURVES + MARKS];
    double size[CURVES + MARKS];
    const double left = r->x.to + 5.0;
    for (int i = 0; i < count; i++) {
        at[i] = tags[i].to.y;
        size[i] = PITCH;
    }
    if (!ss_figure_spread(at, size, count, r->y.to - 1.0, r->y.from + 1.0)) {
        r->sketch.words.failed = true;
        return;
    }
    for (int i = 0; i < count; i++) {
        const ss_spot leader[] = {tags[i].to, {r->x.to + 1.5, at[i]}, {left - 0.8, at[i]}};
        ss_figure_path(figure, SS_FIGURE_LEADER, leader, 3);
        ss_figure_text(figure, (ss_lettering){SS_FIGURE_LABEL, 1, SS_LETTERS_SMALL, false},
                       (ss_spot){left, at[i] + 0.35 * SS_LETTERS_SMALL}, tags[i].text);
    }
}

static int tag_curves(rating *r, int car, tag *tags) {
    ss_builder *const b = &r->sketch.words;
    int count = 0;
    for (int k = CURVES - 1; k >= 0; k--) {
        const curve *const one = &r->curves[CURVES * car + k];
        ss_spot end = {0.0, 0.0};
        if (one->count == 0) {
            continue;
        }
        const double least = one->places[one->least].rf;
        if (draw_curve(r, one, looks[k].role, &end)) {
            tags[count++] = (tag){point_at(r, car, k, end), ss_build_text(b, "%s, least %s", looks[k].word,
                                                                          ss_rated_factor(b, least, 2))};
        }
    }
    return count;
}

static int tag_marks(rating *r, int car, tag *tags) {
    const ss_bridge *const bridge = r->sketch.bridge;
    ss_builder *const b = &r->sketch.words;
    int count = 0;
    for (int k = 0; k < MARKS; k++) {
        const int which = r->marks[MARKS * car + k];
        const ss_rating_item *const item = which < 0 ? NULL : &results_of(r)->rated->items[which];
        if (item == NULL || !(item->rf < HIGH)) {
            continue;
        }
        const ss_spot at = {ss_scale_at(&r->x, ss_words_x(bridge, &item->effect)), drawn(r, item->rf)};
        const char *const what = item->effect.kind == SS_EFFECT_MOMENT ? "bending" : "shear";
        const char *const rf = ss_rated_factor(b, item->rf, 2);
        ss_figure_disc(r->sketch.figure, SS_FIGURE_DOT, at, DOT);
        tags[count++] =
            (tag){at, fitting(ss_build_text(b, "%s, %s %s", ss_rated_member(bridge, &item->effect), what, rf),
                              ss_build_text(b, "%s, %s %s", k == 0 ? "stringer" : "floor beam", what, rf))};
    }
    return count;
}

/* What is least of the main girder, above its panel, and a dot there. */
static const char *told(rating *r, int car) {
    ss_builder *const b = &r->sketch.words;
    const char *said = "";
    for (int k = MAIN_BENDING; k <= MAIN_SHEAR; k++) {
        const curve *const one = &r->curves[CURVES * car + k];
        if (one->count == 0 || !isfinite(one->places[one->least].rf)) {
            continue;
        }
        const place *const at = &one->places[one->least];
        said = ss_build_text(b, "%s%s%s %s at %s under %s", said, said[0] == '\0' ? "least " : "; ",
                             at->tips ? "tipping" : looks[k].word, ss_rated_factor(b, at->rf, 2),
                             ss_words_length(b, at->x), ss_words_traffic(b, at->traffic));
        if (at->rf < HIGH) {
            ss_figure_disc(r->sketch.figure, SS_FIGURE_DOT,
                           (ss_spot){ss_scale_at(&r->x, at->x), drawn(r, at->rf)}, DOT);
        }
    }
    return said;
}

static int main_girder(const ss_bridge *bridge, int car) {
    for (int i = bridge->cars[car].first_line;
         i < bridge->cars[car].first_line + bridge->cars[car].line_count; i++) {
        if (bridge->lines[i].role == SS_ROLE_MAIN) {
            return i;
        }
    }
    return bridge->cars[car].first_line;
}

static void draw_car(rating *r, int car) {
    ss_sketch *const sketch = &r->sketch;
    ss_figure *const figure = sketch->figure;
    const double top = sketch->down + HEAD;
    tag tags[CURVES + MARKS];
    r->y.from = top + PANEL;
    r->y.to = top;
    const ss_axis axis = {.scale = r->y,
                          .upright = true,
                          .at = r->x.from,
                          .grid_to = r->x.to,
                          .most = 9,
                          .title = "rating factor, log scale"};
    ss_figure_axis(figure, &axis);
    ss_figure_line(figure, SS_FIGURE_LIMIT_HEAVY, (ss_spot){r->x.from, drawn(r, 1.0)},
                   (ss_spot){r->x.to, drawn(r, 1.0)});
    int count = tag_curves(r, car, tags);
    count += tag_marks(r, car, tags + count);
    const double room = SS_PAGE_WIDTH - SS_PAGE_MARGIN - r->x.from;
    const char *const name =
        ss_build_text(&sketch->words, "car %s: %s and its neighbours", sketch->bridge->cars[car].name,
                      sketch->bridge->lines[main_girder(sketch->bridge, car)].whole);
    ss_figure_text(figure,
                   (ss_lettering){SS_FIGURE_LABEL, 1, ss_sketch_fitting(name, SS_LETTERS, room), false},
                   (ss_spot){r->x.from, top - 5.8}, name);
    const char *const said = told(r, car);
    ss_figure_text(figure,
                   (ss_lettering){SS_FIGURE_LABEL, 1, ss_sketch_fitting(said, SS_LETTERS_SMALL, room), false},
                   (ss_spot){r->x.from, top - 2.2}, said);
    put_tags(r, tags, count);
    ss_sketch_wedges(sketch, &r->x, r->y.from, main_girder(sketch->bridge, car));
    sketch->down = top + PANEL + BETWEEN;
}

static void say(rating *r) {
    ss_builder *const b = &r->sketch.words;
    ss_sketch_paragraph(
        &r->sketch, 0.0,
        ss_build_text(
            b,
            "The least factor at each place by the checks of %s that decide, under the truck that "
            "each girder rates least under, wherever that is worst. Heavy line: main girder in bending; "
            "dashed: in web shear; thin and dotted: "
            "the lesser of the edge girders; dots elsewhere: the stringer and the floor beam that rate "
            "least. At 1.0, the red line, a truck just passes. Factors above %s are not drawn; where the "
            "bridge tips first, that is the factor.",
            ss_method_name(r->method), ss_words_decimals(b, HIGH, 0)));
}

static void draw(rating *r) {
    const ss_bridge *const bridge = r->sketch.bridge;
    if (!collect(r) || !collect_marks(r)) {
        r->sketch.words.failed = true;
        return;
    }
    set_scales(r);
    for (int i = 0; i < bridge->car_count; i++) {
        draw_car(r, i);
    }
    ss_sketch_axis_along(&r->sketch, r->sketch.down, r->x.from, r->x.to);
    say(r);
}

ss_status ss_figure_rating(const ss_results *results, ss_unit_system units, ss_figure *out, ss_error *error) {
    rating r = {.along = results->rated_along};
    ss_method methods[3];
    ss_sketch_begin(&r.sketch, results, units, out, "rating");
    ss_sketch_heading(&r.sketch, "Rating along the bridge");
    if (results->rated == NULL || r.along == NULL || ss_rated_methods(results->rated, methods) == 0) {
        ss_sketch_paragraph(&r.sketch, 0.0, "Nothing was rated.");
    } else {
        r.method = methods[0];
        draw(&r);
    }
    out->text = ss_figure_keep(
        out,
        "The least rating factor at each place along the girders of each car, in bending and in web shear.");
    return ss_sketch_end(&r.sketch, error);
}
