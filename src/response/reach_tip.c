/* reach_tip.c - vehicles that tip the bridge before a section is full: where they do so first. */
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/reach_exact.h"
#include "sillspan/memory.h"

/* The first step along the track (m) by which what was found is moved, and how often it is halved. */
#define FIRST_STEP 0.5
enum { HALVINGS = 13 };

static void take(ss_reach_tip *tip, double multiple, const ss_position *position, int count) {
    if (multiple < tip->multiple * (1.0 - SS_REACH_TIE)) {
        tip->multiple = multiple;
        tip->truck_count = count;
        memcpy(tip->position, position, (size_t)count * sizeof *position);
    }
}

void ss_reach_note_tip(ss_reacher *r, int dead, const ss_position *position, double multiple) {
    for (int t = 0; t < r->placements->traffic_count; t++) {
        const ss_traffic *const traffic = &r->placements->traffic[t];
        if (position->track >= traffic->first_track &&
            position->track < traffic->first_track + traffic->track_count) {
            take(&r->tips[dead * r->placements->traffic_count + t], multiple, position, 1);
        }
    }
}

void ss_reach_note_tips(const ss_reach_exact_task *x, int demand, int dead, double multiple,
                        const ss_position *position, int count) {
    const ss_reach_job *const job = x->job;
    const size_t result =
        (size_t)demand * (size_t)job->worker->reach->placements->traffic_count + (size_t)x->traffic;
    take(&job->member->tip[2 * result + ss_reach_seen_slot(x, demand, dead) % 2], multiple, position, count);
}

void ss_reach_note_tipped(const ss_reach_exact_task *x, int demand, int dead, const ss_reach_stand *stand,
                          const ss_position *position, int count) {
    const ss_growth *const growth = &stand->growth[dead];
    if (stand->followed[dead] && growth->tips) {
        ss_reach_note_tips(x, demand, dead, growth->end, position, count);
    }
}

/* ---- along the track ---------------------------------------------------------------------------- */

/* Where the vehicle of a track tips the bridge with its front axle at x; INFINITY: it does not. */
static ss_status tips_at(ss_reacher *r, int dead, int track, double x, double *live, double *multiple) {
    const ss_course *const course = &r->courses.items[r->courses.of_track[track]];
    ss_axle_at at[SS_AXLES_MAX];
    ss_growth growth = {.opening = NULL};
    ss_course_locate(&r->plans, course, x, false, at);
    ss_reach_reactions(r, course, track, at, false, live);
    const ss_status status =
        ss_patterns_follow(&r->patterns, dead, live, r->dead_pattern[dead], SS_REACH_MOST, &growth);
    *multiple = status == SS_OK && growth.tips ? growth.end : SS_INFINITY;
    return status == SS_ERROR_TIPPING ? SS_OK : status;
}

/* Reactions bend only where an axle meets a station: the best place is often just there. */
static ss_status try_stands_near(ss_reacher *r, int dead, ss_reach_tip *tip, double *live) {
    const ss_course *const course = &r->courses.items[r->courses.of_track[tip->position[0].track]];
    const double from = tip->position[0].x;
    ss_status status = SS_OK;
    for (int i = 0; i < course->stand_count; i++) {
        ss_position there = {.track = tip->position[0].track, .x = course->x[i], .on_beam = false};
        double multiple;
        if (fabs(there.x - from) > FIRST_STEP) {
            continue;
        }
        SS_TRY(tips_at(r, dead, there.track, there.x, live, &multiple));
        take(tip, multiple, &there, 1);
    }
done:
    return status;
}

static ss_status refine(ss_reacher *r, int dead, ss_reach_tip *tip, double *live) {
    ss_status status = SS_OK;
    double step = FIRST_STEP;
    for (int pass = 0; pass < HALVINGS; pass++, step /= 2.0) {
        for (int side = -1; side <= 1; side += 2) {
            bool lower = true;
            while (lower) {
                ss_position moved = tip->position[0];
                double multiple;
                moved.x += side * step;
                SS_TRY(tips_at(r, dead, moved.track, moved.x, live, &multiple));
                lower = multiple < tip->multiple * (1.0 - SS_REACH_TIE);
                take(tip, multiple, &moved, 1);
            }
        }
    }
    SS_TRY(try_stands_near(r, dead, tip, live));
done:
    return status;
}

/* ---- across ------------------------------------------------------------------------------------- */

/* Whether no track of the same train and direction lies farther to one side. */
static bool is_outermost(const ss_placements *placements, const ss_traffic *traffic, int track) {
    const ss_track *const own = &placements->tracks[track];
    bool left = true, right = true;
    for (int i = traffic->first_track; i < traffic->first_track + traffic->track_count; i++) {
        const ss_track *const other = &placements->tracks[i];
        if (other->train == own->train && other->backward == own->backward) {
            left = left && other->y >= own->y;
            right = right && other->y <= own->y;
        }
    }
    return left || right;
}

/* Bridges roll over their edges: vehicles as near to those as they may come, at every stand. */
static ss_status try_edges(ss_reacher *r, int dead, const ss_traffic *traffic, ss_reach_tip *tip,
                           double *live) {
    ss_status status = SS_OK;
    for (int i = traffic->first_track; i < traffic->first_track + traffic->track_count; i++) {
        const ss_course *const course = &r->courses.items[r->courses.of_track[i]];
        for (int k = 0; k < course->stand_count && is_outermost(r->placements, traffic, i); k++) {
            const ss_position there = {.track = i, .x = course->x[k], .on_beam = false};
            double multiple;
            SS_TRY(tips_at(r, dead, i, there.x, live, &multiple));
            take(tip, multiple, &there, 1);
        }
    }
done:
    return status;
}

/* Every track at the place along the bridge that was found. */
static ss_status try_tracks(ss_reacher *r, int dead, const ss_traffic *traffic, ss_reach_tip *tip,
                            double *live) {
    const double x = tip->position[0].x;
    ss_status status = SS_OK;
    for (int i = traffic->first_track; i < traffic->first_track + traffic->track_count; i++) {
        const ss_position there = {.track = i, .x = x, .on_beam = false};
        double multiple;
        SS_TRY(tips_at(r, dead, i, x, live, &multiple));
        take(tip, multiple, &there, 1);
    }
done:
    return status;
}

static ss_status find_first(ss_reacher *r, int dead, const ss_traffic *traffic, ss_reach_tip *tip,
                            double *live) {
    ss_status status = SS_OK;
    SS_TRY(try_edges(r, dead, traffic, tip, live));
    for (int pass = 0; pass < 2 && isfinite(tip->multiple); pass++) {
        SS_TRY(refine(r, dead, tip, live));
        SS_TRY(pass == 0 ? try_tracks(r, dead, traffic, tip, live) : SS_OK);
    }
done:
    return status;
}

ss_status ss_reach_refine_tips(ss_reacher *r, ss_error *error) {
    double *const live = ss_alloc((size_t)r->n + 1, sizeof *live);
    ss_status status = live == NULL ? SS_ERROR_MEMORY : SS_OK;
    const int traffics = r->placements->traffic_count;
    for (int i = 0; i < r->dead_count * traffics && status == SS_OK; i++) {
        if (r->n > 0) {
            status = find_first(r, i / traffics, &r->placements->traffic[i % traffics], &r->tips[i], live);
        }
    }
    ss_free(live);
    return status == SS_OK
               ? SS_OK
               : ss_error_set(error, status, "the bearings' contact under a truck that tips the bridge: %s",
                              ss_status_text(status));
}
