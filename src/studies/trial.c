/* trial.c - many variants of one bridge: a few searched in full, the others rated at the places those found.
 */
#include "sillspan/trial.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "sillspan/joint_out.h"
#include "sillspan/memory.h"
#include "studies/changes.h"
#include "studies/trial_parts.h"

void ss_trials_begin(const ss_description *base, const ss_trial_options *options, ss_trials *out) {
    *out = (ss_trials){.base = base, .options = *options};
}

void ss_trials_end(ss_trials *trials) {
    ss_follow_destroy(&trials->follow);
    ss_watch_destroy(&trials->watch);
    *trials = (ss_trials){0};
}

/* ---- a changed description -------------------------------------------------------------------------- */

/* A copy of the base with the change made; faults in `diags`. */
static ss_status change_base(const ss_trials *trials, ss_trial_change change, void *context, int index,
                             ss_description *out, ss_diag_list *diags) {
    ss_status status = ss_change_copy(trials->base, out);
    if (status != SS_OK) {
        return status;
    }
    if (change != NULL) {
        status = change(context, index, out, diags);
    }
    if (status == SS_OK || status == SS_ERROR_DESCRIPTION) {
        const ss_status checked = diags->faults > 0 ? SS_ERROR_DESCRIPTION : ss_description_check(out, diags);
        status = status == SS_OK ? checked : status;
    }
    if (status != SS_OK) {
        ss_description_destroy(out);
    }
    return status;
}

/* What a rating needs and no description may leave out; else the words. */
static const char *unratable(const ss_bridge *bridge) {
    if (bridge->rated_vehicle_count + bridge->run_count == 0) {
        return "no truck is asked for: rating.trucks";
    }
    if (ss_method_asked(bridge, SS_METHOD_LRFR) &&
        (isnan(bridge->rating.condition) || isnan(bridge->rating.system))) {
        return "rating.condition and rating.system are not given, and are never guessed";
    }
    return NULL;
}

/* Bridge, grillage and dead load, without places of trucks. */
static ss_status stand_up(const ss_description *description, ss_variant *out, ss_diag_list *diags,
                          ss_error *error) {
    ss_status status = SS_OK;
    *out = (ss_variant){0};
    SS_TRY(ss_bridge_resolve(description, &out->bridge, diags));
    const char *const why = unratable(&out->bridge);
    SS_TRY(why == NULL ? SS_OK : ss_error_set(error, SS_ERROR_DESCRIPTION, "%s", why));
    SS_TRY(ss_variant_structure(out, error));
    SS_TRY(ss_permanent_compute(&out->bridge, out->grillage, &out->permanent, error));
done:
    return status;
}

/* ---- at the watched places -------------------------------------------------------------------------- */

/* One that is tried. */
typedef struct attempt {
    const ss_trials *trials;
    ss_watch_value *values; /* of the bridge with its joints; NULL: not wanted */
    int joint_count;        /* of the bridge */
    uint64_t *without;      /* the joints it is rated without; may be NULL */
} attempt;

ss_status ss_trial_traffic(const ss_watch *watch, ss_variant *v, ss_error *error) {
    const size_t count = (size_t)watch->placements.traffic_count;
    v->placements.traffic = ss_alloc(count + 1, sizeof *v->placements.traffic);
    if (v->placements.traffic == NULL) {
        return ss_no_memory(error);
    }
    memcpy(v->placements.traffic, watch->placements.traffic, count * sizeof *v->placements.traffic);
    v->placements.traffic_count = (int)count;
    return SS_OK;
}

/* See ss_joint_out_rater. */
static ss_status rate_watched(void *context, const ss_description *description, const bool *taken,
                              ss_variant *out, ss_diag_list *diags, ss_error *error) {
    const attempt *const a = context;
    const ss_watch *const watch = &a->trials->watch;
    ss_watch_value *own = NULL;
    ss_status status = SS_OK;
    if (taken != NULL && a->without != NULL) {
        *a->without = ss_trial_out_bits(taken, a->joint_count);
    }
    SS_TRY(stand_up(description, out, diags, error));
    own = a->values != NULL ? a->values : ss_alloc((size_t)watch->item_count + 1, sizeof *own);
    SS_TRY(own == NULL ? ss_no_memory(error) : SS_OK);
    SS_TRY(ss_watch_compute(watch, out, own, error));
    SS_TRY(ss_trial_traffic(watch, out, error));
    SS_TRY(ss_watch_ratings(watch, out, own, &out->ratings, error));
done:
    if (own != a->values) {
        ss_free(own);
    }
    if (status != SS_OK) {
        ss_variant_destroy(out);
    }
    return status;
}

