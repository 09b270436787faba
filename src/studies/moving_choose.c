/* moving_choose.c - what a page shows of a bridge while a truck moves: supports, sections, and what is read
 * there. */
#include <math.h>

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/mesh_parts.h"
#include "response/state.h"
#include "sillspan/memory.h"
#include "studies/moving_parts.h"
#include "studies/watch_seats.h"

/* ---- supports ------------------------------------------------------------------------------------------ */

static void add_support(ss_moving_job *job, int spring) {
    const ss_mesh *const mesh = job->mesh;
    const ss_spring *const s = &mesh->spring[spring];
    const ss_bearing *const bearing = &mesh->bridge->bearings[s->index];
    const bool slope = s->kind == SS_SPRING_SLOPE, moves = job->swept_count > 0;
    job->raw[job->raw_count] = (ss_sweep_reading){.spring = spring};
    job->effect[job->raw_count++].element = -1;
    job->made.support[job->made.support_count++] =
        (ss_moving_support){.bearing = s->index,
                            .contact = s->contact,
                            .slope = slope,
                            .late = moves && ss_spring_late(mesh, spring),
                            .seat = moves && !slope ? bearing->settlement + bearing->gap : 0.0};
}

static void find_supports(ss_moving_job *job) {
    const int *contact = NULL;
    const double *S = NULL;
    job->made.contact_count = ss_grillage_contact(job->permanent->grillage, &contact, &S);
    for (int i = 0; i < job->made.contact_count; i++) add_support(job, contact[i]);
    for (int i = 0; i < job->mesh->spring_count; i++) {
        if (job->mesh->spring[i].owner == SS_MEMBER_BEARING && !job->mesh->spring[i].contact) {
            add_support(job, i);
        }
    }
}

/* ---- sections ------------------------------------------------------------------------------------------ */

static void put_section(double *section, int *count, double x) {
    section[(*count)++] = x;
    ss_sort_unique(section, count, 1e-6);
}

/* So many at equal distances, each at the station beside it; then those of bearings, each in place of the one
 * that is nearest if it is near, else besides. */
static ss_status find_sections(ss_moving_job *job, int wanted, ss_error *error) {
    const ss_mesh *const mesh = job->mesh;
    const ss_bridge *const b = mesh->bridge;
    ss_moving *const m = &job->made;
    const double step = (b->x1 - b->x0) / (wanted - 1);
    m->section = ss_alloc((size_t)(wanted + b->bearing_count) + 1, sizeof *m->section);
    if (m->section == NULL) {
        return ss_no_memory(error);
    }
    for (int i = 0; i < wanted; i++) {
        put_section(m->section, &m->section_count, mesh->station[ss_station_nearest(mesh, b->x0 + i * step)]);
    }
    for (int i = 0; i < b->bearing_count; i++) {
        const double x = mesh->station[ss_station_nearest(mesh, b->bearings[i].x)];
        int near = 0;
        for (int k = 1; k < m->section_count; k++) {
            near = fabs(m->section[k] - x) < fabs(m->section[near] - x) ? k : near;
        }
        bool taken = near == 0 || near == m->section_count - 1 || fabs(m->section[near] - x) > 0.5 * step;
        for (int k = 0; k < b->bearing_count; k++) {
            taken = taken || fabs(b->bearings[k].x - m->section[near]) < 1e-3;
        }
        if (!taken) {
            m->section[near] = x;
        } else {
            put_section(m->section, &m->section_count, x);
        }
    }
    return SS_OK;
}

/* ---- readings ------------------------------------------------------------------------------------------ */

