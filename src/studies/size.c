/* size.c - a search for a concrete deck: a few options in full, the others where trucks govern there. */
#include "sillspan/size.h"

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "sillspan/method.h"
#include "studies/size_parts.h"

/* Times that a chosen deck may turn out not to pass. */
enum { CHOICES_MOST = 8 };

typedef struct study {
    ss_size *size;
    const ss_description *base;
    const ss_bridge *bridge;
    const ss_size_watch *watch;
    ss_trials trials;
    double weight; /* of the bridge as it is */
    int anchored, anchors;
    ss_error *error;
} study;

static ss_status change(void *context, int index, ss_description *description, ss_diag_list *diags) {
    const study *const s = context;
    return ss_size_change(s->size, &s->size->options[index], s->base, description, diags);
}

static ss_status change_deck(void *context, int index, ss_description *description, ss_diag_list *diags) {
    return change(context, index + 1, description, diags);
}

static ss_status inspect(void *context, const ss_variant *variant, ss_text *out, ss_error *error) {
    const study *const s = context;
    return ss_size_inspect(s->size->sizing, variant, out, error);
}

static bool stops(void *context) {
    const study *const s = context;
    return s->watch->stop != NULL && s->watch->stop(s->watch->context);
}

static void show(void *context, const char *what, double done) {
    const study *const s = context;
    (void)what;
    if (s->watch->progress != NULL) {
        s->watch->progress(s->watch->context, "decks", done);
    }
}

/* ---- in full ---------------------------------------------------------------------------------------- */

static ss_status search(study *s, int index) {
    ss_trial trial;
    ss_arena arena = {0};
    ss_status status = SS_OK;
    if (s->watch->progress != NULL && s->anchors > 0) {
        s->watch->progress(s->watch->context, "full searches", (double)s->anchored / s->anchors);
    }
    s->anchored++;
    SS_TRY(ss_trials_anchor(&s->trials, change, s, index, &arena, &trial, s->error));
    SS_TRY(ss_size_take(s->size, &trial, s->weight, &s->size->options[index], &s->size->arena, s->error));
    if (index == 0 && trial.failure == NULL) {
        s->weight = ss_size_weight(&trial);
    }
done:
    ss_arena_destroy(&arena);
    return status;
}

/* The thinnest deck of all, and the thickest of each set of lines and of each way of casting: what is between
 * is like them. */
static bool is_end(const ss_size *size, int index) {
    const ss_size_option *const o = &size->options[index];
    bool first_of_set = true, first_of_way = true;
    if (index == 1) {
        return true;
    }
    for (int i = 1; i < index; i++) {
        const ss_size_option *const other = &size->options[i];
        if (other->thickness == o->thickness) {
            first_of_set = first_of_set && other->set != o->set;
            first_of_way = first_of_way && other->shored != o->shored;
        }
    }
    return o->thickness == size->sizing->thickness[size->sizing->thickness_count - 1] &&
           (first_of_set || first_of_way);
}

static bool is_anchor(const ss_size *size, int index) {
    return size->options[index].kind != SS_SIZE_DECK || is_end(size, index);
}

/* A target that no rating answers would be reached by anything. */
static ss_status check_targets(study *s) {
    const ss_size_option *const now = &s->size->options[0];
    const ss_sizing *const sizing = s->size->sizing;
    for (int t = 0; t < sizing->target_count; t++) {
        const ss_sizing_target *const target = &sizing->targets[t];
        if (isinf(now->factor[t])) {
            return ss_error_set(
                s->error, SS_ERROR_DESCRIPTION,
                "sizing.targets.%d: there is no rating of %s%s%s%s%s; without method and level "
                "a target means what decides whether a truck may cross",
                t + 1, target->vehicle < 0 ? "any truck" : s->bridge->vehicles[target->vehicle].name,
                target->method < 0 ? "" : " by ",
                target->method < 0 ? "" : ss_method_name((ss_method)target->method),
                target->level < 0 ? "" : " at level ",
                target->level < 0 ? "" : ss_level_name((ss_level)target->level));
        }
    }
    return SS_OK;
}

static ss_status search_anchors(study *s) {
    ss_size *const size = s->size;
    ss_status status = SS_OK;
    for (int i = 0; i < size->count; i++) {
        s->anchors += is_anchor(size, i);
    }
    for (int i = 0; i < size->count && !stops(s); i++) {
        if (is_anchor(size, i)) {
            SS_TRY(search(s, i));
            if (i == 0) {
                const ss_size_option *const o = &size->options[0];
                SS_TRY(o->failure == NULL
                           ? SS_OK
                           : ss_error_set(s->error, SS_ERROR_CHECK, "the bridge as it is has no rating: %s",
                                          o->failure));
                SS_TRY(check_targets(s));
            }
        }
    }
done:
    return status;
}

/* ---- the others ------------------------------------------------------------------------------------- */

static ss_status try_decks(study *s) {
    ss_size *const size = s->size;
    ss_arena arena = {0};
    int done = 0;
    ss_status status = SS_OK;
    ss_trial *const trials = ss_arena_alloc(&arena, (size_t)size->deck_count + 1, sizeof *trials);
    SS_TRY(trials == NULL ? ss_no_memory(s->error) : SS_OK);
    SS_TRY(ss_trials_run(&s->trials, change_deck, s, size->deck_count, &arena, trials, &done, s->error));
    for (int i = 0; i < done; i++) {
        if (!is_anchor(size, i + 1)) {
            SS_TRY(ss_size_take(size, &trials[i], s->weight, &size->options[i + 1], &size->arena, s->error));
        }
    }
    for (int i = 0; i < size->count; i++) {
        size->stopped = size->stopped || !size->options[i].tried;
    }
done:
    ss_arena_destroy(&arena);
    return status;
}

/* What is chosen was rated at places of others: now at all of its own. */
static ss_status confirm(study *s) {
    ss_status status = SS_OK;
    s->anchors = 0;
    ss_size_decide(s->size);
    for (int i = 0; i < CHOICES_MOST && s->size->best >= 0 && !stops(s); i++) {
        if (s->size->options[s->size->best].full) {
            break;
        }
        SS_TRY(search(s, s->size->best));
        ss_size_decide(s->size);
    }
done:
    return status;
}

ss_status ss_size_compute(const ss_description *description, const ss_bridge *bridge,
                          const ss_size_watch *watch, ss_size *out, ss_error *error) {
    ss_status status = SS_OK;
    study s = {
        .size = out, .base = description, .bridge = bridge, .watch = watch, .weight = SS_NAN, .error = error};
    const ss_trial_options options = {.progress = show, .stop = stops, .inspect = inspect, .context = &s};
    *out = (ss_size){.best = -1, .nearest = -1};
    ss_trials_begin(description, &options, &s.trials);
    SS_TRY(ss_size_options(description, bridge, out, error));
    SS_TRY(search_anchors(&s));
    SS_TRY(try_decks(&s));
    SS_TRY(confirm(&s));
done:
    ss_trials_end(&s.trials);
    if (status != SS_OK) {
        ss_size_destroy(out);
    }
    return status;
}

void ss_size_destroy(ss_size *size) {
    ss_arena_destroy(&size->arena);
    *size = (ss_size){0};
}
