/* sweep.c - one value of a description, or two, gone through from end to end. */
#include "sillspan/sweep.h"

#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "studies/sweep_parts.h"
#include "studies/trial_parts.h"

enum { POINTS_MOST = 100000 };

/* A search that finds nothing but this share beside the watched places has found nothing new; one that is
 * farther off asks for others beside it. */
#define AGREES 1e-6
#define OFF 1e-3

/* Stages of a sweep, as shares of its time for a progress display. */
static void tell(const ss_sweep *sweep, const char *what, double done) {
    const ss_trial_options *const options = &sweep->trials.options;
    if (options->progress != NULL) {
        options->progress(options->context, what, done);
    }
}

static bool stops(const ss_sweep *sweep) {
    const ss_trial_options *const options = &sweep->trials.options;
    return options->stop != NULL && options->stop(options->context);
}

/* ---- searches in full ------------------------------------------------------------------------------- */

static ss_status anchor(ss_sweep *sweep, int point, ss_trial *out, ss_error *error) {
    const ss_status status =
        ss_trials_anchor(&sweep->trials, ss_sweep_change, sweep, point, &sweep->arena, out, error);
    if (status == SS_OK) {
        sweep->checks[sweep->check_count++] =
            (ss_sweep_check){point, out->failure == NULL ? out->rf : SS_NAN, false};
    }
    return status;
}

static bool is_searched(const ss_sweep *sweep, int point) {
    for (int i = 0; i < sweep->check_count; i++) {
        if (sweep->checks[i].point == point) {
            return true;
        }
    }
    return false;
}

/* Both ends and the middle, of each axis. */
static int places(const ss_sweep *sweep, int out[9]) {
    const int rows = sweep->axis[0].count, columns = sweep->axis_count == 2 ? sweep->axis[1].count : 1;
    int count = 0;
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            const int row = i * (rows - 1) / 2, column = j * (columns - 1) / 2,
                      point = row * columns + column;
            bool had = sweep->axis_count == 2 && (i == 1) != (j == 1); /* corners and the middle will do */
            for (int k = 0; k < count; k++) had = had || out[k] == point;
            if (!had) {
                out[count++] = point;
            }
        }
    }
    return count;
}

static ss_status search_ends(ss_sweep *sweep, ss_error *error) {
    int point[9];
    ss_trial trial;
    ss_status status = SS_OK;
    const int count = places(sweep, point);
    for (int i = 0; i < count; i++) {
        tell(sweep, "searching the ends", (double)i / count);
        SS_TRY(anchor(sweep, point[i], &trial, error));
        if (trial.failure != NULL && error != NULL && sweep->trials.anchor_count == 0) {
            ss_error_set(error, SS_ERROR_DESCRIPTION, "%s", trial.failure);
        }
    }
    if (sweep->trials.anchor_count == 0) {
        status = error != NULL && error->message[0] != '\0'
                     ? SS_ERROR_DESCRIPTION
                     : ss_error_set(error, SS_ERROR_DESCRIPTION, "neither end of the sweep can be rated");
    }
done:
    return status;
}

/* ---- all points ------------------------------------------------------------------------------------- */

static ss_status rate_points(const ss_sweep_plan *plan, ss_sweep *sweep, ss_error *error) {
    tell(sweep, "points", 0.0);
    if (plan->axis_count == 1 && sweep->axis[0].joint) {
        ss_error why = {0};
        const ss_status status = ss_sweep_closed(plan, sweep, &why);
        if (status == SS_OK || status == SS_ERROR_MEMORY || sweep->axis[0].whole) {
            if (status != SS_OK) {
                ss_error_set(error, status, "%s", why.message);
            }
            return status;
        }
    }
    return ss_trials_run(&sweep->trials, ss_sweep_change, sweep, sweep->count, &sweep->arena, sweep->points,
                         &sweep->done, error);
}

/* How far apart points that were searched may be, in points. */
static int widest_gap(const ss_sweep *sweep) {
    return sweep->count / 6 > 2 ? sweep->count / 6 : 2;
}

/* The searched point that is next to one on one side, or -1; *off: whether it was found to be off. */
static int next_searched(const ss_sweep *sweep, int point, int side, bool *off) {
    int best = -1;
    for (int i = 0; i < sweep->check_count; i++) {
        const int other = sweep->checks[i].point;
        if (side * (other - point) > 0 && (best < 0 || side * (other - best) < 0)) {
            best = other;
            *off = sweep->checks[i].off;
        }
    }
    return best;
}

/* A point in the middle of searched ones that lie too far apart, or that are not alone in having been off;
 * -1: there is none. */
static int between_searched(const ss_sweep *sweep) {
    int best = -1, widest = 0;
    for (int i = 0; i < sweep->check_count; i++) {
        bool off = false;
        const int from = sweep->checks[i].point, to = next_searched(sweep, from, 1, &off);
        const int most = off || sweep->checks[i].off ? 2 : widest_gap(sweep);
        if (to - from > most && to - from > widest) {
            widest = to - from;
            best = from + (to - from) / 2;
        }
    }
    return best;
}

/* The point that is to be searched next, or -1: what the answer tells of, then what lies far from all that
 * were. */
static int next_point(const ss_sweep *sweep) {
    const int told[] = {sweep->worst, sweep->described, sweep->best,
                        sweep->joint_full > 0 ? sweep->joint_full - 1 : -1};
    for (size_t i = 0; i < sizeof told / sizeof told[0]; i++) {
        if (told[i] >= 0 && !sweep->points[told[i]].full && !is_searched(sweep, told[i])) {
            return told[i];
        }
    }
    return sweep->axis_count == 1 && !sweep->trials.options.full ? between_searched(sweep) : -1;
}

