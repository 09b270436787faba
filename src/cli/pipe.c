/* pipe.c - from the file through the layers: description, bridge, mesh, grillage, permanent load, trucks,
 * ratings. */
#include <math.h>

#include "base/try.h"
#include "cli/describe.h"
#include "cli/run.h"
#include "sillspan/method.h"

ss_status ss_pipe_check_rating(const ss_description *description, const ss_bridge *bridge,
                               ss_diag_list *diags) {
    const ss_node *rating = ss_node_child(description->root, "rating");
    const ss_where where = rating != NULL ? rating->where : description->root->where;
    const ss_rating_settings *settings = &bridge->rating;
    const bool factored = ss_method_asked(bridge, SS_METHOD_LRFR);
    ss_status status = SS_OK;
    if (factored && isnan(settings->condition)) {
        SS_TRY(ss_diag_add(
            diags, SS_FAULT, where, "rating.condition",
            "not given; a rating needs the condition of the members: \"good\", \"fair\", \"poor\", "
            "or a factor such as 0.95"));
    }
    if (factored && isnan(settings->system)) {
        SS_TRY(ss_diag_add(
            diags, SS_FAULT, where, "rating.system",
            "not given; a rating needs the system factor that the owner has decided on, from 0.85 "
            "(two main girders) to 1.00"));
    }
    if (bridge->rated_vehicle_count + bridge->run_count == 0) {
        SS_TRY(ss_diag_add(diags, SS_FAULT, where, "rating.trucks",
                           "no truck is asked for; name at least one, such as \"EV3\""));
    }
    status = diags->faults > 0 ? SS_ERROR_DESCRIPTION : SS_OK;
done:
    return status;
}

ss_status ss_pipe_read(ss_pipe *pipe, const ss_invocation *asked, ss_extent reach, ss_error *error) {
    ss_status status = SS_OK;
    const ss_node *variant = NULL;
    ss_diag_list said = {0};
    pipe->abreast = asked->abreast;
    SS_TRY(ss_describe_read(asked, &pipe->base, &pipe->diags, error));
    SS_TRY(ss_describe_pick(&pipe->base, asked->variant, &variant, &pipe->description, &pipe->diags));
    status = ss_bridge_resolve(&pipe->description, &pipe->whole.bridge, &said);
    if (status == SS_OK && reach == SS_RUN_RATING) {
        status = ss_pipe_check_rating(&pipe->description, &pipe->whole.bridge, &said);
    }
    if (status != SS_ERROR_MEMORY && ss_description_locate(variant, &said, &pipe->diags) != SS_OK) {
        status = SS_ERROR_MEMORY;
    }
done:
    ss_diag_destroy(&said);
    if (status == SS_ERROR_MEMORY) {
        ss_error_set(error, status, "%s", ss_status_text(status));
    }
    return status;
}

/* The effects but those that only a rating needs; their count. */
static int without_web(const ss_effect *effects, int count, ss_effect *out) {
    int kept = 0;
    for (int i = 0; i < count; i++) {
        if (effects[i].kind != SS_EFFECT_WEB_PLUS && effects[i].kind != SS_EFFECT_WEB_MINUS) {
            out[kept++] = effects[i];
        }
    }
    return kept;
}

/* What the page of a rating tells besides: how cars share a truck, what bearings and joints carry. */
static int few(const ss_bridge *bridge, const ss_effect *effects, int count, ss_effect *out) {
    int kept = 0;
    for (int i = 0; i < count; i++) {
        const ss_effect *const e = &effects[i];
        const bool girder = e->member == SS_MEMBER_LINE && bridge->lines[e->index].role == SS_ROLE_MAIN;
        const bool joint = e->member == SS_MEMBER_JOINT && e->kind == SS_EFFECT_SHEAR;
        if ((girder && e->kind == SS_EFFECT_MOMENT) || e->kind == SS_EFFECT_REACTION || joint) {
            out[kept++] = *e;
        }
    }
    return kept;
}

/* Beside ratings, which have lane loads and trucks abreast of their own, one truck alone is told of. */
static ss_envelope_extent extent_of(const ss_pipe *pipe, ss_extent reach) {
    if (reach >= SS_RUN_RATING) {
        return SS_EXTENT_AXLES;
    }
    return pipe->abreast ? SS_EXTENT_ALL : SS_EXTENT_ONE_TRUCK;
}

static ss_status analyze(ss_pipe *pipe, ss_extent reach, ss_error *error) {
    ss_status status = SS_OK;
    ss_effect *plain = NULL;
    ss_progress_stage(&pipe->progress, "dead load");
    SS_TRY(ss_variant_loads(&pipe->whole, error));
    SS_TRY(ss_cases_compute(&pipe->whole.permanent, &pipe->cases, error));
    ss_progress_stage(&pipe->progress, "trucks");
    const ss_envelope_options options = {.factors = {1.0, 1.0},
                                         .live_factor = 1.0,
                                         .extent = extent_of(pipe, reach),
                                         .progress = ss_progress_show,
                                         .context = &pipe->progress};
    plain = ss_alloc((size_t)pipe->whole.effect_count, sizeof *plain);
    SS_TRY(plain == NULL ? ss_error_set(error, SS_ERROR_MEMORY, "no memory for the effects") : SS_OK);
    const int count = reach >= SS_RUN_RATING
                          ? few(&pipe->whole.bridge, pipe->whole.effects, pipe->whole.effect_count, plain)
                          : without_web(pipe->whole.effects, pipe->whole.effect_count, plain);
    SS_TRY(ss_envelope_compute(&pipe->whole.permanent, &pipe->whole.placements, plain, count, &options,
                               &pipe->envelope, error));
    SS_TRY(ss_share_compute(&pipe->whole.permanent, &pipe->whole.placements, &pipe->envelope, &pipe->shares,
                            error));
done:
    ss_free(plain);
    return status;
}

