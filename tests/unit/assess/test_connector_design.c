/* test_connector_design.c - the layout of connectors: what governs, given pitches, and what would help. */
#include <string.h>

#include "sillspan/connector.h"
#include "support/suite.h"
#include "working_checks.h"

#define FC (4.0 * KSI)
#define EC (3644.0 * KSI)

/* One 3/4 in stud carries 0.85 x 26.507 = 22.531 kip, and 3.09375 kip of range for ever. */
static ss_connectors studs(int per_row) {
    return (ss_connectors){.kind = SS_CONNECTOR_STUDS,
                           .diameter = 0.75 * INCH,
                           .height = 4.0 * INCH,
                           .tensile = 60.0 * KSI,
                           .per_row = per_row,
                           .across = 4.0 * INCH};
}

static ss_connector_demand demand_of(const ss_connectors *c, const ss_connector_segment *segments,
                                     int count) {
    return (ss_connector_demand){.connectors = c,
                                 .place = {.plate = 0.5 * INCH,
                                           .flange = 16.0 * INCH,
                                           .web_depth = 20.0 * INCH,
                                           .thickness = 7.0 * INCH},
                                 .fc = FC,
                                 .E = EC,
                                 .cycles = (double)INFINITY,
                                 .degree = 1.0,
                                 .segments = segments,
                                 .segment_count = count,
                                 .units = SS_UNITS_US};
}

/* 900 kip in 30 ft by rows of two: 900 / 22.53 = 39.9, 40 studs, 20 rows, 18 in apart. */
static void test_strength_governs(void) {
    const ss_connectors c = studs(2);
    const ss_connector_segment segment = {0.0, 30.0 * FOOT, 900.0 * KIP};
    const ss_connector_demand demand = demand_of(&c, &segment, 1);
    ss_connector_run run;
    ss_working working = {.count = 0};
    const ss_connector_plan plan = ss_connector_design(&demand, &run, &working);
    CU_ASSERT_PTR_NULL_FATAL(plan.why);
    check_steps(&working, 10);
    CU_ASSERT(plan.fits && run.fits);
    CU_ASSERT_EQUAL(run.needed, 40);
    CHECK_CLOSE(run.by_strength / INCH, 18.0, 1e-12);
    CHECK_CLOSE(run.pitch / INCH, 18.0, 1e-12);
    CU_ASSERT_EQUAL(plan.count, 40);
    CHECK_CLOSE(plan.degree, 40.0 * 0.85 * 60.0 * 0.78539816339744831 * 0.5625 / 900.0, 1e-12);
    CU_ASSERT_STRING_EQUAL(plan.governs, "strength");
    CU_ASSERT(isinf(run.by_fatigue) && run.fatigue == 0.0);
}

/* Range of 45 kip, I 20 000 in4, Q 500 in3: 2 x 3.09375 / 1.125 = 5.5 in, laid at 5 in; 125 mm in SI. A
 * stretch beside the segment does not count. */
static void test_fatigue_governs(void) {
    const ss_connectors c = studs(2);
    const ss_connector_segment segment = {0.0, 30.0 * FOOT, 900.0 * KIP};
    const ss_connector_stretch stretches[] = {
        {0.0, 10.0 * FOOT, 20.0 * KIP, 20000.0 * INCH4, 500.0 * INCH3, 0.0},
        {10.0 * FOOT, 30.0 * FOOT, 45.0 * KIP, 20000.0 * INCH4, 500.0 * INCH3, 0.0},
        {30.0 * FOOT, 40.0 * FOOT, 450.0 * KIP, 20000.0 * INCH4, 500.0 * INCH3, 0.0}};
    ss_connector_demand demand = demand_of(&c, &segment, 1);
    demand.stretches = stretches;
    demand.stretch_count = 3;
    ss_connector_run run;
    ss_connector_plan plan = ss_connector_design(&demand, &run, NULL);
    CU_ASSERT(plan.fits);
    CHECK_CLOSE(run.by_fatigue / INCH, 5.5, 1e-12);
    CHECK_CLOSE(run.pitch / INCH, 5.0, 1e-12);
    CHECK_CLOSE(run.fatigue, 5.0 / 5.5, 1e-12);
    CU_ASSERT_EQUAL(run.rows, 72);
    CU_ASSERT_STRING_EQUAL(plan.governs, "fatigue");
    demand.units = SS_UNITS_SI;
    plan = ss_connector_design(&demand, &run, NULL);
    CHECK_CLOSE(run.pitch, 0.125, 1e-12);
    CU_ASSERT(plan.fits);
}

