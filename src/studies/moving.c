/* moving.c - what a truck anywhere on a bridge does: as many sections and digits as fit a page. */
#include "sillspan/moving.h"

#include <math.h>

#include "base/try.h"
#include "response/state.h"
#include "sillspan/memory.h"
#include "studies/moving_parts.h"

void ss_moving_destroy(ss_moving *m) {
    if (m == NULL) {
        return;
    }
    ss_free(m->rail);
    ss_free(m->place);
    ss_free(m->section);
    ss_free(m->support);
    ss_free(m->reading);
    ss_free(m->value);
    ss_free(m->l);
    ss_free(m->a);
    ss_free(m->h);
    ss_free(m->byte);
    ss_free(m->unit);
    *m = (ss_moving){0};
}

/* Springs of joints that are neither rigid nor none, and why there are none. */
static ss_moving_still find_swept(ss_moving_job *job) {
    const ss_bridge *const b = job->mesh->bridge;
    bool joints = false;
    for (int i = 0; i < job->mesh->spring_count; i++) {
        const ss_spring *const s = &job->mesh->spring[i];
        joints = joints || s->owner == SS_MEMBER_JOINT;
        if (s->owner == SS_MEMBER_JOINT && s->flexibility > 0.0 && isfinite(s->flexibility)) {
            job->swept[job->swept_count++] = i;
        }
    }
    if (b->slab.given) {
        job->swept_count = 0;
        return SS_MOVING_SLAB;
    }
    return job->swept_count > 0 ? SS_MOVING_SWEPT : joints ? SS_MOVING_ENDS : SS_MOVING_ALONE;
}

/* How fine an attempt is. */
typedef struct fineness {
    int sections;
    double tolerance;
} fineness;

static ss_status attempt(const ss_permanent *permanent, fineness fine, ss_moving *out, ss_error *error) {
    ss_moving_job job = {.permanent = permanent, .mesh = ss_grillage_mesh(permanent->grillage)};
    ss_status status = SS_OK;
    job.swept = ss_arena_alloc(&job.arena, (size_t)job.mesh->spring_count + 1, sizeof *job.swept);
    SS_TRY(job.swept == NULL ? ss_no_memory(error) : SS_OK);
    job.made.still = find_swept(&job);
    SS_TRY(ss_moving_choose(&job, fine.sections, error));
    SS_TRY(ss_moving_lay(&job, error));
    SS_TRY(ss_moving_respond(&job, error));
    SS_TRY(ss_moving_fit(&job, fine.tolerance, error));
    *out = job.made;
    job.made = (ss_moving){0};
done:
    ss_moving_destroy(&job.made);
    ss_arena_destroy(&job.arena);
    return status;
}

ss_status ss_moving_compute(const ss_permanent *permanent, size_t budget, ss_moving *out, ss_error *error) {
    static const fineness tries[] = {{13, 1e-5}, {11, 1e-5}, {9, 1e-5}, {9, 2e-5},
                                     {9, 4e-5},  {7, 4e-5},  {7, 1e-4}, {5, 1e-4}};
    ss_status status = SS_OK;
    ss_moving made = {0};
    const size_t count = sizeof tries / sizeof tries[0];
    for (size_t i = 0; i < count;) {
        SS_TRY(attempt(permanent, tries[i], &made, error));
        if (made.bytes <= budget) {
            *out = made;
            return SS_OK;
        }
        i += made.bytes > budget + budget / 2 && i + 2 < count ? 2 : 1;
        ss_moving_destroy(&made);
    }
    status = ss_error_set(error, SS_ERROR_LIMIT, "it would take more than a page can hold");
done:
    return status;
}
