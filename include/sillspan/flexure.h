/* flexure.h - what a steel section carries in bending by each method, with lateral and local buckling. */
#ifndef SILLSPAN_FLEXURE_H
#define SILLSPAN_FLEXURE_H

#include "sillspan/resistance.h"
#include "sillspan/section_form.h"
#include "sillspan/working.h"

/** One section bent one way. */
typedef struct ss_flexure_case {
    const ss_section *section;
    double depth;        /**< m, overall depth at this place; no matter for a given section */
    double fy, E, G;     /**< Pa */
    bool top_compressed; /**< true: sagging */
    double unbraced;     /**< m, between points where the compressed flange is held sideways and the section
                            against twist; 0: held all along */
    double Cb;           /**< shape of the moment between those points; below 1, or not finite, counts as 1 */
    bool upright;        /**< either flange is held sideways all along, so that an unsymmetrical section bends
                            upright; what is compressed may still buckle over `unbraced` */
} ss_flexure_case;

/** Rule of a section given by its properties: buckling could not be looked at. */
#define SS_FLEXURE_UNCHECKED                                                                                 \
    "first yield, Fy S of the weaker face; buckling not checked, the plates are not known"

/*
 * All of them: `out` gets a nominal moment in N m, not negative, without sign; or NaN, and `why` names what
 * is missed or unknown. `rule` names the limit that governs, with its article. `working` (may be NULL) gets
 * every quantity and limit in the order of a calculation by hand, also those behind a NaN. S_top, S_bottom, Z
 * and J are those of ss_section_at, with what the description overrides; the rest is geometry of the plates
 * (ss_section_form_at). A found loss of section or stiffness is in it; `strength_loss` is left to the caller,
 * as with every resistance. A section given by its properties gets SS_FLEXURE_UNCHECKED. The status is SS_OK,
 * or SS_ERROR_DESCRIPTION when the plates do not fit within the depth; `out` is then left alone.
 *
 * Clauses are quoted from memory. What is left out stands in docs/limits.md.
 */

/** AASHTO LRFD 6.10.8 (I), 6.11.8 (flange between webs), 6.12.2.2 (channels, tees, angles, bars): at most
 * first yield of either flange, with Rb, local and lateral buckling. */
ss_status ss_flexure_lrfd(const ss_flexure_case *given, ss_resistance *out, ss_working *working);

/** Plastic moment Fy Z of a compact, braced section (AASHTO LRFD A6 for I, 6.12.2.2), at most 1.5 Fy S (tees
 * 1.6); for channels less beyond Lp. NaN where a limit is missed: ss_flexure_lrfd then is the resistance.
 * The last two steps of `working` are what was found and what is allowed. */
ss_status ss_flexure_plastic(const ss_flexure_case *given, ss_resistance *out, ss_working *working);

/** The moment of which `share` (0 to 1) may be reached in service: first yield of either flange, and web
 * bend-buckling, Fcrw S_c / share (AASHTO LRFD 6.10.4.2.2), so that share times it does not exceed Fcrw S_c.
 */
ss_status ss_flexure_service(const ss_flexure_case *given, double share, ss_resistance *out,
                             ss_working *working);

/** AASHTO Standard Specifications 10.48.2 and 10.48.4 (I and channel), 10.51.5 (flange between webs): at most
 * first yield. Other forms as ss_flexure_lrfd. */
ss_status ss_flexure_lfr(const ss_flexure_case *given, ss_resistance *out, ss_working *working);

/** Allowable moment: `share` of Fy S in tension (0.55 inventory, 0.75 operating), in compression with lateral
 * buckling by AASHTO MBE table 6B.5.2.1 (1.82 and 1.34 against it) and local buckling by Standard
 * Specifications 10.34. Other forms: `share` of ss_flexure_lrfd. */
ss_status ss_flexure_asr(const ss_flexure_case *given, double share, ss_resistance *out, ss_working *working);

#endif
