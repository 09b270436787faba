/* course.c - the stands of a train along the bridge, in blocks, and sums of influence lines over its axles.
 */
#include "response/course.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/clones.h"
#include "response/roll_parts.h"
#include "response/state.h"
#include "sillspan/memory.h"

enum { CELLS_IN_BLOCK = 12 };

/* Stands nearer than this are one (m). */
#define SAME_STAND 1e-9

void ss_courses_destroy(ss_courses *courses) {
    ss_arena_destroy(&courses->arena);
    *courses = (ss_courses){0};
}

/* ---- geometry ----------------------------------------------------------------------------------- */

void ss_course_locate(const ss_axle_plans *plans, const ss_course *course, double x, bool on_beam,
                      ss_axle_at *at) {
    for (int a = 0; a < course->vehicle->axle_count; a++) {
        const double axle_x = ss_axle_x(course->vehicle, course->backward, x, a);
        at[a] = ss_axle_locate(plans, axle_x);
        for (int k = 0; on_beam && k < plans->beam_station_count; k++) {
            if (fabs(plans->mesh->station[plans->beam_station[k]] - axle_x) <= SS_ON_BEAM) {
                at[a].beam = k;
            }
        }
    }
}

bool ss_course_on_beam(const ss_axle_plans *plans, const ss_course *course, int track, const ss_axle_at *at) {
    for (int a = 0; a < course->vehicle->axle_count; a++) {
        if (at[a].beam >= 0 && plans->plan[ss_axle_plan_of(plans, track, a)].on_beam[at[a].beam]) {
            return true;
        }
    }
    return false;
}

/* Every x of the front axle at which some axle is at one of the stations (NULL: all); appended to x. */
static int list_places(const ss_axle_plans *plans, const ss_course *course, const int *stations,
                       int station_count, double *x) {
    int count = 0;
    for (int a = 0; a < course->vehicle->axle_count; a++) {
        const double offset = ss_axle_x(course->vehicle, course->backward, 0.0, a);
        for (int k = 0; k < station_count; k++) {
            x[count++] = plans->mesh->station[stations == NULL ? k : stations[k]] - offset;
        }
    }
    ss_sort_unique(x, &count, SAME_STAND);
    return count;
}

static void fill_range(const ss_axle_plans *plans, ss_course *course, int index) {
    const ss_course_block *const block = &course->block[index];
    const double *const station = plans->mesh->station;
    const double begin = station[0], end = station[plans->interval_count];
    double low = course->x[block->first], high = course->x[block->last];
    if (block->point_end > block->point_first) {
        low = ss_min(low, course->x[course->stand_count + block->point_first]);
        high = ss_max(high, course->x[course->stand_count + block->point_end - 1]);
    }
    for (int a = 0; a < course->vehicle->axle_count; a++) {
        ss_course_range *const range =
            &course->range[(size_t)index * (size_t)course->vehicle->axle_count + (size_t)a];
        const double x0 = ss_axle_x(course->vehicle, course->backward, low, a) - SS_ON_BEAM;
        const double x1 = ss_axle_x(course->vehicle, course->backward, high, a) + SS_ON_BEAM;
        *range = (ss_course_range){.first = 0, .last = -1, .outside = x0 < begin || x1 > end};
        if (x1 < begin || x0 > end) {
            continue;
        }
        const ss_axle_at first = ss_axle_locate(plans, ss_max(x0, begin));
        const ss_axle_at last = ss_axle_locate(plans, ss_min(x1, end));
        range->first = first.interval < 0 ? plans->interval_count - 1 : first.interval;
        range->last = last.interval < 0 ? plans->interval_count - 1 : last.interval;
    }
}

/* Whether some axle comes onto the bridge or leaves it at a stand: what it does changes at once there. */
static bool at_an_end(const ss_axle_plans *plans, const ss_course *course, int stand) {
    const ss_axle_at *const at = course->at + (size_t)stand * (size_t)course->vehicle->axle_count;
    for (int a = 0; a < course->vehicle->axle_count; a++) {
        if (at[a].station == 0 || at[a].station == plans->interval_count) {
            return true;
        }
    }
    return false;
}

