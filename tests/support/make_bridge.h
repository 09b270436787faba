/* make_bridge.h - a bridge built by hand together with the pipe from it to the permanent state. */
#ifndef TEST_MAKE_BRIDGE_H
#define TEST_MAKE_BRIDGE_H

#include "sillspan/envelope.h"
#include "support/hand_bridge.h"

typedef struct made_bridge {
    ss_bridge bridge;
    hand_room room;
    ss_mesh mesh;
    ss_grillage *grillage;
    ss_permanent permanent;
    ss_placements placements;
    ss_error error;
} made_bridge;

/** An empty bridge of steel, without loads, its roadway from 0 to 0. */
void made_start(made_bridge *m, double station_spacing);
/** Axles in N with spacings in m. */
int made_vehicle(made_bridge *m, int axles, const double *axle, const double *spacing, double gauge);

/** Mesh, grillage, permanent state, placements; the message is in m->error on failure. */
ss_status made_solve(made_bridge *m);
void made_free(made_bridge *m);

/** Two cars of 40 ft with seven lines each, floor beams, a seam, bearings that may lift, gaps, added dead
 * load, and a roadway: nothing about it is symmetric. */
void made_two_cars(made_bridge *m, bool contact, double station_spacing);

#endif
