/* figure_study_sample.c - how the ratings of random draws spread, as a histogram. */
#include <math.h>
#include <stdlib.h>

#include "report/figure_study.h"
#include "report/report_ratings.h"
#include "report/report_unknowns.h"
#include "report/report_words.h"

/* mm */
#define AXIS_ROOM 14.0
#define PLOT 58.0

/* Most bars; fewer where they would be narrower than is round. */
enum { BARS = 30, FLAGS = 6, FIVE = 0, MIDDLE = 2, NINETY_FIVE = 4 };

typedef struct spread {
    ss_sketch sketch;
    const ss_sample *sample;
    ss_scale x, y;
    double width;  /* of a bar, as a rating */
    int drawn;     /* draws on the figure */
    int unlimited; /* draws that nothing limits */
    int bars;
    int count[2 * BARS];
    bool shows_one;
} spread;

static double rating_of(const spread *s, int draw) {
    return s->sample->values[(size_t)draw * (size_t)s->sketch.words.results->answer_count];
}

/* 1, 2 or 5 times a power of ten, the least with which the range has at most BARS of them. */
static double bar_width(double range) {
    double width = pow(10.0, floor(log10(range / BARS)));
    const double factors[] = {1.0, 2.0, 5.0, 10.0};
    for (int k = 0; k < 4; k++) {
        if (range / (factors[k] * width) <= BARS) {
            return factors[k] * width;
        }
    }
    return 10.0 * width;
}

static void count_all(spread *s) {
    double low = (double)INFINITY;
    double high = -(double)INFINITY;
    for (int i = 0; i < s->sample->done; i++) {
        const double value = rating_of(s, i);
        s->unlimited += isinf(value) ? 1 : 0;
        if (isfinite(value)) {
            low = fmin(low, value);
            high = fmax(high, value);
            s->drawn++;
        }
    }
    if (s->drawn == 0) {
        return;
    }
    /* Few draws have few bars: about the square root of their number, twice. */
    const double least = (high - low) / fmin(BARS, fmax(4.0, 2.0 * sqrt(s->drawn)));
    s->width = bar_width(fmax(fmax(high - low, BARS * least), 0.01 * BARS * 0.2));
    const double first = floor(low / s->width + 1e-9);
    s->bars = (int)(floor(high / s->width + 1e-9) - first) + 1;
    s->bars = s->bars < 2 * BARS ? s->bars : 2 * BARS;
    for (int i = 0; i < s->sample->done; i++) {
        const double value = rating_of(s, i);
        if (isfinite(value)) {
            const int bar = (int)(floor(value / s->width + 1e-9) - first);
            s->count[bar < s->bars ? bar : s->bars - 1]++;
        }
    }
    s->x.low = first * s->width;
    s->x.high = (first + s->bars) * s->width;
}

static void scale_all(spread *s) {
    const double described = s->sketch.words.results->described;
    double most = 0.0;
    double low = 0.0;
    const double reach = 0.5 * (s->x.high - s->x.low);
    s->shows_one = s->x.low - reach <= 1.0 && 1.0 <= s->x.high + reach;
    if (s->shows_one) {
        s->x.low = fmin(s->x.low, 1.0 - s->width);
        s->x.high = fmax(s->x.high, 1.0 + s->width);
    }
    if (isfinite(described)) {
        s->x.low = fmin(s->x.low, described - s->width);
        s->x.high = fmax(s->x.high, described + s->width);
    }
    for (int i = 0; i < s->bars; i++) most = fmax(most, s->count[i]);
    ss_scale_round(&low, &most, 6);
    s->x.from = SS_PAGE_MARGIN + AXIS_ROOM;
    s->x.to = SS_PAGE_WIDTH - SS_PAGE_MARGIN;
    s->y =
        (ss_scale){0.0, most, s->sketch.down + SS_STUDY_FLAGS + PLOT, s->sketch.down + SS_STUDY_FLAGS, false};
}

static void draw_bars(spread *s, double first) {
    for (int i = 0; i < s->bars; i++) {
        if (s->count[i] > 0) {
            const double from = first + i * s->width;
            ss_figure_box(s->sketch.figure, SS_FIGURE_BAR,
                          (ss_spot){ss_scale_at(&s->x, from), ss_scale_at(&s->y, s->count[i])},
                          (ss_spot){ss_scale_at(&s->x, from + s->width), s->y.from});
        }
    }
}

