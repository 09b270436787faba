/* test_figure_studies.c - the figures of sweeps, comparisons and sizing: marks stand where their numbers say,
 * no text is on another.
 */
#include <math.h>

#include "figure_marks.h"
#include "report/report_compare.h"
#include "sillspan/figure.h"

#define NONE ((double)NAN)
#define LONG_NAME                                                                                            \
    "bearings moved to where the cars rode on their wheel trucks, with a pedestal at midspan besides"

/* ---- sweeps ------------------------------------------------------------------------------------------- */

enum { POINTS = 7, FOLLOWED = 3 };

/* A joint from none to rigid, of which a truck's shares and the joint's shear are followed. */
typedef struct swept {
    ss_vehicle vehicle;
    ss_joint joint;
    ss_bridge bridge;
    ss_unknown unknown[2];
    const char *paths[2];
    double values[POINTS], others[3];
    ss_trial points[3 * POINTS];
    double followed[3 * POINTS][FOLLOWED];
    ss_followed items[FOLLOWED];
    ss_traffic traffic;
    ss_sweep_band bands[FOLLOWED];
    ss_sweep sweep;
    ss_results results;
} swept;

static void begin_sweep(swept *s) {
    static const double values[POINTS] = {0.0, 0.01, 0.1, 1.0, 10.0, 100.0, (double)INFINITY};
    static const double factors[POINTS] = {0.85, 0.85, 0.9, 1.0, 1.1, 1.15, 1.15};
    memset(s, 0, sizeof *s);
    s->vehicle = (ss_vehicle){.name = "EV3"};
    s->joint = (ss_joint){.name = "seam",
                          .kind = SS_JOINT_SPRINGS,
                          .scale = 1.0,
                          .shear = 3e6,
                          .shear_capacity = 40e3,
                          .moment_capacity = NONE};
    s->bridge.title = "Sedge Run";
    s->bridge.vehicles = &s->vehicle;
    s->bridge.joints = &s->joint;
    s->bridge.joint_count = 1;
    s->paths[0] = "bridge.joints.seam.scale";
    s->paths[1] = "sections.sill.torsion";
    s->unknown[0] = (ss_unknown){.name = "seam", .paths = &s->paths[0], .path_count = 1, .log = true};
    memcpy(s->values, values, sizeof values);
    s->items[0] = (ss_followed){.kind = SS_FOLLOW_SHARE, .car = "north"};
    s->items[1] = (ss_followed){.kind = SS_FOLLOW_SHARE, .car = "south"};
    s->items[2] = (ss_followed){.kind = SS_FOLLOW_JOINT_SHEAR, .member = "seam"};
    for (int i = 0; i < FOLLOWED; i++) s->bands[i] = (ss_sweep_band){0.4, 0.9, 0.1, 10.0};
    for (int i = 0; i < 3 * POINTS; i++) {
        const double part = (double)(i % POINTS) / (POINTS - 1);
        s->followed[i][0] = 0.9 - 0.4 * part;
        s->followed[i][1] = 0.95 - 0.3 * part;
        s->followed[i][2] = 50e3 * part;
        s->points[i] = (ss_trial){.rf = factors[i % POINTS] + 0.1 * (double)(i / POINTS),
                                  .governs = "stringer 2 of car north, bending",
                                  .joint = i % POINTS == 0 ? (double)INFINITY : 0.8 / part,
                                  .followed = s->followed[i]};
    }
    s->sweep = (ss_sweep){.axis_count = 1,
                          .axis = {{.unknown = &s->unknown[0],
                                    .joint = true,
                                    .whole = true,
                                    .count = POINTS,
                                    .value = s->values,
                                    .described = 1.0}},
                          .count = POINTS,
                          .done = POINTS,
                          .points = s->points,
                          .worst = 0,
                          .best = 6,
                          .described = 3,
                          .rating = {0.85, 1.15, 0.1, 10.0},
                          .results = s->bands,
                          .joint_full = 4};
    s->sweep.trials.follow.items = s->items;
    s->sweep.trials.follow.count = FOLLOWED;
    s->sweep.trials.watch.placements.traffic = &s->traffic;
    s->sweep.trials.watch.placements.traffic_count = 1;
    s->results = (ss_results){.command = "sweep", .bridge = &s->bridge, .sweep = &s->sweep};
}

