/* contact_reach.c - the first multiple of a load at which an effect reaches a target, bearings lifting and
 * closing on the way. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "response/contact_tableau.h"
#include "sillspan/contact.h"

/* Effect in the present state as a line in the multiple m: at0 + m slope, signed so that it grows towards the
 * target. */
typedef struct effect_line {
    double at0, slope;
} effect_line;

static effect_line line_of(const ss_contact_path *path, const ss_contact_tableau *tableau, double sign) {
    effect_line line = {path->e_dead, path->e_live};
    for (int i = 0; i < path->n; i++) {
        if (tableau->open[i] > 0.5) {
            line.at0 += path->opening[i] * tableau->scale[i] * tableau->a[i];
            line.slope += path->opening[i] * tableau->scale[i] * tableau->b[i];
        }
    }
    line.at0 *= sign;
    line.slope *= sign;
    return line;
}

/* Multiple from `from` on at which the line reaches the target; INFINITY when it does not. */
static double reached_at(effect_line line, double target, double from) {
    if (line.at0 + from * line.slope >= target) {
        return from;
    }
    return line.slope > 0.0 ? ss_max(from, (target - line.at0) / line.slope) : (double)INFINITY;
}

/* Largest multiple for which the present state holds. */
static double state_ends(const ss_contact_tableau *tableau, double from) {
    double end = (double)INFINITY;
    for (int i = 0; i < tableau->n; i++) {
        if (tableau->b[i] < -tableau->tiny_b) {
            end = ss_min(end, ss_max(from, -tableau->a[i] / tableau->b[i]));
        }
    }
    return end;
}

/*
 * Puts the dictionary into the state that holds just after *m, keeping its digits. Where rounding hides which
 * state that is, the multiple goes on, by a billionth and then more, to where it shows.
 */
static ss_status step_past(ss_contact_tableau *tableau, double *m) {
    if (ss_contact_tableau_solved(tableau, *m, true)) {
        return SS_OK; /* the state does not change, and its digits are fresh */
    }
    ss_status status = ss_contact_tableau_pivot(tableau, *m, true);
    for (double step = 1e-9; status == SS_ERROR_NUMERIC && step < 1e-4; step *= 30.0) {
        *m += step * (1.0 + *m);
        memset(tableau->open, 0, (size_t)tableau->n * sizeof *tableau->open);
        ss_contact_tableau_restart(tableau);
        status = ss_contact_tableau_pivot(tableau, *m, false);
    }
    if (status == SS_OK && !ss_contact_tableau_restart(tableau)) {
        status = ss_contact_tableau_pivot(tableau, *m, false);
    }
    return status;
}

static int count_changes(const ss_contact_tableau *tableau, const double *before) {
    int changes = 0;
    for (int i = 0; i < tableau->n; i++) changes += tableau->open[i] != before[i];
    return changes;
}

ss_status ss_contact_reach(const ss_contact_path *path, double target, bool target_above, double most,
                           ss_reach *out, double *work) {
    const int n = path->n;
    const double sign = target_above ? 1.0 : -1.0;
    ss_contact_tableau tableau;
    ss_contact_tableau_set(&tableau, n, path->S, path->r_dead, path->r_live, work);
    double *const before = work + ss_contact_tableau_work(n);
    ss_status status = ss_contact_tableau_pivot(&tableau, 0.0, false);
    if (status != SS_OK) {
        return status;
    }
    if (!ss_contact_tableau_restart(&tableau)) {
        status = ss_contact_tableau_pivot(&tableau, 0.0, false);
    }
    const double goal = sign * target;
    effect_line line = line_of(path, &tableau, sign);
    ss_reach reach = {.factor = (double)INFINITY, .linear = reached_at(line, goal, 0.0)};
    double m = 0.0;
    const int most_states = 10000;
    for (int pass = 0; status == SS_OK; pass++) {
        if (line.at0 + m * line.slope >= goal) {
            reach.factor = m;
            break;
        }
        for (int i = 0; i < n; i++) before[i] = tableau.open[i];
        status = step_past(&tableau, &m);
        if (status == SS_ERROR_TIPPING) {
            reach.tips = true;
            reach.factor = m;
            status = SS_OK;
            break;
        }
        if (status != SS_OK || pass == most_states) {
            return status == SS_OK ? SS_ERROR_NUMERIC : status;
        }
        reach.changes += count_changes(&tableau, before);
        line = line_of(path, &tableau, sign);
        const double end = state_ends(&tableau, m);
        const double at = reached_at(line, goal, m);
        if (at <= ss_min(end, most)) {
            reach.factor = at;
            break;
        }
        if (end > most) {
            break;
        }
        m = end;
    }
    if (status == SS_OK) {
        *out = reach;
    }
    return status;
}
