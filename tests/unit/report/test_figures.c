/* test_figures.c - the figures of the example bridges: all that is described is on them, and no text is on
 * another. */
#include "unit/report/figure_samples.h"

typedef ss_status figure_maker(const ss_results *results, ss_unit_system units, ss_figure *out,
                               ss_error *error);

static const struct {
    const char *name;
    figure_maker *make;
} figures[] = {{"plan", ss_figure_plan}, {"section", ss_figure_section}, {"elevation", ss_figure_elevation}};

static ss_figure draw(figure_maker *make, const ss_bridge *bridge, ss_unit_system units) {
    const ss_results results = {.command = "draw", .bridge = bridge};
    ss_figure figure;
    ss_error error = {0};
    CHECK_OK(make(&results, units, &figure, &error), &error);
    return figure;
}

static void test_no_overlap(void) {
    for (int i = 0; i < ENTRIES(bridges); i++) {
        ss_bridge bridge = read_bridge(i);
        for (int k = 0; k < 2 * ENTRIES(figures); k++) {
            char name[80];
            ss_figure figure = draw(figures[k / 2].make, &bridge, k % 2 == 0 ? SS_UNITS_US : SS_UNITS_SI);
            snprintf(name, sizeof name, "%s, %s", bridges[i].file, figures[k / 2].name);
            CU_ASSERT_STRING_EQUAL(figure.key, figures[k / 2].name);
            CU_ASSERT_TRUE(strlen(figure.title) > 0 && strlen(figure.text) > 0);
            check_no_overlap(name, &figure);
            ss_figure_destroy(&figure);
        }
        ss_bridge_destroy(&bridge);
    }
}

static void test_plan_has_all(void) {
    for (int i = 0; i < ENTRIES(bridges); i++) {
        ss_bridge b = read_bridge(i);
        ss_figure figure = draw(ss_figure_plan, &b, SS_UNITS_US);
        int roles[3] = {0, 0, 0};
        int beams = 0;
        for (int k = 0; k < b.line_count; k++) {
            roles[b.lines[k].role]++;
            CHECK_ROW(texts_like(&figure, b.lines[k].whole) > 0, b.lines[k].whole);
        }
        for (int k = 0; k < b.floor_beam_count; k++) {
            beams += b.floor_beams[k].strip == 0.0;
        }
        /* One main girder's role draws the rule of the heading too. */
        CU_ASSERT_EQUAL(marks_of(&figure, SS_FIGURE_MAIN_GIRDER, SS_MARK_LINE), roles[SS_ROLE_MAIN] + 1);
        CU_ASSERT_EQUAL(marks_of(&figure, SS_FIGURE_STRINGER, SS_MARK_LINE), roles[SS_ROLE_STRINGER]);
        CU_ASSERT_EQUAL(marks_of(&figure, SS_FIGURE_FLOOR_BEAM, SS_MARK_LINE), beams);
        CU_ASSERT_EQUAL(marks_of(&figure, SS_FIGURE_BEARING, SS_MARK_POLYGON) +
                            marks_of(&figure, SS_FIGURE_CONTACT, SS_MARK_POLYGON),
                        b.bearing_count);
        CU_ASSERT_EQUAL(marks_of(&figure, SS_FIGURE_FINDING, SS_MARK_POLYGON) +
                            marks_of(&figure, SS_FIGURE_FINDING, SS_MARK_LINE),
                        b.finding_count);
        /* A number at its place and one in the list. */
        CU_ASSERT_EQUAL(marks_of(&figure, SS_FIGURE_BALLOON, SS_MARK_POLYGON), 2 * b.finding_count);
        ss_figure_destroy(&figure);
        ss_bridge_destroy(&b);
    }
}

/* 60 ft of car: a main girder is as long as its car on the page, and y is to the same scale as x. */
static void test_plan_to_scale(void) {
    ss_bridge b = read_bridge(0);
    ss_figure figure = draw(ss_figure_plan, &b, SS_UNITS_US);
    double along = 0.0;
    double across = 0.0;
    for (int i = 0; i < figure.count; i++) {
        const ss_mark *const mark = &figure.marks[i];
        if (mark->role == SS_FIGURE_OUTLINE && mark->kind == SS_MARK_POLYGON) {
            along = mark->points[2].x - mark->points[0].x;
            across = mark->points[2].y - mark->points[0].y;
        }
    }
    CHECK_CLOSE(along / across, 60.0 / (9.0 + 4.0 / 12.0), 1e-9);
    ss_figure_destroy(&figure);
    ss_bridge_destroy(&b);
}

