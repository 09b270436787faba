/* figure_share.c - how the cars and their lines share the bending from each truck, as bars. */
#include <math.h>
#include <string.h>

#include "report/figure_parts.h"
#include "report/report_words.h"

/* mm: a bar, what stands below it, from bar to bar, a truck's name above its bars. */
#define BAR 5.2
#define BELOW 3.6
#define BETWEEN 1.6
#define HEAD 5.0

typedef struct bars {
    ss_sketch sketch;
    ss_scale x; /* per cent to mm */
    int *shown; /* of the list of shares */
    int count, trucks;
} bars;

static const ss_share *share_of(const bars *s, int row) {
    return &s->sketch.words.results->shares->items[s->shown[row]];
}

static bool begins_truck(const bars *s, int row) {
    return row == 0 || share_of(s, row)->traffic != share_of(s, row - 1)->traffic;
}

/* Those that tables tell of too. */
static bool collect(bars *s) {
    const ss_results *const results = s->sketch.words.results;
    const ss_share_list *const list = results->shares;
    s->shown = ss_arena_alloc(&s->sketch.report.arena, (size_t)list->count + 1, sizeof *s->shown);
    if (s->shown == NULL) {
        return false;
    }
    for (int i = 0; i < list->count; i++) {
        if (ss_words_told(results, list->items[i].traffic) &&
            !ss_words_abreast(results, list->items[i].traffic)) {
            s->shown[s->count++] = i;
            s->trucks += begins_truck(s, s->count - 1);
        }
    }
    return true;
}

static double part(const ss_share *share, int line) {
    return isnan(share->line[line]) ? 0.0 : 100.0 * share->line[line];
}

/* What stands beside a bar, in two lines. */
static const char *beside(bars *s, int row, bool second) {
    ss_builder *const b = &s->sketch.words;
    const ss_share *const share = share_of(s, row);
    return second ? ss_build_text(b, "%s at %s", ss_words_quantity(b, share->total, SS_DIM_MOMENT, 3),
                                  ss_words_length(b, share->x))
                  : ss_build_text(b, "worst for %s", s->sketch.bridge->cars[share->car].name);
}

/* Room at the left for what stands there, and a scale that has all parts: where lines are bent the other way
 * the others carry more than all. */
static void lay_out(bars *s) {
    double low = 0.0;
    double high = 100.0;
    double widest = 0.0;
    for (int row = 0; row < s->count; row++) {
        double sum[2] = {0.0, 0.0};
        for (int i = 0; i < s->sketch.bridge->line_count; i++) {
            const double value = part(share_of(s, row), i);
            sum[value > 0.0] += value;
        }
        low = fmin(low, sum[0]);
        high = fmax(high, sum[1]);
        for (int k = 0; k < 2; k++) {
            widest = fmax(widest, ss_figure_text_width(beside(s, row, k == 1), SS_LETTERS_SMALL));
        }
    }
    /* Rounding is no bending the other way. */
    low = low > -0.05 ? 0.0 : 5.0 * floor(low / 5.0);
    high = high < 100.05 ? 100.0 : 5.0 * ceil(high / 5.0);
    s->x = (ss_scale){low, high, SS_PAGE_MARGIN + fmin(widest, 60.0) + 3.0,
                      SS_PAGE_WIDTH - SS_PAGE_MARGIN - 2.0, false};
}

static ss_figure_role fill_of(const ss_line *line) {
    return line->role == SS_ROLE_MAIN       ? SS_FIGURE_BAR_MAIN
           : line->role == SS_ROLE_EXTERIOR ? SS_FIGURE_BAR_EDGE
                                            : SS_FIGURE_BAR_STRINGER;
}

/* Whether a line's part goes into the label of the one before: stringers side by side in one car. */
static bool joins(const ss_line *line, const ss_line *before) {
    return before != NULL && before->role == SS_ROLE_STRINGER && line->role == SS_ROLE_STRINGER &&
           before->car == line->car;
}

/* Within the bar, or not at all: the longest that fits. */
static void label_part(bars *s, const char *name, double per_cent, ss_spot from, double width) {
    ss_builder *const b = &s->sketch.words;
    const char *const number = ss_build_text(b, "%s %%", ss_words_decimals(b, per_cent, 0));
    const char *const tries[] = {ss_build_text(b, "%s %s", name, number), number};
    for (int i = 0; i < 2; i++) {
        if (ss_figure_text_width(tries[i], SS_LETTERS_SMALL) + 1.0 <= width) {
            ss_figure_text(s->sketch.figure, (ss_lettering){SS_FIGURE_LABEL, 0, SS_LETTERS_SMALL, false},
                           (ss_spot){from.x + 0.5 * width, from.y + 0.5 * BAR + 0.35 * SS_LETTERS_SMALL},
                           tries[i]);
            return;
        }
    }
}

