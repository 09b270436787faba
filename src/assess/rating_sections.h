/* rating_sections.h - the effects that are rated, each with its nominal resistance, and notes on those that
 * cannot be. */
#ifndef SS_ASSESS_RATING_SECTIONS_H
#define SS_ASSESS_RATING_SECTIONS_H

#include "assess/rating_notes.h"
#include "sillspan/method.h"

/** One effect at one place with what resists it. */
typedef struct ss_rated {
    ss_effect effect;
    ss_resistance nominal[SS_STRENGTH_COUNT][2]; /**< against its least and its largest values; of web shear
                                                    and joints all alike */
    int order;                                   /**< among the effects that were asked for */
    int group; /**< rank of its member and limit state (moment, web shear, joint shear,
                  deflection): one rating is kept
                  for each group and traffic */
} ss_rated;

/** What a check takes the nominal resistance to be, against the largest or the least values. */
static inline const ss_resistance *ss_rated_nominal(const ss_rated *rated, const ss_check *check, bool most) {
    double share = 0.0;
    return &rated->nominal[ss_check_strength(check, &share)][most ? 1 : 0];
}

typedef struct ss_rated_list {
    ss_rated *items; /**< sorted by member, limit state, order */
    int count;
    int group_count;
    int *group_first; /**< group_count + 1 */
    const int *only;  /**< by order: traffic that an effect is rated under; NULL: all */
} ss_rated_list;

/** The rated ones of `effects`, deflections too if asked for, in the arena of `notes`, which receives what
 * cannot be rated. */
ss_status ss_rated_list_build(const ss_permanent *permanent, const ss_effect *effects, int count,
                              bool deflections, ss_rating_notes *notes, ss_rated_list *out, ss_error *error);

/** Makes the places of each group groups of their own, so that one rating is kept for each place, under the
 * traffic that `only` has for each of the effects that were asked for; it is kept, not copied. */
void ss_rated_list_split(ss_rated_list *list, const int *only);

#endif
