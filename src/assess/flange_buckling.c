/* flange_buckling.c - local buckling of parts with a free edge: flanges, stems of tees, legs of angles. */
#include "assess/flexure_limits.h"

#include <math.h>

#include "base/numeric.h"

/* Fyr over Fy of one steel: min(0.7 Fyc, Fyw), at least 0.5 Fyc. What residual stress leaves. */
#define RESIDUAL 0.7

double ss_flange_compact(double E, double fy) {
    return 0.38 * sqrt(E / fy);
}

double ss_flange_noncompact(double E, double fy) {
    return 0.56 * sqrt(E / (RESIDUAL * fy));
}

double ss_flange_stress(double slenderness, double E, double fy) {
    const double compact = ss_flange_compact(E, fy);
    const double limit = ss_flange_noncompact(E, fy);
    if (slenderness <= compact) {
        return fy;
    }
    if (slenderness <= limit) {
        return (1.0 - (1.0 - RESIDUAL) * (slenderness - compact) / (limit - compact)) * fy;
    }
    return RESIDUAL * fy * (limit / slenderness) * (limit / slenderness);
}

double ss_stem_compact(double E, double fy) {
    return 0.84 * sqrt(E / fy);
}

/* The branches meet within 1 percent at 1.03 sqrt(E / Fy), downward. */
double ss_stem_stress(double slenderness, double E, double fy) {
    const double relative = slenderness / sqrt(E / fy);
    if (relative <= 0.84) {
        return fy;
    }
    if (relative <= 1.03) {
        return ss_min(2.55 - 1.84 * relative, 1.0) * fy;
    }
    return 0.69 * fy / (relative * relative);
}

/* AISC 360 F10-6 and F10-7 on Fy S; the branches meet within 1 percent at 0.91 sqrt(E / Fy), downward. */
double ss_leg_stress(double slenderness, double E, double fy) {
    const double relative = slenderness / sqrt(E / fy);
    if (relative <= 0.91) {
        return ss_min(2.43 - 1.72 * relative, 1.0) * fy;
    }
    return 0.71 * fy / (relative * relative);
}
