/* figure_elevation.c - the main girders from the side, one above the other, on their bearings. */
#include <math.h>
#include <string.h>

#include "report/figure_parts.h"
#include "report/report_words.h"

/* mm: names at the left, the tallest girder, room above it for numbers, a bearing. */
#define NAMES 30.0
#define TALLEST 16.0
#define ABOVE 7.0
#define WEDGE 1.3
#define DAYLIGHT 1.1
#define EARTH 0.9
#define TIMES_MOST 8.0

typedef struct side {
    ss_sketch sketch;
    ss_scale x;   /* m to mm */
    double times; /* depth is drawn this many times larger than length */
    bool *lines;  /* those of the girder at hand */
    bool *shown;  /* findings */
    double top;   /* mm, of the girder at hand */
    bool contact;
} side;

static double mm_deep(const side *s, double depth) {
    return depth * s->times * (s->x.to - s->x.from) / (s->x.high - s->x.low);
}

static bool is_on(const ss_finding *finding, const ss_line *line) {
    return finding->member != NULL && finding->car == line->car && strcmp(finding->member, line->whole) == 0;
}

/* Marks the parts of the same girder as `first`; false: it is not the first of them, or no main girder. */
static bool gather(side *s, int first) {
    const ss_bridge *const bridge = s->sketch.bridge;
    const ss_line *const girder = &bridge->lines[first];
    for (int i = 0; i < bridge->line_count; i++) {
        const ss_line *const line = &bridge->lines[i];
        s->lines[i] =
            line->car == girder->car && line->role == SS_ROLE_MAIN && strcmp(line->whole, girder->whole) == 0;
        if (s->lines[i] && i < first) {
            return false;
        }
    }
    return girder->role == SS_ROLE_MAIN;
}

/* The stretch of a line from piece `from` over which the depth stays, as an index past its last piece. */
static int level_until(const ss_bridge *bridge, const ss_line *line, int from) {
    const ss_line_piece *const pieces = &bridge->pieces[line->first_piece];
    int k = from;
    while (k < line->piece_count && fabs(pieces[k].depth0 - pieces[from].depth0) < 1e-9 &&
           fabs(pieces[k].depth1 - pieces[from].depth0) < 1e-9) {
        k++;
    }
    return k;
}

/* The middle of a text of `width` between from and to, as near to their middle as findings on the girder
 * leave it; NaN: there is no room. */
static double free_middle(const side *s, const ss_line *line, double from, double to, double width) {
    const ss_bridge *const bridge = s->sketch.bridge;
    const double middle = 0.5 * (from + to);
    double best = (double)NAN;
    /* In the middle, or beside a finding. */
    for (int i = -1; i < 2 * bridge->finding_count; i++) {
        const ss_finding *const beside = i < 0 ? NULL : &bridge->findings[i / 2];
        const double at = beside == NULL ? middle
                          : i % 2 == 0   ? ss_scale_at(&s->x, beside->x0) - 0.5 * width - 0.6
                                         : ss_scale_at(&s->x, beside->x1) + 0.5 * width + 0.6;
        bool room = at - 0.5 * width >= from && at + 0.5 * width <= to;
        for (int k = 0; k < bridge->finding_count; k++) {
            const ss_finding *const f = &bridge->findings[k];
            room = room && (!is_on(f, line) || ss_scale_at(&s->x, f->x0) >= at + 0.5 * width + 0.5 ||
                            ss_scale_at(&s->x, f->x1) <= at - 0.5 * width - 0.5);
        }
        if (room && !(fabs(at - middle) >= fabs(best - middle))) {
            best = at;
        }
    }
    return best;
}

