/* slab_casting_parts.h - the parts of looking at a slab while it is cast, in files of their own. */
#ifndef SS_STUDIES_SLAB_CASTING_PARTS_H
#define SS_STUDIES_SLAB_CASTING_PARTS_H

#include "sillspan/slab_casting.h"

/** What the parts share. */
typedef struct ss_casting {
    const ss_permanent *permanent;
    const ss_bridge *bridge;
    ss_arena *arena;
    ss_slab_checks *checks;
    ss_slab_casting *out;
    ss_error *error;
} ss_casting;

/** Mesh of a stage. */
static inline const ss_mesh *ss_casting_mesh(const ss_casting *c, int stage) {
    return c->permanent->stages[stage].mesh;
}

/** Whether a stage brings wet concrete. */
static inline bool ss_casting_wet(const ss_casting *c, int stage) {
    return c->permanent->stages[stage].pour >= 0;
}

/** Deflection (m, down) that a stage adds at a node. */
double ss_casting_node_sag(const ss_casting *c, int stage, int node);

/** The y between which the slab lies on a car, half of the gaps beside it included. */
void ss_casting_across(const ss_bridge *bridge, int car, double *left, double *right);

/** Outermost bearings of a car along the bridge. False: it has none. */
bool ss_casting_between(const ss_bridge *bridge, int car, double *from, double *to);

/** Fills error for a failed allocation. */
ss_status ss_casting_no_memory(ss_error *error);

/** Bare cars under wet concrete, people and gear: out->members, and their checks. */
ss_status ss_casting_members(ss_casting *c);

/** Sag of the sets, tilt, gaps, and the concrete that fills the sag. */
ss_status ss_casting_sag(ss_casting *c);

/** The plate that stays as formwork. */
ss_status ss_casting_formwork(ss_casting *c);

#endif
