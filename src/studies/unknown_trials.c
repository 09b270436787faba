/* unknown_trials.c - the bridge of a description as an evaluator of its unknowns, and the studies with it. */
#include "sillspan/unknown_trials.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"

/* N in a ton of 2000 lb. */
#define TON (2000.0 * 4.4482216152605)

static const ss_answer answers[SS_UNKNOWN_ANSWERS] = {
    {"rf", "controlling rating", SS_DIM_NUMBER},
    {"tons_single", "sign: tons, single-unit trucks", SS_DIM_NUMBER},
    {"tons_combination", "sign: tons, combinations", SS_DIM_NUMBER},
    {"tons_farm", "sign: tons, farm vehicles", SS_DIM_NUMBER},
    {"tons_emergency", "sign: tons, emergency vehicles", SS_DIM_NUMBER},
};

/* ---- the evaluator -------------------------------------------------------------------------------- */

static ss_status change(void *context, int index, ss_description *description, ss_diag_list *diags) {
    const ss_unknown_trials *const t = context;
    return ss_unknowns_apply(t->set, t->points + (size_t)index * (size_t)t->set->count, description, diags);
}

static void read_trial(const ss_trial *trial, double *out) {
    const bool posted = trial->failure == NULL && trial->posting != SS_POSTING_UNKNOWN;
    out[0] = trial->failure == NULL ? trial->rf : SS_NAN;
    for (int g = 0; g < SS_POSTING_GROUPS; g++) {
        out[1 + g] = posted ? trial->sign[g] / TON : SS_NAN;
    }
    out[1 + SS_POSTING_GROUPS] = posted ? trial->emergency / TON : SS_NAN;
}

static ss_status evaluate(void *context, int count, const double *points, double *values, ss_error *error) {
    ss_unknown_trials *const t = context;
    int done = 0;
    ss_arena_destroy(&t->arena);
    t->points = points;
    t->answers = ss_arena_alloc(&t->arena, (size_t)count, sizeof *t->answers);
    if (t->answers == NULL) {
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the runs");
    }
    const ss_status status = ss_trials_run(&t->trials, change, t, count, &t->arena, t->answers, &done, error);
    for (int i = 0; i < count && status == SS_OK; i++) {
        read_trial(&t->answers[i], values + (size_t)i * SS_UNKNOWN_ANSWERS);
    }
    return status;
}

static const char *failure(void *context, int i) {
    const ss_unknown_trials *const t = context;
    return t->answers[i].failure;
}

/* ---- full searches -------------------------------------------------------------------------------- */

/* `point` NULL: as described. *rf is NaN where there is no rating; *why may be NULL. */
static ss_status search(ss_unknown_trials *t, const double *point, double *rf, ss_error *why,
                        ss_error *error) {
    ss_trial trial = {0};
    ss_arena arena = {0};
    t->points = point;
    const ss_status status =
        ss_trials_anchor(&t->trials, point == NULL ? NULL : change, t, 0, &arena, &trial, error);
    if (status == SS_OK) {
        *rf = trial.failure == NULL ? trial.rf : SS_NAN;
        t->searched += trial.failure == NULL;
        if (trial.failure != NULL && why != NULL) {
            ss_error_set(why, SS_ERROR_CHECK, "%s", trial.failure);
        }
    }
    ss_arena_destroy(&arena);
    return status;
}

static bool stopped(const ss_unknown_trials *t) {
    return t->watch.stop != NULL && t->watch.stop(t->watch.context);
}

