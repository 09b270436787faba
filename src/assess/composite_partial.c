/* composite_partial.c - a slab tied by fewer connectors than its full action needs, by the rules for steel
 * buildings. */
#include <math.h>

#include "assess/composite_parts.h"
#include "assess/rule.h"

/* Below this share of full action the commentary advises against it. */
#define LEAST_SHARE 0.25

#define AISC(article) "AISC 360 " article " (from memory, for steel buildings)"

#define RULE "plastic moment with a slab tied in part (AISC 360 I3.2a, I3.2d, for steel buildings)"

static ss_composite_compact compact(const ss_composite_parts *parts) {
    const double limit = 3.76 * sqrt(parts->given->steel.E / parts->given->steel.fy);
    return (ss_composite_compact){
        .deepest = limit,
        .deepest_means = "3.76 sqrt(E / Fy)",
        .slender = limit,
        .slender_means = "3.76 sqrt(E / Fy)",
        .source = AISC("I3.2a"),
        .deepest_missed = "its web is not compact: D / tw above 3.76 sqrt(E / Fy) (AISC 360 I3.2a)",
        .slender_missed = "its web is not compact: 2 Dcp / tw above 3.76 sqrt(E / Fy)"};
}

static void note_share(const ss_composite_balance *b, ss_working *working) {
    const double whole = ss_min(b->steel, b->slab);
    const double ratio = whole > 0.0 ? b->force / whole : 0.0;
    ss_working_add(working, "ratio", "of full composite action: C over the lesser of steel and slab", ratio,
                   SS_DIM_NUMBER, AISC("I3.2d"));
    if (ratio < LEAST_SHARE) {
        ss_working_add(working, "ratio,min", "so little action is advised against", LEAST_SHARE,
                       SS_DIM_NUMBER, AISC("commentary to I3.2d"));
    }
}

ss_status ss_composite_partial(const ss_composite_case *given, double tie, ss_resistance *out,
                               ss_working *working) {
    ss_composite_parts parts;
    ss_composite_balance balance;
    const char *why = NULL;
    const ss_status status = ss_composite_gather(given, &parts, &why);
    if (status != SS_OK) {
        return status;
    }
    if (why == NULL && !given->sagging) {
        why = "it hogs, where the concrete counts nothing";
    }
    if (why == NULL && !(tie >= 0.0)) {
        why = "what its connectors carry is not known";
    }
    if (why == NULL) {
        why = ss_composite_balance_of(&parts, tie, &balance, working);
    }
    if (why == NULL) {
        const ss_composite_compact limits = compact(&parts);
        note_share(&balance, working);
        why = ss_composite_miss(&parts, &balance, &limits, working);
    }
    if (why != NULL) {
        *out = ss_rule_none(RULE, why);
        return SS_OK;
    }
    *out = ss_rule_value(balance.moment, RULE);
    ss_working_add(working, "Mn", out->rule, out->value, SS_DIM_MOMENT, AISC("I3.2a"));
    return SS_OK;
}

double ss_composite_partial_I(double steel, double whole, double ratio) {
    return steel + sqrt(ss_clamp(ratio, 0.0, 1.0)) * (whole - steel);
}