/* The pitting of the north girder lies where it was found: 24 ft to 29 ft of 60 ft. */
static void test_finding_in_place(void) {
    ss_bridge b = read_bridge(0);
    ss_figure figure = draw(ss_figure_elevation, &b, SS_UNITS_US);
    const ss_mark *girder = NULL;
    const ss_mark *seen = NULL;
    for (int i = figure.count - 1; i >= 0; i--) {
        const ss_mark *const mark = &figure.marks[i];
        girder = mark->role == SS_FIGURE_GIRDER_SIDE ? mark : girder;
        seen = mark->role == SS_FIGURE_FINDING && mark->kind == SS_MARK_POLYGON ? mark : seen;
    }
    CU_ASSERT_PTR_NOT_NULL_FATAL(girder);
    CU_ASSERT_PTR_NOT_NULL_FATAL(seen);
    const double x0 = girder->points[1].x;
    const double foot = (girder->points[0].x - x0) / 60.0;
    CHECK_CLOSE(seen->points[0].x, x0 + 24.0 * foot, 1e-9);
    CHECK_CLOSE(seen->points[2].x, x0 + 29.0 * foot, 1e-9);
    /* 13 in at the ends, 26 in at midspan: the girder is twice as deep there. */
    const double top = girder->points[0].y;
    double deepest = 0.0;
    for (int i = 0; i < girder->count; i++) {
        deepest = fmax(deepest, girder->points[i].y - top);
    }
    CHECK_CLOSE(deepest, 2.0 * (girder->points[2].y - top), 1e-9);
    CU_ASSERT_EQUAL(texts_like(&figure, "26 in"), 2);
    ss_figure_destroy(&figure);
    ss_bridge_destroy(&b);
}

/* The area of the plates on the page, over the square of the scale, is that of the sections. */
static void test_section_area(void) {
    ss_bridge b = read_bridge(0);
    ss_figure figure = draw(ss_figure_section, &b, SS_UNITS_US);
    double drawn = 0.0;
    double described = 0.0;
    double mm = 0.0; /* a metre on the page, from the clear roadway of 17 ft */
    double curb[2] = {0.0, 0.0};
    int curbs = 0;
    for (int i = 0; i < figure.count; i++) {
        const ss_mark *const mark = &figure.marks[i];
        if (mark->role == SS_FIGURE_STEEL) {
            drawn += fabs((mark->points[2].x - mark->points[0].x) * (mark->points[2].y - mark->points[0].y));
        } else if (mark->role == SS_FIGURE_GROUND && curbs < 2) {
            curb[curbs] = mark->points[curbs == 0 ? 2 : 0].x;
            curbs++;
        }
    }
    CU_ASSERT_EQUAL_FATAL(curbs, 2);
    mm = (curb[1] - curb[0]) / (17.0 * FOOT);
    for (int i = 0; i < b.line_count; i++) {
        ss_section_properties p;
        if (b.lines[i].x0 <= 30.0 * FOOT && b.lines[i].x1 >= 30.0 * FOOT) {
            CU_ASSERT_EQUAL_FATAL(ss_bridge_line_section(&b, i, 30.0 * FOOT, true, &p), SS_OK);
            described += p.A;
        }
    }
    CHECK_CLOSE(drawn / (mm * mm), described, 1e-9);
    ss_figure_destroy(&figure);
    ss_bridge_destroy(&b);
}

static void test_slab(void) {
    ss_bridge b = read_bridge(4);
    ss_figure figure = draw(ss_figure_section, &b, SS_UNITS_US);
    CU_ASSERT_TRUE(b.slab.given);
    CU_ASSERT_TRUE(marks_of(&figure, SS_FIGURE_SLAB, SS_MARK_POLYGON) > 0);
    ss_figure_destroy(&figure);
    ss_bridge_destroy(&b);
}

static void test_memory(void) {
    ss_bridge b = read_bridge(0);
    const ss_results results = {.command = "draw", .bridge = &b};
    const long live = ss_memory_live();
    for (int k = 0; k < ENTRIES(figures); k++) {
        ss_status status = SS_ERROR_MEMORY;
        for (int n = 0; status != SS_OK && n < 500; n++) {
            ss_figure figure;
            ss_memory_fail_from(n);
            status = figures[k].make(&results, SS_UNITS_US, &figure, NULL);
            ss_memory_fail_from(-1);
            CU_ASSERT_TRUE(status == SS_OK || (status == SS_ERROR_MEMORY && figure.count == 0));
            ss_figure_destroy(&figure);
            CU_ASSERT_EQUAL(ss_memory_live(), live);
        }
        CU_ASSERT_EQUAL(status, SS_OK);
    }
    ss_bridge_destroy(&b);
}

static const test_case cases[] = {
    {"no text lies on another or off the page", test_no_overlap},
    {"the plan has every line, beam, bearing and finding", test_plan_has_all},
    {"the plan is to scale", test_plan_to_scale},
    {"a finding lies where it was seen, the taper as taped", test_finding_in_place},
    {"the plates of the section have their area", test_section_area},
    {"a slab is drawn", test_slab},
    {"every allocation fails in turn", test_memory},
};

int main(void) {
    return RUN_SUITE("figures", cases);
}
