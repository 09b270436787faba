/* composite_plastic.c - plastic moment of a steel section with its slab, as far as the slab's crushing lets
 * it.
 */
#include <math.h>

#include "assess/composite_parts.h"
#include "assess/flexure_parts.h"
#include "assess/rule.h"

/* Share of the whole depth that may lie above the plastic axis (6.10.7.3), and to which Mp is reached. */
#define DUCTILE 0.42
#define FULL 0.1

/* Most of a span that goes on over a support, times first yield (6.10.7.1.2). */
#define CONTINUOUS 1.3

/* Steel of 36 ksi, also where it is called 250 MPa (10.50.1.1.2). */
#define MILD 250.5e6

#define SOURCE(article) "AASHTO LRFD " article " (from memory)"
#define STD(article) "AASHTO Standard Specifications " article " (from memory)"

#define RULE_LRFD "plastic moment with the slab, Mp (AASHTO LRFD 6.10.7.1.2, D6.1)"
#define RULE_LFR "plastic moment with the slab, Mp (AASHTO Standard Specifications 10.50.1.1)"

/* Gathers and balances; *why is NULL when both went well. */
static ss_status prepare(const ss_composite_case *given, ss_composite_parts *parts,
                         ss_composite_balance *balance, const char **why, ss_working *working) {
    const ss_status status = ss_composite_gather(given, parts, why);
    if (status != SS_OK || *why != NULL) {
        return status;
    }
    if (!given->sagging) {
        *why = "it hogs, where the concrete counts nothing and first yield is the end";
        return SS_OK;
    }
    ss_working_add(working, "form", ss_form_name(parts->form.form), SS_NAN, SS_DIM_NUMBER, NULL);
    ss_working_add(working, "Fy", "yield stress", given->steel.fy, SS_DIM_STRESS, NULL);
    ss_working_add(working, "f'c", "strength of the concrete", given->flange.fc, SS_DIM_STRESS, NULL);
    ss_working_add(working, "b", "slab that acts with it", given->flange.width, SS_DIM_LENGTH, NULL);
    ss_working_add(working, "ts", "thickness of the slab", given->flange.thickness, SS_DIM_SMALL_LENGTH,
                   NULL);
    *why = ss_composite_balance_of(parts, SS_INFINITY, balance, working);
    return SS_OK;
}

/* First yield by stages with all of Fy; its steps too. */
static ss_status first_yield(const ss_composite_case *given, ss_resistance *out, ss_working *working) {
    const ss_staged_options options = {.share = 1.0};
    const ss_status status = ss_composite_staged(given, &options, out, working);
    if (status == SS_OK && out->why == NULL) {
        ss_working_add(working, "My", "first yield by stages", out->value, SS_DIM_MOMENT, SOURCE("D6.2.2"));
    }
    return status;
}

/* ---- AASHTO LRFD ------------------------------------------------------------------------------------ */

static ss_composite_compact compact_lrfd(const ss_composite_parts *parts) {
    const ss_flexure_case *const steel = &parts->given->steel;
    return (ss_composite_compact){
        .deepest = SS_BENDING_DEEPEST_WEB,
        .deepest_means = "150, without a stiffener along it",
        .slender = 3.76 * sqrt(steel->E / steel->fy),
        .slender_means = "3.76 sqrt(E / Fy)",
        .source = SOURCE("6.10.6.2.2, 6.11.6.2.2"),
        .deepest_missed = "its web is deeper than 150 times its thickness (AASHTO LRFD 6.10.6.2.2)",
        .slender_missed =
            "its web is not compact: 2 Dcp / tw above 3.76 sqrt(E / Fy) (AASHTO LRFD 6.10.6.2.2)"};
}

/* What crushing of the slab leaves of Mp. */
static ss_resistance reduced(const ss_composite_parts *parts, const ss_composite_balance *balance,
                             ss_working *working) {
    const double Dt = parts->live.depth;
    const double ratio = balance->Dp / Dt;
    ss_working_add(working, "Dp", "from the slab's top to the plastic axis", balance->Dp, SS_DIM_SMALL_LENGTH,
                   NULL);
    ss_working_add(working, "Dt", "whole depth, steel and slab", Dt, SS_DIM_SMALL_LENGTH, NULL);
    ss_working_add(working, "Dp/Dt", "at most 0.42", ratio, SS_DIM_NUMBER, SOURCE("6.10.7.3"));
    if (ratio > DUCTILE) {
        return ss_rule_none(RULE_LRFD, "the slab would crush first: Dp above 0.42 Dt (AASHTO LRFD 6.10.7.3)");
    }
    if (ratio <= FULL) {
        return ss_rule_value(balance->moment, RULE_LRFD);
    }
    const double Mn = balance->moment * (1.07 - 0.7 * ratio);
    ss_working_add(working, "Mp (1.07 - 0.7 Dp/Dt)", "Dp is more than 0.1 Dt", Mn, SS_DIM_MOMENT,
                   SOURCE("6.10.7.1.2"));
    return ss_rule_value(Mn,
                         "plastic moment with the slab, Mp (1.07 - 0.7 Dp / Dt) (AASHTO LRFD 6.10.7.1.2)");
}

