/* test_strength_inputs.c - strength rules under inputs of every size and kind: a number that is not negative,
 * or NaN and why. */
#include <stdint.h>

#include "sillspan/bearing_web.h"
#include "sillspan/coupon_strength.h"
#include "sillspan/deck_strength.h"
#include "sillspan/fatigue_life.h"
#include "sillspan/joint_stiffness.h"
#include "sillspan/joint_strength.h"
#include "sillspan/web_shear.h"
#include "support/suite.h"
#include "working_checks.h"

enum { ROUNDS = 40000 };

/* Numerical Recipes' linear congruential generator, from a fixed seed. */
static uint32_t next(uint32_t *state) {
    *state = 1664525u * *state + 1013904223u;
    return *state >> 8;
}

/* Mostly a positive number between the extremes of a double, near 1 more often; now and then anything else.
 */
static double any(uint32_t *state) {
    static const double odd[] = {0.0,
                                 -0.0,
                                 -1.0,
                                 1.0,
                                 5e-324,
                                 2.2250738585072014e-308,
                                 1.7976931348623157e308,
                                 -1.7976931348623157e308,
                                 (double)NAN,
                                 (double)INFINITY,
                                 (double)-INFINITY};
    const uint32_t kind = next(state) % 24u;
    if (kind < sizeof odd / sizeof odd[0]) {
        return next(state) % 4u == 0u ? odd[kind] : 0.37 + kind;
    }
    const double exponent = (double)(next(state) % 2001u) / 1000.0 - 1.0;
    return pow(10.0, exponent * (kind == 23u ? 300.0 : kind > 20u ? 60.0 : 3.0));
}

static int whole(uint32_t *state) {
    return (int)(next(state) % 5u) - 1;
}

static bool fair(double value, const char *why) {
    return why != NULL ? isnan(value) : isfinite(value) && value >= 0.0;
}

static bool fair_joint(ss_joint_strength found) {
    return fair(found.shear.factored, found.why) && fair(found.moment.factored, found.why) &&
           found.shear.mode != NULL && found.moment.mode != NULL;
}

static void test_webs(void) {
    uint32_t s = 20240611u;
    int numbers = 0;
    for (int i = 0; i < ROUNDS; i++) {
        const ss_section_properties section = {
            .shear_area = any(&s), .web_clear = any(&s), .web_thin = any(&s)};
        const ss_web_panel panel = {.spacing = any(&s),
                                    .interior = whole(&s) > 0,
                                    .flange_compression = any(&s),
                                    .flange_tension = any(&s)};
        ss_working working = {0};
        const ss_resistance shear = ss_web_shear_panel(&section, any(&s), any(&s), &panel, &working);
        CU_ASSERT(fair(shear.value, shear.why));
        const ss_bearing_web web = {any(&s), whole(&s), any(&s), any(&s), any(&s),
                                    any(&s), any(&s),   any(&s), any(&s)};
        const ss_bearing_web_strength bearing = ss_bearing_web_resistance(&web, NULL);
        CU_ASSERT(fair(bearing.yielding.value, bearing.yielding.why));
        CU_ASSERT(fair(bearing.crippling.value, bearing.crippling.why));
        CU_ASSERT(isnan(bearing.factored) || fair(bearing.factored, NULL));
        const ss_bearing_stiffener plates = {whole(&s), any(&s), any(&s), any(&s), any(&s),
                                             any(&s),   any(&s), any(&s), any(&s), any(&s)};
        const ss_bearing_stiffener_strength column = ss_bearing_stiffener_resistance(&plates, NULL);
        CU_ASSERT(fair(column.column.value, column.column.why));
        CU_ASSERT(!isinf(ss_web_shear_of_flanges(any(&s), any(&s), any(&s))));
        numbers += shear.why == NULL ? 1 : 0;
    }
    CU_ASSERT(numbers > ROUNDS / 10);
}

static void test_decks(void) {
    uint32_t s = 77u;
    int numbers = 0;
    for (int i = 0; i < ROUNDS; i++) {
        const ss_deck_span span = {any(&s), whole(&s) > 0, any(&s), any(&s), any(&s)};
        const ss_deck_plate plate = {any(&s), any(&s), whole(&s) > 0, any(&s)};
        const ss_deck_planks planks = {any(&s), any(&s), any(&s), any(&s), any(&s),
                                       any(&s), any(&s), any(&s), any(&s)};
        const ss_deck_grating grating = {any(&s), any(&s), any(&s)};
        const ss_deck_check found[] = {ss_deck_plate_check(&span, &plate, NULL),
                                       ss_deck_planks_check(&span, &planks, NULL),
                                       ss_deck_grating_check(&span, &grating, NULL)};
        for (int j = 0; j < ENTRIES(found); j++) {
            CU_ASSERT(fair(found[j].wheel, found[j].why));
            CU_ASSERT(found[j].governs != NULL);
            (void)ss_deck_wheel_left(&found[j], any(&s), any(&s));
            numbers += found[j].why == NULL ? 1 : 0;
        }
        (void)ss_wheel_patch_of((ss_patch_rule)whole(&s), any(&s));
    }
    CU_ASSERT(numbers > ROUNDS / 10);
}

