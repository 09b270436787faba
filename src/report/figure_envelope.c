/* figure_envelope.c - bending, shear or deflection along girders, with what resists it behind. */
#include <math.h>
#include <string.h>

#include "assess/rating_sections.h"
#include "report/figure_parts.h"
#include "report/report_parts.h"
#include "report/report_words.h"

/* mm: room for the axis at the left, height of one girder's panel, from panel to panel, two lines above it, a
 * dot. */
#define AXIS_ROOM 17.0
#define PANEL 34.0
#define BETWEEN 4.0
#define HEAD 9.5
#define DOT 0.9
/* Resistances beyond this many times the effects would leave the effects flat, and are told of instead. */
#define FAR 3.0

enum { SIDES = 2 }; /* least, most */
enum { ROLES = 3 };

/* Lines of one role have one scale, so that they compare. */
typedef struct role_scale {
    double low, high; /* units of the figure */
    double weakest;   /* least resistance; INFINITY: none is known */
    bool shows_resistance, used;
} role_scale;

typedef struct stretch {
    ss_sketch sketch;
    ss_effect_kind kind;
    const char *word; /* "bending" */
    ss_dimension dimension;
    const ss_range *ranges;
    ss_rated_list resist; /* against hogging and sagging */
    ss_scale x;           /* m to mm */
    ss_scale y;           /* units of the figure to mm, of the panel at hand */
    role_scale scales[ROLES];
    int *order; /* effects of the girder at hand, along it */
    int count;
} stretch;

static double units(const stretch *s, double value) {
    return ss_units_from_si(value, s->dimension, s->sketch.report.units);
}

static ss_spot at(const stretch *s, double x, double value) {
    return (ss_spot){ss_scale_at(&s->x, x), ss_scale_at(&s->y, units(s, value))};
}

static const ss_envelope *envelope_of(const stretch *s) {
    return s->sketch.words.results->envelope;
}

/* What was computed for figures is drawn; of an envelope of everything the main girders are. */
static bool is_drawn(const stretch *s, const ss_effect *effect) {
    return effect->member == SS_MEMBER_LINE && effect->kind == s->kind &&
           (s->sketch.words.results->along != NULL ||
            s->sketch.bridge->lines[effect->index].role == SS_ROLE_MAIN);
}

/* Effects of this kind on parts of the girder that line `first` belongs to, along it. */
static bool gather(stretch *s, int first) {
    const ss_bridge *const bridge = s->sketch.bridge;
    const ss_envelope *const envelope = envelope_of(s);
    const ss_line *const girder = &bridge->lines[first];
    s->count = 0;
    if (first > 0 && girder[-1].car == girder->car && strcmp(girder[-1].whole, girder->whole) == 0) {
        return false;
    }
    for (int i = 0; i < envelope->effect_count; i++) {
        const ss_effect *const e = &envelope->effects[i];
        if (!is_drawn(s, e) || bridge->lines[e->index].car != girder->car ||
            strcmp(bridge->lines[e->index].whole, girder->whole) != 0) {
            continue;
        }
        int k = s->count++;
        for (; k > 0; k--) {
            const ss_effect *const before = &envelope->effects[s->order[k - 1]];
            if (before->at < e->at - 1e-9 || (before->at <= e->at + 1e-9 && (before->before || !e->before))) {
                break;
            }
            s->order[k] = s->order[k - 1];
        }
        s->order[k] = i;
    }
    return s->count > 0;
}

/* The resistance at an effect of the envelope against values of one sign; NaN: not known. */
static double resistance(const stretch *s, const ss_effect *effect, int side) {
    for (int i = 0; i < s->resist.count; i++) {
        const ss_rated *const rated = &s->resist.items[i];
        if (rated->effect.index != effect->index || rated->effect.before != effect->before ||
            fabs(rated->effect.at - effect->at) > 1e-9) {
            continue;
        }
        for (int k = 0; k < SS_STRENGTH_COUNT; k++) {
            if (!isnan(rated->nominal[k][side].value)) {
                return rated->nominal[k][side].value;
            }
        }
    }
    return (double)NAN;
}

