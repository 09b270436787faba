/* joint_capacity.h - what a joint of the bridge can carry: as given, or by what it is made of. */
#ifndef SS_ASSESS_JOINT_CAPACITY_H
#define SS_ASSESS_JOINT_CAPACITY_H

#include "sillspan/bridge.h"
#include "sillspan/joint_strength.h"

/**
 * Factored shear (N/m, or N a connector) and bending (N m per m, or N m) of a joint, with the rule they come
 * by; value NaN: not known, and the joint is not rated for it. Joints that do not give all along have none.
 */
void ss_joint_capacity_of(const ss_joint *joint, ss_resistance *shear, ss_resistance *moment,
                          ss_working *working);

#endif