/* A curve is straight between its values; 1.0 lies half way from 0.9 to 1.1, and the band from 0.1 to 10. */
static void test_sweep(void) {
    swept s;
    begin_sweep(&s);
    ss_figure figure = draw(ss_figure_sweep, &s.results, SS_UNITS_US);
    const ss_mark *const none = mark_of(&figure, SS_FIGURE_CURVE_1, SS_MARK_LINE, 0);
    const ss_mark *const curve = mark_of(&figure, SS_FIGURE_CURVE_1, SS_MARK_LINE, 1);
    const ss_mark *const rigid = mark_of(&figure, SS_FIGURE_CURVE_1, SS_MARK_LINE, 2);
    const ss_mark *const one = mark_of(&figure, SS_FIGURE_LIMIT, SS_MARK_LINE, 0);
    const ss_mark *const band = mark_of(&figure, SS_FIGURE_BAND, SS_MARK_POLYGON, 0);
    CU_ASSERT_TRUE_FATAL(none != NULL && curve != NULL && rigid != NULL && one != NULL && band != NULL);
    CU_ASSERT_EQUAL_FATAL(curve->count, POINTS - 2);
    CHECK_CLOSE(none->points[0].y, curve->points[0].y, 1e-9);
    CHECK_CLOSE(rigid->points[1].y, curve->points[4].y, 1e-9);
    CHECK_CLOSE(one->points[0].y, 0.5 * (curve->points[1].y + curve->points[3].y), 1e-9);
    CHECK_CLOSE(box_of_shape(band).left, curve->points[1].x, 1e-9);
    CHECK_CLOSE(box_of_shape(band).right, curve->points[3].x, 1e-9);
    /* Ratios of the stiffness are lengths, and the ends lie outside. */
    CHECK_CLOSE(curve->points[1].x - curve->points[0].x, curve->points[4].x - curve->points[3].x, 1e-9);
    CU_ASSERT_TRUE(none->points[1].x < curve->points[0].x && rigid->points[0].x > curve->points[4].x);
    CU_ASSERT_TRUE(none->points[0].y > one->points[0].y && rigid->points[0].y < one->points[0].y);
    /* The worst has its dot on the level of no joint, and what it is above. */
    CHECK_CLOSE(middle_of(mark_of(&figure, SS_FIGURE_DOT, SS_MARK_POLYGON, 0)).y, none->points[0].y, 1e-9);
    CU_ASSERT_PTR_NOT_NULL(text_of(&figure, "worst: 0.85"));
    CU_ASSERT_PTR_NOT_NULL(text_of(&figure, "as described: 1.00"));
    CU_ASSERT_PTR_NOT_NULL(text_of(&figure, "none"));
    CU_ASSERT_PTR_NOT_NULL(text_of(&figure, "rigid"));
    CU_ASSERT_PTR_NOT_NULL(text_of(&figure, "stiffness of joint seam, kip/in per in"));
    CU_ASSERT_PTR_NOT_NULL(text_of(&figure, "car south"));
    CU_ASSERT_PTR_NOT_NULL(text_of(&figure, "own factor down to 0.80"));
    ss_figure_destroy(&figure);
    check_figure("joint from none to rigid", ss_figure_sweep, &s.results);
}

