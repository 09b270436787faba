/* pipe_along.c - what figures along the main girders are made of. */
#include "base/try.h"
#include "cli/run.h"
#include "sillspan/memory.h"

static bool is_wanted(const ss_bridge *bridge, const ss_effect *effect, const ss_effect_kind *kinds,
                      int count) {
    bool asked = false;
    for (int i = 0; i < count; i++) {
        asked = asked || effect->kind == kinds[i];
    }
    return asked && effect->member == SS_MEMBER_LINE && bridge->lines[effect->index].role == SS_ROLE_MAIN;
}

ss_status ss_pipe_along(ss_pipe *pipe, const ss_effect_kind *kinds, int count, ss_error *error) {
    ss_status status = SS_OK;
    const ss_variant *const whole = &pipe->whole;
    int wanted_count = 0;
    const ss_envelope_options options = {.factors = {1.0, 1.0},
                                         .live_factor = 1.0,
                                         .extent = SS_EXTENT_ONE_TRUCK,
                                         .progress = ss_progress_show,
                                         .context = &pipe->progress};
    ss_effect *const wanted = ss_alloc((size_t)whole->effect_count, sizeof *wanted);
    SS_TRY(wanted == NULL ? ss_error_set(error, SS_ERROR_MEMORY, "no memory for the effects") : SS_OK);
    for (int i = 0; i < whole->effect_count; i++) {
        if (is_wanted(&whole->bridge, &whole->effects[i], kinds, count)) {
            wanted[wanted_count++] = whole->effects[i];
        }
    }
    ss_progress_stage(&pipe->progress, "trucks along the girders");
    SS_TRY(ss_envelope_compute(&whole->permanent, &whole->placements, wanted, wanted_count, &options,
                               &pipe->along, error));
done:
    ss_progress_end(&pipe->progress);
    ss_free(wanted);
    return status;
}
