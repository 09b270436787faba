/* rating.h - rating factors of every member for every truck, each with all its terms. */
#ifndef SILLSPAN_RATING_H
#define SILLSPAN_RATING_H

#include "sillspan/envelope.h"
#include "sillspan/resistance.h"

/** Factors of one method and level for one vehicle and member: the seam for further methods. */
typedef struct ss_rating_factors {
    double dc, dw, live; /**< load factors; in a rating dc and dw are those of the dead load that governs */
    double allowance;    /**< dynamic load allowance, 0.33 for 33 % */
    double phi, condition,
        system; /**< resistance factors as given; see ss_rating_capacity for how they combine */
    const char *live_basis,
        *allowance_basis; /**< constants, for people: "legal load, at most 1000 trucks a day" */
} ss_rating_factors;

typedef struct ss_rating_rule {
    const char *method, *level; /**< "LRFR", "legal" */
    const char *edition;        /**< "AASHTO Manual for Bridge Evaluation, 3rd ed. 2018 (from memory)" */
    /** Dead load factors, the largest [0] and the smallest [1], the latter for dead load that helps. The same
     * for all vehicles and effects, since the bearings' contact is solved with them on. */
    void (*dead)(const ss_bridge *bridge, ss_dead_factors out[2]);
    /** Factors for `vehicle` and an effect of a member; dc and dw are the largest. */
    void (*factors)(const ss_bridge *bridge, const ss_vehicle *vehicle, const ss_effect *effect,
                    ss_rating_factors *out);
} ss_rating_rule;

/** The rules known; this version has LRFR legal loads. */
const ss_rating_rule *ss_rating_rules(int *count);

/** Factored resistance of a nominal one: phi Rn times condition times system, that product not below 0.85
 * (MBE 6A.4.2.1; from memory). */
double ss_rating_capacity(const ss_rating_factors *factors, double nominal);

/** One factor with its terms: rf = (capacity - dead) / (live_factor (1 + allowance) live), by contact path.
 */
typedef struct ss_rating {
    const ss_rating_rule *rule;
    ss_effect
        effect; /**< member, place, side, kind (moment; web plus or minus counts as web shear; joint shear) */
    bool most;  /**< the sign of the effect that governs: true for the largest, false for the least */
    int traffic; /**< index of traffic */
    double rf; /**< smallest multiple of the truck, contact solved at that load; INFINITY when the truck only
                  relieves; 0 when dead load alone is too much */
    double rf_linear;      /**< the same truck there, with the bearings' state under dead load kept */
    bool tips;             /**< at rf the bridge tips before the section is full */
    bool minimum_dead;     /**< minimum dead factors govern (0.90 DC, 0.65 DW) */
    ss_resistance nominal; /**< Rn; of a joint its capacity, which is a factored one */
    ss_rating_factors factors;
    double capacity;               /**< condition system phi Rn, signed like the effect */
    double dead, dead_dc, dead_dw; /**< factored dead effect; unfactored parts (contact solved in each) */
    double live; /**< live effect of one truck, without allowance, contact solved at rf times the factored
                    truck (at one factored truck when rf is 0 or INFINITY) */
    ss_position position; /**< track -1 when the truck has no effect of that sign */
    ss_concurrent with; /**< live, per unit truck, at the same load as `live`; NaN also within a floor beam's
                           bay that a wheel stands on */
    double tons;        /**< rf times gross weight, in US tons of force (2000 lbf) */
} ss_rating;

typedef struct ss_rating_result {
    ss_rating *items; /**< governing section for each member, effect (moment, web shear, joint shear) and
                         truck; sorted by member, effect, traffic */
    int count;
    int controlling; /**< index of the smallest rf, or -1 */
    int *by_traffic; /**< index of the smallest for each traffic, or -1 */
    int traffic_count;
    const char **notes;
    int note_count; /**< sections that could not be rated and why, and the like */
    ss_arena arena;
} ss_rating_result;

/**
 * Rates lines and floor beams at every enveloped section in bending and web shear, and joints that have a
 * capacity. Needs rating.condition and rating.system: else SS_ERROR_DESCRIPTION. Dead load counts with its
 * largest and with its smallest factors. Where bearings lift, the positions that govern are sought again at
 * the load at which they do (for factors up to 3; larger ones keep the positions that are worst at one
 * factored truck), then all sections near the controlling one at the controlling load of each truck, until
 * that stays. The state under each rated load is solved once more: SS_ERROR_CHECK when it is beyond the
 * capacity. SS_ERROR_TIPPING when factored dead load alone tips the bridge. `progress` may be NULL.
 */
ss_status ss_rating_compute(const ss_permanent *permanent, const ss_placements *placements,
                            const ss_effect *effects, int effect_count,
                            void (*progress)(void *context, double done), void *context,
                            ss_rating_result *out, ss_error *error);
void ss_rating_destroy(ss_rating_result *result);

/** Live load factor of legal loads by average daily truck traffic (-1 unknown), MBE table 6A.4.4.2.3a-1,
 * later editions (from memory): 1.30 to 1000, 1.45 from 5000 or unknown, linear between. */
double ss_rating_live_factor(int adtt);

#endif
