/* reach_move.c - what was found moved along its track to where its factor is least. */
#include <string.h>

#include "base/numeric.h"
#include "response/reach_exact.h"
#include "response/roll_parts.h"
#include "sillspan/memory.h"

/* Length by which a position is moved to see on which side its factor falls (m), and steps of the search
 * after that.
 */
#define STEP 1e-4
enum { PASSES = 24 };

/* A position on floor beams is compared with those beside it when they come this near. */
#define BESIDE_BEAM 1.02

bool ss_reach_moved_begin(ss_reach_exact_task *x, int demand, ss_reach_moved *m) {
    const ss_reacher *const reach = x->job->worker->reach;
    const ss_reached *const best = ss_reach_result(x->job, demand, x->traffic);
    int lane = 0;
    while (lane < x->lanes && x->effect[lane] != best->effect) lane++;
    if (best->effect < 0 || lane == x->lanes || !(best->factor > 0.0) || isinf(best->factor)) {
        return false;
    }
    const ss_position *const position = &best->position[0];
    *m = (ss_reach_moved){.x = x,
                          .demand = demand,
                          .lane = lane,
                          .dead = best->dead,
                          .track = position->track,
                          .most = best->most,
                          .course = reach->courses.items[reach->courses.of_track[position->track]],
                          .own = position->train != NULL};
    if (m->own) {
        m->spaced = *position->train;
    }
    ss_reach_ready(x->job->worker, m->track);
    return true;
}

/* A vehicle in the memory of the result; what was there for it before is taken over. */
static const ss_vehicle *keep_train(const ss_reach_moved *m, const ss_reached *best) {
    ss_vehicle *slot = (ss_vehicle *)best->position[0].train;
    if (slot == NULL) {
#ifdef _OPENMP
#pragma omp critical(sillspan_reach_trains)
#endif
        slot = ss_arena_alloc(m->x->job->member->trains, 1, sizeof *slot);
    }
    if (slot != NULL) {
        *slot = m->spaced;
    }
    return slot;
}

ss_status ss_reach_factor_at(ss_reach_moved *m, double at_x, bool on_beam, double *factor) {
    ss_reach_worker *const w = m->x->job->worker;
    ss_axle_at at[SS_AXLES_MAX];
    ss_reach_stand stand;
    double multiple;
    m->course.vehicle = m->own ? &m->spaced : m->course.vehicle;
    ss_reach_stand_begin(&stand, &(ss_position){.track = m->track, .x = at_x, .on_beam = on_beam}, w->live,
                         true);
    ss_course_locate(&w->reach->plans, &m->course, at_x, on_beam, at);
    ss_course_sum(&w->lines, &m->course, m->track, at, false, stand.closed);
    ss_reach_reactions(w->reach, &m->course, m->track, at, false, w->live);
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
        stand.position.train = m->own ? keep_train(m, best) : NULL;
        if (m->own && stand.position.train == NULL) {
            return SS_ERROR_MEMORY;
        }
        best->factor = *factor;
        best->position[0] = stand.position;
        kept->closed = stand.closed[m->lane];
        memcpy(kept->live, stand.live, (size_t)w->reach->n * sizeof *kept->live);
    }
    return SS_OK;
}

/* The least factor between a and b by golden section. */
static ss_status narrow(ss_reach_moved *m, double a, double b) {
    const double share = 0.61803398874989485;
    double c = b - share * (b - a), d = a + share * (b - a), at_c, at_d;
    ss_status status = ss_reach_factor_at(m, c, false, &at_c);
    if (status == SS_OK) {
        status = ss_reach_factor_at(m, d, false, &at_d);
    }
    for (int pass = 0; pass < PASSES && status == SS_OK; pass++) {
        if (at_c < at_d) {
            b = d;
            d = c;
            at_d = at_c;
            c = b - share * (b - a);
            status = ss_reach_factor_at(m, c, false, &at_c);
        } else {
            a = c;
            c = d;
            at_c = at_d;
            d = a + share * (b - a);
            status = ss_reach_factor_at(m, d, false, &at_d);
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
    const ss_reached *const best = ss_reach_result(x->job, demand, x->traffic);
    ss_reach_moved m;
    if (x->job->worker->reach->n == 0 || !ss_reach_moved_begin(x, demand, &m) ||
        best->factor * ss_reach_scale(x->job, demand, x->traffic, best->effect) > SS_REACH_MOST) {
        return SS_OK;
    }
    const double from = best->position[0].x, start = best->factor;
    const bool on_beam = best->position[0].on_beam;
    ss_status status = SS_OK;
    for (int side = -1; side <= 1 && status == SS_OK; side += 2) {
        double end, beside = SS_INFINITY;
        if (!stand_beyond(&m.course, from, side, &end) || fabs(end - from) < 4.0 * STEP) {
            continue;
        }
        status = ss_reach_factor_at(&m, from + side * STEP, false, &beside);
        if (status == SS_OK && beside < start * (on_beam ? BESIDE_BEAM : 1.0)) {
            status = narrow(&m, side < 0 ? end : from, side < 0 ? from : end);
        }
    }
    return status;
}