/* Web shear is resisted alike at the same places; deflection is not resisted. */
static ss_status find_resistances(stretch *s, ss_error *error) {
    const ss_results *const results = s->sketch.words.results;
    const ss_envelope *const envelope = results->envelope;
    ss_arena *const arena = &s->sketch.report.arena;
    ss_rating_notes notes = {.arena = arena};
    ss_effect *const asked = ss_arena_alloc(arena, (size_t)envelope->effect_count, sizeof *asked);
    int count = 0;
    if (s->kind == SS_EFFECT_DEFLECTION) {
        return SS_OK;
    }
    if (asked == NULL) {
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the figure");
    }
    for (int i = 0; i < envelope->effect_count; i++) {
        if (is_drawn(s, &envelope->effects[i])) {
            asked[count] = envelope->effects[i];
            asked[count++].kind = s->kind == SS_EFFECT_SHEAR ? SS_EFFECT_WEB_PLUS : s->kind;
        }
    }
    return ss_rated_list_build(results->permanent, asked, count, false, &notes, &s->resist, error);
}

static void scale_values(stretch *s, ss_role role) {
    const ss_envelope *const envelope = envelope_of(s);
    role_scale *const scale = &s->scales[role];
    double resist[SIDES] = {0.0, 0.0};
    *scale = (role_scale){.weakest = (double)INFINITY};
    for (int i = 0; i < envelope->effect_count; i++) {
        const ss_effect *const e = &envelope->effects[i];
        if (!is_drawn(s, e) || s->sketch.bridge->lines[e->index].role != role) {
            continue;
        }
        scale->used = true;
        scale->low = fmin(scale->low, units(s, s->ranges[i].dead + fmin(s->ranges[i].value[0], 0.0)));
        scale->high = fmax(scale->high, units(s, s->ranges[i].dead + fmax(s->ranges[i].value[1], 0.0)));
        for (int side = 0; side < SIDES; side++) {
            const double value = units(s, resistance(s, e, side));
            if (!isnan(value)) {
                resist[side] = fmax(resist[side], value);
                scale->weakest = fmin(scale->weakest, value);
            }
        }
    }
    scale->shows_resistance =
        isfinite(scale->weakest) && fmax(resist[0], resist[1]) <= FAR * fmax(scale->high, -scale->low);
    if (scale->shows_resistance) {
        scale->low = fmin(scale->low, -resist[0]);
        scale->high = fmax(scale->high, resist[1]);
    }
    ss_scale_round(&scale->low, &scale->high, 7);
}

/* What resists, as a range behind the curves, with its borders. */
static void draw_resistance(stretch *s) {
    const ss_envelope *const envelope = envelope_of(s);
    ss_spot *const around = ss_arena_alloc(&s->sketch.report.arena, 2 * (size_t)s->count, sizeof *around);
    int count = 0;
    int half = 0;
    if (around == NULL) {
        s->sketch.words.failed = true;
        return;
    }
    /* There against hogging, and back against sagging. */
    for (int k = 0; k < 2 * s->count; k++) {
        const bool back = k >= s->count;
        const ss_effect *const e = &envelope->effects[s->order[back ? 2 * s->count - 1 - k : k]];
        const double value = resistance(s, e, back ? 1 : 0);
        if (!isnan(value)) {
            around[count++] = at(s, e->at, back ? value : -value);
            half += !back;
        }
    }
    if (half >= 2 && count - half >= 2) {
        ss_figure_area(s->sketch.figure, SS_FIGURE_BAND, around, count);
        ss_figure_path(s->sketch.figure, SS_FIGURE_LIMIT, around, half);
        ss_figure_path(s->sketch.figure, SS_FIGURE_LIMIT, around + half, count - half);
    }
}

static double value_of(const stretch *s, int which, int curve) {
    const ss_range *const range = &s->ranges[s->order[which]];
    return range->dead + (curve == 2   ? 0.0
                          : curve == 1 ? fmax(range->value[1], 0.0)
                                       : fmin(range->value[0], 0.0));
}

/* Dead load alone, and with the least and the most that a truck adds; dots at both extremes, told above. */
static void draw_curves(stretch *s) {
    ss_builder *const b = &s->sketch.words;
    const char *said = "";
    const ss_envelope *const envelope = envelope_of(s);
    ss_spot *const points = ss_arena_alloc(&s->sketch.report.arena, (size_t)s->count, sizeof *points);
    const ss_figure_role roles[] = {SS_FIGURE_CURVE_2, SS_FIGURE_CURVE_1, SS_FIGURE_CURVE_4};
    if (points == NULL) {
        s->sketch.words.failed = true;
        return;
    }
    for (int curve = 2; curve >= 0; curve--) {
        int peak = 0;
        for (int k = 0; k < s->count; k++) {
            const double value = value_of(s, k, curve);
            const double highest = value_of(s, peak, curve);
            points[k] = at(s, envelope->effects[s->order[k]].at, value);
            /* The first of equals, so that mirror images do not flicker. */
            const double edge = 1e-9 * fabs(highest);
            peak = (curve == 1 ? value > highest + edge : value < highest - edge) ? k : peak;
        }
        ss_figure_path(s->sketch.figure, roles[curve], points, s->count);
        const ss_range *const range = &s->ranges[s->order[peak]];
        if (curve == 2 || range->traffic[curve] < 0) {
            continue;
        }
        ss_figure_disc(s->sketch.figure, SS_FIGURE_DOT, points[peak], DOT);
        said = ss_build_text(b, "%s%s%s %s at %s with %s", said, said[0] == '\0' ? "" : "; ",
                             curve == 1 ? "most" : "least",
                             ss_words_quantity(b, value_of(s, peak, curve), s->dimension, 3),
                             ss_words_length(b, envelope->effects[s->order[peak]].at),
                             ss_words_traffic(b, range->traffic[curve]));
    }
    ss_figure_text(s->sketch.figure,
                   (ss_lettering){SS_FIGURE_LABEL, 1,
                                  ss_sketch_fitting(said, SS_LETTERS_SMALL, s->x.to - s->x.from), false},
                   (ss_spot){s->x.from, fmin(s->y.from, s->y.to) - 2.0}, said);
}

