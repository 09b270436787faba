/* test_method.c - which checks a bridge is put to and which vehicles they rate, dead load factors, resistance
 * factors and capacities, and the manual's sequence. */
#include "unit/assess/method_sample.h"

/* ---- which checks ----------------------------------------------------------------------------------- */

static void test_checks_by_default(void) {
    method_sample s;
    sample_start(&s);
    ss_check checks[SS_CHECKS_MAX];
    CU_ASSERT_EQUAL(ss_checks(&s.bridge, checks), 5);
    s.bridge.rating.service = true;
    s.bridge.rating.deflection_limit = 800.0;
    static const char *const names[] = {"LRFR design inventory, Strength I",
                                        "LRFR design inventory, Service II",
                                        "LRFR design operating, Strength I",
                                        "LRFR design operating, Service II",
                                        "LRFR legal, Strength I",
                                        "LRFR legal, Service II",
                                        "LRFR emergency, Strength I",
                                        "LRFR emergency, Service II",
                                        "LRFR permit, Strength II",
                                        "LRFR permit, Service II",
                                        "live-load deflection"};
    CU_ASSERT_EQUAL_FATAL(ss_checks(&s.bridge, checks), ENTRIES(names));
    for (int i = 0; i < ENTRIES(names); i++) {
        CHECK_ROW(strcmp(checks[i].name, names[i]) == 0, names[i]);
        CHECK_ROW(checks[i].over_dead == (i == 10), names[i]);
        CHECK_ROW(strstr(checks[i].edition, "(from memory)") != NULL, names[i]);
    }
    CU_ASSERT_PTR_NOT_NULL(strstr(checks[4].edition, "3rd ed. 2018"));
    CU_ASSERT_PTR_NOT_NULL(strstr(checks[6].edition, "FHWA"));
    s.bridge.rating.edition = SS_EDITION_MBE_2011;
    (void)ss_checks(&s.bridge, checks);
    CU_ASSERT_PTR_NOT_NULL(strstr(checks[4].edition, "2nd ed. 2011"));
}

static void test_checks_as_asked(void) {
    method_sample s;
    sample_start(&s);
    ss_check checks[SS_CHECKS_MAX];
    s.bridge.rating.service = true;
    s.bridge.rating.deflection_limit = 800.0;
    s.bridge.rating.methods = BIT(SS_METHOD_LRFR) | BIT(SS_METHOD_LFR) | BIT(SS_METHOD_ASR);
    CU_ASSERT_EQUAL(ss_checks(&s.bridge, checks), 17);
    s.bridge.rating.methods = BIT(SS_METHOD_ASR);
    s.bridge.rating.levels = BIT(SS_LEVEL_OPERATING) | BIT(SS_LEVEL_LEGAL);
    CU_ASSERT_EQUAL_FATAL(ss_checks(&s.bridge, checks), 2);
    CU_ASSERT_STRING_EQUAL(checks[0].name, "ASR operating, allowable stress");
    CU_ASSERT_PTR_NOT_NULL(strstr(checks[0].edition, "for posting only"));
    CU_ASSERT(ss_method_asked(&s.bridge, SS_METHOD_ASR) && !ss_method_asked(&s.bridge, SS_METHOD_LRFR));
    /* Nobody crosses that the levels are for. */
    s.bridge.rating.methods = BIT(SS_METHOD_LRFR);
    s.bridge.rating.levels = 0;
    s.bridge.rating.deflection_limit = 0.0;
    s.bridge.vehicles = &s.vehicles[LEGAL];
    s.bridge.rated_vehicle_count = 2;
    CU_ASSERT_EQUAL_FATAL(ss_checks(&s.bridge, checks), 2);
    CU_ASSERT(checks[0].level == SS_LEVEL_LEGAL && checks[1].level == SS_LEVEL_LEGAL);
}

/* A row of marks, in the order of the sample's vehicles. */
static void check_applies(const method_sample *s, ss_check check, const char *marks) {
    for (int i = 0; i < VEHICLES; i++) {
        const bool applies = ss_check_applies(&s->bridge, &check, &s->vehicles[i]);
        CHECK_ROW(applies == (marks[i] == 'x'), s->vehicles[i].name);
    }
}

