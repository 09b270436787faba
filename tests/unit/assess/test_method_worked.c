/* test_method_worked.c - rating arithmetic worked by hand or published, put through the factors and
 * capacities of each method. */
#include "unit/assess/method_sample.h"

/* The published example: a simple span of 65 ft, no deterioration, redundant. */
static void example_start(method_sample *s) {
    sample_start(s);
    s->bearings[0].x = 75.0 * FOOT;
    s->bridge.rating.condition = 1.0;
    s->bridge.rating.system = 1.0;
    s->bridge.rating.adtt = 1000;
    s->bridge.rating.approach_allowance = 0.33;
}

/* (C - D) / (factored live), from what the check says; dead effect all DC, live without allowance. */
static double rate(const method_sample *s, ss_check check, int vehicle, int lanes, ss_effect effect,
                   double nominal, double dead, double live) {
    ss_crossing_facts crossing = alone();
    crossing.lanes = lanes;
    const ss_method_factors with = factors_of(s, check, vehicle, crossing, effect);
    const ss_resistance resistance = {.value = nominal, .rule = "stated"};
    const double capacity = ss_check_capacity(&s->bridge, &check, &with, &effect, &resistance);
    return (capacity - with.dc * dead) / (with.live * with.presence * (1.0 + with.allowance) * live);
}

/* AASHTO Manual for Bridge Evaluation, example A1 (from memory): Mn 2873, DC 577, LL + IM 953 kip-ft; rating
 * factors 1.29 at inventory and 1.67 at operating. The allowance is in the 953. */
static void test_published_design_load(void) {
    method_sample s;
    example_start(&s);
    s.bridge.rating.dynamic_allowance = 0.0;
    const ss_effect at = on_line(MAIN, 42.5, SS_EFFECT_MOMENT);
    const double inventory = rate(&s, STRENGTH(LRFR, INVENTORY), DESIGN, 2, at, 2873.0, 577.0, 953.0);
    const double operating = rate(&s, STRENGTH(LRFR, OPERATING), DESIGN, 2, at, 2873.0, 577.0, 953.0);
    check_near("inventory", inventory, 1.29, 0.005, 1.0);
    check_near("operating", operating, 1.67, 0.005, 1.0);
    CHECK_CLOSE(operating / inventory, 1.75 / 1.35, 1e-12);
}

/* The same example's legal trucks (Type 3, 3S2, 3-3), lane moments 660.8, 707.2 and 654.5 kip-ft times its
 * distribution factor 0.626 for two lanes (from memory); rating factors worked out from these by hand. */
static void test_legal_loads_of_the_example(void) {
    static const double moment[] = {660.8, 707.2, 654.5};
    static const struct {
        ss_edition edition;
        double surface;
        double rf[3];
    } rows[] = {{SS_EDITION_MBE_2011, 0.33, {2.371, 2.215, 2.393}},
                {SS_EDITION_MBE_2011, 0.20, {2.628, 2.455, 2.652}},
                {SS_EDITION_MBE_2018, 0.33, {3.009, 2.811, 3.037}},
                {SS_EDITION_MBE_2018, 0.20, {3.335, 3.116, 3.367}}};
    method_sample s;
    example_start(&s);
    for (int i = 0; i < ENTRIES(rows); i++) {
        s.bridge.rating.edition = rows[i].edition;
        s.bridge.rating.approach_allowance = rows[i].surface;
        for (int j = 0; j < 3; j++) {
            const double rf = rate(&s, STRENGTH(LRFR, LEGAL), LEGAL, 2, on_line(MAIN, 42.5, SS_EFFECT_MOMENT),
                                   2873.0, 577.0, 0.626 * moment[j]);
            check_near("legal load", rf, rows[i].rf[j], 0.005, 1.0);
        }
    }
}

/* The example's beam under HS20 by load factors: lane moment 896 kip-ft at 65 ft (mean of the standard
 * table's 806.5 at 60 ft and 985.6 at 70 ft) times (7.333 / 5.5) / 2 is 597.4; I = 50 / 190. By hand: (2873
 * - 1.3 x 577) / (2.17 x 597.4 x 1.2632) = 1.2964, and so on. 2.17 / 1.3 = 1.6692. */
