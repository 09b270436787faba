/* joint_strength.h - what the joints between cars carry: plates over the gap, welded and bolted connectors,
 * concrete joint beams. */
#ifndef SILLSPAN_JOINT_STRENGTH_H
#define SILLSPAN_JOINT_STRENGTH_H

#include <stdbool.h>

#include "sillspan/joint.h"
#include "sillspan/resistance.h"
#include "sillspan/working.h"

/** One capacity of a joint: N/m and N m per m of a joint all along, N and N m of a connector. */
typedef struct ss_joint_capacity {
    double factored;  /**< with the resistance factor of what governs (AASHTO LRFD); NaN: see why */
    double nominal;   /**< of the same mode, without it */
    const char *mode; /**< what governs, in words: "bending of the plate" */
} ss_joint_capacity;

/** Capacities at the middle of the gap: the shear with no moment there, the moment with no shear. */
typedef struct ss_joint_strength {
    ss_joint_capacity shear;
    ss_joint_capacity moment;
    const char *why; /**< NULL, or why there is none */
} ss_joint_strength;

/** A plate that bridges the gap and is welded to both cars, per length. */
typedef struct ss_joint_plate {
    double thickness; /**< m */
    double reach;     /**< m, s between the two weld lines */
    double fy;        /**< Pa */
    double fu;        /**< Pa; 0 or NaN: rupture beside the weld is not looked at */
    bool plastic;     /**< moment of the plate fy t^2/4 in place of first yield, fy t^2/6 */
    ss_joint_edge left, right;
    bool groove;      /**< complete-penetration groove welds, as strong as the plate; else fillets */
    double leg;       /**< m, of a fillet */
    double electrode; /**< Pa, F_EXX */
    int faces;        /**< fillets at each edge: 1, or 2 with one on either face of the plate */
    double lap; /**< m, with one fillet: from it to the edge of the gap, where the plate bears; 0: butts */
} ss_joint_plate;

/**
 * Shear of the plate in the middle of the gap: 2 Mp/s when both edges are fixed, Mp/s with a hinge at one,
 * none with both hinged (statics; LRFD 6.12.2.2.7 for Mp, phi 1.00); shear yield 0.58 fy t; rupture 0.58 fu t
 * beside the weld (6.13.5.3, phi 0.80); fillets 0.6 F_EXX on the throat (6.13.3.2.4, phi 0.80) under shear
 * and the edge's moment, elastic vector: two faces share the shear and hold the moment by the couple over the
 * thickness; one face holds it by the couple over `lap`, its force added to the shear, and with no lap is
 * taken as a hinge, since a single fillet is not to be bent about its root. All from memory.
 */
ss_joint_strength ss_joint_plate_strength(const ss_joint_plate *plate, ss_working *working);

/** A straight fillet weld in the plane of a connection; u level in that plane, z down, m, any origin. */
typedef struct ss_weld_line {
    double u0, z0, u1, z1;
} ss_weld_line;

/** Welds of one connector on one car. */
typedef struct ss_weld_group {
    const ss_weld_line *lines;
    int count;
    double leg;       /**< m */
    double electrode; /**< Pa, F_EXX */
    double base;      /**< m, thickness of the thinner connected part; 0 or NaN: not looked at */
    double base_fu;   /**< Pa, its tensile strength */
    double arm;       /**< m, from the middle of the gap to the centroid of the welds, across */
    bool on_side;     /**< welds lie on the car's side, and the moment bends the connector away from it;
                         false: they lie in the plane across, and the moment turns the connector in it */
} ss_weld_group;

/**
 * Largest force per length (N/m) on a group of welds by the elastic vector method: `shear` (N) along z
 * through its centroid and `moment` (N m), in its plane or bending it away from it. Forces spread evenly,
 * moments in proportion to the distance; either sign of the moment is tried. NaN when the group cannot take
 * it (no length; no extent to hold a moment).
 */
double ss_weld_group_force(const ss_weld_group *group, double shear, double moment);

/** A connector by its welds: shear at the middle of the gap, with the moment shear times arm at the welds,
 * and moment alone, until the worst point of a weld is full (LRFD 6.13.3.2.4, phi 0.80; no bonus for the
 * angle of the load) or the part beside it ruptures (6.13.5.3, phi 0.80). */
