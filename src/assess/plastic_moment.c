/* plastic_moment.c - moment of a section that has yielded through. */
#include "assess/flexure_limits.h"

#include "base/numeric.h"

/* Beyond 1.5 My (tees 1.6, 6.12.2.2.4) the strains in service would leave the elastic range. */
double ss_plastic_moment(double Z, double S, double fy, double most) {
    return ss_min(fy * Z, most * fy * S);
}
