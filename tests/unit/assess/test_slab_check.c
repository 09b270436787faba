/* test_slab_check.c - which of a deck's checks decides. */
#include "sillspan/slab_check.h"
#include "support/suite.h"

static void test_the_largest_use_decides(void) {
    ss_arena arena = {0};
    ss_slab_checks checks = {.arena = &arena};
    const ss_requirement most = {.name = "moment", .found = 80.0, .allowed = 100.0, .least = false};
    const ss_requirement least = {.name = "cover", .found = 0.04, .allowed = 0.05, .least = true};
    const ss_requirement unknown = {
        .name = "plate", .found = (double)NAN, .allowed = 1.0, .why = "not known"};
    CU_ASSERT_PTR_NULL(ss_slab_checks_worst(&checks, SS_SLAB_PART_COUNT));
    for (int i = 0; i < 40; i++) CU_ASSERT(ss_slab_check_add(&checks, SS_SLAB_PART_CASTING, "a", &most));
    CU_ASSERT(ss_slab_check_add(&checks, SS_SLAB_PART_ACROSS, "b", &least));
    CU_ASSERT(ss_slab_check_add(&checks, SS_SLAB_PART_CONNECTORS, "c", &unknown));
    CU_ASSERT_EQUAL(checks.count, 42);
    CHECK_CLOSE(ss_slab_check_use(&checks.items[0]), 0.8, 1e-15);
    CHECK_CLOSE(ss_slab_check_use(&checks.items[40]), 1.25, 1e-15);
    CU_ASSERT_PTR_EQUAL(ss_slab_checks_worst(&checks, SS_SLAB_PART_COUNT), &checks.items[40]);
    CU_ASSERT_PTR_EQUAL(ss_slab_checks_worst(&checks, SS_SLAB_PART_CASTING), &checks.items[0]);
    CU_ASSERT_PTR_NULL(ss_slab_checks_worst(&checks, SS_SLAB_PART_CONNECTORS));
    CU_ASSERT_EQUAL(ss_slab_checks_missed(&checks), 1);
    CU_ASSERT_EQUAL(ss_slab_checks_unknown(&checks), 1);
    ss_arena_destroy(&arena);
}

static void test_nothing_asked_and_nothing_there(void) {
    const ss_slab_check none = {.requirement = {.found = 0.0, .allowed = 0.0, .least = true}};
    const ss_slab_check lacking = {.requirement = {.found = 0.0, .allowed = 1.0, .least = true}};
    const ss_slab_check refused = {.requirement = {.found = 1.0, .allowed = 0.0, .least = false}};
    CHECK_CLOSE(ss_slab_check_use(&none), 0.0, 0.0);
    CU_ASSERT(ss_slab_check_use(&lacking) > 1e300);
    CU_ASSERT(ss_slab_check_use(&refused) > 1e300);
}

int main(void) {
    static const test_case cases[] = {
        {"the largest use decides", test_the_largest_use_decides},
        {"nothing asked, and nothing there", test_nothing_asked_and_nothing_there},
    };
    return RUN_SUITE("slab checks", cases);
}
