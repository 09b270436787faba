/* mesh.h - the bridge as a grillage of nodes and prismatic members, and the rows (sparse functionals) that
 * loads, effects and springs are. */
#ifndef SILLSPAN_MESH_H
#define SILLSPAN_MESH_H

#include "sillspan/bridge.h"

enum { SS_ROW_MAX = 16 };

/** Degrees of freedom of node k: 3k deflection (m, down), 3k+1 rotation about x (rad), 3k+2 rotation about y
 * (rad); right-handed, z down. So dw/dy = rotation about x, dw/dx = -(rotation about y). Nodes are numbered
 * across the width, then along (small bandwidth). */
typedef struct ss_row {
    int count;
    int dof[SS_ROW_MAX];
    double value[SS_ROW_MAX];
} ss_row;

/** A prismatic member between two nodes: along a line (a before b in x) or a bay of a floor beam (a left of
 * b). */
typedef struct ss_element {
    int a, b;              /**< nodes */
    bool across;           /**< floor beam */
    int member;            /**< index of the line or floor beam */
    double length;         /**< m */
    double EI, GJ;         /**< N m2 */
    double GA;             /**< N, G times shear area; INFINITY without shear deformation */
    bool hinge_a, hinge_b; /**< no bending passes at that end (condensed in the stiffness) */
} ss_element;

typedef enum ss_spring_kind {
    SS_SPRING_VERTICAL, /**< row is a downward displacement, or a relative one: left edge minus right edge */
    SS_SPRING_FOLD,     /**< relative rotation about x across a joint: left minus right */
    SS_SPRING_SLOPE     /**< dw/dx at a bearing */
} ss_spring_kind;

/**
 * A bearing point or a joint spring. Force p acts on the bridge as -p * row; displacement d = row . u.
 * Closed: d = flexibility p + offset. Open (contact springs only): p = 0 and d <= offset.
 * Pads: two springs at y +- b/2; a spring stiffness k all over the pad couples them, flexibility (4, -2; -2,
 * 4)/k (a Winkler pad of uniform stiffness: twist stiffness k b^2/12, the resultant stays within b/2).
 */
typedef struct ss_spring {
    ss_row row;
    ss_spring_kind kind;
    ss_member_kind owner; /**< SS_MEMBER_JOINT or SS_MEMBER_BEARING */
    int index;            /**< in joints or bearings */
    double x, y;
    double length;      /**< m of joint that it stands for; 1 for a connector and for a bearing */
    bool contact;       /**< p >= 0 only */
    double flexibility; /**< m/N or rad/(N m); 0 is rigid. Springs of no stiffness are not made */
    int pair;           /**< the other spring of a pad, or -1 */
    double pair_flexibility;
} ss_spring;

typedef struct ss_mesh {
    const ss_bridge *bridge; /**< outlives the mesh */
    int station_count;
    double *station; /**< x of each, ascending (m) */
    bool *marked;    /**< station_count: something is or changes there (not a mere filler) */
    int *node_at;    /**< station_count x line_count: node or -1 */
    int node_count;
    int order;                     /**< 3 node_count */
    int half_bandwidth;            /**< sub-diagonals of the stiffness matrix */
    int *node_station, *node_line; /**< of each node */
    int element_count;
    ss_element *element;
    int *line_element; /**< (station_count - 1) x line_count: element of that interval, or -1 */
    int *beam_first; /**< floor_beam_count + 1: elements of each floor beam are beam_element[beam_first[i] ...
                        ) from the left */
    int *beam_element;
    int *beam_station; /**< floor_beam_count */
    int spring_count;
    ss_spring *spring;
    int merged_count;   /**< stations closer than a millimetre that were merged */
    int refine;         /**< see ss_mesh_options */
    ss_slab_stage slab; /**< what of a slab has hardened */
    ss_arena arena;
} ss_mesh;

typedef struct ss_mesh_options {
    bool joints; /**< false: the cars alone (first stage) */
    int refine;  /**< every interval is cut into this many (1 as described); for convergence checks */
    const ss_slab_stage *slab; /**< NULL: the finished slab, if there is one. Nodes and elements have the same
                                  numbers in all stages; strips that are still wet have no stiffness */
    bool loose; /**< the cars' own joints are not there; those of the slab are, once it is hard */
} ss_mesh_options;

/**
 * Stations: ends of cars, lines and pieces, floor beams, bearings, joint ends and connectors, placed loads
 * (points, ends of line and area loads, wheels of parked trucks), ends of dead loads, probes; then fillers so
 * that no interval exceeds bridge->station_spacing, half of it where a depth tapers. Marks closer than a
 * millimetre are one station; a place of the structure is kept before one of a load. A tapered interval has
 * the harmonic mean of EI, GA, GJ (Gauss points): its error goes down with the square of the interval.
 * Springs are the bearings in their order (a pad's left one first, then its slope), then the joints along x
 * (vertical, then fold). Errors: a line without length or bending stiffness, a floor beam that meets no line,
 * a bearing that its line does not reach; SS_ERROR_LIMIT.
 */