ss_status ss_unknown_trials_begin(const ss_description *description, const ss_unknown_set *set,
                                  const ss_study_watch *watch, ss_unknown_trials *out, ss_error *error) {
    ss_status status = SS_OK;
    const ss_trial_options options = {.follow = false};
    double point[SS_UNKNOWNS] = {0.0};
    double unused = 0.0;
    ss_error why = {0};
    *out = (ss_unknown_trials){.set = set, .watch = *watch};
    out->evaluator = (ss_evaluator){answers, SS_UNKNOWN_ANSWERS, evaluate, failure, out};
    ss_trials_begin(description, &options, &out->trials);
    SS_TRY(search(out, NULL, &out->described, &why, error));
    if (isnan(out->described)) {
        status =
            ss_error_set(error, SS_ERROR_CHECK, "the bridge as described has no rating: %s", why.message);
        goto done;
    }
    for (int end = 0; end < 2 && !stopped(out); end++) {
        for (int j = 0; j < set->count; j++) {
            point[j] = ss_unknown_at(&set->items[j], end);
        }
        SS_TRY(search(out, point, &unused, NULL, error));
    }
done:
    if (status != SS_OK) {
        ss_unknown_trials_end(out);
    }
    return status;
}

void ss_unknown_trials_end(ss_unknown_trials *trials) {
    ss_trials_end(&trials->trials);
    ss_arena_destroy(&trials->arena);
    *trials = (ss_unknown_trials){0};
}

/* ---- the studies ---------------------------------------------------------------------------------- */

static bool is_off(double found, double full) {
    return !isnan(full) && !ss_close(found, full, SS_UNKNOWN_OFF);
}

ss_status ss_unknown_trials_bounds(ss_unknown_trials *trials, int runs, ss_bounds *out, double full[2],
                                   ss_error *error) {
    const ss_bounds_options options = {.runs = runs, .watch = trials->watch};
    for (int round = 0;; round++) {
        bool off = false;
        ss_status status = ss_bounds_compute(trials->set, &trials->evaluator, &options, out, error);
        if (status != SS_OK) {
            return status;
        }
        full[0] = full[1] = SS_NAN;
        for (int side = 0; side < 2 && status == SS_OK && out->ends[side].point != NULL && !stopped(trials);
             side++) {
            status = search(trials, out->ends[side].point, &full[side], NULL, error);
            off = off || is_off(out->ends[side].answers[0], full[side]);
        }
        if (status == SS_OK && (!off || round > 0)) {
            return SS_OK;
        }
        ss_bounds_destroy(out);
        if (status != SS_OK) {
            return status;
        }
    }
}

/* The draw with the least rating, or -1. */
static int least_draw(const ss_sample *sample) {
    int least = -1;
    for (int i = 0; i < sample->done; i++) {
        const double rf = sample->values[(size_t)i * SS_UNKNOWN_ANSWERS];
        if (!isnan(rf) && (least < 0 || rf < sample->values[(size_t)least * SS_UNKNOWN_ANSWERS])) {
            least = i;
        }
    }
    return least;
}

/* Draws for each process between two questions whether to stop. */
enum { BATCH = 32 };

void ss_unknown_trials_share(ss_unknown_trials *trials, const ss_workers *workers, int processes) {
    trials->trials.options.workers = workers;
    trials->batch = BATCH * processes;
}

static bool is_helper(const ss_unknown_trials *trials) {
    return trials->trials.options.workers != NULL && trials->trials.options.workers->rank > 0;
}

ss_status ss_unknown_trials_sample(ss_unknown_trials *trials, int draws, uint64_t seed, ss_sample *out,
                                   double *full, ss_error *error) {
    const ss_sample_options options = {
        .draws = draws, .seed = seed, .limit = SS_NAN, .batch = trials->batch, .watch = trials->watch};
    for (int round = 0;; round++) {
        ss_status status = ss_sample_compute(trials->set, &trials->evaluator, &options, out, error);
        if (status != SS_OK) {
            return status;
        }
        if (is_helper(trials)) {
            return SS_OK;
        }
        /* What comes now hangs on results that only this process has. */
        trials->trials.options.workers = NULL;
        *full = SS_NAN;
        const int least = least_draw(out);
        if (least < 0 || stopped(trials)) {
            return SS_OK;
        }
        status = search(trials, out->points + (size_t)least * (size_t)trials->set->count, full, NULL, error);
        const bool off = status == SS_OK && is_off(out->values[(size_t)least * SS_UNKNOWN_ANSWERS], *full);
        if (status == SS_OK && (!off || round > 0)) {
            return SS_OK;
        }
        ss_sample_destroy(out);
        if (status != SS_OK) {
            return status;
        }
    }
}