/* A line's effect at a section, just after it or, at its end, just before; false: the line is not there. */
static bool add_raw(ss_moving_job *job, int line, int section, ss_effect_kind kind) {
    const double x = job->made.section[section];
    ss_effect *const e = &job->effect[job->raw_count];
    if (ss_mesh_effect(job->mesh, SS_MEMBER_LINE, line, x, false, kind, e, NULL) != SS_OK &&
        ss_mesh_effect(job->mesh, SS_MEMBER_LINE, line, x, true, kind, e, NULL) != SS_OK) {
        return false;
    }
    ss_sweep_reading *const r = &job->raw[job->raw_count++];
    r->spring = -1;
    ss_mesh_effect_row(job->mesh, e, &r->row);
    return true;
}

static void add_reading(ss_moving_job *job, ss_moving_kind kind, int index, int section) {
    ss_moving *const m = &job->made;
    m->reading[m->reading_count++] = (ss_moving_reading){kind, index, section};
    job->part_first[m->reading_count] = job->part_first[m->reading_count - 1];
}

static void add_part(ss_moving_job *job, int raw) {
    job->part[job->part_first[job->made.reading_count]++] = raw;
}

static bool is_shown(const ss_line *line) {
    return line->role == SS_ROLE_MAIN || line->role == SS_ROLE_EXTERIOR;
}

/* Moments of all lines of a car at a section: of girders each, and their sum with those of stringers. Sums
 * and deflections change little from one section to the next: every other one has them. */
static void read_car(ss_moving_job *job, int car, int section) {
    const ss_bridge *const b = job->mesh->bridge;
    const bool sums = section % 2 == 0 || section + 1 == job->made.section_count;
    const int first = job->raw_count;
    for (int l = b->cars[car].first_line; l < b->cars[car].first_line + b->cars[car].line_count; l++) {
        const bool shown = is_shown(&b->lines[l]);
        if ((shown || sums) && add_raw(job, l, section, SS_EFFECT_MOMENT) && shown) {
            add_reading(job, SS_MOVING_MOMENT, l, section);
            add_part(job, job->raw_count - 1);
        }
    }
    const int last = job->raw_count;
    if (!sums) {
        return;
    }
    if (last > first) {
        add_reading(job, SS_MOVING_CAR, car, section);
        for (int i = first; i < last; i++) add_part(job, i);
    }
    for (int l = b->cars[car].first_line; l < b->cars[car].first_line + b->cars[car].line_count; l++) {
        if (is_shown(&b->lines[l]) && add_raw(job, l, section, SS_EFFECT_DEFLECTION)) {
            add_reading(job, SS_MOVING_DEFLECTION, l, section);
            add_part(job, job->raw_count - 1);
        }
    }
}

ss_status ss_moving_choose(ss_moving_job *job, int sections, ss_error *error) {
    const ss_bridge *const b = job->mesh->bridge;
    ss_moving *const m = &job->made;
    ss_status status = SS_OK;
    SS_TRY(find_sections(job, sections, error));
    const size_t most = (size_t)job->mesh->spring_count +
                        (size_t)m->section_count * (2 * (size_t)b->line_count + (size_t)b->car_count) + 1;
    job->raw = ss_arena_alloc(&job->arena, most, sizeof *job->raw);
    job->effect = ss_arena_alloc(&job->arena, most, sizeof *job->effect);
    job->part = ss_arena_alloc(&job->arena, 2 * most, sizeof *job->part);
    job->part_first = ss_arena_alloc(&job->arena, most + 1, sizeof *job->part_first);
    m->support = ss_alloc(most, sizeof *m->support);
    m->reading = ss_alloc(most, sizeof *m->reading);
    if (job->raw == NULL || job->effect == NULL || job->part == NULL || job->part_first == NULL ||
        m->support == NULL || m->reading == NULL) {
        status = ss_no_memory(error);
        goto done;
    }
    find_supports(job);
    for (int i = 0; i < m->support_count; i++) {
        add_reading(job, SS_MOVING_SUPPORT, i, -1);
        add_part(job, i);
    }
    for (int s = 0; s < m->section_count; s++) {
        for (int car = 0; car < b->car_count; car++) read_car(job, car, s);
    }
done:
    return status;
}