/* How deep a level stretch is, written into it where there is room. */
static void write_depths(side *s, const ss_line *line) {
    const ss_bridge *const bridge = s->sketch.bridge;
    const ss_line_piece *const pieces = &bridge->pieces[line->first_piece];
    for (int k = 0; k < line->piece_count;) {
        const int end = level_until(bridge, line, k);
        if (end == k) {
            k++;
            continue;
        }
        const double from = ss_scale_at(&s->x, pieces[k].x0);
        const double to = ss_scale_at(&s->x, pieces[end - 1].x1);
        const char *const words =
            ss_words_quantity(&s->sketch.words, pieces[k].depth0, SS_DIM_SMALL_LENGTH, 4);
        const double deep = mm_deep(s, pieces[k].depth0);
        const double width = ss_figure_text_width(words, SS_LETTERS_SMALL);
        const double middle = free_middle(s, line, from, to, width);
        if (pieces[k].depth0 > 0.0 && !isnan(middle) && deep > 1.3 * SS_LETTERS_SMALL) {
            ss_figure_text(s->sketch.figure, (ss_lettering){SS_FIGURE_LABEL, 0, SS_LETTERS_SMALL, false},
                           (ss_spot){middle, s->top + 0.5 * deep + 0.35 * SS_LETTERS_SMALL}, words);
        }
        k = end;
    }
}

static void draw_outline(side *s, const ss_line *line) {
    const ss_bridge *const bridge = s->sketch.bridge;
    ss_figure *const figure = s->sketch.figure;
    const int most = 2 * line->piece_count + 2;
    ss_spot *const points = ss_arena_alloc(&s->sketch.report.arena, (size_t)most, sizeof *points);
    int count = 0;
    if (points == NULL) {
        s->sketch.words.failed = true;
        return;
    }
    points[count++] = (ss_spot){ss_scale_at(&s->x, line->x1), s->top};
    points[count++] = (ss_spot){ss_scale_at(&s->x, line->x0), s->top};
    for (int k = 0; k < line->piece_count; k++) {
        const ss_line_piece *const piece = &bridge->pieces[line->first_piece + k];
        const double deep0 = fmax(mm_deep(s, piece->depth0), 1.0);
        const double deep1 = fmax(mm_deep(s, piece->depth1), 1.0);
        points[count++] = (ss_spot){ss_scale_at(&s->x, piece->x0), s->top + deep0};
        points[count++] = (ss_spot){ss_scale_at(&s->x, piece->x1), s->top + deep1};
    }
    ss_figure_area(figure, SS_FIGURE_GIRDER_SIDE, points, count);
}

/* Depth of the girder at hand at x, mm; 0: it has a gap there. */
static double deep_at(const side *s, double x) {
    const ss_bridge *const bridge = s->sketch.bridge;
    double depth = 0.0;
    int section = 0;
    for (int i = 0; i < bridge->line_count; i++) {
        const ss_line *const line = &bridge->lines[i];
        if (s->lines[i] && x >= line->x0 - 1e-6 && x <= line->x1 + 1e-6) {
            const double inside = fmin(fmax(x, line->x0), line->x1);
            depth = fmax(depth, ss_bridge_line_piece(bridge, i, inside, true, &section));
        }
    }
    return fmax(mm_deep(s, depth), 1.0);
}

static void draw_beams(side *s, int car) {
    const ss_bridge *const bridge = s->sketch.bridge;
    for (int i = 0; i < bridge->floor_beam_count; i++) {
        const ss_floor_beam *const beam = &bridge->floor_beams[i];
        if (beam->car != car || beam->strip > 0.0) {
            continue;
        }
        const double deep = deep_at(s, beam->x);
        const double x = ss_scale_at(&s->x, beam->x);
        ss_figure_line(s->sketch.figure, SS_FIGURE_FLOOR_BEAM, (ss_spot){x, s->top - 1.2},
                       (ss_spot){x, s->top + fmin(1.2, deep)});
    }
}