static void test_load_factor_rating(void) {
    method_sample s;
    example_start(&s);
    const ss_effect at = on_line(MAIN, 42.5, SS_EFFECT_MOMENT);
    const double inventory = rate(&s, STRENGTH(LFR, INVENTORY), OLD_DESIGN, 1, at, 2873.0, 577.0, 597.4);
    const double operating = rate(&s, STRENGTH(LFR, OPERATING), OLD_DESIGN, 1, at, 2873.0, 577.0, 597.4);
    check_near("inventory", inventory, 1.2964, 6e-5, 1.0);
    check_near("operating", operating, 2.1640, 6e-5, 1.0);
    check_near("ratio", operating / inventory, 1.6692, 6e-5, 1.0);
    check_near("overload", rate(&s, SERVICE(LFR, INVENTORY), OLD_DESIGN, 1, at, 2873.0, 577.0, 597.4), 1.3687,
               6e-5, 1.0);
    check_near("overload", rate(&s, SERVICE(LFR, OPERATING), OLD_DESIGN, 1, at, 2873.0, 577.0, 597.4), 2.2812,
               6e-5, 1.0);
}

/* A W24x76 of 36 ksi (S 176 in3, web 23.9 x 0.44 in, AISC Manual, from memory) on a short span, I = 0.30:
 * 0.55 x 36 x 176 / 12 = 290.4 and 0.75 x 36 x 176 / 12 = 396 kip-ft; 0.33 and 0.45 x 36 x 10.516 = 124.93
 * and 170.36 kip. */
static void test_allowable_stress_rating(void) {
    method_sample s;
    example_start(&s);
    const ss_effect bending = on_line(SHORT, 20.0, SS_EFFECT_MOMENT);
    const ss_effect shear = on_line(SHORT, 3.0, SS_EFFECT_WEB_PLUS);
    const double moment = 36.0 * 176.0 / 12.0;
    const double web = 0.58 * 36.0 * 23.9 * 0.44;
    const ss_check inventory = STRENGTH(ASR, INVENTORY);
    const ss_check operating = STRENGTH(ASR, OPERATING);
    check_near("bending", rate(&s, inventory, LEGAL, 1, bending, moment, 61.3, 104.7), 1.68320, 6e-6, 1.0);
    check_near("bending", rate(&s, operating, LEGAL, 1, bending, moment, 61.3, 104.7), 2.45904, 6e-6, 1.0);
    check_near("shear", rate(&s, inventory, LEGAL, 1, shear, web, 11.7, 31.4), 2.77389, 6e-6, 1.0);
    check_near("shear", rate(&s, operating, LEGAL, 1, shear, web, 11.7, 31.4), 3.88680, 6e-6, 1.0);
}

/* Working stresses before the manual rounds them: 16.5, 18.15, 19.8 and 27.5 ksi at inventory, 22.5, 24.75,
 * 27 and 37.5 at operating, for yield stresses of 30, 33, 36 and 50 ksi. */
static void test_allowable_stresses(void) {
    static const double yield[] = {30.0, 33.0, 36.0, 50.0};
    static const double low[] = {16.5, 18.15, 19.8, 27.5};
    static const double high[] = {22.5, 24.75, 27.0, 37.5};
    method_sample s;
    example_start(&s);
    const ss_effect at = on_line(MAIN, 41.0, SS_EFFECT_MOMENT);
    const ss_check checks[] = {STRENGTH(ASR, INVENTORY), STRENGTH(ASR, OPERATING)};
    for (int i = 0; i < ENTRIES(yield); i++) {
        const ss_resistance one_inch = {.value = yield[i]};
        const ss_method_factors with = factors_of(&s, checks[0], LEGAL, alone(), at);
        CHECK_CLOSE(ss_check_capacity(&s.bridge, &checks[0], &with, &at, &one_inch), low[i], 1e-12);
        CHECK_CLOSE(ss_check_capacity(&s.bridge, &checks[1], &with, &at, &one_inch), high[i], 1e-12);
    }
}

/* One lane alone counts 1.20 in LRFR: the example's one-lane factor would be that much lower. */
static void test_single_lane_lowers_by_a_fifth(void) {
    method_sample s;
    example_start(&s);
    const ss_effect at = on_line(MAIN, 42.5, SS_EFFECT_MOMENT);
    const double two = rate(&s, STRENGTH(LRFR, EMERGENCY), FIRE, 2, at, 2873.0, 577.0, 431.7);
    const double one = rate(&s, STRENGTH(LRFR, EMERGENCY), FIRE, 1, at, 2873.0, 577.0, 431.7);
    CHECK_CLOSE(two, (2873.0 - 1.25 * 577.0) / (1.30 * 1.33 * 431.7), 1e-12);
    CHECK_CLOSE(two / one, 1.20, 1e-12);
}

int main(void) {
    static const test_case cases[] = {{"published design load", test_published_design_load},
                                      {"legal loads of the example", test_legal_loads_of_the_example},
                                      {"load factor rating", test_load_factor_rating},
                                      {"allowable stress rating", test_allowable_stress_rating},
                                      {"allowable stresses", test_allowable_stresses},
                                      {"single lane", test_single_lane_lowers_by_a_fifth}};
    return RUN_SUITE("method worked", cases);
}
