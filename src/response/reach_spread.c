/* reach_spread.c - what was found for a demand with axles moved apart or together, where their distance may
 * vary. */
#include "base/numeric.h"
#include "base/try.h"
#include "response/reach_exact.h"
#include "response/trains.h"

/* Rounds over the gaps of a vehicle, each in the pattern that the last one brought about. */
enum { ROUNDS = 4 };

/* Steps of both groups where bearings lift (m). */
enum { LEVELS = 7 };
static const double steps[LEVELS] = {0.8, 0.4, 0.2, 0.1, 0.05, 0.025, 0.0125};

/* Weights of the pattern at the factor that was found. False: it is not to be had. */
static bool weigh(const ss_reach_moved *m) {
    ss_reach_worker *const w = m->x->job->worker;
    const ss_reached *const best = ss_reach_result(m->x->job, m->demand, m->x->traffic);
    const ss_reach_kept *const kept = ss_reach_kept_of(m->x->job, m->demand, m->x->traffic);
    const double multiple = best->factor * ss_reach_scale(m->x->job, m->demand, m->x->traffic, best->effect);
    ss_growth growth = {.opening = NULL};
    if (w->reach->n == 0) {
        return true;
    }
    if (multiple > SS_REACH_MOST ||
        ss_patterns_follow(&w->patterns, best->dead, kept->live, w->reach->dead_pattern[best->dead],
                           SS_REACH_MOST, &growth) != SS_OK) {
        return false;
    }
    const int pattern = ss_growth_pattern(&growth, multiple);
    if (pattern < 0) {
        return false;
    }
    ss_patterns_weigh(&w->patterns, pattern, m->x->job->opening + (size_t)best->effect * (size_t)w->reach->n,
                      w->weight);
    return true;
}

/* The vehicle as it stands, and the range of a gap; false: the gap does not vary. */
static bool take_gap(ss_reach_moved *m, int gap, ss_spread *out) {
    const ss_reacher *const reach = m->x->job->worker->reach;
    const ss_position *const position = &ss_reach_result(m->x->job, m->demand, m->x->traffic)->position[0];
    const ss_track *const track = &reach->placements->tracks[position->track];
    m->spaced = *ss_position_train(reach->placements, position);
    m->own = true;
    *out = (ss_spread){.train = &m->spaced,
                       .track = position->track,
                       .backward = track->backward,
                       .x = position->x,
                       .gap = gap};
    return ss_train_range(reach->mesh->bridge, reach->placements, track->train, gap, &out->least, &out->most);
}

static ss_status try_place(ss_reach_moved *m, int gap, const ss_spread_place *place, bool on_beam) {
    const double kept = m->spaced.spacing_m[gap];
    double factor;
    m->spaced.spacing_m[gap] = place->distance;
    const ss_status status = ss_reach_factor_at(m, place->x + SS_NUDGE * place->nudge, on_beam, &factor);
    m->spaced.spacing_m[gap] = kept;
    return status;
}

static ss_status try_gap(ss_reach_moved *m, int gap) {
    ss_reach_worker *const w = m->x->job->worker;
    const ss_lane_tile lines = ss_reach_lane_tile(m->x);
    ss_spread_place place[SS_SPREAD_PLACES];
    ss_spread spread;
    ss_status status = SS_OK;
    if (!take_gap(m, gap, &spread) || !weigh(m)) {
        return SS_OK;
    }
    const bool on_beam = ss_reach_result(m->x->job, m->demand, m->x->traffic)->position[0].on_beam;
    const int count = ss_spread_propose(&lines, &(ss_lane_wanted){m->lane, m->most, 0, w->weight}, &spread,
                                        &w->spread, place);
    for (int i = 0; i < count && status == SS_OK; i++) {
        status = try_place(m, gap, &place[i], false);
        if (on_beam && status == SS_OK) {
            status = try_place(m, gap, &place[i], true);
        }
    }
    return status;
}

/* Ways that a vehicle is moved: the axles behind the gap, those before it, all; each back and on. */
enum { WAYS = 6 };

static ss_status move_gap(ss_reach_moved *m, int gap) {
    ss_status status = SS_OK;
    for (int i = 0; i < LEVELS * WAYS && status == SS_OK; i++) {
        const int way = i % WAYS / 2;
        const double step = i % 2 == 0 ? steps[i / WAYS] : -steps[i / WAYS];
        ss_spread spread;
        if (!take_gap(m, gap, &spread)) {
            break;
        }
        ss_spread_place place = {.x = spread.x, .distance = m->spaced.spacing_m[gap]};
        place.distance += way == 2 ? 0.0 : step;
        place.x += way == 0 ? 0.0 : spread.backward ? -step : step;
        if (place.distance >= spread.least && place.distance <= spread.most) {
            status = try_place(m, gap, &place, false);
        }
    }
    return status;
}

ss_status ss_reach_spread(ss_reach_exact_task *x, int demand) {
    const ss_reached *const best = ss_reach_result(x->job, demand, x->traffic);
    ss_reach_moved m;
    ss_status status = SS_OK;
    if (x->job->member->trains == NULL || !ss_reach_moved_begin(x, demand, &m) || best->truck_count != 1) {
        return SS_OK;
    }
    const int axles = m.course.vehicle->axle_count;
    for (int round = 0; round < ROUNDS; round++) {
        const double before = best->factor;
        for (int gap = 0; gap + 1 < axles; gap++) SS_TRY(try_gap(&m, gap));
        if (best->factor >= before * (1.0 - SS_REACH_TIE)) {
            break;
        }
    }
    for (int gap = 0; x->job->worker->reach->n > 0 && gap + 1 < axles; gap++) SS_TRY(move_gap(&m, gap));
done:
    return status;
}
