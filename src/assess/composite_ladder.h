/* composite_ladder.h - stresses of a section with its slab added stage by stage, and their limits. */
#ifndef SS_ASSESS_COMPOSITE_LADDER_H
#define SS_ASSESS_COMPOSITE_LADDER_H

#include "assess/composite_parts.h"

/** Most stress of the slab over f'c, where the section is not compact (AASHTO LRFD 6.10.7.2.1). */
#define SS_LADDER_CONCRETE 0.6

#define SS_LADDER_RULE "first yield by stages"

typedef enum ss_fibre { SS_FIBRE_BOTTOM, SS_FIBRE_TOP, SS_FIBRE_BARS, SS_FIBRE_SLAB, SS_FIBRES } ss_fibre;

/** Stress per N m of sagging at each fibre, compression positive. */
typedef struct ss_unit_stress {
    double at[SS_FIBRES];
} ss_unit_stress;

/** What may be reached at a fibre, and in whose name. */
typedef struct ss_fibre_limit {
    double compression, tension; /**< Pa; infinite: none */
    const char *compressed, *pulled;
} ss_fibre_limit;

typedef struct ss_ladder {
    const ss_composite_parts *parts;
    const ss_staged_options *options;
    ss_working *working;
    bool cracked;
    bool has_bars;
    double sense;             /**< 1 sagging, -1 hogging */
    double dead;              /**< N m, in that sense */
    double stress[SS_FIBRES]; /**< Pa, of the stages so far, compression positive */
    ss_fibre_limit limit[SS_FIBRES];
} ss_ladder;

/** Sets the limits. *why is left alone, or a sentence why there are none. */
ss_status ss_ladder_limit(ss_ladder *ladder, const char **why);

#endif
