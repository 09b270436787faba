/* test_method_factors.c - live load factors by traffic and permit, multiple presence, dynamic allowance and
 * impact, and the spans they go by. */
#include "unit/assess/method_sample.h"

/* ---- live load -------------------------------------------------------------------------------------- */

/* MBE tables 6A.4.4.2.3a-1 and b-1 (from memory). */
static void test_legal_factors(void) {
    static const struct {
        ss_edition edition;
        bool specialised;
        int adtt;
        double factor;
    } rows[] = {{SS_EDITION_MBE_2018, false, -1, 1.45},    {SS_EDITION_MBE_2018, false, 0, 1.30},
                {SS_EDITION_MBE_2018, false, 1000, 1.30},  {SS_EDITION_MBE_2018, false, 3000, 1.375},
                {SS_EDITION_MBE_2018, true, 5000, 1.45},   {SS_EDITION_MBE_2018, true, 81000, 1.45},
                {SS_EDITION_MBE_2011, false, -1, 1.80},    {SS_EDITION_MBE_2011, false, 100, 1.40},
                {SS_EDITION_MBE_2011, false, 500, 1.511},  {SS_EDITION_MBE_2011, false, 1000, 1.65},
                {SS_EDITION_MBE_2011, false, 3000, 1.725}, {SS_EDITION_MBE_2011, false, 5000, 1.80},
                {SS_EDITION_MBE_2011, true, 37, 1.15},     {SS_EDITION_MBE_2011, true, 1000, 1.40},
                {SS_EDITION_MBE_2011, true, 2000, 1.45},   {SS_EDITION_MBE_2011, true, -1, 1.60}};
    for (int i = 0; i < ENTRIES(rows); i++) {
        /* The table's own values are exact, those between are given to three decimals. */
        const double obtained = ss_method_legal_factor(rows[i].edition, rows[i].specialised, rows[i].adtt);
        check_near("legal factor", obtained, rows[i].factor, rows[i].adtt == 500 ? 2e-4 : 1e-12, 1.0);
    }
    CHECK_CLOSE(ss_method_legal_factor(SS_EDITION_MBE_2018, false, 1734), 1.30 + 0.15 * 734.0 / 4000.0,
                1e-12);
}

static ss_method_factors live_of(const method_sample *s, ss_check check, int vehicle) {
    return factors_of(s, check, vehicle, alone(), on_line(MAIN, 41.0, SS_EFFECT_MOMENT));
}

static void test_live_factor_by_truck(void) {
    method_sample s;
    sample_start(&s);
    s.bridge.rating.adtt = 3000;
    const ss_check legal = STRENGTH(LRFR, LEGAL);
    static const char *const words[] = {"design truck rated as a legal load",
                                        "legal load",
                                        "specialised hauling vehicle",
                                        "own truck",
                                        "school bus",
                                        "implement of husbandry"};
    for (int i = OLD_DESIGN; i <= FARM; i++) {
        const ss_method_factors with = live_of(&s, legal, i);
        check_near(s.vehicles[i].name, with.live, 1.375, 1e-12, 1.0);
        CHECK_ROW(strncmp(with.live_basis, words[i - OLD_DESIGN], strlen(words[i - OLD_DESIGN])) == 0,
                  with.live_basis);
        CHECK_ROW(strstr(with.live_basis, "between 1000 and 5000") != NULL, with.live_basis);
    }
    s.bridge.rating.edition = SS_EDITION_MBE_2011;
    CHECK_CLOSE(live_of(&s, legal, LEGAL).live, 1.725, 1e-12);
    CHECK_CLOSE(live_of(&s, legal, HAULING).live, 1.50, 1e-12);
    s.bridge.rating.adtt = 64;
    CU_ASSERT_PTR_NOT_NULL(strstr(live_of(&s, legal, OWN).live_basis, "at most 100 trucks"));
    s.bridge.rating.adtt = 640;
    CU_ASSERT_PTR_NOT_NULL(strstr(live_of(&s, legal, OWN).live_basis, "between 100 and 1000"));
    s.bridge.rating.adtt = -1;
    CU_ASSERT_PTR_NOT_NULL(strstr(live_of(&s, legal, OWN).live_basis, "unknown"));
}

