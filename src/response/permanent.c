/* permanent.c - dead load by stages: the cars alone, what their joints lock in, the seats of gaps and later
 * bearings, and the present state. */
#include "sillspan/permanent.h"

#include <math.h>
#include <string.h>

#include "base/try.h"
#include "mechanics/row.h"
#include "response/permanent_parts.h"
#include "response/state.h"
#include "sillspan/memory.h"

ss_status ss_permanent_dead_loads(ss_load *load, const ss_bridge *bridge, ss_component component, int which,
                                  uint32_t pours, ss_error *error) {
    ss_status status = SS_OK;
    for (int i = 0; i < bridge->dead_load_count; i++) {
        const ss_dead_load *d = &bridge->dead_loads[i];
        const bool wet = d->when == SS_DEAD_WET;
        if (d->component != component || (which >> (int)d->when & 1) == 0 ||
            (wet && (pours >> d->pour & 1U) == 0)) {
            continue;
        }
        if (d->area) {
            SS_TRY(ss_load_area(load, d->x0, d->x1, d->y0, d->y1, d->w, error));
        } else {
            SS_TRY(ss_load_line(load, d->x0, d->x1, d->y0, d->w, error));
        }
    }
done:
    return status;
}

static ss_status build_loads(const ss_bridge *bridge, int which, ss_permanent *p, ss_error *error) {
    const ss_mesh *const mesh = ss_grillage_mesh(p->grillage);
    ss_status status = SS_OK;
    SS_TRY(ss_load_create(mesh, &p->cars, error));
    SS_TRY(ss_load_create(mesh, &p->added, error));
    SS_TRY(ss_load_create(mesh, &p->wearing, error));
    if (bridge->self_weight) {
        SS_TRY(ss_load_self_weight(&p->cars, error));
    }
    SS_TRY(ss_permanent_dead_loads(&p->added, bridge, SS_COMPONENT_DC, which, UINT32_MAX, error));
    SS_TRY(ss_permanent_dead_loads(&p->wearing, bridge, SS_COMPONENT_DW, which, UINT32_MAX, error));
done:
    return status;
}

/* Bearings that do not hold while the present level of gaps and later shims is found. */
static bool is_late(const ss_mesh *mesh, int spring) {
    const ss_spring *s = &mesh->spring[spring];
    if (s->owner != SS_MEMBER_BEARING) {
        return false;
    }
    const ss_bearing *bearing = &mesh->bridge->bearings[s->index];
    return bearing->after || bearing->gap > 0.0;
}

/* Fills `absent` and makes the update that opens those springs (NULL when there are none). */
static ss_status leave_out_late(const ss_grillage *grillage, bool *absent, ss_update **update,
                                const char *when, ss_error *error) {
    const ss_mesh *mesh = ss_grillage_mesh(grillage);
    ss_status status = SS_OK;
    int count = 0;
    double *const flexibility = ss_alloc((size_t)mesh->spring_count, sizeof *flexibility);
    if (flexibility == NULL) {
        return ss_no_memory(error);
    }
    for (int i = 0; i < mesh->spring_count; i++) {
        absent[i] = is_late(mesh, i);
        count += absent[i];
        flexibility[i] = absent[i] ? (double)INFINITY : mesh->spring[i].flexibility;
    }
    *update = NULL;
    if (count > 0) {
        ss_error inner = {0};
        status = ss_update_create(grillage, flexibility, update, &inner);
        if (status != SS_OK) {
            ss_error_set(error, status, "%s, without the bearings that have a gap or were placed later: %s",
                         when, inner.message);
        }
    }
    ss_free(flexibility);
    return status;
}

/* ---- first stage -------------------------------------------------------------------------------- */

static const char *const alone = "while the cars stand alone under their own weight";

/* The first-stage mesh has the stations of `mesh`, and so the same nodes. */
static ss_status build_alone(const ss_bridge *bridge, const ss_mesh *mesh, ss_mesh *out, ss_error *error) {
    static const ss_slab_stage bare = {0};
    const ss_mesh_options options = {.joints = false, .refine = mesh->refine, .slab = &bare};
    return ss_mesh_build(bridge, options, out, error);
}

/* Springs of bearings come in the same order in both meshes: puts those of the first stage where the whole
 * mesh has them. */