static void test_vehicles_of_each_check(void) {
    method_sample s;
    sample_start(&s);
    check_applies(&s, STRENGTH(LRFR, INVENTORY), "x----------");
    check_applies(&s, SERVICE(LRFR, OPERATING), "x----------");
    check_applies(&s, STRENGTH(LRFR, LEGAL), "-xxxxxx----");
    check_applies(&s, SERVICE(LRFR, EMERGENCY), "-------x---");
    check_applies(&s, STRENGTH(LRFR, PERMIT), "--------x--");
    check_applies(&s, STRENGTH(LFR, INVENTORY), "-xxxxxx----");
    check_applies(&s, STRENGTH(LFR, OPERATING), "-xxxxxxxx--");
    check_applies(&s, STRENGTH(ASR, OPERATING), "-xxxxxxxx--");
    check_applies(&s, DEFLECTION(), "xxxxxxxx---");
}

static void test_words(void) {
    const ss_check permit = STRENGTH(LRFR, PERMIT);
    const ss_check overload = SERVICE(LFR, INVENTORY);
    CU_ASSERT_STRING_EQUAL(ss_limit_name(&permit), "Strength II");
    CU_ASSERT_STRING_EQUAL(ss_limit_name(&overload), "overload");
    CU_ASSERT_STRING_EQUAL(ss_method_name(SS_METHOD_LFR), "LFR");
    CU_ASSERT_STRING_EQUAL(ss_level_name(SS_LEVEL_EMERGENCY), "emergency");
}

/* ---- dead load -------------------------------------------------------------------------------------- */

/* AASHTO LRFD table 3.4.1-2 and MBE table 6A.4.2.2-1 (from memory). */
static void test_dead_factors(void) {
    method_sample s;
    sample_start(&s);
    ss_rating_settings *const set = &s.bridge.rating;
    const ss_check strength = STRENGTH(LRFR, PERMIT);
    ss_dead_factors dead[2];
    CU_ASSERT_EQUAL(ss_check_dead(&s.bridge, &strength, dead), 2);
    CU_ASSERT(dead[0].dc == 1.25 && dead[0].dw == 1.50 && dead[1].dc == 0.90 && dead[1].dw == 0.65);
    set->surfacing_measured = true;
    set->dw_factor = 1.25; /* given, yet the usual one: the smallest stays */
    CU_ASSERT_EQUAL(ss_check_dead(&s.bridge, &strength, dead), 2);
    CU_ASSERT(dead[0].dw == 1.25 && dead[1].dw == 0.65);
    set->dw_factor = 1.37;
    set->dc_factor = 1.11;
    CU_ASSERT_EQUAL(ss_check_dead(&s.bridge, &strength, dead), 1);
    CU_ASSERT(dead[0].dc == 1.11 && dead[0].dw == 1.37);
    const ss_method_factors with =
        factors_of(&s, strength, PERMIT, alone(), on_line(MAIN, 41.0, SS_EFFECT_MOMENT));
    CU_ASSERT(with.dc == 1.11 && with.dw == 1.37);
}

static void test_dead_factors_of_the_others(void) {
    method_sample s;
    sample_start(&s);
    const ss_check checks[] = {SERVICE(LRFR, LEGAL), STRENGTH(LFR, INVENTORY), SERVICE(LFR, OPERATING),
                               STRENGTH(ASR, INVENTORY), DEFLECTION()};
    static const double factor[] = {1.0, 1.3, 1.0, 1.0, 1.0};
    for (int i = 0; i < ENTRIES(checks); i++) {
        ss_dead_factors dead[2] = {{0.0, 0.0}, {0.0, 0.0}};
        CU_ASSERT_EQUAL(ss_check_dead(&s.bridge, &checks[i], dead), 1);
        CU_ASSERT(dead[0].dc == factor[i] && dead[0].dw == factor[i]);
    }
}

/* ---- resistance ------------------------------------------------------------------------------------- */

static double capacity_of(const method_sample *s, ss_check check, ss_effect effect, double nominal) {
    const ss_method_factors factors = factors_of(s, check, LEGAL, alone(), effect);
    const ss_resistance resistance = {.value = nominal, .rule = "stated"};
    return ss_check_capacity(&s->bridge, &check, &factors, &effect, &resistance);
}

