/* test_fatigue.c - stress ranges against influence lines, lives against hand calculation, and what cycles are
 * counted by. */
#include "fatigue_samples.h"

/* The fatigue truck of AASHTO LRFD 3.6.1.4.1 (from memory): 8, 32 and 32 kip, 14 and 30 ft apart. */
static const double axle[3] = {8.0, 32.0, 32.0};
static const double behind[3] = {0.0, 14.0, 44.0};

/* ---- influence lines ---------------------------------------------------------------------------------- */

/* Moment (ft) at x of one span L under a unit load at a. */
static double simple_moment(double L, double x, double a) {
    if (a <= 0.0 || a >= L) {
        return 0.0;
    }
    return a < x ? a * (L - x) / L : x * (L - a) / L;
}

/* The same of the first of two equal spans L, by the equation of three moments. */
static double two_span_moment(double L, double x, double a) {
    if (a <= 0.0 || a >= 2.0 * L) {
        return 0.0;
    }
    const double from = a <= L ? a : 2.0 * L - a;
    const double support = -from * (L * L - from * from) / (4.0 * L * L);
    return simple_moment(L, x, a) + support * x / L;
}

/* Least and most moment (kip ft) as the truck rolls; steps of a hundredth of a foot, which put axles on the
 * section. */
static void roll_beam(double (*line)(double, double, double), double L, double all, double x, bool backward,
                      double out[2]) {
    out[0] = out[1] = 0.0;
    const int steps = (int)lround((all + 44.0) * 100.0);
    for (int i = 0; i <= steps; i++) {
        double moment = 0.0;
        for (int k = 0; k < 3; k++) {
            const double at = 0.01 * i - behind[k];
            moment += axle[k] * line(L, x, backward ? all - at : at);
        }
        out[0] = fmin(out[0], moment);
        out[1] = fmax(out[1], moment);
    }
}

static double range_of(double (*line)(double, double, double), double L, double all, double x) {
    double range = 0.0;
    for (int backward = 0; backward < 2; backward++) {
        double m[2];
        roll_beam(line, L, all, x, backward == 1, m);
        range = fmax(range, m[1] - m[0]);
    }
    return range;
}

/* With the middle axle at midspan of 60 ft: 32 60 / 4 + 8 (30 - 14) / 2 = 544 kip ft, and 0 when it has gone.
 */