/* The lines of a bar from left to right as they lie across the bridge; those bent the other way go left of
 * zero. `order` has the lines by y. Where each car's parts begin and end goes to `span`. */
static void draw_bar(bars *s, int row, const int *order, double top, double (*span)[2]) {
    const ss_bridge *const bridge = s->sketch.bridge;
    const ss_share *const share = share_of(s, row);
    double reached[2] = {0.0, 0.0};
    double run = 0.0; /* mm of the label at hand */
    double run_sum = 0.0;
    int run_count = 0;
    const ss_line *before = NULL;
    for (int k = 0; k < bridge->line_count; k++) {
        const ss_line *const line = &bridge->lines[order[k]];
        const double value = part(share, order[k]);
        double *const to = &reached[value > 0.0];
        if (value == 0.0) {
            continue;
        }
        const ss_spot from = {ss_scale_at(&s->x, value > 0.0 ? *to : *to + value), top};
        const ss_spot until = {ss_scale_at(&s->x, value > 0.0 ? *to + value : *to), top + BAR};
        *to += value;
        ss_figure_box(s->sketch.figure, fill_of(line), from, until);
        const bool follows = value > 0.0 && joins(line, before);
        run = follows ? run + until.x - from.x : until.x - from.x;
        run_sum = follows ? run_sum + value : value;
        run_count = follows ? run_count + 1 : 1;
        before = value > 0.0 ? line : NULL;
        if (value > 0.0) {
            span[line->car][0] = fmin(span[line->car][0], from.x);
            span[line->car][1] = fmax(span[line->car][1], until.x);
        }
        /* The last of a row of stringers has the label of all. */
        const ss_line *next = NULL;
        for (int n = k + 1; n < bridge->line_count && next == NULL; n++) {
            next = part(share, order[n]) > 0.0 ? &bridge->lines[order[n]] : NULL;
        }
        if (value < 0.0 || next == NULL || !joins(next, line)) {
            const char *const name =
                run_count > 1 ? ss_build_text(&s->sketch.words, "%d stringers", run_count) : line->whole;
            label_part(s, name, run_sum, (ss_spot){until.x - run, top}, run);
        }
    }
}

static const char *car_part(bars *s, int row, int car) {
    ss_builder *const b = &s->sketch.words;
    return ss_build_text(b, "%s %s %%", s->sketch.bridge->cars[car].name,
                         ss_words_decimals(b, 100.0 * share_of(s, row)->per_car[car], 0));
}

/* The cars below their parts of the bar, in smaller letters where there is no room for all. */
static void name_cars(bars *s, int row, double top, double (*span)[2], double *place) {
    const int count = s->sketch.bridge->car_count;
    const double room = s->x.to + 2.0 - s->x.from;
    double all = 0.0;
    for (int i = 0; i < count; i++) {
        const bool there = span[i][1] >= span[i][0];
        place[i] = there ? 0.5 * (span[i][0] + span[i][1]) : s->x.to;
        place[count + i] = ss_figure_text_width(car_part(s, row, i), SS_LETTERS_SMALL) + 2.0;
        all += place[count + i];
        if (there) {
            const double y = top + BAR + 0.6;
            ss_figure_line(s->sketch.figure, SS_FIGURE_EDGE_GIRDER, (ss_spot){span[i][0] + 0.4, y},
                           (ss_spot){span[i][1] - 0.4, y});
        }
    }
    const double smaller = fmin(1.0, room / all);
    for (int i = 0; i < count; i++) {
        place[count + i] *= smaller;
    }
    if (!ss_figure_spread(place, place + count, count, s->x.from, s->x.from + room)) {
        s->sketch.words.failed = true;
        return;
    }
    for (int i = 0; i < count; i++) {
        ss_figure_text(s->sketch.figure,
                       (ss_lettering){SS_FIGURE_LABEL, 0, smaller * SS_LETTERS_SMALL, false},
                       (ss_spot){place[i], top + BAR + 1.0 + SS_LETTERS_SMALL}, car_part(s, row, i));
    }
}

