/* compare.c - one of several bridges that are set side by side: from its description to all that is compared.
 */
#include "sillspan/compare.h"

#include "base/try.h"
#include "sillspan/memory.h"

static void begin(const ss_compare_options *options, const char *what) {
    if (options->stage != NULL) {
        options->stage(options->context, what);
    }
}

/* What is compared: bending and deflection of main girders, reactions, joints. */
static int compared_effects(const ss_bridge *bridge, const ss_effect *effects, int count, ss_effect *out) {
    int kept = 0;
    for (int i = 0; i < count; i++) {
        const ss_effect *const e = &effects[i];
        const bool girder = e->member == SS_MEMBER_LINE && bridge->lines[e->index].role == SS_ROLE_MAIN &&
                            (e->kind == SS_EFFECT_MOMENT || e->kind == SS_EFFECT_DEFLECTION);
        if (girder || e->kind == SS_EFFECT_REACTION || e->member == SS_MEMBER_JOINT) {
            out[kept++] = *e;
        }
    }
    return kept;
}

static ss_status respond(const ss_compare_options *options, ss_compared *out, ss_error *error) {
    const ss_variant *const whole = &out->whole;
    const ss_envelope_options extremes = {.factors = {1.0, 1.0},
                                          .live_factor = 1.0,
                                          .extent = options->abreast ? SS_EXTENT_ALL : SS_EXTENT_ONE_TRUCK,
                                          .progress = options->progress,
                                          .context = options->context};
    ss_status status = SS_OK;
    ss_effect *const effects = ss_alloc((size_t)whole->effect_count, sizeof *effects);
    SS_TRY(effects == NULL ? ss_error_set(error, SS_ERROR_MEMORY, "no memory for the effects") : SS_OK);
    const int count = compared_effects(&whole->bridge, whole->effects, whole->effect_count, effects);
    SS_TRY(ss_envelope_compute(&whole->permanent, &whole->placements, effects, count, &extremes,
                               &out->envelope, error));
    SS_TRY(ss_share_compute(&whole->permanent, &whole->placements, &out->envelope, &out->shares, error));
done:
    ss_free(effects);
    return status;
}

static ss_status rate(const ss_description *description, const ss_compare_options *options, ss_compared *out,
                      ss_error *error) {
    ss_variant *const whole = &out->whole;
    ss_status status = SS_OK;
    ss_method method;
    SS_TRY(ss_variant_rate(whole, options->progress, options->context, error));
    SS_TRY(ss_joint_out_compute(description, whole, &out->joint_out, error));
    if (ss_posting_method(&whole->ratings, &method)) {
        out->posted = true;
        SS_TRY(ss_posting_compute(&whole->bridge, &whole->placements, &whole->ratings, method,
                                  whole->bridge.units, &out->posting, error));
    }
done:
    return status;
}

ss_status ss_compare_one(const ss_description *description, const ss_compare_options *options,
                         ss_compared *out, ss_diag_list *diags, ss_error *error) {
    ss_status status = SS_OK;
    *out = (ss_compared){0};
    SS_TRY(ss_bridge_resolve(description, &out->whole.bridge, diags));
    begin(options, "dead load");
    SS_TRY(ss_variant_structure(&out->whole, error));
    SS_TRY(ss_variant_loads(&out->whole, error));
    if (options->response) {
        begin(options, "trucks");
        SS_TRY(respond(options, out, error));
    }
    if (options->rating) {
        begin(options, "ratings");
        SS_TRY(rate(description, options, out, error));
    }
done:
    if (status != SS_OK) {
        ss_compared_destroy(out);
    }
    return status;
}

void ss_compared_destroy(ss_compared *compared) {
    ss_posting_destroy(&compared->posting);
    ss_joint_out_destroy(&compared->joint_out);
    ss_share_destroy(&compared->shares);
    ss_envelope_destroy(&compared->envelope);
    ss_variant_destroy(&compared->whole);
    *compared = (ss_compared){0};
}
