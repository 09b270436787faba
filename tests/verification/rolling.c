/* rolling.c - absolute maximum moment and end shear of axles on a simple span. */
#include "verification/rolling.h"

#include <math.h>

double rolling_moment_at(const rolling_train *train, double span, double x, double front) {
    double moment = 0.0;
    double at = front;
    for (int i = 0; i < train->count; i++) {
        if (at >= 0.0 && at <= span) {
            moment += train->axle[i] * (at < x ? at * (span - x) : x * (span - at)) / span;
        }
        at -= train->spacing[i];
    }
    return moment;
}

/*
 * The largest moment of a group of axles that are all on the span lies under one of them when that axle and
 * the resultant of the group are equally far from mid-span. Axles that are on the span besides the group only
 * add, so every group and every axle of it is tried with the moment of the whole train, and the largest is
 * the maximum.
 */
double rolling_moment(const rolling_train *train, double span, double *x) {
    double best = 0.0;
    double place[ROLLING_AXLES] = {0.0};
    for (int i = 1; i < train->count; i++) {
        place[i] = place[i - 1] - train->spacing[i - 1];
    }
    for (int first = 0; first < train->count; first++) {
        double weight = 0.0;
        double moment = 0.0;
        for (int last = first; last < train->count; last++) {
            weight += train->axle[last];
            moment += train->axle[last] * place[last];
            for (int under = first; under <= last; under++) {
                const double section = 0.5 * span + 0.5 * (place[under] - moment / weight);
                const double front = section - place[under];
                if (section <= 0.0 || section >= span) {
                    continue;
                }
                const double value = rolling_moment_at(train, span, section, front);
                if (value > best) {
                    best = value;
                    *x = fmin(section, span - section);
                }
            }
        }
    }
    return best;
}

/* The end shear is largest with some axle just on the support; from the other direction the train is the
 * other way round. */
double rolling_shear(const rolling_train *train, double span) {
    double best = 0.0;
    for (int direction = 0; direction < 2; direction++) {
        for (int lead = 0; lead < train->count; lead++) {
            double reaction = 0.0;
            double at = 0.0;
            if (direction == 0) {
                for (int i = lead; i < train->count && at <= span; i++) {
                    reaction += train->axle[i] * (span - at) / span;
                    at += train->spacing[i];
                }
            } else {
                for (int i = lead; i >= 0 && at <= span; i--) {
                    reaction += train->axle[i] * (span - at) / span;
                    at += i > 0 ? train->spacing[i - 1] : 0.0;
                }
            }
            best = fmax(best, reaction);
        }
    }
    return best;
}
