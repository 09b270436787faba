/* test_slab_detail.c - what bars, cover and thickness of a slab have to keep, each limit from both sides. */
#include <string.h>

#include "sillspan/slab_strength.h"
#include "support/suite.h"

/* 8 in of 4 ksi, #5 at 6 in across and #4 at 6 in along, 2.5 in of cover above and 1 in below. */
static ss_slab_checked good(void) {
    const ss_slab_section across = {.thickness = 8.0 * INCH,
                                    .fc = 4.0 * KSI,
                                    .E = 3644.0 * KSI,
                                    .fy = 60.0 * KSI,
                                    .steel_E = 29000.0 * KSI,
                                    .top = {0.625 * INCH, 6.0 * INCH, 2.8125 * INCH},
                                    .bottom = {0.625 * INCH, 6.0 * INCH, 6.6875 * INCH}};
    ss_slab_checked c = {.across = across,
                         .along = across,
                         .span = 5.0 * FOOT,
                         .factored_sagging = (double)NAN,
                         .factored_hogging = (double)NAN,
                         .service_sagging = 4.0 * KIP,
                         .service_hogging = 4.0 * KIP,
                         .exposure = 0.75};
    c.along.top = (ss_bars){0.5 * INCH, 6.0 * INCH, 3.375 * INCH};
    c.along.bottom = (ss_bars){0.625 * INCH, 6.0 * INCH, 6.0625 * INCH};
    return c;
}

static const ss_requirement *named(const ss_requirements *all, const char *name) {
    for (int i = 0; i < all->count; i++) {
        if (strcmp(all->items[i].name, name) == 0) {
            return &all->items[i];
        }
    }
    CU_FAIL_FATAL("no such requirement");
    return NULL;
}

static ss_requirements details(const ss_slab_checked *c) {
    ss_requirements all = {.count = 0};
    ss_slab_details(c, &all);
    CU_ASSERT(all.count == 19 && all.count < SS_REQUIREMENTS_MOST);
    return all;
}

static void test_good(void) {
    const ss_slab_checked c = good();
    const ss_requirements all = details(&c);
    for (int i = 0; i < all.count; i++) {
        CHECK_ROW(!ss_requirement_missed(&all.items[i]) && all.items[i].why == NULL, all.items[i].name);
        CU_ASSERT(all.items[i].source != NULL);
    }
    CHECK_CLOSE(named(&all, "cover of the top bars")->found / INCH, 2.5, 1e-9);
    CHECK_CLOSE(named(&all, "cover of the bottom bars")->found / INCH, 1.0, 1e-9);
    /* 220 / sqrt(5) is 98 %, more than 67 %. */
    CHECK_CLOSE(named(&all, "bottom bars along, over those across")->allowed, 0.67, 1e-12);
    /* 0.65 x 8 / 60 in2/ft is 0.0867, less than 0.11. */
    CHECK_CLOSE(named(&all, "top bars along, area a width")->allowed / INCH, 0.11 / 12.0, 1e-12);
    CHECK_CLOSE(named(&all, "spacing of top bars across")->allowed / INCH, 12.0, 1e-12);
    CHECK_CLOSE(named(&all, "spacing of top bars along")->allowed / INCH, 18.0, 1e-12);
    CHECK_CLOSE(named(&all, "clear distance of bars")->found / INCH, 5.375, 1e-9);
}

/* 1.6 x 0.67 x 0.24 sqrt(4) x 64/6 = 5.489 kip-in/in, 1.2 x 5.12 = 6.144 before, and 1.33 Mu where less. */
static void test_cracking(void) {
    static const char name[] = "strength across, sagging, at cracking";
    ss_slab_checked c = good();
    ss_requirements all = details(&c);
    CHECK_CLOSE(named(&all, name)->allowed / KIP, 1.6 * 0.67 * 5.12, 1e-9);
    c.minimum = SS_SLAB_MINIMUM_OLD;
    all = details(&c);
    CHECK_CLOSE(named(&all, name)->allowed / KIP, 1.2 * 5.12, 1e-9);
    c.factored_sagging = 3.0 * KIP;
    c.factored_hogging = 300.0 * KIP;
    all = details(&c);
    CHECK_CLOSE(named(&all, name)->allowed / KIP, 3.99, 1e-9);
    CHECK_CLOSE(named(&all, "strength across, hogging, at cracking")->allowed / KIP, 1.2 * 5.12, 1e-9);
}