/* Points at the limit of two blocks belong to both. */
static void fill_block(const ss_axle_plans *plans, ss_course *course, int index, int first, int last) {
    ss_course_block *const block = &course->block[index];
    const double *const point = course->x + course->stand_count;
    int from = 0, to = 0;
    while (from < course->point_count && point[from] < course->x[first] - SS_ON_BEAM) from++;
    for (to = from; to < course->point_count && point[to] <= course->x[last] + SS_ON_BEAM; to++) {
    }
    *block = (ss_course_block){first, last, from, to};
    fill_range(plans, course, index);
}

static void fill_blocks(const ss_axle_plans *plans, ss_course *course) {
    int first = 0;
    course->block_count = 0;
    for (int i = 1; i < course->stand_count; i++) {
        if (i - first == CELLS_IN_BLOCK || i + 1 == course->stand_count || at_an_end(plans, course, i)) {
            fill_block(plans, course, course->block_count++, first, i);
            first = i;
        }
    }
    if (course->block_count == 0) {
        fill_block(plans, course, course->block_count++, 0, course->stand_count - 1);
    }
}

static ss_status build_course(ss_courses *courses, const ss_vehicle *vehicle, int train, bool backward,
                              ss_error *error) {
    const ss_axle_plans *const plans = courses->plans;
    const size_t axles = (size_t)vehicle->axle_count;
    const int stations = plans->interval_count + 1;
    ss_course *const c = &courses->items[courses->count];
    *c = (ss_course){.vehicle = vehicle, .train = train, .backward = backward};
    const size_t most = axles * (size_t)(stations + plans->beam_station_count);
    c->x = ss_arena_alloc(&courses->arena, most, sizeof *c->x);
    if (c->x == NULL) {
        return ss_no_memory(error);
    }
    c->stand_count = list_places(plans, c, NULL, stations, c->x);
    c->point_count =
        list_places(plans, c, plans->beam_station, plans->beam_station_count, c->x + c->stand_count);
    const int places = c->stand_count + c->point_count;
    const size_t blocks =
        (size_t)c->stand_count / CELLS_IN_BLOCK + 2 * axles + 2; /* ends of the bridge cut some short */
    c->at = ss_arena_alloc(&courses->arena, (size_t)places * axles, sizeof *c->at);
    c->block = ss_arena_alloc(&courses->arena, blocks, sizeof *c->block);
    c->range = ss_arena_alloc(&courses->arena, blocks * axles, sizeof *c->range);
    if (c->at == NULL || c->block == NULL || c->range == NULL) {
        return ss_no_memory(error);
    }
    for (int i = 0; i < places; i++) {
        ss_course_locate(plans, c, c->x[i], i >= c->stand_count, c->at + (size_t)i * axles);
    }
    fill_blocks(plans, c);
    courses->count++;
    return SS_OK;
}

ss_status ss_courses_build(const ss_axle_plans *plans, const ss_placements *placements, ss_courses *out,
                           ss_error *error) {
    ss_status status = SS_OK;
    ss_courses courses = {.plans = plans};
    courses.items =
        ss_arena_alloc(&courses.arena, 2 * (size_t)placements->train_count + 1, sizeof *courses.items);
    courses.of_track =
        ss_arena_alloc(&courses.arena, (size_t)placements->track_count + 1, sizeof *courses.of_track);
    SS_TRY(courses.items == NULL || courses.of_track == NULL ? ss_no_memory(error) : SS_OK);
    for (int t = 0; t < placements->track_count; t++) {
        const ss_track *const track = &placements->tracks[t];
        int found = 0;
        while (found < courses.count && (courses.items[found].train != track->train ||
                                         courses.items[found].backward != track->backward)) {
            found++;
        }
        if (found == courses.count) {
            SS_TRY(build_course(&courses, &placements->trains[track->train], track->train, track->backward,
                                error));
        }
        courses.of_track[t] = found;
    }
    *out = courses;
    courses = (ss_courses){0};
done:
    ss_courses_destroy(&courses);
    return status;
}

/* ---- sums --------------------------------------------------------------------------------------- */