/* MBE 6A.4.2 (from memory): 0.95 x 0.85 is taken as 0.85; the system factor of shear is 1; a joint's capacity
 * is factored already; service load knows none of these. */
static void test_lrfr_capacity(void) {
    method_sample s;
    sample_start(&s);
    const ss_check strength = STRENGTH(LRFR, LEGAL);
    const ss_effect moment = on_line(MAIN, 41.0, SS_EFFECT_MOMENT);
    const ss_effect web = on_line(MAIN, 41.0, SS_EFFECT_WEB_PLUS);
    const ss_effect joint = {.kind = SS_EFFECT_SHEAR, .member = SS_MEMBER_JOINT};
    const ss_effect beam = {.kind = SS_EFFECT_MOMENT, .member = SS_MEMBER_BEAM, .index = 1};
    CHECK_CLOSE(capacity_of(&s, strength, moment, 271.3), 0.85 * 271.3, 1e-12);
    CHECK_CLOSE(capacity_of(&s, strength, web, 271.3), 0.95 * 271.3, 1e-12);
    CU_ASSERT_EQUAL(capacity_of(&s, strength, joint, 271.3), 271.3);
    s.bridge.rating.system = 0.95;
    s.bridge.rating.phi_flexure = 0.93;
    CHECK_CLOSE(capacity_of(&s, strength, beam, 64.7), 0.93 * 0.95 * 0.95 * 64.7, 1e-12);
    const ss_check service = SERVICE(LRFR, LEGAL);
    CHECK_CLOSE(capacity_of(&s, service, moment, 64.7), 0.80 * 64.7, 1e-12);
    CU_ASSERT(isnan(capacity_of(&s, service, web, 64.7)));
    CU_ASSERT(isnan(capacity_of(&s, service, joint, 64.7)));
    CU_ASSERT(isnan(capacity_of(&s, strength, moment, (double)NAN)));
}

static void test_effects_that_are_not_looked_at(void) {
    method_sample s;
    sample_start(&s);
    const ss_check strength = STRENGTH(LRFR, LEGAL);
    ss_effect web = on_line(MAIN, 41.0, SS_EFFECT_WEB_MINUS);
    CU_ASSERT(isnan(capacity_of(&s, strength, web, 64.7)));
    web.torsion_shear = 0.71;
    CHECK_CLOSE(capacity_of(&s, strength, web, 64.7), 0.95 * 64.7, 1e-12);
    CU_ASSERT(isnan(capacity_of(&s, strength, on_line(MAIN, 41.0, SS_EFFECT_SHEAR), 64.7)));
    CU_ASSERT(isnan(capacity_of(&s, strength, on_line(MAIN, 41.0, SS_EFFECT_DEFLECTION), 64.7)));
    const ss_effect fold = {.kind = SS_EFFECT_MOMENT, .member = SS_MEMBER_JOINT};
    const ss_effect bearing = {.kind = SS_EFFECT_REACTION, .member = SS_MEMBER_BEARING};
    CU_ASSERT_EQUAL(capacity_of(&s, strength, fold, 64.7), 64.7);
    CU_ASSERT(isnan(capacity_of(&s, strength, bearing, 64.7)));
    const ss_effect joint = {.kind = SS_EFFECT_SHEAR, .member = SS_MEMBER_JOINT};
    CU_ASSERT_EQUAL(capacity_of(&s, STRENGTH(LFR, INVENTORY), joint, 64.7), 64.7);
    CU_ASSERT(isnan(capacity_of(&s, STRENGTH(ASR, INVENTORY), joint, 64.7)));
}

