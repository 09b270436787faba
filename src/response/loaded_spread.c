/* loaded_spread.c - worst trucks with their axles moved apart or together, where the distance between them
 * may vary. */
#include "base/numeric.h"
#include "base/try.h"
#include "response/loaded.h"
#include "response/trains.h"

/* Rounds over the gaps of a truck, each in the pattern that the last one brought about. */
enum { ROUNDS = 4 };

/* Values that differ by less than this share are equal. */
#define TIE 1e-9

/* Steps of both groups where bearings lift (m). */
enum { LEVELS = 7 };
static const double steps[LEVELS] = {0.8, 0.4, 0.2, 0.1, 0.05, 0.025, 0.0125};

/* A gap of the seek's truck that varies. */
static bool take_gap(const ss_loaded_worker *w, const ss_loaded_seek *seek, int gap, ss_spread *out) {
    const ss_loaded *const l = w->loaded;
    const ss_found *const truck = &seek->truck[0];
    const ss_track *const track = &l->placements->tracks[truck->track];
    *out = (ss_spread){.train = ss_loaded_train(l, truck),
                       .track = truck->track,
                       .backward = track->backward,
                       .x = truck->x,
                       .nudge = truck->nudge,
                       .gap = gap};
    return ss_train_range(w->lines.plans->mesh->bridge, l->placements, track->train, gap, &out->least,
                          &out->most);
}

static ss_status try_place(ss_loaded_worker *w, const ss_loaded_tile *tile, ss_loaded_seek *seek,
                           const ss_spread *spread, const ss_spread_place *place, bool on_beam,
                           ss_error *error) {
    ss_vehicle train = *spread->train;
    ss_found truck = seek->truck[0];
    train.spacing_m[spread->gap] = place->distance;
    truck.train = &train;
    truck.x = place->x;
    truck.nudge = place->nudge;
    truck.t = 0.0;
    truck.on_beam = on_beam;
    return ss_loaded_try(w, tile, seek, &truck, 1, seek->state, error);
}

/* Where both groups are worst in the pattern at hand. */
static ss_status try_gap(ss_loaded_worker *w, const ss_loaded_tile *tile, ss_loaded_seek *seek, int gap,
                         ss_error *error) {
    const ss_loaded *const l = w->loaded;
    const ss_lane_tile lines = {w->closed, NULL, l->model, l->reactions, tile->count};
    ss_spread_place place[SS_SPREAD_PLACES];
    ss_spread spread;
    if (!take_gap(w, seek, gap, &spread)) {
        return SS_OK;
    }
    const bool on_beam = seek->truck[0].on_beam;
    const ss_vehicle train = *spread.train; /* what is tried may take the seek's own */
    spread.train = &train;
    for (int a = 0; a < train.axle_count; a++) {
        ss_axle_lines_whole(w->closed,
                            w->lines.plans->plan[ss_axle_plan_of(w->lines.plans, spread.track, a)].lines_of);
    }
    ss_loaded_weigh(w, tile, seek->lane, seek->state, w->own_weight, 1);
    const int count = ss_spread_propose(
        &lines, &(ss_lane_wanted){seek->lane, seek->side == 1, 0, w->own_weight}, &spread, &w->spread, place);
    ss_status status = SS_OK;
    for (int i = 0; i < count && status == SS_OK; i++) {
        status = try_place(w, tile, seek, &spread, &place[i], false, error);
        if (on_beam && status == SS_OK) { /* with those wheels on floor beams that come to them */
            status = try_place(w, tile, seek, &spread, &place[i], true, error);
        }
    }
    return status;
}

/* Ways that a truck is moved: the axles behind the gap, those before it, all; each back and on. */
enum { WAYS = 6 };

/* Bearings that open and close on the way bend what is cubic within a pattern. */
static ss_status move_gap(ss_loaded_worker *w, const ss_loaded_tile *tile, ss_loaded_seek *seek, int gap,
                          ss_error *error) {
    ss_status status = SS_OK;
    for (int i = 0; i < LEVELS * WAYS && status == SS_OK; i++) {
        const int way = i % WAYS / 2;
        const double step = i % 2 == 0 ? steps[i / WAYS] : -steps[i / WAYS];
        ss_spread spread;
        if (!take_gap(w, seek, gap, &spread)) {
            break;
        }
        const ss_vehicle train = *spread.train;
        spread.train = &train;
        ss_spread_place place = {.x = spread.x, .distance = train.spacing_m[gap]};
        place.distance += way == 2 ? 0.0 : step;
        place.x += way == 0 ? 0.0 : spread.backward ? -step : step;
        if (place.distance >= spread.least && place.distance <= spread.most) {
            status = try_place(w, tile, seek, &spread, &place, false, error);
        }
    }
    return status;
}

static ss_status spread_one(ss_loaded_worker *w, const ss_loaded_tile *tile, ss_loaded_seek *seek,
                            bool follow, ss_error *error) {
    ss_status status = SS_OK;
    if (seek->truck_count != 1) {
        return SS_OK;
    }
    const int axles = ss_loaded_train(w->loaded, &seek->truck[0])->axle_count;
    for (int round = 0; round < ROUNDS; round++) {
        const double before = seek->value;
        for (int gap = 0; gap + 1 < axles; gap++) SS_TRY(try_gap(w, tile, seek, gap, error));
        if (seek->value <= before * (1.0 + TIE)) {
            break;
        }
    }
    for (int gap = 0; follow && seek->bent && gap + 1 < axles; gap++) {
        SS_TRY(move_gap(w, tile, seek, gap, error));
    }
done:
    return status;
}

ss_status ss_loaded_spread(ss_loaded_worker *w, const ss_loaded_tile *tile, ss_error *error) {
    const double small = SS_LOADED_SMALL * ss_loaded_most(w);
    ss_status status = SS_OK;
    for (int i = 0; i < 2 * tile->count && status == SS_OK; i++) {
        status = spread_one(w, tile, &w->seek[i], w->seek[i].value > small, error);
    }
    return status;
}

/* A place found without loads: both sides of a jump of reactions there are what was found. */
ss_status ss_loaded_spread_from(ss_loaded_worker *w, const ss_loaded_tile *tile, int traffic,
                                const ss_loaded_start *start, ss_error *error) {
    ss_status status = SS_OK;
    ss_loaded_begin_seeks(w, traffic);
    for (int i = 0; i < 2 * tile->count && status == SS_OK; i++) {
        if (start[i].truck.track >= 0) {
            status = ss_loaded_try(w, tile, &w->seek[i], &start[i].truck, 1, start[i].state, error);
        }
    }
    return status == SS_OK ? ss_loaded_spread(w, tile, error) : status;
}
