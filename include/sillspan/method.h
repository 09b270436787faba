/* method.h - rating methods and levels: load factors, dynamic allowance, multiple presence and what counts as
 * the resistance, as pure functions. */
#ifndef SILLSPAN_METHOD_H
#define SILLSPAN_METHOD_H

#include "sillspan/bridge.h"
#include "sillspan/mesh.h"
#include "sillspan/permanent.h"
#include "sillspan/resistance.h"

typedef enum ss_method { SS_METHOD_LRFR, SS_METHOD_LFR, SS_METHOD_ASR } ss_method;

typedef enum ss_level {
    SS_LEVEL_INVENTORY, /**< LRFR: design load at inventory */
    SS_LEVEL_OPERATING,
    SS_LEVEL_LEGAL,
    SS_LEVEL_EMERGENCY,
    SS_LEVEL_PERMIT
} ss_level;

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
    double speed;  /**< m/s at most by restriction; INFINITY: none */
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

/** Words: "LRFR", "legal", "Strength I". */
const char *ss_method_name(ss_method method);
const char *ss_level_name(ss_level level);
const char *ss_limit_name(const ss_check *check);

/** Span (m) that a place of a line lies in: between the bearings of its car on either side; beyond the
 * outermost one *overhang is true and it is the length of the overhang. */
double ss_member_span(const ss_bridge *bridge, int line, double x, bool before, bool *overhang);

#endif
