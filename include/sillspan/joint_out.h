/* joint_out.h - ratings that rely on a joint beyond what it can carry, replaced by those with the joint out.
 */
#ifndef SILLSPAN_JOINT_OUT_H
#define SILLSPAN_JOINT_OUT_H

#include "sillspan/variant.h"

/** One crossing by one check whose joint is full before the members are. */
typedef struct ss_joint_reliance {
    int check, traffic;
    int joint;      /**< rating item of the joint, of a check that looks at joints */
    double full;    /**< the joint's factor, as this check counts the truck */
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
 * A rating that relies on a joint holds only while the joint carries what it is asked at that rating, also by
 * a check that does not look at joints, such as of stress in service: what counts is the truck itself. Where
 * a joint with a given capacity is full first, the bridge is rated with all such joints out, and its
 * governing factors take the place of those in base->ratings (their items are marked `joint_out`; tracks of
 * their trucks are added to base->placements).
 */
ss_status ss_joint_out_compute(const ss_description *description, ss_variant *base, ss_joint_out *out,
                               ss_error *error);

/** How the bridge without some of its joints is rated: `out` (joint_count) says which. `rate` gives what
 * ss_variant_of does; of the bridge only the ratings and the tracks are read. */
typedef struct ss_joint_out_rater {
    ss_status (*rate)(void *context, const ss_description *description, const bool *out, ss_variant *variant,
                      ss_diag_list *diags, ss_error *error);
    void *context;
} ss_joint_out_rater;

/** The same with another way of rating. */
ss_status ss_joint_out_compute_by(const ss_joint_out_rater *rater, const ss_description *description,
                                  ss_variant *base, ss_joint_out *out, ss_error *error);
void ss_joint_out_destroy(ss_joint_out *out);

#endif
