/* composite_limits.c - what each face of a section with its slab may be stressed to, sagging and hogging. */
#include <math.h>

#include "assess/composite_ladder.h"
#include "assess/flexure_parts.h"
#include "assess/rule.h"

#define SOURCE(article) "AASHTO LRFD " article " (from memory)"

#define RULE_BOTTOM "first yield by stages, bottom flange pulled (AASHTO LRFD 6.10.7.2, D6.2.2)"
#define RULE_TOP "first yield by stages, top flange compressed (AASHTO LRFD 6.10.7.2, D6.2.2)"
#define RULE_WEB                                                                                             \
    "web bend-buckling by stages (AASHTO LRFD 6.10.1.9): the web is deeper than 150 times its thickness"
#define RULE_SLAB "slab at 0.6 f'c by stages (AASHTO LRFD 6.10.7.2.1)"
#define RULE_HOG_TOP "first yield by stages, top flange pulled, slab cracked (AASHTO LRFD 6.10.8.1.3)"
#define RULE_HOG_BOTTOM                                                                                      \
    "yield or buckling of the bottom flange, Fnc reached by stages, slab cracked (AASHTO LRFD 6.10.8)"
#define RULE_BARS "first yield by stages of the slab's bars, slab cracked (AASHTO LRFD D6.2.3)"
#define RULE_TOP_PULLED                                                                                      \
    "first yield by stages, top flange pulled, the axis being above it (AASHTO LRFD D6.2.2)"
#define RULE_HOG_TOP_PRESSED                                                                                 \
    "first yield by stages, top flange compressed, the axis being above it (AASHTO LRFD D6.2.3)"

/* The top is held by the slab, so that only a web that is too deep keeps it from Fy (6.10.1.10.2: Rb is 1).
 */
static void limit_sagging(ss_ladder *l, const ss_bending *b) {
    const double fy = l->parts->given->steel.fy;
    const double fc = l->parts->given->flange.fc;
    l->limit[SS_FIBRE_BOTTOM] = (ss_fibre_limit){fy, fy, RULE_BOTTOM, RULE_BOTTOM};
    l->limit[SS_FIBRE_TOP] = (ss_fibre_limit){fy, fy, RULE_TOP, RULE_TOP_PULLED};
    if (b != NULL) {
        const double web =
            ss_bending_deep_web(b).moment / b->S_c / (l->options->service ? l->options->share : 1.0);
        if (web < fy) {
            l->limit[SS_FIBRE_TOP] = (ss_fibre_limit){web, fy, RULE_WEB, RULE_TOP_PULLED};
        }
    }
    if (l->options->concrete && fc > 0.0) {
        l->limit[SS_FIBRE_SLAB] =
            (ss_fibre_limit){SS_LADDER_CONCRETE * fc, SS_INFINITY, RULE_SLAB, RULE_SLAB};
    }
}

/* Fnc of the bottom flange; the web is compressed up to the axis of the cracked section (D6.3.1). */
static double buckling_stress(const ss_ladder *l, ss_bending *b) {
    if (l->has_bars && b->form.webs > 0) {
        b->form.bottom.Dc = ss_clamp(l->parts->live.z - b->form.bottom.thickness, 0.0, b->form.web_clear);
    }
    const double fy = b->bracing.fy;
    const double Rb = ss_bending_shedding(b);
    ss_bending_limit local = ss_bending_local(b);
    ss_bending_limit lateral = ss_bending_lateral(b);
    local.moment *= Rb;
    lateral.moment *= Rb;
    const ss_bending_limit yield = {fy * b->S_c, "of the bottom flange: Fy"};
    const ss_bending_limit shed = {Rb * fy * b->S_c, "of the bottom flange: Rb Fy"};
    ss_bending_limit least = ss_bending_least(yield, shed);
    least = ss_bending_least(least, local);
    least = ss_bending_least(least, lateral);
    least = ss_bending_least(least, ss_bending_deep_web(b));
    if (l->options->service) {
        const ss_bending_limit web = {ss_bending_web_stress(b) * b->S_c / l->options->share,
                                      "of the bottom flange: Fcrw over the share"};
        least = ss_bending_least(least, web);
    }
    const double stress = least.moment / b->S_c;
    ss_working_add(l->working, "Fnc", least.rule, stress, SS_DIM_STRESS, SOURCE("6.10.8"));
    return stress;
}

static const char *limit_hogging(ss_ladder *l, ss_bending *b) {
    const double fy = l->parts->given->steel.fy;
    const double bar_fy = l->parts->given->flange.bar_fy;
    double bottom = fy;
    if (b != NULL) {
        bottom = buckling_stress(l, b);
        if (!isfinite(bottom) || bottom < 0.0) {
            return "its buckling cannot be told from its plates";
        }
    }
    l->limit[SS_FIBRE_BOTTOM] = (ss_fibre_limit){bottom, fy, RULE_HOG_BOTTOM, RULE_HOG_BOTTOM};
    l->limit[SS_FIBRE_TOP] = (ss_fibre_limit){fy, fy, RULE_HOG_TOP_PRESSED, RULE_HOG_TOP};
    if (!l->has_bars) {
        return NULL;
    }
    if (!ss_rule_positive(bar_fy)) {
        return "the yield stress of its bars is not known";
    }
    ss_working_add(l->working, "Fy,bars", "what the bars may reach", bar_fy, SS_DIM_STRESS, NULL);
    l->limit[SS_FIBRE_BARS] = (ss_fibre_limit){SS_INFINITY, bar_fy, RULE_BARS, RULE_BARS};
    return NULL;
}

ss_status ss_ladder_limit(ss_ladder *l, const char **why) {
    for (int f = 0; f < SS_FIBRES; f++) {
        l->limit[f] = (ss_fibre_limit){SS_INFINITY, SS_INFINITY, SS_LADDER_RULE, SS_LADDER_RULE};
    }
    ss_flexure_case steel = l->parts->given->steel;
    steel.top_compressed = !l->cracked;
    steel.unbraced = l->cracked ? steel.unbraced : 0.0;
    steel.upright = true;
    ss_bending b;
    ss_bending *known = NULL;
    if (l->parts->plate_count > 0) {
        ss_resistance fault;
        bool ready = false;
        const ss_status status = ss_bending_gather(&steel, l->working, &b, &fault, &ready);
        if (status != SS_OK) {
            return status;
        }
        if (!ready) {
            *why = fault.why;
            return SS_OK;
        }
        known = &b;
    } else {
        ss_working_add(l->working, "Fy", "yield stress; buckling not checked, no plates are known", steel.fy,
                       SS_DIM_STRESS, NULL);
    }
    if (l->cracked) {
        *why = limit_hogging(l, known);
    } else {
        limit_sagging(l, known);
    }
    return SS_OK;
}
