/* test_figure_list.c - the list of marks, labels that make room, scales and their round values. */
#include <math.h>
#include <string.h>

#include "sillspan/figure.h"
#include "support/random.h"
#include "support/suite.h"

static void test_marks(void) {
    ss_figure figure = {.width = 100.0, .height = 50.0};
    char words[] = "main girder";
    ss_figure_line(&figure, SS_FIGURE_AXIS, (ss_spot){1.0, 2.0}, (ss_spot){3.0, 4.0});
    ss_figure_box(&figure, SS_FIGURE_STEEL, (ss_spot){0.0, 0.0}, (ss_spot){2.0, 1.0});
    ss_figure_disc(&figure, SS_FIGURE_BALLOON, (ss_spot){5.0, 6.0}, 2.0);
    ss_figure_text(&figure, (ss_lettering){SS_FIGURE_LABEL, -1, 2.5, true}, (ss_spot){7.0, 8.0}, words);
    words[0] = 'p'; /* the figure has a copy */
    CU_ASSERT_FALSE(figure.failed);
    CU_ASSERT_EQUAL_FATAL(figure.count, 4);
    CU_ASSERT_EQUAL(figure.marks[0].kind, SS_MARK_LINE);
    CU_ASSERT_EQUAL(figure.marks[0].points[1].y, 4.0);
    CU_ASSERT_EQUAL(figure.marks[1].kind, SS_MARK_POLYGON);
    CU_ASSERT_EQUAL(figure.marks[1].count, 4);
    for (int i = 0; i < figure.marks[2].count; i++) {
        const ss_spot p = figure.marks[2].points[i];
        CHECK_CLOSE(hypot(p.x - 5.0, p.y - 6.0), 2.0, 1e-12);
    }
    CU_ASSERT_STRING_EQUAL(figure.marks[3].text, "main girder");
    CU_ASSERT_EQUAL(figure.marks[3].anchor, -1);
    CU_ASSERT_TRUE(figure.marks[3].upright);
    ss_figure_destroy(&figure);
}

/* A place that is no number is never drawn, and the figure says so. */
static void test_not_finite(void) {
    ss_figure figure = {.width = 10.0};
    ss_figure_line(&figure, SS_FIGURE_AXIS, (ss_spot){0.0, 0.0}, (ss_spot){(double)NAN, 1.0});
    CU_ASSERT_TRUE(figure.failed);
    CU_ASSERT_EQUAL(figure.count, 0);
    ss_figure_line(&figure, SS_FIGURE_AXIS, (ss_spot){0.0, 0.0}, (ss_spot){1.0, 1.0});
    CU_ASSERT_EQUAL(figure.count, 0);
    ss_figure_destroy(&figure);
}

static void draw_something(ss_figure *figure) {
    const ss_axis axis = {
        .scale = {0.0, 60.0, 10.0, 90.0, false}, .at = 40.0, .grid_to = 5.0, .most = 8, .title = "x"};
    for (int i = 0; i < 300; i++) {
        ss_figure_text(figure, (ss_lettering){SS_FIGURE_LABEL, 0, 2.0, false}, (ss_spot){1.0, 1.0},
                       "a label");
    }
    ss_figure_axis(figure, &axis);
}

static void test_memory(void) {
    const long live = ss_memory_live();
    bool done = false;
    int n = 0;
    for (; !done && n < 100; n++) {
        ss_figure figure = {.width = 100.0};
        ss_memory_fail_from(n);
        draw_something(&figure);
        ss_memory_fail_from(-1);
        done = !figure.failed;
        ss_figure_destroy(&figure);
        CU_ASSERT_EQUAL(ss_memory_live(), live);
    }
    CU_ASSERT_TRUE(done);
    CU_ASSERT_TRUE(n > 2);
    for (n = 0; n < 2; n++) {
        double at[] = {2.0, 1.0};
        const double size[] = {3.0, 3.0};
        ss_memory_fail_from(n);
        CU_ASSERT_FALSE(ss_figure_spread(at, size, 2, 0.0, 10.0));
        ss_memory_fail_from(-1);
        CU_ASSERT_EQUAL(at[0], 2.0);
        CU_ASSERT_EQUAL(ss_memory_live(), live);
    }
}