static void map_springs(const ss_mesh *from, const ss_mesh *to, const double *values, double *out) {
    int next = 0;
    for (int i = 0; i < to->spring_count; i++) {
        out[i] = 0.0;
        if (to->spring[i].owner == SS_MEMBER_BEARING) {
            while (next < from->spring_count && from->spring[next].owner != SS_MEMBER_BEARING) next++;
            out[i] = next < from->spring_count ? values[next++] : 0.0;
        }
    }
}

/* Replaces the arrays of a first-stage state by ones in the order of the whole mesh's springs. */
static ss_status adopt_state(const ss_mesh *from, const ss_mesh *to, ss_state *state, ss_error *error) {
    double **const arrays[3] = {&state->force, &state->opening, &state->offset};
    for (int i = 0; i < 3; i++) {
        double *const mapped = ss_alloc((size_t)to->spring_count, sizeof *mapped);
        if (mapped == NULL) {
            return ss_no_memory(error);
        }
        map_springs(from, to, *arrays[i], mapped);
        ss_free(*arrays[i]);
        *arrays[i] = mapped;
    }
    state->load.mesh = to;
    return SS_OK;
}

static ss_status solve_alone(const ss_bridge *bridge, ss_permanent *p, ss_error *error) {
    const ss_mesh *mesh = ss_grillage_mesh(p->grillage);
    ss_status status = SS_OK;
    ss_mesh cars = {0};
    ss_grillage *grillage = NULL;
    ss_update *update = NULL;
    bool *absent = NULL;
    double *offset = NULL;
    ss_load load = {0};
    ss_error inner = {0};
    SS_TRY(build_alone(bridge, mesh, &cars, error));
    status = ss_grillage_create(&cars, &grillage, &inner);
    if (status != SS_OK) {
        ss_error_set(error, status, "%s, before they are joined: %s", alone, inner.message);
        goto done;
    }
    absent = ss_alloc((size_t)cars.spring_count, sizeof *absent);
    offset = ss_alloc((size_t)cars.spring_count, sizeof *offset);
    if (absent == NULL || offset == NULL) {
        status = ss_no_memory(error);
        goto done;
    }
    SS_TRY(leave_out_late(grillage, absent, &update, alone, error));
    SS_TRY(ss_load_create(&cars, &load, error));
    ss_load_add(&load, 1.0, &p->cars);
    const ss_state_task task = {grillage, update, update == NULL ? NULL : absent, offset, alone};
    SS_TRY(ss_state_solve(&task, &load, &p->cars_alone, error));
    SS_TRY(adopt_state(&cars, mesh, &p->cars_alone, error));
done:
    ss_load_destroy(&load);
    ss_free(offset);
    ss_free(absent);
    ss_update_destroy(update);
    ss_grillage_destroy(grillage);
    ss_mesh_destroy(&cars);
    return status;
}

static bool has_joints(const ss_mesh *mesh) {
    for (int i = 0; i < mesh->spring_count; i++) {
        if (mesh->spring[i].owner == SS_MEMBER_JOINT) {
            return true;
        }
    }
    return false;
}

static ss_status lock_joints(const ss_bridge *bridge, ss_permanent *p, ss_error *error) {
    const ss_mesh *mesh = ss_grillage_mesh(p->grillage);
    if (!bridge->cars_first || !has_joints(mesh)) {
        return SS_OK;
    }
    const ss_status status = solve_alone(bridge, p, error);
    for (int i = 0; status == SS_OK && i < mesh->spring_count; i++) {
        if (mesh->spring[i].owner == SS_MEMBER_JOINT) {
            p->lock[i] = ss_row_dot(&mesh->spring[i].row, p->cars_alone.u);
        }
    }
    return status;
}

/* ---- seats -------------------------------------------------------------------------------------- */

/* Settlement of an ordinary bearing; for a late one, besides, where the present dead load leaves it, less its
 * gap. */
