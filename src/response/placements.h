/* placements.h - where the axles and wheels of a truck on a track are. */
#ifndef SS_RESPONSE_PLACEMENTS_H
#define SS_RESPONSE_PLACEMENTS_H

#include <math.h>

#include "sillspan/envelope.h"

/** A wheel this near to a floor beam stands on it, in positions that are `on_beam` (m). */
#define SS_ON_BEAM 1e-3
/** How far just before and just after a jump are from it (m). */
#define SS_NUDGE 1e-9

/** Wheels are tried this far left and right of a line on floor beams (m). */
#define SS_BESIDE 3e-9

/** x of axle `axle` with the front axle at x. */
static inline double ss_axle_x(const ss_vehicle *vehicle, bool backward, double x, int axle) {
    double behind = 0.0;
    for (int i = 0; i < axle; i++) behind += vehicle->spacing_m[i];
    return backward ? x + behind : x - behind;
}

/** Wheels of an axle: y of each, and the share of the axle load. Returns 1 or 2. */
static inline int ss_axle_wheels(double gauge, double y, double wheel[2]) {
    wheel[0] = y - 0.5 * gauge;
    wheel[1] = y + 0.5 * gauge;
    return gauge > 0.0 ? 2 : 1;
}

/** Axle with the widest gauge, the first of them: a lane's uniform load stands on the lines of its wheels. */
static inline int ss_widest_axle(const ss_vehicle *vehicle) {
    int widest = 0;
    for (int a = 1; a < vehicle->axle_count; a++) {
        widest = ss_vehicle_gauge(vehicle, a) > ss_vehicle_gauge(vehicle, widest) ? a : widest;
    }
    return widest;
}

/** Fills the lines of loads over the carriageway, if some vehicle comes with one. `breaks`, ascending: the y
 * at which the way of a load to the members changes; deck that spans along: and sections of floor beams. */
ss_status ss_area_lines_build(const ss_mesh *mesh, const double *breaks, int count, ss_placements *out,
                              ss_error *error);

/** The bay of a floor beam of `station` that carries a wheel at y: its element, and how far along. False:
 * none does. */
bool ss_wheel_on_beam(const ss_mesh *mesh, int station, double y, int *element, double *s);

/** A force within the bay of a floor beam. */
typedef struct ss_bay_force {
    int element;
    double s; /**< along it, 0 to 1 */
    double P; /**< N */
} ss_bay_force;

enum { SS_BAY_FORCES_MOST = 8 * SS_AXLES_MAX };

/** Forces of a truck that come down on floor beams; their count. */
int ss_placements_bays(const ss_mesh *mesh, const ss_placements *placements, const ss_position *position,
                       ss_bay_force out[SS_BAY_FORCES_MOST]);

/** What ss_mesh_effect_value lacks of an effect within a bay, between its ends, that such forces act on:
 * those passed on the way from its left end. Nothing for deflections. */
double ss_bay_forces_passed(const ss_mesh *mesh, const ss_effect *effect, const ss_bay_force *forces,
                            int count);

#endif
