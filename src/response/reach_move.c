/* reach_move.c - what was found moved along its track to where its factor is least. */
#include <string.h>

#include "base/numeric.h"
#include "response/reach_exact.h"
#include "response/roll_parts.h"

/* Length by which a position is moved to see on which side its factor falls (m), and steps of the search
 * after that.
 */
#define STEP 1e-4
enum { PASSES = 24 };

/* A position on floor beams is compared with those beside it when they come this near. */
#define BESIDE_BEAM 1.02

/* What is being moved along its track. */
typedef struct moved {
    ss_reach_exact_task *x;
    int demand, lane, dead, track;
    bool most;
} moved;

static ss_status factor_at(const moved *m, double at_x, double *factor) {
    ss_reach_worker *const w = m->x->job->worker;
    const ss_course *const course = &w->reach->courses.items[w->reach->courses.of_track[m->track]];
    ss_axle_at at[SS_AXLES_MAX];
    ss_reach_stand stand;
    ss_reach_stand_begin(&stand, &(ss_position){m->track, at_x, false}, w->live, true);
    double multiple;
    ss_course_locate(&w->reach->plans, course, at_x, false, at);
    ss_course_sum(&w->lines, course, m->track, at, false, stand.closed);
    ss_reach_reactions(w->reach, course, m->track, at, false, w->live);
    ss_reach_kept *const kept = ss_reach_kept_of(m->x->job, m->demand, m->x->traffic);
    if (kept->loaded) {
        stand.closed[m->lane] += kept->lane_closed;
        for (int k = 0; k < w->reach->n; k++) w->live[k] += kept->lane_live[k];
    }
    const ss_status status =
        ss_reach_multiple_at(m->x, m->lane, m->demand, m->dead, m->most, &stand, &multiple);
    if (status != SS_OK) {
        return status;
    }
    const double scale = ss_reach_scale(m->x->job, m->demand, m->x->traffic, m->x->effect[m->lane]);
    *factor = multiple / scale;
    ss_reached *const best = ss_reach_result(m->x->job, m->demand, m->x->traffic);
    if (*factor < best->factor * (1.0 - SS_REACH_TIE)) {
        best->factor = *factor;
        best->position[0] = stand.position;
        kept->closed = stand.closed[m->lane];
        memcpy(kept->live, stand.live, (size_t)w->reach->n * sizeof *kept->live);
    }
    return SS_OK;
}

/* The least factor between a and b by golden section. */
static ss_status narrow(const moved *m, double a, double b) {
    const double share = 0.61803398874989485;
    double c = b - share * (b - a), d = a + share * (b - a), at_c, at_d;
    ss_status status = factor_at(m, c, &at_c);
    if (status == SS_OK) {
        status = factor_at(m, d, &at_d);
    }
    for (int pass = 0; pass < PASSES && status == SS_OK; pass++) {
        if (at_c < at_d) {
            b = d;
            d = c;
            at_d = at_c;
            c = b - share * (b - a);
            status = factor_at(m, c, &at_c);
        } else {
            a = c;
            c = d;
            at_c = at_d;
            d = a + share * (b - a);
            status = factor_at(m, d, &at_d);
        }
    }
    return status;
}

/* The nearest stand beyond `from` to one side; false: none. */
static bool stand_beyond(const ss_course *course, double from, int side, double *x) {
    int i = side > 0 ? 0 : course->stand_count - 1;
    while (i >= 0 && i < course->stand_count && side * (course->x[i] - from) <= 2.0 * SS_NUDGE) i += side;
    if (i < 0 || i >= course->stand_count) {
        return false;
    }
    *x = course->x[i];
    return true;
}

ss_status ss_reach_move(ss_reach_exact_task *x, int demand) {
    const ss_reacher *const reach = x->job->worker->reach;
    const ss_reached *const best = ss_reach_result(x->job, demand, x->traffic);
    int lane = 0;
    while (lane < x->lanes && x->effect[lane] != best->effect) lane++;
    if (reach->n == 0 || best->effect < 0 || lane == x->lanes || !(best->factor > 0.0) ||
        best->factor * ss_reach_scale(x->job, demand, x->traffic, best->effect) > SS_REACH_MOST) {
        return SS_OK;
    }
    const moved m = {x, demand, lane, best->dead, best->position[0].track, best->most};
    ss_reach_ready(x->job->worker, m.track);
    const ss_course *const course = &reach->courses.items[reach->courses.of_track[m.track]];
    const double from = best->position[0].x, start = best->factor;
    const bool on_beam = best->position[0].on_beam;
    ss_status status = SS_OK;
    for (int side = -1; side <= 1 && status == SS_OK; side += 2) {
        double end, beside = SS_INFINITY;
        if (!stand_beyond(course, from, side, &end) || fabs(end - from) < 4.0 * STEP) {
            continue;
        }
        status = factor_at(&m, from + side * STEP, &beside);
        if (status == SS_OK && beside < start * (on_beam ? BESIDE_BEAM : 1.0)) {
            status = narrow(&m, side < 0 ? end : from, side < 0 ? from : end);
        }
    }
    return status;
}