static void test_spread_by_hand(void) {
    /* Nothing in the way: all stay. */
    double loose[] = {5.0, 1.0, 9.0};
    const double two[] = {2.0, 2.0, 2.0};
    CU_ASSERT_TRUE(ss_figure_spread(loose, two, 3, 0.0, 10.0));
    CU_ASSERT_EQUAL(loose[0], 5.0);
    CU_ASSERT_EQUAL(loose[1], 1.0);
    CU_ASSERT_EQUAL(loose[2], 9.0);
    /* Two at one place part evenly, in their order. */
    double same[] = {5.0, 5.0};
    CU_ASSERT_TRUE(ss_figure_spread(same, two, 2, 0.0, 10.0));
    CHECK_CLOSE(same[0], 4.0, 1e-12);
    CHECK_CLOSE(same[1], 6.0, 1e-12);
    /* At the border they go inward. */
    double border[] = {0.0, 0.5};
    CU_ASSERT_TRUE(ss_figure_spread(border, two, 2, 0.0, 10.0));
    CHECK_CLOSE(border[0], 1.0, 1e-12);
    CHECK_CLOSE(border[1], 3.0, 1e-12);
    /* Two lengths: 2 wanted at 4 and 4 wanted at 5 need 3 between their middles; each gives 1. */
    double uneven[] = {4.0, 5.0};
    const double sizes[] = {2.0, 4.0};
    CU_ASSERT_TRUE(ss_figure_spread(uneven, sizes, 2, 0.0, 20.0));
    CHECK_CLOSE(uneven[0], 3.0, 1e-12);
    CHECK_CLOSE(uneven[1], 6.0, 1e-12);
    /* No room: even shares, in order. */
    double tight[] = {3.0, 1.0};
    CU_ASSERT_TRUE(ss_figure_spread(tight, two, 2, 0.0, 2.0));
    CHECK_CLOSE(tight[1], 0.5, 1e-12);
    CHECK_CLOSE(tight[0], 1.5, 1e-12);
}

/* Whatever is wanted: order kept, nothing overlaps, nothing outside; and no single label could move nearer to
 * its place without pushing another. */
static void test_spread_at_random(void) {
    uint64_t random = 7;
    for (int run = 0; run < 500; run++) {
        double wanted[12];
        double at[12];
        double size[12];
        const int count = 1 + run % 12;
        for (int i = 0; i < count; i++) {
            wanted[i] = at[i] = 30.0 + 35.0 * next_signed(&random);
            size[i] = 3.0 + 2.0 * next_signed(&random);
        }
        CU_ASSERT_TRUE(ss_figure_spread(at, size, count, 0.0, 60.0));
        for (int i = 0; i < count; i++) {
            double room_left = at[i] - 0.5 * size[i];
            double room_right = 60.0 - at[i] - 0.5 * size[i];
            CU_ASSERT_TRUE(room_left >= -1e-9 && room_right >= -1e-9);
            for (int k = 0; k < count; k++) {
                const double apart = fabs(at[i] - at[k]) - 0.5 * (size[i] + size[k]);
                CU_ASSERT_TRUE(i == k || apart >= -1e-9);
                CU_ASSERT_TRUE(!(wanted[i] < wanted[k]) || at[i] < at[k]);
                if (i != k && at[k] < at[i]) {
                    room_left = fmin(room_left, apart);
                } else if (i != k) {
                    room_right = fmin(room_right, apart);
                }
            }
            CU_ASSERT_TRUE(at[i] <= wanted[i] + 1e-9 || room_left <= 1e-9);
            CU_ASSERT_TRUE(at[i] >= wanted[i] - 1e-9 || room_right <= 1e-9);
        }
    }
}

static void check_ticks(ss_scale scale, int most, const double *expected, int count) {
    double values[SS_TICKS_MAX];
    CU_ASSERT_EQUAL_FATAL(ss_scale_ticks(&scale, most, values), count);
    for (int i = 0; i < count; i++) {
        CU_ASSERT_DOUBLE_EQUAL(values[i], expected[i], 1e-12 * fabs(expected[i]));
    }
}

