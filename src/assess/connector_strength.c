/* connector_strength.c - what one connector carries, the force that has to be tied, and how many it takes. */
#include <math.h>

#include "assess/rule.h"
#include "sillspan/connector.h"

#define PSI 6894.7572931683608
#define KSI (1e3 * PSI)

/* Concrete in compression, and what concrete and bars pull together over a support since 2004. */
#define BLOCK 0.85
#define PULL 0.45

/* A whole number that rounding carried over is still that number. */
#define WHOLE 1e-9

#define COUNT_MOST 1000000

#define SOURCE "AASHTO LRFD 6.10.10.4.3 (from memory)"
#define SOURCE_STANDARD "AASHTO Standard Specifications 10.38.5.1.2 (from memory)"
#define SOURCE_FORCE "AASHTO LRFD 6.10.10.4.2 (from memory)"

static ss_resistance of_stud(const ss_connectors *c, double root, bool standard, ss_working *working) {
    const double d2 = c->diameter * c->diameter;
    const double area = 0.25 * SS_PI * d2;
    const double crush = (standard ? 0.4 * d2 : 0.5 * area) * root;
    const double tear = area * (standard ? 60.0 * KSI : c->tensile);
    const char *const source = standard ? SOURCE_STANDARD : SOURCE;
    ss_working_add(working, "Asc", "area of a stud, pi d^2 / 4", area, SS_DIM_AREA, NULL);
    ss_working_add(working, standard ? "0.4 d^2 sqrt(fc Ec)" : "0.5 Asc sqrt(fc Ec)",
                   "the concrete around it", crush, SS_DIM_FORCE, source);
    ss_working_add(working, standard ? "60 ksi Asc" : "Asc Fu", "the stud itself, at most", tear,
                   SS_DIM_FORCE, source);
    if (standard) {
        return crush <= tear ? ss_rule_value(crush, "stud, 0.4 d^2 sqrt(fc Ec) (AASHTO Standard 10.38.5.1.2)")
                             : ss_rule_value(tear, "stud, 60 ksi Asc (AASHTO Standard 10.38.5.1.2)");
    }
    return crush <= tear ? ss_rule_value(crush, "stud, 0.5 Asc sqrt(fc Ec) (AASHTO LRFD 6.10.10.4.3)")
                         : ss_rule_value(tear, "stud, Asc Fu (AASHTO LRFD 6.10.10.4.3)");
}

static ss_resistance of_channel(const ss_connectors *c, double fc, double root, bool standard,
                                ss_working *working) {
    const double foot = c->flange + 0.5 * c->web;
    ss_working_add(working, "tf + 0.5 tw", "flange and half the web of the channel", foot,
                   SS_DIM_SMALL_LENGTH, NULL);
    ss_working_add(working, "Lc", "length of the channel", c->length, SS_DIM_SMALL_LENGTH, NULL);
    return standard ? ss_rule_value(550.0 * sqrt(PSI) * foot * c->length * sqrt(fc),
                                    "channel, 550 (tf + 0.5 tw) Lc sqrt(fc), lb, in, psi (AASHTO Standard "
                                    "10.38.5.1.2)")
                    : ss_rule_value(0.3 * foot * c->length * root,
                                    "channel, 0.3 (tf + 0.5 tw) Lc sqrt(fc Ec) (AASHTO LRFD 6.10.10.4.3)");
}

ss_resistance ss_connector_strength(const ss_connectors *connectors, double fc, double E,
                                    ss_connector_rule rule, ss_working *working) {
    static const char none[] = "shear connector (AASHTO LRFD 6.10.10.4.3)";
    const ss_connectors *const c = connectors;
    const bool standard = rule == SS_CONNECTOR_STANDARD;
    if (!ss_rule_positive(fc) || !ss_rule_positive(E)) {
        return ss_rule_none(none, "strength or modulus of the concrete is not positive");
    }
    const double root = sqrt(fc) * sqrt(E);
    ss_working_add(working, "sqrt(fc Ec)", "of the concrete", root, SS_DIM_STRESS, NULL);
    ss_resistance found;
    if (c->kind == SS_CONNECTOR_CHANNELS) {
        if (!ss_rule_positive(c->flange) || !ss_rule_positive(c->web) || !ss_rule_positive(c->length)) {
            return ss_rule_none(none, "flange, web or length of the channel is not positive");
        }
        found = of_channel(c, fc, root, standard, working);
    } else {
        if (!ss_rule_positive(c->diameter) || !ss_rule_positive(c->tensile)) {
            return ss_rule_none(none, "diameter or tensile strength of the stud is not positive");
        }
        found = of_stud(c, root, standard, working);
    }
    ss_working_add(working, "Qn", found.rule, found.value, SS_DIM_FORCE, standard ? SOURCE_STANDARD : SOURCE);
    return found;
}

double ss_connector_force(const ss_connector_section *section, bool to_support, ss_connector_hogging hogging,
                          ss_working *working) {
    const ss_connector_section *const s = section;
    if (!ss_rule_positive(s->width) || !ss_rule_positive(s->thickness) || !ss_rule_positive(s->fc) ||
        !ss_rule_positive(s->steel)) {
        return SS_NAN;
    }
    const double concrete = s->fc * s->width * s->thickness;
    const double sagging = ss_min(BLOCK * concrete, s->steel);
    ss_working_add(working, "0.85 fc b t", "the slab crushed over its width", BLOCK * concrete, SS_DIM_FORCE,
                   SOURCE_FORCE);
    ss_working_add(working, "As Fy", "all of the steel at yield", s->steel, SS_DIM_FORCE, SOURCE_FORCE);
    if (!to_support) {
        ss_working_add(working, "P", "the smaller of both", sagging, SS_DIM_FORCE, SOURCE_FORCE);
        return isfinite(sagging) ? sagging : SS_NAN;
    }
    const bool by_bars = hogging == SS_CONNECTOR_HOGGING_BARS;
    if (by_bars && !ss_rule_not_negative(s->bars)) {
        return SS_NAN;
    }
    const double pull = ss_min(by_bars ? s->bars : PULL * concrete, s->steel);
    ss_working_add(working, "Pn",
                   by_bars ? "bars over the support at yield (before 2004)"
                           : "slab and bars over the support, 0.45 fc b t (since 2004)",
                   pull, SS_DIM_FORCE, SOURCE_FORCE);
    ss_working_add(working, "P", "sagging and hogging side together", sagging + pull, SS_DIM_FORCE,
                   SOURCE_FORCE);
    return isfinite(sagging + pull) ? sagging + pull : SS_NAN;
}

int ss_connector_count(double force, double each, int per_row) {
    if (!ss_rule_not_negative(force) || !ss_rule_positive(each) || per_row < 1) {
        return -1;
    }
    const double rows = ceil(force / each / per_row * (1.0 - WHOLE));
    return rows * per_row <= COUNT_MOST ? (int)rows * per_row : -1;
}
