/* bearing_web.c - webs above a bearing: local yielding and crippling. */
#include "sillspan/bearing_web.h"

#include <math.h>
#include <stddef.h>

#include "assess/rule.h"

#define YIELDING "web local yielding (AASHTO LRFD D6.5.2)"
#define CRIPPLING "web crippling (AASHTO LRFD D6.5.3)"
#define SOURCE_YIELDING "AASHTO LRFD D6.5.2, AISC 360 J10.2"
#define SOURCE_CRIPPLING "AASHTO LRFD D6.5.3, AISC 360 J10.3"
#define SOURCE_FACTORS "AASHTO LRFD 6.5.4.2 (from memory)"

/* Resistance factors of LRFD 6.5.4.2, bearing on a web 1.00 and crippling 0.80; safety factors of AISC 360
 * J10.2 and J10.3. */
#define PHI_YIELDING 1.00
#define PHI_CRIPPLING 0.80
#define SAFETY_YIELDING 1.5
#define SAFETY_CRIPPLING 2.0

enum { WEBS_MOST = 100 };

/* Why no figure can be made of it, or NULL. */
static const char *fault_of(const ss_bearing_web *web) {
    if (web->webs < 1 || web->webs > WEBS_MOST) {
        return "the number of webs is not 1 to 100";
    }
    if (!ss_rule_positive(web->web_thickness) || !ss_rule_positive(web->flange_thickness)) {
        return "the thickness of its web or flange is not known";
    }
    if (!ss_rule_positive(web->depth)) {
        return "its depth is not known";
    }
    if (!ss_rule_not_negative(web->length) || !ss_rule_not_negative(web->end_distance)) {
        return "the length of bearing or the distance to the end is not known";
    }
    if (!ss_rule_positive(web->fy) || !ss_rule_positive(web->E)) {
        return "its yield stress or modulus is not positive";
    }
    return NULL;
}

static ss_resistance yielding_of(const ss_bearing_web *web, ss_working *working) {
    const bool given = ss_rule_positive(web->fillet_reach);
    const double reach = given ? ss_max(web->fillet_reach, web->flange_thickness) : web->flange_thickness;
    ss_working_add(working, "k",
                   given ? "outer face of the flange to the toe of the fillet"
                         : "no fillet given: the flange's thickness",
                   reach, SS_DIM_SMALL_LENGTH, NULL);
    const bool interior = web->end_distance > web->depth;
    const double spread = (interior ? 5.0 : 2.5) * reach + web->length;
    ss_working_add(working, interior ? "5 k + N" : "2.5 k + N",
                   interior ? "length of web that yields; the end is farther than the depth"
                            : "length of web that yields; the end is within the depth",
                   spread, SS_DIM_SMALL_LENGTH, SOURCE_YIELDING);
    const ss_resistance found =
        ss_rule_value((double)web->webs * spread * web->fy * web->web_thickness, YIELDING);
    ss_working_add(working, "Rn", "local yielding of all webs, Fy t over that length", found.value,
                   SS_DIM_FORCE, SOURCE_YIELDING);
    return found;
}

static ss_resistance crippling_of(const ss_bearing_web *web, ss_working *working) {
    const double slope = web->length / web->depth;
    const bool interior = web->end_distance >= 0.5 * web->depth;
    const double share = !interior && slope > 0.2 ? 4.0 * slope - 0.2 : 3.0 * slope;
    ss_working_add(working, "N / d", "length of bearing over the depth", slope, SS_DIM_NUMBER, NULL);
    const double ratio = web->web_thickness / web->flange_thickness;
    if (!ss_rule_positive(ratio)) {
        return ss_rule_none(CRIPPLING, "its figures are out of range");
    }
    const double bracket = 1.0 + share * ratio * sqrt(ratio);
    ss_working_add(working, "1 + ... (t/tf)^1.5",
                   !interior && slope > 0.2 ? "4 N/d - 0.2 near the end with N/d above 0.2" : "3 N/d",
                   bracket, SS_DIM_NUMBER, SOURCE_CRIPPLING);
    const double root = sqrt(web->E) * sqrt(web->fy) / sqrt(ratio);
    ss_working_add(working, "sqrt(E Fy tf / t)", "stress of crippling", root, SS_DIM_STRESS,
                   SOURCE_CRIPPLING);
    const double lead = interior ? 0.8 : 0.4;
    const double one = lead * web->web_thickness * web->web_thickness * bracket * root;
    const ss_resistance found = ss_rule_value((double)web->webs * one, CRIPPLING);
    ss_working_add(working, "Rn",
                   interior ? "crippling of all webs, 0.8 t^2 times both"
                            : "crippling of all webs near the end, 0.4 t^2 times both",
                   found.value, SS_DIM_FORCE, SOURCE_CRIPPLING);
    return found;
}

ss_bearing_web_strength ss_bearing_web_resistance(const ss_bearing_web *web, ss_working *working) {
    const char *const fault = fault_of(web);
    if (fault != NULL) {
        return (ss_bearing_web_strength){.yielding = ss_rule_none(YIELDING, fault),
                                         .crippling = ss_rule_none(CRIPPLING, fault),
                                         .factored = SS_NAN,
                                         .governs = "nothing: not known",
                                         .allowable = SS_NAN,
                                         .allowable_governs = "nothing: not known"};
    }
    ss_bearing_web_strength out = {.yielding = yielding_of(web, working),
                                   .crippling = crippling_of(web, working)};
    if (isnan(out.yielding.value) || isnan(out.crippling.value)) {
        out.factored = out.allowable = SS_NAN;
        out.governs = out.allowable_governs = "nothing: not known";
        return out;
    }
    const double factored[] = {PHI_YIELDING * out.yielding.value, PHI_CRIPPLING * out.crippling.value};
    const double allowable[] = {out.yielding.value / SAFETY_YIELDING, out.crippling.value / SAFETY_CRIPPLING};
    out.factored = ss_min(factored[0], factored[1]);
    out.governs = factored[0] <= factored[1] ? "web local yielding" : "web crippling";
    out.allowable = ss_min(allowable[0], allowable[1]);
    out.allowable_governs = allowable[0] <= allowable[1] ? "web local yielding" : "web crippling";
    ss_working_add(working, "phi Rn", "smaller of 1.00 yielding and 0.80 crippling", out.factored,
                   SS_DIM_FORCE, SOURCE_FACTORS);
    return out;
}
