/* study_runs.c - the points that a search over a box of unknowns has asked for, each of them once. */
#include "studies/study_runs.h"

#include <string.h>

#include "base/numeric.h"

/* Points that are answered together: enough for many threads, few enough to stop soon. */
#define BATCH 32

ss_status ss_runs_init(ss_runs *runs, int most) {
    const size_t places = (size_t)most * (size_t)runs->set->count;
    runs->most = most;
    runs->first_failed = -1;
    runs->places = ss_arena_alloc(runs->arena, places, sizeof *runs->places);
    runs->points = ss_arena_alloc(runs->arena, places, sizeof *runs->points);
    runs->values = ss_arena_alloc(runs->arena, (size_t)most * (size_t)runs->evaluator->answer_count,
                                  sizeof *runs->values);
    return runs->places == NULL || runs->points == NULL || runs->values == NULL ? SS_ERROR_MEMORY : SS_OK;
}

int ss_runs_add(ss_runs *runs, const double *places) {
    const int n = runs->set->count;
    const int used = runs->count + runs->pending;
    double point[SS_UNKNOWNS];
    for (int j = 0; j < n; j++) {
        /* The sum turns a negative zero into a zero: points are compared by their bytes. */
        point[j] = ss_unknown_at(&runs->set->items[j], places[j]) + 0.0;
    }
    for (int i = 0; i < used; i++) {
        if (memcmp(runs->points + (size_t)i * (size_t)n, point, (size_t)n * sizeof *point) == 0) {
            return i;
        }
    }
    if (used == runs->most || runs->stopped) {
        return -1;
    }
    for (int j = 0; j < n; j++) {
        runs->points[(size_t)used * (size_t)n + (size_t)j] = point[j];
        runs->places[(size_t)used * (size_t)n + (size_t)j] = ss_unknown_place(&runs->set->items[j], point[j]);
    }
    runs->pending++;
    return used;
}

/* Failures of the runs just answered. */
static ss_status note_failures(ss_runs *runs, int count) {
    for (int i = 0; i < count; i++) {
        if (!isnan(runs->values[(size_t)(runs->count + i) * (size_t)runs->evaluator->answer_count])) {
            continue;
        }
        if (runs->failed++ > 0) {
            continue;
        }
        runs->first_failed = runs->count + i;
        const char *const why =
            runs->evaluator->failure == NULL ? NULL : runs->evaluator->failure(runs->evaluator->context, i);
        if (why != NULL) {
            runs->failure = ss_arena_text(runs->arena, why, strlen(why));
            if (runs->failure == NULL) {
                return SS_ERROR_MEMORY;
            }
        }
    }
    return SS_OK;
}

ss_status ss_runs_answer(ss_runs *runs, ss_error *error) {
    const size_t n = (size_t)runs->set->count;
    const size_t answers = (size_t)runs->evaluator->answer_count;
    const ss_study_watch *const watch = runs->watch;
    while (runs->pending > 0) {
        if (watch->stop != NULL && watch->stop(watch->context)) {
            runs->stopped = true;
            runs->pending = 0;
            break;
        }
        const int count = runs->pending < BATCH ? runs->pending : BATCH;
        const size_t first = (size_t)runs->count;
        ss_status status = runs->evaluator->evaluate(
            runs->evaluator->context, count, runs->points + first * n, runs->values + first * answers, error);
        status = status == SS_OK ? note_failures(runs, count) : status;
        if (status != SS_OK) {
            return status;
        }
        runs->count += count;
        runs->pending -= count;
        if (watch->progress != NULL) {
            watch->progress(watch->context, (double)runs->count / runs->most);
        }
    }
    return SS_OK;
}

double ss_runs_value(const ss_runs *runs, int run) {
    return run < 0 || run >= runs->count ? SS_NAN
                                         : runs->values[(size_t)run * (size_t)runs->evaluator->answer_count];
}
