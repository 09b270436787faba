/* test_rating_rule.c - factors of the legal level: traffic, trucks, spans, roles, settings, and the floor of
 * the resistance factors. */
#include <string.h>

#include "sillspan/rating.h"
#include "support/suite.h"
#include "unit/assess/rated_settings.h"

/* A bridge of two cars as far as the rule looks at it: bearings of car 0 at 0, 10, 76 and 86 ft, of car 1 at
 * 3 and 43 ft. */
typedef struct sample {
    ss_line lines[4]; /* main, exterior and stringer of car 0, main of car 1 */
    ss_bearing bearings[7];
    ss_bridge bridge;
    ss_vehicle legal, design, own, emergency;
} sample;

static void make_sample(sample *s) {
    static const double x[7] = {76.0, 0.0, 86.0, 10.0, 10.0, 43.0, 3.0};
    *s = (sample){0};
    for (int i = 0; i < 7; i++) s->bearings[i] = (ss_bearing){.car = i < 5 ? 0 : 1, .x = x[i] * FOOT};
    s->lines[0] = (ss_line){.car = 0, .role = SS_ROLE_MAIN};
    s->lines[1] = (ss_line){.car = 0, .role = SS_ROLE_EXTERIOR};
    s->lines[2] = (ss_line){.car = 0, .role = SS_ROLE_STRINGER};
    s->lines[3] = (ss_line){.car = 1, .role = SS_ROLE_MAIN};
    s->bridge = (ss_bridge){.lines = s->lines, .line_count = 4, .bearings = s->bearings, .bearing_count = 7};
    s->bridge.rating = rated_settings(0.85);
    s->legal.kind = SS_VEHICLE_LEGAL;
    s->design.kind = SS_VEHICLE_DESIGN;
    s->own.kind = SS_VEHICLE_USER;
    s->emergency.kind = SS_VEHICLE_EMERGENCY;
}

static ss_rating_factors factors(const sample *s, const ss_vehicle *vehicle, ss_member_kind member, int index,
                                 ss_effect_kind kind) {
    int count = 0;
    const ss_effect effect = {.kind = kind, .member = member, .index = index};
    ss_rating_factors out;
    ss_rating_rules(&count)[0].factors(&s->bridge, vehicle, &effect, &out);
    return out;
}

/* MBE table 6A.4.4.2.3a-1, later editions (from memory). */
static void test_live_factor(void) {
    CU_ASSERT_EQUAL(ss_rating_live_factor(-1), 1.45);
    CU_ASSERT_EQUAL(ss_rating_live_factor(0), 1.30);
    CU_ASSERT_EQUAL(ss_rating_live_factor(1000), 1.30);
    CHECK_CLOSE(ss_rating_live_factor(3000), 1.375, 1e-12);
    CHECK_CLOSE(ss_rating_live_factor(1734), 1.30 + 0.15 * 734.0 / 4000.0, 1e-12);
    CU_ASSERT_EQUAL(ss_rating_live_factor(5000), 1.45);
    CU_ASSERT_EQUAL(ss_rating_live_factor(81000), 1.45);
}

static void test_live_factor_by_truck(void) {
    sample s;
    make_sample(&s);
    s.bridge.rating.adtt = 3000;
    const ss_rating_factors legal = factors(&s, &s.legal, SS_MEMBER_LINE, 0, SS_EFFECT_MOMENT);
    const ss_rating_factors design = factors(&s, &s.design, SS_MEMBER_LINE, 0, SS_EFFECT_MOMENT);
    const ss_rating_factors own = factors(&s, &s.own, SS_MEMBER_LINE, 0, SS_EFFECT_MOMENT);
    const ss_rating_factors fire = factors(&s, &s.emergency, SS_MEMBER_LINE, 0, SS_EFFECT_MOMENT);
    CHECK_CLOSE(legal.live, 1.375, 1e-12);
    CU_ASSERT_EQUAL(design.live, legal.live);
    CU_ASSERT_EQUAL(own.live, legal.live);
    CU_ASSERT_EQUAL(fire.live, 1.30);
    CU_ASSERT_PTR_NOT_NULL(strstr(design.live_basis, "design truck rated as a legal load"));
    CU_ASSERT_PTR_NOT_NULL(strstr(design.live_basis, "between 1000 and 5000"));
    CU_ASSERT_PTR_NOT_NULL(strstr(own.live_basis, "own truck"));
    CU_ASSERT_PTR_NOT_NULL(strstr(fire.live_basis, "emergency vehicle"));
    s.bridge.rating.adtt = -1;
    CU_ASSERT_PTR_NOT_NULL(
        strstr(factors(&s, &s.legal, SS_MEMBER_LINE, 0, SS_EFFECT_MOMENT).live_basis, "unknown"));
}

