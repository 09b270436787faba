/* figure_study_size.c - decks and other repairs: what each comes to against the weight that it adds, which
 * pass, and what stops the others. */
#include <math.h>
#include <string.h>

#include "report/figure_study.h"
#include "report/report_ratings.h"
#include "report/report_size.h"
#include "report/report_words.h"

/* mm */
#define AXIS_ROOM 15.0
#define PLOT 92.0
#define DOT 1.2
#define COLUMN 60.0

enum { REASONS = 8, FRONTIER = 64 };

/* What stops decks, by letters. */
typedef struct reason {
    const char *text;
    int count;
} reason;

typedef struct tried {
    ss_sketch sketch;
    const ss_size *size;
    ss_scale x, y;
    reason reasons[REASONS];
    int reason_count;
    int others; /* decks that are stopped by what has no letter */
    ss_taken taken;
} tried;

static bool is_drawn(const ss_size_option *o) {
    return o->failure == NULL && isfinite(o->margin) && isfinite(o->added);
}

static double weight(const tried *s, double newtons) {
    return ss_units_from_si(newtons, SS_DIM_FORCE, s->sketch.report.units);
}

static ss_spot at(const tried *s, const ss_size_option *o) {
    return (ss_spot){ss_scale_at(&s->x, weight(s, o->added)), ss_scale_at(&s->y, o->margin)};
}

/* ---- what stops them ---------------------------------------------------------------------------------- */

/* The letter of what stops a deck, counted from 0; -1: it passes, or there are too many reasons. */
static int letter_of(tried *s, const ss_size_option *o) {
    const char *const text = !(o->margin >= 1.0) ? o->governs : o->missed > 0 ? o->check : NULL;
    if (o->kind != SS_SIZE_DECK || !is_drawn(o) || o->passes || text == NULL) {
        return -1;
    }
    for (int i = 0; i < s->reason_count; i++) {
        if (strcmp(s->reasons[i].text, text) == 0) {
            return i;
        }
    }
    if (s->reason_count == REASONS) {
        return -1;
    }
    s->reasons[s->reason_count] = (reason){.text = text};
    return s->reason_count++;
}

static void count_reasons(tried *s) {
    for (int i = 0; i < s->size->count; i++) {
        const int letter = letter_of(s, &s->size->options[i]);
        if (letter >= 0) {
            s->reasons[letter].count++;
        } else if (s->size->options[i].kind == SS_SIZE_DECK && is_drawn(&s->size->options[i]) &&
                   !s->size->options[i].passes) {
            s->others++;
        }
    }
}

/* ---- marks -------------------------------------------------------------------------------------------- */

static void scale_all(tried *s) {
    double light = 0.0;
    double heavy = 0.0;
    double low = 1.0;
    double high = 1.0;
    for (int i = 0; i < s->size->count; i++) {
        const ss_size_option *const o = &s->size->options[i];
        if (is_drawn(o)) {
            light = fmin(light, weight(s, o->added));
            heavy = fmax(heavy, weight(s, o->added));
            low = fmin(low, o->margin);
            high = fmax(high, o->margin);
        }
    }
    /* Labels of what lies at the borders need room. */
    const double aside = heavy > light ? 0.06 * (heavy - light) : 1.0;
    const double above = 0.08 * (high - low);
    light -= aside;
    heavy += aside;
    low = low > 0.0 ? fmax(low - above, 0.0) : low - above;
    high += above;
    ss_scale_round(&low, &high, 10);
    s->x = (ss_scale){light, heavy, SS_PAGE_MARGIN + AXIS_ROOM, SS_PAGE_WIDTH - SS_PAGE_MARGIN, false};
    s->y = (ss_scale){low, high, s->sketch.down + PLOT, s->sketch.down, false};
}

static void draw_axes(tried *s) {
    ss_builder *const b = &s->sketch.words;
    const ss_sizing *const sizing = s->size->sizing;
    const bool plain = sizing->target_count == 1 && sizing->targets[0].factor == 1.0;
    const ss_axis across = {.scale = s->x,
                            .at = s->y.from,
                            .grid_to = s->y.from,
                            .most = 10,
                            .title = ss_build_text(b, "dead load more than today, %s",
                                                   ss_units_name(SS_DIM_FORCE, s->sketch.report.units))};
    const ss_axis up = {.scale = s->y,
                        .upright = true,
                        .at = s->x.from,
                        .grid_to = s->x.to,
                        .most = 10,
                        .title = plain ? "least rating factor" : "least rating factor over its target"};
    ss_figure_axis(s->sketch.figure, &up);
    ss_figure_axis(s->sketch.figure, &across);
    const double due = ss_scale_at(&s->y, 1.0);
    ss_figure_line(s->sketch.figure, SS_FIGURE_LIMIT, (ss_spot){s->x.from, due}, (ss_spot){s->x.to, due});
}

