/* rating_equation.c - the rating equation for one effect and one position of one truck. */
#include "assess/rating_equation.h"

#include <math.h>

double ss_rating_linear(double capacity, double dead, double live, bool most) {
    const double left = ss_rating_headroom(capacity, dead, most);
    if (left <= 0.0) {
        return 0.0;
    }
    const double toward = most ? live : -live;
    return toward > 0.0 ? left / toward : (double)INFINITY;
}

ss_status ss_rating_follow(const ss_contact_path *path, double multiplier, double capacity, bool most,
                           ss_reach *out, double *work) {
    if (path->n == 0) {
        const double factor = ss_rating_linear(capacity, path->e_dead, multiplier * path->e_live, most);
        *out = (ss_reach){.factor = factor, .linear = factor};
        return SS_OK;
    }
    ss_reach reach;
    const ss_status status =
        ss_contact_reach(path, ss_rating_target(capacity, most), most, (double)INFINITY, &reach, work);
    if (status == SS_OK) {
        reach.factor /= multiplier;
        reach.linear /= multiplier;
        *out = reach;
    }
    return status;
}