/* Points without a rating are a gap; values without an order are dots. */
static void test_sweep_others(void) {
    static const char *words[] = {"closed", LONG_NAME, "open"};
    swept s;
    begin_sweep(&s);
    s.points[3].failure = "the bridge is free to move";
    s.points[3].rf = NONE;
    s.sweep.described = -1;
    ss_figure figure = draw(ss_figure_sweep, &s.results, SS_UNITS_US);
    const ss_mark *const first = mark_of(&figure, SS_FIGURE_CURVE_1, SS_MARK_LINE, 1);
    const ss_mark *const second = mark_of(&figure, SS_FIGURE_CURVE_1, SS_MARK_LINE, 2);
    CU_ASSERT_TRUE_FATAL(first != NULL && second != NULL);
    CU_ASSERT_EQUAL(first->count, 2);
    CU_ASSERT_EQUAL(second->count, 2);
    CU_ASSERT_TRUE(first->points[1].x < second->points[0].x);
    ss_figure_destroy(&figure);
    check_figure("a point without a rating", ss_figure_sweep, &s.results);
    begin_sweep(&s);
    s.unknown[0] = (ss_unknown){.name = "torsion",
                                .paths = &s.paths[1],
                                .path_count = 1,
                                .kind = SS_UNKNOWN_DISCRETE,
                                .text_count = 3};
    s.unknown[0].texts = words;
    s.unknown[0].words = words;
    s.sweep.axis[0] =
        (ss_sweep_axis){.unknown = &s.unknown[0], .count = 3, .value = s.others, .described = NONE};
    s.others[1] = 1.0;
    s.others[2] = 2.0;
    s.sweep.count = s.sweep.done = 3;
    s.sweep.best = 2;
    s.sweep.described = 1;
    figure = draw(ss_figure_sweep, &s.results, SS_UNITS_US);
    CU_ASSERT_EQUAL(count_marks(&figure, SS_FIGURE_CURVE_1, SS_MARK_LINE), 0);
    CU_ASSERT_EQUAL(count_marks(&figure, SS_FIGURE_BAND, SS_MARK_POLYGON), 0);
    CU_ASSERT_TRUE(count_marks(&figure, SS_FIGURE_DOT, SS_MARK_POLYGON) >= 3);
    ss_figure_destroy(&figure);
    check_figure("words", ss_figure_sweep, &s.results);
}

/* Nothing could be rated, or nothing limits: said in words, and no curve of the rating. */
static void test_sweep_nothing(void) {
    for (int k = 0; k < 2; k++) {
        swept s;
        begin_sweep(&s);
        for (int i = 0; i < POINTS; i++) {
            s.points[i].rf = k == 0 ? NONE : (double)INFINITY;
            s.points[i].failure = k == 0 ? "the bridge is free to move" : NULL;
            s.points[i].vehicle = -1;
        }
        s.sweep.worst = s.sweep.best = s.sweep.described = k == 0 ? -1 : 0;
        s.sweep.joint_full = -1;
        s.sweep.rating = (ss_sweep_band){NONE, NONE, NONE, NONE};
        ss_figure figure = draw(ss_figure_sweep, &s.results, SS_UNITS_US);
        CU_ASSERT_PTR_NOT_NULL(text_of(&figure, "No point of the sweep has a rating that trucks limit."));
        CU_ASSERT_PTR_NULL(text_of(&figure, "controlling rating"));
        ss_figure_destroy(&figure);
        check_figure("nothing to rate", ss_figure_sweep, &s.results);
    }
}