/* AASHTO LRFD 2.5.2.6.2 (from memory): span / 800 and overhang / 300. */
static void test_deflection_limits(void) {
    method_sample s;
    sample_start(&s);
    s.bridge.rating.deflection_limit = 800.0;
    const ss_check check = DEFLECTION();
    CHECK_CLOSE(capacity_of(&s, check, on_line(MAIN, 41.0, SS_EFFECT_DEFLECTION), 0.0), 66.0 * FOOT / 800.0,
                1e-12);
    CHECK_CLOSE(capacity_of(&s, check, on_line(EXTERIOR, 4.0, SS_EFFECT_DEFLECTION), 0.0),
                10.0 * FOOT / 300.0, 1e-12);
    /* The bearing at 86 ft does not touch: what lies beyond 76 ft is an overhang of 13 ft. */
    CHECK_CLOSE(capacity_of(&s, check, on_line(MAIN, 80.0, SS_EFFECT_DEFLECTION), 0.0), 13.0 * FOOT / 300.0,
                1e-12);
    s.bridge.rating.deflection_limit = 1000.0;
    CHECK_CLOSE(capacity_of(&s, check, on_line(SHORT, 44.7, SS_EFFECT_DEFLECTION), 0.0), 3.0 * FOOT / 375.0,
                1e-12);
    const ss_effect beam = {.kind = SS_EFFECT_DEFLECTION, .member = SS_MEMBER_BEAM, .index = 1};
    CU_ASSERT(isnan(capacity_of(&s, check, beam, 0.0)));
    CU_ASSERT(isnan(capacity_of(&s, check, on_line(STRINGER, 41.0, SS_EFFECT_DEFLECTION), 0.0)));
    CU_ASSERT(isnan(capacity_of(&s, check, on_line(MAIN, 41.0, SS_EFFECT_MOMENT), 0.0)));
    const ss_effect at = on_line(MAIN, 41.0, SS_EFFECT_DEFLECTION);
    const ss_method_factors with = factors_of(&s, check, FIRE, alone(), at);
    CU_ASSERT(with.live == 1.0 && with.allowance == 0.33 && with.presence == 1.20);
    CHECK_CLOSE(ss_check_capacity(&s.bridge, &check, &with, &at, NULL), 66.0 * FOOT / 1000.0, 1e-12);
}

/* ---- the manual's sequence -------------------------------------------------------------------------- */

static void check_counts(const method_sample *s, ss_check check, double inventory, double operating,
                         const char *marks) {
    for (int i = 0; i < VEHICLES; i++) {
        const bool counts = ss_sequence_counts(&s->bridge, &check, &s->vehicles[i], inventory, operating);
        CHECK_ROW(marks[i] == '?' || counts == (marks[i] == 'x'), s->vehicles[i].name);
    }
}

static void test_sequence(void) {
    method_sample s;
    sample_start(&s);
    const ss_check legal = STRENGTH(LRFR, LEGAL);
    check_counts(&s, legal, 1.30, 1.70, "xxxxxxxxxxx");
    s.bridge.rating.manual_sequence = true;
    /*                                    fire and permit are of other levels: shown below */
    check_counts(&s, legal, 1.03, 1.33, "?---x-x????");
    check_counts(&s, legal, 0.97, 1.26, "?x-xx-x????");
    check_counts(&s, legal, 0.61, 0.79, "?xxxxxx????");
    check_counts(&s, legal, (double)NAN, (double)NAN, "?xxxxxx????");
    check_counts(&s, SERVICE(LRFR, LEGAL), 1.0, 1.3, "?---x-x????");
    check_counts(&s, STRENGTH(LRFR, EMERGENCY), 1.9, 2.4, "xxxxxxxxxxx");
    check_counts(&s, STRENGTH(LRFR, PERMIT), 1.9, 2.4, "xxxxxxxxxxx");
    check_counts(&s, STRENGTH(LFR, OPERATING), 1.9, 2.4, "xxxxxxxxxxx");
    check_counts(&s, DEFLECTION(), 1.9, 2.4, "xxxxxxxxxxx");
    /* A legal load that is not one of those built in may be heavier than they are. */
    s.vehicles[LEGAL].name = "county grader";
    CU_ASSERT_TRUE(ss_sequence_counts(&s.bridge, &legal, &s.vehicles[LEGAL], 1.9, 2.4));
}

int main(void) {
    static const test_case cases[] = {{"checks by default", test_checks_by_default},
                                      {"checks as asked", test_checks_as_asked},
                                      {"vehicles of each check", test_vehicles_of_each_check},
                                      {"words", test_words},
                                      {"dead factors", test_dead_factors},
                                      {"dead factors of the others", test_dead_factors_of_the_others},
                                      {"LRFR capacity", test_lrfr_capacity},
                                      {"effects not looked at", test_effects_that_are_not_looked_at},
                                      {"deflection limits", test_deflection_limits},
                                      {"sequence", test_sequence}};
    return RUN_SUITE("method", cases);
}
