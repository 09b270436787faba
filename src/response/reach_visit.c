/* reach_visit.c - all stands and points of a place, and the cells between stands, tried for the effects of a
 * packed tile. */
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/clones.h"
#include "response/reach_exact.h"
#include "response/state.h"

/* Share of an effect that openings may add within a cell beyond what its lines do there. */
#define BENDS 0.01f

/* What a vehicle does to each effect of the tile at a stand, by the block's own pattern under each dead load.
 */
typedef struct estimates {
    float live[SS_REACH_DEADS][SS_TILE];
} estimates;

/* What is being visited. */
typedef struct visited {
    ss_reach_exact_task *x;
    const ss_reach_place *place;
    const ss_course *course;
    int track;
    int room_count;
    ss_reach_room *room;       /* demand x dead, in the block's own patterns */
    int local[SS_REACH_DEADS]; /* those patterns, near the multiples that are sought */
    unsigned use;              /* of the train, see ss_lane_use */
    const ss_vehicle *loaded;  /* the train when it has a lane load, or NULL */
    float lane_most[SS_REACH_DEADS][SS_TILE], lane_least[SS_REACH_DEADS][SS_TILE]; /* of 1 N/m */
} visited;

/* ---- stands ------------------------------------------------------------------------------------- */

/* Live effects with the bearings opened. */
SS_CLONES
static void add_openings(const double *restrict closed, const float *restrict effect,
                         const double *restrict opening, int n, float *restrict out) {
    for (int lane = 0; lane < SS_TILE; lane++) out[lane] = (float)closed[lane];
    for (int k = 0; k < n; k++) {
        const float by = (float)opening[k];
        for (int lane = 0; by != 0.0f && lane < SS_TILE; lane++) out[lane] += by * effect[k * SS_TILE + lane];
    }
}

/* The block's patterns at the level nearest to what has been found under each dead load. */
static void choose_local(visited *v) {
    static const double level[SS_REACH_LEVELS] = SS_REACH_LEVEL_VALUES;
    const ss_reacher *const reach = v->x->job->worker->reach;
    for (int d = 0; d < reach->dead_count; d++) {
        double multiple = SS_INFINITY;
        for (int i = 0; i < v->x->room_count; i++) {
            const int q = v->x->room[i].demand;
            const ss_reached *const best = ss_reach_result(v->x->job, q, v->x->traffic);
            if (v->x->room[i].dead == d && best->effect >= 0) {
                const double scale = ss_reach_scale(v->x->job, q, v->x->traffic, best->effect);
                multiple = ss_min(multiple, best->factor * scale);
            }
        }
        int k = 0;
        while (isfinite(multiple) && k + 1 < SS_REACH_LEVELS &&
               multiple * multiple > level[k] * level[k + 1]) {
            k++;
        }
        v->local[d] = v->place->local[d * SS_REACH_LEVELS + k];
    }
}

/* Rooms of the block: its own pattern is open under the dead load already. */
static void fill_rooms(visited *v) {
    const ss_reach_worker *const w = v->x->job->worker;
    const ss_reacher *const reach = w->reach;
    const size_t n = (size_t)reach->n;
    v->room_count = 0;
    for (int i = 0; i < v->x->room_count; i++) {
        const ss_reach_room *const like = &v->x->room[i];
        if (like->surveyed != 0) {
            continue;
        }
        ss_reach_room *const room = &v->room[v->room_count++];
        *room = *like;
        float beyond[SS_TILE] = {0};
        const ss_pattern *const local = &w->patterns.items[v->local[like->dead]],
                                *const base = &w->patterns.items[reach->surveyed[0]];
        for (size_t k = 0; k < n; k++) {
            const float by = (float)((local->open[k] ? local->dead[(size_t)like->dead * n + k] : 0.0) -
                                     (base->open[k] ? base->dead[(size_t)like->dead * n + k] : 0.0));
            for (int lane = 0; by != 0.0f && lane < SS_TILE; lane++) {
                beyond[lane] += by * w->opening[k * SS_TILE + (size_t)lane];
            }
        }
        for (int lane = 0; lane < SS_TILE; lane++) {
            room->most[lane] -= beyond[lane];
            room->least[lane] += beyond[lane];
        }
    }
}

static double estimated_multiple(float room, float toward) {
    return toward > 0.0f ? ss_max((double)room, 0.0) / (double)toward : SS_INFINITY;
}

