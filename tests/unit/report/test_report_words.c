/* test_report_words.c - lengths as a tape reads them, values of a description in other units, names in a
 * sentence. */
#include "report/report_words.h"
#include "support/suite.h"

/* A car with a sill and a numbered stringer. */
typedef struct worded {
    ss_bridge bridge;
    ss_car cars[1];
    ss_line lines[2];
    ss_floor_beam beams[2];
    ss_joint joints[1];
    ss_results results;
    ss_report report;
    ss_builder builder;
} worded;

static void start(worded *w, ss_unit_system units) {
    *w = (worded){.cars = {{.name = "north"}},
                  .lines = {{.name = "sill"}, {.name = "stringer 4"}},
                  .beams = {{.name = "bearers 2", .x = 9.0 * 0.3048},
                            {.name = "slab strip 3", .x = 12.0 * 0.3048, .strip = 1.2}},
                  .joints = {{.name = "slab", .slab = true}}};
    w->bridge.cars = w->cars;
    w->bridge.lines = w->lines;
    w->bridge.floor_beams = w->beams;
    w->bridge.joints = w->joints;
    w->bridge.car_count = 1;
    w->results.bridge = &w->bridge;
    w->report.units = units;
    w->builder = (ss_builder){.report = &w->report, .results = &w->results};
}

static void test_lengths(void) {
    worded w;
    start(&w, SS_UNITS_US);
    const double foot = 0.3048;
    CU_ASSERT_STRING_EQUAL(ss_words_length(&w.builder, 1.75 * foot), "1.75 ft");
    CU_ASSERT_STRING_EQUAL(ss_words_length(&w.builder, 4.1 * foot), "4.1 ft");
    CU_ASSERT_STRING_EQUAL(ss_words_length(&w.builder, 30.0 * foot), "30 ft");
    /* 4 ft 2-1/4 in is on a tape, 7.31872 ft is not. */
    CU_ASSERT_STRING_EQUAL(ss_words_length(&w.builder, 50.25 / 12.0 * foot), "4.19 ft");
    CU_ASSERT_STRING_EQUAL(ss_words_length(&w.builder, 7.31872 * foot), "7.3 ft");
    ss_report_destroy(&w.report);
    start(&w, SS_UNITS_SI);
    CU_ASSERT_STRING_EQUAL(ss_words_length(&w.builder, 3.146), "3.15 m");
    ss_report_destroy(&w.report);
}

/* 29000 ksi x 6.894757 = 199948 MPa; 490 lb/ft3 x 0.157087 = 76.97 kN/m3. */
static void test_given_values(void) {
    worded w;
    start(&w, SS_UNITS_SI);
    CU_ASSERT_STRING_EQUAL(ss_words_given(&w.builder, "29000 ksi"), "199900 MPa");
    CU_ASSERT_STRING_EQUAL(ss_words_given(&w.builder, "490 lb/ft3"), "76.97 kN/m3");
    CU_ASSERT_STRING_EQUAL(ss_words_given(&w.builder, "2 ft"), "0.6096 m");
    CU_ASSERT_STRING_EQUAL(ss_words_given(&w.builder, "1/4 in"), "6.35 mm");
    CU_ASSERT_STRING_EQUAL(ss_words_given(&w.builder, "0, 7 ft"), "0 m, 2.134 m");
    CU_ASSERT_STRING_EQUAL(ss_words_given(&w.builder, "250 MPa"), "250 MPa");
    CU_ASSERT_STRING_EQUAL(ss_words_given(&w.builder, "alone, beside"), "alone, beside");
    CU_ASSERT_STRING_EQUAL(ss_words_given(&w.builder, "single trip"), "single trip");
    CU_ASSERT_STRING_EQUAL(ss_words_given(&w.builder, "1.25"), "1.25");
    CU_ASSERT_STRING_EQUAL(ss_words_given(&w.builder, "true"), "true");
    ss_report_destroy(&w.report);
    start(&w, SS_UNITS_US);
    CU_ASSERT_STRING_EQUAL(ss_words_given(&w.builder, "29000 ksi"), "29000 ksi");
    CU_ASSERT_STRING_EQUAL(ss_words_given(&w.builder, "254 mm"), "10 in");
    CU_ASSERT_STRING_EQUAL(ss_words_given(&w.builder, "800"), "800");
    ss_report_destroy(&w.report);
}

static void test_members(void) {
    worded w;
    start(&w, SS_UNITS_US);
    CU_ASSERT_STRING_EQUAL(ss_words_the_member(&w.builder, SS_MEMBER_LINE, 0), "the sill of car north");
    CU_ASSERT_STRING_EQUAL(ss_words_the_member(&w.builder, SS_MEMBER_LINE, 1), "stringer 4 of car north");
    CU_ASSERT_STRING_EQUAL(ss_words_the_member(&w.builder, SS_MEMBER_BEAM, 0),
                           "floor beam bearers 2 of car north");
    ss_report_destroy(&w.report);
}

/* A strip of a slab is no floor beam, and the slab over a gap no joint of its own name. */
static void test_slab(void) {
    worded w;
    start(&w, SS_UNITS_US);
    const ss_effect on = {.member = SS_MEMBER_BEAM, .index = 1, .at = 3.0 * 0.3048};
    const ss_effect beam = {.member = SS_MEMBER_BEAM, .index = 0, .at = 3.0 * 0.3048};
    CU_ASSERT_STRING_EQUAL(ss_words_the_member(&w.builder, SS_MEMBER_BEAM, 1),
                           "the slab of car north at 12 ft");
    CU_ASSERT_STRING_EQUAL(ss_words_place(&w.builder, &on), "3 ft from the left edge");
    CU_ASSERT_STRING_EQUAL(ss_words_place(&w.builder, &beam), "at 9 ft, 3 ft from the left edge");
    CU_ASSERT_STRING_EQUAL(ss_words_member(&w.builder, SS_MEMBER_JOINT, 0), "slab over the gap");
    CU_ASSERT_TRUE(ss_words_strip(&w.bridge, SS_MEMBER_BEAM, 1));
    CU_ASSERT_FALSE(ss_words_strip(&w.bridge, SS_MEMBER_BEAM, 0));
    CU_ASSERT_FALSE(ss_words_strip(&w.bridge, SS_MEMBER_LINE, 1));
    ss_report_destroy(&w.report);
}

/* A vehicle that no check rates is not told of in a rating, and in an analysis it is. */
static void test_who_is_told_of(void) {
    worded w;
    start(&w, SS_UNITS_US);
    int governing[4] = {-1, -1, 3, -1};
    ss_ratings rated = {.check_count = 2, .traffic_count = 2, .governing = governing};
    CU_ASSERT_TRUE(ss_words_told(&w.results, 1));
    w.results.rated = &rated;
    CU_ASSERT_TRUE(ss_words_told(&w.results, 0));
    CU_ASSERT_FALSE(ss_words_told(&w.results, 1));
    CU_ASSERT_FALSE(ss_words_told(&w.results, 2));
}

int main(void) {
    static const test_case cases[] = {
        {"lengths", test_lengths}, {"given values", test_given_values},     {"members", test_members},
        {"slab", test_slab},       {"who is told of", test_who_is_told_of},
    };
    return RUN_SUITE("words of a report", cases);
}