static ss_status try_watched(const ss_trials *trials, const ss_description *description, ss_arena *arena,
                             ss_trial *out, ss_diag_list *diags, ss_error *error) {
    uint64_t out_bits = 0;
    attempt with = {.trials = trials,
                    .values = ss_alloc((size_t)trials->watch.item_count + 1, sizeof *with.values)};
    attempt without = {.trials = trials, .without = &out_bits};
    const ss_joint_out_rater rater = {rate_watched, &without};
    ss_variant variant = {0};
    ss_joint_out joints = {0};
    ss_status status = SS_OK;
    SS_TRY(with.values == NULL ? ss_no_memory(error) : SS_OK);
    SS_TRY(rate_watched(&with, description, NULL, &variant, diags, error));
    without.joint_count = variant.bridge.joint_count;
    SS_TRY(ss_joint_out_compute_by(&rater, description, &variant, &joints, error));
    SS_TRY(ss_trial_sum_up(trials, &variant, with.values, arena, out, error));
    out->without = out_bits;
done:
    ss_joint_out_destroy(&joints);
    ss_variant_destroy(&variant);
    ss_free(with.values);
    return status;
}

/* ---- in full ---------------------------------------------------------------------------------------- */

/* See ss_joint_out_rater: searches, and watches what it finds. `trials` may be written, or is not watched. */
typedef struct searched {
    ss_trials *trials;
    bool watches;
    int joint_count; /* of the bridge */
} searched;

static ss_status search(void *context, const ss_description *description, const bool *taken, ss_variant *out,
                        ss_diag_list *diags, ss_error *error) {
    const searched *const s = context;
    (void)taken;
    ss_trials *const trials = s->trials;
    ss_status status = SS_OK;
    *out = (ss_variant){0};
    SS_TRY(ss_bridge_resolve(description, &out->bridge, diags));
    const char *const why = unratable(&out->bridge);
    SS_TRY(why == NULL ? SS_OK : ss_error_set(error, SS_ERROR_DESCRIPTION, "%s", why));
    SS_TRY(ss_variant_structure(out, error));
    SS_TRY(ss_variant_loads(out, error));
    SS_TRY(ss_variant_rate(out, NULL, NULL, error));
    if (s->watches) {
        SS_TRY(ss_watch_add(&trials->watch, out, SS_WATCH_WITHIN, error));
    }
done:
    if (status != SS_OK) {
        ss_variant_destroy(out);
    }
    return status;
}

/* A bridge without joints that was searched before is rated at the places found there. */
static ss_status search_once(void *context, const ss_description *description, const bool *taken,
                             ss_variant *out, ss_diag_list *diags, ss_error *error) {
    const searched *const s = context;
    attempt known = {.trials = s->trials};
    const uint64_t without = ss_trial_out_bits(taken, s->joint_count);
    if (s->watches && ss_trial_out_searched(s->trials, without)) {
        return rate_watched(&known, description, taken, out, diags, error);
    }
    const ss_status status = search(context, description, taken, out, diags, error);
    if (status != SS_ERROR_MEMORY && s->watches) { /* one that cannot be rated will not be better */
        ss_trial_out_note(s->trials, without);
    }
    return status;
}

static ss_status try_in_full(ss_trials *trials, bool watches, const ss_description *description,
                             ss_arena *arena, ss_trial *out, ss_diag_list *diags, ss_error *error) {
    searched all = {trials, watches, 0};
    const ss_joint_out_rater rater = {search_once, &all};
    ss_variant variant = {0};
    ss_joint_out joints = {0};
    ss_watch_value *values = NULL;
    ss_status status = SS_OK;
    SS_TRY(search(&all, description, NULL, &variant, diags, error));
    all.joint_count = variant.bridge.joint_count;
    if (trials->anchor_count == 0) {
        trials->truck_count = variant.bridge.rated_vehicle_count;
    }
    if (watches && trials->options.follow) {
        SS_TRY(ss_follow_add(&trials->follow, &trials->watch, &variant, NULL, NULL, error));
        values = ss_alloc((size_t)trials->watch.item_count + 1, sizeof *values);
        SS_TRY(values == NULL ? ss_no_memory(error) : SS_OK);
        SS_TRY(ss_watch_compute(&trials->watch, &variant, values, error));
    }
    SS_TRY(ss_joint_out_compute_by(&rater, description, &variant, &joints, error));
    SS_TRY(ss_trial_sum_up(trials, &variant, values, arena, out, error));
    out->full = true;
done:
    ss_joint_out_destroy(&joints);
    ss_variant_destroy(&variant);
    ss_free(values);
    return status;
}