/* MBE table 6A.4.2.2-1, MBE 6B.4.3, Standard Specifications 10.57 and the FHWA memorandum (from memory). */
static void test_fixed_live_factors(void) {
    method_sample s;
    sample_start(&s);
    CU_ASSERT_EQUAL(live_of(&s, STRENGTH(LRFR, INVENTORY), DESIGN).live, 1.75);
    CU_ASSERT_EQUAL(live_of(&s, STRENGTH(LRFR, OPERATING), DESIGN).live, 1.35);
    CU_ASSERT_EQUAL(live_of(&s, SERVICE(LRFR, INVENTORY), DESIGN).live, 1.30);
    CU_ASSERT_EQUAL(live_of(&s, SERVICE(LRFR, OPERATING), DESIGN).live, 1.00);
    CU_ASSERT_EQUAL(live_of(&s, SERVICE(LRFR, LEGAL), LEGAL).live, 1.30);
    CU_ASSERT_EQUAL(live_of(&s, STRENGTH(LRFR, EMERGENCY), FIRE).live, 1.30);
    CU_ASSERT_EQUAL(live_of(&s, SERVICE(LRFR, PERMIT), PERMIT).live, 1.00);
    CU_ASSERT_EQUAL(live_of(&s, STRENGTH(LFR, INVENTORY), LEGAL).live, 2.17);
    CU_ASSERT_EQUAL(live_of(&s, STRENGTH(LFR, OPERATING), LEGAL).live, 1.30);
    CHECK_CLOSE(live_of(&s, SERVICE(LFR, INVENTORY), LEGAL).live, 5.0 / 3.0, 1e-12);
    CU_ASSERT_EQUAL(live_of(&s, STRENGTH(ASR, INVENTORY), LEGAL).live, 1.00);
    /* A factor that is given replaces those of traffic, and no other. */
    s.bridge.rating.live_factor = 1.07;
    CU_ASSERT_EQUAL(live_of(&s, STRENGTH(LRFR, LEGAL), LEGAL).live, 1.07);
    CU_ASSERT_EQUAL(live_of(&s, STRENGTH(LRFR, EMERGENCY), FIRE).live, 1.07);
    CU_ASSERT_EQUAL(live_of(&s, STRENGTH(LRFR, PERMIT), PERMIT).live, 1.07);
    CU_ASSERT_EQUAL(live_of(&s, STRENGTH(LRFR, INVENTORY), DESIGN).live, 1.75);
    CU_ASSERT_EQUAL(live_of(&s, STRENGTH(LFR, OPERATING), LEGAL).live, 1.30);
}

/* A permit vehicle of six equal axles. */
static void load_permit(method_sample *s, double gross_kip, double length_ft) {
    ss_vehicle *const crane = &s->vehicles[PERMIT];
    crane->axle_count = 6;
    for (int i = 0; i < 6; i++) {
        crane->axle_N[i] = gross_kip * KIP / 6.0;
        crane->spacing_m[i] = i < 5 ? length_ft * FOOT / 5.0 : 0.0;
    }
}

/* MBE table 6A.4.5.4.2a-1 (from memory). */
static void test_permit_factors_2018(void) {
    method_sample s;
    sample_start(&s);
    const ss_check permit = STRENGTH(LRFR, PERMIT);
    ss_rating_settings *const set = &s.bridge.rating;
    static const double length[] = {63.0, 51.0, 39.0}; /* 1.9, 2.4 and 3.1 kip/ft */
    static const int adtt[] = {73, 550, 1000, 3000, 5000, -1};
    static const double factor[3][6] = {{1.30, 1.325, 1.35, 1.375, 1.40, 1.40},
                                        {1.20, 1.225, 1.25, 1.30, 1.35, 1.35},
                                        {1.15, 1.175, 1.20, 1.25, 1.30, 1.30}};
    for (int i = 0; i < 3; i++) {
        load_permit(&s, 121.0, length[i]);
        for (int j = 0; j < 6; j++) {
            set->adtt = adtt[j];
            check_near("annual permit", live_of(&s, permit, PERMIT).live, factor[i][j], 1e-12, 1.0);
        }
    }
    /* The spacing may grow to where the load is less dense. */
    s.vehicles[PERMIT].spacing_most_m[2] = 50.0 * FOOT;
    CU_ASSERT_EQUAL(live_of(&s, permit, PERMIT).live, 1.40);
    set->permits = SS_PERMIT_SINGLE_TRIP;
    CU_ASSERT_EQUAL(live_of(&s, permit, PERMIT).live, 1.20);
    set->permits = SS_PERMIT_LIMITED_TRIPS;
    CU_ASSERT_EQUAL(live_of(&s, permit, PERMIT).live, 1.40);
    ss_crossing_facts escorted = alone();
    escorted.escorted = true;
    const ss_method_factors with =
        factors_of(&s, permit, PERMIT, escorted, on_line(MAIN, 41.0, SS_EFFECT_MOMENT));
    CU_ASSERT(with.live == 1.10 && with.presence == 1.00);
}

