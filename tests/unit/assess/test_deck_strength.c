/* test_deck_strength.c - the deck under a wheel against positions tried one by one, beams of several spans
 * and plate theory. */
#include "sillspan/deck_strength.h"

#include <string.h>

#include "support/suite.h"
#include "working_checks.h"

#define PI 3.14159265358979323846

/* Contact areas, all from memory: LRFD 3.6.1.2.5; Standard Specifications 3.30, a 16 kip wheel 20 x 8 in and
 * a 12 kip wheel 17.32 x 6.93 in as textbooks on timber decks print them; EN 1991-2. */
static void test_patches(void) {
    const ss_wheel_patch lrfd = ss_wheel_patch_of(SS_PATCH_LRFD, (double)NAN);
    CHECK_CLOSE(lrfd.across, 20.0 * INCH, 1e-12);
    CHECK_CLOSE(lrfd.along, 10.0 * INCH, 1e-12);
    const ss_wheel_patch heavy = ss_wheel_patch_of(SS_PATCH_STANDARD, 16.0 * KIP);
    CHECK_CLOSE(heavy.across, 20.0 * INCH, 1e-12);
    CHECK_CLOSE(heavy.along, 8.0 * INCH, 1e-12);
    const ss_wheel_patch light = ss_wheel_patch_of(SS_PATCH_STANDARD, 12.0 * KIP);
    CU_ASSERT_DOUBLE_EQUAL(light.across / INCH, 17.32, 0.005);
    CU_ASSERT_DOUBLE_EQUAL(light.along / INCH, 6.93, 0.005);
    CU_ASSERT_EQUAL(ss_wheel_patch_of(SS_PATCH_LM1, 0.0).along, 0.40);
    CU_ASSERT_EQUAL(ss_wheel_patch_of(SS_PATCH_LM2, 0.0).across, 0.60);
    const ss_wheel_patch below = ss_wheel_patch_spread(lrfd, 2.0 * INCH);
    CHECK_CLOSE(below.across, 24.0 * INCH, 1e-12);
    CHECK_CLOSE(below.along, 14.0 * INCH, 1e-12);
    CU_ASSERT(isnan(ss_wheel_patch_of(SS_PATCH_STANDARD, 0.0).along));
    CU_ASSERT(isnan(ss_wheel_patch_of((ss_patch_rule)9, 1.0).along));
    CU_ASSERT(isnan(ss_wheel_patch_spread(lrfd, -0.01).along));
}

static ss_deck_span deck(double span, double patch) {
    return (ss_deck_span){.span = span, .patch_span = patch, .patch_side = 0.254};
}

/* Moment at x of a simple span under a strip of load of 1 in all from a to a + c, as a sum over slices. */
static double strip_moment(double L, double x, double a, double c) {
    enum { SLICES = 200 };
    double moment = 0.0;
    for (int i = 0; i < SLICES; i++) {
        const double at = a + c * (i + 0.5) / SLICES;
        if (at > 0.0 && at < L) {
            moment += (at < x ? at * (L - x) : x * (L - at)) / L / SLICES;
        }
    }
    return moment;
}

/* The largest moment of one or two wheels over sections and positions. */
static double searched_moment(double L, double c, double next) {
    double largest = 0.0;
    for (double x = 0.1 * L; x < 0.9 * L; x += 0.02 * L) {
        for (double a = -c; a < L; a += 0.02 * L) {
            double moment = strip_moment(L, x, a, c);
            if (next > 0.0) {
                moment += strip_moment(L, x, a + next, c);
            }
            largest = fmax(largest, moment);
        }
    }
    return largest;
}

/* Exact for one wheel, on the safe side for two, whose areas are taken as points. */
static void test_moment_by_search(void) {
    static const struct {
        double span, patch, next;
    } row[] = {{0.61, 0.508, 0.0},    {0.61, 0.254, 0.0},   {0.43, 0.508, 0.0},   {1.1, 0.3, 1.2192},
               {1.71, 0.254, 1.2192}, {2.2, 0.254, 1.2192}, {2.43, 0.508, 1.2192}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        ss_deck_span span = deck(row[i].span, row[i].patch);
        span.next_wheel = row[i].next;
        const double found = ss_deck_demand_of(&span, 0.0).moment;
        const double searched = searched_moment(row[i].span, row[i].patch, row[i].next);
        CU_ASSERT(found >= searched * (1.0 - 1e-4));
        CU_ASSERT(found <= searched * (row[i].span > 1.2192 ? 1.25 : 1.005));
    }
}

