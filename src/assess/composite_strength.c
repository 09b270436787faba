/* composite_strength.c - which bending strength of a section with its slab a method asks for. */
#include "assess/composite_parts.h"
#include "assess/rule.h"

/* Allowable stress of bars over their yield stress: 24 and 36 of 60 ksi (Standard Specifications 8.15.2.2,
 * MBE 6B.5.2.3; from memory). */
#define BARS_INVENTORY 0.40
#define BARS_OPERATING 0.60

/* The plastic moment, or why not as a step and first yield. */
static ss_status plastic_or_yield(const ss_composite_case *given, const ss_staged_options *options, bool lfr,
                                  ss_resistance *out, ss_working *working) {
    const ss_status status =
        lfr ? ss_composite_plastic_lfr(given, out, working) : ss_composite_plastic(given, out, working);
    if (status != SS_OK || out->why == NULL) {
        return status;
    }
    ss_working_add(working, "no Mp", out->why, SS_NAN, SS_DIM_NUMBER, NULL);
    return ss_composite_staged(given, options, out, working);
}

ss_status ss_composite_strength(const ss_composite_case *given, ss_strength strength, double share,
                                bool first_yield, ss_resistance *out, ss_working *working) {
    ss_staged_options options = {.share = share};
    ss_composite_case with_bars = *given;
    switch (strength) {
    case SS_STRENGTH_SERVICE: options.service = true; break;
    case SS_STRENGTH_ASR_INVENTORY:
        with_bars.flange.bar_fy *= BARS_INVENTORY / share;
        return ss_composite_staged(&with_bars, &options, out, working);
    case SS_STRENGTH_ASR_OPERATING:
        with_bars.flange.bar_fy *= BARS_OPERATING / share;
        return ss_composite_staged(&with_bars, &options, out, working);
    default: {
        const bool lfr = strength == SS_STRENGTH_LFR;
        options.concrete = !lfr;
        if (given->sagging && !first_yield) {
            return plastic_or_yield(given, &options, lfr, out, working);
        }
    }
    }
    return ss_composite_staged(given, &options, out, working);
}
