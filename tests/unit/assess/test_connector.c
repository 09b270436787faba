/* test_connector.c - strength and fatigue of studs and channels, the force to be tied, distances. */
#include "sillspan/connector.h"

#include <string.h>

#include "support/suite.h"
#include "working_checks.h"

static ss_connectors stud(double diameter) {
    return (ss_connectors){.kind = SS_CONNECTOR_STUDS,
                           .diameter = diameter,
                           .height = 4.0 * INCH,
                           .tensile = 60.0 * KSI,
                           .per_row = 2,
                           .across = 4.0 * INCH};
}

static ss_connectors channel(double length) {
    return (ss_connectors){.kind = SS_CONNECTOR_CHANNELS,
                           .height = 4.0 * INCH,
                           .flange = 0.296 * INCH,
                           .web = 0.184 * INCH,
                           .length = length,
                           .per_row = 1};
}

/* The concrete governs where it is weak, the stud where it is strong; 0.5 pi/4 (3/4)^2 sqrt(3 x 3155.9) is
 * 21.49 kip, worked by hand. */
static void test_stud(void) {
    const ss_connectors c = stud(0.75 * INCH);
    ss_working working = {.count = 0};
    const ss_resistance weak =
        ss_connector_strength(&c, 3.0 * KSI, 3155.9 * KSI, SS_CONNECTOR_LRFD, &working);
    check_steps(&working, 4);
    CU_ASSERT_DOUBLE_EQUAL(weak.value / KIP, 21.494, 1e-3);
    CU_ASSERT(strstr(weak.rule, "sqrt(fc Ec)") != NULL);
    const double area = 0.78539816339744831 * 0.75 * 0.75;
    const ss_resistance strong = ss_connector_strength(&c, 8.0 * KSI, 5000.0 * KSI, SS_CONNECTOR_LRFD, NULL);
    CHECK_CLOSE(strong.value / KIP, 60.0 * area, 1e-12);
    CU_ASSERT(strstr(strong.rule, "Asc Fu") != NULL);
    const double standard =
        ss_connector_strength(&c, 3.0 * KSI, 3155.9 * KSI, SS_CONNECTOR_STANDARD, NULL).value;
    CHECK_CLOSE(standard / weak.value, 0.4 / (0.5 * 0.78539816339744831), 1e-12);
    /* Its size counts with the square. */
    const ss_connectors twice = stud(1.5 * INCH);
    CHECK_CLOSE(ss_connector_strength(&twice, 3.0 * KSI, 3155.9 * KSI, SS_CONNECTOR_LRFD, NULL).value,
                4.0 * weak.value, 1e-12);
}

static void test_channel(void) {
    const ss_connectors c = channel(6.0 * INCH);
    const double lrfd = ss_connector_strength(&c, 4.0 * KSI, 3644.0 * KSI, SS_CONNECTOR_LRFD, NULL).value;
    CHECK_CLOSE(lrfd / KIP, 0.3 * (0.296 + 0.092) * 6.0 * sqrt(4.0 * 3644.0), 1e-12);
    const double old = ss_connector_strength(&c, 4.0 * KSI, 3644.0 * KSI, SS_CONNECTOR_STANDARD, NULL).value;
    CHECK_CLOSE(old / LBF, 550.0 * (0.296 + 0.092) * 6.0 * sqrt(4000.0), 1e-12);
    const ss_connectors half = channel(3.0 * INCH);
    CHECK_CLOSE(ss_connector_strength(&half, 4.0 * KSI, 3644.0 * KSI, SS_CONNECTOR_LRFD, NULL).value,
                0.5 * lrfd, 1e-12);
}

static void test_strength_is_refused(void) {
    ss_connectors c = stud(0.75 * INCH);
    CU_ASSERT(ss_connector_strength(&c, 0.0, 1.0, SS_CONNECTOR_LRFD, NULL).why != NULL);
    CU_ASSERT(ss_connector_strength(&c, 1.0, (double)NAN, SS_CONNECTOR_LRFD, NULL).why != NULL);
    c.tensile = 0.0;
    CU_ASSERT(isnan(ss_connector_strength(&c, 1e7, 1e10, SS_CONNECTOR_LRFD, NULL).value));
    c = channel(0.0);
    CU_ASSERT(isnan(ss_connector_strength(&c, 1e7, 1e10, SS_CONNECTOR_LRFD, NULL).value));
}

