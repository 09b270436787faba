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
    ss_traffic traffic[1];
    ss_placements placements;
    ss_rating_item items[3];
    int worst[2];
    int governing[2];
    ss_ratings rated;
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
    s->traffic[0] = (ss_traffic){.run = -1, .crossing = -1};
    s->placements = (ss_placements){.traffic = s->traffic, .traffic_count = 1};
    s->rated = (ss_ratings){
        .checks = {{SS_METHOD_LRFR, SS_LEVEL_LEGAL, SS_LIMIT_STRENGTH, "Strength I", "by hand", false},
                   {SS_METHOD_LRFR, SS_LEVEL_INVENTORY, SS_LIMIT_STRENGTH, "design", "by hand", false}},
        .check_count = 2,
        .items = s->items,
        .count = 3,
        .traffic_count = 1,
        .worst = s->worst,
        .governing = s->governing};
    s->results.bridge = &s->bridge;
    s->results.envelope = &s->envelope;
    s->results.placements = &s->placements;
    s->results.rated = &s->rated;
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

/* An inventory level beside another one, deflection and restrictions are not required. */
static void test_what_decides(void) {
    small s;
    start(&s, 1.3);
    CU_ASSERT_FALSE(ss_report_requirement_met(&s.results));
    s.items[2].check = 1;
    CU_ASSERT_TRUE(ss_report_requirement_met(&s.results));
    s.worst[0] = -1; /* nothing else was rated */
    CU_ASSERT_FALSE(ss_report_requirement_met(&s.results));
    start(&s, 1.3);
    s.rated.checks[0].limit = SS_LIMIT_DEFLECTION;
    CU_ASSERT_TRUE(ss_report_requirement_met(&s.results));
    start(&s, 1.3);
    ss_crossing crossing = {.kind = SS_CROSSING_CENTRED, .alternative = true};
    s.bridge.crossings = &crossing;
    s.bridge.crossing_count = 1;
    s.traffic[0].crossing = 0;
    CU_ASSERT_TRUE(ss_report_requirement_met(&s.results));
    crossing.alternative = false;
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
    /* A truck that no check rates asks nothing of the bearings. */
    s.governing[0] = s.governing[1] = -1;
    CU_ASSERT_TRUE(ss_report_requirement_met(&s.results));
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
        {"what decides", test_what_decides},
        {"bearings", test_bearings},
        {"tipping", test_tipping},
    };
    return RUN_SUITE("report requirement", cases);
}