static void test_largest_pitch_governs(void) {
    const ss_connectors c = studs(2);
    const ss_connector_segment segments[] = {{0.0, 30.0 * FOOT, 100.0 * KIP},
                                             {30.0 * FOOT, 60.0 * FOOT, 900.0 * KIP}};
    const ss_connector_demand demand = demand_of(&c, segments, 2);
    ss_connector_run runs[2];
    const ss_connector_plan plan = ss_connector_design(&demand, runs, NULL);
    CHECK_CLOSE(runs[0].pitch / INCH, 24.0, 1e-12);
    CU_ASSERT_STRING_EQUAL(runs[0].governs, "the largest pitch");
    CU_ASSERT_EQUAL(plan.rows, 15 + 20);
    CU_ASSERT_STRING_EQUAL(plan.governs, "strength");
    CHECK_CLOSE(plan.degree, runs[1].degree, 1e-12);
    CU_ASSERT(runs[0].degree > 1.0);
}

/* A pitch that is stated: what it reaches, and which of the limits it misses. */
static void test_given_pitch(void) {
    ss_connectors c = studs(2);
    const ss_connector_segment segment = {0.0, 30.0 * FOOT, 900.0 * KIP};
    const ss_connector_stretch stretch = {0.0, 30.0 * FOOT, 15.0 * KIP, 20000.0 * INCH4, 500.0 * INCH3, 0.0};
    ss_connector_demand demand = demand_of(&c, &segment, 1);
    demand.stretches = &stretch;
    demand.stretch_count = 1;
    static const struct {
        double pitch;
        bool fits;
        const char *governs;
    } rows[] = {{12.0, true, "fatigue"}, /* 16.5 in by fatigue, 18 by strength */
                {17.0, false, "fatigue is missed"},
                {20.0, false, "fatigue is missed"},
                {4.0, false, "the least pitch is missed"}};
    for (int i = 0; i < ENTRIES(rows); i++) {
        c.pitch = rows[i].pitch * INCH;
        ss_connector_run run;
        const ss_connector_plan plan = ss_connector_design(&demand, &run, NULL);
        CHECK_ROW(plan.fits == rows[i].fits, rows[i].governs);
        CHECK_ROW(strstr(plan.governs, rows[i].governs) == plan.governs, plan.governs);
        CHECK_CLOSE(run.pitch, c.pitch, 1e-15);
        CHECK_CLOSE(run.degree, floor(360.0 / rows[i].pitch) * 2.0 * plan.strength / (900.0 * KIP), 1e-9);
    }
    demand.stretch_count = 0;
    c.pitch = 24.0 * INCH;
    ss_connector_run run;
    const ss_connector_plan plan = ss_connector_design(&demand, &run, NULL);
    CU_ASSERT(strstr(plan.governs, "strength is missed") != NULL);
    CU_ASSERT(plan.degree > 0.7 && plan.degree < 0.8);
    /* The same is enough where partial composite action is asked for. */
    demand.degree = 0.7;
    ss_working working = {.count = 0};
    CU_ASSERT(ss_connector_design(&demand, &run, &working).fits);
    bool labelled = false;
    for (int i = 0; i < working.count; i++) {
        labelled =
            labelled || (working.steps[i].source != NULL && strstr(working.steps[i].source, "AISC") != NULL);
    }
    CU_ASSERT_TRUE(labelled);
}

/* 2000 kip in 10 ft by one stud a row: 89 rows, 1.35 in. Rows of four of them are 5.2 in apart. Then what
 * is found is laid out and fits. */
static void test_what_would_help(void) {
    ss_connectors c = studs(1);
    const ss_connector_segment segment = {0.0, 10.0 * FOOT, 2000.0 * KIP};
    ss_connector_demand demand = demand_of(&c, &segment, 1);
    ss_connector_run run;
    ss_connector_plan plan = ss_connector_design(&demand, &run, NULL);
    CU_ASSERT_FALSE(plan.fits);
    CU_ASSERT(strstr(plan.governs, "strength is missed") != NULL);
    CHECK_CLOSE(run.pitch / INCH, 4.5, 1e-12);
    CU_ASSERT_EQUAL(run.per_row_needed, 4);
    CU_ASSERT_EQUAL(run.bigger, 0.0);
    CHECK_CLOSE(run.partial, 26.0 * plan.strength / (2000.0 * KIP), 1e-9);
    CHECK_CLOSE(run.degree, run.partial, 1e-12);
    c.per_row = 4;
    CU_ASSERT(ss_connector_design(&demand, &run, NULL).fits);
    CU_ASSERT_EQUAL(run.per_row_needed, 0);
    /* No room for four on a narrow flange. */
    c.per_row = 1;
    demand.place.flange = 10.0 * INCH;
    plan = ss_connector_design(&demand, &run, NULL);
    CU_ASSERT_EQUAL(run.per_row_needed, 0);
    /* Two a row and a little too much: a bigger stud, on a plate that bears it. */
    c.per_row = 2;
    const ss_connector_segment less = {0.0, 10.0 * FOOT, 1250.0 * KIP};
    demand.segments = &less;
    plan = ss_connector_design(&demand, &run, NULL);
    CU_ASSERT_FALSE(plan.fits);
    CHECK_CLOSE(run.bigger / INCH, 0.875, 1e-12);
    demand.place.plate = 0.34 * INCH;
    plan = ss_connector_design(&demand, &run, NULL);
    CU_ASSERT_EQUAL(run.bigger, 0.0);
    demand.place.over_web = true;
    plan = ss_connector_design(&demand, &run, NULL);
    CHECK_CLOSE(run.bigger / INCH, 0.875, 1e-12);
}