/* ---- public ----------------------------------------------------------------------------------------- */

/* What is wrong with the variant is its result; the rest ends the study. */
static ss_status conclude(const ss_trials *trials, ss_status status, const ss_error *why,
                          const ss_diag_list *diags, ss_arena *arena, ss_trial *out, ss_error *error) {
    if (status != SS_OK && status != SS_ERROR_MEMORY) {
        status = ss_trial_fail(trials, status, why, diags, arena, out);
    }
    return status == SS_ERROR_MEMORY ? ss_no_memory(error) : status;
}

ss_status ss_trials_anchor(ss_trials *trials, ss_trial_change change, void *context, int index,
                           ss_arena *arena, ss_trial *out, ss_error *error) {
    ss_description changed = {0};
    ss_diag_list diags = {0};
    ss_error why = {0};
    ss_status status = change_base(trials, change, context, index, &changed, &diags);
    if (status == SS_OK) {
        status = try_in_full(trials, true, &changed, arena, out, &diags, &why);
        if (status == SS_ERROR_LIMIT && trials->anchor_count > 0) { /* of other trucks */
            why = (ss_error){0};
            status = try_in_full(trials, false, &changed, arena, out, &diags, &why);
        }
        trials->anchor_count += status == SS_OK;
        ss_description_destroy(&changed);
    }
    status = conclude(trials, status, &why, &diags, arena, out, error);
    ss_diag_destroy(&diags);
    return status;
}

typedef struct run {
    ss_trials *trials;
    ss_trial_change change;
    void *context;
    ss_arena *arena;
    ss_trial *out;
    int count, done;
} run;

static ss_status compute(void *context, int index, ss_text *out, ss_error *error) {
    const run *const r = context;
    ss_arena arena = {0};
    ss_description changed = {0};
    ss_diag_list diags = {0};
    ss_error why = {0};
    ss_trial trial;
    ss_status status = change_base(r->trials, r->change, r->context, index, &changed, &diags);
    if (status == SS_OK) {
        status = r->trials->options.full ? SS_ERROR_LIMIT
                                         : try_watched(r->trials, &changed, &arena, &trial, &diags, &why);
        if (status == SS_ERROR_LIMIT) {
            why = (ss_error){0};
            status = try_in_full(r->trials, false, &changed, &arena, &trial, &diags, &why);
        }
        ss_description_destroy(&changed);
    }
    status = conclude(r->trials, status, &why, &diags, &arena, &trial, error);
    if (status == SS_OK && !ss_trial_pack(r->trials, &trial, out)) {
        status = ss_no_memory(error);
    }
    ss_diag_destroy(&diags);
    ss_arena_destroy(&arena);
    return status;
}

static ss_status take(void *context, int index, const ss_text *result, ss_error *error) {
    run *const r = context;
    if (!ss_trial_unpack(r->trials, result, r->arena, &r->out[index])) {
        return ss_no_memory(error);
    }
    r->done = index + 1;
    if (r->trials->options.progress != NULL) {
        r->trials->options.progress(r->trials->options.context, "variants", (double)r->done / r->count);
    }
    return SS_OK;
}

static bool stops(void *context) {
    const ss_trial_options *const options = &((run *)context)->trials->options;
    return options->stop != NULL && options->stop(options->context);
}

ss_status ss_trials_run(ss_trials *trials, ss_trial_change change, void *context, int count, ss_arena *arena,
                        ss_trial *out, int *done, ss_error *error) {
    run r = {trials, change, context, arena, out, count, 0};
    const ss_work work = {.count = count, .item = compute, .taken = take, .stop = stops, .context = &r};
    const ss_status status = ss_work_run(trials->options.workers, &work, error);
    if (done != NULL) {
        *done = r.done;
    }
    return status;
}
