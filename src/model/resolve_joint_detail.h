/* resolve_joint_detail.h - what a joint is made of. */
#ifndef SS_MODEL_RESOLVE_JOINT_DETAIL_H
#define SS_MODEL_RESOLVE_JOINT_DETAIL_H

#include "model/resolve.h"

/** Reads the group plate, bolts or concrete of a joint, after its given capacities. */
void ss_resolve_joint_detail(ss_resolve *c, const ss_node *item, bool discrete, ss_joint *joint);

#endif