static void draw_row(bars *s, int row, const int *order, double *room) {
    ss_sketch *const sketch = &s->sketch;
    ss_figure *const figure = sketch->figure;
    const int cars = sketch->bridge->car_count;
    double(*const span)[2] = (double(*)[2])room;
    const double left = s->x.from - SS_PAGE_MARGIN - 2.0;
    if (begins_truck(s, row)) {
        ss_figure_text(figure, (ss_lettering){SS_FIGURE_CAPTION, 1, SS_LETTERS, false},
                       (ss_spot){SS_PAGE_MARGIN, sketch->down + SS_LETTERS},
                       ss_words_traffic(&sketch->words, share_of(s, row)->traffic));
        sketch->down += HEAD;
    }
    for (int i = 0; i < cars; i++) {
        span[i][0] = (double)INFINITY;
        span[i][1] = -(double)INFINITY;
    }
    for (int i = 0; i < 2; i++) {
        const char *const text = beside(s, row, i == 1);
        ss_figure_text(
            figure,
            (ss_lettering){SS_FIGURE_LABEL, 1, ss_sketch_fitting(text, SS_LETTERS_SMALL, left), false},
            (ss_spot){SS_PAGE_MARGIN, sketch->down + (i == 0 ? 1.0 : 2.3) * SS_LETTERS_SMALL}, text);
    }
    draw_bar(s, row, order, sketch->down, span);
    name_cars(s, row, sketch->down, span, room + 2 * cars);
    sketch->down += BAR + BELOW + BETWEEN;
}

/* Lines from left to right, as many as there are; NULL: no memory. */
static int *across(bars *s) {
    const ss_bridge *const bridge = s->sketch.bridge;
    int *const order = ss_arena_alloc(&s->sketch.report.arena, (size_t)bridge->line_count + 1, sizeof *order);
    for (int i = 0; order != NULL && i < bridge->line_count; i++) {
        int k = i;
        for (; k > 0 && bridge->lines[order[k - 1]].y > bridge->lines[i].y; k--) {
            order[k] = order[k - 1];
        }
        order[k] = i;
    }
    return order;
}

static void draw_all(bars *s) {
    ss_sketch *const sketch = &s->sketch;
    const int *const order = across(s);
    double *const room =
        ss_arena_alloc(&sketch->report.arena, 4 * (size_t)sketch->bridge->car_count + 1, sizeof *room);
    if (order == NULL || room == NULL) {
        sketch->words.failed = true;
        return;
    }
    lay_out(s);
    const double top = sketch->down;
    const double bottom = top + s->trucks * HEAD + s->count * (BAR + BELOW + BETWEEN);
    const ss_axis axis = {.scale = s->x,
                          .at = bottom,
                          .grid_to = top,
                          .most = 12,
                          .title = "part of the truck's bending over the whole width, %"};
    ss_figure_axis(sketch->figure, &axis);
    for (int row = 0; row < s->count; row++) {
        draw_row(s, row, order, room);
    }
    sketch->down = bottom + 3.4 * SS_LETTERS;
    ss_sketch_paragraph(
        sketch, 0.0,
        "Each truck stands where the main girder of that car is bent most. A bar is all of its bending "
        "moment "
        "over the width there, line by line from left to right; the number below is a car's part. Main "
        "girders are grey, edge girders pale, stringers white.");
    if (s->x.low < 0.0) {
        ss_sketch_paragraph(sketch, 0.0, "What is left of zero is bent the other way.");
    }
}

ss_status ss_figure_share(const ss_results *results, ss_unit_system units, ss_figure *out, ss_error *error) {
    bars s = {.count = 0};
    ss_sketch_begin(&s.sketch, results, units, out, "share");
    ss_sketch_heading(&s.sketch, "How the cars share a truck");
    if (results->shares == NULL || !collect(&s)) {
        s.sketch.words.failed = true;
    } else if (s.count == 0) {
        ss_sketch_paragraph(&s.sketch, 0.0, "No truck bends a main girder.");
    } else {
        draw_all(&s);
    }
    out->text = ss_figure_keep(
        out,
        ss_build_text(&s.sketch.words,
                      "A bar for each of %s, one for each car that it bends most: the parts of its bending "
                      "that the lines of the cars carry, in per cent.",
                      ss_words_count(&s.sketch.words, s.trucks, "truck", "trucks")));
    return ss_sketch_end(&s.sketch, error);
}
