/* test_bearing_web.c - webs above bearings against AISC's published examples, whose formulas AASHTO shares.
 */
#include "sillspan/bearing_web.h"

#include <string.h>

#include "support/suite.h"
#include "working_checks.h"

#define STEEL_E (29000.0 * KSI)

/* Sizes in inches, stress in ksi. */
static ss_bearing_web web(double t, double tf, double k, double depth, double length, double end) {
    return (ss_bearing_web){.web_thickness = t * INCH,
                            .webs = 1,
                            .flange_thickness = tf * INCH,
                            .fillet_reach = k * INCH,
                            .depth = depth * INCH,
                            .length = length * INCH,
                            .end_distance = end * INCH,
                            .fy = 50.0 * KSI,
                            .E = STEEL_E};
}

/* AISC, Companion to the Manual, Design Examples V16.0, J.7: W24x55 girder under a 7.50 in wide flange, far
 * from its ends. Yielding 248 kip, crippling 282 kip, available 248 and 0.75 x 282 = 212 kip, or 165 and 141.
 */
static void test_interior(void) {
    const ss_bearing_web w = web(0.395, 0.505, 1.01, 23.6, 7.50, 96.0);
    ss_working working = {0};
    const ss_bearing_web_strength found = ss_bearing_web_resistance(&w, &working);
    CU_ASSERT_DOUBLE_EQUAL(found.yielding.value / KIP, 248.0, 0.5);
    CU_ASSERT_DOUBLE_EQUAL(found.crippling.value / KIP, 282.0, 0.5);
    CU_ASSERT_DOUBLE_EQUAL(found.allowable / KIP, 141.0, 0.5);
    CU_ASSERT_STRING_EQUAL(found.allowable_governs, "web crippling");
    CHECK_CLOSE(found.factored, 0.80 * found.crippling.value, 1e-12);
    CU_ASSERT_STRING_EQUAL(found.governs, "web crippling");
    check_steps(&working, 8);
}

/* The same book, II.B-1: W14x99 under a plate of 3/4 in (web 0.485 in, from memory of the tables; R2 = 24.3
 * kip/in and R1 = 83.7 kip there give k): yielding 186 kip, crippling 233 kip available. */
static void test_interior_plate(void) {
    const ss_bearing_web w = web(0.485, 0.780, 1.38, 14.2, 0.75, 60.0);
    const ss_bearing_web_strength found = ss_bearing_web_resistance(&w, NULL);
    CU_ASSERT_DOUBLE_EQUAL(found.yielding.value / KIP, 186.0, 0.6);
    CU_ASSERT_DOUBLE_EQUAL(0.75 * found.crippling.value / KIP, 233.0, 0.8);
}

/* AISC Design Guide 29, chapter 5: W21x83 (web 0.515, flange 0.835, k 1.34, depth 21.4 in), 31.5 in of
 * gusset whose middle is 16.8 in from the end: within the depth, beyond half of it. 897 and 766 kip
 * available. */
static void test_between_half_depth_and_depth(void) {
    const ss_bearing_web w = web(0.515, 0.835, 1.34, 21.4, 31.5, 16.8);
    const ss_bearing_web_strength found = ss_bearing_web_resistance(&w, NULL);
    CU_ASSERT_DOUBLE_EQUAL(found.yielding.value / KIP, 897.0, 0.6);
    CU_ASSERT_DOUBLE_EQUAL(0.75 * found.crippling.value / KIP, 766.0, 0.6);
}

/* AISC Design Examples II.A-14: W21x68 on a seat, reaction 1.2 x 21 + 1.6 x 62.5 = 125.2 kip. The seat has to
 * be 6.93 in wide for crippling (N/d above 0.2) and 3.59 in for yielding, of which 3/4 in does not bear. A
 * hundredth of an inch is 0.08 and 0.2 kip. */
static void test_end_on_a_seat(void) {
    const ss_bearing_web crippling = web(0.430, 0.685, 1.19, 21.1, 6.93 - 0.75, 0.0);
    CU_ASSERT_DOUBLE_EQUAL(0.75 * ss_bearing_web_resistance(&crippling, NULL).crippling.value / KIP, 125.2,
                           0.2);
    const ss_bearing_web yielding = web(0.430, 0.685, 1.19, 21.1, 3.59 - 0.75, 0.0);
    CU_ASSERT_DOUBLE_EQUAL(ss_bearing_web_resistance(&yielding, NULL).yielding.value / KIP, 125.2, 0.2);
}

/* Near the end with a short bearing, by hand for W21x62 with 3 in: 0.4 x 0.16 x (1 + 3 x 3/21 x
 * (0.400/0.615)^1.5) x sqrt(29000 x 50 x 0.615/0.400) = 117.0 kip; (2.5 x 1.12 + 3) x 50 x 0.400 = 116 kip.
 */