/* The same table of the 2nd edition (from memory): annual permits between 100 and 150 kip by weight. */
static void test_permit_factors_2011(void) {
    method_sample s;
    sample_start(&s);
    const ss_check permit = STRENGTH(LRFR, PERMIT);
    ss_rating_settings *const set = &s.bridge.rating;
    set->edition = SS_EDITION_MBE_2011;
    set->adtt = 1000;
    load_permit(&s, 87.0, 40.0);
    CHECK_CLOSE(live_of(&s, permit, PERMIT).live, 1.60, 1e-12);
    load_permit(&s, 120.0, 40.0);
    CHECK_CLOSE(live_of(&s, permit, PERMIT).live, 1.44, 1e-12);
    load_permit(&s, 173.0, 40.0);
    CHECK_CLOSE(live_of(&s, permit, PERMIT).live, 1.20, 1e-12);
    set->permits = SS_PERMIT_SINGLE_TRIP;
    CHECK_CLOSE(live_of(&s, permit, PERMIT).live, 1.40, 1e-12);
    set->permits = SS_PERMIT_LIMITED_TRIPS;
    set->adtt = 3000;
    CHECK_CLOSE(live_of(&s, permit, PERMIT).live, 1.80, 1e-12);
    CU_ASSERT_PTR_NOT_NULL(strstr(live_of(&s, permit, PERMIT).live_basis, "fewer than 100 trips"));
    ss_crossing_facts escorted = alone();
    escorted.escorted = true;
    CU_ASSERT_EQUAL(factors_of(&s, permit, PERMIT, escorted, on_line(MAIN, 41.0, SS_EFFECT_MOMENT)).live,
                    1.15);
}

/* ---- multiple presence ------------------------------------------------------------------------------ */

/* AASHTO LRFD table 3.6.1.1.2-1 and Standard Specifications 3.12.1 (from memory). */
static void test_presence(void) {
    static const double refined[] = {1.20, 1.00, 0.85, 0.65, 0.65};
    static const double older[] = {1.00, 1.00, 0.90, 0.75, 0.75};
    method_sample s;
    sample_start(&s);
    for (int lanes = 1; lanes <= 5; lanes++) {
        ss_crossing_facts crossing = alone();
        crossing.lanes = lanes;
        const ss_effect at = on_line(MAIN, 41.0, SS_EFFECT_MOMENT);
        CU_ASSERT_EQUAL(factors_of(&s, SERVICE(LRFR, LEGAL), LEGAL, crossing, at).presence,
                        refined[lanes - 1]);
        CU_ASSERT_EQUAL(factors_of(&s, STRENGTH(LFR, INVENTORY), LEGAL, crossing, at).presence,
                        older[lanes - 1]);
        CU_ASSERT_EQUAL(ss_method_presence(SS_METHOD_ASR, lanes), older[lanes - 1]);
    }
    CU_ASSERT_EQUAL(live_of(&s, STRENGTH(LRFR, EMERGENCY), FIRE).presence, 1.20);
    CU_ASSERT_EQUAL(live_of(&s, STRENGTH(LRFR, PERMIT), PERMIT).presence, 1.20);
    s.bridge.rating.permits = SS_PERMIT_SINGLE_TRIP;
    CU_ASSERT_EQUAL(live_of(&s, STRENGTH(LRFR, PERMIT), PERMIT).presence, 1.00);
    CU_ASSERT_EQUAL(live_of(&s, STRENGTH(LRFR, LEGAL), LEGAL).presence, 1.20);
    s.bridge.rating.single_lane_presence = false;
    CU_ASSERT_EQUAL(live_of(&s, STRENGTH(LRFR, LEGAL), LEGAL).presence, 1.00);
    ss_crossing_facts three = alone();
    three.lanes = 3;
    CU_ASSERT_EQUAL(
        factors_of(&s, STRENGTH(LRFR, LEGAL), LEGAL, three, on_line(MAIN, 41.0, SS_EFFECT_MOMENT)).presence,
        0.85);
}

