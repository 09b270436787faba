/* permanent.h - dead load by stages: what locks in, what the bearings carry, and the state of the bridge
 * under any load on top. */
#ifndef SILLSPAN_PERMANENT_H
#define SILLSPAN_PERMANENT_H

#include "sillspan/contact.h"
#include "sillspan/grillage.h"

/** The bridge under one set of loads. Arrays are owned by the state. */
typedef struct ss_state {
    double *u;       /**< order */
    double *force;   /**< spring_count: p, see ss_spring */
    double *opening; /**< spring_count: distance by which a contact spring is open, 0 else (m) */
    double *offset;  /**< spring_count: of the springs */
    int open_count;
    double equilibrium; /**< error, see ss_grillage_equilibrium */
    ss_load load;       /**< the loads of the state (a copy), for member effects */
} ss_state;

void ss_state_destroy(ss_state *state);

/** Load factors of the dead load. */
typedef struct ss_dead_factors {
    double dc, dw;
} ss_dead_factors;

/** A step by which the dead load of a bridge with a slab came to be. */
typedef struct ss_permanent_stage {
    const char *name;       /**< for people: "the cars, stripped", "slab wet", "props out", "on the slab" */
    ss_slab_stage slab;     /**< what acts with the lines while its load comes */
    ss_component component; /**< of the load that it brings */
    int pour;               /**< in slab.pours: it brings that part, wet; else -1 */
    bool propped;           /**< the props stand */
    struct ss_mesh *mesh;   /**< with what is there in this stage: the elements of all stages have the same
                               indices; of the springs, only those of the bridge's own bearings */
    ss_state state;         /**< after it, unfactored, all that came before in it */
} ss_permanent_stage;

typedef struct ss_permanent {
    const ss_grillage *grillage;
    ss_load cars;    /**< steel of the cars */
    ss_load added;   /**< DC after the joints: deck, rails, other */
    ss_load wearing; /**< DW */
    double *lock;    /**< spring_count: offsets of the joint springs locked in by the cars' own weight,
                        unfactored (0 when `together`) */
    double *seat; /**< spring_count: offsets of the bearing springs: settlement, and for gaps and later shims
                     the level at which they stand */
    ss_state cars_alone; /**< first stage; empty when all carries together */
    ss_state present;    /**< unfactored dead load, as the bridge stands today */
    ss_state today; /**< with a slab: before anything was done for it, with the mesh of the first stage; else
                       empty */
    ss_permanent_stage
        *stages;       /**< of a bridge with a slab, in their order; `present` is the state after the last */
    int stage_count;   /**< 0 without a slab */
    ss_load locked[2]; /**< by ss_component: what the stages leave in the members besides the loads, as end
                          forces of elements that are in balance by themselves; scales with the load factor */
    ss_bridge *on_props;   /**< what the meshes of propped stages are of: the bridge with a bearing more for
                              each   prop; NULL without props */
    double *contact_field; /**< order x contact springs: influence fields of their reactions, all closed; row
                              by row */
} ss_permanent;

/**
 * Stage 1: cars' steel on bearings placed first and without a gap, no joints (a grillage of its own). Joints
 * lock in at that shape. Stage 2: all dead load, joints active, contact on the total reaction and the total
 * opening. Bearings with a gap, and those placed after, stand where the present unfactored dead load leaves
 * them `gap` short of touching: found with those bearings absent. A gap does not grow with load factors.
 * Settlement moves a bearing down afterwards. Each state is checked for equilibrium (SS_ERROR_CHECK above
 * 1e-8). SS_ERROR_TIPPING and SS_ERROR_MECHANISM in words (which car, which stage).
 */
ss_status ss_permanent_compute(const ss_bridge *bridge, const ss_grillage *grillage, ss_permanent *out,
                               ss_error *error);
void ss_permanent_destroy(ss_permanent *permanent);

/** The state under factored dead load plus `factor` times `extra` (may be NULL), contact solved. `dead`
 * false: without dead load: weightless, gaps as described (m). */
ss_status ss_permanent_state(const ss_permanent *permanent, bool dead, ss_dead_factors factors,
                             const ss_load *extra, double factor, ss_state *out, ss_error *error);

/** Value of any effect in a state. Reactions of a pad are the sum of its two springs; a joint's shear and
 * moment are per length, or of the connector. */
double ss_state_effect(const ss_mesh *mesh, const ss_state *state, const ss_effect *effect);

/** What a stage adds to the effect of a line, floor beam or bearing, unfactored. */
double ss_permanent_added(const ss_permanent *permanent, int stage, const ss_effect *effect);

#endif