static void draw_girder(stretch *s, int girder) {
    const ss_bridge *const bridge = s->sketch.bridge;
    ss_sketch *const sketch = &s->sketch;
    const double top = sketch->down + HEAD;
    const bool down = s->kind == SS_EFFECT_DEFLECTION;
    const role_scale *const scale = &s->scales[bridge->lines[girder].role];
    s->y.low = scale->low;
    s->y.high = scale->high;
    s->y.from = down ? top : top + PANEL;
    s->y.to = down ? top + PANEL : top;
    ss_figure_text(sketch->figure, (ss_lettering){SS_FIGURE_LABEL, 1, SS_LETTERS, false},
                   (ss_spot){s->x.from, top - 5.6},
                   ss_build_text(&sketch->words, "%s of car %s", bridge->lines[girder].whole,
                                 bridge->cars[bridge->lines[girder].car].name));
    if (scale->shows_resistance) {
        draw_resistance(s);
    }
    const ss_axis axis = {.scale = s->y,
                          .upright = true,
                          .at = s->x.from,
                          .grid_to = s->x.to,
                          .most = 7,
                          .title = ss_build_text(&sketch->words, down ? "%s down, %s" : "%s, %s", s->word,
                                                 ss_units_name(s->dimension, sketch->report.units))};
    ss_figure_axis(sketch->figure, &axis);
    ss_figure_line(sketch->figure, SS_FIGURE_AXIS, at(s, bridge->x0, 0.0), at(s, bridge->x1, 0.0));
    draw_curves(s);
    ss_sketch_wedges(sketch, &s->x, at(s, bridge->x0, 0.0).y, girder);
    sketch->down = top + PANEL + BETWEEN;
}

/* What resists lines of a role, where it is not drawn. */
static void say_resistance(stretch *s, ss_role role) {
    static const char *const names[ROLES] = {[SS_ROLE_MAIN] = "main girders",
                                             [SS_ROLE_EXTERIOR] = "edge girders",
                                             [SS_ROLE_STRINGER] = "stringers"};
    const role_scale *const scale = &s->scales[role];
    ss_builder *const b = &s->sketch.words;
    if (!scale->used || scale->shows_resistance || s->kind == SS_EFFECT_DEFLECTION) {
        return;
    }
    if (isfinite(scale->weakest)) {
        ss_sketch_paragraph(
            &s->sketch, 0.0,
            ss_build_text(
                b, "The resistance of the %s lies beyond the figure: %s or more.", names[role],
                ss_words_quantity(b, ss_units_to_si(scale->weakest, s->dimension, s->sketch.report.units),
                                  s->dimension, 3)));
    } else {
        ss_sketch_paragraph(
            &s->sketch, 0.0,
            ss_build_text(b, "What the %s resist is not known from the description.", names[role]));
    }
}

static void say(stretch *s) {
    ss_builder *const b = &s->sketch.words;
    int used = 0;
    bool shown = false;
    for (int role = 0; role < ROLES; role++) {
        used += s->scales[role].used;
        shown = shown || s->scales[role].shows_resistance;
    }
    ss_sketch_paragraph(
        &s->sketch, 0.0,
        ss_build_text(b,
                      "Heavy line: dead load and the most that one truck adds. Dashed: the least. Thin: dead "
                      "load alone. Without load factors and dynamic allowance.%s",
                      used > 1 ? " Main girders, edge girders and stringers each have a scale of their own."
                               : ""));
    if (shown) {
        ss_sketch_paragraph(
            &s->sketch, 0.0,
            ss_build_text(b,
                          "Behind, within the red line: what the girder resists in %s, nominal, "
                          "without resistance factors. How near a curve comes to it is no rating.",
                          s->kind == SS_EFFECT_SHEAR ? "web shear, torsion left out" : s->word));
    }
    for (int role = 0; role < ROLES; role++) {
        say_resistance(s, (ss_role)role);
    }
}