static void draw_frontier(tried *s) {
    ss_spot points[FRONTIER];
    int count = 0;
    for (int i = ss_size_next_of_frontier(s->size, -1); i >= 0 && count < FRONTIER;
         i = ss_size_next_of_frontier(s->size, i)) {
        if (is_drawn(&s->size->options[i])) {
            points[count++] = at(s, &s->size->options[i]);
        }
    }
    if (count > 1) {
        ss_figure_path(s->sketch.figure, SS_FIGURE_CURVE_3, points, count);
    }
    /* No label lies on it. */
    for (int i = 1; i < count; i++) {
        const ss_spot from = points[i - 1];
        const ss_spot to = points[i];
        const int steps = 1 + (int)(hypot(to.x - from.x, to.y - from.y) / 1.5);
        for (int k = 0; k <= steps; k++) {
            const double part = (double)k / steps;
            const double x = from.x + part * (to.x - from.x);
            const double y = from.y + part * (to.y - from.y);
            ss_study_take(&s->taken, x - 0.4, y - 0.4, x + 0.4, y + 0.4);
        }
    }
}

static void draw_marks(tried *s) {
    for (int i = 0; i < s->size->count; i++) {
        const ss_size_option *const o = &s->size->options[i];
        if (!is_drawn(o)) {
            continue;
        }
        const ss_spot middle = at(s, o);
        const ss_figure_role role = o->passes ? SS_FIGURE_DOT : SS_FIGURE_RING;
        if (i == s->size->best) {
            ss_figure_disc(s->sketch.figure, SS_FIGURE_RING, middle, 1.9 * DOT);
        }
        if (o->kind == SS_SIZE_DECK) {
            ss_figure_disc(s->sketch.figure, role, middle, DOT);
        } else {
            ss_study_diamond(s->sketch.figure, role, middle, 1.35 * DOT);
        }
        ss_study_take(&s->taken, middle.x - DOT, middle.y - DOT, middle.x + DOT, middle.y + DOT);
    }
}

/* ---- words beside them -------------------------------------------------------------------------------- */

static bool label(tried *s, const ss_size_option *o, ss_figure_role role, const char *text) {
    const ss_lettering how = {role, 1, SS_LETTERS_SMALL, false};
    return ss_study_beside(&s->sketch, &s->taken, how, at(s, o), text,
                           (ss_spot){s->x.from + 0.8, s->y.to + 0.3},
                           (ss_spot){s->x.to - 0.3, s->y.from - 0.6});
}

/* What is no deck lies close together, and has its names in a column. */
static void label_others(tried *s) {
    ss_pointer labels[SS_SIZING_OTHERS + 1];
    double right = 0.0;
    double top = s->y.from;
    int count = 0;
    for (int i = 0; i < s->size->count && count < SS_SIZING_OTHERS + 1; i++) {
        const ss_size_option *const o = &s->size->options[i];
        if (is_drawn(o) && o->kind != SS_SIZE_DECK) {
            const ss_spot middle = at(s, o);
            labels[count++] =
                (ss_pointer){.at = middle.y,
                             .from = middle.x + 1.2,
                             .text = ss_study_cut(&s->sketch, o->name, COLUMN, SS_LETTERS_SMALL)};
            right = fmax(right, middle.x);
            top = fmin(top, middle.y);
        }
    }
    const double column = fmin(right + 9.0, s->x.to - COLUMN);
    const double low = fmin(top, s->y.from - 3.0 * count - 2.0);
    ss_study_ends(&s->sketch, labels, count, (ss_spot){right, column}, low, s->y.from - 1.0);
    for (int i = s->sketch.figure->count - 1, left = count; i >= 0 && left > 0; i--) {
        const ss_mark *const mark = &s->sketch.figure->marks[i];
        if (mark->kind == SS_MARK_TEXT) {
            const ss_spot p = mark->points[0];
            ss_study_take(&s->taken, p.x, p.y - mark->size,
                          p.x + ss_figure_text_width(mark->text, mark->size), p.y);
            left--;
        }
    }
}