ss_status ss_mesh_build(const ss_bridge *bridge, ss_mesh_options options, ss_mesh *out, ss_error *error);
void ss_mesh_destroy(ss_mesh *mesh);

/* ---- elements: pure functions ------------------------------------------------------------------- */

/** 6 x 6 stiffness in global degrees of freedom of nodes a then b, row major. Timoshenko bending, St Venant
 * torsion, hinges condensed. */
void ss_element_stiffness(const ss_element *element, double k[36]);

/** Shape functions for a downward force at s in [0, 1]: value = sum over i of (c[i][0] + c[i][1] s + c[i][2]
 * s^2 + c[i][3] s^3) u_i, i over the six global degrees of freedom of a then b (the twist ones are zero).
 * Exact for the prismatic Timoshenko member with its hinges; they are also the equivalent nodal forces of a
 * unit force at s. */
void ss_element_shape(const ss_element *element, double c[6][4]);

/** Equivalent nodal forces of a uniform downward load of 1 N/m over the element. */
void ss_element_uniform(const ss_element *element, double f[6]);

/* ---- loads -------------------------------------------------------------------------------------- */

/** Loads on the mesh: nodal vector and what acts within elements, so that member effects are exact. */
typedef struct ss_load {
    double *nodal;   /**< order: equivalent nodal forces, all loads (N, N m) */
    double *clamped; /**< element_count x 6: the part of `nodal` that comes from loads within that element */
    double *uniform; /**< element_count: load all over that element, N/m (also in `clamped`), so that values
                        between its ends are exact */
    double *locked_torque;     /**< element_count: N m, what ss_load_locked put into `clamped` as torsion; the
                                  steel     of a line has its own share of the twist instead */
    double total;              /**< N, downward sum */
    double moment_x, moment_y; /**< N m: sum of P y and of P x, for the equilibrium check */
    double outside;            /**< N of load that found no car under it */
    const struct ss_mesh *mesh;
} ss_load;

ss_status ss_load_create(const ss_mesh *mesh, ss_load *out, ss_error *error);
void ss_load_destroy(ss_load *load);
/** out += factor * other. */
void ss_load_add(ss_load *load, double factor, const ss_load *other);
/** Force P (N, down) through the deck at (x, y): see ss_mesh_deck. */
ss_status ss_load_force(ss_load *load, double x, double y, double P, ss_error *error);
/** Force P on the line itself at x. */
ss_status ss_load_force_on_line(ss_load *load, int line, double x, double P, ss_error *error);
/** Line load w (N/m) at y through the deck, x0 to x1 (stations; else the nearest interval parts are
 * integrated exactly). */
ss_status ss_load_line(ss_load *load, double x0, double x1, double y, double w, ss_error *error);
/** Same on the line itself. */
ss_status ss_load_line_on_line(ss_load *load, int line, double x0, double x1, double w, ss_error *error);
/** Area load q (N/m2) through the deck: exact integral of the piecewise linear lever rule across. */
ss_status ss_load_area(ss_load *load, double x0, double x1, double y0, double y1, double q, ss_error *error);
/** Weight of the cars' steel, by pieces and floor beams, with each car's weight factor. */
ss_status ss_load_self_weight(ss_load *load, ss_error *error);

/** What stays in the members, stress-free at displacements u, when the stiffness of `before` becomes that of
 * `after` (stages of one bridge): added to `load` as forces that each element has in balance, so that end
 * forces stay as they were. */
void ss_load_locked(ss_load *load, const ss_mesh *before, const ss_mesh *after, const double *u);

/* ---- the deck: how a force at (x, y) comes to the members --------------------------------------- */

/** A share of a force on one line: force `weight` at the line and torque `arm` (m, about x) per unit force.
 * arm is 0 except for a car of one line, which carries a force anywhere in its width through a rigid arm. The
 * resultant is kept: sum of weights = 1, sum of weight * y_line + arm = y. */
typedef struct ss_carrier {
    int line;
    double weight, arm;
} ss_carrier;

/**
 * Shares of a unit force at y on a deck that spans across, within the interval of stations `interval` (lines
 * that exist there): lever rule between the two neighbouring lines; beyond a car's outer line the lever goes
 * on (extrapolated); over the gap between two cars: between the facing lines if the deck runs over the joint,
 * else all on the car whose edge is nearer. Returns the number of carriers (0 to 4; 0: no car there).
 */
int ss_mesh_deck_across(const ss_mesh *mesh, int interval, double y, ss_carrier out[4]);