/* dc 1.3125 in, beta 1.2804; stress by the cracked section, and 0.6 fy at most: 700 x 0.75 / (1.2804 x 36) -
 * 2.625 = 8.765 in. */
static void test_cracks(void) {
    static const char name[] = "spacing of bottom bars across, for narrow cracks";
    ss_slab_checked c = good();
    c.service_sagging = 1e9;
    ss_requirements all = details(&c);
    const double beta = 1.0 + 1.3125 / (0.7 * (8.0 - 1.3125));
    CHECK_CLOSE(named(&all, name)->allowed / INCH, 700.0 * 0.75 / (beta * 36.0) - 2.625, 1e-9);
    c.service_sagging = 4.0 * KIP;
    c.exposure = 1.0;
    all = details(&c);
    const double stress = 4.0 * KIP * ss_slab_cracked_of(&c.across, true).stress / KSI;
    CHECK_CLOSE(named(&all, name)->allowed / INCH, 700.0 / (beta * stress) - 2.625, 1e-9);
    c.service_sagging = (double)NAN;
    c.service_hogging = 0.0;
    all = details(&c);
    CU_ASSERT(named(&all, name)->why != NULL);
    CU_ASSERT(named(&all, "spacing of top bars across, for narrow cracks")->why != NULL);
    CU_ASSERT_EQUAL(ss_requirements_missed(&all), 0);
}

/* A thin slab with few bars in the wrong places misses what it should. */
static void test_poor(void) {
    ss_slab_checked c = good();
    c.across.thickness = c.along.thickness = 5.0 * INCH;
    c.across.top = (ss_bars){0.375 * INCH, 12.0 * INCH, 1.5 * INCH};
    c.across.bottom = (ss_bars){0.5 * INCH, 12.0 * INCH, 4.3 * INCH};
    c.along.top = (ss_bars){0.0, 0.0, 0.0};
    c.along.bottom = (ss_bars){0.375 * INCH, 18.0 * INCH, 3.8 * INCH};
    const ss_requirements all = details(&c);
    static const char *const missed[] = {"thickness of the slab",
                                         "bottom bars along, over those across",
                                         "top bars along, area a width",
                                         "bottom bars along, area a width",
                                         "spacing of top bars across",
                                         "spacing of bottom bars along",
                                         "cover of the top bars",
                                         "cover of the bottom bars",
                                         "spacing of top bars across, for narrow cracks"};
    for (int i = 0; i < ENTRIES(missed); i++) {
        CHECK_ROW(ss_requirement_missed(named(&all, missed[i])), missed[i]);
    }
    CU_ASSERT(named(&all, "spacing of top bars along")->why != NULL);
    /* 0.65 x 5 in and the rest: still the least of 0.11 in2/ft. */
    CU_ASSERT_FALSE(ss_requirement_missed(named(&all, "bottom bars across, area a width")));
}

/* A slab of which nothing is known has no missed requirement but says so each time. */
static void test_unknown(void) {
    ss_slab_checked c = {.span = (double)NAN};
    c.across.thickness = c.along.thickness = (double)NAN;
    c.across.fy = c.along.fy = (double)NAN;
    const ss_requirements all = details(&c);
    for (int i = 0; i < all.count; i++) {
        CHECK_ROW(all.items[i].why != NULL, all.items[i].name);
    }
    CU_ASSERT_EQUAL(ss_requirements_missed(&all), 0);
}

int main(void) {
    static const test_case cases[] = {
        {"a slab that keeps all", test_good}, {"strength at cracking", test_cracking},
        {"width of cracks", test_cracks},     {"a poor slab", test_poor},
        {"nothing is known", test_unknown},
    };
    return RUN_SUITE("slab detail", cases);
}