static void label_all(tried *s) {
    ss_builder *const b = &s->sketch.words;
    const ss_size *const size = s->size;
    const double due = ss_scale_at(&s->y, 1.0);
    /* No text lies on the line of what is due. */
    ss_study_take(&s->taken, s->x.from, due - 0.2, s->x.to, due + 0.2);
    label_others(s);
    if (size->best >= 0) {
        const ss_size_option *const o = &size->options[size->best];
        (void)label(s, o, SS_FIGURE_CAPTION,
                    ss_study_cut(&s->sketch,
                                 ss_build_text(b, "%s that passes: %s",
                                               size->by_cost ? "cheapest" : "lightest", o->name),
                                 100.0, SS_LETTERS_SMALL));
    }
    for (int i = 0; i < size->count; i++) {
        const ss_size_option *const o = &size->options[i];
        const int letter = letter_of(s, o);
        if (letter >= 0) {
            (void)label(s, o, SS_FIGURE_LABEL, ss_build_text(b, "%c", 'a' + letter));
        } else if (is_drawn(o) && o->passes && o->kind == SS_SIZE_DECK && i != size->best) {
            (void)label(s, o, SS_FIGURE_LABEL, ss_words_quantity(b, o->thickness, SS_DIM_SMALL_LENGTH, 3));
        }
    }
}

/* ---- words below -------------------------------------------------------------------------------------- */

static void say_chosen(tried *s) {
    ss_builder *const b = &s->sketch.words;
    const ss_size *const size = s->size;
    if (size->best < 0) {
        ss_sketch_paragraph(&s->sketch, 0.0, "No deck that was tried passes.");
        return;
    }
    const ss_size_option *const o = &size->options[size->best];
    ss_sketch_paragraph(
        &s->sketch, 0.0,
        ss_build_text(b, "Encircled: the %s deck tried that passes, %s. Its least factor is %s (%s).",
                      size->by_cost ? "cheapest" : "lightest", o->name,
                      ss_rated_factor(b, o->factor[o->target], 2), o->governs));
}

static void say_reasons(tried *s) {
    ss_builder *const b = &s->sketch.words;
    for (int i = 0; i < s->reason_count; i++) {
        ss_sketch_paragraph(&s->sketch, 0.0,
                            ss_build_text(b, "%c  stops %s: %s", 'a' + i,
                                          ss_words_count(b, s->reasons[i].count, "deck", "decks"),
                                          s->reasons[i].text));
    }
    if (s->others > 0) {
        ss_sketch_paragraph(&s->sketch, 0.0,
                            ss_build_text(b, "Without a letter: %s stopped by something else.",
                                          ss_words_count(b, s->others, "deck is", "decks are")));
    }
}

static void say_missing(tried *s) {
    ss_builder *const b = &s->sketch.words;
    const ss_size_option *first = NULL;
    int count = 0;
    for (int i = 0; i < s->size->count; i++) {
        if (!is_drawn(&s->size->options[i])) {
            first = first == NULL ? &s->size->options[i] : first;
            count++;
        }
    }
    if (first != NULL) {
        ss_sketch_paragraph(
            &s->sketch, 0.0,
            ss_build_text(b, "Not drawn: %s; the first, %s: %s.",
                          ss_words_count(b, count, "option", "options"), first->name,
                          first->failure != NULL ? first->failure : "nothing limits its rating"));
    }
}

ss_status ss_figure_size(const ss_results *results, ss_unit_system units, ss_figure *out, ss_error *error) {
    tried s = {.size = results->size};
    ss_sketch_begin(&s.sketch, results, units, out, "size");
    ss_sketch_heading(&s.sketch, "Decks that were tried: rating against weight");
    count_reasons(&s);
    s.sketch.down += 1.0;
    scale_all(&s);
    draw_axes(&s);
    draw_frontier(&s);
    draw_marks(&s);
    label_all(&s);
    s.sketch.down = s.y.from + 3.4 * SS_LETTERS;
    ss_sketch_paragraph(
        &s.sketch, 0.0,
        "Discs are decks, diamonds everything else; filled: all targets are reached and every "
        "check is kept, open: not. Red line: what is due. Dotted: what nothing else beats in "
        "factor, weight and cost at once.");
    say_chosen(&s);
    say_reasons(&s);
    say_missing(&s);
    out->text =
        ss_figure_keep(out, "The least rating factor of each deck and other repair against the weight "
                            "that it adds, with those that pass and what stops the others.");
    return ss_sketch_end(&s.sketch, error);
}
