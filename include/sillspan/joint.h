/* joint.h - joints between neighbouring cars: their kind, stiffness and place, and what they are made of. */
#ifndef SILLSPAN_JOINT_H
#define SILLSPAN_JOINT_H

#include <stdbool.h>

typedef enum ss_joint_kind { SS_JOINT_NONE, SS_JOINT_HINGED, SS_JOINT_RIGID, SS_JOINT_SPRINGS } ss_joint_kind;

/** What a joint is made of, where that is given: its strength comes of it, and its stiffness where that is
 * asked for. In the order of the words of bridge.joints[].kind after "springs". */
typedef enum ss_joint_detail_kind {
    SS_DETAIL_NONE,
    SS_DETAIL_PLATE, /**< a plate over the gap, welded to both cars, all along */
    SS_DETAIL_BOLTS, /**< bolts of each connector */
    SS_DETAIL_BEAM,  /**< a concrete beam with tie rods, all along */
    SS_DETAIL_PLANKS /**< planks of the deck that run over the gap, all along; no strength */
} ss_joint_detail_kind;

/** How a plate, plank or connector is held at the edge of a car. */
typedef enum ss_joint_edge {
    SS_JOINT_EDGE_FIXED = 0, /**< held down and against turning */
    SS_JOINT_EDGE_HINGED,    /**< held down, free to turn */
    SS_JOINT_EDGE_LOOSE      /**< lies on */
} ss_joint_edge;

/** SI; what does not belong to the kind is 0. */
typedef struct ss_joint_detail {
    ss_joint_detail_kind kind;
    double thickness;          /**< plate: m; bolts: of the thinner part */
    double reach;              /**< plate: m between the two weld lines */
    double fy, fu;             /**< Pa: of the plate, of the bolted part (fu), of the rods (fy) */
    double leg, electrode;     /**< plate: fillet welds, m and Pa */
    double lap;                /**< plate: m, from a single fillet to the edge of the gap */
    int faces;                 /**< plate: fillets at each edge, 1 or 2 */
    double diameter;           /**< bolts, rods: m */
    double tensile;            /**< bolts: Pa */
    int count, planes;         /**< bolts: one above the other on each car; shear planes */
    double spacing;            /**< bolts: m, up and down; rods: m along */
    double arm;                /**< bolts: m, from the middle of the gap */
    double clear;              /**< bolts: m, edge of the hole to the next hole or end */
    double depth, fc, cover;   /**< concrete: m, Pa, m from the pressed face to the rods */
    ss_joint_edge left, right; /**< plate, planks: at the left and the right car */
    double E;                  /**< plate, planks: Pa */
    double back;               /**< planks: m, from where they are held to the next line that holds them */
    double share;              /**< planks: of the length that they cover and are held on, 0 to 1 */
    double slip, slip_force;   /**< bolts: m that one moves before it bears; N on it for the secant */
    double width, grip;        /**< concrete: m from car to car; m of rod between its nuts */
    bool whole;                /**< concrete: neither cracked nor loose at the cars */
} ss_joint_detail;

/** Between car `left` and car `left` + 1, acting at y through rigid arms from the facing lines. */
typedef struct ss_joint {
    const char *name;
    ss_joint_kind kind;
    ss_joint_detail_kind estimated; /**< springs: what their stiffness is estimated from; NONE: it is given */
    double scale; /**< share of the stiffness, given or estimated, that counts; it is in shear and rotation */
    int left;     /**< index of the left car */
    double y;     /**< middle of the gap, or the hinge of an estimate with a hinge at one edge */
    double x0, x1;   /**< continuous joint; unused with connectors */
    double shear;    /**< N/m per m; of one connector N/m; INFINITY for hinged and rigid */
    double rotation; /**< N m/rad per m; of one connector N m/rad; 0 hinged, INFINITY rigid */
    int first_connector, connector_count; /**< in `connectors` (x); 0 for a continuous joint */
    double shear_capacity;                /**< N/m, or N a connector; NaN when not given */
    double moment_capacity;               /**< N m per m, or N m a connector; NaN when not given */
    ss_joint_detail detail;               /**< its capacities are those given, both, else by this */
    int first_loose, loose_count;         /**< in `loose`: stretches of a continuous joint that tie nothing */
    bool slab;                            /**< the slab over the gap: is there once that has hardened */
} ss_joint;

#endif
