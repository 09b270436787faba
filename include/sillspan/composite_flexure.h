/* composite_flexure.h - what a steel section and its slab carry in bending: first yield in stages, plastic
 * moment, partial action. */
#ifndef SILLSPAN_COMPOSITE_FLEXURE_H
#define SILLSPAN_COMPOSITE_FLEXURE_H

#include "sillspan/composite.h"
#include "sillspan/flexure.h"
#include "sillspan/method.h"

/** A moment that stays, and the section that it acts on. */
typedef struct ss_staged_moment {
    const char *name;      /**< lives as long as the working */
    double moment;         /**< N m, factored, sagging positive */
    bool composite;        /**< else on the bare steel */
    ss_slab_flange flange; /**< where composite */
} ss_staged_moment;

/** One section with its slab, bent one way by the live load. */
typedef struct ss_composite_case {
    ss_flexure_case steel; /**< the bare steel; top_compressed does not matter, `sagging` says it; unbraced
                              and Cb are for the bottom flange where it hogs; the top is held by the slab */
    ss_slab_flange flange; /**< short term, under live load */
    bool sagging;
    bool continuous; /**< the span goes on over a support: the plastic moment is cut at 1.3 My */
    const ss_staged_moment *dead;
    int dead_count;
} ss_composite_case;

/** Rule of first yield in stages of a section given by its properties. */
#define SS_COMPOSITE_UNCHECKED                                                                               \
    "first yield by stages; buckling not checked, the plates of the steel are not known"

/*
 * All of them: `out` gets a nominal total moment in N m, dead and live together, in the sense of the case
 * (sagging or hogging, whichever it is, counts positive); or NaN, and `why` names what is missed or unknown.
 * `rule` names the limit that governs. `working` (may be NULL) gets every stage, quantity and limit in the
 * order of a calculation by hand, also those behind a NaN. `strength_loss` is left to the caller. The status
 * is SS_OK, or SS_ERROR_DESCRIPTION when the plates do not fit within the depth; `out` is then left alone.
 *
 * Clauses are quoted from memory. What is left out stands in docs/limits.md.
 */

/**
 * First yield in stages (AASHTO LRFD 6.10.7.2, 6.10.8, D6.2.2): the total moment of which `share` (0 to 1] of
 * every limit may be reached, so that `share` times it is the limit:
 *
 *   (sum of dead moments + least over the fibres of (share F - stress of the stages) S_live) / share
 *
 * Sagging: whole section; both faces of the steel against Fy, the top, where the web is deeper than 150 times
 * its thickness, against web bend-buckling. Hogging: steel and bars for the live load and for every composite
 * stage; bottom against Fnc of the steel (local, lateral, web, as ss_flexure_lrfd, with the height of web
 * that the cracked section compresses), top against Fy, bars against bar_fy. Stress of the concrete against
 * 0.6 f'c is a step of the working and no limit. Where the dead load alone goes beyond a limit the value is
 * below the sum of the dead moments, and may be negative.
 */
ss_status ss_composite_yield(const ss_composite_case *given, double share, ss_resistance *out,
                             ss_working *working);

/**
 * Moment of a compact section that sags (AASHTO LRFD 6.10.7.1.2, D6.1; boxes 6.11.7.1): equilibrium of the
 * plates at Fy and the slab at 0.85 f'c; bars and haunch count nothing. Mp while Dp <= 0.1 Dt, then Mp (1.07
 * - 0.7 Dp / Dt); where `continuous` at most 1.3 My, My by stages. NaN where Dp > 0.42 Dt, it hogs, or it is
 * not compact (Fy <= 70 ksi, D / tw <= 150, 2 Dcp / tw <= 3.76 sqrt(E / Fy)). A section given by its
 * properties qualifies only with the axis in the slab, and its web is not looked at.
 */
ss_status ss_composite_plastic(const ss_composite_case *given, ss_resistance *out, ss_working *working);

/**
 * The same by the Standard Specifications, 10.50.1.1: Mp while Dp <= D' = beta (d + ts + th) / 7.5, then down
 * to 0.85 My at 5 D', beyond which there is none; beta 0.9 to Fy 36 ksi, 0.7 above. 2 Dcp / tw <= 3.57 sqrt(E
 * / Fy). NaN where `continuous`.
 */
ss_status ss_composite_plastic_lfr(const ss_composite_case *given, ss_resistance *out, ss_working *working);

/**
 * By a strength. LRFD and LFR: the plastic moment where there is one and not `first_yield`, else first yield
 * in stages; by LRFD and sagging with 0.6 f'c as a limit of the slab (6.10.7.2.1). Service: first yield in
 * stages, hogging also web bend-buckling (6.10.4.2.2). Both of ASR: first yield in stages, bars to 0.40 or
 * 0.60 of bar_fy. `share` is that of ss_composite_yield; a plastic moment does not look at it.
 */
ss_status ss_composite_strength(const ss_composite_case *given, ss_strength strength, double share,
                                bool first_yield, ss_resistance *out, ss_working *working);

/**
 * Partial composite action, from the rules for steel buildings (AISC 360 I3.2a, I3.2d): plastic moment with
 * the slab's force limited to `tie` (N), what the connectors between the points of zero and of largest moment
 * carry. Web D / tw <= 3.76 sqrt(E / Fy). NaN where it hogs, or no plates are known and the steel's force is
 * not tied whole.
 */
ss_status ss_composite_partial(const ss_composite_case *given, double tie, ss_resistance *out,
                               ss_working *working);

/** Second moment of area (m4) that goes with it: steel + sqrt(ratio) (whole - steel); ratio of what is tied
 * to what full action needs, held between 0 and 1 (commentary to AISC 360 I3.2). */
double ss_composite_partial_I(double steel, double whole, double ratio);

#endif