/* Two values: a line for each of the second, a tenth above the other. */
static void test_map(void) {
    swept s;
    begin_sweep(&s);
    s.unknown[1] = (ss_unknown){.name = "fy", .paths = &s.paths[1], .path_count = 1};
    s.others[1] = 1.0;
    s.others[2] = 2.0;
    s.sweep.axis_count = 2;
    s.sweep.axis[0] = (ss_sweep_axis){.unknown = &s.unknown[1], .count = 3, .value = s.others};
    s.sweep.axis[1] = (ss_sweep_axis){.unknown = &s.unknown[0], .count = POINTS, .value = s.values};
    s.values[6] = 1000.0;
    s.sweep.count = s.sweep.done = 3 * POINTS;
    ss_figure figure = draw(ss_figure_sweep, &s.results, SS_UNITS_SI);
    int lines = 0;
    for (int role = SS_FIGURE_CURVE_1; role <= SS_FIGURE_CURVE_4; role++) {
        lines += count_marks(&figure, (ss_figure_role)role, SS_MARK_LINE);
    }
    CU_ASSERT_EQUAL(lines, 6);
    const ss_mark *const line = mark_of(&figure, SS_FIGURE_CURVE_1, SS_MARK_LINE, 0);
    CU_ASSERT_EQUAL_FATAL(line->count, 3);
    CHECK_CLOSE(line->points[0].y - line->points[1].y, line->points[1].y - line->points[2].y, 1e-9);
    ss_figure_destroy(&figure);
    check_figure("two values", ss_figure_sweep, &s.results);
}

/* ---- comparison --------------------------------------------------------------------------------------- */

enum { VARIANTS = 26 };

/* Dots are as far from the axis as their factors are large; 1.0 twice as far as 0.5. */
static void test_compare(void) {
    ss_compare_variant variants[VARIANTS];
    const ss_bridge bridge = {.title = "Sedge Run"};
    ss_comparison all = {.variants = variants, .variant_count = 4, .rating = true};
    const ss_results results = {.command = "compare", .bridge = &bridge, .comparison = &all};
    for (int i = 0; i < VARIANTS; i++) {
        variants[i] = (ss_compare_variant){.name = i % 3 == 1 ? LONG_NAME : "ends",
                                           .rf = 0.25 * (1 + i % 6),
                                           .accuracy = NONE,
                                           .member = "sill of car north",
                                           .truck = "EV3"};
    }
    variants[3].outcome = SS_COMPARE_FAILED;
    variants[3].rf = NONE;
    variants[3].says =
        "the bridge is free to move, and so on at great length, until no more of it fits into the "
        "row in any way";
    ss_figure figure = draw(ss_figure_compare, &results, SS_UNITS_US);
    CU_ASSERT_EQUAL_FATAL(count_marks(&figure, SS_FIGURE_DOT, SS_MARK_POLYGON), 3);
    const double zero = text_of(&figure, "0")->points[0].x;
    const double one = mark_of(&figure, SS_FIGURE_LIMIT, SS_MARK_LINE, 0)->points[0].x;
    for (int i = 0; i < 3; i++) {
        CHECK_CLOSE(middle_of(mark_of(&figure, SS_FIGURE_DOT, SS_MARK_POLYGON, i)).x - zero,
                    (one - zero) * variants[i].rf, 1e-6);
    }
    CU_ASSERT_PTR_NOT_NULL(text_of(&figure, "0.75, best"));
    CU_ASSERT_PTR_NOT_NULL(text_of(&figure, "0.25, worst"));
    CU_ASSERT_PTR_NOT_NULL(text_of(&figure, "no result: the bridge is free to move"));
    ss_figure_destroy(&figure);
    check_figure("four variants", ss_figure_compare, &results);
    all.variant_count = VARIANTS;
    check_figure("many variants", ss_figure_compare, &results);
}

/* ---- decks -------------------------------------------------------------------------------------------- */

enum { DECKS = 40, OPTIONS = DECKS + 4 };

static ss_size_option deck(int i) {
    const bool passes = i % 8 >= 5;
    return (ss_size_option){.kind = SS_SIZE_DECK,
                            .name = "7 in, 4 ksi, sills tied, on props",
                            .thickness = 0.15 + 0.01 * (i % 8),
                            .tried = true,
                            .factor = {0.7 + 0.08 * (i % 8) + 0.004 * (double)(i / 8)},
                            .margin = 0.7 + 0.08 * (i % 8) + 0.004 * (double)(i / 8),
                            .governs = i % 2 == 0 ? "sill of car east in bending" : "plank 2 of car west",
                            .check = "",
                            .added = 250e3 + 30e3 * (i % 8),
                            .cost = NONE,
                            .passes = passes,
                            .frontier = i < 8};
}

