/* stages.c - how the dead load of a bridge with a slab comes onto bare cars, then onto cars and slab. */
#include <math.h>
#include <string.h>

#include "base/try.h"
#include "mechanics/row.h"
#include "response/permanent_parts.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* What there is in a step: loads in all, not only those that it brings. */
typedef struct step {
    const char *name;
    ss_slab_stage slab;
    ss_component component;
    uint32_t wet;      /* pours that weigh */
    bool wearing;      /* what stays of the old wearing course */
    bool later[2];     /* loads on the hardened slab, by component */
    bool props, loose; /* props stand; the cars' own joints are loosened */
    int pour;
} step;

typedef struct chain {
    const ss_bridge *bridge;
    ss_permanent *p;
    const ss_permanent *today;
    int own_springs;     /* of the bridge's own bearings: the first of every mesh */
    double *u[2];        /* displacements by the component that brought them */
    double *lock;        /* of the springs of the last mesh */
    const double *touch; /* displacements when the props were put in */
    step now;
    ss_error *error;
} chain;

static int own_springs(const ss_mesh *mesh, int bearings) {
    int count = 0;
    while (count < mesh->spring_count && mesh->spring[count].owner == SS_MEMBER_BEARING &&
           mesh->spring[count].index < bearings) {
        count++;
    }
    return count;
}

/* ---- springs from one stage to the next -------------------------------------------------------------- */

static int find_like(const ss_mesh *mesh, const ss_spring *wanted) {
    for (int i = 0; i < mesh->spring_count; i++) {
        const ss_spring *const s = &mesh->spring[i];
        if (s->owner == SS_MEMBER_JOINT && s->index == wanted->index && s->kind == wanted->kind &&
            s->x == wanted->x) {
            return i;
        }
    }
    return -1;
}

/* Offsets at which joints carry on what they carry: new ones nothing, those whose stiffness changes what they
 * did. */
static void carry_locks(const ss_mesh *from, const ss_state *state, const double *lock, const ss_mesh *to,
                        double *out) {
    for (int i = 0; i < to->spring_count; i++) {
        const ss_spring *const s = &to->spring[i];
        out[i] = 0.0;
        if (s->owner != SS_MEMBER_JOINT) {
            continue;
        }
        const int old = find_like(from, s);
        if (old >= 0 && from->spring[old].flexibility == s->flexibility) {
            out[i] = lock[old];
        } else {
            out[i] = ss_row_dot(&s->row, state->u) - (old >= 0 ? s->flexibility * state->force[old] : 0.0);
        }
    }
}

/* ---- one stage --------------------------------------------------------------------------------------- */

static ss_status make_load(const chain *c, const ss_mesh *mesh, ss_load *out) {
    const ss_bridge *const bridge = c->bridge;
    const step *const now = &c->now;
    ss_status status = SS_OK;
    ss_load load = {0};
    SS_TRY(ss_load_create(mesh, &load, c->error));
    if (bridge->self_weight) {
        SS_TRY(ss_load_self_weight(&load, c->error));
    }
    for (int k = 0; k < 2; k++) {
        const ss_component component = k == 0 ? SS_COMPONENT_DC : SS_COMPONENT_DW;
        const int which = (k == 0 || now->wearing ? 1 << SS_DEAD_STAYS : 0) | 1 << SS_DEAD_WET |
                          (now->later[k] ? 1 << SS_DEAD_LATER : 0);
        SS_TRY(ss_permanent_dead_loads(&load, bridge, component, which, now->wet, c->error));
        ss_load_add(&load, 1.0, &c->p->locked[k]);
    }
    *out = load;
    load = (ss_load){0};
done:
    ss_load_destroy(&load);
    return status;
}

static void make_offsets(const chain *c, const ss_mesh *mesh, const double *lock, double *offset) {
    for (int i = 0; i < mesh->spring_count; i++) {
        const ss_spring *const s = &mesh->spring[i];
        offset[i] = s->owner == SS_MEMBER_JOINT ? lock[i]
                    : i < c->own_springs        ? c->today->seat[i]
                                                : ss_row_dot(&s->row, c->touch);
    }
}