static void test_short_bearing_at_the_end(void) {
    const ss_bearing_web w = web(0.400, 0.615, 1.12, 21.0, 3.0, 1.5);
    const ss_bearing_web_strength found = ss_bearing_web_resistance(&w, NULL);
    CU_ASSERT_DOUBLE_EQUAL(found.crippling.value / KIP, 117.04, 0.005);
    CHECK_CLOSE(found.yielding.value, 116.0 * KIP, 1e-12);
}

/* The two lines for a bearing at the end meet at N/d = 0.2, 3 x 0.2 = 4 x 0.2 - 0.2; distances at the limits
 * belong to the end for yielding (not farther than d) and to the interior for crippling (d/2). */
static void test_branches(void) {
    ss_bearing_web w = web(0.31, 0.47, 0.9, 20.0, 4.0, 0.0);
    const double at = ss_bearing_web_resistance(&w, NULL).crippling.value;
    w.length *= 1.0 + 1e-12;
    CHECK_CLOSE(ss_bearing_web_resistance(&w, NULL).crippling.value, at, 1e-11);
    w.end_distance = 20.0 * INCH;
    const double within = ss_bearing_web_resistance(&w, NULL).yielding.value;
    w.end_distance *= 1.0 + 1e-12;
    CHECK_CLOSE(ss_bearing_web_resistance(&w, NULL).yielding.value - within, 2.5 * 0.9 * 50.0 * 0.31 * KIP,
                1e-9);
    w.length = 3.0 * INCH;
    w.end_distance = 10.0 * INCH;
    const double inside = ss_bearing_web_resistance(&w, NULL).crippling.value;
    w.end_distance *= 1.0 - 1e-12;
    CHECK_CLOSE(ss_bearing_web_resistance(&w, NULL).crippling.value, 0.5 * inside, 1e-12);
}

/* Without a fillet k is the flange; a k below the flange makes no sense and is the flange too. Two webs carry
 * twice. More of anything never carries less. */
static void test_what_helps(void) {
    ss_bearing_web w = web(0.25, 0.5, 0.0, 24.0, 6.0, 0.0);
    const ss_bearing_web_strength plain = ss_bearing_web_resistance(&w, NULL);
    CHECK_CLOSE(plain.yielding.value, (2.5 * 0.5 + 6.0) * 50.0 * 0.25 * KIP, 1e-12);
    w.fillet_reach = 0.2 * INCH;
    CU_ASSERT_EQUAL(ss_bearing_web_resistance(&w, NULL).yielding.value, plain.yielding.value);
    w.fillet_reach = (double)NAN;
    CU_ASSERT_EQUAL(ss_bearing_web_resistance(&w, NULL).yielding.value, plain.yielding.value);
    w.webs = 2;
    CHECK_CLOSE(ss_bearing_web_resistance(&w, NULL).factored, 2.0 * plain.factored, 1e-12);
    double last = 0.0;
    for (double length = 0.0; length < 40.0; length += 0.7) {
        w.length = length * INCH;
        const double found = ss_bearing_web_resistance(&w, NULL).factored;
        CU_ASSERT(found > last);
        last = found;
    }
}

/* A pair 5 1/2 x 11/16 in with 1 in clips on a web 1/2 in, 54 in deep, 50 ksi; by hand: ends 1.4 x 2 x 4.5 x
 * 0.6875 x 50 = 433.1 kip; column of 12.406 in2, I = 87.23 in4, 40.5 in: Po 620.3, Pe 15 221, Pn 609.8 kip.
 */
static ss_bearing_stiffener pair(void) {
    return (ss_bearing_stiffener){.pairs = 1,
                                  .width = 5.5 * INCH,
                                  .thickness = 0.6875 * INCH,
                                  .clip = 1.0 * INCH,
                                  .web_thickness = 0.5 * INCH,
                                  .web_height = 54.0 * INCH,
                                  .web_strip = 40.0 * INCH,
                                  .fy = 50.0 * KSI,
                                  .E = STEEL_E};
}

static void test_stiffener(void) {
    ss_bearing_stiffener s = pair();
    ss_working working = {0};
    ss_bearing_stiffener_strength found = ss_bearing_stiffener_resistance(&s, &working);
    CU_ASSERT_DOUBLE_EQUAL(found.bearing.value / KIP, 433.125, 0.001);
    CU_ASSERT_DOUBLE_EQUAL(step_value(&working, "A") / INCH2, 12.40625, 1e-6);
    CU_ASSERT_DOUBLE_EQUAL(step_value(&working, "I") / INCH4, 87.2272, 0.0001);
    CU_ASSERT_DOUBLE_EQUAL(step_value(&working, "Pe") / KIP, 15220.9, 0.05);
    CU_ASSERT_DOUBLE_EQUAL(found.column.value / KIP, 609.821, 0.001);
    CHECK_CLOSE(found.factored, found.bearing.value, 1e-12);
    CU_ASSERT_STRING_EQUAL(found.governs, "bearing of the fitted ends");
    check_steps(&working, 8);
    /* Near the end of a member there is less web; riveted plates have none. */
    s.web_strip = 2.0 * INCH;
    CHECK_CLOSE(ss_bearing_stiffener_resistance(&s, NULL).column.value / KIP, 50.0 * 8.5625 * 0.9874, 2e-3);
    s.web_strip = 0.0;
    CU_ASSERT(ss_bearing_stiffener_resistance(&s, NULL).column.value < 50.0 * 7.5625 * KIP);
}

