/* test_report_requirement.c - when a required factor is met: members, bearings, tipping, and what is not
 * known. */
#include <math.h>

#include "sillspan/report.h"
#include "support/suite.h"

/* Two bearings (0 pushes only, 1 acts both ways) under one truck, and three ratings. */
typedef struct small {
    ss_bridge bridge;
    ss_bearing bearings[2];
    ss_effect effects[2];
    double dead[2];
    ss_extreme extremes[4];
    ss_envelope envelope;
    ss_rating items[3];
    ss_rating_result ratings;
    ss_results results;
} small;

static void start(small *s, double require) {
    *s = (small){.bearings = {{.contact = true}, {.contact = false}},
                 .effects = {{.kind = SS_EFFECT_REACTION, .member = SS_MEMBER_BEARING, .index = 0},
                             {.kind = SS_EFFECT_REACTION, .member = SS_MEMBER_BEARING, .index = 1}},
                 .dead = {8321.0, 8321.0},
                 .items = {{.rf = 1.37}, {.rf = (double)INFINITY}, {.rf = 1.21}}};
    s->bridge.bearings = s->bearings;
    s->bridge.bearing_count = 2;
    s->envelope.effects = s->effects;
    s->envelope.effect_count = 2;
    s->envelope.dead = s->dead;
    s->envelope.traffic_count = 1;
    s->envelope.extremes = s->extremes;
    s->ratings.items = s->items;
    s->ratings.count = 3;
    s->results.bridge = &s->bridge;
    s->results.envelope = &s->envelope;
    s->results.ratings = &s->ratings;
    s->results.require = require;
}

static void test_nothing_required(void) {
    small s;
    start(&s, (double)NAN);
    s.items[0].rf = 0.02;
    CU_ASSERT_TRUE(ss_report_requirement_met(&s.results));
}

static void test_weakest_member_decides(void) {
    small s;
    start(&s, 1.21);
    CU_ASSERT_TRUE(ss_report_requirement_met(&s.results));
    start(&s, 1.2101);
    CU_ASSERT_FALSE(ss_report_requirement_met(&s.results));
    start(&s, 0.9);
    s.items[1].rf = (double)NAN;
    CU_ASSERT_FALSE(ss_report_requirement_met(&s.results));
}

static void test_bearings(void) {
    small s;
    start(&s, 1.0);
    /* One that only pushes may lift off. */
    s.extremes[0].value = -8321.0;
    CU_ASSERT_TRUE(ss_report_requirement_met(&s.results));
    /* One that acts both ways may not be pulled: 1.0 x 8313 leaves it pressed, 1.0 x 8329 does not. */
    s.extremes[2].value = -8313.0;
    CU_ASSERT_TRUE(ss_report_requirement_met(&s.results));
    s.extremes[2].value = -8329.0;
    CU_ASSERT_FALSE(ss_report_requirement_met(&s.results));
    /* The required multiple of the truck counts: 1.15 x 7300 is more than 8321. */
    start(&s, 1.15);
    s.extremes[2].value = -7300.0;
    CU_ASSERT_FALSE(ss_report_requirement_met(&s.results));
    start(&s, 1.13);
    s.extremes[2].value = -7300.0;
    CU_ASSERT_TRUE(ss_report_requirement_met(&s.results));
}

static void test_tipping(void) {
    small s;
    start(&s, 1.0);
    s.envelope.tips = true;
    CU_ASSERT_FALSE(ss_report_requirement_met(&s.results));
}

int main(void) {
    static const test_case cases[] = {
        {"nothing required", test_nothing_required},
        {"the weakest member decides", test_weakest_member_decides},
        {"bearings", test_bearings},
        {"tipping", test_tipping},
    };
    return RUN_SUITE("report requirement", cases);
}
