/* variant.c - a bridge with everything that is computed of it. */
#include "sillspan/variant.h"

#include "base/try.h"
#include "sillspan/memory.h"

ss_status ss_variant_structure(ss_variant *variant, ss_error *error) {
    const ss_mesh_options options = {.joints = true, .refine = 1};
    const ss_status status = ss_mesh_build(&variant->bridge, options, &variant->mesh, error);
    return status == SS_OK ? ss_grillage_create(&variant->mesh, &variant->grillage, error) : status;
}

ss_status ss_variant_loads(ss_variant *variant, ss_error *error) {
    ss_status status = SS_OK;
    SS_TRY(ss_permanent_compute(&variant->bridge, variant->grillage, &variant->permanent, error));
    SS_TRY(ss_placements_build(&variant->mesh, &variant->placements, error));
    SS_TRY(ss_envelope_effects(&variant->mesh, &variant->effects, &variant->effect_count, error));
done:
    return status;
}

ss_status ss_variant_rate(ss_variant *variant, void (*progress)(void *context, double done), void *context,
                          ss_error *error) {
    return ss_ratings_compute(&variant->permanent, &variant->placements, variant->effects,
                              variant->effect_count, progress, context, &variant->ratings, error);
}

void ss_variant_destroy(ss_variant *variant) {
    ss_ratings_destroy(&variant->ratings);
    ss_free(variant->effects);
    ss_placements_destroy(&variant->placements);
    ss_permanent_destroy(&variant->permanent);
    ss_grillage_destroy(variant->grillage);
    ss_mesh_destroy(&variant->mesh);
    ss_bridge_destroy(&variant->bridge);
    *variant = (ss_variant){0};
}

/* Leaves the crossings of one vehicle, and one method. */
static void narrow(ss_bridge *bridge, const ss_variant_asks *asks) {
    int kept = 0;
    if (asks->vehicle < 0) {
        return;
    }
    for (int i = 0; i < bridge->crossing_count; i++) {
        if (bridge->crossings[i].vehicle == asks->vehicle && !bridge->crossings[i].alternative) {
            bridge->crossings[kept++] = bridge->crossings[i];
        }
    }
    bridge->crossing_count = kept;
    bridge->run_count = 0;
    bridge->rating.methods = 1U << asks->method;
    bridge->rating.deflection_limit = 0.0;
}

ss_status ss_variant_of(const ss_description *description, const ss_variant_asks *asks, ss_variant *out,
                        ss_diag_list *diags, ss_error *error) {
    ss_status status = SS_OK;
    *out = (ss_variant){0};
    SS_TRY(ss_bridge_resolve(description, &out->bridge, diags));
    narrow(&out->bridge, asks);
    SS_TRY(ss_variant_structure(out, error));
    SS_TRY(ss_variant_loads(out, error));
    SS_TRY(ss_variant_rate(out, NULL, NULL, error));
done:
    if (status != SS_OK) {
        ss_variant_destroy(out);
    }
    return status;
}