/* Searches what is to be searched next in full, one point after the other, until one is found to be off:
 * *again then. */
static ss_status check_points(ss_sweep *sweep, bool *again, ss_error *error) {
    ss_status status = SS_OK;
    int point = next_point(sweep);
    while (point >= 0 && status == SS_OK && !*again && sweep->check_count < SS_SWEEP_CHECKS &&
           !stops(sweep)) {
        ss_trial trial;
        const double watched = sweep->points[point].rf;
        tell(sweep, "searching in full", (double)sweep->check_count / SS_SWEEP_CHECKS);
        status = anchor(sweep, point, &trial, error);
        const bool both = status == SS_OK && trial.failure == NULL && sweep->points[point].failure == NULL;
        sweep->checks[sweep->check_count - 1].off = both && !ss_close(trial.rf, watched, OFF);
        *again = both && !ss_close(trial.rf, watched, AGREES);
        point = next_point(sweep);
    }
    return status;
}

/* Searches a point in full for all joints together that are full somewhere and that no search had out of the
 * bridge; *again: there were some. */
static ss_status check_joints_out(ss_sweep *sweep, bool *again, ss_error *error) {
    ss_trial trial;
    ss_status status = SS_OK;
    for (int i = 0; i < sweep->count && status == SS_OK && sweep->check_count < SS_SWEEP_CHECKS; i++) {
        const uint64_t without = sweep->points[i].without;
        if (without != 0 && !ss_trial_out_searched(&sweep->trials, without) && !is_searched(sweep, i)) {
            tell(sweep, "searching without joints", 0.0);
            *again = true;
            status = anchor(sweep, i, &trial, error);
        }
    }
    return status;
}

/* ---- public ----------------------------------------------------------------------------------------- */

static bool is_stopped(const ss_sweep *sweep) {
    return sweep->done < sweep->count;
}

static ss_status refuse(int64_t points, ss_error *error) {
    return ss_error_set(error, SS_ERROR_LIMIT, "a sweep has at most %d points; this one would have %lld",
                        (int)POINTS_MOST, (long long)points);
}

static ss_status make_axes(const ss_sweep_plan *plan, ss_sweep *sweep, ss_error *error) {
    ss_status status = SS_OK;
    sweep->axis_count = plan->axis_count;
    sweep->count = 1;
    for (int a = 0; a < plan->axis_count; a++) { /* before anything is filled */
        SS_TRY(plan->points[a] <= POINTS_MOST ? SS_OK : refuse(plan->points[a], error));
    }
    for (int a = 0; a < plan->axis_count; a++) {
        SS_TRY(ss_sweep_axis_make(plan, a, &sweep->arena, &sweep->axis[a], error));
        const int64_t points = (int64_t)sweep->count * sweep->axis[a].count;
        SS_TRY(points <= POINTS_MOST ? SS_OK : refuse(points, error));
        sweep->count *= sweep->axis[a].count;
    }
    sweep->points = ss_arena_alloc(&sweep->arena, (size_t)sweep->count + 1, sizeof *sweep->points);
    SS_TRY(sweep->points == NULL ? ss_no_memory(error) : SS_OK);
done:
    return status;
}

/* Places of trucks are those of the bridge that was searched: where trucks or their ways vary, none is kept.
 */
static bool moves_trucks(const ss_unknown *unknown) {
    static const char *const groups[] = {"trucks.", "runs.", "bridge.roadway."};
    for (int i = 0; i < unknown->path_count; i++) {
        for (size_t g = 0; g < sizeof groups / sizeof groups[0]; g++) {
            if (strncmp(unknown->paths[i], groups[g], strlen(groups[g])) == 0) {
                return true;
            }
        }
    }
    return false;
}

ss_status ss_sweep_compute(const ss_sweep_plan *plan, ss_sweep *out, ss_error *error) {
    ss_sweep sweep = {.worst = -1, .best = -1, .described = -1, .joint_full = -1};
    ss_status status = SS_OK;
    bool again = true;
    ss_trials_begin(plan->base, &plan->options, &sweep.trials);
    for (int a = 0; a < plan->axis_count; a++) {
        sweep.trials.options.full = sweep.trials.options.full || moves_trucks(plan->unknown[a]);
    }
    SS_TRY(make_axes(plan, &sweep, error));
    SS_TRY(search_ends(&sweep, error));
    while (again) {
        const int searched = sweep.check_count;
        SS_TRY(rate_points(plan, &sweep, error));
        SS_TRY(ss_sweep_read(&sweep, error));
        again = false;
        if (!is_stopped(&sweep)) {
            SS_TRY(check_points(&sweep, &again, error));
            SS_TRY(again ? SS_OK : check_joints_out(&sweep, &again, error));
        }
        /* What is followed has places of the last searches too. */
        again = again || (sweep.check_count > searched && !is_stopped(&sweep) && !stops(&sweep));
    }
    *out = sweep;
    sweep = (ss_sweep){0};
done:
    ss_sweep_destroy(&sweep);
    return status;
}

void ss_sweep_destroy(ss_sweep *sweep) {
    ss_trials_end(&sweep->trials);
    ss_arena_destroy(&sweep->arena);
    *sweep = (ss_sweep){0};
}
