/* resolve_joint_detail.h - what a joint is made of, and how stiff it is. */
#ifndef SS_MODEL_RESOLVE_JOINT_DETAIL_H
#define SS_MODEL_RESOLVE_JOINT_DETAIL_H

#include "model/resolve.h"

/** Stiffness by the kind alone or as given; joint->kind and joint->estimated are known. */
void ss_resolve_joint_given(ss_resolve *c, const ss_node *item, bool discrete, ss_joint *joint);

/** Reads the group plate, bolts, concrete or planks of a joint, after its given capacities. */
void ss_resolve_joint_detail(ss_resolve *c, const ss_node *item, bool discrete, ss_joint *joint);

/** Stiffness estimated from the group, where the kind asks for it; after the joint's place is known, which a
 * hinge shifts. */
void ss_resolve_joint_estimate(ss_resolve *c, const ss_node *item, ss_joint *joint);

/** Once the deck is known: planks that tie the cars while the deck does not run over the gap. */
void ss_resolve_joint_planks(ss_resolve *c);

#endif
