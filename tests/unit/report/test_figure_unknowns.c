/* test_figure_unknowns.c - the figures of bounds and samples: bars are as long as their numbers say, no text
 * is on another. */
#include <math.h>
#include <stdlib.h>

#include "figure_marks.h"

#define NONE ((double)NAN)
#define LONG_NAME                                                                                            \
    "how thick the gravel lies on the deck between the curbs at the wheel tracks, as dug at five places"

enum { UNKNOWNS = 16 };

/* Bars are as long as what their unknowns move, longest on top. */
static void test_bounds(void) {
    ss_unknown items[UNKNOWNS];
    ss_bounds_effect effects[UNKNOWNS];
    int order[UNKNOWNS];
    static const char *words[] = {"closed", LONG_NAME};
    const ss_answer answer = {"rf", "controlling rating", SS_DIM_NUMBER};
    const double point[UNKNOWNS] = {0}, worst = 0.6, best = 1.3;
    for (int i = 0; i < UNKNOWNS; i++) {
        const bool listed = i == 2;
        const double swing = i == 5 ? 0.0 : 0.4 / (i + 1.0);
        items[i] = (ss_unknown){.name = i == 1 ? LONG_NAME : "steel", .dimension = SS_DIM_STRESS};
        items[i].kind = listed ? SS_UNKNOWN_DISCRETE : SS_UNKNOWN_UNIFORM;
        items[i].words = words;
        items[i].texts = words;
        items[i].text_count = 2;
        effects[i] = (ss_bounds_effect){.least = 0.95 - 0.5 * swing,
                                        .most = 0.95 + 0.5 * swing,
                                        .swing = swing,
                                        .least_at = listed ? 1.0 : 200e6,
                                        .most_at = listed ? 0.0 : 300e6};
        order[i] = i;
    }
    const ss_bridge bridge = {.title = "Sedge Run", .unknowns = {.items = items, .count = UNKNOWNS}};
    const ss_bounds bounds = {
        .runs = 200,
        .middle = 0.95,
        .ends = {{.point = point, .answers = &worst}, {.point = point, .answers = &best}},
        .effects = effects,
        .order = order};
    const ss_results results = {.command = "bounds",
                                .bridge = &bridge,
                                .bounds = &bounds,
                                .answers = &answer,
                                .answer_count = 1,
                                .described = 0.97};
    ss_figure figure = draw(ss_figure_bounds, &results, SS_UNITS_US);
    const mark_box first = box_of_shape(mark_of(&figure, SS_FIGURE_BAR, SS_MARK_POLYGON, 0));
    const mark_box second = box_of_shape(mark_of(&figure, SS_FIGURE_BAR, SS_MARK_POLYGON, 1));
    const mark_box all = box_of_shape(mark_of(&figure, SS_FIGURE_RING, SS_MARK_POLYGON, 0));
    CHECK_CLOSE(first.right - first.left, 2.0 * (second.right - second.left), 1e-6);
    CHECK_CLOSE((all.right - all.left) / (first.right - first.left), 0.7 / 0.4, 1e-6);
    CU_ASSERT_TRUE(first.bottom < second.top && second.bottom < all.top);
    /* The line of 1.0 is 0.05 right of the middle of the bars. */
    const double one = mark_of(&figure, SS_FIGURE_LIMIT, SS_MARK_LINE, 0)->points[3].x;
    CHECK_CLOSE((one - 0.5 * (first.left + first.right)) / (first.right - first.left), 0.05 / 0.4, 1e-6);
    CU_ASSERT_PTR_NOT_NULL(text_of(&figure, "does nothing by itself"));
    CU_ASSERT_PTR_NOT_NULL(text_of(&figure, "2 more that move it less are not drawn."));
    ss_figure_destroy(&figure);
    check_figure("many unknowns", ss_figure_bounds, &results);
    /* No run has a rating. */
    ss_bounds_effect lost[UNKNOWNS];
    for (int i = 0; i < UNKNOWNS; i++) {
        lost[i] = (ss_bounds_effect){.least = NONE, .most = NONE, .least_at = NONE, .most_at = NONE};
    }
    const ss_bounds none = {.runs = 33, .middle = NONE, .effects = lost, .order = order};
    ss_results without = results;
    without.bounds = &none;
    without.described = NONE;
    figure = draw(ss_figure_bounds, &without, SS_UNITS_SI);
    CU_ASSERT_EQUAL(count_marks(&figure, SS_FIGURE_BAR, SS_MARK_POLYGON), 0);
    CU_ASSERT_PTR_NOT_NULL(text_of(&figure, "not known"));
    ss_figure_destroy(&figure);
    check_figure("no run has a rating", ss_figure_bounds, &without);
}

