/* span.h - a truck along a simple span, by the library: the model truck_span. */
#ifndef VERIFICATION_SPAN_H
#define VERIFICATION_SPAN_H

#include "verification/rig.h"
#include "verification/rolling.h"

/** Index of the traffic that is a run, the first of them, or -1. */
int span_run(const ss_placements *placements);

/** Largest moment and end shear of a truck on a simple span, kip-ft and kip: at the section where theory has
 * the largest moment, and at others all along, none of which may exceed it. False when the library failed. */
bool span_truck(const char *truck, const rolling_train *train, double span_ft, double *moment, double *shear);

#endif