/* Solves the stage whose mesh is built, with what stays in members and joints from the one before. */
static ss_status solve(chain *c, ss_permanent_stage *stage) {
    const size_t springs = (size_t)stage->mesh->spring_count;
    ss_status status = SS_OK;
    ss_grillage *grillage = NULL;
    ss_load load = {0};
    double *lock = ss_alloc(springs, sizeof *lock);
    double *const offset = ss_alloc(springs, sizeof *offset);
    SS_TRY(lock == NULL || offset == NULL ? ss_no_memory(c->error) : SS_OK);
    SS_TRY(ss_grillage_create(stage->mesh, &grillage, c->error));
    if (stage == c->p->stages) {
        carry_locks(ss_grillage_mesh(c->today->grillage), &c->today->present, c->today->lock, stage->mesh,
                    lock);
    } else {
        const ss_permanent_stage *const last = stage - 1;
        carry_locks(last->mesh, &last->state, c->lock, stage->mesh, lock);
        for (int k = 0; k < 2; k++) ss_load_locked(&c->p->locked[k], last->mesh, stage->mesh, c->u[k]);
    }
    make_offsets(c, stage->mesh, lock, offset);
    SS_TRY(make_load(c, stage->mesh, &load));
    const ss_state_task task = {grillage, NULL, NULL, offset, stage->name};
    SS_TRY(ss_state_solve(&task, &load, &stage->state, c->error));
    double *const u = c->u[stage->component];
    for (int i = 0; i < stage->mesh->order; i++) {
        u[i] += stage->state.u[i] - (stage == c->p->stages ? 0.0 : stage[-1].state.u[i]);
    }
    ss_free(c->lock);
    c->lock = lock;
    lock = NULL;
done:
    ss_free(lock);
    ss_free(offset);
    ss_load_destroy(&load);
    ss_grillage_destroy(grillage);
    return status;
}

static ss_status add_stage(chain *c) {
    const step *const now = &c->now;
    ss_permanent *const p = c->p;
    ss_permanent_stage *const stage = &p->stages[p->stage_count];
    const ss_mesh_options options = {.joints = true,
                                     .refine = ss_grillage_mesh(p->grillage)->refine,
                                     .slab = &now->slab,
                                     .loose = now->loose};
    *stage = (ss_permanent_stage){.name = now->name,
                                  .slab = now->slab,
                                  .component = now->component,
                                  .pour = now->pour,
                                  .propped = now->props,
                                  .mesh = ss_alloc(1, sizeof *stage->mesh)};
    p->stage_count++;
    if (stage->mesh == NULL) {
        return ss_no_memory(c->error);
    }
    ss_error inner = {0};
    ss_error *const outer = c->error;
    c->error = &inner;
    ss_status status = ss_mesh_build(now->props ? p->on_props : c->bridge, options, stage->mesh, &inner);
    if (status == SS_OK) {
        status = solve(c, stage);
    }
    c->error = outer;
    return status == SS_OK ? SS_OK
                           : ss_error_set(outer, status, "while the slab is made, at \"%s\": %s", now->name,
                                          inner.message);
}

/* ---- the steps --------------------------------------------------------------------------------------- */

static bool has_load(const ss_bridge *bridge, ss_dead_when when, ss_component component) {
    for (int i = 0; i < bridge->dead_load_count; i++) {
        if (bridge->dead_loads[i].when == when && bridge->dead_loads[i].component == component) {
            return true;
        }
    }
    return false;
}

/* Casts pour after pour; those before carry as concrete does under load that stays. */
static ss_status cast(chain *c) {
    const ss_slab *const slab = &c->bridge->slab;
    ss_status status = SS_OK;
    c->touch = c->p->stages[c->p->stage_count - 1].state.u;
    c->now.props = slab->shore_count > 0;
    c->now.component = SS_COMPONENT_DC;
    for (int i = 0; i < slab->pour_count && status == SS_OK; i++) {
        c->now.pour = i;
        c->now.name = slab->pour_count == 1 ? "slab wet" : slab->pours[i].name;
        c->now.wet |= UINT32_C(1) << i;
        c->now.slab = (ss_slab_stage){.hard = (UINT32_C(1) << i) - 1, .long_term = i > 0};
        status = add_stage(c);
    }
    c->now.pour = -1;
    c->now.slab = ss_slab_finished(slab);
    c->now.slab.long_term = true;
    c->now.loose = false;
    return status;
}

static ss_status run(chain *c) {
    const ss_bridge *const bridge = c->bridge;
    ss_status status = SS_OK;
    c->now = (step){.name = "the cars, stripped",
                    .component = SS_COMPONENT_DC,
                    .pour = -1,
                    .loose = !bridge->slab.joints_hold_wet};
    SS_TRY(add_stage(c));
    if (has_load(bridge, SS_DEAD_STAYS, SS_COMPONENT_DW)) {
        c->now.name = "wearing course that stays";
        c->now.component = SS_COMPONENT_DW;
        c->now.wearing = true;
        SS_TRY(add_stage(c));
    }
    SS_TRY(cast(c));
    if (c->now.props) {
        c->now.name = "props out";
        c->now.props = false;
        SS_TRY(add_stage(c));
    }
    for (int k = 0; k < 2; k++) {
        const ss_component component = k == 0 ? SS_COMPONENT_DC : SS_COMPONENT_DW;
        if (has_load(bridge, SS_DEAD_LATER, component)) {
            c->now.name = k == 0 ? "on the slab" : "wearing course on the slab";
            c->now.component = component;
            c->now.later[k] = true;
            SS_TRY(add_stage(c));
        }
    }
done:
    return status;
}