/* Adds the lane load where it is adverse to the largest and least live effects. */
static void add_lane(const visited *v, const ss_reach_room *room, float high[SS_TILE], float low[SS_TILE]) {
    const ss_reach_exact_task *const x = v->x;
    for (int lane = 0; v->loaded != NULL && lane < x->lanes; lane++) {
        const float by =
            (float)ss_reach_lane_load(x->job, room->demand, x->traffic, x->effect[lane], v->loaded);
        high[lane] += by * v->lane_most[room->dead][lane];
        low[lane] += by * v->lane_least[room->dead][lane];
    }
}

static ss_status try_lane(const visited *v, const ss_reach_room *room, int lane, bool most, float toward,
                          ss_reach_stand *stand) {
    const ss_reach_try t = {room, lane, most,
                            estimated_multiple(most ? room->most[lane] : room->least[lane], toward),
                            v->local[room->dead]};
    if ((v->use & (most ? 2u : 1u)) == 0) {
        return SS_OK;
    }
    return v->loaded != NULL ? ss_reach_try_loaded(v->x, &t, stand) : ss_reach_try_stand(v->x, &t, stand);
}

static ss_status try_estimates(const visited *v, const estimates *at, ss_reach_stand *stand) {
    ss_reach_exact_task *const x = v->x;
    ss_status status = SS_OK;
    for (int i = 0; i < v->room_count; i++) {
        const ss_reach_room *const room = &v->room[i];
        const float *const worth = x->worth[room->demand];
        float high[SS_TILE], low[SS_TILE];
        memcpy(high, at->live[room->dead], sizeof high);
        memcpy(low, at->live[room->dead], sizeof low);
        add_lane(v, room, high, low);
        if (!ss_reach_beats(room, worth, high, low)) {
            continue;
        }
        for (int lane = 0; lane < x->lanes && status == SS_OK; lane++) {
            if (worth[lane] > 0.0f && high[lane] * worth[lane] >= room->most[lane]) {
                status = try_lane(v, room, lane, true, high[lane], stand);
            }
            if (status == SS_OK && worth[lane] > 0.0f && -low[lane] * worth[lane] >= room->least[lane]) {
                status = try_lane(v, room, lane, false, -low[lane], stand);
            }
        }
    }
    return status;
}

/* A vehicle at a place of its course: its effects, tried; the estimates remain in `out`. */
static ss_status try_stand(const visited *v, const ss_axle_at *at, double front, bool on_beam, bool left,
                           estimates *out) {
    ss_reach_worker *const w = v->x->job->worker;
    const ss_reacher *const reach = w->reach;
    ss_reach_stand stand;
    ss_reach_stand_begin(&stand, &(ss_position){.track = v->track, .x = front, .on_beam = on_beam}, w->live,
                         false);
    ss_course_sum(&w->lines, v->course, v->track, at, left, stand.closed);
    ss_reach_reactions(reach, v->course, v->track, at, left, w->live);
    for (int d = 0; d < reach->dead_count; d++) {
        int same = 0; /* often one pattern under several dead loads */
        while (v->local[same] != v->local[d]) same++;
        if (same < d) {
            memcpy(out->live[d], out->live[same], sizeof out->live[d]);
            continue;
        }
        ss_pattern_openings(&w->patterns.items[v->local[d]], reach->n, w->live, w->weight);
        add_openings(stand.closed, w->opening, w->weight, reach->n, out->live[d]);
    }
    return try_estimates(v, out, &stand);
}

/* ---- cells -------------------------------------------------------------------------------------- */

/* Zeros of a cubic's slope within (0, 1). */
static int turning_points(double c1, double c2, double c3, double t[2]) {
    const double a = 3.0 * c3, d = c2 * c2 - a * c1;
    int count = 0;
    if (d < 0.0) {
        return 0;
    }
    const double q = -(c2 + (c2 < 0.0 ? -sqrt(d) : sqrt(d)));
    if (a != 0.0 && q / a > 0.0 && q / a < 1.0) {
        t[count++] = q / a;
    }
    if (q != 0.0 && c1 / q > 0.0 && c1 / q < 1.0) {
        t[count++] = c1 / q;
    }
    return count;
}

/* The cubic of one lane in the block's pattern under a dead load: closed, and reactions by their weights. */
static void cubic_of(const visited *v, const double *closed, int lane, int dead, double c[4]) {
    ss_reach_worker *const w = v->x->job->worker;
    const size_t n = (size_t)w->reach->n;
    ss_patterns_weigh(&w->patterns, v->local[dead], v->x->job->opening + (size_t)v->x->effect[lane] * n,
                      w->weight);
    for (int d = 0; d < 4; d++) {
        c[d] = closed[d * SS_TILE + lane];
        for (size_t j = 0; j < n; j++) {
            c[d] += w->weight[j] * w->live_cubic[(j / SS_TILE * 4 + (size_t)d) * SS_TILE + j % SS_TILE];
        }
    }
}

