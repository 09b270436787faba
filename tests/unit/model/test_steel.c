/* test_steel.c - yield stress by grade and by year. */
#include "model/steel.h"
#include "support/suite.h"

static void test_grades(void) {
    static const struct {
        const char *written, *name;
        double fy;
    } row[] = {{"A7", "A7", 33.0 * KSI},
               {"a-36", "A36", 36.0 * KSI},
               {"A242", "A242", 50.0 * KSI},
               {"A 441", "A441", 50.0 * KSI},
               {"A572 gr. 50", "A572 Gr 50", 50.0 * KSI},
               {"A588", "A588", 50.0 * KSI},
               {"S235", "S235", 235.0e6},
               {"s 275", "S275", 275.0e6},
               {"S355", "S355", 355.0e6}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        double fy = 0.0;
        const char *name = "";
        CU_ASSERT(ss_steel_grade(row[i].written, &fy, &name));
        CU_ASSERT_STRING_EQUAL(name, row[i].name);
        CU_ASSERT_DOUBLE_EQUAL(fy, row[i].fy, 1.0);
    }
    int count = 0;
    CU_ASSERT_STRING_EQUAL(ss_steel_grades(&count)[count - 1], "S355");
    CU_ASSERT_EQUAL(count, 9);
}

static void test_unknown_grade_writes_nothing(void) {
    double fy = 7.25;
    const char *name = "before";
    CU_ASSERT_FALSE(ss_steel_grade("A37", &fy, &name));
    CU_ASSERT_FALSE(ss_steel_grade("", &fy, &name));
    CU_ASSERT_EQUAL(fy, 7.25);
    CU_ASSERT_STRING_EQUAL(name, "before");
}

/* AASHTO Manual for Bridge Evaluation, yield stress of unknown steel (from memory). */
static void test_years(void) {
    static const struct {
        int year;
        double ksi;
    } row[] = {{1850, 26.0}, {1904, 26.0}, {1905, 30.0}, {1936, 30.0}, {1937, 33.0},
               {1963, 33.0}, {1964, 36.0}, {1968, 36.0}, {2100, 36.0}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        CU_ASSERT_DOUBLE_EQUAL(ss_steel_by_year(row[i].year) / KSI, row[i].ksi, 1e-9);
    }
}

int main(void) {
    static const test_case cases[] = {
        {"grades", test_grades},
        {"unknown grade writes nothing", test_unknown_grade_writes_nothing},
        {"years", test_years},
    };
    return RUN_SUITE("steel", cases);
}
