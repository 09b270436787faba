/* fatigue_tables.c - constants of fatigue: categories, load factors, life factors, cycles of a truck. */
#include <math.h>
#include <stddef.h>

#include "assess/rule.h"
#include "sillspan/fatigue_life.h"

#define KSI 6894757.2931683608
#define FOOT 0.3048

/* A length at a limit belongs below it, through rounding. */
#define AT_LIMIT (1.0 + 1e-9)

/* AASHTO LRFD Tables 6.6.1.2.5-1 and -3, in ksi^3 1e8 and ksi, and the life factors of the Manual for Bridge
 * Evaluation, Table 7.2.5.1-1: minimum, evaluation, mean, first of 2008 and then as revised after 2012 with
 * evaluation 1. All from memory. */
static const struct {
    const char *name;
    double constant, threshold;
    double life[2][SS_FATIGUE_LEVELS];
} categories[SS_FATIGUE_CATEGORIES] = {
    [SS_FATIGUE_A] = {"A", 250.0, 24.0, {{1.0, 1.7, 2.8}, {1.0, 1.5, 2.9}}},
    [SS_FATIGUE_B] = {"B", 120.0, 16.0, {{1.0, 1.4, 2.0}, {1.0, 1.3, 2.0}}},
    [SS_FATIGUE_B_PRIME] = {"B'", 61.0, 12.0, {{1.0, 1.5, 2.4}, {1.0, 1.3, 1.9}}},
    [SS_FATIGUE_C] = {"C", 44.0, 10.0, {{1.0, 1.2, 1.3}, {1.0, 1.3, 2.1}}},
    [SS_FATIGUE_C_PRIME] = {"C'", 44.0, 12.0, {{1.0, 1.2, 1.3}, {1.0, 1.3, 2.1}}},
    [SS_FATIGUE_D] = {"D", 22.0, 7.0, {{1.0, 1.3, 1.6}, {1.0, 1.3, 2.0}}},
    [SS_FATIGUE_E] = {"E", 11.0, 4.5, {{1.0, 1.3, 1.6}, {1.0, 1.2, 1.6}}},
    [SS_FATIGUE_E_PRIME] = {"E'", 3.9, 2.6, {{1.0, 1.6, 2.5}, {1.0, 1.3, 1.9}}}};

static bool known(ss_fatigue_category category) {
    return (int)category >= 0 && (int)category < (int)SS_FATIGUE_CATEGORIES;
}

static int book(ss_fatigue_edition edition) {
    return edition == SS_FATIGUE_BEFORE_2017 ? 0 : 1;
}

const char *ss_fatigue_category_name(ss_fatigue_category category) {
    return known(category) ? categories[category].name : "";
}

double ss_fatigue_constant(ss_fatigue_category category) {
    return known(category) ? categories[category].constant * 1e8 * KSI * KSI * KSI : SS_NAN;
}

double ss_fatigue_threshold(ss_fatigue_category category) {
    return known(category) ? categories[category].threshold * KSI : SS_NAN;
}

double ss_fatigue_resistance(ss_fatigue_category category, double cycles) {
    return ss_rule_positive(cycles) ? cbrt(ss_fatigue_constant(category) / cycles) : SS_NAN;
}

double ss_fatigue_load_factor(ss_fatigue_edition edition, bool infinite) {
    static const double factors[2][2] = {{0.75, 1.50}, {0.80, 1.75}};
    return factors[book(edition)][infinite ? 1 : 0];
}

double ss_fatigue_life_factor(ss_fatigue_edition edition, ss_fatigue_category category,
                              ss_fatigue_level level) {
    if (!known(category) || (int)level < 0 || (int)level >= (int)SS_FATIGUE_LEVELS) {
        return SS_NAN;
    }
    return categories[category].life[book(edition)][level];
}

double ss_fatigue_cycles_per_truck(ss_fatigue_member member, double length) {
    if (!ss_rule_positive(length)) {
        return SS_NAN;
    }
    const bool long_span = length > 40.0 * FOOT * AT_LIMIT;
    switch (member) {
    case SS_FATIGUE_SIMPLE_SPAN:
    case SS_FATIGUE_CONTINUOUS_ELSEWHERE: return long_span ? 1.0 : 2.0;
    case SS_FATIGUE_CONTINUOUS_PIER: return long_span ? 1.5 : 2.0;
    case SS_FATIGUE_CANTILEVER: return 5.0;
    case SS_FATIGUE_TRANSVERSE: return length > 20.0 * FOOT * AT_LIMIT ? 1.0 : 2.0;
    default: return SS_NAN;
    }
}

double ss_fatigue_lane_fraction(int lanes) {
    if (lanes < 1) {
        return SS_NAN;
    }
    return lanes == 1 ? 1.0 : lanes == 2 ? 0.85 : 0.80;
}

double ss_fatigue_infinite_traffic(ss_fatigue_category category, double cycles_per_truck,
                                   ss_fatigue_edition edition) {
    if (!ss_rule_positive(cycles_per_truck)) {
        return SS_NAN;
    }
    const double ratio = ss_fatigue_load_factor(edition, false) / ss_fatigue_load_factor(edition, true);
    const double range = ratio * ss_fatigue_threshold(category);
    return ss_fatigue_constant(category) / (range * range * range * 365.0 * 75.0 * cycles_per_truck);
}