static ss_status rate(ss_pipe *pipe, ss_error *error) {
    ss_status status = SS_OK;
    ss_method method;
    ss_progress_stage(&pipe->progress, "ratings");
    SS_TRY(ss_variant_rate(&pipe->whole, ss_progress_show, &pipe->progress, error));
    if (ss_posting_method(&pipe->whole.ratings, &method)) {
        pipe->posted = true;
        SS_TRY(ss_posting_compute(&pipe->whole.bridge, &pipe->whole.placements, &pipe->whole.ratings, method,
                                  pipe->whole.bridge.units, &pipe->posting, error));
    }
done:
    return status;
}

ss_status ss_pipe_rate(ss_pipe *pipe, ss_error *error) {
    ss_status status = SS_OK;
    SS_TRY(ss_variant_structure(&pipe->whole, error));
    SS_TRY(ss_variant_loads(&pipe->whole, error));
    SS_TRY(rate(pipe, error));
done:
    ss_progress_end(&pipe->progress);
    return status;
}

ss_status ss_pipe_compute(ss_pipe *pipe, ss_extent reach, ss_error *error) {
    ss_status status = SS_OK;
    SS_TRY(ss_variant_structure(&pipe->whole, error));
    if (reach >= SS_RUN_ANALYSIS) {
        SS_TRY(analyze(pipe, reach, error));
    }
    if (reach >= SS_RUN_RATING) {
        SS_TRY(rate(pipe, error));
        SS_TRY(ss_joint_out_compute(&pipe->description, &pipe->whole, &pipe->joint_out, error));
    }
done:
    ss_progress_end(&pipe->progress);
    return status;
}

ss_status ss_pipe_rerun(ss_pipe *pipe, const ss_invocation *asked, ss_error *error) {
    const ss_rerun_options options = {
        .cut_car = asked->cut, .progress = ss_progress_show, .context = &pipe->progress};
    ss_progress_stage(&pipe->progress, "reruns");
    const ss_status status =
        ss_reruns_compute(&pipe->description, &pipe->whole, &options, &pipe->reruns, error);
    ss_progress_end(&pipe->progress);
    return status;
}

ss_status ss_pipe_fatigue(ss_pipe *pipe, ss_error *error) {
    if (pipe->whole.bridge.fatigue.spot_count == 0) {
        return SS_OK;
    }
    ss_progress_stage(&pipe->progress, "fatigue");
    const ss_status status =
        ss_fatigue_compute(&pipe->description, &pipe->whole.bridge, &pipe->fatigue, error);
    ss_progress_end(&pipe->progress);
    return status;
}

ss_status ss_pipe_slab(ss_pipe *pipe, ss_error *error) {
    if (!pipe->whole.bridge.slab.given) {
        return SS_OK;
    }
    ss_status status = SS_OK;
    pipe->slab_checks.arena = &pipe->slab_arena;
    SS_TRY(ss_slab_casting_compute(&pipe->whole.permanent, &pipe->slab_arena, &pipe->slab_checks,
                                   &pipe->casting, error));
    SS_TRY(ss_slab_across_compute(&pipe->whole.permanent, &pipe->whole.ratings, &pipe->slab_arena,
                                  &pipe->slab_checks, &pipe->slab_across, error));
    SS_TRY(ss_slab_connectors_compute(&pipe->whole.permanent, &pipe->slab_arena, &pipe->slab_checks,
                                      &pipe->slab_connectors, error));
done:
    return status;
}

ss_status ss_pipe_moving(ss_pipe *pipe, ss_error *error) {
    ss_progress_stage(&pipe->progress, "page");
    const ss_status status =
        ss_moving_compute(&pipe->whole.permanent, SS_MOVING_BUDGET, &pipe->moving, &pipe->not_moving);
    ss_progress_end(&pipe->progress);
    return status == SS_ERROR_MEMORY ? ss_error_set(error, status, "no memory for the page's truck") : SS_OK;
}

void ss_pipe_destroy(ss_pipe *pipe) {
    ss_moving_destroy(&pipe->moving);
    ss_arena_destroy(&pipe->slab_arena);
    ss_fatigue_destroy(&pipe->fatigue);
    ss_reruns_destroy(&pipe->reruns);
    ss_joint_out_destroy(&pipe->joint_out);
    ss_posting_destroy(&pipe->posting);
    ss_share_destroy(&pipe->shares);
    ss_envelope_destroy(&pipe->envelope);
    ss_envelope_destroy(&pipe->along);
    ss_ratings_destroy(&pipe->rated_along);
    ss_cases_destroy(&pipe->cases);
    ss_variant_destroy(&pipe->whole);
    ss_description_destroy(&pipe->description);
    ss_description_destroy(&pipe->base);
    ss_diag_destroy(&pipe->diags);
    *pipe = (ss_pipe){0};
}