/* "along the main girders", or along what is drawn. */
static const char *title_of(stretch *s, const char *what) {
    const ss_bridge *const bridge = s->sketch.bridge;
    ss_builder *const b = &s->sketch.words;
    bool roles[ROLES] = {false, false, false};
    int count = 0;
    int last = 0;
    for (int i = 0; i < bridge->line_count; i++) {
        if (gather(s, i)) {
            roles[bridge->lines[i].role] = true;
            count++;
            last = i;
        }
    }
    if (count == 1) {
        return ss_build_text(b, "%s of %s of car %s", what, bridge->lines[last].whole,
                             bridge->cars[bridge->lines[last].car].name);
    }
    return ss_build_text(b, "%s along the %s", what,
                         roles[SS_ROLE_STRINGER]   ? "lines"
                         : roles[SS_ROLE_EXTERIOR] ? "girders"
                                                   : "main girders");
}

static ss_status draw(stretch *s, const char *what, ss_error *error) {
    const ss_bridge *const bridge = s->sketch.bridge;
    s->ranges = ss_ranges(&s->sketch.words);
    s->order =
        ss_arena_alloc(&s->sketch.report.arena, (size_t)envelope_of(s)->effect_count, sizeof *s->order);
    if (s->ranges == NULL || s->order == NULL) {
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the figure");
    }
    ss_sketch_heading(&s->sketch, title_of(s, what));
    const ss_status status = find_resistances(s, error);
    if (status != SS_OK) {
        return status;
    }
    s->x =
        (ss_scale){bridge->x0, bridge->x1, SS_PAGE_MARGIN + AXIS_ROOM, SS_PAGE_WIDTH - SS_PAGE_MARGIN, false};
    for (int role = 0; role < ROLES; role++) {
        scale_values(s, (ss_role)role);
    }
    for (int i = 0; i < bridge->line_count; i++) {
        if (gather(s, i)) {
            draw_girder(s, i);
        }
    }
    ss_sketch_axis_along(&s->sketch, s->sketch.down, s->x.from, s->x.to);
    say(s);
    return SS_OK;
}

/* What the three have in common. */
static ss_status make(stretch *s, const ss_results *results, ss_unit_system units_of, ss_figure *out,
                      ss_error *error) {
    static const struct {
        ss_effect_kind kind;
        const char *key, *word, *title;
    } kinds[] = {{SS_EFFECT_MOMENT, "moment", "bending", "Bending moment"},
                 {SS_EFFECT_SHEAR, "shear", "shear", "Shear"},
                 {SS_EFFECT_DEFLECTION, "deflection", "deflection", "Deflection"}};
    ss_results own = *results;
    own.envelope = own.along != NULL ? own.along : own.envelope;
    int which = 0;
    while (kinds[which].kind != s->kind) {
        which++;
    }
    ss_sketch_begin(&s->sketch, &own, units_of, out, kinds[which].key);
    s->word = kinds[which].word;
    s->dimension = ss_words_dimension(results->bridge, &(ss_effect){.kind = s->kind});
    ss_status status = draw(s, kinds[which].title, error);
    out->text = ss_figure_keep(
        out, ss_build_text(&s->sketch.words,
                           "%s: dead load alone, and with the least and the most that one truck adds.",
                           out->title == NULL ? kinds[which].title : out->title));
    if (status != SS_OK) {
        s->sketch.words.failed = true;
        (void)ss_sketch_end(&s->sketch, NULL);
        return status;
    }
    return ss_sketch_end(&s->sketch, error);
}

ss_status ss_figure_moment(const ss_results *results, ss_unit_system units_of, ss_figure *out,
                           ss_error *error) {
    stretch s = {.kind = SS_EFFECT_MOMENT};
    return make(&s, results, units_of, out, error);
}

ss_status ss_figure_shear(const ss_results *results, ss_unit_system units_of, ss_figure *out,
                          ss_error *error) {
    stretch s = {.kind = SS_EFFECT_SHEAR};
    return make(&s, results, units_of, out, error);
}

ss_status ss_figure_deflection(const ss_results *results, ss_unit_system units_of, ss_figure *out,
                               ss_error *error) {
    stretch s = {.kind = SS_EFFECT_DEFLECTION};
    return make(&s, results, units_of, out, error);
}