SS_CLONES
void ss_course_sum(const ss_axle_lines *lines, const ss_course *course, int track, const ss_axle_at *at,
                   bool left, double out[SS_TILE]) {
    memset(out, 0, SS_TILE * sizeof *out);
    for (int a = 0; a < course->vehicle->axle_count; a++) {
        const double P = course->vehicle->axle_N[a];
        const int plan = ss_axle_plan_of(lines->plans, track, a);
        if (at[a].beam >= 0 && lines->plans->plan[plan].on_beam[at[a].beam]) {
            const double *restrict const beam = ss_axle_lines_beam(lines, plan, at[a].beam);
            for (int lane = 0; lane < SS_TILE; lane++) out[lane] += P * beam[lane];
            continue;
        }
        const bool back = left && at[a].station >= 0;
        const int interval = back ? at[a].station - 1 : at[a].interval;
        const double s = back ? 1.0 : at[a].s;
        if (interval < 0) {
            continue;
        }
        const double *restrict const c = ss_axle_lines_cubic(lines, plan, interval);
        if (s == 0.0) {
            for (int lane = 0; lane < SS_TILE; lane++) out[lane] += P * c[lane];
            continue;
        }
        const double P1 = P * s, P2 = P1 * s, P3 = P2 * s;
        for (int lane = 0; lane < SS_TILE; lane++) {
            out[lane] += P * c[lane] + P1 * c[SS_TILE + lane] + P2 * c[2 * SS_TILE + lane] +
                         P3 * c[3 * SS_TILE + lane];
        }
    }
}

SS_CLONES
void ss_course_cubic(const ss_axle_lines *lines, const ss_course *course, int track, const ss_axle_at *at,
                     double length, double out[4 * SS_TILE]) {
    const double *const station = lines->plans->mesh->station;
    memset(out, 0, 4 * SS_TILE * sizeof *out);
    for (int a = 0; a < course->vehicle->axle_count; a++) {
        if (at[a].interval < 0) {
            continue;
        }
        const double P = course->vehicle->axle_N[a], s = at[a].s;
        const double d = length / (station[at[a].interval + 1] - station[at[a].interval]);
        const double *restrict const c =
            ss_axle_lines_cubic(lines, ss_axle_plan_of(lines->plans, track, a), at[a].interval);
        for (int lane = 0; lane < SS_TILE; lane++) {
            const double c0 = c[lane], c1 = c[SS_TILE + lane], c2 = c[2 * SS_TILE + lane],
                         c3 = c[3 * SS_TILE + lane];
            out[lane] += P * (c0 + s * (c1 + s * (c2 + s * c3)));
            out[SS_TILE + lane] += P * d * (c1 + s * (2.0 * c2 + 3.0 * s * c3));
            out[2 * SS_TILE + lane] += P * d * d * (c2 + 3.0 * s * c3);
            out[3 * SS_TILE + lane] += P * d * d * d * c3;
        }
    }
}

SS_CLONES
void ss_course_slack(const ss_axle_lines *lines, const ss_course *course, int track, const ss_axle_at *at,
                     double length, float out[SS_TILE]) {
    const double *const station = lines->plans->mesh->station;
    double sum[SS_TILE] = {0};
    for (int a = 0; a < course->vehicle->axle_count; a++) {
        if (at[a].interval < 0) {
            continue;
        }
        const double d = length / (station[at[a].interval + 1] - station[at[a].interval]);
        const double by = 0.125 * d * d * course->vehicle->axle_N[a];
        const double *restrict const curve =
            ss_axle_lines_curve(lines, ss_axle_plan_of(lines->plans, track, a), at[a].interval);
        for (int lane = 0; lane < SS_TILE; lane++) sum[lane] += by * curve[lane];
    }
    for (int lane = 0; lane < SS_TILE; lane++) out[lane] = (float)sum[lane];
}

bool ss_course_jumps(const ss_axle_lines *lines, const ss_course *course, int track, const ss_axle_at *at) {
    for (int a = 0; a < course->vehicle->axle_count; a++) {
        if (at[a].station >= 0 &&
            ss_axle_lines_jump(lines, ss_axle_plan_of(lines->plans, track, a), at[a].station)) {
            return true;
        }
    }
    return false;
}