/* Tries the places within a cell where effects that may beat what has been found turn. */
static ss_status look_into_cell(const visited *v, int index, const bool *promising, int dead) {
    ss_reach_worker *const w = v->x->job->worker;
    const ss_reacher *const reach = w->reach;
    const ss_axle_at *const at = v->course->at + (size_t)index * (size_t)v->course->vehicle->axle_count;
    const double length = v->course->x[index + 1] - v->course->x[index];
    double closed[4 * SS_TILE], tried[2 * SS_TILE];
    int tried_count = 0;
    ss_course_cubic(&w->lines, v->course, v->track, at, length, closed);
    for (int tile = 0; tile < reach->dead[0].tile_count; tile++) {
        ss_course_cubic(&reach->dead[0].lines[tile], v->course, v->track, at, length,
                        w->live_cubic + (size_t)tile * 4 * SS_TILE);
    }
    for (int lane = 0; lane < v->x->lanes; lane++) {
        double c[4], t[2];
        if (!promising[lane]) {
            continue;
        }
        cubic_of(v, closed, lane, dead, c);
        const int turns = turning_points(c[1], c[2], c[3], t);
        for (int k = 0; k < turns; k++) tried[tried_count++] = v->course->x[index] + t[k] * length;
    }
    ss_sort_unique(tried, &tried_count, 1e-6);
    ss_status status = SS_OK;
    for (int k = 0; k < tried_count && status == SS_OK; k++) {
        ss_axle_at here[SS_AXLES_MAX];
        estimates out;
        ss_course_locate(&reach->plans, v->course, tried[k], false, here);
        status = try_stand(v, here, tried[k], false, false, &out);
    }
    return status;
}

/* Lanes that may beat what has been found within the cell that begins at a stand: from both its ends a cubic
 * goes no farther than its curvature lets it. The dead load of the last one; -1: none. */
static int find_promising(const visited *v, int index, const estimates *a, const estimates *b,
                          bool *promising) {
    const ss_axle_at *const at = v->course->at + (size_t)index * (size_t)v->course->vehicle->axle_count;
    int dead = -1;
    float slack[SS_TILE];
    ss_course_slack(&v->x->job->worker->lines, v->course, v->track, at,
                    v->course->x[index + 1] - v->course->x[index], slack);
    memset(promising, 0, SS_TILE * sizeof *promising);
    for (int i = 0; i < v->room_count; i++) {
        const ss_reach_room *const room = &v->room[i];
        const float *const worth = v->x->worth[room->demand];
        float high[SS_TILE], low[SS_TILE];
        for (int lane = 0; lane < SS_TILE; lane++) {
            const float x = a->live[room->dead][lane], y = b->live[room->dead][lane];
            const float most = x > y ? x : y, least = x < y ? x : y;
            high[lane] = most + slack[lane] + (most > 0.0f ? BENDS * most : 0.0f);
            low[lane] = least - slack[lane] + (least < 0.0f ? BENDS * least : 0.0f);
        }
        add_lane(v, room, high, low);
        if (!ss_reach_beats(room, worth, high, low)) {
            continue;
        }
        for (int lane = 0; lane < v->x->lanes; lane++) {
            if (worth[lane] > 0.0f && (high[lane] * worth[lane] >= room->most[lane] ||
                                       -low[lane] * worth[lane] >= room->least[lane])) {
                promising[lane] = true;
                dead = room->dead;
            }
        }
    }
    return dead;
}

/* ---- blocks ------------------------------------------------------------------------------------- */

static ss_status visit_stands(const visited *v) {
    const ss_reach_worker *const w = v->x->job->worker;
    const ss_contact_model *const contact = &w->reach->dead[0];
    const ss_course_block *const block = &v->course->block[v->place->block];
    const size_t axles = (size_t)v->course->vehicle->axle_count;
    estimates before, after;
    ss_status status = SS_OK;
    for (int i = block->first; i <= block->last && status == SS_OK; i++) {
        const ss_axle_at *const at = v->course->at + (size_t)i * axles;
        const double x = v->course->x[i];
        bool jumps = ss_course_jumps(&w->lines, v->course, v->track, at);
        for (int tile = 0; tile < contact->tile_count && !jumps; tile++) {
            jumps = ss_course_jumps(&contact->lines[tile], v->course, v->track, at);
        }
        status = try_stand(v, at, jumps ? x - SS_NUDGE : x, false, true, &before);
        bool promising[SS_TILE];
        const int dead =
            status == SS_OK && i > block->first ? find_promising(v, i - 1, &after, &before, promising) : -1;
        if (dead >= 0) {
            status = look_into_cell(v, i - 1, promising, dead);
        }
        after = before;
        if (status == SS_OK && jumps) {
            status = try_stand(v, at, x + SS_NUDGE, false, false, &after);
        }
    }
    return status;
}