static ss_status find_seats(ss_permanent *p, ss_error *error) {
    const ss_mesh *mesh = ss_grillage_mesh(p->grillage);
    ss_status status = SS_OK;
    ss_update *update = NULL;
    ss_state state = {0};
    ss_load load = {0};
    double *offset = NULL;
    bool *const absent = ss_alloc((size_t)mesh->spring_count, sizeof *absent);
    if (absent == NULL) {
        return ss_no_memory(error);
    }
    const char *const when = "under the present dead load";
    SS_TRY(leave_out_late(p->grillage, absent, &update, when, error));
    if (update != NULL) {
        offset = ss_alloc((size_t)mesh->spring_count, sizeof *offset);
        if (offset == NULL) {
            status = ss_no_memory(error);
            goto done;
        }
        /* Seats are still zero here, so that this is the dead load and what the joints have locked in. */
        SS_TRY(ss_permanent_loads(p, &(ss_load_sum){true, (ss_dead_factors){1.0, 1.0}, NULL, 0.0}, &load,
                                  offset, error));
        const ss_state_task task = {
            p->grillage, update, absent, offset,
            "under the present dead load, without the bearings that have a gap or were placed later,"};
        SS_TRY(ss_state_solve(&task, &load, &state, error));
    }
    for (int i = 0; i < mesh->spring_count; i++) {
        const ss_spring *spring = &mesh->spring[i];
        if (spring->owner != SS_MEMBER_BEARING) {
            continue;
        }
        const ss_bearing *bearing = &mesh->bridge->bearings[spring->index];
        p->seat[i] = absent[i] && state.u != NULL ? ss_row_dot(&spring->row, state.u) : 0.0;
        if (spring->kind == SS_SPRING_VERTICAL) {
            p->seat[i] += bearing->settlement + bearing->gap;
        }
    }
done:
    ss_load_destroy(&load);
    ss_state_destroy(&state);
    ss_free(offset);
    ss_update_destroy(update);
    ss_free(absent);
    return status;
}

/* ---- contact fields ----------------------------------------------------------------------------- */

/* Refined, unlike other influence fields: the state of contact hangs on small sums of large reactions. */
static ss_status find_contact_field(ss_permanent *p, ss_error *error) {
    const int *springs;
    const double *S;
    const ss_mesh *mesh = ss_grillage_mesh(p->grillage);
    const size_t n = (size_t)ss_grillage_contact(p->grillage, &springs, &S);
    const size_t order = (size_t)mesh->order;
    ss_status status = SS_OK;
    double *const tile = ss_alloc(order * SS_TILE, sizeof *tile);
    p->contact_field = ss_alloc(order * n, sizeof *p->contact_field);
    if (tile == NULL || p->contact_field == NULL) {
        status = ss_no_memory(error);
        goto done;
    }
    for (size_t first = 0; first < n; first += SS_TILE) {
        const size_t count = n - first < SS_TILE ? n - first : SS_TILE;
        SS_TRY(ss_grillage_settle_refined(p->grillage, (int)count, springs + first, tile, error));
        for (size_t dof = 0; dof < order; dof++) {
            memcpy(p->contact_field + dof * n + first, tile + dof * SS_TILE, count * sizeof *tile);
        }
    }
done:
    ss_free(tile);
    return status;
}

/* ---- public ------------------------------------------------------------------------------------- */

ss_status ss_permanent_loads(const ss_permanent *permanent, const ss_load_sum *sum, ss_load *load,
                             double *offset, ss_error *error) {
    const ss_mesh *mesh = ss_grillage_mesh(permanent->grillage);
    ss_load made = {0};
    const ss_status status = ss_load_create(mesh, &made, error);
    if (status != SS_OK) {
        return status;
    }
    if (sum->dead) {
        ss_load_add(&made, sum->factors.dc, &permanent->cars);
        ss_load_add(&made, sum->factors.dc, &permanent->added);
        ss_load_add(&made, sum->factors.dw, &permanent->wearing);
        for (int c = 0; c < 2 && permanent->stage_count > 0; c++) {
            ss_load_add(&made, c == (int)SS_COMPONENT_DC ? sum->factors.dc : sum->factors.dw,
                        &permanent->locked[c]);
        }
    }
    if (sum->extra != NULL) {
        ss_load_add(&made, sum->factor, sum->extra);
    }
    for (int i = 0; i < mesh->spring_count; i++) {
        const ss_spring *spring = &mesh->spring[i];
        offset[i] = 0.0;
        if (sum->dead) {
            offset[i] = permanent->seat[i] + sum->factors.dc * permanent->lock[i];
        } else if (spring->owner == SS_MEMBER_BEARING && spring->kind == SS_SPRING_VERTICAL) {
            offset[i] =
                mesh->bridge->bearings[spring->index].gap + mesh->bridge->bearings[spring->index].settlement;
        }
    }
    *load = made;
    return SS_OK;
}