/* 90 in of 7 in slab of 4 ksi against 1800 kip of steel, then against 2500. */
static void test_force(void) {
    ss_connector_section s = {.width = 90.0 * INCH,
                              .thickness = 7.0 * INCH,
                              .fc = 4.0 * KSI,
                              .steel = 1800.0 * KIP,
                              .bars = 300.0 * KIP};
    ss_working working = {.count = 0};
    CHECK_CLOSE(ss_connector_force(&s, false, SS_CONNECTOR_HOGGING_SLAB, &working) / KIP, 1800.0, 1e-12);
    check_steps(&working, 3);
    s.steel = 2500.0 * KIP;
    CHECK_CLOSE(ss_connector_force(&s, false, SS_CONNECTOR_HOGGING_SLAB, NULL) / KIP, 2142.0, 1e-12);
    CHECK_CLOSE(ss_connector_force(&s, true, SS_CONNECTOR_HOGGING_SLAB, NULL) / KIP, 2142.0 + 1134.0, 1e-12);
    CHECK_CLOSE(ss_connector_force(&s, true, SS_CONNECTOR_HOGGING_BARS, NULL) / KIP, 2442.0, 1e-12);
    /* Steel that yields before the slab on either side. */
    s.steel = 200.0 * KIP;
    CHECK_CLOSE(ss_connector_force(&s, true, SS_CONNECTOR_HOGGING_BARS, NULL) / KIP, 400.0, 1e-12);
    s.bars = (double)NAN;
    CU_ASSERT(isnan(ss_connector_force(&s, true, SS_CONNECTOR_HOGGING_BARS, NULL)));
    CU_ASSERT_FALSE(isnan(ss_connector_force(&s, true, SS_CONNECTOR_HOGGING_SLAB, NULL)));
    s.thickness = 0.0;
    CU_ASSERT(isnan(ss_connector_force(&s, false, SS_CONNECTOR_HOGGING_SLAB, NULL)));
}

static void test_count(void) {
    CU_ASSERT_EQUAL(ss_connector_count(0.0, 1.0, 2), 0);
    CU_ASSERT_EQUAL(ss_connector_count(10.0, 1.0, 1), 10);
    CU_ASSERT_EQUAL(ss_connector_count(10.001, 1.0, 1), 11);
    CU_ASSERT_EQUAL(ss_connector_count(10.0, 1.0, 3), 12);
    CU_ASSERT_EQUAL(ss_connector_count(0.3, 0.1, 1), 3);
    CU_ASSERT_EQUAL(ss_connector_count(1e9, 1.0, 1), -1);
    CU_ASSERT_EQUAL(ss_connector_count(-1.0, 1.0, 1), -1);
    CU_ASSERT_EQUAL(ss_connector_count(1.0, 0.0, 1), -1);
    CU_ASSERT_EQUAL(ss_connector_count(1.0, 1.0, 0), -1);
    CU_ASSERT_EQUAL(ss_connector_count((double)NAN, 1.0, 1), -1);
}

/* Longer life, smaller range; the floor of the older books; the finite line's end. */
static void test_fatigue(void) {
    const ss_connectors c = stud(0.875 * INCH);
    double last = (double)INFINITY;
    for (double N = 1e4; N < 3e7; N *= 1.7) {
        const double Zr = ss_connector_fatigue(&c, N, SS_CONNECTOR_LRFD, NULL).value;
        CU_ASSERT(Zr < last);
        last = Zr;
        CHECK_CLOSE(Zr / KIP, (34.5 - 4.28 * log10(N)) * 0.875 * 0.875, 1e-12);
        const double before = ss_connector_fatigue(&c, N, SS_CONNECTOR_LRFD_BEFORE, NULL).value;
        CHECK_CLOSE(before, fmax(Zr, 2.75 * 0.875 * 0.875 * KIP), 1e-12);
    }
    CHECK_CLOSE(ss_connector_fatigue(&c, (double)INFINITY, SS_CONNECTOR_LRFD_BEFORE, NULL).value / KIP,
                2.75 * 0.875 * 0.875, 1e-12);
    const ss_resistance beyond = ss_connector_fatigue(&c, 1e9, SS_CONNECTOR_LRFD, NULL);
    CU_ASSERT(isnan(beyond.value) && strstr(beyond.why, "infinite") != NULL);
    CU_ASSERT(isnan(ss_connector_fatigue(&c, 0.0, SS_CONNECTOR_LRFD, NULL).value));
    const ss_connectors ch = channel(6.0 * INCH);
    CHECK_CLOSE(ss_connector_fatigue(&ch, (double)INFINITY, SS_CONNECTOR_LRFD, NULL).value / KIP, 12.6,
                1e-12);
    CHECK_CLOSE(ss_connector_fatigue(&ch, 1e6, SS_CONNECTOR_LRFD, NULL).value / KIP, 6.0 * (9.37 - 6.48),
                1e-12);
    CHECK_CLOSE(ss_connector_fatigue(&ch, 2e6, SS_CONNECTOR_STANDARD, NULL).value / KIP, 14.4, 1e-12);
    CHECK_CLOSE(ss_connector_fatigue(&ch, 2.1e6, SS_CONNECTOR_STANDARD, NULL).value / KIP, 12.6, 1e-12);
}