/* Filled are those that pass; the chosen one has a ring about it. */
static void test_size(void) {
    static const char *const others[] = {"as it is", LONG_NAME, "cover plates", "no rating"};
    ss_size_option options[OPTIONS];
    const ss_bridge bridge = {.title = "Sedge Run"};
    const ss_sizing sizing = {.targets = {{1.0, -1, -1, -1}}, .target_count = 1};
    ss_size size = {
        .sizing = &sizing, .options = options, .count = OPTIONS, .by_cost = true, .best = 9, .nearest = 9};
    const ss_results results = {.command = "size", .bridge = &bridge, .size = &size};
    for (int i = 0; i < OPTIONS; i++) {
        options[i] = deck(i < 4 ? 0 : i - 4);
        if (i < 4) {
            options[i].kind = i == 0 ? SS_SIZE_AS_IT_IS : SS_SIZE_OTHER;
            options[i].name = others[i];
            options[i].added = 4e3 * i;
            options[i].margin = options[i].factor[0] = 0.5 + 0.02 * i;
            options[i].frontier = false;
        }
    }
    options[3].failure = "the bridge is free to move";
    ss_figure figure = draw(ss_figure_size, &results, SS_UNITS_US);
    int passing = 0;
    for (int i = 0; i < OPTIONS; i++) passing += options[i].passes;
    CU_ASSERT_EQUAL(count_marks(&figure, SS_FIGURE_DOT, SS_MARK_POLYGON), passing);
    CU_ASSERT_EQUAL(count_marks(&figure, SS_FIGURE_RING, SS_MARK_POLYGON), OPTIONS - 1 - passing + 1);
    /* Options 4 to 12 of one series: the ring is where the sixth deck of it stands, on a straight line. */
    const ss_mark *const frontier = mark_of(&figure, SS_FIGURE_CURVE_3, SS_MARK_LINE, 0);
    CU_ASSERT_PTR_NOT_NULL_FATAL(frontier);
    CU_ASSERT_EQUAL_FATAL(frontier->count, 8);
    bool ringed = false;
    for (int i = 0; i < OPTIONS; i++) {
        const ss_mark *const ring = mark_of(&figure, SS_FIGURE_RING, SS_MARK_POLYGON, i);
        if (ring != NULL && box_of_shape(ring).right - box_of_shape(ring).left > 4.0) {
            CHECK_CLOSE(middle_of(ring).x, frontier->points[5].x, 1e-6);
            CHECK_CLOSE(middle_of(ring).y, frontier->points[5].y, 1e-6);
            ringed = true;
        }
    }
    CU_ASSERT_TRUE(ringed);
    CHECK_CLOSE(frontier->points[1].x - frontier->points[0].x, frontier->points[7].x - frontier->points[6].x,
                1e-6);
    CU_ASSERT_PTR_NOT_NULL(text_of(&figure, "cheapest that passes: 7 in"));
    CU_ASSERT_PTR_NOT_NULL(text_of(&figure, "a  stops"));
    CU_ASSERT_PTR_NOT_NULL(text_of(&figure, "Not drawn: 1 option"));
    ss_figure_destroy(&figure);
    check_figure("many decks", ss_figure_size, &results);
    size.best = -1;
    check_figure("none passes", ss_figure_size, &results);
}

static const test_case cases[] = {
    {"a joint from none to rigid: curve, ends, band, 1.0", test_sweep},
    {"gaps and words along a sweep", test_sweep_others},
    {"a sweep without a rating", test_sweep_nothing},
    {"two values: a line for each of the second", test_map},
    {"variants on one axis", test_compare},
    {"decks that pass, and what stops others", test_size},
};

int main(void) {
    return RUN_SUITE("figures of studies", cases);
}