/* Shear of an end: of every position whose near edge is beyond the critical section, and of what lies beyond
 * it of the others. */
static void test_shear_by_search(void) {
    static const struct {
        double span, patch, from;
    } row[] = {
        {0.61, 0.254, 0.0}, {0.61, 0.254, 0.07}, {0.61, 0.508, 0.09}, {0.4, 0.508, 0.05}, {0.9, 0.4, 0.1}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const double L = row[i].span;
        const double c = row[i].patch;
        double largest = 0.0;
        for (double a = -c; a < L; a += 0.001) {
            double shear = 0.0;
            for (int k = 0; k < 400; k++) {
                const double at = a + c * (k + 0.5) / 400.0;
                shear += at >= row[i].from && at < L ? (1.0 - at / L) / 400.0 : 0.0;
            }
            largest = fmax(largest, shear);
        }
        const ss_deck_span span = deck(L, c);
        check_relative("shear", ss_deck_demand_of(&span, row[i].from).shear, largest, 4e-3);
    }
    const ss_deck_span span = deck(0.2, 0.3);
    CU_ASSERT_EQUAL(ss_deck_demand_of(&span, 0.2).shear, 0.0);
}

/* A beam over `spans` equal spans of 1, by three-moment equations (Thomas's algorithm): moments over its
 * supports for a point load of 1 at `a` in the first or second span. */
enum { SPANS = 6 };

static void support_moments(int loaded, double a, double *M) {
    double rhs[SPANS + 1] = {0.0};
    /* 6 A x / L of a point load, for the supports left and right of it. */
    rhs[loaded] = -a * (1.0 - a) * (2.0 - a);
    rhs[loaded + 1] = -a * (1.0 - a * a);
    double ratio[SPANS + 1] = {0.0};
    double value[SPANS + 1] = {0.0};
    for (int i = 1; i < SPANS; i++) {
        const double pivot = 4.0 - ratio[i - 1];
        ratio[i] = 1.0 / pivot;
        value[i] = (rhs[i] - value[i - 1]) / pivot;
    }
    M[0] = M[SPANS] = 0.0;
    for (int i = SPANS - 1; i > 0; i--) {
        M[i] = value[i] - ratio[i] * M[i + 1];
    }
}

/* Moment at x (0 to 1) of span `at`, and shear just inside its left end, of the moments over its supports and
 * a load at `a` of span `loaded`. */
static double moment_in(const double *M, int at, double x, int loaded, double a) {
    const double own = at != loaded ? 0.0 : x < a ? x * (1.0 - a) : a * (1.0 - x);
    return own + M[at] * (1.0 - x) + M[at + 1] * x;
}

/* Largest moment of either sign, and shear beside supports of wheels `from` and more away from them, in the
 * first three of six spans of 1, with one wheel and with two `next` apart, points. */
static void search_continuous(double next, double from, double *moment, double *shear) {
    *moment = *shear = 0.0;
    for (double first = 0.005; first < 3.0; first += 0.01) {
        const double places[] = {first, first + next};
        const int wheels = next > 0.0 && places[1] < 3.0 ? 2 : 1;
        double M[2][SPANS + 1];
        for (int w = 0; w < wheels; w++) {
            support_moments((int)places[w], places[w] - (int)places[w], M[w]);
        }
        for (int at = 0; at < 3; at++) {
            double left = 0.0;
            double right = 0.0;
            for (int w = 0; w < wheels; w++) {
                const double a = places[w] - (int)places[w];
                const bool own = (int)places[w] == at;
                const double lean = M[w][at + 1] - M[w][at];
                left += lean + (own && a >= from ? 1.0 - a : 0.0);
                right += -lean + (own && 1.0 - a >= from ? a : 0.0);
            }
            *shear = fmax(*shear, fmax(left, right));
            for (double x = 0.0; x <= 1.0; x += 0.02) {
                double sum = 0.0;
                for (int w = 0; w < wheels; w++) {
                    sum += moment_in(M[w], at, x, (int)places[w], places[w] - (int)places[w]);
                }
                *moment = fmax(*moment, fabs(sum));
            }
        }
    }
}

/* Continuous decks: no wheel and no pair of wheels in the first half of six spans has more moment or shear
 * than is told, nor much less. */