static void test_facts_of_crossings(void) {
    method_sample s;
    sample_start(&s);
    ss_crossing crossing = {.kind = SS_CROSSING_ALONE, .vehicle = PERMIT, .beside = -1, .lanes = 1};
    ss_crossing_facts facts = ss_crossing_facts_of(&s.bridge, &crossing);
    CU_ASSERT(facts.lanes == 1 && !facts.escorted && !facts.centred && isinf(facts.speed));
    s.bridge.rating.permits_escorted = true;
    s.bridge.rating.speed = 7.0 * MPH;
    facts = ss_crossing_facts_of(&s.bridge, &crossing);
    CU_ASSERT(facts.escorted && facts.speed == 7.0 * MPH);
    crossing = (ss_crossing){.kind = SS_CROSSING_BESIDE, .vehicle = LEGAL, .beside = LEGAL, .lanes = 3};
    facts = ss_crossing_facts_of(&s.bridge, &crossing);
    CU_ASSERT(facts.lanes == 3 && !facts.escorted);
    crossing = (ss_crossing){.kind = SS_CROSSING_LINE, .vehicle = LEGAL, .beside = -1, .lanes = 1};
    CU_ASSERT(ss_crossing_facts_of(&s.bridge, &crossing).centred);
}

/* ---- spans ------------------------------------------------------------------------------------------ */

static void check_span(const method_sample *s, int line, double x_ft, bool before, double span_ft,
                       bool beyond) {
    bool overhang = !beyond;
    const double span = ss_member_span(&s->bridge, line, x_ft * FOOT, before, &overhang);
    check_near("span", span, span_ft * FOOT, 1e-12, 1.0);
    CU_ASSERT_EQUAL(overhang, beyond);
}

static void test_spans(void) {
    method_sample s;
    sample_start(&s);
    check_span(&s, MAIN, 0.0, false, 10.0, true);
    check_span(&s, MAIN, 10.0, true, 10.0, true);
    check_span(&s, MAIN, 10.0, false, 66.0, false);
    check_span(&s, STRINGER, 41.0, false, 66.0, false);
    check_span(&s, MAIN, 76.0, true, 66.0, false);
    check_span(&s, MAIN, 76.0, false, 10.0, false);
    check_span(&s, EXTERIOR, 88.0, false, 3.0, true);
    check_span(&s, SHORT, 43.0, true, 40.0, false);
    s.lines[EXTERIOR].x1 = 87.5 * FOOT;
    check_span(&s, EXTERIOR, 87.0, true, 1.5, true);
    s.bridge.bearing_count = 3; /* those of car 0 only */
    CU_ASSERT(isnan(ss_member_span(&s.bridge, SHORT, 20.0 * FOOT, false, NULL)));
}

/* ---- allowance -------------------------------------------------------------------------------------- */

static double allowance_of(const method_sample *s, int line, double x_ft, ss_effect_kind kind) {
    return factors_of(s, STRENGTH(LRFR, LEGAL), LEGAL, alone(), on_line(line, x_ft, kind)).allowance;
}

