/* box_flange.c - buckling of a compressed flange plate between two webs. */
#include "assess/flexure_limits.h"

#include <math.h>

#include "base/numeric.h"

/* Plate buckling coefficient of long panels in shear, edges simply held. */
#define SHEAR_COEFFICIENT 5.34

/* Fcv of 6.11.8.2.2. */
static double shear_stress_limit(double slenderness, double E, double fy) {
    const double root = sqrt(E * SHEAR_COEFFICIENT / fy);
    if (slenderness <= 1.12 * root) {
        return 0.58 * fy;
    }
    if (slenderness <= 1.40 * root) {
        return 0.65 * sqrt(fy * E * SHEAR_COEFFICIENT) / slenderness;
    }
    return 0.9 * E * SHEAR_COEFFICIENT / (slenderness * slenderness);
}

/*
 * 6.11.8.2.2: Fcb sqrt(1 - (fv / Fcv)^2), with Delta = sqrt(1 - 3 (fv / Fy)^2) the share of Fy that torsion
 * leaves, Fyr = (Delta - 0.3) Fy and
 *   Fcb = Delta Fy                                   to      0.57 sqrt(E k / (Fy Delta))
 *         straight line to Fyr                       up to   0.95 sqrt(E k / Fyr)
 *         0.9 E k / slenderness^2                    beyond.
 */
ss_box_flange ss_box_flange_stress(double slenderness, double k, double shear, double E, double fy) {
    ss_box_flange out = {0};
    const double delta = sqrt(ss_max(1.0 - 3.0 * (shear / fy) * (shear / fy), 0.0));
    const double kept = ss_clamp(delta - 0.3, 0.0, 1.0);
    const double across = shear / shear_stress_limit(slenderness, E, fy);
    /* So much torsion that yield leaves nothing: the article does not reach here. */
    if (!(kept > 0.0) || !(across < 1.0)) {
        return out;
    }
    out.compact = 0.57 * sqrt(E * k / (fy * delta));
    out.noncompact = 0.95 * sqrt(E * k / (kept * fy));
    if (slenderness <= out.compact) {
        out.stress = delta * fy;
    } else if (slenderness <= out.noncompact) {
        out.stress = (delta - 0.3 * (slenderness - out.compact) / (out.noncompact - out.compact)) * fy;
    } else {
        out.stress = 0.9 * E * k / (slenderness * slenderness);
    }
    out.stress *= sqrt(1.0 - across * across);
    return out;
}

double ss_box_flange_compact(double E, double fy) {
    return 1.12 * sqrt(E / fy);
}