static void test_continuous(void) {
    static const double nexts[] = {0.0, 0.55, 0.8, 1.0, 1.3, 1.7, 1.99};
    for (size_t i = 0; i < sizeof nexts / sizeof nexts[0]; i++) {
        ss_deck_span span = deck(1.0, 1e-9);
        span.continuous = true;
        span.next_wheel = nexts[i];
        const ss_deck_demand found = ss_deck_demand_of(&span, 0.06);
        double moment = 0.0;
        double shear = 0.0;
        search_continuous(nexts[i], 0.06, &moment, &shear);
        CU_ASSERT(moment <= found.moment && moment > 0.75 * found.moment);
        CU_ASSERT(shear <= found.shear && shear > 0.75 * found.shear);
    }
}

/* Largest moment per width under a wheel in the middle of a long plate on two supports: series in sines along
 * the span, exact across (S. Timoshenko and S. Woinowsky-Krieger, Theory of Plates and Shells, art. 34), with
 * Poisson's ratio 0.3. */
static double plate_moment(double L, double u, double v) {
    double moment = 0.0;
    const double a = 0.5 * v;
    for (int m = 1; m < 2000; m += 2) {
        const double alpha = m * PI / L;
        const double load = 4.0 / (m * PI * u * v) * sin(0.5 * m * PI * u / L);
        const double fade = exp(-alpha * a);
        moment += load *
                  ((1.0 - (1.0 + 0.5 * alpha * a) * fade) / (alpha * alpha) + 0.3 * a * fade / (2.0 * alpha));
    }
    return moment;
}

/* The strip's moment per width is never below the plate's, nor more than 0.3 above it where the wheel is not
 * small against the span. */
static void test_plate_strip(void) {
    for (double u = 0.05; u <= 1.0; u += 0.05) {
        for (double v = 0.05; v < 5.0; v *= 1.3) {
            ss_deck_span span = deck(1.0, u);
            span.patch_side = v;
            const double strip = ss_deck_demand_of(&span, 0.0).moment / ss_deck_plate_strip(&span);
            const double plate = plate_moment(1.0, u, v);
            CU_ASSERT(strip >= plate);
            CU_ASSERT(strip <= plate * (u > 0.19 && v > 0.2 ? 1.3 : 1.5));
        }
    }
    ss_deck_span span = deck(0.7, 0.5);
    span.patch_side = 0.3;
    CHECK_CLOSE(ss_deck_plate_strip(&span), 0.3 + 0.35 + 0.15 - 0.06 - 0.15 * 0.5 / 0.7 * 0.3, 1e-12);
    span.patch_side = 6.0;
    CU_ASSERT_EQUAL(ss_deck_plate_strip(&span), 6.0);
    span.span = 0.0;
    CU_ASSERT(isnan(ss_deck_plate_strip(&span)));
}

/* 1/4 in plate of 36 ksi over stringers 18 in apart under 20 x 10 in across: strip 10 + 9 - 2 = 17 in, M = 36
 * x 17 x 0.0625 / 6 = 6.375 kip-in, P = 6.375 / (18^2/160) = 3.148 kip; by hand. */
static void test_plate(void) {
    ss_deck_span span = deck(18.0 * INCH, 20.0 * INCH);
    ss_deck_plate plate = {.thickness = 0.25 * INCH, .fy = 36.0 * KSI};
    ss_working working = {0};
    ss_deck_check found = ss_deck_plate_check(&span, &plate, &working);
    CHECK_CLOSE(found.strip, 20.9 * INCH, 1e-12);
    CHECK_CLOSE(found.moment_capacity, 7.8375 * KIP * INCH, 1e-12);
    CHECK_CLOSE(found.moment_demand, 18.0 * 18.0 / 160.0 * INCH, 1e-12);
    CHECK_CLOSE(found.wheel, 7.8375 / 2.025 * KIP, 1e-12);
    CU_ASSERT_STRING_EQUAL(found.governs, "bending of the deck plate");
    check_steps(&working, 7);
    const double simple = found.wheel;
    span.continuous = true;
    CHECK_CLOSE(ss_deck_plate_check(&span, &plate, NULL).wheel, simple / 0.8, 1e-12);
    plate.plastic = true;
    found = ss_deck_plate_check(&span, &plate, NULL);
    CHECK_CLOSE(found.wheel, 1.5 * simple / 0.8, 1e-12);
    plate.strip = 41.8 * INCH;
    CHECK_CLOSE(ss_deck_plate_check(&span, &plate, NULL).wheel, 2.0 * found.wheel, 1e-12);
    /* Dead load and factors: RF = (C - D) / (1.75 x 1.33 x 16 kip x demand), by the caller. */
    const double left = ss_deck_wheel_left(&found, 0.1 * found.moment_capacity, 0.0);
    CHECK_CLOSE(left, 0.9 * found.wheel, 1e-12);
    CU_ASSERT(ss_deck_wheel_left(&found, -2.0 * found.moment_capacity, 0.0) < 0.0);
    CHECK_CLOSE(ss_deck_wheel_left(&found, 0.0, 0.999 * found.shear_capacity),
                0.001 * found.shear_capacity / found.shear_demand, 1e-6);
    CU_ASSERT(isnan(ss_deck_wheel_left(&found, (double)NAN, 0.0)));
}