static void test_lives(void) {
    uint32_t s = 5150u;
    int numbers = 0;
    for (int i = 0; i < ROUNDS; i++) {
        const ss_fatigue_detail detail = {.category = (ss_fatigue_category)(2 * whole(&s)),
                                          .range = any(&s) * 1e7,
                                          .cycles_per_truck = any(&s),
                                          .adtt = any(&s),
                                          .years = any(&s),
                                          .growth = 0.1 * any(&s) - 0.1,
                                          .used = whole(&s) > 0 ? any(&s) : 0.0,
                                          .edition = (ss_fatigue_edition)whole(&s),
                                          .level = (ss_fatigue_level)whole(&s)};
        const ss_fatigue_life life = ss_fatigue_life_of(&detail, NULL);
        CU_ASSERT(life.why != NULL ? isnan(life.remaining) : life.remaining >= 0.0);
        CU_ASSERT(life.verdict != NULL);
        const double tests[] = {any(&s), any(&s), any(&s), any(&s)};
        const ss_coupon_strength steel = ss_coupon_yield(tests, whole(&s), NULL);
        CU_ASSERT(fair(steel.value, steel.why));
        numbers += life.why == NULL ? 1 : 0;
    }
    CU_ASSERT(numbers > ROUNDS / 20);
}

static void test_joints(void) {
    uint32_t s = 1868u;
    int numbers = 0;
    for (int i = 0; i < ROUNDS; i++) {
        const ss_joint_plate plate = {any(&s),
                                      any(&s),
                                      any(&s),
                                      any(&s),
                                      whole(&s) > 0,
                                      (ss_joint_edge)whole(&s),
                                      (ss_joint_edge)whole(&s),
                                      whole(&s) > 0,
                                      any(&s),
                                      any(&s),
                                      whole(&s),
                                      any(&s)};
        const ss_joint_strength of_plate = ss_joint_plate_strength(&plate, NULL);
        CU_ASSERT(fair_joint(of_plate));
        const ss_weld_line lines[] = {{any(&s), any(&s), any(&s), any(&s)},
                                      {any(&s), any(&s), any(&s), any(&s)}};
        const ss_weld_group welds = {lines, 2, any(&s), any(&s), any(&s), any(&s), any(&s), whole(&s) > 0};
        const ss_joint_strength of_welds = ss_weld_group_strength(&welds, NULL);
        CU_ASSERT(fair_joint(of_welds));
        const ss_bolt_place places[] = {{any(&s), any(&s)}, {any(&s), any(&s)}, {any(&s), any(&s)}};
        const ss_bolt_group bolts = {
            places, 3, {any(&s), any(&s), whole(&s) > 0, 1, any(&s), any(&s), any(&s)}, any(&s)};
        CU_ASSERT(fair_joint(ss_bolt_group_strength(&bolts, NULL)));
        const ss_joint_beam beam = {(ss_joint_interface)whole(&s),
                                    any(&s),
                                    any(&s),
                                    any(&s),
                                    any(&s),
                                    any(&s),
                                    any(&s),
                                    whole(&s) > 0};
        CU_ASSERT(fair_joint(ss_joint_beam_strength(&beam, NULL)));
        const ss_joint_span span = {
            any(&s),      any(&s), any(&s), any(&s), (ss_joint_edge)whole(&s), (ss_joint_edge)whole(&s),
            whole(&s) > 0};
        const ss_joint_stiffness stiff = ss_joint_span_stiffness(&span, NULL);
        CU_ASSERT(fair(stiff.shear, stiff.why) && fair(stiff.rotation, stiff.why));
        numbers += of_plate.why == NULL && of_welds.why == NULL ? 1 : 0;
    }
    CU_ASSERT(numbers > ROUNDS / 50);
}

int main(void) {
    static const test_case cases[] = {
        {"webs", test_webs}, {"decks", test_decks}, {"lives", test_lives}, {"joints", test_joints}};
    return RUN_SUITE("strength inputs", cases);
}
