/* member_strength.h - a place of a line or floor beam as the rules of bending strength see it. */
#ifndef SS_ASSESS_MEMBER_STRENGTH_H
#define SS_ASSESS_MEMBER_STRENGTH_H

#include "sillspan/flexure.h"
#include "sillspan/method.h"

/** What is at a place of a member, on the effect's side of it. */
typedef struct ss_member_place {
    const ss_section *section;
    const ss_steel *steel;
    double depth; /**< m */
} ss_member_place;

ss_status ss_member_place_at(const ss_bridge *bridge, const ss_effect *effect, ss_member_place *out);

/** The place bent so that it sags (`sagging`) or hogs, with what holds its compressed flange there. */
ss_flexure_case ss_member_flexure(const ss_bridge *bridge, const ss_effect *effect,
                                  const ss_member_place *place, bool sagging);

/** Nominal moment (N m) by a strength; of ASR that of which `share` is allowed. What a bent member has lost
 * is not off it. */
ss_status ss_member_strength(const ss_flexure_case *given, ss_strength strength, double share,
                             ss_resistance *out, ss_working *working);

#endif