static ss_deck_planks planks(void) {
    return (ss_deck_planks){.width = 11.25 * INCH,
                            .thickness = 3.5 * INCH,
                            .Fb = 1.2 * KSI,
                            .Fv = 0.18 * KSI,
                            .load_duration = 1.15,
                            .wet_bending = 0.85,
                            .wet_shear = 0.97,
                            .other_bending = 1.1};
}

/* 4 x 12 planks over supports 24 in apart, the wheel 20 in along the planks, all of it on one; by hand: Fb' =
 * 1.2 x 1.15 x 0.85 x 1.1 = 1.2903 ksi, M = 29.637 kip-in over 24/4 - 20/8 = 3.5 in gives 8.468 kip; Fv' =
 * 0.20079 ksi, V = 5.2707 kip; 3.5 in from the support 20.5 in are left for 20 in: V/P = 1 - 13.5/24 =
 * 0.4375, 12.047 kip. */
static void test_planks(void) {
    const ss_deck_span span = deck(24.0 * INCH, 20.0 * INCH);
    ss_deck_planks timber = planks();
    ss_working working = {0};
    ss_deck_check found = ss_deck_planks_check(&span, &timber, &working);
    CU_ASSERT_DOUBLE_EQUAL(found.moment_capacity / (KIP * INCH), 29.637, 0.001);
    CHECK_CLOSE(found.moment_demand, 3.5 * INCH, 1e-12);
    CU_ASSERT_DOUBLE_EQUAL(found.wheel / KIP, 8.468, 0.001);
    CU_ASSERT_STRING_EQUAL(found.governs, "bending of the planks");
    CU_ASSERT_DOUBLE_EQUAL(found.shear_capacity / KIP, 5.2707, 0.0001);
    CHECK_CLOSE(found.shear_demand, 0.4375, 1e-12);
    check_steps(&working, 9);
    timber.Fv /= 2.0;
    found = ss_deck_planks_check(&span, &timber, NULL);
    CU_ASSERT_DOUBLE_EQUAL(found.wheel / KIP, 6.0237, 0.001);
    CU_ASSERT_STRING_EQUAL(found.governs, "horizontal shear of the planks");
    timber.spread = 2.0 * timber.width;
    CHECK_CLOSE(ss_deck_planks_check(&span, &timber, NULL).wheel, 2.0 * found.wheel, 1e-12);
    /* Deep planks on a short span: a wheel goes straight into the supports, bending is left. */
    const ss_deck_span narrow = deck(3.5 * INCH, 20.0 * INCH);
    found = ss_deck_planks_check(&narrow, &timber, NULL);
    CU_ASSERT_EQUAL(found.shear_demand, 0.0);
    CU_ASSERT_STRING_EQUAL(found.governs, "bending of the planks");
}

/* Longer spans and thinner planks never carry more. */
static void test_monotony(void) {
    const ss_deck_planks timber = planks();
    double last = (double)INFINITY;
    for (double span = 0.1; span < 2.4; span += 0.013) {
        ss_deck_span at = deck(span, 0.508);
        at.next_wheel = 1.2192;
        const double wheel = ss_deck_planks_check(&at, &timber, NULL).wheel;
        CU_ASSERT(wheel > 0.0 && wheel <= last);
        last = wheel;
    }
    last = 0.0;
    for (double t = 0.002; t < 0.03; t += 0.0007) {
        const ss_deck_span at = deck(0.5, 0.508);
        const ss_deck_plate plate = {.thickness = t, .fy = 2.5e8};
        const double wheel = ss_deck_plate_check(&at, &plate, NULL).wheel;
        CU_ASSERT(wheel > last);
        last = wheel;
    }
}