static void test_allowance_by_member_and_span(void) {
    method_sample s;
    sample_start(&s);
    CU_ASSERT_EQUAL(allowance_of(&s, MAIN, 41.0, SS_EFFECT_MOMENT), 0.20);
    CU_ASSERT_EQUAL(allowance_of(&s, EXTERIOR, 41.0, SS_EFFECT_WEB_PLUS), 0.20);
    CU_ASSERT_EQUAL(allowance_of(&s, STRINGER, 41.0, SS_EFFECT_MOMENT), 0.33);
    CU_ASSERT_EQUAL(allowance_of(&s, MAIN, 4.0, SS_EFFECT_MOMENT), 0.33);
    CU_ASSERT_EQUAL(allowance_of(&s, MAIN, 80.0, SS_EFFECT_MOMENT), 0.33);
    /* The span of car 1 is 40 ft, which is not above 40. */
    CU_ASSERT_EQUAL(allowance_of(&s, SHORT, 20.0, SS_EFFECT_MOMENT), 0.33);
    s.bearings[3].x = 43.01 * FOOT;
    CU_ASSERT_EQUAL(allowance_of(&s, SHORT, 20.0, SS_EFFECT_MOMENT), 0.20);
    s.bridge.rating.approach_allowance = 0.10;
    CU_ASSERT_EQUAL(allowance_of(&s, MAIN, 41.0, SS_EFFECT_MOMENT), 0.10);
    s.bridge.rating.approach_allowance = (double)NAN;
    CU_ASSERT_EQUAL(allowance_of(&s, MAIN, 41.0, SS_EFFECT_MOMENT), 0.33);
    s.bridge.rating.approach_allowance = 0.10;
    const ss_effect beam = {.kind = SS_EFFECT_MOMENT, .member = SS_MEMBER_BEAM, .index = 1};
    const ss_effect joint = {.kind = SS_EFFECT_SHEAR, .member = SS_MEMBER_JOINT};
    const ss_effect moment = on_line(MAIN, 41.0, SS_EFFECT_MOMENT);
    CU_ASSERT_EQUAL(factors_of(&s, STRENGTH(LRFR, LEGAL), LEGAL, alone(), beam).allowance, 0.33);
    CU_ASSERT_EQUAL(factors_of(&s, STRENGTH(LRFR, LEGAL), LEGAL, alone(), joint).allowance, 0.33);
    CU_ASSERT_EQUAL(factors_of(&s, SERVICE(LRFR, EMERGENCY), FIRE, alone(), moment).allowance, 0.10);
    CU_ASSERT_EQUAL(factors_of(&s, STRENGTH(LRFR, INVENTORY), DESIGN, alone(), moment).allowance, 0.33);
    s.bridge.rating.dynamic_allowance = 0.07;
    CU_ASSERT_EQUAL(factors_of(&s, STRENGTH(LRFR, INVENTORY), DESIGN, alone(), moment).allowance, 0.07);
    CU_ASSERT_EQUAL(factors_of(&s, STRENGTH(LFR, INVENTORY), LEGAL, alone(), moment).allowance, 0.07);
}

/* At 10 mph or less there is none: MBE 6A.4.5.5 for permits (from memory), common practice for others. */
static void test_speed(void) {
    method_sample s;
    sample_start(&s);
    const ss_effect moment = on_line(MAIN, 41.0, SS_EFFECT_MOMENT);
    ss_crossing_facts slow = alone();
    slow.speed = 10.0 * MPH;
    CU_ASSERT_EQUAL(factors_of(&s, STRENGTH(LRFR, PERMIT), PERMIT, slow, moment).allowance, 0.0);
    CU_ASSERT_EQUAL(factors_of(&s, STRENGTH(LRFR, LEGAL), LEGAL, slow, moment).allowance, 0.0);
    CU_ASSERT_EQUAL(factors_of(&s, STRENGTH(ASR, OPERATING), LEGAL, slow, moment).allowance, 0.0);
    CU_ASSERT_PTR_NOT_NULL(
        strstr(factors_of(&s, STRENGTH(LRFR, LEGAL), LEGAL, slow, moment).allowance_basis, "no source"));
    CU_ASSERT_EQUAL(factors_of(&s, STRENGTH(LRFR, EMERGENCY), FIRE, slow, moment).allowance, 0.20);
    CU_ASSERT_EQUAL(factors_of(&s, STRENGTH(LRFR, INVENTORY), DESIGN, slow, moment).allowance, 0.33);
    CU_ASSERT_EQUAL(factors_of(&s, DEFLECTION(), LEGAL, slow, moment).allowance, 0.33);
    slow.speed = 11.0 * MPH;
    CU_ASSERT_EQUAL(factors_of(&s, STRENGTH(LRFR, PERMIT), PERMIT, slow, moment).allowance, 0.20);
}

/* ---- impact ----------------------------------------------------------------------------------------- */

