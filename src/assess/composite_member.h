/* composite_member.h - what a line carries together with its slab, with what the stages of the dead load have
 * left in both; and what strips of the slab carry across. */
#ifndef SS_ASSESS_COMPOSITE_MEMBER_H
#define SS_ASSESS_COMPOSITE_MEMBER_H

#include "assess/member_strength.h"
#include "sillspan/composite_flexure.h"

/** How the checks of a bridge use a strength in bending. */
typedef struct ss_strength_use {
    double share;         /**< of the nominal moment, see ss_check_strength; 0: no check uses it */
    double used;          /**< the same times what condition, system and phi leave of it */
    ss_dead_factors dead; /**< the largest */
} ss_strength_use;

/** Of each strength. */
void ss_strength_uses(const ss_bridge *bridge, ss_strength_use out[SS_STRENGTH_COUNT]);

enum { SS_STAGES_MOST = SS_POURS_MAX + 8 };

/** A place of a line with its slab: `given` points into it, so that it stays where it is. */
typedef struct ss_composite_member {
    ss_composite_case given;
    ss_staged_moment dead[SS_STAGES_MOST];
} ss_composite_member;

/** Whether a slab acts with the line at this moment effect; then fills *out, without dead moments, which a
 * strength has by ss_composite_member_dead. */
bool ss_composite_member_at(const ss_bridge *bridge, const ss_effect *effect, const ss_member_place *place,
                            bool sagging, ss_composite_member *out);

/** Moments of the stages of `permanent` with these factors. */
void ss_composite_member_dead(const ss_permanent *permanent, const ss_effect *effect, ss_dead_factors factors,
                              ss_composite_member *member);

/**
 * Nominal total moment of the member by a strength, as ss_member_strength gives it of bare steel:
 * `use->share` times condition, system and phi of it is the limit. In service 0.95 of Fy counts where bare
 * steel has 0.80 (AASHTO LRFD 6.10.4.2.2, from memory). Partial action is taken off where it is to count, see
 * composite_tie.h. Dead moments are filled in. What a bent member has
 * lost is not off it.
 */
ss_status ss_composite_member_strength(const ss_permanent *permanent, const ss_effect *effect,
                                       ss_strength strength, const ss_strength_use *use,
                                       ss_composite_member *member, ss_resistance *out, ss_working *working);

/** What a strip of slab (a floor beam with `strip`) carries in bending, sagging or hogging, times phi of
 * concrete: see slab_strength.h. */
ss_resistance ss_strip_resistance(const ss_bridge *bridge, const ss_effect *effect, bool sagging,
                                  ss_working *working);

#endif
