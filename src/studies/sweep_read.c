/* sweep_read.c - what a sweep shows: the worst and the best, where results change, where a joint is full. */
#include <math.h>

#include "base/numeric.h"
#include "response/state.h"
#include "studies/sweep_parts.h"

/* Share of all that a result changes by, within which it is still what it is at an end. */
#define STILL 0.05

static double value_of(const ss_sweep *sweep, int point, int result) {
    const ss_trial *const t = &sweep->points[point];
    return t->failure != NULL ? SS_NAN : result < 0 ? t->rf : t->followed[result];
}

/* The first or the last point that has the result. */
static int end_of(const ss_sweep *sweep, int result, bool last) {
    for (int i = 0; i < sweep->done; i++) {
        const int at = last ? sweep->done - 1 - i : i;
        if (isfinite(value_of(sweep, at, result))) {
            return at;
        }
    }
    return -1;
}

/* result -1: the controlling factor. */
static ss_sweep_band band_of(const ss_sweep *sweep, int result) {
    const double *const value = sweep->axis[0].value;
    ss_sweep_band band = {SS_NAN, SS_NAN, SS_NAN, SS_NAN};
    const int first = end_of(sweep, result, false), last = end_of(sweep, result, true);
    for (int i = 0; i < sweep->done; i++) {
        const double here = value_of(sweep, i, result);
        if (isfinite(here)) {
            band.least = here < band.least || isnan(band.least) ? here : band.least;
            band.most = here > band.most || isnan(band.most) ? here : band.most;
        }
    }
    if (first < 0 || !(band.most - band.least > 1e-9 * ss_max(fabs(band.least), fabs(band.most)))) {
        return band;
    }
    const double still = STILL * (band.most - band.least);
    int from = first, to = last;
    while (from < last &&
           !(fabs(value_of(sweep, from + 1, result) - value_of(sweep, first, result)) > still)) {
        from++;
    }
    while (to > first && !(fabs(value_of(sweep, to - 1, result) - value_of(sweep, last, result)) > still))
        to--;
    band.from = value[from];
    band.to = value[to];
    return band;
}

static void find_ends(ss_sweep *sweep) {
    sweep->worst = sweep->best = sweep->joint_full = -1;
    for (int i = 0; i < sweep->done; i++) {
        const ss_trial *const t = &sweep->points[i];
        if (t->failure != NULL) {
            continue;
        }
        if (sweep->worst < 0 || t->rf < sweep->points[sweep->worst].rf * (1.0 - 1e-9)) {
            sweep->worst = i;
        }
        if (sweep->best < 0 || t->rf > sweep->points[sweep->best].rf * (1.0 + 1e-9)) {
            sweep->best = i;
        }
        if (t->joint_out && sweep->joint_full < 0) {
            sweep->joint_full = i;
        }
    }
}

/* Index of the described value on an axis, or -1. */
static int described_on(const ss_sweep_axis *axis) {
    for (int i = 0; i < axis->count; i++) {
        if (axis->value[i] == axis->described) {
            return i;
        }
    }
    return -1;
}

ss_status ss_sweep_read(ss_sweep *sweep, ss_error *error) {
    find_ends(sweep);
    const int row = described_on(&sweep->axis[0]);
    const int column = sweep->axis_count == 2 ? described_on(&sweep->axis[1]) : 0;
    const int columns = sweep->axis_count == 2 ? sweep->axis[1].count : 1;
    sweep->described = row < 0 || column < 0 ? -1 : row * columns + column;
    if (sweep->axis_count == 2) {
        return SS_OK;
    }
    const size_t count = (size_t)sweep->trials.follow.count;
    sweep->results = ss_arena_alloc(&sweep->arena, count + 1, sizeof *sweep->results);
    if (sweep->results == NULL) {
        return ss_no_memory(error);
    }
    sweep->rating = band_of(sweep, -1);
    for (size_t i = 0; i < count; i++) sweep->results[i] = band_of(sweep, (int)i);
    return SS_OK;
}