static void draw_seen(side *s, int girder) {
    const ss_bridge *const bridge = s->sketch.bridge;
    const ss_line *const line = &bridge->lines[girder];
    const int count = bridge->finding_count;
    double *const place = ss_arena_alloc(&s->sketch.report.arena, 2 * (size_t)count, sizeof *place);
    int *const which = ss_arena_alloc(&s->sketch.report.arena, (size_t)count, sizeof *which);
    int seen = 0;
    if (place == NULL || which == NULL) {
        s->sketch.words.failed = true;
        return;
    }
    for (int i = 0; i < count; i++) {
        const ss_finding *const f = &bridge->findings[i];
        if (is_on(f, line)) {
            place[seen] = ss_scale_at(&s->x, 0.5 * (f->x0 + f->x1));
            place[count + seen] = 4.6;
            which[seen++] = i;
        }
    }
    if (!ss_figure_spread(place, place + count, seen, s->x.from, s->x.to)) {
        s->sketch.words.failed = true;
        return;
    }
    for (int i = 0; i < seen; i++) {
        const ss_finding *const f = &bridge->findings[which[i]];
        const double middle = ss_scale_at(&s->x, 0.5 * (f->x0 + f->x1));
        const double deep = deep_at(s, 0.5 * (f->x0 + f->x1));
        ss_figure_box(s->sketch.figure, SS_FIGURE_FINDING,
                      (ss_spot){fmin(ss_scale_at(&s->x, f->x0), middle - 0.4), s->top},
                      (ss_spot){fmax(ss_scale_at(&s->x, f->x1), middle + 0.4), s->top + deep});
        ss_figure_line(s->sketch.figure, SS_FIGURE_FINDING_LEADER, (ss_spot){place[i], s->top - 4.4},
                       (ss_spot){middle, s->top});
        ss_sketch_number(&s->sketch, (ss_spot){place[i], s->top - 4.4}, which[i] + 1);
        s->shown[which[i]] = true;
    }
}

/* mm: where the ground under a bearing ends. */
static double foot_of(const side *s, const ss_bearing *bearing) {
    return s->top + deep_at(s, bearing->x) + (bearing->gap > 0.0 ? DAYLIGHT : 0.0) + 1.6 * WEDGE + EARTH;
}

/* A wedge under the girder, on the ground; lower by a little where daylight is over it. */
static void draw_bearing(side *s, const ss_bearing *bearing) {
    ss_figure *const figure = s->sketch.figure;
    const double x = ss_scale_at(&s->x, bearing->x);
    const double foot = foot_of(s, bearing) - EARTH;
    const ss_spot wedge[] = {{x, foot - 1.6 * WEDGE}, {x + WEDGE, foot}, {x - WEDGE, foot}};
    ss_figure_area(figure, bearing->contact ? SS_FIGURE_CONTACT : SS_FIGURE_BEARING, wedge, 3);
    ss_figure_box(figure, SS_FIGURE_GROUND, (ss_spot){x - 1.6 * WEDGE, foot},
                  (ss_spot){x + 1.6 * WEDGE, foot + EARTH});
    s->contact = s->contact || bearing->contact;
}

/* "pads", and below it "7 ft, gap 0.5 in". */
static int name_bearings(side *s, ss_pointer **out) {
    const ss_bridge *const bridge = s->sketch.bridge;
    ss_builder *const b = &s->sketch.words;
    int count = 0;
    ss_pointer *const labels =
        ss_arena_alloc(&s->sketch.report.arena, (size_t)bridge->bearing_count, sizeof *labels);
    b->failed = b->failed || labels == NULL;
    for (int i = 0; labels != NULL && i < bridge->bearing_count; i++) {
        const ss_bearing *const bearing = &bridge->bearings[i];
        if (!s->lines[bearing->line]) {
            continue;
        }
        const char *place = ss_words_length(b, bearing->x);
        if (bearing->gap > 0.0) {
            place = ss_build_text(b, "%s, gap %s", place,
                                  ss_words_quantity(b, bearing->gap, SS_DIM_SMALL_LENGTH, 4));
        }
        if (bearing->settlement != 0.0) {
            place = ss_build_text(b, "%s, sunk %s", place,
                                  ss_words_quantity(b, bearing->settlement, SS_DIM_SMALL_LENGTH, 4));
        }
        labels[count++] = (ss_pointer){.at = ss_scale_at(&s->x, bearing->x),
                                       .text = bearing->name,
                                       .second = place,
                                       .from = foot_of(s, bearing) + 0.3};
    }
    *out = labels;
    return count;
}

