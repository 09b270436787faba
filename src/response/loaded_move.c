/* loaded_move.c - worst loads of a pattern moved on with contact solved: to those of sections beside, then a
 * little along and across, since bearings that open on the way bend what is linear within a pattern. */
#include "base/numeric.h"
#include "response/course.h"
#include "response/loaded.h"

/* Steps along (m), and across in tracks. The last ones along go to the next place where an axle is at a
 * station. */
enum { LEVELS = 9, STEPS = 7 };
static const double along[STEPS] = {2.4, 1.2, 0.6, 0.3, 0.15, 0.075, 0.04};
static const int across[LEVELS] = {4, 2, 1, 1};

static bool same_trucks(const ss_loaded_seek *a, const ss_loaded_seek *b) {
    bool same = a->truck_count == b->truck_count;
    for (int i = 0; i < a->truck_count && same; i++) {
        same = a->truck[i].track == b->truck[i].track && fabs(a->truck[i].x - b->truck[i].x) < 1e-6 &&
               a->truck[i].on_beam == b->truck[i].on_beam;
    }
    return same;
}

/* The trucks of another seek, where its loading is for this effect too. */
static ss_status borrow(ss_loaded_worker *w, const ss_loaded_tile *tile, ss_loaded_seek *seek,
                        const ss_loaded_seek *from, ss_error *error) {
    const ss_placements *const placements = w->loaded->placements;
    ss_found trucks[SS_LANES_MAX] = {{0}};
    if (from->truck_count == 0 || same_trucks(seek, from)) {
        return SS_OK;
    }
    for (int i = 0; i < from->truck_count; i++) {
        const ss_vehicle_use use = placements->trains[placements->tracks[from->truck[i].track].train].use;
        if ((ss_lane_use(use, &tile->effects[seek->lane]) & (seek->side == 1 ? 2U : 1U)) == 0) {
            return SS_OK;
        }
        trucks[i] = from->truck[i];
    }
    const double before = seek->value;
    const ss_status status = ss_loaded_try(w, tile, seek, trucks, from->truck_count, from->state, error);
    for (int i = 0; seek->value > before && i < SS_LANES_MAX; i++) {
        seek->in_lane[i] = from->in_lane[i];
        seek->which[i] = from->which[i];
    }
    return status;
}

/* A track `steps` on across, of the same train going the same way; the last one there is. */
static int track_beside(const ss_loaded *l, int track, int steps) {
    for (; steps != 0; steps += steps > 0 ? -1 : 1) {
        const int next = steps > 0 ? l->right[track] : l->left[track];
        if (next < 0) {
            break;
        }
        track = next;
    }
    return track;
}

/* Whether the trucks have room beside each other. */
static bool have_room(const ss_loaded *l, int traffic, const ss_loaded_seek *seek, const ss_found *trucks) {
    const ss_bridge *const bridge = ss_grillage_mesh(l->model->permanent->grillage)->bridge;
    const ss_traffic *const of = &l->placements->traffic[traffic];
    if (of->track_count > 0) {
        return true;
    }
    const ss_crossing *const crossing = &bridge->crossings[of->crossing];
    const ss_lane_rule *const rule = ss_lane_rule_of(bridge, crossing->vehicle);
    double gauge[SS_LANES_MAX], low[SS_LANES_MAX], high[SS_LANES_MAX];
    for (int i = 0; i < crossing->lanes; i++) {
        gauge[i] = bridge->vehicles[ss_crossing_truck(crossing, seek->which[i])].gauge_m;
    }
    if (!ss_crossing_ranges(bridge, crossing, gauge, low, high)) {
        return false;
    }
    double last = -SS_INFINITY; /* where the middle of the truck in this lane may be at least */
    for (int lane = 0, i = 0; lane < crossing->lanes; lane++) {
        const double apart =
            lane == 0 || rule->fixed ? 0.0 : 0.5 * (gauge[lane - 1] + gauge[lane]) + rule->between_wheels;
        const double least = ss_max(low[lane], last + apart);
        if (i == seek->truck_count || seek->in_lane[i] != lane) {
            last = least; /* a truck that is off the bridge keeps its room all the same */
            continue;
        }
        const double y = l->placements->tracks[trucks[i++].track].y;
        if (y < least - 1e-9 || y > high[lane] + 1e-9) {
            return false;
        }
        last = y;
    }
    return true;
}

/* The next x before or after that of a truck at which one of its axles is at a station; itself where there is
 * none. */
static double next_stand(const ss_loaded *l, const ss_found *truck, bool after) {
    const ss_course *const course = l->rolls[truck->track].course;
    double next = truck->x;
    for (int i = 0; i < course->stand_count; i++) {
        const double x = course->x[i];
        if (after && x > truck->x + SS_NUDGE) {
            return x;
        }
        next = !after && x < truck->x - SS_NUDGE ? x : next;
    }
    return next;
}

/* Ways that a truck is moved: back, on, left and right. */
enum { WAYS = 4 };

/* One move of one truck, kept where it is for the worse of the effect. */
static ss_status move(ss_loaded_worker *w, const ss_loaded_tile *tile, int traffic, ss_loaded_seek *seek,
                      int truck, int level, int way, ss_error *error) {
    ss_found trucks[SS_LANES_MAX] = {{0}};
    for (int i = 0; i < seek->truck_count; i++) trucks[i] = seek->truck[i];
    ss_found *const t = &trucks[truck];
    if (way < 2) {
        const bool steps = level < STEPS;
        t->x = !steps ? next_stand(w->loaded, t, way == 1) : t->x + (way == 0 ? -along[level] : along[level]);
        t->on_beam = false;
        t->nudge = 0;
        t->t = steps ? 0.0 : -1.0;
    } else {
        const int track = track_beside(w->loaded, t->track, way == 2 ? -across[level] : across[level]);
        if (track == t->track || t->on_beam) {
            return SS_OK;
        }
        t->track = track;
    }
    if (!have_room(w->loaded, traffic, seek, trucks)) {
        return SS_OK;
    }
    return ss_loaded_try(w, tile, seek, trucks, seek->truck_count, seek->state, error);
}

static ss_status move_about(ss_loaded_worker *w, const ss_loaded_tile *tile, int traffic,
                            ss_loaded_seek *seek, ss_error *error) {
    for (int level = 0; level < LEVELS; level++) {
        for (int truck = 0; truck < seek->truck_count; truck++) {
            for (int way = 0; way < WAYS; way++) {
                const ss_status status = move(w, tile, traffic, seek, truck, level, way, error);
                if (status != SS_OK) {
                    return status;
                }
            }
        }
    }
    return SS_OK;
}

ss_status ss_loaded_move(ss_loaded_worker *w, const ss_loaded_tile *tile, int traffic, ss_error *error) {
    ss_status status = SS_OK;
    for (int i = 2; i < 2 * tile->count && status == SS_OK; i++) {
        status = borrow(w, tile, &w->seek[i], &w->seek[i - 2], error);
    }
    for (int i = 2 * tile->count - 3; i >= 0 && status == SS_OK; i--) {
        status = borrow(w, tile, &w->seek[i], &w->seek[i + 2], error);
    }
    const double small = SS_LOADED_SMALL * ss_loaded_most(w);
    for (int i = 0; i < 2 * tile->count && status == SS_OK; i++) {
        if (w->seek[i].value > small && w->seek[i].bent) {
            status = move_about(w, tile, traffic, &w->seek[i], error);
        }
    }
    return status;
}
