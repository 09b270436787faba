/* variant.h - a bridge with everything that is computed of it, and descriptions changed a little. */
#ifndef SILLSPAN_VARIANT_H
#define SILLSPAN_VARIANT_H

#include "sillspan/ratings.h"

/** The pipe from a resolved bridge to its ratings. A zeroed struct is empty; parts point into each other, so
 * that it stays where it is. */
typedef struct ss_variant {
    ss_bridge bridge;
    ss_mesh mesh;
    ss_grillage *grillage;
    ss_permanent permanent;
    ss_placements placements;
    ss_effect *effects;
    int effect_count;
    ss_ratings ratings;
} ss_variant;

/** Mesh and factored grillage of variant->bridge. */
ss_status ss_variant_structure(ss_variant *variant, ss_error *error);
/** Dead load, places of trucks, and the effects that are looked at. */
ss_status ss_variant_loads(ss_variant *variant, ss_error *error);
/** Ratings; `progress` may be NULL. */
ss_status ss_variant_rate(ss_variant *variant, void (*progress)(void *context, double done), void *context,
                          ss_error *error);
void ss_variant_destroy(ss_variant *variant);

/** What of a rating is asked again of a changed bridge. */
typedef struct ss_variant_asks {
    int vehicle;      /**< in the bridge: only its crossings that are no alternatives; -1: all */
    ss_method method; /**< only this one, without deflection; with vehicle -1 not looked at */
} ss_variant_asks;

/**
 * Resolves a changed description and rates it. Remarks go to `diags`. SS_ERROR_DESCRIPTION: no bridge comes
 * of it; SS_ERROR_MECHANISM and SS_ERROR_TIPPING: it does not stand.
 */
ss_status ss_variant_of(const ss_description *description, const ss_variant_asks *asks, ss_variant *out,
                        ss_diag_list *diags, ss_error *error);

#endif
