/* ratings_demands.h - checks as limits that a search for them knows: those that differ by a factor alone are
 * one.
 */
#ifndef SS_ASSESS_RATINGS_DEMANDS_H
#define SS_ASSESS_RATINGS_DEMANDS_H

#include "assess/rating_sections.h"
#include "response/reach.h"
#include "sillspan/ratings.h"

/** The checks of a bridge, and the dead loads that they are made under. */
typedef struct ss_check_list {
    ss_check items[SS_CHECKS_MAX];
    int count;
    int dead_count[SS_CHECKS_MAX];
    int dead[SS_CHECKS_MAX][2]; /**< in `factors` */
    ss_dead_factors factors[SS_REACH_DEADS];
    int factor_count;
} ss_check_list;

/** SS_ERROR_LIMIT when there are more dead loads than a search knows. */
ss_status ss_check_list_build(const ss_bridge *bridge, ss_check_list *out, ss_error *error);

/** A group of rated effects as a member of a search. */
typedef struct ss_rated_member {
    ss_reach_member member;
    int first_rated; /**< in the list of rated effects */
    /** check x traffic: the demand that a check's factor follows from, or -1; and what that one's factor is
     * multiplied by. */
    int *demand;
    double *ratio;
} ss_rated_member;

/** Members of all groups, in the arena. */
ss_status ss_rated_members_build(const ss_permanent *permanent, const ss_placements *placements,
                                 const ss_rated_list *rated, const ss_check_list *checks, ss_arena *arena,
                                 ss_rated_member **out, ss_error *error);

/** Unit vehicles in a factored one: load factor, presence and allowance. */
double ss_method_scale(const ss_method_factors *factors);

#endif
