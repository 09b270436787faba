/* flexure_parts.h - one section in bending as the methods share it: properties, moduli, limits found so far.
 */
#ifndef SS_ASSESS_FLEXURE_PARTS_H
#define SS_ASSESS_FLEXURE_PARTS_H

#include "assess/flexure_limits.h"
#include "sillspan/flexure.h"

/** Deepest web that the standards let go without longitudinal stiffener, clear depth over thickness (AASHTO
 * LRFD 6.10.2.1.1, Standard Specifications 10.48.5). Beyond, web bend-buckling is the end here. */
#define SS_BENDING_DEEPEST_WEB 150.0

/** A moment in N m that is not exceeded, and the rule behind it. Infinite: no such limit. */
typedef struct ss_bending_limit {
    double moment;
    const char *rule;
} ss_bending_limit;

/** A case prepared. `flange` is the compressed one, S_c its face, S_t the other. */
typedef struct ss_bending {
    ss_section_properties properties;
    ss_section_form form;
    const ss_section *section;
    const ss_form_flange *flange;
    const ss_form_flange *other;
    ss_bracing bracing; /**< length 0: held all along */
    double S_c, S_t, S; /**< m3; S the smaller */
    double J, Iy;       /**< m4, for lateral buckling */
    bool top_compressed, upright;
    ss_working *working;
} ss_bending;

/** Gathers what every method needs. `ready` says whether there is anything left to do: where it is false,
 * `out` is the answer (no plates, or nothing can be told). */
ss_status ss_bending_gather(const ss_flexure_case *given, ss_working *working, ss_bending *bending,
                            ss_resistance *out, bool *ready);

/** The smaller of two limits; the first where they are equal. */
ss_bending_limit ss_bending_least(ss_bending_limit a, ss_bending_limit b);

/** What the rules of a method say of first yield. */
typedef struct ss_bending_words {
    const char *compression, *tension, *sideways, *source;
} ss_bending_words;

/** First yield of either flange, and of a section that may bend sideways. */
ss_bending_limit ss_bending_yield(const ss_bending *b, const ss_bending_words *words);

/** Words of AASHTO LRFD. */
ss_bending_words ss_bending_words_lrfd(void);

/** Local buckling of the compressed parts, S_c times their stress, without Rb (AASHTO LRFD). */
ss_bending_limit ss_bending_local(const ss_bending *b);

/** Lateral-torsional buckling without Rb (AASHTO LRFD). */
ss_bending_limit ss_bending_lateral(const ss_bending *b);

/** Rb of AASHTO LRFD; 1 for forms without a web between flanges. */
double ss_bending_shedding(const ss_bending *b);

/** Stress at which the web buckles in bending: Fcrw, of a stem in compression its own; Fy without a web. */
double ss_bending_web_stress(const ss_bending *b);

/** Fcrw S_c where the web is deeper than the standards allow; infinite otherwise. */
ss_bending_limit ss_bending_deep_web(const ss_bending *b);

/** Whether the compressed side is a flange on one or more webs, to which the rules of I and box apply. */
bool ss_bending_has_flange(const ss_bending *b);

/** A channel's properties for 6.12.2.2.5. */
ss_channel ss_bending_channel(const ss_bending *b);

/** The limit as a resistance, its moment as last step; NaN with a sentence when it is not a number. */
ss_resistance ss_bending_answer(const ss_bending *b, ss_bending_limit limit);

#endif
