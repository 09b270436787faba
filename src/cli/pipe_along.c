/* pipe_along.c - what figures along the lines are made of: one truck's effects, and rating factors. */
#include "base/try.h"
#include "cli/drawn.h"
#include "report/report_ratings.h"
#include "sillspan/memory.h"

static bool is_wanted(const ss_pipe *pipe, const ss_invocation *asked, const ss_effect *effect,
                      const ss_effect_kind *kinds, int count) {
    bool wanted = false;
    for (int i = 0; i < count; i++) {
        wanted = wanted || effect->kind == kinds[i];
    }
    return wanted && effect->member == SS_MEMBER_LINE && ss_drawn_line(pipe, asked, effect->index);
}

ss_status ss_pipe_along(ss_pipe *pipe, const ss_invocation *asked, const ss_effect_kind *kinds, int count,
                        ss_error *error) {
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
        if (is_wanted(pipe, asked, &whole->effects[i], kinds, count)) {
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

/* The traffic that a girder rates least under, in bending or in web shear; -1: it is not rated, or no girder.
 */
static int governing_traffic(const ss_results *results, const ss_effect *effect) {
    const ss_ratings *const ratings = results->rated;
    const ss_rating_item *least = NULL;
    const bool bending = effect->kind == SS_EFFECT_MOMENT;
    const bool web = effect->kind == SS_EFFECT_WEB_PLUS || effect->kind == SS_EFFECT_WEB_MINUS;
    ss_method methods[3];
    if (effect->member != SS_MEMBER_LINE || (!bending && !web) ||
        results->bridge->lines[effect->index].role == SS_ROLE_STRINGER ||
        ss_rated_methods(ratings, methods) == 0) {
        return -1;
    }
    for (int i = 0; i < ratings->count; i++) {
        const ss_rating_item *const item = &ratings->items[i];
        if (item->effect.member == SS_MEMBER_LINE && item->effect.index == effect->index &&
            item->effect.kind != SS_EFFECT_DEFLECTION && (item->effect.kind == SS_EFFECT_MOMENT) == bending &&
            ratings->checks[item->check].method == methods[0] &&
            ss_rated_governs(results, item->check, item->traffic) &&
            (least == NULL || ss_rated_less(item->rf, least->rf))) {
            least = item;
        }
    }
    return least == NULL ? -1 : least->traffic;
}

ss_status ss_pipe_rate_along(ss_pipe *pipe, const ss_invocation *asked, ss_error *error) {
    ss_status status = SS_OK;
    const ss_variant *const whole = &pipe->whole;
    const ss_results results = ss_run_results(pipe, asked, SS_RUN_RATING);
    int count = 0;
    ss_effect *const wanted = ss_alloc((size_t)whole->effect_count, sizeof *wanted);
    int *const traffics = ss_alloc((size_t)whole->effect_count, sizeof *traffics);
    SS_TRY(wanted == NULL || traffics == NULL
               ? ss_error_set(error, SS_ERROR_MEMORY, "no memory for the effects")
               : SS_OK);
    for (int i = 0; i < whole->effect_count; i++) {
        const int traffic = governing_traffic(&results, &whole->effects[i]);
        if (traffic >= 0) {
            wanted[count] = whole->effects[i];
            traffics[count++] = traffic;
        }
    }
    if (count > 0) {
        ss_progress_stage(&pipe->progress, "ratings along the girders");
        SS_TRY(ss_ratings_along(&whole->permanent, &whole->placements, wanted, traffics, count,
                                &pipe->rated_along, error));
    }
done:
    ss_progress_end(&pipe->progress);
    ss_free(traffics);
    ss_free(wanted);
    return status;
}
