/* moving_lay.c - rails over the deck between which a wheel's effect is linear, and the points on them by
 * which the cubics along a rail are found. */
#include <math.h>

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/deck.h"
#include "response/state.h"
#include "sillspan/memory.h"
#include "studies/moving_parts.h"

/* How far beside a jump it is looked at (m). */
#define BESIDE 1e-7

enum { BREAKS_MOST = 256 };

static double *room(ss_moving_job *job, size_t count) {
    return ss_arena_alloc(&job->arena, count, sizeof(double));
}

/* ---- rails --------------------------------------------------------------------------------------------- */

static double weight_on(const ss_carrier *carrier, int count, int line) {
    double sum = 0.0;
    for (int i = 0; i < count; i++) sum += carrier[i].line == line ? carrier[i].weight : 0.0;
    return sum;
}

/* Whether a wheel comes to other lines on one side of y than on the other. */
static bool jumps(const ss_mesh *mesh, double y) {
    for (int i = 0; i + 1 < mesh->station_count; i++) {
        ss_carrier a[4], b[4];
        const int left = ss_mesh_deck_across(mesh, i, y - BESIDE, a);
        const int right = ss_mesh_deck_across(mesh, i, y + BESIDE, b);
        for (int line = 0; line < mesh->bridge->line_count; line++) {
            if (fabs(weight_on(a, left, line) - weight_on(b, right, line)) > 1e-4) {
                return true;
            }
        }
    }
    return false;
}

static void add_rail(ss_moving_job *job, double at, double aside) {
    ss_moving *const m = &job->made;
    m->rail[m->rail_count] = at;
    job->aside[m->rail_count++] = aside;
}

/* The y at which the shares of a wheel change anywhere, and both curbs. */
static ss_status find_breaks(const ss_moving_job *job, double y[3 * BREAKS_MOST], int *count,
                             ss_error *error) {
    const ss_mesh *const mesh = job->mesh;
    y[0] = mesh->bridge->roadway_left;
    y[1] = mesh->bridge->roadway_right;
    *count = 2;
    for (int i = 0; i + 1 < mesh->station_count; i++) {
        *count += mesh->bridge->deck.along ? ss_deck_breaks(mesh, i, y + *count, BREAKS_MOST)
                                           : ss_mesh_deck_kinks(mesh, i, y + *count, BREAKS_MOST);
        ss_sort_unique(y, count, 1e-9);
        if (*count > BREAKS_MOST) {
            return ss_error_set(error, SS_ERROR_LIMIT, "there are too many lines under its deck");
        }
    }
    return SS_OK;
}

static bool make_rails(ss_moving_job *job, size_t count) {
    job->made.rail = ss_alloc(count, sizeof *job->made.rail);
    job->aside = room(job, count);
    return job->made.rail != NULL && job->aside != NULL;
}

/* A deck that spans across: rails along the bridge. */
static ss_status lay_across(ss_moving_job *job, const double *y, int count, ss_error *error) {
    const ss_mesh *const mesh = job->mesh;
    ss_moving *const m = &job->made;
    m->place = ss_alloc((size_t)mesh->station_count, sizeof *m->place);
    if (!make_rails(job, 2 * (size_t)count) || m->place == NULL) {
        return ss_no_memory(error);
    }
    for (int i = 0; i < count; i++) {
        if (jumps(mesh, y[i])) {
            add_rail(job, y[i], y[i] - BESIDE);
            add_rail(job, y[i], y[i] + BESIDE);
        } else {
            add_rail(job, y[i], y[i]);
        }
    }
    m->place_count = mesh->station_count;
    for (int i = 0; i < mesh->station_count; i++) m->place[i] = mesh->station[i];
    return SS_OK;
}