ss_joint_strength ss_weld_group_strength(const ss_weld_group *group, ss_working *working);

/** One bolt and what it bears on. */
typedef struct ss_joint_bolt {
    double diameter;       /**< m */
    double tensile;        /**< Pa, F_ub: 120 ksi of A325, 150 ksi of A490, 60 ksi of A307 */
    bool threads_in_plane; /**< threads in the shear plane */
    int planes;            /**< shear planes, 1 or 2 */
    double ply;            /**< m, thickness of the parts that bear in one direction, the lesser */
    double ply_fu;         /**< Pa */
    double clear; /**< m, from the edge of the hole to the next hole or the end, in the direction of the
                     force, the least */
} ss_joint_bolt;

/** Nominal resistance of a bolt: the smaller of shear, 0.56 or with threads in the plane 0.45 A_b F_ub a
 * plane (AASHTO LRFD 6.13.2.7, 8th ed. and later; 0.48 and 0.38 before), and bearing, 1.2 L_c t F_u up to 2.4
 * d t F_u (6.13.2.9); from memory, bearing as in AISC's published examples. Bolts below 100 ksi are common
 * ones, with threads in the plane and phi 0.75 in shear. Otherwise phi is 0.80 of both. The rule says which.
 */
ss_resistance ss_joint_bolt_resistance(const ss_joint_bolt *bolt, ss_working *working);

/** Place of a bolt in the plane of a connection; u level in that plane, z down, m, any origin. */
typedef struct ss_bolt_place {
    double u, z;
} ss_bolt_place;

/** Bolts of one connector on one car, all alike. */
typedef struct ss_bolt_group {
    const ss_bolt_place *places;
    int count;
    ss_joint_bolt bolt;
    double arm; /**< m, from the middle of the gap to the centroid of the bolts, across */
} ss_bolt_group;

/** Force (N) of the hardest pressed bolt under `shear` (N) along z through the centroid and `moment` (N m) in
 * the plane, elastic vector method. NaN without bolts, or when one place is to hold a moment. */
double ss_bolt_group_force(const ss_bolt_group *group, double shear, double moment);

/** A connector by its bolts, as ss_weld_group_strength. Slip, prying and tension are left out. */
ss_joint_strength ss_bolt_group_strength(const ss_bolt_group *group, ss_working *working);

/** What the concrete of a joint beam meets (AASHTO LRFD 5.7.4.4). */
typedef enum ss_joint_interface {
    SS_INTERFACE_STEEL = 0, /**< clean steel without paint, held by studs or bars */
    SS_INTERFACE_SMOOTH,    /**< clean concrete, not roughened */
    SS_INTERFACE_ROUGH,     /**< clean concrete, roughened to 1/4 in */
    SS_INTERFACE_WHOLE      /**< cast in one piece */
} ss_joint_interface;

/** A concrete beam between two cars, tied through by rods, per length. */
typedef struct ss_joint_beam {
    ss_joint_interface interface;
    double depth;      /**< m */
    double fc;         /**< Pa, strength of the concrete */
    double rods;       /**< m2 per m, area of rods across the joint */
    double rods_fy;    /**< Pa; at most 60 ksi is counted for shear friction */
    double clamp;      /**< N per m, lasting compression across the joint; 0 or NaN: none */
    double rods_depth; /**< m, from the pressed face to the rods; 0 or NaN: no moment is asked for */
    bool cohesion;     /**< count the cohesion; false: cracked or loosened interface */
} ss_joint_beam;

/** Shear friction, c A + mu (A_v fy + P) up to K1 fc A and K2 A (LRFD 5.7.4.3, phi 0.90), cohesion only where
 * asked for and where the rods are at least 0.05 ksi A / fy (5.7.4.2); moment A fy (d - a/2), no more steel
 * counted than yields well before the concrete crushes, c/d = 0.375 (5.6.2, phi 0.90). From memory. */
ss_joint_strength ss_joint_beam_strength(const ss_joint_beam *beam, ss_working *working);

#endif
