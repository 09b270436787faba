/* compare.h - one of several bridges that are set side by side: all that is compared of it. */
#ifndef SILLSPAN_COMPARE_H
#define SILLSPAN_COMPARE_H

#include "sillspan/joint_out.h"
#include "sillspan/posting.h"

/** What is computed of each. */
typedef struct ss_compare_options {
    bool response; /**< what trucks do: bending and deflection of main girders, reactions, joints, sharing */
    bool rating;   /**< factors and posting */
    bool abreast;  /**< the response has trucks abreast too */
    void (*stage)(void *context, const char *what); /**< a step begins; or NULL */
    void (*progress)(void *context, double done);   /**< 0 to 1 of that step; or NULL */
    void *context;
} ss_compare_options;

/** One bridge; a zeroed struct is empty. Parts point into each other, so that it stays where it is. */
typedef struct ss_compared {
    ss_variant whole;
    ss_envelope envelope; /**< live effects per unit truck, as `analyze` has them; empty without response */
    ss_share_list shares;
    ss_joint_out joint_out;
    bool posted; /**< it can be posted by some method that was rated */
    ss_posting posting;
} ss_compared;

/**
 * Resolves a checked description and computes what `options` ask for. It touches nothing but its arguments.
 * Remarks go to `diags`. SS_ERROR_DESCRIPTION: no bridge comes of it; SS_ERROR_MECHANISM and
 * SS_ERROR_TIPPING: it does not stand. `out` is empty after a failure.
 */
ss_status ss_compare_one(const ss_description *description, const ss_compare_options *options,
                         ss_compared *out, ss_diag_list *diags, ss_error *error);
void ss_compared_destroy(ss_compared *compared);

#endif