static void add_quantile(spread *s, ss_flag *flags, int *count, int which, const char *name) {
    const double value = s->sample->answers[0].quantiles[which].value;
    if (isfinite(value)) {
        flags[(*count)++] = (ss_flag){ss_scale_at(&s->x, value), s->y.from, SS_FIGURE_LEADER, name,
                                      ss_rated_factor(&s->sketch.words, value, 2)};
    }
}

static void draw_flags(spread *s) {
    ss_builder *const b = &s->sketch.words;
    const double described = b->results->described;
    ss_flag flags[FLAGS];
    int count = 0;
    add_quantile(s, flags, &count, FIVE, "1 in 20 below");
    add_quantile(s, flags, &count, MIDDLE, "half below");
    add_quantile(s, flags, &count, NINETY_FIVE, "1 in 20 above");
    if (isfinite(described)) {
        flags[count++] = (ss_flag){ss_scale_at(&s->x, described), s->y.from, SS_FIGURE_AXIS, "as described",
                                   ss_rated_factor(b, described, 2)};
    }
    if (s->shows_one) {
        flags[count++] = (ss_flag){ss_scale_at(&s->x, 1.0), s->y.from, SS_FIGURE_LIMIT, "1.0", NULL};
    }
    ss_study_flags(&s->sketch, flags, count, SS_PAGE_MARGIN, SS_PAGE_WIDTH - SS_PAGE_MARGIN);
}

static const char *percent(ss_builder *b, double share) {
    return ss_build_text(b, "%s %%",
                         ss_words_decimals(b, 100.0 * share, share > 0.0 && share < 0.02 ? 1 : 0));
}

static void say(spread *s) {
    ss_builder *const b = &s->sketch.words;
    const ss_sample *const sample = s->sample;
    ss_sketch_paragraph(
        &s->sketch, 0.0,
        ss_build_text(
            b, "%d draws, seed %ld; %d could be rated.%s%s", sample->done, (long)sample->seed,
            sample->answered,
            s->unlimited > 0 ? ss_build_text(b, " %d that no truck limits are not drawn.", s->unlimited) : "",
            s->shows_one || s->drawn == 0 ? "" : " 1.0 lies outside the figure."));
    if (sample->answered > 0) {
        ss_sketch_paragraph(
            &s->sketch, 0.0,
            ss_build_text(
                b,
                "%s of those that could be rated lie below %s (%s to %s, 19 times in 20). That share "
                "is not a failure probability: the factors of the rating already hold margin.",
                percent(b, (double)sample->below / sample->answered), ss_words_decimals(b, sample->limit, 2),
                percent(b, sample->below_low), percent(b, sample->below_high)));
    }
}

ss_status ss_figure_sample(const ss_results *results, ss_unit_system units, ss_figure *out, ss_error *error) {
    spread s = {.sample = results->sample};
    ss_sketch_begin(&s.sketch, results, units, out, "sample");
    ss_sketch_heading(&s.sketch, "How the ratings of random draws spread");
    count_all(&s);
    if (s.drawn > 0) {
        const double first = s.x.low;
        scale_all(&s);
        const ss_axis across = {.scale = s.x,
                                .at = s.y.from,
                                .grid_to = s.y.from,
                                .most = 10,
                                .title = "controlling rating factor"};
        const ss_axis up = {.scale = s.y,
                            .upright = true,
                            .at = s.x.from,
                            .grid_to = s.x.to,
                            .most = 6,
                            .title = ss_build_text(&s.sketch.words, "draws in each step of %s",
                                                   ss_words_decimals(&s.sketch.words, s.width,
                                                                     s.width < 0.0099  ? 3
                                                                     : s.width < 0.099 ? 2
                                                                                       : 1))};
        ss_figure_axis(s.sketch.figure, &up);
        draw_bars(&s, first);
        ss_figure_axis(s.sketch.figure, &across);
        draw_flags(&s);
        s.sketch.down = s.y.from + 3.4 * SS_LETTERS;
    }
    say(&s);
    out->text = ss_figure_keep(out, "How many of the random draws have which rating factor.");
    return ss_sketch_end(&s.sketch, error);
}