/* Standard Specifications 3.8.2.1, I = 50 / (L + 125) at most 0.30 (from memory); four decimals. */
static void test_impact_formula(void) {
    static const double length[] = {24.0, 41.0, 50.0, 60.0, 66.0, 80.0, 89.0, 100.0, 150.0};
    static const double impact[] = {0.30, 0.30, 0.2857, 0.2703, 0.2618, 0.2439, 0.2336, 0.2222, 0.1818};
    for (int i = 0; i < ENTRIES(length); i++) {
        check_near("impact", ss_method_impact(length[i] * FOOT), impact[i], 5.1e-5, 1.0);
    }
    CU_ASSERT_EQUAL(ss_method_impact(0.0), 0.30);
    CU_ASSERT_EQUAL(ss_method_impact((double)NAN), 0.30);
}

static double impact_of(const method_sample *s, ss_effect effect) {
    return factors_of(s, STRENGTH(LFR, INVENTORY), LEGAL, alone(), effect).allowance;
}

/* Standard Specifications 3.8.2.2 (from memory). */
static void test_impact_by_loaded_length(void) {
    method_sample s;
    sample_start(&s);
    CHECK_CLOSE(impact_of(&s, on_line(MAIN, 41.0, SS_EFFECT_MOMENT)), 50.0 / (66.0 + 125.0), 1e-12);
    /* Shear: to the far support, 61 ft from 15 ft, 46 ft from 56 ft. */
    CHECK_CLOSE(impact_of(&s, on_line(EXTERIOR, 15.0, SS_EFFECT_WEB_PLUS)), 50.0 / (61.0 + 125.0), 1e-12);
    CHECK_CLOSE(impact_of(&s, on_line(EXTERIOR, 56.0, SS_EFFECT_WEB_MINUS)), 50.0 / (46.0 + 125.0), 1e-12);
    CU_ASSERT_EQUAL(impact_of(&s, on_line(MAIN, 4.0, SS_EFFECT_MOMENT)), 0.30);
    /* Stringers between floor beams: 45 ft from 31 to 76 ft; without floor beams between bearings. */
    CHECK_CLOSE(impact_of(&s, on_line(STRINGER, 41.0, SS_EFFECT_MOMENT)), 50.0 / (45.0 + 125.0), 1e-12);
    CU_ASSERT_EQUAL(impact_of(&s, on_line(STRINGER, 15.0, SS_EFFECT_MOMENT)), 0.30);
    s.cars[0].beam_count = 0;
    CHECK_CLOSE(impact_of(&s, on_line(STRINGER, 41.0, SS_EFFECT_MOMENT)), 50.0 / (66.0 + 125.0), 1e-12);
    /* An overhang long enough to matter: 54 ft from the section to the tip; its shear has 30 percent. */
    s.lines[MAIN].x1 = 150.0 * FOOT;
    CHECK_CLOSE(impact_of(&s, on_line(MAIN, 96.0, SS_EFFECT_MOMENT)), 50.0 / (54.0 + 125.0), 1e-12);
    CU_ASSERT_EQUAL(impact_of(&s, on_line(MAIN, 96.0, SS_EFFECT_WEB_PLUS)), 0.30);
    const ss_effect joint = {.kind = SS_EFFECT_SHEAR, .member = SS_MEMBER_JOINT};
    CU_ASSERT_EQUAL(impact_of(&s, joint), 0.30);
    /* A floor beam spans across, from the first to the last line; here one drawn out to 57 ft. */
    const ss_effect beam = {.kind = SS_EFFECT_MOMENT, .member = SS_MEMBER_BEAM, .index = 1};
    CU_ASSERT_EQUAL(impact_of(&s, beam), 0.30);
    s.lines[LONE].y = 57.0 * FOOT;
    CHECK_CLOSE(impact_of(&s, beam), 50.0 / (57.0 + 125.0), 1e-12);
}

int main(void) {
    static const test_case cases[] = {{"legal factors", test_legal_factors},
                                      {"live factor by truck", test_live_factor_by_truck},
                                      {"fixed live factors", test_fixed_live_factors},
                                      {"permit factors, 2018", test_permit_factors_2018},
                                      {"permit factors, 2011", test_permit_factors_2011},
                                      {"multiple presence", test_presence},
                                      {"facts of crossings", test_facts_of_crossings},
                                      {"spans", test_spans},
                                      {"allowance", test_allowance_by_member_and_span},
                                      {"speed", test_speed},
                                      {"impact formula", test_impact_formula},
                                      {"impact by loaded length", test_impact_by_loaded_length}};
    return RUN_SUITE("method factors", cases);
}
