/* rolling.h - a train of axles on a simple span, by the theory of rolling loads: a method of its own. */
#ifndef VERIFICATION_ROLLING_H
#define VERIFICATION_ROLLING_H

enum { ROLLING_AXLES = 8 };

/** Axle loads from the front and the distances to the next; any consistent units. */
typedef struct rolling_train {
    int count;
    double axle[ROLLING_AXLES];
    double spacing[ROLLING_AXLES];
} rolling_train;

/** Largest moment anywhere on a simple span under the train in either direction, and *x: the section, in the
 * first half of the span. */
double rolling_moment(const rolling_train *train, double span, double *x);

/** Largest end shear in either direction. */
double rolling_shear(const rolling_train *train, double span);

/** Moment at section x with the front axle at `front`, travelling toward larger x. Axles off the span count
 * nothing. */
double rolling_moment_at(const rolling_train *train, double span, double x, double front);

#endif
