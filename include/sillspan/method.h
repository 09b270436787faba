/* method.h - rating methods and levels: load factors, dynamic allowance, multiple presence and what counts as
 * the resistance, as pure functions. */
#ifndef SILLSPAN_METHOD_H
#define SILLSPAN_METHOD_H

#include "sillspan/bridge.h"
#include "sillspan/mesh.h"
#include "sillspan/permanent.h"
#include "sillspan/resistance.h"

typedef enum ss_limit {
    SS_LIMIT_STRENGTH,  /**< Strength I or II; yield in LFR; allowable stress in ASR */
    SS_LIMIT_SERVICE,   /**< Service II: stress in steel; LFR overload */
    SS_LIMIT_DEFLECTION /**< live-load deflection; a comfort limit, not strength */
} ss_limit;

/** One check that every member and crossing goes through, if it applies. Texts are constants. */
typedef struct ss_check {
    ss_method method;
    ss_level level;
    ss_limit limit;
    const char *name;    /**< "LRFR legal, Strength I" */
    const char *edition; /**< "AASHTO Manual for Bridge Evaluation, 3rd ed. 2018 (from memory)" */
    bool over_dead;      /**< the capacity is for the live effect alone: dead effect does not count */
} ss_check;

enum { SS_CHECKS_MAX = 24 };

/** What a crossing is, as far as factors depend on it. */
typedef struct ss_crossing_facts {
    int lanes;     /**< loaded at once, at least 1 */
    bool escorted; /**< alone on the bridge by traffic control */
    bool centred;  /**< kept to the middle or to a signed line */
    double speed;  /**< m/s at most by restriction; INFINITY: none (0 is standing still) */
} ss_crossing_facts;

/** All factors of one check for one vehicle, crossing and effect. */
typedef struct ss_method_factors {
    double dc, dw, live;           /**< largest dead load factors; live load factor */
    double allowance;              /**< dynamic load allowance or impact, 0.33 for 33 % */
    double presence;               /**< multiple presence factor */
    double phi, condition, system; /**< 1 where the method has none */
    const char *live_basis, *allowance_basis, *presence_basis; /**< constants, for people */
} ss_method_factors;

/** The checks that the bridge's rating settings ask for, in the order of printing; at most SS_CHECKS_MAX. */
int ss_checks(const ss_bridge *bridge, ss_check out[SS_CHECKS_MAX]);

/** Whether a vehicle is rated by a check (permit loads at the permit level, and so on). */
bool ss_check_applies(const ss_bridge *bridge, const ss_check *check, const ss_vehicle *vehicle);

/** Dead load factors: the largest, and where dead load can help the smallest; returns 1 or 2. The same for
 * all vehicles and effects. */
int ss_check_dead(const ss_bridge *bridge, const ss_check *check, ss_dead_factors out[2]);

/** Factors of a check. */
void ss_check_factors(const ss_bridge *bridge, const ss_check *check, const ss_vehicle *vehicle,
                      const ss_crossing_facts *crossing, const ss_effect *effect, ss_method_factors *out);

/**
 * What the effect may reach (positive; N m, N, N/m of a joint, m): of a nominal resistance for strength and
 * service, of the span for deflection (nominal is then not looked at and may be NULL). NaN: this check does
 * not look at such an effect, or the resistance is not known.
 */
double ss_check_capacity(const ss_bridge *bridge, const ss_check *check, const ss_method_factors *factors,
                         const ss_effect *effect, const ss_resistance *nominal);

/** What a nominal resistance is of: rules differ by method and by what is asked. */
typedef enum ss_strength {
    SS_STRENGTH_LRFD,          /**< AASHTO LRFD */
    SS_STRENGTH_SERVICE,       /**< the moment of which a share may be reached under service load */
    SS_STRENGTH_LFR,           /**< AASHTO Standard Specifications, load factor design */
    SS_STRENGTH_ASR_INVENTORY, /**< the moment of which the working stress is a share */
    SS_STRENGTH_ASR_OPERATING,
    SS_STRENGTH_COUNT
} ss_strength;

/** The strength that a check looks at, and what share of it bending may reach (0: it looks at no bending). */
ss_strength ss_check_strength(const ss_check *check, double *share);

/** Words: "LRFR", "legal", "Strength I". */
const char *ss_method_name(ss_method method);
const char *ss_level_name(ss_level level);
const char *ss_limit_name(const ss_check *check);

/** Span (m) that a place of a line lies in: between the bearings of its car on either side; beyond the
 * outermost one *overhang (may be NULL) is true and it is the length of the overhang, to the line's end. At a
 * bearing `before` tells the side. NaN: the car has no bearing. */
double ss_member_span(const ss_bridge *bridge, int line, double x, bool before, bool *overhang);

/** Whether the settings ask for a method. Only LRFR needs the factors of condition and system. */
bool ss_method_asked(const ss_bridge *bridge, ss_method method);

/** What a crossing is by the bridge's settings: escort of permit vehicles, speed restriction. */
ss_crossing_facts ss_crossing_facts_of(const ss_bridge *bridge, const ss_crossing *crossing);

/**
 * Whether ratings of a vehicle by a check count, in the sequence that the settings ask for. By the manual's
 * (MBE 6A.4.3 and appendix A6A; from memory), with the smallest factors of the design load (HL-93) at
 * inventory and at operating, all its checks together (NaN: not rated), legal loads are not asked for
 *   - at inventory >= 1: those built in, trucks of older specifications and school buses;
 *   - at operating >= 1: the routine ones among those (neither specialised hauling vehicles nor H and HS).
 * All else always counts: emergency and permit vehicles, trucks of the user's own and implements of
 * husbandry, since nothing says that they stay within the design load.
 */
bool ss_sequence_counts(const ss_bridge *bridge, const ss_check *check, const ss_vehicle *vehicle,
                        double inventory, double operating);

/** Live load factor of LRFR legal loads (Strength I) by average daily truck traffic in one direction (-1:
 * unknown, as the heaviest). 2018: 1.30 to 1000, 1.45 from 5000 on (MBE tables 6A.4.4.2.3a-1 and b-1). 2011:
 * 1.40 to 100, 1.65 at 1000, 1.80 from 5000 on; specialised hauling vehicles 1.15, 1.40, 1.60. Linear
 * between. From memory. */
double ss_method_legal_factor(ss_edition edition, bool specialised, int adtt);

/** Multiple presence: LRFR 1.20, 1.00, 0.85, 0.65 (AASHTO LRFD 3.6.1.1.2), LFR and ASR 1.00, 1.00, 0.90, 0.75
 * (Standard Specifications 3.12.1) for one, two, three, and more lanes; from memory. */
double ss_method_presence(ss_method method, int lanes);

/** Impact of LFR and ASR for a loaded length in m: 50 / (L + 125) with L in feet, at most 0.30; 0.30 for NaN
 * (Standard Specifications 3.8.2.1; from memory). */
double ss_method_impact(double length);

#endif