static void test_ticks(void) {
    const double sixty[] = {0.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0};
    check_ticks((ss_scale){.low = 0.0, .high = 60.0}, 8, sixty, 7);
    const double signs[] = {-0.2, 0.0, 0.2, 0.4};
    check_ticks((ss_scale){.low = -0.31, .high = 0.55}, 5, signs, 4);
    CU_ASSERT_FALSE(signbit(signs[1]));
    const double far[] = {1000000.0, 1000005.0, 1000010.0};
    check_ticks((ss_scale){.low = 1e6, .high = 1e6 + 10.0}, 4, far, 3);
    /* Powers of ten with 2 and 5, then without. */
    const double fine[] = {0.05, 0.1, 0.2, 0.5, 1.0, 2.0};
    check_ticks((ss_scale){.low = 0.03, .high = 3.0, .log = true}, 8, fine, 6);
    const double coarse[] = {0.001, 0.01, 0.1, 1.0, 10.0};
    check_ticks((ss_scale){.low = 0.001, .high = 10.0, .log = true}, 6, coarse, 5);
    const double second[] = {1e-6, 1e-4, 1e-2, 1.0, 100.0};
    check_ticks((ss_scale){.low = 1e-7, .high = 1e3, .log = true}, 6, second, 5);
    /* Nothing to divide. */
    check_ticks((ss_scale){.low = 1.0, .high = 1.0}, 6, NULL, 0);
    check_ticks((ss_scale){.low = 0.0, .high = 1.0, .log = true}, 6, NULL, 0);
    check_ticks((ss_scale){.low = 0.0, .high = (double)INFINITY}, 6, NULL, 0);
}

static void test_scales(void) {
    const ss_scale linear = {10.0, 30.0, 100.0, 200.0, false};
    CHECK_CLOSE(ss_scale_at(&linear, 15.0), 125.0, 1e-14);
    const ss_scale log = {0.01, 100.0, 200.0, 100.0, true};
    CHECK_CLOSE(ss_scale_at(&log, 0.1), 175.0, 1e-14);
    CHECK_CLOSE(ss_scale_at(&log, 1.0), 150.0, 1e-14);
    double low = 0.3;
    double high = 87.0;
    ss_scale_round(&low, &high, 6);
    CU_ASSERT_EQUAL(low, 0.0);
    CHECK_CLOSE(high, 100.0, 1e-14);
    low = high = 0.0;
    ss_scale_round(&low, &high, 6);
    CU_ASSERT_TRUE(low < 0.0 && high > 0.0);
}

/* Values stand at their places, outside of the plot. */
static void test_axis(void) {
    ss_figure figure = {.width = 100.0, .height = 60.0};
    const ss_axis axis = {.scale = {0.0, 20.0, 50.0, 10.0, false},
                          .upright = true,
                          .at = 20.0,
                          .grid_to = 20.0,
                          .most = 5,
                          .title = "M"};
    int numbers = 0;
    ss_figure_axis(&figure, &axis);
    CU_ASSERT_FALSE(figure.failed);
    for (int i = 0; i < figure.count; i++) {
        const ss_mark *const mark = &figure.marks[i];
        if (mark->kind == SS_MARK_TEXT && strcmp(mark->text, "10") == 0) {
            CU_ASSERT_TRUE(mark->points[0].x < 20.0);
            CU_ASSERT_EQUAL(mark->anchor, -1);
            CU_ASSERT_DOUBLE_EQUAL(mark->points[0].y, 30.0, 0.5 * mark->size);
            numbers++;
        }
    }
    CU_ASSERT_EQUAL(numbers, 1);
    ss_figure_destroy(&figure);
}

static const test_case cases[] = {
    {"marks are kept as they were given", test_marks},
    {"places that are no numbers", test_not_finite},
    {"every allocation fails in turn", test_memory},
    {"labels make room: by hand", test_spread_by_hand},
    {"labels make room: at random", test_spread_at_random},
    {"round values on scales", test_ticks},
    {"values to millimetres", test_scales},
    {"an axis", test_axis},
};

int main(void) {
    return RUN_SUITE("figure list", cases);
}