ss_status ss_permanent_state(const ss_permanent *permanent, bool dead, ss_dead_factors factors,
                             const ss_load *extra, double factor, ss_state *out, ss_error *error) {
    const ss_mesh *mesh = ss_grillage_mesh(permanent->grillage);
    ss_status status = SS_OK;
    ss_load load = {0};
    double *const offset = ss_alloc((size_t)mesh->spring_count, sizeof *offset);
    if (offset == NULL) {
        return ss_no_memory(error);
    }
    SS_TRY(ss_permanent_loads(permanent, &(ss_load_sum){dead, factors, extra, factor}, &load, offset, error));
    const char *const when = extra == NULL ? "under dead load"
                             : dead        ? "under dead load and the load on it"
                                           : "under the load alone";
    const ss_state_task task = {permanent->grillage, NULL, NULL, offset, when};
    SS_TRY(ss_state_solve(&task, &load, out, error));
done:
    ss_load_destroy(&load);
    ss_free(offset);
    return status;
}

void ss_permanent_destroy(ss_permanent *permanent) {
    if (permanent == NULL) {
        return;
    }
    ss_load_destroy(&permanent->cars);
    ss_load_destroy(&permanent->added);
    ss_load_destroy(&permanent->wearing);
    ss_free(permanent->lock);
    ss_free(permanent->seat);
    ss_free(permanent->contact_field);
    ss_stages_destroy(permanent);
    ss_state_destroy(&permanent->cars_alone);
    ss_state_destroy(&permanent->present);
    *permanent = (ss_permanent){0};
}

/* Loads, and arrays of the springs. */
static ss_status begin(const ss_bridge *bridge, int which, ss_permanent *p, ss_error *error) {
    const size_t springs = (size_t)ss_grillage_mesh(p->grillage)->spring_count;
    p->lock = ss_alloc(springs, sizeof *p->lock);
    p->seat = ss_alloc(springs, sizeof *p->seat);
    return p->lock == NULL || p->seat == NULL ? ss_no_memory(error) : build_loads(bridge, which, p, error);
}

static ss_status find_present(ss_permanent *p, ss_error *error) {
    return ss_permanent_state(p, true, (ss_dead_factors){1.0, 1.0}, NULL, 0.0, &p->present, error);
}

ss_status ss_permanent_today(const ss_bridge *bridge, const ss_grillage *grillage, ss_permanent *out,
                             ss_error *error) {
    ss_status status = SS_OK;
    ss_permanent p = {.grillage = grillage};
    SS_TRY(begin(bridge, SS_DEAD_TODAY, &p, error));
    SS_TRY(lock_joints(bridge, &p, error));
    SS_TRY(find_seats(&p, error));
    SS_TRY(find_present(&p, error));
    *out = p;
    p = (ss_permanent){0};
done:
    ss_permanent_destroy(&p);
    return status;
}

ss_status ss_permanent_compute(const ss_bridge *bridge, const ss_grillage *grillage, ss_permanent *out,
                               ss_error *error) {
    ss_status status = SS_OK;
    ss_permanent p = {.grillage = grillage};
    if (bridge->slab.given) {
        SS_TRY(begin(bridge, SS_DEAD_IN_THE_END, &p, error));
        SS_TRY(ss_stages_compute(bridge, &p, error));
        SS_TRY(find_present(&p, error));
    } else {
        SS_TRY(ss_permanent_today(bridge, grillage, &p, error));
    }
    SS_TRY(find_contact_field(&p, error));
    *out = p;
    p = (ss_permanent){0};
done:
    ss_permanent_destroy(&p);
    return status;
}

double ss_permanent_added(const ss_permanent *permanent, int stage, const ss_effect *effect) {
    const ss_permanent_stage *const own = &permanent->stages[stage];
    const double after = ss_state_effect(own->mesh, &own->state, effect);
    const ss_permanent_stage *const last = stage > 0 ? own - 1 : NULL;
    return last == NULL ? after : after - ss_state_effect(last->mesh, &last->state, effect);
}
