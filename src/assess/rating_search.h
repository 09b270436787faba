/* rating_search.h - the smallest multiple of each truck for each rated effect, from envelopes and contact
 * paths. */
#ifndef SS_ASSESS_RATING_SEARCH_H
#define SS_ASSESS_RATING_SEARCH_H

#include "assess/rating_reactions.h"
#include "assess/rating_sections.h"

/** Factors that agree within this, relative, are one: the first is kept. */
#define SS_RATING_TIE 1e-9

/** Factors above this are of no practical interest: their positions stay those at one factored truck. */
#define SS_RATING_SOUGHT 3.0

/** The smallest multiple found so far for one effect, traffic and sign. */
typedef struct ss_rating_case {
    double rf, rf_linear; /**< INFINITY: none found */
    double guess;         /**< least estimate among the envelopes in which it was not followed */
    bool tips;
    int dead;             /**< 0: largest dead load factors, 1: smallest */
    ss_position position; /**< track -1: none */
} ss_rating_case;

/** The smallest multiple of a truck, factors and allowance in it, at which the bridge was found to tip. */
typedef struct ss_rating_tip {
    double multiple; /**< INFINITY: none found */
    int dead;
    ss_position position;
} ss_rating_tip;

typedef struct ss_rating_search {
    const ss_permanent *permanent;
    const ss_placements *placements;
    const ss_rated_list *rated;
    ss_dead_factors factors[2];
    int dead_count;        /**< 1 when both are the same */
    double *capacity;      /**< rated x traffic: factored resistance, positive */
    double *multiplier;    /**< rated x traffic: live factor with allowance */
    double *dead;          /**< 2 x rated: factored dead effect */
    double *dead_closed;   /**< 2 x rated: the same with every bearing closed */
    double *opening;       /**< rated x contact springs: effect of a unit opening */
    double *r_dead;        /**< 2 x contact springs: reactions to dead load with every bearing closed */
    ss_rating_case *cases; /**< rated x traffic x 2 (0: least, 1: most) */
    double *lowest;        /**< groups x traffic: smallest rf of the group's cases */
    ss_rating_tip *tips;   /**< traffic */
    ss_rating_reactions reactions;
    int contact_count;
    const double *S;
    double *work;
    double linear_up_to; /**< multiple of every truck up to which no position changes the bearings' state; 0:
                            not known */
    void (*progress)(void *context, double done);
    void *context;
    double progress_from, progress_to; /**< share of the whole that the next request takes */
} ss_rating_search;

/** Which effects to look at, under what. */
typedef struct ss_rating_request {
    const int *which; /**< ascending, in rated */
    int count;
    int traffic;     /**< -1: all */
    int dead;        /**< 0 or 1 */
    double multiple; /**< of the truck, at which contact is solved to choose positions */
} ss_rating_request;

static inline size_t ss_rating_at(const ss_rating_search *search, int rated, int traffic) {
    return (size_t)rated * (size_t)search->placements->traffic_count + (size_t)traffic;
}

static inline ss_rating_case *ss_rating_case_at(const ss_rating_search *search, int rated, int traffic,
                                                bool most) {
    return &search->cases[2 * ss_rating_at(search, rated, traffic) + (most ? 1 : 0)];
}

/** All arrays in `arena`, nothing found yet. The factors of `rule` are put in. */
ss_status ss_rating_search_init(ss_rating_search *search, const ss_rating_rule *rule, ss_arena *arena);
void ss_rating_search_destroy(ss_rating_search *search);

/** Lowers the cases of the effects asked for. */
ss_status ss_rating_search_run(ss_rating_search *search, const ss_rating_request *request, ss_error *error);

/** Everything, with both dead loads, at the largest factored truck. */
ss_status ss_rating_search_all(ss_rating_search *search, ss_error *error);

/** Where bearings lift: the sections that govern are looked at again at the load that they govern at, then
 * every section at the controlling load of each truck. */
ss_status ss_rating_search_refine(ss_rating_search *search, ss_error *error);

/** Governing positions are moved along their tracks to where the factor is least: a search finds them for a
 * load that is near to theirs only. */
ss_status ss_rating_search_polish(ss_rating_search *search, ss_error *error);

/** The case that governs a group under a traffic, among equals the first, most before least; its section and
 * sign. */
const ss_rating_case *ss_rating_search_governing(const ss_rating_search *search, int group, int traffic,
                                                 int *rated, bool *most);

/** The same if it is worth another look: it was reached, by a load at which bearings can have moved, and its
 * factor is of practical interest; else NULL. */
const ss_rating_case *ss_rating_search_sought(const ss_rating_search *search, int group, int traffic,
                                              int *rated, bool *most);

/** The path that the contact of an effect follows; the caller adds r_live and e_live. */
ss_contact_path ss_rating_search_path(const ss_rating_search *search, int rated, int dead);

/** Smallest factor of a traffic, tipping included; INFINITY when there is none. */
double ss_rating_search_lowest(const ss_rating_search *search, int traffic);

#endif
