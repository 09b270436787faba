/* point_group.c - which points lie between which tracks, and what they differ by from the stands beside them.
 */
#include "response/point_group.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/course.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* A point is at a stand that is this near (m). */
#define SAME_PLACE 2e-9

void ss_point_groups_destroy(ss_point_groups *groups) {
    ss_free(groups->items);
    ss_free(groups->point);
    ss_sparse_destroy(&groups->wheel);
    ss_sparse_destroy(&groups->bend);
    ss_arena_destroy(&groups->strips.arena);
    *groups = (ss_point_groups){0};
}

/* A point that is to be put into a group: stands of both rolls at its x, and how far across from the first to
 * the second it lies. */
typedef struct found_point {
    ss_group_point point;
    int stand[2], block; /* -1: unknown */
    double t;
} found_point;

typedef struct builder {
    const ss_axle_plans *plans;
    const ss_placements *placements;
    const ss_roll *rolls;
    ss_point_groups made;
    bool *in_strip; /* plan x plan: the second lies in the strip of the first */
    found_point *found;
    int found_count, found_capacity;
    int wheel_count, wheel_capacity; /* of the group at hand */
    int *wheel_axle, *wheel_row;
    double *wheel_by;
    double *room; /* 4 n: of a point, and last the bends of the group at hand */
    ss_error *error;
} builder;

/* ---- storage ------------------------------------------------------------------------------------ */

static ss_status add_group(builder *b, const ss_point_group *group) {
    ss_point_groups *const g = &b->made;
    if (g->count == g->capacity) {
        const size_t capacity = 2 * (size_t)g->capacity + 256;
        ss_point_group *const items = ss_realloc(g->items, capacity, sizeof *items);
        if (items == NULL) {
            return ss_no_memory(b->error);
        }
        g->items = items;
        g->capacity = (int)capacity;
    }
    g->items[g->count++] = *group;
    const bool added = ss_sparse_add(&g->bend, b->room + 3 * (size_t)g->n, g->n) == SS_OK &&
                       ss_sparse_append(&g->wheel, b->wheel_row, b->wheel_by, b->wheel_count) == SS_OK;
    return added ? SS_OK : ss_no_memory(b->error);
}

static ss_status add_point(builder *b, ss_group_point point) {
    ss_point_groups *const g = &b->made;
    if (g->point_count == g->point_capacity) {
        const int capacity = 2 * g->point_capacity + 1024;
        ss_group_point *const grown = ss_realloc(g->point, (size_t)capacity, sizeof *grown);
        if (grown == NULL) {
            return ss_no_memory(b->error);
        }
        g->point = grown;
        g->point_capacity = capacity;
    }
    g->point[g->point_count++] = point;
    return SS_OK;
}

/* Axles on beams of the group at hand, each pair once. */
static ss_status add_wheel(builder *b, int axle, int row, double P) {
    for (int i = 0; i < b->wheel_count; i++) {
        if (b->wheel_axle[i] == axle && b->wheel_row[i] == row) {
            return SS_OK;
        }
    }
    if (b->wheel_count == b->wheel_capacity) {
        const size_t capacity = 2 * (size_t)b->wheel_capacity + 64;
        int *const axles = ss_realloc(b->wheel_axle, capacity, sizeof *axles);
        b->wheel_axle = axles != NULL ? axles : b->wheel_axle;
        int *const rows = ss_realloc(b->wheel_row, capacity, sizeof *rows);
        b->wheel_row = rows != NULL ? rows : b->wheel_row;
        double *const by = ss_realloc(b->wheel_by, capacity, sizeof *by);
        b->wheel_by = by != NULL ? by : b->wheel_by;
        if (axles == NULL || rows == NULL || by == NULL) {
            return ss_no_memory(b->error);
        }
        b->wheel_capacity = (int)capacity;
    }
    b->wheel_axle[b->wheel_count] = axle;
    b->wheel_row[b->wheel_count] = row;
    b->wheel_by[b->wheel_count++] = P;
    return SS_OK;
}

/* ---- one point ---------------------------------------------------------------------------------- */