static void draw_girder(side *s, int girder) {
    const ss_bridge *const bridge = s->sketch.bridge;
    const ss_line *const line = &bridge->lines[girder];
    const ss_lettering letters = {SS_FIGURE_LABEL, -1, SS_LETTERS_SMALL, false};
    ss_pointer *labels = NULL;
    double foot = 0.0;
    s->top = s->sketch.down + ABOVE;
    for (int i = 0; i < bridge->line_count; i++) {
        if (s->lines[i]) {
            draw_outline(s, &bridge->lines[i]);
            write_depths(s, &bridge->lines[i]);
            for (int k = 0; k < bridge->lines[i].piece_count; k++) {
                const ss_line_piece *const piece = &bridge->pieces[bridge->lines[i].first_piece + k];
                foot = fmax(foot, s->top + mm_deep(s, fmax(piece->depth0, piece->depth1)));
            }
        }
    }
    draw_beams(s, line->car);
    draw_seen(s, girder);
    for (int i = 0; i < bridge->bearing_count; i++) {
        if (s->lines[bridge->bearings[i].line]) {
            draw_bearing(s, &bridge->bearings[i]);
            foot = fmax(foot, foot_of(s, &bridge->bearings[i]));
        }
    }
    ss_figure_text(s->sketch.figure, letters, (ss_spot){s->x.from - 4.0, s->top + 1.5}, line->whole);
    ss_figure_text(s->sketch.figure, letters,
                   (ss_spot){s->x.from - 4.0, s->top + 1.5 + 1.3 * SS_LETTERS_SMALL},
                   ss_build_text(&s->sketch.words, "of car %s", bridge->cars[line->car].name));
    const int count = name_bearings(s, &labels);
    if (count > 0) {
        foot = ss_sketch_row(&s->sketch, labels, count, foot + 0.3, s->x.from - 8.0,
                             SS_PAGE_WIDTH - SS_PAGE_MARGIN + 2.0);
    }
    s->sketch.down = foot + 1.0;
}

static void lay_out(side *s) {
    const ss_bridge *const bridge = s->sketch.bridge;
    double deepest = 0.0;
    s->x = (ss_scale){bridge->x0, bridge->x1, SS_PAGE_MARGIN + NAMES, SS_PAGE_WIDTH - SS_PAGE_MARGIN - 8.0,
                      false};
    for (int i = 0; i < bridge->piece_count; i++) {
        deepest = fmax(deepest, fmax(bridge->pieces[i].depth0, bridge->pieces[i].depth1));
    }
    s->times = 1.0;
    while (s->times < TIMES_MOST && mm_deep(s, deepest) * (s->times + 1.0) / s->times <= TALLEST) {
        s->times += 1.0;
    }
}

ss_status ss_figure_elevation(const ss_results *results, ss_unit_system units, ss_figure *out,
                              ss_error *error) {
    side s = {.top = 0.0};
    const ss_bridge *const bridge = results->bridge;
    int girders = 0;
    ss_sketch_begin(&s.sketch, results, units, out, "elevation");
    ss_builder *const words = &s.sketch.words;
    ss_sketch_heading(&s.sketch, "Main girders, from the side");
    lay_out(&s);
    s.lines = ss_arena_alloc(&s.sketch.report.arena, (size_t)bridge->line_count, sizeof *s.lines);
    s.shown = ss_arena_alloc(&s.sketch.report.arena, (size_t)bridge->finding_count, sizeof *s.shown);
    words->failed = words->failed || s.lines == NULL || s.shown == NULL;
    for (int i = 0; !words->failed && i < bridge->line_count; i++) {
        if (gather(&s, i)) {
            draw_girder(&s, i);
            girders++;
        }
    }
    ss_sketch_axis_along(&s.sketch, s.sketch.down + 1.0, s.x.from, s.x.to);
    ss_sketch_paragraph(
        &s.sketch, 0.0,
        ss_build_text(words,
                      "Depths are drawn %s times as large as lengths; the tops are drawn level. Short "
                      "strokes at the top are floor beams.%s",
                      ss_words_decimals(words, s.times, 0),
                      s.contact ? " Open wedges push and cannot pull." : ""));
    s.sketch.down += 1.0;
    ss_sketch_findings(&s.sketch, s.shown);
    out->text = ss_figure_keep(
        out, ss_build_text(words,
                           "%s from the side with depth, bearings and the daylight over them, and what was "
                           "seen on them, the first abutment at the left.",
                           ss_words_count(words, girders, "main girder", "main girders")));
    return ss_sketch_end(&s.sketch, error);
}