/* A deck that spans along: rails along floor beams, and on both sides of the ends of cars. */
static ss_status lay_along(ss_moving_job *job, const double *y, int count, ss_error *error) {
    const ss_mesh *const mesh = job->mesh;
    const ss_bridge *const b = mesh->bridge;
    ss_moving *const m = &job->made;
    const size_t most = (size_t)b->floor_beam_count + 4 * (size_t)b->car_count + 1;
    int found = 0;
    double *const x = room(job, most);
    m->place = ss_alloc((size_t)count, sizeof *m->place);
    if (!make_rails(job, most) || m->place == NULL || x == NULL) {
        return ss_no_memory(error);
    }
    for (int i = 0; i < b->floor_beam_count; i++) {
        if (b->floor_beams[i].strip == 0.0) {
            x[found++] = mesh->station[mesh->beam_station[i]];
        }
    }
    for (int i = 0; i < b->car_count; i++) {
        ss_beam_share share[4];
        x[found++] = b->cars[i].x0;
        x[found++] = b->cars[i].x1;
        const double middle_x = 0.5 * (b->cars[i].x0 + b->cars[i].x1);
        if (ss_mesh_deck_along(mesh, middle_x, 0.5 * (b->cars[i].y_left + b->cars[i].y_right), share) == 0) {
            return ss_error_set(error, SS_ERROR_LIMIT,
                                "the deck spans along, and car %s has not the floor beams for it",
                                b->cars[i].name);
        }
    }
    ss_sort_unique(x, &found, 1e-6);
    for (int i = 0; i < found; i++) {
        bool end = false;
        for (int c = 0; c < b->car_count; c++) {
            end = end || fabs(b->cars[c].x0 - x[i]) < 1e-6 || fabs(b->cars[c].x1 - x[i]) < 1e-6;
        }
        if (end) {
            add_rail(job, x[i], x[i] - BESIDE);
        }
        add_rail(job, x[i], end ? x[i] + BESIDE : x[i]);
    }
    m->place_count = count;
    for (int i = 0; i < count; i++) m->place[i] = y[i];
    return SS_OK;
}

/* ---- points -------------------------------------------------------------------------------------------- */

static ss_status find_point(ss_moving_job *job, int rail, int interval, int which) {
    const ss_moving *const m = &job->made;
    ss_moving_point *const p =
        &job->point[((size_t)rail * (size_t)(m->place_count - 1) + (size_t)interval) * SS_MOVING_POINTS +
                    (size_t)which];
    const double s = (which + 0.5) / SS_MOVING_POINTS;
    const double at = m->place[interval] + s * (m->place[interval + 1] - m->place[interval]);
    p->interval = m->along ? -1 : interval;
    p->s = s;
    if (m->along) {
        return ss_mesh_wheel(job->mesh, job->aside[rail], at, &p->row);
    }
    p->carrier_count = ss_mesh_deck_across(job->mesh, interval, job->aside[rail], p->carrier);
    return ss_mesh_wheel(job->mesh, at, job->aside[rail], &p->row);
}

ss_status ss_moving_lay(ss_moving_job *job, ss_error *error) {
    ss_moving *const m = &job->made;
    ss_status status = SS_OK;
    int count = 0;
    double *const y = room(job, 3 * BREAKS_MOST);
    if (y == NULL) {
        return ss_no_memory(error);
    }
    m->along = job->mesh->bridge->deck.along;
    SS_TRY(find_breaks(job, y, &count, error));
    SS_TRY(m->along ? lay_along(job, y, count, error) : lay_across(job, y, count, error));
    const size_t points = (size_t)m->rail_count * (size_t)(m->place_count - 1) * SS_MOVING_POINTS;
    job->point = ss_arena_alloc(&job->arena, points, sizeof *job->point);
    job->load_of = ss_arena_alloc(&job->arena, (size_t)job->mesh->order, sizeof *job->load_of);
    if (job->point == NULL || job->load_of == NULL) {
        status = ss_no_memory(error);
        goto done;
    }
    for (int rail = 0; rail < m->rail_count; rail++) {
        for (int i = 0; i + 1 < m->place_count; i++) {
            for (int k = 0; k < SS_MOVING_POINTS; k++) SS_TRY(find_point(job, rail, i, k));
        }
    }
    for (int i = 0; i < job->mesh->order; i++) job->load_of[i] = -1;
    job->all_loads = 1 + m->support_count;
    for (size_t p = 0; p < points; p++) {
        for (int k = 0; k < job->point[p].row.count; k++) {
            int *const load = &job->load_of[job->point[p].row.dof[k]];
            *load = *load < 0 ? job->all_loads++ : *load;
        }
    }
done:
    return status;
}