/* Bars hold all draws that have a limit: their heights on the axis of numbers come to as many. */
static void test_sample(void) {
    enum { DRAWS = 90 };
    double values[DRAWS];
    const ss_answer answer = {"rf", "controlling rating", SS_DIM_NUMBER};
    ss_sample_answer spread = {
        .least = 0.7, .most = 1.2, .quantiles = {{0.05, 0.75, 0.7, 0.8}, {0}, {0.5, 0.95, 0.9, 1.0}}};
    spread.quantiles[4] = (ss_sample_quantile){0.95, 1.15, 1.1, 1.2};
    for (int i = 0; i < DRAWS; i++) values[i] = 0.7 + 0.5 * (double)((i * 37) % DRAWS) / DRAWS;
    values[7] = (double)INFINITY;
    values[8] = NONE;
    const ss_bridge bridge = {.title = "Sedge Run"};
    const ss_sample sample = {.draws = DRAWS,
                              .done = DRAWS,
                              .answered = DRAWS - 1,
                              .seed = 3,
                              .limit = 1.0,
                              .below = 53,
                              .below_low = 0.5,
                              .below_high = 0.7,
                              .values = values,
                              .answers = &spread};
    const ss_results results = {.command = "sample",
                                .bridge = &bridge,
                                .sample = &sample,
                                .answers = &answer,
                                .answer_count = 1,
                                .described = 0.97};
    ss_figure figure = draw(ss_figure_sample, &results, SS_UNITS_US);
    const ss_mark *const zero = text_of(&figure, "0");
    double unit = 0.0;
    for (int i = 0; i < figure.count; i++) {
        const ss_mark *const mark = &figure.marks[i];
        if (mark->kind == SS_MARK_TEXT && mark->anchor == -1 && mark->points[0].x == zero->points[0].x &&
            mark != zero) {
            unit = (zero->points[0].y - mark->points[0].y) / strtod(mark->text, NULL);
        }
    }
    double high = 0.0;
    for (int i = 0; i < count_marks(&figure, SS_FIGURE_BAR, SS_MARK_POLYGON); i++) {
        const mark_box bar = box_of_shape(mark_of(&figure, SS_FIGURE_BAR, SS_MARK_POLYGON, i));
        high += bar.bottom - bar.top;
    }
    CU_ASSERT_TRUE_FATAL(unit > 0.0);
    CHECK_CLOSE(high / unit, DRAWS - 2.0, 1e-6);
    CU_ASSERT_PTR_NOT_NULL(text_of(&figure, "90 draws, seed 3; 89 could be rated. 1 that no truck limits"));
    CU_ASSERT_PTR_NOT_NULL(text_of(&figure, "60 % of those that could be rated lie below 1.00"));
    ss_figure_destroy(&figure);
    check_figure("draws", ss_figure_sample, &results);
    /* None could be rated; all the same. */
    ss_sample none = sample;
    ss_results without = results;
    without.sample = &none;
    for (int i = 0; i < DRAWS; i++) values[i] = NONE;
    none.answered = none.below = 0;
    figure = draw(ss_figure_sample, &without, SS_UNITS_US);
    CU_ASSERT_EQUAL(count_marks(&figure, SS_FIGURE_BAR, SS_MARK_POLYGON), 0);
    ss_figure_destroy(&figure);
    check_figure("no draw could be rated", ss_figure_sample, &without);
    for (int i = 0; i < DRAWS; i++) values[i] = 0.83;
    none.answered = DRAWS;
    figure = draw(ss_figure_sample, &without, SS_UNITS_US);
    CU_ASSERT_EQUAL(count_marks(&figure, SS_FIGURE_BAR, SS_MARK_POLYGON), 1);
    ss_figure_destroy(&figure);
    check_figure("all draws alike", ss_figure_sample, &without);
}

static const test_case cases[] = {
    {"a bar for each unknown", test_bounds},
    {"a histogram holds all draws", test_sample},
};

int main(void) {
    return RUN_SUITE("figures of unknowns", cases);
}