static void test_grating(void) {
    const ss_deck_span span = deck(0.8, 0.508);
    ss_deck_grating grating = {.moment = 9.1e3};
    ss_deck_check found = ss_deck_grating_check(&span, &grating, NULL);
    CHECK_CLOSE(found.wheel, 9.1e3 * 0.254 / (0.2 - 0.0635), 1e-12);
    CU_ASSERT(isnan(found.shear_capacity));
    const double by_moment = found.wheel;
    grating.wheel = 0.7 * by_moment;
    found = ss_deck_grating_check(&span, &grating, NULL);
    CU_ASSERT_EQUAL(found.wheel, grating.wheel);
    CU_ASSERT_STRING_EQUAL(found.governs, "the wheel that is allowed on the grating");
    CHECK_CLOSE(ss_deck_wheel_left(&found, 0.5 * found.moment_capacity, 0.0), 0.5 * by_moment, 1e-12);
    CU_ASSERT_EQUAL(ss_deck_wheel_left(&found, 0.1 * found.moment_capacity, 0.0), grating.wheel);
    grating.moment = 0.0;
    CU_ASSERT_EQUAL(ss_deck_grating_check(&span, &grating, NULL).wheel, grating.wheel);
    grating.wheel = 0.0;
    CU_ASSERT_PTR_NOT_NULL(strstr(ss_deck_grating_check(&span, &grating, NULL).why, "nothing is stated"));
}

static void test_what_cannot_be_told(void) {
    static const double odd[] = {0.0, -1.0, (double)NAN, (double)INFINITY};
    const ss_deck_plate plate = {.thickness = 0.006, .fy = 2.5e8};
    for (size_t i = 0; i < sizeof odd / sizeof odd[0]; i++) {
        ss_deck_span spans[] = {deck(0.5, 0.3), deck(0.5, 0.3), deck(0.5, 0.3)};
        spans[0].span = spans[1].patch_span = spans[2].patch_side = odd[i];
        for (int j = 0; j < 3; j++) {
            const ss_deck_check found = ss_deck_plate_check(&spans[j], &plate, NULL);
            CU_ASSERT(isnan(found.wheel) && found.why != NULL);
            CU_ASSERT(isnan(ss_deck_wheel_left(&found, 0.0, 0.0)));
        }
        const ss_deck_span good = deck(0.5, 0.3);
        const ss_deck_plate thin = {.thickness = odd[i], .fy = 2.5e8};
        const ss_deck_plate soft = {.thickness = 0.006, .fy = odd[i]};
        CU_ASSERT(isnan(ss_deck_plate_check(&good, &thin, NULL).wheel));
        CU_ASSERT(isnan(ss_deck_plate_check(&good, &soft, NULL).wheel));
        ss_deck_planks timber[] = {planks(), planks(), planks(), planks()};
        timber[0].Fb = timber[1].load_duration = timber[2].thickness = timber[3].wet_shear = odd[i];
        for (int j = 0; j < 4; j++) {
            CU_ASSERT(isnan(ss_deck_planks_check(&good, &timber[j], NULL).wheel));
        }
    }
    ss_deck_span long_span = deck(2.5, 0.3);
    long_span.next_wheel = 1.2192;
    CU_ASSERT_PTR_NOT_NULL(strstr(ss_deck_plate_check(&long_span, &plate, NULL).why, "more than two wheels"));
    static const double extremes[] = {1e-300, 1e-170, 1e170, 1e300};
    for (size_t i = 0; i < sizeof extremes / sizeof extremes[0]; i++) {
        for (size_t j = 0; j < sizeof extremes / sizeof extremes[0]; j++) {
            ss_deck_span span = deck(extremes[i], extremes[j]);
            const ss_deck_check found = ss_deck_plate_check(&span, &plate, NULL);
            CU_ASSERT(found.why != NULL ? isnan(found.wheel) : found.wheel >= 0.0);
            span.continuous = true;
            span.next_wheel = extremes[j];
            const ss_deck_planks timber = planks();
            const ss_deck_check other = ss_deck_planks_check(&span, &timber, NULL);
            CU_ASSERT(other.why != NULL ? isnan(other.wheel) : other.wheel >= 0.0);
        }
    }
}

int main(void) {
    static const test_case cases[] = {{"patches", test_patches},
                                      {"moment by search", test_moment_by_search},
                                      {"shear by search", test_shear_by_search},
                                      {"continuous", test_continuous},
                                      {"plate strip", test_plate_strip},
                                      {"plate", test_plate},
                                      {"planks", test_planks},
                                      {"monotony", test_monotony},
                                      {"grating", test_grating},
                                      {"what cannot be told", test_what_cannot_be_told}};
    return RUN_SUITE("deck strength", cases);
}