/** The y at which ss_mesh_deck_across may have a kink or a jump in that interval: at most `capacity`,
 * ascending. At a jump the y is listed once; both sides count (exactly at a jump the shares are those just to
 * its left). For a deck that spans along, the edges of the cars are among them. */
int ss_mesh_deck_kinks(const ss_mesh *mesh, int interval, double *y, int capacity);

/** Shares of a unit force at (x, y) on a deck that spans along: up to 2 floor beams of the car under y (lever
 * rule in x between them, extrapolated beyond the first and last), each as element and position s in [0,1]
 * along it; beyond the outer lines the force goes to the end node together with its moment, `arm` (m about x
 * per unit force; 0 within the lines). Where the beam is hinged at that line, its overhang is still part of
 * it: the moment bends the bay and does not twist the line. In a gap: the car whose edge is nearer or, if the
 * deck runs over the joint, the lever rule between the two edges. Returns the count; 0 also for a car with
 * fewer than two floor beams between lines, which is loaded across. */
typedef struct ss_beam_share {
    int beam, element;
    double s, weight;
    double arm;
} ss_beam_share;
int ss_mesh_deck_along(const ss_mesh *mesh, double x, double y, ss_beam_share out[4]);

/** Row of a unit downward force at (x, y) through the deck. count 0: no car there. */
ss_status ss_mesh_wheel(const ss_mesh *mesh, double x, double y, ss_row *row);

/* ---- effects ------------------------------------------------------------------------------------ */

/** One value to be known. For lines and floor beams `element` and `s` say where (s is 0 or 1 on lines). */
typedef struct ss_effect {
    ss_effect_kind kind;
    ss_member_kind member;
    int index;   /**< line, floor beam, joint or bearing */
    double at;   /**< x (m), or y for a floor beam */
    bool before; /**< just before, else just after */
    int element;
    double s;
    double torsion_shear; /**< for SS_EFFECT_WEB_*: 1/m */
    double moment_shear;  /**< for SS_EFFECT_WEB_* where the depth changes: 1/m, slope over the depth between
                             flanges; the web carries the shear less moment_shear times the moment. 0: what
                             inclined flanges carry is left out */
    int spring; /**< joint: the spring nearest to x. Bearing: its first vertical spring (a pad has two) */
} ss_effect;

/** Locates an effect. Lines are asked at stations. Joints give SHEAR and MOMENT (at the spring nearest to
 * `at`; the value is its force over its `length`), bearings REACTION and MOMENT (the slope spring). Errors: x
 * outside the line, no element on that side, a joint or bearing that passes no such force. */
ss_status ss_mesh_effect(const ss_mesh *mesh, ss_member_kind member, int index, double at, bool before,
                         ss_effect_kind kind, ss_effect *out, ss_error *error);

/** Counts what inclined flanges carry in a web effect of a line at an end of its element. False: the depth is
 * level there, and nothing changes. */
bool ss_mesh_effect_taper(const ss_mesh *mesh, ss_effect *effect);

/** Member effects (line, floor beam): effect = row . u + ss_mesh_effect_local of each load within the
 * element. */
void ss_mesh_effect_row(const ss_mesh *mesh, const ss_effect *effect, ss_row *row);

/** Part of the effect that a unit downward force at `s` within the effect's own element adds besides row . u.
 *  As a function of s it is cubic on each side of effect->s. */
double ss_mesh_effect_local(const ss_mesh *mesh, const ss_effect *effect, double s);

/** Part of the effect that a unit torque about x at `s` within the effect's own element (a line's) adds
 * besides row . u: what a carrier's `arm` does. Zero for all kinds but torsion and the web effects. */
double ss_mesh_effect_local_torque(const ss_mesh *mesh, const ss_effect *effect, double s);

/** Part of the effect that a unit moment about x on an end of the effect's own element (a floor beam's), from
 * what hangs out beyond it, adds besides row . u: not zero only where that end is hinged. */
double ss_mesh_effect_local_overhang(const ss_mesh *mesh, const ss_effect *effect, bool at_b);

/** ss_mesh_effect_local as coefficients of 1, s, s^2, s^3, for an effect at an end of its element (s is 0 or
 * 1): the force within the element, so that at s equal to the effect's own end it is the limit from within (a
 * force just inside the section). */
void ss_mesh_effect_local_cubic(const ss_mesh *mesh, const ss_effect *effect, double c[4]);

/** Value of a member effect under `load` (may be NULL) with displacements u (order). Valid at element ends,
 * and within a floor beam's element if no load but what is spread all over it acts within it. */
double ss_mesh_effect_value(const ss_mesh *mesh, const ss_effect *effect, const double *u,
                            const ss_load *load);

#endif