static ss_status visit_points(const visited *v) {
    const ss_course_block *const block = &v->course->block[v->place->block];
    ss_status status = SS_OK;
    for (int i = block->point_first; i < block->point_end && status == SS_OK; i++) {
        const int index = v->course->stand_count + i;
        const ss_axle_at *const at = v->course->at + (size_t)index * (size_t)v->course->vehicle->axle_count;
        estimates out;
        if (ss_course_on_beam(&v->x->job->worker->reach->plans, v->course, v->track, at)) {
            status = try_stand(v, at, v->course->x[index], true, false, &out);
        }
    }
    return status;
}

/* Another track: the lane load on it. */
static void take_track(visited *v, int track) {
    ss_reach_worker *const w = v->x->job->worker;
    v->track = track;
    ss_reach_ready(v->x->job->worker, track);
    if (v->loaded == NULL) {
        return;
    }
    const ss_lane_tile tile = ss_reach_lane_tile(v->x);
    const int plan = ss_axle_plan_of(&w->reach->plans, track, ss_widest_axle(v->loaded));
    for (int d = 0; d < w->reach->dead_count; d++) {
        const ss_lane_sums *const sums =
            ss_lane_sums_of(&w->lane, &tile, plan, v->local[d], &w->patterns.items[v->local[d]]);
        memcpy(v->lane_most[d], sums->most, sizeof sums->most);
        memcpy(v->lane_least[d], sums->least, sizeof sums->least);
    }
}

/* Takes pattern `rank` of those met at limits instead of the block's own. False: it is none of its own. */
static bool take_met(visited *v, int rank) {
    const ss_reach_job *const job = v->x->job;
    bool differs = false;
    for (int d = 0; d < job->worker->reach->dead_count; d++) {
        const ss_reach_met *const met = &job->met[d];
        if (rank < met->count && met->pattern[rank] != v->local[d]) {
            v->local[d] = met->pattern[rank];
            differs = true;
        }
    }
    return differs;
}

static ss_status visit_tracks(visited *v) {
    const ss_reacher *const reach = v->x->job->worker->reach;
    const ss_traffic *const traffic = &reach->placements->traffic[v->x->traffic];
    ss_status status = SS_OK;
    fill_rooms(v);
    for (int t = traffic->first_track; t < traffic->first_track + traffic->track_count; t++) {
        if (reach->courses.of_track[t] != v->place->course || reach->bins.of_track[t] != v->place->strip) {
            continue;
        }
        const bool fine = reach->placements->tracks[t].fine && !reach->mesh->bridge->deck.along;
        if (fine && reach->n > 0 && v->x->job->member->effects[0].member != SS_MEMBER_BEAM) {
            continue; /* there for sections of floor beams; others feel the next track as much */
        }
        take_track(v, t);
        /* Through the deck effects are linear in y between its kinks: fine tracks are there for floor beams,
         * and for contact, which bends them. */
        if (!fine) {
            SS_TRY(visit_stands(v));
        }
        SS_TRY(visit_points(v));
    }
done:
    return status;
}

ss_status ss_reach_visit(ss_reach_exact_task *x, const ss_reach_place *place) {
    const ss_reacher *const reach = x->job->worker->reach;
    ss_status status = SS_OK;
    visited v = {
        .x = x, .place = place, .course = &reach->courses.items[place->course], .room = x->local_room};
    v.use = ss_lane_use(v.course->vehicle->use, &x->job->member->effects[0]);
    v.loaded = v.course->vehicle->lane_N_m > 0.0 ? v.course->vehicle : NULL;
    if (v.use == 0) {
        return SS_OK;
    }
    SS_TRY(ss_reach_tidy(x));
    choose_local(&v);
    SS_TRY(visit_tracks(&v));
    /* The block's patterns are those of trucks alone: lane loads bring about others. */
    for (int rank = 0; v.loaded != NULL && rank < SS_REACH_MET; rank++) {
        choose_local(&v);
        if (take_met(&v, rank)) {
            SS_TRY(visit_tracks(&v));
        }
    }
done:
    return status;
}
