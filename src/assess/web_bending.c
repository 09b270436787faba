/* web_bending.c - webs in bending: when they buckle, what they shed to the flange, when they are compact. */
#include "assess/flexure_limits.h"

#include <math.h>

#include "base/numeric.h"

double ss_web_area_ratio(double Dc, double web_total, double flange_area) {
    return flange_area > 0.0 ? 2.0 * Dc * web_total / flange_area : SS_INFINITY;
}

double ss_web_noncompact(double awc, double E, double fy) {
    return ss_clamp(3.1 + 5.0 / awc, 4.6, 5.7) * sqrt(E / fy);
}

/* 1 - awc / (1200 + 300 awc) (2 Dc / tw - lambda_rw), written so that awc may be infinite. */
double ss_web_shedding(double slenderness, double awc, double limit) {
    if (slenderness <= limit || !(awc > 0.0)) {
        return 1.0;
    }
    return ss_clamp(1.0 - (slenderness - limit) / (1200.0 / awc + 300.0), 0.0, 1.0);
}

/* D cancels: 0.9 E 9 (D / Dc)^2 / (D / t)^2 = 8.1 E / (Dc / t)^2. */
double ss_web_bend_buckling(double slenderness, double E, double fy) {
    return slenderness > 0.0 ? ss_min(8.1 * E / (slenderness * slenderness), fy) : fy;
}

/* sqrt(E / Fy) / (0.54 Mp / My - 0.1)^2 */
double ss_web_compact(double Mp, double My, double E, double fy) {
    const double root = 0.54 * Mp / My - 0.1;
    return root > 0.0 ? sqrt(E / fy) / (root * root) : 0.0;
}
