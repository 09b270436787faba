/* joint_out.h - ratings that rely on a joint beyond what it can carry, replaced by those with the joint out.
 */
#ifndef SILLSPAN_JOINT_OUT_H
#define SILLSPAN_JOINT_OUT_H

#include "sillspan/variant.h"

/** One crossing by one check whose joint is full before the members are. */
typedef struct ss_joint_reliance {
    int check, traffic;
    int joint;      /**< rating item of the joint */
    double members; /**< smallest factor of the members with the joint */
    double without; /**< the same with the joint out: that holds; NaN: it could not be rated, and the joint's
                       own factor holds */
} ss_joint_reliance;

typedef struct ss_joint_out {
    ss_joint_reliance *items;
    int count;
    const char *failure; /**< why the bridge could not be rated with the joints out, or NULL */
    ss_arena arena;
} ss_joint_out;

/**
 * A rating that relies on a joint holds only while the joint carries what it is asked at that rating. Where
 * a joint with a given capacity is full first, the bridge is rated with all such joints out, and its
 * governing factors take the place of those in base->ratings (their items are marked `joint_out`; tracks of
 * their trucks are added to base->placements).
 */
ss_status ss_joint_out_compute(const ss_description *description, ss_variant *base, ss_joint_out *out,
                               ss_error *error);
void ss_joint_out_destroy(ss_joint_out *out);

#endif