/* Where fatigue wants rows closer than they may be, partial composite action is no way out. */
static void test_fatigue_has_no_way_out(void) {
    const ss_connectors c = studs(1);
    const ss_connector_segment segment = {0.0, 10.0 * FOOT, 100.0 * KIP};
    const ss_connector_stretch stretch = {0.0, 10.0 * FOOT, 60.0 * KIP, 20000.0 * INCH4, 500.0 * INCH3, 0.0};
    ss_connector_demand demand = demand_of(&c, &segment, 1);
    demand.stretches = &stretch;
    demand.stretch_count = 1;
    ss_connector_run run;
    const ss_connector_plan plan = ss_connector_design(&demand, &run, NULL);
    CU_ASSERT_FALSE(plan.fits);
    CU_ASSERT(strstr(plan.governs, "fatigue is missed") != NULL);
    CU_ASSERT_EQUAL(run.partial, 0.0);
    CU_ASSERT_EQUAL(run.per_row_needed, 3);
}

/* More force never needs fewer; more a row never closer rows; the answer always keeps its own limits. */
static void test_monotony(void) {
    int last = 0;
    for (double force = 0.0; force < 1500.0; force += 37.0) {
        double pitch = 0.0;
        for (int per_row = 1; per_row <= 4; per_row++) {
            const ss_connectors c = studs(per_row);
            const ss_connector_segment segment = {1.0, 1.0 + 40.0 * FOOT, force * KIP};
            const ss_connector_demand demand = demand_of(&c, &segment, 1);
            ss_connector_run run;
            const ss_connector_plan plan = ss_connector_design(&demand, &run, NULL);
            CU_ASSERT(run.pitch >= pitch);
            pitch = run.pitch;
            if (plan.fits) {
                CU_ASSERT(run.pitch >= run.least - 1e-12 && run.pitch <= run.most + 1e-12);
                CU_ASSERT(run.count >= run.needed && run.degree >= 1.0 - 1e-9);
            }
            if (per_row == 4) {
                CU_ASSERT(run.count >= last);
                last = run.count;
            }
        }
    }
}

static void test_refusals(void) {
    ss_connectors c = studs(2);
    ss_connector_segment segment = {0.0, 10.0, 1e6};
    ss_connector_stretch stretch = {0.0, 10.0, 1e5, 1e-2, 1e-2, 0.0};
    ss_connector_run run;
    const ss_connector_demand good = demand_of(&c, &segment, 1);
    ss_connector_demand bad = good;
    bad.degree = 0.0;
    CU_ASSERT(ss_connector_design(&bad, &run, NULL).why != NULL);
    bad = good;
    bad.segment_count = 0;
    CU_ASSERT(ss_connector_design(&bad, &run, NULL).why != NULL);
    bad = good;
    bad.fc = 0.0;
    CU_ASSERT(ss_connector_design(&bad, &run, NULL).why != NULL);
    bad = good;
    bad.stretches = &stretch;
    bad.stretch_count = 1;
    CU_ASSERT_PTR_NULL(ss_connector_design(&bad, &run, NULL).why);
    stretch.I = 0.0;
    CU_ASSERT(ss_connector_design(&bad, &run, NULL).why != NULL);
    segment.force = (double)NAN;
    CU_ASSERT(ss_connector_design(&good, &run, NULL).why != NULL);
    segment.force = 1e13; /* more than a million studs: no number, and no layout */
    const ss_connector_plan plan = ss_connector_design(&good, &run, NULL);
    CU_ASSERT(plan.why == NULL && !plan.fits && run.needed == -1);
    c.per_row = 0;
    CU_ASSERT(ss_connector_design(&good, &run, NULL).why != NULL);
}

int main(void) {
    static const test_case cases[] = {
        {"strength governs", test_strength_governs},
        {"fatigue governs", test_fatigue_governs},
        {"the largest pitch governs", test_largest_pitch_governs},
        {"a pitch that is given", test_given_pitch},
        {"what would help", test_what_would_help},
        {"fatigue has no way out", test_fatigue_has_no_way_out},
        {"monotony", test_monotony},
        {"refusals", test_refusals},
    };
    return RUN_SUITE("connector design", cases);
}