static void test_simple_span(void) {
    const long live = ss_memory_live();
    rolled r;
    start(BEAM("60", "0, 60", "200") "fatigue = { years = 10; adtt = 30; details = ( " DETAIL(
              "mid", "E", "x = \"30 ft\";") ", " DETAIL("side", "C", "x = \"17 ft\";") " ); };",
          &r);
    CU_ASSERT_EQUAL_FATAL(r.results.count, 2);
    CHECK_CLOSE(r.results.items[0].detail.range, ALLOWANCE * 544.0 * 12.0 / 377.0 * KSI, 1e-7);
    CHECK_CLOSE(r.results.items[0].live[1], ALLOWANCE * 544.0 * KIP * FOOT, 1e-7);
    CHECK_CLOSE(r.results.items[1].detail.range,
                ALLOWANCE * range_of(simple_moment, 60.0, 60.0, 17.0) * 12.0 / 377.0 * KSI, 1e-7);
    /* 200 lb/ft: w L2 / 8 = 90 kip ft. */
    CHECK_CLOSE(r.results.items[0].dead_stress, 90.0 * 12.0 / 377.0 * KSI, 1e-7);
    finish(&r);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

static void test_two_spans(void) {
    static const struct { double x; } row[] = {{16.0}, {20.0}, {36.0}, {39.0}};
    rolled r;
    start(
        BEAM("80", "0, 40, 80", "200") "fatigue = { years = 10; adtt = 30; details = ( " DETAIL(
            "a", "E",
            "x = \"16 ft\";") ", " DETAIL("b", "E",
                                          "x = \"20 ft\";") ", " DETAIL("c", "E",
                                                                        "x = \"36 ft\"; face = "
                                                                        "\"top\";") ", " DETAIL("d", "E",
                                                                                                "x = "
                                                                                                "\"39 "
                                                                                                "ft\";"
                                                                                                " face"
                                                                                                " = "
                                                                                                "\"top"
                                                                                                "\";") " ); "
                                                                                                       "};",
        &r);
    CU_ASSERT_EQUAL_FATAL(r.results.count, ENTRIES(row));
    for (int i = 0; i < ENTRIES(row); i++) {
        const double expected = ALLOWANCE * range_of(two_span_moment, 40.0, 80.0, row[i].x) * KIP * FOOT;
        const ss_fatigue_result *const one = &r.results.items[i];
        check_relative("range of two spans", one->live[1] - one->live[0], expected, 1e-6);
        double m[2];
        roll_beam(two_span_moment, 40.0, 80.0, row[i].x, one->backward, m);
        check_near("least", one->live[0], ALLOWANCE * m[0] * KIP_FOOT, 1e-6, expected);
        check_near("most", one->live[1], ALLOWANCE * m[1] * KIP_FOOT, 1e-6, expected);
    }
    CHECK_CLOSE(r.results.items[2].divisor, 371.0 * pow(0.0254, 3.0), 1e-9);
    finish(&r);
}

/* ---- lives -------------------------------------------------------------------------------------------- */

/* Fatigue of LRFD 6.6.1.2 (9th ed.) and the Manual 7.2.5, from memory. Category E: A = 11e8 ksi3, threshold
 * 4.5 ksi, R_R of the minimum life 1.0. 544 kip ft with 15 % on 377 in3 are 19.9130 ksi; with 0.80 15.9304
 * ksi, cubed 4042.8 ksi3: 272 089 cycles. A span of 60 ft has 1 cycle a truck; at 30 a day 24.848 years. */
static void test_life(void) {
    rolled r;
    start(BEAM("60", "0, 60", "200") "fatigue = { years = 10; adtt = 30; details = ( " DETAIL(
              "mid", "E", "x = \"30 ft\";") " ); };",
          &r);
    const ss_fatigue_result *const one = &r.results.items[0];
    const double factored = 0.80 * ALLOWANCE * 544.0 * 12.0 / 377.0;
    const double cycles = 11e8 / (factored * factored * factored);
    CHECK_CLOSE(cycles, 272089.0, 1e-4);
    CU_ASSERT_EQUAL(one->member, SS_FATIGUE_SIMPLE_SPAN);
    CHECK_CLOSE(one->detail.cycles_per_truck, 1.0, 0.0);
    CU_ASSERT(!one->life.infinite);
    CHECK_CLOSE(one->life.total, cycles / (365.0 * 30.0), 1e-6);
    CHECK_CLOSE(one->life.total, 24.848, 1e-3);
    CHECK_CLOSE(one->life.remaining, one->life.total - 10.0, 1e-9);
    ss_working working = {.count = 0};
    ss_fatigue_work(&r.bridge, one, &working);
    CU_ASSERT(working.count > 8 && working.count < SS_WORKING_MOST);
    CHECK_CLOSE(working.steps[working.count - 1].value, one->life.remaining, 1e-12);
    finish(&r);
}

/* LRFD 6.6.1.2.1: the top of a simple span is only pressed; its bottom is pulled. A heavy span holds the
 * bottom of an overhang in compression, unless the truck between the supports pulls more than that. */
static void test_compression(void) {
    rolled r;
    start(BEAM("60", "0, 60", "200") "fatigue = { years = 10; adtt = 30; rail_life_used = 0.5; details = "
                                     "( " DETAIL("top", "E'", "x = \"30 ft\"; face = \"top\";") ", " DETAIL(
                                         "bottom", "E'", "x = \"30 ft\";") " ); };",
          &r);
    CU_ASSERT(r.results.items[0].compressed && r.results.items[0].life.infinite);
    CU_ASSERT(isinf(r.results.items[0].life.remaining));
    CU_ASSERT(r.results.items[0].dead_stress < 0.0 && r.results.items[0].tension == 0.0);
    CU_ASSERT(!r.results.items[1].compressed && r.results.items[1].life.remaining == 0.0);
    CU_ASSERT_EQUAL(ss_fatigue_worst(&r.results), 1);
    finish(&r);
    /* Two spans: a foot from the middle support the bottom is pressed by the dead load, w L2 / 8 less the
     * slope; 1.75 times what the truck pulls in the other span decides. */
    static const struct {
        const char *text;
        bool compressed;
    } row[] = {
        {BEAM("80", "0, 40, 80", "10") "fatigue = { years = 10; adtt = 30; details = ( " DETAIL(
             "b", "E", "x = \"33 ft\";") " ); };",
         false},
        {BEAM("80", "0, 40, 80", "9000") "fatigue = { years = 10; adtt = 30; details = ( " DETAIL(
             "b", "E", "x = \"33 ft\";") " ); };",
         true},
    };
    for (int i = 0; i < ENTRIES(row); i++) {
        start(row[i].text, &r);
        const ss_fatigue_result *const one = &r.results.items[0];
        double m[2];
        roll_beam(two_span_moment, 40.0, 80.0, 33.0, true, m);
        const double back = m[1];
        roll_beam(two_span_moment, 40.0, 80.0, 33.0, false, m);
        CHECK_CLOSE(one->tension, ALLOWANCE * fmax(back, m[1]) * 12.0 / 377.0 * KSI, 1e-6);
        CU_ASSERT(one->dead_stress < 0.0);
        CU_ASSERT_EQUAL(one->compressed, 1.75 * one->tension < -one->dead_stress);
        CU_ASSERT_EQUAL(one->compressed, row[i].compressed);
        finish(&r);
    }
}

/* LRFD Table 6.6.1.2.5-2 (from memory), by where a place is. */
static void test_members(void) {
    static const struct {
        const char *x;
        ss_fatigue_member member;
        double length, cycles;
    } row[] = {
        {"2 ft", SS_FATIGUE_CANTILEVER, 5.0, 5.0},
        {"5 ft", SS_FATIGUE_CANTILEVER, 5.0, 5.0},
        {"6 ft", SS_FATIGUE_CONTINUOUS_ELSEWHERE, 50.0, 1.0},
        {"49 ft", SS_FATIGUE_CONTINUOUS_ELSEWHERE, 50.0, 1.0},
        {"51 ft", SS_FATIGUE_CONTINUOUS_PIER, 50.0, 1.5},
        {"55 ft", SS_FATIGUE_CONTINUOUS_PIER, 30.0, 2.0},
        {"57 ft", SS_FATIGUE_CONTINUOUS_PIER, 30.0, 2.0},
        {"70 ft", SS_FATIGUE_CONTINUOUS_ELSEWHERE, 30.0, 2.0},
        {"85 ft", SS_FATIGUE_CONTINUOUS_ELSEWHERE, 30.0, 2.0},
    };
    for (int i = 0; i < ENTRIES(row); i++) {
        rolled r;
        ss_text text = {0};
        ss_text_printf(
            &text,
            BEAM("85", "5, 55, 85", "200") "fatigue = { years = 10; adtt = 30; details = ( { name = \"d\"; "
                                           "category = \"E\"; car = \"only\"; line = \"spine\"; x = "
                                           "\"%s\"; } ); };",
            row[i].x);
        start(text.data, &r);
        const ss_fatigue_result *const one = &r.results.items[0];
        CHECK_ROW(one->member == row[i].member, row[i].x);
        check_relative(row[i].x, one->length, row[i].length * FOOT, 1e-9);
        check_relative(row[i].x, one->detail.cycles_per_truck, row[i].cycles, 0.0);
        finish(&r);
        ss_text_destroy(&text);
    }
    /* Stringers span between floor beams 8 ft apart, which is the spacing of those too. */
    rolled r;
    start_sample("rating = {", "rating = {",
                 SAMPLE_DETAILS
                 ", { name = \"beam\"; category = \"E\"; car = \"left\"; floor_beam = \"bearers 2\"; y = "
                 "\"4 ft\"; }",
                 &r);
    CU_ASSERT_EQUAL(r.results.items[0].member, SS_FATIGUE_SIMPLE_SPAN);
    CHECK_CLOSE(r.results.items[0].length, 24.0 * FOOT, 1e-9);
    CU_ASSERT_EQUAL(r.results.items[3].member, SS_FATIGUE_CONTINUOUS_PIER);
    CHECK_CLOSE(r.results.items[3].length, 8.0 * FOOT, 1e-9);
    CU_ASSERT_EQUAL(r.results.items[5].member, SS_FATIGUE_TRANSVERSE);
    CHECK_CLOSE(r.results.items[5].length, 8.0 * FOOT, 1e-9);
    finish(&r);
    /* Strips of a slab 4 ft apart carry no stringer. */
    start_sample("rating = {",
                 "slab = { thickness = \"6 in\"; concrete = { strength = \"4 ksi\"; }; joint = \"open\"; };\n"
                 "rating = {",
                 SAMPLE_DETAILS
                 ", { name = \"beam\"; category = \"E\"; car = \"left\"; floor_beam = \"bearers 2\"; y = "
                 "\"4 ft\"; }",
                 &r);
    CU_ASSERT(r.bridge.slab.given);
    CU_ASSERT_EQUAL(r.results.items[3].member, SS_FATIGUE_CONTINUOUS_PIER);
    CHECK_CLOSE(r.results.items[3].length, 8.0 * FOOT, 1e-9);
    CHECK_CLOSE(r.results.items[5].length, 8.0 * FOOT, 1e-9);
    finish(&r);
}

/* ---- what does not go ---------------------------------------------------------------------------------- */

static const char *failure_of(const rolled *r) {
    return r->results.failure == NULL ? "" : r->results.failure;
}

static void test_no_room(void) {
    rolled r;
    start_sample("roadway = { from = \"1 ft\"; to = \"15 ft\"; }",
                 "roadway = { from = \"1 ft\"; to = \"6 ft\"; }", SAMPLE_DETAILS, &r);
    CU_ASSERT_EQUAL(r.results.count, 0);
    CU_ASSERT_STRING_EQUAL(failure_of(&r), "the roadway has no room for the fatigue truck");
    CU_ASSERT_EQUAL(ss_fatigue_worst(&r.results), -1);
    finish(&r);
}

/* Bearings that only push, both within the middle third: a truck at an end tips the car. */
static void test_tipping(void) {
    static char text[4096];
    rolled r;
    snprintf(text, sizeof text, "%s",
             BEAM("41", "14.5, 26.5", "311") "fatigue = { years = 10; adtt = 30; details = ( " DETAIL(
                 "mid", "E", "x = \"20 ft\";") " ); };");
    char *const action = strstr(text, "two-way");
    CU_ASSERT_PTR_NOT_NULL_FATAL(action);
    for (int i = 0; action != NULL && "contact"[i] != '\0'; i++) {
        action[i] = "contact"[i];
    }
    start(text, &r);
    CU_ASSERT_EQUAL(r.results.count, 0);
    CU_ASSERT_STRING_EQUAL(failure_of(&r),
                           "the fatigue truck tips the bridge, so that its passage has no range");
    finish(&r);
}

static void test_nothing_asked(void) {
    rolled r;
    start(BEAM("60", "0, 60", "200"), &r);
    CU_ASSERT(r.results.count == 0 && r.results.failure == NULL);
    finish(&r);
}

static void test_memory(void) {
    const long live = ss_memory_live();
    rolled r;
    ss_error error = {0};
    start(BEAM("60", "0, 60", "200") "fatigue = { years = 10; adtt = 30; details = ( " DETAIL(
              "mid", "E", "x = \"30 ft\";") " ); };",
          &r);
    const double range = r.results.items[0].detail.range;
    long n = 0;
    for (; n < 20000; n++) {
        ss_fatigue_results again = {0};
        ss_memory_fail_from(n);
        const ss_status status = ss_fatigue_compute(&r.description, &r.bridge, &again, &error);
        ss_memory_fail_from(-1);
        if (status == SS_OK) {
            CHECK_CLOSE(again.items[0].detail.range, range, 0.0);
            ss_fatigue_destroy(&again);
            break;
        }
        CU_ASSERT_EQUAL_FATAL(status, SS_ERROR_MEMORY);
    }
    CU_ASSERT(n > 20 && n < 20000);
    finish(&r);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

int main(void) {
    static const test_case cases[] = {
        {"simple span", test_simple_span},
        {"two spans", test_two_spans},

        {"life", test_life},
        {"compression", test_compression},
        {"cycles by member", test_members},
        {"no room", test_no_room},
        {"tipping", test_tipping},
        {"nothing asked", test_nothing_asked},
        {"memory", test_memory},
    };
    return RUN_SUITE("fatigue of details", cases);
}
