/* resistance.c - what a section can carry in bending: first yield of the extreme fibre. */
#include "sillspan/resistance.h"

#include "assess/rule.h"

ss_resistance ss_resistance_yield_moment(const ss_section_properties *section, double fy) {
    if (!(section->S_top > 0.0) || !(section->S_bottom > 0.0)) {
        return ss_rule_none("yield moment (AASHTO LRFD 6.10.8.1)",
                            "its elastic section moduli are not known");
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
