/* resistance.c - what a section can carry in bending and in web shear. */
#include "sillspan/resistance.h"

#include <math.h>
#include <stddef.h>

/* Shear-buckling coefficient of a web without stiffeners (AASHTO LRFD 6.10.9.2). */
#define UNSTIFFENED 5.0

/* Shear yield over tensile yield, 1 / sqrt(3) as the specification rounds it. */
#define SHEAR_YIELD 0.58

static ss_resistance unknown(const char *rule, const char *why) {
    return (ss_resistance){.value = (double)NAN, .rule = rule, .why = why};
}

ss_resistance ss_resistance_yield_moment(const ss_section_properties *section, double fy) {
    if (!(section->S_top > 0.0) || !(section->S_bottom > 0.0)) {
        return unknown("yield moment (AASHTO LRFD 6.10.8.1)", "its elastic section moduli are not known");
    }
    if (section->S_top < section->S_bottom) {
        return (ss_resistance){.value = fy * section->S_top,
                               .rule =
                                   "yield moment, Fy S_top (AASHTO LRFD 6.10.8.1: flange stress at most Fy)"};
    }
    return (ss_resistance){.value = fy * section->S_bottom,
                           .rule =
                               "yield moment, Fy S_bottom (AASHTO LRFD 6.10.8.1: flange stress at most Fy)"};
}

double ss_resistance_shear_ratio(double slenderness, double E, double k, double fy) {
    const double stiffness = E * k / fy;
    const double yield_limit = 1.12 * sqrt(stiffness);
    if (slenderness <= yield_limit) {
        return 1.0;
    }
    if (slenderness <= 1.40 * sqrt(stiffness)) {
        return yield_limit / slenderness;
    }
    return 1.57 * stiffness / (slenderness * slenderness);
}

ss_resistance ss_resistance_web_shear(const ss_section_properties *section, double fy, double E) {
    if (!(section->shear_area > 0.0)) {
        return unknown("web shear (AASHTO LRFD 6.10.9.2)", "its web area is not known");
    }
    const double plastic = SHEAR_YIELD * fy * section->shear_area;
    if (!(section->web_clear > 0.0) || !(section->web_thin > 0.0)) {
        return (ss_resistance){.value = plastic, .rule = SS_RESISTANCE_SHEAR_UNCHECKED};
    }
    const double ratio =
        ss_resistance_shear_ratio(section->web_clear / section->web_thin, E, UNSTIFFENED, fy);
    return (ss_resistance){
        .value = ratio * plastic,
        .rule = ratio < 1.0 ? "web shear with buckling, C 0.58 Fy A_w (AASHTO LRFD 6.10.9.2, k = 5)"
                            : "web shear yield, 0.58 Fy A_w (AASHTO LRFD 6.10.9.2, C = 1)"};
}
