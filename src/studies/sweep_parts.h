/* sweep_parts.h - the steps of a sweep. */
#ifndef SS_STUDIES_SWEEP_PARTS_H
#define SS_STUDIES_SWEEP_PARTS_H

#include "sillspan/sweep.h"

/** What the paths of an axis are of joints. */
typedef struct ss_sweep_joints {
    bool *joint;         /**< joint_count: it is swept */
    bool vertical, fold; /**< which springs */
} ss_sweep_joints;

/** Whether every path of the unknown is a stiffness or the scale of a joint, all of one kind. `joint` has
 * joint_count entries. */
bool ss_sweep_joints_of(const ss_bridge *bridge, const ss_unknown *unknown, ss_sweep_joints *out);

/** The springs of those joints; `springs` has spring_count entries. Returns their number. */
int ss_sweep_springs(const ss_mesh *mesh, const ss_sweep_joints *joints, int *springs);

/** Values of an axis. */
ss_status ss_sweep_axis_make(const ss_sweep_plan *plan, int which, ss_arena *arena, ss_sweep_axis *out,
                             ss_error *error);

/** Sets the values of point `index`; see ss_trial_change. `context` is an ss_sweep. */
ss_status ss_sweep_change(void *context, int index, ss_description *description, ss_diag_list *diags);

/** All points of one axis of joints out of one factorisation. SS_ERROR_LIMIT: that does not pay, or cannot
 * be. */
ss_status ss_sweep_closed(const ss_sweep_plan *plan, ss_sweep *sweep, ss_error *error);

/** Worst, best, bands, described. */
ss_status ss_sweep_read(ss_sweep *sweep, ss_error *error);

#endif
