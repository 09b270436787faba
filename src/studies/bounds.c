/* bounds.c - the worst and the best answer over a box of unknowns. */
#include "sillspan/bounds.h"

#include "base/numeric.h"
#include "base/try.h"
#include "studies/bounds_parts.h"

static ss_status refuse(const ss_unknown_set *unknowns, int runs, ss_error *error) {
    if (unknowns->count == 0) {
        return ss_error_set(
            error, SS_ERROR_LIMIT,
            "nothing is unknown; name what is, in \"unknowns\" of the description or by --unknown");
    }
    if (runs < 1 + 2 * unknowns->count) {
        return ss_error_set(error, SS_ERROR_LIMIT, "%d runs are too few for %d unknowns; %d at least are due",
                            runs, unknowns->count, 1 + 2 * unknowns->count);
    }
    return SS_OK;
}

/* What an unknown can do as far as is known; NaN counts as nothing. */
static double weight(const ss_bounds_effect *e) {
    return e->total > e->swing ? e->total : e->swing;
}

/* Largest first, in the order of the description among equals. */
static void rank(ss_bounds *out, int count) {
    for (int i = 0; i < count; i++) {
        int at = i;
        for (; at > 0 && weight(&out->effects[i]) > weight(&out->effects[out->order[at - 1]]); at--) {
            out->order[at] = out->order[at - 1];
        }
        out->order[at] = i;
    }
}

static ss_status make_room(ss_bounds *out, int count) {
    out->effects = ss_arena_alloc(&out->arena, (size_t)count, sizeof *out->effects);
    out->order = ss_arena_alloc(&out->arena, (size_t)count, sizeof *out->order);
    out->ends[0].edge = ss_arena_alloc(&out->arena, (size_t)count, 1);
    out->ends[1].edge = ss_arena_alloc(&out->arena, (size_t)count, 1);
    return out->effects == NULL || out->order == NULL || out->ends[0].edge == NULL ||
                   out->ends[1].edge == NULL
               ? SS_ERROR_MEMORY
               : SS_OK;
}

ss_status ss_bounds_compute(const ss_unknown_set *unknowns, const ss_evaluator *evaluator,
                            const ss_bounds_options *options, ss_bounds *out, ss_error *error) {
    ss_status status = SS_OK;
    ss_bounds bounds = {.most_runs = options->runs > 0 ? options->runs : SS_BOUNDS_RUNS, .middle = SS_NAN};
    ss_runs runs = {
        .set = unknowns, .evaluator = evaluator, .watch = &options->watch, .arena = &bounds.arena};
    ss_boxed boxed = {&runs, &bounds, error};
    SS_TRY(refuse(unknowns, bounds.most_runs, error));
    SS_TRY(make_room(&bounds, unknowns->count));
    SS_TRY(ss_runs_init(&runs, bounds.most_runs));
    SS_TRY(ss_bounds_lines(&boxed));
    SS_TRY(ss_bounds_corners(&boxed));
    SS_TRY(ss_bounds_fill(&boxed));
    SS_TRY(ss_bounds_refine(&boxed));
    rank(&bounds, unknowns->count);
    bounds.runs = runs.count;
    bounds.stopped = runs.stopped;
    bounds.failed = runs.failed;
    bounds.failure = runs.failure;
    if (runs.first_failed >= 0) {
        bounds.failed_point = runs.points + (size_t)runs.first_failed * (size_t)unknowns->count;
    }
    *out = bounds;
done:
    if (status == SS_ERROR_MEMORY) {
        ss_error_set(error, status, "no memory for the search");
    }
    if (status != SS_OK) {
        ss_arena_destroy(&bounds.arena);
    }
    return status;
}

void ss_bounds_destroy(ss_bounds *bounds) {
    if (bounds != NULL) {
        ss_arena_destroy(&bounds->arena);
        *bounds = (ss_bounds){0};
    }
}
