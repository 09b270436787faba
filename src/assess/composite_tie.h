/* composite_tie.h - a slab tied in part by connectors of a given pitch, where that is to count. */
#ifndef SS_ASSESS_COMPOSITE_TIE_H
#define SS_ASSESS_COMPOSITE_TIE_H

#include "sillspan/bridge.h"
#include "sillspan/composite_flexure.h"

/** What connectors tie of the force at a place of a line. */
typedef struct ss_composite_tie {
    double tied;  /**< N, phi Qn of those in half of the stretch between sections that matter */
    double whole; /**< N, min(0.85 fc b t, As Fy) there */
} ss_composite_tie;

/** Whether partial action counts for a place that sags, and less than the whole force is tied; then fills
 * *out. Stretches lie between bearings of the line and its ends, or those of the slab; where it goes on over
 * a bearing the largest sagging is taken at 0.4 of it, else in its middle. Whole rows, of the given pitch. */
bool ss_composite_tie_at(const ss_bridge *bridge, const ss_effect *effect, const ss_composite_case *given,
                         ss_composite_tie *out);

/**
 * Takes a strength of full action, *out, down to partial action, never up. LRFD and LFR unless `first_yield`:
 * ss_composite_partial. Else, and where that has none: between first yield of the bare steel and *out by the
 * root of tied over whole, as the commentary to AISC 360 I3.2 has section moduli.
 */
ss_status ss_composite_take_tie(const ss_composite_case *given, const ss_composite_tie *tie,
                                ss_strength strength, bool first_yield, ss_resistance *out,
                                ss_working *working);

#endif
