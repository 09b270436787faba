/* moving_respond.c - what is read under the dead load, openings of supports and wheels, at the stiffness of
 * the joints as described and mode by mode. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/spring_sweep_parts.h"
#include "response/state.h"
#include "sillspan/memory.h"
#include "studies/moving_parts.h"

/* Dense arrays of the loads while the modes are found. */
typedef struct dense {
    double *unit;   /* 2 order: a one in the middle; each unit load is a part of it */
    double *offset; /* (1 + support_count) x spring_count: what the dead load brings, then unit openings */
    ss_load dead;
    ss_sweep_load *load;
    double *stiffness;
} dense;

static void dense_destroy(dense *d) {
    ss_free(d->unit);
    ss_free(d->offset);
    ss_free(d->load);
    ss_free(d->stiffness);
    ss_load_destroy(&d->dead);
}

/* Where joints move, bearings with a gap and later shims stand anew for each stiffness: their levels are left
 * to whoever adds up. */
static ss_status fill_loads(const ss_moving_job *job, dense *d, ss_error *error) {
    const ss_mesh *const mesh = job->mesh;
    const size_t order = (size_t)mesh->order, springs = (size_t)mesh->spring_count;
    ss_status status = SS_OK;
    d->unit = ss_alloc(2 * order + 1, sizeof *d->unit);
    d->offset = ss_alloc((size_t)(1 + job->made.support_count) * springs + 1, sizeof *d->offset);
    d->load = ss_alloc((size_t)job->all_loads, sizeof *d->load);
    d->stiffness = ss_alloc((size_t)job->swept_count + 1, sizeof *d->stiffness);
    if (d->unit == NULL || d->offset == NULL || d->load == NULL || d->stiffness == NULL) {
        return ss_no_memory(error);
    }
    const ss_load_sum sum = {true, {1.0, 1.0}, NULL, 0.0};
    SS_TRY(ss_permanent_loads(job->permanent, &sum, &d->dead, d->offset, error));
    if (job->swept_count > 0) {
        memcpy(d->offset, job->permanent->lock, springs * sizeof *d->offset);
    }
    d->load[SS_MOVING_DEAD] = (ss_sweep_load){d->dead.nodal, d->offset};
    for (int i = 0; i < job->made.support_count; i++) {
        double *const offset = d->offset + (size_t)(1 + i) * springs;
        offset[job->raw[i].spring] = -1.0;
        d->load[SS_MOVING_OPENING + i].offset = offset;
    }
    d->unit[order] = 1.0;
    for (size_t dof = 0; dof < order; dof++) {
        if (job->load_of[dof] >= 0) {
            d->load[job->load_of[dof]].nodal = d->unit + order - dof;
        }
    }
    for (int i = 0; i < job->swept_count; i++) {
        d->stiffness[i] = 1.0 / mesh->spring[job->swept[i]].flexibility;
    }
done:
    return status;
}

/* Part of the dead load's effects from what lies within an element. */
static ss_status add_within(ss_moving_job *job, const dense *d, ss_error *error) {
    double *const still = ss_alloc((size_t)job->mesh->order + 1, sizeof *still);
    if (still == NULL) {
        return ss_no_memory(error);
    }
    for (int i = job->made.support_count; i < job->raw_count; i++) {
        job->raw_value[(size_t)i * (size_t)job->all_loads] +=
            ss_mesh_effect_value(job->mesh, &job->effect[i], still, &d->dead);
    }
    ss_free(still);
    return SS_OK;
}

/* Modes as they are, then those that cannot move, marked by l = 0. */
static ss_status take_modes(ss_moving_job *job, const ss_spring_sweep *s, ss_error *error) {
    const size_t loads = (size_t)job->all_loads, moving = (size_t)s->mode_count,
                 nulls = (size_t)s->null_count;
    const size_t modes = moving + nulls;
    ss_moving *const m = &job->made;
    m->l = ss_alloc(modes + 1, sizeof *m->l);
    job->raw_a = ss_arena_alloc(&job->arena, (size_t)job->raw_count * modes + 1, sizeof *job->raw_a);
    job->mode_h = ss_arena_alloc(&job->arena, modes * loads + 1, sizeof *job->mode_h);
    if (m->l == NULL || job->raw_a == NULL || job->mode_h == NULL) {
        return ss_no_memory(error);
    }
    m->t1 = 1.0 / s->k_ref;
    m->mode_count = (int)modes;
    for (size_t j = 0; j < moving; j++) m->l[j] = s->l[j];
    for (size_t i = 0; i < (size_t)s->reading_count; i++) {
        double *const a = job->raw_a + (size_t)s->order[i] * modes;
        for (size_t j = 0; j < moving; j++) a[j] = s->a[i * moving + j];
    }
    for (size_t i = 0; i < (size_t)s->reading_count; i++) {
        for (size_t j = 0; j < nulls; j++) job->raw_a[i * modes + moving + j] = s->null_a[i * nulls + j];
    }
    for (size_t q = 0; q < loads; q++) {
        for (size_t j = 0; j < moving; j++) {
            job->mode_h[j * loads + q] = s->h[(q / SS_TILE * moving + j) * SS_TILE + q % SS_TILE];
        }
        for (size_t j = 0; j < nulls; j++) {
            job->mode_h[(moving + j) * loads + q] = s->null_h[j * loads + q];
        }
    }
    m->none = s->none.status == SS_OK;
    return SS_OK;
}

ss_status ss_moving_respond(ss_moving_job *job, ss_error *error) {
    ss_status status = SS_OK;
    dense d = {0};
    ss_spring_sweep *sweep = NULL;
    double *work = NULL;
    SS_TRY(fill_loads(job, &d, error));
    const ss_sweep_task task = {.swept_count = job->swept_count,
                                .swept = job->swept,
                                .stiffness = d.stiffness,
                                .load_count = job->all_loads,
                                .loads = d.load,
                                .reading_count = job->raw_count,
                                .readings = job->raw};
    SS_TRY(ss_spring_sweep_create(job->permanent->grillage, &task, &sweep, error));
    work = ss_alloc(ss_spring_sweep_work(sweep) + 1, sizeof *work);
    job->raw_value = ss_arena_alloc(&job->arena, (size_t)job->raw_count * (size_t)job->all_loads + 1,
                                    sizeof *job->raw_value);
    SS_TRY(work == NULL || job->raw_value == NULL ? ss_no_memory(error) : SS_OK);
    SS_TRY(ss_spring_sweep_at(sweep, 1.0, job->raw_value, work, error));
    SS_TRY(take_modes(job, sweep, error));
    SS_TRY(add_within(job, &d, error));
done:
    ss_free(work);
    ss_spring_sweep_destroy(sweep);
    dense_destroy(&d);
    return status;
}
