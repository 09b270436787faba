/* make_bridge.h - small bridges built by hand for tests, and the pipe from them to the permanent state. */
#ifndef TEST_MAKE_BRIDGE_H
#define TEST_MAKE_BRIDGE_H

#include "sillspan/envelope.h"
#include "sillspan/memory.h"

#define FT 0.3048
#define INCH 0.0254
#define KIP 4448.2216152605
#define KIP_FT (KIP * FT)

enum { MADE_MOST = 64 };

typedef struct made_bridge {
    ss_bridge bridge;
    ss_steel steel;
    ss_section sections[8];
    ss_car cars[4];
    ss_line lines[MADE_MOST];
    ss_line_piece pieces[MADE_MOST];
    ss_floor_beam beams[MADE_MOST];
    ss_beam_part parts[MADE_MOST];
    ss_joint joints[4];
    ss_bearing bearings[MADE_MOST];
    ss_dead_load dead[8];
    ss_vehicle vehicles[8];
    ss_run runs[4];
    ss_mesh mesh;
    ss_grillage *grillage;
    ss_permanent permanent;
    ss_placements placements;
    ss_error error;
} made_bridge;

/** One steel (E 29000 ksi), no loads, roadway of 0 to 0. */
void made_start(made_bridge *m, double station_spacing);
/** I, J in m4, shear area in m2 (0: none), weight in N/m. */
int made_section(made_bridge *m, double I, double J, double shear_area, double weight);
int made_car(made_bridge *m, double x0, double x1, double y_left, double y_right);
/** Lines of the last car, in the order of y. */
int made_line(made_bridge *m, ss_role role, double y, double x0, double x1, int section);
/** A floor beam of the last car, all across it. */
int made_beam(made_bridge *m, double x, int section);
/** A rigid contact bearing under a line. */
ss_bearing *made_bearing(made_bridge *m, int line, double x);
/** Between the last two cars, all along both. */
ss_joint *made_joint(made_bridge *m, ss_joint_kind kind, double shear, double rotation);
/** Axles in N with spacings in m. */
int made_vehicle(made_bridge *m, int axles, const double *axle, const double *spacing, double gauge);

/** Mesh, grillage, permanent state, placements; the message is in m->error on failure. */
ss_status made_solve(made_bridge *m);
void made_free(made_bridge *m);

/** Two cars of 40 ft with seven lines each, floor beams, a seam, bearings that may lift, gaps, added dead
 * load, and a roadway: nothing about it is symmetric. */
void made_two_cars(made_bridge *m, bool contact, double station_spacing);

#endif
