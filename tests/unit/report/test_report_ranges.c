/* test_report_ranges.c - extremes over trucks: which one governs, and that rounding noise is no result. */
#include "report/report_parts.h"
#include "support/suite.h"

/* Two effects of one kind, three trucks: extremes[(effect * 3 + truck) * 2 + most]. */
typedef struct three_trucks {
    ss_effect effects[2];
    double dead[2];
    ss_extreme extremes[12];
    ss_envelope envelope;
    ss_results results;
    ss_report report;
    ss_builder builder;
} three_trucks;

static void start(three_trucks *s) {
    *s = (three_trucks){.effects = {{.kind = SS_EFFECT_MOMENT, .member = SS_MEMBER_LINE, .at = 2.5},
                                    {.kind = SS_EFFECT_MOMENT, .member = SS_MEMBER_LINE, .at = 7.25}},
                        .dead = {41300.0, 3e-6}};
    s->envelope = (ss_envelope){.effects = s->effects,
                                .effect_count = 2,
                                .dead = s->dead,
                                .traffic_count = 3,
                                .extremes = s->extremes};
    s->results.envelope = &s->envelope;
    s->builder = (ss_builder){.report = &s->report, .results = &s->results};
}

static void test_governing_truck(void) {
    three_trucks s;
    start(&s);
    s.extremes[0].value = -170.0;
    s.extremes[2].value = -910.0;
    s.extremes[4].value = -640.0;
    s.extremes[1].value = 5300.0;
    s.extremes[5].value = 5300.0 * (1.0 + 1e-11);
    const ss_range *ranges = ss_ranges(&s.builder);
    CU_ASSERT_PTR_NOT_NULL_FATAL(ranges);
    CU_ASSERT_EQUAL(ranges[0].value[0], -910.0);
    CU_ASSERT_EQUAL(ranges[0].traffic[0], 1);
    /* Equal but for rounding: the first one. */
    CU_ASSERT_EQUAL(ranges[0].traffic[1], 0);
    CU_ASSERT_EQUAL(ranges[0].dead, 41300.0);
    ss_report_destroy(&s.report);
}

static void test_noise_is_nothing(void) {
    three_trucks s;
    start(&s);
    s.extremes[7].value = 2e-6;
    s.extremes[1].value = 0.3;
    const ss_range *ranges = ss_ranges(&s.builder);
    CU_ASSERT_PTR_NOT_NULL_FATAL(ranges);
    CU_ASSERT_EQUAL(ranges[1].value[1], 0.0);
    CU_ASSERT_EQUAL(ranges[1].traffic[1], -1);
    CU_ASSERT_EQUAL(ranges[1].dead, 0.0);
    /* Small is not noise. */
    CU_ASSERT_EQUAL(ranges[0].value[1], 0.3);
    CU_ASSERT_EQUAL(ranges[0].traffic[1], 0);
    ss_report_destroy(&s.report);
}

static void test_find(void) {
    three_trucks s;
    start(&s);
    ss_effect wanted = s.effects[1];
    CU_ASSERT_EQUAL(ss_ranges_find(&s.envelope, &wanted), 1);
    wanted.before = true;
    CU_ASSERT_EQUAL(ss_ranges_find(&s.envelope, &wanted), -1);
}

int main(void) {
    static const test_case cases[] = {
        {"governing truck", test_governing_truck},
        {"noise is nothing", test_noise_is_nothing},
        {"find", test_find},
    };
    return RUN_SUITE("report ranges", cases);
}