ss_status ss_composite_plastic(const ss_composite_case *given, ss_resistance *out, ss_working *working) {
    ss_composite_parts parts;
    ss_composite_balance balance;
    const char *why = NULL;
    ss_status status = prepare(given, &parts, &balance, &why, working);
    if (status != SS_OK) {
        return status;
    }
    ss_resistance answer = ss_rule_none(RULE_LRFD, why);
    if (why == NULL) {
        const ss_composite_compact limits = compact_lrfd(&parts);
        answer.why = ss_composite_miss(&parts, &balance, &limits, working);
        answer = answer.why == NULL ? reduced(&parts, &balance, working) : answer;
    }
    if (answer.why == NULL && given->continuous) {
        ss_resistance My;
        status = first_yield(given, &My, working);
        if (status != SS_OK) {
            return status;
        }
        if (My.why != NULL || !(My.value > 0.0)) {
            answer = ss_rule_none(RULE_LRFD, "its span goes on over a support, and 1.3 My is not known");
        } else if (CONTINUOUS * My.value < answer.value) {
            answer = ss_rule_value(CONTINUOUS * My.value,
                                   "1.3 My of a span that goes on over a support (AASHTO LRFD 6.10.7.1.2)");
        }
    }
    if (answer.why == NULL) {
        ss_working_add(working, "Mn", answer.rule, answer.value, SS_DIM_MOMENT, NULL);
    }
    *out = answer;
    return SS_OK;
}

/* ---- Standard Specifications ------------------------------------------------------------------------ */

static ss_composite_compact compact_standard(const ss_composite_parts *parts) {
    const ss_flexure_case *const steel = &parts->given->steel;
    return (ss_composite_compact){
        .deepest = SS_BENDING_DEEPEST_WEB,
        .deepest_means = "150, without a stiffener along it",
        /* 19 230 / sqrt(Fy), psi, with E = 29 000 ksi */
        .slender = 19230.0 / sqrt(29e6) * sqrt(steel->E / steel->fy),
        .slender_means = "19 230 / sqrt(Fy), psi",
        .source = STD("10.50.1.1.2"),
        .deepest_missed =
            "its web is deeper than 150 times its thickness (AASHTO Standard Specifications 10.48.5)",
        .slender_missed = "its web is not compact: 2 Dcp / tw above 19 230 / sqrt(Fy) (AASHTO Standard "
                          "Specifications 10.50.1.1.2)"};
}

/* Between Mp at D' and 0.85 My at 5 D'. */
static ss_status standard_moment(const ss_composite_parts *parts, const ss_composite_balance *balance,
                                 ss_resistance *out, ss_working *working) {
    const double beta = parts->given->steel.fy <= MILD ? 0.9 : 0.7;
    const double D1 = beta * parts->live.depth / 7.5;
    const double ratio = balance->Dp / D1;
    ss_working_add(working, "Dp", "from the slab's top to the plastic axis", balance->Dp, SS_DIM_SMALL_LENGTH,
                   NULL);
    ss_working_add(working, "D'", "beta (d + ts + th) / 7.5, beta 0.9 to 36 ksi and 0.7 above", D1,
                   SS_DIM_SMALL_LENGTH, STD("10.50.1.1.2"));
    ss_working_add(working, "Dp/D'", "at most 5", ratio, SS_DIM_NUMBER, STD("10.50.1.1.2"));
    if (ratio > 5.0) {
        *out = ss_rule_none(RULE_LFR, "the slab would crush first: Dp above 5 D' (AASHTO Standard "
                                      "Specifications 10.50.1.1.2)");
        return SS_OK;
    }
    if (ratio <= 1.0) {
        *out = ss_rule_value(balance->moment, RULE_LFR);
        return SS_OK;
    }
    ss_resistance My;
    const ss_status status = first_yield(parts->given, &My, working);
    if (status != SS_OK) {
        return status;
    }
    if (My.why != NULL || !(My.value > 0.0)) {
        *out = ss_rule_none(RULE_LFR, "its first yield by stages is not known");
        return SS_OK;
    }
    const double low = 0.85 * My.value;
    *out = ss_rule_value((5.0 * balance->moment - low) / 4.0 + (low - balance->moment) / 4.0 * ratio,
                         "plastic moment with the slab, (5 Mp - 0.85 My) / 4 + (0.85 My - Mp) / 4 Dp / D' "
                         "(AASHTO Standard Specifications 10.50.1.1.2)");
    return SS_OK;
}

ss_status ss_composite_plastic_lfr(const ss_composite_case *given, ss_resistance *out, ss_working *working) {
    ss_composite_parts parts;
    ss_composite_balance balance;
    const char *why = NULL;
    ss_status status = prepare(given, &parts, &balance, &why, working);
    if (status != SS_OK) {
        return status;
    }
    if (why == NULL && given->continuous) {
        why = "its span goes on over a support: no more than first yield is counted on (AASHTO Standard "
              "Specifications 10.50.1.1)";
    }
    if (why == NULL) {
        const ss_composite_compact limits = compact_standard(&parts);
        why = ss_composite_miss(&parts, &balance, &limits, working);
    }
    ss_resistance answer = ss_rule_none(RULE_LFR, why);
    if (why == NULL) {
        status = standard_moment(&parts, &balance, &answer, working);
        if (status != SS_OK) {
            return status;
        }
    }
    if (answer.why == NULL) {
        ss_working_add(working, "Mu", answer.rule, answer.value, SS_DIM_MOMENT, NULL);
    }
    *out = answer;
    return SS_OK;
}