/* What the finished bridge, under load that comes and goes, starts from. */
static void finish(chain *c) {
    const ss_mesh *const mesh = ss_grillage_mesh(c->p->grillage);
    const ss_permanent_stage *const last = &c->p->stages[c->p->stage_count - 1];
    carry_locks(last->mesh, &last->state, c->lock, mesh, c->p->lock);
    for (int k = 0; k < 2; k++) ss_load_locked(&c->p->locked[k], last->mesh, mesh, c->u[k]);
    for (int i = 0; i < c->own_springs; i++) c->p->seat[i] = c->today->seat[i];
}

/* ---- what it starts from ----------------------------------------------------------------------------- */

/* The bridge with a bearing more for each prop. */
static ss_status put_props(const ss_bridge *bridge, ss_permanent *p, ss_error *error) {
    const ss_slab *const slab = &bridge->slab;
    const size_t own = (size_t)bridge->bearing_count, count = own + (size_t)slab->shore_count;
    if (slab->shore_count == 0) {
        return SS_OK;
    }
    ss_bearing *const bearings = ss_alloc(count, sizeof *bearings);
    p->on_props = ss_alloc(1, sizeof *p->on_props);
    if (bearings == NULL || p->on_props == NULL) {
        ss_free(bearings);
        return ss_no_memory(error);
    }
    memcpy(bearings, bridge->bearings, own * sizeof *bearings);
    for (int i = 0; i < slab->shore_count; i++) {
        bearings[own + (size_t)i] = (ss_bearing){.name = "prop",
                                                 .car = bridge->lines[slab->shores[i].line].car,
                                                 .line = slab->shores[i].line,
                                                 .x = slab->shores[i].x,
                                                 .contact = true,
                                                 .spring = (double)INFINITY};
    }
    *p->on_props = *bridge;
    p->on_props->bearings = bearings;
    p->on_props->bearing_count = (int)count;
    return SS_OK;
}

/* The bridge of today: its cars bare, with the joints that they have. */
static ss_status find_today(const ss_bridge *bridge, const ss_mesh *whole, ss_mesh *mesh,
                            ss_grillage **grillage, ss_permanent *out, ss_error *error) {
    static const ss_slab_stage bare = {0};
    const ss_mesh_options options = {.joints = true, .refine = whole->refine, .slab = &bare};
    ss_status status = SS_OK;
    SS_TRY(ss_mesh_build(bridge, options, mesh, error));
    SS_TRY(ss_grillage_create(mesh, grillage, error));
    SS_TRY(ss_permanent_today(bridge, *grillage, out, error));
done:
    return status;
}

ss_status ss_stages_compute(const ss_bridge *bridge, ss_permanent *p, ss_error *error) {
    const ss_mesh *const mesh = ss_grillage_mesh(p->grillage);
    ss_status status = SS_OK;
    ss_mesh bare = {0};
    ss_grillage *grillage = NULL;
    ss_permanent today = {0};
    chain c = {.bridge = bridge, .p = p, .today = &today, .error = error};
    p->stages = ss_alloc((size_t)bridge->slab.pour_count + 5, sizeof *p->stages);
    for (int k = 0; k < 2; k++) {
        SS_TRY(ss_load_create(mesh, &p->locked[k], error));
        c.u[k] = ss_alloc((size_t)mesh->order, sizeof *c.u[k]);
        SS_TRY(c.u[k] == NULL || p->stages == NULL ? ss_no_memory(error) : SS_OK);
    }
    SS_TRY(put_props(bridge, p, error));
    SS_TRY(find_today(bridge, mesh, &bare, &grillage, &today, error));
    c.own_springs = own_springs(mesh, bridge->bearing_count);
    SS_TRY(run(&c));
    finish(&c);
    p->cars_alone = today.cars_alone;
    today.cars_alone = (ss_state){0};
    p->today = today.present;
    today.present = (ss_state){0};
    p->cars_alone.load.mesh = p->today.load.mesh = mesh;
done:
    for (int k = 0; k < 2; k++) ss_free(c.u[k]);
    ss_free(c.lock);
    ss_permanent_destroy(&today);
    ss_grillage_destroy(grillage);
    ss_mesh_destroy(&bare);
    return status;
}

void ss_stages_destroy(ss_permanent *p) {
    for (int i = 0; i < p->stage_count; i++) {
        ss_state_destroy(&p->stages[i].state);
        ss_mesh_destroy(p->stages[i].mesh);
        ss_free(p->stages[i].mesh);
    }
    for (int k = 0; k < 2; k++) ss_load_destroy(&p->locked[k]);
    if (p->on_props != NULL) {
        ss_free(p->on_props->bearings);
        ss_free(p->on_props);
    }
    ss_state_destroy(&p->today);
    ss_free(p->stages);
}