/* A column that buckles elastically has 0.877 Pe; at Pe = 0.44 Po both formulas give 0.386 Po within a
 * thousandth, the rounding of the specification. */
static void test_slender_column(void) {
    ss_bearing_stiffener s = pair();
    s.web_height = 1600.0 * INCH;
    ss_working working = {0};
    const double found = ss_bearing_stiffener_resistance(&s, &working).column.value;
    CHECK_CLOSE(found, 0.877 * step_value(&working, "Pe"), 1e-12);
    const double ratio = step_value(&working, "Pe") / step_value(&working, "Po");
    CU_ASSERT(ratio < 0.44);
    s.web_height *= sqrt(ratio / 0.44) * (1.0 + 1e-12);
    const double below = ss_bearing_stiffener_resistance(&s, NULL).column.value;
    s.web_height *= 1.0 - 2e-12;
    const double above = ss_bearing_stiffener_resistance(&s, NULL).column.value;
    CHECK_CLOSE(above, pow(0.658, 1.0 / 0.44) * step_value(&working, "Po"), 1e-9);
    CHECK_CLOSE(below, above, 1.2e-3);
}

static void test_what_cannot_be_told(void) {
    static const double odd[] = {-1.0, (double)NAN, (double)INFINITY};
    for (size_t i = 0; i < sizeof odd / sizeof odd[0]; i++) {
        ss_bearing_web rows[7];
        for (int j = 0; j < 7; j++) {
            rows[j] = web(0.25, 0.5, 0.0, 24.0, 6.0, 0.0);
        }
        rows[0].web_thickness = rows[1].flange_thickness = rows[2].depth = rows[3].length = odd[i];
        rows[4].end_distance = rows[5].fy = rows[6].E = odd[i];
        for (int j = 0; j < 7; j++) {
            const ss_bearing_web_strength found = ss_bearing_web_resistance(&rows[j], NULL);
            CU_ASSERT(isnan(found.factored) && isnan(found.allowable) && isnan(found.yielding.value));
            CU_ASSERT_PTR_NOT_NULL(found.crippling.why);
        }
        ss_bearing_stiffener s = pair();
        s.width = odd[i];
        CU_ASSERT(isnan(ss_bearing_stiffener_resistance(&s, NULL).factored));
    }
    ss_bearing_web none = web(0.25, 0.5, 0.0, 24.0, 6.0, 0.0);
    none.webs = 0;
    CU_ASSERT(isnan(ss_bearing_web_resistance(&none, NULL).factored));
    ss_bearing_web huge = web(1e200, 1e200, 0.0, 1e200, 1e200, 0.0);
    CU_ASSERT(isnan(ss_bearing_web_resistance(&huge, NULL).factored));
    ss_bearing_web thin = web(1e-250, 1e250, 0.0, 24.0, 6.0, 0.0);
    CU_ASSERT(isnan(ss_bearing_web_resistance(&thin, NULL).factored));
    ss_bearing_stiffener tiny = pair();
    tiny.web_height = 1e-250;
    CU_ASSERT_PTR_NULL(ss_bearing_stiffener_resistance(&tiny, NULL).bearing.why);
    tiny.width = tiny.thickness = tiny.web_thickness = 1e-250;
    tiny.clip = 0.0;
    CU_ASSERT(isnan(ss_bearing_stiffener_resistance(&tiny, NULL).factored));
    ss_bearing_stiffener slender = pair();
    slender.thickness = 0.47 * INCH;
    CU_ASSERT_PTR_NOT_NULL(strstr(ss_bearing_stiffener_resistance(&slender, NULL).column.why, "0.48"));
    slender.thickness = 0.48 * INCH;
    CU_ASSERT_PTR_NULL(ss_bearing_stiffener_resistance(&slender, NULL).column.why);
    ss_bearing_stiffener clipped = pair();
    clipped.clip = clipped.width;
    CU_ASSERT(isnan(ss_bearing_stiffener_resistance(&clipped, NULL).factored));
}

int main(void) {
    static const test_case cases[] = {
        {"interior", test_interior},
        {"interior plate", test_interior_plate},
        {"between half the depth and the depth", test_between_half_depth_and_depth},
        {"end on a seat", test_end_on_a_seat},
        {"short bearing at the end", test_short_bearing_at_the_end},
        {"branches", test_branches},
        {"what helps", test_what_helps},
        {"stiffener", test_stiffener},
        {"slender column", test_slender_column},
        {"what cannot be told", test_what_cannot_be_told}};
    return RUN_SUITE("bearing web", cases);
}