static void test_allowance_by_member_and_span(void) {
    sample s;
    make_sample(&s);
    /* The longest span of car 0 is 66 ft, that of car 1 is 40 ft, which is not above 40. */
    CU_ASSERT_EQUAL(factors(&s, &s.legal, SS_MEMBER_LINE, 0, SS_EFFECT_MOMENT).allowance, 0.20);
    CU_ASSERT_EQUAL(factors(&s, &s.legal, SS_MEMBER_LINE, 1, SS_EFFECT_WEB_PLUS).allowance, 0.20);
    CU_ASSERT_EQUAL(factors(&s, &s.emergency, SS_MEMBER_LINE, 0, SS_EFFECT_MOMENT).allowance, 0.20);
    CU_ASSERT_EQUAL(factors(&s, &s.legal, SS_MEMBER_LINE, 2, SS_EFFECT_MOMENT).allowance, 0.33);
    CU_ASSERT_EQUAL(factors(&s, &s.legal, SS_MEMBER_LINE, 3, SS_EFFECT_MOMENT).allowance, 0.33);
    CU_ASSERT_EQUAL(factors(&s, &s.legal, SS_MEMBER_BEAM, 0, SS_EFFECT_MOMENT).allowance, 0.33);
    CU_ASSERT_EQUAL(factors(&s, &s.legal, SS_MEMBER_JOINT, 0, SS_EFFECT_SHEAR).allowance, 0.33);
    s.bearings[5].x = 43.01 * FOOT;
    CU_ASSERT_EQUAL(factors(&s, &s.legal, SS_MEMBER_LINE, 3, SS_EFFECT_MOMENT).allowance, 0.20);
    s.bridge.rating.approach_allowance = 0.10;
    CU_ASSERT_EQUAL(factors(&s, &s.legal, SS_MEMBER_LINE, 0, SS_EFFECT_MOMENT).allowance, 0.10);
    s.bridge.rating.approach_allowance = (double)NAN;
    CU_ASSERT_EQUAL(factors(&s, &s.legal, SS_MEMBER_LINE, 0, SS_EFFECT_MOMENT).allowance, 0.33);
    /* A car on one station only has no span to go by. */
    s.bridge.bearing_count = 6;
    s.bridge.rating.approach_allowance = 0.10;
    CU_ASSERT_EQUAL(factors(&s, &s.legal, SS_MEMBER_LINE, 3, SS_EFFECT_MOMENT).allowance, 0.33);
}

static void test_dead_factors(void) {
    sample s;
    make_sample(&s);
    int count = 0;
    const ss_rating_rule *const rule = ss_rating_rules(&count);
    ss_dead_factors dead[2];
    rule->dead(&s.bridge, dead);
    CU_ASSERT_EQUAL(dead[0].dc, 1.25);
    CU_ASSERT_EQUAL(dead[0].dw, 1.50);
    CU_ASSERT_EQUAL(dead[1].dc, 0.90);
    CU_ASSERT_EQUAL(dead[1].dw, 0.65);
    s.bridge.rating.surfacing_measured = true;
    rule->dead(&s.bridge, dead);
    CU_ASSERT_EQUAL(dead[0].dw, 1.25);
    CU_ASSERT_EQUAL(dead[1].dw, 0.65);
    s.bridge.rating.dw_factor = 1.25; /* given, yet the usual one: the smallest stays */
    rule->dead(&s.bridge, dead);
    CU_ASSERT_EQUAL(dead[1].dw, 0.65);
    s.bridge.rating.dw_factor = 1.37;
    s.bridge.rating.dc_factor = 1.11;
    rule->dead(&s.bridge, dead);
    CU_ASSERT(dead[0].dw == 1.37 && dead[1].dw == 1.37 && dead[0].dc == 1.11 && dead[1].dc == 1.11);
    const ss_rating_factors with = factors(&s, &s.legal, SS_MEMBER_LINE, 0, SS_EFFECT_MOMENT);
    CU_ASSERT(with.dc == 1.11 && with.dw == 1.37);
}

static void test_settings_replace(void) {
    sample s;
    make_sample(&s);
    s.bridge.rating.dynamic_allowance = 0.0;
    s.bridge.rating.live_factor = 1.0;
    const ss_rating_factors plain = factors(&s, &s.emergency, SS_MEMBER_BEAM, 0, SS_EFFECT_MOMENT);
    CU_ASSERT_EQUAL(plain.allowance, 0.0);
    CU_ASSERT_EQUAL(plain.live, 1.0);
}

/* MBE 6A.4.2 (from memory): 0.85 x 0.85 is taken as 0.85; the system factor of shear is 1; a joint's capacity
 * is factored already. */
static void test_resistance_factors(void) {
    sample s;
    make_sample(&s);
    const ss_rating_factors moment = factors(&s, &s.legal, SS_MEMBER_LINE, 0, SS_EFFECT_MOMENT);
    const ss_rating_factors shear = factors(&s, &s.legal, SS_MEMBER_LINE, 0, SS_EFFECT_WEB_MINUS);
    const ss_rating_factors joint = factors(&s, &s.legal, SS_MEMBER_JOINT, 0, SS_EFFECT_SHEAR);
    CU_ASSERT(moment.condition == 0.95 && moment.system == 0.85);
    CHECK_CLOSE(ss_rating_capacity(&moment, 271.3), 0.85 * 271.3, 1e-12);
    CU_ASSERT(shear.condition == 0.95 && shear.system == 1.0);
    CHECK_CLOSE(ss_rating_capacity(&shear, 271.3), 0.95 * 271.3, 1e-12);
    CU_ASSERT_EQUAL(ss_rating_capacity(&joint, 271.3), 271.3);
    const ss_rating_factors poor = {.phi = 0.93, .condition = 0.85, .system = 0.85};
    CHECK_CLOSE(ss_rating_capacity(&poor, 64.7), 0.93 * 0.85 * 64.7, 1e-12);
    const ss_rating_factors good = {.phi = 0.93, .condition = 1.0, .system = 0.95};
    CHECK_CLOSE(ss_rating_capacity(&good, 64.7), 0.93 * 0.95 * 64.7, 1e-12);
}

int main(void) {
    static const test_case cases[] = {{"live factor", test_live_factor},
                                      {"live factor by truck", test_live_factor_by_truck},
                                      {"dynamic allowance", test_allowance_by_member_and_span},
                                      {"dead factors", test_dead_factors},
                                      {"settings replace", test_settings_replace},
                                      {"resistance factors", test_resistance_factors}};
    return RUN_SUITE("rating rule", cases);
}