/* At that traffic both limits ask for the same stud. */
static void test_infinite_traffic(void) {
    const ss_connectors c = stud(0.75 * INCH);
    const double n = 2.0;
    const double adtt = ss_connector_infinite_traffic(c.kind, n, SS_FATIGUE_SINCE_2017);
    const double N = 365.0 * 75.0 * n * adtt;
    const double finite = ss_connector_fatigue(&c, N, SS_CONNECTOR_LRFD, NULL).value / 0.80;
    const double endless = ss_connector_fatigue(&c, (double)INFINITY, SS_CONNECTOR_LRFD, NULL).value / 1.75;
    CHECK_CLOSE(finite, endless, 1e-12);
    CU_ASSERT(isnan(ss_connector_infinite_traffic(c.kind, 0.0, SS_FATIGUE_SINCE_2017)));
}

static void test_fatigue_pitch(void) {
    const double Zr = 3.0 * KIP, V = 40.0 * KIP, I = 20000.0 * INCH4, Q = 500.0 * INCH3;
    const double p = ss_connector_fatigue_pitch(2, Zr, V, I, Q);
    CHECK_CLOSE(p / INCH, 6.0, 1e-12);
    CHECK_CLOSE(ss_connector_fatigue_pitch(3, Zr, V, I, Q), 1.5 * p, 1e-12);
    CHECK_CLOSE(ss_connector_fatigue_pitch(2, Zr, 0.5 * V, I, Q), 2.0 * p, 1e-12);
    CU_ASSERT(isinf(ss_connector_fatigue_pitch(2, Zr, 0.0, I, Q)));
    CU_ASSERT(isnan(ss_connector_fatigue_pitch(2, Zr, V, 0.0, Q)));
    CU_ASSERT(isnan(ss_connector_fatigue_pitch(0, Zr, V, I, Q)));
}

static const ss_requirement *named(const ss_requirements *all, const char *part) {
    for (int i = 0; i < all->count; i++) {
        if (strstr(all->items[i].name, part) != NULL) {
            return &all->items[i];
        }
    }
    CU_FAIL_FATAL("no such requirement");
    return NULL;
}

/* 3/4 in studs 4 in high, in a 7 in slab on a flange of 10 in: edge 2.625 in, cover 3 in. */
static void test_details(void) {
    ss_connectors c = stud(0.75 * INCH);
    ss_connector_place place = {
        .plate = 0.30 * INCH, .flange = 10.0 * INCH, .web_depth = 20.0 * INCH, .thickness = 7.0 * INCH};
    ss_requirements all = {.count = 0};
    ss_connector_details(&c, &place, 6.0 * INCH, SS_CONNECTOR_LRFD, &all);
    CU_ASSERT_EQUAL(ss_requirements_missed(&all), 0);
    CHECK_CLOSE(named(&all, "edge")->found / INCH, 2.625, 1e-9);
    CHECK_CLOSE(named(&all, "above")->found / INCH, 3.0, 1e-9);
    CHECK_CLOSE(named(&all, "2.5 times")->allowed / INCH, 0.75, 1e-9);
    /* Each limit is passed by a little. */
    c.height = 2.99 * INCH;
    c.across = 2.99 * INCH;
    place.plate = 0.29 * INCH;
    place.flange = 5.6 * INCH;
    all.count = 0;
    ss_connector_details(&c, &place, 4.4 * INCH, SS_CONNECTOR_LRFD, &all);
    CU_ASSERT_EQUAL(ss_requirements_missed(&all), 5);
    CU_ASSERT(ss_requirement_missed(named(&all, "six diameters")));
    CU_ASSERT_FALSE(ss_requirement_missed(named(&all, "pitch, largest")));
    all.count = 0;
    place.haunch = 1.5 * INCH;
    place.over_web = true;
    ss_connector_details(&c, &place, 25.0 * INCH, SS_CONNECTOR_LRFD, &all);
    CU_ASSERT(ss_requirement_missed(named(&all, "in the slab")));
    CU_ASSERT(ss_requirement_missed(named(&all, "pitch, largest")));
    place.web_depth = 24.0 * INCH;
    CHECK_CLOSE(ss_connector_pitch_most(&place, SS_CONNECTOR_LRFD) / INCH, 48.0, 1e-12);
    CHECK_CLOSE(ss_connector_pitch_most(&place, SS_CONNECTOR_STANDARD) / INCH, 24.0, 1e-12);
    /* What is not known is said, and is not missed. */
    place = (ss_connector_place){.thickness = 7.0 * INCH};
    c = stud(0.75 * INCH);
    all.count = 0;
    ss_connector_details(&c, &place, 0.0, SS_CONNECTOR_LRFD, &all);
    CU_ASSERT(named(&all, "edge")->why != NULL && named(&all, "2.5 times")->why != NULL);
    CU_ASSERT_EQUAL(ss_requirements_missed(&all), 0);
}

int main(void) {
    static const test_case cases[] = {
        {"studs", test_stud},
        {"channels", test_channel},
        {"strength that is refused", test_strength_is_refused},
        {"the force to be tied", test_force},
        {"numbers of connectors", test_count},
        {"fatigue", test_fatigue},
        {"traffic of infinite life", test_infinite_traffic},
        {"pitch by fatigue", test_fatigue_pitch},
        {"details", test_details},
    };
    return RUN_SUITE("connector", cases);
}