/* The stand of a roll at x, just after it; -1: none. */
static int stand_at(const ss_roll *r, double x) {
    int low = 0, high = r->stand_count;
    while (high - low > 1) {
        const int middle = (low + high) / 2;
        if (r->x[middle] <= x + SAME_PLACE) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return high > low && fabs(r->x[low] - x) <= SAME_PLACE && r->place[low] >= 0 ? low : -1;
}

static int block_at(const ss_roll *r, int stand) {
    int low = 0, high = r->block_count;
    while (high - low > 1) {
        const int middle = (low + high) / 2;
        if (r->block[middle].first <= stand) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return high > low ? low : -1;
}

/* Notes the points of a roll that lies `t` of the way from `near` to `far`. */
static ss_status find_points(builder *b, const ss_roll *near, const ss_roll *far, int roll, double t) {
    const ss_roll *r = &b->rolls[roll];
    if (b->found == NULL || b->found_count + r->point_count > b->found_capacity) {
        const int capacity = 2 * b->found_capacity + r->point_count + 256;
        found_point *const grown = ss_realloc(b->found, (size_t)capacity, sizeof *grown);
        if (grown == NULL) {
            return ss_no_memory(b->error);
        }
        b->found = grown;
        b->found_capacity = capacity;
    }
    for (int i = r->stand_count; i < r->stand_count + r->point_count; i++) {
        found_point f = {
            .point = {roll, i}, .stand = {stand_at(near, r->x[i]), stand_at(far, r->x[i])}, .t = t};
        /* Just after the last stand the truck is off the bridge, beyond all blocks. */
        const bool within = f.stand[0] >= 0 && f.stand[1] >= 0 && f.stand[0] + 1 < near->stand_count;
        f.block = within ? block_at(near, f.stand[0]) : -1;
        b->found[b->found_count++] = f;
    }
    return SS_OK;
}

/* ---- groups ------------------------------------------------------------------------------------- */

static ss_status take_point(builder *b, ss_point_group *group, const found_point *f) {
    const ss_roll *near = &b->rolls[group->roll[0]], *far = &b->rolls[group->roll[1]];
    const ss_roll *r = &b->rolls[f->point.roll];
    const int index = f->point.index;
    const size_t n = (size_t)r->n;
    ss_status status = add_point(b, f->point);
    const bool known =
        f->block >= 0 && r->valid[index] && near->valid[f->stand[0]] && far->valid[f->stand[1]];
    group->unknown = group->unknown || !known;
    double *const bend = b->room + 3 * n;
    double *const from = b->room, *const to = from + n, *const here = to + n;
    if (known) {
        ss_sparse_expand(ss_sparse_at(&near->openings, f->stand[0]), from, r->n);
        ss_sparse_expand(ss_sparse_at(&far->openings, f->stand[1]), to, r->n);
        ss_sparse_expand(ss_sparse_at(&r->openings, index), here, r->n);
    }
    for (size_t k = 0; known && k < n; k++) {
        bend[k] = ss_max(bend[k], fabs(here[k] - (1.0 - f->t) * from[k] - f->t * to[k]));
    }
    const ss_axle_at *const at = ss_roll_at(r, index);
    for (int a = 0; a < r->vehicle->axle_count && status == SS_OK; a++) {
        if (at[a].beam >= 0 && b->plans->plan[r->plan[a]].on_beam[at[a].beam]) {
            b->in_strip[(size_t)near->plan[a] * (size_t)b->plans->count + (size_t)r->plan[a]] = true;
            status = add_wheel(b, a, near->plan[a] * b->plans->beam_station_count + at[a].beam,
                               r->vehicle->axle_N[a]);
        }
    }
    return status;
}

/* Points of one block; those that are in none come as block -1. */
static ss_status make_group(builder *b, int traffic, int near, int far, int block) {
    ss_status status = SS_OK;
    ss_point_group group = {.traffic = traffic,
                            .roll = {near, far},
                            .block = block,
                            .unknown = block < 0,
                            .point_first = b->made.point_count};
    const size_t n = (size_t)b->made.n;
    bool begun = false;
    b->wheel_count = 0;
    for (size_t k = 0; k < n; k++) b->room[3 * n + k] = 0.0;
    for (int i = 0; i < b->found_count; i++) {
        if (b->found[i].block != block) {
            continue;
        }
        begun = true;
        SS_TRY(take_point(b, &group, &b->found[i]));
    }
    if (begun) {
        group.point_end = b->made.point_count;
        SS_TRY(add_group(b, &group));
    }
done:
    return status;
}

/* The next track with stands on the same course, by y; the track itself when there is none. */
static int next_track(const builder *b, const ss_traffic *traffic, int track) {
    const ss_track *t = b->placements->tracks;
    int next = track;
    for (int i = traffic->first_track; i < traffic->first_track + traffic->track_count; i++) {
        const bool beyond = t[i].y > t[track].y && b->rolls[i].block_count > 0 &&
                            b->rolls[i].course == b->rolls[track].course;
        if (beyond && (next == track || t[i].y < t[next].y)) {
            next = i;
        }
    }
    return next;
}

static ss_status group_track(builder *b, int index, int track) {
    ss_status status = SS_OK;
    const ss_traffic *traffic = &b->placements->traffic[index];
    const ss_track *t = b->placements->tracks;
    const ss_roll *near = &b->rolls[track];
    const int next = next_track(b, traffic, track);
    b->found_count = 0;
    SS_TRY(find_points(b, near, &b->rolls[next], track, 0.0));
    for (int i = traffic->first_track; i < traffic->first_track + traffic->track_count; i++) {
        if (b->rolls[i].block_count == 0 && b->rolls[i].course == near->course && t[i].y > t[track].y &&
            t[i].y < t[next].y) {
            SS_TRY(
                find_points(b, near, &b->rolls[next], i, (t[i].y - t[track].y) / (t[next].y - t[track].y)));
        }
    }
    for (int block = -1; block < near->block_count; block++) {
        SS_TRY(make_group(b, index, track, next, block));
    }
done:
    return status;
}

/* Points of a track that no others lie beside are tried one by one. */
static bool lies_between(const builder *b, const ss_traffic *traffic, int track) {
    const ss_track *t = b->placements->tracks;
    bool below = false, above = false;
    for (int i = traffic->first_track; i < traffic->first_track + traffic->track_count; i++) {
        if (b->rolls[i].block_count > 0 && b->rolls[i].course == b->rolls[track].course) {
            below = below || t[i].y < t[track].y;
            above = above || t[i].y > t[track].y;
        }
    }
    return below && above;
}

static ss_status list_strips(builder *b) {
    ss_strips *const s = &b->made.strips;
    const size_t count = (size_t)b->plans->count;
    int total = 0;
    for (size_t i = 0; i < count * count; i++) total += b->in_strip[i];
    s->count = b->plans->count;
    s->first = ss_arena_alloc(&s->arena, count + 1, sizeof *s->first);
    s->plan = ss_arena_alloc(&s->arena, (size_t)total + 1, sizeof *s->plan);
    if (s->first == NULL || s->plan == NULL) {
        return ss_no_memory(b->error);
    }
    total = 0;
    for (size_t i = 0; i < count; i++) {
        s->first[i] = total;
        for (size_t k = 0; k < count; k++) {
            if (b->in_strip[i * count + k]) {
                s->plan[total++] = (int)k;
            }
        }
    }
    s->first[count] = total;
    return SS_OK;
}

static ss_status group_all(builder *b) {
    ss_status status = SS_OK;
    for (int i = 0; i < b->placements->traffic_count; i++) {
        const ss_traffic *traffic = &b->placements->traffic[i];
        for (int k = traffic->first_track; k < traffic->first_track + traffic->track_count; k++) {
            if (b->rolls[k].block_count > 0) {
                SS_TRY(group_track(b, i, k));
            } else if (b->rolls[k].point_count > 0 && !lies_between(b, traffic, k)) {
                b->found_count = 0;
                SS_TRY(find_points(b, &b->rolls[k], &b->rolls[k], k, 0.0));
                SS_TRY(make_group(b, i, k, k, -1));
            }
        }
    }
done:
    return status;
}

ss_status ss_point_groups_build(const ss_axle_plans *plans, const ss_placements *placements,
                                const ss_roll *rolls, ss_point_groups *out, ss_error *error) {
    const size_t count = (size_t)plans->count;
    ss_status status = SS_OK;
    builder b = {.plans = plans, .placements = placements, .rolls = rolls, .error = error};
    for (int i = 0; i < placements->track_count; i++) {
        b.made.n = rolls[i].n > b.made.n ? rolls[i].n : b.made.n;
    }
    b.in_strip = ss_alloc(count * count, sizeof *b.in_strip);
    b.room = ss_alloc(4 * (size_t)b.made.n, sizeof *b.room);
    SS_TRY(b.in_strip == NULL || b.room == NULL ? ss_no_memory(error) : SS_OK);
    SS_TRY(group_all(&b));
    SS_TRY(list_strips(&b));
    *out = b.made;
    b.made = (ss_point_groups){0};
done:
    ss_free(b.in_strip);
    ss_free(b.room);
    ss_free(b.wheel_axle);
    ss_free(b.wheel_row);
    ss_free(b.wheel_by);
    ss_free(b.found);
    ss_point_groups_destroy(&b.made);
    return status;
}
